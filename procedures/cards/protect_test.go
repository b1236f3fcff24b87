package cards

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// TestDiscs: a column for each piece that some row asks for, in the order in which one puts
// them on. A condition that all rows share stands in the heading, one of a few in its cell,
// and masks of two grades share a column.
func TestDiscs(t *testing.T) {
	gear := func(wear ...work.Worn) work.JobGear { return work.JobGear{Wear: wear} }
	goggles, tight := work.Worn{Sign: "M004", Word: "goggles"}, work.Worn{Sign: "M004", Word: "goggles", Sort: "tight"}
	fine, coarse := work.Worn{Sign: "M016", Word: "FFP3 dust mask for powder"}, work.Worn{Sign: "M016", Word: "FFP2 dust mask for powder"}
	fan, out := work.Worn{Word: "extractor fan on"}, work.Worn{Word: "extractor fan on, or outside"}
	jobs := []work.JobGear{gear(fan, tight, fine), gear(goggles, out), gear(goggles, coarse)}
	pieces := piecesOf(jobs)
	require.Equal(t, []page.Piece{
		{Word: "extractor fan on", Mark: "fan on"}, {Sign: "M004", Word: "goggles"}, {Sign: "M016", Word: "dust mask for powder"},
	}, headings(pieces))
	for i, want := range [][]page.Disc{
		{{Worn: true}, {Worn: true, Word: "tight"}, {Worn: true, Word: "FFP3"}},
		{{Worn: true, Word: "or outside"}, {Worn: true}, {}},
		{{}, {Worn: true}, {Worn: true, Word: "FFP2"}},
	} {
		require.Equal(t, want, discs(pieces, jobs[i].Wear))
	}
	require.Empty(t, piecesOf(nil))
}

// TestEveryPieceHasAColumn: what the rules may ask to wear has a column to stand in.
func TestEveryPieceHasAColumn(t *testing.T) {
	for _, word := range work.Pieces() {
		require.Len(t, piecesOf([]work.JobGear{{Wear: []work.Worn{{Word: word}}}}), 1, word)
	}
}

// TestUnlookedIsAHole: what nobody has looked up is a hole, whatever is worn; what asks for
// nothing says so, and an empty row never stands without a word.
func TestUnlookedIsAHole(t *testing.T) {
	worn := []work.Worn{{Word: "gloves"}}
	for _, c := range []struct {
		name       string
		gear       work.JobGear
		asks, care bool
	}{
		{"looked up, and gloves", work.JobGear{Wear: worn}, false, false}, {"looked up, and nothing to wear", work.JobGear{}, false, true},
		{"not looked up, and gloves", work.JobGear{Unknown: true, Wear: worn}, true, false}, {"not looked up", work.JobGear{Unknown: true}, true, false},
	} {
		require.Equal(t, c.asks, asks(unlooked(c.gear)), c.name)
		require.Equal(t, c.care, len(careOf(c.gear)) > 0, c.name)
	}
}

// TestSortsAreToldOnce: a line that another one begins with is not told again.
func TestSortsAreToldOnce(t *testing.T) {
	var list []string
	for _, kind := range []string{"nitrile (memory)", "nitrile; tongs (memory)", "", "nitrile (memory)", "thick (memory)"} {
		list = together(list, kind)
	}
	require.Equal(t, []string{"nitrile; tongs (memory)", "thick (memory)"}, list)
}
