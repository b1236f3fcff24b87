package work

import (
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
)

// What the subjects below answer, under one name for the cards.
type (
	// Known is what is known of the dangers of something.
	Known = hazard.Known
	// Job is what somebody is doing with it.
	Job = hazard.Job
	// Worn is one thing to wear or to do, and why.
	Worn = hazard.Item
	// Gas is what something gives off.
	Gas = hazard.Gas
	// Against is how near a substance comes to the limit of its class.
	Against = hazard.Against
)

// The jobs, and what may be known of something.
const (
	Weigh   = hazard.Weigh
	Dilute  = hazard.Dilute
	AtWork  = hazard.Work
	Spilled = hazard.Spilled
	Away    = hazard.Away

	Unknown      = hazard.Unknown
	Carried      = hazard.Carried
	Unclassified = hazard.None

	// ForPowder ends the words of a piece of gear that only powder asks for.
	ForPowder = hazard.ForPowder
)

// Dangers are what is known of the dangers of something, and what every job with it
// asks for.
type Dangers struct {
	Known
	Jobs []JobGear
}

// JobGear is what one job asks for.
type JobGear struct {
	Job Job
	// Key is the word that stands for the job in an id.
	Key  string
	Wear []Worn
	// NotPregnant: who is pregnant or breast-feeding leaves it to somebody else.
	NotPregnant bool
}

// dangersOf asks what to wear for every job, once.
func dangersOf(k Known) Dangers {
	d := Dangers{Known: k}
	for _, j := range hazard.Jobs {
		d.Jobs = append(d.Jobs, JobGear{Job: j.Job, Key: j.Key, Wear: hazard.Gear(j.Job, k), NotPregnant: hazard.Pregnant(j.Job, k)})
	}
	return d
}

// together is what is known of several baths at once.
func together(baths []*Bath) Dangers {
	var all []Known
	for _, b := range baths {
		all = append(all, b.Dangers.Known)
	}
	return dangersOf(hazard.Merge(all...))
}

// Together is what is known of several baths at once.
func Together(baths []*Bath) Dangers { return together(baths) }

// For is what one job asks for.
func (d Dangers) For(job Job) JobGear {
	for _, j := range d.Jobs {
		if j.Job == job {
			return j
		}
	}
	return JobGear{Job: job}
}

// Pieces are all pieces of gear that there are, in the order in which a sheet names them.
func Pieces() []string { return hazard.Pieces }

// known is what is known of a bath: of everything in it, and what the processes that
// use it say of working with it.
func (w *Work) known(b lab.Bath) Known {
	k := hazard.OfBath(w.mix.Rules, w.mix.Made(b))
	for _, p := range w.lab.Processes {
		for i, s := range p.Steps {
			if s.Caution == "" || s.Bath == "" {
				continue
			}
			if in, bad := w.lab.Bath(s.Bath, p.At(lab.StepKey(i))); len(bad) == 0 && in.Ref() == b.Ref() {
				k = k.With(hazard.Work, s.Caution)
			}
		}
	}
	return k
}

// protect enters what each job with a strength asks for, as a verdict.
func (w *Work) protect(b *Bath, jobs []JobGear) {
	for _, j := range jobs {
		v := figure.Verdict{ID: figure.ID(b.Ref(), "protect", j.Key), Source: "rules by class: common practice and the precautionary statements of the CLP scheme; follow the supplier’s sheet first"}
		for i, item := range j.Wear {
			if i > 0 {
				v.Answer += ", "
			}
			v.Answer += item.Word
			v.Because = append(v.Because, item.Word+": "+item.Because)
		}
		switch b.Dangers.Status {
		case hazard.Unknown:
			v.Limits = []string{"hazards not looked up: full precautions"}
		case hazard.Carried:
			v.Limits = []string{"the hazards of every ingredient, as if undiluted"}
		}
		w.mix.Book.EnterVerdict(v)
	}
}
