package cards

import (
	"path"
	"slices"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// boughtCards makes one card for every product: whether it is worth having here, what a
// pack makes, how long that keeps, what it does, what it costs, and what to do with a spill.
func boughtCards(c *Context) []page.Page {
	var out []page.Page
	for _, p := range c.W.Products {
		out = append(out, c.boughtCard(p))
	}
	return out
}

func (c *Context) boughtCard(s *work.Product) page.Page {
	d, known := s.Decl, s.Supplied.Dangers
	p := page.Page{ID: "product/" + d.ID, Kind: "product", KindLine: "What is bought", Title: capital(d.Name),
		Role: roleOf(d.Role), Was: wasIDs("product/", d.Was)}
	if d.State != "" {
		p.Lead = page.Say(page.N("bought as " + stateNames[d.State]))
	}
	p.Key = boughtAmounts(s)
	p.Before = beforeJob(s.Job, known)
	p.Do = append(c.worthBlocks(s), packInShort(s)...)
	p.Do = append(p.Do, divideBlocks(s)...)
	for _, does := range s.Buying.Does {
		p.Do = append(p.Do, c.doesBlocks(s, does)...)
	}
	p.Do = append(p.Do, c.nothingDone(s)...)
	small, spilt := c.spillBlocks(s)
	p.Do = append(p.Do, small...) // no paper may drop it
	p.Tables = append(p.Tables, c.keepsBlock(s.Strengths)...)
	p.Tables = append(p.Tables, wornTable(s)...)
	p.Never = bottleNever(s.Supplied.Bath, d.Never, nil)
	p.Why = append(p.Why, spilt...)
	p.Why = append(p.Why, sheetBlocks(s)...)
	p.Why = append(p.Why, hazardBlock(known))
	if d.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(d.Note))})
	}
	p.Today = append(oldSheets(s), c.onShelf(d.ID)...)
	p.Foot = c.foot(d.Def, append(boughtHoles(s), packHoles(s)...))
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "product-" + d.ID,
		Faces: c.wideFaces("a4")})
	return p
}

// stateNames are the states in which something is bought, in words.
var stateNames = map[lab.State]string{lab.Powder: "a powder", lab.Liquid: "a liquid", lab.Tablets: "tablets"}

// boughtAmounts are what a pack holds, costs and makes.
func boughtAmounts(s *work.Product) []page.Block {
	var out []page.Block
	add := func(label string, value, note page.Text) {
		out = append(out, page.Amount{Label: page.Say(page.W(label)), Value: value, Note: note})
	}
	if pack := s.Bought.Pack; pack.Holds != nil {
		var note page.Text
		if pack.Pieces != nil {
			note = page.Say(page.F(pack.Pieces), page.W(" pieces"))
		}
		add("a pack holds", page.Say(page.F(pack.Holds)), note)
	}
	if price := s.Buying.Price; price != nil {
		add("a pack costs", page.Say(page.F(price)), nil)
	}
	if m := s.Bought.Makes; m != nil && m.Stock != nil {
		add("it makes", page.Say(page.F(m.Stock)), page.Say(page.N(m.Strength)))
	}
	for _, m := range s.Buying.Makes {
		note := page.Say(page.N(m.Bath.Strength))
		if d := m.Bath.Decl(); d != nil && d.Dilute.Given() {
			note = append(note, page.W(", "), page.N(d.Dilute.Text()))
		}
		add("a pack makes", page.Say(page.F(m.Volume)), note)
	}
	return out
}

// packInShort is how a pack is made up, in one line for each step; its mixing card says it
// large.
func packInShort(s *work.Product) []page.Block {
	l := page.List{Label: page.Say(page.L("mix/"+s.Decl.ID, "how it is made up")), Lines: true}
	for _, block := range packSteps(s) {
		steps, ok := block.(page.Steps)
		if !ok {
			continue
		}
		for _, row := range steps.Rows {
			t := slices.Clone(row.What)
			if len(row.Amount) > 0 {
				t = append(append(t, page.W(": ")), row.Amount...)
			}
			for _, note := range row.Note {
				t = append(append(t, page.W("; ")), note...)
			}
			l.Items = append(l.Items, t)
		}
	}
	if len(l.Items) == 0 {
		return nil
	}
	return []page.Block{l}
}

