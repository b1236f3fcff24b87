package work

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/timing"
	"wetside/procedures/unit"
)

type (
	// Agitation is when a tank is turned during a step.
	Agitation = timing.Agitation
)

// Run is a process with one material in one vessel, at the temperature of the process,
// or where it has none at that of the measured time. Where no time depends on the
// material, it is the process with a vessel alone.
type Run struct {
	// Variant names it, such as "film-negative+film-400.double".
	Variant  string
	Material *lab.Material // nil: any
	Vessel   Vessel
	// ByFamily: the same material has another fill of the same tank, for another family.
	// OtherFill: a run of any material has another fill of a tank of this name.
	ByFamily, OtherFill bool
	// At is the temperature at which it is developed, where the process has none for all
	// its baths.
	At *figure.Record
	// Serves is how many pieces the tank serves, in words; nil where the process does not
	// say what a piece needs.
	Serves *figure.Record
	// Steps are those of the process, by their places.
	Steps []RunStep
	// Ruled: its development has a timeline to draw.
	Ruled bool
	// Note is what is said of the material; nil without.
	Note *figure.Record
	// Short are the baths of which not enough stands here for it.
	Short []Lack

	develop    int     // index of the material's development, -1 without
	at         float64 // °C
	slow       bool    // the tank drains slower than the process says
	time       *figure.Record
	developing figure.Figure[unit.Seconds]
	timed      bool
}

// RunStep is what one step is in one run. A figure is nil where there is nothing to say.
type RunStep struct {
	// Vessel is what its bath stands in, and Fill what is in it.
	Vessel Vessel
	Fill   *Fill
	// Parts are those of which its bath is mixed for this vessel alone; nil where it is poured or diluted.
	Parts []FillPart
	// Time is how long its bath works; refused where nobody can say.
	Time *figure.Record
	// At is the clock when it begins, and Drain when draining begins: a word in their
	// place where the clock of this run has stopped, nil where that of every run has.
	At, Drain *figure.Record
	// Clearings is how many times its clearing time the material is fixed.
	Clearings *figure.Record
	// Turned says when the tank is turned, with a dash where another run has a figure.
	Turned Agitation
	// Treats is how many of its own format a litre of the bath treats, and Of which format
	// that is, in words; nil where the step tells it for all runs.
	Treats, Of *figure.Record
}

// FillPart is one of the parts of which a bath is mixed for one vessel, and how much of it.
type FillPart struct {
	Adds lab.Ingredient
	Take Take
}

// runs is the stage that puts each process with its materials and vessels.
func (w *Work) runs() {
	w.dash = w.word("none", "–")
	for _, p := range w.Processes {
		w.resolve(p)
		w.keyOf(p)
		p.NotDiluted = w.notDiluted(p)
		w.steps(p)
		w.cyanide(p)
		w.stain(p)
		w.neutralRolls(p)
		w.degrees(p)
		w.clearing(p)
		w.pushed(p)
		w.counted(p)
		w.sharing(p)
		w.notes(p)
		if w.kept() {
			w.onShelf(p)
		}
	}
}

// resolve finds the developer of a process, and each material in each vessel.
func (w *Work) resolve(p *Process) {
	p.develops, p.Any = -1, true
	for i, s := range p.Decl.Steps {
		p.Any = p.Any && !s.Time.Material && !s.Time.Clearing
		if s.Time.Material && p.Baths[i] != nil && p.develops < 0 {
			p.develops, p.Developer = i, p.Baths[i]
		}
	}
	vessels, trays := capacity.Vessels(w.lab)
	if p.Decl.Base != "film" {
		vessels = trays
	}
	taken := map[string]bool{}
	for _, m := range w.lab.Through(p.Decl) {
		develop, at := w.measured(p, m)
		if p.Developer != nil && develop < 0 {
			continue
		}
		for _, v := range vessels {
			same := m.ID + " " + tankOf(v) + " " + v.Fill.Text()
			if p.Any {
				same = tankOf(v) + " " + v.Fill.Text()
			}
			if taken[same] || !w.goesInto(m, v) {
				continue
			}
			taken[same] = true
			r := &Run{Material: m, Vessel: v, Steps: make([]RunStep, len(p.Decl.Steps)), develop: develop, at: at}
			if p.Any {
				r.Material = nil
			}
			r.slow = v.Pour.Given() && v.Pour.Value() > drainOf(p.Decl).Value()
			p.Runs = append(p.Runs, r)
		}
	}
	if len(p.Runs) == 0 {
		p.Runless = NothingFits
		switch {
		case len(vessels) == 0:
			p.Runless = NoVessel
		case len(w.lab.Through(p.Decl)) == 0:
			p.Runless = NoMaterial
		}
	}
	for _, r := range p.Runs {
		p.nameRun(r)
	}
}

