package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// bleachingTables say whether what fills a tank with bleach is enough for the films in it.
func bleachingTables(strengths []*work.Bath) []page.Block {
	var out []page.Block
	for _, b := range strengths {
		if len(b.Bleaching) == 0 {
			continue
		}
		t := page.Table{ID: "bleach-" + b.Strength, Caption: page.Say(page.S("Is the bleach enough?"), page.W(" "),
			page.N(b.Strength)),
			Head: []page.Text{page.Say(page.W("tank, full of")), page.Say(page.W("permanganate in it")),
				page.Say(page.W("the silver takes at most")), page.Say(page.W("times enough"))}}
		few := false
		for _, x := range b.Bleaching {
			times := page.Say(page.F(x.Times))
			if x.Few {
				times = append(times, page.W(" "), page.S("too little"))
			}
			few = few || x.Few
			t.Rows = append(t.Rows, textRow(append(page.Say(page.N(x.Vessel.Name), page.W(", ")),
				formatInFull(x.Of)...),
				page.Say(page.F(x.Holds)), page.Say(page.F(x.Needs)), times))
		}
		t.Note = page.Say(page.W("As if all of the silver were developed. Gelatin and what is left of the developer take more: the bleach is to be enough several times over."))
		if few {
			t.Note = append(t.Note, page.W(" "), page.S("Too little"),
				page.W(": fewer films in the tank, or the positive stays stained."))
		}
		out = append(out, t)
	}
	return out
}
