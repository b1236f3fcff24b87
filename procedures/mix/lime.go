package mix

import (
	"slices"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// limeBound is M3: each calcium ion is bound by one of what binds it.
var limeBound = figure.Register(&figure.F3[unit.Concentration, unit.Concentration, unit.Molar, unit.Molar]{
	Formula: figure.Formula{ID: "lime.bound", Name: "what binds the lime of tap water", Result: "m", Unit: "g/L",
		Terms: []figure.Term{
			{Symbol: "h", Meaning: "hardness of the tap water, counted as calcium carbonate", Unit: "g/L"},
			{Symbol: "M_c", Meaning: "molar mass of calcium carbonate", Unit: "g/mol"},
			{Symbol: "M", Meaning: "molar mass of the form that binds it", Unit: "g/mol"}},
		Text: "h / M_c * M", Valid: "one of it binds one calcium; a litre of the bath counted as a litre of tap water",
		Source: balance, Origin: figure.Standard},
	Go: func(h unit.Concentration, carbonate, m unit.Molar) unit.Concentration {
		return h / unit.Concentration(carbonate) * unit.Concentration(m)
	},
})

// The ions that decide what lime does in a bath: what binds calcium one to one, and what spoils sooner by
// the iron of tap water that is bound in the same way.
var (
	bindsLime = []string{"C10H12N2O8-4", "C10H13N2O8-3", "C10H14N2O8-2"}
	ascorbic  = []string{"C6H8O6", "C6H7O6-", "C6H6O6-2"}
)

// Lime is what the lime of tap water takes of what binds it in a strength.
type Lime struct {
	// Hardness is that of the tap water, Needs what a litre of it takes, and Holds what is in the strength.
	Hardness, Needs, Holds *figure.Record
	// Binds is what binds it.
	Binds Content
	// Enough: there is enough of it even at its least; Short: not even at its most. Where both are false,
	// nobody can tell.
	Enough, Short bool
	// Ascorbate: there is ascorbic acid in it, which spoils sooner by what binds iron like that.
	Ascorbate bool
}

// LimeIn works out whether what binds the lime of tap water is enough in a strength; false where nothing in it
// binds lime, where none of its water comes from the tap, or where nobody has written how hard the water is.
func (m *Mixer) LimeIn(made *Made) (out Lime, ok bool) {
	hard := m.Lab.Place.Water.Hardness
	if !hard.Positive() || pure(made.Bath) {
		return out, false
	}
	for _, c := range made.Contents {
		ions := c.Chemical.InWater(c.Form)
		has := func(list []string) bool {
			return slices.ContainsFunc(list, func(ion string) bool { return ions[ion] > 0 })
		}
		out.Ascorbate = out.Ascorbate || has(ascorbic)
		formula, err := chem.Parse(c.Chemical.Forms[c.Form].Formula)
		if err != nil || !has(bindsLime) || ok {
			continue
		}
		ok = true
		calcite, _ := chem.Parse("CaCO3")
		molar := func(f chem.Formula) figure.Figure[unit.Molar] {
			return figure.Constant(unit.Molar(f.MolarMass()), "molar mass of "+f.String(), "IUPAC/CIAAW 2021",
				figure.Standard)
		}
		needs := limeBound.Of(figure.ID(made.Bath.Ref(), "lime"), hard.Figure("hardness of the tap water"),
			molar(calcite), molar(formula)).Show(figure.KindAmount, "0.01", unit.Up, "")
		out.Hardness = figure.Declare(m.Book, figure.ID("lab", "water.hardness"), figure.KindAmount,
			hard.Figure("hardness of the tap water"), unit.Short(float64(hard.Value())*1000), "mg/L")
		out.Needs, out.Holds, out.Binds = figure.Enter(m.Book, needs), figure.Enter(m.Book, c.Conc), c
		out.Enough = unit.Snap(float64(c.Conc.Low)) >= unit.Snap(float64(needs.High))
		out.Short = unit.Snap(float64(c.Conc.High)) < unit.Snap(float64(needs.Low))
	}
	return out, ok
}

// pure reports a strength of which no water comes from the tap.
func pure(b lab.Bath) bool {
	own := b.Decl() != nil && b.Decl().Water == lab.Deionised
	if b.Solution == nil {
		return own
	}
	made := b.Solution.Water == lab.Deionised
	if b.Strength == b.Solution.MadeStrength() {
		return made
	}
	return made && own
}
