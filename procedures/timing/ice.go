package timing

import (
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// ice is C3.
var ice = figure.Register(&figure.F5[unit.Mass, unit.Volume, unit.Temperature, unit.Temperature, unit.HeatCapacity,
	unit.Heat]{
	Formula: figure.Formula{ID: "temper.ice", Name: "ice that cools a bath", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume of the bath", Unit: "ml"},
			{Symbol: "T_1", Meaning: "how warm it is", Unit: "°C"},
			{Symbol: "T_2", Meaning: "how warm it is to be", Unit: "°C"},
			{Symbol: "c", Meaning: "heat capacity of water", Unit: "J/(g K)"},
			{Symbol: "L", Meaning: "heat of melting", Unit: "kJ/mol"}},
		Text:   "V * c * (T_1 - T_2) / (1000 * L / 18.015 + c * T_2)",
		Valid:  "ice at its melting point, in a closed bag; the bath counts as water, and the vessel and the room are left out",
		Source: "heat balance", Origin: figure.Standard},
	Go: func(v unit.Volume, from, to unit.Temperature, c unit.HeatCapacity, l unit.Heat) unit.Mass {
		return unit.Mass(float64(v) * float64(c) * float64(from-to) / (1000*float64(l)/18.015 + float64(c)*float64(to)))
	},
})

// Ice is how much ice cools a volume of a bath.
func (t Times) Ice(id string, volume figure.Figure[unit.Volume], from, to unit.Temperature) *figure.Record {
	given := func(at unit.Temperature, name string) figure.Figure[unit.Temperature] {
		return figure.Constant(at, name, "asked for, or chosen as an example", figure.Standard)
	}
	c := figure.Constant(unit.HeatCapacity(4.18), "heat capacity of water", "from memory", figure.Memory)
	l := figure.Constant(unit.Heat(6.01), "heat of melting", "from memory", figure.Memory)
	return figure.Enter(t.Book, ice.Of(id, volume, given(from, "how warm it is"), given(to, "how warm it is to be"),
		c, l).
		Show(figure.KindAmount, "10", unit.Nearest, ""))
}