// worthBlocks say which materials need it here, and how each process uses it.
func (c *Context) worthBlocks(s *work.Product) []page.Block {
	var out []page.Block
	if len(s.Buying.Needs) > 0 {
		t := page.Table{ID: "worth", Caption: page.Say(page.S("Is it worth having?")),
			Head: []page.Text{page.Say(page.W("material")), page.Say(page.W("needs it")), page.Say(page.W("reason"))}}
		for _, n := range s.Buying.Needs {
			t.Rows = append(t.Rows, needRows(n)...)
		}
		out = append(out, t)
	}
	l := page.List{Label: page.Say(page.W("how it is used here")), Lines: true}
	for _, u := range s.Buying.Ways {
		l.Items = append(l.Items, wayText(u))
	}
	for _, b := range s.Buying.Into {
		l.Items = append(l.Items, page.Say(page.W("it goes into "), page.L("mix/"+b.Def().ID, b.Name()), page.W(".")))
	}
	if len(l.Items) == 0 {
		l.Items = []page.Text{page.Say(page.W("no process of this lab uses it. Before you buy it, write the step that wants it."))}
	}
	return append(out, l)
}

// needRows are the answers for one base: of what hangs on the fixing bath, one for each.
func needRows(n work.Need) []page.Row {
	base := page.Cell{Text: page.Say(page.W(string(n.Base)))}
	reason := func(words string) page.Cell { return page.Cell{Text: page.Say(page.W(words))} }
	switch n.Answer {
	case lab.Never:
		return []page.Row{{Cells: []page.Cell{base, {No: true, Why: "never"},
			reason("more wet time does harm, and brings nothing")}}}
	case lab.Always:
		return []page.Row{{Cells: []page.Cell{base, {Text: page.Say(page.S("always"))},
			reason("it gives up fixer slowly to water alone")}}}
	case lab.IfWanted:
		return []page.Row{{Cells: []page.Cell{base, {Text: page.Say(page.S("if wanted"))},
			reason("it does no harm, and nothing here needs it")}}}
	}
	if len(n.After) == 0 {
		return []page.Row{{Cells: []page.Cell{base, {Text: page.Say(page.S("after a hardener"))},
			reason("no fixing bath of this lab is used for it")}}}
	}
	var out []page.Row
	for _, f := range n.After {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.W(string(n.Base)+" after "),
			page.L("mix/"+f.Bath.Def().ID, f.Bath.Name()))}}}
		switch {
		case f.Hardener != "":
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.S("needed"))},
				page.Cell{Text: page.Say(page.W("the fixer hardens the film: it holds "), page.N(f.Hardener))})
		case f.Unknown:
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.Inline{Kind: page.Ask, Text: "first"})},
				reason("nobody has written whether that fixer hardens"))
		default:
			why := page.Say(page.W("the fixer has no hardener in it"))
			if f.Salt != "" {
				why = append(why, page.W(", only "), page.N(f.Salt))
			}
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.S("not needed"))},
				page.Cell{Text: append(why, page.W(": modern film washes well without"))})
		}
		out = append(out, row)
	}
	return out
}

// wayText is how a process uses it: the step before, its own, and the wash after.
func wayText(u work.UsedWay) page.Text {
	t := page.Say(page.L("process/"+u.Process.ID, u.Process.Name), page.W(": "))
	step := func(s *work.TimedStep) {
		t = append(t, page.N(s.Name))
		if s.Time != nil {
			t = append(t, page.W(" "), page.F(s.Time))
		}
	}
	if u.Before != nil {
		step(u.Before)
		t = append(t, page.W(", then "))
	}
	step(u.Step)
	t = append(t, page.W(" in "), page.N(u.Bath.Strength))
	if u.After != nil {
		t = append(t, page.W(", then "))
		step(u.After)
		if u.InsteadOf != nil {
			t = append(t, page.W(" instead of "), page.F(u.InsteadOf))
		}
	}
	return append(t, page.W("."))
}

// whyWhole is why a pack is made up whole.
func whyWhole(b work.Bought) string {
	if len(b.Parts) > 0 {
		return "its parts are meant for each other as a whole"
	}
	return "its powders have settled apart: no spoon of it is like the next"
}

