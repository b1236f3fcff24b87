package render

import (
	"html/template"
	"strings"

	"wetside/build/render/wording"
	"wetside/procedures/page"
)

// piece is a stretch of drawn text: one style, and the figure it comes from.
type piece struct {
	text string
	bold bool
	id   string
	hole bool
	name bool
	weak bool    // the word of a weak origin
	grow float64 // its size beside the text around it; 0: the same
}

// times is the size of the piece beside the text around it.
func (p piece) times() float64 {
	if p.grow == 0 {
		return 1
	}
	return p.grow
}

// like tells whether two pieces look alike and belong to the same figure.
func (p piece) like(q piece) bool {
	return p.bold == q.bold && p.id == q.id && p.hole == q.hole && p.name == q.name
}

// pieces flattens a text for drawing; blanks become runs of a dash that the
// drawing replaces by a line.
func (v *view) pieces(t page.Text, bold bool) []piece {
	var out []piece
	for _, in := range t {
		switch in.Kind {
		case page.Fig, page.BareFig:
			r := wording.Pick(in.Figures, v.Choice)
			p := piece{text: wording.Shown(r, in.Kind == page.BareFig), bold: true, id: r.ID}
			out = append(out, p)
			if r.Origin.Weak() {
				out = append(out, piece{text: "\u00a0" + wording.Mark(r.Origin.String()), weak: true})
			}
		case page.Strong:
			out = append(out, piece{text: wording.KeepUnits(in.Text), bold: true})
		case page.Ask:
			out = append(out, piece{text: strings.TrimSpace("ask " + in.Text), bold: bold, hole: true})
		case page.Blank:
			out = append(out, piece{text: "________", bold: bold, hole: true})
		default:
			out = append(out, piece{text: wording.KeepUnits(in.Text), bold: bold, name: in.Kind != page.Word})
		}
	}
	return out
}

// wrap breaks pieces into lines no wider than width, by the widths of the face
// for paper. A word that is wider is broken where the line ends.
func (v *view) wrap(pieces []piece, size, width float64) [][]piece {
	var lines [][]piece
	var line []piece
	room := width
	flush := func() {
		if len(line) > 0 {
			last := &line[len(line)-1]
			last.text = strings.TrimRight(last.text, " ")
			lines = append(lines, line)
		}
		line, room = nil, width
	}
	for _, w := range v.broken(glue(pieces), size, width) {
		need := 0.0
		for _, p := range w {
			need += v.measure(strings.TrimRight(p.text, " "), p.bold, size*p.times())
		}
		if need > room && len(line) > 0 {
			flush()
		}
		for _, p := range w {
			room -= v.measure(p.text, p.bold, size*p.times())
			if n := len(line); n > 0 && line[n-1].like(p) {
				line[n-1].text += p.text
				continue
			}
			line = append(line, p)
		}
	}
	flush()
	return lines
}

// broken breaks every word that is wider than a line, where the line ends.
func (v *view) broken(words [][]piece, size, width float64) [][]piece {
	out := make([][]piece, 0, len(words))
	for _, w := range words {
		need := 0.0
		for _, p := range w {
			need += v.measure(strings.TrimRight(p.text, " "), p.bold, size*max(p.grow, 1))
		}
		if need <= width || width <= size {
			out = append(out, w)
			continue
		}
		var part []piece
		at := 0.0
		for _, p := range w {
			from := 0
			for i, r := range p.text {
				wide := v.measure(string(r), p.bold, size*max(p.grow, 1))
				if at+wide > width && at > 0 && r != ' ' {
					if q := p; i > from {
						q.text = p.text[from:i]
						part = append(part, q)
					}
					out = append(out, part)
					part, at, from = nil, 0, i
				}
				at += wide
			}
			if q := p; from < len(p.text) {
				q.text = p.text[from:]
				part = append(part, q)
			}
		}
		out = append(out, part)
	}
	return out
}

// glue cuts pieces at spaces into words; a word may run over several pieces.
func glue(pieces []piece) [][]piece {
	spaces := 0
	for _, p := range pieces {
		spaces += strings.Count(p.text, " ")
	}
	words := make([][]piece, 0, spaces+1)
	all := make([]piece, 0, spaces+len(pieces)) // of every word, one after the other
	from := 0
	for _, p := range pieces {
		for rest := p.text; rest != ""; {
			i := strings.IndexByte(rest, ' ')
			p.text = rest[:i+1]
			if i < 0 {
				p.text = rest
			}
			all = append(all, p)
			rest = rest[len(p.text):]
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

// measure is the width of a text, a little on the safe side.
func (v *view) measure(s string, bold bool, size float64) float64 {
	const safe = 1.005
	if bold {
		return v.site.theme.Strong.Of(s, size) * safe
	}
	return v.site.theme.Text.Of(s, size) * safe
}

// lines draws wrapped text and returns the baseline of its last line.
func (d *drawing) lines(lines [][]piece, x, y, size, pitch float64) float64 {
	for i, line := range lines {
		if i > 0 {
			y += pitch
		}
		d.b.WriteString(`<text x="` + mm(x) + `" y="` + mm(y) + `" font-size="` + mm(size) + `">`)
		for _, p := range line {
			if !p.bold && p.id == "" && !p.hole && !p.name {
				d.b.WriteString(template.HTMLEscapeString(p.text))
				continue
			}
			d.b.WriteString("<tspan")
			if p.bold {
				d.b.WriteString(` font-weight="700"`)
			}
			if p.id != "" {
				d.b.WriteString(` data-f="` + template.HTMLEscapeString(p.id) + `"`)
			}
			if p.hole {
				d.b.WriteString(` class="asked"`)
			} else if p.name {
				d.b.WriteString(` class="n"`)
			}
			d.b.WriteString(">" + template.HTMLEscapeString(p.text) + "</tspan>")
		}
		d.b.WriteString("</text>")
	}
	return y
}

// rest is what of the pieces comes after a line already set.
func rest(pieces []piece, line []piece) []piece {
	n := 0
	for _, p := range line {
		n += len(p.text)
	}
	var out []piece
	for _, p := range pieces {
		if n >= len(p.text) {
			n -= len(p.text)
			continue
		}
		p.text = p.text[n:]
		n = 0
		if len(out) == 0 {
			p.text = strings.TrimLeft(p.text, " ")
		}
		if p.text != "" {
			out = append(out, p)
		}
	}
	return out
}
