package render

import (
	"html/template"
	"math"
	"path"
	"slices"
	"strings"
	"sync"

	"wetside/build/render/view"
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

// needsTag tells whether a label must be a tag that is hung on its bottle: it is wider than half
// of what goes round, or higher than the straight side. Bottles are taken as
// round, their straight side 1.4 times as high as they are wide: a rule of thumb
// for laboratory bottles, from memory.
func needsTag(ml int, w, h float64) bool {
	if ml <= 0 {
		return false
	}
	const straight = 1.4
	wide := math.Cbrt(float64(ml) * 1000 * 4 / (math.Pi * straight))
	return w > math.Pi*wide/2 || h > straight*wide
}

// drawer draws the labels, signs and strips of a binder. It is used by several goroutines at
// once: a label that has been drawn stands on its own sheet and on its page.
type drawer struct {
	binder *view.Binder
	drawn  sync.Map
}

// newDrawer draws for a binder.
func newDrawer(b *view.Binder) *drawer { return &drawer{binder: b} }

// drawing draws what the view's face is for, a label for the container of that name, and
// returns the size of its paper in mm.
func (d *drawer) drawing(v *view.View, container string) (svg template.HTML, size []float64, err error) {
	switch v.Face.Name {
	case "strip":
		svg, err = pen{v}.strip()
		return svg, v.Face.Size, err
	case "sign":
		svg, size = Sign(v)
		return svg, size, nil
	}
	l, ok := view.LabelOf(v.Page)
	if !ok {
		return "", v.Face.Size, nil
	}
	var c page.Container
	for _, other := range l.For {
		if other.Name == container {
			c = other
		}
	}
	svg, size = d.label(v, l, c)
	return svg, size, nil
}

// label draws a label for a container. One that no size holds is drawn longer
// than the last: nothing is ever left out of it.
func (d *drawer) label(v *view.View, l page.Label, c page.Container) (template.HTML, []float64) {
	key := v.Page.ID + "@" + c.Name
	if had, ok := d.drawn.Load(key); ok {
		had := had.(drawnLabel)
		for _, name := range had.symbols {
			v.Symbol(name)
		}
		return had.svg, had.size
	}
	fresh := *v
	fresh.Symbols = nil
	svg, size := pen{&fresh}.fitted(l, c)
	for _, name := range fresh.Symbols {
		v.Symbol(name)
	}
	d.drawn.Store(key, drawnLabel{svg, size, fresh.Symbols})
	return svg, size
}

// drawnLabel is a label that has been drawn.
type drawnLabel struct {
	svg     template.HTML
	size    []float64
	symbols []string
}

// fitted draws a label on the smallest of the face's sizes that holds it whole.
func (v pen) fitted(l page.Label, c page.Container) (svg template.HTML, size []float64) {
	rule := ruleFor(c.Ml)
	sizes := append([][]float64{v.Face.Size}, v.Face.Larger...)
	for i, sheet := range sizes {
		size = sheet
		if size[0] < rule.width || size[1] < rule.height {
			continue
		}
		out, needs := v.onSize(l, c, size[0], size[1])
		if needs <= size[1] {
			return out, size
		}
		if i == len(sizes)-1 {
			svg, _ = v.onSize(l, c, size[0], math.Ceil(needs))
		}
	}
	return svg, size
}

// pen draws what one view says.
type pen struct{ *view.View }

// grows are the steps by which the type of a label may be larger than it must.
var grows = []float64{1, 1.1, 1.2, 1.3, 1.45, 1.6}

// onSize draws a label on one size of paper, with its ladder and as much of its advice as fits,
// and returns the height it needs: no label is larger for their sake.
func (v pen) onSize(l page.Label, c page.Container, w, h float64) (template.HTML, float64) {
	plain := l
	plain.Advice = nil
	tall := plain
	if len(l.Ladder) > 0 {
		tall.Dates, tall.Lives = l.Ladder, l.Rest
		if !v.fitsSmall(tall, c, w, h) {
			tall = plain
		}
	}
	for _, a := range l.Advice {
		advised := tall
		advised.Advice = append(slices.Clone(tall.Advice), a)
		if v.fitsSmall(advised, c, w, h) {
			tall = advised
		}
	}
	return v.asLarge(tall, c, w, h)
}

// fitsSmall reports whether a label fits a size of paper in the smallest type that it may
// have there.
func (v pen) fitsSmall(l page.Label, c page.Container, w, h float64) bool {
	_, needs := v.asSmall(l, c, w, h, 1)
	return needs <= h
}

// asSmall draws a label in type so many times its smallest, with as many pictograms side by
// side as fit best, and returns the height it needs.
func (v pen) asSmall(l page.Label, c page.Container, w, h, grow float64) (out template.HTML, needs float64) {
	rule := ruleFor(c.Ml)
	needs = math.Inf(1)
	for across := max(1, min(3, len(l.Hazards.Pictograms))); across >= 1; across-- {
		g := labelDrawing{v: v, l: l, c: c, w: w, h: h, rule: rule, across: across,
			text: rule.small / smallLetter * grow}
		if drawn, need := g.draw(); need < needs {
			out, needs = drawn, need
		}
		if needs <= h {
			break
		}
	}
	return out, needs
}

// asLarge draws a label on one size of paper as large as it can be there, and
// returns the height it needs.
func (v pen) asLarge(l page.Label, c page.Container, w, h float64) (template.HTML, float64) {
	out, needs := v.asSmall(l, c, w, h, grows[0])
	for _, grow := range grows[1:] {
		larger, need := v.asSmall(l, c, w, h, grow)
		if need > h {
			break
		}
		out, needs = larger, need
	}
	return out, needs
}

// made is a label as it is drawn for one container.
type made struct {
	SVG   template.HTML
	Holds page.Text
	Note  string // the size of its paper, and whether it is a tag
}

// all draws the page's label for every container, for a screen; in the
// bound binder for the first alone.
func (d *drawer) all(v *view.View) []made {
	l, _ := view.LabelOf(v.Page)
	face, ok := d.binder.Theme.Face("label")
	if !ok {
		return nil
	}
	var out []made
	for _, c := range l.For {
		other := *v
		other.Face, other.Choice = face, view.Chosen(v.Page)
		other.Page = page.OnPaper(v.Page, other.Choice)
		svg, size := d.label(&other, l, c)
		v.Symbols = other.Symbols
		note := theme.Millimetres(size)
		if needsTag(c.Ml, size[0], size[1]) && strings.HasPrefix(v.Page.KindLine, "Bottle") {
			note += ", larger than the side of such a bottle: a tag to hang on it"
		}
		out = append(out, made{svg, page.Say(page.F(c.Holds)), note})
		if v.Bound {
			break
		}
	}
	return out
}

// labelPath is the file of a page's label for one container.
func labelPath(f theme.Face, id string, c page.Container) string {
	return path.Join(f.Folder, c.Name, labelName(id)) + ".html"
}
