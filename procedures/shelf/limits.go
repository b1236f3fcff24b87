package shelf

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// mostClearing is how many times its fresh clearing time a fixer may take where
// its strength says nothing else.
var mostClearing = lab.Said[unit.Factor]{}.OrDefault("2 x fresh", "common practice, no source")

// limits holds what was worked in the batch against every limit that applies to
// it. Each passes, spends it, or leaves it unjudged; what is known counts as the
// least that it can be, so that one blank never makes a spent bath good.
func (j *judge) limits() {
	decl := j.out.Bath.Decl()
	for _, w := range j.story.work {
		j.out.Worked += w.Count
	}
	j.clearingTimes()
	if decl == nil {
		j.clearing(nil)
		return
	}
	done := j.done()
	j.placed(decl)
	counted := 0
	var tests []lab.LimitAt
	applying := j.applying(decl)
	for _, l := range applying {
		if l.By == "clearing" {
			tests = append(tests, l)
			continue
		}
		if j.limit(l, done) {
			counted++
		}
	}
	for _, base := range j.lab.BasesOf(j.out.Bath) { // what ends it for other work is told, and does not spend it
		for _, l := range decl.LimitsFor(base, j.story.place) {
			if l.By != "clearing" && !slices.ContainsFunc(applying,
				func(a lab.LimitAt) bool { return a.Index == l.Index }) {
				applying = append(applying, l)
				j.held(l, done)
			}
		}
	}
	j.clearing(tests)
	if len(tests) > 0 && j.out.Clearing == nil && len(j.story.work) > 0 && counted == 0 {
		j.unsure = append(j.unsure, "clearing time: nobody has tested it since it was first used")
	}
	j.more(decl, done)
	j.reuse(decl, done)
}

// placed makes a batch unjudged whose limits hang on its place of two baths, where
// its file does not say which it is.
func (j *judge) placed(decl *lab.Strength) {
	if j.story.place > 0 {
		return
	}
	for _, base := range j.bases() {
		if byPlace(decl, base) {
			j.unsure = append(j.unsure, noPlace+", and its limits differ")
			return
		}
	}
}

const noPlace = "nobody has written which of two baths it is (place)"

// byPlace reports limits for a base that hang on the place of two.
func byPlace(decl *lab.Strength, base lab.Base) bool {
	return slices.ContainsFunc(decl.Limits,
		func(l lab.Limit) bool { return l.Place > 0 && (l.For == "" || l.For == base) })
}

// applying are the limits of the strength that hold for what was worked in the
// batch, at its place of two; before its first piece, for all that it is used for.
func (j *judge) applying(decl *lab.Strength) []lab.LimitAt {
	bases := j.bases()
	if len(bases) == 0 {
		bases = j.lab.BasesOf(j.out.Bath)
	}
	if len(bases) == 0 {
		bases = []lab.Base{""}
	}
	var out []lab.LimitAt
	for _, base := range bases {
		for _, l := range decl.LimitsFor(base, j.story.place) {
			if !slices.ContainsFunc(out, func(o lab.LimitAt) bool { return o.Index == l.Index }) {
				out = append(out, l)
			}
		}
	}
	slices.SortFunc(out, func(a, b lab.LimitAt) int { return a.Index - b.Index })
	return out
}

// bases are those of what was worked; rolls that nobody named are film.
func (j *judge) bases() []lab.Base {
	var out []lab.Base
	for _, w := range j.story.work {
		base := lab.Film
		if m, _, _ := j.lab.Piece(w.Of, w.Where()); w.Of != "" && m != nil {
			base = m.Base
		}
		if !slices.Contains(out, base) {
			out = append(out, base)
		}
	}
	slices.Sort(out)
	return out
}

