package capacity

import (
	"fmt"
	"math"
	"strings"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// fillsLeave is F1.
var fillsLeave = figure.Register(&figure.F4[unit.Concentration, unit.Concentration, unit.Volume, unit.Volume,
	unit.Factor]{
	Formula: figure.Formula{ID: "wash.fills", Name: "content after so many fills", Result: "c_n",
		Unit: "g/L",
		Terms: []figure.Term{{Symbol: "c_0", Meaning: "content of what is carried over", Unit: "g/L"},
			{Symbol: "v", Meaning: "carried over", Unit: "ml"},
			{Symbol: "V", Meaning: "fresh water for it", Unit: "ml"}, {Symbol: "n", Meaning: "fills"}},
		Text:   "c_0 * pow(v / (v + V), n)",
		Valid:  "each fill turned and waited for until it is even; film and resin-coated paper only, never fibre",
		Source: "mass balance", Origin: figure.Standard},
	Go: func(c unit.Concentration, v, fresh unit.Volume, n unit.Factor) unit.Concentration {
		return c * unit.Concentration(math.Pow(float64(v/(v+fresh)), float64(n)))
	},
})

// fillsNeeded is F2.
var fillsNeeded = figure.Register(&figure.F4[unit.Factor, unit.Concentration, unit.Concentration, unit.Volume,
	unit.Volume]{
	Formula: figure.Formula{ID: "wash.needed", Name: "fills needed", Result: "n", Unit: "fills",
		Terms: []figure.Term{{Symbol: "c_t", Meaning: "thiosulfate that may be left", Unit: "g/L"},
			{Symbol: "c_0", Meaning: "thiosulfate in what is carried over", Unit: "g/L"},
			{Symbol: "v", Meaning: "carried over by one roll", Unit: "ml"},
			{Symbol: "V", Meaning: "fresh water for one roll", Unit: "ml"}},
		Text: "ceil(log(c_t / c_0) / log(v / (v + V)))", Valid: "as for the fills; a house adds one",
		Source: "mass balance", Origin: figure.Standard},
	Go: func(ct, c0 unit.Concentration, v, fresh unit.Volume) unit.Factor {
		return unit.Factor(unit.Round(math.Log(float64(ct/c0))/math.Log(float64(v/(v+fresh))), 1, unit.Up))
	},
})

// running is F3, in seconds.
var running = figure.Register(&figure.F4[unit.Seconds, unit.Volume, unit.Flow, unit.Concentration, unit.Concentration]{
	Formula: figure.Formula{ID: "wash.running", Name: "running water for the same", Result: "t", Unit: "s",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume of the tank", Unit: "ml"},
			{Symbol: "Q", Meaning: "flow", Unit: "L/min"},
			{Symbol: "c_0", Meaning: "thiosulfate at first", Unit: "g/L"},
			{Symbol: "c_t", Meaning: "thiosulfate that may be left", Unit: "g/L"}},
		Text:   "60 * V / 1000 / Q * log(c_0 / c_t)",
		Valid:  "the water mixes wholly; a drop of colour must be gone after three times V over Q; never fibre",
		Source: "mass balance", Origin: figure.Standard},
	Go: func(v unit.Volume, q unit.Flow, c0, ct unit.Concentration) unit.Seconds {
		return unit.Seconds(60 * float64(v) / 1000 / float64(q) * math.Log(float64(c0/ct)))
	},
})

