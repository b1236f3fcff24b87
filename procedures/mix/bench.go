// Package mix works out what goes into a jug: it is the only place where a
// strength is expanded into what is really in it, and where scales and
// cylinders are chosen.
package mix

import (
	"fmt"
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
		sc := scale{name: id, reads: reads, step: decimalOf(reads),
			errorOf: new(big.Rat).Mul(reads, big.NewRat(k, 1)), decl: s}
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

// upTo rounds up to a multiple of a step.
func upTo(x *big.Rat, step unit.Decimal) *big.Rat {
	n := unit.RoundRat(x, step.Rat(), unit.Up)
	return new(big.Rat).Mul(new(big.Rat).SetInt(n), step.Rat())
}

func percent(r *big.Rat) string { return unit.ShortRat(new(big.Rat).Mul(r, big.NewRat(100, 1))) }

// commonScales and commonSteps are what scales read, in g, and half of what
// cylinders are divided into, in ml, where the lab has declared none.
var (
	commonScales = []string{"1", "0.1", "0.01", "0.001"}
	commonSteps  = []string{"10", "5", "1", "0.5", "0.1", "0.05"}
)

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
