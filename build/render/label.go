package render

import (
	"html/template"
	"strings"

	"wetside/build/theme"
	"wetside/procedures/page"
)

// LabelDrawing draws the page's bottle label on this face, on the smallest of
// its sizes that holds it whole, and sets that size.
func (v *view) LabelDrawing() template.HTML {
	l, ok := labelOf(v.Page)
	if !ok {
		l = page.Label{Name: v.Page.Title, Strength: v.words(v.Page.Lead), Role: v.Page.Role}
	}
	face := v.Face
	sizes := append([][]float64{face.Size}, face.Larger...)
	var out template.HTML
	for _, size := range sizes {
		v.size = size
		for _, box := range []float64{boxGood, boxLeast} {
			var fits bool
			if out, fits = v.label(l, face, size, box); fits {
				return out
			}
		}
	}
	return out
}

// The boxes around a pictogram, whose side is shorter by the root of two:
// sixteen millimetres where there is room, never below eleven.
const (
	boxGood  = 23.0
	boxLeast = 16.0
)

// Labels draws the page's label on every face for labels, for a screen.
func (v *view) Labels() template.HTML {
	var b strings.Builder
	var drawn []string
	for _, name := range []string{"label", "label-small"} {
		face, ok := v.site.theme.Face(name)
		if !ok {
			continue
		}
		other := *v
		other.Face, other.Choice = face, chosen(v.Page)
		svg := string(other.LabelDrawing())
		v.symbols, v.missing = other.symbols, other.missing
		if len(drawn) == 0 || drawn[0] != svg {
			b.WriteString(svg)
		}
		drawn = append(drawn, svg)
	}
	return template.HTML(b.String())
}

// PageClass is the class that gives a drawn sheet its paper.
func (v *view) PageClass() string { return theme.PageName(v.size) }

// label draws a bottle label of that size and tells whether all of it fits.
// Nothing is ever left out of it.
func (v *view) label(l page.Label, face theme.Face, size []float64, box float64) (template.HTML, bool) {
	w, h := size[0], size[1]
	grow := w / face.Size[0]
	if grow > 1 {
		grow = 1 + (grow-1)*.55
	}
	pad := 3.2 + (w-52)*.03
	inner := w - 2*pad
	pt := func(x float64) float64 { return x * point * grow }
	t := face.Type
	text, pitch := pt(t.Text), pt(t.Text)*1.2
	var d drawing
	d.frame(.3, .3, w-.6, h-.6, 2.4, .35)

	// The name, as large as one line allows, beside the plate.
	plate := pt(t.Title) * 1.35
	name := v.symbol("plate-" + string(l.Role))
	if l.Role == "" {
		name = ""
	}
	room := inner
	if name != "" {
		room -= plate + 2
		d.use(name, w-pad-plate, pad-.4, plate)
	}
	title := pt(t.Title)
	least := pt(t.Word) * 1.05
	for title > least && v.measure(l.Name, true, title) > room {
		title -= .1
	}
	lines := v.wrap([]piece{{text: l.Name, bold: true, name: true}}, title, room)
	y := d.lines(lines, pad, pad+title*.74, title, title*1.02)
	if len(lines) == 1 && name != "" {
		y = max(y, pad+plate*.55)
	}
	under := append(v.pieces(page.Say(page.N(l.Strength)), true), v.pieces(spaced(l.Use), false)...)
	below := inner
	if y+pt(t.Key)*1.25 < pad+plate {
		below = room
	}
	y = d.lines(v.wrap(under, pt(t.Key), below), pad, y+pt(t.Key)*1.3, pt(t.Key), pt(t.Key)*1.2)
	y = max(y, pad+plate-2.2) + 1.9
	d.line(pad, y, w-pad, y, .9)
	if v.Demonstration {
		y = d.banner(v, pad, y+1.2, inner)
	}

	// Hazards: pictograms, signal word, statements. Unknown is said, not left open.
	hz := l.Hazards
	top := y + 1.6
	x := pad
	under2 := top
	drawn := 0
	for _, code := range hz.Pictograms {
		symbol := v.symbol(code)
		if symbol == "" {
			continue
		}
		// Two in a row, the next two set into the gaps below them.
		row := drawn / 2
		px := pad + (float64(drawn%2)+float64(row%2)/2)*box
		d.use(symbol, px, top+float64(row)*box/2, box)
		x, under2 = max(x, px+box+1.4), top+float64(row)*box/2+box
		drawn++
	}
	yt := top
	flow := func(pieces []piece, size, step float64) {
		for len(pieces) > 0 {
			from := x
			if yt+size*.3 >= under2+size*.2 {
				from = pad
			}
			all := v.wrap(pieces, size, w-pad-from)
			if len(all) == 0 {
				return
			}
			yt = d.lines(all[:1], from, yt+step, size, step)
			if len(all) == 1 {
				return
			}
			pieces = rest(pieces, all[0])
		}
	}
	signal := strings.ToUpper(hz.Signal)
	if hz.Status == "unknown" {
		signal = "HAZARDS NOT LOOKED UP"
	}
	if signal != "" {
		flow([]piece{{text: signal, bold: true}}, pt(t.Word)*.8, pt(t.Word)*.86)
		yt += .5
		if x > pad && w-pad-x < 25 {
			yt = max(yt, under2)
		}
	} else if hz.Status == "not classified" {
		flow([]piece{{text: "Not classified", bold: true}}, text, pitch)
	}
	for _, s := range hz.Statements {
		flow(v.pieces(s, false), text, pitch)
	}
	if len(hz.Note) > 0 {
		flow(v.pieces(hz.Note, false), text, pitch)
	}
	for _, b := range v.Page.Before {
		for _, line := range gearLines(b) {
			flow(v.pieces(line, false), text, pitch)
		}
	}
	for _, b := range v.Page.Never {
		for _, line := range textsOf(b) {
			flow(append([]piece{{text: "NEVER ", bold: true}}, v.pieces(line, false)...), text, pitch)
		}
	}
	y = max(yt, under2)

	// From the bottom up: the control line, how long it keeps, the dates.
	var low drawing
	bottom := h - 1.9
	bottom -= v.footLines(&low, pad, bottom, inner, pt(t.Foot))
	if len(l.Foot) > 0 {
		foot := v.wrap(v.pieces(l.Foot, false), pt(t.Foot)*1.1, inner)
		bottom -= float64(len(foot)) * pt(t.Foot) * 1.3
		low.lines(foot, pad, bottom+pt(t.Foot)*1.1, pt(t.Foot)*1.1, pt(t.Foot)*1.3)
	}
	small, row := pt(t.Small), pt(t.Figure)*1.75
	half := inner/2 - 1.5
	lives := v.livesLines(l.Lives, small, inner)
	bottom -= 1
	if len(lives) > 0 {
		first := bottom - float64(len(lives)-1)*small*1.22
		low.lines(lives, pad, first, small, small*1.22)
		bottom = first - small*1.1 - 1
	}
	rows := (len(l.Dates) + 1) / 2
	first := bottom - float64(max(rows-1, 0))*row
	for i, date := range l.Dates {
		cx := pad + float64(i%2)*(half+3)
		v.dateLine(&low, date, cx, first+float64(i/2)*row, half, small)
	}
	if rows > 0 {
		bottom = first - row*.82
	}
	low.line(pad, bottom, w-pad, bottom, .35)
	d.b.WriteString(low.b.String())
	return d.svg("drawn", "label: "+l.Name+", "+l.Strength, 0, 0, w, h), y <= bottom-.4
}

