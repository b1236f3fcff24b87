package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// airTables say what the air in a bottle can eat of each strength at each opening.
func airTables(strengths []*work.Bath) []page.Block {
	var out []page.Block
	for _, b := range strengths {
		if b.Air == nil {
			continue
		}
		t := page.Table{ID: "air-" + b.Strength, Caption: page.Say(page.S("Air in the bottle"), page.W(", "),
			page.N(b.Strength)),
			Head: []page.Text{page.Say(page.W("the bottle is")), page.Say(page.W("one opening can eat of its sulfite")),
				page.Say(page.W("openings that it stands"))}}
		for _, o := range b.Air.Opened {
			stands := page.Say(page.W("–"))
			if o.Openings != nil {
				stands = page.Say(page.B(o.Openings))
			}
			t.Rows = append(t.Rows, textRow(page.Say(page.W(o.Level.Word)), page.Say(page.F(o.Eats)), stands))
		}
		t.Note = page.Say(page.W("The most that the oxygen of the air can do; the bath holds "), page.F(b.Air.Sulfite),
			page.W(" of sulfite, counted as sodium sulfite, and is discarded when "), page.F(b.Air.Most),
			page.W(" of it is eaten. It never keeps longer than its date. Keep it in small bottles that are full to the neck."))
		out = append(out, t)
	}
	return out
}
