// Package output writes a binder's files into a folder: only what changed, by
// rename, and nothing outside it. What it wrote before and no longer belongs
// there is taken away; what others put there stays.
package output

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"sort"
	"strings"
)

// List is the name of the file that lists what we made.
const List = ".made"

// File is one file to write, its path with forward slashes.
type File struct {
	Path  string
	Bytes []byte
}

// Changes counts what was done.
type Changes struct{ Written, Same, Removed int }

// ErrNotOurs says that a folder holds files but not our list of them.
var ErrNotOurs = errors.New("the folder is not empty and does not hold a binder made by this program: nothing was written")

// Check tells whether a folder may be written to, before anything is worked out.
func Check(dir string) error {
	if dir == "" {
		return errors.New("--out names no folder: write one, or leave --out away")
	}
	if info, err := os.Stat(dir); err == nil && !info.IsDir() {
		return fmt.Errorf("%s is a file where a folder is wanted: choose another name for --out", dir)
	} else if _, there := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) && there == nil {
		return fmt.Errorf("%s is a link that leads nowhere: choose another name for --out", dir)
	}
	entries, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	if err != nil {
		return err
	}
	other := ""
	for _, e := range entries {
		switch e.Name() {
		case List:
			return nil
		case List + part: // a first run that was cut short before it had written anything
		default:
			other = e.Name()
		}
	}
	if other == "" {
		return nil
	}
	return fmt.Errorf("%s: %w (it holds %s)", dir, ErrNotOurs, other)
}

// part ends the name of a file that is being written.
const part = ".part"

// Write brings a folder to hold exactly the files, besides what others put
// there. Each file is written under a temporary name and renamed.
func Write(dir string, files []File) (Changes, error) {
	var c Changes
	if err := Check(dir); err != nil {
		return c, err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return c, err
	}
	root, err := os.OpenRoot(dir)
	if err != nil {
		return c, err
	}
	defer root.Close()
	old := made(root)
	names := make([]string, 0, len(files))
	for _, f := range files {
		names = append(names, f.Path)
	}
	sort.Strings(names)
	// The list is written first with old and new names, so that a run cut
	// short leaves nothing that the next one does not know.
	if err := write(root, List, []byte(strings.Join(union(old, names), "\n")+"\n")); err != nil {
		return c, err
	}
	for _, f := range files {
		if err := inTheWay(root, f.Path); err != nil {
			return c, err
		}
		have, err := root.ReadFile(f.Path)
		if err == nil && bytes.Equal(have, f.Bytes) {
			c.Same++
			continue
		}
		if dir := path.Dir(f.Path); dir != "." {
			if err := root.MkdirAll(dir, 0o755); err != nil {
				return c, err
			}
		}
		if err := write(root, f.Path, f.Bytes); err != nil {
			return c, err
		}
		c.Written++
	}
	now := map[string]bool{}
	for _, n := range names {
		now[n] = true
	}
	for _, n := range old {
		if now[n] {
			continue
		}
		if err := root.Remove(n); err == nil {
			c.Removed++
			for d := path.Dir(n); d != "."; d = path.Dir(d) {
				if root.Remove(d) != nil {
					break // not empty, or not there
				}
			}
		}
	}
	for _, n := range union(old, names) { // what a run that was cut short has left
		if err := root.Remove(n + part); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return c, err
		}
	}
	return c, write(root, List, []byte(strings.Join(names, "\n")+"\n"))
}

// inTheWay finds what stands where a file is to be written and is none: opening a
// pipe would wait for ever.
func inTheWay(root *os.Root, name string) error {
	for _, n := range []string{name, name + part} {
		if info, err := root.Stat(n); err == nil && !info.Mode().IsRegular() {
			return fmt.Errorf("%s is in the way: no file, but a folder, a pipe or a device; move it and make the binder once more", n)
		}
	}
	return nil
}

func write(root *os.Root, name string, b []byte) error {
	tmp := name + part
	if err := inTheWay(root, name); err != nil {
		return err
	}
	if err := root.WriteFile(tmp, b, 0o644); err != nil {
		return err
	}
	return root.Rename(tmp, name)
}

func made(root *os.Root) []string {
	if inTheWay(root, List) != nil {
		return nil
	}
	b, err := root.ReadFile(List)
	if err != nil {
		return nil
	}
	var out []string
	for _, n := range strings.Split(strings.TrimSpace(string(b)), "\n") {
		if n != "" && fs.ValidPath(n) && n != List {
			out = append(out, n)
		}
	}
	return out
}

func union(a, b []string) []string {
	seen := map[string]bool{}
	var out []string
	for _, list := range [][]string{a, b} {
		for _, n := range list {
			if !seen[n] {
				seen[n] = true
				out = append(out, n)
			}
		}
	}
	sort.Strings(out)
	return out
}
