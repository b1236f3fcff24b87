package cards

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/page"
)

// Subject is the part of a figure's id that names what it is about.
func Subject(id string) string { s, _, _ := strings.Cut(id, "/"); return s }

// Working is the working page of one subject before it is made: how each of the
// subject's figures was worked out. A binder has so many of these pages, and they are
// so large, that each is made only when it is written.
type Working struct {
	Subject string
	figures []*figure.Record
	all     map[string]*figure.Record
}

// Workings lists the working pages of a binder's figures, one for every subject, in
// the order of their ids. The figures come with all that they were worked out from.
func Workings(figures []*figure.Record) []Working {
	all, bySubject := map[string]*figure.Record{}, map[string][]*figure.Record{}
	for _, r := range figures {
		s := Subject(r.ID)
		all[r.ID], bySubject[s] = r, append(bySubject[s], r)
	}
	var out []Working
	for s, mine := range bySubject {
		out = append(out, Working{s, mine, all})
	}
	slices.SortFunc(out, func(a, b Working) int { return strings.Compare(a.Subject, b.Subject) })
	return out
}

// ID is the id of the page.
func (w Working) ID() string { return "why/" + w.Subject }

// Page makes the page.
func (w Working) Page() page.Page {
	p := page.Page{ID: w.ID(), Kind: "working", KindLine: "How it was worked out",
		Title: strings.ReplaceAll(w.Subject, "-", " ")}
	for _, r := range w.figures {
		p.Tables = append(p.Tables, w.table(r))
	}
	return p
}

// table is how one figure was worked out.
func (w Working) table(r *figure.Record) page.Block {
	_, rest, _ := strings.Cut(r.ID, "/")
	t := page.Table{ID: rest}
	t.Caption = page.Say(page.N(capital(r.Name)), page.W(": "))
	if r.Refused() {
		t.Caption = append(t.Caption, page.S("no value"))
		t.Rows = append(t.Rows,
			page.Row{Cells: []page.Cell{{Text: page.Say(page.W("refused"))}, {No: true, Why: r.Why, Refused: r}}})
	} else {
		t.Caption = append(t.Caption, page.F(r))
	}
	if len(r.Inputs) > 0 {
		t.Head = []page.Text{page.Say(page.W("input")), page.Say(page.W("value")),
			page.Say(page.W("where it comes from")), page.Say(page.W("origin"))}
	}
	for _, in := range r.Inputs {
		t.Rows = append(t.Rows, w.inputRow(in))
	}
	t.Note = workingNote(r)
	return t
}

// inputRow is one thing that was put in, and where it comes from.
func (w Working) inputRow(in *figure.InputRef) page.Row {
	name := in.Name
	if in.Symbol != "" {
		name = in.Symbol + ", " + name
	}
	row := page.Row{Cells: []page.Cell{{Text: page.Say(page.N(name))}}}
	if in.ID != "" {
		row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.F(w.all[in.ID]))},
			page.Cell{Text: page.Say(page.N(in.ID))})
	} else {
		text := in.Text
		if text == "" {
			word := in.Unit
			if in.Value == 1 && word == "rolls" {
				word = "roll"
			}
			text = strings.TrimSpace(fmt.Sprintf("%g %s", in.Value, word))
		}
		from := in.Constant
		if in.Source != "" {
			from = in.Source
		}
		if in.Where.File != "" {
			from = in.Where.File + ", " + in.Where.Key
		}
		row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.N(text))},
			page.Cell{Text: page.Say(page.N(orDash(from)))})
	}
	row.Cells = append(row.Cells, page.Cell{Text: page.Say(page.N(in.Origin.String()))})
	return row
}

// workingNote is the formula of a figure, how it was rounded, and what it rests on.
func workingNote(r *figure.Record) page.Text {
	var note page.Text
	if f := r.Formula; f != nil {
		note = append(note, page.N(f.Result+" = "+strings.ReplaceAll(f.Text, "*", "×")), page.W(". "))
		if f.Valid != "" {
			note = append(note, page.W("Holds for: "), page.N(f.Valid), page.W(". "))
		}
		note = append(note, page.W("Source: "), page.N(f.Source), page.W(". "))
	} else if m := r.Method; m != nil {
		note = append(note, page.N(m.Name), page.W(": "), page.N(m.Text()),
			page.W(". Every result is checked by this: "),
			page.N(m.Check), page.W(". "))
		if m.Valid != "" {
			note = append(note, page.W("Holds for: "), page.N(m.Valid), page.W(". "))
		}
		note = append(note, page.W("Source: "), page.N(m.Source), page.W(". "))
	}
	if !r.Refused() && r.Kind != figure.KindText {
		if r.Round.Step != "" {
			note = append(note, page.W("Unrounded "), page.N(fmt.Sprintf("%.6g", r.Counted(r.Value))),
				page.W("; rounded "), page.N(r.Round.Rule), page.W(" in steps of "), page.N(r.Round.Step))
			if r.Round.Device != "" {
				note = append(note, page.W(", "), page.N(r.Round.Device))
			}
			note = append(note, page.W(". "))
		}
		if r.HasLow {
			note = append(note, page.W("Between "), page.N(fmt.Sprintf("%.4g", r.Counted(r.Low))),
				page.W(" and "), page.N(fmt.Sprintf("%.4g", r.Counted(r.High))), page.W(". "))
		}
	}
	if r.Origin.Weak() {
		note = append(note, page.W("Its weakest input is "), page.S(r.Origin.String()), page.W("."))
	}
	return note
}
