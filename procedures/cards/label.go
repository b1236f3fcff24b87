package cards

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/procedures/work"
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
	known := c.dangers(b)
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
		if cold.Above != nil {
			l.Lives = append(l.Lives, page.Say(page.W("above "), page.F(cold.Above), page.W(", else crystals")))
		}
	}
	if len(l.Lives) == 0 {
		l.Lives = append(l.Lives, page.Say(page.W("how long it keeps: "), page.Inline{Kind: page.Ask, Text: "first"}))
	}
	if b.Solution != nil && b.Solution.Dissolve != nil && b.Solution.Dissolve.In == "water" {
		one := c.Mix.VolumeFigure("percent/one", unit.MustParse[unit.Volume]("1 mL"), figure.Where{}, figure.Standard, "one millilitre")
		l.Use = page.Say(page.F(one), page.W(" = "), page.F(c.Mix.GramsPerMl(b)))
	}
	if len(l.Hazards.Pictograms) > 0 {
		l.Foot = page.Say(page.W("For this room only."))
	}
	l.For = c.bottles(b)
	p.Before = []page.Block{gearBlock(work.AtWork, known)}
	for _, b := range pregnant(work.AtWork, known) {
		if line, ok := b.(page.Cautions); ok { // a label has no room for more than the line itself
			p.Before = append(p.Before, page.Cautions{Items: []page.Text{line.Items[0][:1]}})
		}
	}
	p.Before = append(p.Before, page.List{Items: []page.Text{append(page.Say(page.S("When it is spent"), page.W(": ")), c.spent(b)...)}})
	p.Do = []page.Block{l}
	if b.Solution != nil {
		p.Never = bottleNever(b, b.Solution.Never, nil)
	} else {
		p.Never = bottleNever(b, b.Product.Never, nil)
	}
	p.Foot = c.foot(b.Def(), nil)
	return p
}

// bottles are the containers that a label of a bath is made for: the lab's own
// bottles, or where it has named none the two usual ones.
func (c *Context) bottles(b lab.Bath) []page.Container {
	type bottle struct {
		holds unit.Quantity[unit.Volume]
		at    figure.Where
		by    figure.Origin
	}
	var list []bottle
	for id, d := range c.Lab.Place.Bottles {
		if d.Holds.Positive() {
			by, _ := c.Lab.OriginOf(c.Lab.Place.Def, "bottle."+id+".holds")
			list = append(list, bottle{d.Holds.Quantity, c.Lab.Place.At("bottle." + id + ".holds"), by})
		}
	}
	if len(list) == 0 {
		for _, text := range []string{"500 mL", "1 L"} {
			list = append(list, bottle{holds: unit.MustParse[unit.Volume](text), by: figure.House})
		}
	}
	slices.SortFunc(list, func(a, b bottle) int {
		if d := a.holds.Exact().Cmp(b.holds.Exact()); d != 0 {
			return d
		}
		return strings.Compare(a.at.Key, b.at.Key)
	})
	var out []page.Container
	for _, d := range list {
		next := c.bottle("bottle/holds@"+mix.Tag(d.holds.Exact()), b, d.holds, d.holds, d.at, d.by)
		if n := len(out); n == 0 || out[n-1].Name != next.Name {
			out = append(out, next)
		}
	}
	return out
}

// bottle is one size of bottle with its ladder: exactly as many boxes as a fresh
// fill treats. id is that of the figure of what it holds.
func (c *Context) bottle(id string, b lab.Bath, holds, fill unit.Quantity[unit.Volume], at figure.Where, by figure.Origin) page.Container {
	out := container(c.W.SizeOf(id, holds, at, by))
	if b.Zero() || b.Decl() == nil || b.Decl().Use != "re-use" {
		return out
	}
	if all := c.W.Capacities(b, fill); len(all) > 0 {
		head := c.W.MostUsed(b, all)
		if head.ByUses() {
			out.Tally = []page.Ticks{{Label: page.Say(page.W("a stroke for each use, up to "), page.F(head.Uses)), Count: head.Uses, Boxes: head.MostUses}}
		}
		if head.NoWhy == "" && head.Count > 0 {
			out.Tally = []page.Ticks{{Label: page.Say(page.W("a stroke for each "), page.N(head.Format.Name()), page.W(", up to "), page.F(head.N)), Count: head.N, Boxes: head.Count}}
		}
	}
	return out
}

// container is one size of bottle or drum without a ladder.
func container(s work.Size) page.Container {
	return page.Container{Name: s.Name, Holds: s.Holds, Ml: s.Ml}
}
