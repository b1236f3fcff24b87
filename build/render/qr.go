package render

import (
	"html/template"
	"strings"

	"rsc.io/qr"
)

// Sizes of a code in mm: with its quiet zone, on a card and on the smallest
// label, and the least a module may be so that a plain printer keeps it apart.
const (
	codeSide   = 20.0
	codeSmall  = 15.0
	codeModule = .33
	quiet      = 4 // modules
)

// own is the card's own address, or empty where none is configured.
func (v *view) own() string {
	if v.site.options.Address == "" {
		return ""
	}
	return strings.TrimSuffix(v.site.options.Address, "/") + "/" + escapePath(v.Page.ID) + ".html"
}

// code is the square of an address, as large as it must be, and its side in mm.
func code(address string, least float64) (*qr.Code, float64) {
	if address == "" {
		return nil, 0
	}
	c, err := qr.Encode(address, qr.M)
	if err != nil {
		return nil, 0 // longer than a code holds: its words stand there alone
	}
	return c, max(least, float64(c.Size+2*quiet)*codeModule)
}

// code draws a code with its quiet zone: one path, black on white on every
// ground.
func (d *drawing) code(c *qr.Code, x, y, side float64) {
	n := c.Size + 2*quiet
	var p strings.Builder
	for row := range c.Size {
		for col := 0; col < c.Size; col++ {
			if !c.Black(col, row) {
				continue
			}
			from := col
			for col < c.Size && c.Black(col, row) {
				col++
			}
			w := mm(float64(col - from))
			p.WriteString("M" + mm(float64(from+quiet)) + " " + mm(float64(row+quiet)) + "h" + w + "v1h-" + w + "z")
		}
	}
	d.b.WriteString(`<svg class="code" x="` + mm(x) + `" y="` + mm(y) + `" width="` + mm(side) + `" height="` + mm(side) + `" viewBox="0 0 ` + mm(float64(n)) + " " + mm(float64(n)) +
		`" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h` + mm(float64(n)) + `v` + mm(float64(n)) + `H0z"/><path fill="#000" d="` + p.String() + `"/></svg>`)
}

// Code draws the code of the card's own address for the foot of a wall card.
func (v *view) Code() template.HTML {
	c, side := code(v.own(), codeSide)
	if c == nil {
		return ""
	}
	var d drawing
	d.code(c, 0, 0, side)
	return d.svg("own", "code of the address "+v.own(), 0, 0, side, side)
}

// CodeSide is the side of that code in mm, or nothing where there is none.
func (v *view) codeSide() float64 {
	if !v.HasCode() {
		return 0
	}
	_, side := code(v.own(), codeSide)
	return side
}

// HasCode tells whether the card prints the code of its own address: cards for
// the wall do where an address is configured.
func (v *view) HasCode() bool {
	return v.own() != "" && !v.Bound && strings.HasPrefix(v.Face.Folder, "wall/")
}

// Own is the card's own address in words.
func (v *view) Own() string { return v.own() }
