package hazard

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/mixture"
	"wetside/procedures/rules"
	"wetside/procedures/series"
	"wetside/procedures/unit"
)

// Acidity is how acid a bath is, for its class and for what to wear. Worked is how it was
// found: measured by somebody, or worked out from what is in it.
type Acidity struct {
	mixture.PH
	Worked bool
	// Shown is the pH as a card says it.
	Shown string
}

// ingredient is one part of a mixture with what the cards need to know of it.
type ingredient struct {
	mixture.Part
	chemical *lab.Chemical // nil where it is none of ours
	content  figure.Figure[unit.WW]
	who      map[string]figure.Origin // by class
	fine     figure.Origin            // who says that it has none
	physics  []said
}

// strength works out what a bath is from what is in it, and keeps beside it what its
// supplier says. It returns false where the lab has no scheme, or too little is known of
// the bath: then every hazard of what is in it is carried.
func (k *Known) strength(m *mix.Mixer, made *mix.Made, acidity Acidity) bool {
	scheme := m.Lab.Scheme()
	if scheme == nil {
		return false
	}
	list, whole := k.ingredients(m, made)
	if len(list) == 0 && !whole {
		return false
	}
	answer := mixture.Classify(scheme, partsOf(list), acidity.PH)
	known := whole && len(answer.Unknown) == 0
	supplier := k.supplier(m.Lab, made)
	at := func(p *mixture.Part) *ingredient {
		return &list[slices.IndexFunc(list, func(i ingredient) bool { return i.Name == p.Name })]
	}
	var computed, extra []Found
	for _, f := range answer.Found {
		computed = append(computed, k.found(m, made.Bath.Ref(), f, at, acidity))
	}
	for _, f := range answer.Extra {
		extra = append(extra, k.found(m, made.Bath.Ref(), f, at, acidity))
	}
	switch {
	case supplier != nil && made.Bath.Strength == lab.Supplied:
		k.Status, k.Classes, k.More = Supplied, supplier, computed
		for _, p := range answer.Unknown {
			k.Unlooked = append(k.Unlooked, p.Name)
		}
		k.Layers = []Layer{{Who: bySupplier, Classes: supplier}}
		if known {
			k.Layers = append(k.Layers, Layer{Who: byRule, Classes: computed})
		}
		k.Extra = k.supplierExtra(m.Lab, made, extra)
	case known:
		k.Status, k.Classes, k.Extra = Computed, computed, extra
		k.Layers = []Layer{{Who: byRule, Classes: computed}}
	default: // carried, and what could be worked out beside it
		for _, p := range answer.Unknown {
			k.Unlooked = append(k.Unlooked, p.Name)
		}
		for _, f := range computed {
			k.Classes = found(k.Classes, f)
		}
		for _, f := range extra {
			k.Extra = found(k.Extra, f)
		}
		return false
	}
	k.Missing = nil
	for _, n := range answer.Near {
		k.Near = append(k.Near, Close{Class: n.Class, By: bringing(m, n.By, at), Table: n.Table})
	}
	k.elsewhere(m, scheme, list)
	k.remark(answer, acidity)
	return true
}

// partsOf are the parts as a scheme wants them.
func partsOf(list []ingredient) []mixture.Part {
	out := make([]mixture.Part, len(list))
	for i := range list {
		out[i] = list[i].Part
	}
	return out
}

// ingredients are the parts of a bath. whole is false where nobody can tell all of them.
func (k *Known) ingredients(m *mix.Mixer, made *mix.Made) (list []ingredient, whole bool) {
	l := m.Lab
	add := func(i ingredient) {
		if n := slices.IndexFunc(list, func(o ingredient) bool { return o.Name == i.Name }); n >= 0 {
			have := &list[n]
			have.Low, have.Share, have.High = have.Low+i.Low, have.Share+i.Share, have.High+i.High
			return
		}
		list = append(list, i)
	}
	if b := made.Bath; b.Product != nil && b.Strength == lab.Supplied && b.Product.State.Solid() {
		portions, whole := m.Sheet(b)
		for _, p := range portions {
			part := Part{Name: p.Other.Name, Kinds: k.rules.OfName(p.Other.Name), Dust: b.Product.Dusty()}
			if c := p.Content.Chemical; c != nil {
				part.Name, part.Kinds = c.Name, k.rules.OfChemical(c)
				add(k.ofChemical(l, p.Content, p.Share))
			} else {
				add(ofOther(l, p.Other, p.Share))
			}
			k.Parts = parts(k.Parts, part)
		}
		return list, whole
	}
	for _, c := range made.Contents {
		add(k.ofChemical(l, c, m.MassPercent(made, c)))
	}
	for _, o := range made.Others {
		add(ofOther(l, o, m.OtherPercent(made, o)))
	}
	return list, made.Accounted
}

