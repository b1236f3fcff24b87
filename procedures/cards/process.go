package cards

import (
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// processCards makes one card for every process: its steps against the clock, for each
// film in each tank.
func processCards(c *Context) []page.Page {
	var out []page.Page
	for _, p := range c.W.Processes {
		out = append(out, (&processCard{c, p}).page())
	}
	return out
}

// processCard is the card of a process; its choices are the runs.
type processCard struct {
	c *Context
	p *work.Process
}

func (k *processCard) page() page.Page {
	d := k.p.Decl
	p := page.Page{ID: "process/" + d.ID, Kind: "process", KindLine: "Process card", Title: capital(d.Name),
		Lead: k.lead()}
	p.Was = wasIDs("process/", d.Was)
	for _, r := range k.p.Runs {
		p.Choices = append(p.Choices, page.Choice{Variant: r.Variant, Label: runLabel(r), Picks: runPicks(r)})
	}
	p.Rows = []string{"in"}
	if len(p.Choices) > 0 && len(p.Choices[0].Picks) > 1 {
		p.Rows = []string{string(d.Base), "in"}
		if d.Base != lab.Film {
			p.Rows[0] = "paper"
		}
	}
	p.Key = k.key()
	p.Before = k.before()
	p.Do = append(p.Do, k.clock())
	if t, ok := k.temps(); ok {
		p.Do = append(p.Do, t)
	}
	p.Do = append(p.Do, k.materialNotes()...) // the wall shows no reasons, and this is read there
	p.Tables = k.tables()
	p.Never = neverBlock(d.Never, filmAndPaper(k.p.Baths...))
	if d.Like != "" {
		p.Why = append(p.Why, k.likeness())
	}
	if d.Note != "" {
		p.Why = append(p.Why, page.Para{Text: page.Say(page.N(d.Note))})
	}
	p.Why = append(p.Why, hazardBlock(k.p.Dangers))
	p.Today = k.today()
	p.Foot = k.c.foot(d.Def, k.holes())
	k.print(p)
	return p
}

// lead is the developer, with how it is diluted and used.
func (k *processCard) lead() page.Text {
	b := k.p.Developer
	if b == nil {
		return nil
	}
	t := page.Say(page.N(b.Name()), page.W(", "), page.N(b.Strength))
	if d := b.Decl(); d != nil {
		t = append(append(t, page.W(" ")), dilutionText(d.Dilute.Dilution)...)
		if use := useWord(d.Use); use != "" && use != b.Strength && string(d.Use) != b.Strength {
			t = append(t, page.W(", "+use))
		}
	}
	return t
}

// print says which runs go on paper.
func (k *processCard) print(p page.Page) {
	for i, r := range k.p.Runs {
		k.c.Variants = append(k.c.Variants, r.Variant)
		if !k.c.wanted(r.Variant) {
			continue
		}
		faces := k.c.faces("a4")
		if r.Ruled {
			faces = append(faces, "strip")
		}
		k.c.Prints = append(k.c.Prints, page.Print{Page: p.ID, Choice: i, Variant: r.Variant, Faces: faces})
	}
	if len(k.p.Runs) == 0 {
		k.c.Prints = append(k.c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: k.p.Decl.ID,
			Faces: k.c.faces("a4")})
	}
}

// likeness says what this process is built on and which steps differ.
func (k *processCard) likeness() page.Block {
	d := k.p.Decl
	title := d.Like
	if other := k.c.W.Process(d.Like); other != nil {
		title = other.Decl.Name
	}
	t := page.Say(page.W("Same as "), page.L("process/"+d.Like, title))
	word := page.W(" except: ")
	for _, s := range d.Steps {
		if _, changed := d.Change[s.ID]; changed {
			t = append(t, word, page.N(stepName(s)))
			word = page.W(", ")
		}
	}
	return page.Para{Text: append(t, page.W("."))}
}

// wanted tells whether the lab prints a variant for the wall.
func (c *Context) wanted(variant string) bool {
	wall := c.W.Place.Print.Wall
	return len(wall) == 0 || slices.Contains(wall, variant)
}

// materialNotes are what is said of each material, for the choices of that material.
func (k *processCard) materialNotes() []page.Block {
	var notes []page.Text
	for i, r := range k.p.Runs {
		if r.Note != nil {
			notes = forChoice(notes, page.Say(page.F(r.Note)), i)
		}
	}
	var out []page.Block
	for _, t := range notes {
		out = append(out, page.Para{Only: t.When(), Text: t})
	}
	return out
}

// forChoice adds a sentence that holds for one choice: each is said once, for all its
// choices.
func forChoice(list []page.Text, said page.Text, choice int) []page.Text {
	for i, t := range list {
		if t.When().For == nil && sameText(t, said) { // it holds for all of them already
			return list
		}
		if sameText(t, said) {
			list[i] = t.With(page.Only{For: append(t.When().For, choice)})
			return list
		}
	}
	return append(list, said.With(page.Only{For: []int{choice}}))
}

func sameText(a, b page.Text) bool {
	return slices.EqualFunc(a, b, func(x, y page.Inline) bool {
		return x.Kind == y.Kind && x.Text == y.Text && x.Card == y.Card &&
			slices.EqualFunc(x.Figures, y.Figures, func(f, g *figure.Record) bool { return f.ID == g.ID })
	})
}

// runLabel is what a reader picks a run by.
func runLabel(r *work.Run) page.Text {
	t := page.Say(page.N(r.Vessel.Name))
	if r.Material != nil {
		t = page.Say(page.N(r.Material.Name), page.W(", "), page.N(r.Vessel.Name))
	}
	if r.ByFamily {
		t = append(t, page.W(", "), page.N(lab.InSides(r.Vessel.Family)))
	}
	return t
}

