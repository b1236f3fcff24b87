package cards

import (
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/hazard"
	"wetside/procedures/page"
	"wetside/procedures/unit"
)

// spillCards makes one sheet for every solution and product: what to do when it
// is spilt, or gets where it should not.
func spillCards(c *Context) []page.Page {
	var out []page.Page
	for _, s := range c.subjects() {
		out = append(out, c.spillCard(s))
	}
	return out
}

// spillRules are what the trade does by kind of substance: common practice, no
// source. A rule holds for a group of chemicals or a piece of a name.
var spillRules = []struct {
	group, name string
	small       string
	powder      string
	never       []string
}{
	{"oxidiser", "", "Sand or a mineral absorbent, never cloth or paper left lying; rinse until the colour is gone from floor and rag.", "A plastic scoop, dry, into a jug of water.",
		[]string{"sawdust, paper or a vacuum cleaner on it: fire", "glycol or alcohol near it: fire", "solid sulfite on it: fire"}},
	{"acids", "", "Sodium hydrogencarbonate from the rim until the fizzing stops, then wipe.", "", []string{"let it run towards fixer, sulfite or their drum"}},
	{"alkalis, strong", "", "Absorb, then plenty of water; it stays slippery until it is gone.", "", []string{"acid on it neat: it spatters"}},
	{"organic reducers", "", "Absorb, then wipe twice: what dries is dust.", "", []string{"let it dry on the floor: the dust makes the allergy"}},
	{"thiosulfates", "", "Absorb, then mop with clean water.", "", []string{"leave crystals to dry", "mop it into a bucket that had bleach in it"}},
	{"", "selen", "A mineral absorbent, into a bag, extract on.", "", []string{"drain it"}},
}

func has(known hazard.Known, group, name string) bool {
	for _, p := range known.Parts {
		if group != "" && strings.HasPrefix(p.Group, group) || name != "" && strings.Contains(strings.ToLower(p.Name), name) {
			return true
		}
	}
	return false
}

func (c *Context) spillCard(s subject) page.Page {
	p := page.Page{ID: "spill/" + s.def.ID, Kind: "spill", KindLine: "If it is spilt", Title: capital(s.name), Lead: page.Say(page.W("spilt, splashed, swallowed, breathed")), Role: roleOf(s.role)}
	known := c.knownOf(s.strengths)
	e := c.Lab.Local.Emergency
	p.Before = append(p.Before, page.List{Label: page.Say(page.W("call and say where you are")), Items: []page.Text{
		typed("emergency number", e.Number), typed("poison centre", e.Poison), typed("say where you are", e.Address), typed("eyewash", e.Eyewash),
	}})
	gear := gearBlock(hazard.Spilled, known)
	for i := range gear.Items {
		gear.Items[i].Why = nil // in a hurry the words are enough; the reasons stand on the sheet for protection
	}
	p.Before = append(append(p.Before, gear), pregnant(hazard.Spilled, known)...)

	small := figure.Declare(c.Book, "spill/small", figure.KindAmount, figure.Constant(unit.Volume(500), "most of a small spill", usualFirstAid, figure.Memory), "500", "ml")
	powder := figure.Declare(c.Book, "spill/powder", figure.KindAmount, figure.Constant(unit.Mass(50), "most of a small spill of powder", usualFirstAid, figure.Memory), "50", "g")
	const first = "Keep people out, extract on, put on what stands above. "
	rows := []page.Step{{ID: "small", What: page.Say(page.S("A small spill"), page.W(", up to "), page.F(small), page.W(": "+first+c.smallSpill(known)+" What was wiped up goes where the bath goes: "))}}
	rows[0].What = append(rows[0].What, c.spent(s.strengths[0])...)
	if s.made {
		dust := "Wipe it up damp, never dry."
		for _, r := range spillRules {
			if r.powder != "" && has(known, r.group, r.name) {
				dust = r.powder
			}
		}
		rows = append(rows, page.Step{ID: "powder", What: page.Say(page.S("Its powders"), page.W(", up to "), page.F(powder), page.W(": mask on. "+dust+" No broom, no fan."))})
	}
	large := "out, shut the door, keep the others out, call the keyholder; do not wade in. Keep it from the drain."
	if len(known.Gives()) > 0 {
		large = "out, shut the door, keep the others out, call the keyholder. If it smells of gas, call the emergency number. Keep it from the drain."
	}
	rows = append(rows, page.Step{ID: "large", What: page.Say(page.S("More, or a smell of gas"), page.W(": "+large))})
	p.Do = []page.Block{page.Steps{Rows: append(rows, c.firstAid(known)...)}}
	p.Never = neverBlock(nil, c.spillNevers(known))
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("Common practice, no source. The supplier’s sheet, the poison centre and trained people go first. Write every spill into the book."))}, hazardBlock(known)}
	p.Foot = c.foot(s.def, c.emergencyHoles())
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "spill-" + s.def.ID, Faces: []string{"wall-a4"}})
	return p
}

