package lab

import (
	"fmt"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

func (c *checker) place() {
	p := c.lab.Place
	c.origins(p.Def)
	c.papers(p)
	c.scales(p)
	c.glass(p)
	c.tanks(p)
	c.trays(p)
	c.printing(p)
	c.water(p.Water)
	h := p.House.Filled()
	positive(c, h.WeighWithin)
	positive(c, h.MeasureWithin)
	positive(c, h.TimeStep)
	c.rulesOfSense()
	c.vesselNames()
}

func (c *checker) scales(p Place) {
	for _, id := range sortedKeys(p.Scales) {
		s, at := p.Scales[id], p.At("scale."+keyName(id))
		if !s.Reads.Given() {
			c.add(at, "missing", "the scale "+quoted(id)+" does not say what it reads", `write reads = "0.1 g"`)
		}
		if s.Reads.Positive() && s.UpTo.Positive() && s.UpTo.Exact().Cmp(s.Reads.Exact()) < 0 {
			c.add(s.UpTo.Where(), "range", fmt.Sprintf("%q is less than one division of the scale (%s)", s.UpTo.Text(), s.Reads.Text()), `write the most it bears, for example up_to = "2000 g"`)
		}
		c.past(s.Checked.Date, s.Checked.Where(), "the check of "+quoted(id)+" on")
		positive(c, s.Reads)
		positive(c, s.UpTo)
	}
}

// glass checks what volumes are measured with: cylinders and syringes.
func (c *checker) glass(p Place) {
	for _, id := range sortedKeys(p.Cylinders) {
		s, at := p.Cylinders[id], p.At("cylinder."+keyName(id))
		if !s.Holds.Given() {
			c.add(at, "missing", "the cylinder "+quoted(id)+" does not say what it holds", `write holds = "100 mL"`)
		}
		positive(c, s.Holds)
		positive(c, s.Tolerance)
		positive(c, s.Graduation)
	}
	for _, id := range sortedKeys(p.Syringes) {
		s, at := p.Syringes[id], p.At("syringe."+keyName(id))
		for _, k := range []struct {
			given        bool
			what, hinted string
		}{{s.Holds.Given(), "what it holds", `holds = "5 mL"`}, {s.Graduation.Given(), "how it is graduated", `graduation = "0.2 mL"`}, {s.Tolerance.Given(), "how far off it may be", `tolerance = "0.1 mL"`}} {
			if !k.given {
				c.add(at, "missing", "the syringe "+quoted(id)+" does not say "+k.what, "write "+k.hinted)
			}
		}
		positive(c, s.Holds)
		positive(c, s.Tolerance)
		positive(c, s.Graduation)
		for i, ref := range s.For {
			_, problems := c.lab.Resolve(ref, at.At(fmt.Sprintf("for[%d]", i)))
			c.problems = append(c.problems, problems...)
		}
	}
}

// vessel checks one fill against the most that this house lifts and stirs.
func (c *checker) vessel(most, q Said[unit.Volume]) {
	positive(c, q)
	if q.Positive() && q.Exact().Cmp(most.Exact()) > 0 {
		c.add(q.Where(), "range", fmt.Sprintf("%q is larger than largest_vessel (%s)", q.Text(), most.Text()),
			"correct the fill, or write largest_vessel under [house]")
	}
}

func (c *checker) tanks(p Place) {
	most := p.House.Filled().LargestVessel
	for _, id := range sortedKeys(p.Tanks) {
		t, at := p.Tanks[id], p.At("tank."+keyName(id))
		if !t.Fill.Given() {
			c.add(at, "missing", "the tank "+quoted(id)+" does not say what fills it", `write fill = "600 mL"`)
		}
		if t.Fill.All.Given() {
			c.vessel(most, t.Fill.All)
		}
		for _, k := range sortedKeys(t.Fill.For) {
			c.vessel(most, t.Fill.For[k])
		}
		if len(t.Takes) == 0 {
			c.add(at, "missing", "the tank "+quoted(id)+" does not say how many rolls it takes",
				"write takes = { 135 = 2, 120 = 1 }")
		}
		for _, k := range sortedKeys(t.Takes) {
			takes := t.Takes[k]
			if takes.N < 0 || takes.N > 1000 {
				c.add(takes.Where(), "range", fmt.Sprintf("a tank cannot take %d", takes.N),
					"write how many reels or sheets it takes")
			}
			if !c.family(k) {
				c.add(takes.Where(), "reference", "no format belongs to the family "+quoted(k),
					"the families are "+list(c.families()))
			}
			if q := t.Fill.Of(k); takes.N > 0 && !q.Given() && t.Fill.Given() {
				c.add(takes.Where(), "missing", "the tank "+quoted(id)+" takes "+k+" but has no fill for it", fmt.Sprintf(`write fill = { %s = "600 mL" }`, k))
			}
		}
		positive(c, t.Pour)
		positive(c, t.TimeConstant)
		sensible(c, t.TimeConstant, "1 min", "24 h")
	}
}

func (c *checker) trays(p Place) {
	most := p.House.Filled().LargestVessel
	for _, id := range sortedKeys(p.Trays) {
		t, at := p.Trays[id], p.At("tray."+keyName(id))
		if !t.Fill.Given() {
			c.add(at, "missing", "the tray "+quoted(id)+" does not say what fills it", `write fill = "1 L"`)
		}
		c.vessel(most, t.Fill)
		for i, f := range t.Takes {
			fat := at.At(fmt.Sprintf("takes[%d]", i))
			if formats := c.formats(); !contains(formats, f) {
				c.add(fat, "reference", "there is no format "+quoted(f),
					Near(f, formats, "the formats are "+list(formats)))
			}
			if width, length, ok := c.sidesOf(f); ok && t.Inside.Given() && !t.Inside.Holds(width, length) {
				c.add(fat, "range", fmt.Sprintf("%s does not lie flat in the tray %q, which is %s inside", f, id,
					t.Inside.Text()), "take it out of takes, or correct inside")
			}
		}
	}
}

func (c *checker) water(w Water) {
	c.currencyOf(w.Price)
	c.currencyOf(w.Deionised)
	c.wet(w.Hot)
	for _, s := range w.Cold.List() {
		c.wet(s.At)
		if w.Hot.Given() && s.At.Exact().Cmp(w.Hot.Exact()) >= 0 {
			c.add(s.At.Where(), "range", "the cold water is not colder than the hot", "correct one of the two")
		}
	}
}

// vesselNames finds two tanks or trays of one name: no card could tell them apart.
func (c *checker) vesselNames() {
	p := c.lab.Place
	first := map[string]string{}
	look := func(key, name string) {
		if name == "" {
			return
		}
		word := strings.ToLower(name)
		if other, again := first[word]; again {
			c.add(p.At(key+".name"), "id", fmt.Sprintf("%q is also the name of %s: no card could tell the two apart",
				name, other), "give one of them another name")
			return
		}
		first[word] = key
	}
	for _, id := range sortedKeys(p.Tanks) {
		look("tank."+keyName(id), p.Tanks[id].Name)
	}
	for _, id := range sortedKeys(p.Trays) {
		look("tray."+keyName(id), p.Trays[id].Name)
	}
}

// sidesOf are the sides of a format of the table or of any material.
func (c *checker) sidesOf(id string) (width, length unit.Length, ok bool) {
	f, found := c.lab.Formats.Format[id]
	for _, m := range c.lab.Materials {
		if own, has := m.Format[id]; has {
			f, found = own, true
		}
	}
	return f.Width.Value(), f.Length.Value(), found && f.Width.Positive() && f.Length.Positive()
}

func (c *checker) families() []string {
	seen := map[string]bool{}
	for _, f := range c.lab.Formats.Format {
		seen[f.Family] = true
	}
	for _, m := range c.lab.Materials {
		for _, f := range m.Format {
			seen[f.Family] = true
		}
	}
	return sortedKeys(seen)
}

// formats are those of the table and those that materials bring along.
func (c *checker) formats() []string {
	seen := map[string]bool{}
	for id := range c.lab.Formats.Format {
		seen[id] = true
	}
	for _, m := range c.lab.Materials {
		for id := range m.Format {
			seen[id] = true
		}
	}
	return sortedKeys(seen)
}

func (c *checker) family(name string) bool { return contains(c.families(), name) }

// rulesOfSense checks the house's rules and water.
func (c *checker) rulesOfSense() {
	p := c.lab.Place
	sensible(c, p.House.WeighWithin, "0.1 %", "20 %")
	sensible(c, p.House.MeasureWithin, "0.1 %", "20 %")
	sensible(c, p.House.TimeStep, "1 s", "60 s")
	sensible(c, p.House.ColdestShelf, "0 °C", "30 °C")
	if w := p.Water.Cold; w.Winter.Given() && w.Summer.Given() && w.Winter.Value() > w.Summer.Value() {
		c.add(w.Winter.Where(), "range", fmt.Sprintf("the tap is warmer in winter (%s) than in summer (%s)",
			w.Winter.Text(), w.Summer.Text()), "exchange the two")
	}
}

// use checks a month's work: it names processes of the lab, and so many of what
// they take.
// mostDays is the longest month.
const mostDays = 31

func (c *checker) use() {
	p := c.lab.Place
	var ids []string
	known := map[string]*Process{}
	for _, d := range c.lab.Processes {
		ids = append(ids, d.ID)
		known[d.ID] = d
	}
	unknown := func(id string, at figure.Where, hint string) {
		if !c.lab.Broken["processes/"+id] {
			c.problems = append(c.problems, Problem{At: at, OnKey: true, Code: "reference",
				What: "there is no process " + quoted(id), Hint: Near(id, ids, hint)})
		}
	}
	for _, id := range sortedKeys(p.Days) {
		at := p.At("days." + keyName(id))
		switch n := p.Days[id].N; {
		case known[id] == nil:
			unknown(id, at, "days are written by process, for example fibre-print = 4")
		case n < 1 || n > mostDays:
			c.add(at, "range", fmt.Sprintf("%d: a month has from 1 to %d days on which a process is worked", n, mostDays),
				"write on how many days of a month it is worked, or leave it out")
		case len(p.Use[id]) == 0:
			c.add(at, "missing", "the days of "+id+" tell nothing without a month's work",
				"write under [use] what a month puts through it, or take the line out")
		}
	}
	for _, id := range sortedKeys(p.Use) {
		at := p.At("use." + keyName(id))
		d := known[id]
		if d == nil {
			unknown(id, at, "a month's work is written by process, for example film-negative = \"24 rolls\"")
			continue
		}
		for i, entry := range p.Use[id] {
			eat := at
			if len(p.Use[id]) > 1 {
				eat = at.At(fmt.Sprintf("[%d]", i))
			}
			if entry.Count == 0 {
				c.add(eat, "range", fmt.Sprintf("%q: zero a month tells nothing about age or orders", entry.Text()),
					"write a month's work, or leave the process out")
			}
			if entry.Of == "" {
				continue
			}
			if m := c.piece(entry.Of, eat); m != nil && d.Base != "" && m.Base != "" && m.Base != d.Base {
				c.add(eat, "word", fmt.Sprintf("%s is made on %s, and %s is for %s", entry.Of, m.Base, d.ID, d.Base),
					"name a material that the process takes")
			}
		}
	}
}
