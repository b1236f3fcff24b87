package hazard

import (
	"slices"
	"strings"

	"wetside/procedures/series"
)

// Person is somebody who leaves some work to others.
type Person string

// Those whom the rules know.
const (
	Expecting Person = "pregnant or breast-feeding"
	Asthmatic Person = "asthma"
	Allergic  Person = "a rash or an allergy of the skin"
	Young     Person = "under age"
	Alone     Person = "alone"
)

// People lists them in the order in which a board shows them.
var People = []Person{Expecting, Asthmatic, Allergic, Young, Alone}

// Leaves says why somebody leaves a job to others; empty where nothing known of the bath asks for it. What
// nobody has looked up is left by all of them, at every job. The lab's own cautions are never less.
func Leaves(who Person, job Job, k Known) string {
	if who == Alone { // as the gear says it: the two never differ
		for _, i := range Gear(job, k) {
			if strings.HasPrefix(i.Word, secondPerson) {
				return i.Because
			}
		}
		return ""
	}
	for _, a := range k.Asked {
		if (a.Job == "" || a.Job == job) && strings.Contains(strings.ToLower(a.Text), spokenOf[who]) {
			return "the lab’s own caution says so"
		}
	}
	if k.Status == Unknown {
		return "nobody has looked it up: " + series.Of(k.Missing)
	}
	extra, own := k.Extra, slices.Concat(k.Classes, k.More)
	k.Classes = k.all() // a stricter list is believed here too
	because, told := "", false
	switch who {
	case Expecting:
		because, told = k.harmsChild(job)
	case Asthmatic:
		if job != Weigh { // of what another list says, the dust counts, and not every bath with a little of it
			k.Classes = own
		}
		if because, told = k.tightens(job); !told {
			because, told = says(extra, "EUH071")
		}
	case Allergic:
		if because, told = k.telling("Skin Sens."); !told {
			because, told = says(extra, "EUH208")
		}
	case Young:
		because, told = k.notYoung()
	}
	if !told {
		return ""
	}
	return because
}

// spokenOf are the words by which a caution of the lab speaks of somebody.
var spokenOf = map[Person]string{Expecting: "pregnan", Asthmatic: "asthma", Allergic: "a rash", Young: "under age"}

// Pregnant reports whether somebody who is pregnant or breast-feeding leaves a job to others.
func Pregnant(job Job, k Known) bool { return Leaves(Expecting, job, k) != "" }

// harmsChild: what harms the unborn child or a child at the breast, at every job; at the scale and over a
// concentrate also what may harm the genes, cause cancer or harm organs at once (the classes of Directive
// 92/85/EEC, Annex I, as amended by Directive 2014/27/EU, from memory).
func (k Known) harmsChild(job Job) (string, bool) {
	if because, told := k.telling("Repr.", "Lact."); told || job != Weigh && job != Dilute {
		return because, told
	}
	return k.telling("Muta.", "Carc.", "STOT SE 1", "STOT SE 2")
}

// sulfurousBelow is the pH below which sulfite gives off sulfur dioxide that is smelt over the bath: about
// a unit above the second half of its pK of 7; common practice, no source.
const sulfurousBelow = 6

// tightens: what can take the breath of somebody with asthma. Besides what its classes say of breathing,
// that is sulfur dioxide, out of sulfite in a bath that is acid or of which nobody knows it, or out of what
// is carried into an acid tray, and the vapour of an acid.
func (k Known) tightens(job Job) (string, bool) {
	if because, told := k.telling("Resp. Sens.", "STOT SE 3 (respiratory", "Acute Tox. 1 (inh", "Acute Tox. 2 (inh",
		"Acute Tox. 3 (inh"); told {
		return because, told
	}
	acid := k.Acidity.PH.Known && float64(k.Acidity.Low) < sulfurousBelow
	unsaid := !k.Acidity.PH.Known && !k.Kinds.Any("alkali") &&
		(k.Kinds.Any("acid", "metabisulfite") || k.Status == Carried || k.Status == Supplied && !k.accounted())
	switch {
	case unsaid && k.Kinds.Any("sulfite", "thiosulfate", "dithionite"):
		return "nobody knows how acid it is, and acid with sulfite in it gives off sulfur dioxide", true
	case acid && k.Kinds.Any("sulfite", "thiosulfate", "dithionite"):
		return "acid with sulfite in it gives off sulfur dioxide", true
	case acid && job == Work && k.Kinds.Any("acid"):
		return "developer that is carried into an acid bath gives off sulfur dioxide", true
	case k.Kinds.Any("acid"):
		return k.vapours()
	}
	return "", false
}

// accounted reports that all is known of what is in it, so that its classes could be worked out beside
// what its supplier says.
func (k Known) accounted() bool {
	return slices.ContainsFunc(k.Layers, func(l Layer) bool { return l.Who == byRule })
}

// notYoung: the classes of point I.3 of the Annex of Directive 94/33/EC on young people at work, as amended
// by Directive 2014/27/EU, from memory; and what burns by its pH alone.
func (k Known) notYoung() (string, bool) {
	if because, told := k.telling("Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3", "Skin Corr.", "Flam. Liq. 1",
		"Flam. Liq. 2", "Expl.", "Self-react.", "Org. Perox.", "STOT SE 1", "STOT SE 2", "STOT RE", "Resp. Sens.",
		"Skin Sens.", "Carc.", "Muta.", "Repr. 1"); told {
		return because, told
	}
	burns, _ := k.Acidity.floor()
	return burns, burns != ""
}

// says finds a supplemental statement.
func says(list []Found, code string) (string, bool) {
	if i := slices.IndexFunc(list, func(f Found) bool { return f.Code == code }); i >= 0 {
		return list[i].Statement + ": " + list[i].Names(), true
	}
	return "", false
}
