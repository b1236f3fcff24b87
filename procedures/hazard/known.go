// Package hazard says what is known of the dangers of a bath, who says so, and what to wear
// for each job. What nobody has looked up is never taken as harmless.
package hazard

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/series"
)

// Clear lists what is not classified: what somebody looked up, with the word of a
// weak origin beside each, and what is so from memory alone.
func (k Known) Clear() (looked, remembered string) {
	var seen, memory []string
	for _, p := range k.Parts {
		switch {
		case !p.Clear:
		case p.Origin == figure.Memory:
			memory = append(memory, p.Name)
		default:
			seen = append(seen, withOrigin(p.Name, p.Origin))
		}
	}
	return series.Of(seen), series.Of(memory)
}

// Signal is the signal word, the stronger one.
func (k Known) Signal() string {
	word := ""
	for _, f := range k.Classes {
		switch f.Class.Signal {
		case "Danger":
			return "Danger"
		case "Warning":
			word = "Warning"
		}
	}
	return word
}

// Pictograms lists the pictograms, without those that fall away beside another (Article 26).
func (k Known) Pictograms() []string { return k.vocabulary().Pictograms(k.labelled()) }

// vocabulary is how dangers are named where it was made.
func (k Known) vocabulary() *lab.Vocabulary {
	if k.rules == nil {
		return (&lab.Lab{}).Vocabulary()
	}
	return k.rules.Lab.Vocabulary()
}

// Said lists what a label says: the statements of the classes and then the supplemental
// ones, each once, without those that a harder one on the same label makes superfluous
// (Article 27), and without the one for what is sold. The classes themselves stay whole.
func (k Known) Said() []Found {
	covered := map[string]bool{}
	for _, f := range k.Classes {
		for _, code := range k.vocabulary().Covered(f.Class.Code) {
			covered[code] = true
		}
	}
	seen := map[string]bool{}
	var out []Found
	for _, list := range [][]Found{k.Classes, k.Extra} {
		for _, f := range list {
			if !seen[f.Statement] && !covered[f.Class.Code] && f.Code != onRequest {
				seen[f.Statement] = true
				out = append(out, f)
			}
		}
	}
	return out
}

// Besides are the classes that the rules find in what is in it, and that its supplier neither gives
// nor covers with a harder one.
func (k Known) Besides() []Found {
	var out []Found
	for _, f := range k.More {
		if !slices.ContainsFunc(k.Classes, func(c Found) bool {
			return c.Class.Word == f.Class.Word || slices.Contains(k.vocabulary().Covered(c.Class.Code), f.Class.Code)
		}) {
			out = append(out, f)
		}
	}
	return out
}

// Advice is what a label tells to do, by the classes that stand on it.
// What burns by its pH alone is treated like what harms eyes for good.
func (k Known) Advice() []lab.Advice {
	classes := k.labelled()
	if c, ok := k.vocabulary().Class("Eye Dam. 1"); ok && k.BurnsBy() != "" {
		classes = append(classes, c)
	}
	return k.vocabulary().Advice(classes)
}

// labelled are the classes that stand on a label.
func (k Known) labelled() []lab.Class {
	out := make([]lab.Class, len(k.Classes))
	for i, f := range k.Classes {
		out[i] = f.Class
	}
	return out
}

// Statements are the words of what a label says.
func (k Known) Statements() []string {
	var out []string
	for _, f := range k.Said() {
		out = append(out, f.Statement)
	}
	return out
}

// Contains are the contents that bring a class of health or water to it, each once: what a
// poison centre asks for.
func (k Known) Contains() []Bringing {
	var out []Bringing
	for _, f := range k.Classes {
		for _, b := range f.By {
			if !slices.ContainsFunc(out, func(o Bringing) bool { return o.Name == b.Name }) {
				out = append(out, b)
			}
		}
	}
	return out
}

// Caustic reports what is so alkaline that an eye is rinsed longer: by its pH, and where
// nobody knows that, by an alkali in it.
func (k Known) Caustic() bool {
	if k.Acidity.Known {
		return float64(k.Acidity.High) >= splashAlkali
	}
	return len(k.Alkalis()) > 0
}

// Has reports whether any class word begins with one of the prefixes, whoever says so.
func (k Known) Has(prefixes ...string) bool {
	for _, list := range [][]Found{k.Classes, k.More} {
		for _, f := range list {
			for _, p := range prefixes {
				if strings.HasPrefix(f.Class.Word, p) {
					return true
				}
			}
		}
	}
	return false
}

// HasExtra reports a supplemental statement.
func (k Known) HasExtra(code string) bool {
	for _, f := range k.Extra {
		if f.Code == code {
			return true
		}
	}
	return false
}

// vague ranks what is known of several things together: as the least of them.
var vague = map[Status]int{None: 0, Computed: 1, Overridden: 2, Supplied: 3, Carried: 4, Unknown: 5}

// merge takes over what gear goes by.
func (k *Known) merge(o Known) {
	for _, f := range o.More {
		k.More = found(k.More, f)
	}
	for _, f := range o.Physical {
		k.Physical = found(k.Physical, f)
	}
	for _, j := range o.Overrides {
		if !slices.Contains(k.Overrides, j) {
			k.Overrides = append(k.Overrides, j)
		}
	}
	for _, name := range o.Unlooked {
		if !slices.Contains(k.Unlooked, name) {
			k.Unlooked = append(k.Unlooked, name)
		}
	}
	for _, r := range o.Remarks {
		if !slices.Contains(k.Remarks, r) {
			k.Remarks = append(k.Remarks, r)
		}
	}
	k.SO2.Known = k.SO2.Known && o.SO2.Known
	k.SO2.Most = max(k.SO2.Most, o.SO2.Most)
	if o.Acidity.Known && (!k.Acidity.Known || o.Acidity.reach() > k.Acidity.reach()) {
		k.Acidity = o.Acidity
	}
}

// reach is how far a pH lies from neutral, the worse of its bounds.
func (a Acidity) reach() float64 { return max(float64(a.High)-7, 7-float64(a.Low)) }

// Merge is what is known of several baths used in one evening.
func Merge(all ...Known) Known {
	out := Known{Status: None, SO2: SO2{Known: true}}
	missing := map[string]bool{}
	for i, k := range all {
		if i == 0 || vague[k.Status] > vague[out.Status] {
			out.Status = k.Status
		}
		out.merge(k)
		if k.rules != nil {
			out.rules, out.Kinds = k.rules, k.rules.Together(out.Kinds, k.Kinds)
		}
		for _, f := range k.Classes {
			out.Classes = found(out.Classes, f)
		}
		for _, f := range k.Extra {
			out.Extra = found(out.Extra, f)
		}
		for _, f := range k.Elsewhere {
			out.Elsewhere = found(out.Elsewhere, f)
		}
		for _, p := range k.Parts {
			out.Parts = parts(out.Parts, p)
		}
		for _, a := range k.Asked {
			if !slices.ContainsFunc(out.Asked, func(o Asked) bool { return o.Job == a.Job && o.Text == a.Text }) {
				out.Asked = append(out.Asked, a)
			}
		}
		for _, name := range k.Unsaid {
			if !slices.Contains(out.Unsaid, name) {
				out.Unsaid = append(out.Unsaid, name)
			}
		}
		for _, m := range k.Missing {
			if !missing[m] {
				missing[m] = true
				out.Missing = append(out.Missing, m)
			}
		}
	}
	out.finish()
	return out
}
