package build

import (
	"fmt"
	"math"

	"wetside/build/render"
	"wetside/build/source"
	"wetside/procedures/lab"
)

// fits says, as warnings, which card does not fit which paper, by how much, and
// what was done.
func (r *Result) fits(plan *render.Plan) source.Faults {
	place := r.Loaded.Lab.Place
	var out source.Faults
	for _, f := range plan.Fitted {
		p := lab.Problem{At: place.At("print"), Code: "fit", Warning: true}
		for i, paper := range place.Print.Papers {
			if paper == f.Paper {
				p.At = place.At(fmt.Sprintf("print.papers[%d]", i))
			}
		}
		p.What = fmt.Sprintf("the card %s is %.0f mm too high for one sheet of %s at its smallest type", f.Variant,
			math.Ceil(f.Over), f.Paper)
		switch {
		case f.Refused > 0:
			p.What = fmt.Sprintf("the card %s would take %d cards of %s, which nobody reads at work: it is on %s",
				f.Variant, f.Refused, f.Paper, f.To)
			p.Hint = "print it on " + f.To + ", or shorten what it says; " + f.To + " under [print] papers has all cards on it"
		case f.To != "":
			p.What += ": it is on " + f.To + ", the next larger paper"
			p.Hint = "shorten what it says, or leave it"
		default:
			p.What += fmt.Sprintf(": cut between steps, over %d cards", f.Sheets)
			p.Hint = "hang the cards beside each other, shorten what it says, or name a larger paper under [print]"
		}
		if f.Broken {
			p.What += "; one piece alone is higher than a sheet, and the printer breaks it"
			p.Hint = "shorten that piece, or name a larger paper under [print]"
		}
		faults := r.Loaded.Place([]lab.Problem{p})
		faults[0].Cards = []string{f.Page}
		out = append(out, faults...)
	}
	return out
}
