// Package output writes a binder's files into a folder: only what changed, by
// rename, and nothing outside it. What it wrote before and no longer belongs
// there is taken away; what others put there stays.
package output

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path"
	"slices"
	"strings"
	"sync"
)

// List is the name of the file that lists what we made.
const List = ".made"

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
		return fmt.Errorf("%s is a file where a folder is needed: choose another name for --out", dir)
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

// Folder is a folder while a binder is written into it. Each file that differs from
// what stands there is written under a temporary name as it comes; only Keep gives all
// of them their names. Put may be called from several goroutines at once.
type Folder struct {
	dir   string
	root  *os.Root
	old   []string // what the last run has made
	names []string // what this run makes
	mutex sync.Mutex
	dirs  []string // folders that this run has made, outer ones first
	fresh []string // files that wait under their temporary names
	same  int
	// isNew: there was no such folder; unlisted: there was no list in it.
	isNew, unlisted bool
}

// Into is a folder to write a binder to. Nothing is touched before Begin.
func Into(dir string) *Folder { return &Folder{dir: dir} }

// Begin is told the paths of all files, with forward slashes, before the first of them
// comes. It fails if the folder may not be written to.
func (o *Folder) Begin(names []string) error {
	if err := Check(o.dir); err != nil {
		return err
	}
	_, err := os.Stat(o.dir)
	o.isNew = errors.Is(err, fs.ErrNotExist)
	if err := os.MkdirAll(o.dir, 0o755); err != nil {
		return err
	}
	root, err := os.OpenRoot(o.dir)
	if err != nil {
		return err
	}
	o.root, o.old, o.names = root, made(root), slices.Sorted(slices.Values(names))
	_, err = root.Lstat(List)
	o.unlisted = errors.Is(err, fs.ErrNotExist)
	// The list is written first with old and new names, so that a run cut
	// short leaves nothing that the next one does not know.
	return writeList(root, union(o.old, o.names))
}

// Put takes one file that Begin was told of; write writes its bytes. They are compared
// with what stands there, and go to a temporary file from the first difference on.
func (o *Folder) Put(name string, write func(io.Writer) error) error {
	if err := inTheWay(o.root, name); err != nil {
		return err
	}
	s := &sheet{folder: o, name: name}
	if had, err := o.root.Open(name); err == nil {
		defer had.Close()
		s.had = bufio.NewReader(had)
	}
	err := write(s)
	if err == nil {
		err = s.end()
	}
	if s.temporary != nil {
		err = errors.Join(err, s.temporary.Close())
	}
	return err
}

// Keep makes the folder hold exactly the files that were put, besides what others put
// there.
func (o *Folder) Keep() (Changes, error) {
	root := o.root
	o.root = nil
	defer root.Close()
	c := Changes{Same: o.same}
	slices.Sort(o.fresh)
	for _, n := range o.fresh {
		if err := root.Rename(n+part, n); err != nil {
			return c, err
		}
		c.Written++
	}
	for _, n := range o.old {
		if _, now := slices.BinarySearch(o.names, n); now {
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
	for _, n := range union(o.old, o.names) { // what a run that was cut short has left
		if err := root.Remove(n + part); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return c, err
		}
	}
	return c, writeList(root, o.names)
}

// Leave gives up: the folder is as it was before Begin, as far as it can be. After Keep
// it does nothing.
func (o *Folder) Leave() {
	if o.root == nil {
		return
	}
	defer o.root.Close()
	for _, n := range o.fresh {
		o.root.Remove(n + part)
	}
	for _, d := range slices.Backward(o.dirs) {
		o.root.Remove(d) // what others have put into it meanwhile keeps it
	}
	if !o.unlisted {
		writeList(o.root, o.old)
		return
	}
	o.root.Remove(List)
	if o.isNew {
		os.Remove(o.dir)
	}
}

// sheet is one file that is being put.
type sheet struct {
	folder    *Folder
	name      string
	had       *bufio.Reader // what stands there, as far as it has not been compared yet
	equal     int64         // how many bytes are as they were
	temporary *os.File      // nil: all bytes so far are as they were
}

// Write compares or, after a difference, writes.
func (s *sheet) Write(b []byte) (int, error) {
	if s.temporary != nil {
		return s.temporary.Write(b)
	}
	if s.had != nil && s.follows(b) {
		s.equal += int64(len(b))
		return len(b), nil
	}
	if err := s.differ(); err != nil {
		return 0, err
	}
	return s.temporary.Write(b)
}

// follows tells whether these bytes are the next ones of what stands there.
func (s *sheet) follows(b []byte) bool {
	for len(b) > 0 {
		n := min(len(b), s.had.Size())
		have, err := s.had.Peek(n)
		if err != nil || !bytes.Equal(have, b[:n]) {
			return false
		}
		s.had.Discard(n)
		b = b[n:]
	}
	return true
}

// differ begins the temporary file, with the bytes that were equal.
func (s *sheet) differ() error {
	o := s.folder
	if err := o.makeFolder(path.Dir(s.name)); err != nil {
		return err
	}
	f, err := o.root.OpenFile(s.name+part, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o644)
	if err != nil {
		return err
	}
	s.temporary = f
	o.mutex.Lock()
	o.fresh = append(o.fresh, s.name)
	o.mutex.Unlock()
	if s.equal == 0 {
		return nil
	}
	had, err := o.root.Open(s.name)
	if err != nil {
		return err
	}
	defer had.Close()
	_, err = io.CopyN(f, had, s.equal)
	return err
}

// end is told that no more bytes come.
func (s *sheet) end() error {
	if s.temporary != nil {
		return nil
	}
	if s.had != nil {
		if _, err := s.had.ReadByte(); err == io.EOF {
			s.folder.mutex.Lock()
			s.folder.same++
			s.folder.mutex.Unlock()
			return nil
		}
	}
	return s.differ()
}

// makeFolder makes a folder and those it lies in, and notes which were not there.
func (o *Folder) makeFolder(dir string) error {
	if dir == "." {
		return nil
	}
	o.mutex.Lock()
	defer o.mutex.Unlock()
	for i, c := range dir + "/" {
		if c != '/' {
			continue
		}
		switch err := o.root.Mkdir(dir[:i], 0o755); {
		case err == nil:
			o.dirs = append(o.dirs, dir[:i])
		case !errors.Is(err, fs.ErrExist):
			return err
		}
	}
	return nil
}

// inTheWay finds what stands where a file is to be written and is none: opening a
// pipe would wait for ever.
func inTheWay(root *os.Root, name string) error {
	for _, n := range []string{name, name + part} {
		if info, err := root.Stat(n); err == nil && !info.Mode().IsRegular() {
			return fmt.Errorf("%s is in the way: no file, but a folder, a pipe or a device; move it and make the binder again", n)
		}
	}
	return nil
}

func writeList(root *os.Root, names []string) error {
	if err := inTheWay(root, List); err != nil {
		return err
	}
	if err := root.WriteFile(List+part, []byte(strings.Join(names, "\n")+"\n"), 0o644); err != nil {
		return err
	}
	return root.Rename(List+part, List)
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

// union is what stands in either of two lists, in order, each name once.
func union(a, b []string) []string {
	all := slices.Sorted(slices.Values(slices.Concat(a, b)))
	return slices.Compact(all)
}
