package work

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// shelves is a lab that fixes films in a bath of its own, stops them in one that is made
// on the spot and rinses them in one that is bought.
const shelves = `
-- lab.toml --
[lab]
name = "Test"
[cylinder.thousand]
holds = "1000 mL"
-- chemicals/salt.toml --
name = "salt"
[form.pure]
formula = "none"
-- products/rinse.toml --
name = "rinse"
[strength.working]
dilute = "1+9"
use = "one-shot"
-- solutions/fixer.toml --
name = "fixer"
per = "1 L"
keeps = { full = "90 days", part = "30 days" }
[[step]]
add = "salt.pure"
amount = "200 g"
[strength.film]
dilute = "1+4"
use = "re-use"
keeps = { full = "60 days", part = "20 days" }
limits = [ { by = "rolls", most = "4 rolls/L" } ]
-- solutions/stop.toml --
name = "stop"
per = "1 L"
keeps = { full = "90 days", part = "30 days" }
[[step]]
add = "salt.pure"
amount = "20 g"
[strength.once]
dilute = "1+4"
use = "one-shot"
-- solutions/brew.toml --
name = "brew"
per = "1 L"
[[step]]
add = "fixer.film"
amount = "500 mL"
-- materials/film.toml --
name = "film"
base = "film"
formats = ["roll"]
[format.roll]
family = "135"
rolls = "1 rolls"
area = "516 cm2"
-- processes/films.toml --
name = "films"
base = "film"
[[step]]
id = "stop"
bath = "stop.once"
time = "1:00"
[[step]]
id = "fix"
bath = "fixer.film"
time = "5:00"
[[step]]
id = "wash"
do = "wash in running water"
time = "1:00"
[[step]]
id = "again"
bath = "fixer.film"
time = "1:00"
[[step]]
id = "rinse"
bath = "rinse.working"
time = "1:00"
`

// TestLacks: what a process and a solution do not find on the shelf: each bath once, what is
// dead beside what is missing, and what it would be made of where that is missing too. What
// is diluted on the spot is no bath to stand there.
func TestLacks(t *testing.T) {
	kinds := map[LackKind]string{DeadBottle: "dead", SpentBottle: "spent", PlacelessBottle: "placeless", UnjudgedBottle: "unjudged", MissingBath: "missing", OnlyUsed: "only used", NotInStore: "not in store", UsedUp: "used up", TooLittle: "too little", Unmeasured: "unmeasured"}
	n := 0
	bottle := func(of, mixed, more string) string {
		n++
		return fmt.Sprintf("-- shelf/b%d.toml --\nof = %q\nmixed = %s\nmade = { amount = \"1 L\", into = [\"1 L\"] }\n%s", n, of, mixed, more)
	}
	did := func(on, worked string) string {
		return "[[log]]\non = " + on + "\nopened = true\ndrew = \"5 mL\"\nworked = [\"" + worked + "\"]\n"
	}
	const fresh, old = "2026-03-10", "2025-01-10"
	stop := bottle("stop.stock", fresh, "")
	pack := func(left string) string {
		return "-- store.toml --\npack = [ { of = \"rinse.supplied\", left = \"" + left + "\", size = \"1 L\" } ]\n"
	}
	const salt = "-- store.toml --\npack = [ { of = \"salt.pure\", left = \"500 g\", size = \"1 kg\" } ]\n"
	half := strings.ReplaceAll(bottle("fixer.film", fresh, ""), "1 L", "500 mL")
	less := strings.ReplaceAll(bottle("fixer.film", fresh, ""), "1 L", "499 mL")
	for _, c := range []struct {
		name, shelf    string
		process, brews []string
	}{
		// A litre of the brew takes half a litre of the fixer.
		{"just enough for another bath", stop + half, nil, nil},
		{"a little less", stop + less, nil, []string{"too little fixer.film"}},
		{"nobody keeps batches", "", nil, nil},
		{"all that is wanted stands here", stop + bottle("fixer.film", fresh, ""), nil, nil},
		{"neither the bath nor its stock", stop, []string{"missing fixer.film", "missing fixer.stock"}, []string{"missing fixer.film", "missing fixer.stock"}},
		{"its stock stands here", stop + bottle("fixer.stock", fresh, ""), []string{"missing fixer.film"}, []string{"missing fixer.film"}},
		{"the bath is dead, and its stock stands here", stop + bottle("fixer.film", old, "") + bottle("fixer.stock", fresh, ""), []string{"dead fixer.film", "missing fixer.film"}, []string{"dead fixer.film", "missing fixer.film"}},
		{"a dead one beside one that is good", stop + bottle("fixer.film", old, "") + bottle("fixer.film", fresh, ""), []string{"dead fixer.film"}, []string{"dead fixer.film"}},
		{"what is made on the spot from a stock that is not here", bottle("fixer.film", fresh, ""), []string{"missing stop.stock"}, nil},
		{"a used bath is good for films, and goes into no other", stop + bottle("fixer.film", fresh, did("2026-03-12", "1 film.roll")), nil, []string{"only used fixer.film", "missing fixer.stock"}},
		{"a used and an unused one", stop + bottle("fixer.film", fresh, did("2026-03-12", "1 film.roll")) + bottle("fixer.film", fresh, ""), nil, nil},
		{"nobody knows what is bought: the store has other packs", stop + bottle("fixer.film", fresh, "") + salt, []string{"not in store rinse.supplied"}, nil},
		{"a pack of it is empty", stop + bottle("fixer.film", fresh, "") + pack("0 mL"), []string{"used up rinse.supplied"}, nil},
		{"a little is left of it", stop + bottle("fixer.film", fresh, "") + pack("1 mL"), nil, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := workOf(t, shelves+c.shelf, "2026-03-14")
			said := func(lacks []Lack) (out []string) {
				for _, l := range lacks {
					out = append(out, kinds[l.Kind]+" "+l.Bath.Ref())
					require.Equal(t, l.Kind == DeadBottle, l.Bottle != nil, "a lack names the bottle that it is about")
				}
				return out
			}
			require.Equal(t, c.process, said(w.Processes[0].Lacks))
			for _, s := range w.Solutions {
				if s.Made.Bath.Ref() == "brew.stock" {
					require.Equal(t, c.brews, said(append(s.Lacks, slices.Concat(s.Short...)...)))
				}
			}
		})
	}
}
