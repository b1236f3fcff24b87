package cards

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// chemicalCards makes a sheet for every chemical that is used or in the store.
func chemicalCards(c *Context) []page.Page {
	var out []page.Page
	for _, d := range c.W.Chemicals {
		out = append(out, c.chemicalCard(d))
	}
	return out
}

func (c *Context) chemicalCard(x *work.Chemical) page.Page {
	d, known := x.Decl, x.Dangers
	p := page.Page{ID: "chemical/" + d.ID, Kind: "chemical", KindLine: "Chemical sheet", Title: capital(d.Name),
		Was: wasIDs("chemical/", d.Was)}
	if x.Shelf != "" {
		p.Lead = page.Say(page.N(x.Shelf))
	}
	p.Before = beforeJob(work.Weigh, known)
	if d.Keep == "never" {
		p.Before = append(p.Before, page.Cautions{Items: []page.Text{page.Say(page.S("Not kept in this lab: "),
			page.N(d.Why)), page.Say(page.N(capital(d.Instead)))}})
	}
	t := page.Table{ID: "forms", Caption: page.Say(page.S("Its forms")),
		Head: []page.Text{page.Say(page.W("form")), page.Say(page.W("formula")), page.Say(page.W("CAS number")),
			page.Say(page.W("molar mass")), page.Say(page.W("remarks"))}}
	for _, f := range x.Forms {
		r := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(f.Name))},
			{Text: page.Say(page.N(orDash(f.Formula)))}, {Text: page.Say(page.N(orDash(f.Decl.CAS)))}}}
		if f.Molar != nil {
			r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.F(f.Molar))})
		} else {
			r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.W("no fixed composition"))})
		}
		if f.Decl.Refuse != "" {
			r.Cells = append(r.Cells, page.Cell{No: true, Why: f.Decl.Refuse})
		} else {
			r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.N(saidOf(f.Decl)))})
		}
		t.Rows = append(t.Rows, r)
	}
	// People first, then the floor: nobody who spilt it out of its pack looks up a bath.
	persons := c.firstAid(known, work.Known{})
	ask := page.Say(page.W("into a closed bag: "), page.Inline{Kind: page.Ask, Text: "first"})
	p.Do = []page.Block{page.Steps{Rows: persons, Cases: true, Urgent: len(persons)},
		page.Steps{Rows: c.spillRows(x.Spill, !x.Dusty(), x.Dusty(), ask), Cases: true}, t}
	p.Why = []page.Block{hazardBlock(known)}
	if h := d.Hazards; h != nil && h.Assessed != nil {
		by := h.Assessed.By
		if d.Library && by == "library" {
			by = "the built-in library"
		}
		t := page.Say(page.W("Assessed by "), page.N(by), page.W(" on "), page.N(h.Assessed.On.String()))
		if h.Assessed.Sheet != "" {
			t = append(t, page.W(": "), page.N(h.Assessed.Sheet))
		}
		p.Why = append(p.Why, page.Para{Text: append(t, page.W("."))})
	}
	if list := inMixtures(d); len(list.Items) > 0 {
		p.Tables = append(p.Tables, list)
	}
	if d.Hazards != nil && d.Hazards.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(d.Hazards.Note))})
	}
	if d.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(d.Note))})
	}
	if len(x.UsedIn) > 0 {
		l := page.List{Label: page.Say(page.W("used in"))}
		for _, s := range x.UsedIn {
			l.Items = append(l.Items, page.Say(page.L("mix/"+s.ID, s.Name)))
		}
		p.Tables = append(p.Tables, l)
	}
	never := page.List{}
	for _, n := range x.Spill.Never {
		never.Items = append(never.Items, page.Say(page.W("when it is spilt: "), page.N(n)))
	}
	for _, m := range x.Meets {
		never.Items = append(never.Items, page.Say(page.N(meetLine(m))))
	}
	never.Items = append(never.Items,
		page.Say(page.W("use a pack without its name, its date and the supplier’s sheet")))
	p.Never = []page.Block{never}
	var holes []page.Hole
	if !x.Said {
		holes = unsaidHoles([]string{d.Name})
	}
	for _, name := range known.Missing {
		holes = append(holes, page.Hole{What: "the hazards of " + name, Until: "full precautions",
			Key: "[hazards] classes in " + d.File + ", from section 2 of the supplier’s sheet"})
	}
	p.Foot = c.foot(d.Def, holes)
	if d.Library {
		p.Foot.Holes = nil
		p.Foot.Change = "from the built-in library"
	}
	return p
}

