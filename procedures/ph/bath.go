package ph

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"wetside/procedures/chem"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// Balance is how a pH is found.
var Balance = figure.RegisterMethod(&figure.Method{
	ID: "ph", Name: "balance of charges",
	Equations: []string{
		"each salt becomes its ions; what an acid or a base among them becomes is shared out by its constants: pK = pH + log10(a of what has the proton / a of what has given it)",
		"a = γ·mol/kg; of an ion with a size: log10 γ = -A·z²·√I/(1 + B·size·√I) + linear·I; of one without: log10 γ = -A·z²·(√I/(1 + √I) - 0.3·I), in which the last I is at most 0.5; of what has no charge: log10 γ = 0.1·I",
		"I is half the sum of z²·mol/kg of all ions, and A and B are those of Debye and Hückel in water at the temperature",
		"pH = -log10 a of hydrogen ions; the pH is right when all charges add up to none",
		"the doubt is the root of the squares of what each constant, each amount, the density and the other equation for γ would change",
	},
	Check:  "another way of solving the same equations, by halving alone, comes to the same pH within a millionth",
	Valid:  "up to 3 mol/kg of ions, 0 to 60 °C, in water alone; of pairs of ions only those of sulfate are counted, and nothing that metals hold",
	Source: "Debye and Hückel, Davies, and Truesdell and Jones for the activities; mass action and the balance of charge for the rest",
	Origin: figure.Estimate,
})

// Asker works out the pH of baths.
type Asker struct {
	Mix   *mix.Mixer
	Table *Table

	known map[*mix.Made]reckoned
}

// reckoned is a strength as it is in water, or why nobody can tell.
type reckoned struct {
	dissolved
	why string
}

// Acidity is how acid a strength is at one temperature.
type Acidity struct {
	// PH is refused, with the reason, where no honest number can be given.
	PH *figure.Record
	// Within is how far it may be off, up or down; nil where it is refused.
	Within *figure.Record
	// Low and High are the bounds.
	Low, High float64
	// Governs is what holds the pH where it is: the contents of the family that changes most
	// with it; empty where it is the strong acid or alkali itself.
	Governs []mix.Content
	// LogCO2 is log10 of the pressure of carbon dioxide over it, in atmospheres.
	LogCO2 float64
}

// The doubt of the method itself, and of a pH that somebody has measured and written without
// a doubt of its own.
const (
	// methodDoubt: the published buffers are met within 0.04.
	methodDoubt = 0.05
	// MeterDoubt: paper reads to about 0.2, a meter that was calibrated to 0.05 (our own rule).
	MeterDoubt = 0.1
)

// trace is what water takes up from the air, or what a pure salt may bring of acid or alkali,
// in mol/kg: water in equilibrium with air holds 0.00001 mol/kg of carbon dioxide (worked out
// here), and twice as much is allowed for. Where it would move the pH further than
// heldWithin, nothing in the bath holds it, and no number is honest (our own rules).
const (
	trace      = 2e-5
	heldWithin = 1.0
)

// Between these, in °C, the constants of acids and of water are known.
const coldest, hottest = 0.0, 60.0

// leastWater is how much of a litre must be water for the equations to hold, in kg.
const leastWater = 0.6

// dissolved is a strength as mol in a kilogram of water.
type dissolved struct {
	of    mix.Composition
	mix   *Mixture
	terms []term
	// assumed: nobody has written the density.
	assumed bool
}

type term struct {
	content mix.Content
	molal   figure.Figure[unit.Molality]
	ions    []counted // in the order of their names, so that sums come out alike
}

type counted struct {
	ion chem.Ion
	n   int
}

// why is the reason for which no pH can be worked out.
func (a *Asker) why(made *mix.Made) (dissolved, string) {
	x, have := a.known[made]
	if !have {
		if a.known == nil {
			a.known = map[*mix.Made]reckoned{}
		}
		x.dissolved, x.why = a.inWater(made)
		a.known[made] = x
	}
	return x.dissolved, x.why
}

