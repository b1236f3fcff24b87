package render

import (
	"cmp"
	"fmt"
	"math"
	"path"
	"slices"
	"strings"

	"wetside/build/theme"
	"wetside/procedures/page"
)

// Fitted says how a print came to its paper, where it did not simply fit.
type Fitted struct {
	Page, Variant string
	// Paper is the paper that was asked for, To the larger one it went to instead,
	// or empty.
	Paper, To string
	// Over is by how many mm the card is too high for one sheet, at the smallest
	// type of the face.
	Over float64
	// Sheets is how many cards it became.
	Sheets int
	// Broken: one piece alone is higher than a sheet; the printer breaks it.
	Broken bool
}

// printed is one print on one paper, as it will be made.
type printed struct {
	page   page.Page
	face   theme.Face
	choice int
	path   string
	scale  int
	sheets []page.Page // more than one: cut
	steps  []int       // steps that stand before each sheet
}

// paper is what a print is on, in a word.
func paper(f theme.Face) string { return strings.TrimPrefix(f.Folder, "wall/") }

// holds tells whether a paper is larger than another, turned as it may be.
func holds(large, small theme.Face) bool {
	a, b := slices.Sorted(slices.Values(large.Size)), slices.Sorted(slices.Values(small.Size))
	return a[0] >= b[0] && a[1] >= b[1] && (a[0] > b[0] || a[1] > b[1])
}

// place decides on what paper, in what type and on how many cards a print is
// made: the largest type that keeps it on one sheet; else the next larger of the
// papers it is printed on; else it is cut between steps. It returns nothing where
// a larger paper has it anyway.
func (s *site) place(p page.Page, pr page.Print, name string) (out *printed, note *Fitted) {
	face, _ := s.face(name)
	out = &printed{page: p, face: face, choice: pr.Choice, path: path.Join(face.Folder, pr.Variant) + ".html", sheets: []page.Page{p}, steps: []int{0}}
	if face.Medium != theme.Paper || len(face.Scale) == 0 {
		return out, nil
	}
	v := s.view(p, face, pr.Choice, out.path)
	step, over := v.fits()
	if over <= 0 {
		out.scale = step
		return out, nil
	}
	note = &Fitted{Page: p.ID, Variant: pr.Variant, Paper: paper(face), Over: over, Sheets: 1}
	var larger []theme.Face
	for _, other := range pr.Faces {
		if f, _ := s.face(other); f.Medium == theme.Paper && holds(f, face) {
			larger = append(larger, f)
		}
	}
	slices.SortStableFunc(larger, func(a, b theme.Face) int { return cmp.Compare(a.Size[0]*a.Size[1], b.Size[0]*b.Size[1]) })
	for i, f := range larger {
		// The last one takes it in any case, cut if need be.
		if _, over := s.view(p, f, pr.Choice, out.path).fits(); over <= 0 || i == len(larger)-1 {
			note.To = paper(f)
			return nil, note
		}
	}
	fewest, clean := math.MaxInt, false
	for i, scale := range face.Scales(p.ID) {
		sheets, steps, whole, broken := v.cut(scale)
		// First aid: rather smaller type than help on another card.
		more := len(out.sheets) > 0 && rows(sheets[0]) > rows(out.sheets[0])
		if len(sheets) < fewest || len(sheets) == fewest && (whole && !clean || v.cases() && more) {
			fewest, clean = len(sheets), whole
			out.scale, out.sheets, out.steps, note.Broken = i, sheets, steps, broken
		}
	}
	note.Sheets = fewest
	return out, note
}

// rows counts the rows of steps on a sheet.
func rows(p page.Page) (n int) {
	for _, b := range p.Do {
		if s, ok := b.(page.Steps); ok {
			n += len(s.Rows)
		}
	}
	return n
}

