package lab

import (
	"errors"
	"fmt"
	"math/big"

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
	for _, id := range d.FormIDs() {
		f, at := d.Forms[id], d.At("form."+id)
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
			c.add(f.TakesUp.Where(), "range", "a substance cannot take up less than nothing here", `write what a gram adds to the volume, for example "0.12 mL/g"`)
		}
		c.dissolves(f, at)
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
			c.add(f.Content.Where(), "missing", "a liquid's content without its density cannot be measured out", "write density in g/mL, as the pack or the supplier's sheet gives it")
		}
	}
	c.hazards(d.Def, d.Hazards)
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

func (c *checker) hazards(d Def, h *Hazards) {
	if h == nil {
		return
	}
	if h.Assessed != nil && !d.Library {
		c.past(h.Assessed.On.Date, h.Assessed.On.Where(), "the look on")
	}
	for i, e := range h.Elsewhere {
		if _, ok := c.lab.Sources[e.List]; !ok {
			c.add(d.At(fmt.Sprintf("hazards.elsewhere[%d]", i)), "reference", fmt.Sprintf("there is no source %q", e.List), "write it in sources.toml with its title, edition and the day it was opened")
		}
	}
	if h.Classes != nil && len(h.Classes) == 0 && h.Assessed == nil {
		c.add(d.At("hazards.classes"), "hazard", "classes = [] says that somebody looked and found none, but not who", `write assessed = { by = "…", on = 2026-01-12, sheet = "…" }; leave classes out if nobody has looked`)
	}
}
