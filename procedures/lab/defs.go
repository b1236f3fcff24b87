package lab

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// Chemical is a substance in one or more forms (hydrates, solutions as bought).
type Chemical struct {
	Def
	Name    string           `toml:"name"`
	Forms   map[string]*Form `toml:"form"`
	Hazards *Hazards         `toml:"hazards"`
	Note    string           `toml:"note"`
	// Volatile: it gives off vapour at room temperature.
	Volatile bool `toml:"volatile"`
	// Ions are what one unit of it becomes in water, each with how many: "Na+", "CO3-2";
	// a proton is "H+". They are held against the formula of each form.
	Ions map[string]Count `toml:"ions"`
	// Keep = "never" marks a substance this lab does not have in the house.
	// Why says so, and Instead what does its work.
	Keep    string `toml:"keep"`
	Why     string `toml:"why"`
	Instead string `toml:"instead"`
}

// InWater are what one unit of a form becomes in water: its own ions, else those of the
// chemical.
func (c *Chemical) InWater(form string) map[string]Count {
	if f := c.Forms[form]; f != nil && len(f.Ions) > 0 {
		return f.Ions
	}
	return c.Ions
}

// Graded reports a chemical of which not every form has the same classes as it comes.
func (c *Chemical) Graded() bool {
	for _, f := range c.Forms {
		if f.Classes != nil {
			return true
		}
	}
	return false
}

// Form is one form of a chemical. Formula "none" is an indefinite composition:
// no moles may be computed from it.
type Form struct {
	Formula string                   `toml:"formula"`
	CAS     string                   `toml:"cas"`
	Refuse  string                   `toml:"refuse"`
	TakesUp Said[unit.VolumePerMass] `toml:"takes_up"`
	Content Said[unit.WW]            `toml:"content"`
	Density Said[unit.Density]       `toml:"density"`
	Purity  Said[unit.WW]            `toml:"purity"`
	Name    string                   `toml:"name"`
	// Dissolves is the solubility at each temperature, such as "20 °C".
	Dissolves map[string]Said[unit.Solubility] `toml:"dissolves"`
	// Heat is what dissolving a mole takes in; negative warms the water.
	Heat Said[unit.Heat] `toml:"heat"`
	// Ions are what it becomes in water, where that is not what the other forms become.
	Ions map[string]Count `toml:"ions"`
	// Classes are what this form is as it comes, where that is not what [hazards] says of
	// the chemical: a stronger solution, or another salt. nil: as the chemical.
	Classes []string `toml:"classes"`
}

// Solution is what is made up.
type Solution struct {
	Def
	Name    string             `toml:"name"`
	Role    Role               `toml:"role"`
	Per     Said[unit.Volume]  `toml:"per"`
	Water   WaterKind          `toml:"water"`
	Start   Start              `toml:"start"`
	Density Said[unit.Density] `toml:"density"`
	// PH is what has been measured or is expected of what the steps make.
	PH        Said[unit.Factor]    `toml:"ph"`
	Make      Make                 `toml:"make"`
	Makes     string               `toml:"makes"`
	Steps     []Step               `toml:"step"`
	Dissolve  *Dissolve            `toml:"dissolve"`
	Strengths map[string]*Strength `toml:"strength"`
	Keeps     Keeps                `toml:"keeps"`
	Waste     string               `toml:"waste"`
	Never     []string             `toml:"never"`
	// NeverMixing are mistakes that only somebody who mixes it can make; they
	// stand on no bottle.
	NeverMixing []string `toml:"never_mixing"`
	Dead        string   `toml:"dead"`
	Note        string   `toml:"note"`
}

// Start is what goes into the jug first.
type Start struct {
	With Said[unit.Volume]      `toml:"with"`
	At   Said[unit.Temperature] `toml:"at"`
}

// Make is how a solution is made: in which batches, how long it stands.
type Make struct {
	Batches []Said[unit.Volume] `toml:"batches"`
	Stand   SaidLife            `toml:"stand"`
}

// Step adds one thing. Amount is per the solution's Per; Parts mixes baths and
// never tops up.
type Step struct {
	ID      string             `toml:"id"`
	Add     string             `toml:"add"`
	Amount  Amount             `toml:"amount"`
	Parts   Said[unit.Factor]  `toml:"parts"`
	Lots    Count              `toml:"lots"`
	Wait    string             `toml:"wait"`
	Caution string             `toml:"caution"`
	Note    string             `toml:"note"`
	Within  Said[unit.Percent] `toml:"within"`
}