// runningWater, dumpedWater, savedWater and savedMoney are F4.
var (
	runningWater = figure.Register(&figure.F2[unit.Volume, unit.Flow, unit.Seconds]{
		Formula: figure.Formula{ID: "water.running", Name: "water of a running wash", Result: "W", Unit: "ml",
			Terms: []figure.Term{{Symbol: "Q", Meaning: "flow", Unit: "L/min"},
				{Symbol: "t", Meaning: "time", Unit: "s"}},
			Text: "1000 * Q * t / 60", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(q unit.Flow, t unit.Seconds) unit.Volume { return unit.Volume(1000 * float64(q) * float64(t) / 60) },
	})
	dumpedWater = figure.Register(&figure.F2[unit.Volume, unit.Factor, unit.Volume]{
		Formula: figure.Formula{ID: "water.fills", Name: "water of the fills", Result: "W", Unit: "ml",
			Terms: []figure.Term{{Symbol: "n", Meaning: "fills"},
				{Symbol: "V", Meaning: "what fills the tank", Unit: "ml"}},
			Text: "n * V", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n unit.Factor, v unit.Volume) unit.Volume { return unit.Volume(n) * v },
	})
	savedWater = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Volume]{
		Formula: figure.Formula{ID: "water.saved", Name: "water saved", Result: "S", Unit: "ml",
			Terms: []figure.Term{{Symbol: "W_r", Meaning: "running", Unit: "ml"},
				{Symbol: "W_f", Meaning: "by fills", Unit: "ml"}},
			Text: "W_r - W_f", Valid: "only if the running wash is really left out", Source: "plain arithmetic",
			Origin: figure.Standard},
		Go: func(a, b unit.Volume) unit.Volume { return a - b },
	})
	savedMoney = figure.Register(&figure.F2[unit.Money, unit.Volume, unit.MoneyPerL]{
		Formula: figure.Formula{ID: "money.saved", Name: "saved", Result: "k", Unit: "",
			Terms: []figure.Term{{Symbol: "S", Meaning: "water saved", Unit: "ml"},
				{Symbol: "p", Meaning: "price of a litre"}},
			Text: "S * p / 1000", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(s unit.Volume, p unit.MoneyPerL) unit.Money { return unit.Money(float64(s) * float64(p) / 1000) },
	})
)

// leftInGelatin and leftDried are F5: what is left, at best and at worst.
var (
	leftInGelatin = figure.Register(&figure.F2[unit.MassPerArea, unit.Concentration, unit.VolumePerArea]{
		Formula: figure.Formula{ID: "wash.gelatin", Name: "left in the gelatin", Result: "r", Unit: "g/m²",
			Terms: []figure.Term{{Symbol: "c", Meaning: "thiosulfate in the water", Unit: "g/L"},
				{Symbol: "u", Meaning: "water in swollen gelatin", Unit: "ml/m²"}},
			Text: "c * u / 1000", Valid: "an estimate to compare washes, never a certificate: ISO 18917 is the test",
			Source: "mass balance; water in the gelatin from memory", Origin: figure.Memory},
		Go: func(c unit.Concentration, u unit.VolumePerArea) unit.MassPerArea {
			return unit.MassPerArea(float64(c) * float64(u) / 1000)
		},
	})
	leftDried = figure.Register(&figure.F3[unit.MassPerArea, unit.Concentration, unit.Volume, unit.Area]{
		Formula: figure.Formula{ID: "wash.dried", Name: "left if all that clings dries on", Result: "r", Unit: "g/m²",
			Terms: []figure.Term{{Symbol: "c", Meaning: "thiosulfate in the water", Unit: "g/L"},
				{Symbol: "v", Meaning: "carried over by one roll", Unit: "ml"},
				{Symbol: "A", Meaning: "area of one roll", Unit: "cm²"}},
			Text: "10 * c * v / A", Valid: "the worst case: nothing is wiped off", Source: "mass balance",
			Origin: figure.Standard},
		Go: func(c unit.Concentration, v unit.Volume, a unit.Area) unit.MassPerArea {
			return unit.MassPerArea(10 * float64(c) * float64(v) / float64(a))
		},
	})
	mayBeLeft = figure.Register(&figure.F3[unit.Concentration, unit.MassPerArea, unit.Volume, unit.Area]{
		Formula: figure.Formula{ID: "wash.may", Name: "thiosulfate that may be left in the water", Result: "c_t",
			Unit: "g/L",
			Terms: []figure.Term{{Symbol: "r", Meaning: "most that may be left on the film", Unit: "g/m²"},
				{Symbol: "v", Meaning: "carried over by one roll", Unit: "ml"},
				{Symbol: "A", Meaning: "area of one roll", Unit: "cm²"}},
			Text: "r * A / 10 / v", Valid: "if all that clings dries on", Source: "mass balance",
			Origin: figure.Standard},
		Go: func(r unit.MassPerArea, v unit.Volume, a unit.Area) unit.Concentration {
			return unit.Concentration(float64(r) * float64(a) / 10 / float64(v))
		},
	})
)

