package timing

import (
	"math/big"
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

func said[T unit.Kind](text string) lab.Said[T] {
	if text == "" {
		return lab.Said[T]{}
	}
	return lab.Say[T](text)
}

func constant[T unit.Kind](v T) figure.Figure[T] { return figure.Constant(v, "", "", figure.House) }

// TestFix: a film stays in the fixer for so many times its clearing time, longer in a
// slower bath, never less than the step's least, and up to the clock's next step of
// fifteen seconds. Of a film whose clearing time nobody has measured there is no time.
func TestFix(t *testing.T) {
	for _, c := range []struct {
		name, clears, least string
		grain               lab.Grain
		ratio               unit.Factor
		fresh, used, by     string
		why                 string
	}{
		{name: "twice the clearing time", clears: "60 s", ratio: 1.5, fresh: "2:00", used: "3:00"},
		{name: "a tabular grain three times", clears: "60 s", grain: "tabular", ratio: 1.5, fresh: "3:00", used: "4:30"},
		{name: "a second more is a step of the clock more", clears: "61 s", ratio: 2, fresh: "2:15", used: "4:15"},
		{name: "the step’s least is longer", clears: "50 s", least: "3:10", ratio: 1.2, fresh: "3:15", used: "3:15", by: "1:40"},
		{name: "the step’s least is as long", clears: "60 s", least: "2:00", ratio: 1, fresh: "2:00", used: "2:00", by: "2:00"},
		{name: "the step’s least is shorter, and the working goes up to the second", clears: "60.2 s", least: "1:00", ratio: 2, fresh: "2:15", used: "4:15", by: "2:01"},
		{name: "nobody has measured it", least: "3:00", ratio: 1.5, why: "the clearing time of this film has not been measured: fix for 2 times the time it takes to clear"},
		{name: "nobody has measured a tabular one", grain: "tabular", ratio: 1.5, why: "the clearing time of this film has not been measured: fix for 3 times the time it takes to clear"},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := &lab.Material{Name: "film", Base: "film", Grain: c.grain, Clears: said[unit.Seconds](c.clears)}
			m.ID = "film"
			p := &lab.Process{Steps: []lab.ProcessStep{{ID: "wash"}, {ID: "fix", Least: said[unit.Seconds](c.least)}}}
			p.ID = "process"
			times := Times{Lab: &lab.Lab{}, Book: figure.NewLedger()}
			r, fig, why := times.Fix(p, 1, m)
			require.Equal(t, "process/time.fix@film", r.ID)
			require.Equal(t, c.fresh, r.Shown)
			require.Equal(t, c.why, r.Why)
			require.Equal(t, c.why, why)
			used := times.FixUsed("9/fix@film", p, 1, m, constant(c.ratio))
			if c.why != "" {
				require.Nil(t, used, "no time of its own where nobody has measured it")
				return
			}
			require.Equal(t, r, fig.Record())
			require.Equal(t, c.used, used.Shown)
			require.Equal(t, c.least != "", r.Formula == &fixingLeast.Formula, "a least that nobody has written is no part of the working")
			require.Equal(t, c.least != "", used.Formula == &fixingLeast.Formula)
			if c.by != "" {
				require.Equal(t, c.by, r.From()[0].Shown, "by clearing alone")
				require.NotEmpty(t, used.From()[0].Shown)
				require.Equal(t, "up", used.From()[0].Round.Rule)
			}
		})
	}
}

// TestDraining: a tank empties no faster than it fills.
func TestDraining(t *testing.T) {
	for _, c := range []struct {
		name, drain, pour string
		seconds           unit.Seconds
		id, called        string
	}{
		{"the process’s own", "12 s", "", 12, "", "draining"},
		{"pouring takes longer", "12 s", "13 s", 13, "process/draining@tall", "draining"},
		{"pouring takes part of a second longer", "12 s", "12.5 s", 12.5, "process/draining@tall", "draining"},
		{"pouring takes as long", "12 s", "12 s", 12, "", "draining"},
		{"pouring is faster", "12 s", "9 s", 12, "", "draining"},
		{"nobody has written it", "", "", 0, "", "draining: nobody has written how long it takes"},
		{"nobody has written it, and pouring takes its time", "", "9 s", 9, "process/draining@tall", "draining: nobody has written how long it takes"},
	} {
		p := &lab.Process{Clock: lab.ClockRule{Drain: said[unit.Seconds](c.drain)}}
		p.ID = "process"
		l := &lab.Lab{Processes: []*lab.Process{p}}
		l.Index()
		got := Times{Lab: l, Book: figure.NewLedger()}.Draining(p, "tall", said[unit.Seconds](c.pour))
		require.Equal(t, c.seconds, got.Value, c.name)
		require.Equal(t, c.id, got.ID(), c.name)
		input := drainAt.Of("x", constant(unit.Seconds(0)), constant(unit.Seconds(60)), got).Record().Inputs[2]
		if r := got.Record(); r != nil {
			input = r.Inputs[0]
			require.Equal(t, "up", r.Round.Rule, c.name)
		}
		require.Equal(t, c.called, input.Name, c.name)
	}
}

