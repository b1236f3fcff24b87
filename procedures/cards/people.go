package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// peopleBoard says who leaves what to others: a choice for each person, a row for all baths that are left
// at the same jobs.
func peopleBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/people", Kind: "board", KindLine: "Hang this where the work is shared out",
		Title: "Who leaves what to others", Rows: []string{"who"}}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(
		page.S("You owe nobody a reason."), page.W(" Say ‘not me’, and somebody else does it. In doubt about a bath that is not here, leave it as well."))}}}
	for n, l := range c.W.Leaving {
		only := page.Only{For: []int{n}}
		id := strings.ReplaceAll(string(l.Who), " ", "-")
		p.Choices = append(p.Choices, page.Choice{Variant: id, Label: page.Say(page.N(string(l.Who)))})
		if len(l.Rows) == 0 {
			p.Do = append(p.Do, page.Para{Only: only, Text: page.Say(page.W("Nothing that is known of the baths of this lab asks for it. Where you are in doubt, ask all the same."))})
		} else {
			p.Do = append(p.Do, leaveDiscs(l, only, id))
			p.Why = append(p.Why, leaveReasons(l, only, id+"-reasons"))
		}
		c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: n, Variant: "people+" + id, Faces: c.wideFaces("a4")})
	}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("ask for the reason")),
		page.Say(page.W("try a little of it first"))}}}
	p.Why = append(p.Why, page.Para{Text: page.Say(page.W("The rules go by the classes of what is in the hand, by its gases and by how acid it is, and by what the lab’s own cautions say. For pregnancy and for young people they follow the classes that European law names for work, from memory; for asthma they are common practice. Local law, a doctor or a midwife may ask for more: they go first."))})
	p.Foot = c.foot(c.W.Place.Def, nil)
	return []page.Page{p}
}

// notYou is what stands at each job that is left to somebody else.
var notYou = map[work.Job]string{work.Weigh: "do not weigh", work.Dilute: "do not dilute",
	work.AtWork: "do not work", work.Spilled: "do not wipe", work.Away: "do not pour"}

// leaveDiscs are what one person leaves to others, with a mark at each job.
func leaveDiscs(l work.Leaving, only page.Only, id string) page.Discs {
	d := page.Discs{Only: only, ID: id, Caption: page.Say(page.W("what is left to somebody else, at which work"))}
	var jobs []work.Job
	for _, j := range work.Jobs() {
		if slices.ContainsFunc(l.Rows, func(r work.JobsLeft) bool { return slices.Contains(r.Jobs, j) }) {
			jobs = append(jobs, j)
			d.Pieces = append(d.Pieces, page.Piece{Word: string(j), Mark: notYou[j]})
		}
	}
	for _, r := range l.Rows {
		row := page.DiscRow{Cells: make([]page.Disc, len(jobs))}
		for _, b := range r.Baths {
			row.Names = append(row.Names, page.DiscName{Role: roleOf(b.Subject.Role), Text: leftName(b)})
		}
		for i, j := range jobs {
			row.Cells[i].Worn = slices.Contains(r.Jobs, j)
		}
		d.Rows = append(d.Rows, row)
	}
	return d
}

// leftName is a bath that is left, with the strengths where it is not all of them.
func leftName(b work.BathLeft) page.Text {
	t := page.Say(page.L("protect/"+b.Subject.Def.ID, capital(b.Subject.Name)))
	if !b.All() {
		t = append(t, page.N(", "+names(b.Strengths)))
	}
	return t
}

// leaveReasons are why, by the reason.
func leaveReasons(l work.Leaving, only page.Only, id string) page.Table {
	t := page.Table{Only: only, ID: id, Caption: page.Say(page.S("The reasons")),
		Head: []page.Text{page.Say(page.W("reason")), page.Say(page.W("bath"))}}
	for _, r := range l.Reasons {
		var baths page.Text
		for n, b := range r.Baths {
			if n > 0 {
				baths = append(baths, page.W("; "))
			}
			baths = append(baths, leftName(b)...)
		}
		t.Rows = append(t.Rows, textRow(page.Say(page.N(capital(r.Because))), baths))
	}
	return t
}
