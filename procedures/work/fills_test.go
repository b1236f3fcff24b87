package work

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
)

// workOf works a small lab out, written as an archive of its files.
func workOf(t *testing.T, archive, day string) *Work {
	t.Helper()
	loaded := binders.Loaded(t, binders.Of(archive), fstest.MapFS{})
	on, err := unit.ParseDate(day)
	require.NoError(t, err)
	require.Empty(t, lab.Check(loaded.Lab, on))
	return Of(loaded.Lab, on)
}

const room = `
-- lab.toml --
[lab]
name = "Test"
[tank.double]
fill = "600 mL"
takes = { 135 = 2 }
[cylinder.hundred]
holds = "100 mL"
[cylinder.thousand]
holds = "1000 mL"
[tray.small]
fill = "1 L"
inside = "20 x 26 cm"
[tray.large]
fill = "2 L"
inside = "32 x 42 cm"
[tray.plain]
fill = "3 L"
[tray.sheets]
fill = "2 L"
takes = ["sheet"]
-- chemicals/salt.toml --
name = "salt"
[form.pure]
formula = "none"
-- materials/film.toml --
name = "film"
base = "film"
formats = ["roll"]
[format.roll]
family = "135"
rolls = "1 rolls"
area = "516 cm2"
-- materials/rag.toml --
name = "rag"
base = "uncoated"
formats = ["little"]
[format.little]
family = "print"
width = "100 mm"
length = "120 mm"
-- processes/blue.toml --
name = "blue"
base = "uncoated"
[[step]]
id = "fix"
bath = "plain.blue"
time = "5:00"
-- solutions/pair.toml --
name = "pair"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.film]
dilute = "1+4"
[strength.straight]
dilute = "none"
-- materials/paper.toml --
name = "paper"
base = "fibre"
formats = ["sheet"]
[format.sheet]
family = "print"
width = "300 mm"
length = "400 mm"
-- processes/films.toml --
name = "films"
base = "film"
[[step]]
id = "fix"
bath = "fixer.film"
time = "5:00"
[[step]]
id = "both"
bath = "both.stock"
time = "5:00"
[[step]]
id = "plain"
bath = "plain.film"
time = "5:00"
[[step]]
id = "dip"
bath = "plain.dip"
time = "5:00"
[[step]]
id = "pair"
bath = "pair.film"
time = "5:00"
-- processes/prints.toml --
name = "prints"
base = "fibre"
[[step]]
id = "fix"
bath = "print-fixer.paper"
time = "5:00"
[[step]]
id = "pair"
bath = "pair.straight"
time = "5:00"
[[step]]
id = "both"
bath = "both.stock"
time = "5:00"
-- solutions/fixer.toml --
name = "fixer"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.film]
dilute = "1+4"
[strength.spare]
dilute = "1+9"
[strength.straight]
dilute = "none"
[strength.tray]
dilute = "1+9"
use = "tray"
[strength.once]
dilute = "1+9"
use = "one-shot"
needs = "10 mL/roll"
-- solutions/print-fixer.toml --
name = "print fixer"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.paper]
dilute = "1+4"
[strength.spare]
dilute = "1+9"
[strength.straight]
dilute = "none"
-- solutions/both.toml --
name = "both"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.straight]
dilute = "none"
[strength.spare]
dilute = "1+9"
-- solutions/plain.toml --
name = "plain"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.film]
dilute = "1+4"
[strength.dip]
dilute = "1+4"
use = "tray"
[strength.blue]
dilute = "1+6"
-- solutions/unused.toml --
name = "unused"
per = "1 L"
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.spare]
dilute = "1+9"
`

// TestVesselsFor: a strength is offered for the vessels of the work that uses it. One that
// nobody uses, beside others that are used for film, is offered for film only where it is
// as strong as they come: a weaker one may not work.
func TestVesselsFor(t *testing.T) {
	w := workOf(t, room, "2026-03-14")
	const tanks, large, trays = "double", "large plain sheets", "large plain sheets small"
	for _, c := range []struct{ name, ref, vessels string }{
		{"used for film", "fixer.film", tanks},
		{"used for prints: the trays in which they lie flat", "print-fixer.paper", large},
		{"used for both", "both.stock", tanks + " " + large},
		{"used by nobody, and for a tray", "fixer.tray", trays},
		{"used by nobody, and so much for a roll", "fixer.once", tanks},
		{"weaker than what films use", "fixer.spare", trays},
		{"as strong as it comes, beside what films use: for no print", "fixer.straight", tanks},
		{"as strong as it comes, beside what films and prints use", "both.straight", tanks + " " + large},
		{"weaker than what films and prints use", "both.spare", large},
		{"weaker than what prints use", "print-fixer.spare", large},
		{"as strong as it comes, beside what prints use", "print-fixer.straight", large},
		{"used for film in a tray", "plain.dip", tanks + " " + trays},
		{"used for little prints", "plain.blue", "large plain small"},
		{"used for prints, beside a weaker one that films use", "pair.straight", large},
		{"nobody uses any strength of it", "unused.spare", tanks + " " + trays},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, bad := w.lab.Bath(c.ref, figure.Where{})
			require.Empty(t, bad)
			var got []string
			for _, v := range w.vesselsFor(b) {
				id, _, _ := strings.Cut(v.Key, ",") // a tank is told with its family
				got = append(got, id)
			}
			require.ElementsMatch(t, strings.Fields(c.vessels), got)
		})
	}
}

