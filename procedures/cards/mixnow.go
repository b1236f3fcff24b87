package cards

import (
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// MixNow is the mixing card of one strength for one volume, asked for at the
// bench: what its steps make, or a dilution.
func MixNow(c *Context, a work.Asked) (page.Page, []lab.Problem) {
	switch {
	case a.Solution != nil:
		p := c.solutionCard(a.Solution)
		p.Choices = nil
		p.Tables = substitutions(a.Solution)
		return p, nil
	case a.Drawn != nil:
		return c.dilutionCard(a), nil
	}
	return page.Page{}, []lab.Problem{{Code: "reference", What: a.Bath.Name() +
		" is bought ready made: there is nothing to mix", Hint: "name one of its dilutions"}}
}

// dilutionCard is a card of one volume of a dilution.
func (c *Context) dilutionCard(a work.Asked) page.Page {
	b, draw, known := a.Bath, a.Drawn.Draw, a.Bath.Dangers
	p := page.Page{ID: "mix/" + b.Def().ID, Kind: "mixing", KindLine: "Mixing card", Title: capital(b.Name()),
		Lead: append(page.Say(page.N(b.Strength), page.W(", ")), dilutionText(b.Dilution.By)...),
		Role: roleOf(b.Role())}
	p.Key = []page.Block{page.Amount{Label: page.Say(page.W("make")), Value: page.Say(page.F(draw.Fill))}}
	p.Before = beforeJob(work.Dilute, known)
	row := page.Step{ID: draw.From.Strength, What: page.Say(page.N(capital(draw.From.Name())), page.W(", "),
		page.N(draw.From.Strength)),
		Amount: page.Say(page.F(draw.Take.Amount)), Device: handCell(draw.Take, a.Drawn.Split), Tick: true}
	if draw.Take.Refused != "" {
		row.Caution = []page.Text{refusal(page.Say(page.S("No amount")), draw.Take)}
	}
	mark := page.Step{ID: "fill", What: page.Say(page.W(capital(waterWords(b))+" "), page.S("to the mark")),
		Amount: page.Say(page.F(draw.Fill)), Tick: true, Mark: true}
	p.Do = []page.Block{page.Steps{Rows: []page.Step{row, mark}}, c.spentPara(b.Bath)}
	switch {
	case a.NotOne:
		p.Before = append(p.Before, page.Cautions{Items: []page.Text{page.Say(page.S("Not enough for one roll"),
			page.W(": make more, or take a strength with less water."))}})
	case a.EnoughFor != nil:
		p.Key = append(p.Key, page.Amount{Label: page.Say(page.W("enough for")), Value: page.Say(page.F(a.EnoughFor))})
	}
	p.Why = append(p.Why, hazardBlock(known))
	p.Today = append(c.onShelf(b.Def().ID), drawnToday(a)...)
	var missing []page.Hole
	if s := b.Solution; s != nil {
		p.Never = bottleNever(b.Bath, s.Never, nil)
		missing = holes(s.Def, s.Keeps, s.Density.Given(), s.Waste)
	} else {
		p.Never = bottleNever(b.Bath, b.Product.Never, nil)
		missing = holes(b.Product.Def, b.Product.Keeps, b.Product.Density.Given(), b.Product.Waste)
	}
	p.Foot = c.foot(b.Def(), append(missing, bathHoles(known, []*work.Bath{b})...))
	return p
}
