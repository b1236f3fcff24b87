package cards

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// pregnant is the line for who is pregnant or breast-feeding, the same on every
// card; nothing where nothing asks for it.
func pregnant(job work.Job, known work.Dangers) []page.Block {
	if !known.For(job).NotPregnant {
		return nil
	}
	line := "Pregnant or breast-feeding: do not handle this."
	switch job {
	case work.Weigh:
		line = "Pregnant or breast-feeding: do not mix this."
	case work.Dilute:
		line = "Pregnant or breast-feeding: do not dilute this."
	}
	return []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S(line),
		page.W(" You need not give a reason."))}}}
}

// pregnantAt is the line for all jobs of one sheet: for handling it at all where that
// holds, else for mixing, else for diluting it.
func pregnantAt(s *work.Subject) []page.Block {
	for _, job := range []work.Job{work.AtWork, work.Weigh, work.Dilute} {
		if s.Dangers.For(job).NotPregnant && (s.Made || job != work.Weigh) {
			return pregnant(job, s.Dangers)
		}
	}
	return nil
}

// beforeJob is what to wear for a job, and who leaves it to somebody else.
func beforeJob(job work.Job, known work.Dangers) []page.Block {
	return append([]page.Block{gearBlock(job, known)}, pregnant(job, known)...)
}

// between says the bounds of a figure, in brackets, where there are any.
func between(low, high *figure.Record) page.Text {
	if low == nil {
		return nil
	}
	return page.Say(page.W(" ("), page.B(low), page.W("–"), page.B(high), page.W(")"))
}

// reproductive says how near what harms reproduction comes to its limit.
func reproductive(b *work.Bath) []page.Block {
	if len(b.Near) == 0 {
		return nil
	}
	l := page.List{}
	for _, a := range b.Near {
		t := page.Say(page.N(capital(a.Name)), page.W(" "), page.F(a.Content))
		t = append(t, between(a.Low, a.High)...)
		l.Items = append(l.Items, append(t, page.W("; from "), page.F(a.Limit),
			page.W(" on, a mixture counts as one that may harm fertility or the unborn child ("), page.N(a.Class),
			page.W("): "+b.Strength+" "+a.Answer)))
	}
	return []page.Block{l}
}

// spent says where a bath goes when it is spent.
func (c *Context) spent(b lab.Bath) page.Text { return routeText(c.W.Bath(b.Ref()).Goes) }

func routeText(r work.Going) page.Text {
	words := page.Inline(page.N(r.Words()))
	if r.Waste != nil {
		words = page.L("dispose/"+r.Waste.ID, r.Words())
	}
	return page.Say(words)
}

// briefRoute says it in fewer words, for a card that is read while the hands work.
func briefRoute(r work.Going) page.Text {
	if r.Waste != nil {
		return page.Say(page.L("dispose/"+r.Waste.ID, r.Brief()))
	}
	return page.Say(page.N(r.Brief()))
}

// routeOf says where what follows a waste route goes, in few words.
func (c *Context) routeOf(id string) page.Text {
	r := c.W.Route(id)
	if r == nil {
		return page.Say(page.W("to a drum: "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	return briefRoute(r.Water)
}

// spentPara is the last line of a card's work.
func (c *Context) spentPara(b lab.Bath) page.Block { return page.Para{Text: c.spentText(b)} }

// spentText says where a bath goes when it is spent.
func (c *Context) spentText(b lab.Bath) page.Text {
	of := c.W.Bath(b.Ref())
	if made := of.Thinned; made != nil {
		t := append(page.Say(page.S("When it is spent"), page.W(", "), page.N(made.Strength), page.W(": ")),
			routeText(made.Goes)...)
		return append(append(t, page.W("; what is left of "), page.N(b.Strength), page.W(": ")),
			routeText(of.Goes)...)
	}
	return append(page.Say(page.S("When it is spent"), page.W(": ")), routeText(of.Goes)...)
}

// typed is a line of local.toml, or the hole in its place.
func typed(label, words string) page.Text {
	if words == "" {
		return page.Say(page.W(label+": "), page.Inline{Kind: page.Ask})
	}
	return page.Say(page.W(label+": "), page.N(words))
}

// orAsk is what the lab typed, or the hole in its place.
func orAsk(words string) page.Text {
	if words == "" {
		return page.Say(page.Inline{Kind: page.Ask})
	}
	return page.Say(page.N(words))
}

// untyped is what the lab types under [emergency].
type untyped struct{ words, what, key string }

// injuryHoles are the numbers and places that somebody who is hurt needs, and that nobody
// has typed.
func (c *Context) injuryHoles() []page.Hole {
	e := c.W.Local.Emergency
	return typedHoles(untyped{e.Number, "what the emergency number is", "number"},
		untyped{e.Poison, "what the poison centre’s number is", "poison"},
		untyped{e.Address, "what this room’s address is, in words", "address"},
		untyped{e.Eyewash, "where the eyewash is", "eyewash"},
		untyped{e.FirstAid, "who gives first aid", "first_aid"},
		untyped{e.WayOut, "where the way out is", "way_out"})
}

// emergencyHoles are those, and what a fire needs.
func (c *Context) emergencyHoles() []page.Hole {
	e := c.W.Local.Emergency
	return append(c.injuryHoles(), typedHoles(untyped{e.Keyholder, "who has the key", "keyholder"},
		untyped{e.Extinguisher, "where the fire extinguisher hangs", "extinguisher"})...)
}

func typedHoles(list ...untyped) []page.Hole {
	var out []page.Hole
	for _, h := range list {
		if h.words == "" {
			out = append(out, page.Hole{What: h.what, Until: "find out before you start", Key: h.key +
				" under [emergency] in local.toml"})
		}
	}
	return out
}

func names(baths []*work.Bath) string {
	var out []string
	for _, b := range baths {
		out = append(out, b.Strength)
	}
	return series.Of(out)
}
