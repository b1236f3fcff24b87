package mix

import (
	"fmt"
	"math"
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// mostPours is how often a hand may fill a cylinder for one amount before it
// loses count.
const mostPours = 12

// FewestPours is how a volume is measured where no formula says it.
var FewestPours = figure.RegisterMethod(&figure.Method{
	ID: "measure.pours", Name: "fewest pours",
	Equations: []string{
		"the sum of the tolerances of all pours is at most what the lab allows of the volume",
		"of the ways that fulfil it, the one with the fewest pours: equal pours of one cylinder or syringe, or one full cylinder and the rest in a smaller one",
		"of those, a syringe kept for the bath, then the smallest cylinder, then a full one and the rest, then a syringe for any bath",
	},
	Check:  "no other way with fewer pours lies within what is allowed",
	Valid:  "at most twelve pours",
	Source: "common practice, no source", Origin: figure.Default,
})

// Pour chooses cylinders and syringes for a volume of a bath: fewest pours; then
// a syringe kept for the bath; then equal pours from one cylinder; then a full
// cylinder and the rest; then a syringe that serves any bath. The sum of the
// tolerances must lie within what is allowed; exactly at the limit passes.
func (b *Bench) Pour(v *big.Rat, bath string, own unit.Quantity[unit.Percent], rule unit.Rule) figure.Hand {
	limits := b.within(own, b.measure)
	for _, limit := range limits {
		if h, ok := b.split(v, bath, new(big.Rat).Mul(v, limit), rule); ok {
			return h
		}
	}
	if len(b.cylinders) == 0 {
		return anyCylinder(v, new(big.Rat).Mul(v, limits[0]), rule)
	}
	return b.refusedPour(v, bath, last(limits))
}

// split finds the first way to measure a volume within an error.
func (b *Bench) split(v *big.Rat, bath string, allowed *big.Rat, rule unit.Rule) (figure.Hand, bool) {
	for n := int64(1); n <= mostPours; n++ {
		share := new(big.Rat).Quo(v, big.NewRat(n, 1))
		equal := func(c cylinder) bool {
			return share.Cmp(c.holds) <= 0 && new(big.Rat).Mul(c.tol, big.NewRat(n, 1)).Cmp(allowed) <= 0
		}
		for _, s := range b.syringes {
			if n == 1 && s.solutions[bath] && equal(s.cylinder) {
				return s.hand(1, rule), true
			}
		}
		for _, c := range b.cylinders {
			if equal(c) {
				return c.hand(int(n), rule), true
			}
		}
		if n == 2 {
			if h, ok := b.fullAndRest(v, bath, allowed, rule); ok {
				return h, true
			}
		}
		for _, s := range b.syringes {
			if s.serves(bath) && equal(s.cylinder) {
				return s.hand(int(n), rule), true
			}
		}
	}
	return figure.Hand{}, false
}

// fullAndRest is one full cylinder and the rest in a smaller one, or in a syringe. It is
// asked for what no cylinder measures in one pour, so that a rest is left.
func (b *Bench) fullAndRest(v *big.Rat, bath string, allowed *big.Rat, rule unit.Rule) (figure.Hand, bool) {
	for i := len(b.cylinders) - 1; i >= 0; i-- {
		full := b.cylinders[i]
		rest := new(big.Rat).Sub(v, full.holds)
		try := func(c cylinder) (figure.Hand, bool) {
			sum := new(big.Rat).Add(full.tol, c.tol)
			if rest.Cmp(c.holds) > 0 || sum.Cmp(allowed) > 0 {
				return figure.Hand{}, false
			}
			h := c.hand(1, rule)
			h.Full, h.FullDevice = full.holdsDec, full.name
			h.Tolerance = decimalOf(sum)
			h.Root = math.Hypot(float(full.tol), float(c.tol))
			return h, true
		}
		for _, c := range b.cylinders {
			if h, ok := try(c); ok {
				return h, true
			}
		}
		for _, s := range b.syringes {
			if s.serves(bath) {
				if h, ok := try(s.cylinder); ok {
					return h, true
				}
			}
		}
	}
	return figure.Hand{}, false
}

// refusedPour says why nothing here measures a volume, and what would.
func (b *Bench) refusedPour(v *big.Rat, bath string, limit *big.Rat) figure.Hand {
	h := figure.Hand{Refused: "more pours than a hand can count", Way: "get a larger cylinder, or make less at a time"}
	var best *cylinder
	for i := range b.cylinders {
		if c := &b.cylinders[i]; best == nil && v.Cmp(c.holds) <= 0 {
			best = c
		}
	}
	for i := range b.syringes {
		if s := &b.syringes[i]; s.serves(bath) && v.Cmp(s.holds) <= 0 && (best == nil || s.tol.Cmp(best.tol) < 0) {
			best = &s.cylinder
		}
	}
	if best == nil {
		return h
	}
	allowed := new(big.Rat).Mul(v, limit)
	h.Refused = fmt.Sprintf("too little to measure here: ± %s ml in the %s is %s %% (allowed here: %s %%)",
		unit.ShortRat(best.tol), best.name, above(best.tol, v, limit), percent(limit))
	h.Way = fmt.Sprintf("a cylinder or syringe that is off by at most %s ml would do", sigDown(allowed))
	if from, ok := b.measurableFrom(v, bath, limit); ok {
		h.Way += "; with what stands here it goes from " + unit.ShortRat(from) + " ml on"
	}
	h.Way += ", or by way of an intermediate dilution; " +
		"measure_within under [house] and the tolerance of the glass say what is allowed"
	return h
}

// measurableFrom is the least volume above v that can be measured here.
func (b *Bench) measurableFrom(v *big.Rat, bath string, limit *big.Rat) (*big.Rat, bool) {
	var least *big.Rat
	step := unit.NewDecimal(1, 1)
	for _, at := range b.pourLimitsAt(limit) {
		at = upTo(at, step)
		if at.Cmp(v) <= 0 || least != nil && at.Cmp(least) >= 0 {
			continue
		}
		if _, ok := b.split(at, bath, new(big.Rat).Mul(at, limit), unit.Nearest); ok {
			least = at
		}
	}
	return least, least != nil
}

func (c cylinder) hand(n int, rule unit.Rule) figure.Hand {
	return figure.Hand{Device: c.name, Step: c.half, Rule: rule, Pours: n,
		Tolerance: decimalOf(new(big.Rat).Mul(c.tol, big.NewRat(int64(n), 1))),
		Root:      float(c.tol) * math.Sqrt(float64(n))}
}

// anyCylinder says how closely to measure where the lab has declared no
// cylinder.
func anyCylinder(v, allowed *big.Rat, rule unit.Rule) figure.Hand {
	for _, step := range commonSteps {
		if d := mustRat(step); new(big.Rat).Mul(d, big.NewRat(2, 1)).Cmp(allowed) <= 0 {
			divided := new(big.Rat).Mul(d, big.NewRat(2, 1))
			return figure.Hand{Device: "any cylinder divided into " + unit.ShortRat(divided) + " ml (none declared)",
				Step: decimalOf(d), Rule: rule, Pours: 1, Tolerance: decimalOf(divided), Root: 2 * float(d)}
		}
	}
	return figure.Hand{Refused: "too little to measure", Way: "make an intermediate dilution and measure more of that"}
}

// pourLimits are the volumes at which the choice of devices may change.
func (b *Bench) pourLimits(own unit.Quantity[unit.Percent]) []*big.Rat {
	var out []*big.Rat
	for _, limit := range b.within(own, b.measure) {
		out = append(out, b.pourLimitsAt(limit)...)
	}
	return out
}

func (b *Bench) pourLimitsAt(allowed *big.Rat) []*big.Rat {
	var out []*big.Rat
	devices := append([]cylinder{}, b.cylinders...)
	for _, s := range b.syringes {
		devices = append(devices, s.cylinder)
	}
	if len(b.cylinders) == 0 {
		for _, step := range commonSteps {
			out = append(out, new(big.Rat).Quo(new(big.Rat).Mul(mustRat(step), big.NewRat(2, 1)), allowed))
		}
	}
	for i, c := range devices {
		for n := int64(1); n <= mostPours; n++ {
			pours := big.NewRat(n, 1)
			out = append(out, new(big.Rat).Mul(c.holds, pours),
				new(big.Rat).Quo(new(big.Rat).Mul(c.tol, pours), allowed))
		}
		for j, o := range devices {
			out = append(out, new(big.Rat).Add(c.holds, o.holds))
			if j <= i {
				out = append(out, new(big.Rat).Quo(new(big.Rat).Add(c.tol, o.tol), allowed))
			}
		}
	}
	return out
}

// PourLadder is the ladder of a volume that goes with the volume made.
func (b *Bench) PourLadder(perTenth *big.Rat, bath string, own unit.Quantity[unit.Percent],
	rule unit.Rule) figure.Ladder {
	if !b.syringed(bath) {
		bath = ""
	}
	key := fmt.Sprintf("pour %s %s %s %v", perTenth, bath, own.Text(), rule)
	if l, ok := b.ladders[key]; ok {
		return l
	}
	hand := func(v *big.Rat) figure.Hand { return b.Pour(v, bath, own, rule) }
	l := figure.NewLadder("ml", perTenth, b.largest, b.pourLimits(own), hand, b.beyond())
	b.ladders[key] = l
	return l
}

// syringed reports whether a syringe is kept for a bath.
func (b *Bench) syringed(bath string) bool {
	for _, s := range b.syringes {
		if s.solutions[bath] {
			return true
		}
	}
	return false
}

func (b *Bench) beyond() string {
	litres := new(big.Rat).Quo(big.NewRat(b.largest, 1), big.NewRat(10000, 1))
	return "more than this lab lifts and stirs by hand (" + unit.ShortRat(litres) + " L)"
}