// TestClock: draining begins so long before the end of a step, unless the step is not
// longer; the next step begins when the one before has ended as it is printed.
func TestClock(t *testing.T) {
	for _, c := range []struct {
		name              string
		length, drain     unit.Seconds
		at, drains, after string
	}{
		{"a step that drains", 120, 12, "0:00", "1:48", "2:00"},
		{"half a second earlier rather than later", 120, 12.5, "0:00", "1:47", "2:00"},
		{"as it is printed", 118, 12, "0:00", "1:48", "2:00"},
		{"a step longer than it drains", 15, 14, "0:00", "0:01", "0:15"},
		{"a step no longer than it drains", 15, 15, "0:00", "", "0:15"},
		{"a step shorter than it drains", 15, 16, "0:00", "", "0:15"},
		{"a second of draining", 120, 1, "0:00", "1:59", "2:00"},
		{"nothing drains", 120, 0, "0:00", "", "2:00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			times := Times{Lab: &lab.Lab{}, Book: figure.NewLedger()}
			clock := times.NewClock("process", "film")
			length := figure.ShowTime(asMeasured.Of("process/time", constant(c.length)), 15, unit.Nearest)
			at, drains := clock.Step("develop", length, constant(c.drain))
			require.Equal(t, c.at, at.Shown)
			require.Equal(t, c.after, clock.Now().Shown)
			if c.drains == "" {
				require.Nil(t, drains)
				return
			}
			require.Equal(t, c.drains, drains.Shown)
		})
	}
}

// TestRounded: hands follow a time as the card prints it; what is printed as no time, or
// not at all, stays as it is.
func TestRounded(t *testing.T) {
	f := asMeasured.Of("process/time", constant(unit.Seconds(118)))
	require.Equal(t, unit.Seconds(120), Rounded(figure.ShowTime(f, 15, unit.Nearest), 15).Value)
	require.Equal(t, unit.Seconds(118), Rounded(f.Show(figure.KindAmount, "100", unit.Nearest, ""), 15).Value)
	require.Equal(t, unit.Seconds(118), Rounded(f, 15).Value)
}

// TestStepTime: a step's own time goes to the second, from an hour on in hours; the clock
// counts both in seconds.
func TestStepTime(t *testing.T) {
	for _, c := range []struct{ time, printed, clock string }{
		{"59:59", "59:59 s", "59:59"},
		{"60 min", "1 h", "60:00"},
		{"1.5 h", "1.5 h", "90:00"},
		{"40.4 s", "0:40 s", "0:40"},
		{"40.6 s", "0:41 s", "0:41"},
	} {
		p := &lab.Process{Steps: []lab.ProcessStep{{ID: "wash", Time: lab.StepTime{Fixed: said[unit.Seconds](c.time)}, Over: said[unit.Seconds](c.time)}}}
		p.ID = "process"
		times := Times{Lab: &lab.Lab{}, Book: figure.NewLedger()}
		r, fig := times.Fixed(p, 0)
		require.Equal(t, c.printed, r.Shown+" "+r.Unit, c.time)
		require.Equal(t, c.clock, fig.Record().Shown, c.time)
		over, _ := times.Over(p, 0)
		require.Equal(t, c.printed, over.Shown+" "+over.Unit, c.time)
	}
}

// TestApart: how far two times lie apart, as they are printed, is rounded up, so that no
// two share a tank by a rounding.
func TestApart(t *testing.T) {
	times := Times{Lab: &lab.Lab{}, Book: figure.NewLedger()}
	show := func(id string, s unit.Seconds, step float64) figure.Figure[unit.Seconds] {
		return figure.ShowTime(asMeasured.Of(id, constant(s)), step, unit.Nearest)
	}
	for i, c := range []struct {
		a, b  unit.Seconds
		step  float64
		apart string
	}{{600, 615, 15, "0:15"}, {607, 608, 15, "0:15"}, {615, 600, 15, "0:15"}, {600, 606, 15, "0:00"}, {600, 615.2, 0.1, "0:16"}} {
		got := times.Apart("apart", show("a", c.a, c.step), show("b", c.b, c.step))
		require.Equal(t, c.apart, got.Record().Shown, "%d", i)
	}
}

// TestCold: what is filled up is the rest after the hot water as it was measured.
func TestCold(t *testing.T) {
	times := Times{Lab: &lab.Lab{Place: lab.Place{Water: lab.Water{Hot: said[unit.Temperature]("50 °C")}}}, Book: figure.NewLedger()}
	season := lab.Season{Name: "winter", At: said[unit.Temperature]("8 °C")}
	hot := times.Hot("hot", 600, 20, season)
	require.InDelta(t, 600*12.0/42, float64(hot.Value), 0.001)
	for _, c := range []struct{ step, cold, by string }{{"1", "429", "1"}, {"5", "430", "5"}, {"0.5", "428.5", "0.5"}} {
		shown := hot.Show(figure.KindAmount, c.step, unit.Nearest, "cylinder")
		cold := times.Cold("cold", big.NewRat(600, 1), shown, shown.Record()).Record()
		require.Equal(t, c.cold, cold.Shown, c.step)
		require.Equal(t, c.by, cold.Round.Step, c.step)
		require.Equal(t, "nearest", cold.Round.Rule, c.step)
	}
	none := times.Book.Refuse("none", figure.KindAmount, "hot water", "ml", "too little to measure", figure.House)
	cold := times.Cold("cold", big.NewRat(600, 1), hot, none).Record()
	require.Equal(t, "600 by 1", cold.Shown+" by "+cold.Round.Step, "all of it is cold")
}
