package ph

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"wetside/procedures/chem"
	"wetside/procedures/lab"
)

// Air is what the bath exchanges with: nothing, the air of the room, or pure carbon dioxide,
// as while it fizzes.
type Air uint8

// The airs.
const (
	Closed  Air = iota // in its bottle: nothing comes or goes
	Open               // in equilibrium with the carbon dioxide of the air
	Fizzing            // under one atmosphere of carbon dioxide
)

// carbonDioxide is the part of the air, log10 of atmospheres: 417 parts in a million.
const carbonDioxide = -3.38

// strongest is the ionic strength in mol/kg up to which a pH is worked out.
const strongest = 3.0

// The reasons why there is no pH.
var (
	ErrStrong = fmt.Errorf("more than %.0f mol/kg of ions: no equation that is known here holds", strongest)
	ErrRange  = errors.New("the pH lies outside of -2 to 16")
)

// Mixture is what a kilogram of water holds.
type Mixture struct {
	table  *Table
	totals map[*family]float64 // mol/kg of the family's last member
	strong map[*species]float64
	// begin is where the search begins, once there is an answer near by.
	begin *Answer
}

// near is the mixture with the search beginning at the answer of one much like it: the answer is the same, and
// found sooner.
func (m *Mixture) near(a Answer) *Mixture {
	return &Mixture{table: m.table, totals: m.totals, strong: m.strong, begin: &a}
}

// NewMixture is pure water.
func (t *Table) NewMixture() *Mixture {
	return &Mixture{table: t, totals: map[*family]float64{}, strong: map[*species]float64{}}
}

// Add puts so many mol of an ion into the kilogram of water. The ions that are added must
// have no charge together: protons and hydroxide ions need not be told, as the balance of
// charge finds them. It reports whether anything is known of the ion.
func (m *Mixture) Add(ion chem.Ion, mol float64) bool {
	if ion == proton || ion == hydroxide {
		return true
	}
	s := m.table.species[ion]
	if s == nil {
		return false
	}
	if s.with != nil {
		m.strong[s.with] += mol
	}
	if s.fam.acidic() {
		m.totals[s.fam] += mol * float64(s.units)
	} else {
		m.strong[s] += mol
	}
	return true
}

// slot is a species in a system: what changes with the temperature is worked out.
type slot struct {
	of    *species
	shape shape
	logB  float64 // log10 of its constant of formation from the last member and protons
	units int
	gives int
	gas   bool // it stands in equilibrium with a gas
	// with is the place of the bystander that it pairs with, counted from one; 0: it is no pair.
	with int
	// counts is its charge in the balance: a pair leaves that of its bystander there.
	counts float64
	paired float64 // the part of k without the bystander
	gamma  float64 // log10 of its activity coefficient
	k      float64 // of its formation, with the activities in it
	m      float64 // mol/kg
}

type group struct {
	slots    []slot
	total    float64
	henry    float64 // log10 of mol/kg under one atmosphere of the member that is a gas
	pressure float64 // of the gas, log10 of atmospheres, where the air holds it
	fixed    bool    // the air holds it
	polymers bool
}

type bystander struct {
	of    *species
	shape shape
	mol   float64
	// free is what stands in no pair, and held what stands in pairs.
	free, held float64
}

// system is a mixture at a temperature, ready to be solved: nothing is allocated while it is.
type system struct {
	groups   []group
	strong   []bystander
	charge   float64 // of the bystanders
	ionic    float64 // their part of the ionic strength
	h, oh    shape
	pkw      float64
	water    *constant // whose value that is
	a, b     float64
	model    model
	t        float64
	hydroxyl float64
	hydrogen float64
	pairs    bool
	begin    *Answer // where the search begins; nil: in the middle
}

