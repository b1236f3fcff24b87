package page

import "wetside/procedures/figure"

// Table is a table with a caption; cells may be refused or chosen.
type Table struct {
	Only
	ID      string
	Caption Text
	Head    []Text
	Rows    []Row
	// Note stands under the table.
	Note Text
}

// Row is one row of a table; its first cell is the row's heading.
type Row struct {
	Only
	Cells []Cell
}

// Cell is one cell. No: forbidden, drawn hatched with the word NO and Why.
type Cell struct {
	Text Text
	No   bool
	Why  string
	// Refused is the refused figure of a No cell, or nil.
	Refused *figure.Record
	// Chosen marks the one this card is about.
	Chosen bool
	// Large: it answers what the table is asked, and is read first.
	Large bool
}

// Block implements Block.
func (Table) Block() string { return "table" }

// Sifted implements Block.
func (t Table) Sifted(s *Sieve) Block {
	t.Caption, t.Head, t.Rows = s.text(t.Caption), each(t.Head, s.heading), rows(s, t.Rows, s.row)
	t.Note = s.text(t.Note)
	return t
}

// heading sifts the heading of a column: it stays, even with nothing left in it.
func (s *Sieve) heading(t *Text) { *t = s.text(*t) }

// row sifts the cells of a row: each stays in its column, even with nothing left in it.
func (s *Sieve) row(r *Row) {
	r.Cells = each(r.Cells, func(c *Cell) {
		if c.Refused != nil {
			s.figure(c.Refused)
		}
		c.Text = s.text(c.Text)
	})
}

// Empty implements Block.
func (t Table) Empty() bool { return len(t.Rows) == 0 }

// Columns implements Columned.
func (t Table) Columns() (head []Text, rows []Row) { return t.Head, t.Rows }

// Len implements Rowed.
func (t Table) Len() int { return len(t.Rows) }

// Slice implements Rowed; the note stays with the last row.
func (t Table) Slice(from, to int) Block {
	if to < len(t.Rows) {
		t.Note = nil
	}
	t.Rows = t.Rows[from:to]
	return t
}
