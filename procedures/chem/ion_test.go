package chem

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestParseIon(t *testing.T) {
	for _, c := range []struct {
		in, text string
		charge   int
	}{
		{"H+", "H+", 1},
		{"Na+1", "Na+", 1},
		{"CO3-2", "CO3-2", -2},
		{"Al+3", "Al+3", 3},
		{"Fe(CN)6-4", "Fe(CN)6-4", -4},
		{"[Fe(CN)6]-3", "[Fe(CN)6]-3", -3},
		{"CH3COO-", "CH3COO-", -1},
		{"S₂O₃-2", "S2O3-2", -2},
		{"B(OH)3", "B(OH)3", 0},
	} {
		ion, err := ParseIon(c.in)
		require.NoError(t, err, c.in)
		assert.Equal(t, c.text, ion.String(), c.in)
		assert.Equal(t, c.charge, ion.Charge(), c.in)
		again, err := ParseIon(ion.String())
		require.NoError(t, err)
		assert.Equal(t, ion, again, "what is printed reads as itself")
	}
}

func TestParseIonErrors(t *testing.T) {
	for _, c := range []struct {
		in   string
		at   int
		what string
	}{
		{"", 0, "no formula is written"},
		{"+", 0, "no formula is written"},
		{"CO3--", 4, "something else stands behind the sign"},
		{"CO3-2H", 5, "something stands behind the charge"},
		{"CO3²⁻", 4, "a charge that is not written with + or -"},
		{"CO3^-2", 3, "a charge that is not written with + or -"},
		{"Na+0", 3, "a count of zero"},
		{"Na+9", 3, "a charge of 9"},
		{"Nz+", 0, `"Nz" is not an element`},
		{"na+", 0, "an element begins with a capital letter"},
		{"Na·H2O+", 2, "an ion in parts"},
		{"NaCl·HCl-", 4, "an ion in parts"},
	} {
		_, err := ParseIon(c.in)
		var e *Error
		require.ErrorAs(t, err, &e, c.in)
		assert.Equal(t, c.at, e.Offset, c.in)
		assert.Equal(t, c.what, e.What, c.in)
		assert.NotEmpty(t, e.Hint, c.in)
	}
}

// TestDissociates: balances that anybody can count by hand; the waters are those that an
// acid or an anhydride takes up.
func TestDissociates(t *testing.T) {
	for _, c := range []struct {
		salt string
		ions map[string]int
		why  string
	}{
		{"Na2CO3·10H2O", map[string]int{"Na+": 2, "CO3-2": 1}, ""},
		{"Na2S2O5", map[string]int{"Na+": 2, "HSO3-": 2}, ""},
		{"Na2B4O7·10H2O", map[string]int{"Na+": 2, "B(OH)3": 2, "B(OH)4-": 2}, ""},
		{"C6H8O7·H2O", map[string]int{"C6H5O7-3": 1, "H+": 3}, ""},
		{"CH4N2S", map[string]int{"CH4N2S": 1}, ""},
		{"Na2CO3", map[string]int{"Na+": 1, "CO3-2": 1}, "their charges add up to -1"},
		{"Na2CO3", map[string]int{"Na+": 2, "SO3-2": 1}, "1 C too few, 1 S too many"},
		{"NaCl", map[string]int{"Na+": 1, "Cl-": 1, "O2": 1}, "2 O too many"},
		{"NaCl", map[string]int{"Na+": 1, "Cl-": 1, "H+": 1, "OH-": 1}, ""},
		{"NaOH", map[string]int{"Na+": 1, "H-": 1}, "1 O too few"},
		{"NaH", map[string]int{"Na+": 1, "OH-": 1}, "1 O too many"},
		{"C6H8O7", map[string]int{"C6H4O6-2": 1, "H+": 2}, "2 H too few, 1 O too few"},
	} {
		ions := map[Ion]int{}
		for text, n := range c.ions {
			ion, err := ParseIon(text)
			require.NoError(t, err, text)
			ions[ion] = n
		}
		err := Dissociates(parse(t, c.salt), ions)
		if c.why == "" {
			assert.NoError(t, err, c.salt)
			continue
		}
		var e *Error
		require.ErrorAs(t, err, &e, c.salt)
		assert.Equal(t, c.why, e.What, c.salt)
	}
}

// TestGives: steps of acids that anybody can count by hand.
func TestGives(t *testing.T) {
	for _, c := range []struct {
		from string
		n    int
		to   string
		gave int
		why  string
	}{
		{"HSO3-", 1, "SO3-2", 1, ""},
		{"SO2", 1, "HSO3-", 1, ""},
		{"B(OH)3", 1, "B(OH)4-", 1, ""},
		{"B(OH)3", 4, "B4O5(OH)4-2", 2, ""},
		{"Ca+2", 1, "CaOH+", 1, ""},
		{"SO3-2", 1, "HSO3-", -1, ""},
		{"HSO3-", 1, "SO4-2", 1, "2 H too few"},
		{"HSO3-", 1, "CO3-2", 1, "1 C too many, 1 S too few"},
		{"B(OH)3", 3, "B4O5(OH)4-2", 2, "1 B too many, 3 H too few"},
	} {
		from, err := ParseIon(c.from)
		require.NoError(t, err)
		to, err := ParseIon(c.to)
		require.NoError(t, err)
		gave, err := Gives(from, c.n, to)
		assert.Equal(t, c.gave, gave, "%s to %s", c.from, c.to)
		if c.why == "" {
			assert.NoError(t, err, "%s to %s", c.from, c.to)
			continue
		}
		var e *Error
		require.ErrorAs(t, err, &e, "%s to %s", c.from, c.to)
		assert.Equal(t, c.why, e.What, "%s to %s", c.from, c.to)
	}
}

// TestPairs: two ions that go together, counted by hand.
func TestPairs(t *testing.T) {
	for _, c := range []struct{ pair, one, other, why string }{
		{"NaSO4-", "SO4-2", "Na+", ""},
		{"KSO4-", "SO4-2", "K+", ""},
		{"NaSO4", "SO4-2", "Na+", "its charge is +0, and theirs add up to -1"},
		{"NaSO3-", "SO4-2", "Na+", "1 O too few"},
		{"KSO4-", "SO4-2", "Na+", "1 K too many, 1 Na too few"},
	} {
		ions := make([]Ion, 3)
		for i, text := range []string{c.pair, c.one, c.other} {
			var err error
			ions[i], err = ParseIon(text)
			require.NoError(t, err, text)
		}
		err := Pairs(ions[0], ions[1], ions[2])
		if c.why == "" {
			assert.NoError(t, err, c.pair)
			continue
		}
		var e *Error
		require.ErrorAs(t, err, &e, c.pair)
		assert.Equal(t, c.why, e.What, c.pair)
	}
}

func FuzzParseIon(f *testing.F) {
	for _, s := range []string{"Na+", "CO3-2", "[Fe(CN)6]-4", "B(OH)3", "CO3²⁻", "+", "-", "Na·H2O+"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		ion, err := ParseIon(s)
		if err != nil {
			var e *Error
			require.ErrorAs(t, err, &e)
			require.GreaterOrEqual(t, e.Offset, 0)
			require.LessOrEqual(t, e.Offset, len([]rune(s)))
			return
		}
		again, err := ParseIon(ion.String())
		require.NoError(t, err, "%q was read from %q", ion, s)
		require.Equal(t, ion, again)
		require.False(t, strings.ContainsAny(ion.String(), " ·"))
	})
}
