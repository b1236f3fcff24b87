package ph

import (
	"maps"
	"math"
	"slices"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Taken is how much of something a bath takes up until it has a pH.
var Taken = figure.RegisterMethod(&figure.Method{
	ID: "ph.titre", Name: "what is added until the pH is right",
	Equations: []string{"so much is added that the balance of charges comes to the pH that is asked for; the search adds eight times as much until it is too much, and narrows it down from there by straight lines and by halving"},
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
	way := 1.0
	if start.PH >= target {
		way = -1
	}
	last := start
	beyond := func(mol float64) (float64, error) { // by how much the pH lies beyond the one that is asked for
		more := &Mixture{table: m.table, totals: maps.Clone(m.totals), strong: maps.Clone(m.strong)}
		for _, p := range of {
			more.Add(p.Ion, mol*float64(p.N))
		}
		got, err := more.near(last).Solve(t, air)
		if err == nil {
			last = got
		}
		return (got.PH - target) * way, err
	}
	low, high := 0.0, firstTrial
	under, over := (start.PH-target)*way, 0.0
	for {
		over, err = beyond(high)
		for least := max(2*low, firstTrial); err != nil && high > least; { // perhaps that was far too much
			high /= 2
			over, err = beyond(high)
		}
		if err != nil {
			return 0, err
		}
		if over >= 0 {
			break
		}
		low, under, high = high, over, 8*high
	}
	return between(low, high, under, over, beyond)
}

// firstTrial is how much of a reagent is tried first, in mol/kg.
const firstTrial = 1.024e-3

// between finds where a rising curve passes zero between two points, under it and over it: by the straight
// line through both, where one end that stays is counted by half (the Illinois method), and by halving
// where that has not narrowed it to a quarter in three steps.
func between(low, high, under, over float64, curve func(float64) (float64, error)) (float64, error) {
	width, steps, stays := high-low, 0, 0
	for range 200 {
		if high-low <= 1e-10*high {
			break
		}
		next := (low*over - high*under) / (over - under)
		if steps == 3 {
			if high-low > width/4 {
				next = (low + high) / 2
			}
			width, steps = high-low, 0
		}
		steps++
		if !(next > low && next < high) {
			next = (low + high) / 2
		}
		f, err := curve(next)
		switch {
		case err != nil:
			return 0, err
		case math.Abs(f) <= narrow:
			return next, nil
		case f > 0:
			if high, over = next, f; stays > 0 {
				under /= 2
			}
			stays = 1
		default:
			if low, under = next, f; stays < 0 {
				over /= 2
			}
			stays = -1
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
