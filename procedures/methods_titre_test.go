package procedures_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/content"
	"wetside/procedures/chem"
	"wetside/procedures/ph"
	"wetside/testdata/binders"
)

func bookOfIons(t *testing.T) *ph.Table {
	t.Helper()
	got := binders.Loaded(t, binders.Of("-- lab.toml --\n[lab]\nname = \"a test\"\n"), content.FS)
	return ph.Read(got.Lab.Species)
}

// brew is a kilogram of water with some ions in it.
func brew(t *testing.T, table *ph.Table, ions map[string]float64) *ph.Mixture {
	t.Helper()
	m := table.NewMixture()
	for name, mol := range ions {
		ion, err := chem.ParseIon(name)
		require.NoError(t, err)
		require.True(t, m.Add(ion, mol), name)
	}
	return m
}

// addedUntilRight adds what was found and wants the pH that was asked for; and it holds two baths
// against what was worked out elsewhere.
func addedUntilRight(t *testing.T) {
	table := bookOfIons(t)
	random := rand.New(rand.NewPCG(7, 8))
	for range 200 {
		acid, sulfite, carbonate := random.Float64()*0.2, random.Float64()*0.1, random.Float64()*0.2
		ions := map[string]float64{"C6H5O7-3": acid, "SO3-2": sulfite, "CO3-2": carbonate, "Na+": random.Float64() * 0.3}
		target := 3 + random.Float64()*7
		start, err := brew(t, table, ions).Solve(20, ph.Closed)
		require.NoError(t, err)
		of, name := ph.Alkali, "Na+"
		if start.PH > target {
			of, name = ph.Acid, "Cl-"
		}
		mol, err := brew(t, table, ions).Takes(of, target, 20, ph.Closed)
		require.NoError(t, err)
		require.Positive(t, mol)
		ions[name] += mol
		after, err := brew(t, table, ions).Solve(20, ph.Closed)
		require.NoError(t, err)
		require.InDelta(t, target, after.PH, 1e-6)
	}

	stop, err := brew(t, table, map[string]float64{"C6H5O7-3": 0.07808}).Takes(ph.Alkali, 5.5, 25, ph.Closed)
	require.NoError(t, err)
	require.InDelta(t, 2.305, stop/0.07808, 0.03, "worked example E12 as corrected: 2.29 to 2.32 for each mol of citric acid, by two programs")
	developer, err := brew(t, table, map[string]float64{"Na+": 2*0.2097 + 2*0.111, "CO3-2": 0.2097, "SO3-2": 0.111}).Takes(ph.Acid, 5.5, 25, ph.Closed)
	require.NoError(t, err)
	require.InDelta(t, 1.88*0.2097+0.97*0.111, developer, 0.05*developer, "E13, which leaves activities out: they lower it by some per cent")
}
