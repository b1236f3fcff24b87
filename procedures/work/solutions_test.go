package work

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestNamesOfTheSheet: an ingredient that is no chemical of the lab keeps the name of the
// supplier's sheet, with its commas and hyphens; only its id has none that would part it.
func TestNamesOfTheSheet(t *testing.T) {
	w := workOf(t, `
-- lab.toml --
[lab]
name = "Test"
-- products/soap.toml --
name = "soap"
state = "liquid"
density = "1.0 g/mL"
contains = { "1,2-benzisothiazolin-3(2H)-one" = "<0.1 % w/w", water = "rest" }
`, "2026-03-14")
	part := w.Products[0].Parts[0]
	require.Equal(t, "1,2-benzisothiazolin-3(2H)-one", part.Name)
	require.Equal(t, "soap.supplied/share.1-2-benzisothiazolin-3(2H)-one", part.ByMass.ID)
}
