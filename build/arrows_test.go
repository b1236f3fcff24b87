package build_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// arrows is a statement of policy: which of our packages each imports. None stands here
// that nobody uses.
var arrows = map[string][]string{
	"procedures/unit":     {},
	"procedures/near":     {},
	"procedures/series":   {},
	"procedures/figure":   {"procedures/unit"},
	"procedures/chem":     {},
	"procedures/lab":      {"procedures/unit", "procedures/near", "procedures/figure", "procedures/chem"},
	"procedures/rules":    {"procedures/unit", "procedures/figure", "procedures/lab"},
	"procedures/mix":      {"procedures/unit", "procedures/figure", "procedures/chem", "procedures/lab", "procedures/rules"},
	"procedures/timing":   {"procedures/unit", "procedures/figure", "procedures/lab"},
	"procedures/capacity": {"procedures/unit", "procedures/figure", "procedures/chem", "procedures/lab", "procedures/mix"},
	"procedures/mixture":  {"procedures/unit", "procedures/lab"},
	"procedures/hazard":   {"procedures/series", "procedures/unit", "procedures/figure", "procedures/chem", "procedures/lab", "procedures/rules", "procedures/mix", "procedures/mixture"},
	"procedures/waste":    {"procedures/unit", "procedures/figure", "procedures/lab", "procedures/rules", "procedures/mix"},
	"procedures/shelf":    {"procedures/unit", "procedures/figure", "procedures/lab", "procedures/capacity"},
	"procedures/ph":       {"procedures/unit", "procedures/figure", "procedures/chem", "procedures/lab", "procedures/mix"},
	"procedures/air":      {"procedures/unit", "procedures/figure", "procedures/chem", "procedures/lab", "procedures/mix"},
	"procedures/react":    {"procedures/unit", "procedures/figure", "procedures/chem", "procedures/lab", "procedures/mix", "procedures/ph"},
	"procedures/page":     {"procedures/series", "procedures/figure"},
	"procedures/work": {"procedures/series", "procedures/unit", "procedures/figure", "procedures/chem", "procedures/lab", "procedures/rules", "procedures/mix", "procedures/timing",
		"procedures/capacity", "procedures/hazard", "procedures/waste", "procedures/shelf", "procedures/ph", "procedures/air", "procedures/mixture", "procedures/react"},
	// A card has no arrow to what works things out: it can only arrange what work answers.
	"procedures/cards": {"procedures/series", "procedures/unit", "procedures/figure", "procedures/lab", "procedures/page", "procedures/work"},
	"procedures":       {"procedures/unit", "procedures/figure", "procedures/lab", "procedures/mix", "procedures/hazard", "procedures/waste", "procedures/shelf", "procedures/page", "procedures/cards", "procedures/work"},

	"content":               {},
	"themes":                {},
	"build/source":          {"procedures/near"},
	"build/output":          {},
	"build/load":            {"build/source", "procedures/near", "procedures/lab"},
	"build/theme":           {"procedures/near", "procedures/page"},
	"build/prose":           {"build/source", "procedures/near", "build/load", "procedures", "procedures/page", "procedures/figure"},
	"build/render/parallel": {},
	"build/render/wording":  {"procedures/figure", "procedures/page"},
	"build/render/typeset":  {"build/render/wording", "procedures/page", "build/theme"},
	"build/render/draw":     {"build/render/wording", "build/render/typeset", "procedures/figure", "procedures/page"},
	"build/render/view":     {"build/render/wording", "build/render/typeset", "build/render/draw", "procedures/figure", "procedures/page", "procedures", "build/theme"},
	"build/render/text":     {"build/render/wording", "build/render/view", "procedures/figure", "procedures/page"},
	"build/render/labels":   {"build/render/wording", "build/render/typeset", "build/render/draw", "build/render/view", "procedures/figure", "procedures/page", "build/theme"},
	"build/render/paper":    {"build/render/parallel", "build/render/wording", "build/render/typeset", "build/render/draw", "build/render/view", "procedures/page", "build/theme"},
	"build/render/screen":   {"build/render/wording", "build/render/draw", "build/render/view", "build/render/labels", "build/render/paper", "procedures/figure", "procedures/page", "build/theme"},
	"build/render":          {"build/render/parallel", "build/render/view", "build/render/text", "build/render/labels", "build/render/paper", "build/render/screen", "procedures/page", "procedures", "build/theme"},
	"build": {"build/source", "build/load", "build/prose", "build/render", "build/theme", "procedures", "procedures/unit",
		"procedures/figure", "procedures/hazard", "procedures/lab", "procedures/page"},
	"cmd/wetside": {"build", "procedures/near", "build/load", "build/output", "build/render", "build/source", "content", "themes", "procedures", "procedures/unit", "procedures/figure", "procedures/page"},
}

// impure lists what the core may not import: anything that reads the world.
var impure = []string{"os", "io", "io/fs", "net", "net/http", "embed", "math/rand", "math/rand/v2"}

