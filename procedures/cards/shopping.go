package cards

import (
	"fmt"
	"slices"

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
		use := c.W.UseOf(b)
		if !use.Known() {
			continue
		}
		if d := b.Decl(); d != nil && d.Coat.Given() {
			c.coated(month, b, use)
			continue
		}
		all := c.W.Capacities(b, litre)
		if len(all) == 0 {
			month.Uncounted = append(month.Uncounted, b.Ref())
			continue
		}
		for _, base := range lab.Bases { // a limit holds for its own base
			if part := use.OfBase(c.Lab, base); part.Known() {
				if x, ok := c.W.MostUsedOf(b, all, base); ok {
					month.Add(b, x, c.W.Capacities(b, hundredLitres), part, c.traysOf(b, part))
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
		for _, id := range []*figure.Record{o.Have, o.Missing, o.Packs} {
			text := page.Say(page.F(id))
			if id == nil {
				text = page.Say(page.W("not known: "), page.Inline{Kind: page.Ask, Text: "first"})
			}
			row.Cells = append(row.Cells, page.Cell{Text: text})
		}
		t.Rows = append(t.Rows, row)
	}
	h := c.Lab.Place.House.Filled()
	lead := c.W.HouseLife("order_lead", h.OrderLead, "until it comes")
	cover := c.W.HouseLife("order_cover", h.OrderCover, "to last")
	t.Note = page.Say(page.W("A delivery takes "), page.F(lead), page.W(" and is to last "), page.F(cover), page.W("; nothing is bought beyond its life. A bath that dies of age in its trays is counted as if they stood full all month."))
	p.Do = []page.Block{t}
	p.Tables = c.alsoHere(orders)
	if len(month.Uncounted) > 0 {
		l := page.List{Label: page.Say(page.W("not counted: nothing written here says how much a month takes of them"))}
		for _, ref := range month.Uncounted {
			if b, bad := c.Lab.Bath(ref, figure.Where{}); len(bad) == 0 {
				l.Items = append(l.Items, c.bathName(b))
			}
		}
		p.Tables = append(p.Tables, l)
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
		if part := use.OfBase(c.Lab, base); part.Known() && c.W.On(b, base) {
			month.AddCoat(b, base, part)
		}
	}
}

// alsoHere lists what stands in the store and no month counts: what can still be
// mixed shows in what is left.
func (c *Context) alsoHere(orders []capacity.Order) []page.Block {
	l := page.List{Label: page.Say(page.W("also in the house, and counted by no month of work"))}
	for i, p := range c.Lab.Store.Packs {
		ing, bad := c.Lab.Resolve(p.Of, c.Lab.Store.At("pack"))
		if len(bad) > 0 || !p.Left.Given() {
			continue
		}
		ref := ing.Ref
		if !ing.Bath.Zero() {
			ref = ing.Bath.Ref()
		}
		if slices.ContainsFunc(orders, func(o capacity.Order) bool { return o.Ref == ref }) {
			continue
		}
		at := c.Lab.Store.At(fmt.Sprintf("pack[%d].left", i))
		by, _ := c.Lab.OriginOf(c.Lab.Store.Def, at.Key)
		id := "store/" + ref
		var left *figure.Record
		if p.Left.Volume.Given() {
			left = c.Mix.VolumeFigure(id, p.Left.Volume.Quantity, at, by, "left in the store")
		} else {
			left = figure.Declare(c.Book, id, figure.KindAmount, figure.Given(p.Left.Mass, at, by, "left in the store"), unit.Short(float64(p.Left.Mass.Value())), "g")
		}
		l.Items = append(l.Items, page.Say(page.N(capital(ing.Name())), page.W(": "), page.F(left)))
	}
	if len(l.Items) == 0 {
		return nil
	}
	return []page.Block{l}
}

// traysOf are the trays in which a bath stands for a month's work: for every process the
// smallest that takes each format, once for each place that the bath has in it. There
// are none for a bath that waits in its bottle.
func (c *Context) traysOf(b lab.Bath, use capacity.Use) []capacity.Vessel {
	keeps, _ := b.Keeps()
	if _, state := capacity.LifeInUse(keeps); state != "tray" && state != "poured" {
		return nil
	}
	_, trays := capacity.Vessels(c.Lab)
	var out []capacity.Vessel
	for _, p := range c.Lab.Processes {
		seen := map[string]bool{}
		for _, f := range use.FormatsIn(c.Lab, p.ID) {
			i := slices.IndexFunc(trays, func(v capacity.Vessel) bool { return v.Fits(f) })
			if i < 0 || seen[trays[i].Key] {
				continue
			}
			seen[trays[i].Key] = true
			for n, s := range p.Steps {
				at := trays[i]
				if s.Fill.Given() {
					at.Fill, at.Name = s.Fill, "dish of this step"
				}
				if in, bad := c.Lab.Bath(s.Bath, p.At(lab.StepKey(n))); s.Bath != "" && len(bad) == 0 && in.Ref() == b.Ref() {
					out = append(out, at)
				}
			}
		}
	}
	return out
}
