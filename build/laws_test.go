package build_test

import (
	"fmt"
	"io/fs"
	"math"
	"math/rand"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/shelf"
	"wetside/procedures/unit"
)

// A law holds across the cards of one binder, whatever the lab. Each says what it
// finds broken, worked out once more from the lab's own words.
var laws = []struct {
	name  string
	check func(*court)
}{
	{"a time is that of the process’s temperature, or refused as in the table", timesByTemperature},
	{"a film is fixed by its own factor", fixedByGrain},
	{"an amount is the same on every card, or refused on all", amountsAgree},
	{"a tally has its done boxes struck, and then as many as the bath has left", talliesCount},
	{"a limit that is reached ends the bath, one that cannot be counted makes it unjudged", limitsEnd},
	{"nothing dead, missing or short is silent", nothingSilent},
	{"no card forbids what another tells to do", neverAgainstDo},
	{"what to wear is never less than the lab’s own cautions ask", gearIsUnion},
	{"a route names no forbidden drum as if the others were allowed", routesForbid},
	{"a bath that harms above a temperature says so in every process", stopsAbove},
	{"a review that is past shows on the card and on the front page", reviewsShow},
	{"one of anything is not many", oneIsOne},
}

// court is one binder before the laws.
type court struct {
	lab      *lab.Lab
	r        *build.Result
	figures  map[string]*figure.Record
	pages    map[string]page.Page
	verdicts map[string]figure.Verdict
	words    map[string]string // of a page, once somebody asked for them
	broken   []string
}

func newCourt(r *build.Result) *court {
	c := &court{lab: r.Loaded.Lab, r: r, figures: figuresOf(r), pages: map[string]page.Page{}, verdicts: map[string]figure.Verdict{}, words: map[string]string{}}
	for _, p := range r.Binder.Pages {
		c.pages[p.ID] = p
	}
	for _, v := range r.Binder.Verdicts {
		c.verdicts[v.ID] = v
	}
	return c
}

// said are the words of a page, one piece a line.
func (c *court) said(p page.Page) string {
	said, ok := c.words[p.ID]
	if !ok {
		var b strings.Builder
		page.Inlines(p, func(in page.Inline) {
			b.WriteString(in.Text)
			b.WriteByte('\n')
		})
		said = b.String()
		c.words[p.ID] = said
	}
	return said
}

func (c *court) failed(format string, args ...any) {
	c.broken = append(c.broken, fmt.Sprintf(format, args...))
}

// holds runs every law over a binder and returns what it finds broken.
func (c *court) holds() []string {
	for _, l := range laws {
		n := len(c.broken)
		l.check(c)
		for i := n; i < len(c.broken); i++ {
			c.broken[i] = l.name + ": " + c.broken[i]
		}
	}
	return c.broken
}

// TestLaws holds the laws against the demonstration and three other labs.
func TestLaws(t *testing.T) {
	for name := range labs {
		t.Run(name, func(t *testing.T) {
			require.Empty(t, newCourt(boundLab(t, name)).holds())
		})
	}
}

// TestLawsUnderChange holds them against two hundred seeded changes of each lab: a
// temperature, a fill, a limit, a draw, a price … made larger or smaller.
func TestLawsUnderChange(t *testing.T) {
	const changes = 200
	for name := range labs {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			files := map[string]string{}
			src := labFS(t, name)
			require.NoError(t, fs.WalkDir(src, ".", func(path string, d fs.DirEntry, err error) error {
				if err == nil && !d.IsDir() {
					b, err := fs.ReadFile(src, path)
					files[path] = string(b)
					return err
				}
				return err
			}))
			random := rand.New(rand.NewSource(20261126))
			worked := 0
			for range changes {
				path, text, what := change(random, files)
				changed := fstest.MapFS{}
				for p, s := range files {
					changed[p] = &fstest.MapFile{Data: []byte(s)}
				}
				changed[path] = &fstest.MapFile{Data: []byte(text)}
				r, err := build.Work(labOptions(t, name, changed))
				require.NoError(t, err, what)
				if r.Faults.HasErrors() { // noticed, with its place
					continue
				}
				worked++
				require.Empty(t, newCourt(r).holds(), what)
			}
			require.Greater(t, worked, changes/2)
		})
	}
}

var quantities = regexp.MustCompile(`"[^"\n]*?(\d+(?:\.\d+)?)(?: ?x)? ?(?:mL|L|g|kg|°C|K|s|min|%|m2/L|rolls/L|g/L|mL/roll|/L|uses|days|weeks|months|h|/K|EUR|[a-z0-9-]+\.[0-9a-z-]+)[^"\n]*"`)

