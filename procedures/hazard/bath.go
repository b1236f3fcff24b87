package hazard

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/rules"
	"wetside/procedures/series"
	"wetside/procedures/unit"
)

// Status says how far the dangers of something are known.
type Status uint8

// The states.
const (
	// Unknown: nobody has looked up at least one ingredient.
	Unknown Status = iota
	// Carried: every hazard of what is in it, as if undiluted: nobody knows enough of it to
	// work out what the whole is.
	Carried
	// None: somebody looked, and it is not classified.
	None
	// Computed: worked out from what is in it.
	Computed
	// Supplied: its supplier has classified it as it is.
	Supplied
	// Overridden: this lab says otherwise, and says why.
	Overridden
)

// String is the word for it in figures.json.
func (s Status) String() string {
	return [...]string{Unknown: "unknown", Carried: "carried", None: "none", Computed: "computed",
		Supplied: "supplier", Overridden: "override"}[s]
}

// Known is what is known of the dangers of a bath or a substance.
type Known struct {
	Status  Status
	Classes []Found
	Extra   []Found
	// More are classes that another voice gives it: they ask for gear, and stand on no
	// label. Layers are all voices with what each says.
	More   []Found
	Layers []Layer
	// Physical are what is said of its substances as they come: how it burns or feeds a
	// fire is found by a test of the whole, and by no rule.
	Physical []Found
	// Near are classes that it stays just under.
	Near []Close
	// Acidity is how acid it is, and SO2 how much sulfur dioxide it can give off.
	Acidity Acidity
	SO2     SO2
	// Overrides are this lab’s own judgements where they hold, and Problems why one does not.
	Overrides []*lab.Override
	Problems  []lab.Problem
	// Remarks are what whoever reads the classes must know of how they were found.
	Remarks []string
	// Elsewhere are stricter classes of lists of other schemes: they ask for gear and
	// are named, and they are no classes of the bath.
	Elsewhere []Found
	// Missing names what nobody has looked up.
	Missing []string
	// Unlooked are parts of a bought thing of which nobody has said what they are, though
	// its supplier has classified the whole.
	Unlooked []string
	// Parts are the substances themselves, for rules that go by substance.
	Parts []Part
	// Asked is what the lab's own cautions say; what to wear is never less.
	Asked []Asked
	// Unsaid names what is in no group of the rules: nobody has said what it reacts
	// like.
	Unsaid []string
	// Kinds is what it is by the rules: itself, and everything in it together.
	Kinds rules.Kinds

	rules *rules.Rules
}

// Part is one substance of a bath.
type Part struct {
	Name  string
	Kinds rules.Kinds
	// Clear: somebody looked, and it is not classified; Origin is who says so.
	Clear  bool
	Origin figure.Origin
	// Dust: it is weighed as a powder. Vapour: it gives off vapour, and there is
	// enough of it.
	Dust, Vapour bool
}

// Asked is one of the lab's own cautions, and the job it is for; empty: every job.
type Asked struct {
	Job    Job
	Text   string
	pieces []Item // what it asks to wear or to have
}

// Found is one class or supplemental statement and whom it comes from.
type Found struct {
	Class     lab.Class
	Code      string // of a supplemental statement
	Statement string
	Because   []string // names of the substances
	Origin    figure.Origin
	List      string // of another scheme: the list that says so
	// Who vouches for each name of Because.
	Who []figure.Origin
	// By are the contents that bring the class, where it was worked out, and Table the rule.
	By    []Bringing
	Table string
	// Unsure: at the least content of everything it would not hold.
	Unsure bool
}

// Bringing is a content that brings a class. Limit is the content from which it would by
// itself, as written; empty where no content decides.
type Bringing struct {
	Name    string
	Content *figure.Record
	Limit   string
	// Low and High are its bounds, nil where nothing is known to spread and where Content is printed
	// with both.
	Low, High *figure.Record
}

// Layer is one voice that speaks of the classes of something.
type Layer struct {
	Who     string
	Classes []Found
}

// Close is a class that something stays just under.
type Close struct {
	Class string
	By    []Bringing
	Table string
}

