package build_test

import (
	"path"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
)

// TestIndexCards: what holds little is on index cards where a lab wants them, what
// holds much on its usual paper, once.
func TestIndexCards(t *testing.T) {
	r, err := build.Bind(options(demonstrationWith(t, printed("papers = [\"index\"]\n", ""))))
	require.NoError(t, err)
	on := map[string]bool{}
	for _, f := range r.Files {
		if strings.HasPrefix(f.Path, "wall/") {
			on[f.Path] = true
		}
	}
	for name, want := range map[string]string{
		"emergency": "index", "rc-print+small": "index", "film-developer.stock+1000ml": "index",
		"capacity": "a4", "shelf": "a4", "spill-fixer": "a4", "dispose-silver": "a4", "never-together": "a4", "dispose-clearing": "",
	} {
		for _, paper := range []string{"index", "a4"} {
			require.Equal(t, paper == want, on[path.Join("wall", paper, name+".html")], "%s on %s", name, paper)
		}
	}
}
