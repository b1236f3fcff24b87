package cards

import (
	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// benchBoard says what each scale and cylinder may measure: why the cards choose the
// device they name.
func benchBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/bench", Kind: "board", KindLine: "At the bench",
		Title: "Smallest and largest amounts to measure"}
	var holes []page.Hole
	if scales := c.W.Bench.Scales; len(scales) > 0 {
		p.Do = append(p.Do, windowsTable("scales", "Scales", scales))
	} else {
		holes = append(holes, page.Hole{What: "the scales", Until: "cards say what a scale must show",
			Key: "[scale.…] in lab.toml"})
	}
	if cylinders := c.W.Bench.Cylinders; len(cylinders) > 0 {
		p.Do = append(p.Do, windowsTable("cylinders", "Cylinders and syringes, in one pour", cylinders))
	} else {
		holes = append(holes, page.Hole{What: "the measuring cylinders",
			Until: "cards say how a cylinder must be divided", Key: "[cylinder.…] in lab.toml"})
	}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("Below the smallest amount the error is larger than this lab accepts: a card then takes a finer device, pours twice, or says NO. Where a recipe itself allows one amount to be further off, its card measures less than stands here."))}}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("check them")),
		Items: []page.Text{page.Say(page.W("weigh a known weight")),
			page.Say(page.W("weigh the water of one cylinder"))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("read a cylinder to less than half the space between two marks"))}}}
	p.Foot = c.foot(c.W.Place.Def, holes)
	if len(p.Do) > 0 { // a card without a device would only warn
		c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "bench", Faces: c.wideFaces("a4")})
	}
	return []page.Page{p}
}

// windowsTable is what each of some devices may measure.
func windowsTable(id, caption string, list []work.Window) page.Table {
	t := page.Table{ID: id, Caption: page.Say(page.S(caption)),
		Head: []page.Text{page.Say(page.W("device")), page.Say(page.W("from")), page.Say(page.W("up to"))}}
	for _, w := range list {
		most := page.Say(page.W("not written "), page.Inline{Kind: page.Ask})
		if w.Most != nil {
			most = page.Say(page.F(w.Most))
		}
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: deviceName(w)}, {Text: page.Say(page.F(w.Least))},
			{Text: most}}})
	}
	return t
}

// deviceName names a device; a syringe also what it is kept for.
func deviceName(w work.Window) page.Text {
	t := page.Say(page.N(w.Device))
	if len(w.Of) > 0 {
		t = append(t, page.W(", only for "), page.N(series.Of(w.Of)))
	}
	return t
}
