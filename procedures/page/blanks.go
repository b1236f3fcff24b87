package page

// Blanks are lines to fill in by pencil.
type Blanks struct {
	Only
	Caption Text
	Head    []Text
	Rows    []Row
	Lines   []Text
}

// Block implements Block.
func (Blanks) Block() string { return "blanks" }

// Sifted implements Block.
func (b Blanks) Sifted(s *Sieve) Block {
	b.Caption, b.Head, b.Rows = s.text(b.Caption), each(b.Head, s.heading), rows(s, b.Rows, s.row)
	b.Lines = s.texts(b.Lines)
	return b
}

// Empty implements Block.
func (b Blanks) Empty() bool { return len(b.Rows) == 0 && len(b.Lines) == 0 }

// Columns implements Columned.
func (b Blanks) Columns() (head []Text, rows []Row) { return b.Head, b.Rows }