// change makes one number of one file larger or smaller.
func change(random *rand.Rand, files map[string]string) (path, text, what string) {
	var paths []string
	for p := range files {
		if strings.HasSuffix(p, ".toml") && p != "local.toml" {
			paths = append(paths, p)
		}
	}
	sort.Strings(paths)
	for {
		path = paths[random.Intn(len(paths))]
		text = files[path]
		all := quantities.FindAllStringSubmatchIndex(text, -1)
		if len(all) == 0 {
			continue
		}
		at := all[random.Intn(len(all))]
		old := text[at[2]:at[3]]
		n, err := strconv.ParseFloat(old, 64)
		if err != nil {
			continue
		}
		switch by := []float64{.5, .8, .95, 1.05, 1.25, 2}[random.Intn(6)]; {
		case strings.Contains(text[at[0]:at[1]], "°C"):
			n = math.Round(n + (by-1)*8)
		case strings.Contains(old, "."):
			n *= by
		default:
			n = math.Max(1, math.Round(n*by))
		}
		fresh := strconv.FormatFloat(unit.Snap(n), 'f', -1, 64)
		return path, text[:at[2]] + fresh + text[at[3]:], fmt.Sprintf("%s: %s becomes %s in %s", path, old, fresh, text[at[0]:at[1]])
	}
}

// —— the laws ——

// clockRow is the row of a process card for a step.
func clockRow(p page.Page, step string) (page.ClockRow, bool) {
	for _, b := range p.Do {
		if clock, ok := b.(page.Clock); ok {
			for _, r := range clock.Rows {
				if r.ID == step {
					return r, true
				}
			}
		}
	}
	return page.ClockRow{}, false
}

// chosen is the figure of a text for one choice.
func chosen(t page.Text, choice int) string {
	for _, in := range t {
		if n := len(in.Figures); n > 0 {
			return in.Figures[min(choice, n-1)].ID
		}
	}
	return ""
}

// materialOf is the material that a choice's label names.
func (c *court) materialOf(ch page.Choice) *lab.Material {
	for _, m := range c.lab.Materials {
		for _, in := range ch.Label {
			if in.Kind == page.Name && in.Text == m.Name {
				return m
			}
		}
	}
	return nil
}

// timedStep is the step whose time is the material's, and its bath.
func (c *court) timedStep(p *lab.Process) (lab.ProcessStep, lab.Bath, bool) {
	for i, s := range p.Steps {
		if b, bad := c.lab.Bath(s.Bath, p.At(lab.StepKey(i))); s.Time.Material && len(bad) == 0 {
			return s, b, true
		}
	}
	return lab.ProcessStep{}, lab.Bath{}, false
}

// timeAt works out a development time once more; not ok where there must be none.
func (c *court) timeAt(m *lab.Material, b lab.Bath, at float64) (seconds float64, ok bool) {
	d := b.Decl()
	for i, dev := range m.Develop {
		in, bad := c.lab.Bath(dev.In, m.At(fmt.Sprintf("develop[%d]", i)))
		if len(bad) > 0 || in.Ref() != b.Ref() {
			continue
		}
		t, was := float64(dev.Time.Value()), float64(dev.At.Value())
		shortest := 0.0
		if m.Base == "film" {
			shortest = float64(c.lab.Place.House.Filled().Shortest.Value())
		}
		if d != nil {
			w := d.Temperature
			if w.From.Given() && (at < float64(w.From.Low()) || at > float64(w.From.High())) {
				return 0, false
			}
			if w.Shortest.Given() {
				shortest = float64(w.Shortest.Value())
			}
			if at != was {
				switch {
				case w.Slope.Given():
					t *= math.Exp(-float64(w.Slope.Value()) * (at - was))
				case len(w.Measured) == 2:
					cold, warm := w.Measured[0], w.Measured[1]
					k := math.Log(float64(cold.Time.Value())/float64(warm.Time.Value())) / (float64(warm.At.Value()) - float64(cold.At.Value()))
					t *= math.Exp(-k * (at - was))
				default:
					return 0, false
				}
			}
		} else if at != was {
			return 0, false
		}
		if t < shortest-1e-9 {
			return 0, false
		}
		if at != was {
			step := float64(c.lab.Place.House.Filled().TimeStep.Value())
			t = math.Floor(t/step+.5) * step
		}
		return t, true
	}
	return 0, false
}

func (c *court) sameTime(what, id string, seconds float64, ok bool) {
	f, found := c.figures[id]
	switch {
	case !found:
		c.failed("%s: no figure %q", what, id)
	case ok && f.Refused():
		c.failed("%s: refused (%s), and %s is right", what, f.Why, figure.Clock(seconds))
	case !ok && !f.Refused():
		c.failed("%s: %s, and there must be no time", what, f.Shown)
	case ok && f.Shown != figure.Clock(seconds):
		// A tie may fall either way: half a step in the last binary digit.
		c.failed("%s: %s, and %s is right", what, f.Shown, figure.Clock(seconds))
	}
}

