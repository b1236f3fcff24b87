package cards

import (
	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// batchLabel is the label of one bottle of a batch with its real dates.
func (c *Context) batchLabel(b *work.Bottle) page.Page {
	p := c.labelCard(b.Bath.Bath)
	p.ID, p.Lead = "label/"+b.ID, page.Say(page.N(b.Bath.Strength), page.W(", batch "), page.N(b.ID))
	l := p.Do[0].(page.Label)
	if b.PlaceNow > 0 {
		l.Strength += ", " + placeWord(b.PlaceNow)
	}
	l.Use = append(page.Say(page.W("batch "), page.N(b.ID)), spacedAfter(l.Use)...)
	l.Dates = labelDates(b)
	if l.For = nil; b.Size != nil {
		bottle := container(*b.Size)
		bottle.Tally = tally(b)
		l.For = []page.Container{bottle}
	}
	if b.Air != nil {
		l.Lives = append(l.Lives, append(page.Say(page.W("air: ")), openingsText(b)...))
	}
	p.Do[0] = l
	if b.Answer == work.Dead {
		p.Before = append([]page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Dead: do not use."))}}},
			p.Before...)
	}
	p.Tables = append(p.Tables, batchTables(b)...)
	if b.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(b.Note))})
	}
	if b.Safe != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(capital(b.Safe) + "."))})
	}
	return p
}

// batchTables are what is known of a bottle on the day.
func batchTables(b *work.Bottle) []page.Block {
	out := []page.Block{lifeTable(b)}
	if t, ok := usedTable(b); ok {
		out = append(out, t)
	}
	if b.Usable() && len(b.More) > 0 {
		out = append(out, moreTable(b))
	}
	if len(b.Fix) > 0 {
		out = append(out, fixTable(b))
	}
	if b.Developer != nil {
		out = append(out, nextTable(b))
	}
	return out
}

// labelDates are the dates of a batch on its label. A sealed bottle leaves room
// for what its opening changes.
func labelDates(b *work.Bottle) []page.Text {
	blank := page.Inline{Kind: page.Blank}
	until := page.Inline{Kind: page.Ask, Text: "first"}
	if !b.DiesOn.IsZero() {
		until = page.F(b.Dies)
	}
	if b.Spent {
		return append(deadDates(b), page.Say(page.S("dead"), page.W(", spent by "+b.Governs)))
	}
	if b.Answer == work.Dead {
		return append(deadDates(b), page.Say(page.S("dead"), page.W(" since "), until))
	}
	by := page.Say(page.W("by "), blank)
	if b.Batch.Made.By != "" {
		by = page.Say(page.W("by "), page.N(b.Batch.Made.By))
	}
	out := []page.Text{page.Say(page.W("mixed on "), page.F(b.Mixed)), by}
	switch {
	case b.State == "tray":
		return append(out, page.Say(page.W("poured: discard by "), until))
	case b.Opened == nil:
		return append(out, page.Say(page.W("sealed until "), until), page.Say(page.W("opened "), blank),
			page.Say(page.W("then discard by "), blank))
	}
	return append(out, page.Say(page.W("opened "), page.F(b.Opened)), page.Say(page.W("discard by "), until))
}

// deadDates is how long a dead batch has stood.
func deadDates(b *work.Bottle) []page.Text {
	out := []page.Text{page.Say(page.W("mixed on "), page.F(b.Mixed))}
	if b.Opened != nil {
		out = append(out, page.Say(page.W("opened "), page.F(b.Opened)))
	}
	return out
}

func spacedAfter(t page.Text) page.Text {
	if len(t) == 0 {
		return nil
	}
	return append(page.Say(page.W(", ")), t...)
}

// lifeTable is every life of a batch that runs, the one that decides marked.
func lifeTable(b *work.Bottle) page.Block {
	t := page.Table{ID: "lives", Caption: append(page.Say(page.S("Until when"), page.W(": "),
		page.W(answerWord(b.Answer))),
		page.W(", "+stateWords[b.State])),
		Head: []page.Text{page.Say(page.W("counted from")), page.Say(page.W("ends on"))}}
	for _, e := range b.Ends {
		row := textRow(page.Say(page.W(e.Word)), page.Say(page.F(e.Figure)))
		row.Cells[0].Chosen, row.Cells[1].Chosen = e.Word == b.Governs, e.Word == b.Governs
		t.Rows = append(t.Rows, row)
	}
	if b.Spent {
		row := textRow(page.Say(page.W(b.Governs)), page.Say(page.S("spent")))
		row.Cells[0].Chosen, row.Cells[1].Chosen = true, true
		t.Rows = append(t.Rows, row)
	}
	if b.Answer != work.Dead && (len(b.Ends) == 0 || b.Why != "") {
		t.Rows = append(t.Rows, textRow(page.Say(page.N(b.Why)), page.Say(page.Inline{Kind: page.Ask, Text: "first"})))
	}
	t.Note = append(page.Say(page.W("Filled in: "), page.F(b.Made), page.W(". Left: ")), leftText(b)...)
	if b.Full != nil {
		t.Note = append(t.Note, page.W(", the bottle is "), page.F(b.Full), page.W(" full"))
	}
	t.Note = append(t.Note, page.W("."))
	if b.Air != nil {
		t.Note = append(t.Note, page.W(" By its log the air can have eaten "), page.F(b.Air.Eaten),
			page.W(" of its sulfite, and one more opening can eat "), page.F(b.Air.Eats), page.W(": "))
		t.Note = append(append(t.Note, openingsText(b)...), page.W(". That never makes it keep longer than its date."))
	}
	if b.OnceLow != nil {
		t.Note = append(t.Note, page.W(" Once the bottle is below half, it ends at the earlier of this date and "),
			page.F(b.OnceLow), page.W(" from then."))
	}
	return t
}

