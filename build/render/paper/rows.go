package paper

import (
	"math"
	"strconv"
	"strings"

	"wetside/build/render/typeset"
	"wetside/build/render/wording"
	"wetside/procedures/page"
)

func (m *estimate) bathRow(r page.ClockRow) float64 {
	if m.v.Bare("clock") {
		return m.bareBath(r)
	}
	when := m.figure * m.Line.Clock
	drain := m.small
	if m.large {
		drain = m.text
	}
	if len(r.Drain) > 0 {
		when += drain*m.Times.Drain*m.Line.Narrow + m.Apart.Drain
	}
	size := m.figure * m.Times.Long
	long := m.big(r.For, size) + m.marked(r.For)
	aside := m.lines(r.For, size, 99, true) * size * m.Line.Title
	said := dotted(m.v.Beside(r))
	if !m.v.Brief("clock") {
		most := m.long
		wide := math.Max(m.wide(r.ForNote, m.small, false), m.wide(r.Light, m.small, false))
		long = math.Min(most, math.Max(long, wide))
		lines := m.lines(r.ForNote, m.small, most-.6, false) + m.lines(r.Light, m.small, most-.6, false)
		aside += m.Apart.BathNote + lines*m.small*m.Line.Beside + m.Apart.Light
		said = wording.Joined(r.Cue, r.Goes)
	}
	width := m.width - m.when - m.plate - long - 3*m.gap - 1
	what := m.word*m.Line.Title + m.filled(r.Bath, width) + 1.6
	for _, c := range r.Caution {
		what += m.lines(c, m.reason, width-m.bar(), true)*m.reason*m.Line.Label + m.Apart.Caution
	}
	if len(said) > 0 {
		what += m.lines(said, m.reason, width, false) * m.reason * m.Line.Cue
	}
	if width < 30 { // a column so narrow breaks its lines unevenly
		what *= 1.06
	}
	h := math.Max(math.Max(when, what), math.Max(aside, m.plate)) + 2*m.bath + m.hair
	if m.v.HasRuler(r.Ruler) {
		h += 14.5 + m.Apart.Ruler
	}
	return h
}

// bareBath is a bath in one run of text beside its clock and its time.
func (m *estimate) bareBath(r page.ClockRow) float64 {
	long := math.Min(m.long, m.big(r.For, m.figure*m.Times.Long)+m.marked(r.For))
	said := m.v.Pieces(r.Word, true)
	for i := range said {
		said[i].Text, said[i].Grow = strings.ToUpper(said[i].Text), m.word/m.text
	}
	for _, t := range []page.Text{r.Bath, r.ForNote, r.Light} {
		if len(t) == 0 {
			continue
		}
		said = append(append(said, typeset.Piece{Text: "  · "}), m.grown(t)...)
	}
	width := m.width - m.when - m.plate - long - 3*m.gap
	what := float64(m.v.Lines(said, m.text, width)) * m.word * 1.17
	for i, c := range r.Caution {
		if i == 0 { // it parts the word from what follows
			what += m.word * 1.17
		}
		what += m.lines(c, m.reason, width-m.bar(), true)*m.reason*m.Line.Label + m.Apart.Caution
	}
	if len(r.Cue) > 0 {
		what += m.lines(r.Cue, m.reason, width, false)*m.reason*m.Line.Cue + m.Apart.Cue
	}
	when := m.figure * m.Line.Clock
	if len(r.Drain) > 0 {
		when += m.small*m.Line.Narrow + m.Apart.DrainBare
	}
	return math.Max(math.Max(when, what), m.plate) + 2*m.bath + m.hair
}

// stepColumns are the widths of the columns that all steps of a run share.
type stepColumns struct {
	amount, device, tick float64
	cases                bool
}

