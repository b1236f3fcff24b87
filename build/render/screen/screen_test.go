package screen

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/paper"
	"wetside/build/render/testdata/fixture"
	"wetside/build/render/text"
	"wetside/build/render/view"
	"wetside/procedures"
	"wetside/procedures/page"
)

// shows are the pages of a binder in the standard theme.
func shows(t *testing.T, b procedures.Binder) *Pages {
	t.Helper()
	binder, err := view.NewBinder(b, fixture.Theme(t), "")
	require.NoError(t, err)
	return New(binder, nil)
}

// TestStepBlock keeps one block's HTML in view: the caution stands before the
// amount, and figures carry their ids.
func TestStepBlock(t *testing.T) {
	b := fixture.Binder()
	s := shows(t, b)
	face, _ := s.binder.Theme.Face("wall-a5")
	steps := b.Pages[1].Do[0].(page.Steps)
	html, err := s.on(s.binder.View(b.Pages[1], face, 1), "wall/a5/x.html").blocks("do", []page.Block{page.Steps{Rows: steps.Rows[1:2]}})
	if err != nil {
		t.Fatal(err)
	}
	fixture.Golden(t, "step.html", string(html))
}

// TestDiscs: a worn piece stands in its column with its sign, or its mark where it has
// none, with its word for who does not see it; what is not worn is a dash, and the hole
// stands in the row.
func TestDiscs(t *testing.T) {
	s := shows(t, procedures.Binder{Pages: []page.Page{{ID: "board/protect", Kind: "board", Title: "Wear", Do: []page.Block{fixture.Worn}}}})
	f, _ := s.binder.Theme.Face("screen")
	v := s.on(s.binder.View(s.binder.Pages[0], f, -1), "board/protect.html")
	h, err := v.blocks("do", v.Part("do"))
	require.NoError(t, err)
	_, row, ok := strings.Cut(string(h), "<tbody>")
	require.True(t, ok)
	require.Equal(t, 1, strings.Count(row, `href="#M009"`))
	require.NotContains(t, row, `href="#M026"`)
	for _, want := range []string{`<span class="piece">gloves</span><b class="sort">long cuff</b>`, `<b class="mark">with tongs</b><span class="piece marked">tongs</span>`,
		`<td class="free">–</td>`, `<span class="hole">ask first</span>`, `href="#plate-fixer"`, `<small>not alone</small>`} {
		require.Contains(t, row, want)
	}
}

// TestCases: a case has its part and its least time at the left of what to do, and a number
// that nobody has written is an empty box to write in, which still says that it is asked for.
func TestCases(t *testing.T) {
	b := &fixture.Book{}
	least := b.Amount("least", "15", "min")
	p := page.Page{ID: "board/emergency", Kind: "board", Title: "Hurt", Signs: []string{"E003"}, Before: []page.Block{page.Plates{Items: []page.Plate{
		{Label: page.Say(page.W("poison centre")), Value: page.Say(page.Inline{Kind: page.Ask})}, {Label: page.Say(page.W("keyholder")), Value: page.Say(page.N("next door"))},
	}}}, Do: []page.Block{page.Steps{Cases: true, Rows: []page.Step{{Part: page.Say(page.W("Eyes")), Amount: page.Say(page.F(least)), What: page.Say(page.W("Water")), Note: []page.Text{page.Say(page.W("and a doctor"))}}}}}}
	s := shows(t, procedures.Binder{Pages: []page.Page{p}, Figures: b.Figures})
	f, _ := s.binder.Theme.Face("wall-a4")
	h, err := s.Body(s.binder.View(p, f, -1), "x.html", "", nil)
	require.NoError(t, err)
	for _, want := range []string{
		`<div class="numbered vacant"><dt>poison centre</dt><dd><span class="hole">ask</span></dd></div>`, `<div class="numbered"><dt>keyholder</dt><dd><span class="n">next door</span></dd></div>`,
		`<p class="case-part">Eyes</p><p class="case-least">`, `<div class="acts"><p class="do">Water</p><p class="reason">and a doctor</p></div>`, `href="#E003"`,
	} {
		require.Contains(t, string(h), want)
	}
	got := text.Card(p, -1, 78)
	require.Contains(t, got, "poison centre")
	require.Contains(t, got, "Eyes: Water")
	require.Contains(t, got, "15 min")
}

