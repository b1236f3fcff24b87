package cards

import (
	"fmt"
	"math/big"
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/page"
	"wetside/procedures/shelf"
	"wetside/procedures/unit"
)

// today gathers what a piece of work finds on the shelf: what is dead, what does not
// stand there, what is not enough. Each is said once.
type today struct {
	c     *Context
	base  lab.Base // of the process, empty without one
	items []page.Text
	seen  map[shelf.Wanted]bool
}

func newToday(c *Context) *today { return &today{c: c, seen: map[shelf.Wanted]bool{}} }

// blocks is the gathered list as a warning, or nothing.
func (t *today) blocks() []page.Block {
	if len(t.items) == 0 {
		return nil
	}
	return []page.Block{page.Cautions{Items: t.items}}
}

// kept reports whether the lab keeps batches, so that what is in none of them is
// missing.
func (c *Context) kept() bool { return len(c.W.Bottles()) > 0 }

// batchName names a batch in a warning.
func batchName(b shelf.Batch) page.Text {
	return page.Say(page.N(b.Bath.Name()), page.W(", "), page.N(b.Bath.Strength), page.W(", batch "), page.L("label/"+b.ID, b.ID))
}

// wants notes what is dead of a bath, and whether it or what it is made of stands
// on the shelf: at its place of two, where it has one; unused, where it goes into
// another bath.
func (t *today) wants(b lab.Bath, place int, unused bool) {
	w := shelf.Wanted{Ref: b.Ref(), Place: place, Unused: unused, Base: t.base}
	if t.seen[w] {
		return
	}
	t.seen[w] = true
	stands := shelf.Stands(t.c.Book, t.c.W.Bottles(), w)
	for _, d := range stands.Dead {
		t.say(append(page.Say(page.S("Dead, do not use: ")), batchName(d)...))
	}
	for _, d := range stands.SpentFor {
		by, _ := d.SpentFor(t.base)
		t.say(append(append(page.Say(page.S("Spent for "), page.S(string(t.base)), page.S(", do not use: ")), batchName(d)...), page.W(": "), page.N(by)))
	}
	for _, d := range stands.Placeless {
		t.say(append(append(page.Say(page.S("First or second bath: ")), batchName(d)...), page.W(": nobody has written which of the two it is (place) "), page.Inline{Kind: page.Ask, Text: "first"}))
	}
	if len(stands.Usable) > 0 {
		return
	}
	for _, d := range stands.Unsure {
		t.say(append(append(page.Say(page.S("Cannot be judged: ")), batchName(d)...), page.W(": "), page.N(d.Why), page.W(" "), page.Inline{Kind: page.Ask, Text: "first"}))
	}
	from, _, diluted := b.From()
	switch {
	case diluted && t.c.mixedOnTheSpot(b):
		t.wants(from, 0, false)
		return
	case b.Product != nil && !diluted:
		t.bought(b)
		return
	}
	missing := page.Say(page.S("Not on the shelf: "))
	if w.Unused = false; unused && len(shelf.Stands(t.c.Book, t.c.W.Bottles(), w).Usable) > 0 {
		missing = page.Say(page.S("Only used on the shelf: "))
	}
	missing = append(missing, page.L("mix/"+b.Def().ID, b.Name()), page.W(", "), page.N(b.Strength))
	if place > 0 {
		missing = append(missing, page.W(", "+placeWord(place)))
	}
	if life := t.c.shortLived(b); life != nil {
		t.say(append(missing, page.W(": have its parts at hand, it keeps "), page.F(life), page.W(" once it is mixed")))
	} else {
		t.say(append(missing, page.W(": mix it first")))
	}
	if diluted {
		t.wants(from, 0, false)
		return
	}
	for _, in := range t.c.Mix.Ingredients(b) {
		t.wants(in.Bath, 0, true)
	}
}

// say notes a line, once.
func (t *today) say(line page.Text) {
	if !slices.ContainsFunc(t.items, func(o page.Text) bool { return sameText(o, line) }) {
		t.items = append(t.items, line)
	}
}

// mixedOnTheSpot reports a dilution that nobody keeps: it is made from its stock
// when it is wanted.
func (c *Context) mixedOnTheSpot(b lab.Bath) bool {
	d := b.Decl()
	return d != nil && d.Use != "re-use" && d.Use != "replenish"
}

