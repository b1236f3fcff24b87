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

// releases are the gases that substances of the darkroom give off, by the
// substance's group or by a piece of its name. Sulfites: international chemical
// safety card 1134, opened, and EUH031; the rest from memory.
var releases = []struct {
	group, name, with, gas string
	by                     figure.Origin
}{
	{"sulfites", "", "acid", "sulfur dioxide", figure.Handbook},
	{"thiosulfates", "", "acid", "sulfur dioxide", figure.Memory},
	{"", "sulfide", "acid", "hydrogen sulfide", figure.Memory},
	{"", "selen", "acid", "hydrogen selenide", figure.Memory},
	{"", "hypochlorite", "acid", "chlorine", figure.Memory},
	{"", "cyanide", "hot or strong acid", "hydrogen cyanide", figure.Memory},
	{"", "thiocyanate", "hot or strong acid", "hydrogen cyanide", figure.Memory},
	{"", "ammonium", "strong alkali", "ammonia", figure.Memory},
}

// Gives lists the gases, those that acid drives out first.
func (k Known) Gives() []Gas {
	var out []Gas
	for _, r := range releases {
		for _, p := range k.Parts {
			if r.group != "" && p.Group != r.group || r.name != "" && !strings.Contains(strings.ToLower(p.Name), r.name) {
				continue
			}
			out = gas(out, Gas{r.gas, r.with, []string{p.Name}, r.by})
		}
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
		if strings.HasPrefix(p.Group, "alkalis") {
			out = append(out, p.Name)
		}
	}
	return out
}
