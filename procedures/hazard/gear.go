package hazard

import (
	"regexp"
	"slices"
	"strings"

	"wetside/procedures/rules"
	"wetside/procedures/series"
)

// Job is what somebody is doing.
type Job string

// The jobs.
const (
	Weigh   Job = "weigh and mix"
	Dilute  Job = "dilute"
	Work    Job = "work at the tank or tray"
	Spilled Job = "wipe up a spill"
	Away    Job = "pour away"
)

// Jobs lists the jobs with the word that stands for each in an id.
var Jobs = []struct {
	Key string
	Job Job
}{{"weigh", Weigh}, {"dilute", Dilute}, {"work", Work}, {"spill", Spilled}, {"pour", Away}}

// Item is one thing to wear or to do. Sign is its ISO 7010 code or empty, Kind
// says which sort does the work, Sort is the word for it where it is not the usual
// sort, Because names the class that tells.
type Item struct {
	Sign, Word string
	Kind, Sort string
	Because    string
}

// The sorts. Standards by number are from memory: the maker's sheet decides.
const (
	anyGoggles   = "EN 166 or EN ISO 16321, for splashes (memory)"
	tightGoggles = "tight to the face, EN 166 or EN ISO 16321, for splashes; a face shield over them when pouring more than a litre (memory)"
	shieldKind   = "over the goggles (memory)"
	thinGloves   = "nitrile, EN ISO 374-1, no latex (memory)"
	sensGloves   = "nitrile, EN ISO 374-1, no latex; change a thin pair at once after a splash of developer (memory)"
	longGloves   = "thick nitrile or chloroprene rubber with a long cuff, EN ISO 374-1; glacial acetic acid needs butyl (memory)"
	trayGloves   = "; never bare fingers"
	dustKind     = "EN 149 (memory); keeps out dust, not gas"
)

// Gear lists what to wear for a job, each item because of what tells most about it, not of
// the first that was found: the classes that any voice gives it, and floors below which no
// class lowers anything, by how acid it is, by what makes allergies, by what stains and by
// what gas it gives off. What nobody has looked up asks for everything; nothing that a
// known class asks for is dropped for it. An empty list is an answer: normal care is
// enough. Rules by class: common practice and the precautionary statements of the CLP
// scheme; floors: our own rules. The supplier's sheet and local rules go first.
func Gear(job Job, k Known) []Item {
	unknown := ""
	if k.Status == Unknown {
		unknown = "hazards not looked up: " + series.Of(k.Missing)
	}
	asked := k.asks(job)
	k.Classes = k.all()
	var out []Item
	// add adds an item for the first prefix that a class has; else for what is
	// unknown; else for a reason of its own, unless that is empty.
	add := func(i Item, own string, prefixes ...string) {
		because, told := k.telling(prefixes...)
		if !told {
			because = unknown
		}
		if because == "" {
			because = own
		}
		if because != "" {
			i.Because = because
			out = append(out, i)
		}
	}
	burns, splashes := k.Acidity.floor()
	if splashes == "" {
		splashes = k.unlooked()
	}
	if k.Has("Skin Corr.", "Eye Dam.") || burns != "" {
		add(Item{Sign: "M004", Word: "goggles", Kind: tightGoggles, Sort: "tight"}, burns, "Skin Corr.", "Eye Dam.")
	} else {
		add(Item{Sign: "M004", Word: "goggles", Kind: anyGoggles}, splashes,
			"Eye Irrit.", "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "Repr. 1", "Carc. 1", "Muta. 1",
			"Resp. Sens.")
	}
	k.shield(job, burns, &out)
	k.gloves(job, burns, add)
	if allergy := k.allergy(); job == Work && allergy != "" {
		out = append(out, Item{Word: "tongs", Because: allergy})
	}
	add(Item{Sign: "M026", Word: "apron"}, "", "Skin Corr.", "Repr. 1", "Ox.", "Acute Tox. 1", "Acute Tox. 2",
		"Acute Tox. 3")
	if job == Weigh || job == Spilled {
		k.mask(job, unknown, &out)
	}
	k.extract(job, unknown, &out)
	if job != Work {
		if because, told := k.telling("Skin Corr.", "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "Ox."); told {
			out = append(out, Item{Word: secondPerson, Because: because})
		}
	}
	return union(out, asked)
}

