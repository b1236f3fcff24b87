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

// Bench is the lab's measuring devices, finest first, and the errors that are
// allowed.
type Bench struct {
	scales    []scale
	cylinders []cylinder
	syringes  []syringe
	// weigh and measure are the relative errors allowed, tried in this order: the
	// program's own limit first, so that a laxer rule of the house never takes a
	// worse device where a good one stands.
	weigh, measure []*big.Rat
	largest        int64 // largest vessel, tenths of ml
	// ladders built so far: a share of a bath is measured alike wherever it
	// stands
	ladders map[string]figure.Ladder
}

type scale struct {
	name        string
	reads, upTo *big.Rat // upTo nil: no limit declared
	step        unit.Decimal
	errorOf     *big.Rat // k times the reading
	decl        lab.Scale
}

type cylinder struct {
	id, name   string
	holds, tol *big.Rat
	holdsDec   unit.Decimal
	half       unit.Decimal // half a graduation
	decl       lab.Cylinder // without a tolerance where that is the table's
}

// syringe is kept for some baths; kept for none by name, it serves any.
type syringe struct {
	cylinder
	solutions map[string]bool
}

func (s syringe) serves(bath string) bool { return len(s.solutions) == 0 || s.solutions[bath] }

// glassware gives graduation and the loosest class's tolerance of measuring
// cylinders in ml, by what they hold. From memory of ISO 4788:2005, class B;
// the standard's own table was not opened: a lab writes what its glass says.
var glassware = map[string][2]string{
	"5": {"0.1", "0.1"}, "10": {"0.2", "0.2"}, "25": {"0.5", "0.5"}, "50": {"1", "1"}, "100": {"1", "1"},
	"250": {"2", "2"}, "500": {"5", "5"}, "1000": {"10", "10"}, "2000": {"20", "20"},
}

// glasswareSource is where the tolerances of the table come from.
const glasswareSource = "ISO 4788:2005, class B, from memory"

// tolerance is how far off one pour may be: as the lab says, else by the table.
func (c cylinder) tolerance() figure.Figure[unit.Volume] {
	name := "tolerance of the " + c.name
	if c.decl.Tolerance.Given() {
		return c.decl.Tolerance.Figure(name)
	}
	return figure.Constant(unit.Volume(float(c.tol)), name, glasswareSource, figure.Memory)
}

// tolerance is how far off all pours of a hand may be together. That of one pour
// stands where the glass says it; a sum is counted from the whole table of the glass.
// What nobody in the lab has written is a constant.
func (b *Bench) tolerance(h figure.Hand, place lab.Def) figure.Figure[unit.Volume] {
	const name = "tolerance, the sum of all pours"
	sum := unit.Volume(h.Tolerance.Float())
	var used []cylinder
	table := ""
	for _, c := range b.cylinders {
		if c.name == h.Device || c.name == h.FullDevice {
			used, table = append(used, c), "cylinder"
		}
	}
	for _, s := range b.syringes {
		if s.name == h.Device {
			used = append(used, s.cylinder)
			if table == "" {
				table = "syringe"
			}
		}
	}
	if len(used) == 0 {
		return figure.Constant(sum, name, "the lab has declared no cylinder", figure.House)
	}
	if len(used) == 1 && h.Pours == 1 && h.Full.Sign() == 0 {
		return used[0].tolerance().Called(name)
	}
	by, declared := figure.Measured, false
	for _, c := range used {
		declared = declared || c.decl.Tolerance.Given()
		by = figure.Weakest(by, c.tolerance().Origin())
	}
	if !declared {
		return figure.Constant(sum, name, glasswareSource, by)
	}
	return figure.GivenNumber(sum, "", place.At(table), by, name)
}

// mostPours is how often a hand may fill a cylinder for one amount before it
// loses count.
const mostPours = 12

