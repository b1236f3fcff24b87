package paper

import (
	"math"
	"slices"
	"strings"

	"wetside/build/render/typeset"
	"wetside/build/render/view"
	"wetside/procedures/page"
)

// boundName is the height of a title, its choice and its lead, which follow each other in
// one line of the binder where they fit.
func (m *estimate) boundName(width float64) float64 {
	apart := m.Apart.NameBound
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
	add(page.Say(page.S(v.Page.Title)), m.title, m.Line.Title, true)
	if v.ChoiceSays() {
		add(v.ChoiceLabel(), m.title*m.Times.Choice, m.Line.Narrow, true)
	}
	if v.Follows() {
		add(page.Say(page.W("continued")), m.lead, m.Line.Caption, false)
	}
	add(v.Page.Lead, m.lead, m.Line.Caption, false)
	return total + line
}

// boundHazards measures hazards in the binder: small pictograms, and what they stand for in
// runs of text beside them.
func (m *estimate) boundHazards(b page.Hazards, width float64) heights {
	signs, beside := 0.0, 0.0
	if n := float64(len(b.Pictograms)); n > 0 {
		apart := m.Apart.PictogramsBound
		each := m.Side.PictogramBound + apart
		across := math.Min(n, math.Floor((width/2+apart)/each))
		beside = across*each - apart + m.gap
		signs = math.Ceil(n/across)*each - apart
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
	high := m.lines(all, m.text, width-beside, false) * m.text * m.Line.Small
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
	return uncut(m.stack + m.lines(said, m.small, width, false)*m.small*m.Line.Small)
}

// slack tells that columns have all the room that their lines want.
func (m *estimate) slack(cells []float64, width float64) bool {
	wanted := m.between * float64(len(cells)-1)
	for _, c := range cells {
		wanted += c
	}
	return wanted < width*.97
}

// boundCase measures a case in one run of text on each side.
func (m *estimate) boundCase(r page.Step) float64 {
	left := m.Share.CaseBound
	said := append(append(m.pieced(r.Part, m.text, true), typeset.Piece{Text: " "}), m.pieced(r.Amount, m.text, false)...)
	run := slices.Clone(r.What)
	for _, n := range r.Note {
		run = append(append(run, page.W(" ")), n...)
	}
	name := float64(m.v.Lines(said, m.text, m.width*left-m.Apart.CaseRight)) * m.text * m.Line.Beside
	size := m.reason * m.Times.ActBound
	acts := m.lines(run, size, m.width*(1-left)-.5, false) * size * m.Line.Reason
	return math.Max(name, acts+.15*m.text) + 2*m.row + m.hair
}
