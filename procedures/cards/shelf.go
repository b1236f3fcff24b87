package cards

import (
	"fmt"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/shelf"
	"wetside/procedures/timing"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// shelfCards makes the shelf board, a label with its dates for every batch, and
// a strip for every developer that is used again.
func shelfCards(c *Context) []page.Page {
	batches := c.W.Bottles()
	if len(batches) == 0 {
		return nil
	}
	out := []page.Page{c.shelfBoard(batches)}
	for _, b := range batches {
		label, strip := c.batchLabel(b)
		out = append(out, label)
		if strip != nil {
			out = append(out, *strip)
		}
		if d, ok := c.discard(b); ok {
			c.Discards = append(c.Discards, d)
		}
	}
	return out
}

// discard is a batch's day in the calendar; of a spent one today.
func (c *Context) discard(b shelf.Batch) (page.Discard, bool) {
	d := page.Discard{Batch: b.ID, What: b.Bath.Name() + ", " + b.Bath.Strength, On: b.DiesOn.String()}
	switch {
	case b.Answer == shelf.Dead && b.Why != "":
		d.On, d.Says = c.Day.String(), "Dead: do not use. Spent by "+b.Governs+"."
	case b.DiesOn.IsZero():
		return d, false
	case b.Answer == shelf.Dead:
		d.Says = "Dead since the end of this day: do not use. Governed by: " + b.Governs + "."
	case b.Answer == shelf.Unsure:
		d.Says = "Nobody can judge it: do not use until what is missing is written. Dead after this day in any case. Missing: " + b.Why + "."
	default:
		d.Says = "Last day on which it may be used. Governed by: " + b.Governs + "."
	}
	return d, true
}

// stateWords are the states of a bottle as a card says them.
var stateWords = map[string]string{"full": "sealed", "part": "opened", "low": "below half", "tray": "poured"}

func (c *Context) shelfBoard(batches []shelf.Batch) page.Page {
	p := page.Page{ID: "shelf/index", Kind: "shelf", KindLine: "Read it every week", Title: "What stands on the shelf"}
	day := figure.DeclareDate(c.Book, "shelf/day", figure.Today(c.Day).Called("the day this board was made for"))
	p.Lead = page.Say(page.W("as it stands on "), page.F(day))
	warn := c.W.Count("shelf/warn", shelf.WarnDays, "days", "called dying when so many days are left")
	for _, section := range []struct {
		answer string
		do     page.Text
	}{
		{shelf.Dead, page.Say(page.S("Do not use."), page.W(" Nothing goes down the drain unasked."))},
		{shelf.Dying, page.Say(page.W("Use these first, or mix anew in time."))},
		{shelf.Unsure, page.Say(page.S("Do not use"), page.W(" until what is missing is written: ask first."))},
		{shelf.Good, page.Say(page.W("By the date. A bath that looks, smells or works wrong is dead whatever stands here."))},
	} {
		t := c.shelfTable(batches, section.answer)
		if len(t.Rows) > 0 {
			t.Caption = page.Say(page.S(capital(section.answer)))
			if section.answer == shelf.Dying {
				t.Caption = append(t.Caption, page.W(" within "), page.F(warn))
			}
			t.Note = append(section.do, t.Note...)
			p.Tables = append(p.Tables, t)
		}
		if section.answer == shelf.Dead && len(t.Rows) > 0 {
			p.Tables = append(p.Tables, c.deadGo(batches))
		}
	}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("once a week")), Items: []page.Text{
		page.Say(page.W("the label says the same")), page.Say(page.W("look at it, smell it")), page.Say(page.W("write the log"))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("trust a bath past its date because it looks perfect: some die without a sign"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("The earliest of its lives ends a batch: sealed, from mixing; opened, from the day it was opened; below half, from the day it fell so low; in a tray, from mixing. What is left is what was filled in less every draw of the log. A date is good on the day itself."))}}
	p.Foot = c.foot(c.Lab.Place.Def, nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "shelf", Faces: c.wideFaces("a4")})
	return p
}

// deadGo says where each dead batch goes.
func (c *Context) deadGo(batches []shelf.Batch) page.Block {
	l := page.List{Label: page.Say(page.W("where they go"))}
	for _, b := range batches {
		if b.Answer == shelf.Dead {
			l.Items = append(l.Items, append(page.Say(page.N(b.ID), page.W(", "), page.N(b.Bath.Name()), page.W(": ")), c.spent(b.Bath)...))
		}
	}
	return l
}

