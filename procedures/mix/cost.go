package mix

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// contentPrice turns a liquid's price into that of a kilogram of what is in it.
var contentPrice = figure.Register(&figure.F2[unit.MoneyPerKg, unit.MoneyPerL, unit.Concentration]{
	Formula: figure.Formula{ID: "price.content", Name: "price of a kilogram in a liquid", Result: "p", Unit: "",
		Terms: []figure.Term{{Symbol: "p_L", Meaning: "price of a litre"},
			{Symbol: "c", Meaning: "content of the liquid", Unit: "g/L"}},
		Text: "1000 * p_L / c", Source: balance, Origin: figure.Standard},
	Go: func(p unit.MoneyPerL, c unit.Concentration) unit.MoneyPerKg {
		return unit.MoneyPerKg(1000 * float64(p) / float64(c))
	},
})

// dilutedCost is what a litre of a dilution costs.
var dilutedCost = figure.Register(&figure.F4[unit.Money, unit.Money, unit.MoneyPerL, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "cost.diluted", Name: "cost of a litre, diluted", Result: "K", Unit: "",
		Terms: []figure.Term{{Symbol: "K_0", Meaning: "cost of a litre before"},
			{Symbol: "p", Meaning: "price of a litre of water"}, {Symbol: "a", Meaning: "parts of the solution"},
			{Symbol: "b", Meaning: "parts of water"}},
		Text: "(K_0 * a + p * b) / (a + b)", Source: "prices in store.toml and lab.toml", Origin: figure.House},
	Go: func(k unit.Money, p unit.MoneyPerL, a, b unit.Factor) unit.Money {
		return (k*unit.Money(a) + unit.Money(p)*unit.Money(b)) / unit.Money(a+b)
	},
})

// suppliedCost is a litre as it is bought.
var suppliedCost = figure.Register(&figure.F1[unit.Money, unit.MoneyPerL]{
	Formula: figure.Formula{ID: "cost.supplied", Name: "cost of a litre as bought", Result: "K", Unit: "",
		Terms: []figure.Term{{Symbol: "p", Meaning: "price of a litre"}},
		Text:  "p", Source: "prices in store.toml", Origin: figure.House},
	Go: func(p unit.MoneyPerL) unit.Money { return unit.Money(p) },
})

// partCost is one bath's share of the cost of what is made of baths.
var partCost = figure.Register(&figure.F3[unit.Money, unit.Money, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "cost.share", Name: "cost of a bath in a litre", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "K", Meaning: "cost of a litre of the bath"}, {Symbol: "v", Meaning: "its share"},
			{Symbol: "V", Meaning: "the whole"}},
		Text: "K * v / V", Source: "prices in store.toml and lab.toml", Origin: figure.House},
	Go: func(k unit.Money, v, whole unit.Factor) unit.Money { return k * unit.Money(v/whole) },
})

// volumeCost is the same for a bath that is measured by its volume.
var volumeCost = figure.Register(&figure.F3[unit.Money, unit.Money, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "cost.share.volume", Name: "cost of a bath in a litre", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "K", Meaning: "cost of a litre of the bath"},
			{Symbol: "v", Meaning: "its volume", Unit: "ml"}, {Symbol: "V", Meaning: "the whole", Unit: "ml"}},
		Text: "K * v / V", Source: "prices in store.toml and lab.toml", Origin: figure.House},
	Go: func(k unit.Money, v, whole unit.Volume) unit.Money { return k * unit.Money(v/whole) },
})

// CostOf is what a litre of a strength costs (I4), or why nobody can say.
func (m *Mixer) CostOf(b lab.Bath) (figure.Figure[unit.Money], string) {
	if have, ok := m.costs[b.Ref()]; ok {
		return have.fig, have.why
	}
	fig, why := m.costOf(b)
	if why != "" {
		m.Book.Refuse(figure.ID(b.Ref(), "cost"), figure.KindMoney, "cost of a litre", "", why, figure.House)
	} else {
		fig = fig.Show(figure.KindMoney, "0.01", unit.Nearest, "").In(m.Currency())
	}
	m.costs[b.Ref()] = costed{fig, why}
	return fig, why
}

