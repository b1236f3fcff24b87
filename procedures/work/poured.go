package work

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/waste"
)

// Silver is how much silver is in a bath when it is poured away.
type Silver struct {
	// Held is the silver in a litre, with its bounds; nil where it holds none, or where nobody can tell.
	Held *figure.Record
	// None: there is none in it.
	None bool
	// State is the state in which it is poured, in words; Why says what nobody knows, or why it holds none.
	State, Why string
}

// unworked says of what no film and no paper goes through why it holds no silver.
const unworked = "no film and no paper has been in it"

// silverPoured is the stage of the silver in what goes one of the ways.
func (w *Work) silverPoured() {
	for _, r := range w.Routes {
		for _, b := range r.Baths {
			c := w.silverAway(b)
			b.Silver = Silver{None: c.none, State: c.state, Why: c.why}
			if c.known {
				b.Silver.Held = waste.EnterContent(w.mix, figure.ID(b.Ref(), "silver-poured"), "silver", c.c)
			}
		}
	}
}

// silverAway is the silver in a strength when it is poured away: as somebody has found it, as its
// processes leave it, and in what others are made of alone as it is made.
func (w *Work) silverAway(b *Bath) content {
	first := b.Concentrate || b.Strength == lab.Supplied || len(w.madeWith(b)) > 0
	if b.Decl().Finds(lab.LimitSilver) || len(b.UsedIn) > 0 || !first {
		return w.contentOf(b, PermitLimit{PermitLimit: lab.PermitLimit{Of: lab.LimitSilver}})
	}
	switch silver, accounted := w.holdsSilver(b); {
	case silver:
		return unknown("it is made with silver, and nobody has worked out how much that is")
	case !accounted:
		return unknown("nobody knows all that is in it")
	}
	return content{none: true, why: unworked}
}
