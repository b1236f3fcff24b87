package waste

import (
	"math"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Subject is a drum in the ids of its answers.
func Subject(drum string) string { return "drum." + drum }

// firstFills is one term of M7: the water of the first fills of a wash.
var firstFills = figure.Register(&figure.F4[unit.Volume, unit.Factor, unit.Factor, unit.Volume, unit.Factor]{
	Formula: figure.Formula{ID: "drum.fills", Name: "water of the first fills", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "n", Meaning: "films in a month"},
			{Symbol: "k", Meaning: "fills that are collected"},
			{Symbol: "F", Meaning: "what fills the tank", Unit: "ml"}, {Symbol: "N", Meaning: "films in it"}},
		Text: "n * k * F / N", Valid: "tanks fully loaded; a tank with one film in it takes as much water",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n, k unit.Factor, f unit.Volume, reels unit.Factor) unit.Volume {
		return unit.Volume(n*k/reels) * f
	},
})

// poured adds what goes into a drum in a month.
var poured = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "drum.month", Name: "poured into the drum in a month", Result: "V_m", Unit: "ml",
		Terms: []figure.Term{{Symbol: "v", Meaning: "what each brings", Unit: "ml"}},
		Text:  "sum(v)", Source: "the lab's own count", Origin: figure.Standard},
	Go: figure.Total[unit.Volume],
})

// silverPoured is J7.
var silverPoured = figure.Register(&figure.FN[unit.Mass, unit.Mass]{
	Formula: figure.Formula{ID: "drum.silver", Name: "silver that goes into the drum in a month", Result: "m",
		Unit:   "g",
		Terms:  []figure.Term{{Symbol: "m", Meaning: "silver that each bath takes from film and paper", Unit: "g"}},
		Text:   "sum(m)",
		Valid:  "all that the fixer takes out comes into the drum: with the fixer, or with what it is carried into",
		Source: "mass balance", Origin: figure.Standard},
	Go: figure.Total[unit.Mass],
})

// heldSilver is the content of what is poured.
var heldSilver = figure.Register(&figure.F2[unit.Concentration, unit.Mass, unit.Volume]{
	Formula: figure.Formula{ID: "drum.content", Name: "silver in what is poured", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "m", Meaning: "silver", Unit: "g"},
			{Symbol: "V", Meaning: "volume", Unit: "ml"}},
		Text: "m / V * 1000", Source: "mass balance", Origin: figure.Standard},
	Go: func(m unit.Mass, v unit.Volume) unit.Concentration {
		return unit.Concentration(float64(m) / float64(v) * 1000)
	},
})