// ionContent is the thiosulfate ion in a content of one of its salts.
var ionContent = figure.Register(&figure.F3[unit.Concentration, unit.Concentration, unit.Molar, unit.Molar]{
	Formula: figure.Formula{ID: "content.ion", Name: "thiosulfate ion", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "c_s", Meaning: "content of the salt", Unit: "g/L"},
			{Symbol: "M_i", Meaning: "molar mass of the ion", Unit: "g/mol"},
			{Symbol: "M_s", Meaning: "molar mass of the salt", Unit: "g/mol"}},
		Text: "c_s * M_i / M_s", Source: "stoichiometry; atomic weights IUPAC/CIAAW 2021", Origin: figure.Standard},
	Go: func(c unit.Concentration, ion, salt unit.Molar) unit.Concentration {
		return c * unit.Concentration(ion/salt)
	},
})

// archiveLimit is what a film for the archive may hold.
var archiveLimit = figure.Constant(unit.MassPerArea(0.014),
	"most thiosulfate on film that is to last five hundred years",
	"United States, 36 CFR 1238.14(c): microfilm of permanent records, LE-500; the rule names ISO 18901",
	figure.Standard)

// gelatinWater is about what swollen gelatin holds.
var gelatinWater = figure.Constant(unit.VolumePerArea(30), "water in swollen gelatin", "from memory", figure.Memory)

// Saved is what fills save against a running wash.
type Saved struct {
	// Money is nil where water has no price.
	Fills, Water, Running, Saved, Money *figure.Record
}

// FillsSave works out F4 for a step of fills in one vessel.
func FillsSave(m *mix.Mixer, p *lab.Process, i int, v Vessel) (Saved, bool) {
	s := p.Steps[i]
	flow := m.Lab.Place.Water.FilmFlow
	if !flow.Given() || !s.InsteadOf.Given() {
		return Saved{}, false
	}
	place := m.Lab.Place
	of := mix.Tag(v.Fill.Exact())
	id := func(what string, variants ...string) string {
		return figure.ID(p.ID, "wash."+s.ID+"."+what, variants...)
	}
	key := lab.StepKey(i) + ".fills"
	by, _ := m.Lab.OriginOf(p.Said(key))
	n := figure.GivenNumber(unit.Factor(len(s.Fills)), fmt.Sprint(len(s.Fills)), p.At(key), by,
		"fills") // a list's length
	run := runningWater.Of(id("running"), flow.Figure("flow through the tank"),
		s.InsteadOf.Figure("running wash that is left out"))
	dump := fillsOf(m, p, i, v)
	saved := savedWater.Of(id("saved", of), run, dump)
	if saved.Value <= 0 {
		return Saved{}, false
	}
	out := Saved{Fills: figure.Declare(m.Book, id("count"), figure.KindCount, n, fmt.Sprint(len(s.Fills)), "fills"),
		Water: litres(m, dump, "water of the fills"), Running: litres(m, run, "water of a running wash"),
		Saved: litres(m, saved, "water saved")}
	if perL, ok := place.Water.Price.FigurePerL("price of a litre"); ok {
		out.Money = figure.Enter(m.Book, savedMoney.Of(id("money", of), saved, perL).
			Show(figure.KindMoney, "0.01", unit.Nearest, "").In(place.Water.Price.Currency))
	}
	return out, true
}

// WashOf is the water of a wash step in one vessel, filled or running, and what is saved of
// the running wash that it takes the place of; each is nil where nobody has written enough.
func WashOf(m *mix.Mixer, p *lab.Process, i int, v Vessel) (water, saved *figure.Record) {
	s := p.Steps[i]
	id := func(what string) string { return figure.ID(p.ID, "wash."+s.ID+"."+what) }
	switch {
	case len(s.Fills) > 0:
		if x, ok := FillsSave(m, p, i, v); ok {
			return x.Water, x.Saved
		}
		if !v.Fill.Given() {
			return nil, nil
		}
		return litres(m, fillsOf(m, p, i, v), "water of the fills"), nil
	case !s.Flow.Given() || !s.Time.Fixed.Given():
		return nil, nil
	}
	flow := s.Flow.Figure("flow of the wash")
	run := runningWater.Of(id("flow"), flow, s.Time.Fixed.Figure("time of the wash"))
	if s.InsteadOf.Given() {
		long := runningWater.Of(id("instead"), flow, s.InsteadOf.Figure("running wash that is left out"))
		if long.Value > run.Value {
			saved = litres(m, savedWater.Of(id("saved"), long, run), "water saved")
		}
	}
	return litres(m, run, "water of the wash"), saved
}

