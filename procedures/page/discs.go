package page

// Discs is what each row asks to wear: a column for every piece, and a disc where a row
// asks for it.
type Discs struct {
	Only
	ID      string
	Caption Text
	Pieces  []Piece
	Rows    []DiscRow
}

// Piece heads a column. Sign is the safety sign's code, such as "M009"; where there is
// none, Mark stands in the cells.
type Piece struct{ Sign, Word, Mark string }

// DiscRow is what one job asks for, or what one job asks for with the baths of the row.
type DiscRow struct {
	Only
	Names []DiscName
	// Ask is what nobody has looked up: the row asks for everything, and is a hole.
	Ask Text
	// Cells are one for each piece.
	Cells []Disc
}

// DiscName is one of the names of a row, a line for each. Sub is said small behind it.
type DiscName struct {
	Role Role
	Text Text
	Sub  Text
}

// Disc is one cell: whether the piece is worn, and which sort of it, or when alone.
type Disc struct {
	Worn bool
	Word string
}

// Block implements Block.
func (Discs) Block() string { return "discs" }

// Sifted implements Block.
func (d Discs) Sifted(s *Sieve) Block {
	d.Caption = s.text(d.Caption)
	d.Rows = rows(s, d.Rows, func(r *DiscRow) {
		r.Names = each(r.Names, func(n *DiscName) { n.Text, n.Sub = s.text(n.Text), s.text(n.Sub) })
		r.Ask = s.text(r.Ask)
	})
	return d
}

// Empty implements Block.
func (d Discs) Empty() bool { return len(d.Rows) == 0 }

// Len implements Rowed.
func (d Discs) Len() int { return len(d.Rows) }

// Slice implements Rowed.
func (d Discs) Slice(from, to int) Block {
	d.Rows = d.Rows[from:to]
	return d
}

// Line says a row in words, for a paper that is too small for columns.
func (d Discs) Line(r DiscRow) Text {
	out := named(r.Names)
	out = append(out, W(": "))
	if len(r.Ask) > 0 {
		out = append(append(out, r.Ask...), W("; "))
	}
	first := true
	for i, c := range r.Cells {
		if !c.Worn {
			continue
		}
		if !first {
			out = append(out, W(", "))
		}
		first = false
		out = append(out, S(d.Pieces[i].Word))
		if c.Word != "" {
			out = append(out, N(" ("+c.Word+")"))
		}
	}
	return out
}

// named are names in a run of words.
func named(names []DiscName) Text {
	var out Text
	for i, n := range names {
		if i > 0 {
			out = append(out, W(", "))
		}
		out = append(out, n.Text...)
		if len(n.Sub) > 0 {
			out = append(append(append(out, W(" (")), n.Sub...), W(")"))
		}
	}
	return out
}
