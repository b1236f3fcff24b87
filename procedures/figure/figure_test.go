package figure

import (
	"math"
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/unit"
)

var half = &F2[unit.Volume, unit.Volume, unit.Factor]{
	Formula: Formula{ID: "half", Name: "a part", Result: "v", Unit: "ml", Terms: []Term{{Symbol: "V", Meaning: "whole"}, {Symbol: "n", Meaning: "parts"}}, Text: "V / n", Source: "plain arithmetic", Origin: Standard},
	Go:      func(v unit.Volume, n unit.Factor) unit.Volume { return v / unit.Volume(n) },
}

func given(v unit.Volume, by Origin) Figure[unit.Volume] {
	return GivenNumber(v, "", Where{File: "lab.toml", Key: "tank"}, by, "whole")
}

func parts(n unit.Factor) Figure[unit.Factor] { return Constant(n, "parts", "", Standard) }

// TestWeakest: a figure is vouched for as its weakest input is, and not better than
// its formula; default of the program ranks between estimate and memory.
func TestWeakest(t *testing.T) {
	order := []Origin{Measured, Standard, Supplier, Handbook, House, Estimate, Default, Memory, Invented}
	for i, by := range order {
		f := half.Of("x/y", given(600, by), parts(2))
		require.Equal(t, Weakest(by, Standard), f.Origin())
		require.Equal(t, i > 4, by.Weak(), "%s", by)
		if i > 0 {
			require.Equal(t, by, Weakest(order[i-1], by))
			require.Equal(t, by, Weakest(by, order[i-1]))
		}
	}
	_, err := ParseOrigin("default of the program")
	require.Error(t, err, "nobody in a lab vouches by a default")
	by, err := ParseOrigin("measured")
	require.NoError(t, err)
	require.Equal(t, Measured, by)
}

// TestRefusedStaysRefused: a value that must not be used stays refused, whichever of
// the two is entered first.
func TestRefusedStaysRefused(t *testing.T) {
	f := half.Of("x/y", given(600, House), parts(2)).Show(KindAmount, "1", unit.Nearest, "")
	for name, enter := range map[string]func(*Ledger){
		"refused first": func(l *Ledger) { l.Refuse("x/y", KindAmount, "a part", "ml", "why", House); Enter(l, f) },
		"refused last":  func(l *Ledger) { Enter(l, f); l.Refuse("x/y", KindAmount, "a part", "ml", "why", House) },
	} {
		l := NewLedger()
		enter(l)
		r := l.Get("x/y")
		require.NotNil(t, r, name)
		require.True(t, r.Refused(), name)
		require.Equal(t, "why", r.Why, name)
		require.Len(t, l.Records(), 1, name)
		require.Empty(t, l.Clashes(), name)
	}
}

// TestClashes: two different figures under one id are a clash, and the same one twice
// is none.
func TestClashes(t *testing.T) {
	base := func() Figure[unit.Volume] {
		return half.Of("x/y", given(600, House), parts(2)).Show(KindAmount, "1", unit.Nearest, "")
	}
	other := &F2[unit.Volume, unit.Volume, unit.Factor]{Formula: Formula{ID: "other", Terms: half.Formula.Terms}, Go: half.Go}
	for name, c := range map[string]struct {
		second Figure[unit.Volume]
		clash  bool
	}{
		"the same":         {base(), false},
		"another value":    {half.Of("x/y", given(602, House), parts(2)).Show(KindAmount, "1", unit.Nearest, ""), true},
		"another rounding": {base().Show(KindAmount, "0.1", unit.Nearest, ""), true},
		"another unit":     {base().In("drops"), true},
		"another formula":  {other.Of("x/y", given(600, House), parts(2)).Show(KindAmount, "1", unit.Nearest, ""), true},
		"no number at all": {half.Of("x/z", given(600, House), parts(0)).Show(KindAmount, "1", unit.Nearest, ""), true},
	} {
		l := NewLedger()
		Enter(l, base())
		Enter(l, c.second)
		require.Equal(t, c.clash, len(l.Clashes()) == 1, name)
		r := l.Get("x/y")
		require.Equal(t, "300", r.Shown, name)
	}
	l := NewLedger()
	l.EnterVerdict(Verdict{ID: "x/v", Answer: "good"})
	l.EnterVerdict(Verdict{ID: "x/v", Answer: "good"})
	require.Empty(t, l.Clashes())
	l.EnterVerdict(Verdict{ID: "x/v", Answer: "dead"})
	require.Len(t, l.Clashes(), 1)
	require.Equal(t, "good", l.Verdicts()[0].Answer)
	require.Len(t, l.Verdicts(), 1)
	// Two days are two values although no number differs.
	d := GivenDate(unit.Date{Year: 2026, Month: 3, Day: 14}, Where{}, House, "day")
	DeclareDate(l, "x/d", d)
	DeclareDate(l, "x/d", GivenDate(unit.Date{Year: 2026, Month: 3, Day: 15}, Where{}, House, "day"))
	require.Len(t, l.Clashes(), 2)
}

