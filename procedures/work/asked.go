package work

import (
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Asked is one strength made in one volume that somebody asks for at the bench.
type Asked struct {
	Bath *Bath
	// Solution is how its steps make that volume; nil where it is diluted or bought.
	Solution *Solution
	// Drawn is how it is diluted to that volume; nil where its steps make it or it is
	// bought.
	Drawn *Drawn
	// EnoughFor is how many rolls the dilution is enough for; nil where nobody has
	// written what a roll needs. NotOne: it is not enough for one.
	EnoughFor *figure.Record
	NotOne    bool
	// Lacks is what the dilution does not find on the shelf.
	Lacks []Lack
}

// Ask answers for one volume of a strength as its card does for its own volumes.
func (w *Work) Ask(b lab.Bath, volume unit.Quantity[unit.Volume]) Asked {
	out := Asked{Bath: w.Bath(b.Ref())}
	if s := b.Solution; s != nil && b.Strength == s.MadeStrength() {
		out.Solution = w.solution(s, []unit.Quantity[unit.Volume]{volume})
		out.Solution.Strengths = w.strengthsOf(b)
		w.lackingParts(out.Solution)
		return out
	}
	draw, ok := w.mix.Draw(b, volume, figure.Where{}, figure.House, "volume made",
		capacity.NeededIn(w.mix, b, volume.Exact()))
	if !ok {
		return out
	}
	out.Drawn = &Drawn{draw, w.splitOf(draw.Take)}
	if rolls, n, ok := capacity.EnoughFor(w.mix, b, draw.Take.Amount); ok {
		out.EnoughFor, out.NotOne = rolls, n == 0
	}
	out.Lacks = w.lackingOf(draw)
	return out
}

// strengthsOf are all strengths of the definition that a strength belongs to.
func (w *Work) strengthsOf(b lab.Bath) []*Bath {
	for _, s := range w.Subjects {
		if s.Def.ID == b.Def().ID {
			return s.Strengths
		}
	}
	return nil
}
