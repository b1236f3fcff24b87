package capacity

import (
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/unit"
)

// agePieces is the last term of E4.
var agePieces = figure.Register(&figure.F2[unit.Factor, unit.Factor, unit.Factor]{
	Formula: figure.Formula{ID: "capacity.age", Name: "before age ends it", Result: "N", Unit: "",
		Terms: []figure.Term{{Symbol: "r", Meaning: "pieces in a day"}, {Symbol: "L", Meaning: "life", Unit: "days"}},
		Text:  "floor(r * L)", Valid: "the rate from the log, not from hope", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(r, life unit.Factor) unit.Factor { return whole(float64(r) * float64(life)) },
})

// worthMixing is E6.
var worthMixing = figure.Register(&figure.F3[unit.Volume, unit.Factor, unit.Factor, unit.VolumePerRoll]{
	Formula: figure.Formula{ID: "batch.worth", Name: "largest batch worth mixing", Result: "V", Unit: "ml",
		Terms: []figure.Term{{Symbol: "r", Meaning: "rolls in a day"},
			{Symbol: "L", Meaning: "life of an opened bottle", Unit: "days"},
			{Symbol: "s", Meaning: "stock for one roll", Unit: "ml/roll"}},
		Text: "r * L * s", Valid: "one bottle opened and drawn from until it is empty", Source: "plain arithmetic",
		Origin: figure.Standard},
	Go: func(r, life unit.Factor, s unit.VolumePerRoll) unit.Volume {
		return unit.Volume(float64(r) * float64(life) * float64(s))
	},
})

// LifeInUse is how long a bath lasts once it is opened or poured, and the state in
// which it is used: as on paper, which lies in trays.
func LifeInUse(k lab.Keeps) (life lab.SaidLife, state string) {
	for _, s := range []struct {
		life  lab.SaidLife
		state string
	}{{k.Tray, "tray"}, {k.Poured, "poured"}, {k.Part, "part"}, {k.Full, "full"}} {
		if s.life.Given() {
			return s.life, s.state
		}
	}
	return lab.SaidLife{}, ""
}

// lifeOn is the same for what is done on one base: film is worked in tanks, and its bath goes back into
// the bottle; the life in a tray is none of its own, unless nobody has written another.
func lifeOn(k lab.Keeps, base lab.Base) (life lab.SaidLife, state string) {
	if base == lab.Film {
		if life, state = LifeInBottle(lab.Keeps{Full: k.Full, Part: k.Part}); life.Given() && !k.Poured.Given() {
			return life, state
		}
	}
	return LifeInUse(k)
}

// LifeInBottle is how long a bath lasts in its bottle once it is opened, and the state.
func LifeInBottle(k lab.Keeps) (life lab.SaidLife, state string) {
	k.Tray, k.Poured = lab.SaidLife{}, lab.SaidLife{}
	return LifeInUse(k)
}

// days is a life in days; ok is false for lives told in hours, which end with
// the evening and are no match for a month's rate.
func days(l unit.Life) (float64, bool) {
	switch {
	case l.Days > 0:
		return float64(l.Days), true
	case l.Months > 0:
		return float64(l.Months) * daysInMonth, true
	}
	return 0, false
}

// age adds the limit of age at the lab's own rate.
func (w *worker) age(keeps lab.Keeps) {
	life, state := lifeOn(keeps, w.f.Material.Base)
	if !life.Given() {
		return
	}
	n, long := days(life.Life)
	if !long {
		w.out.Evening = life.Text()
	}
	if len(w.out.Bounds) == 0 {
		return
	}
	if !long {
		// What is discarded with its day is told by its limits: only money goes by the pace.
		if n, ok := w.use.pouring(w.m.Lab, w.b, w.f, w.id("day")); ok {
			w.pace, w.out.Pace = n, int(n.Value)
			w.out.Aged = figure.Enter(w.m.Book, n.Show(figure.KindCount, "1", unit.Down, ""))
		}
		return
	}
	rate, ok := w.use.day(w.m.Lab, w.b, w.f)
	if !ok {
		return
	}
	whole := unit.Round(n, 1, unit.Down)
	lasts := life.Figure("life, " + stateWord(state)).WithValue(unit.Factor(n))
	w.out.Life = figure.Declare(w.m.Book, figure.ID(w.b.Ref(), "life"), figure.KindCount,
		lasts.WithValue(unit.Factor(whole)),
		unit.Short(whole), "days")
	w.pace = agePieces.Of(w.id("age"), rate, lasts)
	w.out.Pace = int(w.pace.Value)
	w.bound("age", "age", w.pace)
	w.out.Aged = figure.Enter(w.m.Book, w.out.Bounds[len(w.out.Bounds)-1].Fig)
}

func stateWord(key string) string {
	switch key {
	case "tray":
		return "in the tray"
	case "poured":
		return "poured"
	case "part":
		return "opened"
	}
	return "full"
}

// Worth is the largest batch of stock worth mixing for a one-shot strength (E6),
// or nil where nobody has written the life or the rate.
func Worth(m *mix.Mixer, b lab.Bath, f Format, use Use, keeps lab.Keeps) *figure.Record {
	s := b.Decl()
	life, state := lifeOn(keeps, f.Material.Base)
	n, long := days(life.Life)
	if s == nil || !s.Needs.Given() || !long {
		return nil
	}
	rate, ok := use.day(m.Lab, b, f)
	if !ok {
		return nil
	}
	lasts := life.Figure("life, " + stateWord(state)).WithValue(unit.Factor(n))
	fig := worthMixing.Of(figure.ID(b.Ref(), "worth"), rate, lasts, s.Needs.Figure("stock for one roll"))
	return figure.Enter(m.Book, fig.Show(figure.KindAmount, "50", unit.Down, ""))
}
