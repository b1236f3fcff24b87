package page

import (
	"wetside/procedures/figure"
	"wetside/procedures/series"
)

// Text is a line of inline pieces.
type Text []Inline

// InlineKind tells the pieces of a text apart.
type InlineKind uint8

// The kinds of inline piece.
const (
	// Word is the card's own wording; it never holds a digit.
	Word InlineKind = iota
	// Strong is a Word that matters most in its line.
	Strong
	// Fig is a figure, or one for each choice of the page.
	Fig
	// BareFig is a Fig shown without its unit.
	BareFig
	// Name is a proper name or the lab's own words, digits and all.
	Name
	// Link leads to another card.
	Link
	// File leads to a file that is copied into the binder; Card is its path.
	File
	// Ask is a hole inside a line: a dashed blank with 'ask'.
	Ask
	// Blank is a line for a pencil.
	Blank
)

// Inline is one piece of a text.
type Inline struct {
	Only
	Kind InlineKind
	Text string // words, name, or the text of a link
	Card string // the card that a link leads to, or the path of a file
	// Figures are one figure, or one for each choice of the page.
	Figures []*figure.Record
}

// W is plain wording.
func W(s string) Inline { return Inline{Kind: Word, Text: s} }

// S is strong wording.
func S(s string) Inline { return Inline{Kind: Strong, Text: s} }

// F is a figure with its unit; several, one for each choice of the page.
func F(figures ...*figure.Record) Inline { return Inline{Kind: Fig, Figures: figures} }

// B is a figure without its unit.
func B(figures ...*figure.Record) Inline { return Inline{Kind: BareFig, Figures: figures} }

// N is a name or the lab's own words.
func N(s string) Inline { return Inline{Kind: Name, Text: s} }

// L is a link to a card.
func L(card, text string) Inline { return Inline{Kind: Link, Text: text, Card: card} }

// D leads to a file that is copied into the binder, by its path.
func D(file, text string) Inline { return Inline{Kind: File, Text: text, Card: file} }

// Say joins pieces to a text.
func Say(parts ...Inline) Text { return parts }

// With is the text with every piece of it holding only then.
func (t Text) With(o Only) Text {
	out := make(Text, len(t))
	for i, in := range t {
		in.Only = o
		out[i] = in
	}
	return out
}

// When is when the text holds as a whole: what all its pieces agree on, else always.
func (t Text) When() Only {
	if len(t) == 0 {
		return Only{}
	}
	for _, in := range t[1:] {
		if !in.Only.same(t[0].Only) {
			return Only{}
		}
	}
	return t[0].Only
}

// oneLine puts a list into one line behind its label; without a label every item keeps
// a line of its own.
func oneLine(label Text, items []Text) []Text {
	if len(label) == 0 {
		return items
	}
	return []Text{append(append(label[:len(label):len(label)], W(": ")), InLine(items)...)}
}

// InLine puts several texts into one, parted by commas, or by semicolons where one of them has
// a comma of its own.
func InLine(items []Text) Text {
	var said []string
	for _, t := range items {
		for _, in := range t {
			said = append(said, in.Text)
		}
	}
	return Joined(items, series.Between(said))
}

// Joined puts several texts into one, with the same words between them.
func Joined(items []Text, between string) Text {
	var out Text
	for i, item := range items {
		if i > 0 {
			out = append(out, W(between))
		}
		out = append(out, item...)
	}
	return out
}
