package lab

import (
	"errors"
	"fmt"
	"math/big"
	"strings"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

func (c *checker) chemical(d *Chemical) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a chemical without a name", `"sodium sulfite"`)
	}
	if len(d.Forms) == 0 {
		c.missing(d.Def, "[form.anhydrous]", "a chemical without a form: nobody can tell what is weighed", `… with formula = "Na2SO3"`)
	}
	c.oneOf(d.Keep, []string{"never"}, d.At("keep"), `a rule for keeping (only "never" is one)`)
	if d.Keep == "never" && d.Why == "" {
		c.add(d.At("keep"), "missing", d.Name+" is not kept, and nobody has written why", `write why = "…", and instead = "…" for what does its work`)
	}
	for _, id := range d.FormIDs() {
		f, at := d.Forms[id], d.At("form."+keyName(id))
		if f.Formula != "" && f.Formula != "none" {
			if _, err := chem.Parse(f.Formula); err != nil {
				what, hint := chemError(err)
				c.add(at.At("formula"), "formula", fmt.Sprintf("%q is not a formula: %s", f.Formula, what), hint+`; write "none" for a substance without a fixed composition`)
			}
		}
		if f.CAS != "" {
			if err := chem.CASValid(f.CAS); err != nil {
				what, hint := chemError(err)
				c.add(at.At("cas"), "cas", fmt.Sprintf("%q is not a CAS number: %s", f.CAS, what), hint)
			}
		}
		if f.TakesUp.Negative() {
			c.add(f.TakesUp.Where(), "range", "a substance cannot take up less than zero here", `write what a gram adds to the volume, for example "0.12 mL/g"`)
		}
		c.dissolves(f, at)
		sensible(c, f.Heat, "-1000 kJ/mol", "1000 kJ/mol")
		positive(c, f.Content)
		positive(c, f.Purity)
		c.density(f.Density)
		hundred := big.NewRat(100, 1)
		for _, q := range []Said[unit.WW]{f.Content, f.Purity} {
			if q.Given() && q.Exact().Cmp(hundred) > 0 {
				c.add(q.Where(), "range", fmt.Sprintf("%q is more than the whole", q.Text()), "write at most 100 % w/w")
			}
		}
		if f.Content.Given() && !f.Density.Given() {
			c.add(f.Content.Where(), "missing", "a liquid's content without its density cannot be measured out",
				"write density in g/mL, as the pack or the supplier's sheet gives it")
		}
	}
	c.ions(d)
	c.hazards(d.Def, d.Hazards, d.At("hazards"))
}

// ions holds what each form of a chemical becomes in water against its formula: the same
// atoms, apart from water, and no charge left over.
func (c *checker) ions(d *Chemical) {
	common := c.readIons(d.Ions, d.At("ions"))
	for _, id := range d.FormIDs() {
		read, at := common, d.At("ions")
		if own := d.Forms[id].Ions; len(own) > 0 {
			at = d.At("form." + keyName(id) + ".ions")
			read = c.readIons(own, at)
		}
		salt, err := chem.Parse(d.Forms[id].Formula)
		if err != nil || read == nil { // a fault of its own, or no fixed composition
			continue
		}
		if err := chem.Dissociates(salt, read); err != nil {
			what, hint := chemError(err)
			c.problems = append(c.problems, Problem{At: at, OnKey: true, Code: "ions",
				What: fmt.Sprintf("these ions are not those of %s: %s", salt, what), Hint: hint})
		}
	}
}

// readIons reads a table of ions; nil where there is none, or where one cannot be read.
func (c *checker) readIons(list map[string]Count, at figure.Where) map[chem.Ion]int {
	if len(list) == 0 {
		return nil
	}
	read := map[chem.Ion]int{}
	for _, name := range sortedKeys(list) {
		ion, err := chem.ParseIon(name)
		if err != nil {
			what, hint := chemError(err)
			c.problems = append(c.problems, Problem{At: at.At(keyName(name)), OnKey: true, Code: "ions",
				What: fmt.Sprintf("%q is not an ion: %s", name, what), Hint: hint})
			read = nil
			continue
		}
		if read != nil {
			read[ion] += int(list[name])
		}
	}
	return read
}

