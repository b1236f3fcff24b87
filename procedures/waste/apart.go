package waste

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"wetside/procedures/lab"
	"wetside/procedures/mix"
)

// part is what a rule of keeping apart can tell of a bath.
type part struct{ name, group string }

// partsOf are the substances in some baths, each once.
func partsOf(l *lab.Lab, baths []lab.Bath) []part {
	var out []part
	seen := map[string]bool{}
	add := func(p part) {
		if !slices.Contains(out, p) {
			out = append(out, p)
		}
	}
	var walk func(b lab.Bath)
	walk = func(b lab.Bath) {
		if b.Zero() || seen[b.Ref()] { // a bath that goes round in a circle is a fault of its own
			return
		}
		seen[b.Ref()] = true
		if from, _, _, ok := mix.From(b); ok {
			walk(from)
			return
		}
		if p := b.Product; p != nil {
			add(part{name: strings.ToLower(p.Name)})
			for _, in := range l.Parts(p) {
				add(part{strings.ToLower(in.Ing.Chemical.Name), in.Ing.Chemical.Group})
			}
			for _, name := range l.Others(p) {
				add(part{strings.ToLower(name), lab.GroupOf(name)})
			}
			return
		}
		refs := make([]string, 0, len(b.Solution.Steps)+2)
		for _, step := range b.Solution.Steps {
			refs = append(refs, step.Add)
		}
		if d := b.Solution.Dissolve; d != nil {
			refs = append(refs, d.Add, d.In)
		}
		for _, ref := range refs {
			ing, bad := l.Resolve(ref, b.Solution.At("step"))
			switch {
			case len(bad) > 0 || ing.Water:
			case ing.Chemical != nil:
				add(part{strings.ToLower(ing.Chemical.Name), ing.Chemical.Group})
			default:
				walk(ing.Bath)
			}
		}
	}
	for _, b := range baths {
		walk(b)
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
	side, _, _ = strings.Cut(side, ", also ") // where else it is found names nothing more
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
			inside = append(inside, partsOf(m.Lab, Baths(m.Lab, w.ID))...)
		}
	}
	var whys []string
	for _, a := range Pairs(m.Lab) {
		if (whole(a.These, mine) && whole(a.Those, inside) || whole(a.Those, mine) && whole(a.These, inside)) && !slices.Contains(whys, a.Why) {
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
	inside := contents{}
	for _, w := range m.Lab.Wastes {
		if w.Drum == drum {
			for _, never := range w.Never {
				what, why, _ := strings.Cut(never, ": ")
				out = enter(out, line{what, why})
			}
			inside = append(inside, contentsOf(m.Lab, w)...)
		}
	}
	for _, a := range Pairs(m.Lab) {
		for _, side := range [][2]string{{a.These, a.Those}, {a.Those, a.These}} {
			switch {
			case !inside.holds(side[0], side[1]):
			case nameless(side[1]) && strings.HasPrefix(side[1], "standing"):
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

// held is what one bath of a drum is made of.
type held struct {
	bath  lab.Bath
	route *lab.Waste
	parts []part
}

// contents are the baths that go into a drum.
type contents []held

// contentsOf are the baths of one route, each solution or product once.
func contentsOf(l *lab.Lab, w *lab.Waste) contents {
	var out contents
	for _, b := range Baths(l, w.ID) {
		if n := len(out); n > 0 && out[n-1].bath.Def().ID == b.Def().ID {
			continue
		}
		out = append(out, held{b, w, partsOf(l, []lab.Bath{b})})
	}
	return out
}

// holds reports whether a bath brings what one side of a pair names and not, in
// itself, what the other side names: a bath that is made of both has come to rest.
func (c contents) holds(side, other string) bool {
	if nameless(other) { // such as standing, or other wastes: any bath will do
		var all []part
		for _, h := range c {
			all = append(all, h.parts...)
		}
		return whole(side, all)
	}
	_, ok := c.first(side, other)
	return ok
}

func (c contents) first(side, other string) (held, bool) {
	for _, h := range c {
		if whole(side, h.parts) && !whole(other, h.parts) {
			return h, true
		}
	}
	return held{}, false
}

// together finds drums into which routes lead two baths that never meet.
func together(l *lab.Lab) []lab.Problem {
	var out []lab.Problem
	for _, drum := range Drums(l) {
		var inside contents
		for _, w := range l.Wastes {
			if w.Drum == drum {
				inside = append(inside, contentsOf(l, w)...)
			}
		}
		said := map[string]bool{}
		for _, a := range Pairs(l) {
			one, ok := inside.first(a.These, a.Those)
			other, also := inside.first(a.Those, a.These)
			if !ok || !also {
				continue
			}
			at := other.route
			if key := at.ID + a.Why; said[key] {
				continue
			} else {
				said[key] = true
			}
			out = append(out, lab.Problem{At: at.At("drum"), Code: "apart",
				What: fmt.Sprintf("the drum %q takes %s (%s) and %s (%s), which never meet: %s", drum, one.bath.Name(), plainly(a.These), other.bath.Name(), plainly(a.Those), a.Why),
				Hint: "give one of the two a drum of its own, or leave drum out of its route: its cards then say ask first, and into no drum of this room"})
		}
	}
	return out
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
