package paper

import (
	"slices"
	"strings"

	"wetside/procedures/page"
)

// room is how high the text of a sheet may be, in mm.
func (v flow) room() float64 { return Room(v.Face) }

// chunk is the least of a card that stays together.
type chunk struct {
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
	tableBound = .14 // the same in the binder, whose cards run on
	lastShare  = .25 // what the last sheet holds at least, if the others can spare it
)

// cut cuts a card into as few sheets as it can at a scale, filled from the top, between
// rows. Every sheet has a head and a foot, and what to wear unless it holds first aid
// alone; what must never be done stands on all of them where there is room, else on
// one.
// It tells whether the cut lies between the work and its tables, which is best, and
// whether a piece is higher than a sheet.
func (v flow) cut(scale float64) (sheets []page.Page, steps []int, clean, broken bool) {
	room := v.room()
	m := v.estimate(scale)
	never := m.part("never")
	again := never <= room*neverShare
	gear := v.gearOnly(m, room)
	chunks := v.chunks(m, again)
	try := func(limit float64) ([][]chunk, bool) {
		return v.pack(scale, chunks, limit, again, gear)
	}
	packed, fits := try(room)
	// Estimates of pieces add up to a little less than the whole now and then.
	for limit := room; !fits && limit > room*.7; limit -= 2 {
		packed, fits = try(limit)
	}
	// As many sheets: best the tables begin a sheet.
	if fits {
		apart := slices.Clone(chunks)
		for i := range apart {
			apart[i].first = i > 0 && apart[i].part == "tables" && apart[i-1].part == "do"
		}
		moved := slices.ContainsFunc(apart, func(a chunk) bool { return a.first })
		if list, ok := v.pack(scale, apart, room, again, gear); ok && len(list) == len(packed) && moved {
			packed, clean = list, true
		}
	}
	// Filled from the top, so that a card is not changed sooner than it must be; but
	// the last one is not left nearly empty.
	for limit := room - 4; fits && !clean && limit > room*.4 && nearlyEmpty(packed[len(packed)-1], room); limit -= 4 {
		less, ok := try(limit)
		if !ok || len(less) > len(packed) {
			break
		}
		packed = less
	}
	for i, list := range packed {
		sheets = append(sheets, v.sheet(list, i, again, gear))
		n := 0
		if k := slices.IndexFunc(list, func(a chunk) bool { return a.part == "do" }); k >= 0 {
			n = list[k].from
		}
		steps = append(steps, n)
	}
	return sheets, steps, clean, !fits
}

// nearlyEmpty tells a sheet that holds next to nothing.
func nearlyEmpty(list []chunk, room float64) bool {
	high := 0.0
	for _, a := range list {
		high += a.high
	}
	return high < room*lastShare
}

// gearOnly is what to wear, which every following card says again: with its signs
// where there is room, else in a line of words.
func (v flow) gearOnly(m *estimate, room float64) []page.Block {
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
	if len(words) > 0 && m.before(gear)+m.ruledOff() > room*gearShare {
		return []page.Block{page.Para{Text: page.Say(page.S("Wear"), page.W(": "), page.N(strings.Join(words, ", ")))}}
	}
	return gear
}

