package page

// Checklist is a row of things to have ready.
type Checklist struct {
	Only
	Label Text
	Items []Text
}

// Block implements Block.
func (Checklist) Block() string { return "checklist" }

// Sifted implements Block.
func (c Checklist) Sifted(s *Sieve) Block {
	c.Label, c.Items = s.text(c.Label), s.texts(c.Items)
	return c
}

// Empty implements Block.
func (c Checklist) Empty() bool { return len(c.Items) == 0 }

// Said is the things behind their label, in one line.
func (c Checklist) Said() []Text { return oneLine(c.Label, c.Items) }
