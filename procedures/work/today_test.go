package work

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// again is a second process that fixes its films in the same bath.
const again = `
-- processes/others.toml --
name = "others"
base = "film"
[[step]]
id = "fix"
bath = "fixer.film"
time = "5:00"
[[step]]
id = "wash"
do = "wash in running water"
time = "1:00"
`

// TestToday: what the day asks for. To be mixed first is what several processes wait for,
// and what stood here and is dead; what one process alone wants is said of that process.
func TestToday(t *testing.T) {
	shelf := func(of ...string) string {
		out := ""
		for i, b := range of {
			ref, mixed, _ := strings.Cut(b, " ")
			out += "-- shelf/" + string(rune('a'+i)) + ".toml --\nof = \"" + ref + "\"\nmixed = " + mixed + "\nmade = { amount = \"1 L\", into = [\"1 L\"] }\n"
		}
		return out
	}
	const use = "-- lab.toml --\n[lab]\nname = \"Test\"\n[cylinder.thousand]\nholds = \"1000 mL\"\n[use]\nfilms = \"8 film.roll\"\n"
	const fresh, old = "2026-03-10", "2025-01-10"
	ids := func(list []*Bottle) string {
		var out []string
		for _, b := range list {
			out = append(out, b.ID)
		}
		return strings.Join(out, " ")
	}
	for _, c := range []struct {
		name, lab string
		kept      bool
		dead      string
		dying     string
		missing   string
	}{
		{"nobody keeps batches", shelves, false, "", "", ""},
		{"one process waits for a bath", shelves + shelf("stop.stock "+fresh), true, "", "", ""},
		{"two wait for it, and for its stock", shelves + again + shelf("stop.stock "+fresh), true, "", "", "fixer.film: films others; fixer.stock: films others"},
		{"one waits for what is dead", shelves + shelf("stop.stock "+fresh, "fixer.film "+old, "fixer.stock "+fresh), true, "b", "", "fixer.film: films"},
		{"what is dead beside one that is good holds up nobody", shelves + again + shelf("stop.stock "+fresh, "fixer.film "+old, "fixer.film "+fresh), true, "b", "", ""},
		{"what more wait for comes first", shelves + again + shelf("fixer.stock "+fresh, "stop.stock "+old), true, "b", "", "fixer.film: films others; stop.stock: films"},
		{"its last day is in a fortnight", shelves + shelf("stop.stock "+fresh, "fixer.film 2026-01-27"), true, "", "b", ""},
		{"it is a day later", shelves + shelf("stop.stock "+fresh, "fixer.film 2026-01-28"), true, "", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			w := workOf(t, c.lab, "2026-03-14")
			require.Equal(t, c.kept, w.Today.Kept)
			require.Equal(t, c.dead, ids(w.Today.Dead))
			require.Equal(t, c.dying, ids(w.Today.Dying))
			var missing []string
			for _, m := range w.Today.Missing {
				var names []string
				for _, p := range m.HoldsUp {
					names = append(names, p.Decl.ID)
				}
				missing = append(missing, m.Bath.Ref()+": "+strings.Join(names, " "))
			}
			require.Equal(t, c.missing, strings.Join(missing, "; "))
			if !c.kept {
				require.Nil(t, w.Today.DeadCount, "nobody knows how many are dead where none are kept")
				return
			}
			require.EqualValues(t, len(w.Today.Dead), w.Today.DeadCount.Value)
			require.EqualValues(t, len(w.Today.Dying), w.Today.DyingCount.Value)
			require.EqualValues(t, len(w.Today.Missing), w.Today.MissingCount.Value)
		})
	}
	t.Run("what is bought", func(t *testing.T) {
		_, rest, _ := strings.Cut(shelves, "-- chemicals/")
		none := workOf(t, shelves, "2026-03-14")
		require.Nil(t, none.Today.BuyCount, "nobody has written what a month takes")
		pack := func(left string) *Work {
			return workOf(t, use+"-- chemicals/"+rest+"-- store.toml --\npack = [ { of = \"salt.pure\", left = \""+left+"\", size = \"1 kg\" } ]\n", "2026-03-14")
		}
		require.NotEmpty(t, pack("1 g").Today.Buy)
		require.Empty(t, pack("1 kg").Today.Buy)
	})
}
