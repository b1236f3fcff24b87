package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// meetLine says what must never meet something, as it goes on after "never".
func meetLine(m work.Meeting) string {
	if m.Never != "" {
		return m.Never + ": " + work.Reasons(m.Pairs)
	}
	return "let " + m.With + " meet it: " + work.Reasons(m.Pairs)
}

// deadly is the rank from which an outcome kills, explodes or burns.
const deadly = 2

// foremost is how many lines a sheet or a label has room for in large type.
const foremost = 5

// neverLine is one line of what must never be done and why, and as short as a label has it.
type neverLine struct{ deed, why, brief string }

func (n neverLine) text() page.Text {
	if n.why == "" {
		return page.Say(page.N(n.deed))
	}
	return page.Say(page.N(n.deed+": "), page.N(n.why))
}

// neverLines are what must never be done with what stands in a drum or goes a route: what
// kills, explodes or burns, in that order, then the routes' own lines and the rest.
func neverLines(n work.Never) []neverLine {
	var out, lesser []neverLine
	if n.Alone {
		out = append(out, neverLine{deed: "put another waste with it", brief: "put another waste with it"})
	}
	for _, m := range n.Meets {
		var words []string
		for _, p := range m.Pairs {
			if p.Gives.Rank >= deadly && !slices.Contains(words, p.Gives.Word) {
				words = append(words, p.Gives.Word)
			}
		}
		line := neverLine{deed: "let " + m.With + " meet it", why: work.Reasons(m.Pairs)}
		if m.Never != "" {
			line.deed = m.Never
		}
		if m.Never != "" || len(words) == 0 {
			line.brief = line.deed + ": " + line.why
			lesser = append(lesser, line)
			continue
		}
		line.brief = "let " + m.With + " meet it: " + strings.Join(words, ", ")
		out = append(out, line)
	}
	for _, own := range n.Lines {
		out = append(out, neverLine{deed: own, brief: own})
	}
	var once []neverLine
	for _, line := range append(out, lesser...) {
		if !slices.Contains(once, line) {
			once = append(once, line)
		}
	}
	return once
}

// deadliest are the lines for a label, which has room for few, each with its word alone,
// and last that the sheet knows more.
func deadliest(n work.Never) []string {
	lines := neverLines(n)
	var out []string
	for _, line := range lines[:min(len(lines), foremost)] {
		out = append(out, line.brief)
	}
	if len(lines) > foremost {
		out = append(out, "do what else the sheet of this drum forbids: read it first")
	}
	return out
}

// unsaidHoles are the holes of what nobody has said what it reacts like.
func unsaidHoles(names []string) []page.Hole {
	if len(names) == 0 {
		return nil
	}
	return []page.Hole{{What: "what never meets " + series.Of(names),
		Until: "let nothing meet it: ask first", Key: "members or names of a group in rules/groups.toml"}}
}

// joined are pairs of one outcome that stand in one row.
type joined struct {
	pair         work.Pair
	these, those []string
	// notes are what there is to say of the pairs, and who each is about.
	notes []aboutNote
}

type aboutNote struct{ who, note string }

// joinPairs puts pairs together of which the same comes: first those that share what they
// never meet, then rows that share what never meets it. Each side of a row then clashes
// with every one of the other. No pair is dropped, and a row stands where its first pair
// does: what kills first.
func joinPairs(pairs []work.Pair) []*joined {
	var first []*joined
	for _, p := range pairs {
		i := slices.IndexFunc(first, func(r *joined) bool {
			return p.Never == "" && r.pair.Never == "" && r.pair.Gives == p.Gives && r.pair.Other == p.Other
		})
		if i < 0 {
			i = len(first)
			first = append(first, &joined{pair: p, those: []string{p.Other}})
		}
		r := first[i]
		r.these, r.notes = append(r.these, p.Side), append(r.notes, aboutNote{p.Side, p.Note})
	}
	var out []*joined
	for _, r := range first {
		i := slices.IndexFunc(out, func(o *joined) bool {
			return r.pair.Never == "" && o.pair.Never == "" && o.pair.Gives == r.pair.Gives &&
				slices.Equal(o.these, r.these)
		})
		if i < 0 {
			out = append(out, r)
			continue
		}
		o := out[i]
		for k := range o.notes { // what was said of the whole row is now of one of its ends
			if len(o.those) == 1 && len(o.these) == 1 {
				o.notes[k].who = o.those[0]
			}
		}
		for _, n := range r.notes {
			o.notes = append(o.notes, aboutNote{r.those[0], n.note})
		}
		o.those = append(o.those, r.those...)
	}
	return out
}

