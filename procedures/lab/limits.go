package lab

import (
	"regexp"
	"strconv"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// Limit is one reason why a bath that is used again is spent.
type Limit struct {
	By   LimitBasis `toml:"by"`
	Most LimitMost  `toml:"most"`
	// For is the base it holds for; left out: every base.
	For Base `toml:"for"`
	// Place is 1 for the first of two baths, 2 for the second; 0: any.
	Place Count `toml:"place"`
	// Of is the material.format that by = "count" counts.
	Of string `toml:"of"`
}

// LimitAt is a limit of a strength and its place in the list.
type LimitAt struct {
	Limit
	Index int
}

// LimitsFor are the limits that hold for work on a base at a place of two baths
// (0: the bath is not one of two). Of two limits that count the same, the one
// written for the base or the place goes before the general one.
func (s *Strength) LimitsFor(base Base, place int) []LimitAt {
	narrow := func(l Limit) int {
		n := 0
		if l.For != "" {
			n++
		}
		if l.Place > 0 {
			n++
		}
		return n
	}
	type counts struct {
		by LimitBasis
		of string
	}
	best := map[counts]int{}
	holds := func(l Limit) bool {
		return (l.For == "" || l.For == base) && (l.Place == 0 || int(l.Place) == place)
	}
	for _, l := range s.Limits {
		if holds(l) {
			c := counts{l.By, l.Of}
			best[c] = max(best[c], narrow(l))
		}
	}
	var out []LimitAt
	for i, l := range s.Limits {
		if holds(l) && narrow(l) == best[counts{l.By, l.Of}] {
			out = append(out, LimitAt{l, i})
		}
	}
	return out
}

// Spoken is the limit as a card says it: "silver 4.0 g/L", "twice the fresh
// clearing time".
func (l Limit) Spoken() string {
	text := strings.NewReplacer("m2/L", "m²/L").Replace(l.Most.Text())
	if l.By == ByClearing {
		return strings.TrimSuffix(text, " x fresh") + " × the fresh clearing time"
	}
	words := map[LimitBasis]string{BySilver: "silver ", ByArea: "area ", ByCount: "count "}
	return words[l.By] + text
}

// LimitMost is the most of a limit; By says which of its quantities is meant.
type LimitMost struct {
	provenance
	text     string
	Rolls    Said[unit.RollsPerLitre]
	Area     Said[unit.AreaPerLitre]
	Silver   Said[unit.Concentration]
	PerLitre Said[unit.PerLitre]
	Uses     Said[unit.Uses]
	Clearing Said[unit.Factor]
}

// Given reports whether it was written.
func (m LimitMost) Given() bool { return m.text != "" }

// Text returns the most as written.
func (m LimitMost) Text() string { return m.text }

// UnmarshalText reads "4.0 g/L", "1.2 m2/L", "6 rolls/L", "20 /L", "5 uses" or
// "2 x fresh".
func (m *LimitMost) UnmarshalText(b []byte) error {
	got := LimitMost{text: string(b)}
	for _, read := range []func([]byte) error{
		got.Rolls.UnmarshalText, got.Area.UnmarshalText, got.Silver.UnmarshalText, got.PerLitre.UnmarshalText,
		got.Uses.UnmarshalText,
	} {
		if read(b) == nil {
			*m = got
			return nil
		}
	}
	if strings.HasSuffix(strings.TrimSpace(string(b)), "x fresh") && got.Clearing.UnmarshalText(b) == nil {
		*m = got
		return nil
	}
	return &unit.Error{Code: "quantity", What: strconv.Quote(string(b)) + " is not a limit",
		Hint: `write most = "4.0 g/L" of silver, "1.2 m2/L", "6 rolls/L", "20 /L", "5 uses" or "2 x fresh"`}
}

// by is the basis that the written quantity belongs to.
func (m LimitMost) by() LimitBasis {
	switch {
	case m.Rolls.Given():
		return ByRolls
	case m.Area.Given():
		return ByArea
	case m.Silver.Given():
		return BySilver
	case m.PerLitre.Given():
		return ByCount
	case m.Uses.Given():
		return ByUses
	case m.Clearing.Given():
		return ByClearing
	}
	return ""
}

// PermitLimit is one limit that a permit sets to what goes down a drain.
type PermitLimit struct {
	// Of is "ph", "silver", a word of PermitWords, or the id of a chemical.
	Of string `toml:"of"`
	// Most is the most of it; Least the least, of pH alone.
	Least PermitBound `toml:"least"`
	Most  PermitBound `toml:"most"`
	// For is the permit that sets it; left out: both.
	For Pouring `toml:"for"`
}

// PermitBound is a bound that a permit sets: a pH, or a content.
type PermitBound struct {
	provenance
	text    string
	PH      Said[unit.Factor]
	Content Said[unit.Concentration]
}

// Given reports whether it was written.
func (p PermitBound) Given() bool { return p.text != "" }

// Text returns the bound as written.
func (p PermitBound) Text() string { return p.text }

// UnmarshalText reads "9.5" or "1 mg/L".
func (p *PermitBound) UnmarshalText(b []byte) error {
	got := PermitBound{text: string(b)}
	if got.PH.UnmarshalText(b) == nil || got.Content.UnmarshalText(b) == nil {
		*p = got
		return nil
	}
	return &unit.Error{Code: "quantity", What: strconv.Quote(string(b)) + " is no limit of a permit",
		Hint: `write "9.5" for a pH, or a content such as "1 mg/L" or "2 g/L"`}
}

// Pieces is so many of one format of one material, or so many rolls counted as
// equivalents: "3 film-400.135-36", "24 rolls".
type Pieces struct {
	provenance
	text  string
	apart bool // written without a list around it
	Count int
	Of    string // material.format, empty for rolls
}

// Given reports whether it was written.
func (p Pieces) Given() bool { return p.text != "" }

// Text returns the pieces as written.
func (p Pieces) Text() string { return p.text }

// Figure is how many there are as a figure to work from.
func (p Pieces) Figure(name string) figure.Figure[unit.Factor] {
	return number(p.provenance, unit.Factor(p.Count), p.text, name)
}

// alone reports pieces that stand at the key itself, not in a list there.
func (p Pieces) alone() bool { return p.apart }

var pieces = regexp.MustCompile(`^([0-9]{1,6})\s+([a-z0-9-]+\.[a-z0-9-]+|rolls?)$`)

// UnmarshalText reads "3 film-400.135-36" or "24 rolls".
func (p *Pieces) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(string(b))
	m := pieces.FindStringSubmatch(s)
	if m == nil {
		return &unit.Error{Code: "quantity", What: strconv.Quote(string(b)) + " does not say how many of what", Hint: `write the number and the material with its format, for example "3 film-400.135-36", or "24 rolls"`}
	}
	n, err := strconv.Atoi(m[1])
	if err != nil {
		return err
	}
	got := Pieces{text: s, Count: n, Of: m[2]}
	if strings.HasPrefix(m[2], "roll") {
		got.Of = ""
	}
	*p = got
	return nil
}

