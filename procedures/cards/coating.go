package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// coatTables say how much sensitiser so many sheets take, and how much of each part.
func (c *Context) coatTables(s *work.Solution) []page.Block {
	var out []page.Block
	for _, x := range s.Coatings {
		out = append(out, c.coatTable(x))
	}
	return out
}

func (c *Context) coatTable(x work.Coating) page.Table {
	t := page.Table{ID: "coat-" + x.Format.ID, Caption: append(page.Say(page.S("To coat"), page.W(" ")),
		formatInFull(x.Of)...),
		Head: []page.Text{page.Say(page.W("sheets")), page.Say(page.W("need")), page.Say(page.W("mix"))}}
	for _, name := range x.Parts {
		t.Head = append(t.Head, page.Say(page.N(name)))
	}
	for _, n := range x.Sheets {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.F(n.Sheets))}, {Text: page.Say(page.F(n.Need))},
			{Text: page.Say(page.W("–"))}}}
		if n.Mix != nil {
			row.Cells[2].Text = page.Say(page.F(n.Mix))
		}
		for _, take := range n.Takes {
			row.Cells = append(row.Cells, c.takeCell(take))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