func timesByTemperature(c *court) {
	for _, p := range c.lab.Processes {
		step, bath, ok := c.timedStep(p)
		card := c.pages["process/"+p.ID]
		if !ok {
			continue
		}
		row, found := clockRow(card, step.ID)
		if !found {
			c.failed("%s has no row for %s", card.ID, step.ID)
			continue
		}
		for i, ch := range card.Choices {
			m := c.materialOf(ch)
			at := 0.0
			for _, dev := range m.Develop {
				if in, bad := c.lab.Bath(dev.In, m.At("develop")); len(bad) == 0 && in.Ref() == bath.Ref() {
					at = float64(dev.At.Value())
				}
			}
			if q := p.Temperature.At; q.Given() {
				at = float64(q.Value())
			}
			seconds, ok := c.timeAt(m, bath, at)
			c.sameTime(fmt.Sprintf("%s of %s at %g °C", card.ID, ch.Variant, at), chosen(row.For, i), seconds, ok)
			for _, b := range card.Do {
				temps, is := b.(page.Temps)
				if !is {
					continue
				}
				for _, cell := range temps.Cells {
					degrees := c.figures[chosen(cell.At, 0)].Value
					seconds, ok := c.timeAt(m, bath, degrees)
					id := cell.Time[min(i, len(cell.Time)-1)].ID
					c.sameTime(fmt.Sprintf("%s, its table, %s at %g °C", card.ID, ch.Variant, degrees), id, seconds, ok)
					if cell.Ref && degrees == at && id != chosen(row.For, i) {
						c.failed("%s: the clock has %s and the table %s", card.ID, chosen(row.For, i), id)
					}
				}
			}
		}
	}
}

func fixedByGrain(c *court) {
	rule := c.lab.Place.House.Filled().FixClearing
	for _, p := range c.lab.Processes {
		card := c.pages["process/"+p.ID]
		for _, s := range p.Steps {
			row, found := clockRow(card, s.ID)
			if !s.Time.Clearing || !found {
				continue
			}
			for i, ch := range card.Choices {
				m := c.materialOf(ch)
				times := float64(rule.Film.Count)
				if m.Grain == "tabular" {
					times = float64(rule.Tabular.Count)
				}
				f := c.figures[chosen(row.For, i)]
				if !m.Clears.Given() {
					if !f.Refused() || !strings.Contains(f.Why, fmt.Sprintf("fix for %g times", times)) {
						c.failed("%s, %s: %q", card.ID, ch.Variant, f.Shown+f.Why)
					}
					continue
				}
				t := times * float64(m.Clears.Value())
				if s.Least.Given() {
					t = math.Max(t, float64(s.Least.Value()))
				}
				step := float64(c.lab.Place.House.Filled().TimeStep.Value())
				if want := figure.Clock(math.Ceil(t/step-1e-9) * step); f.Shown != want {
					c.failed("%s, %s: fixed %s, and %s is right", card.ID, ch.Variant, f.Shown, want)
				}
				if said := chosen(row.ForNote, i); c.figures[said].Value != times {
					c.failed("%s, %s: %q times the clearing time, and %g is right", card.ID, ch.Variant, c.figures[said].Shown, times)
				}
			}
		}
	}
}

// rowOf is the row of a vessel in a table.
func rowOf(t page.Table, v capacity.Vessel) (page.Row, bool) {
	for _, r := range t.Rows {
		var names []string
		for _, in := range r.Cells[0].Text {
			if in.Kind == page.Name {
				names = append(names, in.Text)
			}
		}
		if names[0] == v.Name && (v.Tray || slices.Contains(names, v.Family)) {
			return r, true
		}
	}
	return page.Row{}, false
}

func amountsAgree(c *court) {
	tanks, trays := capacity.Vessels(c.lab)
	for _, p := range c.lab.Processes {
		card := c.pages["process/"+p.ID]
		for i, s := range p.Steps {
			b, bad := c.lab.Bath(s.Bath, p.At(lab.StepKey(i)))
			row, found := clockRow(card, s.ID)
			if len(bad) > 0 || b.Zero() || !found || s.Fill.Given() || b.Decl() == nil || !b.Decl().Dilute.Given() || b.Decl().Dilute.None() {
				continue
			}
			for n, ch := range card.Choices {
				for _, v := range append(slices.Clone(tanks), trays...) {
					if !c.stands(ch, v) {
						continue
					}
					onCard := chosen(row.Bath, n)
					mixing, ok := c.tableOf("mix/"+b.Def().ID, b.Strength)
					if !ok {
						c.failed("%s uses %s, and its mixing card has no table for it", card.ID, b.Ref())
						continue
					}
					r, ok := rowOf(mixing, v)
					if !ok {
						c.failed("mix/%s, %s has no row for the %s, %s", b.Def().ID, b.Strength, v.Name, v.Family)
						continue
					}
					cell := r.Cells[1]
					refused := c.figures[onCard].Refused()
					switch {
					case cell.No != refused:
						c.failed("%s in the %s: %s says %q, the mixing card %v", b.Ref(), v.Name, card.ID, onCard, cell)
					case !cell.No && chosen(cell.Text, 0) != onCard:
						c.failed("%s in the %s: %s says %q, the mixing card %q", b.Ref(), v.Name, card.ID, onCard, chosen(cell.Text, 0))
					case !refused:
						c.enough(b, v, onCard)
					}
					if refused && !strings.Contains(words(row.Caution), "Not in the") {
						c.failed("%s refuses %s in the %s and does not say why", card.ID, b.Ref(), v.Name)
					}
				}
			}
		}
	}
}

