package parallel

import (
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestEach: every piece is done once, and nothing is left when it returns.
func TestEach(t *testing.T) {
	for _, n := range []int{0, 1, 500} {
		done := make([]atomic.Int32, n)
		Each(n, func(i int) { done[i].Add(1) })
		for i := range done {
			require.EqualValues(t, 1, done[i].Load(), i)
		}
	}
}

// TestPanic: a panic in one piece reaches the caller.
func TestPanic(t *testing.T) {
	require.PanicsWithValue(t, "no", func() {
		Each(20, func(i int) {
			if i == 7 {
				panic("no")
			}
		})
	})
}
