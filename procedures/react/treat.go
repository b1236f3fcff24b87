package react

import (
	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/ph"
	"wetside/procedures/unit"
)

const moles = "stoichiometry"

// needed is J1 and J3 to J5: the reagent that a litre of bath takes.
var needed = figure.Register(&figure.F4[unit.Concentration, unit.Molarity, unit.Factor, unit.Molar, unit.Percent]{
	Formula: figure.Formula{ID: "react.reagent", Name: "reagent for a litre", Result: "c", Unit: "g/L",
		Terms: []figure.Term{{Symbol: "n", Meaning: "what reacts with it", Unit: "mol/L"},
			{Symbol: "k", Meaning: "mol of the reagent for one of that"},
			{Symbol: "M", Meaning: "molar mass of the reagent", Unit: "g/mol"},
			{Symbol: "e", Meaning: "taken more than that", Unit: "%"}},
		Text: "n * k * M * (1 + e / 100)", Valid: "a fresh bath, which takes the most", Source: moles,
		Origin: figure.Standard},
	Go: func(n unit.Molarity, k unit.Factor, m unit.Molar, e unit.Percent) unit.Concentration {
		return unit.Concentration(float64(n) * float64(k) * float64(m) * (1 + float64(e)/100))
	},
})

// poured is the end of J6: a reagent that comes as a liquid.
var poured = figure.Register(&figure.F2[unit.Volume, unit.Concentration, unit.Concentration]{
	Formula: figure.Formula{ID: "react.liquid", Name: "liquid for a litre", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "m", Meaning: "reagent for a litre", Unit: "g/L"},
			{Symbol: "c", Meaning: "reagent in the liquid", Unit: "g/L"}},
		Text: "m / c * 1000", Source: "mass balance", Origin: figure.Standard},
	Go: func(m, c unit.Concentration) unit.Volume { return unit.Volume(float64(m) / float64(c) * 1000) },
})

// gas is J2.
var gas = figure.Register(&figure.F3[unit.Volume, unit.Molarity, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "react.gas", Name: "gas from a litre", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "n", Meaning: "what reacts", Unit: "mol/L"},
			{Symbol: "k", Meaning: "mol of gas for one of that"},
			{Symbol: "V_m", Meaning: "what one mol of a gas fills", Unit: "L"}},
		Text: "1000 * n * k * V_m", Valid: "all of it comes out", Source: moles, Origin: figure.Standard},
	Go: func(n unit.Molarity, k, v unit.Factor) unit.Volume {
		return unit.Volume(1000 * float64(n) * float64(k) * float64(v))
	},
})

// bleachAcid is J5 as it was corrected: the hydrogencarbonate that a bleach takes which was reduced
// with metabisulfite.
var bleachAcid = figure.Register(&figure.F2[unit.Molarity, unit.Molarity, unit.Molarity]{
	Formula: figure.Formula{ID: "react.bleach", Name: "hydrogencarbonate that the reduced bleach takes", Result: "n",
		Unit: "mol/L",
		Terms: []figure.Term{{Symbol: "a", Meaning: "acid of the fresh bleach", Unit: "mol/L"},
			{Symbol: "p", Meaning: "permanganate", Unit: "mol/L"}},
		Text:   "a - 0.5 * p + 2 * p",
		Valid:  "metabisulfite leaves all but half a proton for each permanganate; the manganese becomes carbonate",
		Source: moles, Origin: figure.Standard},
	Go: func(a, p unit.Molarity) unit.Molarity { return a - p/2 + 2*p },
})

// molarSum adds what several substances bring.
var molarSum = figure.Register(&figure.FN[unit.Molarity, unit.Molarity]{
	Formula: figure.Formula{ID: "react.sum", Name: "in a litre", Result: "n", Unit: "mol/L",
		Terms: []figure.Term{{Symbol: "n", Meaning: "what each substance brings", Unit: "mol/L"}},
		Text:  "sum(n)", Source: "balance of moles", Origin: figure.Standard},
	Go: figure.Total[unit.Molarity],
})

// brings is what a substance brings of an ion.
var brings = figure.Register(&figure.F2[unit.Molarity, unit.Molarity, unit.Factor]{
	Formula: figure.Formula{ID: "react.brings", Name: "ions that a substance brings", Result: "n", Unit: "mol/L",
		Terms: []figure.Term{{Symbol: "c", Meaning: "the substance", Unit: "mol/L"},
			{Symbol: "k", Meaning: "ions of one unit of it"}},
		Text: "c * k", Source: "balance of moles", Origin: figure.Standard},
	Go: func(c unit.Molarity, k unit.Factor) unit.Molarity { return c * unit.Molarity(k) },
})

// The kinds of treatment.
const (
	Neutralise = "neutralise"
	Reduce     = "reduce"
	Oxidise    = "oxidise"
)

