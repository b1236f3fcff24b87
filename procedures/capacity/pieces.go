package capacity

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// areaPieces is E2.
var areaPieces = figure.Register(&figure.F3[unit.Factor, unit.AreaPerLitre, unit.Volume, unit.Area]{
	Formula: figure.Formula{ID: "capacity.area", Name: "by area", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "c", Meaning: "area that a litre treats", Unit: "m²/L"},
			{Symbol: "V", Meaning: "volume of the bath", Unit: "ml"},
			{Symbol: "A", Meaning: "area of one", Unit: "cm²"}},
		Text: "floor(10 * c * V / A)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(c unit.AreaPerLitre, v unit.Volume, a unit.Area) unit.Factor {
		return whole(10 * float64(c) * float64(v) / float64(a))
	},
})

// silverPieces is E3.
var silverPieces = figure.Register(&figure.F4[unit.Factor, unit.Concentration, unit.Concentration, unit.Volume,
	unit.Mass]{
	Formula: figure.Formula{ID: "capacity.silver", Name: "by silver", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "c_max", Meaning: "most silver the bath may hold", Unit: "g/L"},
			{Symbol: "c_now", Meaning: "silver it starts with", Unit: "g/L"},
			{Symbol: "V", Meaning: "volume of the bath", Unit: "ml"},
			{Symbol: "m", Meaning: "silver of one", Unit: "g"}},
		Text: "floor((c_max - c_now) * V / 1000 / m)", Source: "mass balance", Origin: figure.Standard},
	Go: func(most, now unit.Concentration, v unit.Volume, m unit.Mass) unit.Factor {
		return whole(float64(most-now) * float64(v) / 1000 / float64(m))
	},
})

// rollPieces is a limit in rolls, for one format.
var rollPieces = figure.Register(&figure.F3[unit.Factor, unit.RollsPerLitre, unit.Volume, unit.Rolls]{
	Formula: figure.Formula{ID: "capacity.rolls", Name: "by rolls", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "r", Meaning: "rolls that a litre treats", Unit: "rolls/L"},
			{Symbol: "V", Meaning: "volume of the bath", Unit: "ml"},
			{Symbol: "q", Meaning: "equivalents of one", Unit: "rolls"}},
		Text: "floor(r * V / 1000 / q)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(r unit.RollsPerLitre, v unit.Volume, q unit.Rolls) unit.Factor {
		return whole(float64(r) * float64(v) / 1000 / float64(q))
	},
})

// countPieces is a limit in pieces of one format.
var countPieces = figure.Register(&figure.F2[unit.Factor, unit.PerLitre, unit.Volume]{
	Formula: figure.Formula{ID: "capacity.count", Name: "by the house's count", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces that a litre treats", Unit: "/L"},
			{Symbol: "V", Meaning: "volume of the bath", Unit: "ml"}},
		Text: "floor(n * V / 1000)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.PerLitre, v unit.Volume) unit.Factor { return whole(float64(n) * float64(v) / 1000) },
})

// countPiecesSized is the same limit for another format, by its area.
var countPiecesSized = figure.Register(&figure.F4[unit.Factor, unit.PerLitre, unit.Volume, unit.Area, unit.Area]{
	Formula: figure.Formula{ID: "capacity.count.sized", Name: "by the house's count, for another size", Result: "N",
		Unit: "",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces that a litre treats", Unit: "/L"},
			{Symbol: "V", Meaning: "volume of the bath", Unit: "ml"},
			{Symbol: "A_1", Meaning: "area of one of the format that is counted", Unit: "cm²"},
			{Symbol: "A", Meaning: "area of one", Unit: "cm²"}},
		Text: "floor(n * V / 1000 * A_1 / A)", Valid: "what a bath treats goes by area", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(n unit.PerLitre, v unit.Volume, one, a unit.Area) unit.Factor {
		return whole(float64(n) * float64(v) / 1000 * float64(one) / float64(a))
	},
})

