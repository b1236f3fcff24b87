package mix

import (
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

const balance = "mass balance"

// dilutionStock is A1: the share of the solution in a dilution a+b.
var dilutionStock = figure.Register(&figure.F3[unit.Volume, unit.Volume, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "dilution.stock", Name: "solution for a dilution", Result: "V_s", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume made", Unit: "ml"},
			{Symbol: "a", Meaning: "parts of the solution"}, {Symbol: "b", Meaning: "parts of water"}},
		Text: "V * a / (a + b)", Valid: "volumes taken as additive: within 1 % below about 1+1 of a 30 % stock",
		Source: balance, Origin: figure.Standard},
	Go: func(v unit.Volume, a, b unit.Factor) unit.Volume { return v * unit.Volume(a) / unit.Volume(a+b) },
})

// colonError is A2: how much stronger "1 in b" is than "1+b", in per cent.
var colonError = figure.Register(&figure.F1[unit.Percent, unit.Factor]{
	Formula: figure.Formula{ID: "dilution.colon", Name: "error of reading 1+b as 1 in b", Result: "e", Unit: "%",
		Terms: []figure.Term{{Symbol: "b", Meaning: "parts of water"}},
		Text:  "100 * ((1 / b) / (1 / (1 + b)) - 1)", Valid: "b of 1 or more", Source: balance,
		Origin: figure.Standard},
	Go: func(b unit.Factor) unit.Percent { return unit.Percent(100 * ((1/b)/(1/(1+b)) - 1)) },
})

// overallDilution is A3: two dilutions one after the other.
var overallDilution = figure.Register(&figure.F4[unit.Factor, unit.Factor, unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "dilution.chain", Name: "dilution overall", Result: "D", Unit: "",
		Terms: []figure.Term{{Symbol: "a1", Meaning: "parts of the first"},
			{Symbol: "b1", Meaning: "its parts of water"}, {Symbol: "a2", Meaning: "parts of the second"},
			{Symbol: "b2", Meaning: "its parts of water"}},
		Text: "(a1 + b1) / a1 * (a2 + b2) / a2", Valid: "each stage by volume", Source: balance,
		Origin: figure.Standard},
	Go: func(a1, b1, a2, b2 unit.Factor) unit.Factor { return (a1 + b1) / a1 * (a2 + b2) / a2 },
})

// largestVolume is A5: what a rest of stock can fill.
var largestVolume = figure.Register(&figure.F3[unit.Volume, unit.Volume, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "dilution.largest", Name: "largest volume from what is left", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V_left", Meaning: "solution left", Unit: "ml"},
			{Symbol: "a", Meaning: "parts of the solution"}, {Symbol: "b", Meaning: "parts of water"}},
		Text: "V_left * (a + b) / a", Valid: "a statement of volume only: rolls have their own limit",
		Source: balance, Origin: figure.Standard},
	Go: func(left unit.Volume, a, b unit.Factor) unit.Volume { return left * unit.Volume((a+b)/a) },
})

// scaleMass is B1: an amount per finished volume, for another volume.
var scaleMass = figure.Register(&figure.F3[unit.Mass, unit.Mass, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "batch.mass", Name: "mass for a batch", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "m_P", Meaning: "mass in the formula", Unit: "g"},
			{Symbol: "P", Meaning: "finished volume of the formula", Unit: "ml"},
			{Symbol: "V", Meaning: "batch", Unit: "ml"}},
		Text: "m_P * V / P", Valid: "per volume of finished solution, not of water", Source: balance,
		Origin: figure.Standard},
	Go: func(m unit.Mass, p, v unit.Volume) unit.Mass { return m * unit.Mass(v) / unit.Mass(p) },
})

// scaleVolume is B1 for a liquid.
var scaleVolume = figure.Register(&figure.F3[unit.Volume, unit.Volume, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "batch.volume", Name: "volume for a batch", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "v_P", Meaning: "volume in the formula", Unit: "ml"},
			{Symbol: "P", Meaning: "finished volume of the formula", Unit: "ml"},
			{Symbol: "V", Meaning: "batch", Unit: "ml"}},
		Text: "v_P * V / P", Valid: "per volume of finished solution, not of water", Source: balance,
		Origin: figure.Standard},
	Go: func(m, p, v unit.Volume) unit.Volume { return m * v / p },
})

