package cards

import (
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// capacityBoard says what ends each bath; behind it stands a card for each
// solution with every limit, and what one piece costs at the lab's own rate.
func capacityBoard(c *Context) []page.Page {
	p := page.Page{ID: "capacity/index", Kind: "capacity", KindLine: "Before the session",
		Title: "How much each bath treats"}
	var holes []page.Hole
	first := page.Table{ID: "first", Caption: page.Say(page.S("What ends each bath"),
		page.W(", for one litre at this lab’s pace")),
		Head: []page.Text{page.Say(page.W("bath")), page.Say(page.W("limit")), page.Say(page.W("after")),
			page.Say(page.W("each costs"))}}
	pages := []page.Page{p}
	var ladders []page.Block
	byDay := false // a cost goes by the days of a month
	for _, b := range c.W.Baths {
		if b.Capacity == nil {
			continue
		}
		first.Rows = append(first.Rows, c.endsRow(b))
		byDay = byDay || b.Capacity.Head.Evening != "" && b.Capacity.Head.IdealCost != nil
		card := &pages[len(pages)-1]
		if id := "capacity/" + b.Def().ID; card.ID != id {
			pages = append(pages, c.capacityCard(id, b.Bath))
			card = &pages[len(pages)-1]
		}
		ladders = append(ladders, c.tellCapacity(card, b)...)
		if more := filmAndPaper(b); len(more) > 0 {
			card.Never = append([]page.Block{page.List{Items: more}}, neverCounting()...)
		}
		if !b.Capacity.Paced {
			hole := page.Hole{What: "how much work goes through " + b.Name() + ", " + b.Strength,
				Until: "age limit unknown", Key: "[use] in lab.toml"}
			holes, card.Foot.Holes = append(holes, hole), append(card.Foot.Holes, hole)
		}
	}
	if len(first.Rows) > 0 {
		first.Note = page.Say(page.W("Counted in the format that is used most. For another format or tray see its own card."))
		if byDay {
			first.Note = append(first.Note,
				page.W(" The cost of a bath that is discarded the same day is shared by what this lab does in a day; for a larger tray see its own card."))
		}
		if len(c.W.OnlyTime)+len(c.W.Endless) > 0 {
			first.Note = append(first.Note,
				page.W(" A bath that is not here ends by its date alone, or is not counted: ask first."))
		}
		p.Do = append(p.Do, first)
	}
	onlyTime := c.onlyTime()
	if len(p.Do)+len(onlyTime) == 0 { // nobody has written a limit or a life
		return nil
	}
	if rest := append(onlyTime, c.endless()...); len(p.Do) == 0 { // else a print of it would say nothing
		p.Do, p.Why = rest, []page.Block{whyCounting()}
	} else {
		p.Why = append(rest, whyCounting())
	}
	p.Tables = ladders
	p.Before, p.Never = beforeCounting(), neverCounting()
	p.Foot = c.foot(c.W.Place.Def, holes)
	pages[0] = p
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "capacity", Faces: c.wideFaces("a4")})
	return pages
}

// tellCapacity puts what a bath treats on the card of its solution, and returns the
// strokes that the board counts too.
func (c *Context) tellCapacity(card *page.Page, b *work.Bath) []page.Block {
	var ladders []page.Block
	head := b.Capacity.Head
	card.Do = append(card.Do, c.capacityTable(b))
	if t, ok := c.trayTable(b); ok {
		card.Do = append(card.Do, t)
	}
	if head.ByUses() {
		label := append(c.bathName(b.Bath), page.W(": tick one box for each use, up to "), page.F(head.Uses))
		card.Do = append(card.Do, page.Ticks{Label: label, Count: head.Uses, Boxes: head.MostUses})
	}
	if head.Count > 0 && b.Written().Use != "one-shot" {
		label := append(c.bathName(b.Bath), page.W(", one litre: tick one box for each "), page.N(head.Format.Name()),
			page.W(", up to "), page.F(head.N))
		ticks := page.Ticks{Label: label, Count: head.N, Boxes: head.Count}
		card.Do = append(card.Do, ticks)
		if b.Written().Use == "re-use" {
			ladders = append(ladders, ticks)
		}
	}
	if t, ok := c.batchTable(b); ok {
		card.Tables = append(card.Tables, t)
	}
	if chart, ok := ageChart(head); ok {
		card.Tables = append(card.Tables, chart)
	}
	return ladders
}

