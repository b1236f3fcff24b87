package cards

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// clash is a pair that gives something of a rank: from two on it kills, explodes or burns.
func clash(word, note string, rank int) work.Clash {
	var c work.Clash
	c.Gives.Word, c.Gives.Rank, c.Note = word, rank, note
	return c
}

// TestNeverLines: a sheet tells all that must never meet something, and what comes of it:
// first what gives off gas, explodes or burns, then the routes' own lines, then the rest. A
// label has room for few: each with that word alone, and last that the sheet knows more.
func TestNeverLines(t *testing.T) {
	gas, fizz := clash("chlorine", "it smells", 3), clash("heat", "", 1)
	meets := func(with string, pairs ...work.Clash) work.Meeting { return work.Meeting{With: with, Pairs: pairs} }
	acid, water := meets("acid", gas), meets("water", fizz)
	done := work.Meeting{With: "fixer", Never: "use it without the extract", Pairs: []work.Clash{gas}}
	const more = "do what else the sheet of this drum forbids: read it first"
	a, b, c := meets("a", gas), meets("b", gas), meets("c", gas)
	for _, c := range []struct {
		name         string
		never        work.Never
		sheet, label []string
	}{
		{"nothing", work.Never{}, nil, nil},
		{"what kills", work.Never{Meets: []work.Meeting{acid}}, []string{"let acid meet it: chlorine, it smells"}, []string{"let acid meet it: chlorine"}},
		{"at the edge of what kills", work.Never{Meets: []work.Meeting{water, meets("metal", clash("fire", "", 2))}}, []string{"let metal meet it: fire", "let water meet it: heat"}, []string{"let metal meet it: fire", "let water meet it: heat"}},
		{"what must never be done", work.Never{Meets: []work.Meeting{done, acid}}, []string{"let acid meet it: chlorine, it smells", "use it without the extract: chlorine, it smells"}, []string{"let acid meet it: chlorine", "use it without the extract: chlorine, it smells"}},
		{"one word is told once", work.Never{Meets: []work.Meeting{meets("acid", gas, clash("chlorine", "at once", 3), fizz, clash("fire", "", 2))}},
			[]string{"let acid meet it: chlorine, it smells; chlorine, at once; heat; fire"}, []string{"let acid meet it: chlorine, fire"}},
		{"alone, and a line of its route", work.Never{Meets: []work.Meeting{acid, water}, Alone: true, Lines: []string{"a drain", "a drain"}},
			[]string{"put another waste with it", "let acid meet it: chlorine, it smells", "a drain", "let water meet it: heat"},
			[]string{"put another waste with it", "let acid meet it: chlorine", "a drain", "let water meet it: heat"}},
		{"as many as a label has room for", work.Never{Meets: []work.Meeting{a, b, c, acid, water}}, []string{"let a meet it: chlorine, it smells", "let b meet it: chlorine, it smells", "let c meet it: chlorine, it smells", "let acid meet it: chlorine, it smells", "let water meet it: heat"},
			[]string{"let a meet it: chlorine", "let b meet it: chlorine", "let c meet it: chlorine", "let acid meet it: chlorine", "let water meet it: heat"}},
		{"one more", work.Never{Meets: []work.Meeting{a, b, c, acid, water}, Lines: []string{"a drain"}}, []string{"let a meet it: chlorine, it smells", "let b meet it: chlorine, it smells", "let c meet it: chlorine, it smells", "let acid meet it: chlorine, it smells", "a drain", "let water meet it: heat"},
			[]string{"let a meet it: chlorine", "let b meet it: chlorine", "let c meet it: chlorine", "let acid meet it: chlorine", "a drain", more}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var sheet []string
			for _, line := range neverLines(c.never) {
				said := ""
				for _, in := range line.text() {
					said += in.Text
				}
				sheet = append(sheet, said)
			}
			require.Equal(t, c.sheet, sheet)
			require.Equal(t, c.label, deadliest(c.never))
		})
	}
	require.Empty(t, unsaidHoles(nil))
	require.Equal(t, "what never meets lithium sulfite, water", unsaidHoles([]string{"lithium sulfite", "water"})[0].What)
}

// TestJoinPairs: pairs of which the same comes stand in one row where they share a side, and
// a note stays with the pair that it is about. What is never done stays by itself.
func TestJoinPairs(t *testing.T) {
	pair := func(side, other, word, note string, rank int) work.Pair {
		return work.Pair{Clash: clash(word, note, rank), Side: side, Other: other}
	}
	done := pair("fixer", "", "fire", "", 2)
	done.Never = "use it hot"
	for _, c := range []struct {
		name  string
		pairs []work.Pair
		rows  []string
	}{
		{"nothing in common", []work.Pair{pair("a", "x", "chlorine", "", 3), pair("b", "y", "chlorine", "", 3)}, []string{"A | x | Chlorine | ", "B | y | Chlorine | "}},
		{"they share what they never meet", []work.Pair{pair("a", "x", "chlorine", "", 3), pair("c", "z", "fire", "", 2), pair("b", "x", "chlorine", "", 3)}, []string{"A; b | x | Chlorine | ", "C | z | Fire | "}},
		{"something else comes of it", []work.Pair{pair("a", "x", "chlorine", "", 3), pair("b", "x", "fire", "", 2)}, []string{"A | x | Chlorine | ", "B | x | Fire | "}},
		{"they share what never meets them", []work.Pair{pair("a", "x", "fire", "", 2), pair("a", "y", "fire", "", 2)}, []string{"A | x; y | Fire | "}},
		{"a note of one of the first", []work.Pair{pair("a", "x", "fire", "it smells", 2), pair("b", "x", "fire", "", 2)}, []string{"A; b | x | Fire | a: it smells"}},
		{"a note of one of the second", []work.Pair{pair("a", "x", "fire", "", 2), pair("a", "y", "fire", "it smells", 2)}, []string{"A | x; y | Fire | y: it smells"}},
		{"a note of both", []work.Pair{pair("a", "x", "fire", "it smells", 2), pair("b", "x", "fire", "it smells", 2)}, []string{"A; b | x | Fire | it smells"}},
		{"what is never done", []work.Pair{done, pair("fixer", "", "fire", "", 2)}, []string{"Fixer | do not use it hot | Fire | ", "Fixer |  | Fire | "}},
	} {
		var rows []string
		for _, r := range clashRows(c.pairs) {
			said := func(t page.Text) (out string) {
				for _, in := range t {
					out += in.Text
				}
				return out
			}
			rows = append(rows, said(r.These)+" | "+said(r.Those)+" | "+said(r.Gives)+" | "+said(r.Note))
		}
		require.Equal(t, c.rows, rows, c.name)
	}
	kills, spatters := clashRows([]work.Pair{pair("a", "x", "fire", "", 2)})[0], clashRows([]work.Pair{pair("a", "x", "heat", "", 1)})[0]
	require.False(t, kills.Lesser)
	require.True(t, spatters.Lesser)
}
