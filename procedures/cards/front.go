package cards

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// Front makes the front page of a binder from all its other pages: what the day asks for,
// the processes, the groups with how much is in each, and what the lab has left open.
func Front(c *Context, pages []page.Page, labHoles []page.Hole) page.Page {
	place := c.W.Place
	p := page.Page{ID: "index", Kind: "front", KindLine: "Today", Title: c.W.Day.InWords()}
	name := place.Lab.Name
	if name == "" {
		name = "A darkroom without a name"
	}
	if c.W.Day.IsZero() {
		p.KindLine, p.Title = "Binder", name
	} else {
		p.Lead = page.Say(page.N(name))
	}
	if place.Lab.Place != "" {
		if len(p.Lead) > 0 {
			p.Lead = append(p.Lead, page.W(", "))
		}
		p.Lead = append(p.Lead, page.N(place.Lab.Place))
	}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Not past the curtain."),
		page.W(" A phone fogs film and paper."))}}}
	p.Today = append(append(c.counts(pages), c.mixFirst()...), overdueLinks(pages)...)
	p.Do = append(c.processLinks(), groupLinks(c, pages))
	if len(labHoles) > 0 {
		p.Why = append(p.Why, page.HolesList{Items: labHoles})
	}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("work alone with strong alkali, bleach or toner"))}}}
	return p
}

// counts say in one line each what is wrong today, and with what. A count of none says
// that somebody looked.
func (c *Context) counts(pages []page.Page) []page.Block {
	t := c.W.Today
	l := page.Links{Counts: true}
	count := func(n *figure.Record, title, card, anchor string, sub page.Text) {
		l.Entries = append(l.Entries, page.Entry{Card: card, Anchor: anchor, Title: title, Value: page.Say(page.F(n)),
			Sub: sub})
	}
	if t.Kept {
		count(t.DeadCount, "dead: do not use", "shelf/index", "dead", bottleNames(t.Dead, false))
		count(t.DyingCount, "end soon", "shelf/index", "dying", bottleNames(t.Dying, true))
		if len(t.Unsure) > 0 {
			count(t.UnsureCount, "nobody can judge: ask first", "shelf/index", "cannot-be-judged",
				bottleNames(t.Unsure, false))
		}
		count(t.MissingCount, "to mix first", "", "", missingNames(t.Missing))
	}
	if t.BuyCount != nil {
		count(t.BuyCount, "to buy now", "board/shopping", "", orderNames(t.Buy))
		if len(t.BuyUnsure) > 0 {
			count(t.BuyUnsureCount, "nobody can tell whether to buy: ask first", "board/shopping", "",
				orderNames(t.BuyUnsure))
		}
	}
	if s := c.W.Store; s != nil && s.Past != nil {
		count(s.Past, "past their best-before: ask first", "shelf/store", "", pastNames(s.Packs))
	}
	if t.DrumCount != nil {
		var names []page.Text
		for _, d := range t.Drums {
			names = append(names, page.Say(page.N(d.Name), page.W(", full by "), page.F(d.Month.By)))
		}
		count(t.DrumCount, unit.Plural(len(names), "drum")+" to have emptied: call the collector", "board/drums", "",
			page.InLine(names))
	}
	if entry, ok := c.overdue(pages); ok {
		l.Entries = append(l.Entries, entry)
	}
	if len(l.Entries) == 0 {
		return nil
	}
	return []page.Block{l}
}

// bottleNames name bottles, with the day they end on where they still may be used.
func bottleNames(list []*work.Bottle, until bool) page.Text {
	var names []page.Text
	for _, b := range list {
		t := page.Say(page.N(b.Bath.Name() + " " + b.ID))
		if until {
			t = append(t, page.W(", good through "), page.F(b.Dies))
		}
		names = append(names, t)
	}
	return page.InLine(names)
}

func missingNames(list []*work.Missing) page.Text {
	var names []page.Text
	for _, m := range list {
		names = append(names, page.Say(page.N(m.Bath.Name())))
	}
	return page.InLine(names)
}

func orderNames(list []work.Order) page.Text {
	var names []page.Text
	for _, o := range list {
		names = append(names, page.Say(page.N(o.Name)))
	}
	return page.InLine(names)
}

// pastNames name the packs past their best-before, each with its day.
func pastNames(packs []work.Stored) page.Text {
	var names []page.Text
	for _, p := range packs {
		if p.Past {
			names = append(names, page.Say(page.N(p.Name), page.W(", "), page.F(p.BestBefore)))
		}
	}
	return page.InLine(names)
}

// overdue is the count of what is past the day of its review, each file once; without a
// control nothing can be.
func (c *Context) overdue(pages []page.Page) (page.Entry, bool) {
	var files []string
	controlled := false
	for _, p := range pages {
		controlled = controlled || p.Foot.Review != ""
		if p.Foot.Overdue != "" && !slices.Contains(files, p.Foot.File) {
			files = append(files, p.Foot.File)
		}
	}
	n := c.W.CountOf("overdue", len(files), "files past the day of their review")
	return page.Entry{Title: "past the review date", Value: page.Say(page.F(n))}, controlled || len(files) > 0
}

