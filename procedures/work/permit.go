package work

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/ph"
	"wetside/procedures/unit"
	"wetside/procedures/waste"
)

type (
	// Allowed is what one limit of a permit says of one thing that is poured.
	Allowed = waste.Allowed
	// PermitLimit is one limit of a permit.
	PermitLimit = waste.Limit
)

// The answers of a limit.
const (
	Met    = waste.Met
	NotMet = waste.NotMet
	Untold = waste.Untold
)

// content is a content of what is poured, or why nobody can tell it.
type content struct {
	c     figure.Figure[unit.Concentration]
	known bool
	// none: there is none of it in what is poured.
	none bool
	// state is the state in which it is poured.
	state, why string
}

func unknown(why string) content { return content{why: why} }

// spent is the state in which a bath is poured that has done its work.
const spent = "when it is spent"

// unused says of a bath why nobody can tell what is carried into it.
const unused = "no process says what is worked in it, and what it takes up"

// allowed holds a bath against the limits of the permit for the drain.
func (w *Work) allowed(b *Bath) []Allowed {
	var out []Allowed
	for _, x := range w.limits {
		if x.Of == lab.LimitPH {
			out = append(out, w.acidAllowed(b, x)...)
			continue
		}
		id := figure.ID(b.Ref(), "permit."+x.Of)
		c := w.contentOf(b, x)
		a := x.Unknown(id, c.state, c.why)
		switch {
		case c.none:
			a = x.None(id, c.state, c.why)
		case c.known:
			a = x.Content(w.mix, id, c.state, c.c)
		}
		if a.Meets == Met && len(b.UsedIn) == 0 && !b.Decl().Finds(x.Of) {
			a = x.Unknown(id, c.state, unused)
		}
		out = append(out, a)
	}
	for i := range out {
		out[i].Who = b.Name() + ", " + b.Strength
	}
	for _, a := range out {
		w.mix.Book.EnterVerdict(a.Verdict(w.Local.File))
	}
	return out
}

// acidAllowed holds the pH of a bath against a limit: as somebody has written it, else as it was
// worked out, closed and after long in the air.
func (w *Work) acidAllowed(b *Bath, x PermitLimit) []Allowed {
	id := func(at ...string) string { return figure.ID(b.Ref(), "permit."+x.Of, at...) }
	a := b.Acid
	if q := b.PH(); q.Given() {
		if a.Differs {
			return []Allowed{x.Unknown(id(), "", "what is written and what comes from the amounts differ: measure it again")}
		}
		low, high := ph.Bounds(q)
		var within *figure.Record
		if !q.Spread() {
			within = figure.Declare(w.mix.Book, figure.ID("ph", "written-within"), figure.KindRatio,
				figure.Constant(unit.Factor(ph.MeterDoubt), "how far paper and meters may be off", "our own rule", figure.House),
				unit.Short(ph.MeterDoubt), "")
		}
		return []Allowed{x.Acidity(w.mix, id(), "as it is written",
			figure.Entered[unit.Factor](a.Measured).WithBounds(unit.Factor(low), unit.Factor(high)), a.Measured, within)}
	}
	if a.Cool.Within == nil {
		return []Allowed{x.Unknown(id(), "", "its pH is not worked out: "+a.Cool.PH.Why)}
	}
	hold := func(id, state string, of Acidity) Allowed {
		return x.Acidity(w.mix, id, state, figure.Entered[unit.Factor](of.PH).WithBounds(unit.Factor(of.Low),
			unit.Factor(of.High)), of.PH, of.Within)
	}
	out := []Allowed{hold(id(), "as it is made", a.Cool)}
	switch {
	case a.Open == nil:
	case a.Open.Within == nil:
		out = append(out, x.Unknown(id("open"), "after long in the air", "its pH is not worked out: "+a.Open.PH.Why))
	default:
		out = append(out, hold(id("open"), "after long in the air", *a.Open))
	}
	return out
}

// contentOf is how much of what a limit speaks of is in a bath when it is poured.
func (w *Work) contentOf(b *Bath, x PermitLimit) content {
	if d := b.Decl(); d.Finds(x.Of) {
		found := d.Found[x.Of]
		is := figure.Declare(w.mix.Book, figure.ID(b.Ref(), "found."+x.Of), figure.KindAmount,
			found.Figure(x.Name()+" that was found in it"), unit.Spoken(found), "")
		return content{c: figure.Entered[unit.Concentration](is), known: true, state: "as it was found when it was spent"}
	}
	switch {
	case x.Of == lab.LimitSilver:
		return w.silverOf(b)
	case x.Chemical != nil:
		return w.substanceOf(b, x.Chemical)
	}
	return unknown("nobody has worked out how much of it is in it")
}

