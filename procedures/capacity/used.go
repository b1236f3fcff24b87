package capacity

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// areaHeld is the area that a bath has treated for each litre of it.
var areaHeld = figure.Register(&figure.F2[unit.AreaPerLitre, unit.Area, unit.Volume]{
	Formula: figure.Formula{ID: "area.held", Name: "area treated by each litre", Result: "a", Unit: "m²/L",
		Terms: []figure.Term{{Symbol: "A", Meaning: "area worked", Unit: "cm²"},
			{Symbol: "V", Meaning: "volume made", Unit: "ml"}},
		Text: "A / 10 / V", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(a unit.Area, v unit.Volume) unit.AreaPerLitre {
		return unit.AreaPerLitre(float64(a) / 10 / float64(v))
	},
})

// areaSum adds the areas of a log.
var areaSum = figure.Register(&figure.FN[unit.Area, unit.Area]{
	Formula: figure.Formula{ID: "area.sum", Name: "area worked", Result: "A", Unit: "cm²",
		Terms: []figure.Term{{Symbol: "a", Meaning: "area of each line of the log", Unit: "cm²"}},
		Text:  "sum(a)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: figure.Total[unit.Area],
})

// areaWorked is one line of a log as an area.
var areaWorked = figure.Register(&figure.F2[unit.Area, unit.Factor, unit.Area]{
	Formula: figure.Formula{ID: "area.worked", Name: "area of pieces", Result: "a", Unit: "cm²",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces"}, {Symbol: "A_1", Meaning: "area of one", Unit: "cm²"}},
		Text:  "n * A_1", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, a unit.Area) unit.Area { return unit.Area(n) * a },
})

// countHeld is how many pieces a bath has treated for each litre of it.
var countHeld = figure.Register(&figure.F2[unit.PerLitre, unit.Factor, unit.Volume]{
	Formula: figure.Formula{ID: "count.held", Name: "pieces treated by each litre", Result: "n", Unit: "/L",
		Terms: []figure.Term{{Symbol: "N", Meaning: "pieces worked"},
			{Symbol: "V", Meaning: "volume made", Unit: "ml"}},
		Text: "N / (V / 1000)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, v unit.Volume) unit.PerLitre {
		return unit.PerLitre(float64(n) / (float64(v) / 1000))
	},
})

// AreaOf is the area that the work of a bath comes to, in all and for each litre
// made. why says what could not be counted: then it is the rest, the least it is.
func AreaOf(l *lab.Lab, subject string, work []lab.Pieces,
	made figure.Figure[unit.Volume]) (sum figure.Figure[unit.Area], held figure.Figure[unit.AreaPerLitre], why string) {
	var parts []figure.Figure[unit.Area]
	for i, w := range work {
		one := rollArea
		if w.Of != "" {
			f, _ := FormatNamed(l, w.Of)
			area, ok := f.Area()
			if !ok {
				why = "nobody has written the area of one " + f.ID
				continue
			}
			one = area
		}
		n := w.Figure("pieces")
		parts = append(parts, areaWorked.Of(figure.ID(subject, fmt.Sprintf("area.%d", i+1)), n,
			one).Named("area of "+w.Text()).
			Show(figure.KindAmount, "1", unit.Nearest, ""))
	}
	sum = areaSum.Of(figure.ID(subject, "area.sum"), parts...).Show(figure.KindAmount, "1", unit.Nearest, "")
	return sum, areaHeld.Of(figure.ID(subject, "area"), sum, made).Show(figure.KindAmount, "0.01", unit.Up, ""), why
}

// countSized is how many pieces of one format others come to, by their area; countSum
// adds them.
var (
	countSized = figure.Register(&figure.F3[unit.Factor, unit.Factor, unit.Area, unit.Area]{
		Formula: figure.Formula{ID: "count.sized", Name: "pieces, counted as another format by area", Result: "m",
			Unit: "",
			Terms: []figure.Term{{Symbol: "n", Meaning: "pieces"}, {Symbol: "A", Meaning: "area of one", Unit: "cm²"},
				{Symbol: "A_1", Meaning: "area of one of the format that is counted", Unit: "cm²"}},
			Text: "n * A / A_1", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n unit.Factor, a, one unit.Area) unit.Factor { return n * unit.Factor(a/one) },
	})
	countSum = figure.Register(&figure.FN[unit.Factor, unit.Factor]{
		Formula: figure.Formula{ID: "count.sum", Name: "pieces worked, counted as one format", Result: "n", Unit: "",
			Terms: []figure.Term{{Symbol: "m", Meaning: "pieces of each line of the log"}},
			Text:  "sum(m)", Source: "plain arithmetic", Origin: figure.Standard},
		Go: figure.Total[unit.Factor],
	})
)

// CountOf is how many pieces of one format the work of a bath comes to, in all and
// for each litre made; other sizes of the same base count by their area. why says what
// could not be counted: then it is the rest, the least it is.
func CountOf(l *lab.Lab, subject string, work []lab.Pieces, of string,
	made figure.Figure[unit.Volume]) (pieces figure.Figure[unit.Factor], held figure.Figure[unit.PerLitre],
	why string) {
	counted, _ := FormatNamed(l, of)
	one, sized := counted.Area()
	n := 0
	var others []figure.Figure[unit.Factor]
	for i, w := range work {
		f, ok := FormatNamed(l, w.Of)
		switch {
		case w.Of == of:
			n += w.Count
		case !ok || counted.Material == nil || f.Material.Base != counted.Material.Base:
		default:
			area, known := f.Area()
			if !known || !sized {
				why = "nobody has written the area of one " + f.ID
				continue
			}
			each := w.Figure("pieces")
			others = append(others, countSized.Of(figure.ID(subject, fmt.Sprintf("count.%d", i+1), of), each, area,
				one))
		}
	}
	pieces = figure.Constant(unit.Factor(n), "pieces worked, by the log", "counted in the log", figure.House)
	if len(others) > 0 {
		pieces = countSum.Of(figure.ID(subject, "count.sum", of), append(others, pieces)...)
	}
	return pieces, countHeld.Of(figure.ID(subject, "count", of), pieces, made).Named("pieces of "+of+" for each litre").
		Show(figure.KindCount, "0.1", unit.Up, ""), why
}

// rollsHeld is how many rolls a bath has done for each litre of it.
var rollsHeld = figure.Register(&figure.F2[unit.RollsPerLitre, unit.Rolls, unit.Volume]{
	Formula: figure.Formula{ID: "rolls.held", Name: "rolls done by each litre", Result: "r", Unit: "rolls/L",
		Terms: []figure.Term{{Symbol: "n", Meaning: "rolls done", Unit: "rolls"},
			{Symbol: "V", Meaning: "volume made", Unit: "ml"}},
		Text: "n / (V / 1000)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Rolls, v unit.Volume) unit.RollsPerLitre {
		return unit.RollsPerLitre(float64(n) / (float64(v) / 1000))
	},
})

// RollsHeld is how many rolls the work of a bath comes to for each litre made.
func RollsHeld(subject string, done figure.Figure[unit.Rolls],
	made figure.Figure[unit.Volume]) figure.Figure[unit.RollsPerLitre] {
	return rollsHeld.Of(figure.ID(subject, "rolls"), done, made).Show(figure.KindCount, "0.1", unit.Up, "")
}
