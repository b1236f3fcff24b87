package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// acidityTable says how acid each strength is, and what keeps it there.
func acidityTable(strengths []*work.Bath) []page.Block {
	t := page.Table{ID: "acidity", Caption: page.Say(page.S("How acid it is"))}
	written := slices.ContainsFunc(strengths, func(b *work.Bath) bool { return b.Acid.Measured != nil })
	t.Head = []page.Text{page.Say(page.W("strength")), page.Say(page.W("pH at "),
		page.F(strengths[0].Acid.Cool.Warmth)), page.Say(page.W("kept there by"))}
	if written {
		t.Head = append(t.Head, page.Say(page.W("pH as written")))
	}
	found, differs := false, false
	row := func(b *work.Bath, state string, a work.Acidity, first bool) {
		name := page.Say(page.N(b.Strength))
		if state != "" {
			name = append(name, page.W(state))
		}
		cells := []page.Cell{{Text: name}, acidityCell(a), {Text: keptBy(a)}}
		if written {
			cell := page.Cell{Text: page.Say(page.W("–"))}
			if b.Acid.Measured != nil && first {
				cell.Text = page.Say(page.F(b.Acid.Measured))
				if b.Acid.Differs {
					cell.Text = append(cell.Text, page.W(" "), page.S("measure it again"))
				}
			}
			cells = append(cells, cell)
		}
		found = found || a.Within != nil
		differs = differs || b.Acid.Differs
		t.Rows = append(t.Rows, page.Row{Cells: cells})
	}
	for _, b := range strengths {
		row(b, "", b.Acid.Cool, true)
		if b.Acid.Named != nil {
			row(b, ", as warm as it is used", *b.Acid.Named, false)
			cell := &t.Rows[len(t.Rows)-1].Cells[1]
			cell.Text = append(cell.Text, page.W(" at "), page.F(b.Acid.Named.Warmth))
		}
		if b.Acid.Open != nil {
			row(b, ", after long in the air", *b.Acid.Open, false)
		}
		if b.Acid.Fizzing != nil {
			row(b, ", while it fizzes", *b.Acid.Fizzing, false)
		}
	}
	switch {
	case differs:
		t.Note = page.Say(page.W("What was written and what comes from the amounts lie further apart than both may be off: one of the two is wrong."))
	case found:
		t.Note = page.Say(page.W("Worked out from what is in it. The number behind ± says how far it may be off; test paper or a meter decides."))
	}
	if slices.ContainsFunc(strengths, func(b *work.Bath) bool {
		return b.Product != nil && b.Acid.Cool.Within == nil && b.Acid.Measured == nil
	}) {
		t.Note = append(t.Note, page.W("Where a pH stands on the supplier’s sheet, write it in its file as ph, under [strength] and the name of the strength. "))
	}
	return []page.Block{t}
}

// acidityCell is a pH with its doubt, or why there is none.
func acidityCell(a work.Acidity) page.Cell {
	if a.Within == nil {
		return page.Cell{Text: page.Say(page.W("not worked out: "), page.N(a.PH.Why)), Refused: a.PH}
	}
	return page.Cell{Text: page.Say(page.F(a.PH), page.W(" ± "), page.B(a.Within))}
}

// keptBy is what keeps the pH where it is.
func keptBy(a work.Acidity) page.Text {
	switch {
	case a.Within == nil:
		return page.Say(page.W("–"))
	case len(a.KeptBy) > 0:
		return page.Say(page.N(strings.Join(a.KeptBy, " and ")))
	case a.Alkaline:
		return page.Say(page.W("the strong alkali itself"))
	}
	return page.Say(page.W("the strong acid itself"))
}
