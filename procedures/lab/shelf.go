package lab

import (
	"fmt"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// Batch is one bottle, or one tray or tank, of what was mixed on a day, with
// its dated log. The file's name is the batch's number.
type Batch struct {
	Def
	// Of is the strength that stands in it: solution.strength.
	Of    string    `toml:"of"`
	Mixed SaidDate  `toml:"mixed"`
	Made  BatchMade `toml:"made"`
	// PartOf names the batch that this bottle was filled from.
	PartOf string `toml:"part_of"`
	// Bottle is what the bottle holds. A batch without it and without made.into
	// has not been bottled.
	Bottle Said[unit.Volume] `toml:"bottle"`
	// Place is 1 for the first of two baths, 2 for the second.
	Place Count  `toml:"place"`
	Note  string `toml:"note"`
	// FreshClears is how long a test clip took to clear on the day of mixing.
	FreshClears Said[unit.Seconds]       `toml:"fresh_clears"`
	StartSilver Said[unit.Concentration] `toml:"start_silver"`
	Log         []Entry                  `toml:"log"`
}

// BatchMade is how much was made, by whom, from which packs, into which bottles.
type BatchMade struct {
	Amount Said[unit.Volume] `toml:"amount"`
	By     string            `toml:"by"`
	Packs  []string          `toml:"packs"`
	// Into lists the bottles; the first is the one this file is about.
	Into []Said[unit.Volume] `toml:"into"`
}

// Entry is one line of a batch's log.
type Entry struct {
	On     SaidDate `toml:"on"`
	Opened bool     `toml:"opened"`
	// Drew is what was taken out for good.
	Drew    Said[unit.Volume]  `toml:"drew"`
	Level   Level              `toml:"level"`
	Worked  PiecesList         `toml:"worked"`
	Cleared Said[unit.Seconds] `toml:"cleared"`
	// Rotated: from the second of two baths to the first.
	Rotated bool   `toml:"rotated"`
	Place   Count  `toml:"place"`
	Note    string `toml:"note"`
}

// EntryKey is the key of an entry in a log.
func EntryKey(i int) string { return fmt.Sprintf("log[%d]", i) }

// Holds is the bottle's size, and whether there is a bottle.
func (b *Batch) Holds() (Said[unit.Volume], bool) {
	switch {
	case b.Bottle.Given():
		return b.Bottle, true
	case len(b.Made.Into) > 0:
		return b.Made.Into[0], true
	}
	return Said[unit.Volume]{}, false
}

// Start is what stood in this bottle when it was filled: what was made, or as much
// of it as the bottle holds.
func (b *Batch) Start() Said[unit.Volume] {
	holds, bottled := b.Holds()
	if bottled && (!b.Made.Amount.Given() || holds.Exact().Cmp(b.Made.Amount.Exact()) < 0) {
		return holds
	}
	return b.Made.Amount
}

// Batch finds a batch by its number.
func (l *Lab) Batch(id string) *Batch { return l.batch[id] }

// Piece finds the material and the format of what was worked: "film-400.135-36".
// Of a material that could not be read it finds nothing and raises no problem.
func (l *Lab) Piece(of string, at figure.Where) (*Material, string, []Problem) {
	id, format := split(of)
	if l.Broken[id] {
		return nil, "", nil
	}
	m := l.material[id]
	if m == nil {
		var ids []string
		for _, m := range l.Materials {
			ids = append(ids, m.ID)
		}
		return nil, "", []Problem{{At: at, Code: "reference", What: "there is no film or paper " + quoted(id),
			Hint: Near(id, ids, "write its definition in materials/, or correct the name")}}
	}
	if !contains(m.Formats, format) {
		return nil, "", []Problem{{At: at, Code: "reference", What: quoted(id) + " has no format " + quoted(format),
			Hint: Near(format, m.Formats, "its formats are "+list(prefixed(id, m.Formats)))}}
	}
	return m, format, nil
}
