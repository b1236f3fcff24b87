package mix

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// labWith has the solutions that syringes are kept for, a chemical, and these devices.
func labWith(place lab.Place) *lab.Lab {
	l := &lab.Lab{Place: place}
	l.Place.File = "lab.toml"
	l.Solutions = []*lab.Solution{{Def: lab.Def{ID: "soup"}, Per: quantity[unit.Volume]("1 L")}}
	acid := &lab.Chemical{Def: lab.Def{ID: "acid"}, Name: "acid", Forms: map[string]*lab.Form{"liquid": {Formula: "none", Density: quantity[unit.Density]("1 g/mL")}}}
	l.Chemicals = []*lab.Chemical{acid}
	l.Index()
	return l
}

func holding(holds, graduation, tolerance string) lab.Cylinder {
	c := lab.Cylinder{Holds: quantity[unit.Volume](holds)}
	if graduation != "" {
		c.Graduation = quantity[unit.Volume](graduation)
	}
	if tolerance != "" {
		c.Tolerance = quantity[unit.Volume](tolerance)
	}
	return c
}

// TestDevices: what a bench makes of the devices that a lab has written: in which order,
// under which name, and what is left out.
func TestDevices(t *testing.T) {
	syringe := func(holds, graduation, tolerance string, kept ...string) lab.Syringe {
		c := holding(holds, graduation, tolerance)
		return lab.Syringe{Holds: c.Holds, Graduation: c.Graduation, Tolerance: c.Tolerance, For: kept}
	}
	for _, c := range []struct {
		name      string
		cylinders map[string]lab.Cylinder
		syringes  map[string]lab.Syringe
		scales    map[string]lab.Scale
		want      []string
		problem   string
	}{
		{name: "from the table of glassware", cylinders: map[string]lab.Cylinder{"a": holding("250 mL", "", ""), "b": holding("25 mL", "", "")},
			want: []string{"25 ml cylinder ± 0.5 half 0.25", "250 ml cylinder ± 2 half 1"}},
		{name: "what the glass says goes before the table", cylinders: map[string]lab.Cylinder{"a": holding("250 mL", "5 mL", ""), "b": holding("100 mL", "", "0.5 mL")},
			want: []string{"100 ml cylinder ± 0.5 half 0.5", "250 ml cylinder ± 2 half 2.5"}},
		{name: "a size that the table does not know", cylinders: map[string]lab.Cylinder{"a": holding("300 mL", "5 mL", "3 mL")}, want: []string{"300 ml cylinder ± 3 half 2.5"}},
		{name: "without its graduation", cylinders: map[string]lab.Cylinder{"a": holding("300 mL", "", "3 mL")}, problem: `the cylinder "a" holds 300 mL, which the table of glassware does not know`},
		{name: "without its tolerance", cylinders: map[string]lab.Cylinder{"a": holding("300 mL", "5 mL", "")}, problem: `the cylinder "a" holds 300 mL, which the table of glassware does not know`},
		{name: "a cylinder that holds nothing", cylinders: map[string]lab.Cylinder{"a": holding("0 mL", "1 mL", "1 mL")}},
		{name: "of one size, the more exact first, by the lab’s own word", cylinders: map[string]lab.Cylinder{"big-one": holding("100 mL", "1 mL", "1 mL"), "good-one": holding("100 mL", "1 mL", "0.5 mL"), "a": holding("50 mL", "", "")},
			want: []string{"50 ml cylinder ± 1 half 0.5", "100 ml cylinder, good one ± 0.5 half 0.5", "100 ml cylinder, big one ± 1 half 0.5"}},
		{name: "of one size and exactness, by the lab’s word", cylinders: map[string]lab.Cylinder{"b": holding("100 mL", "", ""), "a": holding("100 mL", "", ""), "c": holding("100 mL", "", "")},
			want: []string{"100 ml cylinder, a ± 1 half 0.5", "100 ml cylinder, b ± 1 half 0.5", "100 ml cylinder, c ± 1 half 0.5"}},
		{name: "syringes", syringes: map[string]lab.Syringe{"b": syringe("20 mL", "1 mL", "0.5 mL", "soup"), "a": syringe("5 mL", "0.2 mL", "0.1 mL", "acid.liquid")},
			want: []string{"5 ml syringe ± 0.1 half 0.1 for acid.liquid", "20 ml syringe ± 0.5 half 0.5 for soup.stock"}},
		{name: "two syringes of one size", syringes: map[string]lab.Syringe{"b": syringe("20 mL", "1 mL", "0.5 mL"), "a": syringe("20 mL", "1 mL", "0.5 mL"), "c": syringe("5 mL", "1 mL", "0.5 mL")},
			want: []string{"5 ml syringe ± 0.5 half 0.5", "20 ml syringe, a ± 0.5 half 0.5", "20 ml syringe, b ± 0.5 half 0.5"}},
		{name: "a syringe for what nobody knows serves none by that", syringes: map[string]lab.Syringe{"a": syringe("20 mL", "1 mL", "0.5 mL", "nothing.stock")}, want: []string{"20 ml syringe ± 0.5 half 0.5"}},
		{name: "a syringe of which something is not written is not used", syringes: map[string]lab.Syringe{"a": syringe("0 mL", "1 mL", "0.5 mL"), "b": syringe("20 mL", "", "0.5 mL"), "c": syringe("20 mL", "1 mL", "")}},
		{name: "scales, the finest first, one that nobody has checked at twice what it reads", scales: map[string]lab.Scale{
			"b": {Reads: quantity[unit.Mass]("0.1 g")}, "a": {Reads: quantity[unit.Mass]("0.1 g")}, "fine": {Reads: quantity[unit.Mass]("0.01 g"), Checked: lab.SaidDate{Date: unit.Date{Year: 2026, Month: 1, Day: 1}}}, "none": {Reads: quantity[unit.Mass]("0 g")}},
			want: []string{"fine ± 0.01", "a ± 0.2", "b ± 0.2"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, problems := NewBench(labWith(lab.Place{Cylinders: c.cylinders, Syringes: c.syringes, Scales: c.scales}))
			var got []string
			for _, s := range b.scales {
				got = append(got, s.name+" ± "+unit.ShortRat(s.errorOf))
			}
			says := func(c cylinder) string { return c.name + " ± " + unit.ShortRat(c.tol) + " half " + c.half.String() }
			for _, c := range b.cylinders {
				got = append(got, says(c))
			}
			for _, s := range b.syringes {
				text := says(s.cylinder)
				for _, ref := range []string{"soup.stock", "acid.liquid", "nothing.stock"} {
					if s.solutions[ref] {
						text += " for " + ref
					}
				}
				require.NotContains(t, s.solutions, "", "kept for something without a name")
				got = append(got, text)
			}
			require.Equal(t, c.want, got)
			if c.problem == "" {
				require.Empty(t, problems)
				return
			}
			require.Len(t, problems, 1)
			require.Equal(t, c.problem, problems[0].What)
		})
	}
}

