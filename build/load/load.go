// Package load reads a binder's folder into what the lab has declared, with
// every fault of every file at its place.
package load

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"regexp"
	"sort"
	"strconv"
	"strings"

	"wetside/build/source"
	"wetside/procedures/lab"
	"wetside/procedures/near"
)

// Limits on what a binder's folder may hold; a real one is far below them.
const (
	mostFiles = 20000
	mostBytes = 64 << 20
	mostFile  = 4 << 20
)

// Notice is one of the lab's own Markdown pages, not yet rendered.
type Notice struct {
	ID   string
	File string
	Text []byte
}

// Loaded is what stands in a folder.
type Loaded struct {
	Lab     *lab.Lab
	Notices []Notice
	Faults  source.Faults

	trees map[string]*source.Tree
}

// ErrNoBinder says that a folder holds no binder: no lab.toml.
var ErrNoBinder = errors.New("this folder holds no binder: there is no lab.toml in it")

// Folder reads a binder. library holds the definitions that come with the
// program (library/… and rules/…). The error is for the machine and for a
// folder that is no binder; a user's mistakes are faults.
func Folder(fsys, library fs.FS) (*Loaded, error) {
	if _, err := fs.Lstat(fsys, "lab.toml"); errors.Is(err, fs.ErrNotExist) {
		return nil, ErrNoBinder
	}
	r := &reader{fsys: fsys, out: &Loaded{Lab: &lab.Lab{Broken: map[string]bool{}}, trees: map[string]*source.Tree{}},
		owner: map[string]string{}}
	l := r.out.Lab
	r.single("lab.toml", &l.Place, &l.Place.Def)
	r.single("local.toml", &l.Local, &l.Local.Def)
	r.single("store.toml", &l.Store, &l.Store.Def)
	l.Sources = lab.Sources{}
	r.single("sources.toml", &l.Sources, nil)
	ownSpecies := &lab.SpeciesBook{}
	r.single("species.toml", ownSpecies, &ownSpecies.Def)
	r.all(false)
	r.strangers()
	r.notices()
	r.supplierSheets()

	r.fsys, r.prefix = library, "library/"
	librarySources := lab.Sources{}
	r.single("library/sources.toml", &librarySources, nil)
	for id, s := range librarySources {
		if _, own := l.Sources[id]; !own {
			l.Sources[id] = s
		}
	}
	r.all(true)
	species := &lab.SpeciesBook{}
	r.single("library/species.toml", species, &species.Def)
	species.Library = true
	l.Species = []*lab.SpeciesBook{species, ownSpecies}
	r.single("rules/formats.toml", &l.Formats, &l.Formats.Def)
	own := l.Rules
	l.Rules = nil
	for _, name := range []string{"groups", "apart", "spills", "mixtures", "classes", "precautions", "law",
		"properties"} {
		book := &lab.RuleBook{}
		r.single("rules/"+name+".toml", book, &book.Def)
		book.Library = true
		l.Rules = append(l.Rules, book)
	}
	l.Rules = append(l.Rules, own...)
	l.Index()
	if r.err != nil {
		return nil, r.err
	}
	return r.out, nil
}

type reader struct {
	fsys   fs.FS
	prefix string
	out    *Loaded
	owner  map[string]string // id → file, one namespace
	files  int
	bytes  int
	err    error
}

// all reads the folders of definitions.
func (r *reader) all(library bool) {
	l := r.out.Lab
	definitions(r, "chemicals", library, true, &l.Chemicals, func(d *lab.Chemical) *lab.Def { return &d.Def })
	definitions(r, "products", library, true, &l.Products, func(d *lab.Product) *lab.Def { return &d.Def })
	definitions(r, "solutions", library, true, &l.Solutions, func(d *lab.Solution) *lab.Def { return &d.Def })
	definitions(r, "materials", library, true, &l.Materials, func(d *lab.Material) *lab.Def { return &d.Def })
	definitions(r, "processes", library, false, &l.Processes, func(d *lab.Process) *lab.Def { return &d.Def })
	definitions(r, "waste", library, false, &l.Wastes, func(d *lab.Waste) *lab.Def { return &d.Def })
	definitions(r, "shelf", library, false, &l.Batches, func(d *lab.Batch) *lab.Def { return &d.Def })
	definitions(r, "rules", library, false, &l.Rules, func(d *lab.RuleBook) *lab.Def { return &d.Def })
}

