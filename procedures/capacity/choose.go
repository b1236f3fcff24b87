package capacity

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// wasteEach is what is poured away for each piece.
var wasteEach = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Factor]{
	Formula: figure.Formula{ID: "choose.waste", Name: "poured away for one", Result: "w", Unit: "ml",
		Terms: []figure.Term{{Symbol: "W", Meaning: "bath that is made of it", Unit: "ml"},
			{Symbol: "N", Meaning: "how many are done in it"}},
		Text: "W / N", Valid: "all of the bath is discarded in the end; the water of washes comes on top",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(w unit.Volume, n unit.Factor) unit.Volume { return w / unit.Volume(n) },
})

// turnsAt is the month's work at which what is made at once costs as much for each piece as
// another way does.
var turnsAt = figure.Register(&figure.F5[unit.Rolls, unit.Money, unit.Money, unit.Factor, unit.Factor, unit.Rolls]{
	Formula: figure.Formula{ID: "choose.turns", Name: "month's work at which both cost the same", Result: "M",
		Unit: "rolls",
		Terms: []figure.Term{{Symbol: "K", Meaning: "cost of what is made at once"},
			{Symbol: "k", Meaning: "cost of one by the other way, if all of it is used"},
			{Symbol: "d", Meaning: "days in a month"}, {Symbol: "L", Meaning: "life", Unit: "days"},
			{Symbol: "q", Meaning: "equivalents of one", Unit: "rolls"}},
		Text: "K / k * d / L * q", Valid: "while age ends it: more work than that makes it the cheaper one",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(whole, each unit.Money, d, life unit.Factor, q unit.Rolls) unit.Rolls {
		return unit.Rolls(float64(whole) / float64(each) * float64(d) / float64(life) * float64(q))
	},
})

// Way is one of several baths that do the same job, with what one piece costs by it.
type Way struct {
	Bath   lab.Bath
	Volume unit.Quantity[unit.Volume]
	// Of is what stands in the bottle, Whole what the volume of it costs, WholeWhy why nobody
	// can tell, and Work the bath that it makes.
	Of       lab.Bath
	Whole    figure.Figure[unit.Money]
	WholeWhy string
	Work     figure.Figure[unit.Volume]
	Life     lab.SaidLife
	// Ageless: a part of it is made at a time, and no age ends the rest.
	Ageless bool
	// Ours is how many the limits of this lab allow of the volume.
	Ours Capacity
}

// Chosen is what one way comes to at the lab's rate.
type Chosen struct {
	// Done is how many are done with what is made at once, at this rate; Age: age ends it.
	Done *figure.Record
	Age  bool
	// Cost is what one costs, and Waste what is poured away for one; nil where Why says why.
	Cost, Waste *figure.Record
	Why         string
	// Turns is the month's work from which it is the cheapest way of all; nil where its rank
	// does not hang on the rate.
	Turns *figure.Record
	// Turning follows the cost around that rate; nil where there is none.
	Turning *Turning

	each figure.Figure[unit.Money]
	full figure.Figure[unit.Money]
}

// ChooseOf works out each way at one rate of use, for one format; group names the comparison.
func ChooseOf(m *mix.Mixer, group string, f Format, use Use, ways []Way) (out []Chosen, month *figure.Record) {
	rate, rated := use.rolls(m.Lab, figure.ID("choose", group+".use"))
	own, counted := f.Rolls()
	if !rated || !counted {
		return nil, nil
	}
	month = figure.Enter(m.Book, rate)
	d := figure.Constant(unit.Factor(daysInMonth), "days in a month", "a twelfth of 365.25 days", figure.Standard)
	for _, w := range ways {
		c := Chosen{}
		id := func(what string) string { return figure.ID(w.Bath.Ref(), "choose."+what, group) }
		n, long := days(w.Life.Life)
		switch {
		case w.Ours.NoWhy != "":
			c.Why = w.Ours.NoWhy
		case w.Ours.N == nil || w.Ours.Count < 1:
			c.Why = "it is not counted in pieces"
		case !long && !w.Ageless:
			c.Why = "nobody has written how long it keeps in its bottle"
		}
		if c.Why != "" {
			out = append(out, c)
			continue
		}
		limits := []figure.Figure[unit.Factor]{w.Ours.Range.Best()}
		if !w.Ageless {
			aged := packAge.Of(id("age"), rate, d, w.Life.Figure("life").WithValue(unit.Factor(n)), own)
			c.Age = unit.Snap(float64(aged.Value)) < unit.Snap(float64(w.Ours.Range.Value))
			limits = append(limits, aged)
		}
		done := leastOf.Of(id("done"), limits...).Named("done with what is made at once").Show(figure.KindCount, "1",
			unit.Down, "")
		c.Done = figure.Enter(m.Book, done)
		if done.Value < 1 {
			c.Why = "age ends it before one is done"
			out = append(out, c)
			continue
		}
		waste := wasteEach.Of(id("waste"), w.Work, done)
		c.Waste = figure.Enter(m.Book, waste.Show(figure.KindAmount, "10", unit.Up, ""))
		if c.Why = w.WholeWhy; c.Why == "" {
			c.each = costEach.Of(id("cost"), w.Whole, done)
			c.full = costEach.Of(id("cost.full"), w.Whole, w.Ours.Range.Best())
			c.Cost = figure.Enter(m.Book, c.each.Show(figure.KindMoney, centStep(c.each.Value), unit.Nearest,
				"").In(m.Currency()))
		}
		out = append(out, c)
	}
	turns(m, group, ways, out, month, own, d)
	return out, month
}

// turns works out from which rate on a way that age ends is cheaper than each of the others.
// Those of them that age ends as well get cheaper with the rate, too: what counts is what one
// costs by them when all is used.
func turns(m *mix.Mixer, group string, ways []Way, all []Chosen, month *figure.Record, own figure.Figure[unit.Rolls],
	d figure.Figure[unit.Factor]) {
	for i := range all {
		c := &all[i]
		if c.Cost == nil || !c.Age {
			continue
		}
		best, dearer := -1, false
		for j := range all {
			if j == i || all[j].Cost == nil {
				continue
			}
			dearer = dearer || all[j].each.Value < c.each.Value
			if best < 0 || all[j].full.Value < all[best].full.Value {
				best = j
			}
		}
		if !dearer || c.full.Value >= all[best].full.Value {
			continue
		}
		n, _ := days(ways[i].Life.Life)
		life := ways[i].Life.Figure("life").WithValue(unit.Factor(n))
		t := turnsAt.Of(figure.ID(ways[i].Bath.Ref(), "choose.turns", group), ways[i].Whole, all[best].full, d, life,
			own)
		c.Turns = figure.Enter(m.Book, t.Show(figure.KindCount, "1", unit.Up, ""))
		follow := turner{m: m, group: group, own: own, days: d, way: ways[i], by: ways[best], a: *c, b: all[best]}
		c.Turning = follow.around(best, t, month)
	}
}

// WholeOf is what a volume costs of which a litre has a price.
func WholeOf(m *mix.Mixer, of lab.Bath, volume figure.Figure[unit.Volume], id string) (figure.Figure[unit.Money],
	string) {
	litre, why := m.CostOf(of)
	if why != "" {
		return litre, why
	}
	return batchCost.Of(id, litre, volume), ""
}

// WorkOf is the bath that a volume of stock makes.
func WorkOf(id string, stock figure.Figure[unit.Volume], dil lab.SaidDilution) figure.Figure[unit.Volume] {
	a, b := dil.Figures()
	return workVolume.Of(id, stock, a.Called("parts of the stock"), b)
}