// shelfTable lists the batches of one answer.
func (c *Context) shelfTable(batches []shelf.Batch, answer string) page.Table {
	t := page.Table{ID: strings.ReplaceAll(answer, " ", "-")}
	for _, w := range []string{"batch", "what", "discard by", "days left", "amount left", "governed by", "state"} {
		switch {
		case w == "days left" && answer == shelf.Dead:
			continue
		case answer == shelf.Unsure && w == "discard by":
			w = "why not"
		case answer == shelf.Unsure && (w == "days left" || w == "governed by"):
			continue
		}
		t.Head = append(t.Head, page.Say(page.W(w)))
	}
	for _, b := range batches {
		if b.Answer != answer {
			continue
		}
		cells := []page.Text{page.Say(page.L("label/"+b.ID, b.ID)), c.whatText(b)}
		switch {
		case answer == shelf.Unsure:
			cells = append(cells, page.Say(page.N(b.Why), page.W(" "), page.Inline{Kind: page.Ask, Text: "first"}))
		case answer == shelf.Dead && b.Why != "":
			cells = append(cells, page.Say(page.S(b.Why)))
		case answer == shelf.Dead:
			cells = append(cells, page.Say(page.F(b.Dies)))
		default:
			cells = append(cells, page.Say(page.F(b.Dies)), page.Say(page.B(b.Days)))
		}
		cells = append(cells, c.leftText(b))
		if answer != shelf.Unsure {
			cells = append(cells, page.Say(page.W(b.Governs)))
		}
		cells = append(cells, stateText(b))
		var row page.Row
		for _, text := range cells {
			row.Cells = append(row.Cells, page.Cell{Text: text})
		}
		t.Rows = append(t.Rows, row)
		for _, words := range []string{b.Safe, b.Missing, b.Note} {
			if words != "" {
				t.Note = append(t.Note, page.W(" "), page.N(b.ID+": "+strings.TrimSuffix(words, ".")+"."))
			}
		}
	}
	return t
}

// stateText is how a batch stands, and since when its bottle is open.
func stateText(b shelf.Batch) page.Text {
	word := stateWords[b.State]
	t := page.Say(page.W(word))
	if b.Opened == nil {
		return t
	}
	if opened := stateWords["part"]; word != opened {
		t = append(t, page.W(", "+opened))
	}
	return append(t, page.W(" "), page.F(b.Opened))
}

func (c *Context) whatText(b shelf.Batch) page.Text {
	t := page.Say(page.L("mix/"+b.Bath.Def().ID, capital(b.Bath.Name())), page.W(", "), page.N(b.Bath.Strength))
	if b.PlaceNow > 0 {
		t = append(t, page.W(", "+placeWord(b.PlaceNow)))
	}
	return t
}

// leftText is what is left; where the log does not tell, its reason.
func (c *Context) leftText(b shelf.Batch) page.Text {
	if b.LeftExact == nil {
		return page.Say(page.Inline{Kind: page.Ask}, page.W(" "), page.N(b.Left.Why))
	}
	return page.Say(page.F(b.Left))
}

// onShelf lists the batches of a solution for its mixing card.
func (c *Context) onShelf(solution string) []page.Block {
	batches := c.W.Bottles()
	if len(batches) == 0 {
		return nil
	}
	l := page.List{Label: page.Say(page.L("shelf/index", "On the shelf"), page.W(" today"))}
	for _, b := range batches {
		if b.Bath.Def().ID != solution {
			continue
		}
		item := page.Say(page.L("label/"+b.ID, b.ID), page.W(", "), page.N(b.Bath.Strength), page.W(": "))
		switch {
		case b.Answer == shelf.Dead && b.Why != "":
			item = append(item, page.S("dead"), page.W(", spent by "+b.Governs+": do not use"))
		case b.Answer == shelf.Dead:
			item = append(item, page.S("dead"), page.W(" since "), page.F(b.Dies), page.W(": do not use"))
		case b.Answer == shelf.Unsure:
			item = append(item, page.S("cannot be judged"), page.W(", "), page.N(b.Why), page.W(" "), page.Inline{Kind: page.Ask, Text: "first"})
		default:
			item = append(item, page.S(b.Answer), page.W(" until "), page.F(b.Dies), page.W(", left "))
			item = append(item, c.leftText(b)...)
			if b.Worked > 0 {
				item = append(item, page.W(", "), page.F(c.worked(b)), page.W(" done"))
			}
			if m, ok := c.headOf(b); ok {
				item = append(append(item, page.W("; "), page.N(m.Format.Name()), page.W(": ")), c.moreLeft(m)...)
			}
		}
		l.Items = append(l.Items, item)
	}
	if len(l.Items) == 0 {
		l.Items = append(l.Items, page.Say(page.W("nothing of it")))
	}
	return []page.Block{l}
}