// ofChemical is a chemical of ours as a part of a bath: by what its supplier says of the
// very thing that brought it, else by the pack and the library.
func (k *Known) ofChemical(l *lab.Lab, c mix.Content, content figure.Figure[unit.WW]) ingredient {
	s := speak(l, c.Chemical, c.Form)
	i := ingredient{chemical: c.Chemical, content: content, who: map[string]figure.Origin{}}
	if h := c.Chemical.Hazards; h != nil {
		i.InMixtures, i.Untested, i.Together, i.Tested, i.Extra = h.InMixtures, h.Unknown, h.Together, h.Tested, h.Extra
	}
	if i.Together == "" && boron.MatchString(c.Chemical.Forms[c.Form].Formula) {
		i.Together = "borates"
	}
	if c.Product != nil {
		if share, key, ok := l.ShareOf(c.Product, c.Chemical); ok && share.Classes != nil {
			by, _ := l.OriginOf(c.Product.Def, key)
			s = withFloor(l, c.Chemical, c.Form, share.Classes, by)
			i.InMixtures = stated(share.InMixtures, i.InMixtures)
			for _, code := range share.Extra {
				if !slices.Contains(i.Extra, code) {
					i.Extra = append(slices.Clone(i.Extra), code)
				}
			}
		}
	}
	i.take(l.Vocabulary(), c.Chemical.Name, s)
	kinds := k.rules.OfChemical(c.Chemical)
	i.Acid = kinds.Any("acid") || c.Chemical.InWater(c.Form)["H+"] > 0
	i.Alkali = kinds.Any("alkali") || c.Chemical.InWater(c.Form)["OH-"] > 0
	i.Gas = so2Of(c.Chemical, c.Form, molarVolumeAt0)
	return i
}

// stated is what a sheet says of a part in mixtures, and what is known of it besides.
func stated(sheet, known lab.InMixtures) lab.InMixtures {
	out := known
	if sheet.ATE.Given() {
		out.ATE = sheet.ATE
	}
	if sheet.Limits != nil {
		out.Limits = sheet.Limits
	}
	if sheet.MFactor.Given() {
		out.MFactor = sheet.MFactor
	}
	if sheet.Additive != nil {
		out.Additive = sheet.Additive
	}
	return out
}

// ofOther is a part that is no chemical of ours, by what the supplier's sheet says of it.
func ofOther(l *lab.Lab, o mix.Other, content figure.Figure[unit.WW]) ingredient {
	i := ingredient{content: content, who: map[string]figure.Origin{}}
	i.InMixtures, i.Extra = o.Share.InMixtures, o.Share.Extra
	s := spoken{known: o.Share.Classes != nil, who: bySupplier}
	s.by, _ = l.OriginOf(o.Product.Def, lab.ContainsKey(o.Name))
	for _, w := range o.Share.Classes {
		s.say(w, s.by)
	}
	if boric.MatchString(o.Name) {
		i.Together = "borates"
	}
	i.take(l.Vocabulary(), o.Name, s)
	return i
}

var boric = regexp.MustCompile(`(?i)bor(ic|ate|ax)`)

// take takes over the classes of a part, those of physics apart.
func (i *ingredient) take(v *lab.Vocabulary, name string, s spoken) {
	i.Name, i.Unknown, i.fine = name, !s.known, s.by
	i.Low, i.Share, i.High = i.content.Low, i.content.Value, i.content.High
	for _, c := range s.classes {
		if physical(v, c.word) {
			i.physics = append(i.physics, c)
			continue
		}
		i.Classes = append(i.Classes, c.word)
		i.who[c.word] = c.by
	}
}

// physical reports a class that is found by a test of the thing itself.
func physical(v *lab.Vocabulary, word string) bool {
	c, ok := v.Class(word)
	return ok && c.Physical()
}

// supplier is what the supplier says of a bought thing as it stands; nil where nobody has
// written it, or where it is no longer what was bought.
func (k *Known) supplier(l *lab.Lab, made *mix.Made) []Found {
	p := made.Bath.Product
	if p == nil || p.Hazards == nil || p.Hazards.Classes == nil {
		return nil
	}
	of := Known{}
	out := []Found{}
	for i, word := range p.Hazards.Classes {
		by, _ := l.OriginOf(p.Def, fmt.Sprintf("hazards.classes[%d]", i))
		of.Classes = out
		of.class(l, word, p.Name, by)
		out = of.Classes
	}
	return out
}

