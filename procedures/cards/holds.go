package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// drumHolds says what the baths are together that a month pours into a drum, and which properties make
// them hazardous waste.
func (c *Context) drumHolds(d *work.Drum) []page.Block {
	if d.Month == nil || d.Month.Holds == nil {
		return nil
	}
	h := d.Month.Holds
	t := page.Table{ID: "holds", Caption: page.Say(page.S("What a month’s baths are together in this drum")),
		Head: []page.Text{page.Say(page.W("what is asked")), page.Say(page.W("answer")), page.Say(page.W("because of"))}}
	row := func(what, answer page.Text, because page.Cell) {
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: what}, {Text: answer}, because}})
	}
	for _, p := range propertiesOf(h).Has {
		row(page.Say(page.N(p.Code)), page.Say(page.N(p.Name)), becauseOf(p))
	}
	for _, x := range propertiesOf(h).Hints {
		answer := page.Say(page.N(x.Name), page.W("? A test decides: ask the collector"))
		if x.Likely {
			answer = page.Say(page.N(x.Name), page.W(": count on it until a test says otherwise"))
		}
		row(page.Say(page.N(x.Code)), answer,
			page.Cell{Text: page.Say(page.N(series.Of(x.Because)))})
	}
	if len(t.Rows) == 0 && h.Properties != nil {
		row(page.Say(page.W("hazardous properties")), page.Say(page.W("none found in what is known of it")), page.Cell{})
	}
	l := page.List{Lines: true}
	line := func(label string, t page.Text) {
		l.Items = append(l.Items, append(page.Say(page.S(label), page.W(": ")), t...))
	}
	if len(h.Alone) > 0 {
		var t page.Text
		for i, a := range h.Alone {
			if i > 0 {
				t = append(t, page.W(" · "))
			}
			t = append(append(t, page.N(strings.Join(a.Codes, ", ")), page.W(": ")), c.bathList(a.Baths)...)
		}
		line("More by itself, if it is poured first or a whole bottle of it goes in", t)
	}
	if len(h.Untold) > 0 {
		line("Nobody knows all that is in", c.bathList(h.Untold))
	}
	line("Hazard classes", heldClasses(h))
	if acid := acidityCell(h.Acidity); acid.Refused == nil {
		line("pH", acid.Text)
	} else {
		line("pH", page.Say(page.W("not worked out: "), page.N(acid.Refused.Why)))
	}
	line("Contents by mass", shares(h.Contents))
	l.Items = append(l.Items, c.holdsNote(d))
	return append([]page.Block{t}, l)
}

// heldShort is the same in two lines, for the sheet on the wall: the binder and the screen have
// the table.
func heldShort(d *work.Drum) []page.Block {
	if d.Month == nil || d.Month.Holds == nil {
		return nil
	}
	h := d.Month.Holds
	line, _ := propertyLine(d)
	acid := append(page.Say(page.W("pH ")), acidityCell(h.Acidity).Text...)
	acid = append(append(acid, page.W("; ")), heldClasses(h)...)
	return []page.Block{page.Abreast{Only: page.Only{Paper: true}, Columns: []page.Column{{
		Head:  page.Say(page.W("A month’s baths together; the collector decides")),
		Items: []page.Text{line, acid}}}}}
}

// heldClasses are the classes of what a drum holds; where they cannot be worked out, those that are found
// all the same.
func heldClasses(h *work.Holds) page.Text {
	if h.Dangers.Status != work.Unknown {
		return classesCell(h.Dangers).Text
	}
	known := h.Dangers
	known.Status = work.Computed
	t := page.Say(page.Inline{Kind: page.Ask, Text: "first"}, page.W(": there may be more than can be worked out"))
	if len(known.Classes)+len(known.Extra) > 0 {
		return append(append(classesCell(known).Text, page.W("; ")), t...)
	}
	return t
}

// propertiesOf are the properties of what a drum holds; empty where no list says how they are found.
func propertiesOf(h *work.Holds) work.Properties {
	if h.Properties == nil {
		return work.Properties{}
	}
	return *h.Properties
}

// becauseOf is what brings a property.
func becauseOf(p work.Property) page.Cell {
	t := brings(p.By)
	if p.PH {
		if len(t) > 0 {
			t = append(t, page.W(", "))
		}
		t = append(t, page.W("its pH"))
	}
	if p.Unsure {
		t = append(t, page.W("; with the least of it that there may be, it would stay under"))
	}
	return page.Cell{Text: t}
}

// shares are contents by mass, in their order.
func shares(list []work.Content) page.Text {
	var t page.Text
	for i, x := range list {
		if i > 0 {
			t = append(t, page.W(", "))
		}
		t = append(t, page.N(x.Name), page.W(" "), page.F(x.ByMass))
	}
	if len(t) == 0 {
		return page.Say(page.W("nobody can tell"))
	}
	return t
}