// stockPieces is M1 for a bottle that is drawn from: how many it is enough for.
var stockPieces = figure.Register(&figure.F2[unit.Factor, unit.Volume, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "capacity.stock", Name: "by what is in the bottle", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "V", Meaning: "what is in the bottle", Unit: "ml"},
			{Symbol: "s", Meaning: "least for one", Unit: "ml"}},
		Text: "floor(V / s)", Valid: "one-shot; a tank that holds more than its films need takes more",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(v unit.Volume, s unit.VolumePerRoll) unit.Factor { return whole(float64(v) / float64(s)) },
})

// leastOf is E4: the limit that says no first.
var leastOf = figure.Register(&figure.FN[unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "capacity", Name: "capacity", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "N_i", Meaning: "what each limit allows"}},
		Text:  "min(N_i)", Valid: "the lowest limit counts", Source: "the smallest of its limits",
		Origin: figure.Standard},
	Go: func(n []unit.Factor) unit.Factor {
		least := n[0]
		for _, x := range n {
			least = min(least, x)
		}
		return least
	},
})

func whole(x float64) unit.Factor { return unit.Factor(unit.Round(x, 1, unit.Down)) }

// Bound is what one limit allows.
type Bound struct {
	By    string // "silver", "area", "age" …
	Words string // as the card says it
	Fig   figure.Figure[unit.Factor]
}

// Capacity is how many of one format a volume of a bath treats, and what says
// no first.
type Capacity struct {
	Bath    lab.Bath
	Format  Format
	Volume  unit.Quantity[unit.Volume]
	Place   int
	Bounds  []Bound
	N       *figure.Record // how many its limits allow: what a tally counts
	Count   int
	By      string // the limit that says N
	Governs string // what ends it: By, or "age" where the pace does not reach N
	// With names the limits that say the same number.
	With    []string
	Verdict string
	// Cost is what one costs at the house's pace, IdealCost if age did not end it; nil
	// where no cost is known, and CostWhy says why.
	Cost, IdealCost *figure.Record
	CostWhy         string
	// Evening says how long it lasts once poured, when that is less than a day.
	Evening string
	// Test is a limit that only a test can find, in words.
	Test string
	// Uses is a limit in uses, and MostUses the same as a number: it does not say how
	// many pieces.
	Uses     *figure.Record
	MostUses int
	// Life is how long it lasts, Aged how many are done by then at the house's pace, and
	// Pace the same as a number; nil where age is not weighed. A pace is no limit: it
	// never counts on a tally. Of what is discarded with its day there is no Life.
	Life, Aged *figure.Record
	Pace       int
	// Each is what one takes out of the bottle of what is used once: what it needs, or what the best
	// loaded tank draws for it.
	Each figure.Figure[unit.VolumePerRoll]
	// Range is N with its bounds, unrounded.
	Range figure.Figure[unit.Factor]
	// NoWhy says why no number can be given at all.
	NoWhy string
}

// ByUses reports a bath that is counted in uses alone: it has no number of pieces.
func (c Capacity) ByUses() bool { return c.N == nil && c.Uses != nil }

// Of works out what a volume of a bath treats of one format (E2 to E5). keeps
// are the bath's lives.
func Of(m *mix.Mixer, b lab.Bath, f Format, volume unit.Quantity[unit.Volume], place int, use Use,
	keeps lab.Keeps) Capacity {
	w := worker{m: m, b: b, f: f, use: use, out: Capacity{Bath: b, Format: f, Volume: volume, Place: place}}
	w.at = []string{f.Ref(), mix.Tag(volume.Exact())}
	if place > 0 {
		w.at = append(w.at, fmt.Sprintf("place=%d", place))
	}
	w.v = figure.Constant(volume.Value(), "volume of the bath", "", figure.Standard)
	w.limits()
	w.age(keeps)
	w.govern()
	return w.out
}

