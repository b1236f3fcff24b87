package work

import (
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Carrying is what prints carry from tray to tray in one process: into the stop bath, and into the
// second of two fixing baths.
type Carrying struct {
	Process *lab.Process
	// Developer and Stop are two baths that follow each other, and Takes what a litre of each takes
	// up until the stop bath is spent; nil where there are none, or where StopWhy says why.
	Developer, Stop *Bath
	StopWhy         string
	Takes, Alkali   *figure.Record
	// Fixer stands in two trays, and Most is what the second may hold of silver; nil where it does not,
	// or where nobody has written that.
	Fixer  *Bath
	Most   *figure.Record
	Prints []CarriedPrint
	// Leaves is the share that the first fixing bath leaves; nil where nobody has written it.
	Leaves *figure.Record
	// Reserve is of a fixer that is to stay near neutral after the stop bath; nil where there is none.
	Reserve *Reserve
}

// CarriedPrint is one format.
type CarriedPrint struct {
	Format capacity.Format
	// Of is the format and the materials.
	Of Alike
	// Carries is what one of it carries along, Stopped how many of it a litre of the stop bath
	// stops, and First how many a litre of the first fixing bath treats; nil where nobody can tell.
	Carries, Stopped, First *figure.Record
	// Neutral is how many of it a litre of the fixer takes at most until it is no longer near neutral; nil
	// where that is not asked, or nobody can tell.
	Neutral *figure.Record
	// Second is the second bath when the first has done so many; nil where nobody can tell.
	Second *capacity.Second
}

// spentStop is the pH at which a stop bath is spent.
const spentStop = 5.5

// carrying is the stage of what prints carry along.
func (w *Work) carrying() {
	for _, p := range w.Processes {
		if p.Decl.Base == lab.Film || p.Decl.Like != "" {
			continue
		}
		c := &Carrying{Process: p.Decl}
		w.stopped(p, c)
		c.Reserve, _ = w.reserve(p)
		w.fixedTwice(p, c)
		if c.Stop == nil && c.Fixer == nil && c.Reserve == nil {
			continue
		}
		var fixer lab.Bath
		if c.Fixer != nil {
			fixer = c.Fixer.Bath
		}
		for _, k := range capacity.Kinds(w.lab, fixer, w.formatsOfAll(w.lab.OfBase(p.Decl.Base))) {
			if x, ok := w.carriedPrint(p, c, k.Format); ok {
				x.Of = Alike{Format: k.Format, Others: k.Others}
				c.Prints = append(c.Prints, x)
			}
		}
		w.mergePrints(c)
		if len(c.Prints) > 0 {
			w.Carrying = append(w.Carrying, c)
		}
	}
}

// mergePrints puts papers that carry the same into one.
func (w *Work) mergePrints(c *Carrying) {
	kept, of := oneRow(w, c.Prints, -1, func(x CarriedPrint) capacity.Kind { return x.Of.kind() },
		func(x, y CarriedPrint) bool {
			if (x.Second == nil) != (y.Second == nil) {
				return false
			}
			if s, o := x.Second, y.Second; s != nil && (s.Known != o.Known || s.Over != o.Over ||
				!sameRecord(s.Held, o.Held)) {
				return false
			}
			return sameRecord(x.Carries, y.Carries) && sameRecord(x.Neutral, y.Neutral) && sameRecord(x.Stopped, y.Stopped) && sameRecord(x.First, y.First)
		})
	for i := range kept {
		kept[i].Of = of[i]
	}
	c.Prints = kept
}

// stopped finds the developer and the stop bath after it, and what each takes up.
func (w *Work) stopped(p *Process, c *Carrying) {
	var last *Bath
	for _, b := range p.Baths {
		if b == nil {
			continue
		}
		if last != nil && last.Role() == "developer" && b.Role() == "stop" {
			c.Developer, c.Stop = last, b
			break
		}
		last = b
	}
	if c.Stop == nil {
		return
	}
	ask := func(b *Bath, acid bool) *figure.Record {
		if c.StopWhy != "" {
			return nil
		}
		if b.Acid.Cool.Within == nil {
			c.StopWhy = "the pH of " + b.Name() + " is not worked out: " + b.Acid.Cool.PH.Why
			return nil
		}
		if b.Acid.Cool.PH.Value < spentStop != acid {
			c.StopWhy = "the pH of " + b.Name() + " already lies beyond that of a spent stop bath"
			return nil
		}
		n, why := w.titre(b, spentStop)
		if why != "" {
			c.StopWhy = why
			return nil
		}
		return n.Record()
	}
	c.Takes, c.Alkali = ask(c.Stop, true), ask(c.Developer, false)
}

// fixedTwice finds the fixer that stands in two trays.
func (w *Work) fixedTwice(p *Process, c *Carrying) {
	for i, s := range p.Decl.Steps {
		if s.Place == 2 && p.Baths[i] != nil && p.Baths[i].Role() == "fixer" {
			c.Fixer = p.Baths[i]
		}
	}
	if c.Fixer == nil {
		return
	}
	if most := w.secondMost(c.Fixer, p.Decl.Base); most.Given() {
		c.Most = figure.Declare(w.mix.Book, figure.ID(c.Fixer.Ref(), "second-most", string(p.Decl.Base)),
			figure.KindAmount,
			most.Figure("most silver that the second bath may hold"), unit.Short(float64(most.Value())), "g/L")
	}
	if x := w.lab.Place.House.FirstLeaves; x.Given() {
		c.Leaves = figure.Declare(w.mix.Book, figure.ID("house", "first-fix-leaves"),
			figure.KindRatio, x.Figure("share of the silver that the first bath leaves"),
			unit.Short(float64(x.Value())), "%")
	}
}

// secondMost is the most silver that the second of two baths may hold.
func (w *Work) secondMost(b *Bath, base lab.Base) lab.Said[unit.Concentration] {
	for _, l := range b.Written().Limits {
		if l.By == "silver" && l.Place == 2 && (l.For == "" || l.For == base) {
			return l.Most.Silver
		}
	}
	return lab.Said[unit.Concentration]{}
}

func (w *Work) carriedPrint(p *Process, c *Carrying, f capacity.Format) (out CarriedPrint, ok bool) {
	q, ok := capacity.Carried(f)
	if !ok {
		return out, false
	}
	out = CarriedPrint{Format: f, Carries: figure.Enter(w.mix.Book, q)}
	if c.Alkali != nil {
		id := figure.ID(c.Stop.Ref(), "stops", f.Ref(), c.Developer.Ref())
		out.Stopped = capacity.StopPrints(w.mix, id, figure.Entered[unit.Molarity](c.Takes), q,
			figure.Entered[unit.Molarity](c.Alkali))
	}
	if r := c.Reserve; r != nil && r.Why == "" && !r.None {
		out.Neutral = capacity.Neutral(w.mix, figure.ID(r.fixer.Ref(), "neutral", f.Ref(), r.Stop.Ref()), r.sulfite, q, r.acid)
	}
	if c.Fixer == nil {
		return out, true
	}
	for _, x := range w.throughOf(c.Fixer.Bath, f.Material) {
		if x.place > 1 || x.Format.Ref() != f.Ref() {
			continue
		}
		if n := w.capacityFor(c.Fixer.Bath, Litre, x); n.NoWhy == "" && n.N != nil && n.Count > 0 {
			out.First = n.N
			if s, ok := capacity.SecondOf(w.mix, c.Fixer.Bath, f, figure.Entered[unit.Factor](n.N), q,
				w.secondMost(c.Fixer, p.Decl.Base)); ok {
				out.Second = &s
			}
		}
	}
	return out, true
}