// NewBench prepares the devices of a lab. Cylinders without a tolerance take
// the table's; one that the table lacks is a problem.
func NewBench(l *lab.Lab) (*Bench, []lab.Problem) {
	h, none := l.Place.House.Filled(), lab.House{}.Filled()
	b := &Bench{
		weigh:   limitsOf(none.WeighWithin.Quantity, h.WeighWithin.Quantity),
		measure: limitsOf(none.MeasureWithin.Quantity, h.MeasureWithin.Quantity),
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
		reads := s.Reads.Exact()
		sc := scale{name: id, reads: reads, step: decimalOf(reads), errorOf: new(big.Rat).Mul(reads, big.NewRat(k, 1)), decl: s}
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
		table, known := glassware[unit.ShortRat(holds)]
		cy := cylinder{id: id, name: unit.ShortRat(holds) + " ml cylinder", holds: holds, holdsDec: decimalOf(holds),
			decl: c}
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
			cy.tol = mustRat(table[1])
		}
		if !known && (!c.Tolerance.Given() || !c.Graduation.Given()) {
			problems = append(problems, lab.Problem{At: l.Place.At("cylinder." + id), Code: "missing",
				What: fmt.Sprintf("the cylinder %q holds %s, which the table of glassware does not know", id,
					c.Holds.Text()),
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
		if c := b.cylinders[i].tol.Cmp(b.cylinders[j].tol); c != 0 {
			return c < 0
		}
		return b.cylinders[i].id < b.cylinders[j].id
	})
	for i := range b.cylinders { // two of one size are told apart by the lab's own word
		for k := range b.cylinders {
			if c := &b.cylinders[i]; i != k && c.holds.Cmp(b.cylinders[k].holds) == 0 {
				c.name = unit.ShortRat(c.holds) + " ml cylinder, " + lab.Title(c.id)
			}
		}
	}
	for id, s := range l.Place.Syringes {
		if !s.Holds.Positive() || !s.Tolerance.Positive() || !s.Graduation.Positive() {
			continue
		}
		holds := s.Holds.Exact()
		sy := syringe{cylinder{id: id, name: unit.ShortRat(holds) + " ml syringe", holds: holds,
			holdsDec: decimalOf(holds),
			tol:      s.Tolerance.Exact(), half: decimalOf(new(big.Rat).Quo(s.Graduation.Exact(), big.NewRat(2, 1))),
			decl: lab.Cylinder{Holds: s.Holds, Tolerance: s.Tolerance, Graduation: s.Graduation}}, map[string]bool{}}
		for _, ref := range s.For {
			ing, bad := l.Resolve(ref, l.Place.At("syringe."+id))
			switch {
			case len(bad) > 0:
			case !ing.Bath.Zero():
				sy.solutions[ing.Bath.Ref()] = true
			default:
				sy.solutions[ing.Ref] = true
			}
		}
		b.syringes = append(b.syringes, sy)
	}
	sort.Slice(b.syringes, func(i, j int) bool {
		if c := b.syringes[i].holds.Cmp(b.syringes[j].holds); c != 0 {
			return c < 0
		}
		return b.syringes[i].id < b.syringes[j].id
	})
	for i := range b.syringes {
		for k := range b.syringes {
			if s := &b.syringes[i]; i != k && s.holds.Cmp(b.syringes[k].holds) == 0 {
				s.name = unit.ShortRat(s.holds) + " ml syringe, " + lab.Title(s.id)
			}
		}
	}
	return b, problems
}

// limitsOf are the relative errors to try: the program's own first where the
// house allows more, else the house's alone.
func limitsOf(program, house unit.Quantity[unit.Percent]) []*big.Rat {
	hundredth := big.NewRat(1, 100)
	h := new(big.Rat).Mul(house.Exact(), hundredth)
	if p := new(big.Rat).Mul(program.Exact(), hundredth); p.Cmp(h) < 0 {
		return []*big.Rat{p, h}
	}
	return []*big.Rat{h}
}

// within are the relative errors to try for a step: the house's, then the step's
// own where it allows more; its own alone where it allows less.
func (b *Bench) within(own unit.Quantity[unit.Percent], house []*big.Rat) []*big.Rat {
	if !own.Positive() {
		return house
	}
	last := new(big.Rat).Mul(own.Exact(), big.NewRat(1, 100))
	var out []*big.Rat
	for _, h := range house {
		if h.Cmp(last) < 0 {
			out = append(out, h)
		}
	}
	return append(out, last)
}

// last is the most that is allowed after all.
func last(limits []*big.Rat) *big.Rat { return limits[len(limits)-1] }

// Weigh chooses the scale for a mass: the coarsest whose reading error is at
// most half of what is allowed, else the finest within it.
func (b *Bench) Weigh(m *big.Rat, own unit.Quantity[unit.Percent]) figure.Hand {
	limits := b.within(own, b.weigh)
	if len(b.scales) == 0 {
		return anyScale(m, limits[0])
	}
	for _, allowed := range limits {
		if s, ok := b.scaleFor(m, allowed); ok {
			return figure.Hand{Device: s.name, Step: s.step, Pours: 1, Tolerance: decimalOf(s.errorOf),
				Root: float(s.errorOf)}
		}
	}
	return b.tooLittle(m, last(limits))
}

func (b *Bench) scaleFor(m, allowed *big.Rat) (scale, bool) {
	most := new(big.Rat).Mul(m, allowed)
	half := new(big.Rat).Quo(most, big.NewRat(2, 1))
	for i := len(b.scales) - 1; i >= 0; i-- {
		if s := b.scales[i]; s.bears(m) && s.errorOf.Cmp(half) <= 0 {
			return s, true
		}
	}
	for _, s := range b.scales {
		if s.bears(m) && s.errorOf.Cmp(most) <= 0 {
			return s, true
		}
	}
	return scale{}, false
}

func (s scale) bears(m *big.Rat) bool { return s.upTo == nil || m.Cmp(s.upTo) <= 0 }

// tooLittle says why no scale here weighs a mass, and what would.
func (b *Bench) tooLittle(m, allowed *big.Rat) figure.Hand {
	finest := -1
	for i := len(b.scales) - 1; i >= 0; i-- {
		if b.scales[i].bears(m) {
			finest = i
		}
	}
	if finest < 0 {
		return figure.Hand{Refused: "more than any scale here bears", Way: "make a smaller batch, or weigh in lots"}
	}
	s := b.scales[finest]
	return figure.Hand{
		Refused: fmt.Sprintf("too little for the scale %q: it may be ± %s g, which is %s %% (allowed here: %s %%)",
			s.name, unit.ShortRat(s.errorOf), above(s.errorOf, m, allowed), percent(allowed)),
		Way: fmt.Sprintf("from %s g on it can be weighed here: make a larger batch, or a percent solution and measure that; "+
			"weigh_within under [house] says what is allowed", unit.ShortRat(upTo(new(big.Rat).Quo(s.errorOf, allowed), s.step))),
	}
}

// upTo rounds up to a multiple of a step.
func upTo(x *big.Rat, step unit.Decimal) *big.Rat {
	n := unit.RoundRat(x, step.Rat(), unit.Up)
	return new(big.Rat).Mul(new(big.Rat).SetInt(n), step.Rat())
}

func percent(r *big.Rat) string { return unit.ShortRat(new(big.Rat).Mul(r, big.NewRat(100, 1))) }

// above prints a relative error in per cent with as many digits as show that it
// is more than what is allowed.
func above(err, of, allowed *big.Rat) string {
	r := new(big.Rat).Quo(err, of)
	text := sig(100 * float(r))
	for places := 1; places < 6 && r.Cmp(allowed) > 0; places++ {
		most := new(big.Rat).Mul(allowed, big.NewRat(100, 1))
		if shown, ok := new(big.Rat).SetString(text); ok && shown.Cmp(most) > 0 {
			break
		}
		text = new(big.Rat).Mul(r, big.NewRat(100, 1)).FloatString(places)
	}
	return text
}

// commonScales and commonSteps are what scales read, in g, and half of what
// cylinders are divided into, in ml, where the lab has declared none.
var (
	commonScales = []string{"1", "0.1", "0.01", "0.001"}
	commonSteps  = []string{"10", "5", "1", "0.5", "0.1", "0.05"}
)

// anyScale says what a scale must show where the lab has declared none.
func anyScale(m, allowed *big.Rat) figure.Hand {
	half := new(big.Rat).Mul(m, new(big.Rat).Quo(allowed, big.NewRat(2, 1)))
	for _, reads := range commonScales {
		if d := mustRat(reads); d.Cmp(half) <= 0 {
			return figure.Hand{Device: "any scale reading " + reads + " g (none declared)", Step: decimalOf(d),
				Pours: 1, Tolerance: decimalOf(d), Root: float(d)}
		}
	}
	return figure.Hand{Refused: "too little for any common scale",
		Way: "make a percent solution and measure that, or make a larger batch"}
}

// scaleLimits are the masses at which the choice of scale may change.
func (b *Bench) scaleLimits(own unit.Quantity[unit.Percent]) []*big.Rat {
	var out []*big.Rat
	for _, allowed := range b.within(own, b.weigh) {
		half := new(big.Rat).Quo(allowed, big.NewRat(2, 1))
		if len(b.scales) == 0 {
			for _, reads := range commonScales {
				out = append(out, new(big.Rat).Quo(mustRat(reads), half))
			}
		}
		for _, s := range b.scales {
			out = append(out, new(big.Rat).Quo(s.errorOf, allowed), new(big.Rat).Quo(s.errorOf, half))
		}
	}
	for _, s := range b.scales {
		if s.upTo != nil {
			out = append(out, s.upTo)
		}
	}
	return out
}

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

// sigDown prints two significant digits, rounded down.
func sigDown(r *big.Rat) string {
	for _, step := range []string{"1", "0.1", "0.01", "0.001"} {
		d := mustRat(step)
		if r.Cmp(new(big.Rat).Mul(d, big.NewRat(10, 1))) >= 0 || step == "0.001" {
			return unit.ShortRat(new(big.Rat).Mul(new(big.Rat).SetInt(unit.RoundRat(r, d, unit.Down)), d))
		}
	}
	return unit.ShortRat(r)
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
			out = append(out, new(big.Rat).Mul(c.holds, pours), new(big.Rat).Quo(new(big.Rat).Mul(c.tol, pours), allowed))
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

// MassLadder is the ladder of a mass that goes with the volume made. percent
// measures a percent solution where no scale will do; of names the substance it
// is for, more the masses at which its answer may change.
func (b *Bench) MassLadder(perTenth *big.Rat, own unit.Quantity[unit.Percent], of string,
	percent func(m *big.Rat) (figure.Hand, bool), more []*big.Rat) figure.Ladder {
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

// decimalOf returns the decimal of a number that has one of six places or less.
func decimalOf(r *big.Rat) unit.Decimal {
	d, err := unit.ParseDecimal(unit.ShortRat(r))
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