// all are the classes that any voice gives it: stricter lists ask for gear too.
func (k Known) all() []Found {
	return slices.Concat(k.Classes, k.More, k.Elsewhere)
}

// Burns reports what burns skin or eyes, by a class that any voice gives it or by its pH.
func (k Known) Burns() bool {
	return k.Extreme() || k.Has("Skin Corr.", "Eye Dam.") || k.Status == Unknown
}

// Extreme reports a pH that burns, or that is worked out and lies near one.
func (k Known) Extreme() bool {
	burns, _ := k.Acidity.floor()
	return burns != ""
}

// BurnsBy is the pH by which something burns that has no class of burning; empty where there is none.
func (k Known) BurnsBy() string {
	if !k.Acidity.extreme() || k.Has("Skin Corr.", "Eye Dam.") {
		return ""
	}
	return k.Acidity.Shown
}

// Burning names the substances that burn skin or eyes as they come, and BurningSkin those
// that burn skin.
func (k Known) Burning() []string     { return k.because("Skin Corr.", "Eye Dam.") }
func (k Known) BurningSkin() []string { return k.because("Skin Corr.") }

// because names the substances that bring one of some classes, each once.
func (k Known) because(prefixes ...string) []string {
	var out []string
	for _, f := range k.Classes {
		if !slices.ContainsFunc(prefixes, func(p string) bool { return strings.HasPrefix(f.Class.Word, p) }) {
			continue
		}
		for _, name := range f.Because {
			if !slices.Contains(out, name) {
				out = append(out, name)
			}
		}
	}
	return out
}

// WaterFirst reports what sets clothes on fire as it dries: they are rinsed before they come
// off (P306 and P360 of the CLP scheme; safety card 0164).
func (k Known) WaterFirst() bool { return k.Kinds.Any("oxidiser", "silver-nitrate") }

// DustOnly reports what comes as a powder alone.
func (k Known) DustOnly() bool {
	return len(k.Parts) > 0 && !slices.ContainsFunc(k.Parts, func(p Part) bool { return !p.Dust })
}

// Lingers reports what may do harm without any sign of it: a doctor is asked even so.
func (k Known) Lingers() bool {
	return k.Has("Repr.", "Carc.", "Muta.", "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3") ||
		k.Kinds.Any("selenium") || k.Status == Unknown
}

// LaterInLungs reports what can harm lungs after a day without any sign: gases of acids,
// what burns, what is poisonous to breathe, and what nobody has looked up.
func (k Known) LaterInLungs() bool {
	return len(k.Gives()) > 0 || k.Has("Skin Corr.", "Acute Tox. 1 (inh", "Acute Tox. 2 (inh", "Acute Tox. 3 (inh",
		"Acute Tox. 4 (inh") || k.Status == Unknown
}

// gloves: thick ones for what burns; a pair changed at once for what makes allergies.
func (k Known) gloves(job Job, burns string, add func(i Item, own string, prefixes ...string)) {
	gloves := Item{Sign: "M009", Word: "gloves", Kind: thinGloves}
	allergy := k.allergy()
	switch {
	case k.Has("Skin Corr.") || burns != "":
		gloves.Kind, gloves.Sort = longGloves, "long cuff"
	case allergy != "":
		gloves.Kind = sensGloves
	}
	if job == Work && allergy != "" {
		gloves.Kind += trayGloves
	}
	own := burns
	for _, reason := range []string{allergy, k.stains(), k.unlooked()} {
		if own == "" {
			own = reason
		}
	}
	if own == "" && (job == Spilled || job == Away) {
		own = "good practice: nobody knows all that is in what is wiped up or poured away"
	}
	add(gloves, own, "Skin Sens.", "Skin Corr.", "Acute Tox. 1 (dermal)", "Acute Tox. 2 (dermal)",
		"Acute Tox. 3 (dermal)", "Acute Tox. 4 (dermal)",
		"Skin Irrit.", "Repr.", "Carc.", "Muta.", "Acute Tox.", "STOT", "Eye")
}

