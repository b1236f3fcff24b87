package page

// Abreast sets short pieces beside each other, each under its heading, so that one look
// compares them.
type Abreast struct {
	Only
	Columns []Column
}

// Column is one piece: its heading and its lines.
type Column struct {
	Only
	Head  Text
	Signs []string // pictograms, "GHS07", where there is room
	Items []Text
	// Elsewhere: another card says it large, so that paper without room for it leaves it out.
	Elsewhere bool
}

// Block implements Block.
func (Abreast) Block() string { return "abreast" }

// Sifted implements Block.
func (a Abreast) Sifted(s *Sieve) Block {
	a.Columns = rows(s, a.Columns, func(c *Column) { c.Head, c.Items = s.text(c.Head), s.texts(c.Items) })
	return a
}

// Empty implements Block.
func (a Abreast) Empty() bool { return len(a.Columns) == 0 }

// Said is each piece in one line.
func (a Abreast) Said() []Text {
	var out []Text
	for _, c := range a.Columns {
		out = append(out, oneLine(c.Head, c.Items)...)
	}
	return out
}

// Len implements Rowed.
func (a Abreast) Len() int { return len(a.Columns) }

// Slice implements Rowed.
func (a Abreast) Slice(from, to int) Block {
	a.Columns = a.Columns[from:to]
	return a
}
