// Package chem reads chemical formulas as they stand on a pack, works out molar
// masses from the standard atomic weights, swaps one hydrate of a salt for
// another and checks CAS numbers. It knows compositions, not substances: two
// isomers are the same to it, and a formula that is spelt correctly but belongs
// to something else (Co for CO) goes through.
package chem

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strconv"
)

// MolarMass is a mass per amount of substance, in g/mol.
type MolarMass float64

// Count is an element and the number of its atoms in one unit of a formula.
type Count struct {
	Symbol string
	N      int
}

// Formula is the composition of a salt and its water of crystallisation. The
// zero value is empty; Parse makes the others.
type Formula struct {
	text   string  // the salt, normalised
	salt   []Count // Hill order
	waters int
}

// Elements returns the atoms of one formula unit, water included, in Hill
// order: carbon, hydrogen, then the others by their symbols; all by their
// symbols where there is no carbon. The slice belongs to the caller.
func (f Formula) Elements() []Count {
	counts := slices.Clone(f.salt)
	if f.waters > 0 {
		counts = add(counts, water(f.waters), 1)
		hill(counts)
	}
	return counts
}

// Anhydrous returns the formula without its water of crystallisation, and how
// many waters one unit of the salt had. A part after a dot that is not water
// belongs to the salt, as the acid in (C7H9NO)2·H2SO4 does; so does water
// inside brackets of the salt itself, as in [Cr(H2O)6]Cl3.
func (f Formula) Anhydrous() (Formula, int) {
	return Formula{text: f.text, salt: f.salt}, f.waters
}

// MolarMass returns the mass of one mole of formula units in g/mol, water
// included, from the IUPAC/CIAAW abridged standard atomic weights of 2021. It
// is 0 for the empty formula.
func (f Formula) MolarMass() MolarMass {
	var sum MolarMass
	for _, c := range f.Elements() {
		sum += MolarMass(float64(c.N) * float64(weightOf[c.Symbol]))
	}
	return sum
}

// String returns the formula with plain digits and a raised dot, waters summed
// up and last: Na2CO3·10H2O. Brackets stay where they were written.
func (f Formula) String() string {
	switch f.waters {
	case 0:
		return f.text
	case 1:
		return f.text + "·H2O"
	}
	return f.text + "·" + strconv.Itoa(f.waters) + "H2O"
}

// HydrateRatio returns the mass of to that holds as much salt as 1 g of from:
// M(to)/M(from), each per mole of the same anhydrous salt. It returns an error
// if a formula is empty or if the two differ in more than their water. Source:
// mass balance.
func HydrateRatio(from, to Formula) (float64, error) {
	if len(from.salt) == 0 || len(to.salt) == 0 {
		return 0, errors.New("an empty formula has no salt to compare")
	}
	if !slices.Equal(from.salt, to.salt) {
		return 0, fmt.Errorf("%s and %s are not forms of one salt: without water they are %s and %s", from, to,
			from.text, to.text)
	}
	return float64(to.MolarMass() / from.MolarMass()), nil
}

// MassPercentWater returns the water of crystallisation in % of the mass of f,
// from 0 to below 100. It is 0 for water itself, which is nobody's hydrate.
func MassPercentWater(f Formula) float64 {
	if f.waters == 0 {
		return 0
	}
	m := Formula{salt: water(f.waters)}.MolarMass()
	return 100 * float64(m/f.MolarMass())
}

func water(n int) []Count { return []Count{{"H", 2 * n}, {"O", n}} }

// waterUnits returns how many times H2O the counts are, 0 if they are not.
func waterUnits(counts []Count) int {
	c := slices.Clone(counts)
	hill(c)
	if len(c) == 2 && c[0].Symbol == "H" && c[1].Symbol == "O" && c[0].N == 2*c[1].N {
		return c[1].N
	}
	return 0
}

// add adds n times more to counts.
func add(counts, more []Count, n int) []Count {
	for _, m := range more {
		i := slices.IndexFunc(counts, func(c Count) bool { return c.Symbol == m.Symbol })
		if i < 0 {
			counts = append(counts, Count{m.Symbol, n * m.N})
			continue
		}
		counts[i].N += n * m.N
	}
	return counts
}

// hill sorts counts after E. A. Hill, J. Am. Chem. Soc. 22 (1900) 478-494.
func hill(counts []Count) {
	carbon := slices.ContainsFunc(counts, func(c Count) bool { return c.Symbol == "C" })
	rank := func(symbol string) int {
		switch {
		case carbon && symbol == "C":
			return 0
		case carbon && symbol == "H":
			return 1
		}
		return 2
	}
	slices.SortFunc(counts, func(a, b Count) int {
		return cmp.Or(cmp.Compare(rank(a.Symbol), rank(b.Symbol)), cmp.Compare(a.Symbol, b.Symbol))
	})
}