// stands reports whether a choice of a card is for a vessel.
func (c *court) stands(ch page.Choice, v capacity.Vessel) bool {
	tank, family, _ := strings.Cut(v.Key, ",")
	_, last, _ := strings.Cut(ch.Variant, "+")
	if i := strings.LastIndex(last, "."); i >= 0 {
		last = last[i+1:]
	}
	id, only, split := strings.Cut(last, ",")
	m := c.materialOf(ch)
	if id != tank || split && only != family {
		return false
	}
	if m == nil || v.Tray {
		return true
	}
	for _, format := range m.Formats {
		if f, _, ok := c.lab.FormatOf(m, format); ok && f.Family == family {
			return true
		}
	}
	return false
}

func (c *court) tableOf(card, id string) (page.Table, bool) {
	p := c.pages[card]
	for _, b := range append(slices.Clone(p.Do), p.Tables...) {
		if t, ok := b.(page.Table); ok && t.ID == id {
			return t, true
		}
	}
	return page.Table{}, false
}

// enough works out once more what is drawn, that it is within the house's error of
// the dilution, and that it is enough for what the tank is said to serve.
func (c *court) enough(b lab.Bath, v capacity.Vessel, id string) {
	dil := b.Decl().Dilute
	if !dil.Given() {
		return
	}
	exact := float64(v.Fill.Value()) * dil.Stock.Float() / (dil.Stock.Float() + dil.Water.Float())
	shown, err := strconv.ParseFloat(c.figures[id].Rounded, 64)
	if err != nil {
		c.failed("%s is no number: %q", id, c.figures[id].Rounded)
		return
	}
	if c.figures[id].Unit == "L" {
		shown *= 1000
	}
	if math.Abs(shown-exact)/exact > .06 {
		c.failed("%s: %g ml, and the dilution wants %g", id, shown, exact)
	}
	needs := b.Decl().Needs
	if v.Tray || !needs.Given() {
		return
	}
	served := c.figures[b.Ref()+"/rolls@"+v.Key]
	each := float64(needs.Value()) * c.equivalent(v.Family)
	fits := math.Min(math.Floor(shown/each+1e-9), float64(v.Takes.N))
	if served.Value != fits {
		c.failed("%s serves %s in the %s, and %g is right", b.Ref(), served.Shown, v.Key, fits)
	}
}

// equivalent is how many rolls the largest format of a family counts as.
func (c *court) equivalent(family string) float64 {
	most := 0.0
	for _, f := range c.lab.Formats.Format {
		if f.Family == family && f.Rolls.Given() {
			most = math.Max(most, float64(f.Rolls.Value()))
		}
	}
	for _, m := range c.lab.Materials {
		for _, f := range m.Format {
			if f.Family == family && f.Rolls.Given() {
				most = math.Max(most, float64(f.Rolls.Value()))
			}
		}
	}
	if most == 0 {
		return 1
	}
	return most
}

// —— what a batch has done and has left, worked out once more ——

// spentBy says what of a batch's limits is reached and what cannot be counted, and
// how many more of a format it treats; unknown where that cannot be told.
type tally struct {
	reached, unknown bool
	worked           int
	left             func(f capacity.Format) (n int, known bool)
}

