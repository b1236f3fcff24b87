package chem

import (
	"fmt"
	"slices"
	"strings"
)

// Ion is what something becomes in water: its atoms and its charge. One without a charge,
// such as boric acid or thiourea, is one, too. Two ions are the same when both are written
// alike after ParseIon.
type Ion struct {
	text   string // the atoms as written, with plain digits
	charge int
}

// mostCharge is the greatest charge that anything in a tray has.
const mostCharge = 8

// ParseIon reads an ion: its formula, then the sign of its charge and, above one, how much:
// Na+, CO3-2, C6H5O7-3, [Fe(CN)6]-4. A proton is H+. Without a sign it has no charge. An
// error is always an *Error.
func ParseIon(s string) (Ion, error) {
	in := []rune(s)
	sign := slices.IndexFunc(in, func(r rune) bool { return strings.ContainsRune("+-−^⁺⁻", r) })
	atoms, charge := in, 0
	if sign >= 0 {
		p := parser{in: in, pos: sign, lastEnd: -1}
		if strings.ContainsRune("−^⁺⁻", in[sign]) {
			return Ion{}, p.fault(sign, "a charge that is not written with + or -", `write the sign and then the number: "CO3-2"`)
		}
		p.pos++
		n := 1
		if p.pos < len(in) {
			if !digit(in[p.pos]) {
				return Ion{}, p.fault(p.pos, "something else stands behind the sign", `the charge comes last, and its sign before the number: "CO3-2"`)
			}
			var err *Error
			if n, err = p.number(); err != nil {
				return Ion{}, err
			}
			if p.pos < len(in) {
				return Ion{}, p.fault(p.pos, "something stands behind the charge", `the charge comes last: "CO3-2"`)
			}
			if n > mostCharge {
				return Ion{}, p.fault(sign+1, fmt.Sprintf("a charge of %d", n), "write the charge of one ion")
			}
		}
		if charge = n; in[sign] == '-' {
			charge = -n
		}
		atoms = in[:sign]
	}
	f, err := Parse(string(atoms))
	if err != nil {
		return Ion{}, err
	}
	if f.waters > 0 || strings.Contains(f.text, "·") {
		return Ion{}, &Error{slices.IndexFunc(atoms, dot), "an ion in parts", "write each part as an ion of its own"}
	}
	return Ion{f.text, charge}, nil
}

// Charge is the charge of the ion in units of a proton's.
func (i Ion) Charge() int { return i.charge }

// Formula is the ion's atoms.
func (i Ion) Formula() Formula {
	f, _ := Parse(i.text) // it was read before
	return f
}

// String returns the ion as ParseIon reads it.
func (i Ion) String() string {
	switch {
	case i.charge == 0:
		return i.text
	case i.charge == 1:
		return i.text + "+"
	case i.charge == -1:
		return i.text + "-"
	}
	return i.text + fmt.Sprintf("%+d", i.charge)
}

// Gives reports, as an *Error, why so many of one species do not become another one by giving
// away protons, and how many they give: the atoms are the same but for those protons and for
// whole waters, which may come or go. Source: balance of atoms and of charge.
func Gives(from Ion, n int, to Ion) (protons int, err error) {
	protons = n*from.charge - to.charge
	left := add(add(nil, to.Formula().Elements(), 1), from.Formula().Elements(), -n)
	left = add(left, []Count{{"H", 1}}, protons)
	waters := 0
	for _, c := range left {
		if c.Symbol == "O" {
			waters = c.N
		}
	}
	if waters != 0 {
		left = add(left, water(1), -waters)
	}
	left = slices.DeleteFunc(left, func(c Count) bool { return c.N == 0 })
	if len(left) == 0 {
		return protons, nil
	}
	hill(left)
	return protons, &Error{What: unbalanced(left),
		Hint: "count the atoms of both; only protons and whole waters may come or go"}
}

// Pairs reports, as an *Error, why an ion is not two others together, one of each. Source:
// balance of atoms and of charge.
func Pairs(pair, one, other Ion) error {
	if pair.charge != one.charge+other.charge {
		return &Error{What: fmt.Sprintf("its charge is %+d, and theirs add up to %+d", pair.charge,
			one.charge+other.charge), Hint: "a pair has the charges of both"}
	}
	left := add(add(add(nil, pair.Formula().Elements(), 1), one.Formula().Elements(), -1), other.Formula().Elements(),
		-1)
	left = slices.DeleteFunc(left, func(c Count) bool { return c.N == 0 })
	if len(left) == 0 {
		return nil
	}
	hill(left)
	return &Error{What: unbalanced(left), Hint: "a pair has the atoms of both"}
}

// unbalanced says what is left over of each element.
func unbalanced(left []Count) string {
	var words []string
	for _, c := range left {
		if c.N > 0 {
			words = append(words, fmt.Sprintf("%d %s too many", c.N, c.Symbol))
		} else {
			words = append(words, fmt.Sprintf("%d %s too few", -c.N, c.Symbol))
		}
	}
	return strings.Join(words, ", ")
}

// Dissociates reports, as an *Error, why a salt does not become these ions in water: the
// atoms of one unit of it, its water of crystallisation left out, and of as many whole
// waters as are needed, are those of the ions, and the charges add up to none. Source:
// balance of atoms and of charge.
func Dissociates(salt Formula, ions map[Ion]int) error {
	var got []Count
	charge := 0
	for ion, n := range ions {
		got = add(got, ion.Formula().Elements(), n)
		charge += n * ion.charge
	}
	if charge != 0 {
		return &Error{What: fmt.Sprintf("their charges add up to %+d", charge),
			Hint: "count each ion of one unit of the salt; the charges add up to none"}
	}
	anhydrous, _ := salt.Anhydrous()
	left := add(got, anhydrous.Elements(), -1)
	left = slices.DeleteFunc(left, func(c Count) bool { return c.N == 0 })
	if len(left) == 0 || waterUnits(left) > 0 {
		return nil
	}
	hill(left)
	return &Error{What: unbalanced(left),
		Hint: "count the atoms of one unit of the salt, without its water of crystallisation; a proton is \"H+\""}
}
