package mix

import (
	"fmt"
	"math/big"
	"strings"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// partsVolume is A4: a bath's share of a whole by parts.
var partsVolume = figure.Register(&figure.F3[unit.Volume, unit.Volume, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "parts.volume", Name: "volume by parts", Result: "V_i", Unit: "ml",
		Terms: []figure.Term{{Symbol: "V", Meaning: "volume made", Unit: "ml"}, {Symbol: "p", Meaning: "parts of this bath"}, {Symbol: "P", Meaning: "all parts"}},
		Text:  "V * p / P", Valid: "volumes taken as additive", Source: balance, Origin: figure.Standard},
	Go: func(v unit.Volume, p, all unit.Factor) unit.Volume { return v * unit.Volume(p/all) },
})

// partsSum counts all parts.
var partsSum = figure.Register(&figure.FN[unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "parts.sum", Name: "all parts", Result: "P", Unit: "",
		Terms: []figure.Term{{Symbol: "p", Meaning: "parts of each bath"}},
		Text:  "sum(p)", Source: balance, Origin: figure.Standard},
	Go: figure.Total[unit.Factor],
})

// displacedSum is all that is added, as a volume.
var displacedSum = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "start.displaced.sum", Name: "volume of all that is added", Result: "D", Unit: "ml",
		Terms: []figure.Term{{Symbol: "d", Meaning: "volume of each", Unit: "ml"}},
		Text:  "sum(d)", Source: balance, Origin: figure.Standard},
	Go: figure.Total[unit.Volume],
})

// contentPrice turns a liquid's price into that of a kilogram of what is in it.
var contentPrice = figure.Register(&figure.F2[unit.MoneyPerKg, unit.MoneyPerL, unit.Concentration]{
	Formula: figure.Formula{ID: "price.content", Name: "price of a kilogram in a liquid", Result: "p", Unit: "",
		Terms: []figure.Term{{Symbol: "p_L", Meaning: "price of a litre"}, {Symbol: "c", Meaning: "content of the liquid", Unit: "g/L"}},
		Text:  "1000 * p_L / c", Source: balance, Origin: figure.Standard},
	Go: func(p unit.MoneyPerL, c unit.Concentration) unit.MoneyPerKg {
		return unit.MoneyPerKg(1000 * float64(p) / float64(c))
	},
})

// Take is one amount on a card: its figure, and how it is measured.
type Take struct {
	// Amount is what is measured, or its refusal; Pour is each pour, when there are
	// several, and Error the relative error; nil where there is none.
	Amount, Pour, Error *figure.Record
	Hand                figure.Hand
	Unit                string
	// Refused says why there is no amount, Way what would help, and Wanted is the
	// amount that was wanted.
	Refused, Way string
	Wanted       *figure.Record
}

// Measured is the amount to work on from: of a refused one, what was wanted.
func (t Take) Measured() *figure.Record {
	if t.Wanted != nil {
		return t.Wanted
	}
	return t.Amount
}

// Row is one step of a batch, and where its amount is written.
type Row struct {
	Step lab.Step
	At   figure.Where
	Ing  lab.Ingredient
	Take Take
	// Percent is the percent solution that replaces weighing, when it does.
	Percent lab.Bath
}

// Batch is a solution made in one volume.
type Batch struct {
	Volume unit.Quantity[unit.Volume]
	Tag    string
	// Start is the water to start with, nil where nothing is filled up; refused where
	// StartWhy says why, and StartWay what would help.
	Start              *figure.Record
	StartWhy, StartWay string
	Rows               []Row
	// Fill is the mark; nil when mixed by parts, or when what is added is the whole.
	Fill *figure.Record
}

// Tag is the part of an id that names a volume.
func Tag(v *big.Rat) string { return unit.ShortRat(v) + "ml" }

// ShowVolume prints a volume as cards do: ml, and litres from 10 L.
func ShowVolume(v *big.Rat) (shown, unitWord string) {
	if v.Cmp(big.NewRat(10000, 1)) >= 0 {
		return unit.ShortRat(new(big.Rat).Quo(v, big.NewRat(1000, 1))), "L"
	}
	return unit.ShortRat(v), "ml"
}

// VolumeFigure enters a declared volume, such as a tank's fill, under an id.
func (m *Mixer) VolumeFigure(id string, q unit.Quantity[unit.Volume], at figure.Where, by figure.Origin, name string) *figure.Record {
	shown, word := ShowVolume(q.Exact())
	return figure.Declare(m.Book, id, figure.KindAmount, wanted(q, at, by, name), shown, word)
}

// wanted is a volume to work from: as it is written at its place, or, without a place,
// one that was asked for or that a table is made for.
func wanted(q unit.Quantity[unit.Volume], at figure.Where, by figure.Origin, name string) figure.Figure[unit.Volume] {
	if at.File == "" {
		return figure.Constant(q.Value(), name, "asked for, or chosen as an example", figure.Standard)
	}
	return figure.Given(q, at, by, name)
}

// Batches lists the volumes in which a solution is made: those declared, else
// the volume its formula is written for.
func (m *Mixer) Batches(s *lab.Solution) []unit.Quantity[unit.Volume] {
	var out []unit.Quantity[unit.Volume]
	for _, q := range s.Make.Batches {
		out = append(out, q.Quantity)
	}
	if len(out) > 0 {
		return out
	}
	if s.Per.Given() {
		return []unit.Quantity[unit.Volume]{s.Per.Quantity}
	}
	return []unit.Quantity[unit.Volume]{unit.MustParse[unit.Volume]("1 L")}
}

