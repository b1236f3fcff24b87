package build_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/procedures/cards"
	"wetside/procedures/page"
)

// small is a lab with one print and one film process, to which a case adds its files.
func small(more map[string]string) map[string]string {
	files := map[string]string{
		"lab.toml":               "[lab]\nname = \"Test\"\n[scale.a]\nreads = \"0.1 g\"\n[cylinder.one]\nholds = \"500 mL\"\ngraduation = \"5 mL\"\n[tray.big]\nfill = \"1 L\"\n[tank.solo]\ntakes = { 135 = 1 }\nfill = \"300 mL\"\n",
		"solutions/dev.toml":     "name = \"dev\"\nrole = \"developer\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-sulfite.anhydrous\"\namount = \"30 g\"\n[strength.working]\ndilute = \"1+1\"\nuse = \"tray\"\n",
		"materials/paper.toml":   "name = \"paper\"\nbase = \"fibre\"\nformats = [\"18x24\"]\ndevelop = [{ in = \"dev.working\", at = \"20 °C\", time = \"2:00\" }]\n",
		"materials/film.toml":    "name = \"film\"\nbase = \"film\"\nformats = [\"135-36\"]\ndevelop = [{ in = \"dev.working\", at = \"20 °C\", time = \"10:00\" }]\n",
		"processes/print.toml":   "name = \"print\"\nbase = \"fibre\"\n[agitate.rock]\nfirst = \"continuous for 20 s\"\nthen = \"1 every 20 s\"\n[[step]]\nid = \"develop\"\nbath = \"dev.working\"\ntime = \"material\"\nagitate = \"rock\"\n",
		"processes/film.toml":    "name = \"film dev\"\nbase = \"film\"\n[[step]]\nid = \"develop\"\nbath = \"dev.working\"\ntime = \"material\"\n",
		"processes/presoak.toml": "name = \"presoak\"\nbase = \"film\"\n[[step]]\nid = \"soak\"\nfills = [1]\ntime = \"1:00\"\n[[step]]\nid = \"develop\"\nbath = \"dev.working\"\ntime = \"material\"\n",
	}
	for name, text := range more {
		if old, ok := files[name]; ok && strings.HasPrefix(text, "+") {
			text = old + text[1:]
		}
		files[name] = text
	}
	return files
}

// TestNoCrash: what once stopped the program is worked out, or is a fault at its place
// that names the two that clash.
func TestNoCrash(t *testing.T) {
	for _, c := range []struct {
		name  string
		more  map[string]string
		fault string
	}{
		{"a print process that the material times and that is agitated", nil, ""},
		{"two cylinders of one size that are divided otherwise", map[string]string{"lab.toml": "+[cylinder.two]\nholds = \"500 mL\"\ngraduation = \"10 mL\"\ntolerance = \"8 mL\"\n"}, ""},
		{"a general limit and a special one", map[string]string{"solutions/dev.toml": "+limits = [{ by = \"area\", most = \"1.0 m2/L\" }, { by = \"area\", for = \"fibre\", most = \"2.0 m2/L\" }]\n"}, ""},
		{"two limits that count the same", map[string]string{"solutions/dev.toml": "+limits = [{ by = \"area\", most = \"1.0 m2/L\" }, { by = \"area\", most = \"2.0 m2/L\" }]\n"}, "solutions/dev.toml"},
		{"place 0 in a limit", map[string]string{"solutions/dev.toml": "+limits = [{ by = \"area\", place = 0, most = \"1.0 m2/L\" }, { by = \"area\", place = 1, most = \"2.0 m2/L\" }]\n"}, "solutions/dev.toml"},
		{"a percent solution of no volume", map[string]string{"solutions/pct.toml": "name = \"pct\"\nper = \"0 mL\"\ndissolve = { add = \"potassium-bromide\", strength = \"10 % w/v\", in = \"water\" }\nstart = { with = \"80 mL\" }\n"}, "solutions/pct.toml"},
		{"a process with the name of a board", map[string]string{"processes/emergency.toml": "name = \"emergency\"\nbase = \"uncoated\"\n[[step]]\nid = \"x\"\ndo = \"call\"\n"}, "processes/emergency.toml"},
		{"another process with the name of a board", map[string]string{"processes/never-together.toml": "name = \"never together\"\nbase = \"uncoated\"\n[[step]]\nid = \"x\"\ndo = \"x\"\n"}, "processes/never-together.toml"},
		{"a batch with the name of a bath’s label", map[string]string{"shelf/sheet.toml": "of = \"dev\"\nmixed = 2026-03-01\nmade = { amount = \"1 L\" }\n"}, "shelf/sheet.toml"},
		{"no tank, no tray, no scale", map[string]string{"lab.toml": "[lab]\nname = \"Test\"\n"}, ""},
		{"a tank of nothing", map[string]string{"lab.toml": "+[tank.none]\ntakes = { 135 = 0 }\nfill = \"1 mL\"\n"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			r, err := build.Bind(options(folder(small(c.more))))
			require.NoError(t, err)
			if c.fault == "" {
				require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
				require.Empty(t, newCourt(r).holds())
				return
			}
			require.True(t, r.Faults.HasErrors())
			require.Empty(t, r.Files)
			for _, f := range r.Faults {
				require.Equal(t, c.fault, f.Span.File, "%v", f)
				require.NotEmpty(t, f.Hint)
			}
		})
	}
}

// TestMistakeNamesItsCard: what goes wrong in the program while it makes cards of one
// kind names the kind.
func TestMistakeNamesItsCard(t *testing.T) {
	kinds := cards.Kinds
	defer func() { cards.Kinds = kinds }()
	cards.Kinds = append(kinds[:len(kinds):len(kinds)], cards.Kind{Name: "broken", Make: func(*cards.Context) []page.Page { panic("x/y@z is not finite") }})
	require.PanicsWithError(t, "while the broken cards were made: x/y@z is not finite", func() { build.Work(options(folder(small(nil)))) })
}
