package lab

import (
	"encoding"
	"errors"
	"fmt"
	"maps"
	"slices"

	"wetside/procedures/near"
	"wetside/procedures/unit"
)

// A value that a file may write as text or as a table reads its table itself, by the
// functions here; every fault in it has the place of its own key.

// readTable reads each key of a table, and refuses those that nobody reads.
func readTable(v map[string]any, keys map[string]func(any) error) error {
	var all []error
	names := slices.Sorted(maps.Keys(keys))
	for _, k := range sortedKeys(v) {
		read, known := keys[k]
		if !known {
			hint := "the keys here are " + list(names)
			if meant := near.Word(k, names); meant != "" {
				hint = fmt.Sprintf("did you mean %q?", meant)
			}
			all = append(all, keyed(k, &unit.Error{Code: "key", What: fmt.Sprintf("unknown key %q", k), Hint: hint}))
			continue
		}
		for _, err := range each(read(v[k])) {
			all = append(all, keyed(k, err))
		}
	}
	return errors.Join(all...)
}

// each takes joined errors apart.
func each(err error) []error {
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		return joined.Unwrap()
	}
	if err == nil {
		return nil
	}
	return []error{err}
}

var notTable = &unit.Error{Code: "shape", What: "expected a table", Hint: `write { key = "value" }`}

func asTable(v any, keys map[string]func(any) error) error {
	table, ok := v.(map[string]any)
	if !ok {
		return notTable
	}
	return readTable(table, keys)
}

func asText(v any, read func([]byte) error) error {
	text, ok := v.(string)
	if !ok {
		return &unit.Error{Code: "shape", What: "expected text", Hint: "put it in quotes"}
	}
	return read([]byte(text))
}

func asTexts(v any, into *[]string) error {
	list, ok := v.([]any)
	if !ok {
		return &unit.Error{Code: "shape", What: "expected a list", Hint: `write ["Eye Dam. 1"]`}
	}
	out := []string{}
	for i, one := range list {
		text, ok := one.(string)
		if !ok {
			return indexed(i, &unit.Error{Code: "shape", What: "expected text", Hint: "put it in quotes"})
		}
		out = append(out, text)
	}
	*into = out
	return nil
}

// quantityOf reads a quantity from its text.
func quantityOf(into encoding.TextUnmarshaler) func(any) error {
	return func(v any) error { return asText(v, into.UnmarshalText) }
}
