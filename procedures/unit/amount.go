package unit

import (
	"strconv"
	"strings"
)

// Amount is what a step adds: a mass or a volume. The zero value was left out.
type Amount struct {
	Mass   Quantity[Mass]
	Volume Quantity[Volume]
}

// Given reports whether the key was written.
func (a Amount) Given() bool { return a.Mass.Given() || a.Volume.Given() }

// Text returns the amount as written.
func (a Amount) Text() string { return a.Mass.Text() + a.Volume.Text() }

// UnmarshalText reads a mass or a volume.
func (a *Amount) UnmarshalText(b []byte) error {
	*a = Amount{}
	if strings.TrimSpace(string(b)) == "" {
		return &Error{"quantity", `"" is empty where a mass or a volume is wanted`, `for example "6 g" or "25 mL"`}
	}
	if a.Mass.UnmarshalText(b) == nil {
		return nil
	}
	errVolume := a.Volume.UnmarshalText(b)
	if errVolume == nil {
		return nil
	}
	// What is wrong with it is told for what it was meant to be.
	word := ""
	if m := plain.FindStringSubmatch(strings.TrimSpace(string(b))); m != nil {
		word = strings.Join(strings.Fields(m[2]), " ")
	}
	right, slip := asWritten[word]
	switch def, known := units[word]; {
	case known && def.dim == DimVolume, slip && units[right].dim == DimVolume:
		return errVolume
	case word != "" && !known && !slip:
		for _, dim := range []Dim{DimMass, DimVolume} {
			if hint := inMetric(string(b), word, dim); hint != "" {
				return &Error{"quantity", strconv.Quote(string(b)) + " is not metric", hint}
			}
		}
		return &Error{"quantity", strconv.Quote(string(b)) + " is neither a mass nor a volume: there is no unit " + strconv.Quote(word), `for example "6 g" or "25 mL"`}
	}
	return a.Mass.UnmarshalText(b)
}
