package work

import (
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// spread enters the least and the most that a count may be as a figure of its own, so
// that a card can print them; nil where both are one number.
func (w *Work) spread(f figure.Figure[unit.Factor]) *figure.Record {
	if f.Low == f.High {
		return nil
	}
	of, whole := f.Record(), unit.NewDecimal(1, 0)
	shown := unit.Format(float64(f.Low), whole) + "–" + unit.Format(float64(f.High), whole)
	core := figure.Core{ID: figure.Beside(of.ID, "range"), Value: 2, Series: []float64{float64(f.Low), float64(f.High)},
		Source: of.Source, Origin: of.Origin}
	face := figure.Face{Kind: figure.KindSeries, Name: of.Name + ", range", Shown: shown, Rounded: shown,
		Round: figure.Rounding{Rule: "bounds of the figure"}}
	return w.mix.Book.Enter(figure.Of(core, face, of))
}
