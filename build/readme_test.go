package build_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
)

var fileLine = regexp.MustCompile(`(?m)^# ([a-z0-9/-]+\.toml).*\n`)

// TestReadmeExample binds the example of the README, so that what a newcomer
// copies works.
func TestReadmeExample(t *testing.T) {
	b, err := os.ReadFile("../README.md")
	require.NoError(t, err)
	files := map[string]string{}
	for _, block := range regexp.MustCompile("(?s)```toml\n(.*?)```").FindAllStringSubmatch(string(b), -1) {
		if !strings.Contains(block[1], "# solutions/developer.toml") {
			continue
		}
		at := fileLine.FindAllStringSubmatchIndex(block[1], -1)
		for i, m := range at {
			end := len(block[1])
			if i+1 < len(at) {
				end = at[i+1][0]
			}
			files[block[1][m[2]:m[3]]] += block[1][m[1]:end]
		}
	}
	require.Contains(t, files, "processes/film-negative.toml")
	files["lab.toml"] = "[lab]\nname = \"My darkroom\"\n[tank.double]\nfill = \"600 mL\"\ntakes = { 135 = 2, 120 = 1 }\n" + files["lab.toml"]
	files["waste/developers.toml"] = "name = \"used developers\"\ndrum = \"developers\"\n"
	files["solutions/fixer.toml"] = "name = \"fixer\"\nrole = \"fixer\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-thiosulfate.pentahydrate\"\namount = \"240 g\"\n" + files["solutions/fixer.toml"]
	r, err := build.Bind(options(folder(files)))
	require.NoError(t, err)
	for _, f := range r.Faults {
		t.Log(f, f.Hint)
	}
	require.False(t, r.Faults.HasErrors())
	found := false
	for _, f := range r.Binder.Figures {
		found = found || f.ID == "film-400/time@developer.working,20.0c" && f.Shown == "11:00"
	}
	require.True(t, found, "the developing time stands on the card")
}
