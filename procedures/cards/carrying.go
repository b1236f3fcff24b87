package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// carryingBoard says what prints carry from tray to tray, how many a stop bath stops, and how much
// silver the second fixing bath holds when the first is spent.
func carryingBoard(c *Context) []page.Page {
	if len(c.W.Carrying) == 0 {
		return nil
	}
	p := page.Page{ID: "board/carrying", Kind: "board", KindLine: "At the trays", Title: "What prints carry along"}
	for _, x := range c.W.Carrying {
		p.Do = append(p.Do, c.carryingTable(x))
	}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("at each tray")), Items: []page.Text{
		page.Say(page.W("let the print drain from a corner for ten seconds")),
		page.Say(page.W("dip test paper into the stop bath")),
		page.Say(page.W("tick one box for each print on the first fixing bath")),
	}}}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("carry a print back to the tray before")),
		page.Say(page.W("judge a stop bath by its smell or by touch: test paper tells")),
		page.Say(page.W("go on with a second fixing bath because the first looks fresh")),
	}}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	return []page.Page{p}
}

func (c *Context) carryingTable(x *work.Carrying) page.Table {
	t := page.Table{ID: x.Process.ID, Caption: page.Say(page.L("process/"+x.Process.ID, x.Process.Name)),
		Head: []page.Text{page.Say(page.W("print")), page.Say(page.W("carries"))}}
	if x.Stop != nil {
		t.Head = append(t.Head, page.Say(page.W("stopped by a litre")))
	}
	if keeps(x.Reserve) {
		t.Head = append(t.Head, page.Say(page.W("near neutral")))
	}
	if x.Fixer != nil {
		t.Head = append(t.Head, page.Say(page.W("fixed by a litre")),
			page.Say(page.W("silver in the second")))
	}
	over := false
	for _, f := range x.Prints {
		cells := []page.Text{formatInFull(f.Of), page.Say(page.F(f.Carries))}
		if x.Stop != nil {
			cell := page.Say(page.W("–"))
			if f.Stopped != nil {
				cell = page.Say(page.F(f.Stopped))
			}
			cells = append(cells, cell)
		}
		if keeps(x.Reserve) {
			cells = append(cells, page.Say(page.F(f.Neutral)))
		}
		if x.Fixer != nil {
			first, second := page.Say(page.W("–")), page.Say(page.W("–"))
			if f.First != nil {
				first = page.Say(page.F(f.First))
			}
			if s := f.Second; s != nil {
				second = page.Say(page.F(s.Held))
				if !s.Known {
					second = append(page.Say(page.W("at least ")), second...)
				}
				if s.Over {
					second = append(second, page.W(" "), page.S("too much"))
				}
				over = over || s.Over
			}
			cells = append(cells, first, second)
		}
		t.Rows = append(t.Rows, textRow(cells...))
	}
	t.Note = c.carryingNote(x, over)
	return t
}

func (c *Context) carryingNote(x *work.Carrying, over bool) page.Text {
	var out page.Text
	switch {
	case x.Stop != nil && x.StopWhy != "":
		out = page.Say(page.W("How many prints the stop bath stops is not worked out: "), page.N(x.StopWhy),
			page.W(". "))
	case x.Stop != nil:
		out = append(page.Say(page.W("The stop bath is ")), c.bathName(x.Stop.Bath)...)
		out = append(out, page.W(": until it is spent it takes up "), page.F(x.Takes),
			page.W(" of alkali. The prints come from "))
		out = append(append(out, c.bathName(x.Developer.Bath)...), page.W(", which brings "), page.F(x.Alkali),
			page.W(" of alkali with it. Test paper decides. "))
	}
	if x.Reserve != nil {
		out = append(append(append(out, page.W("Of the fixer: ")), reserveText(x.Reserve)...), page.W(". "))
	}
	if x.Fixer == nil {
		return out
	}
	if x.Most != nil {
		out = append(out,
			page.W("When a litre of the first fixing bath has done so many, the second holds so much silver; it may hold "),
			page.F(x.Most), page.W(". "))
	}
	if over {
		out = append(out, page.S("Too much"), page.W(": change the second bath before the first is spent. "))
	}
	if x.Leaves == nil {
		out = append(out,
			page.W("Only what the prints carry over is counted, from a fresh second bath: nobody has written which share of the silver the first bath leaves to it, "),
			page.Inline{Kind: page.Ask, Text: "first"}, page.W("."))
	} else {
		out = append(out, page.W("The second bath was fresh, and the first leaves "), page.F(x.Leaves),
			page.W(" of the silver to it."))
	}
	return out
}

// keeps reports a fixer of which somebody can tell how long it stays near neutral.
func keeps(r *work.Reserve) bool { return r != nil && r.Why == "" && !r.None }

// reserveText says what the acid of the stop bath does to a fixer that is to stay near neutral.
func reserveText(r *work.Reserve) page.Text {
	switch {
	case r.None:
		return page.Say(page.S("rinse before this fixer"), page.W(": no sulfite in it takes up the acid of "),
			page.N(r.Stop.Name()), page.W(", which makes it milky"))
	case r.Why != "":
		return page.Say(page.W("how long the fixer stays near neutral after "), page.N(r.Stop.Name()),
			page.W(" is not worked out: "), page.N(r.Why))
	case r.Rolls != nil:
		return page.Say(page.W("after "), page.F(r.Rolls),
			page.W(" rolls in a litre, test it with pH paper: the films carry acid of "), page.N(r.Stop.Name()),
			page.W(" into it"))
	}
	return page.Say(page.W("after so many prints in a litre, test it with pH paper: they carry acid of "),
		page.N(r.Stop.Name()), page.W(" into it"))
}