func (a *Asker) inWater(made *mix.Made) (dissolved, string) {
	if len(made.Unknown) > 0 {
		of := made.Unknown[0]
		if p := of.Product; p != nil && p.Told() {
			return dissolved{}, "too little is told of " + of.Name()
		}
		return dissolved{}, "nobody knows what is in " + of.Name()
	}
	if len(made.Contents) == 0 {
		return dissolved{}, "nobody knows what is in it"
	}
	of := a.Mix.Composition(made)
	if len(of.Uncounted) > 0 {
		return dissolved{}, of.Uncounted[0].Chemical.Name + " has no fixed composition"
	}
	if !(float64(of.Water.Low) >= leastWater) {
		return dissolved{}, "too little of it is water"
	}
	out := dissolved{of: of, mix: a.Table.NewMixture(), assumed: made.DensityAssumed}
	for _, m := range of.Molar {
		c := m.Content.Chemical
		becomes := c.InWater(m.Content.Form)
		if len(becomes) == 0 {
			return dissolved{}, "nobody has written what " + c.Name + " becomes in water"
		}
		t := term{content: m.Content, molal: m.PerKg}
		for _, name := range slices.Sorted(maps.Keys(becomes)) {
			ion, err := chem.ParseIon(name)
			if err != nil {
				return dissolved{}, "the ions of " + c.Name + " cannot be read"
			}
			t.ions = append(t.ions, counted{ion, int(becomes[name])})
		}
		out.terms = append(out.terms, t)
	}
	for _, t := range out.terms {
		if ion, ok := out.add(t, float64(t.molal.Value)); !ok {
			return dissolved{}, "nobody has written the constants of " + ion
		}
	}
	return out, ""
}

// add puts so many mol of a content into the mixture; it names the first ion of which
// nothing is known.
func (d *dissolved) add(t term, mol float64) (string, bool) {
	for _, x := range t.ions {
		if !d.mix.Add(x.ion, mol*float64(x.n)) {
			return x.ion.String(), false
		}
	}
	return "", true
}

// Of works out the pH of a strength at t °C, closed or open to some air.
func (a *Asker) Of(made *mix.Made, t float64, air Air) Acidity {
	var out Acidity
	id := figure.ID(made.Bath.Ref(), "ph", variants(t, air)...)
	name := "pH at " + unit.Short(t) + " °C" + words[air]
	d, why := a.why(made)
	if !(t >= coldest && t <= hottest) {
		why = "no constants are known below 0 °C or above 60 °C"
	}
	var got Answer
	if why == "" {
		var err error
		if got, err = d.mix.Solve(t, air); err != nil {
			why = err.Error()
		}
	}
	if why != "" {
		out.PH = a.Mix.Book.Refuse(id, figure.KindRatio, name, "", why, figure.Estimate)
		return out
	}
	half, held := d.doubt(t, air, got)
	if !held {
		out.PH = a.Mix.Book.Refuse(id, figure.KindRatio, name, "",
			"nothing in it holds its pH: the air and traces of other things decide, near neutral", figure.Estimate)
		return out
	}
	out.LogCO2 = got.LogCO2
	out.Low, out.High = got.PH-half, got.PH+half
	out.Governs = d.governs(t, air, got)
	core := figure.Core{ID: id, Value: got.PH, Low: out.Low, High: out.High, HasLow: true, Method: Balance,
		Origin: made.Density.Origin()}
	core.Inputs = append(core.Inputs, &figure.InputRef{Name: "temperature",
		Constant: "temperature at which it is asked", Value: t, Unit: "°C", Origin: figure.Standard})
	core.Inputs = append(core.Inputs, d.constants()...)
	var from []*figure.Record
	for _, x := range d.terms {
		from = append(from, figure.Enter(a.Mix.Book, x.molal))
		core.Origin = figure.Weakest(core.Origin, x.molal.Origin())
	}
	for _, in := range core.Inputs {
		core.Origin = figure.Weakest(core.Origin, in.Origin)
	}
	shown := unit.Format(unit.Round(got.PH, 0.1, unit.Nearest), unit.NewDecimal(1, 1))
	face := figure.Face{Kind: figure.KindRatio, Name: name, Shown: shown, Rounded: shown,
		Round: figure.Rounding{Rule: unit.Nearest.String(), Step: "0.1"}}
	out.PH = a.Mix.Book.Enter(figure.Of(core, face, from...))
	// What is printed may be off by its own rounding as well.
	printed := max(0.1, unit.Round(half, 0.1, unit.Up))
	shown = unit.Format(printed, unit.NewDecimal(1, 1))
	out.Within = a.Mix.Book.Enter(figure.Of(figure.Core{ID: figure.Beside(id, "within"), Value: half, Method: Balance,
		Origin: core.Origin},
		figure.Face{Kind: figure.KindRatio, Name: "how far the pH may be off", Shown: shown, Rounded: shown,
			Round: figure.Rounding{Rule: unit.Up.String(), Step: "0.1"}}, out.PH))
	return out
}

var words = [...]string{Closed: "", Open: ", open to the air", Fizzing: ", while it fizzes"}

func variants(t float64, air Air) []string {
	v := []string{fmt.Sprintf("%.1fc", t)}
	switch air {
	case Open:
		v = append(v, "open")
	case Fizzing:
		v = append(v, "fizzing")
	}
	return v
}