// TestNoNumber: what has no finite value is refused, and so is all that is worked out
// from it.
func TestNoNumber(t *testing.T) {
	f := half.Of("x/y", given(600, House), parts(0))
	l := NewLedger()
	Enter(l, f.Show(KindAmount, "1", unit.Nearest, ""))
	r := l.Get("x/y")
	require.True(t, r.Refused())
	require.NotEmpty(t, r.Why)
	require.False(t, math.IsInf(r.Low, 0) || math.IsInf(r.High, 0))
	again := half.Of("x/z", f, parts(2)).Show(KindAmount, "1", unit.Nearest, "")
	require.True(t, again.Record().Refused())
	spanned := f.ShowSpan(KindAmount, "1", unit.Nearest)
	require.True(t, spanned.Record().Refused())
	require.Equal(t, f.Record().Why, spanned.Record().Why)
}

// TestBounds: bounds of the inputs go through a formula at their worst corner, and are
// printed outwards.
func TestBounds(t *testing.T) {
	f := half.Of("x/y", given(600, House).WithBounds(590, 620), parts(2).WithBounds(1, 4))
	require.Equal(t, []unit.Volume{147.5, 300, 620}, []unit.Volume{f.Low, f.Value, f.High})
	r := f.ShowSpan(KindAmount, "1", unit.Nearest).Record()
	require.Equal(t, "147–620", r.Shown)
	require.True(t, r.HasLow)
	exact := half.Of("x/y", given(600, House), parts(2)).ShowSpan(KindAmount, "1", unit.Nearest).Record()
	require.Equal(t, "300", exact.Shown)
	require.False(t, exact.HasLow)
	b := half.Of("x/y", given(600, House), parts(2)).Bounds(5)
	require.Equal(t, []unit.Volume{295, 300, 305}, []unit.Volume{b.Low, b.Value, b.High})
}

// TestDeclare: a declared value keeps its bounds and its place, and one of anything is
// not many.
func TestDeclare(t *testing.T) {
	l := NewLedger()
	Declare(l, "a", KindAmount, given(600, House), "600", "ml")
	Declare(l, "b", KindAmount, given(600, House).WithBounds(590, 610), "590–610", "ml")
	Declare(l, "c", KindCount, parts(1), "1", "rolls")
	Declare(l, "d", KindCount, parts(10), "10", "rolls")
	a, b, c, d := l.Get("a"), l.Get("b"), l.Get("c"), l.Get("d")
	require.False(t, a.HasLow)
	require.True(t, b.HasLow)
	require.Equal(t, "lab.toml", a.Inputs[0].Where.File)
	require.Equal(t, "roll", c.Unit)
	require.Equal(t, "rolls", d.Unit)
	for _, c := range []struct {
		shown, word string
		is          *Record
	}{
		{"320", "mg/L", Declare(l, "e", KindAmount, Constant(unit.Concentration(0.32), "hardness", "", House), "320", "mg/L")},
		{"5", "g/L", Declare(l, "f", KindAmount, Constant(unit.Concentration(5), "silver", "", House), "5", "g/L")},
		{"20", "L", Declare(l, "g", KindAmount, given(20000, House), "20", "L")},
	} {
		require.Equal(t, c.word, c.is.Unit)
		require.Equal(t, c.shown, c.is.Rounded, "it is rounded in the unit that it is shown in")
		require.Equal(t, c.shown, unit.Short(c.is.Counted(c.is.Value)))
	}
	back := Entered[unit.Volume](b)
	require.Equal(t, []unit.Volume{590, 600, 610}, []unit.Volume{back.Low, back.Value, back.High})
	require.Equal(t, []string{"b", "b"}, []string{back.Record().ID, back.ref.ID})
}

