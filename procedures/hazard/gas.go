package hazard

import (
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/series"
	"wetside/procedures/unit"
)

// Gas is what a bath gives off when something else gets into it.
type Gas struct {
	Gas, With string
	From      []string
	Origin    figure.Origin
}

// Words says it in a line: "sulfur dioxide with acid: sodium sulfite".
func (g Gas) Words() string {
	return withOrigin(g.Gas+" with "+g.With+": "+series.Of(g.From), g.Origin)
}

// Gives lists the gases, those that kill first. What only several parts together
// give off comes from the mixture.
func (k Known) Gives() []Gas {
	if k.rules == nil {
		return nil
	}
	var out []Gas
	for _, pair := range k.rules.Gases(k.Kinds) {
		g := Gas{pair.Gives.Word, k.rules.Side(pair.Those), nil, pair.Origin}
		for _, p := range k.Parts {
			if p.Kinds.Any(pair.These...) {
				g.From = append(g.From, p.Name)
			}
		}
		if g.From == nil {
			g.From = []string{k.rules.Side(pair.These)}
		}
		out = gas(out, g)
	}
	return out
}

func gas(list []Gas, g Gas) []Gas {
	for i := range list {
		if list[i].Gas == g.Gas && list[i].With == g.With {
			list[i].From = append(list[i].From, g.From...)
			list[i].Origin = figure.Weakest(list[i].Origin, g.Origin)
			return list
		}
	}
	return append(list, g)
}

// Alkalis names the alkalis of a bath.
func (k Known) Alkalis() []string {
	var out []string
	for _, p := range k.Parts {
		if p.Kinds.Any("alkali") {
			out = append(out, p.Name)
		}
	}
	return out
}

// SO2 is how much sulfur dioxide a kilogram of a bath can give off with acid, at 20 °C.
// Known is false where something that gives it off cannot be counted.
type SO2 struct {
	Known bool
	Most  unit.VolumePerMass
}

// The molar volumes of a gas at 101.325 kPa, in L/mol: of an ideal gas at 0 °C, for the
// limit of a statement, which is counted so; and at 20 °C, for a room.
const (
	molarVolumeAt0  = 22.414
	molarVolumeAt20 = 24.055
)

// sulfurous are the ions that acid turns into sulfur dioxide, one for each.
var sulfurous = []string{"SO3-2", "HSO3-", "S2O3-2", "S2O5-2", "S2O5-2"}

// so2Of is how much sulfur dioxide a gram of a form of a chemical can give off, in mL/g;
// zero where nobody can tell, or none. Disulfite counts twice.
func so2Of(c *lab.Chemical, form string, molarVolume float64) unit.VolumePerMass {
	formula, err := chem.Parse(c.Forms[form].Formula)
	if err != nil || formula.MolarMass() == 0 {
		return 0
	}
	n := 0
	for _, ion := range sulfurous {
		n += int(c.InWater(form)[ion])
	}
	return unit.VolumePerMass(float64(n) * molarVolume * 1000 / float64(formula.MolarMass()))
}
