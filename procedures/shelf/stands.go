package shelf

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Wanted is what is looked for on the shelf: a bath, at its place of two where it
// has one. Unused: nothing may have been worked in it, because it goes into another.
// Base is that of the process that wants it, empty without one.
type Wanted struct {
	Ref    string
	Place  int
	Unused bool
	Base   lab.Base
}

// Standing is what stands on the shelf of one strength on the binder's day.
type Standing struct {
	Dead, Unsure, Usable []Batch
	// SpentFor are good for other work, and spent for what is looked for. They count
	// as none.
	SpentFor []Batch
	// Placeless are batches of which nobody has written which of two baths they are,
	// while one of the two is looked for. They count as none.
	Placeless []Batch
	// Left is what the usable batches hold together, Exact the same
	// in ml; nil where the log of one of them does not tell.
	Left  *figure.Record
	Exact *big.Rat
}

// Usable reports whether a batch may be used on the binder's day.
func (b Batch) Usable() bool { return b.Answer == Good || b.Answer == Dying }

// SpentFor reports that a batch takes not one more piece of any format of a base,
// and by which limit: another base may still have room in it.
func (b Batch) SpentFor(base lab.Base) (by string, spent bool) {
	for _, m := range b.More {
		if m.Format.Material.Base != base {
			continue
		}
		if m.Why != "" || m.Count > 0 {
			return "", false
		}
		by, spent = m.By, true
	}
	return by, spent
}

// Stands gathers the batches of what is wanted.
func Stands(book *figure.Ledger, batches []Batch, w Wanted) Standing {
	var s Standing
	var left []figure.Figure[unit.Volume]
	s.Exact = new(big.Rat)
	for _, b := range batches {
		switch {
		case b.Bath.Ref() != w.Ref || w.Place > 0 && b.PlaceNow > 0 && b.PlaceNow != w.Place:
			continue
		case b.Answer == Dead:
			s.Dead = append(s.Dead, b)
			continue
		case !b.Usable():
			s.Unsure = append(s.Unsure, b)
			continue
		case w.Place > 0 && b.PlaceNow == 0:
			s.Placeless = append(s.Placeless, b)
			continue
		case w.Unused && b.Worked > 0:
			continue
		}
		if _, spent := b.SpentFor(w.Base); spent {
			s.SpentFor = append(s.SpentFor, b)
			continue
		}
		s.Usable = append(s.Usable, b)
		if b.LeftExact == nil || s.Exact == nil {
			s.Exact = nil
			continue
		}
		s.Exact.Add(s.Exact, b.LeftExact)
		left = append(left, figure.Entered[unit.Volume](b.Left))
	}
	switch {
	case len(s.Usable) == 1:
		s.Left = s.Usable[0].Left
	case len(s.Usable) == 0 || s.Exact == nil:
	default:
		by := w.variants()
		if len(s.SpentFor) > 0 {
			by = append(by, "for="+string(w.Base))
		}
		s.Left = figure.Enter(book, exactly(stand.Of(figure.ID("shelf", "stands", by...), left...), s.Exact))
	}
	return s
}

// variants are the part of an id that says what is looked for.
func (w Wanted) variants() []string {
	by := []string{w.Ref}
	if w.Place > 0 {
		by = append(by, fmt.Sprintf("place=%d", w.Place))
	}
	if w.Unused {
		by = append(by, "unused")
	}
	return by
}

// Together enters what several pieces of work want of one bath.
func Together(book *figure.Ledger, w Wanted, each []*figure.Record) *figure.Record {
	if len(each) == 1 {
		return each[0]
	}
	var parts []figure.Figure[unit.Volume]
	var shown []string
	for _, r := range each {
		parts = append(parts, figure.Entered[unit.Volume](r))
		shown = append(shown, r.Shown)
	}
	id := figure.ID("shelf", "wanted", append(w.variants(), strings.Join(shown, "+"))...)
	return figure.Enter(book, asWorked(wantedTogether.Of(id, parts...)))
}

// PartOf enters what one bath's share of another comes to in what is wanted of that.
func PartOf(book *figure.Ledger, of, part Wanted, r *figure.Record, share *big.Rat) *figure.Record {
	f, _ := share.Float64()
	s := figure.Constant(unit.Factor(f), "its share", "the parts as written", figure.Standard)
	in := of.variants()
	in[0] = "for=" + in[0]
	id := figure.ID("shelf", "wanted", slices.Concat(part.variants(), in, []string{r.Shown})...)
	return figure.Enter(book, asWorked(wantedPart.Of(id, figure.Entered[unit.Volume](r), s)))
}

// asWorked shows a volume that is wanted: whole millilitres as they are, else to the
// tenth of one upwards.
func asWorked(f figure.Figure[unit.Volume]) figure.Figure[unit.Volume] {
	step := "0.1"
	if v := unit.Snap(float64(f.Value)); v == unit.Round(v, 1, unit.Down) {
		step = "1"
	}
	return f.Show(figure.KindAmount, step, unit.Up, "")
}