// TestTolerance: how far off all pours may be, and who says so: the glass where one pour
// goes by it, the table where no glass says anything, else the list of the glass.
func TestTolerance(t *testing.T) {
	for _, c := range []struct {
		name      string
		cylinders map[string]lab.Cylinder
		syringe   bool
		ml        string
		value     float64
		says      string
	}{
		{"one pour, as the glass says", map[string]lab.Cylinder{"a": holding("100 mL", "1 mL", "0.5 mL")}, false, "90", 0.5, "lab.toml cylinder.a.tolerance"},
		{"one pour, by the table", map[string]lab.Cylinder{"a": holding("100 mL", "", "")}, false, "90", 1, "ISO 4788:2005, class B, from memory"},
		{"two pours, by the table", map[string]lab.Cylinder{"a": holding("100 mL", "", "")}, false, "180", 2, "ISO 4788:2005, class B, from memory"},
		{"two pours, as the glass says", map[string]lab.Cylinder{"a": holding("100 mL", "1 mL", "0.5 mL")}, false, "180", 1, "lab.toml cylinder"},
		{"a full one and the rest, by the table", map[string]lab.Cylinder{"a": holding("25 mL", "", ""), "b": holding("10 mL", "", "")}, false, "30", 0.7, "ISO 4788:2005, class B, from memory"},
		{"the full one says it", map[string]lab.Cylinder{"a": holding("25 mL", "", "0.6 mL"), "b": holding("10 mL", "", "")}, false, "30", 0.8, "lab.toml cylinder"},
		{"that of the rest says it", map[string]lab.Cylinder{"a": holding("25 mL", "", ""), "b": holding("10 mL", "", "0.1 mL")}, false, "30", 0.6, "lab.toml cylinder"},
		{"another glass says it", map[string]lab.Cylinder{"a": holding("100 mL", "", ""), "b": holding("50 mL", "", "0.4 mL")}, false, "90", 1, "ISO 4788:2005, class B, from memory"},
		{"a syringe", map[string]lab.Cylinder{"a": holding("1000 mL", "", "")}, true, "9", 0.1, "lab.toml syringe.s.tolerance"},
		{"two fillings of a syringe", map[string]lab.Cylinder{"a": holding("1000 mL", "", "")}, true, "18", 0.2, "lab.toml syringe"},
		{"a full cylinder and a syringe", map[string]lab.Cylinder{"a": holding("25 mL", "", "0.6 mL")}, true, "30", 0.7, "lab.toml cylinder"},
		{"nothing declared", nil, false, "90", 2, "the lab has declared no cylinder"},
	} {
		t.Run(c.name, func(t *testing.T) {
			place := lab.Place{Cylinders: c.cylinders}
			if c.syringe {
				s := holding("10 mL", "0.2 mL", "0.1 mL")
				place.Syringes = map[string]lab.Syringe{"s": {Holds: s.Holds, Graduation: s.Graduation, Tolerance: s.Tolerance}}
			}
			l := labWith(place)
			b, problems := NewBench(l)
			require.Empty(t, problems)
			h := b.Pour(mustRat(c.ml), "", unit.Quantity[unit.Percent]{}, unit.Nearest)
			require.Empty(t, h.Refused)
			tol := b.tolerance(h, l.Place.Def)
			require.InDelta(t, c.value, float64(tol.Value), 1e-9)
			in := measureError.Of("error", tol, figure.Constant(unit.Volume(90), "", "", figure.House)).Record().Inputs[0]
			require.Equal(t, "tolerance, the sum of all pours", in.Name)
			require.Equal(t, c.says, map[bool]string{true: in.Where.File + " " + in.Where.Key, false: in.Source}[in.Where.File != ""])
		})
	}
}