// hydrate is B2 and B3: another hydrate of the same salt.
var hydrate = figure.Register(&figure.F3[unit.Mass, unit.Mass, unit.Molar, unit.Molar]{
	Formula: figure.Formula{ID: "hydrate", Name: "mass of another hydrate", Result: "m_2", Unit: "g",
		Terms: []figure.Term{{Symbol: "m_1", Meaning: "mass of the hydrate in the formula", Unit: "g"},
			{Symbol: "M_1", Meaning: "its molar mass for one unit of the salt", Unit: "g/mol"},
			{Symbol: "M_2", Meaning: "molar mass of the other", Unit: "g/mol"}},
		Text: "m_1 * M_2 / M_1", Valid: "the same salt only, and a pack whose water is known",
		Source: "stoichiometry; atomic weights IUPAC/CIAAW 2021", Origin: figure.Standard},
	Go: func(m unit.Mass, m1, m2 unit.Molar) unit.Mass { return m * unit.Mass(m2) / unit.Mass(m1) },
})

// purity is B4.
var purity = figure.Register(&figure.F2[unit.Mass, unit.Mass, unit.WW]{
	Formula: figure.Formula{ID: "purity", Name: "mass of a substance that is not pure", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "m_pure", Meaning: "mass of the pure substance", Unit: "g"},
			{Symbol: "p", Meaning: "purity", Unit: "% w/w"}},
		Text: "m_pure * 100 / p", Valid: "purity from the pack's certificate", Source: balance,
		Origin: figure.Standard},
	Go: func(m unit.Mass, p unit.WW) unit.Mass { return m * 100 / unit.Mass(p) },
})

// percentVolume is B5: a small mass as a volume of percent solution.
var percentVolume = figure.Register(&figure.F2[unit.Volume, unit.Mass, unit.WV]{
	Formula: figure.Formula{ID: "percent.volume", Name: "volume of a percent solution", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "m", Meaning: "mass wanted", Unit: "g"},
			{Symbol: "P", Meaning: "grams in a hundred ml", Unit: "% w/v"}},
		Text: "100 * m / P", Valid: "the solvent counts in the batch", Source: balance, Origin: figure.Standard},
	Go: func(m unit.Mass, p unit.WV) unit.Volume { return unit.Volume(100 * float64(m) / float64(p)) },
})

// percentMass is B5 read the other way: what a volume of percent solution holds.
var percentMass = figure.Register(&figure.F2[unit.Mass, unit.Volume, unit.WV]{
	Formula: figure.Formula{ID: "percent.mass", Name: "substance in a percent solution", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "v", Meaning: "volume of the percent solution", Unit: "ml"},
			{Symbol: "P", Meaning: "grams in a hundred ml", Unit: "% w/v"}},
		Text: "v * P / 100", Source: balance, Origin: figure.Standard},
	Go: func(v unit.Volume, p unit.WV) unit.Mass { return unit.Mass(float64(v) * float64(p) / 100) },
})

// liquidContent is A8: grams in a litre of a liquid sold by % w/w.
var liquidContent = figure.Register(&figure.F2[unit.Concentration, unit.Density, unit.WW]{
	Formula: figure.Formula{ID: "liquid.content", Name: "content of a liquid", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "rho", Meaning: "density", Unit: "g/ml"},
			{Symbol: "w", Meaning: "content", Unit: "% w/w"}},
		Text: "10 * rho * w", Valid: "density at 20 °C, from the pack", Source: balance, Origin: figure.Standard},
	Go: func(rho unit.Density, w unit.WW) unit.Concentration {
		return unit.Concentration(10 * float64(rho) * float64(w))
	},
})

// liquidVolume is A7: the volume of a strong liquid that holds a mass.
var liquidVolume = figure.Register(&figure.F2[unit.Volume, unit.Mass, unit.Concentration]{
	Formula: figure.Formula{ID: "liquid.volume", Name: "volume of a strong liquid", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "m", Meaning: "mass wanted", Unit: "g"},
			{Symbol: "c", Meaning: "content of the liquid", Unit: "g/L"}},
		Text: "1000 * m / c", Valid: "content in g/L, never % w/w taken for w/v", Source: balance,
		Origin: figure.Standard},
	Go: func(m unit.Mass, c unit.Concentration) unit.Volume {
		return unit.Volume(1000 * float64(m) / float64(c))
	},
})

