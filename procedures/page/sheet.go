package page

// Sheet is a sheet of labels to cut or to peel. Lengths are in hundredths of a
// millimetre.
type Sheet struct {
	Only
	Paper                string // "a4" or "letter"
	Rows, Columns, Start int
	Width, Height        int
	PitchX, PitchY       int
	Left, Top            int
	Labels               []SheetLabel
}

// SheetLabel is a label on a sheet: its card, and one of its containers or any.
type SheetLabel struct{ Card, For string }

// Block implements Block.
func (Sheet) Block() string { return "sheet" }

// Sifted implements Block.
func (b Sheet) Sifted(*Sieve) Block { return b }

// Empty implements Block.
func (b Sheet) Empty() bool { return len(b.Labels) == 0 }
