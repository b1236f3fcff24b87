package work

import (
	"fmt"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/timing"
	"wetside/procedures/unit"
)

// clocks are the running clocks of the runs of a process.
type clocks struct {
	of []*runClock
	// begun: a clock has been started. stopped: no clock goes on from here.
	begun, stopped bool
}

// runClock is the clock of one run. It stops where nobody can say how long a step takes.
type runClock struct {
	*timing.Clock
	drain   figure.Figure[unit.Seconds]
	stopped bool
}

// startClocks starts a clock for every run.
func (w *Work) startClocks(p *Process) *clocks {
	c := &clocks{}
	for _, r := range p.Runs {
		drain := w.times.Draining(p.Decl, tankOf(r.Vessel), r.Vessel.Pour)
		c.of = append(c.of, &runClock{Clock: w.times.NewClock(p.Decl.ID, r.variants()...), drain: drain})
	}
	return c
}

// alike is one length for every run.
func (c *clocks) alike(length figure.Figure[unit.Seconds]) []*figure.Figure[unit.Seconds] {
	out := make([]*figure.Figure[unit.Seconds], len(c.of))
	for i := range out {
		out[i] = &length
	}
	return out
}

// now puts the clocks into a step without moving them on.
func (w *Work) now(p *Process, i int, c *clocks, stopped bool) {
	if stopped {
		return
	}
	for n, r := range c.of {
		if r.stopped {
			p.Runs[n].Steps[i].At = w.word("then", "next")
		} else {
			p.Runs[n].Steps[i].At = r.Now()
		}
	}
}

// advance puts the clocks into a step and moves them on by each run's length; the clock
// of a run without one stops there. Where the step is not in a tank, nothing is drained.
func (w *Work) advance(p *Process, i int, c *clocks, lengths []*figure.Figure[unit.Seconds], inTank bool) {
	if c.stopped {
		return
	}
	drained := false
	for n, r := range c.of {
		s := &p.Runs[n].Steps[i]
		switch {
		case r.stopped:
			s.At, s.Drain = w.word("then", "next"), w.dash
			continue
		case lengths[n] == nil:
			s.At, s.Drain = r.Now(), w.dash
			r.stopped = true
			continue
		}
		var drain figure.Figure[unit.Seconds]
		if inTank {
			drain = r.drain
		}
		s.At, s.Drain = r.Step(p.Decl.Steps[i].ID, *lengths[n], drain)
		drained = drained || s.Drain != nil
		if s.Drain == nil {
			s.Drain = w.dash
		}
	}
	for _, r := range p.Runs {
		if !drained {
			r.Steps[i].Drain = nil
		}
	}
}

// plainStep works out how long a step without a bath takes, and the clocks at its start.
func (w *Work) plainStep(p *Process, i int, c *clocks, stopped bool) {
	s := p.Steps[i]
	if !s.Decl.Time.Fixed.Given() {
		w.now(p, i, c, stopped || s.Decl.Until == "")
		return
	}
	id, length := w.times.Fixed(p.Decl, i)
	s.Time = id
	switch {
	case s.Decl.Until != "":
		w.now(p, i, c, stopped)
	case !stopped:
		w.advance(p, i, c, c.alike(length), false)
	}
}

