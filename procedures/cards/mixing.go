package cards

import (
	"slices"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// mixingCards makes one card for every solution and product: what to weigh and
// measure, and what fills each vessel.
func mixingCards(c *Context) []page.Page {
	var out []page.Page
	for _, s := range c.W.Solutions {
		out = append(out, c.solutionCard(s))
	}
	for _, p := range c.W.Products {
		out = append(out, c.productCard(p))
	}
	return out
}

func (c *Context) solutionCard(s *work.Solution) page.Page {
	d, made, known := s.Decl, s.Made, s.Made.Dangers
	p := page.Page{
		ID: "mix/" + d.ID, Kind: "mixing", KindLine: "Mixing card", Title: capital(d.Name),
		Lead: page.Say(page.N(made.Strength)),
		Role: roleOf(d.Role), Was: wasIDs("mix/", d.Was),
	}
	p.Chosen, p.Rows = s.Chosen, []string{"make"}
	for i, b := range s.Batches {
		p.Choices = append(p.Choices, page.Choice{Variant: made.Ref() + "+" + b.Tag,
			Label: page.Say(page.F(s.Volumes[i]))})
	}
	p.Key = append(p.Key, page.Amount{Label: page.Say(page.W("make")), Value: page.Say(page.F(s.Volumes...))})
	p.Key = append(p.Key, startAmounts(s)...)
	p.Before = append(beforeJob(work.Weigh, known), c.boardFirst(made.Bath)...)
	p.Do = append(p.Do, c.mixingSteps(s), c.spentPara(made.Bath))
	p.Today = append(c.onShelf(d.ID), partsToday(s)...)
	vessels, beside := c.vesselTables(s.Strengths)
	p.Tables = append(append(p.Tables, vessels...), beside...)
	p.Tables = append(p.Tables, c.coatTables(s)...)
	p.Tables = append(p.Tables, substitutions(s)...)
	p.Tables = append(append(p.Tables, contentsTable(s)...), acidityTable(s.Strengths)...)
	p.Tables = append(append(p.Tables, limeTable(s.Strengths)...), bleachingTables(s.Strengths)...)
	p.Tables = append(p.Tables, bottlingTable(s)...)
	p.Tables = append(p.Tables, airTables(s.Strengths)...)
	p.Never = bottleNever(made.Bath, d.Never, slices.Concat(nevers(s), mixingNevers(d), filmAndPaper(s.Strengths...)))
	p.Why = append(reproductive(made), hazardBlock(known))
	p.Why = append(p.Why, whyBlocks(s)...)
	p.Record = c.keepsBlock(s.Strengths)
	keeps, _ := made.Keeps()
	p.Foot = c.foot(d.Def, holes(d.Def, keeps, !s.DensityOpen, d.Waste))
	p.Foot.Holes = append(p.Foot.Holes, bathHoles(known, s.Strengths)...)
	if s.Start != nil && s.Start.Why != "" {
		p.Foot.Holes = append(p.Foot.Holes, page.Hole{What: "how much water to start with: " + s.Start.Why,
			Until: "ask first", Key: s.Start.Way})
	}
	for i := range p.Choices {
		c.Variants = append(c.Variants, p.Choices[i].Variant)
		if c.wanted(p.Choices[i].Variant) {
			c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: i, Variant: p.Choices[i].Variant,
				Faces: c.faces("a5")})
		}
	}
	return p
}

func (c *Context) productCard(s *work.Product) page.Page {
	d, supplied, known := s.Decl, s.Supplied, s.Supplied.Dangers
	p := page.Page{ID: "mix/" + d.ID, Kind: "mixing", KindLine: "Mixing card", Title: capital(d.Name),
		Lead: page.Say(page.W("bought ready made")),
		Role: roleOf(d.Role), Was: wasIDs("mix/", d.Was)}
	p.Before = beforeJob(s.Job, known)
	p.Key = packAmounts(s.Bought)
	// The tables are the work here: what stands beside them may be left out on
	// a small sheet.
	var vessels []page.Block
	vessels, p.Tables = c.vesselTables(s.Strengths)
	p.Do = append(append(packSteps(s), vessels...), c.spentPara(supplied.Bath))
	p.Tables = append(p.Tables, yieldsTable(s)...)
	p.Tables = append(append(append(p.Tables, compositionTable(s)...), packContents(s)...),
		acidityTable(s.Strengths)...)
	p.Tables = append(p.Tables, limeTable(s.Strengths)...)
	p.Never = bottleNever(supplied.Bath, d.Never, append(packNevers(s.Bought), filmAndPaper(s.Strengths...)...))
	p.Today = c.onShelf(d.ID)
	p.Why = append(p.Why, hazardBlock(known))
	p.Why = append(p.Why, sheetPara(d.Sheet)...)
	if d.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(d.Note))})
	}
	p.Record = []page.Block{page.List{Label: page.Say(page.W("keeps")), Items: c.packKeeps(s)}}
	p.Foot = c.foot(d.Def, productHoles(s))
	c.Variants = append(c.Variants, d.ID)
	if c.wanted(d.ID) {
		c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: d.ID, Faces: c.faces("a5")})
	}
	return p
}

