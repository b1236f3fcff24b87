package timing

import (
	"strings"
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
		{"rounded to the nearest step of the clock, up", slope, 21.2, "9:00", ""},
		{"and down", slope, 21, "9:15", ""},
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

// TestLengths: a time that was measured stands as it was written; one that is too short to
// be even, that the clock rounds to nothing or that no clock reaches is none. A print has
// no shortest time but its developer's.
func TestLengths(t *testing.T) {
	wide := func(slope, shortest string) lab.Window {
		return lab.Window{From: lab.Say[unit.Temperature]("8..28 °C"), Slope: said[unit.PerKelvin](slope), Shortest: said[unit.Seconds](shortest)}
	}
	for _, c := range []struct {
		name, time string
		base       lab.Base
		window     lab.Window
		at         float64
		shown, why string
	}{
		{"no step of the clock", "10:07", "film", wide("", ""), 20, "10:07", ""},
		{"the house’s shortest", "5:00", "film", wide("", ""), 20, "5:00", ""},
		{"a second under it", "4:59", "film", wide("", ""), 20, "", "under 5:00: too short to be even"},
		{"no print’s", "4:59", "fibre", wide("", ""), 20, "4:59", ""},
		{"the developer’s own, for a print too", "0:59", "fibre", wide("", "1:00"), 20, "", "under 1:00: too short to be even"},
		{"a whole day", "24 h", "fibre", wide("", ""), 20, "1440:00", ""},
		{"more than a day", "10:00", "fibre", wide("0.5 /K", ""), 8, "", "it comes to more than a day: look at the slope"},
		{"more than half a step", "10 s", "fibre", wide("0.05 /K", ""), 24, "0:15", ""},
		{"less than half a step", "10 s", "fibre", wide("0.05 /K", ""), 28, "", "it is shorter than half of 15 s"},
		{"half a second", "0.5 s", "fibre", wide("", ""), 20, "0:01", ""},
	} {
		times, m, b := film(t, c.window)
		m.Base, m.Develop[0].Time = c.base, lab.Say[unit.Seconds](c.time)
		r, fig, ok := times.At(m, 0, b, c.at)
		require.Equal(t, c.shown, r.Shown, c.name)
		require.Contains(t, r.Why, c.why, c.name)
		require.Equal(t, c.why == "", ok && fig.Record() == r, c.name)
	}
	times, m, b := film(t, lab.Window{})
	b.Strength = "stock" // of which nobody has said anything
	r, _, ok := times.At(m, 0, b, 20)
	require.True(t, ok)
	require.Equal(t, "10:00", r.Shown)
	r, ei, ok := times.Pushed(m, 0, b, 1, 20)
	require.False(t, ok)
	require.Equal(t, "800", ei.Shown)
	require.Equal(t, "no push has been tried in this developer", r.Why)
}

// TestNoSpeed: without a film's speed, or a time to start from, there is nothing to push.
func TestNoSpeed(t *testing.T) {
	for _, c := range []struct {
		name  string
		speed lab.Count
		at    float64
		ok    bool
	}{{"a film of speed 400", 400, 20, true}, {"of speed 1", 1, 20, true}, {"no speed", 0, 20, false}, {"no time at this temperature", 400, 21, false}} {
		times, m, b := film(t, lab.Window{})
		m.Speed = lab.SaidCount{Count: c.speed}
		r, ei, ok := times.Pushed(m, 0, b, 1, c.at)
		require.Equal(t, c.ok, ok, c.name)
		require.Equal(t, c.ok, ei != nil, c.name)
		require.Equal(t, c.at != 20, r.Shown == "", c.name)
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
		{"one stop, to the nearest step of the clock: 10:00 × 1.37 are 13:42", 1, &lab.Stops{Factor: lab.Say[unit.PerStop]("1.37 /stop"), Most: lab.SaidCount{Count: 1}}, nil, "", "film/time@developer.working,20.0c,ei800", "13:45", ""},
		{"one stop more than the two that were tried", 3, &lab.Stops{Factor: lab.Say[unit.PerStop]("1.40 /stop"), Most: lab.SaidCount{Count: 2}}, nil, "", "film/time@developer.working,20.0c,ei3200", "", "more than 2 stops have not been tried"},
		{"a push that no clock reaches", 4, &lab.Stops{Factor: lab.Say[unit.PerStop]("4 /stop"), Most: lab.SaidCount{Count: 4}}, nil, "", "film/time@developer.working,20.0c,ei6400", "", "it comes to more than a day: look at the factor for one stop"},
		{"a pull that the clock rounds to nothing", -4, nil, &lab.Stops{Factor: lab.Say[unit.PerStop]("0.25 /stop"), Most: lab.SaidCount{Count: 4}}, "1 s", "film/time@developer.working,20.0c,ei25", "", "it is shorter than half of 15 s"},
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
			if ok && c.stops != 0 {
				require.Equal(t, map[bool]string{true: "push.time", false: "pull.time"}[c.stops > 0], r.Formula.ID)
			}
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
		name, first, then, lasts, length, drain string
		marks                                   string
		times, turns, drains                    string
	}{
		{"every minute to 9:00", "6 in 30 s", "4 every 60 s", "", "9:30", "10 s", "1:00 2:00 3:00 4:00 5:00 6:00 7:00 8:00 9:00", "9", "42", "9:20"},
		{"one that fits exactly", "6 in 30 s", "4 every 60 s", "", "1:20", "10 s", "1:00", "1", "10", "1:10"},
		{"one that runs into the drain", "6 in 30 s", "4 every 60 s", "", "1:19", "10 s", "", "", "", ""},
		{"one that lasts as long as it is written", "6 in 30 s", "4 every 60 s", "9 s", "1:19", "10 s", "1:00", "1", "10", "1:09"},
		{"one lasts half the interval at most", "6 in 10 s", "1 every 10 s", "", "0:25", "10 s", "0:10", "1", "7", "0:15"},
		{"after a long first, which nobody counts", "continuous for 60 s", "4 every 30 s", "", "2:00", "10 s", "1:00 1:30", "2", "", "1:50"},
		{"the first is continuous and short", "continuous for 15 s", "4 every 30 s", "", "1:20", "10 s", "0:30 1:00", "2", "", "1:10"},
		{"the first ends after the second would begin", "6 in 61 s", "4 every 60 s", "", "2:30", "10 s", "2:00", "1", "", "2:20"},
		{"the first ends after all others", "continuous for 120 s", "4 every 60 s", "", "1:30", "10 s", "", "", "", ""},
		{"none at first", "", "4 every 60 s", "", "2:30", "10 s", "1:00 2:00", "2", "", "2:20"},
		{"a second of draining", "", "4 every 60 s", "", "2:30", "1 s", "1:00 2:00", "2", "", "2:29"},
		{"draining that is rounded early", "", "4 every 60 s", "", "2:30", "1.5 s", "1:00 2:00", "2", "", "2:28"},
		{"nothing drains", "", "4 every 60 s", "", "2:30", "", "1:00 2:00", "2", "", ""},
		{"none after the first", "continuous for 15 s", "", "", "1:00", "10 s", "", "", "", ""},
		{"none at all", "", "", "", "1:00", "10 s", "", "", "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			p := &lab.Process{Clock: lab.ClockRule{Drain: said[unit.Seconds](c.drain)}, Steps: []lab.ProcessStep{{ID: "soak"}, {ID: "develop", Agitate: "gentle"}, {ID: "stop"}}}
			p.ID = "process"
			a := lab.Agitate{Lasts: said[unit.Seconds](c.lasts)}
			if c.first != "" {
				a.First = turns(c.first)
			}
			if c.then != "" {
				a.Then = turns(c.then)
			}
			p.Agitate = map[string]lab.Agitate{"gentle": a}
			l := &lab.Lab{Processes: []*lab.Process{p}}
			l.Index()
			times := Times{Lab: l, Book: figure.NewLedger()}
			length := asMeasured.Of("process/time", figure.Constant(unit.MustParse[unit.Seconds](c.length).Value(), "time", "", figure.House))
			drain := times.Draining(p, "small", lab.Said[unit.Seconds]{})
			got := times.Agitate(p, "develop", nil, figure.ShowTime(length, 1, unit.Nearest), drain)
			require.Equal(t, c.first != "", got.First != nil, "what is done at first is told")
			require.Equal(t, Agitation{}, times.Agitate(p, "stop", nil, length, drain), "a step that nobody agitates")
			if c.marks == "" {
				require.Equal(t, Agitation{First: got.First}, got)
				return
			}
			require.Equal(t, c.marks, got.Marks.Shown)
			var marks []string
			for _, at := range got.Marks.Series {
				marks = append(marks, figure.Clock(at))
			}
			require.Equal(t, c.marks, strings.Join(marks, " "))
			require.Equal(t, "down", got.Count.Round.Rule)
			require.Equal(t, strings.Fields(c.marks)[len(got.Marks.Series)-1], got.Last.Shown)
			require.Equal(t, c.times, got.Times.Shown)
			require.Equal(t, c.lasts == "", strings.HasSuffix(got.Count.Inputs[2].Name, "nobody has written how long"))
			require.Equal(t, c.turns, shown(got.Turns))
			require.Equal(t, c.drains, shown(got.Drain))
		})
	}
}

func shown(r *figure.Record) string {
	if r == nil {
		return ""
	}
	return r.Shown
}
