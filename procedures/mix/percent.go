package mix

import (
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// percentContent is what a percent solution holds in a litre.
var percentContent = figure.Register(&figure.F1[unit.Concentration, unit.WV]{
	Formula: figure.Formula{ID: "percent.content", Name: "content of a percent solution", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "P", Meaning: "grams in a hundred ml", Unit: "% w/v"}},
		Text:  "10 * P", Source: "definition of per cent w/v", Origin: figure.Standard},
	Go: func(p unit.WV) unit.Concentration { return unit.Concentration(10 * float64(p)) },
})

// solventContent is the solvent of a percent solution that is not in water.
var solventContent = figure.Register(&figure.F2[unit.Concentration, unit.Density, unit.Concentration]{
	Formula: figure.Formula{ID: "percent.solvent", Name: "solvent of a percent solution", Result: "c_s", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "rho", Meaning: "density of the solution", Unit: "g/ml"},
			{Symbol: "c", Meaning: "what is dissolved in it", Unit: "g/L"}},
		Text: "1000 * rho - c", Valid: "one substance in one pure solvent", Source: balance, Origin: figure.Standard},
	Go: func(rho unit.Density, c unit.Concentration) unit.Concentration {
		return unit.Concentration(1000*float64(rho)) - c
	},
})

func showConc(f figure.Figure[unit.Concentration]) figure.Figure[unit.Concentration] {
	return f.ShowSpan(figure.KindAmount, concStep(float64(f.Value)), unit.Nearest)
}

func concStep(v float64) string {
	switch {
	case v >= 100:
		return "1"
	case v >= 10:
		return "0.1"
	case v >= 0.1:
		return "0.01"
	}
	return "0.0001"
}

func formDensity(ing lab.Ingredient) figure.Figure[unit.Density] {
	return ing.Form.Density.Figure("density of " + ing.Name())
}

func formContent(ing lab.Ingredient) figure.Figure[unit.WW] {
	if ing.Form.Content.Given() {
		return ing.Form.Content.Figure("content of " + ing.Name())
	}
	return figure.Constant(unit.WW(100), "taken as pure", "no content declared", figure.Estimate)
}

// Content is what a litre of a liquid as bought holds of its substance; false for
// what is weighed.
func (m *Mixer) Content(ing lab.Ingredient) (figure.Figure[unit.Concentration], bool) {
	if ing.Form == nil || !ing.Form.Density.Given() {
		return figure.Figure[unit.Concentration]{}, false
	}
	return liquidContent.Of(figure.ID(ing.Ref, "content"), formDensity(ing), formContent(ing)), true
}

// MassPercent is a content by mass, with its bounds from the density's.
func (m *Mixer) MassPercent(made *Made, c Content) figure.Figure[unit.WW] {
	return m.massPercent(made, c.Ref(), c.Conc)
}

// OtherPercent is the content by mass of what is no chemical of ours.
func (m *Mixer) OtherPercent(made *Made, o Other) figure.Figure[unit.WW] {
	return m.massPercent(made, o.Key(), o.Conc)
}

func (m *Mixer) massPercent(made *Made, key string, conc figure.Figure[unit.Concentration]) figure.Figure[unit.WW] {
	f := massPercent.Of(figure.ID(made.Bath.Ref(), "ww."+key), conc, made.Density)
	f = f.WithBounds(f.Low, min(f.High, 100)) // more than the whole cannot be in it
	step := wwStep(float64(f.Value))
	if conc.Low != conc.High { // its share is a range, not only its density
		return f.ShowSpan(figure.KindRatio, step, unit.Nearest)
	}
	return f.Show(figure.KindRatio, step, unit.Nearest, "")
}

// wwStep shows what lies below a per cent to three decimals: limits of classes
// lie at tenths of a per cent.
func wwStep(percent float64) string {
	switch {
	case percent >= 1:
		return "0.01"
	case percent >= 0.01:
		return "0.001"
	}
	return "0.0001"
}

// Outward are the bounds of a content by mass in the steps in which it is printed, rounded away
// from each other so that they hold all that may be.
func Outward(ww figure.Figure[unit.WW]) (low, high unit.WW) {
	step := printedIn(ww).Float()
	return unit.WW(unit.Round(float64(ww.Low), step, unit.Down)), unit.WW(unit.Round(float64(ww.High), step, unit.Up))
}

// printedIn is the step in which a content is printed.
func printedIn(ww figure.Figure[unit.WW]) unit.Decimal {
	step, err := unit.ParseDecimal(ww.Record().Round.Step)
	if err != nil {
		panic(err)
	}
	return step
}

// Between enters the bounds of a content by mass as figures of their own, rounded outward; both
// are nil where nothing is known to spread.
func (m *Mixer) Between(ww figure.Figure[unit.WW]) (low, high *figure.Record) {
	if ww.Low == ww.High {
		return nil, nil
	}
	r, step := ww.Record(), printedIn(ww)
	enter := func(word string, v, printed unit.WW, rule unit.Rule) *figure.Record {
		shown := unit.Format(float64(printed), step)
		return m.Book.Enter(figure.Of(figure.Core{ID: figure.Beside(r.ID, word), Value: float64(v),
			Source: "bounds of the density and the amounts as declared", Origin: r.Origin},
			figure.Face{Kind: r.Kind, Name: r.Name + ", " + word + "est", Unit: r.Unit, Shown: shown, Rounded: shown,
				Round: figure.Rounding{Rule: rule.String(), Step: r.Round.Step}}, r))
	}
	least, most := Outward(ww)
	return enter("low", ww.Low, least, unit.Down), enter("high", ww.High, most, unit.Up)
}

// gramsPerMl is what each millilitre of a percent solution holds.
var gramsPerMl = figure.Register(&figure.F1[unit.Mass, unit.WV]{
	Formula: figure.Formula{ID: "percent.ml", Name: "in each millilitre", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "P", Meaning: "grams in a hundred ml", Unit: "% w/v"}},
		Text:  "P / 100", Source: "definition of per cent w/v", Origin: figure.Standard},
	Go: func(p unit.WV) unit.Mass { return unit.Mass(p / 100) },
})

// GramsPerMl enters what each millilitre of a percent solution holds.
func (m *Mixer) GramsPerMl(b lab.Bath) *figure.Record {
	q := b.Solution.Dissolve.Strength
	p := q.Figure("percentage")
	f := gramsPerMl.Of(figure.ID(b.Ref(), "gram-per-ml"), p)
	return figure.Enter(m.Book, f.ShowAs(figure.KindAmount, float64(f.Value),
		decimalOf(new(big.Rat).Quo(q.Exact(), big.NewRat(100, 1))), unit.Nearest, ""))
}
