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
}

// processes is the stage that puts each process together with its baths.
func (w *Work) processes() {
	for _, d := range w.lab.Processes {
		p := &Process{Decl: d, Baths: make([]*Bath, len(d.Steps))}
		var all []Known
		for i, s := range d.Steps {
			if s.Bath == "" {
				continue
			}
			if b, bad := w.lab.Bath(s.Bath, d.At(lab.StepKey(i))); len(bad) == 0 && !b.Zero() {
				p.Baths[i] = w.byRef[b.Ref()]
				all = append(all, p.Baths[i].Dangers.Known)
			}
		}
		known := hazard.Merge(all...).With(hazard.Work, d.Bench...).WithNever(hazard.Work, d.Never...)
		for _, s := range d.Steps {
			known = known.With(hazard.Work, s.Caution)
		}
		p.Dangers = dangersOf(known)
		w.gates(d)
		w.Processes = append(w.Processes, p)
	}
}

// gates enters every step of a process that must not be shortened.
func (w *Work) gates(p *lab.Process) {
	for _, s := range p.Steps {
		if s.Gate == "" {
			continue
		}
		v := figure.Verdict{ID: p.ID + "/gate." + s.ID, Answer: "do not shorten", Because: []string{s.Gate}, Source: p.File}
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
