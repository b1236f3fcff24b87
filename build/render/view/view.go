// Package view holds what every way of showing a page decides alike: which parts of it a face
// shows and how short, what its head and its foot say, and how it goes on where it is cut.
// What draws a page, and what reckons how high it will be, read it here, so that both mean
// the same card.
package view

import (
	"slices"
	"strconv"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/render/typeset"
	"wetside/build/render/wording"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// View is a page in one face and one choice: what all ways of showing it decide alike.
type View struct {
	typeset.Fonts
	// Page is what this face shows of the card in this choice; Whole is all of it.
	Page          page.Page
	Whole         page.Page
	Face          theme.Face
	Paper         page.Paper
	Lab, Day      string
	Demonstration bool
	Choice        int  // -1: all choices are shown
	Bound         bool // it stands in the bound binder
	// Cut of Cuts: the card is cut over several; 0 where it is not.
	Cut, Cuts int
	// Shared: it says what all cards of its sheet have in common.
	Shared bool
	Scale  int  // which step of type of the face
	Close  bool // the head is as small as on a following card, so that one sheet holds all
	Tight  bool // what parts its rows is halved too
	Steps  int  // steps that stand on earlier sheets
	// Symbols are those of the theme that are used, each once.
	Symbols []string

	binder  *Binder
	finger  string
	squared *draw.Square
	tried   bool // squared is made, or there is none
}

// Site tells whether the page is read on a screen first.
func (v *View) Site() bool { return v.Face.Medium == theme.Site }

// Pieces flattens a text for drawing, in the choice of the view.
func (v *View) Pieces(t page.Text, bold bool) []typeset.Piece {
	return typeset.Pieces(t, v.Choice, bold)
}

// Words flattens a text to plain words.
func (v *View) Words(t page.Text) string { return wording.Plain(t, v.Choice) }

// Wordy reports a cell of words among figures: it may run over several lines.
func (v *View) Wordy(t page.Text) bool { return !wording.Single(t) && len([]rune(v.Words(t))) > 20 }

// Slug is the page's id as an anchor.
func (v *View) Slug() string { return Slug(v.Page.ID) }

// Slug makes an anchor of an id.
func Slug(id string) string {
	return strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' {
			return r
		}
		return '-'
	}, strings.ToLower(id))
}

// Brief tells whether a kind of block is shown short on this face.
func (v *View) Brief(kind string) bool { return slices.Contains(v.Face.Brief, kind) }

// Bare tells whether a kind of block takes one line a row on this face.
func (v *View) Bare(kind string) bool { return slices.Contains(v.Face.Bare, kind) }

// CardOf says which sheet of a cut card this is.
func (v *View) CardOf() string {
	switch {
	case v.Cuts < 2 || v.Bound && v.Cut == 1:
		return ""
	case v.Bound:
		return "continued"
	case v.Cut == 1:
		return "card 1 of " + strconv.Itoa(v.Cuts)
	}
	return "card " + strconv.Itoa(v.Cut) + " of " + strconv.Itoa(v.Cuts) + "; read card 1 first"
}

// GoesOn ends a card that another one follows: nobody may think it finished.
func (v *View) GoesOn() string {
	if v.Cut < 1 || v.Cut >= v.Cuts {
		return ""
	}
	if v.Bound {
		return "continues on the next sheet"
	}
	return "continues on card " + strconv.Itoa(v.Cut+1)
}

// Follows tells whether this card goes on from another one: its head and its foot
// are short, and what they leave out stands on the first.
func (v *View) Follows() bool { return v.Cut > 1 }

// ChoiceLabel is the label of the choice shown, empty where all are.
func (v *View) ChoiceLabel() page.Text {
	if v.Choice < 0 && v.Site() && len(v.Page.Choices) == 1 { // nothing is to be chosen, and it is named all the same
		return v.Page.Choices[0].Label
	}
	if v.Choice < 0 || v.Choice >= len(v.Page.Choices) {
		return nil
	}
	return v.Page.Choices[v.Choice].Label
}

// ChoiceSays tells whether the choice's label says more than the figure of the
// head does.
func (v *View) ChoiceSays() bool {
	label := v.ChoiceLabel()
	q, _ := v.Quantity()
	return len(label) > 0 && v.Words(label) != v.Words(q.Value)
}

// Quantity is the one figure of the head.
func (v *View) Quantity() (page.Amount, error) {
	if len(v.Page.Key) > 0 {
		if a, ok := v.Page.Key[0].(page.Amount); ok {
			return a, nil
		}
	}
	return page.Amount{}, nil
}

// FurtherKeys are the figures that do not stand in the head.
func (v *View) FurtherKeys() []page.Block { return v.Page.Key[min(1, len(v.Page.Key)):] }

