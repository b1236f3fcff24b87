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

// litre is the volume for which capacities are told first.
var litre = unit.MustParse[unit.Volume]("1 L")

// capacityBoard says what ends each bath; behind it stands a card for each
// solution with every limit, and what one piece costs at the lab's own rate.
func capacityBoard(c *Context) []page.Page {
	p := page.Page{ID: "capacity/index", Kind: "capacity", KindLine: "Before the session", Title: "How much is in the bottle"}
	var holes []page.Hole
	first := page.Table{ID: "first", Caption: page.Say(page.S("What ends each bath"), page.W(", for one litre at this house’s rate")),
		Head: []page.Text{page.Say(page.W("bath")), page.Say(page.W("ends by")), page.Say(page.W("after")), page.Say(page.W("each costs"))}}
	pages := []page.Page{p}
	var ladders []page.Block
	for _, b := range c.Lab.Baths() {
		all := c.W.Capacities(b, litre)
		if len(all) == 0 {
			continue
		}
		head := c.W.MostUsed(b, all)
		first.Rows = append(first.Rows, c.endsRow(b, head))
		card := &pages[len(pages)-1]
		if id := "capacity/" + b.Def().ID; card.ID != id {
			pages = append(pages, c.capacityCard(id, b))
			card = &pages[len(pages)-1]
		}
		card.Do = append(card.Do, c.capacityTable(b, all))
		if t, ok := c.trayTable(b, all); ok {
			card.Do = append(card.Do, t)
		}
		if head.ByUses() {
			card.Do = append(card.Do, page.Ticks{Label: append(c.bathName(b), page.W(": a stroke for each use, up to "), page.F(head.Uses)), Count: head.Uses, Boxes: head.MostUses})
		}
		if head.Count > 0 && b.Decl().Use != "one-shot" {
			ticks := page.Ticks{Label: append(c.bathName(b), page.W(", a litre of it: a stroke for each "), page.N(head.Format.Name()), page.W(", up to "), page.F(head.N)), Count: head.N, Boxes: head.Count}
			card.Do = append(card.Do, ticks)
			if b.Decl().Use == "re-use" {
				ladders = append(ladders, ticks)
			}
		}
		if t, ok := c.batchTable(b, head); ok {
			card.Tables = append(card.Tables, t)
		}
		if chart, ok := ageChart(head); ok {
			card.Tables = append(card.Tables, chart)
		}
		if !c.W.UseOf(b).Known() {
			hole := page.Hole{What: "how much goes through " + b.Name() + ", " + b.Strength, Until: "age cannot be weighed against the other limits", Key: "[use] in lab.toml"}
			holes, card.Foot.Holes = append(holes, hole), append(card.Foot.Holes, hole)
		}
	}
	if len(first.Rows) > 0 {
		first.Note = page.Say(page.W("Counted in the format that goes through it most. Another format or tray may end it otherwise: its own card says so."))
		p.Do = append(p.Do, first)
	}
	if len(p.Do)+len(c.onlyTime()) == 0 { // nobody has written a limit or a life
		return nil
	}
	p.Tables = ladders
	p.Before, p.Never, p.Why = beforeCounting(), neverCounting(), append(append(c.onlyTime(), c.uncounted()...), whyCounting())
	p.Foot = c.foot(c.Lab.Place.Def, holes)
	pages[0] = p
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "capacity", Faces: c.wideFaces("a4")})
	return pages
}

// capacityCard begins the card of one solution.
func (c *Context) capacityCard(id string, b lab.Bath) page.Page {
	return page.Page{ID: id, Kind: "capacity", KindLine: "How much it treats", Title: capital(b.Name()), Role: roleOf(b.Role()),
		Before: beforeCounting(), Never: neverCounting(), Why: []page.Block{whyCounting()}, Foot: c.foot(b.Def(), nil)}
}

func beforeCounting() []page.Block {
	return []page.Block{page.Checklist{Label: page.Say(page.W("before you count on it")), Items: []page.Text{page.Say(page.W("read the dates on the bottle")), page.Say(page.W("count the strokes on the label")), page.Say(page.W("clip test for developers, clearing time for fixers"))}}}
}

func neverCounting() []page.Block {
	return []page.Block{page.List{Items: []page.Text{page.Say(page.W("go on counting when the bottle is too old: age ends it first")), page.Say(page.W("count films where an area or prints are meant"))}}}
}

