package labels

import (
	"html/template"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// Laid is a sheet of labels: its pages, and what is too large for its labels.
type Laid struct {
	Pages   []template.HTML
	TooLong []string
	Size    []float64 // of its paper, in mm
}

// Class is the class that gives the sheet its paper.
func (l Laid) Class() string { return theme.PageName(l.Size) }

// unprinted is how much smaller than the paper a whole sheet is drawn, so that a
// browser that rounds pages to points makes no second one.
const unprinted = .3

// Sheet lays labels out on their stock with crop marks. A label is drawn for
// its cell and never made smaller than it may be: one that does not fit is named
// instead.
func (m *Drawer) Sheet(v *view.View) Laid {
	s, ok := view.BlockOf[page.Sheet](v.Page)
	if !ok {
		return Laid{}
	}
	size := v.Face.Size
	if s.Paper == "letter" && len(v.Face.Larger) > 0 {
		size = v.Face.Larger[0]
	}
	hundredths := func(n int) float64 { return float64(n) / 100 }
	w, h := hundredths(s.Width), hundredths(s.Height)
	out := Laid{Size: size}
	var cells []string
	for _, want := range s.Labels {
		p, ok := m.binder.Find(want.Card)
		if !ok {
			continue
		}
		svg, fits := m.cell(v, p, want.For, w, h)
		if fits {
			cells = append(cells, svg)
		} else {
			name := p.Title
			if len(p.Lead) > 0 {
				name += ", " + v.Words(p.Lead)
			}
			out.TooLong = append(out.TooLong, name)
		}
	}
	var d draw.Drawing
	each, at, drawn := s.Rows*s.Columns, max(s.Start, 1)-1, 0
	flush := func() {
		marks(&d, s, size)
		out.Pages = append(out.Pages, d.SVG("drawn", "sheet of labels", 0, 0, size[0]-unprinted, size[1]-unprinted))
		d, drawn = draw.Drawing{}, 0
	}
	for _, svg := range cells {
		x := hundredths(s.Left + at%s.Columns*s.PitchX)
		y := hundredths(s.Top + at/s.Columns*s.PitchY)
		d.Add(`<g transform="translate(` + draw.MM(x) + ` ` + draw.MM(y) + `)">` + svg + `</g>`)
		drawn++
		if at++; at == each {
			at = 0
			flush()
		}
	}
	if drawn > 0 || len(out.Pages) == 0 {
		flush()
	}
	return out
}

// cell draws a page's label for one container, or for the first whose label fits.
func (m *Drawer) cell(v *view.View, p page.Page, bottle string, w, h float64) (string, bool) {
	l, ok := view.LabelOf(p)
	face, has := m.binder.Theme.Face("label")
	if !ok || !has {
		return "", false
	}
	for _, tag := range []bool{false, true} { // a tag only where nothing can be glued on
		for _, c := range l.For {
			if bottle != "" && c.Name != bottle || needsTag(c.Ml, w, h) != tag {
				continue
			}
			rule := ruleFor(c.Ml)
			if min(w, h) < rule.width || max(w, h) < rule.height {
				continue
			}
			other := pen{m.binder.View(p, face, view.Chosen(p))}
			set := other.onSize(l, c, w, h)
			if set.needs > h {
				continue
			}
			svg := other.drawn(set, c, w, h)
			for _, name := range other.Symbols {
				v.Symbol(name)
			}
			// In the sheet's own millimetres, not in those of a page.
			inPage := ` width="` + draw.MM(w) + `mm" height="` + draw.MM(h) + `mm"`
			inSheet := ` width="` + draw.MM(w) + `" height="` + draw.MM(h) + `"`
			return strings.Replace(string(svg), inPage, inSheet, 1), true
		}
	}
	return "", false
}

// marks draws crop marks: beside the sheet's outer edges, one millimetre clear,
// and only where the paper has room for them.
func marks(d *draw.Drawing, s page.Sheet, paper []float64) {
	const clear, long, line = 1.0, 2.5, .1
	at := func(n int) float64 { return float64(n) / 100 }
	left, top := at(s.Left), at(s.Top)
	right := left + at((s.Columns-1)*s.PitchX+s.Width)
	foot := top + at((s.Rows-1)*s.PitchY+s.Height)
	for i := range s.Columns {
		for _, x := range []float64{left + at(i*s.PitchX), left + at(i*s.PitchX+s.Width)} {
			d.Line(x, max(0, top-clear-long), x, max(0, top-clear), line)
			d.Line(x, min(paper[1], foot+clear), x, min(paper[1], foot+clear+long), line)
		}
	}
	for i := range s.Rows {
		for _, y := range []float64{top + at(i*s.PitchY), top + at(i*s.PitchY+s.Height)} {
			d.Line(max(0, left-clear-long), y, max(0, left-clear), y, line)
			d.Line(min(paper[0], right+clear), y, min(paper[0], right+clear+long), y, line)
		}
	}
}
