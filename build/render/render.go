// Package render turns a binder into files: the site, its cards for paper and
// the terminal's text. It formats no number: digits come from figures.
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
	"wetside/build/render/text"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures"
	"wetside/procedures/page"
)

// Emergency is the id of the card that is one tap away from every page.
const Emergency = "board/emergency"

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

// site is what all pages of one rendering share. It is only read once made.
type site struct {
	binder   *view.Binder
	drawer   *labels.Drawer
	paper    *paper.Papers
	options  Options
	working  map[string]bool // ids of working pages
	prints   []paper.Print
	printsOf map[string][]int  // by the id of their page
	leaves   []paper.Leaf      // the sheets of binder.html
	contents [][][]paper.Entry // what its list of contents says, by sheet and column
	heads    string            // the path of its stylesheet
	nav      []navGroup
	style    string
	script   string
	min      *minify.M
}

type navGroup struct {
	page.Group
	Card string
}

// Terminal writes a page as plain text, in one of its choices, in lines of at most width letters.
func Terminal(p page.Page, choice, width int) string { return text.Card(p, choice, width) }

// Plan is a binder ready to be rendered: it is known which files there will be and
// what stands on which paper.
type Plan struct {
	// Fitted are the prints that do not simply fit their paper, and what was done.
	Fitted []paper.Fitted
	site   *site
	jobs   []job
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
	p.jobs = slices.Insert(p.jobs, 0, job{path: path, write: write})
}

// Paths are the paths of all files, in order.
func (p *Plan) Paths() []string {
	var out []string
	for _, j := range p.jobs {
		out = append(out, j.path)
	}
	for _, f := range p.ready {
		out = append(out, f.Path)
	}
	slices.Sort(out)
	return out
}

// Render hands over every file once, in no order and from several goroutines at once;
// write writes the file's bytes, which are always the same for equal input. What put
// does not keep is kept nowhere. After a failure no further file is begun.
func (p *Plan) Render(put func(path string, write func(io.Writer) error) error) error {
	paths := p.Paths()
	for i := 1; i < len(paths); i++ {
		if paths[i] == paths[i-1] {
			return fmt.Errorf("two files want the path %s", paths[i])
		}
	}
	hand := func(path string, pieces ...[]byte) error {
		return put(path, func(w io.Writer) error {
			for _, b := range pieces {
				if _, err := w.Write(b); err != nil {
					return err
				}
			}
			return nil
		})
	}
	do := func(j job) error {
		if j.write != nil {
			return put(j.path, j.write)
		}
		pieces, err := p.site.run(j)
		if err != nil {
			return err
		}
		return hand(j.path, pieces...)
	}
	faults := make([]error, len(p.jobs))
	var failed atomic.Bool
	parallel.Each(len(p.jobs), func(i int) {
		if failed.Load() {
			return
		}
		if faults[i] = do(p.jobs[i]); faults[i] != nil {
			failed.Store(true)
		}
	})
	if err := errors.Join(faults...); err != nil {
		return err
	}
	for _, f := range p.ready {
		if err := hand(f.Path, f.Bytes); err != nil {
			return err
		}
	}
	return nil
}

func newSite(b procedures.Binder, t *theme.Theme, o Options) (*site, error) {
	pages, err := view.NewBinder(b, t, o.Address)
	if err != nil {
		return nil, err
	}
	s := &site{binder: pages, drawer: labels.NewDrawer(pages), paper: paper.Of(pages), options: o,
		working: map[string]bool{}, printsOf: map[string][]int{}}
	if o.Minify {
		s.min = minify.New()
		s.min.Add("text/html", &html.Minifier{
			KeepDocumentTags: true, KeepEndTags: true, KeepQuotes: true, KeepDefaultAttrVals: true,
		})
		s.min.AddFunc("text/css", css.Minify)
		s.min.Add("application/javascript", &js.Minifier{KeepVarNames: true})
	}
	for _, w := range b.Workings {
		s.working[w.ID()] = true
	}
	s.addGroups()
	return s, nil
}

