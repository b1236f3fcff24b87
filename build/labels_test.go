package build_test

import (
	"fmt"
	"html"
	"io/fs"
	"maps"
	"math"
	"os"
	"path"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/content"
	"wetside/procedures/page"
)

// demonstrationWith is the demonstration with more or other files.
func demonstrationWith(t testing.TB, change map[string]func(string) string) fstest.MapFS {
	t.Helper()
	src, err := fs.Sub(content.FS, "demo")
	require.NoError(t, err)
	out := fstest.MapFS{}
	require.NoError(t, fs.WalkDir(src, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(src, name)
		out[name] = &fstest.MapFile{Data: b}
		return err
	}))
	for name, f := range change {
		old := ""
		if had := out[name]; had != nil {
			old = string(had.Data)
		}
		out[name] = &fstest.MapFile{Data: []byte(f(old))}
	}
	return out
}

// printed puts lines into the [print] table of the demonstration's lab.toml, and
// tables after all others.
func printed(lines, tables string) map[string]func(string) string {
	return map[string]func(string) string{"lab.toml": func(s string) string {
		return strings.Replace(s, "[print]\n", "[print]\n"+lines, 1) + "\n" + tables
	}}
}

const small52 = `[print.sheet]
paper   = "a4"
rows    = 3
columns = 3
width   = "52 mm"
height  = "74 mm"
pitch_x = "60 mm"
pitch_y = "84 mm"
left    = "15 mm"
top     = "20 mm"
`

var (
	viewBox  = regexp.MustCompile(`<svg class="drawn" width="[0-9.]+mm" height="[0-9.]+mm" viewBox="0 0 ([0-9.]+) ([0-9.]+)"`)
	fontSize = regexp.MustCompile(`font-size="([0-9.]+)"`)
	ghs      = regexp.MustCompile(`<use href="#GHS0[1-9]" x="[0-9.]+" y="[0-9.]+" width="([0-9.]+)"`)
	codeBox  = regexp.MustCompile(`<svg class="code" x="([0-9.]+)" y="[0-9.]+" width="([0-9.]+)"`)
)

func number(t testing.TB, s string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return x
}

const binderAddress = "https://darkroom.example/binder"

// bottled is the demonstration with a very small and a very large bottle besides, at an
// address or without one, its labels and a card and a strip for the wall, made once for all
// tests.
func bottled(t testing.TB, address string) *build.Result {
	t.Helper()
	if bottles[address] == nil {
		o := options(demonstrationWith(t, map[string]func(string) string{"lab.toml": func(s string) string {
			return s + "\n[bottle.dropper]\nholds = \"30 mL\"\n[bottle.carboy]\nholds = \"25 L\"\n"
		}}))
		o.Address = address
		bottles[address] = boundFiles(t, o, these("label/", "assets/", "wall/a4/film-negative+", "wall/strip/film-negative+"))
	}
	return bottles[address]
}

var bottles = map[string]*build.Result{}