// TestAbove: an error that is too large is told with as many digits as show it.
func TestAbove(t *testing.T) {
	for _, c := range []struct{ err, of, allowed, says string }{
		{"1", "10", "0.03", "10"},
		{"1", "30", "0.03", "3.3"},
		{"1", "33", "0.03", "3.03"},
		{"1", "33.3", "0.03", "3.003"},
		{"1", "33.333", "0.03", "3.00003"},
		{"1", "33.3333333", "0.03", "3.00000"}, // as many as a reader follows, and no more
		{"10.4", "100", "0.1", "10.4"},
		{"10.5", "100", "0.105", "10"},
		{"0.99", "10", "0.099", "9.9"},
		{"0.995", "10", "0.099", "10.0"},
		{"1.5", "10", "0.03", "15"},
	} {
		require.Equal(t, c.says, above(mustRat(c.err), mustRat(c.of), mustRat(c.allowed)), "%s of %s", c.err, c.of)
	}
}

// TestPourRefused: what is too little, or too much, is refused with the glass that comes
// closest and with what would help. Three per cent are allowed.
func TestPourRefused(t *testing.T) {
	small, hundred := [4]string{"10", "0.2", "0.2", ""}, [4]string{"100", "1", "1", ""}
	const tail = ", or by way of an intermediate dilution; measure_within under [house] and the tolerance of the glass say what is allowed"
	closest := func(off, where, is, most string) [2]string {
		return [2]string{"too little to measure here: ± " + off + " ml in the " + where + " is " + is + " % (allowed here: 3 %)", "a cylinder or syringe that is off by at most " + most + " ml would do"}
	}
	uncounted := [2]string{"more pours than a hand can count", "get a larger cylinder, or make less at a time"}
	for _, c := range []struct {
		name    string
		devices [][4]string
		ml      string
		says    [2]string
		from    string
	}{
		// 10 ml twice are off by 0.4 ml: 3 % of 13.33 ml.
		{"it goes from a little more on, in two pours", [][4]string{small, hundred}, "10.5", closest("1", "100 ml cylinder", "9.5", "0.31"), "13.4"},
		{"in one", [][4]string{hundred}, "33.3", closest("1", "100 ml cylinder", "3.003", "0.99"), "33.4"},
		{"in no number of pours", [][4]string{{"100", "1", "50", ""}}, "90", closest("50", "100 ml cylinder", "56", "2.7"), ""},
		{"the smallest that holds it is named", [][4]string{{"10", "1", "0.4", ""}, hundred}, "10", closest("0.4", "10 ml cylinder", "4.0", "0.3"), "33.4"},
		{"more than twelve pours", [][4]string{hundred}, "1200.1", uncounted, ""},
		{"a syringe that holds just as much", [][4]string{hundred, {"5", "0.2", "0.2", "any"}}, "5", closest("0.2", "5 ml syringe", "4.0", "0.15"), "33.4"},
		{"one that holds less is not named", [][4]string{hundred, {"5", "0.2", "0.2", "any"}}, "6", closest("1", "100 ml cylinder", "17", "0.18"), "33.4"},
		{"one that is off as much is not named before the cylinder", [][4]string{hundred, {"20", "2", "1", "any"}}, "20", closest("1", "100 ml cylinder", "5.0", "0.6"), "33.4"},
		{"one that holds more than any cylinder", [][4]string{small, {"20", "1", "1", "any"}}, "12", closest("1", "20 ml syringe", "8.3", "0.36"), "13.4"},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := devicesOf(t, lab.House{MeasureWithin: quantity[unit.Percent]("3 %")}, c.devices...).Pour(mustRat(c.ml), "tea.stock", unit.Quantity[unit.Percent]{}, unit.Nearest)
			require.Equal(t, c.says[0], h.Refused)
			want := c.says[1]
			if c.says != uncounted {
				if c.from != "" {
					want += "; with what stands here it goes from " + c.from + " ml on"
				}
				want += tail
			}
			require.Equal(t, want, h.Way)
		})
	}
}

