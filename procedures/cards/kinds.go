// Package cards makes the pages of a binder. Each kind of card is one file: it reads
// what work has answered, says in which part of the page it stands, and makes the
// sentences. It works nothing out.
package cards

import (
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/unit"
	"wetside/procedures/work"
)

// Kind makes all the cards of one kind.
type Kind struct {
	Name string
	// Group is where its cards stand, and At its place in the menu and on the front
	// page. Of kinds that share a group one says both, the others its id alone.
	Group page.Group
	At    int
	Make  func(*Context) []page.Page
}

// board is the group of the boards, which are kinds of their own.
var board = page.Group{ID: "board"}

// Kinds lists the kinds in the order in which their cards are made. A new kind of card
// is one file in this package and one entry here.
var Kinds = []Kind{
	{"process", page.Group{ID: "process", Word: "Process", Sub: "timed steps"}, 2, processCards},
	{"mixing", page.Group{ID: "mix", Word: "Mix", Sub: "what to weigh, in what order"}, 1, mixingCards},
	{"product", page.Group{ID: "product", Word: "Bought", Sub: "packs, bottles and kits"}, 9, boughtCards},
	{"record", page.Group{ID: "record", Word: "Records", Sub: "to fill in with a pencil"}, 11, recordCards},
	{"capacity", page.Group{ID: "capacity", Word: "Capacity", Sub: "how much each bath treats"}, 3, capacityBoard},
	{"label", page.Group{ID: "label", Word: "Labels", Sub: "for bottles"}, 10, labelCards},
	{"shelf", page.Group{ID: "shelf", Word: "Shelf", Sub: "what stands there, and until when"}, 4, shelfCards},
	{"store", page.Group{ID: "shelf"}, 0, storeBoard},
	{"re-use", page.Group{ID: "reuse", Word: "Re-use strips", Sub: "how long the next film takes"}, 5, made},
	{"chemical", page.Group{ID: "chemical", Word: "Chemicals", Sub: "what each one is"}, 9, chemicalCards},
	{"protect", page.Group{ID: "protect", Word: "Protect", Sub: "what to put on, by job and strength"}, 6,
		protectCards},
	{"spill", page.Group{ID: "spill", Word: "Spill", Sub: "spilt, splashed, breathed"}, 8, spillCards},
	{"dispose", page.Group{ID: "dispose", Word: "Dispose", Sub: "drum, drain, never together"}, 7, disposeCards},
	{"drum", page.Group{ID: "label"}, 0, drumLabels},
	{"sign", page.Group{ID: "label"}, 0, signCards},
	{"board", page.Group{ID: "board", Word: "Boards", Sub: "for the wall"}, 12, made},
	{"emergency", board, 0, emergencyBoard},
	{"wear", board, 0, wearBoard},
	{"people", board, 0, peopleBoard},
	{"waste", board, 0, wasteBoard},
	{"drums", board, 0, drumsBoard},
	{"apart", board, 0, apartBoard},
	{"notation", board, 0, notationBoard},
	{"bench", board, 0, benchBoard},
	{"tempering", board, 0, temperingBoard},
	{"drifting", board, 0, driftingBoard},
	{"carrying", board, 0, carryingBoard},
	{"washing", board, 0, washingBoard},
	{"choosing", board, 0, choosingBoard},
	{"shopping", board, 0, shoppingBoard},
	{"symbols", board, 0, symbolsBoard},
	{"sheet", page.Group{ID: "label"}, 0, labelSheet},
	{"notice", page.Group{ID: "notice", Word: "Notices", Sub: "in the lab's own words"}, 13, made},
}

// made is of a kind whose cards come from elsewhere: strips from the shelf, notices from
// the lab's own pages.
func made(*Context) []page.Page { return nil }

// Groups lists the groups of all kinds in the order of the menu.
func Groups() []page.Group {
	var out []page.Group
	for _, k := range slices.SortedStableFunc(slices.Values(Kinds), func(a, b Kind) int { return a.At - b.At }) {
		if k.Group.Word != "" {
			out = append(out, k.Group)
		}
	}
	return out
}

