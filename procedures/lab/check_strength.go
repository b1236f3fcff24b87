package lab

import (
	"fmt"

	"wetside/procedures/figure"
)

// strengths checks the strengths of a definition; made is the one that the others are
// diluted from.
func (c *checker) strengths(d Def, declared map[string]*Strength, names []string, made string) {
	for _, name := range sortedKeys(declared) {
		s, at := declared[name], d.At("strength."+keyName(name))
		word(c, s.Use, at.At("use"))
		word(c, s.Water, at.At("water"))
		positive(c, s.Needs)
		c.ph(s.PH)
		c.keeps(s.Keeps)
		c.limits(s, at)
		if name == made {
			if s.Dilute.Given() && !s.Dilute.None() && made == names[0] { // of a pack, [makes] is checked for it
				c.add(s.Dilute.Where(), "dilution",
					quoted(name)+" is what the steps make; it is not a dilution of itself",
					"give the dilution a name of its own, for example [strength.working]")
			}
		} else {
			if !s.Dilute.Given() {
				c.add(at, "missing", "the strength "+quoted(name)+" does not say how it is diluted", `write dilute = "1+4", or dilute = "none" if it is used as it is`)
			}
			if s.From != "" && !contains(names, s.From) {
				c.add(at.At("from"), "reference", quoted(d.ID)+" has no strength "+quoted(s.From),
					Near(s.From, names, "its strengths are "+list(names)))
			}
		}
		c.override(s.Override, at.At("override"))
		w, wat := s.Temperature, at.At("temperature")
		c.bearable(w.From)
		c.wet(w.StopAbove)
		for _, p := range w.Measured {
			c.bearable(p.At)
		}
		if w.Slope.Given() {
			positive(c, w.Slope)
			if !w.From.IsRange() {
				c.add(w.Slope.Where(), "missing", "a slope without the temperatures between which it holds", `write from = "18..24 °C"`)
			}
		}
		positive(c, w.Shortest)
		c.strengthOfSense(s)
		c.pairs(w, wat)
		for _, p := range []struct {
			s   *Stops
			key string
		}{{s.Push, "push"}, {s.Pull, "pull"}} {
			if p.s == nil {
				continue
			}
			positive(c, p.s.Factor)
			if !p.s.Factor.Given() || !p.s.Most.Given() {
				c.add(at.At(p.key), "missing", "a push or pull says its factor for one stop and how many stops at most", `write `+p.key+` = { factor = "1.40 /stop", most = 2 }`)
			}
			if p.s.Most.Count > 4 {
				c.add(p.s.Most.Where(), "range", fmt.Sprintf("%d stops are more than anybody tries", p.s.Most.Count),
					"write how many stops at most, from 1 to 4")
			}
		}
	}
}