// place decides on every print.
func (s *site) place() (fitted []paper.Fitted, err error) {
	s.prints, fitted, err = s.paper.Place()
	for i, p := range s.prints {
		s.printsOf[p.Page.ID] = append(s.printsOf[p.Page.ID], i)
	}
	return fitted, err
}

// addGroups gives every group of several pages an index page, unless it has
// one, and lists the groups for the navigation.
func (s *site) addGroups() {
	members := map[string][]int{}
	for i, p := range s.binder.Pages {
		if g, _, ok := strings.Cut(p.ID, "/"); ok {
			members[g] = append(members[g], i)
		}
	}
	for _, g := range s.binder.Groups {
		in := members[g.ID]
		if len(in) == 0 {
			continue
		}
		card := g.ID + "/index"
		if _, ok := s.binder.Find(card); !ok && len(in) == 1 {
			card = s.binder.Pages[in[0]].ID
		} else if !ok {
			list := page.Links{}
			for _, i := range in {
				p := s.binder.Pages[i]
				list.Entries = append(list.Entries, page.Entry{Card: p.ID, Title: p.Title, Sub: p.Lead})
			}
			s.binder.Add(page.Page{
				ID: card, Kind: "index", Title: g.Word, Lead: page.Say(page.W(g.Sub)), Do: []page.Block{list},
			})
		}
		s.nav = append(s.nav, navGroup{g, card})
	}
}

// job is one file to render.
type job struct {
	path    string
	face    theme.Face
	page    *page.Page
	choice  int
	bottle  string // the container of a label
	print   *paper.Print
	working string                // set: the id of a working page, which is made when it is rendered
	whole   bool                  // the whole binder in one document
	write   func(io.Writer) error // set: a file that is made elsewhere
}

func (s *site) jobs() ([]job, error) {
	screen, ok := s.binder.Theme.Face("screen")
	if !ok {
		return nil, errors.New("the theme has no face screen")
	}
	var jobs []job
	if face, ok := s.binder.Theme.Face("binder"); ok { // by far the longest: it comes first
		jobs = append(jobs, job{path: "binder.html", face: face, whole: true})
	}
	for i := range s.binder.Pages {
		p := &s.binder.Pages[i]
		face := screen
		if _, ok := view.BlockOf[page.Sheet](*p); ok {
			if face, ok = s.binder.Theme.Face("sheet"); !ok {
				return nil, errors.New("the theme has no face sheet")
			}
		}
		jobs = append(jobs, job{path: p.ID + ".html", face: face, page: p, choice: -1})
	}
	for _, w := range s.binder.Workings {
		jobs = append(jobs, job{path: w.ID() + ".html", face: screen, working: w.ID(), choice: -1})
	}
	for i, pr := range s.prints {
		jobs = append(jobs, job{path: pr.Path, face: pr.Face, page: &s.prints[i].Page, choice: pr.Choice,
			print: &s.prints[i]})
	}
	for i := range s.binder.Pages {
		p := &s.binder.Pages[i]
		if face, ok := s.binder.Theme.Face("sign"); ok {
			if sign, ok := view.BlockOf[page.Sign](*p); ok {
				jobs = append(jobs, job{path: labels.SignPath(face, p.ID, sign), face: face, page: p, choice: -1})
			}
		}
		l, ok := view.LabelOf(*p)
		face, drawn := s.binder.Theme.Face("label")
		if !ok || !drawn {
			continue
		}
		for _, c := range l.For {
			jobs = append(jobs, job{path: labels.Path(face, p.ID, c), face: face, page: p, choice: view.Chosen(*p),
				bottle: c.Name})
		}
	}
	return jobs, nil
}

