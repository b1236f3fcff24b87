package figure

import (
	"math/big"
	"sort"

	"wetside/procedures/unit"
)

// Rung is one row of a ladder: how an amount is measured for every volume up
// to and including UpTo.
type Rung struct {
	// UpTo is in tenths of a millilitre.
	UpTo int64
	Hand Hand
}

// Hand is how a hand measures an amount: on which device, in which steps, in
// how many pours.
type Hand struct {
	// Device names the scale, cylinder or syringe.
	Device string
	// Step is what the device can show, in g or ml.
	Step unit.Decimal
	Rule unit.Rule
	// Pours is how many equal pours follow the full ones; at least 1.
	Pours int
	// Full is what is poured first in whole cylinders of FullDevice, in ml.
	Full       unit.Decimal
	FullDevice string
	// Tolerance is the sum of the tolerances of all pours (or the scale's
	// reading error), Root their root of squares, in g or ml.
	Tolerance unit.Decimal
	Root      float64
	// Solution is the percent solution that replaces weighing; PerAmount is how
	// many ml of it hold one g.
	Solution  string
	PerAmount *big.Rat
	// Refused says why the amount cannot be measured here, and Way the way out.
	Refused, Way string
}

// Take returns what is measured of the exact amount: all of it, and each of
// the equal pours.
func (h Hand) Take(amount *big.Rat) (total, pour *big.Rat) {
	if h.PerAmount != nil {
		amount = new(big.Rat).Mul(amount, h.PerAmount)
	}
	rest := new(big.Rat).Sub(amount, h.Full.Rat())
	rest.Quo(rest, big.NewRat(int64(h.Pours), 1))
	steps := unit.RoundRat(rest, h.Step.Rat(), h.Rule)
	pour = new(big.Rat).Mul(new(big.Rat).SetInt(steps), h.Step.Rat())
	total = new(big.Rat).Mul(pour, big.NewRat(int64(h.Pours), 1))
	return total.Add(total, h.Full.Rat()), pour
}

func (h Hand) same(o Hand) bool {
	pa := h.PerAmount == o.PerAmount || h.PerAmount != nil && o.PerAmount != nil && h.PerAmount.Cmp(o.PerAmount) == 0
	h.PerAmount, o.PerAmount = nil, nil
	if h.Refused != "" && o.Refused != "" {
		return true
	}
	return pa && h.Device == o.Device && h.Step == o.Step && h.Rule == o.Rule && h.Pours == o.Pours && h.Full == o.Full && h.FullDevice == o.FullDevice && h.Refused == o.Refused
}

// Ladder gives an amount that grows with a volume: num/den for each tenth of a
// millilitre, measured as the rung says. Outside its rungs there is no answer.
type Ladder struct {
	Unit  string // "g" or "ml"
	Num   *big.Int
	Den   *big.Int
	Rungs []Rung
	// Why says why there is no answer beyond the last rung.
	Why string
}

// Exact returns the unrounded amount for a volume in tenths of a millilitre.
func (l Ladder) Exact(tenths int64) *big.Rat {
	r := new(big.Rat).SetFrac(l.Num, l.Den)
	return r.Mul(r, new(big.Rat).SetInt64(tenths))
}

// Reading is an amount read off a ladder.
type Reading struct {
	Exact, Total, Pour *big.Rat
	Hand               Hand
}

// Read returns the amount for a volume in tenths of a millilitre, or why there
// is none.
func (l Ladder) Read(tenths int64) (Reading, string) {
	i := sort.Search(len(l.Rungs), func(i int) bool { return l.Rungs[i].UpTo >= tenths })
	if tenths <= 0 || i == len(l.Rungs) {
		return Reading{}, l.Why
	}
	h := l.Rungs[i].Hand
	if h.Refused != "" {
		return Reading{Exact: l.Exact(tenths), Hand: h}, h.Refused
	}
	exact := l.Exact(tenths)
	total, pour := h.Take(exact)
	return Reading{exact, total, pour, h}, ""
}

// NewLadder builds the rungs for volumes up to largest (tenths of ml): hand
// says how an amount is measured, and critical lists the amounts at which its
// answer may change.
func NewLadder(unitWord string, perTenth *big.Rat, largest int64, critical []*big.Rat, hand func(*big.Rat) Hand, why string) Ladder {
	l := Ladder{Unit: unitWord, Num: perTenth.Num(), Den: perTenth.Denom(), Why: why}
	ends := map[int64]bool{largest: true}
	for _, c := range critical {
		at := unit.RoundRat(new(big.Rat).Quo(c, perTenth), big.NewRat(1, 1), unit.Down)
		if !at.IsInt64() {
			continue
		}
		for d := int64(-1); d <= 1; d++ {
			if v := at.Int64() + d; v > 0 && v < largest {
				ends[v] = true
			}
		}
	}
	sorted := make([]int64, 0, len(ends))
	for v := range ends {
		sorted = append(sorted, v)
	}
	sort.Slice(sorted, func(i, j int) bool { return sorted[i] < sorted[j] })
	for _, v := range sorted {
		h := hand(l.Exact(v))
		if n := len(l.Rungs); n > 0 && l.Rungs[n-1].Hand.same(h) {
			l.Rungs[n-1].UpTo = v
			continue
		}
		l.Rungs = append(l.Rungs, Rung{v, h})
	}
	return l
}
