package ph

import "math"

// freezing is 0 °C in kelvin.
const freezing = 273.15

// debyeHückel are the two constants of the equation of Debye and Hückel in water at t °C:
// a in (kg/mol)^½, b in (kg/mol)^½ for each nm. Source: A = 1.82483e6·√ρ/(εT)^1.5 and
// B = 502.916·√ρ/√(εT) for each nm, the usual forms (memory); ρ of water by G. S. Kell,
// J. Chem. Eng. Data 20 (1975) 97 (memory), and ε by C. G. Malmberg and A. A. Maryott,
// J. Res. Nat. Bur. Stand. 56 (1956) 1 (memory). From 0 to 60 °C.
func debyeHückel(t float64) (a, b float64) {
	eps := 87.740 + t*(-0.40008+t*(9.398e-4-1.410e-6*t))
	rho := (999.83952 + t*(16.945176+t*(-7.9870401e-3+t*(-46.170461e-6+t*(105.56302e-9-280.54253e-12*t))))) /
		(1 + 16.879850e-3*t) / 1000
	et := eps * (t + freezing)
	return 1.82483e6 * math.Sqrt(rho) / (et * math.Sqrt(et)), 502.916 * math.Sqrt(rho) / math.Sqrt(et)
}

// daviesUpTo is the ionic strength up to which the equation of Davies is used as it is; above
// it its last term stays, as it would make ions more active than they are (our own rule).
const daviesUpTo = 0.5 // mol/kg

// model is how activities are reckoned: the usual way, or another one that shows how far
// two good ways are apart.
type model uint8

const (
	extended model = iota
	davies
)

// shape is what the activity of a species depends on.
type shape struct {
	z      float64 // its charge
	size   float64 // nm; 0 where nobody has written one
	linear float64 // kg/mol
}

// logGamma is log10 of the activity coefficient at the ionic strength i (mol/kg), with the
// constants a and b. Sources: with a size, extended Debye-Hückel with a linear term, as A. H.
// Truesdell and B. F. Jones, J. Res. U.S. Geol. Survey 2 (1974) 233 (memory); without one,
// C. W. Davies, Ion Association (1962), with 0.3 (memory); of what has no charge 0.1·i, as
// PHREEQC has it.
func (s shape) logGamma(m model, i, root, a, b float64) float64 {
	switch {
	case s.z == 0:
		return 0.1 * i
	case s.size > 0 && m == extended:
		return -a*s.z*s.z*root/(1+b*s.size*root) + s.linear*i
	}
	term := i
	if m == extended {
		term = min(i, daviesUpTo)
	}
	return -a * s.z * s.z * (root/(1+root) - 0.3*term)
}
