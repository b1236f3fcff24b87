package cards

import (
	"fmt"
	"sort"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/page"
	"wetside/procedures/unit"
)

// shareTables say which films may lie in one tank: those of one time, and two
// formats of one film where the tank holds both.
func (k *processCard) shareTables() []page.Block {
	if k.devStep < 0 {
		return nil
	}
	t := page.Table{ID: "share", Caption: page.Say(page.S("May they share a tank?"), page.W(" Split by time, not by format")),
		Head: []page.Text{page.Say(page.W("these two")), page.Say(page.W("times apart")), page.Say(page.W("so"))}}
	var films []choice
	for _, ch := range k.choices {
		if len(films) == 0 || films[len(films)-1].material != ch.material {
			films = append(films, ch)
		}
	}
	same := k.c.Lab.Place.House.Filled().SameTime
	by, _ := k.c.Lab.OriginOf(k.c.Lab.Place.Def, "house.same_time")
	limit := figure.Declare(k.c.Book, "house/same-time", figure.KindTime, figure.Given(same, k.c.Lab.Place.At("house.same_time"), by, "films may share a tank when their times lie within"), trimFloat(float64(same.Value())), "s")
	for i, a := range films {
		for _, b := range films[i+1:] {
			_, ta, oka := k.t.At(a.material, a.develop, k.developer, a.at)
			_, tb, okb := k.t.At(b.material, b.develop, k.developer, b.at)
			if !oka || !okb || a.at != b.at {
				continue
			}
			pair := a.material.ID + "," + b.material.ID
			apart := k.t.Apart(k.p.ID+"/apart@"+pair, ta, tb)
			id := figure.Enter(k.c.Book, apart)
			row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(a.material.Name), page.W(" and "), page.N(b.material.Name))}, {Text: page.Say(page.F(id))}}}
			answer, why := "no", fmt.Sprintf("%s apart, and the house allows %s", apart.Record().Shown, same.Text())
			if apart.Value <= same.Value() {
				answer, why = "yes", fmt.Sprintf("%s apart, within the house’s %s", apart.Record().Shown, same.Text())
				row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.S("yes"))})
			} else {
				row.Cells = append(row.Cells, page.Cell{No: true, Why: "another time"})
			}
			for _, v := range k.manyReels() {
				k.c.Book.EnterVerdict(figure.Verdict{ID: k.p.ID + "/share@" + pair + "," + v, Answer: answer, Limits: []string{"times within " + same.Text()}, Because: []string{why, "split by time, not by format"}, Source: "common practice, no source"})
			}
			t.Rows = append(t.Rows, row)
		}
	}
	t.Note = page.Say(page.W("Within "), page.F(limit), page.W(" of each other they may; the longer time counts."))
	var out []page.Block
	if len(t.Rows) > 0 {
		out = append(out, t)
	}
	if mixed, ok := k.mixedFormats(); ok {
		out = append(out, mixed)
	}
	return out
}

// manyReels are the tanks that take more than one roll.
func (k *processCard) manyReels() []string {
	var out []string
	for id, t := range k.c.Lab.Place.Tanks {
		for _, n := range t.Takes {
			if n > 1 {
				out = append(out, id)
				break
			}
		}
	}
	sort.Strings(out)
	return out
}

// mixedFormats says in which tanks two formats of one film lie together, and
// what then fills it.
func (k *processCard) mixedFormats() (page.Table, bool) {
	t := page.Table{ID: "formats", Caption: page.Say(page.S("Two formats of one film in one tank")), Head: []page.Text{page.Say(page.W("tank")), page.Say(page.W("fill to")), page.Say(page.W("stock"))}}
	var materials []string
	for _, ch := range k.choices {
		if ch.material != nil && k.takesFamily(ch.material, "135") && k.takesFamily(ch.material, "120") && (len(materials) == 0 || materials[len(materials)-1] != ch.material.ID) {
			materials = append(materials, ch.material.ID)
		}
	}
	if len(materials) == 0 {
		return t, false
	}
	tanks, _ := capacity.Vessels(k.c.Lab)
	for _, id := range sortedTanks(k.c.Lab.Place.Tanks) {
		tank := k.c.Lab.Place.Tanks[id]
		small, large := tank.Takes["135"], tank.Takes["120"]
		if small == 0 || large == 0 {
			continue
		}
		name, fill := id, capacity.Vessel{}
		for _, v := range tanks {
			if v.Key == id+",120" || v.Key == id+",135" {
				name = v.Name
				if fill.Key == "" || v.Fill.Value() > fill.Fill.Value() {
					fill = v
				}
			}
		}
		// One 120 must leave room for a 135 on the column.
		room := float64(small) * (1 - 1/float64(large))
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(name))}}}
		answer, because := "no", "one 120 takes the whole column"
		if room >= 1 {
			draw, ok := k.c.Mix.Draw(k.developer, fill.Fill, fill.At, fill.Origin, "fill of the "+fill.Name, unit.Up)
			if !ok {
				continue
			}
			answer, because = "yes, filled to "+unit.Spoken(fill.Fill), "the larger format’s fill covers both"
			row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(draw.Fill))}, page.Cell{Text: page.Say(page.F(draw.Take.ID))})
		} else {
			row.Cells = append(row.Cells, page.Cell{No: true, Why: because}, page.Cell{Text: page.Say(page.W("–"))})
		}
		for _, m := range materials {
			k.c.Book.EnterVerdict(figure.Verdict{ID: k.p.ID + "/share@" + m + ".120," + m + ".135," + id, Answer: answer, Limits: []string{"fill of the larger format: " + mix.Tag(fill.Fill.Exact())}, Because: []string{because}, Source: "common practice, no source"})
		}
		t.Rows = append(t.Rows, row)
	}
	return t, len(t.Rows) > 0
}

func sortedTanks[T any](m map[string]T) []string {
	var ids []string
	for id := range m {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	return ids
}
