package page

// Block is one typed piece of a part. Every kind has a file of its own in this
// package, with all that the kind knows of itself; some kinds can be cut (Rowed),
// said in words (Worded) or have columns (Columned) besides.
type Block interface {
	// Block is the name of the kind, such as "steps": that of its template and of
	// its entry in each renderer.
	Block() string
	// When is for which choices of the page, and on which days, the block holds.
	When() Only
	// Sifted hands every text, row and figure of the block to the sieve, in the order
	// of its fields, and is what the sieve leaves of the block.
	Sifted(s *Sieve) Block
	// Empty tells that the block says nothing at all.
	Empty() bool
}

// Rowed is a block that paper may cut between its rows.
type Rowed interface {
	Block
	// Len counts the rows.
	Len() int
	// Slice is the block with the rows from, from+1, … to-1 alone.
	Slice(from, to int) Block
}

// Worded is a block that can be said in lines of words, without a drawing or columns.
type Worded interface {
	Block
	Said() []Text
}

// Columned is a block whose rows share columns under headings.
type Columned interface {
	Block
	Columns() (head []Text, rows []Row)
}

// Blocks is one empty block of each kind; a theme has a template for each.
func Blocks() []Block {
	return []Block{
		Amount{}, Para{}, Heading{}, Gear{}, Cautions{}, Checklist{}, Steps{}, Clock{}, Table{}, Temps{}, List{},
		Ticks{}, Chart{}, Blanks{}, Label{}, Sign{}, Symbols{}, Sheet{}, Hazards{}, Links{}, HolesList{}, Discs{},
		Ways{}, Clashes{}, Plates{}, Abreast{},
	}
}

// Said are the lines of words of a block, none where words are not enough for it.
func Said(b Block) []Text {
	if w, ok := b.(Worded); ok {
		return w.Said()
	}
	return nil
}

// Rows counts the rows between which a block may be cut; 0: it stays whole.
func Rows(b Block) int {
	if r, ok := b.(Rowed); ok {
		return r.Len()
	}
	return 0
}