// batchLabel is the label of one batch with its real dates, and for a developer
// that is used again its strip.
func (c *Context) batchLabel(b shelf.Batch) (page.Page, *page.Page) {
	p := c.labelCard(b.Bath)
	p.ID, p.Lead = "label/"+b.ID, page.Say(page.N(b.Bath.Strength), page.W(", batch "), page.N(b.ID))
	l := p.Do[0].(page.Label)
	if b.PlaceNow > 0 {
		l.Strength += ", " + placeWord(b.PlaceNow)
	}
	l.Use = append(page.Say(page.W("batch "), page.N(b.ID)), spacedAfter(l.Use)...)
	l.Dates = labelDates(b)
	fill := b.Batch.Start()
	holds := fill
	if bottle, ok := b.Batch.Holds(); ok {
		holds = bottle
	}
	if l.For = nil; holds.Positive() && fill.Positive() {
		bottle := container(c.W.SizeOf(b.ID+"/holds", holds.Quantity, holds.Where(), holds.By()))
		bottle.Tally = c.tally(b)
		l.For = []page.Container{bottle}
	}
	p.Do[0] = l
	if b.Answer == shelf.Dead {
		p.Before = append([]page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Dead: do not use."))}}}, p.Before...)
	}
	p.Tables = append(p.Tables, c.lifeTable(b))
	if t, ok := c.usedTable(b); ok {
		p.Tables = append(p.Tables, t)
	}
	if t, ok := c.moreTable(b); ok {
		p.Tables = append(p.Tables, t)
	}
	if t, ok := c.fixTable(b); ok {
		p.Tables = append(p.Tables, t)
	}
	var strip *page.Page
	if b.Reuse != nil && b.Answer != shelf.Dead {
		next, s := c.reuse(b)
		p.Tables = append(p.Tables, next)
		strip = s
	}
	if b.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(b.Note))})
	}
	if b.Safe != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(capital(b.Safe) + "."))})
	}
	return p, strip
}

// labelDates are the dates of a batch on its label. A sealed bottle leaves room
// for what its opening changes.
func labelDates(b shelf.Batch) []page.Text {
	blank := page.Inline{Kind: page.Blank}
	until := page.Inline{Kind: page.Ask, Text: "first"}
	if !b.DiesOn.IsZero() {
		until = page.F(b.Dies)
	}
	if b.Answer == shelf.Dead && b.Why != "" {
		return append(deadDates(b), page.Say(page.S("dead"), page.W(", spent by "+b.Governs)))
	}
	if b.Answer == shelf.Dead {
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
		return append(out, page.Say(page.W("sealed until "), until), page.Say(page.W("opened "), blank), page.Say(page.W("then discard by "), blank))
	}
	return append(out, page.Say(page.W("opened "), page.F(b.Opened)), page.Say(page.W("discard by "), until))
}

