package capacity

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// silverWorked is one term of E7: the silver that pieces of one material leave
// in a fixer.
var silverWorked = figure.Register(&figure.F2[unit.Mass, unit.Factor, unit.Mass]{
	Formula: figure.Formula{ID: "silver.worked", Name: "silver that pieces leave in the fixer", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces"}, {Symbol: "m_1", Meaning: "silver of one", Unit: "g"}},
		Text:  "n * m_1", Source: "mass balance", Origin: figure.Standard},
	Go: func(n unit.Factor, m unit.Mass) unit.Mass { return unit.Mass(n) * m },
})

// silverSum adds the terms of E7.
var silverSum = figure.Register(&figure.FN[unit.Mass, unit.Mass]{
	Formula: figure.Formula{ID: "silver.sum", Name: "silver of all that was worked", Result: "m_Ag", Unit: "g",
		Terms: []figure.Term{{Symbol: "m", Meaning: "silver of each line of the log", Unit: "g"}},
		Text:  "sum(m)", Source: "mass balance", Origin: figure.Standard},
	Go: figure.Total[unit.Mass],
})

// silverHeld is E7.
var silverHeld = figure.Register(&figure.F3[unit.Concentration, unit.Mass, unit.Volume, unit.Concentration]{
	Formula: figure.Formula{ID: "silver.held", Name: "silver in a used fixer", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "m", Meaning: "silver of all that was worked", Unit: "g"},
			{Symbol: "V", Meaning: "volume made", Unit: "ml"},
			{Symbol: "c_0", Meaning: "silver it began with", Unit: "g/L"}},
		Text: "c_0 + m / V * 1000", Valid: "what is carried over between baths is left out", Source: "mass balance",
		Origin: figure.Standard},
	Go: func(m unit.Mass, v unit.Volume, c unit.Concentration) unit.Concentration {
		return c + unit.Concentration(float64(m)/float64(v)*1000)
	},
})

// silverLeast and silverMost are the bounds of the estimate.
var (
	silverLeast = figure.Register(&figure.F2[unit.Concentration, unit.Concentration, unit.Percent]{
		Formula: figure.Formula{ID: "silver.least", Name: "silver, at least", Result: "c_low", Unit: "g/L",
			Terms: []figure.Term{{Symbol: "c", Meaning: "silver by the log", Unit: "g/L"},
				{Symbol: "e", Meaning: "how far off it may be", Unit: "%"}},
			Text: "c * (1 - e / 100)", Source: "common practice, no source", Origin: figure.Memory},
		Go: func(c unit.Concentration, e unit.Percent) unit.Concentration {
			return unit.Concentration(float64(c) * (1 - float64(e)/100))
		},
	})
	silverMost = figure.Register(&figure.F2[unit.Concentration, unit.Concentration, unit.Percent]{
		Formula: figure.Formula{ID: "silver.most", Name: "silver, at most", Result: "c_high", Unit: "g/L",
			Terms: []figure.Term{{Symbol: "c", Meaning: "silver by the log", Unit: "g/L"},
				{Symbol: "e", Meaning: "how far off it may be", Unit: "%"}},
			Text: "c * (1 + e / 100)", Source: "common practice, no source", Origin: figure.Memory},
		Go: func(c unit.Concentration, e unit.Percent) unit.Concentration {
			return unit.Concentration(float64(c) * (1 + float64(e)/100))
		},
	})
)

// silverWithin is how far off the silver of a used fixer may be.
const silverWithin = 25

// clearingRatio is the discard test of E8.
var clearingRatio = figure.Register(&figure.F2[unit.Factor, unit.Seconds, unit.Seconds]{
	Formula: figure.Formula{ID: "clearing.ratio", Name: "clearing time against fresh", Result: "r", Unit: "x",
		Terms: []figure.Term{{Symbol: "t_clear", Meaning: "clearing time now", Unit: "s"},
			{Symbol: "t_fresh", Meaning: "clearing time on the day of mixing", Unit: "s"}},
		Text: "t_clear / t_fresh", Valid: "the same film at the same temperature",
		Source: "handbook tradition, from memory", Origin: figure.Memory},
	Go: func(t, fresh unit.Seconds) unit.Factor { return unit.Factor(t / fresh) },
})