// capacityCard begins the card of one solution.
func (c *Context) capacityCard(id string, b lab.Bath) page.Page {
	return page.Page{ID: id, Kind: "capacity", KindLine: "How much it treats", Title: capital(b.Name()),
		Role:   roleOf(b.Role()),
		Before: beforeCounting(), Never: neverCounting(), Why: []page.Block{whyCounting()}, Foot: c.foot(b.Def(), nil)}
}

func beforeCounting() []page.Block {
	return []page.Block{page.Checklist{Label: page.Say(page.W("check first")),
		Items: []page.Text{page.Say(page.W("read the dates on the bottle")),
			page.Say(page.W("count the ticks on the label")),
			page.Say(page.W("clip test for developers, clearing time for fixers"))}}}
}

func neverCounting() []page.Block {
	return []page.Block{page.List{Items: []page.Text{page.Say(page.W("go on counting when the bottle is too old: age ends it first")),
		page.Say(page.W("count films where the limit is an area or prints"))}}}
}

func whyCounting() page.Block {
	return page.Para{Text: page.Say(page.W("The word beside a number says what ends the bath: area is the surface of film or paper that it has treated, silver what it has taken up, this lab’s count what somebody here has found out, age how long it keeps. The lowest limit counts; every number is rounded down. Silver is known to a quarter at best: the range stands beside it. Age counts from opening or pouring, at the pace that this lab writes down."))}
}

func (c *Context) bathName(b lab.Bath) page.Text {
	t := page.Say(page.L("mix/"+b.Def().ID, capital(b.Name())), page.W(", "), page.N(b.Strength))
	if d := b.Decl(); d != nil && d.Dilute.Given() && !d.Dilute.None() {
		t = append(t, page.W(" "), page.N(d.Dilute.Text()))
	}
	return t
}

// endsRow is what ends a bath, after how many of the format that goes through it most.
func (c *Context) endsRow(b *work.Bath) page.Row {
	x := b.Capacity.Head
	name := c.bathName(b.Bath)
	name[0] = page.L("capacity/"+b.Def().ID, capital(b.Name()))
	if words := ofStock(b); words != "" {
		name = append(name, page.W(", a litre"+words))
	}
	row := page.Row{Cells: []page.Cell{{Text: name}}}
	none := page.Cell{Text: page.Say(page.W("–"))}
	if x.NoWhy != "" {
		return page.Row{Cells: append(row.Cells, page.Cell{No: true, Why: x.NoWhy, Refused: x.N}, none, none)}
	}
	ends := page.Cell{Text: endsText(x)}
	if x.ByUses() {
		return page.Row{Cells: append(row.Cells, ends,
			page.Cell{Text: page.Say(page.F(x.Uses), page.W(", any number at once"))}, none)}
	}
	return page.Row{Cells: append(row.Cells, ends, page.Cell{Text: endsAfter(x)}, page.Cell{Text: costText(x)})}
}

// endsText is what ends a bath.
func endsText(x *work.FormatCapacity) page.Text {
	ends := page.Say(page.S(governWords(x.Governs)))
	for _, words := range x.With {
		ends = append(ends, page.S(" and "+words))
	}
	return ends
}

// endsAfter is how many of a format it is that end a bath.
func endsAfter(x *work.FormatCapacity) page.Text {
	n := x.N
	if x.Governs == "age" {
		n = x.Aged
	}
	after := page.Say(page.B(n), page.W(" × "), page.N(lab.InSides(x.Format.ID)))
	if base := x.Format.Material.Base; base != "film" {
		after = append(after, page.W(", "), page.N(string(base)))
	}
	if x.Place > 0 {
		after = append(after, page.W(", "+placeWord(x.Place)))
	}
	if x.Evening != "" {
		after = append(after, page.W(", discard "), page.N(x.Evening), page.W(" after pouring"))
	}
	if x.Uses != nil {
		after = append(after, page.W(", discard after "), page.F(x.Uses))
	}
	if x.Governs == "age" {
		after = append(after, page.W(" (limits allow "), page.B(x.N), page.W(")"))
	}
	return after
}

