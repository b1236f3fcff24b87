package cards

import (
	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// fixTable is how long each film is fixed in a fixer that clears more slowly than
// it did fresh.
func fixTable(b *work.Bottle) page.Block {
	t := page.Table{ID: "fix", Caption: page.Say(page.S("Fix at least"), page.W(", after the last clearing test")),
		Head: []page.Text{page.Say(page.W("film")), page.Say(page.W("process")), page.Say(page.W("time"))}}
	for _, f := range b.Fix {
		t.Rows = append(t.Rows, textRow(page.Say(page.N(capital(f.Film.Name))),
			page.Say(page.L("process/"+f.Process.ID, capital(f.Process.Name))), page.Say(page.F(f.Time))))
	}
	t.Note = page.Say(page.W("Never less than in a fresh bath. If a film clears differently from the film of the test, " +
		"test it too."))
	return t
}

// nextTable is the time of the next roll in a used developer, for every film that has
// one in it.
func nextTable(b *work.Bottle) page.Block {
	t := page.Table{ID: "next", Caption: append(page.Say(page.S("Next roll"), page.W(" after ")), page.F(b.Done)),
		Head: []page.Text{page.Say(page.W("film")), page.Say(page.W("at")), page.Say(page.W("time"))}}
	for _, f := range b.Developer.Films {
		row := textRow(page.Say(page.N(capital(f.Film.Name))), page.Say(page.F(f.At)), page.Say(page.F(f.Next)))
		if f.Next.Refused() {
			row.Cells[2] = page.Cell{No: true, Why: f.Next.Why, Refused: f.Next}
		}
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		none := page.Say(page.W("–"))
		t.Rows = []page.Row{textRow(page.Say(page.W("no film has a time in this strength")), none, none)}
		return t
	}
	t.Note = page.Say(page.L("reuse/"+b.ID, "All times up to the limit"), page.W("."))
	return t
}

// reuseStrip lists the times for every roll up to the limit.
func (c *Context) reuseStrip(b *work.Bottle) page.Page {
	d := b.Developer
	p := page.Page{ID: "reuse/" + b.ID, Kind: "re-use", KindLine: "Re-use strip", Title: capital(b.Bath.Name()),
		Lead: page.Say(page.N(b.Bath.Strength), page.W(", batch "), page.N(b.ID)), Role: roleOf(b.Bath.Role())}
	p.Key = []page.Block{page.Amount{Label: page.Say(page.W("rolls done")), Value: page.Say(page.F(b.Done))}}
	p.Before = beforeJob(work.AtWork, b.Bath.Dangers)
	for _, f := range d.Films {
		cells := page.Temps{Caption: page.Say(page.N(capital(f.Film.Name)), page.W(", at "), page.F(f.At)),
			Note: page.Say(page.W("rolls already done, and time for the next"))}
		for _, a := range f.After {
			cells.Cells = append(cells.Cells, page.Temp{At: page.Say(page.F(a.Rolls)), Time: []*figure.Record{a.Time},
				Whole: true, Ref: a.Next})
		}
		p.Do = append(p.Do, cells)
	}
	p.Do = append(p.Do,
		page.Para{Text: page.Say(page.W("Find how many rolls were done before this one; below it stands " +
			"its time. For a number between two, take the higher. Two rolls in one tank both count, and both " +
			"get the time of the first; put them in only if both stay within the limit."))})
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("develop a roll after the last time here: at most "),
		page.F(d.Most), page.W(", with every roll in the tank counted"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("For each roll already done in one litre, develop the next "),
		page.F(d.Longer),
		page.W(" longer than in fresh developer. Rolls are counted against "), page.F(b.Made),
		page.W(", the volume that was made, not against what is left."))}}
	p.Foot = c.foot(b.Bath.Def(), nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "reuse+" + b.ID, Faces: c.faces("a5")})
	return p
}
