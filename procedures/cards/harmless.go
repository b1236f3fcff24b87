package cards

import (
	"slices"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// treatKinds are the words for what is done.
var treatKinds = map[string]string{work.Neutralise: "neutralise it", work.Reduce: "until it has no colour",
	work.Oxidise: "use up its sulfite"}

// treatBlocks are how the baths of a route are made harmless. They stand on a card under a recorded
// permit alone.
func (c *Context) treatBlocks(baths []*work.Bath, permit work.Permit) []page.Block {
	if permit.Ref == "" {
		return nil
	}
	t := page.Table{ID: "treat", Caption: page.Say(page.S("Making it harmless"), page.W(", under the permit "),
		page.N(permit.Ref)),
		Head: []page.Text{page.Say(page.W("a litre of")), page.Say(page.W("what for")),
			page.Say(page.W("add, a little at a time")), page.Say(page.W("gas from it"))}}
	var kinds []string
	for _, b := range baths {
		for i, s := range b.Treatment.Steps {
			name := c.bathName(b.Bath)
			what := page.Say(page.W(treatKinds[s.Kind]))
			if i > 0 {
				name, what = page.Say(page.W("then")), page.Say(page.W(treatKinds[s.Kind]))
				if b.Treatment.Steps[i-1].Kind == s.Kind {
					name = page.Say(page.W("or"))
				}
			}
			gas := page.Say(page.W("–"))
			if s.Gas != nil {
				gas = page.Say(page.F(s.Gas), page.W(" carbon dioxide"))
			}
			amount := page.Say(page.F(s.Amount), page.W(" "), page.N(s.Reagent))
			if s.Least != nil {
				amount = append(page.Say(page.F(s.Least), page.W(" to ")), amount...)
			}
			t.Rows = append(t.Rows, textRow(name, what, amount, gas))
			if !slices.Contains(kinds, s.Kind) {
				kinds = append(kinds, s.Kind)
			}
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Note = page.Say(page.W("The amounts are for a fresh bath, which takes the most. Where there are two, the smaller is enough when the gas has gone, after long stirring. The permit says what may be treated, how much, and what the result must be: it goes before this card, and so do the rules of the place."))
	return []page.Block{page.Cautions{Items: treatCautions(kinds)}, t}
}

// treatCautions are what to heed, by what is done.
func treatCautions(kinds []string) []page.Text {
	out := []page.Text{page.Say(page.S("Only whom the permit names, and only as told here"),
		page.W(": for everything else the lines under NEVER hold. Goggles, gloves, apron, extractor fan on. A small amount first, cold, in a wide open bucket that is at most half full."))}
	for _, k := range kinds {
		switch k {
		case work.Neutralise:
			out = append(out,
				page.Say(page.W("Add it spoon by spoon and wait until it no longer fizzes; then test paper decides. Never close what still gives gas: it bursts.")))
		case work.Reduce:
			out = append(out,
				page.Say(page.W("Add it little by little and stop when the colour is gone: more of it gives sulfur dioxide in the acid. Only then neutralise.")))
		case work.Oxidise:
			out = append(out,
				page.Say(page.W("Pour it in slowly, and stop when the bath becomes warm. Never peroxide into a fixer or a bleach.")))
		}
	}
	return out
}
