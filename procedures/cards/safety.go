package cards

import (
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/unit"
	"wetside/procedures/waste"
)

// pregnant is the line for who is pregnant or breast-feeding, the same on every
// card; nothing where nothing asks for it.
func pregnant(job hazard.Job, known hazard.Known) []page.Block {
	if !hazard.Pregnant(job, known) {
		return nil
	}
	line := "Pregnant or breast-feeding: do not handle this."
	switch job {
	case hazard.Weigh:
		line = "Pregnant or breast-feeding: do not mix this."
	case hazard.Dilute:
		line = "Pregnant or breast-feeding: do not dilute this."
	}
	return []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S(line), page.W(" No need to explain yourself."))}}}
}

// pregnantAt is the line for all jobs of one sheet: for handling it at all where that
// holds, else for mixing, else for diluting it.
func (c *Context) pregnantAt(s subject, known hazard.Known) []page.Block {
	jobs := []hazard.Job{hazard.Work, hazard.Weigh, hazard.Dilute}
	if !s.made {
		jobs = []hazard.Job{hazard.Work, hazard.Dilute}
	}
	for _, job := range jobs {
		if hazard.Pregnant(job, known) {
			return pregnant(job, known)
		}
	}
	return nil
}

// beforeJob is what to wear for a job, and who leaves it to somebody else.
func beforeJob(job hazard.Job, known hazard.Known) []page.Block {
	return append([]page.Block{gearBlock(job, known)}, pregnant(job, known)...)
}

// between says the bounds of a figure, in brackets, where there are any.
func between(low, high string) page.Text {
	if low == "" {
		return nil
	}
	return page.Say(page.W(" ("), page.B(low), page.W("–"), page.B(high), page.W(")"))
}

// reproductive says how near what harms reproduction comes to its limit.
func (c *Context) reproductive(b lab.Bath) []page.Block {
	list := hazard.Reproductive(c.Mix, c.Mix.Made(b))
	if len(list) == 0 {
		return nil
	}
	l := page.List{}
	for _, a := range list {
		t := page.Say(page.N(capital(a.Name)), page.W(" "), page.F(a.Content))
		t = append(t, between(a.Low, a.High)...)
		l.Items = append(l.Items, append(t, page.W(", limit "), page.F(a.Limit), page.W(" for "), page.N(a.Class), page.W(": "+b.Strength+" "+a.Answer)))
	}
	return []page.Block{l}
}

// spent says where a bath goes when it is spent.
func (c *Context) spent(b lab.Bath) page.Text {
	return c.routeText(waste.Of(c.Mix, b))
}

func (c *Context) routeText(r waste.Route) page.Text {
	words := page.Inline(page.N(routeWords(r)))
	if r.Waste != nil {
		words = page.L("dispose/"+r.Waste.ID, routeWords(r))
	}
	return page.Say(words)
}

// routeOf says where what follows a waste route goes.
func (c *Context) routeOf(id string) page.Text {
	w := c.Lab.WasteRoute(id)
	if w == nil {
		return page.Say(page.W("to a drum: "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	return c.routeText(waste.OfRoute(c.Mix, w, waste.Baths(c.Lab, w.ID)))
}

// spentPara is the last line of a card's work.
func (c *Context) spentPara(b lab.Bath) page.Block {
	if waste.Concentrate(c.Lab, b) {
		for _, made := range c.Lab.Baths() { // a permit for the drain speaks of the bath alone
			if from, _, _, ok := made.From(); ok && from.Ref() == b.Ref() && waste.Of(c.Mix, made).Drain != "" {
				t := append(page.Say(page.S("When it is spent"), page.W(", "), page.N(made.Strength), page.W(": ")), c.spent(made)...)
				return page.Para{Text: append(append(t, page.W("; a rest of "), page.N(b.Strength), page.W(": ")), c.spent(b)...)}
			}
		}
	}
	return page.Para{Text: append(page.Say(page.S("When it is spent"), page.W(": ")), c.spent(b)...)}
}

const usualFirstAid = "common practice, no source; the supplier’s sheet and the poison centre go first"

// minutes enters how long to rinse.
func (c *Context) minutes(id, name string, n float64) page.Inline {
	g := figure.Constant(unit.Factor(n), name, usualFirstAid, figure.Memory)
	return page.F(figure.Declare(c.Book, "emergency/"+id, figure.KindTime, g, unit.Short(n), "min"))
}

func (c *Context) eyeMinutes() page.Inline {
	return c.minutes("eyes", "rinse the eyes for at least", 15)
}

func (c *Context) alkaliMinutes() page.Inline {
	return c.minutes("eyes-alkali", "after alkali rinse the eyes for at least", 30)
}

func (c *Context) skinMinutes() page.Inline {
	return c.minutes("skin", "rinse the skin for at least", 15)
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

// emergencyHoles are the numbers and places that nobody has typed.
func (c *Context) emergencyHoles() []page.Hole {
	e := c.Lab.Local.Emergency
	var out []page.Hole
	for _, h := range []struct{ words, what, key string }{{e.Number, "the emergency number", "number"}, {e.Poison, "the poison centre’s number", "poison"}, {e.Address, "this room’s address in words", "address"}, {e.Eyewash, "where the eyewash is", "eyewash"}, {e.FirstAid, "who gives first aid", "first_aid"}, {e.WayOut, "the way out", "way_out"}} {
		if h.words == "" {
			out = append(out, page.Hole{What: h.what, Until: "ask before you start", Key: h.key + " under [emergency] in local.toml"})
		}
	}
	return out
}

// subject is a solution or a product, of which there is one sheet for all
// strengths.
type subject struct {
	def       lab.Def
	name      string
	role      lab.Role
	strengths []lab.Bath
	// made is whether somebody mixes it here.
	made bool
}

func (c *Context) subjects() []subject {
	var out []subject
	for _, s := range c.Lab.Solutions {
		x := subject{def: s.Def, name: s.Name, role: s.Role, made: true}
		for _, n := range s.StrengthNames() {
			x.strengths = append(x.strengths, lab.Bath{Solution: s, Strength: n})
		}
		out = append(out, x)
	}
	for _, p := range c.Lab.Products {
		x := subject{def: p.Def, name: p.Name, role: p.Role}
		for _, n := range p.StrengthNames() {
			x.strengths = append(x.strengths, lab.Bath{Product: p, Strength: n})
		}
		out = append(out, x)
	}
	return out
}

// known is what is known of all strengths together.
func (c *Context) knownOf(baths []lab.Bath) hazard.Known {
	var all []hazard.Known
	for _, b := range baths {
		all = append(all, c.known(b))
	}
	return hazard.Merge(all...)
}

func names(baths []lab.Bath) string {
	var out []string
	for _, b := range baths {
		out = append(out, b.Strength)
	}
	return strings.Join(out, ", ")
}
