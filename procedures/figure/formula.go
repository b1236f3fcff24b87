// Package figure holds numbers that keep their working: who vouches for each,
// which formula made it from which inputs, and how it was rounded.
package figure

// Term is one input of a formula.
type Term struct {
	Symbol  string
	Meaning string
	Unit    string
}

// Formula declares a calculation once: its text, in Go expression syntax so
// that a test can evaluate it, and where it comes from.
type Formula struct {
	ID     string // "dilution.stock"
	Name   string // "stock for a dilution"
	Result string // "V_stock"
	Unit   string
	Terms  []Term
	Text   string // "V * a / (a + b)"
	Valid  string // where it holds
	Source string // "mass balance", "common practice, no source"
	Origin Origin // what the formula itself can vouch for
}