// smallSpill is what to do with a little of it: by kind of substance, and
// nothing that a sulfite or fixer in it would answer with gas.
func (c *Context) smallSpill(known hazard.Known) string {
	if known.Status == hazard.Unknown {
		return "Nobody has looked up what is in it: absorb with a mineral absorbent, touch nothing, ask."
	}
	for _, r := range spillRules {
		if has(known, r.group, r.name) {
			return r.small
		}
	}
	return "Absorb, wipe twice with water."
}

func (c *Context) spillNevers(known hazard.Known) []page.Text {
	var out []page.Text
	seen := map[string]bool{}
	say := func(s string) {
		if !seen[s] {
			seen[s] = true
			out = append(out, page.Say(page.W(s)))
		}
	}
	for _, r := range spillRules {
		if has(known, r.group, r.name) {
			for _, n := range r.never {
				say(n)
			}
		}
	}
	for _, g := range known.Gives() {
		say("let " + g.With + " near it: " + g.Gas)
	}
	say("rinse it down the drain")
	say("put a bath on it to put it right")
	return out
}

// firstAid is what to do for a person, by the way it took.
func (c *Context) firstAid(known hazard.Known) []page.Step {
	burns := known.Has("Skin Corr.", "Eye Dam.") || known.Status == hazard.Unknown
	alkali := len(known.Alkalis()) > 0
	eyes := page.Say(page.S("Eyes"), page.W(": water at once, lids held open, lenses out if easy. A bottle is for the way: then to the tap. "))
	minutes := c.eyeMinutes()
	if alkali {
		minutes = c.alkaliMinutes()
		eyes = append(eyes, page.W("It holds alkali: rinse longest. "))
	}
	if burns {
		eyes = append(eyes, page.S("Keep rinsing until help comes"), page.W(", on the way too. "))
	}
	eyes = append(eyes, page.W("A doctor, with the bottle’s label."))

	skin := page.Say(page.S("Skin"), page.W(": wet clothes off, water. "))
	switch {
	case known.Has("Skin Corr."):
		skin = append(skin, page.S("It burns"), page.W(": keep rinsing, a doctor at once."))
	case known.Has("Skin Sens."):
		skin = append(skin, page.W("A rash, even days later: a doctor, and do not work with it again."))
	default:
		skin = append(skin, page.W("Pain or a rash: a doctor."))
	}
	breathed := page.Say(page.S("Breathed"), page.W(": out, sit up, loosen the collar. "))
	if gives := known.Gives(); len(gives) > 0 {
		breathed = append(breathed, page.W("It can give off "+strings.Join(gasNames(gives), ", ")+". "))
	}
	breathed = append(breathed, page.W("A cough or a tight chest: a doctor, because "), page.S("lungs can worsen a day later"), page.W("."))
	swallowed := page.Say(page.S("Swallowed"), page.W(": rinse the mouth. "), page.S("Do not make them sick."), page.W(" Nothing by mouth if they are drowsy. Call the poison centre and read the label to them."))
	if known.Has("Repr.", "Carc.", "Muta.", "Acute Tox. 1", "Acute Tox. 2", "Acute Tox. 3") {
		swallowed = append(swallowed, page.W(" A doctor even if nothing is felt."))
	}
	return []page.Step{
		{ID: "eyes", What: eyes, Amount: page.Say(minutes)},
		{ID: "skin", What: skin, Amount: page.Say(c.skinMinutes())},
		{ID: "swallowed", What: swallowed},
		{ID: "breathed", What: breathed},
	}
}

// gasNames names each gas once.
func gasNames(list []hazard.Gas) []string {
	var out []string
	seen := map[string]bool{}
	for _, g := range list {
		if !seen[g.Gas] {
			seen[g.Gas] = true
			out = append(out, g.Gas)
		}
	}
	return out
}
