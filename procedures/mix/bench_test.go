package mix

import (
	"math/big"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

func quantity[T unit.Kind](s string) lab.Said[T] { return lab.Say[T](s) }

// testBench has the devices of a usual small lab.
func testBench(t *testing.T) *Bench {
	t.Helper()
	day := lab.SaidDate{Date: unit.Date{Year: 2026, Month: 1, Day: 10}}
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
		{mass: "0.49", refused: "from 0.5 g on"},
		{mass: "5000", device: "kitchen", shown: "5000"},
		{mass: "5001", refused: "more than any scale here bears"},
	} {
		h := b.Weigh(mustRat(c.mass), unit.Quantity[unit.Percent]{})
		if c.refused != "" {
			require.Contains(t, h.Refused+"; "+h.Way, c.refused, c.mass)
			require.NotEmpty(t, h.Way)
			continue
		}
		require.Equal(t, c.device, h.Device, c.mass)
		total, _ := h.Take(mustRat(c.mass))
		require.Equal(t, c.shown, unit.ShortRat(total), c.mass)
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
		require.Equal(t, c.total, unit.ShortRat(total), c.ml)
		require.Equal(t, c.pour, unit.ShortRat(pour), c.ml)
		if c.full != "" {
			require.Equal(t, c.full, h.Full.String(), c.ml)
		} else {
			require.Zero(t, h.Full.Sign(), c.ml)
		}
	}
	h := b.Pour(mustRat("1.5"), "", unit.Quantity[unit.Percent]{}, unit.Nearest)
	require.Contains(t, h.Refused, "13 %")
}

// devicesOf has nothing but these cylinders and syringes, of each what it holds, what
// it is divided into and its tolerance, in ml, and what a syringe is kept for.
func devicesOf(t *testing.T, house lab.House, devices ...[4]string) *Bench {
	t.Helper()
	l := &lab.Lab{}
	l.Place.House = house
	l.Place.Cylinders, l.Place.Syringes = map[string]lab.Cylinder{}, map[string]lab.Syringe{}
	for _, d := range devices {
		holds, graduation, tolerance := quantity[unit.Volume](d[0]+" mL"), quantity[unit.Volume](d[1]+" mL"), quantity[unit.Volume](d[2]+" mL")
		switch d[3] {
		case "":
			l.Place.Cylinders["c"+d[0]+"-"+d[2]] = lab.Cylinder{Holds: holds, Graduation: graduation, Tolerance: tolerance}
		case "any":
			l.Place.Syringes["s"+d[0]] = lab.Syringe{Holds: holds, Graduation: graduation, Tolerance: tolerance}
		default:
			l.Place.Syringes["s"+d[0]] = lab.Syringe{Holds: holds, Graduation: graduation, Tolerance: tolerance, For: []string{d[3]}}
		}
	}
	soup := &lab.Solution{Def: lab.Def{ID: "soup"}, Per: quantity[unit.Volume]("1 L")}
	tea := &lab.Solution{Def: lab.Def{ID: "tea"}, Per: quantity[unit.Volume]("1 L")}
	l.Solutions = []*lab.Solution{soup, tea}
	l.Index()
	b, problems := NewBench(l)
	require.Empty(t, problems)
	return b
}

