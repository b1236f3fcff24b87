package lab

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// Place is lab.toml: the darkroom and what stands in it.
type Place struct {
	Def
	Lab       Name                `toml:"lab"`
	Water     Water               `toml:"water"`
	House     House               `toml:"house"`
	Scales    map[string]Scale    `toml:"scale"`
	Cylinders map[string]Cylinder `toml:"cylinder"`
	Syringes  map[string]Syringe  `toml:"syringe"`
	Tanks     map[string]Tank     `toml:"tank"`
	Trays     map[string]Tray     `toml:"tray"`
	Bottles   map[string]Bottle   `toml:"bottle"`
	Drums     map[string]Drum     `toml:"drum"`
	// Use is a month's work, by process.
	Use map[string]PiecesList `toml:"use"`
	// Days is on how many days of a month a process is worked, by process: what is poured
	// for a day and discarded after it is counted by them.
	Days  map[string]SaidNumber `toml:"days"`
	Print PrintRules            `toml:"print"`
}

// Name is the [lab] table.
type Name struct {
	Name  string `toml:"name"`
	Place string `toml:"place"`
	// Day means: this is a demonstration, worked out for that day.
	Day unit.Date `toml:"day"`
}

// Water is what comes from the tap and what is bought.
type Water struct {
	Cold      Seasons                  `toml:"cold"`
	Hot       Said[unit.Temperature]   `toml:"hot"`
	Price     SaidPrice                `toml:"price"`
	Deionised SaidPrice                `toml:"deionised"`
	Hardness  Said[unit.Concentration] `toml:"hardness"`
	// FilmFlow is the tap's flow through a tank in a running wash.
	FilmFlow Said[unit.Flow] `toml:"film_flow"`
}

// Seasons is a temperature that is one all year, or one in winter and another
// in summer.
type Seasons struct {
	Year   Said[unit.Temperature]
	Winter Said[unit.Temperature] `toml:"winter"`
	Summer Said[unit.Temperature] `toml:"summer"`
}

// Given reports whether any temperature was written.
func (s Seasons) Given() bool { return s.Year.Given() || s.Winter.Given() || s.Summer.Given() }

// Season is one of the temperatures of a Seasons, with its name and key.
type Season struct {
	Name, Key string
	At        Said[unit.Temperature]
}

// List returns the seasons that were written, winter first.
func (s Seasons) List() []Season {
	var out []Season
	for _, season := range []Season{{"all year", "", s.Year}, {"winter", "winter", s.Winter},
		{"summer", "summer", s.Summer}} {
		if season.At.Given() {
			out = append(out, season)
		}
	}
	return out
}

// UnmarshalTOML reads "9 °C" or { winter = "9 °C", summer = "17 °C" }.
func (s *Seasons) UnmarshalTOML(v any) error {
	switch v := v.(type) {
	case string:
		return s.Year.UnmarshalText([]byte(v))
	case map[string]any:
		for _, k := range sortedKeys(v) {
			text, ok := v[k].(string)
			if !ok {
				return keyed(k, &unit.Error{Code: "shape", What: "expected a temperature in quotes", Hint: `cold = { winter = "9 °C", summer = "17 °C" }`})
			}
			var err error
			switch k {
			case "winter":
				err = s.Winter.UnmarshalText([]byte(text))
			case "summer":
				err = s.Summer.UnmarshalText([]byte(text))
			default:
				err = &unit.Error{Code: "key", What: fmt.Sprintf("unknown season %q", k),
					Hint: "the seasons are winter and summer"}
			}
			if err != nil {
				return keyed(k, err)
			}
		}
		return nil
	}
	return &unit.Error{Code: "shape", What: "expected a temperature", Hint: `cold = "12 °C", or cold = { winter = "9 °C", summer = "17 °C" }`}
}

// keyError puts an error at a key inside the value it belongs to.
type keyError struct {
	key string
	err *unit.Error
}

func (k keyError) Error() string { return k.err.What }

