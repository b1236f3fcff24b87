package figure

import (
	"hash/maphash"
	"strconv"

	"wetside/procedures/unit"
)

// Ledger gathers the figures and verdicts of a binder, each once, in the order
// they were first entered. One id is one figure, on however many cards.
type Ledger struct {
	records  []*Record
	place    map[string]int // its place in records
	verdicts []Verdict
	verdict  map[string]int // its place in verdicts
	clashes  []Clash
	seed     maphash.Seed
	inputs   map[uint64]*InputRef // those of all figures, each once, by a hash of what they say
}

// Clash is something that must not get onto a card: two different figures or
// verdicts under one id, or a figure that has no finite value (One is Other).
type Clash struct{ One, Other *Record }

// NewLedger returns an empty ledger.
func NewLedger() *Ledger {
	return &Ledger{place: map[string]int{}, verdict: map[string]int{}, seed: maphash.MakeSeed(),
		inputs: map[uint64]*InputRef{}}
}

// Enter adds the figure and everything it was worked out from, and returns it as
// answers and pages hold it.
func Enter[T unit.Kind](l *Ledger, f Figure[T]) *Record { return l.Enter(f.rec) }

// one is the word for one of what is counted in such a unit.
var one = map[string]string{"rolls": "roll", "runs": "run", "stops": "stop", "uses": "use", "openings": "opening",
	"turns": "turn", "days": "day", "films": "film", "prints": "print", "sheets": "sheet"}

// Enter adds a figure and everything it was worked out from. Another figure under the
// same id is a clash, and the first one stays; what is refused stays refused, however
// it is reached; a printed form that somebody chose wins over none.
func (l *Ledger) Enter(r *Record) *Record {
	if word, ok := one[r.Unit]; ok && r.Shown == "1" {
		r = r.with(func(f *Face) { f.Unit = word })
	}
	l.share(r.Inputs)
	if i, have := l.place[r.ID]; have {
		old := l.records[i]
		switch {
		case old.Refused():
		case r.Refused(), old.plain && !r.plain && same(old, r):
			l.records[i] = r
		case !same(old, r) || !r.plain && (old.Shown != r.Shown || old.Unit != r.Unit):
			l.clashes = append(l.clashes, Clash{old, r})
		}
		return r
	}
	if r.broken() {
		l.clashes = append(l.clashes, Clash{r, r})
	}
	for _, p := range r.parents {
		l.Enter(p)
	}
	l.place[r.ID] = len(l.records)
	l.records = append(l.records, r)
	return r
}

// share puts those inputs that say the same in one place: most figures of a lab have inputs
// that others have too.
func (l *Ledger) share(list []*InputRef) {
	for i, in := range list {
		key := maphash.Comparable(l.seed, *in)
		switch one := l.inputs[key]; {
		case one == nil:
			l.inputs[key] = in
		case *one == *in: // what has another's hash keeps its own place
			list[i] = one
		}
	}
}

// same reports whether two figures are one: by value and formula.
func same(a, b *Record) bool {
	return a.Value == b.Value && (a.Date == b.Date || a.plain || b.plain) && formulaOf(a) == formulaOf(b)
}

func formulaOf(r *Record) string {
	switch {
	case r.Formula != nil:
		return r.Formula.ID
	case r.Method != nil:
		return r.Method.ID
	}
	return ""
}

// Clashes lists what must be mended before anything is printed.
func (l *Ledger) Clashes() []Clash { return l.clashes }

// Of is a figure that has no typed working, such as a text, a list, or a count read off
// the source; from are the figures that it rests on, besides the inputs in the core.
func Of(c Core, f Face, from ...*Record) *Record {
	for _, p := range from {
		in := p.Input()
		c.Inputs = append(c.Inputs, &in)
	}
	c.parents = from
	return &Record{&c, f}
}

// Refuse enters a figure that has no value, and why.
func (l *Ledger) Refuse(id string, kind Kind, name, unit, why string, by Origin, from ...*Record) *Record {
	return l.Enter(Of(Core{ID: id, Origin: by}, Face{Kind: kind, Name: name, Unit: unit, Why: why}, from...))
}

// EnterVerdict adds a verdict once. Another answer under the same id is a clash.
func (l *Ledger) EnterVerdict(v Verdict) string {
	i, have := l.verdict[v.ID]
	switch {
	case !have:
		l.verdict[v.ID] = len(l.verdicts)
		l.verdicts = append(l.verdicts, v)
	case l.verdicts[i].Answer != v.Answer:
		l.clashes = append(l.clashes, Clash{answer(l.verdicts[i]), answer(v)})
	}
	return v.ID
}

func answer(v Verdict) *Record { return &Record{&Core{ID: v.ID}, Face{Shown: v.Answer}} }

// Get finds a figure by id; nil where there is none.
func (l *Ledger) Get(id string) *Record {
	if i, ok := l.place[id]; ok {
		return l.records[i]
	}
	return nil
}

// Records returns the figures in the order they were entered.
func (l *Ledger) Records() []*Record { return l.records }

// Verdicts returns the verdicts in the order they were entered.
func (l *Ledger) Verdicts() []Verdict { return l.verdicts }

// Entered is a figure whose type was erased as an input of the next one.
func Entered[T unit.Kind](r *Record) Figure[T] {
	f := Figure[T]{Value: T(r.Value), Low: T(r.Value), High: T(r.Value), rec: r, ref: r.Input()}
	if r.HasLow {
		f.Low, f.High = T(r.Low), T(r.High)
	}
	return f
}

// Declare enters a declared value as a figure of its own, so that it can stand
// on a card and be traced to its place in the source.
func Declare[T unit.Kind](l *Ledger, id string, kind Kind, g Figure[T], shown, unitWord string) *Record {
	face := Face{
		Kind: kind, Name: g.ref.Name, Unit: unitWord, Shown: shown, Round: Rounding{Rule: "as declared"},
		Rounded: strconv.FormatFloat(unit.Snap(float64(g.Value)), 'f', -1, 64),
	}
	times := 0.0
	switch {
	case unitWord == "L" && unit.UnitOf[T]() == "ml": // large volumes are printed in litres
		times = 0.001
	case unitWord == "mg/L" && unit.UnitOf[T]() == "g/L": // and small contents in milligrams
		times = 1000
	}
	if times != 0 {
		face.Times, face.Rounded = times, strconv.FormatFloat(unit.Snap(float64(g.Value)*times), 'f', -1, 64)
	}
	in := g.ref
	return l.Enter(Of(Core{
		ID: id, Value: float64(g.Value), Low: float64(g.Low), High: float64(g.High), HasLow: g.Low != g.High,
		Inputs: []*InputRef{&in}, Source: g.ref.Source, Origin: g.ref.Origin,
	}, face))
}