// TestHref: a way leads up to the root and down again, and what would not stay in a path is
// escaped, also behind the anchor.
func TestHref(t *testing.T) {
	for want, c := range map[string][2]string{
		"a.html":                      {"b.html", "a.html"},
		"../mix/a.html":               {"why/b.html", "mix/a.html"},
		"../../mix/a%20b.html":        {"wall/a4/b.html", "mix/a b.html"},
		"../why/a.html#draw@600ml%3F": {"mix/b.html", "why/a.html#draw@600ml?"},
	} {
		require.Equal(t, want, Href(c[0], c[1]))
	}
}

// TestGroups: a group of several pages has an index that leads to each, a group of one leads to
// its page, and a group of none is not named.
func TestGroups(t *testing.T) {
	s := shows(t, procedures.Binder{
		Groups: []page.Group{{ID: "mix", Word: "Mix"}, {ID: "board", Word: "Boards"}, {ID: "shelf", Word: "Shelf"}},
		Pages:  []page.Page{{ID: "mix/a", Title: "A"}, {ID: "mix/b", Title: "B"}, {ID: "board/c", Title: "C"}},
	})
	p, ok := s.binder.Find("mix/index")
	require.True(t, ok)
	require.Len(t, p.Do[0].(page.Links).Entries, 2)
	f, _ := s.binder.Theme.Face("screen")
	a, _ := s.binder.Find("mix/a")
	require.Equal(t, []navLink{{"Mix", "../mix/index.html", true}, {"Boards", "../board/c.html", false}},
		s.on(s.binder.View(a, f, -1), "mix/a.html").Nav())
}

// TestPrintsOf: a page leads to its cards on paper, once they are known.
func TestPrintsOf(t *testing.T) {
	s := shows(t, fixture.Binder())
	prints, _, err := paper.Of(s.binder).Place()
	require.NoError(t, err)
	f, _ := s.binder.Theme.Face("screen")
	p, _ := s.binder.Find(prints[0].Page.ID)
	v := s.on(s.binder.View(p, f, -1), p.ID+".html")
	require.Empty(t, v.PrintCards())
	s.SetPrints(prints)
	cards := v.PrintCards()
	require.NotEmpty(t, cards)
	require.Equal(t, Href(p.ID+".html", prints[0].Path), cards[0].Href)
	require.NotNil(t, v.PrintsOf(p.ID))
	require.Nil(t, v.PrintsOf("mix/none"))
}

// TestPrintsOfABareChoice: a choice that nothing is printed of shows the prints of the others; one
// that has prints shows only its own.
func TestPrintsOfABareChoice(t *testing.T) {
	choices := []page.Choice{{Variant: "a"}, {Variant: "b"}, {Variant: "c"}}
	s := shows(t, procedures.Binder{Pages: []page.Page{{ID: "mix/a", Title: "A", Choices: choices}}})
	face, _ := s.binder.Theme.Face("wall-a5")
	screen, _ := s.binder.Theme.Face("screen")
	p, _ := s.binder.Find("mix/a")
	s.SetPrints([]paper.Print{{Page: p, Face: face, Choice: 0, Path: "wall/a5/a.html"}, {Page: p, Face: face, Choice: 2, Path: "wall/a5/c.html"}})
	cards := s.on(s.binder.View(p, screen, -1), "mix/a.html").PrintCards()
	require.Equal(t, []int{0, 1}, cards[0].For)
	require.Equal(t, []int{2, 1}, cards[1].For)
}

// TestJumps: a long page lists its headings and tables once each; a short one, one that begins
// with its work, and paper do not.
func TestJumps(t *testing.T) {
	s := shows(t, procedures.Binder{})
	p := page.Page{ID: "board/long", Kind: "board", Title: "Long"}
	for _, id := range []string{"a", "b", "c", "d", "d"} {
		p.Tables = append(p.Tables, page.Table{ID: id, Caption: page.Say(page.W("table " + id)), Head: []page.Text{page.Say(page.W("what"))},
			Rows: []page.Row{{Cells: []page.Cell{{Text: page.Say(page.W("x"))}}}}})
	}
	screen, _ := s.binder.Theme.Face("screen")
	jumps := func(p page.Page, face string) []jump {
		f, _ := s.binder.Theme.Face(face)
		return s.on(s.binder.View(p, f, -1), p.ID+".html").Jumps()
	}
	require.Empty(t, jumps(p, screen.Name), "four places")
	p.Do = []page.Block{page.Heading{ID: "e", Text: page.Say(page.W("heading"))}}
	got := jumps(p, screen.Name)
	require.Len(t, got, longPage)
	require.Equal(t, "#e", got[0].Href)
	require.Empty(t, jumps(p, "wall-a4"))
	p.Kind = "process"
	require.Empty(t, jumps(p, screen.Name))
}