// Runless is why a process has no run; empty where it has some.
type Runless string

// A process has no run where nobody has written a tank or tray for it, or a material, or where no
// material of it goes into any of them or is developed by it.
const (
	NoVessel    Runless = "no vessel"
	NoMaterial  Runless = "no material"
	NothingFits Runless = "nothing fits"
)

// nameRun names a run: by the vessel's family only where one tank has two fills.
func (p *Process) nameRun(r *Run) {
	tank := tankOf(r.Vessel)
	r.Variant = p.Decl.ID + "+" + tank
	if r.Material != nil {
		r.Variant = p.Decl.ID + "+" + r.Material.ID + "." + tank
	}
	for _, o := range p.Runs {
		if o.Material == r.Material && tankOf(o.Vessel) == tank && familyOf(o.Vessel) != familyOf(r.Vessel) {
			r.ByFamily = true
		}
		if !r.Vessel.Tray && o.Vessel.Name == r.Vessel.Name && o.Vessel.Fill.Text() != r.Vessel.Fill.Text() {
			r.OtherFill = true
		}
	}
	if r.ByFamily {
		r.Variant += "," + familyOf(r.Vessel)
	}
}

// tankOf is the id of a vessel without the family of formats that it is filled for, and
// familyOf that family.
func tankOf(v Vessel) string { tank, _, _ := strings.Cut(v.Key, ","); return tank }

func familyOf(v Vessel) string { _, family, _ := strings.Cut(v.Key, ","); return family }

// measured finds the time of a material in the developer of a process, and the
// temperature that a run is for: that of the process, else that of the time.
func (w *Work) measured(p *Process, m *lab.Material) (develop int, at float64) {
	develop = -1
	for i, d := range m.Develop {
		b, bad := w.lab.Bath(d.In, m.At("develop"))
		if len(bad) == 0 && !b.Zero() && p.Developer != nil && b.Ref() == p.Developer.Ref() {
			develop, at = i, float64(d.At.Value())
		}
	}
	if q := p.Decl.Temperature.At; q.Given() {
		at = float64(q.Value())
	}
	return develop, at
}

// goesInto tells whether a vessel takes any format of a material.
func (w *Work) goesInto(m *lab.Material, v Vessel) bool {
	if len(m.Formats) == 0 {
		return v.Tray && len(v.Formats) == 0
	}
	return slices.ContainsFunc(capacity.Formats(w.lab, m), v.Fits)
}

// takesFamily reports whether a material comes in a family of formats.
func (w *Work) takesFamily(m *lab.Material, family string) bool {
	for _, id := range m.Formats {
		if f, _, ok := w.lab.FormatOf(m, id); ok && f.Family == family {
			return true
		}
	}
	return false
}

func drainOf(p *lab.Process) unit.Quantity[unit.Seconds] {
	if p.Clock.Drain.Given() {
		return p.Clock.Drain.Quantity
	}
	return unit.MustParse[unit.Seconds]("0 s")
}

// variants are the part of an id that tells one run from another: what its times hang on.
func (r *Run) variants() []string {
	var by []string
	if r.Material != nil {
		by = append(by, r.Material.ID)
	}
	if r.slow {
		by = append(by, tankOf(r.Vessel))
	}
	if r.Material != nil && r.develop >= 0 {
		by = append(by, timing.Degrees(r.at))
	}
	return by
}

// stepVariants tell the variants of one step apart: what its time hangs on.
func (r *Run) stepVariants(s lab.ProcessStep) []string {
	switch {
	case s.Time.Material:
		return r.variants()
	case s.Time.Clearing && r.slow:
		return []string{r.Material.ID, tankOf(r.Vessel)}
	case s.Time.Clearing:
		return []string{r.Material.ID}
	case r.slow:
		return []string{tankOf(r.Vessel)}
	}
	return nil
}