// ofStock says that the litre of a one-shot dilution is a litre of what is in the
// bottle.
func ofStock(b *work.Bath) string {
	if bottle := b.Capacity.Bottle; bottle.Ref() != b.Ref() {
		return " of " + bottle.Strength
	}
	return ""
}

func governWords(by string) string {
	switch by {
	case "stock":
		return "the bottle is empty"
	case "count":
		return "this lab’s count"
	}
	return by
}

func costText(x *work.FormatCapacity) page.Text {
	if x.Cost == nil {
		if x.CostWhy == "" {
			return page.Say(page.W("–"))
		}
		return page.Say(page.W("not known")) // its card says why
	}
	return page.Say(page.F(x.Cost))
}

// capacityTable is every format of one bath against every limit.
func (c *Context) capacityTable(b *work.Bath) page.Block {
	all := b.Capacity.Litre
	t := page.Table{ID: idOf(b.Bath), Caption: append(append(page.Say(), c.bathName(b.Bath)...),
		page.W(": one litre"+ofStock(b)+" treats"))}
	others, dies, aged := false, false, false
	for _, x := range all {
		aged = aged || x.IdealCost != nil
		others = others || len(otherLimits(x)) > 0
		dies = dies || slices.ContainsFunc(x.Limits, func(l work.LimitCount) bool { return l.By == "age" })
	}
	t.Head = []page.Text{page.Say(page.W("of")), page.Say(page.W("number"))}
	if others {
		t.Head = append(t.Head, page.Say(page.W("the other limits allow")))
	}
	if dies {
		t.Head = append(t.Head, page.Say(page.W("age ends it after")))
	}
	known := slices.ContainsFunc(all, func(x *work.FormatCapacity) bool { return x.Evening == "" || x.Aged != nil })
	if b.Capacity.Paced && known {
		t.Head = append(t.Head, page.Say(page.W("each costs")))
	} else {
		t.Head = append(t.Head, page.Say(page.W("each costs, if all is used")))
	}
	if aged {
		t.Head = append(t.Head, page.Say(page.W("if used completely")))
	}
	for _, x := range all {
		row := page.Row{Cells: []page.Cell{{Text: shortName(x)}, governed(x)}}
		if others {
			row.Cells = append(row.Cells, page.Cell{Text: orNone(otherLimits(x))})
		}
		if dies {
			row.Cells = append(row.Cells, limitCell(x, "age"))
		}
		row.Cells = append(row.Cells, page.Cell{Text: costCell(x.Cost, x.CostWhy)})
		if aged {
			row.Cells = append(row.Cells, page.Cell{Text: costCell(x.IdealCost, "")})
		}
		t.Rows = append(t.Rows, row)
	}
	t.Note = capacityNote(b, dies)
	return t
}

// shortName is a format as a table names it: its material, and the format by its id.
func shortName(x *work.FormatCapacity) page.Text {
	name := page.Say(page.N(materials(x.Of) + ", " + lab.InSides(x.Format.ID)))
	if x.Place > 0 {
		name = append(name, page.W(", "+placeWord(x.Place)))
	}
	return name
}

// governed is how many the limits allow, large, with the limit that says no first.
func governed(x *work.FormatCapacity) page.Cell {
	cell := numberCell(x)
	for _, l := range x.Limits {
		if l.Tightest && !cell.No && !x.ByUses() {
			cell.Text = append(cell.Text, page.W(" "+l.Words))
		}
	}
	cell.Large = !cell.No
	return cell
}

// otherLimits are what the limits allow that do not say no first.
func otherLimits(x *work.FormatCapacity) page.Text {
	var list []page.Text
	for _, l := range x.Limits {
		if l.By != "age" && !l.Tightest {
			list = append(list, append(countText(l.N, l.Spread), page.W(" "+l.Words)))
		}
	}
	return page.InLine(list)
}

// orNone is a text, or the mark for none.
func orNone(t page.Text) page.Text {
	if len(t) == 0 {
		return page.Say(page.W("–"))
	}
	return t
}

