package page

// Para is a sentence or two.
type Para struct {
	Only
	Text Text
}

// Block implements Block.
func (Para) Block() string { return "para" }

// Sifted implements Block.
func (p Para) Sifted(s *Sieve) Block {
	p.Text = s.text(p.Text)
	return p
}

// Empty implements Block.
func (p Para) Empty() bool { return len(p.Text) == 0 }

// Said is the sentence itself.
func (p Para) Said() []Text { return []Text{p.Text} }
