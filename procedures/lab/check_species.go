package lab

import (
	"fmt"
	"math"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
)

// species checks the books of what salts become in water.
func (c *checker) species() {
	known := map[chem.Ion]*Species{}
	for _, b := range c.lab.Species {
		for name, s := range b.Ions {
			if ion, err := chem.ParseIon(name); err == nil && s != nil {
				known[ion] = s
			}
		}
	}
	for _, b := range c.lab.Species {
		for _, name := range sortedKeys(b.Ions) {
			s, at := b.Ions[name], b.At("ion."+keyName(name))
			ion, err := chem.ParseIon(name)
			if err != nil {
				what, hint := chemError(err)
				c.problems = append(c.problems, Problem{At: at, OnKey: true, Code: "ions",
					What: fmt.Sprintf("%q is not an ion: %s", name, what), Hint: hint})
				continue
			}
			if s != nil {
				c.oneSpecies(ion, s, at, known)
			}
		}
	}
}

func (c *checker) oneSpecies(ion chem.Ion, s *Species, at figure.Where, known map[chem.Ion]*Species) {
	sensible(c, s.PK, "-10", "30")
	sensible(c, s.Heat, "-200 kJ/mol", "200 kJ/mol")
	sensible(c, s.Size, "0.1 nm", "2 nm")
	sensible(c, s.Linear, "-1", "1")
	if len(s.Curve) > 6 || len(s.Gas) > 6 {
		c.add(at, "shape", "more than six coefficients",
			"write a, b, c, d, e, f of a + b*T + c/T + d*log10(T) + e/T^2 + f*T^2, T in kelvin")
	}
	if len(s.Curve) > 0 && s.PK.Given() && len(s.Curve) <= 6 {
		if v := s.At(25); math.Abs(v-float64(s.PK.Value())) > 0.05 {
			c.add(at.At("curve"), "range", fmt.Sprintf("the curve gives %.3f at 25 °C, and pk is %s", v, s.PK.Text()),
				"look for a sign or a digit: the curve gives pk, the negative logarithm, with T in kelvin")
		}
	}
	water := ion.String() == "OH-"
	step := s.Gives != "" || len(s.Of) > 0
	switch {
	case s.Gives != "" && len(s.Of) > 0:
		c.add(at.At("of"), "shape", "gives and of exclude each other",
			"keep one: gives for what it is without a proton, of for what it is put together from")
	case len(s.Of) > 1:
		c.add(at.At("of"), "shape", "put together from more than one kind", `write one species with how many of it: of = { "B(OH)3" = 3 }`)
	case step && !s.PK.Given():
		c.problems = append(c.problems, Problem{At: at, OnKey: true, Code: "missing", What: "a step without its constant", Hint: `write pk = "7.17 +- 0.06", for 25 °C and water without other salts`})
	case !step && s.PK.Given() && !water:
		c.add(s.PK.Where(), "missing", "a constant, and nobody said of which step", `write gives = "…", what is left when a proton has gone`)
	case step:
		c.step(ion, s, at, known)
	}
}

// pair holds a pair of two ions against the atoms and charges of both.
func (c *checker) pair(ion, other chem.Ion, n int, s *Species, at figure.Where, known map[chem.Ion]*Species) {
	with, err := chem.ParseIon(s.With)
	partner := known[with]
	switch {
	case err != nil || partner == nil:
		c.add(at.At("with"), "reference", fmt.Sprintf("there is no ion %q in a species.toml", s.With),
			fmt.Sprintf("write [ion.%q] as well", s.With))
	case s.Gives != "" || n != 1:
		c.add(at.At("with"), "shape", "a pair is put together from one of each", `write of = { "SO4-2" = 1 } and with = "Na+"`)
	case partner.Gives != "" || len(partner.Of) > 0:
		c.add(at.At("with"), "shape", fmt.Sprintf("%s exchanges protons itself", with),
			"pairs are reckoned with ions that do not, such as Na+")
	default:
		if err := chem.Pairs(ion, other, with); err != nil {
			what, hint := chemError(err)
			c.add(at.At("with"), "ions", fmt.Sprintf("%s is not %s and %s together: %s", ion, other, with, what), hint)
		}
	}
}

// step holds what a species becomes against the atoms of both.
func (c *checker) step(ion chem.Ion, s *Species, at figure.Where, known map[chem.Ion]*Species) {
	name, n, key := s.Gives, 1, "gives"
	for of, count := range s.Of {
		name, n, key = of, int(count), "of"
	}
	other, err := chem.ParseIon(name)
	switch {
	case err != nil:
		what, hint := chemError(err)
		c.add(at.At(key), "ions", fmt.Sprintf("%q is not an ion: %s", name, what), hint)
		return
	case known[other] == nil:
		c.add(at.At(key), "reference", fmt.Sprintf("there is no ion %q in a species.toml", name),
			fmt.Sprintf("write [ion.%q] as well", name))
		return
	}
	from, to := ion, other
	if key == "of" {
		from, to = other, ion
	}
	protons, err := chem.Gives(from, n, to)
	if s.With != "" {
		c.pair(ion, other, n, s, at, known)
		return
	}
	if err != nil {
		what, hint := chemError(err)
		c.add(at.At(key), "ions", fmt.Sprintf("%s does not become %s by giving away protons: %s", from, to, what), hint)
		return
	}
	if key == "gives" && protons != 1 {
		c.add(at.At(key), "ions", fmt.Sprintf("%s becomes %s by giving away %d protons, and not one", from, to,
			protons), "write each step as a species of its own")
	}
	for next, seen := s, map[*Species]bool{}; next != nil; {
		if seen[next] {
			c.add(at.At(key), "loop", fmt.Sprintf("this goes round in a circle: %s gives itself", ion),
				"the last species of a family gives nothing")
			return
		}
		seen[next] = true
		after := next.Gives
		for of := range next.Of {
			after = of
		}
		if after == "" {
			return
		}
		i, err := chem.ParseIon(after)
		if err != nil {
			return
		}
		next = known[i]
	}
}
