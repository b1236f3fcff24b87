package page

import (
	"hash/maphash"
	"slices"
)

// Sharer keeps each text of many pages once: cards repeat each other, as what is worn for a
// bath stands on its mixing card, its labels and the sheet of its dangers.
type Sharer struct {
	seed  maphash.Seed
	texts map[uint64][]Text
}

// NewSharer returns a sharer that has seen no text yet.
func NewSharer() *Sharer { return &Sharer{maphash.MakeSeed(), map[uint64][]Text{}} }

// Page is the page with those texts that other pages have as well in one place with theirs.
func (s *Sharer) Page(p Page) Page {
	all := Sieve{share: s.text}
	return all.page(p)
}

func (s *Sharer) text(t Text) Text {
	if len(t) == 0 {
		return t
	}
	var h maphash.Hash
	h.SetSeed(s.seed)
	for _, in := range t {
		h.WriteByte(byte(in.Kind))
		h.WriteString(in.Text)
		for _, f := range in.Figures {
			if f != nil {
				h.WriteString(f.ID)
			}
		}
	}
	key := h.Sum64()
	for _, had := range s.texts[key] {
		if had.same(t) {
			return had
		}
	}
	t = slices.Clip(slices.Clone(t))
	s.texts[key] = append(s.texts[key], t)
	return t
}

// same tells whether two texts are one, piece by piece.
func (t Text) same(other Text) bool {
	return slices.EqualFunc(t, other, func(a, b Inline) bool {
		return a.Kind == b.Kind && a.Text == b.Text && a.Card == b.Card && a.Only.same(b.Only) &&
			(a.Figures == nil) == (b.Figures == nil) && slices.Equal(a.Figures, b.Figures)
	})
}
