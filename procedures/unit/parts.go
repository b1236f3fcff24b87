package unit

import (
	"math/big"
	"strconv"
	"strings"
)

const colonHint = `a colon can be read two ways: 1:4 as one part and four parts (write "1+4", one in five) or as one in four (write "1+3")`

// Dilution is a dilution as the trade writes it, "1+4": parts of the solution
// and parts of water. The zero value was left out.
type Dilution struct {
	text   string
	Stock  Decimal
	Water  Decimal
	isNone bool
}

// Given reports whether the key was written.
func (d Dilution) Given() bool { return d.text != "" }

// None reports an undiluted strength.
func (d Dilution) None() bool { return d.isNone }

// Text returns the dilution as written.
func (d Dilution) Text() string { return d.text }

// Undiluted is the dilution written as "none".
var Undiluted = Dilution{text: "none", isNone: true, Stock: NewDecimal(1, 0)}

// Share returns the exact share of the solution in the whole: a/(a+b).
func (d Dilution) Share() *big.Rat {
	whole := new(big.Rat).Add(d.Stock.Rat(), d.Water.Rat())
	return new(big.Rat).Quo(d.Stock.Rat(), whole)
}

// UnmarshalText reads "a+b", or "none" for an undiluted strength.
func (d *Dilution) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(string(b))
	fail := func(what, hint string) error {
		return &Error{Code: "dilution", What: strconv.Quote(string(b)) + " " + what, Hint: hint}
	}
	if s == "none" {
		*d = Undiluted
		return nil
	}
	if strings.Contains(s, ":") {
		return fail("is not a dilution", colonHint)
	}
	parts := strings.Split(s, "+")
	if len(parts) != 2 {
		return fail("is not a dilution", `write parts of solution + parts of water, for example "1+4"; two bottles that go into the water of each tank, such as 1+1+48, are two files in products/ and one in solutions/ with [[step]] and parts: "wetside start FOLDER --with two-bottle-one-shot" writes all three`)
	}
	stock, err := ParseDecimal(strings.TrimSpace(parts[0]))
	if err != nil {
		return fail("is not a dilution", `for example "1+4"`)
	}
	water, err := ParseDecimal(strings.TrimSpace(parts[1]))
	if err != nil {
		return fail("is not a dilution", `for example "1+4"`)
	}
	if stock.Sign() <= 0 || water.Sign() < 0 {
		return fail("holds an impossible part", "parts are above zero")
	}
	if water.Sign() == 0 {
		return fail("dilutes nothing", `write dilute = "none" for a strength used as it is`)
	}
	*d = Dilution{text: stock.String() + "+" + water.String(), Stock: stock, Water: water}
	return nil
}
