package figure

import (
	"math/big"
	"slices"

	"wetside/procedures/unit"
)

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

// Ladder gives an amount that grows with a volume: num/den for each tenth of a
// millilitre. Its rungs are stretches of volumes that are measured alike, as the last
// volume of each is. Beyond the last rung there is no answer.
type Ladder struct {
	Unit string // "g" or "ml"
	Num  *big.Int
	Den  *big.Int
	// Why says why there is no answer beyond the last rung.
	Why string

	ends []int64 // the last volume of each rung, in tenths of a millilitre
	hand func(*big.Rat) Hand
	// measured holds the rungs that were asked for: most are not.
	measured map[int64]Hand
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
	i, _ := slices.BinarySearch(l.ends, tenths)
	if tenths <= 0 || i == len(l.ends) {
		return Reading{}, l.Why
	}
	end := l.ends[i]
	h, ok := l.measured[end]
	if !ok {
		h = l.hand(l.Exact(end))
		l.measured[end] = h
	}
	if h.Refused != "" {
		return Reading{Exact: l.Exact(tenths), Hand: h}, h.Refused
	}
	exact := l.Exact(tenths)
	total, pour := h.Take(exact)
	return Reading{exact, total, pour, h}, ""
}

// NewLadder is the ladder for volumes up to largest (tenths of ml): hand says how an
// amount is measured, and critical lists the amounts at which its answer may change.
func NewLadder(unitWord string, perTenth *big.Rat, largest int64, critical []*big.Rat, hand func(*big.Rat) Hand,
	why string) Ladder {
	ends := []int64{largest}
	for _, c := range critical {
		at := unit.RoundRat(new(big.Rat).Quo(c, perTenth), big.NewRat(1, 1), unit.Down)
		if !at.IsInt64() {
			continue
		}
		for d := int64(-1); d <= 1; d++ {
			if v := at.Int64() + d; v > 0 && v < largest {
				ends = append(ends, v)
			}
		}
	}
	slices.Sort(ends)
	return Ladder{Unit: unitWord, Num: perTenth.Num(), Den: perTenth.Denom(), Why: why, ends: slices.Compact(ends),
		hand: hand, measured: map[int64]Hand{}}
}
