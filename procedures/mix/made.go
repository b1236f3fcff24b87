package mix

import (
	"math/big"
	"regexp"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/rules"
	"wetside/procedures/unit"
)

// Mixer expands strengths and scales batches, entering every figure in the
// ledger.
type Mixer struct {
	Lab   *lab.Lab
	Rules *rules.Rules
	Bench *Bench
	Book  *figure.Ledger
	made  map[string]*Made
	// composed is what each of them is in mol.
	composed map[*Made]Composition
	// percent solutions in water, by the form of the chemical they hold
	percent map[string][]lab.Bath
	costs   map[string]costed
}

// New prepares a mixer. What cannot be so in the rules is a problem of rules.Of.
func New(l *lab.Lab, bench *Bench, book *figure.Ledger) *Mixer {
	r, _ := rules.Of(l)
	m := &Mixer{Lab: l, Rules: r, Bench: bench, Book: book, made: map[string]*Made{},
		composed: map[*Made]Composition{}, percent: map[string][]lab.Bath{}, costs: map[string]costed{}}
	for _, s := range l.Solutions {
		if s.Dissolve == nil {
			continue
		}
		ing, bad := l.Resolve(s.Dissolve.Add, s.At("dissolve.add"))
		in, badIn := l.Resolve(s.Dissolve.In, s.At("dissolve.in"))
		if len(bad)+len(badIn) == 0 && in.Water && ing.Chemical != nil {
			m.percent[ing.Ref] = append(m.percent[ing.Ref], lab.Bath{Solution: s, Strength: s.MadeStrength()})
		}
	}
	return m
}

// Made is what is really in a strength.
type Made struct {
	Bath     lab.Bath
	Contents []Content
	// Unknown lists what is in it without a known mass: products, water apart.
	Unknown []lab.Bath
	// Others are the parts of bought things that are no chemical of ours.
	Others []Other
	// Accounted: Contents and Others hold all there is beside water.
	Accounted bool
	Density   figure.Figure[unit.Density]
	// DensityAssumed: nobody has written the density of what it is made from.
	DensityAssumed bool
}

// Content is one substance in a strength.
type Content struct {
	Chemical *lab.Chemical
	Form     string
	Conc     figure.Figure[unit.Concentration]
	// Product is what brought it, when nothing else did: the supplier has
	// classified it there already.
	Product *lab.Product
}

// Other is a part of a bought thing by the name that its sheet gives it.
type Other struct {
	Name    string
	Product *lab.Product
	Share   lab.Share
	Conc    figure.Figure[unit.Concentration]
}

// Key is its name in an id.
func (o Other) Key() string {
	return strings.Trim(notKey.ReplaceAllString(strings.ToLower(o.Name), "-"), "-")
}

var notKey = regexp.MustCompile(`[^a-z0-9]+`)

// Ref is the substance's full reference.
func (c Content) Ref() string { return c.Chemical.ID + "." + c.Form }

// Made expands a strength. Declarations must have passed lab.Check.
func (m *Mixer) Made(b lab.Bath) *Made {
	if have, ok := m.made[b.Ref()]; ok {
		return have
	}
	var out *Made
	if from, dil, ok := b.From(); ok {
		out = m.dilute(b, from, dil)
	} else if b.Solution != nil {
		out = m.mixed(b)
	} else {
		out = m.supplied(b)
	}
	m.made[b.Ref()] = out
	return out
}

// supplied is a product as it was bought: what its supplier's sheet says is in
// it, within the bounds the sheet gives. What is no liquid has no content by volume.
func (m *Mixer) supplied(b lab.Bath) *Made {
	p := b.Product
	out := &Made{Bath: b, Unknown: []lab.Bath{b}}
	if b.Strength != lab.Supplied {
		out.setDensity(lab.Said[unit.Density]{})
		m.packContents(out)
		return out
	}
	if p.State.Solid() {
		out.setDensity(lab.Said[unit.Density]{})
		return out
	}
	out.setDensity(p.Density)
	for _, part := range m.Lab.Parts(p) {
		share := part.With.Figure("share of " + part.Ing.Chemical.Name)
		c := Content{Chemical: part.Ing.Chemical, Form: part.Ing.FormID, Product: p}
		id := figure.ID(b.Ref(), "content."+c.Ref())
		c.Conc = showConc(liquidContent.Of(id, out.Density, share))
		if part.AsForm && part.Ing.Form.Content.Given() { // a liquid of which only a part is the substance
			c.Conc = showConc(liquidShare.Of(id, out.Density, share, formContent(part.Ing)))
		}
		out.Contents = append(out.Contents, c)
	}
	m.others(out, "", p.Contains, func(id string, share figure.Figure[unit.WW]) figure.Figure[unit.Concentration] {
		return liquidContent.Of(id, out.Density, share)
	})
	out.Accounted = len(p.Contains) > 0
	return out
}

