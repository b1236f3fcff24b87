// Package waste says where a spent bath goes, in the strictest form: without a
// recorded permit nothing goes down a drain, and what nobody has said goes to a
// drum of its own, ask first. Treatment is never told.
package waste

import (
	"slices"
	"sort"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/rules"
	"wetside/procedures/unit"
)

// full is where a drum counts as full: the rest is room for gas and for froth.
var full = figure.Register(&figure.F2[unit.Factor, unit.Factor, unit.Volume]{
	Formula: figure.Formula{ID: "drum.full", Name: "a drum is full at", Result: "V_full", Unit: "L",
		Terms: []figure.Term{{Symbol: "f", Meaning: "share of the drum that is filled"},
			{Symbol: "V", Meaning: "what the drum holds", Unit: "ml"}},
		Text: "f * V / 1000", Source: "common practice, no source", Origin: figure.Memory},
	Go: func(f unit.Factor, v unit.Volume) unit.Factor { return f * unit.Factor(v) / 1000 },
})

// Full enters the fill line of a drum in litres, rounded down.
func Full(book *figure.Ledger, id string, d lab.Drum) *figure.Record {
	holds := d.Holds.Figure("what the drum holds")
	line := full.Of(figure.ID(Subject(id), "full"), figure.Constant(unit.Factor(0.9), "nine tenths",
		"common practice, no source",
		figure.Memory), holds).In("L")
	step := "0.1"
	if line.Value >= 10 {
		step = "1"
	}
	return figure.Enter(book, line.Show(figure.KindAmount, step, unit.Down, ""))
}

// Permit is what the authority has said about one thing.
type Permit struct {
	// Ref is the permission's own reference, empty without one.
	Ref string
	// Refused: somebody asked, and the answer was no.
	Refused bool
}

// PermitOf reads a permit of local.toml: drain, wash or treat.
func PermitOf(l *lab.Lab, key string) Permit {
	p := l.Local.Permit
	word := map[string]string{"drain": p.Drain, "wash": p.Wash, "treat": p.Treat}[key]
	switch word = strings.TrimSpace(word); word {
	case "":
		return Permit{}
	case "none":
		return Permit{Refused: true}
	default:
		return Permit{Ref: word}
	}
}

// Why says in words what is missing.
func (p Permit) Why(key string) string {
	switch {
	case p.Refused:
		return "a permit was asked for and refused: " + key + " under [permit] in local.toml"
	case p.Ref == "":
		return "no permit is written down: " + key + " under [permit] in local.toml"
	}
	return "permitted: " + p.Ref
}

// Route is where a spent bath goes.
type Route struct {
	// Waste is the route's definition; nil: nobody has written one.
	Waste *lab.Waste
	// Drum is the drum's name, empty without one.
	Drum string
	// Drain says how it goes down the foul drain, and Ref by which permit; both
	// are empty without a permit.
	Drain, Ref string
	// Not lists drums of which it is known why it must not go into them, while nobody
	// has named its own. It must go into no other drum either.
	Not []Not
	// Over are the limits because of which it does not go down the drain, though the permit is there.
	Over []Allowed
}

// Not is a drum that something must stay out of: because of some pairs, what kills
// first, or because the drum takes nothing else.
type Not struct {
	Drum  string
	Why   []rules.Pair
	Alone bool
}

// Words says in a line where it goes. Naming one drum that it must not go into would
// read as leave for the others.
func (r Route) Words() string {
	switch {
	case r.Drum != "":
		return "to the drum for " + r.Drum
	case r.Drain != "":
		return "down the foul drain: " + r.Drain + "; permit " + r.Ref
	}
	out := "to a drum of its own: ask first; not into any drum of this room"
	var all []rules.Pair
	for _, n := range r.Not {
		all = append(all, n.Why...)
	}
	slices.SortStableFunc(all, func(a, b rules.Pair) int { return b.Gives.Rank - a.Gives.Rank })
	var whys []string
	for _, p := range all {
		if !slices.Contains(whys, p.Gives.Word) {
			whys = append(whys, p.Gives.Word)
		}
	}
	if len(whys) == 0 {
		return out
	}
	if len(whys) > 2 {
		whys = append(whys[:2], "and more")
	}
	return out + " (danger: " + strings.Join(whys, ", ") + ")"
}

// Brief says it in fewer words, for a card that is read while the hands work; how and why
// stands on the sheet of the route.
func (r Route) Brief() string {
	switch {
	case r.Drum != "":
		return "to the drum for " + r.Drum
	case r.Drain != "":
		return "down the foul drain: " + r.Drain
	}
	for _, n := range r.Not {
		if slices.ContainsFunc(n.Why, func(p rules.Pair) bool { return p.Gives.Gas }) {
			return "apart, into no drum (poison gas): ask first"
		}
	}
	return "apart, into no drum: ask first"
}

