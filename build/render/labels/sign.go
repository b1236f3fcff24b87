package labels

import (
	"html/template"
	"math"
	"path"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/render/typeset"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// Capital is the height of a capital in the face for paper, in parts of the type
// size.
const Capital = .7

// labelName is the name of a page's label or sign in its folder.
func labelName(id string) string {
	return strings.ReplaceAll(strings.TrimPrefix(id, "label/"), "/", "-")
}

// form is how a sign is drawn: its sheets, smallest first, and its letters.
type form struct {
	word    string // its folder
	sizes   [][]float64
	letters float64 // height of a capital in mm
	shrink  bool    // letters may be smaller, as those of a bath without a role
	text    float64
}

// forms by name. The letters of a tray are read across the room: 30 mm.
var forms = map[string]form{
	"tray":  {"trays", [][]float64{{210, 148}}, 30, false, 7.4},
	"tag":   {"tags", [][]float64{{105, 148}}, 13, true, 4.2},
	"shelf": {"shelves", [][]float64{{190, 40}, {190, 64}, {190, 90}}, 10, true, 4},
}

// SignPath is the file of a page's sign.
func SignPath(f theme.Face, id string, s page.Sign) string {
	return path.Join(f.Folder, forms[s.Form].word, labelName(id)) + ".html"
}

// Sign draws the page's sign on the smallest sheet of its form that holds it whole, and
// returns the size of that sheet; nothing where the page has none.
func Sign(of *view.View) (svg template.HTML, size []float64) {
	v := pen{of}
	s, ok := view.BlockOf[page.Sign](v.Page)
	if !ok {
		return "", nil
	}
	f := forms[s.Form]
	for i, sheet := range f.sizes {
		drawn, needs := v.sign(s, f, sheet[0], sheet[1])
		if svg, size = drawn, sheet; needs <= sheet[1] {
			break
		}
		if i == len(f.sizes)-1 { // longer than its last sheet rather than cut
			svg, _ = v.sign(s, f, sheet[0], math.Ceil(needs))
		}
	}
	return svg, size
}

func (v pen) sign(s page.Sign, f form, w, h float64) (template.HTML, float64) {
	const pad = 7.0
	in := w - 2*pad
	var d draw.Drawing
	d.Frame(.3, .3, w-.6, h-.6, 2.4, .35)
	y := pad
	if s.Form == "tag" {
		d.Ring(w/2, 8, 2.6)
		y = 14
		d.Hatch(pad, y, in, 7, 2)
		y += 10
	}
	if v.Demonstration {
		y = v.banner(&d, pad, y-3, in) + 2.6
	}
	// The letters, and beside them the plate.
	size := f.letters / Capital
	room := in
	high := f.letters
	name := ""
	if s.Role != "" {
		if name = v.Symbol("plate-" + string(s.Role)); name != "" {
			room -= high + 6
			d.Use(name, w-pad-high-2, y, high+2)
		}
	}
	if f.shrink || s.Role == page.Other {
		for size > f.text && v.widest(s.Letters, size) > room {
			size -= .2
		}
	}
	lines := v.Wrap([]typeset.Piece{{Text: s.Letters, Bold: true, Name: true}}, size, room)
	plate := y + high + 2
	y = d.Lines(lines, pad, y+size*Capital, size, size*.92)
	y += max(2.5, size*.09)
	if strings.ToUpper(s.Letters) != s.Letters { // room for what hangs below the line
		y += size * .15
	}
	if name != "" {
		y = max(y, plate+1)
	}
	d.Line(pad, y, w-pad, y, 1.2)
	y += 1
	in2 := in
	square := v.Square()
	side := square.Side(draw.CodeSide)
	if square != nil {
		d.Code(square, w-pad-side, y+1, side)
		in2 -= side + 3
	}
	top := y
	say := func(pieces []typeset.Piece, size float64) {
		y = d.Lines(v.Wrap(pieces, size, in2), pad, y+size*1.25, size, size*1.22)
	}
	for _, t := range s.Under {
		say(v.Pieces(t, false), f.text)
	}
	for _, b := range v.Page.Before {
		if g, ok := b.(page.Gear); ok && s.Form == "tray" {
			y = v.before(&d, page.Gear{Items: g.Items}, pad, y+3, in2, f.text) + 1
			continue
		}
		for _, line := range page.Said(b) {
			say(v.Pieces(line, false), f.text)
		}
	}
	var never []typeset.Piece
	for _, b := range v.NeversRunOn() {
		for _, line := range page.Said(b) {
			if len(never) == 0 {
				never = append(never, typeset.Piece{Text: "NEVER ", Bold: true})
			} else {
				never = append(never, typeset.Piece{Text: " · "})
			}
			never = append(never, v.Pieces(line, false)...)
		}
	}
	if len(never) > 0 {
		say(never, f.text)
	}
	for _, t := range s.Blanks {
		y += f.text * 2
		v.dateLine(&d, t, pad, y, in2, f.text)
	}
	if square != nil {
		y = d.Lines(v.Wrap([]typeset.Piece{{Text: v.Own(), Name: true}}, 3, in2), pad, y+4.6, 3, 3.6)
		y = max(y, top+side+1)
	}
	var low draw.Drawing
	end := v.Wrap([]typeset.Piece{{Text: v.ShortControl(), Name: true}}, 2.8, in)
	foot := float64(len(end))*3.4 + 1.5
	low.Line(pad, h-3.2-foot, w-pad, h-3.2-foot, .25)
	low.Lines(end, pad, h-3.2-foot+3.6, 2.8, 3.4)
	d.Add(low.Inside())
	return d.SVG("drawn", strings.ToLower(v.Page.KindLine)+": "+s.Letters, 0, 0, w, h), y + 2.5 + foot + 3.2
}

// widest is the width of the longest line that cannot be shorter: a tag may take
// two lines, a shelf edge one.
func (v pen) widest(s string, size float64) float64 {
	if i := strings.LastIndexByte(s, ' '); i > 0 && len(s) < 14 {
		return max(v.Measure(s[:i], true, size), v.Measure(s[i+1:], true, size))
	}
	return v.Measure(s, true, size)
}
