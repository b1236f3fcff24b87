package capacity

import (
	"fmt"
	"math"
	"sort"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// areaPieces is E2.
var areaPieces = figure.Register(&figure.F3[unit.Factor, unit.AreaPerLitre, unit.Volume, unit.Area]{
	Formula: figure.Formula{ID: "capacity.area", Name: "by area", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "c", Meaning: "area that a litre treats", Unit: "m²/L"}, {Symbol: "V", Meaning: "volume of the bath", Unit: "ml"}, {Symbol: "A", Meaning: "area of one", Unit: "cm²"}},
		Text:  "floor(10 * c * V / A)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(c unit.AreaPerLitre, v unit.Volume, a unit.Area) unit.Factor {
		return whole(10 * float64(c) * float64(v) / float64(a))
	},
})

// silverEach is the silver that one piece leaves in the fixer.
var silverEach = figure.Register(&figure.F3[unit.Mass, unit.Area, unit.MassPerArea, unit.Percent]{
	Formula: figure.Formula{ID: "silver.each", Name: "silver that one leaves in the fixer", Result: "m", Unit: "g",
		Terms: []figure.Term{{Symbol: "A", Meaning: "area of one", Unit: "cm²"}, {Symbol: "s", Meaning: "silver coated", Unit: "g/m²"}, {Symbol: "f", Meaning: "share that is not developed", Unit: "%"}},
		Text:  "A * s * f / 1000000", Valid: "coated silver and the undeveloped share are known to a quarter at best", Source: "mass balance", Origin: figure.Standard},
	Go: func(a unit.Area, s unit.MassPerArea, f unit.Percent) unit.Mass {
		return unit.Mass(float64(a) * float64(s) * float64(f) / 1e6)
	},
})

// silverPieces is E3.
var silverPieces = figure.Register(&figure.F4[unit.Factor, unit.Concentration, unit.Concentration, unit.Volume, unit.Mass]{
	Formula: figure.Formula{ID: "capacity.silver", Name: "by silver", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "c_max", Meaning: "most silver the bath may hold", Unit: "g/L"}, {Symbol: "c_now", Meaning: "silver it starts with", Unit: "g/L"}, {Symbol: "V", Meaning: "volume of the bath", Unit: "ml"}, {Symbol: "m", Meaning: "silver of one", Unit: "g"}},
		Text:  "floor((c_max - c_now) * V / 1000 / m)", Source: "mass balance", Origin: figure.Standard},
	Go: func(most, now unit.Concentration, v unit.Volume, m unit.Mass) unit.Factor {
		return whole(float64(most-now) * float64(v) / 1000 / float64(m))
	},
})

// rollPieces is a limit in rolls, for one format.
var rollPieces = figure.Register(&figure.F3[unit.Factor, unit.RollsPerLitre, unit.Volume, unit.Rolls]{
	Formula: figure.Formula{ID: "capacity.rolls", Name: "by rolls", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "r", Meaning: "rolls that a litre treats", Unit: "rolls/L"}, {Symbol: "V", Meaning: "volume of the bath", Unit: "ml"}, {Symbol: "q", Meaning: "equivalents of one", Unit: "rolls"}},
		Text:  "floor(r * V / 1000 / q)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(r unit.RollsPerLitre, v unit.Volume, q unit.Rolls) unit.Factor {
		return whole(float64(r) * float64(v) / 1000 / float64(q))
	},
})

// countPieces is a limit in pieces of one format.
var countPieces = figure.Register(&figure.F2[unit.Factor, unit.PerLitre, unit.Volume]{
	Formula: figure.Formula{ID: "capacity.count", Name: "by the house's count", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces that a litre treats", Unit: "/L"}, {Symbol: "V", Meaning: "volume of the bath", Unit: "ml"}},
		Text:  "floor(n * V / 1000)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.PerLitre, v unit.Volume) unit.Factor { return whole(float64(n) * float64(v) / 1000) },
})

// countPiecesSized is the same limit for another format, by its area.
var countPiecesSized = figure.Register(&figure.F4[unit.Factor, unit.PerLitre, unit.Volume, unit.Area, unit.Area]{
	Formula: figure.Formula{ID: "capacity.count.sized", Name: "by the house's count, for another size", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces that a litre treats", Unit: "/L"}, {Symbol: "V", Meaning: "volume of the bath", Unit: "ml"}, {Symbol: "A_1", Meaning: "area of one of the format that is counted", Unit: "cm²"}, {Symbol: "A", Meaning: "area of one", Unit: "cm²"}},
		Text:  "floor(n * V / 1000 * A_1 / A)", Valid: "what a bath treats goes by area", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.PerLitre, v unit.Volume, one, a unit.Area) unit.Factor {
		return whole(float64(n) * float64(v) / 1000 * float64(one) / float64(a))
	},
})

// stockPieces is M1 for a bottle that is drawn from: how many it is enough for.
var stockPieces = figure.Register(&figure.F2[unit.Factor, unit.Volume, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "capacity.stock", Name: "by what is in the bottle", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "V", Meaning: "what is in the bottle", Unit: "ml"}, {Symbol: "s", Meaning: "least for one", Unit: "ml"}},
		Text:  "floor(V / s)", Valid: "one-shot; a tank that holds more than its films need takes more", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(v unit.Volume, s unit.VolumePerRoll) unit.Factor { return whole(float64(v) / float64(s)) },
})

