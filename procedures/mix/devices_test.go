package mix

import (
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
		{name: "syringes", syringes: map[string]lab.Syringe{"b": syringe("20 mL", "1 mL", "0.5 mL", "soup.stock"), "a": syringe("5 mL", "0.2 mL", "0.1 mL", "acid.liquid")},
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