// fillsOf is the water of the fills of a step in one vessel.
func fillsOf(m *mix.Mixer, p *lab.Process, i int, v Vessel) figure.Figure[unit.Volume] {
	s := p.Steps[i]
	key := lab.StepKey(i) + ".fills"
	by, _ := m.Lab.OriginOf(p.Said(key))
	n := figure.GivenNumber(unit.Factor(len(s.Fills)), fmt.Sprint(len(s.Fills)), p.At(key), by,
		"fills") // a list's length
	return dumpedWater.Of(figure.ID(p.ID, "wash."+s.ID+".fills", mix.Tag(v.Fill.Exact())), n,
		v.Fill.Figure("what fills the "+v.Name))
}

// litres enters a volume of water in litres.
func litres(m *mix.Mixer, f figure.Figure[unit.Volume], name string) *figure.Record {
	return figure.Enter(m.Book, f.Named(name).
		ShowAs(figure.KindAmount, unit.Round(float64(f.Value)/1000, 0.1, unit.Nearest), unit.NewDecimal(1, 1),
			unit.Nearest, "").Counted("L", 0.001))
}

// Washed is what is left on film after so many fills.
type Washed struct {
	N                     int
	Water, Gelatin, Dried *figure.Record
	// Silver is the most that the water of that fill holds; nil where nobody has written how much
	// the fixer may hold.
	Silver *figure.Record
}

// Decay is a film wash, fill by fill.
type Decay struct {
	After                 []Washed
	Needed, Limit         *figure.Record
	Carried, Fresh, Start *figure.Record
	Running               *figure.Record // nil where the flow is not written
	Why                   string
}

// thiosulfate is the ion in a bath, or false if none is in it.
func thiosulfate(m *mix.Mixer, b lab.Bath) (figure.Figure[unit.Concentration], bool) {
	ion, err := chem.Parse("S2O3")
	if err != nil {
		return figure.Figure[unit.Concentration]{}, false
	}
	for _, c := range m.Made(b).Contents {
		formula := c.Chemical.Forms[c.Form].Formula
		if !strings.Contains(formula, "S2O3") {
			continue
		}
		salt, err := chem.Parse(formula)
		if err != nil {
			continue
		}
		of := func(f chem.Formula, name string) figure.Figure[unit.Molar] {
			return figure.Constant(unit.Molar(f.MolarMass()), name, "IUPAC/CIAAW 2021", figure.Standard)
		}
		return ionContent.Of(figure.ID(b.Ref(), "thiosulfate"), c.Conc, of(ion, "molar mass of the ion"),
			of(salt, "molar mass of "+c.Chemical.Name)).Show(figure.KindAmount, "1", unit.Nearest, ""), true
	}
	return figure.Figure[unit.Concentration]{}, false
}

// mostFills is how far a wash is followed.
const mostFills = 5

