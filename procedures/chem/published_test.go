package chem

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wetside/testdata/published"
)

func parse(t *testing.T, s string) Formula {
	t.Helper()
	f, err := Parse(s)
	require.NoError(t, err, s)
	return f
}

func molar(t *testing.T, s string) float64 {
	t.Helper()
	return float64(parse(t, s).MolarMass())
}

func TestAtomicWeightsArePublished(t *testing.T) {
	list := published.Open(t, "atomic_weights.tsv")
	require.Len(t, list.IDs(), 33)
	require.Len(t, weights, 33)
	for _, w := range weights {
		r := list.Row("aw_" + w.symbol)
		assert.Equal(t, "element "+w.symbol, r.Inputs)
		assert.Equal(t, "g/mol", r.Unit, w.symbol)
		assert.Equal(t, MolarMass(r.Want), w.value, w.symbol)
		assert.Equal(t, MolarMass(r.Tolerance), w.uncertainty, w.symbol)
		assert.NotContains(t, others, " "+w.symbol+" ")
	}
	assert.Len(t, strings.Fields(others), 118-len(weights), "118 elements are known")
}

var (
	formulaIn = regexp.MustCompile(`formula ([^;]+)`)
	casIn     = regexp.MustCompile(`CAS ([0-9-]+)`)
	massIn    = regexp.MustCompile(`M\((.+?)\) = ([0-9.]+)`)
)

func TestMolarMassesArePublished(t *testing.T) {
	list := published.Open(t, "molar_masses.tsv")
	ratios := map[string][]string{}
	counted := map[string]int{}
	for _, id := range list.IDs() {
		r := list.Row(id)
		t.Run(id, func(t *testing.T) {
			switch {
			case strings.HasPrefix(r.ID, "hr"):
				masses := massIn.FindAllStringSubmatch(r.Inputs, -1)
				if masses == nil {
					pair := ratios[strings.TrimPrefix(r.Inputs, "as ")]
					require.Len(t, pair, 2, r.Inputs)
					got, err := HydrateRatio(parse(t, pair[0]), parse(t, pair[1]))
					require.NoError(t, err)
					assert.InDelta(t, r.Want, got, r.Tolerance)
					if !strings.Contains(pair[1], "·") {
						assert.InDelta(t, 100*(1-r.Want), MassPercentWater(parse(t, pair[0])), 100*r.Tolerance)
						counted["water"]++
					}
					counted["inverse"]++
					return
				}
				require.Len(t, masses, 2)
				for _, m := range masses {
					printed, err := strconv.ParseFloat(m[2], 64)
					require.NoError(t, err)
					assert.InDelta(t, printed, molar(t, m[1]), 0.0005, m[1])
				}
				hydrate, salt := masses[0][1], masses[1][1]
				ratios[r.ID] = []string{hydrate, salt}
				got, err := HydrateRatio(parse(t, salt), parse(t, hydrate))
				require.NoError(t, err)
				assert.InDelta(t, r.Want, got, r.Tolerance)
				counted["ratio"]++
			default:
				written := formulaIn.FindStringSubmatch(r.Inputs)
				require.NotNil(t, written, r.Inputs)
				assert.InDelta(t, r.Want, molar(t, written[1]), r.Tolerance)
				assert.Equal(t, written[1], parse(t, written[1]).String())
				if strings.Contains(r.Quantity, "older atomic weights") {
					counted["older weights"]++
					return
				}
				cas := casIn.FindStringSubmatch(r.Inputs)
				require.NotNil(t, cas, r.Inputs)
				assert.NoError(t, CASValid(cas[1]))
				counted["mass"]++
			}
		})
	}
	assert.Equal(t, map[string]int{"mass": 73, "older weights": 73, "ratio": 19, "inverse": 19, "water": 18}, counted)
	assert.Len(t, list.IDs(), 184)
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{
		"Na2S2O3·5H2O", "Na2CO3.10H2O", "(NH4)2S2O3", "KAl(SO4)2*12H2O", "K4[Fe(CN)6]·3H2O",
		"(C7H9NO)2.H2SO4", "[(CH3)2NH2]Cl", "Na₂SO₃ · 7 H₂O", "X.2HCl.H2O", "NaHSO4.(H2O)2", "O.HOH.H2O",
		"", "NA", "(", "[)", "Na0", "Na02", "Fe(III)", "·", "H2O.5", "\xff", "C10000", "((C9999)9999)9999", "B(I1)", "B(I)1", "B((I)2)",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		got, err := Parse(s)
		if err != nil {
			var e *Error
			require.ErrorAs(t, err, &e)
			require.GreaterOrEqual(t, e.Offset, 0)
			require.LessOrEqual(t, e.Offset, len([]rune(s)))
			require.NotEmpty(t, e.What)
			require.NotEmpty(t, e.Hint)
			return
		}
		m := float64(got.MolarMass())
		require.Greater(t, m, 1.0)
		require.False(t, math.IsInf(m, 0))
		again, err := Parse(got.String())
		require.NoError(t, err, got.String())
		require.Equal(t, got.Elements(), again.Elements())
		require.Equal(t, got.String(), again.String())
		dry, waters := got.Anhydrous()
		require.InDelta(t, m, float64(dry.MolarMass())+18.015*float64(waters), 1e-9*m)
		share := MassPercentWater(got)
		require.True(t, share >= 0 && share < 100, share)
	})
}
