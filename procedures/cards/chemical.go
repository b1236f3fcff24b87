package cards

import (
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/rules"
	"wetside/procedures/unit"
)

// chemicalCards makes a sheet for every chemical that is used or in the store.
func chemicalCards(c *Context) []page.Page {
	used := c.usedChemicals()
	var out []page.Page
	for _, d := range c.housed() {
		out = append(out, c.chemicalCard(d, used[d.ID]))
	}
	return out
}

// usedChemicals are the solutions that each chemical is used in.
func (c *Context) usedChemicals() map[string][]string {
	used := map[string][]string{}
	note := func(ref string, s *lab.Solution, at figure.Where) {
		ing, bad := c.Lab.Resolve(ref, at)
		if len(bad) > 0 || ing.Chemical == nil {
			return
		}
		id := ing.Chemical.ID
		if list := used[id]; len(list) == 0 || list[len(list)-1] != s.ID {
			used[id] = append(list, s.ID)
		}
	}
	for _, s := range c.Lab.Solutions {
		for i, step := range s.Steps {
			note(step.Add, s, s.At(lab.StepKey(i)))
		}
		if s.Dissolve != nil {
			note(s.Dissolve.Add, s, s.At("dissolve.add"))
			note(s.Dissolve.In, s, s.At("dissolve.in"))
		}
	}
	return used
}

// housed are the chemicals that are used, in the store, or the lab's own.
func (c *Context) housed() []*lab.Chemical {
	used := c.usedChemicals()
	stored := map[string]bool{}
	for _, p := range c.Lab.Store.Packs {
		if ing, bad := c.Lab.Resolve(p.Of, c.Lab.Store.At("pack")); len(bad) == 0 && ing.Chemical != nil {
			stored[ing.Chemical.ID] = true
		}
	}
	var out []*lab.Chemical
	for _, d := range c.Lab.Chemicals {
		if len(used[d.ID]) > 0 || stored[d.ID] || !d.Library {
			out = append(out, d)
		}
	}
	return out
}

func (c *Context) chemicalCard(d *lab.Chemical, used []string) page.Page {
	known := hazard.OfChemical(c.Mix.Rules, d)
	p := page.Page{ID: "chemical/" + d.ID, Kind: "chemical", KindLine: "Chemical sheet", Title: capital(d.Name), Was: wasIDs("chemical/", d.Was)}
	if shelf := c.Mix.Rules.Shelf(d); shelf != "" {
		p.Lead = page.Say(page.N(shelf))
	}
	p.Before = beforeJob(hazard.Weigh, known)
	if d.Keep == "never" {
		p.Before = append(p.Before, page.Cautions{Items: []page.Text{page.Say(page.S("Not kept in this house: "), page.N(d.Why))}})
	}
	t := page.Table{ID: "forms", Caption: page.Say(page.S("Its forms")), Head: []page.Text{page.Say(page.W("form")), page.Say(page.W("formula")), page.Say(page.W("CAS number")), page.Say(page.W("molar mass")), page.Say(page.W("said of it"))}}
	for _, id := range d.FormIDs() {
		f := d.Forms[id]
		r := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(d.FormName(id)))}, {Text: page.Say(page.N(formulaText(f.Formula)))}, {Text: page.Say(page.N(orDash(f.CAS)))}}}
		if parsed, err := chem.Parse(f.Formula); err == nil {
			g := figure.Constant(unit.Molar(parsed.MolarMass()), "sum of atomic weights", "IUPAC/CIAAW 2021", figure.Standard)
			id := figure.Declare(c.Book, d.ID+"."+id+"/molar-mass", figure.KindAmount, g, unit.Format(unit.Round(float64(parsed.MolarMass()), 0.01, unit.Nearest), unit.NewDecimal(1, 2)), "g/mol")
			r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.F(id))})
		} else {
			r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.W("no fixed composition"))})
		}
		if f.Refuse != "" {
			r.Cells = append(r.Cells, page.Cell{No: true, Why: f.Refuse})
		} else {
			r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.N(liquidText(f)))})
		}
		t.Rows = append(t.Rows, r)
	}
	p.Do = []page.Block{t}
	p.Why = []page.Block{hazardBlock(known)}
	if h := d.Hazards; h != nil && h.Assessed != nil {
		by := h.Assessed.By
		if d.Library && by == "library" {
			by = "the library that comes with the program"
		}
		t := page.Say(page.W("Assessed by "), page.N(by), page.W(" on "), page.N(h.Assessed.On.String()))
		if h.Assessed.Sheet != "" {
			t = append(t, page.W(": "), page.N(h.Assessed.Sheet))
		}
		p.Why = append(p.Why, page.Para{Text: append(t, page.W("."))})
	}
	if d.Hazards != nil && d.Hazards.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(d.Hazards.Note))})
	}
	if d.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(d.Note))})
	}
	if len(used) > 0 {
		l := page.List{Label: page.Say(page.W("used in"))}
		for _, id := range used {
			l.Items = append(l.Items, page.Say(page.L("mix/"+id, c.Lab.Solution(id).Name)))
		}
		p.Tables = append(p.Tables, l)
	}
	never := page.List{}
	for _, m := range c.Mix.Rules.Never([]rules.Kinds{c.Mix.Rules.OfChemical(d)}, true) {
		never.Items = append(never.Items, page.Say(page.N(c.meetLine(m))))
	}
	never.Items = append(never.Items, page.Say(page.W("use a pack without its name, its date and the supplier’s sheet")))
	p.Never = []page.Block{never}
	var holes []page.Hole
	if !c.Mix.Rules.Said(d) {
		holes = unsaidHoles([]string{d.Name})
	}
	for _, name := range known.Missing {
		holes = append(holes, page.Hole{What: "the hazards of " + name, Until: "full precautions", Key: "[hazards] classes in " + d.File + ", from section 2 of the supplier’s sheet"})
	}
	p.Foot = c.foot(d.Def, holes)
	if d.Library {
		p.Foot.Holes = nil
		p.Foot.Change = "from the library that comes with the program"
	}
	return p
}

func formulaText(s string) string {
	if s == "" || s == "none" {
		return "–"
	}
	if f, err := chem.Parse(s); err == nil {
		return f.String()
	}
	return s
}

func liquidText(f *lab.Form) string {
	if f.Content.Given() {
		return f.Content.Text() + ", " + unit.Spoken(f.Density)
	}
	if f.Purity.Given() {
		return f.Purity.Text()
	}
	return "–"
}
