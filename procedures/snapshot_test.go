package procedures_test

import (
	"os"
	"path/filepath"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/prose"
	"wetside/build/render"
	"wetside/content"
	"wetside/procedures"
	"wetside/procedures/cards"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/testdata/binders"
)

// alike says what makes cards of a kind alike: of those, the first is enough.
func alike(kind, lab string, p page.Page) string {
	switch kind {
	case "shelf", "mixing": // every bottle and every bath is a case of its own
		return lab + p.ID
	case "process", "capacity": // one for film, one for prints
		return lab + p.KindLine
	}
	return p.KindLine
}

// TestSnapshots holds the cards of every kind, as plain text, against what a person has
// read. WETSIDE_GOLDEN=write makes them anew; read what has changed before it is kept.
func TestSnapshots(t *testing.T) {
	labs, err := filepath.Glob("cards/testdata/*.txtar")
	require.NoError(t, err)
	require.NotEmpty(t, labs)
	texts, held := map[string]string{}, map[string]bool{}
	for _, name := range labs {
		b, made := bound(t, name)
		for _, k := range cards.Kinds {
			for _, p := range cardsOf(b, k, made[k.Name]) {
				if like := k.Name + " " + alike(k.Name, name, p); !held[like] {
					held[like] = true
					texts[k.Name] += "[" + filepath.Base(name) + ": " + p.ID + "]\n\n" + render.Terminal(p, 0, 78) + "\n"
				}
			}
		}
	}
	var want []string
	for _, k := range cards.Kinds {
		file := filepath.Join("cards", "testdata", k.Name+".txt")
		want = append(want, file)
		require.NotEmpty(t, texts[k.Name], "no lab in testdata has a card of the kind %q", k.Name)
		if os.Getenv("WETSIDE_GOLDEN") == "write" {
			require.NoError(t, os.WriteFile(file, []byte(texts[k.Name]), 0o644))
		}
		golden, err := os.ReadFile(file)
		require.NoError(t, err)
		require.Equal(t, string(golden), texts[k.Name], "the cards of the kind %q have changed", k.Name)
	}
	files, err := filepath.Glob("cards/testdata/*.txt")
	require.NoError(t, err)
	require.ElementsMatch(t, want, files, "a snapshot of no kind")
}

// bound works out the lab of an archive, without faults, and lists the ids of the cards
// that each kind made.
func bound(t *testing.T, name string) (procedures.Binder, map[string][]string) {
	t.Helper()
	loaded := binders.Loaded(t, binders.Read(t, name), content.FS)
	made, stop := listen()
	defer stop()
	b, problems := procedures.Compute(loaded.Lab, unit.Date{Year: 2026, Month: 3, Day: 14})
	require.Empty(t, problems)
	known := prose.NewKnown(b, loaded.Notices)
	var notices []page.Page
	for _, n := range loaded.Notices {
		p, faults := prose.Page(n, known)
		require.Empty(t, faults)
		notices = append(notices, p)
	}
	b.Finish(notices...)
	return b, made
}

// listen notes the ids of the cards that each kind makes, until it is stopped.
func listen() (made map[string][]string, stop func()) {
	was := slices.Clone(cards.Kinds)
	made = map[string][]string{}
	for i, k := range was {
		cards.Kinds[i].Make = func(c *cards.Context) []page.Page {
			pages := k.Make(c)
			for _, p := range pages {
				made[k.Name] = append(made[k.Name], p.ID)
			}
			return pages
		}
	}
	return made, func() { copy(cards.Kinds, was) }
}

// cardsOf are the finished cards that a kind has made, in the order of the binder. A kind
// that makes none itself is held by the first that bears its name.
func cardsOf(b procedures.Binder, k cards.Kind, made []string) []page.Page {
	var out []page.Page
	for _, p := range b.Pages {
		if slices.Contains(made, p.ID) {
			out = append(out, p)
		}
	}
	if i := slices.IndexFunc(b.Pages, func(p page.Page) bool { return p.Kind == k.Name }); len(made) == 0 && i >= 0 {
		out = append(out, b.Pages[i])
	}
	return out
}
