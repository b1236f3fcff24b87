// Package procedures is the calculation core: Compute turns what a lab has
// declared into the pages of its binder and the figures on them. It is pure:
// no files, no clock, no HTML.
package procedures

import (
	"iter"
	"slices"
	"strings"

	"wetside/procedures/cards"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// Binder is all of a lab's cards on one day, with every figure and verdict on
// them. Order is fixed; equal input and day give an equal binder.
type Binder struct {
	Lab           string
	Day           string // ISO date
	Demonstration bool
	// Address is where the lab says the binder will stand, or empty.
	Address string
	Pages   []page.Page
	// Workings are the working pages besides, each made when it is wanted; they are in
	// the order of their ids.
	Workings []cards.Working
	// Groups are where the pages stand, in the order of the menu.
	Groups []page.Group
	Prints []page.Print
	// Answers are all figures that were worked out, and Figures those of them that the
	// pages show, with everything that led to them.
	Answers, Figures []*figure.Record
	Verdicts         []figure.Verdict
	// Classifications say what is known of the dangers of every strength.
	Classifications []Classification
	// Holes are those of the whole lab, counted on the front page.
	Holes []page.Hole
	// Paper says how the cards are finished.
	Paper page.Paper
	// Discards are the days on which batches are to be discarded.
	Discards []page.Discard
}

// Finish closes the binder: it adds the lab's own pages, which may quote any answer,
// gathers what all pages show, counts what nobody vouches for, and lists the working pages.
func (b *Binder) Finish(own ...page.Page) {
	b.Pages = append(b.Pages, own...)
	shown := figure.NewLedger()
	for i, p := range b.Pages {
		for _, f := range page.Figures(p) {
			shown.Enter(f)
		}
		b.Pages[i].Foot.Vouched = cards.Vouched(page.Figures(page.Lasting(p)))
		b.Verdicts = append(b.Verdicts, p.Verdicts...)
	}
	b.Figures = shown.Records()
	for i, p := range b.Pages {
		if p.ID == "index" { // the front page counts them all
			b.Pages[i].Foot.Vouched = cards.Vouched(b.Figures)
		}
	}
	b.Workings = cards.Workings(b.Figures)
}

// Working makes the working page of an id, such as "why/film-developer.stock".
func (b Binder) Working(id string) (page.Page, bool) {
	i, ok := slices.BinarySearchFunc(b.Workings, id, func(w cards.Working,
		id string) int {
		return strings.Compare(w.ID(), id)
	})
	if !ok {
		return page.Page{}, false
	}
	return b.Workings[i].Page(), true
}

// All yields the pages and then the working pages, of which no two are held at once.
func (b Binder) All() iter.Seq[page.Page] {
	return func(yield func(page.Page) bool) {
		for _, p := range b.Pages {
			if !yield(p) {
				return
			}
		}
		for _, w := range b.Workings {
			if !yield(w.Page()) {
				return
			}
		}
	}
}
