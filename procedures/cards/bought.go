package cards

import (
	"slices"

	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// packAmounts are what a pack holds and makes.
func packAmounts(b work.Bought) []page.Block {
	var out []page.Block
	if b.Pack.Holds != nil {
		out = append(out, page.Amount{Label: page.Say(page.W("a pack holds")), Value: page.Say(page.F(b.Pack.Holds)),
			Note: packText(b.Pack)})
	}
	if m := b.Makes; m != nil && m.Stock != nil {
		out = append(out, page.Amount{Label: page.Say(page.W("it makes")), Value: page.Say(page.F(m.Stock)),
			Note: page.Say(page.N(m.Strength))})
	}
	return out
}

// packText is in how many pieces a pack comes, and what it costs.
func packText(p work.Pack) page.Text {
	var parts []page.Text
	if p.Pieces != nil {
		parts = append(parts, page.Say(page.F(p.Pieces), page.W(" pieces")))
	}
	if p.Price != nil {
		parts = append(parts, page.Say(page.F(p.Price)))
	}
	return page.InLine(parts)
}

// partText is what is written of a part of a kit: what its pack holds, and its classes.
func partText(part work.KitPart) page.Text {
	var parts []page.Text
	switch {
	case part.Pack.Holds == nil:
	case part.Whole:
		parts = append(parts, page.Say(page.W("all of it")))
	default:
		parts = append(parts, page.Say(page.W("its pack holds "), page.F(part.Pack.Holds)))
	}
	if more := packText(part.Pack); len(more) > 0 {
		parts = append(parts, more)
	}
	if h := part.Decl.Hazards; h != nil && h.Classes != nil {
		parts = append(parts, page.Say(page.W("classes by its sheet: "), page.N(classWords(h.Classes))))
	}
	return page.InLine(parts)
}

// packSteps are how a pack is made up, as its label says.
func packSteps(s *work.Product) []page.Block {
	m := s.Bought.Makes
	if m == nil {
		return nil
	}
	water := page.W("tap water")
	if s.Decl.Water == lab.Deionised {
		water = page.W("deionised water")
	}
	steps := page.Steps{}
	start := page.Step{ID: "start", What: page.Say(page.S("Start"), page.W(" with "), water)}
	if m.StartWith != nil {
		start.Amount = page.Say(page.F(m.StartWith))
	}
	if m.StartAt != nil {
		start.What = append(start.What, page.W(" at "), page.F(m.StartAt))
	}
	steps.Rows = append(steps.Rows, start)
	for _, part := range s.Bought.Parts {
		row := page.Step{ID: part.Step.Add, What: page.Say(page.S("Add"), page.W(" "), page.N(part.Name))}
		if part.Takes != nil {
			row.Amount = page.Say(page.F(part.Takes))
		}
		if about := partText(part); len(about) > 0 {
			row.Note = append(row.Note, about)
		}
		for _, note := range []string{part.Step.Wait, part.Step.Caution, part.Step.Note} {
			if note != "" {
				row.Note = append(row.Note, page.Say(page.N(note)))
			}
		}
		steps.Rows = append(steps.Rows, row)
	}
	if piece := s.Buying.Piece; piece != nil {
		return []page.Block{page.Steps{Rows: []page.Step{
			{ID: "start", What: page.Say(page.S("Start"), page.W(" with less "), water,
				page.W(" than you want to make"))},
			{ID: "pack", What: page.Say(page.S("Add"),
				page.W(" so many whole pieces, stirring, until all is dissolved")),
				Note: []page.Text{page.Say(page.W("one piece makes "), page.F(piece))}},
			{ID: "fill", What: page.Say(page.S("Fill up"), page.W(" with "), water, page.W(" to as many times "),
				page.F(piece))}}}}
	}
	if len(s.Bought.Parts) == 0 {
		add := page.Step{ID: "pack", What: page.Say(page.S("Add"),
			page.W(" a whole pack, stirring, until all is dissolved"))}
		if s.Bought.Pack.Holds != nil {
			add.Amount = page.Say(page.F(s.Bought.Pack.Holds))
		}
		steps.Rows = append(steps.Rows, add)
	}
	if m.Stock != nil {
		steps.Rows = append(steps.Rows, page.Step{ID: "fill", Amount: page.Say(page.F(m.Stock)),
			What: page.Say(page.S("Fill up"), page.W(" with "), water, page.W(", in all"))})
	}
	return []page.Block{steps}
}

// packNevers are the mistakes that a pack invites.
func packNevers(b work.Bought) []page.Text {
	if m := b.Makes; m != nil && m.Divide == lab.MayNotDivide {
		if len(b.Parts) > 0 {
			return []page.Text{page.Say(page.W("make up only a part of a kit: its parts are meant for each other as a whole. Make up all of it, and keep it in small bottles"))}
		}
		return []page.Text{page.Say(page.W("make up only a part of a pack: its powders have settled apart. Make up all of it, and keep it in small bottles"))}
	}
	return nil
}

// productHoles are what nobody has written of a product, whatever card is about it.
func productHoles(s *work.Product) []page.Hole {
	d := s.Decl
	kit, keeps := len(d.Parts) > 0, d.Keeps
	if kit && !slices.ContainsFunc(d.PartIDs(), func(id string) bool { return !d.PartKeeps(id).Given() }) {
		keeps = d.PartKeeps(d.PartIDs()[0]) // each part says it for itself
	}
	out := holes(d.Def, keeps, kit || d.Density.Given() || d.State.Solid(), d.Waste)
	for _, id := range d.PartIDs() {
		if part := d.Parts[id]; !part.Density.Given() && !part.State.Solid() {
			out = append(out, page.Hole{What: "the density of " + d.PartName(id),
				Until: "what is in it is not counted by volume", Key: lab.PartKey(id) + ".density in " + d.File})
		}
	}
	out = append(out, bathHoles(s.Supplied.Dangers, s.Strengths)...)
	return append(out, packHoles(s)...)
}

// packHoles are what nobody has written of a pack.
func packHoles(s *work.Product) []page.Hole {
	m := s.Bought.Makes
	if m == nil || m.Divide != "" {
		return nil
	}
	return []page.Hole{{What: "whether a part of a pack may be made up", Until: "the whole pack is made up",
		Key: "divide under [makes] in " + s.Decl.File}}
}

// yieldsTable is what a pack does by the word of those who say so.
func yieldsTable(s *work.Product) []page.Block {
	if len(s.Bought.Yields) == 0 {
		return nil
	}
	t := page.Table{ID: "yields", Caption: page.Say(page.S("How much a pack treats"), page.W(", as others say")),
		Head: []page.Text{page.Say(page.W("strength")), page.Say(page.W("how many")), page.Say(page.W("origin"))}}
	for _, y := range s.Bought.Yields {
		t.Rows = append(t.Rows, textRow(page.Say(page.N(y.Strength)),
			page.Say(page.F(y.Count), page.W(" "), page.N(y.Of)), page.Say(page.N(y.Says.String()))))
	}
	return []page.Block{t}
}

// sheetPara says which safety sheet came with it.
func sheetPara(sheet *lab.SupplierSheet) []page.Block {
	if sheet == nil {
		return nil
	}
	t := page.Say(page.S("Supplier’s sheet"), page.W(" of "), page.N(sheet.Edition.String()))
	if sheet.SpeaksOf != "" {
		t = append(t, page.W(", about the "), page.N(string(sheet.SpeaksOf)), page.W(" as bought"))
	}
	if sheet.File != "" {
		t = append(t, page.W(": "), page.N(sheet.File))
	}
	return []page.Block{page.Para{Text: append(t, page.W("."))}}
}
