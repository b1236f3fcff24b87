package work

import (
	"fmt"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// FixTime is how long a film is fixed in a fixer that clears more slowly than fresh.
type FixTime struct {
	Film    *lab.Material
	Process *lab.Process
	Time    *figure.Record
}

// UsedDeveloper is how long films take in a developer that is used again.
type UsedDeveloper struct {
	// Most is the most rolls that a litre does, and Longer how much longer each of them
	// makes the next.
	Most, Longer *figure.Record
	// Films are those that have a time in it.
	Films []UsedFilm
}

// UsedFilm is how long one film takes in a used developer.
type UsedFilm struct {
	Film *lab.Material
	// Measured is the temperature at which its time was measured, and At that of the times
	// here: of the processes that use the developer, where they name one, else as measured.
	Measured, At *figure.Record
	// Next is the time of the next roll; refused where the developer is spent by it.
	Next *figure.Record
	// After are the times of every roll up to the limit, from the first in fresh
	// developer.
	After []AfterRolls
}

// AfterRolls is the time of a roll by how many went before it.
type AfterRolls struct {
	// Rolls is how many went before, and Time the time of the next one.
	Rolls, Time *figure.Record
	// Next: it is the one that comes next.
	Next bool
}

// fixTimes enters how long each film is fixed in a fixer after its last clearing test.
func (w *Work) fixTimes(b *Bottle) {
	if b.Clearing == nil || b.Answer == Dead || b.Ratio.Value == 0 {
		return
	}
	for _, p := range w.Processes {
		for i, s := range p.Decl.Steps {
			if !s.Time.Clearing || p.Baths[i] != b.Bath {
				continue
			}
			for _, m := range w.lab.Through(p.Decl) {
				if t := w.times.FixUsed(figure.ID(b.ID, "fix", m.ID, p.Decl.ID+"."+s.ID), p.Decl, i, m,
					b.Ratio); t != nil {
					b.Fix = append(b.Fix, FixTime{m, p.Decl, t})
				}
			}
		}
	}
}

// usedDeveloper enters the times in a developer that has done rolls before, for every
// film that has a time in it.
func (w *Work) usedDeveloper(b *Bottle) {
	if b.Reuse == nil || b.Answer == Dead {
		return
	}
	decl := b.Bath.Written()
	most := b.Reuse.Most.Figure("most rolls in a litre")
	longer := decl.Longer.Figure("longer for each roll in a litre")
	b.Developer = &UsedDeveloper{
		Most: figure.Declare(w.mix.Book, figure.ID(b.Bath.Ref(), "limit.rolls"), figure.KindCount, most,
			unit.Short(float64(most.Value)), "rolls/L"),
		Longer: figure.Declare(w.mix.Book, figure.ID(b.Bath.Ref(), "longer"), figure.KindRatio, longer,
			unit.Short(float64(longer.Value)), "%"),
	}
	for _, m := range w.lab.Materials {
		for i, dev := range m.Develop {
			in, bad := w.lab.Bath(dev.In, m.At(fmt.Sprintf("develop[%d].in", i)))
			if len(bad) == 0 && in.Ref() == b.Bath.Ref() {
				b.Developer.Films = append(b.Developer.Films, w.usedFilm(b, m, i))
			}
		}
	}
}

// usedFilm enters the times of one film by its i-th measured time.
func (w *Work) usedFilm(b *Bottle, m *lab.Material, i int) UsedFilm {
	measured := m.Develop[i].At
	f := UsedFilm{Film: m}
	f.Measured = w.temperature(figure.ID(m.ID, "at", b.Bath.Ref()), m.Def, fmt.Sprintf("develop[%d].at", i),
		measured.Quantity,
		"temperature of its time")
	degrees := measured.Value()
	f.At = f.Measured
	if own, ok := w.workedAt(b.Bath, m); ok {
		degrees = own
		f.At = w.worksAt(float64(own))
	}
	time := func(id string, n figure.Figure[unit.Rolls]) *figure.Record {
		if capacity.Room(n.Value, b.Reuse.Made.Value, b.Reuse.Most.Value()) == 0 {
			full := "another roll would pass " + b.Reuse.Most.Text() + ": spent"
			return w.mix.Book.Refuse(id, figure.KindTime, "time of "+m.Name+" in this used developer", "s", full,
				figure.House)
		}
		return w.times.Reused(id, m, i, b.Bath.Bath, float64(degrees), n, b.Reuse.Made)
	}
	f.Next = time(figure.ID(b.ID, "next", m.ID), b.Reuse.Done)
	for n := range capacity.Room(0, b.Reuse.Made.Value, b.Reuse.Most.Value()) + 1 {
		rolls := figure.Constant(unit.Rolls(n), "rolls already done in it", "", figure.Standard)
		f.After = append(f.After, AfterRolls{
			Rolls: w.count(figure.ID("reuse", fmt.Sprintf("rolls.%d", n)), n, "", "rolls already done in it"),
			Time:  time(figure.ID(b.ID, "time", m.ID, fmt.Sprintf("n=%d", n)), rolls),
			Next:  rolls.Value == b.Reuse.Done.Value,
		})
	}
	return f
}

// workedAt is the temperature at which the processes of a material use a developer,
// where they name one and the same.
func (w *Work) workedAt(b *Bath, m *lab.Material) (at unit.Temperature, found bool) {
	for _, p := range b.UsedIn {
		q := p.Temperature.At
		if p.Base != m.Base {
			continue
		}
		if !q.Given() || found && q.Value() != at {
			return 0, false
		}
		at, found = q.Value(), true
	}
	return at, found
}
