package mix_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestHolds: what the water to start with cannot hold at its temperature is found, and what it
// just holds is not. The solubilities are those of the library: borax 5.0 g in a hundred grams of
// water at 20 °C and 7.8 g at 30 °C, boric acid 8.81 g at 40 °C.
func TestHolds(t *testing.T) {
	for _, c := range []struct {
		what, start, step string
		load, holds       string
	}{
		{"just held", `start = { with = "500 mL", at = "20 °C" }`, `{ add = "borax.decahydrate", amount = "25 g" }`, "", ""},
		{"just too much", `start = { with = "500 mL", at = "20 °C" }`, `{ add = "borax.decahydrate", amount = "25.1 g" }`, "5.1", "5.0"},
		{"warmer", `start = { with = "500 mL", at = "30 °C" }`, `{ add = "borax.decahydrate", amount = "38 g" }`, "", ""},
		{"between two points", `start = { with = "500 mL", at = "25 °C" }`, `{ add = "borax.decahydrate", amount = "32 g" }`, "6.4", "6.2"},
		{"the colder end of a range counts", `start = { with = "500 mL", at = "20..30 °C" }`, `{ add = "borax.decahydrate", amount = "30 g" }`, "6.0", "5.0"},
		{"no temperature: 20 °C", `start = { with = "500 mL" }`, `{ add = "borax.decahydrate", amount = "30 g" }`, "6.0", "5.0"},
		{"above the last point the last one counts", `start = { with = "500 mL", at = "60 °C" }`, `{ add = "boric-acid", amount = "45 g" }`, "9.0", "8.8"},
		{"nobody has looked it up", `start = { with = "500 mL" }`, `{ add = "ascorbic-acid", amount = "400 g" }`, "", ""},
		{"colder than the table", `start = { with = "500 mL", at = "5 °C" }`, `{ add = "citric-acid.anhydrous", amount = "999 g" }`, "", ""},
	} {
		rows := heated(t, "name = \"bath\"\nper = \"1 L\"\n"+c.start+"\nstep = [ "+c.step+" ]\n")
		if c.load == "" {
			require.Nil(t, rows[0].TooMuch, c.what)
			continue
		}
		require.NotNil(t, rows[0].TooMuch, c.what)
		require.Equal(t, c.load, rows[0].TooMuch.Load.Shown, c.what)
		require.Equal(t, c.holds, rows[0].TooMuch.Holds.Shown, c.what)
	}
}
