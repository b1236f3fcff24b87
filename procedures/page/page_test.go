package page

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
)

var recordType = reflect.TypeFor[*figure.Record]()

// walk visits every struct below v by reflection, outermost first.
func walk(v reflect.Value, visit func(any)) {
	switch v.Kind() {
	case reflect.Interface, reflect.Pointer:
		if !v.IsNil() && v.Type() != recordType {
			walk(v.Elem(), visit)
		}
	case reflect.Slice:
		for i := range v.Len() {
			walk(v.Index(i), visit)
		}
	case reflect.Struct:
		visit(v.Interface())
		for i := range v.NumField() {
			walk(v.Field(i), visit)
		}
	}
}

// filled sets every field below v: each text is one figure, each list has two members,
// and every string is another one.
func filled(v reflect.Value, only Only, n *int) {
	switch {
	case v.Type() == reflect.TypeFor[Only]():
		return
	case v.Type() == reflect.TypeFor[Inline]():
		*n++
		v.Set(reflect.ValueOf(Inline{Only: only, Kind: Fig, Figures: []*figure.Record{figure.Of(figure.Core{ID: fmt.Sprint("figure ", *n)}, figure.Face{Shown: "1"})}}))
		return
	case v.Type() == recordType:
		*n++
		v.Set(reflect.ValueOf(figure.Of(figure.Core{ID: fmt.Sprint("figure ", *n)}, figure.Face{Shown: "1"})))
		return
	}
	switch v.Kind() {
	case reflect.Slice:
		v.Set(reflect.MakeSlice(v.Type(), 2, 2))
		for i := range 2 {
			filled(v.Index(i), only, n)
		}
	case reflect.Struct:
		for i := range v.NumField() {
			filled(v.Field(i), only, n)
		}
	case reflect.String:
		*n++
		v.SetString(fmt.Sprint("text ", *n))
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int:
		v.SetInt(1)
	}
}

// every is one filled block of each kind; all its pieces hold only then.
func every(only Only) []Block {
	var out []Block
	n := 0
	for _, b := range Blocks() {
		v := reflect.New(reflect.TypeOf(b)).Elem()
		filled(v, only, &n)
		out = append(out, v.Interface().(Block))
	}
	return out
}

// TestNoFieldIsForgotten: each kind of block shows the sieve all its texts and figures,
// in the order of its fields.
func TestNoFieldIsForgotten(t *testing.T) {
	for _, b := range every(Only{}) {
		p := Page{Do: []Block{b}}
		var ids []*figure.Record
		var inlines []Inline
		walk(reflect.ValueOf(b), func(v any) {
			switch v := v.(type) {
			case Inline:
				ids, inlines = append(ids, v.Figures...), append(inlines, v)
			case Cell:
				ids = append(ids, v.Refused)
			case Container:
				ids = append(ids, v.Holds)
			case Ticks:
				ids = append(ids, v.Count)
			case ChartPoint:
				ids = append(ids, v.X, v.Y)
			case ChartLimit:
				ids = append(ids, v.At)
			case Temp:
				ids = append(ids, v.Time...)
			case Ruler:
				ids = slices.Concat(ids, v.Length, v.First, v.Marks, v.Lasts, v.Drain)
			}
		})
		var seen []Inline
		Inlines(p, func(in Inline) { seen = append(seen, in) })
		require.Equal(t, ids, Figures(p), b.Block())
		require.Equal(t, inlines, seen, b.Block())
		require.Equal(t, p, In(p, 0), "%s loses what holds for every choice", b.Block())
		require.False(t, b.Empty(), b.Block())
	}
	for _, b := range Blocks() {
		require.True(t, b.Empty(), b.Block())
	}
}

// TestWhatDoesNotHoldIsLeftOut: nothing of another choice stays in any field of any
// block, nor of today on paper that lasts.
func TestWhatDoesNotHoldIsLeftOut(t *testing.T) {
	count := func(p Page) (n int) {
		walk(reflect.ValueOf(p), func(v any) {
			if _, ok := v.(Inline); ok {
				n++
			}
		})
		return n
	}
	second := Page{Do: every(Only{For: []int{1}})}
	require.Equal(t, count(second), count(In(second, 1)))
	require.Equal(t, count(second), count(In(second, -1)))
	require.Zero(t, count(In(second, 0)))
	require.Less(t, len(FiguresOf(second, 0)), len(FiguresOf(second, 1)))

	daily := Page{Do: every(Only{Today: true})}
	require.Equal(t, count(daily), count(In(daily, 0)))
	require.Zero(t, count(Lasting(daily)))
	require.Zero(t, count(OnPaper(daily, -1)))
	daily.Kind = "shelf"
	require.Equal(t, count(daily), count(OnPaper(daily, -1)))
	require.Zero(t, count(Lasting(daily)))
}

