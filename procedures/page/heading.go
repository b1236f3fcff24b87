package page

// Heading opens a run of blocks inside a part. ID is its anchor, or empty.
type Heading struct {
	Only
	ID   string
	Text Text
}

// Block implements Block.
func (Heading) Block() string { return "heading" }

// Sifted implements Block.
func (h Heading) Sifted(s *Sieve) Block {
	h.Text = s.text(h.Text)
	return h
}

// Empty implements Block.
func (h Heading) Empty() bool { return len(h.Text) == 0 }

// Said is the heading itself.
func (h Heading) Said() []Text { return []Text{h.Text} }