// FillsDecay follows the thiosulfate of a fixer through the fills of a tank (F1,
// F2, F5), for one roll of a format.
func FillsDecay(m *mix.Mixer, p *lab.Process, fixer lab.Bath, v Vessel, f Format) Decay {
	c0, ok := thiosulfate(m, fixer)
	area, known := f.Area()
	if !ok || !known || v.Takes.N < 1 {
		return Decay{Why: "nobody has written how much thiosulfate " + fixer.Name() + " holds"}
	}
	carry := RollCarried(m)
	fill := v.Fill.Figure("what fills the " + v.Name)
	reels := v.Takes.Figure("rolls in it")
	tank, _, _ := strings.Cut(v.Key, ",")
	base := figure.ID(p.ID, "wash", f.Ref(), tank)
	fresh := perRoll.Of(figure.Beside(base, "fresh"), fill, reels).Show(figure.KindAmount, "1", unit.Nearest, "")
	out := Decay{
		Start: figure.Enter(m.Book, c0),
		Fresh: figure.Enter(m.Book, fresh),
		Carried: figure.Declare(m.Book, figure.ID("house", "film-carry"), figure.KindAmount, carry,
			unit.Short(float64(carry.Value)),
			"ml"),
		Limit: figure.Declare(m.Book, figure.ID("wash", "limit"), figure.KindAmount, archiveLimit, "0.014", "g/m²"),
	}
	for n := 1; n <= mostFills; n++ {
		c := fillsLeave.Of(figure.Beside(base, fmt.Sprint(n)), c0, carry, fresh,
			figure.Constant(unit.Factor(n), "fills", "", figure.Standard))
		mg := c.ShowAs(figure.KindAmount, sig2(float64(c.Value)*1000), stepOf(float64(c.Value)*1000), unit.Up, "").
			Counted("mg/L", 1000).Named("thiosulfate in the water")
		gel := leftInGelatin.Of(figure.Beside(base, fmt.Sprint(n), "gelatin"), c, gelatinWater)
		dried := leftDried.Of(figure.Beside(base, fmt.Sprint(n), "dried"), c, carry, area)
		out.After = append(out.After, Washed{N: n, Silver: silverInWash(m, fixer,
			figure.Beside(base, fmt.Sprint(n), "silver"), carry, fresh, n),
			Water: figure.Enter(m.Book, mg),
			Gelatin: figure.Enter(m.Book, gel.ShowAs(figure.KindAmount, sig2(float64(gel.Value)),
				stepOf(float64(gel.Value)), unit.Up, "")),
			Dried: figure.Enter(m.Book, dried.ShowAs(figure.KindAmount, sig2(float64(dried.Value)),
				stepOf(float64(dried.Value)), unit.Up, ""))})
	}
	may := mayBeLeft.Of(figure.Beside(base, "may"), archiveLimit, carry, area)
	if may.Value < c0.Value {
		out.Needed = figure.Enter(m.Book, fillsNeeded.Of(figure.Beside(base, "needed"), may, c0, carry, fresh).
			Show(figure.KindCount, "1", unit.Up, ""))
		if flow := m.Lab.Place.Water.FilmFlow; flow.Given() {
			start := fillsLeave.Of(figure.Beside(base, "filled"), c0, carry, fresh,
				figure.Constant(unit.Factor(1), "fills", "", figure.Standard))
			if may.Value < start.Value {
				t := running.Of(figure.Beside(base, "running"), fill, flow.Figure("flow through the tank"), start, may)
				out.Running = figure.Enter(m.Book, figure.ShowTime(t, 15, unit.Up))
			}
		}
	}
	return out
}

// silverInWash is J13: the silver in the water of a fill, after a fixer that holds all that it may.
func silverInWash(m *mix.Mixer, fixer lab.Bath, id string, carry, fresh figure.Figure[unit.Volume],
	n int) *figure.Record {
	d := fixer.Decl()
	if d == nil {
		return nil
	}
	for _, l := range d.Limits {
		if l.By != "silver" || l.For != "" && l.For != lab.Film || !l.Most.Silver.Given() {
			continue
		}
		most := l.Most.Silver.Figure("most silver that the fixer may hold")
		c := fillsLeave.Of(id, most, carry, fresh, figure.Constant(unit.Factor(n), "fills", "", figure.Standard))
		return figure.Enter(m.Book, c.ShowAs(figure.KindAmount, sig2(float64(c.Value)*1000),
			stepOf(float64(c.Value)*1000), unit.Up, "").
			Counted("mg/L", 1000).Named("silver in the water"))
	}
	return nil
}

// SilverAfter is J13 for what fills a tank at the place of the n-th fill after a fixer that holds so
// much silver: one of the fills of a wash, or a bath that is used once and follows them.
func SilverAfter(m *mix.Mixer, id string, held figure.Figure[unit.Concentration], v Vessel,
	n int) figure.Figure[unit.Concentration] {
	fresh := perRoll.Of(figure.Beside(id, "fresh"), v.Fill.Figure("what fills the "+v.Name),
		v.Takes.Figure("rolls in it"))
	return fillsLeave.Of(id, held, RollCarried(m), fresh,
		figure.Constant(unit.Factor(n), "fills", "", figure.Standard))
}

// perRoll is the fresh water that one roll has in a fill.
var perRoll = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Factor]{
	Formula: figure.Formula{ID: "wash.fresh", Name: "fresh water for one roll", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "F", Meaning: "what fills the tank", Unit: "ml"},
			{Symbol: "N", Meaning: "rolls in it"}},
		Text: "F / N", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(f unit.Volume, n unit.Factor) unit.Volume { return f / unit.Volume(n) },
})

// sig2 rounds up to two figures, stepOf is the step of that rounding.
func sig2(x float64) float64 { return unit.Round(x, stepOf(x).Float(), unit.Up) }

func stepOf(x float64) unit.Decimal {
	if x <= 0 {
		return unit.NewDecimal(1, 0)
	}
	places := 1 - int(math.Floor(math.Log10(x)))
	if places <= 0 {
		return unit.NewDecimal(int64(math.Pow10(-places)), 0)
	}
	return unit.NewDecimal(1, uint8(min(places, 9)))
}
