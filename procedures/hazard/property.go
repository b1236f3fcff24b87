package hazard

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/mixture"
)

// OfTogether is what is known of several baths that are poured together, as fresh as they were made:
// it is worked out from what is in them like a bath. The status is Unknown where nobody knows all of
// them, or how acid they are together where one of them burns by that.
func OfTogether(m *mix.Mixer, made *mix.Made, acidity Acidity, of ...Known) Known {
	k := Known{Acidity: acidity, SO2: so2(made), rules: m.Rules}
	for _, o := range of {
		k.Kinds = m.Rules.Together(k.Kinds, o.Kinds)
	}
	if !k.strength(m, made, acidity) {
		k.finish()
		k.Status = Unknown // what could be worked out of it stands all the same
		return k
	}
	if !acidity.Known && slices.ContainsFunc(of, Known.mayBurn) {
		k.Status = Unknown
	}
	k.finish()
	return k
}

// mayBurn reports a bath so acid or alkaline that it burns, or of which nobody can tell whether it
// is: where it holds an acid or an alkali.
func (k Known) mayBurn() bool {
	if k.Acidity.Known {
		return k.Acidity.extreme()
	}
	return k.Kinds.Any("acid", "acid-strong", "alkali", "alkali-strong")
}

// Property is one property that makes waste hazardous.
type Property struct {
	lab.Called
	By    []Bringing
	Table string
	// Unsure: at the least content of everything it would not hold.
	Unsure bool
	// PH: it comes from how acid or alkaline it is.
	PH bool
}

// Hint is a property that no content decides, and what hints at it.
type Hint struct {
	lab.Called
	Because []string
	// Likely: a statement of the whole says so, and only a test would clear it.
	Likely bool
}

// Properties are what makes waste hazardous.
type Properties struct {
	// Law is the list by which it was asked.
	Law string
	// Has are those that it has, in the order of the list, and Hints those that a test decides.
	Has   []Property
	Hints []Hint
	// Open names the parts of which nobody has said what they are: with them it may have more.
	Open []string
	// Whole: everything in it is known.
	Whole bool
	// Unasked are the properties of which the list asks nothing.
	Unasked []string
	// Acid: nobody can tell how acid or alkaline it is, and one of its baths may burn by that.
	Acid bool
}

// PropertiesOf works out which properties make waste hazardous, from what is in it; false where the
// lab has no list of them, or nothing is known of the waste. k is what is known of it, and of are its
// baths.
func PropertiesOf(m *mix.Mixer, made *mix.Made, k Known, of ...Known) (Properties, bool) {
	list := m.Lab.Properties()
	if list == nil {
		return Properties{}, false
	}
	gather := Known{rules: m.Rules}
	parts, whole := gather.ingredients(m, made)
	if len(parts) == 0 && !whole {
		return Properties{}, false
	}
	out := Properties{Law: list.Name, Unasked: list.Unasked, Whole: whole,
		Acid: !k.Acidity.Known && slices.ContainsFunc(of, Known.mayBurn)}
	plain := partsOf(parts)
	for i, p := range plain {
		plain[i] = p.Plain()
	}
	answer := mixture.Classify(list, plain, k.Acidity.PH)
	for _, p := range answer.Unknown {
		out.Open = append(out.Open, p.Name)
	}
	at := func(p *mixture.Part) *ingredient {
		return &parts[slices.IndexFunc(parts, func(i ingredient) bool { return i.Name == p.Name })]
	}
	for _, called := range list.Called {
		has := Property{Called: called, Unsure: true}
		found := false
		for _, f := range answer.Found {
			code, _, _ := strings.Cut(f.Class, " (")
			if code != called.Code {
				continue
			}
			found = true
			has.Table, has.PH = f.Table, has.PH || f.PH
			has.Unsure = has.Unsure && !f.Sure
			for _, b := range bringing(m, f.By, at) {
				i := &parts[slices.IndexFunc(parts, func(i ingredient) bool { return i.Name == b.Name })]
				b.Name = withOrigin(b.Name, i.vouched(asked(list, called.Code)))
				if !slices.ContainsFunc(has.By, func(o Bringing) bool { return o.Name == b.Name }) {
					has.By = append(has.By, b)
				}
			}
		}
		if found {
			out.Has = append(out.Has, has)
			m.Book.EnterVerdict(has.verdict(made.Bath.Ref(), list.Name, k.Acidity))
		} else if because, likely := hinting(called, parts, k); len(because) > 0 {
			out.Hints = append(out.Hints, Hint{called, because, likely})
		}
	}
	return out, true
}

// asked are the classes by which a list gives a code.
func asked(list *lab.Scheme, code string) []string {
	var out []string
	for _, r := range list.Alone {
		if r.Gives == code {
			out = append(out, r.Of...)
		}
	}
	for _, r := range list.Sums {
		for _, a := range r.Adds {
			if r.Gives == code {
				out = append(out, a.Of...)
			}
		}
	}
	return out
}

// vouched is who says that something has one of some classes: of several, the weakest.
func (i *ingredient) vouched(classes []string) figure.Origin {
	by := figure.Standard
	for _, c := range i.Classes {
		if slices.ContainsFunc(classes, func(of string) bool { return c == of || strings.HasPrefix(c, of+" (") }) {
			by = figure.Weakest(by, i.who[c])
		}
	}
	return by
}

// hintFrom is the content from which a substance hints at a property that no content decides, in
// % w/w: our own rule.
const hintFrom = 0.1

// hinting names what hints at a property that no content decides; likely is true where a statement of
// the whole says so.
func hinting(of lab.Called, parts []ingredient, k Known) (out []string, likely bool) {
	add := func(names ...string) {
		for _, n := range names {
			if !slices.Contains(out, n) {
				out = append(out, n)
			}
		}
	}
	for _, p := range parts {
		if float64(p.High) >= hintFrom && slices.ContainsFunc(p.physics, func(s said) bool {
			return slices.Contains(of.Hints, s.word)
		}) {
			add(p.Name)
		}
		if float64(p.High) >= hintFrom && slices.ContainsFunc(p.Extra, func(code string) bool {
			return slices.Contains(of.Statements, code)
		}) {
			add(p.Name)
		}
	}
	for _, f := range k.Extra {
		if slices.Contains(of.Statements, f.Code) {
			add(f.Because...)
			likely = true
		}
	}
	return out, likely
}

// verdict is the answer with what led to it.
func (p Property) verdict(ref, law string, acidity Acidity) figure.Verdict {
	v := figure.Verdict{ID: figure.ID(ref, "property."+slug(p.Code)), Answer: p.Code + ": " + p.Name,
		Source: law + ", " + p.Table}
	for _, b := range p.By {
		v.Because = append(v.Because, b.Content.ID)
		if b.Limit != "" {
			v.Limits = append(v.Limits, b.Name+": from "+b.Limit)
		}
	}
	if p.PH {
		v.Because = append(v.Because, "its pH, "+acidity.Shown)
	}
	if p.Unsure {
		v.Limits = append(v.Limits, "not at the least that may be in it")
	}
	return v
}
