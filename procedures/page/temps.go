package page

import "wetside/procedures/figure"

// Temps is the time at each temperature; cells outside the window are refused.
type Temps struct {
	Only
	Caption Text
	Cells   []Temp
	Note    Text
}

// Temp is one temperature and the time there: one figure for each choice.
type Temp struct {
	At    Text
	Time  []*figure.Record // a refused figure is drawn hatched
	Whole bool             // a whole degree: shown where there is room for few
	Ref   bool             // the temperature the card is written for
}

// Block implements Block.
func (Temps) Block() string { return "temps" }

// Sifted implements Block.
func (t Temps) Sifted(s *Sieve) Block {
	t.Caption = s.text(t.Caption)
	t.Cells = each(t.Cells, func(c *Temp) {
		s.figure(c.Time...)
		c.At = s.text(c.At)
	})
	t.Note = s.text(t.Note)
	return t
}

// Empty implements Block.
func (t Temps) Empty() bool { return len(t.Cells) == 0 }
