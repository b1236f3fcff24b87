// Package rules knows which substances react alike, which pairs never meet and
// what comes of it, and what is done with a spill: typed data, read from the
// program's books of rules and from the lab's own. It makes no sentences.
package rules

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Outcome is what happens when a pair meets.
type Outcome struct {
	Word string
	// Rank orders outcomes: what kills at once before what burns, before what only
	// spatters.
	Rank int
	// Gas is true of what is breathed.
	Gas bool
}

// outcomes is the closed list, the worst first within a rank as it stands here.
var outcomes = []Outcome{
	{"hydrogen cyanide", 3, true}, {"cyanogen chloride", 3, true}, {"hydrogen sulfide", 3, true}, {"hydrogen selenide", 3, true}, {"chlorine", 3, true}, {"explosive", 3, false},
	{"sulfur dioxide", 2, true}, {"ammonia", 2, true}, {"chloramines", 2, true}, {"bromine or iodine vapour", 2, true}, {"chloromethyl ether", 2, true},
	{"fire", 2, false}, {"hydrogen", 2, false}, {"pressure", 1, false}, {"heat", 1, false}, {"spoils it", 0, false},
}

// Outcomes lists the words that `gives` may have.
func Outcomes() []string {
	out := make([]string, len(outcomes))
	for i, o := range outcomes {
		out[i] = o.Word
	}
	return out
}

func outcome(word string) (Outcome, bool) {
	i := slices.IndexFunc(outcomes, func(o Outcome) bool { return o.Word == word })
	if i < 0 {
		return Outcome{}, false
	}
	return outcomes[i], true
}

// Pair never meets. Exactly one of Those and Never says what These never meet. Both
// sides are keys: of groups, or of definitions.
type Pair struct {
	These, Those []string
	Never        string
	Gives        Outcome
	Note, Source string
	Extract      bool
	Concentrate  bool
	// Origin is who says so; a pair without a source is our own rule, from memory.
	Origin figure.Origin
	At     figure.Where
}

// Reason is what happens, and what there is to say of it.
func (p Pair) Reason() string {
	if p.Note == "" {
		return p.Gives.Word
	}
	return p.Gives.Word + ", " + p.Note
}

// Reasons are what happens when some pairs meet, each once: of two that begin alike the
// one that says more.
func Reasons(pairs []Pair) string {
	var out []string
	for _, p := range pairs {
		why := p.Reason()
		if i := slices.IndexFunc(out, func(have string) bool { return strings.HasPrefix(why, have) }); i >= 0 {
			out[i] = why
		} else if !slices.ContainsFunc(out, func(have string) bool { return strings.HasPrefix(have, why) }) {
			out = append(out, why)
		}
	}
	return strings.Join(out, "; ")
}

// Rules are all rules that hold in a lab.
type Rules struct {
	Lab    *lab.Lab
	Pairs  []Pair // what kills first
	Spills []lab.Spill

	groups map[string]*group
	order  []string            // of groups
	up     map[string][]string // the groups that a key is a member of
	names  map[string][]string // the groups of a substance without a file
	here   Kinds               // everything that the lab has
	baths  map[string]Kinds    // what has been worked out, by reference
	// acidity are the bounds of the pH of baths of which somebody has worked it out
	acidity map[string][2]unit.Factor
}

type group struct {
	name, such, shelf string
	about             bool
	all               []string // keys: something of each is needed
}

// Kinds are the keys of what something is: its own, and every group that holds it.
type Kinds struct {
	has map[string]bool
}

// Any reports whether it is one of some keys; the key of a group is its id.
func (k Kinds) Any(keys ...string) bool {
	return slices.ContainsFunc(keys, func(id string) bool { return k.has[id] })
}

// Of reads the rules of a lab, and finds what cannot be so in them. Rules that
// name what there is not are left out.
func Of(l *lab.Lab) (*Rules, []lab.Problem) {
	r := &Rules{Lab: l, groups: map[string]*group{}, up: map[string][]string{}, names: map[string][]string{}, baths: map[string]Kinds{}, acidity: map[string][2]unit.Factor{}}
	c := &checker{Rules: r}
	for _, book := range l.Rules {
		c.collect(book)
	}
	for _, book := range l.Rules {
		c.members(book)
	}
	c.circles()
	for _, book := range l.Rules {
		for i, a := range book.Apart {
			c.pair(a, book.Def, fmt.Sprintf("apart[%d]", i), nil)
		}
		for i, s := range book.Spills {
			c.spill(s, book.Def, fmt.Sprintf("spill[%d]", i))
		}
	}
	for _, w := range l.Wastes {
		for i, a := range w.Apart {
			c.pair(a, w.Def, fmt.Sprintf("apart[%d]", i), []string{route(w.ID)})
		}
	}
	slices.SortStableFunc(r.Pairs, func(a, b Pair) int { return b.Gives.Rank - a.Gives.Rank })
	return r, c.problems
}

