package lab

import (
	"errors"
	"fmt"
	"math/big"
	"strings"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// checker gathers problems while it walks the declarations.
type checker struct {
	lab      *Lab
	day      unit.Date
	problems []Problem
	currency string
}

// Check finds everything that cannot be so in what was declared, all at once.
// day is the binder's; zero where no date is held against one.
func Check(l *Lab, day unit.Date) []Problem {
	c := &checker{lab: l, day: day}
	c.place()
	for _, d := range l.Chemicals {
		c.chemical(d)
	}
	for _, d := range l.Products {
		c.product(d)
	}
	for _, d := range l.Solutions {
		c.solution(d)
	}
	for _, d := range l.Materials {
		c.material(d)
	}
	for _, d := range l.Processes {
		c.process(d)
	}
	for _, d := range l.Batches {
		c.batch(d)
	}
	c.store()
	c.use()
	c.storage()
	c.loops()
	c.unprocessed()
	c.sameNames()
	c.controls()
	c.problems = append(c.problems, l.heirs...)
	return once(c.problems)
}

// once drops repetitions: what is wrong with a step is wrong in every process
// that takes it over, and is said where it stands.
func once(problems []Problem) []Problem {
	seen := map[Problem]bool{}
	var out []Problem
	for _, p := range problems {
		if !seen[p] {
			seen[p] = true
			out = append(out, p)
		}
	}
	return out
}

func (c *checker) add(at figure.Where, code, what, hint string) {
	c.problems = append(c.problems, Problem{At: at, Code: code, What: what, Hint: hint})
}

func (c *checker) missing(d Def, key, what, example string) {
	hint := "write " + key + " = " + example
	if strings.HasPrefix(key, "[[") {
		hint = "write " + key + " on a line of its own, and below it " + example
	}
	c.problems = append(c.problems, Problem{At: d.At(""), OnKey: true, Code: "missing", What: what, Hint: hint})
}

// positive demands that a quantity, when written, is above zero.
func positive[T unit.Kind](c *checker, q Said[T]) {
	if q.Given() && !q.Positive() {
		name := strings.TrimPrefix(strings.TrimPrefix(unit.DimOf[T]().Name(), "a "), "an ")
		c.add(q.Where(), "range", fmt.Sprintf("%q: %s must be above zero", q.Text(), name), "write a positive number")
	}
}

// wet demands that a bath or water is neither ice nor steam.
func (c *checker) wet(q Said[unit.Temperature]) {
	if q.Given() && (q.Low() <= 0 || q.High() >= 100) {
		c.add(q.Where(), "range", fmt.Sprintf("%q: a bath lies between freezing and boiling", q.Text()), `write its temperature in °C, for example "20 °C"`)
	}
}

// density demands one that a liquid of this trade can have.
func (c *checker) density(q Said[unit.Density]) {
	if q.Given() && (q.Low() < 0.5 || q.High() > 3) {
		c.add(q.Where(), "range", fmt.Sprintf("%q: no liquid here is lighter than 0.5 or heavier than 3 g/ml", q.Text()), `write it in g/mL, as the supplier's sheet does`)
	}
}

// past demands that somebody's own look does not lie in the future.
func (c *checker) past(d unit.Date, at figure.Where, what string) {
	if !c.day.IsZero() && !d.IsZero() && c.day.Before(d) {
		c.add(at, "date", fmt.Sprintf("%s %s has not come yet: this binder is made for %s", what, d, c.day), "correct the date")
	}
}

func (c *checker) oneOf(word string, among []string, at figure.Where, what string) {
	if word != "" && !contains(among, word) {
		c.add(at, "word", fmt.Sprintf("%q is not %s", word, what), Near(word, among, "write one of "+list(among)))
	}
}

func (c *checker) currencyOf(p SaidPrice) {
	if !p.Given() {
		return
	}
	if c.currency == "" {
		c.currency = p.Currency
	} else if c.currency != p.Currency {
		c.add(p.Where(), "price", fmt.Sprintf("%q: this lab counts in %s elsewhere", p.Text(), c.currency), "write every price in one currency")
	}
}

func (c *checker) origins(d Def) {
	for _, k := range sortedKeys(d.Origin) {
		word := d.Origin[k]
		if _, ok := c.lab.Sources[word]; ok {
			continue
		}
		if _, err := figure.ParseOrigin(word); err != nil {
			key := "origin." + k
			if strings.ContainsAny(k, ".[ ") {
				key = `origin."` + k + `"`
			}
			c.add(d.At(key), "origin", fmt.Sprintf("%q is not an origin and not in sources.toml", word), "write measured, standard, supplier, handbook, house, estimate, memory or invented, or the id of a source")
		}
	}
}

func (c *checker) place() {
	p := c.lab.Place
	c.origins(p.Def)
	c.papers(p)
	h := p.House.Filled()
	for _, id := range sortedKeys(p.Scales) {
		s, at := p.Scales[id], p.At("scale."+id)
		if !s.Reads.Given() {
			c.add(at, "missing", "the scale "+quoted(id)+" does not say what it reads", `write reads = "0.1 g"`)
		}
		if s.Reads.Positive() && s.UpTo.Positive() && s.UpTo.Exact().Cmp(s.Reads.Exact()) < 0 {
			c.add(s.UpTo.Where(), "range", fmt.Sprintf("%q is less than one division of the scale (%s)", s.UpTo.Text(), s.Reads.Text()), `write the most it bears, for example up_to = "2000 g"`)
		}
		c.past(s.Checked.Date, s.Checked.Where(), "the check of "+quoted(id)+" on")
		positive(c, s.Reads)
		positive(c, s.UpTo)
	}
	for _, id := range sortedKeys(p.Cylinders) {
		s, at := p.Cylinders[id], p.At("cylinder."+id)
		if !s.Holds.Given() {
			c.add(at, "missing", "the cylinder "+quoted(id)+" does not say what it holds", `write holds = "100 mL"`)
		}
		positive(c, s.Holds)
		positive(c, s.Tolerance)
		positive(c, s.Graduation)
	}
	for _, id := range sortedKeys(p.Syringes) {
		s, at := p.Syringes[id], p.At("syringe."+id)
		for _, k := range []struct {
			given        bool
			what, hinted string
		}{{s.Holds.Given(), "what it holds", `holds = "5 mL"`}, {s.Graduation.Given(), "how it is graduated", `graduation = "0.2 mL"`}, {s.Tolerance.Given(), "how far off it may be", `tolerance = "0.1 mL"`}} {
			if !k.given {
				c.add(at, "missing", "the syringe "+quoted(id)+" does not say "+k.what, "write "+k.hinted)
			}
		}
		positive(c, s.Holds)
		positive(c, s.Tolerance)
		positive(c, s.Graduation)
		for i, ref := range s.For {
			_, problems := c.lab.Resolve(ref, at.At(fmt.Sprintf("for[%d]", i)))
			c.problems = append(c.problems, problems...)
		}
	}
	vessel := func(q Said[unit.Volume]) {
		positive(c, q)
		if q.Positive() && q.Exact().Cmp(h.LargestVessel.Exact()) > 0 {
			c.add(q.Where(), "range", fmt.Sprintf("%q is more than this house lifts and stirs by hand (%s)", q.Text(), h.LargestVessel.Text()), "correct the fill, or write largest_vessel under [house]")
		}
	}
	for _, id := range sortedKeys(p.Tanks) {
		t, at := p.Tanks[id], p.At("tank."+id)
		if !t.Fill.Given() {
			c.add(at, "missing", "the tank "+quoted(id)+" does not say what fills it", `write fill = "600 mL"`)
		}
		if t.Fill.All.Given() {
			vessel(t.Fill.All)
		}
		for _, k := range sortedKeys(t.Fill.For) {
			vessel(t.Fill.For[k])
		}
		if len(t.Takes) == 0 {
			c.add(at, "missing", "the tank "+quoted(id)+" does not say how many rolls it takes", "write takes = { 135 = 2, 120 = 1 }")
		}
		for _, k := range sortedKeys(t.Takes) {
			takes := t.Takes[k]
			if takes.N < 0 || takes.N > 1000 {
				c.add(takes.Where(), "range", fmt.Sprintf("a tank cannot take %d", takes.N), "write how many reels or sheets it takes")
			}
			if !c.family(k) {
				c.add(takes.Where(), "reference", "no format belongs to the family "+quoted(k), "the families are "+list(c.families()))
			}
			if q, _ := t.Fill.Of(k); takes.N > 0 && !q.Given() && t.Fill.Given() {
				c.add(takes.Where(), "missing", "the tank "+quoted(id)+" takes "+k+" but has no fill for it", fmt.Sprintf(`write fill = { %s = "600 mL" }`, k))
			}
		}
		positive(c, t.Pour)
	}
	for _, id := range sortedKeys(p.Trays) {
		t, at := p.Trays[id], p.At("tray."+id)
		if !t.Fill.Given() {
			c.add(at, "missing", "the tray "+quoted(id)+" does not say what fills it", `write fill = "1 L"`)
		}
		vessel(t.Fill)
		for i, f := range t.Takes {
			fat := at.At(fmt.Sprintf("takes[%d]", i))
			if formats := c.formats(); !contains(formats, f) {
				c.add(fat, "reference", "there is no format "+quoted(f), Near(f, formats, "the formats are "+list(formats)))
			}
			if width, length, ok := c.sidesOf(f); ok && t.Inside.Given() && !t.Inside.Holds(width, length) {
				c.add(fat, "range", fmt.Sprintf("%s does not lie flat in the tray %q, which is %s inside", f, id, t.Inside.Text()), "take it out of takes, or correct inside")
			}
		}
	}
	c.printing(p)
	w := p.Water
	c.currencyOf(w.Price)
	c.currencyOf(w.Deionised)
	c.wet(w.Hot)
	for _, s := range w.Cold.List() {
		c.wet(s.At)
		if w.Hot.Given() && s.At.Exact().Cmp(w.Hot.Exact()) >= 0 {
			c.add(s.At.Where(), "range", "the cold water is not colder than the hot", "correct one of the two")
		}
	}
	positive(c, h.WeighWithin)
	positive(c, h.MeasureWithin)
	positive(c, h.TimeStep)
	c.rulesOfSense()
	c.vesselNames()
}

// vesselNames finds two tanks or trays of one name: no card could tell them apart.
func (c *checker) vesselNames() {
	p := c.lab.Place
	first := map[string]string{}
	look := func(key, name string) {
		if name == "" {
			return
		}
		word := strings.ToLower(name)
		if other, again := first[word]; again {
			c.add(p.At(key+".name"), "id", fmt.Sprintf("%q is also the name of %s: no card could tell the two apart", name, other), "give one of them another name")
			return
		}
		first[word] = key
	}
	for _, id := range sortedKeys(p.Tanks) {
		look("tank."+id, p.Tanks[id].Name)
	}
	for _, id := range sortedKeys(p.Trays) {
		look("tray."+id, p.Trays[id].Name)
	}
}

// sidesOf are the sides of a format of the table or of any material.
func (c *checker) sidesOf(id string) (width, length unit.Length, ok bool) {
	f, found := c.lab.Formats.Format[id]
	for _, m := range c.lab.Materials {
		if own, has := m.Format[id]; has {
			f, found = own, true
		}
	}
	return f.Width.Value(), f.Length.Value(), found && f.Width.Positive() && f.Length.Positive()
}

// sameNames finds two solutions or products of one name: their bottles would bear
// the same label.
func (c *checker) sameNames() {
	first := map[string]string{}
	look := func(d Def, name string) {
		if name == "" {
			return
		}
		key := strings.ToLower(name)
		if other, again := first[key]; again {
			c.add(d.At("name"), "id", fmt.Sprintf("%q is also the name of %s: two bottles would bear one label", name, other), "give one of them another name")
			return
		}
		first[key] = d.File
	}
	for _, s := range c.lab.Solutions {
		look(s.Def, s.Name)
	}
	for _, p := range c.lab.Products {
		look(p.Def, p.Name)
	}
}

// controls checks who answers for each card, and warns where the day of a review
// has passed.
func (c *checker) controls() {
	l := c.lab
	defs := []Def{l.Place.Def, l.Local.Def, l.Store.Def}
	for _, d := range l.Products {
		defs = append(defs, d.Def)
	}
	for _, d := range l.Solutions {
		defs = append(defs, d.Def)
	}
	for _, d := range l.Processes {
		defs = append(defs, d.Def)
	}
	for _, d := range l.Wastes {
		defs = append(defs, d.Def)
	}
	for _, d := range defs {
		own := d.Control
		if own == nil && d.File != l.Place.File {
			continue // what lab.toml says for all is said once, there
		}
		k, ok := l.ControlOf(d)
		if !ok {
			continue
		}
		c.past(k.Date, l.ControlAt(d, "date"), "the date of this card,")
		if !k.Review.IsZero() && !k.Date.IsZero() && k.Review.Before(k.Date) {
			c.add(l.ControlAt(d, "review"), "date", fmt.Sprintf("the review on %s is before the card itself (%s)", k.Review, k.Date), "write the day by which somebody looks at it again")
		} else if k.Overdue(c.day) {
			c.problems = append(c.problems, Problem{At: l.ControlAt(d, "review"), Code: "review", Warning: true, What: fmt.Sprintf("the review was due on %s", k.Review),
				Hint: "read the card, correct what has changed, and write the next day of review; until then the card says that it is overdue"})
		}
	}
}

func (c *checker) families() []string {
	seen := map[string]bool{}
	for _, f := range c.lab.Formats.Format {
		seen[f.Family] = true
	}
	for _, m := range c.lab.Materials {
		for _, f := range m.Format {
			seen[f.Family] = true
		}
	}
	return sortedKeys(seen)
}

// formats are those of the table and those that materials bring along.
func (c *checker) formats() []string {
	seen := map[string]bool{}
	for id := range c.lab.Formats.Format {
		seen[id] = true
	}
	for _, m := range c.lab.Materials {
		for id := range m.Format {
			seen[id] = true
		}
	}
	return sortedKeys(seen)
}

func (c *checker) family(name string) bool { return contains(c.families(), name) }

func (c *checker) chemical(d *Chemical) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a chemical without a name", `"sodium sulfite"`)
	}
	if len(d.Forms) == 0 {
		c.missing(d.Def, "[form.anhydrous]", "a chemical without a form: nobody can tell what is weighed", `… with formula = "Na2SO3"`)
	}
	c.oneOf(d.Keep, []string{"never"}, d.At("keep"), `a rule for keeping (only "never" is one)`)
	for _, id := range d.FormIDs() {
		f, at := d.Forms[id], d.At("form."+id)
		if f.Formula != "" && f.Formula != "none" {
			if _, err := chem.Parse(f.Formula); err != nil {
				what, hint := chemError(err)
				c.add(at.At("formula"), "formula", fmt.Sprintf("%q is not a formula: %s", f.Formula, what), hint+`; write "none" for a substance without a fixed composition`)
			}
		}
		if f.CAS != "" {
			if err := chem.CASValid(f.CAS); err != nil {
				what, hint := chemError(err)
				c.add(at.At("cas"), "cas", fmt.Sprintf("%q is not a CAS number: %s", f.CAS, what), hint)
			}
		}
		if f.TakesUp.Negative() {
			c.add(f.TakesUp.Where(), "range", "a substance cannot take up less than nothing here", `write what a gram adds to the volume, for example "0.12 mL/g"`)
		}
		c.dissolves(f, at)
		positive(c, f.Content)
		positive(c, f.Purity)
		c.density(f.Density)
		hundred := big.NewRat(100, 1)
		for _, q := range []Said[unit.WW]{f.Content, f.Purity} {
			if q.Given() && q.Exact().Cmp(hundred) > 0 {
				c.add(q.Where(), "range", fmt.Sprintf("%q is more than the whole", q.Text()), "write at most 100 % w/w")
			}
		}
		if f.Content.Given() && !f.Density.Given() {
			c.add(f.Content.Where(), "missing", "a liquid's content without its density cannot be measured out", "write density in g/mL, as the pack or the supplier's sheet gives it")
		}
	}
	c.hazards(d.Def, d.Hazards)
}

