package work_test

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// TestCarrying: the second bath against its limit, what nobody has written, and a stop bath of which
// nobody can tell.
func TestCarrying(t *testing.T) {
	one := archived(t, "carrying.txtar").Carrying
	require.Len(t, one, 1)
	print := one[0].Prints[0]
	require.True(t, print.Second.Over, "0.50 g/L at the upper end against 0.45")
	require.True(t, print.Second.Known)
	require.NotNil(t, one[0].Leaves)
	require.Equal(t, "20", print.First.Shown)
	require.NotNil(t, print.Stopped)

	lax := archived(t, "carrying.txtar", "most = \"0.45 g/L\"", "most = \"0.5 g/L\"").Carrying[0]
	require.False(t, lax.Prints[0].Second.Over, "exactly at the limit passes")
	silent := archived(t, "carrying.txtar", "first_fix_leaves = \"10 %\"", "").Carrying[0]
	require.False(t, silent.Prints[0].Second.Known)
	require.Nil(t, silent.Leaves)
	require.Less(t, silent.Prints[0].Second.Held.Value, print.Second.Held.Value)
	require.False(t, silent.Prints[0].Second.Over)

	wet := archived(t, "carrying.txtar", "carry = \"200 mL/m2\"", "carry = \"400 mL/m2\"").Carrying[0]
	require.Less(t, wet.Prints[0].Stopped.Value, print.Stopped.Value)
	require.Greater(t, wet.Prints[0].Second.Held.Value, print.Second.Held.Value)
	require.Empty(t, archived(t, "carrying.txtar", "carry = \"200 mL/m2\"", "").Carrying, "nobody has written what clings to it")
	sour := archived(t, "carrying.txtar", "sodium-carbonate.monohydrate", "citric-acid.anhydrous").Carrying[0]
	require.NotEmpty(t, sour.StopWhy)
	require.Nil(t, sour.Prints[0].Stopped)
	lone := archived(t, "carrying.txtar", "role = \"stop\"", "role = \"clearing\"").Carrying[0]
	require.Nil(t, lone.Stop)
	require.NotNil(t, lone.Fixer)
}
