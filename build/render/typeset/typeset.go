// Package typeset breaks texts into lines by the widths of the face for paper. It measures
// only: what is drawn, and what is reckoned before it is printed, are broken alike.
package typeset

import (
	"math"
	"slices"
	"strings"

	"wetside/build/render/wording"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// Point is the unit of type in mm.
const Point = 25.4 / 72

// Piece is a stretch of text in one style, and the figure it comes from.
type Piece struct {
	Text string
	Bold bool
	ID   string  // of its figure, or empty
	Hole bool    // what is asked for, or left to be written by hand
	Name bool    // a name: no letter of it is ours
	Weak bool    // the letter of a weak origin
	Grow float64 // its size beside the text around it; 0: the same
}

// Times is the size of the piece beside the text around it.
func (p Piece) Times() float64 {
	if p.Grow == 0 {
		return 1
	}
	return p.Grow
}

// like tells whether two pieces look alike and belong to the same figure.
func (p Piece) like(q Piece) bool {
	return p.Bold == q.Bold && p.ID == q.ID && p.Hole == q.Hole && p.Name == q.Name && p.Weak == q.Weak
}

// Pieces flattens a text for drawing, in one choice; blanks become runs of a dash that the
// drawing replaces by a line.
func Pieces(t page.Text, choice int, bold bool) []Piece { return AppendPieces(nil, t, choice, bold) }

// AppendPieces adds the pieces of a text to others.
func AppendPieces(out []Piece, t page.Text, choice int, bold bool) []Piece {
	out = slices.Grow(out, len(t))
	for _, in := range t {
		switch in.Kind {
		case page.Fig, page.BareFig:
			r := wording.Pick(in.Figures, choice)
			out = append(out, Piece{Text: wording.Shown(r, in.Kind == page.BareFig), Bold: true, ID: r.ID})
			if r.Origin.Weak() {
				out = append(out, Piece{Text: "\u00a0" + wording.Mark(r.Origin.String()), Weak: true})
			}
		case page.Strong:
			out = append(out, Piece{Text: wording.KeepUnits(in.Text), Bold: true})
		case page.Ask:
			out = append(out, Piece{Text: strings.TrimSpace("ask " + in.Text), Bold: bold, Hole: true})
		case page.Blank:
			out = append(out, Piece{Text: "________", Bold: bold, Hole: true})
		default:
			out = append(out, Piece{Text: wording.KeepUnits(in.Text), Bold: bold, Name: in.Kind != page.Word})
		}
	}
	return out
}

// Fonts are the two weights of the face for paper.
type Fonts struct{ text, strong *theme.Widths }

// FontsOf are the fonts of a theme.
func FontsOf(t *theme.Theme) Fonts { return Fonts{&t.Text, &t.Strong} }

func (f Fonts) weight(bold bool) *theme.Widths {
	if bold {
		return f.strong
	}
	return f.text
}

// Measure is the width of a text, a little on the safe side, in the unit of size.
func (f Fonts) Measure(s string, bold bool, size float64) float64 {
	return f.scaled(f.weight(bold).Sum(s), size)
}

// scaled is a width in thousandths of the size of type in the unit of size, a little on the
// safe side.
func (f Fonts) scaled(thousandths int, size float64) float64 {
	const safe = 1.005
	return theme.Scaled(thousandths, size) * safe
}

// stretch is a part of a piece, with at most one space, at its end: a word, or what of a word
// stands in one style.
type stretch struct {
	piece, from, to int
	wide, bare      int // with and without that space, in thousandths of the size of type
}

// Wrap breaks pieces into lines no wider than width, which has the unit of size. A word
// that is wider is broken where the line ends.
func (f Fonts) Wrap(pieces []Piece, size, width float64) [][]Piece {
	var lines [][]Piece
	var line []Piece
	var few [8]stretch
	run := few[:0] // what follows each other in one style
	end := func() {
		if len(run) > 0 {
			line = append(line, joined(pieces, run))
			run = run[:0]
		}
	}
	flush := func() {
		end()
		if len(line) > 0 {
			last := &line[len(line)-1]
			last.Text = strings.TrimRight(last.Text, " ")
			lines = append(lines, line)
		}
		line = nil
	}
	f.set(pieces, size, width, func(s stretch, begins bool) {
		if begins {
			flush()
		} else if len(run) > 0 && !pieces[run[0].piece].like(pieces[s.piece]) {
			end()
		}
		if n := len(run); n > 0 && run[n-1].piece == s.piece && run[n-1].to == s.from {
			run[n-1].to = s.to
			return
		}
		run = append(run, s)
	})
	flush()
	return lines
}

// joined is the piece that a run of stretches in one style makes.
func joined(pieces []Piece, run []stretch) Piece {
	out := pieces[run[0].piece]
	if len(run) == 1 {
		out.Text = out.Text[run[0].from:run[0].to]
		return out
	}
	var b strings.Builder
	for _, s := range run {
		b.WriteString(pieces[s.piece].Text[s.from:s.to])
	}
	out.Text = b.String()
	return out
}

// Lines counts the lines that Wrap makes.
func (f Fonts) Lines(pieces []Piece, size, width float64) int {
	n := 0
	f.set(pieces, size, width, func(_ stretch, begins bool) {
		if begins || n == 0 {
			n++
		}
	})
	return n
}

// set sets pieces word by word on lines no wider than width. It hands over every stretch in
// turn, and tells whether another line begins with it.
func (f Fonts) set(pieces []Piece, size, width float64, put func(s stretch, begins bool)) {
	room, begun := width, false
	line := func(word []stretch) {
		need := 0.0
		for _, s := range word {
			need += f.scaled(s.bare, size*pieces[s.piece].Times())
		}
		begins := need > room && begun
		if begins {
			room = width
		}
		for _, s := range word {
			room -= f.scaled(s.wide, size*pieces[s.piece].Times())
			put(s, begins)
			begins, begun = false, true
		}
	}
	var few [8]stretch
	for piece, from := 0, 0; ; {
		var word []stretch
		if word, piece, from = f.word(pieces, piece, from, few[:0]); len(word) == 0 {
			return
		}
		need := 0.0
		for _, s := range word {
			need += f.scaled(s.bare, size*max(pieces[s.piece].Grow, 1))
		}
		if need <= width || width <= size {
			line(word)
			continue
		}
		for _, part := range f.broken(pieces, word, size, width) {
			line(part)
		}
	}
}

// broken breaks a word that is wider than a line, where the line ends.
func (f Fonts) broken(pieces []Piece, word []stretch, size, width float64) [][]stretch {
	var out [][]stretch
	var part []stretch
	at := 0.0
	for _, s := range word {
		p := pieces[s.piece]
		from := s.from
		for i, r := range p.Text[s.from:s.to] {
			i += s.from
			wide := f.Measure(string(r), p.Bold, size*max(p.Grow, 1))
			if at+wide > width && at > 0 && r != ' ' {
				if i > from {
					part = append(part, f.stretch(pieces, s.piece, from, i))
				}
				out = append(out, part)
				part, at, from = nil, 0, i
			}
			at += wide
		}
		if from < s.to {
			part = append(part, f.stretch(pieces, s.piece, from, s.to))
		}
	}
	return append(out, part)
}

// word is the next word from a letter of a piece on, put into the room that it is given; none
// at the end. It may run over several pieces. The one after it begins at toPiece and to.
func (f Fonts) word(pieces []Piece, piece, from int, into []stretch) (word []stretch, toPiece, to int) {
	word = into
	for ; piece < len(pieces); piece, from = piece+1, 0 {
		text := pieces[piece].Text
		if from >= len(text) {
			continue
		}
		if space := strings.IndexByte(text[from:], ' '); space >= 0 {
			to = from + space + 1
			return append(word, f.stretch(pieces, piece, from, to)), piece, to
		}
		word = append(word, f.stretch(pieces, piece, from, len(text)))
	}
	return word, piece, 0
}

// stretch measures a part of a piece.
func (f Fonts) stretch(pieces []Piece, piece, from, to int) stretch {
	said, font := pieces[piece].Text[from:to], f.weight(pieces[piece].Bold)
	s := stretch{piece: piece, from: from, to: to, wide: font.Sum(said)}
	s.bare = s.wide
	if strings.HasSuffix(said, " ") {
		s.bare -= font.Sum(" ")
	}
	return s
}

// Longest is the width of the longest stretch of a text that does not break: a
// figure keeps to its unit.
func (f Fonts) Longest(list []Piece, size float64) float64 {
	list = slices.Clone(list)
	for i := range list {
		if list[i].ID != "" {
			list[i].Text = strings.ReplaceAll(list[i].Text, " ", "\u00a0")
		}
	}
	most := 0.0
	var few [8]stretch
	for piece, from := 0, 0; ; {
		var word []stretch
		if word, piece, from = f.word(list, piece, from, few[:0]); len(word) == 0 {
			return most
		}
		wide := 0.0
		for _, s := range word {
			wide += f.scaled(s.bare, size)
		}
		most = math.Max(most, wide)
	}
}

// Rest is what of the pieces comes after a line already set.
func Rest(pieces []Piece, line []Piece) []Piece {
	n := 0
	for _, p := range line {
		n += len(p.Text)
	}
	var out []Piece
	for _, p := range pieces {
		if n >= len(p.Text) {
			n -= len(p.Text)
			continue
		}
		p.Text = p.Text[n:]
		n = 0
		if len(out) == 0 {
			p.Text = strings.TrimLeft(p.Text, " ")
		}
		if p.Text != "" {
			out = append(out, p)
		}
	}
	return out
}
