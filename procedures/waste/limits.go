package waste

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// timesAllowed is J14.
var timesAllowed = figure.Register(&figure.F2[unit.Factor, unit.Concentration, unit.Concentration]{
	Formula: figure.Formula{ID: "permit.times", Name: "times what the permit allows", Result: "n", Unit: "x",
		Terms: []figure.Term{{Symbol: "c", Meaning: "content of what is poured", Unit: "g/L"},
			{Symbol: "c_p", Meaning: "most that the permit allows", Unit: "g/L"}},
		Text: "c / c_p", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(c, most unit.Concentration) unit.Factor { return unit.Factor(c / most) },
})

// fromAllowed is J15.
var fromAllowed = figure.Register(&figure.F2[unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "permit.off", Name: "how far the pH lies from the limit", Result: "d", Unit: "",
		Terms: []figure.Term{{Symbol: "pH", Meaning: "pH of what is poured"},
			{Symbol: "b", Meaning: "the limit that is nearer, or that is passed"}},
		Text: "max(pH - b, b - pH)", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(ph, b unit.Factor) unit.Factor { return max(ph-b, b-ph) },
})

// Meets says whether a limit of a permit is met.
type Meets string

// The answers.
const (
	Met    Meets = "met"
	NotMet Meets = "not met"
	// Untold: what is known lies on both sides of the limit, or nobody knows anything.
	Untold Meets = "cannot be told"
)

// Limit is one limit of a permit.
type Limit struct {
	lab.PermitLimit
	// Use is what the permit is for, and Ref its reference.
	Use lab.Pouring
	Ref string
	// Least and Most are the bounds; nil where the permit has none. A content has the most alone.
	Least, Most *figure.Record
	// Chemical is the substance that it speaks of, or nil.
	Chemical *lab.Chemical
}

// Name is what the limit speaks of, in words.
func (x Limit) Name() string {
	switch {
	case x.Chemical != nil:
		return x.Chemical.Name
	case x.Of == lab.LimitPH:
		return "pH"
	case x.Of == "cod", x.Of == "bod":
		return map[string]string{"cod": "chemical oxygen demand", "bod": "biochemical oxygen demand"}[x.Of]
	}
	return x.Of
}

// LimitsOf lists the limits of a permit that is recorded.
func LimitsOf(m *mix.Mixer, use lab.Pouring) []Limit {
	permit := PermitOf(m.Lab, string(use))
	if permit.Ref == "" {
		return nil
	}
	var out []Limit
	for _, p := range m.Lab.Local.Permit.Limits {
		if p.For != "" && p.For != use {
			continue
		}
		x := Limit{PermitLimit: p, Use: use, Ref: permit.Ref, Chemical: m.Lab.Chemical(p.Of)}
		bound := func(key string, b lab.PermitBound) *figure.Record {
			id := figure.ID("permit."+string(use), key+"."+p.Of)
			switch {
			case p.Of == lab.LimitPH && b.PH.Given():
				return figure.Declare(m.Book, id, figure.KindRatio, b.PH.Figure(key+" pH that the permit allows"),
					unit.Short(float64(b.PH.Value())), "")
			case b.Content.Given():
				c := b.Content.Figure("most " + x.Name() + " that the permit allows")
				word, times := contentUnit(float64(c.Value))
				return figure.Declare(m.Book, id, figure.KindAmount, c, unit.Short(float64(c.Value)*times), word)
			}
			return nil
		}
		x.Least, x.Most = bound("least", p.Least), bound("most", p.Most)
		out = append(out, x)
	}
	return out
}

// contentUnit is the unit in which a content is read best, and how many of it make a gram a litre.
func contentUnit(c float64) (word string, times float64) {
	if c < 1 {
		return "mg/L", 1000
	}
	return "g/L", 1
}

// Allowed is what one limit of a permit says of one thing that is poured.
type Allowed struct {
	Limit
	Meets
	// ID names the answer, and Who what is poured.
	ID, Who string
	// State is the state in which it is poured, in words.
	State string
	// Is is its pH or its content; nil where nobody can tell, or where there is none in it.
	Is *figure.Record
	// Within is how far a pH may be off; nil where that stands nowhere.
	Within *figure.Record
	// Off is how far a pH lies from the limit, and Times how many times what is allowed a content
	// is, where it is too much; else both are nil.
	Off, Times *figure.Record
	// Why says what nobody knows, or why it holds none.
	Why string
}

// Unknown is the answer of a limit where nobody knows what is poured; id names it.
func (x Limit) Unknown(id, state, why string) Allowed {
	return Allowed{Limit: x, ID: id, Meets: Untold, State: state, Why: why}
}

// None is the answer where there is none of it in what is poured; id names it.
func (x Limit) None(id, state, why string) Allowed {
	return Allowed{Limit: x, ID: id, Meets: Met, State: state, Why: why}
}

// straddles says why a limit between two bounds is not told.
const straddles = "what is known of it lies on both sides of the limit"

// Content holds a content against the limit; id names the answer.
func (x Limit) Content(m *mix.Mixer, id, state string, c figure.Figure[unit.Concentration]) Allowed {
	out := Allowed{Limit: x, ID: id, State: state, Meets: Untold, Why: straddles}
	most := figure.Entered[unit.Concentration](x.Most)
	if low, high := unit.Snap(float64(c.Low)), unit.Snap(float64(c.High)); high <= float64(most.Value) {
		out.Meets, out.Why = Met, ""
	} else if low > float64(most.Value) {
		out.Meets, out.Why = NotMet, ""
	}
	out.Is = EnterContent(m, id, x.Name(), c)
	if out.Meets == NotMet {
		n := timesAllowed.Of(figure.Beside(id, "times"), c, most)
		out.Times = figure.Enter(m.Book, n.ShowSpanAs(figure.KindRatio, twoFigures(float64(n.High)), unit.Up,
			1).In("times"))
	}
	return out
}

// EnterContent enters what is in a litre of what is poured, with its bounds, in the unit in which it is
// read best; id names it, and name what it is a content of.
func EnterContent(m *mix.Mixer, id, name string, c figure.Figure[unit.Concentration]) *figure.Record {
	word, times := contentUnit(float64(c.High))
	step := twoFigures(float64(c.High) * times)
	return m.Book.Enter(c.As(id).Named(name+" in what is poured").
		ShowSpanAs(figure.KindAmount, step, unit.Up, times).Counted(word, times).Record())
}

// twoFigures is the step that leaves two figures of a number, or thousandths where it is small.
func twoFigures(x float64) unit.Decimal {
	step := unit.NewDecimal(1, 3)
	for places := 3; places >= 0; places-- {
		if d := unit.NewDecimal(1, uint8(places)); x/d.Float() >= 10 {
			step = d
		}
	}
	for d := int64(10); x/float64(d) >= 10; d *= 10 {
		step = unit.NewDecimal(d, 0)
	}
	return step
}

// Acidity holds a pH against the limits; id names the answer.
func (x Limit) Acidity(m *mix.Mixer, id, state string, ph figure.Figure[unit.Factor], is, within *figure.Record) Allowed {
	out := Allowed{Limit: x, ID: id, State: state, Is: is, Within: within, Meets: Met}
	low, high := unit.Snap(float64(ph.Low)), unit.Snap(float64(ph.High))
	near := x.Most
	if x.Most == nil || x.Least != nil && float64(ph.Value)-x.Least.Value < x.Most.Value-float64(ph.Value) {
		near = x.Least
	}
	switch {
	case x.Least != nil && high < x.Least.Value, x.Most != nil && low > x.Most.Value:
		out.Meets = NotMet
	case x.Least != nil && low < x.Least.Value, x.Most != nil && high > x.Most.Value:
		out.Meets, out.Why = Untold, straddles
	}
	off := fromAllowed.Of(figure.Beside(id, "off"), ph.Best(), figure.Entered[unit.Factor](near))
	out.Off = figure.Enter(m.Book, off.Show(figure.KindRatio, "0.1", unit.Down, ""))
	return out
}

// TooAcid reports a pH that lies below the limit.
func (a Allowed) TooAcid() bool { return a.Least != nil && a.Is != nil && a.Is.Value < a.Least.Value }

// Says is the answer in a line.
func (a Allowed) Says() string {
	out := a.Name()
	with := func(r *figure.Record) string {
		if r.Unit == "" {
			return r.Shown
		}
		return r.Shown + " " + r.Unit
	}
	if a.Is != nil {
		out += " " + with(a.Is)
		if a.Within != nil {
			out += " ± " + a.Within.Shown
		}
	}
	if a.State != "" {
		out += ", " + a.State
	}
	switch {
	case a.Least != nil && a.Most != nil:
		out += ", allowed " + a.Least.Shown + " to " + with(a.Most)
	case a.Least != nil:
		out += ", at least " + a.Least.Shown + " allowed"
	default:
		out += ", at most " + with(a.Most) + " allowed"
	}
	out += ": " + string(a.Meets)
	if a.Why != "" {
		out += ": " + a.Why
	}
	if a.Times != nil {
		out += ": " + a.Times.Shown + " times what is allowed"
	}
	return out
}

// Verdict is the answer as the book keeps it; file is where the limits stand.
func (a Allowed) Verdict(file string) figure.Verdict {
	return figure.Verdict{ID: a.ID, Answer: string(a.Meets), Limits: []string{a.Who + ": " + a.Says()},
		Because: []string{"the permit " + a.Ref + " sets it"}, Source: file}
}

// All is the answer of all limits: one that is not met forbids it, and so does one that
// cannot be told.
func All(all []Allowed) Meets {
	out := Met
	for _, a := range all {
		switch {
		case a.Meets == NotMet:
			return NotMet
		case a.Meets == Untold:
			out = Untold
		}
	}
	return out
}

// limits finds what cannot be so in the limits of permits, and in what was found in spent baths.
func limits(l *lab.Lab) []lab.Problem {
	var out []lab.Problem
	known := append([]string{lab.LimitPH, lab.LimitSilver}, lab.PermitWords...)
	for _, c := range l.Chemicals {
		known = append(known, c.ID)
	}
	for _, b := range l.Baths() {
		if b.Decl() == nil {
			continue
		}
		for _, of := range slices.Sorted(maps.Keys(b.Written().Found)) {
			if at := b.Written().Found[of].Where(); !slices.Contains(known[1:], of) {
				out = append(out, lab.Problem{At: at, OnKey: true, Code: "word",
					What: fmt.Sprintf("%q is no content that a limit can speak of", of), Hint: lab.Near(of, known[1:],
						`write "silver", the id of a chemical, or one of `+strings.Join(lab.PermitWords, ", "))})
			}
		}
	}
	uses := []string{string(lab.Drain), string(lab.Wash)}
	seen := map[string]bool{}
	for i, p := range l.Local.Permit.Limits {
		at := l.Local.At(fmt.Sprintf("permit.limits[%d]", i))
		bad := func(key string, onKey bool, code, what, hint string) {
			out = append(out, lab.Problem{At: at.At(key), OnKey: onKey, Code: code, What: what, Hint: hint})
		}
		if p.For != "" && !slices.Contains(uses, string(p.For)) {
			bad("for", false, "word", fmt.Sprintf("%q is not a permit that has limits", string(p.For)),
				lab.Near(string(p.For), uses, `write "drain" or "wash", or leave it out where it holds for both`))
			continue
		}
		var of []lab.Pouring
		for _, use := range lab.Pourings {
			if (p.For == "" || p.For == use) && PermitOf(l, string(use)).Ref != "" {
				of = append(of, use)
			}
		}
		if len(of) == 0 {
			word := "drain or wash"
			if p.For != "" {
				word = string(p.For)
			}
			bad("", true, "permit", "a limit without the permit that sets it: no "+word+" is recorded under [permit]",
				"write the reference of the permit beside the limits, or take them out: nothing goes down a drain without it")
		}
		switch {
		case p.Of == "":
			bad("", true, "missing", "a limit that does not say of what", `write of = "ph", of = "silver" or the id of a chemical`)
			continue
		case !slices.Contains(known, p.Of):
			bad("of", false, "word", fmt.Sprintf("%q is nothing that a limit can speak of", p.Of), lab.Near(p.Of, known,
				`write "ph", "silver", the id of a chemical, or one of `+strings.Join(lab.PermitWords, ", ")))
			continue
		}
		for _, use := range of {
			if key := string(use) + "." + p.Of; seen[key] {
				bad("of", false, "repeated", fmt.Sprintf("two limits of %s for the permit %s", p.Of, string(use)),
					"keep the stricter of the two, or say with for which permit each belongs to")
			} else {
				seen[key] = true
			}
		}
		if p.Of == lab.LimitPH {
			out = append(out, limitsOfPH(p, at)...)
			continue
		}
		switch {
		case p.Least.Given():
			bad("least", true, "shape", "a content has only a most", "take least out: it is for the pH alone")
		case !p.Most.Given():
			bad("", true, "missing", "a limit that does not say how much is allowed", `write most = "1 mg/L"`)
		case !p.Most.Content.Given():
			bad("most", false, "quantity", fmt.Sprintf("%q is no content", p.Most.Text()), `write its unit, for example most = "1 mg/L"`)
		case p.Most.Content.Spread():
			bad("most", false, "range", fmt.Sprintf("%q: a limit is one number", p.Most.Text()), "write the most that is allowed")
		case !p.Most.Content.Positive():
			bad("most", false, "range", fmt.Sprintf("%q: a limit must be more than zero", p.Most.Text()),
				"where none of it is allowed, write the least that can be measured")
		}
	}
	return out
}

// limitsOfPH finds what cannot be so in the limits of a pH.
func limitsOfPH(p lab.PermitLimit, at figure.Where) []lab.Problem {
	var out []lab.Problem
	bad := func(key string, onKey bool, code, what, hint string) {
		out = append(out, lab.Problem{At: at.At(key), OnKey: onKey, Code: code, What: what, Hint: hint})
	}
	if !p.Least.Given() && !p.Most.Given() {
		bad("", true, "missing", "a limit of the pH without its bounds", `write least = "6.5" and most = "9.5", as the permit says`)
	}
	whole := true
	for _, b := range []struct {
		key   string
		bound lab.PermitBound
	}{{"least", p.Least}, {"most", p.Most}} {
		switch q := b.bound.PH; {
		case !b.bound.Given():
		case !q.Given():
			bad(b.key, false, "quantity", fmt.Sprintf("%q is no pH", b.bound.Text()), `write a number without a unit, for example "6.5"`)
			whole = false
		case q.Spread():
			bad(b.key, false, "range", fmt.Sprintf("%q: a limit is one number", b.bound.Text()), `write least = "6.5" and most = "9.5"`)
			whole = false
		case q.Value() < 0 || q.Value() > 14:
			bad(b.key, false, "range", fmt.Sprintf("%q: a pH lies between 0 and 14", b.bound.Text()), "write what the permit says")
			whole = false
		}
	}
	if whole && p.Least.Given() && p.Most.Given() && p.Least.PH.Value() > p.Most.PH.Value() {
		bad("least", false, "range", fmt.Sprintf("the least pH, %s, is more than the most, %s", p.Least.Text(), p.Most.Text()),
			"change the two about: the smaller number is the least")
	}
	return out
}