// Cost enters what a litre of a strength costs.
func (m *Mixer) Cost(b lab.Bath) (cost *figure.Record, why string) {
	fig, why := m.CostOf(b)
	if why != "" {
		return nil, why
	}
	return figure.Enter(m.Book, fig), ""
}

type costed struct {
	fig figure.Figure[unit.Money]
	why string
}

// Currency is the lab's: every price is in the same one.
func (m *Mixer) Currency() string {
	for _, p := range m.Lab.Store.Packs {
		if p.Price.Given() {
			return p.Price.Currency
		}
	}
	for _, p := range m.Lab.Products {
		if p.Pack.Price.Given() {
			return p.Pack.Price.Currency
		}
	}
	return m.Lab.Place.Water.Price.Currency
}

func (m *Mixer) costOf(b lab.Bath) (figure.Figure[unit.Money], string) {
	no := figure.Figure[unit.Money]{}
	id := figure.ID(b.Ref(), "cost")
	if from, dil, ok := b.From(); ok {
		before, why := m.CostOf(from)
		if why != "" {
			return no, why
		}
		if dil.None() {
			return before, ""
		}
		pa, pb := dil.Figures()
		price, why := m.waterPrice(b.Written().Water)
		if why != "" {
			return no, why
		}
		return dilutedCost.Of(id, before, price, pa, pb), ""
	}
	s := b.Solution
	if s == nil {
		return m.boughtCost(b, id)
	}
	made := m.Made(b)
	parts, room, why := m.bathCosts(b, s)
	if why != "" {
		return no, why
	}
	for _, c := range made.Contents {
		byStep, byBath := m.sources(s, c)
		if byStep && byBath {
			return no, c.Chemical.Name + " comes by itself and in a bath: nobody can say which part costs what"
		}
		if byBath {
			continue
		}
		part, space, why := m.chemicalCost(b, c)
		if why != "" {
			return no, why
		}
		parts, room = append(parts, part), append(room, space...)
	}
	if s.Dissolve == nil && len(s.Steps) > 0 && s.Steps[0].Parts.Given() {
		room = nil
	} else if price, why := m.waterPrice(s.Water); why == "" && (s.Dissolve == nil || s.Dissolve.In == "water") {
		litre := figure.Constant(unit.Volume(1000), "a litre", "", figure.Standard)
		water := startRoom.Of(figure.ID(b.Ref(), "cost.water.volume"), litre,
			displacedSum.Of(figure.ID(b.Ref(), "cost.room"), room...))
		parts = append(parts, waterCost.Of(figure.ID(b.Ref(), "cost.water"), water, price))
	}
	if len(parts) == 0 {
		return no, "nothing in it has a price"
	}
	return totalCost.Of(id, parts...), ""
}

// sources tell whether a content is weighed in by a step of its own, and whether
// it comes with a bath that is poured in, whose cost counts it.
func (m *Mixer) sources(s *lab.Solution, c Content) (byStep, byBath bool) {
	if s.Dissolve != nil {
		return true, false
	}
	for i, step := range s.Steps {
		ing, bad := m.Lab.Resolve(step.Add, s.At(lab.StepKey(i)).At("add"))
		switch {
		case len(bad) > 0 || ing.Water:
		case ing.Chemical != nil:
			byStep = byStep || ing.Ref == c.Ref()
		default:
			for _, inner := range m.Made(ing.Bath).Contents {
				byBath = byBath || inner.Ref() == c.Ref()
			}
		}
	}
	return byStep, byBath
}

