package lab

import (
	"fmt"

	"wetside/procedures/unit"
)

// sensible demands that a quantity lies within bounds of sense: outside them somebody
// has mistyped it. The bounds are the program's own: common practice, no source.
func sensible[T unit.Kind](c *checker, q Said[T], low, high string) {
	l, h := unit.MustParse[T](low), unit.MustParse[T](high)
	if l.Positive() && !q.Positive() { // a fault of its own
		return
	}
	if q.Given() && (q.Low() < l.Value() || q.High() > h.Value()) {
		c.add(q.Where(), "range", fmt.Sprintf("%q is outside all that makes sense here (%s to %s)", q.Text(), low, high), "look for a slip of the pen: a point, a unit, a nought too many")
	}
}

// rulesOfSense checks the house's rules and water.
func (c *checker) rulesOfSense() {
	p := c.lab.Place
	sensible(c, p.House.WeighWithin, "0.1 %", "20 %")
	sensible(c, p.House.MeasureWithin, "0.1 %", "20 %")
	sensible(c, p.House.TimeStep, "1 s", "60 s")
	sensible(c, p.House.ColdestShelf, "0 °C", "30 °C")
	if w := p.Water.Cold; w.Winter.Given() && w.Summer.Given() && w.Winter.Value() > w.Summer.Value() {
		c.add(w.Winter.Where(), "range", fmt.Sprintf("the tap is warmer in winter (%s) than in summer (%s)", w.Winter.Text(), w.Summer.Text()), "change the two round")
	}
}

// strengthOfSense checks what a strength says of times.
func (c *checker) strengthOfSense(s *Strength) {
	sensible(c, s.Temperature.Slope, "0.01 /K", "0.5 /K")
	if s.Push != nil {
		sensible(c, s.Push.Factor, "1 /stop", "4 /stop")
	}
	if s.Pull != nil {
		sensible(c, s.Pull.Factor, "0.25 /stop", "1 /stop")
	}
}

// materialOfSense checks what a material says of silver and times.
func (c *checker) materialOfSense(d *Material) {
	sensible(c, d.Silver.Coated, "0.01 g/m2", "50 g/m2")
	sensible(c, d.Silver.Undeveloped, "0 %", "100 %")
	sensible(c, d.Clears, "1 s", "1 h")
	for _, dev := range d.Develop {
		sensible(c, dev.Time, "5 s", "24 h")
	}
}

// processOfSense checks the times of a process against each other.
func (c *checker) processOfSense(d *Process) {
	sensible(c, d.Clock.Drain, "1 s", "2 min")
	sensible(c, d.Temperature.Within, "0 K", "5 K")
	for _, name := range sortedKeys(d.Agitate) {
		a := d.Agitate[name]
		if a.Lasts.Given() && a.Then.Every && a.Then.Over.Given() && a.Lasts.Value() >= a.Then.Over.Value() {
			c.add(a.Lasts.Where(), "range", fmt.Sprintf("turning lasts %s and comes every %s: it never stops", a.Lasts.Text(), a.Then.Over.Text()), `write how long one round takes, for example lasts = "10 s"`)
		}
	}
	for i, s := range d.Steps {
		at := d.At(StepKey(i))
		sensible(c, s.Time.Fixed, "1 s", "72 h")
		b, bad := c.lab.Bath(s.Bath, at.At("bath"))
		if s.Bath == "" || len(bad) > 0 || b.Zero() {
			continue
		}
		if w := b.Decl(); s.Time.Material && w != nil && w.Temperature.From.IsRange() && d.Temperature.At.Given() {
			from, q, off := w.Temperature.From, d.Temperature.At, unit.Kelvin(0)
			if d.Temperature.Within.Given() {
				off = d.Temperature.Within.High()
			}
			inside := q.Low() >= from.Low() && q.High() <= from.High()
			if inside && (q.Low().Add(-off) < from.Low() || q.High().Add(off) > from.High()) {
				c.add(d.Temperature.Within.Where(), "range", fmt.Sprintf("%s within %s leaves the window of %s (%s), and outside it there is no time", q.Text(), d.Temperature.Within.Text(), b.Ref(), from.Text()), "write a smaller within, or another temperature")
			}
		}
		if s.Time.Clearing && b.Role() != "" && b.Role() != "fixer" {
			c.add(at.At("time"), "shape", fmt.Sprintf("%q is the fixing time of a film, and %s is a %s", "clearing", b.Name(), b.Role()), `write "material" for the film's own development time, or a time such as "1:00"`)
		}
	}
}
