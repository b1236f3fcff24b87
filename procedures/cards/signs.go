package cards

import (
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// signCards makes what is read from afar: the letters of the trays, the tag for
// a bottle that nobody may use, the edges of the shelves.
func signCards(c *Context) []page.Page {
	return append(append(c.trays(), c.doNotUse()), c.shelves()...)
}

// trays makes one sheet for each place that any print passes through.
func (c *Context) trays() []page.Page {
	var out []page.Page
	for _, t := range c.W.Trays {
		out = append(out, c.trayCard(t))
	}
	return out
}

func (c *Context) trayCard(t *work.Tray) page.Page {
	role := roleOf(t.Role)
	switch t.Use {
	case work.TrayWash:
		role = page.Wash
	case work.TrayHold:
		role = page.Holding
	}
	p := page.Page{ID: "label/tray-" + idWords(t.Letters), Kind: "label", KindLine: "Tray letters",
		Title: "Tray: " + t.Letters, Role: role}
	var under []page.Text
	if len(t.Baths) > 0 {
		p.Before = append([]page.Block{gearBlock(work.AtWork, t.Dangers)}, pregnant(work.AtWork, t.Dangers)...)
		for _, b := range t.Baths {
			under = append(under, c.bathName(b.Bath))
		}
	} else {
		p.Before = []page.Block{page.List{Items: []page.Text{
			page.Say(page.W("Water. Change it as the card of the process says."))}}}
	}
	p.Do = []page.Block{page.Sign{Form: "tray", Letters: t.Letters, Role: role, Under: under}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("take these tongs to another tray")),
		page.Say(page.W("put bare fingers in"))}}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	return p
}

// idWords makes letters into a part of an id.
func idWords(s string) string {
	id := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			return r
		}
		return '-'
	}, strings.ToLower(s))
	return strings.Join(strings.FieldsFunc(id, func(r rune) bool { return r == '-' }), "-")
}

// doNotUse is the tag for a bottle that nobody may use until somebody has
// looked.
func (c *Context) doNotUse() page.Page {
	blank := page.Inline{Kind: page.Blank}
	p := page.Page{ID: "label/do-not-use", Kind: "label", KindLine: "Tag", Title: "Do not use"}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{
		page.Say(page.S("Leave it where it is, closed. Ask first."))}}}
	p.Do = []page.Block{page.Sign{Form: "tag", Letters: "DO NOT USE", Blanks: []page.Text{
		page.Say(page.W("what "), blank), page.Say(page.W("why "), blank), page.Say(page.W("since "), blank),
		page.Say(page.W("by "), blank), page.Say(page.W("ask "), blank),
	}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("take this tag off unless you wrote it")),
		page.Say(page.W("pour it away without asking"))}}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	return p
}

// shelves makes an edge for the shelf of each group of chemicals in the house,
// with what never stands beside it.
func (c *Context) shelves() []page.Page {
	var out []page.Page
	for _, edge := range c.W.Shelves {
		p := page.Page{ID: "label/shelf-" + idWords(edge.Group), Kind: "label", KindLine: "Shelf edge",
			Title: capital(edge.Group)}
		var stands []string
		for _, x := range edge.Holds {
			stands = append(stands, x.Decl.Name)
		}
		p.Before = []page.Block{page.List{Items: []page.Text{page.Say(page.W("Here: "),
			page.N(strings.Join(stands, ", ")), page.W("."))}}}
		p.Do = []page.Block{page.Sign{Form: "shelf", Letters: capital(edge.Group)}}
		beside := page.List{}
		for _, m := range edge.Meets {
			if m.Never == "" {
				beside.Items = append(beside.Items, page.Say(page.W("beside "), page.N(m.With), page.W(": "),
					page.N(work.Reasons(m.Pairs))))
			}
		}
		if len(beside.Items) == 0 {
			beside.Items = append(beside.Items, page.Say(page.W("beside food, or above eye level")))
		}
		p.Never = []page.Block{beside}
		p.Foot = c.foot(c.W.Place.Def, nil)
		out = append(out, p)
	}
	return out
}

// labelSheet lays labels out on the lab's own label stock.
func labelSheet(c *Context) []page.Page {
	s := c.W.LabelSheet
	if s == nil {
		return nil
	}
	sheet := page.Sheet{Paper: s.Paper, Rows: s.Rows, Columns: s.Columns, Start: s.Start,
		Width: s.Width, Height: s.Height, PitchX: s.PitchX, PitchY: s.PitchY, Left: s.Left, Top: s.Top}
	for _, want := range s.Wanted {
		sheet.Labels = append(sheet.Labels, page.SheetLabel{Card: "label/" + want.Card, For: want.Bottle})
	}
	if len(s.Wanted) == 0 {
		for _, l := range c.Labels {
			sheet.Labels = append(sheet.Labels, page.SheetLabel{Card: "label/" + l.Name})
		}
	}
	p := page.Page{ID: "label/sheet", Kind: "label", KindLine: "Label sheet", Title: "A sheet of labels"}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{
		page.Say(page.S("Compare each label with its bottle before you glue it on."))}}}
	p.Do = []page.Block{sheet}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("print it at any other size"))}}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	return []page.Page{p}
}

// MadeLabel is a label that has a card, and the bottles that it is drawn for.
type MadeLabel struct {
	Name    string
	Bottles []string
}

// Made notes what a later kind of card may ask for: the labels, for a sheet.
func (c *Context) Made(pages []page.Page) {
	for _, p := range pages {
		for _, b := range p.Do {
			l, ok := b.(page.Label)
			if !ok || len(l.For) == 0 {
				continue
			}
			made := MadeLabel{Name: strings.TrimPrefix(p.ID, "label/")}
			for _, bottle := range l.For {
				made.Bottles = append(made.Bottles, bottle.Name)
			}
			c.Labels = append(c.Labels, made)
		}
	}
}
