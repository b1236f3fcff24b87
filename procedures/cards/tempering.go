package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// temperingBoard is the table at the tap: how much hot water, and how warm the water for
// a cold stock.
func temperingBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/tempering", Kind: "board", KindLine: "At the tap", Title: "Tempering water"}
	var holes []page.Hole
	for _, season := range c.W.Tempering.Seasons {
		p.Do = append(p.Do, c.tapTable(season))
	}
	if len(p.Do) == 0 {
		holes = append(holes, page.Hole{What: "how warm the taps are", Until: "no table: use the thermometer",
			Key: "[water] cold and hot in lab.toml"})
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("Nobody has written how warm the taps are "),
			page.Inline{Kind: page.Ask})})
	}
	p.Tables = append(p.Tables, coldStockTable(c.W.Tempering), iceTable(c.W.Tempering))
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("trust the table without the thermometer")),
		page.Say(page.W("pour hot water into a loaded tank"))}}}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("have ready")),
		Items: []page.Text{page.Say(page.W("the thermometer")), page.Say(page.W("a jug that holds all of it"))}}}
	if names := c.W.Tempering.Deionised; len(names) > 0 {
		p.Never = append(p.Never,
			page.Para{Text: page.Say(page.S("Not tap water"),
				page.W(", but deionised water, warmed in its bottle: "), page.N(series.Of(names)))})
	}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("The table does not know how warm the vessel is: trust the thermometer."))}}
	p.Foot = c.foot(c.W.Place.Def, holes)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "tempering", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}

// iceTable is how much ice cools a bath that is too warm.
func iceTable(w work.Tempering) page.Table {
	t := page.Table{ID: "ice", Caption: page.Say(page.S("Too warm"), page.W(": ice in a closed bag, for a bath of "),
		page.F(w.StockFor)),
		Head: []page.Text{page.Say(page.W("it is at"))}}
	for _, v := range w.IceVolumes {
		t.Head = append(t.Head, page.Say(page.F(v)))
	}
	for _, r := range w.Ice {
		cells := []page.Text{page.Say(page.F(r.From))}
		for _, g := range r.Grams {
			cells = append(cells, page.Say(page.F(g)))
		}
		t.Rows = append(t.Rows, textRow(cells...))
	}
	t.Note = page.Say(page.W("Take the bag out in time. Ice in the bath itself makes it weak."))
	return t
}

// coldStockTable is how warm the water must be for a cold stock.
func coldStockTable(w work.Tempering) page.Table {
	t := page.Table{ID: "stock", Caption: page.Say(page.S("Cold stock, one part and one part of water"),
		page.W(": water at")),
		Head: []page.Text{page.Say(page.W("stock at")), page.Say(page.W("for a bath of "), page.F(w.StockFor))}}
	for _, s := range w.Stock {
		cell := page.Cell{Text: page.Say(page.F(s.Water))}
		switch {
		case s.Water.Refused():
			cell = page.Cell{No: true, Why: s.Water.Why, Refused: s.Water}
		case s.TooCold:
			cell.Text = append(cell.Text, page.W(", colder than the summer tap: let the stock cool"))
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.F(s.At))}, cell}})
	}
	return t
}

// tapTable is how much of each tap makes a volume in one season.
func (c *Context) tapTable(season work.TapWater) page.Block {
	t := page.Table{ID: "tap-" + season.Name, Caption: page.Say(page.S("Cold tap in "+season.Name),
		page.W(": hot water, then cold to the mark")),
		Head: []page.Text{page.Say(page.W("bath of"))}}
	if season.Always {
		t.ID, t.Caption = "tap", page.Say(page.S("From the two taps"), page.W(": hot water, then cold to the mark"))
	}
	t.Note = page.Say(page.W("Cold tap "), page.F(season.Cold), page.W(", hot tap "), page.F(season.Hot), page.W("."))
	for _, v := range season.Volumes {
		t.Head = append(t.Head, page.Say(page.W("for "), page.F(v)))
	}
	for _, r := range season.Rows {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.F(r.At))}}}
		for _, m := range r.Makes {
			row.Cells = append(row.Cells, hotAndColdCell(m))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// hotAndColdCell is how much of each tap, with the pours in which the hot is measured.
func hotAndColdCell(w work.HotAndCold) page.Cell {
	if w.No != nil {
		return page.Cell{No: true, Why: w.Why, Refused: w.No}
	}
	cell := page.Say(page.F(w.Hot.Amount))
	if split := poursText(w.Hot, w.Split); len(split) > 0 {
		cell = append(append(append(cell, page.W(" (")), split...), page.W(")"))
	}
	return page.Cell{Text: append(cell, page.W(" + "), page.F(w.Cold))}
}
