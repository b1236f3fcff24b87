package ph

import (
	"maps"
	"slices"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Taken is how much of something a bath takes up until it has a pH.
var Taken = figure.RegisterMethod(&figure.Method{
	ID: "ph.titre", Name: "what is added until the pH is right",
	Equations: []string{"so much is added that the balance of charges comes to the pH that is asked for; the search doubles what it adds until it is too much, and halves from there"},
	Check:     "the bath with so much more in it has that pH within a millionth",
	Valid:     "as for the pH; what is added brings no water with it",
	Source:    Balance.Source, Origin: figure.Estimate,
})

// Reagent is what is added: its ions, for one mol of it. What it brings of protons and hydroxide
// ions need not be told.
type Reagent []Part

// Part is one of the ions of a reagent.
type Part struct {
	Ion chem.Ion
	N   int
}

// Alkali and Acid are a strong alkali and a strong acid.
var (
	Alkali = reagent("Na+")
	Acid   = reagent("Cl-")
)

func reagent(ion string) Reagent {
	i, _ := chem.ParseIon(ion)
	return Reagent{{i, 1}}
}

// Takes is how many mol of a reagent a kilogram of water with this in it takes up at t °C until
// its pH is that one. The reagent must move the pH towards it.
func (m *Mixture) Takes(of Reagent, target, t float64, air Air) (float64, error) {
	start, err := m.Solve(t, air)
	if err != nil {
		return 0, err
	}
	up := start.PH < target
	beyond := func(mol float64) (bool, error) {
		more := &Mixture{table: m.table, totals: maps.Clone(m.totals), strong: maps.Clone(m.strong)}
		for _, p := range of {
			more.Add(p.Ion, mol*float64(p.N))
		}
		got, err := more.Solve(t, air)
		return got.PH >= target == up, err
	}
	low, high := 0.0, 1e-6
	for {
		over, err := beyond(high)
		if err != nil {
			return 0, err
		}
		if over {
			break
		}
		low, high = high, 2*high
	}
	for range 200 {
		mid := (low + high) / 2
		over, err := beyond(mid)
		switch {
		case err != nil:
			return 0, err
		case over:
			high = mid
		default:
			low = mid
		}
		if high-low <= 1e-10*high {
			break
		}
	}
	return (low + high) / 2, nil
}

// ReagentOf is a reagent of some ions; false where one of them cannot be read.
func ReagentOf(ions map[string]int) (Reagent, bool) {
	var out Reagent
	for _, name := range slices.Sorted(maps.Keys(ions)) {
		ion, err := chem.ParseIon(name)
		if err != nil {
			return nil, false
		}
		out = append(out, Part{ion, ions[name]})
	}
	return out, true
}

// warm is the temperature at which it is asked, in °C.
const warm = 20

// Titre is how much strong alkali a litre of a strength takes up at 20 °C until its pH is that one,
// or how much strong acid where it lies above; why says why nobody can tell.
func (a *Asker) Titre(made *mix.Made, target float64) (n figure.Figure[unit.Molarity], why string) {
	d, why := a.why(made)
	if why != "" {
		return n, why
	}
	now, err := d.mix.Solve(warm, Closed)
	if err != nil {
		return n, err.Error()
	}
	of, name := Alkali, "strong alkali"
	if now.PH > target {
		of, name = Acid, "strong acid"
	}
	return a.taken(made, d, of, name, figure.ID(made.Bath.Ref(), "titre", unit.Short(target)), target, Closed)
}

// Takes is how much of a reagent a litre of a strength takes up at 20 °C until its pH is that one;
// key is the reagent's word in the id.
func (a *Asker) Takes(made *mix.Made, of Reagent, key, name string, target float64,
	air Air) (n figure.Figure[unit.Molarity], why string) {
	d, why := a.why(made)
	if why != "" {
		return n, why
	}
	return a.taken(made, d, of, name,
		figure.ID(made.Bath.Ref(), "titre."+key, append([]string{unit.Short(target)}, variants(warm, air)[1:]...)...),
		target, air)
}

func (a *Asker) taken(made *mix.Made, d dissolved, of Reagent, name, id string, target float64,
	air Air) (n figure.Figure[unit.Molarity], why string) {
	mol, err := d.mix.Takes(of, target, warm, air)
	if err != nil {
		return n, err.Error()
	}
	litre := mol * float64(d.of.Water.Value)
	core := figure.Core{ID: id, Value: litre, Method: Taken, Source: Taken.Source, Origin: figure.Estimate}
	var from []*figure.Record
	for _, x := range d.terms {
		from = append(from, figure.Enter(a.Mix.Book, x.molal))
		core.Origin = figure.Weakest(core.Origin, x.molal.Origin())
	}
	shown := unit.Format(unit.Round(litre, 0.001, unit.Nearest), unit.NewDecimal(1, 3))
	face := figure.Face{Kind: figure.KindAmount, Name: name + " that a litre takes up until its pH is " +
		unit.Short(target) + words[air], Unit: "mol/L", Shown: shown, Rounded: shown,
		Round: figure.Rounding{Rule: unit.Nearest.String(), Step: "0.001"}}
	return figure.Entered[unit.Molarity](a.Mix.Book.Enter(figure.Of(core, face, from...))), ""
}
