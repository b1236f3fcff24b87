package hazard

import "strings"

// Job is what somebody is doing.
type Job string

// The jobs.
const (
	Weigh   Job = "weigh and mix"
	Work    Job = "pour and work"
	Spilled Job = "wipe up a spill"
)

// Item is one thing to wear or to do. Sign is its ISO 7010 code or empty.
type Item struct {
	Sign, Word string
	Because    string
}

// everything is what is worn while nobody has looked up the hazards.
var everything = []Item{
	{"M004", "goggles", ""}, {"M009", "gloves", ""}, {"M026", "apron", ""}, {"M016", "dust mask", "while weighing powder"}, {"", "extract on", ""},
}

// Gear lists what to wear for a job. Rules by class: common practice and the
// precautionary statements of the CLP scheme; the supplier's sheet and local
// rules go first.
func Gear(job Job, k Known) []Item {
	if k.Status == Unknown {
		because := "hazards not looked up: " + strings.Join(k.Missing, ", ")
		out := make([]Item, 0, len(everything))
		for _, i := range everything {
			if i.Word == "dust mask" && job == Work {
				continue
			}
			if i.Because == "" {
				i.Because = because
			}
			out = append(out, i)
		}
		return out
	}
	var out []Item
	add := func(sign, word string, prefixes ...string) bool {
		for _, f := range k.Classes {
			for _, p := range prefixes {
				if strings.HasPrefix(f.Class.Word, p) {
					out = append(out, Item{sign, word, f.Class.Word + ": " + strings.Join(f.Because, ", ")})
					return true
				}
			}
		}
		return false
	}
	if !add("M004", "goggles", "Skin Corr.", "Eye Dam.") && !add("M004", "goggles", "Eye Irrit.", "Acute Tox.", "Repr. 1", "Carc. 1", "Muta. 1") {
		out = append(out, Item{"M004", "goggles", "good practice with any splash"})
	}
	if add("M013", "face shield", "Skin Corr.") && job == Work {
		out[len(out)-1].Word = "face shield when pouring"
	}
	if !add("M009", "gloves", "Skin Sens.", "Skin Corr.", "Skin Irrit.", "Acute Tox.", "Repr.", "Carc.", "Muta.", "STOT", "Eye") {
		out = append(out, Item{"M009", "gloves", "good practice: wet hands all evening"})
	}
	add("M026", "apron", "Skin Corr.", "Repr. 1", "Ox.")
	if job == Weigh {
		add("M016", "dust mask", "Repr.", "Carc.", "Muta.", "Resp. Sens.", "Skin Sens.", "STOT", "Acute Tox.", "Skin Corr.", "Eye Dam.")
	}
	gas := k.HasExtra("EUH031") || k.HasExtra("EUH032")
	switch {
	case add("", "extract on", "STOT SE 3", "Resp. Sens.", "Acute Tox. 2 (inh", "Acute Tox. 3 (inh", "Carc.", "Muta.", "Repr."):
	case gas:
		out = append(out, Item{"", "extract on", "gives off gas with acid"})
	}
	return out
}

// Pregnant reports whether somebody who is pregnant or breast-feeding does not
// handle this.
func Pregnant(k Known) bool { return k.Has("Repr.", "Lact.") || k.Status == Unknown }
