package capacity

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// costEach is E5, with the number that is really done or the one that could be.
var costEach = figure.Register(&figure.F2[unit.Money, unit.Money, unit.Factor]{
	Formula: figure.Formula{ID: "cost.each", Name: "cost of one", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "K", Meaning: "cost of the bath"}, {Symbol: "N", Meaning: "how many it treats"}},
		Text:  "K / N", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(k unit.Money, n unit.Factor) unit.Money { return k / unit.Money(n) },
})

// rollCost is I5.
var rollCost = figure.Register(&figure.F2[unit.Money, unit.VolumePerRoll, unit.Money]{
	Formula: figure.Formula{ID: "cost.roll", Name: "stock for one roll costs", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "s", Meaning: "stock for one roll", Unit: "ml/roll"},
			{Symbol: "K", Meaning: "cost of a litre of stock"}},
		Text: "s * K / 1000", Valid: "this bath only; the others, water and gloves come on top",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(s unit.VolumePerRoll, k unit.Money) unit.Money { return unit.Money(s) * k / 1000 },
})

// batchCost is what a volume of a bath costs.
var batchCost = figure.Register(&figure.F2[unit.Money, unit.Money, unit.Volume]{
	Formula: figure.Formula{ID: "cost.volume", Name: "cost of this volume", Result: "K", Unit: "",
		Terms: []figure.Term{{Symbol: "k", Meaning: "cost of a litre"}, {Symbol: "V", Meaning: "volume", Unit: "ml"}},
		Text:  "k * V / 1000", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(k unit.Money, v unit.Volume) unit.Money { return k * unit.Money(v) / 1000 },
})

// workVolume is what a volume of stock makes.
var workVolume = figure.Register(&figure.F3[unit.Volume, unit.Volume, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "capacity.work", Name: "bath that the stock makes", Result: "W", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "stock", Unit: "ml"}, {Symbol: "a", Meaning: "parts of the stock"},
			{Symbol: "b", Meaning: "parts of water"}},
		Text: "V * (a + b) / a", Source: "mass balance", Origin: figure.Standard},
	Go: func(v unit.Volume, a, b unit.Factor) unit.Volume { return v * unit.Volume((a+b)/a) },
})

func (w *worker) cost(n, ideal figure.Figure[unit.Factor]) {
	of, v := w.b, w.v
	if s := w.b.Decl(); s != nil && s.Use == "one-shot" {
		if _, dil, ok := w.b.From(); ok && !dil.None() { // the volume is stock; its water costs too
			stock, water := dil.Figures()
			v = workVolume.Of(figure.ID(w.b.Ref(), "work", mix.Tag(w.out.Volume.Exact())), w.v,
				stock.Called("parts of the stock"),
				water)
		}
	}
	litre, why := w.m.CostOf(of)
	if why != "" || n.Value < 1 {
		w.out.CostWhy = why
		if why == "" {
			w.out.CostWhy = "it is not enough for one"
		}
		return
	}
	whole := batchCost.Of(figure.ID(of.Ref(), "cost", mix.Tag(w.out.Volume.Exact())), litre, v)
	record := litre.Record()
	show := func(f figure.Figure[unit.Money]) *figure.Record {
		return figure.Enter(w.m.Book, f.Show(figure.KindMoney, centStep(f.Value), unit.Nearest, "").In(record.Unit))
	}
	w.out.Cost = show(costEach.Of(figure.ID(w.b.Ref(), "cost.each", w.at...), whole, n).Named("cost of one, " +
		w.f.Name()))
	if ideal.Value > n.Value {
		w.out.IdealCost = show(costEach.Of(figure.ID(w.b.Ref(), "cost.ideal", w.at...), whole, ideal).
			Named("cost of one, if all of it were used"))
	}
}

// centStep shows what costs less than two cents in tenths of one.
func centStep(v unit.Money) string {
	if v < 0.02 {
		return "0.001"
	}
	return "0.01"
}

// RollCost is what the stock for one roll costs (I5).
func RollCost(m *mix.Mixer, b lab.Bath) (cost *figure.Record, why string) {
	s := b.Decl()
	if s == nil || !s.Needs.Given() {
		return nil, ""
	}
	of := b
	if from, _, ok := b.From(); ok {
		of = from
	}
	litre, why := m.CostOf(of)
	if why != "" {
		return nil, why
	}
	fig := rollCost.Of(figure.ID(b.Ref(), "cost.roll"), s.Needs.Figure("stock for one roll"), litre)
	return figure.Enter(m.Book, fig.Show(figure.KindMoney, "0.01", unit.Nearest, "").In(litre.Record().Unit)), ""
}