// Step is one thing that is done to a litre of a spent bath.
type Step struct {
	Kind string
	// Reaction is what happens, and Reagent the name of what is added.
	Reaction, Reagent string
	// Amount is what a litre takes. Least is what it takes where the gas has all gone, of a bath that
	// fizzes; nil where there is no other.
	Amount, Least *figure.Record
	// Gas is how much carbon dioxide comes out of a litre; nil: none.
	Gas *figure.Record
}

// Treatment is what makes a strength harmless, in the order of its steps. It has no steps where no
// reaction here is safe for all that is in it.
type Treatment struct{ Steps []Step }

// neutral is the pH up to which acid is neutralised: test paper shows it, and the permit's own range
// goes first (our own rule).
const neutral = 6.5

// molarVolume is what a mol of a gas fills at 20 °C under 101.325 kPa.
var molarVolume = figure.Constant(unit.Factor(24.06), "what one mol of a gas fills at 20 °C",
	"gas law, at one standard atmosphere", figure.Standard)

// Only what is known to bear the treatment is in these lists: anything else in a bath, and there is no
// recipe for it.
var (
	bystanders = []string{"Na+", "K+", "H+", "OH-"}
	acids      = append([]string{"SO4-2", "HSO4-", "C6H5O7-3", "CH3COO-", "C2O4-2", "C4H4O6-2", "PO4-3", "B(OH)4-",
		"B(OH)3"}, bystanders...)
	sulfites     = append([]string{"SO3-2", "HSO3-"}, bystanders...)
	permanganate = append([]string{"MnO4-", "SO4-2", "HSO4-"}, bystanders...)
)

// The reagents, by their names in the library.
const (
	hydrogencarbonate = "sodium-hydrogencarbonate"
	carbonate         = "sodium-carbonate.anhydrous"
	metabisulfite     = "sodium-metabisulfite"
	peroxide          = "hydrogen-peroxide.solution-3"
)

type worker struct {
	m     *mix.Mixer
	asker *ph.Asker
	made  *mix.Made
	of    mix.Composition
	out   Treatment
	// title is put behind the names of the amounts.
	title string
}

// Of works out what makes a litre of a strength harmless; may reports whether treating is permitted,
// and only marks the names of the amounts.
func Of(m *mix.Mixer, asker *ph.Asker, b lab.Bath, now float64, may bool) Treatment {
	made := m.Made(b)
	w := &worker{m: m, asker: asker, made: made, of: m.Composition(made)}
	if !may {
		w.title = ", for the person who may treat waste"
	}
	if len(made.Unknown) > 0 || len(w.of.Uncounted) > 0 || len(w.of.Molar) == 0 {
		return w.out
	}
	switch {
	case w.only(permanganate) && w.holds("MnO4-") && now < 3:
		w.bleach()
	case w.only(sulfites) && w.holds("SO3-2", "HSO3-") && now >= 7: // below, peroxide makes a strong acid of it
		w.sulfite()
	case w.only(acids) && now < neutral:
		w.acid(hydrogencarbonate, "neutralise-hydrogencarbonate", "HCO3-")
		w.acid(carbonate, "neutralise-carbonate", "CO3-2")
	}
	return w.out
}

// only reports a strength of which every ion is among some.
func (w *worker) only(among []string) bool {
	allowed := map[chem.Ion]bool{}
	for _, name := range among {
		if ion, err := chem.ParseIon(name); err == nil {
			allowed[ion] = true
		}
	}
	for _, x := range w.of.Molar {
		if len(x.Content.Chemical.InWater(x.Content.Form)) == 0 {
			return false
		}
		for name := range x.Content.Chemical.InWater(x.Content.Form) {
			if ion, err := chem.ParseIon(name); err != nil || !allowed[ion] {
				return false
			}
		}
	}
	return true
}

func (w *worker) holds(names ...string) bool {
	_, ok := w.sum("", names...)
	return ok
}

// sum is how much of some ions a litre holds.
func (w *worker) sum(id string, names ...string) (figure.Figure[unit.Molarity], bool) {
	var parts []figure.Figure[unit.Molarity]
	for _, x := range w.of.Molar {
		k := lab.Count(0)
		for _, name := range names {
			k += x.Content.Chemical.InWater(x.Content.Form)[name]
		}
		if k > 0 {
			n := figure.Constant(unit.Factor(k), "ions of one unit of "+x.Content.Chemical.Name, "its ions",
				figure.Standard)
			parts = append(parts, brings.Of(figure.Beside(w.id(id), x.Content.Ref()), x.PerLitre, n))
		}
	}
	if len(parts) == 0 {
		return figure.Figure[unit.Molarity]{}, false
	}
	return molarSum.Of(w.id(id), parts...), true
}

func (w *worker) id(what string) string { return figure.ID(w.made.Bath.Ref(), "treat."+what) }

