package screen

import (
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/render/view"
	"wetside/procedures/page"
)

// Sprite holds the symbols that were used before it.
func (v *shown) Sprite() template.HTML {
	if len(v.Symbols) == 0 {
		return ""
	}
	names := slices.Clone(v.Symbols)
	slices.Sort(names)
	var b strings.Builder
	b.WriteString(`<svg class="sprite" width="0" height="0" aria-hidden="true" focusable="false">`)
	for _, n := range names {
		s := v.pages.binder.Theme.Symbols[n]
		b.WriteString(`<symbol id="` + n + `" viewBox="` + s.ViewBox + `">` + s.Body + `</symbol>`)
	}
	b.WriteString(`</svg>`)
	return template.HTML(b.String())
}

func icon(class, name string) template.HTML {
	return template.HTML(`<svg class="` + class + `" viewBox="0 0 100 100" aria-hidden="true"><use href="#` + name +
		`" width="100" height="100"/></svg>`)
}

// Sign draws a safety sign; its word stands beside it.
func (v *shown) Sign(code string) template.HTML {
	if name := v.Symbol(code); name != "" && code != "" {
		return icon("sign", name)
	}
	return ""
}

// Pictogram draws a hazard pictogram; words stand beside it.
func (v *shown) Pictogram(code string) template.HTML {
	if name := v.Symbol(code); name != "" {
		return template.HTML(`<svg class="ghs" viewBox="0 0 100 100" role="img" aria-label="` +
			template.HTMLEscapeString(view.PictogramWord(code)) + `"><use href="#` + name +
			`" width="100" height="100"/></svg>`)
	}
	return ""
}

// PictogramWord is the word for a pictogram.
func (v *shown) PictogramWord(code string) string { return view.PictogramWord(code) }

// Plate draws the plate of a bath's role.
func (v *shown) Plate(r page.Role) template.HTML {
	if r == "" {
		return ""
	}
	if name := v.Symbol("plate-" + string(r)); name != "" {
		return template.HTML(`<svg class="plate" viewBox="0 0 20 20" role="img" aria-label="` +
			template.HTMLEscapeString(string(r)) + `"><use href="#` + name + `" width="20" height="20"/></svg>`)
	}
	return ""
}

// CheckWords say what the rule in the foot is for.
func (v *shown) CheckWords() string { return draw.MM(v.CheckLength()) + " mm, print at 100 %" }

// CheckRule is a rule to hold a ruler against.
func (v *shown) CheckRule() template.HTML {
	var d draw.Drawing
	long := v.CheckLength()
	d.Line(0, 3.2, long, 3.2, .2)
	for x := 0.0; x <= long; x += 5 {
		h := .9
		switch {
		case x == 0 || x == long:
			h = 2.2
		case math.Mod(x, 10) == 0:
			h = 1.5
		}
		d.Line(x, 3.2-h, x, 3.2, .2)
	}
	return d.SVG("check", "rule to measure the print by", -.2, 0, long+.4, 3.4)
}

// No draws the hatched plate for what is forbidden.
func (v *shown) No() template.HTML {
	var d draw.Drawing
	d.Hatch(.3, .3, 10.4, 13.4, 1.5)
	d.Add(`<path d="M1.4 4.2H9.6V9.8H1.4Z" fill="var(--ground,#fff)"/>`)
	d.Text(5.5, 8.7, 4.8, true, "middle", "", "NO")
	return d.SVG("hatch", "no", 0, 0, 11, 14)
}

// Ruler draws a step's agitation to scale: solid where the tank is turned,
// hatched where it drains.
func (v *shown) Ruler(r page.Ruler) template.HTML {
	if len(r.Length) == 0 {
		return ""
	}
	w := 142.0
	if f := v.Face; len(f.Size) == 2 && len(f.Margin) == 4 {
		w = f.Size[0] - f.Margin[1] - f.Margin[3] - f.Ruler
	}
	if v.Choice >= 0 || len(v.Page.Choices) == 0 {
		return v.ruler(r, max(v.Choice, 0), w)
	}
	drawn := make([]string, len(v.Page.Choices))
	for i := range drawn {
		drawn[i] = string(v.ruler(r, i, w))
	}
	var b strings.Builder
	each(drawn, func(value, class string) {
		if class == "" {
			b.WriteString(value)
			return
		}
		b.WriteString(`<span class="` + class + `">` + value + `</span>`)
	})
	return template.HTML(b.String())
}

func (v *shown) ruler(r page.Ruler, choice int, w float64) template.HTML {
	t, ok := draw.TimelineOf(r, choice)
	if !ok {
		return ""
	}
	const base, high = 7.2, 6.0
	var d draw.Drawing
	at := func(s float64) float64 { return s / t.Length * w }
	d.Line(0, base, w, base, .5)
	if t.First > 0 {
		d.Bar(0, base-high, at(t.First), high)
	}
	for _, m := range t.Marks {
		d.Bar(at(m), base-high, math.Max(at(t.Lasts), .8), high)
	}
	if t.Drain > 0 && t.Drain < t.Length {
		d.Hatch(at(t.Drain), base-high, w-at(t.Drain), high, 1.2)
	}
	step := draw.Every(at(60), 8)
	for m := 0; float64(m)*60 <= t.Length+.001; m += step {
		x := at(float64(m) * 60)
		d.Line(x, base, x, base+1.6, .5)
		anchor := "middle"
		if m == 0 {
			anchor = "start"
		} else if w-x < 3 {
			anchor = "end"
		}
		d.Text(x, 13.9, 5, true, anchor, ` class="n"`, strconv.Itoa(m))
	}
	return d.SVG("ruler hatch", "when to turn the tank: solid is turn, hatched is drain", -.3, 0, w+.6, 14.5)
}

// Chart draws a chart.
func (v *shown) Chart(c page.Chart) template.HTML { return draw.Chart(c, v.Choice) }

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

// Shown draws a sign of the given height in mm; a pictogram's is that of its
// side, not of the square around it.
func (v *shown) Shown(code string, side float64) template.HTML {
	name := v.Symbol(code)
	if name == "" {
		return ""
	}
	if strings.HasPrefix(code, "GHS") {
		side *= math.Sqrt2
	}
	s := draw.MM(side)
	return template.HTML(`<svg class="shown" width="` + s + `mm" height="` + s +
		`mm" viewBox="0 0 100 100" role="img" aria-label="` + template.HTMLEscapeString(code) + `"><use href="#` +
		name + `" width="100" height="100"/></svg>`)
}
