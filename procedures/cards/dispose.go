package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// disposeCards makes one sheet for every waste route. Recipes for treating waste stand there under a
// recorded permit alone.
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
	p := page.Page{ID: "dispose/" + w.ID, Kind: "dispose", KindLine: "Where it goes", Title: capital(w.Name),
		Was: wasIDs("dispose/", w.Was)}
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
	p.Before = append(p.Before, beforePouring(r))

	p.Tables = c.pouredTable(baths)
	if r.Drum != nil && whole {
		p.Tables = append(p.Tables, c.drumHolds(r.Drum)...)
	}

	var kept, over []*work.Bath
	if r.Goes.Drain != "" {
		pick := func(keep func(b *work.Bath) bool) []*work.Bath {
			return slices.DeleteFunc(slices.Clone(r.Baths), func(b *work.Bath) bool { return !keep(b) })
		}
		kept = pick(func(b *work.Bath) bool { return b.Concentrate })
		over = pick(func(b *work.Bath) bool { return len(b.Goes.Over) > 0 })
		baths = pick(func(b *work.Bath) bool { return !b.Concentrate && len(b.Goes.Over) == 0 })
	}
	if len(baths) > 0 {
		heading := "What goes in"
		switch {
		case r.Goes.Ask():
			heading = "Which baths this is about"
		case r.Goes.Drum == "":
			heading = "What goes here"
		}
		p.Do = append(p.Do, page.Heading{ID: "what", Text: page.Say(page.W(heading))},
			page.Ways{Caption: page.Say(page.W(heading)), Rows: wayRows(page.Way{Names: c.bathNames(baths, true)})})
	}
	if len(kept) > 0 {
		l := page.List{Label: page.Say(page.W("not down the drain: the permit covers only baths that have been used"))}
		for _, b := range kept {
			l.Items = append(l.Items, append(c.bathName(b.Bath), page.W(": "),
				page.Inline{Kind: page.Ask, Text: "first"}))
		}
		p.Do = append(p.Do, l)
	}
	if len(over) > 0 {
		l := page.List{Label: page.Say(page.W("not down the drain: a limit of the permit is not met, or nobody can tell"))}
		for _, b := range over {
			l.Items = append(l.Items, append(c.bathName(b.Bath), page.W(": "), page.N(b.Goes.Words())))
		}
		p.Do = append(p.Do, l)
	}
	p.Do = append(p.Do, c.permitTable(r)...)
	if facts := routeFacts(together); len(facts.Items) > 0 {
		p.Do = append(p.Do, facts)
	}
	if r.Drum != nil && whole {
		p.Do = append(p.Do, heldShort(r.Drum)...)
	}
	if !whole {
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("All that goes into this drum: "),
			page.L("dispose/"+r.Drum.Card.Decl.ID, "Drum for "+r.Goes.Drum))})
	}
	if len(p.Do) == 0 {
		p.Do = append(p.Do, page.Para{Text: page.Say(page.W("No bath in this binder goes this way."))})
	}
	drain, wash, treat := c.W.Permit("drain"), c.W.Permit("wash"), c.W.Permit("treat")
	recipes := c.treatBlocks(r.Baths, treat)
	p.Do = append(p.Do, recipes...)
	p.Never = routeNevers(r)
	if w.Why != "" && len(together) == 1 {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(w.Why))})
	}
	if r.Drum != nil && whole && r.Drum.Month != nil {
		p.Why = append(p.Why, page.Para{Text: append(monthLine(r.Drum.Month), page.W(" What is counted: "),
			page.L("board/drums", "how fast the drums fill"), page.W("."))})
	}
	treating := page.Say(page.S("Treating waste"), page.W(": "), page.N(treat.Why("treat")))
	if len(recipes) == 0 {
		treating = append(treating, page.W("; this binder has no recipe for it"))
	}
	down := drain.Why("drain")
	switch {
	case len(r.Goes.Over) > 0:
		down = "this does not go down: a limit of the permit " + drain.Ref + " is not met, or nobody can tell"
	case drain.Ref != "" && r.Goes.Drain == "":
		down = "this does not go down: the permit " + drain.Ref + " is for other routes"
	}
	p.Why = append(p.Why, page.List{Label: page.Say(page.W("permits")), Items: []page.Text{
		page.Say(page.S("Drain"), page.W(": "), page.N(down)),
		page.Say(page.S("Water of the washes"), page.W(": "), page.N(wash.Why("wash"))),
		treating,
	}}, page.Para{Text: page.Say(page.W("What never meets: "), page.L("board/never-together", "never together"),
		page.W("."))})
	p.Foot = c.foot(w.Def, routeHoles(r, together, inDrum, drain, treat))
	p.Verdicts = slices.Clone(r.Verdicts)
	for _, b := range r.Baths {
		for _, a := range b.Allowed {
			p.Verdicts = append(p.Verdicts, a.Verdict(c.W.Local.File))
		}
	}
	if whole {
		c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "dispose-" + w.ID,
			Faces: c.wideFaces("a4")})
	}
	return p
}

