package work

import (
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Choice is one job of this lab that several baths do.
type Choice struct {
	Role lab.Role
	Base lab.Base
	// Format is what they are compared for.
	Format capacity.Format
	// Month is a month's work of all of them together, as rolls.
	Month *figure.Record
	Ways  []WayChosen
}

// WayChosen is one bath that does the job.
type WayChosen struct {
	capacity.Chosen
	Bath *Bath
	// Bought: it is bought ready made. Step is how long its step takes, as written.
	Bought bool
	Step   *figure.Record
	// Made is how much is made at once.
	Made *figure.Record
	// Wash is the water of the wash that comes next after it, before any other bath, in the
	// smallest vessel; nil where none does. Saved is what that wash saves of a running one.
	Wash, Saved *figure.Record
	// Washed is the vessel of that wash where it is filled; empty for running water.
	Washed string
}

// choosing is the stage of what does the same job.
func (w *Work) choosing() {
	for _, role := range lab.Roles {
		for _, base := range lab.Bases {
			var baths []*Bath
			for _, b := range w.Baths {
				if b.Role() == role && slices.Contains(b.Bases, base) && b.Decl() != nil &&
					(counted(b.Bath) || b.Product != nil) {
					baths = append(baths, b)
				}
			}
			if len(baths) > 1 && role != lab.OtherRole {
				w.choice(role, base, baths)
			}
		}
	}
}

func (w *Work) choice(role lab.Role, base lab.Base, baths []*Bath) {
	head, ok := passing{}, false
	var ids []string
	for _, b := range baths {
		if !ok {
			head, ok = w.mostUsedOn(b.Bath, base)
		}
		for _, p := range b.UsedIn {
			if !slices.Contains(ids, p.ID) {
				ids = append(ids, p.ID)
			}
		}
	}
	if !ok {
		return
	}
	group := string(role) + "." + string(base)
	var ways []capacity.Way
	var made []*figure.Record
	for _, b := range baths {
		way, volume := w.wayOf(b, head, group)
		ways, made = append(ways, way), append(made, volume)
	}
	chosen, month := capacity.ChooseOf(w.mix, group, head.Format, capacity.UseOf(w.lab, ids).OfBase(w.lab, base), ways)
	if month == nil || !slices.ContainsFunc(chosen, func(c capacity.Chosen) bool { return c.Waste != nil }) {
		return
	}
	out := &Choice{Role: role, Base: base, Format: head.Format, Month: month}
	for i, c := range chosen {
		x := WayChosen{Chosen: c, Bath: baths[i], Bought: baths[i].Product != nil, Made: made[i]}
		for _, p := range baths[i].UsedIn {
			for n, s := range p.Steps {
				if p.Base != base || w.Process(p.ID).Baths[n] != baths[i] {
					continue
				}
				if x.Step == nil && s.Time.Fixed.Given() {
					x.Step = w.timedStep(p, n).Time
				}
				if x.Wash == nil {
					w.washNext(&x, w.Process(p.ID), n, head.Format)
				}
			}
		}
		out.Ways = append(out.Ways, x)
	}
	w.Choices = append(w.Choices, out)
}

// washNext is the water of the wash that comes after a step, before any other bath.
func (w *Work) washNext(x *WayChosen, p *Process, n int, f capacity.Format) {
	for i := n + 1; i < len(p.Decl.Steps) && p.Baths[i] == nil; i++ {
		s := p.Decl.Steps[i]
		if len(s.Fills) == 0 && !s.Flow.Given() {
			continue
		}
		tanks, trays := capacity.Vessels(w.lab)
		if p.Decl.Base != lab.Film {
			tanks = trays
		}
		vessel := capacity.Vessel{}
		if at := slices.IndexFunc(tanks, func(v capacity.Vessel) bool { return v.Fits(f) }); at >= 0 {
			vessel = tanks[at]
		}
		x.Wash, x.Saved = capacity.WashOf(w.mix, p.Decl, i, vessel)
		if len(s.Fills) > 0 {
			x.Washed = vessel.Name
		}
		return
	}
}

// wayOf is a bath as one way of doing a job: what is made of it at once, and what that costs.
func (w *Work) wayOf(b *Bath, head passing, group string) (capacity.Way, *figure.Record) {
	of := lab.Bath{Solution: b.Solution, Product: b.Product}
	way := capacity.Way{Bath: b.Bath}
	var volume figure.Figure[unit.Volume]
	switch {
	case b.Product != nil:
		of.Strength = b.Product.MadeStrength()
		said := w.packVolume(b.Product)
		if !said.Positive() {
			way.Ours.NoWhy = "nobody has written how much a pack makes or holds"
			return way, nil
		}
		way.Volume, volume = said.Quantity, said.Figure("what a pack makes")
		way.Whole, way.WholeWhy = w.mix.PackPrice(b.Product)
	default:
		of.Strength = b.Solution.MadeStrength()
		batches := w.mix.Batches(b.Solution)
		if len(batches) == 0 {
			way.Ours.NoWhy = "nobody has written how much is mixed at once"
			return way, nil
		}
		way.Volume = batches[len(batches)-1]
		volume = figure.Constant(way.Volume.Value(), "the largest batch that is mixed", "batches of the solution",
			figure.House)
		way.Whole, way.WholeWhy = capacity.WholeOf(w.mix, of, volume, figure.ID(b.Ref(), "choose.whole", group))
	}
	way.Of = of
	made := w.mix.VolumeFigure(figure.ID(b.Ref(), "choose.made", group), way.Volume, figure.Where{}, figure.House,
		"made at once")
	way.Work = figure.Entered[unit.Volume](made)
	chain := []lab.SaidDilution{}
	for at := b.Bath; ; {
		from, dil, ok := at.From()
		if !ok {
			break
		}
		if !dil.None() {
			chain = append(chain, dil)
		}
		at = from
	}
	for i := len(chain) - 1; i >= 0; i-- {
		id := figure.ID(b.Ref(), "choose.work", group)
		if i > 0 {
			id = figure.Beside(id, "first")
		}
		way.Work = capacity.WorkOf(id, way.Work, chain[i])
	}
	if len(chain) > 0 { // the water that it is diluted with costs too
		way.Whole, way.WholeWhy = capacity.WholeOf(w.mix, b.Bath, way.Work, figure.ID(b.Ref(), "choose.diluted", group))
	}
	keeps, _ := of.Keeps()
	way.Life, _ = capacity.LifeInBottle(keeps)
	way.Ageless = b.Product != nil && b.Product.Makes != nil && b.Product.Makes.Divide == lab.MayDivide
	if d := b.Written(); d.Use == lab.ReUse || d.Use == lab.Replenish {
		if own, _ := b.Keeps(); own.Part.Given() || own.Full.Given() { // all of it is diluted at once
			way.Life, _ = capacity.LifeInBottle(own)
		}
	}
	way.Ours = capacity.Capacity{NoWhy: "nobody has written how much it treats"}
	if counted(b.Bath) {
		way.Ours = w.capacityFor(b.Bath, w.mix.Makes(b.Bath, way.Volume), head)
	}
	return way, made
}