// Dissolve makes a percent solution: one substance in one solvent.
type Dissolve struct {
	Add      string                 `toml:"add"`
	Strength Said[unit.WV]          `toml:"strength"`
	In       string                 `toml:"in"`
	At       Said[unit.Temperature] `toml:"at"`
	Caution  string                 `toml:"caution"`
}

// Strength is a solution as it is used, named by its role.
type Strength struct {
	From        string                   `toml:"from"`
	Dilute      SaidDilution             `toml:"dilute"`
	Use         Use                      `toml:"use"`
	Water       WaterKind                `toml:"water"`
	PH          Said[unit.Factor]        `toml:"ph"`
	Needs       Said[unit.VolumePerRoll] `toml:"needs"`
	Keeps       Keeps                    `toml:"keeps"`
	Temperature Window                   `toml:"temperature"`
	Push        *Stops                   `toml:"push"`
	Pull        *Stops                   `toml:"pull"`
	Limits      []Limit                  `toml:"limits"`
	// Longer is how much longer a re-used developer takes for each roll that a
	// litre has done.
	Longer Said[unit.PerRollLitre] `toml:"longer"`
	// Serves says which bases need or may have this bath, by base.
	Serves map[Base]Serving `toml:"serves"`
	// Coat is what covers an area or a sheet; Loss is what stays in the brush and
	// the dish.
	Coat Coat               `toml:"coat"`
	Loss Said[unit.Percent] `toml:"loss"`
	Note string             `toml:"note"`
	// Found is what a laboratory has found in it when it was spent, by what a limit of a permit
	// may speak of.
	Found map[string]Said[unit.Concentration] `toml:"found"`
	// Override is what this lab says of its hazards against all other voices.
	Override *Override `toml:"override"`
}

// Finds reports whether somebody has written how much of something was found in it; nil finds nothing.
func (s *Strength) Finds(of string) bool { return s != nil && s.Found[of].Given() }

// Override is this lab's own judgement of the hazards of a strength. It may always make
// it harder; milder only by data or a sheet of the same mixture, that a second person
// has seen.
type Override struct {
	Classes []string `toml:"classes"`
	Why     string   `toml:"why"`
	By      string   `toml:"by"`
	Second  string   `toml:"second"`
	Source  string   `toml:"source"`
	Until   SaidDate `toml:"until"`
}

// Window is the temperatures at which a bath may be used. Slope belongs to a
// developer: how much faster it works per kelvin, as a natural logarithm.
type Window struct {
	From      Said[unit.Temperature] `toml:"from"`
	StopAbove Said[unit.Temperature] `toml:"stop_above"`
	Slope     Said[unit.PerKelvin]   `toml:"slope"`
	Shortest  Said[unit.Seconds]     `toml:"shortest"`
	// Measured is two times of one film, from which the slope is worked out
	// where none is written.
	Measured []Pair `toml:"measured"`
}

// HasSlope reports whether times at other temperatures can be worked out.
func (w Window) HasSlope() bool { return w.Slope.Given() || len(w.Measured) == 2 }

// Pair is a time at a temperature.
type Pair struct {
	At   Said[unit.Temperature] `toml:"at"`
	Time Said[unit.Seconds]     `toml:"time"`
}

// Stops is a factor on the time for each stop, and how many stops at most.
type Stops struct {
	Factor Said[unit.PerStop] `toml:"factor"`
	Most   SaidCount          `toml:"most"`
}

// Keeps is how long a solution keeps in each state of its container.
type Keeps struct {
	Full   SaidLife `toml:"full"`
	Part   SaidLife `toml:"part"`
	Low    SaidLife `toml:"low"`
	Tray   SaidLife `toml:"tray"`
	Poured SaidLife `toml:"poured"`
}

// Given reports whether any life was written.
func (k Keeps) Given() bool {
	return k.Full.Given() || k.Part.Given() || k.Low.Given() || k.Tray.Given() || k.Poured.Given()
}

// Same reports whether both say the same of every state.
func (k Keeps) Same(o Keeps) bool {
	same := func(a, b SaidLife) bool { return a.Seconds == b.Seconds && a.Days == b.Days && a.Months == b.Months }
	return same(k.Full, o.Full) && same(k.Part, o.Part) && same(k.Low, o.Low) && same(k.Tray, o.Tray) &&
		same(k.Poured, o.Poured)
}

