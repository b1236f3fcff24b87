package render

import (
	"html/template"
	"math"
	"strings"
	"wetside/build/render/draw"
)

// Shown draws a sign of the given height in mm; a pictogram's is that of its
// side, not of the square around it.
func (v *view) Shown(code string, side float64) template.HTML {
	name := v.symbol(code)
	if name == "" {
		return ""
	}
	if strings.HasPrefix(code, "GHS") {
		side *= math.Sqrt2
	}
	s := draw.MM(side)
	return template.HTML(`<svg class="shown" width="` + s + `mm" height="` + s + `mm" viewBox="0 0 100 100" role="img" aria-label="` + template.HTMLEscapeString(code) + `"><use href="#` + name + `" width="100" height="100"/></svg>`)
}
