package cards

import (
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// vesselTables are what fills each vessel, strength by strength, and beside them
// what a rest is enough for and why no strength may be skipped.
func (c *Context) vesselTables(strengths []*work.Bath) (vessels, beside []page.Block) {
	for _, b := range strengths {
		switch d := b.Dilution; {
		case d == nil:
		case d.Stock:
			vessels = append(vessels, c.bottleTable(b))
		case len(d.Fills) > 0:
			vessels = append(vessels, c.vesselTable(b))
			beside = append(beside, restTables(b)...)
			beside = append(beside, c.straightTable(b)...)
		}
	}
	return vessels, beside
}

func dilutionText(dil unit.Dilution) page.Text {
	if dil.None() {
		return page.Say(page.W("undiluted"))
	}
	return page.Say(page.N(dil.Text()))
}

// vesselText names a vessel; a tank with what it takes.
func vesselText(v work.Vessel) page.Text {
	if v.Tray {
		return page.Say(page.N(v.Name))
	}
	return page.Say(page.N(v.Name), page.W(", "), page.N(lab.InSides(v.Family)))
}

func (c *Context) vesselTable(b *work.Bath) page.Block {
	decl, d := b.Written(), b.Dilution
	caption := append(page.Say(page.S(capital(b.Strength)), page.W(": ")), dilutionText(d.By)...)
	if use := useWord(decl.Use); use != "" && use != b.Strength && string(decl.Use) != b.Strength {
		caption = append(caption, page.W(", "+use))
	}
	t := page.Table{ID: b.Strength, Caption: caption, Head: []page.Text{page.Say(page.W("vessel")),
		page.Say(page.N(d.From.Strength)),
		page.Say(page.W(waterWords(b) + " to")), page.Say(page.W("measured in")), page.Say(page.W("serves"))}}
	if d.By.None() { // filled as it is: nothing to measure
		t.Head = []page.Text{page.Say(page.W("vessel")), page.Say(page.N(d.From.Strength), page.W(" to fill it")),
			page.Say(page.W("serves"))}
	}
	for _, f := range d.Fills {
		row := page.Row{Cells: []page.Cell{{Text: vesselText(f.Vessel)}}}
		switch {
		case f.No != nil && d.By.None():
			row.Cells = append(row.Cells, c.fillCell(f.Fill))
		case f.No != nil:
			row.Cells = append(row.Cells, c.fillCell(f.Fill), page.Cell{Text: page.Say(page.F(f.Volume))},
				page.Cell{Text: page.Say(page.W("–"))})
		case d.By.None():
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(f.Volume))})
		default:
			row.Cells = append(row.Cells, c.fillCell(f.Fill), page.Cell{Text: page.Say(page.F(f.Volume))},
				page.Cell{Text: handCell(f.Take, f.Split)})
		}
		row.Cells = append(row.Cells, servedCell(f.Fill))
		t.Rows = append(t.Rows, row)
	}
	t.Note = append(fillNote(b), c.strengthNote(b)...)
	return t
}

// waterWords name the water that a strength is diluted with.
func waterWords(b *work.Bath) string {
	if d := b.Decl(); d != nil && d.Water == "deionised" {
		return "deionised water"
	}
	return "water"
}

// fillNote says the least that a roll needs, and what a litre treats.
func fillNote(b *work.Bath) page.Text {
	d := b.Dilution
	var out page.Text
	if d.Least != nil {
		out = page.Say(page.W("At least "), page.F(d.Least), page.W(" of "), page.N(d.From.Strength),
			page.W("; always fill the tank, whatever you load."))
	}
	x := d.Treats
	if x == nil {
		return out
	}
	if len(out) > 0 {
		out = append(out, page.W(" "))
	}
	treats := page.Say(page.W("One litre treats "), page.F(x.N), page.W(": "), page.N(x.Format.Name()),
		page.W(" (limit: "+governWords(x.By)+"); see "))
	if x.ByUses() {
		treats = page.Say(page.W("Good for "), page.F(x.Uses), page.W(", any number at once; see "))
	}
	return append(append(out, treats...), page.L("capacity/"+b.Def().ID+"#"+idOf(b.Bath), "every format and limit"),
		page.W("."))
}

