package procedures_test

import (
	"regexp"
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

const poured = `
-- lab.toml --
[lab]
name = "Test"
-- solutions/acid.toml --
name = "acid"
waste = "acids"
per = "1 L"
start = { with = "800 mL" }
[strength.stock]
[[step]]
add = "citric-acid.anhydrous"
amount = "20 g"
-- chemicals/gum.toml --
name = "gum"
[form.pure]
-- solutions/plain.toml --
name = "plain"
waste = "silver"
per = "1 L"
start = { with = "800 mL" }
[strength.stock]
[[step]]
add = "sodium-sulfite.anhydrous"
amount = "5 g"
-- products/bag.toml --
name = "bag"
state = "powder"
waste = "silver"
pack = { holds = "100 g" }
contains = { "sodium-sulfite.anhydrous" = "rest" }
[makes]
stock = "1 L"
start = { with = "800 mL" }
-- products/riddle.toml --
name = "riddle"
state = "liquid"
waste = "silver"
pack = { holds = "1 L" }
[hazards]
classes = ["Eye Dam. 1"]
-- waste/acids.toml --
name = "acids"
drum = "acids"
-- waste/silver.toml --
name = "silver"
drum = "silver"
`

// acid is where its first step is written.
const acid = "[[step]]\nadd = \"citric-acid"

// gaps are between the columns of a table.
var gaps = regexp.MustCompile(` {2,}`)

// pagesOf are the cards of a small lab that is not refused.
func pagesOf(t *testing.T, archive string) []page.Page {
	t.Helper()
	loaded := binders.Loaded(t, binders.Of(archive), content.FS)
	b, problems := procedures.Compute(loaded.Lab, unit.Date{Year: 2026, Month: 3, Day: 14})
	for _, p := range problems {
		require.True(t, p.Warning, p.What)
	}
	return b.Pages
}

// TestPouredTable: the sheet of a drum says of each strength how acid it is, what silver it holds and what
// it is by the rules, and leaves no hole unsaid.
func TestPouredTable(t *testing.T) {
	for _, c := range []struct {
		name, from, to string
		says           []string
	}{
		{"as it is worked out", "", "", []string{
			"Acid, stock | 2.1 [e] ± 0.1 [e] | cannot be told: no process says what is worked in it, and what it takes up | not classified\n",
			"Plain, stock | 9.7 [e] ± 0.1 [e] | cannot be told: no process says what is worked in it, and what it takes up | not classified\n",
			"Bag, supplied | none: it is dry | none: no film and no paper has been in it | Contact with acids liberates toxic gas (EUH031)\n",
			"Riddle, supplied | not worked out: nobody knows what is in riddle | cannot be told: nobody knows all that is in it | Eye Dam. 1\n",
		}},
		{"as somebody has written it", acid, "ph = \"2.2\"\n" + acid, []string{"Acid, stock | 2.2 | "}},
		{"written and worked out differ", acid, "ph = \"5\"\n" + acid,
			[]string{"Acid, stock | measure it: what is written and what is in it do not agree | "}},
		{"nobody has looked it up", acid, "[[step]]\nadd = \"gum\"\namount = \"1 g\"\n" + acid,
			[]string{"| Eye Irrit. 2, STOT SE 3 (respiratory); ____ ask first: nobody has looked up all that is in it\n"}},
		{"nobody has looked up anything", "add = \"sodium-sulfite.anhydrous", "add = \"gum.pure",
			[]string{"| ____ ask first: nobody has looked up all that is in it\n"}},
	} {
		require.Contains(t, poured, c.from)
		var rows []string
		for _, p := range pagesOf(t, strings.Replace(poured, c.from, c.to, 1)) {
			if p.Kind == "dispose" {
				text := render.Terminal(page.OnScreen(page.Page{Tables: p.Tables}, -1), 0, 400)
				rows = append(rows, gaps.ReplaceAllString(text, " | "))
			}
		}
		text := strings.Join(rows, "\n")
		for _, want := range c.says {
			require.Contains(t, text, want, c.name)
		}
	}
}

const oneShot = `
-- lab.toml --
[lab]
name = "Test"
[cylinder.large]
holds = "100 mL"
SYRINGE
[tank.one]
fill = "500 mL"
takes = { 120 = 1 }
[tank.two]
fill = "2 L"
takes = { 120 = 4 }
-- materials/film.toml --
name = "film"
base = "film"
formats = ["120"]
-- products/a.toml --
name = "a"
state = "liquid"
-- products/b.toml --
name = "b"
state = "liquid"
-- solutions/both.toml --
name = "both"
role = "developer"
makes = "working"
step = [ { add = "water", parts = 48 }, { add = "a", parts = 1 }, { add = "b", parts = 1 } ]
[strength.working]
use = "one-shot"
-- processes/film.toml --
name = "film"
base = "film"
[[step]]
id = "develop"
bath = "both.working"
time = "5:00"
`

// TestPartsOnTheClock: the step says how much of each part fills the tank; where one cannot be measured, it says
// so for that tank alone.
func TestPartsOnTheClock(t *testing.T) {
	text := func(archive string, choice int) string {
		for _, p := range pagesOf(t, archive) {
			if p.ID == "process/film" {
				return render.Terminal(page.In(page.OnScreen(p, -1), choice), choice, 2000)
			}
		}
		return ""
	}
	syringe := strings.Replace(oneShot, "SYRINGE", "[syringe.small]\nholds = \"10 mL\"\ngraduation = \"0.1 mL\"\ntolerance = \"0.1 mL\"", 1)
	require.Contains(t, text(syringe, 0), "500 ml both: 10 ml a + 10 ml b + the rest water")
	require.Contains(t, text(syringe, 1), "2000 ml both: 40 ml a + 40 ml b + the rest water")
	require.NotContains(t, text(syringe, 0), "Not in the")
	bare := strings.Replace(oneShot, "SYRINGE", "", 1)
	require.Contains(t, text(bare, 0), "Not in the one tank: a: too little to measure here")
	require.Contains(t, text(bare, 0), "Not in the one tank: b: too little to measure here")
	require.NotContains(t, text(bare, 1), "Not in the")
	require.Contains(t, text(bare, 1), "2000 ml both: 40 ml a + 40 ml b + the rest water")
	named := strings.Replace(syringe, "name = \"a\"", "name = \"both A\"", 1)
	require.Contains(t, text(named, 0), "500 ml both: 10 ml A + 10 ml b + the rest water", "the name of the bath is not said again")
	still := strings.Replace(syringe, "{ add = \"water\", parts = 48 }, ", "", 1)
	require.Contains(t, text(still, 0), "500 ml both: 250.5 ml a + 250.5 ml b")
}

// TestSheetsOfAKit: sheets of which the same is to be said stand together; of another edition, state or file
// each stands by itself.
func TestSheetsOfAKit(t *testing.T) {
	const kit = `
-- lab.toml --
[lab]
name = "Test"
-- products/kit.toml --
name = "kit"
[part.a]
state = "liquid"
pack = { holds = "500 mL" }
sheet = { edition = 2025-06-20, speaks_of = "liquid" }
[part.b]
state = "liquid"
pack = { holds = "500 mL" }
sheet = { edition = 2025-06-20, speaks_of = "liquid" }
[makes]
stock = "5 L"
[[step]]
add = "a"
amount = "500 mL"
[[step]]
add = "b"
amount = "500 mL"
`
	const second = "sheet = { edition = 2025-06-20, speaks_of = \"liquid\" }\n[makes]"
	for change, together := range map[string]bool{
		second: true,
		"sheet = { edition = 2025-06-21, speaks_of = \"liquid\" }\n[makes]": false,
		"sheet = { edition = 2025-06-20, speaks_of = \"powder\" }\n[makes]": false,
		"sheet = { edition = 2025-06-20 }\n[makes]":                         false,
	} {
		require.Contains(t, kit, second)
		for _, p := range pagesOf(t, strings.Replace(kit, second, change, 1)) {
			if p.ID != "product/kit" {
				continue
			}
			text := render.Terminal(page.OnScreen(p, -1), -1, 2000)
			if together {
				require.Contains(t, text, "  Supplier’s sheet\n  - of part a and part b: edition 2025-06-20, about a liquid as bought.")
				require.Equal(t, 1, strings.Count(text, "Supplier’s sheet"))
			} else {
				require.Contains(t, text, "  Supplier’s sheet\n  - of part a: edition 2025-06-20, about a liquid as bought.")
				require.Contains(t, text, "  - of part b: edition 2025-06-2")
			}
		}
	}
}

const twoFixers = `
-- lab.toml --
[lab]
name = "Test"
[tray.one]
fill = "1 L"
-- materials/paper.toml --
name = "paper"
base = "fibre"
formats = ["20x25"]
-- solutions/fix.toml --
name = "fixer"
role = "fixer"
per = "1 L"
[[step]]
add = "citric-acid.anhydrous"
amount = "15 g"
-- waste/silver.toml --
name = "silver-bearing baths"
drum = "silver"
-- processes/print.toml --
name = "prints"
base = "fibre"
[[step]]
id = "fix"
bath = "fix.stock"
place = 1
time = "1:15"
waste = "silver"
[[step]]
id = "again"
bath = "fix.stock"
place = 2
time = "1:15"
`

// TestPlaceAndWayOfAStep: of two baths of one kind the clock says which of the two it is, and a step that
// names its own way of waste says where that leads.
func TestPlaceAndWayOfAStep(t *testing.T) {
	text := ""
	for _, p := range pagesOf(t, twoFixers) {
		if p.ID == "process/print" {
			text = render.Terminal(page.OnScreen(p, -1), -1, 400)
		}
	}
	require.Contains(t, text, "FIX, FIRST OF TWO")
	require.Contains(t, text, "AGAIN, SECOND OF TWO")
	require.Contains(t, text, "spent: to the drum for silver")
}
