package hazard

import (
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Status says how far the dangers of something are known.
type Status uint8

// The states.
const (
	// Unknown: nobody has looked up at least one ingredient.
	Unknown Status = iota
	// Carried: every hazard of the ingredients, strength not yet considered.
	Carried
	// None: every ingredient was looked at, and none is classified.
	None
)

// Known is what is known of the dangers of a bath or a substance.
type Known struct {
	Status  Status
	Classes []Found
	Extra   []Found
	// Missing names what nobody has looked up.
	Missing []string
	// Parts are the substances themselves, for rules that go by substance.
	Parts []Part
}

// Part is one substance of a bath.
type Part struct {
	Name, Group string
	// Clear: somebody looked, and it is not classified; Origin is who says so.
	Clear  bool
	Origin figure.Origin
}

// Found is one class or supplemental statement and whom it comes from.
type Found struct {
	Class     Class
	Code      string // of a supplemental statement
	Statement string
	Because   []string // names of the substances
	Origin    figure.Origin
	// Who vouches for each name of Because.
	Who []figure.Origin
}

// Names lists the substances, with the word of a weak origin beside each.
func (f Found) Names() string {
	names := make([]string, len(f.Because))
	for i, n := range f.Because {
		names[i] = withOrigin(n, f.Who[i])
	}
	return strings.Join(names, ", ")
}

func withOrigin(words string, by figure.Origin) string {
	if by.Weak() {
		return words + " (" + by.String() + ")"
	}
	return words
}

// Plain says in words what the class means, with the class behind it.
func (f Found) Plain() string {
	var parts []string
	for _, s := range strings.Split(strings.TrimSuffix(f.Class.Statement, "."), ". ") {
		parts = append(parts, strings.ToLower(s[:1])+s[1:])
	}
	return strings.Join(parts, ", ") + " (" + f.Class.Word + ")"
}

// OfBath gathers the hazards of everything in a bath.
func OfBath(l *lab.Lab, made *mix.Made) Known {
	var k Known
	k.Status = None
	for _, c := range made.Contents {
		if c.Product != nil && c.Product.Hazards != nil && c.Product.Hazards.Classes != nil {
			continue // the supplier has classified the whole
		}
		k.add(l, c.Chemical.Def, c.Chemical.Name, c.Chemical.Group, c.Chemical.Hazards)
	}
	for _, p := range made.Unknown {
		if p.Product != nil {
			k.add(l, p.Product.Def, p.Product.Name, "", p.Product.Hazards)
		}
	}
	k.extreme(l, made.Bath)
	k.finish()
	return k
}

// extreme adds the class of an extreme pH: a mixture of pH 2 or less, or 11.5 or
// more, counts as corrosive to the skin (CLP, Annex I, 3.2.3.1.2, from memory)
// unless somebody has data that say otherwise. It only ever adds.
func (k *Known) extreme(l *lab.Lab, b lab.Bath) {
	q, key := b.PH()
	if !q.Given() || q.Low() > 2 && q.High() < 11.5 {
		return
	}
	c, ok := ClassNamed("Skin Corr. 1")
	if !ok || k.Has("Skin Corr.") {
		return
	}
	by, _ := l.OriginOf(b.Def(), key)
	k.Classes = found(k.Classes, Found{Class: c, Statement: c.Statement, Because: []string{"its pH, " + unit.Spoken(q)}, Origin: figure.Weakest(by, figure.Memory), Who: []figure.Origin{figure.Weakest(by, figure.Memory)}})
}

// OfChemical gathers the hazards of a substance as it comes.
func OfChemical(l *lab.Lab, c *lab.Chemical) Known {
	k := Known{Status: None}
	k.add(l, c.Def, c.Name, c.Group, c.Hazards)
	k.finish()
	return k
}

func (k *Known) add(l *lab.Lab, d lab.Def, name, group string, h *lab.Hazards) {
	part := Part{Name: name, Group: group}
	if h == nil || h.Classes == nil {
		k.Missing = append(k.Missing, name)
	} else if len(h.Classes) == 0 {
		part.Clear = true
		part.Origin, _ = l.OriginOf(d, "hazards.classes")
	}
	k.Parts = parts(k.Parts, part)
	if h == nil {
		return
	}
	for i, word := range h.Classes {
		by, _ := l.OriginOf(d, fmt.Sprintf("hazards.classes[%d]", i))
		c, ok := ClassNamed(word)
		if !ok {
			continue
		}
		k.Classes = found(k.Classes, Found{Class: c, Statement: c.Statement, Because: []string{name}, Origin: by, Who: []figure.Origin{by}})
	}
	for i, code := range h.Extra {
		by, _ := l.OriginOf(d, fmt.Sprintf("hazards.extra[%d]", i))
		text, ok := Supplement(code)
		if !ok {
			continue
		}
		k.Extra = found(k.Extra, Found{Code: code, Statement: text, Because: []string{name}, Origin: by, Who: []figure.Origin{by}})
	}
}

func found(list []Found, f Found) []Found {
	for i := range list {
		if list[i].Class.Word == f.Class.Word && list[i].Code == f.Code {
			for n, name := range f.Because {
				if !slices.Contains(list[i].Because, name) {
					list[i].Because = append(list[i].Because, name)
					list[i].Who = append(list[i].Who, f.Who[n])
				}
			}
			list[i].Origin = figure.Weakest(list[i].Origin, f.Origin)
			return list
		}
	}
	// A copy: what is merged into it must not reach the bath it came from.
	f.Because, f.Who = slices.Clone(f.Because), slices.Clone(f.Who)
	return append(list, f)
}

func parts(list []Part, p Part) []Part {
	for _, o := range list {
		if o.Name == p.Name {
			return list
		}
	}
	return append(list, p)
}

func (k *Known) finish() {
	rank := map[string]int{}
	for i, c := range classes {
		rank[c.Word] = i
	}
	sort.SliceStable(k.Classes, func(i, j int) bool { return rank[k.Classes[i].Class.Word] < rank[k.Classes[j].Class.Word] })
	sort.SliceStable(k.Extra, func(i, j int) bool { return k.Extra[i].Code < k.Extra[j].Code })
	switch {
	case len(k.Missing) > 0:
		k.Status = Unknown
	case len(k.Classes) > 0 || len(k.Extra) > 0:
		k.Status = Carried
	}
}

// ClearNames lists what was looked at and is not classified, with the word of a
// weak origin beside each.
func (k Known) ClearNames() string {
	var names []string
	for _, p := range k.Parts {
		if p.Clear {
			names = append(names, withOrigin(p.Name, p.Origin))
		}
	}
	return strings.Join(names, ", ")
}

// Signal is the signal word, the stronger one.
func (k Known) Signal() string {
	word := ""
	for _, f := range k.Classes {
		switch {
		case f.Class.Danger:
			return "Danger"
		case f.Class.Warning:
			word = "Warning"
		}
	}
	return word
}

// Pictograms lists the pictograms, skull before exclamation mark: where GHS06
// or GHS05 for skin and eyes applies, GHS07 for the same falls away (Article
// 26); as long as strengths are not considered, all are shown.
func (k Known) Pictograms() []string {
	seen := map[string]bool{}
	var out []string
	for _, f := range k.Classes {
		if p := f.Class.Pictogram; p != "" && !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	sort.Strings(out)
	return out
}

// Statements lists the statements of the classes and then the supplemental
// ones, each once, without those that a harder one on the same label makes
// superfluous (Article 27). The classes themselves stay whole.
func (k Known) Statements() []string {
	covered := map[string]bool{}
	for _, f := range k.Classes {
		for _, code := range covers[f.Class.Code] {
			covered[code] = true
		}
	}
	seen := map[string]bool{}
	var out []string
	for _, list := range [][]Found{k.Classes, k.Extra} {
		for _, f := range list {
			if !seen[f.Statement] && !covered[f.Class.Code] {
				seen[f.Statement] = true
				out = append(out, f.Statement)
			}
		}
	}
	return out
}

// Has reports whether any class word begins with one of the prefixes.
func (k Known) Has(prefixes ...string) bool {
	for _, f := range k.Classes {
		for _, p := range prefixes {
			if strings.HasPrefix(f.Class.Word, p) {
				return true
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

var bareCode = regexp.MustCompile(`(?i)^(EUH|H)\s*[0-9]{3}[A-Za-z]*$`)

// Check finds class words that the scheme does not have.
func Check(l *lab.Lab) []lab.Problem {
	var problems []lab.Problem
	check := func(d lab.Def, h *lab.Hazards) {
		if h == nil {
			return
		}
		for i, word := range h.Classes {
			if _, ok := ClassNamed(word); ok {
				continue
			}
			p := lab.Problem{At: d.At(fmt.Sprintf("hazards.classes[%d]", i)), Code: "hazard"}
			code := strings.ToUpper(strings.ReplaceAll(word, " ", ""))
			switch {
			case bareCode.MatchString(word) && strings.HasPrefix(code, "EUH"):
				p.What, p.Hint = fmt.Sprintf("%q is a supplemental statement, not a class", word), fmt.Sprintf("move it to extra = [%q]", code)
			case bareCode.MatchString(word):
				p.What = fmt.Sprintf("%q is a statement; it does not say which class it comes from", word)
				p.Hint = code + " is which of " + strings.Join(WordsOf(code), ", ") + "? The supplier's sheet says so in section 2"
				if len(WordsOf(code)) == 0 {
					p.Hint = "write the class and category as in section 2 of the supplier's sheet"
				}
			default:
				p.What = fmt.Sprintf("%q is not a hazard class this program knows", word)
				p.Hint = lab.Near(word, Words(), "write class and category as in section 2 of the supplier's sheet, for example \"Eye Irrit. 2\" or \"Acute Tox. 4 (oral)\"")
			}
			problems = append(problems, p)
		}
		for i, code := range h.Extra {
			if _, ok := Supplement(code); !ok {
				problems = append(problems, lab.Problem{At: d.At(fmt.Sprintf("hazards.extra[%d]", i)), Code: "hazard",
					What: fmt.Sprintf("%q is not a supplemental statement this program knows", code), Hint: "for example \"EUH031\""})
			}
		}
	}
	for _, c := range l.Chemicals {
		check(c.Def, c.Hazards)
	}
	for _, p := range l.Products {
		check(p.Def, p.Hazards)
	}
	return problems
}

// Merge is what is known of several baths used in one evening.
func Merge(all ...Known) Known {
	out := Known{Status: None}
	missing := map[string]bool{}
	for _, k := range all {
		for _, f := range k.Classes {
			out.Classes = found(out.Classes, f)
		}
		for _, f := range k.Extra {
			out.Extra = found(out.Extra, f)
		}
		for _, p := range k.Parts {
			out.Parts = parts(out.Parts, p)
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
