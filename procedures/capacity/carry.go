package capacity

import (
	"math"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// carried is E14.
var carried = figure.Register(&figure.F2[unit.Volume, unit.Area, unit.VolumePerArea]{
	Formula: figure.Formula{ID: "carry.print", Name: "carried along by one print", Result: "q", Unit: "ml",
		Terms: []figure.Term{{Symbol: "A", Meaning: "area of one", Unit: "cm²"},
			{Symbol: "u", Meaning: "what clings to the paper", Unit: "ml/m²"}},
		Text: "A / 10000 * u", Valid: "drained for ten seconds; not draining doubles it",
		Source: "common practice, no source", Origin: figure.Default},
	Go: func(a unit.Area, u unit.VolumePerArea) unit.Volume {
		return unit.Volume(float64(a) / 10000 * float64(u))
	},
})

// stopPieces is E12.
var stopPieces = figure.Register(&figure.F4[unit.Factor, unit.Volume, unit.Molarity, unit.Volume, unit.Molarity]{
	Formula: figure.Formula{ID: "carry.stop", Name: "prints until the stop bath is spent", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume of the bath", Unit: "ml"},
			{Symbol: "a", Meaning: "alkali that a litre of the stop bath takes up", Unit: "mol/L"},
			{Symbol: "q", Meaning: "carried along by one print", Unit: "ml"},
			{Symbol: "b", Meaning: "acid that a litre of the developer takes up", Unit: "mol/L"}},
		Text: "floor(V * a / (q * b))", Valid: "what the prints carry out of the bath is left out",
		Source: "balance of acid and alkali", Origin: figure.Standard},
	Go: func(v unit.Volume, a unit.Molarity, q unit.Volume, b unit.Molarity) unit.Factor {
		return whole(float64(v) * float64(a) / (float64(q) * float64(b)))
	},
})

// sulfiteOf, sulfiteIn and fixerPieces are M8.
var (
	sulfiteOf = figure.Register(&figure.F2[unit.Molarity, unit.Molarity, unit.Factor]{
		Formula: figure.Formula{ID: "reserve.salt", Name: "sulfite of one substance", Result: "s",
			Unit: "mol/L", Terms: []figure.Term{{Symbol: "c", Meaning: "the substance", Unit: "mol/L"},
				{Symbol: "k", Meaning: "sulfite ions of one unit of it, less the protons that it brings"}},
			Text: "c * k", Source: "balance of moles", Origin: figure.Standard},
		Go: func(c unit.Molarity, k unit.Factor) unit.Molarity { return c * unit.Molarity(k) },
	})
	sulfiteIn = figure.Register(&figure.FN[unit.Molarity, unit.Molarity]{
		Formula: figure.Formula{ID: "reserve.sulfite", Name: "sulfite that can take up acid", Result: "s",
			Unit: "mol/L", Terms: []figure.Term{{Symbol: "c", Meaning: "sulfite of each substance", Unit: "mol/L"}},
			Text: "sum(c)", Source: "balance of moles", Origin: figure.Standard},
		Go: figure.Total[unit.Molarity],
	})
	fixerPieces = figure.Register(&figure.F4[unit.Factor, unit.Volume, unit.Molarity, unit.Volume, unit.Molarity]{
		Formula: figure.Formula{ID: "reserve.pieces", Name: "pieces until the fixer is no longer near neutral",
			Result: "N", Unit: "",
			Terms: []figure.Term{{Symbol: "V", Meaning: "volume of the fixer", Unit: "ml"},
				{Symbol: "s", Meaning: "sulfite in it", Unit: "mol/L"},
				{Symbol: "q", Meaning: "stop bath carried along by one", Unit: "ml"},
				{Symbol: "b", Meaning: "alkali that a litre of the stop bath takes up until pH 6", Unit: "mol/L"}},
			Text:   "floor(V * s / (q * b))",
			Valid:  "at most: each sulfite ion takes up one proton and nothing is carried out; a fresh stop bath, a used one brings less acid",
			Source: "balance of acid and alkali", Origin: figure.Standard},
		Go: func(v unit.Volume, s unit.Molarity, q unit.Volume, b unit.Molarity) unit.Factor {
			return whole(float64(v) * float64(s) / (float64(q) * float64(b)))
		},
	})
)

