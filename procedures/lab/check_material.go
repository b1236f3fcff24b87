package lab

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/figure"
)

func (c *checker) material(d *Material) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a material without a name", `"cubic-grain film ISO 400"`)
	}
	if d.Base == "" {
		c.missing(d.Def, "base", "a material that does not say what it is made on", orWords(texts(Bases)))
	}
	word(c, d.Base, d.At("base"))
	word(c, d.Grain, d.At("grain"))
	if d.Speed.Count > 100000 {
		c.add(d.Speed.Where(), "range", "an impossible film speed", "write the ISO speed, for example speed = 400")
	}
	if len(d.Formats) == 0 {
		c.missing(d.Def, "formats", "a material without a format has no area: nothing can be counted", `["…"], with the sizes it is sold in, such as ["135-36", "120"] for a film or ["18x24"] for a paper`)
	}
	for i, id := range d.Formats {
		f, at, ok := c.lab.FormatOf(d, id)
		if !ok {
			c.add(d.At(fmt.Sprintf("formats[%d]", i)), "reference", "there is no format "+quoted(id),
				Near(id, sortedKeys(c.lab.Formats.Format),
					"write [format."+keyName(id)+"] with area, rolls and family"))
			continue
		}
		if !f.Area.Given() && !(f.Width.Given() && f.Length.Given()) {
			c.add(at, "missing", "the format "+quoted(id)+" has no area", `write area = "516 cm2", or width and length`)
		}
		positive(c, f.Area)
		positive(c, f.Width)
		positive(c, f.Length)
		positive(c, f.Rolls)
		word(c, f.Piece, at.At("piece"))
	}
	positive(c, d.Silver.Coated)
	positive(c, d.Silver.Undeveloped)
	positive(c, d.Clears)
	c.materialOfSense(d)
	seen := map[string]int{}
	for i, dev := range d.Develop {
		at := d.At(fmt.Sprintf("develop[%d]", i))
		c.bearable(dev.At)
		if dev.In == "" {
			c.add(at, "missing", "a development that does not say in which developer", `write in = "film-developer.working"`)
			continue
		}
		b, problems := c.lab.Bath(dev.In, at.At("in"))
		c.problems = append(c.problems, problems...)
		if !b.Zero() {
			if first, again := seen[b.Ref()]; again {
				c.add(at.At("in"), "id", fmt.Sprintf("a second time in %s (the first is number %d)", b.Ref(),
					first+1), "one measured time for each developer; other temperatures come from its slope")
			}
			seen[b.Ref()] = i
			if s := b.Decl(); dev.At.Given() && s != nil && s.Temperature.From.Given() {
				w := s.Temperature.From
				if dev.At.Value() < w.Low() || dev.At.Value() > w.High() {
					c.add(dev.At.Where(), "range", fmt.Sprintf("%s is outside the window of %s (%s)", dev.At.Text(),
						b.Ref(), w.Text()), "measure a time inside the window")
				}
			}
		}
		if !dev.Time.Given() {
			c.add(at, "missing", "a development without its time", `write time = "11:00"`)
		}
		if !dev.At.Given() {
			c.add(at, "missing", "a development time without its temperature", `write at = "20 °C"`)
		}
		positive(c, dev.Time)
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

// piece finds the material of a reference such as "film-400.135-36".
func (c *checker) piece(ref string, at figure.Where) *Material {
	id, format := split(ref)
	m := c.lab.Material(id)
	if m == nil {
		if !c.lab.Broken[id] {
			var ids []string
			for _, m := range c.lab.Materials {
				ids = append(ids, m.ID)
			}
			c.add(at, "reference", "there is no material "+quoted(id),
				Near(id, ids, "write its definition in materials/, or correct the name"))
		}
		return nil
	}
	if len(m.Formats) > 0 && !contains(m.Formats, format) {
		c.add(at, "reference", fmt.Sprintf("%s has no format %q", id, format),
			Near(format, m.Formats, "its formats are "+list(prefixed(id, m.Formats))))
	}
	return m
}

// unprocessed warns of materials that no process takes: nothing would be
// printed for them.
func (c *checker) unprocessed() {
	if len(c.lab.Processes) == 0 || len(c.lab.Broken) > 0 {
		return
	}
	for _, m := range c.lab.Materials {
		taken := m.Library || m.Base == "" // a fault of its own
		var developers []string
		for _, p := range c.lab.Processes {
			ok, developer := c.takes(p, m)
			taken = taken || ok || p.incomplete
			if developer != "" && !contains(developers, developer) {
				developers = append(developers, developer)
			}
		}
		if taken {
			continue
		}
		p := Problem{At: m.At("base"), Code: "unused", Warning: true, What: "no process takes " + m.Name +
			": it is on no card",
			Hint: "write a process with base = " + quoted(string(m.Base))}
		if len(developers) > 0 {
			p.At = m.At("develop")
			p.Hint = fmt.Sprintf(`write its time under develop, in %s`, strings.Join(developers, " or "))
		}
		c.problems = append(c.problems, p)
	}
}

// takes tells whether a process takes a material; of one that has no time for
// it, in which developer.
func (c *checker) takes(p *Process, m *Material) (ok bool, developer string) {
	if p.Base != m.Base {
		return false, ""
	}
	developer = c.lab.ways.developer[p]
	if developer == "" || slices.Contains(c.lab.ways.timed[developer], m) {
		return true, ""
	}
	return false, developer
}
