package build

import (
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"

	"wetside/build/load"
	"wetside/build/source"
	"wetside/procedures"
)

// Rest works out what can be answered while some files of a binder have faults: those
// files are left out, and with them every file that cannot do without one of them. It
// returns their names. Faults of the lab's own four files, or of the program's, leave
// nothing to work out: then the result holds them.
func Rest(o Options) (*Result, []string, error) {
	var left []string
	for {
		loaded, err := load.Folder(without{o.Source, left}, o.Library)
		if err != nil {
			return nil, nil, err
		}
		day := Day(o.On, loaded.Lab.Place.Lab.Day)
		faults := append(loaded.Faults, loaded.Place(procedures.Check(loaded.Lab, day))...)
		r := &Result{Loaded: loaded, Faults: faults}
		var more []string
		for _, f := range faults {
			name := f.Span.File
			switch {
			case f.Severity != source.Error:
			case path.Dir(name) == "." || strings.HasPrefix(name, "library/"):
				if f.Code != "reference" || len(left) == 0 { // it may name what is left out
					return r, left, nil
				}
			case !slices.Contains(more, name):
				more = append(more, name)
			}
		}
		if len(more) > 0 {
			left = append(left, more...)
			continue
		}
		r.Binder, r.Faults = procedures.ComputeRest(loaded.Lab, day), nil
		r.notices() // what is wrong in one hinders no answer
		slices.Sort(left)
		return r, left, nil
	}
}

// without is a folder without some of its files.
type without struct {
	fs.FS
	out []string
}

// Open implements fs.FS.
func (w without) Open(name string) (fs.File, error) {
	if slices.Contains(w.out, name) {
		return nil, &fs.PathError{Op: "open", Path: name, Err: fs.ErrNotExist}
	}
	return w.FS.Open(name)
}

// ReadDir implements fs.ReadDirFS.
func (w without) ReadDir(name string) ([]fs.DirEntry, error) {
	entries, err := fs.ReadDir(w.FS, name)
	return slices.DeleteFunc(slices.Clone(entries), func(e fs.DirEntry) bool {
		return slices.Contains(w.out,
			path.Join(name, e.Name()))
	}), err
}

// Lstat implements fs.ReadLinkFS: what is left out is not there.
func (w without) Lstat(name string) (fs.FileInfo, error) {
	if slices.Contains(w.out, name) {
		return nil, &fs.PathError{Op: "lstat", Path: name, Err: fs.ErrNotExist}
	}
	return fs.Lstat(w.FS, name)
}

// ReadLink implements fs.ReadLinkFS.
func (w without) ReadLink(name string) (string, error) {
	if l, ok := w.FS.(fs.ReadLinkFS); ok {
		return l.ReadLink(name)
	}
	return "", &fs.PathError{Op: "readlink", Path: name, Err: errors.ErrUnsupported}
}
