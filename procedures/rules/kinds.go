package rules

import (
	"slices"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Kinds are the keys of what something is: its own, and every group that holds it.
type Kinds struct {
	has map[string]bool
}

// Any reports whether it is one of some keys; the key of a group is its id.
func (k Kinds) Any(keys ...string) bool {
	return slices.ContainsFunc(keys, func(id string) bool { return k.has[id] })
}

// OfID is what a chemical, a product or a solution is by its id alone.
func (r *Rules) OfID(id string) Kinds {
	k := Kinds{map[string]bool{}}
	r.add(k, def(id))
	return r.whole(k)
}

// Together is what several things are together.
func (r *Rules) Together(list ...Kinds) Kinds {
	k := Kinds{map[string]bool{}}
	for _, one := range list {
		for id := range one.has {
			k.has[id] = true
		}
	}
	return r.whole(k)
}

// OfChemical is what a chemical is, by its id, and by its name where a group knows
// it: a lab's own file of a common substance needs no rule of its own.
func (r *Rules) OfChemical(c *lab.Chemical) Kinds {
	k := Kinds{map[string]bool{}}
	r.chemical(k, c)
	return r.whole(k)
}

func (r *Rules) chemical(k Kinds, c *lab.Chemical) {
	r.add(k, def(c.ID))
	r.name(k, c.Name)
}

func (r *Rules) name(k Kinds, name string) {
	for _, g := range r.names[lab.NameKey(name)] {
		r.add(k, g)
	}
}

// OfName is what a substance without a file is, by its name on a supplier's sheet.
func (r *Rules) OfName(name string) Kinds {
	k := Kinds{map[string]bool{}}
	r.name(k, name)
	return r.whole(k)
}

// OfBath is what everything in a bath is together. A bath at pH 2 or less is a
// strong acid, one at pH 11.5 or more a strong alkali (the limits from
// which such a mixture counts as corrosive: CLP, Annex I, 3.2.3.1.2, from memory);
// what is made of such a bath counts as one too.
func (r *Rules) OfBath(list ...lab.Bath) Kinds {
	all := make([]Kinds, len(list))
	for i, b := range list {
		all[i] = r.ofBath(b)
	}
	if len(all) == 1 {
		return all[0]
	}
	return r.Together(all...)
}

// ofBath works out what one bath is, once.
func (r *Rules) ofBath(b lab.Bath) Kinds {
	if b.Zero() {
		return Kinds{}
	}
	if k, ok := r.baths[b.Ref()]; ok {
		return k
	}
	k := Kinds{map[string]bool{}}
	r.leaves([]lab.Bath{b}, leaf{
		bath: func(b lab.Bath) {
			r.add(k, def(b.Def().ID))
			if id := b.Waste(); id != "" {
				r.add(k, route(id))
			}
			if low, high, known := r.howAcid(b); known && low <= StrongAcid {
				r.add(k, "acid-strong")
			} else if known && high >= StrongAlkali {
				r.add(k, "alkali-strong")
			}
		},
		chemical: func(c *lab.Chemical) { r.chemical(k, c) },
		name:     func(name string) { r.name(k, name) },
	})
	k = r.whole(k)
	r.baths[b.Ref()] = k
	return k
}

// HowAcid tells the rules the bounds of the pH of a bath that somebody has worked out.
func (r *Rules) HowAcid(b lab.Bath, low, high unit.Factor) {
	r.acidity[b.Ref()] = [2]unit.Factor{low, high}
	clear(r.baths) // what others are made from this one may be something else now
	r.here = Kinds{}
}

// howAcid are the bounds of the pH of a bath: as somebody has written it, else as it was
// worked out.
func (r *Rules) howAcid(b lab.Bath) (low, high unit.Factor, known bool) {
	if q := b.PH(); q.Given() {
		return q.Low(), q.High(), true
	}
	of, known := r.acidity[b.Ref()]
	return of[0], of[1], known
}

// StrongAcid and StrongAlkali are the limits of pH from which a mixture counts as strongly
// acid or alkaline, and burns.
const (
	StrongAcid   = 2
	StrongAlkali = 11.5
)

// add adds an id and every group above it.
func (r *Rules) add(k Kinds, id string) {
	if k.has[id] {
		return
	}
	k.has[id] = true
	for _, g := range r.up[id] {
		r.add(k, g)
	}
}

// whole adds the groups of which something of every part is there.
func (r *Rules) whole(k Kinds) Kinds {
	for again := true; again; {
		again = false
		for _, id := range r.order {
			all := r.groups[id].all
			if len(all) == 0 || k.has[id] || slices.ContainsFunc(all, func(part string) bool { return !k.has[part] }) {
				continue
			}
			r.add(k, id)
			again = true
		}
	}
	return k
}