// Batch works out one batch of what a solution's steps make. at is where its
// volume was asked for.
func (m *Mixer) Batch(s *lab.Solution, volume unit.Quantity[unit.Volume], at figure.Where) Batch {
	b := lab.Bath{Solution: s, Strength: s.MadeStrength()}
	out := Batch{Volume: volume, Tag: Tag(volume.Exact())}
	v := wanted(volume, at, figure.House, "batch")
	if s.Dissolve != nil {
		m.dissolveBatch(&out, b, v)
	}
	var all []figure.Figure[unit.Factor]
	for _, step := range s.Steps {
		if step.Parts.Given() {
			all = append(all, step.Parts.Figure("parts of "+step.Add))
		}
	}
	for i, step := range s.Steps {
		ing, problems := m.Lab.Resolve(step.Add, s.At(lab.StepKey(i)).At("add"))
		if len(problems) > 0 {
			continue
		}
		row := Row{Step: step, At: s.At(lab.StepKey(i)).At("amount"), Ing: ing}
		switch {
		case step.Parts.Given():
			row.Take = m.byParts(b, step, ing, v, volume, all)
		case ing.Chemical != nil && step.Amount.Mass.Given() && !ing.Form.Content.Given():
			row.Take, row.Percent = m.weighed(b, step, ing, v, volume)
		case ing.Chemical != nil && step.Amount.Mass.Given():
			row.Take = m.strongLiquid(b, step, ing, v, volume)
		default:
			row.Take = m.measured(b, step, ing, v, volume)
		}
		out.Rows = append(out.Rows, row)
	}
	if len(all) == 0 && !isWhole(s) {
		out.Fill = m.VolumeFigure(b.Ref()+"/fill@"+out.Tag, volume, at, figure.House, "fill to the mark")
		m.start(&out, b, v)
		if out.StartWhy != "" {
			m.refuseBurning(&out)
		}
	}
	return out
}

// isWhole reports whether what is added, all of it measured, is the whole volume
// already: then nothing is filled up.
func isWhole(s *lab.Solution) bool {
	if s.Dissolve != nil || !s.Per.Given() {
		return false
	}
	sum := new(big.Rat)
	for _, step := range s.Steps {
		if !step.Amount.Volume.Given() {
			return false
		}
		sum.Add(sum, step.Amount.Volume.Exact())
	}
	return sum.Cmp(s.Per.Exact()) == 0
}

// refuseBurning refuses the amounts of strong alkalis and acids where nobody can
// say how much water they go into: water onto them spatters.
func (m *Mixer) refuseBurning(out *Batch) {
	for i := range out.Rows {
		row := &out.Rows[i]
		if !m.burning(row.Ing.Chemical) || row.Take.Refused != "" {
			continue
		}
		r := row.Take.Amount
		why := row.Ing.Name() + " goes into water, never water onto it, and nobody knows how much water to start with"
		wanted := m.Book.Enter(r.As(r.ID + ",wanted"))
		no := m.Book.Refuse(r.ID, figure.KindAmount, r.Name, r.Unit, why+"; "+out.StartWay, r.Origin, wanted)
		row.Take = Take{Amount: no, Unit: row.Take.Unit, Refused: why, Way: out.StartWay, Wanted: wanted}
	}
}

// burning reports a substance onto which no water may be poured: a strong alkali
// or acid, or one that burns as it comes.
func (m *Mixer) burning(c *lab.Chemical) bool {
	if c == nil {
		return false
	}
	kinds := m.Rules.OfChemical(c)
	strong := kinds.Any("alkali-strong", "acid-strong")
	if kinds.Any("alkali", "acid") && c.Hazards != nil {
		for _, word := range c.Hazards.Classes {
			strong = strong || strings.HasPrefix(word, "Skin Corr.")
		}
	}
	return strong
}

func perTenth(amount, per *big.Rat) *big.Rat {
	r := new(big.Rat).Quo(amount, per)
	return r.Quo(r, big.NewRat(10, 1))
}

