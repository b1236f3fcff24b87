// Package timing works out times and temperatures: tempering, development at
// another temperature or speed, agitation, fixing.
package timing

import (
	"math"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// hotWater is C1: hot tap water for a volume at a temperature.
var hotWater = figure.Register(&figure.F4[unit.Volume, unit.Volume, unit.Temperature, unit.Temperature,
	unit.Temperature]{
	Formula: figure.Formula{ID: "temper.hot", Name: "hot water", Result: "V_hot", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume wanted", Unit: "ml"},
			{Symbol: "T", Meaning: "temperature wanted", Unit: "°C"},
			{Symbol: "T_cold", Meaning: "cold tap", Unit: "°C"}, {Symbol: "T_hot", Meaning: "hot tap", Unit: "°C"}},
		Text:   "V * (T - T_cold) / (T_hot - T_cold)",
		Valid:  "between the two taps; the vessel's own heat left out: the thermometer decides",
		Source: "heat balance", Origin: figure.Standard},
	Go: func(v unit.Volume, t, cold, hot unit.Temperature) unit.Volume {
		return v * unit.Volume(t.Sub(cold)) / unit.Volume(hot.Sub(cold))
	},
})

// coldWater is the rest of C1.
var coldWater = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "temper.cold", Name: "cold water", Result: "V_cold", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume wanted", Unit: "ml"},
			{Symbol: "V_hot", Meaning: "hot water", Unit: "ml"}},
		Text: "V - V_hot", Source: "heat balance", Origin: figure.Standard},
	Go: func(v, hot unit.Volume) unit.Volume { return v - hot },
})

// diluteTemperature is C2: how warm the water for a cold stock must be.
var diluteTemperature = figure.Register(&figure.F4[unit.Temperature, unit.Volume, unit.Temperature, unit.Volume,
	unit.Temperature]{
	Formula: figure.Formula{ID: "temper.dilute", Name: "water for a cold stock", Result: "T_w", Unit: "°C",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume made", Unit: "ml"},
			{Symbol: "T", Meaning: "temperature wanted", Unit: "°C"},
			{Symbol: "V_s", Meaning: "stock in it", Unit: "ml"},
			{Symbol: "T_s", Meaning: "temperature of the stock", Unit: "°C"}},
		Text: "(V * T - V_s * T_s) / (V - V_s)", Valid: "equal heat capacities: within 5 % for a strong stock",
		Source: "heat balance", Origin: figure.Standard},
	Go: func(v unit.Volume, t unit.Temperature, s unit.Volume, ts unit.Temperature) unit.Temperature {
		return unit.Temperature((float64(v)*float64(t) - float64(s)*float64(ts)) / float64(v-s))
	},
})

// timeAt is C5: a development time at another temperature.
var timeAt = figure.Register(&figure.F4[unit.Seconds, unit.Seconds, unit.Temperature, unit.PerKelvin, unit.Temperature]{
	Formula: figure.Formula{ID: "time.temperature", Name: "time at another temperature", Result: "t", Unit: "s",
		Terms: []figure.Term{{Symbol: "t_1", Meaning: "time measured", Unit: "s"},
			{Symbol: "T_1", Meaning: "its temperature", Unit: "°C"},
			{Symbol: "k", Meaning: "slope of the developer", Unit: "1/K"},
			{Symbol: "T", Meaning: "temperature of the bath", Unit: "°C"}},
		Text: "t_1 * exp(-k * (T - T_1))", Valid: "inside the developer's window only; one slope for each developer",
		Source: "handbook tradition, from memory", Origin: figure.Memory},
	Go: func(t1 unit.Seconds, ta unit.Temperature, k unit.PerKelvin, t unit.Temperature) unit.Seconds {
		return t1 * unit.Seconds(math.Exp(-float64(k)*float64(t.Sub(ta))))
	},
})

// slopeOf is C6: the slope from two times of one developer.
var slopeOf = figure.Register(&figure.F3[unit.PerKelvin, unit.Seconds, unit.Seconds, unit.Kelvin]{
	Formula: figure.Formula{ID: "time.slope", Name: "slope from two measured times", Result: "k", Unit: "1/K",
		Terms: []figure.Term{{Symbol: "t_1", Meaning: "time at the lower temperature", Unit: "s"},
			{Symbol: "t_2", Meaning: "time at the higher", Unit: "s"},
			{Symbol: "dT", Meaning: "difference of the temperatures", Unit: "K"}},
		Text: "log(t_1 / t_2) / dT", Valid: "both from one sheet and for one contrast", Source: "mass balance",
		Origin: figure.Standard},
	Go: func(t1, t2 unit.Seconds, dt unit.Kelvin) unit.PerKelvin {
		return unit.PerKelvin(math.Log(float64(t1/t2)) / float64(dt))
	},
})

