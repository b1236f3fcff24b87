// Package lab holds what a lab has declared about itself: its equipment, its
// chemicals and solutions, its materials and processes. It decodes text into
// quantities, resolves references and finds what cannot be so.
package lab

import (
	"sort"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// Lab is everything declared, each list in the order of ids.
type Lab struct {
	Place     Place
	Local     Local
	Store     Store
	Sources   Sources
	Chemicals []*Chemical
	Products  []*Product
	Solutions []*Solution
	Materials []*Material
	Processes []*Process
	Wastes    []*Waste
	Batches   []*Batch
	Formats   FormatTable
	// Rules are the books of rules: the program's, then the lab's own.
	Rules []*RuleBook
	// Species are the books of what salts become in water: the program's, then the lab's own.
	Species []*SpeciesBook
	// SheetFiles are the supplier's sheets that lie in the binder's folder, by their paths.
	SheetFiles []string
	// Broken names definitions that are there but could not be read, by
	// reference; what refers to them raises nothing more.
	Broken map[string]bool

	chemical      map[string]*Chemical
	product       map[string]*Product
	solution      map[string]*Solution
	material      map[string]*Material
	waste         map[string]*Waste
	buildProblems []Problem // of processes built on another
	batch         map[string]*Batch
	ways          ways
	vocabulary    *Vocabulary
}

// Index prepares the look-ups, puts every list in the order of its ids, every name that
// people read on one line, tells every declared value its place, and completes the processes that are built on another.
// It must be called once after the lists are filled.
func (l *Lab) Index() {
	l.chemical = index(l.Chemicals, func(d *Chemical) string { return d.ID })
	l.product = index(l.Products, func(d *Product) string { return d.ID })
	l.solution = index(l.Solutions, func(d *Solution) string { return d.ID })
	l.material = index(l.Materials, func(d *Material) string { return d.ID })
	l.waste = index(l.Wastes, func(d *Waste) string { return d.ID })
	l.batch = index(l.Batches, func(d *Batch) string { return d.ID })
	index(l.Processes, func(d *Process) string { return d.ID })
	l.oneLine()
	l.places()
	l.buildProcesses()
	l.findWays()
	l.vocabulary = vocabularyOf(l.Rules)
}

func index[T any](list []T, id func(T) string) map[string]T {
	sort.SliceStable(list, func(i, j int) bool { return id(list[i]) < id(list[j]) })
	m := make(map[string]T, len(list))
	for _, d := range list {
		m[id(d)] = d
	}
	return m
}

// Def is what every definition has: where it stands, who vouches for it, who
// controls it.
type Def struct {
	ID   string `toml:"-"`
	File string `toml:"-"`
	// Library marks a definition from the embedded library.
	Library bool     `toml:"-"`
	Origin  Origins  `toml:"origin"`
	Control *Control `toml:"control"`
	Was     []string `toml:"was"`
}

// At returns the place of a key in the definition.
func (d Def) At(key string) figure.Where { return figure.Where{File: d.File, Key: key} }

// Origins says who vouches for which key; "all" covers the rest.
type Origins map[string]string

// Control is the document control of a card.
type Control struct {
	Version  Count     `toml:"version"`
	Date     unit.Date `toml:"date"`
	Written  string    `toml:"written"`
	Approved string    `toml:"approved"`
	Review   unit.Date `toml:"review"`
	Change   string    `toml:"change"`
}

// Overdue reports whether the day of the review lies before a day.
func (k Control) Overdue(day unit.Date) bool {
	return !day.IsZero() && !k.Review.IsZero() && k.Review.Before(day)
}

// noOne is what a file writes where nobody has approved it although lab.toml
// names an approver for all.
const noOne = "none"

// ControlOf is the document control of a definition: what its own file writes,
// else key by key what [control] in lab.toml says for every card. A change belongs
// to its own file. ok is false where neither says anything.
func (l *Lab) ControlOf(d Def) (k Control, ok bool) {
	own, all := d.Control, l.Place.Control
	if d.Library {
		all = nil // nobody in the lab has written or approved what comes with the program
	}
	if own == nil && all == nil {
		return Control{}, false
	}
	if own != nil {
		k = *own
	}
	if all != nil {
		if k.Version == 0 {
			k.Version = all.Version
		}
		if k.Date.IsZero() {
			k.Date = all.Date
		}
		if k.Written == "" {
			k.Written = all.Written
		}
		if k.Approved == "" {
			k.Approved = all.Approved
		}
		if k.Review.IsZero() {
			k.Review = all.Review
		}
	}
	if k.Approved == noOne {
		k.Approved = ""
	}
	return k, true
}

// ControlAt is where a key of a definition's control is said.
func (l *Lab) ControlAt(d Def, key string) figure.Where {
	own := d.Control
	said := map[string]bool{}
	if own != nil {
		said = map[string]bool{"version": own.Version > 0, "date": !own.Date.IsZero(), "written": own.Written != "",
			"approved": own.Approved != "", "review": !own.Review.IsZero(), "change": own.Change != ""}
	}
	if said[key] {
		return d.At("control." + key)
	}
	return l.Place.At("control." + key)
}

// Sources are the works a lab quotes, by id.
type Sources map[string]Source

// Source is one work.
type Source struct {
	Title   string    `toml:"title"`
	Edition string    `toml:"edition"`
	Opened  unit.Date `toml:"opened"`
	Rank    string    `toml:"rank"`
}

// OriginOf returns who vouches for a key of a definition, and the source if it
// is one of the lab's. A key without a word of its own takes that of the table
// it stands in, then of "all"; a file that says nothing is the house's word.
func (l *Lab) OriginOf(d Def, key string) (figure.Origin, string) {
	word := ""
	for k := key; ; {
		if w, ok := d.Origin[k]; ok {
			word = w
			break
		}
		cut := lastDot(k)
		if cut < 0 {
			word = d.Origin["all"]
			break
		}
		k = k[:cut]
	}
	return l.originNamed(word)
}

// originNamed is who vouches for something by a word of the lab: a rank, or the id of
// one of its sources, whose title it returns as well.
func (l *Lab) originNamed(word string) (figure.Origin, string) {
	if word == "" {
		return figure.House, ""
	}
	if s, ok := l.Sources[word]; ok {
		rank, err := figure.ParseOrigin(s.Rank)
		if err != nil {
			rank = figure.Handbook
		}
		return rank, s.Title
	}
	o, err := figure.ParseOrigin(word)
	if err != nil {
		return figure.Estimate, ""
	}
	return o, ""
}

func lastDot(s string) int {
	for i := len(s) - 1; i >= 0; i-- {
		if s[i] == '.' || s[i] == '[' {
			return i
		}
	}
	return -1
}
