package mix

import (
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Draw is how much of one strength goes into a vessel of another.
type Draw struct {
	From lab.Bath
	Take Take
	Fill *figure.Record // the vessel's fill
	// Overall is the dilution from the concentrate, where the strength in between is
	// left out.
	Overall *figure.Record
}

// Draw works out a dilution for one volume. It is measured to the nearest mark;
// to the next above it where the nearest would be less than least, what the pieces
// in it need (nil: nobody has said what they need).
func (m *Mixer) Draw(b lab.Bath, volume unit.Quantity[unit.Volume], at figure.Where, by figure.Origin, fillName string,
	least *big.Rat) (Draw, bool) {
	from, dil, ok := b.From()
	if !ok {
		return Draw{}, false
	}
	tag := Tag(volume.Exact())
	d := Draw{From: from, Fill: m.VolumeFigure(figure.ID(b.Ref(), "fill", tag), volume, at, by, fillName)}
	v := wanted(volume, at, by, fillName)
	id := figure.ID(b.Ref(), "draw", tag)
	if dil.None() {
		d.Take = Take{Amount: m.VolumeFigure(id, volume, at, by, from.Name()), Unit: "ml",
			Hand: figure.Hand{Device: "the vessel itself", Pours: 1}}
		return d, true
	}
	pa, pb := dil.Figures()
	fig := dilutionStock.Of(id, v, pa, pb).Named(from.Name())
	share := new(big.Rat).Quo(dil.Share(), big.NewRat(10, 1))
	rule := unit.Nearest
	if r, why := m.Bench.PourLadder(share, from.Ref(), unit.Quantity[unit.Percent]{},
		rule).Read(tenths(volume.Exact())); why == "" && least != nil && r.Total.Cmp(least) < 0 {
		rule = unit.Up
	}
	d.Take = m.pour(fig, share, from.Ref(), unit.Quantity[unit.Percent]{}, volume, rule)
	return d, true
}

// Straight works out what it would take to skip the strength in between: from
// what is made or bought, straight into the vessel. Mostly it shows why not.
func (m *Mixer) Straight(b lab.Bath, volume unit.Quantity[unit.Volume], at figure.Where, by figure.Origin,
	fillName string) (Draw, bool) {
	from, second, ok := b.From()
	if !ok {
		return Draw{}, false
	}
	first, dil, ok := from.From()
	if !ok || dil.None() || second.None() {
		return Draw{}, false
	}
	tag := Tag(volume.Exact())
	a1, b1 := dil.Figures()
	a2, b2 := second.Figures()
	overall := overallDilution.Of(figure.ID(b.Ref(), "overall"), a1, b1, a2, b2).Show(figure.KindCount, "1",
		unit.Nearest, "")
	v := wanted(volume, at, by, fillName)
	one := figure.Constant(unit.Factor(1), "one part", "", figure.Standard)
	rest := chainRest.Of(figure.ID(b.Ref(), "overall.water"), overall).Show(figure.KindCount, "1", unit.Nearest, "")
	figure.Enter(m.Book, rest)
	id := figure.ID(b.Ref(), "draw."+first.Strength, tag)
	fig := dilutionStock.Of(id, v, one, rest).Named(first.Name())
	share := new(big.Rat).Mul(dil.Share(), second.Share())
	return Draw{From: first, Overall: figure.Enter(m.Book, overall),
		Take: m.pour(fig, share.Quo(share, big.NewRat(10, 1)), first.Ref(), unit.Quantity[unit.Percent]{}, volume,
			unit.Nearest)}, true
}

// chainRest is the b of 1+b for a dilution overall.
var chainRest = figure.Register(&figure.F1[unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "dilution.rest", Name: "parts of water to one of the concentrate", Result: "b",
		Unit:  "",
		Terms: []figure.Term{{Symbol: "D", Meaning: "dilution overall"}},
		Text:  "D - 1", Source: balance, Origin: figure.Standard},
	Go: func(d unit.Factor) unit.Factor { return d - 1 },
})

// Largest works out A5: the largest volume of a dilution that a rest makes.
func (m *Mixer) Largest(b lab.Bath, left figure.Figure[unit.Volume], tag string) *figure.Record {
	_, dil, ok := b.From()
	if !ok || dil.None() {
		return nil
	}
	pa, pb := dil.Figures()
	return figure.Enter(m.Book, largestVolume.Of(figure.ID(b.Ref(), "largest", tag), left, pa, pb).
		Show(figure.KindAmount, "10", unit.Down, ""))
}
