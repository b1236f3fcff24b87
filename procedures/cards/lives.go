package cards

import (
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// keepsBlock says how long each strength keeps in each state of its vessel.
func (c *Context) keepsBlock(strengths []*work.Bath) []page.Block {
	return []page.Block{page.List{Label: page.Say(page.W("keeps")), Items: c.keepsLines(strengths)}}
}

// keepsLines is the same in lines.
func (c *Context) keepsLines(strengths []*work.Bath) []page.Text {
	var out []page.Text
	for _, b := range strengths {
		lives := c.lives(b.Bath)
		if len(lives) == 0 {
			continue
		}
		item := page.Say(page.S(b.Strength), page.W(": "))
		for i, life := range lives {
			if i > 0 {
				item = append(item, page.W(", "))
			}
			item = append(item, life...)
		}
		out = append(out, item)
	}
	if len(out) == 0 {
		out = append(out, page.Say(page.W("nobody has said how long it keeps: "),
			page.Inline{Kind: page.Ask, Text: "first"}))
	}
	return out
}

// lives are how long a strength keeps, one text for each state of its vessel.
func (c *Context) lives(b lab.Bath) []page.Text {
	var out []page.Text
	for _, l := range c.W.Bath(b.Ref()).Lives {
		if l.State == "poured" {
			out = append(out, page.Say(page.F(l.Time), page.W(" once it is poured")))
			continue
		}
		out = append(out, page.Say(page.W(l.Word+" "), page.F(l.Time)))
	}
	return out
}

// limitsText is when a strength is spent: each of its limits, with whom it is for.
func (c *Context) limitsText(b lab.Bath) page.Text {
	var out page.Text
	for _, l := range c.W.Bath(b.Ref()).Limits {
		if len(out) > 0 {
			out = append(out, page.W(", "))
		}
		out = append(out, page.F(l.Text))
		var of []string
		if l.For != "" {
			of = append(of, string(l.For))
		}
		if l.Place > 0 {
			of = append(of, placeWord(int(l.Place)))
		}
		if l.Of != "" {
			of = append(of, lab.InSides(l.Of))
		}
		if len(of) > 0 {
			out = append(out, page.W(" ("), page.N(strings.Join(of, ", ")), page.W(")"))
		}
	}
	return out
}

// coldBlocks warn of what comes out of a solution on a cold shelf.
func coldBlocks(b *work.Bath) []page.Block {
	var out []page.Block
	for _, cold := range b.Cold {
		if text := coldText(cold); text != nil {
			out = append(out, page.Cautions{Items: []page.Text{text}})
		}
	}
	return out
}

func coldText(cold work.Cold) page.Text {
	switch {
	case cold.Above != nil:
		return page.Say(page.S("Keep above "), page.F(cold.Above), page.W(": below that, "),
			page.N(cold.Content.Chemical.Name),
			page.W(" forms crystals. Warm the bottle until it is clear, then measure; never pour it off the crystals."))
	case cold.Crystals:
		return page.Say(page.S("Nearly saturated"), page.W(" with "), page.N(cold.Content.Chemical.Name),
			page.W(": crystals may form even in a warm room. Warm the bottle until it is clear, then measure."))
	}
	return nil
}

// holes are what nobody has filled in about the subject of a mixing card.
func holes(d lab.Def, k lab.Keeps, density bool, waste string) []page.Hole {
	var out []page.Hole
	if !k.Given() {
		out = append(out, page.Hole{What: "how long it keeps", Until: "no discard date: ask first", Key: "keeps in " +
			d.File})
	}
	if !density {
		out = append(out, page.Hole{What: "its density",
			Until: "the density of water is used, and the stricter side counts", Key: "density in " + d.File})
	}
	if waste == "" {
		out = append(out, page.Hole{What: "where it goes when spent", Until: "to a drum: ask first",
			Key: "waste in " + d.File})
	}
	return out
}

// bathHoles are what nobody has looked up of what is in a bath, and how long
// each strength keeps that stands in a bottle or a tray.
func bathHoles(known work.Dangers, strengths []*work.Bath) []page.Hole {
	var out []page.Hole
	for _, name := range known.Missing {
		out = append(out, page.Hole{What: "the hazards of " + name, Until: "full precautions",
			Key: "[hazards] classes in its file, from section 2 of the supplier’s sheet"})
	}
	for _, b := range strengths {
		d := b.Decl()
		if d == nil || d.Use != "re-use" && d.Use != "tray" && d.Use != "replenish" {
			continue
		}
		if len(b.Lives) == 0 {
			out = append(out, page.Hole{What: "how long " + b.Strength + " keeps",
				Until: "no discard date: ask first", Key: "keeps under [strength." + b.Strength + "] in " +
					b.Def().File})
		}
	}
	for _, b := range strengths {
		out = append(out, lifeHoles(b)...)
	}
	return out
}

// lifeHoles are the lives in a bottle that nobody has written beside others: what
// stands in that state cannot be judged.
func lifeHoles(b *work.Bath) []page.Hole {
	states := []struct{ state, words string }{{"full", "sealed"}, {"part", "opened"}, {"low", "below half"}}
	var missing []page.Hole
	_, key := b.Keeps()
	for _, s := range states {
		if b.Life(s.state) == nil {
			missing = append(missing, page.Hole{What: "how long " + b.Strength + " keeps " + s.words,
				Until: "such a bottle cannot be judged: ask first",
				Key:   key + s.state + " in " + b.Def().File})
		}
	}
	if len(missing) == len(states) { // nothing is said of bottles at all
		return nil
	}
	return missing
}
