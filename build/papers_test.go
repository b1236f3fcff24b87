package build_test

import (
	"path"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
)

// TestIndexCards: what holds little is on index cards where a lab wants them, what
// holds much on its usual paper, once.
func TestIndexCards(t *testing.T) {
	var c counted
	_, err := build.BindInto(options(demonstrationWith(t, printed("papers = [\"index\"]\n", ""))), &c)
	require.NoError(t, err)
	on := map[string]bool{}
	for _, name := range c.planned {
		if strings.HasPrefix(name, "wall/") {
			on[name] = true
		}
	}
	for name, want := range map[string]string{
		"emergency": "a4", "rc-print+small": "index", "film-developer.stock+1000ml": "index",
		"capacity": "a4", "shelf": "a4", "spill-fixer": "a4", "dispose-silver": "a4", "never-together": "a4", "dispose-clearing": "",
	} {
		for _, paper := range []string{"index", "a4"} {
			require.Equal(t, paper == want, on[path.Join("wall", paper, name+".html")], "%s on %s", name, paper)
		}
	}
}

// TestAllAtOnce: a key misspelt in lab.toml does not hide what else is wrong there.
func TestAllAtOnce(t *testing.T) {
	r, err := build.Work(options(folder(map[string]string{
		"lab.toml": "[lab]\nname = \"My darkroom\"\n[print]\npapers = [\"a0\"]\npunhc = true\n",
	})))
	require.NoError(t, err)
	var said []string
	for _, f := range r.Faults {
		said = append(said, f.String())
	}
	require.Contains(t, said, `lab.toml:4:11: "a0" is not a paper [word]`)
	require.Contains(t, said, `lab.toml:5:1: unknown key "punhc" [key]`)
}

// TestNeverOnce: on no card of any paper, screen or lab does the word stand twice before one
// line: read literally that would be an order.
func TestNeverOnce(t *testing.T) {
	// Labels and workings are the same whatever the papers.
	same := these("label/", "why/")
	papers := boundFiles(t, options(demonstrationWith(t, printed("papers = [\"a4\", \"letter\", \"a5\", \"half-letter\", \"a6\", \"index\"]\n", ""))),
		func(path string) bool { return !same(path) })
	tags, twice := regexp.MustCompile(`<[^>]*>`), regexp.MustCompile(`(?i)\bnever\s+never\b.{0,60}`)
	lines := 0
	for name, r := range map[string]*build.Result{"demonstration": demonstration(t), "its other papers": papers, "film": boundLab(t, "film"), "print": boundLab(t, "print"), "school": boundLab(t, "school")} {
		for _, f := range r.Files {
			if strings.HasSuffix(f.Path, ".html") && (name != "demonstration" || same(f.Path)) {
				said := tags.ReplaceAll(f.Bytes, []byte(" "))
				require.Empty(t, string(twice.Find(said)), "%s, %s", name, f.Path)
				lines += strings.Count(strings.ToLower(string(said)), "never ")
			}
		}
	}
	require.Greater(t, lines, 1000)
}