// weighed is B1 with B4, B6 and, where the scale cannot, B5.
func (m *Mixer) weighed(b lab.Bath, step lab.Step, ing lab.Ingredient, v figure.Figure[unit.Volume], volume unit.Quantity[unit.Volume]) (Take, lab.Bath) {
	s := b.Solution
	id := b.Ref() + "/weigh." + StepID(step) + "@" + Tag(volume.Exact())
	mass := step.Amount.Mass.Figure("mass in the formula")
	per := s.Per.Figure("finished volume of the formula")
	exact := perTenth(step.Amount.Mass.Exact(), s.Per.Exact())
	name := ing.Name()
	fig := scaleMass.Of(id, mass, per, v)
	if p := ing.Form.Purity; p.Given() && p.Exact().Cmp(big.NewRat(100, 1)) < 0 {
		pure := scaleMass.Of(id+",pure", mass, per, v)
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
		pid := b.Ref() + "/pour." + StepID(step) + "@" + Tag(volume.Exact())
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
func (m *Mixer) strongLiquid(b lab.Bath, step lab.Step, ing lab.Ingredient, v figure.Figure[unit.Volume], volume unit.Quantity[unit.Volume]) Take {
	s := b.Solution
	id := b.Ref() + "/pour." + StepID(step) + "@" + Tag(volume.Exact())
	mass := scaleMass.Of(id+",substance", step.Amount.Mass.Figure("mass in the formula"), s.Per.Figure("finished volume of the formula"), v)
	content := liquidContent.Of(ing.Ref+"/content", formDensity(ing), formContent(ing))
	fig := liquidVolume.Of(id, mass, content).Named(ing.Name())
	gPerMl := new(big.Rat).Mul(ing.Form.Density.Exact(), ing.Form.Content.Exact())
	gPerMl.Quo(gPerMl, big.NewRat(100, 1))
	exact := new(big.Rat).Quo(perTenth(step.Amount.Mass.Exact(), s.Per.Exact()), gPerMl)
	return m.pour(fig, exact, ing.Ref, step.Within.Quantity, volume, unit.Nearest)
}

// measured is B1 for a liquid or a bath.
func (m *Mixer) measured(b lab.Bath, step lab.Step, ing lab.Ingredient, v figure.Figure[unit.Volume], volume unit.Quantity[unit.Volume]) Take {
	s := b.Solution
	id := b.Ref() + "/pour." + StepID(step) + "@" + Tag(volume.Exact())
	fig := scaleVolume.Of(id, step.Amount.Volume.Figure("volume in the formula"), s.Per.Figure("finished volume of the formula"), v).Named(ing.Name())
	ref := ing.Ref
	if !ing.Bath.Zero() {
		ref = ing.Bath.Ref()
	}
	return m.pour(fig, perTenth(step.Amount.Volume.Exact(), s.Per.Exact()), ref, step.Within.Quantity, volume, unit.Nearest)
}

func (m *Mixer) byParts(b lab.Bath, step lab.Step, ing lab.Ingredient, v figure.Figure[unit.Volume], volume unit.Quantity[unit.Volume], all []figure.Figure[unit.Factor]) Take {
	s := b.Solution
	id := b.Ref() + "/pour." + StepID(step) + "@" + Tag(volume.Exact())
	sum := partsSum.Of(b.Ref()+"/parts", all...)
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

func (m *Mixer) dissolveBatch(out *Batch, b lab.Bath, v figure.Figure[unit.Volume]) {
	s := b.Solution
	d := s.Dissolve
	ing, bad := m.Lab.Resolve(d.Add, s.At("dissolve.add"))
	if len(bad) > 0 || ing.Chemical == nil {
		return
	}
	id := b.Ref() + "/weigh." + ing.Chemical.ID + "@" + out.Tag
	fig := percentMass.Of(id, v, d.Strength.Figure("percentage")).Named(ing.Name())
	exact := new(big.Rat).Quo(d.Strength.Exact(), big.NewRat(1000, 1))
	reading, why := m.Bench.MassLadder(exact, unit.Quantity[unit.Percent]{}, "percent solution", nil, nil).Read(tenths(out.Volume.Exact()))
	var take Take
	if why != "" {
		take = m.refuseMass(fig, reading, unit.Quantity[unit.Percent]{}, why)
	} else {
		take = m.showMass(fig, reading)
	}
	out.Rows = append(out.Rows, Row{Step: lab.Step{Add: d.Add, Caution: d.Caution}, At: s.At("dissolve.strength"), Ing: ing, Take: take})
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
	wanted := fig.As(r.ID+",wanted").Named(r.Name+", wanted").Show(figure.KindAmount, step, unit.Nearest, "")
	out := Take{Unit: unitWord, Refused: why, Way: way, Wanted: figure.Enter(m.Book, wanted)}
	if way != "" {
		why += "; " + way
	}
	out.Amount = m.Book.Refuse(r.ID, figure.KindAmount, r.Name, unitWord, why, fig.Origin(), out.Wanted)
	return out
}

// refuseMass refuses a mass that the ladder refuses, in the words for this very mass.
func (m *Mixer) refuseMass(fig figure.Figure[unit.Mass], reading figure.Reading, within unit.Quantity[unit.Percent], why string) Take {
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
func (m *Mixer) pour(fig figure.Figure[unit.Volume], exact *big.Rat, bath string, within unit.Quantity[unit.Percent], volume unit.Quantity[unit.Volume], rule unit.Rule) Take {
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
		err := measureError.Of(fig.ID()+",error", tol, fig.AsMeasured(unit.Volume(float(r.Total))).Called("volume measured")).Show(figure.KindRatio, "0.1", unit.Up, "")
		take.Error = figure.Enter(m.Book, err)
	}
	if h.Pours > 1 || h.Full.Sign() > 0 {
		pour := unit.Format(float(r.Pour), showStep(r.Pour, h.Step))
		take.Pour = m.Book.Enter(figure.Of(figure.Core{ID: fig.ID() + ",pour", Value: float(r.Pour), Low: float(r.Pour), High: float(r.Pour), Origin: fig.Origin()},
			figure.Face{Kind: figure.KindAmount, Name: "one pour", Unit: "ml", Shown: pour, Rounded: pour, Round: figure.Rounding{Rule: "fewest pours, then equal ones", Device: h.Device}}, take.Amount))
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
		if scaled := new(big.Rat).Mul(v, new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))); scaled.IsInt() {
			return unit.NewDecimal(1, uint8(places))
		}
	}
	return step
}

// start is the water to start with: the formula's own figure, else B8.
func (m *Mixer) start(out *Batch, b lab.Bath, v figure.Figure[unit.Volume]) {
	s := b.Solution
	id := b.Ref() + "/start@" + out.Tag
	step := startStep(v.Value)
	stepDec := unit.NewDecimal(int64(step), 0)
	if s.Start.With.Given() && s.Per.Given() {
		fig := scaleVolume.Of(id, s.Start.With.Figure("water in the formula"), s.Per.Figure("finished volume of the formula"), v).Named("water to start with")
		rounded := floorTo(float64(fig.Value), step)
		if out.Volume.Exact().Cmp(s.Per.Exact()) == 0 {
			rounded, stepDec = float64(fig.Value), decimalOf(s.Start.With.Exact())
		}
		out.Start = figure.Enter(m.Book, fig.ShowAs(figure.KindAmount, rounded, stepDec, unit.Down, "jug"))
		return
	}
	none := func(why, way string) {
		out.StartWhy, out.StartWay = why, way
		out.Start = m.Book.Refuse(id, figure.KindAmount, "water to start with", "ml", why+"; "+way, figure.Standard)
	}
	write := `write start = { with = "…" } in ` + s.File
	var adds []figure.Figure[unit.Volume]
	liquids, unknown := unit.Volume(0), ""
	for _, row := range out.Rows {
		r := row.Take.Measured() // what cannot be measured takes up room all the same
		if row.Take.Unit == "ml" {
			adds = append(adds, figure.Entered[unit.Volume](r).Best())
			liquids += unit.Volume(r.Value)
			continue
		}
		mass := figure.Entered[unit.Mass](r).Best()
		takes := mostTakenUp
		if row.Ing.Form.TakesUp.Given() {
			takes = row.Ing.Form.TakesUp.Figure("what a gram takes up")
		} else if unknown == "" {
			unknown = row.Ing.Name()
		}
		adds = append(adds, displaced.Of(id+",takes."+StepID(row.Step), mass, takes))
	}
	if liquids > v.Value/2 {
		none("liquids are more than half of it: the formula must give its own figure", write)
		return
	}
	room := startRoom.Of(id+",room", v, displacedSum.Of(id+",takes", adds...))
	fig := startVolume.Of(id, v, room).Named("water to start with")
	// What nobody has looked up counts with the most that a gram can take up; that
	// is no answer where less would change it.
	if unknown != "" && unit.Snap(float64(fig.Value)) < unit.Snap(0.8*float64(v.Value)) {
		none("nobody has looked up what a gram of "+unknown+" takes up", write+", or takes_up in the file of the chemical")
		return
	}
	rounded := floorTo(float64(fig.Value), step)
	if rounded <= 0 {
		none("what is added leaves no room for water to start with", write)
		return
	}
	out.Start = figure.Enter(m.Book, fig.ShowAs(figure.KindAmount, rounded, stepDec, unit.Down, "jug"))
}

// mostTakenUp is the most that a gram of a powder adds to the volume: solids of
// this trade are denser than water, and dissolved they take up no more than dry.
var mostTakenUp = figure.DefaultOf(unit.VolumePerMass(1), "1 ml/g", "the most that a gram takes up", "common practice, no source")

// Draw is how much of one strength goes into a vessel of another.
type Draw struct {
	From lab.Bath
	Take Take
	Fill *figure.Record // the vessel's fill
	// Overall is the dilution from the concentrate, where the strength in between is
	// left out.
	Overall *figure.Record
}

// Draw works out a dilution for one volume. It is measured to the nearest mark;
// to the next above it where the nearest would be less than least, what the pieces
// in it need (nil: nobody has said what they need).
func (m *Mixer) Draw(b lab.Bath, volume unit.Quantity[unit.Volume], at figure.Where, by figure.Origin, fillName string, least *big.Rat) (Draw, bool) {
	from, dil, ok := b.From()
	if !ok {
		return Draw{}, false
	}
	tag := Tag(volume.Exact())
	d := Draw{From: from, Fill: m.VolumeFigure(b.Ref()+"/fill@"+tag, volume, at, by, fillName)}
	v := wanted(volume, at, by, fillName)
	id := b.Ref() + "/draw@" + tag
	if dil.None() {
		d.Take = Take{Amount: m.VolumeFigure(id, volume, at, by, from.Name()), Unit: "ml", Hand: figure.Hand{Device: "the vessel itself", Pours: 1}}
		return d, true
	}
	pa, pb := dil.Figures()
	fig := dilutionStock.Of(id, v, pa, pb).Named(from.Name())
	share := new(big.Rat).Quo(dil.Share(), big.NewRat(10, 1))
	rule := unit.Nearest
	if r, why := m.Bench.PourLadder(share, from.Ref(), unit.Quantity[unit.Percent]{}, rule).Read(tenths(volume.Exact())); why == "" && least != nil && r.Total.Cmp(least) < 0 {
		rule = unit.Up
	}
	d.Take = m.pour(fig, share, from.Ref(), unit.Quantity[unit.Percent]{}, volume, rule)
	return d, true
}

// Straight works out what it would take to skip the strength in between: from
// what is made or bought, straight into the vessel. Mostly it shows why not.
func (m *Mixer) Straight(b lab.Bath, volume unit.Quantity[unit.Volume], at figure.Where, by figure.Origin, fillName string) (Draw, bool) {
	from, second, ok := b.From()
	if !ok {
		return Draw{}, false
	}
	first, dil, ok := from.From()
	if !ok || dil.None() || second.None() {
		return Draw{}, false
	}
	tag := Tag(volume.Exact())
	a1, b1 := dil.Figures()
	a2, b2 := second.Figures()
	overall := overallDilution.Of(b.Ref()+"/overall", a1, b1, a2, b2).Show(figure.KindCount, "1", unit.Nearest, "")
	v := wanted(volume, at, by, fillName)
	one := figure.Constant(unit.Factor(1), "one part", "", figure.Standard)
	rest := chainRest.Of(b.Ref()+"/overall.water", overall).Show(figure.KindCount, "1", unit.Nearest, "")
	figure.Enter(m.Book, rest)
	id := b.Ref() + "/draw." + first.Strength + "@" + tag
	fig := dilutionStock.Of(id, v, one, rest).Named(first.Name())
	share := new(big.Rat).Mul(dil.Share(), second.Share())
	return Draw{From: first, Overall: figure.Enter(m.Book, overall), Take: m.pour(fig, share.Quo(share, big.NewRat(10, 1)), first.Ref(), unit.Quantity[unit.Percent]{}, volume, unit.Nearest)}, true
}

// chainRest is the b of 1+b for a dilution overall.
var chainRest = figure.Register(&figure.F1[unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "dilution.rest", Name: "parts of water to one of the concentrate", Result: "b", Unit: "",
		Terms: []figure.Term{{Symbol: "D", Meaning: "dilution overall"}},
		Text:  "D - 1", Source: balance, Origin: figure.Standard},
	Go: func(d unit.Factor) unit.Factor { return d - 1 },
})

