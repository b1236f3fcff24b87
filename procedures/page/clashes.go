package page

// Clashes are pairs that never meet, with what comes of it.
type Clashes struct {
	Only
	ID      string
	Caption Text
	Rows    []Clash
}

// Clash is one row: what never meets what, what comes of it, and small below that what
// there is to say of it. Lesser: it does not kill, explode or burn, and stands smaller.
type Clash struct {
	Only
	These, Those, Gives Text
	Note                Text
	Lesser              bool
	// Deed: Those is what must never be done with These, and no substance.
	Deed bool
}

// Block implements Block.
func (Clashes) Block() string { return "clashes" }

// Sifted implements Block.
func (c Clashes) Sifted(s *Sieve) Block {
	c.Caption = s.text(c.Caption)
	c.Rows = rows(s, c.Rows, func(r *Clash) {
		r.These, r.Those, r.Gives, r.Note = s.text(r.These), s.text(r.Those), s.text(r.Gives), s.text(r.Note)
	})
	return c
}

// Empty implements Block.
func (c Clashes) Empty() bool { return len(c.Rows) == 0 }

// Len implements Rowed.
func (c Clashes) Len() int { return len(c.Rows) }

// Slice implements Rowed.
func (c Clashes) Slice(from, to int) Block {
	c.Rows = c.Rows[from:to]
	return c
}
