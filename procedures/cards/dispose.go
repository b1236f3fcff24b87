package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// disposeCards makes one sheet for every waste route. Recipes for treating
// waste are never printed: treating it may itself need a permit.
func disposeCards(c *Context) []page.Page {
	var out []page.Page
	for _, r := range c.W.Routes {
		out = append(out, c.disposeCard(r))
	}
	return out
}

// disposeCard is the sheet of one route. Onto what is in a drum already everything else is
// poured: one card a drum, on its own route's page, names all that goes in and says what
// every route does.
func (c *Context) disposeCard(r *work.Route) page.Page {
	w := r.Decl
	p := page.Page{ID: "dispose/" + w.ID, Kind: "dispose", KindLine: "Where it goes", Title: capital(w.Name), Was: wasIDs("dispose/", w.Was)}
	p.Lead = page.Say(page.N(capital(r.Goes.Words())))
	baths, inDrum, together, whole := r.Baths, r.Baths, []*work.Route{r}, true
	if d := r.Drum; d != nil {
		inDrum = d.Baths
		if whole = d.Card == r; whole {
			baths, together = inDrum, d.Routes
			var all []string
			for _, other := range together {
				all = append(all, other.Decl.Name)
			}
			p.Title, p.Lead = "Drum for "+r.Goes.Drum, page.Say(page.N(capital(strings.Join(all, "; "))))
		}
	}
	if len(inDrum) > 0 {
		p.Before = beforeJob(work.Away, work.Together(inDrum))
	}
	p.Before = append(p.Before, beforePouring(r.Goes))

	var kept []*work.Bath
	if r.Goes.Drain != "" {
		concentrate := func(b *work.Bath) bool { return b.Concentrate }
		kept = slices.DeleteFunc(slices.Clone(baths), func(b *work.Bath) bool { return !concentrate(b) })
		baths = slices.DeleteFunc(slices.Clone(baths), concentrate)
	}
	if t := routeBaths(r.Goes, baths); len(t.Rows) > 0 {
		p.Do = append(p.Do, t)
	}
	if len(kept) > 0 {
		l := page.List{Label: page.Say(page.W("not down the drain: the permit covers only baths that have been used"))}
		for _, b := range kept {
			l.Items = append(l.Items, append(c.bathName(b.Bath), page.W(": "), page.Inline{Kind: page.Ask, Text: "first"}))
		}
		p.Do = append(p.Do, l)
	}
	if facts := routeFacts(together); len(facts.Items) > 0 {
		p.Do = append(p.Do, facts)
	}
	if !whole {
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("All that goes into this drum: "), page.L("dispose/"+r.Drum.Card.Decl.ID, "Drum for "+r.Goes.Drum))})
	}
	if len(p.Do) == 0 {
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("No bath in this binder goes this way."))})
	}
	p.Never = []page.Block{routeNevers(r)}
	if w.Why != "" && len(together) == 1 {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(w.Why))})
	}
	drain, wash, treat := c.W.Permit("drain"), c.W.Permit("wash"), c.W.Permit("treat")
	down := drain.Why("drain")
	if drain.Ref != "" && r.Goes.Drain == "" {
		down = "this does not go down: the permit " + drain.Ref + " is for other routes"
	}
	p.Why = append(p.Why, page.List{Label: page.Say(page.W("permits")), Items: []page.Text{
		page.Say(page.S("Drain"), page.W(": "), page.N(down)),
		page.Say(page.S("Water of the washes"), page.W(": "), page.N(wash.Why("wash"))),
		page.Say(page.S("Treating waste"), page.W(": "), page.N(treat.Why("treat")), page.W("; this binder has no recipe for it")),
	}}, page.Para{Text: page.Say(page.W("What never meets: "), page.L("board/never-together", "never together"), page.W("."))})
	p.Foot = c.foot(w.Def, routeHoles(r, together, inDrum, drain, treat))
	p.Verdicts = r.Verdicts
	if whole {
		c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "dispose-" + w.ID, Faces: c.wideFaces("a4")})
	}
	return p
}

