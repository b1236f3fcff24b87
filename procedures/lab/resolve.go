package lab

import (
	"slices"
	"sort"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// Problem is something in what a lab declared that cannot be so.
type Problem struct {
	At      figure.Where
	OnKey   bool // points at the key itself, not its value
	Code    string
	What    string
	Hint    string
	Warning bool
}

// Ingredient is what a reference in a step leads to: exactly one of Chemical
// (with Form), Solution or Product (with Strength), or Water.
type Ingredient struct {
	Ref      string
	Chemical *Chemical
	FormID   string
	Form     *Form
	Bath     Bath
	Water    bool
}

// Name is the ingredient in words.
func (i Ingredient) Name() string {
	switch {
	case i.Water:
		return "water"
	case i.Chemical != nil:
		return i.Chemical.FormName(i.FormID)
	}
	return i.Bath.Name()
}

// Bath is a strength of a solution or of a product.
type Bath struct {
	Solution *Solution
	Product  *Product
	Strength string
}

// Zero reports a bath that was not found.
func (b Bath) Zero() bool { return b.Solution == nil && b.Product == nil }

// Def returns the definition the bath belongs to.
func (b Bath) Def() Def {
	if b.Solution != nil {
		return b.Solution.Def
	}
	return b.Product.Def
}

// Ref is the bath's full reference.
func (b Bath) Ref() string { return b.Def().ID + "." + b.Strength }

// Name is the solution's name; the strength is told apart by its role.
func (b Bath) Name() string {
	if b.Solution != nil {
		return b.Solution.Name
	}
	return b.Product.Name
}

// Waste is the waste route that its definition names; empty without one.
func (b Bath) Waste() string {
	switch {
	case b.Solution != nil:
		return b.Solution.Waste
	case b.Product != nil:
		return b.Product.Waste
	}
	return ""
}

// Decl returns the declaration of the strength; nil for the strength that the
// steps of a solution make, when nothing more is said about it.
func (b Bath) Decl() *Strength {
	if b.Solution != nil {
		return b.Solution.Strengths[b.Strength]
	}
	return b.Product.Strengths[b.Strength]
}

// Written is what is written of the strength: nothing, where it has no table of its own.
func (b Bath) Written() *Strength {
	if d := b.Decl(); d != nil {
		return d
	}
	return &Strength{}
}

// PH is the pH that somebody has written for the bath.
func (b Bath) PH() Said[unit.Factor] {
	if d := b.Decl(); d != nil && d.PH.Given() {
		return d.PH
	}
	if b.Solution != nil && b.Strength == b.Solution.MadeStrength() {
		return b.Solution.PH
	}
	return Said[unit.Factor]{}
}

// Role is the part the bath plays.
func (b Bath) Role() Role {
	if b.Solution != nil {
		return b.Solution.Role
	}
	return b.Product.Role
}

// MadeStrength is the strength that the steps of a solution make.
func (s *Solution) MadeStrength() string {
	if s.Makes != "" {
		return s.Makes
	}
	return "stock"
}

// Supplied is the strength in which a product is bought.
const Supplied = "supplied"

// StrengthNames lists the strengths of a solution: first the one its steps
// make, then the declared ones in the order of their names.
func (s *Solution) StrengthNames() []string {
	return strengthNames(s.MadeStrength(), s.Strengths)
}

// StrengthNames lists the strengths of a product: the supplied one first, then what a
// pack makes, then the declared ones in the order of their names.
func (p *Product) StrengthNames() []string {
	names := strengthNames(p.MadeStrength(), p.Strengths)
	if p.Makes == nil {
		return names
	}
	return append([]string{Supplied}, slices.DeleteFunc(names, func(n string) bool { return n == Supplied })...)
}

func strengthNames(made string, declared map[string]*Strength) []string {
	names := []string{made}
	for _, k := range sortedKeys(declared) {
		if k != made {
			names = append(names, k)
		}
	}
	return names
}

// FormIDs lists the forms of a chemical in the order of their names.
func (c *Chemical) FormIDs() []string { return sortedKeys(c.Forms) }

// FormName names a form of the chemical as the trade does: with its water.
func (c *Chemical) FormName(id string) string {
	f := c.Forms[id]
	if f != nil && f.Name != "" {
		return f.Name
	}
	if len(c.Forms) == 1 && id == "pure" {
		return c.Name
	}
	return c.Name + ", " + strings.ReplaceAll(id, "-", " ")
}

// ContentName names what a form brings into a bath: the substance itself, where
// the form is a solution of it.
func (c *Chemical) ContentName(id string) string {
	if f := c.Forms[id]; f != nil && f.Content.Given() {
		return c.Name
	}
	return c.FormName(id)
}

// split cuts a reference into its definition and the rest.
func split(ref string) (id, rest string) {
	id, rest, _ = strings.Cut(ref, ".")
	return id, rest
}

// Resolve finds what a reference means. A reference to a definition that could
// not be read is not found, and raises no problem.
func (l *Lab) Resolve(ref string, at figure.Where) (Ingredient, []Problem) {
	id, rest := split(ref)
	if id == "water" && rest == "" {
		return Ingredient{Ref: ref, Water: true}, nil
	}
	if c, ok := l.chemical[id]; ok {
		return l.form(c, ref, rest, at)
	}
	if id != "" && l.solution[id] == nil && l.product[id] == nil && !l.Broken[id] {
		return Ingredient{Ref: ref}, []Problem{{At: at, Code: "reference",
			What: "there is no chemical, product or solution " + quoted(id),
			Hint: l.Meant(id, "write its definition in chemicals/, products/ or solutions/, or correct the name")}}
	}
	bath, problems := l.Bath(ref, at)
	return Ingredient{Ref: ref, Bath: bath}, problems
}

func (l *Lab) form(c *Chemical, ref, form string, at figure.Where) (Ingredient, []Problem) {
	if form == "" {
		if len(c.Forms) == 1 || c.oneFormula() { // of which strength, whichForm asks
			form = c.FormIDs()[0]
		} else {
			return Ingredient{Ref: ref}, []Problem{{At: at, Code: "form", What: quoted(ref) +
				" does not say which form is weighed", Hint: "write one of " + list(prefixed(c.ID, c.FormIDs()))}}
		}
	}
	f, ok := c.Forms[form]
	if !ok {
		return Ingredient{Ref: ref}, []Problem{{At: at, Code: "reference", What: c.Name + " has no form " +
			quoted(form), Hint: Near(form, c.FormIDs(), "its forms are "+list(prefixed(c.ID, c.FormIDs())))}}
	}
	return Ingredient{Ref: c.ID + "." + form, Chemical: c, FormID: form, Form: f}, nil
}

// Bath finds the strength of a solution or product that a reference means. A
// bare id means its only strength, else its stock.
func (l *Lab) Bath(ref string, at figure.Where) (Bath, []Problem) {
	id, strength := split(ref)
	if l.Broken[id] {
		return Bath{}, nil
	}
	var names []string
	b := Bath{Solution: l.solution[id], Product: l.product[id]}
	switch {
	case b.Solution != nil:
		names = b.Solution.StrengthNames()
	case b.Product != nil:
		names = b.Product.StrengthNames()
	default:
		if id == "" {
			return Bath{}, []Problem{{At: at, Code: "missing", What: "this does not say of what", Hint: `write a name with its strength or form, for example "film-developer.stock" or "borax.decahydrate"`}}
		}
		if c := l.chemical[id]; c != nil {
			return Bath{}, []Problem{{At: at, Code: "reference", What: quoted(id) +
				" is a chemical, and a bath is a solution or a product",
				Hint: "write a solution that adds it, in solutions/, and name that"}}
		}
		return Bath{}, []Problem{{At: at, Code: "reference", What: "there is no solution or product " + quoted(id),
			Hint: Near(id, l.bathNames(), "write its definition in solutions/ or products/, or correct the name")}}
	}
	if strength == "" {
		switch {
		case len(names) == 1:
			strength = names[0]
		case contains(names, "stock"):
			strength = "stock"
		default:
			return Bath{}, []Problem{{At: at, Code: "reference", What: quoted(ref) + " has several strengths",
				Hint: "write one of " + list(prefixed(id, names))}}
		}
	}
	if !contains(names, strength) {
		return Bath{}, []Problem{{At: at, Code: "reference", What: quoted(id) + " has no strength " +
			quoted(strength), Hint: "its strengths are " + list(prefixed(id, names)) +
			": correct whichever of the two is misspelt"}}
	}
	b.Strength = strength
	return b, nil
}

// Material finds a film or paper.
func (l *Lab) Material(id string) *Material { return l.material[id] }

// WasteRoute finds a waste route.
func (l *Lab) WasteRoute(id string) *Waste { return l.waste[id] }

// Solution finds a solution.
func (l *Lab) Solution(id string) *Solution { return l.solution[id] }

// Product finds a product.
func (l *Lab) Product(id string) *Product { return l.product[id] }

// Chemical finds a chemical.
func (l *Lab) Chemical(id string) *Chemical { return l.chemical[id] }

// FormatOf finds a format: the material's own, else that of the table.
func (l *Lab) FormatOf(m *Material, id string) (Format, figure.Where, bool) {
	if f, ok := m.Format[id]; ok {
		return f, m.At("format." + keyName(id)), true
	}
	f, ok := l.Formats.Format[id]
	return f, l.Formats.At("format." + keyName(id)), ok
}

// Names lists the ids of chemicals, products and solutions.
func (l *Lab) Names() []string {
	names := l.bathNames()
	for _, c := range l.Chemicals {
		names = append(names, c.ID)
	}
	sort.Strings(names)
	return names
}

// bathNames lists the ids of products and solutions.
func (l *Lab) bathNames() []string {
	var names []string
	for _, p := range l.Products {
		names = append(names, p.ID)
	}
	for _, s := range l.Solutions {
		names = append(names, s.ID)
	}
	sort.Strings(names)
	return names
}

func prefixed(id string, names []string) []string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = id + "." + n
	}
	return out
}