// substanceOf is how much of a substance is in a bath as it is made. What is carried into it brings
// no more than that, as long as no bath before it holds more.
func (w *Work) substanceOf(b *Bath, c *lab.Chemical) content {
	of := func(x *Bath) (parts []figure.Figure[unit.Concentration], accounted bool) {
		m := w.mix.Made(x.Bath)
		for _, in := range m.Contents {
			if in.Chemical.ID == c.ID {
				parts = append(parts, in.Conc)
			}
		}
		return parts, m.Accounted
	}
	parts, accounted := of(b)
	switch {
	case !accounted && len(parts) == 0:
		return unknown("nobody knows all that is in it")
	case len(parts) > 1:
		return unknown("it is in it in more than one form, and nobody has added them up")
	}
	high := unit.Concentration(0)
	if len(parts) == 1 {
		high = parts[0].High
	}
	for _, p := range b.UsedIn {
		for _, before := range w.bathsOf(p) {
			if before == b {
				break
			}
			if before == nil {
				continue
			}
			more, all := of(before)
			if !all || slices.ContainsFunc(more, func(x figure.Figure[unit.Concentration]) bool { return x.High > high }) {
				return unknown("nobody has worked out how much of it comes into it with what is carried along from " +
					before.Name())
			}
		}
	}
	if len(parts) == 0 {
		return content{none: true, why: "there is none in it, nor in any bath before it"}
	}
	return content{c: parts[0], known: true, state: "as it is made"}
}

// holdsSilver reports whether a bath is made with silver, and whether all that is in it is known. Of what
// is solid as it is bought, and no bath yet, it looks at what its sheet names.
func (w *Work) holdsSilver(b *Bath) (silver, accounted bool) {
	named := func(name string) bool { return strings.Contains(strings.ToLower(name), lab.LimitSilver) }
	look := func(c mix.Content, o mix.Other) {
		silver, accounted = silver || named(o.Name), accounted && o.Name != mix.Unnamed
		if c.Chemical == nil {
			return
		}
		f, err := chem.Parse(c.Chemical.Forms[c.Form].Formula)
		silver = silver || named(c.Chemical.Name) || err == nil &&
			slices.ContainsFunc(f.Elements(), func(c chem.Count) bool { return c.Symbol == "Ag" })
	}
	if b.Form() == "powder" {
		portions, known := w.mix.Sheet(b.Bath)
		accounted = known
		for _, p := range portions {
			look(p.Content, p.Other)
		}
		return silver, accounted
	}
	made := w.mix.Made(b.Bath)
	accounted = made.Accounted
	for _, c := range made.Contents {
		look(c, mix.Other{})
	}
	for _, o := range made.Others {
		look(mix.Content{}, o)
	}
	return silver, accounted
}

// silverOf is how much silver a bath holds when it is poured, by the worst of the processes that use
// it: a fixer that has done all it may, and what follows the fills of a wash after one.
func (w *Work) silverOf(b *Bath) content {
	if len(b.UsedIn) == 0 {
		return unknown(unused)
	}
	var worst content
	for _, p := range b.UsedIn {
		c := w.silverIn(b, p)
		if !c.known && !c.none {
			return c
		}
		if !worst.known && !worst.none || c.known && (worst.none || c.c.High > worst.c.High) {
			worst = c
		}
	}
	return worst
}

// silverIn is the same for one process.
func (w *Work) silverIn(b *Bath, p *lab.Process) content {
	baths := w.bathsOf(p)
	if b.Role() == lab.Fixer {
		return w.silverSpent(b, p, baths)
	}
	silver, accounted := w.holdsSilver(b)
	switch {
	case silver:
		return unknown("it is made with silver, and nobody has worked out how much is left in it")
	case !accounted:
		return unknown("nobody knows all that is in it")
	}
	if p.Base == lab.Uncoated {
		for _, other := range baths {
			if other == nil {
				continue
			}
			if silver, accounted := w.holdsSilver(other); silver || !accounted {
				return unknown("nobody has worked out how much silver comes into it")
			}
		}
		return content{none: true, why: "nothing in " + p.Name + " holds silver"}
	}
	i := slices.Index(baths, b)
	former := formerIn(baths, i)
	if former == nil || former.Role() != lab.Fixer || p.Base != lab.Film || b.Decl() == nil || b.Decl().Use != lab.OneShot ||
		slices.Contains(baths[i+1:], b) || p.Steps[i].Fill.Given() {
		return unknown("nobody has worked out how much silver it takes up from " + map[bool]string{true: "film",
			false: "paper"}[p.Base == lab.Film])
	}
	return w.silverAfter(figure.ID(b.Ref(), "silver-after", p.ID), p, baths, i, 1)
}

