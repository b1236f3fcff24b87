package mix

import (
	"fmt"
	"sort"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// load is B12: what a hundred grams of the water in a solution hold of one of
// its substances.
var load = figure.Register(&figure.F3[unit.Solubility, unit.Concentration, unit.Density, unit.Concentration]{
	Formula: figure.Formula{ID: "cold.load", Name: "dissolved in a hundred grams of its water", Result: "L",
		Unit: "g/100 g",
		Terms: []figure.Term{{Symbol: "m", Meaning: "content of the substance", Unit: "g/L"},
			{Symbol: "rho", Meaning: "density of the solution", Unit: "g/ml"},
			{Symbol: "S", Meaning: "content of all that is dissolved", Unit: "g/L"}},
		Text:  "100 * m / (1000 * rho - S)",
		Valid: "the same hydrate as in the table; other salts make it less soluble still", Source: balance,
		Origin: figure.Standard},
	Go: func(m unit.Concentration, rho unit.Density, all unit.Concentration) unit.Solubility {
		return unit.Solubility(100 * float64(m) / (1000*float64(rho) - float64(all)))
	},
})

// dissolved adds all that is dissolved.
var dissolved = figure.Register(&figure.FN[unit.Concentration, unit.Concentration]{
	Formula: figure.Formula{ID: "cold.all", Name: "all that is dissolved", Result: "S", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "m", Meaning: "content of each", Unit: "g/L"}},
		Text:  "sum(m)", Source: balance, Origin: figure.Standard},
	Go: figure.Total[unit.Concentration],
})

// clearAbove is the temperature at which nine tenths of the solubility are
// reached, between two measured points.
var clearAbove = figure.Register(&figure.F5[unit.Temperature, unit.Solubility, unit.Temperature, unit.Solubility,
	unit.Temperature, unit.Solubility]{
	Formula: figure.Formula{ID: "cold.above", Name: "stays clear above", Result: "T", Unit: "°C",
		Terms: []figure.Term{{Symbol: "L", Meaning: "dissolved in a hundred grams of its water", Unit: "g/100 g"},
			{Symbol: "T_1", Meaning: "colder point of the table", Unit: "°C"},
			{Symbol: "S_1", Meaning: "solubility there", Unit: "g/100 g"},
			{Symbol: "T_2", Meaning: "warmer point of the table", Unit: "°C"},
			{Symbol: "S_2", Meaning: "solubility there", Unit: "g/100 g"}},
		Text:   "T_1 + (L / 0.9 - S_1) * (T_2 - T_1) / (S_2 - S_1)",
		Valid:  "nine tenths of the solubility; a straight line between two points of the table",
		Source: "common practice, no source", Origin: figure.Default},
	Go: func(l unit.Solubility, t1 unit.Temperature, s1 unit.Solubility, t2 unit.Temperature,
		s2 unit.Solubility) unit.Temperature {
		return t1 + unit.Temperature(float64(l)/0.9-float64(s1))*(t2-t1)/unit.Temperature(s2-s1)
	},
})

// Cold is a substance that may come out of a solution on a cold shelf.
type Cold struct {
	Content Content
	// Above is the temperature above which it stays dissolved; nil where even the
	// warmest point of the table is not enough.
	Above *figure.Record
	// Crystals: the coldest shelf of the house is below that temperature.
	Crystals bool
	Verdict  string
}

// point is one measured solubility.
type point struct {
	at unit.Quantity[unit.Temperature] // the key
	s  lab.Said[unit.Solubility]
}

func points(c Content) []point {
	var out []point
	for key, s := range c.Chemical.Forms[c.Form].Dissolves {
		var at unit.Quantity[unit.Temperature]
		if at.UnmarshalText([]byte(key)) == nil && s.Positive() {
			out = append(out, point{at, s})
		}
	}
	sort.Slice(out, func(i, j int) bool { return out[i].at.Value() < out[j].at.Value() })
	return out
}

// ColdShelf finds what may crystallise in a made-up solution (B12). A substance
// whose solubility nobody has written, at two temperatures at least, is left out.
func (m *Mixer) ColdShelf(made *Made) []Cold {
	shelf := m.Lab.Place.House.ColdestShelf
	if _, _, diluted := made.Bath.From(); diluted { // what is diluted stands in the warm
		return nil
	}
	if made.Bath.Product != nil { // its supplier knows what else keeps it clear
		return nil
	}
	if !shelf.Given() || len(made.Contents) == 0 {
		return nil
	}
	ref := made.Bath.Ref()
	var all []figure.Figure[unit.Concentration]
	for _, c := range made.Contents {
		all = append(all, c.Conc)
	}
	sum := dissolved.Of(figure.ID(ref, "dissolved"), all...)
	if float64(sum.High) >= 1000*float64(made.Density.Low) {
		return nil
	}
	var out []Cold
	for _, c := range made.Contents {
		table := points(c)
		if len(table) < 2 {
			continue
		}
		l := load.Of(figure.ID(ref, "cold."+c.Chemical.ID), c.Conc, made.Density, sum).
			Named("dissolved in a hundred grams of its water, "+c.Chemical.Name).
			Show(figure.KindAmount, "0.1", unit.Up, "")
		cold := Cold{Content: c}
		wanted := float64(l.High) / 0.9 // the strongest that it may be
		at := table[0].at
		answer := "clear down to " + unit.Spoken(at)
		switch upper := sort.Search(len(table), func(i int) bool { return float64(table[i].s.Value()) >= wanted }); {
		case upper == len(table):
			cold.Crystals = true
			answer = "not clear even at " + unit.Spoken(table[len(table)-1].at)
		case upper > 0:
			a, b := table[upper-1], table[upper]
			t := clearAbove.Of(figure.ID(ref, "clear-above."+c.Chemical.ID), l, a.temperature(), a.solubility(),
				b.temperature(),
				b.solubility()).
				Named("stays clear above")
			t = t.ShowAs(figure.KindTemperature, unit.Round(float64(t.High), 1, unit.Up), unit.NewDecimal(1, 0),
				unit.Up, "thermometer")
			cold.Crystals = t.High > shelf.Value()
			if cold.Crystals {
				cold.Above = figure.Enter(m.Book, t)
				answer = "crystals of " + c.Chemical.Name + " below " + t.Record().Shown + " °C"
			} else {
				answer = "clear on the coldest shelf, " + unit.Spoken(shelf)
			}
		}
		figure.Enter(m.Book, l)
		cold.Verdict = m.Book.EnterVerdict(figure.Verdict{ID: figure.ID(ref, "cold-shelf."+c.Chemical.ID),
			Answer: answer,
			Limits: []string{fmt.Sprintf("dissolved: %s g in 100 g of its water", l.Record().Shown),
				"coldest shelf: " + unit.Spoken(shelf)},
			Because: []string{"nine tenths of the solubility, other salts make it less"},
			Source:  "solubility as written for the substance; common practice, no source"})
		out = append(out, cold)
	}
	return out
}

// temperature is at which it was measured: the key itself.
func (p point) temperature() figure.Figure[unit.Temperature] {
	return figure.Given(p.at, p.s.Where(), p.s.By(), "point of the table")
}

func (p point) solubility() figure.Figure[unit.Solubility] {
	return p.s.Figure("solubility at " + p.at.Text())
}
