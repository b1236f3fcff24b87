package render

import (
	"html/template"
	"math"
	"path"
	"strings"

	"wetside/build/theme"
	"wetside/procedures/page"
)

// labelRule is one step of the table in point 1.2.1.4 of Annex I of Regulation
// (EC) No 1272/2008, as amended by Regulation (EU) 2024/2865: up to a capacity,
// the least size of a label, the least side of a pictogram and the least height
// of a small letter. Sides are those of a fifteenth of the label's area.
type labelRule struct {
	most             int // ml
	width, height    float64
	pictogram, small float64
}

var labelRules = []labelRule{
	{500, 52, 74, 16.1, 1.2},
	{3000, 52, 74, 16.1, 1.4},
	{50000, 74, 105, 23, 1.8},
	{500000, 105, 148, 32.2, 2},
	{math.MaxInt, 148, 210, 46, 2},
}

func ruleFor(ml int) labelRule {
	for _, r := range labelRules {
		if ml <= r.most {
			return r
		}
	}
	return labelRules[len(labelRules)-1]
}

// smallLetter is the height of a small letter in the face for paper, in parts of
// the type size; a browser test measures it.
const smallLetter = .505

// hangs tells whether a label must be hung on its bottle: it is wider than half
// of what goes round, or higher than the straight side. Bottles are taken as
// round, their straight side 1.4 times as high as they are wide: a rule of thumb
// for laboratory bottles, from memory.
func hangs(ml int, w, h float64) bool {
	if ml <= 0 {
		return false
	}
	const straight = 1.4
	wide := math.Cbrt(float64(ml) * 1000 * 4 / (math.Pi * straight))
	return w > math.Pi*wide/2 || h > straight*wide
}

// Drawing draws what a drawn face is for.
func (v *view) Drawing() (template.HTML, error) {
	switch v.Face.Name {
	case "strip":
		return v.Strip()
	case "sign":
		return v.SignDrawing(), nil
	}
	return v.LabelDrawing(), nil
}

// LabelDrawing draws the page's label for the container of this sheet, on the
// smallest of the face's sizes that holds it whole.
func (v *view) LabelDrawing() template.HTML {
	l, ok := labelOf(v.Page)
	if !ok {
		return ""
	}
	var c page.Container
	for _, other := range l.For {
		if other.Name == v.container {
			c = other
		}
	}
	return v.glued(l, c)
}

// glued draws a label for a container. One that no size holds is drawn longer
// than the last: nothing is ever left out of it.
func (v *view) glued(l page.Label, c page.Container) template.HTML {
	key := v.Page.ID + "@" + c.Name
	if had, ok := v.site.glued.Load(key); ok {
		had := had.(gluedLabel)
		v.size = had.size
		for _, name := range had.symbols {
			v.symbol(name)
		}
		return had.svg
	}
	fresh := *v
	fresh.symbols = nil
	svg := fresh.fitted(l, c)
	v.size, v.missing = fresh.size, append(v.missing, fresh.missing...)
	for _, name := range fresh.symbols {
		v.symbol(name)
	}
	v.site.glued.Store(key, gluedLabel{svg, fresh.size, fresh.symbols})
	return svg
}

// gluedLabel is a label that has been drawn: it stands on its own sheet and on
// its page.
type gluedLabel struct {
	svg     template.HTML
	size    []float64
	symbols []string
}

func (v *view) fitted(l page.Label, c page.Container) template.HTML {
	rule := ruleFor(c.Ml)
	sizes := append([][]float64{v.Face.Size}, v.Face.Larger...)
	var last template.HTML
	for i, size := range sizes {
		v.size = size
		if size[0] < rule.width || size[1] < rule.height {
			continue
		}
		out, needs := v.onSize(l, c, size[0], size[1])
		if needs <= size[1] {
			return out
		}
		if i == len(sizes)-1 {
			last, _ = v.onSize(l, c, size[0], math.Ceil(needs))
		}
	}
	return last
}

// grows are the steps by which the type of a label may be larger than it must.
var grows = []float64{1, 1.1, 1.2, 1.3, 1.45, 1.6}

// onSize draws a label on one size of paper as large as it can be there, and
// returns the height it needs.
func (v *view) onSize(l page.Label, c page.Container, w, h float64) (template.HTML, float64) {
	rule := ruleFor(c.Ml)
	var out template.HTML
	needs := math.Inf(1)
	for _, grow := range grows {
		fits := false
		for across := max(1, min(3, len(l.Hazards.Pictograms))); across >= 1; across-- {
			g := gluing{v: v, l: l, c: c, w: w, h: h, rule: rule, across: across, text: rule.small / smallLetter * grow}
			drawn, need := g.draw()
			if need <= h || grow == 1 && need < needs {
				out, needs, fits = drawn, need, need <= h
			}
			if fits {
				break
			}
		}
		if !fits {
			break
		}
	}
	return out, needs
}

