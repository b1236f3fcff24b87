package work

import (
	"wetside/procedures/lab"
	"wetside/procedures/mix"
)

// Lime is what the lime of tap water takes of what binds it in a strength.
type Lime = mix.Lime

// lime is the stage of the lime of tap water in what is worked in.
func (w *Work) lime() {
	for _, b := range w.Baths {
		if b.Concentrate || b.Strength == lab.Supplied {
			continue
		}
		if x, ok := w.mix.LimeIn(w.mix.Made(b.Bath)); ok {
			b.Lime = &x
		}
	}
}