// done is what was worked, as the limits count it.
func (j *judge) done() capacity.Done {
	d := capacity.Done{Made: j.made, Unknown: map[lab.LimitBasis]string{}}
	work := j.story.work
	unknown := func(by lab.LimitBasis, why string) {
		if why != "" {
			d.Unknown[by] = why
		}
	}
	var why string
	d.Area, _, why = capacity.AreaOf(j.lab, j.out.ID, work, j.made)
	unknown("area", why)
	d.Rolls, why = capacity.Rolls(j.lab, j.out.ID, work)
	unknown("rolls", why)
	uses := 0
	for _, e := range j.out.Log {
		if len(e.Worked) > 0 {
			uses++
		}
	}
	d.Uses = figure.Constant(unit.Factor(uses), "uses, by the log", "counted in the log", figure.House)
	d.Count = func(of string) (figure.Figure[unit.Factor], string) {
		n, _, why := capacity.CountOf(j.lab, j.out.ID, work, of, j.made)
		return n, why
	}
	d.Silver = figure.Constant(unit.Concentration(0), "silver it began with", "nothing else is written: a fresh bath",
		figure.Default)
	b := j.out.Batch
	if b.StartSilver.Given() {
		d.Silver = b.StartSilver.Figure("silver it began with")
	}
	if len(work) > 0 && j.silvered() {
		why := ""
		if j.story.second {
			why = "what the first bath carries into the second is not worked out here"
		}
		s := capacity.SilverOf(j.lab, j.book, j.out.ID, work, j.made, d.Silver, why)
		j.out.Silver = &s
		d.Silver = s.Known
		unknown("silver", s.Why)
	}
	return d
}

// silvered reports a bath of which the silver is told: a fixer, and what has a
// limit by silver.
func (j *judge) silvered() bool {
	if j.out.Bath.Role() == "fixer" {
		return true
	}
	d := j.out.Bath.Decl()
	return d != nil && slices.ContainsFunc(d.Limits, func(l lab.Limit) bool { return l.By == "silver" })
}

// limit holds one limit against what was done, and reports whether it could be
// decided.
func (j *judge) limit(l lab.LimitAt, done capacity.Done) bool {
	word := capacity.LimitWords[l.By]
	switch {
	case j.held(l, done):
		j.spend(word, word+": "+l.Most.Text()+" reached")
	case done.Unknown[l.By] != "":
		j.unsure = append(j.unsure, word+": "+done.Unknown[l.By])
		return false
	case l.By == "count":
		if _, why := done.Count(l.Of); why != "" {
			j.unsure = append(j.unsure, word+": "+why)
			return false
		}
	}
	return true
}

