package cards

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// signCards makes what is read from afar: the letters of the trays, the tag for
// a bottle that nobody may use, the edges of the shelves.
func signCards(c *Context) []page.Page {
	return append(append(c.trays(), c.doNotUse()), c.shelves()...)
}

// tray is one place in the row of trays.
type tray struct {
	letters string
	role    page.Role
	words   []page.Text
	baths   []*work.Bath
}

// letters are those of a role.
var letters = map[page.Role]string{
	page.Developer: "DEV", page.Stop: "STOP", page.Fixer: "FIX", page.Clearing: "CLEAR", page.Bleach: "BLEACH",
	page.Toner: "TONE", page.Wetting: "WET", page.Wash: "WASH", page.Holding: "HOLD",
}

// trays makes one sheet for each place that any print passes through.
func (c *Context) trays() []page.Page {
	var list []*tray
	at := map[string]*tray{}
	place := func(word string, role page.Role, words page.Text, b lab.Bath) {
		t := at[word]
		if t == nil {
			t = &tray{letters: word, role: role}
			at[word] = t
			list = append(list, t)
		}
		if !b.Zero() {
			if slices.Contains(t.baths, c.W.Bath(b.Ref())) {
				return
			}
			t.baths = append(t.baths, c.W.Bath(b.Ref()))
		}
		if len(words) > 0 {
			t.words = append(t.words, words)
		}
	}
	for _, p := range c.Lab.Processes {
		if p.Base == "film" {
			continue
		}
		for i, s := range p.Steps {
			switch {
			case s.Bath != "":
				b, bad := c.Lab.Bath(s.Bath, p.At(lab.StepKey(i)))
				if len(bad) > 0 || b.Zero() || b.Role() == "sensitiser" { // brushed on, in no tray
					continue
				}
				role := roleOf(b.Role())
				word, ok := letters[role]
				if !ok {
					word = strings.ToUpper(b.Name())
				}
				if s.Place > 0 {
					word += fmt.Sprintf(" %d", s.Place)
				}
				place(word, role, c.bathName(b), b)
			case len(s.Fills) > 0 || s.Flow.Given():
				place(letters[page.Wash], page.Wash, nil, lab.Bath{})
			case s.ID == "hold":
				place(letters[page.Holding], page.Holding, nil, lab.Bath{})
			}
		}
	}
	var out []page.Page
	for _, t := range list {
		out = append(out, c.trayCard(*t))
	}
	return out
}

func (c *Context) trayCard(t tray) page.Page {
	p := page.Page{ID: "label/tray-" + idWords(t.letters), Kind: "label", KindLine: "Tray letters", Title: "Tray: " + t.letters, Role: t.role}
	known := work.Together(t.baths)
	if len(t.baths) > 0 {
		p.Before = append([]page.Block{gearBlock(work.AtWork, known)}, pregnant(work.AtWork, known)...)
	} else {
		p.Before = []page.Block{page.List{Items: []page.Text{page.Say(page.W("Water. Change it as the card of the process says."))}}}
	}
	p.Do = []page.Block{page.Sign{Form: "tray", Letters: t.letters, Role: t.role, Under: t.words}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("take these tongs to another tray")), page.Say(page.W("put bare fingers in"))}}}
	p.Foot = c.foot(c.Lab.Place.Def, nil)
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
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Leave it where it is, closed. Ask first."))}}}
	p.Do = []page.Block{page.Sign{Form: "tag", Letters: "DO NOT USE", Blanks: []page.Text{
		page.Say(page.W("what "), blank), page.Say(page.W("why "), blank), page.Say(page.W("since "), blank), page.Say(page.W("by "), blank), page.Say(page.W("ask "), blank),
	}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("take this tag off unless you wrote it")), page.Say(page.W("pour it away unasked"))}}}
	p.Foot = c.foot(c.Lab.Place.Def, nil)
	return p
}

