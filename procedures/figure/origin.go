package figure

import "fmt"

// Origin says who vouches for a value. A figure's origin is the weakest of its
// inputs'.
type Origin uint8

// The origins, strongest first. Below House a card prints the word.
const (
	Measured Origin = iota // measured here
	Standard               // a standard, law or reference table, opened
	Supplier
	Handbook
	House
	Estimate
	Default // a rule or convention that the program brings: nobody in the lab said it
	Memory
	Invented
)

var originWords = [...]string{"measured here", "standard", "supplier", "handbook", "house", "estimate",
	"default of the program", "memory", "invented"}

// String returns the word printed beside a figure.
func (o Origin) String() string {
	if int(o) < len(originWords) {
		return originWords[o]
	}
	return "unknown"
}

// ParseOrigin reads an origin's word as written in [origin] tables.
// "measured" stands for "measured here". Nobody can write a default of the
// program: it is what stands where nobody has written anything.
func ParseOrigin(s string) (Origin, error) {
	if s == "measured" {
		return Measured, nil
	}
	for i, w := range originWords {
		if w == s && Origin(i) != Default {
			return Origin(i), nil
		}
	}
	return Invented, fmt.Errorf("%q is not an origin", s)
}

// Weakest returns the weaker of two origins.
func Weakest(a, b Origin) Origin { return max(a, b) }

// Weak tells whether the origin's word must stand beside the figure.
func (o Origin) Weak() bool { return o > House }

// OfOrigin is how many figures are of one weak origin.
type OfOrigin struct {
	Origin Origin
	Count  int
}

// Unvouched counts the figures of a list that nobody vouches for, each once, by their
// origin.
func Unvouched(list []*Record) []OfOrigin {
	count := map[Origin]int{}
	seen := map[string]bool{}
	for _, r := range list {
		if seen[r.ID] {
			continue
		}
		seen[r.ID] = true
		if r.Origin.Weak() && !r.Refused() {
			count[r.Origin]++
		}
	}
	var out []OfOrigin
	for o := Estimate; o <= Invented; o++ {
		if count[o] > 0 {
			out = append(out, OfOrigin{o, count[o]})
		}
	}
	return out
}
