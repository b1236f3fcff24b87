package cards

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/waste"
)

// disposeCards makes one sheet for every waste route. Recipes for treating
// waste are never printed: treating it may itself need a permit.
func disposeCards(c *Context) []page.Page {
	var out []page.Page
	for _, w := range c.Lab.Wastes {
		out = append(out, c.disposeCard(w))
	}
	return out
}

func (c *Context) disposeCard(w *lab.Waste) page.Page {
	p := page.Page{ID: "dispose/" + w.ID, Kind: "dispose", KindLine: "Where it goes", Title: capital(w.Name), Was: wasIDs("dispose/", w.Was)}
	baths := waste.Baths(c.Lab, w.ID)
	route := waste.OfRoute(c.Mix, w, baths)
	p.Lead = page.Say(page.N(capital(routeWords(route))))
	// Onto what is in a drum already everything else is poured. One card a drum, on
	// its own route's page, names all that goes in and says what every route does.
	together := []*lab.Waste{w}
	inDrum := baths
	card := w
	if w.Drum != "" {
		together, inDrum, card = nil, nil, nil
		for _, other := range c.Lab.Wastes {
			if other.Drum != w.Drum {
				continue
			}
			if card == nil || other.ID == w.Drum {
				card = other
			}
			together = append(together, other)
			inDrum = append(inDrum, waste.Baths(c.Lab, other.ID)...)
		}
		if card == w {
			baths = inDrum
			var names []string
			for _, other := range together {
				names = append(names, other.Name)
			}
			p.Title, p.Lead = "Drum for "+route.Drum, page.Say(page.N(capital(strings.Join(names, "; "))))
		} else {
			together = []*lab.Waste{w}
		}
	}
	if len(inDrum) > 0 {
		p.Before = beforeJob(hazard.Away, c.knownOf(inDrum))
	}
	ready := page.Checklist{Label: page.Say(page.W("before you pour")), Items: []page.Text{
		page.Say(page.W("read the drum’s label aloud")), page.Say(page.W("one bath at a time, slowly")), page.Say(page.W("enter it in the tally")),
	}}
	caption := page.Say(page.S("What goes here"))
	if route.Drain != "" {
		ready = page.Checklist{Label: page.Say(page.W("before you pour")), Items: []page.Text{
			page.Say(page.W("read the permit: it names what may go, and how much")), page.Say(page.W("one bath at a time, slowly")), page.Say(page.W("enter it in the book")),
		}}
	}
	if route.Ask() {
		caption = page.Say(page.S("What this is about"))
		ready = page.Checklist{Label: page.Say(page.W("until somebody has said where")), Items: []page.Text{
			page.Say(page.W("ask")), page.Say(page.W("keep it alone, its name and the day on it")), page.Say(page.W("pour it nowhere")),
		}}
	}
	p.Before = append(p.Before, ready)

	var kept []lab.Bath
	if route.Drain != "" {
		kept = slices.Clone(baths)
		kept = slices.DeleteFunc(kept, func(b lab.Bath) bool { return !waste.Concentrate(c.Lab, b) })
		baths = slices.DeleteFunc(slices.Clone(baths), func(b lab.Bath) bool { return waste.Concentrate(c.Lab, b) })
	}
	t := page.Table{ID: "what", Caption: caption, Head: []page.Text{page.Say(page.W("bath")), page.Say(page.W("strengths"))}}
	for i := 0; i < len(baths); {
		k := i
		for k < len(baths) && baths[k].Def().ID == baths[i].Def().ID {
			k++
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.L("mix/"+baths[i].Def().ID, capital(baths[i].Name())))}, {Text: page.Say(page.N(names(baths[i:k])))}}})
		i = k
	}
	if len(t.Rows) > 0 {
		p.Do = append(p.Do, t)
	}
	if len(kept) > 0 {
		l := page.List{Label: page.Say(page.W("not down the drain: the permit speaks of what was worked in"))}
		for _, b := range kept {
			l.Items = append(l.Items, append(c.bathName(b), page.W(": "), page.Inline{Kind: page.Ask, Text: "first"}))
		}
		p.Do = append(p.Do, l)
	}
	facts := page.List{}
	for _, r := range together {
		of := ""
		if len(together) > 1 {
			of = ", " + r.Name
		}
		for _, f := range []struct{ label, words, key string }{{"Collect also", r.Collect, "collect"}, {"Carries", r.Carries, "carries"}, {"Number in the list of wastes", r.Code, "code"}} {
			if f.words == "" {
				continue
			}
			line := page.Say(page.S(f.label), page.W(of+": "), page.N(f.words))
			if by, _ := c.Lab.OriginOf(r.Def, f.key); by.Weak() {
				line = append(line, page.W(" ("+by.String()+")"))
			}
			facts.Items = append(facts.Items, line)
		}
		if len(together) > 1 && r.Why != "" {
			facts.Items = append(facts.Items, page.Say(page.S(capital(r.Name)), page.W(": "), page.N(r.Why)))
		}
	}
	if len(facts.Items) > 0 {
		p.Do = append(p.Do, facts)
	}
	if card != w {
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("All that goes into this drum: "), page.L("dispose/"+card.ID, "Drum for "+route.Drum))})
	}
	if len(p.Do) == 0 {
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("No bath of this binder names this route."))})
	}

	never := c.neverLines(waste.NeverWith(c.Mix, w))
	if w.Drum != "" {
		never = c.neverLines(waste.NeverIn(c.Mix, w.Drum))
	}
	lines := page.List{Lines: true}
	enter := func(n string) { lines.Items = append(lines.Items, page.Say(page.S("Never "), page.N(n))) }
	if route.Ask() { // what nobody has said goes nowhere
		for _, general := range []string{"pour it down a drain", "pour it into a drum of this room"} {
			if !slices.ContainsFunc(never, func(n string) bool { return strings.HasPrefix(n, general) }) {
				enter(general)
			}
		}
	}
	for i, n := range never {
		if !slices.Contains(never[:i], n) {
			enter(n)
		}
	}
	enter("pour one waste onto another to put it right")
	p.Never = []page.Block{lines}

	if w.Why != "" && len(together) == 1 {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(w.Why))})
	}
	drain, treat := waste.PermitOf(c.Lab, "drain"), waste.PermitOf(c.Lab, "treat")
	down := drain.Why("drain")
	if drain.Ref != "" && route.Drain == "" {
		down = "not this: the permit " + drain.Ref + " is for other routes"
	}
	p.Why = append(p.Why, page.List{Label: page.Say(page.W("permits")), Items: []page.Text{
		page.Say(page.S("Drain"), page.W(": "), page.N(down)),
		page.Say(page.S("Treating waste"), page.W(": "), page.N(treat.Why("treat")), page.W("; no recipe for it stands in this binder")),
	}}, page.Para{Text: page.Say(page.W("What never meets: "), page.L("board/never-together", "never together"), page.W("."))})

	var holes []page.Hole
	if route.Ask() {
		holes = append(holes, page.Hole{What: "its drum", Until: "to a drum: ask first", Key: "drum in " + w.File})
	}
	if drain.Ref == "" && !drain.Refused {
		holes = append(holes, page.Hole{What: "what may go down the drain", Until: "nothing does", Key: "drain under [permit] in local.toml"})
	}
	if treat.Ref == "" && !treat.Refused {
		holes = append(holes, page.Hole{What: "whether waste may be treated here", Until: "nothing is treated", Key: "treat under [permit] in local.toml"})
	}
	for _, r := range together {
		if r.Code == "" {
			holes = append(holes, page.Hole{What: "the number of " + r.Name + " in the list of wastes", Until: "ask the collector", Key: "code in " + r.File})
		}
	}
	holes = append(holes, unsaidHoles(c.Mix.Rules.Unsaid(inDrum...))...)
	p.Foot = c.foot(w.Def, holes)
	c.wasteVerdicts(w, route, drain)
	if card == w {
		c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "dispose-" + w.ID, Faces: c.wideFaces("a4")})
	}
	return p
}

