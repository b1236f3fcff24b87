package lab

import (
	"wetside/procedures/figure"
)

func (c *checker) product(d *Product) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a product without a name", `"wetting agent concentrate"`)
	}
	word(c, d.Role, d.At("role"))
	c.density(d.Density)
	c.keeps(d.Keeps)
	c.contains(d)
	c.hazards(d.Def, d.Hazards)
	c.strengths(d.Def, d.Strengths, d.StrengthNames())
	c.waste(d.Def, d.Waste)
}

func (c *checker) waste(d Def, id string) { c.route(id, d.At("waste")) }

func (c *checker) route(id string, at figure.Where) {
	if id != "" && id != "none" && c.lab.WasteRoute(id) == nil && !c.lab.Broken["waste/"+id] {
		var ids []string
		for _, w := range c.lab.Wastes {
			ids = append(ids, w.ID)
		}
		c.add(at, "reference", "there is no waste route "+quoted(id), Near(id, ids, "write it in waste/, or leave waste out: the card then says 'to a drum, ask first'"))
	}
}
