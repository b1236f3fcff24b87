package work

import (
	"cmp"
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Cyanide is the hydrogen cyanide that can come of a bath with thiocyanate, carried into an acid bath. Of a
// process without water between the two it stands at the acid bath, else at each step of water between them.
type Cyanide struct {
	// From is the bath with the thiocyanate, and Into the acid one; Unsaid: nobody has said what is in Into.
	From, Into *Bath
	Unsaid     bool
	// Rinsed: there is water between them.
	Rinsed bool
	// Unwashed is what there can be at most without that water, in the worst of the tanks, and Washed with it;
	// nil where Why says why nobody can tell, and Washed also where water only runs.
	Unwashed, Washed *figure.Record
	Why              string
}

// Stain is whether the bath after a permanganate bleach can clear its brown stain.
type Stain struct {
	capacity.Cleared
	// From is the bleach.
	From *Bath
	// NotAcid: it is not acid, and the stain takes acid to go.
	NotAcid bool
	// Why says why nobody can tell whether it is enough.
	Why string
}

const (
	filmAlone = "it is worked out for films in tanks alone"
	noTank    = "no tank of this lab takes these films"
	noContent = "how much of it there is nobody has written"
)

// cyanide finds each bath with thiocyanate that an acid bath follows.
func (w *Work) cyanide(p *Process) {
	var from *Bath
	var water []int
	fills := 0
	for i, s := range p.Decl.Steps {
		b := p.Baths[i]
		switch {
		case b == nil && s.Optional: // nobody can count on it
		case b == nil && (len(s.Fills) > 0 || s.Flow.Given()):
			water, fills = append(water, i), fills+len(s.Fills)
		case b == nil:
		case w.mix.Rules.OfBath(b.Bath).Any("thiocyanate"):
			from, water, fills = b, nil, 0
		case from != nil && w.acidEnough(b):
			c := &Cyanide{From: from, Into: b, Rinsed: len(water) > 0, Unsaid: b.Dangers.Known.Status == Unknown}
			w.cyanideOf(p, c, i, fills)
			if !c.told() {
				from = nil
				continue
			}
			w.tellCyanide(p, c, i)
			at := water
			if len(water) == 0 {
				at = []int{i}
			}
			for _, j := range at {
				p.Steps[j].Cyanide = c
			}
			from = nil
		}
	}
}

// acidEnough reports a bath in which thiocyanate may give hydrogen cyanide: a strong acid, and a bleach that
// holds acid or of which nobody has said what is in it.
func (w *Work) acidEnough(b *Bath) bool {
	kinds := w.mix.Rules.OfBath(b.Bath)
	return kinds.Any("acid-strong") || b.Role() == lab.Bleach && (kinds.Any("acid") || b.Dangers.Known.Status == Unknown)
}

// leastCyanide is, in grams, what a process does not keep silent about: a tenth of what a cubic
// metre of air may hold for a working day (1 mg, Directive (EU) 2017/164, from memory). It is
// our own rule.
const leastCyanide = 0.0001

// told reports whether a process says it: a number stands on no card, it decides this alone.
// What nobody can work out is always said.
func (c *Cyanide) told() bool { return c.Unwashed == nil || c.Unwashed.Value >= leastCyanide }

// tellCyanide enters what the process says of it.
func (w *Work) tellCyanide(p *Process, c *Cyanide, i int) {
	answer := "wash before it, extractor fan on"
	if c.Rinsed {
		answer = "do not shorten the wash before it"
	}
	because := "thiocyanate of " + c.From.Name() + " is carried into " + c.Into.Name() + ", which is acid"
	if c.Unsaid {
		because = "thiocyanate of " + c.From.Name() + " is carried into " + c.Into.Name() + ", which may be acid"
	}
	w.mix.Book.EnterVerdict(figure.Verdict{ID: figure.ID(p.Decl.ID, "cyanide."+p.Decl.Steps[i].ID), Answer: answer,
		Because: []string{because + ": hydrogen cyanide"}, Source: "the pairs that never meet"})
}

// cyanideOf works out how much there can be at most (M9).
func (w *Work) cyanideOf(p *Process, c *Cyanide, i, fills int) {
	id, what := p.Decl.Steps[i].ID, "cyanide."
	salts := w.saltsOf(c.From, "SCN-")
	loads := w.loadsOf(p)
	switch {
	case len(salts) == 0:
		c.Why = noContent
	case p.Decl.Base != lab.Film:
		c.Why = filmAlone
	case len(loads) == 0:
		c.Why = noTank
	}
	if c.Why != "" {
		return
	}
	worst := func(word string, fills int) *figure.Record {
		var most figure.Figure[unit.Mass]
		for _, t := range loads {
			x := t.Cyanide(w.mix, figure.ID(p.Decl.ID, what+id, t.Format.Ref(), tankOf(t.Vessel), word), salts, fills)
			if most.Record() == nil || x.Value > most.Value {
				most = x
			}
		}
		return figure.Enter(w.mix.Book, most)
	}
	c.Unwashed = worst("unwashed", 0)
	if fills > 0 {
		c.Washed = worst("washed", fills)
	}
}

// stain finds the bath that clears the brown stain of a permanganate bleach: the next one.
func (w *Work) stain(p *Process) {
	var bleach *Bath
	for i, b := range p.Baths {
		switch {
		case b == nil:
		case len(w.saltsOf(b, "MnO4-")) > 0:
			bleach = b
		case bleach != nil:
			if b.Role() == lab.ClearingBath || len(w.saltsOf(b, sulfites...)) > 0 {
				p.Steps[i].Stain = w.stainOf(p, i, bleach)
			}
			bleach = nil
		}
	}
}

// sulfites are the ions of sulfurous acid.
var sulfites = []string{"S2O5-2", "HSO3-", "SO3-2"}

// stainOf works out G6 for the tank in which the bath is enough the fewest times.
func (w *Work) stainOf(p *Process, i int, bleach *Bath) *Stain {
	b := p.Baths[i]
	out := &Stain{From: bleach, NotAcid: b.Acid.Cool.Within != nil && b.Acid.Cool.PH.Value >= neutral}
	salts, loads := w.saltsOf(b, sulfites...), w.loadsOf(p)
	switch {
	case len(salts) == 0 && (b.Dangers.Known.Status == Unknown || len(w.mix.Made(b.Bath).Others) > 0):
		out.Why = noContent
	case len(salts) == 0:
		out.Why = "there is no sulfite in it"
	case p.Decl.Base != lab.Film:
		out.Why = filmAlone
	case len(loads) == 0:
		out.Why = noTank
	}
	if out.Why != "" {
		return out
	}
	worst := slices.MaxFunc(loads, func(x, y capacity.TankLoad) int { return cmp.Compare(x.Share(), y.Share()) })
	out.Cleared = worst.Clears(w.mix, figure.ID(p.Decl.ID, "stain."+p.Decl.Steps[i].ID, worst.Format.Ref(),
		tankOf(worst.Vessel)), w.saltsOf(bleach, "MnO4-")[0], salts)
	return out
}

// loadsOf are the tanks that the films of a process fill, each full of one format.
func (w *Work) loadsOf(p *Process) []capacity.TankLoad {
	if p.Decl.Base != lab.Film {
		return nil
	}
	var out []capacity.TankLoad
	tanks, _ := capacity.Vessels(w.lab)
	for _, m := range w.lab.Through(p.Decl) {
		for _, f := range w.formats(m) {
			for _, v := range tanks {
				if t, ok := capacity.LoadOf(w.mix, v, f); ok && v.Fits(f) {
					out = append(out, t)
				}
			}
		}
	}
	return out
}

// saltsOf are the salts of a bath that hold one of some ions.
func (w *Work) saltsOf(b *Bath, ions ...string) []capacity.Salt {
	var out []capacity.Salt
	for _, c := range w.mix.Made(b.Bath).Contents {
		if s, ok := saltOf(c, ions); ok {
			out = append(out, s)
		}
	}
	return out
}

func saltOf(c mix.Content, ions []string) (capacity.Salt, bool) {
	formula, err := chem.Parse(c.Chemical.Forms[c.Form].Formula)
	k := lab.Count(0)
	for ion, n := range c.Chemical.InWater(c.Form) {
		if slices.Contains(ions, ion) {
			k += n
		}
	}
	if err != nil || k == 0 {
		return capacity.Salt{}, false
	}
	return capacity.Salt{Content: c.Conc, Of: figure.Constant(unit.Factor(k), "ions of one unit of "+c.Chemical.Name,
		"its ions", figure.Standard), Molar: figure.Constant(unit.Molar(formula.MolarMass()),
		"molar mass of "+formula.String(), "IUPAC/CIAAW 2021", figure.Standard)}, true
}
