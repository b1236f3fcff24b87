package timing

import (
	"math"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// driftEnd and driftMean are C4, and driftReads says when a tank of which nobody knows the time
// constant has reached it.
var (
	driftEnd = figure.Register(&figure.F4[unit.Temperature, unit.Temperature, unit.Temperature, unit.Seconds,
		unit.Seconds]{
		Formula: figure.Formula{ID: "drift.end", Name: "a bath in its tank, afterwards", Result: "T", Unit: "°C",
			Terms: driftTerms, Text: "T_r + (T_0 - T_r) * exp(-t / tau)", Valid: driftValid,
			Source: "heat balance (the law of cooling)", Origin: figure.Standard},
		Go: func(room, from unit.Temperature, t, tau unit.Seconds) unit.Temperature {
			return room + (from-room)*unit.Temperature(math.Exp(-float64(t/tau)))
		},
	})
	driftMean = figure.Register(&figure.F4[unit.Temperature, unit.Temperature, unit.Temperature, unit.Seconds,
		unit.Seconds]{
		Formula: figure.Formula{ID: "drift.mean", Name: "a bath in its tank, on average", Result: "T_m", Unit: "°C",
			Terms: driftTerms, Text: "T_r + (T_0 - T_r) * tau / t * (1 - exp(-t / tau))", Valid: driftValid,
			Source: "heat balance (the law of cooling), averaged over the time", Origin: figure.Standard},
		Go: func(room, from unit.Temperature, t, tau unit.Seconds) unit.Temperature {
			return room + (from-room)*unit.Temperature(float64(tau/t)*(1-math.Exp(-float64(t/tau))))
		},
	})
	driftReads = figure.Register(&figure.F2[unit.Temperature, unit.Temperature, unit.Temperature]{
		Formula: figure.Formula{ID: "drift.reads", Name: "water in a tank after one time constant", Result: "T",
			Unit: "°C", Terms: driftTerms[:2], Text: "T_r + (T_0 - T_r) * exp(-1)", Valid: driftValid,
			Source: "heat balance (the law of cooling)", Origin: figure.Standard},
		Go: func(room, from unit.Temperature) unit.Temperature {
			return room + (from-room)*unit.Temperature(math.Exp(-1))
		},
	})
	driftTerms = []figure.Term{{Symbol: "T_r", Meaning: "how warm the room is", Unit: "°C"},
		{Symbol: "T_0", Meaning: "how warm the bath was at first", Unit: "°C"},
		{Symbol: "t", Meaning: "how long it is in the tank", Unit: "s"},
		{Symbol: "tau", Meaning: "time constant of the tank", Unit: "s"}}
)

const driftValid = "the tank stands in still air, not in water; the time constant was measured with this tank"

// Drift is a bath that was left to the temperature of the room.
type Drift struct {
	// End is how warm it is afterwards, and Mean how warm it was on average.
	End, Mean *figure.Record
	// Far: on average it was, or may have been, further off than it may be.
	Far bool
}

// Drifts works out C4: a bath that begins at from in a room, in a tank with a time constant. within is how
// far off the average may be, in K; zero: nobody has said it.
func (t Times) Drifts(id string, room, from unit.Temperature, long, tau figure.Figure[unit.Seconds],
	within unit.Kelvin) Drift {
	r := figure.Constant(room, "how warm the room is", "chosen as an example", figure.Standard)
	f := figure.Constant(from, "how warm the bath was at first", "chosen as an example", figure.Standard)
	end, mean := driftEnd.Of(id, r, f, long, tau), driftMean.Of(figure.Beside(id, "mean"), r, f, long, tau)
	off := unit.Snap(max(math.Abs(float64(mean.Low.Sub(from))), math.Abs(float64(mean.High.Sub(from)))))
	return Drift{End: figure.Enter(t.Book, end.Show(figure.KindTemperature, "0.1", unit.Nearest, "")),
		Mean: figure.Enter(t.Book, mean.Show(figure.KindTemperature, "0.1", unit.Nearest, "")),
		Far:  within > 0 && off > unit.Snap(float64(within))}
}

// DriftReads is what the thermometer reads in water that began at from, when it has stood in a room for as
// long as the time constant of its tank.
func (t Times) DriftReads(id string, room, from unit.Temperature) *figure.Record {
	return figure.Enter(t.Book, driftReads.Of(id,
		figure.Constant(room, "how warm the room is", "chosen as an example", figure.Standard),
		figure.Constant(from, "how warm the bath was at first", "chosen as an example", figure.Standard)).
		Show(figure.KindTemperature, "0.1", unit.Nearest, ""))
}
