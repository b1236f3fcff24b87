package page

// List is a plain list of lines.
type List struct {
	Only
	Label Text
	Items []Text
	// Lines: every item has a line of its own, inside "never" too.
	Lines bool
	// Large: what it says is read first. Small: it stands behind such a list.
	Large, Small bool
}

// Block implements Block.
func (List) Block() string { return "list" }

// Sifted implements Block.
func (l List) Sifted(s *Sieve) Block {
	l.Label, l.Items = s.text(l.Label), s.texts(l.Items)
	return l
}

// Empty implements Block.
func (l List) Empty() bool { return len(l.Items) == 0 }

// Said is the items, in one line behind their label if they have one.
func (l List) Said() []Text { return oneLine(l.Label, l.Items) }

// RunsIn tells a list whose items may follow its label in one run of words.
func (l List) RunsIn() bool { return len(l.Label) > 0 && !l.Lines && !l.Large && !l.Small }

// Len implements Rowed.
func (l List) Len() int { return len(l.Items) }

// Slice implements Rowed.
func (l List) Slice(from, to int) Block {
	l.Items = l.Items[from:to]
	return l
}
