package mix

import (
	"math/big"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

func quantity[T unit.Kind](s string) unit.Quantity[T] { return unit.MustParse[T](s) }

// testBench has the devices of a usual small lab.
func testBench(t *testing.T) *Bench {
	t.Helper()
	day := unit.Date{Year: 2026, Month: 1, Day: 10}
	l := &lab.Lab{}
	l.Place.Scales = map[string]lab.Scale{
		"fine":    {Reads: quantity[unit.Mass]("0.01 g"), UpTo: quantity[unit.Mass]("200 g"), Checked: day},
		"bench":   {Reads: quantity[unit.Mass]("0.1 g"), UpTo: quantity[unit.Mass]("2000 g"), Checked: day},
		"kitchen": {Reads: quantity[unit.Mass]("1 g"), UpTo: quantity[unit.Mass]("5000 g")},
	}
	l.Place.Cylinders = map[string]lab.Cylinder{}
	for _, holds := range []string{"10 mL", "25 mL", "100 mL", "250 mL", "500 mL", "1000 mL", "2000 mL"} {
		l.Place.Cylinders[strings.ReplaceAll(holds, " ", "-")] = lab.Cylinder{Holds: quantity[unit.Volume](holds)}
	}
	l.Index()
	b, problems := NewBench(l)
	require.Empty(t, problems)
	return b
}

func TestWeigh(t *testing.T) {
	b := testBench(t)
	for _, c := range []struct{ mass, device, shown, refused string }{
		{mass: "1", device: "fine", shown: "1"},
		{mass: "9.99", device: "fine", shown: "9.99"},
		{mass: "10", device: "bench", shown: "10"},
		{mass: "237.5", device: "kitchen", shown: "238"},
		{mass: "199", device: "bench", shown: "199"},
		{mass: "0.5", device: "fine", shown: "0.5"},
		{mass: "0.2", refused: "too little for the scale"},
		{mass: "6000", refused: "more than any scale here bears"},
	} {
		h := b.Weigh(mustRat(c.mass), unit.Quantity[unit.Percent]{})
		if c.refused != "" {
			require.Contains(t, h.Refused, c.refused, c.mass)
			require.NotEmpty(t, h.Way)
			continue
		}
		require.Equal(t, c.device, h.Device, c.mass)
		total, _ := h.Take(mustRat(c.mass))
		require.Equal(t, c.shown, trim(total), c.mass)
	}
}

// TestPour: the splits a careful hand makes. The windows of one pour (10 to
// 16.7 ml and 25 to 33.3 ml are out of reach at 3 %) are worked example M2.
func TestPour(t *testing.T) {
	b := testBench(t)
	for _, c := range []struct {
		ml, device, full, total, pour string
		pours                         int
	}{
		{ml: "15", device: "10 ml cylinder", total: "15", pour: "7.5", pours: 2},
		{ml: "30", device: "10 ml cylinder", full: "25", total: "30", pour: "5", pours: 1},
		{ml: "31.328", device: "10 ml cylinder", full: "25", total: "31.3", pour: "6.3", pours: 1},
		{ml: "16.7", device: "25 ml cylinder", total: "16.75", pour: "16.75", pours: 1},
		{ml: "34", device: "100 ml cylinder", total: "34", pour: "34", pours: 1},
		{ml: "120", device: "250 ml cylinder", total: "120", pour: "120", pours: 1},
		{ml: "750", device: "1000 ml cylinder", total: "750", pour: "750", pours: 1},
		{ml: "3000", device: "2000 ml cylinder", total: "3000", pour: "1500", pours: 2},
	} {
		h := b.Pour(mustRat(c.ml), "", unit.Quantity[unit.Percent]{}, unit.Nearest)
		require.Empty(t, h.Refused, c.ml)
		total, pour := h.Take(mustRat(c.ml))
		require.Equal(t, c.device, h.Device, c.ml)
		require.Equal(t, c.pours, h.Pours, c.ml)
		require.Equal(t, c.total, trim(total), c.ml)
		require.Equal(t, c.pour, trim(pour), c.ml)
		if c.full != "" {
			require.Equal(t, c.full, h.Full.String(), c.ml)
		} else {
			require.Zero(t, h.Full.Sign(), c.ml)
		}
	}
	h := b.Pour(mustRat("1.5"), "", unit.Quantity[unit.Percent]{}, unit.Nearest)
	require.Contains(t, h.Refused, "13 %")
}

// TestLadderIsTheBench: reading a ladder is choosing afresh, for every volume.
func TestLadderIsTheBench(t *testing.T) {
	b := testBench(t)
	var none unit.Quantity[unit.Percent]
	for _, share := range []string{"1/20", "1/50", "1/110", "1/23", "1/400"} {
		perTenth := mustRat(share)
		ladder := b.PourLadder(perTenth, "", none, unit.Nearest)
		masses := b.MassLadder(perTenth, none, "", nil, nil)
		require.Less(t, len(ladder.Rungs), 60)
		for tenths := int64(1); tenths <= 60000; tenths += 7 {
			exact := new(big.Rat).Mul(perTenth, new(big.Rat).SetInt64(tenths))
			check := func(l figure.Ladder, want figure.Hand) {
				got, why := l.Read(tenths)
				if want.Refused != "" {
					require.NotEmpty(t, why, "%s of %d", share, tenths)
					return
				}
				require.Empty(t, why, "%s of %d", share, tenths)
				total, _ := want.Take(exact)
				require.Zero(t, total.Cmp(got.Total), "%s of %d: %s on %s, not %s on %s", share, tenths, trim(got.Total), got.Hand.Device, trim(total), want.Device)
			}
			check(ladder, b.Pour(exact, "", none, unit.Nearest))
			check(masses, b.Weigh(exact, none))
		}
	}
	_, why := b.PourLadder(mustRat("1/20"), "", none, unit.Nearest).Read(200001)
	require.Contains(t, why, "by hand")
}

// TestGlassware holds the table of cylinders against the published file, whose
// rows are themselves from memory of the standard.
func TestGlassware(t *testing.T) {
	raw, err := os.ReadFile("../../testdata/published/glassware.tsv")
	require.NoError(t, err)
	seen := 0
	for _, line := range strings.Split(string(raw), "\n") {
		cols := strings.Split(line, "\t")
		size, ok := strings.CutPrefix(cols[0], "cyl_iso_")
		size, isB := strings.CutSuffix(size, "_B")
		if !ok || !isB {
			continue
		}
		table, known := glassware[size]
		if !known {
			continue
		}
		want, err := strconv.ParseFloat(cols[3], 64)
		require.NoError(t, err)
		got, err := strconv.ParseFloat(table[1], 64)
		require.NoError(t, err)
		require.Equal(t, want, got, "%s ml", size)
		seen++
	}
	require.Equal(t, len(glassware), seen)
}
