package mix

import (
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// partsVolume is A4: a bath's share of a whole by parts.
var partsVolume = figure.Register(&figure.F3[unit.Volume, unit.Volume, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "parts.volume", Name: "volume by parts", Result: "V_i", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume made", Unit: "ml"},
			{Symbol: "p", Meaning: "parts of this bath"}, {Symbol: "P", Meaning: "all parts"}},
		Text: "V * p / P", Valid: "volumes taken as additive", Source: balance, Origin: figure.Standard},
	Go: func(v unit.Volume, p, all unit.Factor) unit.Volume { return v * unit.Volume(p/all) },
})

// partsSum counts all parts.
var partsSum = figure.Register(&figure.FN[unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "parts.sum", Name: "all parts", Result: "P", Unit: "",
		Terms: []figure.Term{{Symbol: "p", Meaning: "parts of each bath"}},
		Text:  "sum(p)", Source: balance, Origin: figure.Standard},
	Go: figure.Total[unit.Factor],
})

func perTenth(amount, per *big.Rat) *big.Rat {
	r := new(big.Rat).Quo(amount, per)
	return r.Quo(r, big.NewRat(10, 1))
}

// weighed is B1 with B4, B6 and, where the scale cannot, B5.
func (m *Mixer) weighed(b lab.Bath, step lab.Step, ing lab.Ingredient, v figure.Figure[unit.Volume],
	volume unit.Quantity[unit.Volume]) (Take, lab.Bath) {
	s := b.Solution
	id := figure.ID(b.Ref(), "weigh."+StepID(step), Tag(volume.Exact()))
	mass := step.Amount.Mass.Figure("mass in the formula")
	per := s.Per.Figure("finished volume of the formula")
	exact := perTenth(step.Amount.Mass.Exact(), s.Per.Exact())
	name := ing.Name()
	fig := scaleMass.Of(id, mass, per, v)
	if p := ing.Form.Purity; p.Given() && p.Exact().Cmp(big.NewRat(100, 1)) < 0 {
		pure := scaleMass.Of(figure.Beside(id, "pure"), mass, per, v)
		fig = purity.Of(id, pure, p.Figure("purity"))
		exact = new(big.Rat).Quo(new(big.Rat).Mul(exact, big.NewRat(100, 1)), p.Exact())
	}
	fig = fig.Named(name)
	percent := m.percentFor(ing)
	replace := func(mass *big.Rat) (figure.Hand, bool) {
		for _, p := range percent {
			perGram := new(big.Rat).Quo(big.NewRat(100, 1), p.Solution.Dissolve.Strength.Exact())
			h := m.Bench.Pour(new(big.Rat).Mul(mass, perGram), p.Ref(), step.Within.Quantity, unit.Nearest)
			if h.Refused == "" {
				h.Solution, h.PerAmount = p.Ref(), perGram
				return h, true
			}
		}
		return figure.Hand{}, false
	}
	var more []*big.Rat
	for _, p := range percent {
		perGram := new(big.Rat).Quo(big.NewRat(100, 1), p.Solution.Dissolve.Strength.Exact())
		for _, limit := range m.Bench.pourLimits(step.Within.Quantity) {
			more = append(more, new(big.Rat).Quo(limit, perGram))
		}
	}
	ladder := m.Bench.MassLadder(exact, step.Within.Quantity, ing.Ref, replace, more)
	reading, why := ladder.Read(tenths(volume.Exact()))
	if why != "" {
		return m.refuseMass(fig, reading, step.Within.Quantity, why), lab.Bath{}
	}
	if reading.Hand.Solution != "" {
		p := m.bathOf(percent, reading.Hand.Solution)
		pct := p.Solution.Dissolve.Strength.Figure("percentage")
		pid := figure.ID(b.Ref(), "pour."+StepID(step), Tag(volume.Exact()))
		vol := percentVolume.Of(pid, fig, pct).Named(p.Solution.Name)
		return m.show(vol, reading, "ml"), p
	}
	return m.showMass(fig, reading), lab.Bath{}
}

func (m *Mixer) percentFor(ing lab.Ingredient) []lab.Bath {
	return m.percent[ing.Ref]
}

func (m *Mixer) bathOf(list []lab.Bath, ref string) lab.Bath {
	for _, b := range list {
		if b.Ref() == ref {
			return b
		}
	}
	return lab.Bath{}
}