// Instead is another form of an ingredient that may be weighed in its place.
type Instead struct {
	FormID  string
	Name    string
	Take    Take
	Refused string
}

// Instead lists the other hydrates of a row's substance with their amounts, in
// the batch of the row, and why one is refused.
func (m *Mixer) Instead(s *lab.Solution, row Row, tag string, volume unit.Quantity[unit.Volume]) []Instead {
	c := row.Ing.Chemical
	if c == nil || row.Take.Unit != "g" || row.Take.Refused != "" || len(c.Forms) < 2 {
		return nil
	}
	var out []Instead
	own, err := chem.Parse(row.Ing.Form.Formula)
	if err != nil {
		return nil
	}
	step := row.Step
	bath := lab.Bath{Solution: s, Strength: s.MadeStrength()}
	for _, id := range c.FormIDs() {
		f := c.Forms[id]
		if id == row.Ing.FormID || f.Content.Given() {
			continue
		}
		figID := bath.Ref() + "/instead." + StepID(step) + "." + id + "@" + tag
		in := Instead{FormID: id, Name: c.FormName(id)}
		other, err := chem.Parse(f.Formula)
		switch {
		case f.Refuse != "":
			in.Refused = f.Refuse
		case err != nil:
			in.Refused = "its formula is not known"
		default:
			if _, ratioErr := chem.HydrateRatio(own, other); ratioErr != nil {
				in.Refused = "not the same salt"
			}
		}
		if in.Refused != "" {
			in.Take.Amount = m.Book.Refuse(figID, figure.KindAmount, in.Name, "g", in.Refused, m.Origin(c.Def, "form."+id))
			out = append(out, in)
			continue
		}
		ratio, _ := chem.HydrateRatio(own, other)
		mOwn := unit.Molar(own.MolarMass())
		m1 := figure.Constant(mOwn, "molar mass of "+row.Ing.Form.Formula, "IUPAC/CIAAW 2021", figure.Standard)
		m2 := figure.Constant(unit.Molar(float64(mOwn)*ratio), "molar mass of "+f.Formula+" for the same salt", "IUPAC/CIAAW 2021", figure.Standard)
		mass := figure.Entered[unit.Mass](row.Take.Measured()).Best()
		fig := hydrate.Of(figID, mass, m1, m2).Named(in.Name)
		exact := new(big.Rat).SetFloat64(unit.Snap(float64(fig.Value)))
		hand := m.Bench.Weigh(exact, step.Within.Quantity)
		if hand.Refused != "" {
			in.Take = refuse(m, fig, "g", hand.Refused, hand.Way)
			in.Refused = in.Take.Refused
		} else {
			total, pour := hand.Take(exact)
			in.Take = m.showMass(fig, figure.Reading{Exact: exact, Total: total, Pour: pour, Hand: hand})
		}
		out = append(out, in)
	}
	return out
}

