package mix

import (
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// jugCapacity is how much heat a gram of what is in the jug takes for each kelvin.
var jugCapacity = figure.Register(&figure.F2[unit.HeatCapacity, unit.Mass, unit.Mass]{
	Formula: figure.Formula{ID: "heat.capacity", Name: "heat capacity of what is in the jug", Result: "c_p",
		Unit: "J/(g K)",
		Terms: []figure.Term{{Symbol: "W", Meaning: "water in the jug", Unit: "g"},
			{Symbol: "S", Meaning: "all that has been added", Unit: "g"}},
		Text:   "(4.18 * W + 1.2 * S) / (W + S)",
		Valid:  "water 4.18 J/(g K); what is dissolved counts with 1.2, a little less than salts have, so that the change comes out a little larger",
		Source: "heat balance; the 1.2 is from memory", Origin: figure.Memory},
	Go: func(w, s unit.Mass) unit.HeatCapacity { return unit.HeatCapacity((4.18*w + 1.2*s) / (w + s)) },
})

// jugChange is B10 and B11: how far dissolving changes the temperature of the jug, up or down.
var jugChange = figure.Register(&figure.F5[unit.Kelvin, unit.Mass, unit.Molar, unit.Heat, unit.Mass, unit.HeatCapacity]{
	Formula: figure.Formula{ID: "heat.change", Name: "change of temperature on dissolving", Result: "dT", Unit: "K",
		Terms: []figure.Term{{Symbol: "m", Meaning: "mass added", Unit: "g"},
			{Symbol: "M", Meaning: "its molar mass", Unit: "g/mol"},
			{Symbol: "dH", Meaning: "heat of solution; negative warms", Unit: "kJ/mol"},
			{Symbol: "m_t", Meaning: "what is in the jug then", Unit: "g"},
			{Symbol: "c_p", Meaning: "heat capacity of it", Unit: "J/(g K)"}},
		Text:   "abs(dH) * 1000 * m / M / (m_t * c_p)",
		Valid:  "all of it at once, no heat to or from the room; the heat is that in much water",
		Source: "heat balance", Origin: figure.Standard},
	Go: func(m unit.Mass, molar unit.Molar, h unit.Heat, all unit.Mass, c unit.HeatCapacity) unit.Kelvin {
		return unit.Kelvin(max(h,
			-h)) * 1000 * unit.Kelvin(m) / unit.Kelvin(molar) / unit.Kelvin(float64(all)*float64(c))
	},
})

// jugMass adds what is in the jug.
var jugMass = figure.Register(&figure.FN[unit.Mass, unit.Mass]{
	Formula: figure.Formula{ID: "heat.mass", Name: "mass of what is in the jug", Result: "m_t", Unit: "g",
		Terms: []figure.Term{{Symbol: "m", Meaning: "mass of each", Unit: "g"}},
		Text:  "sum(m)", Source: balance, Origin: figure.Standard},
	Go: figure.Total[unit.Mass],
})

// liquidMass is what a measured liquid weighs.
var liquidMass = figure.Register(&figure.F2[unit.Mass, unit.Volume, unit.Density]{
	Formula: figure.Formula{ID: "heat.liquid", Name: "mass of a liquid", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "v", Meaning: "its volume", Unit: "ml"},
			{Symbol: "rho", Meaning: "its density", Unit: "g/ml"}},
		Text: "v * rho", Source: "definition of density", Origin: figure.Standard},
	Go: func(v unit.Volume, rho unit.Density) unit.Mass { return unit.Mass(float64(v) * float64(rho)) },
})

// muchChange is the change of temperature from which a step says what to do (our own rule): a
// jug at 50 °C that is 10 K colder dissolves badly, one that is 10 K warmer still may be held.
const muchChange = 10 // K

// Warming is how far dissolving one thing changes the temperature of the jug.
type Warming struct {
	// Change is how far, never below nought; it is in no book until somebody shows it.
	Change *figure.Record
	// Colder: the jug falls; else it rises.
	Colder bool
	// Much: the step must say what to do.
	Much bool
}

// heats works out for each powder that is dissolved how far it warms or cools the jug (B10, B11).
// A substance whose heat nobody has written has none.
func (m *Mixer) heats(out *Batch, b lab.Bath) {
	if out.Start == nil {
		return
	}
	one := figure.Constant(unit.Density(1), "density of water", "taken as 1.00 g/ml", figure.Standard)
	filled := out.Start
	if filled.Refused() { // at the most there is as much water as the whole
		filled = out.Fill
	}
	id := figure.ID(b.Ref(), "heat", out.Tag)
	water := liquidMass.Of(figure.Beside(id, "water"), figure.Entered[unit.Volume](filled).Best(), one)
	jug := []figure.Figure[unit.Mass]{water}
	for i := range out.Rows {
		row := &out.Rows[i]
		r := row.Take.Measured()
		here := figure.Beside(id, StepID(row.Step))
		if row.Take.Unit == "ml" {
			rho := one
			if row.Ing.Form != nil && row.Ing.Form.Density.Given() {
				rho = formDensity(row.Ing)
			}
			jug = append(jug, liquidMass.Of(figure.Beside(here, "mass"), figure.Entered[unit.Volume](r).Best(), rho))
			continue
		}
		mass := figure.Entered[unit.Mass](r).Best()
		jug = append(jug, mass)
		if row.Ing.Chemical == nil || !row.Ing.Form.Heat.Given() {
			continue
		}
		f, err := chem.Parse(row.Ing.Form.Formula)
		if err != nil {
			continue
		}
		all := jugMass.Of(figure.Beside(here, "jug"), jug...)
		added := jugMass.Of(figure.Beside(here, "added"), jug[1:]...).Named("all that has been added")
		molar := figure.Constant(unit.Molar(f.MolarMass()), "molar mass of "+f.String(), "IUPAC/CIAAW 2021",
			figure.Standard)
		heat := row.Ing.Form.Heat.Figure("heat of solution of " + row.Ing.Name())
		dT := jugChange.Of(here, mass, molar, heat, all, jugCapacity.Of(figure.Beside(here, "capacity"), water, added)).
			Show(figure.KindTemperature, "1", unit.Up, "").In("°C")
		row.Warming = &Warming{Change: dT.Record(), Colder: heat.Value > 0,
			Much: unit.Snap(float64(dT.Value)) > muchChange}
	}
}
