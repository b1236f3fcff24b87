package work

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Order is what is to be bought of one substance.
type Order = capacity.Order

// Month is what a month's work takes of everything that is bought, against what is in
// the house.
type Month struct {
	// Store is where the lab has written what is in the house.
	Store  lab.Def
	Orders []Order
	// Lead is how long a delivery takes, and Cover how long it is to last.
	Lead, Cover *figure.Record
	// Money is what all packs to order cost that have a price; nil where none is to order.
	Money *figure.Record
	// Uncounted are the strengths of which nobody can tell how much a month takes.
	Uncounted []*Bath
	// Evenings are strengths that are counted as used until they are spent, though their trays
	// are discarded within a day: nobody has written on how many days a month they are poured.
	Evenings []*Bath
	// Others is what else stands in the store.
	Others []Left
}

// Left is what is left of something in the store.
type Left struct {
	Name string
	Left *figure.Record
	// Past: it is past its best-before.
	Past bool
}

// hundredLitres is so much that what is rounded down in it counts for nothing.
var hundredLitres = unit.MustParse[unit.Volume]("100 L")

// month is the stage of a month's work.
func (w *Work) month() {
	sum := capacity.NewMonth(w.mix, w.Day)
	for _, b := range w.Baths {
		w.monthOf(sum, b)
	}
	w.poured, w.months = sum.Baths, sum
	orders := sum.Orders()
	if len(orders) == 0 {
		return
	}
	h := w.lab.Place.House.Filled()
	w.Month = &Month{Store: w.lab.Store.Def, Orders: orders,
		Lead:   w.houseLife("order_lead", h.OrderLead, "until it comes"),
		Cover:  w.houseLife("order_cover", h.OrderCover, "to last"),
		Others: w.othersLeft(orders),
	}
	w.Month.Money = sum.Money(orders)
	for _, ref := range sum.Uncounted {
		w.Month.Uncounted = append(w.Month.Uncounted, w.Bath(ref))
	}
	for _, b := range w.Baths {
		if w.discarded(b) && !slices.Contains(w.Month.Uncounted, b) {
			w.Month.Evenings = append(w.Month.Evenings, b)
		}
	}
}

// discarded reports a strength that is counted in a month and stands in trays which do not
// keep until the next day, where nobody has written on how many days they are poured.
func (w *Work) discarded(b *Bath) bool {
	use := w.useOf(b.Bath)
	return shortLived(b) && use.Known() && !use.DaysKnown(w.lab) && len(w.traysOf(b.Bath, use)) > 0
}

// byDays counts a strength that nobody has given a limit by the trays that are discarded on the days of a
// month; false where it keeps until the next day, or somebody has not written the days.
func (w *Work) byDays(sum *capacity.Month, b *Bath, use capacity.Use) bool {
	if !shortLived(b) {
		return false
	}
	found := false
	for _, base := range lab.Bases {
		if part := use.OfBase(w.lab, base); part.Known() {
			if !sum.AddDays(b.Bath, base, part, w.traysOf(b.Bath, part)) {
				return false
			}
			found = true
		}
	}
	return found
}

// shortLived reports a strength that does not keep until the next day, and is used again on its day.
func shortLived(b *Bath) bool {
	keeps, _ := b.Keeps()
	life, _ := capacity.LifeInUse(keeps)
	d := b.Decl()
	return life.Seconds > 0 && life.Seconds < 24*60*60 && life.Days+life.Months == 0 && d != nil && d.Use != lab.OneShot
}

// monthOf counts what a month takes of one bath, base by base: a limit holds for its own
// base.
func (w *Work) monthOf(sum *capacity.Month, b *Bath) {
	use := w.useOf(b.Bath)
	if !use.Known() {
		return
	}
	coat := b.Decl() != nil && b.Decl().Coat.Given()
	if !coat && b.Capacity == nil {
		if !w.byDays(sum, b, use) {
			sum.Uncounted = append(sum.Uncounted, b.Ref())
		}
		return
	}
	for _, base := range lab.Bases {
		part := use.OfBase(w.lab, base)
		switch {
		case !part.Known():
		case coat: // it is brushed on
			if w.on(b.Bath, base) {
				sum.AddCoat(b.Bath, base, part)
			}
		default:
			if head, ok := w.mostUsedOn(b.Bath, base); ok {
				named := slices.DeleteFunc(slices.Clone(w.passings(b.Bath)),
					func(x passing) bool { return x.place > 1 || !part.Names(x.Format) })
				sum.Add(b.Bath, w.capacityFor(b.Bath, Litre, head), w.capacitiesFor(b.Bath, hundredLitres, named),
					part, w.traysOf(b.Bath, part), w.filledFrom(b.Bath, part))
			}
		}
	}
}