// stopsOf is D1.
var stopsOf = figure.Register(&figure.F2[unit.Stops, unit.Speed, unit.Speed]{
	Formula: figure.Formula{ID: "push.stops", Name: "stops of push", Result: "N", Unit: "stops",
		Terms: []figure.Term{{Symbol: "EI", Meaning: "exposure index"}, {Symbol: "S", Meaning: "the film's speed"}},
		Text:  "log2(EI / S)", Valid: "a fact of metering, not of the film: shadows stay under-exposed",
		Source: "definition of a stop", Origin: figure.Standard},
	Go: func(ei, s unit.Speed) unit.Stops { return unit.Stops(math.Log2(float64(ei / s))) },
})

// pushed is D2 for a push.
var pushed = figure.Register(&figure.F3[unit.Seconds, unit.Seconds, unit.PerStop, unit.Stops]{
	Formula: figure.Formula{ID: "push.time", Name: "time for a push", Result: "t", Unit: "s",
		Terms: []figure.Term{{Symbol: "t_0", Meaning: "time without a push", Unit: "s"},
			{Symbol: "f", Meaning: "factor for one stop", Unit: "/stop"},
			{Symbol: "N", Meaning: "stops", Unit: "stops"}},
		Text: "t_0 * pow(f, N)", Valid: "a starting point; underexposed shadows stay lost",
		Source: "common practice, no source", Origin: figure.Default},
	Go: func(t unit.Seconds, f unit.PerStop, n unit.Stops) unit.Seconds {
		return t * unit.Seconds(math.Pow(float64(f), float64(n)))
	},
})

// pulled is D2 for a pull.
var pulled = figure.Register(&figure.F3[unit.Seconds, unit.Seconds, unit.PerStop, unit.Stops]{
	Formula: figure.Formula{ID: "pull.time", Name: "time for a pull", Result: "t", Unit: "s",
		Terms: []figure.Term{{Symbol: "t_0", Meaning: "time without a pull", Unit: "s"},
			{Symbol: "p", Meaning: "factor for one stop", Unit: "/stop"},
			{Symbol: "N", Meaning: "stops, below zero", Unit: "stops"}},
		Text: "t_0 * pow(p, abs(N))", Valid: "a starting point", Source: "common practice, no source",
		Origin: figure.Default},
	Go: func(t unit.Seconds, p unit.PerStop, n unit.Stops) unit.Seconds {
		return t * unit.Seconds(math.Pow(float64(p), math.Abs(float64(n))))
	},
})

// events is D3: how many agitations fit between the first and the drain.
var events = figure.Register(&figure.F4[unit.Factor, unit.Seconds, unit.Seconds, unit.Seconds, unit.Seconds]{
	Formula: figure.Formula{ID: "agitate.count", Name: "agitations after the first", Result: "n", Unit: "",
		Terms: []figure.Term{{Symbol: "t", Meaning: "time of the step", Unit: "s"},
			{Symbol: "d", Meaning: "draining", Unit: "s"}, {Symbol: "a", Meaning: "one agitation lasts", Unit: "s"},
			{Symbol: "i", Meaning: "one every", Unit: "s"}},
		Text:   "floor((t - d - a) / i)",
		Valid:  "an agitation that would run into the drain is left out; none begins before the first has ended",
		Source: "common practice, no source", Origin: figure.Default},
	Go: func(t, d, a, i unit.Seconds) unit.Factor {
		return unit.Factor(unit.Round(float64((t-d-a)/i), 1, unit.Down))
	},
})

// lastEvent is when the last agitation begins.
var lastEvent = figure.Register(&figure.F2[unit.Seconds, unit.Factor, unit.Seconds]{
	Formula: figure.Formula{ID: "agitate.last", Name: "last agitation", Result: "t_n", Unit: "s",
		Terms: []figure.Term{{Symbol: "n", Meaning: "agitations after the first"},
			{Symbol: "i", Meaning: "one every", Unit: "s"}},
		Text: "n * i", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, i unit.Seconds) unit.Seconds { return unit.Seconds(n) * i },
})

