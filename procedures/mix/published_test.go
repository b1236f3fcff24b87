package mix

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
	"wetside/testdata/published"
)

// benchOf has the scales and cylinders that are named, by what they read or hold
// and, for a cylinder, its tolerance; without one, the table's.
func benchOf(t *testing.T, house lab.House, scales []string, cylinders map[string]string) *Bench {
	t.Helper()
	l := &lab.Lab{}
	l.Place.House = house
	l.Place.Scales, l.Place.Cylinders = map[string]lab.Scale{}, map[string]lab.Cylinder{}
	for _, reads := range scales {
		l.Place.Scales["reading-"+strings.ReplaceAll(reads, " ", "-")] = lab.Scale{Reads: quantity[unit.Mass](reads), Checked: lab.SaidDate{Date: unit.Date{Year: 2026, Month: 1, Day: 10}}}
	}
	for holds, tolerance := range cylinders {
		c := lab.Cylinder{Holds: quantity[unit.Volume](holds)}
		if tolerance != "" {
			c.Tolerance = quantity[unit.Volume](tolerance)
		}
		l.Place.Cylinders[strings.ReplaceAll(holds, " ", "-")] = c
	}
	l.Index()
	b, problems := NewBench(l)
	require.Empty(t, problems)
	return b
}

// TestGlasswareIsPublished holds the tolerances of the table, the smallest mass of
// a scale and the doubt of several pours against published values.
func TestGlasswareIsPublished(t *testing.T) {
	f := published.Open(t, "glassware.tsv")
	none := unit.Quantity[unit.Percent]{}

	// The table and the rows of ISO 4788 are both from memory and cannot vouch for
	// each other. What was opened bounds the table: it is nowhere tighter than a
	// class B of any table, and at four sizes an opened row is the loosest too.
	loosest, opened := map[string]float64{}, map[string]float64{}
	for _, id := range f.IDs() {
		if part := strings.Split(id, "_"); part[0] == "cyl" {
			r := f.Row(id)
			loosest[part[2]] = max(loosest[part[2]], r.Want)
			if r.Provenance == "opened" {
				opened[part[2]] = max(opened[part[2]], r.Want)
			}
		}
	}
	agree := 0
	for size, most := range loosest {
		h := benchOf(t, lab.House{}, nil, map[string]string{size + " mL": ""}).Pour(mustRat(size), "", none, unit.Nearest)
		require.Empty(t, h.Refused, size)
		require.Equal(t, most, h.Tolerance.Float(), "%s ml", size)
		if opened[size] == most {
			agree++
		}
	}
	require.Len(t, loosest, len(glassware))
	require.Equal(t, 4, agree, "5, 10, 100 and 250 ml")

	// A scale weighs from a hundred of its divisions where 1 % is allowed: never
	// less than what its reading alone makes sure of.
	for row, reads := range map[string]string{"bal_rule": "0.1 g", "bal_rule01": "0.01 g"} {
		b := benchOf(t, lab.House{WeighWithin: quantity[unit.Percent]("1 %")}, []string{reads}, nil)
		least := 100 * float64(quantity[unit.Mass](reads).Value())
		require.Empty(t, b.Weigh(mustRat(strconv.FormatFloat(least, 'f', -1, 64)), none).Refused, row)
		require.NotEmpty(t, b.Weigh(mustRat(strconv.FormatFloat(least*0.999, 'f', -1, 64)), none).Refused, row)
		require.Greater(t, least, f.Row(row).Want)
	}

	// A limit taken as rectangular, divided by the root of three, is a standard
	// uncertainty (JCGM 100:2008, 4.3.7); independent ones add by the root of their
	// squares (5.1.2; both numbers of clauses from memory). A hand's Root is the
	// limit itself, so it is divided here.
	root := func(b *Bench, ml string) float64 {
		h := b.Pour(mustRat(ml), "", none, unit.Nearest)
		require.Empty(t, h.Refused, ml)
		return h.Root
	}
	f.Holds("unc_vol", root(benchOf(t, lab.House{}, nil, map[string]string{"100 mL": ""}), "100")/math.Sqrt(3))
	half := benchOf(t, lab.House{}, nil, map[string]string{"10 mL": "0.05 mL"}) // half a division of 0.1
	f.Holds("bal_one", root(half, "8")/math.Sqrt(3))
	f.Holds("bal_net", root(half, "15")/math.Sqrt(3)) // read twice
	// 31.3 ml as 25 and 6.3: the root of 0.5² + 0.2², and for what is allowed the
	// sum, worked example M2.
	h := testBench(t).Pour(mustRat("31.3"), "", none, unit.Nearest)
	require.InDelta(t, 0.5385, h.Root, 0.00005)
	require.Equal(t, 0.7, h.Tolerance.Float())
	require.Equal(t, 0.4, testBench(t).Pour(mustRat("15"), "", none, unit.Nearest).Tolerance.Float())
}

// TestMeasuredAtTheLimit: exactly the error that the house allows is still allowed.
// 0.5 ml in 16 2/3 ml and 0.2 ml in 6 2/3 ml are 3 %, worked example M2.
func TestMeasuredAtTheLimit(t *testing.T) {
	none := unit.Quantity[unit.Percent]{}
	for _, c := range []struct{ ml, device string }{{"50/3", "25 ml cylinder"}, {"20/3", "10 ml cylinder"}} {
		h := testBench(t).Pour(mustRat(c.ml), "", none, unit.Nearest)
		require.Empty(t, h.Refused, c.ml)
		require.Equal(t, c.device, h.Device, c.ml)
		require.Equal(t, 1, h.Pours, c.ml)
	}
	require.NotEmpty(t, testBench(t).Pour(mustRat("6.66"), "", none, unit.Nearest).Refused)
}

// TestWaterIsPublished: water counts as 1.00 g/ml in a dilution and where nobody
// has written a density, which is what published densities round to at every
// temperature of a darkroom's water.
func TestWaterIsPublished(t *testing.T) {
	f := published.Open(t, "water.tsv")
	var made Made
	made.setDensity(lab.Said[unit.Density]{})
	for _, id := range f.IDs() {
		r := f.Row(id)
		require.Equal(t, "kg/m3", r.Unit, id)
		want := unit.Density(unit.Round(r.Want/1000, 0.01, unit.Nearest))
		require.Equal(t, want, dilutedDensity.Go(1.3, 0, 1), id)
		require.Equal(t, want, made.Density.Value, id)
	}
}