// TestPourChoices: which device is taken, at the edge of each rule; three per cent
// are allowed.
func TestPourChoices(t *testing.T) {
	small, hundred := [4]string{"10", "0.2", "0.2", ""}, [4]string{"100", "1", "1", ""}
	fine := [4]string{"100", "1", "0.5", ""}
	kept, spare := [4]string{"20", "1", "0.2", "soup.stock"}, [4]string{"5", "0.2", "0.1", "any"}
	for _, c := range []struct {
		name     string
		devices  [][4]string
		ml, bath string
		device   string
		pours    int
		refused  string
	}{
		{"a cylinder, exactly at what is allowed", [][4]string{small, hundred}, "100/3", "", "100 ml cylinder", 1, ""},
		{"a little less goes into none", [][4]string{hundred}, "33.3", "", "", 0, "± 1 ml in the 100 ml cylinder"},
		{"what is too small to hold it is not named", [][4]string{small, hundred}, "10.5", "", "", 0, "± 1 ml in the 100 ml cylinder"},
		{"exactly what it holds", [][4]string{small, hundred}, "10", "", "10 ml cylinder", 1, ""},
		{"of two of one size the more exact", [][4]string{hundred, fine}, "40", "", "100 ml cylinder, c100 0.5", 1, ""},
		{"the syringe of this bath goes before a cylinder", [][4]string{small, hundred, kept}, "10", "soup.stock", "20 ml syringe", 1, ""},
		{"but not where it is too small for one pour", [][4]string{hundred, {"5", "0.2", "0.1", "soup.stock"}}, "40", "soup.stock", "100 ml cylinder", 1, ""},
		{"nor where it is not exact enough", [][4]string{{"10", "0.1", "0.1", ""}, {"5", "0.2", "0.2", "soup.stock"}}, "4", "soup.stock", "10 ml cylinder", 1, ""},
		{"it is filled twice where no cylinder measures it", [][4]string{small, kept}, "40", "soup.stock", "20 ml syringe", 2, ""},
		{"a syringe of another bath is not taken", [][4]string{small, hundred, kept}, "10", "tea.stock", "10 ml cylinder", 1, ""},
		{"nor where nothing else measures it", [][4]string{hundred, kept}, "10", "tea.stock", "", 0, "± 1 ml in the 100 ml cylinder"},
		{"a full cylinder and the rest in a syringe, which go before two fillings of it", [][4]string{small, hundred, kept}, "20.5", "soup.stock", "20 ml syringe", 1, ""},
		{"but not in another bath’s", [][4]string{{"25", "0.5", "0.5", ""}, kept}, "30", "tea.stock", "", 0, "more pours than a hand can count"},
		{"a syringe for any bath where no cylinder measures it", [][4]string{small, hundred, spare}, "4", "tea.stock", "5 ml syringe", 1, ""},
		{"a cylinder before the syringe for any", [][4]string{{"10", "0.1", "0.1", ""}, spare}, "4", "tea.stock", "10 ml cylinder", 1, ""},
		{"of a refusal the more exact syringe is named", [][4]string{hundred, spare}, "1", "tea.stock", "", 0, "± 0.1 ml in the 5 ml syringe"},
		{"but not another bath’s", [][4]string{hundred, kept}, "1", "tea.stock", "", 0, "± 1 ml in the 100 ml cylinder"},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := devicesOf(t, lab.House{MeasureWithin: quantity[unit.Percent]("3 %")}, c.devices...).Pour(mustRat(c.ml), c.bath, unit.Quantity[unit.Percent]{}, unit.Nearest)
			if c.refused != "" {
				require.Contains(t, h.Refused, c.refused)
				return
			}
			require.Equal(t, c.device, h.Device)
			require.Equal(t, c.pours, h.Pours)
		})
	}
}

// TestSigDown: an error that is allowed is told with two digits, and never too large.
func TestSigDown(t *testing.T) {
	for in, want := range map[string]string{"12.9": "12", "9.99": "9.9", "0.999": "0.99", "0.0999": "0.099", "0.00999": "0.009", "0.0004": "0"} {
		require.Equal(t, want, sigDown(mustRat(in)), in)
	}
}

// TestLaxHouse: what a house allows beyond the program's own limit takes no worse
// device where a good one stands, and helps where none does; a stricter house and a
// step of its own count.
func TestLaxHouse(t *testing.T) {
	var none unit.Quantity[unit.Percent]
	rough, exact := [4]string{"100", "5", "4", ""}, [4]string{"250", "2", "2", ""}
	lax := devicesOf(t, lab.House{MeasureWithin: quantity[unit.Percent]("10 %")}, rough, exact)
	require.Equal(t, "250 ml cylinder", lax.Pour(mustRat("90"), "", none, unit.Nearest).Device)
	require.Equal(t, "100 ml cylinder", lax.Pour(mustRat("45"), "", none, unit.Nearest).Device)
	strict := devicesOf(t, lab.House{MeasureWithin: quantity[unit.Percent]("1 %")}, rough, exact)
	require.NotEmpty(t, strict.Pour(mustRat("90"), "", none, unit.Nearest).Refused)
	require.Empty(t, strict.Pour(mustRat("90"), "", quantity[unit.Percent]("3 %").Quantity, unit.Nearest).Refused)
	require.NotEmpty(t, lax.Pour(mustRat("90"), "", quantity[unit.Percent]("1 %").Quantity, unit.Nearest).Refused)
}

