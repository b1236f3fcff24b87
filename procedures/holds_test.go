package procedures_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render"
	"wetside/content"
	"wetside/procedures"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
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
			"hazardous properties, by a month’s volumes: HP 12 gives off poison gas with water or acid, without the baths that nobody has counted",
			"contains mild salt 9.00 % w/w [e], burning salt 1.50 % w/w [e]"},
			not: []string{"severe skin burns", ask}},
		"not all is known": {change: []string{", classes = [\"Eye Irrit. 2\"]", ""},
			says: []string{"severe skin burns", ask, "the sheet of this drum says what is missing"},
			not:  []string{"Worked out from a month’s baths together", "Nobody has classified"}},
		"its pH may burn": {change: []string{"ph = \"6.0\"", "ph = \"12\""},
			says: []string{"severe skin burns", ask, "not all of it can be worked out together"}},
		"no month": {change: []string{"[use]\nfilms = \"4 film.roll\"\n", ""},
			says: []string{"severe skin burns", ask, "Nobody has classified what it becomes", "a month’s work under [use] in lab.toml"}, not: []string{"contains mild salt"}},
	} {
		words := says("label/drum-spent", x.change...)
		for _, say := range x.says {
			require.Contains(t, words, say, name)
		}
		for _, no := range x.not {
			require.NotContains(t, words, no, name)
		}
	}
	fine := says("label/drum-spent", "6 % w/w\", classes = [\"Skin Corr. 1B\"], extra = [\"EUH032\"]", "6 % w/w\", classes = []",
		"12 % w/w\", classes = [\"Eye Irrit. 2\"]", "12 % w/w\", classes = []")
	require.Contains(t, fine, "Treat it as hazardous waste")
	require.Contains(t, fine, "none found (a waste code with an asterisk says hazardous all the same)")
	require.NotContains(t, fine, "not classified")
	sheet := says("dispose/spent")
	require.Contains(t, sheet, "HP 8: Burner, supplied; Burner, working")
	require.Contains(t, sheet, "Not counted: Spare bath, working; the baths of Proofs.")
}

// TestMakesBesides: what is made of another bath as well says so; what is made of nothing else is told by
// that bath alone.
func TestMakesBesides(t *testing.T) {
	archive, err := os.ReadFile("../testdata/binders/store.txtar")
	require.NoError(t, err)
	for _, p := range pagesOf(t, string(archive)) {
		if p.ID == "shelf/store" {
			text := render.Terminal(page.OnScreen(p, -1), -1, 400)
			require.Contains(t, text, "citric acid, anhydrous; it takes citric stop besides, which is not counted")
			require.NotContains(t, text, "Nothing but the stop")
			return
		}
	}
	t.Fatal("there is no page of the store")
}

// TestBurnsSaidOnce: what burns by its pH is not said again of the alkali from which it is made.
func TestBurnsSaidOnce(t *testing.T) {
	loaded := binders.Loaded(t, os.DirFS("../content/demo"), content.FS)
	b, _ := procedures.Compute(loaded.Lab, unit.Date{Year: 2026, Month: 3, Day: 14})
	for _, p := range b.Pages {
		if p.ID == "spill/thiourea-toner" {
			text := render.Terminal(page.OnScreen(p, -1), -1, 900)
			require.Contains(t, text, "It burns: keep rinsing until help comes.")
			require.NotContains(t, text, ") it burns: keep rinsing")
			return
		}
	}
	t.Fatal("there is no such spill sheet")
}