func chemError(err error) (what, hint string) {
	var e *chem.Error
	if errors.As(err, &e) {
		return e.What, e.Hint
	}
	return err.Error(), "copy it from the pack once more"
}

func (c *checker) hazards(d Def, h *Hazards) {
	if h == nil {
		return
	}
	if h.Assessed != nil && !d.Library {
		c.past(h.Assessed.On.Date, h.Assessed.On.Where(), "the look on")
	}
	for i, e := range h.Elsewhere {
		if _, ok := c.lab.Sources[e.List]; !ok {
			c.add(d.At(fmt.Sprintf("hazards.elsewhere[%d]", i)), "reference", fmt.Sprintf("there is no source %q", e.List), "write it in sources.toml with its title, edition and the day it was opened")
		}
	}
	if h.Classes != nil && len(h.Classes) == 0 && h.Assessed == nil {
		c.add(d.At("hazards.classes"), "hazard", "classes = [] says that somebody looked and found none, but not who", `write assessed = { by = "…", on = 2026-01-12, sheet = "…" }; leave classes out if nobody has looked`)
	}
}

func (c *checker) product(d *Product) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a product without a name", `"wetting agent concentrate"`)
	}
	c.oneOf(d.Role, Roles, d.At("role"), "the part a bath plays")
	c.density(d.Density)
	c.keeps(d.Keeps)
	c.contains(d)
	c.hazards(d.Def, d.Hazards)
	c.strengths(d.Def, d.Strengths, d.StrengthNames())
	c.waste(d.Def, d.Waste)
}