// Material is one film or paper, in its formats.
type Material struct {
	Def
	Name    string                   `toml:"name"`
	Base    Base                     `toml:"base"`
	Grain   Grain                    `toml:"grain"`
	Speed   SaidCount                `toml:"speed"`
	Formats []string                 `toml:"formats"`
	Format  map[string]Format        `toml:"format"`
	Silver  Silver                   `toml:"silver"`
	Clears  Said[unit.Seconds]       `toml:"clears"`
	Carry   Said[unit.VolumePerArea] `toml:"carry"`
	Develop []Develop                `toml:"develop"`
	Note    SaidText                 `toml:"note"`
}

// Silver is how much a material is coated with and how much of it ends in the
// fixer.
type Silver struct {
	Coated      Said[unit.MassPerArea] `toml:"coated"`
	Undeveloped Said[unit.Percent]     `toml:"undeveloped"`
}

// Develop is a measured time in a developer at a temperature.
type Develop struct {
	In   string                 `toml:"in"`
	At   Said[unit.Temperature] `toml:"at"`
	Time Said[unit.Seconds]     `toml:"time"`
}

// Format is a size of film or paper.
type Format struct {
	Name   string            `toml:"name"`
	Family string            `toml:"family"`
	Area   Said[unit.Area]   `toml:"area"`
	Width  Said[unit.Length] `toml:"width"`
	Length Said[unit.Length] `toml:"length"`
	Rolls  Said[unit.Rolls]  `toml:"rolls"`
	// Piece is "roll" or "sheet"; left out, it follows from the sides (IsRoll).
	Piece  Piece  `toml:"piece"`
	Origin string `toml:"origin"`
	Source string `toml:"source"`
}

// ownOrigin is the format's own word for who vouches for it.
func (f Format) ownOrigin() string { return f.Origin }

// IsRoll reports whether one of the format is a roll that goes onto a reel: as
// written, else a strip at least three times as long as wide; where no sides are
// written, what counts as half a roll or more.
func (f Format) IsRoll() bool {
	switch {
	case f.Piece != "":
		return f.Piece == Roll
	case f.Width.Positive() && f.Length.Positive():
		return f.Length.Value() >= 3*f.Width.Value()
	}
	return f.Rolls.Positive() && f.Rolls.Value() >= 0.5
}

// FormatTable is the table of formats, by id.
type FormatTable struct {
	Def
	Format map[string]Format `toml:"format"`
}

// Process is a sequence of steps.
type Process struct {
	Def
	Name        string             `toml:"name"`
	Base        Base               `toml:"base"`
	Clock       ClockRule          `toml:"clock"`
	Agitate     map[string]Agitate `toml:"agitate"`
	Temperature ProcessTemperature `toml:"temperature"`
	Bench       []string           `toml:"bench"`
	Steps       []ProcessStep      `toml:"step"`
	Never       []string           `toml:"never"`
	Note        string             `toml:"note"`
	// Like is the process whose steps this one takes over; Change says what is
	// different, by step id; Then goes on with the steps of another.
	Like   string                 `toml:"like"`
	Change map[string]ProcessStep `toml:"change"`
	Then   *Then                  `toml:"then"`

	declaredAt map[string]keyPlace // keys that another definition or table says
	incomplete bool                // what it is built on is not there
}

// ProcessTemperature is what all baths are brought to.
type ProcessTemperature struct {
	At     Said[unit.Temperature] `toml:"at"`
	Within Said[unit.Kelvin]      `toml:"within"`
}

// ClockRule says when the clock starts and how long draining takes.
type ClockRule struct {
	Starts ClockStart         `toml:"starts"`
	Drain  Said[unit.Seconds] `toml:"drain"`
}

// Agitate is a way of agitating: at first, and then again and again.
type Agitate struct {
	First Turns              `toml:"first"`
	Then  Turns              `toml:"then"`
	Lasts Said[unit.Seconds] `toml:"lasts"`
	Note  string             `toml:"note"`
}

// Turns is "6 in 30 s", "4 every 60 s", or "continuous for 15 s".
type Turns struct {
	provenance
	text  string
	Count int
	Every bool
	Over  Said[unit.Seconds]
}

var turns = regexp.MustCompile(`^([0-9]+|continuous) (in|every|for) (.+)$`)

// Given reports whether it was written.
func (t Turns) Given() bool { return t.text != "" }

// Text returns the turns as written.
func (t Turns) Text() string { return t.text }

// Figure is how often it is turned as a figure to work from.
func (t Turns) Figure(name string) figure.Figure[unit.Factor] {
	return number(t.provenance, unit.Factor(t.Count), t.text, name)
}

// Continuous reports agitation without a pause.
func (t Turns) Continuous() bool { return strings.HasPrefix(t.text, "continuous") }