// dissolves checks a table of solubilities: temperatures as keys.
func (c *checker) dissolves(f *Form, at figure.Where) {
	for _, key := range sortedKeys(f.Dissolves) {
		var t unit.Quantity[unit.Temperature]
		if err := t.UnmarshalText([]byte(key)); err != nil {
			c.problems = append(c.problems, Problem{At: at.At(`dissolves."` + key + `"`), OnKey: true, Code: "quantity", What: fmt.Sprintf("%q is not a temperature", key), Hint: `write dissolves = { "20 °C" = "26.4 g/100 g" }`})
		}
		positive(c, f.Dissolves[key])
	}
}

func chemError(err error) (what, hint string) {
	var e *chem.Error
	if errors.As(err, &e) {
		return e.What, e.Hint
	}
	return err.Error(), "copy it from the pack once more"
}

// hazards checks what is known of dangers, at the key of its table.
func (c *checker) hazards(d Def, h *Hazards, at figure.Where) {
	if h == nil {
		return
	}
	for i, route := range h.Unknown {
		word(c, route, at.At(fmt.Sprintf("unknown[%d]", i)))
	}
	for _, class := range sortedKeys(h.Tested) {
		if strings.TrimSpace(h.Tested[class]) == "" {
			c.add(at.At("tested").At(keyName(class)), "missing", "a test without the place where it can be looked up", `write what was tested and where it stands, for example "not corrosive: test report of the sheet, section 11"`)
		}
	}
	c.inMixtures(h.InMixtures, at)
	if h.Assessed != nil && !d.Library {
		c.past(h.Assessed.On.Date, h.Assessed.On.Where(), "the look on")
	}
	for i, e := range h.Elsewhere {
		if _, ok := c.lab.Sources[e.List]; !ok {
			c.add(at.At(fmt.Sprintf("elsewhere[%d]", i)), "reference", fmt.Sprintf("there is no source %q", e.List),
				"write it in sources.toml with its title, edition and the day it was opened")
		}
	}
	if h.Classes != nil && len(h.Classes) == 0 && h.Assessed == nil {
		c.add(at.At("classes"), "hazard", "classes = [] says that somebody looked and found none, but not who", `write assessed = { by = "…", on = 2026-01-12, sheet = "…" }; leave classes out if nobody has looked`)
	}
}

// inMixtures checks what the class of a mixture hangs on.
func (c *checker) inMixtures(m InMixtures, at figure.Where) {
	positive(c, m.ATE.Oral)
	positive(c, m.ATE.Dermal)
	positive(c, m.ATE.Vapour)
	positive(c, m.ATE.Dust)
	positive(c, m.ATE.Gas)
	for _, class := range sortedKeys(m.Limits) {
		limit := m.Limits[class]
		switch {
		case !limit.Given():
		case limit.Spread() || !limit.Positive() || limit.Exact().Cmp(big.NewRat(100, 1)) > 0:
			c.add(limit.Where(), "range", fmt.Sprintf("%q is not the content from which a class holds", limit.Text()), `write the lower end, for example "3 % w/w"`)
		}
	}
	for _, f := range []SaidCount{m.MFactor.Acute, m.MFactor.Chronic} {
		if f.Given() && !powerOfTen(int(f.Count)) {
			c.add(f.Where(), "range", fmt.Sprintf("%s is no M-factor: they are powers of ten", f),
				"write 1, 10, 100 …, as the supplier's sheet gives it")
		}
	}
}

// powerOfTen reports 1, 10, 100 and so on: M-factors are multiples of ten (CLP, Annex I,
// Table 4.1.3, from memory).
func powerOfTen(n int) bool {
	for n > 1 && n%10 == 0 {
		n /= 10
	}
	return n == 1
}
