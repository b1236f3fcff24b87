package page

// HolesList shows the holes of this page where the work is done.
type HolesList struct {
	Only
	Items []Hole
}

// Block implements Block.
func (HolesList) Block() string { return "holes" }

// Sifted implements Block.
func (h HolesList) Sifted(*Sieve) Block { return h }

// Empty implements Block.
func (h HolesList) Empty() bool { return len(h.Items) == 0 }

// Said is the holes, each in its line.
func (h HolesList) Said() []Text {
	var out []Text
	for _, hole := range h.Items {
		out = append(out, Say(S("ask: "), N(hole.What)))
	}
	return out
}
