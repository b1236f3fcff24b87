package unit

import (
	"math/big"
	"strconv"
	"strings"
)

// Decimal is an exact decimal number as somebody wrote it: coef · 10^-places.
// The zero value is 0.
type Decimal struct {
	coef   int64
	places uint8
}

// NewDecimal returns coef · 10^-places.
func NewDecimal(coef int64, places uint8) Decimal { return Decimal{coef, places} }

// ParseDecimal reads digits with at most one decimal point and an optional
// sign. It refuses exponents, commas and more than 15 digits, which no
// darkroom needs and a float64 could not hold exactly.
func ParseDecimal(s string) (Decimal, error) {
	bad := func(why, hint string) (Decimal, error) {
		return Decimal{}, &Error{Code: "quantity", What: strconv.Quote(s) + " is not a number" + why, Hint: hint}
	}
	digits := strings.TrimPrefix(strings.TrimPrefix(s, "+"), "-")
	if strings.Contains(digits, ",") {
		return bad("", "write a decimal point, and no separator for thousands, for example 1500 or 2.5")
	}
	whole, frac, point := strings.Cut(digits, ".")
	if whole == "" || point && frac == "" || strings.Trim(whole+frac, "0123456789") != "" {
		return bad("", "write digits, for example 2.5")
	}
	if len(strings.TrimLeft(whole+frac, "0")) > 15 {
		return bad(" this program can hold exactly", "fifteen digits are enough")
	}
	coef, err := strconv.ParseInt(whole+frac, 10, 64)
	if err != nil {
		return bad("", "write digits, for example 2.5")
	}
	if strings.HasPrefix(s, "-") {
		coef = -coef
	}
	return Decimal{coef, uint8(len(frac))}, nil
}

// Rat returns the number exactly.
func (d Decimal) Rat() *big.Rat {
	return new(big.Rat).SetFrac(big.NewInt(d.coef), pow10(int(d.places)))
}

// Float returns the nearest float64.
func (d Decimal) Float() float64 { f, _ := d.Rat().Float64(); return f }

// Sign is -1, 0 or 1.
func (d Decimal) Sign() int {
	switch {
	case d.coef < 0:
		return -1
	case d.coef > 0:
		return 1
	}
	return 0
}

// Places is how many digits were written after the point.
func (d Decimal) Places() int { return int(d.places) }

// Int returns the whole number, or false if the decimal is not one.
func (d Decimal) Int() (int, bool) {
	r := d.Rat()
	if !r.IsInt() || !r.Num().IsInt64() {
		return 0, false
	}
	return int(r.Num().Int64()), true
}

// String prints the number as it was written.
func (d Decimal) String() string {
	s := strconv.FormatInt(d.coef, 10)
	if d.places == 0 {
		return s
	}
	sign := ""
	if d.coef < 0 {
		sign, s = "-", s[1:]
	}
	for len(s) <= int(d.places) {
		s = "0" + s
	}
	cut := len(s) - int(d.places)
	return sign + s[:cut] + "." + s[cut:]
}

func pow10(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }
