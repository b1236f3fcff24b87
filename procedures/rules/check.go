package rules

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
)

// checker fills the rules, book after book, and gathers what cannot be so.
type checker struct {
	*Rules
	problems []lab.Problem
}

func (c *checker) fault(at figure.Where, onKey bool, code, what, hint string) {
	c.problems = append(c.problems, lab.Problem{At: at, OnKey: onKey, Code: code, What: what, Hint: hint})
}

// collect takes up the groups of a book by their ids, so that members may name a
// group that comes later.
func (c *checker) collect(book *lab.RuleBook) {
	for _, id := range sorted(book.Groups) {
		g := book.Groups[id]
		at := book.At("group." + id)
		if g == nil {
			continue
		}
		if _, taken := c.definition(id); taken && !book.Library {
			c.fault(at, true, "id", fmt.Sprintf("the id %q is that of a definition, too", id),
				"groups share one set of names with chemicals, products, solutions and materials: give the group another name")
			continue
		}
		have := c.groups[id]
		if have == nil {
			have = &group{}
			c.groups[id] = have
			c.order = append(c.order, id)
		}
		if g.Name != "" {
			have.name = g.Name
		}
		if g.Shelf != "" {
			have.shelf = g.Shelf
		}
		if g.Such != "" {
			have.such = g.Such
		}
		have.about = have.about || g.About
		if have.name == "" {
			c.fault(at, true, "missing", fmt.Sprintf("the group %q has no name", id), `write name = "…" as a sentence speaks of it: "let … meet it"`)
		}
	}
}

// definition finds what else is called by an id.
func (c *checker) definition(id string) (lab.Def, bool) {
	if id == "water" {
		return lab.Def{ID: id}, true
	}
	if d := c.Lab.Chemical(id); d != nil {
		return d.Def, true
	}
	if d := c.Lab.Product(id); d != nil {
		return d.Def, true
	}
	if d := c.Lab.Solution(id); d != nil {
		return d.Def, true
	}
	if d := c.Lab.Material(id); d != nil {
		return d.Def, true
	}
	return lab.Def{}, false
}

// members takes up who belongs to which group.
func (c *checker) members(book *lab.RuleBook) {
	for _, id := range sorted(book.Groups) {
		g, have := book.Groups[id], c.groups[id]
		if g == nil || have == nil {
			continue
		}
		at := book.At("group." + id)
		members, _ := c.keys(g.Members, at.At("members"), book.Library)
		for _, m := range members {
			if !slices.Contains(c.up[m], id) {
				c.up[m] = append(c.up[m], id)
			}
		}
		for i, n := range g.Names {
			key := lab.NameKey(n)
			if key == "" {
				c.fault(at.At(fmt.Sprintf("names[%d]", i)), false, "missing", "an empty name",
					"write the name as a supplier's sheet gives it")
				continue
			}
			if !slices.Contains(c.names[key], id) {
				c.names[key] = append(c.names[key], id)
			}
		}
		if len(g.All) == 1 {
			c.fault(at.At("all"), true, "shape", "a group that needs something of each names at least two", `write all = ["thiourea", "alkali"], or use members`)
		}
		all, _ := c.keys(g.All, at.At("all"), book.Library)
		have.all = append(have.all, all...)
	}
}

// key finds what an id means here. What cannot be read raises nothing more. The
// program's own books mean their groups, whatever a lab calls its baths.
func (c *checker) key(id string, at figure.Where, library bool) (string, bool) {
	_, defined := c.definition(id)
	switch {
	case c.groups[id] != nil && defined && !library:
		c.fault(at, false, "id",
			fmt.Sprintf("%q is a definition of yours and a group of the program: nobody can tell which is meant", id),
			"rename the file, or name the substance that is in it")
		return "", false
	case c.groups[id] != nil:
		return id, true
	case defined:
		return def(id), true
	case c.Lab.Broken[id]:
		return "", false
	}
	hint := "write the id of a chemical, a product, a solution or a group"
	if base, _, strength := strings.Cut(id, "."); strength {
		if _, ok := c.definition(base); ok {
			c.fault(at, false, "reference",
				fmt.Sprintf("%q names a strength or a form, and what reacts like what holds for all of them", id),
				fmt.Sprintf("write %q", base))
			return "", false
		}
	}
	c.fault(at, false, "reference", fmt.Sprintf("there is no group, chemical, product or solution %q", id),
		lab.Near(id, append(slices.Clone(c.order), c.Lab.Names()...), hint))
	return "", false
}

