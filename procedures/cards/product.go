package cards

import (
	"path"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/series"
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
	if len(s.Bought.Parts) > 0 {
		p.Lead = kitHolds(s.Bought.Parts)
	}
	p.Key = boughtAmounts(s)
	p.Before = beforeJob(s.Job, known)
	// On one sheet of paper: what it does to people and where it goes first, what it costs last
	// and in short. The tables stay on the screen and in the binder.
	p.Do = append(divideBlocks(s), c.usedHere(s), c.byStrength(s))
	p.Do = append(append(p.Do, c.spillPieces(s)...), c.inShort(s)...)
	p.Do = append(p.Do, nothingDone(s)...)
	p.Tables = paceBlocks(s)
	for _, does := range s.Buying.Does {
		p.Tables = append(p.Tables, c.doesBlocks(s, does)...)
	}
	p.Tables = append(p.Tables, worthTable(s)...)
	p.Never = bottleNever(s.Supplied.Bath, d.Never, filmAndPaper(s.Strengths...))
	if d.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(d.Note))})
	}
	if classes := hazardBlock(known).Classes; len(classes) > 0 {
		p.Why = append(p.Why, page.List{Label: page.Say(page.W("why these hazards")), Items: classes, Lines: true})
	}
	p.Today = append(append(oldSheets(s), c.inStore(d)...), c.onShelf(d.ID)...)
	p.Foot = c.foot(d.Def, append(boughtHoles(s), productHoles(s)...))
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
	for i, m := range s.Buying.Makes {
		label := "a pack makes"
		if i > 0 {
			label = "or"
		}
		note := page.Say(page.N(m.Bath.Strength))
		if d := m.Bath.Decl(); d != nil && d.Dilute.Given() {
			note = append(note, page.W(", "), page.N(d.Dilute.Text()))
		}
		add(label, page.Say(page.F(m.Volume)), note)
	}
	return out
}

// packInShort is how a pack is made up, in one line for each step; its mixing card says it
// large.
func packInShort(s *work.Product) []page.Text {
	var out []page.Text
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
			out = append(out, t)
		}
	}
	return out
}

// packKeeps is how long a product keeps in each strength, and of a kit each of its parts.
func (c *Context) packKeeps(s *work.Product) []page.Text {
	var out []page.Text
	for _, part := range s.Bought.Parts {
		item := page.Say(page.S(part.Name), page.W(": "))
		for i, l := range part.Lives {
			if i > 0 {
				item = append(item, page.W(", "))
			}
			item = append(item, page.W(l.Word+" "), page.F(l.Time))
		}
		if len(part.Lives) > 0 {
			out = append(out, item)
		}
	}
	told := slices.ContainsFunc(s.Strengths, func(b *work.Bath) bool { return len(b.Lives) > 0 })
	if told || len(out) == 0 { // nobody has said it of its parts, or not of them alone
		out = append(out, c.keepsLines(s.Strengths)...)
	}
	return out
}

// inShort is how long it keeps, on paper what it does, which sheet speaks of it, how it is made
// up and what is in it. What another card says large comes last.
func (c *Context) inShort(s *work.Product) []page.Block {
	out := page.Abreast{Columns: []page.Column{{Head: page.Say(page.W("Keeps")),
		Items: append(c.packKeeps(s), c.spentText(s.Supplied.Bath))}}}
	does, long := doesInShort(s)
	if !long {
		out.Columns = append(out.Columns, does...)
	}
	out.Columns = append(out.Columns, sheetColumn(s)...)
	if made := packInShort(s); len(made) > 0 {
		out.Columns = append(out.Columns, page.Column{Head: page.Say(page.L("mix/"+s.Decl.ID, "How it is made up")),
			Items: made, Elsewhere: true})
	}
	out.Columns = append(out.Columns, contentsInShort(s)...)
	if long {
		return []page.Block{page.Abreast{Only: page.Only{Paper: true}, Columns: does}, out}
	}
	return []page.Block{out}
}

