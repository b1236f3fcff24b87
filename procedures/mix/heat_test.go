package mix_test

import (
	"fmt"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build/load"
	"wetside/content"
	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// TestHeats: hypo cools the jug and pellets warm it; what the step must say begins above ten
// kelvins; what else is in the jug shares the change; a substance without a heat says nothing.
func TestHeats(t *testing.T) {
	const start = "start = { with = \"800 mL\" }\n"
	for _, c := range []struct {
		what, head string
		steps      [][2]string
		row        int
		change     float64
		colder     bool
		much       bool
	}{
		{"hypo", "start = { with = \"650 mL\" }\n", [][2]string{{"sodium-thiosulfate.pentahydrate", "240 g"}}, 0, 15.1, true, true},
		{"pellets", start, [][2]string{{"sodium-hydroxide", "80 g"}}, 0, 25.9, false, true},
		{"just more than ten", start, [][2]string{{"sodium-hydroxide", "30.4 g"}}, 0, 10.005, false, true},
		{"just less than ten", start, [][2]string{{"sodium-hydroxide", "30.2 g"}}, 0, 9.94, false, false},
		{"another in the jug first", start, [][2]string{{"sodium-sulfite.anhydrous", "100 g"}, {"sodium-hydroxide", "80 g"}}, 1, 25.0, false, true},
		{"a liquid in the jug first", start, [][2]string{{"ammonium-thiosulfate.solution-60", "100 mL"}, {"sodium-hydroxide", "80 g"}}, 1, 24.7, false, true},
		{"a bath in the jug first", start, [][2]string{{"other", "100 mL"}, {"sodium-hydroxide", "80 g"}}, 1, 25.0, false, true},
	} {
		text := "name = \"bath\"\nper = \"1 L\"\n" + c.head
		for _, s := range c.steps {
			text += fmt.Sprintf("[[step]]\nadd = %q\namount = %q\n", s[0], s[1])
		}
		rows := heated(t, text)
		w := rows[c.row].Warming
		require.NotNil(t, w, c.what)
		require.InDelta(t, c.change, w.Change.Value, 0.05, c.what)
		require.Equal(t, c.colder, w.Colder, c.what)
		require.Equal(t, c.much, w.Much, c.what)
		require.Equal(t, "°C", w.Change.Unit)
	}
	none := heated(t, "name = \"bath\"\nper = \"1 L\"\n"+start+"[[step]]\nadd = \"hydroquinone\"\namount = \"80 g\"\n")
	require.Nil(t, none[0].Warming, "nobody has written its heat")
	// Nobody knows how much water there is: at the most the whole, and so at least this change.
	open := heated(t, "name = \"bath\"\nper = \"1 L\"\n[[step]]\nadd = \"hydroquinone\"\namount = \"400 g\"\n[[step]]\nadd = \"sodium-hydroxide\"\namount = \"80 g\"\n")
	require.InDelta(t, 18.7, open[1].Warming.Change.Value, 0.1)
}

func heated(t *testing.T, text string) []mix.Row {
	t.Helper()
	got, err := load.Folder(fstest.MapFS{"lab.toml": {Data: []byte("[lab]\nname = \"a test\"\n")}, "solutions/bath.toml": {Data: []byte(text)},
		"solutions/other.toml": {Data: []byte("name = \"other\"\nper = \"1 L\"\n[[step]]\nadd = \"potassium-bromide\"\namount = \"10 g\"\n")}}, content.FS)
	require.NoError(t, err)
	require.False(t, got.Faults.HasErrors(), "%v", got.Faults)
	bench, _ := mix.NewBench(got.Lab)
	m := mix.New(got.Lab, bench, figure.NewLedger())
	b := m.Batch(got.Lab.Solution("bath"), unit.MustParse[unit.Volume]("1 L"), figure.Where{})
	return b.Rows
}
