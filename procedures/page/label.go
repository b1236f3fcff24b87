package page

import "wetside/procedures/figure"

// Label is what stands on a bottle; drawn in millimetres, not flowed.
type Label struct {
	Only
	Name, Strength string
	Role           Role
	Use            Text
	Hazards        Hazards
	Dates          []Text // mixed on, opened, discard by: blanks or dates
	Lives          []Text // full, part, low: how long each lasts
	// Ladder and Rest stand in the place of Dates and Lives where the label has room: a
	// line for each state of the bottle, and what is no such state.
	Ladder, Rest []Text
	// Advice is what to do and not to do, where the label has room for it.
	Advice []Advice
	Foot   Text
	// For are the containers that it is made for, smallest first.
	For []Container
}

// Advice is what a label tells to do. Brief stands in its place on a label that has no room for all of it;
// empty: such a label says nothing of it.
type Advice struct{ Full, Brief Text }

// Container is a size of bottle or drum that a label is glued to: one drawing.
type Container struct {
	// Name is the word for it in the label's path, such as "500ml".
	Name string
	// Holds is what it holds, or nil, and Ml the same in whole millilitres, rounded up.
	Holds *figure.Record
	Ml    int
	// Tally is a ladder of boxes for a bath that is used again, or none.
	Tally []Ticks
}

// Block implements Block.
func (Label) Block() string { return "label" }

// Sifted implements Block.
func (l Label) Sifted(s *Sieve) Block {
	l.Use, l.Hazards = s.text(l.Use), l.Hazards.sifted(s)
	l.Dates, l.Lives = s.texts(l.Dates), s.texts(l.Lives)
	l.Ladder, l.Rest = s.texts(l.Ladder), s.texts(l.Rest)
	l.Advice, l.Foot = each(l.Advice, func(a *Advice) { a.Full, a.Brief = s.text(a.Full), s.text(a.Brief) }), s.text(l.Foot)
	l.For = each(l.For, func(c *Container) {
		if c.Holds != nil {
			s.figure(c.Holds)
		}
		c.Tally = rows(s, c.Tally, func(t *Ticks) { *t = t.sifted(s) })
	})
	return l
}

// Empty implements Block.
func (l Label) Empty() bool { return l.Name == "" }
