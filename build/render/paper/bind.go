package paper

import (
	"math"
	"slices"
	"sort"
	"strings"
	"sync"

	"wetside/build/render/parallel"
	"wetside/build/render/typeset"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// Leaf is one sheet of the binder: its running head and the cards, or parts of cards, that
// stand on it from the top.
type Leaf struct {
	Head   string
	Pieces []*view.View
}

// Entry is a line of the list of contents: a card and its sheet, or the name of a chapter.
type Entry struct {
	Chapter       bool
	Title, Anchor string
	Sheet         int
	nth           int // which card of its chapter it is
}

// leafReserve is what a sheet of the binder always keeps free, in mm, for lines that break
// sooner than they were reckoned.
const leafReserve = 1.0

// A card is cut between two sheets of the binder if at least these shares of a sheet stand
// on each of them.
const (
	leastBefore = .2
	leastAfter  = .06
)

// ahead is how many cards of a chapter are looked at for one that fills a sheet: none stands
// farther from its turn, and a long chapter is laid out as fast as a short one.
const ahead = 24

// binding lays the cards of one chapter out on sheets, one after the other. A card begins on
// the sheet on which the one before it ends, if its work has room there.
type binding struct {
	face   theme.Face
	groups []page.Group
	room   float64
	leaves []Leaf
	used   float64 // of the last sheet
	// shared is what all cards of the chapter say alike, which stands on each of its sheets;
	// nil where there is nothing.
	shared  *flow
	high    float64 // of shared
	chapter string
	entries []Entry // their sheets are counted from 1 in the chapter
}

// Bound is a bound binder: its sheets, and what its list of contents says, by sheet and column.
type Bound struct {
	Leaves   []Leaf
	Contents [][][]Entry
}

// Bind lays out the whole binder. A chapter begins a sheet, so that each is laid out by itself.
func (s *Papers) Bind(face theme.Face) Bound {
	var cards []flow
	for _, v := range s.Cards(face) {
		cards = append(cards, flow{v})
	}
	var chapters []*binding
	var of [][]flow
	for from := 0; from < len(cards); {
		to := from + 1
		for to < len(cards) && chapterOf(cards[to]) == chapterOf(cards[from]) {
			to++
		}
		chapters = append(chapters, &binding{face: face, groups: s.binder.Groups, room: Room(face) - leafReserve})
		of = append(of, cards[from:to])
		from = to
	}
	parallel.Each(len(chapters), func(i int) { chapters[i].lay(of[i]) })
	var leaves []Leaf
	var entries []Entry
	for _, b := range chapters {
		for _, e := range b.entries {
			e.Sheet += len(leaves)
			entries = append(entries, e)
		}
		leaves = append(leaves, b.leaves...)
	}
	measuring := flow{&view.View{Fonts: typeset.FontsOf(s.binder.Theme), Face: face}}
	return Bound{leaves, tableOfContents(measuring, entries)}
}

// Cards lists the cards that are bound into the binder: each in the choices that it is
// printed in.
func (s *Papers) Cards(face theme.Face) (all []*view.View) {
	bound := func(p page.Page, choice int) *view.View {
		v := s.binder.View(p, face, choice)
		v.Bound, v.Demonstration = true, false // each sheet says that itself
		return v
	}
	printed := map[string][]int{}
	for _, pr := range s.binder.Prints {
		if slices.Contains(pr.Faces, "binder") {
			printed[pr.Page] = append(printed[pr.Page], pr.Choice)
		}
	}
	for _, p := range s.binder.Pages {
		if _, sheet := view.BlockOf[page.Sheet](p); sheet || p.Kind == "index" || slices.Contains(face.Omit, p.Kind) {
			continue
		}
		choices := printed[p.ID]
		if len(choices) == 0 {
			choices = []int{view.Chosen(p)}
		}
		for _, choice := range choices {
			all = append(all, bound(p, choice))
		}
	}
	return all
}

// chapterOf is the group that a card belongs to.
func chapterOf(v flow) string {
	group, _, _ := strings.Cut(v.Page.ID, "/")
	return group
}

// lay lays out the cards of a chapter.
func (b *binding) lay(cards []flow) {
	first := cards[0]
	b.chapter = first.Page.KindLine
	for _, g := range b.groups {
		if g.ID == chapterOf(first) {
			b.chapter = g.Word
		}
	}
	b.entries = append(b.entries, Entry{Chapter: true, Title: b.chapter, Anchor: "p-" + first.Slug(), Sheet: 1})
	if slices.Contains(b.face.Family, first.Page.Kind) {
		if b.shared = takeShared(cards); b.shared != nil {
			b.high = b.shared.high()
		}
	}
	b.turn("")
	waiting, empty := make([]card, len(cards)), b.empty()
	for i, v := range cards {
		waiting[i] = v.waits(i, empty)
	}
	for len(waiting) > 0 {
		next := 0
		if !b.begins(waiting[0]) { // a later card may fill the sheet
			near, left := waiting[:min(ahead, len(waiting))], b.left()
			next = slices.IndexFunc(near, func(c card) bool { return c.high <= left })
			if next < 0 {
				next = max(0, slices.IndexFunc(near, b.begins))
			}
		}
		b.place(waiting[next])
		waiting = slices.Delete(waiting, next, next+1)
	}
	slices.SortStableFunc(b.entries[1:], func(a, b Entry) int { return a.nth - b.nth })
}

// card is a card that waits for its place: which of its chapter it is, how high, and whether
// its order of steps is higher than a sheet.
type card struct {
	flow
	nth  int
	high float64
	long bool
	// cut are its parts between which it may be cut, and first how high the first of them is;
	// both are worked out when they are first asked for.
	cut   func() [][]chunk
	first func() float64
}

// waits makes a card of a view. Its type is smaller where that keeps its steps on one sheet.
func (v flow) waits(nth int, empty float64) card {
	c := card{flow: v, nth: nth, long: true}
	for i := range v.Face.Scales(v.Page.ID) {
		v.Scale = i
		if whole, _, _ := v.head(empty); whole {
			c.long = false
			break
		}
	}
	if c.long {
		v.Scale = 0
	}
	c.high = v.high()
	c.cut = sync.OnceValue(func() [][]chunk { return v.groups(empty) })
	c.first = sync.OnceValue(func() float64 {
		groups := c.cut()
		if len(groups) == 0 {
			return math.Inf(1)
		}
		return v.pieceOf(groups[:1], 0, len(groups) == 1).high()
	})
	return c
}

// high is how high a card of the binder is, in its type.
func (v flow) high() float64 { return v.height(v.Face.Scales(v.Page.ID)[v.Scale]) }

// begins tells whether a card begins on the last sheet: whole, or with its work.
func (b *binding) begins(c card) bool {
	left := b.left()
	if c.high <= left {
		return true
	}
	whole := c.high <= b.empty() && len(c.Page.Tables) == 0 && !onlyTables(c.flow) // stays on one sheet
	if whole || c.long && !b.fresh() || left < b.room*leastBefore || c.high-left < b.room*leastAfter {
		return false
	}
	return c.first() <= left
}

// empty is the room on a new sheet.
func (b *binding) empty() float64 {
	if b.shared == nil {
		return b.room
	}
	return b.room - b.high - b.face.Spacing.Apart.Cards
}

// turn begins a new sheet, which says first what its cards have in common.
func (b *binding) turn(title string) {
	head := b.chapter
	if title != "" && title != head {
		head += " · " + title
	}
	b.leaves, b.used = append(b.leaves, Leaf{Head: head}), 0
	if b.shared != nil {
		b.put(*b.shared)
	}
}

// put sets a card, or a part of one, below what stands on the last sheet.
func (b *binding) put(v flow) {
	l := &b.leaves[len(b.leaves)-1]
	if len(l.Pieces) > 0 {
		b.used += b.face.Spacing.Apart.Cards
	}
	l.Pieces, b.used = append(l.Pieces, v.View), b.used+v.high()
}

// left is the room that is left on the last sheet.
func (b *binding) left() float64 {
	if len(b.leaves[len(b.leaves)-1].Pieces) == 0 {
		return b.room
	}
	return b.room - b.used - b.face.Spacing.Apart.Cards
}

// fresh tells whether no card stands on the last sheet.
func (b *binding) fresh() bool {
	n := len(b.leaves[len(b.leaves)-1].Pieces)
	return n == 0 || n == 1 && b.shared != nil
}

// place sets a card on the last sheet, or on a new one if it cannot begin there, and goes
// on with it on following ones.
func (b *binding) place(c card) {
	if !b.fresh() && !b.begins(c) {
		b.turn(c.Page.Title)
	}
	if b.fresh() { // the running head is that of the first card
		b.leaves[len(b.leaves)-1].Head = b.chapter + " · " + c.Page.Title
	}
	b.entries = append(b.entries, Entry{nth: c.nth, Title: c.Page.Title, Anchor: "p-" + c.Slug(), Sheet: len(b.leaves)})
	if c.high <= b.left() {
		b.put(c.flow)
		return
	}
	groups := c.cut()
	for nth := 0; len(groups) > 0; nth++ {
		if nth > 0 {
			b.turn(c.Page.Title)
		}
		fit := max(1, c.most(groups, nth, b.left()))
		piece := c.pieceOf(groups[:fit], nth, fit == len(groups))
		over := piece.high() - b.left()
		b.put(piece)
		for ; over > 0; over -= b.room { // higher than a sheet: the printer breaks it
			b.leaves, b.used = append(b.leaves, Leaf{Head: b.chapter}), b.room
		}
		groups = groups[fit:]
	}
}

// onlyTables tells a card whose work is tables and lists, which may be cut anywhere.
func onlyTables(v flow) bool {
	return len(v.Page.Do) > 0 && !slices.ContainsFunc(v.Page.Do, func(b page.Block) bool { return inOrder(b) })
}

// inOrder tells a block whose rows are done one after the other, or looked up in a hurry.
func inOrder(b page.Block) bool { k := b.Block(); return k == "steps" || k == "clock" }

// most is how many groups of a card have room below each other.
func (v flow) most(groups [][]chunk, nth int, room float64) int {
	return sort.Search(len(groups), func(i int) bool {
		return v.pieceOf(groups[:i+1], nth, i+1 == len(groups)).high() > room
	})
}

// pieceOf is the part of a card that groups of its chunks make.
func (v flow) pieceOf(groups [][]chunk, nth int, last bool) flow {
	list := slices.Concat(groups...)
	cuts := nth + 2
	if last {
		cuts = nth + 1
	}
	w := v.on(nth+1, cuts)
	w.Page = v.sheet(list, nth, false, nil)
	if k := slices.IndexFunc(list, func(a chunk) bool { return a.part == "do" }); k >= 0 {
		w.Steps = list[k].from
	}
	return w
}

// head are the chunks of a card that stand on the sheet on which it begins, and how many of
// them; whole tells that they have room there.
func (v flow) head(room float64) (whole bool, chunks []chunk, n int) {
	chunks = v.chunks(v.estimate(v.Face.Scales(v.Page.ID)[v.Scale]), false)
	cases := v.cases()
	for i, a := range chunks {
		order := a.part == "do" && inOrder(v.Part("do")[a.block]) && (a.block == 0 || !cases)
		if order || a.part == "before" || a.part == "never" {
			n = i + 1
		}
		// Cases stay together, with what to wear for them.
		if cases && a.part == "do" && i+1 < len(chunks) && chunks[i+1].part == "do" {
			chunks[i].keep = true
		}
	}
	if n < len(chunks) && (n == 0 || chunks[n].part == "do") { // and the first line of what follows
		n++
	}
	for n < len(chunks) && n > 0 && chunks[n-1].keep && !cases {
		n++
	}
	return v.pieceOf([][]chunk{chunks[:n]}, 0, n == len(chunks)).high() <= room, chunks, n
}

// groups are the chunks of a card that stay together: with its head goes all that comes
// before the work, what must never be done and an order of steps to its last, unless that
// is higher than a sheet.
func (v flow) groups(room float64) [][]chunk {
	whole, chunks, n := v.head(room)
	if !whole {
		n = 0
		for i, a := range chunks {
			if a.part == "before" || a.part == "never" {
				n = i + 1
			}
		}
		n = min(n+1, len(chunks))
	}
	groups := [][]chunk{chunks[:n]}
	for from := n; from < len(chunks); {
		to := from + 1
		for to < len(chunks) && chunks[to-1].keep {
			to++
		}
		groups = append(groups, chunks[from:to])
		from = to
	}
	return groups
}

// takeShared takes from cards what all of them say alike before their work, of what must
// never be done, as a reason and as a hole, and is the view that says it once.
func takeShared(cards []flow) *flow {
	if len(cards) < 2 {
		return nil
	}
	p := page.Page{
		ID: chapterOf(cards[0]) + "/all", Kind: cards[0].Page.Kind, Title: cards[len(cards)-1].Page.KindLine,
		Lead: page.Say(page.W("For every card on this sheet.")),
	}
	key := func(b page.Block) string { return page.Digest(page.Page{Do: []page.Block{b}}) }
	common := func(part func(*page.Page) *[]page.Block) (all []page.Block) {
		for _, block := range *part(&cards[0].Page) {
			k := key(block)
			same := func(other page.Block) bool { return key(other) == k }
			if !slices.ContainsFunc(cards, func(v flow) bool { return !slices.ContainsFunc(*part(&v.Page), same) }) {
				all = append(all, block)
			}
		}
		for _, v := range cards {
			list := part(&v.Page)
			*list = slices.DeleteFunc(slices.Clone(*list), func(block page.Block) bool {
				return slices.ContainsFunc(all, func(a page.Block) bool { return key(a) == key(block) })
			})
		}
		return all
	}
	p.Before = common(func(p *page.Page) *[]page.Block { return &p.Before })
	p.Never = common(func(p *page.Page) *[]page.Block { return &p.Never })
	p.Why = common(func(p *page.Page) *[]page.Block { return &p.Why })
	holes := slices.DeleteFunc(slices.Clone(cards[0].Page.Foot.Holes), func(h page.Hole) bool {
		return slices.ContainsFunc(cards, func(v flow) bool { return !slices.Contains(v.Page.Foot.Holes, h) })
	})
	for _, v := range cards {
		shared := func(h page.Hole) bool { return slices.Contains(holes, h) }
		v.Page.Foot.Holes = slices.DeleteFunc(slices.Clone(v.Page.Foot.Holes), shared)
	}
	if len(holes) > 0 {
		p.Why = append(p.Why, page.HolesList{Items: holes})
	}
	if len(p.Before)+len(p.Never)+len(p.Why) == 0 {
		return nil
	}
	w := *cards[0].View
	w.Page, w.Whole, w.Choice, w.Shared = p, p, -1, true
	for _, v := range cards { // the shared head names it
		v.Page.KindLine = ""
	}
	return &flow{&w}
}

// Of the list of contents, in mm: room for the sheet's number beside a title, and what the head
// of the first sheet takes.
const (
	tocNumber = 9.0
	tocHead   = 44.0
)

// tableOfContents deals entries out to the columns of sheets of a face and numbers them: the
// sheets of the list come before all others.
func tableOfContents(v flow, entries []Entry) (sheets [][][]Entry) {
	whole, s := v.room()-leafReserve, v.Face.Spacing
	size := v.Face.Type.Small * typeset.Point
	var column []Entry
	var columns [][]Entry
	room := whole - tocHead
	used := 0.0
	flush := func() {
		columns, column, used = append(columns, column), nil, 0
		if len(columns) == 2 {
			sheets, columns, room = append(sheets, columns), nil, whole
		}
	}
	for _, e := range entries {
		lines := v.Lines([]typeset.Piece{{Text: e.Title, Bold: e.Chapter}}, size, s.Side.Contents-tocNumber)
		line := size * s.Line.Small
		high := float64(lines)*line + s.Apart.Contents
		need := high
		if e.Chapter {
			high += s.Apart.ContentsChapter
			need = high + 2*(line+s.Apart.Contents) // not the last of a column
		}
		if used+need > room {
			flush()
		}
		used += high
		column = append(column, e)
	}
	if column != nil || columns != nil {
		columns = append(columns, column)
		sheets = append(sheets, columns)
	}
	for _, sheet := range sheets {
		for _, column := range sheet {
			for i := range column {
				column[i].Sheet += len(sheets)
			}
		}
	}
	return sheets
}