// byStrength is what it does to people and what to wear, of what is bought and of each
// strength beside each other. Strengths of which the same is said share a piece.
func (c *Context) byStrength(s *work.Product) page.Block {
	type piece struct {
		names []string
		says  []page.Text
		worn  []page.Text // what to wear, of each name
		signs []string
	}
	var list []*piece
	var first page.Text
	for i, b := range s.Strengths {
		job := work.AtWork
		if i == 0 {
			job = s.Job
		}
		h := hazardBlock(b.Dangers)
		says := []page.Text{dangerWord(b.Dangers, h)}
		run := page.Joined(statementsOf(b.Dangers, true), " ")
		switch {
		case i == 0:
			first = run
		case len(run) > 0 && sameText(run, first):
			run = page.Say(page.W("As dangerous as ‘"), page.N(s.Strengths[0].Strength), page.W("’."))
		}
		if len(run) > 0 {
			says = append(says, run)
		}
		for n, f := range b.Dangers.Besides() {
			if n == 0 {
				says = append(says, page.Say(page.S("By what is in it, besides"), page.W(":")))
			}
			last := &says[len(says)-1]
			*last = append(*last, page.W(" "+strings.TrimSuffix(f.Statement, ".")+" ("), page.N(f.Class.Code), page.W(")."))
		}
		worn := wornText(b.Dangers.For(job))
		k := slices.IndexFunc(list, func(p *piece) bool { return slices.EqualFunc(p.says, says, sameText) })
		if k < 0 {
			k, list = len(list), append(list, &piece{says: says, signs: h.Pictograms})
		}
		list[k].names, list[k].worn = append(list[k].names, b.Strength), append(list[k].worn, worn)
	}
	var out page.Abreast
	for _, p := range list {
		items := p.says[:1:1]
		for i, worn := range p.worn {
			at := slices.IndexFunc(p.worn, func(t page.Text) bool { return sameText(t, worn) })
			if at < i { // said with the first that wears it
				continue
			}
			var of []string
			for k := i; k < len(p.worn); k++ {
				if sameText(p.worn[k], worn) {
					of = append(of, p.names[k])
				}
			}
			if len(of) < len(p.names) {
				worn = append(page.Say(page.N(capital(series.Of(of))), page.W(": ")), worn...)
			}
			items = append(items, worn)
		}
		out.Columns = append(out.Columns, page.Column{Signs: p.signs, Items: append(items, p.says[1:]...),
			Head: page.Say(page.L("protect/"+s.Decl.ID, capital(series.Of(p.names))))})
	}
	return out
}

// dangerWord is what a reader sees first of what is known, and in few words how it is known.
func dangerWord(k work.Dangers, h page.Hazards) page.Text {
	word := "No signal word"
	switch {
	case h.Signal != "":
		word = strings.ToUpper(h.Signal)
	case h.Status == "not classified" || k.Status == work.Supplied && len(k.Classes) == 0:
		word = "Not classified"
	}
	switch k.Status {
	case work.Unknown:
		return h.Note
	case work.Supplied:
		return page.Say(page.S(word), page.W(", by its sheet"))
	case work.Computed:
		return page.Say(page.S(word), page.W(", worked out"))
	case work.Carried:
		return page.Say(page.S(word), page.W(", as if undiluted"))
	case work.Unclassified:
		return page.Say(page.S(word), page.W(": nothing in it is"))
	case work.Overridden:
		return append(page.Say(page.S(word), page.W(". ")), h.Note...)
	}
	return page.Say(page.S(word))
}

// kitHolds says what the packs of a kit are.
func kitHolds(parts []work.KitPart) page.Text {
	t := page.Say(page.W("a kit: "))
	for i, part := range parts {
		if i > 0 {
			t = append(t, page.W(", "))
		}
		t = append(t, page.N(part.Name))
		if part.Pack.Holds != nil {
			t = append(t, page.W(" "), page.F(part.Pack.Holds))
		}
	}
	return t
}

