package draw

import (
	"strconv"

	"wetside/build/render/wording"
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// Timeline is a step's agitation in seconds: how long it is, the first turns, how long later
// ones last and when each begins, and when draining begins. 0: there is none.
type Timeline struct {
	Length, First, Lasts, Drain float64
	Marks                       []float64
}

// TimelineOf reads a ruler for one choice; false where its time is not known.
func TimelineOf(r page.Ruler, choice int) (Timeline, bool) {
	sec := func(list []*figure.Record) float64 {
		if len(list) == 0 {
			return 0
		}
		rec := wording.Pick(list, choice)
		if rec.Refused() {
			return 0
		}
		if x, err := strconv.ParseFloat(rec.Rounded, 64); err == nil {
			return x
		}
		return rec.Value
	}
	t := Timeline{Length: sec(r.Length), First: sec(r.First), Lasts: sec(r.Lasts), Drain: sec(r.Drain)}
	if len(r.Marks) > 0 {
		t.Marks = wording.Pick(r.Marks, choice).Series
	}
	return t, t.Length > 0
}

// Every is after how many minutes a figure stands on a scale of so many
// millimetres a minute.
func Every(pitch, need float64) int {
	for _, n := range []int{1, 2, 5, 10, 15, 30} {
		if pitch*float64(n) >= need {
			return n
		}
	}
	return 60
}