// runPicks are the parts of that label: the material and the vessel.
func runPicks(r *work.Run) []page.Text {
	vessel := page.Say(page.N(vesselName(r)))
	if r.ByFamily && !r.OtherFill {
		vessel = append(vessel, page.W(", "), page.N(lab.InSides(r.Vessel.Family)))
	}
	if r.Material == nil {
		return []page.Text{vessel}
	}
	return []page.Text{page.Say(page.N(r.Material.Name)), vessel}
}

// each collects one figure of each run; nothing where the first has none.
func (k *processCard) each(f func(*work.Run) *figure.Record) []*figure.Record {
	out := make([]*figure.Record, len(k.p.Runs))
	for i, r := range k.p.Runs {
		if out[i] = f(r); out[i] == nil {
			return nil
		}
	}
	return out
}

// eachStep is each of one step.
func (k *processCard) eachStep(i int, f func(work.RunStep) *figure.Record) []*figure.Record {
	return k.each(func(r *work.Run) *figure.Record { return f(r.Steps[i]) })
}

// figs is one figure for each choice, or a single one where all are the same.
func figs(each []*figure.Record) page.Inline {
	if len(each) > 0 && !slices.ContainsFunc(each, func(f *figure.Record) bool { return f.ID != each[0].ID }) {
		return page.F(each[0])
	}
	return page.F(each...)
}

func (k *processCard) key() []page.Block {
	var out []page.Block
	if k.p.Temperature != nil {
		a := page.Amount{Label: page.Say(page.W("all baths")), Value: page.Say(page.F(k.p.Temperature))}
		if k.p.Within != nil {
			a.Note = page.Say(page.W("within "), page.F(k.p.Within))
		}
		out = append(out, a)
	}
	if at := k.each(func(r *work.Run) *figure.Record { return r.At }); len(at) > 0 { // the time holds at this temperature only
		out = append(out, page.Amount{Label: page.Say(page.W("develop at")), Value: page.Say(figs(at))})
	}
	return out
}

// holes are what nobody has written about a process.
func (k *processCard) holes() []page.Hole {
	out := k.runless()
	for _, s := range k.p.Steps {
		if s.Unturned {
			key := "agitate in " + s.Key + " of " + s.File + ", and [agitate.…] there"
			out = append(out, page.Hole{What: "how to agitate in " + stepName(s.Decl), Until: "ask first", Key: key})
		}
	}
	return out
}

// runless is the hole of a process that nobody can fill a tank or a tray for.
func (k *processCard) runless() []page.Hole {
	pours := func(s *work.Step) bool { return s.Bath != nil && !s.Coats }
	if k.p.Runless == "" || !slices.ContainsFunc(k.p.Steps, pours) {
		return nil
	}
	film := k.p.Decl.Base == lab.Film
	word := func(ofFilm, ofPaper string) string {
		if film {
			return ofFilm
		}
		return ofPaper
	}
	h := page.Hole{Until: "ask first"}
	switch k.p.Runless {
	case work.NoVessel:
		h.What = "how much of each bath: this lab has no " + word("tank", "tray") + " on its list"
		h.Key = word("[tank.NAME] with fill and takes", "[tray.NAME] with fill") + " in lab.toml"
	case work.NoMaterial:
		h.What = "how much of each bath, and for how long: no " + word("film", "paper") + " of this lab goes through it"
		h.Key = `a file in materials/ with base = "` + string(k.p.Decl.Base) + `" and formats`
	default:
		h.What = "how much of each bath, and for how long: nothing that goes through it fits a " +
			word("tank", "tray") + " of this lab"
		h.Key = "the formats and developing times of the files in materials/, and takes of each " +
			word("[tank.…]", "[tray.…]") + " in lab.toml"
	}
	return []page.Hole{h}
}

func (k *processCard) before() []page.Block {
	out := append(beforeJob(work.AtWork, k.p.Dangers), k.dilutes()...)
	l := page.Checklist{Label: page.Say(page.W("have ready"))}
	if k.p.Decl.Base == "film" {
		l.Label = page.Say(page.W("before the light goes out"))
	}
	if serves := k.each(func(r *work.Run) *figure.Record { return r.Serves }); len(serves) > 0 {
		l.Items = append(l.Items, page.Say(page.W("the tank serves "), figs(serves)))
	}
	for _, b := range k.p.Decl.Bench {
		l.Items = append(l.Items, page.Say(page.N(b)))
	}
	for _, s := range k.p.Steps {
		if !s.Beforehand {
			break
		}
		item := page.Say(page.N(s.Decl.Do))
		if s.Decl.Light != "" {
			item = append(item, page.W(" ("), page.N(s.Decl.Light), page.W(")"))
		}
		l.Items = append(l.Items, item)
	}
	if k.c.W.HasBatches {
		l.Items = append(l.Items, lookFirst())
	}
	if len(l.Items) > 0 {
		out = append(out, l)
	}
	return out
}

// dilutes says who leaves it to somebody else to fill the tank.
func (k *processCard) dilutes() []page.Block {
	if len(k.p.NotDiluted) == 0 {
		return nil
	}
	var names []string
	for _, b := range k.p.NotDiluted {
		names = append(names, b.Name())
	}
	return []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Pregnant or breast-feeding: do not dilute "),
		page.S(series.Of(names)), page.S("."), page.W(" You need not give a reason."))}}}
}

func stepName(s lab.ProcessStep) string {
	if s.Name != "" {
		return s.Name
	}
	return lab.Title(s.ID)
}