// chunks are the pieces of a card in the order in which they are dealt out: what
// comes before, what must never be done unless every sheet says it, then the work.
func (v flow) chunks(m *estimate, again bool) []chunk {
	order := []string{"before"}
	if !again {
		order = append(order, "never")
	}
	for _, name := range v.Parts() {
		switch name {
		case "key", "before", "never", "foot":
		default:
			order = append(order, name)
		}
	}
	w := v.on(1, 2).estimate(m.scale)
	first := w.headHeight() + w.foot() + w.keys() + w.text*w.Line.Caption
	if again {
		first += w.part("never")
	}
	var out []chunk
	early := 0
	for _, name := range order {
		width := m.width
		if name == "never" {
			width = m.neverWidth()
		}
		blocks := v.Part(name)
		if name == "before" && !v.cases() && m.before(blocks)+m.ruledOff() < v.room()*.97-first {
			// They stand beside each other: one piece.
			for i := range blocks {
				high := 0.0
				if i == 0 {
					high = m.before(blocks)
				}
				out = append(out, chunk{part: name, block: i, high: high, keep: i+1 < len(blocks)})
			}
			continue
		}
		for i, b := range blocks {
			if v.Face.Leaves(b.Block(), v.Page.Kind) {
				continue
			}
			list := m.chunks(name, i, b, width)
			if name == "never" && m.part("never") < v.room()*neverWhole {
				for k := range list {
					list[k].keep = k+1 < len(list) || i+1 < len(blocks)
				}
			}
			if name == "tables" && i+1 < len(blocks) && b.Block() == "table" && blocks[i+1].Block() != "table" {
				list[len(list)-1].keep = true // what is said of it begins below it
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
		if slices.ContainsFunc(v.Part("before"), func(b page.Block) bool { return b.Block() == "plates" }) {
			call = "plates" // the numbers, large; where things are follows
		}
		rank := func(a chunk) int {
			switch {
			case a.part == "before" && v.Part("before")[a.block].Block() == call:
				return 0
			case a.part == "do" && v.urgent(a):
				return 1
			case a.part == "before":
				return 2
			}
			return 3
		}
		slices.SortStableFunc(out, func(a, b chunk) int { return rank(a) - rank(b) })
	}
	return out
}

// urgent tells a row that comes before what to wear: first aid.
func (v flow) urgent(a chunk) bool {
	s, ok := v.Part("do")[a.block].(page.Steps)
	return ok && a.to > 0 && a.from < s.Urgent
}

// cases tells a page of cases of which one holds, such as first aid.
func (v flow) cases() bool {
	return slices.ContainsFunc(v.Page.Do, func(b page.Block) bool { s, ok := b.(page.Steps); return ok && s.Cases })
}

// chunks takes a block apart between its rows.
func (m *estimate) chunks(part string, block int, b page.Block, width float64) []chunk {
	var out []chunk
	if n := page.Rows(b); n > 0 {
		h := m.rows(b, width)
		h.rows[n-1] += h.foot
		for i, row := range h.rows {
			out = append(out, chunk{part: part, block: block, from: i, to: i + 1, high: row, lead: h.head})
		}
	} else {
		high := m.block(b, width)
		if part == "before" {
			high = m.before([]page.Block{b})
		}
		out = []chunk{{part: part, block: block, high: high, keep: b.Block() == "heading"}}
	}
	whole := tableWhole
	if m.v.Bound {
		whole = tableBound
	}
	if b.Block() == "table" && m.block(b, width) < m.v.room()*whole {
		for i := range out {
			out[i].keep = i+1 < len(out)
		}
	}
	// What stands below another block of its part stands off from it.
	if block > 0 {
		out[0].high += 2
	}
	return out
}

// pack deals chunks out to sheets no fuller than limit, a whole table out of its
// turn where it fills a sheet; it tells whether every sheet really holds what it
// was given.
func (v flow) pack(scale float64, chunks []chunk, limit float64, again bool, gear []page.Block) ([][]chunk, bool) {
	var out [][]chunk
	var now []chunk
	m := v.estimate(scale)
	over := m.ruledOff()
	used := 0.0
	start := func() {
		w := v.on(len(out)+1, 2)
		n := w.estimate(scale)
		used = n.headHeight() + n.foot() + n.bold + n.Apart.GoesOn + n.text*n.Line.Caption // and that it goes on
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
	cost := func(a chunk) float64 {
		c := a.high
		if !slices.ContainsFunc(now, func(b chunk) bool { return b.part == a.part }) && a.part != "do" {
			c += over
		}
		if !slices.ContainsFunc(now, func(b chunk) bool { return b.part == a.part && b.block == a.block }) {
			c += a.lead
		}
		return c
	}
	// What keeps to its neighbour goes with it.
	end := func(i int) int {
		for i++; i < len(chunks) && chunks[i-1].keep; i++ {
		}
		return i
	}
	need := func(i, j int) (sum float64) {
		for _, a := range chunks[i:j] {
			sum += cost(a)
		}
		return sum
	}
	// laterTable is a table further on that is whole and fits where this one does not.
	// No table splits another, and none leaves what is said of it.
	remarks := slices.ContainsFunc(v.Part("tables"), func(b page.Block) bool { return b.Block() != "table" })
	laterTable := func(i int) (from, to int, ok bool) {
		if chunks[i].part != "tables" || chunks[i].from > 0 || remarks {
			return 0, 0, false
		}
		for from = end(i); from < len(chunks); from = to {
			to = end(from)
			whole := chunks[from].from == 0 && (to == len(chunks) || chunks[to].block != chunks[from].block)
			if chunks[from].part == "tables" && whole && used+need(from, to) <= limit {
				return from, to, true
			}
		}
		return 0, 0, false
	}
	chunks = slices.Clone(chunks)
	for i := 0; i < len(chunks); {
		j := end(i)
		if len(now) > 0 && used+need(i, j) > limit && !chunks[i].first {
			if from, to, ok := laterTable(i); ok {
				move := slices.Clone(chunks[from:to])
				chunks = slices.Insert(slices.Delete(chunks, from, to), i, move...)
				continue
			}
		}
		if len(now) > 0 && (used+need(i, j) > limit || chunks[i].first) {
			out, now = append(out, now), nil
			start()
			continue
		}
		for _, a := range chunks[i:j] {
			used += cost(a)
			now = append(now, a)
		}
		i = j
	}
	out = append(out, now)
	for i, list := range out {
		w := v.on(i+1, len(out))
		w.Page = v.sheet(list, i, again, gear)
		if w.height(scale) > v.room() {
			return out, false
		}
	}
	return out, true
}

// on is the view on one sheet of several.
func (v flow) on(sheet, sheets int) flow {
	w := *v.View
	w.Cut, w.Cuts = sheet, sheets
	if sheet > 1 {
		w.Page = follows(v.Page)
	}
	return flow{&w}
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
func (v flow) sheet(list []chunk, nth int, again bool, gear []page.Block) page.Page {
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
			from := v.Part(name)
			if name == "never" { // the sheet says the word to each line itself
				from = v.Page.Never
			}
			b := from[a.block]
			if r, ok := b.(page.Rowed); ok && a.to > 0 {
				b = r.Slice(a.from, a.to)
			}
			out = append(out, b)
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
