package cards

import (
	"strings"
	"wetside/procedures/lab"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// shelfCards makes the shelf board, a label with its dates for every bottle, and
// a strip for every developer that is used again.
func shelfCards(c *Context) []page.Page {
	stands := c.W.OnShelf
	if len(stands.Bottles) == 0 {
		return nil
	}
	out := []page.Page{c.shelfBoard(stands)}
	for _, b := range stands.Bottles {
		out = append(out, c.batchLabel(b))
		if b.Developer != nil && len(b.Developer.Films) > 0 {
			out = append(out, c.reuseStrip(b))
		}
		if d, ok := discard(b); ok {
			c.Discards = append(c.Discards, d)
		}
	}
	return out
}

// discard is a bottle's day in the calendar.
func discard(b *work.Bottle) (page.Discard, bool) {
	d := page.Discard{Batch: b.ID, What: b.Bath.Name() + ", " + b.Bath.Strength, On: b.Discard.String()}
	switch {
	case b.Spent:
		d.Says = "Dead: do not use. Spent by " + b.Governs + "."
	case b.DiesOn.IsZero():
		return d, false
	case b.Answer == work.Dead:
		d.Says = "Dead since the end of this day: do not use. Reason: " + b.Governs + "."
	case b.Answer == work.Unsure:
		d.Says = "Nobody can judge it: do not use it until the missing facts are written down. Dead after this day in any " +
			"case. Missing: " + b.Why + "."
	default:
		d.Says = "Last day on which it may be used. Reason: " + b.Governs + "."
	}
	return d, true
}

// stateWords are the states of a bottle as a card says them.
var stateWords = map[string]string{"full": "sealed", "part": "opened", "low": "below half", "tray": "poured"}

func (c *Context) shelfBoard(stands work.OnShelf) page.Page {
	p := page.Page{ID: "shelf/index", Kind: "shelf", KindLine: "Read it every week", Title: "On the shelf"}
	p.Lead = page.Say(page.W("on "), page.F(stands.Day))
	for _, section := range []struct {
		answer string
		do     page.Text
	}{
		{work.Dead, page.Say(page.S("Do not use."), page.W(" Pour nothing down a drain without asking."))},
		{work.Dying, page.Say(page.W("Use these first, or mix new ones in time."))},
		{work.Unsure, page.Say(page.S("Do not use"), page.W(" until the missing facts are written down: ask first."))},
		{work.Good,
			page.Say(page.W("Good by their dates. If a bath looks, smells or works wrong, it is dead, whatever " +
				"this board says."))},
	} {
		t := shelfTable(stands.Bottles, section.answer)
		if len(t.Rows) > 0 {
			t.Caption = page.Say(page.S(capital(answerWord(section.answer))))
			if section.answer == work.Dying {
				t.Caption = append(t.Caption, page.W(", within "), page.F(stands.Warn))
			}
			note := append(section.do, t.Note...)
			t.Note = nil
			p.Tables = append(append(p.Tables, t), aloneBelow(note)...)
		}
		if section.answer == work.Dead && len(t.Rows) > 0 {
			p.Tables = append(p.Tables, deadGo(stands.Bottles))
		}
	}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("once a week")), Items: []page.Text{
		page.Say(page.W("check that the label says the same")), page.Say(page.W("look at it, smell it")),
		page.Say(page.W("write the log"))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("trust a bath past its date because it " +
		"looks perfect: some die without a sign"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("A batch ends at the earliest of these dates: sealed, counted from " +
		"mixing; opened, from the day it was opened; below half, from the day it fell so low; in a tray, from " +
		"mixing. What is left is what was filled in minus every amount in the log. A bottle is good through the date shown. After so many openings the air can have eaten as much sulfite as this lab allows; the date counts all the same."))}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "shelf", Faces: c.wideFaces("a4")})
	return p
}

// deadGo says where each dead batch goes.
func deadGo(bottles []*work.Bottle) page.Block {
	l := page.List{Label: page.Say(page.W("where they go"))}
	for _, b := range bottles {
		if b.Answer == work.Dead {
			l.Items = append(l.Items, append(page.Say(page.N(b.ID), page.W(", "), page.N(b.Bath.Name()), page.W(": ")),
				routeText(b.Bath.Goes)...))
		}
	}
	return l
}

// shelfTable lists the batches of one answer.
func shelfTable(bottles []*work.Bottle, answer string) page.Table {
	t := page.Table{ID: strings.ReplaceAll(answer, " ", "-")}
	for _, w := range []string{"batch", "what", "discard by", "days left", "amount left", "reason", "state"} {
		switch {
		case w == "days left" && answer == work.Dead:
			continue
		case answer == work.Unsure && w == "discard by":
			w = "why not"
		case answer == work.Unsure && (w == "days left" || w == "reason"):
			continue
		}
		t.Head = append(t.Head, page.Say(page.W(w)))
	}
	var airs page.Text
	for _, b := range bottles {
		if b.Answer != answer {
			continue
		}
		if b.Air != nil && !b.Air.None {
			airs = append(airs, page.W(", "), page.N(b.ID), page.W(": "), page.F(b.Air.Openings))
		}
		cells := []page.Text{page.Say(page.L("label/"+b.ID, b.ID)), whatText(b)}
		switch {
		case answer == work.Unsure:
			cells = append(cells, page.Say(page.N(b.Why), page.W(" "), page.Inline{Kind: page.Ask, Text: "first"}))
		case b.Spent:
			cells = append(cells, page.Say(page.S(b.Why)))
		case answer == work.Dead:
			cells = append(cells, page.Say(page.F(b.Dies)))
		default:
			cells = append(cells, page.Say(page.F(b.Dies)), page.Say(page.B(b.Days)))
		}
		cells = append(cells, leftText(b))
		if answer != work.Unsure {
			cells = append(cells, page.Say(page.W(b.Governs)))
		}
		cells = append(cells, stateText(b))
		t.Rows = append(t.Rows, textRow(cells...))
		for _, words := range []string{b.Safe, b.Missing, b.Note} {
			if words != "" {
				t.Note = append(t.Note, page.W(" "), page.N(b.ID+": "+strings.TrimSuffix(words, ".")+"."))
			}
		}
	}
	if len(airs) > 0 {
		t.Note = append(append(t.Note, page.W(" Left by the air in the bottle: ")), append(airs[1:], page.W("."))...)
	}
	return t
}

