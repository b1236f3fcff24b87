package lab

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// use checks a month's work: it names processes of the lab, and so many of what
// they take.
func (c *checker) use() {
	p := c.lab.Place
	var ids []string
	known := map[string]*Process{}
	for _, d := range c.lab.Processes {
		ids = append(ids, d.ID)
		known[d.ID] = d
	}
	for _, id := range sortedKeys(p.Use) {
		at := p.At("use." + id)
		d := known[id]
		if d == nil {
			if !c.lab.Broken["processes/"+id] {
				c.problems = append(c.problems, Problem{At: at, OnKey: true, Code: "reference", What: "there is no process " + quoted(id), Hint: Near(id, ids, "a month's work is written by process, for example film-negative = \"24 rolls\"")})
			}
			continue
		}
		for i, entry := range p.Use[id] {
			eat := at
			if len(p.Use[id]) > 1 {
				eat = at.At(fmt.Sprintf("[%d]", i))
			}
			if entry.Count == 0 {
				c.add(eat, "range", fmt.Sprintf("%q: none in a month tells nothing about age or orders", entry.Text()), "write a month's work, or leave the process out")
			}
			if entry.Of == "" {
				continue
			}
			if m := c.piece(entry.Of, eat); m != nil && d.Base != "" && m.Base != "" && m.Base != d.Base {
				c.add(eat, "word", fmt.Sprintf("%s is made on %s, and %s is for %s", entry.Of, m.Base, d.ID, d.Base), "name a material that the process takes")
			}
		}
	}
}

// storage checks bottles and packs' reserves.
func (c *checker) storage() {
	p := c.lab.Place
	for _, id := range sortedKeys(p.Bottles) {
		b, at := p.Bottles[id], p.At("bottle."+id)
		if !b.Holds.Given() {
			c.add(at, "missing", "the bottle "+quoted(id)+" does not say what it holds", `write holds = "500 mL"`)
		}
		positive(c, b.Holds)
		if b.Count < 0 {
			c.add(at.At("count"), "range", "fewer than no bottles", "write how many there are")
		}
	}
	positive(c, p.House.SameTime)
	positive(c, p.House.FilmCarry)
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
				c.add(amount.Where(), "range", fmt.Sprintf("%q is less than nothing", amount.Text()), "write what is really there")
			}
		}
		c.packKind(pack, at)
		positive(c, pack.Size.Mass)
		positive(c, pack.Size.Volume)
	}
}

// packKind demands that a pack is counted as its stuff is: powders by mass,
// liquids by mass or volume.
func (c *checker) packKind(pack Pack, at figure.Where) {
	ing, bad := c.lab.Resolve(pack.Of, at.At("of"))
	if len(bad) > 0 || ing.Chemical == nil || ing.Form.Density.Given() {
		return
	}
	for _, amount := range []Amount{pack.Left, pack.Size, pack.Reserve} {
		if amount.Volume.Given() {
			c.add(amount.Where(), "quantity", fmt.Sprintf("%q is a volume, and %s is weighed", amount.Text(), ing.Name()), `write a mass, for example "500 g"; a liquid needs its density in its own file`)
		}
	}
}

// dissolves checks a table of solubilities: temperatures as keys.
func (c *checker) dissolves(f *Form, at figure.Where) {
	for _, key := range sortedKeys(f.Dissolves) {
		var t unit.Quantity[unit.Temperature]
		if err := t.UnmarshalText([]byte(key)); err != nil {
			c.problems = append(c.problems, Problem{At: at.At(`dissolves."` + key + `"`), OnKey: true, Code: "quantity", What: fmt.Sprintf("%q is not a temperature", key), Hint: `write dissolves = { "20 °C" = "26.4 g/100 g" }`})
		}
		positive(c, f.Dissolves[key])
	}
}