// divideBlocks say whether a part of a pack may be made up, and what to do where it may not.
func divideBlocks(s *work.Product) []page.Block {
	m := s.Bought.Makes
	switch {
	case m == nil || m.Divide == "":
		return nil
	case m.Divide == lab.MayNotDivide:
		return []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Never make up a part of a pack: "),
			page.N(whyWhole(s.Bought)),
			page.W(". Make up all of it, and keep it in small full bottles."))}}}
	}
	t := page.Say(page.S("A part of a pack may be made up"))
	if s.Buying.Piece != nil {
		t = append(t, page.W(": one piece makes "), page.F(s.Buying.Piece))
	}
	return []page.Block{page.Para{Text: append(t, page.W(". Make up only what is used before it is too old."))}}
}

// doesBlocks are what one pack does of each format, what ends it first, and what one costs.
func (c *Context) doesBlocks(s *work.Product, x work.PackStrength) []page.Block {
	t := page.Table{ID: "does-" + x.Bath.Strength, Caption: append(append(page.Say(page.S("What one pack does"),
		page.W(", ")), c.bathName(x.Bath.Bath)...), page.W(": what ends it first"))}
	others := slices.ContainsFunc(x.Does, func(d work.PackDoes) bool { return len(otherWords(d)) > 0 })
	t.Head = []page.Text{page.Say(page.W("of")), page.Say(page.W("at most"))}
	if others {
		t.Head = append(t.Head, page.Say(page.W("besides")))
	}
	paced := slices.ContainsFunc(x.Does,
		func(d work.PackDoes) bool { return d.Aged != nil }) // age ends nothing of what is made as it is used
	if paced {
		t.Head = append(t.Head, page.Say(page.W("here, ended by")))
	}
	t.Head = append(t.Head, page.Say(page.W("one costs, if all is used")))
	if paced {
		t.Head = append(t.Head, page.Say(page.W("one costs here")))
	}
	for _, d := range x.Does {
		most := append(page.Say(page.B(d.Full)), page.W(", by "+yieldWord(d.FullBy)))
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(d.Format.Material.Name + ", " +
			strings.ReplaceAll(d.Format.ID, "x", "×")))}, {Text: most}}}
		if others {
			row.Cells = append(row.Cells, page.Cell{Text: orNone(otherWords(d))})
		}
		if paced {
			row.Cells = append(row.Cells, page.Cell{Text: endedBy(d), Chosen: d.Age})
		}
		row.Cells = append(row.Cells, page.Cell{Text: costCell(d.CostFull, d.CostWhy)})
		if paced {
			row.Cells = append(row.Cells, page.Cell{Text: rateCell(d)})
		}
		t.Rows = append(t.Rows, row)
	}
	return append([]page.Block{t}, aloneBelow(doesNote(s, x))...)
}

// endedBy is what ends a pack first at this lab's rate.
func endedBy(d work.PackDoes) page.Text {
	switch {
	case d.Age:
		return page.Say(page.S("age"), page.W(", after "), page.B(d.Aged))
	case d.Aged != nil || d.Ageless:
		return page.Say(page.S(yieldWord(d.FullBy)))
	}
	return page.Say(page.W("not known: "), page.Inline{Kind: page.Ask})
}

// otherWords are what our limits or others allow beside the smallest.
func otherWords(d work.PackDoes) page.Text {
	var list []page.Text
	if d.Ours != nil && d.FullBy != d.OursBy {
		list = append(list, page.Say(page.B(d.Ours), page.W(" by "+yieldWord(d.OursBy))))
	}
	for _, said := range d.Said {
		if said.Says.String() != d.FullBy {
			list = append(list, page.Say(page.B(said.N), page.W(" by "+yieldWord(said.Says.String()))))
		}
	}
	return listed(list)
}

// yieldWord is what says how many: a limit of this lab, or somebody's word.
func yieldWord(by string) string {
	switch by {
	case "silver":
		return "this lab’s limit of silver"
	case "area", "rolls":
		return "this lab’s limit in " + by
	case "count":
		return "this lab’s count"
	case "stock":
		return "what the pack makes"
	case "house":
		return "this lab’s word"
	case "supplier":
		return "the supplier’s word"
	}
	return "the word of: " + by
}

