package lab

import (
	"slices"
	"strings"
	"testing"
)

func TestPapers(t *testing.T) {
	for _, c := range []struct {
		papers []string
		at     string // key of the one problem, or none
		says   string
	}{
		{nil, "", ""},
		{[]string{"a4", "a5", "a6", "letter", "half-letter", "index"}, "", ""},
		{[]string{}, "print.papers", "name one of"},
		{[]string{"a4", "a7"}, "print.papers[1]", "the papers are"},
		{[]string{"half-leter"}, "print.papers[0]", `did you mean "half-letter"`},
		{[]string{"0 mm x 0 mm"}, "print.papers[0]", "the papers are"},
		{[]string{"a6", "a6"}, "print.papers[1]", "once"},
	} {
		l := &Lab{Place: Place{Print: PrintRules{Papers: c.papers}}}
		check := &checker{lab: l}
		check.papers(l.Place)
		switch {
		case c.at == "" && len(check.problems) > 0:
			t.Errorf("%q: %v", c.papers, check.problems)
		case c.at != "" && !slices.ContainsFunc(check.problems, func(p Problem) bool { return p.At.Key == c.at && strings.Contains(p.Hint, c.says) }):
			t.Errorf("%q: no problem at %s that says %s: %v", c.papers, c.at, c.says, check.problems)
		}
	}
}
