package page

import "wetside/procedures/figure"

// Ticks is a ladder of boxes, one for each piece that a bath treats: a stroke is
// made by pencil.
type Ticks struct {
	Only
	Label Text
	Count *figure.Record // the number of boxes
	Boxes int
	// Done are the boxes already struck, the first of all.
	Done int
}

// Block implements Block.
func (Ticks) Block() string { return "ticks" }

// Sifted implements Block.
func (t Ticks) Sifted(s *Sieve) Block { return t.sifted(s) }

func (t Ticks) sifted(s *Sieve) Ticks {
	s.figure(t.Count)
	t.Label = s.text(t.Label)
	return t
}

// Empty implements Block.
func (t Ticks) Empty() bool { return len(t.Label) == 0 && t.Boxes == 0 }
