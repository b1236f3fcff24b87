package capacity

import (
	"fmt"
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// monthArea adds a month's work as an area.
var monthArea = figure.Register(&figure.FN[unit.Area, unit.Area]{
	Formula: figure.Formula{ID: "use.area", Name: "a month's work as an area", Result: "M", Unit: "cm²",
		Terms: []figure.Term{{Symbol: "a", Meaning: "area of each entry", Unit: "cm²"}},
		Text:  "sum(a)", Source: "the lab's own count", Origin: figure.Standard},
	Go: figure.Total[unit.Area],
})

// entryArea is one entry of a month's work as an area.
var entryArea = figure.Register(&figure.F2[unit.Area, unit.Factor, unit.Area]{
	Formula: figure.Formula{ID: "use.entry", Name: "area of an entry", Result: "a", Unit: "cm²",
		Terms: []figure.Term{{Symbol: "n", Meaning: "pieces in a month"},
			{Symbol: "A", Meaning: "area of one", Unit: "cm²"}},
		Text: "n * A", Source: "plain arithmetic", Origin: figure.Standard},
	Go: func(n unit.Factor, a unit.Area) unit.Area { return unit.Area(n) * a },
})

// perDay is the month's work as pieces of one format in a day.
var perDay = figure.Register(&figure.F3[unit.Factor, unit.Area, unit.Area, unit.Factor]{
	Formula: figure.Formula{ID: "use.day", Name: "pieces in a day", Result: "r", Unit: "a day",
		Terms: []figure.Term{{Symbol: "M", Meaning: "a month's work", Unit: "cm²"},
			{Symbol: "A", Meaning: "area of one", Unit: "cm²"}, {Symbol: "d", Meaning: "days in a month"}},
		Text: "M / A / d", Valid: "the month's work counted as so many of this format, by area",
		Source: "the lab's own count", Origin: figure.Standard},
	Go: func(m, a unit.Area, d unit.Factor) unit.Factor {
		return unit.Factor(float64(m) / float64(a) / float64(d))
	},
})

// poured adds up the days of a month on which a bath is poured.
var poured = figure.Register(&figure.FN[unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "use.pourings", Name: "days of a month on which it is poured", Result: "d", Unit: "",
		Terms: []figure.Term{{Symbol: "d_i", Meaning: "days of each process"}},
		Text:  "sum(d_i)", Valid: "each process pours on days of its own", Source: "the lab's own count",
		Origin: figure.Standard},
	Go: figure.Total[unit.Factor],
})

// perPouring is the month's work as pieces of one format each time that a bath is poured.
var perPouring = figure.Register(&figure.F3[unit.Factor, unit.Area, unit.Area, unit.Factor]{
	Formula: figure.Formula{ID: "use.pouring", Name: "done each time it is poured", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "M", Meaning: "a month's work", Unit: "cm²"},
			{Symbol: "A", Meaning: "area of one", Unit: "cm²"}, {Symbol: "d", Meaning: "days on which it is poured"}},
		Text: "max(1, floor(M / A / d))", Valid: "the work spread evenly over the days, counted by area; not poured for less than one",
		Source: "the lab's own count", Origin: figure.Standard},
	Go: func(m, a unit.Area, d unit.Factor) unit.Factor {
		return max(1, whole(float64(m)/float64(a)/float64(d)))
	},
})

const daysInMonth = 365.25 / 12

// DaysInMonth is how many days a month of work has.
var DaysInMonth = figure.Constant(unit.Factor(daysInMonth), "days in a month", "a twelfth of 365.25 days",
	figure.Standard)

// Use is a month's work that goes through a bath, as pieces of each format.
type Use struct {
	entries []useEntry
}

type useEntry struct {
	pieces  lab.Pieces
	process string
	nth     int // of its process's entries, from 1
}

// UseOf gathers a month's work of all the processes that use a bath.
func UseOf(l *lab.Lab, processes []string) Use {
	var u Use
	for _, id := range processes {
		for i, p := range l.Place.Use[id] {
			u.entries = append(u.entries, useEntry{p, id, i + 1})
		}
	}
	return u
}

// OfBase is the part of a month's work that is done on one base; rolls counted
// as equivalents are film.
func (u Use) OfBase(l *lab.Lab, base lab.Base) Use {
	var out Use
	for _, e := range u.entries {
		of := lab.Film
		if f, ok := FormatNamed(l, e.pieces.Of); ok {
			of = f.Material.Base
		}
		if of == base {
			out.entries = append(out.entries, e)
		}
	}
	return out
}

