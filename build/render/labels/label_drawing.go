package labels

import (
	"html/template"
	"math"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/render/typeset"
	"wetside/procedures/page"
)

// labelDrawing is the drawing of one label at one size of type.
type labelDrawing struct {
	v       pen
	l       page.Label
	c       page.Container
	w, h    float64
	rule    labelRule
	text    float64
	across  int // pictograms side by side
	d       draw.Drawing
	pad, in float64
	x       float64 // where text begins beside the pictograms
	yt      float64 // the last baseline
	below   float64 // where the pictograms end: below it text has the whole width
}

// draw draws the label and returns the height it needs; what stands at the foot
// stands at the foot of the height given. Nothing is drawn of one that is unseen.
func (g *labelDrawing) draw() (template.HTML, float64) {
	l := g.l
	g.pad = 3 + (g.w-52)*.03
	g.in = g.w - 2*g.pad
	g.d.Frame(.3, .3, g.w-.6, g.h-.6, 2.4, .35)
	y := g.head()
	y = g.hazards(y)
	low, height := g.foot()
	bottom := g.h - 1.9 - height
	needs := y + .6 + height + 1.9
	if g.d.Unseen {
		return "", needs
	}
	g.d.Add(`<g transform="translate(0 ` + draw.MM(bottom) + `)">` + low.Inside() + `</g>`)
	return g.d.SVG("drawn", "label: "+l.Name+", "+l.Strength+", "+Holds(g.c), 0, 0, g.w, g.h), needs
}

func (g *labelDrawing) pitch() float64 { return g.text * 1.2 }

// head sets the name as large as one line allows beside the plate, the strength,
// and what the bottle holds.
func (g *labelDrawing) head() float64 {
	v, l, d, pad := g.v, g.l, &g.d, g.pad
	top := pad
	if g.tag() {
		d.Ring(g.w/2, 4.6, 2.2)
		d.Lines([][]typeset.Piece{{{Text: "tag: hang it"}}}, pad, 4.6+g.text*.36, g.text, g.text)
		top = 9
	}
	plate := g.text * 3.6
	name := ""
	if l.Role != "" {
		name = v.Symbol("plate-" + string(l.Role))
	}
	room := g.in
	if name != "" {
		room -= plate + 2
		d.Use(name, g.w-pad-plate, top-.4, plate)
	}
	title, least := g.text*3.1, g.text*1.7
	for title > least && v.Measure(l.Name, true, title) > room {
		title -= .1
	}
	if v.Measure(l.Name, true, title) > room {
		title = g.text * 2.05
	}
	lines := v.Wrap([]typeset.Piece{{Text: l.Name, Bold: true, Name: true}}, title, room)
	y := d.Lines(lines, pad, top+title*.74, title, title*1.2)
	under := v.Pieces(page.Say(page.N(l.Strength)), true)
	if len(l.Use) > 0 {
		under = append(append(under, typeset.Piece{Text: " · "}), v.Pieces(l.Use, false)...)
	}
	key := g.text * 1.25
	below := g.in
	if y+key*1.35 < top+plate+key*.8 {
		below = room
	}
	if g.c.Holds != nil {
		under = append(under, typeset.Piece{Text: " · "})
		under = append(under, v.Pieces(page.Say(page.F(g.c.Holds)), false)...)
	}
	y = d.Lines(v.Wrap(under, key, below), pad, y+key*1.35, key, key*1.2)
	if name != "" {
		y = max(y, top+plate-2)
	}
	y += 1.7
	d.Line(pad, y, g.w-pad, y, .9)
	if v.Demonstration {
		lines := v.Wrap([]typeset.Piece{{Text: page.Demonstration, Bold: true}}, g.text, g.in)
		y = d.Lines(lines, pad, y+g.text*1.15, g.text, g.pitch()) + g.text*.42
		d.Line(pad, y, g.w-pad, y, .3)
	}
	return y
}

// tag tells whether this label is too large for its smallest bottle.
func (g *labelDrawing) tag() bool {
	return strings.HasPrefix(g.v.Page.KindLine, "Bottle") && needsTag(g.c.Ml, g.w, g.h)
}