// Names lists the substances, with the word of a weak origin beside each.
func (f Found) Names() string {
	names := make([]string, len(f.Because))
	for i, n := range f.Because {
		names[i] = withOrigin(n, f.Who[i])
	}
	return series.Of(names)
}

// Vouched is the same without the substances of which somebody only remembers it, where there
// are others.
func (f Found) Vouched() Found {
	out := f
	out.Because, out.Who = nil, nil
	for i, n := range f.Because {
		if !f.Who[i].Weak() {
			out.Because, out.Who = append(out.Because, n), append(out.Who, f.Who[i])
		}
	}
	if len(out.Because) == 0 {
		return f
	}
	return out
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
	return series.Of(parts) + " (" + f.Class.Word + ")"
}

// OfBath is what is known of a bath: worked out from what is in it where a scheme and
// enough of its contents are known, else every hazard of everything in it; and what the
// lab's own cautions say of it. day is the day for which an override must hold; zero: it is
// not asked.
func OfBath(m *mix.Mixer, made *mix.Made, acidity Acidity, day unit.Date) Known {
	k := carriedBy(m.Rules, made)
	k.Acidity, k.SO2 = acidity, so2(made)
	if !k.strength(m, made, acidity) {
		k.extreme(acidity)
	}
	k.override(m.Lab, made.Bath, day)
	k.cautions(made.Bath)
	k.finish()
	return k
}

// carriedBy gathers the hazards of everything in a bath, as it comes.
func carriedBy(r *rules.Rules, made *mix.Made) Known {
	l := r.Lab
	k := Known{Status: None, Kinds: r.OfBath(made.Bath), Unsaid: r.Unsaid(made.Bath), rules: r}
	dust := weighed(l, made.Bath)
	for _, c := range made.Contents {
		part := Part{Name: c.Chemical.Name, Kinds: r.OfChemical(c.Chemical), Dust: dust[c.Chemical],
			Vapour: vapour(made, c)}
		if c.Product != nil && c.Product.Hazards != nil && c.Product.Hazards.Classes != nil {
			k.Parts = parts(k.Parts, part) // the supplier has classified the whole; its gases come from what is in it
			continue
		}
		k.chemical(l, c.Chemical, c.Form, part)
	}
	for _, p := range made.Unknown {
		if p.Product == nil {
			continue
		}
		if k.kit(l, p.Product) {
			continue
		}
		k.add(l, p.Product.Def, "", Part{Name: p.Product.Name, Kinds: r.OfID(p.Product.ID), Dust: p.Product.Dusty()},
			p.Product.Hazards)
		for _, name := range l.Others(p.Product) { // what is no chemical of ours may give off gas by its name
			k.Parts = parts(k.Parts, Part{Name: name, Kinds: r.OfName(name)})
		}
	}
	for _, f := range k.Classes {
		if f.Class.Physical() {
			k.Physical = found(k.Physical, f)
		}
	}
	return k
}

// kit adds every part of a kit by the word of its sheet and by what is in it, as it comes: what one
// bottle of it does to people is no milder for the other. It returns false for what is no kit.
func (k *Known) kit(l *lab.Lab, p *lab.Product) bool {
	ids := p.PartIDs()
	if len(ids) == 0 {
		return false
	}
	r := k.rules
	each := true // the sheet of each part speaks
	for _, id := range ids {
		h := p.Parts[id].Hazards
		each = each && h != nil && h.Classes != nil
	}
	if p.Hazards != nil || !each {
		k.add(l, p.Def, "", Part{Name: p.Name, Kinds: r.OfID(p.ID), Dust: p.Dusty()}, p.Hazards)
	}
	for _, id := range ids {
		part := p.Parts[id]
		of := Part{Name: p.PartName(id) + " of " + p.Name, Dust: part.Dusty()}
		if part.Hazards != nil {
			k.add(l, p.Def, "part."+id+".", of, part.Hazards)
		}
		for _, c := range l.PartsOfKit(p, id) {
			ch := c.Ing.Chemical
			k.chemical(l, ch, c.Ing.FormID, Part{Name: ch.Name, Kinds: r.OfChemical(ch), Dust: of.Dust})
		}
		for _, name := range l.OthersOf(part.Contains) {
			k.Parts = parts(k.Parts, Part{Name: name, Kinds: r.OfName(name)})
		}
	}
	return true
}

