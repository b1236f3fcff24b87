package cards

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// TestLadder: a blank label has a line for each state of its bottle, with how long it keeps
// from that day; a state that nobody has written is a hole beside the others.
func TestLadder(t *testing.T) {
	life := func(state, word, shown string) work.Life {
		return work.Life{State: state, Word: word, Time: figure.Of(figure.Core{ID: state}, figure.Face{Shown: shown})}
	}
	full, part, low, tray := life("full", "full", "6 months"), life("part", "opened", "2 months"), life("low", "below half", "3 weeks"), life("tray", "in the tray", "8 h")
	for _, c := range []struct {
		name         string
		lives        []work.Life
		dates, keeps []string
	}{
		{"all three", []work.Life{full, part, low}, []string{"mixed on _", "full 6 months, until _", "opened on _", "opened 2 months, until _", "below half on _", "below half 3 weeks, until _", "by _"}, nil},
		{"one is not written", []work.Life{full, part}, []string{"mixed on _", "full 6 months, until _", "opened on _", "opened 2 months, until _", "by _"}, []string{"below half: ask first"}},
		{"the first is not written", []work.Life{part, low, tray}, []string{"mixed on _", "discard by _", "opened on _", "opened 2 months, until _", "below half on _", "below half 3 weeks, until _", "by _"}, []string{"full: ask first", "in the tray 8 h"}},
		{"none is", []work.Life{tray}, nil, nil},
	} {
		var l page.Label
		ladder(&l, &work.Bath{Lives: c.lives})
		said := func(list []page.Text) (out []string) {
			for _, line := range list {
				s := ""
				for _, in := range line {
					switch in.Kind {
					case page.Fig:
						s += in.Figures[0].Shown
					case page.Blank:
						s += "_"
					case page.Ask:
						s += "ask " + in.Text
					default:
						s += in.Text
					}
				}
				out = append(out, s)
			}
			return out
		}
		require.Equal(t, c.dates, said(l.Ladder), c.name)
		require.Equal(t, c.keeps, said(l.Rest), c.name)
	}
}
