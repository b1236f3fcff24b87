package cards

import (
	"fmt"
	"math/big"
	"slices"

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
	items []page.Text
	seen  map[string]bool
}

// blocks is the gathered list as a warning, or nothing.
func (t *today) blocks() []page.Block {
	if len(t.items) == 0 {
		return nil
	}
	return []page.Block{page.Cautions{Items: t.items}}
}

// kept reports whether the lab keeps batches, so that what is in none of them is
// missing.
func (c *Context) kept() bool { return len(c.batches()) > 0 }

// batchName names a batch in a warning.
func batchName(b shelf.Batch) page.Text {
	return page.Say(page.N(b.Bath.Name()), page.W(", "), page.N(b.Bath.Strength), page.W(", batch "), page.L("label/"+b.ID, b.ID))
}

// wants notes what is dead of a bath, and whether it or what it is made of stands
// on the shelf. It reports the strengths that do stand there.
func (t *today) wants(b lab.Bath) {
	if t.seen[b.Ref()] {
		return
	}
	t.seen[b.Ref()] = true
	stands := shelf.Stands(t.c.Book, t.c.batches(), b.Ref())
	for _, d := range stands.Dead {
		t.items = append(t.items, append(page.Say(page.S("Dead, do not use: ")), batchName(d)...))
	}
	if len(stands.Usable) > 0 {
		return
	}
	for _, d := range stands.Unsure {
		t.items = append(t.items, append(append(page.Say(page.S("Cannot be judged: ")), batchName(d)...), page.W(": "), page.N(d.Why), page.W(" "), page.Inline{Kind: page.Ask, Text: "first"}))
	}
	from, _, _, diluted := mix.From(b)
	switch {
	case diluted && t.c.mixedOnTheSpot(b):
		t.wants(from)
		return
	case b.Product != nil && !diluted:
		t.bought(b)
		return
	}
	t.items = append(t.items, page.Say(page.S("Not on the shelf: "), page.L("mix/"+b.Def().ID, b.Name()), page.W(", "), page.N(b.Strength), page.W(": mix it first")))
	if diluted {
		t.wants(from)
		return
	}
	for _, in := range t.c.Mix.Ingredients(b) {
		t.wants(in.Bath)
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

// stock is one way to an amount: a bath that stands here, and the figure of what is
// wanted of it.
type stock struct {
	bath   lab.Bath
	wanted string
}

// standing is what stands here of a bath: its figure, and the same in ml, nil where
// nobody can tell; false where nothing stands here, which is said already.
func (c *Context) standing(b lab.Bath) (left string, exact *big.Rat, ok bool) {
	stands := shelf.Stands(c.Book, c.batches(), b.Ref())
	if len(stands.Usable) > 0 {
		return stands.Left, stands.Exact, true
	}
	pack, i, _ := c.Lab.PackOf(b.Ref())
	if !pack.Left.Volume.Given() {
		return "", nil, false
	}
	left = c.Mix.VolumeFigure("store/"+b.Ref(), pack.Left.Volume, c.Lab.Store.At(fmt.Sprintf("pack[%d].left", i)), figure.House, "left in the store")
	return left, pack.Left.Volume.Exact(), true
}

// short warns where no way to an amount has enough standing here; what says what it
// is for.
func (t *today) short(what page.Text, ways ...stock) {
	var line page.Text
	for _, w := range ways {
		r, ok := t.c.Book.Get(w.wanted)
		if !ok || r.Refused() {
			continue
		}
		need := new(big.Rat).SetFloat64(unit.Snap(r.Value))
		if r.Unit == "L" {
			need.Mul(need, big.NewRat(1000, 1))
		}
		left, exact, stands := t.c.standing(w.bath)
		switch {
		case !stands:
			continue
		case exact != nil && need.Cmp(exact) <= 0:
			return
		case line != nil:
			continue // the nearest way is named
		}
		line = append(page.Say(page.S("Not enough: "), page.L("mix/"+w.bath.Def().ID, w.bath.Name()), page.W(", "), page.N(w.bath.Strength), page.W(", for ")), what...)
		line = append(line, page.W(": it wants "), page.F(w.wanted), page.W(", and "))
		if exact == nil {
			line = append(line, page.W("nobody has written how much stands here"))
		} else {
			line = append(line, page.F(left), page.W(" stands here"))
		}
	}
	if line != nil && !slices.ContainsFunc(t.items, func(o page.Text) bool { return sameText(o, line) }) {
		t.items = append(t.items, line)
	}
}

// today says what the process finds on the shelf: its baths and what they are made
// of, and whether there is enough for each vessel.
func (k *processCard) today() []page.Block {
	if !k.c.kept() {
		return nil
	}
	t := &today{c: k.c, seen: map[string]bool{}}
	for i := range k.p.Steps {
		if b, ok := k.baths[i]; ok {
			t.wants(b)
		}
	}
	for i, s := range k.p.Steps {
		b, ok := k.baths[i]
		if !ok {
			continue
		}
		if d := b.Decl(); d != nil && d.Coat.Given() {
			continue
		}
		for _, ch := range k.choices {
			f := k.c.fill(b, k.vesselOf(i, s, ch))
			if f.No != "" {
				continue
			}
			t.short(page.Say(page.W("the "), page.N(f.Vessel.Name)), stock{f.Bath, f.Volume}, stock{f.From, f.Take.ID})
		}
	}
	return t.blocks()
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
	t := &today{c: c, seen: map[string]bool{}}
	for _, in := range c.Mix.Ingredients(made) {
		t.wants(in.Bath)
	}
	for _, b := range batches {
		for _, row := range b.Rows {
			of, wanted := row.Ing.Bath, row.Take.ID
			if row.Percent.Solution != nil {
				of = row.Percent
				t.wants(of)
			}
			if !of.Zero() && row.Take.Refused == "" {
				t.short(page.Say(page.F(refOr(b.Fill, made.Ref()+"/made@"+b.Tag))), stock{of, wanted})
			}
		}
	}
	return t.blocks()
}

// drawnToday says of what is diluted whether it is dead, does not stand here, or is
// not enough.
func (c *Context) drawnToday(from lab.Bath, draw mix.Draw) []page.Block {
	if !c.kept() {
		return nil
	}
	t := &today{c: c, seen: map[string]bool{}}
	t.wants(from)
	if draw.Take.Refused == "" {
		t.short(page.Say(page.F(draw.Fill)), stock{from, draw.Take.ID})
	}
	return t.blocks()
}
