package draw

import (
	"strconv"
	"strings"

	"rsc.io/qr"
)

// Sizes of a code in mm: with its quiet zone, on a card and on the smallest
// label, and the least a module may be so that a plain printer keeps it apart.
const (
	CodeSide   = 20.0
	CodeSmall  = 15.0
	codeModule = .33
	quiet      = 4 // modules
)

// Square is a code made ready to be drawn: one path, in modules.
type Square struct {
	modules int
	path    string
}

// SquareOf makes the code of an address; none of an empty one, nor of one that is longer
// than a code holds: its words stand there alone.
func SquareOf(address string) *Square {
	if address == "" {
		return nil
	}
	c, err := qr.Encode(address, qr.M)
	if err != nil {
		return nil
	}
	return &Square{c.Size + 2*quiet, modules(c)}
}

// Side is how large a code must be in mm, at least; 0 where there is none.
func (s *Square) Side(least float64) float64 {
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

// Code draws a code with its quiet zone, black on white on every ground.
func (d *Drawing) Code(s *Square, x, y, side float64) {
	if d.Unseen {
		return
	}
	n := strconv.Itoa(s.modules)
	d.b.WriteString(`<svg class="code" x="` + MM(x) + `" y="` + MM(y) + `" width="` + MM(side) + `" height="` +
		MM(side) + `" viewBox="0 0 ` + n + " " + n +
		`" shape-rendering="crispEdges"><path fill="#fff" d="M0 0h` + n + `v` + n + `H0z"/><path fill="#000" d="` +
		s.path + `"/></svg>`)
}