var folders = []string{"chemicals", "products", "solutions", "materials", "processes", "waste", "shelf", "rules",
	"notices", "supplier-sheets", "house-style", "issued"}

// Reserved reports whether a folder of that name inside a binder holds what the lab
// itself writes.
func Reserved(name string) bool { return known(folders, name) }

var topFiles = []string{"lab.toml", "local.toml", "store.toml", "sources.toml", "species.toml"}

// longestID is the longest that an id may be.
const longestID = 60

var goodID = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// read reads one file. It is no fault that there is none; that there is one and it
// cannot be read always is.
func (r *reader) read(name string) ([]byte, bool) {
	if _, err := fs.Lstat(r.fsys, name); errors.Is(err, fs.ErrNotExist) {
		return nil, false
	}
	info, err := fs.Stat(r.fsys, name)
	switch {
	case err != nil:
		r.unreadable(name, err)
		return nil, false
	case info.IsDir():
		r.fault(name, "file", "a folder where a file is expected", "rename the folder, or put the file in its place")
		return nil, false
	case !info.Mode().IsRegular(): // opening a pipe would wait for ever
		r.fault(name, "file", "no file with text in it but a pipe, a socket or a device", "put a file in its place")
		return nil, false
	case info.Size() > mostFile:
		r.tooLarge(name)
		return nil, false
	}
	f, err := r.fsys.Open(name)
	if err != nil {
		r.unreadable(name, err)
		return nil, false
	}
	defer f.Close()
	b, err := io.ReadAll(io.LimitReader(f, mostFile+1))
	switch {
	case err != nil:
		r.unreadable(name, err)
		return nil, false
	case len(b) > mostFile:
		r.tooLarge(name)
		return nil, false
	}
	r.files++
	r.bytes += len(b)
	if (r.files > mostFiles || r.bytes > mostBytes) && r.err == nil {
		r.err = errors.New("this folder holds far more than a binder: more than 20000 files or 64 MB of definitions")
	}
	return b, true
}

// unreadable is the fault of a file or folder that is there and cannot be read.
func (r *reader) unreadable(name string, err error) {
	what, hint := "cannot be read: "+reason(err), "check that it may be read"
	switch {
	case strings.Contains(err.Error(), "escapes"):
		what, hint = "leads out of this folder",
			"put the file itself here; a binder reads nothing from outside its folder"
	case errors.Is(err, fs.ErrNotExist):
		what, hint = "a link that leads nowhere",
			"what it pointed to has been moved or renamed: put the file itself here, or take the link out"
	case errors.Is(err, fs.ErrPermission):
		what = "cannot be read: this user may not"
	}
	r.fault(name, "file", what, hint)
}

func (r *reader) tooLarge(name string) {
	r.fault(name, "file", fmt.Sprintf("larger than %d MB: no definition and no notice is as large", mostFile>>20),
		"remove what does not belong there")
}

// folder reads a folder. It is no fault that there is none; that there is one and it
// cannot be read always is.
func (r *reader) folder(name string) []fs.DirEntry {
	if _, err := fs.Lstat(r.fsys, name); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	info, err := fs.Stat(r.fsys, name)
	if err == nil && !info.IsDir() {
		r.fault(name, "file", "a file where a folder is expected", "rename the file")
		return nil
	}
	var entries []fs.DirEntry
	if err == nil {
		entries, err = fs.ReadDir(r.fsys, name)
	}
	if err != nil {
		r.unreadable(name, err)
	}
	return entries
}

// backup reports what an editor leaves beside a file, by its name: it is passed over.
func (r *reader) backup(name string) bool {
	base := path.Base(name)
	left := strings.HasSuffix(base, "~") || strings.HasPrefix(base, ".#") || strings.HasPrefix(base, "#") &&
		strings.HasSuffix(base, "#")
	for _, end := range []string{".bak", ".swp", ".swo", ".orig", ".tmp"} {
		left = left || strings.HasSuffix(base, end)
	}
	if left {
		r.warn(name, "file", "an editor's copy: it is not read", "remove it when it is no longer needed")
	}
	return left
}

