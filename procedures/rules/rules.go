// Package rules knows which substances react alike, which pairs never meet and
// what comes of it, and what is done with a spill: typed data, read from the
// program's books of rules and from the lab's own. It makes no sentences.
package rules

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

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
	changes []lab.LawChange
}

type group struct {
	name, such, shelf string
	about             bool
	all               []string // keys: something of each is needed
}

// Of reads the rules of a lab, and finds what cannot be so in them. Rules that
// name what there is not are left out.
func Of(l *lab.Lab) (*Rules, []lab.Problem) {
	r := &Rules{Lab: l, groups: map[string]*group{}, up: map[string][]string{}, names: map[string][]string{},
		baths: map[string]Kinds{}, acidity: map[string][2]unit.Factor{}}
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
		for i, x := range book.Changes {
			c.change(x, book.Def, fmt.Sprintf("change[%d]", i))
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
	return r.here.Any(keys...) || slices.ContainsFunc(keys,
		func(k string) bool { return k == def("water") || r.groups[k] != nil && r.groups[k].about })
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
			p := b.Product
			if p == nil || len(r.up[def(p.ID)]) > 0 {
				return
			}
			silent := len(p.Contains) == 0 && len(p.Parts) == 0
			for _, part := range p.Parts {
				silent = silent || len(part.Contains) == 0
			}
			if silent {
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
			for _, id := range p.PartIDs() {
				for _, in := range r.Lab.PartsOfKit(p, id) {
					on.chemical(in.Ing.Chemical)
				}
				for _, name := range r.Lab.OthersOf(p.Parts[id].Contains) {
					on.name(name)
				}
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

// ChangeOf is the first change of law after a supplier's sheet of an edition that touches what
// is in a mixture; of a mixture whose contents nobody has written, any may. nil: none is known.
func (r *Rules) ChangeOf(edition unit.Date, contains map[string]lab.Share) *lab.LawChange {
	var first *lab.LawChange
	for i := range r.changes {
		x := &r.changes[i]
		if !edition.Before(x.On.Date) || first != nil && !x.On.Date.Before(first.On.Date) {
			continue
		}
		touched := len(x.Of) == 0 || len(contains) == 0
		for _, name := range sorted(contains) {
			k := r.OfName(name)
			if ing, _, ok := r.Lab.Contained(name); ok {
				k = r.OfChemical(ing.Chemical)
			}
			touched = touched || k.Any(x.Of...)
		}
		if touched {
			first = x
		}
	}
	return first
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