func (c *court) tallyOf(b *lab.Batch) (tally, lab.Bath) {
	bath, _ := c.lab.Bath(b.Of, b.At("of"))
	d := bath.Decl()
	start := b.Start()
	litres := float64(start.Value()) / 1000
	place := int(b.Place)
	second := false
	uses := 0
	type worked struct {
		n    int
		f    capacity.Format
		bare bool
	}
	var work []worked
	bases := map[lab.Base]bool{}
	t := tally{}
	cleared := 0.0
	for _, e := range b.Log {
		if e.Rotated {
			place = 1
		}
		if e.Place != 0 {
			place = int(e.Place)
		}
		if len(e.Worked) > 0 {
			uses++
			second = second || place == 2
		}
		for _, w := range e.Worked {
			t.worked += w.Count
			if w.Of == "" {
				work = append(work, worked{n: w.Count, bare: true})
				bases["film"] = true
				continue
			}
			f, _ := capacity.FormatNamed(c.lab, w.Of)
			work = append(work, worked{n: w.Count, f: f})
			bases[f.Material.Base] = true
		}
		if e.Cleared.Given() {
			cleared = float64(e.Cleared.Value())
		}
	}
	t.left = func(capacity.Format) (int, bool) { return 0, false }
	if d == nil {
		return t, bath
	}
	area, rolls, silver := 0.0, 0.0, float64(b.StartSilver.Value())*litres
	unknown := map[lab.LimitBasis]bool{"silver": second}
	for _, w := range work {
		a, okA := w.f.Area()
		q, okQ := w.f.Rolls()
		s, okS := figure.Figure[unit.Mass]{}, false
		if !w.bare {
			s, okS = capacity.SilverEach(c.lab, w.f)
		}
		if w.bare {
			a.Value, okA, q.Value, okQ = 516, true, 1, true
		}
		area += float64(w.n) * float64(a.Value)
		rolls += float64(w.n) * float64(q.Value)
		if !second {
			silver += float64(w.n) * float64(s.Value)
		}
		unknown["area"] = unknown["area"] || !okA
		unknown["rolls"] = unknown["rolls"] || !okQ
		unknown["silver"] = unknown["silver"] || !okS
	}
	count := func(of string) int {
		n := 0
		for _, w := range work {
			if !w.bare && w.f.Ref() == of {
				n += w.n
			}
		}
		return n
	}
	if len(bases) == 0 {
		for _, base := range c.lab.BasesOf(bath) {
			bases[base] = true
		}
	}
	tested := false
	for base := range bases {
		for _, l := range d.LimitsFor(base, place) {
			done, most, cannot := 0.0, 0.0, unknown[l.By]
			switch l.By {
			case "area":
				done, most = area/1e4/litres, float64(l.Most.Area.Value())
			case "rolls":
				done, most = rolls/litres, float64(l.Most.Rolls.Value())
			case "count":
				done, most = float64(count(l.Of))/litres, float64(l.Most.PerLitre.Value())
			case "uses":
				done, most = float64(uses), float64(l.Most.Uses.Value())
			case "silver":
				done, most = silver/litres, float64(l.Most.Silver.Value())
			case "clearing":
				tested = true
				if cleared == 0 {
					continue
				}
				if !b.FreshClears.Given() {
					t.unknown = true
					continue
				}
				done, most = cleared/float64(b.FreshClears.Value()), float64(l.Most.Clearing.Value())
			}
			if len(work) == 0 && l.By != "clearing" && l.By != "silver" {
				continue
			}
			t.reached = t.reached || done >= most-1e-9
			t.unknown = t.unknown || cannot
		}
	}
	if cleared > 0 && !tested {
		if b.FreshClears.Given() {
			t.reached = t.reached || cleared/float64(b.FreshClears.Value()) >= 2-1e-9
		} else {
			t.unknown = true
		}
	}
	t.left = func(f capacity.Format) (int, bool) {
		least, some := math.Inf(1), false
		for _, l := range d.LimitsFor(f.Material.Base, place) {
			room := math.Inf(1)
			switch l.By {
			case "area":
				a, ok := f.Area()
				if !ok || unknown["area"] {
					return 0, false
				}
				room = (float64(l.Most.Area.Value())*litres*1e4 - area) / float64(a.Value)
			case "rolls":
				q, ok := f.Rolls()
				if !ok || unknown["rolls"] {
					return 0, false
				}
				room = (float64(l.Most.Rolls.Value())*litres - rolls) / float64(q.Value)
			case "count":
				if l.Of != f.Ref() {
					continue
				}
				room = float64(l.Most.PerLitre.Value())*litres - float64(count(l.Of))
			case "uses":
				room = float64(l.Most.Uses.Value()) - float64(uses)
			case "silver":
				s, ok := capacity.SilverEach(c.lab, f)
				if !ok || unknown["silver"] {
					return 0, false
				}
				room = (float64(l.Most.Silver.Value())*litres - silver) / float64(s.Value)
			default:
				continue
			}
			least, some = math.Min(least, math.Floor(room+1e-9)), true
		}
		return int(math.Max(0, least)), some
	}
	return t, bath
}

func limitsEnd(c *court) {
	for _, b := range c.lab.Batches {
		t, bath := c.tallyOf(b)
		v := c.verdicts[b.ID+"/state"]
		switch {
		case t.reached && v.Answer != shelf.Dead:
			c.failed("%s is past a limit of %s and stands as %s", b.ID, bath.Ref(), v.Answer)
		case !t.reached && t.unknown && (v.Answer == shelf.Good || v.Answer == shelf.Dying):
			c.failed("%s cannot be counted against a limit of %s and stands as %s", b.ID, bath.Ref(), v.Answer)
		}
		card := c.pages["label/"+b.ID]
		for _, l := range labelTables(card, "used") {
			for _, r := range l.Rows {
				if len(r.Cells) != 3 {
					c.failed("%s: what is used stands without its limit", card.ID)
				}
			}
		}
	}
}

func labelTables(p page.Page, id string) []page.Table {
	var out []page.Table
	for _, b := range p.Tables {
		if t, ok := b.(page.Table); ok && t.ID == id {
			out = append(out, t)
		}
	}
	return out
}

func talliesCount(c *court) {
	for _, b := range c.lab.Batches {
		card := c.pages["label/"+b.ID]
		t, bath := c.tallyOf(b)
		d := bath.Decl()
		answer := c.verdicts[b.ID+"/state"].Answer
		for _, block := range card.Do {
			l, ok := block.(page.Label)
			if !ok {
				continue
			}
			for _, bottle := range l.For {
				for _, ticks := range bottle.Tally {
					open := ticks.Boxes - ticks.Done
					switch {
					case ticks.Done != t.worked:
						c.failed("%s: %d boxes struck, and %d are done", card.ID, ticks.Done, t.worked)
					case answer == shelf.Dead && open > 0:
						c.failed("%s is dead and has %d boxes open", card.ID, open)
					case answer == shelf.Unsure && open > 0:
						c.failed("%s cannot be judged and has %d boxes open", card.ID, open)
					case answer == shelf.Good || answer == shelf.Dying:
						f, named := formatIn(c.lab, ticks.Label)
						if !named && open > 0 {
							c.failed("%s: %d boxes open, and nobody says for what", card.ID, open)
						}
						if !named {
							continue
						}
						if want, known := t.left(f); known && want != open {
							c.failed("%s: %d boxes open for %s, and %d more fit", card.ID, open, f.Ref(), want)
						}
					}
				}
				if d != nil && d.Use == "re-use" && len(d.Limits) > 0 && len(bottle.Tally) == 0 && answer != shelf.Dead && len(c.lab.BasesOf(bath)) > 0 {
					c.failed("%s has no tally", card.ID)
				}
			}
		}
	}
}

