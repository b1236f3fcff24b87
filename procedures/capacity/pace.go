package capacity

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// monthBottles is how many packs a month's use of a product by volume comes to.
var monthBottles = figure.Register(&figure.F2[unit.Factor, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "month.bottles", Name: "packs for a month", Result: "n", Unit: "",
		Terms: []figure.Term{{Symbol: "v", Meaning: "a month's use", Unit: "ml"},
			{Symbol: "P", Meaning: "what a pack holds", Unit: "ml"}},
		Text: "v / P", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(v, p unit.Volume) unit.Factor { return unit.Factor(v / p) },
})

// packLasts and packUsed are how long a pack lasts by the work alone, and how much of it is
// used when it is too old.
var (
	packLasts = figure.Register(&figure.F2[unit.Factor, unit.Factor, unit.Factor]{
		Formula: figure.Formula{ID: "pack.lasts", Name: "used up after", Result: "t", Unit: "days",
			Terms: []figure.Term{{Symbol: "d", Meaning: "days in a month"}, {Symbol: "n", Meaning: "packs in a month"}},
			Text:  "d / n", Valid: "all that is worked with it counts", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(d, n unit.Factor) unit.Factor { return d / n },
	})
	packUsed = figure.Register(&figure.F3[unit.Factor, unit.Factor, unit.Factor, unit.Factor]{
		Formula: figure.Formula{ID: "pack.used", Name: "used when it is too old", Result: "s", Unit: "",
			Terms: []figure.Term{{Symbol: "n", Meaning: "packs in a month"}, {Symbol: "d", Meaning: "days in a month"},
				{Symbol: "L", Meaning: "life of a pack that is begun", Unit: "days"}},
			Text: "n / d * L", Valid: "all that is worked with it counts; one or more: it is used up before",
			Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n, d, life unit.Factor) unit.Factor { return n / d * life },
	})
	hundredfold = figure.Register(&figure.F1[unit.Percent, unit.Factor]{
		Formula: figure.Formula{ID: "pack.used.percent", Name: "used when it is too old", Result: "p", Unit: "%",
			Terms: []figure.Term{{Symbol: "s", Meaning: "share of the pack"}},
			Text:  "100 * s", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(s unit.Factor) unit.Percent { return 100 * unit.Percent(s) },
	})
)

// packRow is the part of a pack's work that is done in one format before the pack is too old.
var packRow = figure.Register(&figure.F3[unit.Factor, unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "pack.row", Name: "done in one format before age ends the pack", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "m", Meaning: "pieces of the format in a month"},
			{Symbol: "d", Meaning: "days in a month"}, {Symbol: "L", Meaning: "life", Unit: "days"}},
		Text: "floor(m / d * L)", Valid: "beside all else that is worked with the pack", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(m, d, life unit.Factor) unit.Factor { return whole(float64(m) / float64(d) * float64(life)) },
})

// packDearer is what one costs where a part of the pack is too old before it is used.
var packDearer = figure.Register(&figure.F2[unit.Money, unit.Money, unit.Factor]{
	Formula: figure.Formula{ID: "pack.dearer", Name: "cost of one at this lab's rate", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "K", Meaning: "cost of one if all of the pack is used"},
			{Symbol: "s", Meaning: "share of the pack that is used"}},
		Text: "K / s", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(k unit.Money, s unit.Factor) unit.Money { return k / unit.Money(s) },
})

// PackPace is how a pack of a product ends in this lab once it is begun, with all that is
// worked with it in all its strengths together.
type PackPace struct {
	// Life is how long it keeps, told by State, of a kit by the Part that keeps shortest; nil
	// where nobody has written it.
	Life        *figure.Record
	State, Part string
	// Lasts is in how many days the work uses it up; nil where that cannot be counted.
	Lasts *figure.Record
	// Age ends it first, when Used of it is used; else Used is nil.
	Age  bool
	Used *figure.Record

	life, used figure.Figure[unit.Factor]
}

// Known reports that it can be told what ends a pack first.
func (p PackPace) Known() bool { return p.Life != nil && p.Lasts != nil }

