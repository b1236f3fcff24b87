package page

// Cautions stand on their own before a run of steps; no face may drop them.
type Cautions struct {
	Only
	Items []Text
}

// Block implements Block.
func (Cautions) Block() string { return "cautions" }

// Sifted implements Block.
func (c Cautions) Sifted(s *Sieve) Block {
	c.Items = s.texts(c.Items)
	return c
}

// Empty implements Block.
func (c Cautions) Empty() bool { return len(c.Items) == 0 }

// Said is the cautions, each in its line.
func (c Cautions) Said() []Text { return c.Items }
