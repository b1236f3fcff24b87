// Package shelf judges the batches that stand on the shelf: what is left of
// each, until when it is good and which of its lives says so, whether it is
// spent.
package shelf

import (
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// ends is one date of H3: the end of one of the lives.
var ends = figure.Register(&figure.F2[unit.Days, unit.Days, unit.Days]{
	Formula: figure.Formula{ID: "shelf.ends", Name: "end of a life", Result: "D", Unit: "days",
		Terms: []figure.Term{{Symbol: "t", Meaning: "day it began", Unit: "days"},
			{Symbol: "L", Meaning: "life from that day", Unit: "days"}},
		Text:   "t + L",
		Valid:  "a calendar month ends at the latest on the last day of its month; hours end the same evening",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(t, l unit.Days) unit.Days { return t + l },
})

// earliest is H3.
var earliest = figure.Register(&figure.FN[unit.Days, unit.Days]{
	Formula: figure.Formula{ID: "shelf.dies", Name: "discard by", Result: "D", Unit: "days",
		Terms: []figure.Term{{Symbol: "t", Meaning: "end of each life that runs", Unit: "days"}},
		Text:  "min(t)", Valid: "the first life to end, whichever began it", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(x []unit.Days) unit.Days {
		least := x[0]
		for _, d := range x {
			least = min(least, d)
		}
		return least
	},
})

// daysLeft counts from the binder's day.
var daysLeft = figure.Register(&figure.F2[unit.Days, unit.Days, unit.Days]{
	Formula: figure.Formula{ID: "shelf.days", Name: "days left", Result: "n", Unit: "days",
		Terms: []figure.Term{{Symbol: "D", Meaning: "discard by", Unit: "days"},
			{Symbol: "t", Meaning: "today", Unit: "days"}},
		Text: "D - t", Valid: "good on the day itself", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(d, t unit.Days) unit.Days { return d - t },
})

// drawn adds the draws of a log.
var drawn = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "shelf.drawn", Name: "drawn in all", Result: "V_d", Unit: "ml",
		Terms: []figure.Term{{Symbol: "v", Meaning: "each draw", Unit: "ml"}},
		Text:  "sum(v)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: figure.Total[unit.Volume],
})

// rest is what is left.
var rest = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "shelf.left", Name: "left", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V_0", Meaning: "filled in", Unit: "ml"},
			{Symbol: "V_d", Meaning: "drawn in all", Unit: "ml"}},
		Text: "V_0 - V_d", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(v, d unit.Volume) unit.Volume { return v - d },
})

// fullness is how full the bottle is.
var fullness = figure.Register(&figure.F2[unit.Percent, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "shelf.full", Name: "how full the bottle is", Result: "p", Unit: "%",
		Terms: []figure.Term{{Symbol: "V", Meaning: "left", Unit: "ml"},
			{Symbol: "V_b", Meaning: "the bottle holds", Unit: "ml"}},
		Text: "V / V_b * 100", Valid: "below half another life runs", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(v, b unit.Volume) unit.Percent { return unit.Percent(v / b * 100) },
})

// stand adds what is left in the batches of a bath that may be used.
var stand = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "shelf.stands", Name: "stands here", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "v", Meaning: "what is left in each batch that may be used", Unit: "ml"}},
		Text:  "sum(v)", Valid: "batches that are good on the day, those that end soon too", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: figure.Total[unit.Volume],
})

// wantedTogether adds what several steps want of one bath.
var wantedTogether = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "shelf.wanted", Name: "wanted in all", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "v", Meaning: "what each wants", Unit: "ml"}},
		Text:  "sum(v)", Valid: "each takes its own: nothing is poured back in between", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: figure.Total[unit.Volume],
})

// wantedPart is what is wanted of a bath that goes into another.
var wantedPart = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Factor]{
	Formula: figure.Formula{ID: "shelf.part", Name: "wanted of it", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "what is wanted of the mixed bath", Unit: "ml"},
			{Symbol: "s", Meaning: "its share"}},
		Text: "V * s", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(v unit.Volume, s unit.Factor) unit.Volume { return v * unit.Volume(s) },
})
