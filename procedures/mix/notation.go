package mix

import (
	"fmt"
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// Notation works out A1 for a dilution of the notation board, measured with the
// lab's cylinders as on every card.
func (m *Mixer) Notation(dil unit.Dilution, volume unit.Quantity[unit.Volume]) Take {
	a := figure.Constant(unit.Factor(dil.Stock.Float()), "parts of the solution", "", figure.Standard)
	b := figure.Constant(unit.Factor(dil.Water.Float()), "parts of water", "", figure.Standard)
	v := figure.Constant(volume.Value(), "volume made", "", figure.Standard)
	id := figure.ID("notation", "draw."+dil.Text(), Tag(volume.Exact()))
	name := "solution for " + dil.Text()
	f := dilutionStock.Of(id, v, a, b).Named(name)
	return m.pour(f, new(big.Rat).Quo(dil.Share(), big.NewRat(10, 1)), "", unit.Quantity[unit.Percent]{}, volume,
		unit.Nearest)
}

// ColonError works out A2: how much too strong a dilution gets when its colon
// is read the other way.
func (m *Mixer) ColonError(dil unit.Dilution) *figure.Record {
	b := figure.Constant(unit.Factor(dil.Water.Float()), "parts of water", "", figure.Standard)
	return figure.Enter(m.Book, colonError.Of(figure.ID("notation", "colon."+dil.Text()), b).
		Show(figure.KindRatio, "1", unit.Nearest, ""))
}

// blendParts is A9, the mixing cross: parts of the stronger for one of the
// weaker.
var blendParts = figure.Register(&figure.F3[unit.Factor, unit.WV, unit.WV, unit.WV]{
	Formula: figure.Formula{ID: "blend", Name: "parts of the stronger for one part of the weaker", Result: "r",
		Unit: "",
		Terms: []figure.Term{{Symbol: "C", Meaning: "strength wanted", Unit: "% w/v"},
			{Symbol: "C_lo", Meaning: "the weaker", Unit: "% w/v"},
			{Symbol: "C_hi", Meaning: "the stronger", Unit: "% w/v"}},
		Text: "(C - C_lo) / (C_hi - C)", Valid: "the wanted strength lies between the two; w/v", Source: balance,
		Origin: figure.Standard},
	Go: func(c, lo, hi unit.WV) unit.Factor { return unit.Factor((c - lo) / (hi - c)) },
})

// Blend works out A9 for the example of the notation board.
func (m *Mixer) Blend(want, weak, strong float64) *figure.Record {
	of := func(x float64, name string) figure.Figure[unit.WV] {
		return figure.Constant(unit.WV(x), name, "", figure.Standard)
	}
	word := func(x float64) string { return fmt.Sprintf("%g", x) }
	id := figure.Beside(figure.ID("notation", "blend."+word(want)), word(weak), word(strong))
	f := blendParts.Of(id, of(want, "strength wanted"),
		of(weak, "the weaker"), of(strong, "the stronger"))
	return figure.Enter(m.Book, f.Show(figure.KindCount, "0.01", unit.Nearest, ""))
}

// Chain works out A3 for the example of the notation board.
func (m *Mixer) Chain(first, second unit.Dilution) *figure.Record {
	part := func(d unit.Decimal, name string) figure.Figure[unit.Factor] {
		return figure.Constant(unit.Factor(d.Float()), name, "", figure.Standard)
	}
	id := figure.Beside(figure.ID("notation", "chain."+first.Text()), second.Text())
	f := overallDilution.Of(id, part(first.Stock, "parts of the first"),
		part(first.Water, "its parts of water"), part(second.Stock, "parts of the second"),
		part(second.Water, "its parts of water"))
	return figure.Enter(m.Book, f.Show(figure.KindCount, "1", unit.Nearest, ""))
}
