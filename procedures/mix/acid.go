package mix

import (
	"math/big"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// equalAcid is G3.
var equalAcid = figure.Register(&figure.F5[unit.Mass, unit.Mass, unit.Factor, unit.Molar, unit.Factor, unit.Molar]{
	Formula: figure.Formula{ID: "acid.equal", Name: "the other acid, with as many protons", Result: "m_2", Unit: "g",
		Terms: []figure.Term{{Symbol: "m_1", Meaning: "acid of the recipe", Unit: "g"},
			{Symbol: "p_1", Meaning: "protons of one unit of it"},
			{Symbol: "M_1", Meaning: "its molar mass", Unit: "g/mol"},
			{Symbol: "p_2", Meaning: "protons of one unit of the other"},
			{Symbol: "M_2", Meaning: "molar mass of the other", Unit: "g/mol"}},
		Text: "m_1 * p_1 / M_1 * M_2 / p_2", Valid: "equal titratable acid, not equal pH: hydrogensulfate is milder",
		Source: "balance of moles; atomic weights IUPAC/CIAAW 2021", Origin: figure.Standard},
	Go: func(m unit.Mass, p1 unit.Factor, m1 unit.Molar, p2 unit.Factor, m2 unit.Molar) unit.Mass {
		return unit.Mass(float64(m) * float64(p1) / float64(m1) * float64(m2) / float64(p2))
	},
})

// sulfate reports sulfuric acid, which has two protons, and a hydrogensulfate, which has one.
func sulfate(c *lab.Chemical, form string) (protons lab.Count, ok bool) {
	ions := c.InWater(form)
	p := ions["H+"]
	return p, ions["SO4-2"] == 1 && (p == 2 && len(ions) == 2 || p == 1 && len(ions) == 3)
}

// MilderAcid is sodium hydrogensulfate for the sulfuric acid of a row, with as much acid in all (G3). here
// reports what is among the lab's chemicals: it is refused where it is not. The other way round there is no
// answer: nobody is to be led to the stronger acid. ok is false where the row is no sulfuric acid.
func (m *Mixer) MilderAcid(s *lab.Solution, row Row, tag string,
	here func(*lab.Chemical) bool) (out Instead, ok bool) {
	c := row.Ing.Chemical
	if c == nil || row.Take.Refused != "" {
		return out, false
	}
	own, ok := sulfate(c, row.Ing.FormID)
	formula, err := chem.Parse(row.Ing.Form.Formula)
	if !ok || own != 2 || err != nil {
		return out, false
	}
	milder, form := m.hydrogensulfate(here)
	if milder == nil {
		return out, false
	}
	second, _ := chem.Parse(milder.Forms[form].Formula)
	out = Instead{FormID: form, Name: milder.FormName(form)}
	id := figure.ID(lab.Bath{Solution: s, Strength: s.MadeStrength()}.Ref(),
		"instead."+StepID(row.Step)+"."+milder.ID, tag)
	if !here(milder) {
		by, _ := m.Lab.OriginOf(milder.Def, "form."+form)
		out.Refused = "it is not among the chemicals of this lab"
		out.Take.Amount = m.Book.Refuse(id, figure.KindAmount, out.Name, "g", out.Refused, by)
		return out, true
	}
	mass := figure.Entered[unit.Mass](row.Take.Measured()).Best()
	if row.Take.Unit == "ml" {
		mass = contentOfLiquid.Of(figure.Beside(id, "own"), figure.Entered[unit.Volume](row.Take.Measured()).Best(),
			formDensity(row.Ing), formContent(row.Ing))
	}
	molar := func(f chem.Formula) figure.Figure[unit.Molar] {
		return figure.Constant(unit.Molar(f.MolarMass()), "molar mass of "+f.String(), "IUPAC/CIAAW 2021",
			figure.Standard)
	}
	count := func(n unit.Factor) figure.Figure[unit.Factor] {
		return figure.Constant(n, "protons of one unit", "its ions", figure.Standard)
	}
	fig := equalAcid.Of(id, mass, count(2), molar(formula), count(1), molar(second)).Named(out.Name)
	exact := new(big.Rat).SetFloat64(unit.Snap(float64(fig.Value)))
	if hand := m.Bench.Weigh(exact, row.Step.Within.Quantity); hand.Refused != "" {
		out.Take = refuse(m, fig, "g", hand.Refused, hand.Way)
		out.Refused = out.Take.Refused
	} else {
		total, pour := hand.Take(exact)
		out.Take = m.showMass(fig, figure.Reading{Exact: exact, Total: total, Pour: pour, Hand: hand})
	}
	return out, true
}

// hydrogensulfate finds one, and a form of it that can be weighed: one that is here first.
func (m *Mixer) hydrogensulfate(here func(*lab.Chemical) bool) (found *lab.Chemical, form string) {
	for _, c := range m.Lab.Chemicals {
		if c.Keep == "never" || found != nil && !here(c) {
			continue
		}
		for _, id := range c.FormIDs() {
			p, ok := sulfate(c, id)
			f := c.Forms[id]
			if _, err := chem.Parse(f.Formula); ok && p == 1 && err == nil && f.Refuse == "" && !f.Content.Given() {
				found, form = c, id
				break
			}
		}
		if found != nil && here(found) {
			break
		}
	}
	return found, form
}