// hazards sets the pictograms, the signal word and all statements: unknown is
// said, not left open.
func (g *labelDrawing) hazards(y float64) float64 {
	v, hz := g.v, g.l.Hazards
	const apart = .9
	box := g.rule.pictogram * math.Sqrt2
	step := box + apart
	top := y + 1.4
	g.x, g.below, g.yt = g.pad, top, top
	var codes []string
	for _, code := range hz.Pictograms {
		if name := v.Symbol(code); name != "" {
			codes = append(codes, name)
		}
	}
	across := g.across
	for across > 1 && float64(across)*step-apart > g.in {
		across--
	}
	// Rows of so many and one fewer, each set into the gaps of the row above.
	for i, row := 0, 0; i < len(codes); row++ {
		n := across
		if row%2 == 1 && across > 1 {
			n--
		}
		drop := step / 2
		if across == 1 {
			drop = step
		}
		for k := 0; k < n && i < len(codes); k++ {
			px := g.pad + float64(k)*step
			if row%2 == 1 && across > 1 {
				px += step / 2
			}
			py := top + float64(row)*drop
			g.d.Use(codes[i], px, py, box)
			g.x, g.below = max(g.x, px+box+1.6), py+box
			i++
		}
	}
	if g.w-g.pad-g.x < g.text*8.5 { // too narrow for words beside them
		g.x = g.pad
		if len(codes) > 0 {
			g.yt = g.below
		}
	}
	signal := strings.ToUpper(hz.Signal)
	if hz.Status == "unknown" {
		signal = "HAZARDS NOT LOOKED UP"
	}
	switch {
	case signal != "":
		g.flow([]typeset.Piece{{Text: signal, Bold: true}}, g.text*1.45)
		g.yt += g.text * .1
	case hz.Status == "not classified":
		g.flow([]typeset.Piece{{Text: "Not classified", Bold: true}}, g.text)
	}
	for _, s := range hz.Statements {
		g.say(s)
	}
	if len(hz.Note) > 0 {
		g.say(hz.Note)
	}
	var advice []typeset.Piece
	for i, a := range g.l.Advice {
		if i > 0 {
			advice = append(advice, typeset.Piece{Text: " "})
		}
		advice = append(advice, v.Pieces(a.Full, false)...)
	}
	g.flow(advice, g.text)
	for _, b := range v.Page.Before {
		for _, line := range page.Said(b) {
			g.say(line)
		}
	}
	var never []typeset.Piece
	seen := map[string]bool{}
	for _, b := range v.Nevers() {
		for _, line := range page.Said(b) {
			words := v.Words(line)
			if seen[words] {
				continue
			}
			seen[words] = true
			if len(never) == 0 {
				never = []typeset.Piece{{Text: "NEVER ", Bold: true}}
			} else {
				never = append(never, typeset.Piece{Text: " · "})
			}
			never = append(never, v.Pieces(line, false)...)
		}
	}
	g.flow(never, g.text)
	return max(g.yt+g.text*.3, g.below)
}

func (g *labelDrawing) say(t page.Text) { g.flow(g.v.Pieces(t, false), g.text) }

// flow sets pieces line by line, beside the pictograms as long as they last.
func (g *labelDrawing) flow(pieces []typeset.Piece, size float64) {
	pitch := size * 1.2
	for len(pieces) > 0 {
		from, beside := g.pad, g.yt+size*.25 < g.below
		if beside {
			from = g.x
		}
		all := g.v.Wrap(pieces, size, g.w-g.pad-from)
		set := len(all)
		for y, i := g.yt, 0; beside && i < len(all); i++ {
			if y+size*.25 >= g.below {
				set = i // the pictograms end here: the rest has the whole width
				break
			}
			y += pitch
		}
		if set > 0 {
			g.yt = g.d.Lines(all[:set], from, g.yt+pitch, size, pitch)
		}
		if set == len(all) {
			return
		}
		for _, line := range all[:set] {
			pieces = typeset.Rest(pieces, line)
		}
	}
}

