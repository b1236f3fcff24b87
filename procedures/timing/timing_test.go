package timing

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

func film(t *testing.T, window lab.Window) (Times, *lab.Material, lab.Bath) {
	t.Helper()
	s := &lab.Solution{Name: "developer", Strengths: map[string]*lab.Strength{"working": {Temperature: window, Push: &lab.Stops{Factor: unit.MustParse[unit.PerStop]("1.40 /stop"), Most: 2}}}}
	s.ID = "developer"
	m := &lab.Material{Name: "film", Speed: 400, Develop: []lab.Develop{{In: "developer.working", At: unit.MustParse[unit.Temperature]("20 °C"), Time: unit.MustParse[unit.Seconds]("10:00")}}}
	m.ID = "film"
	l := &lab.Lab{Solutions: []*lab.Solution{s}, Materials: []*lab.Material{m}}
	l.Index()
	return Times{Lab: l, Book: figure.NewLedger()}, m, lab.Bath{Solution: s, Strength: "working"}
}

// TestTimeAt: limits are decided on the unrounded time; beyond them there is no
// answer.
func TestTimeAt(t *testing.T) {
	slope := lab.Window{From: unit.MustParse[unit.Temperature]("18..28 °C"), Slope: unit.MustParse[unit.PerKelvin]("0.088 /K")}
	pair := func(at, time string) lab.Pair {
		return lab.Pair{At: unit.MustParse[unit.Temperature](at), Time: unit.MustParse[unit.Seconds](time)}
	}
	measured := lab.Window{From: unit.MustParse[unit.Temperature]("18..28 °C"), Measured: []lab.Pair{pair("20 °C", "10:00"), pair("24 °C", "7:00")}}
	for _, c := range []struct {
		name   string
		window lab.Window
		at     float64
		shown  string
		why    string
	}{
		{"as measured", slope, 20, "10:00", ""},
		{"as measured, without a slope", lab.Window{}, 20, "10:00", ""},
		{"warmer", slope, 22.5, "8:00", ""},
		{"colder", slope, 18, "12:00", ""},
		{"the window's edge still counts", slope, 18, "12:00", ""},
		{"below the window", slope, 17.5, "", "outside 18 to 28 °C"},
		{"above the window", slope, 28.5, "", "outside 18 to 28 °C"},
		{"without a slope", lab.Window{}, 21, "", "no slope has been measured"},
		{"too short", slope, 28, "", "under 5:00"},
		{"by two measured times", measured, 24, "7:00", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			times, m, b := film(t, c.window)
			id, _, ok := times.At(m, 0, b, c.at)
			r, found := times.Book.Get(id)
			require.True(t, found)
			require.Equal(t, c.why == "", ok)
			require.Equal(t, c.shown, r.Shown)
			require.Contains(t, r.Why, c.why)
		})
	}
}

// TestAgitate: an agitation that would run into the drain is left out, none
// begins before the first has ended.
func TestAgitate(t *testing.T) {
	turns := func(s string) (t lab.Turns) {
		if err := t.UnmarshalText([]byte(s)); err != nil {
			panic(err)
		}
		return t
	}
	for _, c := range []struct {
		name, first, then, length string
		marks                     []float64
	}{
		{"every minute to 9:00", "6 in 30 s", "4 every 60 s", "9:30", []float64{60, 120, 180, 240, 300, 360, 420, 480, 540}},
		{"one that fits exactly", "6 in 30 s", "4 every 60 s", "1:20", []float64{60}},
		{"one that runs into the drain", "6 in 30 s", "4 every 60 s", "1:19", nil},
		{"after a long first", "continuous for 60 s", "4 every 30 s", "2:00", []float64{60, 90}},
		{"none after the first", "continuous for 15 s", "", "1:00", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := &lab.Process{Clock: lab.ClockRule{Drain: unit.MustParse[unit.Seconds]("10 s")}, Steps: []lab.ProcessStep{{ID: "develop", Agitate: "gentle"}}}
			p.ID = "process"
			a := lab.Agitate{First: turns(c.first)}
			if c.then != "" {
				a.Then = turns(c.then)
			}
			p.Agitate = map[string]lab.Agitate{"gentle": a}
			times := Times{Lab: &lab.Lab{}, Book: figure.NewLedger()}
			length := asMeasured.Of("process/time", figure.Constant(unit.MustParse[unit.Seconds](c.length).Value(), "time", "", figure.House))
			got := times.Agitate(p, "develop", "", figure.ShowTime(length, 1, unit.Nearest), times.Draining(p, "small", unit.Quantity[unit.Seconds]{}))
			if c.marks == nil {
				require.Empty(t, got.Marks)
				return
			}
			r, ok := times.Book.Get(got.Marks)
			require.True(t, ok)
			require.Equal(t, c.marks, r.Series)
		})
	}
}
