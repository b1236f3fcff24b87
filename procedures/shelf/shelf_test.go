package shelf

import (
	"testing"

	"github.com/stretchr/testify/require"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

func on(t *testing.T, s string) unit.Date {
	t.Helper()
	d, err := unit.ParseDate(s)
	require.NoError(t, err)
	return d
}

func keeps(t *testing.T, s string) lab.SaidLife {
	t.Helper()
	var l lab.SaidLife
	if s != "" {
		require.NoError(t, l.UnmarshalText([]byte(s)))
	}
	return l
}

type line struct{ on, drew, level string }

func TestDiscardBy(t *testing.T) {
	usual := [5]string{"180 days", "60 days", "30 days"} // full, part, low, tray, poured
	for _, c := range []struct {
		name         string
		keeps        [5]string
		mixed        string
		made, bottle string
		log          []line
		day          string

		dies, governs, answer, state, safe, why string
	}{
		{name: "opened governs", keeps: usual, mixed: "2026-01-20", made: "500 mL", bottle: "500 mL", log: []line{{"2026-02-28", "120 mL", ""}},
			dies: "2026-04-29", governs: "opened", answer: Good, state: "part"},
		{name: "sealed counts from mixing", keeps: usual, mixed: "2026-01-20", made: "500 mL", bottle: "500 mL",
			dies: "2026-07-19", governs: "mixed", answer: Good, state: "full"},
		{name: "opened late, mixing governs", keeps: usual, mixed: "2025-10-01", made: "500 mL", bottle: "500 mL", log: []line{{"2026-03-10", "10 mL", ""}},
			dies: "2026-03-30", governs: "mixed", answer: Good, state: "part"},
		{name: "the draw that took it below half", keeps: usual, mixed: "2026-01-20", made: "500 mL", bottle: "500 mL", log: []line{{"2026-02-28", "120 mL", ""}, {"2026-03-07", "140 mL", ""}},
			dies: "2026-04-06", governs: "below half", answer: Good, state: "low"},
		{name: "half is not below half", keeps: usual, mixed: "2026-01-20", made: "500 mL", bottle: "500 mL", log: []line{{"2026-02-28", "250 mL", ""}},
			dies: "2026-04-29", governs: "opened", answer: Good, state: "part"},
		{name: "a fall does not lengthen a life", keeps: usual, mixed: "2026-01-20", made: "500 mL", bottle: "500 mL", log: []line{{"2026-01-25", "120 mL", ""}, {"2026-03-12", "200 mL", ""}},
			dies: "2026-03-26", governs: "opened", answer: Dying, state: "low"},
		{name: "only the opening is known, and it is low", keeps: usual, mixed: "2026-01-20", made: "500 mL", bottle: "500 mL", log: []line{{"2026-02-28", "", "opened"}, {"2026-03-14", "", "low"}},
			dies: "2026-03-30", governs: "below half", answer: Good, state: "low", safe: "the line before"},
		{name: "low when first seen, opening unknown", keeps: usual, mixed: "2026-01-20", made: "500 mL", bottle: "500 mL", log: []line{{"2026-03-14", "", "low"}},
			dies: "2026-02-19", governs: "below half", answer: Dead, state: "low", safe: "from mixing"},
		{name: "a bottle half filled is low from the first day", keeps: usual, mixed: "2026-03-01", made: "200 mL", bottle: "500 mL",
			dies: "2026-03-31", governs: "below half", answer: Good, state: "low"},
		{name: "a month from 31 January", keeps: [5]string{"1 month", "1 month", "1 month"}, mixed: "2026-01-31", made: "1 L", bottle: "1 L",
			dies: "2026-02-28", governs: "mixed", answer: Dead, state: "full"},
		{name: "a month from 31 January in a leap year", keeps: [5]string{"1 month"}, mixed: "2024-01-31", made: "1 L", bottle: "1 L", day: "2024-02-29",
			dies: "2024-02-29", governs: "mixed", answer: Dying, state: "full"},
		{name: "the day after", keeps: [5]string{"1 month"}, mixed: "2024-01-31", made: "1 L", bottle: "1 L", day: "2024-03-01",
			dies: "2024-02-29", governs: "mixed", answer: Dead, state: "full"},
		{name: "fourteen days are dying", keeps: [5]string{"20 days"}, mixed: "2026-03-08", made: "1 L", bottle: "1 L",
			dies: "2026-03-28", governs: "mixed", answer: Dying, state: "full"},
		{name: "fifteen are not", keeps: [5]string{"21 days"}, mixed: "2026-03-08", made: "1 L", bottle: "1 L",
			dies: "2026-03-29", governs: "mixed", answer: Good, state: "full"},
		{name: "a tray dies the same evening", keeps: [5]string{3: "8 h"}, mixed: "2026-03-14", made: "1 L",
			dies: "2026-03-14", governs: "in the tray", answer: Dying, state: "tray"},
		{name: "and is dead the next morning", keeps: [5]string{3: "8 h"}, mixed: "2026-03-14", made: "1 L", day: "2026-03-15",
			dies: "2026-03-14", governs: "in the tray", answer: Dead, state: "tray"},
		{name: "poured out for an evening, bottled or not", keeps: [5]string{4: "4 h"}, mixed: "2026-03-14", made: "1 L", bottle: "1 L",
			dies: "2026-03-14", governs: "poured", answer: Dying, state: "tray"},
		{name: "in a tray, though it would keep in a bottle", keeps: [5]string{"60 days", "", "", "7 days"}, mixed: "2026-03-11", made: "2 L", log: []line{{"2026-03-11", "100 mL", ""}},
			dies: "2026-03-18", governs: "in the tray", answer: Dying, state: "tray"},
		{name: "the same in a bottle", keeps: [5]string{"60 days", "", "", "7 days"}, mixed: "2026-03-11", made: "2 L", bottle: "2 L",
			dies: "2026-05-10", governs: "mixed", answer: Good, state: "full"},
		{name: "nobody has written a life", mixed: "2026-03-11", made: "1 L", bottle: "1 L",
			answer: Unsure, state: "full", why: "nobody has written how long soup, stock, keeps"},
		{name: "nobody has written a life, and it is low", mixed: "2026-03-11", made: "1 L", bottle: "1 L", log: []line{{"2026-03-12", "600 mL", ""}},
			answer: Unsure, state: "low", why: "nobody has written how long soup, stock, keeps"},
		{name: "opened, and that life is not written", keeps: [5]string{"720 days"}, mixed: "2026-03-01", made: "1 L", bottle: "1 L", log: []line{{"2026-03-02", "10 mL", ""}},
			answer: Unsure, state: "part", why: "nobody has written how long an opened bottle of it keeps"},
		{name: "used from the first day, it was never sealed", keeps: [5]string{"", "60 days", "30 days"}, mixed: "2026-02-14", made: "1 L", bottle: "1 L", log: []line{{"2026-02-14", "60 mL", ""}},
			dies: "2026-04-15", governs: "opened", answer: Good, state: "part"},
		{name: "opened a day later, nobody says how long it keeps sealed", keeps: [5]string{"", "60 days", "30 days"}, mixed: "2026-02-14", made: "1 L", bottle: "1 L", log: []line{{"2026-02-15", "60 mL", ""}},
			answer: Unsure, state: "part", why: "nobody has written how long a sealed bottle of it keeps"},
		{name: "past one life, what another would say is no matter", keeps: [5]string{"10 days"}, mixed: "2026-03-01", made: "1 L", bottle: "1 L", log: []line{{"2026-03-02", "10 mL", ""}},
			dies: "2026-03-11", governs: "mixed", answer: Dead, state: "part"},
	} {
		t.Run(c.name, func(t *testing.T) {
			k := c.keeps
			soup := &lab.Solution{Def: lab.Def{ID: "soup"}, Name: "soup", Keeps: lab.Keeps{Full: keeps(t, k[0]), Part: keeps(t, k[1]), Low: keeps(t, k[2]), Tray: keeps(t, k[3]), Poured: keeps(t, k[4])}}
			b := &lab.Batch{Def: lab.Def{ID: "1"}, Of: "soup.stock", Mixed: lab.SaidDate{Date: on(t, c.mixed)}}
			b.Made.Amount = lab.Say[unit.Volume](c.made)
			if c.bottle != "" {
				b.Bottle = lab.Say[unit.Volume](c.bottle)
			}
			for _, l := range c.log {
				e := lab.Entry{On: lab.SaidDate{Date: on(t, l.on)}, Level: lab.Level(l.level)}
				if l.level == "opened" {
					e.Level, e.Opened = "", true
				}
				if l.drew != "" {
					e.Drew = lab.Say[unit.Volume](l.drew)
				}
				b.Log = append(b.Log, e)
			}
			l := &lab.Lab{Solutions: []*lab.Solution{soup}, Batches: []*lab.Batch{b}}
			l.Index()
			day := c.day
			if day == "" {
				day = "2026-03-14"
			}
			book := figure.NewLedger()
			got := Judge(l, book, on(t, day))[0]
			require.Equal(t, c.dies, got.DiesOn.String())
			require.Equal(t, c.governs, got.Governs)
			require.Equal(t, c.answer, got.Answer)
			require.Equal(t, c.state, got.State)
			require.Equal(t, c.why, got.Why)
			require.Equal(t, c.answer == Good || c.answer == Dying, got.Days != nil, "days are counted until it is dead")
			if c.safe == "" {
				require.Empty(t, got.Safe)
			}
			require.Contains(t, got.Safe, c.safe)
			r := book.Get("1/dies")
			require.NotNil(t, r)
			require.Equal(t, c.dies, r.Date)
			require.Equal(t, c.dies == "", r.Refused())
		})
	}
}

// TestNotYet: what a log says of a day to come is a fault, and of today none.
func TestNotYet(t *testing.T) {
	b := &lab.Batch{Def: lab.Def{ID: "1", File: "shelf/1.toml"}, Mixed: lab.SaidDate{Date: on(t, "2026-03-14")}, Log: []lab.Entry{{On: lab.SaidDate{Date: on(t, "2026-03-15")}}}}
	l := &lab.Lab{Batches: []*lab.Batch{b}}
	require.Len(t, Check(l, on(t, "2026-03-15")), 0)
	require.Len(t, Check(l, on(t, "2026-03-14")), 1)
	require.Len(t, Check(l, on(t, "2026-03-13")), 2)
	require.Equal(t, "log[0].on", Check(l, on(t, "2026-03-14"))[0].At.Key)
}

// TestStands: a bottle that takes not one more piece of what is wanted counts as none, though it is good for
// other work; one that is dead, and one of another place, count as none either.
func TestStands(t *testing.T) {
	film, paper := &lab.Material{Base: lab.Film}, &lab.Material{Base: lab.Fibre}
	bath := lab.Bath{Solution: &lab.Solution{Def: lab.Def{ID: "fixer"}}, Strength: "stock"}
	of := func(base *lab.Material, count int) capacity.More {
		return capacity.More{Format: capacity.Format{Material: base}, Count: count, By: "area"}
	}
	good := func(more ...capacity.More) Batch { return Batch{Bath: bath, Answer: Good, More: more} }
	for _, c := range []struct {
		name                string
		batch               Batch
		base                lab.Base
		usable, spent, dead int
	}{
		{"room for both", good(of(film, 3), of(paper, 2)), lab.Film, 1, 0, 0},
		{"spent for film", good(of(film, 0), of(paper, 2)), lab.Film, 0, 1, 0},
		{"and good for paper", good(of(film, 0), of(paper, 2)), lab.Fibre, 1, 0, 0},
		{"nothing counted", good(), lab.Film, 1, 0, 0},
		{"dead", Batch{Bath: bath, Answer: Dead}, lab.Film, 0, 0, 1},
	} {
		s := Stands(figure.NewLedger(), []Batch{c.batch}, Wanted{Ref: bath.Ref(), Base: c.base})
		require.Len(t, s.Usable, c.usable, c.name)
		require.Len(t, s.SpentFor, c.spent, c.name)
		require.Len(t, s.Dead, c.dead, c.name)
	}
}
