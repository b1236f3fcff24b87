package mixture

import (
	"slices"
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// acute works out the acute toxicity of a mixture by one way: 100 over the sum of each
// content by its estimate (Annex I, 3.1.3.6.1), or, where more than a tenth of the mixture
// is untested, that of the tested rest (3.1.3.6.2.3).
func (c *classifier) acute(rule lab.AcuteRule) {
	var sum, least float64
	var by []Counted
	var untested unit.WW
	for i := range c.parts {
		p := &c.parts[i]
		if p.untested(rule.Way) {
			if atLeast(p.High, 1) {
				untested += p.High
			}
			continue
		}
		estimate, step, ok := p.estimate(rule)
		if !ok || !atLeast(p.High, step.Counts.Value()) {
			continue
		}
		sum += float64(p.High) / estimate
		least += float64(p.Low) / estimate
		by = append(by, Counted{Part: p})
	}
	if len(by) == 0 {
		return
	}
	whole, corrected := 100.0, atLeast(untested, c.scheme.Untested.Value()) &&
		!atLeast(c.scheme.Untested.Value(), untested)
	if corrected {
		whole -= min(float64(untested), 100)
	}
	if untested > 0 {
		c.out.Untested = append(c.out.Untested, Untested{rule.Way, untested})
	}
	of := whole / sum
	for _, step := range rule.Steps {
		most := amount(step.UpTo)
		if unit.Snap(of) > unit.Snap(most) {
			continue
		}
		if step.Class != "" {
			sure := least > 0 && unit.Snap(whole/least) <= unit.Snap(most)
			c.find(Finding{Class: step.Class, By: by, Table: rule.Table, Sure: sure,
				Estimate: estimated(rule.Way, of, most, corrected)})
		}
		return
	}
}

func estimated(way lab.AcuteWay, of, most float64, corrected bool) *Estimate {
	e := &Estimate{Way: way, Corrected: corrected}
	switch way {
	case lab.Swallowed, lab.OnSkin:
		e.Dose, e.UpToDose = unit.Dose(of), unit.Dose(most)
	case lab.AsGas:
		e.Gas, e.UpToGas = unit.Gas(of), unit.Gas(most)
	default:
		e.Air, e.UpToAir = unit.InAir(of), unit.InAir(most)
	}
	return e
}

// amount is the number of an estimate, in the unit of its way.
func amount(e lab.Estimate) float64 {
	switch {
	case e.Dose.Given():
		return float64(e.Dose.Value())
	case e.Air.Given():
		return float64(e.Air.Value())
	}
	return float64(e.Gas.Value())
}

// untested reports a part of which nobody knows what it does by one way.
func (p *Part) untested(way lab.AcuteWay) bool {
	if p.Unknown && !p.ATE.Given() {
		return true
	}
	route := lab.ByBreath
	switch way {
	case lab.Swallowed:
		route = lab.ByMouth
	case lab.OnSkin:
		route = lab.BySkin
	}
	return slices.Contains(p.Untested, route)
}

// estimate is the acute toxicity of a part by one way, and its category. What was measured
// goes before what a category stands for; a range of what was measured counts by its lower
// end.
func (p *Part) estimate(rule lab.AcuteRule) (float64, lab.AcuteStep, bool) {
	if given, ok := p.given(rule.Way); ok {
		for _, step := range rule.Steps {
			if unit.Snap(given) <= unit.Snap(amount(step.UpTo)) {
				return given, step, true
			}
		}
		return 0, lab.AcuteStep{}, false
	}
	breath := rule.Way == lab.AsGas || rule.Way == lab.AsVapour || rule.Way == lab.AsDust
	if breath && (rule.Way != lab.AsDust || p.ATE.Vapour.Given() || p.ATE.Gas.Given()) {
		return 0, lab.AcuteStep{}, false // a class by itself speaks of dust and mist
	}
	for _, step := range rule.Steps {
		if step.Class != "" && slices.Contains(p.Classes, step.Class) && step.Taken.Given() {
			return amount(step.Taken), step, true
		}
	}
	return 0, lab.AcuteStep{}, false
}

// given is what somebody measured.
func (p *Part) given(way lab.AcuteWay) (float64, bool) {
	a := p.ATE
	switch way {
	case lab.Swallowed:
		return float64(a.Oral.Low()), a.Oral.Given()
	case lab.OnSkin:
		return float64(a.Dermal.Low()), a.Dermal.Given()
	case lab.AsGas:
		return float64(a.Gas.Low()), a.Gas.Given()
	case lab.AsVapour:
		return float64(a.Vapour.Low()), a.Vapour.Given()
	}
	return float64(a.Dust.Low()), a.Dust.Given()
}

// extreme adds the class of an extreme pH. A lone acid or alkali that has limits of its own
// is not judged a second time, and a substance that was tested and did not burn is not to
// blame; where all that may be to blame was tested so, the pH says nothing.
func (c *classifier) extreme(rule lab.ExtremeRule) {
	if !c.ph.Known {
		return
	}
	acid := rule.AtMost.Given() && unit.Snap(float64(c.ph.Low)) <= float64(rule.AtMost.Value())
	alkali := rule.AtLeast.Given() && unit.Snap(float64(c.ph.High)) >= float64(rule.AtLeast.Value())
	if !acid && !alkali {
		return
	}
	sure := acid && unit.Snap(float64(c.ph.High)) <= float64(rule.AtMost.Value()) ||
		alkali && unit.Snap(float64(c.ph.Low)) >= float64(rule.AtLeast.Value())
	var blamed, left []*Part
	for i := range c.parts {
		p := &c.parts[i]
		if !p.has(rule.Burners) && !(acid && p.Acid) && !(alkali && p.Alkali) && !p.Unknown {
			continue
		}
		blamed = append(blamed, p)
		if !p.cleared(rule.Gives) {
			left = append(left, p)
		}
	}
	if len(blamed) > 0 && len(left) == 0 {
		return
	}
	if len(blamed) == 1 {
		if _, own := blamed[0].own(rule.Own...); own {
			return
		}
	}
	f := Finding{Class: rule.Gives, Table: rule.Table, Sure: sure, PH: true}
	for _, p := range left {
		f.By = append(f.By, Counted{Part: p})
	}
	c.find(f)
}

// cleared reports a test that stands against a class, or against a class that it is a kind
// of.
func (p *Part) cleared(class string) bool {
	for tested := range p.Tested {
		if strings.HasPrefix(tested, class) {
			return true
		}
	}
	return false
}

// children puts together what several ingredients do to fertility and to the unborn child:
// capitals are what may be damaged, small letters what is suspected (Annex I, Table 3.7.3,
// from memory).
func (c *classifier) children() {
	var first *Finding // of category 1
	letters := map[string]bool{}
	plain := false
	var rest []Finding
	var second []Finding
	for _, f := range c.out.Found {
		switch {
		case strings.HasPrefix(f.Class, "Repr. 1"):
			f := f
			if first == nil {
				first = &f
			} else {
				if strings.HasPrefix(f.Class, "Repr. 1A") {
					first.Class = f.Class
				}
				*first = merged(*first, f)
			}
			word := suffix(f.Class)
			plain = plain || word == ""
			for _, l := range strings.Split(word, "") {
				letters[l] = true
			}
		case strings.HasPrefix(f.Class, "Repr. 2"):
			second = append(second, f)
		default:
			rest = append(rest, f)
		}
	}
	if first == nil && len(second) == 0 {
		return
	}
	category, known := "Repr. 2", "fd"
	if first != nil {
		category, known = first.Class[:len("Repr. 1A")], "FDfd"
	} else {
		first = &second[0]
	}
	for _, f := range second {
		adds := category == "Repr. 2"
		word := suffix(f.Class)
		plain = plain || word == "" && adds
		for _, l := range strings.Split(word, "") {
			adds = adds || !plain && l != "" && !letters[l] && !letters[strings.ToUpper(l)]
			letters[l] = true
		}
		if adds {
			*first = merged(*first, f)
		}
	}
	word := ""
	for _, l := range strings.Split(known, "") {
		if letters[l] && !(l == "f" && letters["F"]) && !(l == "d" && letters["D"]) {
			word += l
		}
	}
	first.Class = category
	if !plain && word != "" {
		first.Class = category + " (" + word + ")"
	}
	c.out.Found = append(rest, *first)
}

// suffix is what stands in brackets behind a class.
func suffix(class string) string {
	_, in, _ := strings.Cut(class, " (")
	return strings.TrimSuffix(in, ")")
}

// named are the ingredients that a label names though the mixture has not got their class:
// who has the allergy must know. A mixture that has the class from another ingredient names
// them beside that one, without the statement (Annex II, 2.8).
func (c *classifier) named() {
	for _, rule := range c.scheme.Alone {
		if rule.Code == "" {
			continue
		}
		for i := range c.parts {
			p := &c.parts[i]
			for _, word := range p.words(rule) {
				limit := rule.Named.Value()
				if own, has := p.own(word); has {
					limit = own / 10
				}
				if !atLeast(p.High, limit) || c.brings(p, word) {
					continue
				}
				by := Counted{p, limit}
				if n := slices.IndexFunc(c.out.Found, func(f Finding) bool {
					return kindred(c.scheme, f.Class,
						word)
				}); n >= 0 {
					c.out.Found[n].By = append(slices.Clone(c.out.Found[n].By), by)
					continue
				}
				if n := slices.IndexFunc(c.out.Extra, func(f Finding) bool { return f.Code == rule.Code }); n >= 0 {
					c.out.Extra[n].By = append(c.out.Extra[n].By, by)
					c.out.Extra[n].Sure = c.out.Extra[n].Sure && atLeast(p.Low, limit)
					continue
				}
				c.out.Extra = append(c.out.Extra, Finding{Code: rule.Code, By: []Counted{by}, Table: rule.Table,
					Sure: atLeast(p.Low, limit)})
			}
		}
	}
}

// brings reports a part to which a class of the mixture is due.
func (c *classifier) brings(p *Part, word string) bool {
	return slices.ContainsFunc(c.out.Found, func(f Finding) bool {
		return kindred(c.scheme, f.Class, word) && slices.ContainsFunc(f.By,
			func(b Counted) bool { return b.Part == p })
	})
}

// kindred reports two classes of one list.
func kindred(s *lab.Scheme, a, b string) bool {
	return slices.ContainsFunc(s.Hardest, func(l lab.Ladder) bool { return rung(l, a) >= 0 && rung(l, b) >= 0 })
}

// gas adds the statement of a gas that acid sets free: by how much of it a kilogram gives
// off, all sources together; where nobody can tell how much, by the content of the source.
func (c *classifier) gas(rule lab.GasRule) {
	var most, least unit.VolumePerMass
	var by []Counted
	carried, sure := false, false
	for i := range c.parts {
		p := &c.parts[i]
		if !slices.Contains(p.Extra, rule.Code) {
			continue
		}
		by = append(by, Counted{Part: p})
		if p.Gas == 0 {
			carried = carried || atLeast(p.High, rule.Else.Value())
			sure = sure || atLeast(p.Low, rule.Else.Value())
			continue
		}
		most += p.Gas * unit.VolumePerMass(p.High) / 100
		least += p.Gas * unit.VolumePerMass(p.Low) / 100
	}
	each := float64(rule.Each.Value())
	if carried || len(by) > 0 && unit.Snap(float64(most)) >= each {
		c.out.Extra = append(c.out.Extra, Finding{Code: rule.Code, By: by, Table: rule.Table, Sure: sure ||
			unit.Snap(float64(least)) >= each})
	}
}

// Otherwise is the word of a scheme for every class that it has not named before.
const Otherwise = "any other"

// onRequest adds the statement that there is a sheet for whoever asks.
func (c *classifier) onRequest() {
	if len(c.out.Found) > 0 || len(c.out.Unknown) > 0 {
		return
	}
	var by []Counted
	rule := lab.OnRequestRule{}
	for i := range c.parts {
		p := &c.parts[i]
		for _, r := range c.scheme.OnRequest {
			limit, of := r.From.Value(), p.classed(c.scheme, r)
			if len(of) == 0 {
				continue
			}
			if own, has := p.own(of...); has && r.Tenth && own/10 < limit {
				limit = own / 10
			}
			if atLeast(p.High, limit) {
				by, rule = append(by, Counted{p, limit}), r
				break
			}
		}
	}
	if len(by) > 0 {
		c.out.Extra = append(c.out.Extra, Finding{Code: rule.Code, By: by, Table: rule.Table, Sure: true})
	}
}

// classed are the classes of a part of which a rule speaks.
func (p *Part) classed(s *lab.Scheme, rule lab.OnRequestRule) []string {
	var out []string
	for _, w := range p.Classes {
		if is(w, rule.Of) || slices.Contains(rule.Of, Otherwise) {
			out = append(out, w)
		}
	}
	if len(out) == 0 && slices.Contains(rule.Of, Otherwise) {
		for _, a := range s.Acute {
			if _, step, ok := p.estimate(a); ok && step.Class != "" {
				out = append(out, step.Class)
			}
		}
	}
	return out
}
