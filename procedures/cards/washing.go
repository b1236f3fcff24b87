package cards

import (
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// washingBoard says how each material is washed, which of them needs the clearing bath,
// what that saves, and what arithmetic cannot promise.
func washingBoard(c *Context) []page.Page {
	w := c.W.Washing
	if w == nil {
		return nil
	}
	p := page.Page{ID: "board/washing", Kind: "board", KindLine: "At the sink", Title: "Washing"}
	for _, s := range w.Serves {
		p.Do = append(p.Do, c.servesTable(s))
	}
	for _, s := range w.Saves {
		p.Do = append(p.Do, savesTable(s))
	}
	p.Tables = decayBlocks(w.Decay)
	if len(p.Do) == 0 {
		p.Do, p.Tables = p.Tables, nil
	}
	p.Do = append(p.Do, c.washPermit()...)
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("for a real wash")),
		Items: []page.Text{page.Say(page.W("water as warm as the baths")),
			page.Say(page.W("empty the tank completely each time")), page.Say(page.W("lift the reels once"))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("work out the wash of fibre paper from these tables: fibre gives up thiosulfate slowly; trust the spot test")),
		page.Say(page.W("soak resin-coated prints: long wet time harms their edges")),
		page.Say(page.W("call a wash permanent because a table says so")),
	}}}
	no := page.Cell{No: true, Why: "fibre gives it up slowly: use the clearing bath, a long wash and the spot test",
		Refused: w.Fibre}
	p.Why = []page.Block{page.Table{ID: "fibre", Caption: page.Say(page.S("Fibre paper"),
		page.W(", worked out from fills or flow")),
		Rows: []page.Row{{Cells: []page.Cell{{Text: page.Say(page.W("minutes"))}, no}}}},
		page.Para{Text: page.Say(page.W("What counts is the number of changes and the wait in each, not the litres. The figures compare one wash with another; only a test of the washed film shows what is really left (the laboratory’s way is in "),
			page.N("ISO 18917"), page.W(")."))}}
	wash := c.W.Permit("wash")
	p.Why = append(p.Why, page.Para{Text: page.Say(page.S("Where the water of a wash goes"), page.W(": "),
		page.N(wash.Why("wash")), page.W("."))})
	for _, a := range c.W.Washes {
		for _, x := range a.Answers {
			p.Verdicts = append(p.Verdicts, x.Verdict(c.W.Local.File))
		}
	}
	var holes []page.Hole
	if wash.Ref == "" && !wash.Refused {
		holes = append(holes, page.Hole{What: "whether the water of the washes may go down the drain",
			Until: "ask first", Key: "wash under [permit] in local.toml"})
	}
	holes = append(holes, c.washHoles()...)
	p.Foot = c.foot(c.W.Place.Def, holes)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "washing", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}

// servesTable says which materials need a bath, may have it, or must not, with how many a
// litre treats.
func (c *Context) servesTable(s work.Serving) page.Table {
	t := page.Table{ID: idOf(s.Bath.Bath), Caption: append(c.bathName(s.Bath.Bath), page.W(": who needs it")),
		Head: []page.Text{page.Say(page.W("material")), page.Say(page.W("the bath")),
			page.Say(page.W("a litre treats"))}}
	for _, on := range s.On {
		base, answer := page.Cell{Text: page.Say(page.W(string(on.Base)))},
			page.Cell{Text: page.Say(page.S(string(on.Answer)))}
		switch {
		case on.Answer == "never":
			never := page.Cell{No: true, Why: "never: more wet time does harm"}
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{base, never, {Text: page.Say(page.W("not used"))}}})
		case len(on.Litre) == 0:
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{base, answer, {Text: page.Say(page.W("–"))}}})
		}
		for _, x := range on.Litre {
			t.Rows = append(t.Rows,
				page.Row{Cells: []page.Cell{{Text: sizeInFull(x.Of)}, answer, {Text: page.Say(page.B(x.N))}}})
		}
	}
	return t
}