// The pH at which splashes harm eyes, and that at which they burn: our own rules, after the
// limits of the law.
const (
	splashAcid   = 3
	splashAlkali = 11
)

// floor are the reasons that a pH gives: what burns, and what harms eyes. A pH that was
// worked out and lies near the limit of what burns counts as beyond it until somebody has
// measured it.
func (a Acidity) floor() (burns, splashes string) {
	if !a.Known {
		return "", ""
	}
	low, high := float64(a.Low), float64(a.High)
	near := a.Worked && (low <= rules.StrongAcid+nearPH || high >= rules.StrongAlkali-nearPH)
	switch {
	case a.extreme():
		return "its pH, " + a.Shown, ""
	case near:
		return "its pH, " + a.Shown + ", worked out and near the limit: measure it", ""
	case low <= splashAcid || high >= splashAlkali:
		return "", "its pH, " + a.Shown
	}
	return "", ""
}

// allergy names what may make an allergy, from the content at which a label names it.
func (k Known) allergy() string {
	for _, list := range [][]Found{k.Classes, k.More, k.Elsewhere} {
		for _, f := range list {
			if strings.HasPrefix(f.Class.Word, "Skin Sens.") || strings.HasPrefix(f.Class.Word, "Resp. Sens.") {
				return f.Plain() + ": " + f.Names()
			}
		}
	}
	for _, f := range k.Extra {
		if f.Code == namesSensitisers {
			return "may make an allergy: " + f.Names()
		}
	}
	return ""
}

// namesSensitisers is the statement that names what makes allergies in a mixture that has not
// got their class.
const namesSensitisers = "EUH208"

// unlooked names parts of which nobody has said what they are.
func (k Known) unlooked() string {
	if len(k.Unlooked) == 0 {
		return ""
	}
	return "nobody has said what class these parts have: " + series.Of(k.Unlooked)
}

