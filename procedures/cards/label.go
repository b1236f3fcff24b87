package cards

import (
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/page"
)

// labelCards makes a blank bottle label for every strength that is kept.
func labelCards(c *Context) []page.Page {
	var out []page.Page
	for _, b := range c.Lab.Baths() {
		decl := b.Decl()
		oneShot := decl != nil && decl.Use == "one-shot"
		if b.Strength == lab.Supplied || oneShot {
			continue
		}
		out = append(out, c.labelCard(b))
	}
	return out
}

func (c *Context) labelCard(b lab.Bath) page.Page {
	known := hazard.OfBath(c.Lab, c.Mix.Made(b))
	p := page.Page{ID: "label/" + b.Ref(), Kind: "label", KindLine: "Bottle label", Title: capital(b.Name()), Lead: page.Say(page.N(b.Strength)), Role: roleOf(b.Role())}
	blank := page.Inline{Kind: page.Blank}
	l := page.Label{Name: capital(b.Name()), Strength: b.Strength, Role: p.Role, Hazards: hazardBlock(known)}
	if d := b.Decl(); d != nil && d.Dilute.Given() {
		l.Strength = b.Strength + " " + d.Dilute.Text()
		if d.Dilute.None() {
			l.Strength = b.Strength
		}
	}
	l.Dates = []page.Text{
		page.Say(page.W("mixed on "), blank), page.Say(page.W("opened "), blank), page.Say(page.W("discard by "), blank), page.Say(page.W("by "), blank),
	}
	l.Lives = c.lives(b)
	for _, cold := range c.Mix.ColdShelf(c.Mix.Made(b)) {
		if cold.Above != "" {
			l.Lives = append(l.Lives, page.Say(page.W("above "), page.F(cold.Above), page.W(", else crystals")))
		}
	}
	if len(l.Lives) == 0 {
		l.Lives = append(l.Lives, page.Say(page.W("how long it keeps: "), page.Inline{Kind: page.Ask, Text: "first"}))
	}
	if b.Solution != nil && b.Solution.Dissolve != nil && b.Solution.Dissolve.In == "water" {
		l.Use = page.Say(page.F(c.Mix.GramsPerMl(b, b.Solution.Dissolve.Strength)), page.W(" in each millilitre"))
	}
	p.Before = []page.Block{gearBlock(hazard.Work, known)}
	for _, b := range pregnant(hazard.Work, known) {
		if line, ok := b.(page.Cautions); ok { // a label has no room for more than the line itself
			p.Before = append(p.Before, page.Cautions{Items: []page.Text{line.Items[0][:1]}})
		}
	}
	p.Before = append(p.Before, page.List{Items: []page.Text{append(page.Say(page.S("When it is spent"), page.W(": ")), c.spent(b)...)}})
	p.Do = []page.Block{l}
	if b.Solution != nil {
		p.Never = bottleNever(b.Solution.Never, nil)
	} else {
		p.Never = bottleNever(b.Product.Never, nil)
	}
	p.Foot = c.foot(b.Def(), nil)
	return p
}
