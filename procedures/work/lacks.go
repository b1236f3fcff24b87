package work

import (
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/shelf"
)

type (
	// Batch is a solution made in one volume.
	Batch = mix.Batch
)

// LackKind is what is wrong with what a piece of work finds on the shelf.
type LackKind int

const (
	// DeadBottle is past its day or its limits.
	DeadBottle LackKind = iota
	// SpentBottle is spent for this base, and good for others.
	SpentBottle
	// PlacelessBottle: nobody has written which of two baths it is.
	PlacelessBottle
	// UnjudgedBottle: nobody can say whether it may be used.
	UnjudgedBottle
	// MissingBath: no usable bottle of it stands here.
	MissingBath
	// OnlyUsed: only bottles stand here in which something has been worked.
	OnlyUsed
	// NotInStore: the store has no pack of a product.
	NotInStore
	// UsedUp: nothing is left of the product's pack.
	UsedUp
	// PastPack: every pack of the product is past its best-before.
	PastPack
	// TooLittle: less stands here than is wanted.
	TooLittle
	// Unmeasured: nobody has written how much stands here.
	Unmeasured
)

// Lack is one thing that a piece of work does not find on the shelf as it wants it.
type Lack struct {
	Kind LackKind
	// Bath is what is wanted; Place is which of two, 0 of one that stands alone.
	Bath  lab.Bath
	Place int
	// Base is that of the process which wants it; empty without one.
	Base lab.Base
	// Bottle is the one that is dead, spent, placeless or unjudged, nil where it is about
	// none; By is the limit that it is spent by.
	Bottle *Judged
	By     string
	// Keeps is how long a missing bath keeps, where it does not outlast the work.
	Keeps *figure.Record
	// Wanted is how much is wanted, and Standing how much stands here; nil where nobody
	// can say.
	Wanted, Standing *figure.Record
}

// UsedBath is a bottle that takes longer than when it was fresh.
type UsedBath struct {
	Judged
	// Runs are the times of the runs of the process, by their places; a word where nobody
	// can say.
	Runs []*figure.Record
	// Room is how many rolls still have room in it; nil of a fixer.
	Room *figure.Record
}

// kept reports whether the lab keeps batches, so that what is in none of them is missing.
func (w *Work) kept() bool { return len(w.judged()) > 0 }

// ingredients is the stage that finds the baths that others are mixed from.
func (w *Work) ingredients() {
	for _, b := range w.Baths {
		for _, in := range w.mix.Ingredients(b.Bath) {
			b.Ingredients = append(b.Ingredients, w.byRef[in.Bath.Ref()])
		}
	}
}

// onShelf works out what a process finds on the shelf: its baths and what they are made
// of, and whether there is enough for each run.
func (w *Work) onShelf(p *Process) {
	l := w.look(p.Decl.Base)
	for i, s := range p.Decl.Steps {
		if b := p.Baths[i]; b != nil {
			l.wants(b.Bath, int(s.Place), false)
		}
	}
	p.Lacks = l.found
	for _, r := range p.Runs {
		var all []demand
		for i, s := range p.Decl.Steps {
			f := r.Steps[i].Fill
			if f == nil || f.No != nil {
				continue
			}
			d := w.demandOf(f.Bath, int(s.Place), false, f.Volume)
			d.want.Base = p.Decl.Base
			if f.From.Ref() != f.Bath.Ref() {
				from := w.demandOf(f.From, 0, false, f.Take.Amount)
				d.stock = &from
			}
			all = append(all, d)
		}
		r.Short = w.short(all)
	}
	w.fixLonger(p)
	w.developLonger(p)
}

// partsOnShelf is the stage of what the solutions do not find on the shelf.
func (w *Work) partsOnShelf() {
	for _, s := range w.Solutions {
		w.lackingParts(s)
	}
}

