package paper

import (
	"math"

	"wetside/build/render/typeset"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// flow is a view as it flows onto paper: its methods reckon how high it is.
type flow struct{ *view.View }

// Height is how high a view is reckoned to be in mm, on one sheet however long, at a scale of
// its type.
func Height(v *view.View, scale float64) float64 { return flow{v}.height(scale) }

// Room is how high in mm the text of a sheet of the face may be.
func Room(f theme.Face) float64 { return f.Size[1] - f.Margin[0] - f.Margin[2] - 1 }

// estimate measures a card at one scale of type before it is printed. Lengths are in mm. Those
// that the stylesheet has too are the theme's; a browser test holds all against what is printed.
type estimate struct {
	*theme.Spacing
	v     flow
	width float64
	scale float64
	// Sizes of type.
	title, key, figure, word, text, reason, small, end, cells float64
	// Room, as the face gives it.
	gap, pad, row, sign, plate, head, when, bath, long, tick float64
	fill, signWord, banner, kind, between, lead              float64
	stack, cell, caption                                     float64
	hair, firm, bold                                         float64
	large                                                    bool // a paper read from a metre
}

// How much wider a serif may run, how much is added for good measure, and by how much a rule
// may be printed thicker: by what a dot of the printer takes, in mm.
const (
	serif   = 1.1
	reserve = 1.005
	dot     = .05
)

func (v flow) estimate(scale float64) *estimate {
	f, t := v.Face, v.Face.Type
	pt := typeset.Point * scale
	r, s := f.Spaced(), f.Spacing
	m := &estimate{
		Spacing: s, v: v, width: f.Size[0] - f.Margin[1] - f.Margin[3], scale: scale,
		title: t.Title * pt, key: t.Key * pt, figure: t.Figure * pt, word: t.Word * pt, text: t.Text * pt,
		reason: t.Reason * pt, small: t.Small * pt, end: t.Foot * pt, cells: t.Text * pt * r.Table,
		gap: r.Gap, pad: r.Pad * scale, row: r.Row * scale, sign: r.Sign * scale, plate: r.Plate * scale,
		head: r.Head * scale, when: r.When * scale, bath: r.Bath * scale, long: r.Long, tick: r.Tick,
		fill: r.Fill, signWord: r.Word, banner: r.Banner, kind: r.Kind, between: r.Cell,
		stack: s.Apart.Blocks, cell: s.Apart.CellAbove + s.Apart.CellBelow, caption: s.Apart.Caption,
		hair: s.Rule.Hair + dot, firm: s.Rule.Firm + dot, bold: s.Rule.Bold + dot,
		large: f.Size[0] >= 200,
	}
	if v.Bound {
		m.stack, m.cell = s.Apart.BlocksBound, s.Apart.CellAboveBound+s.Apart.CellBelowBound
		m.caption, m.large = s.Apart.CaptionBound, false
	}
	if v.Follows() || v.Close {
		m.title, m.key, m.head = m.title*s.Times.Follow, m.key*s.Times.Follow, m.head*s.Times.Follow
	}
	if v.Tight {
		m.pad, m.row, m.bath = m.pad*s.Times.Tight, m.row*s.Times.Tight, m.bath*s.Times.Tight
	}
	m.lead = m.text * s.Times.Lead
	if v.Close {
		m.kind, m.lead = s.Apart.KindClose, m.small*s.Times.LeadClose
	}
	return m
}

// height is that of the card at a scale, on one sheet however long.
func (v flow) height(scale float64) float64 {
	m := v.estimate(scale)
	h := m.headHeight()
	if v.GoesOn() != "" {
		h += m.Apart.GoesOn + m.text*m.Line.Caption
	}
	side := v.CodeSide()
	for _, name := range v.Parts() {
		if side == 0 || name != "never" && name != "foot" {
			h += m.part(name)
		}
	}
	if side > 0 { // the code of its address stands beside these two
		m.width -= side + 3
		h += math.Max(side+2, m.part("never")+m.part("foot"))
	}
	return h*reserve + 1
}

// part is the height of a part with its rule.
func (m *estimate) part(name string) float64 {
	v := m.v
	h := 0.0
	switch name {
	case "key":
		return 0
	case "foot":
		return m.foot()
	case "before":
		h = m.before(v.Page.Before)
	case "never":
		for _, b := range v.Nevers() {
			h += m.block(b, m.neverWidth())
		}
	case "do":
		keys := m.keys()
		for i, b := range v.Page.Do {
			if i > 0 {
				h += m.above(b.Block())
			}
			h += m.block(b, m.width)
		}
		if h == 0 {
			return keys
		}
		first, last := v.Page.Do[0], v.Page.Do[len(v.Page.Do)-1]
		if !estimates[first.Block()].ruled || !estimates[last.Block()].ruled {
			h += m.Apart.WorkAbove + m.Apart.WorkBelow
		}
		if m.large {
			return keys + h + m.bold
		}
		return keys + h + m.firm
	default:
		for _, b := range v.Part(name) {
			h += m.block(b, m.width)
		}
		if v.Bound { // nothing stands above the first
			h -= m.stack
		}
	}
	if h <= 0 {
		return 0
	}
	if name == "tables" && m.large { // the rule below the work is bold, and there is none here
		return h + 2*m.pad
	}
	return h + m.ruledOff()
}

// above is what stands between a block of the work and the block above it, besides what its rows
// bring: gear is set on the lines of the work itself.
func (m *estimate) above(kind string) float64 {
	apart := m.Apart.Work
	if m.v.Bound {
		apart = m.stack
	}
	switch kind {
	case "gear":
		return 0
	case "steps", "clock":
		return apart
	case "cautions":
		return math.Max(0, apart-m.Apart.Caution)
	}
	return apart - m.stack
}

// ruledOff is what a part takes besides its blocks: its room and its rule.
func (m *estimate) ruledOff() float64 { return 2*m.pad + m.firm }

// neverWidth is the width beside the word "never".
func (m *estimate) neverWidth() float64 {
	return m.width - m.v.Measure("NEVER", true, m.text)*1.1 - m.Apart.Never
}

// block is the height of a block, nothing where the face leaves it out.
func (m *estimate) block(b page.Block, width float64) float64 {
	if m.v.Face.Leaves(b.Block(), m.v.Page.Kind) {
		return 0
	}
	return m.rows(b, width).sum()
}

// rows are the heights of a block's rows.
func (m *estimate) rows(b page.Block, width float64) heights {
	return estimates[b.Block()].rows(m, b, width)
}

// before is the height of what comes before the work: some blocks stand beside each
// other where they fit; all others take the whole width below them.
func (m *estimate) before(list []page.Block) float64 {
	s := beside{m: m}
	checklists := 0
	for _, b := range list {
		if b.Block() == "checklist" {
			checklists++
		}
	}
	s.alone = checklists == 1
	below := 0.0
	if m.v.Bound && m.v.Page.Kind == "spill" && len(list) == 2 && list[0].Block() == "plates" &&
		list[1].Block() == "list" {
		half := (m.width - m.Apart.Before) / 2
		said := 0.0
		for _, t := range list[1].(page.List).Items {
			said += m.lines(t, m.text, half, false)*m.text*m.Line.Text + m.Apart.Items
		}
		return math.Max(m.block(list[0], half), said)
	}
	for i, b := range list {
		if m.v.Face.Leaves(b.Block(), m.v.Page.Kind) {
			continue
		}
		e := estimates[b.Block()]
		s.last = i == len(list)-1
		if e.beside != nil {
			below += e.beside(&s, b)
			continue
		}
		if i > 0 {
			below += m.Apart.BeforeRows
		}
		below += e.apart + m.block(b, m.width)
	}
	return s.height + s.line + below
}

// beside is a run of blocks beside each other, broken into lines.
type beside struct {
	m      *estimate
	height float64 // of the lines that are full
	at     float64 // where the next block begins in this line
	line   float64 // height of this line
	alone  bool    // there is one checklist in the run
	last   bool    // nothing comes after this block
}

func (s *beside) add(width, height float64) {
	if s.at > 0 && s.at+s.m.Apart.Before+width > s.m.width {
		s.height, s.at, s.line = s.height+s.line+s.m.Apart.BeforeRows, 0, 0
	}
	s.at, s.line = s.at+width+s.m.Apart.Before, math.Max(s.line, height)
}
