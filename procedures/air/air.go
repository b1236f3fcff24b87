// Package air works out what the oxygen over a bath in its bottle can do to it: how much of its
// sulfite the air that one opening lets in can eat, and how many openings that leaves.
package air

import (
	"fmt"
	"math"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

const balance = "stoichiometry: 2 SO3-2 + O2 -> 2 SO4-2"

// oxygen is the oxygen in the air over a bath.
var oxygen = figure.Register(&figure.F4[unit.Mass, unit.Volume, unit.Pressure, unit.Pressure, unit.Temperature]{
	Formula: figure.Formula{ID: "air.oxygen", Name: "oxygen in the air over a bath", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "V", Meaning: "air in the bottle", Unit: "ml"},
			{Symbol: "p", Meaning: "pressure of the air", Unit: "kPa"},
			{Symbol: "p_w", Meaning: "pressure of the water vapour in it", Unit: "kPa"},
			{Symbol: "T", Meaning: "temperature", Unit: "°C"}},
		Text:  "31.998 * 0.20946 * (p - p_w) * V / 1000 / (8.314462618 * (T + 273.15))",
		Valid: "an ideal gas; 0.20946 of dry air is oxygen", Source: "gas law; the share of oxygen is from memory",
		Origin: figure.Memory},
	Go: func(v unit.Volume, p, w unit.Pressure, t unit.Temperature) unit.Mass {
		return unit.Mass(31.998 * 0.20946 * float64(p-w) * float64(v) / 1000 / (8.314462618 * (float64(t) + 273.15)))
	},
})

// eats is H1: the sulfite that oxygen can eat, counted as sodium sulfite.
var eats = figure.Register(&figure.F1[unit.Mass, unit.Mass]{
	Formula: figure.Formula{ID: "air.eats", Name: "sulfite that oxygen can eat", Result: "m_s", Unit: "g",
		Terms:  []figure.Term{{Symbol: "m", Meaning: "oxygen", Unit: "g"}},
		Text:   "2 * 126.04 / 31.998 * m",
		Valid:  "counted as sodium sulfite; all of the oxygen reacts, which is the most that it can do",
		Source: balance, Origin: figure.Standard},
	Go: func(m unit.Mass) unit.Mass { return 2 * 126.04 / 31.998 * m },
})

// sulfiteOf is what one substance brings of sulfite, counted as sodium sulfite.
var sulfiteOf = figure.Register(&figure.F2[unit.Concentration, unit.Molarity, unit.Factor]{
	Formula: figure.Formula{ID: "air.sulfite", Name: "sulfite that a substance brings", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "n", Meaning: "the substance", Unit: "mol/L"},
			{Symbol: "k", Meaning: "sulfite ions of one unit of it"}},
		Text: "126.04 * k * n", Valid: "counted as sodium sulfite", Source: "balance of moles",
		Origin: figure.Standard},
	Go: func(n unit.Molarity, k unit.Factor) unit.Concentration {
		return unit.Concentration(126.04 * float64(k) * float64(n))
	},
})

// sulfiteAll is all the sulfite of a bath.
var sulfiteAll = figure.Register(&figure.FN[unit.Concentration, unit.Concentration]{
	Formula: figure.Formula{ID: "air.sulfite.all", Name: "sulfite of the bath", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "c", Meaning: "what each substance brings", Unit: "g/L"}},
		Text:  "sum(c)", Valid: "counted as sodium sulfite", Source: "mass balance", Origin: figure.Standard},
	Go: figure.Total[unit.Concentration],
})

// share is H2 for one opening: the part of the sulfite that the air of one opening can eat.
var share = figure.Register(&figure.F3[unit.Percent, unit.Mass, unit.Concentration, unit.Volume]{
	Formula: figure.Formula{ID: "air.share", Name: "sulfite that the air of one opening can eat", Result: "x",
		Unit: "%",
		Terms: []figure.Term{{Symbol: "m_s", Meaning: "sulfite that the oxygen over it can eat", Unit: "g"},
			{Symbol: "c", Meaning: "sulfite of the bath", Unit: "g/L"},
			{Symbol: "V", Meaning: "bath in the bottle", Unit: "ml"}},
		Text:  "100 * m_s / (c * V / 1000)",
		Valid: "the bottle is closed again and stands until all of the oxygen has reacted", Source: balance,
		Origin: figure.Standard},
	Go: func(m unit.Mass, c unit.Concentration, v unit.Volume) unit.Percent {
		return unit.Percent(100 * float64(m) / (float64(c) * float64(v) / 1000))
	},
})

