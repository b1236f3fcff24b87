package render

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/testdata/fixture"
	"wetside/build/theme"
	"wetside/procedures"
	"wetside/procedures/page"
)

// conditional is a page of two choices, of which almost every line holds for one of
// them, or for today.
func conditional(kind string) page.Page {
	first, second, today := page.Only{For: []int{0}}, page.Only{For: []int{1}}, page.Only{Today: true}
	say := func(s string) page.Text { return page.Say(page.W(s)) }
	both := func(a, b string) page.Text {
		return append(say(a).With(first), say(b).With(second)...)
	}
	items := []page.Text{
		say("item of every"), say("item of first").With(first), say("item of second").With(second),
		say("item of today").With(today), say("item of paper").With(page.Only{Paper: true}),
	}
	rows := []page.Row{
		{Cells: []page.Cell{{Text: say("row of every")}, {Text: both("cell of first", "cell of second")}}},
		{Only: second, Cells: []page.Cell{{Text: say("row of second")}, {}}},
	}
	return page.Page{
		ID: "process/two", Kind: kind, KindLine: "Process card", Title: "Two",
		Choices: []page.Choice{
			{Variant: "two+a", Label: say("choice one")}, {Variant: "two+b", Label: say("choice two")},
		},
		Before: []page.Block{
			page.Para{Only: second, Text: say("block of second")}, page.Para{Only: today, Text: say("block of today")},
		},
		Do: []page.Block{
			page.Clock{Rows: []page.ClockRow{
				{Word: say("bath of every"), Caution: []page.Text{say("caution of first").With(first)}},
				{Only: second, Word: say("bath of second"), For: say("long")},
			}},
			page.Steps{Rows: []page.Step{
				{What: say("step of every"), Note: []page.Text{say("note of second").With(second)}},
				{Only: first, What: say("step of first")},
			}},
			page.List{Items: items},
			page.Table{Caption: say("table"), Rows: rows},
		},
		Never: []page.Block{page.List{Items: []page.Text{say("mistake of every"), say("mistake of first").With(first)}}},
	}
}

var ofBothChoices = []string{"bath of", "step of", "item of", "row of", "mistake of"}

// TestChoiceOnPaper: paper and the terminal show what holds for their choice, and nothing
// else; what is of today stands in the terminal and on boards of the day alone.
func TestChoiceOnPaper(t *testing.T) {
	th := fixture.Theme(t)
	for _, kind := range []string{"process", "shelf"} {
		p := conditional(kind)
		b := procedures.Binder{Lab: "Lab", Day: "2026-03-14", Pages: []page.Page{p}, Prints: []page.Print{
			{Page: p.ID, Choice: 0, Variant: "two+a", Faces: []string{"wall-a4", "wall-a5", "binder"}},
			{Page: p.ID, Choice: 1, Variant: "two+b", Faces: []string{"wall-a4", "wall-a5", "binder"}},
		}}
		files, err := Site(b, th, Options{})
		require.NoError(t, err)
		shown := map[string]string{}
		for _, f := range files {
			shown[f.Path] = string(f.Bytes)
		}
		screen, binder := shown["process/two.html"], shown["binder.html"]
		_, secondHalf, bound := strings.Cut(binder, "choice two")
		require.Equal(t, kind != "shelf", bound, "boards of the day are printed from their own page")
		texts := map[string][2]string{
			"wall/a4":    {shown["wall/a4/two+a.html"], shown["wall/a4/two+b.html"]},
			"binder":     {strings.TrimSuffix(binder, secondHalf), secondHalf},
			"terminal":   {Terminal(p, 0, 80), Terminal(p, 1, 80)},
			"smaller":    {shown["wall/a5/two+a.html"], shown["wall/a5/two+b.html"]},
			"terminal40": {Terminal(p, 0, 40), Terminal(p, 1, 40)},
		}
		if !bound {
			delete(texts, "binder")
		}
		for face, text := range texts {
			text = [2]string{strings.ToLower(text[0]), strings.ToLower(text[1])}
			for _, what := range ofBothChoices {
				// A small paper has no tables, nor has the wall those of a process.
				if what == "row of" && (face == "smaller" || face == "wall/a4" && kind == "process") {
					continue
				}
				require.Contains(t, text[0], what+" every", "%s %s", kind, face)
				require.Contains(t, text[1], what+" every", "%s %s", kind, face)
			}
			require.NotContains(t, text[0], " of second", "%s %s", kind, face)
			require.NotContains(t, text[1], " of first", "%s %s", kind, face)
			require.Contains(t, text[0], "item of first")
			require.Contains(t, text[1], "item of second")
			require.Contains(t, text[1], "block of second")
			daily := kind == "shelf" || strings.HasPrefix(face, "terminal")
			for _, side := range text {
				require.Equal(t, daily, strings.Contains(side, "item of today"), "%s %s", kind, face)
				require.Equal(t, daily, strings.Contains(side, "block of today"), "%s %s", kind, face)
				require.Equal(t, !strings.HasPrefix(face, "terminal"), strings.Contains(side, "item of paper"), "%s %s", kind, face)
			}
		}
		for _, want := range []string{
			`<div class="only v v1"><p class="para">`, `<li class="bath v v1">`, `<p class="caution v v0">`,
			`<li class="step whole v v0">`,
			`<p class="reason v v1">`, `<li class="v v0">`, `<tr class="v v1">`,
			`<span class="v v0">cell of first</span><span class="v v1">cell of second</span>`,
			"item of today", "block of today", `<li class="v v0"><span class="v v0">mistake of first</span>`,
		} {
			require.Contains(t, screen, want)
		}
		require.NotContains(t, screen, "item of paper")
	}
}

// TestTodayIsNoPartOfTheDigest: the fingerprint does not hang on the day, and paper
// bears that of the whole card, whichever choice it is of.
func TestTodayIsNoPartOfTheDigest(t *testing.T) {
	p := conditional("process")
	lasting := page.OnPaper(p, -1)
	require.Equal(t, page.Digest(lasting), page.Digest(p))
	require.NotEqual(t, page.Digest(p), page.Digest(page.In(p, 0)))
	th := fixture.Theme(t)
	s, err := newSite(procedures.Binder{Pages: []page.Page{p}}, th, Options{})
	require.NoError(t, err)
	for _, name := range []string{"screen", "wall-a4", "strip"} {
		face, ok := th.Face(name)
		require.True(t, ok)
		choice := 0
		if face.Medium == theme.Site {
			choice = -1
		}
		require.Equal(t, page.Digest(p)[:8], s.binder.View(p, face, choice).Fingerprint(), name)
	}
}
