package procedures_test

import (
	"math/big"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// methodChecks hold the results of each method to its check, found in another way.
var methodChecks = map[string]func(*testing.T){
	"measure.pours": fewestPours,
	"ph":            sameByHalving,
	"air.bottles":   emptiedBottles,
	"ph.titre":      addedUntilRight,
}

// TestMethods: every method says what it solves, what its results are held to and where it
// comes from, and its check is made here.
func TestMethods(t *testing.T) {
	seen := map[string]bool{}
	for _, m := range figure.Methods() {
		require.NotEmpty(t, m.Equations, m.ID)
		require.NotEmpty(t, m.Check, m.ID)
		require.NotEmpty(t, m.Source, m.ID)
		require.NotZero(t, m.Origin, m.ID)
		check := methodChecks[m.ID]
		require.NotNil(t, check, "nothing holds the results of %s to its check", m.ID)
		t.Run(m.ID, check)
		seen[m.ID] = true
	}
	require.Len(t, seen, len(methodChecks))
}

// fewestPours tries, for many shelves of glass and many volumes, every way in whole
// hundredths of a millilitre: so many equal pours of one cylinder, and a full one with the
// rest in another.
func fewestPours(t *testing.T) {
	type glass struct{ holds, tol int }
	random := rand.New(rand.NewPCG(1, 2))
	refused, several, full := 0, 0, 0
	for range 15000 {
		l := &lab.Lab{}
		l.Place.Cylinders = map[string]lab.Cylinder{}
		l.Place.House = lab.House{MeasureWithin: lab.Say[unit.Percent]("4 %")}
		var shelf []glass
		for i := range 1 + random.IntN(3) {
			holds := 5 + random.IntN(200)
			c := glass{holds: 100 * holds, tol: 2 * (1 + random.IntN(1+holds))}
			shelf = append(shelf, c)
			said := func(n int) lab.Said[unit.Volume] {
				return lab.Say[unit.Volume](strconv.FormatFloat(float64(n)/100, 'f', -1, 64) + " mL")
			}
			l.Place.Cylinders["c"+strconv.Itoa(i)] = lab.Cylinder{Holds: said(c.holds), Tolerance: said(c.tol), Graduation: said(c.tol)}
		}
		bench, problems := mix.NewBench(l)
		require.Empty(t, problems)
		v := 100 * (1 + random.IntN(300))
		h := bench.Pour(big.NewRat(int64(v), 100), "", unit.Quantity[unit.Percent]{}, unit.Nearest)

		// The program's own narrower limit is tried first, and is enough where it holds.
		best := 0
		for _, allowed := range []int{3, 4} {
			for n := 1; n <= 12 && best == 0; n++ {
				for _, c := range shelf {
					if v <= n*c.holds && 100*n*c.tol <= allowed*v {
						best = n
					}
					for _, rest := range shelf {
						if n == 2 && v > c.holds && v-c.holds <= rest.holds && 100*(c.tol+rest.tol) <= allowed*v {
							best = n
						}
					}
				}
			}
		}
		if h.Refused != "" {
			require.Zero(t, best, "%v, %d: refused, and it can be poured", shelf, v)
			refused++
			continue
		}
		pours := h.Pours
		if h.FullDevice != "" {
			pours++
			full++
		}
		if pours > 1 {
			several++
		}
		require.Equal(t, best, pours, "%v, %d", shelf, v)
	}
	require.Greater(t, min(refused, several, full), 50, "too few of each case to say anything")
}
