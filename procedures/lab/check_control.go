package lab

import (
	"fmt"
)

// controls checks who answers for each card, and warns where the day of a review
// has passed.
func (c *checker) controls() {
	l := c.lab
	defs := []Def{l.Place.Def, l.Local.Def, l.Store.Def}
	for _, d := range l.Products {
		defs = append(defs, d.Def)
	}
	for _, d := range l.Solutions {
		defs = append(defs, d.Def)
	}
	for _, d := range l.Processes {
		defs = append(defs, d.Def)
	}
	for _, d := range l.Wastes {
		defs = append(defs, d.Def)
	}
	for _, d := range defs {
		own := d.Control
		if own == nil && d.File != l.Place.File {
			continue // what lab.toml says for all is said once, there
		}
		k, ok := l.ControlOf(d)
		if !ok {
			continue
		}
		c.past(k.Date, l.ControlAt(d, "date"), "the date of this card,")
		if !k.Review.IsZero() && !k.Date.IsZero() && k.Review.Before(k.Date) {
			c.add(l.ControlAt(d, "review"), "date", fmt.Sprintf("the review on %s is before the card itself (%s)",
				k.Review, k.Date), "write the day by which somebody looks at it again")
		} else if k.Overdue(c.day) {
			c.problems = append(c.problems, Problem{At: l.ControlAt(d, "review"), Code: "review", Warning: true,
				What: fmt.Sprintf("the review was due on %s", k.Review),
				Hint: "read the card, correct what has changed, and write the next day of review; until then the card says that it is overdue"})
		}
	}
}
