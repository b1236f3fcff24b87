package chem

import (
	"fmt"
	"unicode/utf8"
)

// CASValid checks a CAS registry number: two to seven digits, two digits and a
// check digit, with hyphens between and no zero in front. The check digit is
// the last figure of the sum of the other digits, the rightmost times 1, the
// next times 2 and so on. It returns nil or an *Error, which says the digit
// that was expected. The rule catches most slips of the pen, not all, and no
// number of another substance. Source: CAS, check digit verification of
// registry numbers.
func CASValid(s string) error {
	const shape = `write it as on the pack, for example "7757-83-7"`
	fault := func(offset int, what, hint string) error {
		return &Error{Offset: offset, What: what, Hint: hint}
	}
	if s == "" {
		return fault(0, "no number is written", shape)
	}
	offset := 0
	for _, r := range s {
		if r != '-' && (r < '0' || r > '9') {
			return fault(offset, fmt.Sprintf("%q is neither a digit nor a hyphen", r), shape)
		}
		offset++
	}
	n := utf8.RuneCountInString(s)
	digits := make([]int, 0, n)
	for i := range n {
		hyphen := i == n-2 || i == n-5
		switch {
		case hyphen && s[i] != '-':
			return fault(i, "a hyphen is missing", shape)
		case !hyphen && s[i] == '-':
			return fault(i, "a hyphen stands in the wrong place", shape)
		case !hyphen:
			digits = append(digits, int(s[i]-'0'))
		}
	}
	if len(digits) < 5 || len(digits) > 10 {
		return fault(0, fmt.Sprintf("5 to 10 digits belong here, not %d", len(digits)), shape)
	}
	if digits[0] == 0 {
		return fault(0, "a zero in front", "a CAS number begins with another digit")
	}
	sum, last := 0, len(digits)-1
	for i, d := range digits[:last] {
		sum += d * (last - i)
	}
	if want := sum % 10; digits[last] != want {
		return fault(n-1, fmt.Sprintf("the check digit is %d, expected %d", digits[last], want),
			"compare every digit with the pack")
	}
	return nil
}