// formatIn is the format that a text names.
func formatIn(l *lab.Lab, t page.Text) (capacity.Format, bool) {
	for _, f := range capacity.Formats(l, l.Materials...) {
		for _, in := range t {
			if in.Kind == page.Name && in.Text == f.Name() {
				return f, true
			}
		}
	}
	return capacity.Format{}, false
}

// words flattens texts.
func words(list []page.Text) string {
	var b strings.Builder
	for _, t := range list {
		for _, in := range t {
			b.WriteString(in.Text)
		}
		b.WriteString("\n")
	}
	return b.String()
}

func today(p page.Page) (string, []string) {
	said := ""
	var cards []string
	page.Inlines(page.Page{Today: p.Today}, func(in page.Inline) {
		said += in.Text
		if in.Kind == page.Link {
			cards = append(cards, in.Card)
		}
	})
	return said, cards
}

// parts are the baths that a bath is made of, by the lab's files alone.
func (c *court) parts(b lab.Bath) []lab.Bath {
	if b.Solution == nil {
		return nil
	}
	var out []lab.Bath
	for i, s := range b.Solution.Steps {
		if in, bad := c.lab.Resolve(s.Add, b.Solution.At(lab.StepKey(i))); len(bad) == 0 && !in.Bath.Zero() {
			out = append(out, in.Bath)
		}
	}
	return out
}

func nothingSilent(c *court) {
	if len(c.lab.Batches) == 0 || c.r.Binder.Day == "" {
		return
	}
	usable := map[string]float64{}
	for _, b := range c.lab.Batches {
		bath, _ := c.lab.Bath(b.Of, b.At("of"))
		switch c.verdicts[b.ID+"/state"].Answer {
		case shelf.Dead:
			said := ""
			page.Inlines(c.pages["label/"+b.ID], func(in page.Inline) { said += in.Text })
			if !strings.Contains(said, "Dead: do not use.") {
				c.failed("label/%s does not say that it is dead", b.ID)
			}
			if p, ok := c.pages["reuse/"+b.ID]; ok {
				c.failed("%s: a strip for a dead batch", p.ID)
			}
		case shelf.Good, shelf.Dying:
			if f := c.figures[b.ID+"/left"]; f.Refused() {
				usable[bath.Ref()] = math.Inf(1)
			} else {
				usable[bath.Ref()] += f.Value
			}
		}
	}
	for _, p := range c.lab.Processes {
		card := c.pages["process/"+p.ID]
		said, cards := today(card)
		var walk func(b lab.Bath)
		seen := map[string]bool{}
		walk = func(b lab.Bath) {
			if seen[b.Ref()] {
				return
			}
			seen[b.Ref()] = true
			for _, batch := range c.lab.Batches {
				of, _ := c.lab.Bath(batch.Of, batch.At("of"))
				if of.Ref() == b.Ref() && c.verdicts[batch.ID+"/state"].Answer == shelf.Dead && !slices.Contains(cards, "label/"+batch.ID) {
					c.failed("%s does not say that %s of %s is dead", card.ID, batch.ID, b.Ref())
				}
			}
			if usable[b.Ref()] > 0 {
				return
			}
			d := b.Decl()
			diluted := d != nil && d.Dilute.Given()
			if (b.Solution != nil && !diluted || d != nil && (d.Use == "re-use" || d.Use == "replenish")) && !(strings.Contains(said, "Not on the shelf: ") && slices.Contains(cards, "mix/"+b.Def().ID)) {
				c.failed("%s does not say that %s is not on the shelf", card.ID, b.Ref())
			}
			if diluted {
				from := b
				from.Strength = d.From
				if from.Strength == "" {
					from.Strength = lab.Supplied
					if b.Solution != nil {
						from.Strength = b.Solution.MadeStrength()
					}
				}
				walk(from)
				return
			}
			for _, in := range c.parts(b) {
				walk(in)
			}
		}
		for i, s := range p.Steps {
			b, bad := c.lab.Bath(s.Bath, p.At(lab.StepKey(i)))
			if len(bad) > 0 || b.Zero() {
				continue
			}
			walk(b)
			row, found := clockRow(card, s.ID)
			if !found || b.Decl() == nil || b.Decl().Coat.Given() {
				continue
			}
			for n := range card.Choices {
				f := c.figures[chosen(row.Bath, n)]
				if f.Refused() || f.Kind != figure.KindAmount {
					continue
				}
				wants := f.Value
				if !strings.HasPrefix(f.ID, b.Ref()+"/") {
					continue
				}
				from := c.drawnFrom(b, f.ID)
				stands, here := usable[from]
				ready := usable[b.Ref()] >= c.fillOf(row.Bath, n)-1e-6
				if here && stands+1e-6 < wants && !ready && !strings.Contains(said, "Not enough: ") {
					c.failed("%s wants %g ml of %s, %g stand here, and it does not say so", card.ID, wants, from, stands)
				}
				if (here && stands >= wants-1e-6 || ready) && strings.Contains(said, "Not enough: "+b.Name()+", "+b.Strength) && len(card.Choices) == 1 {
					c.failed("%s says that %s is not enough, and it is", card.ID, b.Ref())
				}
			}
		}
	}
}

