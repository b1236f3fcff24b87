package procedures_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/content"
	"wetside/procedures/chem"
	"wetside/procedures/lab"
	"wetside/procedures/ph"
	"wetside/testdata/binders"
)

// byHalving solves the same equations as package ph in another way: three searches inside
// each other by halving alone, over the ionic strength, the pH, and the free part of each
// family, with the constants put together here from the book.
type byHalving struct {
	book *lab.SpeciesBook
	t    float64
	a, b float64
}

// kin is a member of a family: how much of the last member and how many protons it takes,
// and log10 of what that is worth.
type kin struct {
	name  string
	units int
	takes int
	logK  float64
	with  string // of a pair: the ion that it pairs with
}

var charges = map[string]int{}

func charge(t testing.TB, name string) int {
	if z, ok := charges[name]; ok {
		return z
	}
	ion, err := chem.ParseIon(name)
	require.NoError(t, err)
	charges[name] = ion.Charge()
	return charges[name]
}

// trace follows a species down to the last member of its family.
func (x byHalving) trace(t testing.TB, name string) (last string, k kin) {
	s := x.book.Ions[name]
	k = kin{name: name, units: 1}
	switch {
	case s.With != "":
		for part := range s.Of {
			below, of := x.trace(t, part)
			return below, kin{name, of.units, of.takes, of.logK - s.At(x.t), s.With}
		}
	case s.Gives != "":
		below, of := x.trace(t, s.Gives)
		return below, kin{name, of.units, of.takes + 1, of.logK + s.At(x.t), ""}
	case len(s.Of) > 0:
		for part, n := range s.Of {
			below, of := x.trace(t, part)
			lost := int(n)*charge(t, part) - charge(t, name)
			return below, kin{name, of.units * int(n), of.takes*int(n) - lost, of.logK*float64(n) - s.At(x.t), ""}
		}
	}
	return name, k
}

func (x byHalving) gamma(t testing.TB, name string, i float64) float64 {
	s := x.book.Ions[name]
	z, root := float64(charge(t, name)), math.Sqrt(i)
	switch {
	case z == 0:
		return math.Pow(10, 0.1*i)
	case s.Size.Given():
		linear := 0.0
		if s.Linear.Given() {
			linear = float64(s.Linear.Value())
		}
		return math.Pow(10, -x.a*z*z*root/(1+x.b*float64(s.Size.Value())*1e6*root)+linear*i)
	}
	return math.Pow(10, -x.a*z*z*(root/(1+root)-0.3*min(i, 0.5)))
}

// pairs reports that something in a mixture pairs with sodium.
func pairs(families map[string][]kin) bool {
	for _, list := range families {
		for _, k := range list {
			if k.with == "Na+" {
				return true
			}
		}
	}
	return false
}

// halve finds where a rising function passes nought.
func halve(low, high float64, f func(float64) float64) float64 {
	for range 38 {
		if mid := (low + high) / 2; f(mid) > 0 {
			high = mid
		} else {
			low = mid
		}
	}
	return (low + high) / 2
}

