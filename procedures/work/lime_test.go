package work_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const limy = `
-- lab.toml --
[lab]
name = "Test"
[water]
hardness = "320 mg/L"
-- solutions/clear.toml --
name = "clear"
per = "1 L"
start = { with = "800 mL" }
[strength.stock]
[[step]]
add = "edta-tetrasodium.dihydrate"
amount = "13.4 g"
[strength.working]
dilute = "1+9"
[strength.weak]
dilute = "1+10"
-- processes/film.toml --
name = "film"
base = "film"
[[step]]
id = "clear"
bath = "clear.working"
time = "2:00"
[[step]]
id = "again"
bath = "clear.weak"
time = "2:00"
`

// TestLime: what binds the lime of the tap water is held against its hardness in what is worked in.
func TestLime(t *testing.T) {
	for _, c := range []struct {
		name, bath   string
		change       []string
		needs, holds string // of a nil answer none
		enough       bool
		short        bool
		ascorbic     bool
	}{
		{"just enough", "clear.working", nil, "1.34", "1.34", true, false, false},
		{"a little too thin", "clear.weak", nil, "1.34", "1.22", false, true, false},
		{"of softer water there is enough", "clear.weak", []string{"320 mg/L", "200 mg/L"}, "0.84", "1.22", true, false, false},
		{"a stock is no bath", "clear.stock", nil, "", "", false, false, false},
		{"nobody has written the hardness", "clear.working", []string{"[water]\nhardness = \"320 mg/L\"\n", ""}, "", "", false, false, false},
		{"nothing binds it", "clear.working", []string{"edta-tetrasodium.dihydrate", "sodium-sulfite.anhydrous"}, "", "", false, false, false},
		{"only the stock is made with deionised water", "clear.working", []string{"per = \"1 L\"", "per = \"1 L\"\nwater = \"deionised\""}, "1.34", "1.34", true, false, false},
		{"only what dilutes it is", "clear.working", []string{"dilute = \"1+9\"", "dilute = \"1+9\"\nwater = \"deionised\""}, "1.34", "1.34", true, false, false},
		{"no water comes from the tap", "clear.working", []string{"per = \"1 L\"", "per = \"1 L\"\nwater = \"deionised\"", "dilute = \"1+9\"", "dilute = \"1+9\"\nwater = \"deionised\""}, "", "", false, false, false},
		{"worked in as it is made", "clear.stock", []string{"bath = \"clear.working\"", "bath = \"clear.stock\""}, "1.34", "13.4", true, false, false},
		{"and with deionised water", "clear.stock", []string{"bath = \"clear.working\"", "bath = \"clear.stock\"", "per = \"1 L\"", "per = \"1 L\"\nwater = \"deionised\""}, "", "", false, false, false},
		{"with ascorbic acid", "clear.working", []string{"[strength.working]", "[[step]]\nadd = \"ascorbic-acid.pure\"\namount = \"10 g\"\n[strength.working]"}, "1.34", "1.34", true, false, true},
	} {
		for i := 0; i < len(c.change); i += 2 {
			require.Contains(t, limy, c.change[i], c.name)
		}
		x := worked(t, strings.NewReplacer(c.change...).Replace(limy)).Bath(c.bath).Lime
		if c.needs == "" {
			require.Nil(t, x, c.name)
			continue
		}
		require.NotNil(t, x, c.name)
		require.Equal(t, c.needs, x.Needs.Shown, c.name)
		require.Equal(t, c.holds, x.Holds.Shown, c.name)
		require.Equal(t, c.enough, x.Enough, c.name)
		require.Equal(t, c.short, x.Short, c.name)
		require.Equal(t, c.ascorbic, x.Ascorbate, c.name)
	}
}

// TestLimeOfWhatIsBought: a range on the sheet is enough, too little, or neither.
func TestLimeOfWhatIsBought(t *testing.T) {
	const bag = `
-- lab.toml --
[lab]
name = "Test"
[water]
hardness = "320 mg/L"
-- products/clear.toml --
name = "clear"
state = "powder"
pack = { holds = "100 g" }
contains = { "sodium-sulfite.anhydrous" = "rest", "edta-tetrasodium.dihydrate" = "RANGE % w/w" }
[makes]
stock = "1 L"
[strength.stock]
`
	for share, want := range map[string][2]bool{"1..1.4": {false, false}, "1.4..5": {true, false}, "0.2..1.3": {false, true}} {
		x := worked(t, strings.Replace(bag, "RANGE", share, 1)).Bath("clear.stock").Lime
		require.NotNil(t, x)
		require.Equal(t, want, [2]bool{x.Enough, x.Short}, share)
	}
}
