package page

import "slices"

// Only says when something on a page holds. The zero value is: always.
type Only struct {
	// For are the numbers of the choices that it holds for, from 0; nil: for all.
	For []int
	// Today: it hangs on the day that the binder is made for. Screens, the terminal and
	// boards of the day show it; other paper does not, nor does it count in the card's
	// fingerprint.
	Today bool
	// Paper: it stands in for what a screen shows of the day, and only paper shows it.
	Paper bool
}

// When is the value itself: what embeds an Only says by it when it holds.
func (o Only) When() Only { return o }

// In tells whether it holds in a choice of the page; -1 stands for all of them.
func (o Only) In(choice int) bool {
	return choice < 0 || o.For == nil || slices.Contains(o.For, choice)
}

func (o Only) same(other Only) bool {
	return o.Today == other.Today && o.Paper == other.Paper && (o.For == nil) == (other.For == nil) &&
		slices.Equal(o.For, other.For)
}

// In is the page in one of its choices, without what holds in others only; -1: the
// page with all of them.
func In(p Page, choice int) Page {
	if choice < 0 {
		return p
	}
	s := Sieve{holds: func(o Only) bool { return o.In(choice) }}
	return s.page(p)
}

// OnPaper is the page as paper shows it in one of its choices: without what holds in
// others only, and unless the card is a board of the day, without what is of today.
func OnPaper(p Page, choice int) Page {
	s := Sieve{holds: func(o Only) bool { return o.In(choice) && (p.OfTheDay() || !o.Today) }}
	return s.page(p)
}

// OnScreen is the page as a screen shows it, in one of its choices or, with -1, in all.
func OnScreen(p Page, choice int) Page {
	s := Sieve{holds: func(o Only) bool { return o.In(choice) && !o.Paper }}
	return s.page(p)
}

// Lasting is the page without what hangs on the day.
func Lasting(p Page) Page {
	p.Today, p.Foot.Overdue = nil, ""
	s := Sieve{holds: func(o Only) bool { return !o.Today }}
	return s.page(p)
}

// OfTheDay tells a board of the day: what stands on the shelf. It is printed anew
// whenever it changes.
func (p Page) OfTheDay() bool { return p.Kind == "shelf" }
