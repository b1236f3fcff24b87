package work

import (
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Bleaching is whether what fills a tank is enough for the silver of the films in it.
type Bleaching struct {
	capacity.Bleaching
	// Of is the format and the materials.
	Of Alike
}

// bleaching is the stage of permanganate bleaches: for each tank, full of each film that the processes
// which use the bleach take in a month, or without that of every film.
func (w *Work) bleaching() {
	tanks, _ := capacity.Vessels(w.lab)
	for _, b := range w.Baths {
		if b.Role() != "bleach" || len(b.UsedIn) == 0 {
			continue
		}
		for _, c := range w.mix.Made(b.Bath).Contents {
			formula, err := chem.Parse(c.Chemical.Forms[c.Form].Formula)
			if err != nil || c.Chemical.InWater(c.Form)["MnO4-"] == 0 {
				continue
			}
			molar := figure.Constant(unit.Molar(formula.MolarMass()), "molar mass of "+formula.String(),
				"IUPAC/CIAAW 2021", figure.Standard)
			kinds := capacity.Kinds(w.lab, b.Bath, w.bleached(b))
			for _, v := range tanks {
				var full []capacity.Bleaching
				others := map[string][]*lab.Material{} // by the format that stands for them
				for _, k := range kinds {
					f := k.Format
					if v.Takes.N == 0 || !v.Fits(f) {
						continue
					}
					tank, _, _ := strings.Cut(v.Key, ",")
					if x, ok := capacity.Bleach(w.mix, c, molar, v, f,
						figure.ID(b.Ref(), "enough-bleach", f.Ref(), tank)); ok {
						full = append(full, x)
						others[f.Ref()] = k.Others
					}
				}
				kept, of := oneRow(w, full, -1, func(x capacity.Bleaching) capacity.Kind {
					return capacity.Kind{Format: x.Format, Others: others[x.Format.Ref()]}
				},
					func(x, y capacity.Bleaching) bool {
						return x.Few == y.Few && sameRecord(x.Holds, y.Holds) && sameRecord(x.Needs, y.Needs) &&
							sameRecord(x.Times, y.Times)
					})
				for i, x := range kept {
					b.Bleaching = append(b.Bleaching, Bleaching{x, of[i]})
				}
			}
		}
	}
}

// bleached are the formats that go through a bleach.
func (w *Work) bleached(b *Bath) []capacity.Format {
	use := w.useOf(b.Bath)
	var out, all []capacity.Format
	for _, base := range b.Bases {
		for _, m := range w.lab.OfBase(base) {
			for _, f := range w.formats(m) {
				all = append(all, f)
				if use.Names(f) {
					out = append(out, f)
				}
			}
		}
	}
	if len(out) == 0 {
		return all
	}
	return out
}
