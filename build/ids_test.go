package build_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"html"
	"net/url"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
)

// makers are the packages that make figures and verdicts. What has a '/' elsewhere is the
// address of a page or a key of a file.
var makers = []string{"mix", "timing", "capacity", "hazard", "waste", "shelf", "work"}

// perUnit are the units with a '/' that figures are printed in, where no field says that
// they are units.
var perUnit = []string{"/L", "g/L", "mg/L", "mg/kg", "m²/L", "rolls/L", "g/m²", "g/mol", "L/min", "ml/"}

// TestIDsAreMadeInOnePlace: outside package figure nobody puts an id together by hand.
func TestIDsAreMadeInOnePlace(t *testing.T) {
	seen, made := map[string]bool{}, 0
	for _, pkg := range makers {
		files, err := filepath.Glob("../procedures/" + pkg + "/*.go")
		require.NoError(t, err)
		require.NotEmpty(t, files)
		for _, name := range files {
			if strings.HasSuffix(name, "_test.go") {
				continue
			}
			set := token.NewFileSet()
			file, err := parser.ParseFile(set, name, nil, 0)
			require.NoError(t, err)
			for _, hand := range handMade(file) {
				seen[hand.text] = true
				require.Contains(t, perUnit, hand.text, "%s: an id, or a part of one, that is not made by figure.ID or figure.Beside", set.Position(hand.at))
			}
			ast.Inspect(file, func(n ast.Node) bool {
				if call, ok := n.(*ast.CallExpr); ok && (named(call.Fun, "ID") || named(call.Fun, "Beside")) {
					made++
				}
				return true
			})
		}
	}
	for _, unit := range perUnit {
		require.True(t, seen[unit], "no figure is counted in %s: take it out", unit)
	}
	require.Greater(t, made, 200)
}

// hand is a piece of an id that was put together by hand.
type hand struct {
	at   token.Pos
	text string
}

// handMade lists by what ids are put together past figure.ID. It is a text, wherever it
// stands, that has no space and
//   - holds '/' or '@' and more besides: "/draw@", "order/", "shelf/day", "%s/need";
//   - or begins with ',' and goes on: ",error", ",place=%d";
//   - or is "/" or "@" alone, in a sum.
//
// And it is a sum, however it is made, where an id is expected: for the field ID, and for
// the argument of Of, Declare, DeclareDate, Refuse and As that is one. A lone ',' is none,
// since the key of a tank with its family has one; nor is what a field calls a unit.
func handMade(file *ast.File) []hand {
	var out []hand
	summed := map[ast.Node]bool{}
	expected := func(e ast.Expr) {
		if sum, ok := e.(*ast.BinaryExpr); ok {
			out = append(out, hand{sum.Pos(), "a sum"})
		}
	}
	ast.Inspect(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.ImportSpec, *ast.StructType: // paths, and tags of fields
			return false
		case *ast.KeyValueExpr:
			switch key, _ := n.Key.(*ast.Ident); {
			case key == nil:
			case key.Name == "Unit":
				return false
			case key.Name == "ID":
				expected(n.Value)
			}
		case *ast.CallExpr:
			if sel, ok := n.Fun.(*ast.SelectorExpr); ok {
				if at, takes := idArgument[sel.Sel.Name]; takes && len(n.Args) > at {
					expected(n.Args[at])
				}
			}
		case *ast.BinaryExpr:
			summed[n.X], summed[n.Y] = true, true
		case *ast.BasicLit:
			text, err := strconv.Unquote(n.Value)
			if n.Kind != token.STRING || err != nil || strings.Contains(text, " ") {
				break
			}
			lone := text == "@" || text == "/"
			if lone && summed[n] || !lone && strings.ContainsAny(text, "/@") || len(text) > 1 && text[0] == ',' {
				out = append(out, hand{n.Pos(), text})
			}
		}
		return true
	})
	return out
}

// idArgument is which argument of a method or function of package figure is an id.
var idArgument = map[string]int{"Of": 0, "Declare": 1, "DeclareDate": 1, "Refuse": 0, "As": 0}

// TestHandMade holds the search against ids that were put together by hand once, and
// against what is none.
func TestHandMade(t *testing.T) {
	for code, want := range map[string][]string{
		`f.Of(id + ".known", x)`:                       {"a sum"},
		`figure.Declare(book, w.subject + what, kind)`: {"a sum"},
		`figure.Core{ID: id + "." + word}`:             {"a sum"},
		`Of(b.Ref() + "/draw@" + tag)`:                 {"/draw@"},
		`Of(id + ",error")`:                            {",error"},
		`Of("order/" + ref + ",missing")`:              {"order/", ",missing"},
		`Of("shelf/day")`:                              {"shelf/day"},
		`fmt.Sprintf("%s/need@%s,%d", a, b, n)`:        {"%s/need@%s,%d"},
		`fmt.Sprintf(",place=%d", n)`:                  {",place=%d"},
		`subject + "/" + what`:                         {"/"},
		`"@" + strings.Join(by, ",")`:                  {"@"},
		`figure.Verdict{ID: b.Ref() + "/serves"}`:      {"a sum", "/serves"},
		`figure.ID(b.Ref(), "draw@" + tag)`:            {"draw@"},
		`figure.ID(b.Ref(), "draw", tag)`:              nil,
		`figure.Beside(id, "error")`:                   nil,
		`strings.Cut(v.Key, ",")`:                      nil,
		`strings.Cut(label, "@")`:                      nil,
		`"volume of " + name + ", in all"`:             nil,
		`figure.Term{Unit: "g/ml"}`:                    nil,
		`"write and/or"`:                               nil,
	} {
		file, err := parser.ParseFile(token.NewFileSet(), "", "package x\nvar y = "+code, 0)
		require.NoError(t, err, code)
		var got []string
		for _, hand := range handMade(file) {
			got = append(got, hand.text)
		}
		require.Equal(t, want, got, code)
	}
}

