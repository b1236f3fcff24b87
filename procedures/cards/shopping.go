package cards

import (
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/unit"
)

// shoppingBoard says what to order: a month's use by the lab's own rate against
// what is in the house (I3).
func shoppingBoard(c *Context) []page.Page {
	month := capacity.NewMonth(c.Mix)
	for _, b := range c.Lab.Baths() {
		use := c.useOf(b)
		if !use.Known() {
			continue
		}
		if d := b.Decl(); d != nil && d.Coat.Given() {
			c.coated(month, b, use)
			continue
		}
		all := c.capacities(b, litre)
		if len(all) == 0 {
			month.Uncounted = append(month.Uncounted, b.Ref())
			continue
		}
		for _, base := range lab.Bases { // a limit holds for its own base
			if part := use.OfBase(c.Lab, base); part.Known() {
				if x, ok := c.mostUsedOf(b, all, base); ok {
					month.Add(b, x, c.capacities(b, hundredLitres), part)
				}
			}
		}
	}
	orders := month.Orders()
	if len(orders) == 0 {
		return nil
	}
	p := page.Page{ID: "board/shopping", Kind: "board", KindLine: "Once a month", Title: "What to order"}
	t := page.Table{ID: "order", Caption: page.Say(page.S("By a month’s use"), page.W(", at least: half-used baths and spills come on top")),
		Head: []page.Text{page.Say(page.W("substance")), page.Say(page.W("a month")), page.Say(page.W("in the house")), page.Say(page.W("missing")), page.Say(page.W("packs"))}}
	for _, o := range orders {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(o.Name)))}, {Text: page.Say(page.F(o.Use))}}}
		for _, id := range []string{o.Have, o.Missing, o.Packs} {
			text := page.Say(page.F(id))
			if id == "" {
				text = page.Say(page.W("not known: "), page.Inline{Kind: page.Ask, Text: "first"})
			}
			row.Cells = append(row.Cells, page.Cell{Text: text})
		}
		t.Rows = append(t.Rows, row)
	}
	h := c.Lab.Place.House
	lead := c.houseLife("order_lead", h.OrderLead, "until it comes")
	cover := c.houseLife("order_cover", h.OrderCover, "to last")
	t.Note = page.Say(page.W("A delivery takes "), page.F(lead), page.W(" and is to last "), page.F(cover), page.W("; nothing is bought beyond its life."))
	p.Do = []page.Block{t}
	if len(month.Uncounted) > 0 {
		l := page.List{Label: page.Say(page.W("not counted: nothing written here says how much a month takes of them"))}
		for _, ref := range month.Uncounted {
			if b, bad := c.Lab.Bath(ref, figure.Where{}); len(bad) == 0 {
				l.Items = append(l.Items, c.bathName(b))
			}
		}
		p.Tables = []page.Block{l}
	}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("before you order")), Items: []page.Text{page.Say(page.W("weigh what is left")), page.Say(page.W("read the dates on the packs")), page.Say(page.W("ask for the supplier’s sheet with it"))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("hoard oxidisers, acids or poisons")), page.Say(page.W("take another substance because it is cheaper"))}}}
	p.Foot = c.foot(c.Lab.Store.Def, nil)
	return []page.Page{p}
}

// hundredLitres is so much that what is rounded down in it counts for nothing.
var hundredLitres = unit.MustParse[unit.Volume]("100 L")

// coated counts a bath that is brushed on, base by base.
func (c *Context) coated(month *capacity.Month, b lab.Bath, use capacity.Use) {
	for _, base := range lab.Bases {
		if part := use.OfBase(c.Lab, base); part.Known() && c.bases[b.Ref()][base] {
			month.AddCoat(b, base, part)
		}
	}
}