// supplierExtra are the statements that the supplier adds, and those that are worked out.
func (k *Known) supplierExtra(l *lab.Lab, made *mix.Made, worked []Found) []Found {
	var out []Found
	p := made.Bath.Product
	for i, code := range p.Hazards.Extra {
		if text, ok := l.Vocabulary().Supplement(code); ok {
			by, _ := l.OriginOf(p.Def, fmt.Sprintf("hazards.extra[%d]", i))
			out = found(out, Found{Code: code, Statement: text, Because: []string{p.Name}, Origin: by,
				Who: []figure.Origin{by}})
		}
	}
	for _, f := range worked {
		if f.Code != onRequest { // its supplier has a sheet for everybody
			out = found(out, f)
		}
	}
	return out
}

// onRequest is the statement that there is a sheet for whoever asks: it belongs on what is
// sold, and on no label of a room.
const onRequest = "EUH210"

// found puts a finding of a scheme into words and figures.
func (k *Known) found(m *mix.Mixer, ref string, f mixture.Finding, at func(*mixture.Part) *ingredient,
	acidity Acidity) Found {
	out := Found{Code: f.Code, Table: f.Table, Unsure: !f.Sure, By: bringing(m, f.By, at)}
	if c, ok := m.Lab.Vocabulary().Class(f.Class); ok {
		out.Class, out.Statement = c, c.Statement
	}
	if f.Code != "" {
		out.Statement, _ = m.Lab.Vocabulary().Supplement(f.Code)
	}
	out.Origin = figure.Standard
	for _, by := range f.By {
		i := at(by.Part)
		who := i.fine
		for _, class := range i.Classes {
			if f.Code == "" && related(class, f.Class) {
				who = i.who[class]
				break
			}
		}
		out.Because, out.Who = append(out.Because, i.Name), append(out.Who, who)
		out.Origin = figure.Weakest(out.Origin, who)
	}
	if f.PH {
		out.Because, out.Who = append(out.Because, "its pH, "+acidity.Shown), append(out.Who, figure.Memory)
		out.Origin = figure.Weakest(out.Origin, figure.Memory)
	}
	verdict(m, ref, out, f)
	return out
}

// related reports two classes of one kind: the first word of both is the same.
func related(a, b string) bool {
	head := func(s string) string { w, _, _ := strings.Cut(s, " "); return w }
	return head(a) == head(b)
}

// bringing are the contents that bring a class.
func bringing(m *mix.Mixer, by []mixture.Counted, at func(*mixture.Part) *ingredient) []Bringing {
	var out []Bringing
	for _, c := range by {
		i := at(c.Part)
		b := Bringing{Name: i.Name, Content: figure.Enter(m.Book, i.content)}
		if b.Content.Shown == b.Content.Rounded { // else it is printed with its bounds already
			b.Low, b.High = m.Between(i.content)
		}
		if c.Limit > 0 {
			b.Limit = unit.Format(unit.Snap(float64(c.Limit)), unit.NewDecimal(1, decimals(float64(c.Limit)))) + " %"
		}
		out = append(out, b)
	}
	return out
}

// decimals are how many places a limit needs.
func decimals(x float64) uint8 {
	for n := range uint8(6) {
		if step := unit.NewDecimal(1, n); unit.Snap(unit.Round(x, step.Float(), unit.Nearest)) == unit.Snap(x) {
			return n
		}
	}
	return 6
}

// verdict enters why a bath has a class.
func verdict(m *mix.Mixer, ref string, f Found, of mixture.Finding) {
	answer, key := f.Class.Word, "class."
	if f.Code != "" {
		answer, key = f.Code, "statement."
	}
	v := figure.Verdict{ID: figure.ID(ref, key+slug(answer)), Answer: answer, Source: f.Table}
	for n, name := range f.Because {
		if n < len(f.By) {
			v.Because = append(v.Because, f.By[n].Content.ID)
			if f.By[n].Limit != "" {
				v.Limits = append(v.Limits, name+": from "+f.By[n].Limit)
			}
			continue
		}
		v.Because = append(v.Because, name)
	}
	if e := of.Estimate; e != nil {
		v.Limits = append(v.Limits, estimateWords(*e))
	}
	if f.Unsure {
		v.Limits = append(v.Limits, "not at the least that may be in it")
	}
	m.Book.EnterVerdict(v)
}

// estimateWords say the acute toxicity of a mixture and the limit of its category.
func estimateWords(e mixture.Estimate) string {
	words := func(of, most float64, u string) string {
		return fmt.Sprintf("estimate of acute toxicity %s %s, up to %s %s",
			unit.Format(unit.Round(of, 0.01, unit.Nearest), unit.NewDecimal(1, 2)), u,
			unit.Format(most, unit.NewDecimal(1, decimals(most))), u)
	}
	switch e.Way {
	case lab.Swallowed, lab.OnSkin:
		return words(float64(e.Dose), float64(e.UpToDose), "mg/kg")
	case lab.AsGas:
		return words(float64(e.Gas), float64(e.UpToGas), "ppm")
	}
	return words(float64(e.Air), float64(e.UpToAir), "mg/L")
}