// dilutedCost is what a litre of a dilution costs.
var dilutedCost = figure.Register(&figure.F4[unit.Money, unit.Money, unit.MoneyPerL, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "cost.diluted", Name: "cost of a litre, diluted", Result: "K", Unit: "",
		Terms: []figure.Term{{Symbol: "K_0", Meaning: "cost of a litre before"}, {Symbol: "p", Meaning: "price of a litre of water"}, {Symbol: "a", Meaning: "parts of the solution"}, {Symbol: "b", Meaning: "parts of water"}},
		Text:  "(K_0 * a + p * b) / (a + b)", Source: "prices in store.toml and lab.toml", Origin: figure.House},
	Go: func(k unit.Money, p unit.MoneyPerL, a, b unit.Factor) unit.Money {
		return (k*unit.Money(a) + unit.Money(p)*unit.Money(b)) / unit.Money(a+b)
	},
})

// suppliedCost is a litre as it is bought.
var suppliedCost = figure.Register(&figure.F1[unit.Money, unit.MoneyPerL]{
	Formula: figure.Formula{ID: "cost.supplied", Name: "cost of a litre as bought", Result: "K", Unit: "",
		Terms: []figure.Term{{Symbol: "p", Meaning: "price of a litre"}},
		Text:  "p", Source: "prices in store.toml", Origin: figure.House},
	Go: func(p unit.MoneyPerL) unit.Money { return unit.Money(p) },
})

// partCost is one bath's share of the cost of what is made of baths.
var partCost = figure.Register(&figure.F3[unit.Money, unit.Money, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "cost.share", Name: "cost of a bath in a litre", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "K", Meaning: "cost of a litre of the bath"}, {Symbol: "v", Meaning: "its share"}, {Symbol: "V", Meaning: "the whole"}},
		Text:  "K * v / V", Source: "prices in store.toml and lab.toml", Origin: figure.House},
	Go: func(k unit.Money, v, whole unit.Factor) unit.Money { return k * unit.Money(v/whole) },
})

// volumeCost is the same for a bath that is measured by its volume.
var volumeCost = figure.Register(&figure.F3[unit.Money, unit.Money, unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "cost.share.volume", Name: "cost of a bath in a litre", Result: "k", Unit: "",
		Terms: []figure.Term{{Symbol: "K", Meaning: "cost of a litre of the bath"},
			{Symbol: "v", Meaning: "its volume", Unit: "ml"}, {Symbol: "V", Meaning: "the whole", Unit: "ml"}},
		Text: "K * v / V", Source: "prices in store.toml and lab.toml", Origin: figure.House},
	Go: func(k unit.Money, v, whole unit.Volume) unit.Money { return k * unit.Money(v/whole) },
})

// CostOf is what a litre of a strength costs (I4), or why nobody can say.
func (m *Mixer) CostOf(b lab.Bath) (figure.Figure[unit.Money], string) {
	if have, ok := m.costs[b.Ref()]; ok {
		return have.fig, have.why
	}
	fig, why := m.costOf(b)
	if why != "" {
		m.Book.Refuse(b.Ref()+"/cost", figure.KindMoney, "cost of a litre", "", why, figure.House)
	} else {
		fig = fig.Show(figure.KindMoney, "0.01", unit.Nearest, "").In(m.currency())
	}
	m.costs[b.Ref()] = costed{fig, why}
	return fig, why
}

// Cost enters what a litre of a strength costs.
func (m *Mixer) Cost(b lab.Bath) (cost *figure.Record, why string) {
	fig, why := m.CostOf(b)
	if why != "" {
		return nil, why
	}
	return figure.Enter(m.Book, fig), ""
}

type costed struct {
	fig figure.Figure[unit.Money]
	why string
}

