// Package page holds what a card says, as plain data: named parts made of
// typed blocks, with figures referred to by id. It knows no HTML, no paper and
// no theme; a face decides which parts it shows and in what order.
package page

import "wetside/procedures/figure"

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
	// Choices are the variants a reader picks between (batch sizes, a film in
	// a tank). A figure inline with several ids holds one id for each choice.
	Choices []Choice
	Chosen  int

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

	// Was lists the ids this card had before; each leaves a redirect.
	Was []string
}

// Choice is one variant of a page, printed as a card of its own.
type Choice struct {
	// Variant is the part of the print's name after '+', such as "1000ml".
	Variant string
	// Label is what the reader picks from.
	Label Text
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

// Block is one typed piece of a part.
type Block interface{ Block() string }

// Text is a line of inline pieces.
type Text []Inline

// InlineKind tells the pieces of a text apart.
type InlineKind uint8

// The kinds of inline piece.
const (
	// Word is the card's own wording; it never holds a digit.
	Word InlineKind = iota
	// Strong is a Word that matters most in its line.
	Strong
	// Fig is a figure, or one for each choice of the page.
	Fig
	// BareFig is a Fig shown without its unit.
	BareFig
	// Name is a proper name or the lab's own words, digits and all.
	Name
	// Link leads to another card.
	Link
	// Ask is a hole inside a line: a dashed blank with 'ask'.
	Ask
	// Blank is a line for a pencil.
	Blank
)

// Inline is one piece of a text.
type Inline struct {
	Kind InlineKind
	Text string // words, name, or the text of a link
	Card string // the card that a link leads to
	// Figures are one figure, or one for each choice of the page.
	Figures []*figure.Record
}

// W is plain wording.
func W(s string) Inline { return Inline{Kind: Word, Text: s} }

// S is strong wording.
func S(s string) Inline { return Inline{Kind: Strong, Text: s} }

// F is a figure with its unit; several, one for each choice of the page.
func F(figures ...*figure.Record) Inline { return Inline{Kind: Fig, Figures: figures} }

// B is a figure without its unit.
func B(figures ...*figure.Record) Inline { return Inline{Kind: BareFig, Figures: figures} }

// N is a name or the lab's own words.
func N(s string) Inline { return Inline{Kind: Name, Text: s} }

// L is a link to a card.
func L(card, text string) Inline { return Inline{Kind: Link, Text: text, Card: card} }

// Say joins pieces to a text.
func Say(parts ...Inline) Text { return parts }

// Amount is a labelled figure, set large.
type Amount struct {
	Label Text
	Value Text
	Note  Text
}

// Para is a sentence or two.
type Para struct{ Text Text }

// Heading opens a run of blocks inside a part. ID is its anchor, or empty.
type Heading struct {
	ID   string
	Text Text
}

// Gear is what to wear, each item with its sign, its word and its reason.
type Gear struct {
	Job   string
	Items []GearItem
	Note  Text
	// Basis is what the choice rests on, said where there is room for it.
	Basis Text
}

// GearItem is one thing to wear or to have. Sign is the safety sign's code in
// ISO 7010, such as "M009", or empty.
type GearItem struct {
	Sign, Word string
	Why        Text
}

// Cautions stand on their own before a run of steps; no face may drop them.
type Cautions struct{ Items []Text }

// Checklist is a row of things to have ready.
type Checklist struct {
	Label Text
	Items []Text
}

// Steps are the numbered rows of a mixing card, or the cases of a card for an accident.
type Steps struct {
	Rows []Step
	// Cases: the rows are cases of which one holds, not an order: no numbers. The
	// Urgent first of them come before what to wear, on a card that is cut.
	Cases  bool
	Urgent int
}

// Step is one row: what, how much, on which device, its cautions and its note (the
// reason). A terminal has the cautions first, a sheet below what they guard.
type Step struct {
	ID      string
	Caution []Text
	What    Text
	Amount  Text // empty: no amount in this row
	Device  Text
	Note    []Text
	Tick    bool
	// Mark sets the row apart as the last one: fill to the mark.
	Mark bool
}

// Clock is the running order of a process.
type Clock struct{ Rows []ClockRow }

// ClockRow is one step of a process against the clock.
type ClockRow struct {
	ID      string
	Caution []Text
	At      Text // clock at pour-in; "then" where the clock has stopped
	Drain   Text
	Role    Role
	Word    Text
	Bath    Text // what is in the vessel: 300 ml stock, water to 600 ml
	Cue     Text // what the hands do
	Light   Text
	For     Text // how long
	ForNote Text
	Goes    Text // where the bath goes afterwards
	Ruler   Ruler
	Gate    bool // a step that must not be shortened
}

// Ruler is the agitation timeline of a step, drawn to scale in seconds.
// Each field holds one figure for each choice of the page, or none.
type Ruler struct {
	Length []*figure.Record // time figures: the whole step
	First  []*figure.Record // time figures: the first agitation ends
	Marks  []*figure.Record // series figures: when each later agitation begins
	Lasts  []*figure.Record // time figures: how long each lasts
	Drain  []*figure.Record // time figures: draining begins
}

// Table is a table with a caption; cells may be refused or chosen.
type Table struct {
	ID      string
	Caption Text
	Head    []Text
	Rows    []Row
	// Note stands under the table.
	Note Text
}

// Row is one row of a table; its first cell is the row's heading.
type Row struct{ Cells []Cell }

// Cell is one cell. No: forbidden, drawn hatched with the word NO and Why.
type Cell struct {
	Text Text
	No   bool
	Why  string
	// Refused is the refused figure of a No cell, or nil.
	Refused *figure.Record
	// Chosen marks the one this card is about.
	Chosen bool
}

// Temps is the time at each temperature; cells outside the window are refused.
type Temps struct {
	Caption Text
	Cells   []Temp
	Note    Text
}

// Temp is one temperature and the time there: one figure for each choice.
type Temp struct {
	At    Text
	Time  []*figure.Record // a refused figure is drawn hatched
	Whole bool             // a whole degree: shown where there is room for few
	Ref   bool             // the temperature the card is written for
}

// List is a plain list of lines.
type List struct {
	Label Text
	Items []Text
	// Lines: every item has a line of its own, inside "never" too.
	Lines bool
}

// Blanks are lines to fill in by pencil.
type Blanks struct {
	Caption Text
	Head    []Text
	Rows    []Row
	Lines   []Text
}

// Ticks is a ladder of boxes, one for each piece that a bath treats: a stroke is
// made by pencil.
type Ticks struct {
	Label Text
	Count *figure.Record // the number of boxes
	Boxes int
	// Done are the boxes already struck, the first of all.
	Done int
}

// Chart is lines and limits drawn to scale; each value is a figure. X and Y are
// the words at the axes.
type Chart struct {
	Caption    Text
	X, Y       string
	LogX, LogY bool
	Lines      []ChartLine
	Limits     []ChartLimit
	Note       Text
}

// ChartLine is one line of a chart. EachX writes the value of X under each point.
type ChartLine struct {
	Label    string
	FromZero bool
	EachX    bool
	Points   []ChartPoint
}

// ChartPoint is a point of a line: two figures.
type ChartPoint struct{ X, Y *figure.Record }

// ChartLimit is a straight limit: of Y, or of X. Beyond it the chart is hatched.
type ChartLimit struct {
	Label  string
	At     *figure.Record
	OfX    bool
	Beyond bool
}

// Label is what stands on a bottle; drawn in millimetres, not flowed.
type Label struct {
	Name, Strength string
	Role           Role
	Use            Text
	Hazards        Hazards
	Dates          []Text // mixed on, opened, discard by: blanks or dates
	Lives          []Text // full, part, low: how long each lasts
	Foot           Text
	// For are the containers that it is made for, smallest first.
	For []Container
}

// Container is a size of bottle or drum that a label is glued to: one drawing.
type Container struct {
	// Name is the word for it in the label's path, such as "500ml".
	Name string
	// Holds is what it holds, and Ml the same in whole millilitres, rounded up.
	Holds *figure.Record
	Ml    int
	// Tally is a ladder of boxes for a bath that is used again, or none.
	Tally []Ticks
}

// Sign is a sheet read from afar: the letters of a tray, a tag, a shelf edge.
type Sign struct {
	// Form is "tray", "tag" or "shelf".
	Form string
	// Letters are what is read first; a name of the house, digits and all.
	Letters string
	Role    Role
	Under   []Text
	// Blanks are lines for a pencil.
	Blanks []Text
}

// Symbols is a sheet of the signs and pictograms, each with its word.
type Symbols struct{ Items []Symbol }

// Symbol is one sign by its code, such as "GHS05", what is drawn on it, its word
// and what it stands for.
type Symbol struct{ Code, Shows, Word, Stands string }

// Sheet is a sheet of labels to cut or to peel. Lengths are in hundredths of a
// millimetre.
type Sheet struct {
	Paper                string // "a4" or "letter"
	Rows, Columns, Start int
	Width, Height        int
	PitchX, PitchY       int
	Left, Top            int
	Labels               []SheetLabel
}

// SheetLabel is a label on a sheet: its card, and one of its containers or any.
type SheetLabel struct{ Card, For string }

// Hazards is what is known of the dangers of what this page is about.
type Hazards struct {
	// Status is "unknown", "every ingredient's" or "not classified".
	Status     string
	Signal     string
	Pictograms []string // "GHS07"
	Classes    []Text
	Statements []Text
	Note       Text
}

// Links is a list of cards, for the front page and indexes.
type Links struct {
	Label   Text
	Entries []Entry
}

// Entry is one line of an index.
type Entry struct {
	Card, Title string
	Sub         Text
	Value       Text
	Anchor      string
}

// HolesList shows the holes of this page where the work is done.
type HolesList struct{ Items []Hole }

// Block names each block's template.
func (Amount) Block() string    { return "amount" }
func (Para) Block() string      { return "para" }
func (Heading) Block() string   { return "heading" }
func (Gear) Block() string      { return "gear" }
func (Cautions) Block() string  { return "cautions" }
func (Checklist) Block() string { return "checklist" }
func (Steps) Block() string     { return "steps" }
func (Clock) Block() string     { return "clock" }
func (Table) Block() string     { return "table" }
func (Temps) Block() string     { return "temps" }
func (List) Block() string      { return "list" }
func (Ticks) Block() string     { return "ticks" }
func (Chart) Block() string     { return "chart" }
func (Blanks) Block() string    { return "blanks" }
func (Label) Block() string     { return "label" }
func (Hazards) Block() string   { return "hazards" }
func (Sign) Block() string      { return "sign" }
func (Symbols) Block() string   { return "symbols" }
func (Sheet) Block() string     { return "sheet" }
func (Links) Block() string     { return "links" }
func (HolesList) Block() string { return "holes" }

// Blocks is one empty block of each kind; a theme has a template for each.
func Blocks() []Block {
	return []Block{
		Amount{}, Para{}, Heading{}, Gear{}, Cautions{}, Checklist{}, Steps{}, Clock{},
		Table{}, Temps{}, List{}, Ticks{}, Chart{}, Blanks{}, Label{}, Sign{}, Symbols{}, Sheet{}, Hazards{}, Links{}, HolesList{},
	}
}

// Lasting is the page without what hangs on the day.
func Lasting(p Page) Page {
	p.Today, p.Foot.Overdue = nil, ""
	return p
}

// Group is where cards of some kinds stand together: in the folder ID of the binder, on
// the front page and in the menu under Word, over their index with Sub.
type Group struct{ ID, Word, Sub string }
