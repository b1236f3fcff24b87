package work

import (
	"math/big"
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/shelf"
	"wetside/procedures/unit"
)

// demand is what a piece of work wants of one bath: the figures of it, and the stock that
// goes into it where it is made anew.
type demand struct {
	bath  lab.Bath
	want  shelf.Wanted
	ids   []*figure.Record
	stock *demand
	// lack is what is said where nothing further down helps: the nearest bath that stands
	// here, and not enough of it.
	lack *Lack
}

// demandOf is a demand for a bath at a place. What no process works in is never used:
// what is drawn from it and what goes into another bath come from the same bottles.
func (w *Work) demandOf(b lab.Bath, place int, unused bool, ids ...*figure.Record) demand {
	unused = unused && len(w.Bath(b.Ref()).UsedIn) > 0
	return demand{bath: b, want: shelf.Wanted{Ref: b.Ref(), Place: place, Unused: unused}, ids: ids}
}

// demands are those that are still open. What several steps want of one bath is added,
// unless it is poured back in between.
type demands []demand

func (open *demands) add(d demand) {
	i := slices.IndexFunc(*open, func(o demand) bool { return o.want == d.want })
	if i < 0 {
		*open = append(*open, d)
		return
	}
	o := &(*open)[i]
	o.lack = nil
	decl := d.bath.Decl()
	if d.stock != nil && decl != nil && decl.Use != "one-shot" { // the same bath again
		if millilitres(d.ids).Cmp(millilitres(o.ids)) > 0 {
			o.ids, o.stock = d.ids, d.stock
		}
		return
	}
	o.ids = append(o.ids, d.ids...)
	if o.stock != nil && d.stock != nil {
		o.stock.ids = append(slices.Clone(o.stock.ids), d.stock.ids...)
	}
}

// short works out where not enough stands here of what a piece of work wants, or of what
// it is made from.
func (w *Work) short(wanted []demand) []Lack {
	var open demands
	for _, d := range wanted {
		open.add(d)
	}
	var out []Lack
	for len(open) > 0 {
		// What is made of others comes before what these take themselves.
		top := 0
		for i, d := range open {
			if w.height(d.bath) > w.height(open[top].bath) {
				top = i
			}
		}
		d := open[top]
		open = slices.Delete(open, top, top+1)
		id := shelf.Together(w.mix.Book, d.want, d.ids)
		left, exact, stands := w.standing(d.bath, d.want)
		if exact != nil && millilitres([]*figure.Record{id}).Cmp(exact) <= 0 {
			continue
		}
		lack := d.lack
		if lack == nil && stands {
			lack = &Lack{Kind: TooLittle, Bath: d.bath, Place: d.want.Place, Wanted: id, Standing: left}
			if exact == nil {
				lack.Kind, lack.Standing = Unmeasured, nil
			}
		}
		next := w.madeOf(d, id)
		for _, n := range next {
			n.lack = lack
			open.add(n)
		}
		if len(next) == 0 && lack != nil {
			out = append(out, *lack)
		}
	}
	return out
}

// height is how many baths a bath is made of, one from the other.
func (w *Work) height(b lab.Bath) int {
	if from, _, ok := b.From(); ok {
		return 1 + w.height(from)
	}
	n := 0
	for _, in := range w.mix.Ingredients(b) {
		n = max(n, 1+w.height(in.Bath))
	}
	return n
}

// standing is what stands here of what is wanted: its figure, and the same in ml, nil
// where nobody can tell; false where nothing stands here, which is said already.
func (w *Work) standing(b lab.Bath, wanted shelf.Wanted) (left *figure.Record, exact *big.Rat, ok bool) {
	stands := shelf.Stands(w.mix.Book, w.judged(), wanted)
	if len(stands.Usable) > 0 && stands.Exact != nil {
		return stands.Left, stands.Exact, true
	}
	packs, _ := w.lab.UsablePacks(b.Ref(), w.Day)
	if len(packs) == 0 || slices.ContainsFunc(packs, func(p lab.InStore) bool { return !p.Left.Volume.Given() }) {
		return nil, nil, len(stands.Usable) > 0
	}
	exact = new(big.Rat)
	var each []*figure.Record
	for _, p := range packs {
		exact.Add(exact, p.Left.Volume.Exact())
		each = append(each, w.leftIn(p))
	}
	if len(each) == 1 {
		return each[0], exact, true
	}
	return capacity.VolumeOf(w.mix.Book, figure.ID("store", b.Ref()+".all"), each), exact, true
}

// madeOf is what goes into a bath that is made anew.
func (w *Work) madeOf(d demand, id *figure.Record) []demand {
	if d.stock != nil {
		return []demand{*d.stock}
	}
	if _, _, ok := d.bath.From(); ok {
		return nil
	}
	var out []demand
	for _, in := range w.mix.Ingredients(d.bath) {
		if in.Share != nil {
			n := w.demandOf(in.Bath, 0, true)
			n.ids = []*figure.Record{shelf.PartOf(w.mix.Book, d.want, n.want, id, in.Share)}
			out = append(out, n)
		}
	}
	return out
}

// millilitres is what figures come to together.
func millilitres(ids []*figure.Record) *big.Rat {
	sum := new(big.Rat)
	for _, r := range ids {
		if !r.Refused() {
			sum.Add(sum, new(big.Rat).SetFloat64(unit.Snap(float64(figure.Entered[unit.Volume](r).Value))))
		}
	}
	return sum
}
