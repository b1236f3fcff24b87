package page

import (
	"slices"

	"wetside/procedures/figure"
)

// Sieve goes through all that a page says, in order. It leaves out what does not hold,
// and shows each piece and figure that stays.
type Sieve struct {
	holds   func(Only) bool        // nil: everything holds
	inline  func(Inline)           // is shown every piece of a text; may be nil
	figures func([]*figure.Record) // is shown every figure: one, or one for each choice; may be nil
	share   func(Text) Text        // is another place of what stays of a text; may be nil
}

// Figures lists the figures that a page shows, in order, with
// repeats: a refused cell counts as showing the figure that it refuses.
func Figures(p Page) []*figure.Record { return FiguresOf(p, -1) }

// FiguresOf lists the figures that a page refers to in one of its choices; -1: in all.
func FiguresOf(p Page, choice int) []*figure.Record {
	var out []*figure.Record
	s := Sieve{
		holds: func(o Only) bool { return o.In(choice) },
		figures: func(list []*figure.Record) {
			if choice >= 0 && len(list) > 1 {
				list = list[min(choice, len(list)-1):][:1]
			}
			out = append(out, list...)
		},
	}
	s.page(p)
	return out
}

// Inlines visits every inline piece of a page.
func Inlines(p Page, visit func(Inline)) {
	s := Sieve{inline: visit}
	s.page(p)
}

func (s *Sieve) page(p Page) Page {
	p.Lead = s.text(p.Lead)
	p.Choices = each(p.Choices, func(c *Choice) { c.Label, c.Picks = s.text(c.Label), s.texts(c.Picks) })
	for _, part := range []*[]Block{&p.Key, &p.Before, &p.Do, &p.Tables, &p.Today, &p.Never, &p.Why, &p.Record} {
		*part = s.blocks(*part)
	}
	return p
}

func (s *Sieve) keeps(o Only) bool { return s.holds == nil || s.holds(o) }

// blocks are the blocks that hold, but for those of which nothing is left.
func (s *Sieve) blocks(list []Block) []Block {
	out := list[:0:0]
	for _, b := range list {
		if !s.keeps(b.When()) {
			continue
		}
		left := b.Sifted(s)
		if b.Empty() || !left.Empty() {
			out = append(out, left)
		}
	}
	return out
}

// text is the text with the pieces that hold.
func (s *Sieve) text(t Text) Text {
	if slices.ContainsFunc(t, func(in Inline) bool { return !s.keeps(in.Only) }) {
		t = slices.DeleteFunc(slices.Clone(t), func(in Inline) bool { return !s.keeps(in.Only) })
	}
	for _, in := range t {
		if s.inline != nil {
			s.inline(in)
		}
		s.figure(in.Figures...)
	}
	if s.share != nil {
		t = s.share(t)
	}
	return t
}

// texts are the lines of which something holds.
func (s *Sieve) texts(list []Text) []Text {
	out := list[:0:0]
	for _, t := range list {
		if left := s.text(t); len(left) > 0 || len(t) == 0 {
			out = append(out, left)
		}
	}
	return out
}

// figure shows a figure: a single one, or one for each choice of the page.
func (s *Sieve) figure(list ...*figure.Record) {
	if s.figures != nil && len(list) > 0 {
		s.figures(list)
	}
}

// rows are the rows that hold, each sifted.
func rows[R interface{ When() Only }](s *Sieve, list []R, sift func(*R)) []R {
	out := list[:0:0]
	for _, r := range list {
		if s.keeps(r.When()) {
			sift(&r)
			out = append(out, r)
		}
	}
	return out
}

// each is a copy of a list, its members sifted in order.
func each[T any](list []T, sift func(*T)) []T {
	out := slices.Clone(list)
	for i := range out {
		sift(&out[i])
	}
	return out
}
