// Package build turns a binder's folder into its pages: load, work out, render,
// write.
package build

import (
	"fmt"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"time"

	"wetside/build/load"
	"wetside/build/output"
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
	Fits  source.Faults
	Files []output.File
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
	known := prose.NewKnown(r.Binder.Answers, r.Binder.Pages, r.Loaded.Notices)
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

// Bind works a binder out and renders it.
func Bind(o Options) (*Result, error) {
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
	files, fitted, err := render.SiteFitted(r.Binder, t, render.Options{Minify: true, Address: address, LeftOut: func(labels []string) { large = labels }})
	if err != nil {
		return nil, err
	}
	r.warn(t, large)
	r.Fits = r.fits(fitted)
	for _, f := range files {
		r.Files = append(r.Files, output.File{Path: f.Path, Bytes: f.Bytes})
	}
	figures, err := Figures(r.Binder, r.Loaded)
	if err != nil {
		return nil, err
	}
	r.Files = append(r.Files, output.File{Path: "figures.json", Bytes: figures})
	return r, nil
}

// warn says what only shows when cards are drawn: labels too large for the
// lab's label sheet, and letters that the face for paper does not have.
func (r *Result) warn(t *theme.Theme, large []string) {
	var problems []lab.Problem
	place := r.Loaded.Lab.Place
	if len(large) > 0 {
		problems = append(problems, lab.Problem{At: place.At("print.sheet"), Code: "unused", Warning: true,
			What: fmt.Sprintf("%d labels are too large for this sheet's labels and are left out: %s", len(large), listed(large)), Hint: "print them one by one, or take larger label stock"})
	}
	for _, m := range render.Unlettered(r.Binder, t) {
		problems = append(problems, lab.Problem{At: place.At(""), OnKey: true, Code: "letters", Warning: true,
			What: fmt.Sprintf("the face for paper has no %s, which %s and %d more cards want", m.Letters, m.First, m.More), Hint: "such letters print in another face of the machine that prints: look at the print before it is glued on"})
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
