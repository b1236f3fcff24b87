package mix

import (
	"math/big"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

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
	// TooMuch is more than the water to start with can hold; nil where it holds all of it, or where
	// nobody can tell.
	TooMuch *Holding
	// Warming is how far dissolving it warms or cools the jug; nil where nobody has written its
	// heat, and for a liquid.
	Warming *Warming
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
func (m *Mixer) VolumeFigure(id string, q unit.Quantity[unit.Volume], at figure.Where, by figure.Origin,
	name string) *figure.Record {
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
		out.Fill = m.VolumeFigure(figure.ID(b.Ref(), "fill", out.Tag), volume, at, figure.House, "fill to the mark")
		m.start(&out, b, v)
		if out.StartWhy != "" {
			m.refuseBurning(&out)
		}
		m.heats(&out, b)
		m.holds(&out, b)
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

func (m *Mixer) dissolveBatch(out *Batch, b lab.Bath, v figure.Figure[unit.Volume]) {
	s := b.Solution
	d := s.Dissolve
	ing, bad := m.Lab.Resolve(d.Add, s.At("dissolve.add"))
	if len(bad) > 0 || ing.Chemical == nil {
		return
	}
	id := figure.ID(b.Ref(), "weigh."+ing.Chemical.ID, out.Tag)
	fig := percentMass.Of(id, v, d.Strength.Figure("percentage")).Named(ing.Name())
	exact := new(big.Rat).Quo(d.Strength.Exact(), big.NewRat(1000, 1))
	reading, why := m.Bench.MassLadder(exact, unit.Quantity[unit.Percent]{}, "percent solution", nil, nil).
		Read(tenths(out.Volume.Exact()))
	var take Take
	if why != "" {
		take = m.refuseMass(fig, reading, unit.Quantity[unit.Percent]{}, why)
	} else {
		take = m.showMass(fig, reading)
	}
	out.Rows = append(out.Rows, Row{Step: lab.Step{Add: d.Add, Caution: d.Caution}, At: s.At("dissolve.strength"),
		Ing: ing, Take: take})
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
