package capacity

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// saidPieces is somebody's word for what a pack does, counted as pieces of one format.
var saidPieces = figure.Register(&figure.F3[unit.Factor, unit.Factor, unit.Rolls, unit.Rolls]{
	Formula: figure.Formula{ID: "pack.said", Name: "what a pack does, as others say", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "n", Meaning: "how many, as they say"},
			{Symbol: "q", Meaning: "equivalents of one that they count", Unit: "rolls"},
			{Symbol: "p", Meaning: "equivalents of one of this format", Unit: "rolls"}},
		Text: "floor(n * q / p)", Valid: "one 135-36 = one 120 = one 8×10 in print = four 4×5 in sheets",
		Source: "common practice, no source", Origin: figure.Default},
	Go: func(n unit.Factor, q, p unit.Rolls) unit.Factor {
		return whole(float64(n) * float64(q) / float64(p))
	},
})

// Pack is one pack of a product as one of its strengths uses it up.
type Pack struct {
	// Of is what stands in the bottle: what the pack makes, or the product as bought.
	Of lab.Bath
	// Bath is the strength that is worked in.
	Bath lab.Bath
	// Price is what a pack costs; PriceWhy says why that is not known.
	Price    figure.Figure[unit.Money]
	PriceWhy string
	// Pace is how a pack ends here, with all that is worked with it. Where that is not known,
	// Ages: the strength alone uses it up, and what is made or opened gets old together.
	Pace PackPace
	Ages bool
	// Litre is what a litre of the strength treats of the format that is asked for.
	Litre Capacity
}

// Said is how many of a format a pack does by somebody's word.
type Said struct {
	N    *figure.Record
	Says figure.Origin

	fig figure.Figure[unit.Factor]
}

// PackDoes is what one pack does of one format, and what ends it first.
type PackDoes struct {
	Format Format
	// Ours is what the limits of this lab allow, by OursBy; nil where OursWhy says why not.
	Ours            *figure.Record
	OursBy, OursWhy string
	// Said is what others say.
	Said []Said
	// Full is the smallest of all these, and FullBy which it is: the word of a limit, or the
	// origin of who says so. It is nil where nobody has said anything that can be counted.
	Full   *figure.Record
	FullBy string
	// Told: what ends it first in this lab can be told, by the pace of the pack or by what
	// follows.
	Told bool
	// Unused: a month's work of this lab has none of this format in it.
	Unused bool
	// Life is how long what the pack makes keeps in use, State the state of its bottle, and
	// Aged how many this lab does in that time, all its work counted as this format; nil where
	// the pace of the pack says what ends it.
	Life  *figure.Record
	State string
	Aged  *figure.Record
	// Age ends the pack before it is used up, after Share of this format beside all else.
	Age   bool
	Share *figure.Record
	// Bath is after how many of this format a litre of the strength is too old, where age and
	// no limit ends the bath itself; else nil.
	Bath *figure.Record
	// CostFull is what one costs if the pack does all that it can, Cost at this lab's rate;
	// nil where CostWhy says why.
	CostFull, Cost *figure.Record
	CostWhy        string
}

// DoesOf works out what a pack does of one format. ours is what the limits of the lab allow
// of the volume that the pack makes; use is a month's work through the strength.
func DoesOf(m *mix.Mixer, p Pack, f Format, ours Capacity, yields []lab.Yield, use Use) PackDoes {
	out := PackDoes{Format: f}
	id := func(what string) string { return figure.ID(p.Of.Ref(), "pack."+what, f.Ref(), p.Bath.Strength) }
	var all []figure.Figure[unit.Factor]
	least := 0
	take := func(n figure.Figure[unit.Factor], by string) {
		if len(all) == 0 || unit.Snap(float64(n.Value)) < unit.Snap(float64(all[least].Value)) {
			least, out.FullBy = len(all), by
		}
		all = append(all, n)
	}
	switch {
	case ours.NoWhy != "":
		out.OursWhy = ours.NoWhy
	case ours.N == nil:
		out.OursWhy = "this lab counts it in uses, not in pieces"
	default:
		out.Ours, out.OursBy = ours.N, ours.By
		take(ours.Range, out.OursBy)
	}
	for _, y := range yields {
		if n, ok := saidOf(m, p, f, y, len(out.Said)); ok {
			out.Said = append(out.Said, Said{figure.Enter(m.Book, n), y.Count.By(), n})
			take(n, y.Count.By().String())
		}
	}
	if len(all) == 0 {
		return out
	}
	full := leastOf.Of(id("full"), all...).Named("what one pack does, "+f.Name()).In(f.Pieces(2)).
		ShowSpan(figure.KindCount, "1", unit.Down)
	out.Full = figure.Enter(m.Book, full)
	month, here, alone := use.piecesOf(m.Lab, p.Bath, f)
	out.Unused = use.Known() && !here
	if p.Pace.Known() {
		out.Told, out.Age = true, p.Pace.Age
		if out.Age && here {
			out.Share = p.row(m, id("row"), month, p.Pace.life, f)
		}
		if p.Litre.NoWhy == "" && p.Litre.Governs == "age" && p.Litre.Evening == "" {
			out.Bath = p.Litre.Aged
		}
		p.costsByPace(m, id, full, &out)
		return out
	}
	done := full
	aged, ok := p.aged(m, f, use, &out)
	out.Told = ok
	if ok && unit.Snap(float64(aged.Value)) < unit.Snap(float64(full.Value)) {
		out.Age, done = true, aged
		switch {
		case alone:
			out.Share = out.Aged
		case here:
			life, state := LifeInBottle(lifeOf(p.Of))
			n, _ := days(life.Life)
			out.Share = p.row(m, id("row"), month,
				life.Figure("life, "+stateWord(state)).WithValue(unit.Factor(n)), f)
		}
	}
	p.costs(m, id, full, done, &out)
	return out
}

