package cards

import (
	"fmt"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/unit"
)

// washingBoard says how each material is washed, which of them needs the
// clearing bath, what that saves, and what arithmetic cannot promise.
func washingBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/washing", Kind: "board", KindLine: "At the sink", Title: "Washing"}
	for _, b := range c.Lab.Baths() {
		if t, ok := c.servesTable(b); ok {
			p.Do = append(p.Do, t)
		}
	}
	var decay []page.Block
	for _, process := range c.Lab.Processes {
		if process.Like != "" { // its wash is told with the process it is built on
			continue
		}
		for i, s := range process.Steps {
			if len(s.Fills) == 0 {
				continue
			}
			p.Do = append(p.Do, c.savingsTable(process, i)...)
			if process.Base == "film" && len(decay) == 0 {
				decay = c.decayTable(process, i)
			}
		}
	}
	p.Tables = decay
	if len(p.Do) == 0 {
		p.Do, p.Tables = decay, nil
	}
	if len(p.Do)+len(p.Tables) == 0 {
		return nil
	}
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("for a real wash")), Items: []page.Text{page.Say(page.W("water as warm as the baths")), page.Say(page.W("empty the tank wholly each time")), page.Say(page.W("lift the reels once"))}}}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("reckon the wash of fibre paper from these tables: fibre lets go of thiosulfate slowly, and the spot test decides")),
		page.Say(page.W("soak resin-coated prints: long wet time harms their edges")),
		page.Say(page.W("call a wash permanent because a table says so")),
	}}}
	no := c.Book.Refuse("wash/fibre", figure.KindTime, "wash of fibre paper, worked out", "s", "fibre holds thiosulfate in itself and gives it up by diffusion: neither fills nor flow can be reckoned", figure.House)
	p.Why = []page.Block{page.Table{ID: "fibre", Caption: page.Say(page.S("Fibre paper"), page.W(", worked out from fills or flow")), Rows: []page.Row{{Cells: []page.Cell{{Text: page.Say(page.W("minutes"))}, {No: true, Why: "fibre gives it up slowly: clearing bath, a long wash, the spot test", Refused: no}}}}},
		page.Para{Text: page.Say(page.W("What counts is the number of changes and the wait in each, not the litres. The figures compare one wash with another; a test of the washed film says what is really left (the laboratory’s way is in "), page.N("ISO 18917"), page.W(")."))}}
	p.Foot = c.foot(c.Lab.Place.Def, nil)
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "washing", Faces: c.wideFaces("a4")})
	return []page.Page{p}
}

// servesTable says which materials need a bath, may have it, or must not: a
// verdict for each, with how many a litre treats.
func (c *Context) servesTable(b lab.Bath) (page.Table, bool) {
	d := b.Decl()
	if d == nil || len(d.Serves) == 0 {
		return page.Table{}, false
	}
	t := page.Table{ID: idOf(b), Caption: append(c.bathName(b), page.W(": who needs it")), Head: []page.Text{page.Say(page.W("material")), page.Say(page.W("the bath")), page.Say(page.W("a litre treats"))}}
	for _, base := range lab.Bases {
		answer, ok := d.Serves[base]
		if !ok {
			continue
		}
		c.Book.EnterVerdict(figure.Verdict{ID: b.Ref() + "/serves." + string(base), Answer: string(answer), Because: []string{"written in " + b.Def().File}, Source: "common practice, no source"})
		if answer == "never" {
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.W(string(base)))}, {No: true, Why: "never: more wet time does harm"}, {Text: page.Say(page.W("not used"))}}})
			continue
		}
		before := len(t.Rows)
		for _, x := range c.W.CapacitiesOn(b, litre, base) {
			if x.NoWhy == "" && !x.ByUses() {
				t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.N(x.Format.Name()))}, {Text: page.Say(page.S(string(answer)))}, {Text: page.Say(page.B(x.N))}}})
			}
		}
		if len(t.Rows) == before {
			t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.W(string(base)))}, {Text: page.Say(page.S(string(answer)))}, {Text: page.Say(page.W("–"))}}})
		}
	}
	return t, len(t.Rows) > 0
}

