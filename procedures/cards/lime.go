package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// limeTable says whether what binds lime in each strength is enough for that of the tap water.
func limeTable(strengths []*work.Bath) []page.Block {
	t := page.Table{ID: "lime", Head: []page.Text{page.Say(page.W("strength")), page.Say(page.W("what binds lime")),
		page.Say(page.W("the tap water takes")), page.Say(page.W("the bath holds")), page.Say(page.W("is it enough?"))}}
	spoils := false
	for _, b := range strengths {
		x := b.Lime
		if x == nil {
			continue
		}
		t.Caption = page.Say(page.S("Lime of the tap water"), page.W(", at a hardness of "), page.F(x.Hardness),
			page.W(" counted as calcium carbonate"))
		enough := page.Say(page.W("cannot be told: its sheet gives a range"))
		switch {
		case x.Enough:
			enough = page.Say(page.W("enough"))
		case x.Short:
			enough = page.Say(page.S("too little"), page.W(": use deionised water"))
		}
		spoils = spoils || x.Ascorbate
		t.Rows = append(t.Rows, textRow(page.Say(page.N(b.Strength)), page.Say(page.N(x.Binds.Chemical.Name)),
			page.Say(page.F(x.Needs)), page.Say(page.F(x.Holds)), enough))
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Note = page.Say(page.W("As if all water of the bath came from the tap. Lime that nothing binds clouds the bath and leaves a white film."))
	if spoils {
		t.Note = append(t.Note, page.W(" Iron of the tap water is bound too, and bound iron makes ascorbic acid spoil sooner (common practice, no source): use deionised water."))
	}
	return []page.Block{t}
}
