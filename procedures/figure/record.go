package figure

// Kind says what a figure is, and so how it is shown.
type Kind string

// The kinds of figure; the words are those of figures.json.
const (
	KindAmount      Kind = "amount"
	KindTime        Kind = "time"
	KindDate        Kind = "date"
	KindTemperature Kind = "temperature"
	KindRatio       Kind = "ratio"
	KindMoney       Kind = "money"
	KindCount       Kind = "count"
	KindText        Kind = "text"
	KindSeries      Kind = "series"
)

// Where is a place in the lab's source: a file relative to the binder's folder
// and a path of keys inside it, such as "step[2].amount". The core knows no
// lines; the loader finds them.
type Where struct {
	File string
	Key  string
}

// At returns the place of a key below this one.
func (w Where) At(key string) Where {
	switch {
	case w.Key == "":
		return Where{w.File, key}
	case key == "" || key[0] == '[':
		return Where{w.File, w.Key + key}
	}
	return Where{w.File, w.Key + "." + key}
}

// InputRef is one input of a figure: another figure (ID), a place in the
// source (Where), or a constant of nature or of the trade (Constant).
type InputRef struct {
	Symbol   string
	Name     string
	ID       string
	Where    Where
	Constant string
	Value    float64
	Unit     string
	Text     string
	Source   string
	Origin   Origin
}

// Rounding says how the shown value came from the unrounded one.
type Rounding struct {
	Rule   string
	Step   string
	Device string
}

// Core is what a figure is. Once made it never changes.
type Core struct {
	ID      string
	Value   float64 // unrounded, in the unit of its type
	Series  []float64
	Low     float64
	High    float64
	HasLow  bool // it is known only within bounds
	Formula *Formula
	Method  *Method // what found it, where no formula did
	Inputs  []*InputRef
	Source  string
	Origin  Origin
	parents []*Record // the figures among the inputs
}

// Face is how a figure is printed. The same core may have more than one.
type Face struct {
	Kind    Kind
	Name    string
	Unit    string
	Times   float64 // how many of Unit make one of the core's; 0 where they are the same
	Date    string  // of a date: the day, in ISO 8601
	Shown   string  // empty: refused, and Why says why
	Rounded string  // the shown value as a plain number, ISO date or seconds
	Round   Rounding
	Why     string
	// plain: nobody has said yet how it is printed.
	plain bool
}

// Record is a figure with its type erased: a core and one face of it. It is what
// answers and pages hold, and it is never written to once it is made; what prints
// otherwise is a copy with another face.
type Record struct {
	*Core
	Face
}

// Refused tells whether no value could be given.
func (r *Record) Refused() bool { return r.Shown == "" }

// broken tells whether its formula gave no finite number.
func (r *Record) broken() bool { return r.Why == notFinite }

// Counted is a value of the core, in the unit that is printed.
func (r *Record) Counted(v float64) float64 {
	if r.Times == 0 {
		return v
	}
	return v * r.Times
}

// Input is the figure as an input of another.
func (r *Record) Input() InputRef {
	return InputRef{ID: r.ID, Name: r.Name, Value: r.Counted(r.Value), Unit: r.Unit, Text: r.Shown, Origin: r.Origin}
}

// As is the figure under another id, such as an amount that is wanted and cannot be
// measured.
func (r *Record) As(id string) *Record {
	c := *r.Core
	c.ID = id
	return &Record{&c, r.Face}
}

// Called is the figure under another name.
func (r *Record) Called(name string) *Record {
	return r.with(func(f *Face) { f.Name = name })
}

// From lists the figures among its inputs.
func (r *Record) From() []*Record { return r.parents }

// with is a copy of the record with another face.
func (r *Record) with(change func(*Face)) *Record {
	out := &Record{Core: r.Core, Face: r.Face}
	change(&out.Face)
	return out
}

// Verdict is an answer that keeps its reasons.
type Verdict struct {
	ID      string
	Answer  string
	Limits  []string
	Because []string
	Source  string
}
