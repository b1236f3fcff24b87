package render

import (
	"html/template"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/theme"
)

// own is the card's own address, or empty where none is configured.
func (v *view) own() string {
	if v.site.options.Address == "" {
		return ""
	}
	return strings.TrimSuffix(v.site.options.Address, "/") + "/" + escapePath(v.Page.ID) + ".html"
}

// square is the code of the card's own address, made once.
func (v *view) square() *draw.Square {
	if !v.tried {
		v.tried, v.squared = true, draw.SquareOf(v.own())
	}
	return v.squared
}

// Code draws the code of the card's own address for the foot of a wall card.
func (v *view) Code() template.HTML {
	s := v.square()
	if s == nil {
		return ""
	}
	var d draw.Drawing
	side := s.Side(draw.CodeSide)
	d.Code(s, 0, 0, side)
	return d.SVG("own", "code of the address "+v.own(), 0, 0, side, side)
}

// codeSide is the side of the code on a wall card in mm, or nothing where there
// is none.
func (v *view) codeSide() float64 {
	if !v.HasCode() {
		return 0
	}
	return v.square().Side(draw.CodeSide)
}

// HasCode tells whether the card prints the code of its own address: cards for
// the wall do where an address is configured.
func (v *view) HasCode() bool {
	return !v.Bound && v.Face.Medium == theme.Paper && strings.HasPrefix(v.Face.Folder, "wall/") && v.square() != nil
}

// Own is the card's own address in words.
func (v *view) Own() string { return v.own() }
