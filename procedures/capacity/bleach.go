package capacity

import (
	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

var (
	// silverCoated is all the silver of pieces.
	silverCoated = figure.Register(&figure.F3[unit.Mass, unit.Factor, unit.Area, unit.MassPerArea]{
		Formula: figure.Formula{ID: "silver.coated", Name: "silver coated on them", Result: "m_Ag", Unit: "g",
			Terms: []figure.Term{{Symbol: "n", Meaning: "pieces in one run"},
				{Symbol: "A", Meaning: "area of one", Unit: "cm²"},
				{Symbol: "s", Meaning: "silver coated", Unit: "g/m²"}},
			Text: "n * A / 10000 * s", Source: "mass balance", Origin: figure.Standard},
		Go: func(n unit.Factor, a unit.Area, s unit.MassPerArea) unit.Mass {
			return unit.Mass(float64(n) * float64(a) / 10000 * float64(s))
		},
	})
	// permanganateFor is G1.
	permanganateFor = figure.Register(&figure.F2[unit.Mass, unit.Mass, unit.Molar]{
		Formula: figure.Formula{ID: "bleach.needs", Name: "permanganate that the silver takes", Result: "m", Unit: "g",
			Terms: []figure.Term{{Symbol: "m_Ag", Meaning: "silver", Unit: "g"},
				{Symbol: "M", Meaning: "molar mass of the permanganate", Unit: "g/mol"}},
			Text:   "m_Ag * M / (5 * 107.868)",
			Valid:  "all of the silver was developed, which is the most that it can be; gelatin and developer take more",
			Source: "stoichiometry: 5 Ag + MnO4- + 8 H+", Origin: figure.Standard},
		Go: func(ag unit.Mass, m unit.Molar) unit.Mass { return unit.Mass(float64(ag) * float64(m) / (5 * 107.868)) },
	})
	// permanganateIn is what is in the bath, and bleachTimes is G2.
	permanganateIn = figure.Register(&figure.F2[unit.Mass, unit.Volume, unit.Concentration]{
		Formula: figure.Formula{ID: "bleach.holds", Name: "permanganate in the bath", Result: "m_b", Unit: "g",
			Terms: []figure.Term{{Symbol: "V", Meaning: "volume of the bath", Unit: "ml"},
				{Symbol: "c", Meaning: "permanganate in it", Unit: "g/L"}},
			Text: "V * c / 1000", Source: "mass balance", Origin: figure.Standard},
		Go: func(v unit.Volume, c unit.Concentration) unit.Mass { return unit.Mass(float64(v) * float64(c) / 1000) },
	})
	bleachTimes = figure.Register(&figure.F2[unit.Factor, unit.Mass, unit.Mass]{
		Formula: figure.Formula{ID: "bleach.times", Name: "how many times enough the bleach is", Result: "x", Unit: "x",
			Terms: []figure.Term{{Symbol: "m_b", Meaning: "permanganate in the bath", Unit: "g"},
				{Symbol: "m", Meaning: "permanganate that the silver takes", Unit: "g"}},
			Text: "m_b / m", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(b, m unit.Mass) unit.Factor { return unit.Factor(b / m) },
	})
)

// leastTimes is how many times enough a bleach is to be: gelatin and developer take a part of it
// (common practice, no source).
const leastTimes = 5

// Bleaching is whether what fills a tank is enough for the silver of the films in it.
type Bleaching struct {
	Vessel Vessel
	Format Format
	// Holds is the permanganate in the tank, Needs what the silver takes at most, and Times how many
	// times enough it is. Few: it is less than is wanted.
	Holds, Needs, Times *figure.Record
	Few                 bool
}

// Bleach works out G1 and G2 for a permanganate bleach in a tank that is full of one format; ok is false
// where nobody has written the silver.
func Bleach(m *mix.Mixer, c mix.Content, molar figure.Figure[unit.Molar], v Vessel, f Format,
	id string) (out Bleaching, ok bool) {
	area, known := f.Area()
	if !known || !f.Material.Silver.Coated.Given() {
		return out, false
	}
	gram := func(x figure.Figure[unit.Mass]) *figure.Record {
		return figure.Enter(m.Book, x.Show(figure.KindAmount, "0.01", unit.Nearest, ""))
	}
	silver := silverCoated.Of(figure.Beside(id, "silver"), v.Takes.Figure("films in it"), area,
		f.Material.Silver.Coated.Figure("silver coated"))
	needs := permanganateFor.Of(figure.Beside(id, "needs"), silver, molar)
	holds := permanganateIn.Of(figure.Beside(id, "holds"), v.Fill.Figure("what fills the "+v.Name), c.Conc)
	times := bleachTimes.Of(id, holds, needs)
	out = Bleaching{Vessel: v, Format: f, Holds: gram(holds), Needs: gram(needs),
		Few: unit.Snap(float64(times.Value)) < leastTimes}
	out.Times = figure.Enter(m.Book, times.Show(figure.KindCount, "1", unit.Down, ""))
	return out, true
}
