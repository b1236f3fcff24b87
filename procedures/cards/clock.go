package cards

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// clock lays the steps out against the clock, for every run at once.
func (k *processCard) clock() page.Clock {
	var out page.Clock
	for i, s := range k.p.Steps {
		if !s.Beforehand {
			out.Rows = append(out.Rows, k.row(i, s))
		}
	}
	return out
}

// row is one step against the clock.
func (k *processCard) row(i int, s *work.Step) page.ClockRow {
	d := s.Decl
	row := page.ClockRow{ID: d.ID, Caution: append(stepCautions(s), crossing(s)...), Word: page.Say(page.N(stepName(d))),
		Gate: d.Gate != "" || s.Cyanide != nil && s.Cyanide.Rinsed}
	if d.Light != "" {
		row.Light = page.Say(page.N(d.Light))
	}
	if d.Note != "" {
		row.ForNote = page.Say(page.N(d.Note))
	}
	if d.Place > 0 {
		row.Word = append(row.Word, page.W([]string{"", ", first of two", ", second of two"}[d.Place]))
	}
	if d.Optional {
		row.Word = append(row.Word, page.W(", if wanted"))
	}
	row.At = page.Say(page.W("next"))
	if at := k.eachStep(i, func(r work.RunStep) *figure.Record { return r.At }); len(at) > 0 {
		row.At = page.Say(figs(at))
	}
	if drain := k.eachStep(i, func(r work.RunStep) *figure.Record { return r.Drain }); len(drain) > 0 {
		row.Drain = page.Say(figs(drain))
	}
	if s.Time != nil {
		row.For = page.Say(page.F(s.Time))
	}
	switch {
	case s.Bath != nil:
		k.bathRow(&row, i, s)
	case s.Fills != nil:
		k.fillsRow(&row, s)
	case s.Flow != nil:
		row.Role = page.Wash
		row.Bath = page.Say(page.W("running water, "), page.F(s.Flow))
		if d.Waste != "" {
			row.Goes = append(page.Say(page.W("its first water ")), k.c.routeOf(d.Waste)...)
		}
		if s.Allowed != nil && s.Allowed.Closed {
			row.Goes = closedWater()
		}
	default:
		row.Bath = page.Say(page.N(d.Do))
		if d.Waste != "" {
			row.Goes = k.c.routeOf(d.Waste)
		}
	}
	k.cues(&row, s)
	return row
}

// stepCautions are the warnings of a step.
func stepCautions(s *work.Step) []page.Text {
	out := sentence(s.Decl.Caution)
	if s.Decl.Gate != "" {
		out = append(out, page.Say(page.S("Do not shorten this: "), page.N(s.Decl.Gate)))
	}
	if s.StopAbove != nil {
		out = append(out, page.Say(page.S("Stop above "), page.F(s.StopAbove), page.W(": cool it first.")))
	}
	if s.Window != nil {
		out = append(out, page.Say(page.S("This bath works at "), page.F(s.Window), page.W(": bring it there first.")))
	}
	return out
}

// cues are what ends a step, and how warm it is.
func (k *processCard) cues(row *page.ClockRow, s *work.Step) {
	if s.Decl.Until != "" {
		row.Cue = append(join(row.Cue), page.W("until "), page.N(s.Decl.Until))
		by := page.W("judge by eye; the clock stops here")
		if s.Decl.Time.Given() {
			by = page.W("about this long: judge by eye; the clock stops here")
		}
		row.ForNote = append(page.Say(by), noteAfter(row.ForNote)...)
	}
	if s.Stain != nil {
		row.Cue = append(join(row.Cue), stainText(s.Stain)...)
	}
	if s.Reserve != nil {
		row.Cue = append(join(row.Cue), reserveText(s.Reserve)...)
	}
	if s.Below != nil {
		row.Cue = append(join(row.Cue), page.W("below "), page.F(s.Below))
	}
	if s.Within != nil {
		row.Cue = append(join(row.Cue), page.W("within "), page.F(s.Within), page.W(" of the baths"))
	}
}

func noteAfter(t page.Text) page.Text {
	if len(t) == 0 {
		return nil
	}
	return append(page.Say(page.W("; ")), t...)
}

func join(t page.Text) page.Text {
	if len(t) > 0 {
		return append(t, page.W("; "))
	}
	return t
}