// fillOf is the volume that a row of a card fills a vessel to.
func (c *court) fillOf(t page.Text, choice int) float64 {
	last := math.Inf(1)
	for _, in := range t {
		if n := len(in.Figures); in.Kind == page.Fig && n > 0 {
			last = in.Figures[min(choice, n-1)].Value
		}
	}
	return last
}

// drawnFrom is the strength that an amount on a card is drawn from.
func (c *court) drawnFrom(b lab.Bath, id string) string {
	if d := b.Decl(); strings.Contains(id, "/draw@") && d != nil && d.Dilute.Given() && !d.Dilute.None() {
		from := b
		from.Strength = d.From
		if from.Strength == "" {
			from.Strength = lab.Supplied
			if b.Solution != nil {
				from.Strength = b.Solution.MadeStrength()
			}
		}
		return from.Ref()
	}
	return b.Ref()
}

func neverAgainstDo(c *court) {
	for _, p := range c.lab.Processes {
		said := ""
		page.Inlines(page.Page{Do: c.pages["process/"+p.ID].Do}, func(in page.Inline) { said += in.Text + "\n" })
		if !strings.Contains(said, "back to its bottle") {
			continue
		}
		for i, s := range p.Steps {
			b, bad := c.lab.Bath(s.Bath, p.At(lab.StepKey(i)))
			if len(bad) > 0 || b.Zero() || s.Waste != "" {
				continue
			}
			if d := b.Decl(); d == nil || d.Use != "re-use" && d.Use != "replenish" {
				continue
			}
			for _, id := range []string{"mix/" + b.Def().ID, "label/" + b.Ref(), "record/" + b.Def().ID} {
				forbidden := ""
				page.Inlines(page.Page{Never: c.pages[id].Never}, func(in page.Inline) { forbidden += in.Text + "\n" })
				if strings.Contains(forbidden, "pour a rest back") {
					c.failed("%s forbids what process/%s tells to do: pour it back", id, p.ID)
				}
			}
		}
	}
	for _, p := range c.r.Binder.Pages {
		if said, forbidden := p.Do, p.Never; p.Kind == "spill" {
			if strings.Contains(saidOn(page.Page{Never: forbidden}), "down the drain") && strings.Contains(saidOn(page.Page{Do: said}), "down the foul drain") {
				c.failed("%s both sends down the drain and forbids it", p.ID)
			}
		}
		never := map[string]bool{}
		page.Inlines(page.Page{Never: p.Never}, func(in page.Inline) {
			if len(strings.Fields(in.Text)) > 2 {
				never[in.Text] = true
			}
		})
		page.Inlines(page.Page{Do: p.Do, Before: p.Before}, func(in page.Inline) {
			if never[in.Text] && p.Kind != "spill" && p.Kind != "dispose" {
				c.failed("%s both says and forbids %q", p.ID, in.Text)
			}
		})
	}
}

var pieceWords = map[string]*regexp.Regexp{
	"goggles": regexp.MustCompile(`\bgoggles\b`), "face shield": regexp.MustCompile(`\bface shield\b`), "gloves": regexp.MustCompile(`\bgloves\b`),
	"tongs": regexp.MustCompile(`\btongs\b`), "dust mask": regexp.MustCompile(`\bdust mask\b`), "apron": regexp.MustCompile(`\bapron\b`), "extract": regexp.MustCompile(`\bextractor fan on\b`),
}

func gearIsUnion(c *court) {
	for _, b := range c.lab.Baths() {
		asked := map[string][]string{}
		ask := func(job string, texts ...string) { asked[job] = append(asked[job], texts...) }
		if s := b.Solution; s != nil && b.Strength == s.MadeStrength() {
			for _, step := range s.Steps {
				ask("weigh", step.Caution)
			}
		}
		for _, p := range c.lab.Processes {
			for i, step := range p.Steps {
				if in, bad := c.lab.Bath(step.Bath, p.At(lab.StepKey(i))); len(bad) == 0 && !in.Zero() && in.Ref() == b.Ref() {
					ask("work", step.Caution)
				}
			}
		}
		for job, texts := range asked {
			v, ok := c.verdicts[b.Ref()+"/protect@"+job]
			if !ok {
				c.failed("%s has no answer for what to wear at %s", b.Ref(), job)
				continue
			}
			for _, text := range texts {
				for piece, re := range pieceWords {
					if re.MatchString(strings.ToLower(text)) && !strings.Contains(v.Answer, piece) {
						c.failed("%s, %s: %q is asked for by %q, and the card says %q", b.Ref(), job, piece, text, v.Answer)
					}
				}
			}
		}
	}
	// The row on a card is what its verdict says.
	for _, p := range c.lab.Processes {
		gear := ""
		for _, block := range c.pages["process/"+p.ID].Before {
			if g, ok := block.(page.Gear); ok && g.Job == string(hazard.Work) {
				for _, item := range g.Items {
					gear += item.Word + ", "
				}
			}
		}
		for i, step := range p.Steps {
			b, bad := c.lab.Bath(step.Bath, p.At(lab.StepKey(i)))
			if len(bad) > 0 || b.Zero() {
				continue
			}
			for _, piece := range []string{"goggles", "gloves", "tongs", "apron", "extractor fan on", "face shield"} {
				if strings.Contains(c.verdicts[b.Ref()+"/protect@work"].Answer, piece) && !strings.Contains(gear, piece) {
					c.failed("process/%s: %s asks for %s, and the row has %q", p.ID, b.Ref(), piece, gear)
				}
			}
		}
	}
}

