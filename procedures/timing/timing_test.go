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
	s := &lab.Solution{Name: "developer", Strengths: map[string]*lab.Strength{"working": {Temperature: window, Push: &lab.Stops{Factor: lab.Say[unit.PerStop]("1.40 /stop"), Most: lab.SaidCount{Count: 2}}}}}
	s.ID = "developer"
	m := &lab.Material{Name: "film", Base: "film", Speed: lab.SaidCount{Count: 400}, Develop: []lab.Develop{{In: "developer.working", At: lab.Say[unit.Temperature]("20 °C"), Time: lab.Say[unit.Seconds]("10:00")}}}
	m.ID = "film"
	l := &lab.Lab{Solutions: []*lab.Solution{s}, Materials: []*lab.Material{m}}
	l.Index()
	return Times{Lab: l, Book: figure.NewLedger()}, m, lab.Bath{Solution: s, Strength: "working"}
}

// TestTimeAt: limits are decided on the unrounded time; beyond them there is no
// answer.
func TestTimeAt(t *testing.T) {
	slope := lab.Window{From: lab.Say[unit.Temperature]("18..28 °C"), Slope: lab.Say[unit.PerKelvin]("0.088 /K")}
	pair := func(at, time string) lab.Pair {
		return lab.Pair{At: lab.Say[unit.Temperature](at), Time: lab.Say[unit.Seconds](time)}
	}
	measured := lab.Window{From: lab.Say[unit.Temperature]("18..28 °C"), Measured: []lab.Pair{pair("20 °C", "10:00"), pair("24 °C", "7:00")}}
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
		{"as warm as it may be", lab.Window{StopAbove: lab.Say[unit.Temperature]("20 °C")}, 20, "10:00", ""},
		{"warmer than it may be", lab.Window{StopAbove: lab.Say[unit.Temperature]("19.5 °C")}, 20, "", "above 19.5 °C it does harm"},
		{"by two measured times", measured, 24, "7:00", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			times, m, b := film(t, c.window)
			r, _, ok := times.At(m, 0, b, c.at)
			require.Equal(t, c.why == "", ok)
			require.Equal(t, c.shown, r.Shown)
			require.Contains(t, r.Why, c.why)
		})
	}
}

// TestPushed: by how many stops somebody has tried, either way; what gets too short
// has no time.
func TestPushed(t *testing.T) {
	for _, c := range []struct {
		name       string
		stops      int
		push, pull *lab.Stops
		shortest   string
		id, shown  string
		why        string
	}{
		{"no stop", 0, nil, nil, "", "film/time@developer.working,20.0c", "10:00", ""},
		{"two stops: 10:00 × 1.4 × 1.4", 2, &lab.Stops{Factor: lab.Say[unit.PerStop]("1.40 /stop"), Most: lab.SaidCount{Count: 2}}, nil, "", "film/time@developer.working,20.0c,ei1600", "19:30", ""},
		{"one stop more than tried", 2, &lab.Stops{Factor: lab.Say[unit.PerStop]("1.40 /stop"), Most: lab.SaidCount{Count: 1}}, nil, "", "film/time@developer.working,20.0c,ei1600", "", "more than 1 stop has not been tried"},
		{"one stop less: 10:00 × 0.8", -1, nil, &lab.Stops{Factor: lab.Say[unit.PerStop]("0.80 /stop"), Most: lab.SaidCount{Count: 1}}, "", "film/time@developer.working,20.0c,ei200", "8:00", ""},
		{"two stops less than tried", -2, nil, &lab.Stops{Factor: lab.Say[unit.PerStop]("0.80 /stop"), Most: lab.SaidCount{Count: 1}}, "", "film/time@developer.working,20.0c,ei100", "", "more than 1 stop has not been tried"},
		{"a push is no pull", -1, &lab.Stops{Factor: lab.Say[unit.PerStop]("1.40 /stop"), Most: lab.SaidCount{Count: 2}}, nil, "", "film/time@developer.working,20.0c,ei200", "", "no pull has been tried in this developer"},
		{"nor a pull a push", 1, nil, &lab.Stops{Factor: lab.Say[unit.PerStop]("0.80 /stop"), Most: lab.SaidCount{Count: 2}}, "", "film/time@developer.working,20.0c,ei800", "", "no push has been tried in this developer"},
		{"exactly as long as is even", -1, nil, &lab.Stops{Factor: lab.Say[unit.PerStop]("0.80 /stop"), Most: lab.SaidCount{Count: 1}}, "8:00", "film/time@developer.working,20.0c,ei200", "8:00", ""},
		{"shorter than is even", -1, nil, &lab.Stops{Factor: lab.Say[unit.PerStop]("0.80 /stop"), Most: lab.SaidCount{Count: 1}}, "8:01", "film/time@developer.working,20.0c,ei200", "", "under 8:01: too short to be even"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var w lab.Window
			if c.shortest != "" {
				w.Shortest = lab.Say[unit.Seconds](c.shortest)
			}
			times, m, b := film(t, w)
			b.Decl().Push, b.Decl().Pull = c.push, c.pull
			r, _, ok := times.Pushed(m, 0, b, c.stops, 20)
			require.Equal(t, c.id, r.ID)
			require.Equal(t, c.why == "", ok)
			require.Equal(t, c.shown, r.Shown)
			require.Contains(t, r.Why, c.why)
		})
	}
}