// Clearing is how many times its fresh clearing time a test clip takes now.
func Clearing(id string, now, fresh figure.Figure[unit.Seconds]) figure.Figure[unit.Factor] {
	return clearingRatio.Of(id, now, fresh).Show(figure.KindRatio, "0.01", unit.Nearest, "").In("× fresh")
}

// Silver is what a used fixer holds by its log, with its bounds. Where Why says
// that not all of it is known, Held is refused and Known is the least it can be.
type Silver struct {
	Held, Least, Most *figure.Record // Least and Most are nil where Held is refused
	Known             figure.Figure[unit.Concentration]
	Why               string
}

// SilverOf works out E7 for the work of a bath, in the volume that was made;
// unless why says that it cannot be.
func SilverOf(l *lab.Lab, book *figure.Ledger, subject string, work []lab.Pieces, made figure.Figure[unit.Volume],
	start figure.Figure[unit.Concentration], why string) Silver {
	id := figure.ID(subject, "silver")
	if why != "" {
		return Silver{Held: book.Refuse(id, figure.KindAmount, silverHeld.Name, "g/L", why, figure.Memory),
			Known: start, Why: why}
	}
	var parts []figure.Figure[unit.Mass]
	for i, w := range work {
		part, unknown := SilverLeft(l, figure.ID(subject, fmt.Sprintf("silver.%d", i+1)), w)
		if unknown != "" {
			why = unknown
			if w.Of == "" {
				why = "the log counts " + w.Text() + " without saying which film"
			}
			continue
		}
		parts = append(parts, part.Named("silver of "+w.Text()).Show(figure.KindAmount, "0.01", unit.Nearest, ""))
	}
	sum := silverSum.Of(figure.ID(subject, "silver.sum"), parts...).Show(figure.KindAmount, "0.01", unit.Nearest, "")
	if why != "" {
		known := silverHeld.Of(figure.ID(subject, "silver.known"), sum, made, start).Named("silver, at least").
			Show(figure.KindAmount, "0.1", unit.Down, "")
		held := book.Refuse(id, figure.KindAmount, silverHeld.Name, "g/L", why, figure.Memory,
			figure.Enter(book, known))
		return Silver{Held: held, Known: known, Why: why}
	}
	held := silverHeld.Of(id, sum, made, start).Show(figure.KindAmount, "0.1", unit.Nearest, "")
	within := figure.Constant(unit.Percent(silverWithin), "how far off it may be", "common practice, no source",
		figure.Memory)
	least := silverLeast.Of(figure.ID(subject, "silver.least"), held, within).Show(figure.KindAmount, "0.1",
		unit.Nearest, "")
	most := silverMost.Of(figure.ID(subject, "silver.most"), held, within).Show(figure.KindAmount, "0.1",
		unit.Nearest, "")
	held = held.WithBounds(least.Value, most.Value)
	return Silver{Held: figure.Enter(book, held), Least: figure.Enter(book, least), Most: figure.Enter(book, most),
		Known: held}
}

// SilverSpent is what a litre of a fixer holds when so many pieces have left their silver in it (E7).
func SilverSpent(id string, pieces figure.Figure[unit.Factor], each figure.Figure[unit.Mass]) figure.Figure[unit.Concentration] {
	return silverHeld.Of(id, silverWorked.Of(figure.Beside(id, "worked"), pieces.Best(), each),
		figure.Constant(unit.Volume(1000), "a litre", "", figure.Standard),
		figure.Constant(unit.Concentration(0), "silver it began with", "", figure.Standard))
}

