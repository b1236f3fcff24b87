package cards

import (
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/page"
)

// protectCards makes one sheet for every solution and product: what to wear for
// each job, and why, by the hazards of each strength as far as they are known.
func protectCards(c *Context) []page.Page {
	var out []page.Page
	for _, s := range c.subjects() {
		out = append(out, c.protectCard(s))
	}
	return out
}

// alike are strengths that ask for the same in every job.
type alike struct {
	baths []lab.Bath
	known hazard.Known
	jobs  []hazard.Job
}

func (c *Context) protectCard(s subject) page.Page {
	p := page.Page{ID: "protect/" + s.def.ID, Kind: "protect", KindLine: "What to put on", Title: capital(s.name), Role: roleOf(s.role)}
	all := c.knownOf(s.strengths)
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("before you open it")), Items: []page.Text{
		page.Say(page.W("the supplier’s sheet is at hand and read")), page.Say(page.W("the extract runs, the way to the tap is free")), page.Say(page.W("no food, no drink, no lenses without goggles")),
	}}}
	p.Before = append(p.Before, c.pregnantAt(s, all)...)
	for _, g := range c.alikes(s) {
		p.Do = append(p.Do, page.Heading{ID: g.baths[0].Strength, Text: page.Say(page.N(capital(names(g.baths))))})
		p.Do = append(p.Do, c.jobsTable(g), sortsBlock(g))
	}
	for _, b := range s.strengths {
		p.Tables = append(p.Tables, c.reproductive(b)...)
	}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("work in thin gloves that have had a splash")), page.Say(page.W("touch the face, the phone or a door with wet gloves")), page.Say(page.W("trust a dust mask against gas")),
	}}}
	p.Why = []page.Block{hazardBlock(all)}
	p.Foot = c.foot(s.def, unsaidHoles(all.Unsaid))
	return p
}

// alikes puts strengths together that ask for the same. The verdict of every
// strength and job goes into the ledger all the same.
func (c *Context) alikes(s subject) []alike {
	var out []alike
	for i, b := range s.strengths {
		known := c.known(b)
		first := i == 0
		var jobs []hazard.Job
		for _, j := range hazard.Jobs {
			if j.Job == hazard.Weigh && !(first && s.made) {
				continue
			}
			jobs = append(jobs, j.Job)
			c.protectVerdict(b, j.Key, j.Job, known)
		}
		if n := len(out); n > 0 && sameGear(out[n-1].known, known) {
			out[n-1].baths = append(out[n-1].baths, b)
			continue
		}
		out = append(out, alike{[]lab.Bath{b}, known, jobs})
	}
	return out
}

// sameGear: two strengths ask for the same in every job.
func sameGear(a, b hazard.Known) bool {
	for _, j := range hazard.Jobs {
		x, y := hazard.Gear(j.Job, a), hazard.Gear(j.Job, b)
		if len(x) != len(y) {
			return false
		}
		for i := range x {
			if x[i] != y[i] {
				return false
			}
		}
	}
	return true
}

func (c *Context) protectVerdict(b lab.Bath, key string, job hazard.Job, known hazard.Known) {
	v := figure.Verdict{ID: b.Ref() + "/protect@" + key, Source: "rules by class: common practice and the precautionary statements of the CLP scheme; the supplier’s sheet goes first"}
	for i, item := range hazard.Gear(job, known) {
		if i > 0 {
			v.Answer += ", "
		}
		v.Answer += item.Word
		v.Because = append(v.Because, item.Word+": "+item.Because)
	}
	switch known.Status {
	case hazard.Unknown:
		v.Limits = []string{"hazards not looked up: full precautions"}
	case hazard.Carried:
		v.Limits = []string{"every hazard of the ingredients; strength not yet considered"}
	}
	c.Book.EnterVerdict(v)
}

// jobsTable has a row for every piece and a column for every job.
func (c *Context) jobsTable(g alike) page.Block {
	t := page.Table{ID: "jobs-" + g.baths[0].Strength, Caption: page.Say(page.S("For which job")), Head: []page.Text{page.Say(page.W("wear"))}}
	for _, j := range g.jobs {
		t.Head = append(t.Head, page.Say(page.N(string(j))))
	}
	for _, piece := range hazard.Pieces {
		row := page.Row{Cells: []page.Cell{{Text: page.Say(page.S(capital(piece)))}}}
		if strings.ContainsAny(piece, "0123456789") {
			row.Cells[0].Text = page.Say(page.N(piece))
		}
		worn := false
		for _, j := range g.jobs {
			cell := page.Cell{Text: page.Say(page.W("–"))}
			for _, item := range hazard.Gear(j, g.known) {
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
	for _, piece := range hazard.Pieces {
		for _, job := range g.jobs {
			b := gearBlock(job, g.known)
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