// gluing is the drawing of one label at one size of type.
type gluing struct {
	v        *view
	l        page.Label
	c        page.Container
	w, h     float64
	rule     labelRule
	text     float64
	across   int // pictograms side by side
	d        drawing
	pad, in  float64
	x        float64 // where text begins beside the pictograms
	yt, deep float64 // the last baseline; below it text has the whole width
}

// draw draws the label and returns the height it needs; what stands at the foot
// stands at the foot of the height given.
func (g *gluing) draw() (template.HTML, float64) {
	v, l := g.v, g.l
	g.pad = 3 + (g.w-52)*.03
	g.in = g.w - 2*g.pad
	g.d.frame(.3, .3, g.w-.6, g.h-.6, 2.4, .35)
	y := g.head()
	y = g.hazards(y)
	low, height := g.foot()
	bottom := g.h - 1.9 - height
	needs := y + .6 + height + 1.9
	g.d.b.WriteString(`<g transform="translate(0 ` + mm(bottom) + `)">` + low.b.String() + `</g>`)
	return g.d.svg("drawn", "label: "+l.Name+", "+l.Strength+", "+v.holds(g.c), 0, 0, g.w, g.h), needs
}

// holds says which bottle a label is for.
func (v *view) holds(c page.Container) string { return v.words(page.Say(page.F(c.Holds))) }

func (g *gluing) pitch() float64 { return g.text * 1.2 }

// head sets the name as large as one line allows beside the plate, the strength,
// and what the bottle holds.
func (g *gluing) head() float64 {
	v, l, d, pad := g.v, g.l, &g.d, g.pad
	top := pad
	if g.tag() {
		d.b.WriteString(`<circle cx="` + mm(g.w/2) + `" cy="4.6" r="2.2" fill="none" stroke="currentColor" stroke-width=".35"/>`)
		d.lines([][]piece{{{text: "tag: hang it"}}}, pad, 4.6+g.text*.36, g.text, g.text)
		top = 9
	}
	plate := g.text * 3.6
	name := ""
	if l.Role != "" {
		name = v.symbol("plate-" + string(l.Role))
	}
	room := g.in
	if name != "" {
		room -= plate + 2
		d.use(name, g.w-pad-plate, top-.4, plate)
	}
	title, least := g.text*3.1, g.text*1.7
	for title > least && v.measure(l.Name, true, title) > room {
		title -= .1
	}
	if v.measure(l.Name, true, title) > room {
		title = g.text * 2.05
	}
	lines := v.wrap([]piece{{text: l.Name, bold: true, name: true}}, title, room)
	y := d.lines(lines, pad, top+title*.74, title, title*1.2)
	under := v.pieces(page.Say(page.N(l.Strength)), true)
	if len(l.Use) > 0 {
		under = append(append(under, piece{text: " · "}), v.pieces(l.Use, false)...)
	}
	key := g.text * 1.25
	below := g.in
	if y+key*1.35 < top+plate+key*.8 {
		below = room
	}
	if g.c.Holds != "" {
		under = append(under, piece{text: " · "})
		under = append(under, v.pieces(page.Say(page.F(g.c.Holds)), false)...)
	}
	y = d.lines(v.wrap(under, key, below), pad, y+key*1.35, key, key*1.2)
	if name != "" {
		y = max(y, top+plate-2)
	}
	y += 1.7
	d.line(pad, y, g.w-pad, y, .9)
	if v.Demonstration {
		lines := v.wrap([]piece{{text: Demonstration, bold: true}}, g.text, g.in)
		y = d.lines(lines, pad, y+g.text*1.15, g.text, g.pitch()) + g.text*.42
		d.line(pad, y, g.w-pad, y, .3)
	}
	return y
}

// tag tells whether this label is too large for its smallest bottle.
func (g *gluing) tag() bool {
	return strings.HasPrefix(g.v.Page.KindLine, "Bottle") && hangs(g.c.Ml, g.w, g.h)
}