// worthTable says which materials need it here.
func worthTable(s *work.Product) []page.Block {
	t := page.Table{ID: "worth", Caption: page.Say(page.S("Is it worth having?")),
		Head: []page.Text{page.Say(page.W("material")), page.Say(page.W("needs it")), page.Say(page.W("reason"))}}
	for _, n := range s.Buying.Needs {
		t.Rows = append(t.Rows, needRows(n)...)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}

// usedHere says how each process uses it, and on paper which materials want it: the table with
// the reasons stays on the screen.
func (c *Context) usedHere(s *work.Product) page.Block {
	uses := page.Column{Head: page.Say(page.W("How it is used here"))}
	for _, u := range s.Buying.Ways {
		uses.Items = append(uses.Items, wayText(u))
	}
	for _, b := range s.Buying.Into {
		uses.Items = append(uses.Items, page.Say(page.W("it goes into "), page.L("mix/"+b.Def().ID, b.Name()), page.W(".")))
	}
	if len(uses.Items) == 0 {
		uses.Items = []page.Text{page.Say(page.W("no process of this lab uses it. Before you buy it, write the step that wants it."))}
	}
	out := page.Abreast{Columns: []page.Column{uses}}
	worth := page.Column{Only: page.Only{Paper: true}, Head: page.Say(page.W("What needs it"))}
	for _, n := range s.Buying.Needs {
		for _, row := range needRows(n) {
			t := append(slices.Clone(row.Cells[0].Text), page.W(": "))
			if row.Cells[1].No {
				t = append(t, page.S("never"))
			}
			worth.Items = append(worth.Items, append(t, row.Cells[1].Text...))
		}
	}
	if len(worth.Items) > 0 {
		out.Columns = append(out.Columns, worth)
	}
	return out
}

// needRows are the answers for one base: of what hangs on the fixing bath, one for each.
func needRows(n work.Need) []page.Row {
	base := page.Cell{Text: page.Say(page.W(string(n.Base)))}
	reason := func(words string) page.Cell { return page.Cell{Text: page.Say(page.W(words))} }
	switch n.Answer {
	case lab.Never:
		return []page.Row{{Cells: []page.Cell{base, {No: true},
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
	t = append(t, page.W(" in the "), page.N(u.Bath.Strength), page.W(" strength"))
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
	paced := slices.ContainsFunc(x.Does, func(d work.PackDoes) bool { return d.Told })
	if paced {
		t.Head = append(t.Head, page.Say(page.W("here, ended by")))
	}
	t.Head = append(t.Head, page.Say(page.W("one costs, if all is used")))
	if paced {
		t.Head = append(t.Head, page.Say(page.W("one costs here")))
	}
	for _, d := range x.Does {
		most := append(page.Say(page.B(d.Full)), page.W(", by "+strings.Join(yieldWords(d), " and ")))
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(formatName(d)))}, {Text: most}}}
		if others {
			row.Cells = append(row.Cells, page.Cell{Text: orNone(otherWords(d))})
		}
		if paced {
			row.Cells = append(row.Cells, page.Cell{Text: endedBy(d), Chosen: d.Share != nil})
		}
		row.Cells = append(row.Cells, page.Cell{Text: costCell(d.CostFull, d.CostWhy)})
		if paced {
			row.Cells = append(row.Cells, page.Cell{Text: rateCell(d)})
		}
		t.Rows = append(t.Rows, row)
	}
	return append([]page.Block{t}, aloneBelow(doesNote(s, x))...)
}

// doesInShort is the same in few words for each material that this lab uses, for paper alone, and
// what ends the pack here. It is long where it holds for more formats than one narrow piece is read for.
func doesInShort(s *work.Product) (out []page.Column, long bool) {
	const most = 3
	formats := 0
	does := page.Column{Only: page.Only{Paper: true}, Head: page.Say(page.W("What one pack does"))}
	for _, x := range s.Buying.Does {
		for _, list := range byMaterial(x.Does) {
			t := page.Say(page.N(x.Bath.Strength), page.W(", "), page.N(list[0].Format.Material.Name), page.W(", at most "))
			formats += len(list)
			for i, d := range list {
				if i > 0 {
					t = append(t, page.W("; "))
				}
				t = append(append(t, page.N(lab.InSides(d.Format.ID)), page.W(" ")), oneDone(d)...)
			}
			does.Items = append(does.Items, append(t, page.W(", by "+yieldWord(list[0].FullBy)+".")))
		}
	}
	if len(does.Items) == 0 {
		return nil, false
	}
	switch x := s.Buying.Pace; {
	case !x.Known():
	case x.Age:
		does.Items = append(does.Items, page.Say(page.S("Age ends it first"), page.W(": it keeps "), page.F(x.Life),
			page.W(", and this lab’s work uses it up in "), page.F(x.Lasts), page.W(".")))
	default:
		does.Items = append(does.Items, page.Say(page.W("This lab’s work uses it up in "), page.F(x.Lasts),
			page.W(", before it is too old.")))
	}
	return []page.Column{does}, formats > most
}

// byMaterial are the formats that this lab uses, those together of which one material and one word say
// how many.
func byMaterial(all []work.PackDoes) [][]work.PackDoes {
	var out [][]work.PackDoes
	for _, d := range all {
		if d.Unused {
			continue
		}
		last := len(out) - 1
		if last < 0 || out[last][0].Format.Material != d.Format.Material || out[last][0].FullBy != d.FullBy {
			out = append(out, nil)
			last++
		}
		out[last] = append(out[last], d)
	}
	return out
}

// oneDone is how many of a format a pack does, and what one costs: if all is used, and here.
func oneDone(d work.PackDoes) page.Text {
	t := page.Say(page.B(d.Full))
	switch {
	case d.Share != nil:
		t = append(t, page.W(", here "), page.B(d.Share), page.W(" (age)"))
	case d.Bath != nil:
		t = append(t, page.W(", in each litre "), page.B(d.Bath), page.W(" (age)"))
	}
	if d.CostFull != nil {
		t = append(t, page.W(", each "), page.F(d.CostFull))
		if d.Cost != nil && d.Cost.Shown != d.CostFull.Shown {
			t = append(t, page.W(", here "), page.F(d.Cost))
		}
	}
	return t
}

// formatName names what a pack does: its material, and the format by its id.
func formatName(d work.PackDoes) string {
	return d.Format.Material.Name + ", " + lab.InSides(d.Format.ID)
}

// endedBy is what ends a pack first at this lab's rate.
func endedBy(d work.PackDoes) page.Text {
	switch {
	case !d.Told:
	case d.Unused:
		return page.Say(page.W("not used in this lab"))
	case d.Share != nil:
		return page.Say(page.S("age"), page.W(", after "), page.B(d.Share))
	case d.Bath != nil:
		return page.Say(page.S("age of the bath"), page.W(", after "), page.B(d.Bath),
			page.W(" in each litre"))
	default:
		return page.Say(page.S(yieldWord(d.FullBy)))
	}
	return page.Say(page.W("not known: "), page.Inline{Kind: page.Ask})
}

// otherWords are what our limits or others allow beside the smallest.
func otherWords(d work.PackDoes) page.Text {
	var list []page.Text
	for _, w := range wordsOf(d) {
		if w.n.Shown != d.Full.Shown {
			list = append(list, page.Say(page.B(w.n), page.W(" by "+w.by)))
		}
	}
	return page.InLine(list)
}

// yieldWords say by whose words and limits the smallest holds.
func yieldWords(d work.PackDoes) []string {
	out := []string{yieldWord(d.FullBy)}
	for _, w := range wordsOf(d) {
		if w.n.Shown == d.Full.Shown && !slices.Contains(out, w.by) {
			out = append(out, w.by)
		}
	}
	return out
}

// packWord is how many a pack does by one word.
type packWord struct {
	n  *figure.Record
	by string
}

// wordsOf are how many a pack does by each word, those that say the same once.
func wordsOf(d work.PackDoes) []packWord {
	var out []packWord
	add := func(n *figure.Record, by string) {
		if !slices.ContainsFunc(out, func(w packWord) bool { return w.by == by && w.n.Shown == n.Shown }) {
			out = append(out, packWord{n, by})
		}
	}
	if d.Ours != nil {
		add(d.Ours, yieldWord(d.OursBy))
	}
	for _, said := range d.Said {
		add(said.N, yieldWord(said.Says.String()))
	}
	return out
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
	if x.Evening != nil && !slices.ContainsFunc(x.Does, func(d work.PackDoes) bool { return d.Bath != nil }) {
		t = append(t, page.W("A tray of it is discarded "), page.F(x.Evening),
			page.W(" after pouring: that is not counted here. "))
	}
	if s.Buying.PriceWhy != "" {
		t = append(t, page.W("Cost: not known, "), page.N(s.Buying.PriceWhy), page.W(". "))
	}
	return append(t, page.W("The smaller number counts."))
}

// paceBlocks say how a pack ends here once it is begun, with all that is worked with it; or
// why nobody can tell.
func paceBlocks(s *work.Product) []page.Block {
	x, why := s.Buying.Pace, s.Buying.PaceWhy
	told := slices.ContainsFunc(s.Buying.Does, func(p work.PackStrength) bool {
		return slices.ContainsFunc(p.Does, func(d work.PackDoes) bool { return d.Told })
	})
	switch {
	case len(s.Buying.Does) == 0 || told && !x.Known(): // its tables say it
		return nil
	case !x.Known():
		return []page.Block{page.Para{Text: append(page.Say(page.S("How long a pack lasts here"),
			page.W(" is not known: ")), append(paceWhy(why), page.W(". "), page.Inline{Kind: page.Ask})...)}}
	}
	begun := "once it is begun"
	if m := s.Bought.Makes; m != nil && m.Divide != lab.MayDivide {
		begun = "once it is made up"
	}
	t := page.Say(page.S("How long a pack lasts here"), page.W(": "))
	if len(why.NoUse)+len(why.NoLimit) > 0 {
		t = append(append(t, paceWhy(why)...), page.W(". All else uses it up in "))
	} else {
		t = append(t, page.W("all the work of a month together uses it up in "))
	}
	t = append(t, page.F(x.Lasts), page.W(", and "+begun+" it keeps "), page.F(x.Life), page.W(" ("+x.State+")"))
	if x.Part != "" {
		t = append(t, page.W(": "), page.N(s.Decl.PartName(x.Part)), page.W(" keeps shortest"))
	}
	if !x.Age {
		return []page.Block{page.Para{Text: append(t, page.W(". So it is used up before it is too old."))}}
	}
	return []page.Block{page.Para{Text: append(t, page.W(". So "), page.S("age ends it first"),
		page.W(", when "), page.F(x.Used), page.W(" of it is used."))}}
}

// paceWhy says why nobody can tell how long a pack lasts.
func paceWhy(why work.PaceWhy) page.Text {
	var list []page.Text
	if len(why.NoUse) > 0 {
		list = append(list, page.Say(page.W("nobody has written under [use] in lab.toml how much a month takes of "),
			page.N(names(why.NoUse))))
	}
	if len(why.NoLimit) > 0 {
		list = append(list, page.Say(page.W("nobody has written a limit by which "), page.N(names(why.NoLimit)),
			page.W(" can be counted")))
	}
	if why.NoPack {
		list = append(list, page.Say(page.W("no work of this lab uses it")))
	}
	if why.NoLife {
		list = append(list, page.Say(page.W("nobody has written how long a pack keeps once it is begun")))
	}
	return page.InLine(list)
}

// nothingDone says why nobody knows what a pack does.
func nothingDone(s *work.Product) []page.Block {
	why := ": nobody has written a yield or a limit that can be counted. "
	switch b := s.Buying; {
	case len(b.Does) > 0:
		return nil
	case b.NoPack:
		why = ": a limit or a yield is written, and nobody has written how much a pack holds or makes. "
	case b.NoMaterial:
		why = ": a limit or a yield is written, and no film or paper of this lab that it could be counted for. Write one in the folder materials. "
	}
	return []page.Block{page.Para{Text: page.Say(page.S("What one pack does"), page.W(why),
		page.Inline{Kind: page.Ask, Text: "first"})}}
}

// supplierNotes are what the supplier's sheets say beside the classes, in the words of who
// has written it down.
func supplierNotes(d *lab.Product) []page.Text {
	var out []page.Text
	add := func(of string, h *lab.Hazards) {
		if h == nil || h.Note == "" {
			return
		}
		var t page.Text
		if of != "" {
			t = page.Say(page.W("Of "), page.N(of), page.W(": "))
		}
		t = append(t, page.N(strings.TrimSuffix(h.Note, ".")+"."))
		switch {
		case h.Assessed != nil && h.Assessed.By == "supplier":
			t = append(t, page.W(" So says the supplier."))
		case h.Assessed != nil && h.Assessed.By != "":
			t = append(t, page.W(" So says: "), page.N(h.Assessed.By), page.W("."))
		}
		out = append(out, t)
	}
	add("", d.Hazards)
	for _, id := range d.PartIDs() {
		add(d.PartName(id), d.Parts[id].Hazards)
	}
	return out
}

// contentsInShort are what is in it by the supplier's sheet, and how acid it is, as written;
// its mixing card has the table.
func contentsInShort(s *work.Product) []page.Column {
	var out []page.Column
	add := func(of string, parts []work.Part) {
		if len(parts) == 0 {
			return
		}
		in := page.Column{Head: page.Say(page.W("In it, by its sheet")), Elsewhere: true}
		if of != "" {
			in.Head = page.Say(page.W("In "), page.N(of), page.W(", by its sheet"))
		}
		for _, x := range parts {
			t := page.Say(page.N(x.Name))
			if x.ByMass == nil {
				t = append(t, page.W(": the rest"))
			} else {
				t = append(t, page.W(" "), page.F(x.ByMass))
			}
			in.Items = append(in.Items, t)
		}
		out = append(out, in)
	}
	add("", s.Parts)
	for _, part := range s.Bought.Parts {
		add(part.Name, part.Contains)
	}
	written := page.Column{Head: page.Say(page.W("pH as written")), Elsewhere: true}
	for _, b := range s.Strengths {
		if b.Acid.Measured != nil {
			written.Items = append(written.Items, page.Say(page.N(b.Strength), page.W(": "), page.F(b.Acid.Measured)))
		}
	}
	if len(written.Items) > 0 {
		out = append(out, written)
	}
	return out
}

// inStore are the packs of it that stand in the store on the day, those past their date first
// and loud.
func (c *Context) inStore(d *lab.Product) []page.Block {
	if c.W.Store == nil {
		return nil
	}
	var past []page.Text
	l := page.List{Label: page.Say(page.L("shelf/store", "In the store"), page.W(" today")), Lines: true}
	for _, x := range c.W.Store.Packs {
		if x.Product != d {
			continue
		}
		t := page.Say(page.N(capital(x.Name)))
		if x.Lot != "" {
			t = append(t, page.W(", lot "), page.N(x.Lot))
		}
		if x.Left != nil {
			t = append(t, page.W(": "), page.F(x.Left), page.W(" left"))
		} else {
			t = append(t, page.W(": what is left, nobody has written"))
		}
		if x.Opened != nil {
			t = append(t, page.W(", opened "), page.F(x.Opened))
		}
		if x.Past {
			past = append(past, append(page.Say(page.S("Use none of it"), page.W(": ")), append(t,
				page.W(", past its best-before of "), page.F(x.BestBefore), page.W(". "),
				page.Inline{Kind: page.Ask, Text: "first"})...))
			continue
		}
		if x.BestBefore != nil {
			t = append(t, page.W(", best before "), page.F(x.BestBefore))
		}
		l.Items = append(l.Items, t)
	}
	if len(past) > 0 {
		return []page.Block{page.Cautions{Items: past}, l}
	}
	if len(l.Items) == 0 {
		l.Items = []page.Text{page.Say(page.W("none"))}
	}
	return []page.Block{l}
}

// wornText is what to wear for a job, in words.
func wornText(of work.JobGear) page.Text {
	var words []string
	for _, i := range of.Wear {
		words = append(words, i.Word)
	}
	switch {
	case len(words) > 0:
		return page.Say(page.S("Wear"), page.W(": "), page.N(strings.Join(words, ", ")))
	case of.Unknown:
		return page.Say(page.W("What to wear: "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	return page.Say(page.W(normalCare))
}

// rateCell is what one costs at this lab's rate, or that nobody can tell.
func rateCell(d work.PackDoes) page.Text {
	switch {
	case d.Told && d.Unused:
		return page.Say(page.W("–"))
	case d.Cost == nil && d.CostWhy == "" && !d.Told:
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

// spillPieces say what to do with a small spill, with powder, and with more, beside each other.
func (c *Context) spillPieces(s *work.Product) (out []page.Block) {
	for _, x := range c.W.Subjects {
		if x.Def.ID != s.Decl.ID {
			continue
		}
		var a page.Abreast
		add := func(head, text page.Text) {
			a.Columns = append(a.Columns, page.Column{Head: head, Items: []page.Text{text}})
		}
		small := append(page.Say(page.W(capital(smallSpill(x.Spill))+" What you wiped up goes ")), wipedUp(x)...)
		add(page.Say(page.W("A small spill, up to "), page.F(c.W.FirstAid.Small)), append(small, page.W(".")))
		if x.Powders && x.Spill.Powder != "" {
			add(page.Say(page.W("Spilt powder, up to "), page.F(c.W.FirstAid.Powder)), page.Say(page.W(capital(x.Spill.Powder))))
		}
		add(page.Say(page.W("More, or a smell of gas")), page.Say(page.W("Go out, shut the door, call. "),
			page.L("spill/"+s.Decl.ID, "Its spill sheet"), page.W(" says the rest.")))
		a.Columns = append(a.Columns, supplierColumns(s.Decl)...)
		out = append(out, a)
	}
	return out
}

// supplierColumns are those notes as pieces.
func supplierColumns(d *lab.Product) []page.Column {
	notes := supplierNotes(d)
	if len(notes) == 0 {
		return nil
	}
	return []page.Column{{Head: page.Say(page.W("Beside the classes")), Items: notes}}
}

// sheetColumn says which supplier's sheets speak of it, and until when they are new enough. Parts of a kit of
// which the sheets say the same of themselves stand together.
func sheetColumn(s *work.Product) []page.Column {
	out := page.Column{Head: page.Say(page.W("Supplier’s sheet"))}
	done := map[int]bool{}
	for i, x := range s.Buying.Sheets {
		if done[i] {
			continue
		}
		of := []string{x.Of}
		for n, other := range s.Buying.Sheets[i+1:] {
			if sameSheet(x, other) {
				of, done[i+1+n] = append(of, other.Of), true
			}
		}
		var t page.Text
		if x.Of != "" {
			t = page.Say(page.W("of "), page.N(strings.Join(of, " and ")), page.W(": "))
		}
		t = append(t, page.W("edition "), page.N(x.Decl.Edition.String()))
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
		out.Items = append(out.Items, append(t, page.W(".")))
	}
	if h := s.Decl.Hazards; len(out.Items) == 0 && h != nil && h.Assessed != nil && h.Assessed.Sheet != "" {
		out.Items = append(out.Items, page.Say(page.N(h.Assessed.Sheet), page.W(", looked up on "),
			page.N(h.Assessed.On.String()), page.W(". Nobody has written its edition.")))
	}
	if len(out.Items) == 0 {
		return nil
	}
	return []page.Column{out}
}

// sameSheet reports two sheets that say the same of themselves, and are no files of their own. The day until
// which they are new enough goes by their edition.
func sameSheet(x, y work.Sheet) bool {
	a, b := x.Decl, y.Decl
	law := x.Law == y.Law || x.Law != nil && y.Law != nil && x.Law.What == y.Law.What && x.Since.Shown == y.Since.Shown
	return a.File == "" && b.File == "" && a.Edition.String() == b.Edition.String() && a.SpeaksOf == b.SpeaksOf && law
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