// apart is how far two times lie from each other.
var apart = figure.Register(&figure.F2[unit.Seconds, unit.Seconds, unit.Seconds]{
	Formula: figure.Formula{ID: "time.apart", Name: "times apart", Result: "d", Unit: "s",
		Terms: []figure.Term{{Symbol: "t_1", Meaning: "time of the one", Unit: "s"},
			{Symbol: "t_2", Meaning: "time of the other", Unit: "s"}},
		Text: "abs(t_1 - t_2)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(a, b unit.Seconds) unit.Seconds { return unit.Seconds(math.Abs(float64(a - b))) },
})

// draining is how long a tank takes to empty.
var draining = figure.Register(&figure.F2[unit.Seconds, unit.Seconds, unit.Seconds]{
	Formula: figure.Formula{ID: "clock.draining", Name: "draining takes", Result: "d", Unit: "s",
		Terms: []figure.Term{{Symbol: "d_0", Meaning: "draining a small tank", Unit: "s"},
			{Symbol: "p", Meaning: "pouring into this tank", Unit: "s"}},
		Text: "max(d_0, p)", Valid: "a tank empties no faster than it fills", Source: "common practice, no source",
		Origin: figure.Default},
	Go: func(d, p unit.Seconds) unit.Seconds { return max(d, p) },
})

// drainAt is when draining begins.
var drainAt = figure.Register(&figure.F3[unit.Seconds, unit.Seconds, unit.Seconds, unit.Seconds]{
	Formula: figure.Formula{ID: "clock.drain", Name: "draining begins", Result: "t_d", Unit: "s",
		Terms: []figure.Term{{Symbol: "t_0", Meaning: "clock when the step began", Unit: "s"},
			{Symbol: "t", Meaning: "time of the step", Unit: "s"}, {Symbol: "d", Meaning: "draining", Unit: "s"}},
		Text: "t_0 + t - d", Valid: "the clock starts with the pour-in; the next bath goes in at the end",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(t0, t, d unit.Seconds) unit.Seconds { return t0 + t - d },
})

// clockAfter is the clock when the next step begins.
var clockAfter = figure.Register(&figure.F2[unit.Seconds, unit.Seconds, unit.Seconds]{
	Formula: figure.Formula{ID: "clock", Name: "clock", Result: "t", Unit: "s",
		Terms: []figure.Term{{Symbol: "t_0", Meaning: "clock when the step before began", Unit: "s"},
			{Symbol: "t_1", Meaning: "its time", Unit: "s"}},
		Text: "t_0 + t_1", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(t0, t unit.Seconds) unit.Seconds { return t0 + t },
})

// turnsInAll counts every turn of a step.
var turnsInAll = figure.Register(&figure.F3[unit.Factor, unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "agitate.turns", Name: "turns in all", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "n_0", Meaning: "turns at first"}, {Symbol: "m", Meaning: "turns each time"},
			{Symbol: "n", Meaning: "agitations after the first"}},
		Text: "n_0 + m * n", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n0, m, n unit.Factor) unit.Factor { return n0 + unit.Factor(float64(m)*float64(n)) },
})

// fixing is E8: the fixing time from the clearing time.
var fixing = figure.Register(&figure.F2[unit.Seconds, unit.Factor, unit.Seconds]{
	Formula: figure.Formula{ID: "fix.time", Name: "fixing time by clearing", Result: "t_fix", Unit: "s",
		Terms: []figure.Term{{Symbol: "k", Meaning: "times the clearing time"},
			{Symbol: "t_clear", Meaning: "clearing time of this film in this bath", Unit: "s"}},
		Text: "k * t_clear", Valid: "the film itself, at the bath's temperature",
		Source: "handbook tradition, from memory", Origin: figure.Memory},
	Go: func(k unit.Factor, t unit.Seconds) unit.Seconds { return unit.Seconds(k) * t },
})

// fixingUsed is E8 in a bath that clears more slowly than it did fresh.
var fixingUsed = figure.Register(&figure.F3[unit.Seconds, unit.Factor, unit.Seconds, unit.Factor]{
	Formula: figure.Formula{ID: "fix.used", Name: "fixing time by clearing, in this bath", Result: "t_fix", Unit: "s",
		Terms: []figure.Term{{Symbol: "k", Meaning: "times the clearing time"},
			{Symbol: "t_clear", Meaning: "clearing time of this film in fresh fixer", Unit: "s"},
			{Symbol: "r", Meaning: "clearing time of this bath against fresh", Unit: "× fresh"}},
		Text:   "k * t_clear * r",
		Valid:  "every film is taken to clear as much more slowly as the film of the test; test the film itself where it matters",
		Source: "handbook tradition, from memory", Origin: figure.Memory},
	Go: func(k unit.Factor, t unit.Seconds, r unit.Factor) unit.Seconds {
		return unit.Seconds(k) * t * unit.Seconds(r)
	},
})

// fixingLeast keeps the fixing time above the house's least.
var fixingLeast = figure.Register(&figure.F2[unit.Seconds, unit.Seconds, unit.Seconds]{
	Formula: figure.Formula{ID: "fix.least", Name: "fixing time", Result: "t_fix", Unit: "s",
		Terms: []figure.Term{{Symbol: "t_k", Meaning: "by clearing", Unit: "s"},
			{Symbol: "t_min", Meaning: "never less than", Unit: "s"}},
		Text: "max(t_k, t_min)", Source: "handbook tradition, from memory", Origin: figure.Memory},
	Go: func(t, least unit.Seconds) unit.Seconds { return max(t, least) },
})
