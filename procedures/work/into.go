package work

import "slices"

// madeWith are the solutions of this lab that a strength is poured or weighed into.
func (w *Work) madeWith(b *Bath) []*Bath {
	var out []*Bath
	for _, x := range w.Baths {
		s := x.Solution
		if s == nil || x.Strength != s.MadeStrength() {
			continue
		}
		for _, step := range s.Steps {
			ing, bad := w.lab.Resolve(step.Add, s.At("step"))
			if len(bad) == 0 && !ing.Bath.Zero() && ing.Bath.Ref() == b.Ref() && !slices.Contains(out, x) {
				out = append(out, x)
			}
		}
	}
	return out
}
