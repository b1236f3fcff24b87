package work

import (
	"slices"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/shelf"
	"wetside/procedures/unit"
)

// Buying is what has to be known of a product before it is bought, opened or made up.
type Buying struct {
	// Makes are what a pack makes of each strength that is diluted from it, with the volume,
	// all in one unit.
	Makes []PackMade
	// Piece is what one tablet or bag of a pack makes, where a pack may be divided; else nil.
	Piece *figure.Record
	// Parts is what a litre of the stock holds, and NotKnown names what of the pack nobody
	// can count.
	Parts    []Content
	NotKnown []string
	// Does is what one pack does, strength by strength, and Pace how a pack ends here with all
	// of them together; where that is not known, PaceWhy says why.
	Does    []PackStrength
	Pace    capacity.PackPace
	PaceWhy PaceWhy
	// NoPack: limits or yields are written, and nobody has written how much a pack makes.
	// NoMaterial: they are written, and no film or paper that they could be counted for.
	NoPack, NoMaterial bool
	// Needs are what each base asks of it.
	Needs []Need
	// Ways are how each process uses it.
	Ways []UsedWay
	// Into are the solutions of this lab that it is poured or weighed into.
	Into []*Bath
	// Price is what a pack costs; nil where PriceWhy says why that is not known.
	Price    *figure.Record
	PriceWhy string
	// Sheets are the supplier's sheets of the product and of its parts.
	Sheets []Sheet
}

// PackMade is what a whole pack makes of one strength.
type PackMade struct {
	Bath   *Bath
	Volume *figure.Record
}

// PackDoes is what one pack does of one format, and what ends it first.
type PackDoes = capacity.PackDoes

// PackStrength is what one pack does in one strength, format by format.
type PackStrength struct {
	Bath *Bath
	Does []PackDoes
	// Evening is how long a tray of it keeps, where it is poured into trays; else nil.
	Evening *figure.Record
}

// PaceWhy is why nobody can tell how a pack ends.
type PaceWhy struct {
	// NoLife: nobody has written how long a pack keeps once it is begun. NoUse: nobody has
	// written what a month takes of these strengths, NoLimit how much of them a piece takes.
	NoLife         bool
	NoUse, NoLimit []*Bath
	// NoPack: nobody has written what a pack holds.
	NoPack bool
}

// Need is whether one base needs a strength of the product, here.
type Need struct {
	Bath   *Bath
	Base   lab.Base
	Answer lab.Serving
	// After are the fixing baths of this lab that film comes from, where it hangs on them.
	After []AfterFixer
}

// AfterFixer is a fixing bath, and whether film needs the product after it.
type AfterFixer struct {
	Bath *Bath
	// Hardener names the salt in it that hardens gelatin; empty: there is none. Salt names
	// its thiosulfate. Unknown: nobody has written what is in it.
	Hardener, Salt string
	Unknown        bool
}

// UsedWay is how a process uses the product: the step before, its own, and the wash after.
type UsedWay struct {
	Process *lab.Process
	Bath    *Bath
	// Before and After are nil where there is no such step. InsteadOf is the running wash
	// that the one after takes the place of; nil where nobody has written it.
	Before, Step, After *TimedStep
	InsteadOf           *figure.Record
}

// TimedStep is a step by its name, and its time as written; nil where it has none.
type TimedStep struct {
	Name string
	Time *figure.Record
}

// Sheet is a supplier's sheet.
type Sheet struct {
	// Of is the part of a kit that it is about; empty: the product.
	Of   string
	Decl *lab.SupplierSheet
	// Until is the day from which a newer one is asked for, and Old says that it has come.
	Until *figure.Record
	Old   bool
	// Law is a change of law after which it may no longer say what the product is, Since the
	// day of it, and Changed says that it has come; nil where none is known.
	Law     *lab.LawChange
	Since   *figure.Record
	Changed bool
}

// buying is the stage of what is bought, with what a month's work and the capacities say.
func (w *Work) buying() {
	for _, p := range w.Products {
		w.buyingOf(p)
	}
}

func (w *Work) buyingOf(p *Product) {
	out := &p.Buying
	of := lab.Bath{Product: p.Decl, Strength: p.Decl.MadeStrength()}
	price, why := w.mix.PackPrice(p.Decl)
	if out.PriceWhy = why; why == "" {
		if price.ID() == "" {
			out.Price = figure.Declare(w.mix.Book, figure.ID(p.Decl.ID, "pack.price"), figure.KindMoney, price,
				unit.Format(float64(price.Value), unit.NewDecimal(1, 2)), w.mix.Currency())
		} else {
			out.Price = figure.Enter(w.mix.Book, price)
		}
	}
	for _, b := range p.Strengths {
		out.Into = append(out.Into, w.madeWith(b)...)
	}
	w.packParts(p, of)
	w.packMade(p, of)
	for _, b := range p.Strengths {
		w.needs(out, b)
		w.usedWays(out, b)
	}
	w.sheets(out, p.Decl)
}

// packVolume is how much of what stands in the bottle one pack is.
func (w *Work) packVolume(d *lab.Product) lab.Said[unit.Volume] {
	if d.Makes != nil {
		return d.Makes.Stock
	}
	return capacity.PackHolds(w.lab, d)
}

// packMade is what a whole pack makes of each strength, and what that does.
func (w *Work) packMade(p *Product, of lab.Bath) {
	out, d := &p.Buying, p.Decl
	volume := w.packVolume(d)
	written := len(d.Yields) > 0
	for _, b := range p.Strengths {
		written = written || counted(b.Bath)
	}
	if !volume.Positive() {
		out.NoPack = written
		return
	}
	defer func() { out.NoMaterial = written && len(out.Does) == 0 }()
	divided := d.Makes != nil && d.Makes.Divide == lab.MayDivide
	if divided && d.Pack.Count.Given() {
		whole, n := volume.Figure("volume that a pack makes"), d.Pack.Count.Figure("pieces in a pack")
		out.Piece = figure.Enter(w.mix.Book, capacity.PieceMakes(figure.ID(of.Ref(), "pack.piece"), whole, n))
	}
	used := 0
	for _, b := range p.Strengths {
		if len(b.UsedIn) > 0 {
			used++
		}
	}
	w.pace(p)
	price, why := w.mix.PackPrice(d)
	var makes []figure.Figure[unit.Volume]
	litres := false
	defer func() {
		for i, f := range makes {
			out.Makes[i].Volume = capacity.MakesShown(w.mix, f, litres)
		}
	}()
	for _, b := range p.Strengths {
		from, dil, diluted := b.From()
		if diluted && !dil.None() && (d.Makes != nil || from.Strength == lab.Supplied || b.Written().Use != "") {
			made, chained := w.packMakes(b.Bath, volume)
			if chained {
				makes, litres = append(makes, made), litres || made.Value >= fromLitres
				out.Makes = append(out.Makes, PackMade{Bath: b})
			}
		}
		if b.Decl() == nil || len(b.UsedIn) == 0 && !slices.ContainsFunc(d.Yields,
			func(y lab.Yield) bool { return y.Strength == b.Strength }) {
			continue
		}
		s := PackStrength{Bath: b, Evening: b.Life("tray")}
		pack := capacity.Pack{Of: of, Bath: b.Bath, Price: price, PriceWhy: why, Ages: used < 2 && !divided,
			Pace: out.Pace}
		made := w.mix.Makes(b.Bath, volume.Quantity)
		for _, base := range lab.Bases {
			if !w.on(b.Bath, base) && len(b.UsedIn) > 0 || b.Written().Serves[base] == lab.Never ||
				len(b.UsedIn) == 0 && elsewhere(out.Into, base) {
				continue // of what no process uses yet, everything that it could treat is told
			}
			for _, x := range w.each(b.Bath, base, w.lab.Treated(b.Bath, base)...) {
				if x.place > 1 {
					continue
				}
				ours := capacity.Capacity{NoWhy: "nobody in this lab has written a limit"}
				if pack.Litre = ours; counted(b.Bath) {
					ours, pack.Litre = w.capacityFor(b.Bath, made, x), w.capacityFor(b.Bath, Litre, x)
				}
				if does := capacity.DoesOf(w.mix, pack, x.Format, ours, d.Yields, w.useOf(b.Bath)); does.Full != nil {
					s.Does = append(s.Does, does)
				}
			}
		}
		if len(s.Does) > 0 {
			out.Does = append(out.Does, s)
		}
	}
}

// elsewhere reports that what something goes into is used in this lab, and on other bases alone.
func elsewhere(into []*Bath, base lab.Base) bool {
	used := false
	for _, b := range into {
		if slices.Contains(b.Bases, base) {
			return false
		}
		used = used || len(b.Bases) > 0
	}
	return used
}

// pace is how a pack ends here with all its strengths together, or why nobody can tell.
func (w *Work) pace(p *Product) {
	out, why := &p.Buying, &p.Buying.PaceWhy
	for _, b := range p.Strengths {
		switch {
		case len(b.UsedIn) == 0 || b.Decl() == nil:
		case !w.useOf(b.Bath).Known():
			why.NoUse = append(why.NoUse, b)
		case slices.Contains(w.months.Uncounted, b.Ref()):
			why.NoLimit = append(why.NoLimit, b)
		}
	}
	pace := w.months.Pace(p.Decl)
	why.NoLife = pace.Life == nil
	if len(why.NoUse)+len(why.NoLimit) > 0 && (!pace.Known() || pace.Age) {
		return // what is counted is not all: more would only use it up sooner
	}
	why.NoPack = pace.Lasts == nil
	out.Pace = pace
}