// TestTankWithAComma proves why a name with a comma is a fault: tankOf cuts it, so that two
// tanks are one and no card is made for the second. Check refuses such a lab.
func TestTankWithAComma(t *testing.T) {
	for second, want := range map[string]int{"five-120": 2, "five,120": 1} {
		files := fstest.MapFS{
			"lab.toml":            {Data: []byte("[lab]\nname = \"Test\"\n[tank.five]\nfill = \"600 mL\"\ntakes = { roll = 2 }\n[tank.\"" + second + "\"]\nfill = \"600 mL\"\ntakes = { roll = 2 }\n")},
			"materials/film.toml": {Data: []byte("name = \"film\"\nbase = \"film\"\nformats = [\"roll\"]\n[format.roll]\nfamily = \"roll\"\narea = \"516 cm2\"\n")},
			"processes/soak.toml": {Data: []byte("name = \"soak\"\nbase = \"film\"\n[[step]]\nid = \"soak\"\nfills = [1]\ntime = \"1:00\"\n")},
		}
		loaded := binders.Loaded(t, files, fstest.MapFS{})
		cards := map[string]bool{}
		for _, p := range Of(loaded.Lab, unit.Date{Year: 2026, Month: 3, Day: 14}).Processes {
			for _, r := range p.Runs {
				cards[r.Variant] = true
			}
		}
		require.Len(t, cards, want, "%v", cards)
		problems := lab.Check(loaded.Lab, unit.Date{})
		if want == 2 {
			require.Empty(t, problems)
			continue
		}
		require.Len(t, problems, 1)
		require.Equal(t, "name", problems[0].Code)
		require.Equal(t, figure.Where{File: "lab.toml", Key: "tank.five,120"}, problems[0].At)
	}
}

// TestFillsLeft: how many times what is left fills each tank, counted down to whole fills, for
// what is used once; nothing is said of a bottle that may not be used or that nobody can judge.
func TestFillsLeft(t *testing.T) {
	stands := func(of, mixed, left string) string {
		return "-- shelf/one.toml --\nof = \"" + of + "\"\nmixed = " + mixed + "\nmade = { amount = \"" + left + "\", into = [\"" + left + "\"] }\n"
	}
	const developer = `
-- lab.toml --
[lab]
name = "Test"
[tank.double]
fill = "600 mL"
takes = { 135 = 2 }
[tank.wide]
fill = { 135 = "500 mL", 120 = "1 L" }
takes = { 135 = 1, 120 = 1 }
[tank.twin]
fill = "600 mL"
takes = { 135 = 2, 120 = 1 }
[tray.small]
fill = "1 L"
[cylinder.hundred]
holds = "100 mL"
[cylinder.thousand]
holds = "1000 mL"
-- chemicals/salt.toml --
name = "salt"
[form.pure]
formula = "none"
-- materials/film.toml --
name = "film"
base = "film"
formats = ["135", "120"]
[format.135]
family = "135"
rolls = "1 roll"
area = "516 cm2"
[format.120]
family = "120"
rolls = "1 roll"
area = "516 cm2"
-- solutions/developer.toml --
name = "developer"
role = "developer"
per = "1 L"
keeps = { full = "6 months", part = "3 months" }
[[step]]
add = "salt.pure"
amount = "10 g"
[strength.stock]
[strength.working]
dilute = "1+1"
use = "one-shot"
[strength.again]
dilute = "1+1"
use = "re-use"
-- processes/develop.toml --
name = "develop"
base = "film"
[[step]]
id = "develop"
bath = "developer.working"
time = "5:00"
[[step]]
id = "develop-again"
bath = "developer.again"
time = "5:00"
`
	for _, c := range []struct {
		name, shelf, want string
	}{
		{"a rest is no fill", stands("developer.stock", "2026-03-01", "590 mL"), "double 1, twin 1, wide for 120 1, wide for 135 2"},
		{"exactly two", stands("developer.stock", "2026-03-01", "600 mL"), "double 2, twin 2, wide for 120 1, wide for 135 2"},
		{"not once", stands("developer.stock", "2026-03-01", "100 mL"), "double 0, twin 0, wide for 120 0, wide for 135 0"},
		{"dead", stands("developer.stock", "2025-03-01", "590 mL"), ""},
		{"used again: it stays in its bottle", stands("developer.again", "2026-03-01", "590 mL"), ""},
	} {
		w := workOf(t, developer+c.shelf, "2026-03-14")
		require.Len(t, w.OnShelf.Bottles, 1, c.name)
		var got []string
		for _, f := range w.OnShelf.Bottles[0].Fills {
			require.Equal(t, "developer.working", f.Bath.Ref(), c.name)
			said := f.Vessel.Key
			if tank, family, ok := strings.Cut(f.Vessel.Key, ","); ok {
				said = tank
				if f.OtherFill {
					said += " for " + family
				}
			}
			got = append(got, said+" "+f.N.Shown)
		}
		slices.Sort(got)
		require.Equal(t, c.want, strings.Join(got, ", "), c.name)
	}
}
