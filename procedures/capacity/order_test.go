package capacity

import (
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"wetside/build/load"
	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// mixerOf is a small lab, written as an archive of its files.
func mixerOf(t *testing.T, archive string) *mix.Mixer {
	t.Helper()
	files := fstest.MapFS{}
	for _, f := range txtar.Parse([]byte(archive)).Files {
		files[f.Name] = &fstest.MapFile{Data: f.Data}
	}
	loaded, err := load.Folder(files, fstest.MapFS{})
	require.NoError(t, err)
	require.Empty(t, loaded.Faults)
	bench, problems := mix.NewBench(loaded.Lab)
	require.Empty(t, problems)
	return mix.New(loaded.Lab, bench, figure.NewLedger())
}

// store is a lab in which a delivery takes a month and is to last two: a salt, an acid of
// 600 g in a litre, and a concentrate.
const store = `
-- lab.toml --
[lab]
name = "Test"
[house]
order_lead = "1 month"
order_cover = "2 months"
-- chemicals/salt.toml --
name = "salt"
[form.pure]
formula = "none"
-- chemicals/acid.toml --
name = "acid"
[form.liquid]
formula = "none"
density = "1.2 g/mL"
content = "50 % w/w"
-- products/concentrate.toml --
name = "concentrate"
-- store.toml --
`

func shown(r *figure.Record) string {
	if r == nil {
		return ""
	}
	return strings.TrimSpace(r.Shown + " " + r.Unit)
}

// TestOrders: what is used and what is missing is rounded up and what is in the house
// down, so that nobody runs short by a rounding; what the store does not say is never
// nought.
func TestOrders(t *testing.T) {
	for _, c := range []struct {
		name, of, pack                    string
		use                               float64
		month, have, missing, packs, says string
	}{
		{"a little is missing: one whole pack", "salt.pure", `left = "300.5 g", size = "500 g"`, 100.25, "101 g", "300 g", "1 g", "1", ""},
		{"just enough", "salt.pure", `left = "300 g", size = "500 g"`, 100, "100 g", "300 g", "0 g", "0", ""},
		{"more than enough", "salt.pure", `left = "400 g", size = "500 g"`, 100, "100 g", "400 g", "0 g", "0", ""},
		{"a whole pack is missing", "salt.pure", `left = "0 g", size = "300 g"`, 100, "100 g", "0 g", "300 g", "1", ""},
		{"a little more than a pack", "salt.pure", `left = "0 g", size = "300 g"`, 100.01, "101 g", "0 g", "301 g", "2", ""},
		{"with a reserve", "salt.pure", `left = "300 g", size = "500 g", reserve = "40.2 g"`, 100, "100 g", "300 g", "41 g", "1", ""},
		{"nobody knows what a pack holds", "salt.pure", `left = "290 g"`, 100, "100 g", "290 g", "10 g", "", "nobody has written what a pack of it holds"},
		{"nobody knows what is left", "salt.pure", `size = "500 g"`, 100, "100 g", "", "", "", "store.toml does not say what is left of it"},
		{"it stands in no pack", "salt.pure", "", 100, "100 g", "", "", "", "store.toml does not say what is left of it"},
		// 600 g in a litre of the acid.
		{"a liquid by volume", "acid.liquid", `left = "501 mL", size = "250 mL", reserve = "100 mL"`, 100, "100 g", "300 g", "60 g", "1", ""},
		{"a liquid by volume: what is in the house is rounded down", "acid.liquid", `left = "501.5 mL", size = "250 mL"`, 100.5, "101 g", "300 g", "1 g", "1", ""},
		{"a liquid by mass", "acid.liquid", `left = "299.9 g", size = "500 g"`, 100, "100 g", "299 g", "1 g", "1", ""},
		{"a product: a little is missing", "concentrate", `left = "300.6 mL", size = "1 L"`, 100.4, "101 ml", "300 ml", "1 ml", "1", ""},
		{"a product: just enough", "concentrate", `left = "300 mL", size = "1 L"`, 100, "100 ml", "300 ml", "0 ml", "0", ""},
		{"a product: a whole pack", "concentrate", `left = "0 mL", size = "300 mL"`, 100, "100 ml", "0 ml", "300 ml", "1", ""},
		{"a product: a little more than a pack", "concentrate", `left = "0 mL", size = "300 mL"`, 100.01, "101 ml", "0 ml", "301 ml", "2", ""},
		{"a product: with a reserve", "concentrate", `left = "300 mL", size = "1 L", reserve = "40.2 mL"`, 100, "100 ml", "300 ml", "41 ml", "1", ""},
		{"a product: nobody knows what a pack holds", "concentrate", `left = "290 mL"`, 100, "100 ml", "290 ml", "10 ml", "", "nobody has written what a pack of it holds"},
		{"a product: nobody knows what is left", "concentrate", `size = "1 L"`, 100, "100 ml", "", "", "", "store.toml does not say what is left of it"},
		{"a product that stands in no pack", "concentrate", "", 100, "100 ml", "", "", "", "store.toml does not say what is left of it"},
	} {
		t.Run(c.name, func(t *testing.T) {
			pack := ""
			if c.pack != "" {
				pack = "pack = [ { of = \"" + c.of + "\", " + c.pack + " } ]\n"
			}
			m := mixerOf(t, store+pack)
			month := NewMonth(m)
			if c.of == "concentrate" {
				month.products[c.of] = []figure.Figure[unit.Volume]{figure.Constant(unit.Volume(c.use), "bath", "", figure.House)}
			} else {
				month.parts[c.of] = []figure.Figure[unit.Mass]{figure.Constant(unit.Mass(c.use), "bath", "", figure.House)}
			}
			all := month.Orders()
			require.Len(t, all, 1)
			o := all[0]
			require.Equal(t, c.month, shown(o.Use), "a month")
			require.Equal(t, c.have, shown(o.Have), "in the house")
			require.Equal(t, c.missing, shown(o.Missing), "missing")
			require.Equal(t, c.packs, shown(o.Packs), "packs")
			require.Equal(t, c.says, o.Why)
		})
	}
}
