package page

import "wetside/procedures/figure"

// Clock is the running order of a process.
type Clock struct {
	Only
	Rows []ClockRow
}

// ClockRow is one step of a process against the clock.
type ClockRow struct {
	Only
	ID      string
	Caution []Text
	At      Text // clock at pour-in; "then" where the clock has stopped
	Drain   Text
	Role    Role
	Word    Text
	Bath    Text // what is in the vessel: 300 ml stock, water to 600 ml
	Cue     Text // what the hands do
	Light   Text
	For     Text // how long
	ForNote Text
	Goes    Text // where the bath goes afterwards
	Ruler   Ruler
	Gate    bool // a step that must not be shortened
}

// Ruler is the agitation timeline of a step, drawn to scale in seconds.
// Each field holds one figure for each choice of the page, or none.
type Ruler struct {
	Length []*figure.Record // time figures: the whole step
	First  []*figure.Record // time figures: the first agitation ends
	Marks  []*figure.Record // series figures: when each later agitation begins
	Lasts  []*figure.Record // time figures: how long each lasts
	Drain  []*figure.Record // time figures: draining begins
}

// Block implements Block.
func (Clock) Block() string { return "clock" }

// Sifted implements Block.
func (b Clock) Sifted(s *Sieve) Block {
	b.Rows = rows(s, b.Rows, func(r *ClockRow) {
		r.Caution, r.At, r.Drain, r.Word = s.texts(r.Caution), s.text(r.At), s.text(r.Drain), s.text(r.Word)
		r.Bath, r.Cue, r.Light = s.text(r.Bath), s.text(r.Cue), s.text(r.Light)
		r.For, r.ForNote, r.Goes = s.text(r.For), s.text(r.ForNote), s.text(r.Goes)
		for _, list := range [][]*figure.Record{r.Ruler.Length, r.Ruler.First, r.Ruler.Marks, r.Ruler.Lasts,
			r.Ruler.Drain} {
			s.figure(list...)
		}
	})
	return b
}

// Empty implements Block.
func (b Clock) Empty() bool { return len(b.Rows) == 0 }

// Len implements Rowed.
func (b Clock) Len() int { return len(b.Rows) }

// Slice implements Rowed.
func (b Clock) Slice(from, to int) Block {
	b.Rows = b.Rows[from:to]
	return b
}
