package paper

import (
	"math"
	"strings"

	"wetside/build/render/typeset"
	"wetside/build/render/wording"
	"wetside/procedures/page"
)

// lines counts the lines a text takes; serif text runs about as wide.
func (m *estimate) lines(t page.Text, size, width float64, strong bool) float64 {
	if len(t) == 0 {
		return 0
	}
	var few [24]typeset.Piece
	return float64(m.v.Lines(m.pieces(few[:0], t, size, strong), size, width))
}

// pieced is a text in pieces for measuring: the words of weak origins are set small,
// though not below a least size.
func (m *estimate) pieced(t page.Text, size float64, strong bool) []typeset.Piece {
	return m.pieces(nil, t, size, strong)
}

// pieces are those of pieced, in a room for them that is empty.
func (m *estimate) pieces(out []typeset.Piece, t page.Text, size float64, strong bool) []typeset.Piece {
	const least = 6.2 * typeset.Point
	const small = .5
	out = typeset.AppendPieces(out, t, m.v.Choice, strong)
	for i := range out {
		if out[i].Weak {
			out[i].Grow = math.Min(1, math.Max(small, least/size))
		}
		if out[i].Hole { // in one piece, with room to write behind it
			out[i].Text = strings.ReplaceAll(out[i].Text, " ", "\u00a0") + strings.Repeat("\u00a0", 6)
		}
	}
	return out
}

// grown is a text whose numbers are larger than the words around them; units are not.
func (m *estimate) grown(t page.Text) []typeset.Piece {
	var out []typeset.Piece
	for _, p := range m.pieced(t, m.text, false) {
		if p.ID == "" {
			out = append(out, p)
			continue
		}
		unit := ""
		if i := strings.LastIndexAny(p.Text, " \u00a0"); i > 0 {
			p.Text, unit = p.Text[:i], p.Text[i:]
		}
		p.Grow = m.fill
		out = append(out, p)
		if unit != "" {
			out = append(out, typeset.Piece{Text: strings.ReplaceAll(unit, " ", "\u00a0")})
		}
	}
	return out
}

// filled is the height of what is in a vessel, whose volumes are larger than the
// words around them.
func (m *estimate) filled(t page.Text, width float64) float64 {
	if len(t) == 0 {
		return 0
	}
	h := 0.0
	list := m.grown(t)
	for _, line := range m.v.Wrap(list, m.text, width) {
		grown := 1.0
		for _, p := range line {
			grown = math.Max(grown, p.Times())
		}
		h += m.text * (m.Line.Label + .02) * grown
	}
	return h
}

func (m *estimate) wide(t page.Text, size float64, strong bool) float64 {
	w := 0.0
	var few [24]typeset.Piece
	for _, p := range m.pieces(few[:0], t, size, strong) {
		w += m.v.Measure(p.Text, p.Bold, size*p.Times())
	}
	return w
}

// big is the width of a large figure: its unit is half as large, and the word of
// its origin hangs beside it.
func (m *estimate) big(t page.Text, size float64) float64 {
	w := 0.0
	for _, in := range t {
		if in.Kind != page.Fig {
			w += m.wide(page.Text{in}, size, true)
			continue
		}
		r := wording.Pick(in.Figures, m.v.Choice)
		bare := wording.Shown(r, true)
		w += m.v.Measure(bare, true, size) + m.v.Measure(strings.TrimPrefix(wording.Shown(r, false), bare), false, size*.56)
	}
	return w
}

// marked is the room that the mark of a weak origin takes at the end of a line.
func (m *estimate) marked(t page.Text) float64 {
	for _, in := range t {
		if in.Kind != page.Fig && in.Kind != page.BareFig {
			continue
		}
		if wording.Pick(in.Figures, m.v.Choice).Origin.Weak() {
			return 2.6
		}
	}
	return 0
}

// dotted is several texts in one run.
func dotted(list []page.Text) page.Text { return page.Joined(list, " · ") }
