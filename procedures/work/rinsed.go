package work

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
	"wetside/procedures/waste"
)

// WashAllowed is what the limits of the permit for the water of washes say of one wash.
type WashAllowed struct {
	Process *lab.Process
	Step    lab.ProcessStep
	// Answers are those of each limit, of silver for each fill.
	Answers []Allowed
	// Closed: none of its water may go down a drain. Else Collect is how many of its first fills may
	// not; nil where all of it may.
	Closed  bool
	Collect *figure.Record
}

// washesAllowed is the stage that holds the water of washes against the limits of its permit. What has
// a route of its own goes that way.
func (w *Work) washesAllowed() {
	limits := waste.LimitsOf(w.mix, lab.Wash)
	if len(limits) == 0 {
		return
	}
	for _, p := range w.lab.Processes {
		for i, s := range p.Steps {
			if s.Bath == "" && s.Waste == "" && (len(s.Fills) > 0 || s.Flow.Given()) {
				w.Washes = append(w.Washes, w.washAllowed(p, i, limits))
			}
		}
	}
}

func (w *Work) washAllowed(p *lab.Process, i int, limits []PermitLimit) *WashAllowed {
	s := p.Steps[i]
	out := &WashAllowed{Process: p, Step: s}
	first := 0
	var from []*figure.Record
	for _, x := range limits {
		if x.Of != lab.LimitSilver {
			out.Answers = append(out.Answers, x.Unknown(figure.ID(p.ID, "permit."+x.Of, s.ID), "",
				"nobody has worked out how much of it this water holds"))
			continue
		}
		fills := w.silverInFills(p, i, x)
		for n, a := range fills {
			if a.Meets != Met {
				first = n + 1
			}
			if a.Is != nil {
				from = append(from, a.Is)
			}
		}
		if first == len(fills) {
			out.Closed = true
		}
		out.Answers = append(out.Answers, fills...)
	}
	for k := range out.Answers {
		a := &out.Answers[k]
		a.Who = p.Name + ", " + s.ID
		out.Closed = out.Closed || a.Meets == Untold && a.Is == nil
		w.mix.Book.EnterVerdict(a.Verdict(w.Local.File))
	}
	if first > 0 && !out.Closed {
		out.Collect = w.mix.Book.Enter(figure.Of(figure.Core{ID: figure.ID(p.ID, "permit-collect."+s.ID), Value: float64(first),
			Source: "the limits of the permit, fill by fill", Origin: figure.Standard},
			figure.Face{Kind: figure.KindCount, Name: "first fills that may not go down the drain", Shown: fmt.Sprint(first),
				Rounded: fmt.Sprint(first), Round: figure.Rounding{Rule: unit.Up.String(), Step: "1"}}, from...))
	}
	w.washProblem(out, p, i, first)
	return out
}

// washProblem warns of a wash that sends down the drain what its permit does not allow.
func (w *Work) washProblem(a *WashAllowed, p *lab.Process, i, first int) {
	var says []string
	for _, x := range a.Answers {
		if x.Meets == NotMet {
			says = append(says, x.Says())
		}
	}
	problem := lab.Problem{At: p.At(lab.StepKey(i)), OnKey: true, Code: "permit", Warning: true}
	switch {
	case len(says) == 0:
		return
	case a.Closed:
		problem.What = fmt.Sprintf("the water of %s, %s, may not go down the drain: %s", p.Name, a.Step.ID, says[len(says)-1])
		problem.Hint = "ask first; more fills bring the last of them below the limit"
	case a.Step.CollectFirst.N >= first:
		return
	default:
		problem.What = fmt.Sprintf("the water of %s, %s, may go down the drain only after the first fills: %s", p.Name, a.Step.ID,
			strings.Join(says, "; "))
		problem.Hint = fmt.Sprintf("write collect_first = %d, so that they go where the fixer goes", first)
	}
	if !slices.ContainsFunc(w.Problems, func(x lab.Problem) bool { return x.At == problem.At && x.Code == problem.Code }) {
		w.Problems = append(w.Problems, problem) // a process that is built on this one has the same step
	}
}

// silverInFills holds each fill of a wash against a limit of silver.
func (w *Work) silverInFills(p *lab.Process, i int, x PermitLimit) []Allowed {
	s, baths := p.Steps[i], w.bathsOf(p)
	id := figure.ID(p.ID, "permit."+x.Of, s.ID)
	former := formerIn(baths, i)
	if p.Base != lab.Film || len(s.Fills) == 0 || former == nil || former.Role() != lab.Fixer {
		return []Allowed{x.Unknown(id, "", "nobody has worked out how much silver this water holds")}
	}
	var out []Allowed
	for n := range s.Fills {
		at := figure.Beside(id, fmt.Sprint(n+1))
		c := w.silverAfter(figure.ID(p.ID, "silver-after", s.ID, fmt.Sprint(n+1)), p, baths, i, n+1)
		if !c.known {
			return []Allowed{x.Unknown(id, "", c.why)}
		}
		out = append(out, x.Content(w.mix, at, fmt.Sprintf("in fill %d", n+1), c.c))
	}
	return out
}

// washOf is what the permit says of a wash; nil where it has no limits.
func (w *Work) washOf(p *lab.Process, step string) *WashAllowed {
	i := slices.IndexFunc(w.Washes, func(a *WashAllowed) bool { return a.Process == p && a.Step.ID == step })
	if i < 0 {
		return nil
	}
	return w.Washes[i]
}
