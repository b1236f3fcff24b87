package render

import (
	"html/template"
	"strconv"
	"strings"

	"rsc.io/qr"

	"wetside/build/theme"
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

// square is a code made ready to be drawn: one path, in modules.
type square struct {
	modules int
	path    string
}

// square makes the code of the card's own address once; none where no address
// is configured, or it is longer than a code holds: its words stand there alone.
func (v *view) square() *square {
	if v.squared == nil {
		v.squared = &square{}
		if c, err := qr.Encode(v.own(), qr.M); err == nil && v.own() != "" {
			v.squared = &square{c.Size + 2*quiet, modules(c)}
		}
	}
	if v.squared.modules == 0 {
		return nil
	}
	return v.squared
}

// side is how large a code must be in mm.
func (s *square) side(least float64) float64 {
	if s == nil {
		return 0
	}
	return max(least, float64(s.modules)*codeModule)
}

func modules(c *qr.Code) string {
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
			w := strconv.Itoa(col - from)
			p.WriteString("M" + strconv.Itoa(from+quiet) + " " + strconv.Itoa(row+quiet) + "h" + w + "v1h-" + w + "z")
		}
	}
	return p.String()
}

// code draws a code with its quiet zone, black on white on every ground.
func (d *drawing) code(s *square, x, y, side float64) {
	n := strconv.Itoa(s.modules)
	d.b.WriteString(`<svg class="code" x="` + mm(x) + `" y="` + mm(y) + `" width="` + mm(side) + `" height="` + mm(side) + `" viewBox="0 0 ` + n + " " + n +
		`" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h` + n + `v` + n + `H0z"/><path fill="#000" d="` + s.path + `"/></svg>`)
}

// Code draws the code of the card's own address for the foot of a wall card.
func (v *view) Code() template.HTML {
	s := v.square()
	if s == nil {
		return ""
	}
	var d drawing
	side := s.side(codeSide)
	d.code(s, 0, 0, side)
	return d.svg("own", "code of the address "+v.own(), 0, 0, side, side)
}

// codeSide is the side of the code on a wall card in mm, or nothing where there
// is none.
func (v *view) codeSide() float64 {
	if !v.HasCode() {
		return 0
	}
	return v.square().side(codeSide)
}

// HasCode tells whether the card prints the code of its own address: cards for
// the wall do where an address is configured.
func (v *view) HasCode() bool {
	return !v.Bound && v.Face.Medium == theme.Paper && strings.HasPrefix(v.Face.Folder, "wall/") && v.square() != nil
}

// Own is the card's own address in words.
func (v *view) Own() string { return v.own() }