// deadDates is how long a dead batch has stood.
func deadDates(b shelf.Batch) []page.Text {
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
func (c *Context) lifeTable(b shelf.Batch) page.Block {
	t := page.Table{ID: "lives", Caption: append(page.Say(page.S("Until when"), page.W(": "), page.W(b.Answer)), page.W(", "+stateWords[b.State])),
		Head: []page.Text{page.Say(page.W("counted from")), page.Say(page.W("ends on"))}}
	for _, e := range b.Ends {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.W(e.Word)), Chosen: e.Word == b.Governs}, {Text: page.Say(page.F(e.Figure)), Chosen: e.Word == b.Governs}}})
	}
	if b.Answer == shelf.Dead && b.Why != "" {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.W(b.Governs)), Chosen: true}, {Text: page.Say(page.S("spent")), Chosen: true}}})
	}
	if len(b.Ends) == 0 && b.Answer != shelf.Dead {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(b.Why))}, {Text: page.Say(page.Inline{Kind: page.Ask, Text: "first"})}}})
	}
	if b.Why != "" && b.Answer != shelf.Dead && len(b.Ends) > 0 {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(b.Why))}, {Text: page.Say(page.Inline{Kind: page.Ask, Text: "first"})}}})
	}
	t.Note = append(page.Say(page.W("Filled in: "), page.F(b.Made), page.W(". Left: ")), c.leftText(b)...)
	if b.Full != nil {
		t.Note = append(t.Note, page.W(", the bottle is full to "), page.F(b.Full))
	}
	t.Note = append(t.Note, page.W("."))
	if keeps, _ := b.Bath.Keeps(); b.State == "part" && keeps.Low.Given() && b.Answer != shelf.Dead {
		t.Note = append(t.Note, page.W(" Once the bottle is below half: the earlier of this date and "), page.F(c.lowLife(b.Bath)), page.W(" from then."))
	}
	return t
}

// usedTable is how far a batch is used, each limit beside what counts against it.
func (c *Context) usedTable(b shelf.Batch) (page.Block, bool) {
	t := page.Table{ID: "used", Caption: page.Say(page.S("How far it is used")), Head: []page.Text{page.Say(page.W("by the log")), page.Say(page.W("so far")), page.Say(page.W("the limit"))}}
	row := func(name string, value, most page.Text) {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.W(name))}, {Text: value}, {Text: most}}})
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
		t.Note = page.Say(page.W("At its limit it is spent. Test with the same film at the same temperature, or the test says nothing."))
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
func (c *Context) moreText(m capacity.More) page.Text {
	if m.N == nil {
		return page.Say(page.Inline{Kind: page.Ask, Text: "first"}, page.W(": "), page.N(m.Why))
	}
	t := page.Say(page.B(m.N))
	if m.Range.Low != m.Range.High {
		t = append(t, page.W(" ("), page.B(c.span(m.Range)), page.W(")"))
	}
	return append(t, page.W(", by "+m.By))
}

// moreLeft is moreText within a line.
func (c *Context) moreLeft(m capacity.More) page.Text {
	if m.N == nil {
		return page.Say(page.W("how many more, "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	t := page.Say(page.B(m.N), page.W(" more"))
	if m.Range.Low != m.Range.High {
		t = append(t, page.W(" ("), page.B(c.span(m.Range)), page.W(")"))
	}
	return append(t, page.W(", by "+m.By))
}

// moreTable is how many more of each format a batch treats, and which limit says so.
func (c *Context) moreTable(b shelf.Batch) (page.Block, bool) {
	if !b.Usable() || len(b.More) == 0 {
		return nil, false
	}
	t := page.Table{ID: "more", Caption: page.Say(page.S("How many more it treats"), page.W(", of one of these")), Head: []page.Text{page.Say(page.W("of")), page.Say(page.W("so many more"))}}
	for _, m := range b.More {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(m.Format.Name()))}, {Text: c.moreText(m)}}})
	}
	t.Note = page.Say(page.W("Worked out from "), page.F(b.Made), page.W(", what was filled in, less what the log says was done. It never outlives its date."))
	return t, true
}

// headOf is the format by which a batch is told: the one that was last worked in it,
// else the one that a month puts through it most.
func (c *Context) headOf(b shelf.Batch) (capacity.More, bool) {
	for i := len(b.Log) - 1; i >= 0; i-- {
		for _, w := range b.Log[i].Worked {
			for _, m := range b.More {
				if m.Format.Ref() == w.Of {
					return m, true
				}
			}
		}
	}
	var formats []capacity.Format
	for _, m := range b.More {
		formats = append(formats, m.Format)
	}
	most := c.W.UseOf(b.Bath).Most(c.Lab, formats)
	for _, m := range b.More {
		if m.Format.Ref() == most {
			return m, true
		}
	}
	if len(b.More) == 0 {
		return capacity.More{}, false
	}
	return b.More[0], true
}

