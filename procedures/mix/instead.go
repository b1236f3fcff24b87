package mix

import (
	"math/big"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Instead is another form of an ingredient that may be weighed in its place.
type Instead struct {
	FormID  string
	Name    string
	Take    Take
	Refused string
}

// Instead lists the other hydrates of a row's substance with their amounts, in
// the batch of the row, and why one is refused.
func (m *Mixer) Instead(s *lab.Solution, row Row, tag string, volume unit.Quantity[unit.Volume]) []Instead {
	c := row.Ing.Chemical
	if c == nil || row.Take.Unit != "g" || row.Take.Refused != "" || len(c.Forms) < 2 {
		return nil
	}
	var out []Instead
	own, err := chem.Parse(row.Ing.Form.Formula)
	if err != nil {
		return nil
	}
	step := row.Step
	bath := lab.Bath{Solution: s, Strength: s.MadeStrength()}
	for _, id := range c.FormIDs() {
		f := c.Forms[id]
		if id == row.Ing.FormID || f.Content.Given() {
			continue
		}
		figID := figure.ID(bath.Ref(), "instead."+StepID(step)+"."+id, tag)
		in := Instead{FormID: id, Name: c.FormName(id)}
		other, err := chem.Parse(f.Formula)
		switch {
		case f.Refuse != "":
			in.Refused = f.Refuse
		case err != nil:
			in.Refused = "its formula is not known"
		default:
			if _, ratioErr := chem.HydrateRatio(own, other); ratioErr != nil {
				in.Refused = "not the same salt"
			}
		}
		if in.Refused != "" {
			by, _ := m.Lab.OriginOf(c.Def, "form."+id)
			in.Take.Amount = m.Book.Refuse(figID, figure.KindAmount, in.Name, "g", in.Refused, by)
			out = append(out, in)
			continue
		}
		ratio, _ := chem.HydrateRatio(own, other)
		mOwn := unit.Molar(own.MolarMass())
		m1 := figure.Constant(mOwn, "molar mass of "+row.Ing.Form.Formula, "IUPAC/CIAAW 2021", figure.Standard)
		m2 := figure.Constant(unit.Molar(float64(mOwn)*ratio), "molar mass of "+f.Formula+" for the same salt",
			"IUPAC/CIAAW 2021", figure.Standard)
		mass := figure.Entered[unit.Mass](row.Take.Measured()).Best()
		fig := hydrate.Of(figID, mass, m1, m2).Named(in.Name)
		exact := new(big.Rat).SetFloat64(unit.Snap(float64(fig.Value)))
		hand := m.Bench.Weigh(exact, step.Within.Quantity)
		if hand.Refused != "" {
			in.Take = refuse(m, fig, "g", hand.Refused, hand.Way)
			in.Refused = in.Take.Refused
		} else {
			total, pour := hand.Take(exact)
			in.Take = m.showMass(fig, figure.Reading{Exact: exact, Total: total, Pour: pour, Hand: hand})
		}
		out = append(out, in)
	}
	return out
}
