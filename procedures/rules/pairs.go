package rules

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
)

// Outcome is what happens when a pair meets.
type Outcome struct {
	Word string
	// Rank orders outcomes: what kills at once before what burns, before what only
	// spatters.
	Rank int
	// Gas is true of what is breathed.
	Gas bool
}

// outcomes is the closed list, the worst first within a rank as it stands here.
var outcomes = []Outcome{
	{"hydrogen cyanide", 3, true}, {"cyanogen chloride", 3, true}, {"hydrogen sulfide", 3, true},
	{"hydrogen selenide", 3, true}, {"chlorine", 3, true}, {"explosive", 3, false},
	{"sulfur dioxide", 2, true}, {"ammonia", 2, true}, {"chloramines", 2, true},
	{"bromine or iodine vapour", 2, true}, {"chloromethyl ether", 2, true},
	{"fire", 2, false}, {"hydrogen", 2, false}, {"pressure", 1, false}, {"heat", 1, false}, {"spoils it", 0, false},
}

// Outcomes lists the words that `gives` may have.
func Outcomes() []string {
	out := make([]string, len(outcomes))
	for i, o := range outcomes {
		out[i] = o.Word
	}
	return out
}

func outcome(word string) (Outcome, bool) {
	i := slices.IndexFunc(outcomes, func(o Outcome) bool { return o.Word == word })
	if i < 0 {
		return Outcome{}, false
	}
	return outcomes[i], true
}

// Pair never meets. Exactly one of Those and Never says what These never meet. Both
// sides are keys: of groups, or of definitions.
type Pair struct {
	These, Those []string
	Never        string
	Gives        Outcome
	Note, Source string
	Extract      bool
	Concentrate  bool
	// Origin is who says so; a pair without a source is our own rule, from memory.
	Origin figure.Origin
	At     figure.Where
}

// Reason is what happens, and what there is to say of it.
func (p Pair) Reason() string {
	if p.Note == "" {
		return p.Gives.Word
	}
	return p.Gives.Word + ", " + p.Note
}

// Reasons are what happens when some pairs meet, each once: of two that begin alike the
// one that says more.
func Reasons(pairs []Pair) string {
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

// Meets is what something never meets, and every pair that says so.
type Meets struct {
	// Other are the keys of the other side; Never stands in their place.
	Other []string
	Never string
	Pairs []Pair
}

// Never lists what some things never meet: the other side of every pair of which
// one of them is one side and not, in itself, the other, as far as the other may
// stand in this lab; once for each other side, what kills first. On a shelf and at the scale things stand as they come; in a
// drum only as baths.
func (r *Rules) Never(mine []Kinds, asTheyCome bool) []Meets {
	var out []Meets
	holds := func(these, those []string) bool {
		return slices.ContainsFunc(mine, func(k Kinds) bool { return k.Any(these...) && !k.Any(those...) })
	}
	for _, p := range r.Pairs {
		if p.Concentrate && !asTheyCome {
			continue
		}
		if holds(p.These, p.Those) && (p.Never != "" || r.Here(p.Those)) {
			out = enter(out, Meets{Other: p.Those, Never: p.Never, Pairs: []Pair{p}})
		}
		if p.Never == "" && holds(p.Those, p.These) && r.Here(p.These) {
			out = enter(out, Meets{Other: p.These, Pairs: []Pair{p}})
		}
	}
	return out
}

func enter(list []Meets, m Meets) []Meets {
	for i, have := range list {
		if have.Never == m.Never && slices.Equal(have.Other, m.Other) {
			if !slices.ContainsFunc(have.Pairs, func(p Pair) bool { return p.Reason() == m.Pairs[0].Reason() }) {
				list[i].Pairs = append(have.Pairs, m.Pairs[0])
			}
			return list
		}
	}
	return append(list, m)
}

// Between lists the pairs that two baths make, what kills first.
func (r *Rules) Between(a, b Kinds) []Pair {
	var out []Pair
	for _, p := range r.Pairs {
		if !p.Concentrate && p.Never == "" && (a.Any(p.These...) && b.Any(p.Those...) || a.Any(p.Those...) &&
			b.Any(p.These...)) {
			out = append(out, p)
		}
	}
	return out
}

// Clash lists those of them that make a fault: a bath that is both sides by itself
// has come to rest, and brings neither to another.
func (r *Rules) Clash(a, b Kinds) []Pair {
	return slices.DeleteFunc(r.Between(a, b), func(p Pair) bool {
		both := func(k Kinds) bool { return k.Any(p.These...) && k.Any(p.Those...) }
		return both(a) || both(b)
	})
}

// Stirs lists those by which a bath that has come to rest gives off gas again: the other one brings more
// of what sets it free, as a stop bath does to a fixer that was mixed with a little acid.
func (r *Rules) Stirs(a, b Kinds) []Pair {
	return slices.DeleteFunc(r.Between(a, b), func(p Pair) bool {
		both := func(k Kinds) bool { return k.Any(p.These...) && k.Any(p.Those...) }
		more := func(k Kinds) bool { return k.Any(p.Those...) && !k.Any(p.These...) }
		return !p.Gives.Gas || !(both(a) && more(b) || both(b) && more(a))
	})
}

// Gases lists the pairs by which something gives off gas: of these it is the
// source.
func (r *Rules) Gases(mine Kinds) []Pair {
	var out []Pair
	for _, p := range r.Pairs {
		if p.Extract && p.Gives.Gas && mine.Any(p.These...) {
			out = append(out, p)
		}
	}
	return out
}

// GasWith lists what sets a gas free with something that is spilt: the other side of
// every such pair. Where it holds both sides, more of the second still does.
func (r *Rules) GasWith(mine Kinds) []Meets {
	var out []Meets
	for _, p := range r.Pairs {
		switch {
		case !p.Gives.Gas || p.Never != "" || p.Concentrate:
		case mine.Any(p.These...):
			if r.Here(p.Those) {
				out = enter(out, Meets{Other: p.Those, Pairs: []Pair{p}})
			}
		case mine.Any(p.Those...) && r.Here(p.These):
			out = enter(out, Meets{Other: p.These, Pairs: []Pair{p}})
		}
	}
	return out
}
