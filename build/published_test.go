package build_test

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"wetside/build/load"
	"wetside/content"
	"wetside/procedures"
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/rules"
	"wetside/procedures/unit"
	"wetside/testdata/published"
)

// TestEveryPublishedFileIsRead: each file of published values is read by a test,
// or its quantities by several, each by one; published.Open makes them use every
// row. The README counts the rows right.
func TestEveryPublishedFileIsRead(t *testing.T) {
	opened := map[string][]string{} // quantities by file, "" for all of them
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, "_test.go") {
			return err
		}
		src, err := parser.ParseFile(token.NewFileSet(), path, nil, 0)
		if err != nil {
			return err
		}
		for _, decl := range src.Decls {
			if f, ok := decl.(*ast.FuncDecl); ok && f.Recv == nil && strings.HasPrefix(f.Name.Name, "Test") {
				openedIn(t, f, opened)
			}
		}
		return nil
	})
	require.NoError(t, err)

	readme, err := os.ReadFile("../testdata/published/README.md")
	require.NoError(t, err)
	counted := map[string]int{}
	for _, m := range regexp.MustCompile(`(?m)^\| (\w+\.tsv) \| (\d+) \|`).FindAllStringSubmatch(string(readme), -1) {
		counted[m[1]], err = strconv.Atoi(m[2])
		require.NoError(t, err)
	}
	counts := published.Counts(t)
	for name, quantities := range counts {
		rows, all := 0, []string{}
		for quantity, n := range quantities {
			rows += n
			all = append(all, quantity)
		}
		assert.Equal(t, rows, counted[name], "rows of %s by the table in README.md", name)
		switch {
		case len(opened[name]) == 0:
			assert.Fail(t, "no test reads "+name)
		case !slices.Equal(opened[name], []string{""}):
			assert.ElementsMatch(t, all, opened[name], "quantities that tests read of %s", name)
		}
	}
	require.Len(t, counted, len(counts), "files by the table in README.md")
}

// openedIn gathers the published files, or quantities of them, that a test opens.
func openedIn(t *testing.T, f *ast.FuncDecl, opened map[string][]string) {
	t.Helper()
	ast.Inspect(f, func(n ast.Node) bool {
		call, ok := n.(*ast.CallExpr)
		if !ok {
			return true
		}
		sel, ok := call.Fun.(*ast.SelectorExpr)
		if !ok || sel.Sel.Name != "Open" {
			return true
		}
		if pkg, ok := sel.X.(*ast.Ident); !ok || pkg.Name != "published" {
			return true
		}
		var words []string
		for _, arg := range call.Args[1:] {
			word, ok := arg.(*ast.BasicLit)
			require.True(t, ok, "%s: the names of published files and quantities are written out", f.Name.Name)
			text, err := strconv.Unquote(word.Value)
			require.NoError(t, err)
			words = append(words, text)
		}
		if len(words) == 1 {
			words = append(words, "")
		}
		opened[words[0]] = append(opened[words[0]], words[1:]...)
		return true
	})
}

// ownFormats declares sizes that the table of formats lacks, so that their area
// and their equivalents are worked out as for any format of a lab's own.
const ownFormats = `name = "odd sizes"
base = "film"
formats = ["5x7", "a4", "small-movie", "movie"]
[format.5x7]
width = "127 mm"
length = "177.8 mm"
[format.a4]
width = "210 mm"
length = "297 mm"
[format.small-movie]
width = "8 mm"
length = "15240 mm"
[format.movie]
width = "16 mm"
length = "30480 mm"
`