// TestLabelTable: every label obeys the table of capacities: its size, the side
// of each pictogram, the height of its small letters; and it has exactly as many
// boxes as its bath treats. The table's numbers are the regulation's.
func TestLabelTable(t *testing.T) {
	table := []struct{ most, width, height, side, small float64 }{
		{500, 52, 74, 16.1, 1.2}, {3000, 52, 74, 16.1, 1.4}, {50000, 74, 105, 23, 1.8}, {500000, 105, 148, 32.2, 2.0},
	}
	for _, address := range []string{"", binderAddress} {
		r := bottled(t, address)
		files := filesOf(r)
		seen, tallies, sizes := 0, 0, map[string]bool{}
		for _, p := range r.Binder.Pages {
			l, ok := labelOn(p)
			if !ok {
				continue
			}
			for _, c := range l.For {
				name := "label/" + c.Name + "/" + strings.TrimPrefix(p.ID, "label/") + ".html"
				text, ok := files[name]
				require.True(t, ok, name)
				seen++
				row := table[0]
				for _, row = range table {
					if float64(c.Ml) <= row.most {
						break
					}
				}
				box := viewBox.FindStringSubmatch(text)
				require.NotNil(t, box, name)
				w, h := number(t, box[1]), number(t, box[2])
				sizes[box[1]+"x"+box[2]] = true
				require.GreaterOrEqual(t, w, row.width, name)
				require.GreaterOrEqual(t, h, row.height, name)
				for _, m := range fontSize.FindAllStringSubmatch(text, -1) {
					require.GreaterOrEqual(t, number(t, m[1])*.509+.006, row.small, "%s: letters too small", name)
				}
				signs := ghs.FindAllStringSubmatch(text, -1)
				require.Len(t, signs, len(l.Hazards.Pictograms), name)
				for _, m := range signs {
					require.GreaterOrEqual(t, number(t, m[1])/math.Sqrt2+.01, row.side, "%s: a pictogram too small", name)
				}
				for _, s := range l.Hazards.Statements {
					for _, in := range s {
						for _, word := range strings.Fields(in.Text) {
							require.Contains(t, html.UnescapeString(text), word, "%s", name)
						}
					}
				}
				want, struck := 0, 0
				for _, tick := range c.Tally {
					tallies++
					if tick.Boxes > mostBoxes {
						continue
					}
					want += tick.Boxes
					open := tick.Boxes - tick.Done
					if open == 0 { // nobody can tell how many more
						open = tick.Done
					}
					require.Equal(t, tick.Count.Shown, fmt.Sprint(open), name)
					struck += tick.Done
				}
				require.Equal(t, want, strings.Count(text, `class="stroke"`), name)
				require.Equal(t, struck, strings.Count(text, `class="struck"`), name)
				code := codeBox.FindStringSubmatch(text)
				if address == "" {
					require.Nil(t, code, name)
					continue
				}
				require.NotNil(t, code, name)
				least := 20.0
				if w < 60 {
					least = 15
				}
				require.GreaterOrEqual(t, number(t, code[2]), least, name)
			}
		}
		require.Greater(t, seen, 150)
		require.Greater(t, tallies, 5)
		require.Greater(t, len(sizes), 2)
	}
}

func labelOn(p page.Page) (page.Label, bool) {
	for _, b := range p.Do {
		if l, ok := b.(page.Label); ok {
			return l, true
		}
	}
	return page.Label{}, false
}

func filesOf(r *build.Result) map[string]string {
	out := map[string]string{}
	for _, f := range r.Files {
		out[f.Path] = string(f.Bytes)
	}
	return out
}

// TestTagForSmallBottle: a label larger than its bottle's side says that it is
// hung, on paper and on its page; on a bottle that bears it nothing is said.
func TestTagForSmallBottle(t *testing.T) {
	r := bottled(t, "")
	files := filesOf(r)
	require.Contains(t, files["label/30ml/bromide-ten.stock.html"], "tag: hang it")
	require.NotContains(t, files["label/500ml/bromide-ten.stock.html"], "tag: hang it")
	require.Contains(t, files["label/bromide-ten.stock.html"], "larger than the side of such a bottle: a tag to hang on it")
	require.Contains(t, saidOn(pageOf(t, r, "label/bromide-ten.stock")), " = ")
}

// TestPercentLabel: the label of a percent solution says what is in one
// millilitre.
func TestPercentLabel(t *testing.T) {
	text := filesOf(demonstration(t))["label/500ml/bromide-ten.stock.html"]
	tags := regexp.MustCompile(`<[^>]*>`)
	require.Contains(t, strings.ReplaceAll(html.UnescapeString(tags.ReplaceAllString(text, "")), "\u00a0", " "), "1 ml = 0.1 g")
}

