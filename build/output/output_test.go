//go:build unix

package output

import (
	"os"
	"path/filepath"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

var two = []File{{"index.html", []byte("front")}, {"mix/stop.html", []byte("stop")}}

// TestWrite: a folder comes to hold the files and nothing of an older run; what others
// put there stays.
func TestWrite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	done, err := Write(dir, two)
	require.NoError(t, err)
	require.Equal(t, Changes{Written: 2}, done)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "note.txt"), []byte("mine"), 0o644))
	done, err = Write(dir, two[:1])
	require.NoError(t, err)
	require.Equal(t, Changes{Same: 1, Removed: 1}, done)
	require.NoFileExists(t, filepath.Join(dir, "mix/stop.html"))
	require.FileExists(t, filepath.Join(dir, "note.txt"))
}

// TestCheck: a folder that holds other things is left alone, and one in which a first
// run was cut short is not.
func TestCheck(t *testing.T) {
	dir := t.TempDir()
	require.NoError(t, os.WriteFile(filepath.Join(dir, List+part), nil, 0o644))
	require.NoError(t, Check(dir))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "letter.txt"), nil, 0o644))
	require.ErrorIs(t, Check(dir), ErrNotOurs)
	require.ErrorContains(t, Check(dir), "letter.txt")
}

// TestLeftovers: what a run that was cut short has left of our own files goes, and what
// is called alike and is not ours stays.
func TestLeftovers(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	_, err := Write(dir, two)
	require.NoError(t, err)
	for _, name := range []string{"index.html", "mix/stop.html", "mix/mine.html"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+part), []byte("half"), 0o644))
	}
	_, err = Write(dir, two[:1])
	require.NoError(t, err)
	require.NoFileExists(t, filepath.Join(dir, "index.html"+part))
	require.NoFileExists(t, filepath.Join(dir, "mix/stop.html"+part))
	require.FileExists(t, filepath.Join(dir, "mix/mine.html"+part))
}

// TestNoFolder: what cannot be a folder is said in words.
func TestNoFolder(t *testing.T) {
	dir := t.TempDir()
	file, link := filepath.Join(dir, "file"), filepath.Join(dir, "link")
	require.NoError(t, os.WriteFile(file, nil, 0o644))
	require.NoError(t, os.Symlink(filepath.Join(dir, "nowhere"), link))
	require.ErrorContains(t, Check(""), "names no folder")
	require.ErrorContains(t, Check(file), "is a file where a folder is wanted")
	require.ErrorContains(t, Check(link), "is a link that leads nowhere")
	require.NoError(t, Check(filepath.Join(dir, "new")))
}

// TestInTheWay: what is no file is named, and never waited for.
func TestInTheWay(t *testing.T) {
	for _, name := range []string{List, "index.html", "index.html" + part, "mix/stop.html"} {
		dir := filepath.Join(t.TempDir(), "out")
		_, err := Write(dir, two)
		require.NoError(t, err)
		os.Remove(filepath.Join(dir, name))
		require.NoError(t, syscall.Mkfifo(filepath.Join(dir, name), 0o644))
		_, err = Write(dir, two)
		require.ErrorContains(t, err, name+" is in the way")
	}
}
