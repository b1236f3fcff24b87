package cards

import (
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// tables are those beside the work of a process.
func (k *processCard) tables() []page.Block {
	var out []page.Block
	all := []page.Table{k.halfDegrees(), k.clearingTable(), k.pushTable(), k.runsTable(), k.shareTable(),
		k.mixedFormats()}
	for _, t := range all {
		if len(t.Rows) > 0 {
			out = append(out, t)
		}
	}
	return out
}

// heads are the heads of a table's columns.
func heads(words ...string) []page.Text {
	var out []page.Text
	for _, w := range words {
		out = append(out, page.Say(page.W(w)))
	}
	return out
}

// temps is the time at each temperature for the film that is picked.
func (k *processCard) temps() (page.Temps, bool) {
	if len(k.p.Degrees) == 0 {
		return page.Temps{}, false
	}
	t := page.Temps{Caption: page.Say(page.W("At another temperature develop for"))}
	for _, d := range k.p.Degrees {
		cell := page.Temp{At: page.Say(page.F(d.At)), Whole: d.Whole, Ref: d.Runs[0].Own}
		for _, r := range d.Runs {
			cell.Time = append(cell.Time, r.Time)
		}
		t.Cells = append(t.Cells, cell)
	}
	t.Note = page.Say(page.W("later times move by as much; "), page.S("NEVER"),
		page.W(" outside this range"))
	return t, true
}

// halfDegrees is the same for every film at once, for the binder.
func (k *processCard) halfDegrees() page.Table {
	if len(k.p.Degrees) == 0 {
		return page.Table{}
	}
	b := k.p.Developer
	caption := page.Say(page.S("Time at each temperature"), page.W(", "), page.N(b.Name()), page.W(" "),
		page.N(b.Strength))
	t := page.Table{ID: "temperature", Caption: caption, Head: heads("bath at")}
	var films []int // the first run of each
	for i, r := range k.p.Runs {
		if i == 0 || k.p.Runs[i-1].Material != r.Material {
			films = append(films, i)
			t.Head = append(t.Head, page.Say(page.N(r.Material.Name)))
		}
	}
	for _, d := range k.p.Degrees {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.F(d.At))}}}
		for _, i := range films {
			row.Cells = append(row.Cells, timeCell(d.Runs[i]))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

func timeCell(x work.Developing) page.Cell {
	if x.Time.Refused() {
		return page.Cell{No: true, Why: x.Time.Why, Refused: x.Time}
	}
	return page.Cell{Text: page.Say(page.B(x.Time)), Chosen: x.Own}
}

// clearingTable is how long each film takes to clear in fresh fixer, and how to find out
// what it takes today.
func (k *processCard) clearingTable() page.Table {
	caption := page.Say(page.S("Clearing time"), page.W(": measure it before the first film of the evening"))
	t := page.Table{ID: "clearing", Caption: caption, Head: heads("film", "clears in fresh fixer after",
		"fix at least")}
	for _, x := range k.p.Clearing {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(x.Material.Name))}}}
		if x.Fresh == nil {
			hole := page.Say(page.W("not measured: "), page.Inline{Kind: page.Ask, Text: "first"})
			row.Cells = append(row.Cells, page.Cell{Text: hole}, page.Cell{Text: page.Say(page.W("–"))})
		} else {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(x.Fresh))},
				page.Cell{Text: page.Say(page.F(x.Fix))})
		}
		t.Rows = append(t.Rows, row)
	}
	t.Note = page.Say(page.W("Put a drop of the bath on a piece of leader of the same film. After half a minute put the whole piece " +
		"into the bath and start the clock. When you can no longer see the edge of the drop, that is the clearing time. " +
		"If it is twice the fresh time, the bath is spent."))
	return t
}

// pushTable is the time at other exposure indexes.
func (k *processCard) pushTable() page.Table {
	t := page.Table{ID: "push", Caption: page.Say(page.S("Push and pull"),
		page.W(", starting points: underexposed shadows stay lost")),
		Head: heads("film", "exposed at", "develop for")}
	for _, x := range k.p.Pushed {
		film := page.Cell{Text: page.Say(page.N(x.Material.Name))}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{film, {Text: page.Say(page.F(x.Index))},
			timeCell(x.Developing)}})
	}
	return t
}

// runsTable says how many runs a number of rolls takes in each tank.
func (k *processCard) runsTable() page.Table {
	t := page.Table{ID: "runs", Caption: page.Say(page.S("Tank runs needed"),
		page.W(" for films or sheets of one time")),
		Head: heads("tank")}
	for _, n := range k.p.Counted.Pieces {
		t.Head = append(t.Head, page.Say(page.F(n)))
	}
	for _, in := range k.p.Counted.Tanks {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(in.Vessel.Name), page.W(", "),
			page.N(lab.InSides(in.Vessel.Family)))}}}
		for _, n := range in.Runs {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.B(n))})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// shareTable says which films may lie in one tank: those of one time.
func (k *processCard) shareTable() page.Table {
	if len(k.p.Sharing.Pairs) == 0 {
		return page.Table{}
	}
	t := page.Table{ID: "share", Caption: page.Say(page.S("Can these films share a tank?"),
		page.W(" Their times decide, not their formats")),
		Head: heads("these two", "times differ by", "answer")}
	for _, x := range k.p.Sharing.Pairs {
		so := page.Cell{No: true, Why: "times differ"}
		if x.May {
			so = page.Cell{Text: page.Say(page.S("yes"))}
		}
		two := page.Cell{Text: page.Say(page.N(x.One.Name), page.W(" and "), page.N(x.Other.Name))}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{two, {Text: page.Say(page.F(x.Apart))}, so}})
	}
	t.Note = page.Say(page.W("If their times are within "), page.F(k.p.Sharing.Within),
		page.W(" of each other they may; use the longer time."))
	return t
}

// mixedFormats says in which tanks two formats of one film lie together, and what then
// fills it.
func (k *processCard) mixedFormats() page.Table {
	t := page.Table{ID: "formats", Caption: page.Say(page.S("Two formats of one film in one tank")),
		Head: heads("tank", "formats", "fill to", "stock")}
	for _, x := range k.p.Mixed {
		both := page.Cell{Text: page.Say(page.N(x.One), page.W(" and "), page.N(x.Other))}
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(x.Vessel.Name))}, both}}
		if x.No == "" {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(x.Fill.Volume))}, k.c.fillCell(x.Fill))
		} else {
			row.Cells = append(row.Cells, page.Cell{No: true, Why: x.No}, page.Cell{Text: page.Say(page.W("–"))})
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
