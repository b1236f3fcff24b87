package build_test

import (
	"encoding/json"
	"html"
	"io"
	"io/fs"
	"math"
	"path"
	"regexp"
	"runtime"
	"strconv"
	"strings"
	"sync/atomic"
	"testing"
	"unicode"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/content"
	"wetside/procedures/page"
	"wetside/procedures/unit"
)

var (
	marked  = regexp.MustCompile(`data-f="([^"]*)"`)
	href    = regexp.MustCompile(`(?:href|src)="([^"]*)"`)
	anchor  = regexp.MustCompile(`\bid="([^"]*)"`)
	foreign = regexp.MustCompile(`(?:src|href|action)="(?:https?:)?//|@import|url\(["']?(?:https?:)?//`)
)

// TestMarkedNumbers holds what the pages show against figures.json, both ways.
func TestMarkedNumbers(t *testing.T) {
	r := demonstration(t)
	known, shown := map[string]bool{}, map[string]bool{}
	for _, f := range r.Files {
		if f.Path == "figures.json" {
			var doc struct {
				Figures []struct {
					ID     string
					Cards  []string
					Value  any
					Why    string
					Origin string
					Inputs []struct {
						ID, File, Constant string
						Line               int
					}
				}
			}
			require.NoError(t, json.Unmarshal(f.Bytes, &doc))
			for _, fig := range doc.Figures {
				require.False(t, known[fig.ID], "%s twice", fig.ID)
				known[fig.ID] = true
				if fig.Value == nil {
					require.NotEmpty(t, fig.Why, "%s has no value and no reason", fig.ID)
				}
			}
			for _, fig := range doc.Figures {
				for _, in := range fig.Inputs {
					if in.ID != "" {
						require.True(t, known[in.ID], "%s was worked out from %s, which is not there", fig.ID, in.ID)
					}
					if in.File != "" && !strings.HasPrefix(in.File, "rules/") {
						require.Positive(t, in.Line, "%s: no line for %s", fig.ID, in.File)
					}
				}
			}
		}
	}
	for _, f := range r.Files {
		if path.Ext(f.Path) != ".html" {
			continue
		}
		for _, m := range marked.FindAllStringSubmatch(string(f.Bytes), -1) {
			id := html.UnescapeString(m[1])
			require.True(t, known[id], "%s shows %s, which is not in figures.json", f.Path, id)
			shown[id] = true
		}
	}
	for id := range known {
		require.True(t, shown[id], "%s is in figures.json and on no page", id)
	}
}

// TestNoBareDigits: the cards' own words never hold a digit; digits come from
// figures, names and the control line.
func TestNoBareDigits(t *testing.T) {
	for p := range demonstration(t).Binder.All() {
		page.Inlines(p, func(i page.Inline) {
			if i.Kind == page.Word || i.Kind == page.Strong {
				require.False(t, strings.ContainsFunc(i.Text, unicode.IsDigit), "%s: %q", p.ID, i.Text)
			}
		})
	}
}

// TestValuesAreInTheirUnit: figures.json gives each value in the unit it names: what is
// shown is that value rounded by its rule, to its step and to its side; a clock time
// apart. Where a value lies within bounds, up is up from the upper one.
func TestValuesAreInTheirUnit(t *testing.T) {
	sides := map[string]int{}
	for name := range labs {
		all := figuresOf(boundLab(t, name))
		for _, f := range boundLab(t, name).Binder.Figures {
			shown, err := strconv.ParseFloat(f.Shown, 64)
			if err != nil || f.Refused() {
				if strings.Contains(f.Shown, ":") && f.Kind != "text" {
					require.Equal(t, "s", f.Unit, "%s", f.ID)
				}
				continue
			}
			value := f.Counted(f.Value)
			step, err := unit.ParseDecimal(f.Round.Step)
			if err != nil || f.Round.Step == "" {
				// Without a rounding it is off by half of the last digit that is shown.
				_, decimals, _ := strings.Cut(f.Shown, ".")
				require.InDelta(t, value, shown, 0.5*math.Pow10(-len(decimals))+1e-9, "%s: %v shown as %s %s", f.ID, value, f.Shown, f.Unit)
				continue
			}
			low, high, by := value, value, step.Float()
			if pour, ok := all[f.ID+",pour"]; ok { // each of several pours is rounded
				by *= math.Round(shown / pour.Value)
			}
			if f.Round.Device == "to the mark" { // the rest of the whole, after a part that was measured
				hot, err := strconv.ParseFloat(all[strings.Replace(f.ID, "/cold@", "/hot@", 1)].Rounded, 64)
				require.NoError(t, err, f.ID)
				_, tag, _ := strings.Cut(f.ID, "@")
				volume, err := strconv.ParseFloat(tag[:strings.Index(tag, "ml")], 64)
				require.NoError(t, err, f.ID)
				require.Equal(t, volume, hot+shown, f.ID)
				continue
			}
			if f.HasLow {
				low, high = f.Counted(f.Low), f.Counted(f.High)
			}
			off := 1e-9 * math.Max(1, math.Abs(value))
			sides[f.Round.Rule]++
			switch f.Round.Rule {
			case "up":
				require.True(t, shown >= value-off && shown < math.Max(value, high)+by-off, "%s in %s: %v (up to %v) shown as %s %s, up by %v", f.ID, name, value, high, f.Shown, f.Unit, by)
			case "down":
				require.True(t, shown <= value+off && shown > math.Min(value, low)-by+off, "%s in %s: %v (down to %v) shown as %s %s, down by %v", f.ID, name, value, low, f.Shown, f.Unit, by)
			default:
				require.InDelta(t, value, shown, by/2+off, "%s in %s: %v shown as %s %s, nearest %v", f.ID, name, value, f.Shown, f.Unit, by)
			}
		}
	}
	for _, rule := range []string{"up", "down", "nearest"} {
		require.Greater(t, sides[rule], 20, rule)
	}
}

