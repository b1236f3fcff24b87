package work

import (
	"slices"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/shelf"
	"wetside/procedures/unit"
)

// Judged is a batch as it is judged on the day.
type Judged = shelf.Batch

// What may be said of a bottle.
const (
	Dead   = shelf.Dead
	Dying  = shelf.Dying
	Good   = shelf.Good
	Unsure = shelf.Unsure
)

// OnShelf is what stands on the shelf on the day.
type OnShelf struct {
	// Day is the day that the shelf is looked at, and Warn how near its last day a bottle
	// is said to end soon; both nil where no bottles are kept.
	Day, Warn *figure.Record
	Bottles   []*Bottle
}

// Bottle is one bottle or tray of a batch on the day.
type Bottle struct {
	Judged
	// Bath is what is in it.
	Bath *Bath
	// Spent: one of its limits is reached, and it is dead before its date.
	Spent bool
	// Discard is its day in the calendar: the last on which it may be used, or the day
	// itself where it is spent. Zero where nobody can tell.
	Discard unit.Date
	// Size is the bottle that its label is drawn for; nil where nobody has written what it
	// holds.
	Size *Size
	// Air is what one more opening can eat of its sulfite, and how many of them it stands by its
	// log; nil where it may not be used, is full, or nobody can tell.
	Air *Airing
	// OnceLow is how long it keeps from when it is below half; nil where it is so
	// already, or where that changes nothing.
	OnceLow *figure.Record
	// More is how many more pieces of each format it treats, materials with the same answers
	// in one, and Head the format by which it is told: nil for a bath without limits.
	More []*More
	Head *More
	// Pieces is how many pieces were worked in it, of whatever format; nil where there are
	// none, or where it may not be used.
	Pieces *figure.Record
	// Tally is the ladder of its label; nil where it is not used again.
	Tally *Tally
	// Fills is how many times what is left of a stock fills each tank; empty where it may
	// not be used.
	Fills []TankFills
	// Fix are the fixing times after its last clearing test.
	Fix []FixTime
	// Developer is what a developer that is used again takes; nil for anything else,
	// before its first roll, and when it is dead.
	Developer *UsedDeveloper
}

// More is how many more pieces of one format a bottle treats.
type More struct {
	capacity.More
	// Spread is the least and the most that it may be; nil where both are one number, or
	// where the bottle may not be used.
	Spread *figure.Record
	// Of is the format and the materials; those that stand behind the first have none.
	Of Alike
}

// Tally is a ladder of boxes, one for each piece.
type Tally struct {
	// Of is the format that it counts.
	Of *More
	// Done is what was worked already, of whatever format.
	Done *figure.Record
	// Boxes is how many boxes there are, and Struck how many of them are struck.
	Boxes, Struck int
	// Unsure: nobody can tell how many more it treats, and no box stands open.
	Unsure bool
}

// bottles is the stage of what stands on the shelf.
func (w *Work) bottles() {
	judged := w.judged()
	if len(judged) == 0 {
		return
	}
	w.OnShelf.Day = figure.DeclareDate(w.mix.Book, figure.ID("shelf", "day"),
		figure.Today(w.Day).Called("the day this board was made for"))
	w.OnShelf.Warn = w.count(figure.ID("shelf", "warn"), shelf.WarnDays, "days",
		"days left from which a batch is said to end soon")
	for _, j := range judged {
		b := &Bottle{Judged: j, Bath: w.byRef[j.Bath.Ref()], Spent: j.Answer == Dead && j.Why != "", Discard: j.DiesOn}
		if b.Spent {
			b.Discard = w.Day
		}
		w.sizeOfBottle(b)
		w.onceLow(b)
		w.airOver(b)
		w.moreOf(b)
		w.fillsLeft(b)
		w.tally(b)
		w.fixTimes(b)
		w.usedDeveloper(b)
		w.OnShelf.Bottles = append(w.OnShelf.Bottles, b)
	}
}

// sizeOfBottle is what the bottle holds, or where there is no bottle, what was poured.
func (w *Work) sizeOfBottle(b *Bottle) {
	fill := b.Start()
	holds := fill
	if bottle, ok := b.Holds(); ok {
		holds = bottle
	}
	if !holds.Positive() || !fill.Positive() {
		return
	}
	size := w.sizeOf(figure.ID(b.ID, "holds"), holds.Quantity, holds.Where(), holds.By())
	b.Size = &size
}

// onceLow enters what a bottle that is opened and not yet below half will have left then.
func (w *Work) onceLow(b *Bottle) {
	if keeps, key := b.Bath.Keeps(); b.State == "part" && keeps.Low.Given() && b.Answer != Dead {
		b.OnceLow = w.life(figure.ID(b.Bath.Ref(), "keeps.low"), b.Bath.Def(), key+"low", keeps.Low.Life, "below half")
	}
}

// moreOf puts together how many more of each format a bottle treats.
func (w *Work) moreOf(b *Bottle) {
	for _, m := range b.Judged.More {
		more := &More{More: m, Of: Alike{Format: m.Format, Others: m.Others}}
		if b.Usable() && m.N != nil {
			more.Spread = w.spread(m.Range)
		}
		b.More = append(b.More, more)
	}
	b.Head = w.headOf(b)
	w.mergeMore(b)
	if b.Usable() && b.Worked > 0 {
		b.Pieces = w.pieces(b)
	}
}

// mergeMore puts materials of which a bottle treats as many into one.
func (w *Work) mergeMore(b *Bottle) {
	kept, of := oneRow(w, b.More, slices.Index(b.More, b.Head), func(m *More) capacity.Kind { return m.Of.kind() },
		func(x, y *More) bool {
			return x.By == y.By && x.Why == y.Why && sameRecord(x.N, y.N) && sameRecord(x.Spread, y.Spread)
		})
	for i, m := range kept {
		m.Of = of[i]
	}
	b.More = kept
}

// headOf is the format by which a bottle is told: the one that was last worked in it,
// else the one that a month puts through it most.
func (w *Work) headOf(b *Bottle) *More {
	if len(b.More) == 0 {
		return nil
	}
	byRef := map[string]*More{}
	var formats []capacity.Format
	for _, m := range b.More {
		byRef[m.Format.Ref()] = m
		formats = append(formats, m.Format)
	}
	for i := len(b.Log) - 1; i >= 0; i-- {
		for _, worked := range b.Log[i].Worked {
			if m := byRef[worked.Of]; m != nil {
				return m
			}
		}
	}
	if m := byRef[w.useOf(b.Bath.Bath).Most(w.lab, formats)]; m != nil {
		return m
	}
	return b.More[0]
}

// pieces enters how many pieces were worked in a bottle, of whatever format.
func (w *Work) pieces(b *Bottle) *figure.Record {
	return w.count(figure.ID(b.ID, "worked"), b.Worked, "", "worked so far, by the log")
}

// tally is the ladder of a bottle that is used again: what is done is struck, and as many
// boxes stand open as it still treats.
func (w *Work) tally(b *Bottle) {
	d := b.Bath.Decl()
	if b.Size == nil || b.Head == nil || d == nil || d.Use != "re-use" || b.Answer == Dead {
		return
	}
	b.Tally = &Tally{Of: b.Head, Done: w.pieces(b), Boxes: b.Worked, Struck: b.Worked,
		Unsure: b.Head.N == nil || b.Answer == Unsure}
	if !b.Tally.Unsure {
		b.Tally.Boxes += b.Head.Count
	}
}
