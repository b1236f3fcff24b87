package build_test

import (
	"fmt"
	"io/fs"
	"math"
	"regexp"
	"sort"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"

	"wetside/build"
	"wetside/content"
)

var quotedText = regexp.MustCompile(`"[^"\n]*"`)

// nasty are values that somebody may type, by slip or out of spite.
var nasty = []string{`""`, `"0 g"`, `"-1 mL"`, `"1:4"`, `"1+0"`, `"1+1000000"`, `"0.000001 g"`, `"999999999 L"`, `"1..2 g"`, `"1 +- 2 g"`, `"NaN g"`, `"100 % w/w"`, `"0:00"`, `"999:59"`, `"-273 °C"`, `"1 /stop"`, `"film-developer.working"`, `"water"`, `"none"`, `"material"`, `3`, `[]`, `{}`, `true`, `2026-01-31`}

func demoFiles(t testing.TB) map[string]string {
	t.Helper()
	files := map[string]string{}
	sub, err := fs.Sub(content.FS, "demo")
	require.NoError(t, err)
	require.NoError(t, fs.WalkDir(sub, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(sub, name)
		files[name] = string(b)
		return err
	}))
	return files
}

// mangled puts a value in the place of the nth quoted text of a file.
func mangled(files map[string]string, name string, n int, value string) (fstest.MapFS, bool) {
	places := quotedText.FindAllStringIndex(files[name], -1)
	if len(places) == 0 {
		return nil, false
	}
	at := places[n%len(places)]
	out := folder(files)
	out[name] = &fstest.MapFile{Data: []byte(files[name][:at[0]] + value + files[name][at[1]:])}
	return out, true
}

// noNonsense works a binder out and demands that no figure is NaN, infinite or
// a negative amount.
func noNonsense(t testing.TB, src fs.FS, what string) {
	t.Helper()
	r, err := build.Work(options(src))
	require.NoError(t, err, what)
	if r.Faults.HasErrors() {
		for _, f := range r.Faults {
			require.NotEmpty(t, f.Hint, "%s: %v", what, f)
		}
		return
	}
	for _, f := range r.Binder.Figures {
		require.False(t, math.IsNaN(f.Value) || math.IsInf(f.Value, 0), "%s: %s", what, f.ID)
		require.NotContains(t, f.Shown, "NaN", "%s: %s", what, f.ID)
		if f.Unit == "g" || f.Unit == "ml" || f.Unit == "L" {
			require.False(t, strings.HasPrefix(f.Shown, "-"), "%s: %s is %s %s", what, f.ID, f.Shown, f.Unit)
		}
	}
}

// TestMangled spoils the demonstration in a sample of places: it must fault or
// work, never panic and never print nonsense. FuzzMangled goes on from there.
func TestMangled(t *testing.T) {
	files := demoFiles(t)
	k, tried := 0, 0
	for _, name := range []string{"lab.toml", "store.toml", "solutions/film-developer.toml", "solutions/fixer.toml", "solutions/bromide-ten.toml", "products/wetting-agent.toml", "materials/film-400.toml", "processes/film-negative.toml"} {
		for n := range quotedText.FindAllString(files[name], -1) {
			k++
			if k%13 != 0 { // a sample, so that the test stays short
				continue
			}
			value := nasty[tried%len(nasty)]
			tried++
			if src, ok := mangled(files, name, n, value); ok {
				noNonsense(t, src, fmt.Sprintf("%s, text %d as %s", name, n, value))
			}
		}
	}
	require.Greater(t, tried, 20)
}

func FuzzMangled(f *testing.F) {
	files := demoFiles(f)
	var names []string
	for name := range files {
		names = append(names, name)
	}
	sort.Strings(names) // a saved input points to the same file in every run
	f.Add(uint8(0), uint16(3), "12 mL")
	f.Add(uint8(5), uint16(7), "1+1")
	f.Fuzz(func(t *testing.T, file uint8, n uint16, value string) {
		name := names[int(file)%len(names)]
		if src, ok := mangled(files, name, int(n), fmt.Sprintf("%q", value)); ok {
			noNonsense(t, src, fmt.Sprintf("%s, text %d as %q", name, n, value))
		}
	})
}
