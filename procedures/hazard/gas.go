package hazard

import (
	"strings"

	"wetside/procedures/figure"
)

// Gas is what a bath gives off when something else gets into it.
type Gas struct {
	Gas, With string
	From      []string
	Origin    figure.Origin
}

// Words says it in a line: "sulfur dioxide with acid: sodium sulfite".
func (g Gas) Words() string {
	return withOrigin(g.Gas+" with "+g.With+": "+strings.Join(g.From, ", "), g.Origin)
}

// Gives lists the gases, those that kill first. What only several parts together
// give off comes from the mixture.
func (k Known) Gives() []Gas {
	if k.rules == nil {
		return nil
	}
	var out []Gas
	for _, pair := range k.rules.Gases(k.Kinds) {
		g := Gas{pair.Gives.Word, k.rules.Side(pair.Those), nil, pair.Origin}
		for _, p := range k.Parts {
			if p.Kinds.Any(pair.These...) {
				g.From = append(g.From, p.Name)
			}
		}
		if g.From == nil {
			g.From = []string{k.rules.Side(pair.These)}
		}
		out = gas(out, g)
	}
	return out
}

func gas(list []Gas, g Gas) []Gas {
	for i := range list {
		if list[i].Gas == g.Gas && list[i].With == g.With {
			list[i].From = append(list[i].From, g.From...)
			list[i].Origin = figure.Weakest(list[i].Origin, g.Origin)
			return list
		}
	}
	return append(list, g)
}

// Alkalis names the alkalis of a bath.
func (k Known) Alkalis() []string {
	var out []string
	for _, p := range k.Parts {
		if p.Kinds.Any("alkali") {
			out = append(out, p.Name)
		}
	}
	return out
}
