package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/theme"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/themes"
)

func standard(t *testing.T) *theme.Theme {
	t.Helper()
	th, err := theme.Open(themes.FS)
	require.NoError(t, err)
	return th
}

// shown is a page of a binder in a face of the standard theme.
func shown(t *testing.T, p page.Page, face, address string) *View {
	t.Helper()
	b, err := NewBinder(procedures.Binder{Lab: "Lab", Pages: []page.Page{p}}, standard(t), address)
	require.NoError(t, err)
	f, ok := b.Theme.Face(face)
	require.True(t, ok, face)
	return b.View(p, f, -1)
}

func words(list []page.Block) (out []string) {
	for _, b := range list {
		for _, t := range page.Said(b) {
			var s strings.Builder
			for _, in := range t {
				s.WriteString(in.Text)
			}
			out = append(out, s.String())
		}
	}
	return out
}

func TestNewBinder(t *testing.T) {
	th := standard(t)
	_, err := NewBinder(procedures.Binder{Pages: []page.Page{{ID: "a"}, {ID: "a"}}}, th, "")
	require.ErrorContains(t, err, "two pages have the id a")
	empty := page.Page{ID: "b", Lead: page.Text{{Kind: page.Fig}}}
	_, err = NewBinder(procedures.Binder{Pages: []page.Page{empty}}, th, "")
	require.ErrorContains(t, err, "no figure in it")
	given := procedures.Binder{Pages: []page.Page{{ID: "a"}}}
	b, err := NewBinder(given, th, "")
	require.NoError(t, err)
	b.Add(page.Page{ID: "c"})
	_, ok := b.Find("c")
	require.True(t, ok)
	require.Len(t, given.Pages, 1, "what it was given stays as it is")
	_, ok = b.Find("d")
	require.False(t, ok)
}

// TestGoesOn: every sheet of a cut card but the last says that another follows, and every
// one but the first that it goes on.
func TestGoesOn(t *testing.T) {
	for _, c := range []struct {
		bound     bool
		cut, cuts int
		of, on    string
		follows   bool
	}{
		{false, 0, 0, "", "", false},
		{false, 1, 3, "card 1 of 3", "continues on card 2", false},
		{false, 2, 3, "card 2 of 3; read card 1 first", "continues on card 3", true},
		{false, 3, 3, "card 3 of 3; read card 1 first", "", true},
		{true, 1, 2, "", "continues on the next sheet", false},
		{true, 2, 2, "continued", "", true},
	} {
		v := View{Bound: c.bound, Cut: c.cut, Cuts: c.cuts}
		require.Equal(t, []any{c.of, c.on, c.follows}, []any{v.CardOf(), v.GoesOn(), v.Follows()}, c)
	}
}

// TestNevers: on paper the lines run on behind one word, and every line but the first says
// it again; on a screen each stands below it.
func TestNevers(t *testing.T) {
	p := page.Page{ID: "a", Never: []page.Block{
		page.List{Items: []page.Text{page.Say(page.W("mix acids")), page.Say(page.W("work alone"))}},
		page.List{Items: []page.Text{page.Say(page.W("eat here"))}},
	}}
	require.Equal(t, []string{"mix acids", "never work alone", "never eat here"}, words(shown(t, p, "wall-a4", "").Nevers()))
	require.Equal(t, []string{"mix acids", "work alone", "eat here"}, words(shown(t, p, "screen", "").Nevers()))
}

// TestParts: a face leaves tables to the binder where the work is shown without them; a page
// that says all it says in tables keeps them.
func TestParts(t *testing.T) {
	work := []page.Block{page.Steps{}}
	require.NotContains(t, shown(t, page.Page{ID: "a", Kind: "process", Do: work}, "wall-a5", "").Parts(), "tables")
	require.Contains(t, shown(t, page.Page{ID: "a", Kind: "board"}, "wall-a5", "").Parts(), "tables")
	require.NotContains(t, shown(t, page.Page{ID: "a", Kind: "mixing", Do: work}, "wall-a4", "").Parts(), "tables")
	require.Contains(t, shown(t, page.Page{ID: "a", Kind: "process", Do: work}, "wall-a4", "").Parts(), "tables")
	for _, f := range standard(t).Faces {
		for _, part := range []string{"before", "never", "foot"} {
			require.Contains(t, shown(t, page.Page{ID: "a", Kind: "mixing", Do: work}, f.Name, "").Parts(), part, f.Name)
		}
	}
}

