package mix

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// packLitre is what a litre costs of what a whole pack makes.
var packLitre = figure.Register(&figure.F3[unit.Money, unit.Money, unit.Volume, unit.MoneyPerL]{
	Formula: figure.Formula{ID: "cost.pack.litre", Name: "cost of a litre of what a pack makes", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "K", Meaning: "price of a pack"},
			{Symbol: "V", Meaning: "volume made", Unit: "ml"},
			{Symbol: "p", Meaning: "price of a litre of water"}},
		Text: "1000 * K / V + p", Valid: "all of the volume counted as water, which costs least in it",
		Source: balance, Origin: figure.Standard},
	Go: func(k unit.Money, v unit.Volume, p unit.MoneyPerL) unit.Money {
		return 1000*k/unit.Money(v) + unit.Money(p)
	},
})

// bottleLitre is what a litre costs of what is bought by the bottle.
var bottleLitre = figure.Register(&figure.F2[unit.Money, unit.Money, unit.Volume]{
	Formula: figure.Formula{ID: "cost.bottle.litre", Name: "cost of a litre as bought", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "K", Meaning: "price of a bottle"},
			{Symbol: "V", Meaning: "what it holds", Unit: "ml"}},
		Text: "1000 * K / V", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(k unit.Money, v unit.Volume) unit.Money { return 1000 * k / unit.Money(v) },
})

// wholeByMass and wholeByVolume are what a pack costs whose price is by mass or by volume.
var (
	wholeByMass = figure.Register(&figure.F2[unit.Money, unit.MoneyPerKg, unit.Mass]{
		Formula: figure.Formula{ID: "cost.pack.mass", Name: "price of a pack", Result: "K", Unit: "",
			Terms: []figure.Term{{Symbol: "p", Meaning: "price of a kilogram"},
				{Symbol: "m", Meaning: "what a pack holds", Unit: "g"}},
			Text: "p * m / 1000", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(p unit.MoneyPerKg, m unit.Mass) unit.Money { return unit.Money(float64(p) * float64(m) / 1000) },
	})
	wholeByVolume = figure.Register(&figure.F2[unit.Money, unit.MoneyPerL, unit.Volume]{
		Formula: figure.Formula{ID: "cost.pack.volume", Name: "price of a pack", Result: "K", Unit: "",
			Terms: []figure.Term{{Symbol: "p", Meaning: "price of a litre"},
				{Symbol: "v", Meaning: "what a pack holds", Unit: "ml"}},
			Text: "p * v / 1000", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(p unit.MoneyPerL, v unit.Volume) unit.Money { return unit.Money(float64(p) * float64(v) / 1000) },
	})
)

// noPrice is why nothing can be said of the cost of a product.
func noPrice(p *lab.Product) string {
	return "no price of a pack of " + p.Name + " in store.toml or in its own file"
}

// PackPrice is what one pack of a product costs: by the store, else by its own file; else
// why nobody can say. Parts of a kit that are bought apart are added.
func (m *Mixer) PackPrice(p *lab.Product) (figure.Figure[unit.Money], string) {
	id := figure.ID(p.ID, "pack.price")
	if price, ok := m.PriceOfPack(p.ID+"."+lab.Supplied, id, p.Pack); ok {
		return price, ""
	}
	var parts []figure.Figure[unit.Money]
	for _, part := range p.PartIDs() {
		price, ok := m.PriceOfPack(p.ID+"."+part, figure.Beside(id, part), p.Parts[part].Pack)
		if !ok {
			return figure.Figure[unit.Money]{}, noPrice(p)
		}
		parts = append(parts, price)
	}
	if len(parts) == 0 {
		return figure.Figure[unit.Money]{}, noPrice(p)
	}
	return m.asMoney(totalCost.Of(id, parts...).Named("price of a kit")), ""
}

// PriceOfPack is the price of a whole pack, by the store before the file; own is what the
// file says of one pack, empty for a chemical.
func (m *Mixer) PriceOfPack(ref, id string, own lab.BoughtPack) (figure.Figure[unit.Money], bool) {
	store, _, _ := m.Lab.PackOf(ref)
	size := own.Holds // what it makes is told of this much
	if !size.Given() {
		size = store.Size
	}
	for _, price := range []lab.SaidPrice{store.Price, own.Price} {
		if whole, ok := price.FigureWhole("price of a pack"); ok {
			return whole, true
		}
		if perKg, ok := price.FigurePerKg("price of a kilogram"); ok && size.Mass.Positive() {
			return m.asMoney(wholeByMass.Of(id, perKg, size.Mass.Figure("what a pack holds"))), true
		}
		if perL, ok := price.FigurePerL("price of a litre"); ok && size.Volume.Positive() {
			return m.asMoney(wholeByVolume.Of(id, perL, size.Volume.Figure("what a pack holds"))), true
		}
	}
	return figure.Figure[unit.Money]{}, false
}

func (m *Mixer) asMoney(f figure.Figure[unit.Money]) figure.Figure[unit.Money] {
	return f.Show(figure.KindMoney, "0.01", unit.Nearest, "").In(m.Currency())
}

// boughtCost is what a litre costs of a product as bought, or of what its pack makes.
func (m *Mixer) boughtCost(b lab.Bath, id string) (figure.Figure[unit.Money], string) {
	p, no := b.Product, figure.Figure[unit.Money]{}
	if b.Strength == lab.Supplied {
		pack, _, _ := m.Lab.PackOf(b.Ref())
		for _, price := range []lab.SaidPrice{pack.Price, p.Pack.Price} {
			if perL, ok := price.FigurePerL("price of " + b.Name()); ok {
				return suppliedCost.Of(id, perL), ""
			}
		}
		whole, why := m.PackPrice(p)
		if why != "" || !p.Pack.Holds.Volume.Positive() {
			return no, "no price of a litre for " + b.Name() + " in store.toml"
		}
		return bottleLitre.Of(id, whole, p.Pack.Holds.Volume.Figure("what a bottle holds")), ""
	}
	if p.Makes == nil || !p.Makes.Stock.Positive() {
		return no, "nobody has written what a pack of " + p.Name + " makes"
	}
	whole, why := m.PackPrice(p)
	if why != "" {
		return no, why
	}
	water, why := m.waterPrice(p.Water)
	if why != "" {
		return no, why
	}
	return packLitre.Of(id, whole, p.Makes.Stock.Figure("volume that it makes"), water), ""
}