// bought warns of a product of which the store says that nothing is left.
func (t *today) bought(b lab.Bath) {
	pack, _, ok := t.c.Lab.PackOf(b.Ref())
	switch {
	case !ok && len(t.c.Lab.Store.Packs) > 0:
		t.items = append(t.items, page.Say(page.S("Not in the store: "), page.L("mix/"+b.Def().ID, b.Name()), page.W(", "), page.N(b.Strength), page.W(" "), page.Inline{Kind: page.Ask, Text: "first"}))
	case ok && pack.Left.Volume.Given() && !pack.Left.Volume.Positive():
		t.items = append(t.items, page.Say(page.S("Used up: "), page.L("mix/"+b.Def().ID, b.Name()), page.W(", "), page.N(b.Strength), page.W(": order it first")))
	}
}

// demand is what a piece of work wants of one bath: the figures of it, and the stock
// that goes into it where it is made anew.
type demand struct {
	bath  lab.Bath
	want  shelf.Wanted
	ids   []*figure.Record
	stock *demand
	// line is what is said where nothing further down helps: the nearest bath that
	// stands here, and not enough of it.
	line page.Text
}

// demandOf is a demand for a bath at a place. What no process works in is never used:
// what is drawn from it and what goes into another bath come from the same bottles.
func (c *Context) demandOf(b lab.Bath, place int, unused bool, ids ...*figure.Record) demand {
	unused = unused && len(c.W.Bath(b.Ref()).UsedIn) > 0
	return demand{bath: b, want: shelf.Wanted{Ref: b.Ref(), Place: place, Unused: unused}, ids: ids}
}

// standing is what stands here of what is wanted: its figure, and the same in ml, nil
// where nobody can tell; false where nothing stands here, which is said already.
func (c *Context) standing(b lab.Bath, w shelf.Wanted) (left *figure.Record, exact *big.Rat, ok bool) {
	stands := shelf.Stands(c.Book, c.W.Bottles(), w)
	if len(stands.Usable) > 0 && stands.Exact != nil {
		return stands.Left, stands.Exact, true
	}
	pack, i, _ := c.Lab.PackOf(b.Ref())
	if !pack.Left.Volume.Given() {
		return nil, nil, len(stands.Usable) > 0
	}
	at := c.Lab.Store.At(fmt.Sprintf("pack[%d].left", i))
	by, _ := c.Lab.OriginOf(c.Lab.Store.Def, at.Key)
	left = c.Mix.VolumeFigure("store/"+b.Ref(), pack.Left.Volume.Quantity, at, by, "left in the store")
	return left, pack.Left.Volume.Exact(), true
}

// height is how many baths a bath is made of, one from the other.
func (c *Context) height(b lab.Bath) int {
	if from, _, ok := b.From(); ok {
		return 1 + c.height(from)
	}
	n := 0
	for _, in := range c.Mix.Ingredients(b) {
		n = max(n, 1+c.height(in.Bath))
	}
	return n
}

// enough warns where not enough stands here of what a piece of work wants, or of what
// it is made from; what says what it is for. What several steps want of one bath is
// added, unless it is poured back in between.
func (t *today) enough(what page.Text, wanted []demand) {
	var open []demand
	add := func(d demand) {
		i := slices.IndexFunc(open, func(o demand) bool { return o.want == d.want })
		if i < 0 {
			open = append(open, d)
			return
		}
		o := &open[i]
		o.line = nil
		decl := d.bath.Decl()
		if d.stock != nil && decl != nil && decl.Use != "one-shot" { // the same bath again
			if t.millilitres(d.ids).Cmp(t.millilitres(o.ids)) > 0 {
				o.ids, o.stock = d.ids, d.stock
			}
			return
		}
		o.ids = append(o.ids, d.ids...)
		if o.stock != nil && d.stock != nil {
			o.stock.ids = append(slices.Clone(o.stock.ids), d.stock.ids...)
		}
	}
	for _, d := range wanted {
		add(d)
	}
	for len(open) > 0 {
		// What is made of others comes before what these take themselves.
		top := 0
		for i, d := range open {
			if t.c.height(d.bath) > t.c.height(open[top].bath) {
				top = i
			}
		}
		d := open[top]
		open = slices.Delete(open, top, top+1)
		id := shelf.Together(t.c.Book, d.want, d.ids)
		left, exact, stands := t.c.standing(d.bath, d.want)
		if exact != nil && t.millilitres([]*figure.Record{id}).Cmp(exact) <= 0 {
			continue
		}
		line := d.line
		if line == nil && stands {
			line = t.tooLittle(d, what, id, left, exact)
		}
		next := t.madeOf(d, id)
		for _, n := range next {
			n.line = line
			add(n)
		}
		if len(next) == 0 && line != nil {
			t.say(line)
		}
	}
}