// TestFoot: an edition that nobody has approved says so, and so does what is missing.
func TestFoot(t *testing.T) {
	foot := page.Foot{Version: "2", Date: "2026-01-02", Review: "2027-01-02", Fingerprint: "abcd1234"}
	v := View{Lab: "Lab", Page: page.Page{Foot: foot}}
	require.Equal(t, "version 2 · of 2026-01-02 · approved ____ ask · review 2027-01-02 · abcd1234", v.Control(true))
	require.Equal(t, "Lab · version 2 · approved ____ ask · abcd1234", v.ShortControl())
	foot.Approved, foot.Overdue = "R. Example", "2026-06-01"
	foot.Holes = []page.Hole{{What: "its hazards"}}
	foot.Vouched = []page.Vouch{{Origin: "memory", Count: 3}}
	v.Page.Foot = foot
	require.Equal(t, "version 2 · of 2026-01-02 · approved R. Example · review overdue since 2026-06-01 · "+
		"3 memory · 1 not filled in: ask first · abcd1234", v.Control(true))
	require.NotContains(t, v.Control(false), "memory")
	require.Equal(t, "Lab · version 2 · review overdue since 2026-06-01 · 3 memory · 1 not filled in: ask first · abcd1234",
		v.ShortControl())
	require.True(t, v.Controlled())
	v.Shared = true
	require.False(t, v.Controlled(), "what all cards of a sheet share has no foot of its own")
	require.False(t, (&View{Page: page.Page{Kind: "front"}}).Controlled())
}

func TestHazardWord(t *testing.T) {
	for _, c := range []struct {
		b          page.Hazards
		word, mark string
	}{
		{page.Hazards{Status: "unknown"}, "Hazards not looked up", "."},
		{page.Hazards{Status: "not classified"}, "Not classified", "."},
		{page.Hazards{Signal: "Danger", Statements: []page.Text{page.Say(page.W("Causes burns."))}}, "Danger", ":"},
		{page.Hazards{Signal: "Danger", Status: "unknown"}, "Danger Hazards not looked up", "."},
		{page.Hazards{}, "", ""},
	} {
		var v View
		require.Equal(t, []string{c.word, c.mark}, []string{v.HazardWord(c.b), v.HazardMark(c.b)}, c)
	}
	require.Equal(t, "corrosive", PictogramWord("GHS05"))
	require.Equal(t, "GHS10", PictogramWord("GHS10"), "a code without a word says itself")
}

// TestColumns: all figures of a column share the room of the widest before and after the
// point, and of their units; a column of words has none.
func TestColumns(t *testing.T) {
	f := func(shown, unit string) page.Text {
		return page.Say(page.F(figure.Of(figure.Core{ID: "x/" + shown},
			figure.Face{Kind: figure.KindAmount, Shown: shown, Rounded: shown, Unit: unit})))
	}
	rows := []page.Row{
		{Cells: []page.Cell{{Text: page.Say(page.W("salt"))}, {Text: f("12.5", "g")}}},
		{Cells: []page.Cell{{Text: page.Say(page.W("water"))}, {Text: f("3", "ml")}}},
	}
	var v View
	require.Equal(t, []string{"", "num i2 d2 u2"}, v.Columns(page.Table{Rows: rows}))
}

// TestCode: only a card for the wall prints the code of its own address, and only where an
// address is configured.
func TestCode(t *testing.T) {
	p := page.Page{ID: "mix/a b"}
	v := shown(t, p, "wall-a4", "https://lab.example/binder/")
	require.Equal(t, "https://lab.example/binder/mix/a%20b.html", v.Own())
	require.True(t, v.HasCode())
	require.Positive(t, v.CodeSide())
	v.Bound = true
	require.Zero(t, v.CodeSide())
	require.False(t, shown(t, p, "screen", "https://lab.example").HasCode())
	require.False(t, shown(t, p, "wall-a4", "").HasCode())
	require.Empty(t, shown(t, p, "wall-a4", "").Own())
}

func TestSymbol(t *testing.T) {
	v := shown(t, page.Page{ID: "a"}, "wall-a4", "")
	require.Equal(t, "GHS05", v.Symbol("GHS05"))
	v.Symbol("GHS05")
	require.Empty(t, v.Symbol("no-such-symbol"))
	require.Equal(t, []string{"GHS05"}, v.Symbols)
}
