package work

import (
	"fmt"
	"maps"
	"math/big"
	"slices"
	"strings"

	"wetside/procedures/air"
	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Bottling is into which of the lab's own bottles a batch goes, so that each that is opened is
// emptied at once by one draw.
type Bottling struct {
	// Vessels are those that one draw fills, by name, at the strength Of.
	Of      *Bath
	Vessels []string
	Draw    *figure.Record
	// All are the bottles that are filled in all, Together those that are opened together, Draws how
	// many draws empty these, and Air how much air they hold; by batch, a dash where it is no answer.
	All, Together, Draws, Air []*figure.Record
	// Several: in some batch more than one draw empties what is opened together.
	Several bool
	// Notes are what the lab says of the bottles that are taken.
	Notes []string
}

// owned is one size of the lab's bottles.
type owned struct {
	air.Kind
	ml    *big.Rat
	notes []string
	in    []*figure.InputRef
}

// ownBottles are the lab's bottles, smallest first, those of one size together.
func (w *Work) ownBottles() []owned {
	place := w.lab.Place
	bySize := map[string]*owned{}
	var out []*owned
	for _, id := range slices.Sorted(maps.Keys(place.Bottles)) {
		d := place.Bottles[id]
		if !d.Holds.Positive() {
			continue
		}
		tag := mix.Tag(d.Holds.Exact())
		o, again := bySize[tag]
		if !again {
			o = &owned{Kind: air.Kind{Holds: tenths(d.Holds.Exact())}, ml: d.Holds.Exact()}
			bySize[tag], out = o, append(out, o)
		}
		if again && (o.Count == 0 || d.Count == 0) {
			o.Count = 0
		} else {
			o.Count += d.Count
		}
		if d.Note != "" {
			o.notes = append(o.notes, d.Note)
		}
		in := &figure.InputRef{Name: "a bottle of the lab", Where: d.Holds.Where(), Value: float64(d.Holds.Value()),
			Unit: "ml", Text: d.Holds.Text(), Origin: d.Holds.By()}
		o.in = append(o.in, in)
	}
	list := make([]owned, len(out))
	for i, o := range out {
		list[i] = *o
	}
	slices.SortFunc(list, func(a, b owned) int { return a.ml.Cmp(b.ml) })
	return list
}

// tenths is a volume in tenths of a millilitre, rounded down.
func tenths(ml *big.Rat) int64 {
	n := unit.RoundRat(new(big.Rat).Mul(ml, big.NewRat(10, 1)), big.NewRat(1, 1), unit.Down)
	if !n.IsInt64() {
		return 1 << 40
	}
	return n.Int64()
}

// bottling works out the bottles of a solution, for each draw that is made of it and each batch.
func (w *Work) bottling(s *Solution) []Bottling {
	bottles := w.ownBottles()
	made := s.Made
	if len(bottles) == 0 || made.Life("full") == nil && made.Life("part") == nil && made.Life("low") == nil {
		return nil
	}
	var out []Bottling
	for _, b := range w.Baths {
		from, _, diluted := b.From()
		use := ""
		if d := b.Decl(); d != nil {
			use = string(d.Use)
		}
		if !diluted || from.Ref() != made.Ref() || b.Dilution == nil || len(b.UsedIn) == 0 || use != "one-shot" &&
			use != "tray" {
			continue
		}
		for _, f := range b.Dilution.Fills {
			if f.No != nil || f.Take.Unit != "ml" {
				continue
			}
			i := slices.IndexFunc(out,
				func(x Bottling) bool { return x.Of == b && x.Draw.Rounded == f.Take.Amount.Rounded })
			if i < 0 {
				i, out = len(out), append(out, Bottling{Of: b, Draw: f.Take.Amount})
			}
			if !slices.Contains(out[i].Vessels, f.Vessel.Name) {
				out[i].Vessels = append(out[i].Vessels, f.Vessel.Name)
			}
		}
	}
	answered := out[:0]
	for _, x := range out {
		if w.bottle(&x, s, bottles) {
			answered = append(answered, x)
		}
	}
	return answered
}

// bottle fills in the bottles of one draw for every batch; false where none of them has an answer.
func (w *Work) bottle(x *Bottling, s *Solution, bottles []owned) bool {
	draw, err := unit.ParseDecimal(x.Draw.Rounded)
	if err != nil {
		return false
	}
	kinds := make([]air.Kind, len(bottles))
	var in []*figure.InputRef
	for i, b := range bottles {
		kinds[i], in = b.Kind, append(in, b.in...)
	}
	any := false
	for i, batch := range s.Batches {
		split, ok := air.BottlesFor(tenths(batch.Volume.Exact()), tenths(draw.Rat()), kinds)
		if !ok {
			none := w.word("none", "–")
			x.All, x.Together, x.Draws, x.Air = append(x.All, none), append(x.Together, none),
				append(x.Draws, none), append(x.Air, none)
			continue
		}
		any = true
		id := figure.ID(s.Made.Ref(), "bottles", batch.Tag, mix.Tag(draw.Rat()))
		text := func(id, name string, set []int) *figure.Record {
			shown := w.bottlesText(bottles, set)
			face := figure.Face{Kind: figure.KindText, Name: name, Shown: shown, Rounded: shown,
				Round: figure.Rounding{Rule: "chosen for the least air"}}
			core := figure.Core{ID: id, Method: air.Emptied, Inputs: in, Source: air.Emptied.Source,
				Origin: figure.Default}
			return w.mix.Book.Enter(figure.Of(core, face, x.Draw, s.Volumes[i]))
		}
		x.All = append(x.All, text(id, "bottles to fill", split.All()))
		x.Together = append(x.Together, text(figure.Beside(id, "together"), "bottles that are opened together",
			split.Set))
		draws := figure.Constant(unit.Factor(split.Draws), "draws that empty them", air.Emptied.Name, figure.Default)
		x.Draws = append(x.Draws, figure.Declare(w.mix.Book, figure.Beside(id, "draws"),
			figure.KindCount, draws, fmt.Sprint(split.Draws), ""))
		left := figure.Constant(unit.Volume(float64(split.Air)/10), "air in the bottles that are opened together",
			air.Emptied.Name, figure.Default)
		x.Air = append(x.Air, figure.Declare(w.mix.Book, figure.Beside(id, "air"),
			figure.KindAmount, left, unit.Short(float64(split.Air)/10), "ml"))
		x.Several = x.Several || split.Draws > 1
		for k, n := range split.All() {
			for _, note := range bottles[k].notes {
				if n > 0 && !slices.Contains(x.Notes, note) {
					x.Notes = append(x.Notes, note)
				}
			}
		}
	}
	return any
}

// bottlesText says how many bottles of which size, the largest first.
func (w *Work) bottlesText(bottles []owned, set []int) string {
	var parts []string
	for i := len(set) - 1; i >= 0; i-- {
		if set[i] > 0 {
			shown, word := mix.ShowVolume(bottles[i].ml)
			parts = append(parts, fmt.Sprintf("%d × %s %s", set[i], shown, word))
		}
	}
	return strings.Join(parts, " + ")
}
