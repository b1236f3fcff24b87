package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// meetLine says what must never meet something, as it goes on after "never".
func meetLine(m work.Meeting) string {
	if m.Never != "" {
		return m.Never + ": " + work.Reasons(m.Pairs)
	}
	return "let " + m.With + " meet it: " + work.Reasons(m.Pairs)
}

// neverLines are what must never be done with what stands in a drum or goes a
// route: what must not meet it, what kills first, then the routes' own lines.
func neverLines(n work.Never) []string {
	var out []string
	for _, m := range n.Meets {
		out = append(out, meetLine(m))
	}
	if n.Alone {
		out = append(out, "put another waste with it")
	}
	return append(out, n.Lines...)
}

// deadliest are the lines for a label, which has room for few: what gives off gas,
// explodes or burns, each with that word alone, then that the sheet knows more. The
// routes' own lines stand there whole.
func deadliest(n work.Never) []string {
	var out []string
	more := false
	for _, m := range n.Meets {
		var words []string
		for _, p := range m.Pairs {
			if p.Gives.Rank < 2 {
				continue
			}
			if !slices.Contains(words, p.Gives.Word) {
				words = append(words, p.Gives.Word)
			}
		}
		if len(words) == 0 || m.Never != "" {
			more = true
			continue
		}
		out = append(out, "let "+m.With+" meet it: "+strings.Join(words, ", "))
	}
	if n.Alone {
		out = append(out, "put another waste with it")
	}
	out = append(out, n.Lines...)
	if more {
		out = append(out, "do anything else that its sheet forbids")
	}
	return out
}

// unsaidHoles are the holes of what nobody has said what it reacts like.
func unsaidHoles(names []string) []page.Hole {
	if len(names) == 0 {
		return nil
	}
	return []page.Hole{{What: "what never meets " + strings.Join(names, ", "), Until: "let nothing meet it: ask first", Key: "members or names of a group in rules/groups.toml"}}
}

// apartBoard is the board of what never meets.
func apartBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/never-together", Kind: "board", KindLine: "At the drums, at the shelf, at the sink", Title: "Never together"}
	t := page.Table{ID: "pairs", Head: []page.Text{page.Say(page.W("this")), page.Say(page.W("never meets")), page.Say(page.W("what happens"))}, Caption: page.Say(page.S("Pairs that never meet"), page.W(", in a jug, in a drum, on a shelf"))}
	sources := page.List{Label: page.Say(page.W("sources; a pair without a source is our own rule, from memory")), Lines: true}
	for _, a := range c.W.Pairs {
		other := page.Say(page.S(a.Those))
		if a.Never != "" {
			other = page.Say(page.W("never "), page.S(a.Never))
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.S(capital(a.These)))}, {Text: other}, {Text: page.Say(page.N(capital(a.Reason())))}}})
		if a.Source != "" {
			sources.Items = append(sources.Items, page.Say(page.N(capital(a.Side)), page.W(" and "), page.N(a.Other+a.Never), page.W(": "), page.N(a.Source)))
		}
	}
	if len(t.Rows) > 0 {
		p.Do = append(p.Do, t)
	} else {
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("No pair is written down. That does not make anything safe: ask first."))})
	}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Read both labels before you pour."), page.W(" If you smell gas: everybody out, shut the door, call for help."))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("pour two wastes into one drum that is not for both")), page.Say(page.W("rinse out one waste with another")), page.Say(page.W("keep household bleach in this room"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("This list is not complete. Not listed does not mean allowed. Follow the supplier’s sheets first."))}}
	if len(sources.Items) > 0 {
		p.Why = append(p.Why, sources)
	}
	p.Foot = c.foot(c.W.Place.Def, nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "never-together", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}
