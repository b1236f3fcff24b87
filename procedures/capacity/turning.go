package capacity

import (
	"math"
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// allUsedAt is the month's work from which age no longer ends what is made at once.
var allUsedAt = figure.Register(&figure.F4[unit.Rolls, unit.Factor, unit.Factor, unit.Factor, unit.Rolls]{
	Formula: figure.Formula{ID: "choose.all", Name: "month's work at which all of it is used", Result: "M",
		Unit: "rolls",
		Terms: []figure.Term{{Symbol: "N", Meaning: "how many its limits allow"},
			{Symbol: "d", Meaning: "days in a month"},
			{Symbol: "L", Meaning: "life", Unit: "days"}, {Symbol: "q", Meaning: "equivalents of one", Unit: "rolls"}},
		Text: "N * d / L * q", Valid: "more work than that, and its limits end it before its age does",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n, d, life unit.Factor, q unit.Rolls) unit.Rolls {
		return unit.Rolls(float64(n) * float64(d) / float64(life) * float64(q))
	},
})

// Turning follows the cost of one by two ways over the month's work, around the rate at which
// the first becomes the cheaper one.
type Turning struct {
	// Other is the place of the way that it is held against, among all ways.
	Other int
	Rates []RateCost
	// AtBest and OtherAtBest are what one costs by each when all of what is made is used.
	AtBest, OtherAtBest *figure.Record
}

// RateCost is what one costs by both ways at one rate; nil where age ends a way before one is
// done.
type RateCost struct {
	Month, Cost, Other *figure.Record
	// Now: this is the lab's own rate; Same: both cost the same; AllUsed: from here on all of
	// the first way is used.
	Now, Same, AllUsed bool
	// Bend: the line of the other way changes its slope here.
	Bend bool
}

// turner works out one turning.
type turner struct {
	m       *mix.Mixer
	group   string
	own     figure.Figure[unit.Rolls]
	days    figure.Figure[unit.Factor]
	way, by Way
	a, b    Chosen
}

// longest is how far beyond the turning the cost is followed, as a multiple of it.
const longest = 10

// around gathers the rates of a turning: a round number below the lab's own, that rate, the
// turning, the rates at which all of a way is used, and a round number beyond.
func (t *turner) around(other int, turn figure.Figure[unit.Rolls], month *figure.Record) *Turning {
	now := figure.Entered[unit.Rolls](month)
	out := &Turning{Other: other, AtBest: t.money(t.a.full), OtherAtBest: t.money(t.b.full)}
	end := math.Max(3*float64(turn.Value), float64(now.Value))
	rates := []RateCost{}
	add := func(at string, rate figure.Figure[unit.Rolls], shown *figure.Record, is RateCost) {
		is.Month = shown
		is.Cost, is.Other = t.at(t.way, at, rate), t.at(t.by, at, rate)
		rates = append(rates, is)
	}
	used, _ := t.allUsed(t.way)
	if used.Value <= turn.Value*longest {
		end = math.Max(end, 1.25*float64(used.Value))
		add("used", used, t.count(used), RateCost{AllUsed: true})
	}
	first := round(0.99*math.Min(float64(now.Value), float64(turn.Value)/2), false)
	if bend, ok := t.allUsed(t.by); ok && float64(bend.Value) > first && bend.Value < turn.Value {
		add("bend", bend, t.count(bend), RateCost{Bend: true})
	}
	rates = append(rates, RateCost{Month: month, Cost: t.a.Cost, Other: t.b.Cost, Now: true})
	add("turn", turn, t.a.Turns, RateCost{Same: true})
	for _, x := range []float64{first, round(end, true)} {
		g := figure.Constant(unit.Rolls(x), "a month's work to compare",
			"a round number beside the rates of this lab", figure.Standard)
		shown := figure.Declare(t.m.Book, figure.ID("choose", t.group+".rate", unit.Short(x)), figure.KindCount, g,
			unit.Short(x), "rolls")
		add(unit.Short(x), figure.Entered[unit.Rolls](shown), shown, RateCost{})
	}
	slices.SortStableFunc(rates, func(a, b RateCost) int {
		switch {
		case a.Month.Value < b.Month.Value:
			return -1
		case a.Month.Value > b.Month.Value:
			return 1
		}
		return 0
	})
	out.Rates = slices.DeleteFunc(rates, func(r RateCost) bool { return r.Cost == nil || r.Other == nil })
	return out
}

// allUsed is the rate from which all of what a way makes at once is used; false where no age
// ends it.
func (t *turner) allUsed(w Way) (figure.Figure[unit.Rolls], bool) {
	n, long := days(w.Life.Life)
	if w.Ageless || !long {
		return figure.Figure[unit.Rolls]{}, false
	}
	life := w.Life.Figure("life").WithValue(unit.Factor(n))
	return allUsedAt.Of(figure.ID(w.Bath.Ref(), "choose.all", t.group), w.Ours.Range.Best(), t.days, life, t.own), true
}

// at is what one costs by a way at a rate.
func (t *turner) at(w Way, at string, rate figure.Figure[unit.Rolls]) *figure.Record {
	id := func(what string) string {
		return figure.ID(w.Bath.Ref(), "choose."+what, t.group, at)
	}
	limits := []figure.Figure[unit.Factor]{w.Ours.Range.Best()}
	if n, long := days(w.Life.Life); !w.Ageless && long {
		limits = append(limits, packAge.Of(id("age.at"), rate, t.days,
			w.Life.Figure("life").WithValue(unit.Factor(n)), t.own))
	}
	done := leastOf.Of(id("done.at"), limits...).Show(figure.KindCount, "1", unit.Down, "")
	if done.Value < 1 {
		return nil
	}
	return t.money(costEach.Of(id("cost.at"), w.Whole, done))
}

func (t *turner) count(rate figure.Figure[unit.Rolls]) *figure.Record {
	return figure.Enter(t.m.Book, rate.Show(figure.KindCount, "1", unit.Up, ""))
}

func (t *turner) money(f figure.Figure[unit.Money]) *figure.Record {
	return figure.Enter(t.m.Book, f.Show(figure.KindMoney, centStep(f.Value), unit.Nearest, "").In(t.m.Currency()))
}

// round is the nearest of 1, 2, 5, 10, 20, 50 … beyond a number, or below it.
func round(x float64, up bool) float64 {
	last := 0.0
	for ten := 0.01; ten < 1e9; ten *= 10 {
		for _, step := range []float64{1, 2, 5} {
			n := unit.Snap(step * ten)
			if up && n >= x {
				return n
			}
			if n > x {
				return last
			}
			last = n
		}
	}
	return last
}
