package cards

import (
	"wetside/procedures/page"
)

// emergencyBoard is the card for when somebody is hurt. Numbers stand there
// only if the lab typed them.
func emergencyBoard(c *Context) []page.Page {
	e := c.W.Local.Emergency
	p := page.Page{ID: "board/emergency", Kind: "board", KindLine: "Hang this at the exit and at the sink",
		Title: "Somebody is hurt"}
	p.Before = []page.Block{
		page.Amount{Label: page.Say(page.W("emergency number")), Value: orAsk(e.Number)},
		page.Amount{Label: page.Say(page.W("poison centre")), Value: orAsk(e.Poison)},
		page.List{Items: []page.Text{typed("say where you are", e.Address), typed("eyewash", e.Eyewash),
			typed("first aid", e.FirstAid), typed("way out", e.WayOut),
			typed("keyholder", e.Keyholder), typed("fire extinguisher", e.Extinguisher)}},
	}
	p.Do = []page.Block{page.Steps{Cases: true, Urgent: 4, Rows: []page.Step{
		{ID: "eyes", Amount: page.Say(page.S("until help")), What: page.Say(
			page.S("Eyes"), page.W(": rinse with water at once, lids held open, contact lenses out. "), page.S("Keep rinsing until help comes"), page.W(", at least "), page.F(c.W.FirstAid.Eyes), page.W(", after alkali at least "), page.F(c.W.FirstAid.EyesAlkali), page.W(", and go on in the ambulance. See a doctor; bring the label.")),
			Note: []page.Text{page.Say(page.W("An eyewash bottle cannot last that long: start with it, then go to the tap."))}},
		{ID: "skin", Amount: page.Say(page.S("until help")), What: page.Say(
			page.S("Skin"), page.W(": take wet clothes off, rinse with water for at least "), page.F(c.W.FirstAid.Skin), page.W("; if it burns, "), page.S("until help comes"), page.W(". If there is a burn or a rash, see a doctor."))},
		{ID: "swallowed", What: page.Say(
			page.S("Swallowed"), page.W(": rinse the mouth. "), page.S("Do not make them vomit."), page.W(" Give nothing by mouth if they are drowsy. Call the poison centre and read out the label."))},
		{ID: "breathed", What: page.Say(
			page.S("Breathed in"), page.W(": take them outside, sit them up, open the collar. A cough or a tight chest: see a doctor, because "), page.S("lungs can get worse a day later"), page.W("."))},
	}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("leave them alone")),
		page.Say(page.W("go back into a room that smells of gas")), page.Say(page.W("try to neutralise a chemical"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("These are the usual first steps. Follow local rules, the supplier’s sheet and trained people first."))}}
	p.Foot = c.foot(c.W.Local.Def, c.emergencyHoles())
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "emergency", Faces: c.faces("a4")})
	return []page.Page{p}
}
