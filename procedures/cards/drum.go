package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// tallyRows are how many additions a drum's label has room for.
const tallyRows = 5

// drumLabels makes a label for every waste drum that stands in the lab.
func drumLabels(c *Context) []page.Page {
	var out []page.Page
	for _, d := range c.W.Drums {
		if d.Here {
			out = append(out, c.drumLabel(d))
		}
	}
	return out
}

func (c *Context) drumLabel(d *work.Drum) page.Page {
	p := page.Page{ID: "label/drum-" + d.ID, Kind: "label", KindLine: "Drum label", Title: "Waste: " + d.Name}
	var routes []string
	carries := ""
	var holes []page.Hole
	enter := page.List{Label: page.Say(page.S("What may go in"))}
	for _, r := range d.Routes {
		routes = append(routes, r.Decl.Name)
		if r.Decl.Carries != "" {
			carries = r.Decl.Carries
		}
		for i, b := range r.Baths {
			if i == 0 || r.Baths[i-1].Def().ID != b.Def().ID {
				enter.Items = append(enter.Items, page.Say(page.N(b.Name())))
			}
		}
		if r.Decl.Collect != "" {
			enter.Items = append(enter.Items, page.Say(page.N(r.Decl.Collect)))
		}
	}
	blank := page.Inline{Kind: page.Blank}
	l := page.Label{Name: p.Title, Strength: strings.Join(routes, ", "), Hazards: drumHazards(d)}
	if len(routes) == 0 {
		l.Strength = "not in use yet: nothing may go in"
		holes = append(holes, page.Hole{What: "what may go in", Until: "nothing: ask first", Key: "drum = \"" + d.ID +
			"\" in a file of waste/"})
		l.Hazards = page.Hazards{Status: "unknown"}
	}
	p.Lead = page.Say(page.N(l.Strength))
	l.Use = page.Say(page.W("full at "), page.F(d.Full))
	if d.Decl.Note != "" {
		l.Use = append(l.Use, page.W(", "), page.N(d.Decl.Note))
	}
	if d.Size != nil {
		l.For = []page.Container{container(*d.Size)}
	}
	var codes []string
	for _, r := range d.Routes {
		code := r.Decl.Code
		switch by := r.Weak["code"]; {
		case code == "":
			holes = append(holes, page.Hole{What: "the waste code of " + r.Decl.Name, Until: "ask the collector",
				Key: "code in " + r.Decl.File})
			l.Lives = append(l.Lives, typed("waste code, "+r.Decl.Name, ""))
			continue
		case by != "":
			code += " (" + by + ")"
		}
		if len(d.Routes) > 1 {
			code += " for " + r.Decl.Name
		}
		if !slices.Contains(codes, code) {
			codes = append(codes, code)
		}
	}
	if len(codes) > 0 {
		l.Lives = append(l.Lives, typed("waste code", strings.Join(codes, ", ")))
	}
	if len(d.Baths) > 0 {
		line, hole := propertyLine(d)
		if l.Lives = append(l.Lives, line); hole != nil {
			holes = append(holes, *hole)
		}
	}
	if line := heldLine(d); len(line) > 0 {
		l.Lives = append(l.Lives, line)
	}
	for _, who := range []struct{ what, words, key string }{{"who is responsible for it", d.Decl.Contact, "contact"},
		{"who collects it", d.Decl.Collector, "collector"}} {
		if who.words == "" {
			holes = append(holes, page.Hole{What: who.what, Until: "ask first", Key: who.key + " under [drum." +
				d.ID + "] in " + c.W.Place.File})
		}
		l.Lives = append(l.Lives, typed(who.what, who.words))
	}
	l.Dates = []page.Text{
		page.Say(page.W("started on "), blank), page.Say(page.W("collected on "), blank),
	}
	for range tallyRows {
		row := page.Say(page.W("date, who "), blank)
		sum := page.Say(page.W("litres in all "), blank)
		if carries != "" {
			sum = page.Say(page.W("litres, g "+carries+" "), blank)
		}
		l.Dates = append(l.Dates, row, sum)
	}
	if len(d.Baths) > 0 {
		p.Before = beforeJob(work.Away, d.Dangers)
		p.Before = append(p.Before, enter)
	} else {
		p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Put nothing into this drum until somebody has said what may go in."))}}}
	}
	p.Do = []page.Block{l}
	p.Never = neverBlock(append(deadliest(d.Never), "fill it above the line, or close a cap that must let gas out"),
		nil)
	p.Foot = c.foot(c.W.Place.Def, holes)
	return p
}

// drumHazards are the hazards on a drum's label: what a month's baths are together, where that can be
// worked out, and else those of everything that goes in.
func drumHazards(d *work.Drum) page.Hazards {
	if m := d.Month; m != nil && m.Holds != nil && m.Holds.Dangers.Status != work.Unknown {
		h := hazardBlock(m.Holds.Dangers)
		says := "Worked out from a month’s baths together. What you pour may be stronger: read its bottle. The collector decides."
		if h.Status == "not classified" {
			h.Status = "worked out"
			says = "Treat it as hazardous waste, though a month’s baths together reach no limit of a class. What you pour may be stronger: read its bottle. The collector decides."
		}
		h.Note = page.Say(page.W(says))
		return h
	}
	h := hazardBlock(d.Dangers)
	switch {
	case d.Dangers.Status == work.Unknown: // it says already what nobody has looked up
	case d.Month != nil && d.Month.Holds != nil:
		h.Note = page.Say(page.W("These are the classes of all that goes in: not all of it can be worked out together. Its sheet says what is known; the collector decides."))
	default:
		h.Note = page.Say(page.W("These are the classes of what goes in. Nobody has classified what it becomes in the drum: ask the collector."))
	}
	return h
}
