package hazard

import (
	"fmt"
	"slices"

	"wetside/procedures/figure"
	"wetside/procedures/lab"
)

// The voices that say what something is.
const (
	bySupplier = "supplier"
	byLibrary  = "library"
	byRule     = "rule"
	byNobody   = "nobody"
)

// spoken is what is said of a substance: by the sheet of the lab's own pack where there is
// one, never less than what the law has fixed, else by its file.
type spoken struct {
	known   bool
	who     string
	classes []said
	by      figure.Origin // who says that there is none
}

// said is one class and who says it.
type said struct {
	word string
	by   figure.Origin
}

func (s spoken) says(word string) bool {
	return slices.ContainsFunc(s.classes, func(c said) bool { return c.word == word })
}

func (s *spoken) say(word string, by figure.Origin) {
	if !s.says(word) {
		s.classes = append(s.classes, said{word, by})
	}
}

// speak is what is said of a chemical.
func speak(l *lab.Lab, c *lab.Chemical) spoken {
	sheet, at := sheetOf(l, c)
	if sheet == nil || sheet.Classes == nil {
		return ofFile(l, c)
	}
	by, _ := l.OriginOf(l.Store.Def, at)
	by = figure.Weakest(by, figure.Supplier)
	return withFloor(l, c, sheet.Classes, by)
}

// ofFile is what the file of a chemical says.
func ofFile(l *lab.Lab, c *lab.Chemical) spoken {
	out := spoken{who: byNobody}
	if c.Hazards == nil || c.Hazards.Classes == nil {
		return out
	}
	out.known, out.who = true, byLibrary
	if !c.Library {
		out.who = bySupplier
	}
	out.by, _ = l.OriginOf(c.Def, "hazards.classes")
	for i, word := range c.Hazards.Classes {
		by, _ := l.OriginOf(c.Def, fmt.Sprintf("hazards.classes[%d]", i))
		out.say(word, by)
	}
	return out
}

// withFloor is what a supplier's sheet says of a chemical, and what the law has fixed.
func withFloor(l *lab.Lab, c *lab.Chemical, words []string, by figure.Origin) spoken {
	out := spoken{known: true, who: bySupplier, by: by}
	if c.Hazards != nil {
		for i, word := range c.Hazards.Classes {
			if fixed, _ := l.OriginOf(c.Def, fmt.Sprintf("hazards.classes[%d]", i)); fixed <= figure.Standard {
				out.say(word, fixed)
			}
		}
	}
	for _, word := range words {
		out.say(word, by)
	}
	return out
}

// sheetOf is the sheet of a pack of a substance in the lab's store.
func sheetOf(l *lab.Lab, c *lab.Chemical) (*lab.PackSheet, string) {
	for i, p := range l.Store.Packs {
		if ing, bad := l.InPack(p, l.Store.At("pack")); len(bad) == 0 && ing.Chemical == c && p.Sheet != nil {
			return p.Sheet, fmt.Sprintf("pack[%d].sheet", i)
		}
	}
	return nil, ""
}