// TestNothingDeclared: a lab without a scale or a cylinder is told how closely to
// measure.
func TestNothingDeclared(t *testing.T) {
	var none unit.Quantity[unit.Percent]
	b := devicesOf(t, lab.House{MeasureWithin: quantity[unit.Percent]("3 %"), WeighWithin: quantity[unit.Percent]("2 %")})
	for _, c := range []struct{ ml, device string }{
		{"667", "any cylinder divided into 20 ml (none declared)"},
		{"200/3", "any cylinder divided into 2 ml (none declared)"},
		{"66", "any cylinder divided into 1 ml (none declared)"},
		{"3", ""},
	} {
		h := b.Pour(mustRat(c.ml), "", none, unit.Nearest)
		require.Equal(t, c.device, h.Device, c.ml)
		require.Equal(t, c.device == "", h.Refused != "", c.ml)
	}
	for _, c := range []struct{ g, device string }{
		{"100", "any scale reading 1 g (none declared)"},
		{"99.9", "any scale reading 0.1 g (none declared)"},
		{"0.1", "any scale reading 0.001 g (none declared)"},
		{"0.09", ""},
	} {
		h := b.Weigh(mustRat(c.g), none)
		require.Equal(t, c.device, h.Device, c.g)
		require.Equal(t, c.device == "", h.Refused != "", c.g)
	}
}

// TestLadderIsTheBench: reading a ladder is choosing afresh, for every volume: over a wide
// range, and densely where amounts are small. A bench has the glass of a usual lab, one
// syringe and one lax cylinder, or nothing.
func TestLadderIsTheBench(t *testing.T) {
	var none unit.Quantity[unit.Percent]
	lax := lab.House{MeasureWithin: quantity[unit.Percent]("8 %"), WeighWithin: quantity[unit.Percent]("5 %")}
	odd := devicesOf(t, lax, [4]string{"7", "0.2", "0.3", ""}, [4]string{"5", "0.2", "0.17", "any"})
	odd.scales = []scale{{name: "fine", reads: mustRat("0.01"), errorOf: mustRat("0.02"), upTo: mustRat("7.3"), step: decimalOf(mustRat("0.01"))}, {name: "coarse", reads: mustRat("0.1"), errorOf: mustRat("0.1"), upTo: mustRat("60"), step: decimalOf(mustRat("0.1"))}}
	usual, nothing := testBench(t), devicesOf(t, lax)
	for _, c := range []struct {
		b           *Bench
		share       string
		every, most int64
	}{
		{usual, "1/20", 53, 60000}, {usual, "1/110", 53, 60000}, {usual, "1/400", 53, 60000},
		{odd, "1/13", 1, 1500}, {nothing, "1/13", 7, 30000}, {nothing, "1/130", 1, 1500},
	} {
		perTenth := mustRat(c.share)
		ladder := c.b.PourLadder(perTenth, "", none, unit.Nearest)
		masses := c.b.MassLadder(perTenth, none, "", nil, nil)
		for tenths := int64(1); tenths <= c.most; tenths += c.every {
			exact := new(big.Rat).Mul(perTenth, new(big.Rat).SetInt64(tenths))
			check := func(l figure.Ladder, want figure.Hand) {
				got, why := l.Read(tenths)
				if want.Refused != "" || why != "" {
					require.Equal(t, want.Refused != "", why != "", "%s of %d: %s", c.share, tenths, why)
					return
				}
				total, _ := want.Take(exact)
				if total.Cmp(got.Total) != 0 || want.Device != got.Hand.Device {
					require.Fail(t, "", "%s of %d: %s on %s, not %s on %s", c.share, tenths, unit.ShortRat(got.Total), got.Hand.Device, unit.ShortRat(total), want.Device)
				}
			}
			check(ladder, c.b.Pour(exact, "", none, unit.Nearest))
			check(masses, c.b.Weigh(exact, none))
		}
	}
	_, why := usual.PourLadder(mustRat("1/20"), "", none, unit.Nearest).Read(200001)
	require.Contains(t, why, "by hand")
}