type worker struct {
	m   *mix.Mixer
	b   lab.Bath
	f   Format
	v   figure.Figure[unit.Volume]
	at  []string // the variants of its ids
	use Use
	out Capacity
	// pace is how many are done before age ends it.
	pace figure.Figure[unit.Factor]
}

func (w *worker) bound(by, words string, fig figure.Figure[unit.Factor]) {
	w.out.Bounds = append(w.out.Bounds, Bound{By: by, Words: words,
		Fig: fig.Show(figure.KindCount, "1", unit.Down, "")})
}

func (w *worker) id(by string) string { return figure.ID(w.b.Ref(), "capacity."+by, w.at...) }

func (w *worker) limits() {
	s := w.b.Decl()
	if s == nil {
		return
	}
	if s.Needs.Given() && s.Use == "one-shot" {
		needs := s.Needs.Figure("least for one roll")
		if q, ok := w.f.Rolls(); ok {
			least := needs
			if q.Value != 1 {
				least = pieceNeed.Of(figure.ID(w.b.Ref(), "needs", w.f.Ref()), needs, q)
			}
			draw, drawn, none := w.leastDraw(least)
			if none {
				w.out.NoWhy = "no tank of this room holds enough for one"
				return
			}
			if drawn {
				least = drawnAtLeast.Of(figure.ID(w.b.Ref(), "drawn", w.f.Ref()), least, draw)
			}
			w.out.Each = least
			w.bound("stock", "what is in the bottle", stockPieces.Of(w.id("stock"), w.v, least))
		}
	}
	for _, l := range s.LimitsFor(w.f.Material.Base, w.out.Place) {
		switch l.By {
		case "area":
			if a, ok := w.f.Area(); ok {
				most := l.Most.Area.Figure("area that a litre treats")
				w.bound("area", "area", areaPieces.Of(w.id("area"), most, w.v, a))
			}
		case "rolls":
			if q, ok := w.f.Rolls(); ok {
				most := l.Most.Rolls.Figure("rolls that a litre treats")
				w.bound("rolls", "rolls", rollPieces.Of(w.id("rolls"), most, w.v, q))
			}
		case "count":
			most := l.Most.PerLitre.Figure("pieces that a litre treats")
			if l.Of == w.f.Ref() {
				w.bound("count", "this lab’s count", countPieces.Of(w.id("count"), most, w.v))
			} else if one, area, ok := sizes(w.m.Lab, l.Of, w.f); ok {
				w.bound("count", "this lab’s count", countPiecesSized.Of(w.id("count"), most, w.v, one, area))
			}
		case "uses":
			most := l.Most.Uses.Figure("most uses")
			w.out.MostUses = int(whole(float64(most.Value)))
			w.out.Uses = figure.Declare(w.m.Book, figure.ID(w.b.Ref(), "uses"), figure.KindCount, most,
				fmt.Sprint(w.out.MostUses),
				"uses")
		case "silver":
			w.silver(l.Limit)
		case "clearing":
			times := strings.Replace(l.Most.Text(), " x", " times the", 1)
			w.out.Test = "or when film takes " + times + " time to clear, whichever comes first"
		}
	}
}