// strengthNote says how long a strength keeps and what the lab says of it.
func (c *Context) strengthNote(b *work.Bath) page.Text {
	var out page.Text
	for i, life := range c.lives(b.Bath) {
		word := ", "
		if i == 0 {
			word = " Keeps "
		}
		out = append(append(out, page.W(word)), life...)
	}
	if len(out) > 0 {
		out = append(out, page.W("."))
	}
	if limits := c.limitsText(b.Bath); len(limits) > 0 {
		out = append(append(append(out, page.W(" Spent at ")), limits...), page.W("."))
	}
	if b.Dilution.StopAbove != nil {
		out = append(out, page.W(" "), page.S("Stop above "), page.F(b.Dilution.StopAbove), page.W("."))
	}
	if note := b.Written().Note; note != "" {
		out = append(out, page.W(" "), page.N(capital(note)), page.W("."))
	}
	return out
}

// fillCell is the amount that is drawn for a vessel, or why none is.
func (c *Context) fillCell(f work.Fill) page.Cell {
	if f.No != nil {
		cell := page.Cell{No: true, Why: f.Why, Refused: f.No}
		if f.Wanted != nil {
			cell.Text = page.Say(page.W("wanted: "), page.F(f.Wanted))
		}
		return cell
	}
	return page.Cell{Text: page.Say(page.F(f.Take.Amount))}
}

// servedCell says how many rolls a tank of this strength really serves.
func servedCell(f work.Fill) page.Cell {
	switch {
	case f.Vessel.Tray || f.No != nil:
		return page.Cell{Text: page.Say(page.W("–"))}
	case f.Served.Verdict == "":
		return page.Cell{Text: page.Say(page.F(f.Served.Rolls), page.W(" (limit: the reels)"))}
	}
	return page.Cell{Text: page.Say(page.F(f.Served.Rolls), page.W(" (limit: "+f.Served.Governs+")"))}
}

// restTables say what rolls in a tank need, and what a rest is enough for.
func restTables(b *work.Bath) []page.Block {
	r := b.Dilution.Rests
	if r == nil {
		return nil
	}
	var out []page.Block
	if len(r.Need) > 0 {
		out = append(out, needTable(b, r))
	}
	out = append(out, leftTable(b, r))
	if len(r.Enough) > 0 {
		out = append(out, enoughTable(b, r))
	}
	return out
}

func needTable(b *work.Bath, r *work.Rests) page.Block {
	t := page.Table{ID: b.Strength + "-need", Caption: page.Say(page.N(capital(b.Dilution.From.Strength)),
		page.S(" needed"), page.W(", by number of rolls")),
		Head: []page.Text{page.Say(page.W("tank"))}}
	for _, n := range r.Rolls {
		t.Head = append(t.Head, page.Say(page.F(n)))
	}
	for i, v := range r.Tanks {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(v.Name), page.W(", "), page.N(lab.InSides(v.Family)))}}}
		for _, n := range r.Need[i] {
			switch {
			case n.Stock == nil:
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.W("–"))})
			case n.Why != "":
				row.Cells = append(row.Cells, page.Cell{No: true, Why: n.Why, Refused: n.Stock})
			default:
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.B(n.Stock))})
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func leftTable(b *work.Bath, r *work.Rests) page.Block {
	t := page.Table{ID: b.Strength + "-left", Caption: page.Say(page.S("What you can do with the rest")),
		Head: []page.Text{page.Say(page.N(b.Dilution.From.Strength), page.W(" left")), page.Say(page.W("fills")),
			page.Say(page.W("at most"))}}
	for _, x := range r.Left {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.F(x.Left))},
			{Text: page.Say(page.F(x.Fills))}, {Text: page.Say(page.F(x.Rolls))}}})
	}
	t.Note = page.Say(page.W("Less stock than the first row says develops no roll at all. A tank is always filled, even for one roll. A roll here is a whole one, such as "),
		page.N("135-36"), page.W("; smaller formats need less."))
	return t
}