// savesTable is what the fills of a step save in each tank against running water (F4).
func savesTable(s work.FillsSave) page.Block {
	t := page.Table{ID: s.Process.ID + "-" + s.Step.ID,
		Caption: page.Say(page.L("process/"+s.Process.ID, s.Process.Name),
			page.W(": fill and dump against running water")),
		Head: []page.Text{page.Say(page.W("tank")), page.Say(page.W("fills")), page.Say(page.W("water")),
			page.Say(page.W("running")), page.Say(page.W("saved")), page.Say(page.W("worth"))}}
	for _, tank := range s.Tanks {
		name := page.Say(page.N(tank.Name))
		if tank.Family != "" {
			name = append(name, page.W(", "), page.N(lab.InSides(tank.Family)))
		}
		worth := page.Say(page.W("no price: "), page.Inline{Kind: page.Ask})
		if tank.Money != nil {
			worth = page.Say(page.F(tank.Money))
		}
		t.Rows = append(t.Rows,
			page.Row{Cells: []page.Cell{{Text: name}, {Text: page.Say(page.F(tank.Fills))},
				{Text: page.Say(page.F(tank.Water))},
				{Text: page.Say(page.F(tank.Running))}, {Text: page.Say(page.F(tank.Saved.Saved))}, {Text: worth}}})
	}
	if s.Within != nil {
		t.Note = page.Say(page.W("Water within "), page.F(s.Within),
			page.W(" of the baths. Saved only if you leave out the running wash."))
	}
	return t
}

// decayBlocks follow the thiosulfate through the fills of a tank, as a table and drawn.
func decayBlocks(d *work.Decay) []page.Block {
	switch {
	case d == nil:
		return nil
	case d.Why != "":
		return []page.Block{page.Para{Text: page.Say(page.W("What each fill leaves is not worked out: "), page.N(d.Why),
			page.W("."))}}
	}
	t := page.Table{ID: "decay", Caption: page.Say(page.S("What each fill leaves"), page.W(", "), page.N(d.Format),
		page.W(" in the "), page.N(d.Tank)),
		Head: []page.Text{page.Say(page.W("after")), page.Say(page.W("thiosulfate in the water")),
			page.Say(page.W("in the gelatin")), page.Say(page.W("worst case: all of it dries on"))}}
	silver := d.After[0].Silver != nil
	if silver {
		t.Head = append(t.Head, page.Say(page.W("silver in the water, at most")))
	}
	var points []page.ChartPoint
	for i, x := range d.After {
		points = append(points, page.ChartPoint{X: d.Fills[i], Y: x.Dried})
		t.Rows = append(t.Rows,
			page.Row{Cells: []page.Cell{{Text: page.Say(page.F(d.Fills[i]))}, {Text: page.Say(page.F(x.Water))},
				{Text: page.Say(page.F(x.Gelatin))}, {Text: page.Say(page.F(x.Dried))}}})
		if silver {
			row := &t.Rows[len(t.Rows)-1]
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(x.Silver))})
		}
	}
	t.Note = page.Say(page.W("From "), page.F(d.Start), page.W(" of thiosulfate in the fixer; a roll carries "),
		page.F(d.Carried),
		page.W(" into "), page.F(d.Fresh), page.W(" of fresh water. Film that must last may keep at most "),
		page.F(d.Limit), page.W("."))
	if d.Needed != nil {
		t.Note = append(t.Note, page.W(" In the worst case all of it dries on: the fills needed are then "), page.F(d.Needed),
			page.W(", and this lab does one more."))
	}
	if d.Running != nil {
		t.Note = append(t.Note, page.W(" Running water, even when fully mixed, needs at least "),
			page.F(d.Running), page.W(", and the film itself takes minutes to give it up."))
	}
	if silver {
		t.Note = append(t.Note,
			page.W(" The silver is that after a fixer which holds all that it may. What a drain may take differs a thousandfold from place to place: without your own permit the first fills go to the drum for silver."))
	}
	chart := page.Chart{Caption: page.Say(page.S("The same, drawn"), page.W(": each step down is the same factor")),
		X: "fills", Y: "left, if all of it dries on", LogY: true,
		Lines:  []page.ChartLine{{EachX: true, Points: points}},
		Limits: []page.ChartLimit{{Label: "to last", At: d.Limit, Beyond: true}}}
	return []page.Block{t, chart}
}
