package cards

import (
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// labelCards makes a blank bottle label for every strength that is kept.
func labelCards(c *Context) []page.Page {
	var out []page.Page
	for _, b := range c.W.Baths {
		decl := b.Decl()
		oneShot := decl != nil && decl.Use == "one-shot"
		if b.Strength == lab.Supplied || oneShot {
			continue
		}
		p := c.labelCard(b.Bath)
		l := c.label(b, p.Role)
		ladder(&l, b)
		p.Do = []page.Block{l}
		out = append(out, p)
	}
	return out
}

func (c *Context) labelCard(of lab.Bath) page.Page {
	b := c.W.Bath(of.Ref())
	known := b.Dangers
	p := page.Page{ID: "label/" + b.Ref(), Kind: "label", KindLine: "Bottle label", Title: capital(b.Name()),
		Lead: page.Say(page.N(b.Strength)), Role: roleOf(b.Role())}
	p.Do = []page.Block{c.label(b, p.Role)}
	p.Before = []page.Block{gearBlock(work.AtWork, known)}
	for _, block := range pregnant(work.AtWork, known) {
		if line, ok := block.(page.Cautions); ok { // a label has no room for more than the line itself
			p.Before = append(p.Before, page.Cautions{Items: []page.Text{line.Items[0][:1]}})
		}
	}
	p.Before = append(p.Before, page.List{Items: []page.Text{append(page.Say(page.S("When it is spent"),
		page.W(": ")), c.spent(b.Bath)...)}})
	if b.Solution != nil {
		p.Never = bottleNever(b.Bath, b.Solution.Never, filmAndPaper(b))
	} else {
		p.Never = bottleNever(b.Bath, b.Product.Never, filmAndPaper(b))
	}
	p.Foot = c.foot(b.Def(), nil)
	return p
}

// label is what is glued onto the bottle.
func (c *Context) label(b *work.Bath, role page.Role) page.Label {
	blank := page.Inline{Kind: page.Blank}
	l := page.Label{Name: capital(b.Name()), Strength: b.Strength, Role: role, Hazards: hazardBlock(b.Dangers)}
	if d := b.Decl(); d != nil && d.Dilute.Given() && !d.Dilute.None() {
		l.Strength = b.Strength + " " + d.Dilute.Text()
	}
	l.Dates = []page.Text{
		page.Say(page.W("mixed on "), blank), page.Say(page.W("opened "), blank),
		page.Say(page.W("discard by "), blank), page.Say(page.W("by "), blank),
	}
	l.Lives = append(append(c.lives(b.Bath), storeAbove(b)...), halfFull(b)...)
	if len(l.Lives) == 0 {
		l.Lives = append(l.Lives, page.Say(page.W("how long it keeps: "), page.Inline{Kind: page.Ask, Text: "first"}))
	}
	if b.Label.Grams != nil {
		l.Use = page.Say(page.F(b.Label.One), page.W(" = "), page.F(b.Label.Grams))
	}
	if list := b.Dangers.Contains(); len(list) > 0 {
		t := page.Say(page.W("Contains "))
		for i, c := range list {
			if i > 0 {
				t = append(t, page.W(", "))
			}
			t = append(t, page.N(c.Name), page.W(" "), page.F(c.Content))
		}
		l.Hazards.Statements = append(l.Hazards.Statements, t)
	}
	for _, a := range b.Label.Advice {
		says := page.Advice{Full: page.Say(page.N(a.Say), page.W(" ("), page.N(a.Code), page.W(")"))}
		if a.Brief != "" {
			says.Brief = page.Say(page.N(a.Brief))
		}
		l.Advice = append(l.Advice, says)
	}
	if len(l.Hazards.Pictograms) > 0 {
		l.Hazards.Note, l.Foot = nil, page.Say(page.W("Label for this room, worked out from the recipe. Not for sale."))
	}
	for _, size := range b.Label.Bottles {
		l.For = append(l.For, bottle(size))
	}
	return l
}

// bottle is one size of bottle with its ladder: exactly as many boxes as a fresh fill
// treats.
func bottle(s work.LabelSize) page.Container {
	out := container(s.Size)
	if t := s.Tally; t != nil {
		label := page.Say(page.W("tick one box for each use, up to "), page.F(t.Count))
		if t.Of != "" {
			label = page.Say(page.W("tick one box for each "), page.N(t.Of), page.W(", up to "), page.F(t.Count))
		}
		out.Tally = []page.Ticks{{Label: label, Count: t.Count, Boxes: t.Boxes}}
	}
	return out
}

// container is one size of bottle or drum without a ladder.
func container(s work.Size) page.Container {
	return page.Container{Name: s.Name, Holds: s.Holds, Ml: s.Ml}
}

// storeAbove says how warm a bottle must stand, or crystals form.
func storeAbove(b *work.Bath) []page.Text {
	var out []page.Text
	for _, cold := range b.Cold {
		if cold.Above != nil {
			out = append(out, page.Say(page.W("store above "), page.F(cold.Above), page.W(", or crystals")))
		}
	}
	return out
}

// halfFull is how many openings a half full bottle stands, for the air that each lets in.
func halfFull(b *work.Bath) []page.Text {
	if b.Air == nil || b.Air.Half() == nil {
		return nil
	}
	return []page.Text{page.Say(page.W("air, half full: at most "), page.F(b.Air.Half()))}
}

// bottleStates are the states of a bottle in the order in which it comes into them, each
// with the words for the day on which it does, and for the state.
var bottleStates = []struct{ key, since, word string }{{"full", "mixed on", "full"}, {"part", "opened on", "opened"},
	{"low", "below half on", "below half"}}

// ladder gives a blank label a line for each state of its bottle: since when, how long it
// keeps then, and until when. A state that nobody has written is a hole beside the others;
// where nobody has written any, there is no ladder.
func ladder(l *page.Label, b *work.Bath) {
	blank := page.Inline{Kind: page.Blank}
	since := func(words string) page.Text { return page.Say(page.W(words+" "), blank) }
	var dates, lives []page.Text
	known := false
	for _, s := range bottleStates {
		switch keeps := b.Life(s.key); {
		case keeps != nil:
			known = true
			dates = append(dates, since(s.since), page.Say(page.W(s.word+" "), page.F(keeps), page.W(", until "),
				blank))
			continue
		case s.key == "full":
			dates = append(dates, since(s.since), since("discard by"))
		}
		lives = append(lives, page.Say(page.W(s.word+": "), page.Inline{Kind: page.Ask, Text: "first"}))
	}
	if !known {
		return
	}
	for _, life := range b.Lives { // in a tray, or poured: no state of a bottle
		if life.State == "tray" || life.State == "poured" {
			lives = append(lives, page.Say(page.W(life.Word+" "), page.F(life.Time)))
		}
	}
	l.Ladder, l.Rest = append(dates, since("by")), append(append(lives, storeAbove(b)...), halfFull(b)...)
}
