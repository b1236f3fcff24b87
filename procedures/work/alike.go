package work

import (
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
)

// Alike is of what one row tells: a format of one material, and the same format of others
// where everything the row says is the same of them.
type Alike struct {
	Format capacity.Format
	Others []*lab.Material
	// Whole: no other material on the base has another answer in this format.
	Whole bool
}

// oneRow puts rows of which everything told is the same into one, where they are of one
// format: each group is a list of places in rows, and the groups stand in the order of their
// first. The row at head is the first of its group.
func oneRow[T any](rows []T, head int, format func(T) capacity.Format, same func(a, b T) bool) (groups [][]int,
	of []Alike) {
	type sort struct {
		base   lab.Base
		format string
	}
	kind := func(i int) sort {
		f := format(rows[i])
		return sort{f.Material.Base, f.ID}
	}
	byKind := map[sort][]int{} // places in groups
	size := map[sort]int{}
next:
	for i := range rows {
		k := kind(i)
		size[k]++
		for _, g := range byKind[k] {
			if same(rows[groups[g][0]], rows[i]) {
				groups[g] = append(groups[g], i)
				if i == head {
					last := len(groups[g]) - 1
					groups[g][0], groups[g][last] = groups[g][last], groups[g][0]
				}
				continue next
			}
		}
		byKind[k] = append(byKind[k], len(groups))
		groups = append(groups, []int{i})
	}
	of = make([]Alike, len(groups))
	for g, places := range groups {
		of[g] = Alike{Format: format(rows[places[0]]), Whole: len(places) == size[kind(places[0])]}
		for _, i := range places[1:] {
			of[g].Others = append(of[g].Others, format(rows[i]).Material)
		}
	}
	return groups, of
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
