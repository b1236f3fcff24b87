package paper

import (
	"math"
	"slices"
	"strings"

	"wetside/build/render/typeset"
	"wetside/build/render/view"
	"wetside/procedures/page"
)

// Of the binder, in mm as in the stylesheet: between two blocks, above and below a row of a
// table, below the caption of one, and a pictogram with the word below it.
const (
	leafStack, leafCell, leafCaption = 1.0, 1.1, .6
	leafRest                         = .06 // of a row, for its rule
	leafSign                         = 9.0
	leafShown                        = 22.0 // a sign that is explained
	leafBox                          = 8.0  // for a number to be written in
)

// boundName is the height of a title, its choice and its lead, which follow each other in
// one line of the binder where they fit.
func (m *estimate) boundName(width float64) float64 {
	const apart = 3.0
	v := m.v
	total, line, at := 0.0, 0.0, 0.0
	add := func(t page.Text, size, pitch float64, strong bool) {
		if len(t) == 0 {
			return
		}
		wide, high := m.wide(t, size, strong)*1.01, m.lines(t, size, width, strong)*size*pitch
		if at > 0 && at+apart+wide > width {
			total, line, at = total+line, 0, 0
		}
		if at > 0 {
			at += apart
		}
		at, line = at+wide, math.Max(line, high)
	}
	add(page.Say(page.S(v.Page.Title)), m.title, 1, true)
	if v.ChoiceSays() {
		add(v.ChoiceLabel(), m.title*.62, 1.1, true)
	}
	if v.Follows() {
		add(page.Say(page.W("continued")), m.lead, 1.2, false)
	}
	add(v.Page.Lead, m.lead, 1.2, false)
	return total + line
}

// boundHazards measures hazards in the binder: small pictograms, and what they stand for in
// runs of text beside them.
func (m *estimate) boundHazards(b page.Hazards, width float64) heights {
	signs, beside := 0.0, 0.0
	if n := float64(len(b.Pictograms)); n > 0 {
		across := math.Min(n, math.Floor((width/2+1)/(leafSign+1)))
		beside = across*(leafSign+1) - 1 + m.gap
		signs = math.Ceil(n/across)*(leafSign+1) - 1
	}
	said := m.v.HazardWord(b)
	all := page.Say(page.S(strings.ToUpper(said)))
	for _, p := range b.Pictograms {
		all = append(all, page.W(", "), page.N(view.PictogramWord(p)))
	}
	all = append(append(all, page.W(m.v.HazardMark(b)+" ")), page.Joined(b.Statements, " ")...)
	if m.v.Page.Kind == "chemical" && len(b.Classes) > 0 {
		all = append(append(all, page.W(" ")), dotted(b.Classes)...)
	}
	all = append(append(all, page.W(" · ")), b.Note...)
	high := m.lines(all, m.text, width-beside, false) * m.text * 1.25
	return uncut(math.Max(signs, high) + m.stack)
}

// holeRows measures holes, a line for each, or in one run of the binder.
func holeRows(m *estimate, b page.HolesList, width float64) heights {
	if !m.v.Bound {
		return saidRows(m, b, width)
	}
	said := page.Say(page.S("Not filled in "))
	for _, h := range b.Items {
		said = append(said, page.W("ask "), page.S(h.What), page.W(": "+h.Until+" "+h.Key+"   · "))
	}
	return uncut(m.stack + m.lines(said, m.small, width, false)*m.small*1.25)
}

// slack tells that columns have all the room that their lines want.
func (m *estimate) slack(cells []float64, width float64) bool {
	wanted := m.apart * float64(len(cells)-1)
	for _, c := range cells {
		wanted += c
	}
	return wanted < width*.97
}

// boundCase measures a case in one run of text on each side.
func (m *estimate) boundCase(r page.Step) float64 {
	const left = .25
	said := append(append(m.pieced(r.Part, m.text, true), typeset.Piece{Text: " "}), m.pieced(r.Amount, m.text, false)...)
	run := slices.Clone(r.What)
	for _, n := range r.Note {
		run = append(append(run, page.W(" ")), n...)
	}
	name := float64(m.v.Lines(said, m.text, m.width*left-3)) * m.text * 1.12
	size := m.reason * .95
	acts := m.lines(run, size, m.width*(1-left)-.5, false) * size * 1.22
	return math.Max(name, acts+.15*m.text) + 2*m.row + hair
}