// holdsNote says how it was worked out, and what must be known besides.
func (c *Context) holdsNote(d *work.Drum) page.Text {
	h := d.Month.Holds
	t := page.Say(page.W("Worked out by how much of each bath a month pours, as fresh as it was made and as if nothing reacted, without the water of washes and without what film and paper leave in it. "))
	if p := h.Properties; p != nil {
		t = append(t, page.W("The properties are those of "), page.N(p.Law))
		if len(p.Unasked) > 0 {
			t = append(t, page.W("; "), page.N(series.Of(p.Unasked)), page.W(" are not asked"))
		}
		t = append(t, page.W(". "))
		if len(p.Open) > 0 || !p.Whole {
			t = append(t, page.S("Not all of it is known"), page.W(": it may have more of them. "))
		}
		if p.Acid {
			t = append(t, page.S("Nobody can tell its pH"),
				page.W(", and one of the baths may be acid or alkaline enough to burn: it may burn skin. "))
		}
	}
	if left := c.uncounted(d.Month); len(left) > 0 {
		t = append(append(append(t, page.S("Not counted"), page.W(": ")), left...), page.W(". "))
	}
	return append(t, page.W("A waste code with an asterisk says hazardous all the same. The collector decides."))
}

// uncounted names the baths that go into a drum and of which nobody can tell how much a month pours, and
// the processes without a month.
func (c *Context) uncounted(m *work.DrumMonth) page.Text {
	var out page.Text
	add := func(t page.Text) {
		if len(out) > 0 {
			out = append(out, page.W("; "))
		}
		out = append(out, t...)
	}
	for _, x := range m.Left {
		switch x.Why {
		case work.NoLimit:
			add(c.bathName(x.Bath.Bath))
		case work.NoMonth:
			add(page.Say(page.W("the baths of "), page.L("process/"+x.Process.ID, x.Process.Name)))
		}
	}
	return out
}

// bathList names strengths, one after the other.
func (c *Context) bathList(list []*work.Bath) page.Text {
	var t page.Text
	for i, b := range list {
		if i > 0 {
			t = append(t, page.W("; "))
		}
		t = append(t, c.bathName(b.Bath)...)
	}
	return t
}

// propertyLine is what a label says of the properties of a month's waste, and the hole where it says
// nothing.
func propertyLine(d *work.Drum) (page.Text, *page.Hole) {
	const what = "hazardous properties"
	ask := func(until string) (page.Text, *page.Hole) {
		return typed(what, ""), &page.Hole{What: what + " of the waste in the drum for " + d.Name, Until: "ask the collector",
			Key: until}
	}
	if d.Month == nil || d.Month.Holds == nil || d.Month.Holds.Properties == nil {
		return ask("a month’s work under [use] in lab.toml")
	}
	h := d.Month.Holds
	p := *h.Properties
	if !p.Whole || len(p.Open) > 0 || p.Acid {
		return ask("what is in its baths: the sheet of this drum says what is missing")
	}
	var words []string
	for _, x := range p.Has {
		words = append(words, x.Code+" "+x.Name)
	}
	for _, x := range p.Hints {
		if x.Likely {
			words = append(words, x.Code+" "+x.Name)
		} else {
			words = append(words, x.Code+" if a test says so")
		}
	}
	if len(words) == 0 {
		words = append(words, "none found (a waste code with an asterisk says hazardous all the same)")
	}
	line := typed(what+", by a month’s volumes", strings.Join(words, ", "))
	if someUncounted(d.Month) {
		line = append(line, page.W(", without the baths that nobody has counted"))
	}
	return line, nil
}

// someUncounted reports that baths go into a drum of which nobody can tell how much a month pours.
func someUncounted(m *work.DrumMonth) bool {
	return slices.ContainsFunc(m.Left, func(x work.LeftOut) bool { return x.Why == work.NoLimit || x.Why == work.NoMonth })
}

// heldMost is how many contents a drum's label names.
const heldMost = 4

// heldLine names what a drum holds most of, by a month's volumes.
func heldLine(d *work.Drum) page.Text {
	if d.Month == nil || d.Month.Holds == nil || len(d.Month.Holds.Contents) == 0 {
		return nil
	}
	list := d.Month.Holds.Contents
	t := page.Say(page.W("contains "))
	t = append(t, shares(list[:min(len(list), heldMost)])...)
	switch {
	case someUncounted(d.Month):
		t = append(t, page.W(" and what nobody has counted: see its sheet"))
	case len(list) > heldMost:
		t = append(t, page.W(" and less of other things"))
	}
	return t
}