// TestLinks: every link leads to a file of the binder, and every anchor is there.
func TestLinks(t *testing.T) {
	r := demonstration(t)
	files := map[string]string{}
	for _, f := range r.Files {
		files[f.Path] = string(f.Bytes)
	}
	links := 0
	anchors := map[string]map[string]bool{}
	for name, text := range files {
		if path.Ext(name) != ".html" {
			continue
		}
		anchors[name] = map[string]bool{}
		for _, m := range anchor.FindAllStringSubmatch(text, -1) {
			anchors[name][html.UnescapeString(m[1])] = true
		}
	}
	for name, text := range files {
		if path.Ext(name) != ".html" {
			continue
		}
		require.False(t, foreign.MatchString(text), "%s asks for something from elsewhere", name)
		require.NotContains(t, text, " style=", "%s", name)
		for _, m := range href.FindAllStringSubmatch(text, -1) {
			to, frag, _ := strings.Cut(html.UnescapeString(m[1]), "#")
			target := name
			if to != "" {
				target = path.Join(path.Dir(name), to)
			}
			links++
			_, ok := files[target]
			require.True(t, ok, "%s links to %s, which is not there", name, m[1])
			if frag != "" {
				require.True(t, anchors[target][frag], "%s links to %s: no such place", name, m[1])
			}
		}
	}
	require.Greater(t, links, 500)
}

// TestSameBytes: equal input and day give equal bytes, on one core or many.
func TestSameBytes(t *testing.T) {
	first := demonstration(t)
	old := runtime.GOMAXPROCS(1)
	second, err := build.Bind(labOptions(t, "demo", labFS(t, "demo")))
	require.NoError(t, err)
	runtime.GOMAXPROCS(old)
	require.Equal(t, len(first.Files), len(second.Files))
	for i := range first.Files {
		require.Equal(t, first.Files[i].Path, second.Files[i].Path)
		require.Equal(t, string(first.Files[i].Bytes), string(second.Files[i].Bytes), "%s", first.Files[i].Path)
	}
}

// counted counts the files it is told of and those that come.
type counted struct {
	planned []string
	came    atomic.Int32
}

func (c *counted) Begin(paths []string) error {
	c.planned = paths
	return nil
}

func (c *counted) Put(string, func(io.Writer) error) error {
	c.came.Add(1)
	return nil
}

// TestBindInto: the files are named before they come, and they are those of Bind.
func TestBindInto(t *testing.T) {
	var c counted
	r, err := build.BindInto(labOptions(t, "demo", labFS(t, "demo")), &c)
	require.NoError(t, err)
	require.Empty(t, r.Files)
	var want []string
	for _, f := range demonstration(t).Files {
		want = append(want, f.Path)
	}
	require.Equal(t, want, c.planned)
	require.Len(t, want, int(c.came.Load()))
}

// TestDemonstrationSaysSo: every page, card and label of it, on screen and paper.
func TestDemonstrationSaysSo(t *testing.T) {
	for _, f := range demonstration(t).Files {
		if path.Ext(f.Path) == ".html" {
			require.Contains(t, string(f.Bytes), "DEMONSTRATION", "%s", f.Path)
		}
	}
}

// TestStarter: the binder that start writes has no fault.
func TestStarter(t *testing.T) {
	src, err := fs.Sub(content.FS, "starter")
	require.NoError(t, err)
	r, err := build.Bind(options(src))
	require.NoError(t, err)
	require.Empty(t, r.Faults)
	require.NotEmpty(t, r.Files)
}

// TestEveryCardStandsSomewhere: each card is in a group of the menu, and each group on
// the front page.
func TestEveryCardStandsSomewhere(t *testing.T) {
	for _, name := range []string{"demo", "film", "print", "school"} {
		b := boundLab(t, name).Binder
		known := map[string]bool{"index": true}
		for i, g := range b.Groups {
			require.False(t, known[g.ID], g.ID)
			require.NotEmpty(t, g.Sub)
			require.False(t, i > 0 && g.ID == "mix", "mixing comes first")
			known[g.ID] = true
		}
		listed := map[string]bool{}
		for _, p := range b.Pages {
			group, _, _ := strings.Cut(p.ID, "/")
			require.True(t, known[group], "%s: %s is in no group", name, p.ID)
			if p.ID == "index" {
				for _, block := range p.Do {
					for _, e := range block.(page.Links).Entries {
						listed[e.Card] = true
					}
				}
			}
		}
		for _, p := range b.Pages {
			if group, _, in := strings.Cut(p.ID, "/"); in && group != "notice" {
				require.True(t, listed[p.ID] || listed[group+"/index"], "%s: neither %s nor its group is on the front page", name, p.ID)
			}
		}
	}
}

// TestFontsKeepTheirLicence: the SIL Open Font License (condition 2) wants its text with
// every copy of the fonts, and a binder holds copies.
func TestFontsKeepTheirLicence(t *testing.T) {
	fonts, licence := 0, ""
	for _, f := range demonstration(t).Files {
		switch {
		case path.Ext(f.Path) == ".woff2":
			require.Equal(t, "assets", path.Dir(f.Path))
			fonts++
		case f.Path == "assets/OFL.txt":
			licence = string(f.Bytes)
		}
	}
	require.Equal(t, 2, fonts)
	require.Contains(t, licence, "SIL OPEN FONT LICENSE Version 1.1")
	require.Contains(t, licence, "Copyright 2017")
}
