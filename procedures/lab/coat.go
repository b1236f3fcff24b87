package lab

import (
	"strconv"

	"wetside/procedures/unit"
)

// Coat is how much sensitiser is brushed on: what covers an area, or a sheet of
// the one format that is coated with it. One of the two is given.
type Coat struct {
	text  string
	Area  Said[unit.VolumePerArea]
	Sheet Said[unit.VolumePerSheet]
}

// Given reports whether it was written.
func (c Coat) Given() bool { return c.text != "" }

// Text returns it as written.
func (c Coat) Text() string { return c.text }

// UnmarshalText reads "40 mL/m2" or "2.5 mL/sheet".
func (c *Coat) UnmarshalText(b []byte) error {
	got := Coat{text: string(b)}
	if got.Area.UnmarshalText(b) == nil || got.Sheet.UnmarshalText(b) == nil {
		*c = got
		return nil
	}
	return &unit.Error{Code: "quantity", What: strconv.Quote(string(b)) + " is not what is brushed on", Hint: `write what covers an area, coat = "40 mL/m2", or a sheet, coat = "2.5 mL/sheet"`}
}
