package build_test

import (
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// TestSentencesOfOneChoice: what holds for one film only stands on the cards of that
// film, and on the screen with the class that shows it for them alone.
func TestSentencesOfOneChoice(t *testing.T) {
	r := boundFiles(t, options(demonstrationWith(t, map[string]func(string) string{
		"materials/film-tabular-400.toml": func(s string) string {
			return strings.Replace(s, "clears  = \"80 s\"\n", "", 1)
		},
		"materials/film-100.toml": func(s string) string {
			return regexp.MustCompile(`(?m)^note .*\n`).ReplaceAllString(s, "")
		},
	})), these("wall/a4/film-negative+", "process/film-negative.html"))
	files := filesOf(r)

	const refused = "<strong>No time</strong> for "
	tabular := files["wall/a4/film-negative+film-tabular-400.double.html"]
	plain := files["wall/a4/film-negative+film-100.double.html"]
	require.Contains(t, tabular, refused)
	require.Contains(t, tabular, "A purple dye in the fixer")
	require.NotEmpty(t, plain)
	require.NotContains(t, plain, refused)
	require.NotContains(t, plain, "A purple dye in the fixer")
	require.NotContains(t, plain, `class="para"`, "nothing is said of this film")

	p := pageOf(t, r, "process/film-negative")
	var of []string
	for i, c := range p.Choices {
		if strings.Contains(c.Variant, "tabular") {
			of = append(of, "v"+strconv.Itoa(i))
		}
	}
	class := "v " + strings.Join(of, " ")
	screen := files["process/film-negative.html"]
	require.Contains(t, screen, `<p class="caution `+class+`"><span class="`+class+`">`+refused)
	require.Contains(t, screen, `<div class="only `+class+`"><p class="para">`)
}

// TestFiguresOfEveryPage: over every card of the demonstration the blocks name the same
// figures and pieces, in the same order, as a walk by reflection over all fields finds.
func TestFiguresOfEveryPage(t *testing.T) {
	kinds := map[string]bool{}
	for _, p := range demonstration(t).Binder.Pages {
		var ids []*figure.Record
		var inlines []page.Inline
		walkFields(reflect.ValueOf(p), func(v any) {
			switch v := v.(type) {
			case page.Inline:
				ids, inlines = append(ids, v.Figures...), append(inlines, v)
			case page.Cell:
				if v.Refused != nil {
					ids = append(ids, v.Refused)
				}
			case page.Container:
				if v.Holds != nil {
					ids = append(ids, v.Holds)
				}
			case page.Ticks:
				ids = append(ids, v.Count)
			case page.ChartPoint:
				ids = append(ids, v.X, v.Y)
			case page.ChartLimit:
				ids = append(ids, v.At)
			case page.Temp:
				ids = append(ids, v.Time...)
			case page.Ruler:
				ids = slices.Concat(ids, v.Length, v.First, v.Marks, v.Lasts, v.Drain)
			}
			if b, ok := v.(page.Block); ok {
				kinds[b.Block()] = true
			}
		})
		var seen []page.Inline
		page.Inlines(p, func(in page.Inline) { seen = append(seen, in) })
		require.Equal(t, ids, page.Figures(p), p.ID)
		require.Equal(t, inlines, seen, p.ID)
		if len(p.Today) == 0 && p.Foot.Overdue == "" {
			require.Equal(t, p, page.Lasting(p), p.ID)
		}
	}
	require.Greater(t, len(kinds), 15, "the demonstration has most kinds of block")
}

// walkFields visits every struct below v, outermost first.
func walkFields(v reflect.Value, visit func(any)) {
	switch v.Kind() {
	case reflect.Interface, reflect.Pointer:
		if _, isFigure := v.Interface().(*figure.Record); !v.IsNil() && !isFigure {
			walkFields(v.Elem(), visit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			walkFields(v.Index(i), visit)
		}
	case reflect.Struct:
		visit(v.Interface())
		for i := range v.NumField() {
			walkFields(v.Field(i), visit)
		}
	}
}
