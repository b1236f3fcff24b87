package render

import (
	"bytes"
	"io"
	"slices"
	"strings"
	"sync"
	"testing"

	"wetside/build/render/testdata/fixture"
	"wetside/build/theme"
	"wetside/procedures"
)

// siteFor is what all pages of a binder share.
func siteFor(t testing.TB, b procedures.Binder) *site {
	t.Helper()
	s, err := newSite(b, fixture.Theme(t), Options{})
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Site renders a whole binder into memory, in the order of the paths.
func Site(b procedures.Binder, t *theme.Theme, o Options) ([]File, error) {
	plan, err := Lay(b, t, o)
	if err != nil {
		return nil, err
	}
	var mutex sync.Mutex
	var files []File
	err = plan.Render(func(path string, write func(io.Writer) error) error {
		var b bytes.Buffer
		err := write(&b)
		mutex.Lock()
		defer mutex.Unlock()
		files = append(files, File{path, b.Bytes()})
		return err
	})
	slices.SortFunc(files, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	return files, err
}

func render(t testing.TB, o Options) map[string][]byte {
	t.Helper()
	files, err := Site(fixture.Binder(), fixture.Theme(t), o)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string][]byte{}
	for _, f := range files {
		out[f.Path] = f.Bytes
	}
	return out
}