// TestFormatsArePublished holds the areas of the table of formats against the
// published ones. Rows of whole strips (135-36, 135-24, 120) rest on lengths from
// memory, as the table does; sheets are plain arithmetic on their nominal sizes.
func TestFormatsArePublished(t *testing.T) {
	f := published.Open(t, "formats.tsv")
	l := loadedLab(t, map[string]string{"materials/odd.toml": ownFormats})
	binder, problems := procedures.Compute(l, march14)
	binder.Finish()
	for _, p := range problems {
		require.True(t, p.Warning, "%v: %s", p.At, p.What)
	}
	figures := map[string]float64{}
	for _, r := range binder.Figures {
		require.False(t, strings.HasPrefix(r.ID, "format.") && r.Refused(), r.ID)
		figures[r.ID] = r.Value
	}
	value := func(id string) float64 {
		require.Contains(t, figures, id)
		return figures[id]
	}
	rows := map[string]string{
		"135-36": "f135_36_strip_cm2", "135-24": "f135_24_strip_cm2", "120": "f120_strip_cm2",
		"4x5": "f4x5_cm2", "20x25": "f8x10_cm2", "24x30": "f24x30p5cm_cm2", "30x40": "f30p5x40p6cm_cm2",
		// 17.8 × 24.0 cm as sold, from memory: no row is of that size
		"18x24":   "",
		"odd.5x7": "f5x7_cm2", "odd.a4": "fA4_cm2", "odd.small-movie": "fS8_50_cm2", "odd.movie": "f16_100_cm2",
	}
	for id, row := range rows {
		if area := value("format." + id + "/area"); row != "" {
			f.Holds(row, area)
		}
	}
	for id := range l.Formats.Format {
		require.Contains(t, rows, id, "a format without a published area")
	}

	// What counts as one roll is the trade's 80 square inches in whole cm².
	roll := value("format.odd.a4/area") / value("format.odd.a4/rolls.area")
	require.InDelta(t, unit.Round(f.Row("rule80").Want, 1, unit.Nearest), roll, 1e-9)
	f.Holds("rule80_135_true", value("format.135-36/area")/roll)
	f.Holds("rule80_120_true", value("format.120/area")/roll)
	f.Holds("rule80_s8", value("format.odd.small-movie/rolls.area"))
	f.Holds("rule80_a4", value("format.odd.a4/rolls.area"))
	f.Holds("rule80_4x5", 1/value("format.4x5/rolls"))
	f.Holds("rule80_5x7", 1/value("format.odd.5x7/rolls.area"))
	for _, id := range []string{"135-36", "120", "20x25"} {
		require.Equal(t, 1.0, value("format."+id+"/rolls"), id)
	}
}

// TestPairsArePublished holds the pairs that never meet against published ones, the
// worst of each pair first; and against pairs that are none.
func TestPairsArePublished(t *testing.T) {
	f := published.Open(t, "apart.tsv")
	l := loadedLab(t, nil)
	r, problems := rules.Of(l)
	require.Empty(t, problems)
	kinds := func(name string) rules.Kinds {
		if c := l.Chemical(name); c != nil {
			return r.OfChemical(c)
		}
		k := r.OfName(name)
		require.True(t, k.Any("acid", "alkali", "hypochlorite", "ammonium-salt", "sulfide", "cyanide", "thiocyanate", "glycol-or-alcohol", "iodine", "formaldehyde"), "nobody has said what %s reacts like", name)
		return k
	}
	for _, id := range f.IDs() {
		row := f.Row(id)
		one, other, ok := strings.Cut(row.Inputs, " x ")
		require.True(t, ok, id)
		a, b, got := kinds(one), kinds(other), []string{}
		for _, p := range r.Pairs {
			if a.Any(p.These...) && b.Any(p.Those...) || b.Any(p.These...) && a.Any(p.Those...) {
				got = append(got, p.Gives.Word)
			}
		}
		if row.Text == "nothing" {
			assert.Empty(t, got, id)
			continue
		}
		assert.Contains(t, got, row.Text, id)
	}
	for _, c := range l.Chemicals {
		assert.True(t, r.Said(c), "nobody has said what %s reacts like", c.ID)
		assert.NotEmpty(t, r.Shelf(c), "%s stands nowhere", c.ID)
	}
}

// TestHarmonisedEntriesArePublished holds what the library takes from the official list,
// classes, limits, factors and estimates, against the published entries: all of it, and
// nothing else. Every substance that quotes the list has its entry there.
func TestHarmonisedEntriesArePublished(t *testing.T) {
	f := published.Open(t, "clp_substances.tsv")
	entries := map[string]string{}
	for _, id := range f.IDs() {
		of, _, _ := strings.Cut(f.Row(id).Inputs, "; ")
		entries[of] = id
	}
	l := loadedLab(t, nil)
	held := 0
	for _, c := range l.Chemicals {
		standard := func(key string) bool { by, _ := l.OriginOf(c.Def, key); return by == figure.Standard }
		quotes, listed := false, false
		for form := range c.Forms {
			taken := harmonised(c, form, standard)
			quotes = quotes || len(taken) > 0
			id, named := entries[c.ID+"."+form]
			if !named {
				if id, named = entries[c.ID]; !named {
					continue
				}
			}
			require.Equal(t, f.Row(id).Text, strings.Join(taken, "; "), "%s.%s", c.ID, form)
			listed = true
		}
		if listed {
			held++
		}
		require.Equal(t, quotes, listed, "%s quotes the list, or has an entry, and not both", c.ID)
	}
	require.Len(t, entries, held)
}

