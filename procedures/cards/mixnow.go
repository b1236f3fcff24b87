package cards

import (
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// MixNow is the mixing card of one strength for one volume, asked for at the
// bench: what its steps make, or a dilution.
func MixNow(c *Context, b lab.Bath, volume unit.Quantity[unit.Volume]) (page.Page, []lab.Problem) {
	asked := figure.Where{}
	if s := b.Solution; s != nil && b.Strength == s.MadeStrength() {
		p := c.solutionCard(s)
		batch := []mix.Batch{c.Mix.Batch(s, volume, c.batchAt(s, mix.Batch{Volume: volume}))}
		fill := c.volumeOf(s, batch[0])
		p.Key = []page.Block{page.Amount{Label: page.Say(page.W("make")), Value: page.Say(page.F(fill))}}
		if start, ok := c.startAmounts(s, batch); ok {
			p.Key = append(p.Key, start...)
		}
		p.Choices, p.Chosen = nil, 0
		p.Do = []page.Block{c.mixingSteps(s, batch), c.spentPara(b)}
		p.Tables = c.substitutions(s, batch, 0)
		p.Today = append(c.onShelf(s.ID), c.partsToday(b, batch)...)
		p.Never = bottleNever(b, s.Never, append(c.nevers(s, batch, 0), mixingNevers(s)...))
		return p, nil
	}
	from, dil, ok := b.From()
	if !ok {
		return page.Page{}, []lab.Problem{{Code: "reference", What: b.Name() + " is bought ready made: there is nothing to mix", Hint: "name one of its dilutions"}}
	}
	known := c.dangers(b)
	p := page.Page{ID: "mix/" + b.Def().ID, Kind: "mixing", KindLine: "Mixing card", Title: capital(b.Name()), Lead: append(page.Say(page.N(b.Strength), page.W(", ")), dilutionText(dil.Dilution)...), Role: roleOf(b.Role())}
	decl := b.Decl()
	draw, _ := c.Mix.Draw(b, volume, asked, figure.House, "volume made", capacity.NeededIn(c.Mix, b, volume.Exact()))
	p.Key = []page.Block{page.Amount{Label: page.Say(page.W("make")), Value: page.Say(page.F(draw.Fill))}}
	p.Before = beforeJob(work.Dilute, known)
	row := page.Step{ID: from.Strength, What: page.Say(page.N(capital(from.Name())), page.W(", "), page.N(from.Strength)), Amount: page.Say(page.F(draw.Take.Amount)), Device: c.handCell(draw.Take), Tick: true}
	if draw.Take.Refused != "" {
		row.Caution = []page.Text{c.refusal(page.Say(page.S("No amount")), draw.Take)}
	}
	water := "Water"
	if decl.Water == "deionised" {
		water = "Deionised water"
	}
	mark := page.Step{ID: "fill", What: page.Say(page.W(water+" "), page.S("to the mark")), Amount: page.Say(page.F(draw.Fill)), Tick: true, Mark: true}
	p.Do = []page.Block{page.Steps{Rows: []page.Step{row, mark}}, c.spentPara(b)}
	if id, n, ok := capacity.EnoughFor(c.Mix, b, draw.Take.Amount); ok {
		if n > 0 {
			p.Key = append(p.Key, page.Amount{Label: page.Say(page.W("enough for")), Value: page.Say(page.F(id))})
		} else {
			p.Before = append(p.Before, page.Cautions{Items: []page.Text{page.Say(page.S("Not enough for one roll"), page.W(": make more, or take a strength with less water."))}})
		}
	}
	p.Why = append(p.Why, hazardBlock(known))
	p.Today = append(c.onShelf(b.Def().ID), c.drawnToday(from, draw)...)
	if s := b.Solution; s != nil {
		p.Never = bottleNever(b, s.Never, nil)
		p.Foot = c.foot(s.Def, append(c.holes(s.Def, s.Keeps, s.Density.Given(), s.Waste), c.bathHoles(known, []lab.Bath{b})...))
		return p, nil
	}
	s := b.Product
	p.Never = bottleNever(b, s.Never, nil)
	p.Foot = c.foot(s.Def, append(c.holes(s.Def, s.Keeps, s.Density.Given(), s.Waste), c.bathHoles(known, []lab.Bath{b})...))
	return p, nil
}