// madeOf is what goes into a bath that is made anew.
func (t *today) madeOf(d demand, id *figure.Record) []demand {
	if d.stock != nil {
		return []demand{*d.stock}
	}
	if _, _, ok := d.bath.From(); ok {
		return nil
	}
	var out []demand
	for _, in := range t.c.Mix.Ingredients(d.bath) {
		if in.Share != nil {
			n := t.c.demandOf(in.Bath, 0, true)
			n.ids = []*figure.Record{shelf.PartOf(t.c.Book, d.want, n.want, id, in.Share)}
			out = append(out, n)
		}
	}
	return out
}

// tooLittle is the line for a bath of which not enough stands here.
func (t *today) tooLittle(d demand, what page.Text, id, left *figure.Record, exact *big.Rat) page.Text {
	line := page.Say(page.S("Not enough: "))
	if exact == nil {
		line = page.Say(page.S("How much stands here, nobody has written: "))
	}
	line = append(line, page.L("mix/"+d.bath.Def().ID, d.bath.Name()), page.W(", "), page.N(d.bath.Strength))
	if d.want.Place > 0 {
		line = append(line, page.W(", "+placeWord(d.want.Place)))
	}
	line = append(append(line, page.W(", for ")), what...)
	line = append(line, page.W(": it wants "), page.F(id))
	if exact == nil {
		return append(line, page.W(" "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	return append(line, page.W(", and "), page.F(left), page.W(" stands here"))
}

// millilitres is what figures come to together.
func (t *today) millilitres(ids []*figure.Record) *big.Rat {
	sum := new(big.Rat)
	for _, r := range ids {
		if !r.Refused() {
			sum.Add(sum, new(big.Rat).SetFloat64(unit.Snap(float64(figure.Entered[unit.Volume](r).Value))))
		}
	}
	return sum
}

// today says what the process finds on the shelf: its baths and what they are made
// of, and whether there is enough for each vessel.
func (k *processCard) today() []page.Block {
	if !k.c.kept() {
		return nil
	}
	t := newToday(k.c)
	t.base = k.p.Base
	for i, s := range k.p.Steps {
		if b, ok := k.baths[i]; ok {
			t.wants(b, int(s.Place), false)
		}
	}
	for _, ch := range k.choices {
		var all []demand
		for i, s := range k.p.Steps {
			b, ok := k.baths[i]
			if !ok || b.Decl() != nil && b.Decl().Coat.Given() {
				continue
			}
			f := k.c.W.Fill(b, k.vesselOf(i, s, ch))
			if f.No != nil {
				continue
			}
			d := k.c.demandOf(f.Bath, int(s.Place), false, f.Volume)
			d.want.Base = k.p.Base
			if f.From.Ref() != f.Bath.Ref() {
				from := k.c.demandOf(f.From, 0, false, f.Take.Amount)
				d.stock = &from
			}
			all = append(all, d)
		}
		t.enough(page.Say(page.W("the "), page.N(k.vesselName(ch.vessel))), all)
	}
	k.fixLonger(t)
	k.developLonger(t)
	return t.blocks()
}

// developLonger notes the used developers that stand here: how long the next film
// takes in each, and how many more have room in it.
func (k *processCard) developLonger(t *today) {
	b, ok := k.baths[k.devStep]
	if !ok || k.any {
		return
	}
	at, own := k.p.Temperature.At, k.p.Temperature.At.Given()
	for _, batch := range k.c.W.Bottles() {
		r := batch.Reuse
		if r == nil || batch.Bath.Ref() != b.Ref() || !batch.Usable() || r.Done.Value <= 0 {
			continue
		}
		room := capacity.Room(r.Done.Value, r.Made.Value, r.Most.Value())
		ids := k.each(func(ch choice) *figure.Record {
			for i, dev := range ch.material.Develop {
				if in, bad := k.c.Lab.Bath(dev.In, ch.material.At(fmt.Sprintf("develop[%d].in", i))); len(bad) > 0 || in.Ref() != b.Ref() {
					continue
				}
				degrees := float64(dev.At.Value())
				if own {
					degrees = float64(at.Value())
				}
				return k.t.Reused(batch.ID+"/develop@"+ch.material.ID+","+k.p.ID, ch.material, i, b, degrees, r.Done, r.Made)
			}
			return k.c.W.Word("ask", "ask first")
		})
		line := append(page.Say(page.S("Used developer: ")), batchName(batch)...)
		line = append(line, page.W(": the next film takes "), figs(ids), page.W(" in it, and "))
		line = append(line, page.F(k.c.W.Count(batch.ID+"/room", room, "rolls", "rolls that still have room in it")), page.W(" still have room"))
		t.say(line)
	}
}

// fixLonger notes the fixers that stand here and clear more slowly than they did
// fresh: how long each film is fixed in them.
func (k *processCard) fixLonger(t *today) {
	for i, s := range k.p.Steps {
		b, ok := k.baths[i]
		if !ok || !s.Time.Clearing || k.any {
			continue
		}
		for _, batch := range k.c.W.Bottles() {
			if batch.Bath.Ref() != b.Ref() || !batch.Usable() || batch.Ratio.Value <= 1 {
				continue
			}
			ids := k.each(func(ch choice) *figure.Record {
				if id := k.t.FixUsed(batch.ID+"/fix@"+ch.material.ID+","+k.p.ID+"."+s.ID, k.p, i, ch.material, batch.Ratio); id != nil {
					return id
				}
				return k.c.W.Word("ask", "ask first")
			})
			line := append(page.Say(page.S("Used fixer: ")), batchName(batch)...)
			t.say(append(line, page.W(" clears "), page.F(batch.Clearing), page.W(": fix at least "), figs(ids), page.W(" in it")))
		}
	}
}

// boardFirst sends whoever mixes from what stands on the shelf to its board.
func (c *Context) boardFirst(made lab.Bath) []page.Block {
	if len(c.Lab.Batches) == 0 || len(c.Mix.Ingredients(made)) == 0 {
		return nil
	}
	return []page.Block{page.Checklist{Label: page.Say(page.W("have ready")), Items: []page.Text{page.Say(page.W("look at the shelf board first"))}}}
}

// partsToday says of what a solution is mixed from what is dead, does not stand
// here, or is not enough for a batch.
func (c *Context) partsToday(made lab.Bath, batches []mix.Batch) []page.Block {
	if !c.kept() {
		return nil
	}
	t := newToday(c)
	for _, in := range c.Mix.Ingredients(made) {
		t.wants(in.Bath, 0, true)
	}
	for _, b := range batches {
		var all []demand
		for _, row := range b.Rows {
			part := row.Ing.Bath
			if row.Percent.Solution != nil {
				part = row.Percent
				t.wants(part, 0, true)
			}
			if !part.Zero() && row.Take.Refused == "" {
				all = append(all, c.demandOf(part, 0, true, row.Take.Amount))
			}
		}
		t.enough(page.Say(page.F(c.volumeOf(made.Solution, b))), all)
	}
	return t.blocks()
}

// drawnToday says of what is diluted whether it is dead, does not stand here, or is
// not enough.
func (c *Context) drawnToday(from lab.Bath, draw mix.Draw) []page.Block {
	if !c.kept() {
		return nil
	}
	t := newToday(c)
	t.wants(from, 0, false)
	if draw.Take.Refused == "" {
		t.enough(page.Say(page.F(draw.Fill)), []demand{c.demandOf(from, 0, false, draw.Take.Amount)})
	}
	return t.blocks()
}

// vesselName is a vessel in words; a tank that takes more of one family than of
// another, with the one meant.
func (k *processCard) vesselName(v capacity.Vessel) string {
	for _, other := range k.choices {
		if o := other.vessel; !v.Tray && o.Name == v.Name && o.Fill.Text() != v.Fill.Text() {
			return v.Name + ", " + v.Family
		}
	}
	return v.Name
}
