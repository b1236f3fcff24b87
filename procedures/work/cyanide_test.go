package work

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
)

// TestCyanideTold: what is too little to speak of is not told, and what nobody knows always is.
func TestCyanideTold(t *testing.T) {
	of := func(grams float64) *Cyanide {
		return &Cyanide{Unwashed: &figure.Record{Core: &figure.Core{Value: grams}}}
	}
	require.True(t, (&Cyanide{Why: noTank}).told())
	require.True(t, of(0.0001).told())
	require.False(t, of(0.000099).told())
}
