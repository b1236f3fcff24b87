package work

import (
	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/mixture"
	"wetside/procedures/unit"
)

// What the subjects below answer, under one name for the cards.
type (
	// Known is what is known of the dangers of something.
	Known = hazard.Known
	// Job is what somebody is doing with it, and Person who leaves some of it to others.
	Job    = hazard.Job
	Person = hazard.Person
	// Worn is one thing to wear or to do, and why.
	Worn = hazard.Item
	// Gas is what something gives off.
	Gas = hazard.Gas
	// Found is one class of something, and Bringing a content that brings it.
	Found    = hazard.Found
	Bringing = hazard.Bringing
	// Properties are what makes waste hazardous, Property one of them, and Hint what hints at one.
	Properties = hazard.Properties
	Property   = hazard.Property
	Hint       = hazard.Hint
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
	Computed     = hazard.Computed
	Supplied     = hazard.Supplied
	Overridden   = hazard.Overridden

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
	// Unknown: nobody has looked up something that is handled.
	Unknown bool
	// NotPregnant: who is pregnant or breast-feeding leaves it to somebody else. Leave are all who
	// do, with the reason.
	NotPregnant bool
	Leave       map[Person]string
}

// dangersOf asks what to wear for every job, once. Who weighs and who dilutes handles what
// comes out of the pack or the stock bottle as well.
func dangersOf(k Known, handled map[Job]Known) Dangers {
	d := Dangers{Known: k}
	for _, j := range hazard.Jobs {
		of := k
		if more, ok := handled[j.Job]; ok {
			of = hazard.Merge(more, k)
		}
		wear := hazard.Gear(j.Job, of)
		if powders, ok := handled[Weigh]; ok && j.Job == Spilled {
			wear = hazard.WithPowders(wear, powders)
		}
		leave := map[Person]string{}
		for _, who := range hazard.People {
			if because := hazard.Leaves(who, j.Job, of); because != "" {
				leave[who] = because
			}
		}
		d.Jobs = append(d.Jobs, JobGear{Job: j.Job, Key: j.Key, Wear: wear, NotPregnant: leave[hazard.Expecting] != "",
			Leave: leave, Unknown: of.Status == Unknown})
	}
	return d
}

// dangers is the stage of what every strength does to people.
func (w *Work) dangers() {
	known := map[string]Known{}
	for _, x := range w.Baths {
		known[x.Ref()] = w.known(x)
		w.Problems = append(w.Problems, known[x.Ref()].Problems...)
		x.Near = hazard.Reproductive(w.mix, w.mix.Made(x.Bath))
	}
	for _, x := range w.Baths {
		handled := map[Job]Known{}
		if from, _, ok := x.From(); ok {
			handled[Dilute] = known[from.Ref()]
		}
		if list := w.handled(x.Bath, known); len(list) > 0 {
			handled[Weigh] = hazard.Merge(list...)
		}
		x.Dangers, x.handled = dangersOf(known[x.Ref()], handled), handled
	}
}

// handled is what is known of all that somebody weighs or pours to make a bath, as it comes.
func (w *Work) handled(b lab.Bath, known map[string]Known) []Known {
	s := b.Solution
	if s == nil || b.Strength != s.MadeStrength() {
		return nil
	}
	refs := []string{}
	for _, step := range s.Steps {
		refs = append(refs, step.Add)
	}
	if s.Dissolve != nil {
		refs = append(refs, s.Dissolve.Add, s.Dissolve.In)
	}
	var out []Known
	for _, ref := range refs {
		ing, bad := w.lab.Resolve(ref, s.At("step"))
		switch {
		case len(bad) > 0 || ing.Water:
		case ing.Chemical != nil:
			out = append(out, hazard.OfForm(w.mix.Rules, ing.Chemical, ing.FormID))
		case !ing.Bath.Zero():
			out = append(out, known[ing.Bath.Ref()])
		}
	}
	return out
}

// together is what is known of several baths at once.
func together(baths []*Bath) Dangers {
	var all []Known
	for _, b := range baths {
		all = append(all, b.Dangers.Known)
	}
	handled := map[Job]Known{}
	for _, job := range []Job{Weigh, Dilute} {
		var list []Known
		for _, b := range baths {
			if k, ok := b.handled[job]; ok {
				list = append(list, k)
			}
		}
		handled[job] = hazard.Merge(list...)
	}
	return dangersOf(hazard.Merge(all...), handled)
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

// Jobs are all jobs, in the order in which a sheet names them.
func Jobs() []Job {
	var out []Job
	for _, j := range hazard.Jobs {
		out = append(out, j.Job)
	}
	return out
}

// Pieces are all pieces of gear that there are, in the order in which a sheet names them.
func Pieces() []string { return hazard.Pieces }

// known is what is known of a bath: of everything in it, and what the processes that
// use it say of working with it.
func (w *Work) known(x *Bath) Known {
	b := x.Bath
	k := hazard.OfBath(w.mix, w.mix.Made(b), acidityOf(x), w.Day)
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

// acidityOf is how acid a strength is, for its class: as somebody has measured it, else as
// it was worked out.
func acidityOf(x *Bath) hazard.Acidity {
	if q := x.PH(); q.Given() {
		return hazard.Acidity{PH: mixture.PH{Known: true, Low: q.Low(), Value: q.Value(), High: q.High()},
			Shown: unit.Spoken(q)}
	}
	return worked(x.Acid.Cool)
}

// worked is how acid something is, for its class, as it was worked out.
func worked(a Acidity) hazard.Acidity {
	if a.Within == nil {
		return hazard.Acidity{}
	}
	return hazard.Acidity{PH: mixture.PH{Known: true, Low: unit.Factor(a.Low), Value: unit.Factor(a.PH.Value),
		High: unit.Factor(a.High)}, Worked: true, Shown: a.PH.Shown}
}

// protect enters what each job with a strength asks for, as a verdict.
func (w *Work) protect(b *Bath, jobs []JobGear) {
	for _, j := range jobs {
		v := figure.Verdict{ID: figure.ID(b.Ref(), "protect", j.Key),
			Source: "rules by class: common practice and the precautionary statements of the CLP scheme; follow the supplier’s sheet first"}
		for i, item := range j.Wear {
			if i > 0 {
				v.Answer += ", "
			}
			v.Answer += item.Word
			v.Because = append(v.Because, item.Word+": "+item.Because)
		}
		if v.Answer == "" {
			v.Answer = "nothing beyond normal care"
		}
		switch b.Dangers.Status {
		case hazard.Unknown:
			v.Limits = []string{"hazards not looked up: full precautions"}
		case hazard.Carried:
			v.Limits = []string{"the hazards of all that is in it, as if undiluted"}
		case hazard.Computed:
			v.Limits = []string{"the classes of this strength, worked out from what is in it"}
		}
		w.mix.Book.EnterVerdict(v)
	}
}