// Answer is how acid a mixture is.
type Answer struct {
	PH    float64 // −log10 of the activity of hydrogen ions
	Ionic float64 // ionic strength in mol/kg
	// LogCO2 is log10 of the pressure of carbon dioxide in atmospheres over the mixture;
	// −Inf without carbonate.
	LogCO2 float64
	// Charge is what is left of the balance of charge, in mol/kg.
	Charge float64
}

// shift is a constant that is moved by its doubt.
type shift struct {
	of *constant
	by float64
}

// at prepares the mixture at t °C. moved constants are shifted.
func (m *Mixture) at(t float64, air Air, how model, moved ...shift) *system {
	y := &system{t: t, h: m.table.hydrogen, oh: m.table.hydroxyl, model: how, begin: m.begin,
		water: m.table.kept[0]}
	y.a, y.b = debyeHückel(t)
	pk := func(c *constant) float64 {
		v := c.said.At(t)
		for _, s := range moved {
			if s.of == c {
				v += s.by
			}
		}
		return v
	}
	y.pkw = pk(m.table.kept[0])
	strong := m.sortedStrong()
	y.strong = make([]bystander, 0, len(strong))
	y.groups = make([]group, 0, len(m.totals))
	for _, s := range strong {
		mol := m.strong[s]
		y.strong = append(y.strong, bystander{of: s, shape: s.shape, mol: mol, free: mol})
		y.charge += s.shape.z * mol
		y.ionic += s.shape.z * s.shape.z * mol
	}
	for _, f := range m.table.families {
		total := m.totals[f]
		if total == 0 {
			continue
		}
		g := group{total: total, slots: make([]slot, 0, len(f.members))}
		for _, s := range f.members {
			l := slot{of: s, shape: s.shape, units: s.units, gives: s.gives, counts: s.shape.z}
			if s.with != nil {
				l.with = 1 + slices.IndexFunc(y.strong, func(b bystander) bool { return b.of == s.with })
				l.counts -= s.with.shape.z
				if l.with == 0 { // there is nothing to pair with
					continue
				}
				y.pairs = true
			}
			for _, c := range m.table.kept { // in one order, so that sums come out alike
				if n := s.steps[c]; n != 0 {
					l.logB += float64(n) * pk(c)
				}
			}
			if len(s.gas) > 0 {
				l.gas = true
				g.henry = lab.Polynomial(s.gas, t)
			}
			g.polymers = g.polymers || s.units > 1
			g.slots = append(g.slots, l)
		}
		if air != Closed && slices.ContainsFunc(g.slots, func(s slot) bool { return s.gas }) {
			g.fixed = true
			if air == Open {
				g.pressure = carbonDioxide
			}
		}
		y.groups = append(y.groups, g)
	}
	return y
}

// move shifts a constant of the system.
func (y *system) move(c *constant, by float64) {
	if c == y.water {
		y.pkw += by
	}
	for n := range y.groups {
		for j := range y.groups[n].slots {
			s := &y.groups[n].slots[j]
			s.logB += float64(s.of.steps[c]) * by
		}
	}
}

func (m *Mixture) sortedStrong() []*species {
	out := make([]*species, 0, len(m.strong))
	for s := range m.strong {
		out = append(out, s)
	}
	slices.SortFunc(out, func(a, b *species) int { return strings.Compare(a.name, b.name) })
	return out
}

// Solve works the pH out at t °C.
func (m *Mixture) Solve(t float64, air Air) (Answer, error) { return m.solve(t, air, extended) }

func (m *Mixture) solve(t float64, air Air, how model, moved ...shift) (Answer, error) {
	y := m.at(t, air, how, moved...)
	got, err := y.solve()
	if air == Fizzing && err == nil {
		closed, bad := m.solve(t, Closed, how, moved...)
		if bad == nil && closed.LogCO2 <= 0 { // it does not fizz
			return closed, nil
		}
	}
	return got, err
}

// The pH is sought between these.
const (
	lowest, highest = -2.0, 16.0
	narrow          = 1e-11 // of a pH
)

