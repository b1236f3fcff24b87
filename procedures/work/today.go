package work

import (
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/shelf"
	"wetside/procedures/unit"
)

// Today is what the day asks for: which bottles are dead or dying, what has to be mixed
// before the processes can go on, and what is to be bought.
type Today struct {
	// Kept: the lab keeps bottles, and what follows can be said.
	Kept bool
	// Dead may not be used, Dying ends soon (within OnShelf.Warn), and of Unsure nobody can
	// tell.
	Dead, Dying, Unsure []*Bottle
	// Missing are baths that have to be mixed first, what holds up most processes before
	// the others: those that several processes wait for, and those that stood here and are
	// dead. What one process alone wants is said of that process, and what keeps no longer
	// than the work is mixed in its course.
	Missing []*Missing
	// Buy is what a month's use asks to be bought now, and BuyUnsure what nobody can tell of;
	// nil where nobody has written what a month takes.
	Buy, BuyUnsure []Order
	// Drums are full, or will be within as many days as a bottle ends soon, by what was in them
	// when somebody looked.
	Drums []*Drum
	// Counts of each of them; that of the drums is nil where nobody has looked into one.
	DeadCount, DyingCount, UnsureCount, MissingCount, BuyCount, BuyUnsureCount, DrumCount *figure.Record
}

// Missing is a bath that does not stand on the shelf.
type Missing struct {
	Bath *Bath
	// OnlyUsed: bottles of it stand there, and something has been worked in all of them.
	OnlyUsed bool
	// HoldsUp are the processes that cannot go on without it.
	HoldsUp []*Process
	// Stand is how long it stands before it may be used, or nil; Keeps is how long it
	// keeps where that is not longer than the work.
	Stand, Keeps *figure.Record
}

// today is the stage of what the day asks for.
func (w *Work) today() {
	t := &w.Today
	if w.Month != nil {
		for _, o := range w.Month.Orders {
			switch {
			case o.Unsure():
				t.BuyUnsure = append(t.BuyUnsure, o)
			case o.Buy():
				t.Buy = append(t.Buy, o)
			}
		}
		t.BuyCount = w.count(figure.ID("today", "buy"), len(t.Buy), "", "to be bought now")
		t.BuyUnsureCount = w.count(figure.ID("today", "buy-unsure"), len(t.BuyUnsure), "",
			"of which nobody can tell whether to buy")
	}
	w.fullSoon()
	if t.Kept = w.kept(); !t.Kept {
		return
	}
	for _, b := range w.OnShelf.Bottles {
		switch b.Answer {
		case Dead:
			t.Dead = append(t.Dead, b)
		case Dying:
			t.Dying = append(t.Dying, b)
		case Unsure:
			t.Unsure = append(t.Unsure, b)
		}
	}
	for _, p := range w.Processes {
		for _, l := range p.Lacks {
			if l.Kind == MissingBath || l.Kind == OnlyUsed {
				t.miss(w, l, p)
			}
		}
	}
	t.Missing = slices.DeleteFunc(t.Missing, func(m *Missing) bool {
		return m.Keeps != nil || len(m.HoldsUp) < 2 && !slices.ContainsFunc(t.Dead,
			func(b *Bottle) bool { return b.Bath == m.Bath })
	})
	slices.SortStableFunc(t.Missing, func(a, b *Missing) int { return len(b.HoldsUp) - len(a.HoldsUp) })
	t.DeadCount = w.count(figure.ID("today", "dead"), len(t.Dead), "", "bottles that are dead")
	t.DyingCount = w.count(figure.ID("today", "dying"), len(t.Dying), "", "bottles that end soon")
	t.UnsureCount = w.count(figure.ID("today", "unsure"), len(t.Unsure), "", "bottles that nobody can judge")
	t.MissingCount = w.count(figure.ID("today", "missing"), len(t.Missing), "", "baths that have to be mixed first")
}

// fullSoon finds the drums that are to be emptied.
func (w *Work) fullSoon() {
	looked := false
	for _, d := range w.Drums {
		if d.Month == nil || d.Month.By == nil || w.Day.IsZero() {
			continue
		}
		looked = true
		if by := unit.DateNumber(int(d.Month.By.Value)); !w.Day.AddDays(shelf.WarnDays).Before(by) {
			w.Today.Drums = append(w.Today.Drums, d)
		}
	}
	if looked {
		w.Today.DrumCount = w.count(figure.ID("today", "drums"), len(w.Today.Drums), "", "drums that are full, or will be soon")
	}
}

// miss notes that a process cannot go on without a bath.
func (t *Today) miss(w *Work, l Lack, p *Process) {
	b := w.byRef[l.Bath.Ref()]
	i := slices.IndexFunc(t.Missing, func(m *Missing) bool { return m.Bath == b })
	if i < 0 {
		m := &Missing{Bath: b, OnlyUsed: l.Kind == OnlyUsed, Keeps: l.Keeps}
		for _, s := range w.Solutions {
			if s.Made == b {
				m.Stand = s.Stand
			}
		}
		i, t.Missing = len(t.Missing), append(t.Missing, m)
	}
	m := t.Missing[i]
	if !slices.Contains(m.HoldsUp, p) {
		m.HoldsUp = append(m.HoldsUp, p)
	}
}

// CountOf enters how many there are of something that only a card can count, such as the
// cards of a group.
func (w *Work) CountOf(what string, n int, name string) *figure.Record {
	return w.count(figure.ID("today", what), n, "", name)
}