// fits is the largest step of type at which the card takes one sheet, and where it
// takes more even at the smallest, by how many mm it is too high.
func (v *view) fits() (step int, over float64) {
	for i, scale := range v.Face.Scales(v.Page.ID) {
		step, over = i, v.estimate(scale)-v.room()
		if over <= 0 {
			break
		}
	}
	return step, over
}

// placeAll decides on every print, in the order of the binder.
func (s *site) placeAll() ([]Fitted, error) {
	type task struct {
		page page.Page
		pr   page.Print
		face string
	}
	var tasks []task
	for _, pr := range s.binder.Prints {
		i, ok := s.pages[pr.Page]
		if !ok {
			return nil, fmt.Errorf("the print %s is of a page that is not in the binder: %s", pr.Variant, pr.Page)
		}
		p := s.binder.Pages[i]
		if pr.Choice >= len(p.Choices) {
			return nil, fmt.Errorf("the print %s is of a choice that page %s does not have", pr.Variant, pr.Page)
		}
		for _, name := range pr.Faces {
			if name == "binder" {
				continue
			}
			if face, ok := s.face(name); !ok || face.Folder == "" {
				return nil, fmt.Errorf("the print %s wants a face that the theme has not: %s", pr.Variant, name)
			}
			tasks = append(tasks, task{p, pr, name})
		}
	}
	made := make([]*printed, len(tasks))
	notes := make([]*Fitted, len(tasks))
	everywhere(len(tasks), func(i int) { made[i], notes[i] = s.place(tasks[i].page, tasks[i].pr, tasks[i].face) })
	var fitted []Fitted
	for i := range tasks {
		if made[i] != nil {
			s.printsOf[made[i].page.ID] = append(s.printsOf[made[i].page.ID], len(s.prints))
			s.prints = append(s.prints, *made[i])
		}
		if notes[i] != nil {
			fitted = append(fitted, *notes[i])
		}
	}
	return fitted, nil
}

// room is how high the text of a sheet may be, in mm.
func (v *view) room() float64 {
	f := v.Face
	return f.Size[1] - f.Margin[0] - f.Margin[2] - 1
}

// atom is the least piece of a card that stays together.
type atom struct {
	part     string
	block    int
	from, to int     // rows of the block; to 0: the whole block
	high     float64 // its height
	lead     float64 // what the block takes besides, once on every sheet it is on
	keep     bool    // never the last of a sheet
	first    bool    // always the first of a sheet
}

// What a sheet may give to what is said again on every card of a cut one, with its
// signs where it has any, and up to what share what must never be done, or a table,
// stays together.
const (
	neverShare = .15
	gearShare  = .12
	neverWhole = .4
	tableWhole = .3
	lastShare  = .25 // what the last sheet holds at least, if the others can spare it
)

// cut cuts a card into as few sheets as it can at a scale, filled from the top, between
// rows. Every sheet has a head and a foot, and what to wear unless it holds first aid
// alone; what must never be done stands on all of them where there is room, else on
// one.
// It tells whether the cut lies between the work and its tables, which is best, and
// whether a piece is higher than a sheet.
func (v *view) cut(scale float64) (sheets []page.Page, steps []int, clean, broken bool) {
	room := v.room()
	m := v.fitting(scale)
	never := m.part("never")
	again := never <= room*neverShare
	gear := v.gearOnly(m, room)
	atoms := v.atoms(m, again)
	try := func(limit float64) ([][]atom, bool) {
		return v.pack(scale, atoms, limit, again, gear)
	}
	packed, fits := try(room)
	// Estimates of pieces add up to a little less than the whole now and then.
	for limit := room; !fits && limit > room*.7; limit -= 2 {
		packed, fits = try(limit)
	}
	// As many sheets: best the tables begin a sheet.
	if fits {
		apart := slices.Clone(atoms)
		for i := range apart {
			apart[i].first = i > 0 && apart[i].part == "tables" && apart[i-1].part == "do"
		}
		if list, ok := v.pack(scale, apart, room, again, gear); ok && len(list) == len(packed) && slices.ContainsFunc(apart, func(a atom) bool { return a.first }) {
			packed, clean = list, true
		}
	}
	// Filled from the top, so that a card is not changed sooner than it must be; but
	// the last one holds more than a crumb.
	for limit := room - 4; fits && !clean && limit > room*.4 && crumb(packed[len(packed)-1], room); limit -= 4 {
		less, ok := try(limit)
		if !ok || len(less) > len(packed) {
			break
		}
		packed = less
	}
	for i, list := range packed {
		sheets = append(sheets, v.sheet(list, i, again, gear))
		n := 0
		if k := slices.IndexFunc(list, func(a atom) bool { return a.part == "do" }); k >= 0 {
			n = list[k].from
		}
		steps = append(steps, n)
	}
	return sheets, steps, clean, !fits
}