// bathCosts are the shares of the baths that are poured into a solution.
func (m *Mixer) bathCosts(b lab.Bath,
	s *lab.Solution) (parts []figure.Figure[unit.Money], room []figure.Figure[unit.Volume], why string) {
	all := wholeParts(s)
	for i, step := range s.Steps {
		key := lab.StepKey(i)
		ing, bad := m.Lab.Resolve(step.Add, s.At(key).At("add"))
		if len(bad) > 0 || ing.Chemical != nil {
			continue
		}
		id := figure.ID(b.Ref(), "cost."+StepID(step))
		if ing.Water {
			price, why := m.waterPrice(s.Water)
			if why != "" || !step.Parts.Given() {
				continue
			}
			litre := suppliedCost.Of(figure.ID(b.Ref(), "cost.litre.water"), price)
			parts = append(parts, partCost.Of(id, litre, step.Parts.Figure("parts of water"),
				figure.Constant(all, "all parts", "", figure.Standard)))
			continue
		}
		cost, why := m.CostOf(ing.Bath)
		if why != "" {
			return nil, nil, why
		}
		if step.Parts.Given() {
			parts = append(parts, partCost.Of(id, cost, step.Parts.Figure("its parts"),
				figure.Constant(all, "all parts", "", figure.Standard)))
			continue
		}
		v, per := step.Amount.Volume.Figure("its volume in ml"), s.Per.Figure("the whole in ml")
		parts = append(parts, volumeCost.Of(id, cost, v, per))
		share := scaleVolume.Of(figure.ID(b.Ref(), "room."+StepID(step)),
			step.Amount.Volume.Figure("volume of the bath"),
			s.Per.Figure("finished volume"), figure.Constant(unit.Volume(1000), "a litre", "", figure.Standard))
		room = append(room, share)
	}
	return parts, room, ""
}

// chemicalCost is one chemical's part of a litre, and the room it takes up.
func (m *Mixer) chemicalCost(b lab.Bath,
	c Content) (part figure.Figure[unit.Money], room []figure.Figure[unit.Volume], why string) {
	name := c.Chemical.FormName(c.Form)
	pack, _, ok := m.Lab.PackOf(c.Ref())
	if !ok || !pack.Price.Given() {
		return part, nil, "no price for " + name + " in store.toml"
	}
	form := c.Chemical.Forms[c.Form]
	ing, _ := m.Lab.Resolve(c.Ref(), pack.Price.Where())
	var perKg figure.Figure[unit.MoneyPerKg]
	if p, byMass := pack.Price.FigurePerKg("price of " + name); byMass {
		perKg = p
	} else if perL, byVolume := pack.Price.FigurePerL("price of " + name); byVolume && form.Density.Given() {
		content := liquidContent.Of(figure.ID(c.Ref(), "content"), formDensity(ing), formContent(ing))
		perKg = contentPrice.Of(figure.ID(c.Ref(), "price"), perL, content)
	} else {
		return part, nil, "the price of " + name + " is not by mass or volume"
	}
	mass := figure.Cast[unit.Mass](c.Conc.Best()).Called("mass in a litre")
	switch {
	case form.Content.Given() && form.Density.Given():
		room = append(room, liquidVolume.Of(figure.ID(b.Ref(), "room."+c.Ref()), mass,
			liquidContent.Of(figure.ID(c.Ref(), "content"), formDensity(ing), formContent(ing))))
	case form.TakesUp.Given():
		room = append(room, displaced.Of(figure.ID(b.Ref(), "room."+c.Ref()), mass,
			form.TakesUp.Figure("what a gram takes up")))
	}
	return costOf.Of(figure.ID(b.Ref(), "cost."+c.Ref()), c.Conc, perKg), room, ""
}

// waterPrice is the price of a litre of a kind of water; unwritten, tap water
// counts as nothing and deionised water cannot be counted.
func (m *Mixer) waterPrice(kind lab.WaterKind) (figure.Figure[unit.MoneyPerL], string) {
	w := m.Lab.Place.Water
	price := w.Price
	if kind == "deionised" {
		price = w.Deionised
	}
	if perL, ok := price.FigurePerL("price of a litre of water"); ok {
		return perL, ""
	}
	if kind == "deionised" {
		return figure.Figure[unit.MoneyPerL]{}, "no price for deionised water in lab.toml"
	}
	return figure.Constant(unit.MoneyPerL(0), "tap water, no price written", "", figure.Estimate), ""
}
