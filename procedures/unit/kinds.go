// Package unit holds quantities with their units: typed numbers for formulas,
// in the units that stand on a balance, a cylinder and a thermometer, and
// quantities as somebody wrote them, exact and with their bounds.
package unit

// Kind is a typed number for formulas. Its zero value tells its dimension and
// the unit in which values of the type count.
type Kind interface {
	~float64
	Dim() Dim
}

// Dim is a dimension: what can be compared and added. There is a closed list.
type Dim uint8

// The dimensions.
const (
	DimNone Dim = iota
	DimMass
	DimVolume
	DimTemperature
	DimKelvin
	DimArea
	DimLength
	DimTime
	DimConcentration
	DimDensity
	DimPercent
	DimWW
	DimWV
	DimVV
	DimMassPerArea
	DimVolumePerArea
	DimVolumePerMass
	DimVolumePerRoll
	DimRolls
	DimRollsPerVolume
	DimAreaPerVolume
	DimFlow
	DimPerKelvin
	DimPerStop
	DimStops
	DimMolar
	DimMoney
	DimMoneyPerMass
	DimMoneyPerVolume
	DimSpeed
	DimFactor
	DimSolubility
	DimPerLitre
	DimUses
	DimPerRollLitre
	DimDays
	DimVolumePerSheet
	DimDose
	DimInAir
	DimGas
	DimHeat
	DimMolarity
	DimMolality
	DimHeatCapacity
	DimPressure
)

// Typed numbers. The comment gives the unit a value counts in.
type (
	Mass           float64 // g
	Volume         float64 // ml
	Temperature    float64 // °C, a point on the scale
	Kelvin         float64 // K, a difference of temperatures
	Area           float64 // cm²
	Length         float64 // mm
	Seconds        float64 // s
	Concentration  float64 // g/L
	Density        float64 // g/ml
	Percent        float64 // %, of whatever is said
	WW             float64 // % w/w: g in 100 g
	WV             float64 // % w/v: g in 100 ml
	VV             float64 // % v/v: ml in 100 ml
	MassPerArea    float64 // g/m²
	VolumePerArea  float64 // ml/m²
	VolumePerMass  float64 // ml/g
	VolumePerRoll  float64 // ml/roll
	Rolls          float64 // rolls, counted as equivalents of one 135-36
	RollsPerLitre  float64 // rolls/L
	AreaPerLitre   float64 // m²/L
	Flow           float64 // L/min
	PerKelvin      float64 // 1/K
	PerStop        float64 // factor for one stop
	Stops          float64 // stops
	Molar          float64 // g/mol
	Money          float64 // the lab's currency
	MoneyPerKg     float64 // currency per kg
	MoneyPerL      float64 // currency per litre
	Speed          float64 // ISO speed or exposure index
	Factor         float64 // a plain number: parts, counts, factors
	Solubility     float64 // g in 100 g of water
	PerLitre       float64 // pieces for each litre of bath
	Uses           float64 // uses
	PerRollLitre   float64 // % of the time for each roll done in a litre
	Days           float64 // days; of a date, since 1 January 1970
	VolumePerSheet float64 // ml for each sheet
	Dose           float64 // mg for each kg of a body
	InAir          float64 // mg of vapour, dust or mist in a litre of air
	Gas            float64 // parts of a gas in a million parts of air, by volume
	Heat           float64 // kJ/mol; negative gives off heat
	Molarity       float64 // mol in a litre of the solution
	Molality       float64 // mol in a kilogram of water
	HeatCapacity   float64 // J for each gram and kelvin
	Pressure       float64 // kPa
)

// Dim returns the dimension of the type.
func (Mass) Dim() Dim           { return DimMass }
func (Volume) Dim() Dim         { return DimVolume }
func (Temperature) Dim() Dim    { return DimTemperature }
func (Kelvin) Dim() Dim         { return DimKelvin }
func (Area) Dim() Dim           { return DimArea }
func (Length) Dim() Dim         { return DimLength }
func (Seconds) Dim() Dim        { return DimTime }
func (Concentration) Dim() Dim  { return DimConcentration }
func (Density) Dim() Dim        { return DimDensity }
func (Percent) Dim() Dim        { return DimPercent }
func (WW) Dim() Dim             { return DimWW }
func (WV) Dim() Dim             { return DimWV }
func (VV) Dim() Dim             { return DimVV }
func (MassPerArea) Dim() Dim    { return DimMassPerArea }
func (VolumePerArea) Dim() Dim  { return DimVolumePerArea }
func (VolumePerMass) Dim() Dim  { return DimVolumePerMass }
func (VolumePerRoll) Dim() Dim  { return DimVolumePerRoll }
func (Rolls) Dim() Dim          { return DimRolls }
func (RollsPerLitre) Dim() Dim  { return DimRollsPerVolume }
func (AreaPerLitre) Dim() Dim   { return DimAreaPerVolume }
func (Flow) Dim() Dim           { return DimFlow }
func (PerKelvin) Dim() Dim      { return DimPerKelvin }
func (PerStop) Dim() Dim        { return DimPerStop }
func (Stops) Dim() Dim          { return DimStops }
func (Molar) Dim() Dim          { return DimMolar }
func (Money) Dim() Dim          { return DimMoney }
func (MoneyPerKg) Dim() Dim     { return DimMoneyPerMass }
func (MoneyPerL) Dim() Dim      { return DimMoneyPerVolume }
func (Speed) Dim() Dim          { return DimSpeed }
func (Factor) Dim() Dim         { return DimFactor }
func (Solubility) Dim() Dim     { return DimSolubility }
func (PerLitre) Dim() Dim       { return DimPerLitre }
func (Uses) Dim() Dim           { return DimUses }
func (PerRollLitre) Dim() Dim   { return DimPerRollLitre }
func (Days) Dim() Dim           { return DimDays }
func (VolumePerSheet) Dim() Dim { return DimVolumePerSheet }
func (Dose) Dim() Dim           { return DimDose }
func (InAir) Dim() Dim          { return DimInAir }
func (Gas) Dim() Dim            { return DimGas }
func (Heat) Dim() Dim           { return DimHeat }
func (Molarity) Dim() Dim       { return DimMolarity }
func (Molality) Dim() Dim       { return DimMolality }
func (HeatCapacity) Dim() Dim   { return DimHeatCapacity }
func (Pressure) Dim() Dim       { return DimPressure }

