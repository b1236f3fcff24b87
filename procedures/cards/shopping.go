package cards

import (
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// shoppingBoard says what to order: a month's use by the lab's own rate against what is
// in the house (I3).
func shoppingBoard(c *Context) []page.Page {
	month := c.W.Month
	if month == nil {
		return nil
	}
	p := page.Page{ID: "board/shopping", Kind: "board", KindLine: "Once a month", Title: "What to order"}
	t := page.Table{ID: "order", Caption: page.Say(page.S("By a month’s use"),
		page.W(", at least: add something for half-used baths and spills")),
		Head: []page.Text{page.Say(page.W("substance")), page.Say(page.W("a month")), page.Say(page.W("in the store")),
			page.Say(page.W("missing")), page.Say(page.W("packs"))}}
	money := slices.ContainsFunc(month.Orders, func(o work.Order) bool { return o.Money != nil })
	waits := slices.ContainsFunc(month.Orders, func(o work.Order) bool { return o.Lead != nil })
	if money {
		t.Head = append(t.Head, page.Say(page.W("cost")))
	}
	if waits {
		t.Head = append(t.Head, page.Say(page.W("delivery takes")))
	}
	for _, o := range month.Orders {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(o.Name)))}, {Text: useText(o)}}}
		for i, id := range []*figure.Record{o.Have, o.Missing, o.Packs} {
			text := page.Say(page.F(id))
			if id == nil {
				text = page.Say(page.W("not known: "), page.Inline{Kind: page.Ask, Text: "first"})
			}
			if i == 0 && o.Past != nil {
				text = append(text, page.W("; "), page.S("past the best-before"), page.W(", not counted: "),
					page.F(o.Past))
			}
			row.Cells = append(row.Cells, page.Cell{Text: text})
		}
		if money {
			row.Cells = append(row.Cells, page.Cell{Text: orNone(figureText(o.Money))})
		}
		if waits {
			wait := o.Lead
			if wait == nil {
				wait = month.Lead
			}
			row.Cells = append(row.Cells, page.Cell{Text: figureText(wait)})
		}
		t.Rows = append(t.Rows, row)
	}
	if month.Money != nil {
		p.Key = []page.Block{page.Amount{Label: page.Say(page.W("all packs together")),
			Value: page.Say(page.F(month.Money)),
			Note:  page.Say(page.W("without postage; what has no price is not in it"))}}
	}
	t.Note = page.Say(page.W("Delivery takes "), page.F(month.Lead), page.W("; order for "), page.F(month.Cover),
		page.W("; never order more than will keep. A bath that age ends is counted as if its trays, or its bottle, were filled anew on the day on which it is too old."))
	p.Do = []page.Block{t}
	p.Tables = c.besideOrders(month)
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("before you order")),
		Items: []page.Text{page.Say(page.W("weigh what is left")), page.Say(page.W("read the dates on the packs")),
			page.Say(page.W("ask for the supplier’s sheet with it"))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("hoard oxidisers, acids or poisons")),
		page.Say(page.W("take another substance because it is cheaper"))}}}
	p.Foot = c.foot(month.Store, nil)
	return []page.Page{p}
}

// useText is how much a month takes, and that age decides it where it does.
func useText(o work.Order) page.Text {
	t := page.Say(page.F(o.Use))
	if o.Life != nil {
		t = append(t, page.W(", by age: a pack that is begun keeps "), page.F(o.Life), page.W(" ("+o.State+"); the work alone takes "),
			page.F(o.Work))
	}
	return t
}

// figureText is a figure, or nothing where there is none.
func figureText(r *figure.Record) page.Text {
	if r == nil {
		return nil
	}
	return page.Say(page.F(r))
}

// besideOrders lists what else stands in the store, and what no month can count.
func (c *Context) besideOrders(month *work.Month) []page.Block {
	var out []page.Block
	l := page.List{Label: page.Say(page.W("also in the store, and not counted in a month’s work"))}
	for _, other := range month.Others {
		t := page.Say(page.N(capital(other.Name)), page.W(": "), page.F(other.Left))
		if other.Past {
			t = append(t, page.W(", "), page.S("past its best-before: ask first"))
		}
		l.Items = append(l.Items, t)
	}
	if len(l.Items) > 0 {
		out = append(out, l)
	}
	l = page.List{Label: page.Say(page.W("counted as if each tray were used until it is spent: what is discarded at the end of a day comes on top. Write under [days] in lab.toml on how many days of a month each process is worked, and it is counted"))}
	for _, b := range month.Evenings {
		l.Items = append(l.Items, c.bathName(b.Bath))
	}
	if len(l.Items) > 0 {
		out = append(out, l)
	}
	l = page.List{Label: page.Say(page.W("not counted: nobody has written how much a month takes of them"))}
	for _, b := range month.Uncounted {
		l.Items = append(l.Items, c.bathName(b.Bath))
	}
	if len(l.Items) > 0 {
		out = append(out, l)
	}
	return out
}