// SilverLeft is the silver that pieces of one format leave in a fixer (E7); why says what nobody
// has written.
func SilverLeft(l *lab.Lab, id string, p lab.Pieces) (m figure.Figure[unit.Mass], why string) {
	if p.Of == "" {
		return m, "nobody has written which film " + p.Text() + " are"
	}
	f, _ := FormatNamed(l, p.Of)
	each, ok := SilverEach(l, f)
	if !ok {
		return m, "nobody has written the silver of " + f.Material.Name
	}
	return silverWorked.Of(id, p.Figure("pieces"), each), ""
}

// Rolls counts the work of a bath as roll equivalents (E1). why says what could
// not be counted: then done is the rest, the least that was done.
func Rolls(l *lab.Lab, subject string, work []lab.Pieces) (done figure.Figure[unit.Rolls], why string) {
	var parts []figure.Figure[unit.Rolls]
	for i, w := range work {
		if w.Of == "" {
			parts = append(parts, figure.Cast[unit.Rolls](w.Figure("rolls")))
			continue
		}
		f, _ := FormatNamed(l, w.Of)
		q, ok := f.Rolls()
		if !ok {
			why = "nobody has written how many rolls one " + f.ID + " counts as"
			continue
		}
		parts = append(parts, rollShare.Of(figure.ID(subject, fmt.Sprintf("done.%d", i+1)),
			w.Figure("how many"), q).Named("rolls of "+w.Text()).In("rolls"))
	}
	done = Sum(figure.ID(subject, "done"), parts...).Named("rolls done")
	if unit.Snap(float64(done.Value)) == unit.Round(float64(done.Value), 1, unit.Nearest) {
		done = done.Show(figure.KindCount, "1", unit.Nearest, "")
	}
	return done, why
}

// Room reports how many whole rolls still go into a bath that has done some,
// by a limit in rolls per litre: the last of them must not pass it.
func Room(done unit.Rolls, made unit.Volume, most unit.RollsPerLitre) int {
	n := unit.Round(float64(most)*float64(made)/1000-float64(done), 1, unit.Down)
	return max(0, int(n))
}

// silverEach is the silver that one piece leaves in the fixer.
var silverEach = figure.Register(&figure.F3[unit.Mass, unit.Area, unit.MassPerArea, unit.Percent]{
	Formula: figure.Formula{ID: "silver.each", Name: "silver that one leaves in the fixer", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "A", Meaning: "area of one", Unit: "cm²"},
			{Symbol: "s", Meaning: "silver coated", Unit: "g/m²"},
			{Symbol: "f", Meaning: "share that is not developed", Unit: "%"}},
		Text: "A * s * f / 1000000", Valid: "coated silver and the undeveloped share are known to a quarter at best",
		Source: "mass balance", Origin: figure.Standard},
	Go: func(a unit.Area, s unit.MassPerArea, f unit.Percent) unit.Mass {
		return unit.Mass(float64(a) * float64(s) * float64(f) / 1e6)
	},
})

// SilverEach is the silver that one piece leaves in a fixer, with a quarter of
// doubt on either side unless the declared figures say better.
func SilverEach(l *lab.Lab, f Format) (figure.Figure[unit.Mass], bool) {
	if f.worked != nil {
		return f.worked.silver, f.worked.hasSilver
	}
	s := f.Material.Silver
	area, ok := f.Area()
	if !ok || !s.Coated.Given() || !s.Undeveloped.Given() {
		return figure.Figure[unit.Mass]{}, false
	}
	m := silverEach.Of(figure.ID(f.Ref(), "silver"), area, s.Coated.Figure("silver coated"),
		s.Undeveloped.Figure("share that is not developed"))
	if m.Low == m.High {
		m = m.WithBounds(m.Value*3/4, m.Value*5/4)
	}
	return m.Named("silver of one "+f.Name()).Show(figure.KindAmount, "0.001", unit.Up, ""), true
}

// missingSilver says what of a material's silver nobody has written.
func missingSilver(m *lab.Material) string {
	switch {
	case !m.Silver.Coated.Given() && !m.Silver.Undeveloped.Given():
		return "the silver"
	case !m.Silver.Coated.Given():
		return "the coated silver"
	}
	return "how much of the silver is not developed (silver.undeveloped)"
}