// leastDraw is the least that any tank draws for one of the format, with as many in
// it as its reels and its solution serve: a tank is filled whatever is loaded. drawn
// is false where no tank here takes the format; none, where no tank holds
// enough for one.
func (w *worker) leastDraw(least figure.Figure[unit.VolumePerRoll]) (
	draw figure.Figure[unit.VolumePerRoll], drawn, none bool) {
	// What is mixed as it is used is drawn whole.
	stock, water := 1.0, 0.0
	a, b := figure.Constant(unit.Factor(1), "parts of the stock", "nothing is diluted", figure.Standard),
		figure.Constant(unit.Factor(0), "parts of water", "nothing is diluted", figure.Standard)
	if _, dil, ok := w.b.From(); ok && !dil.None() {
		stock, water = dil.Stock.Float(), dil.Water.Float()
		a, b = dil.Figures()
	}
	tanks, _ := Vessels(w.m.Lab)
	best, served, each := -1, 0, 0.0
	for i, v := range tanks {
		if v.Family != w.f.Decl.Family {
			continue
		}
		none = true
		holds := float64(v.Fill.Value()) * stock / (stock + water)
		n := min(v.Takes.N, int(unit.Round(holds/float64(least.Value), 1, unit.Down)))
		if n > 0 && (best < 0 || holds/float64(n) < each) {
			best, served, each = i, n, holds/float64(n)
		}
	}
	if best < 0 {
		return draw, false, none
	}
	v := tanks[best]
	const name = "how many it serves, by its reels and its solution"
	many := v.Takes.Figure(name)
	if served < v.Takes.N {
		many = figure.Constant(unit.Factor(served), name,
			"whole pieces that the solution in the full tank is enough for", figure.Standard)
	}
	fill := v.Fill.Figure("fill of the " + v.Name)
	draw = tankDraw.Of(figure.ID(w.b.Ref(), "draw.each", w.f.Ref()), fill, a.Called("parts of the stock"), b, many)
	return draw, true, false
}

// tankDraw is the stock that a full tank draws for each piece in it.
var tankDraw = figure.Register(&figure.F4[unit.VolumePerRoll, unit.Volume, unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "capacity.draw", Name: "stock that a full tank draws for one", Result: "d", Unit: "ml",
		Terms: []figure.Term{{Symbol: "F", Meaning: "fill of the tank", Unit: "ml"},
			{Symbol: "a", Meaning: "parts of the stock"}, {Symbol: "b", Meaning: "parts of water"},
			{Symbol: "N", Meaning: "how many it serves"}},
		Text:   "F * a / (a + b) / N",
		Valid:  "the tank that draws least for one, loaded as far as its reels and its solution allow",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(f unit.Volume, a, b, n unit.Factor) unit.VolumePerRoll {
		return unit.VolumePerRoll(float64(f) * float64(a/(a+b)/n))
	},
})

// drawnAtLeast is what one really takes: what it needs, or what the tank draws.
var drawnAtLeast = figure.Register(&figure.F2[unit.VolumePerRoll, unit.VolumePerRoll, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "capacity.drawn", Name: "stock that one takes", Result: "s", Unit: "ml",
		Terms: []figure.Term{{Symbol: "s_0", Meaning: "least for one", Unit: "ml"},
			{Symbol: "d", Meaning: "what a full tank draws for one", Unit: "ml"}},
		Text: "max(s_0, d)", Source: "the tank is filled whatever is loaded", Origin: figure.House},
	Go: func(s, d unit.VolumePerRoll) unit.VolumePerRoll { return max(s, d) },
})

func (w *worker) silver(l lab.Limit) {
	if l.Place > 1 {
		w.out.NoWhy = "not counted: it becomes the first bath when that is spent"
		return
	}
	each, ok := SilverEach(w.m.Lab, w.f)
	if !ok {
		w.out.NoWhy = "nobody has written " + missingSilver(w.f.Material) + " of " + w.f.Material.Name
		return
	}
	fresh := figure.Constant(unit.Concentration(0), "silver in a fresh bath", "", figure.Standard)
	most := l.Most.Silver.Figure("most silver the bath may hold")
	w.bound("silver", "silver", silverPieces.Of(w.id("silver"), most, fresh, w.v, each))
}