// monthArea adds a month's work as an area.
var monthArea = figure.Register(&figure.FN[unit.Area, unit.Area]{
	Formula: figure.Formula{ID: "use.area", Name: "a month's work as an area", Result: "M", Unit: "cm²",
		Terms: []figure.Term{{Symbol: "a", Meaning: "area of each entry", Unit: "cm²"}},
		Text:  "sum(a)", Source: "the lab's own count", Origin: figure.Standard},
	Go: figure.Total[unit.Area],
})

// entryArea is one entry of a month's work as an area.
var entryArea = figure.Register(&figure.F2[unit.Area, unit.Factor, unit.Area]{
	Formula: figure.Formula{ID: "use.entry", Name: "area of an entry", Result: "a", Unit: "cm²",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces in a month"}, {Symbol: "A", Meaning: "area of one", Unit: "cm²"}},
		Text:  "n * A", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, a unit.Area) unit.Area { return unit.Area(n) * a },
})

// perDay is the month's work as pieces of one format in a day.
var perDay = figure.Register(&figure.F3[unit.Factor, unit.Area, unit.Area, unit.Factor]{
	Formula: figure.Formula{ID: "use.day", Name: "pieces in a day", Result: "r", Unit: "a day",
		Terms: []figure.Term{{Symbol: "M", Meaning: "a month's work", Unit: "cm²"}, {Symbol: "A", Meaning: "area of one", Unit: "cm²"}, {Symbol: "d", Meaning: "days in a month"}},
		Text:  "M / A / d", Valid: "the month's work counted as so many of this format, by area", Source: "the lab's own count", Origin: figure.Standard},
	Go: func(m, a unit.Area, d unit.Factor) unit.Factor {
		return unit.Factor(float64(m) / float64(a) / float64(d))
	},
})

// agePieces is the last term of E4.
var agePieces = figure.Register(&figure.F2[unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "capacity.age", Name: "before age ends it", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "r", Meaning: "pieces in a day"}, {Symbol: "L", Meaning: "life", Unit: "days"}},
		Text:  "floor(r * L)", Valid: "the rate from the log, not from hope", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(r, life unit.Factor) unit.Factor { return whole(float64(r) * float64(life)) },
})

// leastOf is E4: the limit that says no first.
var leastOf = figure.Register(&figure.FN[unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "capacity", Name: "capacity", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "N_i", Meaning: "what each limit allows"}},
		Text:  "min(N_i)", Valid: "the limit that says no first", Source: "the smallest of its limits", Origin: figure.Standard},
	Go: func(n []unit.Factor) unit.Factor {
		least := n[0]
		for _, x := range n {
			least = min(least, x)
		}
		return least
	},
})

// costEach is E5, with the number that is really done or the one that could be.
var costEach = figure.Register(&figure.F2[unit.Money, unit.Money, unit.Factor]{
	Formula: figure.Formula{ID: "cost.each", Name: "cost of one", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "K", Meaning: "cost of the bath"}, {Symbol: "N", Meaning: "how many it treats"}},
		Text:  "K / N", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(k unit.Money, n unit.Factor) unit.Money { return k / unit.Money(n) },
})

// rollCost is I5.
var rollCost = figure.Register(&figure.F2[unit.Money, unit.VolumePerRoll, unit.Money]{
	Formula: figure.Formula{ID: "cost.roll", Name: "stock for one roll costs", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "s", Meaning: "stock for one roll", Unit: "ml/roll"}, {Symbol: "K", Meaning: "cost of a litre of stock"}},
		Text:  "s * K / 1000", Valid: "this bath only; the others, water and gloves come on top", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(s unit.VolumePerRoll, k unit.Money) unit.Money { return unit.Money(s) * k / 1000 },
})

// batchCost is what a volume of a bath costs.
var batchCost = figure.Register(&figure.F2[unit.Money, unit.Money, unit.Volume]{
	Formula: figure.Formula{ID: "cost.volume", Name: "cost of this volume", Result: "K", Unit: "",
		Terms: []figure.Term{{Symbol: "k", Meaning: "cost of a litre"}, {Symbol: "V", Meaning: "volume", Unit: "ml"}},
		Text:  "k * V / 1000", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(k unit.Money, v unit.Volume) unit.Money { return k * unit.Money(v) / 1000 },
})

// worthMixing is E6.
var worthMixing = figure.Register(&figure.F3[unit.Volume, unit.Factor, unit.Factor, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "batch.worth", Name: "largest batch worth mixing", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "r", Meaning: "rolls in a day"}, {Symbol: "L", Meaning: "life of an opened bottle", Unit: "days"}, {Symbol: "s", Meaning: "stock for one roll", Unit: "ml/roll"}},
		Text:  "r * L * s", Valid: "one bottle opened and drawn from until it is empty", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(r, life unit.Factor, s unit.VolumePerRoll) unit.Volume {
		return unit.Volume(float64(r) * float64(life) * float64(s))
	},
})

// oddRolls is M11: a format outside the trade's convention, counted by its area.
var oddRolls = figure.Register(&figure.F2[unit.Rolls, unit.Area, unit.Area]{
	Formula: figure.Formula{ID: "rolls.odd", Name: "equivalents of an odd format", Result: "q", Unit: "rolls",
		Terms: []figure.Term{{Symbol: "A", Meaning: "area of one", Unit: "cm²"}, {Symbol: "A_1", Meaning: "area of one roll", Unit: "cm²"}},
		Text:  "A / A_1", Valid: "the strip that goes through the baths, not the frames", Source: "common practice, no source", Origin: figure.Default},
	Go: func(a, one unit.Area) unit.Rolls { return unit.Rolls(a / one) },
})

