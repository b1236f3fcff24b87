package cards

import (
	"wetside/procedures/page"
)

// symbolsBoard shows every sign and pictogram of the binder with its word.
func symbolsBoard(c *Context) []page.Page {
	p := page.Page{ID: "board/symbols", Kind: "board", KindLine: "What the signs say", Title: "Signs and pictograms"}
	p.Before = []page.Block{page.Cautions{Items: []page.Text{page.Say(page.S("Every sign has its word beside it. If there is no word, or if you are in doubt, ask first."))}}}
	p.Do = []page.Block{
		page.Heading{ID: "hazards", Text: page.Say(page.W("On bottles: what it can do"))},
		page.Symbols{Items: []page.Symbol{
			{Code: "GHS01", Shows: "a round body that bursts: rays and flying pieces", Word: "explosive",
				Stands: "can explode, or catch fire by itself when dry or knocked"},
			{Code: "GHS02", Shows: "a flame above a bar", Word: "flammable",
				Stands: "burns easily: no flame, no spark, a closed bottle"},
			{Code: "GHS03", Shows: "flames round a ring that stands on a bar", Word: "oxidising",
				Stands: "feeds a fire: never beside paper, alcohol or sulfur"},
			{Code: "GHS04", Shows: "a gas cylinder that lies", Word: "gas under pressure",
				Stands: "a bottle of gas: can burst in heat"},
			{Code: "GHS05", Shows: "two tubes that drip, on metal and on a hand", Word: "corrosive",
				Stands: "burns skin and eyes, eats metal"},
			{Code: "GHS06", Shows: "a skull and crossed bones", Word: "toxic",
				Stands: "a little of it poisons you: swallowed, on the skin or breathed in"},
			{Code: "GHS07", Shows: "an exclamation mark", Word: "harmful, irritant",
				Stands: "irritates skin and eyes, harms when swallowed, can cause allergy of the skin"},
			{Code: "GHS08", Shows: "a person with a jagged star in the chest", Word: "health hazard",
				Stands: "harms slowly: cancer, genes, the unborn child, organs, asthma"},
			{Code: "GHS09", Shows: "a bare tree at the water, a dead fish", Word: "environment",
				Stands: "poisons water life: no drain"},
		}},
		page.Heading{ID: "help", Text: page.Say(page.W("On the wall: where help is, and what is forbidden"))},
		page.Symbols{Items: []page.Symbol{
			{Code: "E004", Shows: "a receiver and a small cross", Word: "emergency telephone",
				Stands: "call for help from here"},
			{Code: "E003", Shows: "a white cross", Word: "first aid", Stands: "the box is here"},
			{Code: "E011", Shows: "an eye and a cross above a fountain", Word: "eyewash",
				Stands: "rinse eyes here, at once"},
			{Code: "E012", Shows: "a person under a shower, and a cross", Word: "emergency shower",
				Stands: "rinse the whole body here"},
			{Code: "F001", Shows: "an extinguisher beside flames", Word: "fire extinguisher",
				Stands: "it hangs here; use it only while your back is to the way out"},
			{Code: "P022", Shows: "food and a cup, crossed out", Word: "no food, no drink",
				Stands: "nothing is eaten or drunk where chemicals are handled"},
		}},
		page.Heading{ID: "wear", Text: page.Say(page.W("On cards: what you must do"))},
		page.Symbols{Items: []page.Symbol{
			{Code: "M002", Shows: "a reader with a booklet", Word: "read first",
				Stands: "read the card before you begin"},
			{Code: "M004", Shows: "a face with goggles", Word: "goggles",
				Stands: "eye protection, closed at the sides"},
			{Code: "M009", Shows: "two gloves, one before the other", Word: "gloves",
				Stands: "the gloves that the card names"},
			{Code: "M010", Shows: "a suit in one piece", Word: "overall", Stands: "clothes that cover arms and legs"},
			{Code: "M011", Shows: "two hands under a running tap", Word: "wash hands",
				Stands: "before a break, and after work"},
			{Code: "M013", Shows: "a head from the side, behind a shield", Word: "face shield",
				Stands: "over the goggles"},
			{Code: "M016", Shows: "a head from the side, with a mask", Word: "dust mask",
				Stands: "keeps out dust, not gas"},
			{Code: "M017", Shows: "a face with a full mask and a filter", Word: "filter mask",
				Stands: "for who has learnt to wear it"},
			{Code: "M026", Shows: "a person with an apron tied behind", Word: "apron",
				Stands: "one that keeps liquid out"},
		}},
	}
	p.Never = []page.Block{page.List{Items: []page.Text{page.Say(page.W("paint over a sign, or put one up where it is not true"))}}}
	p.Why = []page.Block{page.Para{Text: page.Say(page.W("The pictograms are those of the worldwide system for labels, the signs those of the standard for safety signs. These are our own drawings: the safety signs have been compared with drawings of the registered ones or drawn after a description of them, the pictograms after a description only. Compare them with the standards before you use them on anything that leaves the room."))}}
	p.Foot = c.foot(c.W.Place.Def, nil)
	return []page.Page{p}
}