func (c *checker) waste(d Def, id string) { c.route(id, d.At("waste")) }

func (c *checker) route(id string, at figure.Where) {
	if id != "" && id != "none" && c.lab.WasteRoute(id) == nil && !c.lab.Broken["waste/"+id] {
		var ids []string
		for _, w := range c.lab.Wastes {
			ids = append(ids, w.ID)
		}
		c.add(at, "reference", "there is no waste route "+quoted(id), Near(id, ids, "write it in waste/, or leave waste out: the card then says 'to a drum, ask first'"))
	}
}

func (c *checker) solution(d *Solution) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a solution without a name", `"citric stop"`)
	}
	c.oneOf(d.Role, Roles, d.At("role"), "the part a bath plays")
	c.oneOf(d.Water, []string{"tap", "deionised"}, d.At("water"), "a kind of water")
	c.waste(d.Def, d.Waste)
	c.density(d.Density)
	c.keeps(d.Keeps)
	if own := d.Strengths[d.MadeStrength()]; own != nil && own.Keeps.Given() && d.Keeps.Given() && !own.Keeps.Same(d.Keeps) {
		c.add(d.At("keeps"), "shape", fmt.Sprintf("how long it keeps is written twice, and [strength.%s] says otherwise", d.MadeStrength()), "keep one of the two")
	}
	c.wet(d.Start.At)
	positive(c, d.Per)
	c.ph(d.PH)
	switch {
	case d.Dissolve != nil && len(d.Steps) > 0:
		c.add(d.At("dissolve"), "shape", "a solution is made by steps or by dissolving one thing, not by both", "keep [[step]] or dissolve")
	case d.Dissolve == nil && len(d.Steps) == 0:
		c.missing(d.Def, "[[step]]", "nothing is put into this solution", `add = "citric-acid.anhydrous" and amount = "15 g"`)
	}
	if d.Dissolve != nil {
		c.dissolve(d)
	}
	c.steps(d)
	for i, q := range d.Make.Batches {
		positive(c, q)
		for k, before := range d.Make.Batches[:i] {
			if q.Positive() && before.Positive() && q.Exact().Cmp(before.Exact()) == 0 {
				c.add(q.Where(), "id", fmt.Sprintf("%q is the same batch as number %d", q.Text(), k+1), "write each volume once")
			}
		}
		if h := c.lab.Place.House.Filled(); q.Positive() && q.Exact().Cmp(h.LargestVessel.Exact()) > 0 {
			c.add(q.Where(), "range", fmt.Sprintf("%q is more than this house lifts and stirs by hand (%s)", q.Text(), h.LargestVessel.Text()), "correct the batch, or write largest_vessel under [house]")
		}
	}
	c.strengths(d.Def, d.Strengths, d.StrengthNames())
}

