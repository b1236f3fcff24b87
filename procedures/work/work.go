// Package work asks every subject once for what a lab really uses together, and keeps
// each answer with what it is for: a bath with what it does to people and where it goes,
// a fill with its vessel, a bottle with its day, a run with its film, tank and
// temperature. Cards arrange what stands here and work nothing out, so that two cards
// about one thing cannot disagree.
package work

import (
	"wetside/procedures/capacity"
	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/mix"
	"wetside/procedures/ph"
	"wetside/procedures/shelf"
	"wetside/procedures/timing"
	"wetside/procedures/unit"
)

// Work is everything that is worked out for a lab on a day. It is filled in stages, each
// of which reads only those before it, and is never written to afterwards.
type Work struct {
	// HasBatches: the lab keeps batches, so that there is a shelf to look at.
	HasBatches bool
	// Day is the day that it is worked out for; zero: nothing is said about the shelf.
	Day unit.Date
	// Place and Local are the room and its numbers as the lab has written them.
	Place *lab.Place
	Local *lab.Local
	// Baths are all strengths of all solutions and products, in the order of the lab.
	Baths []*Bath
	// Subjects are the solutions and products, each with its strengths together.
	Subjects []*Subject
	// Solutions are what is mixed here, and Products what is bought, each in the order of
	// the lab.
	Solutions []*Solution
	Products  []*Product
	// Processes are the processes with their baths.
	Processes []*Process
	// Pairs are the pairs of what stands here that never meet.
	Pairs []Pair
	// Routes are the ways of spent baths, and Drums the drums that stand here.
	Routes []*Route
	Drums  []*Drum
	// Chemicals are those that are used or in the store.
	Chemicals []*Chemical
	// Shelves are those of the store.
	Shelves []Shelf
	// Store is what stands in the store; nil where nobody has written a pack.
	Store *Store
	// Choices are the jobs that several baths do here.
	Choices []*Choice
	// FirstAid are the numbers of accidents.
	FirstAid FirstAid
	// OnlyTime are the strengths that end by their date alone, and Endless those of which
	// nobody can tell when they are spent.
	OnlyTime []*Bath
	Endless  []Endless
	// Month is what a month's work takes of everything that is bought; nil where nothing
	// can be counted.
	Month *Month
	// Washing is what is known of washing; nil where nobody has written anything of it.
	Washing *Washing
	// Washes are the washes, where the permit for their water has limits.
	Washes []*WashAllowed
	// Carrying is what prints carry from tray to tray, by process.
	Carrying []*Carrying
	// Notation is how amounts are written, Bench what each device may measure, and
	// Tempering how water is brought to a temperature.
	Notation  Notation
	Bench     Bench
	Tempering Tempering
	// Leaving is who leaves what to others.
	Leaving []Leaving
	// Drifting is how far tanks drift to the temperature of the room; nil where there are none for film.
	Drifting *Drifting
	// OnShelf is what stands on the shelf on the day.
	OnShelf OnShelf
	// Today is what the day asks for.
	Today Today
	// Trays are the row of trays for prints.
	Trays []*Tray
	// LabelSheet is the lab's own label stock; nil where it has none.
	LabelSheet *LabelSheet
	// Problems are what only shows while it is worked out.
	Problems []lab.Problem

	limits []PermitLimit // those of the permit for the drain

	lab   *lab.Lab
	mix   *mix.Mixer
	times timing.Times
	byRef map[string]*Bath

	fillOf     map[string]capacity.Fill // by bath, vessel and fill
	formatsOf  map[*lab.Material][]capacity.Format
	passingOf  map[string][]passing  // by bath
	drawn      map[string][]lab.Bath // by the bottle that they are diluted from, each time they are used
	capacityOf map[capacityKey]capacity.Capacity
	asker      *ph.Asker                               // of how acid baths are
	titres     map[titreKey]titreAnswer                // each asked once
	shelf      []shelf.Batch                           // judged once
	poured     map[string][]figure.Figure[unit.Volume] // a month's baths, by bath
	months     *capacity.Month                         // what a month takes of all that is bought
	dash       *figure.Record                          // where a run has no figure and others have
}

// Of works everything out for a lab on a day. The lab must have passed its checks.
func Of(l *lab.Lab, day unit.Date) *Work {
	bench, _ := mix.NewBench(l)
	book := figure.NewLedger()
	w := &Work{
		Day: day, HasBatches: len(l.Batches) > 0, Place: &l.Place, Local: &l.Local,
		lab: l, mix: mix.New(l, bench, book), times: timing.Times{Lab: l, Book: book}, byRef: map[string]*Bath{},
		fillOf: map[string]capacity.Fill{}, formatsOf: map[*lab.Material][]capacity.Format{},
		passingOf:  map[string][]passing{},
		capacityOf: map[capacityKey]capacity.Capacity{}, titres: map[titreKey]titreAnswer{},
	}
	w.asker = &ph.Asker{Mix: w.mix, Table: ph.Read(l.Species)}
	for _, stage := range []func(){
		w.strengths, w.acidity, w.ways, w.washesAllowed, w.treatments, w.dangers, w.subjects, w.leaving, w.keeping,
		w.air, w.lime, w.dilutions,
		w.solutions, w.products, w.labels, w.processes,
		w.routes, w.drums, w.pairs, w.chemicals, w.shelves, w.firstAid,
		w.capacities, w.silverPoured, w.bleaching, w.onlyTime, w.month, w.drumMonths, w.carrying, w.washing, w.notation, w.bench,
		w.tempering, w.drifting,
		w.bottles, w.trays, w.labelSheet, w.ingredients, w.runs, w.buying, w.choosing, w.store, w.partsOnShelf, w.today,
	} {
		stage()
	}
	return w
}

// Bath finds a strength by its reference, such as "fixer.film"; nil where there is none.
func (w *Work) Bath(ref string) *Bath { return w.byRef[ref] }

// Control is who answers for the card of a definition, and whether anybody does.
func (w *Work) Control(d lab.Def) (lab.Control, bool) { return w.lab.ControlOf(d) }

// Answers are all figures that were worked out, shown on a card or not.
func (w *Work) Answers() []*figure.Record { return w.mix.Book.Records() }

// Verdicts are the decisions behind the answers.
func (w *Work) Verdicts() []figure.Verdict { return w.mix.Book.Verdicts() }

// Clashes are the ids under which two answers differ, or under which one is no number.
func (w *Work) Clashes() []figure.Clash { return w.mix.Book.Clashes() }