// coatVolume is G4.
var coatVolume = figure.Register(&figure.F4[unit.Volume, unit.Factor, unit.Area, unit.VolumePerArea, unit.Percent]{
	Formula: figure.Formula{ID: "coat", Name: "sensitiser to mix", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "N", Meaning: "sheets"}, {Symbol: "A", Meaning: "coated area of one", Unit: "cm²"}, {Symbol: "u", Meaning: "what covers a square metre", Unit: "ml/m²"}, {Symbol: "l", Meaning: "added for what stays in brush and dish", Unit: "%"}},
		Text:  "N * A / 10000 * u * (1 + l / 100)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, a unit.Area, u unit.VolumePerArea, l unit.Percent) unit.Volume {
		return unit.Volume(float64(n) * float64(a) / 10000 * float64(u) * (1 + float64(l)/100))
	},
})

func whole(x float64) unit.Factor { return unit.Factor(unit.Round(x, 1, unit.Down)) }

// rollArea is the area that counts as one roll.
var rollArea = figure.Constant(unit.Area(516), "area that counts as one roll: one 8×10 in print", "common practice, no source", figure.Default)

const daysInMonth = 365.25 / 12

// Format is one format of a material, as it goes through a bath.
type Format struct {
	Material *lab.Material
	ID       string // of the format
	Decl     lab.Format
}

// Ref is the material.format that limits, logs and a month's use name.
func (f Format) Ref() string { return f.Material.ID + "." + f.ID }

// Name is the material and its format in words.
func (f Format) Name() string {
	if f.Decl.Name != "" {
		return f.Material.Name + ", " + f.Decl.Name
	}
	return f.Material.Name + ", " + f.ID
}

// Area is the area of one, as a figure to work from.
func (f Format) Area() (figure.Figure[unit.Area], bool) {
	if f.Decl.Area.Given() {
		return f.Decl.Area.Figure("area of one"), true
	}
	if !f.Decl.Width.Positive() || !f.Decl.Length.Positive() {
		return figure.Figure[unit.Area]{}, false
	}
	return areaOf.Of(f.areaID(), f.Decl.Width.Figure("width"), f.Decl.Length.Figure("length")).
		Named("area of one "+f.ID).Show(figure.KindAmount, "1", unit.Nearest, ""), true
}

// EnterArea enters the area of one; nil where it has none.
func (f Format) EnterArea(book *figure.Ledger) *figure.Record {
	area, ok := f.Area()
	switch {
	case !ok:
		return nil
	case f.Decl.Area.Given():
		return figure.Declare(book, f.areaID(), figure.KindAmount, area, unit.Short(unit.Round(float64(area.Value), 1, unit.Nearest)), "cm²")
	}
	return figure.Enter(book, area)
}

func (f Format) areaID() string {
	if _, own := f.Material.Format[f.ID]; own {
		return "format." + f.Material.ID + "." + f.ID + "/area"
	}
	return "format." + f.ID + "/area"
}

// Pieces is the word for n of this format.
func (f Format) Pieces(n int) string {
	word := "sheet"
	switch {
	case f.Material.Base == "film" && f.Decl.IsRoll():
		word = "film"
	case f.Material.Base == "resin-coated" || f.Material.Base == "fibre":
		word = "print"
	}
	if n != 1 {
		word += "s"
	}
	return word
}

// Rolls is how many rolls one counts as: by the trade's convention, else by its
// area (M11).
func (f Format) Rolls() (figure.Figure[unit.Rolls], bool) {
	if f.Decl.Rolls.Given() {
		return f.Decl.Rolls.Figure("equivalents of one"), true
	}
	area, ok := f.Area()
	if !ok {
		return figure.Figure[unit.Rolls]{}, false
	}
	return oddRolls.Of(strings.TrimSuffix(f.areaID(), "/area")+"/rolls.area", area, rollArea).Show(figure.KindCount, "0.01", unit.Up, ""), true
}

// Formats lists every format of some materials.
func Formats(l *lab.Lab, materials ...*lab.Material) []Format {
	var out []Format
	for _, m := range materials {
		for _, id := range m.Formats {
			if f, _, ok := l.FormatOf(m, id); ok {
				out = append(out, Format{m, id, f})
			}
		}
	}
	return out
}

// sizes are the areas of one of the format that a count names and of one of another of
// the same base.
func sizes(l *lab.Lab, of string, f Format) (one, area figure.Figure[unit.Area], ok bool) {
	counted, found := FormatNamed(l, of)
	if !found || counted.Material.Base != f.Material.Base {
		return one, area, false
	}
	one, first := counted.Area()
	area, second := f.Area()
	return one, area, first && second
}

// FormatNamed finds a material.format.
func FormatNamed(l *lab.Lab, ref string) (Format, bool) {
	id, format, _ := strings.Cut(ref, ".")
	m := l.Material(id)
	if m == nil {
		return Format{}, false
	}
	f, _, ok := l.FormatOf(m, format)
	return Format{m, format, f}, ok
}

