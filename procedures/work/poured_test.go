package work_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// bought is a lab that weighs one solution into another, dilutes one, and has bought a powder.
const bought = `
-- lab.toml --
[lab]
name = "Test"
-- solutions/first.toml --
name = "first"
role = "other"
waste = "silver"
per = "1 L"
start = { with = "800 mL" }
[strength.stock]
[[step]]
add = "potassium-iodide.pure"
amount = "50 g"
-- solutions/second.toml --
name = "second"
role = "other"
waste = "silver"
per = "1 L"
start = { with = "800 mL" }
[strength.stock]
[[step]]
add = "first.stock"
amount = "10 mL"
[[step]]
add = "sodium-sulfite.anhydrous"
amount = "5 g"
-- solutions/third.toml --
name = "third"
role = "other"
waste = "silver"
per = "1 L"
start = { with = "800 mL" }
[strength.stock]
[[step]]
add = "sodium-sulfite.anhydrous"
amount = "5 g"
[strength.thin]
dilute = "1+9"
-- chemicals/silver-jelly.toml --
name = "silver jelly"
[form.pure]
-- products/powder.toml --
name = "powder"
role = "other"
state = "powder"
waste = "silver"
pack = { holds = "100 g" }
contains = { "sodium-sulfite.anhydrous" = "90 % w/w", "filler" = { share = "10 % w/w", classes = [] } }
[makes]
stock = "1 L"
start = { with = "800 mL" }
-- waste/silver.toml --
name = "silver"
drum = "silver"
`

// TestMadeWith: of two solutions, a strength is an ingredient of the one that it is poured into.
func TestMadeWith(t *testing.T) {
	w := worked(t, bought)
	none := "no film and no paper has been in it"
	for ref, why := range map[string]string{"first.stock": "it is poured into the second",
		"third.stock": "it is diluted, and worked in by nobody"} {
		s := w.Bath(ref).Silver
		require.True(t, s.None, why)
		require.Equal(t, none, s.Why)
	}
	for _, ref := range []string{"second.stock", "third.thin"} {
		s := w.Bath(ref).Silver
		require.False(t, s.None, "%s is poured into nothing, and no process says what is done with it", ref)
		require.Equal(t, "no process says what is worked in it, and what it takes up", s.Why)
	}
}

// TestSilverOfWhatIsBought: a bag holds no silver unless its sheet names some, or names nothing.
func TestSilverOfWhatIsBought(t *testing.T) {
	for _, c := range []struct {
		name, from, to string
		none           bool
		why            string
	}{
		{"as its sheet says", "", "", true, "no film and no paper has been in it"},
		{"a chemical with silver", "sodium-sulfite.anhydrous\" = \"90", "silver-nitrate.pure\" = \"90", false,
			"it is made with silver, and nobody has worked out how much that is"},
		{"a chemical with silver before others", "sodium-sulfite.anhydrous\" = \"90 % w/w\"",
			"silver-nitrate.pure\" = \"1 % w/w\", \"sodium-sulfite.anhydrous\" = \"89 % w/w\"", false,
			"it is made with silver, and nobody has worked out how much that is"},
		{"its sheet leaves something unsaid", ", \"filler\" = { share = \"10 % w/w\", classes = [] }", "", false,
			"nobody knows all that is in it"},
		{"a chemical without a formula that is called so", "sodium-sulfite.anhydrous\" = \"90", "silver-jelly.pure\" = \"90", false,
			"it is made with silver, and nobody has worked out how much that is"},
		{"a name with silver", "\"filler\"", "\"Silver sulfate\"", false,
			"it is made with silver, and nobody has worked out how much that is"},
		{"nobody has written its sheet", "contains = { \"sodium-sulfite.anhydrous\" = \"90 % w/w\", \"filler\" = { share = \"10 % w/w\", classes = [] } }\n",
			"", false, "nobody knows all that is in it"},
	} {
		require.Contains(t, bought, c.from)
		w := worked(t, strings.Replace(bought, c.from, c.to, 1))
		s := w.Bath("powder.supplied").Silver
		require.Equal(t, c.none, s.None, c.name)
		require.Equal(t, c.why, s.Why, c.name)
		require.Nil(t, s.Held, c.name)
	}
}

// TestSilverPoured: what a bath holds when it goes one of the ways, whether a permit asks for it or not.
func TestSilverPoured(t *testing.T) {
	for _, c := range []struct {
		name, bath string
		replace    []string
		held       string
		state      string
		none       bool
		why        string
	}{
		{"a fixer that has done all it may", "fixer.film", nil, "4.0", "when it is spent", false, ""},
		{"as somebody has found it", "fixer.film", []string{"limits = [{ by = \"silver\", most = \"4 g/L\" }]", "limits = [{ by = \"silver\", most = \"4 g/L\" }]\nfound = { silver = \"1.5 g/L\" }"},
			"1.5", "as it was found when it was spent", false, ""},
		{"after two fills of water", "last.bath", nil, "0.44", "after fixer that has done all it may", false, ""},
		{"no silver anywhere", "brush-rinse.tray", nil, "", "", true, "nothing in blue prints holds silver"},
		{"a fixer without limits", "fixer.film", []string{"limits = [{ by = \"silver\", most = \"4 g/L\" }]", ""}, "", "", false,
			"nobody has written how much fixer may do, and so what it holds when it is spent"},
	} {
		s := archived(t, "permit.txtar", c.replace...).Bath(c.bath).Silver
		require.Equal(t, c.none, s.None, c.name)
		require.Equal(t, c.why, s.Why, c.name)
		if c.held == "" {
			require.Nil(t, s.Held, c.name)
			continue
		}
		require.NotNil(t, s.Held, c.name)
		require.Equal(t, c.held, s.Held.Shown, c.name)
		require.Equal(t, c.state, s.State, c.name)
	}
}
