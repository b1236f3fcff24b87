package text

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/testdata/fixture"
	"wetside/procedures/page"
)

// TestEveryBlock: the terminal drops no kind of block because nobody thought of it here, and
// has no entry for a kind that is gone.
func TestEveryBlock(t *testing.T) {
	var kinds []string
	for _, b := range page.Blocks() {
		kinds = append(kinds, b.Block())
	}
	require.ElementsMatch(t, kinds, slices.Collect(maps.Keys(blocks)))
}

// TestCard keeps whole cards in view, and no line of any is longer than it may be.
func TestCard(t *testing.T) {
	b := fixture.Binder()
	fixture.Golden(t, "mixing.txt", Card(b.Pages[1], 1, 80))
	fixture.Golden(t, "process.txt", Card(b.Pages[2], 0, 80))
	fixture.Golden(t, "first-card.txt", Card(b.Pages[6], -1, 80))
	for _, p := range b.Pages {
		for i, line := range strings.Split(Card(p, 0, 80), "\n") {
			if n := cells(line); n > 80 {
				t.Errorf("%s line %d is %d wide: %s", p.ID, i+1, n, line)
			}
		}
	}
}

// TestDrawnBlocks: what is drawn elsewhere is said in words.
func TestDrawnBlocks(t *testing.T) {
	b := &fixture.Book{}
	x, y, most := b.Amount("x", "250", "ml"), b.Amount("y", "6", "rolls"), b.Amount("most", "15", "rolls")
	say := func(s string) page.Text { return page.Say(page.N(s)) }
	p := page.Page{ID: "board/all", Kind: "board", Title: "All", Do: []page.Block{
		page.Chart{
			Caption: say("What it treats"), X: "stock", Y: "rolls", Note: say("from memory"),
			Lines:  []page.ChartLine{{Label: "used", FromZero: true, Points: []page.ChartPoint{{X: x, Y: y}}}},
			Limits: []page.ChartLimit{{Label: "at most", At: most, Beyond: true}},
		},
		page.Blanks{
			Caption: say("Log"), Head: []page.Text{say("day"), say("who")}, Lines: []page.Text{say("checked by")},
			Rows: []page.Row{{Cells: []page.Cell{{Text: say("first day")}, {Text: page.Say(page.Inline{Kind: page.Blank})}}}},
		},
		page.Label{
			Name: "Fixer", Strength: "stock", Use: say("for film"), Hazards: page.Hazards{Status: "unknown"},
			Dates: []page.Text{say("mixed on")}, Lives: []page.Text{say("full: long")}, Foot: say("not for sale"),
			For: []page.Container{{Name: "250ml", Holds: x, Ml: 250, Tally: []page.Ticks{{Label: say("one stroke a roll"), Count: y, Boxes: 6}}}},
		},
		page.Sign{Form: "tray", Letters: "Stop", Under: []page.Text{say("citric stop")}, Blanks: []page.Text{say("since")}},
		page.Symbols{Items: []page.Symbol{{Code: "M009", Shows: "two gloves", Word: "gloves", Stands: "wear them"}}},
		page.Sheet{Paper: "a4", Labels: []page.SheetLabel{{Card: "label/fixer", For: "250ml"}}},
		page.Links{Label: say("Cards"), Entries: []page.Entry{
			{Card: "mix/fixer", Title: "Fixer", Sub: say("stock"), Value: page.Say(page.F(x))},
		}},
		fixture.Worn,
	}}
	got := Card(p, -1, 78)
	for _, want := range []string{
		"What it treats\n  stock   rolls\n  0       0        used\n  250 ml  6 rolls  used\n" +
			"  - at most 15 rolls: not beyond it\n  from memory\n",
		"Log\n  day        who\n  first day  ________\n  checked by ________\n",
		"  FIXER, stock\n  for film\n  HAZARDS NOT LOOKED UP\n  - mixed on\n  - full: long\n  for 250 ml\n" +
			"  250 ml: one stroke a roll\n  not for sale\n",
		"  STOP\n  citric stop\n  since\n",
		"  M009  gloves  two gloves  wear them\n",
		"  labels on a4 paper:\n  - label/fixer 250ml\n",
		"  Cards\n  - Fixer: 250 ml: stock\n",
		"  - Fixer (not alone), Stop: ",
		"gloves (long cuff), tongs\n",
	} {
		require.Contains(t, got, want)
	}
}
