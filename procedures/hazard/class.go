// Package hazard says what is known of the dangers of a bath and what to wear
// for each job. Until strengths are classified, a bath carries every hazard of
// its ingredients; what nobody has looked up is never taken as harmless.
package hazard

import (
	"regexp"
	"slices"
	"strings"
)

// Class is a hazard class and category of the CLP scheme.
type Class struct {
	Word      string // "Eye Irrit. 2"
	Code      string // "H319"
	Statement string
	Danger    bool
	Warning   bool
	Pictogram string
}

// classes are all classes and categories of Regulation (EC) No 1272/2008 that
// have a statement, worst kinds first: the order in which they are listed.
// Division 1.6 and types G have no label element and are not among them.
//
// Words: the abbreviations of Annex VI, Table 1.1, read in an accident insurers'
// list; those of later years (Flam. Gas 1A and 1B, Pyr. Gas, Desen. Expl. and the
// classes of 2023) from memory; what stands in brackets is ours. Statements:
// Annex III as in the open dataset mhchem/hpstatements (CC BY 4.0), commit
// 0a2a5a1d29a2, without the places for organs and routes. Pictograms: all of
// Annex V, read in a third-party conversion of the consolidation of 1 September
// 2025. Statement codes and signal words: the label tables named at each group,
// read in third-party conversions of the same consolidation where nothing else
// is said. Where "Annex VI" is named, the label of an entry of Table 3 with that
// class was read in a third-party conversion of the consolidation of 1 July 2026.
var classes = []Class{
	// Table 2.1.2, without a date.
	{"Unst. Expl.", "H200", "Unstable explosives.", true, false, "GHS01"},
	{"Expl. 1.1", "H201", "Explosive; mass explosion hazard.", true, false, "GHS01"},
	{"Expl. 1.2", "H202", "Explosive, severe projection hazard.", true, false, "GHS01"},
	{"Expl. 1.3", "H203", "Explosive; fire, blast or projection hazard.", true, false, "GHS01"},
	{"Expl. 1.4", "H204", "Fire or projection hazard.", false, true, "GHS01"},
	{"Expl. 1.5", "H205", "May mass explode in fire.", true, false, ""},
	// Type B has two pictograms in Annex V, the bomb and the flame: the bomb stands
	// here. Type C: Annex VI; signal words of the other types: Table 2.8.1, from
	// memory.
	{"Self-react. A", "H240", "Heating may cause an explosion.", true, false, "GHS01"},
	{"Self-react. B", "H241", "Heating may cause a fire or explosion.", true, false, "GHS01"},
	{"Self-react. C", "H242", "Heating may cause a fire.", true, false, "GHS02"},
	{"Self-react. D", "H242", "Heating may cause a fire.", true, false, "GHS02"},
	{"Self-react. E", "H242", "Heating may cause a fire.", false, true, "GHS02"},
	{"Self-react. F", "H242", "Heating may cause a fire.", false, true, "GHS02"},
	// Table 2.15.1. Type B as above.
	{"Org. Perox. A", "H240", "Heating may cause an explosion.", true, false, "GHS01"},
	{"Org. Perox. B", "H241", "Heating may cause a fire or explosion.", true, false, "GHS01"},
	{"Org. Perox. C", "H242", "Heating may cause a fire.", true, false, "GHS02"},
	{"Org. Perox. D", "H242", "Heating may cause a fire.", true, false, "GHS02"},
	{"Org. Perox. E", "H242", "Heating may cause a fire.", false, true, "GHS02"},
	{"Org. Perox. F", "H242", "Heating may cause a fire.", false, true, "GHS02"},
	// Table 2.17.2.
	{"Desen. Expl. 1", "H206", "Fire, blast or projection hazard; increased risk of explosion if desensitising agent is reduced.", true, false, "GHS02"},
	{"Desen. Expl. 2", "H207", "Fire or projection hazard; increased risk of explosion if desensitising agent is reduced.", true, false, "GHS02"},
	{"Desen. Expl. 3", "H207", "Fire or projection hazard; increased risk of explosion if desensitising agent is reduced.", false, true, "GHS02"},
	{"Desen. Expl. 4", "H208", "Fire hazard; increased risk of explosion if desensitising agent is reduced.", false, true, "GHS02"},
	// Signal words: Tables 2.9.2 and 2.10.2, from memory; entries of Annex VI agree.
	{"Pyr. Liq. 1", "H250", "Catches fire spontaneously if exposed to air.", true, false, "GHS02"},
	{"Pyr. Sol. 1", "H250", "Catches fire spontaneously if exposed to air.", true, false, "GHS02"},
	// Table 2.12.2.
	{"Water-react. 1", "H260", "In contact with water releases flammable gases which may ignite spontaneously.", true, false, "GHS02"},
	{"Water-react. 2", "H261", "In contact with water releases flammable gases.", true, false, "GHS02"},
	{"Water-react. 3", "H261", "In contact with water releases flammable gases.", false, true, "GHS02"},
	// Table 2.11.2.
	{"Self-heat. 1", "H251", "Self-heating: may catch fire.", true, false, "GHS02"},
	{"Self-heat. 2", "H252", "Self-heating in large quantities; may catch fire.", false, true, "GHS02"},
	// Gases: Table 2.4.2. Liquids: Table 2.13.2. Solids: Annex VI for category 1; 2
	// and 3 from memory of Table 2.14.2.
	{"Ox. Gas 1", "H270", "May cause or intensify fire; oxidiser.", true, false, "GHS03"},
	{"Ox. Sol. 1", "H271", "May cause fire or explosion; strong oxidiser.", true, false, "GHS03"},
	{"Ox. Sol. 2", "H272", "May intensify fire; oxidiser.", true, false, "GHS03"},
	{"Ox. Sol. 3", "H272", "May intensify fire; oxidiser.", false, true, "GHS03"},
	{"Ox. Liq. 1", "H271", "May cause fire or explosion; strong oxidiser.", true, false, "GHS03"},
	{"Ox. Liq. 2", "H272", "May intensify fire; oxidiser.", true, false, "GHS03"},
	{"Ox. Liq. 3", "H272", "May intensify fire; oxidiser.", false, true, "GHS03"},
	// Table 2.2.2. Flam. Gas 1 is the older word that Annex VI still prints. The
	// three kinds after it stand beside Flam. Gas 1A and bring a statement of their
	// own.
	{"Flam. Gas 1", "H220", "Extremely flammable gas.", true, false, "GHS02"},
	{"Flam. Gas 1A", "H220", "Extremely flammable gas.", true, false, "GHS02"},
	{"Pyr. Gas", "H232", "May ignite spontaneously if exposed to air.", true, false, "GHS02"},
	{"Chem. Unst. Gas A", "H230", "May react explosively even in the absence of air.", true, false, "GHS02"},
	{"Chem. Unst. Gas B", "H231", "May react explosively even in the absence of air at elevated pressure and/or temperature.", true, false, "GHS02"},
	{"Flam. Gas 1B", "H221", "Flammable gas.", true, false, "GHS02"},
	{"Flam. Gas 2", "H221", "Flammable gas.", false, true, ""},
	// Table 2.3.1. Categories 1 and 2 carry H229 beside their own code.
	{"Aerosol 1", "H222", "Extremely flammable aerosol. Pressurised container: May burst if heated.", true, false, "GHS02"},
	{"Aerosol 2", "H223", "Flammable aerosol. Pressurised container: May burst if heated.", false, true, "GHS02"},
	{"Aerosol 3", "H229", "Pressurised container: May burst if heated.", false, true, ""},
	// Table 2.6.2.
	{"Flam. Liq. 1", "H224", "Extremely flammable liquid and vapour.", true, false, "GHS02"},
	{"Flam. Liq. 2", "H225", "Highly flammable liquid and vapour.", true, false, "GHS02"},
	{"Flam. Liq. 3", "H226", "Flammable liquid and vapour.", false, true, "GHS02"},
	// Signal words: Table 2.7.2, from memory.
	{"Flam. Sol. 1", "H228", "Flammable solid.", true, false, "GHS02"},
	{"Flam. Sol. 2", "H228", "Flammable solid.", false, true, "GHS02"},
	// Table 2.5.2. Annex VI leaves the kind to the supplier and prints Press. Gas
	// alone; all kinds but the refrigerated one have the same statement.
	{"Press. Gas", "H280", "Contains gas under pressure; may explode if heated.", false, true, "GHS04"},
	{"Press. Gas (compressed)", "H280", "Contains gas under pressure; may explode if heated.", false, true, "GHS04"},
	{"Press. Gas (liquefied)", "H280", "Contains gas under pressure; may explode if heated.", false, true, "GHS04"},
	{"Press. Gas (refrigerated)", "H281", "Contains refrigerated gas; may cause cryogenic burns or injury.", false, true, "GHS04"},
	{"Press. Gas (dissolved)", "H280", "Contains gas under pressure; may explode if heated.", false, true, "GHS04"},
	// Signal word: Table 2.16.2, from memory.
	{"Met. Corr. 1", "H290", "May be corrosive to metals.", false, true, "GHS05"},
	// Table 3.1.3.
	{"Acute Tox. 1 (oral)", "H300", "Fatal if swallowed.", true, false, "GHS06"},
	{"Acute Tox. 2 (oral)", "H300", "Fatal if swallowed.", true, false, "GHS06"},
	{"Acute Tox. 3 (oral)", "H301", "Toxic if swallowed.", true, false, "GHS06"},
	{"Acute Tox. 4 (oral)", "H302", "Harmful if swallowed.", false, true, "GHS07"},
	{"Acute Tox. 1 (dermal)", "H310", "Fatal in contact with skin.", true, false, "GHS06"},
	{"Acute Tox. 2 (dermal)", "H310", "Fatal in contact with skin.", true, false, "GHS06"},
	{"Acute Tox. 3 (dermal)", "H311", "Toxic in contact with skin.", true, false, "GHS06"},
	{"Acute Tox. 4 (dermal)", "H312", "Harmful in contact with skin.", false, true, "GHS07"},
	{"Acute Tox. 1 (inhalation)", "H330", "Fatal if inhaled.", true, false, "GHS06"},
	{"Acute Tox. 2 (inhalation)", "H330", "Fatal if inhaled.", true, false, "GHS06"},
	{"Acute Tox. 3 (inhalation)", "H331", "Toxic if inhaled.", true, false, "GHS06"},
	{"Acute Tox. 4 (inhalation)", "H332", "Harmful if inhaled.", false, true, "GHS07"},
	// Signal word: Table 3.10.2, from memory.
	{"Asp. Tox. 1", "H304", "May be fatal if swallowed and enters airways.", true, false, "GHS08"},
	// Annex VI; 1 and 1C from memory of Table 3.2.5.
	{"Skin Corr. 1", "H314", "Causes severe skin burns and eye damage.", true, false, "GHS05"},
	{"Skin Corr. 1A", "H314", "Causes severe skin burns and eye damage.", true, false, "GHS05"},
	{"Skin Corr. 1B", "H314", "Causes severe skin burns and eye damage.", true, false, "GHS05"},
	{"Skin Corr. 1C", "H314", "Causes severe skin burns and eye damage.", true, false, "GHS05"},
	{"Skin Irrit. 2", "H315", "Causes skin irritation.", false, true, "GHS07"},
	// Table 3.4.7.
	{"Skin Sens. 1", "H317", "May cause an allergic skin reaction.", false, true, "GHS07"},
	{"Skin Sens. 1A", "H317", "May cause an allergic skin reaction.", false, true, "GHS07"},
	{"Skin Sens. 1B", "H317", "May cause an allergic skin reaction.", false, true, "GHS07"},
	// Table 3.3.5, without a date.
	{"Eye Dam. 1", "H318", "Causes serious eye damage.", true, false, "GHS05"},
	{"Eye Irrit. 2", "H319", "Causes serious eye irritation.", false, true, "GHS07"},
	// Table 3.4.7.
	{"Resp. Sens. 1", "H334", "May cause allergy or asthma symptoms or breathing difficulties if inhaled.", true, false, "GHS08"},
	{"Resp. Sens. 1A", "H334", "May cause allergy or asthma symptoms or breathing difficulties if inhaled.", true, false, "GHS08"},
	{"Resp. Sens. 1B", "H334", "May cause allergy or asthma symptoms or breathing difficulties if inhaled.", true, false, "GHS08"},
	// Table 3.8.4.
	{"STOT SE 1", "H370", "Causes damage to organs.", true, false, "GHS08"},
	{"STOT SE 2", "H371", "May cause damage to organs.", false, true, "GHS08"},
	{"STOT SE 3 (respiratory)", "H335", "May cause respiratory irritation.", false, true, "GHS07"},
	{"STOT SE 3 (narcotic)", "H336", "May cause drowsiness or dizziness.", false, true, "GHS07"},
	// Category 2: Annex VI; 1A and 1B from memory of Table 3.5.3, an entry of Annex
	// VI agrees.
	{"Muta. 1A", "H340", "May cause genetic defects.", true, false, "GHS08"},
	{"Muta. 1B", "H340", "May cause genetic defects.", true, false, "GHS08"},
	{"Muta. 2", "H341", "Suspected of causing genetic defects.", false, true, "GHS08"},
	// Table 3.6.3, without a date; H350i: Annex VI.
	{"Carc. 1A", "H350", "May cause cancer.", true, false, "GHS08"},
	{"Carc. 1A (inhalation)", "H350i", "May cause cancer by inhalation.", true, false, "GHS08"},
	{"Carc. 1B", "H350", "May cause cancer.", true, false, "GHS08"},
	{"Carc. 1B (inhalation)", "H350i", "May cause cancer by inhalation.", true, false, "GHS08"},
	{"Carc. 2", "H351", "Suspected of causing cancer.", false, true, "GHS08"},
	// 1B (FD), 2 (f) and 2 (d): Annex VI; the others from memory of Table 3.7.3 and
	// of Annex VI, 1.1.2.1.2. Capitals are what may be damaged, small letters what is
	// suspected.
	{"Repr. 1A", "H360", "May damage fertility or the unborn child.", true, false, "GHS08"},
	{"Repr. 1A (FD)", "H360FD", "May damage fertility. May damage the unborn child.", true, false, "GHS08"},
	{"Repr. 1A (Df)", "H360Df", "May damage the unborn child. Suspected of damaging fertility.", true, false, "GHS08"},
	{"Repr. 1A (D)", "H360D", "May damage the unborn child.", true, false, "GHS08"},
	{"Repr. 1A (Fd)", "H360Fd", "May damage fertility. Suspected of damaging the unborn child.", true, false, "GHS08"},
	{"Repr. 1A (F)", "H360F", "May damage fertility.", true, false, "GHS08"},
	{"Repr. 1B", "H360", "May damage fertility or the unborn child.", true, false, "GHS08"},
	{"Repr. 1B (FD)", "H360FD", "May damage fertility. May damage the unborn child.", true, false, "GHS08"},
	{"Repr. 1B (Df)", "H360Df", "May damage the unborn child. Suspected of damaging fertility.", true, false, "GHS08"},
	{"Repr. 1B (D)", "H360D", "May damage the unborn child.", true, false, "GHS08"},
	{"Repr. 1B (Fd)", "H360Fd", "May damage fertility. Suspected of damaging the unborn child.", true, false, "GHS08"},
	{"Repr. 1B (F)", "H360F", "May damage fertility.", true, false, "GHS08"},
	{"Repr. 2 (fd)", "H361fd", "Suspected of damaging fertility. Suspected of damaging the unborn child.", false, true, "GHS08"},
	{"Repr. 2 (d)", "H361d", "Suspected of damaging the unborn child.", false, true, "GHS08"},
	{"Repr. 2 (f)", "H361f", "Suspected of damaging fertility.", false, true, "GHS08"},
	{"Repr. 2", "H361", "Suspected of damaging fertility or the unborn child.", false, true, "GHS08"},
	// No pictogram: Annex V; no signal word: Table 3.7.3, from memory.
	{"Lact.", "H362", "May cause harm to breast-fed children.", false, false, ""},
	// Category 2: Annex VI; 1 from memory of Table 3.9.5, entries of Annex VI agree.
	{"STOT RE 1", "H372", "Causes damage to organs through prolonged or repeated exposure.", true, false, "GHS08"},
	{"STOT RE 2", "H373", "May cause damage to organs through prolonged or repeated exposure.", false, true, "GHS08"},
	// Annex I, 3.11, in a third-party conversion of the consolidation of 1 May 2026.
	{"ED HH 1", "EUH380", "May cause endocrine disruption in humans.", true, false, ""},
	{"ED HH 2", "EUH381", "Suspected of causing endocrine disruption in humans.", false, true, ""},
	// Annex VI.
	{"Aquatic Acute 1", "H400", "Very toxic to aquatic life.", false, true, "GHS09"},
	{"Aquatic Chronic 1", "H410", "Very toxic to aquatic life with long lasting effects.", false, true, "GHS09"},
	{"Aquatic Chronic 2", "H411", "Toxic to aquatic life with long lasting effects.", false, false, "GHS09"},
	{"Aquatic Chronic 3", "H412", "Harmful to aquatic life with long lasting effects.", false, false, ""},
	{"Aquatic Chronic 4", "H413", "May cause long lasting harmful effects to aquatic life.", false, false, ""},
	// Table 4.2.3.
	{"ED ENV 1", "EUH430", "May cause endocrine disruption in the environment.", true, false, ""},
	{"ED ENV 2", "EUH431", "Suspected of causing endocrine disruption in the environment.", false, true, ""},
	// Table 4.3.1.
	{"vPvB", "EUH441", "Strongly accumulates in the environment and living organisms including in humans.", true, false, ""},
	{"PBT", "EUH440", "Accumulates in the environment and living organisms including in humans.", true, false, ""},
	// Annex I, 4.4, in a third-party conversion of the consolidation of 1 May 2026.
	{"vPvM", "EUH451", "Can cause very long-lasting and diffuse contamination of water resources.", true, false, ""},
	{"PMT", "EUH450", "Can cause long-lasting and diffuse contamination of water resources.", true, false, ""},
	// A public institute's summary of the label tables of 2014.
	{"Ozone 1", "H420", "Harms public health and the environment by destroying ozone in the upper atmosphere.", false, true, "GHS07"},
}

