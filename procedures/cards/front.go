package cards

import (
	"sort"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// Front makes the front page of a binder from all its other pages: everything
// from A to Z, and what the whole lab has left open.
func Front(c *Context, pages []page.Page, labHoles []page.Hole) page.Page {
	place := c.W.Place
	p := page.Page{ID: "index", Kind: "front", KindLine: "Binder", Title: place.Lab.Name}
	if p.Title == "" {
		p.Title = "A darkroom without a name"
	}
	if place.Lab.Place != "" {
		p.Lead = page.Say(page.N(place.Lab.Place))
	}
	for _, g := range Groups() {
		l := page.Links{Label: page.Say(page.W(g.Word))}
		for _, other := range pages {
			if strings.HasPrefix(other.ID, g.ID+"/") {
				l.Entries = append(l.Entries, page.Entry{Card: other.ID, Title: other.Title, Sub: other.Lead})
			}
		}
		sort.SliceStable(l.Entries, func(i, j int) bool {
			return strings.ToLower(l.Entries[i].Title) < strings.ToLower(l.Entries[j].Title)
		})
		if len(l.Entries) > 0 {
			p.Do = append(p.Do, l)
		}
	}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Not past the curtain."),
		page.W(" A phone fogs film and paper."))}}}
	p.Today = append(c.deadLinks(), overdueLinks(pages)...)
	if len(labHoles) > 0 {
		p.Why = append(p.Why, page.HolesList{Items: labHoles})
	}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("work alone with strong alkali, bleach or toner"))}}}
	return p
}

// deadLinks lists the batches that nobody may use.
func (c *Context) deadLinks() []page.Block {
	l := page.Links{Label: page.Say(page.W("Dead: do not use"))}
	for _, b := range c.W.OnShelf.Bottles {
		if b.Answer != work.Dead {
			continue
		}
		title := capital(b.Bath.Name()) + ", " + b.Bath.Strength
		l.Entries = append(l.Entries, page.Entry{Card: "label/" + b.ID, Title: title,
			Sub: page.Say(page.W("batch "), page.N(b.ID))})
	}
	if len(l.Entries) == 0 {
		return nil
	}
	return []page.Block{l}
}

// overdueLinks lists what is past the day of its review, one entry for each file.
func overdueLinks(pages []page.Page) []page.Block {
	l := page.Links{Label: page.Say(page.W("Review overdue: ask first"))}
	at := map[string]int{}
	for _, p := range pages {
		f := p.Foot
		if f.Overdue == "" {
			continue
		}
		if i, again := at[f.File]; again {
			l.Entries[i].Sub = page.Say(page.W("since "), page.N(f.Overdue), page.W(", and every other card of "),
				page.N(f.File))
			continue
		}
		at[f.File] = len(l.Entries)
		l.Entries = append(l.Entries,
			page.Entry{Card: p.ID, Title: p.Title, Sub: page.Say(page.W("since "), page.N(f.Overdue))})
	}
	if len(l.Entries) == 0 {
		return nil
	}
	return []page.Block{l}
}
