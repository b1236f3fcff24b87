package capacity

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// tankFilled tells how many films a tank serves when a rest of stock is drawn
// from: none where it does not fill the tank, whatever is loaded.
var tankFilled = figure.Register(&figure.F3[unit.Rolls, unit.Volume, unit.Volume, unit.Rolls]{
	Formula: figure.Formula{ID: "rolls.enough", Name: "what a rest is enough for in this tank", Result: "n",
		Unit: "rolls",
		Terms: []figure.Term{{Symbol: "R", Meaning: "stock left", Unit: "ml"},
			{Symbol: "D", Meaning: "stock that fills the tank", Unit: "ml"},
			{Symbol: "N", Meaning: "what the full tank serves", Unit: "rolls"}},
		Text: "min(1, floor(R / D)) * N", Valid: "the tank is filled whatever is loaded", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(rest, draw unit.Volume, n unit.Rolls) unit.Rolls {
		return unit.Rolls(min(1, unit.Round(float64(rest)/float64(draw), 1, unit.Down))) * n
	},
})

// Enough says how many pieces a rest of stock is enough for in one tank, with
// its verdict: the rest, the solution in the tank or the reels say no. nil
// means that the dilution cannot be measured there.
func Enough(m *mix.Mixer, b lab.Bath, v Vessel, rest unit.Quantity[unit.Volume],
	draw *figure.Record) (n *figure.Record, governs string, count int) {
	if draw.Refused() {
		return nil, "", 0
	}
	served := Serves(m, b, v, draw)
	if served.NoneWhy != "" {
		return nil, "", 0
	}
	id := figure.ID(b.Ref(), "enough", v.Key, mix.Tag(rest.Exact()))
	left := figure.Constant(rest.Value(), "stock left", "", figure.Standard)
	fill := figure.Entered[unit.Volume](draw)
	full := figure.Entered[unit.Rolls](served.Rolls).Best().Called("what the full tank serves")
	fig := tankFilled.Of(id, left, fill, full).Show(figure.KindCount, "1", unit.Down, "")
	count, governs = int(fig.Value), served.Governs
	if count == 0 {
		governs = "the rest"
	}
	fig = fig.In(v.Pieces(count))
	m.Book.EnterVerdict(figure.Verdict{ID: id,
		Answer: fmt.Sprintf("%d %s", count, v.Pieces(count)),
		Limits: []string{fmt.Sprintf("rest: %s ml, the tank needs %s ml", unit.Short(float64(rest.Value())),
			draw.Shown), fmt.Sprintf("reels: %d", v.Takes.N),
			fmt.Sprintf("full tank: %d, by %s", served.Count, served.Governs)},
		Because: []string{"the lowest limit: " + governs, "the tank is filled whatever is loaded"},
		Source:  "common practice, no source"})
	return figure.Enter(m.Book, fig), governs, count
}
