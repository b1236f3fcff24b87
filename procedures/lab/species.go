package lab

import (
	"math"

	"wetside/procedures/unit"
)

// SpeciesBook is a file of what salts become in water: the program's own, or the lab's.
type SpeciesBook struct {
	Def
	// Ions are the species by their names, as chem.ParseIon reads them.
	Ions map[string]*Species `toml:"ion"`
}

// Species is one thing that stands in water: an ion, or an acid without a charge.
type Species struct {
	// Gives is what it becomes when it gives away one proton; a water may come or go.
	Gives string `toml:"gives"`
	// Of is what it is put together from, where that is more than one.
	Of map[string]Count `toml:"of"`
	// With is an ion that exchanges no proton and pairs with it.
	With string `toml:"with"`
	// PK is −log10 of the constant of that step at 25 °C and zero ionic strength.
	PK Said[unit.Factor] `toml:"pk"`
	// Heat is what the step takes in.
	Heat Said[unit.Heat] `toml:"heat"`
	// Curve are the coefficients of pK = a + bT + c/T + d·log10 T + e/T² + f·T², T in kelvin.
	Curve []float64 `toml:"curve"`
	// Size and Linear are those of the extended Debye-Hückel equation: the size of the ion,
	// and the factor of the ionic strength in kg/mol.
	Size   Said[unit.Length] `toml:"size"`
	Linear Said[unit.Factor] `toml:"linear"`
	// Gas are the coefficients, as those of Curve, of log10 of the mol/kg that water holds
	// under one atmosphere of the gas.
	Gas []float64 `toml:"gas"`
}

// The constants of nature that carry a pK to another temperature.
const (
	gasConstant = 8.314462618 // J/(mol K), exact since 2019
	freezing    = 273.15      // K
	// Warm is the temperature, in °C, at which a constant is written.
	Warm = 25.0
)

// At is the pK at t °C: by its curve, else by its heat (van 't Hoff), else as it is written
// for 25 °C.
func (s *Species) At(t float64) float64 {
	if len(s.Curve) > 0 {
		return Polynomial(s.Curve, t)
	}
	v := float64(s.PK.Value())
	if s.Heat.Given() {
		v += s.carried(float64(s.Heat.Value()), t)
	}
	return v
}

// Doubt is how far the pK may be off at t °C: half of what is written, and what the heat's own
// doubt adds. Away from 25 °C a constant of which nobody has written the heat may be off by
// unknownSlope for each kelvin.
func (s *Species) Doubt(t float64) float64 {
	half := float64(s.PK.High()-s.PK.Low()) / 2
	way := 0.0
	switch {
	case s.Heat.Given():
		way = s.carried(float64(s.Heat.High()-s.Heat.Low())/2, t)
	case len(s.Curve) == 0:
		way = unknownSlope * (t - Warm)
	}
	return math.Hypot(half, way)
}

// unknownSlope: an acid takes in up to about 50 kJ/mol when it gives a proton, and most far
// less (our own rule).
const unknownSlope = 0.025

// carried is what a heat in kJ/mol adds to a pK from 25 °C to t °C.
func (s *Species) carried(heat, t float64) float64 {
	return 1000 * heat / (gasConstant * math.Ln10) * (1/(t+freezing) - 1/(Warm+freezing))
}

// Polynomial is a + bT + c/T + d·log10 T + e/T² + f·T² at t °C, with T in kelvin.
func Polynomial(k []float64, t float64) float64 {
	T := t + freezing
	sum := 0.0
	for i, x := range [...]float64{1, T, 1 / T, math.Log10(T), 1 / (T * T), T * T} {
		if i < len(k) {
			sum += k[i] * x
		}
	}
	return sum
}
