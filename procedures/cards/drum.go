package cards

import (
	"sort"
	"strings"

	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/waste"
)

// tallyRows are how many additions a drum's label has room for.
const tallyRows = 5

// drumLabels makes a label for every waste drum that stands in the lab.
func drumLabels(c *Context) []page.Page {
	var ids []string
	for id := range c.Lab.Place.Drums {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	var out []page.Page
	for _, id := range ids {
		out = append(out, c.drumLabel(id))
	}
	return out
}

func (c *Context) drumLabel(id string) page.Page {
	drum := c.Lab.Place.Drums[id]
	name := waste.DrumName(c.Lab, id)
	p := page.Page{ID: "label/drum-" + id, Kind: "label", KindLine: "Drum label", Title: "Waste: " + name}
	var baths []lab.Bath
	var routes []string
	carries := ""
	var holes []page.Hole
	enter := page.List{Label: page.Say(page.S("May enter"))}
	for _, w := range c.Lab.Wastes {
		if w.Drum != id {
			continue
		}
		here := waste.Baths(c.Lab, w.ID)
		baths = append(baths, here...)
		routes = append(routes, w.Name)
		if w.Carries != "" {
			carries = w.Carries
		}
		for i, b := range here {
			if i == 0 || here[i-1].Def().ID != b.Def().ID {
				enter.Items = append(enter.Items, page.Say(page.N(b.Name())))
			}
		}
		if w.Collect != "" {
			enter.Items = append(enter.Items, page.Say(page.N(w.Collect)))
		}
	}
	known := c.knownOf(baths)
	blank := page.Inline{Kind: page.Blank}
	l := page.Label{Name: p.Title, Strength: strings.Join(routes, ", "), Hazards: hazardBlock(known)}
	if len(routes) == 0 {
		l.Strength = "nothing, until somebody has said so"
		holes = append(holes, page.Hole{What: "what may enter", Until: "nothing: ask first", Key: "drum = \"" + id + "\" in a file of waste/"})
		l.Hazards = page.Hazards{Status: "unknown"}
	}
	p.Lead = page.Say(page.N(l.Strength))
	l.Use = page.Say(page.W("full at "), page.F(waste.Full(c.Lab, c.Book, id, drum)))
	if drum.Note != "" {
		l.Use = append(l.Use, page.W(", "), page.N(drum.Note))
	}
	if drum.Holds.Positive() {
		by, _ := c.Lab.OriginOf(c.Lab.Place.Def, "drum."+id+".holds")
		l.For = []page.Container{c.container("drum/holds@"+id, lab.Bath{}, drum.Holds.Quantity, drum.Holds.Quantity, c.Lab.Place.At("drum."+id+".holds"), by)}
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
	if len(baths) > 0 {
		p.Before = beforeJob(hazard.Away, known)
		p.Before = append(p.Before, enter)
	} else {
		p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Nothing enters this drum until somebody has said what."))}}}
	}
	p.Do = []page.Block{l}
	p.Never = neverBlock(append(c.deadliest(waste.NeverIn(c.Mix, id)), "fill it above the line, or close a cap that should vent"), nil)
	p.Foot = c.foot(c.Lab.Place.Def, holes)
	return p
}
