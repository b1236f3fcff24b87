package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// bottlingTable says into which of the lab's own bottles a batch goes, so that each that is opened
// is emptied at once.
func bottlingTable(s *work.Solution) []page.Block {
	if len(s.Bottling) == 0 {
		return nil
	}
	t := page.Table{ID: "bottles", Caption: page.Say(page.S("Into which bottles"),
		page.W(", so that each that is opened is emptied at once")),
		Head: []page.Text{page.Say(page.W("to fill")), page.Say(page.W("draw")), page.Say(page.W("fill in all")),
			page.Say(page.W("open together"))}}
	several := false
	for _, x := range s.Bottling {
		several = several || x.Several
	}
	if several {
		t.Head = append(t.Head, page.Say(page.W("draws that empty these")))
	}
	var notes []string
	for _, x := range s.Bottling {
		name := page.Say(page.N(strings.Join(x.Vessels, ", ")), page.W(", "), page.N(x.Of.Strength))
		cells := []page.Text{name, page.Say(page.F(x.Draw)), page.Say(page.F(x.All...)),
			page.Say(page.F(x.Together...))}
		if several {
			cells = append(cells, page.Say(page.F(x.Draws...)))
		}
		t.Rows = append(t.Rows, textRow(cells...))
		for _, n := range x.Notes {
			if !slices.Contains(notes, n) {
				notes = append(notes, n)
			}
		}
	}
	t.Note = page.Say(page.W("Choose the row of the vessel that you fill most. Share the draw out over the bottles that are opened together; what is left over goes into the last bottle. Bottles that stand full of something else are not taken off."))
	for _, n := range notes {
		t.Note = append(t.Note, page.W(" "), page.N(capital(strings.TrimSuffix(n, ".")+".")))
	}
	return []page.Block{t}
}
