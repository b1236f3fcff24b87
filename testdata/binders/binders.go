// Package binders reads binders that stand in one archive: the whole ones beside it, and
// small ones that a test has written itself.
package binders

import (
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"github.com/stretchr/testify/require"
	"golang.org/x/tools/txtar"

	"wetside/build/load"
)

// Of are the files of an archive, with some of its text changed: old, new, old, new … What
// an archive says must come of it (want/…) is no file of the binder.
func Of(archive string, change ...string) fstest.MapFS {
	return files(txtar.Parse([]byte(archive)), change)
}

// Read are the files of an archive on the disk, like Of.
func Read(t testing.TB, name string, change ...string) fstest.MapFS {
	t.Helper()
	archive, err := txtar.ParseFile(name)
	require.NoError(t, err)
	return files(archive, change)
}

func files(archive *txtar.Archive, change []string) fstest.MapFS {
	changed := strings.NewReplacer(change...)
	out := fstest.MapFS{}
	for _, f := range archive.Files {
		if !strings.HasPrefix(f.Name, "want/") {
			out[f.Name] = &fstest.MapFile{Data: []byte(changed.Replace(string(f.Data)))}
		}
	}
	return out
}

// Loaded is what a binder says that has no fault, with a library of definitions.
func Loaded(t testing.TB, binder, library fs.FS) *load.Loaded {
	t.Helper()
	got, err := load.Folder(binder, library)
	require.NoError(t, err)
	require.Empty(t, got.Faults)
	return got
}
