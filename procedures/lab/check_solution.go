package lab

import (
	"fmt"
	"math/big"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

func (c *checker) solution(d *Solution) {
	c.origins(d.Def)
	if d.Name == "" {
		c.missing(d.Def, "name", "a solution without a name", `"citric stop"`)
	}
	word(c, d.Role, d.At("role"))
	word(c, d.Water, d.At("water"))
	c.waste(d.Def, d.Waste)
	c.density(d.Density)
	c.keeps(d.Keeps)
	if own := d.Strengths[d.MadeStrength()]; own != nil && own.Keeps.Given() && d.Keeps.Given() &&
		!own.Keeps.Same(d.Keeps) {
		c.add(d.At("keeps"), "shape",
			fmt.Sprintf("how long it keeps is written twice, and [strength.%s] says otherwise", d.MadeStrength()),
			"keep one of the two")
	}
	c.startable(d.Start.At)
	positive(c, d.Per)
	c.ph(d.PH)
	switch {
	case d.Dissolve != nil && len(d.Steps) > 0:
		c.add(d.At("dissolve"), "shape", "a solution is made by steps or by dissolving one thing, not by both",
			"keep [[step]] or dissolve")
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
				c.add(q.Where(), "id", fmt.Sprintf("%q is the same batch as number %d", q.Text(), k+1),
					"write each volume once")
			}
		}
		if h := c.lab.Place.House.Filled(); q.Positive() && q.Exact().Cmp(h.LargestVessel.Exact()) > 0 {
			c.add(q.Where(), "range", fmt.Sprintf("%q is larger than largest_vessel (%s)", q.Text(),
				h.LargestVessel.Text()), "correct the batch, or write largest_vessel under [house]")
		}
	}
	c.strengths(d.Def, d.Strengths, d.StrengthNames(), d.MadeStrength())
}

// ph checks that a pH is one.
func (c *checker) ph(q Said[unit.Factor]) {
	if q.Given() && (q.Low() < -1 || q.High() > 15) {
		c.add(q.Where(), "range", fmt.Sprintf("%q is not a pH", q.Text()), `write what the strip or the meter says, for example "8.4..8.7"`)
	}
}

// keeps demands that an opened bottle dies no later than a sealed one, and one
// below half no later than either.
func (c *checker) keeps(k Keeps) {
	for _, p := range []struct {
		shorter, longer SaidLife
		words           string
	}{{k.Part, k.Full, "an opened bottle cannot keep longer than a sealed one"},
		{k.Low, k.Part, "a bottle below half cannot keep longer than an opened one"},
		{k.Low, k.Full, "a bottle below half cannot keep longer than a sealed one"}} {
		if p.shorter.Given() && p.longer.Given() && p.shorter.Span() > p.longer.Span() {
			c.add(p.shorter.Where(), "range", fmt.Sprintf("%q is longer than %q: %s", p.shorter.Text(),
				p.longer.Text(), p.words), "correct one of the two")
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
		c.add(at, "form", fmt.Sprintf("%s comes as a solution, and %q does not say of which strength",
			ing.Chemical.Name, ref),
			fmt.Sprintf("write which stands in the bottle: %s; for another strength write a form of its own in chemicals/%s.toml",
				list(prefixed(ing.Chemical.ID, ing.Chemical.FormIDs())), ing.Chemical.ID))
	}
}

// otherwise is what to do where a substance is not kept.
func (c *Chemical) otherwise() string {
	out := "use what the lab keeps instead"
	if c.Instead != "" {
		out = c.Instead
	}
	if c.Library {
		out += fmt.Sprintf("; a lab that has to work with it writes a file of its own, chemicals/%s.toml, and answers for it", c.ID)
	}
	return out
}

func (c *checker) refused(ing Ingredient, at figure.Where) {
	switch p := ing.Bath.Product; {
	case p != nil && ing.Bath.Strength == Supplied && p.Makes != nil && p.State.Solid() && p.Makes.Divide != MayDivide:
		c.add(at,
			"refused",
			"a spoon of "+p.Name+": its powders have settled apart, and nobody has said that a pack may be divided",
			fmt.Sprintf("make up a whole pack and add %q; of what may be divided, write divide = \"yes\" under [makes] in its file",
				p.ID+"."+p.MadeStrength()))
	case ing.Chemical == nil:
	case ing.Chemical.Keep == "never":
		c.add(at, "refused", ing.Chemical.Name+" is not kept in this lab: "+ing.Chemical.Why, ing.Chemical.otherwise())
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
			c.add(at.At("id"), "id", fmt.Sprintf("the id %q is used by step %d already", id, first+1),
				"give every step its own id")
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
				c.add(at.At("add"), "shape",
					"water by amount is not a step: the solution is filled up with water to its volume",
					"take the step out, or mix by parts")
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
			c.add(at.At("lots"), "range", "an impossible number of lots",
				"write how many lots it is added in, for example lots = 3")
		}
		positive(c, s.Within)
	}
	if byParts > 0 && byAmount > 0 {
		c.add(d.At("step"), "shape", "some steps have parts and some have amounts",
			"parts never fill up and amounts always do: use one way for all steps")
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
			c.add(at, "range", fmt.Sprintf("what is added takes up more than the whole %s", d.Per.Text()),
				"correct this amount, another one, or the volume in per")
		}
		if d.Start.With.Positive() && d.Per.Positive() && d.Start.With.Exact().Cmp(d.Per.Exact()) >= 0 {
			c.add(d.Start.With.Where(), "range",
				"starting with "+d.Start.With.Text()+" leaves no room below the mark at "+d.Per.Text(),
				"start with about three quarters of the volume")
		}
	}
	positive(c, d.Start.With)
}