// openingsText is how many more openings a bottle stands as full as it is now.
func openingsText(b *work.Bottle) page.Text {
	if b.Air.None {
		return page.Say(page.S("no more openings"), page.W(", test it first"))
	}
	return page.Say(page.W("as full as now, it stands "), page.F(b.Air.Openings), page.W(" more"))
}

// usedTable is how far a batch is used, each limit beside what counts against it.
func usedTable(b *work.Bottle) (page.Block, bool) {
	t := page.Table{ID: "used", Caption: page.Say(page.S("How far it is used")),
		Head: []page.Text{page.Say(page.W("by the log")), page.Say(page.W("so far")), page.Say(page.W("the limit"))}}
	row := func(name string, value, most page.Text) {
		t.Rows = append(t.Rows, textRow(page.Say(page.W(name)), value, most))
	}
	none := page.Say(page.W("–"))
	counted := false
	for _, u := range b.Used {
		held, name := none, u.Word
		if u.Held != nil {
			held = heldText(u.Held)
		}
		if u.By != "uses" && u.By != "silver" {
			name += ", for each litre"
		}
		if len(b.Used) > 1 && u.For != "" {
			name += ", for " + string(u.For)
		}
		counted = counted || u.By == "silver"
		row(name, held, page.Say(page.F(u.Most)))
	}
	if s := b.Silver; s != nil && !counted {
		row("silver", heldText(s.Held), none)
	}
	if s := b.Silver; s != nil && s.Why == "" {
		row("silver, at least", page.Say(page.F(s.Least)), none)
		row("silver, at most", page.Say(page.F(s.Most)), none)
	}
	if b.Fresh != nil {
		row("clearing time, fresh", page.Say(page.F(b.Fresh)), none)
	}
	if b.Now != nil {
		row("clearing time, last test", page.Say(page.F(b.Now)), none)
	}
	if b.Clearing != nil {
		row("clearing time, against fresh", heldText(b.Clearing), page.Say(page.F(b.MostClearing)))
		t.Note = page.Say(page.W("At its limit it is spent. Test with the same film at the same temperature, or " +
			"the test says nothing."))
	}
	return t, len(t.Rows) > 0
}

// heldText is a figure of what was counted, or why it cannot be.
func heldText(r *figure.Record) page.Text {
	if !r.Refused() {
		return page.Say(page.F(r))
	}
	t := page.Say(page.Inline{Kind: page.Ask}, page.W(" "), page.N(r.Why))
	if known := r.From(); len(known) > 0 {
		return append(page.Say(page.W("at least "), page.F(known[0]), page.W("; the rest ")), t...)
	}
	return t
}

// moreText is how many more of a format a batch treats, by which limit, and its
// bounds.
func moreText(m *work.More) page.Text {
	if m.N == nil {
		return page.Say(page.Inline{Kind: page.Ask, Text: "first"}, page.W(": "), page.N(m.Why))
	}
	t := page.Say(page.B(m.N))
	if m.Spread != nil {
		t = append(t, page.W(" ("), page.B(m.Spread), page.W(")"))
	}
	return append(t, page.W(", by "+m.By))
}

// moreLeft is moreText within a line.
func moreLeft(m *work.More) page.Text {
	if m.N == nil {
		return page.Say(page.W("how many more, "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	t := page.Say(page.B(m.N), page.W(" more"))
	if m.Spread != nil {
		t = append(t, page.W(" ("), page.B(m.Spread), page.W(")"))
	}
	return append(t, page.W(", by "+m.By))
}

// moreTable is how many more of each format a batch treats, and which limit says so.
func moreTable(b *work.Bottle) page.Block {
	t := page.Table{ID: "more", Caption: page.Say(page.S("How many more it treats"), page.W(", of one of these")),
		Head: []page.Text{page.Say(page.W("of")), page.Say(page.W("how many more"))}}
	for _, m := range b.More {
		t.Rows = append(t.Rows, textRow(formatInFull(m.Of), moreText(m)))
	}
	t.Note = page.Say(page.W("Worked out from "), page.F(b.Made),
		page.W(", what was filled in, minus what the log says was done. It never keeps longer than its date."))
	return t
}

// tally is the ladder of a bottle: a dead one has none, and one of which nobody can tell
// asks.
func tally(b *work.Bottle) []page.Ticks {
	t := b.Tally
	if t == nil {
		return nil
	}
	label := page.Say()
	if b.Worked > 0 || t.Unsure {
		label = append(label, page.F(t.Done), page.W(" done, by the log; "))
	}
	if t.Unsure {
		label = append(label, page.W("how many more: "), page.Inline{Kind: page.Ask, Text: "first"})
		return []page.Ticks{{Label: label, Count: t.Done, Boxes: t.Boxes, Done: t.Struck}}
	}
	label = append(label, page.W("tick one box for each "), page.N(t.Of.Format.Name()), page.W(": "), page.F(t.Of.N),
		page.W(" more, by "+t.Of.By))
	return []page.Ticks{{Label: label, Count: t.Of.N, Boxes: t.Boxes, Done: t.Struck}}
}
