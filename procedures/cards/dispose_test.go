package cards

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/page"
)

// TestWayRows: however many baths go the same way, no row names more than a sheet has room for,
// every one stands once, and each row says where to.
func TestWayRows(t *testing.T) {
	for _, n := range []int{1, mostNames, mostNames + 1, 300} {
		way := page.Way{No: true, To: page.Say(page.W("nowhere")), Names: make([]page.DiscName, n)}
		named := 0
		for _, row := range wayRows(way) {
			require.LessOrEqual(t, len(row.Names), mostNames)
			require.Equal(t, way.To, row.To)
			require.True(t, row.No)
			named += len(row.Names)
		}
		require.Equal(t, n, named)
	}
}
