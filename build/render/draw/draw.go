// Package draw draws in millimetres: strokes, lettering, hatches and codes, and the drawings
// that more than one way of showing has. It knows no page as a whole and no paper.
package draw

import (
	"html/template"
	"math"
	"strconv"
	"strings"

	"wetside/build/render/typeset"
)

// Drawing is an SVG in the making. All lengths are in mm, x to the right and y downwards; of
// a text, y is its baseline.
type Drawing struct {
	// Unseen: nothing is drawn. It is for finding how much room a drawing needs.
	Unseen bool
	b      strings.Builder
}

// Add writes markup of its own into the drawing.
func (d *Drawing) Add(markup string) {
	if d.Unseen {
		return
	}
	d.b.WriteString(markup)
}

// Inside is what is drawn so far.
func (d *Drawing) Inside() string { return d.b.String() }

// MM writes a length with two decimals at most.
func MM(x float64) string {
	s := strconv.FormatFloat(x, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

// Line draws a straight line.
func (d *Drawing) Line(x1, y1, x2, y2, width float64) {
	if d.Unseen {
		return
	}
	d.b.WriteString(`<path d="M` + MM(x1) + ` ` + MM(y1) + `L` + MM(x2) + ` ` + MM(y2) +
		`" stroke="currentColor" stroke-width="` + MM(width) + `"/>`)
}

// Dashed draws a level line to write on.
func (d *Drawing) Dashed(x1, y, x2 float64) {
	if d.Unseen {
		return
	}
	d.b.WriteString(`<path d="M` + MM(x1) + ` ` + MM(y) + `H` + MM(x2) +
		`" stroke="currentColor" stroke-width=".3" stroke-dasharray="1.2 .8"/>`)
}

// Bar fills a rectangle.
func (d *Drawing) Bar(x, y, w, h float64) {
	if d.Unseen {
		return
	}
	d.b.WriteString(`<path d="M` + MM(x) + ` ` + MM(y) + `h` + MM(w) + `v` + MM(h) + `h` + MM(-w) +
		`z" fill="currentColor"/>`)
}

// Frame draws the outline of a rectangle; radius is that of its corners.
func (d *Drawing) Frame(x, y, w, h, radius, width float64) {
	if d.Unseen {
		return
	}
	d.b.WriteString(`<rect x="` + MM(x) + `" y="` + MM(y) + `" width="` + MM(w) + `" height="` + MM(h) + `" rx="` +
		MM(radius) + `" fill="none" stroke="currentColor" stroke-width="` + MM(width) + `"/>`)
}

// Hatch fills a rectangle with slanted lines, each cut at its edge; step is from one to the
// next along an edge.
func (d *Drawing) Hatch(x, y, w, h, step float64) {
	if d.Unseen {
		return
	}
	var p strings.Builder
	for k := step; k < w+h; k += step {
		x1, y1 := math.Max(0, k-h), math.Min(k, h)
		x2, y2 := math.Min(k, w), math.Max(0, k-w)
		p.WriteString("M" + MM(x+x1) + " " + MM(y+y1) + "L" + MM(x+x2) + " " + MM(y+y2))
	}
	d.b.WriteString(`<path d="` + p.String() + `" stroke="currentColor" stroke-width=".3" fill="none"/>`)
	d.Frame(x, y, w, h, 0, .35)
}

// Text writes one line; extra holds further attributes, already escaped.
func (d *Drawing) Text(x, y, size float64, bold bool, anchor, extra, s string) {
	if d.Unseen {
		return
	}
	d.b.WriteString(`<text x="` + MM(x) + `" y="` + MM(y) + `" font-size="` + MM(size) + `"`)
	if bold {
		d.b.WriteString(` font-weight="700"`)
	}
	if anchor != "" {
		d.b.WriteString(` text-anchor="` + anchor + `"`)
	}
	d.b.WriteString(extra + `>` + template.HTMLEscapeString(s) + `</text>`)
}

// Use sets a symbol of the theme into a square.
func (d *Drawing) Use(symbol string, x, y, size float64) {
	if d.Unseen {
		return
	}
	s := MM(size)
	d.b.WriteString(`<use href="#` + symbol + `" x="` + MM(x) + `" y="` + MM(y) + `" width="` + s + `" height="` +
		s + `"/>`)
}

// SVG closes the drawing. Size is that of its view box; a wide drawing on a
// screen takes the width it is given.
func (d *Drawing) SVG(class, label string, x, y, w, h float64) template.HTML {
	return template.HTML(`<svg class="` + class + `" width="` + MM(w) + `mm" height="` + MM(h) + `mm" viewBox="` +
		MM(x) + " " + MM(y) + " " + MM(w) + " " + MM(h) +
		`" role="img" aria-label="` + template.HTMLEscapeString(label) + `">` + d.b.String() + `</svg>`)
}

// Lines draws wrapped text, pitch from line to line, and returns the baseline of the last.
func (d *Drawing) Lines(lines [][]typeset.Piece, x, y, size, pitch float64) float64 {
	for i, line := range lines {
		if i > 0 {
			y += pitch
		}
		if d.Unseen {
			continue
		}
		d.b.WriteString(`<text x="` + MM(x) + `" y="` + MM(y) + `" font-size="` + MM(size) + `">`)
		raised := false
		for _, p := range line {
			if !p.Bold && p.ID == "" && !p.Hole && !p.Name && !p.Weak && !raised {
				d.b.WriteString(template.HTMLEscapeString(p.Text))
				continue
			}
			d.b.WriteString("<tspan")
			switch { // the letter of an origin stands above the line; no letter may be smaller
			case p.Weak && !raised:
				d.b.WriteString(` dy="-` + MM(size*lifted) + `"`)
			case !p.Weak && raised:
				d.b.WriteString(` dy="` + MM(size*lifted) + `"`)
			}
			raised = p.Weak
			if p.Bold {
				d.b.WriteString(` font-weight="700"`)
			}
			if p.ID != "" {
				d.b.WriteString(` data-f="` + template.HTMLEscapeString(p.ID) + `"`)
			}
			if p.Hole {
				d.b.WriteString(` class="asked"`)
			} else if p.Name {
				d.b.WriteString(` class="n"`)
			}
			d.b.WriteString(">" + template.HTMLEscapeString(p.Text) + "</tspan>")
		}
		d.b.WriteString("</text>")
	}
	return y
}

// lifted is how far the letter of an origin stands above the line, beside the size of the text.
const lifted = .3

// Ring is the hole of a tag.
func (d *Drawing) Ring(x, y, r float64) {
	if d.Unseen {
		return
	}
	d.Add(`<circle cx="` + MM(x) + `" cy="` + MM(y) + `" r="` + MM(r) + `" fill="none"` +
		` stroke="currentColor" stroke-width=".35"/>`)
}

// Box is a box for a stroke.
func (d *Drawing) Box(x, y, side, width float64) {
	if d.Unseen {
		return
	}
	s := MM(side)
	d.Add(`<path class="stroke" d="M` + MM(x) + ` ` + MM(y) + `h` + s + `v` + s + `h-` + s + `z" fill="none"` +
		` stroke="currentColor" stroke-width="` + MM(width) + `"/>`)
}

// Stroke strikes a box out.
func (d *Drawing) Stroke(x, y, side float64) {
	if d.Unseen {
		return
	}
	s := MM(side + .8)
	d.Add(`<path class="struck" d="M` + MM(x-.4) + ` ` + MM(y+side+.4) + `l` + s + ` -` + s + `" fill="none"` +
		` stroke="currentColor" stroke-width=".6"/>`)
}
