package render

import (
	"html/template"

	"wetside/build/render/draw"
)

// Code draws the code of the card's own address for the foot of a wall card.
func (v *shown) Code() template.HTML {
	s := v.Square()
	if s == nil {
		return ""
	}
	var d draw.Drawing
	side := s.Side(draw.CodeSide)
	d.Code(s, 0, 0, side)
	return d.SVG("own", "code of the address "+v.Own(), 0, 0, side, side)
}
