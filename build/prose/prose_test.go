package prose

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/load"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// small and large are the figures of the card that the notices of these tests quote.
var small, large = figure.Of(figure.Core{ID: "a/x@500ml"}, figure.Face{Shown: "5"}), figure.Of(figure.Core{ID: "a/x@1000ml"}, figure.Face{Shown: "10"})

func known() Known {
	table := page.Table{ID: "working", Caption: page.Say(page.W("working")), Rows: []page.Row{{Cells: []page.Cell{{Text: page.Say(page.F(small, large))}}}}}
	b := procedures.Binder{Pages: []page.Page{{ID: "mix/stop", Title: "citric stop", Chosen: 1, Tables: []page.Block{table}}}, Answers: []*figure.Record{small, large}}
	b.Finish()
	return NewKnown(b, nil)
}

func TestNotice(t *testing.T) {
	p, faults := Page(load.Notice{ID: "rules", File: "notices/rules.md", Text: []byte("# House rules\n\nTake <figure:a/x@500ml> from <card:mix/stop>.\n\n- one\n- two *three*\n\n```table mix/stop#working\n```\n")}, known())
	require.Empty(t, faults)
	require.Equal(t, "House rules", p.Title)
	require.Equal(t, []page.Block{
		page.Para{Text: page.Say(page.N("Take "), page.F(small), page.N(" from "), page.L("mix/stop", "citric stop"), page.N("."))},
		page.List{Items: []page.Text{page.Say(page.N("one")), page.Say(page.N("two "), page.N("three"))}},
		page.Table{ID: "working", Caption: page.Say(page.W("working")), Head: []page.Text{}, Note: page.Text{}, Rows: []page.Row{{Cells: []page.Cell{{Text: page.Say(page.F(large))}}}}},
	}, p.Do)
}

// TestNoticeOfWorkings: a notice may link to a working page and show a table of it.
func TestNoticeOfWorkings(t *testing.T) {
	p, faults := Page(load.Notice{ID: "rules", File: "notices/rules.md", Text: []byte("See <card:why/a>.\n\n```table why/a#x@500ml\n```\n")}, known())
	require.Empty(t, faults)
	require.Equal(t, page.Para{Text: page.Say(page.N("See "), page.L("why/a", "a"), page.N("."))}, p.Do[0])
	require.Equal(t, "x@500ml", p.Do[1].(page.Table).ID)
	_, faults = Page(load.Notice{ID: "rules", File: "notices/rules.md", Text: []byte("See <card:why/b>.\n")}, known())
	require.Len(t, faults, 1)
	require.Equal(t, `did you mean "why/a"?`, faults[0].Hint)
}

func TestNoticeFaults(t *testing.T) {
	for _, c := range []struct {
		name, text, code string
		line, column     int
	}{
		{"raw HTML block", "# Title\n\n<div>x</div>\n", "html", 3, 1},
		{"raw HTML in a line", "one <b>two</b>\n", "html", 1, 5},
		{"a figure that is not there", "a <figure:a/x@5ml>\n", "reference", 1, 3},
		{"a card that is not there", "\n\nsee <card:mix/stpo>\n", "reference", 3, 5},
		{"a table that is not there", "```table mix/stop#wrking\n```\n", "reference", 1, 4},
		{"a picture", "![x](y.png)\n", "picture", 1, 1},
		{"Latin-1", "Gr\xfc\xdfe\n", "encoding", 1, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, faults := Page(load.Notice{ID: "x", File: "notices/x.md", Text: []byte(c.text)}, known())
			require.NotEmpty(t, faults)
			require.Equal(t, c.code, faults[0].Code)
			require.Equal(t, c.line, faults[0].Span.Start.Line, "line")
			require.Equal(t, c.column, faults[0].Span.Start.Column, "column")
			require.NotEmpty(t, faults[0].Hint)
		})
	}
}

func FuzzPage(f *testing.F) {
	for _, s := range []string{"# T\n\n<figure:a>", "```table\n```", "<b", "- x\n  - y\n\n> z", "\xff", "![]()"} {
		f.Add([]byte(s))
	}
	k := known()
	f.Fuzz(func(t *testing.T, b []byte) {
		_, faults := Page(load.Notice{ID: "x", File: "notices/x.md", Text: b}, k)
		for _, fault := range faults {
			require.Positive(t, fault.Span.Start.Line)
			require.Positive(t, fault.Span.Start.Column)
		}
	})
}
