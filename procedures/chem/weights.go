package chem

// weight is one row of the table of atomic weights, both numbers in g/mol.
type weight struct {
	symbol      string
	value       MolarMass
	uncertainty MolarMass
}

// weights holds the abridged standard atomic weights of the elements that
// occur in darkroom chemicals, in the order of their atomic numbers.
//
// Source: IUPAC/CIAAW, Standard atomic weights of the elements 2021, Pure Appl.
// Chem. 94 (2022) 573-600, doi 10.1515/pac-2019-0603. An element whose weight
// the commission gives as an interval has its abridged single value; the others
// have the full value rounded to five figures. The uncertainty is the abridged
// table's plus-minus; for the rounded elements it is from memory.
var weights = [...]weight{
	{"H", 1.0080, 0.0002},
	{"B", 10.81, 0.02},
	{"C", 12.011, 0.002},
	{"N", 14.007, 0.001},
	{"O", 15.999, 0.001},
	{"F", 18.998, 0.001},
	{"Na", 22.990, 0.001},
	{"Mg", 24.305, 0.002},
	{"Al", 26.982, 0.001},
	{"Si", 28.085, 0.001},
	{"P", 30.974, 0.001},
	{"S", 32.06, 0.02},
	{"Cl", 35.45, 0.01},
	{"K", 39.098, 0.001},
	{"Ca", 40.078, 0.004},
	{"Cr", 51.996, 0.001},
	{"Mn", 54.938, 0.001},
	{"Fe", 55.845, 0.002},
	{"Co", 58.933, 0.001},
	{"Ni", 58.693, 0.001},
	{"Cu", 63.546, 0.003},
	{"Zn", 65.38, 0.02},
	{"Se", 78.971, 0.008},
	{"Br", 79.904, 0.003},
	{"Pd", 106.42, 0.01},
	{"Ag", 107.87, 0.01},
	{"Sn", 118.71, 0.01},
	{"I", 126.90, 0.01},
	{"Ba", 137.33, 0.01},
	{"Pt", 195.08, 0.02},
	{"Au", 196.97, 0.01},
	{"Hg", 200.59, 0.01},
	{"Pb", 207.2, 1.1},
}

// others are the symbols of the elements that the table leaves out.
const others = " He Li Be Ne Ar Sc Ti V Ga Ge As Kr Rb Sr Y Zr Nb Mo Tc Ru Rh Cd In Sb Te Xe Cs La Ce Pr Nd Pm Sm Eu Gd Tb Dy Ho Er Tm Yb Lu Hf Ta W Re Os Ir Tl Bi Po At Rn Fr Ra Ac Th Pa U Np Pu Am Cm Bk Cf Es Fm Md No Lr Rf Db Sg Bh Hs Mt Ds Rg Cn Nh Fl Mc Lv Ts Og "

var weightOf = func() map[string]MolarMass {
	m := make(map[string]MolarMass, len(weights))
	for _, w := range weights {
		m[w.symbol] = w.value
	}
	return m
}()

func known(symbol string) bool {
	_, ok := weightOf[symbol]
	return ok
}
