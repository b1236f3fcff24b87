package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// driftingBoard says how far the bath in a tank drifts to the temperature of the room.
func driftingBoard(c *Context) []page.Page {
	d := c.W.Drifting
	if d == nil {
		return nil
	}
	p := page.Page{ID: "board/drifting", Kind: "board", KindLine: "At the tank", Title: "Tanks in a cold or warm room"}
	for _, x := range d.Baths {
		p.Do = append(p.Do, driftTable(x))
	}
	var holes []page.Hole
	if len(d.Unmeasured) > 0 {
		names := series.Of(d.Unmeasured)
		holes = append(holes, page.Hole{What: "how fast they take the temperature of the room: " + names,
			Until: "stand the tank in water that is as warm as the baths", Key: "[tank.…] time_constant in lab.toml"})
		p.Do = append(p.Do, page.Para{Text: page.Say(
			page.W("How fast they take the temperature of the room nobody has measured: "), page.N(names),
			page.W(". Stand them in water that is as warm as the baths."))})
	}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("have ready")),
		Items: []page.Text{page.Say(page.W("two thermometers: one for the room, one for the bath")),
			page.Say(page.W("a basin that the tank stands in"))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("use the time for the first temperature when the bath has drifted too far")),
		page.Say(page.W("pour hot water into a loaded tank"))}}}
	p.Why = []page.Block{measuring(d.Measure)}
	p.Foot = c.foot(c.W.Place.Def, holes)
	return []page.Page{p}
}

// driftTable is how far baths of one temperature drift, by tank and room.
func driftTable(d work.DriftAt) page.Block {
	t := page.Table{ID: "drift-" + d.At.Shown, Caption: page.Say(page.S("A tank in air"),
		page.W(": the bath goes in at "), page.F(d.At),
		page.W("; first how warm it is on average, then at the end")), Head: []page.Text{page.Say(page.W("tank, after"))}}
	for _, r := range d.Rooms {
		t.Head = append(t.Head, page.Say(page.W("room at "), page.F(r)))
	}
	far := false
	for _, tank := range d.Tanks {
		cells := []page.Text{page.Say(page.N(tank.Name), page.W(", "), page.F(tank.After))}
		for _, x := range tank.In {
			cell := page.Say(page.F(x.Mean), page.W(", at the end "), page.F(x.End))
			if x.Far {
				cell = append(cell, page.W(" "), page.S("too far"))
			}
			far = far || x.Far
			cells = append(cells, cell)
		}
		t.Rows = append(t.Rows, textRow(cells...))
	}
	if d.Within != nil {
		t.Note = page.Say(page.W("On average it may be off by "), page.F(d.Within), page.W("."))
	}
	if far {
		t.Note = append(t.Note, page.W(" "), page.S("Too far"),
			page.W(": stand the tank in water that is as warm as the baths."))
	}
	return t
}

// measuring says how the time constant of a tank is found.
func measuring(m work.Measuring) page.Block {
	return page.Para{Text: page.Say(
		page.S("To measure how fast a tank takes the temperature of the room"), page.W(", fill it with water at "),
		page.F(m.From), page.W(", put the thermometer in and let it stand. In a room at "), page.F(m.Room),
		page.W(" count the minutes until the thermometer reads "), page.F(m.Reads),
		page.W(": a little less than two thirds of the difference are then gone. These minutes are the time constant of the tank."))}
}
