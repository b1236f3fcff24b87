package lab

import (
	"fmt"

	"wetside/procedures/unit"
)

// Count is a whole number of one or more. Its zero value was left out; nobody
// can write a zero.
type Count int

// UnmarshalTOML takes a whole number without quotes.
func (c *Count) UnmarshalTOML(v any) error {
	n, ok := v.(int64)
	text, quoted := v.(string)
	switch {
	case quoted:
		return &unit.Error{Code: "shape", What: fmt.Sprintf("%q is text where a whole number is expected", text),
			Hint: "write a whole number without quotes, for example 2"}
	case !ok:
		return &unit.Error{Code: "shape", What: "expected a whole number",
			Hint: "write a whole number without quotes, for example 2"}
	case n < 1:
		return &unit.Error{Code: "range", What: fmt.Sprintf("%d is not a number of one or more", n),
			Hint: "write a whole number from 1 up, or leave the key out"}
	case n > 1000000:
		return &unit.Error{Code: "range", What: fmt.Sprintf("%d is more than any darkroom counts", n),
			Hint: "correct the number"}
	}
	*c = Count(n)
	return nil
}