// TestRowsAndBlocksHoldForSomeChoices: rows, lines of a list and whole blocks go as one,
// and a block goes with the last of its rows.
func TestRowsAndBlocksHoldForSomeChoices(t *testing.T) {
	first, second := Only{For: []int{0}}, Only{For: []int{1}}
	said := Say(W("said"))
	p := Page{
		Before: []Block{Para{Only: second, Text: said}, Para{Text: said}},
		Do: []Block{
			Steps{Rows: []Step{{Only: first, ID: "a"}, {ID: "b"}, {Only: second, ID: "c"}}},
			Clock{Rows: []ClockRow{{Only: second, ID: "d"}}},
			Table{Rows: []Row{{Only: first}, {Cells: []Cell{{Text: said.With(second)}, {Text: said}}}}},
			List{Label: said, Items: []Text{said.With(second), said.With(second)}},
			List{Items: []Text{said, said.With(second), nil}},
			Gear{Items: []GearItem{{Word: "gloves"}}, Note: said.With(second)},
			HolesList{},
		},
	}
	require.Equal(t, Page{
		Before: []Block{Para{Text: said}},
		Do: []Block{
			Steps{Rows: []Step{{Only: first, ID: "a"}, {ID: "b"}}},
			Table{Rows: []Row{{Only: first}, {Cells: []Cell{{Text: Text{}}, {Text: said}}}}},
			List{Items: []Text{said, nil}},
			Gear{Items: []GearItem{{Word: "gloves"}}, Note: Text{}},
			HolesList{},
		},
	}, In(p, 0))
	require.Len(t, p.Do[0].(Steps).Rows, 3, "the page itself is left as it was")
	require.Equal(t, second, said.With(second).When())
	require.Equal(t, Only{}, append(said.With(second), said...).When())
}

// TestRowsOfABlock: what is cut into rows has all of them, once, in order.
func TestRowsOfABlock(t *testing.T) {
	cut := 0
	for _, b := range every(Only{}) {
		r, ok := b.(Rowed)
		if !ok {
			require.Zero(t, Rows(b))
			continue
		}
		cut++
		require.Equal(t, 2, Rows(b), b.Block())
		require.Equal(t, b, r.Slice(0, 2), b.Block())
		one, two := r.Slice(0, 1).(Rowed), r.Slice(1, 2).(Rowed)
		require.Equal(t, 1, one.Len(), b.Block())
		require.NotEqual(t, one, two, b.Block())
	}
	require.Equal(t, 8, cut)
	table := Table{Rows: make([]Row, 2), Note: Say(W("note"))}
	require.Empty(t, table.Slice(0, 1).(Table).Note)
	require.NotEmpty(t, table.Slice(1, 2).(Table).Note)
}

// TestEveryKindIsListed: each type of this package that is a block stands in Blocks.
func TestEveryKindIsListed(t *testing.T) {
	listed := map[string]bool{}
	for _, b := range Blocks() {
		listed[reflect.TypeOf(b).Name()] = true
	}
	names, err := fs.Glob(os.DirFS("."), "*.go")
	require.NoError(t, err)
	found := 0
	for _, name := range names {
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, 0)
		require.NoError(t, err)
		for _, d := range file.Decls {
			f, ok := d.(*ast.FuncDecl)
			if !ok || f.Recv == nil || f.Name.Name != "Block" || strings.HasSuffix(name, "_test.go") {
				continue
			}
			found++
			kind := f.Recv.List[0].Type.(*ast.Ident).Name
			require.True(t, listed[kind], "%s: %s is missing in Blocks", name, kind)
		}
	}
	require.Equal(t, len(listed), found)
}

// TestSharer: pages that say the same keep it in one place and say it still; what only looks
// alike stays apart.
func TestSharer(t *testing.T) {
	a, b := &figure.Record{Core: &figure.Core{ID: "x/y"}}, &figure.Record{Core: &figure.Core{ID: "x/y"}}
	with := func(r *figure.Record, o Only) Page {
		return Page{ID: "p", Lead: Say(W("Wear "), F(r)).With(o), Do: []Block{Para{Text: Say(W("Wear "), F(r))}}}
	}
	s := NewSharer()
	one, other := s.Page(with(a, Only{})), s.Page(with(a, Only{}))
	require.Equal(t, with(a, Only{}), one)
	require.Equal(t, with(a, Only{}), other)
	require.Same(t, &one.Lead[0], &other.Lead[0])
	require.Same(t, &one.Lead[0], &one.Do[0].(Para).Text[0])
	require.Equal(t, len(one.Lead), cap(one.Lead), "nothing can be added behind what others share")
	require.NotSame(t, &one.Lead[0], &s.Page(with(b, Only{})).Lead[0], "another figure of that id")
	for _, o := range []Only{{Today: true}, {Paper: true}, {For: []int{1}}, {For: []int{}}} {
		left := s.Page(with(a, o))
		require.Equal(t, with(a, o), left)
		require.NotSame(t, &one.Lead[0], &left.Lead[0])
	}
}

// TestListInOneLine: where an item has a comma of its own, a semicolon parts the items.
func TestListInOneLine(t *testing.T) {
	for want, items := range map[string][]Text{
		"in: a, b":            {Say(W("a")), Say(W("b"))},
		"in: a; toner B, lye": {Say(W("a")), Say(N("toner B, lye"))},
	} {
		said := List{Label: Say(W("in")), Items: items}.Said()
		require.Len(t, said, 1)
		got := ""
		for _, in := range said[0] {
			got += in.Text
		}
		require.Equal(t, want, got)
	}
}