// fromLitres is from how many millilitres on amounts are told in litres.
const fromLitres = 10000

// packMakes is how much of a strength a whole pack makes, through every dilution; false for
// what is not diluted.
func (w *Work) packMakes(b lab.Bath, volume lab.Said[unit.Volume]) (figure.Figure[unit.Volume], bool) {
	stock := volume.Figure("what a pack makes")
	from, dil, ok := b.From()
	if !ok || dil.None() {
		return stock, false
	}
	if f, made := w.packMakes(from, volume); made {
		stock = f
	}
	return capacity.MakesOf(figure.ID(b.Ref(), "pack.makes"), stock, dil), true
}

// packParts is what a litre of the stock holds, and what of a pack nobody can count.
func (w *Work) packParts(p *Product, of lab.Bath) {
	out, d := &p.Buying, p.Decl
	note := func(part string, contains map[string]lab.Share, others []string, countable bool) {
		switch {
		case len(contains) == 0:
			out.NotKnown = append(out.NotKnown, "all of "+part)
		case !countable:
			out.NotKnown = append(out.NotKnown, part+": nobody has written its density")
		}
		out.NotKnown = append(out.NotKnown, others...)
		for _, name := range sorted(contains) {
			if _, _, ours := w.lab.Contained(name); contains[name].Rest && name != "water" && !ours {
				out.NotKnown = append(out.NotKnown, "the rest, "+lab.Title(name))
			}
		}
	}
	if d.Makes == nil {
		return
	}
	out.Parts = w.contents(w.mix.Made(of))
	if len(d.Parts) == 0 {
		note("the pack", d.Contains, w.lab.Others(d), true)
	}
	for _, id := range d.PartIDs() {
		part := d.Parts[id]
		note(d.PartName(id), part.Contains, w.lab.OthersOf(part.Contains), part.State.Solid() ||
			part.Density.Given() || part.Pack.Holds.Mass.Given())
	}
}

// sorted lists the names of what something contains.
func sorted(contains map[string]lab.Share) []string {
	var out []string
	for name := range contains {
		out = append(out, name)
	}
	slices.Sort(out)
	return out
}

// needs is what each base asks of a strength.
func (w *Work) needs(out *Buying, b *Bath) {
	d := b.Decl()
	if d == nil {
		return
	}
	for _, base := range lab.Bases {
		answer, ok := d.Serves[base]
		if !ok {
			continue
		}
		n := Need{Bath: b, Base: base, Answer: answer}
		if answer == lab.AfterHardener {
			n.After = w.afterFixers(base)
		}
		out.Needs = append(out.Needs, n)
	}
}

// afterFixers are the fixing baths of the processes on a base.
func (w *Work) afterFixers(base lab.Base) []AfterFixer {
	var out []AfterFixer
	for _, b := range w.Baths {
		if b.Role() != lab.Fixer || !slices.Contains(b.Bases, base) {
			continue
		}
		made := w.mix.Made(b.Bath)
		f := AfterFixer{Bath: b, Hardener: hardener(made), Salt: withElement(made, "S2O3")}
		f.Unknown = len(made.Unknown) > 0 && !fullyKnown(made) || len(made.Contents) == 0
		answer := "not needed"
		switch {
		case f.Hardener != "":
			answer = "needed"
		case f.Unknown:
			answer = "ask first"
		}
		w.mix.Book.EnterVerdict(figure.Verdict{ID: figure.ID(b.Ref(), "hardens"), Answer: answer,
			Because: []string{"a salt of aluminium or chromium hardens gelatin: " + orNothing(f.Hardener)},
			Source:  "common practice, no source"})
		out = append(out, f)
	}
	return out
}

func orNothing(s string) string {
	if s == "" {
		return "none is known in it"
	}
	return s
}

// fullyKnown reports that of every product in a bath its supplier's sheet lists all parts as
// chemicals that are known here.
func fullyKnown(made *mix.Made) bool {
	return !slices.ContainsFunc(made.Unknown, func(b lab.Bath) bool {
		return b.Product == nil || len(b.Product.Contains) == 0
	})
}

