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
	p := page.Page{ID: "board/choosing", Kind: "board", KindLine: "Before you buy or mix",
		Title: "Which bath for which rate"}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("before you change a bath")), Items: []page.Text{
		page.Say(page.W("read what to put on for it, and where it goes")),
		page.Say(page.W("try its times on a test piece"))}}}
	for _, x := range c.W.Choices {
		p.Do = append(p.Do, c.choiceTable(x))
		for _, way := range x.Ways {
			p.Do = append(p.Do, c.turningBlocks(x, way)...)
		}
	}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("change the bath because of its cost alone: times, limits and what to put on change with it")),
		page.Say(page.W("keep a bath longer than it keeps because it was dear")),
	}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("Each bath is counted as it is made at once here: a whole pack, or the largest batch. It is ended by the first of its limits and its age, at the rate of a month’s work of all of them together. Trays that are discarded in the evening come on top, and so does the water of washes: it is told where the wash comes straight after the bath."))}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	return []page.Page{p}
}

// choiceTable is one job, with the baths that do it.
func (c *Context) choiceTable(x *work.Choice) page.Table {
	t := page.Table{ID: string(x.Role) + "-" + string(x.Base),
		Caption: page.Say(page.S(capital(string(x.Role))+" for "+string(x.Base)), page.W(", "),
			page.N(x.Format.Name()), page.W(", at "), page.F(x.Month), page.W(" a month, other formats counted as rolls")),
		Head: []page.Text{page.Say(page.W("bath")), page.Say(page.W("does")), page.Say(page.W("one costs")),
			page.Say(page.W("poured away for one"))}}
	steps := slices.ContainsFunc(x.Ways, func(w work.WayChosen) bool { return w.Step != nil })
	washed := slices.ContainsFunc(x.Ways, func(w work.WayChosen) bool { return w.Wash != nil })
	if steps {
		t.Head = append(t.Head, page.Say(page.W("its step takes")))
	}
	if washed {
		t.Head = append(t.Head, page.Say(page.W("its wash takes")))
	}
	for _, w := range x.Ways {
		name := c.bathName(w.Bath.Bath)
		if w.Bought {
			name = append(name, page.W(", bought"))
		}
		cost := orNone(figureText(w.Cost))
		if w.Cost == nil && w.Done != nil && w.Why != "" {
			cost = page.Say(page.W("not known: "), page.N(w.Why))
		}
		row := textRow(name, doesText(w), cost, orNone(figureText(w.Waste)))
		if steps {
			row.Cells = append(row.Cells, page.Cell{Text: orNone(figureText(w.Step))})
		}
		if washed {
			row.Cells = append(row.Cells, page.Cell{Text: washText(w)})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// doesText is how many are done with what is made at once, and what ends it.
func doesText(w work.WayChosen) page.Text {
	if w.Done == nil {
		return page.Say(page.Inline{Kind: page.Ask}, page.W(" "), page.N(w.Why))
	}
	t := page.Say(page.B(w.Done))
	if w.Made != nil {
		t = append(t, page.W(" with "), page.F(w.Made))
	}
	if w.Age {
		return append(t, page.W("; "), page.S("age"), page.W(" ends it"))
	}
	return append(t, page.W("; its limits end it"))
}

// washText is the water that the wash after a bath takes, and what it saves.
func washText(w work.WayChosen) page.Text {
	if w.Wash == nil {
		return page.Say(page.W("none comes next"))
	}
	t := page.Say(page.F(w.Wash))
	if w.Washed != "" {
		t = append(t, page.W(", "), page.N(w.Washed))
	}
	if w.Saved != nil {
		t = append(t, page.W(", saves "), page.F(w.Saved), page.W(" of running water"))
	}
	return t
}

// turningBlocks follow the cost of one by two ways around the rate at which the first becomes
// the cheaper one: as a table, and drawn. The ways are told apart by letters and by how their
// lines are drawn.
func (c *Context) turningBlocks(x *work.Choice, w work.WayChosen) []page.Block {
	if w.Turning == nil {
		return nil
	}
	other := x.Ways[w.Turning.Other]
	t := page.Table{ID: string(x.Role) + "-" + string(x.Base) + "-turns-" + idOf(w.Bath.Bath),
		Caption: page.Say(page.S("What one costs at other rates"), page.W(", "), page.N(x.Format.Name())),
		Head: []page.Text{page.Say(page.W("rolls a month")),
			append(page.Say(page.S("A"), page.W(": ")), c.bathName(w.Bath.Bath)...),
			append(page.Say(page.S("B"), page.W(": ")), c.bathName(other.Bath.Bath)...),
			page.Say(page.W("what turns there"))}}
	a, b := page.ChartLine{}, page.ChartLine{EachX: true}
	chart := page.Chart{Caption: page.Say(page.S("The same, drawn"),
		page.W(": A is the solid line, B the broken one")), X: "rolls a month", Y: "one costs", LogX: true, LogY: true,
		Limits: []page.ChartLimit{{Label: "A at best", At: w.Turning.AtBest},
			{Label: "B at best", At: w.Turning.OtherAtBest}, {Label: "both alike at", At: w.Turns, OfX: true}}}
	allUsed := false
	for i, r := range w.Turning.Rates {
		what := page.Say(page.W("–"))
		first, last := i == 0, i == len(w.Turning.Rates)-1
		switch {
		case r.Now:
			what = page.Say(page.W("this lab’s month"))
		case r.Same:
			what = page.Say(page.S("from here on A is the cheaper one"))
		case r.AllUsed:
			what = page.Say(page.W("age no longer ends A"))
		case r.Bend:
			what = page.Say(page.W("age no longer ends B"))
		}
		t.Rows = append(t.Rows, textRow(page.Say(page.F(r.Month)), page.Say(page.F(r.Cost)),
			page.Say(page.F(r.Other)), what))
		allUsed = allUsed || r.AllUsed
		if first || r.AllUsed || r.Same || last && !allUsed { // beyond, its line is that of its best
			a.Points = append(a.Points, page.ChartPoint{X: r.Month, Y: r.Cost})
		}
		if first || last || r.Bend {
			b.Points = append(b.Points, page.ChartPoint{X: r.Month, Y: r.Other})
		}
	}
	chart.Lines = []page.ChartLine{a, b}
	return []page.Block{t, chart}
}
