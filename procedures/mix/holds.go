package mix

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// startLoad is what a hundred grams of the water in the jug would have to hold.
var startLoad = figure.Register(&figure.F2[unit.Solubility, unit.Mass, unit.Mass]{
	Formula: figure.Formula{ID: "start.load", Name: "for a hundred grams of the water to start with", Result: "L",
		Unit: "g/100 g",
		Terms: []figure.Term{{Symbol: "m", Meaning: "mass added", Unit: "g"},
			{Symbol: "W", Meaning: "water to start with", Unit: "g"}},
		Text: "100 * m / W", Source: balance, Origin: figure.Standard},
	Go: func(m, w unit.Mass) unit.Solubility { return unit.Solubility(100 * m / w) },
})

// startHolds is the solubility at the temperature of the water, between two measured points.
var startHolds = figure.Register(&figure.F5[unit.Solubility, unit.Temperature, unit.Temperature, unit.Solubility,
	unit.Temperature, unit.Solubility]{
	Formula: figure.Formula{ID: "start.holds", Name: "what a hundred grams of the water can hold", Result: "S",
		Unit: "g/100 g",
		Terms: []figure.Term{{Symbol: "T", Meaning: "temperature of the water", Unit: "°C"},
			{Symbol: "T_1", Meaning: "colder point of the table", Unit: "°C"},
			{Symbol: "S_1", Meaning: "solubility there", Unit: "g/100 g"},
			{Symbol: "T_2", Meaning: "warmer point of the table", Unit: "°C"},
			{Symbol: "S_2", Meaning: "solubility there", Unit: "g/100 g"}},
		Text:   "S_1 + (T - T_1) * (S_2 - S_1) / (T_2 - T_1)",
		Valid:  "a straight line between two points of the table; other salts in the jug make it less",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(t, t1 unit.Temperature, s1 unit.Solubility, t2 unit.Temperature, s2 unit.Solubility) unit.Solubility {
		return s1 + unit.Solubility(t-t1)*(s2-s1)/unit.Solubility(t2-t1)
	},
})

// Holding is what the water in the jug would have to hold of a powder, and what it can.
type Holding struct{ Load, Holds *figure.Record }

// holds finds the powders that the water to start with cannot hold at its temperature. Where
// nobody has written a temperature, it is taken as 20 °C; a table that does not reach down to it
// says nothing, and above its last point the last one counts.
func (m *Mixer) holds(out *Batch, b lab.Bath) {
	if out.Start == nil || out.Start.Refused() {
		return
	}
	id := figure.ID(b.Ref(), "holds", out.Tag)
	t := figure.Constant(unit.Temperature(20), "temperature of the water",
		"taken as 20 °C, as nobody has written one", figure.Default)
	if at := b.Solution.Start.At; at.Given() {
		t = at.Figure("temperature of the water to start with")
		t = t.WithValue(t.Low) // the coldest that is allowed holds the least
	}
	one := figure.Constant(unit.Density(1), "density of water", "taken as 1.00 g/ml", figure.Standard)
	water := liquidMass.Of(figure.Beside(id, "water"), figure.Entered[unit.Volume](out.Start).Best(), one)
	for i := range out.Rows {
		row := &out.Rows[i]
		if row.Take.Unit == "ml" || row.Ing.Chemical == nil {
			continue
		}
		table := points(Content{Chemical: row.Ing.Chemical, Form: row.Ing.FormID})
		if len(table) < 2 || t.Value < table[0].at.Value() {
			continue
		}
		here := figure.Beside(id, StepID(row.Step))
		last := table[len(table)-1]
		can := last.solubility()
		for n := 1; n < len(table); n++ {
			if x, y := table[n-1], table[n]; t.Value <= y.at.Value() {
				can = startHolds.Of(figure.Beside(here, "can"), t, x.temperature(), x.solubility(), y.temperature(),
					y.solubility())
				break
			}
		}
		must := startLoad.Of(here, figure.Entered[unit.Mass](row.Take.Measured()).Best(), water)
		if unit.Snap(float64(must.Value)) <= unit.Snap(float64(can.Value)) {
			continue
		}
		h := &Holding{Load: figure.Enter(m.Book, must.Show(figure.KindAmount, "0.1", unit.Up, ""))}
		if can.ID() == "" { // the last point of the table
			h.Holds = figure.Declare(m.Book, figure.Beside(here, "can"), figure.KindAmount, can,
				unit.Format(unit.Round(float64(can.Value), 0.1, unit.Down), unit.NewDecimal(1, 1)), "g/100 g")
		} else {
			h.Holds = figure.Enter(m.Book, can.Show(figure.KindAmount, "0.1", unit.Down, ""))
		}
		row.TooMuch = h
	}
}
