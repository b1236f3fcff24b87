package work

import (
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
)

// filled is what goes into a vessel, worked out once.
func (w *Work) filled(b lab.Bath, v capacity.Vessel) capacity.Fill {
	key := b.Ref() + " " + v.Key + " " + v.Fill.Text()
	if f, ok := w.fillOf[key]; ok {
		return f
	}
	f := capacity.FillOf(w.mix, b, v)
	w.fillOf[key] = f
	return f
}

// vesselsFor lists the vessels in which a strength may stand: those of the
// processes it is used in, else all.
func (w *Work) vesselsFor(b lab.Bath) []capacity.Vessel {
	tanks, trays := capacity.Vessels(w.lab)
	bases := w.basesOf(b)
	decl := b.Decl()
	film, paper := bases["film"], bases["resin-coated"] || bases["fibre"] || bases["uncoated"]
	if decl != nil && decl.Use == "tray" {
		paper = true
	}
	if decl != nil && decl.Needs.Given() {
		film = true
	}
	if !film && !paper {
		// A strength that no process uses, beside one that they do use, is not
		// offered for film tanks: it may be too weak for them.
		bases = w.siblings(b)
		film, paper = len(bases) == 0, true
		if decl != nil && decl.Dilute.None() && bases["film"] {
			film, paper = true, len(bases) > 1 // as strong as what they do use
		}
	}
	var out []capacity.Vessel
	if film {
		out = append(out, tanks...)
	}
	if paper {
		for _, v := range trays {
			if w.lies(v, bases) {
				out = append(out, v)
			}
		}
	}
	return out
}

// lies reports whether a print on one of the bases lies flat in a tray; where the use of
// the bath says nothing, it may.
func (w *Work) lies(v capacity.Vessel, bases map[lab.Base]bool) bool {
	said := false
	for _, m := range w.lab.Materials {
		if m.Base == "film" || !bases[m.Base] {
			continue
		}
		said = true
		if slices.ContainsFunc(capacity.Formats(w.lab, m), v.Fits) {
			return true
		}
	}
	return !said
}

// siblings are the bases that the other strengths of a bath are used for.
func (w *Work) siblings(b lab.Bath) map[lab.Base]bool {
	out := map[lab.Base]bool{}
	for _, x := range w.Baths {
		if x.Def().ID == b.Def().ID {
			for _, base := range x.Bases {
				out[base] = true
			}
		}
	}
	return out
}

// basesOf are the bases of the processes that use a bath.
func (w *Work) basesOf(b lab.Bath) map[lab.Base]bool {
	out := map[lab.Base]bool{}
	for _, base := range w.Bath(b.Ref()).Bases {
		out[base] = true
	}
	return out
}

// on reports a bath that a process of a base uses.
func (w *Work) on(b lab.Bath, base lab.Base) bool {
	return slices.Contains(w.Bath(b.Ref()).Bases, base)
}

// TankFills is how many times what is left in a bottle fills one tank with a strength that
// is used once.
type TankFills struct {
	Bath *Bath
	// Vessel is the tank; OtherFill: it is filled otherwise for another family of films.
	Vessel    Vessel
	OtherFill bool
	N         *figure.Record
}

// fillsLeft is the same for every tank and every such strength that is drawn from a bottle
// which may be used.
func (w *Work) fillsLeft(b *Bottle) {
	if !b.Usable() {
		return
	}
	for _, x := range w.Baths {
		if x.Dilution == nil || x.Dilution.From.Ref() != b.Bath.Ref() || x.Written().Use != "one-shot" {
			continue
		}
		told := map[string]bool{}
		for _, f := range x.Dilution.Fills {
			id := figure.ID(b.ID, "fills", x.Ref(), tankOf(f.Vessel), mix.Tag(f.Vessel.Fill.Exact()))
			if f.Vessel.Tray || told[id] {
				continue
			}
			told[id] = true
			other := slices.ContainsFunc(x.Dilution.Fills, func(o Filling) bool {
				return tankOf(o.Vessel) == tankOf(f.Vessel) && o.Vessel.Fill.Text() != f.Vessel.Fill.Text()
			})
			if n := capacity.FillsLeft(w.mix, id, b.Left, f.Fill); n != nil {
				b.Fills = append(b.Fills, TankFills{Bath: x, Vessel: f.Vessel, OtherFill: other, N: n})
			}
		}
	}
}
