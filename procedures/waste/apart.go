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
	"strong": true, "concentrated": true, "crystals": true, "solution": true, "household": true, "silver": true, "standing": true, "developer": true, "bleach": true,
}

// named reports whether one side of a rule speaks of something in a bath: "a
// fixer or sulfite" of every bath with a thiosulfate or a sulfite in it.
func named(side string, bath []part) bool {
	if one, with, both := strings.Cut(side, " with "); both { // a mixture: every part of it
		for _, need := range append([]string{one}, strings.Split(with, " and ")...) {
			if !named(need, bath) {
				return false
			}
		}
		return true
	}
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

// NeverIn lists what must never get into a drum: the lines of its routes, then
// the other half of every pair of which it holds one. What is named twice stands
// once, with the first words of every reason; what kills comes first.
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
			if named(side[0], inside) && !named(side[1], inside) {
				what, _, _ := strings.Cut(side[1], ", also ")
				why, _, _ := strings.Cut(a.Why, ": ")
				out = enter(out, line{"let " + what + " meet it", why})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b line) int { return b.deadly() - a.deadly() })
	texts := make([]string, len(out))
	for i, l := range out {
		texts[i] = l.what
		if l.why != "" {
			texts[i] += ": " + l.why
		}
	}
	return texts
}

// line is something that must not be done, and what happens if it is.
type line struct{ what, why string }

// deadly ranks a line: what kills at once is read first, what has no reason last.
func (l line) deadly() int {
	for _, word := range []string{"cyanide", "chlorine", "explosive", "hydrogen sulfide"} {
		if strings.Contains(l.why, word) {
			return 2
		}
	}
	return min(1, len(l.why))
}

// enter adds a line, or its reason to a line that speaks of the same.
func enter(list []line, l line) []line {
	for i, have := range list {
		switch {
		case strings.EqualFold(have.what, l.what):
		case l.why == "" || have.why == "":
			continue
		case speaks(l.what, have.what): // have is as wide, or wider
		case !speaks(have.what, l.what):
			continue
		case !strings.Contains(have.what, " or "): // have names one sort of it
			list[i].what = l.what
		}
		if short, _, _ := strings.Cut(strings.NewReplacer(": ", ", ", "; ", ", ").Replace(l.why), ", "); !strings.Contains(strings.ToLower(list[i].why), strings.ToLower(short)) {
			list[i].why += ", " + short
		}
		return list
	}
	return append(list, l)
}

// speaks reports whether a line has every substance that another one names.
// "sulfuric acid" has the acid of "acid", which is the wider of the two.
func speaks(line, other string) bool {
	mine := substances(line)
	theirs := substances(other)
	for _, w := range theirs {
		if !slices.Contains(mine, w) {
			return false
		}
	}
	return len(theirs) > 0
}

// substances are the words of a line that name a substance.
func substances(line string) []string {
	var out []string
	for _, w := range strings.FieldsFunc(strings.ToLower(line), func(r rune) bool { return !unicode.IsLetter(r) }) {
		if len(w) >= 4 && !plain[w] {
			out = append(out, strings.TrimSuffix(w, "s"))
		}
	}
	return out
}

// plain are words of a line that name no substance.
var plain = map[string]bool{"meet": true, "strong": true, "that": true, "also": true, "with": true, "every": true, "kind": true, "other": true, "into": true, "used": true, "bath": true, "salt": true, "concentrated": true, "household": true, "hypochlorite": true, "stop": true}

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