// SulfiteIn is the sulfite of a strength that can take up acid: each proton that comes with it, as in
// metabisulfite, or with an acid has taken one up already. ok is false where none is left.
func SulfiteIn(m *mix.Mixer, made *mix.Made) (s figure.Figure[unit.Molarity], ok bool) {
	id := figure.ID(made.Bath.Ref(), "reserve.sulfite")
	var parts []figure.Figure[unit.Molarity]
	for _, x := range m.Composition(made).Molar {
		ions := x.Content.Chemical.InWater(x.Content.Form)
		if k := ions["SO3-2"] - ions["H+"]; k != 0 {
			parts = append(parts, sulfiteOf.Of(figure.Beside(id, x.Content.Ref()), x.PerLitre,
				figure.Constant(unit.Factor(k), "sulfite ions of one unit of "+x.Content.Chemical.Name+
					", less its protons", "its ions", figure.Standard)))
		}
	}
	if len(parts) == 0 {
		return s, false
	}
	s = sulfiteIn.Of(id, parts...).Show(figure.KindAmount, "0.001", unit.Nearest, "")
	return s, s.Value > 0
}

// Neutral is how many pieces, each of which carries q along, a litre of a fixer with so much sulfite takes
// until it is no longer near neutral, where the stop bath brings so much acid (M8): down to fives, where there
// are so many.
func Neutral(m *mix.Mixer, id string, sulfite figure.Figure[unit.Molarity], q figure.Figure[unit.Volume],
	acid figure.Figure[unit.Molarity]) *figure.Record {
	n := fixerPieces.Of(id, litreOf, sulfite, q, acid)
	step := "5"
	if n.Value < 10 {
		step = "1"
	}
	return figure.Enter(m.Book, n.Show(figure.KindCount, step, unit.Down, ""))
}

// RollCarried is what one roll of film carries along.
func RollCarried(m *mix.Mixer) figure.Figure[unit.Volume] {
	return figure.Cast[unit.Volume](m.Lab.Place.House.Filled().FilmCarry.Figure("carried over by one roll"))
}

// secondCarried, secondLeft and secondHeld are E11.
var (
	secondCarried = figure.Register(&figure.F5[unit.Concentration, unit.Volume, unit.Factor, unit.Concentration,
		unit.Mass, unit.Volume]{
		Formula: figure.Formula{ID: "second.carried", Name: "silver carried into the second bath", Result: "c_q",
			Unit: "g/L",
			Terms: []figure.Term{{Symbol: "q", Meaning: "carried along by one print", Unit: "ml"},
				{Symbol: "N", Meaning: "prints that went through"},
				{Symbol: "c_0", Meaning: "silver that the first bath began with", Unit: "g/L"},
				{Symbol: "g", Meaning: "silver of one print", Unit: "g"},
				{Symbol: "V", Meaning: "volume of each bath", Unit: "ml"}},
			Text:  "q / V * (N * c_0 + N * N * g * 1000 / (2 * V))",
			Valid: "the prints carry much less than the bath holds", Source: "mass balance",
			Origin: figure.Standard},
		Go: func(q unit.Volume, n unit.Factor, c unit.Concentration, g unit.Mass, v unit.Volume) unit.Concentration {
			return unit.Concentration(float64(q) / float64(v) * (float64(n)*float64(c) +
				float64(n)*float64(n)*float64(g)*1000/(2*float64(v))))
		},
	})
	secondLeft = figure.Register(&figure.F4[unit.Concentration, unit.Percent, unit.Factor, unit.Mass, unit.Volume]{
		Formula: figure.Formula{ID: "second.left", Name: "silver that the second bath itself takes out",
			Result: "c_x", Unit: "g/L",
			Terms: []figure.Term{{Symbol: "x", Meaning: "share of the silver that the first bath leaves", Unit: "%"},
				{Symbol: "N", Meaning: "prints that went through"},
				{Symbol: "g", Meaning: "silver of one print", Unit: "g"},
				{Symbol: "V", Meaning: "volume of each bath", Unit: "ml"}},
			Text: "x / 100 * N * g / V * 1000", Source: "mass balance", Origin: figure.Standard},
		Go: func(x unit.Percent, n unit.Factor, g unit.Mass, v unit.Volume) unit.Concentration {
			return unit.Concentration(float64(x) / 100 * float64(n) * float64(g) / float64(v) * 1000)
		},
	})
	secondHeld = figure.Register(&figure.FN[unit.Concentration, unit.Concentration]{
		Formula: figure.Formula{ID: "second.held", Name: "silver in the second bath when the first is spent",
			Result: "c_2", Unit: "g/L",
			Terms: []figure.Term{{Symbol: "c", Meaning: "what is carried in, and what it takes out itself",
				Unit: "g/L"}},
			Text: "sum(c)", Valid: "the second bath was fresh", Source: "mass balance", Origin: figure.Standard},
		Go: figure.Total[unit.Concentration],
	})
)

