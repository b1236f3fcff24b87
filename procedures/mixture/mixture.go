// Package mixture classifies a mixture from what is in it, by the tables of a scheme. It
// knows no bath and no card: it is asked with shares and classes, and answers with the
// classes of the whole, each with what brought it, the limit and how sure it is.
package mixture

import (
	"slices"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Part is one ingredient of a mixture.
type Part struct {
	Name string
	// Share is how much of the mixture it is; Low and High are the least and the most.
	Low, Share, High unit.WW
	// Classes are its own classes of health and environment. Physical hazards say nothing
	// of a mixture and are not among them.
	Classes []string
	// Extra are its supplemental statements.
	Extra []string
	lab.InMixtures
	// Unknown: nobody has said its classes. Untested are the ways into a body that nobody
	// has tested, where the rest is known.
	Unknown  bool
	Untested []lab.Route
	// Together is the name under which several ingredients share one limit.
	Together string
	// Tested says of a class that a test of the substance stands against it.
	Tested map[string]string
	// Acid and Alkali say whether it may be what makes a mixture acid or alkaline.
	Acid, Alkali bool
	// Gas is how much gas a gram of it gives off with acid; zero: nobody can tell.
	Gas unit.VolumePerMass
}

// Plain is the part without what plays no part for waste: limits and M-factors of its own, what shares a
// limit, and tests of the substance.
func (p Part) Plain() Part {
	return Part{Name: p.Name, Low: p.Low, Share: p.Share, High: p.High, Classes: p.Classes, Unknown: p.Unknown,
		Acid: p.Acid, Alkali: p.Alkali}
}

// PH is how acid the mixture is. Its bounds are those that it may have.
type PH struct {
	Known            bool
	Low, Value, High unit.Factor
}

// Counted is an ingredient that brings a class, and the content of it that would have been
// enough by itself: a limit of the law or of its own, already divided by its M-factor. Limit
// is zero where no content decides.
type Counted struct {
	Part  *Part
	Limit unit.WW
}

// Finding is a class of the mixture, or a supplemental statement of it.
type Finding struct {
	Class string
	Code  string
	By    []Counted
	Table string
	// Sure: it holds at the least content of everything as well.
	Sure bool
	// Estimate is the acute toxicity of the mixture, where that decides.
	Estimate *Estimate
	// PH: the class comes from how acid the mixture is.
	PH bool
}

// Estimate is the acute toxicity of a mixture by one way: mg for each kg of a body, mg in
// each litre of air, or ppm, and the highest that its category has.
type Estimate struct {
	Way       lab.AcuteWay
	Dose      unit.Dose
	Air       unit.InAir
	Gas       unit.Gas
	UpToDose  unit.Dose
	UpToAir   unit.InAir
	UpToGas   unit.Gas
	Corrected bool // that of the tested part alone
}

// Near is a class that the mixture stays under by less than a fifth of its limit.
type Near struct {
	Class string
	By    []Counted
	Table string
	// Reaches is how much of the limit it comes to: from 0.8 to below 1.
	Reaches unit.Factor
}

// Untested is the share of a mixture of which nobody knows what it does by one way.
type Untested struct {
	Way   lab.AcuteWay
	Share unit.WW
}

// Answer is what a scheme says of a mixture.
type Answer struct {
	Found []Finding
	// Extra are supplemental statements.
	Extra []Finding
	Near  []Near
	// Untested are the shares that must be told where a class of acute toxicity hangs on
	// what is left.
	Untested []Untested
	// Unknown are ingredients that count and of which nobody has said anything.
	Unknown []*Part
	// FactorAssumed names what harms water in very small amounts, of which nobody has said
	// in how small ones: taken as 1.
	FactorAssumed []string
}

// fromUnknown is the content from which an ingredient that nobody has looked up makes the
// whole unknown, in % w/w: the lowest content from which the law counts most classes
// (Annex I, Table 1.1); below it only the hardest sensitisers count.
const fromUnknown = 0.1

// Classify asks a scheme what a mixture is.
func Classify(s *lab.Scheme, parts []Part, ph PH) Answer {
	c := &classifier{scheme: s, parts: parts, ph: ph}
	for i := range parts {
		if p := &parts[i]; p.Unknown && atLeast(p.High, fromUnknown) {
			c.out.Unknown = append(c.out.Unknown, p)
		}
	}
	for _, rule := range s.Acute {
		c.acute(rule)
	}
	for _, rule := range s.Sums {
		c.sum(rule)
	}
	for _, rule := range s.Alone {
		c.alone(rule)
	}
	for _, rule := range s.Extremes {
		c.extreme(rule)
	}
	c.children()
	c.hardest()
	for _, rule := range s.Follows {
		c.follows(rule)
	}
	c.hardest()
	c.named()
	for _, rule := range s.Gas {
		c.gas(rule)
	}
	c.onRequest()
	c.near()
	return c.out
}

type classifier struct {
	scheme *lab.Scheme
	parts  []Part
	ph     PH
	out    Answer
}

// atLeast compares after the last digits that a computer makes up have been cut off.
func atLeast(x, limit unit.WW) bool { return unit.Snap(float64(x)) >= unit.Snap(float64(limit)) }

// is reports a word that is one of some classes, or a kind of one of them.
func is(word string, classes []string) bool {
	return slices.ContainsFunc(classes, func(c string) bool { return word == c || strings.HasPrefix(word, c+" (") })
}

// kind is what stands in brackets behind one of some classes, with the space before it.
func kind(word string, classes []string) string {
	for _, c := range classes {
		if rest, ok := strings.CutPrefix(word, c); ok && (rest == "" || strings.HasPrefix(rest, " (")) {
			return rest
		}
	}
	return ""
}

// has reports whether a part has one of some classes.
func (p *Part) has(classes []string) bool {
	return slices.ContainsFunc(p.Classes, func(w string) bool { return is(w, classes) })
}

// own is the lowest limit that a part has of its own for some classes.
func (p *Part) own(classes ...string) (unit.WW, bool) {
	low, found := unit.WW(0), false
	for class, limit := range p.Limits {
		ours := is(class, classes) || slices.ContainsFunc(classes,
			func(c string) bool { return is(c, []string{class}) })
		if limit.Given() && ours && (!found || limit.Value() < low) {
			low, found = limit.Value(), true
		}
	}
	return low, found
}

// added reports whether a part adds up with others for skin and eyes.
func (p *Part) added() bool { return p.Additive == nil || *p.Additive }

// find enters a class that the mixture has.
func (c *classifier) find(f Finding) { c.out.Found = append(c.out.Found, f) }

// weighed is one part of a sum: how much of the limit it comes to by itself, at its least,
// its own and its most.
type weighed struct {
	Counted
	low, own, high float64
}

func weigh(p *Part, limit unit.WW) weighed {
	l := float64(limit)
	return weighed{Counted{p, limit}, float64(p.Low) / l, float64(p.Share) / l, float64(p.High) / l}
}

// judge enters a class if the most of its parts reaches the whole of the limit, and a near
// miss if it comes close.
func (c *classifier) judge(class, table string, list []weighed) {
	var low, own, high float64
	var by []Counted
	for _, w := range list {
		low, own, high = low+w.low, own+w.own, high+w.high
		by = append(by, w.Counted)
	}
	switch {
	case unit.Snap(high) >= 1:
		c.find(Finding{Class: class, By: by, Table: table, Sure: unit.Snap(low) >= 1})
	case high >= nearFrom:
		c.out.Near = append(c.out.Near, Near{Class: class, By: by, Table: table, Reaches: unit.Factor(own)})
	}
}

// nearFrom is the share of a limit from which a card says how near the mixture comes.
const nearFrom = 0.8

// sum adds up what brings a class together: each content by the limit that would be enough
// alone (the guidance on Annex I, 1.6.3.3.3, for limits of single substances).
func (c *classifier) sum(rule lab.SumRule) {
	var list []weighed
	for i := range c.parts {
		p := &c.parts[i]
		if rule.Added && !p.added() {
			continue
		}
		limit, counts, ok := c.enough(p, rule)
		if ok && atLeast(p.High, counts) {
			list = append(list, weigh(p, limit))
		}
	}
	c.judge(rule.Gives, rule.Table, list)
}

// enough is the content of a part that would bring a class by itself, and that from which
// it counts.
func (c *classifier) enough(p *Part, rule lab.SumRule) (limit, counts unit.WW, ok bool) {
	own, has := p.own(rule.Gives)
	var best *lab.Adds
	for i, a := range rule.Adds {
		if p.has(a.Of) && (best == nil || a.From.Value() < best.From.Value()) {
			best = &rule.Adds[i]
		}
	}
	if best == nil && !has {
		return 0, 0, false
	}
	if !has && best != nil {
		own, has = p.own(rule.Stands...)
	}
	counts = rule.Counts.Value()
	if has {
		if counts > own || counts == 0 {
			counts = own
		}
		return own, counts, true
	}
	limit = best.From.Value()
	if best.Counts.Given() {
		counts = best.Counts.Value()
	}
	m := unit.WW(c.factor(p, best.By))
	switch best.By {
	case lab.ByAcute, lab.ByChronic:
		limit, counts = limit/m, counts/m
	case lab.Unweighed:
		counts /= m
	}
	return limit, counts, true
}

// factor is the M-factor of a part. Where only one of the two was given it does for both;
// where none was, it is 1 and is named.
func (c *classifier) factor(p *Part, by lab.Factored) int {
	first, second := p.MFactor.Chronic, p.MFactor.Acute
	if by == lab.ByAcute {
		first, second = second, first
	}
	switch {
	case by == "":
		return 1
	case first.Given():
		return int(first.Count)
	case second.Given():
		return int(second.Count)
	}
	if !slices.Contains(c.out.FactorAssumed, p.Name) {
		c.out.FactorAssumed = append(c.out.FactorAssumed, p.Name)
	}
	return 1
}

// alone holds every ingredient against a limit by itself; those that share a limit are
// added up.
func (c *classifier) alone(rule lab.AloneRule) {
	together := map[string][]weighed{}
	var names []string
	for i := range c.parts {
		p := &c.parts[i]
		if rule.Unadded && p.added() {
			continue
		}
		for _, word := range p.words(rule) {
			limit := rule.From.Value()
			if own, has := p.own(word); has {
				limit = own
			}
			w := weigh(p, limit)
			if p.Together != "" && rule.Gives == "" {
				key := p.Together + "/" + word
				if together[key] == nil {
					names = append(names, key)
				}
				together[key] = append(together[key], w)
				continue
			}
			c.judge(word, rule.Table, []weighed{w})
		}
	}
	for _, key := range names {
		_, word, _ := strings.Cut(key, "/")
		c.judge(word, rule.Table, together[key])
	}
}

// words are the classes that a part brings to a mixture by a rule: those it has, and those
// for which it has a limit of its own.
func (p *Part) words(rule lab.AloneRule) []string {
	var out []string
	add := func(word string) {
		if rule.Gives != "" {
			word = rule.Gives + kind(word, rule.Of)
		}
		if !slices.Contains(out, word) {
			out = append(out, word)
		}
	}
	for _, w := range p.Classes {
		if is(w, rule.Of) {
			add(w)
		}
	}
	if rule.Gives == "" {
		for _, class := range sorted(p.Limits) {
			if is(class, rule.Of) && !slices.ContainsFunc(out, func(w string) bool { return is(w, []string{class}) }) {
				add(class)
			}
		}
	}
	return out
}

func sorted(limits map[string]lab.Said[unit.WW]) []string {
	out := make([]string, 0, len(limits))
	for k := range limits {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// hardest keeps of each list of classes the hardest that was found. What is sure of a
// milder one stays sure of the harder only if that is sure itself.
func (c *classifier) hardest() {
	for _, ladder := range c.scheme.Hardest {
		top := map[string]int{} // by the organs, or one for all
		of := func(f Finding) string {
			if ladder.Organs {
				return kind(f.Class, ladder.Classes)
			}
			return ""
		}
		for _, f := range c.out.Found {
			if i := rung(ladder, f.Class); i >= 0 {
				if have, ok := top[of(f)]; !ok || i < have {
					top[of(f)] = i
				}
			}
		}
		if len(top) == 0 {
			continue
		}
		var kept []Finding
		for _, f := range c.out.Found {
			i := rung(ladder, f.Class)
			if i > top[of(f)] {
				continue
			}
			if i >= 0 {
				if n := slices.IndexFunc(kept, func(k Finding) bool { return k.Class == f.Class }); n >= 0 {
					kept[n] = merged(kept[n], f)
					continue
				}
			}
			kept = append(kept, f)
		}
		c.out.Found = kept
	}
	var once []Finding
	for _, f := range c.out.Found {
		if n := slices.IndexFunc(once, func(k Finding) bool { return k.Class == f.Class }); n >= 0 {
			once[n] = merged(once[n], f)
			continue
		}
		once = append(once, f)
	}
	c.out.Found = once
}

// merged is a class that two rules found.
func merged(a, b Finding) Finding {
	for _, by := range b.By {
		if !slices.ContainsFunc(a.By, func(have Counted) bool { return have.Part == by.Part }) {
			a.By = append(slices.Clone(a.By), by)
		}
	}
	a.Sure = a.Sure || b.Sure
	if a.Estimate == nil {
		a.Estimate = b.Estimate
	}
	a.PH = a.PH || b.PH
	return a
}

func rung(ladder lab.Ladder, word string) int {
	for i, class := range ladder.Classes {
		if word == class || strings.HasPrefix(word, class+" (") && !slices.Contains(ladder.Classes, word) {
			return i
		}
	}
	return -1
}

// follows adds the class that comes with another.
func (c *classifier) follows(rule lab.FollowRule) {
	for _, f := range c.out.Found {
		if is(f.Class, rule.Of) {
			f.Class, f.Table = rule.Gives, rule.Table
			c.find(f)
			return
		}
	}
}

// near leaves out what is near to a class that the mixture has, or to a milder one.
func (c *classifier) near() {
	c.out.Near = slices.DeleteFunc(c.out.Near, func(n Near) bool {
		for _, f := range c.out.Found {
			if f.Class == n.Class {
				return true
			}
			for _, ladder := range c.scheme.Hardest {
				have, want := rung(ladder, f.Class), rung(ladder, n.Class)
				if have >= 0 && want >= 0 && have <= want {
					return true
				}
			}
		}
		return false
	})
	var out []Near // of one list of classes only the hardest
	for _, n := range c.out.Near {
		milder := slices.ContainsFunc(c.out.Near, func(o Near) bool {
			for _, ladder := range c.scheme.Hardest {
				if a, b := rung(ladder, o.Class), rung(ladder, n.Class); a >= 0 && b >= 0 && a < b {
					return true
				}
			}
			return false
		})
		if !milder {
			out = append(out, n)
		}
	}
	c.out.Near = out
}