// note is what there is to say of a row: of all its pairs, or by name of one.
func (r *joined) note() string {
	alike := true
	for _, n := range r.notes {
		alike = alike && n.note == r.notes[0].note
	}
	if alike {
		return r.notes[0].note
	}
	var out []string
	for _, n := range r.notes {
		if n.note != "" {
			out = append(out, n.who+": "+n.note)
		}
	}
	return strings.Join(out, "; ")
}

// clashRows are the rows of the board of what never meets.
func clashRows(pairs []work.Pair) []page.Clash {
	var out []page.Clash
	for _, r := range joinPairs(pairs) {
		row := page.Clash{
			These: page.Say(page.N(capital(strings.Join(r.these, "; ")))),
			Those: page.Say(page.N(strings.Join(r.those, "; "))),
			Gives: page.Say(page.N(capital(r.pair.Gives.Word))), Lesser: r.pair.Gives.Rank < deadly,
		}
		if r.pair.Never != "" {
			row.Those, row.Deed = page.Say(page.W("do not "), page.S(r.pair.Never)), true
		}
		if note := r.note(); note != "" {
			row.Note = page.Say(page.N(note))
		}
		out = append(out, row)
	}
	return out
}

// groupWords say once, in one run, what the groups of the board are made of.
func groupWords(pairs []work.Pair) page.List {
	var seen []work.Group
	line := page.Say(page.W("What is meant. "))
	for _, p := range pairs {
		for _, g := range p.Such {
			if slices.Contains(seen, g) {
				continue
			}
			if len(seen) > 0 {
				line = append(line, page.W(" · "))
			}
			seen = append(seen, g)
			line = append(line, page.S(capital(g.Name)), page.W(": "), page.N(g.Such))
		}
	}
	if len(seen) == 0 {
		return page.List{}
	}
	return page.List{Small: true, Items: []page.Text{line}}
}

// apartBoard is the board of what never meets.
func apartBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/never-together", Kind: "board", KindLine: "At the drums, at the shelf, at the sink",
		Title: "Never together"}
	sources := page.List{Label: page.Say(page.W("sources; a pair without a source is our own rule, from memory")),
		Lines: true}
	for _, a := range c.W.Pairs {
		if a.Source != "" {
			sources.Items = append(sources.Items, page.Say(page.N(capital(a.Side)), page.W(" and "),
				page.N(a.Other+a.Never), page.W(": "), page.N(a.Source)))
		}
	}
	if rows := clashRows(c.W.Pairs); len(rows) > 0 {
		p.Do = append(p.Do, page.Clashes{ID: "pairs",
			Caption: page.Say(page.W("Pairs that never meet, in a jug, in a drum, on a shelf")), Rows: rows})
	} else {
		p.Do = append(p.Do,
			page.Para{Text: page.Say(page.W("No pair is written down. That does not make anything safe: ask first."))})
	}
	if words := groupWords(c.W.Pairs); len(words.Items) > 0 {
		p.Do = append(p.Do, words)
	}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Read both labels before you pour."),
		page.W(" If you smell gas: everybody out, shut the door, call for help."))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("pour two wastes into one drum that is not for both")),
		page.Say(page.W("rinse out one waste with another")), page.Say(page.W("keep household bleach in this room"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("This list is not complete. Not listed does not mean allowed. Follow the supplier’s sheets first."))}}
	if len(sources.Items) > 0 {
		p.Why = append(p.Why, sources)
	}
	p.Foot = c.foot(c.W.Place.Def, nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "never-together", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}
