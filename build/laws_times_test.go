package build_test

import (
	"fmt"
	"math"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
)

// clockRow is the row of a process card for a step.
func clockRow(p page.Page, step string) (page.ClockRow, bool) {
	for _, b := range p.Do {
		if clock, ok := b.(page.Clock); ok {
			for _, r := range clock.Rows {
				if r.ID == step {
					return r, true
				}
			}
		}
	}
	return page.ClockRow{}, false
}

// chosen is the figure of a text for one choice.
func chosen(t page.Text, choice int) string {
	for _, in := range t {
		if n := len(in.Figures); n > 0 {
			return in.Figures[min(choice, n-1)].ID
		}
	}
	return ""
}

// materialOf is the material that a choice's label names.
func (c *court) materialOf(ch page.Choice) *lab.Material {
	for _, m := range c.lab.Materials {
		for _, in := range ch.Label {
			if in.Kind == page.Name && in.Text == m.Name {
				return m
			}
		}
	}
	return nil
}

// timedStep is the step whose time is the material's, and its bath.
func (c *court) timedStep(p *lab.Process) (lab.ProcessStep, lab.Bath, bool) {
	for i, s := range p.Steps {
		if b, bad := c.lab.Bath(s.Bath, p.At(lab.StepKey(i))); s.Time.Material && len(bad) == 0 {
			return s, b, true
		}
	}
	return lab.ProcessStep{}, lab.Bath{}, false
}

// timeAt works out a development time once more; not ok where there must be none.
func (c *court) timeAt(m *lab.Material, b lab.Bath, at float64) (seconds float64, ok bool) {
	d := b.Decl()
	for i, dev := range m.Develop {
		in, bad := c.lab.Bath(dev.In, m.At(fmt.Sprintf("develop[%d]", i)))
		if len(bad) > 0 || in.Ref() != b.Ref() {
			continue
		}
		t, was := float64(dev.Time.Value()), float64(dev.At.Value())
		shortest := 0.0
		if m.Base == "film" {
			shortest = float64(c.lab.Place.House.Filled().Shortest.Value())
		}
		if d != nil {
			w := d.Temperature
			if w.From.Given() && (at < float64(w.From.Low()) || at > float64(w.From.High())) {
				return 0, false
			}
			if w.Shortest.Given() {
				shortest = float64(w.Shortest.Value())
			}
			if at != was {
				switch {
				case w.Slope.Given():
					t *= math.Exp(-float64(w.Slope.Value()) * (at - was))
				case len(w.Measured) == 2:
					cold, warm := w.Measured[0], w.Measured[1]
					k := math.Log(float64(cold.Time.Value())/float64(warm.Time.Value())) / (float64(warm.At.Value()) - float64(cold.At.Value()))
					t *= math.Exp(-k * (at - was))
				default:
					return 0, false
				}
			}
		} else if at != was {
			return 0, false
		}
		if t < shortest-1e-9 {
			return 0, false
		}
		if at != was {
			step := float64(c.lab.Place.House.Filled().TimeStep.Value())
			t = math.Floor(t/step+.5) * step
		}
		return t, true
	}
	return 0, false
}

func (c *court) sameTime(what, id string, seconds float64, ok bool) {
	f, found := c.figures[id]
	switch {
	case !found:
		c.failed("%s: no figure %q", what, id)
	case ok && f.Refused():
		c.failed("%s: refused (%s), and %s is right", what, f.Why, figure.Clock(seconds))
	case !ok && !f.Refused():
		c.failed("%s: %s, and there must be no time", what, f.Shown)
	case ok && f.Shown != figure.Clock(seconds):
		// A tie may fall either way: half a step in the last binary digit.
		c.failed("%s: %s, and %s is right", what, f.Shown, figure.Clock(seconds))
	}
}

func timesByTemperature(c *court) {
	for _, p := range c.lab.Processes {
		step, bath, ok := c.timedStep(p)
		card := c.pages["process/"+p.ID]
		if !ok {
			continue
		}
		row, found := clockRow(card, step.ID)
		if !found {
			c.failed("%s has no row for %s", card.ID, step.ID)
			continue
		}
		for i, ch := range card.Choices {
			m := c.materialOf(ch)
			at := 0.0
			for _, dev := range m.Develop {
				if in, bad := c.lab.Bath(dev.In, m.At("develop")); len(bad) == 0 && in.Ref() == bath.Ref() {
					at = float64(dev.At.Value())
				}
			}
			if q := p.Temperature.At; q.Given() {
				at = float64(q.Value())
			}
			seconds, ok := c.timeAt(m, bath, at)
			c.sameTime(fmt.Sprintf("%s of %s at %g °C", card.ID, ch.Variant, at), chosen(row.For, i), seconds, ok)
			for _, b := range card.Do {
				temps, is := b.(page.Temps)
				if !is {
					continue
				}
				for _, cell := range temps.Cells {
					degrees := c.figures[chosen(cell.At, 0)].Value
					seconds, ok := c.timeAt(m, bath, degrees)
					id := cell.Time[min(i, len(cell.Time)-1)].ID
					c.sameTime(fmt.Sprintf("%s, its table, %s at %g °C", card.ID, ch.Variant, degrees), id, seconds, ok)
					if cell.Ref && degrees == at && id != chosen(row.For, i) {
						c.failed("%s: the clock has %s and the table %s", card.ID, chosen(row.For, i), id)
					}
				}
			}
		}
	}
}

func fixedByGrain(c *court) {
	rule := c.lab.Place.House.Filled().FixClearing
	for _, p := range c.lab.Processes {
		card := c.pages["process/"+p.ID]
		for _, s := range p.Steps {
			row, found := clockRow(card, s.ID)
			if !s.Time.Clearing || !found {
				continue
			}
			for i, ch := range card.Choices {
				m := c.materialOf(ch)
				times := float64(rule.Film.Count)
				if m.Grain == "tabular" {
					times = float64(rule.Tabular.Count)
				}
				f := c.figures[chosen(row.For, i)]
				if !m.Clears.Given() {
					if !f.Refused() || !strings.Contains(f.Why, fmt.Sprintf("fix for %g times", times)) {
						c.failed("%s, %s: %q", card.ID, ch.Variant, f.Shown+f.Why)
					}
					continue
				}
				t := times * float64(m.Clears.Value())
				if s.Least.Given() {
					t = math.Max(t, float64(s.Least.Value()))
				}
				step := float64(c.lab.Place.House.Filled().TimeStep.Value())
				if want := figure.Clock(math.Ceil(t/step-1e-9) * step); f.Shown != want {
					c.failed("%s, %s: fixed %s, and %s is right", card.ID, ch.Variant, f.Shown, want)
				}
				if said := chosen(row.ForNote, i); c.figures[said].Value != times {
					c.failed("%s, %s: %q times the clearing time, and %g is right", card.ID, ch.Variant, c.figures[said].Shown, times)
				}
			}
		}
	}
}
