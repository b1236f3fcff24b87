package work

import (
	"slices"

	"wetside/procedures/hazard"
)

// Leaving is what one person leaves to others.
type Leaving struct {
	Who Person
	// Rows are the baths, by the jobs at which they are left; Reasons the same baths, by the reason.
	Rows    []JobsLeft
	Reasons []ReasonLeft
}

// JobsLeft are baths that are left to others at the same jobs.
type JobsLeft struct {
	Jobs  []Job
	Baths []BathLeft
}

// ReasonLeft are baths that are left to others for the same reason.
type ReasonLeft struct {
	Because string
	Baths   []BathLeft
}

// BathLeft is a solution or a product, and which of its strengths.
type BathLeft struct {
	Subject   *Subject
	Strengths []*Bath
}

// leaving is the stage of who leaves what to others, at the jobs that there are with it.
func (w *Work) leaving() {
	for _, who := range hazard.People {
		l := Leaving{Who: who}
		for _, s := range w.Subjects {
			for n, b := range s.Strengths {
				l.add(s, n, b)
			}
		}
		slices.SortStableFunc(l.Rows, func(a, b JobsLeft) int { return len(b.Jobs) - len(a.Jobs) })
		w.Leaving = append(w.Leaving, l)
	}
}

// add enters what is left of the nth strength of a solution or product.
func (l *Leaving) add(s *Subject, n int, b *Bath) {
	var jobs []Job
	for _, j := range b.Dangers.Jobs {
		because := j.Leave[l.Who]
		none := j.Job == Weigh && (n > 0 || !s.Made) || // nobody weighs what is diluted or bought as a liquid
			j.Job == AtWork && b.Concentrate // nobody works in what is only diluted
		if because == "" || none {
			continue
		}
		jobs = append(jobs, j.Job)
		i := slices.IndexFunc(l.Reasons, func(r ReasonLeft) bool { return r.Because == because })
		if i < 0 {
			i = len(l.Reasons)
			l.Reasons = append(l.Reasons, ReasonLeft{Because: because})
		}
		l.Reasons[i].Baths = leave(l.Reasons[i].Baths, s, b)
	}
	if len(jobs) == 0 {
		return
	}
	i := slices.IndexFunc(l.Rows, func(r JobsLeft) bool { return slices.Equal(r.Jobs, jobs) })
	if i < 0 {
		i = len(l.Rows)
		l.Rows = append(l.Rows, JobsLeft{Jobs: jobs})
	}
	l.Rows[i].Baths = leave(l.Rows[i].Baths, s, b)
}

// leave enters a strength into a list of baths, once.
func leave(list []BathLeft, s *Subject, b *Bath) []BathLeft {
	n := len(list) - 1
	if n < 0 || list[n].Subject != s {
		return append(list, BathLeft{Subject: s, Strengths: []*Bath{b}})
	}
	if !slices.Contains(list[n].Strengths, b) {
		list[n].Strengths = append(list[n].Strengths, b)
	}
	return list
}

// All reports that it is every strength.
func (b BathLeft) All() bool { return len(b.Strengths) == len(b.Subject.Strengths) }