// harmonised is what the file of a substance takes from the official list for one form.
func harmonised(c *lab.Chemical, form string, standard func(key string) bool) []string {
	var out []string
	add := func(key, words string) {
		if words != "" && standard(key) {
			out = append(out, words)
		}
	}
	h := c.Hazards
	classes, key := h.Classes, "hazards.classes"
	if own := c.Forms[form].Classes; own != nil {
		classes, key = own, lab.FormClassesKey(form)
	}
	for i, w := range classes {
		add(fmt.Sprintf("%s[%d]", key, i), w)
	}
	for class, limit := range h.Limits {
		add("hazards.limits", class+" from "+limit.Text())
	}
	for i, code := range h.Extra {
		add(fmt.Sprintf("hazards.extra[%d]", i), code)
	}
	for _, way := range []struct{ key, words string }{{"oral", h.ATE.Oral.Text()}, {"dermal", h.ATE.Dermal.Text()}, {"gas", h.ATE.Gas.Text()}} {
		if way.words != "" {
			add("hazards.ate."+way.key, way.key+" "+way.words)
		}
	}
	if h.MFactor.Acute.Given() {
		add("hazards.m_factor.acute", "M "+h.MFactor.Acute.String()+" acute")
	}
	if h.MFactor.Chronic.Given() {
		add("hazards.m_factor.chronic", "M "+h.MFactor.Chronic.String()+" chronic")
	}
	slices.Sort(out)
	return out
}

// TestSolubilityIsPublished holds every table of solubilities in the library
// against the published rows of the same substance, and the tables of hydrates
// against the rows of the salt without water as well.
//
// A hydrate brings its own water: a solution that holds w % of the salt holds
// h = w·M(hydrate)/M(salt) % of the hydrate, so that 100 g of added water take
// 100·h/(100 − h) g of it (mass balance, as the rows themselves say). Here the
// library's figure for the hydrate is turned back into the salt.
func TestSolubilityIsPublished(t *testing.T) {
	f := published.Open(t, "solubility.tsv")
	rows := map[string]bool{}
	for _, id := range f.IDs() {
		rows[id] = true
	}
	organic := map[string]string{"C6H6O2": "HQ", "C6H8O7": "CIT"} // as the ids call them
	var without []string
	for _, c := range loadedLab(t, nil).Chemicals {
		for form, decl := range c.Forms {
			for at, s := range decl.Dissolves {
				name := c.ID + "." + form + " at " + at
				formula, err := chem.Parse(decl.Formula)
				require.NoError(t, err, name)
				dry, waters := formula.Anhydrous()
				salt := dry.String()
				if word, ok := organic[salt]; ok {
					salt = word
				}
				row := "sol_" + salt + "_" + strings.TrimSuffix(at, " °C")
				value := float64(s.Value())
				if waters > 0 {
					ratio, err := chem.HydrateRatio(dry, formula)
					require.NoError(t, err, name)
					w := 100 * value / (100 + value) / ratio
					f.Holds(row, 100*w/(100-w))
					row += "_hyd"
				}
				if !rows[row] {
					without = append(without, name)
					continue
				}
				f.Holds(row, value)
				// What quotes the handbook's table repeats it to the digit.
				if c.Origin["form."+form+".dissolves"] == "salt-solubility" {
					require.Equal(t, f.Row(row).Want, value, name)
				}
			}
		}
	}
	slices.Sort(without)
	require.Equal(t, []string{"thiourea.pure at 20 °C", "thiourea.pure at 9 °C"}, without, "tables that no published row stands behind: from memory")
}

// TestHeatsArePublished holds the heats of solution of the library against the published rows;
// what no row stands behind says that it is from memory.
func TestHeatsArePublished(t *testing.T) {
	f := published.Open(t, "heats.tsv")
	rows := map[string]string{}
	for _, id := range f.IDs() {
		form, _, _ := strings.Cut(f.Row(id).Inputs, ";")
		rows[form] = id
	}
	held := 0
	for _, c := range loadedLab(t, nil).Chemicals {
		for form, decl := range c.Forms {
			if !decl.Heat.Given() {
				continue
			}
			if id, ok := rows[c.ID+"."+form]; ok {
				f.Holds(id, float64(decl.Heat.Value()))
				held++
			} else {
				require.Equal(t, figure.Memory, decl.Heat.By(), "%s.%s: a heat that no published row stands behind", c.ID, form)
			}
		}
	}
	require.Len(t, rows, held)
}

// loadedLab is a lab that has declared nothing but the files given, with the
// program's library.
func loadedLab(t *testing.T, files map[string]string) *lab.Lab {
	t.Helper()
	all := map[string]string{"lab.toml": "[lab]\nname = \"A darkroom of examples\"\n"}
	for name, text := range files {
		all[name] = text
	}
	loaded, err := load.Folder(folder(all), content.FS)
	require.NoError(t, err)
	require.Empty(t, loaded.Faults)
	return loaded.Lab
}
