// Package source reads the binder's TOML files so that every fault in them can
// be shown at its own line and column. One parser judges the syntax and
// decodes; a second one supplies positions and never leaves this package.
package source

import (
	"cmp"
	"encoding/json"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Pos is a place in a file. Line and Column start at 1 and a column is one
// rune; Offset counts bytes from 0.
type Pos struct{ Line, Column, Offset int }

// Span is a stretch of one file, End exclusive. A span without a line means
// the file as a whole.
type Span struct {
	File       string
	Start, End Pos
}

// Severity says whether a fault stops the work.
type Severity uint8

const (
	// Error stops everything: nothing is written.
	Error Severity = iota
	// Warning is for what can be printed safely all the same.
	Warning
	// Hole is something nobody has filled in: the cards show it.
	Hole
)

// String returns the word used in the list for machines.
func (s Severity) String() string {
	switch s {
	case Warning:
		return "warning"
	case Hole:
		return "hole"
	}
	return "error"
}

// Codes of the faults this package finds itself.
const (
	CodeEncoding = "encoding" // the file is not UTF-8
	CodeSize     = "size"     // the file is too large to be a definition
	CodeDepth    = "depth"    // tables or lists nested beyond reason
	CodeSyntax   = "syntax"   // the file is not TOML
	CodeRepeated = "repeated" // a key or table is given more than once
	CodeKey      = "key"      // a key nobody asks for
	CodeShape    = "shape"    // a list where a table belongs, and the like
	CodeQuantity = "quantity" // a bare number where a quantity in quotes belongs
	CodeValue    = "value"    // a value its own type refuses
)

// Fault is something wrong in the source: where, what, and how to mend it.
type Fault struct {
	Span             Span
	Code, What, Hint string
	Severity         Severity
	// Cards names the cards that cannot be trusted because of it.
	Cards []string
	// Line is the text of the line the span starts on, for the echo.
	Line string
}

// String returns the first line of the printed fault.
func (f Fault) String() string {
	warning := ""
	if f.Severity == Warning {
		warning = "warning: "
	}
	place := f.Span.File
	if f.Span.Start.Line > 0 {
		place = fmt.Sprintf("%s:%d:%d", place, f.Span.Start.Line, f.Span.Start.Column)
	}
	return fmt.Sprintf("%s: %s%s [%s]", visible(place), warning, visible(f.What), visible(f.Code))
}

// Faults is a list of faults, possibly of many files.
type Faults []Fault

// Sort orders the faults by file, line, column, code and text, so that the
// same source always prints the same list.
func (f Faults) Sort() {
	slices.SortStableFunc(f, func(a, b Fault) int {
		return cmp.Or(
			cmp.Compare(a.Span.File, b.Span.File),
			cmp.Compare(a.Span.Start.Line, b.Span.Start.Line),
			cmp.Compare(a.Span.Start.Column, b.Span.Start.Column),
			cmp.Compare(a.Code, b.Code),
			cmp.Compare(a.What, b.What),
		)
	})
}

func (f Faults) count(s Severity) int {
	n := 0
	for _, one := range f {
		if one.Severity == s {
			n++
		}
	}
	return n
}

// Errors counts the faults that stop everything.
func (f Faults) Errors() int { return f.count(Error) }

// Warnings counts the faults that do not.
func (f Faults) Warnings() int { return f.count(Warning) }

// HasErrors reports whether anything stops the work.
func (f Faults) HasErrors() bool { return f.Errors() > 0 }

// WriteJSON writes the faults as a list for machines; without faults, an empty
// list.
func (f Faults) WriteJSON(w io.Writer) error {
	type entry struct {
		File     string   `json:"file"`
		Line     int      `json:"line"`
		Column   int      `json:"column"`
		Code     string   `json:"code"`
		What     string   `json:"what"`
		Hint     string   `json:"hint"`
		Severity string   `json:"severity"`
		Cards    []string `json:"cards"`
	}
	list := make([]entry, 0, len(f))
	for _, one := range f {
		cards := one.Cards
		if cards == nil {
			cards = []string{}
		}
		list = append(list, entry{one.Span.File, one.Span.Start.Line, one.Span.Start.Column,
			one.Code, one.What, one.Hint, one.Severity.String(), cards})
	}
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(list)
}

// NoFault lists an amount or a time (of) that cards refuse among the faults for machines: what was
// wanted, why there is none, and what would help.
func NoFault(of, card, what, why string) Fault {
	return Fault{Code: "refused", What: "no " + of + ": " + what, Hint: why, Severity: Hole, Cards: []string{card}}
}

// HoleFault lists a hole among the faults for machines: what is missing, what
// happens meanwhile, and where to write it.
func HoleFault(card, what, until, key string) Fault {
	f := Fault{Code: "hole", What: what + ": " + until, Hint: key, Severity: Hole}
	if i := strings.LastIndex(key, " in "); i >= 0 && strings.HasSuffix(key, ".toml") {
		f.Span.File = key[i+len(" in "):]
	}
	if card != "" {
		f.Cards = []string{card}
	}
	return f
}