// soundID is the grammar of figure.ID: no word of an id holds a letter that parts it. A
// subject may name a tank with its family, "film-negative+film-400.five,120".
var soundID = regexp.MustCompile(`^[a-z0-9.+-]+(,[a-z0-9-]+)?/[a-z0-9.+-]+(@[a-z0-9.+=-]+)?(,[a-z0-9.+=-]+)*$`)

// TestIDsAreSound holds every id of the demonstration and the three labs against the
// grammar.
func TestIDsAreSound(t *testing.T) {
	for name := range labs {
		r := boundLab(t, name)
		require.NotEmpty(t, r.Binder.Answers)
		for _, f := range r.Binder.Answers {
			require.True(t, soundID.MatchString(f.ID), "%s: %s", name, f.ID)
		}
		for _, v := range r.Binder.Verdicts {
			require.True(t, soundID.MatchString(v.ID), "%s: %s", name, v.ID)
		}
	}
	for _, id := range []string{"", "draw", "/draw", "a/b/draw", "a@b/draw", "a/draw/x", "a/draw@x@y", "a/draw@", "a/draw,", "a/draw@,x", "a/draw@x/y", "a/d raw"} {
		require.False(t, soundID.MatchString(id), id)
	}
}

// namedBy is a lab with one name in a tank, a strength, a step of a solution and one of a
// process, a format and its family.
func namedBy(name string) map[string]string {
	q := strconv.Quote(name)
	return map[string]string{
		"lab.toml":            "[lab]\nname = \"Test\"\n[cylinder.c]\nholds = \"500 mL\"\n[tank." + q + "]\nfill = \"600 mL\"\ntakes = { " + q + " = 2 }\n",
		"solutions/dev.toml":  "name = \"dev\"\nrole = \"developer\"\nper = \"1 L\"\n[[step]]\nid = " + q + "\nadd = \"sodium-sulfite.anhydrous\"\namount = \"50 g\"\n[strength." + q + "]\ndilute = \"1+1\"\nuse = \"one-shot\"\n",
		"materials/film.toml": "name = \"film\"\nbase = \"film\"\nformats = [" + q + "]\ndevelop = [{ in = " + strconv.Quote("dev."+name) + ", at = \"20 °C\", time = \"10:00\" }]\n[format." + q + "]\nfamily = " + q + "\narea = \"516 cm2\"\n",
		"processes/film.toml": "name = \"film dev\"\nbase = \"film\"\n[[step]]\nid = " + q + "\nbath = " + strconv.Quote("dev."+name) + "\ntime = \"material\"\n",
	}
}

// TestLettersOfNames: a letter that would part an id, or that no file name or address can
// hold, is a fault wherever a name may have it. All others go into ids, file names and
// links, and every link leads to its page.
func TestLettersOfNames(t *testing.T) {
	const no = "/@,#?*:|<>\"\\\t\n"
	for _, letter := range no {
		r, err := build.Work(options(folder(namedBy("a" + string(letter) + "b"))))
		require.NoError(t, err)
		require.Len(t, r.Faults, 6, "%q: %v", letter, r.Faults)
		for _, f := range r.Faults {
			require.Equal(t, "name", f.Code)
			require.Contains(t, f.Hint, "a-b", "%q", letter)
		}
	}
	for letters, faults := range map[int]int{40: 0, 41: 6} {
		r, err := build.Work(options(folder(namedBy(strings.Repeat("薬", letters)))))
		require.NoError(t, err)
		require.Equal(t, faults, r.Faults.Errors(), "%v", r.Faults)
	}
	// All others, in two names of one lab after the other.
	var rest []rune
	for letter := rune(' '); letter <= '~'; letter++ {
		if !strings.ContainsRune(no, letter) {
			rest = append(rest, letter)
		}
	}
	for name := range slices.Chunk(append(rest, []rune("ß薬Ω")...), 38) {
		leadsToItsPages(t, "x"+string(name)+"x")
	}
}

// leadsToItsPages holds the links of a lab, with one name wherever one may stand, against
// its files.
func leadsToItsPages(t *testing.T, name string) {
	t.Helper()
	r, err := build.Bind(options(folder(namedBy(name))))
	require.NoError(t, err)
	require.False(t, r.Faults.HasErrors(), "%v", r.Faults)
	there, links := map[string]bool{}, 0
	for _, f := range r.Files {
		there[f.Path] = true
		require.False(t, strings.ContainsAny(f.Path, `\:*?"<>|`), f.Path)
	}
	for _, f := range r.Files {
		for _, m := range href.FindAllStringSubmatch(string(f.Bytes), -1) {
			to, err := url.Parse(html.UnescapeString(m[1]))
			require.NoError(t, err, f.Path)
			if path.Ext(f.Path) == ".html" && to.Scheme == "" && to.Path != "" && strings.Contains(to.Path, name) {
				links++
				require.True(t, there[path.Join(path.Dir(f.Path), to.Path)], "%s: %s", f.Path, m[1])
			}
		}
	}
	require.Greater(t, links, 10)
	for _, f := range r.Binder.Answers {
		require.Equal(t, 1, strings.Count(f.ID, "/"), f.ID)
		require.LessOrEqual(t, strings.Count(f.ID, "@"), 1, f.ID)
	}
}