// Context is what every kind works from.
type Context struct {
	W *work.Work
	// Prints gathers what goes on paper one by one.
	Prints []page.Print
	// Variants lists every print that could be chosen for the wall.
	Variants []string
	// Discards gathers the days for the calendar.
	Discards []page.Discard
	// Problems gathers what only shows while the cards are made.
	Problems []lab.Problem
	// Labels are those made so far, in their order.
	Labels []MadeLabel
}

// NewContext prepares a context.
func NewContext(w *work.Work) *Context { return &Context{W: w} }

// foot is the control line of a definition's card.
func (c *Context) foot(d lab.Def, holes []page.Hole) page.Foot {
	f := page.Foot{Holes: holes, File: d.File}
	k, ok := c.W.Control(d)
	if !ok {
		f.Holes = append(f.Holes, page.Hole{What: "who is responsible for this card",
			Until: "it has no version and no date, and nobody has approved it", Key: "[control] in " + d.File})
		return f
	}
	if k.Overdue(c.W.Day) {
		f.Overdue = k.Review.String()
	}
	if k.Version > 0 {
		f.Version = unit.Format(float64(k.Version), unit.NewDecimal(1, 0))
	}
	f.Date, f.Written, f.Approved, f.Review, f.Change = k.Date.String(), k.Written, k.Approved, k.Review.String(),
		k.Change
	if k.Approved == "" {
		f.Holes = append(f.Holes, page.Hole{What: "who approved this card", Until: "nobody has approved it yet",
			Key: "approved under [control] in " + d.File})
	}
	return f
}

// Vouched counts the weak figures that a page refers to.
func Vouched(figures []*figure.Record) []page.Vouch {
	var out []page.Vouch
	for _, w := range figure.Unvouched(figures) {
		out = append(out, page.Vouch{Origin: w.Origin.String(), Count: w.Count})
	}
	return out
}

func gearBlock(job work.Job, k work.Dangers) page.Gear {
	g := page.Gear{Job: string(job)}
	for _, i := range k.For(job).Wear {
		item := page.GearItem{Sign: i.Sign, Word: i.Word}
		if i.Kind != "" {
			item.Why = page.Say(page.N(i.Kind), page.W("; reason: "), page.N(i.Because))
		} else {
			item.Why = page.Say(page.N(i.Because))
		}
		g.Items = append(g.Items, item)
	}
	switch k.Status {
	case work.Unknown:
		g.Note = page.Say(page.S("Hazards not looked up"), page.W(": "), page.N(series.Of(k.Missing)),
			page.W(". Take full precautions until somebody has looked; ask first."))
	case work.Carried:
		g.Basis = page.Say(page.W("Goes by the hazards of all that is in it, as if undiluted. Follow the supplier’s sheet first."))
	case work.Computed, work.Overridden:
		g.Basis = page.Say(page.W(basisOf[job]))
	case work.Supplied:
		g.Basis = page.Say(page.W("Goes by the classes of it as it comes. Follow the supplier’s sheet first."))
	case work.Unclassified:
		g.Basis = page.Say(page.W("Nothing in it is classified. Follow the supplier’s sheet first."))
		if _, remembered := k.Clear(); remembered != "" {
			g.Basis = page.Say(page.W("Nothing in it is classified; this is from memory. Follow the supplier’s sheet first."))
		}
	}
	if len(g.Items) == 0 {
		g.Note = page.Say(page.W(normalCare))
	}
	return g
}

// basisOf is what the gear of a job goes by.
var basisOf = map[work.Job]string{
	work.Weigh:   "Goes by the packs as they come, by what is made from them, and by the lab’s own cautions. Follow the supplier’s sheet first.",
	work.Dilute:  "Goes by what is diluted, by what it becomes, and by the lab’s own cautions. Follow the supplier’s sheet first.",
	work.AtWork:  "Goes by the classes of this strength, worked out from what is in it, and by the lab’s own cautions. Follow the supplier’s sheet first.",
	work.Spilled: "Goes by the classes of this strength, worked out from what is in it, and by the lab’s own cautions. Follow the supplier’s sheet first.",
	work.Away:    "Goes by the classes of this strength, worked out from what is in it, and by the lab’s own cautions. Follow the supplier’s sheet first.",
}