// frame is what page.html is given.
type frame struct {
	*shown
	Heading string
	Style   string
	Sheets  []string
	Script  string
	Address string
	Body    template.HTML
}

// run renders a file, in pieces that follow each other.
func (s *site) run(j job) (pieces [][]byte, err error) {
	switch {
	case j.whole:
		pieces, err = s.wholeBinder(j.face, j.path)
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

func (s *site) one(w *bytes.Buffer, j job) error {
	v := s.on(s.binder.View(*j.page, j.face, j.choice), j.path)
	v.container = j.bottle
	body, err := s.sheets(v, j.print)
	if err != nil {
		return err
	}
	title := v.Page.Title
	if j.page.ID != "index" && s.binder.Lab != "" {
		title += " · " + s.binder.Lab
	}
	return s.finish(w, v, title, nil, body)
}

// sheets writes a page, or each card of one that is cut over several.
func (s *site) sheets(v *shown, pr *paper.Print) (template.HTML, error) {
	if pr == nil || len(pr.Sheets) < 2 {
		if pr != nil {
			v.Scale, v.Close = pr.Scale, pr.Close
		}
		return v.execute(v.Face.Template, v)
	}
	var all template.HTML
	for i, p := range pr.Sheets {
		w := s.on(s.binder.View(p, v.Face, v.Choice), v.path)
		w.Cut, w.Cuts, w.Scale, w.Steps, w.Symbols = i+1, len(pr.Sheets), pr.Scale, pr.Steps[i], v.Symbols
		body, err := w.execute(v.Face.Template, w)
		if err != nil {
			return "", err
		}
		all += body
		v.Symbols = w.Symbols
	}
	return all, nil
}

func (s *site) finish(w *bytes.Buffer, v *shown, title string, sheets []string, body template.HTML) error {
	f := frame{shown: v, Heading: title, Style: v.Href(s.style), Script: v.Href(s.script), Body: body}
	for _, sheet := range sheets {
		f.Sheets = append(f.Sheets, v.Href(sheet))
	}
	if s.options.Address != "" {
		f.Address = strings.TrimSuffix(s.options.Address, "/") + "/" + v.path
	}
	return s.binder.Theme.Execute(w, "page.html", f)
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
	sheet += choiceRules(s.binder.Pages)
	style, err := s.shrink("text/css", []byte(sheet))
	if err != nil {
		return nil, fmt.Errorf("stylesheet: %w", err)
	}
	script, err := s.shrink("application/javascript", s.binder.Theme.Script)
	if err != nil {
		return nil, fmt.Errorf("script: %w", err)
	}
	styleFile, scriptFile := hashed("style.css", style), hashed("ground.js", script)
	s.style, s.script = styleFile.Path, scriptFile.Path
	out = append(out, styleFile, scriptFile)
	if face, ok := s.binder.Theme.Face("binder"); ok {
		face, _ = s.paper.Face(face.Name)
		s.leaves, s.contents = s.paper.Bind(face)
		rules, err := s.shrink("text/css", []byte(s.paper.Heads(face, s.leaves)))
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
			to := template.HTMLEscapeString(href(was+".html", p.ID+".html"))
			title := template.HTMLEscapeString(p.Title)
			out = append(out, File{was + ".html", []byte(`<!doctype html><html lang="en"><head><meta charset="utf-8">` +
				`<title>` + title + `</title><meta http-equiv="refresh" content="0; url=` + to + `"></head>` +
				`<body><p><a href="` + to + `">` + title + `</a></p></body></html>` + "\n")})
		}
	}
	return out
}

// href is the way from one file of the site to another.
func href(from, to string) string {
	up := strings.Count(from, "/")
	to, anchor, has := strings.Cut(to, "#")
	var b strings.Builder
	for range up {
		b.WriteString("../")
	}
	b.WriteString(view.EscapePath(to))
	if has {
		b.WriteString("#" + view.EscapePath(anchor))
	}
	return b.String()
}