// overdueLinks lists what is past the day of its review, one entry for each file.
func overdueLinks(pages []page.Page) []page.Block {
	l := page.Links{Label: page.Say(page.W("Past the review date: ask first"))}
	at := map[string]int{}
	for _, p := range pages {
		f := p.Foot
		if f.Overdue == "" {
			continue
		}
		if i, again := at[f.File]; again {
			l.Entries[i].Sub = page.Say(page.W("since "), page.N(f.Overdue), page.W("; its other cards too"))
			continue
		}
		at[f.File] = len(l.Entries)
		l.Entries = append(l.Entries, page.Entry{Card: p.ID, Title: p.Title,
			Sub: page.Say(page.W("since "), page.N(f.Overdue))})
	}
	if len(l.Entries) == 0 {
		return nil
	}
	return []page.Block{l}
}

// mixFirst lists what has to be mixed before the processes can go on.
func (c *Context) mixFirst() []page.Block {
	l := page.Links{Label: page.Say(page.W("Mix first: several processes need it, or its bottle is dead. " +
		"What else a process needs stands with that process"))}
	for _, m := range c.W.Today.Missing {
		sub := page.Say(page.N(m.Bath.Strength))
		if m.OnlyUsed {
			sub = append(sub, page.W("; only used bottles stand here"))
		}
		if m.Stand != nil {
			sub = append(sub, page.W("; stands "), page.F(m.Stand), page.W(" before use"))
		}
		var names []page.Text
		for _, p := range m.HoldsUp {
			names = append(names, page.Say(page.N(p.Decl.Name)))
		}
		sub = append(append(sub, page.W("; for ")), page.InLine(names)...)
		l.Entries = append(l.Entries, page.Entry{Card: "mix/" + m.Bath.Def().ID, Title: capital(m.Bath.Name()),
			Sub: sub})
	}
	if len(l.Entries) == 0 {
		return nil
	}
	return []page.Block{l}
}

// processLinks lists the processes with what each lacks today.
func (c *Context) processLinks() []page.Block {
	l := page.Links{Label: page.Say(page.W("Processes")), Prints: true}
	for _, p := range c.W.Processes {
		l.Entries = append(l.Entries, page.Entry{Card: "process/" + p.Decl.ID, Title: capital(p.Decl.Name),
			Sub: c.readiness(p)})
	}
	if len(l.Entries) == 0 {
		return nil
	}
	return []page.Block{l}
}

// readiness says in a line what a process lacks today; nothing where no bottles are kept.
func (c *Context) readiness(p *work.Process) page.Text {
	if !c.W.Today.Kept {
		return nil
	}
	var dead, missing []page.Text
	for _, l := range p.Lacks {
		name := page.Say(page.N(l.Bath.Name()))
		switch {
		case l.Kind == work.DeadBottle || l.Kind == work.SpentBottle:
			dead = append(dead, page.Say(page.N(l.Bottle.Bath.Name()+" "+l.Bottle.ID)))
		case l.Kind == work.MissingBath || l.Kind == work.OnlyUsed:
			missing = once(missing, name)
		default:
			missing = once(missing, append(name, page.W(" ("), page.Inline{Kind: page.Ask, Text: "first"},
				page.W(")")))
		}
	}
	switch {
	case len(missing) > 0 && len(dead) > 0:
		return append(append(append(page.Say(page.W("still to mix: ")), page.InLine(missing)...), page.W("; dead: ")),
			page.InLine(dead)...)
	case len(missing) > 0:
		return append(page.Say(page.W("still to mix: ")), page.InLine(missing)...)
	case len(dead) > 0:
		return append(page.Say(page.W("a bottle is dead: ")), page.InLine(dead)...)
	}
	return page.Say(page.W("all its baths stand here; whether it is enough says its card"))
}

// once adds a text that is not in the list yet: two strengths of one bath have one name.
func once(list []page.Text, t page.Text) []page.Text {
	if slices.ContainsFunc(list, func(o page.Text) bool { return sameText(o, t) }) {
		return list
	}
	return append(list, t)
}

// groupLinks lists the groups of the binder, with how many cards are in each.
func groupLinks(c *Context, pages []page.Page) page.Block {
	l := page.Links{Label: page.Say(page.W("The binder"))}
	for _, g := range Groups() {
		var in []page.Page
		for _, p := range pages {
			if strings.HasPrefix(p.ID, g.ID+"/") {
				in = append(in, p)
			}
		}
		if len(in) == 0 {
			continue
		}
		card := g.ID + "/index"
		if len(in) == 1 {
			card = in[0].ID
		}
		n := c.W.CountOf("cards."+g.ID, len(in), "cards in this group")
		l.Entries = append(l.Entries, page.Entry{Card: card, Title: g.Word, Value: page.Say(page.F(n)),
			Sub: page.Say(page.N(g.Sub))})
	}
	return l
}