// SilverEach is the silver that one piece leaves in a fixer, with a quarter of
// doubt on either side unless the declared figures say better.
func SilverEach(l *lab.Lab, f Format) (figure.Figure[unit.Mass], bool) {
	s := f.Material.Silver
	area, ok := f.Area()
	if !ok || !s.Coated.Given() || !s.Undeveloped.Given() {
		return figure.Figure[unit.Mass]{}, false
	}
	m := silverEach.Of(f.Ref()+"/silver", area, s.Coated.Figure("silver coated"), s.Undeveloped.Figure("share that is not developed"))
	if m.Low == m.High {
		m = m.WithBounds(m.Value*3/4, m.Value*5/4)
	}
	return m.Named("silver of one "+f.Name()).Show(figure.KindAmount, "0.001", unit.Up, ""), true
}

// Bound is what one limit allows.
type Bound struct {
	By    string // "silver", "area", "age" …
	Words string // as the card says it
	Fig   figure.Figure[unit.Factor]
}

// Capacity is how many of one format a volume of a bath treats, and what says
// no first.
type Capacity struct {
	Bath    lab.Bath
	Format  Format
	Volume  unit.Quantity[unit.Volume]
	Place   int
	Bounds  []Bound
	N       *figure.Record // how many its limits allow: what a tally counts
	Count   int
	By      string // the limit that says N
	Governs string // what ends it: By, or "age" where the pace does not reach N
	// With names the limits that say the same number.
	With    []string
	Verdict string
	// Cost is what one costs at the house's pace, IdealCost if age did not end it; nil
	// where no cost is known, and CostWhy says why.
	Cost, IdealCost *figure.Record
	CostWhy         string
	// Evening says how long it lasts once poured, when that is less than a day.
	Evening string
	// Test is a limit that only a test can find, in words.
	Test string
	// Uses is a limit in uses, and MostUses the same as a number: it does not say how
	// many pieces.
	Uses     *figure.Record
	MostUses int
	// Life is how long it lasts, Aged how many are done by then at the house's pace, and
	// Pace the same as a number; nil where age is not weighed. A pace is no limit: it
	// never counts on a tally.
	Life, Aged *figure.Record
	Pace       int
	// Range is N with its bounds, unrounded.
	Range figure.Figure[unit.Factor]
	// NoWhy says why no number can be given at all.
	NoWhy string
}

// ByUses reports a bath that is counted in uses alone: it has no number of pieces.
func (c Capacity) ByUses() bool { return c.N == nil && c.Uses != nil }

// Use is a month's work that goes through a bath, as pieces of each format.
type Use struct {
	entries []useEntry
}

type useEntry struct {
	pieces  lab.Pieces
	process string
	nth     int // of its process's entries, from 1
}

// UseOf gathers a month's work of all the processes that use a bath.
func UseOf(l *lab.Lab, processes []string) Use {
	var u Use
	for _, id := range processes {
		for i, p := range l.Place.Use[id] {
			u.entries = append(u.entries, useEntry{p, id, i + 1})
		}
	}
	return u
}

// OfBase is the part of a month's work that is done on one base; rolls counted
// as equivalents are film.
func (u Use) OfBase(l *lab.Lab, base lab.Base) Use {
	var out Use
	for _, e := range u.entries {
		of := lab.Film
		if f, ok := FormatNamed(l, e.pieces.Of); ok {
			of = f.Material.Base
		}
		if of == base {
			out.entries = append(out.entries, e)
		}
	}
	return out
}

// FormatsIn are the formats that a month's work sends through one process.
func (u Use) FormatsIn(l *lab.Lab, process string) []Format {
	var out []Format
	for _, e := range u.entries {
		if f, ok := FormatNamed(l, e.pieces.Of); ok && e.process == process {
			out = append(out, f)
		}
	}
	return out
}

// Most is the reference of the format of which a month treats the largest area,
// among those that are asked for; of two alike, the first by name. It is empty where
// a month names none of them.
func (u Use) Most(l *lab.Lab, among []Format) string {
	areas := map[string]float64{}
	for _, e := range u.entries {
		for _, f := range among {
			if area, ok := f.Area(); f.Ref() == e.pieces.Of && ok {
				areas[f.Ref()] += float64(e.pieces.Count) * float64(area.Value)
				break
			}
		}
	}
	most := ""
	for _, ref := range keys(areas) {
		if most == "" || areas[ref] > areas[most] {
			most = ref
		}
	}
	return most
}

// Known reports whether anything was written.
func (u Use) Known() bool { return len(u.entries) > 0 }

// day is the month's work on the base of a format, as pieces of that format in a
// day.
func (u Use) day(l *lab.Lab, b lab.Bath, f Format) (figure.Figure[unit.Factor], bool) {
	part := "," + string(f.Material.Base)
	var parts []figure.Figure[unit.Area]
	for _, e := range u.OfBase(l, f.Material.Base).entries {
		area := rollArea
		if e.pieces.Of != "" {
			of, ok := FormatNamed(l, e.pieces.Of)
			if !ok {
				continue
			}
			if area, ok = of.Area(); !ok {
				continue
			}
		}
		n := e.pieces.Figure("pieces in a month")
		parts = append(parts, entryArea.Of(fmt.Sprintf("use/%s.%d", e.process, e.nth), n, area))
	}
	own, ok := f.Area()
	if !ok || len(parts) == 0 {
		return figure.Figure[unit.Factor]{}, false
	}
	month := monthArea.Of(b.Ref()+"/use"+part, parts...)
	days := figure.Constant(unit.Factor(daysInMonth), "days in a month", "a twelfth of 365.25 days", figure.Standard)
	return perDay.Of(b.Ref()+"/use@"+f.Ref()+part, month, own, days).Show(figure.KindCount, "0.01", unit.Nearest, ""), true
}

