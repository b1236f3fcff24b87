package lab

import (
	"fmt"

	"wetside/procedures/figure"
)

func (c *checker) store() {
	type lot struct{ ref, lot string }
	seen := map[lot]int{}
	s := c.lab.Store
	for i, p := range s.Packs {
		at := s.At(fmt.Sprintf("pack[%d]", i))
		if p.Of == "" {
			c.add(at, "missing", "a pack that does not say what is in it", `write of = "sodium-sulfite.anhydrous"`)
			continue
		}
		ing, problems := c.lab.InPack(p, at.At("of"))
		c.problems = append(c.problems, problems...)
		if d := ing.Chemical; d != nil && d.oneFormula() {
			c.whichForm(p.Of, ing, at.At("of"))
		}
		if len(problems) == 0 && ing.Ref != "" {
			one := lot{ing.Ref, p.Lot}
			if first, again := seen[one]; again {
				hint := "write one pack with what is left in all, or the lot of each, which tells them apart"
				if kit := ing.Bath.Product; kit != nil && len(kit.Parts) > 0 {
					hint += fmt.Sprintf(`; of a kit, name the part: of = "%s.%s"`, kit.ID, kit.PartIDs()[0])
				}
				c.add(at.At("of"), "id", fmt.Sprintf("a second pack of %s (the first is number %d)", ing.Ref,
					first+1), hint)
			}
			seen[one] = i
		}
		if d := ing.Chemical; d != nil && d.Keep == "never" {
			c.problems = append(c.problems, Problem{At: at.At("of"), Code: "refused", Warning: true,
				What: "a pack of " + d.Name + ", which is not kept in this lab: " + d.Why,
				Hint: "ask who collects it; " + d.otherwise()})
		}
		c.past(p.Opened.Date, p.Opened.Where(), "the opening on")
		if p.Lead.Given() && p.Lead.Days == 0 && p.Lead.Months == 0 {
			c.add(p.Lead.Where(), "life", fmt.Sprintf("%q: a delivery is counted in days, weeks or months", p.Lead.Text()), `write "2 weeks"`)
		}
		c.currencyOf(p.Price)
	}
}

// storage checks bottles and packs' reserves.
func (c *checker) storage() {
	p := c.lab.Place
	for _, id := range sortedKeys(p.Bottles) {
		b, at := p.Bottles[id], p.At("bottle."+keyName(id))
		if !b.Holds.Given() {
			c.add(at, "missing", "the bottle "+quoted(id)+" does not say what it holds", `write holds = "500 mL"`)
		}
		positive(c, b.Holds)
		if b.Count < 0 {
			c.add(at.At("count"), "range", "the number of bottles is negative", "write how many there are")
		}
	}
	for _, id := range sortedKeys(p.Drums) {
		d := p.Drums[id]
		positive(c, d.Holds)
		switch level := d.Level; {
		case level.Negative():
			c.add(level.Where(), "range", fmt.Sprintf("%q is below zero", level.Text()), "write what is really in it")
		case level.Given() && d.Holds.Positive() && level.Exact().Cmp(d.Holds.Exact()) > 0:
			c.add(level.Where(), "range", fmt.Sprintf("%q is more than the drum holds (%s)", level.Text(),
				d.Holds.Text()), "correct level or holds")
		case d.LevelOn.Given() && !level.Given():
			c.add(d.LevelOn.Where(), "missing", "the day on which somebody looked into the drum is written, and not what was in it", `write level = "12 L" beside it`)
		}
	}
	positive(c, p.House.SameTime)
	positive(c, p.House.FilmCarry)
	positive(c, p.House.SulfiteEaten)
	positive(c, p.House.FirstLeaves)
	sensible(c, p.House.FirstLeaves, "0.1 %", "50 %")
	sensible(c, p.House.SulfiteEaten, "1 %", "90 %")
	positive(c, p.Water.FilmFlow)
	for _, life := range []SaidLife{p.House.OrderLead, p.House.OrderCover} {
		if life.Given() && life.Days == 0 && life.Months == 0 {
			c.add(life.Where(), "life", fmt.Sprintf("%q: an order is counted in days, weeks or months", life.Text()), `write "2 weeks"`)
		}
	}
	for i, pack := range c.lab.Store.Packs {
		at := c.lab.Store.At(fmt.Sprintf("pack[%d]", i))
		for _, amount := range []Amount{pack.Left, pack.Size, pack.Reserve} {
			if amount.Mass.Negative() || amount.Volume.Negative() {
				c.add(amount.Where(), "range", fmt.Sprintf("%q is below zero", amount.Text()),
					"write what is really there")
			}
		}
		c.packKind(pack, at)
		positive(c, pack.Size.Mass)
		positive(c, pack.Size.Volume)
	}
}

// packKind demands that a pack is counted as its stuff is: powders by mass, liquid
// chemicals by mass or volume, liquid products by volume.
func (c *checker) packKind(pack Pack, at figure.Where) {
	ing, bad := c.lab.InPack(pack, at.At("of"))
	if len(bad) > 0 || ing.Water {
		return
	}
	product := ing.Bath.Product
	for _, amount := range []Amount{pack.Left, pack.Size, pack.Reserve} {
		switch {
		case product != nil && !product.Comes(Powder, Tablets) && amount.Mass.Given():
			c.add(amount.Where(), "quantity", fmt.Sprintf("%q is a mass, and %s is measured as a liquid", amount.Text(), ing.Name()), `write a volume, for example "500 mL"; what is no liquid needs state = "powder" in its own file`)
		case product != nil && product.State.Solid() && amount.Volume.Given(),
			ing.Chemical != nil && !ing.Form.Density.Given() && amount.Volume.Given():
			c.add(amount.Where(), "quantity", fmt.Sprintf("%q is a volume, and %s is weighed", amount.Text(), ing.Name()), `write a mass, for example "500 g"; a liquid needs its density in its own file`)
		}
	}
}