// override checks that a lab's own judgement says who judged, why, and until when.
func (c *checker) override(o *Override, at figure.Where) {
	if o == nil {
		return
	}
	for _, k := range []struct {
		given     bool
		what, key string
	}{
		{o.Classes != nil, "which classes it says", `classes = ["Eye Irrit. 2"], or classes = [] for none`},
		{o.Why != "", "why", `why = "…"`},
		{o.By != "", "who judged so", `by = "KH1"`},
		{o.Until.Given(), "until when it holds", "until = 2027-01-10"},
	} {
		if !k.given {
			c.problems = append(c.problems, Problem{At: at, OnKey: true, Code: "override",
				What: "an override of the hazards that does not say " + k.what, Hint: "write " + k.key})
		}
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

// pairs demands two times at two temperatures, the warmer one shorter.
func (c *checker) pairs(w Window, at figure.Where) {
	if w.Measured == nil {
		return
	}
	hint := `write measured = [ { at = "20 °C", time = "10:00" }, { at = "24 °C", time = "7:00" } ]`
	if len(w.Measured) != 2 || !w.Measured[0].Time.Positive() || !w.Measured[1].Time.Positive() ||
		!w.Measured[0].At.Given() || !w.Measured[1].At.Given() {
		c.add(at.At("measured"), "shape", "a slope takes two measured times, each with its temperature", hint)
		return
	}
	cold, warm := w.Measured[0], w.Measured[1]
	if cold.At.Value() >= warm.At.Value() || cold.Time.Value() <= warm.Time.Value() {
		c.add(at.At("measured"), "range", "the second time is not shorter at a higher temperature", hint)
	}
	if w.Slope.Given() {
		c.add(at.At("measured"), "shape", "a slope is written and measured at once", "keep one of the two")
	}
	if !w.From.IsRange() {
		c.add(at.At("measured"), "missing", "a slope without the temperatures between which it holds", `write from = "18..24 °C"`)
	}
}

// limitExamples is a well-formed most for each basis.
var limitExamples = map[LimitBasis]string{
	ByRolls: "6 rolls/L", ByArea: "1.2 m2/L", BySilver: "4.0 g/L", ByCount: "20 /L", ByUses: "5 uses",
	ByClearing: "2 x fresh",
}

// limits checks when a strength is spent, and whom it serves.
func (c *checker) limits(s *Strength, at figure.Where) {
	type basis struct {
		by    LimitBasis
		base  Base
		of    string
		place int
	}
	seen := map[basis]int{}
	for i, l := range s.Limits {
		lat := at.At(fmt.Sprintf("limits[%d]", i))
		if l.By == "" {
			c.add(lat, "missing", "a limit that does not say what it counts", `write by = "area"; the bases are `+list(texts(LimitBases)))
		}
		word(c, l.By, lat.At("by"))
		c.most(l, lat)
		word(c, l.For, lat.At("for"))
		if l.Place > 2 {
			c.add(lat.At("place"), "range", "a bath is the first or the second of two",
				"write place = 1 or place = 2, or leave it out")
		}
		c.counted(l, lat)
		b := basis{l.By, l.For, l.Of, int(l.Place)}
		if first, again := seen[b]; again {
			c.add(lat, "id", fmt.Sprintf("a second limit by %s for the same base and place (the first is number %d)",
				l.By, first+1), "keep one of the two, or tell them apart with for or place")
		} else {
			seen[b] = i
		}
	}
	for _, base := range sortedKeys(s.Serves) {
		sat := at.At("serves." + string(base))
		if !contains(Bases, base) {
			c.problems = append(c.problems, Problem{At: sat, OnKey: true, Code: "word", What: quoted(string(base)) +
				" is not a base", Hint: Near(string(base), texts(Bases), "write one of "+list(texts(Bases)))})
		}
		word(c, s.Serves[base], sat)
	}
	positive(c, s.Longer)
	positive(c, s.Coat.Area)
	positive(c, s.Coat.Sheet)
	if s.Loss.Given() && (s.Loss.Negative() || s.Loss.Value() > 100) {
		c.add(s.Loss.Where(), "range", fmt.Sprintf("%q cannot stay in the brush", s.Loss.Text()), `write how much more is mixed than covers the sheets, for example "15 %"`)
	}
	if s.Loss.Given() && !s.Coat.Given() {
		c.add(s.Loss.Where(), "missing", "a loss without what covers an area", `write coat = "40 mL/m2"`)
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
		c.add(at.At("most"), "quantity", fmt.Sprintf("%q counts by %s, and the limit is by %s", l.Most.Text(),
			l.Most.by(), l.By), fmt.Sprintf("write most = %q, or by = %q", limitExamples[l.By], l.Most.by()))
	}
	positive(c, l.Most.Rolls)
	positive(c, l.Most.Area)
	positive(c, l.Most.Silver)
	positive(c, l.Most.PerLitre)
	positive(c, l.Most.Uses)
	if l.Most.Clearing.Given() && l.Most.Clearing.Low() <= 1 {
		c.add(l.Most.Clearing.Where(), "range", fmt.Sprintf("%q: a bath is spent before it is used", l.Most.Text()), `write more than once the fresh time, for example "2 x fresh"`)
	}
}

// anyPiece is something that a limit may count: a format of a material of this lab, else an example.
func (c *checker) anyPiece() string {
	for _, m := range c.lab.Materials {
		if len(m.Formats) > 0 {
			return m.ID + "." + m.Formats[0]
		}
	}
	return "fibre-paper.24x30"
}

// counted demands of a limit by count what is counted, and of no other.
func (c *checker) counted(l Limit, at figure.Where) {
	switch {
	case l.By == ByCount && l.Of == "":
		c.add(at, "missing", "a limit by count that does not say what is counted", fmt.Sprintf("write of = %q", c.anyPiece()))
	case l.By != ByCount && l.Of != "":
		c.add(at.At("of"), "shape", "only a limit by count says what is counted",
			"take of out, or write by = \"count\"")
	case l.Of != "":
		m := c.piece(l.Of, at.At("of"))
		if m != nil && l.For != "" && m.Base != "" && m.Base != l.For {
			c.add(at.At("of"), "word", fmt.Sprintf("%s is made on %s, and the limit is for %s", l.Of, m.Base, l.For),
				"name a material of that base")
		}
	}
}
