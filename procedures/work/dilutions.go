package work

import (
	"fmt"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

type (
	// Vessel is a tank with one family of formats, or a tray.
	Vessel = capacity.Vessel
	// Fill is what goes into a vessel, or why nothing does.
	Fill = capacity.Fill
	// Take is one amount: its figure, and how it is measured.
	Take = mix.Take
	// Draw is how much of one strength goes into another.
	Draw = mix.Draw
	// Capacity is what a volume of a bath treats of one format.
	Capacity = capacity.Capacity
)

// Dilution is how a strength is diluted from a stronger one.
type Dilution struct {
	// From is the stronger one, and By how much water goes to it.
	From lab.Bath
	By   unit.Dilution
	// Stock: weaker ones are diluted from it in turn. Then it is made into bottles, and
	// fills no vessel.
	Stock   bool
	Bottles []Drawn
	// Fills is what fills each vessel that it may stand in.
	Fills []Filling
	// Least is the least of From for one roll; nil where nobody has written it.
	Least *figure.Record
	// Treats is what a litre treats of the format that goes through it most; nil where
	// that is not counted, or where it is used once.
	Treats *Capacity
	// StopAbove is the temperature above which nobody works in it, or nil.
	StopAbove *figure.Record
	// Rests is what a rest in the bottle is enough for; nil where that is not counted.
	Rests *Rests
	// Straight is what it would take to leave out the strength in between; nil where
	// there is none.
	Straight *Straight
}

// Split is how an amount is measured in several pours: so many equal ones, or a full
// cylinder and the rest. Both are nil where one pour does it.
type Split struct{ Pours, Full *figure.Record }

// Drawn is a volume made of a dilution.
type Drawn struct {
	Draw
	Split Split
}

// Filling is what goes into one vessel.
type Filling struct {
	Fill
	Split Split
}

// Straight is what it would take to dilute in one step instead of two.
type Straight struct {
	// Overall is the dilution of both steps together.
	Overall *figure.Record
	Vessels []StraightInto
}

// StraightInto is the amount for one vessel, mostly too little to be measured.
type StraightInto struct {
	Vessel Vessel
	Take   Take
}

// dilutions is the stage of what each strength is diluted from, and what it fills.
func (w *Work) dilutions() {
	for _, s := range w.Subjects {
		stock := map[string]bool{}
		for _, b := range s.Strengths {
			if from, _, ok := b.From(); ok {
				stock[from.Strength] = true
			}
		}
		for _, b := range s.Strengths {
			from, by, ok := b.From()
			if !ok {
				continue
			}
			b.Dilution = &Dilution{From: from, By: by.Dilution, Stock: stock[b.Strength]}
			if b.Dilution.Stock {
				b.Dilution.Bottles = w.bottlesOf(b.Bath)
			} else {
				w.fill(b)
			}
		}
	}
}

// bottleVolumes are the volumes in which a strength is made that others are diluted from.
var bottleVolumes = []string{"100 mL", "250 mL", "500 mL", "1 L"}

// bottlesOf is a strength that others are diluted from, made into bottles.
func (w *Work) bottlesOf(b lab.Bath) []Drawn {
	var out []Drawn
	for _, text := range bottleVolumes {
		v := unit.MustParse[unit.Volume](text)
		if draw, ok := w.mix.Draw(b, v, figure.Where{}, figure.House, "volume made", nil); ok {
			out = append(out, Drawn{draw, w.splitOf(draw.Take)})
		}
	}
	return out
}

// splitOf enters in which pours an amount is measured.
func (w *Work) splitOf(t Take) Split {
	h := t.Hand
	switch {
	case t.Refused != "":
	case h.FullDevice != "":
		face := figure.Face{Kind: figure.KindAmount, Name: "a full " + h.FullDevice, Unit: "ml", Shown: h.Full.String(),
			Rounded: h.Full.String(), Round: figure.Rounding{Rule: "the whole cylinder"}}
		core := figure.Core{ID: figure.Beside(t.Amount.ID, "full"), Value: h.Full.Float(), Method: mix.FewestPours,
			Origin: figure.House}
		return Split{Full: w.mix.Book.Enter(figure.Of(core, face))}
	case h.Pours > 1:
		n := fmt.Sprint(h.Pours)
		face := figure.Face{Kind: figure.KindCount, Name: "pours", Shown: n, Rounded: n,
			Round: figure.Rounding{Rule: "fewest within the house’s error"}}
		core := figure.Core{ID: figure.Beside(t.Amount.ID, "pours"), Value: float64(h.Pours), Method: mix.FewestPours,
			Origin: figure.House}
		return Split{Pours: w.mix.Book.Enter(figure.Of(core, face))}
	}
	return Split{}
}

// fill works out what a strength fills, and what is said beside it.
func (w *Work) fill(b *Bath) {
	d, decl := b.Dilution, b.Decl()
	vessels := w.vesselsFor(b.Bath)
	if d.Fills = w.fillings(b, vessels); len(d.Fills) == 0 {
		return
	}
	if decl.Needs.Given() {
		key := "strength." + b.Strength + ".needs"
		by, _ := w.lab.OriginOf(b.Def(), key)
		needs := figure.Given(decl.Needs, b.Def().At(key), by, "least for one roll")
		d.Least = figure.Declare(w.mix.Book, figure.ID(b.Ref(), "needs"), figure.KindAmount, needs,
			unit.Short(float64(decl.Needs.Value())), "ml a roll")
	}
	if all := w.capacitiesOf(b.Bath, Litre); len(all) > 0 && decl.Use != "one-shot" {
		if x := all[w.mostUsedAt(b.Bath, w.passings(b.Bath))]; x.NoWhy == "" {
			d.Treats = &x
		}
	}
	b.Limits = w.limitsOf(b.Bath)
	if at := decl.Temperature.StopAbove; at.Given() {
		d.StopAbove = w.temperature(figure.ID(b.Ref(), "stop-above"), b.Def(),
			"strength."+b.Strength+".temperature.stop_above", at.Quantity, "stop above")
	}
	d.Rests = w.rests(b.Bath)
	d.Straight = w.straight(b.Bath, vessels)
}

// fillings is what fills each vessel; trays of one name and one fill are told once.
func (w *Work) fillings(b *Bath, vessels []Vessel) []Filling {
	var out []Filling
	seen := map[string]bool{}
	for _, v := range vessels {
		f := Filling{Fill: w.filled(b.Bath, v)}
		if f.No == nil && !b.Dilution.By.None() {
			f.Split = w.splitOf(f.Take)
		}
		key := v.Name + " " + f.Volume.ID
		if seen[key] && v.Tray {
			continue
		}
		seen[key] = true
		out = append(out, f)
	}
	return out
}

// straight is what it would take to skip the strength in between; nil where there is
// none.
func (w *Work) straight(b lab.Bath, vessels []Vessel) *Straight {
	out := &Straight{}
	for _, v := range vessels {
		draw, ok := w.mix.Straight(b, v.Fill.Quantity, v.Fill.Where(), v.Fill.By(), "fill of the "+v.Name)
		if !ok {
			return nil
		}
		out.Overall = draw.Overall
		out.Vessels = append(out.Vessels, StraightInto{v, draw.Take})
	}
	return out
}
