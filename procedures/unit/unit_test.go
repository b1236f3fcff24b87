package unit

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestQuantity(t *testing.T) {
	for _, c := range []struct {
		in              string
		low, best, high float64
		err             string
	}{
		{in: "600 mL", low: 600, best: 600, high: 600},
		{in: "0.6 l", low: 600, best: 600, high: 600},
		{in: "1..2 L", low: 1000, best: 1500, high: 2000},
		{in: "1.5 +- 0.1 L", low: 1400, best: 1500, high: 1600},
		{in: "600 g", err: `"600 g" is a mass where a volume is wanted`},
		{in: "600", err: `"600" has no unit`},
		{in: "600 mll", err: `"600 mll" is not a volume: there is no unit "mll"`},
		{in: "600 cc", err: `"600 cc" is not a volume`},
		{in: "1,5 L", err: `"1,5" is not a number`},
		{in: "2..1 L", err: `"2..1 L" runs backwards`},
		{in: "1:4", err: `"1:4" is not a volume`},
		{in: "<4 mL", err: `"<4 mL" is not a volume`},
		{in: "", err: `"" is empty where a volume is wanted`},
		{in: "1e3 mL", err: `"1e3 mL" is not a volume: there is no unit "e3 mL"`},
		{in: "NaN mL", err: `"NaN mL" is not a volume`},
		{in: "9999999999 L", err: `"9999999999 L" is more than any darkroom holds`},
	} {
		t.Run(c.in, func(t *testing.T) {
			var q Quantity[Volume]
			err := q.UnmarshalText([]byte(c.in))
			if c.err != "" {
				require.EqualError(t, err, c.err)
				require.NotEmpty(t, err.(*Error).Hint)
				return
			}
			require.NoError(t, err)
			require.Equal(t, []float64{c.low, c.best, c.high}, []float64{float64(q.Low()), float64(q.Value()), float64(q.High())})
		})
	}
}

func TestKinds(t *testing.T) {
	for _, c := range []struct {
		in   string
		read func(string) (float64, error)
		want float64
	}{
		{"6 gm", nil, 0},
		{"11:00", readAs[Seconds], 660},
		{"2 h", readAs[Seconds], 7200},
		{"2 °C", readAs[Kelvin], 2},
		{"-5 °C", readAs[Temperature], -5},
		{"0.088 /K", readAs[PerKelvin], 0.088},
		{"10 % w/v", readAs[WV], 10},
		{"320 mg/L", readAs[Concentration], 0.32},
		{"1.5 mg/L", readAs[InAir], 1.5},
		{"2 g/L", readAs[InAir], 2000},
		{"500 mg/kg", readAs[Dose], 500},
		{"700 ppm", readAs[Gas], 700},
		{"-44.5 kJ/mol", readAs[Heat], -44.5},
		{"0.25 mol/L", readAs[Molarity], 0.25},
		{"0.25 mol/kg", readAs[Molality], 0.25},
		{"101.325 kPa", readAs[Pressure], 101.325},
		{"3.85 J/(g K)", readAs[HeatCapacity], 3.85},
		{"0.408 nm", readAs[Length], 4.08e-7},
		{"<8 % w/w", readAs[WW], 4},
		{"0.05 m2", readAs[Area], 500},
		{"2 x", readAs[Factor], 2},
		{"50 %", readAs[Factor], 0.5},
		{"400", readAs[Speed], 400},
	} {
		if c.read == nil {
			_, err := readAs[Mass](c.in)
			require.EqualError(t, err, `"6 gm" is not a mass`)
			require.Contains(t, err.(*Error).Hint, `"6 g"`)
			continue
		}
		got, err := c.read(c.in)
		require.NoError(t, err, c.in)
		require.Equal(t, c.want, got, c.in)
	}
	_, err := readAs[WV]("10 %")
	require.EqualError(t, err, `"10 %" does not say percent of what`)
}

func readAs[T Kind](s string) (float64, error) {
	var q Quantity[T]
	err := q.UnmarshalText([]byte(s))
	return float64(q.Value()), err
}

