package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// drumsBoard says what a month's work brings into each drum, how much silver that is, and when the
// drum is full.
func drumsBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/drums", Kind: "board", KindLine: "Once a month", Title: "How fast the drums fill"}
	for _, d := range c.W.Drums {
		if d.Month != nil {
			p.Do = append(p.Do, c.drumMonth(d)...)
		}
	}
	if len(p.Do) == 0 {
		return nil
	}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("once a month")), Items: []page.Text{
		page.Say(page.W("look at the line of each drum")), page.Say(page.W("call the collector before it is full")),
		page.Say(page.W("add up the litres on its label: they say what was really poured")),
	}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("fill a drum above its line")),
		page.Say(page.W("take these numbers for a measurement: what the collector finds counts"))}}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	return []page.Page{p}
}

// drumMonth is what a month's work brings into one drum, and what of it nobody can count.
func (c *Context) drumMonth(d *work.Drum) []page.Block {
	m := d.Month
	t := page.Table{ID: d.ID, Caption: page.Say(page.W("The drum for "), page.L("dispose/"+d.Card.Decl.ID, d.Name),
		page.W(": what a month brings at this lab’s own pace")),
		Head: []page.Text{page.Say(page.W("what goes in")), page.Say(page.W("a month"))}}
	silver := m.Silver != nil
	if silver {
		t.Head = append(t.Head, page.Say(page.W("silver in it")), page.Say(page.W("silver a month")))
	}
	row := func(name page.Text, b work.Brought) {
		cells := []page.Text{name, page.Say(page.F(b.Litres))}
		switch {
		case b.Silver != nil:
			cells = append(cells, page.Say(page.F(b.Content)), page.Say(page.F(b.Silver)))
		case silver:
			cells = append(cells, page.Say(page.W("–")), page.Say(page.W("–")))
		}
		t.Rows = append(t.Rows, textRow(cells...))
	}
	for i, b := range m.Streams {
		from := m.From[i]
		if from.Bath != nil {
			row(c.bathName(from.Bath.Bath), b)
			continue
		}
		row(page.Say(page.L("process/"+from.Process.ID, from.Process.Name), page.W(", "),
			page.N(stepName(from.Step)), page.W(": the first fills")), b)
	}
	if len(m.Streams) > 1 {
		row(page.Say(page.S("together")), m.Brought)
	}
	t.Note = fullWhen(m)
	if m.Days != nil {
		t.Note = append(t.Note, page.W(" It counts as full at "), page.F(d.Full), page.W("."))
	}
	t.Note = append(t.Note,
		page.W(" A bath that age ends is counted as if its trays, or its bottle, were filled anew on the day on which it is too old."))
	if silver {
		t.Note = append(t.Note,
			page.W(" The silver is an estimate: it lies between the two numbers. It is what the fixers take from film and paper. All of it is counted with the fixers, wherever it is washed out."))
	}
	out := []page.Block{t}
	if left := c.leftOut(m.Left); len(left.Items) > 0 {
		out = append(out, left)
	}
	return out
}

// fullWhen says when a drum is full at the lab's own month.
func fullWhen(m *work.DrumMonth) page.Text {
	switch {
	case m.Days == nil:
		return nil
	case m.By != nil:
		return page.Say(page.W("On "), page.F(m.On), page.W(" it held "), page.F(m.Now),
			page.W(": at this pace it is full after "), page.F(m.Days), page.W(", by "), page.F(m.By), page.W("."))
	case m.Now != nil:
		return page.Say(page.W("When it holds "), page.F(m.Now), page.W(", it is full after "), page.F(m.Days),
			page.W(" more at this pace."))
	}
	return page.Say(page.W("At this pace an empty drum is full after "), page.F(m.Days), page.W("."))
}

// leftOut lists what a drum's month does not count.
func (c *Context) leftOut(list []work.LeftOut) page.List {
	l := page.List{Label: page.Say(page.W("not counted (what is missing here makes the drum full sooner)"))}
	var silent []string
	for _, x := range list {
		var line page.Text
		switch x.Why {
		case work.NoVolume:
			line = page.Say(page.N(x.Process.Name), page.W(", "), page.N(stepName(x.Step)),
				page.W(": nobody has written how much water that is"))
		case work.NoLimit:
			line = append(c.bathName(x.Bath.Bath), page.W(": nobody has written how much it treats"))
		case work.NoSilver:
			line = page.Say(page.W("the silver of "), page.N(x.Process.Name), page.W(": "), page.N(x.Says))
		case work.InBleach:
			line = page.Say(page.W("the silver of "), page.N(x.Process.Name),
				page.W(": it goes into the bleach before the fixer, and into the picture"))
		case work.NoMonth:
			silent = append(silent, x.Process.Name)
			continue
		}
		l.Items = append(l.Items, line)
	}
	if len(silent) > 0 {
		l.Items = append(l.Items, page.Say(page.N(series.Of(silent)),
			page.W(": no month’s work is written for them")))
	}
	return l
}

// monthLine is when a drum is full, and how much silver a month brings into it, in a line.
func monthLine(m *work.DrumMonth) page.Text {
	if m == nil || m.Days == nil {
		return nil
	}
	out := fullWhen(m)
	if someUncounted(m) {
		out = append(out, page.W(" It is full sooner by what nobody has counted."))
	}
	if m.Silver != nil {
		out = append(out, page.W(" A month brings "), page.F(m.Silver), page.W(" of silver."))
	}
	return out
}