func (k *processCard) bathRow(row *page.ClockRow, i int, s *work.Step) {
	row.Role = roleOf(s.Bath.Role())
	text, refusals := k.bathText(i, s)
	row.Bath, row.Caution = text, append(row.Caution, refusals...)
	row.Goes = k.goes(i, s)
	var whys []page.Text
	for n, r := range k.p.Runs {
		if t := r.Steps[i].Time; t != nil && t.Refused() {
			why := page.Say(page.S("No time"), page.W(" for "), page.N(r.Material.Name), page.W(": "), page.N(t.Why))
			whys = forChoice(whys, why, n)
		}
	}
	row.Caution = append(row.Caution, whys...)
	if times := k.eachStep(i, func(r work.RunStep) *figure.Record { return r.Time }); len(times) > 0 {
		row.For = page.Say(figs(times))
	}
	if len(k.p.Runs) == 0 && (s.Decl.Time.Material || s.Decl.Time.Clearing) {
		row.For = page.Say(page.Inline{Kind: page.Ask})
	}
	if d := s.Bath.Decl(); s.Decl.Time.Material && d != nil && d.Longer.Given() {
		row.ForNote = append(join(row.ForNote), page.S("in fresh developer only"),
			page.W(": for used developer read the strip of its bottle"))
	}
	if s.Decl.Time.Clearing {
		times := k.eachStep(i, func(r work.RunStep) *figure.Record { return r.Clearings })
		row.ForNote = append(row.ForNote, page.W("or "), figs(times), page.W(" the clearing time, if longer"))
	}
	if s.Keeps != nil {
		row.ForNote = append(join(row.ForNote), page.W("mix it only while the step before runs: it keeps "),
			page.F(s.Keeps))
	}
	switch {
	case s.Agitated:
		k.agitate(row, i, s)
	case s.Unturned:
		row.Cue = page.Say(page.W("how to agitate: "), page.Inline{Kind: page.Ask, Text: "first"})
	}
}

// agitate says what the hands do, and draws the ruler of the step that the material times.
func (k *processCard) agitate(row *page.ClockRow, i int, s *work.Step) {
	a := k.p.Decl.Agitate[s.Decl.Agitate]
	turned := func(f func(work.Agitation) *figure.Record) []*figure.Record {
		return k.eachStep(i, func(r work.RunStep) *figure.Record { return f(r.Turned) })
	}
	first := turned(func(x work.Agitation) *figure.Record { return x.First })
	cue := page.Text{}
	if a.First.Given() && len(first) > 0 {
		if s.First == nil {
			cue = append(cue, page.W("agitate for the first "), figs(first))
		} else {
			cue = append(cue, page.F(s.First), page.W(" turns in the first "), figs(first))
		}
		if a.Note != "" {
			cue = append(cue, page.W(", "), page.N(a.Note))
		}
	}
	if s.Then != nil {
		every := turned(func(x work.Agitation) *figure.Record { return x.Every })
		times := turned(func(x work.Agitation) *figure.Record { return x.Times })
		last := turned(func(x work.Agitation) *figure.Record { return x.Last })
		cue = append(cue, page.W("; then "), page.F(s.Then), page.W(" every "), figs(every))
		cue = append(cue, page.W(", "), figs(times), page.W(", the last at "), figs(last))
		if !s.Decl.Time.Material {
			cue = append(cue, page.W(" after pour-in"))
		}
		if turns := turned(func(x work.Agitation) *figure.Record { return x.Turns }); len(turns) > 0 {
			cue = append(cue, page.W(" ("), figs(turns), page.W(" in all)"))
		}
	}
	row.Cue = cue
	if s.Decl.Time.Material {
		row.Ruler = page.Ruler{
			Length: k.eachStep(i, func(r work.RunStep) *figure.Record { return r.Time }),
			First:  first,
			Marks:  turned(func(x work.Agitation) *figure.Record { return x.Marks }),
			Lasts:  turned(func(x work.Agitation) *figure.Record { return x.Lasts }),
			Drain:  turned(func(x work.Agitation) *figure.Record { return x.Drain }),
		}
	}
}

// bathText is what is in the vessel: so much stock, water to so much; or what is brushed
// onto a sheet. Where it must not be made up like that in some vessel, the reasons come
// besides.
func (k *processCard) bathText(i int, s *work.Step) (text page.Text, refusals []page.Text) {
	b := s.Bath
	card := "mix/" + b.Def().ID
	if s.Coats {
		return coatText(s), nil
	}
	if len(k.p.Runs) == 0 {
		return page.Say(page.L(card, b.Name()), page.W(", "), page.N(b.Strength), page.W("; how much: "),
			page.Inline{Kind: page.Ask, Text: "first"}), nil
	}
	var draws, volumes []*figure.Record
	from, diluted := b.Bath, false
	for n, r := range k.p.Runs {
		f := r.Steps[i].Fill
		from, diluted = f.From, diluted || f.Diluted
		if f.No == nil {
			draws, volumes = append(draws, f.Take.Amount), append(volumes, f.Volume)
			continue
		}
		draws = append(draws, f.No)
		if f.Diluted {
			volumes = append(volumes, f.Volume)
		} else {
			volumes = append(volumes, f.No)
		}
		why := page.Say(page.S("Not in the "), page.N(r.Steps[i].Vessel.Name), page.W(": "), page.N(f.Why),
			page.W(" (wanted: "), page.F(f.Wanted), page.W("); "), page.N(f.Way))
		refusals = forChoice(refusals, why, n)
	}
	if !diluted {
		text := page.Say(figs(volumes), page.W(" "), page.L(card, b.Name()))
		if !s.MixedForIt {
			return append(text, page.W(", "), page.N(b.Strength)), refusals
		}
		parts, without := k.partsText(i) // it is what its steps make: its strength needs no word
		return append(append(text, page.W(": ")), parts...), append(refusals, without...)
	}
	water := "water"
	if b.Written().Water == "deionised" {
		water = "deionised water"
	}
	return page.Say(figs(draws), page.W(" "), page.L(card, from.Name()), page.W(" "), page.N(from.Strength),
		page.W(", "+water+" to "), figs(volumes)), refusals
}

