package waste

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/rules"
)

// Never is what must never get into a drum.
type Never struct {
	// Lines are those of the drum's routes, each once, in their own words.
	Lines []string
	// Meets are the other halves of every pair of which the drum holds one.
	Meets []rules.Meets
	// Alone: nothing else goes into it.
	Alone bool
}

// NeverIn is what must never get into a drum, by what its routes say and by what
// goes into it.
func NeverIn(m *mix.Mixer, drum string) Never {
	var out Never
	var kinds []rules.Kinds
	for _, w := range m.Lab.Wastes {
		if w.Drum != drum {
			continue
		}
		for _, line := range w.Never {
			if !slices.Contains(out.Lines, line) {
				out.Lines = append(out.Lines, line)
			}
		}
		out.Alone = out.Alone || w.Alone
		for _, h := range into(m.Rules, w) {
			kinds = append(kinds, h.kinds)
		}
	}
	out.Meets = m.Rules.Never(kinds, false)
	return out
}

// NeverWith is what the baths of one route must never meet, where it has no drum.
func NeverWith(m *mix.Mixer, w *lab.Waste) Never {
	out := Never{Lines: w.Never}
	var kinds []rules.Kinds
	for _, h := range into(m.Rules, w) {
		kinds = append(kinds, h.kinds)
	}
	out.Meets = m.Rules.Never(kinds, false)
	return out
}

// entry is one bath that goes a route.
type entry struct {
	bath  lab.Bath
	route *lab.Waste
	kinds rules.Kinds
}

// into are the baths of one route, each solution or product once, as all that its strengths are
// together: the pH may be known of a dilution alone.
func into(r *rules.Rules, w *lab.Waste) []entry {
	var out []entry
	for _, b := range r.Lab.BathsTo(w.ID) {
		if n := len(out) - 1; n >= 0 && out[n].bath.Def().ID == b.Def().ID {
			out[n].kinds = r.Together(out[n].kinds, r.OfBath(b))
			continue
		}
		out = append(out, entry{b, w, r.OfBath(b)})
	}
	return out
}

// inside are the baths that go into a drum.
func inside(r *rules.Rules, drum string) []entry {
	var out []entry
	for _, w := range r.Lab.Wastes {
		if w.Drum == drum {
			out = append(out, into(r, w)...)
		}
	}
	return out
}

// keepsOut lists the pairs because of which a bath must stay out of a drum, what
// kills first; alone reports a drum that takes nothing else.
func keepsOut(m *mix.Mixer, drum string, mine rules.Kinds) (why []rules.Pair, alone bool) {
	for _, w := range m.Lab.Wastes {
		alone = alone || w.Drum == drum && w.Alone
	}
	for _, h := range inside(m.Rules, drum) {
		for _, p := range m.Rules.Between(mine, h.kinds) {
			if !slices.ContainsFunc(why, func(have rules.Pair) bool { return have.At == p.At }) {
				why = append(why, p)
			}
		}
	}
	slices.SortStableFunc(why, func(a, b rules.Pair) int { return b.Gives.Rank - a.Gives.Rank })
	return why, alone
}

// Together finds drums into which routes lead two baths that never meet, and routes
// without a drum that take both. It knows as much of how acid they are as the rules have been told: what is
// written, before anything is worked out.
func Together(r *rules.Rules) []lab.Problem {
	var out []lab.Problem
	for _, w := range r.Lab.Wastes {
		if w.Drum != "" {
			continue
		}
		list := into(r, w)
		for i, one := range list {
			for _, other := range list[i+1:] {
				if pairs := r.Clash(one.kinds, other.kinds); len(pairs) > 0 {
					d := other.bath.Def()
					out = append(out, lab.Problem{At: d.At("waste"), Code: "apart",
						What: fmt.Sprintf("the route %q takes %s and %s, which never meet: %s", w.ID, one.bath.Name(),
							other.bath.Name(), pairs[0].Reason()),
						Hint: "give one of the two a route of its own: whoever reads its card would pour both into one can"})
				}
			}
		}
	}
	const hint = "give one of the two a drum of its own, or leave drum out of its route: its cards then say ask first, and into no drum of this room"
	for _, drum := range Drums(r.Lab) {
		said := map[string]bool{}
		list := inside(r, drum)
		for i, one := range list {
			for _, other := range list[i+1:] {
				if one.route != other.route && (one.route.Alone || other.route.Alone) && !said[other.route.ID] {
					said[other.route.ID] = true
					out = append(out, lab.Problem{At: other.route.At("drum"), Code: "apart", Hint: hint,
						What: fmt.Sprintf("the drum %q takes %s and %s, and one of their routes says that nothing else goes into its drum",
							drum, one.bath.Name(), other.bath.Name())})
				}
				for _, p := range r.Stirs(one.kinds, other.kinds) {
					key := other.route.ID + p.Gives.Word
					if said[key] {
						continue
					}
					said[key] = true
					rest, brings := one, other
					if !rest.kinds.Any(p.These...) || !rest.kinds.Any(p.Those...) {
						rest, brings = other, one
					}
					some, _, _ := strings.Cut(r.Side(p.Those), " or ")
					out = append(out, lab.Problem{At: other.route.At("drum"), Code: "apart", Warning: true,
						What: fmt.Sprintf("the drum %q takes %s, which holds some %s already, and %s, which brings more of it: %s",
							drum, rest.bath.Name(), some, brings.bath.Name(), p.Gives.Word),
						Hint: "ask the collector; a drum for each is the safe way"})
				}
				for _, p := range r.Clash(one.kinds, other.kinds) {
					key := other.route.ID + p.Reason()
					if said[key] {
						continue
					}
					said[key] = true
					a, b := p.These, p.Those
					if !one.kinds.Any(a...) || !other.kinds.Any(b...) {
						a, b = b, a
					}
					out = append(out, lab.Problem{At: other.route.At("drum"), Code: "apart", Hint: hint,
						What: fmt.Sprintf("the drum %q takes %s (%s) and %s (%s), which never meet: %s", drum,
							one.bath.Name(), r.Side(a), other.bath.Name(), r.Side(b), p.Reason())})
				}
			}
		}
	}
	return out
}
