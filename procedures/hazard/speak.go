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

// speak is what is said of a form of a chemical.
func speak(l *lab.Lab, c *lab.Chemical, form string) spoken {
	sheet, at := sheetOf(l, c, form)
	if sheet == nil || sheet.Classes == nil {
		return ofFile(l, c, form)
	}
	by, _ := l.OriginOf(l.Store.Def, at)
	by = figure.Weakest(by, figure.Supplier)
	return withFloor(l, c, form, sheet.Classes, by)
}

// written are the classes that a file has for a form of a chemical as it comes, and their
// key: those of the form itself, else those of the chemical.
func written(c *lab.Chemical, form string) (classes []string, key string) {
	if f := c.Forms[form]; f != nil && f.Classes != nil {
		return f.Classes, lab.FormClassesKey(form)
	}
	if c.Hazards == nil {
		return nil, ""
	}
	return c.Hazards.Classes, "hazards.classes"
}

// ofFile is what the file of a chemical says of a form of it.
func ofFile(l *lab.Lab, c *lab.Chemical, form string) spoken {
	out := spoken{who: byNobody}
	classes, key := written(c, form)
	if classes == nil {
		return out
	}
	out.known, out.who = true, byLibrary
	if !c.Library {
		out.who = bySupplier
	}
	out.by, _ = l.OriginOf(c.Def, key)
	for i, word := range classes {
		by, _ := l.OriginOf(c.Def, fmt.Sprintf("%s[%d]", key, i))
		out.say(word, by)
	}
	return out
}

// withFloor is what a supplier's sheet says of a form of a chemical, and what the law has
// fixed.
func withFloor(l *lab.Lab, c *lab.Chemical, form string, words []string, by figure.Origin) spoken {
	out := spoken{known: true, who: bySupplier, by: by}
	classes, key := written(c, form)
	for i, word := range classes {
		if fixed, _ := l.OriginOf(c.Def, fmt.Sprintf("%s[%d]", key, i)); fixed <= figure.Standard {
			out.say(word, fixed)
		}
	}
	for _, word := range words {
		out.say(word, by)
	}
	return out
}

// sheetOf is the sheet of a pack of a substance in the lab's store: of any form of it, where
// all forms have the same classes, else of the very form.
func sheetOf(l *lab.Lab, c *lab.Chemical, form string) (*lab.PackSheet, string) {
	for i, p := range l.Store.Packs {
		ing, bad := l.InPack(p, l.Store.At("pack"))
		if len(bad) == 0 && ing.Chemical == c && p.Sheet != nil && (ing.FormID == form || !c.Graded()) {
			return p.Sheet, fmt.Sprintf("pack[%d].sheet", i)
		}
	}
	return nil, ""
}
