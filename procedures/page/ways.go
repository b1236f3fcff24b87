package page

// Ways say where baths go: what goes, and large beside it where to.
type Ways struct {
	Only
	ID      string
	Caption Text
	Rows    []Way
}

// Way is one way of some baths. No: they go nowhere yet, which is drawn hatched. A way
// without To is the list of what goes where the card itself says.
type Way struct {
	Only
	Names []DiscName
	No    bool
	To    Text
	// Over and Under are said small above and below To.
	Over  Text
	Under []Text
}

// Block implements Block.
func (Ways) Block() string { return "ways" }

// Sifted implements Block.
func (w Ways) Sifted(s *Sieve) Block {
	w.Caption = s.text(w.Caption)
	w.Rows = rows(s, w.Rows, func(r *Way) {
		r.Names = each(r.Names, func(n *DiscName) { n.Text, n.Sub = s.text(n.Text), s.text(n.Sub) })
		r.To, r.Over, r.Under = s.text(r.To), s.text(r.Over), s.texts(r.Under)
	})
	return w
}

// Empty implements Block.
func (w Ways) Empty() bool { return len(w.Rows) == 0 }

// Len implements Rowed.
func (w Ways) Len() int { return len(w.Rows) }

// Slice implements Rowed.
func (w Ways) Slice(from, to int) Block {
	w.Rows = w.Rows[from:to]
	return w
}

// Line says a way in words, for a paper that is too small for columns.
func (w Ways) Line(r Way) Text {
	out := named(r.Names)
	if len(r.To) == 0 {
		return out
	}
	out = append(append(out, W(": ")), r.Over...)
	if len(r.Over) > 0 {
		out = append(out, W(" "))
	}
	for _, in := range r.To {
		if in.Kind == Word {
			in.Kind = Strong
		}
		out = append(out, in)
	}
	for _, u := range r.Under {
		out = append(append(out, W(". ")), u...)
	}
	return out
}