// enoughTable says for each rest and each tank how many films it is enough for,
// and which says no: the rest, the solution in the tank, or the reels.
func enoughTable(b *work.Bath, r *work.Rests) page.Block {
	t := page.Table{ID: b.Strength + "-enough", Caption: page.Say(page.S("Does the rest fill the tank?")),
		Head: []page.Text{page.Say(page.N(b.Dilution.From.Strength), page.W(" left"))}}
	for _, v := range r.Tanks {
		t.Head = append(t.Head, page.Say(page.N(v.Name), page.W(", "), page.N(lab.InSides(v.Family))))
	}
	for _, x := range r.Enough {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.F(x.Left))}}}
		for _, in := range x.Tanks {
			switch {
			case in.Rolls == nil:
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.W("–"))})
			case in.None:
				row.Cells = append(row.Cells, page.Cell{No: true, Why: "too little", Refused: in.Rolls})
			default:
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(in.Rolls), page.W(" (limit: "+in.Governs+")"))})
			}
		}
		t.Rows = append(t.Rows, row)
	}
	t.Note = page.Say(page.W("For an amount between two rows, read the smaller row; less than the first row is not enough for any roll."))
	return t
}

func (c *Context) takeCell(t work.Take) page.Cell {
	if t.Refused == "" {
		return page.Cell{Text: page.Say(page.F(t.Amount))}
	}
	cell := page.Cell{No: true, Why: t.Refused, Refused: t.Amount}
	if t.Wanted != nil {
		cell.Text = page.Say(page.W("wanted: "), page.F(t.Wanted))
	}
	return cell
}

// handCell says in what an amount is measured, in which pours, and how far it may be out.
func handCell(t work.Take, s work.Split) page.Text {
	if t.Refused != "" {
		return page.Say(page.W("–"))
	}
	device := t.Hand.Device
	if t.Hand.FullDevice != "" {
		device = t.Hand.FullDevice + ", " + device
	}
	text := page.Say(page.N(device))
	if pours := poursText(t, s); pours != nil {
		text = append(pours, page.W(", "), page.N(device))
	}
	if t.Error != nil {
		text = append(text, page.W(" (± "), page.F(t.Error), page.W(")"))
	}
	return text
}

// poursText says in which pours an amount is measured: so many equal ones, or a full
// cylinder and the rest.
func poursText(t work.Take, s work.Split) page.Text {
	switch {
	case s.Full != nil:
		return page.Say(page.B(s.Full), page.W(" + "), page.F(t.Pour))
	case s.Pours != nil:
		return page.Say(page.B(s.Pours), page.W(" × "), page.F(t.Pour))
	}
	return nil
}

func (c *Context) bottleTable(b *work.Bath) page.Block {
	t := page.Table{ID: b.Strength, Caption: append(page.Say(page.S(capital(b.Strength)), page.W(": ")),
		dilutionText(b.Dilution.By)...),
		Head: []page.Text{page.Say(page.W("make")), page.Say(page.N(b.Dilution.From.Strength)),
			page.Say(page.W(waterWords(b) + " to")), page.Say(page.W("measured in"))}}
	for _, d := range b.Dilution.Bottles {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.F(d.Fill))}, c.takeCell(d.Take),
			{Text: page.Say(page.F(d.Fill))}, {Text: handCell(d.Take, d.Split)}}})
	}
	return t
}

// straightTable shows what it would take to skip the strength in between.
func (c *Context) straightTable(b *work.Bath) []page.Block {
	s := b.Dilution.Straight
	if s == nil {
		return nil
	}
	t := page.Table{ID: b.Strength + "-straight",
		Caption: page.Say(page.S("Do not dilute straight from the concentrate"),
			page.W(" where it cannot be measured")),
		Head: []page.Text{page.Say(page.W("vessel")), page.Say(page.W("concentrate"))}}
	for _, x := range s.Vessels {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: vesselText(x.Vessel)}, c.takeCell(x.Take)}})
	}
	t.Note = page.Say(page.W("One part in "), page.F(s.Overall),
		page.W(" overall. Mix the strength between first: that can be measured."))
	return []page.Block{t}
}

// useWord says how a strength is used, as a card says it.
func useWord(use lab.Use) string {
	switch use {
	case lab.OneShot:
		return "used once"
	case lab.ReUse:
		return "re-used"
	case lab.Replenish:
		return "replenished"
	case lab.InTray:
		return "in a tray"
	}
	return ""
}
