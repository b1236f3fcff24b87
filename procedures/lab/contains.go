package lab

import (
	"fmt"
	"math/big"
	"slices"
	"strconv"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/near"
	"wetside/procedures/unit"
)

// Share is how much of a product something is: "5..15 % w/w", or "rest". Of what is no
// chemical here, the supplier's sheet may say its classes and what hangs on them.
type Share struct {
	Rest bool
	Of   Said[unit.WW] `toml:"share"`
	// brief: written as the share alone, which then stands at the ingredient's own key.
	brief bool
	// Classes are nil where nobody has written them.
	Classes []string `toml:"classes"`
	// Extra are its supplemental statements.
	Extra []string `toml:"extra"`
	InMixtures
}

// UnmarshalTOML reads "rest", a share by mass, or a table with the share and what the
// supplier's sheet says of the substance.
func (s *Share) UnmarshalTOML(v any) error {
	switch v := v.(type) {
	case string:
		s.brief = true
		return s.amount(v)
	case map[string]any:
		return s.table(v)
	}
	return &unit.Error{Code: "shape", What: "expected a share in quotes", Hint: `write "5..15 % w/w", or "rest"`}
}

// alone reports a share that stands at the ingredient's own key.
func (s *Share) alone() bool { return s.brief }

// table reads { share = "5..15 % w/w", classes = ["Eye Dam. 1"], … }.
func (s *Share) table(v map[string]any) error {
	if _, ok := v["share"]; !ok {
		return &unit.Error{Code: "missing", What: "an ingredient that does not say how much of it there is",
			Hint: `write { share = "5..15 % w/w", classes = ["Eye Dam. 1"] }; a name with a dot stands in quotes: "citric-acid.anhydrous" = "5..10 % w/w"`}
	}
	got := Share{}
	err := readTable(v, map[string]func(any) error{
		"share":   func(v any) error { return asText(v, func(b []byte) error { return got.amount(string(b)) }) },
		"classes": func(v any) error { return asTexts(v, &got.Classes) },
		"extra":   func(v any) error { return asTexts(v, &got.Extra) },
		"ate": func(v any) error {
			a := &got.ATE
			return asTable(v, map[string]func(any) error{"oral": quantityOf(&a.Oral), "dermal": quantityOf(&a.Dermal),
				"vapour": quantityOf(&a.Vapour), "dust": quantityOf(&a.Dust), "gas": quantityOf(&a.Gas)})
		},
		"limits": func(v any) error {
			table, ok := v.(map[string]any)
			if !ok {
				return notTable
			}
			got.Limits = map[string]Said[unit.WW]{}
			read := map[string]func(any) error{}
			for class := range table {
				read[class] = func(v any) error {
					var limit Said[unit.WW]
					err := quantityOf(&limit)(v)
					got.Limits[class] = limit
					return err
				}
			}
			return readTable(table, read)
		},
		"m_factor": func(v any) error {
			m := &got.MFactor
			return asTable(v, map[string]func(any) error{"acute": m.Acute.UnmarshalTOML,
				"chronic": m.Chronic.UnmarshalTOML})
		},
		"additive": func(v any) error {
			adds, ok := v.(bool)
			if !ok {
				return &unit.Error{Code: "shape", What: "expected true or false", Hint: "write additive = false"}
			}
			got.Additive = &adds
			return nil
		},
	})
	if err == nil {
		*s = got
	}
	return err
}

// amount reads "rest" or a share by mass.
func (s *Share) amount(text string) error {
	if strings.TrimSpace(text) == "rest" {
		s.Rest = true
		return nil
	}
	var got Said[unit.WW]
	if err := got.UnmarshalText([]byte(text)); err != nil {
		hint := `write "5..15 % w/w", or "rest" for what makes up the whole`
		if u, ok := err.(*unit.Error); ok && strings.Contains(u.What, "percent of what") {
			hint = `suppliers' sheets give shares by mass: write "% w/w"`
		}
		return &unit.Error{Code: "quantity", What: strconv.Quote(text) + " is not a share of a product", Hint: hint}
	}
	s.Of = got
	return nil
}

// ContainsKey is the path of an ingredient of a product.
func ContainsKey(name string) string { return "contains." + keyName(name) }

// keyName is a name as a key of a file: in quotes where it has to be.
func keyName(name string) string {
	if name == "" || strings.ContainsAny(name, ".[ \"") {
		return strconv.Quote(name)
	}
	return name
}