// held enters how far a limit is reached, and reports whether it is.
func (j *judge) held(l lab.LimitAt, done capacity.Done) (reached bool) {
	id := func(what string) string { return j.id(fmt.Sprintf("limit.%s.%d", what, l.Index+1)) }
	var most, held *figure.Record
	switch l.By {
	case "area":
		most = figure.Declare(j.book, id("area"), figure.KindAmount, l.Most.Area.Figure("most area for each litre"),
			unit.ShortRat(l.Most.Area.Exact()), "m²/L")
		_, a, _ := capacity.AreaOf(j.lab, j.out.ID, j.story.work, j.made)
		held = j.enter(a.Record(), j.id("area.known"), done.Unknown[l.By])
		reached = unit.Snap(float64(a.Value)) >= unit.Snap(float64(l.Most.Area.Value()))
	case "rolls":
		most = figure.Declare(j.book, id("rolls"), figure.KindCount, l.Most.Rolls.Figure("most rolls for each litre"),
			unit.ShortRat(l.Most.Rolls.Exact()), "rolls/L")
		r := capacity.RollsHeld(j.out.ID, done.Rolls, j.made)
		if len(j.story.work) > 0 && done.Unknown[l.By] == "" {
			j.out.Done = figure.Enter(j.book, done.Rolls)
		}
		held = j.enter(r.Record(), j.id("rolls.known"), done.Unknown[l.By])
		reached = unit.Snap(float64(r.Value)) >= unit.Snap(float64(l.Most.Rolls.Value()))
	case "count":
		most = figure.Declare(j.book, id("count"), figure.KindCount,
			l.Most.PerLitre.Figure("most pieces of "+l.Of+" for each litre"), unit.ShortRat(l.Most.PerLitre.Exact()),
			"/L")
		_, n, why := capacity.CountOf(j.lab, j.out.ID, j.story.work, l.Of, j.made)
		held = j.enter(n.Record(), j.id("count", l.Of+".known"), why)
		reached = unit.Snap(float64(n.Value)) >= unit.Snap(float64(l.Most.PerLitre.Value()))
	case "uses":
		most = figure.Declare(j.book, id("uses"), figure.KindCount, l.Most.Uses.Figure("most uses"),
			unit.ShortRat(l.Most.Uses.Exact()), "uses")
		held = figure.Declare(j.book, j.id("uses"), figure.KindCount, done.Uses, fmt.Sprint(int(done.Uses.Value)),
			"uses")
		reached = unit.Snap(float64(done.Uses.Value)) >= unit.Snap(float64(l.Most.Uses.Value()))
	case "silver":
		most = figure.Declare(j.book, id("silver"), figure.KindAmount,
			l.Most.Silver.Figure("most silver the bath may hold"), unit.ShortRat(l.Most.Silver.Exact()), "g/L")
		switch {
		case j.out.Silver != nil:
			held = j.out.Silver.Held
		case j.out.Batch.StartSilver.Given(): // nothing has been fixed in it yet
			held = figure.Declare(j.book, j.id("silver"), figure.KindAmount, done.Silver,
				unit.ShortRat(j.out.Batch.StartSilver.Exact()), "g/L")
		}
		reached = unit.Snap(float64(done.Silver.Value)) >= unit.Snap(float64(l.Most.Silver.Value()))
	default:
		return false
	}
	j.out.Used = append(j.out.Used, Used{By: l.By, For: l.For, Word: capacity.LimitWords[l.By], Held: held, Most: most})
	return reached
}

// enter enters what was counted against a limit: refused where not all of it is
// known, with the least that it is under an id of its own.
func (j *judge) enter(r *figure.Record, least, unknown string) *figure.Record {
	if unknown == "" {
		return j.book.Enter(r)
	}
	known := j.book.Enter(r.As(least).Called(r.Name + ", at least"))
	return j.book.Refuse(r.ID, r.Kind, r.Name, r.Unit, unknown, figure.Default, known)
}

// more works out how many more pieces of each format the batch treats. When not one
// more of anything fits, it is spent.
func (j *judge) more(decl *lab.Strength, done capacity.Done) {
	if len(decl.Limits) == 0 {
		return
	}
	any, fits, by := false, false, ""
	var logged []string
	for _, worked := range j.story.work {
		logged = append(logged, worked.Of)
	}
	for _, base := range j.lab.BasesOf(j.out.Bath) {
		for _, k := range capacity.Kinds(j.lab, j.out.Bath, j.formatsOn(base), logged...) {
			limits := decl.LimitsFor(base, j.story.place)
			m := capacity.More{Format: k.Format,
				Why: "not counted: it becomes the first bath when that is spent"}
			switch {
			case j.story.place == 0 && byPlace(decl, base):
				m.Why = noPlace
			case j.story.place < 2:
				m = capacity.MoreOf(j.lab, j.book, j.out.ID, k.Format, limits, done)
			}
			m.Others = k.Others
			j.out.More = append(j.out.More, m)
			any = true
			fits = fits || m.Why != "" || m.Count > 0
			if by == "" {
				by = m.By
			}
		}
	}
	if any && !fits && len(j.spent) == 0 && len(j.story.work) > 0 {
		j.spend(by, by+": there is no room for one more of anything")
	}
}

