// Package render turns a binder into files: the site, its cards for paper and
// the terminal's text. It puts together what its packages do: view decides what a page shows
// on a face, paper what stands on which sheet, labels and screen draw and write it, text
// writes it for a terminal. None formats a number: digits come from figures.
package render

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"html/template"
	"io"
	"path"
	"slices"
	"strings"
	"sync/atomic"

	"github.com/tdewolff/minify/v2"
	"github.com/tdewolff/minify/v2/css"
	"github.com/tdewolff/minify/v2/html"
	"github.com/tdewolff/minify/v2/js"

	"wetside/build/render/labels"
	"wetside/build/render/paper"
	"wetside/build/render/parallel"
	"wetside/build/render/screen"
	"wetside/build/render/text"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures"
	"wetside/procedures/page"
)

// File is one file of the site, its path relative to the site's root.
type File struct {
	Path  string
	Bytes []byte
}

// Options are the choices of a rendering.
type Options struct {
	Minify bool
	// Address is where the site will stand, or empty.
	Address string
	// LeftOut is told the labels that are too large for the lab's label sheet.
	LeftOut func(labels []string)
}

// site is a binder that is being rendered: what is shown, on what paper, and the files that
// all pages share. It is only read once made, but for what the sheets of binder.html hold.
type site struct {
	binder *view.Binder
	paper  *paper.Papers
	pages  *screen.Pages
	prints []paper.Print
	bound  paper.Bound // the sheets of binder.html
	heads  string      // the path of its stylesheet
	min    *minify.M
}

// Terminal writes a page as plain text, in one of its choices, in lines of at most width letters.
func Terminal(p page.Page, choice, width int) string { return text.Card(p, choice, width) }

// Plan is a binder ready to be rendered: it is known which files there will be and
// what stands on which paper.
type Plan struct {
	// Fitted are the prints that do not simply fit their paper, and what was done.
	Fitted []paper.Fitted
	site   *site
	jobs   [][]job // those of one list share a drawing: one goroutine does them in turn
	ready  []File
}

// Lay plans the files of a binder.
func Lay(b procedures.Binder, t *theme.Theme, o Options) (*Plan, error) {
	s, err := newSite(b, t, o)
	if err != nil {
		return nil, err
	}
	p := &Plan{site: s}
	if p.Fitted, err = s.place(); err != nil {
		return nil, err
	}
	if p.ready, err = s.assets(); err != nil {
		return nil, err
	}
	if p.jobs, err = s.jobs(); err != nil {
		return nil, err
	}
	calendar, err := s.calendar()
	if err != nil {
		return nil, err
	}
	p.ready = append(append(p.ready, calendar...), s.redirects()...)
	return p, nil
}

// Add adds a file that the caller makes; write is called while the others are rendered.
func (p *Plan) Add(path string, write func(io.Writer) error) {
	p.jobs = slices.Insert(p.jobs, 0, []job{{path: path, write: write}})
}

// Paths are the paths of all files, in order.
func (p *Plan) Paths() []string {
	var out []string
	for _, list := range p.jobs {
		for _, j := range list {
			out = append(out, j.path)
		}
	}
	for _, f := range p.ready {
		out = append(out, f.Path)
	}
	slices.Sort(out)
	return out
}