// Pace is how a pack of a product ends here. Of a pack of which a part is made up at a time,
// only what is written of an opened one counts.
func (mo *Month) Pace(p *lab.Product) PackPace {
	out, of := PackPace{}, p.ID
	life, state, part := PackLife(p)
	n, long := days(life.Life)
	if long && (state == "part" || p.Makes == nil || p.Makes.Divide != lab.MayDivide) {
		out.State, out.Part = stateWord(state), part
		out.life = life.Figure("life, " + out.State).WithValue(unit.Factor(n))
		out.Life = figure.Declare(mo.m.Book, figure.ID(of, "pack.life"), figure.KindCount,
			life.Figure("how long a pack keeps once it is begun"), unit.Short(life.Number()), life.Word())
	}
	packs, ok := mo.packsAMonth(p)
	if !ok || packs.Value <= 0 {
		return out
	}
	out.Lasts = figure.Enter(mo.m.Book, packLasts.Of(figure.ID(of, "pack.lasts"), DaysInMonth, packs).
		Show(figure.KindCount, "1", unit.Nearest, "").In("days"))
	if out.Life == nil {
		return out
	}
	out.used = packUsed.Of(figure.ID(of, "pack.used"), packs, DaysInMonth, out.life)
	if out.Age = unit.Snap(float64(out.used.Value)) < 1; out.Age {
		out.Used = figure.Enter(mo.m.Book, hundredfold.Of(figure.ID(of, "pack.used.percent"), out.used).
			Show(figure.KindRatio, "1", unit.Nearest, ""))
	}
	return out
}

// PackHolds is what a pack of a product holds that is bought by volume: by the store, else by
// its own file.
func PackHolds(l *lab.Lab, p *lab.Product) lab.Said[unit.Volume] {
	pack, _, _ := l.PackOf(p.ID + "." + lab.Supplied)
	if pack.Size.Volume.Positive() {
		return pack.Size.Volume
	}
	return p.Pack.Holds.Volume
}

// packsAMonth is how many packs all that is worked in a month takes; false where it takes
// nothing, or nobody has written what a pack is.
func (mo *Month) packsAMonth(p *lab.Product) (figure.Figure[unit.Factor], bool) {
	switch {
	case len(mo.packs[p.ID]) > 0:
		return mo.packsUse(p.ID), true
	case len(mo.products[p.ID]) > 0 && PackHolds(mo.m.Lab, p).Positive():
		return monthBottles.Of(figure.ID(p.ID, "pack.month"), mo.productUse(p.ID),
			PackHolds(mo.m.Lab, p).Figure("what a pack holds")), true
	}
	return figure.Figure[unit.Factor]{}, false
}

// monthPieces adds what a month does of one format.
var monthPieces = figure.Register(&figure.FN[unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "use.pieces", Name: "pieces of the format in a month", Result: "m", Unit: "",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces of each entry"}},
		Text:  "sum(n)", Source: "the lab's own count", Origin: figure.Standard},
	Go: figure.Total[unit.Factor],
})

// piecesOf is a month's work in one format, with the rolls of which nobody has written the
// format; false where a month does none of it. alone: it is all of the month's work.
func (u Use) piecesOf(l *lab.Lab, b lab.Bath, f Format) (n figure.Figure[unit.Factor], ok, alone bool) {
	var parts []figure.Figure[unit.Factor]
	own, counted := f.Rolls()
	for _, e := range u.entries {
		pieces := e.pieces.Figure("pieces in a month")
		switch {
		case e.pieces.Of == f.Ref():
			parts = append(parts, pieces)
		case e.pieces.Of == "" && counted && f.Material.Base == lab.Film:
			id := figure.ID(b.Ref(), "use.as", f.Ref(), fmt.Sprintf("%s.%d", e.process, e.nth))
			parts = append(parts, asFormat.Of(id, pieces, figure.Constant(unit.Rolls(1), "a roll", "", figure.Standard),
				own))
		}
	}
	if len(parts) == 0 {
		return n, false, false
	}
	return monthPieces.Of(figure.ID(b.Ref(), "use.pieces", f.Ref()), parts...), true, len(parts) == len(u.entries)
}
