package capacity

import (
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// makesByMass, makesByVolume, makesByPacks and makesLeast are what can still be made of what
// stands in the store.
var (
	makesByMass = figure.Register(&figure.F3[unit.Volume, unit.Mass, unit.Mass, unit.Volume]{
		Formula: figure.Formula{ID: "store.makes.mass", Name: "what is left of a substance makes", Result: "V",
			Unit: "ml",
			Terms: []figure.Term{{Symbol: "h", Meaning: "in the house", Unit: "g"},
				{Symbol: "m", Meaning: "in the formula", Unit: "g"},
				{Symbol: "P", Meaning: "finished volume of the formula", Unit: "ml"}},
			Text: "h * P / m", Source: "mass balance", Origin: figure.Standard},
		Go: func(h, m unit.Mass, p unit.Volume) unit.Volume { return unit.Volume(h/m) * p },
	})
	makesByVolume = figure.Register(&figure.F3[unit.Volume, unit.Volume, unit.Volume, unit.Volume]{
		Formula: figure.Formula{ID: "store.makes.volume", Name: "what is left of a liquid makes", Result: "V",
			Unit: "ml",
			Terms: []figure.Term{{Symbol: "h", Meaning: "in the house", Unit: "ml"},
				{Symbol: "v", Meaning: "in the formula", Unit: "ml"},
				{Symbol: "P", Meaning: "finished volume of the formula", Unit: "ml"}},
			Text: "h * P / v", Source: "mass balance", Origin: figure.Standard},
		Go: func(h, v, p unit.Volume) unit.Volume { return h / v * p },
	})
	makesByPacks = figure.Register(&figure.F2[unit.Volume, unit.Factor, unit.Volume]{
		Formula: figure.Formula{ID: "store.makes.packs", Name: "what whole packs make", Result: "V", Unit: "ml",
			Terms: []figure.Term{{Symbol: "n", Meaning: "packs in the house"},
				{Symbol: "M", Meaning: "volume that a pack makes", Unit: "ml"}},
			Text: "floor(n) * M", Valid: "a pack that may not be divided is made up whole",
			Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n unit.Factor, v unit.Volume) unit.Volume { return unit.Volume(whole(float64(n))) * v },
	})
	makesByParts = figure.Register(&figure.F2[unit.Volume, unit.Factor, unit.Volume]{
		Formula: figure.Formula{ID: "store.makes.parts", Name: "what packs make that may be divided", Result: "V",
			Unit: "ml",
			Terms: []figure.Term{{Symbol: "n", Meaning: "packs in the house"},
				{Symbol: "M", Meaning: "volume that a pack makes", Unit: "ml"}},
			Text: "n * M", Source: "plain arithmetic", Origin: figure.Standard},
		Go: func(n unit.Factor, v unit.Volume) unit.Volume { return unit.Volume(n) * v },
	})
	makesLeast = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
		Formula: figure.Formula{ID: "store.makes", Name: "what can still be made", Result: "V", Unit: "ml",
			Terms: []figure.Term{{Symbol: "V_i", Meaning: "what each thing in it allows", Unit: "ml"}},
			Text:  "min(V_i)", Valid: "the scarcest counts; nothing past its best-before", Source: "plain arithmetic",
			Origin: figure.Standard},
		Go: func(v []unit.Volume) unit.Volume {
			least := v[0]
			for _, x := range v {
				least = min(least, x)
			}
			return least
		},
	})
)

// CanMake is how much of something the store still makes, and the name of what is scarcest.
type CanMake struct {
	Bath   lab.Bath
	Volume *figure.Record
	By     string
	// Besides are the baths that it is made of as well: what there is of them is not counted.
	Besides []lab.Bath
	// Why says why nobody can tell; Volume is nil then.
	Why string
}