// FormatsIn are the formats that a month's work sends through one process.
func (u Use) FormatsIn(l *lab.Lab, process string) []Format {
	var out []Format
	for _, e := range u.entries {
		if f, ok := FormatNamed(l, e.pieces.Of); ok && e.process == process {
			out = append(out, f)
		}
	}
	return out
}

// Names reports whether a month's work counts pieces of a format.
func (u Use) Names(f Format) bool {
	return slices.ContainsFunc(u.entries, func(e useEntry) bool { return e.pieces.Of == f.Ref() })
}

// Most is the reference of the format of which a month treats the largest area,
// among those that are asked for; of two alike, the first by name. It is empty where
// a month names none of them.
func (u Use) Most(l *lab.Lab, among []Format) string {
	areas := map[string]float64{}
	for _, e := range u.entries {
		for _, f := range among {
			if area, ok := f.Area(); f.Ref() == e.pieces.Of && ok {
				areas[f.Ref()] += float64(e.pieces.Count) * float64(area.Value)
				break
			}
		}
	}
	most := ""
	for _, ref := range keys(areas) {
		if most == "" || areas[ref] > areas[most] {
			most = ref
		}
	}
	return most
}

// Known reports whether anything was written.
func (u Use) Known() bool { return len(u.entries) > 0 }

// day is the month's work on the base of a format, as pieces of that format in a
// day.
func (u Use) day(l *lab.Lab, b lab.Bath, f Format) (figure.Figure[unit.Factor], bool) {
	month, own, ok := u.area(l, b, f)
	if !ok {
		return figure.Figure[unit.Factor]{}, false
	}
	return perDay.Of(figure.ID(b.Ref(), "use", f.Ref(), string(f.Material.Base)), month, own, DaysInMonth).
		Show(figure.KindCount, "0.01", unit.Nearest, ""), true
}

// pouring is the month's work on the base of a format, as pieces of that format each time
// that a bath is poured for a day; false where somebody has not written the days.
func (u Use) pouring(l *lab.Lab, b lab.Bath, f Format, id string) (figure.Figure[unit.Factor], bool) {
	base := f.Material.Base
	month, own, ok := u.area(l, b, f)
	if part := u.OfBase(l, base); ok && part.DaysKnown(l) {
		return perPouring.Of(id, month, own, part.days(l, b, base)), true
	}
	return figure.Figure[unit.Factor]{}, false
}

// DaysKnown reports whether somebody has written on how many days of a month each process
// of the work is done.
func (u Use) DaysKnown(l *lab.Lab) bool {
	return !slices.ContainsFunc(u.entries, func(e useEntry) bool { return !l.Place.Days[e.process].Given() })
}

// days is on how many days of a month the processes on a base pour a bath.
func (u Use) days(l *lab.Lab, b lab.Bath, base lab.Base) figure.Figure[unit.Factor] {
	var all []figure.Figure[unit.Factor]
	seen := map[string]bool{}
	for _, e := range u.entries {
		if !seen[e.process] {
			all = append(all, l.Place.Days[e.process].Figure("days of a month, "+e.process))
		}
		seen[e.process] = true
	}
	return poured.Of(figure.ID(b.Ref(), "pourings", string(base)), all...)
}

// area is the month's work on the base of a format as an area, and the area of one.
func (u Use) area(l *lab.Lab, b lab.Bath, f Format) (month, own figure.Figure[unit.Area], ok bool) {
	base := string(f.Material.Base)
	var parts []figure.Figure[unit.Area]
	for _, e := range u.OfBase(l, f.Material.Base).entries {
		area := rollArea
		if e.pieces.Of != "" {
			of, ok := FormatNamed(l, e.pieces.Of)
			if !ok {
				continue
			}
			if area, ok = of.Area(); !ok {
				continue
			}
		}
		n := e.pieces.Figure("pieces in a month")
		parts = append(parts, entryArea.Of(figure.ID("use", fmt.Sprintf("%s.%d", e.process, e.nth)), n, area))
	}
	if own, ok = f.Area(); !ok || len(parts) == 0 {
		return month, own, false
	}
	return monthArea.Of(figure.Beside(figure.ID(b.Ref(), "use"), base), parts...), own, true
}
