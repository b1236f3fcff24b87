package work

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/rules"
	"wetside/procedures/waste"
)

type (
	// Permit is what the authority has said about one thing.
	Permit = waste.Permit
	// Going is where a spent bath goes.
	Going = waste.Route
	// NotInto is a drum that something must stay out of, and why.
	NotInto = waste.Not
	// Clash is one pair that never meets.
	Clash = rules.Pair
)

// Reasons are what happens when some pairs meet, each once.
func Reasons(pairs []Clash) string { return rules.Reasons(pairs) }

// Meeting is what something must never meet.
type Meeting struct {
	// With is the other side in words; Never stands in its place.
	With, Never string
	Pairs       []Clash
}

// meetings puts what the rules say into words of this lab.
func (w *Work) meetings(list []rules.Meets) []Meeting {
	var out []Meeting
	for _, m := range list {
		out = append(out, Meeting{With: w.mix.Rules.Side(m.Other), Never: m.Never, Pairs: m.Pairs})
	}
	return out
}

// Pair is a pair of the board of what never meets.
type Pair struct {
	Clash
	// Side and Other are both sides in words; empty Other where Never stands in its place.
	Side, Other string
	// Such are what the groups of both sides are made of.
	Such []Group
}

// Group is the name of a group of substances and what it is made of.
type Group = rules.Made

// pairs is the stage of the board of what never meets: what both may stand here.
func (w *Work) pairs() {
	r := w.mix.Rules
	for _, p := range r.Pairs {
		if r.Here(p.These) && (p.Never != "" || r.Here(p.Those)) {
			w.Pairs = append(w.Pairs, Pair{p, r.Side(p.These), r.Side(p.Those),
				append(r.Such(p.These), r.Such(p.Those)...)})
		}
	}
}

// Never is what must never get into a drum, or meet what goes one way.
type Never struct {
	Lines []string
	Meets []Meeting
	Alone bool
}

func (w *Work) never(n waste.Never) Never { return Never{n.Lines, w.meetings(n.Meets), n.Alone} }

// Route is one way for spent baths.
type Route struct {
	Decl *lab.Waste
	Goes Going
	// Water is where what is no bath goes this way, such as the water of a rinse: down no drain where
	// the permit has limits, since nobody has worked out what it holds.
	Water Going
	// Baths are the strengths that go this way.
	Baths []*Bath
	Never Never
	// Drum is the drum that it leads to, or nil.
	Drum *Drum
	// Weak are the origins of what the route says of itself that nobody vouches for, by
	// key: collect, carries, code.
	Weak map[string]string
	// Verdicts say where it leads and, where it may not go down a drain, the refusal.
	Verdicts []figure.Verdict
}

// Drum is a drum that routes lead to or that stands in the room.
type Drum struct {
	ID, Name string
	// Decl is what the lab has written of it; false where routes alone name it.
	Decl lab.Drum
	Here bool
	// Routes lead to it; Card is the one whose card tells all of it.
	Routes []*Route
	Card   *Route
	// Baths are all that goes into it, and Dangers theirs together.
	Baths   []*Bath
	Dangers Dangers
	Never   Never
	// Full is where it counts as full; nil where it does not stand here. Size is what it
	// holds; nil where nobody has written that.
	Full *figure.Record
	Size *Size
	// Month is what a month's work brings into it; nil where none is counted.
	Month *DrumMonth
}

// Permit is what the authority has said: of the drain, of the water of washes (wash), or
// of treating waste (treat).
func (w *Work) Permit(key string) Permit { return waste.PermitOf(w.lab, key) }

// Route finds a way by its id; nil where nobody has written it.
func (w *Work) Route(id string) *Route {
	for _, r := range w.Routes {
		if r.Decl.ID == id {
			return r
		}
	}
	return nil
}

// routes is the stage of the ways of spent baths.
func (w *Work) routes() {
	for _, d := range w.lab.Wastes {
		baths := w.lab.BathsTo(d.ID)
		r := &Route{Decl: d, Goes: waste.OfRoute(w.mix, d, baths), Never: w.never(waste.NeverWith(w.mix, d)),
			Weak: map[string]string{}}
		for _, b := range baths {
			r.Baths = append(r.Baths, w.byRef[b.Ref()])
		}
		w.withdraw(r)
		r.Verdicts = r.Goes.Verdicts(d, w.Permit("drain"))
		for _, key := range []string{"collect", "carries", "code"} {
			if by, _ := w.lab.OriginOf(d.Def, key); by.Weak() {
				r.Weak[key] = by.String()
			}
		}
		w.Routes = append(w.Routes, r)
	}
	// Only now is it known how acid they are of which nobody has written that.
	w.Problems = append(w.Problems, waste.Together(w.mix.Rules)...)
}

// withdraw closes the drain to what is no bath, where the permit has limits, and to the whole route
// where none of its baths may go down.
func (w *Work) withdraw(r *Route) {
	r.Water = r.Goes
	if r.Goes.Drain == "" || len(w.limits) == 0 {
		return
	}
	var unknown, over []Allowed
	for _, x := range w.limits {
		a := x.Unknown(figure.ID("dispose."+r.Decl.ID, "permit."+x.Of), "", "nobody has worked out what it holds")
		a.Who = "water that goes this way"
		unknown = append(unknown, a)
	}
	var baths []lab.Bath
	open := false
	for _, b := range r.Baths {
		baths = append(baths, b.Bath)
		over, open = append(over, b.Goes.Over...), open || b.Goes.Drain != ""
		var says []string
		for _, a := range b.Goes.Over {
			if a.Meets == NotMet {
				says = append(says, a.Says())
			}
		}
		if len(says) > 0 {
			w.Problems = append(w.Problems, lab.Problem{At: b.Def().At("waste"), Code: "permit", Warning: true,
				What: fmt.Sprintf("the route %q leads %s down the drain, and the permit %s does not allow that: %s",
					r.Decl.ID, b.Goes.Over[0].Who, b.Goes.Over[0].Ref, strings.Join(says, "; ")),
				Hint: "give it a route with a drum; until then its cards say ask first"})
		}
	}
	r.Water = r.Goes.Within(w.mix, unknown, baths...)
	switch {
	case open:
	case len(over) > 0:
		r.Goes = r.Goes.Within(w.mix, over, baths...)
	default:
		r.Goes = r.Water
	}
}

// drums is the stage of the drums, with what goes into each.
func (w *Work) drums() {
	ids := waste.Drums(w.lab)
	for _, id := range slices.Sorted(maps.Keys(w.lab.Place.Drums)) {
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	slices.Sort(ids)
	for _, id := range ids {
		decl, here := w.lab.Place.Drums[id]
		d := &Drum{ID: id, Name: waste.DrumName(w.lab, id), Decl: decl, Here: here,
			Never: w.never(waste.NeverIn(w.mix, id))}
		for _, r := range w.Routes {
			if r.Decl.Drum != id {
				continue
			}
			r.Drum = d
			if d.Card == nil || r.Decl.ID == id {
				d.Card = r
			}
			d.Routes, d.Baths = append(d.Routes, r), append(d.Baths, r.Baths...)
		}
		d.Dangers = together(d.Baths)
		if here {
			d.Full = waste.Full(w.mix.Book, id, decl)
			if decl.Holds.Positive() {
				size := w.sizeOf(figure.ID("drum", "holds", id), decl.Holds.Quantity, decl.Holds.Where(),
					decl.Holds.By())
				d.Size = &size
			}
		}
		w.Drums = append(w.Drums, d)
	}
}