// foot draws what stands at the foot, downwards from nothing, and returns its
// height: the dates, how long it keeps, the ladder, the code, the control line.
func (g *labelDrawing) foot() (draw.Drawing, float64) {
	v, l, pad := g.v, g.l, g.pad
	d := draw.Drawing{Unseen: g.d.Unseen}
	d.Line(pad, 0, g.w-pad, 0, .35)
	least := draw.CodeSide
	if g.w < 60 {
		least = draw.CodeSmall
	}
	square := v.Square()
	side := square.Side(least)
	room := g.in
	if square != nil {
		d.Code(square, g.w-pad-side, .6, side)
		room -= side + 1.2
	}
	row := g.text * 1.7
	columns, gap := 2, 2.0
	for _, date := range l.Dates {
		if v.dateWidth(date, g.text) > (room-gap)/2 {
			columns = 1
		}
	}
	wide := (room - gap*float64(columns-1)) / float64(columns)
	y := 0.0
	for i, date := range l.Dates {
		if i%columns == 0 {
			y += row
		}
		lines := v.dateLine(&d, date, pad+float64(i%columns)*(wide+gap), y-g.text*.35, wide, g.text)
		y += float64(lines-1) * g.pitch()
	}
	if len(l.Lives) > 0 {
		y = d.Lines(v.livesLines(l.Lives, g.text, room), pad, y+g.text*1.1, g.text, g.pitch()) + g.text*.3
	}
	if square != nil {
		said := v.Wrap([]typeset.Piece{{Text: v.Own(), Name: true}}, g.text, room)
		if y+float64(len(said))*g.pitch() > side { // no room beside it: below, in the whole width
			y = max(y, side+.6)
			said = v.Wrap([]typeset.Piece{{Text: v.Own(), Name: true}}, g.text, g.in)
		}
		y = d.Lines(said, pad, y+g.text*1.1, g.text, g.pitch()) + g.text*.3
		y = max(y, side+.6)
	}
	for _, t := range g.c.Tally {
		y = g.tally(&d, t, y)
	}
	d.Line(pad, y+.5, g.w-pad, y+.5, .25)
	last := v.ShortControl()
	end := v.Pieces(l.Foot, false)
	if len(end) > 0 {
		end = append(end, typeset.Piece{Text: " "})
	}
	end = append(end, typeset.Piece{Text: last, Name: true})
	y = d.Lines(v.Wrap(end, g.text, g.in), pad, y+.5+g.text*1.15, g.text, g.pitch()) + g.text*.3
	return d, y
}

// The ladder of a label: its boxes, and how many a label bears. Beyond that
// strokes are counted in fives on lines.
const (
	box, boxStep, mostStrokes = 4.2, 5.0, 400
)

// tally draws exactly as many boxes as the bath treats, closed by a bar.
func (g *labelDrawing) tally(d *draw.Drawing, t page.Ticks, y float64) float64 {
	v := g.v
	y = d.Lines(v.Wrap(v.Pieces(t.Label, false), g.text, g.in), g.pad, y+g.text*1.15, g.text, g.pitch()) + g.text*.35
	if t.Boxes > mostStrokes {
		y += g.text * 2
		d.Dashed(g.pad, y, g.w-g.pad)
		y += g.text * 2
		d.Dashed(g.pad, y, g.w-g.pad)
		return y + .6
	}
	stop := v.Measure("STOP", true, g.text) + 3
	x := g.pad
	for i := range t.Boxes {
		if x+box > g.w-g.pad+.01 {
			x, y = g.pad, y+boxStep
		}
		width := .3
		if i%5 == 4 {
			width = .6
		}
		d.Box(x+.3, y+.3, box-.6, width)
		if i < t.Done {
			d.Stroke(x+.3, y+.3, box-.6)
		}
		x += boxStep
	}
	if x+stop > g.w-g.pad {
		x, y = g.pad, y+boxStep
	}
	d.Bar(x, y, 1.4, box)
	d.Text(x+2.2, y+box/2+g.text*.36, g.text, true, "", "", "STOP")
	return y + boxStep
}

func (v pen) livesLines(lives []page.Text, size, width float64) [][]typeset.Piece {
	var all []typeset.Piece
	for i, l := range lives {
		if i > 0 {
			all = append(all, typeset.Piece{Text: " · "})
		}
		all = append(all, v.Pieces(l, false)...)
	}
	return v.Wrap(all, size, width)
}

// writingRoom is the least room for a date written by hand, in parts of the type size.
const writingRoom = 4.2

// dated splits one date of a label into its words and whether a line follows.
func (v pen) dated(t page.Text) (said []typeset.Piece, blank bool) {
	for _, p := range v.Pieces(t, false) {
		if p.Hole && strings.HasPrefix(p.Text, "_") {
			blank = true
			continue
		}
		said = append(said, p)
	}
	return said, blank
}

// dateWidth is the room that one date of a label wants.
func (v pen) dateWidth(t page.Text, size float64) float64 {
	said, blank := v.dated(t)
	width := 0.0
	for _, p := range said {
		width += v.Measure(p.Text, p.Bold, size)
	}
	if blank {
		width += writingRoom * size
	}
	return width
}

// dateLine draws one date of a label: its words, then the date or a dashed line.
// It returns how many lines it takes.
func (v pen) dateLine(d *draw.Drawing, t page.Text, x, y, w, size float64) int {
	said, blank := v.dated(t)
	lines := v.Wrap(said, size, w)
	y = d.Lines(lines, x, y, size, size*1.2)
	if blank && len(lines) > 0 {
		width := 0.0
		for _, p := range lines[len(lines)-1] {
			width += v.Measure(p.Text, p.Bold, size)
		}
		d.Dashed(x+width+1, y+.5, x+w)
	}
	return len(lines)
}
