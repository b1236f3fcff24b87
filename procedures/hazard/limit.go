package hazard

import (
	"regexp"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// reproLimits are the contents that a card tells however far from their limit they are:
// whoever is pregnant or nurses wants to know.
var reproLimits = []struct{ prefix, id, name string }{
	{"Repr. 1", figure.ID("limit", "repr-1"), "limit of a mixture for Repr. 1A and 1B"},
	{"Repr. 2", figure.ID("limit", "repr-2"), "limit of a mixture for Repr. 2"},
	{"Lact.", figure.ID("limit", "lact"), "limit of a mixture for harm to breast-fed children"},
}

// limitOf is the limit of a class that counts alone, by the scheme of the lab.
func limitOf(l *lab.Lab, word string) (lab.AloneRule, bool) {
	s := l.Scheme()
	if s == nil {
		return lab.AloneRule{}, false
	}
	for _, rule := range s.Alone {
		if slices.ContainsFunc(rule.Of, func(of string) bool {
			return word == of ||
				strings.HasPrefix(word, of+" (")
		}) {
			return rule, true
		}
	}
	return lab.AloneRule{}, false
}

// Against is how near a substance comes to the limit of its class in a bath.
// Low and High are nil where nothing is known to spread.
type Against struct {
	Name, Class               string
	Content, Low, High, Limit *figure.Record
	Answer                    string
	Verdict                   string
}

// together adds what counts together against one limit.
var together = figure.Register(&figure.FN[unit.WW, unit.WW]{
	Formula: figure.Formula{ID: "ww.together", Name: "content counted together", Result: "w", Unit: "% w/w",
		Terms: []figure.Term{{Symbol: "w", Meaning: "content of each borate", Unit: "% w/w"}},
		Text:  "sum(w)", Source: "Annex VI of Regulation (EC) No 1272/2008, Note 11, from memory",
		Origin: figure.Memory},
	Go: figure.Total[unit.WW],
})

// boron finds a boron atom in a formula.
var boron = regexp.MustCompile(`B([^a-z]|$)`)

// Reproductive holds every substance that harms reproduction against the limit
// of its class, by the least favourable content; borates count together.
func Reproductive(m *mix.Mixer, made *mix.Made) []Against {
	var out []Against
	var borates []figure.Figure[unit.WW]
	for _, c := range made.Contents {
		if c.Chemical.Hazards == nil {
			continue
		}
		for _, word := range c.Chemical.Hazards.Classes {
			for _, l := range reproLimits {
				if _, ok := limitOf(m.Lab, word); !ok || !strings.HasPrefix(word, l.prefix) {
					continue
				}
				ww := m.MassPercent(made, c)
				out = append(out, against(m, made, c.Chemical.FormName(c.Form), c.Ref(), word, ww,
					c.Chemical.Hazards.Limits[word]))
				if l.prefix == "Repr. 1" && boron.MatchString(c.Chemical.Forms[c.Form].Formula) {
					borates = append(borates, ww)
				}
			}
		}
	}
	if len(borates) > 1 {
		sum := together.Of(figure.ID(made.Bath.Ref(), "ww.borates"), borates...)
		var low, high unit.WW
		for _, b := range borates {
			low, high = low+b.Low, high+b.High
		}
		out = append(out, against(m, made, "borates together", "borates", "Repr. 1B (FD)",
			sum.WithBounds(low, high).Show(figure.KindRatio, "0.001", unit.Nearest, ""), lab.Said[unit.WW]{}))
	}
	return out
}

func against(m *mix.Mixer, made *mix.Made, name, ref, word string, ww figure.Figure[unit.WW],
	own lab.Said[unit.WW]) Against {
	a := Against{Name: name, Class: word, Content: figure.Enter(m.Book, ww)}
	a.Low, a.High = m.Between(ww)
	least, most := ww.Value, ww.Value
	if a.Low != nil { // what is printed decides, so that no card seems to contradict itself
		least, most = mix.Outward(ww)
	}
	rule, _ := limitOf(m.Lab, word)
	from, table := rule.From, m.Lab.Scheme().Name+", "+rule.Table
	for _, l := range reproLimits {
		if !strings.HasPrefix(word, l.prefix) {
			continue
		}
		id := l.id
		if own.Given() { // a limit of the substance itself goes before that of the law
			from, table, id = own, "a limit of the substance's own", figure.Beside(id, "own", slug(name))
		}
		g := figure.Constant(from.Value(), l.name, table, figure.Standard)
		a.Limit = figure.Declare(m.Book, id, figure.KindRatio, g, strings.TrimSuffix(from.Text(), " % w/w"),
			unit.UnitOf[unit.WW]())
		switch limit := from.Value(); {
		case unit.Snap(float64(most)) < float64(limit):
			a.Answer = "stays under the limit"
		case unit.Snap(float64(least)) < float64(limit):
			a.Answer = "may reach the limit: counts as reaching it"
		default:
			a.Answer = "reaches the limit"
		}
	}
	a.Verdict = m.Book.EnterVerdict(figure.Verdict{ID: figure.ID(made.Bath.Ref(), "limit."+ref), Answer: a.Answer,
		Limits: []string{a.Limit.ID}, Because: []string{word + ": " + name, a.Content.ID}, Source: table})
	return a
}
