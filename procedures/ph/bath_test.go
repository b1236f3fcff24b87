package ph

import (
	"math"
	"slices"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build/load"
	"wetside/content"
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// asked makes a lab of files and asks for the pH of one of its strengths.
func asked(t *testing.T, ref string, at float64, air Air, files map[string]string) Acidity {
	t.Helper()
	fsys := fstest.MapFS{"lab.toml": {Data: []byte("[lab]\nname = \"a test\"\n")}}
	for name, text := range files {
		fsys[name] = &fstest.MapFile{Data: []byte(text)}
	}
	got, err := load.Folder(fsys, content.FS)
	require.NoError(t, err)
	require.False(t, got.Faults.HasErrors(), "%v", got.Faults)
	bench, _ := mix.NewBench(got.Lab)
	m := mix.New(got.Lab, bench, figure.NewLedger())
	b, bad := got.Lab.Bath(ref, figure.Where{})
	require.Empty(t, bad)
	return (&Asker{Mix: m, Table: Read(got.Lab.Species)}).Of(m.Made(b), at, air)
}

// solution is a file of one step or more, each "chemical, amount".
func solution(density string, steps ...[2]string) string {
	text := "name = \"bath\"\nper = \"1 L\"\n"
	if density != "" {
		text += "density = \"" + density + "\"\n"
	}
	for _, s := range steps {
		text += "[[step]]\nadd = \"" + s[0] + "\"\namount = \"" + s[1] + "\"\n"
	}
	return text
}

// TestReasons: where no honest number can be given, the card says why, and right beside it
// there is a number.
func TestReasons(t *testing.T) {
	sugar := "name = \"sugar\"\n[form.pure]\nformula = \"C12H22O11\"\n"
	for _, c := range []struct {
		what, file string
		more       map[string]string
		at         float64
		why        string
	}{
		{what: "an acid", file: solution("1.00 g/mL", [2]string{"citric-acid.anhydrous", "15 g"}), at: 20},
		{what: "frozen", file: solution("1.00 g/mL", [2]string{"citric-acid.anhydrous", "15 g"}), at: -0.1, why: "no constants are known below 0 °C or above 60 °C"},
		{what: "ice cold", file: solution("1.00 g/mL", [2]string{"citric-acid.anhydrous", "15 g"}), at: 0},
		{what: "hot", file: solution("1.00 g/mL", [2]string{"citric-acid.anhydrous", "15 g"}), at: 60},
		{what: "too hot", file: solution("1.00 g/mL", [2]string{"citric-acid.anhydrous", "15 g"}), at: 60.1, why: "no constants are known below 0 °C or above 60 °C"},
		{what: "nothing but sugar", file: solution("1.02 g/mL", [2]string{"sugar", "50 g"}), more: map[string]string{"chemicals/sugar.toml": sugar}, at: 20,
			why: "nobody has written what sugar becomes in water"},
		{what: "sugar that is known", file: solution("1.02 g/mL", [2]string{"sugar", "50 g"}),
			more: map[string]string{"chemicals/sugar.toml": "ions = { \"C12H22O11\" = 1 }\n" + sugar, "species.toml": "[ion.\"C12H22O11\"]\n"}, at: 20,
			why: "nothing in it holds its pH: the air and traces of other things decide, near neutral"},
		{what: "an ion without constants", file: solution("1.01 g/mL", [2]string{"potassium-alum.dodecahydrate", "15 g"}), at: 20, why: "nobody has written the constants of Al+3"},
		{what: "no fixed composition", file: solution("1.01 g/mL", [2]string{"ammonium-iron-citrate.green", "15 g"}), at: 20, why: "ammonium iron(III) citrate has no fixed composition"},
		{what: "neutral salt", file: solution("1.01 g/mL", [2]string{"potassium-bromide", "15 g"}), at: 20, why: "nothing in it holds its pH: the air and traces of other things decide, near neutral"},
		{what: "a strong acid of 14 mol in a litre", file: solution("1.5 g/mL", [2]string{"sodium-hydrogensulfate.anhydrous", "700 g"}), at: 20, why: "more than 3 mol/kg of ions: no equation that is known here holds"},
		{what: "so little acid that a trace of alkali would turn it", file: solution("1.00 g/mL", [2]string{"sodium-hydrogensulfate.anhydrous", "0.0018 g"}), at: 20, why: "nothing in it holds its pH: the air and traces of other things decide, near neutral"},
		{what: "so little alkali that a trace of acid would turn it", file: solution("1.00 g/mL", [2]string{"sodium-hydroxide", "0.0006 g"}), at: 20, why: "nothing in it holds its pH: the air and traces of other things decide, near neutral"},
		{what: "ten times that alkali", file: solution("1.00 g/mL", [2]string{"sodium-hydroxide", "0.006 g"}), at: 20},
		{what: "perhaps too little water", file: solution("1.4 +- 0.01 g/mL", [2]string{"citric-acid.anhydrous", "799 g"}), at: 20, why: "too little of it is water"},
		{what: "little water", file: solution("1.4 g/mL", [2]string{"citric-acid.anhydrous", "801 g"}), at: 20, why: "too little of it is water"},
		{what: "just water enough", file: solution("1.4 g/mL", [2]string{"citric-acid.anhydrous", "799 g"}), at: 20},
	} {
		files := map[string]string{"solutions/bath.toml": c.file}
		for name, text := range c.more {
			files[name] = text
		}
		a := asked(t, "bath.stock", c.at, Closed, files)
		require.Equal(t, c.why, a.PH.Why, c.what)
		require.Equal(t, c.why != "", a.Within == nil, c.what)
		if c.why == "" {
			require.False(t, math.IsNaN(a.PH.Value), c.what)
			require.Less(t, a.Low, a.PH.Value, c.what)
			require.Greater(t, a.High, a.PH.Value, c.what)
		}
	}
}

// TestGoverns: what keeps the pH where it is.
func TestGoverns(t *testing.T) {
	for _, c := range []struct {
		steps [][2]string
		want  []string
	}{
		{[][2]string{{"citric-acid.anhydrous", "15 g"}}, []string{"citric-acid"}},
		{[][2]string{{"sodium-sulfite.anhydrous", "40 g"}, {"borax.decahydrate", "10 g"}, {"boric-acid", "10 g"}}, []string{"borax", "boric-acid"}},
		{[][2]string{{"sodium-sulfite.anhydrous", "40 g"}, {"sodium-carbonate.monohydrate", "40 g"}}, []string{"sodium-carbonate"}},
		{[][2]string{{"sodium-hydroxide", "10 g"}}, nil},
		{[][2]string{{"sodium-sulfite.anhydrous", "40 g"}, {"sodium-hydroxide", "10 g"}}, nil},
	} {
		a := asked(t, "bath.stock", 20, Closed, map[string]string{"solutions/bath.toml": solution("1.04 g/mL", c.steps...)})
		var got []string
		for _, g := range a.Governs {
			got = append(got, g.Chemical.ID)
		}
		require.Equal(t, c.want, got, "%v", c.steps)
	}
}

// TestDoubt: what is known less well is printed with a wider ±, each cause for itself.
func TestDoubt(t *testing.T) {
	of := func(density string, steps ...[2]string) float64 {
		a := asked(t, "bath.stock", 20, Closed, map[string]string{"solutions/bath.toml": solution(density, steps...)})
		require.NotNil(t, a.Within, a.PH.Why)
		return a.High - a.PH.Value
	}
	plain := of("1.02 g/mL", [2]string{"sodium-sulfite.anhydrous", "20 g"}, [2]string{"sodium-metabisulfite", "5 g"})
	require.Greater(t, plain, methodDoubt)
	require.InDelta(t, math.Hypot(methodDoubt, 0.06), plain, 0.03, "the constant of hydrogensulfite is known to 0.06")
	require.Greater(t, of("0.90..1.14 g/mL", [2]string{"sodium-sulfite.anhydrous", "20 g"}, [2]string{"sodium-metabisulfite", "5 g"}), plain, "the density")
	require.Greater(t, of("", [2]string{"sodium-sulfite.anhydrous", "20 g"}, [2]string{"sodium-metabisulfite", "5 g"}),
		of("1.00 g/mL", [2]string{"sodium-sulfite.anhydrous", "20 g"}, [2]string{"sodium-metabisulfite", "5 g"}), "no density")
	require.Greater(t, of("1.09 g/mL", [2]string{"sodium-sulfite.anhydrous", "100 g"}, [2]string{"sodium-metabisulfite", "5 g"}), plain+0.1, "the equation for activities")
	a := asked(t, "bath.stock", 20, Closed, map[string]string{
		"products/acid.toml":  "name = \"acid\"\nstate = \"liquid\"\n",
		"solutions/bath.toml": solution("1.00 g/mL", [2]string{"citric-acid.anhydrous", "5..14 g"})})
	require.NotNil(t, a.Within, a.PH.Why)
	require.Greater(t, a.High-a.PH.Value, 0.06, "the amount")
	require.Less(t, a.High-a.PH.Value, 0.15)
	require.Equal(t, "0.2", a.Within.Shown, "rounded up")
}

// TestDiffers: a pH that was written with its own doubt, or without one, against what was
// worked out.
func TestDiffers(t *testing.T) {
	a := Acidity{Within: &figure.Record{}, Low: 7.8, High: 8.2}
	for _, c := range []struct {
		said string
		want bool
	}{
		{"8.0", false}, {"7.71", false}, {"7.69", true}, {"8.29", false}, {"8.31", true},
		{"7.0..7.8", false}, {"7.0..7.79", true}, {"8.21..9", true}, {"8.2..9", false}, {"7..9", false},
	} {
		require.Equal(t, c.want, a.Differs(lab.Say[unit.Factor](c.said)), c.said)
	}
	require.False(t, a.Differs(lab.Said[unit.Factor]{}), "nothing was written")
	require.False(t, Acidity{}.Differs(lab.Say[unit.Factor]("8")), "nothing was worked out")
}

// TestEnds: the limits of the search, and directions that every student knows.
func TestEnds(t *testing.T) {
	table, _ := library(t)
	solve := func(at float64, of amounts) (Answer, error) { return mixture(t, table, of).Solve(at, Closed) }
	water, err := solve(25, nil)
	require.NoError(t, err)
	require.InDelta(t, 6.998, water.PH, 0.002, "half of pKw")
	cold, err := solve(0, nil)
	require.NoError(t, err)
	require.Greater(t, cold.PH, water.PH+0.4)
	_, err = solve(25, amounts{"Na+": 2.9, "Cl-": 2.9})
	require.NoError(t, err)
	_, err = solve(25, amounts{"Na+": 3.1, "Cl-": 3.1})
	require.ErrorIs(t, err, ErrStrong)
	_, err = solve(25, amounts{"Cl-": 14})
	require.ErrorIs(t, err, ErrStrong)
	acid, err := solve(25, amounts{"Cl-": 0.1})
	require.NoError(t, err)
	require.InDelta(t, 1.09, acid.PH, 0.02, "0.1 mol/kg hydrochloric acid, R. G. Bates, Determination of pH (memory)")
	one, err := solve(20, amounts{"CH3COO-": 0.1})
	require.NoError(t, err)
	two, err := solve(20, amounts{"CH3COO-": 0.2})
	require.NoError(t, err)
	require.Less(t, two.PH, one.PH)
	bisulfate, err := solve(25, amounts{"Na+": 0.333, "SO4-2": 0.333})
	require.NoError(t, err)
	require.InDelta(t, 1.047, bisulfate.PH, 0.003, "sodium with hydrogensulfate, its pairs worked out by hand in another program; without them 1.094")
	bare, err := solve(25, amounts{"Cl-": 0.333, "SO4-2": 0.333})
	require.NoError(t, err, "nothing to pair with")
	require.Less(t, bare.PH, bisulfate.PH)
	_, known := table.species[ion(t, "Zn+2")]
	require.False(t, known)
	require.False(t, table.NewMixture().Add(ion(t, "Zn+2"), 1))
	require.True(t, table.NewMixture().Add(proton, 1))
}

// FuzzMixture: whatever is dissolved, the search ends with a number whose charges balance, or
// with one of its two reasons.
func FuzzMixture(f *testing.F) {
	table, own := library(f)
	var names []string
	for name := range own.Ions {
		names = append(names, name)
	}
	slices.Sort(names)
	f.Add(uint8(1), 0.1, uint8(20), 0.3, uint8(40), 1.0, 25.0, uint8(0))
	f.Add(uint8(7), 1e-9, uint8(33), 1e-5, uint8(60), 2.9, 0.0, uint8(1))
	f.Add(uint8(9), 14.0, uint8(9), 0.0, uint8(9), 0.0, 60.0, uint8(2))
	f.Fuzz(func(t *testing.T, i uint8, a float64, j uint8, b float64, k uint8, c float64, at float64, air uint8) {
		m := table.NewMixture()
		for _, x := range []struct {
			n   uint8
			mol float64
		}{{i, a}, {j, b}, {k, c}} {
			if !(x.mol >= 0 && x.mol <= 20) {
				return
			}
			parsed, err := chem.ParseIon(names[int(x.n)%len(names)])
			require.NoError(t, err)
			m.Add(parsed, x.mol)
		}
		if !(at >= 0 && at <= 60) {
			return
		}
		got, err := m.Solve(at, Air(air%3))
		if err != nil {
			require.True(t, err == ErrStrong || err == ErrRange, "%v", err)
			return
		}
		require.False(t, math.IsNaN(got.PH) || math.IsInf(got.PH, 0) || got.PH < lowest || got.PH > highest)
		require.InDelta(t, 0, got.Charge, 1e-6*(1+a+b+c))
	})
}