// others adds what is no chemical of ours in a list of contents, and what makes up the whole
// beside water. of is what a share of the whole comes to in a litre.
func (m *Mixer) others(out *Made, from string, contains map[string]lab.Share,
	of func(string, figure.Figure[unit.WW]) figure.Figure[unit.Concentration]) {
	p, ref := out.Bath.Product, out.Bath.Ref()
	for _, name := range m.Lab.OthersOf(contains) {
		o := Other{Name: name, Product: p, Share: contains[name]}
		o.Conc = showConc(of(figure.ID(ref, "content."+from+o.Key()), o.Share.Of.Figure("share of "+name)))
		out.Others = append(out.Others, o)
	}
	o, c, share, ok := m.restOf(p, contains)
	switch {
	case !ok:
	case c.Chemical != nil:
		c.Conc = showConc(of(figure.ID(ref, "content."+from+c.Ref()), share))
		out.Contents = append(out.Contents, c)
	default:
		o.Conc = showConc(of(figure.ID(ref, "content."+from+o.Key()), share))
		out.Others = append(out.Others, o)
	}
}

// bySheet is a content by mass as the supplier's sheet gives it.
var bySheet = figure.Register(&figure.F1[unit.WW, unit.WW]{
	Formula: figure.Formula{ID: "content.sheet", Name: "content by mass, by the sheet", Result: "w", Unit: "% w/w",
		Terms: []figure.Term{{Symbol: "w_s", Meaning: "share as section 3 of the supplier's sheet gives it",
			Unit: "% w/w"}},
		Text: "w_s", Valid: "of the thing as it comes", Source: balance, Origin: figure.Standard},
	Go: func(w unit.WW) unit.WW { return w },
})

// Portion is a part of something as it comes, by mass: a chemical of ours, or, without one,
// what else its sheet names.
type Portion struct {
	Content Content
	Other   Other
	Share   figure.Figure[unit.WW]
}

// Sheet is what is in something solid as it comes; false where nobody has said it.
func (m *Mixer) Sheet(b lab.Bath) ([]Portion, bool) {
	p := b.Product
	var out []Portion
	enter := func(key string, part Portion, share figure.Figure[unit.WW]) {
		part.Share = bySheet.Of(figure.ID(b.Ref(), "ww."+key), share).ShowSpan(figure.KindRatio,
			wwStep(float64(share.Value)), unit.Nearest)
		out = append(out, part)
	}
	for _, part := range m.Lab.Parts(p) {
		c := Content{Chemical: part.Ing.Chemical, Form: part.Ing.FormID, Product: p}
		enter(c.Ref(), Portion{Content: c}, part.With.Figure("share of "+part.Ing.Chemical.Name))
	}
	for _, name := range m.Lab.OthersOf(p.Contains) {
		o := Other{Name: name, Product: p, Share: p.Contains[name]}
		enter(o.Key(), Portion{Other: o}, o.Share.Of.Figure("share of "+name))
	}
	if o, c, share, ok := m.restOf(p, p.Contains); ok && c.Chemical != nil {
		enter(c.Ref(), Portion{Content: c}, share)
	} else if ok {
		enter(o.Key(), Portion{Other: o}, share)
	}
	return out, len(p.Contains) > 0
}

// Unnamed is the name of what a list of contents leaves unsaid.
const Unnamed = "the rest, of which nobody has said what it is"