// Words says why something must stay out of a drum.
func (n Not) Words() string {
	why := rules.Reasons(n.Why)
	if n.Alone && why == "" {
		why = "nothing else goes into it"
	}
	return "not the drum for " + n.Drum + ": " + why
}

// Verdicts say where a definition's spent baths go and, where that is not down a drain,
// the refusal, by what the authority has said of the drain.
func (r Route) Verdicts(w *lab.Waste, drain Permit) []figure.Verdict {
	v := figure.Verdict{ID: figure.ID("dispose."+w.ID, "route"), Answer: r.Words(),
		Because: []string{drain.Why("drain")},
		Source:  "common practice, no source: without a written permit everything goes to a drum"}
	if w.Drum != "" {
		v.Because = append(v.Because, "its drum is written: drum in "+w.File)
	}
	if w.Why != "" {
		v.Because = append(v.Because, w.Why)
	}
	for _, n := range r.Not {
		v.Limits = append(v.Limits, n.Words())
	}
	if r.Drain != "" {
		return []figure.Verdict{v}
	}
	no := figure.Verdict{ID: figure.ID("dispose."+w.ID, "drain"), Answer: "no", Because: []string{drain.Why("drain")},
		Source: v.Source}
	for _, a := range r.Over {
		no.Because = append(no.Because, a.Who+": "+a.Says())
	}
	if w.Drain == "" {
		no.Because = append(no.Because, "this route has no way down a drain: drain in "+w.File)
	}
	for _, n := range w.Never {
		for _, word := range []string{"drain", "septic", "water", "garden"} {
			if strings.Contains(strings.ToLower(n), word) {
				no.Limits = append(no.Limits, "never: "+n)
				break
			}
		}
	}
	return []figure.Verdict{v, no}
}

// Ask reports that somebody has to be asked first.
func (r Route) Ask() bool { return r.Drum == "" && r.Drain == "" }

// DrumName is a drum in words.
func DrumName(l *lab.Lab, id string) string {
	if d, ok := l.Place.Drums[id]; ok && d.Name != "" {
		return d.Name
	}
	return lab.Title(id)
}

// Of says where a bath goes when it is spent. A permit for the drain speaks of what was
// worked in, not of the concentrate that it is diluted from.
func Of(m *mix.Mixer, b lab.Bath) Route {
	w := m.Lab.WasteRoute(b.Waste())
	r := OfRoute(m, w, []lab.Bath{b})
	if r.Drain != "" && Concentrate(m.Lab, b) {
		r.Drain, r.Ref = "", ""
	}
	return r
}

// Concentrate reports a strength from which others are diluted, and in which no process
// works.
func Concentrate(l *lab.Lab, b lab.Bath) bool {
	return len(l.Users(b)) == 0 && l.Diluted(b)
}

// OfRoute says where the baths of one route go.
func OfRoute(m *mix.Mixer, w *lab.Waste, baths []lab.Bath) Route {
	r := Route{Waste: w}
	if w != nil && w.Drum != "" {
		r.Drum = DrumName(m.Lab, w.Drum)
		return r
	}
	if p := PermitOf(m.Lab, "drain"); w != nil && w.Drain != "" && p.Ref != "" {
		r.Drain, r.Ref = w.Drain, p.Ref
		return r
	}
	return r.apart(m, baths)
}

// Within is the way of what the limits of the permit speak of: where one of them is not met, or
// cannot be told, it goes down no drain.
func (r Route) Within(m *mix.Mixer, limits []Allowed, baths ...lab.Bath) Route {
	if r.Drain == "" || All(limits) == Met {
		return r
	}
	for _, a := range limits {
		if a.Meets != Met {
			r.Over = append(r.Over, a)
		}
	}
	r.Drain, r.Ref = "", ""
	return r.apart(m, baths)
}

// apart adds the drums that what has no drum must stay out of.
func (r Route) apart(m *mix.Mixer, baths []lab.Bath) Route {
	mine := m.Rules.OfBath(baths...)
	for _, id := range Drums(m.Lab) {
		if why, alone := keepsOut(m, id, mine); len(why) > 0 || alone {
			r.Not = append(r.Not, Not{DrumName(m.Lab, id), why, alone})
		}
	}
	return r
}

// Drums lists the drums that waste routes lead to, in the order of their names.
func Drums(l *lab.Lab) []string {
	seen := map[string]bool{}
	var out []string
	for _, w := range l.Wastes {
		if w.Drum != "" && !seen[w.Drum] {
			seen[w.Drum] = true
			out = append(out, w.Drum)
		}
	}
	sort.Strings(out)
	return out
}