func reason(err error) string {
	var p *fs.PathError
	if errors.As(err, &p) {
		return p.Err.Error()
	}
	return err.Error()
}

func (r *reader) fault(name, code, what, hint string) {
	r.out.Faults = append(r.out.Faults, source.Fault{
		Span: source.Span{File: name, Start: source.Pos{Line: 1, Column: 1}, End: source.Pos{Line: 1, Column: 1}},
		Code: code, What: what, Hint: hint,
	})
}

// decode reads one file into a definition and reports whether it is whole.
func (r *reader) decode(name string, into any) bool {
	b, ok := r.read(name)
	if !ok || r.err != nil {
		return false
	}
	tree, faults := source.Parse(name, b)
	if tree != nil {
		if r.out.trees[name] == nil { // the program has a file of that name, too: nobody can mend that one
			r.out.trees[name] = tree
		}
		if !faults.HasErrors() {
			faults = append(faults, tree.Decode(into)...)
		}
		tree.Decoded()
	}
	for i := range faults {
		if faults[i].Hint == "" {
			faults[i].Hint = "for what this means, with an example: wetside why " + faults[i].Code
		}
	}
	r.out.Faults = append(r.out.Faults, faults...)
	return !faults.HasErrors()
}

func (r *reader) single(name string, into any, def *lab.Def) {
	whole := r.decode(name, into)
	if def != nil {
		def.ID = strings.TrimSuffix(path.Base(name), ".toml")
		def.File = name
	}
	if def != nil && whole {
		r.origins(*def)
	}
}

// origins finds the keys under [origin] that vouch for nothing in their file.
func (r *reader) origins(d lab.Def) {
	tree := r.out.trees[d.File]
	var keys []string
	for key := range d.Origin {
		if key != "all" && !tree.Has(key) {
			keys = append(keys, key)
		}
	}
	sort.Strings(keys)
	for _, key := range keys {
		hint := "write the key as it stands in the file, such as density, or \"strength.working.needs\" in quotes"
		if near := tree.Near(key); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		r.out.Faults = append(r.out.Faults, tree.FaultAtKey("origin."+strconv.Quote(key), "key",
			fmt.Sprintf("[origin] vouches for %q, and this file has no such key", key), hint))
	}
}

// definitions reads a folder of definitions, one a file.
func definitions[T any](r *reader, folder string, library, shared bool, into *[]*T, def func(*T) *lab.Def) {
	dir := folder
	if library {
		dir = "library/" + folder
	}
	for _, e := range r.folder(dir) {
		if r.err != nil {
			return
		}
		name := dir + "/" + e.Name()
		id, isTOML := strings.CutSuffix(e.Name(), ".toml")
		switch {
		case e.IsDir():
			r.fault(name, "file", "a folder where a definition is expected",
				"put each definition straight into "+folder+"/")
			continue
		case r.backup(name) || strings.HasPrefix(e.Name(), "."):
			continue
		case !isTOML:
			r.fault(name, "file", "not a definition: "+folder+"/ holds files that end in .toml",
				"rename it or move it elsewhere")
			continue
		case !goodID.MatchString(id):
			r.fault(name, "id", fmt.Sprintf("%q cannot be an id", id),
				"name the file in lower-case letters, digits and single hyphens, for example citric-stop.toml")
			continue
		case len(id) > longestID: // pages are named by it, and a disk has a longest name
			r.fault(name, "id", fmt.Sprintf("a name of %d letters is too long for an id", len(id)),
				fmt.Sprintf("name the file in at most %d letters; how it is called in full goes into name", longestID))
			continue
		}
		key := folder + "/" + id
		if shared {
			key = id
		}
		if first, taken := r.owner[key]; taken {
			if library {
				continue // a lab's file replaces the library's whole
			}
			r.fault(name, "id", fmt.Sprintf("the id %q is taken by %s", id, first),
				"chemicals, products, solutions and materials share one set of names: rename one of the files")
			continue
		}
		if id == "water" && shared {
			r.fault(name, "id", `"water" is a reserved name`, "choose another name for the file")
			continue
		}
		r.owner[key] = name
		d := new(T)
		if !r.decode(name, d) {
			r.out.Lab.Broken[key] = true
			continue
		}
		meta := def(d)
		meta.ID, meta.File, meta.Library = id, name, library
		r.origins(*meta)
		*into = append(*into, d)
	}
}