var notSlug = regexp.MustCompile(`[^a-z0-9]+`)

// slug is a class as a word of an id.
func slug(class string) string {
	return strings.Trim(notSlug.ReplaceAllString(strings.ToLower(class), "-"), "-")
}

// elsewhere works out what other lists would make of the same bath. Its pH brings no class
// of theirs.
func (k *Known) elsewhere(m *mix.Mixer, scheme *lab.Scheme, list []ingredient) {
	k.Elsewhere = nil
	var lists []string
	harder := map[string]map[string][]string{} // by list and name of the substance
	for _, i := range list {
		if i.chemical == nil || i.chemical.Hazards == nil {
			continue
		}
		for _, e := range i.chemical.Hazards.Elsewhere {
			if harder[e.List] == nil {
				harder[e.List] = map[string][]string{}
				lists = append(lists, e.List)
			}
			harder[e.List][i.Name] = e.Classes
		}
	}
	for _, id := range lists {
		parts := partsOf(list)
		for i := range parts {
			for _, w := range harder[id][parts[i].Name] {
				if !physical(m.Lab.Vocabulary(), w) && !slices.Contains(parts[i].Classes, w) {
					parts[i].Classes = append(slices.Clone(parts[i].Classes), w)
				}
			}
		}
		for _, f := range mixture.Classify(scheme, parts, mixture.PH{}).Found {
			if slices.ContainsFunc(k.Classes, func(have Found) bool { return have.Class.Word == f.Class }) {
				continue
			}
			c, ok := m.Lab.Vocabulary().Class(f.Class)
			if !ok {
				continue
			}
			var names []string
			var who []figure.Origin
			for _, by := range f.By {
				if len(harder[id][by.Part.Name]) > 0 {
					names, who = append(names, by.Part.Name), append(who, figure.Handbook)
				}
			}
			if len(names) > 0 {
				k.Elsewhere = found(k.Elsewhere, Found{Class: c, Statement: c.Statement, Because: names,
					List: titleOf(m.Lab, id), Origin: figure.Handbook, Who: who})
			}
		}
	}
}

// remark says what a reader of the classes must know besides.
func (k *Known) remark(a mixture.Answer, acidity Acidity) {
	for _, u := range a.Untested {
		way := map[lab.AcuteWay]string{lab.Swallowed: "swallowed", lab.OnSkin: "through the skin",
			lab.AsDust: "breathed in", lab.AsVapour: "breathed in", lab.AsGas: "breathed in"}[u.Way]
		k.Remarks = append(k.Remarks, fmt.Sprintf("%s %% of it is of unknown acute toxicity, %s",
			unit.Format(unit.Round(float64(u.Share), 0.1, unit.Nearest), unit.NewDecimal(1, 1)), way))
	}
	if len(a.FactorAssumed) > 0 {
		k.Remarks = append(k.Remarks,
			"nobody has said how little of it harms water: counted with an M-factor of 1: "+series.Of(a.FactorAssumed))
	}
	for _, f := range k.Classes {
		if f.Class.OfOrgans && f.Class.Organs == "" {
			k.Remarks = append(k.Remarks,
				f.Class.Word+" harms organs, and nobody has written which: section 2 of the sheet says it ("+strings.Join(f.Because,
					", ")+")")
		}
		if strings.Contains(f.Class.Word, "(inhalation)") {
			k.Remarks = append(k.Remarks, f.Class.Word+" holds where it is sprayed or makes mist")
		}
	}
	if acidity.extreme() && !k.Has("Skin Corr.") {
		k.Remarks = append(k.Remarks,
			"no class by the limits of the law, but its pH of "+acidity.Shown+" burns eyes: what to wear goes by it")
	}
	if acidity.Known && acidity.Worked && (nearTo(float64(acidity.Value), 2) || nearTo(float64(acidity.Value), 11.5)) {
		k.Remarks = append(k.Remarks,
			"its pH of "+acidity.Shown+" is worked out and lies near the limit of what burns: measure it")
	}
}

// extreme reports a pH that burns, by the worse of its bounds.
func (a Acidity) extreme() bool {
	return a.Known && (float64(a.Low) <= rules.StrongAcid || float64(a.High) >= rules.StrongAlkali)
}

// nearPH is how near to a limit a pH that nobody has measured counts as on the other side
// of it: our own rule.
const nearPH = 0.3

func nearTo(ph, limit float64) bool { return ph >= limit-nearPH && ph <= limit+nearPH }