func whyCounting() page.Block {
	return page.Para{Text: page.Say(page.W("The limit that says no first governs; every number is rounded down. Silver is known to a quarter at best: the range stands beside it. Age counts from opening or pouring, at the rate this house writes down."))}
}

func (c *Context) bathName(b lab.Bath) page.Text {
	t := page.Say(page.L("mix/"+b.Def().ID, capital(b.Name())), page.W(", "), page.N(b.Strength))
	if d := b.Decl(); d != nil && d.Dilute.Given() && !d.Dilute.None() {
		t = append(t, page.W(" "), page.N(d.Dilute.Text()))
	}
	return t
}

func (c *Context) endsRow(b lab.Bath, x capacity.Capacity) page.Row {
	name := c.bathName(b)
	name[0] = page.L("capacity/"+b.Def().ID, capital(b.Name()))
	if words := ofStock(b); words != "" {
		name = append(name, page.W(", a litre"+words))
	}
	row := page.Row{Cells: []page.Cell{{Text: name}}}
	if x.NoWhy != "" {
		return page.Row{Cells: append(row.Cells, page.Cell{No: true, Why: x.NoWhy, Refused: x.N}, page.Cell{Text: page.Say(page.W("–"))}, page.Cell{Text: page.Say(page.W("–"))})}
	}
	ends := page.Say(page.S(governWords(x.Governs)))
	for _, words := range x.With {
		ends = append(ends, page.S(" and "+words))
	}
	if x.ByUses() {
		return page.Row{Cells: append(row.Cells, page.Cell{Text: ends}, page.Cell{Text: page.Say(page.F(x.Uses), page.W(", however many at once"))}, page.Cell{Text: page.Say(page.W("–"))})}
	}
	n := x.N
	if x.Governs == "age" {
		n = x.Aged
	}
	after := page.Say(page.B(n), page.W(" × "), page.N(x.Format.ID))
	if base := x.Format.Material.Base; base != "film" {
		after = append(after, page.W(", "), page.N(string(base)))
	}
	if x.Place > 0 {
		after = append(after, page.W(", "+placeWord(x.Place)))
	}
	if x.Evening != "" {
		after = append(after, page.W(", and out "), page.N(x.Evening), page.W(" after pouring"))
	}
	if x.Uses != nil {
		after = append(after, page.W(", and out after "), page.F(x.Uses))
	}
	if x.Governs == "age" {
		after = append(after, page.W(" (limits allow "), page.B(x.N), page.W(")"))
	}
	return page.Row{Cells: append(row.Cells, page.Cell{Text: ends}, page.Cell{Text: after}, page.Cell{Text: c.costText(x)})}
}

// ofStock says that the litre of a one-shot dilution is a litre of what is in the
// bottle.
func ofStock(b lab.Bath) string {
	if work.BottleOf(b).Ref() != b.Ref() {
		return " of " + work.BottleOf(b).Strength
	}
	return ""
}

func governWords(by string) string {
	switch by {
	case "stock":
		return "the bottle is empty"
	case "count":
		return "this house’s count"
	}
	return by
}

func (c *Context) costText(x capacity.Capacity) page.Text {
	if x.Cost == nil {
		if x.CostWhy == "" {
			return page.Say(page.W("–"))
		}
		return page.Say(page.W("not known")) // its card says why
	}
	return page.Say(page.F(x.Cost))
}

var boundOrder = []string{"stock", "rolls", "area", "silver", "count", "uses", "age"}

