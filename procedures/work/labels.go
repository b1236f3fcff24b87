package work

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Label is what the label of a strength says besides its name, lives and dangers.
type Label struct {
	// Grams are what one millilitre of a percent solution holds, and One that millilitre;
	// both nil for everything else.
	One, Grams *figure.Record
	// Advice is what it tells to do, by the classes that stand on it.
	Advice []Advice
	// Bottles are the sizes that it is drawn for.
	Bottles []LabelSize
}

// Advice is a precautionary statement.
type Advice = lab.Advice

// LabelSize is one size of bottle.
type LabelSize struct {
	Size
	// Tally is the row of boxes to tick; nil where nothing is counted.
	Tally *FreshTally
}

// FreshTally is as many boxes as a fresh fill of a bottle treats.
type FreshTally struct {
	// Of is the format that a box stands for; empty: one use, however much is in it.
	Of    string
	Count *figure.Record
	Boxes int
}

// bottle is a size of bottle in which the lab keeps its solutions.
type bottle struct {
	holds unit.Quantity[unit.Volume]
	at    figure.Where
	by    figure.Origin
}

// bottleSizes are the lab's own bottles, or where it has named none the two usual ones,
// each size once.
func (w *Work) bottleSizes() []bottle {
	place := w.lab.Place
	var list []bottle
	for id, d := range place.Bottles {
		if d.Holds.Positive() {
			key := "bottle." + id + ".holds"
			by, _ := w.lab.OriginOf(place.Def, key)
			list = append(list, bottle{d.Holds.Quantity, place.At(key), by})
		}
	}
	if len(list) == 0 {
		for _, text := range []string{"500 mL", "1 L"} {
			list = append(list, bottle{holds: unit.MustParse[unit.Volume](text), by: figure.House})
		}
	}
	slices.SortFunc(list, func(a, b bottle) int {
		if d := a.holds.Exact().Cmp(b.holds.Exact()); d != 0 {
			return d
		}
		return strings.Compare(a.at.Key, b.at.Key)
	})
	return slices.CompactFunc(list,
		func(a, b bottle) bool { return mix.Tag(a.holds.Exact()) == mix.Tag(b.holds.Exact()) })
}

// labels is the stage of the bottle labels.
func (w *Work) labels() {
	bottles := w.bottleSizes()
	for _, b := range w.Baths {
		if s := b.Solution; s != nil && s.Dissolve != nil && s.Dissolve.In == "water" {
			b.Label.One = w.mix.VolumeFigure(figure.ID("percent", "one"), unit.MustParse[unit.Volume]("1 mL"),
				figure.Where{}, figure.Standard, "one millilitre")
			b.Label.Grams = w.mix.GramsPerMl(b.Bath)
		}
		b.Label.Advice = b.Dangers.Advice()
		for _, x := range bottles {
			size := w.sizeOf(figure.ID("bottle", "holds", mix.Tag(x.holds.Exact())), x.holds, x.at, x.by)
			b.Label.Bottles = append(b.Label.Bottles, LabelSize{size, w.freshTally(b, x.holds)})
		}
	}
}

// freshTally is the row of boxes of a bottle of a strength that is used again.
func (w *Work) freshTally(b *Bath, fill unit.Quantity[unit.Volume]) *FreshTally {
	if d := b.Decl(); d == nil || d.Use != "re-use" {
		return nil
	}
	all := w.passings(b.Bath)
	if len(all) == 0 {
		return nil
	}
	head := w.capacityFor(b.Bath, fill, w.mostUsed(b.Bath, all))
	switch {
	case head.NoWhy == "" && head.Count > 0:
		return &FreshTally{Of: head.Format.Name(), Count: head.N, Boxes: head.Count}
	case head.ByUses():
		return &FreshTally{Count: head.Uses, Boxes: head.MostUses}
	}
	return nil
}