// strongLiquid is A8 and A7: a mass of substance poured as a liquid.
func (m *Mixer) strongLiquid(b lab.Bath, step lab.Step, ing lab.Ingredient, v figure.Figure[unit.Volume],
	volume unit.Quantity[unit.Volume]) Take {
	s := b.Solution
	id := figure.ID(b.Ref(), "pour."+StepID(step), Tag(volume.Exact()))
	mass := scaleMass.Of(figure.Beside(id, "substance"), step.Amount.Mass.Figure("mass in the formula"),
		s.Per.Figure("finished volume of the formula"), v)
	content := liquidContent.Of(figure.ID(ing.Ref, "content"), formDensity(ing), formContent(ing))
	fig := liquidVolume.Of(id, mass, content).Named(ing.Name())
	gPerMl := new(big.Rat).Mul(ing.Form.Density.Exact(), ing.Form.Content.Exact())
	gPerMl.Quo(gPerMl, big.NewRat(100, 1))
	exact := new(big.Rat).Quo(perTenth(step.Amount.Mass.Exact(), s.Per.Exact()), gPerMl)
	return m.pour(fig, exact, ing.Ref, step.Within.Quantity, volume, unit.Nearest)
}

// measured is B1 for a liquid or a bath.
func (m *Mixer) measured(b lab.Bath, step lab.Step, ing lab.Ingredient, v figure.Figure[unit.Volume],
	volume unit.Quantity[unit.Volume]) Take {
	s := b.Solution
	id := figure.ID(b.Ref(), "pour."+StepID(step), Tag(volume.Exact()))
	fig := scaleVolume.Of(id, step.Amount.Volume.Figure("volume in the formula"),
		s.Per.Figure("finished volume of the formula"), v).Named(ing.Name())
	ref := ing.Ref
	if !ing.Bath.Zero() {
		ref = ing.Bath.Ref()
	}
	return m.pour(fig, perTenth(step.Amount.Volume.Exact(), s.Per.Exact()), ref, step.Within.Quantity, volume,
		unit.Nearest)
}

func (m *Mixer) byParts(b lab.Bath, step lab.Step, ing lab.Ingredient, v figure.Figure[unit.Volume],
	volume unit.Quantity[unit.Volume], all []figure.Figure[unit.Factor]) Take {
	s := b.Solution
	id := figure.ID(b.Ref(), "pour."+StepID(step), Tag(volume.Exact()))
	sum := partsSum.Of(figure.ID(b.Ref(), "parts"), all...)
	fig := partsVolume.Of(id, v, step.Parts.Figure("parts of this bath"), sum).Named(ing.Name())
	exactSum := new(big.Rat)
	for _, st := range s.Steps {
		if st.Parts.Given() {
			exactSum.Add(exactSum, st.Parts.Exact())
		}
	}
	share := new(big.Rat).Quo(step.Parts.Exact(), exactSum)
	ref := "water"
	if !ing.Bath.Zero() {
		ref = ing.Bath.Ref()
	}
	return m.pour(fig, share.Quo(share, big.NewRat(10, 1)), ref, step.Within.Quantity, volume, unit.Nearest)
}

// refuse enters an amount that cannot be measured: why, what would help, and the
// amount that is wanted as a figure of its own.
func refuse[T unit.Kind](m *Mixer, fig figure.Figure[T], unitWord, why, way string) Take {
	r := fig.Record()
	step := "0.01"
	switch v := float64(fig.Value); {
	case v >= 1000:
		step = "1"
	case v >= 100:
		step = "0.1"
	}
	wanted := fig.As(figure.Beside(r.ID, "wanted")).Named(r.Name+", wanted").Show(figure.KindAmount, step,
		unit.Nearest, "")
	out := Take{Unit: unitWord, Refused: why, Way: way, Wanted: figure.Enter(m.Book, wanted)}
	if way != "" {
		why += "; " + way
	}
	out.Amount = m.Book.Refuse(r.ID, figure.KindAmount, r.Name, unitWord, why, fig.Origin(), out.Wanted)
	return out
}

// refuseMass refuses a mass that the ladder refuses, in the words for this very mass.
func (m *Mixer) refuseMass(fig figure.Figure[unit.Mass], reading figure.Reading, within unit.Quantity[unit.Percent],
	why string) Take {
	way := reading.Hand.Way
	if reading.Exact != nil {
		hand := m.Bench.Weigh(reading.Exact, within)
		why, way = hand.Refused, hand.Way
	}
	return refuse(m, fig, "g", why, way)
}

