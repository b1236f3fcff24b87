package cards_test

import (
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"wetside/build/load"
	"wetside/build/render"
	"wetside/content"
	"wetside/procedures"
	"wetside/procedures/page"
	"wetside/procedures/unit"
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
			"Bag, supplied: the powder | a powder has none | none: no film and no paper has been in it | Contact with acids liberates toxic gas (EUH031)\n",
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
		files := fstest.MapFS{}
		for _, f := range txtar.Parse([]byte(strings.Replace(poured, c.from, c.to, 1))).Files {
			files[f.Name] = &fstest.MapFile{Data: f.Data}
		}
		loaded, err := load.Folder(files, content.FS)
		require.NoError(t, err)
		require.Empty(t, loaded.Faults, c.name)
		b, problems := procedures.Compute(loaded.Lab, unit.Date{Year: 2026, Month: 3, Day: 14})
		for _, p := range problems {
			require.True(t, p.Warning, "%s: %s", c.name, p.What)
		}
		var rows []string
		for _, p := range b.Pages {
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
