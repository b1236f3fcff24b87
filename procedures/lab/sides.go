package lab

import (
	"regexp"
	"strconv"
	"strings"

	"wetside/procedures/unit"
)

// Sides are the two sides of something flat, such as a tray: "26 x 31 cm".
type Sides struct {
	text        string
	Short, Long Said[unit.Length]
}

// Given reports whether they were written.
func (s Sides) Given() bool { return s.text != "" }

// Text returns the sides as written.
func (s Sides) Text() string { return s.text }

var sides = regexp.MustCompile(`^([0-9.]+) *[x×] *([0-9.]+) *(mm|cm|m)$`)

// UnmarshalText reads "26 x 31 cm", the longer side first or last.
func (s *Sides) UnmarshalText(b []byte) error {
	bad := &unit.Error{Code: "quantity", What: strconv.Quote(string(b)) + " are no two sides", Hint: `write both sides with one unit, for example inside = "26 x 31 cm"`}
	m := sides.FindStringSubmatch(strings.TrimSpace(string(b)))
	if m == nil {
		return bad
	}
	got := Sides{text: string(b)}
	if got.Short.UnmarshalText([]byte(m[1]+" "+m[3])) != nil ||
		got.Long.UnmarshalText([]byte(m[2]+" "+m[3])) != nil || !got.Short.Positive() || !got.Long.Positive() {
		return bad
	}
	if got.Short.Value() > got.Long.Value() {
		got.Short, got.Long = got.Long, got.Short
	}
	*s = got
	return nil
}

// Holds reports whether something of two sides lies flat inside.
func (s Sides) Holds(width, length unit.Length) bool {
	if width > length {
		width, length = length, width
	}
	return width <= s.Short.Value() && length <= s.Long.Value()
}

// times is the letter x between the sides of a format, as ids have it.
var times = regexp.MustCompile(`([0-9])x([0-9])`)

// InSides is the id of a format or of a family, as people read it: 4×5 for "4x5".
func InSides(id string) string { return times.ReplaceAllString(id, "$1×$2") }
