package mix

import (
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// displacedSum is all that is added, as a volume.
var displacedSum = figure.Register(&figure.FN[unit.Volume, unit.Volume]{
	Formula: figure.Formula{ID: "start.displaced.sum", Name: "volume of all that is added", Result: "D", Unit: "ml",
		Terms: []figure.Term{{Symbol: "d", Meaning: "volume of each", Unit: "ml"}},
		Text:  "sum(d)", Source: balance, Origin: figure.Standard},
	Go: figure.Total[unit.Volume],
})

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
		wanted := m.Book.Enter(r.As(figure.Beside(r.ID, "wanted")))
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

// start is the water to start with: the formula's own figure, else B8.
func (m *Mixer) start(out *Batch, b lab.Bath, v figure.Figure[unit.Volume]) {
	s := b.Solution
	id := figure.ID(b.Ref(), "start", out.Tag)
	step := startStep(v.Value)
	stepDec := unit.NewDecimal(int64(step), 0)
	if s.Start.With.Given() && s.Per.Given() {
		fig := scaleVolume.Of(id, s.Start.With.Figure("water in the formula"),
			s.Per.Figure("finished volume of the formula"), v).Named("water to start with")
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
		adds = append(adds, displaced.Of(figure.Beside(id, "takes."+StepID(row.Step)), mass, takes))
	}
	if liquids > v.Value/2 {
		none("liquids are more than half of it: the formula must give its own figure", write)
		return
	}
	room := startRoom.Of(figure.Beside(id, "room"), v, displacedSum.Of(figure.Beside(id, "takes"), adds...))
	fig := startVolume.Of(id, v, room).Named("water to start with")
	// What nobody has looked up counts with the most that a gram can take up; that
	// is no answer where less would change it.
	if unknown != "" && unit.Snap(float64(fig.Value)) < unit.Snap(0.8*float64(v.Value)) {
		none("nobody has looked up what a gram of "+unknown+" takes up",
			write+", or takes_up in the file of the chemical")
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
var mostTakenUp = figure.DefaultOf(unit.VolumePerMass(1), "1 ml/g", "the most that a gram takes up",
	"common practice, no source")