// TestPourErrors: the tolerances of all pours are added where it is decided whether they
// may be, and their root of squares is what the amount is told with.
func TestPourErrors(t *testing.T) {
	for _, c := range []struct {
		name      string
		devices   [][4]string
		ml        string
		pours     int
		full      string
		tolerance string
		root      float64
	}{
		{"one pour", [][4]string{{"100", "1", "1", ""}}, "100/3", 1, "0", "1", 1},
		{"four pours", [][4]string{{"100", "1", "1", ""}}, "400", 4, "0", "4", 2},
		{"twelve pours", [][4]string{{"100", "1", "1", ""}}, "1200", 12, "0", "12", 3.4641},
		{"a full one and the rest", [][4]string{{"10", "0.2", "0.3", ""}, {"25", "0.5", "0.6", ""}}, "30", 1, "25", "0.9", 0.670820},
		{"a full one and all that the other holds", [][4]string{{"10", "0.2", "0.3", ""}, {"25", "0.5", "0.7", ""}}, "35", 1, "25", "1", 0.761577},
		{"what one holds is no full one and nothing", [][4]string{{"25", "0.5", "0.9", ""}, {"10", "0.2", "0.1", ""}}, "25", 3, "0", "0.3", 0.173205},
	} {
		t.Run(c.name, func(t *testing.T) {
			h := devicesOf(t, lab.House{MeasureWithin: quantity[unit.Percent]("3 %")}, c.devices...).Pour(mustRat(c.ml), "", unit.Quantity[unit.Percent]{}, unit.Nearest)
			require.Empty(t, h.Refused)
			require.Equal(t, c.pours, h.Pours)
			require.Equal(t, c.full, h.Full.String())
			require.Equal(t, c.tolerance, h.Tolerance.String())
			require.InDelta(t, c.root, h.Root, 1e-4)
		})
	}
}

