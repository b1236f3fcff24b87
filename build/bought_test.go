package build_test

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
)

// boughtLab works a small lab out on a day; a pack that is past its date is a warning, no error.
func boughtLab(t *testing.T, store, product, use string, more ...string) *build.Result {
	t.Helper()
	files := map[string]string{
		"lab.toml": "[lab]\nname = \"Test\"\nday = 2026-03-14\n[tank.double]\nfill = \"600 mL\"\ntakes = { 135 = 2 }\n" +
			"[house]\norder_lead = \"1 month\"\norder_cover = \"2 months\"\n[use]\n" + use,
		"materials/film.toml":  "name = \"a film\"\nbase = \"film\"\nformats = [\"135-36\", \"120\"]\n",
		"materials/paper.toml": "name = \"a paper\"\nbase = \"resin-coated\"\nformats = [\"20x25\"]\n",
		"processes/film.toml":  "name = \"Film\"\nbase = \"film\"\n[[step]]\nid = \"fix\"\nbath = \"thing.film\"\ntime = \"5:00\"\n",
		"processes/print.toml": "name = \"Print\"\nbase = \"resin-coated\"\n[[step]]\nid = \"fix\"\nbath = \"thing.paper\"\ntime = \"1:00\"\n",
		"products/thing.toml":  product,
		"store.toml":           store,
	}
	for i := 0; i+1 < len(more); i += 2 {
		files[more[i]] = more[i+1]
	}
	r, err := build.Work(options(folder(files)))
	require.NoError(t, err)
	require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
	return r
}

var ruled = regexp.MustCompile(`[-=]{4,}`)

// plainCard is a card as plain text, without its rules.
func plainCard(t *testing.T, r *build.Result, id string) string {
	t.Helper()
	return ruled.ReplaceAllString(cardText(t, r, id), "|")
}

// concentrate is a litre of a fixer that is used for film at 1+4 and for prints at 1+9.
const concentrate = `name = "a fixer"
role = "fixer"
state = "liquid"
pack = { holds = "1 L", price = "20.00 EUR" }
keeps = { full = "24 months", part = "6 months" }
yields = [ { strength = "film", count = "50 film.135-36", says = "supplier" } ]
[strength.film]
from = "supplied"
dilute = "1+4"
use = "re-use"
keeps = { full = "1 month" }
limits = [ { by = "rolls", most = "10 rolls/L" } ]
[strength.paper]
from = "supplied"
dilute = "1+9"
use = "re-use"
keeps = { full = "1 month" }
limits = [ { by = "count", of = "paper.20x25", most = "40 /L" } ]
`

// bag is a bag that is made up whole, and then keeps ninety days.
const bag = `name = "a bag"
role = "fixer"
state = "powder"
pack = { holds = "500 g", price = "15.00 EUR" }
[makes]
stock = "1 L"
divide = "no"
[strength.stock]
keeps = { full = "90 days" }
[strength.film]
dilute = "1+9"
use = "re-use"
keeps = { tray = "24 h" }
limits = [ { by = "rolls", most = "10 rolls/L" } ]
[strength.paper]
dilute = "1+9"
use = "re-use"
`

// TestOrdersOfTheStore: what is past its date is no stock, what gets too old is bought as often
// as it does, and a pack is as large as the file of the product says. Plain arithmetic: three
// months' work is wanted, one until it comes and two that it is to last.
func TestOrdersOfTheStore(t *testing.T) {
	const film, both = "film = [\"10 film.135-36\"]\n", "film = [\"10 film.135-36\"]\nprint = [\"80 paper.20x25\"]\n"
	bagIn := func(left, best string) string {
		return "[[pack]]\nof = \"thing\"\nlot = \"" + best + "\"\nleft = \"" + left + "\"\nbest_before = " + best + "\n"
	}
	for _, c := range []struct {
		name, store, product, use string
		row, front                []string
		notFront                  string
	}{
		// A litre of film fixer for ten rolls takes 200 ml, two of paper fixer for eighty prints 200 ml.
		{"the pack of the product's own file", bagIn("1 L", "2028-01-01"), concentrate, both,
			[]string{"A fixer 400 ml 1000 ml 200 ml 1 20.00 EUR"}, []string{"to buy now: 1"}, "past their best-before"},
		{"enough stands there", bagIn("1200 mL", "2028-01-01"), concentrate, both,
			[]string{"A fixer 400 ml 1200 ml 0 ml 0"}, []string{"to buy now: 0"}, "past their best-before"},
		{"past its date it is no stock", bagIn("1200 mL", "2026-03-13"), concentrate, both,
			[]string{"A fixer 400 ml 0 ml; past the best-before, not counted: 1 1200 ml 2 40.00 EUR"},
			[]string{"to buy now: 1", "past their best-before: ask first: 1: a fixer, 2026-03-13"}, ""},
		{"on the day itself it is good", bagIn("1200 mL", "2026-03-14"), concentrate, both,
			[]string{"A fixer 400 ml 1200 ml 0 ml 0"}, []string{"to buy now: 0"}, "past their best-before"},
		{"only a pack that is good counts", bagIn("1200 mL", "2026-03-13") + bagIn("100 mL", "2028-01-01"), concentrate, both,
			[]string{"A fixer 400 ml 100 ml; past the best-before, not counted: 1 1100 ml 2 40.00 EUR"}, []string{"to buy now: 1"}, ""},
		{"nobody has written what is left", "", concentrate, both,
			[]string{"A fixer 400 ml not known: ____ ask first"},
			[]string{"to buy now: 0", "nobody can tell whether to buy: ask first: 1: a fixer"}, "past their best-before"},
		// Little work: a bottle of a litre that keeps half a year is a sixth of a litre each month.
		{"a bottle that gets too old", bagIn("400 mL", "2028-01-01"), strings.ReplaceAll(concentrate, "1 month", "24 months"), "film = [\"1 film.135-36\"]\n",
			[]string{"A fixer 167 ml, by age: a pack that is begun keeps 6 months (opened) 400 ml 100 ml 1 20.00 EUR"},
			[]string{"to buy now: 1"}, ""},
		// Ten rolls take a tenth of a pack, but every ninety days one is too old: 30.4 / 90 of one.
		{"a bag that gets too old", bagIn("500 g", "2028-01-01"), bag, film,
			[]string{"A bag 0.4 packs, by age: a pack that is begun keeps 90 days (full) 1.0 packs 0.1 packs 1 15.00 EUR"},
			[]string{"to buy now: 1"}, "past their best-before"},
		{"a bag that is used up before", bagIn("1500 g", "2028-01-01"), bag, "film = [\"100 film.135-36\"]\n",
			[]string{"A bag 1.0 packs 3.0 packs 0.0 packs 0"}, []string{"to buy now: 0"}, "past their best-before"},
		{"a bag past its date", bagIn("500 g", "2025-01-01"), bag, film,
			[]string{"0.0 packs; past the best-before, not counted: 1 1.1 packs 2 30.00 EUR"},
			[]string{"to buy now: 1", "past their best-before: ask first: 1"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r := boughtLab(t, c.store, c.product, c.use)
			board, front := plainCard(t, r, "board/shopping"), plainCard(t, r, "index")
			for _, row := range c.row {
				require.Contains(t, board, row)
			}
			for _, line := range c.front {
				require.Contains(t, front, line)
			}
			if c.notFront != "" {
				require.NotContains(t, front, c.notFront)
			}
		})
	}
}