// beforePouring is what is so before something goes its way.
func beforePouring(r *work.Route) page.Checklist {
	switch g := r.Goes; {
	case g.Ask():
		return page.Checklist{Label: page.Say(page.W("until somebody has said where")), Items: []page.Text{
			page.Say(page.W("ask")),
			page.Say(page.W("keep it in a container of its own, with its name and the day on it")),
			page.Say(page.W("do not pour it away")),
		}}
	case g.Drain != "":
		list := page.Checklist{Label: page.Say(page.W("before you pour")), Items: []page.Text{
			page.Say(page.W("read the permit: it says what may go down, and how much")),
		}}
		if test := testPH(r); len(test) > 0 {
			list.Items = append(list.Items, test)
		}
		list.Items = append(list.Items, page.Say(page.W("pour one bath at a time, slowly")),
			page.Say(page.W("write it in the book")))
		return list
	}
	return page.Checklist{Label: page.Say(page.W("before you pour")), Items: []page.Text{
		page.Say(page.W("read the drum’s label aloud")), page.Say(page.W("pour one bath at a time, slowly")),
		page.Say(page.W("note it in the drum log")),
	}}
}

// bathNames names baths, each solution or product once. Strengths stand behind it, on a
// sheet all of them, else only where not all are meant.
func (c *Context) bathNames(baths []*work.Bath, all bool) []page.DiscName {
	var out []page.DiscName
	for _, s := range c.W.Subjects {
		var mine []*work.Bath
		for _, b := range s.Strengths {
			if slices.Contains(baths, b) {
				mine = append(mine, b)
			}
		}
		if len(mine) == 0 {
			continue
		}
		name := page.DiscName{Role: roleOf(s.Role), Text: page.Say(page.L("mix/"+s.Def.ID, capital(s.Name)))}
		if all || len(mine) < len(s.Strengths) {
			name.Sub = page.Say(page.N(names(mine)))
		}
		out = append(out, name)
	}
	return out
}

