package shelf

import (
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// Standing is what stands on the shelf of one strength on the binder's day.
type Standing struct {
	Dead, Unsure, Usable []Batch
	// Left is the figure of what the usable batches hold together, Exact the same
	// in ml; nil where the log of one of them does not tell.
	Left  string
	Exact *big.Rat
}

// Usable reports whether a batch may be used on the binder's day.
func (b Batch) Usable() bool { return b.Answer == Good || b.Answer == Dying }

// Stands gathers the batches of a strength.
func Stands(book *figure.Ledger, batches []Batch, ref string) Standing {
	var s Standing
	var left []figure.Figure[unit.Volume]
	s.Exact = new(big.Rat)
	for _, b := range batches {
		switch {
		case b.Bath.Ref() != ref:
			continue
		case b.Answer == Dead:
			s.Dead = append(s.Dead, b)
			continue
		case !b.Usable():
			s.Unsure = append(s.Unsure, b)
			continue
		}
		s.Usable = append(s.Usable, b)
		if b.LeftExact == nil || s.Exact == nil {
			s.Exact = nil
			continue
		}
		s.Exact.Add(s.Exact, b.LeftExact)
		r, _ := book.Get(b.Left)
		left = append(left, figure.Entered[unit.Volume](r))
	}
	switch {
	case len(s.Usable) == 1:
		s.Left = s.Usable[0].Left
	case len(s.Usable) == 0 || s.Exact == nil:
	default:
		s.Left = figure.Enter(book, exactly(stand.Of("shelf/stands@"+ref, left...), s.Exact))
	}
	return s
}