// TestLabelSheet: labels stand in their cells from the first free one on; one
// that is too large is not there and is named.
func TestLabelSheet(t *testing.T) {
	sheet := small52 + "start = 9\nlabels = [\"plain-fixer.working\", \"plain-fixer.working@500ml\", \"film-developer.stock\"]\n"
	r := boundFiles(t, options(demonstrationWith(t, printed("", sheet))), these("label/sheet.html"))
	require.Len(t, r.Faults, 2)
	require.False(t, r.Faults.HasErrors())
	require.Contains(t, faultLines(r), "too large for this sheet's labels")
	text := filesOf(r)["label/sheet.html"]
	require.Equal(t, 2, strings.Count(text, "<main"), "the first label takes the last cell, the second a new sheet")
	require.Contains(t, text, `translate(135 188)`)
	require.Contains(t, text, `translate(15 20)`)
	require.Contains(t, text, "Not on this sheet")
	require.Contains(t, text, "MQ borax film developer")
	require.Equal(t, 2, strings.Count(text, `width="52" height="74"`))

	// Left out, every label that fits is taken.
	r = boundFiles(t, options(demonstrationWith(t, printed("", strings.NewReplacer("52 mm", "90 mm", "74 mm", "130 mm", "60 mm", "92 mm", "84 mm", "132 mm", "rows    = 3", "rows = 2", "columns = 3", "columns = 2", `"15 mm"`, `"10 mm"`).Replace(small52)))),
		these("label/sheet.html"))
	text = filesOf(r)["label/sheet.html"]
	require.Greater(t, strings.Count(text, `width="90" height="130"`), 20)
	require.Greater(t, strings.Count(text, "<main"), 5)
}

// TestSigns: a sheet for each tray of the prints, the tag, and an edge for each
// shelf with what never stands beside it.
func TestSigns(t *testing.T) {
	r := demonstration(t)
	files := filesOf(r)
	for id, want := range map[string]string{"dev": "DEV", "stop": "STOP", "fix-1": "FIX 1", "fix-2": "FIX 2", "hold": "HOLD", "wash": "WASH", "tone": "TONE"} {
		text := files["label/trays/tray-"+id+".html"]
		require.Contains(t, text, `viewBox="0 0 210 148"`, id)
		require.Regexp(t, `font-size="42.86"><tspan font-weight="700" class="n">`+want, text, "letters 30 mm high")
	}
	require.Contains(t, files["label/tags/do-not-use.html"], "DO NOT")
	require.Contains(t, files["label/tags/do-not-use.html"], "stroke-dasharray")
	require.Contains(t, saidOn(pageOf(t, r, "label/shelf-acids-strong")), "sulfur dioxide")
	require.Contains(t, saidOn(pageOf(t, r, "label/shelf-sulfites")), "acid")
}

// TestSymbolsBoard: every sign of the theme stands on the board at 40 and at
// 10 mm, pictograms by their own side.
func TestSymbolsBoard(t *testing.T) {
	text := filesOf(demonstration(t))["board/symbols.html"]
	entries, err := os.ReadDir("../themes/standard/symbols")
	require.NoError(t, err)
	for _, e := range entries {
		name := strings.TrimSuffix(e.Name(), ".svg")
		if strings.HasPrefix(name, "plate-") {
			continue
		}
		for _, side := range []float64{40, 10} {
			if strings.HasPrefix(name, "GHS") {
				side *= math.Sqrt2
			}
			mm := strings.TrimRight(strings.TrimRight(strconv.FormatFloat(side, 'f', 2, 64), "0"), ".")
			require.Contains(t, text, fmt.Sprintf(`width="%smm" height="%smm" viewBox="0 0 100 100" role="img" aria-label="%s"`, mm, mm, name))
		}
	}
}

