package work

import (
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Reserve is how much acid of the stop bath before it a fixer takes up that is to stay near neutral.
type Reserve struct {
	// Stop is that bath, with no water between the two.
	Stop *Bath
	// Rolls is how many rolls of film a litre takes at most; nil for prints, and where Why says why nobody can
	// tell. None: it holds no sulfite, which alone would take up acid.
	Rolls *figure.Record
	None  bool
	Why   string

	fixer         *Bath
	sulfite, acid figure.Figure[unit.Molarity]
}

// nearNeutral is the pH below which a fixer is an acid one (our own rule).
const nearNeutral = 6

// reserve finds the first fixer of a process that takes up acid straight from a stop bath; at is its step.
func (w *Work) reserve(p *Process) (out *Reserve, at int) {
	var stop *Bath
	for i, s := range p.Decl.Steps {
		b := p.Baths[i]
		switch {
		case b == nil && !s.Optional && (len(s.Fills) > 0 || s.Flow.Given()):
			stop = nil
		case b == nil:
		case b.Role() == lab.StopBath:
			stop = b
		case b.Role() == lab.Fixer && stop != nil && w.staysNeutral(b):
			return w.reserveOf(stop, b), i
		default:
			stop = nil
		}
	}
	return nil, 0
}

// staysNeutral reports a fixer that is not acid: by its pH, or where nobody knows that, because there is no
// acid in it.
func (w *Work) staysNeutral(b *Bath) bool {
	switch {
	case b.PH().Given():
		return unit.Snap(float64(b.PH().Value())) >= nearNeutral
	case b.Acid.Cool.Within != nil:
		return unit.Snap(b.Acid.Cool.PH.Value) >= nearNeutral
	}
	return b.Dangers.Known.Status != Unknown && !w.mix.Rules.OfBath(b.Bath).Any("acid")
}

// reserveOf is what the fixer takes up, and what the stop bath brings (M8).
func (w *Work) reserveOf(stop, fixer *Bath) *Reserve {
	out := &Reserve{Stop: stop, fixer: fixer}
	made := w.mix.Made(fixer.Bath)
	sulfite, some := capacity.SulfiteIn(w.mix, made)
	switch {
	case !some && (len(made.Unknown) > 0 || len(made.Others) > 0):
		out.Why = "how much sulfite it holds nobody has written"
	case !some:
		out.None = true
	case stop.Acid.Cool.Within == nil:
		out.Why = "the pH of " + stop.Name() + " is not worked out: " + stop.Acid.Cool.PH.Why
	case stop.Acid.Cool.PH.Value >= nearNeutral:
		return nil
	default:
		out.sulfite = sulfite
		out.acid, out.Why = w.titre(stop, nearNeutral)
	}
	return out
}

// neutralRolls says at the fixer of a process on film how many rolls a litre takes until it is acid.
func (w *Work) neutralRolls(p *Process) {
	if p.Decl.Base != lab.Film {
		return
	}
	r, at := w.reserve(p)
	if r == nil {
		return
	}
	p.Steps[at].Reserve = r
	if r.Why == "" && !r.None {
		r.Rolls = capacity.Neutral(w.mix, figure.ID(r.fixer.Ref(), "neutral", "roll", r.Stop.Ref()), r.sulfite,
			capacity.RollCarried(w.mix), r.acid)
	}
}
