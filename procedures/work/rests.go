package work

import (
	"fmt"
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Rests is what a rest of stock in the bottle is enough for, and what so many rolls need.
type Rests struct {
	Tanks []Vessel
	// Rolls are the numbers of rolls for which Need is worked out.
	Rolls []*figure.Record
	// Need is the stock that so many rolls take, by tank and number.
	Need [][]Needed
	// Left is how far each rest goes.
	Left []Rest
	// Enough are the rests that are enough for another number of films than the one
	// before.
	Enough []RestInTanks
}

// Needed is the stock that a number of rolls takes in one tank.
type Needed struct {
	// Stock is nil where nothing is to be said, and refused where Why says why.
	Stock *figure.Record
	Why   string
}

// Rest is how far a rest of stock goes.
type Rest struct {
	Left *figure.Record
	// Fills is the largest volume that it makes, and Rolls how many it is enough for.
	Fills, Rolls *figure.Record
}

// RestInTanks is what a rest is enough for in each tank.
type RestInTanks struct {
	Left  *figure.Record
	Tanks []RestInTank
}

// RestInTank is what a rest is enough for in one tank, and what says no first.
type RestInTank struct {
	// Rolls is nil where the dilution cannot be measured for the tank.
	Rolls   *figure.Record
	Governs string
	// None: it is not enough for one.
	None bool
}

// rests works out what a rest is enough for, of a one-shot strength of which somebody has
// written what a roll needs.
func (w *Work) rests(b lab.Bath) *Rests {
	decl := b.Written()
	if !decl.Needs.Given() || decl.Use != "one-shot" {
		return nil
	}
	out := &Rests{}
	tanks, _ := capacity.Vessels(w.lab)
	for _, v := range tanks {
		if v.Rolls {
			out.Tanks = append(out.Tanks, v)
		}
	}
	w.need(b, out)
	if !w.left(b, out) {
		return nil
	}
	w.enough(b, out)
	return out
}

// mostRolls is the largest number of rolls for which the stock is told.
const mostRolls = 8

// need works out what so many rolls take in each tank.
func (w *Work) need(b lab.Bath, out *Rests) {
	most := 0
	for _, v := range out.Tanks {
		most = max(most, v.Takes.N)
	}
	most = min(most, mostRolls)
	for n := 1; n <= most; n++ {
		rolls := figure.Constant(unit.Rolls(n), "rolls", "", figure.Standard)
		out.Rolls = append(out.Rolls, figure.Declare(w.mix.Book, figure.ID("rolls", fmt.Sprint(n)), figure.KindCount,
			rolls, fmt.Sprint(n), unit.Plural(n, "roll")))
	}
	for _, v := range out.Tanks {
		var row []Needed
		for n := 1; n <= most; n++ {
			row = append(row, w.needed(b, v, n))
		}
		out.Need = append(out.Need, row)
	}
}

// needed is what so many rolls take in one tank. The first number that its reels do not
// take is refused; of those above it nothing is said.
func (w *Work) needed(b lab.Bath, v Vessel, n int) Needed {
	switch {
	case n == v.Takes.N+1:
		id := figure.ID(b.Ref(), "need", v.Key, fmt.Sprint(n))
		why := fmt.Sprintf("this tank takes %d %s at most", v.Takes.N, v.Pieces(v.Takes.N))
		return Needed{w.mix.Book.Refuse(id, figure.KindAmount, "solution needed", "ml", why, v.Takes.By()),
			"too few reels"}
	case n > v.Takes.N:
		return Needed{}
	}
	stock, why := capacity.Need(w.mix, b, v, n, w.filled(b, v).Take.Amount)
	return Needed{stock, why}
}

// restVolumes are what may be left in a bottle.
var restVolumes = []string{"10 mL", "20 mL", "50 mL", "100 mL", "200 mL", "300 mL", "400 mL", "500 mL", "750 mL"}

// restFigure enters a rest in the bottle.
func (w *Work) restFigure(q unit.Quantity[unit.Volume]) *figure.Record {
	return w.mix.VolumeFigure(figure.ID("left", mix.Tag(q.Exact())), q, figure.Where{}, figure.Standard,
		"solution left")
}

// left works out how far each rest goes; false where the strength is not diluted.
func (w *Work) left(b lab.Bath, out *Rests) bool {
	for _, text := range restVolumes {
		q := unit.MustParse[unit.Volume](text)
		volume, rolls := capacity.Left(w.mix, b, q)
		if volume == nil {
			return false
		}
		if rolls != nil && rolls.Value > 0 {
			out.Left = append(out.Left, Rest{w.restFigure(q), volume, rolls})
		}
	}
	return true
}

// enough works out for how many films each rest is enough in each tank.
func (w *Work) enough(b lab.Bath, out *Rests) {
	var before []int
	for _, text := range restVolumes {
		q := unit.MustParse[unit.Volume](text)
		row := RestInTanks{Left: w.restFigure(q)}
		var now []int
		for _, v := range out.Tanks {
			rolls, governs, n := capacity.Enough(w.mix, b, v, q, w.filled(b, v).Take.Amount)
			now = append(now, n)
			row.Tanks = append(row.Tanks, RestInTank{rolls, governs, n == 0})
		}
		if slices.Max(append(now, 0)) == 0 || slices.Equal(now, before) { // a rest that tells nothing new
			continue
		}
		before = now
		out.Enough = append(out.Enough, row)
	}
}
