package capacity

import (
	"fmt"
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Fill is a bath in a vessel: what to draw, on which device, and what it serves;
// or why this bath must not be made up in this vessel. Every card that tells what
// goes into a vessel reads it here.
type Fill struct {
	Bath, From lab.Bath
	Vessel     Vessel
	// Diluted: something is drawn and filled up with water; else the bath goes in
	// as it is, and Take is the whole.
	Diluted bool
	Take    mix.Take
	Volume  *figure.Record // the vessel's fill
	Served  Served         // of a tank
	// No is the refused amount, nil where there is one; Why says why and Way what would
	// help; Wanted is what it would have taken.
	No, Wanted *figure.Record
	Why, Way   string
}

// FillOf works out what goes into a vessel.
func FillOf(m *mix.Mixer, b lab.Bath, v Vessel) Fill {
	f := Fill{Bath: b, From: b, Vessel: v}
	name := "fill of the " + v.Name
	fill, at, by := v.Fill.Quantity, v.Fill.Where(), v.Fill.By()
	if draw, ok := m.Draw(b, fill, at, by, name, NeededIn(m, b, v.Fill.Exact())); ok {
		f.From, f.Take, f.Volume, f.Diluted = draw.From, draw.Take, draw.Fill, !b.Written().Dilute.None()
	} else {
		f.Volume = m.VolumeFigure(figure.ID(b.Ref(), "fill", mix.Tag(v.Fill.Exact())), fill, at, by, name)
		f.Take = mix.Take{Amount: f.Volume, Unit: "ml", Hand: figure.Hand{Device: "the vessel itself", Pours: 1}}
	}
	if f.Take.Refused != "" {
		f.No, f.Why, f.Way, f.Wanted = f.Take.Amount, f.Take.Refused, f.Take.Way, f.Take.Wanted
		return f
	}
	if v.Tray {
		return f
	}
	f.Served = Serves(m, b, v, f.Take.Amount)
	if f.Served.Count == 0 {
		taken := f.Take.Amount
		f.Why = fmt.Sprintf("%s ml of %s are not enough for one %s", taken.Shown, f.From.Strength, v.Pieces(1))
		f.Way = "take a larger tank, or a strength with less water"
		f.Wanted = taken
		f.No = m.Book.Refuse(figure.ID(b.Ref(), "draw", v.tag(m.Lab)), figure.KindAmount, taken.Name, "ml",
			f.Why+"; "+f.Way,
			taken.Origin, taken)
	}
	return f
}

// NeededIn is the stock that the pieces need which a tank of this fill serves, by
// the unrounded share; of several tanks of one fill, the most. nil: nobody has
// said what a roll needs.
func NeededIn(m *mix.Mixer, b lab.Bath, fill *big.Rat) *big.Rat {
	s := b.Decl()
	if s == nil || !s.Needs.Given() {
		return nil
	}
	stock := new(big.Rat).Set(fill)
	if _, dil, ok := b.From(); ok && !dil.None() {
		stock.Mul(stock, dil.Share())
	}
	var most *big.Rat
	tanks, _ := Vessels(m.Lab)
	for _, v := range tanks {
		if v.Fill.Exact().Cmp(fill) != 0 {
			continue
		}
		each := new(big.Rat).Set(s.Needs.Exact())
		if _, q, ok := equivalentOf(m.Lab, v.Family, nil); ok {
			each.Mul(each, q)
		}
		n := unit.RoundRat(new(big.Rat).Quo(stock, each), big.NewRat(1, 1), unit.Down)
		if takes := big.NewInt(int64(v.Takes.N)); n.Cmp(takes) > 0 {
			n = takes
		}
		if need := new(big.Rat).Mul(each, new(big.Rat).SetInt(n)); most == nil || need.Cmp(most) > 0 {
			most = need
		}
	}
	return most
}

// Shares says why one piece of each of two families of a material must not lie
// together in what fills a vessel, or nothing: the solution in it must be enough for
// both.
func Shares(m *mix.Mixer, f Fill, one, other string, of *lab.Material) string {
	s := f.Bath.Decl()
	if f.No != nil {
		return f.Why
	}
	if s == nil || !s.Needs.Given() {
		return ""
	}
	taken := f.Take.Amount
	need := new(big.Rat)
	for _, family := range []string{one, other} {
		each := new(big.Rat).Set(s.Needs.Exact())
		if _, q, ok := equivalentOf(m.Lab, family, of); ok {
			each.Mul(each, q)
		}
		need.Add(need, each)
	}
	if wanted, _ := need.Float64(); unit.Snap(float64(figure.Entered[unit.Volume](taken).Value)) < unit.Snap(wanted) {
		return fmt.Sprintf("%s ml of %s are not enough for both", taken.Shown, f.From.Strength)
	}
	return ""
}

// tankFills is how many times what is left in a bottle fills a tank.
var tankFills = figure.Register(&figure.F2[unit.Factor, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "capacity.fills", Name: "how many times it fills the tank", Result: "n", Unit: "",
		Terms: []figure.Term{{Symbol: "V", Meaning: "what is left in the bottle", Unit: "ml"},
			{Symbol: "d", Meaning: "what one fill draws", Unit: "ml"}},
		Text: "floor(V / d)", Valid: "one bottle by itself: the rests of two bottles are not put together",
		Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(left, draw unit.Volume) unit.Factor { return whole(float64(left) / float64(draw)) },
})

// FillsLeft is how many times what is left of a stock fills a vessel; nil where the fill is
// refused or draws from no stock.
func FillsLeft(m *mix.Mixer, id string, left *figure.Record, f Fill) *figure.Record {
	if f.No != nil || !f.Diluted || left == nil || left.Refused() {
		return nil
	}
	n := tankFills.Of(id, figure.Entered[unit.Volume](left), figure.Entered[unit.Volume](f.Take.Amount)).
		Named("how many times what is left fills the "+f.Vessel.Name).Show(figure.KindCount, "1", unit.Down, "")
	word := "times"
	if n.Value == 1 {
		word = "time"
	}
	return figure.Enter(m.Book, n.In(word))
}