// vapourFrom is the content from which a volatile liquid counts, where no limit of
// its own is known, in % w/w: the project's own rule, common practice, no source.
const vapourFrom = 1

// vapour reports a volatile substance of which there is enough: from the lowest content
// from which any class of it holds in a mixture.
func vapour(made *mix.Made, c mix.Content) bool {
	if !c.Chemical.Volatile {
		return false
	}
	from := unit.WW(vapourFrom)
	if h := c.Chemical.Hazards; h != nil && len(h.Limits) > 0 {
		from = 100
		for _, limit := range h.Limits {
			from = min(from, limit.Low())
		}
	}
	return float64(c.Conc.High) >= float64(from)*10*float64(made.Density.Low)
}

// so2 is how much sulfur dioxide a bath can give off.
func so2(made *mix.Made) SO2 {
	out := SO2{Known: made.Accounted && len(made.Others) == 0}
	for _, c := range made.Contents {
		each := so2Of(c.Chemical, c.Form, molarVolumeAt20)
		out.Most += each * unit.VolumePerMass(float64(c.Conc.High)/(1000*float64(made.Density.Low)))
	}
	return out
}

// weighed are the powders that somebody weighs to make a bath: those of its own
// steps. Nobody weighs anything for a dilution, or for baths poured together.
func weighed(l *lab.Lab, b lab.Bath) map[*lab.Chemical]bool {
	out := map[*lab.Chemical]bool{}
	s := b.Solution
	if s == nil || b.Strength != s.MadeStrength() {
		return out
	}
	adds := []string{}
	for _, step := range s.Steps {
		adds = append(adds, step.Add)
	}
	if s.Dissolve != nil {
		adds = append(adds, s.Dissolve.Add)
	}
	for _, ref := range adds {
		if ing, bad := l.Resolve(ref, s.At("step")); len(bad) == 0 && ing.Chemical != nil && !Liquid(ing.Form) {
			out[ing.Chemical] = true
		}
	}
	return out
}

// Liquid reports a form that is poured, not weighed as a powder: one with a
// density of its own.
func Liquid(f *lab.Form) bool { return f.Density.Given() }

// cautions takes over what the lab itself says of a bath: at every job what never
// to do, and at the scale the cautions of the steps.
func (k *Known) cautions(b lab.Bath) {
	if b.Product != nil {
		k.ask("", nevers(b.Product.Never)...)
		if b.Strength == lab.Supplied {
			k.wear("", b.Product.Name, b.Product.Hazards)
			for _, id := range b.Product.PartIDs() {
				k.wear("", b.Product.PartName(id)+" of "+b.Product.Name, b.Product.Parts[id].Hazards)
			}
		}
		return
	}
	s := b.Solution
	k.ask("", nevers(s.Never)...)
	if b.Strength != s.MadeStrength() {
		return
	}
	k.ask(Weigh, nevers(s.NeverMixing)...)
	for _, step := range s.Steps {
		k.ask(Weigh, step.Caution)
	}
	if s.Dissolve != nil {
		k.ask(Weigh, s.Dissolve.Caution)
	}
}

// wear adds what a supplier's sheet asks to wear for a job with something as it comes; empty: for every
// job.
func (k *Known) wear(job Job, name string, h *lab.Hazards) {
	if h == nil {
		return
	}
	for _, word := range h.Wear {
		pieces := asksFor(word)
		for i := range pieces {
			pieces[i].Because = "the supplier’s sheet asks for it: " + name
		}
		k.Asked = append(k.Asked, Asked{Job: job, Text: word, pieces: pieces})
	}
}

func (k *Known) ask(job Job, texts ...string) {
	for _, t := range texts {
		if t != "" {
			k.Asked = append(k.Asked, Asked{job, t, asksFor(t)})
		}
	}
}

