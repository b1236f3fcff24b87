package figure

import (
	"fmt"
	"strconv"

	"wetside/procedures/unit"
)

// Ledger gathers the figures and verdicts of a binder, each once, in the order
// they were first entered. One id is one figure, on however many cards.
type Ledger struct {
	records  []*Record
	byID     map[string]*Record
	verdicts []Verdict
	verdict  map[string]bool
}

// NewLedger returns an empty ledger.
func NewLedger() *Ledger {
	return &Ledger{byID: map[string]*Record{}, verdict: map[string]bool{}}
}

// Enter adds the figure and everything it was worked out from, and returns its
// id. The same id with another value is a defect of the caller, so it panics.
func Enter[T interface{ record() *Record }](l *Ledger, f T) string { return l.enter(f.record()) }

func (f Figure[T]) record() *Record { return f.rec }

func (l *Ledger) enter(r *Record) string {
	if old, ok := l.byID[r.ID]; ok {
		if old.Refused() || r.Refused() {
			*old = refusal(old, r)
			return r.ID
		}
		if old.Value != r.Value || old.Shown != r.Shown || old.Date != r.Date {
			panic(fmt.Sprintf("figure: two values under one id %q: %v (%s) and %v (%s)", r.ID, old.Value, old.Shown, r.Value, r.Shown))
		}
		return r.ID
	}
	for _, p := range r.parents {
		l.enter(p)
	}
	l.byID[r.ID] = r
	l.records = append(l.records, r)
	return r.ID
}

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

// EnterVerdict adds a verdict once.
func (l *Ledger) EnterVerdict(v Verdict) string {
	if !l.verdict[v.ID] {
		l.verdict[v.ID] = true
		l.verdicts = append(l.verdicts, v)
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

// Records returns the figures in the order they were entered.
func (l *Ledger) Records() []Record {
	out := make([]Record, len(l.records))
	for i, r := range l.records {
		out[i] = *r
	}
	return out
}

// Verdicts returns the verdicts in the order they were entered.
func (l *Ledger) Verdicts() []Verdict { return l.verdicts }

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