// row is how many of one format are done before the pack is too old, beside all else.
func (p Pack) row(m *mix.Mixer, id string, month, life figure.Figure[unit.Factor], f Format) *figure.Record {
	return figure.Enter(m.Book, packRow.Of(id, month, DaysInMonth, life).
		Named("done before age ends the pack, "+f.Name()).Show(figure.KindCount, "1", unit.Down, "").In(f.Pieces(2)))
}

// lifeOf is how long a bath keeps in each state.
func lifeOf(b lab.Bath) lab.Keeps {
	keeps, _ := b.Keeps()
	return keeps
}

// costsByPace are what one costs at the full yield and at this lab's rate, by the pace of the
// whole pack: dearer where the bath itself gets too old, and dearer again where a part of the
// pack does.
func (p Pack) costsByPace(m *mix.Mixer, id func(string) string, full figure.Figure[unit.Factor], out *PackDoes) {
	p.costs(m, id, full, figure.Figure[unit.Factor]{}, out)
	if out.CostFull == nil || out.Unused {
		return
	}
	out.Cost = out.CostFull
	if p.Litre.IdealCost != nil {
		out.Cost = p.Litre.Cost
	}
	if !p.Pace.Age {
		return
	}
	cost := packDearer.Of(id("cost"), figure.Entered[unit.Money](out.Cost), p.Pace.used).
		Named("cost of one at this lab's rate, " + out.Format.Name())
	out.Cost = figure.Enter(m.Book, cost.ShowSpan(figure.KindMoney, centStep(cost.Value), unit.Nearest).In(m.Currency()))
}

// aged is how many this lab does before what the pack makes is too old.
func (p Pack) aged(m *mix.Mixer, f Format, use Use, out *PackDoes) (figure.Figure[unit.Factor], bool) {
	none := figure.Figure[unit.Factor]{}
	keeps, _ := p.Of.Keeps()
	life, state := LifeInBottle(keeps)
	n, long := days(life.Life)
	if !p.Ages || !long {
		return none, false
	}
	own, counted := f.Rolls()
	month, used := use.rolls(m.Lab, figure.ID(p.Bath.Ref(), "use.rolls"))
	if !counted || !used {
		return none, false
	}
	lasts := life.Figure("life, " + stateWord(state)).WithValue(unit.Factor(n))
	out.State = stateWord(state)
	out.Life = figure.Declare(m.Book, figure.ID(p.Of.Ref(), "pack.life"), figure.KindCount,
		life.Figure("how long it keeps in use"),
		unit.Short(life.Number()), life.Word())
	each := figure.Constant(unit.Factor(daysInMonth), "days in a month", "a twelfth of 365.25 days", figure.Standard)
	aged := packAge.Of(figure.ID(p.Of.Ref(), "pack.age", f.Ref(), p.Bath.Strength), month, each, lasts, own).
		Named("done before age ends it, "+f.Name()).Show(figure.KindCount, "1", unit.Down, "").In(f.Pieces(2))
	out.Aged = figure.Enter(m.Book, aged)
	return aged, true
}

// packAge is the last term of E4 for a pack: everything that a month puts through it counts.
var packAge = figure.Register(&figure.F4[unit.Factor, unit.Rolls, unit.Factor, unit.Factor, unit.Rolls]{
	Formula: figure.Formula{ID: "pack.age", Name: "done before age ends what a pack makes", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "M", Meaning: "a month's work, as rolls", Unit: "rolls"},
			{Symbol: "d", Meaning: "days in a month"},
			{Symbol: "L", Meaning: "life", Unit: "days"}, {Symbol: "q", Meaning: "equivalents of one", Unit: "rolls"}},
		Text:   "floor(M / d * L / q)",
		Valid:  "all of a month's work counted as so many of this format; the rate from the log, not from hope",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(month unit.Rolls, d, life unit.Factor, q unit.Rolls) unit.Factor {
		return whole(float64(month) / float64(d) * float64(life) / float64(q))
	},
})