func TestRound(t *testing.T) {
	for _, c := range []struct {
		x, step float64
		rule    Rule
		want    float64
	}{
		{1.005, 0.01, Nearest, 1.01}, {0.15, 0.1, Nearest, 0.2}, {8.325, 0.05, Nearest, 8.35}, {2.675, 0.01, Nearest, 2.68},
		{-2.5, 1, Nearest, -3}, {12.5, 5, Nearest, 15}, {math.Nextafter(2.675, 0), 0.01, Nearest, 2.68},
		{1.2 / 0.05, 1, Down, 24}, {24.0000000001, 1, Up, 25}, {0.1 * 3, 0.1, Up, 0.3}, {299.9999999999999, 15, Down, 300},
	} {
		require.Equal(t, c.want, Round(c.x, c.step, c.rule), "%v by %v %v", c.x, c.step, c.rule)
	}
}

func TestRoundRat(t *testing.T) {
	for _, c := range []struct {
		x, step string
		rule    Rule
		want    int64
	}{
		{"7.5", "0.1", Nearest, 75}, {"2.5", "1", Nearest, 3}, {"-2.5", "1", Nearest, -3}, {"-2.4", "1", Nearest, -2}, {"2.4", "1", Nearest, 2},
		{"2.1", "1", Up, 3}, {"2", "1", Up, 2}, {"2.9", "1", Down, 2}, {"-2.1", "1", Down, -3},
	} {
		x, _ := new(big.Rat).SetString(c.x)
		step, _ := new(big.Rat).SetString(c.step)
		require.Equal(t, c.want, RoundRat(x, step, c.rule).Int64(), "%+v", c)
	}
}

func TestDilution(t *testing.T) {
	for _, c := range []struct{ in, err, share string }{
		{in: "1+4", share: "1/5"}, {in: "2+8", share: "1/5"}, {in: "1 + 1.5", share: "2/5"}, {in: "none", share: "1"},
		{in: "1:4", err: `"1:4" is not a dilution`}, {in: "1+0", err: `"1+0" dilutes nothing`}, {in: "0+4", err: `"0+4" holds an impossible part`},
		{in: "-1+4", err: `"-1+4" holds an impossible part`}, {in: "1+4+27", err: `"1+4+27" is not a dilution`}, {in: "strong", err: `"strong" is not a dilution`},
	} {
		var d Dilution
		err := d.UnmarshalText([]byte(c.in))
		if c.err != "" {
			require.EqualError(t, err, c.err)
			require.NotEmpty(t, err.(*Error).Hint)
			continue
		}
		require.NoError(t, err)
		want, _ := new(big.Rat).SetString(c.share)
		require.Zero(t, want.Cmp(d.Share()), c.in)
	}
	var d Dilution
	err := d.UnmarshalText([]byte("1:4"))
	require.Contains(t, err.(*Error).Hint, `"1+4"`)
	require.Contains(t, err.(*Error).Hint, `"1+3"`)
}

func TestPrice(t *testing.T) {
	var p Price
	require.NoError(t, p.UnmarshalText([]byte("5.00 EUR/kg")))
	kg, ok := p.PerKg()
	require.True(t, ok)
	require.Equal(t, MoneyPerKg(5), kg)
	require.NoError(t, p.UnmarshalText([]byte("4.60 EUR/m3")))
	l, ok := p.PerL()
	require.True(t, ok)
	require.InDelta(t, 0.0046, float64(l), 1e-12)
	require.EqualError(t, p.UnmarshalText([]byte("5.00 /kg")), `"5.00 /kg" has no currency`)
	require.EqualError(t, p.UnmarshalText([]byte("5.00")), `"5.00" has no currency`)
	require.EqualError(t, p.UnmarshalText([]byte("5.00 euros/kg")), `"5.00 euros/kg" is not a price`)
}

func TestLife(t *testing.T) {
	var l Life
	require.NoError(t, l.UnmarshalText([]byte("6 weeks")))
	require.Equal(t, 42, l.Days)
	require.Error(t, l.UnmarshalText([]byte("half a year")))
	require.Error(t, l.UnmarshalText([]byte("0 days")))
}

func FuzzQuantity(f *testing.F) {
	for _, s := range []string{"600 mL", "1..2 L", "1.5 +- 0.1 L", "1:4", "11:00", "", "..", "+- 3 g", "1.2.3 mL", "–5 mL", "9999999999999999999 mL"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		var q Quantity[Volume]
		if q.UnmarshalText([]byte(s)) == nil {
			v := float64(q.Value())
			require.False(t, math.IsNaN(v) || math.IsInf(v, 0))
			require.LessOrEqual(t, q.Low(), q.High())
			var again Quantity[Volume]
			require.NoError(t, again.UnmarshalText([]byte(q.Text())))
			require.Zero(t, again.Exact().Cmp(q.Exact()))
		}
		var p Price
		_ = p.UnmarshalText([]byte(s))
		var d Dilution
		if d.UnmarshalText([]byte(s)) == nil {
			require.Positive(t, d.Share().Sign())
		}
	})
}