// TestReading: an amount is read off the rung that its volume lies on, in equal pours
// after full ones, and not at all beyond the last.
func TestReading(t *testing.T) {
	small := Hand{Device: "small", Step: unit.NewDecimal(5, 1), Pours: 1}
	twice := Hand{Device: "small", Step: unit.NewDecimal(5, 1), Pours: 2, Rule: unit.Up}
	full := Hand{Device: "small", FullDevice: "large", Full: unit.NewDecimal(50, 0), Step: unit.NewDecimal(1, 0), Pours: 1, Rule: unit.Down}
	none := Hand{Refused: "too little"}
	by := func(amount *big.Rat) Hand {
		switch {
		case amount.Cmp(big.NewRat(5, 1)) < 0:
			return none
		case amount.Cmp(big.NewRat(20, 1)) <= 0:
			return small
		case amount.Cmp(big.NewRat(40, 1)) <= 0:
			return twice
		}
		return full
	}
	l := NewLadder("ml", big.NewRat(1, 20), 2000, []*big.Rat{big.NewRat(5, 1), big.NewRat(20, 1), big.NewRat(40, 1)}, by, "more than fits")
	for _, c := range []struct {
		tenths int64
		total  string
		pour   string
		why    string
	}{
		{0, "", "", "more than fits"},
		{99, "", "", "too little"},
		{100, "5", "5", ""},
		{103, "5", "5", ""},     // 5.15
		{106, "5.5", "5.5", ""}, // 5.3
		{400, "20", "20", ""},   // its rung's last
		{401, "21", "10.5", ""}, // 20.05 in two, each up to the next half
		{800, "40", "20", ""},   // the last in two
		{1005, "50", "0", ""},   // 50.25: the full one and nothing
		{1030, "51", "1", ""},   // 51.5
		{2000, "100", "50", ""}, // the last of all
		{2001, "", "", "more than fits"},
	} {
		r, why := l.Read(c.tenths)
		require.Equal(t, c.why, why, "%d", c.tenths)
		if c.why == "too little" {
			require.Equal(t, big.NewRat(99, 20), r.Exact)
		}
		if c.why != "" {
			continue
		}
		total, _ := new(big.Rat).SetString(c.total)
		pour, _ := new(big.Rat).SetString(c.pour)
		require.Equal(t, 0, total.Cmp(r.Total), "%d: %s", c.tenths, r.Total)
		require.Equal(t, 0, pour.Cmp(r.Pour), "%d: %s", c.tenths, r.Pour)
	}
}

// TestTake: a percent solution is poured for the mass that it holds.
func TestTake(t *testing.T) {
	h := Hand{Device: "c", Step: unit.NewDecimal(1, 1), Pours: 1, PerAmount: big.NewRat(10, 1)}
	total, _ := h.Take(big.NewRat(1, 5))
	require.Equal(t, "2", total.RatString())
}

// TestClock: seconds are minutes and two digits of seconds.
func TestClock(t *testing.T) {
	for s, want := range map[float64]string{0: "0:00", 9: "0:09", 60: "1:00", 3599.6: "60:00", 125.4: "2:05"} {
		require.Equal(t, want, Clock(s))
	}
}

// TestReadNothing: a ladder says something of the least volume there is, and of none or
// of more than it reaches why not.
func TestReadNothing(t *testing.T) {
	l := NewLadder("ml", big.NewRat(1, 1), 100, nil, func(*big.Rat) Hand { return Hand{Device: "syringe", Step: unit.NewDecimal(1, 1), Pours: 1} }, "no device")
	for tenths, why := range map[int64]string{-1: "no device", 0: "no device", 1: "", 100: "", 101: "no device"} {
		_, got := l.Read(tenths)
		require.Equal(t, why, got, tenths)
	}
}

// TestUnvouched: what nobody vouches for counts once, and what is refused or well
// vouched for does not.
func TestUnvouched(t *testing.T) {
	of := func(id string, by Origin, f Face) *Record { return Of(Core{ID: id, Origin: by}, f) }
	a, b, c, d := of("a", Memory, Face{Shown: "1"}), of("b", House, Face{Shown: "1"}), of("c", Memory, Face{Why: "no"}), of("d", Estimate, Face{Shown: "1"})
	require.Equal(t, []OfOrigin{{Estimate, 1}, {Memory, 1}}, Unvouched([]*Record{a, a, b, c, d}))
}
