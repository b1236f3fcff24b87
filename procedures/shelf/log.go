package shelf

import (
	"fmt"
	"math/big"

	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// Check finds what cannot be so in the logs of batches on the binder's day: what
// has not happened yet. What does not hang on the day, lab.Check finds.
func Check(l *lab.Lab, day unit.Date) []lab.Problem {
	var out []lab.Problem
	future := func(d unit.Date, b *lab.Batch, key string) {
		if day.Before(d) {
			out = append(out, lab.Problem{At: b.At(key), Code: "date",
				What: fmt.Sprintf("%s has not come yet: this binder is made for %s", d, day),
				Hint: "correct the date, or make the binder for that day or a later one with --on"})
		}
	}
	for _, b := range l.Batches {
		future(b.Mixed.Date, b, "mixed")
		for i, e := range b.Log {
			future(e.On.Date, b, lab.EntryKey(i)+".on")
		}
	}
	return out
}

// moment is a day of a batch's life as it is written.
type moment struct {
	on lab.SaidDate
	// safe says why an earlier day was taken than the log shows, or is empty.
	safe string
}

// story is what the log of a batch tells, read once in its order.
type story struct {
	opened, low moment
	left        *big.Rat
	draws       []int // entries that draw
	work        []lab.Pieces
	cleared     int // the last entry with a clearing time, or -1
	place       int
	second      bool   // something was worked while it was the second of two baths
	leftWhy     string // why what is left is not known
}

// read follows the log. A level that somebody saw without saying when it came
// about began at the latest on the day it was seen and at the earliest on the
// last day on which it was otherwise: the earlier is taken.
func read(b *lab.Batch) story {
	s := story{cleared: -1, place: int(b.Place)}
	start := b.Start()
	holds, bottled := b.Holds()
	if !bottled {
		holds = start
	}
	s.left = new(big.Rat).Set(start.Exact())
	if belowHalf(s.left, holds.Exact()) {
		s.low = moment{on: b.Mixed}
	}
	last := moment{on: b.Mixed}
	sinceMixed := true // last is the day of mixing
	seen := lab.Level("")
	for i, e := range b.Log {
		here := moment{on: e.On}
		drew := e.Drew.Given()
		if e.Drew.Given() {
			s.draws = append(s.draws, i)
			s.left.Sub(s.left, e.Drew.Exact())
		}
		since := last
		opening := e.Opened && s.opened.on.IsZero() // sealed until then
		if drew || opening || last.on.Date == here.on.Date {
			since = here
		} else if sinceMixed {
			since.safe = "seen that day; nobody wrote since when, so it counts from mixing"
		} else {
			since.safe = "seen that day; nobody wrote since when, so it counts from the line before"
		}
		touched := e.Opened || drew || len(e.Worked) > 0 || e.Cleared.Given()
		switch {
		case !s.opened.on.IsZero():
		case touched:
			s.opened = here
		case e.Level == "part" || e.Level == "low":
			s.opened = since
		}
		byDraws := belowHalf(s.left, holds.Exact())
		switch {
		case !s.low.on.IsZero():
		case byDraws:
			s.low = here
		case e.Level == "low":
			s.low = since
		}
		if e.Level != "" {
			seen = e.Level
		}
		if e.Rotated {
			s.place = 1
		}
		if e.Place != 0 {
			s.place = int(e.Place)
		}
		s.second = s.second || s.place == 2 && len(e.Worked) > 0
		s.work = append(s.work, e.Worked...)
		if e.Cleared.Given() {
			s.cleared = i
		}
		last, sinceMixed = here, false
	}
	switch {
	case seen == "low" && !belowHalf(s.left, holds.Exact()):
		s.leftWhy = "seen below half, and the draws of the log do not say so: some are not written"
	case seen == "part" && s.left.Cmp(start.Exact()) == 0:
		s.leftWhy = "seen part empty, and the log has no draw"
	}
	return s
}

func belowHalf(left, holds *big.Rat) bool {
	return new(big.Rat).Add(left, left).Cmp(holds) < 0
}
