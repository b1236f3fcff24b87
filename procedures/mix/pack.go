package mix

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// packContent is what a litre of the solution holds that a whole pack makes.
var packContent = figure.Register(&figure.F3[unit.Concentration, unit.Mass, unit.WW, unit.Volume]{
	Formula: figure.Formula{ID: "pack.content", Name: "content of what a pack makes", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "m", Meaning: "what goes in", Unit: "g"},
			{Symbol: "w", Meaning: "its share by mass", Unit: "% w/w"},
			{Symbol: "V", Meaning: "volume made", Unit: "ml"}},
		Text:   "10 * m * w / V",
		Valid:  "the whole pack made up to the volume; shares from section 3 of the supplier's sheet",
		Source: balance, Origin: figure.Standard},
	Go: func(m unit.Mass, w unit.WW, v unit.Volume) unit.Concentration {
		return unit.Concentration(10 * float64(m) * float64(w) / float64(v))
	},
})

// ofForm is the share of a substance in what holds only so much of it.
var ofForm = figure.Register(&figure.F2[unit.WW, unit.WW, unit.WW]{
	Formula: figure.Formula{ID: "pack.form", Name: "share of the substance itself", Result: "w", Unit: "% w/w",
		Terms: []figure.Term{{Symbol: "w_0", Meaning: "share of the form as it comes", Unit: "% w/w"},
			{Symbol: "p", Meaning: "content of that form", Unit: "% w/w"}},
		Text: "w_0 * p / 100", Source: balance, Origin: figure.Standard},
	Go: func(w, p unit.WW) unit.WW { return w * p / 100 },
})

// packContents is what a litre of the stock holds that a pack or a kit makes, within the
// bounds of the supplier's shares. A liquid part without a density stays unknown: so Made
// counts it.
func (m *Mixer) packContents(out *Made) {
	b := out.Bath
	p := b.Product
	if p.Makes == nil || b.Strength != p.MadeStrength() || !p.Makes.Stock.Positive() {
		return
	}
	made := p.Makes.Stock.Figure("volume that it makes")
	var order []Content
	brought := map[string][]figure.Figure[unit.Concentration]{}
	bring := func(from string, mass figure.Figure[unit.Mass], parts []lab.Part) {
		for _, part := range parts {
			c := Content{Chemical: part.Ing.Chemical, Form: part.Ing.FormID, Product: p}
			if len(brought[c.Ref()]) == 0 {
				order = append(order, c)
			}
			id := figure.ID(b.Ref(), "brings."+from+"."+c.Ref())
			share := part.With.Figure("share of " + part.Ing.Chemical.Name)
			if part.AsForm && part.Ing.Form.Content.Given() {
				share = ofForm.Of(figure.Beside(id, "share"), share, formContent(part.Ing))
			}
			brought[c.Ref()] = append(brought[c.Ref()], packContent.Of(id, mass, share, made))
		}
	}
	more := func(from string, mass figure.Figure[unit.Mass], contains map[string]lab.Share) {
		m.others(out, from, contains, func(id string, share figure.Figure[unit.WW]) figure.Figure[unit.Concentration] {
			return packContent.Of(id, mass, share, made)
		})
		out.Accounted = out.Accounted && len(contains) > 0
	}
	out.Accounted = true
	if p.Pack.Holds.Mass.Positive() {
		mass := p.Pack.Holds.Mass.Figure("what a pack holds")
		bring("pack", mass, m.Lab.Parts(p))
		more("", mass, p.Contains)
	} else if len(p.Steps) == 0 {
		out.Accounted = false
	}
	for _, s := range p.Steps {
		mass, ok := m.addedMass(b, s)
		if !ok {
			out.Accounted = false
			continue
		}
		bring(StepID(s), mass, m.Lab.PartsOfKit(p, s.Add))
		more(StepID(s)+".", mass, p.Parts[s.Add].Contains)
	}
	for i, c := range order {
		id := figure.ID(b.Ref(), "content."+c.Ref())
		order[i].Conc = showConc(summed.Of(id, brought[c.Ref()]...))
	}
	out.Contents = append(order, out.Contents...)
}

// addedMass is the mass of what a step adds of a part of a kit; false where it is poured
// and nobody has written its density.
func (m *Mixer) addedMass(b lab.Bath, s lab.Step) (figure.Figure[unit.Mass], bool) {
	part := b.Product.Parts[s.Add]
	switch {
	case part == nil:
	case s.Amount.Mass.Positive():
		return s.Amount.Mass.Figure("how much of it is added"), true
	case s.Amount.Volume.Positive() && part.Density.Given():
		return liquidMass.Of(figure.ID(b.Ref(), "mass."+StepID(s)), s.Amount.Volume.Figure("how much of it is added"),
			part.Density.Figure("density of the part")), true
	}
	return figure.Figure[unit.Mass]{}, false
}
