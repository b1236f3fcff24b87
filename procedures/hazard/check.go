package hazard

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
	"wetside/procedures/unit"
)

var bareCode = regexp.MustCompile(`(?i)^(EUH|H)\s*[0-9]{3}[A-Za-z]*$`)

// Check finds class words that the scheme does not have.
func Check(l *lab.Lab) []lab.Problem {
	c := &checker{scheme: l.Scheme(), words: l.Vocabulary()}
	for _, book := range l.Rules {
		c.book(book)
	}
	for _, d := range l.Chemicals {
		c.hazards(d.Hazards, d.At("hazards"))
		for _, id := range d.FormIDs() {
			c.list(d.Forms[id].Classes, d.At(lab.FormClassesKey(id)))
		}
	}
	for _, d := range l.Products {
		c.hazards(d.Hazards, d.At("hazards"))
		c.contains(d.Contains, d.At(""))
		for _, id := range d.PartIDs() {
			if part := d.Parts[id]; part != nil {
				at := d.At("part." + id)
				c.hazards(part.Hazards, at.At("hazards"))
				c.contains(part.Contains, at)
			}
		}
	}
	for _, b := range l.Baths() {
		if d := b.Decl(); d != nil && d.Override != nil {
			c.list(d.Override.Classes, b.Def().At("strength."+b.Strength+".override.classes"))
		}
	}
	for n, p := range l.Store.Packs {
		if p.Sheet != nil {
			at := l.Store.At(fmt.Sprintf("pack[%d].sheet.classes", n))
			c.list(p.Sheet.Classes, at)
			c.milder(l, p, at)
		}
	}
	return c.problems
}

type checker struct {
	scheme   *lab.Scheme
	words    *lab.Vocabulary
	problems []lab.Problem
}

// milder warns of a sheet that has not got a class which the law has fixed.
func (c *checker) milder(l *lab.Lab, p lab.Pack, at figure.Where) {
	ing, bad := l.InPack(p, at)
	if len(bad) > 0 || ing.Chemical == nil || p.Sheet.Classes == nil || c.scheme == nil {
		return
	}
	classes, key := written(ing.Chemical, ing.FormID)
	for i, word := range classes {
		fixed, _ := l.OriginOf(ing.Chemical.Def, fmt.Sprintf("%s[%d]", key, i))
		if fixed <= figure.Standard && !slices.ContainsFunc(p.Sheet.Classes,
			func(w string) bool { return asHard(c.scheme, w, word) }) {
			c.problems = append(c.problems, lab.Problem{At: at, OnKey: true, Code: "hazard", Warning: true,
				What: fmt.Sprintf("the sheet of this pack has no %s, and the law has fixed it for %s: the cards keep it",
					word, ing.Chemical.Name),
				Hint: "ask the supplier for a new sheet: yours may be older than the entry"})
		}
	}
}

// ordered holds the limits of a substance in their order: what is harder holds from a
// higher content on.
func (c *checker) ordered(limits map[string]lab.Said[unit.WW], at figure.Where) {
	if c.scheme == nil {
		return
	}
	for _, ladder := range c.scheme.Hardest {
		for i, hard := range ladder.Classes {
			for _, mild := range ladder.Classes[i+1:] {
				a, b := limits[hard], limits[mild]
				if a.Given() && b.Given() && a.High() < b.Low() {
					c.problems = append(c.problems, lab.Problem{At: at.At(fmt.Sprintf("%q", mild)), OnKey: true,
						Code: "hazard",
						What: fmt.Sprintf("%s would hold from %s, and the harder %s already from %s", mild, b.Text(),
							hard,
							a.Text()),
						Hint: "look at both in section 3 of the sheet: the harder class has the higher limit"})
				}
			}
		}
	}
}

