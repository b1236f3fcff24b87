package work

import (
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
)

// Process is one process with the baths of its steps.
type Process struct {
	Decl *lab.Process
	// Baths are those of its steps, by their places; nil where a step has none.
	Baths []*Bath
	// Dangers are those of all its baths, with what it says itself of working with them.
	Dangers Dangers
	// Developer is the bath of the first step whose time is the material's; nil without
	// one. Any: no time depends on the material, and a run is a vessel alone.
	Developer *Bath
	Any       bool
	// Temperature is that of all its baths, and Within how near to it they are kept; nil
	// where nobody has written it.
	Temperature, Within *figure.Record
	// NotDiluted are concentrates that are not for somebody who is pregnant or
	// breast-feeding, where what is diluted from them may be worked in.
	NotDiluted []*Bath
	Steps      []*Step
	Runs       []*Run
	// Runless is why it has no run, so that nobody can say how much of each bath is wanted.
	Runless Runless
	// Degrees are the times at each half degree of the developer's window.
	Degrees []Degree
	// Clearing are the clearing and fixing times of its materials.
	Clearing []ClearingTime
	// Pushed are the times at other exposure indexes.
	Pushed []Pushed
	// Counted are how many runs so many pieces take.
	Counted Counted
	// Sharing are the materials that may or may not lie in one tank, and Mixed two formats
	// of one material.
	Sharing Sharing
	Mixed   []MixedFill
	// Lacks are what the shelf lacks of its baths, whatever the run.
	Lacks []Lack
	// UsedFixers and UsedDevelopers stand on the shelf, and take longer than fresh ones.
	UsedFixers, UsedDevelopers []UsedBath

	develops int // the step of the developer, -1 without
}

// processes is the stage that puts each process together with its baths.
func (w *Work) processes() {
	for _, d := range w.lab.Processes {
		p := &Process{Decl: d, Baths: w.bathsOf(d)}
		var all []Known
		for _, b := range p.Baths {
			if b != nil {
				all = append(all, b.Dangers.Known)
			}
		}
		known := hazard.Merge(all...).With(hazard.Work, d.Bench...).WithNever(hazard.Work, d.Never...)
		for _, s := range d.Steps {
			known = known.With(hazard.Work, s.Caution)
		}
		p.Dangers = dangersOf(known, nil)
		w.gates(d)
		w.Processes = append(w.Processes, p)
	}
}

// bathsOf are the baths of the steps of a process, by their places; nil where a step has none.
func (w *Work) bathsOf(p *lab.Process) []*Bath {
	out := make([]*Bath, len(p.Steps))
	for i, s := range p.Steps {
		if s.Bath == "" {
			continue
		}
		if b, bad := w.lab.Bath(s.Bath, p.At(lab.StepKey(i))); len(bad) == 0 && !b.Zero() {
			out[i] = w.byRef[b.Ref()]
		}
	}
	return out
}

// gates enters every step of a process that must not be shortened.
func (w *Work) gates(p *lab.Process) {
	for _, s := range p.Steps {
		if s.Gate == "" {
			continue
		}
		v := figure.Verdict{ID: figure.ID(p.ID, "gate."+s.ID), Answer: "do not shorten", Because: []string{s.Gate},
			Source: p.File}
		if s.Before != "" {
			v.Limits = []string{"before " + s.Before}
		}
		w.mix.Book.EnterVerdict(v)
	}
}

// Process finds a process by its id; nil where there is none.
func (w *Work) Process(id string) *Process {
	for _, p := range w.Processes {
		if p.Decl.ID == id {
			return p
		}
	}
	return nil
}