// worked enters how many pieces were worked in a batch, of whatever format.
func (c *Context) worked(b shelf.Batch) *figure.Record {
	return c.W.Count(b.ID+"/worked", b.Worked, "", "worked so far, by the log")
}

// tally is the ladder of a batch: what is done is struck, and as many boxes stand
// open as it still treats. A dead batch has none, and one of which nobody can tell
// asks.
func (c *Context) tally(b shelf.Batch) []page.Ticks {
	d := b.Bath.Decl()
	m, ok := c.headOf(b)
	if !ok || d == nil || d.Use != "re-use" || b.Answer == shelf.Dead {
		return nil
	}
	done := c.worked(b)
	unsure := m.N == nil || b.Answer == shelf.Unsure
	label := page.Say()
	if b.Worked > 0 || unsure {
		label = append(label, page.F(done), page.W(" done, by the log; "))
	}
	if unsure {
		return []page.Ticks{{Label: append(label, page.W("how many more: "), page.Inline{Kind: page.Ask, Text: "first"}), Count: done, Boxes: b.Worked, Done: b.Worked}}
	}
	label = append(label, page.W("a stroke for each "), page.N(m.Format.Name()), page.W(": "), page.F(m.N), page.W(" more, by "+m.By))
	return []page.Ticks{{Label: label, Count: m.N, Boxes: b.Worked + m.Count, Done: b.Worked}}
}

// fixTable is how long each film is fixed in a fixer that clears more slowly than
// it did fresh.
func (c *Context) fixTable(b shelf.Batch) (page.Block, bool) {
	if b.Clearing == nil || b.Answer == shelf.Dead || b.Ratio.Value == 0 {
		return nil, false
	}
	times := timing.Times{Lab: c.Lab, Book: c.Book}
	t := page.Table{ID: "fix", Caption: page.Say(page.S("Fix at least"), page.W(", after the last clearing test")), Head: []page.Text{page.Say(page.W("film")), page.Say(page.W("process")), page.Say(page.W("so long"))}}
	for _, p := range c.Lab.Processes {
		for i, s := range p.Steps {
			in, bad := c.Lab.Bath(s.Bath, p.At(lab.StepKey(i)))
			if !s.Time.Clearing || len(bad) > 0 || in.Ref() != b.Bath.Ref() {
				continue
			}
			for _, m := range c.Lab.Through(p) {
				if id := times.FixUsed(b.ID+"/fix@"+m.ID+","+p.ID+"."+s.ID, p, i, m, b.Ratio); id != nil {
					t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(m.Name)))}, {Text: page.Say(page.L("process/"+p.ID, capital(p.Name)))}, {Text: page.Say(page.F(id))}}})
				}
			}
		}
	}
	t.Note = page.Say(page.W("Never less than a fresh bath takes. A film that clears unlike the film of the test is tested itself."))
	return t, len(t.Rows) > 0
}

