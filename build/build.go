// Package build turns a binder's folder into its pages: load, work out, render,
// write.
package build

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"os"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"wetside/build/load"
	"wetside/build/prose"
	"wetside/build/render"
	"wetside/build/source"
	"wetside/build/theme"
	"wetside/procedures"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/unit"
)

// Options are the choices of a run.
type Options struct {
	Source  fs.FS // the binder's folder
	Library fs.FS // what comes with the program
	Theme   fs.FS // the standard theme
	On      unit.Date
	Address string
}

// Result is what a run has made. With errors among the faults it holds no files.
type Result struct {
	Binder procedures.Binder
	Loaded *load.Loaded
	Faults source.Faults
	// Fits are warnings: cards that do not fit their paper, and what was done.
	Fits source.Faults
	// Files are all files in the order of their paths, from Bind alone.
	Files []File
}

// File is one file of a binder, its path with forward slashes.
type File struct {
	Path  string
	Bytes []byte
}

// Out takes the files of a binder, one by one.
type Out interface {
	// Begin is told the paths of all files before the first of them comes.
	Begin(paths []string) error
	// Put takes one file, whose bytes write writes. It is called from several
	// goroutines at once.
	Put(path string, write func(io.Writer) error) error
}

// CheckAddress refuses an address that no code on a card should hold.
func CheckAddress(address string) error {
	if what, hint := lab.AddressProblem(address); what != "" {
		return fmt.Errorf("%s; %s", what, hint)
	}
	return nil
}

// Work loads a binder and works everything out, without rendering.
func Work(o Options) (*Result, error) {
	loaded, err := load.Folder(o.Source, o.Library)
	if err != nil {
		return nil, err
	}
	r := &Result{Loaded: loaded}
	day := Day(o.On, loaded.Lab.Place.Lab.Day)
	if loaded.Faults.HasErrors() {
		// A definition that could not be read is missing: find what else is
		// wrong, and work nothing out.
		r.Faults = append(loaded.Faults, loaded.Place(procedures.Check(loaded.Lab, day))...)
		r.Faults.Sort()
		return r, nil
	}
	binder, problems := procedures.Compute(loaded.Lab, day)
	r.Faults = append(loaded.Faults, loaded.Place(problems)...)
	r.Faults.Sort()
	if !r.Faults.HasErrors() {
		r.Binder = binder
		r.Faults = append(r.Faults, r.notices()...)
		r.Faults.Sort()
	}
	return r, nil
}

// notices makes the lab's own Markdown into pages, now that every figure and
// card they may refer to is known.
func (r *Result) notices() source.Faults {
	var faults source.Faults
	known := prose.NewKnown(r.Binder, r.Loaded.Notices)
	var own []page.Page
	front := page.Links{Label: page.Say(page.W("Notices"))}
	for _, n := range r.Loaded.Notices {
		p, bad := prose.Page(n, known)
		faults = append(faults, bad...)
		own = append(own, p)
		front.Entries = append(front.Entries, page.Entry{Card: p.ID, Title: p.Title})
	}
	if len(front.Entries) > 0 {
		for i := range r.Binder.Pages {
			if r.Binder.Pages[i].ID == "index" {
				r.Binder.Pages[i].Do = append(r.Binder.Pages[i].Do, front)
			}
		}
	}
	r.Binder.Finish(own...)
	return faults
}

// Bind works a binder out and renders it into memory.
func Bind(o Options) (*Result, error) {
	var files memory
	r, err := BindInto(o, &files)
	if err != nil || r.Faults.HasErrors() {
		return r, err
	}
	slices.SortFunc(files.list, func(a, b File) int { return strings.Compare(a.Path, b.Path) })
	r.Files = files.list
	return r, nil
}

// memory keeps the files that come.
type memory struct {
	mutex sync.Mutex
	list  []File
}

func (m *memory) Begin([]string) error { return nil }