// capacityTable is every format of one bath against every limit.
func (c *Context) capacityTable(b lab.Bath, all []capacity.Capacity) page.Block {
	t := page.Table{ID: idOf(b), Caption: append(append(page.Say(), c.bathName(b)...), page.W(": one litre"+ofStock(b)+" treats"))}
	present := map[string]string{}
	for _, x := range all {
		for _, bound := range x.Bounds {
			present[bound.By] = bound.Words
		}
	}
	t.Head = []page.Text{page.Say(page.W("of"))}
	for _, by := range boundOrder {
		if words, ok := present[by]; ok && by != "age" {
			t.Head = append(t.Head, page.Say(page.W("by "+words)))
		}
	}
	t.Head = append(t.Head, page.Say(page.W("so many")))
	if _, ok := present["age"]; ok {
		t.Head = append(t.Head, page.Say(page.W("age ends it after")))
	}
	t.Head = append(t.Head, page.Say(page.W("each costs")))
	aged := false
	for _, x := range all {
		aged = aged || x.IdealCost != nil
	}
	if aged {
		t.Head = append(t.Head, page.Say(page.W("if used up")))
	}
	for _, x := range all {
		row := page.Row{Cells: []page.Cell{{Text: formatName(x)}}}
		for _, by := range boundOrder {
			if _, ok := present[by]; ok && by != "age" {
				row.Cells = append(row.Cells, c.boundCell(x, by))
			}
		}
		row.Cells = append(row.Cells, c.numberCell(x))
		if _, ok := present["age"]; ok {
			row.Cells = append(row.Cells, c.boundCell(x, "age"))
		}
		row.Cells = append(row.Cells, page.Cell{Text: costCell(x.Cost, x.CostWhy)})
		if aged {
			row.Cells = append(row.Cells, page.Cell{Text: costCell(x.IdealCost, "")})
		}
		t.Rows = append(t.Rows, row)
	}
	if d := b.Decl(); d.Use == "one-shot" {
		if id, why := capacity.RollCost(c.Mix, b); id != nil {
			t.Note = page.Say(page.W("One shot: the stock for a roll costs "), page.F(id), page.W(". "))
		} else if why != "" {
			t.Note = page.Say(page.W("What a roll costs is not worked out: "), page.N(why), page.W(". "))
		}
		keeps, _ := work.BottleOf(b).Keeps()
		if id := capacity.Worth(c.Mix, b, c.W.MostUsed(b, all).Format, c.W.UseOf(b), keeps); id != nil && c.inBottles(id) && !c.W.SharesBottle(b) {
			t.Note = append(t.Note, page.W("More than "), page.F(id), page.W(" of stock in one opened bottle dies before it is used."))
		}
	}
	for _, x := range all {
		if x.NoWhy != "" {
			t.Note = append(append(t.Note, formatName(x)...), page.W(": "), page.N(x.NoWhy), page.W(". "))
		}
	}
	if _, ok := present["age"]; ok {
		t.Note = append(t.Note, page.W("What age ends, it ends at this house’s pace, by a month’s use: that is no number to count up to. "))
	}
	if all[0].Evening != "" {
		t.Note = append(t.Note, page.W("And out "), page.N(all[0].Evening), page.W(" after pouring, whatever was done in it. "))
	}
	if all[0].Uses != nil && !all[0].ByUses() {
		t.Note = append(t.Note, page.W("Or after "), page.F(all[0].Uses), page.W(", whichever comes first. "))
	}
	if c.W.SharesBottle(b) {
		t.Note = append(t.Note, page.W("Other strengths are drawn from the same bottle: its age is not weighed for one of them alone. "))
	}
	if all[0].Test != "" {
		t.Note = append(t.Note, page.W("Or "), page.N(trimOr(all[0].Test)), page.W("."))
	}
	return t
}

// batchTable is what each batch that the lab makes comes to: a large one may die
// of age before it is used, and then every piece costs more.
func (c *Context) batchTable(b lab.Bath, head capacity.Capacity) (page.Table, bool) {
	if b.Solution == nil || head.NoWhy != "" || head.ByUses() {
		return page.Table{}, false
	}
	if from, dil, diluted := b.From(); diluted && !dil.None() && b.Decl().Use != "one-shot" {
		if keeps, _ := from.Keeps(); keeps.Given() { // the stock stands, and is diluted by the fill: no batch dies at once
			return page.Table{}, false
		}
	}
	t := page.Table{ID: idOf(b) + "-batches", Caption: append(c.bathName(b), page.W(": by the batch, "), page.N(head.Format.Name())),
		Head: []page.Text{page.Say(page.W("made")), page.Say(page.W("so many")), page.Say(page.W("ends by")), page.Say(page.W("each costs")), page.Say(page.W("if used up"))}}
	for _, made := range c.Mix.Batches(b.Solution) {
		volume := c.Mix.Makes(b, made)
		for _, x := range c.W.CapacitiesOn(b, volume, head.Format.Material.Base) {
			if x.Format.Ref() != head.Format.Ref() || x.Place != head.Place || x.NoWhy != "" {
				continue
			}
			ends := page.Say(page.S(governWords(x.Governs)))
			for _, words := range x.With {
				ends = append(ends, page.S(" and "+words))
			}
			id := c.Mix.VolumeFigure("batch/"+mix.Tag(made.Exact()), made, figure.Where{}, figure.House, "batch made")
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.F(id))}, c.endedCell(x), {Text: ends}, {Text: costCell(x.Cost, x.CostWhy)}, {Text: costCell(x.IdealCost, "")}}})
		}
	}
	return t, len(t.Rows) > 0
}

