package page

// Links is a list of cards, for the front page and indexes.
type Links struct {
	Only
	Label   Text
	Entries []Entry
	// Counts: each value is a count that stands large before its title.
	Counts bool
	// Prints: each entry says which of its cards are there to print.
	Prints bool
}

// Entry is one line of an index.
type Entry struct {
	Card, Title string
	Sub         Text
	Value       Text
	Anchor      string
}

// Block implements Block.
func (Links) Block() string { return "links" }

// Sifted implements Block.
func (l Links) Sifted(s *Sieve) Block {
	l.Label = s.text(l.Label)
	l.Entries = each(l.Entries, func(e *Entry) { e.Sub, e.Value = s.text(e.Sub), s.text(e.Value) })
	return l
}

// Empty implements Block.
func (l Links) Empty() bool { return len(l.Entries) == 0 }