func TestArrows(t *testing.T) {
	seen, used := map[string]bool{}, map[string]map[string]bool{}
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() && (strings.HasPrefix(d.Name(), ".") && d.Name() != ".." || d.Name() == "testdata") {
			return fs.SkipDir
		}
		if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return nil
		}
		pkg := filepath.ToSlash(strings.TrimPrefix(filepath.Dir(path), ".."+string(filepath.Separator)))
		allowed, known := arrows[pkg]
		require.True(t, known, "%s: the package is not in the table of arrows", path)
		seen[pkg] = true
		src, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		f, err := parser.ParseFile(token.NewFileSet(), path, src, 0)
		if err != nil {
			return err
		}
		for _, imp := range f.Imports {
			name, _ := strconv.Unquote(imp.Path.Value)
			if own, ok := strings.CutPrefix(name, "wetside/"); ok {
				require.True(t, slices.Contains(allowed, own), "%s imports %s: no arrow leads there", path, own)
				if used[pkg] == nil {
					used[pkg] = map[string]bool{}
				}
				used[pkg][own] = true
			}
			if strings.HasPrefix(pkg, "procedures") {
				require.False(t, slices.Contains(impure, name), "%s imports %s: the core is pure", path, name)
			}
		}
		if strings.HasPrefix(pkg, "procedures") {
			ast.Inspect(f, func(n ast.Node) bool {
				if sel, ok := n.(*ast.SelectorExpr); ok {
					if x, ok := sel.X.(*ast.Ident); ok && x.Name == "time" {
						require.NotEqual(t, "Now", sel.Sel.Name, "%s reads the clock", path)
					}
				}
				return true
			})
		}
		return nil
	})
	require.NoError(t, err)
	for pkg, list := range arrows {
		require.True(t, seen[pkg], "%s: there is no such package", pkg)
		for _, own := range list {
			require.True(t, used[pkg][own], "nothing in %s imports %s: take the arrow out", pkg, own)
		}
	}
	require.Greater(t, len(seen), 15)
}

// TestFormulasAreRegistered: no formula is declared past figure.Register, where no check
// would see it.
func TestFormulasAreRegistered(t *testing.T) {
	found := 0
	err := filepath.WalkDir("../procedures", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
			return err
		}
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, path, nil, 0)
		if err != nil {
			return err
		}
		registered := map[ast.Node]bool{}
		ast.Inspect(file, func(n ast.Node) bool {
			switch n := n.(type) {
			case *ast.CallExpr:
				if named(n.Fun, "Register") && len(n.Args) == 1 {
					if ref, ok := n.Args[0].(*ast.UnaryExpr); ok {
						registered[ref.X] = true
					}
				}
			case *ast.CompositeLit:
				typed, ok := n.Type.(*ast.IndexListExpr)
				if ok && (named(typed.X, "F2") || named(typed.X, "F3") || named(typed.X, "F4") || named(typed.X, "F5") || named(typed.X, "F1") || named(typed.X, "FN")) {
					found++
					require.True(t, registered[n], "%s: a formula that is not registered", set.Position(n.Pos()))
				}
			}
			return true
		})
		return nil
	})
	require.NoError(t, err)
	require.Greater(t, found, 140)
}

// named reports a name of the package figure.
func named(e ast.Expr, name string) bool {
	sel, ok := e.(*ast.SelectorExpr)
	if !ok || sel.Sel.Name != name {
		return false
	}
	pkg, ok := sel.X.(*ast.Ident)
	return ok && pkg.Name == "figure"
}

// TestCardsWorkNothingOut: a card makes no figure and no verdict of its own, and never
// opens a declared value to count with it. The one card that prints any figure's inside
// is its working.
func TestCardsWorkNothingOut(t *testing.T) {
	ofFigure := []string{"Record", "InputRef", "KindText", "Unvouched"} // names and readers, no makers
	opened := []string{"Exact", "Value", "Float", "Cmp", "Seconds", "Register"}
	cards, err := filepath.Glob("../procedures/cards/*.go")
	require.NoError(t, err)
	seen := 0
	for _, name := range cards {
		if strings.HasSuffix(name, "_test.go") {
			continue
		}
		seen++
		set := token.NewFileSet()
		file, err := parser.ParseFile(set, name, nil, 0)
		require.NoError(t, err)
		for _, i := range file.Imports {
			require.NotContains(t, i.Path.Value, "math", "%s: a card that counts", name)
		}
		ast.Inspect(file, func(n ast.Node) bool {
			sel, ok := n.(*ast.SelectorExpr)
			if !ok {
				return true
			}
			if pkg, ok := sel.X.(*ast.Ident); ok && pkg.Name == "figure" {
				require.Contains(t, ofFigure, sel.Sel.Name, "%s: a card that makes a figure", set.Position(n.Pos()))
			}
			if filepath.Base(name) != "working.go" {
				require.NotContains(t, opened, sel.Sel.Name, "%s: a card that opens a value", set.Position(n.Pos()))
			}
			return true
		})
	}
	require.Greater(t, seen, 25)
}
