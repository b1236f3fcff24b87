package work_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/work"
)

// stepOf finds a step of a process of the binder crossing.txtar, with one text in it replaced.
func stepOf(t *testing.T, process, id string, replace ...string) *work.Step {
	t.Helper()
	for _, s := range archived(t, "crossing.txtar", replace...).Process(process).Steps {
		if s.Decl.ID == id {
			return s
		}
	}
	t.Fatalf("%s has no step %s", process, id)
	return nil
}

// TestCyanide: where thiocyanate is carried into an acid bath, at which step the process says so, and what
// counts as a wash.
func TestCyanide(t *testing.T) {
	wash := stepOf(t, "washed", "wash").Cyanide
	require.True(t, wash.Rinsed)
	require.False(t, wash.Unsaid)
	require.Equal(t, "34", wash.Unwashed.Shown)
	require.Equal(t, "0.084", wash.Washed.Shown, "both in the small tank, which dilutes it least")
	require.Nil(t, stepOf(t, "washed", "bleach").Cyanide, "it stands at the wash")
	require.Nil(t, stepOf(t, "washed", "rinse").Cyanide, "after the bleach there is none left")

	bare := stepOf(t, "unwashed", "bleach").Cyanide
	require.False(t, bare.Rinsed, "nobody can count on a wash that may be left out")
	require.Equal(t, "34", bare.Unwashed.Shown)
	require.Nil(t, bare.Washed)
	require.Nil(t, stepOf(t, "unwashed", "wash").Cyanide)

	running := stepOf(t, "running", "wash").Cyanide
	require.True(t, running.Rinsed)
	require.Nil(t, running.Washed, "how much running water takes away is not worked out")
	require.Nil(t, stepOf(t, "running", "stop").Cyanide, "a weak acid that is no bleach")
	require.Equal(t, "bleach", running.Into.Def().ID, "the stop bath between does not take it away")

	require.Nil(t, stepOf(t, "neutral", "bleach").Cyanide, "that bleach holds no acid")
	sour := stepOf(t, "neutral", "bleach", "add = \"potassium-ferricyanide\"", "add = \"citric-acid.anhydrous\"").Cyanide
	require.NotNil(t, sour, "a weak acid is enough in a bleach")
	require.NotEmpty(t, stepOf(t, "prints", "bleach").Cyanide.Why)
	bought := stepOf(t, "bought", "bleach").Cyanide
	require.True(t, bought.Unsaid, "a bleach of which nobody has said what is in it may be acid")
	require.Equal(t, "how much of it there is nobody has written", bought.Why, "by its name alone it has no molar mass")
	require.Nil(t, stepOf(t, "bought", "bleach", `"ammonium thiocyanate"`, `"ammonium carbonate"`).Cyanide)
}

// TestStain: which bath clears the stain of a bleach, and whether it can.
func TestStain(t *testing.T) {
	enough := stepOf(t, "washed", "clear").Stain
	require.False(t, enough.Few)
	require.False(t, enough.NotAcid)
	require.Equal(t, "157", enough.Times.Shown, "in the small tank, where it is enough the fewest times")
	require.Nil(t, stepOf(t, "washed", "bleach").Stain)

	require.True(t, stepOf(t, "unwashed", "clear").Stain.NotAcid)
	require.Nil(t, stepOf(t, "running", "stop-again").Stain, "a stop bath clears nothing")
	require.Nil(t, stepOf(t, "neutral", "clear").Stain, "that bleach leaves no brown stain")
	require.NotEmpty(t, stepOf(t, "prints", "clear").Stain.Why)

	// 30 ml of 2 g/L take 90.2 mg; 570 ml hold them at 0.1583 g/L.
	require.True(t, stepOf(t, "washed", "clear", "amount = \"25 g\"", "amount = \"0.158 g\"").Stain.Few)
	require.False(t, stepOf(t, "washed", "clear", "amount = \"25 g\"", "amount = \"0.159 g\"").Stain.Few)
	other := stepOf(t, "washed", "clear", "add = \"sodium-metabisulfite\"", "add = \"citric-acid.anhydrous\"").Stain
	require.Equal(t, "there is no sulfite in it", other.Why)
}
