// Package page holds what a card says, as plain data: named parts made of
// typed blocks, with figures referred to by id. It knows no HTML, no paper and
// no theme; a face decides which parts it shows and in what order.
package page

import "wetside/procedures/figure"

// Demonstration is what every card of a demonstration says.
const Demonstration = "DEMONSTRATION: invented figures, do not mix"

// Page is one card: one subject.
type Page struct {
	// ID is the card's path without its ending, such as "mix/film-developer".
	ID string
	// Kind is the word for this kind of card, such as "mixing".
	Kind string
	// KindLine is the small line above the title, such as "Mixing card".
	KindLine string
	Title    string
	Lead     Text
	Role     Role
	// Signs are safety signs beside the title, by their codes; its words say what they do.
	Signs []string
	// Choices are the variants a reader picks between (batch sizes, a film in
	// a tank). A figure inline with several ids holds one id for each choice.
	Choices []Choice
	// Rows are the words for what is picked: one, or as many as a choice has picks.
	Rows   []string
	Chosen int

	// Key holds at most three figures, read from a metre away.
	Key []Block
	// Before is what must be so before the first step: protection, bench, light.
	Before []Block
	// Do is the work, in order, each step with its figures and cautions inside it.
	Do     []Block
	Tables []Block
	// Today holds what hangs on the day the binder is made for, such as what
	// stands on the shelf. It is no part of the card's fingerprint, and no face
	// for paper shows it.
	Today  []Block
	Never  []Block
	Why    []Block
	Record []Block
	Foot   Foot
	// Verdicts are the answers that the card rests on and makes sentences of.
	Verdicts []figure.Verdict

	// Was lists the ids this card had before; each leaves a redirect.
	Was []string
}

// Choice is one variant of a page, printed as a card of its own.
type Choice struct {
	// Variant is the part of the print's name after '+', such as "1000ml".
	Variant string
	// Label is what the reader picks from.
	Label Text
	// Picks are its parts where several things are picked, such as a film and a vessel,
	// each for the row of its own (Page.Rows).
	Picks []Text
}

// Discard is the day by which a batch is discarded, for a calendar.
type Discard struct {
	Batch string // its number
	What  string // the solution and its strength
	On    string // ISO date
	Says  string // what the day means for it
}

// Print is a page shown on paper in one of its variants.
type Print struct {
	Page   string
	Choice int // -1: the page has no choices
	// Variant is the file name: SUBJECT+VARIANT.
	Variant string
	// Faces names the faces of this print, such as "wall-a4" and "strip".
	Faces []string
}

// Paper is how printed cards are finished.
type Paper struct {
	Punch    bool // a binder's side stays free
	Laminate bool // an outline inside the trim
	Colour   bool // safety signs and pictograms in their colours
}

// Role is the part a bath plays; it is shown as a lettered plate with a word.
type Role string

// The roles. The zero value has no plate.
const (
	Developer Role = "developer"
	Stop      Role = "stop"
	Fixer     Role = "fixer"
	Wash      Role = "wash"
	Clearing  Role = "clearing"
	Bleach    Role = "bleach"
	Toner     Role = "toner"
	Wetting   Role = "wetting"
	Holding   Role = "holding"
	Other     Role = "other"
)

// Foot is the control line of a card: who answers for it, and what is missing.
type Foot struct {
	Version     string
	Date        string
	Written     string
	Approved    string
	Review      string
	Change      string
	Holes       []Hole
	Fingerprint string
	// Overdue is the day of a review that has passed on the binder's day. It is no
	// part of the card's fingerprint.
	Overdue string
	// File is the definition that the card is made from.
	File string
	// Vouched counts the figures below the rank 'house' by origin word.
	Vouched []Vouch
}

// Vouch is a count of the card's figures with one weak origin.
type Vouch struct {
	Origin string
	Count  int
}

// Hole is something nobody has filled in. It is always shown.
type Hole struct {
	// What is missing, such as "how long it keeps".
	What string
	// Until says what the card does meanwhile, such as "no discard date: ask first".
	Until string
	// Key is where to write it, such as "keeps in solutions/stop.toml".
	Key string
}

// Group is where cards of some kinds stand together: in the folder ID of the binder, on
// the front page and in the menu under Word, over their index with Sub.
type Group struct{ ID, Word, Sub string }