// hazards sets the pictograms, the signal word and all statements: unknown is
// said, not left open.
func (g *gluing) hazards(y float64) float64 {
	v, hz := g.v, g.l.Hazards
	const apart = .9
	box := g.rule.pictogram * math.Sqrt2
	step := box + apart
	top := y + 1.4
	g.x, g.deep, g.yt = g.pad, top, top
	var codes []string
	for _, code := range hz.Pictograms {
		if name := v.symbol(code); name != "" {
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
			g.d.use(codes[i], px, py, box)
			g.x, g.deep = max(g.x, px+box+1.6), py+box
			i++
		}
	}
	if g.w-g.pad-g.x < g.text*8.5 { // too narrow for words beside them
		g.x = g.pad
		if len(codes) > 0 {
			g.yt = g.deep
		}
	}
	signal := strings.ToUpper(hz.Signal)
	if hz.Status == "unknown" {
		signal = "HAZARDS NOT LOOKED UP"
	}
	switch {
	case signal != "":
		g.flow([]piece{{text: signal, bold: true}}, g.text*1.45)
		g.yt += g.text * .1
	case hz.Status == "not classified":
		g.flow([]piece{{text: "Not classified", bold: true}}, g.text)
	}
	for _, s := range hz.Statements {
		g.say(s)
	}
	if len(hz.Note) > 0 {
		g.say(hz.Note)
	}
	for _, b := range v.Page.Before {
		for _, line := range page.Said(b) {
			g.say(line)
		}
	}
	var never []piece
	seen := map[string]bool{}
	for _, b := range v.nevers() {
		for _, line := range page.Said(b) {
			words := v.words(line)
			if seen[words] {
				continue
			}
			seen[words] = true
			if len(never) == 0 {
				never = []piece{{text: "NEVER ", bold: true}}
			} else {
				never = append(never, piece{text: " · "})
			}
			never = append(never, v.pieces(line, false)...)
		}
	}
	g.flow(never, g.text)
	return max(g.yt+g.text*.3, g.deep)
}

func (g *gluing) say(t page.Text) { g.flow(g.v.pieces(t, false), g.text) }

// flow sets pieces line by line, beside the pictograms as long as they last.
func (g *gluing) flow(pieces []piece, size float64) {
	for len(pieces) > 0 {
		from := g.x
		if g.yt+size*.25 >= g.deep {
			from = g.pad
		}
		all := g.v.wrap(pieces, size, g.w-g.pad-from)
		if len(all) == 0 {
			return
		}
		g.yt = g.d.lines(all[:1], from, g.yt+size*1.2, size, size*1.2)
		if len(all) == 1 {
			return
		}
		pieces = rest(pieces, all[0])
	}
}

// foot draws what stands at the foot, downwards from nothing, and returns its
// height: the dates, how long it keeps, the ladder, the code, the control line.
func (g *gluing) foot() (drawing, float64) {
	v, l, pad := g.v, g.l, g.pad
	var d drawing
	d.line(pad, 0, g.w-pad, 0, .35)
	least := codeSide
	if g.w < 60 {
		least = codeSmall
	}
	square := v.square()
	side := square.side(least)
	room := g.in
	if square != nil {
		d.code(square, g.w-pad-side, .6, side)
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
		y = d.lines(v.livesLines(l.Lives, g.text, room), pad, y+g.text*1.1, g.text, g.pitch()) + g.text*.3
	}
	if square != nil {
		said := v.wrap([]piece{{text: v.own(), name: true}}, g.text, room)
		if y+float64(len(said))*g.pitch() > side { // no room beside it: below, in the whole width
			y = max(y, side+.6)
			said = v.wrap([]piece{{text: v.own(), name: true}}, g.text, g.in)
		}
		y = d.lines(said, pad, y+g.text*1.1, g.text, g.pitch()) + g.text*.3
		y = max(y, side+.6)
	}
	for _, t := range g.c.Tally {
		y = g.tally(&d, t, y)
	}
	d.line(pad, y+.5, g.w-pad, y+.5, .25)
	last := v.brief()
	end := v.pieces(l.Foot, false)
	if len(end) > 0 {
		end = append(end, piece{text: " "})
	}
	end = append(end, piece{text: last, name: true})
	y = d.lines(v.wrap(end, g.text, g.in), pad, y+.5+g.text*1.15, g.text, g.pitch()) + g.text*.3
	return d, y
}

// The ladder of a label: its boxes, and how many a label bears. Beyond that
// strokes are counted in fives on lines.
const (
	box, boxStep, mostStrokes = 4.2, 5.0, 400
)

