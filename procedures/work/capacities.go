package work

import (
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// useOf is a month's work of all the processes that use a bath.
func (w *Work) useOf(b lab.Bath) capacity.Use {
	var ids []string
	for _, p := range w.Bath(b.Ref()).UsedIn {
		ids = append(ids, p.ID)
	}
	return capacity.UseOf(w.lab, ids)
}

// capacitiesOf works out what a volume of a bath treats of every format that goes
// through it; none where the bath is not counted.
func (w *Work) capacitiesOf(b lab.Bath, volume unit.Quantity[unit.Volume]) []capacity.Capacity {
	if !counted(b) {
		return nil
	}
	var out []capacity.Capacity
	for _, base := range lab.Bases {
		if w.on(b, base) {
			out = append(out, w.capacitiesOn(b, volume, base)...)
		}
	}
	return out
}

// counted reports a bath of which somebody has written how much it treats.
func counted(b lab.Bath) bool {
	d := b.Decl()
	return d != nil && (len(d.Limits) > 0 || d.Use == "one-shot" && d.Needs.Given())
}

// capacitiesOn works out what a volume of a bath treats of every format on one base,
// once.
func (w *Work) capacitiesOn(b lab.Bath, volume unit.Quantity[unit.Volume], base lab.Base) []capacity.Capacity {
	at := b.Ref() + "@" + volume.Text() + "," + string(base)
	if out, done := w.capacityOf[at]; done {
		return out
	}
	d := b.Decl()
	keeps, _ := bottleOf(b).Keeps()
	use := w.useOf(b)
	if w.sharesBottle(b) {
		use = capacity.Use{}
	}
	var out []capacity.Capacity
	for _, f := range capacity.Formats(w.lab, w.lab.Treated(b, base)...) {
		for _, place := range capacity.Places(d, base) {
			out = append(out, capacity.Of(w.mix, b, f, volume, place, use, keeps))
		}
	}
	w.capacityOf[at] = out
	return out
}

// sharesBottle reports a one-shot strength whose bottle another strength that is used
// here is drawn from too: how fast the bottle empties hangs on both.
func (w *Work) sharesBottle(b lab.Bath) bool {
	from := bottleOf(b)
	if from.Ref() == b.Ref() {
		return false
	}
	return slices.ContainsFunc(w.lab.Baths(), func(o lab.Bath) bool {
		return o.Ref() != b.Ref() && bottleOf(o).Ref() == from.Ref() && bottleOf(o).Ref() != o.Ref() && len(w.Bath(o.Ref()).UsedIn) > 0
	})
}

// bottleOf is what stands in the bottle: of a one-shot dilution, what it is
// diluted from.
func bottleOf(b lab.Bath) lab.Bath {
	if d := b.Decl(); d != nil && d.Use == "one-shot" {
		if from, _, ok := b.From(); ok {
			return from
		}
	}
	return b
}

// mostUsed is the format by which a bath's end is told: the one that a month's use
// puts through it most, else the first of all.
func (w *Work) mostUsed(b lab.Bath, all []capacity.Capacity) capacity.Capacity {
	return all[w.mostUsedAt(b, all)]
}

// mostUsedAt is the place of that format among all.
func (w *Work) mostUsedAt(b lab.Bath, all []capacity.Capacity) int {
	var formats []capacity.Format
	for _, x := range all {
		formats = append(formats, x.Format)
	}
	most := w.useOf(b).Most(w.lab, formats)
	return max(0, slices.IndexFunc(all, func(x capacity.Capacity) bool {
		return x.Format.Ref() == most && (x.Place <= 1 || len(all) == 1)
	}))
}

// mostUsedOn is the most used among the formats on one base.
func (w *Work) mostUsedOn(b lab.Bath, all []capacity.Capacity, base lab.Base) (capacity.Capacity, bool) {
	var mine []capacity.Capacity
	for _, x := range all {
		if x.Format.Material.Base == base && x.Place <= 1 {
			mine = append(mine, x)
		}
	}
	if len(mine) == 0 {
		return capacity.Capacity{}, false
	}
	return w.mostUsed(b, mine), true
}
