package work_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/work"
)

// otherAcids lists what stands in the place of the acid of a solution of the binder acids.txtar.
func otherAcids(t *testing.T, solution string, replace ...string) (out []work.OtherForm) {
	t.Helper()
	for _, s := range archived(t, "acids.txtar", replace...).Solutions {
		if s.Decl.ID != solution {
			continue
		}
		for _, x := range s.Steps {
			for _, o := range x.Others {
				if o.Milder {
					out = append(out, o)
				}
			}
		}
	}
	return out
}

// TestMilderAcid: which acid may stand in the place of sulfuric acid, and where there is no amount.
func TestMilderAcid(t *testing.T) {
	milder := otherAcids(t, "bleach")
	require.Len(t, milder, 1)
	require.Equal(t, "43.2", milder[0].Takes[0].Take.Amount.Shown)

	require.Empty(t, otherAcids(t, "mild"), "nobody is led to the stronger acid")

	gone := otherAcids(t, "bleach", `of = "sodium-hydrogensulfate.anhydrous"`, `of = "citric-acid.anhydrous"`,
		`add = "sodium-hydrogensulfate.anhydrous"`, `add = "citric-acid.anhydrous"`)
	require.Equal(t, "it is not among the chemicals of this lab", gone[0].Takes[0].Refused)
	used := otherAcids(t, "bleach", `of = "sodium-hydrogensulfate.anhydrous"`, `of = "citric-acid.anhydrous"`)
	require.Empty(t, used[0].Takes[0].Refused, "another recipe holds it")
	stored := otherAcids(t, "bleach", `add = "sodium-hydrogensulfate.anhydrous"`, `add = "citric-acid.anhydrous"`)
	require.Empty(t, stored[0].Takes[0].Refused, "it stands in the store")

	require.Empty(t, otherAcids(t, "bleach", `add = "sulfuric-acid.solution-96"`, `add = "acetic-acid.glacial"`),
		"an acid of another kind")
	shunned := otherAcids(t, "bleach", `add = "sodium-hydrogensulfate.anhydrous"`,
		`add = "citric-acid.anhydrous"`, "[[pack]]\nof = \"sodium-hydrogensulfate.anhydrous\"\nleft = \"500 g\"", "")
	require.NotEmpty(t, shunned[0].Takes[0].Refused, "it is neither in the store nor in a recipe")
}
