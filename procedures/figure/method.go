package figure

import (
	"slices"
	"strings"
)

// Method declares a calculation that is no closed expression: a search, or equations that
// are solved step by step. What it finds is held to its check.
type Method struct {
	ID   string
	Name string
	// Equations are what is solved, or the rule of the search; each is a line.
	Equations []string
	// Check is what every result fulfils. A test holds results to it, found in another way.
	Check  string
	Valid  string // where it holds
	Source string
	Origin Origin
}

var methods []*Method

// RegisterMethod enters a method where it is declared. It is called while packages are
// loaded.
func RegisterMethod(m *Method) *Method {
	methods = append(methods, m)
	return m
}

// Methods lists the methods of every package that is loaded, by their ids.
func Methods() []*Method {
	out := slices.Clone(methods)
	slices.SortFunc(out, func(a, b *Method) int { return strings.Compare(a.ID, b.ID) })
	return out
}

// Text is what is solved or searched for, in a line.
func (m *Method) Text() string { return strings.Join(m.Equations, "; ") }
