package cards

import (
	"slices"

	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// today gathers what a piece of work finds on the shelf: what is dead, what does not
// stand there, what is not enough. Each is said once.
type today struct {
	items []page.Text
}

// blocks is the gathered list as a warning, or nothing.
func (t *today) blocks() []page.Block {
	if len(t.items) == 0 {
		return nil
	}
	return []page.Block{page.Cautions{Items: t.items}}
}

// say notes a line, once.
func (t *today) say(line page.Text) {
	if !slices.ContainsFunc(t.items, func(o page.Text) bool { return sameText(o, line) }) {
		t.items = append(t.items, line)
	}
}

// lacks says what is lacking, baths that are only to be mixed in one line; what says what
// the amounts are wanted for.
func (t *today) lacks(list []work.Lack, what page.Text) {
	var missing []page.Text
	for _, l := range list {
		if l.Kind == work.MissingBath && l.Keeps == nil {
			missing = once(missing, lackName(l))
			continue
		}
		t.say(lackText(l, what))
	}
	if len(missing) > 0 {
		t.say(append(append(page.Say(page.S("Not on the shelf: ")), page.InLine(missing)...), page.W(": mix first")))
	}
}

// lacksFor says what is lacking for one of the page's choices.
func (t *today) lacksFor(choice int, list []work.Lack, what page.Text) {
	for _, l := range list {
		t.items = forChoice(t.items, lackText(l, what), choice)
	}
}

// batchName names a batch in a warning.
func batchName(b work.Judged) page.Text {
	return page.Say(page.N(b.Bath.Name()), page.W(", "), page.N(b.Bath.Strength),
		page.W(", batch "), page.L("label/"+b.ID, b.ID))
}

// lackText is one thing that is lacking, in words; what says what an amount is wanted for.
func lackText(l work.Lack, what page.Text) page.Text {
	ask := page.Inline{Kind: page.Ask, Text: "first"}
	if l.Bottle != nil {
		return bottleLack(l, ask)
	}
	bath := lackName(l)
	switch l.Kind {
	case work.NotInStore:
		return after("Not in the store: ", bath, page.W(" "), ask)
	case work.UsedUp:
		return after("None left: ", bath, page.W(": order it first"))
	case work.PastPack:
		return after("Past its best-before: ", bath, page.W(": use none of it, "), ask)
	case work.TooLittle:
		return after("Not enough: ", amountLack(bath, l, what), page.W(", and "), page.F(l.Standing),
			page.W(" stands here"))
	case work.Unmeasured:
		return after("How much stands here, nobody has written: ", amountLack(bath, l, what), page.W(" "), ask)
	}
	lead := "Not on the shelf: "
	if l.Kind == work.OnlyUsed {
		lead = "Only a used one on the shelf: "
	}
	if l.Keeps != nil {
		return after(lead, bath, page.W(": have its parts ready, it keeps only "), page.F(l.Keeps),
			page.W(" once it is mixed"))
	}
	return after(lead, bath, page.W(": mix it first"))
}

// lackName names the bath that is lacking.
func lackName(l work.Lack) page.Text {
	bath := page.Say(page.L("mix/"+l.Bath.Def().ID, l.Bath.Name()), page.W(", "), page.N(l.Bath.Strength))
	if l.Place > 0 {
		bath = append(bath, page.W(", "+placeWord(l.Place)))
	}
	return bath
}

// amountLack is how much of a bath is wanted, and what for.
func amountLack(bath page.Text, l work.Lack, what page.Text) page.Text {
	return append(append(append(bath, page.W(", for ")), what...), page.W(": it needs "), page.F(l.Wanted))
}

// bottleLack is what is wrong with a bottle, in words.
func bottleLack(l work.Lack, ask page.Inline) page.Text {
	name := batchName(*l.Bottle)
	switch l.Kind {
	case work.SpentBottle:
		t := page.Say(page.S("Spent for "), page.S(string(l.Base)), page.S(", do not use: "))
		return append(append(t, name...), page.W(": "), page.N(l.By))
	case work.PlacelessBottle:
		return after("First or second bath: ", name, page.W(": nobody has written which of the two it is (place) "),
			ask)
	case work.UnjudgedBottle:
		return after("Cannot be judged: ", name, page.W(": "), page.N(l.Bottle.Why), page.W(" "), ask)
	}
	return after("Dead, do not use: ", name)
}

// after is a warning: its first words, a name, and the rest.
func after(lead string, name page.Text, rest ...page.Inline) page.Text {
	return append(append(page.Say(page.S(lead)), name...), rest...)
}

// today says what the process finds on the shelf: its baths and what they are made of,
// whether there is enough for each vessel, and what takes longer than fresh.
func (k *processCard) today() []page.Block {
	t := &today{}
	t.lacks(k.p.Lacks, nil)
	for i, r := range k.p.Runs {
		t.lacksFor(i, r.Short, page.Say(page.W("the "), page.N(vesselName(r))))
	}
	for _, x := range k.p.UsedFixers {
		line := append(page.Say(page.S("Used fixer: ")), batchName(x.Judged)...)
		t.say(append(line, page.W(" clears "), page.F(x.Clearing), page.W(": fix at least "), figs(x.Runs),
			page.W(" in it")))
	}
	for _, x := range k.p.UsedDevelopers {
		line := append(page.Say(page.S("Used developer: ")), batchName(x.Judged)...)
		line = append(line, page.W(": the next film takes "), figs(x.Runs), page.W(" in it, and "))
		t.say(append(line, page.F(x.Room), page.W(" still have room")))
	}
	return t.blocks()
}

// vesselName is a vessel in words; a tank that takes more of one family than of another,
// with the one meant.
func vesselName(r *work.Run) string {
	if r.OtherFill {
		return r.Vessel.Name + ", " + lab.InSides(r.Vessel.Family)
	}
	return r.Vessel.Name
}

// boardFirst sends whoever mixes from what stands on the shelf to its board.
func (c *Context) boardFirst(made lab.Bath) []page.Block {
	if !c.W.HasBatches || len(c.W.Bath(made.Ref()).Ingredients) == 0 {
		return nil
	}
	return []page.Block{page.Checklist{Only: page.Only{Paper: true}, Label: page.Say(page.W("have ready")),
		Items: []page.Text{lookFirst()}}}
}

// lookFirst stands on paper, which cannot know what a screen says of the shelf today.
func lookFirst() page.Text {
	return page.Say(page.W("look at the shelf board first")).With(page.Only{Paper: true})
}

// partsToday says of what a solution is mixed from what is dead, does not stand here, or
// is not enough for a batch.
func partsToday(s *work.Solution) []page.Block {
	t := &today{}
	t.lacks(s.Lacks, nil)
	for i, list := range s.Short {
		t.lacksFor(i, list, page.Say(page.F(s.Volumes[i])))
	}
	return t.blocks()
}

// drawnToday says of what is diluted whether it is dead, does not stand here, or is not
// enough.
func drawnToday(a work.Asked) []page.Block {
	t := &today{}
	t.lacks(a.Lacks, page.Say(page.F(a.Drawn.Fill)))
	return t.blocks()
}
