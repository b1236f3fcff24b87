package view

import (
	"fmt"
	"slices"

	"wetside/build/render/typeset"
	"wetside/build/theme"
	"wetside/procedures"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// Binder is a binder that is shown in a theme. It is only read once its pages are complete.
type Binder struct {
	procedures.Binder
	Theme *theme.Theme
	// Address is where the site will stand, or empty.
	Address string
	pages   map[string]int
}

// NewBinder finds the pages of a binder by their ids. An error is a mistake of the program:
// two pages of one id, or a place for a figure without one.
func NewBinder(b procedures.Binder, t *theme.Theme, address string) (*Binder, error) {
	out := &Binder{Binder: b, Theme: t, Address: address, pages: map[string]int{}}
	out.Pages = nil
	for _, p := range b.Pages {
		if _, ok := out.Find(p.ID); ok {
			return nil, fmt.Errorf("two pages have the id %s", p.ID)
		}
		if lacksFigure(p) {
			return nil, fmt.Errorf("the page %s has a place for a figure and no figure in it", p.ID)
		}
		out.Add(p)
	}
	return out, nil
}

// Add adds a page.
func (b *Binder) Add(p page.Page) {
	b.pages[p.ID] = len(b.Pages)
	b.Pages = append(b.Pages, p)
}

// Find is the page of an id.
func (b *Binder) Find(id string) (page.Page, bool) {
	i, ok := b.pages[id]
	if !ok {
		return page.Page{}, false
	}
	return b.Pages[i], true
}

// View is a page of the binder in a face and a choice.
func (b *Binder) View(p page.Page, f theme.Face, choice int) *View {
	if choice >= 0 && f.Medium != theme.Site { // a sheet vouches for what stands on it
		p.Foot.Vouched = nil
		for _, w := range figure.Unvouched(page.FiguresOf(page.Lasting(p), choice)) {
			p.Foot.Vouched = append(p.Foot.Vouched, page.Vouch{Origin: w.Origin.String(), Count: w.Count})
		}
	}
	shown := page.OnScreen(p, choice)
	if f.Medium != theme.Site {
		shown = page.OnPaper(p, choice)
	}
	return &View{
		Fonts: typeset.FontsOf(b.Theme),
		Page:  shown, Whole: p, Face: f, Paper: b.Paper, Lab: b.Lab, Day: b.Day, Demonstration: b.Demonstration,
		Choice: choice, binder: b,
	}
}

// lacksFigure reports a page on which a figure was left out: a mistake of the program,
// which stops the binder.
func lacksFigure(p page.Page) bool {
	empty := false
	page.Inlines(p, func(i page.Inline) {
		empty = empty || (i.Kind == page.Fig || i.Kind == page.BareFig) && len(i.Figures) == 0
	})
	return empty || slices.Contains(page.Figures(p), nil)
}

// Chosen is the choice a page is shown in where only one can be.
func Chosen(p page.Page) int {
	if len(p.Choices) == 0 {
		return -1
	}
	return min(max(p.Chosen, 0), len(p.Choices)-1)
}

// LabelOf finds the label block of a page.
func LabelOf(p page.Page) (page.Label, bool) { return BlockOf[page.Label](p) }

// BlockOf finds the first block of one kind on a page.
func BlockOf[T page.Block](p page.Page) (T, bool) {
	for _, part := range [][]page.Block{p.Key, p.Before, p.Do, p.Tables, p.Never, p.Why, p.Record} {
		for _, b := range part {
			if t, ok := b.(T); ok {
				return t, true
			}
		}
	}
	var none T
	return none, false
}
