package build_test

import (
	"io/fs"
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/content"
	"wetside/procedures/lab"
)

var fileLine = regexp.MustCompile(`(?m)^# ([a-z0-9/-]+\.toml).*\n`)

// TestReadmeLibrary: the substances and formats that the README names are those that
// come with the program.
func TestReadmeLibrary(t *testing.T) {
	b, err := os.ReadFile("../README.md")
	require.NoError(t, err)
	listed := func(from, to string) []string {
		_, rest, ok := strings.Cut(string(b), from)
		require.True(t, ok, from)
		list, _, _ := strings.Cut(rest, to)
		return strings.Split(strings.Join(strings.Fields(list), " "), ", ")
	}
	var substances []string
	entries, err := fs.ReadDir(content.FS, "library/chemicals")
	require.NoError(t, err)
	for _, e := range entries {
		substances = append(substances, strings.TrimSuffix(e.Name(), ".toml"))
	}
	require.Equal(t, substances, listed("is a file in `chemicals/`: ", "."))
	var formats []string
	for id := range loadedLab(t, small(nil)).Formats.Format {
		formats = append(formats, id)
	}
	require.ElementsMatch(t, formats, listed("So do these formats: ", "."))
	words := listed("`of` may also be ", ":")
	last := words[len(words)-1] // "vanadium or zinc"
	words = append(words[:len(words)-1], strings.Split(last, " or ")...)
	require.Equal(t, lab.PermitWords, words)
}

// TestReadmeExample binds all that the README shows together, so that what a newcomer
// copies works.
func TestReadmeExample(t *testing.T) {
	b, err := os.ReadFile("../README.md")
	require.NoError(t, err)
	files := map[string]string{}
	for _, block := range regexp.MustCompile("(?s)```toml\n(.*?)```").FindAllStringSubmatch(string(b), -1) {
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
	require.Contains(t, files, "shelf/0301.toml")
	// What the README shows of one table in two places stands in one in a file.
	parts := strings.Split(files["lab.toml"], "[print]\n")
	require.Len(t, parts, 3)
	files["lab.toml"] = "[lab]\nname = \"My darkroom\"\n" + parts[0] + "[print]\n" + parts[2] + parts[1]
	files["solutions/stop.toml"] = "name = \"citric stop\"\nper  = \"1 L\"\n[[step]]\nadd    = \"citric-acid.anhydrous\"\namount = \"15 g\"\n"
	for _, part := range []string{"part-a", "part-b"} {
		files["solutions/"+part+".toml"] = "name = \"" + part + "\"\nper  = \"1 L\"\n[[step]]\nadd    = \"citric-acid.anhydrous\"\namount = \"15 g\"\n"
	}
	files["waste/developers.toml"] = "name = \"used developers\"\ndrum = \"developers\"\n"
	files["solutions/fixer.toml"] = "name = \"fixer\"\nrole = \"fixer\"\nper = \"1 L\"\n[[step]]\nadd = \"sodium-thiosulfate.pentahydrate\"\namount = \"240 g\"\n" + files["solutions/fixer.toml"]
	files["supplier-sheets/clearing-powder.pdf"] = "%PDF-1.4"
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
