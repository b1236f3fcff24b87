package capacity

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/unit"
)

// TestRoom: how many whole rolls still go into a bath, so that the last of them does
// not pass the limit.
func TestRoom(t *testing.T) {
	for _, c := range []struct {
		done unit.Rolls
		made unit.Volume
		most unit.RollsPerLitre
		room int
	}{
		{0, 1000, 4, 4},
		{3, 1000, 4, 1},
		{3.1, 1000, 4, 0},
		{4, 1000, 4, 0},
		{4.5, 1000, 4, 0},
		{2.9, 1500, 4, 3},
		{3.1, 1500, 4, 2},
		{0.3, 500, 4.6, 2}, // 2.3 − 0.3 is two, whatever a machine's last digit says
	} {
		require.Equal(t, c.room, Room(c.done, c.made, c.most), "%v rolls done in %v ml at %v", c.done, c.made, c.most)
	}
}
