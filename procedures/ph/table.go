package ph

import (
	"slices"
	"strings"

	"wetside/procedures/chem"
	"wetside/procedures/lab"
)

// Table is what is known of ions: what the books of species say, prepared for reckoning.
type Table struct {
	species  map[chem.Ion]*species
	families []*family
	kept     []*constant // all constants of steps, water's first
	hydrogen shape
	hydroxyl shape
}

// constant is one declared pK.
type constant struct {
	said *lab.Species
	name string
}

// species is one thing in water, as a member of its family: the species that turn into each
// other by protons alone.
type species struct {
	ion   chem.Ion
	shape shape
	fam   *family
	units int // how many of the family's last member it holds
	gives int // how many protons it gives until only the last member is left
	// steps are the constants that lead from the last member to it, each with how often.
	steps map[*constant]int
	gas   []float64
	with  *species // of a pair: the ion that it pairs with
	form  *lab.Species
	name  string
}

// family is the species that turn into each other by giving and taking protons. The first is
// the one that has given away all of them.
type family struct {
	members []*species
}

// acidic reports whether any proton is exchanged in it.
func (f *family) acidic() bool { return len(f.members) > 1 }

var (
	proton, _    = chem.ParseIon("H+")
	hydroxide, _ = chem.ParseIon("OH-")
)

// Read prepares the books of species; a later book has the last word on an ion. The books
// must have passed the lab's checks: what cannot be read is left out.
func Read(books []*lab.SpeciesBook) *Table {
	t := &Table{species: map[chem.Ion]*species{}}
	said := map[chem.Ion]*lab.Species{}
	var order []chem.Ion
	for _, b := range books {
		for name, s := range b.Ions {
			ion, err := chem.ParseIon(name)
			if err != nil || s == nil {
				continue
			}
			if said[ion] == nil {
				order = append(order, ion)
			}
			said[ion] = s
		}
	}
	slices.SortFunc(order, func(a, b chem.Ion) int { return strings.Compare(a.String(), b.String()) })
	for _, ion := range order {
		s := said[ion]
		sp := &species{ion: ion, form: s, name: ion.String(), gas: s.Gas, shape: shape{z: float64(ion.Charge())}}
		if s.Size.Given() {
			sp.shape.size = float64(s.Size.Value()) * 1e6 // mm → nm
		}
		if s.Linear.Given() {
			sp.shape.linear = float64(s.Linear.Value())
		}
		t.species[ion] = sp
	}
	t.hydrogen = t.shapeOf(proton)
	t.hydroxyl = t.shapeOf(hydroxide)
	if w := said[hydroxide]; w != nil {
		t.kept = append(t.kept, &constant{w, hydroxide.String()})
	}
	for _, ion := range order {
		if ion != proton && ion != hydroxide {
			t.place(ion, map[chem.Ion]bool{})
		}
	}
	return t
}

func (t *Table) shapeOf(ion chem.Ion) shape {
	if s := t.species[ion]; s != nil {
		return s.shape
	}
	return shape{z: float64(ion.Charge())}
}

// place puts a species into its family; what it gives or is put together from comes first.
func (t *Table) place(ion chem.Ion, under map[chem.Ion]bool) *species {
	sp := t.species[ion]
	if sp == nil || sp.fam != nil || under[ion] {
		return sp
	}
	under[ion] = true
	from, times := sp.form.Gives, 1
	for name, n := range sp.form.Of {
		from, times = name, int(n)
	}
	parent := (*species)(nil)
	if from != "" {
		if p, err := chem.ParseIon(from); err == nil {
			parent = t.place(p, under)
		}
	}
	if parent == nil || parent.fam == nil || !sp.form.PK.Given() {
		sp.fam = &family{}
		sp.units, sp.steps = 1, map[*constant]int{}
		sp.fam.members = []*species{sp}
		t.families = append(t.families, sp.fam)
		return sp
	}
	k := &constant{sp.form, ion.String()}
	t.kept = append(t.kept, k)
	sp.fam = parent.fam
	sp.units = parent.units * times
	sp.steps = map[*constant]int{}
	for c, n := range parent.steps {
		sp.steps[c] += n * times
	}
	if sp.form.With != "" {
		if w, err := chem.ParseIon(sp.form.With); err == nil {
			sp.with = t.place(w, under)
		}
	}
	switch {
	case sp.with != nil:
		sp.gives = times * parent.gives
		sp.steps[k]--
	case sp.form.Gives != "":
		sp.gives = parent.gives + 1
		sp.steps[k]++ // it holds a proton more
	default:
		lost := times*parent.ion.Charge() - sp.ion.Charge()
		sp.gives = times*parent.gives - lost
		sp.steps[k]-- // it was made by giving away protons
	}
	sp.fam.members = append(sp.fam.members, sp)
	return sp
}
