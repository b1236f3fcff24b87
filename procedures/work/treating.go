package work

import (
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
)

// treats works out how much the bath of a step treats, where somebody counts it: of one
// that goes back to its bottle, and of two where the next takes the place of the first.
func (w *Work) treats(p *Process, i int) {
	s := p.Steps[i]
	d := s.Bath.Decl()
	switch {
	case s.Decl.Waste != "" || d == nil:
	case d.Use == "re-use" || d.Use == "replenish":
		if p.Any {
			s.Treats = w.treatsAny(p, i)
		} else {
			s.Treats = w.treatsByRun(p, i)
		}
	case s.Decl.Place > 0 && !p.Any && len(d.Limits) > 0:
		s.Treats = w.treatsByRun(p, i)
	}
}

// treatsAny is what a litre of a bath treats of what a process without materials is
// mostly used for.
func (w *Work) treatsAny(p *Process, i int) *Treating {
	s := p.Steps[i]
	var mine []passing
	for _, x := range w.passings(s.Bath.Bath) {
		if x.Format.Material.Base == p.Decl.Base && (x.place == 0 || x.place == max(int(s.Decl.Place), 1)) {
			mine = append(mine, x)
		}
	}
	if len(mine) == 0 {
		return &Treating{}
	}
	switch x := w.capacityFor(s.Bath.Bath, Litre, w.mostUsed(s.Bath.Bath, mine)); {
	case x.ByUses():
		return &Treating{Uses: x.Uses}
	case x.NoWhy != "":
		return &Treating{NoWhy: x.NoWhy}
	default:
		return &Treating{N: x.N, Format: lab.InSides(x.Format.ID)}
	}
}

// treatsByRun is how many of its own format each run may put through a litre of a bath at
// a place of two.
func (w *Work) treatsByRun(p *Process, i int) *Treating {
	s := p.Steps[i]
	all := w.capacitiesOf(s.Bath.Bath, Litre)
	for _, x := range all {
		if x.ByUses() && x.Format.Material.Base == p.Decl.Base {
			return &Treating{Uses: x.Uses}
		}
	}
	out := &Treating{}
	for _, r := range p.Runs {
		var least *capacity.Capacity
		for _, p := range w.throughOf(s.Bath.Bath, r.Material) {
			here := p.place == 0 || p.place == max(int(s.Decl.Place), 1)
			if !here || !w.fits(r, p.Format) {
				continue
			}
			x := w.capacityFor(s.Bath.Bath, Litre, p)
			if x.N == nil || x.NoWhy != "" {
				continue
			}
			// One vessel may take two formats: the lower number holds for both.
			if least == nil || x.Count < least.Count {
				least = &x
			}
		}
		step := &r.Steps[i]
		if least == nil {
			step.Of, step.Treats = w.word("no-format", "for this film"), w.word("ask", "ask first")
			continue
		}
		out.ByRun = true
		step.Of = w.text(figure.ID("word", "format."+least.Format.ID), "the format", "of "+lab.InSides(least.Format.ID),
			figure.Standard, nil)
		step.Treats = least.N
	}
	return out
}

// fits reports whether a format goes into the vessel of a run, filled as it is.
func (w *Work) fits(r *Run, f capacity.Format) bool {
	if r.Vessel.Tray {
		return r.Vessel.Fits(f)
	}
	tanks, _ := capacity.Vessels(w.lab)
	for _, v := range tanks {
		if tankOf(v) == tankOf(r.Vessel) && v.Fill.Text() == r.Vessel.Fill.Text() && v.Family == f.Decl.Family {
			return true
		}
	}
	return false
}
