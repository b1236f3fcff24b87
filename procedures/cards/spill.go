package cards

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// spillCards makes one sheet for every solution and product: what to do when it
// is spilt, or gets where it should not.
func spillCards(c *Context) []page.Page {
	var out []page.Page
	for _, s := range c.W.Subjects {
		out = append(out, c.spillCard(s))
	}
	return out
}

func (c *Context) spillCard(s *work.Subject) page.Page {
	p := page.Page{ID: "spill/" + s.Def.ID, Kind: "spill", KindLine: "If it is spilt", Title: capital(s.Name),
		Lead: page.Say(page.W("spilt, splashed, swallowed, breathed")), Role: roleOf(s.Role), Signs: []string{"E003", "E011"}}
	known := s.Dangers
	e := c.W.Local.Emergency
	p.Before = append(p.Before, page.Plates{Items: []page.Plate{
		{Label: page.Say(page.W("emergency number")), Value: orAsk(e.Number)},
		{Label: page.Say(page.W("poison centre")), Value: orAsk(e.Poison)},
		{Label: page.Say(page.W("keyholder")), Value: orAsk(e.Keyholder)},
	}}, page.List{Items: []page.Text{typed("say where you are", e.Address), typed("eyewash", e.Eyewash)}})
	// In a hurry the words are enough; reasons and sorts stand on the sheet for
	// protection.
	gear := gearBlock(work.Spilled, known)
	gear.Items = slices.DeleteFunc(gear.Items, func(i page.GearItem) bool {
		return neverPowder(s, i.Word)
	})
	for i := range gear.Items {
		gear.Items[i].Why = nil
	}
	gear.Basis = nil
	persons := c.firstAid(known, s.Packs)
	rows := c.spillRows(s.Spill, true, s.Powders, wipedUp(s))
	// People first: what to wear is for whoever wipes up, and stands before that.
	p.Do = append([]page.Block{page.Steps{Rows: persons, Cases: true, Urgent: len(persons)}, gear},
		pregnant(work.Spilled, known)...)
	p.Do = append(p.Do, page.Steps{Rows: rows, Cases: true})
	never := spillNevers(s)
	p.Never = neverBlock(nil, never[:min(len(never), foremost)])
	if len(never) > foremost {
		p.Never = append(p.Never, page.List{Small: true, Items: never[foremost:]})
	}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("Common practice, no source. Follow the supplier’s sheet, the poison centre and trained people first. Record every spill."))},
		hazardBlock(known)}
	p.Foot = c.foot(s.Def, c.injuryHoles())
	c.Prints = append(c.Prints, page.Print{Page: p.ID, Choice: -1, Variant: "spill-" + s.Def.ID,
		Faces: c.helpFaces("a4")})
	return p
}

// spillRows are what to do with a little of it, with a little of its powder, and with more.
func (c *Context) spillRows(of work.Spill, liquid, powder bool, goes page.Text) []page.Step {
	upTo := func(f *figure.Record) page.Text { return page.Say(page.W("up to "), page.F(f)) }
	out := page.Say(page.S("People out, extractor fan on."), page.W(" "))
	note := []page.Text{append(page.Say(page.W("What you wiped up goes ")), goes...)}
	var rows []page.Step
	if liquid {
		rows = append(rows, page.Step{ID: "small", Part: page.Say(page.W("A small spill")),
			Amount: upTo(c.W.FirstAid.Small), What: append(out, page.W(capital(smallSpill(of)))), Note: note})
		out, note = nil, nil
	}
	if powder {
		dust := "wipe it up with a damp cloth, use no broom."
		switch {
		case !of.Known:
			dust = "nobody has looked up what is in it: touch nothing, and ask."
		case of.Powder != "":
			dust = of.Powder
		}
		rows = append(rows, page.Step{ID: "powder", Part: page.Say(page.W("Spilt powder")),
			Amount: upTo(c.W.FirstAid.Powder), What: append(out, page.W(capital(dust))), Note: note})
	}
	return append(rows, page.Step{ID: "large", Part: page.Say(page.W("More than that, or a smell of gas")),
		What: page.Say(page.S("Go out, shut the door, call.")),
		Note: []page.Text{page.Say(page.W("Call the keyholder; for gas the emergency number. Do not go in."))}})
}

// neverPowder tells a piece that only powder asks for, where none of it can be spilt.
func neverPowder(s *work.Subject, word string) bool {
	return !s.Powders && s.Dangers.Status != work.Unknown && strings.HasSuffix(word, work.ForPowder)
}

// wipedUp says where what was wiped up goes. A permit for the drain speaks of the
// spent bath, not of cloths and absorbent.
func wipedUp(s *work.Subject) page.Text {
	if s.Spill.Bagged {
		return page.Say(page.W("into a closed bag: "), page.Inline{Kind: page.Ask, Text: "first"})
	}
	return routeText(s.Strengths[0].Goes)
}

// smallSpill is what to do with a little of it.
func smallSpill(s work.Spill) string {
	switch {
	case !s.Known:
		return "nobody has looked up what is in it: cover it with a mineral absorbent, touch nothing, and ask."
	case s.Small != "":
		return s.Small
	}
	return "absorb it, then wipe twice with water."
}

