package render

import (
	"html/template"
	"math"
	"path"
	"slices"
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
	return v.labelFor(l, c)
}

// labelFor draws a label for a container. One that no size holds is drawn longer
// than the last: nothing is ever left out of it.
func (v *view) labelFor(l page.Label, c page.Container) template.HTML {
	key := v.Page.ID + "@" + c.Name
	if had, ok := v.site.labels.Load(key); ok {
		had := had.(drawnLabel)
		v.size = had.size
		for _, name := range had.symbols {
			v.symbol(name)
		}
		return had.svg
	}
	fresh := *v
	fresh.symbols = nil
	svg := fresh.fitted(l, c)
	v.size = fresh.size
	for _, name := range fresh.symbols {
		v.symbol(name)
	}
	v.site.labels.Store(key, drawnLabel{svg, fresh.size, fresh.symbols})
	return svg
}

// drawnLabel is a label that has been drawn: it stands on its own sheet and on
// its page.
type drawnLabel struct {
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

// onSize draws a label on one size of paper, with its ladder and as much of its advice as fits,
// and returns the height it needs: no label is larger for their sake.
func (v *view) onSize(l page.Label, c page.Container, w, h float64) (template.HTML, float64) {
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
func (v *view) fitsSmall(l page.Label, c page.Container, w, h float64) bool {
	_, needs := v.asSmall(l, c, w, h, 1)
	return needs <= h
}

// asSmall draws a label in type so many times its smallest, with as many pictograms side by
// side as fit best, and returns the height it needs.
func (v *view) asSmall(l page.Label, c page.Container, w, h, grow float64) (out template.HTML, needs float64) {
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
func (v *view) asLarge(l page.Label, c page.Container, w, h float64) (template.HTML, float64) {
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
		other.Page = page.OnPaper(v.Page, other.Choice)
		svg := other.labelFor(l, c)
		v.symbols = other.symbols
		note := theme.Millimetres(other.size)
		if needsTag(c.Ml, other.size[0], other.size[1]) && strings.HasPrefix(v.Page.KindLine, "Bottle") {
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
