package cards

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/work"
)

// clash is a pair that gives something of a rank: from two on it kills, explodes or burns.
func clash(word, note string, rank int) work.Clash {
	var c work.Clash
	c.Gives.Word, c.Gives.Rank, c.Note = word, rank, note
	return c
}

// TestNeverLines: a sheet tells all that must never meet something, and what comes of it; a
// label, which has room for few, what gives off gas, explodes or burns, and that the sheet
// knows more. What must never be done stands in its own words.
func TestNeverLines(t *testing.T) {
	gas, fizz := clash("chlorine", "it smells", 3), clash("heat", "", 1)
	acid := work.Meeting{With: "acid", Pairs: []work.Clash{gas}}
	water := work.Meeting{With: "water", Pairs: []work.Clash{fizz}}
	done := work.Meeting{With: "fixer", Never: "use it without the extract", Pairs: []work.Clash{gas}}
	const more = "do anything else that its sheet forbids"
	for _, c := range []struct {
		name         string
		never        work.Never
		sheet, label []string
	}{
		{"nothing", work.Never{}, nil, nil},
		{"what kills", work.Never{Meets: []work.Meeting{acid}}, []string{"let acid meet it: chlorine, it smells"}, []string{"let acid meet it: chlorine"}},
		{"what only spatters", work.Never{Meets: []work.Meeting{water}}, []string{"let water meet it: heat"}, []string{more}},
		{"at the edge of what a label tells", work.Never{Meets: []work.Meeting{{With: "metal", Pairs: []work.Clash{clash("fire", "", 2)}}}}, []string{"let metal meet it: fire"}, []string{"let metal meet it: fire"}},
		{"what must never be done", work.Never{Meets: []work.Meeting{done}}, []string{"use it without the extract: chlorine, it smells"}, []string{more}},
		{"both, and what only spatters", work.Never{Meets: []work.Meeting{acid, water}}, []string{"let acid meet it: chlorine, it smells", "let water meet it: heat"}, []string{"let acid meet it: chlorine", more}},
		{"one word is told once", work.Never{Meets: []work.Meeting{{With: "acid", Pairs: []work.Clash{gas, clash("chlorine", "at once", 3), fizz, clash("fire", "", 2)}}}},
			[]string{"let acid meet it: chlorine, it smells; chlorine, at once; heat; fire"}, []string{"let acid meet it: chlorine, fire"}},
		{"alone, and a line of its route", work.Never{Meets: []work.Meeting{acid}, Alone: true, Lines: []string{"a drain"}},
			[]string{"let acid meet it: chlorine, it smells", "put another waste with it", "a drain"}, []string{"let acid meet it: chlorine", "put another waste with it", "a drain"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Equal(t, c.sheet, neverLines(c.never))
			require.Equal(t, c.label, deadliest(c.never))
		})
	}
	require.Empty(t, unsaidHoles(nil))
	require.Equal(t, "what never meets lithium sulfite, water", unsaidHoles([]string{"lithium sulfite", "water"})[0].What)
}
