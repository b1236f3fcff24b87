package draw

import (
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/typeset"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

func TestMM(t *testing.T) {
	for x, want := range map[float64]string{
		0: "0", 1: "1", 1.5: "1.5", 2.345: "2.35", 10: "10", -.001: "0", -3.2: "-3.2", 100: "100",
	} {
		require.Equal(t, want, MM(x))
	}
}

// TestHatch: no line of a hatch leaves its rectangle.
func TestHatch(t *testing.T) {
	var d Drawing
	const x, y, w, h = 5.0, 7.0, 30.0, 4.0
	d.Hatch(x, y, w, h, 1.5)
	path, _, _ := strings.Cut(d.Inside(), `" stroke`)
	points := regexp.MustCompile(`[ML](\S+) ([0-9.]+)`).FindAllStringSubmatch(path, -1)
	require.Greater(t, len(points), 40)
	for _, p := range points {
		px, err := strconv.ParseFloat(p[1], 64)
		require.NoError(t, err)
		py, err := strconv.ParseFloat(p[2], 64)
		require.NoError(t, err)
		require.True(t, px >= x && px <= x+w && py >= y && py <= y+h, p[0])
	}
}

func TestLines(t *testing.T) {
	var d Drawing
	lines := [][]typeset.Piece{{{Text: "a & b"}}, {{Text: "3 g", Bold: true, ID: "x/y"}}}
	require.InDelta(t, 14.5, d.Lines(lines, 0, 10, 3, 4.5), 1e-9)
	require.Equal(t, `<text x="0" y="10" font-size="3">a &amp; b</text>`+
		`<text x="0" y="14.5" font-size="3"><tspan font-weight="700" data-f="x/y">3 g</tspan></text>`, d.Inside())
}

func TestCode(t *testing.T) {
	require.Nil(t, SquareOf(""))
	require.Nil(t, SquareOf(strings.Repeat("long", 2000)), "longer than a code holds")
	require.Zero(t, SquareOf("").Side(CodeSide))
	small, large := SquareOf("https://lab.example/"), SquareOf("https://lab.example/"+strings.Repeat("a/", 200))
	require.Equal(t, CodeSide, small.Side(CodeSide))
	require.Greater(t, large.Side(CodeSide), CodeSide, "its modules stay large enough to be read")
}

func TestEvery(t *testing.T) {
	for pitch, want := range map[float64]int{20: 1, 8: 1, 7.9: 2, 1: 10, .3: 30, .01: 60} {
		require.Equal(t, want, Every(pitch, 8), pitch)
	}
}

func TestTimelineOf(t *testing.T) {
	seconds := func(shown, rounded string) []*figure.Record {
		return []*figure.Record{figure.Of(figure.Core{ID: "x/" + shown},
			figure.Face{Kind: figure.KindTime, Shown: shown, Rounded: rounded})}
	}
	got, ok := TimelineOf(page.Ruler{Length: seconds("6:30", "390"), Drain: seconds("6:20", "380")}, 0)
	require.True(t, ok)
	require.Equal(t, Timeline{Length: 390, Drain: 380}, got)
	_, ok = TimelineOf(page.Ruler{Length: []*figure.Record{figure.Of(figure.Core{ID: "x/no"},
		figure.Face{Kind: figure.KindTime, Why: "nobody knows"})}}, 0)
	require.False(t, ok, "a refused time has no scale")
}

// TestWeakLetter: the letter of an origin stands above the line, no smaller than the rest, and what follows stands on it again.
func TestWeakLetter(t *testing.T) {
	d := &Drawing{}
	d.Lines([][]typeset.Piece{{{Text: "20 L", Bold: true}, {Text: "\u00a0i", Weak: true}, {Text: ", full"}, {Text: " at"}}}, 0, 10, 10, 12)
	require.Equal(t, `<text x="0" y="10" font-size="10"><tspan font-weight="700">20 L</tspan>`+
		`<tspan dy="-3">`+"\u00a0"+`i</tspan><tspan dy="3">, full</tspan> at</text>`, d.b.String())
}
