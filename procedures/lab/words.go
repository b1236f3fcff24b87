package lab

import "wetside/procedures/figure"

// closed is a word of a closed list. A file may hold any text there: what is in no
// list is a fault of Check, so that all else in the file is checked beside it.
type closed interface {
	~string
	// list is every word, and what each of them is, as in "x is not a base".
	list() (words []string, what string)
}

// word demands that a word, when written, is one of its list.
func word[W closed](c *checker, w W, at figure.Where) {
	words, what := w.list()
	c.oneOf(string(w), words, at, what)
}

// texts are the words of a list as plain text.
func texts[W closed](words []W) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = string(w)
	}
	return out
}

// Use is a way to use a strength.
type Use string

// The ways to use a strength.
const (
	OneShot   Use = "one-shot"
	ReUse     Use = "re-use"
	Replenish Use = "replenish"
	InTray    Use = "tray"
)

// Uses are the ways a strength is used.
var Uses = []Use{OneShot, ReUse, Replenish, InTray}

func (Use) list() ([]string, string) { return texts(Uses), "a way to use a bath" }

// Pouring is what a permit for a drain speaks of.
type Pouring string

// What the permits are for.
const (
	Drain Pouring = "drain"
	Wash  Pouring = "wash"
)

// Pourings are what permits for a drain speak of.
var Pourings = []Pouring{Drain, Wash}

func (Pouring) list() ([]string, string) { return texts(Pourings), "a permit that has limits" }

// What a limit of a permit speaks of and the program works out in its own way.
const (
	LimitPH     = "ph"
	LimitSilver = "silver"
)

// PermitWords are what permits speak of besides and nobody works out here: what a bath holds of
// them is never told without somebody who has measured it.
var PermitWords = []string{"aluminium", "ammonium", "bod", "boron", "bromide", "cadmium", "chromium", "cod", "copper",
	"cyanide", "halogens", "iron", "lead", "mercury", "nickel", "nitrogen", "phenols", "phosphorus", "sulfate",
	"sulfide", "sulfite", "thiosulfate", "zinc"}

// Role is the part a bath plays.
type Role string

// The parts a bath plays.
const (
	Developer    Role = "developer"
	StopBath     Role = "stop"
	Fixer        Role = "fixer"
	ClearingBath Role = "clearing"
	Bleach       Role = "bleach"
	Toner        Role = "toner"
	Wetting      Role = "wetting"
	Sensitiser   Role = "sensitiser"
	OtherRole    Role = "other"
)

// Roles are the parts a bath plays.
var Roles = []Role{Developer, StopBath, Fixer, ClearingBath, Bleach, Toner, Wetting, Sensitiser, OtherRole}

func (Role) list() ([]string, string) { return texts(Roles), "the part a bath plays" }

// Base is what a material is made on.
type Base string

// The bases.
const (
	Film        Base = "film"
	ResinCoated Base = "resin-coated"
	Fibre       Base = "fibre"
	Uncoated    Base = "uncoated"
)

// Bases are what a material is made on.
var Bases = []Base{Film, ResinCoated, Fibre, Uncoated}

func (Base) list() ([]string, string) { return texts(Bases), "a base" }

// Grain is the shape of the crystals in a film.
type Grain string

// The shapes of crystals.
const (
	Cubic   Grain = "cubic"
	Tabular Grain = "tabular"
)

func (Grain) list() ([]string, string) { return texts([]Grain{Cubic, Tabular}), "a grain" }

// WaterKind is the water something is made up with.
type WaterKind string

// The kinds of water.
const (
	Tap       WaterKind = "tap"
	Deionised WaterKind = "deionised"
)

func (WaterKind) list() ([]string, string) {
	return texts([]WaterKind{Tap, Deionised}), "a kind of water"
}

// Piece is what one of a format is.
type Piece string

// What one of a format may be.
const (
	Roll  Piece = "roll"
	Sheet Piece = "sheet"
)

func (Piece) list() ([]string, string) {
	return texts([]Piece{Roll, Sheet}), "what one of a format is"
}

