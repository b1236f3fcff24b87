package capacity

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
)

// TestCoat: what so many sheets take, rounded up to even millilitres, and what is brushed
// onto one. Where nobody has written the size of a sheet, or what covers it, there is no
// answer; what covers a sheet needs no size.
func TestCoat(t *testing.T) {
	for _, c := range []struct {
		name, coat, format string
		sheets             int
		mix, one           string
	}{
		// 40 ml on a square metre are 2 ml on 500 cm²; the brush keeps a fifth as much again.
		{"by area", `coat = "40 mL/m2"`, "rag.large", 5, "10 ml", "2.0 ml"},
		{"with what stays in the brush", "coat = \"40 mL/m2\"\nloss = \"20 %\"", "rag.large", 5, "12 ml", "2.0 ml"},
		{"a little more than an even number", "coat = \"40 mL/m2\"\nloss = \"20.1 %\"", "rag.large", 5, "14 ml", "2.0 ml"},
		{"one sheet goes to the nearest tenth", `coat = "41.5 mL/m2"`, "rag.large", 1, "4 ml", "2.1 ml"},
		{"by the sheet", `coat = "2.5 mL/sheet"`, "rag.large", 4, "10 ml", "2.5 ml"},
		{"by the sheet, with what stays in the brush", "coat = \"2.5 mL/sheet\"\nloss = \"20 %\"", "rag.large", 4, "12 ml", "2.5 ml"},
		{"by the sheet, of which nobody knows the size", `coat = "2.5 mL/sheet"`, "rag.odd", 4, "10 ml", "2.5 ml"},
		{"by area, and nobody knows the size", `coat = "40 mL/m2"`, "rag.odd", 5, "", ""},
		{"nobody knows what covers it", `use = "tray"`, "rag.large", 5, "", ""},
		{"nor whether it is brushed on at all", "", "rag.large", 5, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			strength := ""
			if c.coat != "" {
				strength = "[strength.stock]\n" + c.coat + "\n"
			}
			m := mixerOf(t, used+"-- solutions/brushed.toml --\nname = \"brushed\"\nper = \"1 L\"\n[[step]]\nadd = \"salt.pure\"\namount = \"5 g\"\n"+strength)
			b, bad := m.Lab.Bath("brushed.stock", figure.Where{})
			require.Empty(t, bad)
			f, ok := FormatNamed(m.Lab, c.format)
			require.True(t, ok)
			v, ok := Coat(m, b, f, c.sheets)
			require.Equal(t, c.mix != "", ok)
			require.Equal(t, c.mix, shown(v.Record()))
			if ok {
				last := v.Record().Inputs[len(v.Record().Inputs)-1]
				require.Equal(t, !strings.Contains(c.coat, "loss"), strings.HasSuffix(last.Name, "none written"), last.Name)
			}
			require.Equal(t, c.one, shown(CoatSheet(m, b, f)))
		})
	}
}
