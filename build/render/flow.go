package render

import (
	"html/template"

	"wetside/build/render/typeset"
)

// lines draws wrapped text and returns the baseline of its last line.
func (d *drawing) lines(lines [][]typeset.Piece, x, y, size, pitch float64) float64 {
	for i, line := range lines {
		if i > 0 {
			y += pitch
		}
		d.b.WriteString(`<text x="` + mm(x) + `" y="` + mm(y) + `" font-size="` + mm(size) + `">`)
		for _, p := range line {
			if !p.Bold && p.ID == "" && !p.Hole && !p.Name {
				d.b.WriteString(template.HTMLEscapeString(p.Text))
				continue
			}
			d.b.WriteString("<tspan")
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
