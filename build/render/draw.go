package render

import (
	"html/template"
	"math"
	"slices"
	"strconv"
	"strings"

	"wetside/build/render/wording"
	"wetside/build/theme"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// drawing is an SVG in millimetres.
type drawing struct{ b strings.Builder }

// mm writes a length with two decimals at most.
func mm(x float64) string {
	s := strconv.FormatFloat(x, 'f', 2, 64)
	s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	if s == "-0" {
		return "0"
	}
	return s
}

func (d *drawing) line(x1, y1, x2, y2, width float64) {
	d.b.WriteString(`<path d="M` + mm(x1) + ` ` + mm(y1) + `L` + mm(x2) + ` ` + mm(y2) + `" stroke="currentColor" stroke-width="` + mm(width) + `"/>`)
}

func (d *drawing) dashed(x1, y, x2 float64) {
	d.b.WriteString(`<path d="M` + mm(x1) + ` ` + mm(y) + `H` + mm(x2) + `" stroke="currentColor" stroke-width=".3" stroke-dasharray="1.2 .8"/>`)
}

func (d *drawing) bar(x, y, w, h float64) {
	d.b.WriteString(`<path d="M` + mm(x) + ` ` + mm(y) + `h` + mm(w) + `v` + mm(h) + `h` + mm(-w) + `z" fill="currentColor"/>`)
}

func (d *drawing) frame(x, y, w, h, radius, width float64) {
	d.b.WriteString(`<rect x="` + mm(x) + `" y="` + mm(y) + `" width="` + mm(w) + `" height="` + mm(h) + `" rx="` + mm(radius) + `" fill="none" stroke="currentColor" stroke-width="` + mm(width) + `"/>`)
}

// hatch fills a rectangle with slanted lines, each cut at its edge.
func (d *drawing) hatch(x, y, w, h, step float64) {
	var p strings.Builder
	for k := step; k < w+h; k += step {
		x1, y1 := math.Max(0, k-h), math.Min(k, h)
		x2, y2 := math.Min(k, w), math.Max(0, k-w)
		p.WriteString("M" + mm(x+x1) + " " + mm(y+y1) + "L" + mm(x+x2) + " " + mm(y+y2))
	}
	d.b.WriteString(`<path d="` + p.String() + `" stroke="currentColor" stroke-width=".3" fill="none"/>`)
	d.frame(x, y, w, h, 0, .35)
}

// text writes one line; extra holds further attributes, already escaped.
func (d *drawing) text(x, y, size float64, bold bool, anchor, extra, s string) {
	d.b.WriteString(`<text x="` + mm(x) + `" y="` + mm(y) + `" font-size="` + mm(size) + `"`)
	if bold {
		d.b.WriteString(` font-weight="700"`)
	}
	if anchor != "" {
		d.b.WriteString(` text-anchor="` + anchor + `"`)
	}
	d.b.WriteString(extra + `>` + template.HTMLEscapeString(s) + `</text>`)
}

func (d *drawing) use(symbol string, x, y, size float64) {
	s := mm(size)
	d.b.WriteString(`<use href="#` + symbol + `" x="` + mm(x) + `" y="` + mm(y) + `" width="` + s + `" height="` + s + `"/>`)
}

// svg closes the drawing. Size is that of its view box; a wide drawing on a
// screen takes the width it is given.
func (d *drawing) svg(class, label string, x, y, w, h float64) template.HTML {
	return template.HTML(`<svg class="` + class + `" width="` + mm(w) + `mm" height="` + mm(h) + `mm" viewBox="` + mm(x) + " " + mm(y) + " " + mm(w) + " " + mm(h) +
		`" role="img" aria-label="` + template.HTMLEscapeString(label) + `">` + d.b.String() + `</svg>`)
}

// symbol notes that a symbol is used, and returns its name, or nothing if the
// theme has no such symbol.
func (v *view) symbol(name string) string {
	if _, ok := v.site.theme.Symbols[name]; !ok {
		return ""
	}
	if !slices.Contains(v.symbols, name) {
		v.symbols = append(v.symbols, name)
	}
	return name
}

// Sprite holds the symbols that were used before it.
func (v *view) Sprite() template.HTML {
	if len(v.symbols) == 0 {
		return ""
	}
	names := slices.Clone(v.symbols)
	slices.Sort(names)
	var b strings.Builder
	b.WriteString(`<svg class="sprite" width="0" height="0" aria-hidden="true" focusable="false">`)
	for _, n := range names {
		s := v.site.theme.Symbols[n]
		b.WriteString(`<symbol id="` + n + `" viewBox="` + s.ViewBox + `">` + s.Body + `</symbol>`)
	}
	b.WriteString(`</svg>`)
	return template.HTML(b.String())
}

func icon(class, name string) template.HTML {
	return template.HTML(`<svg class="` + class + `" viewBox="0 0 100 100" aria-hidden="true"><use href="#` + name + `" width="100" height="100"/></svg>`)
}

// Sign draws a safety sign; its word stands beside it.
func (v *view) Sign(code string) template.HTML {
	if name := v.symbol(code); name != "" && code != "" {
		return icon("sign", name)
	}
	return ""
}

// Pictogram draws a hazard pictogram; words stand beside it.
func (v *view) Pictogram(code string) template.HTML {
	if name := v.symbol(code); name != "" {
		return template.HTML(`<svg class="ghs" viewBox="0 0 100 100" role="img" aria-label="` + template.HTMLEscapeString(pictogramWord(code)) + `"><use href="#` + name + `" width="100" height="100"/></svg>`)
	}
	return ""
}

// PictogramWord is the word for a pictogram.
func (v *view) PictogramWord(code string) string { return pictogramWord(code) }

func pictogramWord(code string) string {
	words := []string{"explosive", "flammable", "oxidising", "gas under pressure", "corrosive", "toxic", "harmful",
		"health hazard", "environment"}
	n, err := strconv.Atoi(strings.TrimPrefix(code, "GHS"))
	if err != nil || n < 1 || n > len(words) {
		return code
	}
	return words[n-1]
}

// Plate draws the plate of a bath's role.
func (v *view) Plate(r page.Role) template.HTML {
	if r == "" {
		return ""
	}
	if name := v.symbol("plate-" + string(r)); name != "" {
		return template.HTML(`<svg class="plate" viewBox="0 0 20 20" role="img" aria-label="` + template.HTMLEscapeString(string(r)) + `"><use href="#` + name + `" width="20" height="20"/></svg>`)
	}
	return ""
}

// CheckLength is how long the rule in the foot is, in mm.
func (v *view) CheckLength() float64 {
	if v.Face.Check > 0 {
		return v.Face.Check
	}
	return 50
}

// CheckWords say what the rule in the foot is for.
func (v *view) CheckWords() string { return mm(v.CheckLength()) + " mm, print at 100 %" }

// CheckRule is a rule to hold a ruler against.
func (v *view) CheckRule() template.HTML {
	var d drawing
	long := v.CheckLength()
	d.line(0, 3.2, long, 3.2, .2)
	for x := 0.0; x <= long; x += 5 {
		h := .9
		switch {
		case x == 0 || x == long:
			h = 2.2
		case math.Mod(x, 10) == 0:
			h = 1.5
		}
		d.line(x, 3.2-h, x, 3.2, .2)
	}
	return d.svg("check", "rule to measure the print by", -.2, 0, long+.4, 3.4)
}

// No draws the hatched plate for what is forbidden.
func (v *view) No() template.HTML {
	var d drawing
	d.hatch(.3, .3, 10.4, 13.4, 1.5)
	d.b.WriteString(`<path d="M1.4 4.2H9.6V9.8H1.4Z" fill="var(--ground,#fff)"/>`)
	d.text(5.5, 8.7, 4.8, true, "middle", "", "NO")
	return d.svg("hatch", "no", 0, 0, 11, 14)
}

// timeline is a step's agitation in seconds.
type timeline struct {
	length, first, lasts, drain float64
	marks                       []float64
}

// timeline reads a ruler for one choice.
func (v *view) timeline(r page.Ruler, choice int) (timeline, bool) {
	sec := func(list []*figure.Record) float64 {
		if len(list) == 0 {
			return 0
		}
		rec := wording.Pick(list, choice)
		if rec.Refused() {
			return 0
		}
		if x, err := strconv.ParseFloat(rec.Rounded, 64); err == nil {
			return x
		}
		return rec.Value
	}
	t := timeline{length: sec(r.Length), first: sec(r.First), lasts: sec(r.Lasts), drain: sec(r.Drain)}
	if len(r.Marks) > 0 {
		t.marks = wording.Pick(r.Marks, choice).Series
	}
	return t, t.length > 0
}

// every is after how many minutes a figure stands on a scale of so many
// millimetres a minute.
func every(pitch, need float64) int {
	for _, n := range []int{1, 2, 5, 10, 15, 30} {
		if pitch*float64(n) >= need {
			return n
		}
	}
	return 60
}

// HasRuler tells whether a ruler has anything to draw, and the face room for it.
func (v *view) HasRuler(r page.Ruler) bool {
	return len(r.Length) > 0 && (v.Face.Medium != theme.Paper || v.Face.Ruler > 0)
}

// Ruler draws a step's agitation to scale: solid where the tank is turned,
// hatched where it drains.
func (v *view) Ruler(r page.Ruler) template.HTML {
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

func (v *view) ruler(r page.Ruler, choice int, w float64) template.HTML {
	t, ok := v.timeline(r, choice)
	if !ok {
		return ""
	}
	const base, high = 7.2, 6.0
	var d drawing
	at := func(s float64) float64 { return s / t.length * w }
	d.line(0, base, w, base, .5)
	if t.first > 0 {
		d.bar(0, base-high, at(t.first), high)
	}
	for _, m := range t.marks {
		d.bar(at(m), base-high, math.Max(at(t.lasts), .8), high)
	}
	if t.drain > 0 && t.drain < t.length {
		d.hatch(at(t.drain), base-high, w-at(t.drain), high, 1.2)
	}
	step := every(at(60), 8)
	for m := 0; float64(m)*60 <= t.length+.001; m += step {
		x := at(float64(m) * 60)
		d.line(x, base, x, base+1.6, .5)
		anchor := "middle"
		if m == 0 {
			anchor = "start"
		} else if w-x < 3 {
			anchor = "end"
		}
		d.text(x, 13.9, 5, true, anchor, ` class="n"`, strconv.Itoa(m))
	}
	return d.svg("ruler hatch", "when to turn the tank: solid is turn, hatched is drain", -.3, 0, w+.6, 14.5)
}