func contains[S ~string](list []S, s S) bool {
	for _, x := range list {
		if x == s {
			return true
		}
	}
	return false
}

func quoted(s string) string { return `"` + s + `"` }

func list(names []string) string {
	names = slices.DeleteFunc(slices.Clone(names),
		func(n string) bool { return n == "" }) // a step without an id is a fault of its own
	if len(names) > 40 {
		names = append(append([]string{}, names[:40]...), "…")
	}
	return strings.Join(names, ", ")
}

// orWords offers some words, each in quotes.
func orWords(words []string) string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = quoted(w)
	}
	if n := len(out); n > 1 {
		return strings.Join(out[:n-1], ", ") + " or " + out[n-1]
	}
	return strings.Join(out, "")
}

// From returns the strength that a strength is diluted from, and how; ok is false
// for what is made by steps or supplied.
func (b Bath) From() (from Bath, dil SaidDilution, ok bool) {
	s := b.Decl()
	made := b.made()
	if b.Strength == made || b.Strength == Supplied && b.Product != nil || s == nil {
		return Bath{}, SaidDilution{}, false
	}
	from = b
	from.Strength = made
	if s.From != "" {
		from.Strength = s.From
	}
	return from, s.Dilute, true
}

// made is the strength from which the others are diluted where they say nothing.
func (b Bath) made() string {
	if b.Solution != nil {
		return b.Solution.MadeStrength()
	}
	return b.Product.MadeStrength()
}

// Keeps is how long a strength keeps, and the key that says so: its own word,
// else that of the definition for what it makes or is bought as.
func (b Bath) Keeps() (Keeps, string) {
	if d := b.Decl(); d != nil && d.Keeps.Given() {
		return d.Keeps, "strength." + keyName(b.Strength) + ".keeps."
	}
	switch {
	case b.Solution != nil && b.Strength == b.Solution.MadeStrength():
		return b.Solution.Keeps, "keeps."
	case b.Product != nil && b.Strength == Supplied:
		return b.Product.Keeps, "keeps."
	}
	return Keeps{}, ""
}

// strengths finds every strength of every solution and product.
func (l *Lab) strengths() []Bath {
	var out []Bath
	for _, s := range l.Solutions {
		for _, n := range s.StrengthNames() {
			out = append(out, Bath{Solution: s, Strength: n})
		}
	}
	for _, p := range l.Products {
		for _, n := range p.StrengthNames() {
			out = append(out, Bath{Product: p, Strength: n})
		}
	}
	return out
}
