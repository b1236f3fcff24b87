package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/rules"
	"wetside/procedures/waste"
)

// reasons are what happens when some pairs meet, each once: of two that begin alike
// the one that says more.
func reasons(pairs []rules.Pair) string {
	var out []string
	for _, p := range pairs {
		why := p.Reason()
		if i := slices.IndexFunc(out, func(have string) bool { return strings.HasPrefix(why, have) }); i >= 0 {
			out[i] = why
		} else if !slices.ContainsFunc(out, func(have string) bool { return strings.HasPrefix(have, why) }) {
			out = append(out, why)
		}
	}
	return strings.Join(out, "; ")
}

// meetLine says what must never meet something, as it goes on after "never".
func (c *Context) meetLine(m rules.Meets) string {
	if m.Never != "" {
		return m.Never + ": " + reasons(m.Pairs)
	}
	return "let " + c.Mix.Rules.Side(m.Other) + " meet it: " + reasons(m.Pairs)
}

// neverLines are what must never be done with what stands in a drum or goes a
// route: what must not meet it, what kills first, then the routes' own lines.
func (c *Context) neverLines(n waste.Never) []string {
	var out []string
	for _, m := range n.Meets {
		out = append(out, c.meetLine(m))
	}
	if n.Alone {
		out = append(out, "put another waste with it")
	}
	return append(out, n.Lines...)
}

// deadliest are the lines for a label, which has room for few: what gives off gas,
// explodes or burns, each with that word alone, then that the sheet knows more. The
// routes' own lines stand there whole.
func (c *Context) deadliest(n waste.Never) []string {
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
		out = append(out, "let "+c.Mix.Rules.Side(m.Other)+" meet it: "+strings.Join(words, ", "))
	}
	if n.Alone {
		out = append(out, "put another waste with it")
	}
	out = append(out, n.Lines...)
	if more {
		out = append(out, "do what its sheet forbids besides")
	}
	return out
}

// routeWords says in a line where a route leads. Naming one drum that it must not
// go into would read as leave for the others.
func routeWords(r waste.Route) string {
	switch {
	case r.Drum != "":
		return "to the drum for " + r.Drum
	case r.Drain != "":
		return "down the foul drain: " + r.Drain + "; permit " + r.Ref
	}
	out := "to a drum of its own: ask first; into no drum of this room"
	var all []rules.Pair
	for _, n := range r.Not {
		all = append(all, n.Why...)
	}
	slices.SortStableFunc(all, func(a, b rules.Pair) int { return b.Gives.Rank - a.Gives.Rank })
	var whys []string
	for _, p := range all {
		if !slices.Contains(whys, p.Gives.Word) {
			whys = append(whys, p.Gives.Word)
		}
	}
	if len(whys) == 0 {
		return out
	}
	if len(whys) > 2 {
		whys = append(whys[:2], "more")
	}
	return out + " (with what stands there: " + strings.Join(whys, ", ") + ")"
}

// notDrum says why something must stay out of a drum.
func notDrum(n waste.Not) string {
	why := reasons(n.Why)
	if n.Alone && why == "" {
		why = "nothing else goes into it"
	}
	return "not the drum for " + n.Drum + ": " + why
}

// unsaidHoles are the holes of what nobody has said what it reacts like.
func unsaidHoles(names []string) []page.Hole {
	if len(names) == 0 {
		return nil
	}
	return []page.Hole{{What: "what never meets " + strings.Join(names, ", "), Until: "let nothing meet it: ask first", Key: "members or names of a group in rules/groups.toml"}}
}