// keys finds what a list of ids means, and reports whether all of it means something.
func (c *checker) keys(list []string, at figure.Where, library bool) ([]string, bool) {
	var out []string
	for i, id := range list {
		if k, ok := c.key(id, at.At(fmt.Sprintf("[%d]", i)), library); ok {
			out = append(out, k)
		}
	}
	return out, len(out) == len(list)
}

// circles finds groups that hold themselves.
func (c *checker) circles() {
	for _, id := range c.order {
		seen := map[string]bool{}
		var walk func(string) bool
		walk = func(at string) bool {
			for _, g := range c.up[at] {
				if g == id {
					return true
				}
				if !seen[g] {
					seen[g] = true
					if walk(g) {
						return true
					}
				}
			}
			return false
		}
		if !walk(id) {
			continue
		}
		for _, book := range c.Lab.Rules {
			if g := book.Groups[id]; g != nil && !book.Library {
				c.fault(book.At("group."+id), true, "loop",
					fmt.Sprintf("this goes round in a circle: the group %q holds a group that holds it", id),
					"take one of the two out of the other's members")
				break
			}
		}
	}
}

// pair takes up a pair that never meets.
func (c *checker) pair(a lab.Apart, d lab.Def, key string, these []string) {
	at := d.At(key)
	whole := true
	if len(a.These) > 0 {
		these, whole = c.keys(a.These, at.At("these"), d.Library)
	}
	those, ok := c.keys(a.Those, at.At("those"), d.Library)
	whole = whole && ok
	gives, given := outcome(a.Gives)
	switch {
	case len(a.These) == 0 && len(these) == 0:
		c.fault(at, false, "missing", "a pair that never meets, without its first half", `write these = ["sulfite"]`)
		whole = false
	case len(a.Those) == 0 && a.Never == "":
		c.fault(at, false, "missing", "a pair that never meets, without its second half", `write those = ["acid"]; where the other side is no substance, never = "let it dry out"`)
		whole = false
	case len(a.Those) > 0 && a.Never != "":
		c.fault(at.At("never"), true, "shape",
			"a pair names its second half once: those for substances, never for what is none", "keep one of the two")
		whole = false
	}
	switch {
	case a.Gives == "":
		c.fault(at, false, "missing", "a pair that never meets does not say what happens", `write gives = "heat"; it is one of `+strings.Join(Outcomes(), ", "))
		whole = false
	case !given:
		c.fault(at.At("gives"), false, "word", fmt.Sprintf("%q is not what a pair can give", a.Gives),
			lab.Near(a.Gives, Outcomes(), "it is one of "+strings.Join(Outcomes(),
				", ")+"; what else there is to say goes into note"))
		whole = false
	}
	if !whole {
		return
	}
	by, _ := c.Lab.OriginOf(d, key)
	if d.Library && a.Source != "" {
		by = figure.Handbook
	}
	c.Pairs = append(c.Pairs, Pair{These: these, Those: those, Never: a.Never, Gives: gives, Note: a.Note,
		Source: a.Source, Extract: a.Extract, Concentrate: a.Concentrate, Origin: by, At: at})
}

// spill takes up what is done with a spill.
func (c *checker) spill(s lab.Spill, d lab.Def, key string) {
	at := d.At(key)
	if len(s.Of) == 0 {
		c.fault(at, false, "missing", "a rule for spills that does not say of what", `write of = ["oxidiser"]`)
	}
	if s.Small == "" {
		c.fault(at, false, "missing", "a rule for spills that does not say what to do", `write small = "absorb, then wipe twice."`)
	}
	s.Of, _ = c.keys(s.Of, at.At("of"), d.Library)
	c.Spills = append(c.Spills, s)
}

// change takes up a change of law.
func (c *checker) change(x lab.LawChange, d lab.Def, key string) {
	at := d.At(key)
	if !x.On.Given() {
		c.fault(at, false, "missing", "a change of law that does not say from when on it holds",
			"write on = 2026-05-01")
	}
	if x.What == "" {
		c.fault(at, false, "missing", "a change of law that does not say what has changed", `write what = "formaldehyde has new classes"`)
	}
	named := len(x.Of) > 0
	x.Of, _ = c.keys(x.Of, at.At("of"), d.Library)
	if x.On.Given() && (len(x.Of) > 0 || !named) {
		c.changes = append(c.changes, x)
	}
}

func sorted[T any](m map[string]T) []string {
	out := make([]string, 0, len(m))
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}