func (m *memory) Put(path string, write func(io.Writer) error) error {
	var b bytes.Buffer
	err := write(&b)
	m.mutex.Lock()
	defer m.mutex.Unlock()
	m.list = append(m.list, File{path, b.Bytes()})
	return err
}

// Nowhere takes files and keeps none, for a caller that only wants the faults.
type Nowhere struct{}

// Begin takes the paths.
func (Nowhere) Begin([]string) error { return nil }

// Put makes the file and forgets it.
func (Nowhere) Put(_ string, write func(io.Writer) error) error { return write(io.Discard) }

// BindInto works a binder out and hands over each file as soon as it is rendered, so
// that they are never all held at once. With errors among the faults none is made.
func BindInto(o Options, out Out) (*Result, error) {
	r, err := Work(o)
	if err != nil || r.Faults.HasErrors() {
		return r, err
	}
	layers := []fs.FS{o.Theme}
	if own, err := fs.Sub(o.Source, "house-style"); err == nil {
		if _, err := fs.Stat(own, "."); err == nil {
			layers = append(layers, own)
		}
	}
	t, err := theme.Open(layers...)
	if err != nil {
		return nil, err
	}
	address := o.Address
	if address == "" {
		address = r.Binder.Address
	}
	var large []string
	plan, err := render.Lay(r.Binder, t, render.Options{Minify: true, Address: address,
		LeftOut: func(labels []string) { large = labels }})
	if err != nil {
		return nil, err
	}
	plan.Add("figures.json", func(w io.Writer) error { return Figures(w, r.Binder, r.Loaded) })
	for _, name := range r.Loaded.Lab.SheetFiles {
		plan.Add(name, func(w io.Writer) error { return copyFile(w, o.Source, name) })
	}
	if err := out.Begin(plan.Paths()); err != nil {
		return nil, err
	}
	if err := plan.Render(out.Put); err != nil {
		return nil, err
	}
	r.warn(t, large)
	r.Fits = r.fits(plan)
	return r, nil
}

// copyFile writes a file of the binder's folder as it is.
func copyFile(w io.Writer, from fs.FS, name string) error {
	f, err := from.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	_, err = io.Copy(w, f)
	return err
}

// warn says what only shows when cards are drawn: labels too large for the
// lab's label sheet, and letters that the face for paper does not have.
func (r *Result) warn(t *theme.Theme, large []string) {
	var problems []lab.Problem
	place := r.Loaded.Lab.Place
	if len(large) > 0 {
		problems = append(problems, lab.Problem{At: place.At("print.sheet"), Code: "unused", Warning: true,
			What: fmt.Sprintf("%d labels are too large for this sheet's labels and are left out: %s", len(large),
				listed(large)), Hint: "print them one by one, or take larger label stock"})
	}
	for _, m := range render.Unlettered(r.Binder, t) {
		problems = append(problems, lab.Problem{At: place.At(""), OnKey: true, Code: "letters", Warning: true,
			What: fmt.Sprintf("the face for paper has no %s, which %s and %d more cards want", m.Letters, m.First,
				m.More),
			Hint: "such letters print in another face of the machine that prints: look at the print before it is glued on"})
	}
	r.Faults = append(r.Faults, r.Loaded.Place(problems)...)
	r.Faults.Sort()
}

// listed names the first few of many.
func listed(names []string) string {
	const most = 4
	if len(names) > most {
		return strings.Join(names[:most], "; ") + " …"
	}
	return strings.Join(names, "; ")
}

// Day is the day a binder is worked out for: the one asked for, else the lab's
// own, else SOURCE_DATE_EPOCH (in UTC), else today.
func Day(asked, labs unit.Date) unit.Date {
	switch {
	case !asked.IsZero():
		return asked
	case !labs.IsZero():
		return labs
	}
	now := time.Now()
	if epoch, err := strconv.ParseInt(os.Getenv("SOURCE_DATE_EPOCH"), 10, 64); err == nil {
		now = time.Unix(epoch, 0).UTC()
	}
	y, m, d := now.Date()
	return unit.Date{Year: y, Month: m, Day: d}
}