// currency is the lab's: every price is in the same one.
func (m *Mixer) currency() string {
	for _, p := range m.Lab.Store.Packs {
		if p.Price.Given() {
			return p.Price.Currency
		}
	}
	return m.Lab.Place.Water.Price.Currency
}

func (m *Mixer) costOf(b lab.Bath) (figure.Figure[unit.Money], string) {
	no := figure.Figure[unit.Money]{}
	id := b.Ref() + "/cost"
	if from, dil, ok := b.From(); ok {
		before, why := m.CostOf(from)
		if why != "" {
			return no, why
		}
		if dil.None() {
			return before, ""
		}
		pa, pb := dil.Figures()
		price, why := m.waterPrice(b.Decl().Water)
		if why != "" {
			return no, why
		}
		return dilutedCost.Of(id, before, price, pa, pb), ""
	}
	s := b.Solution
	if s == nil {
		pack, _, ok := m.Lab.PackOf(b.Ref())
		perL, byVolume := pack.Price.FigurePerL("price of " + b.Name())
		if !ok || !byVolume {
			return no, "no price of a litre for " + b.Name() + " in store.toml"
		}
		return suppliedCost.Of(id, perL), ""
	}
	made := m.Made(b)
	parts, room, why := m.bathCosts(b, s)
	if why != "" {
		return no, why
	}
	for _, c := range made.Contents {
		byStep, byBath := m.sources(s, c)
		if byStep && byBath {
			return no, c.Chemical.Name + " comes by itself and in a bath: nobody can say which part costs what"
		}
		if byBath {
			continue
		}
		part, space, why := m.chemicalCost(b, c)
		if why != "" {
			return no, why
		}
		parts, room = append(parts, part), append(room, space...)
	}
	if s.Dissolve == nil && len(s.Steps) > 0 && s.Steps[0].Parts.Given() {
		room = nil
	} else if price, why := m.waterPrice(s.Water); why == "" && (s.Dissolve == nil || s.Dissolve.In == "water") {
		litre := figure.Constant(unit.Volume(1000), "a litre", "", figure.Standard)
		water := startRoom.Of(b.Ref()+"/cost.water.volume", litre, displacedSum.Of(b.Ref()+"/cost.room", room...))
		parts = append(parts, waterCost.Of(b.Ref()+"/cost.water", water, price))
	}
	if len(parts) == 0 {
		return no, "nothing in it has a price"
	}
	return totalCost.Of(id, parts...), ""
}

// sources tell whether a content is weighed in by a step of its own, and whether
// it comes with a bath that is poured in, whose cost counts it.
func (m *Mixer) sources(s *lab.Solution, c Content) (byStep, byBath bool) {
	if s.Dissolve != nil {
		return true, false
	}
	for i, step := range s.Steps {
		ing, bad := m.Lab.Resolve(step.Add, s.At(lab.StepKey(i)).At("add"))
		switch {
		case len(bad) > 0 || ing.Water:
		case ing.Chemical != nil:
			byStep = byStep || ing.Ref == c.Ref()
		default:
			for _, inner := range m.Made(ing.Bath).Contents {
				byBath = byBath || inner.Ref() == c.Ref()
			}
		}
	}
	return byStep, byBath
}

// bathCosts are the shares of the baths that are poured into a solution.
func (m *Mixer) bathCosts(b lab.Bath, s *lab.Solution) (parts []figure.Figure[unit.Money], room []figure.Figure[unit.Volume], why string) {
	all := wholeParts(s)
	for i, step := range s.Steps {
		key := lab.StepKey(i)
		ing, bad := m.Lab.Resolve(step.Add, s.At(key).At("add"))
		if len(bad) > 0 || ing.Chemical != nil {
			continue
		}
		id := b.Ref() + "/cost." + StepID(step)
		if ing.Water {
			price, why := m.waterPrice(s.Water)
			if why != "" || !step.Parts.Given() {
				continue
			}
			litre := suppliedCost.Of(b.Ref()+"/cost.litre.water", price)
			parts = append(parts, partCost.Of(id, litre, step.Parts.Figure("parts of water"), figure.Constant(all, "all parts", "", figure.Standard)))
			continue
		}
		cost, why := m.CostOf(ing.Bath)
		if why != "" {
			return nil, nil, why
		}
		if step.Parts.Given() {
			parts = append(parts, partCost.Of(id, cost, step.Parts.Figure("its parts"), figure.Constant(all, "all parts", "", figure.Standard)))
			continue
		}
		v, per := step.Amount.Volume.Figure("its volume in ml"), s.Per.Figure("the whole in ml")
		parts = append(parts, volumeCost.Of(id, cost, v, per))
		share := scaleVolume.Of(b.Ref()+"/room."+StepID(step), step.Amount.Volume.Figure("volume of the bath"), s.Per.Figure("finished volume"), figure.Constant(unit.Volume(1000), "a litre", "", figure.Standard))
		room = append(room, share)
	}
	return parts, room, ""
}

// chemicalCost is one chemical's part of a litre, and the room it takes up.
func (m *Mixer) chemicalCost(b lab.Bath, c Content) (part figure.Figure[unit.Money], room []figure.Figure[unit.Volume], why string) {
	name := c.Chemical.FormName(c.Form)
	pack, _, ok := m.Lab.PackOf(c.Ref())
	if !ok || !pack.Price.Given() {
		return part, nil, "no price for " + name + " in store.toml"
	}
	form := c.Chemical.Forms[c.Form]
	ing, _ := m.Lab.Resolve(c.Ref(), pack.Price.Where())
	var perKg figure.Figure[unit.MoneyPerKg]
	if p, byMass := pack.Price.FigurePerKg("price of " + name); byMass {
		perKg = p
	} else if perL, byVolume := pack.Price.FigurePerL("price of " + name); byVolume && form.Density.Given() {
		content := liquidContent.Of(c.Ref()+"/content", formDensity(ing), formContent(ing))
		perKg = contentPrice.Of(c.Ref()+"/price", perL, content)
	} else {
		return part, nil, "the price of " + name + " is not by mass or volume"
	}
	mass := figure.Cast[unit.Mass](c.Conc.Best()).Called("mass in a litre")
	switch {
	case form.Content.Given() && form.Density.Given():
		room = append(room, liquidVolume.Of(b.Ref()+"/room."+c.Ref(), mass, liquidContent.Of(c.Ref()+"/content", formDensity(ing), formContent(ing))))
	case form.TakesUp.Given():
		room = append(room, displaced.Of(b.Ref()+"/room."+c.Ref(), mass, form.TakesUp.Figure("what a gram takes up")))
	}
	return costOf.Of(b.Ref()+"/cost."+c.Ref(), c.Conc, perKg), room, ""
}