// beforePouring is what is so before something goes its way.
func beforePouring(g work.Going) page.Checklist {
	switch {
	case g.Ask():
		return page.Checklist{Label: page.Say(page.W("until somebody has said where")), Items: []page.Text{
			page.Say(page.W("ask")), page.Say(page.W("keep it in a container of its own, with its name and the day on it")), page.Say(page.W("do not pour it away")),
		}}
	case g.Drain != "":
		return page.Checklist{Label: page.Say(page.W("before you pour")), Items: []page.Text{
			page.Say(page.W("read the permit: it says what may go down, and how much")), page.Say(page.W("pour one bath at a time, slowly")), page.Say(page.W("write it in the book")),
		}}
	}
	return page.Checklist{Label: page.Say(page.W("before you pour")), Items: []page.Text{
		page.Say(page.W("read the drum’s label aloud")), page.Say(page.W("pour one bath at a time, slowly")), page.Say(page.W("note it in the drum log")),
	}}
}

// routeBaths lists the baths that go one way, each solution or product once.
func routeBaths(g work.Going, baths []*work.Bath) page.Table {
	t := page.Table{ID: "what", Caption: page.Say(page.S("What goes here")), Head: []page.Text{page.Say(page.W("bath")), page.Say(page.W("strengths"))}}
	if g.Ask() {
		t.Caption = page.Say(page.S("Which baths this is about"))
	}
	for i := 0; i < len(baths); {
		k := i
		for k < len(baths) && baths[k].Def().ID == baths[i].Def().ID {
			k++
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.L("mix/"+baths[i].Def().ID, capital(baths[i].Name())))}, {Text: page.Say(page.N(names(baths[i:k])))}}})
		i = k
	}
	return t
}

// routeFacts is what routes say of themselves.
func routeFacts(together []*work.Route) page.List {
	var facts page.List
	for _, r := range together {
		of, d := "", r.Decl
		if len(together) > 1 {
			of = ", " + d.Name
		}
		for _, f := range []struct{ label, words, key string }{{"Collect also", d.Collect, "collect"}, {"Carries", d.Carries, "carries"}, {"Waste code", d.Code, "code"}} {
			if f.words == "" {
				continue
			}
			line := page.Say(page.S(f.label), page.W(of+": "), page.N(f.words))
			if by := r.Weak[f.key]; by != "" {
				line = append(line, page.W(" ("+by+")"))
			}
			facts.Items = append(facts.Items, line)
		}
		if len(together) > 1 && d.Why != "" {
			facts.Items = append(facts.Items, page.Say(page.S(capital(d.Name)), page.W(": "), page.N(d.Why)))
		}
	}
	return facts
}

// routeNevers are the lines of a route, or of its drum.
func routeNevers(r *work.Route) page.List {
	never := neverLines(r.Never)
	if r.Drum != nil {
		never = neverLines(r.Drum.Never)
	}
	lines := page.List{Lines: true}
	enter := func(n string) { lines.Items = append(lines.Items, page.Say(page.N(n))) }
	if r.Goes.Ask() { // what nobody has said goes nowhere
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
	enter("try to neutralise one waste with another")
	return lines
}

func routeHoles(r *work.Route, together []*work.Route, inDrum []*work.Bath, drain, treat work.Permit) []page.Hole {
	var holes []page.Hole
	if r.Goes.Ask() {
		holes = append(holes, page.Hole{What: "which drum it goes into", Until: "pour it into none, ask first", Key: "drum in " + r.Decl.File})
	}
	if drain.Ref == "" && !drain.Refused {
		holes = append(holes, page.Hole{What: "what may go down the drain", Until: "nothing does", Key: "drain under [permit] in local.toml"})
	}
	if treat.Ref == "" && !treat.Refused {
		holes = append(holes, page.Hole{What: "whether waste may be treated here", Until: "nothing is treated", Key: "treat under [permit] in local.toml"})
	}
	for _, other := range together {
		if other.Decl.Code == "" {
			holes = append(holes, page.Hole{What: "the waste code of " + other.Decl.Name, Until: "ask the collector", Key: "code in " + other.Decl.File})
		}
	}
	var unsaid []string
	for _, b := range inDrum {
		for _, name := range b.Unsaid {
			if !slices.Contains(unsaid, name) {
				unsaid = append(unsaid, name)
			}
		}
	}
	slices.Sort(unsaid)
	return append(holes, unsaidHoles(unsaid)...)
}
