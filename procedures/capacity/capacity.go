// Package capacity says how many rolls a vessel really serves and how films
// are counted.
package capacity

import (
	"fmt"
	"math/big"
	"slices"
	"sort"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// stockRolls is M1 and A6: rolls that the solution in a vessel is enough for.
var stockRolls = figure.Register(&figure.F2[unit.Rolls, unit.Volume, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "rolls.stock", Name: "rolls that the solution in the vessel serves", Result: "N",
		Unit: "rolls",
		Terms: []figure.Term{{Symbol: "V_s", Meaning: "solution in the vessel", Unit: "ml"},
			{Symbol: "s", Meaning: "least for one roll", Unit: "ml/roll"}},
		Text: "floor(V_s / s)", Valid: "one-shot; s belongs to film, developer and dilution",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: wholeRolls,
})

// leftRolls is A6: rolls that a rest of stock is enough for.
var leftRolls = figure.Register(&figure.F2[unit.Rolls, unit.Volume, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "rolls.left", Name: "rolls that a rest of solution serves", Result: "n", Unit: "rolls",
		Terms: []figure.Term{{Symbol: "V_left", Meaning: "solution left", Unit: "ml"},
			{Symbol: "s", Meaning: "least for one roll", Unit: "ml/roll"}},
		Text: "floor(V_left / s)", Valid: "up to what the tank serves", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: wholeRolls,
})

func wholeRolls(v unit.Volume, s unit.VolumePerRoll) unit.Rolls {
	return unit.Rolls(unit.Round(float64(v)/float64(s), 1, unit.Down))
}

// stockNeed is A6: the solution that rolls in a tank need.
var stockNeed = figure.Register(&figure.F3[unit.Volume, unit.Rolls, unit.VolumePerRoll, unit.Volume]{
	Formula: figure.Formula{ID: "rolls.need", Name: "solution needed", Result: "need", Unit: "ml",
		Terms: []figure.Term{{Symbol: "N", Meaning: "rolls", Unit: "rolls"},
			{Symbol: "s", Meaning: "least for one roll", Unit: "ml/roll"},
			{Symbol: "V_s", Meaning: "solution that fills the tank", Unit: "ml"}},
		Text: "max(N * s, V_s)", Valid: "the tank is filled whatever is loaded", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(n unit.Rolls, s unit.VolumePerRoll, v unit.Volume) unit.Volume {
		return max(unit.Volume(float64(n)*float64(s)), v)
	},
})

// equivalents is E1.
var equivalents = figure.Register(&figure.FN[unit.Rolls, unit.Rolls]{
	Formula: figure.Formula{ID: "rolls.sum", Name: "rolls, counted as equivalents", Result: "N_eq", Unit: "rolls",
		Terms: []figure.Term{{Symbol: "n", Meaning: "share of each film", Unit: "rolls"}},
		Text:  "sum(n)", Valid: "one 135-36 = one 120 = one 8×10 in print = four 4×5 in sheets",
		Source: "common practice, no source", Origin: figure.Default},
	Go: figure.Total[unit.Rolls],
})

// rollShare is one format's part of E1.
var rollShare = figure.Register(&figure.F2[unit.Rolls, unit.Factor, unit.Rolls]{
	Formula: figure.Formula{ID: "rolls.share", Name: "share of one format", Result: "n", Unit: "rolls",
		Terms: []figure.Term{{Symbol: "k", Meaning: "how many"},
			{Symbol: "q", Meaning: "equivalents of one", Unit: "rolls"}},
		Text: "k * q", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(k unit.Factor, q unit.Rolls) unit.Rolls { return unit.Rolls(float64(k) * float64(q)) },
})

// runs is I1.
var runs = figure.Register(&figure.F2[unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "runs", Name: "runs", Result: "R", Unit: "runs",
		Terms: []figure.Term{{Symbol: "N", Meaning: "rolls"}, {Symbol: "k", Meaning: "rolls that one run takes"}},
		Text:  "ceil(N / k)", Valid: "films of one time only", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n, k unit.Factor) unit.Factor { return unit.Factor(unit.Round(float64(n)/float64(k), 1, unit.Up)) },
})

// areaOf is the area of a strip or sheet.
var areaOf = figure.Register(&figure.F2[unit.Area, unit.Length, unit.Length]{
	Formula: figure.Formula{ID: "area", Name: "area", Result: "A", Unit: "cm²",
		Terms: []figure.Term{{Symbol: "w", Meaning: "width", Unit: "mm"}, {Symbol: "l", Meaning: "length", Unit: "mm"}},
		Text:  "w * l / 100", Valid: "the whole strip that goes through the baths, not the frames",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(w, l unit.Length) unit.Area { return unit.Area(float64(w) * float64(l) / 100) },
})

// Vessel is a tank with one family of formats, or a tray.
type Vessel struct {
	Key    string // "double", "five,120"
	Name   string
	Family string
	// Takes is how many pieces go into a tank; not given for a tray.
	Takes lab.SaidNumber
	Fill  lab.Said[unit.Volume]
	// Pour is how long pouring in takes, where it takes long.
	Pour lab.Said[unit.Seconds]
	Tray bool
	// Rolls: what it takes are rolls on reels, no sheets.
	Rolls bool
	// Formats are what the lab says lies flat in a tray; empty: what its inside allows.
	Formats []string
	Inside  lab.Sides
	// Material is what is loaded; nil: any that comes in the family.
	Material *lab.Material
}

// Fits reports whether one piece of a format goes into the vessel: on its reels, or
// flat on its bottom. Where nobody has written the sides of a tray, any does.
func (v Vessel) Fits(f Format) bool {
	switch {
	case !v.Tray:
		return f.Decl.Family == v.Family
	case len(v.Formats) > 0:
		return slices.Contains(v.Formats, f.ID)
	case v.Inside.Given() && f.Decl.Width.Positive() && f.Decl.Length.Positive():
		return v.Inside.Holds(f.Decl.Width.Value(), f.Decl.Length.Value())
	}
	return true
}

// equivalents is the part of an id that says for which formats the equivalents hold.
func (v Vessel) equivalents(l *lab.Lab) string {
	if v.Material == nil {
		return v.Family
	}
	_, any, _ := equivalentOf(l, v.Family, nil)
	if _, own, ok := equivalentOf(l, v.Family, v.Material); !ok || any != nil && own.Cmp(any) == 0 {
		return v.Family
	}
	return v.Family + "," + v.Material.ID
}

// tag is the part of an id that names the vessel, and what is loaded where that counts
// otherwise than the rest of its family.
func (v Vessel) tag(l *lab.Lab) string {
	if e := v.equivalents(l); e != v.Family {
		return v.Key + strings.TrimPrefix(e, v.Family)
	}
	return v.Key
}

// Pieces is the word for n of what the vessel takes.
func (v Vessel) Pieces(n int) string {
	word := "sheet"
	if v.Rolls {
		word = "roll"
	}
	if n != 1 {
		word += "s"
	}
	return word
}

// family lists the formats of a family: those of the table, and those that
// materials bring along.
func family(l *lab.Lab, name string) []Format {
	var out []Format
	for _, id := range keys(l.Formats.Format) {
		if f := l.Formats.Format[id]; f.Family == name {
			out = append(out, Format{ID: id, Decl: f})
		}
	}
	for _, m := range l.Materials {
		for _, id := range keys(m.Format) {
			if f := m.Format[id]; f.Family == name {
				out = append(out, Format{Material: m, ID: id, Decl: f})
			}
		}
	}
	return out
}

// equivalentOf is how many rolls one piece of a family counts as; of several formats
// of the material, or of any where that is nil, the largest.
func equivalentOf(l *lab.Lab, name string, of *lab.Material) (figure.Figure[unit.Rolls], *big.Rat, bool) {
	var best *Format
	formats := family(l, name)
	if of != nil {
		formats = slices.DeleteFunc(Formats(l, of), func(f Format) bool { return f.Decl.Family != name })
	}
	for _, f := range formats {
		if f.Decl.Rolls.Positive() && (best == nil || f.Decl.Rolls.Value() > best.Decl.Rolls.Value()) {
			best = &f
		}
	}
	if best == nil {
		return figure.Figure[unit.Rolls]{}, nil, false
	}
	return best.Decl.Rolls.Figure("equivalents of one " + lab.InSides(best.ID)), best.Decl.Rolls.Exact(), true
}

// areRolls reports whether the pieces of a family are rolls.
func areRolls(l *lab.Lab, name string) bool {
	for _, f := range family(l, name) {
		if f.Decl.IsRoll() {
			return true
		}
	}
	return false
}

// pieceNeed is the least solution for a piece that is not a whole roll.
var pieceNeed = figure.Register(&figure.F2[unit.VolumePerRoll, unit.VolumePerRoll, unit.Rolls]{
	Formula: figure.Formula{ID: "rolls.need.piece", Name: "least for one piece", Result: "s_p", Unit: "ml",
		Terms: []figure.Term{{Symbol: "s", Meaning: "least for one roll", Unit: "ml/roll"},
			{Symbol: "q", Meaning: "equivalents of one piece", Unit: "rolls"}},
		Text: "s * q", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(s unit.VolumePerRoll, q unit.Rolls) unit.VolumePerRoll { return s * unit.VolumePerRoll(q) },
})

// Vessels lists the tanks, each once for every family it has a fill of its own
// for, and the trays, smallest first.
func Vessels(l *lab.Lab) (tanks, trays []Vessel) {
	p := l.Place
	for _, id := range keys(p.Tanks) {
		t := p.Tanks[id]
		name := t.Name
		if name == "" {
			name = lab.Title(id) + " tank"
		}
		for _, family := range keys(t.Takes) {
			if t.Takes[family].N == 0 {
				continue
			}
			fill := t.Fill.Of(family)
			if !fill.Positive() {
				continue
			}
			tanks = append(tanks, Vessel{Key: id + "," + family, Name: name, Family: family, Takes: t.Takes[family],
				Fill: fill, Pour: t.Pour, Rolls: areRolls(l, family)})
		}
	}
	for _, id := range keys(p.Trays) {
		t := p.Trays[id]
		name := t.Name
		if name == "" {
			name = lab.Title(id) + " tray"
		}
		if t.Fill.Positive() {
			trays = append(trays, Vessel{Key: id, Name: name, Fill: t.Fill, Tray: true, Formats: t.Takes,
				Inside: t.Inside})
		}
	}
	bySize := func(list []Vessel) {
		sort.SliceStable(list, func(i, j int) bool { return list[i].Fill.Value() < list[j].Fill.Value() })
	}
	bySize(tanks)
	bySize(trays)
	return tanks, trays
}

func keys[T any](m map[string]T) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}

// Served is how many rolls a vessel really serves, and what says no.
type Served struct {
	Rolls   *figure.Record
	Verdict string
	Governs string // "the reels" or "the solution"
	Count   int
	NoneWhy string
}

// Serves works out M1 for a strength in a tank: the reels, or the solution in
// it, whichever says no first.
func Serves(m *mix.Mixer, b lab.Bath, v Vessel, draw *figure.Record) Served {
	s := b.Decl()
	takes := figure.Cast[unit.Rolls](v.Takes.Figure("rolls the tank takes"))
	tag := v.tag(m.Lab)
	id := figure.ID(b.Ref(), "rolls", tag)
	if draw.Refused() {
		return Served{NoneWhy: "the dilution cannot be measured"}
	}
	if s == nil || !s.Needs.Given() {
		return Served{
			Rolls:   figure.Declare(m.Book, id, figure.KindCount, takes, fmt.Sprint(v.Takes.N), v.Pieces(v.Takes.N)),
			Governs: "the reels", Count: v.Takes.N,
		}
	}
	needs := s.Needs.Figure("least for one roll")
	least := needs
	if q, _, ok := equivalentOf(m.Lab, v.Family, v.Material); ok && q.Value != 1 {
		least = pieceNeed.Of(figure.ID(b.Ref(), "needs."+v.equivalents(m.Lab)), needs, q).Named("least for one " +
			v.Pieces(1)).
			In("ml/" + v.Pieces(1))
	}
	stock := figure.Entered[unit.Volume](draw)
	byStock := stockRolls.Of(figure.ID(b.Ref(), "rolls.solution", tag), stock, least).Show(figure.KindCount, "1",
		unit.Down, "").
		In(v.Pieces(2))
	figure.Enter(m.Book, byStock)
	out := Served{Count: v.Takes.N, Governs: "the reels"}
	if int(byStock.Value) < v.Takes.N {
		out.Count, out.Governs = int(byStock.Value), "the solution"
	}
	fig := fewest.Of(id, byStock, takes).Show(figure.KindCount, "1", unit.Down, "").In(v.Pieces(out.Count))
	out.Rolls = figure.Enter(m.Book, fig)
	out.Verdict = m.Book.EnterVerdict(figure.Verdict{
		ID:     figure.ID(b.Ref(), "serves", tag),
		Answer: fmt.Sprintf("%d × %s", out.Count, lab.InSides(v.Family)),
		Limits: []string{fmt.Sprintf("reels: %d", v.Takes.N),
			fmt.Sprintf("solution: %s ml at %s ml a %s is enough for %d", draw.Shown, unit.Short(float64(least.Value)),
				v.Pieces(1), int(byStock.Value))},
		Because: []string{"limited by " + out.Governs,
			"the tank is filled whatever is loaded: one roll alone uses as much"},
		Source: "common practice, no source",
	})
	return out
}

// EnoughFor is how many whole rolls a drawn amount is enough for, whatever it is
// poured into; false where nobody has written what a roll needs.
func EnoughFor(m *mix.Mixer, b lab.Bath, draw *figure.Record) (rolls *figure.Record, count int, ok bool) {
	s := b.Decl()
	if s == nil || !s.Needs.Given() || draw == nil || draw.Refused() {
		return nil, 0, false
	}
	fig := leftRolls.Of(figure.Beside(draw.ID, "rolls"), figure.Entered[unit.Volume](draw),
		s.Needs.Figure("least for one roll")).
		Show(figure.KindCount, "1", unit.Down, "")
	return figure.Enter(m.Book, fig.In("rolls")), int(fig.Value), true
}

// fewest is the smaller of two limits.
var fewest = figure.Register(&figure.F2[unit.Rolls, unit.Rolls, unit.Rolls]{
	Formula: figure.Formula{ID: "rolls.fewest", Name: "rolls the vessel serves", Result: "N", Unit: "rolls",
		Terms: []figure.Term{{Symbol: "N_s", Meaning: "rolls by the solution", Unit: "rolls"},
			{Symbol: "N_r", Meaning: "rolls by the reels", Unit: "rolls"}},
		Text: "min(N_s, N_r)", Source: "the lowest limit counts", Origin: figure.Standard},
	Go: func(a, b unit.Rolls) unit.Rolls { return min(a, b) },
})

// Share enters how many roll equivalents k of a format are.
func Share(l *lab.Lab, id string, k int, format string) (figure.Figure[unit.Rolls], bool) {
	f, ok := l.Formats.Format[format]
	if !ok || !f.Rolls.Given() {
		return figure.Figure[unit.Rolls]{}, false
	}
	q := f.Rolls.Figure("equivalents of one " + lab.InSides(format))
	n := figure.Constant(unit.Factor(k), "how many", "", figure.Standard)
	return rollShare.Of(id, n, q), true
}

// Sum adds shares to roll equivalents (E1).
func Sum(id string, shares ...figure.Figure[unit.Rolls]) figure.Figure[unit.Rolls] {
	return equivalents.Of(id, shares...).Show(figure.KindCount, "0.1", unit.Nearest, "").In("rolls")
}

// Runs works out I1: how many runs a number of rolls takes.
func Runs(id string, rolls int, per figure.Figure[unit.Factor]) figure.Figure[unit.Factor] {
	n := figure.Constant(unit.Factor(rolls), "rolls", "", figure.Standard)
	return runs.Of(id, n, per).Show(figure.KindCount, "1", unit.Up, "").In("runs")
}

// Need works out A6: the solution that n rolls in a tank take, and a refusal
// where the tank's fill at this dilution cannot hold enough for them.
func Need(m *mix.Mixer, b lab.Bath, v Vessel, n int, draw *figure.Record) (need *figure.Record, why string) {
	s := b.Decl()
	if draw.Refused() || s == nil || !s.Needs.Given() {
		return nil, ""
	}
	id := figure.ID(b.Ref(), "need", v.Key, fmt.Sprint(n))
	needs := s.Needs.Figure("least for one roll")
	least := needs
	if q, _, ok := equivalentOf(m.Lab, v.Family, v.Material); ok && q.Value != 1 {
		least = pieceNeed.Of(figure.ID(b.Ref(), "needs."+v.equivalents(m.Lab)), needs, q).Named("least for one " +
			v.Pieces(1)).
			In("ml/" + v.Pieces(1))
	}
	rolls := figure.Constant(unit.Rolls(n), v.Pieces(n), "", figure.Standard)
	stock := figure.Entered[unit.Volume](draw)
	fig := stockNeed.Of(id, rolls, least, stock)
	if unit.Snap(float64(fig.Value)) > unit.Snap(float64(stock.Value)) {
		why = fmt.Sprintf("%s ml do not fit into a fill that holds %s ml", unit.Short(float64(fig.Value)), draw.Shown)
		return m.Book.Refuse(id, figure.KindAmount, "solution needed", "ml", why, fig.Origin()), why
	}
	if unit.Snap(float64(fig.Value)) == unit.Snap(float64(stock.Value)) { // rounded as on its own card
		if shown, err := unit.ParseDecimal(draw.Rounded); err == nil {
			step := shown
			if d, err := unit.ParseDecimal(draw.Round.Step); err == nil {
				step = d
			}
			fig = fig.ShowAs(figure.KindAmount, shown.Float(), unit.NewDecimal(1, uint8(shown.Places())), unit.Nearest,
				draw.Round.Device).RoundedTo(step)
			return figure.Enter(m.Book, fig), ""
		}
	}
	return figure.Enter(m.Book, fig.Show(figure.KindAmount, "1", unit.Up, "")), ""
}

// Left works out A5 and A6 for a rest in the bottle: the largest volume it
// makes, and how many rolls it is enough for.
func Left(m *mix.Mixer, b lab.Bath, left unit.Quantity[unit.Volume]) (volume, rolls *figure.Record) {
	s := b.Decl()
	rest := figure.Constant(left.Value(), "solution left", "", figure.Standard)
	tag := mix.Tag(left.Exact())
	volume = m.Largest(b, rest, tag)
	if s != nil && s.Needs.Given() {
		needs := s.Needs.Figure("least for one roll")
		rolls = figure.Enter(m.Book, leftRolls.Of(figure.ID(b.Ref(), "rolls.left", tag), rest, needs).
			Show(figure.KindCount, "1", unit.Down, "").In("rolls"))
	}
	return volume, rolls
}
