package build_test

import (
	"fmt"
	"io/fs"
	"math"
	"math/rand"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/unit"
)

// A law holds across the cards of one binder, whatever the lab. Each says what it
// finds broken, worked out once more from the lab's own words.
var laws = []struct {
	name  string
	check func(*court)
}{
	{"a time is that of the process’s temperature, or refused as in the table", timesByTemperature},
	{"a film is fixed by its own factor", fixedByGrain},
	{"an amount is the same on every card, or refused on all", amountsAgree},
	{"a tally has its done boxes struck, and then as many as the bath has left", talliesCount},
	{"a limit that is reached ends the bath, one that cannot be counted makes it unjudged", limitsEnd},
	{"nothing dead, missing or short is silent", nothingSilent},
	{"no card forbids what another tells to do", neverAgainstDo},
	{"what to wear is never less than the lab’s own cautions ask", gearIsUnion},
	{"a route names no forbidden drum as if the others were allowed", routesForbid},
	{"a bath that harms above a temperature says so in every process", stopsAbove},
	{"a review that is past shows on the card and on the front page", reviewsShow},
	{"one of anything is not many", oneIsOne},
	{"a card that is printed has something to say", printsSpeak},
}

// court is one binder before the laws.
type court struct {
	lab      *lab.Lab
	r        *build.Result
	figures  map[string]*figure.Record
	pages    map[string]page.Page
	verdicts map[string]figure.Verdict
	words    map[string]string // of a page, once somebody asked for them
	broken   []string
}

func newCourt(r *build.Result) *court {
	c := &court{lab: r.Loaded.Lab, r: r, figures: figuresOf(r), pages: map[string]page.Page{}, verdicts: map[string]figure.Verdict{}, words: map[string]string{}}
	for _, p := range r.Binder.Pages {
		c.pages[p.ID] = p
	}
	for _, v := range r.Binder.Verdicts {
		c.verdicts[v.ID] = v
	}
	return c
}

// said are the words of a page, one piece a line.
func (c *court) said(p page.Page) string {
	said, ok := c.words[p.ID]
	if !ok {
		var b strings.Builder
		page.Inlines(p, func(in page.Inline) {
			b.WriteString(in.Text)
			b.WriteByte('\n')
		})
		said = b.String()
		c.words[p.ID] = said
	}
	return said
}

func (c *court) failed(format string, args ...any) {
	c.broken = append(c.broken, fmt.Sprintf(format, args...))
}

// holds runs every law over a binder and returns what it finds broken.
func (c *court) holds() []string {
	for _, l := range laws {
		n := len(c.broken)
		l.check(c)
		for i := n; i < len(c.broken); i++ {
			c.broken[i] = l.name + ": " + c.broken[i]
		}
	}
	return c.broken
}

// TestLaws holds the laws against the demonstration and three other labs.
func TestLaws(t *testing.T) {
	for name := range labs {
		t.Run(name, func(t *testing.T) {
			require.Empty(t, newCourt(boundLab(t, name)).holds())
		})
	}
}

// TestLawsUnderChange holds them against two hundred seeded changes of each lab: a
// temperature, a fill, a limit, a draw, a price … made larger or smaller. A change that comes
// again is the same lab again, and one that rounds to what stood there is that of TestLaws:
// neither is worked out twice.
func TestLawsUnderChange(t *testing.T) {
	const changes = 200
	for name := range labs {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			files := map[string]string{}
			src := labFS(t, name)
			require.NoError(t, fs.WalkDir(src, ".", func(path string, d fs.DirEntry, err error) error {
				if err == nil && !d.IsDir() {
					b, err := fs.ReadFile(src, path)
					files[path] = string(b)
					return err
				}
				return err
			}))
			random := rand.New(rand.NewSource(20261126))
			worked := 0
			known := map[[2]string]bool{} // by path and text: whether it is without faults
			for path, text := range files {
				known[[2]string{path, text}] = true
			}
			for range changes {
				path, text, what := change(random, files)
				if whole, again := known[[2]string{path, text}]; again {
					if whole {
						worked++
					}
					continue
				}
				changed := fstest.MapFS{}
				for p, s := range files {
					changed[p] = &fstest.MapFile{Data: []byte(s)}
				}
				changed[path] = &fstest.MapFile{Data: []byte(text)}
				r, err := build.Work(labOptions(t, name, changed))
				require.NoError(t, err, what)
				known[[2]string{path, text}] = !r.Faults.HasErrors()
				if r.Faults.HasErrors() { // noticed, with its place
					continue
				}
				worked++
				require.Empty(t, newCourt(r).holds(), what)
			}
			require.Greater(t, worked, changes/2)
		})
	}
}

var quantities = regexp.MustCompile(`"[^"\n]*?(\d+(?:\.\d+)?)(?: ?x)? ?(?:mL|L|g|kg|°C|K|s|min|%|m2/L|rolls/L|g/L|mL/roll|/L|uses|days|weeks|months|h|/K|EUR|[a-z0-9-]+\.[0-9a-z-]+)[^"\n]*"`)

// change makes one number of one file larger or smaller.
func change(random *rand.Rand, files map[string]string) (path, text, what string) {
	var paths []string
	for p := range files {
		if strings.HasSuffix(p, ".toml") && p != "local.toml" {
			paths = append(paths, p)
		}
	}
	sort.Strings(paths)
	for {
		path = paths[random.Intn(len(paths))]
		text = files[path]
		all := quantities.FindAllStringSubmatchIndex(text, -1)
		if len(all) == 0 {
			continue
		}
		at := all[random.Intn(len(all))]
		old := text[at[2]:at[3]]
		n, err := strconv.ParseFloat(old, 64)
		if err != nil {
			continue
		}
		switch by := []float64{.5, .8, .95, 1.05, 1.25, 2}[random.Intn(6)]; {
		case strings.Contains(text[at[0]:at[1]], "°C"):
			n = math.Round(n + (by-1)*8)
		case strings.Contains(old, "."):
			n *= by
		default:
			n = math.Max(1, math.Round(n*by))
		}
		fresh := strconv.FormatFloat(unit.Snap(n), 'f', -1, 64)
		return path, text[:at[2]] + fresh + text[at[3]:], fmt.Sprintf("%s: %s becomes %s in %s", path, old, fresh, text[at[0]:at[1]])
	}
}

// —— the laws ——

// —— what a batch has done and has left, worked out once more ——

// words flattens texts.
func words(list []page.Text) string {
	var b strings.Builder
	for _, t := range list {
		for _, in := range t {
			b.WriteString(in.Text)
		}
		b.WriteString("\n")
	}
	return b.String()
}

var many = []string{"rolls", "runs", "stops", "uses", "turns", "days", "films", "prints", "sheets"}

var oneMany = regexp.MustCompile(`(^|[^0-9.,:–-])1 (` + strings.Join(many, "|") + `)\b`)

func oneIsOne(c *court) {
	for id, f := range c.figures {
		if oneMany.MatchString(f.Why) {
			c.failed("%s says %q", id, f.Why)
		}
		if f.Shown == "1" && slices.Contains(many, f.Unit) {
			c.failed("%s is 1 %s", id, f.Unit)
		}
	}
}