// supplements are the statements of Annex II that stand apart from classes, from
// the same dataset; EUH208 without the name that stands before it. EUH001, 006
// and 059 are no longer in it. EUH211 and EUH212 were annulled with the entry of
// titanium dioxide (notice C/2025/6670, not opened); older sheets carry them.
var supplements = map[string]string{
	"EUH014":  "Reacts violently with water.",
	"EUH018":  "In use may form flammable/explosive vapour-air mixture.",
	"EUH019":  "May form explosive peroxides.",
	"EUH029":  "Contact with water liberates toxic gas.",
	"EUH031":  "Contact with acids liberates toxic gas.",
	"EUH032":  "Contact with acids liberates very toxic gas.",
	"EUH044":  "Risk of explosion if heated under confinement.",
	"EUH066":  "Repeated exposure may cause skin dryness or cracking.",
	"EUH070":  "Toxic by eye contact.",
	"EUH071":  "Corrosive to the respiratory tract.",
	"EUH201":  "Contains lead. Should not be used on surfaces liable to be chewed or sucked by children.",
	"EUH201A": "Warning! Contains lead.",
	"EUH202":  "Cyanoacrylate. Danger. Bonds skin and eyes in seconds. Keep out of the reach of children.",
	"EUH203":  "Contains chromium (VI). May produce an allergic reaction.",
	"EUH204":  "Contains isocyanates. May produce an allergic reaction.",
	"EUH205":  "Contains epoxy constituents. May produce an allergic reaction.",
	"EUH206":  "Warning! Do not use together with other products. May release dangerous gases (chlorine).",
	"EUH207":  "Warning! Contains cadmium. Dangerous fumes are formed during use. See information supplied by the manufacturer. Comply with the safety instructions.",
	"EUH208":  "May produce an allergic reaction.",
	"EUH209":  "Can become highly flammable in use.",
	"EUH209A": "Can become flammable in use.",
	"EUH210":  "Safety data sheet available on request.",
	"EUH211":  "Warning! Hazardous respirable droplets may be formed when sprayed. Do not breathe spray or mist.",
	"EUH212":  "Warning! Hazardous respirable dust may be formed when used. Do not breathe dust.",
}

