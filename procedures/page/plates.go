package page

// Plates are numbers to call and the like, each in a box of its own. A plate that is a hole
// is an empty box on paper, to write in with a marker.
type Plates struct {
	Only
	Items []Plate
}

// Plate is one box: its word, and what stands in it.
type Plate struct{ Label, Value Text }

// Block implements Block.
func (Plates) Block() string { return "plates" }

// Sifted implements Block.
func (p Plates) Sifted(s *Sieve) Block {
	p.Items = each(p.Items, func(i *Plate) { i.Label, i.Value = s.text(i.Label), s.text(i.Value) })
	return p
}

// Empty implements Block.
func (p Plates) Empty() bool { return len(p.Items) == 0 }

// Said is a line for each plate.
func (p Plates) Said() []Text {
	var out []Text
	for _, i := range p.Items {
		out = append(out, append(append(i.Label[:len(i.Label):len(i.Label)], W(": ")), i.Value...))
	}
	return out
}

// Hole tells a plate that nobody has filled in.
func (p Plate) Hole() bool {
	for _, in := range p.Value {
		if in.Kind != Ask {
			return false
		}
	}
	return true
}
