package lab

import "wetside/procedures/unit"

// Scheme is how a law classifies a mixture from what is in it: the numbers of its tables.
// Every limit holds from its own value on.
type Scheme struct {
	// Name is how a card speaks of the law.
	Name string `toml:"name"`
	// Acute are the rules of acute toxicity, one for each way into the body and form.
	Acute []AcuteRule `toml:"acute"`
	// Alone are the classes that one ingredient alone brings to a mixture.
	Alone []AloneRule `toml:"alone"`
	// Sums are the classes that ingredients bring together.
	Sums []SumRule `toml:"sum"`
	// Extremes are the classes of an extreme pH.
	Extremes []ExtremeRule `toml:"extreme"`
	// Follows are the classes that come with another.
	Follows []FollowRule `toml:"follows"`
	// Hardest are lists of classes, the hardest first, of which a mixture has only the
	// first that it reaches.
	Hardest []Ladder `toml:"hardest"`
	// Gas is when a mixture carries the statement of a gas that acid sets free.
	Gas []GasRule `toml:"gas"`
	// OnRequest are the contents from which a mixture without a class has a sheet for
	// whoever asks, with the code of the statement that says so.
	OnRequest []OnRequestRule `toml:"on_request"`
	// Untested is the share of ingredients without any test above which the estimate of
	// a mixture is that of the rest alone.
	Untested Said[unit.WW] `toml:"untested"`
	// Called names what it gives, where the vocabulary of classes has no word for that.
	Called []Called `toml:"called"`
	// Unasked are codes of which it asks nothing.
	Unasked []string `toml:"unasked"`
}

// Called is a word that a scheme gives and what it is called.
type Called struct {
	Code string `toml:"code"`
	Name string `toml:"name"`
	// Hints are classes of an ingredient, and Statements supplemental statements of the whole,
	// that hint at what no content decides.
	Hints      []string `toml:"hints"`
	Statements []string `toml:"statements"`
}

// CalledBy is what a scheme calls something; false where it has no word for it.
func (s *Scheme) CalledBy(code string) (Called, bool) {
	for _, c := range s.Called {
		if c.Code == code {
			return c, true
		}
	}
	return Called{}, false
}

// Scheme is how mixtures are classified here: by the lab's own scheme, else by that of the
// program; nil where there is none.
func (l *Lab) Scheme() *Scheme {
	var out *Scheme
	for _, book := range l.Rules {
		if book.Scheme != nil {
			out = book.Scheme
		}
	}
	return out
}

// Properties is which properties make waste hazardous here: by the lab's own list, else by that of
// the program; nil where there is none.
func (l *Lab) Properties() *Scheme {
	var out *Scheme
	for _, book := range l.Rules {
		if book.Properties != nil {
			out = book.Properties
		}
	}
	return out
}

// AcuteRule is one way into the body, in one form.
type AcuteRule struct {
	Way AcuteWay `toml:"way"`
	// Steps are its categories, the hardest first.
	Steps []AcuteStep `toml:"step"`
	Table string      `toml:"table"`
}

// AcuteStep is one category. Class is empty where the law has none for it, and its
// ingredients still count.
type AcuteStep struct {
	Class string `toml:"class"`
	// UpTo is the highest estimate of the category, and Taken the estimate of an
	// ingredient of which nothing but the category is known.
	UpTo  Estimate `toml:"up_to"`
	Taken Estimate `toml:"taken"`
	// Counts is the content from which an ingredient of it counts.
	Counts Said[unit.WW] `toml:"counts"`
}

// Estimate is an estimate of acute toxicity: a dose, a content of air, or a share of it.
type Estimate struct {
	Dose Said[unit.Dose]
	Air  Said[unit.InAir]
	Gas  Said[unit.Gas]
}