// def is the key of a chemical, a product or a solution, whose ids may be those of
// groups of the program.
func def(id string) string { return "=" + id }

// route is the id under which the baths of a waste route are known here.
func route(id string) string { return "waste/" + id }

// called is how a sentence speaks of a group, a chemical, a product, a solution or a
// waste route.
func (r *Rules) called(id string) string {
	if g, ok := r.groups[id]; ok {
		return g.name
	}
	if w, ok := strings.CutPrefix(id, "waste/"); ok {
		if d := r.Lab.WasteRoute(w); d != nil {
			return d.Name
		}
	}
	id = strings.TrimPrefix(id, "=")
	if c := r.Lab.Chemical(id); c != nil {
		return c.Name
	}
	if s := r.Lab.Solution(id); s != nil {
		return s.Name
	}
	if p := r.Lab.Product(id); p != nil {
		return p.Name
	}
	return id
}

// Side names one side of a pair: "sulfite or fixer".
func (r *Rules) Side(keys []string) string {
	names := make([]string, len(keys))
	for i, k := range keys {
		names[i] = r.called(k)
	}
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " or " + names[n-1]
	}
	return strings.Join(names, "")
}

// Made is the name of a group and what it is made of.
type Made struct{ Name, Such string }

// Such lists what the groups of a side are made of, where that is written.
func (r *Rules) Such(keys []string) []Made {
	var out []Made
	for _, key := range keys {
		if g := r.groups[key]; g != nil && g.such != "" {
			out = append(out, Made{g.name, g.such})
		}
	}
	return out
}

// stock is everything that the lab makes, buys or keeps.
func (r *Rules) stock() Kinds {
	list := []Kinds{r.OfBath(r.Lab.Baths()...)}
	for _, p := range r.Lab.Store.Packs {
		if ing, bad := r.Lab.InPack(p, r.Lab.Store.At("pack")); len(bad) == 0 && ing.Chemical != nil {
			list = append(list, r.OfChemical(ing.Chemical))
		}
	}
	return r.Together(list...)
}

// Here reports whether something of one side of a pair may stand in the lab: the lab
// has it, or it is in every house.
func (r *Rules) Here(keys []string) bool {
	if r.here.has == nil {
		r.here = r.stock()
	}
	return r.here.Any(keys...) || slices.ContainsFunc(keys, func(k string) bool { return k == def("water") || r.groups[k] != nil && r.groups[k].about })
}

// OfID is what a chemical, a product or a solution is by its id alone.
func (r *Rules) OfID(id string) Kinds {
	k := Kinds{map[string]bool{}}
	r.add(k, def(id))
	return r.whole(k)
}

// Together is what several things are together.
func (r *Rules) Together(list ...Kinds) Kinds {
	k := Kinds{map[string]bool{}}
	for _, one := range list {
		for id := range one.has {
			k.has[id] = true
		}
	}
	return r.whole(k)
}

// OfChemical is what a chemical is, by its id, and by its name where a group knows
// it: a lab's own file of a common substance needs no rule of its own.
func (r *Rules) OfChemical(c *lab.Chemical) Kinds {
	k := Kinds{map[string]bool{}}
	r.chemical(k, c)
	return r.whole(k)
}

func (r *Rules) chemical(k Kinds, c *lab.Chemical) {
	r.add(k, def(c.ID))
	r.name(k, c.Name)
}

func (r *Rules) name(k Kinds, name string) {
	for _, g := range r.names[lab.NameKey(name)] {
		r.add(k, g)
	}
}

// OfName is what a substance without a file is, by its name on a supplier's sheet.
func (r *Rules) OfName(name string) Kinds {
	k := Kinds{map[string]bool{}}
	r.name(k, name)
	return r.whole(k)
}

// OfBath is what everything in a bath is together. A bath at pH 2 or less is a
// strong acid, one at pH 11.5 or more a strong alkali (the limits from
// which such a mixture counts as corrosive: CLP, Annex I, 3.2.3.1.2, from memory);
// what is made of such a bath counts as one too.
func (r *Rules) OfBath(list ...lab.Bath) Kinds {
	all := make([]Kinds, len(list))
	for i, b := range list {
		all[i] = r.ofBath(b)
	}
	if len(all) == 1 {
		return all[0]
	}
	return r.Together(all...)
}

