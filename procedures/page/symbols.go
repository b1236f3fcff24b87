package page

// Symbols is a sheet of the signs and pictograms, each with its word.
type Symbols struct {
	Only
	Items []Symbol
}

// Symbol is one sign by its code, such as "GHS05", what is drawn on it, its word
// and what it stands for.
type Symbol struct{ Code, Shows, Word, Stands string }

// Block implements Block.
func (Symbols) Block() string { return "symbols" }

// Sifted implements Block.
func (b Symbols) Sifted(*Sieve) Block { return b }

// Empty implements Block.
func (b Symbols) Empty() bool { return len(b.Items) == 0 }