// TestAddress: where no address is configured there is no code; one in lab.toml
// puts the code of the card's own address on labels and wall cards, with the
// address in words.
func TestAddress(t *testing.T) {
	for name, text := range filesOf(demonstration(t)) {
		if path.Ext(name) == ".html" {
			require.NotContains(t, text, `class="code"`, name)
		}
	}
	codes := map[string]string{
		"label/500ml/0301.html":                      "https://darkroom.example/b/label/0301.html",
		"wall/a4/film-negative+film-400.double.html": "https://darkroom.example/b/process/film-negative.html",
		"wall/a5/film-developer.stock+1000ml.html":   "https://darkroom.example/b/mix/film-developer.html",
		"label/trays/tray-dev.html":                  "https://darkroom.example/b/label/tray-dev.html",
	}
	r := boundFiles(t, options(demonstrationWith(t, printed("address = \"https://darkroom.example/b\"\n", ""))),
		these(append(slices.Collect(maps.Keys(codes)), "binder.html")...))
	files := filesOf(r)
	require.Len(t, files, len(codes)+1)
	for name, own := range codes {
		require.Contains(t, files[name], `class="code"`, name)
		require.Contains(t, files[name], `fill="#fff"`, name)
		joined := regexp.MustCompile(`</text><text[^>]*><tspan class="n">`).ReplaceAllString(files[name], "")
		require.Contains(t, strings.ReplaceAll(joined, "</tspan>", ""), own, name)
	}
	require.NotContains(t, files["binder.html"], `class="own-code"`)
}

// TestOddLabels: names that are long or in another script, a lab without a name,
// a great many boxes, an address as long as may be: nothing vanishes.
func TestOddLabels(t *testing.T) {
	long := strings.TrimSpace(strings.Repeat("very long name of a stop bath ", 4))
	require.Len(t, long, 119)
	for _, name := range []string{long, strings.Repeat("ä", 120), "Όξινο λουτρό διακοπής", "Przerywacz z kwasem cytrynowym, źródło", "クエン酸停止液クエン酸停止液クエン酸停止液", "<b>&\"'"} {
		src := folder(map[string]string{
			"lab.toml":            "[bottle.dropper]\nholds = \"30 mL\"\n",
			"solutions/stop.toml": fmt.Sprintf("name = %q\nrole = \"stop\"\nper = \"1 L\"\n[[step]]\nadd = \"citric-acid.anhydrous\"\namount = \"15 g\"\n", name),
		})
		o := options(src)
		o.Address = "https://" + strings.Repeat("a", 100) + ".example"
		require.NoError(t, build.CheckAddress(o.Address))
		r, err := build.Bind(o)
		require.NoError(t, err, name)
		require.False(t, r.Faults.HasErrors(), faultLines(r))
		foreign := strings.ContainsAny(name, "όźク")
		require.Equal(t, foreign, strings.Contains(faultLines(r), "the face for paper has no"), "%s: %s", name, faultLines(r))
		// The Greek name has sixteen letters that are not alike: eight are shown.
		require.Equal(t, strings.Contains(name, "ό"), strings.Contains(faultLines(r), " and 8 more, which "), "%s: %s", name, faultLines(r))
		text := filesOf(r)["label/30ml/stop.stock.html"]
		plain := regexp.MustCompile(`<[^>]*>`).ReplaceAllString(text[strings.Index(text, "<svg"):], "")
		squeeze := func(s string) string { return strings.ToLower(strings.ReplaceAll(html.UnescapeString(s), " ", "")) }
		require.True(t, strings.Contains(squeeze(plain), squeeze(name)), "%s is not on its label: %s", name, plain)
		require.True(t, strings.Contains(plain, "approved ____ ask"), "%s: %s", name, plain)
	}
}

// mostBoxes are as many as a label draws; what treats more says only how many.
const mostBoxes = 400

// TestManyBoxes: four hundred boxes are drawn, each of them, on a larger label.
func TestManyBoxes(t *testing.T) {
	r := bottled(t, "")
	files := filesOf(r)
	most := 0
	for _, p := range r.Binder.Pages {
		l, ok := labelOn(p)
		if !ok {
			continue
		}
		for _, c := range l.For {
			for _, tick := range c.Tally {
				text := files["label/"+c.Name+"/"+strings.TrimPrefix(p.ID, "label/")+".html"]
				drawn := strings.Count(text, `class="stroke"`)
				if tick.Boxes <= mostBoxes {
					require.Equal(t, tick.Boxes, drawn, "%s %s", p.ID, c.Name)
				} else {
					require.Zero(t, drawn)
				}
				most = max(most, drawn)
				require.Contains(t, text, `data-f="`+html.EscapeString(tick.Count.ID)+`"`)
			}
		}
	}
	require.Greater(t, most, 200)
}