// routeFacts is what routes say of themselves.
func routeFacts(together []*work.Route) page.List {
	var facts page.List
	for _, r := range together {
		of, d := "", r.Decl
		if len(together) > 1 {
			of = ", " + d.Name
		}
		for _, f := range []struct{ label, words, key string }{{"Collect also", d.Collect, "collect"},
			{"Carries", d.Carries, "carries"}, {"Waste code", d.Code, "code"}} {
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

// routeNevers are the lines of a route, or of its drum: the foremost large, a line each,
// and the rest small behind them.
func routeNevers(r *work.Route) []page.Block {
	never := neverLines(r.Never)
	if r.Drum != nil {
		never = neverLines(r.Drum.Never)
	}
	var lines []page.Text
	if r.Goes.Ask() { // what nobody has said goes nowhere
		for _, general := range []string{"pour it down a drain", "pour it into a drum of this room"} {
			if !slices.ContainsFunc(never, func(n neverLine) bool { return strings.HasPrefix(n.deed, general) }) {
				lines = append(lines, page.Say(page.N(general)))
			}
		}
	}
	for _, n := range never {
		lines = append(lines, n.text())
	}
	lines = append(lines, page.Say(page.N("try to neutralise one waste with another")))
	large, small := page.List{Lines: true, Large: true}, page.List{Small: true}
	for i, line := range lines {
		if i < foremost {
			large.Items = append(large.Items, line)
		} else {
			small.Items = append(small.Items, line)
		}
	}
	if len(small.Items) == 0 {
		return []page.Block{large}
	}
	return []page.Block{large, small}
}

func routeHoles(r *work.Route, together []*work.Route, inDrum []*work.Bath, drain, treat work.Permit) []page.Hole {
	var holes []page.Hole
	if r.Goes.Ask() {
		holes = append(holes, page.Hole{What: "which drum it goes into", Until: "pour it into none, ask first",
			Key: "drum in " + r.Decl.File})
	}
	holes = append(holes, permitHoles(r)...)
	if drain.Ref == "" && !drain.Refused {
		holes = append(holes, page.Hole{What: "what may go down the drain", Until: "nothing does",
			Key: "drain under [permit] in local.toml"})
	}
	if treat.Ref == "" && !treat.Refused {
		holes = append(holes, page.Hole{What: "whether waste may be treated here", Until: "nothing is treated",
			Key: "treat under [permit] in local.toml"})
	}
	for _, other := range together {
		if other.Decl.Code == "" {
			holes = append(holes, page.Hole{What: "the waste code of " + other.Decl.Name, Until: "ask the collector",
				Key: "code in " + other.Decl.File})
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

// wayRows are the rows of one way: where many baths go the same, each row names so many of them
// that it has room on a sheet, and says where to again.
func wayRows(way page.Way) (out []page.Way) {
	for some := range slices.Chunk(way.Names, mostNames) {
		row := way
		row.Names = some
		out = append(out, row)
	}
	return out
}

// mostNames is how many baths a row names at most: a row is not cut between two sheets.
const mostNames = 24

// wasteBoard is the overview of what goes where: every bath once, and where nobody has
// said it, that it goes nowhere.
func wasteBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/waste", Kind: "board", KindLine: "Hang this above the drums", Title: "Where it goes"}
	p.Before = []page.Block{page.Checklist{Items: []page.Text{
		page.Say(page.S("read both labels before you pour")), page.Say(page.W("one bath at a time, slowly")),
		page.Say(page.W("note litres and day on the drum")),
		page.Say(page.W("a smell, a cough: go out, shut the door, call")),
	}}}
	w := page.Ways{ID: "ways", Caption: page.Say(page.W("Where every bath goes"))}
	of := func(same func(work.Going) bool) []*work.Bath {
		var out []*work.Bath
		for _, b := range c.W.Baths {
			if same(b.Goes) {
				out = append(out, b)
			}
		}
		return out
	}
	for _, d := range c.W.Drums {
		baths := of(func(g work.Going) bool { return g.Drum == d.Name })
		if len(baths) == 0 {
			continue
		}
		w.Rows = append(w.Rows, wayRows(page.Way{Names: c.bathNames(baths, false),
			Over: page.Say(page.W("into the drum for")), To: page.Say(page.L("dispose/"+d.Card.Decl.ID, d.Name)),
			Under: underDrum(d)})...)
	}
	if down := of(func(g work.Going) bool { return g.Drain != "" }); len(down) > 0 {
		w.Rows = append(w.Rows, wayRows(page.Way{Names: c.bathNames(down, false), To: page.Say(page.W("the foul drain")),
			Under: []page.Text{page.Say(page.W("permit "), page.N(c.W.Permit("drain").Ref),
				page.W(": read what it allows, and how much"))}})...)
	}
	if ask := of(work.Going.Ask); len(ask) > 0 {
		w.Rows = append(w.Rows, wayRows(page.Way{Names: c.bathNames(ask, false), No: true,
			To: page.Say(page.W("pour it nowhere: ask first")), Under: []page.Text{
				page.Say(page.W("In a drum of this room it may give off poison gas. Keep it apart, under a loose lid, with its name and the day on it.")),
			}})...)
	}
	if len(w.Rows) > 0 {
		p.Do = []page.Block{w}
	} else {
		p.Do = []page.Block{page.Para{Text: page.Say(page.W("No bath is written down. Pour nothing away: ask first."))}}
	}
	drain := c.W.Permit("drain")
	first := "pour anything down a drain: nobody has written down a permit"
	switch {
	case drain.Ref != "":
		first = "pour anything else down a drain"
	case drain.Refused:
		first = "pour anything down a drain: a permit was asked for and refused"
	}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.N(first)),
		page.Say(page.W("rinse out one waste with another")), page.Say(page.W("fill a drum above its line"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("What never meets in a drum: "),
		page.L("board/never-together", "never together"),
		page.W(". The sheet of each drum says what must never get into it."))}}
	var holes []page.Hole
	if drain.Ref == "" && !drain.Refused {
		holes = append(holes, page.Hole{What: "what may go down the drain", Until: "nothing does",
			Key: "drain under [permit] in local.toml"})
	}
	p.Foot = c.foot(c.W.Place.Def, holes)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "waste", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}

// underDrum is what stands below the name of a drum: up to where it is filled, what the lab
// says of it, and what must never get into it first of all.
func underDrum(d *work.Drum) []page.Text {
	var out []page.Text
	var line page.Text
	switch {
	case d.Full != nil:
		line = page.Say(page.W("full at "), page.F(d.Full))
		if d.Decl.Note != "" {
			line = append(line, page.W(", "), page.N(d.Decl.Note))
		}
	case !d.Here:
		line = page.Say(page.Inline{Kind: page.Ask, Text: "first"},
			page.W(" no such drum is written down in this room"))
	}
	if len(line) > 0 {
		out = append(out, line)
	}
	if line := monthLine(d.Month); len(line) > 0 {
		out = append(out, line)
	}
	if lines := neverLines(d.Never); len(lines) > 0 {
		var first []string
		for _, n := range lines[:min(len(lines), 2)] {
			first = append(first, n.brief)
		}
		out = append(out, page.Say(page.S("Never "), page.N(strings.Join(first, "; never "))))
	}
	return out
}