// ph checks that a pH is one.
func (c *checker) ph(q Said[unit.Factor]) {
	if q.Given() && (q.Low() < -1 || q.High() > 15) {
		c.add(q.Where(), "range", fmt.Sprintf("%q is no pH", q.Text()), `write what the strip or the meter says, for example "8.4..8.7"`)
	}
}

// keeps demands that an opened bottle dies no later than a sealed one, and one
// below half no later than either.
func (c *checker) keeps(k Keeps) {
	for _, p := range []struct {
		shorter, longer SaidLife
		words           string
	}{{k.Part, k.Full, "an opened bottle cannot keep longer than a sealed one"}, {k.Low, k.Part, "a bottle below half cannot keep longer than an opened one"}, {k.Low, k.Full, "a bottle below half cannot keep longer than a sealed one"}} {
		if p.shorter.Given() && p.longer.Given() && p.shorter.Span() > p.longer.Span() {
			c.add(p.shorter.Where(), "range", fmt.Sprintf("%q is longer than %q: %s", p.shorter.Text(), p.longer.Text(), p.words), "correct one of the two")
			return
		}
	}
}

func (c *checker) dissolve(d *Solution) {
	s := d.Dissolve
	at := d.At("dissolve")
	c.wet(s.At)
	if !s.Strength.Given() {
		c.add(at, "missing", "a percent solution without its percentage", `write strength = "10 % w/v"`)
	}
	positive(c, s.Strength)
	ing, problems := c.lab.Resolve(s.Add, at.At("add"))
	c.problems = append(c.problems, problems...)
	if ing.Water {
		c.add(at.At("add"), "reference", "water cannot be dissolved in water", "name the substance")
	}
	c.refused(ing, at.At("add"))
	c.whichForm(s.Add, ing, at.At("add"))
	if s.In == "" {
		c.add(at, "missing", "a percent solution that does not say what it is dissolved in", `write in = "water"`)
	} else {
		_, problems = c.lab.Resolve(s.In, at.At("in"))
		c.problems = append(c.problems, problems...)
	}
}

// whichForm demands the form of a substance that comes as a solution of it: whoever
// has another strength in the bottle would pour twice as much, or half.
func (c *checker) whichForm(ref string, ing Ingredient, at figure.Where) {
	if ing.Form != nil && ing.Form.Content.Given() && !strings.Contains(ref, ".") {
		c.add(at, "form", fmt.Sprintf("%s comes as a solution, and %q does not say of which strength", ing.Chemical.Name, ref), fmt.Sprintf("write %q if that is what stands in the bottle; for another strength write a form of its own in chemicals/%s.toml", ing.Ref, ing.Chemical.ID))
	}
}

