// Package hazard says what is known of the dangers of a bath and what to wear
// for each job. Until strengths are classified, a bath carries every hazard of
// its ingredients; what nobody has looked up is never taken as harmless.
package hazard

import "strings"

// Class is a hazard class and category of the CLP scheme.
type Class struct {
	Word      string // "Eye Irrit. 2"
	Code      string // "H319"
	Statement string
	Danger    bool
	Warning   bool
	Pictogram string
}

// classes are the classes of Regulation (EC) No 1272/2008 that darkroom
// substances carry. Statements: Annex III as in the open dataset
// mhchem/hpstatements (CC BY 4.0), commit 0a2a5a1d29a2; allocation of codes,
// signal words and pictograms to classes: from memory of Annex I.
var classes = []Class{
	{"Ox. Sol. 1", "H271", "May cause fire or explosion; strong oxidiser.", true, false, "GHS03"},
	{"Ox. Sol. 2", "H272", "May intensify fire; oxidiser.", true, false, "GHS03"},
	{"Ox. Sol. 3", "H272", "May intensify fire; oxidiser.", false, true, "GHS03"},
	{"Ox. Liq. 1", "H271", "May cause fire or explosion; strong oxidiser.", true, false, "GHS03"},
	{"Ox. Liq. 2", "H272", "May intensify fire; oxidiser.", true, false, "GHS03"},
	{"Flam. Liq. 2", "H225", "Highly flammable liquid and vapour.", true, false, "GHS02"},
	{"Flam. Liq. 3", "H226", "Flammable liquid and vapour.", false, true, "GHS02"},
	{"Met. Corr. 1", "H290", "May be corrosive to metals.", false, true, "GHS05"},
	{"Acute Tox. 1 (oral)", "H300", "Fatal if swallowed.", true, false, "GHS06"},
	{"Acute Tox. 2 (oral)", "H300", "Fatal if swallowed.", true, false, "GHS06"},
	{"Acute Tox. 3 (oral)", "H301", "Toxic if swallowed.", true, false, "GHS06"},
	{"Acute Tox. 4 (oral)", "H302", "Harmful if swallowed.", false, true, "GHS07"},
	{"Acute Tox. 3 (dermal)", "H311", "Toxic in contact with skin.", true, false, "GHS06"},
	{"Acute Tox. 4 (dermal)", "H312", "Harmful in contact with skin.", false, true, "GHS07"},
	{"Acute Tox. 2 (inhalation)", "H330", "Fatal if inhaled.", true, false, "GHS06"},
	{"Acute Tox. 3 (inhalation)", "H331", "Toxic if inhaled.", true, false, "GHS06"},
	{"Acute Tox. 4 (inhalation)", "H332", "Harmful if inhaled.", false, true, "GHS07"},
	{"Skin Corr. 1", "H314", "Causes severe skin burns and eye damage.", true, false, "GHS05"},
	{"Skin Corr. 1A", "H314", "Causes severe skin burns and eye damage.", true, false, "GHS05"},
	{"Skin Corr. 1B", "H314", "Causes severe skin burns and eye damage.", true, false, "GHS05"},
	{"Skin Corr. 1C", "H314", "Causes severe skin burns and eye damage.", true, false, "GHS05"},
	{"Skin Irrit. 2", "H315", "Causes skin irritation.", false, true, "GHS07"},
	{"Skin Sens. 1", "H317", "May cause an allergic skin reaction.", false, true, "GHS07"},
	{"Skin Sens. 1A", "H317", "May cause an allergic skin reaction.", false, true, "GHS07"},
	{"Skin Sens. 1B", "H317", "May cause an allergic skin reaction.", false, true, "GHS07"},
	{"Eye Dam. 1", "H318", "Causes serious eye damage.", true, false, "GHS05"},
	{"Eye Irrit. 2", "H319", "Causes serious eye irritation.", false, true, "GHS07"},
	{"Resp. Sens. 1", "H334", "May cause allergy or asthma symptoms or breathing difficulties if inhaled.", true, false, "GHS08"},
	{"STOT SE 3 (respiratory)", "H335", "May cause respiratory irritation.", false, true, "GHS07"},
	{"STOT SE 3 (narcotic)", "H336", "May cause drowsiness or dizziness.", false, true, "GHS07"},
	{"Muta. 1B", "H340", "May cause genetic defects.", true, false, "GHS08"},
	{"Muta. 2", "H341", "Suspected of causing genetic defects.", false, true, "GHS08"},
	{"Carc. 1B", "H350", "May cause cancer.", true, false, "GHS08"},
	{"Carc. 2", "H351", "Suspected of causing cancer.", false, true, "GHS08"},
	{"Repr. 1B (FD)", "H360FD", "May damage fertility. May damage the unborn child.", true, false, "GHS08"},
	{"Repr. 1B (D)", "H360D", "May damage the unborn child.", true, false, "GHS08"},
	{"Repr. 1B (F)", "H360F", "May damage fertility.", true, false, "GHS08"},
	{"Repr. 2 (d)", "H361d", "Suspected of damaging the unborn child.", false, true, "GHS08"},
	{"Repr. 2 (f)", "H361f", "Suspected of damaging fertility.", false, true, "GHS08"},
	{"Repr. 2", "H361", "Suspected of damaging fertility or the unborn child.", false, true, "GHS08"},
	{"Lact.", "H362", "May cause harm to breast-fed children.", false, false, ""},
	{"STOT RE 1", "H372", "Causes damage to organs through prolonged or repeated exposure.", true, false, "GHS08"},
	{"STOT RE 2", "H373", "May cause damage to organs through prolonged or repeated exposure.", false, true, "GHS08"},
	{"Aquatic Acute 1", "H400", "Very toxic to aquatic life.", false, true, "GHS09"},
	{"Aquatic Chronic 1", "H410", "Very toxic to aquatic life with long lasting effects.", false, true, "GHS09"},
	{"Aquatic Chronic 2", "H411", "Toxic to aquatic life with long lasting effects.", false, false, "GHS09"},
	{"Aquatic Chronic 3", "H412", "Harmful to aquatic life with long lasting effects.", false, false, ""},
	{"Aquatic Chronic 4", "H413", "May cause long lasting harmful effects to aquatic life.", false, false, ""},
}

