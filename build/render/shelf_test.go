package render

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// shelfBoard is a board of wide tables: long names, dates that cannot break.
func shelfBoard(b *book) page.Page {
	p := page.Page{
		ID: "shelf/index", Kind: "shelf", KindLine: "Read it every week", Title: "What stands on the shelf",
		Before: []page.Block{page.Checklist{Label: page.Say(page.W("once a week")), Items: []page.Text{page.Say(page.W("look at it, smell it"))}}},
		Never:  []page.Block{page.List{Items: []page.Text{page.Say(page.W("trust a bath past its date because it looks perfect"))}}},
		Foot:   page.Foot{Version: "2", Date: "2026-01-10"},
	}
	t := page.Table{ID: "good", Caption: page.Say(page.S("Good"))}
	for _, w := range []string{"batch", "what", "discard by", "days left", "amount left", "governed by", "state"} {
		t.Head = append(t.Head, page.Say(page.W(w)))
	}
	for i, what := range []string{"Film developer, stock", "Fixer, paper, second bath", "Citric stop, working", "Wetting agent, stock", "Clearing bath, stock"} {
		id := fmt.Sprintf("030%d", i)
		var row page.Row
		for _, text := range []page.Text{
			page.Say(page.L("label/"+id, id)), page.Say(page.N(what)), page.Say(page.F(b.add(id+"/dies", figure.KindDate, "2026-04-29", "", figure.House))),
			page.Say(page.B(b.amount(id+"/days", "46", "days"))), page.Say(page.F(b.amount(id+"/left", "1900", "ml"))),
			page.Say(page.W("opened")), page.Say(page.W("opened "), page.F(b.add(id+"/opened", figure.KindDate, "2026-02-28", "", figure.House))),
		} {
			row.Cells = append(row.Cells, page.Cell{Text: text})
		}
		t.Rows = append(t.Rows, row)
	}
	t.Note = page.Say(page.W("By the date. A bath that looks, smells or works wrong is dead whatever stands here."))
	p.Tables = []page.Block{t}
	return p
}