// TestWeighEdges: a scale weighs up to what it bears and as little as its error allows; a
// coarser one is taken where its error is half of that.
func TestWeighEdges(t *testing.T) {
	checked := lab.SaidDate{Date: unit.Date{Year: 2026, Month: 1, Day: 1}}
	scaleOf := func(reads, upTo string) lab.Scale {
		s := lab.Scale{Reads: quantity[unit.Mass](reads), Checked: checked}
		if upTo != "" {
			s.UpTo = quantity[unit.Mass](upTo)
		}
		return s
	}
	two := map[string]lab.Scale{"fine": scaleOf("0.01 g", "100 g"), "coarse": scaleOf("1 g", "1000 g")}
	for _, c := range []struct {
		name   string
		scales map[string]lab.Scale
		g, own string
		device string
		says   string
	}{
		{"the coarser one, exactly at half of what is allowed", two, "100", "", "coarse", ""},
		{"a little less", two, "99.99", "", "fine", ""},
		{"more than the finer bears, and the coarser is good enough", two, "150", "", "coarse", ""},
		{"at all that is allowed, where the finer does not bear it", map[string]lab.Scale{"fine": scaleOf("0.01 g", "40 g"), "coarse": scaleOf("1 g", "")}, "50", "", "coarse", ""},
		{"as little as the finest weighs", two, "0.5", "", "fine", ""},
		{"a step of its own allows more", two, "0.2", "5 %", "fine", ""},
		{"but takes no coarser scale for it", two, "40", "5 %", "fine", ""},
		{"a step of its own allows less", two, "0.99", "1 %", "", `too little for the scale "fine": it may be ± 0.01 g, which is 1.01 % (allowed here: 1 %); from 1 g on it can be weighed here`},
		{"as much as the largest bears", two, "1000", "", "coarse", ""},
		{"more than any bears", two, "1000.1", "", "", "more than any scale here bears; make a smaller batch, or weigh in lots"},
		{"a scale without a limit", map[string]lab.Scale{"fine": scaleOf("0.01 g", "")}, "100000", "", "fine", ""},
		{"the only scale is too coarse, and the way out is a step that it shows", map[string]lab.Scale{"only": scaleOf("0.1 g", "")}, "3", "3 %", "", `too little for the scale "only": it may be ± 0.1 g, which is 3.3 % (allowed here: 3 %); from 3.4 g on it can be weighed here`},
		{"of those that bear it the finest is named", map[string]lab.Scale{"fine": scaleOf("0.01 g", "2 g"), "middle": scaleOf("0.1 g", "100 g"), "coarse": scaleOf("1 g", "1000 g")}, "3", "", "", `too little for the scale "middle"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, problems := NewBench(labWith(lab.Place{Scales: c.scales}))
			require.Empty(t, problems)
			var own unit.Quantity[unit.Percent]
			if c.own != "" {
				own = quantity[unit.Percent](c.own).Quantity
			}
			h := b.Weigh(mustRat(c.g), own)
			require.Equal(t, c.device, h.Device)
			if c.says == "" {
				require.Empty(t, h.Refused)
				return
			}
			require.Contains(t, h.Refused+"; "+h.Way, c.says)
		})
	}
}

// TestOwnError: a step that allows more than the house takes no worse glass for it where a
// good one stands.
func TestOwnError(t *testing.T) {
	b := devicesOf(t, lab.House{MeasureWithin: quantity[unit.Percent]("2 %")}, [4]string{"100", "1", "1", ""}, [4]string{"250", "2", "0.5", ""})
	for _, c := range []struct{ ml, own, device string }{
		{"40", "", "250 ml cylinder"},
		{"40", "3 %", "250 ml cylinder"},
		{"20", "3 %", "250 ml cylinder"},
		{"50/3", "3 %", "250 ml cylinder"},
		{"16.6", "3 %", ""},
		{"16.6", "", ""},
	} {
		var own unit.Quantity[unit.Percent]
		if c.own != "" {
			own = quantity[unit.Percent](c.own).Quantity
		}
		require.Equal(t, c.device, b.Pour(mustRat(c.ml), "", own, unit.Nearest).Device, "%s at %s", c.ml, c.own)
	}
}

// TestLaddersApart: a ladder is kept for what it was built for: another bath, substance or
// error has its own.
func TestLaddersApart(t *testing.T) {
	none, lax := unit.Quantity[unit.Percent]{}, quantity[unit.Percent]("20 %").Quantity
	b := devicesOf(t, lab.House{MeasureWithin: quantity[unit.Percent]("3 %"), LargestVessel: quantity[unit.Volume]("7.5 L")},
		[4]string{"10", "0.2", "0.2", ""}, [4]string{"100", "1", "1", ""}, [4]string{"20", "1", "0.2", "soup.stock"})
	tenth := mustRat("0.01") // a tenth of what is made
	device := func(bath string, own unit.Quantity[unit.Percent], made int64) string {
		r, why := b.PourLadder(tenth, bath, own, unit.Nearest).Read(made)
		return r.Hand.Device + why
	}
	require.Equal(t, "20 ml syringe", device("soup.stock", none, 1000))
	require.Equal(t, "10 ml cylinder", device("tea.stock", none, 1000))
	require.Equal(t, "20 ml syringe", device("soup.stock", none, 1000), "and again")
	require.Contains(t, device("tea.stock", none, 120), "too little to measure here")
	require.Equal(t, "10 ml cylinder", device("tea.stock", lax, 120))
	require.Equal(t, "more than this lab lifts and stirs by hand (7.5 L)", device("tea.stock", none, 75001))
	require.NotContains(t, device("tea.stock", none, 75000), "by hand")

	b.scales = []scale{{name: "fine", reads: mustRat("0.01"), errorOf: mustRat("0.01"), step: decimalOf(mustRat("0.01"))}}
	solution := func(m *big.Rat) (figure.Hand, bool) {
		return figure.Hand{Device: "syringe", Pours: 1, Step: unit.NewDecimal(1, 1)}, m.Cmp(mustRat("0.1")) >= 0
	}
	mass := func(of string, percent func(*big.Rat) (figure.Hand, bool), made int64) string {
		r, why := b.MassLadder(mustRat("0.0001"), none, of, percent, []*big.Rat{mustRat("0.1")}).Read(made)
		return r.Hand.Device + why
	}
	require.Equal(t, "fine", mass("salt", solution, 5000), "half a gram is weighed")
	require.Equal(t, "syringe", mass("salt", solution, 4000), "less is poured of a percent solution")
	require.Equal(t, "syringe", mass("salt", solution, 1000))
	require.Contains(t, mass("salt", solution, 999), "too little for the scale", "where that goes")
	require.Contains(t, mass("sugar", nil, 4000), "too little for the scale", "and where there is one")
}

// TestTenths: volumes are read off in tenths of a millilitre, to the nearest; what no vessel
// holds is none.
func TestTenths(t *testing.T) {
	for in, want := range map[string]int64{"600": 6000, "0.04": 0, "0.05": 1, "12.34": 123, "1e30": 0} {
		require.Equal(t, want, tenths(mustRat(in)), in)
	}
	for in, want := range map[float64]string{9.94: "9.9", 10: "10", 10.4: "10", 10.6: "11", 0.96: "1.0"} {
		require.Equal(t, want, sig(in))
	}
}
