package labels

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/draw"
	"wetside/build/render/testdata/fixture"
	"wetside/build/render/view"
	"wetside/procedures/page"
)

// of is a page of the fixture in a drawn face, and what draws it.
func of(t *testing.T, id, face string, more ...page.Page) (*Drawer, *view.View) {
	t.Helper()
	binder := fixture.Binder()
	binder.Pages = append(binder.Pages, more...)
	b, err := view.NewBinder(binder, fixture.Theme(t), "https://lab.example")
	require.NoError(t, err)
	p, ok := b.Find(id)
	require.True(t, ok, id)
	f, ok := b.Theme.Face(face)
	require.True(t, ok, face)
	return NewDrawer(b), b.View(p, f, view.Chosen(p))
}

const bottle = "label/film-developer.stock"

// TestRuleFor: each step of the table holds up to its capacity and not beyond it.
func TestRuleFor(t *testing.T) {
	for i, r := range labelRules {
		require.Equal(t, r, ruleFor(r.most))
		if r.most < math.MaxInt {
			require.Equal(t, labelRules[i+1], ruleFor(r.most+1))
		}
	}
}

// TestNeedsTag: a label wider than half round its bottle, or higher than its straight side,
// cannot be glued on.
func TestNeedsTag(t *testing.T) {
	// A litre: a bottle 96.9 mm wide, of which 152.2 mm are half round, and 135.7 mm are straight.
	for _, c := range []struct {
		ml   int
		w, h float64
		tag  bool
	}{
		{1000, 152, 135, false}, {1000, 153, 135, true}, {1000, 152, 136, true},
		{0, 500, 500, false}, // nobody knows the bottle
	} {
		require.Equal(t, c.tag, needsTag(c.ml, c.w, c.h), c)
	}
}

// TestLabel: a label has at least the size that the law asks of its container, and the same
// label stands on its own sheet and on its page, with its pictograms noted on both.
func TestLabel(t *testing.T) {
	m, v := of(t, bottle, "label")
	l, _ := view.LabelOf(v.Page)
	for _, c := range l.For {
		svg, size, err := m.Draw(v, c.Name)
		require.NoError(t, err)
		rule := ruleFor(c.Ml)
		require.GreaterOrEqual(t, size[0], rule.width, c.Name)
		require.GreaterOrEqual(t, size[1], rule.height, c.Name)
		require.Contains(t, string(svg), "May damage fertility.")
		require.Contains(t, Path(v.Face, v.Page.ID, c), c.Name+"/film-developer.stock.html")
		_, again := of(t, bottle, "screen")
		made := m.All(again)
		require.Len(t, made, len(l.For))
		require.Equal(t, v.Symbols, again.Symbols)
		found := false
		for _, one := range made {
			found = found || one.SVG == svg
		}
		require.True(t, found, c.Name)
	}
	require.Subset(t, v.Symbols, []string{"GHS05", "GHS07", "GHS08"})
}

// TestSheet: a label goes onto a stock that holds it; one that does not fit is named and not
// made smaller.
func TestSheet(t *testing.T) {
	sheet := page.Sheet{Paper: "a4", Rows: 2, Columns: 1, Width: 10500, Height: 14800, Left: 1000, Top: 50,
		PitchX: 10500, PitchY: 14800, Start: 1, Labels: []page.SheetLabel{{Card: bottle, For: "500ml"}}}
	small := sheet
	small.Width, small.Height = 5200, 3000
	pages := []page.Page{
		{ID: "label/sheet", Kind: "sheet", Title: "Labels", Do: []page.Block{sheet}},
		{ID: "label/small", Kind: "sheet", Title: "Labels", Do: []page.Block{small}},
	}
	m, v := of(t, "label/sheet", "sheet", pages...)
	laid := m.Sheet(v)
	require.Empty(t, laid.TooLong)
	require.Len(t, laid.Pages, 1)
	require.Equal(t, 1, strings.Count(string(laid.Pages[0]), "Causes serious eye damage."))
	require.Contains(t, v.Symbols, "GHS05", "the sheet holds what its labels use")
	m, v = of(t, "label/small", "sheet", pages...)
	laid = m.Sheet(v)
	require.Equal(t, []string{"Film developer, stock"}, laid.TooLong)
	require.Len(t, laid.Pages, 1, "an empty sheet rather than none")
}

// TestSign: a sign that its first sheet does not hold takes a larger one, and no word is lost.
func TestSign(t *testing.T) {
	sign := func(lines int) page.Page {
		s := page.Sign{Form: "shelf", Letters: "Fixer"}
		for range lines {
			s.Under = append(s.Under, page.Say(page.W("stands here until it is mixed")))
		}
		return page.Page{ID: "label/shelf-fixer", Kind: "label", KindLine: "Shelf", Title: "Fixer", Do: []page.Block{s}}
	}
	for lines, high := range map[int]float64{0: 64, 4: 90, 30: 90} {
		_, v := of(t, "label/shelf-fixer", "sign", sign(lines))
		svg, size := Sign(v)
		require.Equal(t, high, size[1], "%d lines", lines)
		require.Equal(t, lines, strings.Count(string(svg), "stands here"))
		whole := strings.Contains(string(svg), `height="`+draw.MM(high)+`mm"`)
		require.Equal(t, lines < 30, whole, "%d lines: longer than the last sheet rather than cut", lines)
	}
	_, v := of(t, bottle, "sign")
	svg, _ := Sign(v)
	require.Empty(t, svg, "the page has no sign")
}

