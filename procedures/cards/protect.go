package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// protectCards makes one sheet for every solution and product: what to wear for
// each job, and why, by the hazards of each strength as far as they are known.
func protectCards(c *Context) []page.Page {
	var out []page.Page
	for _, s := range c.W.Subjects {
		out = append(out, c.protectCard(s))
	}
	return out
}

// alike are strengths that ask for the same in every job.
type alike struct {
	baths []*work.Bath
	known work.Dangers
	jobs  []work.JobGear
}

func (c *Context) protectCard(s *work.Subject) page.Page {
	p := page.Page{ID: "protect/" + s.Def.ID, Kind: "protect", KindLine: "What to put on", Title: capital(s.Name), Role: roleOf(s.Role)}
	all := s.Dangers
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("before you open it")), Items: []page.Text{
		page.Say(page.W("read the supplier’s sheet and keep it at hand")), page.Say(page.W("the extractor fan runs, the way to the tap is free")), page.Say(page.W("no food, no drink, no contact lenses without goggles")),
	}}}
	p.Before = append(p.Before, pregnantAt(s)...)
	for _, g := range alikes(s) {
		p.Do = append(p.Do, page.Heading{ID: g.baths[0].Strength, Text: page.Say(page.N(capital(names(g.baths))))})
		p.Do = append(p.Do, jobsTable(g), sortsBlock(g))
	}
	for _, b := range s.Strengths {
		p.Tables = append(p.Tables, reproductive(b)...)
	}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("go on in thin gloves after a splash")), page.Say(page.W("touch the face, the phone or a door with wet gloves")), page.Say(page.W("trust a dust mask against gas")),
	}}}
	p.Why = []page.Block{hazardBlock(all)}
	p.Foot = c.foot(s.Def, unsaidHoles(all.Unsaid))
	return p
}

// alikes puts strengths together that ask for the same. Only who mixes it weighs.
func alikes(s *work.Subject) []alike {
	var out []alike
	for i, b := range s.Strengths {
		var jobs []work.JobGear
		for _, j := range b.Dangers.Jobs {
			if j.Job != work.Weigh || i == 0 && s.Made {
				jobs = append(jobs, j)
			}
		}
		if n := len(out); n > 0 && sameGear(out[n-1].known, b.Dangers) {
			out[n-1].baths = append(out[n-1].baths, b)
			continue
		}
		out = append(out, alike{[]*work.Bath{b}, b.Dangers, jobs})
	}
	return out
}

// sameGear reports that two strengths ask for the same in every job.
func sameGear(a, b work.Dangers) bool {
	return slices.EqualFunc(a.Jobs, b.Jobs, func(x, y work.JobGear) bool { return slices.Equal(x.Wear, y.Wear) })
}

// jobsTable has a row for every piece and a column for every job.
func jobsTable(g alike) page.Block {
	t := page.Table{ID: "jobs-" + g.baths[0].Strength, Caption: page.Say(page.S("For which job")), Head: []page.Text{page.Say(page.W("wear"))}}
	for _, j := range g.jobs {
		t.Head = append(t.Head, page.Say(page.N(string(j.Job))))
	}
	for _, piece := range work.Pieces() {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.S(capital(piece)))}}}
		if strings.ContainsAny(piece, "0123456789") {
			row.Cells[0].Text = page.Say(page.N(piece))
		}
		worn := false
		for _, j := range g.jobs {
			cell := page.Cell{Text: page.Say(page.W("–"))}
			for _, item := range j.Wear {
				if rest, ok := strings.CutPrefix(item.Word, piece); ok {
					worn = true
					cell = page.Cell{Text: page.Say(page.S("yes"))}
					switch {
					case strings.HasPrefix(rest, ","):
						cell.Text = page.Say(page.S("yes" + rest))
					case rest != "":
						cell.Text = page.Say(page.S(strings.TrimSpace(rest)))
					}
				}
			}
			row.Cells = append(row.Cells, cell)
		}
		if worn {
			t.Rows = append(t.Rows, row)
		}
	}
	return t
}

// sortsBlock is every piece once: its sign, which sort, and why.
func sortsBlock(g alike) page.Gear {
	all := page.Gear{}
	seen := map[string]bool{}
	for _, piece := range work.Pieces() {
		for _, job := range g.jobs {
			b := gearBlock(job.Job, g.known)
			all.Note, all.Basis = b.Note, b.Basis
			for _, item := range b.Items {
				if strings.HasPrefix(item.Word, piece) && !seen[piece] {
					seen[piece] = true
					item.Word = piece
					all.Items = append(all.Items, item)
				}
			}
		}
	}
	return all
}
