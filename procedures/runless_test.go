package procedures_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render"
	"wetside/procedures/page"
)

const trayless = `
-- lab.toml --
[lab]
name = "Test"
-- materials/paper.toml --
name = "paper"
base = "resin-coated"
formats = ["20x25"]
-- solutions/fix.toml --
name = "fixer"
role = "fixer"
per = "1 L"
[[step]]
add = "citric-acid.anhydrous"
amount = "15 g"
-- processes/print.toml --
name = "prints"
base = "resin-coated"
[[step]]
id = "fix"
bath = "fix.stock"
time = "1:15"
[[step]]
id = "wash"
do = "wash"
time = "4:00"
`

// TestAProcessWithoutATrayKeepsItsTimes: where nothing is written to pour a bath into, nobody can say how
// much of it is wanted, and the card says so; how long it works stands there all the same.
func TestAProcessWithoutATrayKeepsItsTimes(t *testing.T) {
	const tray = "[tray.one]\nfill = \"1 L\"\n"
	for _, c := range []struct {
		name       string
		lab, paper string // put in, and changed of the paper
		hole       string
		says, not  []string
	}{
		{"no tray", "", "", "this lab has no tray on its list", []string{"1:15", "4:00", "fixer, stock; how much: ____ ask first"}, nil},
		{"no paper", tray, "film", "no paper of this lab goes through it", []string{"1:15", "4:00"}, nil},
		{"a tray for another format", tray + "takes = [\"30x40\"]\n", "", "nothing that goes through it fits a tray", []string{"1:15", "how much: ____ ask first"}, nil},
		{"a tray", tray, "", "", []string{"1:15", "4:00", "1000 ml fixer"}, []string{"how much"}},
	} {
		archive := strings.Replace(trayless, "name = \"Test\"\n", "name = \"Test\"\n"+c.lab, 1)
		switch c.paper {
		case "film":
			archive = strings.Replace(archive, "base = \"resin-coated\"\nformats = [\"20x25\"]", "base = \"film\"\nformats = [\"4x5\"]", 1)
		}
		seen := false
		for _, p := range pagesOf(t, archive) {
			seen = seen || p.ID == "process/print"
			if p.ID != "process/print" {
				continue
			}
			text := render.Terminal(page.OnScreen(p, -1), 0, 300)
			for _, want := range c.says {
				require.Contains(t, text, want, c.name)
			}
			for _, no := range c.not {
				require.NotContains(t, text, no, c.name)
			}
			var holes []string
			for _, h := range p.Foot.Holes {
				holes = append(holes, h.What)
			}
			if said := strings.Join(holes, "; "); c.hole == "" {
				require.NotContains(t, said, "how much", c.name)
			} else {
				require.Contains(t, said, c.hole, c.name)
			}
		}
		require.True(t, seen, c.name)
	}
}