// hardener is the salt in a bath that hardens gelatin, by its metal.
func hardener(made *mix.Made) string {
	for _, c := range made.Contents {
		f, err := chem.Parse(c.Chemical.Forms[c.Form].Formula)
		if err == nil && slices.ContainsFunc(f.Elements(),
			func(e chem.Count) bool { return e.Symbol == "Al" || e.Symbol == "Cr" }) {
			return c.Chemical.Name
		}
	}
	return ""
}

// withElement is the first substance in a bath whose formula holds a group of atoms.
func withElement(made *mix.Made, group string) string {
	for _, c := range made.Contents {
		if strings.Contains(c.Chemical.Forms[c.Form].Formula, group) {
			return c.Chemical.Name
		}
	}
	return ""
}

// usedWays is how each process uses a strength.
func (w *Work) usedWays(out *Buying, b *Bath) {
	for _, p := range w.Processes {
		for i := range p.Decl.Steps {
			if p.Baths[i] != b || w.toldOf(p, b) {
				continue
			}
			u := UsedWay{Process: p.Decl, Bath: b, Step: w.timedStep(p.Decl, i)}
			if i > 0 && p.Baths[i-1] == nil {
				u.Before = w.timedStep(p.Decl, i-1)
			}
			for j := i + 1; j < len(p.Decl.Steps) && p.Baths[j] == nil && u.After == nil; j++ {
				s := p.Decl.Steps[j]
				if len(s.Fills) == 0 && !s.Flow.Given() {
					continue
				}
				u.After = w.timedStep(p.Decl, j)
				if s.InsteadOf.Given() {
					u.InsteadOf = w.asWritten(figure.ID(p.Decl.ID, "instead."+s.ID), s.InsteadOf,
						"running wash that is left out")
				}
			}
			out.Ways = append(out.Ways, u)
		}
	}
}

// toldOf reports a process that is built on another which uses a bath as well: it is told
// there.
func (w *Work) toldOf(p *Process, b *Bath) bool {
	first := w.Process(p.Decl.Like)
	return first != nil && slices.Contains(first.Baths, b)
}

// timedStep is a step by its name, with its time as it is written.
func (w *Work) timedStep(p *lab.Process, i int) *TimedStep {
	s := p.Steps[i]
	out := &TimedStep{Name: s.Name}
	switch {
	case out.Name != "":
	case s.Do != "":
		out.Name = s.Do
	default:
		out.Name = lab.Title(s.ID)
	}
	if s.Time.Fixed.Given() {
		out.Time = w.asWritten(figure.ID(p.ID, "written."+s.ID), s.Time.Fixed, "time of the step, as written")
	}
	return out
}

// asWritten is a time in the words of its file.
func (w *Work) asWritten(id string, q lab.Said[unit.Seconds], name string) *figure.Record {
	in := &figure.InputRef{Name: name, Where: q.Where(), Text: q.Text(), Origin: q.By()}
	return w.text(id, name, strings.ReplaceAll(unit.Spoken(q), " to ", "–"), q.By(), []*figure.InputRef{in})
}

// sheets are the supplier's sheets of a product and of its parts.
func (w *Work) sheets(out *Buying, d *lab.Product) {
	add := func(of, word string, s *lab.SupplierSheet, contains map[string]lab.Share) {
		if s == nil || !s.Edition.Given() {
			return
		}
		at := []string{}
		if of != "" {
			at = append(at, of)
		}
		x := Sheet{Of: word, Decl: s, Law: w.mix.Rules.ChangeOf(s.Edition.Date, contains)}
		x.Until, x.Old = shelf.SheetUntil(w.mix.Book, figure.ID(d.ID, "sheet.until", at...), s, w.Day)
		if x.Law != nil && x.Until.Value < float64(x.Law.On.Number()) {
			x.Law = nil // it is asked for anew before that anyway
		}
		because := []string{"of " + s.Edition.String() + ", and asked for anew after three years"}
		source := "rule of the program: a sheet is asked for anew after three years"
		if x.Law != nil {
			x.Since, x.Changed = shelf.SheetLaw(w.mix.Book, figure.ID(d.ID, "sheet.law", at...), x.Law, w.Day)
			because = append(because, "from "+x.Law.On.String()+" on: "+x.Law.What)
			source += "; " + x.Law.Source
		}
		answer := "good"
		if x.Old || x.Changed {
			answer = "ask for a new one"
		}
		w.mix.Book.EnterVerdict(figure.Verdict{ID: figure.ID(d.ID, "sheet", at...), Answer: answer, Because: because,
			Source: source})
		out.Sheets = append(out.Sheets, x)
	}
	add("", "", d.Sheet, d.Contains)
	for _, id := range d.PartIDs() {
		add(id, d.PartName(id), d.Parts[id].Sheet, d.Parts[id].Contains)
	}
}