// partsText is how much of each part a bath takes that is mixed for one vessel, and why it cannot be measured
// for some. Water is filled up.
func (k *processCard) partsText(i int) (text page.Text, refusals []page.Text) {
	water := false
	for n, part := range k.p.Runs[0].Steps[i].Parts {
		if part.Adds.Water {
			water = true
			continue
		}
		var amounts []*figure.Record
		for choice, r := range k.p.Runs {
			x := r.Steps[i].Parts[n]
			amounts = append(amounts, x.Take.Amount)
			if x.Take.Refused != "" {
				why := page.Say(page.S("Not in the "), page.N(r.Steps[i].Vessel.Name), page.W(": "), page.N(x.Adds.Name()))
				refusals = forChoice(refusals, refusal(why, x.Take), choice)
			}
		}
		if len(text) > 0 {
			text = append(text, page.W(" + "))
		}
		// Part A of a bleach is named once beside the name of the bleach.
		name := strings.TrimPrefix(part.Adds.Name(), k.p.Steps[i].Bath.Name()+" ")
		text = append(text, figs(amounts), page.W(" "), page.N(name))
	}
	if water {
		text = append(text, page.W(" + the rest water"))
	}
	return text, refusals
}

// coatText is what is brushed onto a sheet, by the sheet where the lab has formats for it.
func coatText(s *work.Step) page.Text {
	b := s.Bath
	t := page.Say(page.W("brush on "))
	for n, x := range s.Coated {
		if n > 0 {
			t = append(t, page.W(", "))
		}
		t = append(t, page.F(x.Amount), page.W(" a sheet of "), page.N(x.Format))
	}
	if len(s.Coated) == 0 {
		t = append(t, page.Inline{Kind: page.Ask})
	}
	return append(t, page.W(" of "), page.L("mix/"+b.Def().ID, b.Name()), page.W(", "), page.N(b.Strength))
}

// goes says where the bath goes afterwards. An empty answer is never 'down the drain'.
func (k *processCard) goes(i int, s *work.Step) page.Text {
	if s.Decl.Waste != "" {
		return append(page.Say(page.W("spent: ")), k.c.routeOf(s.Decl.Waste)...)
	}
	t := append(page.Say(page.W("spent: ")), briefRoute(s.Bath.Goes)...)
	if d := s.Bath.Decl(); d != nil && (d.Use == "re-use" || d.Use == "replenish") {
		word := "prints"
		if k.p.Decl.Base == "film" {
			word = "roll"
		}
		t = page.Say(page.W("pour it back into its bottle, tick the " + word))
	}
	return append(t, k.treats(i, s.Treats)...)
}

// treats is how much a bath treats before it is spent.
func (k *processCard) treats(i int, x *work.Treating) page.Text {
	switch {
	case x == nil:
		return nil
	case x.Uses != nil:
		return page.Say(page.W(": good for "), page.F(x.Uses), page.W(", any number at once"))
	case x.NoWhy != "":
		return page.Say(page.W("; "), page.N(x.NoWhy))
	case x.ByRun:
		n := k.eachStep(i, func(r work.RunStep) *figure.Record { return r.Treats })
		of := k.eachStep(i, func(r work.RunStep) *figure.Record { return r.Of })
		return page.Say(page.W(": one litre treats: "), figs(n), page.W(" "), figs(of))
	case x.N != nil:
		what := " prints of "
		if k.p.Decl.Base == "film" {
			what = " rolls of "
		}
		return page.Say(page.W(": one litre treats "), page.B(x.N), page.W(what), page.N(x.Format))
	}
	return page.Say(page.W(": how many one litre treats, "), page.Inline{Kind: page.Ask, Text: "first"})
}

// closedWater is where the water of a wash goes whose permit does not allow the drain, or of which nobody
// can tell.
func closedWater() page.Text { return page.Say(page.W("its water down no drain: ask first")) }

// fillsRow is a wash in fills of water.
func (k *processCard) fillsRow(row *page.ClockRow, s *work.Step) {
	row.Role = page.Wash
	row.Bath = page.Say(page.W("fill, close, turn, dump: "), page.B(s.Fills), page.W(" turns"))
	if s.Time == nil {
		row.ForNote = append(page.Say(page.W("count turns, no timing")), noteAfter(row.ForNote)...)
	}
	switch {
	case s.Allowed != nil && s.Allowed.Closed:
		row.Goes = closedWater()
		return
	case s.Collected == nil:
		return
	}
	first := page.Say(page.W("the first "), page.F(s.Collected), page.W(" fills "))
	if s.FirstAlone {
		first = page.Say(page.W("the first fill "))
	}
	row.Goes = append(slices.Clone(first), page.W("to a drum: ask first"))
	if s.Former != nil {
		row.Goes = append(first, briefRoute(s.Former.Goes)...)
	}
}