// openings is how many openings a bath stands.
var openings = figure.Register(&figure.F2[unit.Uses, unit.Percent, unit.Percent]{
	Formula: figure.Formula{ID: "air.openings", Name: "openings until the house's share of sulfite is eaten",
		Result: "N", Unit: "uses",
		Terms: []figure.Term{{Symbol: "s", Meaning: "share of sulfite that a bath may lose here", Unit: "%"},
			{Symbol: "x", Meaning: "what one opening can eat", Unit: "%"}},
		Text:   "floor(s / x)",
		Valid:  "every opening at this level; a bath that is used up between them loses more at each",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(s, x unit.Percent) unit.Uses { return unit.Uses(math.Floor(unit.Snap(float64(s / x)))) },
})

// Level is how full a bottle is.
type Level struct {
	Word string
	// Full is the part of the bottle that the bath fills.
	Full float64
}

// Levels are those that a table shows: to the neck, where a fiftieth of the bottle is air (our own
// rule), and down to a quarter.
var Levels = []Level{{"full to the neck", 0.98}, {"three quarters full", 0.75}, {"half full", 0.5},
	{"a quarter full", 0.25}}

// Opened is what one opening does at one level.
type Opened struct {
	Level Level
	// Eats is the share of its sulfite that the air can eat, and Openings how many of them it
	// stands; nil for the full bottle, which is full no more after the first.
	Eats, Openings *figure.Record
}

// Bottle is what air does to a strength in a bottle; nil levels: it holds no sulfite, or nobody
// knows how much.
type Bottle struct {
	Sulfite *figure.Record // counted as sodium sulfite
	Opened  []Opened
	// Most is the share that the house allows.
	Most *figure.Record
}

// Half is how many openings a half full bottle stands; nil where nobody can tell.
func (b Bottle) Half() *figure.Record {
	for _, o := range b.Opened {
		if o.Level.Full == 0.5 {
			return o.Openings
		}
	}
	return nil
}

// sulfites are what oxygen eats: sulfite with no, one and two protons.
var sulfites = map[string]bool{"SO3-2": true, "HSO3-": true, "SO2": true}

// sulfiteIn is the sulfite of a strength; false where it holds none, or where something in it is
// unknown.
func sulfiteIn(m *mix.Mixer, made *mix.Made) (figure.Figure[unit.Concentration], bool) {
	var none figure.Figure[unit.Concentration]
	if len(made.Unknown) > 0 {
		return none, false
	}
	var parts []figure.Figure[unit.Concentration]
	for _, x := range m.Composition(made).Molar {
		k := lab.Count(0)
		for name, n := range x.Content.Chemical.InWater(x.Content.Form) {
			if ion, err := chem.ParseIon(name); err == nil && sulfites[ion.String()] {
				k += n
			}
		}
		if k > 0 {
			count := figure.Constant(unit.Factor(k), "sulfite ions of one unit of "+x.Content.Chemical.Name,
				"its ions", figure.Standard)
			parts = append(parts, sulfiteOf.Of(figure.ID(made.Bath.Ref(), "sulfite."+x.Content.Ref()), x.PerLitre,
				count))
		}
	}
	if len(parts) == 0 {
		return none, false
	}
	return sulfiteAll.Of(figure.ID(made.Bath.Ref(), "sulfite"), parts...).Show(figure.KindAmount, "0.1", unit.Nearest,
		""), true
}

// The air of a room.
var (
	sea = figure.Constant(unit.Pressure(101.325), "pressure of the air", "standard atmosphere", figure.Standard)
	dry = figure.Constant(unit.Pressure(0), "pressure of the water vapour in it",
		"dry air, which holds the most oxygen", figure.Standard)
	room = figure.Constant(unit.Temperature(20), "temperature of the room", "taken as 20 °C", figure.Standard)
)

// Of works out what air does to a strength in a bottle, for each level; ok is false where nobody
// can tell.
func Of(m *mix.Mixer, b lab.Bath) (out Bottle, ok bool) {
	c, ok := sulfiteIn(m, m.Made(b))
	if !ok {
		return out, false
	}
	most := m.Lab.Place.House.Filled().SulfiteEaten
	limit := most.Figure("share of sulfite that a bath may lose here")
	out.Sulfite = figure.Enter(m.Book, c)
	out.Most = figure.Declare(m.Book, figure.ID("house", "sulfite-eaten"),
		figure.KindRatio, limit, unit.Short(float64(limit.Value)), "%")
	for _, l := range Levels {
		const whole = 1000
		over := figure.Constant(unit.Volume(whole*(1-l.Full)), "air in a bottle of 1000 ml",
			l.Word+"; in a bottle of another size it is the same share", figure.Standard)
		bath := figure.Constant(unit.Volume(whole*l.Full), "bath in a bottle of 1000 ml", l.Word, figure.Standard)
		eaten, stands := opened(figure.ID(b.Ref(), "air", unit.Short(100*l.Full)), c, over, bath, limit)
		o := Opened{Level: l, Eats: figure.Enter(m.Book, eaten)}
		if len(out.Opened) > 0 {
			o.Openings = figure.Enter(m.Book, stands)
		}
		out.Opened = append(out.Opened, o)
	}
	return out, true
}

// opened is what one opening can eat, and how many of them the house's share stands.
func opened(id string, c figure.Figure[unit.Concentration], over, bath figure.Figure[unit.Volume],
	limit figure.Figure[unit.Percent]) (figure.Figure[unit.Percent], figure.Figure[unit.Uses]) {
	in := oxygen.Of(figure.Beside(id, "oxygen"), over, sea, dry, room)
	x := share.Of(id, eats.Of(figure.Beside(id, "eats"), in), c, bath)
	step := "1"
	if x.Value < 1 {
		step = "0.1"
	}
	x = x.Show(figure.KindRatio, step, unit.Up, "")
	return x, openings.Of(figure.Beside(id, "openings"), limit, x).Show(figure.KindCount, "1", unit.Down,
		"").In("openings")
}

// over is the air over a bath in its bottle.
var over = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "air.over", Name: "air in the bottle", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "H", Meaning: "what the bottle holds", Unit: "ml"},
			{Symbol: "L", Meaning: "what is left in it", Unit: "ml"}},
		Text: "H - L", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(h, l unit.Volume) unit.Volume { return h - l },
})