// stains names what stains skin or feeds a fire when it dries.
func (k Known) stains() string {
	var names []string
	for _, p := range k.Parts {
		if p.Kinds.Any("oxidiser", "silver-nitrate") {
			names = append(names, p.Name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return "stains skin, and dried it feeds a fire: " + series.Of(names)
}

// WithPowders adds the mask that a spill of the powders asks for from which it is made.
func WithPowders(wear []Item, powders Known) []Item {
	for _, i := range Gear(Spilled, powders) {
		if strings.HasSuffix(i.Word, ForPowder) {
			wear = append(slices.DeleteFunc(slices.Clone(wear),
				func(o Item) bool { return strings.HasSuffix(o.Word, ForPowder) }), i)
		}
	}
	return union(wear, nil)
}

const secondPerson = "a second person nearby"

// Pieces are what is worn, had or done, in their order: an item's word begins with
// one of them, and the rest of the word is its condition.
// The air comes first: what is drawn off reaches nobody, dressed or not.
var Pieces = []string{"extractor fan on", "goggles", "face shield", "gloves", "tongs", "FFP3 dust mask",
	"FFP2 dust mask", "apron", secondPerson}

// asking are the words by which a caution asks for a piece.
var asking = []struct {
	item  Item
	words *regexp.Regexp
}{
	{Item{Sign: "M004", Word: "goggles", Kind: anyGoggles}, regexp.MustCompile(`\bgoggles\b`)},
	{Item{Sign: "M013", Word: "face shield", Kind: shieldKind}, regexp.MustCompile(`\bface shield\b`)},
	{Item{Sign: "M009", Word: "gloves", Kind: thinGloves}, regexp.MustCompile(`\bgloves\b`)},
	{Item{Word: "tongs"}, regexp.MustCompile(`\btongs\b`)},
	{Item{Sign: "M016", Word: "FFP2 dust mask", Kind: dustKind}, regexp.MustCompile(`\b(dust mask|ffp2)\b`)},
	{Item{Sign: "M016", Word: "FFP3 dust mask", Kind: dustKind}, regexp.MustCompile(`\bffp3\b`)},
	{Item{Sign: "M026", Word: "apron"}, regexp.MustCompile(`\bapron\b`)},
	{Item{Word: "extractor fan on"}, regexp.MustCompile(`\b(extract|extractor|extraction|fume hood)\b`)},
	{Item{Word: secondPerson}, regexp.MustCompile(`\b(second person|two people|somebody with you|alone)\b`)},
}

// refusing are words before which a piece is not asked for: "no gloves needed".
var refusing = regexp.MustCompile(`\bno (goggles|face shield|gloves|tongs|dust mask|ffp2|ffp3|apron|extract|extractor)\b`)

// asks lists the pieces that the lab's own cautions ask for at a job.
func (k Known) asks(job Job) []Item {
	var out []Item
	for _, a := range k.Asked {
		if a.Job != "" && a.Job != job {
			continue
		}
		for _, item := range a.pieces {
			if !slices.ContainsFunc(out, func(i Item) bool { return i.Word == item.Word }) {
				out = append(out, item)
			}
		}
	}
	return out
}

// asksFor lists the pieces that a caution asks for.
func asksFor(caution string) []Item {
	var out []Item
	text := refusing.ReplaceAllString(strings.ToLower(caution), "")
	for _, ask := range asking {
		if ask.words.MatchString(text) {
			item := ask.item
			item.Because = "its own caution: " + caution
			out = append(out, item)
		}
	}
	return out
}

// union adds what is asked for to what the hazards tell. A piece that hazards ask
// for on a condition is worn without it where a caution asks for it; a finer mask
// stands for a coarser one.
func union(told, asked []Item) []Item {
	out := slices.Clone(told)
	for _, a := range asked {
		i := slices.IndexFunc(out, func(t Item) bool {
			return strings.HasPrefix(t.Word, a.Word) || a.Word == "FFP2 dust mask" &&
				strings.HasPrefix(t.Word, "FFP3 dust mask")
		})
		switch {
		case i < 0:
			out = append(out, a)
		case a.Word == "face shield":
			out[i].Word = a.Word
		}
	}
	place := func(i Item) int {
		for n, p := range Pieces {
			if strings.HasPrefix(i.Word, p) {
				return n
			}
		}
		return len(Pieces)
	}
	slices.SortStableFunc(out, func(a, b Item) int { return place(a) - place(b) })
	return out
}

// telling finds the class that tells most: the first prefix that any class has.
func (k Known) telling(prefixes ...string) (string, bool) {
	return k.tellingOf(func(string) bool { return true }, prefixes...)
}

// tellingOf is telling among the classes of some of the substances.
func (k Known) tellingOf(of func(name string) bool, prefixes ...string) (string, bool) {
	for _, p := range prefixes {
		for _, f := range k.Classes {
			if strings.HasPrefix(f.Class.Word, p) && slices.ContainsFunc(f.Because, of) {
				return f.Plain() + ": " + f.Names(), true
			}
		}
	}
	return "", false
}

// dusty reports a substance that is weighed as a powder.
func (k Known) dusty(name string) bool {
	return slices.ContainsFunc(k.Parts, func(p Part) bool { return p.Name == name && p.Dust })
}

// shield: what burns wants it always, what damages eyes from a litre on.
func (k Known) shield(job Job, extreme string, out *[]Item) {
	because, burns := k.telling("Skin Corr.")
	if !burns && extreme != "" && job != Weigh {
		because, burns = extreme, true
	}
	if burns {
		word := "face shield"
		if job == Work {
			word = "face shield to pour"
		}
		*out = append(*out, Item{Sign: "M013", Word: word, Kind: shieldKind, Because: because})
		return
	}
	if job == Work || job == Weigh {
		return // goggles do for powder and for a bath that stands; their line names the shield
	}
	if because, told := k.telling("Eye Dam."); told {
		*out = append(*out, Item{Sign: "M013", Word: "face shield above a litre",
			Kind: "when pouring more than a litre, " + shieldKind, Because: because})
	}
}

// ForPowder ends the word of what is worn at a spill of powder alone.
const ForPowder = " for powder"

// mask: dust of what harms the unborn child, the genes or the airways wants the
// finer filter.
func (k Known) mask(job Job, unknown string, out *[]Item) {
	if !slices.ContainsFunc(k.Parts, func(p Part) bool { return p.Dust }) {
		return // there is no dust of a liquid
	}
	word := " dust mask"
	if job == Spilled {
		word = " dust mask" + ForPowder
	}
	if because, told := k.tellingOf(k.dusty, "Resp. Sens.", "Repr. 1", "Carc. 1", "Muta. 1", "Acute Tox. 1",
		"Acute Tox. 2", "Acute Tox. 3", "STOT RE 1"); told {
		*out = append(*out, Item{Sign: "M016", Word: "FFP3" + word, Kind: dustKind, Because: because})
		return
	}
	because, told := k.tellingOf(k.dusty, "Skin Sens.", "STOT", "Carc.", "Muta.", "Repr.", "Acute Tox.", "Skin Corr.",
		"Eye Dam.")
	if !told {
		because = unknown
	}
	if because == "" && job == Spilled {
		because = "good practice: do not breathe dust"
	}
	if because != "" {
		*out = append(*out, Item{Sign: "M016", Word: "FFP2" + word, Kind: dustKind, Because: because})
	}
}

// enoughGas is how much gas a kilogram of a bath must be able to give off before it asks for
// the extract, in litres: our own rule.
const enoughGas = 1

const sulfurDioxide = "sulfur dioxide"

// extract: the gases tell more than any class, each of them.
func (k Known) extract(job Job, unknown string, out *[]Item) {
	item := Item{Word: "extractor fan on"}
	if job == Away {
		item.Word = "extractor fan on, or outside"
	}
	because, told := "", false
	var gases []string
	for _, g := range k.Gives() {
		if g.Gas == sulfurDioxide && k.SO2.Known && float64(k.SO2.Most) < enoughGas {
			continue // all sources together give too little of it
		}
		gases = append(gases, g.Words())
	}
	if len(gases) > 0 {
		because, told = strings.Join(gases, "; "), true
	}
	if !told && len(k.Unsaid) > 0 {
		because, told = "nobody has said what it reacts with: "+series.Of(k.Unsaid), true
	}
	for _, f := range k.Extra {
		if !told && (f.Code == "EUH031" || f.Code == "EUH032") {
			because, told = "gives off gas with acid: "+f.Names(), true
		}
	}
	if !told {
		because, told = k.vapours()
	}
	if !told {
		because, told = k.telling("STOT SE 3", "Resp. Sens.", "Acute Tox. 1 (inh", "Acute Tox. 2 (inh",
			"Acute Tox. 3 (inh", "Carc.", "Muta.", "Repr.")
	}
	if !told {
		because = unknown
	}
	if because == "" && job == Away {
		because = "good practice: nobody knows all that was poured there before"
	}
	if because != "" {
		item.Because = because
		*out = append(*out, item)
	}
}

// vapours names what gives off vapour.
func (k Known) vapours() (string, bool) {
	var names []string
	for _, p := range k.Parts {
		if p.Vapour {
			names = append(names, p.Name)
		}
	}
	return "gives off vapour: " + series.Of(names), len(names) > 0
}
