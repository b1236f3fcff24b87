package screen

import (
	"fmt"
	"slices"
	"strings"

	"wetside/procedures/page"
)

// pickRow is a row of words to pick from: its own word, and what can be picked.
type pickRow struct {
	Word  string
	Picks []pickWord
}

// pickWord is one word of a row. It leads to a choice, or to none where what is picked in the
// other rows does not go with it.
type pickWord struct {
	Choice int // -1: there is no such choice
	Text   page.Text
	Class  string
}

// PickRows are the rows of words from which a choice of the page is picked. Each word
// leads to the choice that has it and agrees with the present one in all other rows, so
// that a page needs no script: of the words to one thing, only that of the present
// choice is shown.
func (v *shown) PickRows() []pickRow {
	choices := v.Page.Choices
	rows := len(v.Page.Rows)
	if rows < 2 {
		row := pickRow{}
		if rows == 1 {
			row.Word = v.Page.Rows[0]
		}
		for i, c := range choices {
			row.Picks = append(row.Picks, pickWord{Choice: i, Text: c.Label})
		}
		return []pickRow{row}
	}
	out := make([]pickRow, rows)
	for r := range rows {
		out[r].Word = v.Page.Rows[r]
		var words []page.Text
		for _, c := range choices {
			if !slices.ContainsFunc(words, func(w page.Text) bool { return v.Words(w) == v.Words(c.Picks[r]) }) {
				words = append(words, c.Picks[r])
			}
		}
		for _, word := range words {
			out[r].Picks = append(out[r].Picks, v.picks(r, word)...)
		}
	}
	return out
}

// picks are the ways to a word of a row, each for the choices that it is shown in.
func (v *shown) picks(row int, word page.Text) []pickWord {
	var out []pickWord
	for i := range v.Page.Choices {
		to := slices.IndexFunc(v.Page.Choices, func(c page.Choice) bool {
			for r, p := range c.Picks {
				want := v.Page.Choices[i].Picks[r]
				if r == row {
					want = word
				}
				if v.Words(p) != v.Words(want) {
					return false
				}
			}
			return true
		})
		at := slices.IndexFunc(out, func(p pickWord) bool { return p.Choice == to })
		if at < 0 {
			out, at = append(out, pickWord{Choice: to, Text: word, Class: "v"}), len(out)
		}
		out[at].Class += fmt.Sprintf(" v%d", i)
	}
	return out
}

// Rules are what the stylesheet needs besides: they hide what belongs to every choice but the
// picked one, and mark its words, in a browser that can tell which one is picked; elsewhere
// all stay.
func (s *Pages) Rules() string {
	most := 0
	for _, p := range s.binder.Pages {
		most = max(most, len(p.Choices))
	}
	if most < 2 {
		return ""
	}
	var b strings.Builder
	b.WriteString("@supports selector(:has(a)){\n")
	for i := range most {
		fmt.Fprintf(&b, "body:has(#choice-%d:checked) .v:not(.v%d){display:none}\n", i, i)
		fmt.Fprintf(&b,
			"body:has(#choice-%d:checked) .picks [for=choice-%d]{font-weight:700;border-bottom-color:var(--accent)}\n", i, i)
		fmt.Fprintf(&b,
			"body:has(#choice-%d:focus-visible) .picks [for=choice-%d]{outline:3px solid var(--accent);outline-offset:-3px}\n", i, i)
	}
	b.WriteString("}\n")
	return b.String()
}
