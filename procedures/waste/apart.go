package waste

import (
	"slices"
	"strings"
	"unicode"

	"wetside/procedures/lab"
	"wetside/procedures/mix"
)

// part is what a rule of keeping apart can tell of a bath.
type part struct{ name, group string }

func partsOf(m *mix.Mixer, baths []lab.Bath) []part {
	var out []part
	for _, b := range baths {
		for _, c := range m.Made(b).Contents {
			out = append(out, part{strings.ToLower(c.Chemical.Name), c.Chemical.Group})
		}
		for _, p := range m.Made(b).Unknown {
			out = append(out, part{name: strings.ToLower(p.Name())})
		}
	}
	return out
}

// kinds are the words for a kind of substance, by the group that chemicals
// belong to; any other word stands for itself in a substance's name.
var kinds = map[string]string{
	"acid": "acids", "sulfite": "sulfites", "metabisulfite": "sulfites", "fixer": "thiosulfates", "thiosulfate": "thiosulfates",
	"alkali": "alkalis", "oxidiser": "oxidiser",
}

// idle are words that name no substance.
var idle = map[string]bool{
	"strong": true, "concentrated": true, "crystals": true, "solution": true, "household": true, "silver": true, "standing": true, "drying": true, "developer": true, "bleach": true,
}

// whole reports whether a bath has everything that one side of a rule names: of
// "ammonia with strong alkali" both. What names no substance is left out.
func whole(side string, bath []part) bool {
	one, with, _ := strings.Cut(side, " with ")
	found := false
	for _, need := range append([]string{one}, strings.Split(with, " and ")...) {
		if nameless(need) {
			continue
		}
		if !named(need, bath) {
			return false
		}
		found = true
	}
	return found
}

// nameless tells a side of a rule that names no substance, such as "standing".
func nameless(side string) bool {
	for _, w := range strings.FieldsFunc(strings.ToLower(side), func(r rune) bool { return !unicode.IsLetter(r) }) {
		w = strings.TrimSuffix(w, "s")
		if _, known := kinds[w]; known || !idle[w] && !idle[w+"s"] && len(w) >= 6 {
			return false
		}
	}
	return true
}

// named reports whether one side of a rule speaks of something in a bath: "a
// fixer or sulfite" of every bath with a thiosulfate or a sulfite in it.
func named(side string, bath []part) bool {
	words := strings.FieldsFunc(strings.ToLower(side), func(r rune) bool { return !unicode.IsLetter(r) })
	for i, w := range words {
		w = strings.TrimSuffix(w, "s")
		group, known := kinds[w]
		if w == "acid" && i > 0 && strings.HasSuffix(words[i-1], "ic") {
			continue // "sulfuric acid" is one acid, named by the word before
		}
		if known && w == "alkali" && i > 0 && words[i-1] == "strong" {
			group = "alkalis, strong"
		}
		if !known && (idle[w] || idle[w+"s"] || len(w) < 6) {
			continue
		}
		for _, p := range bath {
			if known && strings.HasPrefix(p.group, group) || !known && strings.Contains(p.name, w) {
				return true
			}
		}
	}
	return false
}

// keepsOut says why a bath must stay out of a drum, or nothing: a pair that
// never meets, or a line of the drum's own routes that names it.
func keepsOut(m *mix.Mixer, drum string, mine []part) string {
	var inside []part
	for _, w := range m.Lab.Wastes {
		if w.Drum == drum {
			inside = append(inside, partsOf(m, Baths(m.Lab, w.ID))...)
		}
	}
	var whys []string
	for _, a := range Pairs(m.Lab) {
		if (named(a.These, mine) && named(a.Those, inside) || named(a.Those, mine) && named(a.These, inside)) && !slices.Contains(whys, a.Why) {
			whys = append(whys, a.Why)
		}
	}
	if len(whys) > 0 {
		return strings.Join(whys, "; ")
	}
	for _, w := range m.Lab.Wastes {
		if w.Drum != drum {
			continue
		}
		for _, never := range w.Never {
			if what, why, ok := strings.Cut(never, ": "); ok && named(what, mine) {
				return why
			}
		}
	}
	return ""
}