// nevers are what must never be done, as whole sentences: torn from its list, "use it
// without gloves" would be an order.
func nevers(list []string) []string {
	out := make([]string, len(list))
	for i, t := range list {
		out[i] = "never " + t
	}
	return out
}

// With is what is known together with more cautions for a job.
func (k Known) With(job Job, cautions ...string) Known {
	k.Asked = slices.Clone(k.Asked)
	k.ask(job, cautions...)
	return k
}

// WithNever is the same with what must never be done.
func (k Known) WithNever(job Job, never ...string) Known { return k.With(job, nevers(never)...) }

// extreme adds the class of an extreme pH to what could not be worked out: a mixture of pH
// 2 or less, or 11.5 or more, counts as corrosive to the skin (CLP, Annex I, 3.2.3.1.2).
func (k *Known) extreme(a Acidity) {
	if !a.extreme() || k.Has("Skin Corr.") {
		return
	}
	if c, ok := k.vocabulary().Class("Skin Corr. 1"); ok {
		k.Classes = found(k.Classes, Found{Class: c, Statement: c.Statement, Because: []string{"its pH, " + a.Shown},
			Origin: figure.Memory, Who: []figure.Origin{figure.Memory}})
	}
}

// OfChemical gathers the hazards of a substance as it comes, in some of its forms; none: in
// all of them.
func OfChemical(r *rules.Rules, c *lab.Chemical, forms ...string) Known {
	if len(forms) == 0 {
		forms = c.FormIDs()
	}
	dust := len(c.Forms) == 0
	for _, f := range c.Forms {
		dust = dust || !Liquid(f)
	}
	if !c.Graded() || len(forms) == 0 {
		forms = []string{""}
	}
	return ofPack(r, c, dust, forms)
}

// OfForm gathers the hazards of one form of a substance as it comes.
func OfForm(r *rules.Rules, c *lab.Chemical, form string) Known {
	return ofPack(r, c, !Liquid(c.Forms[form]), []string{form})
}

// ofPack is what is known of what comes out of a pack of one of some forms.
func ofPack(r *rules.Rules, c *lab.Chemical, dust bool, forms []string) Known {
	k := Known{Status: None, rules: r}
	if !r.Said(c) {
		k.Unsaid = []string{c.Name}
	}
	for _, form := range forms {
		k.chemical(r.Lab, c, form, Part{Name: c.Name, Kinds: r.OfChemical(c), Dust: dust, Vapour: c.Volatile})
	}
	if len(forms) > 1 {
		k.Classes = hardest(r.Lab.Scheme(), k.Classes)
	}
	k.finish()
	if k.Status == Carried { // the class of the pack is its own
		k.Status = Supplied
	}
	k.Layers = []Layer{{Who: speak(r.Lab, c, forms[0]).who, Classes: k.Classes}}
	return k
}

// hardest leaves out of each list of classes of a scheme those that a harder one covers.
func hardest(scheme *lab.Scheme, list []Found) []Found {
	if scheme == nil {
		return list
	}
	for _, ladder := range scheme.Hardest {
		have := func(word string) bool {
			return slices.ContainsFunc(list, func(f Found) bool { return f.Class.Word == word })
		}
		if top := slices.IndexFunc(ladder.Classes, have); top >= 0 {
			list = slices.DeleteFunc(list, func(f Found) bool {
				return slices.Contains(ladder.Classes[top+1:],
					f.Class.Word)
			})
		}
	}
	return list
}

// chemical adds a form of a substance as it comes.
func (k *Known) chemical(l *lab.Lab, c *lab.Chemical, form string, part Part) {
	s := speak(l, c, form)
	switch {
	case !s.known && slices.Contains(k.Missing, part.Name):
	case !s.known:
		k.Missing = append(k.Missing, part.Name)
	case len(s.classes) == 0:
		part.Clear, part.Origin = true, s.by
	}
	k.Parts = parts(k.Parts, part)
	for _, w := range s.classes {
		k.class(l, w.word, part.Name, w.by)
	}
	if c.Hazards == nil {
		return
	}
	k.wear(Weigh, part.Name, c.Hazards)
	for _, e := range c.Hazards.Elsewhere {
		for _, word := range e.Classes {
			if c, ok := l.Vocabulary().Class(word); ok && !s.says(word) { // what is taken over is no dispute
				k.Elsewhere = found(k.Elsewhere, Found{Class: c, Statement: c.Statement, Because: []string{part.Name},
					List: titleOf(l, e.List), Origin: figure.Handbook, Who: []figure.Origin{figure.Handbook}})
			}
		}
	}
	k.extra(l, c.Def, "", part.Name, c.Hazards)
}

