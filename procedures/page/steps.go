package page

// Steps are the numbered rows of a mixing card, or the cases of a card for an accident.
type Steps struct {
	Only
	Rows []Step
	// Cases: the rows are cases of which one holds, not an order: no numbers. The
	// Urgent first of them come before what to wear, on a card that is cut.
	Cases  bool
	Urgent int
}

// Step is one row: what, how much, on which device, its cautions and its note (the
// reason). A terminal has the cautions first, a sheet below what they guard.
type Step struct {
	Only
	ID      string
	Caution []Text
	// Part names a case, large at its left, and the amount stands below it; empty: the
	// step is no case.
	Part   Text
	What   Text
	Amount Text // empty: no amount in this row
	Device Text
	Note   []Text
	Tick   bool
	// Mark sets the row apart as the last one: fill to the mark.
	Mark bool
}

// Block implements Block.
func (Steps) Block() string { return "steps" }

// Sifted implements Block.
func (b Steps) Sifted(s *Sieve) Block {
	b.Rows = rows(s, b.Rows, func(r *Step) {
		r.Caution, r.Part, r.What, r.Amount, r.Device = s.texts(r.Caution), s.text(r.Part), s.text(r.What),
			s.text(r.Amount), s.text(r.Device)
		r.Note = s.texts(r.Note)
	})
	return b
}

// Empty implements Block.
func (b Steps) Empty() bool { return len(b.Rows) == 0 }

// Len implements Rowed.
func (b Steps) Len() int { return len(b.Rows) }

// Slice implements Rowed.
func (b Steps) Slice(from, to int) Block {
	b.Rows = b.Rows[from:to]
	return b
}