// NeverIn lists what must never get into a drum: the lines of its routes, each of
// them, then the other half of every pair of which it holds one. What is named
// twice in the same words stands once, with every reason; what kills comes first.
func NeverIn(m *mix.Mixer, drum string) []string {
	var out []line
	var inside []part
	for _, w := range m.Lab.Wastes {
		if w.Drum == drum {
			for _, never := range w.Never {
				what, why, _ := strings.Cut(never, ": ")
				out = enter(out, line{what, why})
			}
			inside = append(inside, partsOf(m, Baths(m.Lab, w.ID))...)
		}
	}
	for _, a := range Pairs(m.Lab) {
		for _, side := range [][2]string{{a.These, a.Those}, {a.Those, a.These}} {
			switch {
			case !whole(side[0], inside) || named(side[1], inside):
			case nameless(side[1]):
				out = enter(out, line{"leave it " + side[1], a.Why})
			default:
				out = enter(out, line{"let " + plainly(side[1]) + " meet it", a.Why})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b line) int { return deadly(b.why) - deadly(a.why) })
	texts := make([]string, len(out))
	for i, l := range out {
		texts[i] = l.what
		if l.why != "" {
			texts[i] += ": " + l.why
		}
	}
	return texts
}

// plainly is one side of a pair as it stands in a sentence.
func plainly(side string) string {
	side, _, _ = strings.Cut(side, " (")
	side, _, _ = strings.Cut(side, ", also ")
	return strings.ReplaceAll(strings.TrimSuffix(side, " too"), "; ", " or ")
}

// line is something that must not be done, and what happens if it is.
type line struct{ what, why string }

// deadly ranks what happens: what kills at once is read first, what has no reason
// last.
func deadly(why string) int {
	for _, word := range []string{"cyanide", "chlorine", "explosive", "hydrogen sulfide"} {
		if strings.Contains(why, word) {
			return 2
		}
	}
	return min(1, len(why))
}

// enter adds a line, or its reason to a line that forbids the same: in the same
// words, or by a list of alternatives of which it is one. Anything less sure
// stands for itself.
func enter(list []line, l line) []line {
	for i, have := range list {
		if !strings.EqualFold(have.what, l.what) && !slices.Contains(alternatives(have.what), meets(l.what)) {
			continue
		}
		switch {
		case strings.HasPrefix(have.why, l.why):
		case strings.HasPrefix(l.why, have.why):
			list[i].why = l.why
		case !slices.Contains(strings.Split(have.why, "; "), l.why):
			list[i].why += "; " + l.why
		}
		return list
	}
	return append(list, l)
}

// meets is what a line of the form "let something meet it" speaks of, else empty.
func meets(what string) string {
	what, ok := strings.CutPrefix(strings.ToLower(what), "let ")
	what, ends := strings.CutSuffix(what, " meet it")
	if !ok || !ends {
		return ""
	}
	return what
}

// alternatives are the things that a line of the same form lists, each in its own
// words: "acid, acid bleach or a stop bath".
func alternatives(what string) []string {
	list := meets(what)
	if list == "" {
		return nil
	}
	return strings.Split(strings.ReplaceAll(list, " or ", ", "), ", ")
}

// Neighbour is what never stands beside something, and why.
type Neighbour struct{ What, Why string }

// Beside lists what never stands beside some chemicals on a shelf: the other
// half of every pair of which one is theirs.
func Beside(l *lab.Lab, list []*lab.Chemical) []Neighbour {
	var mine []part
	for _, d := range list {
		mine = append(mine, part{strings.ToLower(d.Name), d.Group})
	}
	var out []Neighbour
	seen := map[Neighbour]bool{}
	for _, a := range Pairs(l) {
		for _, side := range [][2]string{{a.These, a.Those}, {a.Those, a.These}} {
			next := Neighbour{side[1], a.Why}
			if named(side[0], mine) && !seen[next] {
				seen[next] = true
				out = append(out, next)
			}
		}
	}
	return out
}