// contentOfLiquid is B14: the salt that a poured liquid brings along.
var contentOfLiquid = figure.Register(&figure.F3[unit.Mass, unit.Volume, unit.Density, unit.WW]{
	Formula: figure.Formula{ID: "liquid.mass", Name: "substance in a poured liquid", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "v", Meaning: "volume poured", Unit: "ml"},
			{Symbol: "rho", Meaning: "density", Unit: "g/ml"}, {Symbol: "w", Meaning: "content", Unit: "% w/w"}},
		Text: "v * rho * w / 100", Source: balance, Origin: figure.Standard},
	Go: func(v unit.Volume, rho unit.Density, w unit.WW) unit.Mass {
		return unit.Mass(float64(v) * float64(rho) * float64(w) / 100)
	},
})

// smallestMass is B6.
var smallestMass = figure.Register(&figure.F3[unit.Mass, unit.Factor, unit.Mass, unit.Percent]{
	Formula: figure.Formula{ID: "scale.smallest", Name: "smallest mass a scale may weigh", Result: "m_min", Unit: "g",
		Terms: []figure.Term{{Symbol: "k", Meaning: "divisions of doubt: 1 for a checked scale, 2 otherwise"},
			{Symbol: "d", Meaning: "what the scale reads", Unit: "g"},
			{Symbol: "e", Meaning: "error allowed", Unit: "%"}},
		Text: "k * d * 100 / e", Source: "common practice, no source", Origin: figure.Default},
	Go: func(k unit.Factor, d unit.Mass, e unit.Percent) unit.Mass {
		return unit.Mass(k) * d * 100 / unit.Mass(e)
	},
})

// measureError is B7.
var measureError = figure.Register(&figure.F2[unit.Percent, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "measure.error", Name: "relative error of a measured volume", Result: "e", Unit: "%",
		Terms: []figure.Term{{Symbol: "tol", Meaning: "tolerance, the sum of all pours", Unit: "ml"},
			{Symbol: "V", Meaning: "volume", Unit: "ml"}},
		Text: "100 * tol / V", Source: balance, Origin: figure.Standard},
	Go: func(tol, v unit.Volume) unit.Percent { return unit.Percent(100 * float64(tol) / float64(v)) },
})

// displaced is one substance's share of B8.
var displaced = figure.Register(&figure.F2[unit.Volume, unit.Mass, unit.VolumePerMass]{
	Formula: figure.Formula{ID: "start.displaced", Name: "volume that a powder adds", Result: "d", Unit: "ml",
		Terms: []figure.Term{{Symbol: "m", Meaning: "mass", Unit: "g"},
			{Symbol: "v", Meaning: "what a gram takes up", Unit: "ml/g"}},
		Text: "m * v", Source: "common practice, no source", Origin: figure.Estimate},
	Go: func(m unit.Mass, v unit.VolumePerMass) unit.Volume { return unit.Volume(float64(m) * float64(v)) },
})

// startRoom is the most water that leaves room for what is added.
var startRoom = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "start.room", Name: "most water the batch can hold", Result: "V_max", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "batch", Unit: "ml"},
			{Symbol: "D", Meaning: "volume of all that is added", Unit: "ml"}},
		Text: "V - D", Source: balance, Origin: figure.Standard},
	Go: func(v, d unit.Volume) unit.Volume { return v - d },
})

// startVolume is B8.
var startVolume = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "start.volume", Name: "water to start with", Result: "V_start", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "batch", Unit: "ml"},
			{Symbol: "V_max", Meaning: "most water it can hold", Unit: "ml"}},
		Text:   "min(0.8 * V, V_max - 0.1 * V)",
		Valid:  "the formula's own figure comes first; liquids at most half of the batch",
		Source: "common practice, no source", Origin: figure.Default},
	Go: func(v, most unit.Volume) unit.Volume { return min(0.8*v, most-0.1*v) },
})

// gramsPerLitre is what a strength holds of a substance.
var gramsPerLitre = figure.Register(&figure.F2[unit.Concentration, unit.Mass, unit.Volume]{
	Formula: figure.Formula{ID: "content", Name: "content of the solution", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "m", Meaning: "mass in it", Unit: "g"},
			{Symbol: "V", Meaning: "finished volume", Unit: "ml"}},
		Text: "1000 * m / V", Source: balance, Origin: figure.Standard},
	Go: func(m unit.Mass, v unit.Volume) unit.Concentration {
		return unit.Concentration(1000 * float64(m) / float64(v))
	},
})