// Part is one part of a product that is a chemical this program knows.
type Part struct {
	Key  string
	Ing  Ingredient
	With Said[unit.WW]
	// AsForm: the share is that of the form as it comes, such as a liquid of 60 %; else
	// it is that of the substance itself, as a supplier's sheet gives it.
	AsForm bool
}

// Parts lists the chemicals in a product by the order of their names; what is
// not a known chemical, and the rest, are left out.
func (l *Lab) Parts(p *Product) []Part { return l.partsOf(p.Contains, "", p.Def) }

// PartsOfKit lists the chemicals in one part of a kit, as Parts does.
func (l *Lab) PartsOfKit(p *Product, id string) []Part {
	part := p.Parts[id]
	if part == nil {
		return nil
	}
	return l.partsOf(part.Contains, "part."+keyName(id)+".", p.Def)
}

func (l *Lab) partsOf(list map[string]Share, before string, d Def) []Part {
	var out []Part
	for _, name := range sortedKeys(list) {
		share, key := list[name], before+ContainsKey(name)
		ref, known := l.contained(name)
		if share.Rest || !known {
			continue
		}
		id, form := split(name)
		if ing, bad := l.Resolve(ref, d.At(key)); len(bad) == 0 {
			out = append(out, Part{key, ing, share.Of, form != "" && l.Chemical(id) != nil})
		}
	}
	return out
}

// Rest is what makes up the whole of a list of contents beside water: its name and the least
// and the most of it. Where the list names no rest, and what it names may be less than the
// whole, nobody has said what the rest is, and its name is empty. False: there is none, or it
// is water.
func (l *Lab) Rest(contains map[string]Share) (name string, low, high unit.WW, ok bool) {
	if len(contains) == 0 {
		return "", 0, 0, false
	}
	least, most := unit.WW(0), unit.WW(0)
	for _, n := range sortedKeys(contains) {
		share := contains[n]
		if share.Rest {
			name, ok = n, true
			continue
		}
		least, most = least+share.Of.Low(), most+share.Of.High()
	}
	low, high = max(0, 100-most), unit.WW(unit.Snap(float64(max(0, 100-least))))
	if ok && NameKey(name) == "water" || !ok && most >= 100 ||
		high == 0 { // a list whose upper ends make up the whole is all of it
		return "", 0, 0, false
	}
	return name, low, high, true
}

// ShareOf is what the file of a product says of a chemical in it, and its key.
func (l *Lab) ShareOf(p *Product, c *Chemical) (Share, string, bool) {
	for _, name := range sortedKeys(p.Contains) {
		if ref, known := l.contained(name); known {
			if id, _ := split(ref); id == c.ID {
				return p.Contains[name], ContainsKey(name), true
			}
		}
	}
	return Share{}, "", false
}

// Others lists what else a product contains, by the words of its file.
func (l *Lab) Others(p *Product) []string { return l.OthersOf(p.Contains) }

// OthersOf lists what is no chemical of ours in a list of contents.
func (l *Lab) OthersOf(contains map[string]Share) []string {
	var out []string
	for _, name := range sortedKeys(contains) {
		if _, known := l.contained(name); !known && !contains[name].Rest {
			out = append(out, name)
		}
	}
	return out
}

// Contained is the chemical of ours that an ingredient of a product is by its name.
func (l *Lab) Contained(name string) (Ingredient, string, bool) {
	ref, known := l.contained(name)
	if name == "" || !known {
		return Ingredient{}, "", false
	}
	ing, bad := l.Resolve(ref, figure.Where{})
	return ing, ref, len(bad) == 0 && ing.Chemical != nil
}

// contained is the chemical that an ingredient of a product is: by its id, or by its
// name as a supplier's sheet writes it.
func (l *Lab) contained(name string) (ref string, known bool) {
	if id, form := split(name); l.Chemical(id) != nil {
		if c := l.Chemical(id); form == "" && c.oneFormula() {
			return c.ID + "." + c.FormIDs()[0], true
		}
		return name, true
	}
	for _, c := range l.Chemicals {
		if NameKey(c.Name) != NameKey(name) {
			continue
		}
		for _, form := range []string{"anhydrous", "pure"} { // a sheet that names no water means the salt without
			if len(c.Forms) > 1 && c.Forms[form] != nil {
				return c.ID + "." + form, true
			}
		}
		if c.oneFormula() {
			return c.ID + "." + c.FormIDs()[0], true
		}
		return c.ID, true
	}
	return "", false
}

// oneFormula reports several forms that are one substance in several strengths: a sheet
// counts the substance, whichever of them it was.
func (c *Chemical) oneFormula() bool {
	ids := c.FormIDs()
	for _, id := range ids {
		if c.Forms[id].Formula != c.Forms[ids[0]].Formula || !c.Forms[id].Content.Given() {
			return false
		}
	}
	return len(ids) > 1
}