// othersLeft is what stands in the store and no month counts: what can still be mixed
// shows in what is left.
func (w *Work) othersLeft(orders []Order) []Left {
	var out []Left
	for _, p := range w.lab.InStore() {
		if !p.Left.Given() || slices.ContainsFunc(orders,
			func(o Order) bool { return o.Ref == p.Ref || !p.Ing.Bath.Zero() && o.Ref == p.Ing.Bath.Ref() }) {
			continue
		}
		out = append(out, Left{Name: w.packName(p), Left: w.leftIn(p), Past: p.Past(w.Day)})
	}
	return out
}

// leftIn is what is left in a pack. Of several of the same, each has its own figure.
func (w *Work) leftIn(p lab.InStore) *figure.Record {
	n := slices.IndexFunc(w.lab.PacksOf(p.Ref), func(o lab.InStore) bool { return o.Number == p.Number })
	at := w.lab.Store.At(p.Key() + ".left")
	by, _ := w.lab.OriginOf(w.lab.Store.Def, at.Key)
	id, name := figure.ID("store", p.Ref), "left in the store"
	if n > 0 {
		id = figure.Beside(id, fmt.Sprint(n+1))
	}
	if p.Left.Volume.Given() {
		return w.mix.VolumeFigure(id, p.Left.Volume.Quantity, at, by, name)
	}
	given := figure.Given(p.Left.Mass, at, by, name)
	return figure.Declare(w.mix.Book, id, figure.KindAmount, given, unit.Short(float64(p.Left.Mass.Value())), "g")
}

// packName is what is in a pack, in words.
func (w *Work) packName(p lab.InStore) string {
	if d := p.Ing.Bath.Product; d != nil {
		if _, part, _ := strings.Cut(p.Ref, "."); d.Parts[part] != nil {
			return d.Name + ", " + d.PartName(part)
		}
	}
	return p.Ing.Name()
}

// traysOf are the trays in which a bath stands for a month's work: for every process the
// smallest that takes each format, once for each place that the bath has in it. There
// are none for a bath that waits in its bottle.
func (w *Work) traysOf(b lab.Bath, use capacity.Use) []capacity.Stand {
	keeps, _ := b.Keeps()
	if _, state := capacity.LifeInUse(keeps); state != "tray" && state != "poured" {
		return nil
	}
	_, trays := capacity.Vessels(w.lab)
	var out []capacity.Stand
	for _, p := range w.Processes {
		seen := map[string]bool{}
		for _, f := range use.FormatsIn(w.lab, p.Decl.ID) {
			i := slices.IndexFunc(trays, func(v capacity.Vessel) bool { return v.Fits(f) })
			if i >= 0 && !seen[trays[i].Key] {
				seen[trays[i].Key] = true
				out = append(out, p.dishes(b, trays[i])...)
			}
		}
	}
	return out
}

// filledFrom are the vessels that are filled from the bottle of a bath for a month's work: of every
// process the smallest that takes each format.
func (w *Work) filledFrom(b lab.Bath, use capacity.Use) []capacity.Stand {
	tanks, trays := capacity.Vessels(w.lab)
	var out []capacity.Stand
	for _, p := range w.Processes {
		vessels := trays
		if p.Decl.Base == lab.Film {
			vessels = tanks
		}
		for _, f := range use.FormatsIn(w.lab, p.Decl.ID) {
			if i := slices.IndexFunc(vessels, func(v capacity.Vessel) bool { return v.Fits(f) }); i >= 0 {
				out = append(out, p.dishes(b, vessels[i])...)
			}
		}
	}
	return out
}

// dishes are the trays of the steps of a process that are worked in a bath: the tray
// that is used for its prints, filled as the step says where it does.
func (p *Process) dishes(b lab.Bath, tray capacity.Vessel) []capacity.Stand {
	var out []capacity.Stand
	for n, s := range p.Decl.Steps {
		if p.Baths[n] == nil || p.Baths[n].Ref() != b.Ref() {
			continue
		}
		at := tray
		if s.Fill.Given() {
			at.Fill, at.Name = s.Fill, "dish of this step"
		}
		out = append(out, capacity.Stand{Process: p.Decl.ID, Vessel: at})
	}
	return out
}
