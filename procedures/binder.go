// Package procedures is the calculation core: Compute turns what a lab has
// declared into the pages of its binder and the figures on them. It is pure:
// no files, no clock, no HTML.
package procedures

import (
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
// gathers what all pages show, counts what nobody vouches for, and adds the working pages.
func (b *Binder) Finish(own ...page.Page) {
	b.Pages = append(b.Pages, own...)
	shown := figure.NewLedger()
	for i := range b.Pages {
		figures := page.Figures(b.Pages[i])
		for _, f := range figures {
			shown.Enter(f)
		}
		b.Pages[i].Foot.Vouched = cards.Vouched(page.Figures(page.Lasting(b.Pages[i])))
	}
	b.Figures = shown.Records()
	for _, p := range b.Pages {
		b.Verdicts = append(b.Verdicts, p.Verdicts...)
	}
	for i := range b.Pages {
		if b.Pages[i].ID == "index" { // the front page counts them all
			b.Pages[i].Foot.Vouched = cards.Vouched(b.Figures)
		}
	}
	b.Pages = append(b.Pages, cards.Workings(shown)...)
}
