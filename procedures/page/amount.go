package page

// Amount is a labelled figure, set large.
type Amount struct {
	Only
	Label Text
	Value Text
	Note  Text
}

// Block implements Block.
func (Amount) Block() string { return "amount" }

// Sifted implements Block.
func (a Amount) Sifted(s *Sieve) Block {
	a.Label, a.Value, a.Note = s.text(a.Label), s.text(a.Value), s.text(a.Note)
	return a
}

// Empty implements Block.
func (a Amount) Empty() bool { return len(a.Value) == 0 }

// Said is the label and the value in one line.
func (a Amount) Said() []Text {
	line := a.Label[:len(a.Label):len(a.Label)]
	if len(a.Value) > 0 {
		line = append(append(line, W(" ")), a.Value...)
	}
	return []Text{line}
}