// fillsStep works out a wash in fills of water.
func (w *Work) fillsStep(p *Process, i int, c *clocks) {
	s := p.Steps[i]
	decl, key := s.Decl, lab.StepKey(i)
	words := make([]string, len(decl.Fills))
	series := make([]float64, len(decl.Fills))
	for n, turns := range decl.Fills {
		words[n], series[n] = fmt.Sprint(turns), float64(turns)
	}
	by, _ := w.lab.OriginOf(p.Decl.Said(key + ".fills"))
	at := p.Decl.At(key + ".fills")
	in := &figure.InputRef{Name: "turns in each fill", Where: at, Text: strings.Join(words, ", "), Origin: by}
	core := figure.Core{ID: figure.ID(p.Decl.ID, "fills."+decl.ID), Series: series, Value: float64(len(series)),
		Source: "common practice, no source", Origin: by, Inputs: []*figure.InputRef{in}}
	s.Fills = w.mix.Book.Enter(figure.Of(core, figure.Face{Kind: figure.KindSeries, Name: "turns in each fill",
		Unit:  "turns",
		Shown: strings.Join(words, " · "), Rounded: strings.Join(words, " "),
		Round: figure.Rounding{Rule: "as declared"}}))
	w.fillsTime(p, i, c)
	if decl.CollectFirst.N > 0 {
		s.Collected = w.collected(p.Decl, i)
		s.Former = formerBath(p, i)
	}
	if a := s.Allowed; a != nil && a.Collect != nil && int(a.Collect.Value) > decl.CollectFirst.N {
		s.Collected, s.Former = a.Collect, formerBath(p, i)
	}
	s.FirstAlone = s.Collected != nil && s.Collected.Value == 1
}

// fillsTime works out how long the fills take together, where they are not just counted.
func (w *Work) fillsTime(p *Process, i int, c *clocks) {
	s := p.Steps[i]
	decl := s.Decl
	switch {
	case decl.Over.Given():
		id, length := w.times.Over(p.Decl, i)
		s.Time = id
		w.advance(p, i, c, c.alike(length), false)
	case decl.Time.Fixed.Given():
		id, length := w.times.Fixed(p.Decl, i)
		s.Time = id
		w.advance(p, i, c, c.alike(length), false)
	default: // the fills are counted, and no clock goes on
		w.now(p, i, c, c.stopped || !c.begun)
		c.stopped = true
	}
}

// agitate works out what the hands do in a step.
func (w *Work) agitate(p *Process, i int, c *clocks, lengths []*figure.Figure[unit.Seconds]) {
	s := p.Steps[i]
	decl := s.Decl
	a := p.Decl.Agitate[decl.Agitate]
	for n, r := range p.Runs {
		if lengths[n] != nil {
			r.Steps[i].Turned = w.times.Agitate(p.Decl, decl.ID, r.stepVariants(decl), *lengths[n], c.of[n].drain)
		}
	}
	turns := func(id, key, name string, t lab.Turns) *figure.Record {
		g := figure.GivenNumber(unit.Factor(t.Count), t.Text(), p.Decl.At("agitate."+decl.Agitate+"."+key),
			figure.House, name)
		return figure.Declare(w.mix.Book, figure.ID(p.Decl.ID, id+"."+decl.ID), figure.KindCount, g,
			fmt.Sprint(t.Count), "")
	}
	first := w.dashes(p, i, func(x *Agitation) **figure.Record { return &x.First })
	if a.First.Given() && first && !a.First.Continuous() {
		s.First = turns("first-turns", "first", "turns at first", a.First)
	}
	if !w.dashes(p, i, func(x *Agitation) **figure.Record { return &x.Last }) {
		return
	}
	s.Then = turns("then-turns", "then", "turns each time", a.Then)
	for _, field := range []func(*Agitation) **figure.Record{
		func(x *Agitation) **figure.Record { return &x.Every },
		func(x *Agitation) **figure.Record { return &x.Times },
		func(x *Agitation) **figure.Record { return &x.Turns },
		func(x *Agitation) **figure.Record { return &x.Marks },
		func(x *Agitation) **figure.Record { return &x.Lasts },
		func(x *Agitation) **figure.Record { return &x.Drain },
	} {
		w.dashes(p, i, field)
	}
}

// dashes puts a dash where a run has no figure and another has; false where none has.
func (w *Work) dashes(p *Process, i int, field func(*Agitation) **figure.Record) bool {
	some := false
	for _, r := range p.Runs {
		some = some || *field(&r.Steps[i].Turned) != nil
	}
	for _, r := range p.Runs {
		if at := field(&r.Steps[i].Turned); some && *at == nil {
			*at = w.dash
		}
	}
	return some
}