// reagent finds a reagent in the library: its molar mass and its name.
func (w *worker) reagent(ref string) (lab.Ingredient, figure.Figure[unit.Molar], bool) {
	ing, bad := w.m.Lab.Resolve(ref, figure.Where{})
	if len(bad) > 0 || ing.Chemical == nil || ing.Form == nil {
		return ing, figure.Figure[unit.Molar]{}, false
	}
	f, err := chem.Parse(ing.Form.Formula)
	if err != nil {
		return ing, figure.Figure[unit.Molar]{}, false
	}
	return ing, figure.Constant(unit.Molar(f.MolarMass()), "molar mass of "+f.String(), "IUPAC/CIAAW 2021",
		figure.Standard), true
}

// step adds a step: k mol of the reagent for each mol of n, some per cent more, and so many mol of
// carbon dioxide for each of n.
func (w *worker) step(kind, ref string, r Reaction, n figure.Figure[unit.Molarity], k, more, fizz float64,
	step string) {
	ing, molar, ok := w.reagent(ref)
	if !ok {
		return
	}
	id := w.id(ing.Chemical.ID)
	per := figure.Constant(unit.Factor(k), "mol of the reagent for one of that", r.String(), figure.Standard)
	extra := figure.Constant(unit.Percent(more), "taken more than that", "our own rule", figure.Default)
	mass := needed.Of(id, n, per, molar, extra).Named(ing.Chemical.Name + " for a litre" + w.title)
	out := Step{Kind: kind, Reaction: r.String(), Reagent: ing.Name()}
	if content, liquid := w.m.Content(ing); liquid && ing.Form.Content.Given() {
		v := poured.Of(figure.Beside(id, "liquid"), mass, content).Named(ing.Name() + " for a litre" + w.title)
		out.Amount = figure.Enter(w.m.Book, v.Show(figure.KindAmount, "10", unit.Up, ""))
	} else {
		out.Amount = figure.Enter(w.m.Book, mass.Show(figure.KindAmount, step, unit.Up, "").In("g"))
	}
	if fizz > 0 {
		v := gas.Of(figure.Beside(id, "gas"), n, figure.Constant(unit.Factor(fizz), "mol of gas for one of that",
			r.String(), figure.Standard), molarVolume)
		out.Gas = figure.Enter(w.m.Book, v.Named("carbon dioxide from a litre"+w.title).
			ShowAs(figure.KindAmount, unit.Round(float64(v.Value)/1000, 0.1, unit.Up), unit.NewDecimal(1, 1),
				unit.Up, "").Counted("L", 0.001))
	}
	w.out.Steps = append(w.out.Steps, out)
}

// acid is J1 to J3: a carbonate until the pH is right, while the gas leaves.
func (w *worker) acid(ref, reaction, ion string) {
	of, ok := ph.ReagentOf(map[string]int{"Na+": map[string]int{"HCO3-": 1, "CO3-2": 2}[ion], ion: 1})
	if !ok {
		return
	}
	ing, molar, ok := w.reagent(ref)
	if !ok {
		return
	}
	kept, why := w.asker.Takes(w.made, of, ing.Chemical.ID, ing.Chemical.Name, neutral, ph.Fizzing)
	lost, whyLost := w.asker.Takes(w.made, of, ing.Chemical.ID, ing.Chemical.Name, neutral, ph.Open)
	if why != "" || whyLost != "" {
		return
	}
	r := Named(reaction)
	step := "1"
	if float64(kept.Value*unit.Molarity(molar.Value)) < 10 {
		step = "0.1"
	}
	w.step(Neutralise, ref, r, kept, 1, 0, r.Per(r.Gas, ion), step)
	one := figure.Constant(unit.Factor(1), "mol of the reagent for one of that", r.String(), figure.Standard)
	none := figure.Constant(unit.Percent(0), "taken more than that", "nothing", figure.Standard)
	least := needed.Of(figure.Beside(w.id(ing.Chemical.ID), "lost"), lost, one, molar, none).Named(ing.Chemical.Name +
		" for a litre when the gas has gone" + w.title)
	w.out.Steps[len(w.out.Steps)-1].Least = figure.Enter(w.m.Book,
		least.Show(figure.KindAmount, step, unit.Down, "").In("g"))
}

// sulfite is J6.
func (w *worker) sulfite() {
	n, _ := w.sum("sulfite", "SO3-2", "HSO3-")
	r := Named("oxidise-sulfite")
	w.step(Oxidise, peroxide, r, n, r.Per("H2O2", "SO3-2"), 0, 0, "1")
}

// bleach is J4 and J5: metabisulfite until it is colourless, then hydrogencarbonate.
func (w *worker) bleach() {
	n, _ := w.sum("permanganate", "MnO4-")
	r := Named("reduce-permanganate")
	const sulfitesOfOne = 2
	w.step(Reduce, metabisulfite, r, n, r.Per("SO3-2", "MnO4-")/sulfitesOfOne, 10, 0, "0.1")
	protons, ok := w.sum("acid", "H+", "HSO4-")
	if !ok {
		return
	}
	all := bleachAcid.Of(w.id("hydrogencarbonate"), protons, n)
	w.step(Neutralise, hydrogencarbonate, Named("neutralise-hydrogencarbonate"), all, 1, 0, 1, "1")
}
