// Package mix works out what goes into a jug: it is the only place where a
// strength is expanded into what is really in it, and where scales and
// cylinders are chosen.
package mix

import (
	"fmt"
	"math"
	"math/big"
	"sort"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Bench is the lab's measuring devices, finest first, and the errors the house
// allows.
type Bench struct {
	scales    []scale
	cylinders []cylinder
	syringes  []syringe
	weigh     *big.Rat // allowed relative errors
	measure   *big.Rat
	largest   int64 // largest vessel, tenths of ml
	// ladders built so far: a share of a bath is measured alike wherever it
	// stands
	ladders map[string]figure.Ladder
}

type scale struct {
	name        string
	reads, upTo *big.Rat // upTo nil: no limit declared
	step        unit.Decimal
	errorOf     *big.Rat // k times the reading
}

type cylinder struct {
	id, name   string
	holds, tol *big.Rat
	holdsDec   unit.Decimal
	half       unit.Decimal // half a graduation
	memory     bool         // the tolerance is the table's
}

type syringe struct {
	cylinder
	solutions map[string]bool
}

// glassware gives graduation and the loosest class's tolerance of measuring
// cylinders in ml, by what they hold. From memory of ISO 4788:2005, class B;
// the standard's own table was not opened: a lab writes what its glass says.
var glassware = map[string][2]string{
	"5": {"0.1", "0.1"}, "10": {"0.2", "0.2"}, "25": {"0.5", "0.5"}, "50": {"1", "1"}, "100": {"1", "1"},
	"250": {"2", "2"}, "500": {"5", "5"}, "1000": {"10", "10"}, "2000": {"20", "20"},
}

// mostPours is how often a hand may fill a cylinder for one amount before it
// loses count.
const mostPours = 12

// NewBench prepares the devices of a lab. Cylinders without a tolerance take
// the table's; one that the table lacks is a problem.
func NewBench(l *lab.Lab) (*Bench, []lab.Problem) {
	h := l.Place.House.Filled()
	hundredth := big.NewRat(1, 100)
	b := &Bench{
		weigh:   new(big.Rat).Mul(h.WeighWithin.Exact(), hundredth),
		measure: new(big.Rat).Mul(h.MeasureWithin.Exact(), hundredth),
		largest: tenths(h.LargestVessel.Exact()),
		ladders: map[string]figure.Ladder{},
	}
	var problems []lab.Problem
	for id, s := range l.Place.Scales {
		if !s.Reads.Positive() {
			continue
		}
		k := int64(2)
		if !s.Checked.IsZero() {
			k = 1
		}
		sc := scale{name: id, reads: s.Reads.Exact(), step: decimalOf(s.Reads.Exact()), errorOf: new(big.Rat).Mul(s.Reads.Exact(), big.NewRat(k, 1))}
		if s.UpTo.Given() {
			sc.upTo = s.UpTo.Exact()
		}
		b.scales = append(b.scales, sc)
	}
	sort.Slice(b.scales, func(i, j int) bool {
		if c := b.scales[i].reads.Cmp(b.scales[j].reads); c != 0 {
			return c < 0
		}
		return b.scales[i].name < b.scales[j].name
	})
	for id, c := range l.Place.Cylinders {
		if !c.Holds.Positive() {
			continue
		}
		holds := c.Holds.Exact()
		table, known := glassware[trim(holds)]
		cy := cylinder{id: id, name: trim(holds) + " ml cylinder", holds: holds, holdsDec: decimalOf(holds)}
		graduation := big.NewRat(1, 1)
		switch {
		case c.Graduation.Given():
			graduation = c.Graduation.Exact()
		case known:
			graduation = mustRat(table[0])
		}
		switch {
		case c.Tolerance.Given():
			cy.tol = c.Tolerance.Exact()
		case known:
			cy.tol, cy.memory = mustRat(table[1]), true
		}
		if !known && (!c.Tolerance.Given() || !c.Graduation.Given()) {
			problems = append(problems, lab.Problem{At: l.Place.At("cylinder." + id), Code: "missing",
				What: fmt.Sprintf("the cylinder %q holds %s, which the table of glassware does not know", id, c.Holds.Text()),
				Hint: `write graduation = "1 mL" and tolerance = "1 mL", as the glass says`})
			continue
		}
		cy.half = decimalOf(new(big.Rat).Quo(graduation, big.NewRat(2, 1)))
		b.cylinders = append(b.cylinders, cy)
	}
	sort.Slice(b.cylinders, func(i, j int) bool {
		if c := b.cylinders[i].holds.Cmp(b.cylinders[j].holds); c != 0 {
			return c < 0
		}
		return b.cylinders[i].tol.Cmp(b.cylinders[j].tol) < 0
	})
	for id, s := range l.Place.Syringes {
		if !s.Holds.Positive() || !s.Tolerance.Positive() || !s.Graduation.Positive() {
			continue
		}
		sy := syringe{cylinder{id: id, name: trim(s.Holds.Exact()) + " ml syringe", holds: s.Holds.Exact(), holdsDec: decimalOf(s.Holds.Exact()), tol: s.Tolerance.Exact(),
			half: decimalOf(new(big.Rat).Quo(s.Graduation.Exact(), big.NewRat(2, 1)))}, map[string]bool{}}
		for _, ref := range s.For {
			if ing, bad := l.Resolve(ref, l.Place.At("syringe."+id)); len(bad) == 0 && !ing.Bath.Zero() {
				sy.solutions[ing.Bath.Ref()] = true
			}
		}
		b.syringes = append(b.syringes, sy)
	}
	sort.Slice(b.syringes, func(i, j int) bool {
		if c := b.syringes[i].holds.Cmp(b.syringes[j].holds); c != 0 {
			return c < 0
		}
		return b.syringes[i].name < b.syringes[j].name
	})
	return b, problems
}

// Within is the relative error a step allows: its own, or the house's.
func (b *Bench) within(own unit.Quantity[unit.Percent], house *big.Rat) *big.Rat {
	if own.Given() && own.Positive() {
		return new(big.Rat).Mul(own.Exact(), big.NewRat(1, 100))
	}
	return house
}

// Weigh chooses the scale for a mass: the coarsest whose reading error is at
// most half of what is allowed, else the finest within it.
func (b *Bench) Weigh(m *big.Rat, own unit.Quantity[unit.Percent]) figure.Hand {
	allowed := b.within(own, b.weigh)
	if len(b.scales) == 0 {
		return anyScale(m, allowed)
	}
	best := -1
	half := new(big.Rat).Quo(allowed, big.NewRat(2, 1))
	heavy := true
	for i := len(b.scales) - 1; i >= 0 && best < 0; i-- {
		s := b.scales[i]
		if s.upTo != nil && m.Cmp(s.upTo) > 0 {
			continue
		}
		heavy = false
		if s.errorOf.Cmp(new(big.Rat).Mul(m, half)) <= 0 {
			best = i
		}
	}
	for i := 0; i < len(b.scales) && best < 0; i++ {
		s := b.scales[i]
		if (s.upTo == nil || m.Cmp(s.upTo) <= 0) && s.errorOf.Cmp(new(big.Rat).Mul(m, allowed)) <= 0 {
			best = i
		}
	}
	switch {
	case best >= 0:
		s := b.scales[best]
		return figure.Hand{Device: s.name, Step: s.step, Pours: 1, Tolerance: decimalOf(s.errorOf), Root: float(s.errorOf)}
	case heavy:
		return figure.Hand{Refused: "more than any scale here bears", Way: "make a smaller batch, or weigh in lots"}
	}
	s := b.scales[0]
	err := 100 * float(s.errorOf) / float(m)
	return figure.Hand{
		Refused: fmt.Sprintf("too little for the scale %q: it may be ± %s g, which is %s %% (allowed here: %s %%)", s.name, trim(s.errorOf), sig(err), trim(new(big.Rat).Mul(allowed, big.NewRat(100, 1)))),
		Way:     "make a percent solution and measure that, or make a larger batch",
	}
}

// anyScale says what a scale must show where the lab has declared none.
func anyScale(m, allowed *big.Rat) figure.Hand {
	half := new(big.Rat).Mul(m, new(big.Rat).Quo(allowed, big.NewRat(2, 1)))
	for _, reads := range []string{"1", "0.1", "0.01", "0.001"} {
		if d := mustRat(reads); d.Cmp(half) <= 0 {
			return figure.Hand{Device: "any scale reading " + reads + " g (none declared)", Step: decimalOf(d), Pours: 1, Tolerance: decimalOf(d), Root: float(d)}
		}
	}
	return figure.Hand{Refused: "too little for any common scale", Way: "make a percent solution and measure that, or make a larger batch"}
}

// scaleLimits are the masses at which the choice of scale may change.
func (b *Bench) scaleLimits(own unit.Quantity[unit.Percent]) []*big.Rat {
	allowed := b.within(own, b.weigh)
	half := new(big.Rat).Quo(allowed, big.NewRat(2, 1))
	var out []*big.Rat
	if len(b.scales) == 0 {
		for _, reads := range []string{"1", "0.1", "0.01", "0.001"} {
			out = append(out, new(big.Rat).Quo(mustRat(reads), half))
		}
	}
	for _, s := range b.scales {
		out = append(out, new(big.Rat).Quo(s.errorOf, allowed), new(big.Rat).Quo(s.errorOf, half))
		if s.upTo != nil {
			out = append(out, s.upTo)
		}
	}
	return out
}

// Pour chooses cylinders for a volume of a bath: fewest pours; then equal pours
// from one cylinder; else one full cylinder and the rest. The sum of the
// tolerances must lie within what is allowed.
func (b *Bench) Pour(v *big.Rat, bath string, own unit.Quantity[unit.Percent], rule unit.Rule) figure.Hand {
	allowed := new(big.Rat).Mul(v, b.within(own, b.measure))
	for _, s := range b.syringes {
		if s.solutions[bath] && v.Cmp(s.holds) <= 0 && s.tol.Cmp(allowed) <= 0 {
			return s.hand(1, rule)
		}
	}
	if len(b.cylinders) == 0 {
		return anyCylinder(v, allowed, rule)
	}
	best := ""
	for n := int64(1); n <= mostPours; n++ {
		share := new(big.Rat).Quo(v, big.NewRat(n, 1))
		for _, c := range b.cylinders {
			if share.Cmp(c.holds) > 0 {
				continue
			}
			sum := new(big.Rat).Mul(c.tol, big.NewRat(n, 1))
			if sum.Cmp(allowed) <= 0 {
				return c.hand(int(n), rule)
			}
			if n == 1 {
				best = fmt.Sprintf("too little to measure here: ± %s ml in the %s is %s %% (allowed here: %s %%)", trim(c.tol), c.name, sig(100*float(c.tol)/float(v)), trim(new(big.Rat).Mul(b.within(own, b.measure), big.NewRat(100, 1))))
			}
			break
		}
		if n != 2 {
			continue
		}
		for i := len(b.cylinders) - 1; i >= 0; i-- {
			full := b.cylinders[i]
			rest := new(big.Rat).Sub(v, full.holds)
			if rest.Sign() <= 0 {
				continue
			}
			for _, c := range b.cylinders {
				if rest.Cmp(c.holds) > 0 {
					continue
				}
				if sum := new(big.Rat).Add(full.tol, c.tol); sum.Cmp(allowed) <= 0 {
					h := c.hand(1, rule)
					h.Full, h.FullDevice = full.holdsDec, full.name
					h.Tolerance = decimalOf(sum)
					h.Root = math.Hypot(float(full.tol), float(c.tol))
					return h
				}
				break
			}
		}
	}
	if best == "" {
		best = "more pours than a hand can count"
	}
	return figure.Hand{Refused: best, Way: "make an intermediate dilution and measure more of that, or make a larger volume"}
}

func (c cylinder) hand(n int, rule unit.Rule) figure.Hand {
	return figure.Hand{Device: c.name, Step: c.half, Rule: rule, Pours: n,
		Tolerance: decimalOf(new(big.Rat).Mul(c.tol, big.NewRat(int64(n), 1))), Root: float(c.tol) * math.Sqrt(float64(n))}
}

// anyCylinder says how closely to measure where the lab has declared no
// cylinder.
func anyCylinder(v, allowed *big.Rat, rule unit.Rule) figure.Hand {
	for _, step := range []string{"10", "5", "1", "0.5", "0.1", "0.05"} {
		if d := mustRat(step); new(big.Rat).Mul(d, big.NewRat(2, 1)).Cmp(allowed) <= 0 {
			return figure.Hand{Device: "any cylinder divided into " + trim(new(big.Rat).Mul(d, big.NewRat(2, 1))) + " ml (none declared)", Step: decimalOf(d), Rule: rule, Pours: 1, Tolerance: decimalOf(new(big.Rat).Mul(d, big.NewRat(2, 1))), Root: 2 * float(d)}
		}
	}
	return figure.Hand{Refused: "too little to measure", Way: "make an intermediate dilution and measure more of that"}
}

// pourLimits are the volumes at which the choice of cylinders may change.
func (b *Bench) pourLimits(own unit.Quantity[unit.Percent]) []*big.Rat {
	allowed := b.within(own, b.measure)
	var out []*big.Rat
	if len(b.cylinders) == 0 {
		for _, step := range []string{"10", "5", "1", "0.5", "0.1", "0.05"} {
			out = append(out, new(big.Rat).Quo(new(big.Rat).Mul(mustRat(step), big.NewRat(2, 1)), allowed))
		}
	}
	for _, s := range b.syringes {
		out = append(out, s.holds, new(big.Rat).Quo(s.tol, allowed))
	}
	for i, c := range b.cylinders {
		for n := int64(1); n <= mostPours; n++ {
			out = append(out, new(big.Rat).Mul(c.holds, big.NewRat(n, 1)), new(big.Rat).Quo(new(big.Rat).Mul(c.tol, big.NewRat(n, 1)), allowed))
		}
		for j := range b.cylinders {
			o := b.cylinders[j]
			out = append(out, new(big.Rat).Add(c.holds, o.holds))
			if j <= i {
				out = append(out, new(big.Rat).Quo(new(big.Rat).Add(c.tol, o.tol), allowed))
			}
		}
	}
	return out
}

// MassLadder is the ladder of a mass that goes with the volume made. percent
// measures a percent solution where no scale will do; of names the substance it
// is for, more the masses at which its answer may change.
func (b *Bench) MassLadder(perTenth *big.Rat, own unit.Quantity[unit.Percent], of string, percent func(m *big.Rat) (figure.Hand, bool), more []*big.Rat) figure.Ladder {
	key := fmt.Sprintf("%s %s %s", perTenth, of, own.Text())
	if l, ok := b.ladders[key]; ok {
		return l
	}
	hand := func(m *big.Rat) figure.Hand {
		h := b.Weigh(m, own)
		if h.Refused != "" && percent != nil {
			if p, ok := percent(m); ok {
				return p
			}
		}
		return h
	}
	l := figure.NewLadder("g", perTenth, b.largest, append(b.scaleLimits(own), more...), hand, b.beyond())
	b.ladders[key] = l
	return l
}

// PourLadder is the ladder of a volume that goes with the volume made.
func (b *Bench) PourLadder(perTenth *big.Rat, bath string, own unit.Quantity[unit.Percent], rule unit.Rule) figure.Ladder {
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
	return "more than this house lifts and stirs by hand (" + trim(new(big.Rat).Quo(big.NewRat(b.largest, 1), big.NewRat(10000, 1))) + " L)"
}

func tenths(ml *big.Rat) int64 {
	n := unit.RoundRat(ml, big.NewRat(1, 10), unit.Nearest)
	if !n.IsInt64() {
		return 0
	}
	return n.Int64()
}

func float(r *big.Rat) float64 { f, _ := r.Float64(); return f }

func mustRat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic("mix: " + s)
	}
	return r
}

// trim prints a number with as few decimals as it needs, six at most.
func trim(r *big.Rat) string {
	for places := 0; places < 6; places++ {
		scaled := new(big.Rat).Mul(r, new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)))
		if scaled.IsInt() {
			return r.FloatString(places)
		}
	}
	return r.FloatString(6)
}

// decimalOf returns the decimal of a number that has one of six places or less.
func decimalOf(r *big.Rat) unit.Decimal {
	d, err := unit.ParseDecimal(trim(r))
	if err != nil {
		panic(err)
	}
	return d
}

// sig prints two significant digits.
func sig(x float64) string {
	if x >= 10 {
		return fmt.Sprintf("%.0f", x)
	}
	return fmt.Sprintf("%.1f", x)
}
