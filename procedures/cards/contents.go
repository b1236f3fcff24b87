package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// contentsTable says what is really in it, by volume and by mass.
func contentsTable(s *work.Solution) []page.Block {
	if len(s.Contents) == 0 {
		return nil
	}
	t := page.Table{ID: "contents", Caption: page.Say(page.S("What is in it"), page.W(", "), page.N(s.Made.Strength)),
		Head: contentsHead()}
	spread := false
	for _, x := range s.Contents {
		spread = spread || x.Low != nil
	}
	if spread {
		t.Head = append(t.Head, page.Say(page.W("between")))
	}
	for _, x := range s.Contents {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(x.Name)))},
			{Text: page.Say(page.F(x.ByVolume))}, {Text: page.Say(page.F(x.ByMass))}}}
		if spread {
			span := page.Say(page.W("–"))
			if x.Low != nil {
				span = page.Say(page.B(x.Low), page.W("–"), page.B(x.High))
			}
			row.Cells = append(row.Cells, page.Cell{Text: span})
		}
		t.Rows = append(t.Rows, row)
	}
	if s.DensityAssumed {
		t.Note = page.Say(page.W("Nobody has measured the density: that of water is used, and the stricter side of every limit counts."))
	}
	return []page.Block{t}
}

// compositionTable says what the supplier's sheet says is in a product.
func compositionTable(p *work.Product) []page.Block {
	if len(p.Parts) == 0 {
		return nil
	}
	t := page.Table{ID: "contents", Caption: page.Say(page.S("What is in it"), page.W(", as bought")),
		Head: contentsHead()}
	classes := slices.ContainsFunc(p.Parts, func(x work.Part) bool { return x.Classes != nil })
	if classes {
		t.Head = append(t.Head, page.Say(page.W("classes by its sheet")))
	}
	for _, x := range p.Parts {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(x.Name)))}, {Text: page.Say(page.W("–"))},
			{Text: page.Say(page.W("the rest"))}}}
		if x.ByVolume != nil {
			row.Cells[1].Text = page.Say(page.F(x.ByVolume))
		}
		if x.ByMass != nil {
			row.Cells[2].Text = page.Say(page.F(x.ByMass))
		}
		if classes {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.N(classWords(x.Classes)))})
		}
		t.Rows = append(t.Rows, row)
	}
	if p.DensityAssumed {
		t.Note = page.Say(page.W("Nobody has written the density: that of water is used."))
	}
	return []page.Block{t}
}

// classWords are the classes that a sheet gives; none are not the same as not said.
func classWords(classes []string) string {
	switch {
	case classes == nil:
		return "not said"
	case len(classes) == 0:
		return "none"
	}
	return strings.Join(classes, ", ")
}

func contentsHead() []page.Text {
	return []page.Text{page.Say(page.W("substance")), page.Say(page.W("by volume")), page.Say(page.W("by mass"))}
}