// Add returns the temperature d above t.
func (t Temperature) Add(d Kelvin) Temperature { return t + Temperature(d) }

// Sub returns the difference t − u.
func (t Temperature) Sub(u Temperature) Kelvin { return Kelvin(t - u) }

type dimension struct {
	name    string // "a mass"
	unit    string // the unit values count in, as printed
	example string
}

var dimensions = [...]dimension{
	DimNone:           {"nothing", "", ""},
	DimMass:           {"a mass", "g", "6 g"},
	DimVolume:         {"a volume", "ml", "600 mL"},
	DimTemperature:    {"a temperature", "°C", "20 °C"},
	DimKelvin:         {"a temperature difference", "K", "2 K"},
	DimArea:           {"an area", "cm²", "516 cm2"},
	DimLength:         {"a length", "mm", "35 mm"},
	DimTime:           {"a time", "s", "11:00"},
	DimConcentration:  {"a concentration", "g/L", "4.0 g/L"},
	DimDensity:        {"a density", "g/ml", "1.09 g/mL"},
	DimPercent:        {"a percentage", "%", "2 %"},
	DimWW:             {"a percentage w/w", "% w/w", "60 % w/w"},
	DimWV:             {"a percentage w/v", "% w/v", "10 % w/v"},
	DimVV:             {"a percentage v/v", "% v/v", "50 % v/v"},
	DimMassPerArea:    {"a mass per area", "g/m²", "6.0 g/m2"},
	DimVolumePerArea:  {"a volume per area", "ml/m²", "150 mL/m2"},
	DimVolumePerMass:  {"a volume per mass", "ml/g", "0.12 mL/g"},
	DimVolumePerRoll:  {"a volume per roll", "ml/roll", "150 mL/roll"},
	DimRolls:          {"a number of rolls", "rolls", "5 rolls"},
	DimRollsPerVolume: {"a number of rolls per litre", "rolls/L", "6 rolls/L"},
	DimAreaPerVolume:  {"an area per litre", "m²/L", "1.2 m2/L"},
	DimFlow:           {"a flow", "L/min", "2.5 L/min"},
	DimPerKelvin:      {"a slope per kelvin", "1/K", "0.088 /K"},
	DimPerStop:        {"a factor per stop", "/stop", "1.40 /stop"},
	DimStops:          {"a number of stops", "stops", "2 stops"},
	DimMolar:          {"a molar mass", "g/mol", "126.04 g/mol"},
	DimMoney:          {"an amount of money", "", "4.60 EUR"},
	DimMoneyPerMass:   {"a price per mass", "/kg", "5.00 EUR/kg"},
	DimMoneyPerVolume: {"a price per volume", "/L", "0.35 EUR/L"},
	DimSpeed:          {"a film speed", "", "400"},
	DimFactor:         {"a factor", "", "2 x"},
	DimSolubility:     {"a solubility", "g/100 g", "26.4 g/100 g"},
	DimPerLitre:       {"a count per litre", "/L", "20 /L"},
	DimUses:           {"a number of uses", "uses", "5 uses"},
	DimPerRollLitre:   {"a percentage for each roll in a litre", "% per roll/L", "8 % per roll/L"},
	DimDays:           {"a number of days", "days", "14 days"},
	DimVolumePerSheet: {"a volume per sheet", "ml/sheet", "2.5 mL/sheet"},
	DimDose:           {"a dose", "mg/kg", "500 mg/kg"},
	DimInAir:          {"a content of air", "mg/L", "1.5 mg/L"},
	DimGas:            {"a content of a gas in air", "ppm", "700 ppm"},
	DimHeat:           {"a heat of solution", "kJ/mol", "-44.5 kJ/mol"},
	DimMolarity:       {"an amount in a litre", "mol/L", "0.5 mol/L"},
	DimPressure:       {"a pressure", "kPa", "101.3 kPa"},
	DimHeatCapacity:   {"a heat capacity", "J/(g K)", "3.9 J/(g K)"},
	DimMolality:       {"an amount in a kilogram of water", "mol/kg", "0.5 mol/kg"},
}

// Name returns the dimension with its article, such as "a mass".
func (d Dim) Name() string { return dimensions[d].name }

// Unit returns the unit in which typed numbers of the dimension count.
func (d Dim) Unit() string { return dimensions[d].unit }

// Example returns a well-formed quantity of the dimension.
func (d Dim) Example() string { return dimensions[d].example }

// DimOf returns the dimension of a type.
func DimOf[T Kind]() Dim { var zero T; return zero.Dim() }

// UnitOf returns the unit in which values of a type count.
func UnitOf[T Kind]() string { return DimOf[T]().Unit() }
