package unit

import (
	"math/big"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// Quantity is a quantity as declared: `number unit`, a range `a..b unit`, or an
// uncertain `a +- b unit`. It keeps the text, the exact numbers and the bounds.
// The zero value was left out.
type Quantity[T Kind] struct {
	text            string
	low, best, high *big.Rat // in the type's own unit; best is nil for a range
}

// Declared is a quantity as declared, alone or within what carries it.
type Declared[T Kind] interface {
	Given() bool
	Text() string
	IsRange() bool
	Value() T
	Low() T
	High() T
	Exact() *big.Rat
	Positive() bool
	Negative() bool
	Spread() bool
}

// Given reports whether the key was written at all.
func (q Quantity[T]) Given() bool { return q.text != "" }

// Text returns the quantity as written.
func (q Quantity[T]) Text() string { return q.text }

// IsRange reports whether it was written as a range without a best value.
func (q Quantity[T]) IsRange() bool { return q.text != "" && q.best == nil }

// Value returns the best value; of a range, the middle.
func (q Quantity[T]) Value() T {
	if q.text == "" {
		return 0
	}
	f, _ := q.Exact().Float64()
	return T(f)
}

// Low and High return the bounds; without bounds, the value itself.
func (q Quantity[T]) Low() T { return toFloat[T](q.low) }

// High returns the upper bound.
func (q Quantity[T]) High() T { return toFloat[T](q.high) }

// Exact returns the best value exactly; of a range, the middle.
// It must not be called on a quantity that was left out.
func (q Quantity[T]) Exact() *big.Rat {
	if q.best != nil {
		return q.best
	}
	mid := new(big.Rat).Add(q.low, q.high)
	return mid.Quo(mid, big.NewRat(2, 1))
}

// Positive reports whether every value it may have is above zero.
func (q Quantity[T]) Positive() bool { return q.low != nil && q.low.Sign() > 0 }

// Negative reports whether it may be below zero.
func (q Quantity[T]) Negative() bool { return q.low != nil && q.low.Sign() < 0 }

// Spread reports whether it has bounds apart from its value.
func (q Quantity[T]) Spread() bool { return q.low != nil && q.low.Cmp(q.high) != 0 }

func toFloat[T Kind](r *big.Rat) T {
	if r == nil {
		return 0
	}
	f, _ := r.Float64()
	return T(f)
}

// UnmarshalText reads a quantity of the type's dimension.
func (q *Quantity[T]) UnmarshalText(b []byte) error {
	got, err := parse(string(b), DimOf[T]())
	if err != nil {
		return err
	}
	*q = Quantity[T]{string(b), got.low, got.best, got.high}
	return nil
}

// Spoken returns the quantity as it stands on a card: a range with "to".
func Spoken[T Kind](q Declared[T]) string {
	return strings.NewReplacer("..", " to ", "+-", "±", "mL", "ml").Replace(q.Text())
}

// MustParse reads a quantity that stands in the program itself, such as a
// default; a mistake there is a defect, so it panics.
func MustParse[T Kind](s string) Quantity[T] {
	key := constant{T(0), s}
	if q, ok := constants.Load(key); ok {
		return q.(Quantity[T])
	}
	var q Quantity[T]
	if err := q.UnmarshalText([]byte(s)); err != nil {
		panic(err)
	}
	constants.Store(key, q)
	return q
}

// constants are the quantities that MustParse has read once: the few of the program are
// asked for again and again.
var constants sync.Map

type constant struct {
	kind any // the zero of the quantity's type
	text string
}

// Exactly returns a quantity of an exact value in the type's own unit.
func Exactly[T Kind](r *big.Rat, text string) Quantity[T] { return Quantity[T]{text, r, r, r} }

type span struct{ low, best, high *big.Rat }

type unitDef struct {
	dim    Dim
	factor *big.Rat
}

func rat(a, b int64) *big.Rat { return big.NewRat(a, b) }

var one = rat(1, 1)

// largest bounds every quantity, so that sums and products stay exact and
// printable.
var largest = rat(1000000000, 1)

// units is the closed list of unit words. Letters that differ only in case are
// different units, except litres, which both trades write both ways.
var units = map[string]unitDef{
	"g": {DimMass, one}, "kg": {DimMass, rat(1000, 1)}, "mg": {DimMass, rat(1, 1000)},
	"ml": {DimVolume, one}, "mL": {DimVolume, one}, "l": {DimVolume, rat(1000, 1)}, "L": {DimVolume, rat(1000, 1)},
	"°C": {DimTemperature, one}, "C": {DimTemperature, one},
	"K":   {DimKelvin, one},
	"cm2": {DimArea, one}, "cm²": {DimArea, one}, "m2": {DimArea, rat(10000, 1)}, "m²": {DimArea, rat(10000, 1)},
	"mm": {DimLength, one}, "nm": {DimLength, rat(1, 1000000)}, "cm": {DimLength, rat(10, 1)},
	"m": {DimLength, rat(1000, 1)},
	"s": {DimTime, one}, "min": {DimTime, rat(60, 1)}, "h": {DimTime, rat(3600, 1)},
	"g/L": {DimConcentration, one}, "g/l": {DimConcentration, one}, "mg/L": {DimConcentration, rat(1, 1000)},
	"mg/l": {DimConcentration, rat(1, 1000)},
	"g/mL": {DimDensity, one}, "g/ml": {DimDensity, one}, "kg/L": {DimDensity, one}, "kg/l": {DimDensity, one},
	"%": {DimPercent, one}, "% w/w": {DimWW, one}, "% w/v": {DimWV, one}, "% v/v": {DimVV, one},
	"g/m2": {DimMassPerArea, one}, "g/m²": {DimMassPerArea, one},
	"mL/m2": {DimVolumePerArea, one}, "ml/m2": {DimVolumePerArea, one}, "ml/m²": {DimVolumePerArea, one},
	"mL/m²": {DimVolumePerArea, one},
	"mL/g":  {DimVolumePerMass, one}, "ml/g": {DimVolumePerMass, one},
	"mL/sheet": {DimVolumePerSheet, one}, "ml/sheet": {DimVolumePerSheet, one},
	"mL/roll": {DimVolumePerRoll, one}, "ml/roll": {DimVolumePerRoll, one},
	"rolls": {DimRolls, one}, "roll": {DimRolls, one},
	"rolls/L": {DimRollsPerVolume, one}, "rolls/l": {DimRollsPerVolume, one}, "roll/L": {DimRollsPerVolume, one},
	"m2/L": {DimAreaPerVolume, one}, "m²/L": {DimAreaPerVolume, one}, "m2/l": {DimAreaPerVolume, one},
	"L/min": {DimFlow, one}, "l/min": {DimFlow, one}, "m3/h": {DimFlow, rat(1000, 60)},
	"/K": {DimPerKelvin, one}, "/°C": {DimPerKelvin, one},
	"/stop": {DimPerStop, one}, "stops": {DimStops, one}, "stop": {DimStops, one},
	"g/mol": {DimMolar, one}, "x": {DimFactor, one}, "x fresh": {DimFactor, one},
	"g/100 g": {DimSolubility, one},
	"/L":      {DimPerLitre, one}, "/l": {DimPerLitre, one},
	"uses": {DimUses, one}, "use": {DimUses, one},
	"% per roll/L": {DimPerRollLitre, one},
	"mg/kg":        {DimDose, one}, "ppm": {DimGas, one}, "kJ/mol": {DimHeat, one},
	"mol/L": {DimMolarity, one}, "mol/l": {DimMolarity, one}, "mol/kg": {DimMolality, one},
	"J/(g K)": {DimHeatCapacity, one}, "kPa": {DimPressure, one},
}

// asWritten corrects what people type for a unit; the value is what to write.
var asWritten = map[string]string{
	"gm": "g", "gr": "g", "gram": "g", "grams": "g", "gms": "g", "cc": "mL", "ccm": "mL", "millilitre": "mL",
	"ML": "mL", "Ml": "mL", "litre": "L", "litres": "L", "liter": "L", "ltr": "L", "deg C": "°C", "degC": "°C",
	"º C": "°C", "ºC": "°C",
	"sec": "s", "secs": "s", "seconds": "s", "minutes": "min", "mins": "min", "m'": "min", "hr": "h", "hours": "h",
	"g/litre": "g/L", "per stop": "/stop", "percent": "%", "KG": "kg", "Kg": "kg", "G": "g",
}

var (
	ranged    = regexp.MustCompile(`^(\S+)\s*\.\.\s*(\S+?)(\s+|$)(.*)$`)
	uncertain = regexp.MustCompile(`^(\S+)\s*(?:\+-|±)\s*(\S+)(\s+|$)(.*)$`)
	plain     = regexp.MustCompile(`^([-+]?[0-9][0-9.,]*|[-+]?\.[0-9]+)\s*(.*)$`)
	clock     = regexp.MustCompile(`^([0-9]{1,3}):([0-5][0-9])$`)
	ratio     = regexp.MustCompile(`^[0-9.]+\s*:\s*[0-9.]+$`)
)

// justUnder makes of a bound that is not reached one that is: "<0.3 % w/w" does not come to a limit that
// holds from 0.3 % on. It is more than what twelve digits take for the same.
var justUnder = big.NewRat(999_999_999, 1_000_000_000)

func parse(text string, want Dim) (span, error) {
	s := strings.TrimSpace(text)
	fail := func(what, hint string) (span, error) {
		return span{}, &Error{Code: "quantity", What: strconv.Quote(text) + " " + what, Hint: hint}
	}
	if s == "" {
		return fail("is empty where "+want.Name()+" is wanted", `for example "`+want.Example()+`"`)
	}
	if want == DimTime {
		if m := clock.FindStringSubmatch(s); m != nil {
			minutes, _ := strconv.ParseInt(m[1], 10, 64)
			seconds, _ := strconv.ParseInt(m[2], 10, 64)
			r := rat(minutes*60+seconds, 1)
			return span{r, r, r}, nil
		}
	}
	if ratio.MatchString(s) {
		if want == DimTime {
			return fail("is not a time",
				"a clock time has minutes, a colon and two digits of seconds, from 00 to 59, for example \"7:45\"")
		}
		hint := `write a number and a unit, for example "` + want.Example() + `"; `
		if clock.MatchString(s) {
			return fail("is not "+want.Name(), hint+"this reads as a time of the clock, or as a dilution")
		}
		return fail("is not "+want.Name(), hint+colonHint)
	}
	if most, ok := strings.CutPrefix(s, "<"); ok && want == DimWW {
		got, err := parse("0.."+strings.TrimSpace(most), want) // as suppliers' sheets write "less than"
		if err == nil && got.high.Sign() > 0 {
			got.best = new(big.Rat).Mul(got.high, big.NewRat(1, 2))
			got.high = new(big.Rat).Mul(got.high, justUnder)
		}
		return got, err
	}
	var first, second, unitWord string
	isRange, isUncertain := false, false
	if m := ranged.FindStringSubmatch(s); m != nil {
		first, second, unitWord, isRange = m[1], m[2], m[4], true
	} else if m := uncertain.FindStringSubmatch(s); m != nil {
		first, second, unitWord, isUncertain = m[1], m[2], m[4], true
	} else if m := plain.FindStringSubmatch(s); m != nil {
		first, unitWord = m[1], m[2]
	} else {
		return fail("is not "+want.Name(), `write a number and a unit, for example "`+want.Example()+`"`)
	}
	def, err := unitNamed(text, unitWord, want)
	if err != nil {
		return span{}, err
	}
	a, err := ParseDecimal(first)
	if err != nil {
		return span{}, err
	}
	av := new(big.Rat).Mul(a.Rat(), def.factor)
	if new(big.Rat).Abs(av).Cmp(largest) > 0 {
		return fail("is more than any darkroom holds", "correct the number or its unit")
	}
	if !isRange && !isUncertain {
		return span{av, av, av}, nil
	}
	b, err := ParseDecimal(second)
	if err != nil {
		return span{}, err
	}
	bv := new(big.Rat).Mul(b.Rat(), def.factor)
	if new(big.Rat).Abs(bv).Cmp(largest) > 0 {
		return fail("is more than any darkroom holds", "correct the number or its unit")
	}
	if isRange {
		if av.Cmp(bv) > 0 {
			return fail("runs backwards", "write the smaller bound first")
		}
		return span{low: av, high: bv}, nil
	}
	if bv.Sign() < 0 {
		return fail("has a negative uncertainty", `write it as "1.09 +- 0.02 g/mL"`)
	}
	return span{new(big.Rat).Sub(av, bv), av, new(big.Rat).Add(av, bv)}, nil
}

func unitNamed(text, word string, want Dim) (unitDef, error) {
	word = strings.Join(strings.Fields(word), " ")
	quoted := strconv.Quote(text)
	def, ok := units[word]
	if ok && want == DimKelvin && def.dim == DimTemperature {
		def.dim = DimKelvin // "within 2 °C" is a difference
	}
	if ok && want == DimInAir && def.dim == DimConcentration {
		def = unitDef{DimInAir, new(big.Rat).Mul(def.factor, rat(1000, 1))} // "1.5 mg/L" of air
	}
	if ok && (want == DimFactor && def.dim == DimPercent) {
		def = unitDef{DimFactor, rat(1, 100)}
	}
	switch {
	case ok && def.dim == want:
		return def, nil
	case ok && def.dim == DimPercent && (want == DimWW || want == DimWV || want == DimVV):
		return def, &Error{"quantity", quoted + " does not say percent of what", `write "% w/v" (g in 100 mL of solution), "% w/w" (g in 100 g) or "% v/v" (mL in 100 mL)`}
	case ok:
		return def, &Error{"quantity", quoted + " is " + def.dim.Name() + " where " + want.Name() + " is wanted", `for example "` + want.Example() + `"`}
	case word == "" && (want == DimSpeed || want == DimFactor):
		return unitDef{want, one}, nil
	case word == "":
		return def, &Error{"quantity", quoted + " has no unit", `write the unit too, for example "` + want.Example() + `"`}
	}
	if right, known := asWritten[word]; known && units[right].dim == want {
		return def, &Error{"quantity", quoted + " is not " + want.Name(), `write the unit as ` + right + `, for example "` + strings.TrimSuffix(strings.TrimSpace(strings.TrimSuffix(text, word)), " ") + " " + right + `"`}
	}
	if hint := inMetric(text, word, want); hint != "" {
		return def, &Error{"quantity", quoted + " is not metric", hint}
	}
	if want == DimTime && strings.HasPrefix(word, ":") {
		return def, &Error{"quantity", quoted + " is not a time: a clock time has minutes, a colon and two digits of seconds, and lies above zero", `for example "` + want.Example() + `"`}
	}
	return def, &Error{"quantity", quoted + " is not " + want.Name() + `: there is no unit "` + word + `"`, `for example "` + want.Example() + `"`}
}
