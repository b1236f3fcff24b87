package chem

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

type row struct {
	id, quantity, inputs, unit, source string
	expected, tolerance                float64
}

// rows reads a file of published values.
func rows(t *testing.T, name string) []row {
	t.Helper()
	b, err := os.ReadFile(filepath.Join("..", "..", "testdata", "published", name))
	require.NoError(t, err)
	lines := strings.Split(strings.TrimSuffix(string(b), "\n"), "\n")
	require.Equal(t, "id\tquantity\tinputs\texpected\tunit\ttolerance\tsource\tprovenance", lines[0])
	var list []row
	for _, line := range lines[1:] {
		c := strings.Split(line, "\t")
		require.Len(t, c, 8, line)
		r := row{id: c[0], quantity: c[1], inputs: c[2], unit: c[4], source: c[6]}
		r.expected, err = strconv.ParseFloat(c[3], 64)
		require.NoError(t, err, r.id)
		r.tolerance, err = strconv.ParseFloat(c[5], 64)
		require.NoError(t, err, r.id)
		list = append(list, r)
	}
	return list
}

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
	list := rows(t, "atomic_weights.tsv")
	require.Len(t, list, 33)
	published := map[string]row{}
	for _, r := range list {
		symbol := strings.TrimPrefix(r.inputs, "element ")
		published[symbol] = r
		assert.Equal(t, "aw_"+symbol, r.id)
		assert.Equal(t, "g/mol", r.unit, symbol)
	}
	require.Len(t, published, len(list), "a symbol stands twice in the file")
	require.Len(t, weights, len(list))
	seen := map[string]bool{}
	for _, w := range weights {
		r, ok := published[w.symbol]
		require.True(t, ok, "%s is not in the file", w.symbol)
		assert.Equal(t, MolarMass(r.expected), w.value, w.symbol)
		assert.Equal(t, MolarMass(r.tolerance), w.uncertainty, w.symbol)
		assert.NotContains(t, others, " "+w.symbol+" ")
		seen[w.symbol] = true
	}
	for symbol := range published {
		assert.True(t, seen[symbol], "%s is not in the table", symbol)
	}
	assert.Len(t, strings.Fields(others), 118-len(weights), "118 elements are known")
}

var (
	formulaIn = regexp.MustCompile(`formula ([^;]+)`)
	casIn     = regexp.MustCompile(`CAS ([0-9-]+)`)
	massIn    = regexp.MustCompile(`M\((.+?)\) = ([0-9.]+)`)
)

func TestMolarMassesArePublished(t *testing.T) {
	list := rows(t, "molar_masses.tsv")
	ratios := map[string][]string{}
	counted := map[string]int{}
	for _, r := range list {
		t.Run(r.id, func(t *testing.T) {
			switch {
			case strings.HasPrefix(r.id, "hr"):
				masses := massIn.FindAllStringSubmatch(r.inputs, -1)
				if masses == nil {
					pair := ratios[strings.TrimPrefix(r.inputs, "as ")]
					require.Len(t, pair, 2, r.inputs)
					got, err := HydrateRatio(parse(t, pair[0]), parse(t, pair[1]))
					require.NoError(t, err)
					assert.InDelta(t, r.expected, got, r.tolerance)
					if !strings.Contains(pair[1], "·") {
						assert.InDelta(t, 100*(1-r.expected), MassPercentWater(parse(t, pair[0])), 100*r.tolerance)
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
				ratios[r.id] = []string{hydrate, salt}
				got, err := HydrateRatio(parse(t, salt), parse(t, hydrate))
				require.NoError(t, err)
				assert.InDelta(t, r.expected, got, r.tolerance)
				counted["ratio"]++
			default:
				written := formulaIn.FindStringSubmatch(r.inputs)
				require.NotNil(t, written, r.inputs)
				assert.InDelta(t, r.expected, molar(t, written[1]), r.tolerance)
				assert.Equal(t, written[1], parse(t, written[1]).String())
				if strings.Contains(r.quantity, "older atomic weights") {
					counted["older weights"]++
					return
				}
				cas := casIn.FindStringSubmatch(r.inputs)
				require.NotNil(t, cas, r.inputs)
				assert.NoError(t, CASValid(cas[1]))
				counted["mass"]++
			}
		})
	}
	assert.Equal(t, map[string]int{"mass": 73, "older weights": 73, "ratio": 19, "inverse": 19, "water": 18}, counted)
	assert.Len(t, list, 184)
}

func TestMixingIsPublished(t *testing.T) {
	swap := func(grams float64, from, to string) func(*testing.T) float64 {
		return func(t *testing.T) float64 {
			ratio, err := HydrateRatio(parse(t, from), parse(t, to))
			require.NoError(t, err)
			return grams * ratio
		}
	}
	// moles gives the mass of n·b that reacts with grams of a.
	moles := func(grams float64, a string, n float64, b string) func(*testing.T) float64 {
		return func(t *testing.T) float64 { return grams / molar(t, a) * n * molar(t, b) }
	}
	cases := map[string]func(*testing.T) float64{
		"hyd_carb":      swap(40, "Na2CO3", "Na2CO3·H2O"),
		"hyd_carb10":    swap(40, "Na2CO3", "Na2CO3·10H2O"),
		"hyd_thio":      swap(250, "Na2S2O3·5H2O", "Na2S2O3"),
		"hyd_meta":      moles(10, "NaHSO3", 0.5, "Na2S2O5"),
		"bor_meta":      moles(10, "NaBO2·4H2O", 0.25, "Na2B4O7·10H2O"),
		"bor_meta_naoh": moles(10, "NaBO2·4H2O", 0.5, "NaOH"),
		"neut_ac":       moles(15, "CH3COOH", 1, "NaHCO3"),
		"neut_h2so4":    moles(10*1.8355*0.96, "H2SO4", 2, "NaHCO3"),
		"neut_naoh":     moles(10, "NaOH", 1.0/3, "C6H8O7·H2O"),
		"fix_ag":        moles(1, "Ag", 2, "Na2S2O3·5H2O"),
		"agcl":          moles(1, "AgCl", 1, "Ag"),
		"h2so4_mol":     func(t *testing.T) float64 { return 1835.5 * 0.96 / molar(t, "H2SO4") },
	}
	found := 0
	for _, r := range rows(t, "mixing.tsv") {
		work, ok := cases[r.id]
		if !ok {
			continue
		}
		found++
		t.Run(r.id, func(t *testing.T) {
			assert.InDelta(t, r.expected, work(t), r.tolerance)
		})
	}
	assert.Equal(t, len(cases), found)
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