// ofBath works out what one bath is, once.
func (r *Rules) ofBath(b lab.Bath) Kinds {
	if b.Zero() {
		return Kinds{}
	}
	if k, ok := r.baths[b.Ref()]; ok {
		return k
	}
	k := Kinds{map[string]bool{}}
	r.leaves([]lab.Bath{b}, leaf{
		bath: func(b lab.Bath) {
			r.add(k, def(b.Def().ID))
			if id := wasteOf(b); id != "" {
				r.add(k, route(id))
			}
			if low, high, known := r.howAcid(b); known && low <= StrongAcid {
				r.add(k, "acid-strong")
			} else if known && high >= StrongAlkali {
				r.add(k, "alkali-strong")
			}
		},
		chemical: func(c *lab.Chemical) { r.chemical(k, c) },
		name:     func(name string) { r.name(k, name) },
	})
	k = r.whole(k)
	r.baths[b.Ref()] = k
	return k
}

// HowAcid tells the rules the bounds of the pH of a bath that somebody has worked out.
func (r *Rules) HowAcid(b lab.Bath, low, high unit.Factor) {
	r.acidity[b.Ref()] = [2]unit.Factor{low, high}
	clear(r.baths) // what others are made from this one may be something else now
	r.here = Kinds{}
}

// howAcid are the bounds of the pH of a bath: as somebody has written it, else as it was
// worked out.
func (r *Rules) howAcid(b lab.Bath) (low, high unit.Factor, known bool) {
	if q := b.PH(); q.Given() {
		return q.Low(), q.High(), true
	}
	of, known := r.acidity[b.Ref()]
	return of[0], of[1], known
}

// StrongAcid and StrongAlkali are the limits of pH from which a mixture counts as strongly
// acid or alkaline, and burns.
const (
	StrongAcid   = 2
	StrongAlkali = 11.5
)

func wasteOf(b lab.Bath) string {
	if b.Solution != nil {
		return b.Solution.Waste
	}
	return b.Product.Waste
}

