package work_test

import (
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build/load"
	"wetside/content"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// TestChemistry: a strong alkali and a strong acid keep their own pH and are told apart, and a
// step has what the water can hold only where it is too little in every batch.
func TestChemistry(t *testing.T) {
	file := func(add, amount, more string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("name = \"a bath\"\nper = \"1 L\"\ndensity = \"1.01 g/mL\"\n" + more + "[[step]]\nadd = \"" + add + "\"\namount = \"" + amount + "\"\n")}
	}
	got, err := load.Folder(fstest.MapFS{"lab.toml": {Data: []byte("[lab]\nname = \"a test\"\n")},
		"solutions/caustic.toml": file("sodium-hydroxide", "10 g", ""),
		"solutions/sour.toml":    file("sulfuric-acid", "10 mL", ""),
		"solutions/full.toml":    file("borax.decahydrate", "45 g", "start = { with = \"800 mL\" }\n"),
		"solutions/room.toml":    file("borax.decahydrate", "35 g", "start = { with = \"800 mL\" }\n"),
	}, content.FS)
	require.NoError(t, err)
	require.False(t, got.Faults.HasErrors(), "%v", got.Faults)
	w := work.Of(got.Lab, unit.Date{})
	for ref, alkaline := range map[string]bool{"caustic.stock": true, "sour.stock": false} {
		a := w.Bath(ref).Acid.Cool
		require.NotNil(t, a.Within, "%s: %s", ref, a.PH.Why)
		require.Equal(t, alkaline, a.Alkaline, ref)
	}
	for _, s := range w.Solutions {
		if s.Decl.ID == "full" || s.Decl.ID == "room" {
			require.Equal(t, s.Decl.ID == "full", s.Steps[0].Loads != nil, s.Decl.ID)
		}
	}
}
