package mix

import (
	"fmt"
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

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
			"weigh_within under [house] says what is allowed",
			unit.ShortRat(upTo(new(big.Rat).Quo(s.errorOf, allowed), s.step))),
	}
}

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