// capacityNote is what holds for every row of the table of a bath.
func capacityNote(b *work.Bath, dies bool) page.Text {
	var note page.Text
	k, one := b.Capacity, b.Capacity.Litre[0]
	if k.RollCost != nil {
		note = page.Say(page.W("One-shot: the stock for a roll costs "), page.F(k.RollCost), page.W(". "))
	} else if k.RollCostWhy != "" {
		note = page.Say(page.W("What a roll costs is not worked out: "), page.N(k.RollCostWhy), page.W(". "))
	}
	if k.Worth != nil {
		note = append(note, page.W("More than "), page.F(k.Worth),
			page.W(" of stock in one opened bottle gets too old before it is used."))
	}
	for _, x := range k.Litre {
		if x.NoWhy != "" {
			note = append(append(note, shortName(x)...), page.W(": "), page.N(x.NoWhy), page.W(". "))
		}
	}
	if dies {
		note = append(note,
			page.W("Where age ends it, the date counts: the number only says how many this lab usually does until then. "))
	}
	if at := slices.IndexFunc(k.Litre, func(x *work.FormatCapacity) bool { return x.Evening != "" }); at >= 0 {
		first := "Discard it "
		if slices.ContainsFunc(k.Litre, func(x *work.FormatCapacity) bool { return x.Evening == "" }) {
			first = "Discard what is in a tray "
		}
		poured := k.Litre[at]
		note = append(note, page.W(first), page.N(poured.Evening),
			page.W(" after pouring, whatever was done in it. "))
		if len(k.Trays) > 0 && poured.Aged != nil && poured.Cost != nil {
			note = append(note, page.W("What one costs here is for a single litre: a larger tray costs more, see below. "))
		}
	}
	if one.Uses != nil && !one.ByUses() {
		note = append(note, page.W("Or after "), page.F(one.Uses), page.W(", whichever comes first. "))
	}
	if k.Shared {
		note = append(note,
			page.W("Other strengths come from the same bottle: age is not counted for one of them alone. "))
	}
	if one.Test != "" {
		note = append(note, page.W("Or "), page.N(trimOr(one.Test)), page.W("."))
	}
	return note
}

// batchTable is what each batch that the lab makes comes to.
func (c *Context) batchTable(b *work.Bath) (page.Table, bool) {
	k := b.Capacity
	t := page.Table{ID: idOf(b.Bath) + "-batches", Caption: append(c.bathName(b.Bath), page.W(": by the batch, "),
		page.N(k.Head.Format.Name())),
		Head: []page.Text{page.Say(page.W("made")), page.Say(page.W("number")), page.Say(page.W("limit")),
			page.Say(page.W("each costs")), page.Say(page.W("if used completely"))}}
	for _, made := range k.Batches {
		x := &made.FormatCapacity
		t.Rows = append(t.Rows,
			page.Row{Cells: []page.Cell{{Text: page.Say(page.F(made.Made))}, endedCell(x), {Text: endsText(x)},
				{Text: costCell(x.Cost, x.CostWhy)}, {Text: costCell(x.IdealCost, "")}}})
	}
	return t, len(t.Rows) > 0
}

// ageChart draws what is done at this house's rate against the limits: whichever
// is met first ends the bath.
func ageChart(x *work.FormatCapacity) (page.Chart, bool) {
	if x.Aged == nil || x.Life == nil || x.NoWhy != "" { // what ends with its day has no line to draw
		return page.Chart{}, false
	}
	limits := []page.ChartLimit{{Label: "dead after", At: x.Life, OfX: true, Beyond: true}}
	for _, l := range x.Limits {
		if l.By != "age" {
			limits = append(limits, page.ChartLimit{Label: "by " + l.Words, At: l.N, Beyond: l.Tightest})
		}
	}
	line := page.ChartLine{Label: "at this lab’s pace", FromZero: true,
		Points: []page.ChartPoint{{X: x.Life, Y: x.Aged}}}
	caption := page.Say(page.S("Which comes first"), page.W(", "), page.N(x.Format.Name()))
	chart := page.Chart{Caption: caption, X: "days", Y: "done in one litre", Lines: []page.ChartLine{line},
		Limits: limits}
	return chart, len(limits) > 1
}

func costCell(cost *figure.Record, why string) page.Text {
	switch {
	case cost != nil:
		return page.Say(page.F(cost))
	case why != "":
		return page.Say(page.W("not known: "), page.N(why))
	}
	return page.Say(page.W("–"))
}

