package waste

import (
	"fmt"
	"sort"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/rules"
)

// permits demands that a permit is one: the reference of something in writing,
// which has a date or a number, or "none". "no" and "ask" are not permits, and
// nothing may go down a drain because of them.
func permits(l *lab.Lab) []lab.Problem {
	var out []lab.Problem
	for _, p := range []struct{ key, word string }{{"drain", l.Local.Permit.Drain}, {"wash", l.Local.Permit.Wash},
		{"treat", l.Local.Permit.Treat}} {
		word := strings.TrimSpace(p.word)
		if word == "" || word == "none" || strings.ContainsAny(word, "0123456789") {
			continue
		}
		out = append(out, lab.Problem{At: l.Local.At("permit." + p.key), Code: "permit",
			What: fmt.Sprintf("%q is not a written permit: it has neither a date nor a number", p.word),
			Hint: `write the permit's own reference, for example "letter of 2026-02-03"; "none" where somebody asked and was refused; leave the key out while nobody has asked`})
	}
	for _, w := range l.Wastes {
		if w.Drain == "" {
			continue
		}
		if word := strings.ToLower(strings.TrimSpace(w.Drain)); len(strings.Fields(word)) < 3 {
			out = append(out, lab.Problem{At: w.At("drain"), Code: "permit",
				What: fmt.Sprintf("%q does not say how it goes down a drain", w.Drain),
				Hint: `write how, for example "with plenty of water, one litre at a time", or leave it out: then it goes to a drum`})
		}
	}
	return out
}

// Check finds what cannot be so in the waste routes and drums of a lab.
func Check(l *lab.Lab) []lab.Problem {
	var out []lab.Problem
	var drums []string
	for id := range l.Place.Drums {
		drums = append(drums, id)
	}
	sort.Strings(drums)
	for _, w := range l.Wastes {
		if w.Name == "" {
			out = append(out, lab.Problem{At: w.At(""), OnKey: true, Code: "missing", What: "a waste route without a name", Hint: `write name = "used developers"`})
		}
		if w.Drum != "" && w.Drain != "" {
			out = append(out, lab.Problem{At: w.At("drain"), Code: "shape",
				What: "a route leads to a drum or, if permitted, to a drain, not to both", Hint: "keep one of the two"})
		}
		if _, ok := l.Place.Drums[w.Drum]; w.Drum != "" && len(drums) > 0 && !ok {
			out = append(out, lab.Problem{At: w.At("drum"), Code: "reference",
				What: fmt.Sprintf("there is no drum %q", w.Drum),
				Hint: lab.Near(w.Drum, drums, fmt.Sprintf("write [drum.%s] with holds in lab.toml", w.Drum))})
		}
	}
	out = append(append(out, permits(l)...), limits(l)...)
	r, bad := rules.Of(l)
	out = append(out, bad...)
	for _, p := range Together(r) {
		if !p.Warning { // those are given once, when it is known how acid all are
			out = append(out, p)
		}
	}
	for _, id := range drums {
		at := l.Place.At("drum." + id)
		switch d := l.Place.Drums[id]; {
		case !d.Holds.Given():
			out = append(out, lab.Problem{At: at, Code: "missing", What: fmt.Sprintf("the drum %q does not say what it holds", id), Hint: `write holds = "20 L"`})
		case !d.Holds.Positive():
			out = append(out, lab.Problem{At: at.At("holds"), Code: "range",
				What: fmt.Sprintf("%q: a drum must hold more than zero", d.Holds.Text()),
				Hint: "write a positive volume"})
		}
	}
	return out
}
