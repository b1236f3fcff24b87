package react

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build/load"
	"wetside/content"
	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/ph"
)

// TestBalanced: atoms and charge of every reaction come out even, and one that does not is found out.
func TestBalanced(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range Reactions {
		require.Empty(t, r.Unbalanced(), "%s: %s", r.ID, r)
		require.False(t, seen[r.ID], r.ID)
		seen[r.ID] = true
		if r.Gas != "" {
			require.Positive(t, r.number(r.Gas), r.ID)
		}
	}
	lame := Reaction{From: []Term{{1, "MnO4-"}, {2, "H+"}}, To: []Term{{1, "Mn+2"}, {1, "H2O"}}}
	require.Equal(t, "O +3, charge -1", lame.Unbalanced())
	require.NotEmpty(t, Reaction{From: []Term{{1, "??"}}}.Unbalanced())
	require.Equal(t, "2 H+ + CO3-2 -> CO2 + H2O", Named("neutralise-carbonate").String())
	require.InDelta(t, 2.5, Named("reduce-permanganate").Per("SO3-2", "MnO4-"), 1e-12, "J4")
	require.InDelta(t, 2, Named("acid-metabisulfite").Per("SO2", "S2O5-2"), 1e-12, "J8")
}

func treatment(t *testing.T, steps string, ph0 float64) Treatment {
	t.Helper()
	got, err := load.Folder(fstest.MapFS{"lab.toml": {Data: []byte("[lab]\nname = \"a test\"\n")},
		"solutions/bath.toml": {Data: []byte("name = \"bath\"\nper = \"1 L\"\ndensity = \"1.01 g/mL\"\n" + steps)}}, content.FS)
	require.NoError(t, err)
	require.False(t, got.Faults.HasErrors(), "%v", got.Faults)
	bench, _ := mix.NewBench(got.Lab)
	m := mix.New(got.Lab, bench, figure.NewLedger())
	b, bad := got.Lab.Bath("bath.stock", figure.Where{})
	require.Empty(t, bad)
	return Of(m, &ph.Asker{Mix: m, Table: ph.Read(got.Lab.Species)}, b, ph0, true)
}

func add(chemical, amount string) string {
	return "[[step]]\nadd = \"" + chemical + "\"\namount = \"" + amount + "\"\n"
}

// TestTreatment: which baths have a recipe and which have none, and how much of what, against the
// worked examples J1 to J6 (derived).
func TestTreatment(t *testing.T) {
	citric := treatment(t, add("citric-acid.anhydrous", "15 g"), 2.1)
	require.Len(t, citric.Steps, 2)
	require.Equal(t, Neutralise, citric.Steps[0].Kind)
	require.Less(t, citric.Steps[0].Least.Value, 19.7, "J1 neutralises every proton, which ends above pH 6.5 ...")
	require.Greater(t, citric.Steps[0].Least.Value, 19.7*0.85)
	require.Greater(t, citric.Steps[0].Amount.Value, 19.7, "... and leaves out what stays dissolved while it fizzes")
	require.Less(t, citric.Steps[0].Amount.Value, 19.7*1.4)
	require.InDelta(t, citric.Steps[0].Amount.Value/84.006*24.06, citric.Steps[0].Gas.Value/1000, 0.01, "J2")
	acetic := treatment(t, add("acetic-acid.solution-60", "31.3 mL"), 2.7)
	require.InDelta(t, 28, acetic.Steps[0].Least.Value, 0.6, "J3: 56 g for two litres")
	soda := citric.Steps[1]
	require.Less(t, soda.Amount.Value, citric.Steps[0].Amount.Value, "carbonate takes two protons")

	bleach := treatment(t, add("potassium-permanganate", "2 g")+add("sodium-hydrogensulfate.anhydrous", "40 g"), 1)
	require.Len(t, bleach.Steps, 2)
	require.Equal(t, []string{Reduce, Neutralise}, []string{bleach.Steps[0].Kind, bleach.Steps[1].Kind})
	require.InDelta(t, 1.80*2/1.2*1.1, bleach.Steps[0].Amount.Value, 0.01, "J4, and a tenth more")
	require.InDelta(t, 17.8/0.6, bleach.Steps[1].Amount.Value, 0.1, "J5 as corrected: 17.8 g for 600 ml")
	sulfite := treatment(t, add("sodium-sulfite.anhydrous", "12.604 g"), 9)
	require.Len(t, sulfite.Steps, 1)
	require.Equal(t, Oxidise, sulfite.Steps[0].Kind)
	require.InDelta(t, 34.01*0.1/(10*3*1.01)*1000, sulfite.Steps[0].Amount.Value, 0.2, "J6 from its statement: 0.1 mol, peroxide of 3 % w/w at 1.01 g/ml")
	require.Nil(t, sulfite.Steps[0].Gas)

	for name, steps := range map[string]string{
		"a fixer, however acid":   add("sodium-thiosulfate.pentahydrate", "200 g") + add("citric-acid.anhydrous", "5 g"),
		"a fixer with sulfite":    add("sodium-thiosulfate.pentahydrate", "200 g") + add("sodium-sulfite.anhydrous", "10 g"),
		"ferricyanide and acid":   add("potassium-ferricyanide", "20 g") + add("citric-acid.anhydrous", "5 g"),
		"thiocyanate and acid":    add("potassium-thiocyanate", "20 g") + add("citric-acid.anhydrous", "5 g"),
		"sulfite with acid":       add("sodium-sulfite.anhydrous", "10 g") + add("citric-acid.anhydrous", "5 g"),
		"a bromide in the bleach": add("potassium-permanganate", "2 g") + add("sodium-hydrogensulfate.anhydrous", "40 g") + add("potassium-bromide", "1 g"),
		"iron and citrate":        add("ammonium-iron-citrate", "20 g"),
	} {
		require.Empty(t, treatment(t, steps, 2).Steps, name)
	}
	require.Empty(t, treatment(t, add("citric-acid.anhydrous", "15 g"), 6.6).Steps, "it is not acid")
	require.Empty(t, treatment(t, add("potassium-permanganate", "2 g"), 7).Steps, "permanganate without acid")
	require.Empty(t, treatment(t, add("sodium-metabisulfite", "25 g"), 4).Steps, "peroxide makes sulfuric acid of hydrogensulfite")
	weak := treatment(t, add("citric-acid.anhydrous", "1 g"), 2.7)
	require.Contains(t, weak.Steps[0].Amount.Shown, ".", "little is told more finely")
}