// savingsTable is what the fills of a step save in each tank against running
// water (F4).
func (c *Context) savingsTable(p *lab.Process, i int) []page.Block {
	t := page.Table{ID: p.ID + "-" + p.Steps[i].ID, Caption: page.Say(page.L("process/"+p.ID, p.Name), page.W(": fill and dump against running water")),
		Head: []page.Text{page.Say(page.W("tank")), page.Say(page.W("fills")), page.Say(page.W("water")), page.Say(page.W("running")), page.Say(page.W("saved")), page.Say(page.W("worth"))}}
	tanks, _ := capacity.Vessels(c.Lab)
	seen := map[string]bool{}
	for _, v := range tanks {
		tank, _, _ := strings.Cut(v.Key, ",")
		if seen[tank+v.Fill.Text()] {
			continue
		}
		seen[tank+v.Fill.Text()] = true
		s, ok := capacity.FillsSave(c.Mix, p, i, v)
		if !ok {
			continue
		}
		name := page.Say(page.N(v.Name))
		if q := c.Lab.Place.Tanks[tank].Fill.Of(v.Family); len(c.Lab.Place.Tanks[tank].Fill.For) > 0 && q.Given() {
			name = append(name, page.W(", "), page.N(v.Family))
		}
		row := page.Row{Cells: []page.Cell{{Text: name}, {Text: page.Say(page.F(s.Fills))}, {Text: page.Say(page.F(s.Water))}, {Text: page.Say(page.F(s.Running))}, {Text: page.Say(page.F(s.Saved))}}}
		if s.Money != nil {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(s.Money))})
		} else {
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.W("no price: "), page.Inline{Kind: page.Ask})})
		}
		t.Rows = append(t.Rows, row)
	}
	if len(t.Rows) == 0 {
		return nil
	}
	if s := p.Steps[i]; s.Within.Given() {
		id := figure.Declare(c.Book, p.ID+"/within."+s.ID, figure.KindTemperature, figure.Given(s.Within, p.At(lab.StepKey(i)+".within"), figure.House, "within"), unit.Short(float64(s.Within.Value())), "K")
		t.Note = page.Say(page.W("Water within "), page.F(id), page.W(" of the baths. Real only if the running wash is left out."))
	}
	return []page.Block{t}
}

// decayTable follows the thiosulfate through the fills of the smallest tank.
func (c *Context) decayTable(p *lab.Process, i int) []page.Block {
	var fixer lab.Bath
	for j := i - 1; j >= 0 && fixer.Zero(); j-- {
		if p.Steps[j].Bath == "" {
			continue
		}
		if b, bad := c.Lab.Bath(p.Steps[j].Bath, p.At(lab.StepKey(j))); len(bad) == 0 && b.Role() == "fixer" {
			fixer = b
		}
	}
	tanks, _ := capacity.Vessels(c.Lab)
	formats := capacity.Formats(c.Lab, c.Lab.OfBase(p.Base)...)
	if fixer.Zero() || len(tanks) == 0 || len(formats) == 0 {
		return nil
	}
	vessel, format, ok := tankFor(tanks, formats)
	if !ok {
		return nil
	}
	d := capacity.FillsDecay(c.Mix, p, fixer, vessel, format)
	if d.Why != "" {
		return []page.Block{page.Para{Text: page.Say(page.W("What each fill leaves is not worked out: "), page.N(d.Why), page.W("."))}}
	}
	t := page.Table{ID: "decay", Caption: page.Say(page.S("What each fill leaves"), page.W(", "), page.N(format.Name()), page.W(" in the "), page.N(vessel.Name)),
		Head: []page.Text{page.Say(page.W("after")), page.Say(page.W("thiosulfate in the water")), page.Say(page.W("in the gelatin")), page.Say(page.W("if all of it dried on"))}}
	var fills []*figure.Record
	for _, w := range d.After {
		n := figure.Declare(c.Book, fmt.Sprintf("fills/%d", w.N), figure.KindCount, figure.Constant(unit.Factor(w.N), "fills", "", figure.Standard), fmt.Sprint(w.N), unit.Plural(w.N, "fill"))
		fills = append(fills, n)
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: page.Say(page.F(n))}, {Text: page.Say(page.F(w.Water))}, {Text: page.Say(page.F(w.Gelatin))}, {Text: page.Say(page.F(w.Dried))}}})
	}
	t.Note = page.Say(page.W("From "), page.F(d.Start), page.W(" of thiosulfate in the fixer; a roll carries "), page.F(d.Carried), page.W(" into "), page.F(d.Fresh), page.W(" of fresh water. Film that is to last may keep "), page.F(d.Limit), page.W("."))
	if d.Needed != nil {
		t.Note = append(t.Note, page.W(" If all of it dried on, that takes "), page.F(d.Needed), page.W("; this house turns one more."))
	}
	if d.Running != nil {
		t.Note = append(t.Note, page.W(" Running water that mixes wholly cannot do it in less than "), page.F(d.Running), page.W(", and the film itself takes minutes to give it up."))
	}
	var points []page.ChartPoint
	for i, w := range d.After {
		points = append(points, page.ChartPoint{X: fills[i], Y: w.Dried})
	}
	chart := page.Chart{Caption: page.Say(page.S("The same, drawn"), page.W(": each step down is the same factor")), X: "fills", Y: "left if all of it dried on", LogY: true,
		Lines: []page.ChartLine{{EachX: true, Points: points}}, Limits: []page.ChartLimit{{Label: "to last", At: d.Limit, Beyond: true}}}
	return []page.Block{t, chart}
}

// tankFor is the smallest tank that takes a format that counts as a whole roll.
func tankFor(tanks []capacity.Vessel, formats []capacity.Format) (capacity.Vessel, capacity.Format, bool) {
	for _, v := range tanks {
		for _, f := range formats {
			if f.Decl.Family == v.Family && f.Decl.Rolls.Given() && f.Decl.Rolls.Value() == 1 {
				return v, f, true
			}
		}
	}
	return capacity.Vessel{}, capacity.Format{}, false
}