// TestDilute: a stock on a cold shelf wants warmer water, as warm as the hot tap and
// no warmer; a warm one colder, as cold as ice water nearly is and no colder.
func TestDilute(t *testing.T) {
	for _, c := range []struct {
		volume, stock unit.Volume
		at, stockAt   unit.Temperature
		hot, shown    string
		why           string
	}{
		{600, 300, 20, 12, "50 °C", "28.0", ""},
		{600, 300, 20, 24, "50 °C", "16.0", ""},
		{600, 450, 20, 10, "50 °C", "50.0", ""},
		{600, 450, 20, 9.9, "50 °C", "", "hotter than the hot tap (50 °C): warm the stock first"},
		{600, 450, 20, 9.9, "", "50.5", ""},
		{600, 300, 20, 39, "50 °C", "1.0", ""},
		{600, 300, 20, 39.2, "50 °C", "", "colder than any tap: cool the stock first"},
	} {
		l := &lab.Lab{}
		if c.hot != "" {
			l.Place.Water.Hot = lab.Say[unit.Temperature](c.hot)
		}
		times := Times{Lab: l, Book: figure.NewLedger()}
		r := times.Dilute("tempering/x", c.volume, c.stock, c.at, c.stockAt)
		require.Equal(t, c.shown, r.Shown, "%v", c)
		require.Contains(t, r.Why, c.why)
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
			p := &lab.Process{Clock: lab.ClockRule{Drain: lab.Say[unit.Seconds]("10 s")}, Steps: []lab.ProcessStep{{ID: "develop", Agitate: "gentle"}}}
			p.ID = "process"
			a := lab.Agitate{First: turns(c.first)}
			if c.then != "" {
				a.Then = turns(c.then)
			}
			p.Agitate = map[string]lab.Agitate{"gentle": a}
			times := Times{Lab: &lab.Lab{}, Book: figure.NewLedger()}
			length := asMeasured.Of("process/time", figure.Constant(unit.MustParse[unit.Seconds](c.length).Value(), "time", "", figure.House))
			got := times.Agitate(p, "develop", "", figure.ShowTime(length, 1, unit.Nearest), times.Draining(p, "small", lab.Said[unit.Seconds]{}))
			if c.marks == nil {
				require.Empty(t, got.Marks)
				return
			}
			require.Equal(t, c.marks, got.Marks.Series)
		})
	}
}