// normalCare is what a bath asks for that asks for nothing.
const normalCare = "Nothing beyond normal care: keep it out of eyes and mouth, and wash your hands."

func hazardBlock(k work.Dangers) page.Hazards {
	h := page.Hazards{Signal: k.Signal(), Pictograms: k.Pictograms()}
	switch k.Status {
	case work.Unknown:
		h.Status = "unknown"
		h.Note = page.Say(page.S("Hazards not looked up"), page.W(": "), page.N(series.Of(k.Missing)),
			page.W(". Ask first."))
	case work.Carried:
		h.Status = "every ingredient’s"
		h.Note = page.Say(page.W("Lists the hazards of all that is in it, as if undiluted: nobody knows enough of it to work out more."))
	case work.Computed:
		h.Status = "worked out"
		h.Note = page.Say(page.W("Worked out from what is in it, not tested."))
		if len(k.Classes) == 0 && !k.Extreme() {
			h.Status = "not classified"
		}
	case work.Overridden:
		h.Status = "worked out"
		h.Note = overrideNote(k)
		if len(k.Classes) == 0 {
			h.Status = "not classified"
		}
	case work.Supplied:
		h.Status = "as it comes"
	case work.Unclassified:
		h.Status = "not classified"
		h.Note = page.Say(page.W("No ingredient is classified."))
	}
	h.Classes = append(classLines(k), otherVoices(k)...)
	h.Statements = statementsOf(k, false)
	return h
}

// statementsOf are the statements of what is known, the worst first. Those of a rule of its own
// name what brings them; in brief only where somebody goes by the name, as who is allergic to
// it does.
func statementsOf(k work.Dangers, brief bool) []page.Text {
	var out []page.Text
	if ph := k.BurnsBy(); ph != "" {
		out = append(out, page.Say(page.S("Burns eyes and skin"), page.W(" by its pH, "), page.N(ph), page.W(".")))
	}
	for _, f := range k.Said() {
		t, code := page.Say(page.W(strings.TrimSuffix(f.Statement, "."))), f.Class.Code
		if f.Code != "" {
			code = f.Code
			v := f.Vouched()
			switch {
			case !brief || f.Code == "EUH208":
				t = append(t, page.W(": "), page.N(namesOf(k, f)))
			case len(v.Who) > 0 && v.Who[0].Weak(): // nobody has looked up any that brings it
				t = append(t, page.W(" ("), page.N(v.Who[0].String()), page.W(")"))
			}
		}
		out = append(out, append(t, page.W(" ("), page.N(code), page.W(").")))
	}
	return out
}

// overrideNote says who in this lab judged so, why and until when.
func overrideNote(k work.Dangers) page.Text {
	var t page.Text
	for _, o := range k.Overrides {
		t = append(t, page.W("By this lab’s own judgement: "), page.N(o.Why), page.W(". "), page.N(o.By))
		if o.Second != "" {
			t = append(t, page.W(" and "), page.N(o.Second))
		}
		if o.Source != "" {
			t = append(t, page.W(", by "), page.N(o.Source))
		}
		t = append(t, page.W(", until "), page.N(o.Until.String()), page.W(". "))
	}
	return append(t, page.W("What to wear goes by all voices still."))
}

// classLines say of each class what brings it, how much of that there is, and the rule.
func classLines(k work.Dangers) []page.Text {
	var out []page.Text
	var together []string
	for _, list := range [][]work.Found{k.Classes, k.Extra} {
		for i, f := range list {
			word := f.Class.Word
			if f.Code != "" {
				word = f.Code
			}
			if len(f.By) == 0 { // what brings several is named once
				together = append(together, word)
				if next := i + 1; next < len(list) && len(list[next].By) == 0 && namesOf(k, list[next]) == namesOf(k, f) {
					continue
				}
				out = append(out, page.Say(page.N(strings.Join(together, ", ")), page.W(": "), page.N(namesOf(k, f))))
				together = nil
				continue
			}
			t := page.Say(page.N(word), page.W(": "))
			t = append(append(t, brings(f.By)...), beyond(f)...)
			t = append(t, page.W("; "), page.N(f.Table))
			if f.Unsure {
				t = append(t, page.W("; with the least of it that there may be, it would stay under"))
			}
			out = append(out, t)
		}
	}
	return out
}

