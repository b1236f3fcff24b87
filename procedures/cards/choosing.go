package cards

import (
	"slices"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// choosingBoard compares the baths that do the same job here: what one piece costs by each,
// what is poured away for it, and at which rate the answer turns.
func choosingBoard(c *Context) []page.Page {
	if len(c.W.Choices) == 0 {
		return nil
	}
	p := page.Page{ID: "board/choosing", Kind: "board", KindLine: "Before you buy or mix", Title: "Which bath for which rate"}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("before you change a bath")), Items: []page.Text{
		page.Say(page.W("read what to put on for it, and where it goes")), page.Say(page.W("try its times on a test piece"))}}}
	for _, x := range c.W.Choices {
		p.Do = append(p.Do, c.choiceTable(x))
	}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("change the bath because of its cost alone: times, limits and what to put on change with it")),
		page.Say(page.W("keep a bath longer than it keeps because it was dear")),
	}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("Each bath is counted as it is made at once here: a whole pack, or the largest batch. It is ended by the first of its limits and its age, at the rate of a month’s work of all of them together. Trays that are discarded in the evening, and the water of washes, come on top."))}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	return []page.Page{p}
}

// choiceTable is one job, with the baths that do it.
func (c *Context) choiceTable(x *work.Choice) page.Table {
	t := page.Table{ID: string(x.Role) + "-" + string(x.Base), Caption: page.Say(page.S(capital(string(x.Role))+" for "+string(x.Base)), page.W(", "), page.N(x.Format.Name()), page.W(", at "), page.F(x.Month), page.W(" a month, other formats counted as rolls")),
		Head: []page.Text{page.Say(page.W("bath")), page.Say(page.W("made at once")), page.Say(page.W("does, ended by")), page.Say(page.W("one costs")), page.Say(page.W("poured away for one"))}}
	steps := slices.ContainsFunc(x.Ways, func(w work.WayChosen) bool { return w.Step != nil })
	turns := slices.ContainsFunc(x.Ways, func(w work.WayChosen) bool { return w.Turns != nil })
	if steps {
		t.Head = append(t.Head, page.Say(page.W("its step takes")))
	}
	if turns {
		t.Head = append(t.Head, page.Say(page.W("cheapest from, a month")))
	}
	for _, w := range x.Ways {
		name := c.bathName(w.Bath.Bath)
		if w.Bought {
			name = append(name, page.W(", bought"))
		}
		does := page.Say(page.Inline{Kind: page.Ask}, page.W(" "), page.N(w.Why))
		if w.Done != nil {
			does = page.Say(page.B(w.Done), page.W(", its limits"))
			if w.Age {
				does = page.Say(page.B(w.Done), page.W(", "), page.S("age"))
			}
		}
		cost := orNone(figureText(w.Cost))
		if w.Cost == nil && w.Done != nil && w.Why != "" {
			cost = page.Say(page.W("not known: "), page.N(w.Why))
		}
		row := textRow(name, orNone(figureText(w.Made)), does, cost, orNone(figureText(w.Waste)))
		if steps {
			row.Cells = append(row.Cells, page.Cell{Text: orNone(figureText(w.Step))})
		}
		if turns {
			row.Cells = append(row.Cells, page.Cell{Text: orNone(figureText(w.Turns))})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