// amountKind demands a mass of a solid and a mass or a volume of a liquid.
func (c *checker) amountKind(s Step, ing Ingredient) {
	if ing.Chemical != nil && s.Amount.Volume.Given() && !ing.Form.Density.Given() {
		c.add(s.Amount.Where(), "quantity", fmt.Sprintf("%q is a volume, and %s is weighed", s.Amount.Text(), ing.Name()), `write a mass, for example "6 g"; a liquid as bought needs its density`)
	}
	switch p := ing.Bath.Product; {
	case ing.Bath.Zero() || !s.Amount.Mass.Given():
	case p != nil && p.State.Solid() && ing.Bath.Strength == Supplied:
		if p.Makes != nil && p.Makes.Divide == MayDivide { // else it is refused already
			c.add(s.Amount.Where(), "quantity", fmt.Sprintf("%q of %s as bought: a solution adds what a pack makes",
				s.Amount.Text(), ing.Name()),
				fmt.Sprintf(`write add = %q and a volume of it`, p.ID+"."+p.MadeStrength()))
		}
	default:
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

// loops finds strengths and solutions that are made of themselves.
func (c *checker) loops() {
	state := map[string]int{} // 1: being walked, 2: done
	var walk func(b Bath, at figure.Where, trail []string)
	walk = func(b Bath, at figure.Where, trail []string) {
		ref := b.Ref()
		if state[ref] == 1 {
			c.add(at, "loop", "this goes round in a circle: "+strings.Join(append(trail, ref), " → "),
				"a strength is diluted from one that is made first")
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
		walk(b, b.Def().At("strength."+keyName(b.Strength)), nil)
	}
}

type fromBath struct {
	bath Bath
	at   figure.Where
}

func (c *checker) madeFrom(b Bath) []fromBath {
	d := b.Def()
	made, names := b.made(), []string(nil)
	if b.Solution != nil {
		names = b.Solution.StrengthNames()
	} else {
		names = b.Product.StrengthNames()
	}
	if b.Strength != made && (b.Product == nil || b.Strength != Supplied) {
		from, key := made, "strength."+keyName(b.Strength)
		if s := b.Decl(); s != nil && s.From != "" {
			from, key = s.From, "strength."+keyName(b.Strength)+".from"
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