// ageChart draws what is done at this house's rate against the limits: whichever
// is met first ends the bath.
func ageChart(x capacity.Capacity) (page.Chart, bool) {
	if x.Aged == nil || x.NoWhy != "" {
		return page.Chart{}, false
	}
	limits := []page.ChartLimit{{Label: "dead after", At: x.Life, OfX: true, Beyond: true}}
	least := -1
	for i, bound := range x.Bounds {
		if bound.By == "age" {
			continue
		}
		if least < 0 || bound.Fig.Value < x.Bounds[least].Fig.Value {
			least = i
		}
	}
	if least < 0 {
		return page.Chart{}, false
	}
	for i, bound := range x.Bounds {
		if bound.By != "age" {
			limits = append(limits, page.ChartLimit{Label: "by " + bound.Words, At: bound.Fig.Record(), Beyond: i == least})
		}
	}
	return page.Chart{Caption: page.Say(page.S("Which comes first"), page.W(", "), page.N(x.Format.Name())), X: "days", Y: "done in one litre",
		Lines: []page.ChartLine{{Label: "at this house’s rate", FromZero: true, Points: []page.ChartPoint{{X: x.Life, Y: x.Aged}}}}, Limits: limits}, true
}

func formatName(x capacity.Capacity) page.Text {
	name := page.Say(page.N(x.Format.Name()))
	if x.Place > 0 {
		name = append(name, page.W(", "+placeWord(x.Place)))
	}
	return name
}

func costCell(cost *figure.Record, why string) page.Text {
	switch {
	case cost != nil:
		return page.Say(page.F(cost))
	case why != "":
		return page.Say(page.W("not known: "), page.N(why))
	}
	return page.Say(page.W("–"))
}

// trayTable is what a bath treats in each tray.
func (c *Context) trayTable(b lab.Bath, all []capacity.Capacity) (page.Table, bool) {
	volumes := c.trayVolumes(b)
	if len(volumes) == 0 {
		return page.Table{}, false
	}
	t := page.Table{ID: idOf(b) + "-trays", Caption: append(c.bathName(b), page.W(": a tray treats, if age does not end it first")), Head: []page.Text{page.Say(page.W("of"))}}
	bigger := make([][]capacity.Capacity, len(volumes))
	for i, v := range volumes {
		t.Head = append(t.Head, page.Say(page.F(c.Mix.VolumeFigure("tray-volume/"+mix.Tag(v.Fill.Exact()), v.Fill.Quantity, v.Fill.Where(), v.Fill.By(), "fill of the "+v.Name))))
		bigger[i] = c.W.Capacities(b, v.Fill.Quantity)
	}
	for k, x := range all {
		if base := x.Format.Material.Base; base == "film" {
			continue
		}
		row := page.Row{Cells: []page.Cell{{Text: formatName(x)}}}
		for i, v := range volumes {
			switch big := bigger[i][k]; {
			case !v.Fits(x.Format):
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.W("–"))})
			default:
				row.Cells = append(row.Cells, c.numberCell(big))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t, len(t.Rows) > 0
}

func trimOr(s string) string {
	if len(s) > 3 && s[:3] == "or " {
		return s[3:]
	}
	return s
}

func placeWord(n int) string {
	if n == 1 {
		return "first bath"
	}
	return "second bath"
}

func idOf(b lab.Bath) string { return b.Def().ID + "." + b.Strength }

// inBottles reports whether a volume is less than the largest batch or bottle of
// the lab: only then does it say anything.
func (c *Context) inBottles(r *figure.Record) bool {
	for _, b := range c.Lab.Place.Bottles {
		if float64(b.Holds.Value()) > r.Value {
			return true
		}
	}
	return false
}

// trayVolumes are the trays in which a bath stands.
func (c *Context) trayVolumes(b lab.Bath) []capacity.Vessel {
	if !c.W.On(b, lab.ResinCoated) && !c.W.On(b, lab.Fibre) {
		return nil
	}
	_, trays := capacity.Vessels(c.Lab)
	var out []capacity.Vessel
	seen := map[string]bool{}
	for _, t := range trays {
		if key := t.Fill.Exact().String(); !seen[key] {
			seen[key] = true
			out = append(out, t)
		}
	}
	return out
}

