package work

import (
	"slices"

	"wetside/procedures/lab"
	"wetside/procedures/waste"
)

// Bath is one strength of a solution or of a product: what is known of its dangers, which
// processes use it, and where it goes when it is spent.
type Bath struct {
	lab.Bath
	// UsedIn are the processes that use it, and Bases what their materials are made on.
	UsedIn []*lab.Process
	Bases  []lab.Base
	// Dangers are those of everything in it, with what its processes say of it.
	Dangers Dangers
	// Near is what in it harms reproduction, against the limit of its class.
	Near []Against
	// Goes is where it goes when it is spent.
	Goes waste.Route
	// Allowed is what the limits of the permit for the drain say of it, where its route leads down one.
	Allowed []Allowed
	// Concentrate: others are diluted from it, and no process works in it.
	Concentrate bool
	// Thinned is the strength diluted from it that alone may go down a drain, or nil.
	Thinned *Bath
	// Ingredients are the baths that somebody adds when it is mixed here.
	Ingredients []*Bath
	// Unsaid names what in it nobody has said how it reacts.
	Unsaid []string
	// Capacity is how much it treats; nil where nobody has written that, or where
	// nothing that somebody has goes through it.
	Capacity *BathCapacity
	// Lives are how long it keeps in each state of its vessel that somebody has written.
	Lives []Life
	// Limits are those that end it, where a card spells them out: of what is diluted into
	// vessels, and of what no process uses.
	Limits []Limit
	// Cold is what in it may crystallise on the coldest shelf.
	Cold []Cold
	// Air is what air does to it in a bottle; nil where it stands in none, holds no sulfite, or
	// nobody knows what is in it.
	Air *Air
	// Acid is how acid it is.
	Acid Acid
	// Bleaching is, of a permanganate bleach, whether what fills each tank is enough for the silver of
	// the films in it.
	Bleaching []Bleaching
	// Silver is how much silver is in it when it goes one of the ways.
	Silver Silver
	// Lime is whether what binds lime in it is enough for that of the tap water; nil where nothing in it does,
	// where nobody works in it, or where nobody has written how hard the water is.
	Lime *Lime
	// Treatment is what makes a litre of it harmless; without steps where nothing here does.
	Treatment Treatment
	// Dilution is how it is diluted; nil: its steps make it, or it is bought.
	Dilution *Dilution
	// Label is what its bottle label says besides.
	Label Label

	handled map[Job]Known // what is handled besides it at a job
}

// Form is the state in which it is handled: powder, supplied, stock or working.
func (b *Bath) Form() string {
	switch {
	case b.Strength == lab.Supplied && b.Product != nil && b.Product.State.Solid():
		return "powder"
	case b.Strength == lab.Supplied && b.Product != nil:
		return "supplied"
	case b.Concentrate:
		return "stock"
	}
	return "working"
}

// FilmAndPaper reports a fixer that goes back into its bottle, and that this lab uses for film and
// for paper: what has fixed film holds more silver than paper may be fixed in (common practice, no
// source), so that each wants a bottle of its own.
func (b *Bath) FilmAndPaper() bool {
	d := b.Decl()
	if d == nil || b.Role() != lab.Fixer || d.Use != lab.ReUse && d.Use != lab.Replenish {
		return false
	}
	paper := slices.ContainsFunc(b.Bases, func(base lab.Base) bool { return base != lab.Film })
	return paper && slices.Contains(b.Bases, lab.Film)
}

// strengths is the stage that lists every strength.
func (w *Work) strengths() {
	for _, b := range w.lab.Baths() {
		x := &Bath{Bath: b, Concentrate: waste.Concentrate(w.lab, b), UsedIn: w.lab.Users(b)}
		for _, p := range x.UsedIn {
			if !slices.Contains(x.Bases, p.Base) {
				x.Bases = append(x.Bases, p.Base)
			}
		}
		w.Baths = append(w.Baths, x)
		w.byRef[b.Ref()] = x
	}
}

// ways is the stage of where every strength goes when it is spent.
func (w *Work) ways() {
	w.limits = waste.LimitsOf(w.mix, lab.Drain)
	for _, x := range w.Baths {
		x.Goes, x.Unsaid = waste.Of(w.mix, x.Bath), w.mix.Rules.Unsaid(x.Bath)
		if x.Goes.Drain != "" {
			x.Allowed = w.allowed(x)
			x.Goes = x.Goes.Within(w.mix, x.Allowed, x.Bath)
		}
	}
	for _, x := range w.Baths { // a permit for the drain speaks of what is worked in alone
		from, _, ok := x.From()
		if !ok || x.Goes.Drain == "" {
			continue
		}
		if of := w.byRef[from.Ref()]; of != nil && of.Concentrate && of.Thinned == nil {
			of.Thinned = x
		}
	}
}

