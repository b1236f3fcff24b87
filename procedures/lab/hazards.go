package lab

import "wetside/procedures/unit"

// Hazards is what is known of the dangers of a chemical or product. A nil
// *Hazards is unknown; empty Classes with Assessed: looked at, none.
type Hazards struct {
	Classes  []string  `toml:"classes"`
	Extra    []string  `toml:"extra"`
	Assessed *Assessed `toml:"assessed"`
	Note     string    `toml:"note"`
	// Wear is what the supplier's sheet asks to wear or to have while the thing is handled as it
	// comes, in the words of the gear.
	Wear []string `toml:"wear"`
	// Elsewhere are stricter lists of other schemes: they ask for more gear and
	// are named beside the classes, and they add no class.
	Elsewhere []Elsewhere `toml:"elsewhere"`
	// Unknown are the ways into a body that nobody has tested.
	Unknown []Route `toml:"unknown"`
	// Together is a name under which several substances share one limit: what there is
	// of each is added up before it is held against it.
	Together string `toml:"together"`
	// Tested says of a class that a test stands against it, and which.
	Tested map[string]string `toml:"tested"`
	InMixtures
}

// InMixtures is what the class of a mixture hangs on besides the classes of what is
// in it, as a supplier's sheet gives it.
type InMixtures struct {
	ATE ATE `toml:"ate"`
	// Limits are the contents from which a class holds, by the word of the class. They
	// go before the general limits.
	Limits  map[string]Said[unit.WW] `toml:"limits"`
	MFactor MFactor                  `toml:"m_factor"`
	// Additive is false where skin and eyes are judged by the tables for what does not
	// add up; nil where nobody has said.
	Additive *bool `toml:"additive"`
}

// ATE are the estimates of acute toxicity by the way into the body.
type ATE struct {
	Oral   Said[unit.Dose]  `toml:"oral"`
	Dermal Said[unit.Dose]  `toml:"dermal"`
	Vapour Said[unit.InAir] `toml:"vapour"`
	Dust   Said[unit.InAir] `toml:"dust"`
	Gas    Said[unit.Gas]   `toml:"gas"`
}

// Given reports whether any estimate was written.
func (a ATE) Given() bool {
	return a.Oral.Given() || a.Dermal.Given() || a.Vapour.Given() || a.Dust.Given() || a.Gas.Given()
}

// MFactor multiplies the content of what harms water in very small amounts.
type MFactor struct {
	Acute   SaidCount `toml:"acute"`
	Chronic SaidCount `toml:"chronic"`
}

// Given reports whether any factor was written.
func (m MFactor) Given() bool { return m.Acute.Given() || m.Chronic.Given() }

// Elsewhere is what another list says of a substance. List is the id of a source.
type Elsewhere struct {
	List    string   `toml:"list"`
	Classes []string `toml:"classes"`
}

// Assessed says who looked, when, in which sheet.
type Assessed struct {
	By    string   `toml:"by"`
	On    SaidDate `toml:"on"`
	Sheet string   `toml:"sheet"`
}
