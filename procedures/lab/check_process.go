package lab

import (
	"fmt"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

func (c *checker) process(d *Process) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a process without a name", `"Film negative"`)
	}
	if d.incomplete {
		return
	}
	if len(d.Steps) == 0 {
		c.missing(d.Def, "[[step]]", "a process without steps", `id = "develop" and bath = "film-developer.working"`)
	}
	if d.Base == "" {
		c.missing(d.Def, "base", "a process that does not say what it is for", orWords(texts(Bases)))
	}
	word(c, d.Base, d.At("base"))
	word(c, d.Clock.Starts, d.At("clock.starts"))
	positive(c, d.Clock.Drain)
	c.bearable(d.Temperature.At)
	if d.Temperature.At.IsRange() {
		c.add(d.Temperature.At.Where(), "shape", fmt.Sprintf("%q: the baths of a process are brought to one temperature", d.Temperature.At.Text()), `write at = "20 °C" and how far off it may be, within = "1 K"`)
	}
	ids := map[string]bool{}
	for i, s := range d.Steps {
		at := d.At(StepKey(i))
		if s.ID == "" {
			c.add(at, "missing", "a step without an id", `write id = "develop"`)
		} else if ids[s.ID] {
			c.add(d.At(StepKey(i)+".id"), "id", fmt.Sprintf("the id %q is used twice", s.ID),
				"give every step its own id")
		}
		ids[s.ID] = true
		switch kinds := s.kinds(); len(kinds) {
		case 0:
			c.add(at, "shape", fmt.Sprintf("step %q says nothing to do", s.ID),
				"a step has exactly one of bath, fills, flow and do")
		case 1:
		default:
			c.add(at, "shape", fmt.Sprintf("step %q has %s at once", s.ID, strings.Join(kinds, " and ")),
				"a step has exactly one of bath, fills, flow and do")
		}
		key := func(k string) figure.Where { return d.At(StepKey(i) + "." + k) }
		if s.Bath != "" {
			if s.Bath == "water" {
				c.add(key("bath"), "shape", "water is no bath with a strength", `write fills = [1] with its time, or flow = "3 L/min", or do = "soak in water"`)
			} else {
				b, problems := c.lab.Bath(s.Bath, key("bath"))
				c.bare(s.Bath, b, key("bath"))
				c.problems = append(c.problems, problems...)
			}
			if !s.Time.Given() && s.Until == "" {
				c.add(at, "missing", "a bath without how long it takes", `write time = "1:00", "material" or "clearing", or until = "…" for a step by eye`)
			}
		} else if s.Place != 0 || s.Fill.Given() {
			c.add(at, "shape", fmt.Sprintf("step %q has no bath, and only a bath has a place or a fill", s.ID),
				"take place and fill out of the step")
		}
		if s.Flow.Given() && !s.Time.Given() && s.Until == "" {
			c.add(at, "missing", "running water without how long it runs", `write time = "5:00", or until = "…" for a step by eye`)
		}
		if s.Until != "" && (s.Time.Material || s.Time.Clearing) {
			c.add(key("until"), "shape", "a step by eye has no time of the material's own",
				"keep until or time; a plain time beside until is a guide")
		}
		if s.Place > 2 {
			c.add(key("place"), "range", "a bath is the first or the second of two", "write place = 1 or place = 2")
		}
		c.wet(s.StopAbove)
		c.wet(s.Below)
		if len(s.Fills) > 0 && s.Time.Given() && s.Over.Given() {
			c.add(key("time"), "shape", fmt.Sprintf("step %q says twice how long its fills take", s.ID),
				"keep time or over")
		}
		if len(s.Fills) > 0 && (s.Time.Material || s.Time.Clearing) {
			c.add(key("time"), "shape", "fills of water have no time of the material's own", `write a time, for example time = "1:00"`)
		}
		positive(c, s.Fill)
		positive(c, s.Over)
		c.route(s.Waste, key("waste"))
		positive(c, s.Time.Fixed)
		positive(c, s.Least)
		positive(c, s.Flow)
		if s.Agitate != "" {
			if _, ok := d.Agitate[s.Agitate]; !ok {
				c.add(key("agitate"), "reference", "there is no way to agitate called "+quoted(s.Agitate), Near(s.Agitate, sortedKeys(d.Agitate), fmt.Sprintf(`write [agitate.%s]`, s.Agitate)))
			}
		}
		for k, n := range s.Fills {
			if n < 0 || n > 500 {
				c.add(key(fmt.Sprintf("fills[%d]", k)), "range", "an impossible number of turns",
					"write how often the tank is turned in each fill, for example [5, 10, 20, 20]")
			}
		}
		if s.CollectFirst.N < 0 || s.CollectFirst.N > len(s.Fills) {
			c.add(s.CollectFirst.Where(), "range", "more fills are collected than there are",
				"write how many of the first fills go to the drum")
		}
	}
	c.tooWarm(d)
	c.processOfSense(d)
	for _, name := range sortedKeys(d.Agitate) {
		a := d.Agitate[name]
		positive(c, a.Lasts)
		if a.Then.Given() && !a.Then.Every {
			c.add(d.At("agitate."+keyName(name)+".then"), "agitation", quoted(a.Then.Text())+" does not say how often", `write then = "4 every 60 s"`)
		}
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
				c.add(d.Temperature.Within.Where(), "range",
					fmt.Sprintf("%s within %s leaves the window of %s (%s), and outside it there is no time",
						q.Text(), d.Temperature.Within.Text(), b.Ref(), from.Text()),
					"write a smaller within, or another temperature")
			}
		}
		if s.Time.Clearing && b.Role() != "" && b.Role() != Fixer {
			c.add(at.At("time"), "shape", fmt.Sprintf("%q is the fixing time of a film, and %s is a %s", "clearing", b.Name(), b.Role()), `write "material" for the film's own development time, or a time such as "1:00"`)
		}
	}
}