// UnmarshalText reads "300 mg/kg", "1.0 mg/L" or "2500 ppm".
func (e *Estimate) UnmarshalText(b []byte) error {
	var got Estimate
	err := got.Dose.UnmarshalText(b)
	if err == nil {
		*e = got
		return nil
	}
	got = Estimate{}
	if got.Air.UnmarshalText(b) == nil {
		*e = got
		return nil
	}
	got = Estimate{}
	if got.Gas.UnmarshalText(b) == nil {
		*e = got
		return nil
	}
	return err
}

// Given reports whether it was written.
func (e Estimate) Given() bool { return e.Dose.Given() || e.Air.Given() || e.Gas.Given() }

// AloneRule is a class that one ingredient alone brings to a mixture.
type AloneRule struct {
	Of []string `toml:"of"`
	// From is the content from which it does, unless the ingredient has a limit of its own.
	From Said[unit.WW] `toml:"from"`
	// Gives is the class; empty: the ingredient's own.
	Gives string `toml:"gives"`
	// Named is the content from which the statement Code names the ingredient on a
	// mixture that has not got the class from it; where the ingredient has a limit of its
	// own, a tenth of that.
	Named Said[unit.WW] `toml:"named"`
	Code  string        `toml:"code"`
	// Unadded: it is the rule for ingredients that do not add up.
	Unadded bool   `toml:"unadded"`
	Table   string `toml:"table"`
}

// SumRule is a class that ingredients bring to a mixture together.
type SumRule struct {
	Gives string `toml:"gives"`
	Adds  []Adds `toml:"adds"`
	// Counts is the content from which an ingredient counts.
	Counts Said[unit.WW] `toml:"counts"`
	// Stands are classes whose limits of an ingredient stand in where it has none of its
	// own for the class.
	Stands []string `toml:"stands"`
	// Added: ingredients that do not add up are left out; a rule for them stands among
	// those of single ingredients.
	Added bool   `toml:"added"`
	Table string `toml:"table"`
}

// Adds are classes, and the content of them that would be enough by itself.
type Adds struct {
	Of   []string      `toml:"of"`
	From Said[unit.WW] `toml:"from"`
	// Counts goes before the rule's own.
	Counts Said[unit.WW] `toml:"counts"`
	// By is the M-factor that multiplies the content, and divides what counts.
	By Factored `toml:"by"`
}

// ExtremeRule is the class of a mixture whose pH is extreme.
type ExtremeRule struct {
	AtMost  Said[unit.Factor] `toml:"at_most"`
	AtLeast Said[unit.Factor] `toml:"at_least"`
	Gives   string            `toml:"gives"`
	// Burners are the classes of an ingredient that may be to blame for it.
	Burners []string `toml:"burners"`
	// Own are the classes of which a limit of its own lets a lone acid or alkali be
	// judged by that limit.
	Own   []string `toml:"own"`
	Table string   `toml:"table"`
}

// FollowRule is a class that comes with any of some others.
type FollowRule struct {
	Of    []string `toml:"of"`
	Gives string   `toml:"gives"`
	Table string   `toml:"table"`
}

// Ladder is a list of classes, the hardest first.
type Ladder struct {
	Classes []string `toml:"classes"`
	// Organs: the classes name organs, and a harder one leaves a milder one of other organs
	// standing.
	Organs bool `toml:"organs"`
}

// GasRule is the statement of a gas that acid sets free.
type GasRule struct {
	Code string `toml:"code"`
	// Each is how much of the gas a kilogram of a mixture must be able to give off.
	Each Said[unit.VolumePerMass] `toml:"each"`
	// Else is the content from which it is carried where nobody can tell how much gas an
	// ingredient gives off.
	Else  Said[unit.WW] `toml:"else"`
	Table string        `toml:"table"`
}

// OnRequestRule is a content from which there is a sheet for whoever asks.
type OnRequestRule struct {
	Code string        `toml:"code"`
	Of   []string      `toml:"of"`
	From Said[unit.WW] `toml:"from"`
	// Tenth: a tenth of an ingredient's own limit goes before it.
	Tenth bool   `toml:"tenth"`
	Table string `toml:"table"`
}
