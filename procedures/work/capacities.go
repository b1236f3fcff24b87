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

// passing is a format that goes through a bath, at a place of two where its limits name
// one, and the materials whose same format it stands for.
type passing struct {
	capacity.Kind
	place int
}

// alone is one format at a place, which stands for no other.
func alone(f capacity.Format, place int) passing { return passing{capacity.Kind{Format: f}, place} }

// passings lists what goes through a bath; nothing where the bath is not counted.
func (w *Work) passings(b lab.Bath) []passing {
	if out, done := w.passingOf[b.Ref()]; done {
		return out
	}
	var out []passing
	for _, base := range lab.Bases {
		if counted(b) && w.on(b, base) {
			out = append(out, w.passingsOn(b, base)...)
		}
	}
	w.passingOf[b.Ref()] = out
	return out
}

// passingsOn lists what goes through a bath on one base; what it treats alike is one.
func (w *Work) passingsOn(b lab.Bath, base lab.Base) []passing {
	var out []passing
	for _, k := range capacity.Kinds(w.lab, b, w.formatsOfAll(w.lab.Treated(b, base))) {
		for _, place := range capacity.Places(b.Decl(), base) {
			out = append(out, passing{k, place})
		}
	}
	return out
}

// each lists the same of some materials on the base, every format for itself.
func (w *Work) each(b lab.Bath, base lab.Base, materials ...*lab.Material) []passing {
	var out []passing
	for _, f := range w.formatsOfAll(materials) {
		for _, place := range capacity.Places(b.Decl(), base) {
			out = append(out, passing{capacity.Kind{Format: f}, place})
		}
	}
	return out
}

// throughOf lists in which formats a material goes through a bath; none where it does not,
// or where the bath is not counted.
func (w *Work) throughOf(b lab.Bath, m *lab.Material) []passing {
	if !counted(b) || !w.on(b, m.Base) || !slices.Contains(w.lab.Treated(b, m.Base), m) {
		return nil
	}
	return w.each(b, m.Base, m)
}

// formatsOfAll lists the formats of some materials, in their order.
func (w *Work) formatsOfAll(materials []*lab.Material) []capacity.Format {
	var out []capacity.Format
	for _, m := range materials {
		out = append(out, w.formats(m)...)
	}
	return out
}

// formats lists the formats of a material, with what is worked out of each once.
func (w *Work) formats(m *lab.Material) []capacity.Format {
	if out, done := w.formatsOf[m]; done {
		return out
	}
	out := capacity.Formats(w.lab, m)
	for i, f := range out {
		out[i] = f.Worked(w.lab)
	}
	w.formatsOf[m] = out
	return out
}

// capacitiesOf works out what a volume of a bath treats of every format that goes
// through it; none where the bath is not counted.
func (w *Work) capacitiesOf(b lab.Bath, volume unit.Quantity[unit.Volume]) []capacity.Capacity {
	return w.capacitiesFor(b, volume, w.passings(b))
}

// counted reports a bath of which somebody has written how much it treats.
func counted(b lab.Bath) bool {
	d := b.Decl()
	return d != nil && (len(d.Limits) > 0 || d.Use == "one-shot" && d.Needs.Given())
}

// capacitiesFor works out what a volume of a bath treats of some of what goes through it.
func (w *Work) capacitiesFor(b lab.Bath, volume unit.Quantity[unit.Volume], asked []passing) []capacity.Capacity {
	out := make([]capacity.Capacity, len(asked))
	for i, p := range asked {
		out[i] = w.capacityFor(b, volume, p)
	}
	return out
}

// capacityFor works out what a volume of a bath treats of one format, once. Only what
// some card tells is asked for: baths and formats together are many more than either. Of
// a litre that is every format, in their order.
func (w *Work) capacityFor(b lab.Bath, volume unit.Quantity[unit.Volume], p passing) capacity.Capacity {
	at := capacityKey{b.Ref(), volume.Text(), p.Format.Ref(), p.place}
	if out, done := w.capacityOf[at]; done {
		return out
	}
	keeps, _ := bottleOf(b).Keeps()
	use := w.useOf(b)
	if w.sharesBottle(b) {
		use = capacity.Use{}
	}
	var told []passing
	if volume.Text() == Litre.Text() {
		told = w.passings(b)
	}
	for _, x := range append(told[:len(told):len(told)], p) {
		at.format, at.place = x.Format.Ref(), x.place
		if _, done := w.capacityOf[at]; !done {
			w.capacityOf[at] = capacity.Of(w.mix, b, x.Format, volume, x.place, use, keeps)
		}
	}
	return w.capacityOf[at]
}

// capacityKey is what the capacity of a bath is for.
type capacityKey struct {
	bath, volume, format string
	place                int
}

// sharesBottle reports a one-shot strength whose bottle another strength that is used
// here is drawn from too: how fast the bottle empties hangs on both.
func (w *Work) sharesBottle(b lab.Bath) bool {
	from := bottleOf(b)
	if from.Ref() == b.Ref() {
		return false
	}
	if w.drawn == nil {
		w.drawn = map[string][]lab.Bath{}
		for _, o := range w.lab.Baths() {
			if bottle := bottleOf(o).Ref(); bottle != o.Ref() {
				w.drawn[bottle] = append(w.drawn[bottle], o)
			}
		}
	}
	return slices.ContainsFunc(w.drawn[from.Ref()], func(o lab.Bath) bool {
		return o.Ref() != b.Ref() && len(w.Bath(o.Ref()).UsedIn) > 0
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
func (w *Work) mostUsed(b lab.Bath, all []passing) passing { return all[w.mostUsedAt(b, all)] }

// mostUsedAt is the place of that format among all.
func (w *Work) mostUsedAt(b lab.Bath, all []passing) int {
	var formats []capacity.Format
	for _, x := range all {
		formats = append(formats, x.Format)
	}
	most := w.useOf(b).Most(w.lab, formats)
	return max(0, slices.IndexFunc(all, func(x passing) bool {
		return x.Format.Ref() == most && (x.place <= 1 || len(all) == 1)
	}))
}

// mostUsedOn is the most used among the formats on one base.
func (w *Work) mostUsedOn(b lab.Bath, base lab.Base) (passing, bool) {
	var mine []passing
	for _, x := range w.passings(b) {
		if x.Format.Material.Base == base && x.place <= 1 {
			mine = append(mine, x)
		}
	}
	if len(mine) == 0 {
		return passing{}, false
	}
	return w.mostUsed(b, mine), true
}
