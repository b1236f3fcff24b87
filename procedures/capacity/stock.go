package capacity

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// agedPacks and agedVolume are a month's use of what gets too old before it is used up: a
// begun pack is not worked longer than it keeps, however little is worked in it.
var (
	agedPacks = figure.Register(&figure.F3[unit.Factor, unit.Factor, unit.Factor, unit.Factor]{
		Formula: figure.Formula{ID: "month.packs.aged", Name: "a month's use, with age", Result: "u", Unit: "",
			Terms: []figure.Term{{Symbol: "n", Meaning: "packs that the work takes"},
				{Symbol: "d", Meaning: "days in a month"},
				{Symbol: "L", Meaning: "life of a pack that is begun", Unit: "days"}},
			Text: "max(n, d / L)", Valid: "one pack is begun after the other, and work never stops",
			Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n, d, life unit.Factor) unit.Factor { return max(n, d/life) },
	})
	agedVolume = figure.Register(&figure.F4[unit.Volume, unit.Volume, unit.Volume, unit.Factor, unit.Factor]{
		Formula: figure.Formula{ID: "month.volume.aged", Name: "a month's use, with age", Result: "u", Unit: "ml",
			Terms: []figure.Term{{Symbol: "v", Meaning: "what the work takes", Unit: "ml"},
				{Symbol: "P", Meaning: "one pack", Unit: "ml"}, {Symbol: "d", Meaning: "days in a month"},
				{Symbol: "L", Meaning: "life of a pack that is begun", Unit: "days"}},
			Text: "max(v, P * d / L)", Valid: "one pack is begun after the other, and work never stops",
			Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(v, p unit.Volume, d, life unit.Factor) unit.Volume { return max(v, p*unit.Volume(d/life)) },
	})
)

// PackLife is how long a pack of a product lasts at most once it is begun, and the state by
// which that is told: what it makes, where all of it is made at once; else what was opened,
// of a kit the part that keeps shortest, which is named unless all keep as long. It is not
// given where nobody has written it.
func PackLife(p *lab.Product) (life lab.SaidLife, state, part string) {
	if p.Makes != nil && p.Makes.Divide != lab.MayDivide {
		keeps, _ := lab.Bath{Product: p, Strength: p.MadeStrength()}.Keeps()
		life, state = LifeInBottle(keeps)
		return life, state, ""
	}
	if len(p.Parts) == 0 {
		keeps, _ := lab.Bath{Product: p, Strength: lab.Supplied}.Keeps()
		life, state = LifeInBottle(keeps)
		return life, state, ""
	}
	least, most := 0.0, 0.0
	for i, id := range p.PartIDs() {
		l, s := LifeInBottle(p.PartKeeps(id))
		n, long := days(l.Life)
		if !long { // of what nobody has written, nobody can say that it keeps longer
			return lab.SaidLife{}, "", ""
		}
		if i == 0 || n < least {
			least, life, state, part = n, l, s, id
		}
		most = max(most, n)
	}
	if least == most {
		part = ""
	}
	return life, state, part
}

// productUse is how much of a product, as it is bought, all that is worked in a month takes.
func (mo *Month) productUse(id string) figure.Figure[unit.Volume] {
	return monthVolume.Of(figure.Beside(figure.ID("order", id+"."+lab.Supplied), "use"), mo.products[id]...).
		Named("a month's use, " + mo.m.Lab.Product(id).Name)
}

// packsUse is how many packs of a product all that is worked in a month takes.
func (mo *Month) packsUse(id string) figure.Figure[unit.Factor] {
	return packsTotal.Of(figure.Beside(figure.ID("order", id+"."+lab.Supplied), "use"), mo.packs[id]...).
		Named("a month's use, " + mo.m.Lab.Product(id).Name)
}

// withAgeOfPack is a month's use of packs with their age.
func (mo *Month) withAgeOfPack(o *Order, p *lab.Product, use figure.Figure[unit.Factor]) figure.Figure[unit.Factor] {
	life, ok := mo.beginsToEnd(p)
	if !ok {
		return use
	}
	aged := agedPacks.Of(figure.Beside(figure.ID("order", o.Ref), "use", "aged"), use, DaysInMonth, life).Named("a month's use, " + p.Name)
	if unit.Snap(float64(aged.Value)) <= unit.Snap(float64(use.Value)) {
		return use
	}
	mo.byAge(o, p)
	return aged
}

// withAgeOfBottle is a month's use of a product by volume with the age of its packs.
func (mo *Month) withAgeOfBottle(o *Order, p *lab.Product, use figure.Figure[unit.Volume],
	size lab.Said[unit.Volume]) figure.Figure[unit.Volume] {
	life, ok := mo.beginsToEnd(p)
	if !ok || !size.Positive() {
		return use
	}
	aged := agedVolume.Of(figure.Beside(figure.ID("order", o.Ref), "use", "aged"), use, size.Figure("one pack"), DaysInMonth, life).
		Named("a month's use, " + p.Name)
	if unit.Snap(float64(aged.Value)) <= unit.Snap(float64(use.Value)) {
		return use
	}
	mo.byAge(o, p)
	return aged
}

// beginsToEnd is the life of a pack that is begun, in days.
func (mo *Month) beginsToEnd(p *lab.Product) (figure.Figure[unit.Factor], bool) {
	life, state, _ := PackLife(p)
	n, long := days(life.Life)
	if !long {
		return figure.Figure[unit.Factor]{}, false
	}
	return life.Figure("life, " + stateWord(state)).WithValue(unit.Factor(n)), true
}

// byAge notes that age decides how much a month takes.
func (mo *Month) byAge(o *Order, p *lab.Product) {
	life, state, _ := PackLife(p)
	o.State = stateWord(state)
	o.Life = figure.Declare(mo.m.Book, figure.Beside(figure.ID("order", o.Ref), "life"), figure.KindCount,
		life.Figure("how long a pack keeps once it is begun"), unit.Short(life.Number()), life.Word())
}

// stock is what stands in the house of something and may be used; false where nobody has
// written it.
func stock[T unit.Kind](mo *Month, o *Order, ref, order string,
	read func(lab.Amount, string, string) (figure.Figure[T], bool), add *figure.FN[T, T]) (figure.Figure[T], bool) {
	here, past := mo.m.Lab.UsablePacks(ref, mo.day)
	mo.past(o, past)
	if len(here) == 0 && past > 0 {
		return add.Of(figure.Beside(order, "have"), nothing[T]()), true
	}
	return standing(here, order, read, add)
}

// nothing is what a pack counts for that is past its best-before.
func nothing[T unit.Kind]() figure.Figure[T] {
	return figure.Constant(T(0), "packs past their best-before", "past its date it is no stock", figure.Default)
}

// packsStock is how many packs of a product stand in the house and may be used.
func (mo *Month) packsStock(o *Order, p *lab.Product, order string) (figure.Figure[unit.Factor], bool) {
	refs, past, empty := []string{p.ID + "." + lab.Supplied}, 0, false
	if len(p.Parts) > 0 {
		refs = nil
		for _, part := range p.PartIDs() {
			refs = append(refs, p.ID+"."+part)
		}
	}
	for _, ref := range refs {
		here, n := mo.m.Lab.UsablePacks(ref, mo.day)
		past += n
		empty = empty || len(here) == 0 && n > 0
	}
	mo.past(o, past)
	if empty {
		return packsTotal.Of(figure.Beside(order, "have"), nothing[unit.Factor]()), true
	}
	return packsLeft(p, order, func(ref string) []lab.InStore {
		here, _ := mo.m.Lab.UsablePacks(ref, mo.day)
		return here
	})
}

// past notes how many packs are past their best-before.
func (mo *Month) past(o *Order, n int) {
	if n > 0 {
		o.Past = figure.Declare(mo.m.Book, figure.Beside(figure.ID("order", o.Ref), "past"), figure.KindCount,
			figure.Constant(unit.Factor(n), "packs past their best-before", "", figure.House), fmt.Sprint(n), "")
	}
}
