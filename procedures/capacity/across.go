package capacity

import (
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

var (
	// tankCarried is what a drained tank carries into its next bath.
	tankCarried = figure.Register(&figure.F3[unit.Volume, unit.Factor, unit.Rolls, unit.VolumePerRoll]{
		Formula: figure.Formula{ID: "carry.tank", Name: "carried along by all that is in the tank", Result: "v",
			Unit: "ml",
			Terms: []figure.Term{{Symbol: "n", Meaning: "pieces in the tank"},
				{Symbol: "q", Meaning: "equivalents of one", Unit: "rolls"},
				{Symbol: "u", Meaning: "carried over by one roll", Unit: "ml/roll"}},
			Text: "n * q * u", Valid: "the tank was drained", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n unit.Factor, q unit.Rolls, u unit.VolumePerRoll) unit.Volume {
			return unit.Volume(float64(n) * float64(q) * float64(u))
		},
	})
	// cyanideFrom is M9.
	cyanideFrom = figure.Register(&figure.F4[unit.Mass, unit.Volume, unit.Concentration, unit.Factor, unit.Molar]{
		Formula: figure.Formula{ID: "carry.cyanide", Name: "hydrogen cyanide at most", Result: "m", Unit: "g",
			Terms: []figure.Term{{Symbol: "v", Meaning: "carried over", Unit: "ml"},
				{Symbol: "c", Meaning: "thiocyanate in what is carried over", Unit: "g/L"},
				{Symbol: "k", Meaning: "thiocyanate ions of one unit of it"},
				{Symbol: "M", Meaning: "molar mass of the thiocyanate", Unit: "g/mol"}},
			Text:   "v / 1000 * c * k * 27.026 / M",
			Valid:  "the worst case: every thiocyanate ion becomes hydrogen cyanide, and all of it leaves the bath",
			Source: "stoichiometry: one hydrogen cyanide for one thiocyanate; atomic weights IUPAC/CIAAW 2021",
			Origin: figure.Standard},
		Go: func(v unit.Volume, c unit.Concentration, k unit.Factor, m unit.Molar) unit.Mass {
			return unit.Mass(float64(v) / 1000 * float64(c) * float64(k) * 27.026 / float64(m))
		},
	})
	// stainNeeds is G6 as it was corrected.
	stainNeeds = figure.Register(&figure.F3[unit.Mass, unit.Mass, unit.Factor, unit.Molar]{
		Formula: figure.Formula{ID: "stain.needs", Name: "metabisulfite that the carried permanganate takes",
			Result: "m_s", Unit: "g",
			Terms: []figure.Term{{Symbol: "m", Meaning: "permanganate carried over", Unit: "g"},
				{Symbol: "k", Meaning: "permanganate ions of one unit of it"},
				{Symbol: "M", Meaning: "molar mass of the permanganate", Unit: "g/mol"}},
			Text:   "1.25 * m * k * 190.095 / M",
			Valid:  "the worst case: nothing was washed out, and none of it has become manganese dioxide, which takes less",
			Source: "stoichiometry: 2 MnO4- + 5 SO3-2 + 6 H+; one metabisulfite is two sulfites", Origin: figure.Standard},
		Go: func(m unit.Mass, k unit.Factor, molar unit.Molar) unit.Mass {
			return unit.Mass(1.25 * float64(m) * float64(k) * 190.095 / float64(molar))
		},
	})
	// stainHolds counts what a clearing bath holds of sulfite as metabisulfite.
	stainHolds = figure.Register(&figure.F4[unit.Mass, unit.Volume, unit.Concentration, unit.Factor, unit.Molar]{
		Formula: figure.Formula{ID: "stain.holds", Name: "sulfite in the clearing bath, counted as metabisulfite",
			Result: "m_b", Unit: "g",
			Terms: []figure.Term{{Symbol: "V", Meaning: "volume of the bath", Unit: "ml"},
				{Symbol: "c", Meaning: "its salt in the bath", Unit: "g/L"},
				{Symbol: "k", Meaning: "sulfites of one unit of the salt"},
				{Symbol: "M", Meaning: "molar mass of the salt", Unit: "g/mol"}},
			Text: "V / 1000 * c * k / M * 190.095 / 2", Source: "balance of moles", Origin: figure.Standard},
		Go: func(v unit.Volume, c unit.Concentration, k unit.Factor, m unit.Molar) unit.Mass {
			return unit.Mass(float64(v) / 1000 * float64(c) * float64(k) / float64(m) * 190.095 / 2)
		},
	})
	// carrySum adds what several salts bring.
	carrySum = figure.Register(&figure.FN[unit.Mass, unit.Mass]{
		Formula: figure.Formula{ID: "carry.sum", Name: "of all salts together", Result: "m", Unit: "g",
			Terms: []figure.Term{{Symbol: "m_i", Meaning: "what each salt brings", Unit: "g"}},
			Text:  "sum(m_i)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: figure.Total[unit.Mass],
	})
	// stainTimes compares the two.
	stainTimes = figure.Register(&figure.F2[unit.Factor, unit.Mass, unit.Mass]{
		Formula: figure.Formula{ID: "stain.times", Name: "how many times enough the clearing bath is", Result: "x",
			Unit: "x",
			Terms: []figure.Term{{Symbol: "m_b", Meaning: "sulfite in the bath, as metabisulfite", Unit: "g"},
				{Symbol: "m_s", Meaning: "metabisulfite that is taken", Unit: "g"}},
			Text: "m_b / m_s", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(b, s unit.Mass) unit.Factor { return unit.Factor(b / s) },
	})
)

// TankLoad is a tank full of one format, and what all of it carries from bath to bath.
type TankLoad struct {
	Vessel  Vessel
	Format  Format
	carried figure.Figure[unit.Volume]
}

// LoadOf is a tank full of one format; ok is false where nobody knows what the format counts as. Where
// what a roll carries over is a range, its upper end counts.
func LoadOf(m *mix.Mixer, v Vessel, f Format) (out TankLoad, ok bool) {
	q, known := f.Rolls()
	if !known || v.Tray || v.Takes.N < 1 {
		return out, false
	}
	u := m.Lab.Place.House.Filled().FilmCarry.Figure("carried over by one roll")
	return TankLoad{v, f, tankCarried.Of(figure.ID(f.Ref(), "carry", v.tank()), v.Takes.Figure("pieces in the tank"), q,
		u.WithValue(u.High))}, true
}

// tank is the tank of a vessel without what is loaded in it.
func (v Vessel) tank() string {
	id, _, _ := strings.Cut(v.Key, ",")
	return id
}

// Salt is a salt of which one ion is asked for.
type Salt struct {
	Content figure.Figure[unit.Concentration]
	// Of is how many of the ions one unit of it holds, and Molar its molar mass.
	Of    figure.Figure[unit.Factor]
	Molar figure.Figure[unit.Molar]
}

// Cyanide is the hydrogen cyanide that a full tank can give at most that goes from a bath with thiocyanate into
// an acid one after some fills of water (M9).
func (t TankLoad) Cyanide(m *mix.Mixer, id string, salts []Salt, fills int) figure.Figure[unit.Mass] {
	var parts []figure.Figure[unit.Mass]
	for i, s := range salts {
		c, at := s.Content, figure.Beside(id, unit.Short(float64(i+1)))
		if fills > 0 {
			c = fillsLeave.Of(figure.Beside(at, "left"), c, t.carried,
				t.Vessel.Fill.Figure("what fills the "+t.Vessel.Name),
				figure.Constant(unit.Factor(fills), "fills", "", figure.Standard)).Named("thiocyanate after the wash")
		}
		parts = append(parts, cyanideFrom.Of(at, t.carried, c, s.Of, s.Molar))
	}
	x := carrySum.Of(id, parts...).Named("hydrogen cyanide at most")
	mg := float64(x.Value) * 1000
	return x.ShowAs(figure.KindAmount, sig2(mg), stepOf(mg), unit.Up, "").Counted("mg", 1000)
}

// Cleared is whether the bath after a permanganate bleach is enough for what is carried into it.
type Cleared struct {
	// Needs is what the permanganate takes at most and Holds what the bath holds, both as metabisulfite, and
	// Times how many times enough it is. Few: it is not enough.
	Needs, Holds, Times *figure.Record
	Few                 bool
}

// Share is what a full tank carries along against what fills it: where that is largest, a bath is enough the
// fewest times.
func (t TankLoad) Share() unit.Factor { return unit.Factor(t.carried.Value / t.Vessel.Fill.Value()) }

// Clears works out G6 for a full tank that goes from a bleach with permanganate into a bath with salts of
// sulfurous acid.
func (t TankLoad) Clears(m *mix.Mixer, id string, permanganate Salt, salts []Salt) Cleared {
	carried := permanganateIn.Of(figure.Beside(id, "carried"), t.carried, permanganate.Content).
		Named("permanganate carried over")
	needs := stainNeeds.Of(figure.Beside(id, "needs"), carried, permanganate.Of, permanganate.Molar)
	var parts []figure.Figure[unit.Mass]
	for i, s := range salts {
		parts = append(parts, stainHolds.Of(figure.Beside(id, "holds", unit.Short(float64(i+1))),
			t.Vessel.Fill.Figure("what fills the "+t.Vessel.Name), s.Content, s.Of, s.Molar))
	}
	holds := carrySum.Of(figure.Beside(id, "holds"), parts...).Named("sulfite in it, counted as metabisulfite")
	times := stainTimes.Of(id, holds, needs)
	out := Cleared{Few: unit.Snap(float64(times.Value)) < 1,
		Holds: figure.Enter(m.Book, holds.Show(figure.KindAmount, "0.1", unit.Down, "")),
		Times: figure.Enter(m.Book, times.Show(figure.KindCount, "1", unit.Down, ""))}
	mg := float64(needs.Value) * 1000
	out.Needs = figure.Enter(m.Book, needs.ShowAs(figure.KindAmount, sig2(mg), stepOf(mg), unit.Up, "").
		Counted("mg", 1000))
	return out
}