func (c *checker) refused(ing Ingredient, at figure.Where) {
	switch {
	case ing.Chemical == nil:
	case ing.Chemical.Keep == "never":
		c.add(at, "refused", ing.Chemical.Name+" is not kept in this house: "+ing.Chemical.Why, "use what the house keeps instead")
	case ing.Form.Refuse != "":
		var others []string
		for _, id := range ing.Chemical.FormIDs() {
			if ing.Chemical.Forms[id].Refuse == "" {
				others = append(others, ing.Chemical.ID+"."+id)
			}
		}
		c.add(at, "refused", ing.Name()+" cannot be weighed out: "+ing.Form.Refuse, "weigh another form: "+list(others))
	}
}

func (c *checker) steps(d *Solution) {
	ids := map[string]int{}
	uses := map[string]int{}
	byParts, byAmount := 0, 0
	taken, mostTaken, most := new(big.Rat), new(big.Rat), -1 // most: the step that takes up most
	for i, s := range d.Steps {
		at := d.At(StepKey(i))
		if s.Add == "" {
			c.add(at, "missing", "a step that adds nothing", `write add = "sodium-sulfite.anhydrous"; what is only to be done or known goes into note, wait or caution`)
			continue
		}
		ing, problems := c.lab.Resolve(s.Add, at.At("add"))
		c.problems = append(c.problems, problems...)
		c.refused(ing, at.At("add"))
		c.whichForm(s.Add, ing, at.At("add"))
		id := s.ID
		if id == "" {
			id, _ = split(s.Add)
			if first, again := uses[id]; again {
				c.add(at.At("add"), "id", fmt.Sprintf("%s is added a second time (first in step %d), and neither this step's id nor its figures could be told apart", Title(id), first+1), fmt.Sprintf(`give this step an id, for example id = "%s-rest"`, id))
				id = fmt.Sprintf("%s %d", id, i)
			}
			uses[id] = i
		}
		if first, again := ids[id]; again {
			c.add(at.At("id"), "id", fmt.Sprintf("the id %q is used by step %d already", id, first+1), "give every step its own id")
		}
		ids[id] = i
		switch {
		case s.Amount.Given() && s.Parts.Given():
			c.add(s.Parts.Where(), "shape", "a step has an amount or parts, not both", "keep one of the two")
		case s.Amount.Given():
			byAmount++
			positive(c, s.Amount.Mass)
			positive(c, s.Amount.Volume)
			if ing.Water {
				c.add(at.At("add"), "shape", "water by amount is not a step: the solution is filled up with water to its volume", "take the step out, or mix by parts")
			}
			c.amountKind(s, ing)
			takes := takenUp(s, ing)
			taken.Add(taken, takes)
			if most < 0 || takes.Cmp(mostTaken) > 0 {
				most, mostTaken = i, takes
			}
		case s.Parts.Given():
			byParts++
			positive(c, s.Parts)
			if ing.Chemical != nil {
				c.add(at.At("add"), "shape", ing.Name()+" is a chemical; parts mix baths", `write amount = "…" for a chemical`)
			}
		default:
			c.add(at, "missing", "a step that does not say how much", `write amount = "15 g", or parts = 1 … of a bath`)
		}
		if s.Lots > 20 {
			c.add(at.At("lots"), "range", "an impossible number of lots", "write how many lots it is added in, for example lots = 3")
		}
		positive(c, s.Within)
	}
	if byParts > 0 && byAmount > 0 {
		c.add(d.At("step"), "shape", "some steps have parts and some have amounts", "parts never fill up and amounts always do: use one way for all steps")
	}
	if byAmount > 0 {
		if !d.Per.Given() {
			c.missing(d.Def, "per", "amounts without the volume they are for", `"1 L"  (of finished solution)`)
		}
		if d.Per.Positive() && taken.Cmp(d.Per.Exact()) > 0 {
			at := d.Per.Where()
			if most >= 0 {
				at = d.Steps[most].Amount.Where()
			}
			c.add(at, "range", fmt.Sprintf("what is added takes up more than the whole %s", d.Per.Text()), "correct this amount, another one, or the volume in per")
		}
		if d.Start.With.Positive() && d.Per.Positive() && d.Start.With.Exact().Cmp(d.Per.Exact()) >= 0 {
			c.add(d.Start.With.Where(), "range", "starting with "+d.Start.With.Text()+" leaves no room below the mark at "+d.Per.Text(), "start with about three quarters of the volume")
		}
	}
	positive(c, d.Start.With)
}

// amountKind demands a mass of a solid and a mass or a volume of a liquid.
func (c *checker) amountKind(s Step, ing Ingredient) {
	if ing.Chemical != nil && s.Amount.Volume.Given() && !ing.Form.Density.Given() {
		c.add(s.Amount.Where(), "quantity", fmt.Sprintf("%q is a volume, and %s is weighed", s.Amount.Text(), ing.Name()), `write a mass, for example "6 g"; a liquid as bought needs its density`)
	}
	if !ing.Bath.Zero() && s.Amount.Mass.Given() {
		c.add(s.Amount.Where(), "quantity", fmt.Sprintf("%q is a mass, and %s is measured as a liquid", s.Amount.Text(), ing.Name()), `write a volume, for example "20 mL"`)
	}
}

// takenUp is the volume in ml that a step fills, exactly; an unknown powder
// counts as nothing.
func takenUp(s Step, ing Ingredient) *big.Rat {
	switch {
	case s.Amount.Volume.Given():
		return s.Amount.Volume.Exact()
	case s.Amount.Mass.Given() && ing.Form != nil && ing.Form.TakesUp.Given():
		return new(big.Rat).Mul(s.Amount.Mass.Exact(), ing.Form.TakesUp.Exact())
	case s.Amount.Mass.Given() && ing.Form != nil && ing.Form.Density.Positive():
		return new(big.Rat).Quo(s.Amount.Mass.Exact(), ing.Form.Density.Exact())
	}
	return new(big.Rat)
}

