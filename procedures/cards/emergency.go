package cards

import (
	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// emergencyBoard is the card for when somebody is hurt. Numbers stand there
// only if the lab typed them.
func emergencyBoard(c *Context) []page.Page {
	e := c.W.Local.Emergency
	p := page.Page{ID: "board/emergency", Kind: "board", KindLine: "Hang this at the exit and at the sink",
		Title: "Somebody is hurt", Signs: []string{"E004", "E003", "E011", "F001"}}
	p.Before = []page.Block{
		page.Plates{Items: []page.Plate{
			{Label: page.Say(page.W("emergency number")), Value: orAsk(e.Number)},
			{Label: page.Say(page.W("poison centre")), Value: orAsk(e.Poison)},
			{Label: page.Say(page.W("keyholder")), Value: orAsk(e.Keyholder)},
		}},
		page.Amount{Label: page.Say(page.W("say where you are")), Value: orAsk(e.Address)},
		page.List{Items: []page.Text{typed("eyewash", e.Eyewash), typed("first aid", e.FirstAid),
			typed("way out", e.WayOut), typed("fire extinguisher", e.Extinguisher)}},
	}
	atLeast := func(f *figure.Record) page.Text { return page.Say(page.W("at least "), page.F(f)) }
	p.Do = []page.Block{page.Steps{Cases: true, Urgent: 6, Rows: []page.Step{
		{ID: "collapsed", Part: page.Say(page.W("Collapsed")), What: page.Say(
			page.S("Call the emergency number first"), page.W(" and do what they say. If there may be gas, get out and shut the door: "),
			page.S("nobody goes in, not even for a person"), page.W("."))},
		{ID: "eyes", Part: page.Say(page.W("Eyes")), Amount: atLeast(c.W.FirstAid.Eyes), What: page.Say(
			page.S("Water at once"), page.W(", lids held open, contact lenses out. "),
			page.S("Keep rinsing until help comes"), page.W(", after alkali at least "),
			page.F(c.W.FirstAid.EyesAlkali),
			page.W(", and go on in the ambulance. See a doctor; bring the label.")),
			Note: []page.Text{page.Say(page.W("An eyewash bottle cannot last that long: start with it, then go to the tap."))}},
		{ID: "skin", Part: page.Say(page.W("Skin")), Amount: atLeast(c.W.FirstAid.Skin), What: page.Say(
			page.S("Wet clothes off, rinse with water"), page.W("; if it burns, "), page.S("until help comes"),
			page.W(". If there is a burn or a rash, see a doctor."))},
		{ID: "swallowed", Part: page.Say(page.W("Swallowed")), What: page.Say(
			page.W("Rinse the mouth. "), page.S("Do not make them vomit."),
			page.W(" Give nothing by mouth if they are drowsy. Call the poison centre and read out the label."))},
		{ID: "breathed", Part: page.Say(page.W("Breathed in")), What: page.Say(
			page.W("Lead them outside, sit them up, open the collar. A cough or a tight chest: see a doctor, because "),
			page.S("lungs can get worse for three days"), page.W("."))},
		{ID: "fire", Part: page.Say(page.W("Fire")), What: page.Say(
			page.S("Everybody out, shut the door, call."), page.W(" Nobody goes back in."))},
	}}}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("leave a hurt person alone, unless there may be gas")),
		page.Say(page.W("go back into a room that smells of gas")), page.Say(page.W("try to neutralise a chemical"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("These are the usual first steps. Follow local rules, the supplier’s sheet and trained people first."))}}
	p.Foot = c.foot(c.W.Local.Def, c.emergencyHoles())
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "emergency", Faces: c.helpFaces("a4")})
	return []page.Page{p}
}
