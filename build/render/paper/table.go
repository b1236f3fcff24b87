package paper

import (
	"math"
	"regexp"
	"strings"

	"wetside/build/render/wording"
	"wetside/procedures/page"
)

func (m *estimate) columnsOf(t page.Table, width float64) []float64 {
	n := len(t.Head)
	for _, r := range t.Rows {
		n = max(n, len(r.Cells))
	}
	return m.columns(t, n, width)
}

func (m *estimate) tableHead(t page.Table, cells []float64, width float64) float64 {
	head, room := 0.0, .85
	if (m.v.Bound || m.large) && m.slack(cells, width) { // no line of the table breaks
		room = 1
	}
	for i, c := range t.Head { // a browser may leave a head less room than its cells want
		head = math.Max(head, m.lines(c, m.small, cells[i]*room, false)*m.small*m.Line.Label)
	}
	// A rule lies half in the row above it and half in the one below.
	rule := m.firm - m.Rule.Hair/2
	return m.lines(t.Caption, m.cells, width, true)*m.cells*m.Line.Caption + m.caption + head + m.cell + rule
}

func (m *estimate) tableRow(r page.Row, cells []float64) float64 {
	lines := 1.0
	for i, c := range r.Cells {
		room := cells[i]
		if c.No { // both words stand on grounds of their own in the hatching
			room = (room - 1.2*m.cells) / 1.04
		}
		if !m.v.Bound && wording.Single(c.Text) && !c.No { // a figure alone does not break
			continue
		}
		shared := room
		if !m.v.Bound { // it was shared out by widths that were taken for wider
			shared *= wide
		}
		n := m.lines(said(c), m.cells, shared, false)
		if n > 1 { // a browser may share out the width of narrow columns otherwise
			n = m.lines(said(c), m.cells, room*m.sure(), false)
		}
		lines = math.Max(lines, n)
	}
	return lines*m.cells*m.Line.Text + m.cell + m.hair
}

// sure is the share of a column that a text which runs over several lines is sure to have.
func (m *estimate) sure() float64 {
	if m.v.Bound || m.large {
		return .98
	}
	return .95
}

func (m *estimate) tableNote(t page.Table, width float64) float64 {
	if m.v.Bound {
		if len(t.Note) == 0 {
			return m.stack
		}
		return m.stack + m.Apart.TableNote + m.lines(t.Note, m.reason, width, false)*m.reason*m.Line.Small
	}
	return m.lines(t.Note, m.reason, width, false)*m.reason*m.Line.Small + 1.6
}

// said is what a cell shows.
func said(c page.Cell) page.Text {
	if c.No {
		return append(append(page.Say(page.S("NO ")), c.Text...), page.W(" "), page.N(c.Why))
	}
	return c.Text
}

// wide is by how much a text in a column is taken for wider than it is measured.
const wide = 1.01

// hyphened is where a browser may break a word: behind a hyphen, unless a number follows.
var hyphened = regexp.MustCompile(`(\pL-)([^\d\s])|(\d-)(\pL)`)

// wideIn is the width of a text in a cell: the unit of a figure alone is set smaller.
func (m *estimate) wideIn(t page.Text, size float64) float64 {
	if m.v.Bound || len(t) != 1 || t[0].Kind != page.Fig {
		return m.wide(t, size, false)
	}
	r := wording.Pick(t[0].Figures, m.v.Choice)
	bare := wording.Shown(r, true)
	unit := strings.TrimPrefix(wording.Shown(r, false), bare)
	return m.v.Measure(bare, true, size) + m.v.Measure(unit, false, size*m.Times.UnitCell)
}

// columns shares a width among the columns of a table as browsers do: each has
// room for its longest word, and what is left goes where lines would break.
func (m *estimate) columns(t page.Table, n int, width float64) []float64 {
	apart := m.between
	word, line, whole := make([]float64, n), make([]float64, n), make([]float64, n)
	measure := func(i int, text page.Text, size float64) {
		line[i] = math.Max(line[i], m.wideIn(text, size)*wide)
		for _, p := range m.v.Pieces(text, false) {
			text := p.Text
			if strings.Contains(text, "-") {
				text = hyphened.ReplaceAllString(text, "$1$3 $2$4")
			}
			for _, w := range strings.Split(text, " ") {
				word[i] = math.Max(word[i], m.v.Measure(w, p.Bold, size)*wide)
			}
		}
	}
	marks := make([]float64, n) // what a column needs beside its words
	for _, r := range t.Rows {
		for i, c := range r.Cells {
			measure(i, said(c), m.cells)
			if !m.v.Wordy(c.Text) {
				whole[i] = math.Max(whole[i], m.wideIn(said(c), m.cells)*wide)
			}
			if wording.Single(c.Text) && m.marked(c.Text) > 0 {
				marks[i] = math.Max(marks[i], 1.2)
				if i == n-1 {
					marks[i] = math.Max(marks[i], m.marked(c.Text))
				}
			}
			if i > 0 && r.Cells[i-1].No && !c.No { // it stands off from the hatching
				marks[i] = math.Max(marks[i], m.Apart.Refused)
			}
			if c.No { // hatching has a least width of its own
				word[i] = math.Max(word[i], m.Em.Refused*m.cells-apart)
				line[i] = math.Max(line[i], math.Max(word[i], m.wide(said(c), m.cells, false)*1.04+1.2*m.cells))
			}
		}
	}
	for i, class := range m.v.Columns(t) {
		if class != "" { // figures stay in one line; their heading, and words between them, may break
			word[i] = math.Max(word[i], whole[i])
		}
	}
	for i, c := range t.Head {
		measure(i, c, m.small)
	}
	for i, mark := range marks {
		word[i], line[i] = word[i]+mark, line[i]+mark
	}
	room, more, wanted := width-apart*float64(n-1), 0.0, 0.0
	for i := range word {
		wanted += line[i]
	}
	if !m.v.Bound && wanted <= room*wide { // all lines have room as they are
		return line
	}
	for i := range word {
		room -= word[i]
		more += line[i] - word[i]
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = word[i]
		if room > 0 && more > 0 {
			out[i] += (line[i] - word[i]) * math.Min(1, room/more)
		}
	}
	return out
}
