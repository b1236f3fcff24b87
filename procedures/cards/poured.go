package cards

import (
	"slices"
	"strings"

	"wetside/procedures/page"
	"wetside/procedures/series"
	"wetside/procedures/work"
)

// pouredTable says of each strength that goes one way in which state it is, how acid, how much silver it
// holds, and what it is by the rules.
func (c *Context) pouredTable(baths []*work.Bath) []page.Block {
	t := page.Table{ID: "poured", Caption: page.Say(page.S("What is in it")), Head: []page.Text{
		page.Say(page.W("what is poured")), page.Say(page.W("pH when it is fresh")),
		page.Say(page.W("silver when it is poured")), page.Say(page.W("hazard classes"))}}
	silver := false
	for _, b := range baths {
		silver = silver || b.Silver.Held != nil
		t.Rows = append(t.Rows, page.Row{Cells: []page.Cell{{Text: c.bathName(b.Bath)}, freshCell(b), silverCell(b.Silver),
			classesCell(b.Dangers)}})
	}
	if len(t.Rows) == 0 {
		return nil
	}
	if silver {
		t.Note = page.Say(page.W("Silver in a used fixer has no class, since no rule says how dangerous it is there: treat it as waste that carries silver."))
	}
	return []page.Block{t}
}

// freshCell is how acid a bath is before anything is worked in it: as somebody has written it, else as
// it was worked out.
func freshCell(b *work.Bath) page.Cell {
	switch a := b.Acid; {
	case b.Form() == "powder": // or a tablet
		return page.Cell{Text: page.Say(page.W("none: it is dry"))}
	case a.Differs:
		return page.Cell{Text: page.Say(page.S("measure it"), page.W(": what is written and what is in it do not agree"))}
	case a.Measured != nil:
		return page.Cell{Text: page.Say(page.F(a.Measured))}
	default:
		return acidityCell(a.Cool)
	}
}

// silverCell is how much silver a litre holds.
func silverCell(s work.Silver) page.Cell {
	switch {
	case s.Held != nil && s.State != "":
		return page.Cell{Text: page.Say(page.F(s.Held), page.W(", "), page.N(s.State))}
	case s.Held != nil:
		return page.Cell{Text: page.Say(page.F(s.Held))}
	case s.None:
		return page.Cell{Text: page.Say(page.W("none: "), page.N(s.Why))}
	}
	return page.Cell{Text: page.Say(page.W("cannot be told: "), page.N(s.Why))}
}

// classesCell are the classes of a strength by name, and its supplemental statements: its own card says
// what brings them. Whether there is a safety sheet says nothing of what is poured.
func classesCell(k work.Dangers) page.Cell {
	var words []string
	for _, f := range slices.Concat(k.Classes, k.Extra) {
		word := f.Class.Word
		if f.Code != "" {
			word = strings.TrimSuffix(f.Statement, ".") + " (" + f.Code + ")"
		}
		if f.Code != sheetOnRequest && !slices.Contains(words, word) {
			words = append(words, word)
		}
	}
	all := strings.Join(words, ", ")
	switch {
	case k.Status == work.Unknown && all == "":
		return page.Cell{Text: page.Say(page.Inline{Kind: page.Ask, Text: "first"}, page.W(": nobody has looked up all that is in it"))}
	case k.Status == work.Unknown:
		return page.Cell{Text: page.Say(page.N(all), page.W("; "), page.Inline{Kind: page.Ask, Text: "first"},
			page.W(": nobody has looked up all that is in it"))}
	}
	t := page.Say(page.N(all))
	if all == "" {
		t = page.Say(page.W("not classified"))
	}
	var more []string
	for _, f := range k.Besides() {
		more = append(more, f.Class.Word)
	}
	if len(more) > 0 {
		t = append(t, page.W("; by its contents also "), page.N(series.Of(more)))
	}
	return page.Cell{Text: t}
}

// sheetOnRequest is the statement that there is a safety sheet on request.
const sheetOnRequest = "EUH210"
