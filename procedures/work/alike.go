package work

import (
	"slices"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
)

// Alike is of what one row tells: a format of one material, and the same format of others
// where everything the row says is the same of them.
type Alike struct {
	Format capacity.Format
	Others []*lab.Material
	// Whole: it tells of every material of the lab on the base that comes in this format.
	Whole bool
}

// kind is what of an answer is known before rows are put together.
func (a Alike) kind() capacity.Kind { return capacity.Kind{Format: a.Format, Others: a.Others} }

// oneRow puts rows of which everything told is the same into one, where they are of one
// format of one size. It keeps the first of each, or the one at head where that is among
// them, and says of which materials it tells.
func oneRow[T any](w *Work, rows []T, head int, kind func(T) capacity.Kind, same func(a, b T) bool) (
	kept []T, of []Alike) {
	type sort struct {
		base                        lab.Base
		format, name, width, length string
	}
	bySort := map[sort][]int{} // places among those that are kept
next:
	for i, row := range rows {
		k := kind(row)
		f := k.Format
		s := sort{f.Material.Base, f.ID, f.Decl.Name, f.Decl.Width.Text(), f.Decl.Length.Text()}
		for _, at := range bySort[s] {
			x := &of[at]
			if !same(kept[at], row) {
				continue
			}
			x.Others = append(x.Others, k.Others...)
			if i == head {
				x.Others = append(x.Others, x.Format.Material)
				kept[at], x.Format = row, f
			} else {
				x.Others = append(x.Others, f.Material)
			}
			continue next
		}
		bySort[s] = append(bySort[s], len(kept))
		kept, of = append(kept, row), append(of, Alike{Format: f, Others: slices.Clone(k.Others)})
	}
	for i := range of {
		x := &of[i]
		slices.SortFunc(x.Others, func(a, b *lab.Material) int { return strings.Compare(a.ID, b.ID) })
		x.Whole = 1+len(x.Others) == w.comeIn(x.Format)
	}
	return kept, of
}

// comeIn is how many materials on the base of a format come in it.
func (w *Work) comeIn(f capacity.Format) int {
	n := 0
	for _, m := range w.lab.OfBase(f.Material.Base) {
		if slices.Contains(m.Formats, f.ID) {
			n++
		}
	}
	return n
}

// sameRecord reports two figures that say the same, and know it as well.
func sameRecord(a, b *figure.Record) bool {
	if a == nil || b == nil {
		return a == b
	}
	return a.Value == b.Value && a.Low == b.Low && a.High == b.High && a.HasLow == b.HasLow && a.Unit == b.Unit &&
		a.Shown == b.Shown &&
		a.Why == b.Why && a.Origin == b.Origin
}

// sameCapacity reports two formats of which a bath treats as many, by the same limits, for
// the same money.
func sameCapacity(a, b *FormatCapacity) bool {
	if a == nil || b == nil {
		return a == b
	}
	if a.Place != b.Place || a.Governs != b.Governs || a.By != b.By || a.NoWhy != b.NoWhy || a.CostWhy != b.CostWhy ||
		a.Evening != b.Evening || a.Test != b.Test ||
		len(a.Limits) != len(b.Limits) || len(a.With) != len(b.With) {
		return false
	}
	for i, l := range a.Limits {
		o := b.Limits[i]
		if l.By != o.By || l.Words != o.Words || l.Tightest != o.Tightest || !sameRecord(l.N, o.N) ||
			!sameRecord(l.Spread, o.Spread) {
			return false
		}
	}
	for i, words := range a.With {
		if words != b.With[i] {
			return false
		}
	}
	return sameRecord(a.N, b.N) && sameRecord(a.Spread, b.Spread) && sameRecord(a.Cost, b.Cost) &&
		sameRecord(a.IdealCost, b.IdealCost) &&
		sameRecord(a.Uses, b.Uses) && sameRecord(a.Life, b.Life) && sameRecord(a.Aged, b.Aged)
}
