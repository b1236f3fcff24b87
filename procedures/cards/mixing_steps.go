package cards

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// startAmounts say what to start with, how much of it, and how warm.
func startAmounts(s *work.Solution) []page.Block {
	if s.Start == nil {
		return nil
	}
	what := page.W("tap water")
	switch {
	case s.Solvent != nil:
		what = page.N(s.Solvent.Name())
	case s.Decl.Water == "deionised":
		what = page.W("deionised water")
	}
	start := page.Amount{Label: page.Say(page.W("start with "), what), Value: page.Say(figs(s.Start.Amounts))}
	if s.Start.Why != "" {
		start.Note = page.Say(page.N(s.Start.Why), page.W(": "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	if s.Start.At == nil {
		return []page.Block{start}
	}
	at := page.Amount{Label: page.Say(page.W("at")), Value: page.Say(page.F(s.Start.At))}
	if s.Start.ColdTap != nil {
		at.Note = page.Say(page.W("the tap water may be at "), page.F(s.Start.ColdTap),
			page.W(": cool the water first, in the refrigerator or in ice"))
	}
	return []page.Block{start, at}
}

// mixingSteps are what is added, in its order, and the mark that it is filled up to.
func (c *Context) mixingSteps(s *work.Solution) page.Steps {
	var steps page.Steps
	for _, x := range s.Steps {
		steps.Rows = append(steps.Rows, mixingStep(s, x))
	}
	if s.Marks != nil {
		steps.Rows = append(steps.Rows, markStep(s))
	}
	return steps
}

func mixingStep(s *work.Solution, x work.MixStep) page.Step {
	d := x.Decl
	st := page.Step{ID: x.ID, Caution: sentence(d.Caution), What: ingredientText(x), Tick: true,
		Device: page.Say(page.N(x.Device))}
	var amounts []*figure.Record
	for _, t := range x.Takes {
		amounts = append(amounts, t.Amount)
	}
	st.Amount = page.Say(page.F(amounts...))
	if x.Devices != nil {
		st.Device = page.Say(page.F(x.Devices...))
	}
	if x.Percent.Solution != nil {
		st.Note = append(st.Note, page.Say(page.W("too little to weigh: measure it as "), page.N(x.Percent.Name())))
	}
	for i, t := range x.Takes {
		if t.Refused != "" {
			st.Caution = append(st.Caution, refusal(page.Say(page.S("No amount"), page.W(" for "),
				page.F(s.Volumes[i])), t))
		}
	}
	if len(x.Changes) > 0 {
		st.Caution = append(st.Caution, jugText(x))
	}
	if x.Loads != nil {
		st.Note = append(st.Note, page.Say(page.W("the water cannot hold all of it yet: "), page.F(x.Holds...),
			page.W(" of it dissolve, and this is "), page.F(x.Loads...),
			page.W("; go on, and stir at the mark until it is clear")))
	}
	if d.Lots > 1 {
		st.Note = append(st.Note, page.Say(page.W("in "), page.N(lots(int(d.Lots))),
			page.W(" lots: dissolve each before the next")))
	}
	if d.Wait != "" {
		st.Note = append(st.Note, page.Say(page.W("wait "), page.N(d.Wait)))
	}
	if d.Note != "" {
		st.Note = append(st.Note, page.Say(page.N(d.Note)))
	}
	st.Note = append(st.Note, otherForms(x)...)
	return st
}

// jugText says how far dissolving something warms or cools the jug, and what to do.
func jugText(x work.MixStep) page.Text {
	if x.Colder {
		return page.Say(page.W("Dissolving it cools the jug by about "), page.F(x.Changes...),
			page.W(": stand the jug in hot water."))
	}
	return page.Say(page.W("Dissolving it warms the jug by about "), page.F(x.Changes...),
		page.W(": start cold, add a little at a time, stir, let it cool in between."))
}

func markStep(s *work.Solution) page.Step {
	mark := page.Step{ID: "fill", What: page.Say(page.W("Cold water "), page.S("to the mark"), page.W(", stir")),
		Amount: page.Say(page.F(s.Marks...)), Tick: true, Mark: true}
	switch {
	case s.Solvent != nil:
		mark.What = page.Say(page.N(capital(s.Solvent.Name())), page.W(" "), page.S("to the mark"), page.W(", stir"))
	case s.Decl.Water == "deionised":
		mark.What = page.Say(page.W("Cold deionised water "), page.S("to the mark"), page.W(", stir"))
	}
	if s.Stand != nil {
		mark.Note = append(mark.Note, page.Say(page.W("let it stand "), page.F(s.Stand), page.W(" before first use")))
	}
	return mark
}

// refusal says why there is no amount, how much was wanted, and what would help.
func refusal(what page.Text, t work.Take) page.Text {
	out := append(what, page.W(": "), page.N(t.Refused))
	if t.Wanted != nil {
		out = append(out, page.W(" (wanted: "), page.F(t.Wanted), page.W(")"))
	}
	if t.Way != "" {
		out = append(out, page.W("; "), page.N(t.Way))
	}
	return out
}

func lots(n int) string {
	words := []string{"", "one", "two", "three", "four", "five", "six"}
	if n < len(words) {
		return words[n]
	}
	return fmt.Sprint(n)
}

func orDash(s string) string {
	if s == "" {
		return "–"
	}
	return s
}

func ingredientText(x work.MixStep) page.Text {
	switch in := x.Adds; {
	case in.Chemical != nil:
		return page.Say(page.L("chemical/"+in.Chemical.ID, capital(in.Name())))
	case in.Water:
		return page.Say(page.W("Water"))
	default:
		return page.Say(page.L("mix/"+in.Bath.Def().ID, capital(in.Bath.Name())), page.W(", "),
			page.N(in.Bath.Strength))
	}
}

// otherForms say at the step what to weigh if the jar holds another form.
func otherForms(x work.MixStep) []page.Text {
	var out []page.Text
	for _, o := range x.Others {
		var ids []*figure.Record
		for _, in := range o.Takes {
			if in != nil && in.Refused == "" {
				ids = append(ids, in.Take.Amount)
			}
		}
		line := page.Say(page.W("if the jar says "), page.N(o.Name), page.W(": "))
		if o.Milder {
			out = append(out, milderAcid(o, ids))
			continue
		}
		if len(ids) == len(o.Takes) {
			out = append(out, append(line, page.F(ids...), page.W(" instead")))
		} else {
			out = append(out, append(line, page.S("do not weigh it: "), page.Inline{Kind: page.Ask, Text: "first"}))
		}
	}
	return out
}

// milderAcid says how much of a milder acid brings as much acid in all, and what changes with it.
func milderAcid(o work.OtherForm, each []*figure.Record) page.Text {
	line := page.Say(page.W("a milder acid in its place, "), page.N(o.Name), page.W(": "))
	if len(each) < len(o.Takes) {
		return append(line, page.S("no amount"), page.W(", see below"))
	}
	return append(line, page.F(each...),
		page.W(" bring as much acid in all, but not the same pH: a bleach takes longer, about a fifth to a half. Test it first"))
}

// substitutions are the other hydrates that may be weighed instead.
func substitutions(s *work.Solution) []page.Block {
	t := page.Table{ID: "instead", Caption: page.Say(page.S("If the jar holds another form"),
		page.W(", weigh this instead")),
		Head: []page.Text{page.Say(page.W("instead of")), page.Say(page.W("the other form"))}}
	for _, v := range s.Volumes {
		t.Head = append(t.Head, page.Say(page.W("for "), page.F(v)))
	}
	for _, x := range s.Steps {
		for _, o := range x.Others {
			other := page.Say(page.N(o.Name))
			if o.Milder {
				other = append(other, page.W(", with as much acid in all, not with the same pH"))
			}
			r := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(capital(x.Adds.Name())))}, {Text: other}}}
			for _, in := range o.Takes {
				switch {
				case in == nil:
					r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.W("–"))})
				case in.Refused != "":
					r.Cells = append(r.Cells, page.Cell{No: true, Why: in.Refused, Refused: in.Take.Amount})
				default:
					r.Cells = append(r.Cells, page.Cell{Text: page.Say(page.F(in.Take.Amount))})
				}
			}
			t.Rows = append(t.Rows, r)
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return []page.Block{t}
}
