// Package wording puts figures and texts of a page into plain words, for the choice in
// which it is shown. Every way of showing a page reads them here, so that a figure, its
// unit and the letter of its origin are the same on a screen, on paper and in the terminal.
package wording

import (
	"regexp"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// Pick is the figure of a choice; nil where there is none.
func Pick(list []*figure.Record, choice int) *figure.Record {
	if len(list) == 0 {
		return nil
	}
	return list[min(max(choice, 0), len(list)-1)]
}

// Shown is a figure as plain text.
func Shown(r *figure.Record, bare bool) string {
	if r.Refused() {
		return "NO"
	}
	if u := Unit(r); u != "" && !bare {
		return r.Shown + "\u00a0" + u
	}
	return r.Shown
}

// Unit is the unit printed beside a figure: none beside a clock time or a date.
func Unit(r *figure.Record) string {
	switch {
	case r.Kind == figure.KindDate, r.Kind == figure.KindText:
		return ""
	case (r.Kind == figure.KindTime || r.Kind == figure.KindSeries) && strings.Contains(r.Shown, ":"):
		return ""
	}
	return r.Unit
}

// Mark is the letter that stands for an origin, nothing for none.
func Mark(origin string) string {
	if origin == "" {
		return ""
	}
	return origin[:1]
}

// Single tells whether a text is one figure and nothing else.
func Single(t page.Text) bool {
	return len(t) == 1 && (t[0].Kind == page.Fig || t[0].Kind == page.BareFig)
}

// SplitPoint parts a number before its decimal point.
func SplitPoint(s string) (whole, rest string) {
	if i := strings.IndexByte(s, '.'); i >= 0 {
		return s[:i], s[i:]
	}
	return s, ""
}

var unitWords = regexp.MustCompile(`(\d) (°C|%|ml|g|L|K|s|min|h|mm|cm|m)(\s|$|[.,;:)])`)

// KeepUnits keeps a number in a text to its unit. Most texts have no number before a
// space, which is seen much faster than by the expression.
func KeepUnits(s string) string {
	i := 1
	for i < len(s) && (s[i] != ' ' || s[i-1] < '0' || s[i-1] > '9') {
		i++
	}
	if i >= len(s) {
		return s
	}
	return unitWords.ReplaceAllString(s, "$1\u00a0$2$3")
}

// Plain flattens a text to plain words, for a title or a label that is spoken: in the
// first choice where all are shown.
func Plain(t page.Text, choice int) string {
	var b strings.Builder
	for _, in := range t {
		if !in.In(max(choice, 0)) {
			continue
		}
		switch in.Kind {
		case page.Fig, page.BareFig:
			if r := Pick(in.Figures, choice); r != nil {
				b.WriteString(Shown(r, in.Kind == page.BareFig))
			}
		case page.Ask:
			b.WriteString(strings.TrimSpace("ask " + in.Text))
		case page.Blank:
			b.WriteString("____")
		default:
			b.WriteString(in.Text)
		}
	}
	return b.String()
}

// Joined puts two texts behind each other with a comma.
func Joined(a, b page.Text) page.Text {
	out := a[:len(a):len(a)]
	if len(a) > 0 && len(b) > 0 {
		out = append(out, page.W(", "))
	}
	return append(out, b...)
}
