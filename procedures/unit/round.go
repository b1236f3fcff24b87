package unit

import (
	"math"
	"math/big"
	"strconv"
	"strings"
)

// Rule is the side to which a value is rounded.
type Rule uint8

// The rules. Needs go up, capacities down, what a hand measures to the nearest.
const (
	Nearest Rule = iota
	Up
	Down
)

// String returns the word printed beside a rounded figure.
func (r Rule) String() string { return [...]string{"nearest", "up", "down"}[r] }

// Snap returns x as read to 12 significant digits, so that 1.2/0.05 is 24 and
// not a hair below it. NaN and infinities are returned as they are.
func Snap(x float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) || x == 0 {
		return x
	}
	s, _ := strconv.ParseFloat(strconv.FormatFloat(x, 'e', 11, 64), 64)
	return s
}

// Round returns x rounded to a multiple of step by the rule, on the snapped
// value; halves go away from zero. step must be above 0.
func Round(x, step float64, rule Rule) float64 {
	n := Snap(x / step)
	switch rule {
	case Up:
		n = math.Ceil(n)
	case Down:
		n = math.Floor(n)
	default:
		n = math.Round(n)
	}
	return Snap(n * step)
}

// RoundRat rounds the exact x to a whole number of steps and returns how many.
// Halves go away from zero.
func RoundRat(x, step *big.Rat, rule Rule) *big.Int {
	q := new(big.Rat).Quo(x, step)
	num, den := q.Num(), q.Denom()
	floor := new(big.Int).Div(num, den) // Euclidean: den > 0, so this is the floor
	switch rule {
	case Down:
		return floor
	case Up:
		if q.IsInt() {
			return floor
		}
		return floor.Add(floor, big.NewInt(1))
	}
	twice := new(big.Rat).Sub(q, new(big.Rat).SetInt(floor))
	twice.Mul(twice, big.NewRat(2, 1))
	if c := twice.Cmp(big.NewRat(1, 1)); c > 0 || c == 0 && num.Sign() >= 0 {
		floor.Add(floor, big.NewInt(1))
	}
	return floor
}

// Format prints x with as many decimals as step was written with.
func Format(x float64, step Decimal) string {
	return strconv.FormatFloat(Snap(x), 'f', step.Places(), 64)
}

// Short prints a number with two decimals at most, and none that says nothing.
func Short(x float64) string {
	return cut(Format(x, NewDecimal(1, 2)))
}

// ShortRat prints a number with as few decimals as it needs, six at most.
func ShortRat(r *big.Rat) string { return cut(r.FloatString(6)) }

func cut(s string) string {
	if !strings.Contains(s, ".") {
		return s
	}
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}

// Plural is the word for n of something.
func Plural[T int | float64](n T, word string) string {
	if n == 1 {
		return word
	}
	return word + "s"
}