// LifeInUse is how long a bath lasts once it is opened or poured, and the state in
// which it is used.
func LifeInUse(k lab.Keeps) (life lab.SaidLife, state string) {
	for _, s := range []struct {
		life  lab.SaidLife
		state string
	}{{k.Tray, "tray"}, {k.Poured, "poured"}, {k.Part, "part"}, {k.Full, "full"}} {
		if s.life.Given() {
			return s.life, s.state
		}
	}
	return lab.SaidLife{}, ""
}

// days is a life in days; ok is false for lives told in hours, which end with
// the evening and are no match for a month's rate.
func days(l unit.Life) (float64, bool) {
	switch {
	case l.Days > 0:
		return float64(l.Days), true
	case l.Months > 0:
		return float64(l.Months) * daysInMonth, true
	}
	return 0, false
}

// Of works out what a volume of a bath treats of one format (E2 to E5). keeps
// are the bath's lives.
func Of(m *mix.Mixer, b lab.Bath, f Format, volume unit.Quantity[unit.Volume], place int, use Use, keeps lab.Keeps) Capacity {
	w := worker{m: m, b: b, f: f, use: use, out: Capacity{Bath: b, Format: f, Volume: volume, Place: place}}
	w.at = "@" + f.Ref() + "," + mix.Tag(volume.Exact())
	if place > 0 {
		w.at += fmt.Sprintf(",place=%d", place)
	}
	w.v = figure.Constant(volume.Value(), "volume of the bath", "", figure.Standard)
	w.limits()
	w.age(keeps)
	w.govern()
	return w.out
}

type worker struct {
	m   *mix.Mixer
	b   lab.Bath
	f   Format
	v   figure.Figure[unit.Volume]
	at  string
	use Use
	out Capacity
	// pace is how many are done before age ends it.
	pace figure.Figure[unit.Factor]
}

func (w *worker) bound(by, words string, fig figure.Figure[unit.Factor]) {
	w.out.Bounds = append(w.out.Bounds, Bound{By: by, Words: words, Fig: fig.Show(figure.KindCount, "1", unit.Down, "")})
}

func (w *worker) id(by string) string { return w.b.Ref() + "/capacity." + by + w.at }

func (w *worker) limits() {
	s := w.b.Decl()
	if s == nil {
		return
	}
	if s.Needs.Given() && s.Use == "one-shot" {
		needs := s.Needs.Figure("least for one roll")
		if q, ok := w.f.Rolls(); ok {
			least := needs
			if q.Value != 1 {
				least = pieceNeed.Of(w.b.Ref()+"/needs@"+w.f.Ref(), needs, q)
			}
			draw, drawn, none := w.leastDraw(least)
			if none {
				w.out.NoWhy = "no tank of this room holds enough for one"
				return
			}
			if drawn {
				least = drawnAtLeast.Of(w.b.Ref()+"/drawn@"+w.f.Ref(), least, draw)
			}
			w.bound("stock", "what is in the bottle", stockPieces.Of(w.id("stock"), w.v, least))
		}
	}
	for _, l := range s.LimitsFor(w.f.Material.Base, w.out.Place) {
		switch l.By {
		case "area":
			if a, ok := w.f.Area(); ok {
				w.bound("area", "area", areaPieces.Of(w.id("area"), l.Most.Area.Figure("area that a litre treats"), w.v, a))
			}
		case "rolls":
			if q, ok := w.f.Rolls(); ok {
				w.bound("rolls", "rolls", rollPieces.Of(w.id("rolls"), l.Most.Rolls.Figure("rolls that a litre treats"), w.v, q))
			}
		case "count":
			most := l.Most.PerLitre.Figure("pieces that a litre treats")
			if l.Of == w.f.Ref() {
				w.bound("count", "this house’s count", countPieces.Of(w.id("count"), most, w.v))
			} else if one, area, ok := sizes(w.m.Lab, l.Of, w.f); ok {
				w.bound("count", "this house’s count", countPiecesSized.Of(w.id("count"), most, w.v, one, area))
			}
		case "uses":
			most := l.Most.Uses.Figure("most uses")
			w.out.MostUses = int(whole(float64(most.Value)))
			w.out.Uses = figure.Declare(w.m.Book, w.b.Ref()+"/uses", figure.KindCount, most, fmt.Sprint(w.out.MostUses), "uses")
		case "silver":
			w.silver(l.Limit)
		case "clearing":
			w.out.Test = "or when film takes " + strings.Replace(l.Most.Text(), " x", " times the", 1) + " time to clear, whichever comes first"
		}
	}
}

