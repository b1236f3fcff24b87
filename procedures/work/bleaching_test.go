package work_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/work"
)

// TestBleaching: five times enough is enough, and a hair less is too little.
func TestBleaching(t *testing.T) {
	of := func(change ...string) []work.Bleaching {
		return archived(t, "bleach.txtar", change...).Bath("bleach.stock").Bleaching
	}
	now := of()
	require.Len(t, now, 2)
	require.True(t, now[0].Few, "the press tank, which is the smaller")
	require.False(t, now[1].Few)
	// 0.1 m2 with 3.41296 g/m2 takes 0.1 g, and 500 ml of 1 g/L hold five times that.
	five := of("coated = \"5 g/m2\"", "coated = \"3.412 g/m2\"", "amount = \"2 g\"", "amount = \"1 g\"", "fill = \"600 mL\"", "fill = \"500 mL\"")
	require.False(t, five[1].Few)
	less := of("coated = \"5 g/m2\"", "coated = \"3.415 g/m2\"", "amount = \"2 g\"", "amount = \"1 g\"", "fill = \"600 mL\"", "fill = \"500 mL\"")
	require.True(t, less[1].Few)
	require.Empty(t, of("silver = { coated = \"5 g/m2\", undeveloped = \"60 %\" }", ""))
}