// crumb reports whether a sheet holds next to nothing.
func crumb(list []atom, room float64) bool {
	high := 0.0
	for _, a := range list {
		high += a.high
	}
	return high < room*lastShare
}

// gearOnly is what to wear, which every following card says again: with its signs
// where there is room, else in a line of words.
func (v *view) gearOnly(m *fitting, room float64) []page.Block {
	var gear []page.Block
	var words []string
	for _, b := range v.Page.Before {
		if g, ok := b.(page.Gear); ok {
			g.Note = nil
			gear = append(gear, g)
			for _, item := range g.Items {
				words = append(words, item.Word)
			}
		}
	}
	if len(words) > 0 && m.before(gear)+2*m.pad+firm > room*gearShare {
		return []page.Block{page.Para{Text: page.Say(page.S("Wear"), page.W(": "), page.N(strings.Join(words, ", ")))}}
	}
	return gear
}

// atoms are the pieces of a card in the order in which they are dealt out: what
// comes before, what must never be done unless every sheet says it, then the work.
func (v *view) atoms(m *fitting, again bool) []atom {
	order := []string{"before"}
	if !again {
		order = append(order, "never")
	}
	for _, name := range v.parts() {
		switch name {
		case "key", "before", "never", "foot":
		default:
			order = append(order, name)
		}
	}
	w := v.on(1, 2).fitting(m.scale)
	first := w.headHeight() + w.foot() + w.keys() + w.text*1.2
	if again {
		first += w.part("never")
	}
	var out []atom
	early := 0
	for _, name := range order {
		width := m.width
		if name == "never" {
			width -= v.measure("NEVER", true, m.text)*1.1 + 3
		}
		blocks := v.part(name)
		if name == "before" && !v.cases() && m.before(blocks)+2*m.pad+firm < v.room()*.97-first {
			// They stand beside each other: one piece.
			for i := range blocks {
				high := 0.0
				if i == 0 {
					high = m.before(blocks)
				}
				out = append(out, atom{part: name, block: i, high: high, keep: i+1 < len(blocks)})
			}
			continue
		}
		for i, b := range blocks {
			if v.Face.Leaves(b.Block(), v.Page.Kind) {
				continue
			}
			list := m.pieces(name, i, b, width)
			if name == "never" && m.part("never") < v.room()*neverWhole {
				for k := range list {
					list[k].keep = k+1 < len(list) || i+1 < len(blocks)
				}
			}
			if b.Block() == "clock" {
				early = len(out)
			}
			if b.Block() == "temps" { // needed before the clock is started: on its first card
				out = slices.Insert(out, early, list...)
				continue
			}
			out = append(out, list...)
		}
	}
	if v.cases() { // whom to call and first aid, what to wear, then wiping up
		call := "list"
		if slices.ContainsFunc(v.part("before"), func(b page.Block) bool { return b.Block() == "amount" }) {
			call = "amount" // the numbers, large; where things are follows
		}
		rank := func(a atom) int {
			switch {
			case a.part == "before" && v.part("before")[a.block].Block() == call:
				return 0
			case a.part == "do" && v.urgent(a):
				return 1
			case a.part == "before":
				return 2
			}
			return 3
		}
		slices.SortStableFunc(out, func(a, b atom) int { return rank(a) - rank(b) })
	}
	return out
}