func spillNevers(s *work.Subject) []page.Text {
	var out []page.Text
	seen := map[string]bool{}
	say := func(s string) {
		if !seen[s] {
			seen[s] = true
			out = append(out, page.Say(page.N(s)))
		}
	}
	for _, n := range s.Spill.Never {
		say(n)
	}
	for _, m := range s.Spill.Gas {
		say("let " + m.With + " near it: " + work.Reasons(m.Pairs))
	}
	for _, name := range s.Dangers.Unsaid {
		say("let anything near it: nobody has said what " + name + " reacts with")
	}
	say("rinse it down the drain")
	say("pour another bath on it")
	return out
}

// fells are the gases that strike somebody down at once, and whoever goes in after them.
var fells = map[string]bool{"hydrogen sulfide": true, "hydrogen cyanide": true, "hydrogen selenide": true}

// firstAid is what to do for a person, by the way it took.
func (c *Context) firstAid(known work.Dangers, packs work.Known) []page.Step {
	burns := known.Burns()
	alkali := known.Caustic()
	minutes := c.W.FirstAid.Eyes
	var eyeNote page.Text
	if alkali {
		minutes = c.W.FirstAid.EyesAlkali
		eyeNote = page.Say(page.W("After alkali, rinse longer still. "))
	}
	atLeast := func(f *figure.Record) page.Text { return page.Say(page.W("at least "), page.F(f)) }
	eyes := page.Say(page.W("Water at once, lids open, lenses out."))
	if burns { // a number alone would be read as the end
		eyes = append(eyes, page.W(" "), page.S("Keep rinsing until help comes."))
	}
	if burning := packs.Burning(); !burns && len(burning) > 0 {
		eyeNote = append(eyeNote, page.S("Straight from its pack"), page.W(" ("), page.N(series.Of(burning)),
			page.W("): keep rinsing until help comes. "))
	}
	eyeNote = append(eyeNote, page.W("Use a bottle only while you walk to the tap. See a doctor; bring the label."))

	skin := page.Say(page.W("Wet clothes off, rinse."))
	switch {
	case known.WaterFirst():
		skin = page.Say(page.W("Water first, then the clothes off."))
	case known.DustOnly():
		skin = page.Say(page.W("Brush dry powder off, clothes off, rinse."))
	}
	skinNote := page.W("If there is pain or a rash, see a doctor.")
	switch {
	case known.Has("Skin Corr.") || known.Status != work.Unknown && known.Extreme():
		skin = append(skin, page.W(" "), page.S("It burns: keep rinsing until help comes."))
		skinNote = page.W("See a doctor at once.")
	case known.Has("Acute Tox. 1 (dermal)", "Acute Tox. 2 (dermal)", "Acute Tox. 3 (dermal)", "Acute Tox. 4 (dermal)"):
		skinNote = page.W("It goes through the skin: see a doctor even if nothing hurts.")
	case known.Has("Skin Sens."):
		skinNote = page.W("If there is a rash, even days later, see a doctor, and do not work with it again.")
	}
	if burning := packs.BurningSkin(); !known.Has("Skin Corr.") && !(known.Status != work.Unknown && known.Extreme()) &&
		len(burning) > 0 {
		skin = append(skin, page.W(" "), page.S("Straight from its pack"), page.W(" ("), page.N(series.Of(burning)),
			page.W(") it burns: keep rinsing until help comes."))
	}
	swallowed := page.Say(page.W("Rinse the mouth. "), page.S("Do not make them vomit."),
		page.W(" Call the poison centre."))
	swallowedNote := "Give nothing by mouth if they are drowsy. Read out the label on the phone."
	if known.Lingers() {
		swallowedNote += " See a doctor even if they feel well."
	}
	breathed := page.Say(page.W("Take them out, sit them up. Cough or tight chest: see a doctor."))
	if known.LaterInLungs() {
		breathed = page.Say(page.W("Take them out, sit them up, see a doctor: "),
			page.S("lungs can get worse for three days."))
	}
	var breathedNote page.Text
	if gives := known.Gives(); len(gives) > 0 {
		breathedNote = append(breathedNote, page.W("It can give off "+strings.Join(gasNames(gives),
			", ")+". With asthma, leave at the first smell."))
		if slices.ContainsFunc(gives, func(g work.Gas) bool { return fells[g.Gas] }) {
			breathedNote = append(breathedNote, page.W(" "),
				page.S("If somebody has collapsed, call and do not go in."),
				page.W(" Give no breath from mouth to mouth."))
		}
	}
	part := func(s string) page.Text { return page.Say(page.W(s)) }
	return []page.Step{
		{ID: "eyes", Part: part("Eyes"), What: eyes, Note: []page.Text{eyeNote}, Amount: atLeast(minutes)},
		{ID: "skin", Part: part("Skin"), What: skin, Note: []page.Text{page.Say(skinNote)},
			Amount: atLeast(c.W.FirstAid.Skin)},
		{ID: "swallowed", Part: part("Swallowed"), What: swallowed, Note: []page.Text{page.Say(page.W(swallowedNote))}},
		{ID: "breathed", Part: part("Breathed in"), What: breathed, Note: said(breathedNote)},
	}
}

// said is a note that may be empty.
func said(t page.Text) []page.Text {
	if len(t) == 0 {
		return nil
	}
	return []page.Text{t}
}

// gasNames names each gas once.
func gasNames(list []work.Gas) []string {
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