func (c *Context) boundCell(x capacity.Capacity, by string) page.Cell {
	for _, b := range x.Bounds {
		if b.By != by {
			continue
		}
		text := page.Say(page.B(figure.Enter(c.Book, b.Fig)))
		if b.Fig.Low != b.Fig.High {
			text = append(text, page.W(" ("), page.B(c.span(b.Fig)), page.W(")"))
		}
		return page.Cell{Text: text, Chosen: x.Governs == by}
	}
	return page.Cell{Text: page.Say(page.W("–"))}
}

// span enters the bounds of a count as a figure of its own, so that a card can
// print them.
func (c *Context) span(f figure.Figure[unit.Factor]) *figure.Record {
	of := f.Record()
	shown := unit.Format(float64(f.Low), unit.NewDecimal(1, 0)) + "–" + unit.Format(float64(f.High), unit.NewDecimal(1, 0))
	core := figure.Core{ID: of.ID + ",range", Value: 2, Series: []float64{float64(f.Low), float64(f.High)}, Source: of.Source, Origin: of.Origin}
	return c.Book.Enter(figure.Of(core, figure.Face{Kind: figure.KindSeries, Name: of.Name + ", range", Shown: shown, Rounded: shown, Round: figure.Rounding{Rule: "bounds of the figure"}}, of))
}

// endedCell is how many it comes to, by whatever ends it.
func (c *Context) endedCell(x capacity.Capacity) page.Cell {
	if x.Governs != "age" || x.NoWhy != "" {
		return c.numberCell(x)
	}
	return page.Cell{Text: page.Say(page.B(x.Aged), page.W(" (limits allow "), page.B(x.N), page.W(")"))}
}

func (c *Context) numberCell(x capacity.Capacity) page.Cell {
	switch {
	case x.ByUses():
		return page.Cell{Text: page.Say(page.F(x.Uses))}
	case x.NoWhy != "":
		return page.Cell{No: true, Refused: x.N}
	}
	text := page.Say(page.B(x.N))
	if x.Range.Low != x.Range.High {
		text = append(text, page.W(" ("), page.B(c.span(x.Range)), page.W(")"))
	}
	return page.Cell{Text: text}
}

// onlyTime lists what is kept and ends by its date alone.
func (c *Context) onlyTime() []page.Block {
	l := page.List{Label: page.Say(page.W("only time ends these"))}
	for _, b := range c.Lab.Baths() {
		d := b.Decl()
		if b.Strength == lab.Supplied || d != nil && (len(d.Limits) > 0 || d.Use == "one-shot" && d.Needs.Given()) {
			continue
		}
		lives := c.lives(b)
		if len(lives) == 0 || c.drawnFrom(b) {
			continue
		}
		item := append(c.bathName(b), page.W(": "))
		for i, life := range lives {
			if i > 0 {
				item = append(item, page.W(", "))
			}
			item = append(item, life...)
		}
		l.Items = append(l.Items, item)
	}
	if len(l.Items) == 0 {
		return nil
	}
	return []page.Block{l}
}

// uncounted lists what the board cannot judge: silence would read as no limit.
func (c *Context) uncounted() []page.Block {
	l := page.List{Label: page.Say(page.W("not counted: ask first"))}
	for _, b := range c.Lab.Baths() {
		d := b.Decl()
		if d == nil {
			continue
		}
		why := ""
		switch limited := len(d.Limits) > 0 || d.Use == "one-shot" && d.Needs.Given(); {
		case limited && len(c.W.Bath(b.Ref()).Bases) == 0:
			why = "it has a limit, but no process here uses it"
		case !limited && len(c.lives(b)) == 0:
			why = "nobody has written how much it treats or how long it keeps"
		default:
			continue
		}
		item := append(c.bathName(b), page.W(": "+why))
		if limits := c.limitsText(b); len(limits) > 0 {
			item = append(append(append(item, page.W(" (spent at ")), limits...), page.W(")"))
		}
		l.Items = append(l.Items, item)
	}
	if len(l.Items) == 0 {
		return nil
	}
	return []page.Block{l}
}

// drawnFrom reports whether a counted one-shot strength is drawn from b.
func (c *Context) drawnFrom(b lab.Bath) bool {
	for _, other := range c.Lab.Baths() {
		d := other.Decl()
		if d == nil || d.Use != "one-shot" || !d.Needs.Given() {
			continue
		}
		if from, _, ok := other.From(); ok && from.Ref() == b.Ref() {
			return true
		}
	}
	return false
}
