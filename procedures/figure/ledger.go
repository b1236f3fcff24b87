package figure

import (
	"strconv"

	"wetside/procedures/unit"
)

// Ledger gathers the figures and verdicts of a binder, each once, in the order
// they were first entered. One id is one figure, on however many cards.
type Ledger struct {
	records  []*Record
	byID     map[string]*Record
	verdicts []Verdict
	verdict  map[string]int // its place in verdicts
	clashes  []Clash
}

// Clash is something that must not get onto a card: two different figures or
// verdicts under one id, or a figure that has no finite value (One is Other).
type Clash struct{ One, Other Record }

// NewLedger returns an empty ledger.
func NewLedger() *Ledger {
	return &Ledger{byID: map[string]*Record{}, verdict: map[string]int{}}
}

// Enter adds the figure and everything it was worked out from, and returns its
// id. Another figure under the same id is a clash: the first one stays.
func Enter[T interface{ record() *Record }](l *Ledger, f T) string { return l.enter(f.record()) }

func (f Figure[T]) record() *Record { return f.rec }

// one is the word for one of what is counted in such a unit.
var one = map[string]string{"rolls": "roll", "runs": "run", "stops": "stop", "uses": "use", "turns": "turn", "days": "day", "films": "film", "prints": "print", "sheets": "sheet"}

func (l *Ledger) enter(r *Record) string {
	if word, ok := one[r.Unit]; ok && r.Shown == "1" {
		r.Unit = word
	}
	if old, ok := l.byID[r.ID]; ok {
		if old.Refused() || r.Refused() {
			*old = refusal(old, r)
			return r.ID
		}
		if old.Value != r.Value || old.Shown != r.Shown || old.Date != r.Date || old.Unit != r.Unit || formulaOf(old) != formulaOf(r) {
			l.clashes = append(l.clashes, Clash{*old, *r})
		}
		return r.ID
	}
	if r.broken() {
		l.clashes = append(l.clashes, Clash{*r, *r})
	}
	for _, p := range r.parents {
		l.enter(p)
	}
	l.byID[r.ID] = r
	l.records = append(l.records, r)
	return r.ID
}

func formulaOf(r *Record) string {
	if r.Formula == nil {
		return ""
	}
	return r.Formula.ID
}

// Clashes lists what must be mended before anything is printed.
func (l *Ledger) Clashes() []Clash { return l.clashes }

// refusal keeps the refused one of two records: a value that must not be used
// stays refused, however it is reached.
func refusal(a, b *Record) Record {
	if a.Refused() {
		return *a
	}
	return *b
}

// EnterRecord adds a figure that has no typed working: a text, a count read
// off the source, a refusal.
func (l *Ledger) EnterRecord(r Record) string { return l.enter(&r) }

// Refuse enters a figure that has no value, and why.
func (l *Ledger) Refuse(id string, kind Kind, name, unit, why string, by Origin, in ...InputRef) string {
	return l.enter(&Record{ID: id, Kind: kind, Name: name, Unit: unit, Why: why, Origin: by, Inputs: in})
}

// EnterVerdict adds a verdict once. Another answer under the same id is a clash.
func (l *Ledger) EnterVerdict(v Verdict) string {
	i, have := l.verdict[v.ID]
	switch {
	case !have:
		l.verdict[v.ID] = len(l.verdicts)
		l.verdicts = append(l.verdicts, v)
	case l.verdicts[i].Answer != v.Answer:
		l.clashes = append(l.clashes, Clash{Record{ID: v.ID, Shown: l.verdicts[i].Answer}, Record{ID: v.ID, Shown: v.Answer}})
	}
	return v.ID
}

// Get finds a figure by id.
func (l *Ledger) Get(id string) (Record, bool) {
	r, ok := l.byID[id]
	if !ok {
		return Record{}, false
	}
	return *r, true
}

// Records returns the figures in the order they were entered. They do not hold on to
// the ledger's own.
func (l *Ledger) Records() []Record {
	out := make([]Record, len(l.records))
	for i, r := range l.records {
		out[i] = *r
		out[i].parents = nil
	}
	return out
}

// Verdicts returns the verdicts in the order they were entered.
func (l *Ledger) Verdicts() []Verdict { return l.verdicts }

// Entered is a figure of the ledger as an input of the next one.
func Entered[T unit.Kind](r Record) Figure[T] {
	f := Figure[T]{Value: T(r.Value), Low: T(r.Value), High: T(r.Value), ref: r.Ref()}
	if r.HasLow {
		f.Low, f.High = T(r.Low), T(r.High)
	}
	return f
}

// Ref returns the figure as an input of another.
func (r Record) Ref() InputRef {
	return InputRef{ID: r.ID, Name: r.Name, Value: r.Value, Unit: r.Unit, Text: r.Shown, Origin: r.Origin}
}

// Declare enters a declared value as a figure of its own, so that it can stand
// on a card and be traced to its place in the source.
func Declare[T unit.Kind](l *Ledger, id string, kind Kind, g Figure[T], shown, unitWord string) string {
	return l.enter(&Record{
		ID: id, Kind: kind, Name: g.ref.Name, Value: float64(g.Value), Unit: unitWord,
		Low: float64(g.Low), High: float64(g.High), HasLow: g.Low != g.High,
		Shown: shown, Rounded: strconv.FormatFloat(unit.Snap(float64(g.Value)), 'f', -1, 64),
		Round: Rounding{Rule: "as declared"}, Inputs: []InputRef{g.ref}, Source: g.ref.Source, Origin: g.ref.Origin,
	})
}