// urgent tells a row that comes before what to wear: first aid.
func (v *view) urgent(a atom) bool {
	s, ok := v.part("do")[a.block].(page.Steps)
	return ok && a.to > 0 && a.from < s.Urgent
}

// cases tells a page of cases of which one holds, such as first aid.
func (v *view) cases() bool {
	return slices.ContainsFunc(v.Page.Do, func(b page.Block) bool { s, ok := b.(page.Steps); return ok && s.Cases })
}

// pieces takes a block apart into rows.
func (m *fitting) pieces(part string, block int, b page.Block, width float64) []atom {
	one := func(i int, high, lead float64) atom {
		return atom{part: part, block: block, from: i, to: i + 1, high: high, lead: lead}
	}
	var out []atom
	switch b := b.(type) {
	case page.Clock:
		for i, r := range b.Rows {
			out = append(out, one(i, m.bathRow(r), 0))
		}
	case page.Steps:
		columns := m.stepColumns(b)
		for i, r := range b.Rows {
			out = append(out, one(i, m.stepRow(r, columns), 0))
		}
	case page.Table:
		cells := m.columnsOf(b, width)
		lead := m.tableHead(b, cells, width)
		for i, r := range b.Rows {
			a := one(i, m.tableRow(r, cells), lead)
			if i == len(b.Rows)-1 {
				a.high += m.tableNote(b, width)
			}
			out = append(out, a)
		}
		high := lead
		for _, a := range out {
			high += a.high
		}
		for i := range out {
			out[i].keep = high < m.v.room()*tableWhole && i+1 < len(out)
		}
	case page.List:
		if part == "never" {
			for i, item := range b.Items {
				out = append(out, one(i, m.block(page.List{Items: []page.Text{item}, Lines: b.Lines}, width), 0))
			}
			break
		}
		lead := 0.0
		if len(b.Label) > 0 {
			lead = m.small*1.15 + .6
		}
		for i, item := range b.Items {
			out = append(out, one(i, m.lines(item, m.text, width, false)*m.text*1.3+.8, lead))
		}
	}
	if len(out) == 0 {
		high := m.block(b, width)
		if part == "before" {
			high = m.before([]page.Block{b})
		}
		out = []atom{{part: part, block: block, high: high, keep: b.Block() == "heading"}}
	}
	// What stands below another block of its part stands off from it.
	if block > 0 {
		out[0].high += 2
	}
	return out
}