func (m *estimate) stepColumns(b page.Steps) stepColumns {
	c := stepColumns{cases: b.Cases}
	zero := m.v.Measure("0", true, m.figure)
	for _, class := range strings.Fields(m.v.StepFit(b.Rows)) {
		n, err := strconv.Atoi(class[1:])
		if err != nil {
			continue
		}
		switch class[0] {
		case 'i':
			c.amount += float64(n) * zero
		case 'd':
			c.amount += math.Max(0, float64(n)-.5) * zero
		case 'u':
			c.amount += m.Em.Unit[min(n, len(m.Em.Unit)-1)] * m.figure * m.Times.UnitStep
		}
	}
	mark := 0.0
	for _, r := range b.Rows {
		mark = math.Max(mark, m.marked(r.Amount))
		c.amount = math.Max(c.amount, m.big(r.Amount, m.figure))
		device := math.Max(math.Min(m.Side.Device, m.wide(r.Device, m.small, false)), m.v.Longest(m.v.Pieces(r.Device, false), m.small))
		c.device = math.Max(c.device, device)
		if r.Tick {
			c.tick = m.tick
		}
	}
	c.amount += mark
	return c
}

// bar is what the bar of a caution takes beside its words.
func (m *estimate) bar() float64 { return m.Rule.Bold + m.Apart.CautionBar }

func (m *estimate) stepRow(r page.Step, c stepColumns) float64 {
	if len(r.Part) > 0 {
		return m.caseRow(r)
	}
	width := m.width - m.Em.StepNumber*m.text - c.amount - c.device - c.tick - 9.5
	switch {
	case c.cases && len(r.Amount) == 0:
		width = m.width - .5
	case c.cases:
		width = m.width - c.amount - 6.5
	}
	what := m.lines(r.What, m.word, width, false) * m.word * m.Line.Label
	below := m.width - m.Em.StepNumber*m.text - 2.5
	if c.cases {
		below = m.width - .5
	}
	under := 0.0
	for _, c := range r.Caution {
		under += m.lines(c, m.text, below-m.bar(), true)*m.text*m.Line.Label + m.Apart.StepCaution
	}
	for _, n := range r.Note {
		under += m.lines(n, m.reason, below, false)*m.reason*m.Line.Reason + m.Apart.StepReason
	}
	device := m.lines(r.Device, m.small, m.Side.Device-.6, false) * m.small * m.Line.Label
	// Everything stands on the first line: a large figure rises above it.
	figure := m.figure
	if len(r.Amount) == 0 {
		figure = 0
	}
	least := 5.0
	if m.v.Bound {
		least = m.tick + .2
	}
	below = math.Max(math.Max(what, least)-.925*m.word, device-.925*m.small)
	h := math.Max(.86*figure, .925*m.word) + below + under + 2*m.row + m.hair
	if r.Mark {
		h += m.firm
	}
	return h
}

// caseRow is a case: its name and the least time at the left, what to do at the right.
func (m *estimate) caseRow(r page.Step) float64 {
	if m.v.Bound {
		return m.boundCase(r)
	}
	left := m.Share.Case
	name := m.lines(r.Part, m.word, m.width*left-m.Apart.CaseRight, true) * m.word * m.Line.Case
	if len(r.Amount) > 0 {
		least := m.word * m.Times.CaseLeast
		said := m.pieced(r.Amount, least, false)
		for i := range said {
			if said[i].ID != "" {
				said[i].Grow = m.Times.CaseNumber
			}
		}
		name += m.Apart.CaseLeast + float64(m.v.Lines(said, least, m.width*left))*least*m.Times.CaseNumber*m.Line.Narrow
	}
	size := m.word * m.Times.CaseAct
	acts := m.lines(r.What, size, m.width*(1-left)-.5, false) * size * m.Line.Cue
	for _, n := range r.Note {
		acts += m.lines(n, m.reason, m.width*(1-left)-.5, false)*m.reason*m.Line.Reason + m.Apart.StepReason
	}
	// Both stand on one line of writing, and the larger type rises above it.
	return math.Max(name, acts+.25*m.word) + 2*m.row + m.hair
}