// supplements are the statements of Annex II that stand apart from classes.
var supplements = map[string]string{
	"EUH031": "Contact with acids liberates toxic gas.",
	"EUH032": "Contact with acids liberates very toxic gas.",
	"EUH066": "Repeated exposure may cause skin dryness or cracking.",
	"EUH208": "May produce an allergic reaction.",
	"EUH210": "Safety data sheet available on request.",
}

// covers says which statements are left off a label because a harder one on it
// says the same and more: Article 27 of Regulation (EC) No 1272/2008 wants no
// duplication, Annex III says so of EUH and H statements. That a burn covers
// damage to the eyes was seen in the footnote of Table 3.3.5; the rest, and that
// the harder category of one class stands for the milder, is from memory.
var covers = map[string][]string{
	"H225":   {"H226"},
	"H271":   {"H272"},
	"H300":   {"H301", "H302"},
	"H301":   {"H302"},
	"H311":   {"H312"},
	"H314":   {"H315", "H318", "H319"},
	"H318":   {"H319"},
	"H330":   {"H331", "H332"},
	"H331":   {"H332"},
	"H340":   {"H341"},
	"H350":   {"H351"},
	"H360FD": {"H360F", "H360D", "H361", "H361f", "H361d"},
	"H360F":  {"H361f"},
	"H360D":  {"H361d"},
	"H372":   {"H373"},
	"H410":   {"H400", "H411", "H412", "H413"},
	"H411":   {"H412", "H413"},
	"H412":   {"H413"},
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