// NameKey is a name of a substance for comparing: in small letters, single spaces,
// one spelling of sulfur, without what stands in brackets behind it.
func NameKey(name string) string {
	name, _, _ = strings.Cut(strings.ToLower(name), " (")
	return strings.Join(strings.Fields(strings.ReplaceAll(name, "sulph", "sulf")), " ")
}

// contains checks the composition of a product, or of a part of one, at the key of its
// list.
func (c *checker) contains(list map[string]Share, whole figure.Where) {
	rest, before := "", len(c.problems)
	low, high := new(big.Rat), 0.0
	hundred := big.NewRat(100, 1)
	for _, name := range sortedKeys(list) {
		at, share := whole.At(keyName(name)), list[name]
		if ref, known := c.lab.contained(name); known {
			_, problems := c.lab.Resolve(ref, at)
			for i := range problems {
				problems[i].OnKey = true
			}
			c.problems = append(c.problems, problems...)
		} else if share.Classes == nil {
			c.misspelt(name, at)
		}
		switch {
		case share.Rest && rest != "":
			c.add(at, "range", fmt.Sprintf("%q and %q cannot both be the rest", rest, name),
				"write the share of one of them")
		case share.Rest:
			rest = name
		case share.Of.Negative():
			c.add(at, "range", fmt.Sprintf("%q: a share cannot be below zero", share.Of.Text()), `write it as on the supplier's sheet, for example "5..15 % w/w"`)
		case share.Of.Exact().Cmp(hundred) > 0 || float64(share.Of.High()) > 100:
			c.add(at, "range", fmt.Sprintf("%q is more than the whole", share.Of.Text()), "write at most 100 % w/w")
		default:
			low.Add(low, lowest(share.Of))
			high += float64(share.Of.High())
		}
		c.inMixtures(share.InMixtures, at)
	}
	if len(c.problems) == before {
		c.missed(rest, high, whole, len(list))
	}
	if low.Cmp(hundred) > 0 {
		sum, _ := low.Float64()
		c.add(whole, "range", fmt.Sprintf("the least of all shares is %s %% together, more than the whole",
			strconv.FormatFloat(unit.Snap(sum), 'f', -1, 64)),
			"copy the shares from section 3 of the supplier's sheet again")
	}
}

// misspelt warns of what is no substance of ours by its name, but nearly one.
func (c *checker) misspelt(name string, at figure.Where) {
	if c.lab.named(name) {
		return
	}
	var known []string
	for _, ch := range c.lab.Chemicals {
		known = append(known, ch.ID, NameKey(ch.Name))
	}
	id, form := split(name)
	for _, word := range []string{id, NameKey(name)} {
		best := near.Word(word, known)
		if best == "" {
			continue
		}
		if form != "" && word == id {
			best += "." + form
		}
		c.problems = append(c.problems, Problem{At: at, OnKey: true, Code: "reference", Warning: true,
			What: fmt.Sprintf("%q is no substance of this lab or of the program: nobody knows what it does", name),
			Hint: fmt.Sprintf("did you mean %q? if the sheet does say %q, write what it is: a file in chemicals/, or its classes beside its share", best, name)})
		return
	}
}

// named reports a name that the rules of the lab or of the program count in some group.
func (l *Lab) named(name string) bool {
	for _, b := range l.Rules {
		for _, g := range b.Groups {
			if slices.ContainsFunc(g.Names, func(n string) bool { return NameKey(n) == NameKey(name) }) {
				return true
			}
		}
	}
	return false
}

// missed warns of shares that cannot make up the whole, where nothing is the rest.
func (c *checker) missed(rest string, high float64, whole figure.Where, n int) {
	if rest != "" || n == 0 || unit.Snap(high) >= 100 {
		return
	}
	c.problems = append(c.problems, Problem{At: whole, Code: "range", Warning: true,
		What: fmt.Sprintf("the most of all shares is %s %% together: of what is missing nobody knows anything",
			strconv.FormatFloat(unit.Snap(high), 'f', -1, 64)),
		Hint: `copy the shares from section 3 of the supplier's sheet again; where it names only what is hazardous, write water = "rest", or "all else" = "rest"`})
}

// lowest is the lower bound of a share, exactly.
func lowest(q Said[unit.WW]) *big.Rat {
	if !q.Spread() {
		return q.Exact()
	}
	return new(big.Rat).SetFloat64(unit.Snap(float64(q.Low())))
}