// Render hands over every file once, in no order and from several goroutines at once;
// write makes the file and writes its bytes, which are always the same for equal input:
// what put does not ask for is not made, and what it does not keep is kept nowhere. After
// a failure no further file is begun.
func (p *Plan) Render(put func(path string, write func(io.Writer) error) error) error {
	paths := p.Paths()
	for i := 1; i < len(paths); i++ {
		if paths[i] == paths[i-1] {
			return fmt.Errorf("two files want the path %s", paths[i])
		}
	}
	do := func(j job) error {
		if j.write != nil {
			return put(j.path, j.write)
		}
		return put(j.path, func(w io.Writer) error {
			pieces, err := p.site.run(j)
			if err != nil {
				return err
			}
			for _, b := range pieces {
				if _, err := w.Write(b); err != nil {
					return err
				}
			}
			return nil
		})
	}
	faults := make([]error, len(p.jobs))
	var failed atomic.Bool
	parallel.Each(len(p.jobs), func(i int) {
		for _, j := range p.jobs[i] {
			if failed.Load() {
				return
			}
			if faults[i] = do(j); faults[i] != nil {
				failed.Store(true)
			}
		}
	})
	if err := errors.Join(faults...); err != nil {
		return err
	}
	for _, f := range p.ready {
		if err := put(f.Path, func(w io.Writer) error { _, err := w.Write(f.Bytes); return err }); err != nil {
			return err
		}
	}
	return nil
}

func newSite(b procedures.Binder, t *theme.Theme, o Options) (*site, error) {
	binder, err := view.NewBinder(b, t, o.Address)
	if err != nil {
		return nil, err
	}
	s := &site{binder: binder, paper: paper.Of(binder), pages: screen.New(binder, o.LeftOut)}
	if o.Minify {
		s.min = minify.New()
		s.min.Add("text/html", &html.Minifier{
			KeepDocumentTags: true, KeepEndTags: true, KeepQuotes: true, KeepDefaultAttrVals: true,
		})
		s.min.AddFunc("text/css", css.Minify)
		s.min.Add("application/javascript", &js.Minifier{KeepVarNames: true})
	}
	return s, nil
}

// place decides on every print.
func (s *site) place() (fitted []paper.Fitted, err error) {
	if s.prints, fitted, err = s.paper.Place(); err != nil {
		return nil, err
	}
	s.pages.SetPrints(s.prints)
	return fitted, nil
}

// job is one file to render.
type job struct {
	path    string
	face    *theme.Face
	page    *page.Page
	choice  int
	bottle  string // the container of a label
	print   *paper.Print
	working string                // set: the id of a working page, which is made when it is rendered
	whole   bool                  // the whole binder in one document
	write   func(io.Writer) error // set: a file that is made elsewhere
}

func (s *site) jobs() ([][]job, error) {
	faces := map[string]*theme.Face{}
	for i, f := range s.binder.Theme.Faces {
		faces[f.Name] = &s.binder.Theme.Faces[i]
	}
	screen := faces["screen"]
	if screen == nil {
		return nil, errors.New("the theme has no face screen")
	}
	var jobs [][]job
	if face := faces["binder"]; face != nil { // by far the longest: it comes first
		jobs = append(jobs, []job{{path: "binder.html", face: face, whole: true}})
	}
	for i := range s.binder.Pages {
		p := &s.binder.Pages[i]
		face := screen
		if _, ok := view.BlockOf[page.Sheet](*p); ok {
			if face = faces["sheet"]; face == nil {
				return nil, errors.New("the theme has no face sheet")
			}
		}
		list := []job{{path: p.ID + ".html", face: face, page: p, choice: -1}}
		if sign, ok := view.BlockOf[page.Sign](*p); ok && faces["sign"] != nil {
			face := faces["sign"]
			list = append(list, job{path: labels.SignPath(*face, p.ID, sign), face: face, page: p, choice: -1})
		}
		if l, ok := view.LabelOf(*p); ok && faces["label"] != nil {
			face := faces["label"]
			for _, c := range l.For {
				list = append(list, job{path: labels.Path(*face, p.ID, c), face: face, page: p, choice: view.Chosen(*p),
					bottle: c.Name})
			}
		}
		jobs = append(jobs, list)
	}
	for _, w := range s.binder.Workings {
		jobs = append(jobs, []job{{path: w.ID() + ".html", face: screen, working: w.ID(), choice: -1}})
	}
	for i := range s.prints {
		pr := &s.prints[i]
		jobs = append(jobs, []job{{path: pr.Path, face: &pr.Face, page: &pr.Page, choice: pr.Choice, print: pr}})
	}
	return jobs, nil
}