// govern finds the smallest bound and what it costs.
func (w *worker) govern() {
	o := &w.out
	if len(o.Bounds) == 0 && o.NoWhy == "" && o.Uses != nil {
		o.By, o.Governs, o.CostWhy = "uses", "uses", "it is counted in uses, not in pieces"
		o.Verdict = w.m.Book.EnterVerdict(figure.Verdict{ID: figure.ID(w.b.Ref(), "governs", w.at...),
			Answer: fmt.Sprintf("%d uses, any number at once", o.MostUses),
			Limits: []string{fmt.Sprintf("uses: %d", o.MostUses)}, Because: []string{"the lowest limit: uses"},
			Source: "the smallest of its limits"})
		return
	}
	if len(o.Bounds) == 0 || o.NoWhy != "" {
		if o.NoWhy == "" {
			o.NoWhy = "nobody has written a limit that can be counted"
		}
		o.N = w.m.Book.Refuse(figure.ID(w.b.Ref(), "capacity", w.at...), figure.KindCount, "capacity", "", o.NoWhy,
			figure.House)
		return
	}
	var least Bound
	var all []figure.Figure[unit.Factor]
	low, high := unit.Factor(math.Inf(1)), unit.Factor(math.Inf(1))
	for _, b := range o.Bounds {
		figure.Enter(w.m.Book, b.Fig)
		if b.By == "age" {
			continue
		}
		all = append(all, b.Fig)
		// A range belongs to the answer: no limit is passed for another's doubt.
		low, high = min(low, b.Fig.Low), min(high, b.Fig.High)
		if least.By == "" || b.Fig.Value < least.Fig.Value {
			least = b
		}
	}
	for _, b := range o.Bounds {
		if b.By != "age" && b.By != least.By && b.Fig.Value == least.Fig.Value {
			o.With = append(o.With, b.Words)
		}
	}
	n := leastOf.Of(figure.ID(w.b.Ref(), "capacity", w.at...), all...).Named("how many "+w.f.Name()).
		Show(figure.KindCount, "1", unit.Down, "")
	n = n.WithBounds(low, high).In(w.f.Pieces(int(n.Value)))
	o.N, o.Count, o.By, o.Governs = figure.Enter(w.m.Book, n), int(n.Value), least.By, least.By
	o.Range = n
	var limits []string
	for _, b := range o.Bounds {
		limits = append(limits, fmt.Sprintf("%s: %d", b.Words, int(b.Fig.Value)))
	}
	because := []string{"the lowest limit: " + least.Words}
	if len(o.With) > 0 {
		because[0] = "the lowest limits, equal: " + strings.Join(append([]string{least.Words}, o.With...), " and ")
	}
	answer := fmt.Sprintf("%d × %s, by %s", o.Count, w.f.Name(), least.Words)
	done := n
	switch {
	case o.Aged == nil || o.Pace >= o.Count:
	case o.Evening != "":
		done = w.pace
	default:
		o.Governs, o.With, done = "age", nil, w.pace
		answer += fmt.Sprintf("; ended by age after %d at this lab’s pace", o.Pace)
		because = []string{"age ends it first", "then " + because[0]}
	}
	if o.Evening != "" {
		because = append(because, "and it is discarded "+o.Evening+" after pouring, whatever was done in it")
	}
	if o.Uses != nil {
		because = append(because, fmt.Sprintf("or after %d uses, whichever comes first", o.MostUses))
	}
	if o.Test != "" {
		because = append(because, o.Test)
	}
	o.Verdict = w.m.Book.EnterVerdict(figure.Verdict{ID: figure.ID(w.b.Ref(), "governs", w.at...), Answer: answer,
		Limits:  limits,
		Because: because, Source: "the smallest of its limits"})
	w.cost(done, n)
}

// Places lists the places of a two-bath row that a strength has limits for;
// {0} where no limit names one.
func Places(s *lab.Strength, base lab.Base) []int {
	seen := map[int]bool{}
	for _, l := range s.Limits {
		if l.Place > 0 && (l.For == "" || l.For == base) {
			seen[int(l.Place)] = true
		}
	}
	if len(seen) == 0 {
		return []int{0}
	}
	var out []int
	for p := range seen {
		out = append(out, p)
	}
	sort.Ints(out)
	return out
}