// restOf is what makes up the whole of a list of contents beside water: a chemical of ours,
// or what else the list names; false where there is none.
func (m *Mixer) restOf(p *lab.Product, contains map[string]lab.Share) (Other, Content, figure.Figure[unit.WW], bool) {
	name, low, high, ok := m.Lab.Rest(contains)
	if !ok {
		return Other{}, Content{}, figure.Figure[unit.WW]{}, false
	}
	o := Other{Name: name, Product: p, Share: contains[name]}
	if name == "" {
		o.Name = Unnamed
	}
	share := figure.Constant((low+high)/2, "share of "+o.Name, "the whole less all that is named",
		figure.Estimate).WithBounds(low, high)
	if ing, _, known := m.Lab.Contained(name); known {
		return o, Content{Chemical: ing.Chemical, Form: ing.FormID, Product: p}, share, true
	}
	return o, Content{}, share, true
}

const assumedDensity = "no density declared: water's, rounded to the strict side"

func (out *Made) setDensity(q lab.Said[unit.Density]) {
	if q.Given() {
		out.Density = q.Figure("density of the solution")
		return
	}
	out.Density = figure.Constant(unit.Density(1.00), "density taken as 1.00 g/ml", assumedDensity, figure.Estimate)
	out.DensityAssumed = true
}

func (m *Mixer) dilute(b, from lab.Bath, dil lab.SaidDilution) *Made {
	parent := m.Made(from)
	out := &Made{Bath: b, Unknown: parent.Unknown, DensityAssumed: parent.DensityAssumed, Accounted: parent.Accounted}
	if dil.None() {
		out.Density = parent.Density
		out.Contents, out.Others = parent.Contents, parent.Others
		return out
	}
	pa, pb := dil.Figures()
	for _, c := range parent.Contents {
		id := figure.ID(b.Ref(), "content."+c.Ref())
		c.Conc = showConc(dilutedContent.Of(id, c.Conc, pa, pb))
		out.Contents = append(out.Contents, c)
	}
	for _, o := range parent.Others {
		o.Conc = showConc(dilutedContent.Of(figure.ID(b.Ref(), "content."+o.Key()), o.Conc, pa, pb))
		out.Others = append(out.Others, o)
	}
	out.Density = dilutedDensity.Of(figure.ID(b.Ref(), "density"), parent.Density, pa, pb)
	return out
}

// dilutedDensity is the density of a dilution, volumes taken as additive.
var dilutedDensity = figure.Register(&figure.F3[unit.Density, unit.Density, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "density.diluted", Name: "density after dilution", Result: "rho", Unit: "g/ml",
		Terms: []figure.Term{{Symbol: "rho_0", Meaning: "density before", Unit: "g/ml"},
			{Symbol: "a", Meaning: "parts of the solution"}, {Symbol: "b", Meaning: "parts of water"}},
		Text: "(rho_0 * a + b) / (a + b)", Valid: "volumes taken as additive, water as 1.00 g/ml", Source: balance,
		Origin: figure.Estimate},
	Go: func(rho unit.Density, a, b unit.Factor) unit.Density {
		return (rho*unit.Density(a) + unit.Density(b)) / unit.Density(a+b)
	},
})

// carried is what a measured bath brings of a substance.
var carried = figure.Register(&figure.F3[unit.Concentration, unit.Concentration, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "content.carried", Name: "content brought by a bath", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "c_0", Meaning: "content of the bath", Unit: "g/L"},
			{Symbol: "v", Meaning: "its volume", Unit: "ml"}, {Symbol: "V", Meaning: "finished volume", Unit: "ml"}},
		Text: "c_0 * v / V", Source: balance, Origin: figure.Standard},
	Go: func(c unit.Concentration, v, whole unit.Volume) unit.Concentration {
		return c * unit.Concentration(v) / unit.Concentration(whole)
	},
})

// summed adds what several steps bring of one substance.
var summed = figure.Register(&figure.FN[unit.Concentration, unit.Concentration]{
	Formula: figure.Formula{ID: "content.sum", Name: "content of the solution", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "c", Meaning: "what each step brings", Unit: "g/L"}},
		Text:  "sum(c)", Source: balance, Origin: figure.Standard},
	Go: figure.Total[unit.Concentration],
})