// hazards checks every class word of a table of hazards.
func (c *checker) hazards(h *lab.Hazards, at figure.Where) {
	if h == nil {
		return
	}
	c.list(h.Classes, at.At("classes"))
	for k, e := range h.Elsewhere {
		c.list(e.Classes, at.At(fmt.Sprintf("elsewhere[%d].classes", k)))
	}
	c.extra(h.Extra, at.At("extra"))
	keys(c, h.Limits, at.At("limits"))
	c.ordered(h.Limits, at.At("limits"))
	keys(c, h.Tested, at.At("tested"))
	for i, word := range h.Wear {
		if len(asksFor(word)) == 0 {
			c.problems = append(c.problems, lab.Problem{At: at.At(fmt.Sprintf("wear[%d]", i)), Code: "hazard",
				What: fmt.Sprintf("%q is nothing that the cards know how to ask for", word),
				Hint: lab.Near(word, gearWords, "write "+strings.Join(gearWords, ", ")+"; what else the sheet says goes under note")})
		}
	}
}

// gearWords are the words by which a file asks for a piece of gear.
var gearWords = []string{"goggles", "face shield", "gloves", "tongs", "dust mask", "FFP3", "apron", "extractor", "second person"}

// contains checks the class words of what is in a product or in a part of one, at its
// place.
func (c *checker) contains(list map[string]lab.Share, whole figure.Where) {
	for _, name := range slices.Sorted(maps.Keys(list)) {
		at := whole.At(lab.ContainsKey(name))
		c.list(list[name].Classes, at.At("classes"))
		c.extra(list[name].Extra, at.At("extra"))
		keys(c, list[name].Limits, at.At("limits"))
		c.ordered(list[name].Limits, at.At("limits"))
	}
}

// extra checks supplemental statements.
func (c *checker) extra(codes []string, at figure.Where) {
	for i, code := range codes {
		if _, ok := c.words.Supplement(code); !ok {
			c.problems = append(c.problems, lab.Problem{At: at.At(fmt.Sprintf("[%d]", i)), Code: "hazard",
				What: fmt.Sprintf("%q is not a supplemental statement this program knows", code),
				Hint: "for example \"EUH031\""})
		}
	}
}

func (c *checker) list(words []string, at figure.Where) {
	for i, word := range words {
		c.word(word, at.At(fmt.Sprintf("[%d]", i)), false)
	}
}

// keys checks the class words that are the keys of a table.
func keys[T any](c *checker, table map[string]T, at figure.Where) {
	for _, word := range slices.Sorted(maps.Keys(table)) {
		c.word(word, at.At(fmt.Sprintf("%q", word)), true)
	}
}

// word checks one class word.
func (c *checker) word(word string, at figure.Where, onKey bool) {
	if _, ok := c.words.Class(word); ok {
		return
	}
	p := lab.Problem{At: at, OnKey: onKey, Code: "hazard"}
	code := strings.ToUpper(strings.ReplaceAll(word, " ", ""))
	switch {
	case bareCode.MatchString(word) && strings.HasPrefix(code, "EUH") && len(c.words.Coded(code)) == 0:
		p.What, p.Hint = fmt.Sprintf("%q is a supplemental statement, not a class", word),
			fmt.Sprintf("move it to extra = [%q]", code)
	case bareCode.MatchString(word):
		p.What = fmt.Sprintf("%q is a statement; it does not say which class it comes from", word)
		switch words := c.words.Coded(code); len(words) {
		case 0:
			p.Hint = "write the class and category as in section 2 of the supplier's sheet"
		case 1:
			p.Hint = fmt.Sprintf("%s belongs to %s: write %q if section 2 of the supplier's sheet says so too", code,
				words[0], words[0])
		default:
			p.Hint = code + " belongs to one of " + strings.Join(words, ", ") +
				": write the one that section 2 of the supplier's sheet names"
		}
	default:
		p.What = fmt.Sprintf("%q is not a hazard class this program knows", word)
		p.Hint = "write class and category as in section 2 of the supplier's sheet, for example \"Eye Irrit. 2\" or \"Acute Tox. 4 (oral)\""
		if near := spellingOf(c.words).near(word); near != "" {
			p.Hint = fmt.Sprintf("did you mean %q? otherwise %s", near, p.Hint)
		}
	}
	c.problems = append(c.problems, p)
}
