package hazard

import (
	"regexp"
	"slices"
	"strings"
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
	trayGloves   = "; tongs at a tray, never bare fingers"
	dustKind     = "EN 149 (memory); keeps out dust, not gas"
)

// Gear lists what to wear for a job, each item because of the class that tells
// most about it, not of the first one found. What nobody has looked up asks for
// everything; nothing that a known class asks for is dropped for it. Rules by
// class: common practice and the precautionary statements of the CLP scheme;
// the supplier's sheet and local rules go first.
func Gear(job Job, k Known) []Item {
	unknown := ""
	if k.Status == Unknown {
		unknown = "hazards not looked up: " + strings.Join(k.Missing, ", ")
	}
	asked := k.asks(job)
	k.Classes = append(slices.Clone(k.Classes), k.Elsewhere...) // a stricter list asks for gear too
	var out []Item
	// add adds an item for the first prefix that a class has; else for what is
	// unknown; else for a reason of its own, unless that is empty.
	add := func(i Item, own string, prefixes ...string) bool {
		because, told := k.telling(prefixes...)
		if !told {
			because = unknown
		}
		if because == "" {
			because = own
		}
		if because == "" {
			return false
		}
		i.Because = because
		out = append(out, i)
		return told
	}
	if corrosive := k.Has("Skin Corr.", "Eye Dam."); corrosive {
		add(Item{Sign: "M004", Word: "goggles", Kind: tightGoggles, Sort: "tight"}, "", "Skin Corr.", "Eye Dam.")
	} else {
		add(Item{Sign: "M004", Word: "goggles", Kind: anyGoggles}, "good practice with any splash",
			"Eye Irrit.", "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "Repr. 1", "Carc. 1", "Muta. 1", "Resp. Sens.")
	}
	k.shield(job, &out)
	gloves := Item{Sign: "M009", Word: "gloves", Kind: thinGloves}
	switch {
	case k.Has("Skin Corr."):
		gloves.Kind, gloves.Sort = longGloves, "long cuff"
	case k.Has("Skin Sens."):
		gloves.Kind = sensGloves
	}
	if job == Work && k.Has("Skin Sens.") {
		gloves.Kind += trayGloves
	}
	add(gloves, "good practice: wet hands all evening", "Skin Sens.", "Skin Corr.", "Acute Tox. 1 (dermal)", "Acute Tox. 2 (dermal)", "Acute Tox. 3 (dermal)", "Acute Tox. 4 (dermal)",
		"Skin Irrit.", "Repr.", "Carc.", "Muta.", "Acute Tox.", "STOT", "Eye")
	apron := ""
	if job == Spilled || job == Away {
		apron = "good practice: a splash stays in clothes"
	}
	add(Item{Sign: "M026", Word: "apron"}, apron, "Skin Corr.", "Repr. 1", "Ox.", "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3")
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

const secondPerson = "a second person nearby"

// Pieces are what is worn, had or done, in their order: an item's word begins with
// one of them, and the rest of the word is its condition.
var Pieces = []string{"goggles", "face shield", "gloves", "tongs", "FFP3 dust mask", "FFP2 dust mask", "apron", "extractor fan on", secondPerson}

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
			return strings.HasPrefix(t.Word, a.Word) || a.Word == "FFP2 dust mask" && strings.HasPrefix(t.Word, "FFP3 dust mask")
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

// shield: what burns wants it always, what harms eyes or is alkaline from a
// litre on.
func (k Known) shield(job Job, out *[]Item) {
	if because, burns := k.telling("Skin Corr."); burns {
		word := "face shield"
		if job == Work {
			word = "face shield when pouring"
		}
		*out = append(*out, Item{Sign: "M013", Word: word, Kind: shieldKind, Because: because})
		return
	}
	if job == Work || job == Weigh {
		return // goggles do for powder and for a bath that stands; their line names the shield
	}
	because, told := k.telling("Eye Dam.")
	if list := k.Alkalis(); !told && len(list) > 0 {
		because, told = "alkali: "+strings.Join(list, ", "), true
	}
	if told {
		*out = append(*out, Item{Sign: "M013", Word: "face shield above a litre", Kind: "when pouring more than a litre, " + shieldKind, Because: because})
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
	if because, told := k.tellingOf(k.dusty, "Resp. Sens.", "Repr. 1", "Carc. 1", "Muta. 1", "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "STOT RE 1"); told {
		*out = append(*out, Item{Sign: "M016", Word: "FFP3" + word, Kind: dustKind, Because: because})
		return
	}
	because, told := k.tellingOf(k.dusty, "Skin Sens.", "STOT", "Carc.", "Muta.", "Repr.", "Acute Tox.", "Skin Corr.", "Eye Dam.")
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

// extract: the gases tell more than any class, each of them.
func (k Known) extract(job Job, unknown string, out *[]Item) {
	item := Item{Word: "extractor fan on"}
	if job == Away {
		item.Word = "extractor fan on, or outside"
	}
	because, told := "", false
	var gases []string
	for _, g := range k.Gives() {
		gases = append(gases, g.Words())
	}
	if len(gases) > 0 {
		because, told = strings.Join(gases, "; "), true
	}
	if !told && len(k.Unsaid) > 0 {
		because, told = "nobody has said what it reacts with: "+strings.Join(k.Unsaid, ", "), true
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
		because, told = k.telling("STOT SE 3", "Resp. Sens.", "Acute Tox. 1 (inh", "Acute Tox. 2 (inh", "Acute Tox. 3 (inh", "Carc.", "Muta.", "Repr.")
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
	return "gives off vapour: " + strings.Join(names, ", "), len(names) > 0
}

// Pregnant reports whether somebody who is pregnant or breast-feeding leaves a job
// to others: what harms the unborn child or is not looked up, at every job; at the
// scale and over a concentrate also what may harm the genes, cause cancer or harm
// organs at once (the classes of Directive 92/85/EEC, Annex I, as amended by Directive
// 2014/27/EU, from memory); and what the lab's own cautions say so of.
func Pregnant(job Job, k Known) bool {
	for _, a := range k.Asked {
		if (a.Job == "" || a.Job == job) && strings.Contains(strings.ToLower(a.Text), "pregnan") {
			return true
		}
	}
	k.Classes = append(slices.Clone(k.Classes), k.Elsewhere...) // a stricter list is believed here too
	return k.Has("Repr.", "Lact.") || k.Status == Unknown || (job == Weigh || job == Dilute) && k.Has("Muta.", "Carc.", "STOT SE 1", "STOT SE 2")
}