// after is the air in a bottle after the draws up to an opening.
var after = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "air.after", Name: "air in the bottle after an opening", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "v", Meaning: "air when it was filled, and each draw up to then", Unit: "ml"}},
		Text:  "sum(v)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: figure.Total[unit.Volume],
})

// eaten is H2 for all openings of a log.
var eaten = figure.Register(&figure.FN[unit.Percent, unit.Percent]{
	Formula: figure.Formula{ID: "air.eaten", Name: "sulfite that the air can have eaten", Result: "e", Unit: "%",
		Terms:  []figure.Term{{Symbol: "x", Meaning: "what each opening of the log can eat", Unit: "%"}},
		Text:   "sum(x)",
		Valid:  "after each opening the bottle stood until all of the oxygen had reacted: the most that it can be",
		Source: balance, Origin: figure.Standard},
	Go: figure.Total[unit.Percent],
})

// openingsLeft is how many more openings a bottle stands.
var openingsLeft = figure.Register(&figure.F3[unit.Uses, unit.Percent, unit.Percent, unit.Percent]{
	Formula: figure.Formula{ID: "air.left", Name: "more openings until the house's share of sulfite is eaten",
		Result: "N", Unit: "uses",
		Terms: []figure.Term{{Symbol: "s", Meaning: "share of sulfite that a bath may lose here", Unit: "%"},
			{Symbol: "e", Meaning: "what the openings of the log can have eaten", Unit: "%"},
			{Symbol: "x", Meaning: "what one more can eat", Unit: "%"}},
		Text:   "max(0, floor((s - e) / x))",
		Valid:  "at the level of now; a bath that is used up between them loses more at each",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(s, e, x unit.Percent) unit.Uses {
		return max(0, unit.Uses(math.Floor(unit.Snap(float64((s-e)/x)))))
	},
})

// Log is what was done to a bottle: what it was filled with, and for each opening what was drawn
// from it up to then.
type Log struct {
	Filled figure.Figure[unit.Volume]
	Drawn  [][]figure.Figure[unit.Volume]
}

// Rest is what air can still do to a bottle on the shelf.
type Rest struct {
	// Eats is what one more opening can eat at the level of now, Eaten what those of the log can
	// have eaten, and Openings how many more it stands. None: there are no more.
	Eats, Eaten, Openings *figure.Record
	None                  bool
}

// Now is what air can still do to a bottle, by its log; ok is false where nobody can tell, or where
// it is full.
func Now(m *mix.Mixer, b lab.Bath, bottle string, holds, left *figure.Record, log Log) (out Rest, ok bool) {
	if holds == nil || left == nil || left.Refused() || !(left.Value > 0 && left.Value < holds.Value) {
		return Rest{}, false
	}
	c, ok := sulfiteIn(m, m.Made(b))
	if !ok {
		return Rest{}, false
	}
	limit := m.Lab.Place.House.Filled().SulfiteEaten.Figure("share of sulfite that a bath may lose here")
	id := figure.ID(bottle, "air")
	inside, whole := figure.Entered[unit.Volume](left).Best(), figure.Entered[unit.Volume](holds).Best()
	x, _ := opened(id, c, over.Of(figure.Beside(id, "over"), whole, inside), inside, limit)
	neck := over.Of(figure.Beside(id, "neck"), whole, log.Filled)
	var all []figure.Figure[unit.Percent]
	for i, drawn := range log.Drawn {
		at := figure.Beside(id, fmt.Sprintf("opening.%d", i+1))
		space := after.Of(figure.Beside(at, "over"), append([]figure.Figure[unit.Volume]{neck}, drawn...)...)
		bath := over.Of(figure.Beside(at, "bath"), whole, space).Named("bath in the bottle")
		if space.Value <= 0 || bath.Value <= 0 {
			continue
		}
		one, _ := opened(at, c, space, bath, limit)
		all = append(all, one)
	}
	gone := eaten.Of(figure.Beside(id, "eaten"), all...).Show(figure.KindRatio, "0.1", unit.Up, "")
	n := openingsLeft.Of(figure.Beside(id, "openings"), limit, gone, x).Show(figure.KindCount, "1", unit.Down,
		"").In("openings")
	return Rest{Eats: figure.Enter(m.Book, x), Eaten: figure.Enter(m.Book, gone), Openings: figure.Enter(m.Book, n),
		None: n.Value < 1}, true
}
