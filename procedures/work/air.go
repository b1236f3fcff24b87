package work

import (
	"slices"

	"wetside/procedures/air"
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

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

// Airing is what air can still do to a bottle on the shelf.
type Airing = air.Rest

// airOver is what the air over a bottle on the shelf can still do, by its log.
func (w *Work) airOver(b *Bottle) {
	if !b.Usable() || b.State == "tray" || b.Size == nil {
		return
	}
	log := air.Log{Filled: b.Start().Figure("filled in")}
	var drawn []figure.Figure[unit.Volume]
	for _, e := range b.Log {
		if e.Drew.Given() {
			drawn = append(drawn, e.Drew.Figure("drawn"))
		}
		if e.Opened || e.Drew.Given() || len(e.Worked) > 0 || e.Cleared.Given() {
			log.Drawn = append(log.Drawn, slices.Clone(drawn))
		}
	}
	if o, ok := air.Now(w.mix, b.Bath.Bath, b.ID, b.Size.Holds, b.Left, log); ok {
		b.Air = &o
	}
}