// doesNote is what holds for every row.
func doesNote(s *work.Product, x work.PackStrength) page.Text {
	var t page.Text
	for _, d := range x.Does {
		if d.Life != nil {
			t = page.Say(page.W("What a pack makes keeps "), page.F(d.Life),
				page.W(" ("+d.State+"). The rate of this lab is its month’s work. "))
			break
		}
	}
	if slices.ContainsFunc(x.Does, func(d work.PackDoes) bool { return d.Ours == nil }) {
		t = append(t,
			page.W("This lab has no limit of its own for all of these: then the word of others stands alone. "))
	}
	if t == nil && !x.Shared && !x.Divided {
		t = page.Say(page.W("Whether age ends it first is not known: for that somebody writes down a month’s work and how long the stock keeps. "))
	}
	if x.Shared {
		t = append(t, page.W("Other strengths come from the same pack: age is not counted for one of them alone. "))
	}
	if x.Divided {
		t = append(t, page.W("Age ends only the part that was made up: one costs the same at any rate. "))
	}
	if x.Evening != nil {
		t = append(t, page.W("A tray of it is discarded "), page.F(x.Evening),
			page.W(" after pouring: that is not counted here. "))
	}
	if s.Buying.PriceWhy != "" {
		t = append(t, page.W("Cost: not known, "), page.N(s.Buying.PriceWhy), page.W(". "))
	}
	return append(t, page.W("The smaller number counts."))
}

// nothingDone says that nobody has written what a pack does.
func (c *Context) nothingDone(s *work.Product) []page.Block {
	if len(s.Buying.Does) > 0 {
		return nil
	}
	return []page.Block{page.Para{Text: page.Say(page.S("What one pack does"),
		page.W(": nobody has written a yield or a limit that can be counted. "),
		page.Inline{Kind: page.Ask, Text: "first"})}}
}

// wornTable is what to wear for what is bought and for each strength, side by side.
func wornTable(s *work.Product) []page.Block {
	t := page.Table{ID: "worn", Caption: page.Say(page.S("What to put on")),
		Head: []page.Text{page.Say(page.W("what it is"))}}
	jobs := []work.Job{s.Job, work.AtWork}
	for _, j := range jobs {
		t.Head = append(t.Head, page.Say(page.N(string(j))))
	}
	var last []page.Text
	for i, b := range s.Strengths {
		wear := make([]page.Text, len(jobs))
		for k, j := range jobs {
			if wear[k] = page.Say(page.W("–")); k > 0 || i == 0 ||
				s.Job != work.Weigh { // only what is bought is weighed
				wear[k] = wornText(b.Dangers.For(j).Wear)
			}
		}
		if slices.EqualFunc(wear, last, sameText) { // one row for all that ask for the same
			row := &t.Rows[len(t.Rows)-1]
			row.Cells[0].Text = append(row.Cells[0].Text, page.N(", "+b.Strength))
			continue
		}
		last = wear
		t.Rows = append(t.Rows, textRow(append([]page.Text{page.Say(page.N(b.Strength))}, wear...)...))
	}
	t.Note = page.Say(page.L("protect/"+s.Decl.ID, "Which sort, and why"), page.W(": on its own sheet."))
	return []page.Block{t}
}

func wornText(wear []work.Worn) page.Text {
	var words []string
	for _, i := range wear {
		words = append(words, i.Word)
	}
	if len(words) == 0 {
		return page.Say(page.Inline{Kind: page.Ask, Text: "first"})
	}
	return page.Say(page.N(strings.Join(words, ", ")))
}

// rateCell is what one costs at this lab's rate, or that nobody can tell.
func rateCell(d work.PackDoes) page.Text {
	if d.Cost == nil && d.CostWhy == "" && d.Aged == nil {
		return page.Say(page.W("not known: "), page.Inline{Kind: page.Ask})
	}
	return costCell(d.Cost, "")
}

// packContents is what a litre of the stock holds, by the ranges of the supplier's sheet.
func packContents(s *work.Product) []page.Block {
	b := s.Buying
	if len(b.Parts) == 0 && len(b.NotKnown) == 0 {
		return nil
	}
	t := page.Table{ID: "stock-contents", Caption: page.Say(page.S("What a litre of stock holds"),
		page.W(", worked out from the pack and its sheet")),
		Head: []page.Text{page.Say(page.W("substance")), page.Say(page.W("by volume"))}}
	for _, x := range b.Parts {
		t.Rows = append(t.Rows, textRow(page.Say(page.N(capital(x.Name))), page.Say(page.F(x.ByVolume))))
	}
	for _, name := range b.NotKnown {
		t.Rows = append(t.Rows, textRow(page.Say(page.N(capital(name))),
			page.Say(page.W("not known: "), page.Inline{Kind: page.Ask})))
	}
	return []page.Block{t}
}