// trayTable is what a bath treats in each tray.
func (c *Context) trayTable(b *work.Bath) (page.Table, bool) {
	trays := b.Capacity.Trays
	if len(trays) == 0 {
		return page.Table{}, false
	}
	t := page.Table{ID: idOf(b.Bath) + "-trays",
		Caption: append(c.bathName(b.Bath), page.W(": a tray treats, if age does not end it first")),
		Head:    []page.Text{page.Say(page.W("of"))}}
	for _, tray := range trays {
		t.Head = append(t.Head, page.Say(page.F(tray.Fill)))
	}
	for k, x := range b.Capacity.Litre {
		if x.Format.Material.Base == lab.Film {
			continue
		}
		row := page.Row{Cells: []page.Cell{{Text: shortName(x)}}}
		for _, tray := range trays {
			cell := page.Cell{Text: page.Say(page.W("–"))}
			if in := tray.Formats[k]; in != nil {
				cell = numberCell(in)
				if in.Evening != "" && in.Aged != nil && in.Cost != nil { // a larger tray is discarded as soon
					cell.Text = append(cell.Text, page.W("; each costs "), page.F(in.Cost))
				}
			}
			row.Cells = append(row.Cells, cell)
		}
		t.Rows = append(t.Rows, row)
	}
	return t, len(t.Rows) > 0
}

func trimOr(s string) string {
	if len(s) > 3 && s[:3] == "or " {
		return s[3:]
	}
	return s
}

func placeWord(n int) string {
	if n == 1 {
		return "first bath"
	}
	return "second bath"
}

func idOf(b lab.Bath) string { return b.Def().ID + "." + b.Strength }

// limitCell is how many one kind of limit allows.
func limitCell(x *work.FormatCapacity, by string) page.Cell {
	for _, l := range x.Limits {
		if l.By == by {
			return page.Cell{Text: countText(l.N, l.Spread), Chosen: x.Governs == by}
		}
	}
	return page.Cell{Text: page.Say(page.W("–"))}
}

// countText is a count, with its bounds where it has any.
func countText(n, spread *figure.Record) page.Text {
	text := page.Say(page.B(n))
	if spread != nil {
		text = append(text, page.W(" ("), page.B(spread), page.W(")"))
	}
	return text
}

// endedCell is how many it comes to, by whatever ends it.
func endedCell(x *work.FormatCapacity) page.Cell {
	if x.Governs != "age" || x.NoWhy != "" {
		return numberCell(x)
	}
	return page.Cell{Text: page.Say(page.B(x.Aged), page.W(" (limits allow "), page.B(x.N), page.W(")"))}
}

// numberCell is how many its limits allow.
func numberCell(x *work.FormatCapacity) page.Cell {
	switch {
	case x.ByUses():
		return page.Cell{Text: page.Say(page.F(x.Uses))}
	case x.NoWhy != "":
		return page.Cell{No: true, Refused: x.N}
	}
	return page.Cell{Text: countText(x.N, x.Spread)}
}

// onlyTime lists what is kept and ends by its date alone.
func (c *Context) onlyTime() []page.Block {
	l := page.List{Label: page.Say(page.W("only time ends these"))}
	for _, b := range c.W.OnlyTime {
		item := append(c.bathName(b.Bath), page.W(": "))
		for i, life := range c.lives(b.Bath) {
			if i > 0 {
				item = append(item, page.W(", "))
			}
			item = append(item, life...)
		}
		l.Items = append(l.Items, item)
	}
	if len(l.Items) == 0 {
		return nil
	}
	return []page.Block{l}
}

// endless lists what the board cannot judge: silence would read as no limit.
func (c *Context) endless() []page.Block {
	l := page.List{Label: page.Say(page.W("not counted: ask first"))}
	for _, e := range c.W.Endless {
		why := "nobody has written how much it treats or how long it keeps"
		if e.Unused {
			why = "it has a limit, but no process here uses it"
		}
		item := append(c.bathName(e.Bath.Bath), page.W(": "+why))
		if limits := c.limitsText(e.Bath.Bath); len(limits) > 0 {
			item = append(append(append(item, page.W(" (spent at ")), limits...), page.W(")"))
		}
		l.Items = append(l.Items, item)
	}
	if len(l.Items) == 0 {
		return nil
	}
	return []page.Block{l}
}
