package work

import (
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Step is one step of a process: what is the same in all its runs. A figure is nil where
// there is nothing to say.
type Step struct {
	Decl lab.ProcessStep
	// Bath is what it is done in; nil where it is done in none.
	Bath *Bath
	// File and Key are where it is written.
	File, Key string
	// Beforehand: it is done before the first bath goes in, without a clock.
	Beforehand bool
	// StopAbove is the temperature above which it does harm. Window is what its bath is
	// for, where the temperature of the process lies outside.
	StopAbove, Window *figure.Record
	// Below is the temperature that it stays below, and Within how near it is kept to that
	// of the baths.
	Below, Within *figure.Record
	// Time is its own time: of a step without a bath, and of one with a bath where the process has
	// no run to say it.
	Time *figure.Record
	// Flow is the water that runs, Fills are the turns in each fill of water, and Collected
	// is how many of the first fills are collected with the bath before them, Former.
	Flow, Fills, Collected *figure.Record
	Former                 *Bath
	// FirstAlone: of its fills only the first is collected.
	FirstAlone bool
	// Allowed is what the permit for the water of washes says of it; nil where it has no limits, or where
	// it is no wash.
	Allowed *WashAllowed
	// Coats: its bath is brushed on, so much on a sheet of each format.
	Coats  bool
	Coated []SheetCoat
	// Keeps is how long its bath keeps once it is mixed, where it must be mixed only while
	// the step before runs.
	Keeps *figure.Record
	// MixedForIt: its bath is mixed of several parts for this tank alone, so that nothing is poured from a
	// bottle of it.
	MixedForIt bool
	// Treats is how much its bath treats before it is spent; nil where nobody counts it.
	Treats *Treating
	// Agitated: it is turned in some run, First times at first and Then each time after
	// that. Unturned: nobody has written how, of a developer or a fixer in a tank.
	Agitated, Unturned bool
	First, Then        *figure.Record
	// Cyanide is what thiocyanate could give that is carried into an acid bath here, or through this water; nil
	// where there is none.
	Cyanide *Cyanide
	// Stain is whether it can clear the stain of the permanganate bleach before it; nil where there was none.
	Stain *Stain
	// Reserve is how much acid it takes up, of a fixer that is to stay near neutral after a stop bath; nil of
	// any other, and for prints, of which the carrying board tells it.
	Reserve *Reserve
}

// SheetCoat is what is brushed onto one sheet of a format.
type SheetCoat struct {
	Format string
	Amount *figure.Record
}

// Treating is how much a bath treats before it is spent. Where it says nothing, nobody knows.
type Treating struct {
	// Uses is how often it is used, of a bath that is counted in uses alone.
	Uses *figure.Record
	// N is how many pieces of a format a litre treats, or NoWhy why nobody can say.
	N             *figure.Record
	Format, NoWhy string
	// ByRun: each run says how many of its own format.
	ByRun bool
}

// steps works out the steps of a process, for all its runs at once.
func (w *Work) steps(p *Process) {
	before := true
	for i, s := range p.Decl.Steps {
		d, key := p.Decl.Said(lab.StepKey(i))
		before = before && s.Do != "" && !s.Time.Given() && s.Until == "" && !s.Optional
		step := &Step{Decl: s, Bath: p.Baths[i], File: d.File, Key: key, Beforehand: before, Unturned: p.unturned(i),
			Allowed: w.washOf(p.Decl, s.ID)}
		step.MixedForIt = mixedForIt(step.Bath)
		p.Steps = append(p.Steps, step)
	}
	for _, r := range p.Runs {
		if p.Developer != nil {
			r.time, r.developing, r.timed = w.times.At(r.Material, r.develop, p.Developer.Bath, r.at)
			a, ok := p.Decl.Agitate[p.Decl.Steps[p.develops].Agitate]
			r.Ruled = r.timed && ok && (a.First.Given() || a.Then.Given())
		}
		for i, b := range p.Baths {
			if b != nil && !coats(b) {
				r.Steps[i].Vessel = vesselOf(p, i, r)
			}
		}
	}
	c := w.startClocks(p)
	for i, s := range p.Steps {
		if !s.Beforehand {
			w.warmth(p, i)
			w.step(p, i, c)
		}
	}
}

// mixedForIt reports a bath that is made up of parts and used once.
func mixedForIt(b *Bath) bool {
	if b == nil || b.Solution == nil || b.Decl() == nil || b.Decl().Use != "one-shot" ||
		b.Strength != b.Solution.MadeStrength() {
		return false
	}
	parts := 0
	for _, s := range b.Solution.Steps {
		if s.Parts.Given() {
			parts++
		}
	}
	return parts > 1
}

// step works out one step and moves the clocks on.
func (w *Work) step(p *Process, i int, c *clocks) {
	s := p.Steps[i]
	decl := s.Decl
	c.stopped = c.stopped || decl.Optional
	switch {
	case s.Bath != nil:
		c.begun = true
		w.bathStep(p, i, c)
	case len(decl.Fills) > 0:
		w.fillsStep(p, i, c)
		c.begun = c.begun || decl.Time.Given() || decl.Over.Given()
	case decl.Flow.Given():
		c.begun = true
		flow := figure.Given(decl.Flow, p.Decl.At(lab.StepKey(i)+".flow"), figure.House, "running water")
		shown := unit.Short(float64(decl.Flow.Value()))
		s.Flow = figure.Declare(w.mix.Book, figure.ID(p.Decl.ID, "flow."+decl.ID), figure.KindAmount, flow, shown,
			"L/min")
		w.plainStep(p, i, c, c.stopped)
	default:
		c.begun = c.begun || decl.Time.Given()
		long := !decl.Time.Given() || decl.Time.Fixed.Value() >= 3600
		w.plainStep(p, i, c, c.stopped || long)
		c.stopped = c.stopped || c.begun && long
	}
	c.stopped = c.stopped || decl.Until != ""
}

// warmth works out what a step says of temperatures.
func (w *Work) warmth(p *Process, i int) {
	s := p.Steps[i]
	decl, id := s.Decl, p.Decl.ID
	if stop, d, key := p.stopAbove(i); stop.Given() {
		s.StopAbove = w.temperature(figure.ID(id, "stop-above."+decl.ID), d, key, stop, "stop above")
		w.mix.Book.EnterVerdict(figure.Verdict{ID: figure.ID(id, "stop-above."+decl.ID), Answer: "stop above " +
			unit.Spoken(stop),
			Limits: []string{unit.Spoken(stop)}, Because: []string{"warmer, this step does harm: cool it first"},
			Source: "written in " + d.File})
	}
	if own := p.outside(i); own.Given() {
		key := "strength." + s.Bath.Strength + ".temperature.from"
		s.Window = w.temperature(figure.ID(s.Bath.Ref(), "window"), s.Bath.Def(), key, own, "this bath is for")
	}
	if decl.Below.Given() {
		d, key := p.Decl.Said(lab.StepKey(i) + ".below")
		s.Below = w.temperature(figure.ID(id, "below."+decl.ID), d, key, decl.Below.Quantity, "below")
	}
	if decl.Within.Given() {
		within := figure.Given(decl.Within, p.Decl.At(lab.StepKey(i)+".within"), figure.House, "within")
		shown := unit.Short(float64(decl.Within.Value()))
		s.Within = figure.Declare(w.mix.Book, figure.ID(id, "within."+decl.ID), figure.KindTemperature, within, shown,
			"K")
	}
}

// outside is the window of a bath that the temperature of the process lies outside; of a
// development the time says so.
func (p *Process) outside(i int) (own unit.Quantity[unit.Temperature]) {
	b, at := p.Baths[i], p.Decl.Temperature.At
	if b == nil || !at.Given() || b.Decl() == nil || p.Decl.Steps[i].Time.Material {
		return own
	}
	if from := b.Written().Temperature.From; from.Given() && (at.Value() < from.Low() || at.Value() > from.High()) {
		return from.Quantity
	}
	return own
}

// stopAbove is the temperature above which a step does harm, and who says so: the step
// itself or its bath, the lower of the two.
func (p *Process) stopAbove(i int) (q unit.Quantity[unit.Temperature], d lab.Def, key string) {
	d, key = p.Decl.Said(lab.StepKey(i) + ".stop_above")
	q = p.Decl.Steps[i].StopAbove.Quantity
	b := p.Baths[i]
	if b == nil || b.Decl() == nil || !b.Decl().Temperature.StopAbove.Given() {
		return q, d, key
	}
	if own := b.Decl().Temperature.StopAbove; !q.Given() || own.Low() < q.Low() {
		return own.Quantity, b.Def(), "strength." + b.Strength + ".temperature.stop_above"
	}
	return q, d, key
}

// unturned reports a developer or a fixer in a tank of which nobody has written how the
// tank is turned.
func (p *Process) unturned(i int) bool {
	b := p.Baths[i]
	if b == nil || p.Decl.Base != "film" || p.Decl.Steps[i].Agitate != "" {
		return false
	}
	return b.Role() == "developer" || b.Role() == "fixer"
}

// coats reports a bath that is brushed on.
func coats(b *Bath) bool { return b.Decl() != nil && b.Decl().Coat.Given() }

// vesselOf is what a step's bath stands in: the vessel of the run, or the dish that the
// step names a fill for.
func vesselOf(p *Process, i int, r *Run) Vessel {
	v := r.Vessel
	if s := p.Decl.Steps[i]; s.Fill.Given() {
		v.Fill, v.Name, v.Tray = s.Fill, "dish of this step", true
	}
	return v
}

// bathStep works out a step with a bath.
func (w *Work) bathStep(p *Process, i int, c *clocks) {
	s := p.Steps[i]
	w.pour(p, i)
	w.treats(p, i)
	lengths := w.bathTimes(p, i)
	if life := w.shortLived(s.Bath.Bath); life != nil && s.Bath.Ref() != p.firstBath().Ref() {
		s.Keeps = life
	}
	if len(p.Runs) == 0 && s.Decl.Time.Fixed.Given() {
		s.Time, _ = w.times.Fixed(p.Decl, i)
	}
	if s.Decl.Until != "" {
		w.now(p, i, c, c.stopped)
	} else {
		w.advance(p, i, c, lengths, true)
	}
	for _, l := range lengths {
		s.Agitated = s.Agitated || l != nil && s.Decl.Agitate != ""
	}
	if s.Agitated {
		w.agitate(p, i, c, lengths)
	}
}

// pour works out what is in the vessel of each run, or what is brushed onto a sheet.
func (w *Work) pour(p *Process, i int) {
	s := p.Steps[i]
	if s.Coats = coats(s.Bath); s.Coats {
		for _, f := range capacity.Formats(w.lab, w.lab.Through(p.Decl)...) {
			if id := capacity.CoatSheet(w.mix, s.Bath.Bath, f); id != nil {
				s.Coated = append(s.Coated, SheetCoat{lab.InSides(f.ID), id})
			}
		}
		return
	}
	for _, r := range p.Runs {
		f := w.filled(s.Bath.Bath, r.Steps[i].Vessel)
		r.Steps[i].Fill = &f
		if s.MixedForIt {
			r.Steps[i].Parts = w.partsFor(s.Bath.Solution, r.Steps[i].Vessel)
		}
	}
}

// partsFor are the parts of which a bath is mixed that fills a vessel.
func (w *Work) partsFor(s *lab.Solution, v Vessel) []FillPart {
	var out []FillPart
	volume, at := asWritten(s, v.Fill.Quantity)
	if at.File == "" {
		at = v.Fill.Where()
	}
	for _, row := range w.mix.Batch(s, volume, at).Rows {
		out = append(out, FillPart{Adds: row.Ing, Take: row.Take})
	}
	return out
}

// bathTimes works out how long a bath works in each run; nil where nobody can say.
func (w *Work) bathTimes(p *Process, i int) []*figure.Figure[unit.Seconds] {
	s := p.Steps[i]
	lengths := make([]*figure.Figure[unit.Seconds], len(p.Runs))
	for n, r := range p.Runs {
		var id *figure.Record
		var fig figure.Figure[unit.Seconds]
		ok := true
		switch {
		case s.Decl.Time.Material && s.Bath == p.Developer:
			id, fig, ok = r.time, r.developing, r.timed
		case s.Decl.Time.Material:
			id, fig, ok = w.times.At(r.Material, r.develop, s.Bath.Bath, r.at)
		case s.Decl.Time.Clearing:
			var no string
			id, fig, no = w.times.Fix(p.Decl, i, r.Material)
			ok = no == ""
			r.Steps[i].Clearings = w.clearings(r.Material)
		case s.Decl.Time.Given():
			id, fig = w.times.Fixed(p.Decl, i)
		default:
			continue
		}
		r.Steps[i].Time = id
		if ok {
			lengths[n] = &fig
		}
	}
	return lengths
}

// clearings is how many times its clearing time a material is fixed: the house's rule for
// its grain.
func (w *Work) clearings(m *lab.Material) *figure.Record {
	g := w.times.ClearingTimes(m)
	grain := "film"
	if m.Grain == "tabular" {
		grain = "tabular"
	}
	return figure.Declare(w.mix.Book, figure.ID("house", "fix-clearing."+grain), figure.KindCount, g,
		unit.Short(float64(g.Value)), "×")
}

// firstBath is the bath of the first step that has one.
func (p *Process) firstBath() *Bath {
	for _, b := range p.Baths {
		if b != nil {
			return b
		}
	}
	return nil
}

// shortLived is how long a bath keeps once it is mixed, where that is not much longer
// than a process: two hours at most. It is nil for all others.
func (w *Work) shortLived(b lab.Bath) *figure.Record {
	keeps, key := b.Keeps()
	life, state := capacity.LifeInUse(keeps)
	if state != "poured" || life.Seconds <= 0 || life.Seconds > 2*60*60 {
		return nil
	}
	return w.life(figure.ID(b.Ref(), "keeps."+state), b.Def(), key+state, life.Life, state)
}

// mixedOnTheSpot reports a dilution that nobody keeps: it is made from its stock when it
// is wanted.
func mixedOnTheSpot(b lab.Bath) bool {
	d := b.Decl()
	return d != nil && d.Use != "re-use" && d.Use != "replenish"
}
