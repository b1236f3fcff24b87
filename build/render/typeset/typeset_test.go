package typeset

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/theme"
	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/themes"
)

func standard(t *testing.T) Fonts {
	t.Helper()
	th, err := theme.Open(themes.FS)
	require.NoError(t, err)
	return FontsOf(th)
}

func textOf(line []Piece) string {
	var b strings.Builder
	for _, p := range line {
		b.WriteString(p.Text)
	}
	return b.String()
}

// TestWrap: no line is wider than it may be, no letter is lost, and a line is not shorter
// than it need be.
func TestWrap(t *testing.T) {
	f := standard(t)
	const size, width = 3.0, 40.0
	said := []Piece{{Text: "Pour the working solution into "}, {Text: "the tank", Bold: true},
		{Text: ", then turn it four times; a word such as verylongwordwithoutanyspacesinitatallwhatever is broken."}}
	lines := f.Wrap(said, size, width)
	wide := func(s string, bold bool) float64 { return f.Measure(s, bold, size) }
	var all string
	for i, line := range lines {
		sum := 0.0
		for _, p := range line {
			sum += wide(p.Text, p.Bold)
		}
		require.LessOrEqual(t, sum, width, textOf(line))
		if i+1 < len(lines) {
			word, _, _ := strings.Cut(textOf(lines[i+1]), " ")
			require.Greater(t, sum+wide(" "+word, false), width, "%q has room behind %q", word, textOf(line))
		}
		all += strings.ReplaceAll(textOf(line), " ", "")
	}
	require.Equal(t, strings.ReplaceAll(textOf(said), " ", ""), all)
}

// TestLines: as many lines are counted as are set, in any width, of no text and of a word that no
// line holds.
func TestLines(t *testing.T) {
	f := standard(t)
	for _, said := range [][]Piece{nil, {{Text: " "}}, {{Text: "averylongwordwithoutanyspaces"}},
		{{Text: "Pour the working solution into "}, {Text: "the tank ", Bold: true}, {Text: "and turn it", Grow: .5}}} {
		seen := map[int]bool{}
		for width := 2.0; width < 60; width += .25 {
			lines := f.Wrap(said, 3, width)
			require.Len(t, lines, f.Lines(said, 3, width), "%v in %g mm", said, width)
			seen[len(lines)] = true
		}
		require.True(t, said == nil || seen[1], "%v", said)
	}
}

// TestRest: what follows a line already set is set like the whole text.
func TestRest(t *testing.T) {
	f := standard(t)
	said := []Piece{{Text: "first some plain words, "}, {Text: "then strong ones that run on", Bold: true}}
	lines := f.Wrap(said, 3, 30)
	require.Greater(t, len(lines), 2)
	require.Equal(t, lines[1:], f.Wrap(Rest(said, lines[0]), 3, 30))
	require.Empty(t, Rest(said, said))
}

// TestLongest: a figure keeps to its unit, so both are one stretch; other words part.
func TestLongest(t *testing.T) {
	f := standard(t)
	require.InDelta(t, f.Measure("tablets", false, 2), f.Longest([]Piece{{Text: "of the tablets in"}}, 2), 1e-9)
	list := []Piece{{Text: "300 millilitres", ID: "x/y"}}
	require.InDelta(t, f.Measure("300\u00a0millilitres", false, 2), f.Longest(list, 2), 1e-9)
	require.Equal(t, "300 millilitres", list[0].Text, "the pieces stay as they are")
}

func TestPieces(t *testing.T) {
	weak := figure.Of(figure.Core{ID: "x/y", Origin: figure.Memory},
		figure.Face{Kind: figure.KindAmount, Shown: "3", Rounded: "3", Unit: "g"})
	got := Pieces(page.Say(page.W("at 20 °C "), page.F(weak), page.N("salt")), 0, false)
	require.Equal(t, []Piece{
		{Text: "at 20\u00a0°C "}, {Text: "3\u00a0g", Bold: true, ID: "x/y"}, {Text: "\u00a0m", Weak: true},
		{Text: "salt", Name: true},
	}, got)
}