// covers says which statements are left off a label because a harder one on it
// says the same and more: Article 27 of Regulation (EC) No 1272/2008 wants no
// duplication, Annex III says so of EUH and H statements. That a burn covers
// damage to the eyes was seen in the footnote of Table 3.3.5, that H410 covers
// H400 on labels of Annex VI, that EUH441 covers EUH440 and EUH451 EUH450 in a
// third-party conversion of the consolidation of 1 May 2026; the rest, and that
// the harder category of one class stands for the milder, is from memory. H360
// names no effect and covers nothing that names one.
var covers = map[string][]string{
	"H206":   {"H207", "H208"},
	"H207":   {"H208"},
	"H220":   {"H221"},
	"H222":   {"H223", "H229"},
	"H223":   {"H229"},
	"H224":   {"H225", "H226"},
	"H225":   {"H226"},
	"H230":   {"H231"},
	"H240":   {"H241", "H242"},
	"H241":   {"H242"},
	"H251":   {"H252"},
	"H260":   {"H261"},
	"H271":   {"H272"},
	"H300":   {"H301", "H302"},
	"H301":   {"H302"},
	"H310":   {"H311", "H312"},
	"H311":   {"H312"},
	"H314":   {"H315", "H318", "H319"},
	"H318":   {"H319"},
	"H330":   {"H331", "H332"},
	"H331":   {"H332"},
	"H340":   {"H341"},
	"H350":   {"H350i", "H351"},
	"H350i":  {"H351"},
	"H360":   {"H361"},
	"H360FD": {"H360", "H360F", "H360D", "H360Fd", "H360Df", "H361", "H361f", "H361d", "H361fd"},
	"H360Fd": {"H360F", "H361", "H361f", "H361d", "H361fd"},
	"H360Df": {"H360D", "H361", "H361f", "H361d", "H361fd"},
	"H360F":  {"H361f"},
	"H360D":  {"H361d"},
	"H361fd": {"H361", "H361f", "H361d"},
	"H370":   {"H371"},
	"H372":   {"H373"},
	"H410":   {"H400", "H411", "H412", "H413"},
	"H411":   {"H412", "H413"},
	"H412":   {"H413"},
	"EUH380": {"EUH381"},
	"EUH430": {"EUH431"},
	"EUH441": {"EUH440"},
	"EUH451": {"EUH450"},
}