// wasteVerdicts enters where a route leads and, where it may not go down a
// drain, the refusal.
func (c *Context) wasteVerdicts(w *lab.Waste, route waste.Route, drain waste.Permit) {
	v := figure.Verdict{ID: "dispose." + w.ID + "/route", Answer: routeWords(route), Because: []string{drain.Why("drain")}, Source: "common practice, no source: without a written permit everything goes to a drum"}
	if w.Drum != "" {
		v.Because = append(v.Because, "its drum is written: drum in "+w.File)
	}
	if w.Why != "" {
		v.Because = append(v.Because, w.Why)
	}
	for _, n := range route.Not {
		v.Limits = append(v.Limits, notDrum(n))
	}
	c.Book.EnterVerdict(v)
	if route.Drain != "" {
		return
	}
	no := figure.Verdict{ID: "dispose." + w.ID + "/drain", Answer: "no", Because: []string{drain.Why("drain")}, Source: v.Source}
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
	c.Book.EnterVerdict(no)
}

// gateVerdicts enters every step of a process that must not be shortened.
func (c *Context) gateVerdicts() {
	for _, p := range c.Lab.Processes {
		for _, s := range p.Steps {
			if s.Gate == "" {
				continue
			}
			v := figure.Verdict{ID: p.ID + "/gate." + s.ID, Answer: "do not shorten", Because: []string{s.Gate}, Source: p.File}
			if s.Before != "" {
				v.Limits = []string{"before " + s.Before}
			}
			c.Book.EnterVerdict(v)
		}
	}
}

