package cards

import (
	"fmt"
	"sort"
	"strings"

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
	limit := figure.Declare(k.c.Book, "house/same-time", figure.KindTime, same.Figure("films may share a tank when their times lie within"), unit.Short(float64(same.Value())), "s")
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
			if n.N > 1 {
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
	t := page.Table{ID: "formats", Caption: page.Say(page.S("Two formats of one film in one tank")), Head: []page.Text{page.Say(page.W("tank")), page.Say(page.W("formats")), page.Say(page.W("fill to")), page.Say(page.W("stock"))}}
	tanks, _ := capacity.Vessels(k.c.Lab)
	pairs := false
	for _, id := range sortedTanks(k.c.Lab.Place.Tanks) {
		var here []capacity.Vessel
		for _, v := range tanks {
			if strings.HasPrefix(v.Key, id+",") && v.Rolls {
				here = append(here, v)
			}
		}
		sort.Slice(here, func(i, j int) bool { return here[i].Family < here[j].Family })
		for i, a := range here {
			for _, b := range here[i+1:] {
				materials := k.inBoth(a.Family, b.Family)
				if len(materials) > 0 {
					pairs = true
					t.Rows = append(t.Rows, k.mixedRow(id, a, b, materials))
				}
			}
		}
	}
	return t, pairs
}

// inBoth lists the films of this process that come in both families.
func (k *processCard) inBoth(one, other string) []string {
	var out []string
	for _, ch := range k.choices {
		m := ch.material
		if m != nil && k.takesFamily(m, one) && k.takesFamily(m, other) && (len(out) == 0 || out[len(out)-1] != m.ID) {
			out = append(out, m.ID)
		}
	}
	return out
}

// mixedRow is one tank with two families of rolls.
func (k *processCard) mixedRow(tank string, a, b capacity.Vessel, materials []string) page.Row {
	fill := a
	if b.Fill.Value() > a.Fill.Value() {
		fill = b
	}
	small, large := a, b // the larger piece is the one of which fewer go in
	if a.Takes.N < b.Takes.N {
		small, large = b, a
	}
	answer, because := "no", "one "+large.Family+" takes the whole column"
	row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(fill.Name))}, {Text: page.Say(page.N(a.Family), page.W(" and "), page.N(b.Family))}}}
	f := k.c.W.Fill(k.developer, fill)
	// One of the larger must leave room for one of the smaller on the column.
	if room := float64(small.Takes.N) * (1 - 1/float64(large.Takes.N)); room >= 1 {
		because = ""
		for _, id := range materials {
			if why := capacity.Shares(k.c.Mix, f, a.Family, b.Family, k.c.Lab.Material(id)); why != "" {
				because = why
			}
		}
	}
	if because == "" {
		answer, because = "yes, filled to "+unit.Spoken(fill.Fill), "the larger format’s fill covers both"
		row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(f.Volume))}, k.c.fillCell(f))
	} else {
		row.Cells = append(row.Cells, page.Cell{No: true, Why: because}, page.Cell{Text: page.Say(page.W("–"))})
	}
	for _, m := range materials {
		k.c.Book.EnterVerdict(figure.Verdict{ID: k.p.ID + "/share@" + m + "." + a.Family + "," + m + "." + b.Family + "," + tank, Answer: answer, Limits: []string{"fill of the larger format: " + mix.Tag(fill.Fill.Exact())}, Because: []string{because}, Source: "common practice, no source"})
	}
	return row
}

func sortedTanks[T any](m map[string]T) []string {
	var ids []string
	for id := range m {
		ids = append(ids, id)
	}
	sort.Strings(ids)
	return ids
}
