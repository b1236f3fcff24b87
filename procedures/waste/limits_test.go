package waste

import (
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// bound is a bound of a permit as its file has it.
func bound(t *testing.T, text string) lab.PermitBound {
	t.Helper()
	var b lab.PermitBound
	require.NoError(t, b.UnmarshalText([]byte(text)))
	return b
}

func content(low, best, high unit.Concentration) figure.Figure[unit.Concentration] {
	r := figure.Of(figure.Core{ID: "bath/content", Value: float64(best)}, figure.Face{Shown: "x"})
	return figure.Entered[unit.Concentration](r).WithBounds(low, high)
}

// TestContent: a content is within the limit up to the limit itself, beyond it as soon as the least
// that it can be is more, and between the two nobody can tell.
func TestContent(t *testing.T) {
	for _, c := range []struct {
		name                  string
		low, best, high, most unit.Concentration
		want                  Meets
		is, times             string
	}{
		{"less", .0004, .0004, .0004, .001, Met, "0.40 mg/L", ""},
		{"just as much", .001, .001, .001, .001, Met, "1.0 mg/L", ""},
		{"a trace more", .00101, .00101, .00101, .001, NotMet, "1.1 mg/L", "1.1"},
		{"320 times as much", .32, .32, .32, .001, NotMet, "320 mg/L", "320"},
		{"thousands", 4, 4, 4, .001, NotMet, "4.0 g/L", "4000"},
		{"the least is less, the best is", .0005, .0009, .0011, .001, Untold, "0.5–1.1 mg/L", ""},
		{"the best is more, the least is not", .001, .0012, .0015, .001, Untold, "1.0–1.5 mg/L", ""},
		{"all of the range is more", .0015, .002, .0025, .001, NotMet, "1.5–2.5 mg/L", "1.5–2.5"},
		{"all of the range is less", .0005, .0006, .001, .001, Met, "0.5–1.0 mg/L", ""},
		{"in grams", 1.5, 1.5, 1.5, 2, Met, "1.5 g/L", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := room(map[string]string{"drain": "letter 7"})
			m.Lab.Local.Permit.Limits = []lab.PermitLimit{{Of: "silver", Most: lab.PermitBound{
				Content: lab.Say[unit.Concentration](strconv.FormatFloat(float64(c.most), 'f', -1, 64) + " g/L")}}}
			list := LimitsOf(m, lab.Drain)
			require.Len(t, list, 1)
			got := list[0].Content(m, "bath/permit.silver", "spent", content(c.low, c.best, c.high))
			require.Equal(t, c.want, got.Meets)
			require.Equal(t, c.is, got.Is.Shown+" "+got.Is.Unit)
			require.Equal(t, c.want == Untold, got.Why != "")
			if c.times == "" {
				require.Nil(t, got.Times)
			} else {
				require.Equal(t, c.times, got.Times.Shown)
			}
			require.Empty(t, m.Book.Clashes())
		})
	}
}

