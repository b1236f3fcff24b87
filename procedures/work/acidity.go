package work

import (
	"fmt"
	"math"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/ph"
	"wetside/procedures/rules"
	"wetside/procedures/unit"
)

// Acidity is how acid a strength is at one temperature.
type Acidity struct {
	ph.Acidity
	// Warmth is the temperature.
	Warmth *figure.Record
	// KeptBy are the names of what keeps the pH where it is; empty where it is the strong acid
	// itself, or, if Alkaline, the strong alkali.
	KeptBy   []string
	Alkaline bool
}

// Acid is what is known of how acid a strength is.
type Acid struct {
	// Cool is the pH in a closed bottle at 20 °C.
	Cool Acidity
	// Named is the pH at the one temperature that the strength names, where that is another.
	Named *Acidity
	// Open is the pH of a bath with carbonate in equilibrium with the air, and Fizzing that
	// under pure carbon dioxide, where so much of it is dissolved that it bubbles.
	Open, Fizzing *Acidity
	// Measured is what somebody has written; nil where nobody has.
	Measured *figure.Record
	// Differs: the two lie further apart than both may be off.
	Differs bool
}

// neutral is the pH of pure water, about.
const neutral = 7

// cool is the temperature at which the pH of every strength is worked out.
const cool = 20

// acidity is the stage of how acid every strength is.
func (w *Work) acidity() {
	ask := func(made *mix.Made, at float64, air ph.Air) Acidity {
		out := Acidity{Acidity: w.asker.Of(made, at, air), Warmth: w.worksAt(at)}
		out.Alkaline = out.PH.Value > neutral
		for _, c := range out.Governs {
			out.KeptBy = append(out.KeptBy, c.Chemical.Name)
		}
		return out
	}
	for _, b := range w.Baths {
		made := w.mix.Made(b.Bath)
		a := Acid{Cool: ask(made, cool, ph.Closed)}
		if d := b.Decl(); d != nil {
			if q := d.Temperature.From; q.Given() && !q.Spread() && q.Value() != cool {
				at := ask(made, float64(q.Value()), ph.Closed)
				a.Named = &at
			}
		}
		if a.Cool.Within != nil && !math.IsInf(a.Cool.LogCO2, -1) {
			open := ask(made, cool, ph.Open)
			a.Open = &open
			if a.Cool.LogCO2 > 0 {
				fizzing := ask(made, cool, ph.Fizzing)
				a.Fizzing = &fizzing
			}
		}
		if q := b.PH(); q.Given() {
			g := q.Figure("pH as written")
			a.Measured = figure.Declare(w.mix.Book, figure.ID(b.Ref(), "ph"), figure.KindRatio, g, unit.Spoken(q), "")
			if a.Differs = a.Cool.Differs(q); a.Differs {
				w.Problems = append(w.Problems, lab.Problem{At: q.Where(), Code: "ph", Warning: true,
					What: fmt.Sprintf("the pH of %s is written as %s, and from what is in it comes %s ± %s", b.Name(),
						unit.Spoken(q), a.Cool.PH.Shown, a.Cool.Within.Shown),
					Hint: "measure it once more with fresh paper or a calibrated meter; if it is right, look for a mistake in the amounts"})
			}
		}
		b.Acid = a
		if a.Cool.Within != nil {
			w.mix.Rules.HowAcid(b.Bath, unit.Factor(a.Cool.Low), unit.Factor(a.Cool.High))
		}
	}
	w.acidUndiluted()
}

// acidUndiluted tells the rules that what is diluted to a strong acid or alkali is one itself, where
// nobody can tell its own pH: water brings a pH nearer to neutral.
func (w *Work) acidUndiluted() {
	for _, b := range w.Baths {
		a := b.Acid.Cool
		low, high, known := unit.Factor(a.Low), unit.Factor(a.High), a.Within != nil
		if q := b.PH(); q.Given() {
			low, high, known = q.Low(), q.High(), true
		}
		if !known || low > rules.StrongAcid && high < rules.StrongAlkali {
			continue
		}
		from, _, diluted := b.From()
		for diluted {
			of := w.byRef[from.Ref()]
			if of == nil || of.PH().Given() || of.Acid.Cool.Within != nil {
				break
			}
			w.mix.Rules.HowAcid(of.Bath, low, high)
			from, _, diluted = from.From()
		}
	}
}

// titre is how much alkali, or acid, a litre of a bath takes up until its pH is that one; why says why nobody
// can tell.
func (w *Work) titre(b *Bath, target float64) (n figure.Figure[unit.Molarity], why string) {
	key := titreKey{b.Ref(), target}
	t, asked := w.titres[key]
	if !asked {
		t.n, t.why = w.asker.Titre(w.mix.Made(b.Bath), target)
		w.titres[key] = t
	}
	return t.n, t.why
}

// titreKey is a question of titre, and titreAnswer what came of it.
type (
	titreKey struct {
		ref    string
		target float64
	}
	titreAnswer struct {
		n   figure.Figure[unit.Molarity]
		why string
	}
)