// namesOf are what brings a class or a statement. Where the supplier's sheet of a product says
// it, nobody has to remember it of what is in the product.
func namesOf(k work.Dangers, f work.Found) string {
	if k.Status != work.Supplied {
		return f.Names()
	}
	looked, _ := k.Clear()
	product := []string{looked}
	for _, c := range k.Classes {
		product = append(product, c.Because...)
	}
	if slices.ContainsFunc(f.Because, func(n string) bool { return slices.Contains(product, n) }) {
		return f.Vouched().Names()
	}
	return f.Names()
}

// beyond names what brings a class and is no content: a pH.
func beyond(f work.Found) page.Text {
	if len(f.Because) <= len(f.By) {
		return nil
	}
	return page.Say(page.W("; "), page.N(series.Of(f.Because[len(f.By):])))
}

// brings are contents with their bounds and the limit of each.
func brings(list []work.Bringing) page.Text {
	var t page.Text
	for i, b := range list {
		if i > 0 {
			t = append(t, page.W(", "))
		}
		t = append(t, page.N(b.Name), page.W(" "), page.F(b.Content))
		t = append(t, between(b.Low, b.High)...)
		if b.Limit != "" {
			t = append(t, page.W(", enough from "), page.N(b.Limit))
		}
	}
	return t
}

// otherVoices are what stands beside the classes: what is near, what others say, what no
// rule finds.
func otherVoices(k work.Dangers) []page.Text {
	var out []page.Text
	for _, n := range k.Near {
		out = append(out, append(page.Say(page.S("Just under"), page.W(" "), page.N(n.Class), page.W(": ")),
			brings(n.By)...))
	}
	for _, f := range k.Besides() {
		t := page.Say(page.S("By what is in it"), page.W(", besides: "), page.N(f.Class.Word), page.W(": "))
		if len(f.By) > 0 {
			out = append(out, append(append(t, brings(f.By)...), beyond(f)...))
			continue
		}
		out = append(out, append(t, page.N(f.Names())))
	}
	looked, remembered := k.Clear()
	if looked != "" {
		out = append(out, page.Say(page.W("Not classified: "), page.N(looked)))
	}
	if remembered != "" {
		out = append(out, page.Say(page.W("Not classified, only from memory: "), page.N(remembered)))
	}
	for _, f := range k.Elsewhere {
		out = append(out, page.Say(page.S("Sources disagree"), page.W(": it would be "), page.N(f.Class.Word),
			page.W(" by what another list says of "), page.N(series.Of(f.Because)), page.W(" ("), page.N(f.List),
			page.W(")")))
	}
	if k.Status == work.Computed {
		for _, f := range k.Physical {
			out = append(out, page.Say(page.N(capital(series.Of(f.Because))), page.W(", as it comes, is "),
				page.N(f.Class.Word), page.W("; nobody has tested the solution, and what dries out counts as that")))
		}
	}
	for _, r := range k.Remarks {
		out = append(out, page.Say(page.N(capital(r))))
	}
	return out
}

func roleOf(word lab.Role) page.Role {
	switch word {
	case "developer":
		return page.Developer
	case "stop":
		return page.Stop
	case "fixer":
		return page.Fixer
	case "clearing":
		return page.Clearing
	case "bleach":
		return page.Bleach
	case "toner":
		return page.Toner
	case "wetting":
		return page.Wetting
	}
	return page.Other
}

// sentence makes the lab's own words a line, unless they are empty.
func sentence(words string) []page.Text {
	if words == "" {
		return nil
	}
	return []page.Text{page.Say(page.N(words))}
}

func capital(s string) string {
	if s == "" {
		return s
	}
	r := []rune(s)
	return strings.ToUpper(string(r[0])) + string(r[1:])
}
