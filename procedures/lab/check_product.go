package lab

import (
	"fmt"
	"math/big"

	"wetside/procedures/figure"
)

func (c *checker) product(d *Product) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a product without a name", `"wetting agent concentrate"`)
	}
	word(c, d.Role, d.At("role"))
	word(c, d.State, d.At("state"))
	c.density(d.Density)
	c.keeps(d.Keeps)
	c.contains(d.Contains, d.At("contains"))
	c.hazards(d.Def, d.Hazards, d.At("hazards"))
	c.boughtPack(d.Pack, d.State, d.At("pack"))
	c.sheet(d.Sheet, d.At("sheet"))
	c.kit(d)
	c.makes(d)
	c.yields(d)
	c.strengths(d.Def, d.Strengths, d.StrengthNames(), d.MadeStrength())
	c.waste(d.Def, d.Waste)
}

func (c *checker) waste(d Def, id string) { c.route(id, d.At("waste")) }

func (c *checker) route(id string, at figure.Where) {
	if id != "" && id != "none" && c.lab.WasteRoute(id) == nil && !c.lab.Broken["waste/"+id] {
		var ids []string
		for _, w := range c.lab.Wastes {
			ids = append(ids, w.ID)
		}
		c.add(at, "reference", "there is no waste route "+quoted(id),
			Near(id, ids, "write it in waste/, or leave waste out: the card then says 'to a drum, ask first'"))
	}
}

// boughtPack checks what the shop sells as one pack of something in a state.
func (c *checker) boughtPack(p BoughtPack, state State, at figure.Where) {
	positive(c, p.Holds.Mass)
	positive(c, p.Holds.Volume)
	switch {
	case state.Solid() && p.Holds.Volume.Given():
		c.add(p.Holds.Where(), "quantity", fmt.Sprintf("%q is a volume, and what is dry is weighed", p.Holds.Text()),
			`write what the pack weighs, for example "400 g"; the volume that it makes stands under [makes]`)
	case state == Liquid && p.Holds.Mass.Given():
		c.add(p.Holds.Where(), "quantity", fmt.Sprintf("%q is a mass, and a liquid is measured", p.Holds.Text()),
			`write what the bottle holds, for example "500 mL": its mass divided by its density`)
	}
	c.currencyOf(p.Price)
}

// sheet checks the supplier's safety sheet.
func (c *checker) sheet(s *SupplierSheet, at figure.Where) {
	if s == nil {
		return
	}
	word(c, s.SpeaksOf, at.At("speaks_of"))
	c.past(s.Edition.Date, s.Edition.Where(), "the edition of")
	if s.File != "" && !contains(c.lab.SheetFiles, s.File) {
		c.add(at.At("file"), "reference", "there is no file "+quoted(s.File)+" that can be copied",
			Near(s.File, c.lab.SheetFiles,
				"put the supplier's sheet into supplier-sheets/ and write its path from the binder's folder, or leave file out"))
	}
	if !s.Edition.Given() {
		c.add(at, "missing", "a supplier's sheet without its date: nobody can tell whether it is the newest",
			"write edition = 2024-05-02, from the head of the sheet")
	}
}

// makes checks what a pack is made up to. What is no liquid is not diluted as it comes.
func (c *checker) makes(d *Product) {
	m := d.Makes
	if m == nil {
		solid := d.State.Solid() || len(d.Parts) > 0
		for _, name := range d.StrengthNames() {
			b := Bath{Product: d, Strength: name}
			if from, _, ok := b.From(); ok && solid && from.Strength == Supplied {
				c.add(d.At("strength."+keyName(name)), "missing",
					fmt.Sprintf("%q is diluted from what is no liquid", name),
					`write what a pack makes, for example [makes] with stock = "3 L" and start = { with = "2.4 L", at = "40 °C" }`)
			}
		}
		return
	}
	at := d.At("makes")
	word(c, m.Divide, at.At("divide"))
	positive(c, m.Stock)
	positive(c, m.Start.With)
	c.startable(m.Start.At)
	if !m.Stock.Given() {
		c.add(at, "missing", "a pack that does not say how much it makes", `write stock = "3 L" under [makes], the volume of what is ready`)
	} else if m.Start.With.Positive() && m.Start.With.Exact().Cmp(m.Stock.Exact()) >= 0 {
		c.add(m.Start.With.Where(), "range", fmt.Sprintf("starting with %s leaves no room below the mark at %s",
			m.Start.With.Text(), m.Stock.Text()), "start with about three quarters of the volume")
	}
	if len(d.Parts) == 0 && !d.Pack.Holds.Given() {
		c.add(at, "missing", "it makes a volume, and nobody has written what a pack holds", `write pack = { holds = "400 g" } above the first table`)
	}
	if own := d.Strengths["stock"]; own != nil && (own.Dilute.Given() || own.From != "") {
		c.add(d.At("strength.stock"), "shape", "the stock is diluted here, and made of a pack under [makes]",
			"keep one of the two")
	}
}

