package cards

import (
	"wetside/procedures/lab"
	"wetside/procedures/page"
)

// notationBoard says how dilutions, percentages and rolls are written and counted here.
func notationBoard(c *Context) []page.Page {
	n := c.W.Notation
	p := page.Page{ID: "board/notation", Kind: "board", KindLine: "Before you pour anything",
		Title: "How it is written here"}
	t := page.Table{ID: "dilution", Caption: page.Say(page.S("What "), page.N("1+4"), page.S(" means"),
		page.W(": parts of the solution and parts of water")), Head: []page.Text{page.Say(page.W("written"))}}
	for _, v := range n.Volumes {
		t.Head = append(t.Head, page.Say(page.W("for "), page.F(v)))
	}
	wrong := page.Table{ID: "colon", Caption: page.Say(page.S("Why no colon"),
		page.W(": the same pair of numbers can be read two ways")),
		Head: []page.Text{page.Say(page.W("meant")), page.Say(page.W("if misread as one part in all: too strong by"))}}
	for _, d := range n.Dilutions {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(d.Text))}}}
		for _, take := range d.Takes {
			row.Cells = append(row.Cells, c.takeCell(take))
		}
		t.Rows = append(t.Rows, row)
		wrong.Rows = append(wrong.Rows,
			page.Row{Cells: []page.Cell{{Text: page.Say(page.N(d.Text))}, {Text: page.Say(page.F(d.Colon))}}})
	}
	t.Note = page.Say(page.W("Measure the solution, then fill up with water to the volume: the water is not measured."))
	p.Do = append(p.Do, t, c.rollsTable())
	p.Tables = append(p.Tables, wrong)
	p.Why = append(p.Why,
		page.Para{Text: page.Say(page.W("One dilution after another multiplies: "), page.N(n.Chain.First),
			page.W(" and then "), page.N(n.Chain.Second),
			page.W(" is one part in "), page.F(n.Chain.Parts), page.W(", not the sum of the two."))},
		page.Para{Text: page.Say(page.W("Two strengths make a third between them: for "), page.N(n.Blend.Want),
			page.W(" from "), page.N(n.Blend.Strong), page.W(" and "), page.N(n.Blend.Weak),
			page.W(" take "), page.F(n.Blend.Parts),
			page.W(" parts of the stronger for each part of the weaker, all w/v."))},
		page.Para{Text: page.Say(page.W("Always say per cent of what: w/v is grams in a hundred millilitres of the finished solution, w/w grams in a hundred grams."))})
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("write a dilution with a colon"))}}}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("read the label twice")),
		Items: []page.Text{page.Say(page.W("what it is")), page.Say(page.W("which strength")),
			page.Say(page.W("until when"))}}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "notation", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}

// rollsTable counts films as rolls, with one example.
func (c *Context) rollsTable() page.Block {
	t := page.Table{ID: "rolls", Caption: page.Say(page.S("Rolls are counted as equivalents")),
		Head: []page.Text{page.Say(page.W("format")), page.Say(page.W("counts as")), page.Say(page.W("area of one"))}}
	for _, f := range c.W.Notation.Rolls {
		counts := page.Say(page.F(f.Rolls))
		if f.ByArea {
			counts = append(counts, page.W(", by its area"))
		}
		t.Rows = append(t.Rows,
			page.Row{Cells: []page.Cell{{Text: page.Say(page.N(f.Name))}, {Text: counts},
				{Text: page.Say(page.F(f.Area))}}})
	}
	if e := c.W.Notation.Example; e.Rolls != nil {
		t.Note = page.Say(page.W("So one "), page.N(e.One), page.W(", two "), page.N(e.Two),
			page.W(" and four sheets of "), page.N(lab.InSides(e.FourSheets)),
			page.W(" are "), page.F(e.Rolls), page.W(" in the log."))
	}
	return t
}