// formatsOn lists the formats that may come next on a base.
func (j *judge) formatsOn(base lab.Base) []capacity.Format {
	var out []capacity.Format
	for _, m := range j.treated(base) {
		if _, done := j.formats[m]; !done {
			for _, f := range capacity.Formats(j.lab, m) {
				j.formats[m] = append(j.formats[m], f.Worked(j.lab))
			}
		}
		out = append(out, j.formats[m]...)
	}
	return out
}

// treated are the materials on a base that may come next: those that go through the
// bath, and any that the log names.
func (j *judge) treated(base lab.Base) []*lab.Material {
	out := slices.Clone(j.lab.Treated(j.out.Bath, base))
	for _, w := range j.story.work {
		if m, _, _ := j.lab.Piece(w.Of, w.Where()); m != nil && m.Base == base && !slices.Contains(out, m) {
			out = append(out, m)
		}
	}
	slices.SortFunc(out, func(a, b *lab.Material) int { return strings.Compare(a.ID, b.ID) })
	return out
}

// clearingTimes enters the clearing times that were measured.
func (j *judge) clearingTimes() {
	b := j.out.Batch
	if b.FreshClears.Given() {
		j.out.Fresh = figure.Declare(j.book, j.id("clears.fresh"), figure.KindTime,
			b.FreshClears.Figure("clearing time on the day of mixing"), seconds(b.FreshClears.Quantity), "s")
	}
	if j.story.cleared >= 0 {
		j.out.Now = figure.Declare(j.book, j.id("clears"), figure.KindTime,
			b.Log[j.story.cleared].Cleared.Figure("clearing time now"),
			seconds(b.Log[j.story.cleared].Cleared.Quantity), "s")
	}
}

// clearing is the test of a fixer by its clearing time, against each limit that the
// strength has for it, else against the program's own.
func (j *judge) clearing(limits []lab.LimitAt) {
	b := j.out.Batch
	if j.story.cleared < 0 {
		return
	}
	most := mostClearing
	for n, l := range limits {
		if n == 0 || l.Most.Clearing.Value() < most.Value() {
			most = l.Most.Clearing
		}
	}
	j.out.MostClearing = figure.Declare(j.book, j.id("limit.clearing"), figure.KindRatio,
		most.Figure("spent by clearing time"), unit.Short(float64(most.Value())), "× fresh")
	if !b.FreshClears.Given() {
		const why = "nobody wrote the clearing time on the day of mixing"
		j.out.Clearing = j.book.Refuse(j.id("clearing"), figure.KindRatio, "clearing time against fresh", "× fresh",
			why, figure.Default)
		j.unsure = append(j.unsure, "clearing time: "+why)
		return
	}
	now := b.Log[j.story.cleared].Cleared.Figure("clearing time now")
	ratio := capacity.Clearing(j.id("clearing"), now, b.FreshClears.Figure("clearing time on the day of mixing"))
	j.out.Clearing, j.out.Ratio = figure.Enter(j.book, ratio), ratio
	if unit.Snap(float64(ratio.Value)) >= unit.Snap(float64(most.Value())) {
		j.spend("clearing time", "clearing time: "+most.Text()+" or more")
	}
}

func seconds(q unit.Quantity[unit.Seconds]) string {
	return unit.Format(float64(q.Value()), unit.NewDecimal(1, 0))
}

// reuse is what the next time in a re-used developer is worked out from. Before its
// first roll it is a stock like any other.
func (j *judge) reuse(decl *lab.Strength, done capacity.Done) {
	if !decl.Longer.Given() || len(j.story.work) == 0 || done.Unknown["rolls"] != "" {
		return
	}
	for _, l := range j.applying(decl) {
		if l.By == "rolls" && (j.out.Reuse == nil || l.Most.Rolls.Value() < j.out.Reuse.Most.Value()) {
			j.out.Reuse = &Reuse{Done: done.Rolls, Made: j.made, Most: l.Most.Rolls}
		}
	}
}

func (j *judge) spend(word, why string) {
	if len(j.spent) == 0 && !j.past {
		j.out.Governs = word
	}
	j.spent = append(j.spent, why)
}
