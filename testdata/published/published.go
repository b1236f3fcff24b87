// Package published reads the values from outside that the calculations are
// held against. Only tests import it.
package published

import (
	"embed"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"
)

//go:embed *.tsv
var files embed.FS

// Row is one value of a file.
type Row struct {
	// ID is the first column; in worked_examples.tsv with the result behind it,
	// as in "A1 V_stock".
	ID, Quantity, Inputs, Unit, Source, Provenance string
	// Text is what is expected, as written. Want is the number it tells, which a
	// correct calculation comes to within Tolerance, both in Unit; no number
	// where the text is words.
	Text            string
	Want, Tolerance float64
}

// File is a file, or a part of it, read for one test. That test fails at its end
// if it left a row unused.
type File struct {
	t    testing.TB
	name string
	ids  []string
	rows map[string]Row
	used map[string]bool
}

// Counts tells how many rows of each quantity each file has.
func Counts(t testing.TB) map[string]map[string]int {
	t.Helper()
	list, err := files.ReadDir(".")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]map[string]int{}
	for _, f := range list {
		out[f.Name()] = map[string]int{}
		for _, r := range read(t, f.Name()) {
			out[f.Name()][r.Quantity]++
		}
	}
	return out
}

// Open reads a file for a test; of a file that several tests share, the rows of
// the quantities named.
func Open(t testing.TB, name string, quantities ...string) *File {
	t.Helper()
	f := &File{t: t, name: name, rows: map[string]Row{}, used: map[string]bool{}}
	for _, r := range read(t, name) {
		if len(quantities) == 0 || slices.Contains(quantities, r.Quantity) {
			f.ids = append(f.ids, r.ID)
			f.rows[r.ID] = r
		}
	}
	t.Cleanup(func() {
		for _, id := range f.ids {
			if !f.used[id] && !t.Failed() {
				t.Errorf("%s: the row %q is used by nothing", name, id)
			}
		}
	})
	return f
}

// IDs lists the rows in the order of the file.
func (f *File) IDs() []string { return slices.Clone(f.ids) }

// Row is a row that the test makes use of.
func (f *File) Row(id string) Row {
	f.t.Helper()
	r, ok := f.rows[id]
	if !ok {
		f.t.Fatalf("%s has no row %q", f.name, id)
	}
	f.used[id] = true
	return r
}

// Holds fails the test unless got lies within the row's own tolerance.
func (f *File) Holds(id string, got float64) {
	f.t.Helper()
	if r := f.Row(id); !r.Holds(got) {
		f.t.Errorf("%s, %s: got %.12g, want %g ± %g %s (%s)", f.name, id, got, r.Want, r.Tolerance, r.Unit, r.Quantity)
	}
}

// Holds tells whether a result lies within the tolerance; where words are
// expected, no number does. Its last term is for the binary digits of a tolerance
// of nothing.
func (r Row) Holds(got float64) bool {
	return math.Abs(got-r.Want) <= r.Tolerance+1e-12*math.Abs(r.Want)
}

// provenances are the words for who has seen a value, as in README.md.
var provenances = []string{"opened", "run", "memory", "derived", "practice"}

func read(t testing.TB, name string) []Row {
	t.Helper()
	raw, err := files.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	var head []string
	var out []Row
	seen := map[string]bool{}
	for _, line := range strings.Split(strings.TrimSuffix(string(raw), "\n"), "\n") {
		if strings.HasPrefix(line, "#") {
			continue
		}
		cols := strings.Split(line, "\t")
		if head == nil {
			head = cols
			continue
		}
		if len(cols) != len(head) {
			t.Fatalf("%s: %d columns instead of %d: %s", name, len(cols), len(head), line)
		}
		col := func(names ...string) string {
			if i := slices.IndexFunc(head, func(h string) bool { return slices.Contains(names, h) }); i >= 0 {
				return cols[i]
			}
			return ""
		}
		number := func(s string) float64 {
			if x, err := strconv.ParseFloat(s, 64); err == nil {
				return x
			}
			return math.NaN()
		}
		r := Row{ID: strings.TrimSpace(col("id") + " " + col("result")), Quantity: col("quantity", "name"),
			Inputs: col("inputs"), Unit: col("unit"),
			Source: col("source", "expression"), Provenance: col("provenance"), Text: col("expected"),
			Want: number(col("expected")), Tolerance: number(col("tolerance"))}
		switch {
		case seen[r.ID]:
			t.Fatalf("%s: the row %q stands there twice", name, r.ID)
		case r.Text == "" || r.Unit == "" || r.Source == "" || !(r.Tolerance >= 0) ||
			!slices.Contains(provenances, r.Provenance):
			t.Fatalf("%s: a row without a value, unit, tolerance, source or provenance: %s", name, line)
		}
		seen[r.ID] = true
		out = append(out, r)
	}
	if len(out) == 0 {
		t.Fatalf("%s has no rows", name)
	}
	return out
}
