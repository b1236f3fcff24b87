package work

import (
	"fmt"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Store is what stands in the store, and what can still be made of it.
type Store struct {
	Def   lab.Def
	Packs []Stored
	// Makes are what can still be made, in the order of the lab; what is made of other baths
	// is not among them.
	Makes []CanMake
	// Past is how many packs are past their best-before; nil where none is.
	Past *figure.Record
}

// CanMake is how much of something the store still makes.
type CanMake = capacity.CanMake

// Stored is one pack that stands in the store.
type Stored struct {
	Name, Ref, Lot string
	// Each is nil where nobody has written it.
	Left, Opened, BestBefore, Lead *figure.Record
	// Past: its best-before lies before the day. Product is what it is a pack of, or nil.
	Past    bool
	Product *lab.Product
	// Chemical is the id of the substance in it; empty for a product.
	Chemical string
}

// store is the stage of what stands in the store.
func (w *Work) store() {
	here := w.lab.InStore()
	if len(here) == 0 {
		return
	}
	s := &Store{Def: w.lab.Store.Def}
	seen, past := map[string]int{}, 0
	for _, p := range here {
		x := Stored{Name: w.packName(p), Ref: p.Ref, Lot: p.Lot, Past: p.Past(w.Day), Product: p.Ing.Bath.Product}
		if p.Ing.Chemical != nil {
			x.Chemical = p.Ing.Chemical.ID
		}
		n := seen[p.Ref]
		seen[p.Ref]++
		id := func(what string) string {
			if n > 0 {
				return figure.ID("store", what+"."+p.Ref, fmt.Sprint(n+1))
			}
			return figure.ID("store", what+"."+p.Ref)
		}
		if p.Left.Given() {
			x.Left = w.leftIn(p)
		}
		if p.Opened.Given() {
			x.Opened = figure.DeclareDate(w.mix.Book, id("opened"), p.Opened.Figure("opened"))
		}
		if p.BestBefore.Given() {
			x.BestBefore = figure.DeclareDate(w.mix.Book, id("best-before"), p.BestBefore.Figure("best before"))
		}
		if p.Lead.Given() {
			x.Lead = figure.Declare(w.mix.Book, id("lead"), figure.KindCount,
				p.Lead.Figure("how long a delivery takes"), unit.Short(p.Lead.Number()), p.Lead.Word())
		}
		if x.Past {
			past++
		}
		s.Packs = append(s.Packs, x)
	}
	usable := func(ref string) []lab.InStore {
		here, _ := w.lab.UsablePacks(ref, w.Day)
		return here
	}
	for _, d := range w.lab.Solutions {
		if made, ok := capacity.StoreMakes(w.mix, d, usable); ok {
			s.Makes = append(s.Makes, made)
		}
	}
	for _, d := range w.lab.Products {
		if made, ok := capacity.PacksMake(w.mix, d, usable); ok {
			s.Makes = append(s.Makes, made)
		}
	}
	if past > 0 {
		s.Past = w.count(figure.ID("today", "past-best-before"), past, "", "packs past their best-before")
	}
	w.Store = s
}