// TestCustomary: what is written in customary units is refused with what it is in
// metric ones (inch 2.54 cm, pound 453.59237 g, US gallon 231 cubic inches, exactly).
func TestCustomary(t *testing.T) {
	hint := func(err error) string {
		t.Helper()
		require.Error(t, err)
		return err.(*Error).Hint
	}
	var v Quantity[Volume]
	require.Contains(t, hint(v.UnmarshalText([]byte("16 fl oz"))), `write "473 mL"`)
	require.Contains(t, hint(v.UnmarshalText([]byte("1 gal"))), `write "3785 mL"`)
	require.Contains(t, hint(v.UnmarshalText([]byte("1 fl oz"))), `write "29.6 mL"`)
	require.NotContains(t, hint(v.UnmarshalText([]byte("2 lb"))), "metric", "a mass is no volume")
	var m Quantity[Mass]
	require.Contains(t, hint(m.UnmarshalText([]byte("2 lb"))), `write "907 g"`)
	var at Quantity[Temperature]
	require.Contains(t, hint(at.UnmarshalText([]byte("70 °F"))), `write "21.1 °C"`)
	require.Contains(t, hint(at.UnmarshalText([]byte("32 °F"))), `write "0.0 °C"`)
	var a Amount
	require.Contains(t, hint(a.UnmarshalText([]byte("8 oz"))), `write "227 g"`)
	require.Contains(t, hint(a.UnmarshalText([]byte("1 qt"))), `write "946 mL"`)
}

// TestColon: what has a colon is asked for a number and a unit; what looks like a clock time is not taken for
// a dilution alone.
func TestColon(t *testing.T) {
	var v Quantity[Volume]
	err := v.UnmarshalText([]byte("4:00"))
	require.EqualError(t, err, `"4:00" is not a volume`)
	require.Contains(t, err.(*Error).Hint, "for example \""+DimVolume.Example()+"\"; this reads as a time of the clock, or as a dilution")
	err = v.UnmarshalText([]byte("1:4"))
	require.Contains(t, err.(*Error).Hint, `; a colon can be read two ways`)
}

// TestYears: a life in years is one in months.
func TestYears(t *testing.T) {
	var l Life
	require.NoError(t, l.UnmarshalText([]byte("3 years")))
	require.Equal(t, 36, l.Months)
	require.NoError(t, l.UnmarshalText([]byte("100 years")))
	require.Error(t, l.UnmarshalText([]byte("101 years")))
}

// TestPrinters: one way to print a plain number and one to say how many.
func TestPrinters(t *testing.T) {
	for x, want := range map[float64]string{0: "0", 1: "1", 100: "100", 0.5: "0.5", 0.126: "0.13", 12.3: "12.3", -2.5: "-2.5", 1.999: "2"} {
		require.Equal(t, want, Short(x), x)
	}
	for text, want := range map[string]string{"0": "0", "100": "100", "18.75": "18.75", "0.000001": "0.000001", "1/3": "0.333333"} {
		r, ok := new(big.Rat).SetString(text)
		require.True(t, ok)
		require.Equal(t, want, ShortRat(r), text)
	}
	require.Equal(t, "roll", Plural(1, "roll"))
	require.Equal(t, "rolls", Plural(0, "roll"))
	require.Equal(t, "rolls", Plural(2, "roll"))
	require.Equal(t, "rolls", Plural(0.83, "roll"))
}

// TestLessThan: "less than" never comes to the bound itself, however little is missing, and is read in
// the middle all the same.
func TestLessThan(t *testing.T) {
	var less, upTo Quantity[WW]
	require.NoError(t, less.UnmarshalText([]byte("<0.3 % w/w")))
	require.NoError(t, upTo.UnmarshalText([]byte("0..0.3 % w/w")))
	require.Less(t, Snap(float64(less.High())), 0.3)
	require.InDelta(t, 0.3, float64(less.High()), 1e-6)
	require.Equal(t, 0.3, Snap(float64(upTo.High())))
	require.Equal(t, WW(0.15), less.Value())
	require.Zero(t, less.Low())
	require.Equal(t, "0.3", Short(float64(less.High())), "a card prints the bound as it is written")
}