// solve finds the ionic strength that the species it leads to have: by the straight line
// through the last two trials, and by halving where that leads outside of what is left. It
// always ends: at the lower end the species' own ionic strength lies above the one that was
// assumed, and a mixture for which it still does so at the upper end is refused.
func (y *system) solve() (Answer, error) {
	ph, i := 7.0, min(y.ionic/2, strongest)
	if y.begin != nil {
		ph, i = y.begin.PH, y.begin.Ionic
	}
	low, high := 0.0, strongest
	before, e := 0.0, 0.0 // the last trial and what it came to
	first := true
	for range 200 {
		got, err := y.excess(i, &ph)
		switch {
		case err != nil:
			return Answer{}, err
		case math.Abs(got) <= 1e-11*(1+i) || high-low <= 1e-13:
			return y.answer(ph, i), nil
		case got > 0 && i == strongest:
			return Answer{}, ErrStrong
		case got > 0:
			low = i
		default:
			high = i
		}
		next := i + got // as if activities did not change
		if !first && got != e {
			next = i - got*(i-before)/(got-e)
		}
		before, e, first = i, got, false
		switch {
		case next >= strongest && high == strongest:
			next = strongest
		case !(next > low && next < high):
			next = (low + high) / 2
		}
		i = next
	}
	return y.answer(ph, i), nil
}

// excess is how far the ionic strength of the species lies above the one that their
// activities were reckoned with; ph is where the search begins and where it ended.
func (y *system) excess(i float64, ph *float64) (float64, error) {
	root := math.Sqrt(i)
	gh := y.h.logGamma(y.model, i, root, y.a, y.b)
	goh := y.oh.logGamma(y.model, i, root, y.a, y.b)
	y.hydrogen = power(-gh)
	sum := 0.0 // mol/kg of all that is dissolved, for the activity of the water
	for _, s := range y.strong {
		sum += s.mol
	}
	for _, g := range y.groups {
		sum += g.total
	}
	y.hydroxyl = power(-y.pkw-goh) * max(0.5, 1-0.017*sum)
	for n := range y.groups {
		g := &y.groups[n]
		for j := range g.slots {
			s := &g.slots[j]
			s.gamma = s.shape.logGamma(y.model, i, root, y.a, y.b)
			s.k = power(s.logB + float64(s.units)*g.slots[0].gamma - s.gamma)
			if s.with > 0 {
				b := &y.strong[s.with-1]
				s.paired = s.k * power(b.shape.logGamma(y.model, i, root, y.a, y.b))
				s.k = s.paired * b.free
			}
		}
	}
	if err := y.settle(ph); err != nil {
		return 0, err
	}
	h := power(-*ph)
	own := y.ionic + h*y.hydrogen + y.hydroxyl/h
	for n := range y.groups {
		for _, s := range y.groups[n].slots {
			own += s.shape.z * s.shape.z * s.m
			if s.with > 0 {
				z := y.strong[s.with-1].shape.z
				own -= z * z * s.m
			}
		}
	}
	return own/2 - i, nil
}

// settle finds the pH, and how much of the bystanders stands in pairs: each round shares them
// out anew by what the last one held.
func (y *system) settle(ph *float64) error {
	for range 200 {
		if err := y.balance(ph); err != nil || !y.pairs {
			return err
		}
		for b := range y.strong {
			y.strong[b].held = 0
		}
		for n := range y.groups {
			for _, s := range y.groups[n].slots {
				if s.with > 0 {
					y.strong[s.with-1].held += s.m
				}
			}
		}
		moved := 0.0
		for b := range y.strong {
			x := &y.strong[b]
			if x.mol == 0 {
				continue
			}
			next := x.mol * x.free / (x.free + x.held)
			moved = max(moved, math.Abs(next-x.free)/x.mol)
			x.free = next
		}
		for n := range y.groups {
			for j := range y.groups[n].slots {
				if s := &y.groups[n].slots[j]; s.with > 0 {
					s.k = s.paired * y.strong[s.with-1].free
				}
			}
		}
		if moved <= 1e-12 {
			return nil
		}
	}
	return nil
}