// State is the state in which something is bought.
type State string

// The states in which something is bought.
const (
	Powder  State = "powder"
	Liquid  State = "liquid"
	Tablets State = "tablets"
)

func (State) list() ([]string, string) {
	return texts([]State{Powder, Liquid, Tablets}), "a state in which something is bought"
}

// Solid reports whether it is poured as no liquid is.
func (s State) Solid() bool { return s == Powder || s == Tablets }

// Divide answers whether a part of a pack may be made up.
type Divide string

// The answers to whether a part of a pack may be made up.
const (
	MayDivide    Divide = "yes"
	MayNotDivide Divide = "no"
)

func (Divide) list() ([]string, string) {
	return texts([]Divide{MayDivide, MayNotDivide}), "whether a pack may be divided"
}

// Route is a way into a body.
type Route string

// The ways into a body.
const (
	ByMouth  Route = "oral"
	BySkin   Route = "dermal"
	ByBreath Route = "inhalation"
)

func (Route) list() ([]string, string) {
	return texts([]Route{ByMouth, BySkin, ByBreath}), "a way into the body"
}

// AcuteWay is a way into the body, with the form in which it is breathed in.
type AcuteWay string

// The ways of acute toxicity.
const (
	Swallowed AcuteWay = "oral"
	OnSkin    AcuteWay = "dermal"
	AsGas     AcuteWay = "gas"
	AsVapour  AcuteWay = "vapour"
	AsDust    AcuteWay = "dust"
)

func (AcuteWay) list() ([]string, string) {
	return texts([]AcuteWay{Swallowed, OnSkin, AsGas, AsVapour, AsDust}), "a way into the body"
}

// Factored is the M-factor by which a content is multiplied.
type Factored string

// The M-factors.
const (
	ByAcute   Factored = "acute"
	ByChronic Factored = "chronic"
	// Unweighed divides what counts by the chronic factor, and multiplies nothing.
	Unweighed Factored = "unweighed"
)

func (Factored) list() ([]string, string) {
	return texts([]Factored{ByAcute, ByChronic, Unweighed}), "an M-factor"
}

// ClockStart is when the clock of a step starts.
type ClockStart string

// When the clock of a step may start: as pouring begins, or when all is poured.
const (
	PourIn ClockStart = "pour-in"
	Poured ClockStart = "poured"
)

func (ClockStart) list() ([]string, string) {
	return texts([]ClockStart{PourIn, Poured}), "when the clock starts"
}

// LimitBasis is what a limit counts by.
type LimitBasis string

// What a limit may count by.
const (
	ByRolls    LimitBasis = "rolls"
	ByArea     LimitBasis = "area"
	BySilver   LimitBasis = "silver"
	ByCount    LimitBasis = "count"
	ByUses     LimitBasis = "uses"
	ByClearing LimitBasis = "clearing"
)

// LimitBases are what a limit may count by.
var LimitBases = []LimitBasis{ByRolls, ByArea, BySilver, ByCount, ByUses, ByClearing}

func (LimitBasis) list() ([]string, string) { return texts(LimitBases), "what a limit counts by" }

// Level is how full a bottle is.
type Level string

// How full a bottle is. Low is below half.
const (
	LevelFull Level = "full"
	LevelPart Level = "part"
	LevelLow  Level = "low"
)

// Levels are how full a bottle is, fullest first.
var Levels = []Level{LevelFull, LevelPart, LevelLow}

func (Level) list() ([]string, string) { return texts(Levels), "how full a bottle is" }

// Serving answers whether a material needs or may have a bath.
type Serving string

// The answers to whether a material needs or may have a bath.
const (
	Always        Serving = "always"
	Never         Serving = "never"
	IfWanted      Serving = "if wanted"
	AfterHardener Serving = "after hardener"
)

func (Serving) list() ([]string, string) {
	return texts([]Serving{Always, Never, IfWanted, AfterHardener}), "whether a base needs a bath"
}
