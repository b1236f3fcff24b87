// Package screen puts pages through the templates of the theme: what is read on a screen, with
// its choices and its ways to other pages, and the cards that a browser prints from the same
// templates. Templates call the methods of shown and of blockView.
package screen

import (
	"html/template"
	"io"
	"strings"

	"wetside/build/render/labels"
	"wetside/build/render/paper"
	"wetside/build/render/view"
	"wetside/procedures/page"
)

// Emergency is the id of the card that is one tap away from every page.
const Emergency = "board/emergency"

// Pages shows the pages of one binder. It is only read once its prints and its files are set.
type Pages struct {
	binder   *view.Binder
	drawer   *labels.Drawer
	leftOut  func(labels []string) // told what a sheet of labels has no room for; may be nil
	working  map[string]bool       // ids of working pages
	prints   []paper.Print
	printsOf map[string][]int // by the id of their page
	nav      []navGroup
	// Style and script are the paths of the files that all pages share.
	Style, Script string
}

// navGroup is a group of pages and the card that leads to them.
type navGroup struct {
	page.Group
	Card string
}

// New shows the pages of a binder, and gives it an index page for every group that wants
// one. leftOut is told the labels that are too large for a sheet of labels; it may be nil.
func New(b *view.Binder, leftOut func(labels []string)) *Pages {
	s := &Pages{binder: b, drawer: labels.NewDrawer(b), leftOut: leftOut, working: map[string]bool{}}
	for _, w := range b.Workings {
		s.working[w.ID()] = true
	}
	s.addGroups()
	return s
}

// SetPrints tells which prints there are, so that pages lead to theirs.
func (s *Pages) SetPrints(list []paper.Print) {
	s.prints, s.printsOf = list, map[string][]int{}
	for i, p := range list {
		s.printsOf[p.Page.ID] = append(s.printsOf[p.Page.ID], i)
	}
}

// addGroups gives every group of several pages an index page, unless it has
// one, and lists the groups for the navigation.
func (s *Pages) addGroups() {
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

// Body writes a page into the file of that path, or each card of a print that is cut over
// several; on a drawn face, the drawing for the container of that name.
func (s *Pages) Body(v *view.View, path, container string, pr *paper.Print) (template.HTML, error) {
	if pr == nil || len(pr.Sheets) < 2 {
		if pr != nil {
			v.Scale, v.Close, v.Tight = pr.Scale, pr.Close, pr.Tight
		}
		all := s.on(v, path)
		all.container = container
		return all.execute(v.Face.Template, all)
	}
	var all template.HTML
	for i, p := range pr.Sheets {
		w := s.on(s.binder.View(p, v.Face, v.Choice), path)
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

// Document writes a whole document around a body, with further stylesheets by their paths.
func (s *Pages) Document(w io.Writer, v *view.View, path, title string, sheets []string, body template.HTML) error {
	f := frame{shown: s.on(v, path), Heading: title, Body: body}
	f.Style, f.Script = f.Href(s.Style), f.Href(s.Script)
	for _, sheet := range sheets {
		f.Sheets = append(f.Sheets, f.Href(sheet))
	}
	if s.binder.Address != "" {
		f.Address = strings.TrimSuffix(s.binder.Address, "/") + "/" + path
	}
	return s.binder.Theme.Execute(w, "page.html", f)
}

// Href is the way from one file of the site to another.
func Href(from, to string) string {
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

// on shows a view in a file of the site.
func (s *Pages) on(v *view.View, path string) *shown {
	return &shown{View: v, pages: s, path: path, size: v.Face.Size}
}
