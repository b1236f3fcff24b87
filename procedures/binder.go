// Package procedures is the calculation core: Compute turns what a lab has
// declared into the pages of its binder and the figures on them. It is pure:
// no files, no clock, no HTML.
package procedures

import (
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
	Groups   []page.Group
	Prints   []page.Print
	Figures  []*figure.Record
	Verdicts []figure.Verdict
	// Classifications say what is known of the dangers of every strength.
	Classifications []Classification
	// Holes are those of the whole lab, counted on the front page.
	Holes []page.Hole
	// Paper says how the cards are finished.
	Paper page.Paper
	// Discards are the days on which batches are to be discarded.
	Discards []page.Discard
}
