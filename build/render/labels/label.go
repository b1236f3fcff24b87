package labels

import (
	"html/template"
	"math"

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

// SmallLetter is the height of a small letter in the face for paper, in parts of
// the type size; a browser test measures it.
const SmallLetter = .505

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

// fitted draws a label on the smallest of the face's sizes that holds it whole.
func (v pen) fitted(l page.Label, c page.Container) (svg template.HTML, size []float64) {
	rule := ruleFor(c.Ml)
	sizes := append([][]float64{v.Face.Size}, v.Face.Larger...)
	for i, sheet := range sizes {
		size = sheet
		if size[0] < rule.width || size[1] < rule.height {
			continue
		}
		s := v.onSize(l, c, size[0], size[1])
		if s.needs <= size[1] {
			// A label that could not say what to do first of all may be a little higher for its sake.
			if i+1 < len(sizes) && !s.first && c.Ml > free {
				if high := sizes[i+1]; high[0] == size[0] {
					if next := v.onSize(l, c, high[0], high[1]); next.first && next.needs <= high[1] {
						s, size = next, high
					}
				}
			}
			return v.drawn(s, c, size[0], size[1]), size
		}
		if i == len(sizes)-1 {
			high := math.Ceil(s.needs)
			svg = v.drawn(v.onSize(l, c, size[0], high), c, size[0], high)
		}
	}
	return svg, size
}

// free is up to how many ml a container may be labelled without advice, by Annex I, 1.5.2 of the CLP
// Regulation (memory).
const free = 125

// setting is how a label is set on one size of paper: what of it has room there, in type so
// many times its smallest, with so many pictograms side by side, and the height that it needs.
type setting struct {
	l      page.Label
	grow   float64
	across int
	needs  float64
	// first: it says what to do first of all, or there is nothing to say.
	first bool
}

// drawn draws a label as it is set.
func (v pen) drawn(s setting, c page.Container, w, h float64) template.HTML {
	out, _ := v.drawing(s, c, w, h).draw()
	return out
}

func (v pen) drawing(s setting, c page.Container, w, h float64) *labelDrawing {
	rule := ruleFor(c.Ml)
	return &labelDrawing{v: v, l: s.l, c: c, w: w, h: h, rule: rule, across: s.across,
		text: rule.small / SmallLetter * s.grow}
}

// grows are the steps by which the type of a label may be larger than it must.
var grows = []float64{1, 1.1, 1.2, 1.3, 1.45, 1.6}

// onSize sets a label on one size of paper, with its ladder and as much of its advice as fits. What to do at once goes before the ladder.
func (v pen) onSize(l page.Label, c page.Container, w, h float64) setting {
	plain := l
	plain.Advice = nil
	out, first := v.advised(plain, l.Advice, c, w, h)
	if len(l.Ladder) > 0 {
		tall := plain
		tall.Dates, tall.Lives = l.Ladder, l.Rest
		if v.fitsSmall(tall, c, w, h) {
			if tall, same := v.advised(tall, l.Advice, c, w, h); same || !first {
				out, first = tall, same
			}
		}
	}
	set := v.asLarge(out, c, w, h)
	set.first = first
	return set
}

// advised is a label with as much of the advice as fits, the foremost first: all in brief before any in
// full. first tells whether it says the first of it, or has none to say.
func (v pen) advised(l page.Label, list []page.Advice, c page.Container, w, h float64) (out page.Label, first bool) {
	said := map[int]page.Text{}
	with := func(i int, t page.Text) bool {
		try := l
		try.Advice = nil
		for n := range list {
			switch {
			case n == i:
				try.Advice = append(try.Advice, page.Advice{Full: t})
			case said[n] != nil:
				try.Advice = append(try.Advice, page.Advice{Full: said[n]})
			}
		}
		if !v.fitsSmall(try, c, w, h) {
			return false
		}
		said[i], out = t, try
		return true
	}
	out = l
	for i, a := range list {
		if len(a.Brief) == 0 || !with(i, a.Brief) {
			with(i, a.Full)
		}
	}
	for i, a := range list {
		with(i, a.Full)
	}
	return out, len(list) == 0 || said[0] != nil
}

// fitsSmall reports whether a label fits a size of paper in the smallest type that it may
// have there.
func (v pen) fitsSmall(l page.Label, c page.Container, w, h float64) bool {
	return v.asSmall(l, c, w, h, 1).needs <= h
}

// asSmall sets a label in type so many times its smallest, with as many pictograms side by
// side as fit best.
func (v pen) asSmall(l page.Label, c page.Container, w, h, grow float64) setting {
	best := setting{needs: math.Inf(1)}
	for across := max(1, min(3, len(l.Hazards.Pictograms))); across >= 1; across-- {
		s := setting{l: l, grow: grow, across: across}
		g := v.drawing(s, c, w, h)
		g.d.Unseen = true
		if _, s.needs = g.draw(); s.needs < best.needs {
			best = s
		}
		if best.needs <= h {
			break
		}
	}
	return best
}

// asLarge sets a label on one size of paper as large as it can be there.
func (v pen) asLarge(l page.Label, c page.Container, w, h float64) setting {
	best := v.asSmall(l, c, w, h, grows[0])
	for _, grow := range grows[1:] {
		larger := v.asSmall(l, c, w, h, grow)
		if larger.needs > h {
			break
		}
		best = larger
	}
	return best
}