// strangers reports what a binder's folder does not know.
func (r *reader) strangers() {
	entries, err := fs.ReadDir(r.fsys, ".")
	if err != nil {
		r.err = err
		return
	}
	for _, e := range entries {
		name := e.Name()
		if !e.IsDir() && strings.Contains(name, ".toml") && r.backup(name) || strings.HasPrefix(name, ".") {
			continue
		}
		if name == "house-style" && !e.IsDir() {
			r.folder(name)
			continue
		}
		if e.IsDir() {
			r.strangeFolder(name)
			continue
		}
		if strings.HasSuffix(name, ".toml") && !known(topFiles, name) {
			hint := "the files of a binder are " + strings.Join(topFiles, ", ") +
				"; definitions stand in folders such as solutions/"
			if meant := near.Word(name, topFiles); meant != "" {
				hint = fmt.Sprintf("did you mean %q?", meant)
			}
			r.fault(name, "file", "not a file that a binder knows here", hint)
		}
	}
}

// strangeFolder warns of a folder that is passed over although it holds
// definitions or has nearly the name of one that would be read.
func (r *reader) strangeFolder(name string) {
	if known(folders, name) {
		return
	}
	hint := "definitions stand in " + strings.Join(folders[:8], ", ")
	meant := near.Word(name, folders)
	if meant != "" {
		hint = fmt.Sprintf("did you mean %q?", meant)
	}
	inside, _ := fs.Glob(r.fsys, name+"/*.toml")
	if meant != "" || len(inside) > 0 {
		r.warn(name, "folder", fmt.Sprintf("%q is not a folder of a binder: nothing in it is read", name), hint)
	}
}

func (r *reader) warn(name, code, what, hint string) {
	r.fault(name, code, what, hint)
	r.out.Faults[len(r.out.Faults)-1].Severity = source.Warning
}

func known(list []string, s string) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func (r *reader) notices() {
	for _, e := range r.folder("notices") {
		id, isMD := strings.CutSuffix(e.Name(), ".md")
		name := "notices/" + e.Name()
		switch {
		case r.backup(name) || strings.HasPrefix(e.Name(), "."):
		case !isMD || e.IsDir():
			r.fault(name, "file", "not a notice: notices/ holds files that end in .md",
				"rename it or move it elsewhere")
		case !goodID.MatchString(id):
			r.fault(name, "id", fmt.Sprintf("%q cannot be an id", id),
				"name the file in lower-case letters, digits and single hyphens")
		default:
			if b, ok := r.read(name); ok {
				r.out.Notices = append(r.out.Notices, Notice{ID: id, File: name, Text: b})
			}
		}
	}
}

// Place turns the core's problems into faults at their places.
func (l *Loaded) Place(problems []lab.Problem) source.Faults {
	var out source.Faults
	for _, p := range problems {
		var f source.Fault
		tree := l.trees[p.At.File]
		switch {
		case tree == nil:
			f = source.Fault{Span: source.Span{File: p.At.File, Start: source.Pos{Line: 1, Column: 1},
				End: source.Pos{Line: 1, Column: 1}}, Code: p.Code, What: p.What, Hint: p.Hint}
		case p.OnKey:
			f = tree.FaultAtKey(p.At.Key, p.Code, p.What, p.Hint)
		default:
			f = tree.FaultAt(p.At.Key, p.Code, p.What, p.Hint)
		}
		if p.Warning {
			f.Severity = source.Warning
		}
		out = append(out, f)
	}
	return out
}

// Line finds the line of a key, or 0 if the file is not one of the binder's.
func (l *Loaded) Line(file, key string) int {
	if t := l.trees[file]; t != nil {
		return t.Find(key).Start.Line
	}
	return 0
}

// Files lists the files that were read, in order.
func (l *Loaded) Files() []string {
	var out []string
	for f := range l.trees {
		out = append(out, f)
	}
	sort.Strings(out)
	return out
}