// textRow is a row of a table of which every cell is a text.
func textRow(cells ...page.Text) page.Row {
	var row page.Row
	for _, text := range cells {
		row.Cells = append(row.Cells, page.Cell{Text: text})
	}
	return row
}

// stateText is how a batch stands, and since when its bottle is open.
func stateText(b *work.Bottle) page.Text {
	word := stateWords[b.State]
	t := page.Say(page.W(word))
	if b.Opened != nil {
		if opened := stateWords["part"]; word != opened {
			t = append(t, page.W(", "+opened))
		}
		t = append(t, page.W(" "), page.F(b.Opened))
	}
	if b.Air != nil && b.Air.None {
		t = append(t, page.W("; "), page.S("no more openings"), page.W(": test it first"))
	}
	return t
}

func whatText(b *work.Bottle) page.Text {
	t := page.Say(page.L("mix/"+b.Bath.Def().ID, capital(b.Bath.Name())), page.W(", "), page.N(b.Bath.Strength))
	if b.PlaceNow > 0 {
		t = append(t, page.W(", "+placeWord(b.PlaceNow)))
	}
	return t
}

// leftText is what is left; where the log does not tell, its reason.
func leftText(b *work.Bottle) page.Text {
	if b.LeftExact == nil {
		return page.Say(page.Inline{Kind: page.Ask}, page.W(" "), page.N(b.Left.Why))
	}
	return page.Say(page.F(b.Left))
}

// onShelf lists the batches of a solution for its mixing card.
func (c *Context) onShelf(solution string) []page.Block {
	if len(c.W.OnShelf.Bottles) == 0 {
		return nil
	}
	l := page.List{Label: page.Say(page.L("shelf/index", "On the shelf"), page.W(" today"))}
	for _, b := range c.W.OnShelf.Bottles {
		if b.Bath.Def().ID != solution {
			continue
		}
		item := page.Say(page.L("label/"+b.ID, b.ID), page.W(", "), page.N(b.Bath.Strength), page.W(": "))
		switch {
		case b.Spent:
			item = append(item, page.S("dead"), page.W(", spent by "+b.Governs+": do not use"))
		case b.Answer == work.Dead:
			item = append(item, page.S("dead"), page.W(" since "), page.F(b.Dies), page.W(": do not use"))
		case b.Answer == work.Unsure:
			item = append(item, page.S("cannot be judged"), page.W(", "), page.N(b.Why), page.W(" "),
				page.Inline{Kind: page.Ask, Text: "first"})
		default:
			item = append(item, page.S(answerUntil(b.Answer)), page.W(" until "), page.F(b.Dies), page.W(", left "))
			item = append(item, leftText(b)...)
			if b.Pieces != nil {
				item = append(item, page.W(", "), page.F(b.Pieces), page.W(" done"))
			}
			if m := b.Head; m != nil {
				item = append(append(item, page.W("; "), page.N(m.Format.Name()), page.W(": ")), moreLeft(m)...)
			}
			item = append(item, fillsLeft(b)...)
		}
		l.Items = append(l.Items, item)
	}
	if len(l.Items) == 0 {
		l.Items = append(l.Items, page.Say(page.W("none")))
	}
	return []page.Block{l}
}

// fillsLeft says how many times what is left in a bottle fills each tank, strength by strength.
func fillsLeft(b *work.Bottle) page.Text {
	var out page.Text
	for i, f := range b.Fills {
		switch {
		case i == 0 || b.Fills[i-1].Bath != f.Bath:
			out = append(out, page.W("; as "), page.N(f.Bath.Strength), page.W(" it fills the "))
		default:
			out = append(out, page.W(", the "))
		}
		out = append(out, page.N(f.Vessel.Name))
		if f.OtherFill {
			out = append(out, page.W(" for "), page.N(lab.InSides(f.Vessel.Family)))
		}
		out = append(out, page.W(": "), page.F(f.N))
	}
	return out
}

// answerWord is what is said of a batch.
func answerWord(answer string) string {
	if answer == work.Dying {
		return "ends soon"
	}
	return answer
}

// answerUntil is what is said of a batch before its date.
func answerUntil(answer string) string {
	if answer == work.Dying {
		return "ends soon, good"
	}
	return answer
}

// aloneBelow is a note of a table as lines of their own: below the last row it would not fit
// on a small paper.
func aloneBelow(note page.Text) []page.Block {
	if len(note) == 0 {
		return nil
	}
	return []page.Block{page.Para{Text: note}}
}