// constants are the declared pK that the answer rests on.
func (d *dissolved) constants() []*figure.InputRef {
	var out []*figure.InputRef
	for _, c := range d.used() {
		out = append(out, c.ref())
	}
	return out
}

// used are the constants of the families in the mixture, and of water.
func (d *dissolved) used() []*constant {
	var out []*constant
	for i, c := range d.mix.table.kept {
		held := i == 0
		for f, mol := range d.mix.totals {
			for _, s := range f.members {
				held = held || mol > 0 && s.steps[c] != 0
			}
		}
		if held {
			out = append(out, c)
		}
	}
	return out
}

func (c *constant) ref() *figure.InputRef {
	return &figure.InputRef{Name: "pK of " + c.name, Where: c.said.PK.Where(), Value: float64(c.said.PK.Value()),
		Text: c.said.PK.Text(), Origin: c.said.PK.By()}
}

// doubt is the root of the squares of what each constant, each amount and the water change,
// and how far the other equation for activities is away. held is false where a trace of acid or
// alkali would move it further than is honest.
func (d *dissolved) doubt(t float64, air Air, found Answer) (half float64, held bool) {
	ph, own := found.PH, d.mix.near(found)
	y := own.at(t, air, extended) // changed in one thing at a time, and changed back
	for _, charge := range []float64{trace, -trace} {
		y.charge += charge
		got, err := y.solve()
		if err != nil || math.Abs(got.PH-ph) > heldWithin {
			return 0, false
		}
		y.charge -= charge
	}
	sum := methodDoubt * methodDoubt
	away := func(got Answer, err error) {
		if err == nil {
			sum += (got.PH - ph) * (got.PH - ph)
		}
	}
	for _, c := range d.used() {
		by := c.said.Doubt(t)
		if air == Fizzing { // it may be that it does not fizz then
			away(own.solve(t, air, extended, shift{c, by}))
			continue
		}
		y.move(c, by)
		away(y.solve())
		y.move(c, -by)
	}
	away(own.solve(t, air, davies))
	for i, x := range d.terms {
		half := float64(x.content.Conc.High-x.content.Conc.Low) / 2
		if half > 0 && x.content.Conc.Value > 0 {
			away(d.scaled(i, 1+half/float64(x.content.Conc.Value)).near(found).Solve(t, air))
		}
	}
	switch w := d.of.Water; {
	case d.assumed: // it lies between that of water and that of water with all the salt on top
		away(d.scaled(-1, float64(w.Value)).near(found).Solve(t, air))
	case w.High > w.Low:
		away(d.scaled(-1, float64(w.Value)/float64(w.Low)).near(found).Solve(t, air))
	}
	return math.Sqrt(sum), true
}

// scaled is the mixture with one of its contents, or with all of them (-1), times a factor.
func (d *dissolved) scaled(which int, by float64) *Mixture {
	other := dissolved{of: d.of, mix: d.mix.table.NewMixture(), terms: d.terms}
	for i, x := range d.terms {
		mol := float64(x.molal.Value)
		if which < 0 || i == which {
			mol *= by
		}
		other.add(x, mol)
	}
	return other.mix
}

// governs are the contents that bring the family whose charge changes most with the pH.
func (d *dissolved) governs(t float64, air Air, found Answer) []mix.Content {
	y := d.mix.near(found).at(t, air, extended)
	got, err := y.solve()
	if err != nil {
		return nil
	}
	h := power(-got.PH)
	// A weak acid that stands alone changes as much as the protons it has given away.
	most, at := 0.3*(h*y.hydrogen+y.hydroxyl/h), -1
	for n := range y.groups {
		if _, change := y.groups[n].spread(h); change > most {
			most, at = change, n
		}
	}
	if at < 0 {
		return nil
	}
	var fam *family
	for _, f := range d.mix.table.families {
		if d.mix.totals[f] == 0 {
			continue
		}
		if at == 0 {
			fam = f
			break
		}
		at--
	}
	var out []mix.Content
	for _, x := range d.terms {
		for _, i := range x.ions {
			if s := d.mix.table.species[i.ion]; s != nil && s.fam == fam {
				out = append(out, x.content)
				break
			}
		}
	}
	return out
}

// Differs reports that what somebody has measured and what was worked out lie further apart
// than both may be off.
func (a Acidity) Differs(measured lab.Said[unit.Factor]) bool {
	low, high := Bounds(measured)
	return a.Within != nil && measured.Given() && (low > a.High || high < a.Low)
}

// Bounds are those of a pH that somebody has written, with the doubt of paper and meters where
// it has none of its own.
func Bounds(written lab.Said[unit.Factor]) (low, high float64) {
	low, high = float64(written.Low()), float64(written.High())
	if !written.Spread() {
		low, high = low-MeterDoubt, high+MeterDoubt
	}
	return low, high
}
