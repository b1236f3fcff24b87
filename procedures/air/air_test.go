package air

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build/load"
	"wetside/content"
	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
	"wetside/testdata/published"
)

// TestHeadspace: oxygen, the sulfite that it eats, and the share of a bath, against values that
// were worked out elsewhere from the gas law and the equation of the reaction.
func TestHeadspace(t *testing.T) {
	f := published.Open(t, "headspace.tsv")
	dryAir, wet := oxygen.Go(500, 101.325, 0, 20), oxygen.Go(500, 101.325, 2.336, 20)
	f.Holds("hs_dry", float64(dryAir)/31.998)
	f.Holds("hs_sat", float64(wet)/31.998)
	f.Holds("hs_so3_dry", float64(eats.Go(dryAir)))
	f.Holds("hs_so3_sat", float64(eats.Go(wet)))
	f.Holds("hs_so3_dry_mgO2", 1000*float64(dryAir))
	f.Holds("hs_so3_sat_mgO2", 1000*float64(wet))
	f.Holds("hs_frac", float64(share.Go(eats.Go(wet), 20, 500))/100)
	f.Holds("hs_marb", float64(share.Go(eats.Go(oxygen.Go(25, 101.325, 2.336, 20)), 20, 975))/100)
}

func bottle(t *testing.T, lab, solution string) (Bottle, bool) {
	t.Helper()
	got, err := load.Folder(fstest.MapFS{"lab.toml": {Data: []byte("[lab]\nname = \"a test\"\n" + lab)}, "solutions/bath.toml": {Data: []byte(solution)},
		"chemicals/bisulfite.toml": {Data: []byte("name = \"sodium hydrogensulfite\"\nions = { \"Na+\" = 1, \"HSO3-\" = 1 }\n[form.pure]\nformula = \"NaHSO3\"\n")},
		"products/soap.toml":       {Data: []byte("name = \"soap\"\nstate = \"liquid\"\n")}}, content.FS)
	require.NoError(t, err)
	require.False(t, got.Faults.HasErrors(), "%v", got.Faults)
	bench, _ := mix.NewBench(got.Lab)
	b, bad := got.Lab.Bath("bath.stock", figure.Where{})
	require.Empty(t, bad)
	return Of(mix.New(got.Lab, bench, figure.NewLedger()), b)
}

// TestBottle: how full it is, how much sulfite it holds and what the house allows each change
// the answer in the direction that everybody expects.
func TestBottle(t *testing.T) {
	const bath = "name = \"bath\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-sulfite.anhydrous\"\namount = \"42 g\"\n"
	b, ok := bottle(t, "", bath)
	require.True(t, ok)
	require.InDelta(t, 42, b.Sulfite.Value, 0.01)
	require.Len(t, b.Opened, len(Levels))
	last := b.Opened[3]
	require.InDelta(t, 15.68, last.Eats.Value, 0.1, "a quarter full, one opening: H2 as it was corrected, 47 % in three (derived)")
	require.Equal(t, "1", last.Openings.Shown)
	require.Equal(t, b.Opened[2].Openings, b.Half())
	require.Equal(t, "16", last.Eats.Shown, "rounded up")
	for i := 1; i < len(b.Opened); i++ {
		require.Greater(t, b.Opened[i].Eats.Value, b.Opened[i-1].Eats.Value)
		if i > 1 {
			require.LessOrEqual(t, b.Opened[i].Openings.Value, b.Opened[i-1].Openings.Value)
		}
	}
	require.Nil(t, b.Opened[0].Openings)
	require.Equal(t, "0.2", b.Opened[0].Eats.Shown, "to the neck")
	patient, ok := bottle(t, "[house]\nsulfite_eaten = \"60 %\"\n", bath)
	require.True(t, ok)
	require.Equal(t, "3", patient.Opened[3].Openings.Shown)
	require.Equal(t, "60", patient.Most.Shown)
	double, ok := bottle(t, "", "name = \"bath\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-metabisulfite\"\namount = \"19.01 g\"\n")
	require.True(t, ok)
	require.InDelta(t, 25.2, double.Sulfite.Value, 0.05, "a metabisulfite gives two sulfites")
	bisulfite, ok := bottle(t, "", "name = \"bath\"\nper = \"1 L\"\n[[step]]\nadd = \"bisulfite\"\namount = \"10.41 g\"\n")
	require.True(t, ok)
	require.InDelta(t, 12.6, bisulfite.Sulfite.Value, 0.05, "hydrogensulfite is eaten as well")
	for what, other := range map[string]string{
		"no sulfite":        "name = \"bath\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"42 g\"\n",
		"something unknown": bath + "[[step]]\nadd = \"soap\"\namount = \"5 mL\"\n",
	} {
		_, ok := bottle(t, "", other)
		require.False(t, ok, what)
	}
	require.Equal(t, unit.Uses(2), openings.Go(30, 15), "exactly at the limit counts")
	require.Equal(t, unit.Uses(1), openings.Go(30, 15.1))
}

