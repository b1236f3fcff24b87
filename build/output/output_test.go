//go:build unix

package output

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"github.com/stretchr/testify/require"
)

var two = []string{"index.html", "mix/stop.html"}

// put gives a folder the files, each with its own name in it.
func put(o *Folder, names []string) error {
	if err := o.Begin(names); err != nil {
		return err
	}
	for _, n := range names {
		if err := o.Put(n, says("this is ", n)); err != nil {
			return err
		}
	}
	return nil
}

// says writes words one after the other.
func says(words ...string) func(io.Writer) error {
	return func(w io.Writer) error {
		for _, s := range words {
			if _, err := io.WriteString(w, s); err != nil {
				return err
			}
		}
		return nil
	}
}

func writeAll(dir string, names []string) (Changes, error) {
	o := Into(dir)
	if err := put(o, names); err != nil {
		return Changes{}, err
	}
	return o.Keep()
}

// filesIn are the files of a folder with what they hold.
func filesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(name string, d fs.DirEntry, err error) error {
		if err != nil || name == dir {
			return err
		}
		at, err := filepath.Rel(dir, name)
		if err != nil || d.IsDir() {
			out[at] = "folder"
			return err
		}
		b, err := os.ReadFile(name)
		out[at] = string(b)
		return err
	}))
	return out
}

// TestWrite: a folder comes to hold the files and nothing of an older run; what others
// put there stays.
func TestWrite(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	done, err := writeAll(dir, two)
	require.NoError(t, err)
	require.Equal(t, Changes{Written: 2}, done)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "note.txt"), []byte("mine"), 0o644))
	done, err = writeAll(dir, two[:1])
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
	_, err := writeAll(dir, two)
	require.NoError(t, err)
	for _, name := range []string{"index.html", "mix/stop.html", "mix/mine.html"} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name+part), []byte("half"), 0o644))
	}
	_, err = writeAll(dir, two[:1])
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
	require.ErrorContains(t, Check(file), "is a file where a folder is needed")
	require.ErrorContains(t, Check(link), "is a link that leads nowhere")
	require.NoError(t, Check(filepath.Join(dir, "new")))
}

// TestInTheWay: what is no file is named, and never waited for.
func TestInTheWay(t *testing.T) {
	for _, name := range []string{List, "index.html", "index.html" + part, "mix/stop.html"} {
		dir := filepath.Join(t.TempDir(), "out")
		_, err := writeAll(dir, two)
		require.NoError(t, err)
		os.Remove(filepath.Join(dir, name))
		require.NoError(t, syscall.Mkfifo(filepath.Join(dir, name), 0o644))
		_, err = writeAll(dir, two)
		require.ErrorContains(t, err, name+" is in the way")
	}
}

// TestNothingBeforeTheEnd: until all files have come, what stood in the folder stands
// there, and the list names old and new.
func TestNothingBeforeTheEnd(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	_, err := writeAll(dir, two)
	require.NoError(t, err)
	before := filesIn(t, dir)
	o := Into(dir)
	require.NoError(t, o.Begin([]string{"index.html", "new/card.html"}))
	require.NoError(t, o.Put("index.html", says("another front")))
	require.NoError(t, o.Put("new/card.html", says("card")))
	now := filesIn(t, dir)
	require.Equal(t, "index.html\nmix/stop.html\nnew/card.html\n", now[List])
	require.Equal(t, before["index.html"], now["index.html"])
	require.Equal(t, "another front", now["index.html"+part])
	done, err := o.Keep()
	require.NoError(t, err)
	require.Equal(t, Changes{Written: 2, Removed: 1}, done)
	require.Equal(t, map[string]string{List: "index.html\nnew/card.html\n", "index.html": "another front", "new": "folder", "new/card.html": "card"}, filesIn(t, dir))
}

// TestLeave: a run that gives up leaves the folder as it was, and no folder where there
// was none.
func TestLeave(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "out")
	broken := func() {
		o := Into(dir)
		require.NoError(t, o.Begin([]string{"index.html", "new/deep/card.html"}))
		require.NoError(t, o.Put("index.html", says("another front")))
		require.ErrorContains(t, o.Put("new/deep/card.html", func(w io.Writer) error {
			return errors.Join(says("half")(w), errors.New("no card"))
		}), "no card")
		o.Leave()
	}
	broken()
	require.NoDirExists(t, dir)
	_, err := writeAll(dir, two)
	require.NoError(t, err)
	before := filesIn(t, dir)
	broken()
	require.Equal(t, before, filesIn(t, dir))
}

// TestPut: a file that comes in pieces is compared whole: a longer one, a shorter one
// and one that differs late are written, an equal one is not.
func TestPut(t *testing.T) {
	long := strings.Repeat("0123456789", 2000)
	for _, c := range []struct {
		name   string
		pieces []string
		want   Changes
	}{
		{"equal", []string{long, "end"}, Changes{Same: 1}},
		{"equal in other pieces", []string{long[:5], long[5:] + "end"}, Changes{Same: 1}},
		{"differs late", []string{long, "END"}, Changes{Written: 1}},
		{"differs early", []string{"X" + long[1:], "end"}, Changes{Written: 1}},
		{"longer", []string{long, "end", "s"}, Changes{Written: 1}},
		{"shorter", []string{long}, Changes{Written: 1}},
		{"empty", nil, Changes{Written: 1}},
	} {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			for _, pieces := range [][]string{{long + "end"}, c.pieces} {
				o := Into(dir)
				require.NoError(t, o.Begin([]string{"a/b.html"}))
				require.NoError(t, o.Put("a/b.html", says(pieces...)))
				done, err := o.Keep()
				require.NoError(t, err)
				if len(pieces) != 1 || pieces[0] != long+"end" {
					require.Equal(t, c.want, done)
				}
			}
			require.Equal(t, map[string]string{List: "a/b.html\n", "a": "folder", "a/b.html": strings.Join(c.pieces, "")}, filesIn(t, dir))
		})
	}
}
