package labels

import (
	"cmp"
	"errors"
	"html/template"
	"math"
	"strconv"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/render/typeset"
	"wetside/build/render/wording"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// clock finds the step a strip is about, the first that is turned to a rule, and
// the one that follows it.
func (v pen) clock() (row, next page.ClockRow, ok bool) {
	for _, b := range v.Page.Do {
		c, is := b.(page.Clock)
		if !is {
			continue
		}
		for i, r := range c.Rows {
			if len(r.Ruler.Length) == 0 || len(r.Ruler.Marks) == 0 && len(r.Ruler.First) == 0 {
				continue
			}
			if i+1 < len(c.Rows) {
				next = c.Rows[i+1]
			}
			return r, next, true
		}
	}
	return page.ClockRow{}, page.ClockRow{}, false
}

// strip draws the agitation strip of a process: time runs downwards to scale.
func (v pen) strip() (template.HTML, error) {
	row, next, ok := v.clock()
	if !ok {
		return "", errors.New("a strip needs a step with a ruler")
	}
	choice := max(v.Choice, 0)
	t, ok := draw.TimelineOf(row.Ruler, choice)
	if !ok {
		return "", errors.New("a strip needs a step whose time is known")
	}
	w, h := v.Face.Size[0], v.Face.Size[1]
	const left, right, axis, digits, plate = 5.0, 5.0, 31.0, 10.0, 12.0
	inner := w - left - right
	type sizes struct{ title, big, word, text, foot float64 }
	of := v.Face.Type
	s := sizes{of.Title * typeset.Point, of.Key * typeset.Point, of.Word * typeset.Point, of.Text * typeset.Point,
		of.Foot * typeset.Point}
	figure := digits / .7 // type size whose figures are 10 mm high
	var d draw.Drawing

	// Head: what it is for, and the temperature.
	y := 4.0
	if v.Demonstration {
		y = v.banner(&d, left, y, inner)
	}
	y += s.word * .9
	d.Text(left, y, s.word, true, "", "", strings.ToUpper(v.Words(row.Word)))
	if name := v.Symbol("plate-" + string(row.Role)); name != "" && row.Role != "" {
		d.Use(name, w-right-14, y-s.word*.8, 14)
	}
	y += s.text * 1.5
	if v.Measure(v.Page.Title, true, s.text) > inner-18 { // beside the plate
		y = d.Lines(v.Wrap([]typeset.Piece{{Text: v.Page.Title, Bold: true, Name: true}}, s.text, inner-18), left, y, s.text, s.text*1.1)
	} else {
		d.Text(left, y, s.text, true, "", ` class="n"`, v.Page.Title)
	}
	subject := v.Pieces(wording.Joined(v.Page.Lead, v.ChoiceLabel()), false)
	y = d.Lines(v.Wrap(subject, s.text, inner-18), left, y+s.text*1.25, s.text, s.text*1.2)
	if q, _ := v.Quantity(); len(q.Value) > 0 {
		y += s.big * 1.05
		d.Lines([][]typeset.Piece{v.Pieces(q.Value, true)}, left, y, s.big, s.big)
	}
	y += 3
	d.Line(left, y, w-right, y, 1.2)

	// Before: what to put on.
	for _, b := range v.Page.Before {
		y = v.before(&d, b, left, y+1.5, inner, s.text)
	}
	for _, c := range row.Caution {
		y = d.Lines(v.Wrap(v.Pieces(c, true), s.text, inner), left, y+s.text*1.35, s.text, s.text*1.2)
	}
	if len(row.Cue) > 0 {
		y = d.Lines(v.Wrap(v.Pieces(row.Cue, false), s.text, inner), left, y+s.text*1.35, s.text, s.text*1.2)
	}
	y += 2.5
	d.Line(left, y, w-right, y, .6)

	// From the bottom up: foot, never, what comes next.
	var foot draw.Drawing
	footTop := h - 4 - v.footLines(&foot, left, h-4, inner, s.foot)
	bottom := footTop - 2
	// The code of its address stands beside what must never be done.
	square, beside := v.Square(), inner
	if square != nil {
		side := square.Side(draw.CodeSide)
		d.Code(square, w-right-side, bottom-side+1, side)
		beside -= side + 2
	}
	var never [][]typeset.Piece
	for _, b := range v.Page.Never {
		for _, line := range page.Said(b) {
			said := append([]typeset.Piece{{Text: "NEVER ", Bold: true}}, v.Pieces(line, false)...)
			never = append(never, v.Wrap(said, s.text, beside)...)
		}
	}
	high := float64(len(never))*s.text*1.2 + .7
	if len(never) > 0 {
		d.Lines(never, left, bottom-float64(len(never)-1)*s.text*1.2, s.text, s.text*1.2)
	}
	if square != nil {
		high = math.Max(high, square.Side(draw.CodeSide))
	}
	if len(never) > 0 || square != nil {
		bottom -= high + .5
		d.Line(left, bottom, w-right, bottom, .25)
		bottom -= 1.5
	}
	// What comes next: drain, then the next bath.
	nextTop := bottom - 2*digits - 9
	if len(next.Word) > 0 {
		nextTop -= plate + 2
	}
	d.Line(left, nextTop, w-right, nextTop, 1.2)
	base := nextTop + 3 + digits
	if len(row.Drain) > 0 && len(row.Ruler.Drain) > 0 {
		d.Text(left, base, s.text*1.3, false, "", "", "drain")
		v.bigFigure(&d, wording.Pick(row.Ruler.Drain, choice), w-right, base, figure)
		base += digits + 3.5
	}
	d.Text(left, base, s.text*1.3, false, "", "", "then")
	v.bigFigure(&d, wording.Pick(row.Ruler.Length, choice), w-right, base, figure)
	if len(next.Word) > 0 {
		x := left
		if name := v.Symbol("plate-" + string(next.Role)); name != "" && next.Role != "" {
			d.Use(name, left, base+2.5, plate)
			x += plate + 2.5
		}
		word := strings.ToUpper(v.Words(next.Word))
		size := s.title
		for size > 2.5 && v.Measure(word, true, size) > w-right-x {
			size -= .2
		}
		d.Text(x, base+2.5+plate/2+size*.35, size, true, "", "", word)
	}

	// The ruler, in the room that is left.
	top, foot1 := y+digits/2+3, nextTop-3
	scale := (foot1 - top) / t.Length
	at := func(sec float64) float64 { return top + sec*scale }
	d.Line(axis, top, axis, foot1, .7)
	const barLeft, barWide = axis + 1.2, 17.0
	if t.First > 0 {
		d.Bar(barLeft, top, barWide, t.First*scale)
	}
	for _, m := range t.Marks {
		d.Bar(barLeft, at(m), barWide, math.Max(t.Lasts*scale, 1))
	}
	if t.Drain > 0 && t.Drain < t.Length {
		d.Hatch(barLeft, at(t.Drain), barWide, math.Max(foot1-at(t.Drain), 1.6), 1.4)
	}
	words := barLeft + barWide + 1.5
	d.Text(words, top+s.text*.72, s.text, true, "", "", "pour in")
	if t.First > s.text*2/scale {
		d.Text(words, at(t.First)-.3, s.text, false, "", "", "turn")
	} else {
		d.Text(words, top+s.text*1.95, s.text, false, "", "", "turn")
	}
	if len(t.Marks) > 0 {
		d.Text(words, at(t.Marks[0])+math.Max(t.Lasts*scale, s.text*.72), s.text, false, "", "", "turn")
	}
	if t.Drain > 0 && t.Drain < t.Length {
		d.Text(words, at(t.Drain)+s.text*.3, s.text, true, "", "", "drain")
	}
	step := draw.Every(60*scale, digits+1)
	last := t.Length
	if t.Drain > 0 {
		last = t.Drain
	}
	for m := 0; float64(m)*60 <= t.Length+.001; m++ {
		ym := at(float64(m) * 60)
		d.Line(axis-2.2, ym, axis, ym, .7)
		if m%step == 0 && (m == 0 || float64(m)*60 <= last+.001) {
			d.Text(axis-3.4, ym+digits/2, figure, true, "end", ` class="n"`, strconv.Itoa(m))
		}
	}
	d.Add(foot.Inside())
	label := "agitation strip: " + v.Words(row.Word) + ", time runs downwards, solid is turn, hatched is drain"
	return d.SVG("drawn", label, 0, 0, w, h), nil
}

// bigFigure draws a figure that ends at x and returns where it begins.
func (v pen) bigFigure(d *draw.Drawing, r *figure.Record, x, y, size float64) float64 {
	shown := cmp.Or(r.Shown, "NO")
	d.Text(x, y, size, true, "end", ` data-f="`+template.HTMLEscapeString(r.ID)+`"`, shown)
	begin := x - v.Measure(shown, true, size)
	if r.Origin.Weak() {
		d.Text(x, y-size*.7-.8, 2.6, false, "end", "", wording.Mark(r.Origin.String()))
	}
	return begin
}

// banner draws the line of a demonstration below y and returns where the rest
// begins.
func (v pen) banner(d *draw.Drawing, x, y, w float64) float64 {
	size := 4.2
	for size > 1.6 && v.Measure(page.Demonstration, true, size) > w-2 {
		size -= .05
	}
	d.Line(x, y, x+w, y, .3)
	d.Text(x+w/2, y+size*1.02, size, true, "middle", "", page.Demonstration)
	y += size * 1.35
	d.Line(x, y, x+w, y, .3)
	return y + 1.2
}

// before draws a block of the part that comes before the work.
func (v pen) before(d *draw.Drawing, b page.Block, x, y, w, size float64) float64 {
	if g, ok := b.(page.Gear); ok {
		const sign = 11.0
		at := x
		for _, item := range g.Items {
			name := v.Symbol(item.Sign)
			need := v.Measure(item.Word, false, size)
			if name != "" && item.Sign != "" {
				need += sign + 1.2
			}
			if at > x && at+need > x+w {
				at, y = x, y+sign+1.5
			}
			from := at
			if name != "" && item.Sign != "" {
				d.Use(name, at, y, sign)
				from += sign + 1.2
			}
			for i, line := range v.Wrap([]typeset.Piece{{Text: item.Word}}, size, x+w-from) {
				d.Lines([][]typeset.Piece{line}, from, y+sign/2+size*.35+float64(i)*size*1.1, size, size)
			}
			at += need + 3
		}
		y += sign + .5
		if len(g.Note) > 0 {
			y = d.Lines(v.Wrap(v.Pieces(g.Note, false), size*.86, w), x, y+size*1.1, size*.86, size)
		}
		return y
	}
	for _, line := range page.Said(b) {
		y = d.Lines(v.Wrap(v.Pieces(line, false), size, w), x, y+size*1.15, size, size*1.2)
	}
	return y
}

// footLines draws the control line upwards from its last baseline and returns
// the height it takes.
func (v pen) footLines(d *draw.Drawing, x, y, w, size float64) float64 {
	lines := v.Wrap([]typeset.Piece{{Text: v.Control(true), Name: true}}, size, w)
	height := float64(len(lines)) * size * 1.2
	d.Lines(lines, x, y-float64(len(lines)-1)*size*1.2, size, size*1.2)
	d.Line(x, y-height-.6, x+w, y-height-.6, .25)
	return height + 1.2
}
