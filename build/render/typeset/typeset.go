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
	return p.Bold == q.Bold && p.ID == q.ID && p.Hole == q.Hole && p.Name == q.Name
}

// Pieces flattens a text for drawing, in one choice; blanks become runs of a dash that the
// drawing replaces by a line.
func Pieces(t page.Text, choice int, bold bool) []Piece {
	var out []Piece
	for _, in := range t {
		switch in.Kind {
		case page.Fig, page.BareFig:
			r := wording.Pick(in.Figures, choice)
			p := Piece{Text: wording.Shown(r, in.Kind == page.BareFig), Bold: true, ID: r.ID}
			out = append(out, p)
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

// Measure is the width of a text, a little on the safe side, in the unit of size.
func (f Fonts) Measure(s string, bold bool, size float64) float64 {
	const safe = 1.005
	if bold {
		return f.strong.Of(s, size) * safe
	}
	return f.text.Of(s, size) * safe
}

// Wrap breaks pieces into lines no wider than width, which has the unit of size. A word
// that is wider is broken where the line ends.
func (f Fonts) Wrap(pieces []Piece, size, width float64) [][]Piece {
	var lines [][]Piece
	var line []Piece
	flush := func() {
		if len(line) > 0 {
			last := &line[len(line)-1]
			last.Text = strings.TrimRight(last.Text, " ")
			lines = append(lines, line)
		}
		line = nil
	}
	f.set(pieces, size, width, func(word []Piece, begins bool) {
		if begins {
			flush()
		}
		for _, p := range word {
			if n := len(line); n > 0 && line[n-1].like(p) {
				line[n-1].Text += p.Text
				continue
			}
			line = append(line, p)
		}
	})
	flush()
	return lines
}

// HowMany is how many lines Wrap makes.
func (f Fonts) HowMany(pieces []Piece, size, width float64) (lines int) {
	f.set(pieces, size, width, func(_ []Piece, begins bool) {
		if begins {
			lines++
		}
	})
	return lines
}

// set hands over word after word, and tells of each whether a line begins with it.
func (f Fonts) set(pieces []Piece, size, width float64, place func(word []Piece, begins bool)) {
	room := math.Inf(-1)
	for _, w := range f.broken(glue(pieces), size, width) {
		need := 0.0
		for _, p := range w {
			need += f.Measure(strings.TrimRight(p.Text, " "), p.Bold, size*p.Times())
		}
		begins := need > room
		if begins {
			room = width
		}
		for _, p := range w {
			room -= f.Measure(p.Text, p.Bold, size*p.Times())
		}
		place(w, begins)
	}
}

// broken breaks every word that is wider than a line, where the line ends.
func (f Fonts) broken(words [][]Piece, size, width float64) [][]Piece {
	out := make([][]Piece, 0, len(words))
	for _, w := range words {
		need := 0.0
		for _, p := range w {
			need += f.Measure(strings.TrimRight(p.Text, " "), p.Bold, size*max(p.Grow, 1))
		}
		if need <= width || width <= size {
			out = append(out, w)
			continue
		}
		var part []Piece
		at := 0.0
		for _, p := range w {
			from := 0
			for i, r := range p.Text {
				wide := f.Measure(string(r), p.Bold, size*max(p.Grow, 1))
				if at+wide > width && at > 0 && r != ' ' {
					if q := p; i > from {
						q.Text = p.Text[from:i]
						part = append(part, q)
					}
					out = append(out, part)
					part, at, from = nil, 0, i
				}
				at += wide
			}
			if q := p; from < len(p.Text) {
				q.Text = p.Text[from:]
				part = append(part, q)
			}
		}
		out = append(out, part)
	}
	return out
}

// glue cuts pieces at spaces into words; a word may run over several pieces.
func glue(pieces []Piece) [][]Piece {
	spaces := 0
	for _, p := range pieces {
		spaces += strings.Count(p.Text, " ")
	}
	words := make([][]Piece, 0, spaces+1)
	all := make([]Piece, 0, spaces+len(pieces)) // of every word, one after the other
	from := 0
	for _, p := range pieces {
		for rest := p.Text; rest != ""; {
			i := strings.IndexByte(rest, ' ')
			p.Text = rest[:i+1]
			if i < 0 {
				p.Text = rest
			}
			all = append(all, p)
			rest = rest[len(p.Text):]
			if i >= 0 {
				words, from = append(words, all[from:len(all):len(all)]), len(all)
			}
		}
	}
	if from < len(all) {
		words = append(words, all[from:])
	}
	return words
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
	for _, word := range glue(list) {
		w := 0.0
		for _, p := range word {
			w += f.Measure(strings.TrimRight(p.Text, " "), p.Bold, size)
		}
		most = math.Max(most, w)
	}
	return most
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
