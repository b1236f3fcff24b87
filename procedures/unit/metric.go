package unit

import (
	"strconv"
	"strings"
)

// customary are units of the United States and what one is in ours: an inch is
// 2.54 cm, a pound 453.59237 g and a gallon 231 cubic inches, each exactly (United
// States customary measures, from memory of their legal definitions).
var customary = map[string]struct {
	dim   Dim
	one   float64
	unit  string
	plain string
}{
	"fl oz": {DimVolume, 29.5735295625, "mL", "US fluid ounces"}, "pt": {DimVolume, 473.176473, "mL", "US pints"},
	"qt":  {DimVolume, 946.352946, "mL", "US quarts"},
	"gal": {DimVolume, 3785.411784, "mL", "US gallons"}, "gallon": {DimVolume, 3785.411784, "mL", "US gallons"},
	"gallons": {DimVolume, 3785.411784, "mL", "US gallons"},
	"oz":      {DimMass, 28.349523125, "g", "ounces"}, "lb": {DimMass, 453.59237, "g", "pounds"},
	"lbs": {DimMass, 453.59237, "g", "pounds"},
	"in":  {DimLength, 2.54, "cm", "inches"}, "inch": {DimLength, 2.54, "cm", "inches"},
	"inches": {DimLength, 2.54, "cm", "inches"},
}

// inMetric is the hint for a quantity in customary units: what it is in metric ones,
// in which a binder is written. It is empty for any other unit.
func inMetric(text, word string, want Dim) string {
	number, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(text), word)), 64)
	if err != nil {
		return ""
	}
	if want == DimTemperature && (word == "°F" || word == "F" || word == "deg F") {
		return `a binder is written in metric units: write "` + Format((number-32)/1.8, NewDecimal(1, 1)) + ` °C"`
	}
	c, ok := customary[word]
	if !ok || c.dim != want {
		return ""
	}
	value := number * c.one
	step := NewDecimal(1, 0)
	if value < 100 {
		step = NewDecimal(1, 1)
	}
	return `a binder is written in metric units: write "` + Format(Round(value, step.Float(), Nearest), step) + " " + c.unit + `", if these are ` + c.plain
}
