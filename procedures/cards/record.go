package cards

import (
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// recordCards makes the mixing record of each solution: what was really done,
// by pencil, with two initials.
func recordCards(c *Context) []page.Page {
	var out []page.Page
	for _, s := range c.Lab.Solutions {
		made := lab.Bath{Solution: s, Strength: s.MadeStrength()}
		known := c.dangers(made)
		p := page.Page{ID: "record/" + s.ID, Kind: "record", KindLine: "Mixing record", Title: capital(s.Name), Lead: page.Say(page.N(made.Strength)), Role: roleOf(s.Role)}
		p.Before = beforeJob(work.Weigh, known)
		blank := page.Cell{Text: page.Say(page.Inline{Kind: page.Blank})}
		rows := page.Blanks{Caption: page.Say(page.W("weighed and measured")), Head: []page.Text{page.Say(page.W("substance")), page.Say(page.W("pack, opened on")), page.Say(page.W("taken")), page.Say(page.W("initials"))}}
		batches := c.Mix.Batches(s)
		if len(batches) > 0 {
			b := c.Mix.Batch(s, batches[0], c.batchAt(s, mix.Batch{Volume: batches[0]}))
			for _, row := range b.Rows {
				rows.Rows = append(rows.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(row.Ing.Name())))}, blank, blank, blank}})
			}
		}
		p.Do = []page.Block{rows, page.Blanks{Lines: []page.Text{
			page.Say(page.W("batch "), page.Inline{Kind: page.Blank}, page.W(" made "), page.Inline{Kind: page.Blank}, page.W(" ml")),
			page.Say(page.W("mixed on "), page.Inline{Kind: page.Blank}, page.W(" at "), page.Inline{Kind: page.Blank}),
			page.Say(page.W("measured pH "), page.Inline{Kind: page.Blank}, page.W(" temperature "), page.Inline{Kind: page.Blank}),
			page.Say(page.W("looks and smells "), page.Inline{Kind: page.Blank}),
			page.Say(page.W("mixed by "), page.Inline{Kind: page.Blank}, page.W(" checked by "), page.Inline{Kind: page.Blank}),
			page.Say(page.W("into bottles "), page.Inline{Kind: page.Blank}),
		}}}
		p.Never = bottleNever(made, s.Never, mixingNevers(s))
		p.Foot = c.foot(s.Def, nil)
		out = append(out, p)
	}
	return out
}