// dilutedContent is what a dilution leaves of a content.
var dilutedContent = figure.Register(&figure.F3[unit.Concentration, unit.Concentration, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "content.diluted", Name: "content after dilution", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "c_0", Meaning: "content before", Unit: "g/L"},
			{Symbol: "a", Meaning: "parts of the solution"}, {Symbol: "b", Meaning: "parts of water"}},
		Text: "c_0 * a / (a + b)", Source: balance, Origin: figure.Standard},
	Go: func(c unit.Concentration, a, b unit.Factor) unit.Concentration {
		return c * unit.Concentration(a) / unit.Concentration(a+b)
	},
})

// massPercent is B13: w/v to w/w for the limits of labels.
var massPercent = figure.Register(&figure.F2[unit.WW, unit.Concentration, unit.Density]{
	Formula: figure.Formula{ID: "content.ww", Name: "content by mass", Result: "w", Unit: "% w/w",
		Terms: []figure.Term{{Symbol: "c", Meaning: "content", Unit: "g/L"},
			{Symbol: "rho", Meaning: "density of the solution", Unit: "g/ml"}},
		Text:  "c / (10 * rho)",
		Valid: "limits of classification are by mass; near a limit the lowest density counts", Source: balance,
		Origin: figure.Standard},
	Go: func(c unit.Concentration, rho unit.Density) unit.WW { return unit.WW(float64(c) / (10 * float64(rho))) },
})

// costOf is one ingredient's part of I4.
var costOf = figure.Register(&figure.F2[unit.Money, unit.Concentration, unit.MoneyPerKg]{
	Formula: figure.Formula{ID: "cost.part", Name: "cost of an ingredient in a litre", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "c", Meaning: "content", Unit: "g/L"},
			{Symbol: "p", Meaning: "price of a kilogram"}},
		Text: "c * p / 1000", Source: "prices in store.toml", Origin: figure.House},
	Go: func(c unit.Concentration, p unit.MoneyPerKg) unit.Money {
		return unit.Money(float64(c) * float64(p) / 1000)
	},
})

// waterCost is the water's part of I4.
var waterCost = figure.Register(&figure.F2[unit.Money, unit.Volume, unit.MoneyPerL]{
	Formula: figure.Formula{ID: "cost.water", Name: "cost of the water in a litre", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "v", Meaning: "water in a litre of solution", Unit: "ml"},
			{Symbol: "p", Meaning: "price of a litre of it"}},
		Text: "v * p / 1000", Source: "prices in lab.toml", Origin: figure.House},
	Go: func(v unit.Volume, p unit.MoneyPerL) unit.Money { return unit.Money(float64(v) * float64(p) / 1000) },
})

// totalCost is I4: the sum of the parts.
var totalCost = figure.Register(&figure.FN[unit.Money, unit.Money]{
	Formula: figure.Formula{ID: "cost.litre", Name: "cost of a litre", Result: "K", Unit: "",
		Terms: []figure.Term{{Symbol: "k", Meaning: "cost of each part"}},
		Text:  "sum(k)", Source: "prices in store.toml and lab.toml", Origin: figure.House},
	Go: figure.Total[unit.Money],
})

// floorTo rounds down to a multiple of a step, snapped.
func floorTo(x, step float64) float64 { return unit.Round(x, step, unit.Down) }

// liquidShare is what a liquid holds of a substance that another liquid brings.
var liquidShare = figure.Register(&figure.F3[unit.Concentration, unit.Density, unit.WW, unit.WW]{
	Formula: figure.Formula{ID: "liquid.share", Name: "content by way of a liquid", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "rho", Meaning: "density", Unit: "g/ml"},
			{Symbol: "w", Meaning: "share of the liquid by mass", Unit: "% w/w"},
			{Symbol: "p", Meaning: "content of that liquid by mass", Unit: "% w/w"}},
		Text: "rho * w * p / 10", Source: balance, Origin: figure.Standard},
	Go: func(rho unit.Density, w, p unit.WW) unit.Concentration {
		return unit.Concentration(float64(rho) * float64(w) * float64(p) / 10)
	},
})

// startStep is what a start volume is rounded down to: what a jug shows.
func startStep(batch unit.Volume) float64 {
	switch {
	case batch >= 1000:
		return 50
	case batch >= 250:
		return 10
	}
	for _, step := range []float64{5, 2} {
		if float64(batch) >= 50*step {
			return step
		}
	}
	return 1
}
