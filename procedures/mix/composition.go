package mix

import (
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// molarity is how many mol of a substance a litre holds.
var molarity = figure.Register(&figure.F2[unit.Molarity, unit.Concentration, unit.Molar]{
	Formula: figure.Formula{ID: "content.molar", Name: "mol in a litre", Result: "n", Unit: "mol/L",
		Terms: []figure.Term{{Symbol: "c", Meaning: "content of the solution", Unit: "g/L"},
			{Symbol: "M", Meaning: "molar mass of the form that it is counted as", Unit: "g/mol"}},
		Text: "c / M", Source: balance, Origin: figure.Standard},
	Go: func(c unit.Concentration, m unit.Molar) unit.Molarity { return unit.Molarity(float64(c) / float64(m)) },
})

// dryContent is a content without its water of crystallisation.
var dryContent = figure.Register(&figure.F2[unit.Concentration, unit.Concentration, unit.WW]{
	Formula: figure.Formula{ID: "content.dry", Name: "content without its water of crystallisation", Result: "c_d",
		Unit: "g/L",
		Terms: []figure.Term{{Symbol: "c", Meaning: "content of the solution", Unit: "g/L"},
			{Symbol: "w", Meaning: "water of crystallisation", Unit: "% w/w"}},
		Text: "c * (100 - w) / 100", Source: balance, Origin: figure.Standard},
	Go: func(c unit.Concentration, w unit.WW) unit.Concentration {
		return c * unit.Concentration(100-w) / 100
	},
})

// waterIn is how much water a litre of a solution holds.
var waterIn = figure.Register(&figure.F2[unit.Density, unit.Density, unit.Concentration]{
	Formula: figure.Formula{ID: "content.water", Name: "water in a litre", Result: "W", Unit: "g/ml",
		Terms: []figure.Term{{Symbol: "rho", Meaning: "density of the solution", Unit: "g/ml"},
			{Symbol: "S", Meaning: "all that is dissolved, without its water of crystallisation", Unit: "g/L"}},
		Text: "rho - S / 1000", Valid: "all else in it is water", Source: balance, Origin: figure.Standard},
	Go: func(rho unit.Density, s unit.Concentration) unit.Density { return rho - unit.Density(s)/1000 },
})

// molality is how many mol of a substance stand in a kilogram of water.
var molality = figure.Register(&figure.F2[unit.Molality, unit.Molarity, unit.Density]{
	Formula: figure.Formula{ID: "content.molal", Name: "mol in a kilogram of water", Result: "b", Unit: "mol/kg",
		Terms: []figure.Term{{Symbol: "n", Meaning: "mol in a litre", Unit: "mol/L"},
			{Symbol: "W", Meaning: "water in a litre, in kg", Unit: "g/ml"}},
		Text: "n / W", Source: balance, Origin: figure.Standard},
	Go: func(n unit.Molarity, w unit.Density) unit.Molality { return unit.Molality(float64(n) / float64(w)) },
})

// Molar is a content of a strength in mol.
type Molar struct {
	Content Content
	// PerLitre and PerKg are the mol in a litre and in a kilogram of its water.
	PerLitre figure.Figure[unit.Molarity]
	PerKg    figure.Figure[unit.Molality]
}

// Composition is a strength counted in mol: each of its contents, or the name of one that
// cannot be counted, as it has no fixed composition.
type Composition struct {
	Water     figure.Figure[unit.Density] // kg of water in a litre
	Molar     []Molar
	Uncounted []Content
}

// Composition counts a strength in mol, once. Water of crystallisation counts as water.
func (m *Mixer) Composition(made *Made) Composition {
	out, have := m.composed[made]
	if !have {
		out = m.compose(made)
		m.composed[made] = out
	}
	return out
}

func (m *Mixer) compose(made *Made) Composition {
	ref := made.Bath.Ref()
	var out Composition
	var dry []figure.Figure[unit.Concentration]
	formulas := make([]chem.Formula, len(made.Contents))
	for i, c := range made.Contents {
		f, err := chem.Parse(c.Chemical.Forms[c.Form].Formula)
		if err != nil {
			out.Uncounted = append(out.Uncounted, c)
			dry = append(dry, c.Conc)
			continue
		}
		formulas[i] = f
		if w := chem.MassPercentWater(f); w > 0 {
			share := figure.Constant(unit.WW(w), "water of crystallisation", "IUPAC/CIAAW 2021", figure.Standard)
			dry = append(dry, dryContent.Of(figure.ID(ref, "dry."+c.Ref()), c.Conc, share))
			continue
		}
		dry = append(dry, c.Conc)
	}
	if len(dry) == 0 {
		return out
	}
	all := dissolved.Of(figure.ID(ref, "dissolved-dry"),
		dry...).Named("all that is dissolved, without its water of crystallisation")
	out.Water = waterIn.Of(figure.ID(ref, "water"), made.Density, all)
	for i, c := range made.Contents {
		mass := formulas[i].MolarMass()
		if mass == 0 {
			continue
		}
		molar := figure.Constant(unit.Molar(mass), "molar mass of "+formulas[i].String(), "IUPAC/CIAAW 2021",
			figure.Standard)
		n := molarity.Of(figure.ID(ref, "mol."+c.Ref()), c.Conc, molar).Named("mol in a litre, "+c.Chemical.Name).
			Show(figure.KindAmount, molStep(float64(c.Conc.Value)/float64(mass)), unit.Nearest, "")
		b := molality.Of(figure.ID(ref, "molal."+c.Ref()), n,
			out.Water).Named("mol in a kilogram of water, "+c.Chemical.Name).
			Show(figure.KindAmount, molStep(float64(c.Conc.Value)/float64(mass)), unit.Nearest, "")
		out.Molar = append(out.Molar, Molar{Content: c, PerLitre: n, PerKg: b})
	}
	return out
}

// molStep shows an amount in mol to three figures.
func molStep(mol float64) string {
	switch {
	case mol >= 1:
		return "0.01"
	case mol >= 0.1:
		return "0.001"
	case mol >= 0.01:
		return "0.0001"
	}
	return "0.000001"
}
