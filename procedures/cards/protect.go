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

// noFood is the sign that stands where chemicals are handled.
var noFood = []string{"P022"}

// alike are strengths that ask for the same in every job.
type alike struct {
	baths []*work.Bath
	known work.Dangers
	jobs  []work.JobGear
}

func (c *Context) protectCard(s *work.Subject) page.Page {
	p := page.Page{ID: "protect/" + s.Def.ID, Kind: "protect", KindLine: "What to put on", Title: capital(s.Name),
		Role: roleOf(s.Role), Signs: noFood}
	all := s.Dangers
	p.Before = []page.Block{page.Checklist{Label: page.Say(page.W("before you open it")), Items: []page.Text{
		page.Say(page.W("read the supplier’s sheet and keep it at hand")),
		page.Say(page.W("the extractor fan runs, the way to the tap is free")),
		page.Say(page.W("no food, no drink, no contact lenses without goggles")),
	}}}
	p.Before = append(p.Before, pregnantAt(s)...)
	groups := alikes(s)
	var jobs []work.JobGear
	for _, g := range groups {
		jobs = append(jobs, g.jobs...)
	}
	pieces := piecesOf(jobs)
	for _, g := range groups {
		p.Do = append(p.Do, page.Heading{ID: g.baths[0].Strength, Text: page.Say(page.N(capital(names(g.baths))))})
		d := page.Discs{ID: "jobs-" + g.baths[0].Strength, Caption: page.Say(page.W("what to wear for which job")),
			Pieces: headings(pieces)}
		for _, j := range g.jobs {
			row := page.DiscRow{Names: []page.DiscName{{Text: page.Say(page.N(capital(string(j.Job)))),
				Sub: careOf(j)}}, Cells: discs(pieces, j.Wear)}
			row.Ask = unlooked(j)
			d.Rows = append(d.Rows, row)
		}
		p.Do = append(p.Do, d)
	}
	p.Do = append(p.Do, sortsList(pieces, jobs, true), gearBasis(all))
	if d := s.Strengths[0].Product; d != nil {
		for _, note := range supplierNotes(d) {
			p.Do = append(p.Do, page.Para{Text: append(page.Say(page.S("Beside the classes"), page.W(": ")), note...)})
		}
	}
	for _, b := range s.Strengths {
		p.Tables = append(p.Tables, reproductive(b)...)
	}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("go on in thin gloves after a splash")),
		page.Say(page.W("touch the face, the phone or a door with wet gloves")),
		page.Say(page.W("trust a dust mask against gas")),
		page.Say(page.W("eat or drink here")),
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

// piece is one thing to wear or to have, as it heads a column.
type piece struct {
	// word is said of all its sorts, and sorts are the words by which an item begins
	// that is one of them.
	word  string
	sorts []string
	// mark stands in a cell where there is no sign.
	mark string
	sign string
	// when is the condition on which all rows wear it: the heading says it for all.
	when string
}

// allPieces are the pieces in the order in which one sees to them, the air first. Masks of
// both grades share a column: a cell says which.
var allPieces = []piece{
	{word: "extractor fan on", mark: "fan on"}, {word: "goggles"}, {word: "face shield"}, {word: "gloves"},
	{word: "dust mask", sorts: []string{"FFP3 dust mask", "FFP2 dust mask"}}, {word: "apron"},
	{word: "tongs", mark: "tongs"},
	{word: "a second person nearby", mark: "not alone"},
}

// of tells whether an item is this piece, of which sort it is, and on which condition it
// is worn.
func (p piece) of(item work.Worn) (sort, when string, ok bool) {
	for _, word := range append([]string{p.word}, p.sorts...) {
		if rest, ok := strings.CutPrefix(item.Word, word); ok {
			grade := strings.TrimSuffix(strings.TrimSuffix(word, p.word), " ")
			return strings.TrimSpace(item.Sort + " " + grade), strings.TrimSpace(strings.TrimPrefix(rest, ",")), true
		}
	}
	return "", "", false
}

// piecesOf are the pieces that some job asks for.
func piecesOf(jobs []work.JobGear) []piece {
	var out []piece
	for _, p := range allPieces {
		var when []string
		for _, j := range jobs {
			for _, item := range j.Wear {
				if _, w, ok := p.of(item); ok {
					p.sign, when = item.Sign, append(when, w)
				}
			}
		}
		if len(when) == 0 {
			continue
		}
		if len(slices.Compact(when)) == 1 {
			p.when = when[0]
		}
		out = append(out, p)
	}
	return out
}

