package shelf

import (
	"fmt"
	"math/big"
	"strings"

	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

// The answers about a batch.
const (
	Dead   = "dead"
	Dying  = "dying"
	Good   = "good"
	Unsure = "cannot be judged"
)

// WarnDays is how many days before its end a batch is called dying.
const WarnDays = 14

// Batch is a batch as it stands on the binder's day. A figure is nil where there is
// nothing to say.
type Batch struct {
	*lab.Batch
	Bath lab.Bath
	// State is full, part, low or tray.
	State string
	// PlaceNow is its place of two baths after the last line of the log, 0 for a bath
	// that stands alone.
	PlaceNow int
	// OpenedOn and Dies are zero where they are not known.
	OpenedOn, DiesOn unit.Date
	// LeftExact is what is left in ml, nil where the log does not tell.
	LeftExact *big.Rat
	// Answer is one of the four; Governs says what decides.
	Answer, Governs string
	// Missing says that bottles of the batch have no file.
	Missing string
	// Safe says which earlier day was taken because the log does not tell, and
	// Why what is missing or spent.
	Safe, Why string

	Mixed, Opened, Made, Left, Full *figure.Record
	Dies, Days                      *figure.Record
	Ends                            []End
	Verdict                         string

	// Silver is what a fixer holds by its log; nil where nothing was fixed in it.
	Silver *capacity.Silver
	// Used is how far the bath is used, by each limit of its strength.
	Used []Used
	// More is how many more pieces of each format it treats; empty for a bath
	// without limits.
	More []capacity.More
	// Worked is how many pieces were worked in it, of whatever format.
	Worked   int
	Clearing *figure.Record // ratio against fresh
	// MostClearing is the least of the limits that hold for it.
	MostClearing *figure.Record
	Ratio        figure.Figure[unit.Factor]
	Fresh        *figure.Record // fresh clearing time
	Now          *figure.Record // the last clearing time

	// Done counts the rolls that a bath has done.
	Done  *figure.Record
	Reuse *Reuse
}

// End is the end of one of a batch's lives.
type End struct {
	Key, Word string
	Figure    *figure.Record
	On        unit.Date
}

// Used is how far a bath is used, and the most that its limit allows.
type Used struct {
	By         lab.LimitBasis
	Word       string
	For        lab.Base       // the base that it holds for; empty: any
	Held, Most *figure.Record // Held is refused where it cannot be counted
}

// Reuse is what the time in a re-used developer is worked out from.
type Reuse struct {
	Done figure.Figure[unit.Rolls]
	Made figure.Figure[unit.Volume]
	Most lab.Said[unit.RollsPerLitre]
}

// judge gathers what is said about one batch.
type judge struct {
	lab   *lab.Lab
	book  *figure.Ledger
	day   unit.Date
	out   Batch
	story story
	made  figure.Figure[unit.Volume]
	past  bool // a life has ended
	// spent says which limits are reached, unsure which cannot be judged.
	spent, unsure []string
	// formats are those of each material, worked out once for all the batches.
	formats map[*lab.Material][]capacity.Format
}

// Judge works out every batch for a day, in the order of their numbers.
func Judge(l *lab.Lab, book *figure.Ledger, day unit.Date) []Batch {
	var out []Batch
	formats := map[*lab.Material][]capacity.Format{}
	for _, b := range l.Batches {
		bath, _ := l.Bath(b.Of, b.At("of"))
		j := &judge{lab: l, book: book, day: day, out: Batch{Batch: b, Bath: bath}, story: read(b),
			formats: formats}
		j.out.PlaceNow = j.story.place
		j.sisters()
		j.filled()
		j.dates()
		j.limits()
		j.answer()
		out = append(out, j.out)
	}
	return out
}

func (j *judge) id(what string, variants ...string) string {
	return figure.ID(j.out.ID, what, variants...)
}

// sisters counts the bottles of the batch that have a file of their own.
func (j *judge) sisters() {
	b, files := j.out.Batch, 1
	for _, other := range j.lab.Batches {
		if other.PartOf == b.ID {
			files++
		}
	}
	if into := len(b.Made.Into); into > files {
		j.out.Missing = fmt.Sprintf("filled into %d bottles, and only %d of them in shelf/: the others are on no board",
			into, files)
	}
}

// filled says what was made, what is left and how full the bottle is.
func (j *judge) filled() {
	b := j.out.Batch
	start := b.Start()
	j.made = start.Figure("filled in")
	j.out.Made = figure.Declare(j.book, j.id("made"), figure.KindAmount, j.made, unit.ShortRat(start.Exact()), "ml")
	if j.story.leftWhy != "" {
		j.out.Left = j.book.Refuse(j.id("left"), figure.KindAmount, rest.Name, "ml", j.story.leftWhy, figure.House)
		return
	}
	j.out.LeftExact = j.story.left
	var draws []figure.Figure[unit.Volume]
	for _, i := range j.story.draws {
		draws = append(draws, b.Log[i].Drew.Figure("drawn on "+b.Log[i].On.String()))
	}
	all := drawn.Of(j.id("drawn"), draws...)
	left := rest.Of(j.id("left"), j.made, exactly(all, new(big.Rat).Sub(start.Exact(), j.story.left)))
	left = exactly(left, j.story.left)
	j.out.Left = figure.Enter(j.book, left)
	if holds, bottled := b.Holds(); bottled {
		size := holds.Figure("the bottle holds")
		j.out.Full = figure.Enter(j.book, fullness.Of(j.id("full"), left, size).
			Show(figure.KindAmount, "1", unit.Down, ""))
	}
}

// exactly shows a volume with every digit that it has.
func exactly(f figure.Figure[unit.Volume], x *big.Rat) figure.Figure[unit.Volume] {
	text := unit.ShortRat(x)
	step := "1"
	if _, decimals, ok := strings.Cut(text, "."); ok {
		step = "0." + strings.Repeat("0", len(decimals)-1) + "1"
	}
	return f.Show(figure.KindAmount, step, unit.Nearest, "")
}

func (j *judge) date(what, name string, m moment) (figure.Figure[unit.Days], *figure.Record) {
	fig := m.on.Figure(name)
	return fig, figure.DeclareDate(j.book, j.id(what), fig)
}

// life is one that runs: since when, and for how long.
type life struct {
	key, word string
	from      figure.Figure[unit.Days]
	since     moment
	keeps     lab.SaidLife
	missing   string
}

// dates works out H3: the end of every life that runs, and the earliest.
func (j *judge) dates() {
	b := j.out.Batch
	keeps, _ := j.out.Bath.Keeps()
	mixedOn := moment{on: b.Mixed}
	mixed, printed := j.date("mixed", "mixed on", mixedOn)
	j.out.Mixed = printed
	_, bottled := b.Holds()
	inBottle := keeps.Full.Given() || keeps.Part.Given() || keeps.Low.Given()
	poured := keeps.Tray.Given() || keeps.Poured.Given()

	var lives []life
	add := func(key, word string, from figure.Figure[unit.Days], since moment, keeps lab.SaidLife, missing string) {
		lives = append(lives, life{key, word, from, since, keeps, missing})
	}
	j.out.State = "full"
	// What was opened on the day of its mixing was never sealed.
	sealed := j.story.opened.on.Date != b.Mixed.Date
	if (inBottle || !poured) && (sealed || keeps.Full.Given()) {
		add("full", "mixed", mixed, mixedOn, keeps.Full, "how long a sealed bottle of it keeps")
	}
	if o := j.story.opened; !o.on.IsZero() {
		j.out.State, j.out.OpenedOn = "part", o.on.Date
		opened, printed := j.date("opened", "opened on", o)
		j.out.Opened = printed
		j.out.Safe = o.safe
		if inBottle && (bottled || !poured) {
			add("part", "opened", opened, o, keeps.Part, "how long an opened bottle of it keeps")
		}
	}
	if o := j.story.low; !o.on.IsZero() && (bottled || !poured) {
		j.out.State = "low"
		low, _ := j.date("low", "below half since", o)
		if o.safe != "" {
			j.out.Safe = o.safe
		}
		if inBottle {
			add("low", "below half", low, o, keeps.Low, "how long it keeps when the bottle is below half")
		}
	}
	if poured && (!bottled || !inBottle) {
		j.out.State = "tray"
		for _, p := range []struct {
			key, word string
			keeps     lab.SaidLife
		}{{"tray", "in the tray", keeps.Tray}, {"poured", "poured", keeps.Poured}} {
			if p.keeps.Given() {
				add(p.key, p.word, mixed, mixedOn, p.keeps, "")
			}
		}
	}
	var dies []figure.Figure[unit.Days]
	for _, l := range lives {
		if !l.keeps.Given() {
			if j.out.Why == "" {
				j.out.Why = "nobody has written " + l.missing
			}
			continue
		}
		end := l.since.on.Later(l.keeps.Life)
		days := figure.Cast[unit.Days](l.keeps.Figure("keeps, " + l.word)).
			WithValue(unit.Days(end.Number() - l.since.on.Number()))
		fig := figure.ShowDate(ends.Of(j.id("dies."+l.key), l.from, days).
			Named("end of the life counted from: " + l.word))
		dies = append(dies, fig)
		j.out.Ends = append(j.out.Ends, End{l.key, l.word, figure.Enter(j.book, fig), end})
	}
	if !keeps.Given() {
		j.out.Why = "nobody has written how long " + j.out.Bath.Name() + ", " + j.out.Bath.Strength + ", keeps"
	}
	var first End
	for _, e := range j.out.Ends {
		if first.On.IsZero() || e.On.Before(first.On) {
			first = e
		}
	}
	j.past = !first.On.IsZero() && first.On.Before(j.day)
	if first.On.IsZero() || j.out.Why != "" && !j.past {
		j.out.Dies = j.book.Refuse(j.id("dies"), figure.KindDate, earliest.Name, "", j.out.Why, figure.House)
		return
	}
	// Past the end of one life, what nobody has written about another is no matter.
	j.out.Why = ""
	j.out.DiesOn, j.out.Governs = first.On, first.Word
	fig := figure.ShowDate(earliest.Of(j.id("dies"), dies...))
	j.out.Dies = figure.Enter(j.book, fig)
	if !j.past {
		today := figure.Today(j.day)
		n := daysLeft.Of(j.id("days"), fig, today).Show(figure.KindCount, "1", unit.Down, "")
		word := "days"
		if n.Value == 1 {
			word = "day"
		}
		j.out.Days = figure.Enter(j.book, n.In(word))
	}
}

// answer enters the verdict.
func (j *judge) answer() {
	o := &j.out
	v := figure.Verdict{ID: j.id("state"), Source: "common practice, no source; the lives are the house's own"}
	for _, e := range o.Ends {
		v.Limits = append(v.Limits, fmt.Sprintf("%s: %s", e.Word, e.On))
	}
	v.Limits = append(v.Limits, j.spent...)
	switch {
	case j.past:
		o.Answer = Dead
	case len(j.spent) > 0:
		o.Answer, o.Why = Dead, "spent"
		v.Because = append(v.Because, "spent by "+o.Governs)
	case o.DiesOn.IsZero() || len(j.unsure) > 0:
		whys := j.unsure
		if o.Why != "" {
			whys = append([]string{o.Why}, whys...)
		}
		o.Answer, o.Why = Unsure, strings.Join(whys, "; ")
		v.Because = append(v.Because, o.Why)
	case !j.day.AddDays(WarnDays).Before(o.DiesOn):
		o.Answer = Dying
	default:
		o.Answer = Good
	}
	if !o.DiesOn.IsZero() && o.Why == "" {
		v.Because = append(v.Because, fmt.Sprintf("reason %q: discard by %s, looked at on %s", o.Governs, o.DiesOn,
			j.day))
	}
	if o.Safe != "" {
		v.Because = append(v.Because, o.Safe)
	}
	v.Answer = o.Answer
	o.Verdict = j.book.EnterVerdict(v)
}
