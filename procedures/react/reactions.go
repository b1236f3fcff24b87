// Package react holds reactions as data, each balanced in atoms and charge, and works out what makes
// a spent bath harmless: how much of a reagent, and how much gas that gives.
package react

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/chem"
)

// Term is so many of one species.
type Term struct {
	N  int
	Of string
}

// Reaction is what becomes of what, in water.
type Reaction struct {
	ID, Name string
	From, To []Term
	// Gas is what comes out of it, or empty.
	Gas string
}

// Reactions are all that are known here. Source: inorganic chemistry, from memory; each is held to
// the balance of its atoms and of its charge.
var Reactions = []Reaction{
	{ID: "neutralise-hydrogencarbonate", Name: "acid with hydrogencarbonate",
		From: []Term{{1, "H+"}, {1, "HCO3-"}}, To: []Term{{1, "CO2"}, {1, "H2O"}}, Gas: "CO2"},
	{ID: "neutralise-carbonate", Name: "acid with carbonate",
		From: []Term{{2, "H+"}, {1, "CO3-2"}}, To: []Term{{1, "CO2"}, {1, "H2O"}}, Gas: "CO2"},
	{ID: "reduce-permanganate", Name: "permanganate with sulfite in acid",
		From: []Term{{2, "MnO4-"}, {5, "SO3-2"}, {6, "H+"}}, To: []Term{{2, "Mn+2"}, {5, "SO4-2"}, {3, "H2O"}}},
	{ID: "clear-manganese", Name: "manganese dioxide with sulfite in acid",
		From: []Term{{1, "MnO2"}, {1, "SO3-2"}, {2, "H+"}}, To: []Term{{1, "Mn+2"}, {1, "SO4-2"}, {1, "H2O"}}},
	{ID: "precipitate-manganese", Name: "dissolved manganese with hydrogencarbonate",
		From: []Term{{1, "Mn+2"}, {2, "HCO3-"}}, To: []Term{{1, "MnCO3"}, {1, "CO2"}, {1, "H2O"}}, Gas: "CO2"},
	{ID: "oxidise-sulfite", Name: "sulfite with peroxide",
		From: []Term{{1, "SO3-2"}, {1, "H2O2"}}, To: []Term{{1, "SO4-2"}, {1, "H2O"}}},
	{ID: "air-sulfite", Name: "sulfite with the oxygen of the air",
		From: []Term{{2, "SO3-2"}, {1, "O2"}}, To: []Term{{2, "SO4-2"}}},
	{ID: "acid-metabisulfite", Name: "metabisulfite with acid",
		From: []Term{{1, "S2O5-2"}, {2, "H+"}}, To: []Term{{2, "SO2"}, {1, "H2O"}}, Gas: "SO2"},
	{ID: "acid-sulfite", Name: "sulfite with acid",
		From: []Term{{1, "SO3-2"}, {2, "H+"}}, To: []Term{{1, "SO2"}, {1, "H2O"}}, Gas: "SO2"},
	{ID: "acid-thiosulfate", Name: "thiosulfate with acid",
		From: []Term{{1, "S2O3-2"}, {2, "H+"}}, To: []Term{{1, "SO2"}, {1, "S"}, {1, "H2O"}}, Gas: "SO2"},
}

// Named finds a reaction; it must exist.
func Named(id string) Reaction {
	i := slices.IndexFunc(Reactions, func(r Reaction) bool { return r.ID == id })
	return Reactions[i]
}

// Per is how many of one species react or come out for one of another.
func (r Reaction) Per(of, one string) float64 { return float64(r.number(of)) / float64(r.number(one)) }

func (r Reaction) number(of string) int {
	for _, t := range slices.Concat(r.From, r.To) {
		if t.Of == of {
			return t.N
		}
	}
	return 0
}

// String is the reaction as it is written.
func (r Reaction) String() string {
	side := func(terms []Term) string {
		var out []string
		for _, t := range terms {
			if t.N == 1 {
				out = append(out, t.Of)
			} else {
				out = append(out, fmt.Sprintf("%d %s", t.N, t.Of))
			}
		}
		return strings.Join(out, " + ")
	}
	return side(r.From) + " -> " + side(r.To)
}

// Unbalanced says what does not come out even: the elements and the charge, or why a species cannot be
// read. It is empty for a balanced reaction.
func (r Reaction) Unbalanced() string {
	atoms, charge := map[string]int{}, 0
	count := func(terms []Term, sign int) string {
		for _, t := range terms {
			ion, err := chem.ParseIon(t.Of)
			if err != nil {
				return t.Of + ": " + err.Error()
			}
			charge += sign * t.N * ion.Charge()
			for _, e := range ion.Formula().Elements() {
				atoms[e.Symbol] += sign * t.N * e.N
			}
		}
		return ""
	}
	if bad := count(r.From, 1) + count(r.To, -1); bad != "" {
		return bad
	}
	var out []string
	for symbol, n := range atoms {
		if n != 0 {
			out = append(out, fmt.Sprintf("%s %+d", symbol, n))
		}
	}
	slices.Sort(out)
	if charge != 0 {
		out = append(out, fmt.Sprintf("charge %+d", charge))
	}
	return strings.Join(out, ", ")
}