// headings are those of the columns.
func headings(pieces []piece) []page.Piece {
	var out []page.Piece
	for _, p := range pieces {
		out = append(out, page.Piece{Sign: p.sign, Word: strings.TrimSpace(p.word + " " + p.when), Mark: p.mark})
	}
	return out
}

// discs are the cells of a row: which of the pieces a job asks for.
func discs(pieces []piece, wear []work.Worn) []page.Disc {
	out := make([]page.Disc, len(pieces))
	for i, p := range pieces {
		for _, item := range wear {
			if sort, when, ok := p.of(item); ok {
				if when == p.when {
					when = ""
				}
				out[i] = page.Disc{Worn: true, Word: strings.TrimSpace(sort + " " + when)}
			}
		}
	}
	return out
}

// unlooked is the hole of a row of what nobody has looked up.
func unlooked(gear work.JobGear) page.Text {
	if !gear.Unknown {
		return nil
	}
	return page.Say(page.Inline{Kind: page.Ask, Text: "first"}, page.W(" nobody has looked it up"))
}

// careOf is what stands below the name of a row that asks for nothing: an empty row would
// read as a hole.
func careOf(gear work.JobGear) page.Text {
	if gear.Unknown || len(gear.Wear) > 0 {
		return nil
	}
	return page.Say(page.W("normal care is enough"))
}

// sortsList says once for all rows which sort of each piece does the work, and on the
// sheet of one bath why it is worn.
func sortsList(pieces []piece, jobs []work.JobGear, why bool) page.List {
	l := page.List{Label: page.Say(page.W("which sort")), Lines: true}
	if why {
		l.Label = page.Say(page.W("which sort, and why"))
	}
	for _, p := range pieces {
		var sorts, reasons []string
		for _, j := range jobs {
			for _, item := range j.Wear {
				if _, _, ok := p.of(item); !ok {
					continue
				}
				sorts = together(sorts, item.Kind)
				if why && !slices.Contains(reasons, item.Because) {
					reasons = append(reasons, item.Because)
				}
			}
		}
		line := page.Say(page.S(capital(p.word)))
		if len(sorts) > 0 {
			line = append(line, page.W(": "), page.N(strings.Join(sorts, "; ")))
		}
		if len(reasons) > 0 {
			line = append(line, page.W("; reason: "), page.N(strings.Join(reasons, "; ")))
		}
		if len(line) > 1 {
			l.Items = append(l.Items, line)
		}
	}
	return l
}

// together enters which sort does the work, unless a longer line of the list begins with it.
func together(list []string, kind string) []string {
	if kind == "" || slices.ContainsFunc(list, func(s string) bool {
		return strings.HasPrefix(s,
			strings.TrimSuffix(kind, memory))
	}) {
		return list
	}
	list = slices.DeleteFunc(list, func(s string) bool {
		return strings.HasPrefix(kind,
			strings.TrimSuffix(s, memory))
	})
	return append(list, kind)
}

// memory ends what is remembered and was not looked up.
const memory = " (memory)"

// gearBasis is what the choice of gear rests on.
func gearBasis(known work.Dangers) page.Para {
	g := gearBlock(work.AtWork, known)
	if len(g.Note) > 0 {
		return page.Para{Text: g.Note}
	}
	return page.Para{Text: g.Basis}
}