// shelves makes an edge for the shelf of each group of chemicals in the house,
// with what never stands beside it.
func (c *Context) shelves() []page.Page {
	var out []page.Page
	for _, edge := range c.W.Shelves {
		p := page.Page{ID: "label/shelf-" + idWords(edge.Group), Kind: "label", KindLine: "Shelf edge", Title: capital(edge.Group)}
		var stands []string
		for _, x := range edge.Holds {
			stands = append(stands, x.Decl.Name)
		}
		p.Before = []page.Block{page.List{Items: []page.Text{page.Say(page.W("Here: "), page.N(strings.Join(stands, ", ")), page.W("."))}}}
		p.Do = []page.Block{page.Sign{Form: "shelf", Letters: capital(edge.Group)}}
		beside := page.List{}
		for _, m := range edge.Meets {
			if m.Never == "" {
				beside.Items = append(beside.Items, page.Say(page.W("beside "), page.N(m.With), page.W(": "), page.N(reasons(m.Pairs))))
			}
		}
		if len(beside.Items) == 0 {
			beside.Items = append(beside.Items, page.Say(page.W("beside food, or above eye level")))
		}
		p.Never = []page.Block{beside}
		p.Foot = c.foot(c.Lab.Place.Def, nil)
		out = append(out, p)
	}
	return out
}

// labelSheet lays labels out on the lab's own label stock.
func labelSheet(c *Context) []page.Page {
	s := c.Lab.Place.Print.Sheet
	if s == nil {
		return nil
	}
	hundredths := func(q unit.Quantity[unit.Length]) int { return int(float64(q.Value())*100 + .5) }
	sheet := page.Sheet{Paper: s.Paper, Rows: s.Rows, Columns: s.Columns, Start: s.Start, Width: hundredths(s.Width.Quantity), Height: hundredths(s.Height.Quantity),
		PitchX: hundredths(s.PitchX.Quantity), PitchY: hundredths(s.PitchY.Quantity), Left: hundredths(s.Left.Quantity), Top: hundredths(s.Top.Quantity)}
	if !s.PitchX.Given() {
		sheet.PitchX = sheet.Width
	}
	if !s.PitchY.Given() {
		sheet.PitchY = sheet.Height
	}
	names := c.labelOrder
	for i, want := range s.Labels {
		card, bottle, _ := strings.Cut(want, "@")
		containers, ok := c.labels[card]
		switch {
		case !ok:
			c.Problems = append(c.Problems, lab.Problem{At: c.Lab.Place.At(fmt.Sprintf("print.sheet.labels[%d]", i)), Code: "reference",
				What: fmt.Sprintf("there is no label %q", want), Hint: lab.Near(card, names, "labels are named solution.strength, by a batch's number or drum-NAME, for example "+example(names))})
			continue
		case bottle != "" && !slices.Contains(containers, bottle):
			c.Problems = append(c.Problems, lab.Problem{At: c.Lab.Place.At(fmt.Sprintf("print.sheet.labels[%d]", i)), Code: "reference",
				What: fmt.Sprintf("the label %q is not made for a bottle %q", card, bottle), Hint: lab.Near(bottle, containers, "it is made for "+strings.Join(containers, ", "))})
			continue
		}
		sheet.Labels = append(sheet.Labels, page.SheetLabel{Card: "label/" + card, For: bottle})
	}
	if len(s.Labels) == 0 {
		for _, name := range names {
			sheet.Labels = append(sheet.Labels, page.SheetLabel{Card: "label/" + name})
		}
	}
	p := page.Page{ID: "label/sheet", Kind: "label", KindLine: "Label sheet", Title: "A sheet of labels"}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Read each label against its bottle before it is glued on."))}}}
	p.Do = []page.Block{sheet}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("print it at any other size"))}}}
	p.Foot = c.foot(c.Lab.Place.Def, nil)
	return []page.Page{p}
}

func example(names []string) string {
	if len(names) == 0 {
		return "fixer.film"
	}
	return names[0]
}

// Made notes what a later kind of card may ask for: the labels, for a sheet.
func (c *Context) Made(pages []page.Page) {
	if c.labels == nil {
		c.labels = map[string][]string{}
	}
	for _, p := range pages {
		for _, b := range p.Do {
			l, ok := b.(page.Label)
			if !ok || len(l.For) == 0 {
				continue
			}
			name := strings.TrimPrefix(p.ID, "label/")
			for _, bottle := range l.For {
				c.labels[name] = append(c.labels[name], bottle.Name)
			}
			c.labelOrder = append(c.labelOrder, name)
		}
	}
}