// Many is how many of one format of one material, or how many rolls, a pack does by
// somebody's word: "500 film-400.135-36", or within bounds, "800..1000 rolls".
type Many struct {
	provenance
	text      string
	Low, High int
	Of        string // material.format, empty for rolls
}

// Given reports whether it was written.
func (m Many) Given() bool { return m.text != "" }

// Text returns it as written.
func (m Many) Text() string { return m.text }

// Figure is how many there are as a figure to work from: of two bounds the lower counts.
func (m Many) Figure(name string) figure.Figure[unit.Factor] {
	return number(m.provenance, unit.Factor(m.Low), m.text, name).WithBounds(unit.Factor(m.Low), unit.Factor(m.High))
}

var many = regexp.MustCompile(`^([0-9]{1,6})(?:\s*\.\.\s*([0-9]{1,6}))?\s+([a-z0-9-]+\.[a-z0-9-]+|rolls?)$`)

// UnmarshalText reads "500 film-400.135-36", "24 rolls" or "800..1000 rolls".
func (m *Many) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(string(b))
	read := many.FindStringSubmatch(s)
	if read == nil {
		return &unit.Error{Code: "quantity", What: strconv.Quote(string(b)) + " does not say how many of what", Hint: `write the number and the material with its format, for example "500 film-400.135-36", or "800..1000 rolls"`}
	}
	got := Many{text: s, Of: read[3]}
	got.Low, _ = strconv.Atoi(read[1])
	got.High = got.Low
	if read[2] != "" {
		got.High, _ = strconv.Atoi(read[2])
	}
	if got.High < got.Low {
		return &unit.Error{Code: "quantity", What: strconv.Quote(string(b)) + " runs backwards",
			Hint: "write the smaller bound first"}
	}
	if strings.HasPrefix(got.Of, "roll") {
		got.Of = ""
	}
	*m = got
	return nil
}

// PiecesList is a month's work or the work of one draw: one entry or several.
type PiecesList []Pieces

// UnmarshalTOML reads "24 rolls" or a list of such entries.
func (l *PiecesList) UnmarshalTOML(v any) error {
	shape := &unit.Error{Code: "shape", What: "expected pieces", Hint: `write "24 rolls", or a list: [ "18 film-400.135-36", "6 film-100.135-36" ]`}
	read := func(v any) error {
		s, ok := v.(string)
		if !ok {
			return shape
		}
		var p Pieces
		if err := p.UnmarshalText([]byte(s)); err != nil {
			return err
		}
		*l = append(*l, p)
		return nil
	}
	list, ok := v.([]any)
	if !ok {
		if err := read(v); err != nil {
			return err
		}
		(*l)[len(*l)-1].apart = true
		return nil
	}
	*l = PiecesList{}
	for i, e := range list {
		if err := read(e); err != nil {
			return indexed(i, err)
		}
	}
	return nil
}

// Bottle is a kind of bottle the lab owns.
type Bottle struct {
	Holds Said[unit.Volume] `toml:"holds"`
	Of    string            `toml:"of"`
	Count int               `toml:"count"`
	Note  string            `toml:"note"`
}

// Drum is a waste drum that stands in the lab.
type Drum struct {
	Name  string            `toml:"name"`
	Holds Said[unit.Volume] `toml:"holds"`
	Note  string            `toml:"note"`
	// Level is what was in it when somebody looked, on the day LevelOn.
	Level   Said[unit.Volume] `toml:"level"`
	LevelOn SaidDate          `toml:"level_on"`
	// Contact answers for the drum; Collector takes it away.
	Contact   string `toml:"contact"`
	Collector string `toml:"collector"`
}