// leastDraw is the least that any tank draws for one of the format, with as many in
// it as its reels and its solution serve: a tank is filled whatever is loaded. drawn
// is false where the bath is not drawn into tanks here; none, where no tank holds
// enough for one.
func (w *worker) leastDraw(least figure.Figure[unit.VolumePerRoll]) (draw figure.Figure[unit.VolumePerRoll], drawn, none bool) {
	_, dil, ok := w.b.From()
	if !ok {
		return draw, false, false
	}
	stock, water := 1.0, 0.0
	if !dil.None() {
		stock, water = dil.Stock.Float(), dil.Water.Float()
	}
	tanks, _ := Vessels(w.m.Lab)
	best, served, each := -1, 0, 0.0
	for i, v := range tanks {
		if v.Family != w.f.Decl.Family {
			continue
		}
		none = true
		holds := float64(v.Fill.Value()) * stock / (stock + water)
		n := min(v.Takes.N, int(unit.Round(holds/float64(least.Value), 1, unit.Down)))
		if n > 0 && (best < 0 || holds/float64(n) < each) {
			best, served, each = i, n, holds/float64(n)
		}
	}
	if best < 0 {
		return draw, false, none
	}
	v := tanks[best]
	const name = "how many it serves, by its reels and its solution"
	many := v.Takes.Figure(name)
	if served < v.Takes.N {
		many = figure.Constant(unit.Factor(served), name, "whole pieces that the solution in the full tank is enough for", figure.Standard)
	}
	a, b := dil.Figures()
	fill := v.Fill.Figure("fill of the " + v.Name)
	draw = tankDraw.Of(w.b.Ref()+"/draw.each@"+w.f.Ref(), fill, a.Called("parts of the stock"), b, many)
	return draw, true, false
}

// tankDraw is the stock that a full tank draws for each piece in it.
var tankDraw = figure.Register(&figure.F4[unit.VolumePerRoll, unit.Volume, unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "capacity.draw", Name: "stock that a full tank draws for one", Result: "d", Unit: "ml",
		Terms: []figure.Term{{Symbol: "F", Meaning: "fill of the tank", Unit: "ml"}, {Symbol: "a", Meaning: "parts of the stock"}, {Symbol: "b", Meaning: "parts of water"}, {Symbol: "N", Meaning: "how many it serves"}},
		Text:  "F * a / (a + b) / N", Valid: "the tank that draws least for one, loaded as far as its reels and its solution allow", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(f unit.Volume, a, b, n unit.Factor) unit.VolumePerRoll {
		return unit.VolumePerRoll(float64(f) * float64(a/(a+b)/n))
	},
})

// drawnAtLeast is what one really takes: what it needs, or what the tank draws.
var drawnAtLeast = figure.Register(&figure.F2[unit.VolumePerRoll, unit.VolumePerRoll, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "capacity.drawn", Name: "stock that one takes", Result: "s", Unit: "ml",
		Terms: []figure.Term{{Symbol: "s_0", Meaning: "least for one", Unit: "ml"}, {Symbol: "d", Meaning: "what a full tank draws for one", Unit: "ml"}},
		Text:  "max(s_0, d)", Source: "the tank is filled whatever is loaded", Origin: figure.House},
	Go: func(s, d unit.VolumePerRoll) unit.VolumePerRoll { return max(s, d) },
})

// workVolume is what a volume of stock makes.
var workVolume = figure.Register(&figure.F3[unit.Volume, unit.Volume, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "capacity.work", Name: "bath that the stock makes", Result: "W", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "stock", Unit: "ml"}, {Symbol: "a", Meaning: "parts of the stock"}, {Symbol: "b", Meaning: "parts of water"}},
		Text:  "V * (a + b) / a", Source: "mass balance", Origin: figure.Standard},
	Go: func(v unit.Volume, a, b unit.Factor) unit.Volume { return v * unit.Volume((a+b)/a) },
})