// TestNow: a bottle on the shelf, half full, and those of which nothing is said.
func TestNow(t *testing.T) {
	got, err := load.Folder(fstest.MapFS{"lab.toml": {Data: []byte("[lab]\nname = \"a test\"\n")},
		"solutions/bath.toml": {Data: []byte("name = \"bath\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-sulfite.anhydrous\"\namount = \"20 g\"\n")}}, content.FS)
	require.NoError(t, err)
	bench, _ := mix.NewBench(got.Lab)
	m := mix.New(got.Lab, bench, figure.NewLedger())
	b, _ := got.Lab.Bath("bath.stock", figure.Where{})
	volume := func(id string, ml float64) *figure.Record {
		return m.VolumeFigure(id, unit.MustParse[unit.Volume](unit.Short(ml)+" mL"), figure.Where{}, figure.House, "volume")
	}
	given := func(ml float64) figure.Figure[unit.Volume] {
		return figure.Constant(unit.Volume(ml), "volume", "", figure.Standard)
	}
	full := Log{Filled: given(1000), Drawn: [][]figure.Figure[unit.Volume]{{given(500)}}}
	o, ok := Now(m, b, "0401", volume("0401/holds", 1000), volume("0401/left", 500), full)
	require.True(t, ok)
	require.InDelta(t, 10.97, o.Eats.Value, 0.05, "as headspace.tsv, dry air")
	require.Equal(t, "0401/air", o.Eats.ID)
	require.InDelta(t, o.Eats.Value, o.Eaten.Value, 1e-9, "it was opened once, at the level of now")
	require.Equal(t, "1", o.Openings.Shown, "30 % less what the first opening can have eaten, by 10.97 %")
	require.Equal(t, "opening", o.Openings.Unit)
	require.False(t, o.None)

	// Four openings: 100, 200, 400 and 500 ml of air over 900, 800, 600 and 500 ml of bath. A litre of
	// air eats as much as 10.97 % of half a litre of bath does, so that the shares are to one
	// another as air to bath.
	draws := []figure.Figure[unit.Volume]{given(100), given(100), given(200), given(100)}
	log := Log{Filled: given(1000)}
	for i := range draws {
		log.Drawn = append(log.Drawn, draws[:i+1])
	}
	o, ok = Now(m, b, "0405", volume("0405/holds", 1000), volume("0405/left", 500), log)
	require.True(t, ok)
	require.InDelta(t, 10.97*(1./9+2./8+4./6+1), o.Eaten.Value, 0.1)
	require.Equal(t, "0", o.Openings.Shown)
	require.True(t, o.None)
	unopened := Log{Filled: given(500)}
	o, ok = Now(m, b, "0406", volume("0406/holds", 1000), volume("0406/left", 500), unopened)
	require.True(t, ok)
	require.Zero(t, o.Eaten.Value)
	require.Equal(t, "2", o.Openings.Shown)
	cleared := Log{Filled: given(1000), Drawn: [][]figure.Figure[unit.Volume]{{}, {}, {given(500)}}}
	o, ok = Now(m, b, "0407", volume("0407/holds", 1000), volume("0407/left", 500), cleared)
	require.True(t, ok)
	require.InDelta(t, o.Eats.Value, o.Eaten.Value, 1e-9, "while it is full an opening lets no air in")

	_, ok = Now(m, b, "0402", volume("0402/holds", 1000), volume("0402/left", 1000), full)
	require.False(t, ok, "full")
	_, ok = Now(m, b, "0403", volume("0403/holds", 1000), nil, full)
	require.False(t, ok, "nobody knows what is left")
	_, ok = Now(m, b, "0404", nil, volume("0404/left", 500), full)
	require.False(t, ok, "nobody knows what it holds")
	require.Equal(t, unit.Uses(2), openingsLeft.Go(30, 10, 10), "exactly at the limit counts")
	require.Equal(t, unit.Uses(0), openingsLeft.Go(30, 31, 10))
}
