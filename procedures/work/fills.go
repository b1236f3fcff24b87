package work

import (
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/lab"
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