// waterPrice is the price of a litre of a kind of water; unwritten, tap water
// counts as nothing and deionised water cannot be counted.
func (m *Mixer) waterPrice(kind lab.WaterKind) (figure.Figure[unit.MoneyPerL], string) {
	w := m.Lab.Place.Water
	price := w.Price
	if kind == "deionised" {
		price = w.Deionised
	}
	if perL, ok := price.FigurePerL("price of a litre of water"); ok {
		return perL, ""
	}
	if kind == "deionised" {
		return figure.Figure[unit.MoneyPerL]{}, "no price for deionised water in lab.toml"
	}
	return figure.Constant(unit.MoneyPerL(0), "tap water, no price written", "", figure.Estimate), ""
}

// Makes is the volume of a strength that a batch of what the steps make comes to;
// of a one-shot strength, the batch itself, which is drawn from.
func (m *Mixer) Makes(b lab.Bath, batch unit.Quantity[unit.Volume]) unit.Quantity[unit.Volume] {
	if d := b.Decl(); d != nil && d.Use == "one-shot" {
		return batch
	}
	share := big.NewRat(1, 1)
	for at := b; ; {
		from, dil, ok := at.From()
		if !ok {
			break
		}
		if !dil.None() {
			share.Mul(share, dil.Share())
		}
		at = from
	}
	v := new(big.Rat).Quo(batch.Exact(), share)
	return unit.Exactly[unit.Volume](v, unit.ShortRat(v)+" mL")
}

// Try reports whether every part of a batch mixed by parts can be measured here.
func (m *Mixer) Try(s *lab.Solution, volume unit.Quantity[unit.Volume]) bool {
	all := new(big.Rat)
	for _, step := range s.Steps {
		if !step.Parts.Given() {
			return false
		}
		all.Add(all, step.Parts.Exact())
	}
	for _, step := range s.Steps {
		v := new(big.Rat).Mul(volume.Exact(), step.Parts.Exact())
		bath := ""
		if ing, bad := m.Lab.Resolve(step.Add, s.At("step")); len(bad) == 0 && !ing.Bath.Zero() {
			bath = ing.Bath.Ref()
		}
		if m.Bench.Pour(v.Quo(v, all), bath, step.Within.Quantity, unit.Nearest).Refused != "" {
			return false
		}
	}
	return true
}

// Pour measures a volume that was worked out elsewhere with the lab's
// cylinders and enters it.
func (m *Mixer) Pour(fig figure.Figure[unit.Volume], name string, rule unit.Rule) Take {
	exact := new(big.Rat).SetFloat64(unit.Snap(float64(fig.Value)))
	if exact == nil || exact.Sign() < 0 {
		return Take{Amount: m.Book.Refuse(fig.ID(), figure.KindAmount, name, "ml", "no such volume", fig.Origin()), Unit: "ml", Refused: "no such volume"}
	}
	if exact.Sign() == 0 {
		return Take{Amount: figure.Enter(m.Book, fig.Named(name).Show(figure.KindAmount, "1", unit.Nearest, "")), Unit: "ml"}
	}
	h := m.Bench.Pour(exact, "", unit.Quantity[unit.Percent]{}, rule)
	if h.Refused != "" {
		return refuse(m, fig.Named(name), "ml", h.Refused, h.Way)
	}
	total, each := h.Take(exact)
	return m.show(fig.Named(name), figure.Reading{Exact: exact, Total: total, Pour: each, Hand: h}, "ml")
}

// Notation works out A1 for a dilution of the notation board, measured with the
// lab's cylinders as on every card.
func (m *Mixer) Notation(dil unit.Dilution, volume unit.Quantity[unit.Volume]) Take {
	a := figure.Constant(unit.Factor(dil.Stock.Float()), "parts of the solution", "", figure.Standard)
	b := figure.Constant(unit.Factor(dil.Water.Float()), "parts of water", "", figure.Standard)
	v := figure.Constant(volume.Value(), "volume made", "", figure.Standard)
	id := "notation/draw." + dil.Text() + "@" + Tag(volume.Exact())
	name := "solution for " + dil.Text()
	f := dilutionStock.Of(id, v, a, b).Named(name)
	return m.pour(f, new(big.Rat).Quo(dil.Share(), big.NewRat(10, 1)), "", unit.Quantity[unit.Percent]{}, volume, unit.Nearest)
}

// ColonError works out A2: how much too strong a dilution gets when its colon
// is read the other way.
func (m *Mixer) ColonError(dil unit.Dilution) *figure.Record {
	b := figure.Constant(unit.Factor(dil.Water.Float()), "parts of water", "", figure.Standard)
	return figure.Enter(m.Book, colonError.Of("notation/colon."+dil.Text(), b).Show(figure.KindRatio, "1", unit.Nearest, ""))
}

// blendParts is A9, the mixing cross: parts of the stronger for one of the
// weaker.
var blendParts = figure.Register(&figure.F3[unit.Factor, unit.WV, unit.WV, unit.WV]{
	Formula: figure.Formula{ID: "blend", Name: "parts of the stronger for one part of the weaker", Result: "r", Unit: "",
		Terms: []figure.Term{{Symbol: "C", Meaning: "strength wanted", Unit: "% w/v"}, {Symbol: "C_lo", Meaning: "the weaker", Unit: "% w/v"}, {Symbol: "C_hi", Meaning: "the stronger", Unit: "% w/v"}},
		Text:  "(C - C_lo) / (C_hi - C)", Valid: "the wanted strength lies between the two; w/v", Source: balance, Origin: figure.Standard},
	Go: func(c, lo, hi unit.WV) unit.Factor { return unit.Factor((c - lo) / (hi - c)) },
})