func wasIDs(prefix string, was []string) []string {
	var out []string
	for _, w := range was {
		out = append(out, prefix+w)
	}
	return out
}

// nevers are the mistakes that everything filled up to a mark knows.
func nevers(s *work.Solution) []page.Text {
	if s.Marks == nil || len(s.Decl.Steps) == 0 {
		return nil
	}
	return []page.Text{page.Say(page.W("start with the full "), page.F(s.Marks...), page.W(" of water"))}
}

// mixingNevers are the mistakes that only somebody who mixes it can make.
func mixingNevers(s *lab.Solution) []page.Text {
	var out []page.Text
	for _, n := range s.NeverMixing {
		out = append(out, page.Say(page.N(n)))
	}
	return out
}

// bottleNever is what never to do with something in a bottle. Where nobody has
// written a mistake, the one that every bottle knows stands there: unless one of its
// strengths is used again, and goes back into its bottle.
func bottleNever(b lab.Bath, own []string, more []page.Text) []page.Block {
	if len(own)+len(more) == 0 {
		mistake := "pour leftovers back into the bottle"
		if goesBack(b) {
			mistake = "pour another bath into its bottle"
		}
		more = []page.Text{page.Say(page.W(mistake))}
	}
	return neverBlock(own, more)
}

// goesBack reports whether any strength of a solution or product is poured back into
// its bottle after use.
func goesBack(b lab.Bath) bool {
	declared := map[string]*lab.Strength{}
	if b.Solution != nil {
		declared = b.Solution.Strengths
	} else if b.Product != nil {
		declared = b.Product.Strengths
	}
	for _, s := range declared {
		if s.Use == "re-use" || s.Use == "replenish" {
			return true
		}
	}
	return false
}

// filmAndPaper is what never to do with fixers that are used for film and for paper.
func filmAndPaper(baths ...*work.Bath) []page.Text {
	if !slices.ContainsFunc(baths, func(b *work.Bath) bool { return b != nil && b.FilmAndPaper() }) {
		return nil
	}
	return []page.Text{page.Say(page.W("fix prints in what has fixed film: keep a bottle for each"))}
}

func neverBlock(own []string, more []page.Text) []page.Block {
	l := page.List{}
	l.Items = append(l.Items, more...)
	for _, n := range own {
		l.Items = append(l.Items, page.Say(page.N(n)))
	}
	if len(l.Items) == 0 {
		return nil
	}
	return []page.Block{l}
}

// whyBlocks are what the lab says of a solution, what the cold does to it, and its cost.
func whyBlocks(s *work.Solution) []page.Block {
	var out []page.Block
	if s.Decl.Note != "" {
		out = append(out, page.Para{Text: page.Say(page.N(s.Decl.Note))})
	}
	if s.Decl.Dead != "" {
		out = append(out, page.Para{Text: page.Say(page.S("Discard when"), page.W(": "),
			page.N(strings.TrimPrefix(s.Decl.Dead, "when ")))})
	}
	out = append(out, coldBlocks(s.Made)...)
	switch {
	case s.Cost != nil:
		out = append(out, page.Para{Text: page.Say(page.W("A litre of "), page.N(s.Made.Strength), page.W(" costs "),
			page.F(s.Cost), page.W("."))})
	case s.CostWhy != "":
		out = append(out, page.Para{Text: page.Say(page.W("Cost of a litre: not worked out, because "),
			page.N(s.CostWhy), page.W("."))})
	}
	return out
}
