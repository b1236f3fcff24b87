package mix

import (
	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

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
		doubt := figure.DefaultOf(unit.Factor(2), "2", "divisions of doubt: nobody has checked it",
			"common practice, no source")
		if day := s.decl.Checked; day.Given() {
			doubt = figure.GivenNumber(unit.Factor(1), day.String(), day.Where(), day.By(),
				"divisions of doubt: checked on that day")
		}
		least := smallestMass.Of(figure.ID("bench", "least.scale-"+s.name), doubt,
			s.decl.Reads.Figure("what the scale reads"), weigh)
		rounded := unit.Round(float64(least.Value), s.step.Float(), unit.Up)
		w := Window{Device: s.name + " scale",
			Least: figure.Enter(m.Book, least.ShowAs(figure.KindAmount, rounded, s.step, unit.Up, s.name))}
		if most := s.decl.UpTo; most.Given() {
			w.Most = figure.Declare(m.Book, figure.ID("bench", "most.scale-"+s.name), figure.KindAmount,
				most.Figure("most it bears"), unit.ShortRat(most.Exact()), "g")
		}
		scales = append(scales, w)
	}
	window := func(kind string, c cylinder, holds figure.Figure[unit.Volume]) Window {
		least := smallestVolume.Of(figure.ID("bench", "least."+kind+"-"+c.id), c.tolerance(), measure)
		step := unit.NewDecimal(1, 1)
		rounded := unit.Round(float64(least.Value), step.Float(), unit.Up)
		return Window{Device: c.name,
			Least: figure.Enter(m.Book, least.ShowAs(figure.KindAmount, rounded, step, unit.Up, c.name)),
			Most: figure.Declare(m.Book, figure.ID("bench", "most."+kind+"-"+c.id), figure.KindAmount, holds,
				unit.ShortRat(c.holds),
				"ml")}
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
	Formula: figure.Formula{ID: "cylinder.smallest", Name: "smallest amount to measure in a cylinder", Result: "V_min", Unit: "ml",
		Terms: []figure.Term{{Symbol: "tol", Meaning: "tolerance", Unit: "ml"},
			{Symbol: "e", Meaning: "error allowed", Unit: "%"}},
		Text: "tol * 100 / e", Source: balance, Origin: figure.Standard},
	Go: func(tol unit.Volume, e unit.Percent) unit.Volume { return tol * 100 / unit.Volume(e) },
})
