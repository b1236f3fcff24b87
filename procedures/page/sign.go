package page

// Sign is a sheet read from afar: the letters of a tray, a tag, a shelf edge.
type Sign struct {
	Only
	// Form is "tray", "tag" or "shelf".
	Form string
	// Letters are what is read first; a name of the house, digits and all.
	Letters string
	Role    Role
	Under   []Text
	// Blanks are lines for a pencil.
	Blanks []Text
}

// Block implements Block.
func (Sign) Block() string { return "sign" }

// Sifted implements Block.
func (b Sign) Sifted(s *Sieve) Block {
	b.Under, b.Blanks = s.texts(b.Under), s.texts(b.Blanks)
	return b
}

// Empty implements Block.
func (b Sign) Empty() bool { return b.Letters == "" }
