package capacity

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// storeMass, storeVolume and storePacks add what is left in several packs.
var (
	storeMass = figure.Register(&figure.FN[unit.Mass, unit.Mass]{
		Formula: figure.Formula{ID: "store.mass", Name: "in the house", Result: "h", Unit: "g",
			Terms: []figure.Term{{Symbol: "m", Meaning: "left in each pack", Unit: "g"}},
			Text:  "sum(m)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: figure.Total[unit.Mass],
	})
	storeVolume = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
		Formula: figure.Formula{ID: "store.volume", Name: "in the house", Result: "h", Unit: "ml",
			Terms: []figure.Term{{Symbol: "v", Meaning: "left in each pack", Unit: "ml"}},
			Text:  "sum(v)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: figure.Total[unit.Volume],
	})
)

// standing is what is left of something in all its packs; false where there is none, or
// where nobody has written what is left in one of them.
func standing[T unit.Kind](packs []lab.InStore, order string,
	read func(lab.Amount, string, string) (figure.Figure[T], bool),
	add *figure.FN[T, T]) (figure.Figure[T], bool) {
	if len(packs) == 0 {
		return figure.Figure[T]{}, false
	}
	var all []figure.Figure[T]
	for i, p := range packs {
		id := figure.Beside(order, "left")
		if i > 0 {
			id = figure.Beside(order, "left", fmt.Sprint(i+1))
		}
		one, ok := read(p.Left, id, "in the house")
		if !ok {
			return figure.Figure[T]{}, false
		}
		all = append(all, one)
	}
	if len(all) == 1 {
		return all[0], true
	}
	return add.Of(figure.Beside(order, "have"), all...), true
}

// monthPacks is how many packs a month's bath takes.
var monthPacks = figure.Register(&figure.F3[unit.Factor, unit.Volume, unit.Factor, unit.Volume]{
	Formula: figure.Formula{ID: "month.packs", Name: "packs for a month", Result: "u", Unit: "",
		Terms: []figure.Term{{Symbol: "V", Meaning: "bath for a month", Unit: "ml"},
			{Symbol: "s", Meaning: "share of the stock in it"},
			{Symbol: "M", Meaning: "volume that a pack makes", Unit: "ml"}},
		Text: "V * s / M", Valid: "a stock that is used up before it is too old", Source: "mass balance",
		Origin: figure.Standard},
	Go: func(v unit.Volume, s unit.Factor, makes unit.Volume) unit.Factor {
		return unit.Factor(v) * s / unit.Factor(makes)
	},
})

