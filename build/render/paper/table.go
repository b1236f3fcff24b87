package paper

import (
	"math"
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
	if m.v.Bound && m.slack(cells, width) { // no line of the table breaks
		room = 1
	}
	for i, c := range t.Head { // a browser may leave a head less room than its cells want
		head = math.Max(head, m.lines(c, m.small, cells[i]*room, false)*m.small*m.Line.Label)
	}
	return m.lines(t.Caption, m.cells, width, true)*m.cells*m.Line.Caption + m.caption + head + m.cell + m.firm
}

func (m *estimate) tableRow(r page.Row, cells []float64) float64 {
	lines := 1.0
	for i, c := range r.Cells {
		room := cells[i]
		if c.No { // both words stand on grounds of their own in the hatching
			room = (room - 1.2*m.cells) / 1.04
		}
		lines = math.Max(lines, m.lines(said(c), m.cells, room, false))
	}
	return lines*m.cells*m.Line.Text + m.cell + m.rowRest + m.hair
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

// columns shares a width among the columns of a table as browsers do: each has
// room for its longest word, and what is left goes where lines would break.
func (m *estimate) columns(t page.Table, n int, width float64) []float64 {
	apart := m.between
	word, line, whole := make([]float64, n), make([]float64, n), make([]float64, n)
	measure := func(i int, text page.Text, size float64) {
		line[i] = math.Max(line[i], m.wide(text, size, false)*1.01)
		for _, p := range m.v.Pieces(text, false) {
			for _, w := range strings.Split(p.Text, " ") {
				word[i] = math.Max(word[i], m.v.Measure(w, p.Bold, size)*1.01)
			}
		}
	}
	marks := make([]float64, n) // what a column needs beside its words
	for _, r := range t.Rows {
		for i, c := range r.Cells {
			measure(i, said(c), m.cells)
			if !m.v.Wordy(c.Text) {
				whole[i] = math.Max(whole[i], m.wide(said(c), m.cells, false)*1.01)
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
	room, more := width-apart*float64(n-1), 0.0
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