// Unsaid names what is in some baths and in no group, each once: nobody has said
// what it reacts like.
func (r *Rules) Unsaid(list ...lab.Bath) []string {
	var out []string
	say := func(name string) {
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	r.leaves(list, leaf{
		bath: func(b lab.Bath) {
			if p := b.Product; p != nil && len(p.Contains) == 0 && len(r.up[def(p.ID)]) == 0 {
				say(p.Name)
			}
		},
		chemical: func(c *lab.Chemical) {
			if !r.Said(c) {
				say(c.Name)
			}
		},
		name: func(name string) {
			if len(r.names[lab.NameKey(name)]) == 0 {
				say(name)
			}
		},
	})
	return out
}

// Said reports whether a chemical is a member of some group.
func (r *Rules) Said(c *lab.Chemical) bool {
	return len(r.up[def(c.ID)]) > 0 || len(r.names[lab.NameKey(c.Name)]) > 0
}

// Shelf is the heading under which a chemical stands on a shelf, empty without one.
func (r *Rules) Shelf(c *lab.Chemical) string {
	k := r.OfChemical(c)
	for _, id := range r.order {
		if g := r.groups[id]; g.shelf != "" && k.has[id] {
			return g.shelf
		}
	}
	return ""
}

// leaf says what is done with each thing in a bath.
type leaf struct {
	bath     func(lab.Bath)
	chemical func(*lab.Chemical)
	name     func(string)
}

// leaves walks everything that baths are made of, each bath once.
func (r *Rules) leaves(list []lab.Bath, on leaf) {
	seen := map[string]bool{}
	var walk func(b lab.Bath)
	walk = func(b lab.Bath) {
		if b.Zero() || seen[b.Ref()] { // a bath that goes round in a circle is a fault of its own
			return
		}
		seen[b.Ref()] = true
		on.bath(b)
		if from, _, ok := b.From(); ok {
			walk(from)
			return
		}
		if p := b.Product; p != nil {
			for _, in := range r.Lab.Parts(p) {
				on.chemical(in.Ing.Chemical)
			}
			for _, name := range r.Lab.Others(p) {
				on.name(name)
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
			ing, bad := r.Lab.Resolve(ref, b.Solution.At("step"))
			switch {
			case len(bad) > 0 || ing.Water:
			case ing.Chemical != nil:
				on.chemical(ing.Chemical)
			default:
				walk(ing.Bath)
			}
		}
	}
	for _, b := range list {
		walk(b)
	}
}

// add adds an id and every group above it.
func (r *Rules) add(k Kinds, id string) {
	if k.has[id] {
		return
	}
	k.has[id] = true
	for _, g := range r.up[id] {
		r.add(k, g)
	}
}

// whole adds the groups of which something of every part is there.
func (r *Rules) whole(k Kinds) Kinds {
	for again := true; again; {
		again = false
		for _, id := range r.order {
			all := r.groups[id].all
			if len(all) == 0 || k.has[id] || slices.ContainsFunc(all, func(part string) bool { return !k.has[part] }) {
				continue
			}
			r.add(k, id)
			again = true
		}
	}
	return k
}

// Meets is what something never meets, and every pair that says so.
type Meets struct {
	// Other are the keys of the other side; Never stands in their place.
	Other []string
	Never string
	Pairs []Pair
}

// Never lists what some things never meet: the other side of every pair of which
// one of them is one side and not, in itself, the other, as far as the other may
// stand in this lab; once for each other side, what kills first. On a shelf and at the scale things stand as they come; in a
// drum only as baths.
func (r *Rules) Never(mine []Kinds, asTheyCome bool) []Meets {
	var out []Meets
	holds := func(these, those []string) bool {
		return slices.ContainsFunc(mine, func(k Kinds) bool { return k.Any(these...) && !k.Any(those...) })
	}
	for _, p := range r.Pairs {
		if p.Concentrate && !asTheyCome {
			continue
		}
		if holds(p.These, p.Those) && (p.Never != "" || r.Here(p.Those)) {
			out = enter(out, Meets{Other: p.Those, Never: p.Never, Pairs: []Pair{p}})
		}
		if p.Never == "" && holds(p.Those, p.These) && r.Here(p.These) {
			out = enter(out, Meets{Other: p.These, Pairs: []Pair{p}})
		}
	}
	return out
}

func enter(list []Meets, m Meets) []Meets {
	for i, have := range list {
		if have.Never == m.Never && slices.Equal(have.Other, m.Other) {
			if !slices.ContainsFunc(have.Pairs, func(p Pair) bool { return p.Reason() == m.Pairs[0].Reason() }) {
				list[i].Pairs = append(have.Pairs, m.Pairs[0])
			}
			return list
		}
	}
	return append(list, m)
}

// Between lists the pairs that two baths make, what kills first.
func (r *Rules) Between(a, b Kinds) []Pair {
	var out []Pair
	for _, p := range r.Pairs {
		if !p.Concentrate && p.Never == "" && (a.Any(p.These...) && b.Any(p.Those...) || a.Any(p.Those...) && b.Any(p.These...)) {
			out = append(out, p)
		}
	}
	return out
}

// Clash lists those of them that make a fault: a bath that is both sides by itself
// has come to rest, and brings neither to another.
func (r *Rules) Clash(a, b Kinds) []Pair {
	return slices.DeleteFunc(r.Between(a, b), func(p Pair) bool {
		both := func(k Kinds) bool { return k.Any(p.These...) && k.Any(p.Those...) }
		return both(a) || both(b)
	})
}

// Gases lists the pairs by which something gives off gas: of these it is the
// source.
func (r *Rules) Gases(mine Kinds) []Pair {
	var out []Pair
	for _, p := range r.Pairs {
		if p.Extract && p.Gives.Gas && mine.Any(p.These...) {
			out = append(out, p)
		}
	}
	return out
}

// GasWith lists what sets a gas free with something that is spilt: the other side of
// every such pair. Where it holds both sides, more of the second still does.
func (r *Rules) GasWith(mine Kinds) []Meets {
	var out []Meets
	for _, p := range r.Pairs {
		switch {
		case !p.Gives.Gas || p.Never != "" || p.Concentrate:
		case mine.Any(p.These...):
			if r.Here(p.Those) {
				out = enter(out, Meets{Other: p.Those, Pairs: []Pair{p}})
			}
		case mine.Any(p.Those...) && r.Here(p.These):
			out = enter(out, Meets{Other: p.These, Pairs: []Pair{p}})
		}
	}
	return out
}

// SpillsOf lists what is done with a spill, the rule to follow first. What gives
// off gas is not treated as what stands alone.
func (r *Rules) SpillsOf(mine Kinds) []lab.Spill {
	gas := len(r.Gases(mine)) > 0
	var out []lab.Spill
	for _, s := range r.Spills {
		if mine.Any(s.Of...) && !(s.Alone && gas) {
			out = append(out, s)
		}
	}
	return out
}