// apartBoard is the board of what never meets.
func apartBoard(c *Context) []page.Page {
	c.gateVerdicts()
	p := page.Page{ID: "board/never-together", Kind: "board", KindLine: "At the drums, at the shelf, at the sink", Title: "Never together"}
	t := page.Table{ID: "pairs", Head: []page.Text{page.Say(page.W("this")), page.Say(page.W("never meets")), page.Say(page.W("or else"))}, Caption: page.Say(page.S("Pairs that never meet"), page.W(", in a jug, in a drum, on a shelf"))}
	r := c.Mix.Rules
	sources := page.List{Label: page.Say(page.W("who says so; a pair that is not named here is our own rule, from memory")), Lines: true}
	for _, a := range r.Pairs {
		if !r.Here(a.These) || a.Never == "" && !r.Here(a.Those) {
			continue
		}
		other := page.Say(page.S(r.Such(a.Those)))
		if a.Never != "" {
			other = page.Say(page.W("never "), page.S(a.Never))
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.S(capital(r.Such(a.These))))}, {Text: other}, {Text: page.Say(page.N(capital(a.Reason())))}}})
		if a.Source != "" {
			sources.Items = append(sources.Items, page.Say(page.N(capital(r.Side(a.These))), page.W(" and "), page.N(r.Side(a.Those)+a.Never), page.W(": "), page.N(a.Source)))
		}
	}
	if len(t.Rows) > 0 {
		p.Do = append(p.Do, t)
	} else {
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("Nobody has written a pair. Silence is not safety: ask first."))})
	}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Read both labels before you pour."), page.W(" A smell of gas: everybody out, the door shut, call for help."))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("pour two wastes into one drum that is not for both")), page.Say(page.W("rinse one with the other")), page.Say(page.W("keep household bleach in this room"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("The list is not whole: what does not stand here is not allowed by that. The supplier’s sheets go first."))}}
	if len(sources.Items) > 0 {
		p.Why = append(p.Why, sources)
	}
	p.Foot = c.foot(c.Lab.Place.Def, nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "never-together", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}