// Parts are the parts that the face shows. A page that says all it says in tables
// keeps them on a face that leaves tables to the binder.
func (v *View) Parts() []string {
	parts := v.Face.Parts
	shown := func(b page.Block) bool { return !v.Face.Leaves(b.Block(), v.Page.Kind) }
	work := slices.ContainsFunc(v.Page.Do, shown)
	if spare := v.Face.Spare[v.Page.Kind]; work && len(spare) > 0 {
		return slices.DeleteFunc(slices.Clone(parts), func(name string) bool { return slices.Contains(spare, name) })
	}
	if v.Face.Medium != theme.Paper || slices.Contains(parts, "tables") || work {
		return parts
	}
	if i := slices.Index(parts, "do"); i >= 0 {
		parts = slices.Insert(slices.Clone(parts), i+1, "tables")
	}
	return parts
}

// Part is what stands in a part of the page, in the words of this face.
func (v *View) Part(name string) []page.Block {
	switch name {
	case "key":
		return v.Page.Key
	case "before":
		return v.Page.Before
	case "do":
		return v.Page.Do
	case "tables":
		return v.Page.Tables
	case "today":
		return v.Page.Today
	case "never":
		return v.Nevers()
	case "why":
		return v.Page.Why
	case "record":
		return v.Page.Record
	}
	return nil
}

// Nevers is what must never be done. On a screen each line stands below the word; on
// paper the lines run on, and every line that does not stand straight behind the word
// says it again, so that none reads as an order.
func (v *View) Nevers() []page.Block {
	if v.Site() {
		return v.Page.Never
	}
	return v.NeversRunOn()
}

// NeversRunOn are the lines as they run on behind the word.
func (v *View) NeversRunOn() []page.Block {
	var out []page.Block
	for i, b := range v.Page.Never {
		if l, ok := b.(page.List); ok && !l.Lines {
			items := slices.Clone(l.Items)
			for k, t := range items {
				if i > 0 || k > 0 {
					items[k] = append(page.Say(page.W("never ")).With(t.When()), t...)
				}
			}
			l.Items = items
			b = l
		}
		out = append(out, b)
	}
	return out
}

// Beside is what stands below a bath of a clock that is shown short, in the order
// of use: the light, what its time hangs on, what the hands do, where it goes. A
// paper for the pocket leaves where it goes to the disposal sheet.
func (v *View) Beside(r page.ClockRow) []page.Text {
	const pocket = 120 // mm
	list := []page.Text{r.Light, r.ForNote, r.Cue}
	if v.Face.Size[0] > pocket {
		list = append(list, r.Goes)
	}
	return slices.DeleteFunc(list, func(t page.Text) bool { return len(t) == 0 })
}

// MostBoxes is how many boxes of a ladder a sheet of paper bears.
const MostBoxes = 120

// HasKind tells whether a line stands above the title. In the binder the running head says
// of what kind a card is, and the line is for warnings.
func (v *View) HasKind() bool {
	return !v.Bound || v.Controlled() && !v.Follows() && (v.Page.Foot.Approved == "" || v.Page.Foot.Overdue != "")
}

// HazardWord is what stands first of hazards: the signal word, or that there is none.
func (v *View) HazardWord(b page.Hazards) string {
	switch {
	case b.Status == "unknown":
		return strings.TrimSpace(b.Signal + " Hazards not looked up")
	case b.Status == "not classified":
		return strings.TrimSpace(b.Signal + " Not classified")
	}
	return b.Signal
}

// HazardMark parts the signal word, and what the pictograms are called, from what follows.
func (v *View) HazardMark(b page.Hazards) string {
	switch {
	case v.HazardWord(b) == "" && len(b.Pictograms) == 0:
		return ""
	case len(b.Statements) > 0 || v.Page.Kind == "chemical" && len(b.Classes) > 0:
		return ":"
	}
	return "."
}

// Symbol notes that a symbol is used, and returns its name, or nothing if the
// theme has no such symbol.
func (v *View) Symbol(name string) string {
	if _, ok := v.binder.Theme.Symbols[name]; !ok {
		return ""
	}
	if !slices.Contains(v.Symbols, name) {
		v.Symbols = append(v.Symbols, name)
	}
	return name
}

// PictogramWord is the word for a pictogram; the code itself where it has none.
func PictogramWord(code string) string {
	words := []string{"explosive", "flammable", "oxidising", "gas under pressure", "corrosive", "toxic", "harmful",
		"health hazard", "environment"}
	n, err := strconv.Atoi(strings.TrimPrefix(code, "GHS"))
	if err != nil || n < 1 || n > len(words) {
		return code
	}
	return words[n-1]
}

// CheckLength is how long the rule in the foot is, in mm.
func (v *View) CheckLength() float64 {
	if v.Face.Check > 0 {
		return v.Face.Check
	}
	return 50
}

// HasRuler tells whether a ruler has anything to draw, and the face room for it.
func (v *View) HasRuler(r page.Ruler) bool {
	return len(r.Length) > 0 && (v.Face.Medium != theme.Paper || v.Face.Ruler > 0)
}
