package work

import "wetside/procedures/air"

// Air is what air does to a strength in a bottle.
type Air = air.Bottle

// air is the stage of the oxygen over what stands in bottles.
func (w *Work) air() {
	for _, b := range w.Baths {
		if b.Life("full") == nil && b.Life("part") == nil && b.Life("low") == nil {
			continue
		}
		if out, ok := air.Of(w.mix, b.Bath); ok {
			b.Air = &out
		}
	}
}

// Opening is what one more opening of a bottle can eat, and how many of them it stands.
type Opening = air.Opened

// airOver is what the air over a bottle on the shelf can do at the next opening.
func (w *Work) airOver(b *Bottle) {
	if !b.Usable() || b.State == "tray" || b.Size == nil {
		return
	}
	if o, ok := air.Now(w.mix, b.Bath.Bath, b.ID, b.Size.Holds, b.Left); ok {
		b.Air = &o
	}
}