// rolls is a month's work through a bath, all bases together, as rolls (E1).
func (u Use) rolls(l *lab.Lab, id string) (figure.Figure[unit.Rolls], bool) {
	var shares []figure.Figure[unit.Rolls]
	for _, e := range u.entries {
		q := figure.Constant(unit.Rolls(1), "a roll", "", figure.Standard)
		if e.pieces.Of != "" {
			f, ok := FormatNamed(l, e.pieces.Of)
			if !ok {
				continue
			}
			if q, ok = f.Rolls(); !ok {
				continue
			}
		}
		share := figure.ID("use", fmt.Sprintf("%s.%d.rolls", e.process, e.nth))
		shares = append(shares, rollShare.Of(share, e.pieces.Figure("pieces in a month"), q))
	}
	if len(shares) == 0 {
		return figure.Figure[unit.Rolls]{}, false
	}
	return Sum(id, shares...).Named("a month's work, as rolls"), true
}

// costs are what one costs at the full yield and at this lab's rate (E5).
func (p Pack) costs(m *mix.Mixer, id func(string) string, full, done figure.Figure[unit.Factor], out *PackDoes) {
	out.CostWhy = p.PriceWhy
	if p.PriceWhy != "" || full.Value < 1 {
		return
	}
	show := func(what, name string, n figure.Figure[unit.Factor]) *figure.Record {
		cost := costEach.Of(id(what), p.Price, n).Named(name + ", " + out.Format.Name())
		return figure.Enter(m.Book, cost.ShowSpan(figure.KindMoney, centStep(cost.Value),
			unit.Nearest).In(m.Currency()))
	}
	out.CostFull = show("cost.full", "cost of one if the pack does all that it can", full)
	if done.Value >= 1 && out.Aged != nil && !out.Unused {
		out.Cost = show("cost", "cost of one at this lab's rate", done)
	}
}

// saidOf counts somebody's word as pieces of a format; false where it is about another
// base or another strength.
func saidOf(m *mix.Mixer, p Pack, f Format, y lab.Yield, n int) (figure.Figure[unit.Factor], bool) {
	none := figure.Figure[unit.Factor]{}
	own, ok := f.Rolls()
	if !ok || y.Strength != p.Bath.Strength {
		return none, false
	}
	of := figure.Constant(unit.Rolls(1), "a roll", "", figure.Standard)
	if y.Count.Of != "" {
		counted, found := FormatNamed(m.Lab, y.Count.Of)
		if !found || counted.Material.Base != f.Material.Base {
			return none, false
		}
		if of, ok = counted.Rolls(); !ok {
			return none, false
		}
	}
	variants := []string{f.Ref(), p.Bath.Strength}
	if n > 0 {
		variants = append(variants, "word="+string(rune('1'+n)))
	}
	return saidPieces.Of(figure.ID(p.Of.Ref(), "pack.said", variants...), y.Count.Figure("how many, as they say"), of,
		own).
		Named("what one pack does, as others say, "+f.Name()).ShowSpan(figure.KindCount, "1",
		unit.Down).In(f.Pieces(2)), true
}

// pieceMakes is what one piece of a pack makes that may be divided.
var pieceMakes = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Factor]{
	Formula: figure.Formula{ID: "pack.piece", Name: "what one piece of a pack makes", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume that a pack makes", Unit: "ml"},
			{Symbol: "n", Meaning: "pieces in a pack"}},
		Text: "V / n", Valid: "every piece alike, and whole", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(v unit.Volume, n unit.Factor) unit.Volume { return v / unit.Volume(n) },
})

// PieceMakes is what one piece of a pack makes.
func PieceMakes(id string, whole figure.Figure[unit.Volume], n figure.Figure[unit.Factor]) figure.Figure[unit.Volume] {
	return pieceMakes.Of(id, whole, n).Show(figure.KindAmount, "1", unit.Down, "")
}

// MakesOf is how much of a dilution a whole pack makes.
func MakesOf(id string, stock figure.Figure[unit.Volume], dil lab.SaidDilution) figure.Figure[unit.Volume] {
	a, b := dil.Figures()
	return workVolume.Of(id, stock, a.Called("parts of the stock"), b)
}

// MakesShown enters it, in litres or in millilitres.
func MakesShown(m *mix.Mixer, makes figure.Figure[unit.Volume], litres bool) *figure.Record {
	if !litres {
		return figure.Enter(m.Book, makes.Show(figure.KindAmount, "10", unit.Down, ""))
	}
	return figure.Enter(m.Book, makes.ShowAs(figure.KindAmount, unit.Round(float64(makes.Value)/1000, 0.1, unit.Down),
		unit.NewDecimal(1, 1), unit.Down, "").
		Counted("L", 0.001))
}