// TestStrip: a strip needs a step whose turns are known.
func TestStrip(t *testing.T) {
	m, v := of(t, bottle, "strip")
	_, _, err := m.Draw(v, "")
	require.ErrorContains(t, err, "needs a step")
	for _, p := range fixture.Binder().Pages {
		if p.Kind != "process" {
			continue
		}
		m, v = of(t, p.ID, "strip")
		svg, size, err := m.Draw(v, "")
		require.NoError(t, err)
		require.Equal(t, v.Face.Size, size)
		require.Contains(t, string(svg), "pour in")
		return
	}
	t.Fatal("the fixture has no process")
}

// TestAdvice: a label says what to do at once in full where there is room, else in brief, and nothing of
// lower rank, nor its ladder of dates, in its place.
func TestAdvice(t *testing.T) {
	line := func(words string) page.Text { return page.Say(page.N(words)) }
	said := map[string]bool{}
	for n := range 40 {
		l := page.Label{Name: "Bath", Strength: "stock", For: []page.Container{{Name: "1000ml", Ml: 1000}},
			Dates: []page.Text{line("dates in a line")}, Ladder: []page.Text{line("full until"), line("opened until"), line("half until")},
			Advice: []page.Advice{
				{Full: line("IF IN EYES: rinse for a long time with much water, take out the lenses, and go on with rinsing."), Brief: line("IF IN EYES: rinse.")},
				{Full: line("Call somebody.")},
				{Full: line("Do not breathe it, neither the mist nor the spray, nor what comes out of the bottle."), Brief: line("No breath of it.")},
			}}
		for range n {
			l.Hazards.Statements = append(l.Hazards.Statements, line("One more statement of what it does."))
		}
		m, v := of(t, "label/bath", "label", page.Page{ID: "label/bath", Kind: "label", Do: []page.Block{l}})
		svg, size, err := m.Draw(v, "1000ml")
		require.NoError(t, err)
		if size[1] > v.Face.Size[1] { // the next size of paper has room again
			break
		}
		text := string(svg)
		has := func(words string) bool { return strings.Contains(text, words) }
		full, brief, call := has("lenses"), has("IF IN EYES: rinse.") && !has("lenses"), has("Call somebody.")
		breath, ladder := has("No breath of it.") || has("neither"), has("half until")
		said["full"], said["brief"] = said["full"] || full, said["brief"] || brief
		said["neither"], said["ladder"] = said["neither"] || !full && !brief, said["ladder"] || ladder
		said["ladder gives way"] = said["ladder gives way"] || brief && !ladder
		require.False(t, call && !full && !brief, "%d statements: the second is said and the first is not", n)
		require.False(t, has("neither") && !full, "%d statements: the third is said in full and the first is not", n)
		require.False(t, breath && !call, "%d statements: the third is said and the second is not", n)
	}
	for _, x := range []string{"full", "brief", "neither", "ladder", "ladder gives way"} {
		require.True(t, said[x], x)
	}
}

// TestHigherForAdvice: a label of more than 125 ml takes the next higher size of its width rather than
// leave out what to do first of all; a smaller one does not.
func TestHigherForAdvice(t *testing.T) {
	line := func(words string) page.Text { return page.Say(page.N(words)) }
	draw := func(ml, statements int) (string, []float64) {
		name := strconv.Itoa(ml) + "ml"
		l := page.Label{Name: "Bath", Strength: "stock", For: []page.Container{{Name: name, Ml: ml}},
			Advice: []page.Advice{{Full: line("IF IN EYES: rinse.")}}}
		for range statements {
			l.Hazards.Statements = append(l.Hazards.Statements, line("One more statement of what it does."))
		}
		m, v := of(t, "label/bath", "label", page.Page{ID: "label/bath", Kind: "label", Do: []page.Block{l}})
		svg, size, err := m.Draw(v, name)
		require.NoError(t, err)
		return string(svg), size
	}
	higher, left := 0, 0
	for n := range 60 {
		svg, size := draw(1000, n)
		if size[0] == 74 && size[1] < 148 {
			require.Contains(t, svg, "IF IN EYES", "%d statements on %v", n, size)
		}
		if size[1] == 120 {
			higher++
		}
		if small, on := draw(100, n); on[0] == 74 && on[1] < 148 && !strings.Contains(small, "IF IN EYES") {
			left++
		}
	}
	require.Positive(t, higher)
	require.Positive(t, left)
}
