package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// recordCards makes the mixing record of each solution: what was really done,
// by pencil, with two initials.
func recordCards(c *Context) []page.Page {
	var out []page.Page
	for _, s := range c.W.Solutions {
		d := s.Decl
		p := page.Page{ID: "record/" + d.ID, Kind: "record", KindLine: "Mixing record", Title: capital(d.Name),
			Lead: page.Say(page.N(s.Made.Strength)), Role: roleOf(d.Role)}
		p.Before = beforeJob(work.Weigh, s.Made.Dangers)
		blank := page.Cell{Text: page.Say(page.Inline{Kind: page.Blank})}
		rows := page.Blanks{Caption: page.Say(page.W("weighed and measured")),
			Head: []page.Text{page.Say(page.W("substance")), page.Say(page.W("pack, opened on")),
				page.Say(page.W("taken")), page.Say(page.W("initials"))}}
		for _, x := range s.Steps {
			rows.Rows = append(rows.Rows,
				page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(x.Adds.Name())))}, blank, blank, blank}})
		}
		p.Do = []page.Block{rows, page.Blanks{Lines: []page.Text{
			page.Say(page.W("batch "), page.Inline{Kind: page.Blank}, page.W(" made "), page.Inline{Kind: page.Blank},
				page.W(" ml")),
			page.Say(page.W("mixed on "), page.Inline{Kind: page.Blank}, page.W(" at "), page.Inline{Kind: page.Blank}),
			page.Say(page.W("measured pH "), page.Inline{Kind: page.Blank}, page.W(" temperature "),
				page.Inline{Kind: page.Blank}),
			page.Say(page.W("colour, smell "), page.Inline{Kind: page.Blank}),
			page.Say(page.W("mixed by "), page.Inline{Kind: page.Blank}, page.W(" checked by "),
				page.Inline{Kind: page.Blank}),
			page.Say(page.W("bottles filled "), page.Inline{Kind: page.Blank}),
		}}}
		p.Never = bottleNever(s.Made.Bath, d.Never, mixingNevers(d))
		p.Foot = c.foot(d.Def, nil)
		out = append(out, p)
	}
	return out
}