// tooWarm finds a process that is as warm as one of its steps must never be.
func (c *checker) tooWarm(d *Process) {
	q := d.Temperature.At
	if !q.Given() {
		return
	}
	warmest := q.High()
	words := fmt.Sprintf("its baths stand at %s", unit.Spoken(q))
	if w := d.Temperature.Within; w.Given() {
		warmest = warmest.Add(w.High())
		words += " within " + unit.Spoken(w)
	}
	for i, s := range d.Steps {
		stop, who := s.StopAbove, "this step"
		if b, bad := c.lab.Bath(s.Bath, d.At(StepKey(i))); len(bad) == 0 && !b.Zero() && b.Decl() != nil {
			if own := b.Written().Temperature.StopAbove; own.Given() && (!stop.Given() || own.Low() < stop.Low()) {
				stop, who = own, b.Ref()
			}
		}
		if stop.Given() && warmest > stop.Low() {
			c.add(q.Where(), "range", fmt.Sprintf("%s, and step %q must stop above %s (stop_above of %s)", words,
				s.ID, unit.Spoken(stop), who),
				"make the process colder, or how far off it may be smaller; stop_above is there because warmer does harm")
		}
	}
}

// bare warns of a bath that is named without its strength where there are
// several: what is meant is taken to be the stock.
func (c *checker) bare(ref string, b Bath, at figure.Where) {
	if b.Zero() || strings.Contains(ref, ".") {
		return
	}
	names := b.Def().ID
	var all []string
	if b.Solution != nil {
		all = b.Solution.StrengthNames()
	} else {
		all = b.Product.StrengthNames()
	}
	if len(all) > 1 {
		c.problems = append(c.problems, Problem{At: at, Code: "strength", Warning: true,
			What: fmt.Sprintf("%q does not say which strength: the %s is taken", ref, b.Strength),
			Hint: "write one of " + list(prefixed(names, all))})
	}
}
