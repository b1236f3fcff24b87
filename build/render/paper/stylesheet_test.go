package paper

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build/render/draw"
	"wetside/build/render/testdata/fixture"
	"wetside/build/render/view"
	"wetside/build/theme"
)

// ruleOf is what the first rule of a selector declares, as the stylesheet writes it.
func ruleOf(t *testing.T, sheet, selector string) string {
	t.Helper()
	_, rest, ok := strings.Cut(sheet, "\n"+selector+"{")
	require.True(t, ok, "the stylesheet has no rule for %s", selector)
	rule, _, _ := strings.Cut(rest, "}")
	return ";" + strings.NewReplacer("\n  ", "", "\n", "").Replace(rule) + ";"
}

// css writes a number as the stylesheet does.
func css(x float64, unit string) string {
	return strings.Replace(strings.TrimPrefix(draw.MM(x), "0"), "-0.", "-.", 1) + unit
}

// TestLengthsOfTheStylesheet: what the estimate takes for a length, and the stylesheet writes
// out, is the same number in both, so that none is changed in one of them alone.
func TestLengthsOfTheStylesheet(t *testing.T) {
	th := fixture.Theme(t)
	sheet := string(th.Style)
	face, _ := th.Face("wall-a4")
	plain := flow{&view.View{Face: face}}.estimate(1)
	bound := flow{&view.View{Face: face, Bound: true}}.estimate(1)
	root := theme.Room{}.Filled()
	for _, c := range []struct{ selector, declares string }{
		{".part>*+*", "margin-top:" + css(plain.stack, "mm")},
		{"caption", "padding-bottom:" + css(plain.caption, "mm")},
		{".leaf .part>*+*", "margin-top:" + css(bound.stack, "mm")},
		{".leaf caption", "padding-bottom:" + css(bound.caption, "mm")},
		{".leaf .ghs", "width:" + css(leafSign, "mm")},
		{".leaf .shown-signs .shown:first-child", "height:" + css(leafShown, "mm")},
		{".leaf .numbered dd", "min-height:" + css(leafBox, "mm")},
		{".leaf .sheet+.sheet", "margin-top:" + css(betweenCards, "mm")},
		{".sheet.close", "--below-kind:" + css(closeKind, "mm")},
		{".toc", "grid-template-columns:" + css(tocColumn, "mm") + " " + css(tocColumn, "mm")},
		{".toc li", "line-height:" + css(tocLine, "")},
		{".toc li", "padding-bottom:" + css(tocRow, "mm")},
		{".toc .chapter", "padding-top:" + css(tocChapter, "mm")},
		{".disc-rows", "--disc:calc(var(--sign)*" + css(discSide, ")")},
		{".disc-rows", "--disc-plate:calc(var(--sign)*" + css(discPlate, ")")},
		{".disc-rows thead th", "width:calc(var(--disc-word)*" + css(discColumn, ")")},
		{".face-wall-a6 .disc-rows thead th", "width:calc(var(--disc-word)*" + css(discNarrow, ")")},
		{".disc-rows :is(thead td,tbody th)", "padding-right:" + css(discApart, "mm")},
		{"th,td", "padding:1.3mm var(--cell," + css(root.Cell, "mm") + ") 1.2mm 0"},
		{".sheet .tbl", "font-size:var(--table," + css(root.Table, "em") + ")"},
	} {
		require.Contains(t, ruleOf(t, sheet, c.selector), ";"+c.declares+";", c.selector)
	}
	require.InDelta(t, 1.3+1.2, plain.cell, 1e-9, "above and below a row of a table")
	require.Contains(t, ruleOf(t, sheet, ".leaf .tbl :is(th,td)"), ";padding-top:.6mm;padding-bottom:.5mm;")
	require.InDelta(t, .6+.5, bound.cell, 1e-9, "above and below a row of a table in the binder")
	units := ""
	for i, em := range unitRoom {
		units += fmt.Sprintf(".u%d{--u:%s}", i, css(em, "em"))
	}
	require.Contains(t, sheet, "\n"+strings.Replace(units, "--u:em", "--u:0em", 1)+"\n", "the room of units")
	require.Equal(t, "2mm", css(2, "mm"))
	require.Equal(t, ".35mm", css(.35, "mm"))
}

// TestRootOfTheStylesheet: a length that a face leaves out is that of the stylesheet's root,
// and a rule is never reckoned thinner than it is printed.
func TestRootOfTheStylesheet(t *testing.T) {
	root := ruleOf(t, "\n"+string(fixture.Theme(t).Style), ":root")
	r := theme.Room{}.Filled()
	for name, want := range map[string]string{
		"gap": css(r.Gap, "mm"), "pad": css(r.Pad, "mm"), "row": css(r.Row, "mm"), "sign": css(r.Sign, "mm"),
		"tick": css(r.Tick, "mm"), "head-plate": css(r.Head, "mm"), "plate-wide": css(r.Plate, "mm"),
		"when": css(r.When, "mm"), "long": css(r.Long, "mm"), "bath": css(r.Bath, "mm"), "fill": css(r.Fill, "em"),
		"sign-word": css(r.Word, "em"), "below-banner": css(r.Banner, "mm"), "below-kind": css(r.Kind, "mm"),
	} {
		require.Contains(t, root, ";--"+name+":"+want+";", name)
	}
	for name, reckoned := range map[string]float64{"hair": hair, "firm": firm, "bold": bold} {
		_, rest, ok := strings.Cut(root, ";--"+name+":")
		require.True(t, ok, name)
		printed, _, _ := strings.Cut(rest, "mm;")
		mm, err := strconv.ParseFloat(printed, 64)
		require.NoError(t, err, name)
		require.GreaterOrEqual(t, reckoned, mm, name)
		require.Less(t, reckoned, mm+.1, name)
	}
}