// extra adds the supplemental statements of a file, in which its keys begin with before.
func (k *Known) extra(l *lab.Lab, d lab.Def, before, name string, h *lab.Hazards) {
	for i, code := range h.Extra {
		by, _ := l.OriginOf(d, fmt.Sprintf("%shazards.extra[%d]", before, i))
		if text, ok := l.Vocabulary().Supplement(code); ok {
			k.Extra = found(k.Extra, Found{Code: code, Statement: text, Because: []string{name}, Origin: by,
				Who: []figure.Origin{by}})
		}
	}
}

// class adds a class by its word.
func (k *Known) class(l *lab.Lab, word, name string, by figure.Origin) {
	if c, ok := l.Vocabulary().Class(word); ok {
		k.Classes = found(k.Classes, Found{Class: c, Statement: c.Statement, Because: []string{name}, Origin: by,
			Who: []figure.Origin{by}})
	}
}

// add adds a bought thing by the word of its file, in which its keys begin with before.
func (k *Known) add(l *lab.Lab, d lab.Def, before string, part Part, h *lab.Hazards) {
	if h == nil || h.Classes == nil {
		k.Missing = append(k.Missing, part.Name)
	} else if len(h.Classes) == 0 {
		part.Clear = true
		part.Origin, _ = l.OriginOf(d, before+"hazards.classes")
	}
	k.Parts = parts(k.Parts, part)
	if h == nil {
		return
	}
	for i, word := range h.Classes {
		by, _ := l.OriginOf(d, fmt.Sprintf("%shazards.classes[%d]", before, i))
		k.class(l, word, part.Name, by)
	}
	k.extra(l, d, before, part.Name, h)
}

// titleOf is the name of a work that the lab or the library quotes.
func titleOf(l *lab.Lab, id string) string {
	if s, ok := l.Sources[id]; ok && s.Title != "" {
		return s.Title
	}
	return id
}

func found(list []Found, f Found) []Found {
	for i := range list {
		if list[i].Class.Word == f.Class.Word && list[i].Code == f.Code && list[i].List == f.List {
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
	for i, o := range list {
		if o.Name == p.Name {
			list[i].Dust, list[i].Vapour = o.Dust || p.Dust, o.Vapour || p.Vapour
			return list
		}
	}
	return append(list, p)
}

func (k *Known) finish() {
	sort.SliceStable(k.Classes, func(i, j int) bool { return k.Classes[i].Class.Rank < k.Classes[j].Class.Rank })
	sort.SliceStable(k.More, func(i, j int) bool { return k.More[i].Class.Rank < k.More[j].Class.Rank })
	sort.SliceStable(k.Elsewhere, func(i, j int) bool { return k.Elsewhere[i].Class.Rank < k.Elsewhere[j].Class.Rank })
	sort.SliceStable(k.Parts, func(i, j int) bool { return k.Parts[i].Name < k.Parts[j].Name })
	sort.SliceStable(k.Extra, func(i, j int) bool { return k.Extra[i].Code < k.Extra[j].Code })
	if k.rules != nil {
		kinds := []rules.Kinds{k.Kinds}
		for _, p := range k.Parts {
			kinds = append(kinds, p.Kinds)
		}
		k.Kinds = k.rules.Together(kinds...)
	}
	switch {
	case len(k.Missing) > 0:
		k.Status = Unknown
	case k.Status == None && (len(k.Classes) > 0 || len(k.Extra) > 0):
		k.Status = Carried
	}
}
