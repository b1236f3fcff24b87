package cards

import (
	"slices"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// permitTable holds the baths of a route against the limits of the permit for the drain.
func (c *Context) permitTable(r *work.Route) []page.Block {
	t := page.Table{ID: "permit", Head: []page.Text{page.Say(page.W("what is poured")), page.Say(page.W("it carries")),
		page.Say(page.W("allowed")), page.Say(page.W("the limit is"))}}
	for _, b := range r.Baths {
		for i, a := range b.Allowed {
			name := c.bathName(b.Bath)
			if i > 0 {
				name = page.Say(page.W("the same"))
			}
			t.Rows = append(t.Rows, page.Row{Cells: append([]page.Cell{{Text: name}}, allowedCells(a)...)})
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	t.Caption = page.Say(page.S("Against the limits of the permit "), page.N(c.W.Permit("drain").Ref))
	return []page.Block{t}
}

// allowedCells are what is poured, what is allowed, and whether that is met and by how much.
func allowedCells(a work.Allowed) []page.Cell {
	is := page.Say(page.N(a.Name()))
	if a.Is != nil {
		is = append(is, page.W(" "), page.F(a.Is))
		if a.Within != nil {
			is = append(is, page.W(" ± "), page.F(a.Within))
		}
	}
	if a.State != "" {
		is = append(is, page.W(", "), page.N(a.State))
	}
	return []page.Cell{{Text: is}, {Text: allowedText(a.Limit)}, answerCell(a)}
}

// allowedText is what a limit allows.
func allowedText(x work.PermitLimit) page.Text {
	switch {
	case x.Least == nil:
		return page.Say(page.W("at most "), page.F(x.Most))
	case x.Most == nil:
		return page.Say(page.W("at least "), page.F(x.Least))
	}
	return page.Say(page.F(x.Least), page.W(" to "), page.F(x.Most))
}

// answerCell says whether a limit is met, and by how much.
func answerCell(a work.Allowed) page.Cell {
	switch {
	case a.Meets == work.Untold:
		return page.Cell{No: true, Why: "cannot be told, ask first: " + a.Why}
	case a.Meets == work.NotMet && a.Times != nil:
		return page.Cell{Text: page.Say(page.S("not met"), page.W(": "), page.F(a.Times), page.W(" what is allowed"))}
	case a.Meets == work.NotMet && a.TooAcid():
		return page.Cell{Text: page.Say(page.S("not met"), page.W(": too acid by "), page.F(a.Off))}
	case a.Meets == work.NotMet:
		return page.Cell{Text: page.Say(page.S("not met"), page.W(": too alkaline by "), page.F(a.Off))}
	case a.Off != nil:
		return page.Cell{Text: page.Say(page.W("met, "), page.F(a.Off), page.W(" from the nearer end"))}
	case a.Is == nil:
		return page.Cell{Text: page.Say(page.W("met: "), page.N(a.Why))}
	}
	return page.Cell{Text: page.Say(page.W("met"))}
}

// testPH is the test before something goes down a drain whose permit limits the pH: the pH of
// a bath is that of a fresh one, and what is carried into it moves it.
func testPH(r *work.Route) page.Text {
	for _, b := range r.Baths {
		for _, a := range b.Allowed {
			if a.Of == lab.LimitPH && b.Goes.Drain != "" {
				return append(page.Say(page.W("dip pH paper into it: not down the drain unless it shows ")),
					allowedText(a.Limit)...)
			}
		}
	}
	return nil
}

// permitHoles are the limits of which nobody can tell whether they are met.
func permitHoles(r *work.Route) []page.Hole {
	var holes []page.Hole
	for _, b := range r.Baths {
		refused := slices.ContainsFunc(b.Allowed, func(a work.Allowed) bool { return a.Meets == work.NotMet })
		for _, a := range b.Allowed {
			if refused || a.Meets != work.Untold { // what is not met stays so, whatever somebody finds out besides
				continue
			}
			key := "found." + a.Of
			if a.Of == lab.LimitPH {
				key = "ph"
			}
			h := page.Hole{What: a.Name() + " of " + a.Who + ", when it is poured: " + a.Why,
				Until: "not down the drain: ask first", Key: key + " under [strength." + b.Strength + "] in " + b.Def().File}
			if !slices.ContainsFunc(holes, func(o page.Hole) bool { return o == h }) {
				holes = append(holes, h)
			}
		}
	}
	return holes
}

// washPermit holds the washes against the limits of the permit for their water; washes with the same
// answers stand together.
func (c *Context) washPermit() []page.Block {
	if len(c.W.Washes) == 0 {
		return nil
	}
	t := page.Table{ID: "permit",
		Caption: page.Say(page.S("Against the limits of the permit "), page.N(c.W.Permit("wash").Ref)),
		Head: []page.Text{page.Say(page.W("water of")), page.Say(page.W("it carries")), page.Say(page.W("allowed")),
			page.Say(page.W("the limit is"))}}
	done := map[string]bool{}
	for i, a := range c.W.Washes {
		key := saysOf(a)
		if done[key] {
			continue
		}
		done[key] = true
		var of []string
		for _, other := range c.W.Washes[i:] {
			if saysOf(other) == key && !slices.Contains(of, other.Process.Name) {
				of = append(of, other.Process.Name)
			}
		}
		for n, x := range a.Answers {
			name := page.Say(page.N(strings.Join(of, "; ")))
			if n > 0 {
				name = page.Say(page.W("the same"))
			}
			t.Rows = append(t.Rows, page.Row{Cells: append([]page.Cell{{Text: name}}, allowedCells(x)...)})
		}
	}
	t.Note = page.Say(page.W("For the tank with the least water for a roll, and a fixer that has done all it may. What is not met, or cannot be told, goes down no drain."))
	return []page.Block{t}
}

// saysOf are the answers of a wash in a line.
func saysOf(a *work.WashAllowed) string {
	var out []string
	for _, x := range a.Answers {
		out = append(out, x.Says())
	}
	return strings.Join(out, "; ")
}

// washHoles are the limits of which nobody can tell whether the water of a wash meets them.
func (c *Context) washHoles() []page.Hole {
	var holes []page.Hole
	for _, a := range c.W.Washes {
		for _, x := range a.Answers {
			if x.Meets == work.Untold {
				holes = append(holes, page.Hole{What: x.Name() + " of the water of " + a.Process.Name + ", " + a.Step.ID + ": " + x.Why,
					Until: "down no drain: ask first", Key: "limits under [permit] in " + c.W.Local.File})
			}
		}
	}
	return holes
}