// keyOf works out what is read from a metre away: the temperature, and what the tank
// serves.
func (w *Work) keyOf(p *Process) {
	by := func(key string) figure.Origin { o, _ := w.lab.OriginOf(p.Decl.Said(key)); return o }
	if q := p.Decl.Temperature.At; q.Given() {
		at := figure.Given(q, p.Decl.At("temperature.at"), by("temperature.at"), "temperature of all baths")
		shown := unit.Format(float64(q.Value()), unit.NewDecimal(1, 1))
		p.Temperature = figure.Declare(w.mix.Book, figure.ID(p.Decl.ID, "temperature"), figure.KindTemperature, at,
			shown, "°C")
		if n := p.Decl.Temperature.Within; n.Given() {
			within := figure.Given(n, p.Decl.At("temperature.within"), by("temperature.within"), "all baths within")
			shown := unit.Short(float64(n.Value()))
			p.Within = figure.Declare(w.mix.Book, figure.ID(p.Decl.ID, "temperature.within"), figure.KindTemperature,
				within, shown, "K")
		}
	} else if p.Developer != nil { // the time holds at this temperature only
		for _, r := range p.Runs {
			r.At = w.worksAt(r.at)
		}
	}
	i := p.filled()
	if i < 0 || len(p.Runs) == 0 || p.Runs[0].Vessel.Tray || p.Decl.Steps[i].Fill.Given() {
		return
	}
	for _, r := range p.Runs {
		r.Serves = w.rollsServed(p.Baths[i], r)
	}
}

// filled is the step by whose bath a process tells what a tank serves: the developer that
// the material times, else the first bath of which somebody has written what a roll
// needs; -1 without one.
func (p *Process) filled() int {
	if p.Developer != nil {
		return p.develops
	}
	return slices.IndexFunc(p.Baths, func(b *Bath) bool {
		return b != nil && b.Decl() != nil &&
			b.Written().Needs.Given()
	})
}

// rollsServed is how many rolls or sheets of a run's material the tank serves with a bath in
// it: never more than the reels, and never more than the stock in it is enough for.
func (w *Work) rollsServed(b *Bath, r *Run) *figure.Record {
	tanks, _ := capacity.Vessels(w.lab)
	var words []string
	var in []*figure.Record
	for _, v := range tanks {
		same := tankOf(v) == tankOf(r.Vessel) && v.Fill.Text() == r.Vessel.Fill.Text()
		if !same || r.Material != nil && !w.takesFamily(r.Material, v.Family) {
			continue
		}
		v.Material = r.Material
		f := capacity.FillOf(w.mix, b.Bath, v)
		if f.No != nil || f.Served.Count == 0 {
			continue
		}
		in = append(in, f.Served.Rolls)
		words = append(words, fmt.Sprintf("%d × %s", f.Served.Count, lab.InSides(v.Family)))
	}
	if len(words) == 0 {
		return w.word("nothing", "nothing")
	}
	return w.text(figure.ID(r.Variant, "serves"), "what the tank serves", strings.Join(words, " or "),
		figure.Standard, nil, in...)
}

// notDiluted are the concentrates that somebody who is pregnant or breast-feeding does
// not dilute, though what is in the tank may be handled.
func (w *Work) notDiluted(p *Process) []*Bath {
	if p.Dangers.For(AtWork).NotPregnant {
		return nil
	}
	var out []*Bath
	for _, b := range p.Baths {
		if b == nil || !mixedOnTheSpot(b.Bath) {
			continue
		}
		from, _, diluted := b.From()
		if !diluted {
			continue
		}
		of := w.Bath(from.Ref())
		said := slices.ContainsFunc(out, func(o *Bath) bool { return o.Name() == of.Name() })
		if of.Dangers.For(Dilute).NotPregnant && !said {
			out = append(out, of)
		}
	}
	return out
}

// notes are what is said of the materials.
func (w *Work) notes(p *Process) {
	for _, r := range p.Runs {
		if m := r.Material; m != nil && m.Note.Given() {
			by, _ := w.lab.OriginOf(m.Def, "note")
			r.Note = w.text(figure.ID(m.ID, "note"), "what is said of "+m.Name, m.Note.Text, by, nil)
		}
	}
}