// solve is the pH of so many mol of the last members, and of ions that exchange nothing.
func (x byHalving) solve(t testing.TB, families map[string][]kin, total, others map[string]float64) float64 {
	// The constants of Debye and Hückel, once more.
	eps := 87.740 - 0.40008*x.t + 9.398e-4*x.t*x.t - 1.410e-6*x.t*x.t*x.t
	rho := 0.9970479 // at 25 °C
	x.a = 1.82483e6 * math.Sqrt(rho) / math.Pow(eps*(x.t+273.15), 1.5)
	x.b = 502.916 * math.Sqrt(rho) / math.Sqrt(eps*(x.t+273.15))
	sum := 0.0
	for _, m := range total {
		sum += m
	}
	for _, m := range others {
		sum += m
	}
	var ph float64
	halve(0, 3, func(i float64) float64 {
		var ionic float64
		gamma := map[string]float64{"H+": x.gamma(t, "H+", i), "OH-": x.gamma(t, "OH-", i)}
		for _, list := range families {
			for _, k := range list {
				gamma[k.name] = x.gamma(t, k.name, i)
			}
		}
		gamma["Na+"] = x.gamma(t, "Na+", i)
		free := others["Na+"]
		shares := func(ph float64) (net, strength, held float64) {
			h := math.Pow(10, -ph)
			put := func(z, m float64) { net, strength = net+z*m, strength+z*z*m/2 }
			put(1, h/gamma["H+"])
			put(-1, math.Pow(10, -x.book.Ions["OH-"].At(x.t))*(1-0.017*sum)/h/gamma["OH-"])
			for name, m := range others {
				if name == "Na+" {
					m = free
				}
				put(float64(charge(t, name)), m)
			}
			for last, list := range families {
				sum := func(logFree float64, each func(k kin, m float64)) float64 {
					out := 0.0
					for _, k := range list {
						if k.with != "" && (k.with != "Na+" || free == 0) {
							continue
						}
						m := math.Pow(10, k.logK-float64(k.takes)*ph+float64(k.units)*logFree) / gamma[k.name]
						if k.with != "" {
							m *= free * gamma["Na+"]
						}
						out += float64(k.units) * m
						if each != nil {
							each(k, m)
						}
					}
					return out
				}
				left := halve(-60, 2, func(l float64) float64 { return sum(l, nil) - total[last] })
				sum(left, func(k kin, m float64) {
					put(float64(charge(t, k.name)), m)
					if k.with != "" {
						held += m
					}
				})
			}
			return net, strength, held
		}
		acid := func() { ph = halve(-2, 16, func(p float64) float64 { n, _, _ := shares(p); return -n }) }
		if pairs(families) && free > 0 {
			free = halve(0, others["Na+"], func(f float64) float64 {
				free = f
				acid()
				_, _, held := shares(ph)
				return f + held - others["Na+"]
			})
		}
		acid()
		_, ionic, _ = shares(ph)
		return i - ionic
	})
	return ph
}

// sameByHalving makes mixtures of anything in the book and solves each in both ways.
func sameByHalving(t *testing.T) {
	got := binders.Loaded(t, binders.Of("-- lab.toml --\n[lab]\nname = \"a test\"\n"), content.FS)
	book := got.Lab.Species[0]
	table := ph.Read(got.Lab.Species)
	random := rand.New(rand.NewPCG(3, 5))
	var names []string
	for name := range book.Ions {
		// Potassium would want one more search for its own pairs.
		if name != "H+" && name != "OH-" && name != "K+" && book.Ions[name].With != "K+" {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	polymers, paired := 0, 0
	for n := range 24 {
		x := byHalving{book: book, t: 25}
		families := map[string][]kin{}
		for _, name := range names {
			last, k := x.trace(t, name)
			families[last] = append(families[last], k)
		}
		total, others, used := map[string]float64{}, map[string]float64{}, map[string][]kin{}
		mixture := table.NewMixture()
		net := 0.0
		add := func(name string, m float64) {
			ion, err := chem.ParseIon(name)
			require.NoError(t, err)
			require.True(t, mixture.Add(ion, m))
			net += float64(ion.Charge()) * m
			if with := book.Ions[name].With; with != "" {
				others[with] += m
			}
			last, k := x.trace(t, name)
			if len(families[last]) == 1 {
				others[name] += m
				return
			}
			total[last] += m * float64(k.units)
			used[last] = families[last]
		}
		for range 1 + random.IntN(4) {
			add(names[random.IntN(len(names))], 0.001*math.Pow(100, random.Float64()))
		}
		if n%4 == 0 {
			add("B(OH)3", 0.2)
			polymers++
		}
		if n%12 == 5 {
			add("HSO4-", 0.3)
			add("SO4-2", 0.1)
			paired++
		}
		// Sodium or chloride make up for most of the charge, the rest is acid or alkali.
		if net < 0 {
			add("Na+", -net*(0.8+0.3*random.Float64()))
		} else if net > 0 {
			add("Cl-", net*(0.8+0.3*random.Float64()))
		}
		answer, err := mixture.Solve(25, ph.Closed)
		require.NoError(t, err)
		require.InDelta(t, 0, answer.Charge, 1e-8)
		require.InDelta(t, x.solve(t, used, total, others), answer.PH, 1e-6, "%v %v", total, others)
	}
	require.Equal(t, 6, polymers)
	require.Equal(t, 2, paired)
}