// packsTotal, leftPacks, kitsLeft, missingPacks and wholePacks are I3 for what is bought by
// the whole pack.
var (
	packsTotal = figure.Register(&figure.FN[unit.Factor, unit.Factor]{
		Formula: figure.Formula{ID: "month.packs.total", Name: "a month's use", Result: "u", Unit: "",
			Terms: []figure.Term{{Symbol: "n", Meaning: "what each bath takes"}},
			Text:  "sum(n)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: figure.Total[unit.Factor],
	})
	leftPacks = figure.Register(&figure.F2[unit.Factor, unit.Mass, unit.Mass]{
		Formula: figure.Formula{ID: "store.packs", Name: "packs in the house", Result: "h", Unit: "",
			Terms: []figure.Term{{Symbol: "m", Meaning: "left", Unit: "g"},
				{Symbol: "p", Meaning: "what a pack holds", Unit: "g"}},
			Text: "m / p", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(m, p unit.Mass) unit.Factor { return unit.Factor(m / p) },
	})
	leftBottles = figure.Register(&figure.F2[unit.Factor, unit.Volume, unit.Volume]{
		Formula: figure.Formula{ID: "store.bottles", Name: "packs in the house", Result: "h", Unit: "",
			Terms: []figure.Term{{Symbol: "v", Meaning: "left", Unit: "ml"},
				{Symbol: "p", Meaning: "what a pack holds", Unit: "ml"}},
			Text: "v / p", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(v, p unit.Volume) unit.Factor { return unit.Factor(v / p) },
	})
	kitsLeft = figure.Register(&figure.FN[unit.Factor, unit.Factor]{
		Formula: figure.Formula{ID: "store.kits", Name: "whole kits in the house", Result: "h", Unit: "",
			Terms: []figure.Term{{Symbol: "n", Meaning: "so many of each part"}},
			Text:  "min(n)", Valid: "a kit has every part once", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n []unit.Factor) unit.Factor {
			least := n[0]
			for _, x := range n {
				least = min(least, x)
			}
			return least
		},
	})
	missingPacks = figure.Register(&figure.F4[unit.Factor, unit.Factor, unit.Factor, unit.Factor, unit.Factor]{
		Formula: figure.Formula{ID: "order.missing.packs", Name: "missing", Result: "m", Unit: "",
			Terms: []figure.Term{{Symbol: "u", Meaning: "a month's use"},
				{Symbol: "l", Meaning: "months until it comes"},
				{Symbol: "c", Meaning: "months it is to last"}, {Symbol: "h", Meaning: "in the house"}},
			Text: "max(0, u * (l + c) - h)", Valid: "no more than is used up while it keeps", Source: "plain arithmetic",
			Origin: figure.Standard},
		Go: func(u, l, c, h unit.Factor) unit.Factor { return max(0, u*(l+c)-h) },
	})
	wholePacks = figure.Register(&figure.F1[unit.Factor, unit.Factor]{
		Formula: figure.Formula{ID: "order.packs.whole", Name: "packs to order", Result: "n", Unit: "",
			Terms: []figure.Term{{Symbol: "m", Meaning: "missing"}},
			Text:  "ceil(m)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(m unit.Factor) unit.Factor { return unit.Factor(unit.Round(float64(m), 1, unit.Up)) },
	})
	orderMoney = figure.Register(&figure.F2[unit.Money, unit.Factor, unit.Money]{
		Formula: figure.Formula{ID: "order.money", Name: "what the packs cost", Result: "K", Unit: "",
			Terms: []figure.Term{{Symbol: "n", Meaning: "packs to order"}, {Symbol: "p", Meaning: "price of a pack"}},
			Text:  "n * p", Valid: "without postage", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n unit.Factor, p unit.Money) unit.Money { return unit.Money(n) * p },
	})
)

// pay enters the packs to order, and what they cost where there is a price; own is what the
// product's file says of a pack.
func (mo *Month) pay(o *Order, packs figure.Figure[unit.Factor], own lab.BoughtPack) {
	if price, ok := mo.m.PriceOfPack(o.Ref, figure.Beside(figure.ID("order", o.Ref), "price"), own); ok {
		mo.payAt(o, packs, price)
		return
	}
	o.Packs = mo.enterPacks(o, packs)
}

// payAt is pay at a price.
func (mo *Month) payAt(o *Order, packs figure.Figure[unit.Factor], price figure.Figure[unit.Money]) {
	o.Packs = mo.enterPacks(o, packs)
	if packs.Value > 0 {
		o.Money = figure.Enter(mo.m.Book, orderMoney.Of(figure.Beside(figure.ID("order", o.Ref), "money"),
			figure.Entered[unit.Factor](o.Packs), price).
			Named("cost of the order, "+o.Name).Show(figure.KindMoney, "0.01", unit.Nearest, "").In(mo.m.Currency()))
	}
}

func (mo *Month) enterPacks(o *Order, packs figure.Figure[unit.Factor]) *figure.Record {
	return figure.Enter(mo.m.Book, packs.Named("packs to order, "+o.Name).Show(figure.KindCount, "1", unit.Up, ""))
}

// orderPacks is what to buy of what is made up by the whole pack.
func (mo *Month) orderPacks(id string) Order {
	m := mo.m
	p := m.Lab.Product(id)
	o, order := Order{Ref: id + "." + lab.Supplied, Name: p.Name}, figure.ID("order", id+"."+lab.Supplied)
	count := func(f figure.Figure[unit.Factor], rule unit.Rule) *figure.Record {
		return figure.Enter(m.Book, f.Show(figure.KindCount, "0.1", rule, "").In("packs"))
	}
	work := mo.packsUse(id)
	o.Use = count(work, unit.Up)
	use := mo.withAgeOfPack(&o, p, work)
	if o.Life != nil {
		o.Work, o.Use = o.Use, count(use, unit.Up)
	}
	have, ok := mo.packsStock(&o, p, order)
	if !ok {
		o.Why = "store.toml does not say what is left of it"
		return o
	}
	o.Have = count(have, unit.Down)
	pack, _, _ := m.Lab.PackOf(o.Ref)
	lead, cover := mo.months(&o, pack)
	short := missingPacks.Of(figure.Beside(order, "missing"), use, lead, cover, have).Named("missing, " + o.Name)
	o.Missing = count(short, unit.Up)
	packs := wholePacks.Of(order, short)
	own := p.Pack
	if price, why := m.PackPrice(p); why == "" && len(p.Parts) > 0 { // a kit is bought whole
		mo.payAt(&o, packs, price)
		return o
	}
	mo.pay(&o, packs, own)
	return o
}

// packsLeft is how many packs of a product the store holds, of a kit how many whole ones;
// false where it does not say.
func packsLeft(p *lab.Product, order string, of func(ref string) []lab.InStore) (figure.Figure[unit.Factor], bool) {
	id := func(words ...string) string { return figure.Beside(order, words...) }
	if len(p.Parts) == 0 {
		return packsOf(of(p.ID+"."+lab.Supplied), p.Pack.Holds, id("packs"), id("left"))
	}
	var parts []figure.Figure[unit.Factor]
	for _, part := range p.PartIDs() {
		n, ok := packsOf(of(p.ID+"."+part), p.Parts[part].Pack.Holds, id("packs", part), id("left", part))
		if !ok {
			return n, false
		}
		parts = append(parts, n)
	}
	return kitsLeft.Of(id("packs"), parts...), true
}

// packsOf is how many packs of one size so many packs in the store come to.
func packsOf(packs []lab.InStore, holds lab.Amount, id, left string) (figure.Figure[unit.Factor], bool) {
	switch {
	case holds.Mass.Positive():
		if m, ok := standing(packs, left, byMass, storeMass); ok {
			return leftPacks.Of(id, m, holds.Mass.Figure("what a pack holds")), true
		}
	case holds.Volume.Positive():
		if v, ok := standing(packs, left, byVolume, storeVolume); ok {
			return leftBottles.Of(id, v, holds.Volume.Figure("what a pack holds")), true
		}
	}
	return figure.Figure[unit.Factor]{}, false
}

// ordersMoney adds what all orders cost.
var ordersMoney = figure.Register(&figure.FN[unit.Money, unit.Money]{
	Formula: figure.Formula{ID: "order.all", Name: "all orders together", Result: "K", Unit: "",
		Terms: []figure.Term{{Symbol: "k", Meaning: "cost of each order"}},
		Text:  "sum(k)", Valid: "what has a price, without postage", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: figure.Total[unit.Money],
})

// Money is what all orders cost that have a price; nil where there is none.
func (mo *Month) Money(orders []Order) *figure.Record {
	var all []figure.Figure[unit.Money]
	for _, o := range orders {
		if o.Money != nil {
			all = append(all, figure.Entered[unit.Money](o.Money))
		}
	}
	if len(all) == 0 {
		return nil
	}
	return figure.Enter(mo.m.Book, ordersMoney.Of(figure.ID("order", "all"), all...).
		Show(figure.KindMoney, "0.01", unit.Nearest, "").In(mo.m.Currency()))
}

// VolumeOf enters what is left in several packs together.
func VolumeOf(book *figure.Ledger, id string, packs []*figure.Record) *figure.Record {
	var all []figure.Figure[unit.Volume]
	for _, r := range packs {
		all = append(all, figure.Entered[unit.Volume](r))
	}
	return figure.Enter(book, storeVolume.Of(id, all...).Show(figure.KindAmount, "1", unit.Down, ""))
}
