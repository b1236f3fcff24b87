package work

import (
	"fmt"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Degree is a temperature of the developer's window, and the time there.
type Degree struct {
	At *figure.Record
	// Whole: a whole degree, or an end of the table.
	Whole bool
	// Runs are the times of the runs of the process, by their places.
	Runs []Developing
}

// Developing is a time of development.
type Developing struct {
	// Time is refused where there is none.
	Time *figure.Record
	// Own: it is at the temperature that the run is for.
	Own bool
}

// degrees works out the times at each half degree of the window.
func (w *Work) degrees(p *Process) {
	window := p.window()
	for i, at := range window {
		end := i == 0 || i == len(window)-1
		d := Degree{At: w.worksAt(at), Whole: end || at == float64(int(at))}
		for _, r := range p.Runs {
			time, _, _ := w.times.At(r.Material, r.develop, p.Developer.Bath, at)
			d.Runs = append(d.Runs, Developing{time, at == r.at})
		}
		p.Degrees = append(p.Degrees, d)
	}
}

// window is the range of temperatures of the developer in half degrees, and one beyond
// each end.
func (p *Process) window() []float64 {
	if p.Developer == nil || len(p.Runs) == 0 {
		return nil
	}
	d := p.Developer.Decl()
	if d == nil || !d.Temperature.From.IsRange() || !d.Temperature.HasSlope() {
		return nil
	}
	low, high := float64(d.Temperature.From.Low()), float64(d.Temperature.From.High())
	first := unit.Round(low, 0.5, unit.Up)
	last := unit.Round(high, 0.5, unit.Down)
	if last-first > 30 {
		return nil
	}
	var out []float64
	for at := first - 0.5; at <= last+0.5; at = unit.Snap(at + 0.5) {
		out = append(out, at)
	}
	return out
}

// films are the first runs of each material, as they follow each other.
func (p *Process) films() []*Run {
	var out []*Run
	for _, r := range p.Runs {
		if len(out) == 0 || out[len(out)-1].Material != r.Material {
			out = append(out, r)
		}
	}
	return out
}

// ClearingTime is how long a material takes to clear.
type ClearingTime struct {
	Material *lab.Material
	// Fresh is its clearing time in fresh fixer, and Fix how long it is fixed at least; nil
	// where nobody has measured it.
	Fresh, Fix *figure.Record
}

// clearing works out how long each material takes to clear in the first step that is
// timed by it.
func (w *Work) clearing(p *Process) {
	seen := map[string]bool{}
	for i, s := range p.Decl.Steps {
		if !s.Time.Clearing || len(p.Clearing) > 0 {
			continue
		}
		for _, r := range p.Runs {
			m := r.Material
			if seen[m.ID] {
				continue
			}
			seen[m.ID] = true
			c := ClearingTime{Material: m}
			if m.Clears.Given() {
				by, _ := w.lab.OriginOf(m.Def, "clears")
				fresh := figure.Given(m.Clears, m.At("clears"), by, "clearing time in fresh fixer")
				c.Fresh = figure.Declare(w.mix.Book, figure.ID(m.ID, "clears"), figure.KindTime, fresh,
					unit.Short(float64(m.Clears.Value())), "s")
				c.Fix, _, _ = w.times.Fix(p.Decl, i, m)
			}
			p.Clearing = append(p.Clearing, c)
		}
	}
}

// Pushed is the time of a material at another exposure index.
type Pushed struct {
	Material *lab.Material
	Index    *figure.Record
	Developing
}

// pushed works out the times at the exposure indexes that the developer allows, and one
// beyond.
func (w *Work) pushed(p *Process) {
	if p.Developer == nil || p.Developer.Decl() == nil {
		return
	}
	d := p.Developer.Written()
	if d.Push == nil && d.Pull == nil {
		return
	}
	low, high := 0, 0
	if d.Pull != nil {
		low = -int(d.Pull.Most.Count)
	}
	if d.Push != nil {
		high = int(d.Push.Most.Count)
	}
	seen := map[string]bool{}
	for _, r := range p.Runs {
		if m := r.Material; seen[m.ID] || m.Speed.Count == 0 {
			continue
		}
		seen[r.Material.ID] = true
		for stops := low; stops <= high+1; stops++ {
			time, index, _ := w.times.Pushed(r.Material, r.develop, p.Developer.Bath, stops, r.at)
			if index != nil {
				p.Pushed = append(p.Pushed, Pushed{r.Material, index, Developing{time, stops == 0}})
			}
		}
	}
}

// Counted is how many runs so many pieces of one time take in each tank.
type Counted struct {
	// Pieces are the numbers of them.
	Pieces []*figure.Record
	Tanks  []CountedIn
}

// CountedIn is how many runs each number of pieces takes in one tank.
type CountedIn struct {
	Vessel Vessel
	Runs   []*figure.Record
}

// counts are the numbers of pieces for which runs are counted.
var counts = []int{2, 3, 5, 7, 10}

// counted works out how many runs a number of pieces takes in each tank.
func (w *Work) counted(p *Process) {
	if p.Developer == nil {
		return
	}
	for _, n := range counts {
		g := figure.Constant(unit.Factor(n), "pieces", "", figure.Standard)
		pieces := figure.Declare(w.mix.Book, figure.ID("pieces", fmt.Sprint(n)), figure.KindCount, g, fmt.Sprint(n), "")
		p.Counted.Pieces = append(p.Counted.Pieces, pieces)
	}
	tanks, _ := capacity.Vessels(w.lab)
	for _, v := range tanks {
		if !w.serves(p, v) {
			continue
		}
		f := w.filled(p.Developer.Bath, v)
		if f.No != nil {
			continue
		}
		in := CountedIn{Vessel: v}
		for _, n := range counts {
			runs := capacity.Runs(figure.ID(p.Decl.ID, "runs", v.Key, fmt.Sprint(n)), n,
				figure.Entered[unit.Factor](f.Served.Rolls))
			in.Runs = append(in.Runs, figure.Enter(w.mix.Book, runs))
		}
		p.Counted.Tanks = append(p.Counted.Tanks, in)
	}
}

// serves reports whether a tank takes a format of any material of a process.
func (w *Work) serves(p *Process, v Vessel) bool {
	for _, r := range p.Runs {
		if r.Material != nil && w.takesFamily(r.Material, v.Family) {
			return true
		}
	}
	return false
}
