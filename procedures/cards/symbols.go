package cards

import "wetside/procedures/page"

// symbolsBoard shows every sign and pictogram of the binder with its word.
func symbolsBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/symbols", Kind: "board", KindLine: "What the signs say", Title: "Signs and pictograms"}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("A sign never stands alone: its word stands beside it. No word, or in doubt: ask first."))}}}
	p.Do = []page.Block{
		page.Heading{ID: "hazards", Text: page.Say(page.W("On bottles: what it can do"))},
		page.Symbols{Items: []page.Symbol{
			{Code: "GHS01", Word: "explosive", Stands: "can explode, or take fire by itself when dry or knocked"},
			{Code: "GHS02", Word: "flammable", Stands: "burns easily: no flame, no spark, a closed bottle"},
			{Code: "GHS03", Word: "oxidising", Stands: "feeds a fire: never beside paper, alcohol or sulfur"},
			{Code: "GHS04", Word: "gas under pressure", Stands: "a bottle of gas: can burst in heat"},
			{Code: "GHS05", Word: "corrosive", Stands: "burns skin and eyes, eats metal"},
			{Code: "GHS06", Word: "toxic", Stands: "little of it poisons: swallowed, on the skin or breathed"},
			{Code: "GHS07", Word: "harmful, irritant", Stands: "irritates skin and eyes, harms when swallowed, can cause allergy of the skin"},
			{Code: "GHS08", Word: "health hazard", Stands: "harms slowly: cancer, genes, the unborn child, organs, asthma"},
			{Code: "GHS09", Word: "environment", Stands: "poisons water life: no drain"},
		}},
		page.Heading{ID: "wear", Text: page.Say(page.W("On cards: what you must do"))},
		page.Symbols{Items: []page.Symbol{
			{Code: "M002", Word: "read first", Stands: "read the card before you begin"},
			{Code: "M004", Word: "goggles", Stands: "eye protection, closed at the sides"},
			{Code: "M009", Word: "gloves", Stands: "the gloves that the card names"},
			{Code: "M010", Word: "overall", Stands: "clothes that cover arms and legs"},
			{Code: "M011", Word: "wash hands", Stands: "before a break, and after work"},
			{Code: "M013", Word: "face shield", Stands: "over the goggles"},
			{Code: "M016", Word: "dust mask", Stands: "keeps out dust, no gas"},
			{Code: "M026", Word: "apron", Stands: "one that keeps liquid out"},
		}},
		page.Heading{ID: "help", Text: page.Say(page.W("On the wall: where help is"))},
		page.Symbols{Items: []page.Symbol{
			{Code: "E003", Word: "first aid", Stands: "the box is here"},
			{Code: "E011", Word: "eyewash", Stands: "rinse eyes here, at once"},
		}},
	}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("paint over a sign, or put one up where it does not hold"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("The pictograms are those of the worldwide system for labels, the signs those of the standard for safety signs. These are our own drawings: hold them against the standards before they are used on anything that leaves the room."))}}
	p.Foot = c.foot(c.Lab.Place.Def, nil)
	return []page.Page{p}
}
