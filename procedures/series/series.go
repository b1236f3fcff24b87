// Package series says names one after the other.
package series

import (
	"slices"
	"strings"
)

// Between is what parts the members of a list: a comma, or a semicolon where one of them has a
// comma of its own.
func Between(list []string) string {
	if slices.ContainsFunc(list, func(s string) bool { return strings.Contains(s, ",") }) {
		return "; "
	}
	return ", "
}

// Of says names one after the other.
func Of(names []string) string { return strings.Join(names, Between(names)) }