// rest is what of the pieces comes after a line already set.
func rest(pieces []piece, line []piece) []piece {
	n := 0
	for _, p := range line {
		n += len(p.text)
	}
	var out []piece
	for _, p := range pieces {
		if n >= len(p.text) {
			n -= len(p.text)
			continue
		}
		p.text = p.text[n:]
		n = 0
		if len(out) == 0 {
			p.text = strings.TrimLeft(p.text, " ")
		}
		if p.text != "" {
			out = append(out, p)
		}
	}
	return out
}

// gearLines are what to wear as one line of words, and the note below it.
func gearLines(b page.Block) []page.Text {
	g, ok := b.(page.Gear)
	if !ok {
		return textsOf(b)
	}
	var line page.Text
	for i, item := range g.Items {
		if i > 0 {
			line = append(line, page.W(", "))
		} else {
			line = append(line, page.S("Wear: "))
		}
		line = append(line, page.W(item.Word))
	}
	out := []page.Text{}
	if len(line) > 0 {
		out = append(out, line)
	}
	return out
}

func (v *view) livesLines(lives []page.Text, size, width float64) [][]piece {
	var all []piece
	for i, l := range lives {
		if i > 0 {
			all = append(all, piece{text: " · "})
		}
		all = append(all, v.pieces(l, false)...)
	}
	return v.wrap(all, size, width)
}

// dateLine draws one date of a label: its words, then the date or a dashed line.
func (v *view) dateLine(d *drawing, t page.Text, x, y, w, size float64) {
	blank := false
	var said []piece
	for _, p := range v.pieces(t, false) {
		if p.hole {
			blank = true
			continue
		}
		said = append(said, p)
	}
	width := 0.0
	for _, p := range said {
		width += v.measure(p.text, p.bold, size)
	}
	d.lines([][]piece{said}, x, y, size, size)
	if blank {
		d.dashed(x+width+.6, y+.5, x+w)
	}
}