// UnmarshalText reads the turns.
func (t *Turns) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(string(b))
	m := turns.FindStringSubmatch(s)
	bad := &unit.Error{Code: "agitation", What: strconv.Quote(s) + " is not a way to agitate", Hint: `write first = "6 in 30 s" and then = "4 every 60 s"; or first = "continuous for 15 s"`}
	if m == nil || (m[1] == "continuous") != (m[2] == "for") {
		return bad
	}
	got := Turns{text: s, Every: m[2] == "every"}
	if m[1] != "continuous" {
		got.Count, _ = strconv.Atoi(m[1])
		if got.Count == 0 || got.Count > 200 {
			return bad
		}
	}
	if err := got.Over.UnmarshalText([]byte(m[3])); err != nil {
		return err
	}
	if !got.Over.Positive() {
		return bad
	}
	*t = got
	return nil
}

// ProcessStep has exactly one of Bath, Fills, Flow and Do.
type ProcessStep struct {
	ID        string                 `toml:"id"`
	Name      string                 `toml:"name"`
	Bath      string                 `toml:"bath"`
	Fills     []int                  `toml:"fills"`
	Flow      Said[unit.Flow]        `toml:"flow"`
	Do        string                 `toml:"do"`
	Time      StepTime               `toml:"time"`
	Least     Said[unit.Seconds]     `toml:"least"`
	Over      Said[unit.Seconds]     `toml:"over"`
	Light     string                 `toml:"light"`
	Agitate   string                 `toml:"agitate"`
	Caution   string                 `toml:"caution"`
	Note      string                 `toml:"note"`
	Within    Said[unit.Kelvin]      `toml:"within"`
	StopAbove Said[unit.Temperature] `toml:"stop_above"`
	Below     Said[unit.Temperature] `toml:"below"`
	Gate      string                 `toml:"gate"`
	Before    string                 `toml:"before"`
	// CollectFirst is how many of the first fills go to the drum of the bath
	// before them.
	CollectFirst SaidNumber `toml:"collect_first"`
	// Place is 1 for the first of two baths, 2 for the second.
	Place Count `toml:"place"`
	// InsteadOf is the running wash that these fills replace.
	InsteadOf Said[unit.Seconds] `toml:"instead_of"`
	// Until is what the eye waits for: a step without a clock.
	Until string `toml:"until"`
	// Optional marks a step that may be left out.
	Optional bool `toml:"optional"`
	// Waste is the route of what this step leaves, where it is not its bath's.
	Waste string `toml:"waste"`
	// Fill is how much of the bath is poured, where it is not the vessel's fill.
	Fill Said[unit.Volume] `toml:"fill"`
}

// StepTime is how long a step takes: a time, the material's own development
// time, or a multiple of its clearing time.
type StepTime struct {
	text     string
	Material bool
	Clearing bool
	Fixed    Said[unit.Seconds]
}

// Given reports whether it was written.
func (t StepTime) Given() bool { return t.text != "" }

// UnmarshalText reads "material", "clearing" or a time.
func (t *StepTime) UnmarshalText(b []byte) error {
	s := strings.TrimSpace(string(b))
	switch s {
	case "material":
		*t = StepTime{text: s, Material: true}
		return nil
	case "clearing":
		*t = StepTime{text: s, Clearing: true}
		return nil
	}
	got := StepTime{text: s}
	if err := got.Fixed.UnmarshalText(b); err != nil {
		return &unit.Error{Code: "time", What: strconv.Quote(s) + " is not how long a step takes", Hint: `write a time as "1:00" or "2 h", or "material" for the film's own development time, or "clearing" for the fixing time`}
	}
	*t = got
	return nil
}

// Waste is a route for spent baths.
type Waste struct {
	Def
	Name    string   `toml:"name"`
	Drum    string   `toml:"drum"`
	Never   []string `toml:"never"`
	Collect string   `toml:"collect"`
	Why     string   `toml:"why"`
	// Code is the number in the list of wastes.
	Code string `toml:"code"`
	// Carries tells what is counted in the drum, such as "silver".
	Carries string  `toml:"carries"`
	Apart   []Apart `toml:"apart"`
	// Drain says how it goes down the foul drain once that is permitted.
	Drain string `toml:"drain"`
	// Alone: nothing else goes into its drum.
	Alone bool `toml:"alone"`
}

// FormClassesKey is the key of the classes of a form of a chemical.
func FormClassesKey(form string) string { return "form." + keyName(form) + ".classes" }

// StepKey is the key of a step in its list.
func StepKey(i int) string { return fmt.Sprintf("step[%d]", i) }