func routesForbid(c *court) {
	for _, b := range c.lab.Baths() {
		id := ""
		if b.Solution != nil {
			id = b.Solution.Waste
		} else {
			id = b.Product.Waste
		}
		w := c.lab.WasteRoute(id)
		drum := w != nil && w.Drum != ""
		drain := w != nil && w.Drain != "" && c.lab.Local.Permit.Drain != "" && c.lab.Local.Permit.Drain != "none"
		for _, card := range []string{"mix/" + b.Def().ID, "label/" + b.Ref()} {
			p, ok := c.pages[card]
			if !ok {
				continue
			}
			said := c.said(p)
			if strings.Contains(said, "not the drum for") {
				c.failed("%s names one forbidden drum as if the others were allowed", card)
			}
			own := strings.Contains(said, "not into any drum of this room")
			if !drum && !drain && !own {
				c.failed("%s does not say that %s goes not into any drum of this room", card, b.Ref())
			}
			if concentrate := b.Strength == lab.Supplied && len(b.Product.Strengths) > 0; drain && !drum && (concentrate || card == "mix/"+b.Def().ID && b.Product != nil) {
				// The permit speaks of what was worked in, not of the concentrate.
				if card == "mix/"+b.Def().ID && !(own && strings.Contains(said, "down the foul drain")) || !own {
					c.failed("%s does not tell apart where %s and its concentrate go", card, b.Ref())
				}
				continue
			}
			if (drum || drain) && own {
				c.failed("%s says that %s goes into no drum, and it has a route", card, b.Ref())
			}
		}
	}
}

func stopsAbove(c *court) {
	for _, p := range c.lab.Processes {
		for i, s := range p.Steps {
			b, bad := c.lab.Bath(s.Bath, p.At(lab.StepKey(i)))
			if len(bad) > 0 || b.Zero() || b.Decl() == nil {
				continue
			}
			low := math.Inf(1)
			if q := b.Decl().Temperature.StopAbove; q.Given() {
				low = float64(q.Low())
			}
			if s.StopAbove.Given() {
				low = math.Min(low, float64(s.StopAbove.Low()))
			}
			if math.IsInf(low, 1) {
				continue
			}
			row, _ := clockRow(c.pages["process/"+p.ID], s.ID)
			f := c.figures[p.ID+"/stop-above."+s.ID]
			if f.Low != low && f.Value != low || !strings.Contains(words(row.Caution), "Stop above ") {
				c.failed("process/%s, %s does not stop above %g °C", p.ID, s.ID, low)
			}
		}
	}
}

func reviewsShow(c *court) {
	day, err := unit.ParseDate(c.r.Binder.Day)
	if err != nil {
		return
	}
	front, _ := today(c.pages["index"])
	listed := ""
	for _, b := range c.pages["index"].Today {
		if l, ok := b.(page.Links); ok && strings.HasPrefix(words([]page.Text{l.Label}), "Past their review date") {
			for _, e := range l.Entries {
				listed += e.Card + "\n"
			}
		}
	}
	for _, s := range c.lab.Solutions {
		k, ok := c.lab.ControlOf(s.Def)
		past := ok && !k.Review.IsZero() && k.Review.Before(day)
		for _, id := range []string{"mix/" + s.ID, "record/" + s.ID, "protect/" + s.ID} {
			if (c.pages[id].Foot.Overdue != "") != past {
				c.failed("%s: overdue %q", id, c.pages[id].Foot.Overdue)
			}
		}
		if strings.Contains(listed, "mix/"+s.ID+"\n") != past {
			c.failed("the front page and mix/%s disagree about its review (%s)", s.ID, front)
		}
	}
}

var many = []string{"rolls", "runs", "stops", "uses", "turns", "days", "films", "prints", "sheets"}

var oneMany = regexp.MustCompile(`(^|[^0-9.,:–-])1 (` + strings.Join(many, "|") + `)\b`)

func oneIsOne(c *court) {
	for id, f := range c.figures {
		if oneMany.MatchString(f.Why) {
			c.failed("%s says %q", id, f.Why)
		}
		if f.Shown == "1" && slices.Contains(many, f.Unit) {
			c.failed("%s is 1 %s", id, f.Unit)
		}
	}
}
