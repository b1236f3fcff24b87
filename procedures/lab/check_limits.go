package lab

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/figure"
)

// limitExamples is a well-formed most for each basis.
var limitExamples = map[string]string{
	"rolls": "6 rolls/L", "area": "1.2 m2/L", "silver": "4.0 g/L", "count": "20 /L", "uses": "5 uses", "clearing": "2 x fresh",
}

// limits checks when a strength is spent, and whom it serves.
func (c *checker) limits(s *Strength, at figure.Where) {
	type basis struct {
		by, base, of string
		place        int
	}
	seen := map[basis]int{}
	for i, l := range s.Limits {
		lat := at.At(fmt.Sprintf("limits[%d]", i))
		if l.By == "" {
			c.add(lat, "missing", "a limit that does not say what it counts", `write by = "area"; the bases are `+list(LimitBases))
		}
		c.oneOf(l.By, LimitBases, lat.At("by"), "what a limit counts by")
		c.most(l, lat)
		c.oneOf(l.For, Bases, lat.At("for"), "a base")
		if l.Place > 2 {
			c.add(lat.At("place"), "range", "a bath is the first or the second of two", "write place = 1 or place = 2, or leave it out")
		}
		c.counted(l, lat)
		b := basis{l.By, l.For, l.Of, int(l.Place)}
		if first, again := seen[b]; again {
			c.add(lat, "id", fmt.Sprintf("a second limit by %s for the same base and place (the first is number %d)", l.By, first+1), "keep one of the two, or tell them apart with for or place")
		} else {
			seen[b] = i
		}
	}
	for _, base := range sortedKeys(s.Serves) {
		sat := at.At("serves." + base)
		if !contains(Bases, base) {
			c.problems = append(c.problems, Problem{At: sat, OnKey: true, Code: "word", What: quoted(base) + " is not a base", Hint: Near(base, Bases, "write one of "+list(Bases))})
		}
		c.oneOf(s.Serves[base], Serving, sat, "whether a base needs a bath")
	}
	positive(c, s.Longer, at.At("longer"))
	positive(c, s.Coat.Area, at.At("coat"))
	positive(c, s.Coat.Sheet, at.At("coat"))
	if s.Loss.Given() && (s.Loss.Negative() || s.Loss.Value() > 100) {
		c.add(at.At("loss"), "range", fmt.Sprintf("%q cannot stay in the brush", s.Loss.Text()), `write how much more is mixed than covers the sheets, for example "15 %"`)
	}
	if s.Loss.Given() && !s.Coat.Given() {
		c.add(at.At("loss"), "missing", "a loss without what covers an area", `write coat = "40 mL/m2"`)
	}
}

func (c *checker) most(l Limit, at figure.Where) {
	if !l.Most.Given() {
		example := limitExamples[l.By]
		if example == "" {
			example = "1.2 m2/L"
		}
		c.add(at, "missing", "a limit without its most", fmt.Sprintf("write most = %q", example))
		return
	}
	if contains(LimitBases, l.By) && l.Most.by() != l.By {
		c.add(at.At("most"), "quantity", fmt.Sprintf("%q counts by %s, and the limit is by %s", l.Most.Text(), l.Most.by(), l.By), fmt.Sprintf("write most = %q, or by = %q", limitExamples[l.By], l.Most.by()))
	}
	m := at.At("most")
	positive(c, l.Most.Rolls, m)
	positive(c, l.Most.Area, m)
	positive(c, l.Most.Silver, m)
	positive(c, l.Most.PerLitre, m)
	positive(c, l.Most.Uses, m)
	if l.Most.Clearing.Given() && l.Most.Clearing.Low() <= 1 {
		c.add(m, "range", fmt.Sprintf("%q: a bath is spent before it is used", l.Most.Text()), `write more than once the fresh time, for example "2 x fresh"`)
	}
}

// counted demands of a limit by count what is counted, and of no other.
func (c *checker) counted(l Limit, at figure.Where) {
	switch {
	case l.By == "count" && l.Of == "":
		c.add(at, "missing", "a limit by count that does not say what is counted", `write of = "fibre-paper.24x30"`)
	case l.By != "count" && l.Of != "":
		c.add(at.At("of"), "shape", "only a limit by count says what is counted", "take of out, or write by = \"count\"")
	case l.Of != "":
		m := c.piece(l.Of, at.At("of"))
		if m != nil && l.For != "" && m.Base != "" && m.Base != l.For {
			c.add(at.At("of"), "word", fmt.Sprintf("%s is made on %s, and the limit is for %s", l.Of, m.Base, l.For), "name a material of that base")
		}
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
			c.add(at, "reference", "there is no material "+quoted(id), Near(id, ids, "write its definition in materials/, or correct the name"))
		}
		return nil
	}
	if len(m.Formats) > 0 && !contains(m.Formats, format) {
		c.add(at, "reference", fmt.Sprintf("%s has no format %q", id, format), Near(format, m.Formats, "its formats are "+list(prefixed(id, m.Formats))))
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
			taken = taken || ok || p.unbuilt
			if developer != "" && !contains(developers, developer) {
				developers = append(developers, developer)
			}
		}
		if taken {
			continue
		}
		p := Problem{At: m.At("base"), Code: "unused", Warning: true, What: "no process takes " + m.Name + ": it is on no card",
			Hint: "write a process with base = " + quoted(m.Base)}
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