// lackingParts works out what of the parts of a solution is dead, does not stand here, or
// is not enough.
func (w *Work) lackingParts(s *Solution) {
	if !w.kept() {
		return
	}
	l := w.look("")
	for _, in := range w.mix.Ingredients(s.Made.Bath) {
		l.wants(in.Bath, 0, true)
	}
	s.Lacks = l.found
	for _, b := range s.Batches {
		l.found = nil
		var all []demand
		for _, row := range b.Rows {
			part := row.Ing.Bath
			if row.Percent.Solution != nil {
				part = row.Percent
				l.wants(part, 0, true)
			}
			if !part.Zero() && row.Take.Refused == "" {
				all = append(all, w.demandOf(part, 0, true, row.Take.Amount))
			}
		}
		s.Short = append(s.Short, append(l.found, w.short(all)...))
	}
}

// lackingOf works out whether what is diluted is dead, does not stand here, or is not
// enough.
func (w *Work) lackingOf(draw Draw) []Lack {
	if !w.kept() {
		return nil
	}
	l := w.look("")
	l.wants(draw.From, 0, false)
	if draw.Take.Refused == "" {
		l.found = append(l.found, w.short([]demand{w.demandOf(draw.From, 0, false, draw.Take.Amount)})...)
	}
	return l.found
}

// look gathers what is missing for one piece of work, each bath once.
type look struct {
	w     *Work
	base  lab.Base // of the process, empty without one
	found []Lack
	seen  map[shelf.Wanted]bool
}

func (w *Work) look(base lab.Base) *look {
	return &look{w: w, base: base, seen: map[shelf.Wanted]bool{}}
}

// wants notes what is dead of a bath, and whether it or what it is made of stands on the
// shelf: at its place of two, where it has one; unused, where it goes into another bath.
func (l *look) wants(b lab.Bath, place int, unused bool) {
	wanted := shelf.Wanted{Ref: b.Ref(), Place: place, Unused: unused, Base: l.base}
	if l.seen[wanted] {
		return
	}
	l.seen[wanted] = true
	stands := l.stands(wanted)
	about := func(kind LackKind, bottles []Judged) {
		for _, x := range bottles {
			by, _ := x.SpentFor(l.base)
			l.found = append(l.found, Lack{Kind: kind, Bath: b, Place: place, Base: l.base, Bottle: &x, By: by})
		}
	}
	about(DeadBottle, stands.Dead)
	about(SpentBottle, stands.SpentFor)
	about(PlacelessBottle, stands.Placeless)
	if len(stands.Usable) > 0 {
		return
	}
	about(UnjudgedBottle, stands.Unsure)
	from, _, diluted := b.From()
	switch {
	case diluted && mixedOnTheSpot(b):
		l.wants(from, 0, false)
		return
	case b.Product != nil && b.Strength == lab.Supplied:
		l.bought(b)
		return
	}
	missing := Lack{Kind: MissingBath, Bath: b, Place: place, Base: l.base, Keeps: l.w.shortLived(b)}
	if wanted.Unused = false; unused && len(l.stands(wanted).Usable) > 0 {
		missing.Kind = OnlyUsed
	}
	l.found = append(l.found, missing)
	if diluted {
		l.wants(from, 0, false)
		return
	}
	for _, in := range l.w.mix.Ingredients(b) {
		l.wants(in.Bath, 0, true)
	}
}

func (l *look) stands(wanted shelf.Wanted) shelf.Standing {
	return shelf.Stands(l.w.mix.Book, l.w.judged(), wanted)
}

// bought notes a product of which the store says that nothing is left.
func (l *look) bought(b lab.Bath) {
	packs, past := l.w.lab.UsablePacks(b.Ref(), l.w.Day)
	for _, part := range b.Product.PartIDs() { // of a kit, its parts stand there
		more, n := l.w.lab.UsablePacks(b.Product.ID+"."+part, l.w.Day)
		if len(more) == 0 && n > 0 { // and it wants them all
			packs, past = nil, n
			break
		}
		packs, past = append(packs, more...), past+n
	}
	switch {
	case len(packs) == 0 && past > 0:
		l.found = append(l.found, Lack{Kind: PastPack, Bath: b})
	case len(packs) == 0 && len(l.w.lab.Store.Packs) > 0:
		l.found = append(l.found, Lack{Kind: NotInStore, Bath: b})
	case len(packs) > 0 && !slices.ContainsFunc(packs, func(p lab.InStore) bool { return !p.Empty() }):
		l.found = append(l.found, Lack{Kind: UsedUp, Bath: b})
	}
}