func (c *checker) strengths(d Def, declared map[string]*Strength, names []string) {
	made := names[0]
	for _, name := range sortedKeys(declared) {
		s, at := declared[name], d.At("strength."+name)
		c.oneOf(s.Use, Uses, at.At("use"), "a way to use a bath")
		c.oneOf(s.Water, []string{"tap", "deionised"}, at.At("water"), "a kind of water")
		positive(c, s.Needs)
		c.ph(s.PH)
		c.keeps(s.Keeps)
		c.limits(s, at)
		if name == made {
			if s.Dilute.Given() && !s.Dilute.None() {
				c.add(s.Dilute.Where(), "dilution", quoted(name)+" is what the steps make; it is not a dilution of itself", "give the dilution a name of its own, for example [strength.working]")
			}
		} else {
			if !s.Dilute.Given() {
				c.add(at, "missing", "the strength "+quoted(name)+" does not say how it is diluted", `write dilute = "1+4", or dilute = "none" if it is used as it is`)
			}
			if s.From != "" && !contains(names, s.From) {
				c.add(at.At("from"), "reference", quoted(d.ID)+" has no strength "+quoted(s.From), Near(s.From, names, "its strengths are "+list(names)))
			}
		}
		w, wat := s.Temperature, at.At("temperature")
		c.wet(w.From)
		c.wet(w.StopAbove)
		for _, p := range w.Measured {
			c.wet(p.At)
		}
		if w.Slope.Given() {
			positive(c, w.Slope)
			if !w.From.IsRange() {
				c.add(w.Slope.Where(), "missing", "a slope without the temperatures between which it holds", `write from = "18..24 °C"`)
			}
		}
		positive(c, w.Shortest)
		c.strengthOfSense(s)
		c.pairs(w, wat)
		for _, p := range []struct {
			s   *Stops
			key string
		}{{s.Push, "push"}, {s.Pull, "pull"}} {
			if p.s == nil {
				continue
			}
			positive(c, p.s.Factor)
			if !p.s.Factor.Given() || !p.s.Most.Given() {
				c.add(at.At(p.key), "missing", "a push or pull says its factor for one stop and how many stops at most", `write `+p.key+` = { factor = "1.40 /stop", most = 2 }`)
			}
			if p.s.Most.Count > 4 {
				c.add(p.s.Most.Where(), "range", fmt.Sprintf("%d stops are more than anybody tries", p.s.Most.Count), "write how many stops at most, from 1 to 4")
			}
		}
	}
}

// pairs demands two times at two temperatures, the warmer one shorter.
func (c *checker) pairs(w Window, at figure.Where) {
	if w.Measured == nil {
		return
	}
	hint := `write measured = [ { at = "20 °C", time = "10:00" }, { at = "24 °C", time = "7:00" } ]`
	if len(w.Measured) != 2 || !w.Measured[0].Time.Positive() || !w.Measured[1].Time.Positive() || !w.Measured[0].At.Given() || !w.Measured[1].At.Given() {
		c.add(at.At("measured"), "shape", "a slope takes two measured times, each with its temperature", hint)
		return
	}
	cold, warm := w.Measured[0], w.Measured[1]
	if cold.At.Value() >= warm.At.Value() || cold.Time.Value() <= warm.Time.Value() {
		c.add(at.At("measured"), "range", "the second time is not shorter at a higher temperature", hint)
	}
	if w.Slope.Given() {
		c.add(at.At("measured"), "shape", "a slope is written and measured at once", "keep one of the two")
	}
	if !w.From.IsRange() {
		c.add(at.At("measured"), "missing", "a slope without the temperatures between which it holds", `write from = "18..24 °C"`)
	}
}

// HasSlope reports whether times at other temperatures can be worked out.
func (w Window) HasSlope() bool { return w.Slope.Given() || len(w.Measured) == 2 }

// loops finds strengths and solutions that are made of themselves.
func (c *checker) loops() {
	state := map[string]int{} // 1: being walked, 2: done
	var walk func(b Bath, at figure.Where, trail []string)
	walk = func(b Bath, at figure.Where, trail []string) {
		ref := b.Ref()
		if state[ref] == 1 {
			c.add(at, "loop", "this goes round in a circle: "+strings.Join(append(trail, ref), " → "), "a strength is diluted from one that is made first")
			return
		}
		if state[ref] == 2 {
			return
		}
		state[ref] = 1
		trail = append(trail, ref)
		for _, next := range c.madeFrom(b) {
			walk(next.bath, next.at, trail)
		}
		state[ref] = 2
	}
	for _, b := range c.lab.Baths() {
		walk(b, b.Def().At("strength."+b.Strength), nil)
	}
}

type fromBath struct {
	bath Bath
	at   figure.Where
}

func (c *checker) madeFrom(b Bath) []fromBath {
	d := b.Def()
	made, names := Supplied, []string(nil)
	if b.Solution != nil {
		made, names = b.Solution.MadeStrength(), b.Solution.StrengthNames()
	} else {
		names = b.Product.StrengthNames()
	}
	if b.Strength != made {
		from, key := made, "strength."+b.Strength
		if s := b.Decl(); s != nil && s.From != "" {
			from, key = s.From, "strength."+b.Strength+".from"
		}
		if !contains(names, from) {
			return nil
		}
		next := b
		next.Strength = from
		return []fromBath{{next, d.At(key)}}
	}
	if b.Solution == nil {
		return nil
	}
	var out []fromBath
	for i, s := range b.Solution.Steps {
		at := d.At(StepKey(i)).At("add")
		if ing, problems := c.lab.Resolve(s.Add, at); len(problems) == 0 && !ing.Bath.Zero() {
			out = append(out, fromBath{ing.Bath, at})
		}
	}
	if dis := b.Solution.Dissolve; dis != nil {
		at := d.At("dissolve.in")
		if ing, problems := c.lab.Resolve(dis.In, at); len(problems) == 0 && !ing.Bath.Zero() {
			out = append(out, fromBath{ing.Bath, at})
		}
	}
	return out
}