// silverAfter is the silver in the n-th of what fills a tank at a step after a fixer and its wash, in
// the tank that has the least water for a roll. Of water that runs between the two nobody knows how much
// it takes away.
func (w *Work) silverAfter(id string, p *lab.Process, baths []*Bath, i, n int) content {
	fixer := formerIn(baths, i)
	held := w.silverSpent(fixer, p, baths)
	if !held.known {
		return held
	}
	runs := false
	for j := i - 1; baths[j] == nil; j-- {
		n += len(p.Steps[j].Fills)
		runs = runs || p.Steps[j].Flow.Given()
	}
	var worst content
	tanks, _ := capacity.Vessels(w.lab)
	for _, v := range tanks {
		if !v.Rolls {
			continue
		}
		c := capacity.SilverAfter(w.mix, figure.Beside(id, v.Key), held.c, v, n)
		if !worst.known || c.High > worst.c.High {
			worst = content{c: c, known: true, state: "after " + fixer.Name() + " that has done all it may"}
		}
	}
	if !worst.known {
		return unknown("nobody has written a tank that takes rolls")
	}
	if runs {
		worst.c = worst.c.WithBounds(0, worst.c.High)
	}
	return worst
}

// formerIn is the last bath before a place.
func formerIn(baths []*Bath, i int) *Bath {
	for j := i - 1; j >= 0; j-- {
		if baths[j] != nil {
			return baths[j]
		}
	}
	return nil
}

// silverSpent is what a fixer holds when it has done all that it may: what its limit of silver
// allows, else the silver of so many pieces as its other limits allow.
func (w *Work) silverSpent(b *Bath, p *lab.Process, baths []*Bath) content {
	d := b.Decl()
	if d == nil || len(d.Limits) == 0 {
		return unknown("nobody has written how much " + b.Name() + " may do, and so what it holds when it is spent")
	}
	bleached := slices.ContainsFunc(baths[:slices.Index(baths, b)], func(x *Bath) bool {
		return x != nil && x.Role() == lab.Bleach
	})
	worst := content{state: spent}
	take := func(c figure.Figure[unit.Concentration]) {
		if !worst.known || c.High > worst.c.High {
			worst.c, worst.known = c, true
		}
	}
	for _, place := range capacity.Places(d, p.Base) {
		limits := d.LimitsFor(p.Base, place)
		if i := slices.IndexFunc(limits, func(l lab.LimitAt) bool { return l.Most.Silver.Given() }); i >= 0 {
			most := limits[i].Most.Silver
			take(figure.Entered[unit.Concentration](figure.Declare(w.mix.Book, figure.ID(b.Ref(), "silver-most", string(p.Base),
				fmt.Sprintf("place=%d", place)), figure.KindAmount, most.Figure("most silver that it may hold"),
				unit.Short(float64(most.Value())), "g/L")))
			continue
		}
		if bleached {
			return unknown("a bleach comes before it, and nobody has worked out where the silver goes")
		}
		for _, x := range w.passingsOn(b.Bath, p.Base) {
			if x.place != place {
				continue
			}
			each, ok := capacity.SilverEach(w.lab, x.Format)
			if !ok {
				return unknown("nobody has written the silver of " + x.Format.Material.Name)
			}
			n, ok := piecesAllowed(w.capacityFor(b.Bath, Litre, x))
			if !ok {
				return unknown("its limits do not say how many pieces of " + x.Format.Name() + " a litre does")
			}
			take(capacity.SilverSpent(figure.ID(b.Ref(), "silver-spent", x.Format.Ref(), string(p.Base)), n, each))
		}
	}
	if !worst.known {
		return unknown("nobody has written what is worked in it")
	}
	return worst
}

// piecesAllowed is how many pieces the tightest limit allows, age left aside: what is used fast
// reaches it.
func piecesAllowed(x capacity.Capacity) (n figure.Figure[unit.Factor], ok bool) {
	for _, b := range x.Bounds {
		if b.By != "age" && (!ok || b.Fig.Value < n.Value) {
			n, ok = b.Fig, true
		}
	}
	return n, ok && x.NoWhy == "" && !x.ByUses()
}
