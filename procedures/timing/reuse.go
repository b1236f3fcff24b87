package timing

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// longer is D4: the time in a developer that has done rolls before.
var longer = figure.Register(&figure.F4[unit.Seconds, unit.Seconds, unit.PerRollLitre, unit.Rolls, unit.Volume]{
	Formula: figure.Formula{ID: "time.reuse", Name: "time in a used developer", Result: "t", Unit: "s",
		Terms: []figure.Term{{Symbol: "t_0", Meaning: "time in fresh developer", Unit: "s"},
			{Symbol: "e", Meaning: "longer for each roll in a litre", Unit: "% per roll/L"},
			{Symbol: "n", Meaning: "rolls already done in it", Unit: "rolls"},
			{Symbol: "V", Meaning: "volume made", Unit: "ml"}},
		Text:   "t_0 * (1 + e / 100 * n / (V / 1000))",
		Valid:  "up to the limit in rolls per litre, this run counted; the extension comes from the house's own test",
		Source: "common practice, no source", Origin: figure.Default},
	Go: func(t unit.Seconds, e unit.PerRollLitre, n unit.Rolls, v unit.Volume) unit.Seconds {
		return unit.Seconds(float64(t) * (1 + float64(e)/100*float64(n)/(float64(v)/1000)))
	},
})

// Reused is the time of a material in a developer that has done n rolls in the
// volume made (D4), at a temperature.
func (t Times) Reused(id string, m *lab.Material, i int, b lab.Bath, at float64, n figure.Figure[unit.Rolls],
	made figure.Figure[unit.Volume]) *figure.Record {
	asFresh, fresh, ok := t.At(m, i, b, at)
	if !ok {
		return asFresh
	}
	each := b.Written().Longer.Figure("longer for each roll in a litre")
	fig := longer.Of(id, fresh, each, n, made).Named("time of " + m.Name + " in this used developer")
	return figure.Enter(t.Book, figure.ShowTime(fig, t.step(), unit.Nearest))
}
