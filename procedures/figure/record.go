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

// Record is a figure with its types erased: what pages, figures.json and the
// working pages read. A record with an empty Shown was refused; Why says why.
type Record struct {
	ID      string
	Kind    Kind
	Name    string
	Value   float64
	Date    string
	Series  []float64
	Unit    string
	Low     float64
	High    float64
	HasLow  bool
	Shown   string
	Rounded string // the shown value as a plain number, ISO date or seconds
	Round   Rounding
	Formula *Formula
	Inputs  []InputRef
	Source  string
	Origin  Origin
	Why     string
	parents []*Record
}

// Refused tells whether no value could be given.
func (r Record) Refused() bool { return r.Shown == "" }

// broken tells whether its formula gave no finite number.
func (r *Record) broken() bool { return r.Why == notFinite }

// Verdict is an answer that keeps its reasons.
type Verdict struct {
	ID      string
	Answer  string
	Limits  []string
	Because []string
	Source  string
}
