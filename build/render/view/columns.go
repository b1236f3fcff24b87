package view

import (
	"strconv"

	"wetside/build/render/wording"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// Fit is the class that makes room for the digits before and after the decimal
// point, the same for all texts in a column.
func (v *View) fit(texts []page.Text) string {
	whole, rest, unit := 0, 0, 0
	found := false
	for _, t := range texts {
		if !wording.Single(t) {
			continue
		}
		for _, r := range t[0].Figures {
			if r == nil || r.Refused() || r.Kind == figure.KindText || r.Kind == figure.KindSeries {
				continue
			}
			found = true
			w, d := wording.SplitPoint(r.Shown)
			whole, rest = max(whole, len([]rune(w))), max(rest, len(d))
			if t[0].Kind == page.Fig {
				unit = max(unit, len([]rune(wording.Unit(r))))
			}
		}
	}
	if !found {
		return ""
	}
	return "num i" + strconv.Itoa(min(whole, 7)) + " d" + strconv.Itoa(min(rest, 5)) + " u" + strconv.Itoa(min(unit, 8))
}

// StepFit is the class of a run of steps: the room its amounts need.
func (v *View) StepFit(rows []page.Step) string {
	var texts []page.Text
	for _, r := range rows {
		if !r.Mark {
			texts = append(texts, r.Amount)
		}
	}
	return v.fit(texts)
}

// Columns are the classes of a table's columns.
func (v *View) Columns(t page.Table) []string {
	n := len(t.Head)
	for _, r := range t.Rows {
		n = max(n, len(r.Cells))
	}
	out := make([]string, n)
	for c := range out {
		var texts []page.Text
		for _, r := range t.Rows {
			if c < len(r.Cells) {
				texts = append(texts, r.Cells[c].Text)
			}
		}
		out[c] = v.fit(texts)
	}
	return out
}

// Mixed tells a cell in which something stands beside a figure.
func (v *View) Mixed(t page.Text) bool { return len(t) > 0 && !wording.Single(t) }
