package cards

import (
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/work"
)

// crossing warns of thiocyanate that is carried into an acid bath. How much gas that is stands on
// no card: a number would look like a dose that somebody may breathe.
func crossing(s *work.Step) []page.Text {
	c := s.Cyanide
	switch {
	case c == nil:
		return nil
	case c.Rinsed && strings.Contains(s.Decl.Gate, "hydrogen cyanide"): // the lab says it itself
		return nil
	case c.Rinsed && s.Decl.Gate != "": // the lab asks for it already, and may not say why
		return []page.Text{page.Say(page.W("From "), page.N(c.From.Name()), page.W(" there can come hydrogen cyanide."))}
	}
	out := page.Say(page.S("Wash before this step, with the extractor fan on: "))
	if c.Rinsed {
		out = page.Say(page.S("Do not shorten this wash: "))
	}
	out = append(out, page.W("thiocyanate is carried from "), page.N(c.From.Name()), page.W(" into "),
		page.N(c.Into.Name()))
	if c.Unsaid {
		out = append(out, page.W(", of which nobody has written whether it is acid,"))
	}
	return []page.Text{append(out, page.W(" and can give hydrogen cyanide there."))}
}

// stainText says whether a bath can clear the brown stain of the bleach before it.
func stainText(x *work.Stain) page.Text {
	var out page.Text
	switch {
	case x.Why != "":
		out = page.Say(page.W("whether it is enough for the brown stain is not worked out: "), page.N(x.Why))
	case x.Few:
		out = page.Say(page.S("too weak for the brown stain"), page.W(": carried permanganate takes up to "),
			page.F(x.Needs), page.W(" of metabisulfite"))
	default:
		out = page.Say(page.W("enough for the brown stain "), page.F(x.Times),
			page.W(" times over: if brown is left, it had too little time or no acid"))
	}
	if x.NotAcid {
		out = append(out, page.W("; "), page.S("this bath is not acid"), page.W(", and brown goes away in acid alone"))
	}
	return out
}