// TestAcidity: a pH is within the window with both of its bounds, outside with both, and else nobody
// can tell; a window may have one end alone.
func TestAcidity(t *testing.T) {
	for _, c := range []struct {
		name, least, most string
		ph, half          unit.Factor
		want              Meets
		off               string
		acid              bool
	}{
		{"in the middle", "6.5", "9.5", 7.5, .2, Met, "1.0", false},
		{"at the lower end", "6.5", "9.5", 6.7, .2, Met, "0.2", false},
		{"over the lower end", "6.5", "9.5", 6.6, .2, Untold, "0.1", false},
		{"under it, but perhaps not", "6.5", "9.5", 6.4, .2, Untold, "0.1", true},
		{"just at it from below", "6.5", "9.5", 6.3, .2, Untold, "0.2", true},
		{"below it", "6.5", "9.5", 6.2, .2, NotMet, "0.3", true},
		{"far too acid", "6.5", "9.5", 2.6, .1, NotMet, "3.9", true},
		{"at the upper end", "6.5", "9.5", 9.3, .2, Met, "0.2", false},
		{"over the upper end", "6.5", "9.5", 9.4, .2, Untold, "0.1", false},
		{"above it", "6.5", "9.5", 9.8, .2, NotMet, "0.3", false},
		{"only a least", "6", "", 13, .2, Met, "7.0", false},
		{"only a least, not met", "6", "", 5, .2, NotMet, "1.0", true},
		{"only a most", "", "9", 2, .2, Met, "7.0", false},
		{"only a most, not met", "", "9", 10, .2, NotMet, "1.0", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := room(map[string]string{"drain": "letter 7"})
			p := lab.PermitLimit{Of: "ph"}
			if c.least != "" {
				p.Least = bound(t, c.least)
			}
			if c.most != "" {
				p.Most = bound(t, c.most)
			}
			m.Lab.Local.Permit.Limits = []lab.PermitLimit{p}
			is := figure.Of(figure.Core{ID: "bath/ph", Value: float64(c.ph)}, figure.Face{Shown: "x"})
			got := LimitsOf(m, lab.Drain)[0].Acidity(m, "bath/permit.ph", "as it is made",
				figure.Entered[unit.Factor](is).WithBounds(c.ph-c.half, c.ph+c.half), is, nil)
			require.Equal(t, c.want, got.Meets)
			require.Equal(t, c.off, got.Off.Shown)
			require.Equal(t, c.acid, got.TooAcid())
			require.Equal(t, c.want == Untold, got.Why != "")
		})
	}
}

// TestAllLimits: one limit that is not met, or that nobody can tell, forbids the drain.
func TestAllLimits(t *testing.T) {
	all := func(list ...Meets) []Allowed {
		var out []Allowed
		for _, m := range list {
			out = append(out, Allowed{Meets: m})
		}
		return out
	}
	require.Equal(t, Met, All(nil))
	require.Equal(t, Met, All(all(Met, Met)))
	require.Equal(t, Untold, All(all(Met, Untold, Met)))
	require.Equal(t, NotMet, All(all(Untold, NotMet, Met)))
	m := room(map[string]string{"drain": "letter 7"})
	w := m.Lab.WasteRoute("rinse")
	r := OfRoute(m, w, nil)
	require.NotEmpty(t, r.Drain)
	require.Equal(t, r, r.Within(m, all(Met, Met)))
	for _, bad := range []Meets{Untold, NotMet} {
		no := r.Within(m, all(Met, bad))
		require.Empty(t, no.Drain)
		require.True(t, no.Ask())
		require.Len(t, no.Over, 1)
		require.Contains(t, no.Words(), "ask first")
	}
	// What must stay out of a drum still says so.
	stop := m.Lab.Solution("stop")
	no := r.Within(m, all(NotMet), lab.Bath{Solution: stop, Strength: "stock"})
	require.Equal(t, []string{"developers", "silver"}, []string{no.Not[0].Drum, no.Not[1].Drum})
}

// TestWhichPermit: a limit belongs to the permit that it names, or to both, and to none that is
// refused or that nobody has recorded.
func TestWhichPermit(t *testing.T) {
	for _, c := range []struct {
		name          string
		drain, wash   string
		of            lab.Pouring
		inDrain, inWs int
	}{
		{"both", "letter 7", "letter 8", "", 1, 1},
		{"drain alone", "letter 7", "letter 8", lab.Drain, 1, 0},
		{"wash alone", "letter 7", "letter 8", lab.Wash, 0, 1},
		{"the drain is refused", "none", "letter 8", "", 0, 1},
		{"nobody has asked for the wash", "letter 7", "", "", 1, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := room(map[string]string{"drain": c.drain})
			m.Lab.Local.Permit.Wash = c.wash
			m.Lab.Local.Permit.Limits = []lab.PermitLimit{{Of: "silver", Most: bound(t, "1 mg/L"), For: c.of}}
			require.Len(t, LimitsOf(m, lab.Drain), c.inDrain)
			require.Len(t, LimitsOf(m, lab.Wash), c.inWs)
		})
	}
}