// Carried is what one print carries along (E14); ok is false where nobody has written what clings to
// its paper.
func Carried(f Format) (q figure.Figure[unit.Volume], ok bool) {
	area, known := f.Area()
	if !known || !f.Material.Carry.Positive() {
		return q, false
	}
	q = carried.Of(figure.ID(f.Ref(), "carry"), area, f.Material.Carry.Figure("what clings to the paper"))
	step := "1"
	if q.Value < 10 {
		step = "0.1"
	}
	return q.Show(figure.KindAmount, step, unit.Nearest, ""), true
}

// litreOf is the volume that a board of prints counts by.
var litreOf = figure.Constant(unit.Volume(1000), "a litre of bath", "", figure.Standard)

// StopPrints is how many prints a litre of a stop bath stops until it has taken up so much alkali
// (E12): down to fives, where there are so many.
func StopPrints(m *mix.Mixer, id string, takes figure.Figure[unit.Molarity], q figure.Figure[unit.Volume],
	alkali figure.Figure[unit.Molarity]) *figure.Record {
	n := stopPieces.Of(id, litreOf, takes, q, alkali)
	step := "5"
	if n.Value < 10 {
		step = "1"
	}
	return figure.Enter(m.Book, n.Show(figure.KindCount, step, unit.Down, ""))
}

// Second is the second of two fixing baths when the first is spent.
type Second struct {
	// Held is its silver, and Over: it is more than the bath may hold.
	Held *figure.Record
	Over bool
	// Known: somebody has written what the first bath leaves. Else it is the least that it can be.
	Known bool
}

// SecondOf works out the silver in the second of two fixing baths of a litre when the first has done
// n prints of a format (E11), against the most that it may hold; ok is false where nobody can tell.
func SecondOf(m *mix.Mixer, b lab.Bath, f Format, n figure.Figure[unit.Factor], q figure.Figure[unit.Volume],
	most lab.Said[unit.Concentration]) (out Second, ok bool) {
	g, ok := SilverEach(m.Lab, f)
	if !ok {
		return out, false
	}
	id := figure.ID(b.Ref(), "second", f.Ref())
	fresh := figure.Constant(unit.Concentration(0), "silver that the first bath began with", "a fresh bath",
		figure.Standard)
	parts := []figure.Figure[unit.Concentration]{secondCarried.Of(figure.Beside(id, "carried"), q, n.Best(), fresh, g,
		litreOf)}
	if x := m.Lab.Place.House.FirstLeaves; x.Given() {
		out.Known = true
		parts = append(parts, secondLeft.Of(figure.Beside(id, "left"),
			x.Figure("share of the silver that the first bath leaves"), n.Best(), g, litreOf))
	}
	held := secondHeld.Of(id, parts...)
	out.Over = most.Given() && unit.Snap(math.Max(float64(held.High),
		float64(held.Value))) > unit.Snap(float64(most.Value()))
	out.Held = figure.Enter(m.Book, held.ShowSpan(figure.KindAmount, "0.01", unit.Nearest))
	return out, true
}