// FaultCode is the code of the error itself.
func (k keyError) FaultCode() string { return k.err.Code }

// FaultHint says how to mend it.
func (k keyError) FaultHint() string { return k.err.Hint }

// FaultKey is the path of the key inside the value.
func (k keyError) FaultKey() string { return k.key }

func keyed(key string, err error) error { return keyAt(keyName(key), err) }

// indexed puts an error at an element of the list it belongs to.
func indexed(i int, err error) error { return keyAt(fmt.Sprintf("[%d]", i), err) }

func keyAt(key string, err error) error {
	switch err := err.(type) {
	case *unit.Error:
		return keyError{key, err}
	case keyError:
		return keyError{figure.Where{Key: key}.At(err.key).Key, err.err}
	}
	return err
}

func sortedKeys[K ~string, T any](m map[K]T) []K {
	keys := make([]K, 0, len(m))
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// Scale is a balance: what it reads and how much it bears.
type Scale struct {
	Reads   Said[unit.Mass] `toml:"reads"`
	UpTo    Said[unit.Mass] `toml:"up_to"`
	Checked SaidDate        `toml:"checked"`
}

// Cylinder is a measuring cylinder. Tolerance and graduation, when left out,
// are those of the loosest class in the table of glassware.
type Cylinder struct {
	Holds      Said[unit.Volume] `toml:"holds"`
	Tolerance  Said[unit.Volume] `toml:"tolerance"`
	Graduation Said[unit.Volume] `toml:"graduation"`
}

// Syringe measures small volumes of the solutions it is kept for.
type Syringe struct {
	Holds      Said[unit.Volume] `toml:"holds"`
	Tolerance  Said[unit.Volume] `toml:"tolerance"`
	Graduation Said[unit.Volume] `toml:"graduation"`
	For        []string          `toml:"for"`
}

// Tank is a developing tank: how much fills it and how many rolls it takes.
type Tank struct {
	Name  string                `toml:"name"`
	Fill  Fills                 `toml:"fill"`
	Takes map[string]SaidNumber `toml:"takes"`
	Pour  Said[unit.Seconds]    `toml:"pour"`
	// TimeConstant is how long the tank, full and standing in air, takes until 63 % of its difference
	// from the room are gone. It is measured: there is no default.
	TimeConstant Said[unit.Seconds] `toml:"time_constant"`
}

// Tray is a print tray.
type Tray struct {
	Name   string            `toml:"name"`
	Inside Sides             `toml:"inside"`
	Fill   Said[unit.Volume] `toml:"fill"`
	// Takes are the formats that lie flat in it; left out: any.
	Takes []string `toml:"takes"`
}

// Fills is the fill of a tank: one for all, or one for each family of formats.
type Fills struct {
	All Said[unit.Volume]
	For map[string]Said[unit.Volume]
}

// Given reports whether any fill was written.
func (f Fills) Given() bool { return f.All.Given() || len(f.For) > 0 }

// Of returns the fill for a family of formats.
func (f Fills) Of(family string) Said[unit.Volume] {
	if q, ok := f.For[family]; ok {
		return q
	}
	return f.All
}

// UnmarshalTOML reads "600 mL" or { 135 = "1500 mL", 120 = "1700 mL" }.
func (f *Fills) UnmarshalTOML(v any) error {
	switch v := v.(type) {
	case string:
		return f.All.UnmarshalText([]byte(v))
	case map[string]any:
		f.For = map[string]Said[unit.Volume]{}
		for _, k := range sortedKeys(v) {
			text, ok := v[k].(string)
			if !ok {
				return keyed(k, &unit.Error{Code: "shape", What: "expected a volume in quotes", Hint: `fill = { 135 = "1500 mL", 120 = "1700 mL" }`})
			}
			var q Said[unit.Volume]
			if err := q.UnmarshalText([]byte(text)); err != nil {
				return keyed(k, err)
			}
			f.For[k] = q
		}
		return nil
	}
	return &unit.Error{Code: "shape", What: "expected a volume", Hint: `fill = "600 mL", or fill = { 135 = "1500 mL", 120 = "1700 mL" }`}
}

// House holds the rules of this house. Each has a default, listed in Defaults.
type House struct {
	WeighWithin   Said[unit.Percent] `toml:"weigh_within"`
	MeasureWithin Said[unit.Percent] `toml:"measure_within"`
	FixClearing   FixClearing        `toml:"fix_clearing"`
	TimeStep      Said[unit.Seconds] `toml:"time_step"`
	Shortest      Said[unit.Seconds] `toml:"shortest"`
	LargestVessel Said[unit.Volume]  `toml:"largest_vessel"`
	// ColdestShelf has no default: without it no solubility is checked.
	ColdestShelf Said[unit.Temperature] `toml:"coldest_shelf"`
	SameTime     Said[unit.Seconds]     `toml:"same_time"`
	// FilmCarry is what a roll and its reel carry over into the next bath.
	FilmCarry Said[unit.VolumePerRoll] `toml:"film_carry"`
	// SulfiteEaten is the share of its sulfite that a bath may lose to air before it is
	// discarded.
	SulfiteEaten Said[unit.Percent] `toml:"sulfite_eaten"`
	// FirstLeaves is the share of a print's silver that the first of two fixing baths leaves to the
	// second; nobody can tell it for another lab.
	FirstLeaves Said[unit.Percent] `toml:"first_fix_leaves"`
	// OrderLead is how long a delivery takes, OrderCover how long it is to last.
	OrderLead  SaidLife `toml:"order_lead"`
	OrderCover SaidLife `toml:"order_cover"`
}

// FixClearing is how many times its clearing time a film stays in the fixer.
type FixClearing struct {
	Film    SaidCount `toml:"film"`
	Tabular SaidCount `toml:"tabular"`
}

// Default is a rule of the house where the lab has written none.
type Default struct{ Key, Text, Why string }

// Defaults lists every rule of the house with its default.
var Defaults = []Default{
	{"weigh_within", "2 %", "common practice, no source"},
	{"measure_within", "3 %", "common practice, no source"},
	{"fix_clearing.film", "2", "handbook tradition, from memory"},
	{"fix_clearing.tabular", "3", "handbook tradition, from memory"},
	{"time_step", "15 s", "common practice, no source"},
	{"shortest", "5:00", "common practice, no source"},
	{"same_time", "15 s", "films whose times lie this close may share a tank; common practice, no source"},
	{"order_lead", "2 weeks", "common practice, no source"},
	{"order_cover", "3 months", "common practice, no source"},
	{"sulfite_eaten", "30 %", "the developing agents are eaten as well; common practice, no source"},
	{"film_carry", "20 mL/roll", "weigh a drained reel with its film; common practice, no source"},
	{"largest_vessel", "20 L", "stirring and lifting by hand; common practice, no source"},
}

func defaultOf(key string) Default {
	for _, d := range Defaults {
		if d.Key == key {
			return d
		}
	}
	panic("lab: no default for " + key)
}

// houseRule is what a rule of the house is where the lab has written none.
func houseRule[T unit.Kind](written Said[T], key string) Said[T] {
	d := defaultOf(key)
	return written.OrDefault(d.Text, d.Why)
}

func houseCount(written SaidCount, key string) SaidCount {
	d := defaultOf(key)
	return written.OrDefault(d.Text, d.Why)
}

func houseLife(written SaidLife, key string) SaidLife {
	d := defaultOf(key)
	return written.OrDefault(d.Text, d.Why)
}

// Filled returns the rules of the house with every default filled in; each knows
// whether it is one.
func (h House) Filled() House {
	h.WeighWithin = houseRule(h.WeighWithin, "weigh_within")
	h.MeasureWithin = houseRule(h.MeasureWithin, "measure_within")
	h.FixClearing.Film = houseCount(h.FixClearing.Film, "fix_clearing.film")
	h.FixClearing.Tabular = houseCount(h.FixClearing.Tabular, "fix_clearing.tabular")
	h.TimeStep = houseRule(h.TimeStep, "time_step")
	h.Shortest = houseRule(h.Shortest, "shortest")
	h.SameTime = houseRule(h.SameTime, "same_time")
	h.OrderLead = houseLife(h.OrderLead, "order_lead")
	h.OrderCover = houseLife(h.OrderCover, "order_cover")
	h.SulfiteEaten = houseRule(h.SulfiteEaten, "sulfite_eaten")
	h.FilmCarry = houseRule(h.FilmCarry, "film_carry")
	h.LargestVessel = houseRule(h.LargestVessel, "largest_vessel")
	return h
}

// PrintRules chooses what is printed for the wall.
type PrintRules struct {
	// Wall lists prints as "process+material.tank" or "solution.strength+volume";
	// left out: every material with a time in every tank that takes it.
	Wall []string `toml:"wall"`
	// Address is where the binder will stand; a code of it is printed on cards.
	Address string      `toml:"address"`
	Sheet   *LabelSheet `toml:"sheet"`
	// Papers are what the cards are printed on; left out: A4 for processes and
	// boards, A5 for mixing cards.
	Papers []string `toml:"papers"`
	// Punch leaves a binder's side free for the holes.
	Punch bool `toml:"punch"`
	// Laminate outlines each card inside its trim, where the foil is sealed.
	Laminate bool `toml:"laminate"`
	// Mono: no colour at all, which is how cards are printed where it is left out;
	// false prints safety signs and pictograms in their colours.
	Mono *bool `toml:"mono"`
}

// LabelSheet is a sheet of label stock: its grid as printed on the packet.
type LabelSheet struct {
	Paper   string            `toml:"paper"`
	Rows    int               `toml:"rows"`
	Columns int               `toml:"columns"`
	Width   Said[unit.Length] `toml:"width"`
	Height  Said[unit.Length] `toml:"height"`
	// PitchX and PitchY are from the edge of one label to the same edge of the
	// next; left out, labels touch.
	PitchX Said[unit.Length] `toml:"pitch_x"`
	PitchY Said[unit.Length] `toml:"pitch_y"`
	Left   Said[unit.Length] `toml:"left"`
	Top    Said[unit.Length] `toml:"top"`
	// Start is the first label that is still on the sheet, counted from one.
	Start int `toml:"start"`
	// Labels names them as solution.strength, batch or drum; left out: every
	// label that fits.
	Labels []string `toml:"labels"`
}

// Papers are the papers a card can be printed on, smallest last.
var Papers = []string{"a4", "letter", "a5", "half-letter", "a6", "index"}

// Local is local.toml: law and neighbours. A key left out is a hole.
type Local struct {
	Def
	Permit    Permits   `toml:"permit"`
	Emergency Emergency `toml:"emergency"`
}

// Permits are what the authority has said: the reference of a written permit,
// "none" where somebody asked and was refused, nothing where nobody has asked.
type Permits struct {
	Drain string `toml:"drain"`
	// Wash is for the water of washes, which carries what the baths before it left.
	Wash  string `toml:"wash"`
	Treat string `toml:"treat"`
	// Limits are what the permits for drain and wash allow, in figures. The program brings none of
	// its own: what the law allows differs a thousandfold from place to place.
	Limits []PermitLimit `toml:"limits"`
}

// Emergency is typed by the lab; nothing here is ever guessed.
type Emergency struct {
	Number   string `toml:"number"`
	Poison   string `toml:"poison"`
	FirstAid string `toml:"first_aid"`
	Address  string `toml:"address"`
	Eyewash  string `toml:"eyewash"`
	WayOut   string `toml:"way_out"`
	// Keyholder can let help in; Extinguisher is where it hangs.
	Keyholder    string `toml:"keyholder"`
	Extinguisher string `toml:"extinguisher"`
}

// Store is store.toml: packs on the shelf.
type Store struct {
	Def
	Packs []Pack `toml:"pack"`
}

// Pack is one pack of a chemical or product.
type Pack struct {
	Of    string    `toml:"of"`
	Left  Amount    `toml:"left"`
	Size  Amount    `toml:"size"`
	Price SaidPrice `toml:"price"`
	// Reserve is what never goes below: an order is made before.
	Reserve Amount `toml:"reserve"`
	// Lot is the number that its maker has printed on it; packs of two lots are two entries.
	Lot string `toml:"lot"`
	// Opened is the day of the first opening, and BestBefore the day on the label.
	Opened     SaidDate `toml:"opened"`
	BestBefore SaidDate `toml:"best_before"`
	// Lead is how long a delivery of it takes, where that is not the house's rule.
	Lead SaidLife `toml:"lead"`
	// Sheet is what the supplier's sheet of this very pack says of the substance; it
	// goes before the library's word, never below a class that the law has fixed.
	Sheet *PackSheet `toml:"sheet"`
}

// PackSheet is the supplier's safety sheet of a pack.
type PackSheet struct {
	Edition unit.Date `toml:"edition"`
	Classes []string  `toml:"classes"`
}

// InPack finds what is in a pack: of a product, the product as it is bought, or one part
// of a kit.
func (l *Lab) InPack(p Pack, at figure.Where) (Ingredient, []Problem) {
	id, part := split(p.Of)
	if d := l.product[id]; d != nil && (part == "" || d.Parts[part] != nil) {
		if part == "" {
			part = Supplied
		}
		return Ingredient{Ref: id + "." + part, Bath: Bath{Product: d, Strength: Supplied}}, nil
	}
	return l.Resolve(p.Of, at)
}

// InStore is one pack that stands in the store, with its number there and what is in it.
type InStore struct {
	Pack
	Number int
	Ref    string
	Ing    Ingredient
}

// Key is the key of the pack.
func (s InStore) Key() string { return fmt.Sprintf("pack[%d]", s.Number) }

// Past reports that its best-before lies before a day. Good on the day itself.
func (s InStore) Past(day unit.Date) bool {
	return !day.IsZero() && s.BestBefore.Given() && s.BestBefore.Before(day)
}

// Empty reports that nothing is left in it, by the store's own word.
func (s InStore) Empty() bool {
	return s.Left.Given() && !s.Left.Mass.Positive() && !s.Left.Volume.Positive()
}

// InStore lists the packs that can be read, in their order.
func (l *Lab) InStore() []InStore { return slices.Clip(l.ways.inStore) }

// readable finds the packs that can be read.
func (l *Lab) readable() []InStore {
	var out []InStore
	for i, p := range l.Store.Packs {
		ing, bad := l.InPack(p, l.Store.At("pack"))
		if len(bad) > 0 || ing.Ref == "" {
			continue
		}
		s := InStore{Pack: p, Number: i, Ref: ing.Ref, Ing: ing}
		if _, part := split(ing.Ref); !ing.Bath.Zero() &&
			(ing.Bath.Product == nil || ing.Bath.Product.Parts[part] == nil) {
			s.Ref = ing.Bath.Ref()
		}
		out = append(out, s)
	}
	return out
}

// PacksOf returns the packs of a chemical form, a product or a part of a kit, by its full
// reference.
func (l *Lab) PacksOf(ref string) []InStore { return slices.Clip(l.ways.packs[ref]) }

// UsablePacks are those of a reference that may be used on a day, and past how many are past
// their best-before.
func (l *Lab) UsablePacks(ref string, day unit.Date) (usable []InStore, past int) {
	for _, s := range l.PacksOf(ref) {
		if s.Past(day) {
			past++
			continue
		}
		usable = append(usable, s)
	}
	return usable, past
}

// PackOf returns the first pack of a chemical form or product, and its number in the store.
func (l *Lab) PackOf(ref string) (Pack, int, bool) {
	for _, s := range l.PacksOf(ref) {
		return s.Pack, s.Number, true
	}
	return Pack{}, 0, false
}

// Title prints an id as words.
func Title(id string) string { return strings.ReplaceAll(id, "-", " ") }