// Subject is a solution or a product with all its strengths: what one sheet is about.
type Subject struct {
	Def       lab.Def
	Name      string
	Role      lab.Role
	Strengths []*Bath
	// Made: somebody mixes it here.
	Made bool
	// Dangers are those of all strengths together.
	Dangers Dangers
	// Packs is what is known of all that is weighed and poured to make it, as it comes.
	Packs Known
	// Powders: somebody weighs a powder to make it.
	Powders bool
	// Spill is what is done with a spill of it.
	Spill Spill
}

// Spill is what is done with a little of something that was spilt.
type Spill struct {
	// Known: somebody has looked up what is in it.
	Known bool
	// Small and Powder are what to do with a little of it, and of the powders in it;
	// empty where no rule says so.
	Small, Powder string
	// Never are the rules' own lines, Gas what must not come near, for the gas.
	Never []string
	Gas   []Meeting
	// Bagged: what was wiped up goes into a bag, as the permit for the drain speaks of
	// the spent bath alone.
	Bagged bool
}

// subjects is the stage that puts strengths together.
func (w *Work) subjects() {
	add := func(d lab.Def, name string, role lab.Role, made bool, strengths []*Bath) {
		s := &Subject{Def: d, Name: name, Role: role, Made: made, Strengths: strengths, Dangers: together(strengths)}
		s.Powders, s.Packs = w.powders(strengths[0].Solution), strengths[0].handled[Weigh]
		s.Spill = w.spill(s)
		for i, b := range strengths {
			jobs := b.Dangers.Jobs
			if !made || i > 0 { // nobody weighs what is bought, or diluted
				jobs = slices.DeleteFunc(slices.Clone(jobs), func(j JobGear) bool { return j.Job == Weigh })
			}
			w.protect(b, jobs)
		}
		w.Subjects = append(w.Subjects, s)
	}
	for _, s := range w.lab.Solutions {
		var strengths []*Bath
		for _, n := range s.StrengthNames() {
			strengths = append(strengths, w.byRef[lab.Bath{Solution: s, Strength: n}.Ref()])
		}
		add(s.Def, s.Name, s.Role, true, strengths)
	}
	for _, p := range w.lab.Products {
		var strengths []*Bath
		for _, n := range p.StrengthNames() {
			strengths = append(strengths, w.byRef[lab.Bath{Product: p, Strength: n}.Ref()])
		}
		add(p.Def, p.Name, p.Role, jobOf(p) == Weigh, strengths)
		w.Subjects[len(w.Subjects)-1].Powders = p.Comes(lab.Powder)
	}
}

// powders reports whether somebody weighs a powder to make a solution.
func (w *Work) powders(s *lab.Solution) bool {
	if s == nil {
		return false
	}
	var list []string
	for _, step := range s.Steps {
		if step.Amount.Mass.Given() || step.Parts.Given() {
			list = append(list, step.Add)
		}
	}
	if s.Dissolve != nil {
		list = append(list, s.Dissolve.Add)
	}
	for _, ref := range list {
		if ing, bad := w.lab.Resolve(ref, s.At("step")); len(bad) > 0 || !ing.Water &&
			(ing.Chemical == nil || !ing.Form.Content.Given()) {
			return true
		}
	}
	return false
}

// spill is what is done with a little of a solution or product.
func (w *Work) spill(s *Subject) Spill {
	out := w.spillOf(s.Dangers.Known)
	if route := w.lab.WasteRoute(s.Strengths[0].Bath.Waste()); route != nil {
		out.Bagged = route.Drain != ""
	}
	return out
}

// spillOf goes by kind of substance, and does nothing that a sulfite or fixer in it would
// answer with gas.
func (w *Work) spillOf(k Known) Spill {
	out := Spill{Known: k.Status != Unknown}
	list := w.mix.Rules.SpillsOf(k.Kinds)
	for i, r := range list {
		if i == 0 {
			out.Small = r.Small
			if r.Treated != "" && w.Permit("treat").Ref != "" {
				out.Small = r.Treated
			}
		}
		if out.Powder == "" {
			out.Powder = r.Powder
		}
		for _, n := range r.Never {
			if !slices.Contains(out.Never, n) {
				out.Never = append(out.Never, n)
			}
		}
	}
	out.Gas = w.meetings(w.mix.Rules.GasWith(k.Kinds))
	return out
}
