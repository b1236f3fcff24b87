package wording

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/page"
)

func figureOf(kind figure.Kind, shown, unit string) *figure.Record {
	return figure.Of(figure.Core{ID: "x/y"}, figure.Face{Kind: kind, Shown: shown, Rounded: shown, Unit: unit})
}

func TestUnit(t *testing.T) {
	for _, c := range []struct {
		kind              figure.Kind
		shown, unit, want string
	}{
		{figure.KindAmount, "300", "ml", "ml"},
		{figure.KindTime, "45", "s", "s"},
		{figure.KindTime, "6:30", "min", ""}, // a clock time says its unit itself
		{figure.KindSeries, "0:30, 1:30", "min", ""},
		{figure.KindAmount, "1:4", "parts", "parts"},
		{figure.KindText, "as it comes", "ml", ""},
		{figure.KindDate, "2026-03-01", "d", ""},
	} {
		r := figureOf(c.kind, c.shown, c.unit)
		require.Equal(t, c.want, Unit(r), c.shown)
		with := c.shown
		if c.want != "" {
			with += "\u00a0" + c.want
		}
		require.Equal(t, with, Shown(r, false))
		require.Equal(t, c.shown, Shown(r, true))
	}
}

func TestKeepUnits(t *testing.T) {
	for said, want := range map[string]string{
		"at 20 °C or above":  "at 20\u00a0°C or above",
		"300 ml":             "300\u00a0ml",
		"within 5 min, then": "within 5\u00a0min, then",
		"2 minutes":          "2 minutes", // a word may stand on the next line
		"no number ml":       "no number ml",
		"":                   "",
	} {
		require.Equal(t, want, KeepUnits(said))
	}
}

func TestSplitPoint(t *testing.T) {
	for shown, want := range map[string][2]string{
		"12.5": {"12", ".5"}, "300": {"300", ""}, ".5": {"", ".5"},
	} {
		whole, rest := SplitPoint(shown)
		require.Equal(t, want, [2]string{whole, rest}, shown)
	}
}

// TestPick: a figure for each choice is that of its own choice; one figure is that of all.
func TestPick(t *testing.T) {
	a, b := figureOf(figure.KindAmount, "1", "g"), figureOf(figure.KindAmount, "2", "g")
	both := []*figure.Record{a, b}
	require.Same(t, a, Pick(both, 0))
	require.Same(t, b, Pick(both, 1))
	require.Same(t, a, Pick(both, -1), "all choices: the first")
	require.Same(t, a, Pick([]*figure.Record{a}, 1))
	require.Nil(t, Pick(nil, 0))
}

func TestPlain(t *testing.T) {
	a, b := figureOf(figure.KindAmount, "1", "g"), figureOf(figure.KindAmount, "2", "g")
	said := page.Say(page.W("take "), page.F(a, b), page.W(" of "), page.N("salt"))
	require.Equal(t, "take 1\u00a0g of salt", Plain(said, -1))
	require.Equal(t, "take 2\u00a0g of salt", Plain(said, 1))
	require.Equal(t, "salt, salt", Plain(Joined(page.Say(page.N("salt")), page.Say(page.N("salt"))), 0))
	require.Equal(t, "salt", Plain(Joined(nil, page.Say(page.N("salt"))), 0))
	require.True(t, Single(page.Say(page.F(a))))
	require.False(t, Single(said))
}

func TestMark(t *testing.T) {
	require.Equal(t, "m", Mark("memory"))
	require.Empty(t, Mark(""))
}