func (m *Mixer) showMass(fig figure.Figure[unit.Mass], r figure.Reading) Take {
	fig = fig.Bounds(unit.Mass(r.Hand.Root))
	fig = fig.ShowAs(figure.KindAmount, float(r.Total), r.Hand.Step, r.Hand.Rule, r.Hand.Device)
	return Take{Amount: figure.Enter(m.Book, fig), Hand: r.Hand, Unit: "g"}
}

// pour reads a volume off its ladder and enters it, each pour apart when there
// are several, and the relative error.
func (m *Mixer) pour(fig figure.Figure[unit.Volume], exact *big.Rat, bath string, within unit.Quantity[unit.Percent],
	volume unit.Quantity[unit.Volume], rule unit.Rule) Take {
	reading, why := m.Bench.PourLadder(exact, bath, within, rule).Read(tenths(volume.Exact()))
	if why != "" {
		if reading.Exact != nil { // say it of this very amount
			reading.Hand = m.Bench.Pour(reading.Exact, bath, within, rule)
			why = reading.Hand.Refused
		}
		return refuse(m, fig, "ml", why, reading.Hand.Way)
	}
	return m.show(fig, reading, "ml")
}

func (m *Mixer) show(fig figure.Figure[unit.Volume], r figure.Reading, unitWord string) Take {
	h := r.Hand
	fig = fig.Bounds(unit.Volume(h.Root))
	fig = fig.ShowAs(figure.KindAmount, float(r.Total), showStep(r.Total, h.Step), h.Rule, h.Device).RoundedTo(h.Step)
	take := Take{Amount: figure.Enter(m.Book, fig), Hand: h, Unit: unitWord}
	if r.Total.Sign() > 0 {
		tol := m.Bench.tolerance(h, m.Lab.Place.Def)
		err := measureError.Of(figure.Beside(fig.ID(), "error"), tol, fig.AsMeasured(unit.Volume(float(r.Total))).
			Called("volume measured")).Show(figure.KindRatio, "0.1", unit.Up, "")
		take.Error = figure.Enter(m.Book, err)
	}
	if h.Pours > 1 || h.Full.Sign() > 0 {
		pour := unit.Format(float(r.Pour), showStep(r.Pour, h.Step))
		take.Pour = m.Book.Enter(figure.Of(figure.Core{ID: figure.Beside(fig.ID(), "pour"), Value: float(r.Pour),
			Low:  float(r.Pour),
			High: float(r.Pour), Method: FewestPours, Origin: fig.Origin()},
			figure.Face{Kind: figure.KindAmount, Name: "one pour", Unit: "ml", Shown: pour, Rounded: pour,
				Round: figure.Rounding{Rule: "fewest pours, then equal ones", Device: h.Device}}, take.Amount))
	}
	return take
}

// showStep prints a volume with the decimals its step needs, but no zeros that
// claim more than a hand can see: whole millilitres from ten, one decimal below.
func showStep(v *big.Rat, step unit.Decimal) unit.Decimal {
	least := 0
	if v.Cmp(big.NewRat(10, 1)) < 0 {
		least = min(1, step.Places())
	}
	for places := least; places < step.Places(); places++ {
		tens := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil)
		if new(big.Rat).Mul(v, new(big.Rat).SetInt(tens)).IsInt() {
			return unit.NewDecimal(1, uint8(places))
		}
	}
	return step
}

// Pour measures a volume that was worked out elsewhere with the lab's
// cylinders and enters it.
func (m *Mixer) Pour(fig figure.Figure[unit.Volume], name string, rule unit.Rule) Take {
	exact := new(big.Rat).SetFloat64(unit.Snap(float64(fig.Value)))
	if exact == nil || exact.Sign() < 0 {
		return Take{Amount: m.Book.Refuse(fig.ID(), figure.KindAmount, name, "ml", "no such volume", fig.Origin()),
			Unit: "ml", Refused: "no such volume"}
	}
	if exact.Sign() == 0 {
		return Take{Amount: figure.Enter(m.Book, fig.Named(name).Show(figure.KindAmount, "1", unit.Nearest, "")),
			Unit: "ml"}
	}
	h := m.Bench.Pour(exact, "", unit.Quantity[unit.Percent]{}, rule)
	if h.Refused != "" {
		return refuse(m, fig.Named(name), "ml", h.Refused, h.Way)
	}
	total, each := h.Take(exact)
	return m.show(fig.Named(name), figure.Reading{Exact: exact, Total: total, Pour: each, Hand: h}, "ml")
}