// wearBoard hangs where a job is done: a row for all baths that ask for the same, with a
// disc in the column of each piece. There is one sheet a job.
func wearBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/protect", Kind: "board", KindLine: "Hang this where the work is done",
		Title: "What to put on", Rows: []string{"job"}, Signs: noFood}
	for _, job := range []work.Job{work.Weigh, work.Dilute, work.AtWork, work.Spilled, work.Away} {
		rows := c.wearRows(job)
		if len(rows) == 0 {
			continue
		}
		only := page.Only{For: []int{len(p.Choices)}}
		p.Choices = append(p.Choices, page.Choice{Variant: rows[0].gear.Key, Label: page.Say(page.N(string(job)))})
		var jobs []work.JobGear
		for _, r := range rows {
			jobs = append(jobs, r.gear)
		}
		pieces := piecesOf(jobs)
		d := page.Discs{Only: only, ID: rows[0].gear.Key, Caption: page.Say(page.W("what to wear, for which bath")),
			Pieces: headings(pieces)}
		for _, r := range rows {
			for some := range slices.Chunk(r.names, mostNames) {
				d.Rows = append(d.Rows, page.DiscRow{Names: some, Ask: r.ask, Cells: discs(pieces, r.gear.Wear)})
			}
		}
		sorts := sortsList(pieces, jobs, false)
		sorts.Only = only
		p.Do, p.Why = append(p.Do, d), append(p.Why, sorts)
		variant := "protect+" + rows[0].gear.Key
		c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: len(p.Choices) - 1, Variant: variant,
			Faces: c.wideFaces("a4")})
	}
	if len(p.Do) == 0 {
		p.Do = []page.Block{page.Para{Text: page.Say(page.W("No bath is written down. That does not make anything safe: ask first."))}}
	}
	p.Before = []page.Block{page.Checklist{Items: []page.Text{
		page.Say(page.S("find your bath")), page.Say(page.S("put on every disc of its row")),
		page.Say(page.W("a bath that is not here: ask first")), page.Say(page.W("wash your hands after every job")),
	}}}
	p.Never = []page.Block{page.List{Items: []page.Text{
		page.Say(page.W("go on in thin gloves after a splash")),
		page.Say(page.W("touch the face, the phone or a door with wet gloves")),
		page.Say(page.W("trust a dust mask against gas")),
		page.Say(page.W("eat or drink here")),
	}}}
	p.Why = append(p.Why,
		page.Para{Text: page.Say(page.W("Why each piece is worn stands on the sheet of the bath: its name leads there. The rules go by the class of danger: common practice and the precautionary statements of the labels. Follow the supplier’s sheet first."))})
	p.Foot = c.foot(c.W.Place.Def, nil)
	return []page.Page{p}
}

// wearRow are all baths that ask for the same at one job.
type wearRow struct {
	gear  work.JobGear
	names []page.DiscName
	ask   page.Text
}

// wearRows are the rows of a job, those first that ask for most.
func (c *Context) wearRows(job work.Job) []*wearRow {
	var out []*wearRow
	for _, s := range c.W.Subjects {
		strengths := s.Strengths
		if job == work.Weigh {
			strengths = strengths[:1] // nobody weighs what is diluted
			if !s.Made {
				continue // nor what is bought as a liquid
			}
		}
		if job == work.AtWork { // nobody works in what is only diluted
			strengths = slices.DeleteFunc(slices.Clone(strengths), func(b *work.Bath) bool { return b.Concentrate })
		}
		known := func(b *work.Bath) work.Dangers {
			if job == work.Spilled { // of a spill nobody sees the strength: as its sheet says
				return s.Dangers
			}
			return b.Dangers
		}
		for left := strengths; len(left) > 0; {
			first := known(left[0])
			gear := first.For(job)
			ask := unlooked(gear)
			if job == work.Spilled {
				gear.Wear = slices.DeleteFunc(slices.Clone(gear.Wear),
					func(i work.Worn) bool { return neverPowder(s, i.Word) })
			}
			var same, others []*work.Bath
			for _, b := range left {
				other := known(b).For(job)
				if job == work.Spilled || sameDiscs(gear, other) && gear.NotPregnant == other.NotPregnant &&
					asks(ask) == asks(unlooked(other)) {
					same = append(same, b)
				} else {
					others = append(others, b)
				}
			}
			left = others
			i := slices.IndexFunc(out, func(r *wearRow) bool {
				return sameDiscs(r.gear, gear) &&
					asks(r.ask) == asks(ask)
			})
			if i < 0 {
				i = len(out)
				out = append(out, &wearRow{gear: gear, ask: ask})
			}
			name := page.DiscName{Role: roleOf(s.Role), Text: page.Say(page.L("protect/"+s.Def.ID, capital(s.Name)))}
			if len(same) < len(strengths) {
				name.Text = append(name.Text, page.N(", "+names(same)))
			}
			name.Sub = careOf(gear)
			if gear.NotPregnant {
				name.Sub = page.Say(page.W("not if pregnant"))
			}
			out[i].names = append(out[i].names, name)
		}
	}
	slices.SortStableFunc(out, func(a, b *wearRow) int {
		if asks(a.ask) != asks(b.ask) { // what nobody knows is feared most
			if asks(a.ask) {
				return -1
			}
			return 1
		}
		return len(b.gear.Wear) - len(a.gear.Wear)
	})
	return out
}

// asks tells a row that is a hole.
func asks(t page.Text) bool { return len(t) > 0 }

// sameDiscs reports that two baths show the same at a job: reasons aside.
func sameDiscs(a, b work.JobGear) bool {
	return slices.EqualFunc(a.Wear, b.Wear, func(x, y work.Worn) bool { return x.Word == y.Word && x.Sort == y.Sort })
}