// ClassNamed finds a class by its word.
func ClassNamed(word string) (Class, bool) {
	for _, c := range classes {
		if c.Word == word {
			return c, true
		}
	}
	return Class{}, false
}

// Words lists every class word, in the order of the table.
func Words() []string {
	out := make([]string, len(classes))
	for i, c := range classes {
		out[i] = c.Word
	}
	return out
}

// WordsOf lists the class words that carry a statement code: a bare code does
// not say which of them is meant.
func WordsOf(code string) []string {
	var out []string
	for _, c := range classes {
		if strings.EqualFold(c.Code, code) {
			out = append(out, c.Word)
		}
	}
	return out
}

// Supplement returns the text of a supplemental statement.
func Supplement(code string) (string, bool) {
	s, ok := supplements[code]
	return s, ok
}

// NearClass returns the class word that is meant by a slip of the keyboard or by
// a spelling common on safety data sheets, or nothing. What is written of the
// category, in brackets and as a code always stands: a hint never leads to a
// milder category, to another route or to another class.
func NearClass(word string) string {
	meant, ok := takeApart(word)
	if !ok {
		return ""
	}
	name := meant.nearestName()
	var found []string
	for i, c := range classes {
		w := taken[i]
		switch {
		case name == "" || !slices.Contains(w.names(), name) || w.category != meant.category:
		case w.bracket != meant.bracket && (meant.bracket != "" || len(meant.codes) == 0):
		case len(meant.codes) > 0 && !slices.Contains(meant.codes, c.Code):
		default:
			found = append(found, c.Word)
		}
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}

// spelled is a class word taken apart: the words of its class in small letters,
// its category, what stands in brackets, and statement codes.
type spelled struct {
	class             []string
	category, bracket string
	codes             []string
}

var (
	inBrackets = regexp.MustCompile(`\([^()]*\)`)
	pieces     = regexp.MustCompile(`(?i)\b(?:EUH|H)[0-9]{3}[a-z]*\b|[0-9]\.[0-9]|[0-9]+|\pL+`)
	aCode      = regexp.MustCompile(`(?i)^(EUH|H)([0-9]{3}[a-z]*)$`)
)

// notSaid are words of a safety data sheet that stand before a category.
var notSaid = []string{"category", "cat", "subcategory", "sub", "division", "type"}

// effects of reproductive toxicity: capital and small letters differ.
var effects = []string{"F", "D", "FD", "Fd", "Df", "f", "d", "fd"}

// brackets lists what else stands in brackets, with other spellings of it.
var brackets = map[string][]string{
	"oral":         nil,
	"dermal":       nil,
	"inhalation":   {"inhal", "inh"},
	"respiratory":  {"respiratoryirritation", "respiratorytractirritation"},
	"narcotic":     {"narcoticeffects"},
	"compressed":   {"comp", "compressedgas"},
	"liquefied":    {"liq", "liquefiedgas"},
	"refrigerated": {"refliq", "refrigeratedliquefiedgas"},
	"dissolved":    {"diss", "dissolvedgas"},
}

// inFull are the names of classes, by their abbreviation.
var inFull = map[string][]string{
	"expl":            {"explosives"},
	"unst expl":       {"unstable explosives"},
	"desen expl":      {"desensitised explosives"},
	"self react":      {"self reactive substances"},
	"org perox":       {"organic peroxides"},
	"pyr liq":         {"pyrophoric liquids"},
	"pyr sol":         {"pyrophoric solids"},
	"self heat":       {"self heating", "self heating substances"},
	"ox gas":          {"oxidising gases"},
	"ox liq":          {"oxidising liquids"},
	"ox sol":          {"oxidising solids"},
	"flam gas":        {"flammable gases"},
	"flam liq":        {"flammable liquids"},
	"flam sol":        {"flammable solids"},
	"press gas":       {"gases under pressure"},
	"met corr":        {"corrosive to metals"},
	"acute tox":       {"acute toxicity"},
	"asp tox":         {"aspiration hazard", "aspiration toxicity"},
	"skin corr":       {"skin corrosion", "skin corrosion irritation"},
	"skin irrit":      {"skin irritation", "skin corrosion irritation"},
	"skin sens":       {"skin sensitisation"},
	"eye dam":         {"eye damage", "serious eye damage", "serious eye damage irritation", "serious eye damage eye irritation"},
	"eye irrit":       {"eye irritation", "serious eye irritation", "serious eye damage irritation", "serious eye damage eye irritation"},
	"resp sens":       {"respiratory sensitisation"},
	"stot se":         {"specific target organ toxicity single exposure"},
	"stot re":         {"specific target organ toxicity repeated exposure"},
	"muta":            {"mutagenicity", "germ cell mutagenicity"},
	"carc":            {"carcinogenicity"},
	"repr":            {"reproductive toxicity"},
	"aquatic acute":   {"acute aquatic hazard", "hazardous to the aquatic environment acute"},
	"aquatic chronic": {"chronic aquatic hazard", "hazardous to the aquatic environment chronic"},
}

// takeApart reads a class word. It fails where two categories or two brackets
// are written, or an empty one.
func takeApart(word string) (spelled, bool) {
	var s spelled
	well := true
	bracket := func(text string) {
		well = well && s.bracket == "" && text != ""
		s.bracket = text
	}
	outside := inBrackets.ReplaceAllStringFunc(word, func(b string) string {
		b = b[1 : len(b)-1]
		if strings.ContainsAny(b, "0123456789") {
			return " " + b + " " // a category or a code
		}
		bracket(bracketMeant(b))
		return " "
	})
	for _, p := range pieces.FindAllString(outside, -1) {
		small := strings.ToLower(p)
		_, route := brackets[small]
		letter := strings.ToUpper(p)
		switch m := aCode.FindStringSubmatch(p); {
		case m != nil:
			s.codes = append(s.codes, strings.ToUpper(m[1])+m[2])
		case p[0] >= '0' && p[0] <= '9':
			well = well && s.category == ""
			s.category = p
		case len(s.category) == 1 && s.category < "A" && len(p) == 1 && letter >= "A" && letter <= "C":
			s.category += letter
		case s.category == "" && len(s.class) > 1 && len(p) == 1 && letter >= "A" && letter <= "G":
			s.category = letter
		case slices.Contains(notSaid, small):
		case route && (s.category != "" || len(s.class) > 1 && small != "respiratory"):
			bracket(small)
		case s.category != "" && slices.Contains(effects, p):
			bracket(p)
		default:
			s.class = append(s.class, small)
		}
	}
	return s, well
}

// bracketMeant is the known word for what stands in brackets, allowing for a slip;
// else what stands there.
func bracketMeant(text string) string {
	text = strings.TrimSpace(text)
	small := strings.Join(pieces.FindAllString(strings.ToLower(text), -1), "")
	best, at := text, 2
	for known, others := range brackets {
		if small == known || slices.Contains(others, small) {
			return known
		}
		if n := slips(small, known); n < at {
			best, at = known, n
		}
	}
	return best
}

// slipsAllowed is how many slips a word of this length may hold; none where
// nothing but a short class is written.
func (s spelled) slipsAllowed() int {
	switch n := len(strings.Join(s.class, "")); {
	case n < 5 && s.category == "":
		return 0
	case n < 6:
		return 1
	case n < 14:
		return 2
	default:
		return 3
	}
}

// taken are the words of the table, taken apart, in its order.
var taken = func() []spelled {
	out := make([]spelled, len(classes))
	for i, c := range classes {
		out[i], _ = takeApart(c.Word)
	}
	return out
}()

// names are the spellings of a class: its abbreviation and its names.
func (s spelled) names() []string {
	short := strings.Join(s.class, " ")
	return append([]string{short}, inFull[short]...)
}

// spellings are all names of all classes, in the order of the table.
var spellings = func() []string {
	var out []string
	for _, w := range taken {
		for _, name := range w.names() {
			if !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}()

// nearestName is the spelling, of all classes of the table, that is nearest to
// what is written; nothing where none is near or two are equally so.
func (s spelled) nearestName() string {
	best, at := "", s.slipsAllowed()+1
	for _, name := range spellings {
		switch n := between(s.class, strings.Fields(name)); {
		case n < at:
			best, at = name, n
		case n == at:
			best = ""
		}
	}
	return best
}

const tooMany = 99

// between counts the slips between two spellings, word by word; words of two
// letters must be right.
func between(written, name []string) int {
	if strings.Join(written, "") == strings.Join(name, "") {
		return 0
	}
	if len(written) != len(name) {
		return tooMany
	}
	n := 0
	for i, w := range written {
		if len(name[i]) <= 2 && w != name[i] {
			return tooMany
		}
		n += slips(w, name[i])
	}
	return n
}

// slips counts letters left out, put in, replaced or swapped with their
// neighbour between two words.
func slips(a, b string) int {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			replaced := d[i-1][j-1]
			if a[i-1] != b[j-1] {
				replaced++
			}
			d[i][j] = min(replaced, d[i-1][j]+1, d[i][j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}