// fullIn is J12.
var fullIn = figure.Register(&figure.F4[unit.Days, unit.Factor, unit.Volume, unit.Volume, unit.Factor]{
	Formula: figure.Formula{ID: "drum.days", Name: "days until the drum is full", Result: "d", Unit: "days",
		Terms: []figure.Term{{Symbol: "V_f", Meaning: "it is full at", Unit: "L"},
			{Symbol: "V_n", Meaning: "in it now", Unit: "ml"},
			{Symbol: "V_m", Meaning: "poured into it in a month", Unit: "ml"},
			{Symbol: "d_m", Meaning: "days in a month"}},
		Text:  "max(0, (1000 * V_f - V_n) / V_m * d_m)",
		Valid: "every month like the one that is written under [use]", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(full unit.Factor, now, month unit.Volume, days unit.Factor) unit.Days {
		return max(0, unit.Days((1000*float64(full)-float64(now))/float64(month)*float64(days)))
	},
})

// fullBy is the day on which a drum is full.
var fullBy = figure.Register(&figure.F2[unit.Days, unit.Days, unit.Days]{
	Formula: figure.Formula{ID: "drum.by", Name: "the drum is full by", Result: "D", Unit: "days",
		Terms: []figure.Term{{Symbol: "t", Meaning: "day on which somebody looked", Unit: "days"},
			{Symbol: "d", Meaning: "days until it is full", Unit: "days"}},
		Text: "t + floor(d)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(t, d unit.Days) unit.Days { return t + unit.Days(math.Floor(unit.Snap(float64(d)))) },
})

// Stream is one thing that goes into a drum in a month: a bath, or the first water of a wash.
type Stream struct {
	// Key names it in ids: a strength, or a process and its step.
	Key    string
	Volume figure.Figure[unit.Volume]
	// Silver is what each entry of the month's work leaves in it; none: it takes no silver from film
	// or paper itself.
	Silver []figure.Figure[unit.Mass]
}

// Brought is a stream as it is printed; Silver and Content are nil where it takes no silver itself.
type Brought struct{ Litres, Silver, Content *figure.Record }

// Load is what a month brings into a drum.
type Load struct {
	Streams []Brought // in the order in which they were given
	Brought           // all of them together
	// Days is how long it takes from what is in it until it is full; nil where nobody has written
	// what it holds.
	Days *figure.Record
	// Now is what was in it when somebody looked, On the day, and By the day on which it is full;
	// nil where nobody has written them. Without Now the days are those of an empty drum.
	Now, On, By *figure.Record
}

// LoadOf works out what streams bring into a drum in a month, and when that fills it (J7, J12);
// days is how many a month has, and line where the drum counts as full. There is at least one
// stream.
func LoadOf(m *mix.Mixer, id string, d lab.Drum, line *figure.Record, streams []Stream,
	days figure.Figure[unit.Factor]) Load {
	subject := Subject(id)
	litres := func(f figure.Figure[unit.Volume]) *figure.Record {
		return figure.Enter(m.Book, f.ShowAs(figure.KindAmount, unit.Round(float64(f.Value)/1000, 0.1, unit.Up),
			unit.NewDecimal(1, 1), unit.Up, "").Counted("L", 0.001))
	}
	grams := func(f figure.Figure[unit.Mass]) *figure.Record {
		return figure.Enter(m.Book, f.ShowSpan(figure.KindAmount, "0.1", unit.Nearest))
	}
	content := func(id string, f figure.Figure[unit.Mass], v figure.Figure[unit.Volume]) *figure.Record {
		// More silver on the film spends the bath sooner: the two bounds belong together, and those
		// of the volume are left out.
		c, step := heldSilver.Of(id, f, v.Best()), "0.1"
		if c.Value < 1 {
			step = "0.01"
		}
		return figure.Enter(m.Book, c.ShowSpan(figure.KindAmount, step, unit.Nearest))
	}
	var out Load
	var volumes []figure.Figure[unit.Volume]
	var silver []figure.Figure[unit.Mass]
	for _, s := range streams {
		b := Brought{Litres: litres(s.Volume)}
		volumes = append(volumes, s.Volume)
		if len(s.Silver) > 0 {
			sum := silverPoured.Of(figure.ID(subject, "silver", s.Key),
				s.Silver...).Named("silver that it takes from film and paper in a month")
			silver = append(silver, sum)
			b.Silver, b.Content = grams(sum), content(figure.ID(subject, "content", s.Key), sum, s.Volume)
		}
		out.Streams = append(out.Streams, b)
	}
	month := poured.Of(figure.ID(subject, "month"), volumes...)
	out.Litres = litres(month)
	if len(silver) > 0 {
		sum := silverPoured.Of(figure.ID(subject, "silver"), silver...)
		out.Silver, out.Content = grams(sum), content(figure.ID(subject, "content"), sum, month)
	}
	if !d.Holds.Positive() {
		return out
	}
	now := figure.Constant(unit.Volume(0), "in it now", "an empty drum", figure.Standard)
	if d.Level.Given() {
		now = d.Level.Figure("in it when somebody looked")
		out.Now = m.VolumeFigure(figure.ID(subject, "level"), d.Level.Quantity, d.Level.Where(), d.Level.By(),
			"in it when somebody looked")
	}
	left := fullIn.Of(figure.ID(subject, "days"), figure.Entered[unit.Factor](line), now, month.Best(), days)
	out.Days = figure.Enter(m.Book, left.Show(figure.KindCount, "1", unit.Down, "").In("days"))
	if d.LevelOn.Given() {
		on := d.LevelOn.Figure("day on which somebody looked")
		out.On = figure.DeclareDate(m.Book, figure.ID(subject, "level-on"), on)
		out.By = figure.Enter(m.Book, figure.ShowDate(fullBy.Of(figure.ID(subject, "full-by"), on, left)))
	}
	return out
}

// FirstFills is the water of the first fills of a wash that is collected, for one entry of a month's
// work in one tank.
func FirstFills(id string, films, fills figure.Figure[unit.Factor], fill figure.Figure[unit.Volume],
	reels figure.Figure[unit.Factor]) figure.Figure[unit.Volume] {
	return firstFills.Of(id, films, fills, fill, reels)
}

// Poured adds volumes that are poured in a month.
func Poured(id string, parts ...figure.Figure[unit.Volume]) figure.Figure[unit.Volume] {
	return poured.Of(id, parts...)
}