// reuse is the next time for every film that has one in this strength, and the
// strip that lists the times for every roll up to the limit.
func (c *Context) reuse(b shelf.Batch) (page.Block, *page.Page) {
	times := timing.Times{Lab: c.Lab, Book: c.Book}
	p := &page.Page{ID: "reuse/" + b.ID, Kind: "re-use", KindLine: "Re-use strip", Title: capital(b.Bath.Name()),
		Lead: page.Say(page.N(b.Bath.Strength), page.W(", batch "), page.N(b.ID)), Role: roleOf(b.Bath.Role())}
	p.Key = []page.Block{page.Amount{Label: page.Say(page.W("rolls done")), Value: page.Say(page.F(b.Done))}}
	p.Before = beforeJob(work.AtWork, c.dangers(b.Bath))
	next := page.Table{ID: "next", Caption: append(page.Say(page.S("Next roll"), page.W(" after ")), page.F(b.Done)), Head: []page.Text{page.Say(page.W("film")), page.Say(page.W("at")), page.Say(page.W("time"))},
		Note: page.Say(page.L(p.ID, "All times up to the limit"), page.W("."))}
	key := "strength." + b.Bath.Strength
	most := figure.Declare(c.Book, b.Bath.Ref()+"/limit.rolls", figure.KindCount, b.Reuse.Most.Figure("most rolls in a litre"), unit.Short(float64(b.Reuse.Most.Value())), "rolls/L")
	longer, _ := c.Lab.OriginOf(b.Bath.Def(), key+".longer")
	each := figure.Declare(c.Book, b.Bath.Ref()+"/longer", figure.KindRatio, figure.Given(b.Bath.Decl().Longer, b.Bath.Def().At(key+".longer"), longer, "longer for each roll in a litre"), unit.Short(float64(b.Bath.Decl().Longer.Value())), "%")
	steps := capacity.Room(0, b.Reuse.Made.Value, b.Reuse.Most.Value())
	for _, m := range c.Lab.Materials {
		for i, dev := range m.Develop {
			in, bad := c.Lab.Bath(dev.In, m.At(fmt.Sprintf("develop[%d].in", i)))
			if len(bad) > 0 || in.Ref() != b.Bath.Ref() {
				continue
			}
			at, degrees := c.W.Temperature(m.ID+"/at@"+b.Bath.Ref(), m.Def, fmt.Sprintf("develop[%d].at", i), dev.At.Quantity, "temperature of its time"), float64(dev.At.Value())
			if own, ok := c.workedAt(b.Bath, m); ok {
				degrees = own
				at = c.W.Degrees(own)
			}
			full := "another roll would pass " + b.Reuse.Most.Text() + ": spent"
			time := func(id string, n figure.Figure[unit.Rolls]) *figure.Record {
				if capacity.Room(n.Value, b.Reuse.Made.Value, b.Reuse.Most.Value()) == 0 {
					return c.Book.Refuse(id, figure.KindTime, "time of "+m.Name+" in this used developer", "s", full, figure.House)
				}
				return times.Reused(id, m, i, b.Bath, degrees, n, b.Reuse.Made)
			}
			after := time(b.ID+"/next@"+m.ID, b.Reuse.Done)
			cell := page.Cell{Text: page.Say(page.F(after))}
			if after.Refused() {
				cell = page.Cell{No: true, Why: after.Why, Refused: after}
			}
			next.Rows = append(next.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(m.Name)))}, {Text: page.Say(page.F(at))}, cell}})
			cells := page.Temps{Caption: page.Say(page.N(capital(m.Name)), page.W(", at "), page.F(at)), Note: page.Say(page.W("rolls done before, and the time of the next"))}
			for n := 0; n <= steps; n++ {
				rolls := figure.Constant(unit.Rolls(n), "rolls done before", "", figure.Standard)
				label := c.W.Count(fmt.Sprintf("reuse/rolls.%d", n), n, "", "rolls done before")
				cells.Cells = append(cells.Cells, page.Temp{At: page.Say(page.F(label)), Time: []*figure.Record{time(fmt.Sprintf("%s/time@%s,n=%d", b.ID, m.ID, n), rolls)}, Whole: true, Ref: float64(n) == float64(b.Reuse.Done.Value)})
			}
			p.Do = append(p.Do, cells)
		}
	}
	if len(p.Do) == 0 {
		next.Rows = append(next.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.W("no film has a time in this strength"))}, {Text: page.Say(page.W("–"))}, {Text: page.Say(page.W("–"))}}})
		next.Note = nil
		return next, nil
	}
	p.Do = append(p.Do, page.Para{Text: page.Say(page.W("Find the rolls done before this one; below them stands its time. A number between two of them counts as the higher. Two rolls in one tank both count and both take the time of the first; they go in only if both stay within the limit."))})
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("develop a roll past the last time: at most "), page.F(most), page.W(", every roll in the tank counted"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("Each roll in a litre makes the next "), page.F(each), page.W(" longer than in fresh developer. Rolls are counted against "), page.F(b.Made), page.W(", the volume that was made, not against what is left."))}}
	p.Foot = c.foot(b.Bath.Def(), nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "reuse+" + b.ID, Faces: c.faces("a5")})
	return next, p
}

// workedAt is the temperature at which the processes of a material use a developer,
// where they name one and the same.
func (c *Context) workedAt(b lab.Bath, m *lab.Material) (float64, bool) {
	at, found := 0.0, false
	for _, p := range c.W.Bath(b.Ref()).UsedIn {
		q := p.Temperature.At
		if p.Base != m.Base {
			continue
		}
		if !q.Given() || found && float64(q.Value()) != at {
			return 0, false
		}
		at, found = float64(q.Value()), true
	}
	return at, found
}
