package capacity

import (
	"math"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// What a used bath still treats: E2, E3 and the other limits, less what has been
// done in it.
var (
	areaMore = figure.Register(&figure.F4[unit.Factor, unit.AreaPerLitre, unit.Volume, unit.Area, unit.Area]{
		Formula: figure.Formula{ID: "more.area", Name: "more, by area", Result: "N", Unit: "",
			Terms: []figure.Term{{Symbol: "c", Meaning: "area that a litre treats", Unit: "m²/L"},
				{Symbol: "V", Meaning: "volume made", Unit: "ml"}, {Symbol: "A_0", Meaning: "area worked", Unit: "cm²"},
				{Symbol: "A", Meaning: "area of one", Unit: "cm²"}},
			Text: "max(0, floor((10 * c * V - A_0) / A))", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(c unit.AreaPerLitre, v unit.Volume, done, a unit.Area) unit.Factor {
			return left((10*float64(c)*float64(v) - float64(done)) / float64(a))
		},
	})
	rollsMore = figure.Register(&figure.F4[unit.Factor, unit.RollsPerLitre, unit.Volume, unit.Rolls, unit.Rolls]{
		Formula: figure.Formula{ID: "more.rolls", Name: "more, by rolls", Result: "N", Unit: "",
			Terms: []figure.Term{{Symbol: "r", Meaning: "rolls that a litre treats", Unit: "rolls/L"},
				{Symbol: "V", Meaning: "volume made", Unit: "ml"}, {Symbol: "n", Meaning: "rolls done", Unit: "rolls"},
				{Symbol: "q", Meaning: "equivalents of one", Unit: "rolls"}},
			Text: "max(0, floor((r * V / 1000 - n) / q))", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(r unit.RollsPerLitre, v unit.Volume, n, q unit.Rolls) unit.Factor {
			return left((float64(r)*float64(v)/1000 - float64(n)) / float64(q))
		},
	})
	countMore = figure.Register(&figure.F3[unit.Factor, unit.PerLitre, unit.Volume, unit.Factor]{
		Formula: figure.Formula{ID: "more.count", Name: "more, by the house's count", Result: "N", Unit: "",
			Terms: []figure.Term{{Symbol: "n", Meaning: "pieces that a litre treats", Unit: "/L"},
				{Symbol: "V", Meaning: "volume made", Unit: "ml"}, {Symbol: "k", Meaning: "pieces worked"}},
			Text: "max(0, floor(n * V / 1000 - k))", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n unit.PerLitre, v unit.Volume, k unit.Factor) unit.Factor {
			return left(float64(n)*float64(v)/1000 - float64(k))
		},
	})
	countMoreSized = figure.Register(&figure.F5[unit.Factor, unit.PerLitre, unit.Volume, unit.Factor, unit.Area,
		unit.Area]{
		Formula: figure.Formula{ID: "more.count.sized", Name: "more of another size, by the house's count", Result: "N",
			Unit: "",
			Terms: []figure.Term{{Symbol: "n", Meaning: "pieces that a litre treats", Unit: "/L"},
				{Symbol: "V", Meaning: "volume made", Unit: "ml"}, {Symbol: "k", Meaning: "pieces worked"},
				{Symbol: "A_1", Meaning: "area of one of the format that is counted", Unit: "cm²"},
				{Symbol: "A", Meaning: "area of one", Unit: "cm²"}},
			Text: "max(0, floor((n * V / 1000 - k) * A_1 / A))", Valid: "what a bath treats goes by area",
			Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n unit.PerLitre, v unit.Volume, k unit.Factor, one, a unit.Area) unit.Factor {
			return left((float64(n)*float64(v)/1000 - float64(k)) * float64(one) / float64(a))
		},
	})
	usesMore = figure.Register(&figure.F2[unit.Factor, unit.Uses, unit.Factor]{
		Formula: figure.Formula{ID: "more.uses", Name: "more, by uses", Result: "N", Unit: "",
			Terms: []figure.Term{{Symbol: "u", Meaning: "uses", Unit: "uses"}, {Symbol: "k", Meaning: "uses done"}},
			Text:  "max(0, floor(u - k))", Valid: "one piece at a time; several at once are one use",
			Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(u unit.Uses, k unit.Factor) unit.Factor { return left(float64(u) - float64(k)) },
	})
	silverMore = figure.Register(&figure.F4[unit.Factor, unit.Concentration, unit.Concentration, unit.Volume,
		unit.Mass]{
		Formula: figure.Formula{ID: "more.silver", Name: "more, by silver", Result: "N", Unit: "",
			Terms: []figure.Term{{Symbol: "c_max", Meaning: "most silver the bath may hold", Unit: "g/L"},
				{Symbol: "c_now", Meaning: "silver it holds", Unit: "g/L"},
				{Symbol: "V", Meaning: "volume made", Unit: "ml"},
				{Symbol: "m", Meaning: "silver of one", Unit: "g"}},
			Text: "max(0, floor((c_max - c_now) * V / 1000 / m))", Source: "mass balance", Origin: figure.Standard},
		Go: func(most, now unit.Concentration, v unit.Volume, m unit.Mass) unit.Factor {
			return left(float64(most-now) * float64(v) / 1000 / float64(m))
		},
	})
)

func left(x float64) unit.Factor { return max(0, whole(x)) }

// Done is what has been done in a bath, as its limits count it.
type Done struct {
	Made   figure.Figure[unit.Volume]
	Area   figure.Figure[unit.Area]
	Rolls  figure.Figure[unit.Rolls]
	Silver figure.Figure[unit.Concentration]
	Uses   figure.Figure[unit.Factor]
	// Count is how many pieces of a format were worked, and why not all could be told.
	Count func(of string) (worked figure.Figure[unit.Factor], why string)
	// Unknown says by basis why something could not be counted.
	Unknown map[lab.LimitBasis]string
}

// More is how many more pieces of a format a used bath treats, and which limit
// says so. N is nil where Why says that nobody can tell.
type More struct {
	Format Format
	// Others are the materials of which it treats as many, because it cannot tell them apart.
	Others []*lab.Material
	N      *figure.Record
	Count  int
	By     string // the limit that says no first, in words
	Range  figure.Figure[unit.Factor]
	Why    string
}

// LimitWords are the bases of a limit as cards say them.
var LimitWords = map[lab.LimitBasis]string{"area": "area", "rolls": "rolls", "count": "this lab’s count",
	"uses": "uses", "silver": "silver", "clearing": "clearing time"}

// MoreOf works out how many more of a format a bath treats. limits are those that
// hold for the format.
func MoreOf(l *lab.Lab, book *figure.Ledger, subject string, f Format, limits []lab.LimitAt, done Done) More {
	out := More{Format: f}
	var bounds []figure.Figure[unit.Factor]
	var least figure.Figure[unit.Factor]
	low, high := unit.Factor(math.Inf(1)), unit.Factor(math.Inf(1))
	for _, lim := range limits {
		if why := done.Unknown[lim.By]; why != "" {
			out.Why = why
			continue
		}
		var n figure.Figure[unit.Factor]
		id := figure.ID(subject, "more."+string(lim.By), f.Ref())
		switch lim.By {
		case "area":
			area, ok := f.Area()
			if !ok {
				out.Why = "nobody has written the area of one " + f.ID
				continue
			}
			n = areaMore.Of(id, lim.Most.Area.Figure("area that a litre treats"), done.Made, done.Area, area)
		case "rolls":
			q, ok := f.Rolls()
			if !ok {
				out.Why = "nobody has written how many rolls one " + f.ID + " counts as"
				continue
			}
			n = rollsMore.Of(id, lim.Most.Rolls.Figure("rolls that a litre treats"), done.Made, done.Rolls, q)
		case "count":
			worked, why := done.Count(lim.Of)
			if why != "" {
				out.Why = why
				continue
			}
			most := lim.Most.PerLitre.Figure("pieces that a litre treats")
			if lim.Of == f.Ref() {
				n = countMore.Of(id, most, done.Made, worked)
			} else if one, area, ok := sizes(l, lim.Of, f); ok {
				n = countMoreSized.Of(id, most, done.Made, worked, one, area)
			} else {
				continue
			}
		case "uses":
			n = usesMore.Of(id, lim.Most.Uses.Figure("uses"), done.Uses)
		case "silver":
			each, ok := SilverEach(l, f)
			if !ok {
				out.Why = "nobody has written " + missingSilver(f.Material) + " of " + f.Material.Name
				continue
			}
			n = silverMore.Of(id, lim.Most.Silver.Figure("most silver the bath may hold"), done.Silver, done.Made, each)
		default:
			continue
		}
		n = n.Show(figure.KindCount, "1", unit.Down, "")
		bounds = append(bounds, n)
		low, high = min(low, n.Low), min(high, n.High)
		if out.By == "" || n.Value < least.Value {
			least, out.By = n, LimitWords[lim.By]
		}
	}
	if len(bounds) == 0 {
		if out.Why == "" {
			out.Why = "nobody has written a limit that can be counted"
		}
		return out
	}
	if out.Why != "" && least.Value > 0 { // the limit that nobody can count may say no first
		out.By = ""
		return out
	}
	out.Why = ""
	total := leastOf.Of(figure.ID(subject, "more", f.Ref()), bounds...).Named("how many more, "+f.Name()).
		Show(figure.KindCount, "1", unit.Down, "")
	total = total.WithBounds(low, high).In(f.Pieces(int(total.Value)))
	out.N, out.Count, out.Range = figure.Enter(book, total), int(total.Value), total
	return out
}
