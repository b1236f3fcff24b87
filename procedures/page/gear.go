package page

// Gear is what to wear, each item with its sign, its word and its reason.
type Gear struct {
	Only
	Job   string
	Items []GearItem
	Note  Text
	// Basis is what the choice rests on, said where there is room for it.
	Basis Text
}

// GearItem is one thing to wear or to have. Sign is the safety sign's code in
// ISO 7010, such as "M009", or empty.
type GearItem struct {
	Sign, Word string
	Why        Text
}

// Block implements Block.
func (Gear) Block() string { return "gear" }

// Sifted implements Block.
func (g Gear) Sifted(s *Sieve) Block {
	g.Items = each(g.Items, func(i *GearItem) { i.Why = s.text(i.Why) })
	g.Note, g.Basis = s.text(g.Note), s.text(g.Basis)
	return g
}

// Empty implements Block.
func (g Gear) Empty() bool { return len(g.Items) == 0 && len(g.Note) == 0 && len(g.Basis) == 0 }

// Said is the words of what to wear in one line.
func (g Gear) Said() []Text {
	if len(g.Items) == 0 {
		return nil
	}
	line := Say(S("Wear: "))
	for i, item := range g.Items {
		if i > 0 {
			line = append(line, W(", "))
		}
		line = append(line, W(item.Word))
	}
	return []Text{line}
}
