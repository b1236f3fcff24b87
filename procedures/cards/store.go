package cards

import (
	"slices"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// storeBoard lists every pack in the store, and what can still be made of them. It is a
// board of the day, as that of the shelf is.
func storeBoard(c *Context) []page.Page {
	s := c.W.Store
	if s == nil {
		return nil
	}
	p := page.Page{ID: "shelf/store", Kind: "shelf", KindLine: "Before you order or mix",
		Title: "What stands in the store"}
	if s.Past != nil {
		p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Past their best-before"),
			page.W(": "), page.F(s.Past), page.W(" of these packs. Ask first; nothing below is made of them."))}}}
	}
	p.Do = []page.Block{c.packsTable(s)}
	if t := c.makesTable(s); len(t.Rows) > 0 {
		p.Do = append(p.Do, t)
	}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("use a pack without its name and its date")),
		page.Say(page.W("pour what is left of one pack into another: the lot and the dates are lost")),
	}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("What can still be made is what the scarcest thing in it allows, each bath by itself: two baths may want the same pack."))}}
	p.Foot = c.foot(s.Def, nil)
	return []page.Page{p}
}

// packsTable is every pack with its lot and its dates.
func (c *Context) packsTable(s *work.Store) page.Table {
	t := page.Table{ID: "packs", Caption: page.Say(page.S("Packs")),
		Head: []page.Text{page.Say(page.W("pack")), page.Say(page.W("left"))}}
	lots := slices.ContainsFunc(s.Packs, func(p work.Stored) bool { return p.Lot != "" })
	opened := slices.ContainsFunc(s.Packs, func(p work.Stored) bool { return p.Opened != nil })
	best := slices.ContainsFunc(s.Packs, func(p work.Stored) bool { return p.BestBefore != nil })
	if lots {
		t.Head = append(t.Head, page.Say(page.W("lot")))
	}
	if opened {
		t.Head = append(t.Head, page.Say(page.W("opened")))
	}
	if best {
		t.Head = append(t.Head, page.Say(page.W("best before")))
	}
	for _, p := range s.Packs {
		left := page.Say(page.W("not written: "), page.Inline{Kind: page.Ask})
		if p.Left != nil {
			left = page.Say(page.F(p.Left))
		}
		row := page.Row{Cells: []page.Cell{{Text: packLink(p)}, {Text: left}}}
		if lots {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.N(orDash(p.Lot)))})
		}
		if opened {
			row.Cells = append(row.Cells, page.Cell{Text: orNone(figureText(p.Opened))})
		}
		if best {
			cell := page.Cell{Text: orNone(figureText(p.BestBefore))}
			if p.Past {
				cell = page.Cell{Text: append(figureText(p.BestBefore), page.W(": "), page.S("past it, ask first")),
					Chosen: true}
			}
			row.Cells = append(row.Cells, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func packLink(p work.Stored) page.Text {
	switch {
	case p.Product != nil:
		return page.Say(page.L("product/"+p.Product.ID, capital(p.Name)))
	case p.Chemical != "":
		return page.Say(page.L("chemical/"+p.Chemical, capital(p.Name)))
	}
	return page.Say(page.N(capital(p.Name)))
}

// makesTable is what can still be made, and what is scarcest for it.
func (c *Context) makesTable(s *work.Store) page.Table {
	t := page.Table{ID: "makes", Caption: page.Say(page.S("What can still be made")),
		Head: []page.Text{page.Say(page.W("bath")), page.Say(page.W("so much")), page.Say(page.W("scarcest"))}}
	for _, m := range s.Makes {
		row := page.Row{Cells: []page.Cell{{Text: c.bathName(m.Bath)}}}
		if m.Volume == nil {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.Inline{Kind: page.Ask})},
				page.Cell{Text: page.Say(page.N(m.Why))})
		} else {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(m.Volume))},
				page.Cell{Text: page.Say(page.N(m.By))})
		}
		if len(m.Besides) > 0 {
			last := &row.Cells[len(row.Cells)-1]
			last.Text = append(last.Text, page.W("; it takes "))
			for i, b := range m.Besides {
				if i > 0 {
					last.Text = append(last.Text, page.W(" and "))
				}
				last.Text = append(last.Text, page.L("mix/"+b.Def().ID, b.Name()))
			}
			last.Text = append(last.Text, page.W(" besides, which is not counted"))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