// kit checks the parts of a kit against the steps that add them.
func (c *checker) kit(d *Product) {
	ids := d.PartIDs()
	for _, id := range ids {
		part, at := d.Parts[id], d.At("part."+keyName(id))
		if part == nil {
			continue
		}
		word(c, part.State, at.At("state"))
		c.boughtPack(part.Pack, part.State, at.At("pack"))
		c.density(part.Density)
		c.keeps(part.Keeps)
		c.contains(part.Contains, at.At("contains"))
		c.hazards(d.Def, part.Hazards, at.At("hazards"))
		c.sheet(part.Sheet, at.At("sheet"))
		if !part.Pack.Holds.Given() {
			c.add(at, "missing", "nobody has written what this part holds", `write pack = { holds = "500 mL" }`)
		}
	}
	added := map[string]bool{}
	for i, s := range d.Steps {
		at := d.At(StepKey(i))
		part := d.Parts[s.Add]
		switch {
		case s.Add == "":
			c.add(at, "missing", "a step that adds nothing", `write add = "a", the id of a part`)
			continue
		case len(ids) == 0:
			c.add(at.At("add"), "reference", "this product has no parts: what is bought in one pack is made up under [makes]", `write [part.a] for each bottle of a kit, or a file in solutions/ for what is mixed from several things`)
			continue
		case part == nil:
			c.add(at.At("add"), "reference", fmt.Sprintf("the kit has no part %q", s.Add),
				Near(s.Add, ids, "its parts are "+list(ids)))
			continue
		case added[s.Add]:
			c.add(at.At("add"), "id", fmt.Sprintf("part %q is added a second time", s.Add),
				"write one step for each part")
		}
		added[s.Add] = true
		positive(c, s.Amount.Mass)
		positive(c, s.Amount.Volume)
		switch {
		case !s.Amount.Given():
			c.add(at, "missing", "a step that does not say how much", `write amount = "500 mL"`)
		case part.Pack.Holds.Volume.Given() && s.Amount.Mass.Given() || part.Pack.Holds.Mass.Given() && s.Amount.Volume.Given():
			c.add(s.Amount.Where(), "quantity", fmt.Sprintf("%q of a part of which the pack holds %s", s.Amount.Text(),
				part.Pack.Holds.Text()), "write both in g, or both in mL")
		case overdrawn(s.Amount, part.Pack.Holds):
			c.add(s.Amount.Where(), "range", fmt.Sprintf("%s is more than the %s that the part holds",
				s.Amount.Text(), part.Pack.Holds.Text()), "correct the amount or the pack")
		}
	}
	for _, id := range ids {
		if len(d.Steps) > 0 && !added[id] {
			c.problems = append(c.problems, Problem{At: d.At("part." + keyName(id)), OnKey: true, Code: "missing",
				What: fmt.Sprintf("no step adds part %q", id),
				Hint: fmt.Sprintf("write [[step]] with add = %q and its amount, or take the part out", id)})
		}
	}
	if len(ids) > 0 && len(d.Steps) == 0 {
		c.missing(d.Def, "[[step]]", "a kit that does not say in which order its parts are mixed", fmt.Sprintf(`add = %q and amount = "500 mL"`, ids[0]))
	}
}

// overdrawn reports an amount that is more than there is; a mass and a volume are not
// compared.
func overdrawn(amount, holds Amount) bool {
	more := func(a, b *big.Rat) bool { return a.Cmp(b) > 0 }
	return amount.Mass.Given() && holds.Mass.Given() && more(amount.Mass.Exact(), holds.Mass.Exact()) ||
		amount.Volume.Given() && holds.Volume.Given() && more(amount.Volume.Exact(), holds.Volume.Exact())
}

// yields checks what a pack does by the maker's word.
func (c *checker) yields(d *Product) {
	for i, y := range d.Yields {
		at := d.At(fmt.Sprintf("yields[%d]", i))
		names := d.StrengthNames()
		switch {
		case y.Strength == "":
			c.add(at, "missing", "a yield that does not say of which strength", `write strength = "working"`)
		case !contains(names, y.Strength):
			c.add(at.At("strength"), "reference", quoted(d.ID)+" has no strength "+quoted(y.Strength),
				Near(y.Strength, names, "its strengths are "+list(names)))
		}
		switch {
		case !y.Count.Given():
			c.add(at, "missing", "a yield that does not say how many of what", `write count = "500 film-400.135-36", or "500 rolls"`)
		case y.Count.Low == 0:
			c.add(y.Count.Where(), "range", fmt.Sprintf("%q: a pack that does nothing", y.Count.Text()),
				"write how many, or take the entry out")
		case y.Count.Of != "":
			_, _, problems := c.lab.Piece(y.Count.Of, y.Count.Where())
			c.problems = append(c.problems, problems...)
		}
		c.originWord(y.Says, at.At("says"))
	}
}