// balance finds the pH at which all charges add up to none. The sum rises with the activity
// of hydrogen, so that there is one answer between the two ends or none at all.
func (y *system) balance(ph *float64) error {
	low, high := lowest, highest
	x := *ph
	for range 200 {
		f, slope := y.chargeAt(x)
		if f > 0 { // too much of the positive: the pH lies higher
			low = x
		} else {
			high = x
		}
		next := x - f/slope
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) <= narrow {
			*ph = next
			y.chargeAt(next)
			if next-lowest < 1e-6 || highest-next < 1e-6 {
				return ErrRange
			}
			return nil
		}
		x = next
	}
	*ph = x
	return nil
}

// chargeAt is the sum of all charges at a pH, and how it changes with the pH.
func (y *system) chargeAt(ph float64) (sum, slope float64) {
	h := power(-ph)
	hm, ohm := h*y.hydrogen, y.hydroxyl/h
	sum = y.charge + hm - ohm
	slope = -(hm + ohm)
	for n := range y.groups {
		z, d := y.groups[n].spread(h)
		sum += z
		slope -= d
	}
	return sum, slope * math.Ln10
}

// spread shares a family out among its members at an activity of hydrogen: it fills in the
// mol/kg of each, and returns the sum of their charges and how it changes with the natural
// logarithm of the activity.
func (g *group) spread(h float64) (charge, slope float64) {
	free := 0.0 // mol/kg of the last member
	simple := 0.0
	for j := range g.slots {
		s := &g.slots[j]
		s.m = s.k * whole(h, s.gives)
		if s.units == 1 {
			simple += s.m
		}
	}
	switch {
	case g.fixed:
		for _, s := range g.slots {
			if s.gas {
				free = power(g.henry+g.pressure-s.gamma) / s.m
			}
		}
	case !g.polymers:
		free = g.total / simple
	default:
		free = g.total / simple
		for range 200 { // from above: a rising curve that bends upwards leads down step by step
			sum, rise := -g.total, 0.0
			for _, s := range g.slots {
				p := s.m * whole(free, s.units)
				sum += float64(s.units) * p
				rise += float64(s.units*s.units) * p / free
			}
			step := sum / rise
			free -= step
			if step <= 1e-14*free {
				break
			}
		}
	}
	var q, u, n float64
	for j := range g.slots {
		s := &g.slots[j]
		s.m *= whole(free, s.units)
		charge += s.counts * s.m
		q += float64(s.units*s.gives) * s.m
		u += float64(s.units*s.units) * s.m
	}
	change := -q / u // of the last member, with the activity of hydrogen
	if g.fixed {
		for _, s := range g.slots {
			if s.gas {
				n = -float64(s.gives)
			}
		}
		change = n
	}
	for _, s := range g.slots {
		slope += s.counts * s.m * (float64(s.gives) + float64(s.units)*change)
	}
	return charge, slope
}

// whole is x to a whole power from 0.
func whole(x float64, n int) float64 {
	out := 1.0
	for ; n > 0; n-- {
		out *= x
	}
	return out
}

// answer gathers what was found.
func (y *system) answer(ph, i float64) Answer {
	charge, _ := y.chargeAt(ph)
	out := Answer{PH: ph, Ionic: i, LogCO2: math.Inf(-1), Charge: charge}
	for _, g := range y.groups {
		for _, s := range g.slots {
			if s.gas && s.m > 0 {
				out.LogCO2 = math.Log10(s.m) + s.gamma - g.henry
			}
		}
	}
	return out
}

// power is ten to the power of x.
func power(x float64) float64 { return math.Exp(x * math.Ln10) }
