package work

import (
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Litre is the volume for which capacities are told first.
var Litre = unit.MustParse[unit.Volume]("1 L")

// BathCapacity is how much a bath treats until it is spent.
type BathCapacity struct {
	// Litre is what a litre of Bottle treats of every format that goes through the bath, and
	// Head the format among them by which its end is told. Materials with the same answers
	// are one.
	Litre []*FormatCapacity
	Head  *FormatCapacity
	// Bottle is what stands in the bottle: the bath itself, or what a one-shot bath is
	// diluted from.
	Bottle lab.Bath
	// Shared: other strengths that are used here are drawn from the same bottle, so that
	// its age cannot be weighed for one of them alone.
	Shared bool
	// Paced: somebody has written how much goes through the bath in a month.
	Paced bool
	// RollCost is what the stock for one roll of a one-shot bath costs; RollCostWhy says
	// why that is not known.
	RollCost    *figure.Record
	RollCostWhy string
	// Worth is the most stock in one opened bottle that is used before it dies of age; nil
	// where that is not known, or where no bottle of the lab holds more.
	Worth *figure.Record
	// Trays is what the bath treats in each tray that it may stand in, and Batches what
	// each batch of it treats of the format by which its end is told.
	Trays   []TrayCapacity
	Batches []BatchCapacity
}

// FormatCapacity is how many of one format a volume of a bath treats.
type FormatCapacity struct {
	capacity.Capacity
	// Of is the format and the materials; only those for a litre have it.
	Of Alike
	// Limits is what each limit allows. Only those for a litre have them.
	Limits []LimitCount
	// Spread is the least and the most that it may be; nil where both are one number.
	Spread *figure.Record
}

// LimitCount is how many one limit allows.
type LimitCount struct {
	// By is the kind of limit, Words what a card calls it.
	By, Words string
	N         *figure.Record
	// Spread is the least and the most that it may be; nil where both are one number.
	Spread *figure.Record
	// Tightest: no other limit allows less, age left aside.
	Tightest bool
}

// TrayCapacity is what a bath treats in one tray.
type TrayCapacity struct {
	// Fill is how much of the bath is in the tray.
	Fill *figure.Record
	// Formats stand in the order of those for a litre; nil where one does not lie flat in
	// the tray.
	Formats []*FormatCapacity
}

// BatchCapacity is what one batch of a bath treats.
type BatchCapacity struct {
	FormatCapacity
	// Made is the volume of the batch.
	Made *figure.Record
}

// capacities is the stage of how much each bath treats.
func (w *Work) capacities() {
	for _, b := range w.Baths {
		if all := w.capacitiesOf(b.Bath, Litre); len(all) > 0 {
			b.Capacity = w.bathCapacity(b.Bath, all)
		}
	}
}

// bathCapacity is how much a bath treats; all is what a litre of it does.
func (w *Work) bathCapacity(b lab.Bath, all []capacity.Capacity) *BathCapacity {
	c := &BathCapacity{Bottle: bottleOf(b), Shared: w.sharesBottle(b), Paced: w.useOf(b).Known()}
	passings := w.passings(b)
	for i, x := range all {
		c.Litre = append(c.Litre, &FormatCapacity{Capacity: x, Of: Alike{Format: x.Format, Others: passings[i].Others},
			Limits: w.limitCounts(x), Spread: w.spreadOf(x)})
	}
	head := w.mostUsedAt(b, passings)
	c.Trays = w.trayCapacities(b, all, head)
	c.Head = c.Litre[head]
	w.mergeFormats(c, head)
	if b.Written().Use == "one-shot" {
		c.RollCost, c.RollCostWhy = capacity.RollCost(w.mix, b)
		keeps, _ := c.Bottle.Keeps()
		worth := capacity.Worth(w.mix, b, c.Head.Format, w.useOf(b), keeps)
		if worth != nil && !c.Shared && w.inBottles(worth) {
			c.Worth = worth
		}
	}
	c.Batches = w.batchCapacities(b, c.Head.Capacity)
	return c
}

// mergeFormats puts materials with the same answers together, in a litre and in every tray.
func (w *Work) mergeFormats(c *BathCapacity, head int) {
	places := make([]int, len(c.Litre))
	for i := range places {
		places[i] = i
	}
	kept, of := oneRow(w, places, head, func(i int) capacity.Kind { return c.Litre[i].Of.kind() }, func(i, j int) bool {
		return sameCapacity(c.Litre[i], c.Litre[j]) && !slices.ContainsFunc(c.Trays,
			func(t TrayCapacity) bool { return !sameCapacity(t.Formats[i], t.Formats[j]) })
	})
	pick := func(list []*FormatCapacity) []*FormatCapacity {
		out := make([]*FormatCapacity, len(kept))
		for i, place := range kept {
			out[i] = list[place]
		}
		return out
	}
	c.Litre = pick(c.Litre)
	for i, x := range c.Litre {
		x.Of = of[i]
	}
	for i := range c.Trays {
		c.Trays[i].Formats = pick(c.Trays[i].Formats)
	}
}

// limitCounts enters what each limit allows. Of two limits of one kind the first is told.
func (w *Work) limitCounts(x capacity.Capacity) []LimitCount {
	var out []LimitCount
	tightest := -1
	for i, b := range x.Bounds {
		l := LimitCount{By: b.By, Words: b.Words, N: b.Fig.Record()}
		if !slices.ContainsFunc(out, func(o LimitCount) bool { return o.By == b.By }) {
			l.N, l.Spread = figure.Enter(w.mix.Book, b.Fig), w.spread(b.Fig)
		}
		out = append(out, l)
		if b.By != "age" && (tightest < 0 || b.Fig.Value < x.Bounds[tightest].Fig.Value) {
			tightest = i
		}
	}
	if tightest >= 0 {
		out[tightest].Tightest = true
	}
	return out
}

// spreadOf is the spread of how many are treated, where that is a number.
func (w *Work) spreadOf(x capacity.Capacity) *figure.Record {
	if x.ByUses() || x.NoWhy != "" {
		return nil
	}
	return w.spread(x.Range)
}

// inBottles reports whether some bottle of the lab holds more than a volume: only then
// does it say anything.
func (w *Work) inBottles(volume *figure.Record) bool {
	for _, b := range w.lab.Place.Bottles {
		if float64(b.Holds.Value()) > volume.Value {
			return true
		}
	}
	return false
}

// trayCapacities is what a bath treats in each tray; all is what a litre of it does, and
// head the place among them of the format by which its batches are told: a batch of the
// size of a tray has its answer from here, whether or not it lies flat.
func (w *Work) trayCapacities(b lab.Bath, all []capacity.Capacity, head int) []TrayCapacity {
	var out []TrayCapacity
	for _, v := range w.trayVolumes(b) {
		t := TrayCapacity{
			Fill: w.mix.VolumeFigure(figure.ID("tray-volume", mix.Tag(v.Fill.Exact())), v.Fill.Quantity,
				v.Fill.Where(), v.Fill.By(),
				"fill of the "+v.Name),
			Formats: make([]*FormatCapacity, len(all)),
		}
		for i, of := range all {
			flat := of.Format.Material.Base != lab.Film && v.Fits(of.Format)
			if !flat && i != head {
				continue
			}
			x := w.capacityFor(b, v.Fill.Quantity, alone(of.Format, of.Place))
			if flat {
				t.Formats[i] = &FormatCapacity{Capacity: x, Spread: w.spreadOf(x)}
			}
		}
		out = append(out, t)
	}
	return out
}

// trayVolumes are the trays in which a bath stands, one of each fill.
func (w *Work) trayVolumes(b lab.Bath) []capacity.Vessel {
	if !w.on(b, lab.ResinCoated) && !w.on(b, lab.Fibre) {
		return nil
	}
	_, trays := capacity.Vessels(w.lab)
	var out []capacity.Vessel
	seen := map[string]bool{}
	for _, t := range trays {
		if key := t.Fill.Exact().String(); !seen[key] {
			seen[key] = true
			out = append(out, t)
		}
	}
	return out
}

// batchCapacities is what each batch that the lab makes comes to: a large one may die of
// age before it is used, and then every piece costs more.
func (w *Work) batchCapacities(b lab.Bath, head capacity.Capacity) []BatchCapacity {
	if b.Solution == nil || head.NoWhy != "" || head.ByUses() {
		return nil
	}
	if from, dil, diluted := b.From(); diluted && !dil.None() && b.Written().Use != "one-shot" {
		if keeps,
			_ := from.Keeps(); keeps.Given() { // the stock stands, and is diluted by the fill: no batch dies at once
			return nil
		}
	}
	var out []BatchCapacity
	for _, made := range w.mix.Batches(b.Solution) {
		x := w.capacityFor(b, w.mix.Makes(b, made), alone(head.Format, head.Place))
		if x.NoWhy != "" {
			continue
		}
		c := BatchCapacity{FormatCapacity: FormatCapacity{Capacity: x}}
		if x.Governs != "age" {
			c.Spread = w.spreadOf(x)
		}
		c.Made = w.mix.VolumeFigure(figure.ID("batch", mix.Tag(made.Exact())), made, figure.Where{}, figure.House,
			"batch made")
		out = append(out, c)
	}
	return out
}

// Endless is a strength of which nobody can tell when it is spent.
type Endless struct {
	Bath *Bath
	// Unused: it has a limit, but no process uses it. Else nobody has written how much it
	// treats or how long it keeps.
	Unused bool
}

// onlyTime is the stage of the strengths that no limit ends.
func (w *Work) onlyTime() {
	for _, b := range w.Baths {
		limited := counted(b.Bath)
		keeps, _ := b.Keeps()
		if b.Strength != lab.Supplied && !limited && keeps.Given() && !w.drawnFrom(b.Bath) {
			w.OnlyTime = append(w.OnlyTime, b)
		}
		if b.Decl() != nil && (limited && len(b.Bases) == 0 || !limited && !keeps.Given()) {
			w.Endless = append(w.Endless, Endless{Bath: b, Unused: limited})
		}
	}
}

// drawnFrom reports whether a counted one-shot strength is drawn from a bath.
func (w *Work) drawnFrom(b lab.Bath) bool {
	return slices.ContainsFunc(w.Baths, func(o *Bath) bool {
		d := o.Decl()
		if d == nil || d.Use != "one-shot" || !d.Needs.Given() {
			return false
		}
		from, _, ok := o.From()
		return ok && from.Ref() == b.Ref()
	})
}