// spillBlocks say in one line what to do with a small spill, and then with powder, with more,
// and where it goes when it is spent.
func (c *Context) spillBlocks(s *work.Product) (first, out []page.Block) {
	for _, x := range c.W.Subjects {
		if x.Def.ID != s.Decl.ID {
			continue
		}
		small := append(page.Say(page.S("A small spill"), page.W(", up to "), page.F(c.W.FirstAid.Small),
			page.W(": "), page.W(smallSpill(x.Spill)), page.W(" What you wiped up goes ")), wipedUp(x)...)
		first = append(first, page.Para{Text: append(small, page.W("."))})
		if x.Powders && x.Spill.Powder != "" {
			out = append(out, page.Para{Text: page.Say(page.S("Spilt powder"), page.W(": "), page.W(x.Spill.Powder))})
		}
		out = append(out, page.Para{Text: page.Say(page.S("More than that, or a smell of gas"),
			page.W(": go out, shut the door, call. "),
			page.L("spill/"+s.Decl.ID, "Its spill sheet"), page.W(" says the rest."))})
	}
	return first, append(out, c.spentPara(s.Supplied.Bath))
}

// sheetBlocks say which supplier's sheets speak of it, and until when they are new enough.
func sheetBlocks(s *work.Product) []page.Block {
	var out []page.Block
	for _, x := range s.Buying.Sheets {
		t := page.Say(page.S("Supplier’s sheet"))
		if x.Of != "" {
			t = append(t, page.W(" of "), page.N(x.Of))
		}
		t = append(t, page.W(", edition "), page.N(x.Decl.Edition.String()))
		if x.Decl.SpeaksOf != "" {
			t = append(t, page.W(", about "), page.N(stateNames[x.Decl.SpeaksOf]), page.W(" as bought"))
		}
		if x.Decl.File != "" {
			t = append(t, page.W(": "), page.D(x.Decl.File, path.Base(x.Decl.File)))
		}
		t = append(t, page.W(". After "), page.F(x.Until), page.W(" ask for a new one"))
		if x.Law != nil {
			t = append(t, page.W(", and from "), page.F(x.Since), page.W(" on in any case: "), page.N(x.Law.What))
		}
		out = append(out, page.Para{Text: append(t, page.W("."))})
	}
	if h := s.Decl.Hazards; len(out) == 0 && h != nil && h.Assessed != nil && h.Assessed.Sheet != "" {
		out = append(out, page.Para{Text: page.Say(page.S("Supplier’s sheet"), page.W(": "), page.N(h.Assessed.Sheet),
			page.W(", looked up on "), page.N(h.Assessed.On.String()), page.W(". Nobody has written its edition."))})
	}
	return out
}

// oldSheets say on the day which sheets are too old.
func oldSheets(s *work.Product) []page.Block {
	var out []page.Block
	for _, x := range s.Buying.Sheets {
		if !x.Old && !x.Changed {
			continue
		}
		t := page.Say(page.S("Ask for a new supplier’s sheet"))
		if x.Of != "" {
			t = append(t, page.W(" of "), page.N(x.Of))
		}
		t = append(t, page.W(": this one is of "), page.N(x.Decl.Edition.String()))
		if x.Old {
			t = append(t, page.W(", older than three years"))
		}
		if x.Changed {
			t = append(t, page.W(", and since "), page.F(x.Since), page.W(" "), page.N(x.Law.What))
		}
		out = append(out, page.Para{Text: append(t, page.W("."))})
	}
	return out
}

// boughtHoles are what nobody has written of what is bought.
func boughtHoles(s *work.Product) []page.Hole {
	var out []page.Hole
	d := s.Decl
	if d.State == "" && len(d.Parts) == 0 {
		out = append(out, page.Hole{What: "whether it is a powder, a liquid or tablets",
			Until: "it is taken for a powder and for a liquid: the stricter rule of both", Key: "state in " + d.File})
	}
	if len(s.Buying.Sheets) == 0 {
		out = append(out, page.Hole{What: "of which day the supplier’s sheet is",
			Until: "ask for the newest before you open a pack", Key: "sheet in " + d.File})
	}
	if s.Buying.PriceWhy != "" {
		out = append(out, page.Hole{What: "what a pack costs", Until: "no cost is worked out",
			Key: "price under pack in " + d.File + ", or in store.toml"})
	}
	return out
}