// run renders a file, in pieces that follow each other.
func (s *site) run(j job) (pieces [][]byte, err error) {
	switch {
	case j.whole:
		pieces, err = s.wholeBinder(*j.face, j.path)
	default:
		if j.working != "" {
			p, _ := s.binder.Working(j.working)
			j.page = &p
		}
		var b bytes.Buffer
		if err = s.one(&b, j); err == nil {
			pieces = make([][]byte, 1)
			pieces[0], err = s.shrink("text/html", b.Bytes())
		}
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", j.path, err)
	}
	return pieces, nil
}

// one writes one page.
func (s *site) one(w io.Writer, j job) error {
	v := s.binder.View(*j.page, *j.face, j.choice)
	body, err := s.pages.Body(v, j.path, j.bottle, j.print)
	if err != nil {
		return err
	}
	title := v.Page.Title
	if j.page.ID != "index" && s.binder.Lab != "" {
		title += " · " + s.binder.Lab
	}
	return s.pages.Document(w, v, j.path, title, nil, body)
}

// shrink minifies, if asked to.
func (s *site) shrink(kind string, b []byte) ([]byte, error) {
	if s.min == nil {
		return b, nil
	}
	return s.min.Bytes(kind, b)
}

// assets makes the hashed files and sets their paths.
func (s *site) assets() ([]File, error) {
	var out []File
	sheet := string(s.binder.Theme.Style) + s.paper.Rules()
	for _, f := range s.binder.Theme.Fonts {
		file := hashed(f.Name, f.Bytes)
		sheet = strings.ReplaceAll(sheet, "fonts/"+f.Name, path.Base(file.Path))
		out = append(out, file)
	}
	for _, l := range s.binder.Theme.Licences {
		out = append(out, File{"assets/" + l.Name, l.Bytes})
	}
	sheet += s.pages.Rules()
	style, err := s.shrink("text/css", []byte(sheet))
	if err != nil {
		return nil, fmt.Errorf("stylesheet: %w", err)
	}
	script, err := s.shrink("application/javascript", s.binder.Theme.Script)
	if err != nil {
		return nil, fmt.Errorf("script: %w", err)
	}
	styleFile, scriptFile := hashed("style.css", style), hashed("ground.js", script)
	s.pages.Style, s.pages.Script = styleFile.Path, scriptFile.Path
	out = append(out, styleFile, scriptFile)
	if face, ok := s.binder.Theme.Face("binder"); ok {
		face, _ = s.paper.Face(face.Name)
		s.bound = s.paper.Bind(face)
		rules, err := s.shrink("text/css", []byte(s.paper.Heads(face, s.bound.Leaves)))
		if err != nil {
			return nil, fmt.Errorf("running heads: %w", err)
		}
		heads := hashed("binder.css", rules)
		s.heads = heads.Path
		out = append(out, heads)
	}
	return out, nil
}

func hashed(name string, b []byte) File {
	sum := sha256.Sum256(b)
	ext := path.Ext(name)
	return File{"assets/" + strings.TrimSuffix(name, ext) + "-" + hex.EncodeToString(sum[:4]) + ext, b}
}

// redirects leave a page at every id a card had before.
func (s *site) redirects() []File {
	var out []File
	for _, p := range s.binder.Pages {
		for _, was := range p.Was {
			if _, taken := s.binder.Find(was); taken || was == p.ID {
				continue
			}
			to := template.HTMLEscapeString(screen.Href(was+".html", p.ID+".html"))
			title := template.HTMLEscapeString(p.Title)
			out = append(out, File{was + ".html", []byte(`<!doctype html><html lang="en"><head><meta charset="utf-8">` +
				`<title>` + title + `</title><meta http-equiv="refresh" content="0; url=` + to + `"></head>` +
				`<body><p><a href="` + to + `">` + title + `</a></p></body></html>` + "\n")})
		}
	}
	return out
}
