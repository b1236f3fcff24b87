package build_test

import (
	"math"
	"slices"
	"strings"

	"wetside/build"
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/shelf"
	"wetside/procedures/unit"
)

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
				walk(undiluted(b, d))
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
		if l, ok := b.(page.Links); ok && strings.HasPrefix(words([]page.Text{l.Label}), "Past the review date") {
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

// printsSpeak: paper leaves reasons out, and what is of today; what is left must not be
// warnings alone.
func printsSpeak(c *court) {
	for _, pr := range silentPrints(c.r) {
		c.failed("the print %s is empty", pr)
	}
}

// silentPrints are the prints of a binder on which nothing but warnings stands.
func silentPrints(r *build.Result) []string {
	pages := map[string]page.Page{}
	for _, p := range r.Binder.Pages {
		pages[p.ID] = p
	}
	var out []string
	for _, pr := range r.Binder.Prints {
		if p := page.OnPaper(pages[pr.Page], pr.Choice); len(p.Do)+len(p.Tables) == 0 {
			out = append(out, pr.Variant)
		}
	}
	return out
}
