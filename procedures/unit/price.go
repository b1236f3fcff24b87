package unit

import (
	"math/big"
	"regexp"
	"strconv"
	"strings"
)

// Price is money for a mass, a volume or a piece, with its currency as a code
// of three letters (ISO 4217). The zero value was left out.
type Price struct {
	text     string
	Currency string
	amount   *big.Rat
	per      Dim // DimMass: per g, DimVolume: per ml, DimNone: for the whole
}

var price = regexp.MustCompile(`^([0-9.,]+)\s*([A-Z]{3})\s*(?:/\s*([A-Za-z0-9³]+))?$`)

var pricePer = map[string]unitDef{
	"kg": {DimMass, rat(1000, 1)}, "g": {DimMass, one},
	"L": {DimVolume, rat(1000, 1)}, "l": {DimVolume, rat(1000, 1)}, "mL": {DimVolume, one}, "ml": {DimVolume, one},
	"m3": {DimVolume, rat(1000000, 1)}, "m³": {DimVolume, rat(1000000, 1)},
}

// Given reports whether the key was written.
func (p Price) Given() bool { return p.text != "" }

// Text returns the price as written.
func (p Price) Text() string { return p.text }

// PerKg returns the price of a kilogram, or false if it is not by mass.
func (p Price) PerKg() (MoneyPerKg, bool) {
	if p.per != DimMass {
		return 0, false
	}
	return MoneyPerKg(1000 * toFloat[Factor](p.amount)), true
}

// PerL returns the price of a litre, or false if it is not by volume.
func (p Price) PerL() (MoneyPerL, bool) {
	if p.per != DimVolume {
		return 0, false
	}
	return MoneyPerL(1000 * toFloat[Factor](p.amount)), true
}

// Whole returns the price of the whole thing, or false if it is by mass or volume.
func (p Price) Whole() (Money, bool) {
	if p.text == "" || p.per != DimNone {
		return 0, false
	}
	return Money(toFloat[Factor](p.amount)), true
}

// UnmarshalText reads "5.00 EUR/kg".
func (p *Price) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(string(b))
	fail := func(what, hint string) error {
		return &Error{Code: "price", What: strconv.Quote(string(b)) + " " + what, Hint: hint}
	}
	const example = `write the number and the currency: "5.00 EUR" for a pack, or "5.00 EUR/kg" for what is sold by weight`
	m := price.FindStringSubmatch(s)
	if m == nil {
		if strings.Trim(s, "0123456789.,") == "" || strings.HasPrefix(strings.TrimLeft(s, "0123456789., "), "/") {
			return fail("has no currency", example)
		}
		return fail("is not a price", example+"; a currency is a code of three capital letters")
	}
	amount, err := ParseDecimal(m[1])
	if err != nil {
		return err
	}
	got := Price{text: s, Currency: m[2], amount: amount.Rat()}
	if m[3] != "" {
		def, ok := pricePer[m[3]]
		if !ok {
			return fail("is a price for an unknown unit", "prices are per kg, g, L, mL or m3")
		}
		got.per = def.dim
		got.amount = new(big.Rat).Quo(got.amount, def.factor)
	}
	*p = got
	return nil
}
