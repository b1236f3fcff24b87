package paper

import (
	"math"

	"wetside/build/render/typeset"
	"wetside/procedures/page"
)

func (m *estimate) headHeight() float64 {
	v := m.v
	h := 0.0
	if v.Demonstration {
		pad := m.Apart.BannerSmall
		if m.large {
			pad = m.Apart.Banner
		}
		h += m.small*m.Line.Caption + m.banner + 2*(pad+m.Rule.Fine)
	}
	if v.HasKind() {
		h += m.kindLines()*m.small*m.Line.Text + m.kind
	}
	q, _ := v.Quantity()
	right := 0.0
	quantity := 0.0
	if len(q.Value) > 0 {
		words := m.wide(q.Label, m.small, false) + m.wide(q.Note, m.small, false)
		right = math.Max(m.big(q.Value, m.key)+m.marked(q.Value), words) + m.gap
		quantity = m.key
		if len(q.Label)+len(q.Note) > 0 {
			lines := 1.0
			if most := math.Min(m.Side.Quantity, m.width*m.Share.Quantity); right > most {
				right, lines = math.Max(most, m.big(q.Value, m.key))+m.gap, 2
			}
			quantity += lines * m.small * m.Line.Label
		}
	}
	plate := 0.0
	if v.Page.Role != "" {
		plate = m.head
		right += plate + m.gap
	}
	if n := float64(len(v.Page.Signs)); n > 0 {
		plate = math.Max(plate, m.head)
		right += n*(m.head+m.Apart.Signs) + m.gap
	}
	left := m.lines(page.Say(page.S(v.Page.Title)), m.title, m.width-right-m.gap, true) * m.title * m.Line.Title
	if v.ChoiceSays() {
		size := m.title * m.Times.Choice
		left += m.Apart.Choice + m.lines(v.ChoiceLabel(), size, m.width-right-m.gap, true)*size*m.Line.Narrow
	}
	if len(v.Page.Lead) > 0 {
		left += m.Apart.Lead + m.lines(v.Page.Lead, m.lead, m.width-right-m.gap, false)*m.lead*m.Line.Caption
	}
	if v.Bound {
		left = m.boundName(m.width - right - m.gap)
	}
	below := m.Apart.HeadSmall
	if m.large {
		below = m.Apart.Head
	}
	return h + math.Max(left, math.Max(quantity, plate)) + below + m.bold
}

// kindLines is how many lines the small print above the title takes.
func (m *estimate) kindLines() float64 {
	v := m.v
	var said []string
	if !v.Follows() && !v.Bound {
		said = append(said, v.Page.KindLine)
	}
	if v.Page.Foot.Version != "" && !v.Follows() && !v.Bound {
		said = append(said, "version "+v.Page.Foot.Version+" · "+v.Page.Foot.Date)
	}
	if v.Controlled() && !v.Follows() && v.Page.Foot.Approved == "" {
		said = append(said, "not yet approved: ask first")
	}
	if since := v.Page.Foot.Overdue; v.Controlled() && !v.Follows() && since != "" {
		said = append(said, "review overdue since "+since+": ask first")
	}
	if v.CardOf() != "" && !v.Bound {
		said = append(said, v.CardOf())
	}
	lines, at := 1.0, 0.0
	for _, s := range said {
		w := v.Measure(s, false, m.small) * 1.02
		if at > 0 && at+m.gap+w > m.width {
			lines, at = lines+1, 0
		}
		if at > 0 {
			at += m.gap
		}
		at += w
		if at > m.width {
			lines += math.Ceil(at/m.width) - 1
		}
	}
	return lines
}

// further is how large the figures are that do not stand in the head, beside the one that does: a
// product has several, and each counts as much.
func (m *estimate) further() float64 {
	if m.v.Page.Kind == "product" {
		return m.Times.FurtherProduct
	}
	return m.Times.Further
}

// keys is the height of the figures that do not stand in the head: as many beside each other
// as the width holds.
func (m *estimate) keys() float64 {
	list := m.v.FurtherKeys()
	if len(list) == 0 {
		return 0
	}
	lines, at := 1.0, 0.0
	for _, b := range list {
		w := m.width
		if a, ok := b.(page.Amount); ok {
			w = m.wide(a.Label, m.small, false) + m.Apart.Amount + m.big(a.Value, m.key*m.further()) +
				m.marked(a.Value)*.5 // the mark is smaller than in the head
			if len(a.Note) > 0 {
				w += m.wide(a.Note, m.reason*serif, false) + m.Apart.Amount
			}
		}
		if at > 0 && at+2*m.gap+w > m.width {
			lines, at = lines+1, 0
		}
		if at > 0 {
			at += 2 * m.gap
		}
		at += w
	}
	high := math.Max(m.key*m.further()*1.15, m.text*2.25) // the words beside it keep their size
	return lines*(high+m.Apart.Keys) - m.Apart.Keys + 2*m.pad + m.firm
}

// footAbove is what stands between the foot and what is above it.
func (m *estimate) footAbove() float64 {
	if m.large {
		return m.Apart.FootLarge
	}
	return m.Apart.Foot
}

func (m *estimate) foot() float64 {
	v := m.v
	if !v.Controlled() {
		return 0
	}
	foot := v.Page.Foot
	if v.Follows() {
		said := []typeset.Piece{{Text: v.Control(false) + " written " + foot.Written}}
		if v.Bound {
			said[0].Text += " Last change: " + foot.Change
		}
		return float64(v.Lines(said, m.end, m.width))*m.end*(m.Line.Reason+.08) + 2
	}
	said := []typeset.Piece{{}}
	say := func(words ...string) {
		for _, w := range words {
			said[len(said)-1].Text += w
		}
	}
	say(v.Control(true), " written ", foot.Written)
	if len(foot.Vouched) > 0 {
		say(" Figures not checked by this lab: ")
	}
	list := v.FootHoles()
	holes := len(list) > 0
	if v.Bare("holes") && holes {
		say(" ", v.HoleCount(), " not filled in: ask first ")
		list = nil
	}
	for _, h := range list {
		say(" ask ")
		said = append(said, typeset.Piece{Text: h.What, Bold: true}, typeset.Piece{Text: ": " + h.Until + "      "})
		if v.Bound {
			say(h.Key)
		}
	}
	if v.Bound && foot.Change != "" {
		say(" Last change: ", foot.Change, "  ")
	}
	if v.HasCode() {
		say(" ", v.Own())
	}
	width := m.width
	if len(list) > 0 && !v.Bound { // they begin a run of their own
		width *= .93
	}
	lines := v.Wrap(said, m.end, width)
	h := float64(len(lines))*m.end*(m.Line.Reason+.02) + m.footAbove() + .5
	last := 0.0
	for _, p := range lines[len(lines)-1] {
		last += v.Measure(p.Text, p.Bold, m.end)
	}
	if !v.Bound && (last+v.CheckLength()+28 > m.width || holes) {
		h += 3.8
	}
	return h
}