// Blend works out A9 for the example of the notation board.
func (m *Mixer) Blend(want, weak, strong float64) *figure.Record {
	of := func(x float64, name string) figure.Figure[unit.WV] {
		return figure.Constant(unit.WV(x), name, "", figure.Standard)
	}
	f := blendParts.Of(fmt.Sprintf("notation/blend.%g,%g,%g", want, weak, strong), of(want, "strength wanted"), of(weak, "the weaker"), of(strong, "the stronger"))
	return figure.Enter(m.Book, f.Show(figure.KindCount, "0.01", unit.Nearest, ""))
}

// Chain works out A3 for the example of the notation board.
func (m *Mixer) Chain(first, second unit.Dilution) *figure.Record {
	part := func(d unit.Decimal, name string) figure.Figure[unit.Factor] {
		return figure.Constant(unit.Factor(d.Float()), name, "", figure.Standard)
	}
	f := overallDilution.Of("notation/chain."+first.Text()+","+second.Text(), part(first.Stock, "parts of the first"), part(first.Water, "its parts of water"), part(second.Stock, "parts of the second"), part(second.Water, "its parts of water"))
	return figure.Enter(m.Book, f.Show(figure.KindCount, "1", unit.Nearest, ""))
}

// Largest works out A5: the largest volume of a dilution that a rest makes.
func (m *Mixer) Largest(b lab.Bath, left figure.Figure[unit.Volume], tag string) *figure.Record {
	_, dil, ok := b.From()
	if !ok || dil.None() {
		return nil
	}
	pa, pb := dil.Figures()
	return figure.Enter(m.Book, largestVolume.Of(b.Ref()+"/largest@"+tag, left, pa, pb).Show(figure.KindAmount, "10", unit.Down, ""))
}

// Window is what a device of the bench can measure within the house's error.
type Window struct {
	Device string
	Least  *figure.Record
	Most   *figure.Record // nil where nothing bounds it
	// Of names the solutions that a syringe is kept for.
	Of []string
}

// Windows works out the least that each scale may weigh (B6) and each cylinder
// may measure (M2): what makes a card choose one of them.
func (m *Mixer) Windows() (scales, cylinders []Window) {
	house := m.Lab.Place.House.Filled()
	weigh := house.WeighWithin.Figure("error allowed in weighing")
	measure := house.MeasureWithin.Figure("error allowed in measuring")
	for _, s := range m.Bench.scales {
		doubt := figure.DefaultOf(unit.Factor(2), "2", "divisions of doubt: nobody has checked it", "common practice, no source")
		if day := s.decl.Checked; day.Given() {
			doubt = figure.GivenNumber(unit.Factor(1), day.String(), day.Where(), day.By(), "divisions of doubt: checked on that day")
		}
		least := smallestMass.Of("bench/least.scale-"+s.name, doubt, s.decl.Reads.Figure("what the scale reads"), weigh)
		rounded := unit.Round(float64(least.Value), s.step.Float(), unit.Up)
		w := Window{Device: s.name + " scale",
			Least: figure.Enter(m.Book, least.ShowAs(figure.KindAmount, rounded, s.step, unit.Up, s.name))}
		if most := s.decl.UpTo; most.Given() {
			w.Most = figure.Declare(m.Book, "bench/most.scale-"+s.name, figure.KindAmount,
				most.Figure("most it bears"), unit.ShortRat(most.Exact()), "g")
		}
		scales = append(scales, w)
	}
	window := func(kind string, c cylinder, holds figure.Figure[unit.Volume]) Window {
		least := smallestVolume.Of("bench/least."+kind+"-"+c.id, c.tolerance(), measure)
		step := unit.NewDecimal(1, 1)
		rounded := unit.Round(float64(least.Value), step.Float(), unit.Up)
		return Window{Device: c.name,
			Least: figure.Enter(m.Book, least.ShowAs(figure.KindAmount, rounded, step, unit.Up, c.name)),
			Most:  figure.Declare(m.Book, "bench/most."+kind+"-"+c.id, figure.KindAmount, holds, unit.ShortRat(c.holds), "ml")}
	}
	for _, c := range m.Bench.cylinders {
		// Anybody in the house reads off a cylinder what it holds, whoever vouches for its tolerance.
		holds := figure.Given(c.decl.Holds, c.decl.Holds.Where(), figure.House, "what it holds")
		cylinders = append(cylinders, window("cylinder", c, holds))
	}
	for _, s := range m.Bench.syringes {
		w := window("syringe", s.cylinder, s.decl.Holds.Figure("what it holds"))
		for _, ref := range m.Lab.Place.Syringes[s.id].For {
			if ing, bad := m.Lab.Resolve(ref, s.decl.Holds.Where()); len(bad) == 0 {
				w.Of = append(w.Of, ing.Name())
			}
		}
		cylinders = append(cylinders, w)
	}
	return scales, cylinders
}

// smallestVolume is M2 for one pour.
var smallestVolume = figure.Register(&figure.F2[unit.Volume, unit.Volume, unit.Percent]{
	Formula: figure.Formula{ID: "cylinder.smallest", Name: "least a cylinder may measure", Result: "V_min", Unit: "ml",
		Terms: []figure.Term{{Symbol: "tol", Meaning: "tolerance", Unit: "ml"}, {Symbol: "e", Meaning: "error allowed", Unit: "%"}},
		Text:  "tol * 100 / e", Source: balance, Origin: figure.Standard},
	Go: func(tol unit.Volume, e unit.Percent) unit.Volume { return tol * 100 / unit.Volume(e) },
})