// pack deals atoms out to sheets no fuller than limit, a whole table out of its
// turn where it fills a sheet; it tells whether every sheet really holds what it
// was given.
func (v *view) pack(scale float64, atoms []atom, limit float64, again bool, gear []page.Block) ([][]atom, bool) {
	var out [][]atom
	var now []atom
	m := v.fitting(scale)
	over := m.pad*2 + firm
	used := 0.0
	start := func() {
		w := v.on(len(out)+1, 2)
		n := w.fitting(scale)
		used = n.headHeight() + n.foot() + bold + 1 + n.text*1.2 // and that it goes on
		if again {
			used += n.part("never")
		}
		if len(out) > 0 && gear != nil {
			used += n.before(gear) + over
		}
		if len(out) == 0 {
			used += m.keys()
		}
	}
	start()
	cost := func(a atom) float64 {
		c := a.high
		if !slices.ContainsFunc(now, func(b atom) bool { return b.part == a.part }) && a.part != "do" {
			c += over
		}
		if !slices.ContainsFunc(now, func(b atom) bool { return b.part == a.part && b.block == a.block }) {
			c += a.lead
		}
		return c
	}
	// What keeps to its neighbour goes with it.
	end := func(i int) int {
		for i++; i < len(atoms) && atoms[i-1].keep; i++ {
		}
		return i
	}
	need := func(i, j int) (sum float64) {
		for _, a := range atoms[i:j] {
			sum += cost(a)
		}
		return sum
	}
	// laterTable is a table further on that is whole and fits where this one does not.
	laterTable := func(i int) (from, to int, ok bool) {
		if atoms[i].part != "tables" || atoms[i].from > 0 { // no table splits another
			return 0, 0, false
		}
		for from = end(i); from < len(atoms); from = to {
			to = end(from)
			whole := atoms[from].from == 0 && (to == len(atoms) || atoms[to].block != atoms[from].block)
			if atoms[from].part == "tables" && whole && used+need(from, to) <= limit {
				return from, to, true
			}
		}
		return 0, 0, false
	}
	atoms = slices.Clone(atoms)
	for i := 0; i < len(atoms); {
		j := end(i)
		if len(now) > 0 && used+need(i, j) > limit && !atoms[i].first {
			if from, to, ok := laterTable(i); ok {
				move := slices.Clone(atoms[from:to])
				atoms = slices.Insert(slices.Delete(atoms, from, to), i, move...)
				continue
			}
		}
		if len(now) > 0 && (used+need(i, j) > limit || atoms[i].first) {
			out, now = append(out, now), nil
			start()
			continue
		}
		for _, a := range atoms[i:j] {
			used += cost(a)
			now = append(now, a)
		}
		i = j
	}
	out = append(out, now)
	for i, list := range out {
		w := v.on(i+1, len(out))
		w.Page = v.sheet(list, i, again, gear)
		if w.estimate(scale) > v.room() {
			return out, false
		}
	}
	return out, true
}

// on is the view on one sheet of several.
func (v *view) on(sheet, sheets int) *view {
	w := *v
	w.Cut, w.Cuts = sheet, sheets
	if sheet > 1 {
		w.Page = follows(v.Page)
	}
	return &w
}

// follows is the page as a following card has it: its first figure in the head,
// nothing else.
func follows(p page.Page) page.Page {
	p.Lead = nil
	if len(p.Key) > 0 {
		if a, ok := p.Key[0].(page.Amount); ok {
			p.Key = []page.Block{page.Amount{Value: a.Value}}
		} else {
			p.Key = nil
		}
	}
	return p
}

// sheet is the part of the page that stands on one sheet.
func (v *view) sheet(list []atom, nth int, again bool, gear []page.Block) page.Page {
	p := v.Page
	if nth > 0 {
		p = follows(p)
	}
	p.Foot.Fingerprint = v.Fingerprint()
	part := func(name string) []page.Block {
		var out []page.Block
		for i := 0; i < len(list); i++ {
			a := list[i]
			if a.part != name {
				continue
			}
			for i+1 < len(list) && list[i+1].part == name && list[i+1].block == a.block && a.to > 0 {
				i++
				a.to = list[i].to
			}
			out = append(out, slice(v.part(name)[a.block], a.from, a.to))
		}
		return out
	}
	p.Before, p.Do, p.Tables = part("before"), part("do"), part("tables")
	p.Why, p.Record = part("why"), part("record")
	worn := slices.ContainsFunc(p.Before, func(b page.Block) bool { return b.Block() == "gear" })
	if (nth > 0 || !v.cases()) && gear != nil && !worn {
		p.Before = append(slices.Clone(gear), p.Before...)
	}
	if !again {
		p.Never = part("never")
	}
	return p
}

// slice is a block with some of its rows.
func slice(b page.Block, from, to int) page.Block {
	if to == 0 {
		return b
	}
	switch b := b.(type) {
	case page.Clock:
		b.Rows = b.Rows[from:to]
		return b
	case page.Steps:
		b.Rows = b.Rows[from:to]
		return b
	case page.Table:
		if to < len(b.Rows) {
			b.Note = nil
		}
		b.Rows = b.Rows[from:to]
		return b
	case page.List:
		b.Items = b.Items[from:to]
		return b
	}
	return b
}