// Baths lists every strength of every solution and product.
func (l *Lab) Baths() []Bath {
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

func (c *checker) material(d *Material) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a material without a name", `"cubic-grain film ISO 400"`)
	}
	if d.Base == "" {
		c.missing(d.Def, "base", "a material that does not say what it is made on", orWords(Bases))
	}
	c.oneOf(d.Base, Bases, d.At("base"), "a base")
	c.oneOf(d.Grain, []string{"cubic", "tabular"}, d.At("grain"), "a grain")
	if d.Speed.Count > 100000 {
		c.add(d.Speed.Where(), "range", "an impossible film speed", "write the ISO speed, for example speed = 400")
	}
	if len(d.Formats) == 0 {
		c.missing(d.Def, "formats", "a material without a format has no area: nothing can be counted", `["…"], with the sizes it is sold in, such as ["135-36", "120"] for a film or ["18x24"] for a paper`)
	}
	for i, id := range d.Formats {
		f, at, ok := c.lab.FormatOf(d, id)
		if !ok {
			c.add(d.At(fmt.Sprintf("formats[%d]", i)), "reference", "there is no format "+quoted(id), Near(id, sortedKeys(c.lab.Formats.Format), "write [format."+keyName(id)+"] with area, rolls and family"))
			continue
		}
		if !f.Area.Given() && !(f.Width.Given() && f.Length.Given()) {
			c.add(at, "missing", "the format "+quoted(id)+" has no area", `write area = "516 cm2", or width and length`)
		}
		positive(c, f.Area)
		positive(c, f.Width)
		positive(c, f.Length)
		positive(c, f.Rolls)
		c.oneOf(f.Piece, PieceWords, at.At("piece"), "what one of a format is")
	}
	positive(c, d.Silver.Coated)
	positive(c, d.Silver.Undeveloped)
	positive(c, d.Clears)
	c.materialOfSense(d)
	seen := map[string]int{}
	for i, dev := range d.Develop {
		at := d.At(fmt.Sprintf("develop[%d]", i))
		c.wet(dev.At)
		if dev.In == "" {
			c.add(at, "missing", "a development that does not say in which developer", `write in = "film-developer.working"`)
			continue
		}
		b, problems := c.lab.Bath(dev.In, at.At("in"))
		c.problems = append(c.problems, problems...)
		if !b.Zero() {
			if first, again := seen[b.Ref()]; again {
				c.add(at.At("in"), "id", fmt.Sprintf("a second time in %s (the first is number %d)", b.Ref(), first+1), "one measured time for each developer; other temperatures come from its slope")
			}
			seen[b.Ref()] = i
			if s := b.Decl(); dev.At.Given() && s != nil && s.Temperature.From.Given() {
				w := s.Temperature.From
				if dev.At.Value() < w.Low() || dev.At.Value() > w.High() {
					c.add(dev.At.Where(), "range", fmt.Sprintf("%s is outside the window of %s (%s)", dev.At.Text(), b.Ref(), w.Text()), "measure a time inside the window")
				}
			}
		}
		if !dev.Time.Given() {
			c.add(at, "missing", "a development without its time", `write time = "11:00"`)
		}
		if !dev.At.Given() {
			c.add(at, "missing", "a development time without its temperature", `write at = "20 °C"`)
		}
		positive(c, dev.Time)
	}
}