// StoreMakes is what a store makes of a solution; usable are the packs of a reference that
// may be used. It is not ok for what is made of other baths alone, which are told by themselves.
func StoreMakes(m *mix.Mixer, s *lab.Solution, usable func(ref string) []lab.InStore) (out CanMake, ok bool) {
	out.Bath = lab.Bath{Solution: s, Strength: s.MadeStrength()}
	if s.Dissolve != nil || !s.Per.Positive() || len(s.Steps) == 0 {
		return out, false
	}
	type want struct {
		ref, name string
		mass      []figure.Figure[unit.Mass]
		volume    []figure.Figure[unit.Volume]
	}
	var wants []*want
	byRef := map[string]*want{}
	for i, step := range s.Steps {
		ing, bad := m.Lab.Resolve(step.Add, s.At(lab.StepKey(i)).At("add"))
		switch {
		case ing.Water:
			continue
		case len(bad) > 0 || !step.Amount.Given():
			return out, false
		case ing.Bath.Solution != nil || ing.Bath.Product != nil && ing.Bath.Strength != lab.Supplied:
			if !slices.ContainsFunc(out.Besides, func(b lab.Bath) bool { return b.Ref() == ing.Bath.Ref() }) {
				out.Besides = append(out.Besides, ing.Bath)
			}
			continue
		}
		x := byRef[ing.Ref]
		if x == nil {
			x = &want{ref: ing.Ref, name: ing.Name()}
			if !ing.Bath.Zero() {
				x.ref = ing.Bath.Ref()
			}
			byRef[ing.Ref], wants = x, append(wants, x)
		}
		if step.Amount.Mass.Positive() {
			x.mass = append(x.mass, step.Amount.Mass.Figure("in the formula"))
		} else if step.Amount.Volume.Positive() {
			x.volume = append(x.volume, step.Amount.Volume.Figure("in the formula"))
		}
	}
	if len(wants) == 0 {
		return out, false
	}
	per := s.Per.Figure("finished volume of the formula")
	id := func(words ...string) string {
		return figure.Beside(figure.ID(out.Bath.Ref(), "store.makes"), words...)
	}
	var all []figure.Figure[unit.Volume]
	least := unit.Volume(0)
	for _, x := range wants {
		v, known := figure.Figure[unit.Volume]{}, false
		packs := usable(x.ref)
		switch {
		case len(x.mass) > 0 && len(x.volume) == 0:
			if h, ok := standing(packs, id("left", x.ref), byMass, storeMass); ok {
				v, known = makesByMass.Of(id(x.ref), h, together(x.mass, storeMass, id("wants", x.ref)), per), true
			}
		case len(x.volume) > 0 && len(x.mass) == 0:
			if h, ok := standing(packs, id("left", x.ref), byVolume, storeVolume); ok {
				v, known = makesByVolume.Of(id(x.ref), h, together(x.volume, storeVolume, id("wants", x.ref)), per),
					true
			}
		}
		if !known {
			out.Why = "nobody has written what is left of " + x.name + ", or it may not be used"
			return out, true
		}
		if len(all) == 0 || v.Value < least {
			least, out.By = v.Value, x.name
		}
		all = append(all, v)
	}
	out.Volume = makesRecord(m, makesLeast.Of(id(), all...))
	return out, true
}

// PacksMake is what a store makes of the packs of a product.
func PacksMake(m *mix.Mixer, p *lab.Product, usable func(ref string) []lab.InStore) (out CanMake, ok bool) {
	if p.Makes == nil || !p.Makes.Stock.Positive() {
		return out, false
	}
	out.Bath = lab.Bath{Product: p, Strength: p.MadeStrength()}
	id := figure.ID(out.Bath.Ref(), "store.makes")
	n, known := packsLeft(p, id, usable)
	if !known {
		out.Why = "nobody has written what is left of it, or it may not be used"
		return out, true
	}
	out.By = p.Name + ", in whole packs"
	makes, of := makesByPacks, p.Makes.Stock.Figure("volume that a pack makes")
	if p.Makes.Divide == lab.MayDivide {
		makes, out.By = makesByParts, p.Name
	}
	out.Volume = makesRecord(m, makes.Of(id, n, of))
	return out, true
}

func makesRecord(m *mix.Mixer, v figure.Figure[unit.Volume]) *figure.Record {
	v = v.Named("what can still be made of it")
	if v.Value < 1000 {
		return figure.Enter(m.Book, v.Show(figure.KindAmount, "1", unit.Down, ""))
	}
	return figure.Enter(m.Book, v.ShowAs(figure.KindAmount, unit.Round(float64(v.Value)/1000, 0.1, unit.Down),
		unit.NewDecimal(1, 1), unit.Down, "").
		Counted("L", 0.001))
}

// together adds what several steps want of one thing.
func together[T unit.Kind](list []figure.Figure[T], add *figure.FN[T, T], id string) figure.Figure[T] {
	if len(list) == 1 {
		return list[0]
	}
	return add.Of(id, list...).Named("in the formula")
}

func byMass(a lab.Amount, _, name string) (figure.Figure[unit.Mass], bool) {
	return a.Mass.Figure(name), a.Mass.Given()
}

func byVolume(a lab.Amount, _, name string) (figure.Figure[unit.Volume], bool) {
	return a.Volume.Figure(name), a.Volume.Given()
}