func (w *worker) silver(l lab.Limit) {
	if l.Place > 1 {
		w.out.NoWhy = "how many it treats is not worked out here: when the first is spent, it becomes the first"
		return
	}
	each, ok := SilverEach(w.m.Lab, w.f)
	if !ok {
		w.out.NoWhy = "nobody has written " + missingSilver(w.f.Material) + " of " + w.f.Material.Name
		return
	}
	fresh := figure.Constant(unit.Concentration(0), "silver in a fresh bath", "", figure.Standard)
	w.bound("silver", "silver", silverPieces.Of(w.id("silver"), l.Most.Silver.Figure("most silver the bath may hold"), fresh, w.v, each))
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

// age adds the limit of age at the lab's own rate.
func (w *worker) age(keeps lab.Keeps) {
	life, state := LifeInUse(keeps)
	if !life.Given() {
		return
	}
	n, long := days(life.Life)
	if !long {
		w.out.Evening = life.Text()
		return
	}
	if len(w.out.Bounds) == 0 {
		return
	}
	rate, ok := w.use.day(w.m.Lab, w.b, w.f)
	if !ok {
		return
	}
	whole := unit.Round(n, 1, unit.Down)
	lasts := life.Figure("life, " + stateWord(state)).WithValue(unit.Factor(n))
	w.out.Life = figure.Declare(w.m.Book, w.b.Ref()+"/life", figure.KindCount, lasts.WithValue(unit.Factor(whole)), unit.Short(whole), "days")
	w.pace = agePieces.Of(w.id("age"), rate, lasts)
	w.out.Pace = int(w.pace.Value)
	w.bound("age", "age", w.pace)
	w.out.Aged = figure.Enter(w.m.Book, w.out.Bounds[len(w.out.Bounds)-1].Fig)
}

func stateWord(key string) string {
	switch key {
	case "tray":
		return "in the tray"
	case "poured":
		return "poured"
	case "part":
		return "opened"
	}
	return "full"
}

// govern finds the smallest bound and what it costs.
func (w *worker) govern() {
	o := &w.out
	if len(o.Bounds) == 0 && o.NoWhy == "" && o.Uses != nil {
		o.By, o.Governs, o.CostWhy = "uses", "uses", "it is counted in uses, not in pieces"
		o.Verdict = w.m.Book.EnterVerdict(figure.Verdict{ID: w.b.Ref() + "/governs" + w.at, Answer: fmt.Sprintf("%d uses, however many at once", o.MostUses), Limits: []string{fmt.Sprintf("uses: %d", o.MostUses)}, Because: []string{"uses say no first"}, Source: "the smallest of its limits"})
		return
	}
	if len(o.Bounds) == 0 || o.NoWhy != "" {
		if o.NoWhy == "" {
			o.NoWhy = "nobody has written a limit that can be counted"
		}
		o.N = w.m.Book.Refuse(w.b.Ref()+"/capacity"+w.at, figure.KindCount, "capacity", "", o.NoWhy, figure.House)
		return
	}
	var least Bound
	var all []figure.Figure[unit.Factor]
	low, high := unit.Factor(math.Inf(1)), unit.Factor(math.Inf(1))
	for _, b := range o.Bounds {
		figure.Enter(w.m.Book, b.Fig)
		if b.By == "age" {
			continue
		}
		all = append(all, b.Fig)
		low, high = min(low, b.Fig.Low), min(high, b.Fig.High) // a range belongs to the answer: no limit is passed for another's doubt
		if least.By == "" || b.Fig.Value < least.Fig.Value {
			least = b
		}
	}
	for _, b := range o.Bounds {
		if b.By != "age" && b.By != least.By && b.Fig.Value == least.Fig.Value {
			o.With = append(o.With, b.Words)
		}
	}
	n := leastOf.Of(w.b.Ref()+"/capacity"+w.at, all...).Named("how many "+w.f.Name()).Show(figure.KindCount, "1", unit.Down, "")
	n = n.WithBounds(low, high).In(w.f.Pieces(int(n.Value)))
	o.N, o.Count, o.By, o.Governs = figure.Enter(w.m.Book, n), int(n.Value), least.By, least.By
	o.Range = n
	var limits []string
	for _, b := range o.Bounds {
		limits = append(limits, fmt.Sprintf("%s: %d", b.Words, int(b.Fig.Value)))
	}
	because := []string{least.Words + " says no first"}
	if len(o.With) > 0 {
		because[0] = strings.Join(append([]string{least.Words}, o.With...), " and ") + " say no at once"
	}
	answer := fmt.Sprintf("%d × %s, by %s", o.Count, w.f.Name(), least.Words)
	done := n
	if o.Aged != nil && o.Pace < o.Count {
		o.Governs, o.With, done = "age", nil, w.pace
		answer += fmt.Sprintf("; ended by age after %d at this house’s pace", o.Pace)
		because = []string{"age says no first", "then " + because[0]}
	}
	if o.Evening != "" {
		because = append(because, "and out "+o.Evening+" after pouring, whatever was done in it")
	}
	if o.Uses != nil {
		because = append(because, fmt.Sprintf("or after %d uses, whichever comes first", o.MostUses))
	}
	if o.Test != "" {
		because = append(because, o.Test)
	}
	o.Verdict = w.m.Book.EnterVerdict(figure.Verdict{ID: w.b.Ref() + "/governs" + w.at, Answer: answer, Limits: limits, Because: because, Source: "the smallest of its limits"})
	w.cost(done, n)
}

func (w *worker) cost(n, ideal figure.Figure[unit.Factor]) {
	of, v := w.b, w.v
	if s := w.b.Decl(); s != nil && s.Use == "one-shot" {
		if _, dil, ok := w.b.From(); ok && !dil.None() { // the volume is stock; its water costs too
			stock, water := dil.Figures()
			v = workVolume.Of(w.b.Ref()+"/work@"+mix.Tag(w.out.Volume.Exact()), w.v, stock.Called("parts of the stock"), water)
		}
	}
	litre, why := w.m.CostOf(of)
	if why != "" || n.Value < 1 {
		w.out.CostWhy = why
		if why == "" {
			w.out.CostWhy = "it is not enough for one"
		}
		return
	}
	whole := batchCost.Of(of.Ref()+"/cost@"+mix.Tag(w.out.Volume.Exact()), litre, v)
	record := litre.Record()
	show := func(f figure.Figure[unit.Money]) *figure.Record {
		return figure.Enter(w.m.Book, f.Show(figure.KindMoney, centStep(f.Value), unit.Nearest, "").In(record.Unit))
	}
	w.out.Cost = show(costEach.Of(w.b.Ref()+"/cost.each"+w.at, whole, n).Named("cost of one, " + w.f.Name()))
	if w.out.Governs == "age" && ideal.Value > n.Value {
		w.out.IdealCost = show(costEach.Of(w.b.Ref()+"/cost.ideal"+w.at, whole, ideal).Named("cost of one, if age did not end it"))
	}
}

// centStep shows what costs less than two cents in tenths of one.
func centStep(v unit.Money) string {
	if v < 0.02 {
		return "0.001"
	}
	return "0.01"
}

// Worth is the largest batch of stock worth mixing for a one-shot strength (E6),
// or nil where nobody has written the life or the rate.
func Worth(m *mix.Mixer, b lab.Bath, f Format, use Use, keeps lab.Keeps) *figure.Record {
	s := b.Decl()
	life, state := LifeInUse(keeps)
	n, long := days(life.Life)
	if s == nil || !s.Needs.Given() || !long {
		return nil
	}
	rate, ok := use.day(m.Lab, b, f)
	if !ok {
		return nil
	}
	lasts := life.Figure("life, " + stateWord(state)).WithValue(unit.Factor(n))
	fig := worthMixing.Of(b.Ref()+"/worth", rate, lasts, s.Needs.Figure("stock for one roll"))
	return figure.Enter(m.Book, fig.Show(figure.KindAmount, "50", unit.Down, ""))
}

// RollCost is what the stock for one roll costs (I5).
func RollCost(m *mix.Mixer, b lab.Bath) (cost *figure.Record, why string) {
	s := b.Decl()
	if s == nil || !s.Needs.Given() {
		return nil, ""
	}
	of := b
	if from, _, ok := b.From(); ok {
		of = from
	}
	litre, why := m.CostOf(of)
	if why != "" {
		return nil, why
	}
	fig := rollCost.Of(b.Ref()+"/cost.roll", s.Needs.Figure("stock for one roll"), litre)
	return figure.Enter(m.Book, fig.Show(figure.KindMoney, "0.01", unit.Nearest, "").In(litre.Record().Unit)), ""
}

// Coat is how much sensitiser so many sheets take (G4).
func Coat(m *mix.Mixer, b lab.Bath, f Format, sheets int) (figure.Figure[unit.Volume], bool) {
	n := figure.Constant(unit.Factor(sheets), "sheets", "", figure.Standard)
	v, ok := coated(m, b, f, fmt.Sprintf("%s/coat@%s,%d", b.Ref(), f.Ref(), sheets), n)
	if !ok {
		return v, false
	}
	return v.Named("sensitiser to mix").Show(figure.KindAmount, "2", unit.Up, ""), true
}

// coated is what n sheets of a format take, with what stays in brush and dish.
func coated(m *mix.Mixer, b lab.Bath, f Format, id string, n figure.Figure[unit.Factor]) (figure.Figure[unit.Volume], bool) {
	s := b.Decl()
	area, ok := f.Area()
	if s == nil || !s.Coat.Given() || !ok && !s.Coat.Sheet.Given() {
		return figure.Figure[unit.Volume]{}, false
	}
	stays := figure.DefaultOf(unit.Percent(0), "0 %", "added for what stays in brush and dish: none written", "nothing is added for it")
	if s.Loss.Given() {
		stays = s.Loss.Figure("added for what stays in brush and dish")
	}
	if s.Coat.Sheet.Given() {
		return coatSheets.Of(id, n, s.Coat.Sheet.Figure("what covers a sheet"), stays), true
	}
	return coatVolume.Of(id, n, area, s.Coat.Area.Figure("what covers a square metre"), stays), true
}

// CoatSheet is what is brushed onto one sheet of a format, without what stays in
// the brush; nil where nobody has written it.
func CoatSheet(m *mix.Mixer, b lab.Bath, f Format) *figure.Record {
	s := b.Decl()
	area, ok := f.Area()
	if s == nil || !s.Coat.Given() || !ok && !s.Coat.Sheet.Given() {
		return nil
	}
	id := b.Ref() + "/coat.sheet@" + f.Ref()
	if s.Coat.Sheet.Given() {
		one := s.Coat.Sheet.Figure("brushed onto one sheet")
		return figure.Declare(m.Book, id, figure.KindAmount, one, unit.Short(float64(one.Value)), "ml")
	}
	one := coatOne.Of(id, area, s.Coat.Area.Figure("what covers a square metre"))
	return figure.Enter(m.Book, one.Show(figure.KindAmount, "0.1", unit.Nearest, "syringe"))
}

// coatSheets is G4 where what covers a sheet is known.
var coatSheets = figure.Register(&figure.F3[unit.Volume, unit.Factor, unit.VolumePerSheet, unit.Percent]{
	Formula: figure.Formula{ID: "coat.sheets", Name: "sensitiser to mix", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "N", Meaning: "sheets"}, {Symbol: "u", Meaning: "what covers a sheet", Unit: "ml/sheet"}, {Symbol: "l", Meaning: "added for what stays in brush and dish", Unit: "%"}},
		Text:  "N * u * (1 + l / 100)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, u unit.VolumePerSheet, l unit.Percent) unit.Volume {
		return unit.Volume(float64(n) * float64(u) * (1 + float64(l)/100))
	},
})

// coatOne is what is brushed onto one sheet.
var coatOne = figure.Register(&figure.F2[unit.Volume, unit.Area, unit.VolumePerArea]{
	Formula: figure.Formula{ID: "coat.one", Name: "brushed onto one sheet", Result: "v", Unit: "ml",
		Terms: []figure.Term{{Symbol: "A", Meaning: "coated area of one", Unit: "cm²"}, {Symbol: "u", Meaning: "what covers a square metre", Unit: "ml/m²"}},
		Text:  "A / 10000 * u", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(a unit.Area, u unit.VolumePerArea) unit.Volume {
		return unit.Volume(float64(a) / 10000 * float64(u))
	},
})

// Places lists the places of a two-bath row that a strength has limits for;
// {0} where no limit names one.
func Places(s *lab.Strength, base lab.Base) []int {
	seen := map[int]bool{}
	for _, l := range s.Limits {
		if l.Place > 0 && (l.For == "" || l.For == base) {
			seen[int(l.Place)] = true
		}
	}
	if len(seen) == 0 {
		return []int{0}
	}
	var out []int
	for p := range seen {
		out = append(out, p)
	}
	sort.Ints(out)
	return out
}