// tally draws exactly as many boxes as the bath treats, closed by a bar.
func (g *gluing) tally(d *drawing, t page.Ticks, y float64) float64 {
	v := g.v
	y = d.lines(v.wrap(v.pieces(t.Label, false), g.text, g.in), g.pad, y+g.text*1.15, g.text, g.pitch()) + g.text*.35
	if t.Boxes > mostStrokes {
		y += g.text * 2
		d.dashed(g.pad, y, g.w-g.pad)
		y += g.text * 2
		d.dashed(g.pad, y, g.w-g.pad)
		return y + .6
	}
	stop := v.measure("STOP", true, g.text) + 3
	x := g.pad
	for i := range t.Boxes {
		if x+box > g.w-g.pad+.01 {
			x, y = g.pad, y+boxStep
		}
		width := .3
		if i%5 == 4 {
			width = .6
		}
		d.box(x+.3, y+.3, box-.6, width)
		if i < t.Done {
			d.stroke(x+.3, y+.3, box-.6)
		}
		x += boxStep
	}
	if x+stop > g.w-g.pad {
		x, y = g.pad, y+boxStep
	}
	d.bar(x, y, 1.4, box)
	d.text(x+2.2, y+box/2+g.text*.36, g.text, true, "", "", "STOP")
	return y + boxStep
}

// box is a box for a stroke.
func (d *drawing) box(x, y, side, width float64) {
	s := mm(side)
	d.b.WriteString(`<path class="stroke" d="M` + mm(x) + ` ` + mm(y) + `h` + s + `v` + s + `h-` + s + `z" fill="none" stroke="currentColor" stroke-width="` + mm(width) + `"/>`)
}

// stroke strikes a box out.
func (d *drawing) stroke(x, y, side float64) {
	d.b.WriteString(`<path class="struck" d="M` + mm(x-.4) + ` ` + mm(y+side+.4) + `l` + mm(side+.8) + ` -` + mm(side+.8) + `" fill="none" stroke="currentColor" stroke-width=".6"/>`)
}

// made is a label as it is drawn for one container.
type made struct {
	SVG   template.HTML
	Holds page.Text
	Note  string
}

// Labels draws the page's label for every container, for a screen; in the
// bound binder for the first alone.
func (v *view) Labels() []made {
	l, _ := labelOf(v.Page)
	face, ok := v.site.theme.Face("label")
	if !ok {
		return nil
	}
	var out []made
	for _, c := range l.For {
		other := *v
		other.Face, other.Choice = face, chosen(v.Page)
		svg := other.glued(l, c)
		v.symbols, v.missing = other.symbols, other.missing
		note := theme.Millimetres(other.size)
		if hangs(c.Ml, other.size[0], other.size[1]) && strings.HasPrefix(v.Page.KindLine, "Bottle") {
			note += ", larger than the side of such a bottle: a tag to hang on it"
		}
		out = append(out, made{svg, page.Say(page.F(c.Holds)), note})
		if v.Bound {
			break
		}
	}
	return out
}

// PageClass is the class that gives a drawn sheet its paper.
func (v *view) PageClass() string { return theme.PageName(v.size) }

// labelPath is the file of a page's label for one container.
func labelPath(f theme.Face, id string, c page.Container) string {
	return path.Join(f.Folder, c.Name, labelName(id)) + ".html"
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

// pencil is the least room for a date written by hand, in parts of the type size.
const pencil = 4.2

// dated splits one date of a label into its words and whether a line follows.
func (v *view) dated(t page.Text) (said []piece, blank bool) {
	for _, p := range v.pieces(t, false) {
		if p.hole && strings.HasPrefix(p.text, "_") {
			blank = true
			continue
		}
		said = append(said, p)
	}
	return said, blank
}

// dateWidth is the room that one date of a label wants.
func (v *view) dateWidth(t page.Text, size float64) float64 {
	said, blank := v.dated(t)
	width := 0.0
	for _, p := range said {
		width += v.measure(p.text, p.bold, size)
	}
	if blank {
		width += pencil * size
	}
	return width
}

// dateLine draws one date of a label: its words, then the date or a dashed line.
// It returns how many lines it takes.
func (v *view) dateLine(d *drawing, t page.Text, x, y, w, size float64) int {
	said, blank := v.dated(t)
	lines := v.wrap(said, size, w)
	y = d.lines(lines, x, y, size, size*1.2)
	if blank && len(lines) > 0 {
		width := 0.0
		for _, p := range lines[len(lines)-1] {
			width += v.measure(p.text, p.bold, size)
		}
		d.dashed(x+width+1, y+.5, x+w)
	}
	return len(lines)
}
