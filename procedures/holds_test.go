package procedures_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render"
	"wetside/procedures/page"
)

// TestDrumLabelHolds: the label of a drum says what a month's baths are together, and asks where that
// cannot be worked out.
func TestDrumLabelHolds(t *testing.T) {
	archive, err := os.ReadFile("../testdata/binders/together.txtar")
	require.NoError(t, err)
	says := func(id string, change ...string) string {
		for _, p := range pagesOf(t, strings.NewReplacer(change...).Replace(string(archive))) {
			if p.ID == id {
				return render.Terminal(page.OnScreen(p, -1), -1, 900)
			}
		}
		return ""
	}
	const ask = "hazardous properties: ____"
	for name, x := range map[string]struct {
		change []string
		says   []string
		not    []string
	}{
		"by volume": {says: []string{"Worked out from a month’s baths together", "Causes serious eye irritation (H319)",
			"hazardous properties, by a month’s volumes: HP 12 if a test says so, without what its sheet does not count",
			"contains mild salt 9.00 % w/w [e], burning salt 1.50 % w/w [e]"},
			not: []string{"severe skin burns", ask}},
		"not all is known": {change: []string{", classes = [\"Eye Irrit. 2\"]", ""},
			says: []string{"severe skin burns", ask, "the sheet of this drum says what is missing"},
			not:  []string{"Worked out from a month’s baths together"}},
		"its pH may burn": {change: []string{"ph = \"6.0\"", "ph = \"12\""},
			says: []string{"severe skin burns", ask}},
		"no month": {change: []string{"[use]\nfilms = \"4 film.roll\"\n", ""},
			says: []string{"severe skin burns", ask, "a month’s work under [use] in lab.toml"}, not: []string{"contains mild salt"}},
	} {
		words := says("label/drum-spent", x.change...)
		for _, say := range x.says {
			require.Contains(t, words, say, name)
		}
		for _, no := range x.not {
			require.NotContains(t, words, no, name)
		}
	}
	sheet := says("dispose/spent")
	require.Contains(t, sheet, "Poured first into an empty drum, Burner, working is HP 8 by itself")
	require.Contains(t, sheet, "Not counted: Spare bath, working; the baths of Proofs.")
}