func (c *checker) process(d *Process) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a process without a name", `"Film negative"`)
	}
	if d.unbuilt {
		return
	}
	if len(d.Steps) == 0 {
		c.missing(d.Def, "[[step]]", "a process without steps", `id = "develop" and bath = "film-developer.working"`)
	}
	if d.Base == "" {
		c.missing(d.Def, "base", "a process that does not say what it is for", orWords(Bases))
	}
	c.oneOf(d.Base, Bases, d.At("base"), "a base")
	c.oneOf(d.Clock.Starts, []string{"pour-in", "poured"}, d.At("clock.starts"), "when the clock starts")
	positive(c, d.Clock.Drain)
	c.wet(d.Temperature.At)
	if d.Temperature.At.IsRange() {
		c.add(d.Temperature.At.Where(), "shape", fmt.Sprintf("%q: the baths of a process are brought to one temperature", d.Temperature.At.Text()), `write at = "20 °C" and how far off it may be, within = "1 K"`)
	}
	ids := map[string]bool{}
	for i, s := range d.Steps {
		at := d.At(StepKey(i))
		if s.ID == "" {
			c.add(at, "missing", "a step without an id", `write id = "develop"`)
		} else if ids[s.ID] {
			c.add(d.At(StepKey(i)+".id"), "id", fmt.Sprintf("the id %q is used twice", s.ID), "give every step its own id")
		}
		ids[s.ID] = true
		switch kinds := s.kinds(); len(kinds) {
		case 0:
			c.add(at, "shape", fmt.Sprintf("step %q says nothing to do", s.ID), "a step has exactly one of bath, fills, flow and do")
		case 1:
		default:
			c.add(at, "shape", fmt.Sprintf("step %q has %s at once", s.ID, strings.Join(kinds, " and ")), "a step has exactly one of bath, fills, flow and do")
		}
		key := func(k string) figure.Where { return d.At(StepKey(i) + "." + k) }
		if s.Bath != "" {
			if s.Bath == "water" {
				c.add(key("bath"), "shape", "water is no bath with a strength", `write fills = [1] with its time, or flow = "3 L/min", or do = "soak in water"`)
			} else {
				b, problems := c.lab.Bath(s.Bath, key("bath"))
				c.bare(s.Bath, b, key("bath"))
				c.problems = append(c.problems, problems...)
			}
			if !s.Time.Given() && s.Until == "" {
				c.add(at, "missing", "a bath without how long it takes", `write time = "1:00", "material" or "clearing", or until = "…" for a step by eye`)
			}
		} else if s.Place != 0 || s.Fill.Given() {
			c.add(at, "shape", fmt.Sprintf("step %q has no bath, and only a bath has a place or a fill", s.ID), "take place and fill out of the step")
		}
		if s.Flow.Given() && !s.Time.Given() && s.Until == "" {
			c.add(at, "missing", "running water without how long it runs", `write time = "5:00", or until = "…" for a step by eye`)
		}
		if s.Until != "" && (s.Time.Material || s.Time.Clearing) {
			c.add(key("until"), "shape", "a step by eye has no time of the material's own", "keep until or time; a plain time beside until is a guide")
		}
		if s.Place > 2 {
			c.add(key("place"), "range", "a bath is the first or the second of two", "write place = 1 or place = 2")
		}
		c.wet(s.StopAbove)
		c.wet(s.Below)
		if len(s.Fills) > 0 && s.Time.Given() && s.Over.Given() {
			c.add(key("time"), "shape", fmt.Sprintf("step %q says twice how long its fills take", s.ID), "keep time or over")
		}
		if len(s.Fills) > 0 && (s.Time.Material || s.Time.Clearing) {
			c.add(key("time"), "shape", "fills of water have no time of the material's own", `write a time, for example time = "1:00"`)
		}
		positive(c, s.Fill)
		positive(c, s.Over)
		c.route(s.Waste, key("waste"))
		positive(c, s.Time.Fixed)
		positive(c, s.Least)
		positive(c, s.Flow)
		if s.Agitate != "" {
			if _, ok := d.Agitate[s.Agitate]; !ok {
				c.add(key("agitate"), "reference", "there is no way to agitate called "+quoted(s.Agitate), Near(s.Agitate, sortedKeys(d.Agitate), fmt.Sprintf(`write [agitate.%s]`, s.Agitate)))
			}
		}
		for k, n := range s.Fills {
			if n < 0 || n > 500 {
				c.add(key(fmt.Sprintf("fills[%d]", k)), "range", "an impossible number of turns", "write how often the tank is turned in each fill, for example [5, 10, 20, 20]")
			}
		}
		if s.CollectFirst.N < 0 || s.CollectFirst.N > len(s.Fills) {
			c.add(s.CollectFirst.Where(), "range", "more fills are collected than there are", "write how many of the first fills go to the drum")
		}
	}
	c.tooWarm(d)
	c.processOfSense(d)
	for _, name := range sortedKeys(d.Agitate) {
		a := d.Agitate[name]
		positive(c, a.Lasts)
		if a.Then.Given() && !a.Then.Every {
			c.add(d.At("agitate."+name+".then"), "agitation", quoted(a.Then.Text())+" does not say how often", `write then = "4 every 60 s"`)
		}
	}
}

// tooWarm finds a process that is as warm as one of its steps must never be.
func (c *checker) tooWarm(d *Process) {
	q := d.Temperature.At
	if !q.Given() {
		return
	}
	warmest := q.High()
	words := fmt.Sprintf("its baths stand at %s", unit.Spoken(q))
	if w := d.Temperature.Within; w.Given() {
		warmest = warmest.Add(w.High())
		words += " within " + unit.Spoken(w)
	}
	for i, s := range d.Steps {
		stop, who := s.StopAbove, "this step"
		if b, bad := c.lab.Bath(s.Bath, d.At(StepKey(i))); len(bad) == 0 && !b.Zero() && b.Decl() != nil {
			if own := b.Decl().Temperature.StopAbove; own.Given() && (!stop.Given() || own.Low() < stop.Low()) {
				stop, who = own, b.Ref()
			}
		}
		if stop.Given() && warmest > stop.Low() {
			c.add(q.Where(), "range", fmt.Sprintf("%s, and step %q must stop above %s (stop_above of %s)", words, s.ID, unit.Spoken(stop), who), "make the process colder, or how far off it may be smaller; stop_above is there because warmer does harm")
		}
	}
}

// bare warns of a bath that is named without its strength where there are
// several: what is meant is taken to be the stock.
func (c *checker) bare(ref string, b Bath, at figure.Where) {
	if b.Zero() || strings.Contains(ref, ".") {
		return
	}
	names := b.Def().ID
	var all []string
	if b.Solution != nil {
		all = b.Solution.StrengthNames()
	} else {
		all = b.Product.StrengthNames()
	}
	if len(all) > 1 {
		c.problems = append(c.problems, Problem{At: at, Code: "strength", Warning: true, What: fmt.Sprintf("%q does not say which strength: the %s is taken", ref, b.Strength), Hint: "write one of " + list(prefixed(names, all))})
	}
}

func (c *checker) store() {
	seen := map[string]int{}
	s := c.lab.Store
	for i, p := range s.Packs {
		at := s.At(fmt.Sprintf("pack[%d]", i))
		if p.Of == "" {
			c.add(at, "missing", "a pack that does not say what is in it", `write of = "sodium-sulfite.anhydrous"`)
			continue
		}
		ing, problems := c.lab.Resolve(p.Of, at.At("of"))
		c.problems = append(c.problems, problems...)
		if len(problems) == 0 && ing.Ref != "" {
			if first, again := seen[ing.Ref]; again {
				c.add(at.At("of"), "id", fmt.Sprintf("a second pack of %s (the first is number %d)", ing.Ref, first+1), "write one pack with what is left in all")
			}
			seen[ing.Ref] = i
		}
		c.currencyOf(p.Price)
	}
}