// mixed expands what a solution's steps make.
func (m *Mixer) mixed(b lab.Bath) *Made {
	s := b.Solution
	out := &Made{Bath: b, Accounted: true}
	out.setDensity(s.Density)
	var order []string
	brought := map[string][]figure.Figure[unit.Concentration]{}
	chemicals := map[string]Content{}
	bring := func(c Content, conc figure.Figure[unit.Concentration]) {
		have, seen := chemicals[c.Ref()]
		if !seen {
			order = append(order, c.Ref())
			have = c
		}
		if have.Product != c.Product {
			have.Product = nil
		}
		chemicals[c.Ref()] = have
		brought[c.Ref()] = append(brought[c.Ref()], conc)
	}
	if d := s.Dissolve; d != nil {
		ing, _ := m.Lab.Resolve(d.Add, s.At("dissolve.add"))
		if ing.Chemical != nil {
			p := d.Strength.Figure("percentage")
			solute := percentContent.Of(figure.ID(b.Ref(), "brings.dissolve"), p)
			bring(Content{Chemical: ing.Chemical, Form: ing.FormID}, solute)
			if in, bad := m.Lab.Resolve(d.In, s.At("dissolve.in")); len(bad) == 0 && in.Chemical != nil {
				bring(Content{Chemical: in.Chemical, Form: in.FormID},
					solventContent.Of(figure.ID(b.Ref(), "brings.solvent"), out.Density, solute))
			}
		}
	}
	for i, step := range s.Steps {
		ing, problems := m.Lab.Resolve(step.Add, s.At(lab.StepKey(i)).At("add"))
		if len(problems) > 0 || ing.Water {
			continue
		}
		part := figure.ID(b.Ref(), "brings."+StepID(step))
		switch {
		case ing.Chemical != nil && step.Amount.Given():
			per := s.Per.Figure("finished volume of the formula")
			mass := m.activeMass(b, step, ing)
			bring(Content{Chemical: ing.Chemical, Form: ing.FormID}, gramsPerLitre.Of(part, mass, per))
		case !ing.Bath.Zero():
			inner := m.Made(ing.Bath)
			out.Unknown = append(out.Unknown, inner.Unknown...)
			out.Accounted = out.Accounted && inner.Accounted
			brings := func(id string, of figure.Figure[unit.Concentration]) figure.Figure[unit.Concentration] {
				if step.Parts.Given() {
					return dilutedContent.Of(id, of, step.Parts.Figure("parts of the bath"), allElse(s, i))
				}
				v := step.Amount.Volume.Figure("volume of the bath")
				return carried.Of(id, of, v, s.Per.Figure("finished volume of the formula"))
			}
			for _, c := range inner.Contents {
				bring(c, brings(part+"."+c.Ref(), c.Conc))
			}
			for _, o := range inner.Others {
				o.Conc = showConc(brings(part+"."+o.Key(), o.Conc))
				out.Others = append(out.Others, o)
			}
		}
	}
	for _, ref := range order {
		c := chemicals[ref]
		c.Conc = showConc(summed.Of(figure.ID(b.Ref(), "content."+ref), brought[ref]...))
		out.Contents = append(out.Contents, c)
	}
	return out
}

// wholeParts are all parts of a solution that is mixed by parts.
func wholeParts(s *lab.Solution) unit.Factor {
	sum := new(big.Rat)
	for _, step := range s.Steps {
		if step.Parts.Given() {
			sum.Add(sum, step.Parts.Exact())
		}
	}
	return unit.Factor(float(sum))
}

// allElse are the parts of a solution that one of its steps does not add: they are
// counted from the whole list of steps.
func allElse(s *lab.Solution, without int) figure.Figure[unit.Factor] {
	by := figure.Measured
	for i, step := range s.Steps {
		if i != without && step.Parts.Given() {
			by = figure.Weakest(by, step.Parts.By())
		}
	}
	rest := wholeParts(s) - s.Steps[without].Parts.Value()
	return figure.GivenNumber(rest, "", s.At("step"), by, "parts of all else")
}

// activeMass is the mass of the substance itself that a step adds.
func (m *Mixer) activeMass(b lab.Bath, step lab.Step, ing lab.Ingredient) figure.Figure[unit.Mass] {
	if step.Amount.Volume.Given() {
		v := step.Amount.Volume.Figure("volume added")
		rho := formDensity(ing)
		w := formContent(ing)
		return contentOfLiquid.Of(figure.ID(b.Ref(), "active."+StepID(step)), v, rho, w)
	}
	return step.Amount.Mass.Figure("mass added")
}

// StepID is a step's own id, else that of what it adds.
func StepID(s lab.Step) string {
	if s.ID != "" {
		return s.ID
	}
	id, _, _ := strings.Cut(s.Add, ".")
	return id
}