// saidOf is what is said of a form beside its formula.
func saidOf(f *lab.Form) string {
	var out []string
	switch {
	case f.Content.Given():
		out = append(out, f.Content.Text(), unit.Spoken(f.Density))
	case f.Purity.Given():
		out = append(out, f.Purity.Text())
	}
	if f.Heat.Given() {
		word := "takes in "
		if f.Heat.Negative() {
			word = "gives off "
		}
		out = append(out, word+strings.TrimPrefix(unit.Spoken(f.Heat), "-")+" when it dissolves")
	}
	if len(f.Ions) > 0 {
		out = append(out, "in water "+ionWords(f.Ions))
	}
	if f.Classes != nil {
		out = append(out, "as it comes: "+classWords(f.Classes))
	}
	return orDash(strings.Join(out, ", "))
}

// ionWords are ions with how many of each.
func ionWords(list map[string]lab.Count) string {
	var ions []string
	for _, ion := range slices.Sorted(maps.Keys(list)) {
		ions = append(ions, strconv.Itoa(int(list[ion]))+" "+ion)
	}
	return strings.Join(ions, ", ")
}

// inMixtures is what the supplier's sheet, or the library, says for the classes of baths
// that hold a chemical, and what it becomes in water.
func inMixtures(d *lab.Chemical) page.List {
	l := page.List{Label: page.Say(page.W("what else is known of it"))}
	say := func(label, words string) {
		l.Items = append(l.Items, page.Say(page.W(label+": "), page.N(words)))
	}
	if len(d.Ions) > 0 {
		say("in water it becomes", ionWords(d.Ions))
	}
	if d.Volatile {
		l.Items = append(l.Items, page.Say(page.W("it gives off vapour at room temperature")))
	}
	h := d.Hazards
	if h == nil {
		return l
	}
	for _, a := range []struct{ label, words string }{{"acute toxicity, swallowed", h.ATE.Oral.Text()},
		{"acute toxicity, through the skin", h.ATE.Dermal.Text()},
		{"acute toxicity, vapour", h.ATE.Vapour.Text()}, {"acute toxicity, dust or mist", h.ATE.Dust.Text()},
		{"acute toxicity, gas", h.ATE.Gas.Text()}} {
		if a.words != "" {
			say(a.label, a.words)
		}
	}
	for _, route := range h.Unknown {
		say("nobody has tested it", map[lab.Route]string{lab.ByMouth: "swallowed", lab.BySkin: "through the skin",
			lab.ByBreath: "breathed in"}[route])
	}
	for _, class := range slices.Sorted(maps.Keys(h.Limits)) {
		l.Items = append(l.Items, page.Say(page.N(class), page.W(" from: "), page.N(h.Limits[class].Text())))
	}
	if h.MFactor.Acute.Given() {
		say("M-factor, acute", h.MFactor.Acute.String())
	}
	if h.MFactor.Chronic.Given() {
		say("M-factor, chronic", h.MFactor.Chronic.String())
	}
	if h.Additive != nil && !*h.Additive {
		l.Items = append(l.Items, page.Say(page.W("for skin and eyes it is not added to others")))
	}
	if h.Together != "" {
		say("counted together with", h.Together)
	}
	for _, class := range slices.Sorted(maps.Keys(h.Tested)) {
		l.Items = append(l.Items, page.Say(page.W("tested against "), page.N(class), page.W(": "),
			page.N(h.Tested[class])))
	}
	return l
}
