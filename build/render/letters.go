package render

import (
	"fmt"
	"slices"
	"strings"

	"wetside/build/theme"
	"wetside/procedures"
	"wetside/procedures/page"
)

// Missing are letters that a binder's names use and the face for paper lacks.
type Missing struct {
	Letters string // the first eight, and how many more
	First   string // the first card that wants one
	More    int
}

// Unlettered finds the letters in names and titles of cards that the face for
// paper does not have; at most one Missing.
func Unlettered(b procedures.Binder, t *theme.Theme) []Missing {
	var letters []rune
	var cards []string
	for _, p := range b.Pages {
		found := false
		look := func(s string) {
			for _, r := range s {
				if r > ' ' && !(t.Text.Has(r) && t.Strong.Has(r)) {
					found = true
					letters = append(letters, r)
				}
			}
		}
		look(p.Title)
		page.Inlines(p, func(i page.Inline) {
			if i.Kind == page.Name {
				look(i.Text)
			}
		})
		if found {
			cards = append(cards, p.ID)
		}
	}
	if len(letters) == 0 {
		return nil
	}
	slices.Sort(letters)
	letters = slices.Compact(letters)
	var shown []string
	const most = 8
	for _, r := range letters[:min(len(letters), most)] {
		shown = append(shown, string(r))
	}
	said := strings.Join(shown, " ")
	if more := len(letters) - most; more > 0 {
		said += fmt.Sprintf(" and %d more", more)
	}
	return []Missing{{said, cards[0], len(cards) - 1}}
}
