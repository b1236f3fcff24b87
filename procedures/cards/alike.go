package cards

import (
	"strings"

	"wetside/procedures/lab"
	"wetside/procedures/page"
	"wetside/procedures/work"
)

// materials name those of which a row tells: all of a base in a word, a few by their names.
func materials(of work.Alike) string {
	if of.Whole && len(of.Others) > 0 {
		return "every " + baseThing(of.Format.Material.Base)
	}
	names := []string{of.Format.Material.Name}
	for _, m := range of.Others {
		names = append(names, m.Name)
	}
	if len(names) > 4 {
		names = append(names[:3], "others alike")
	}
	return strings.Join(names, ", ")
}

// formatInFull is the format of a row with its materials, as a sentence names it.
func formatInFull(of work.Alike) page.Text {
	if len(of.Others) > 0 {
		return page.Say(page.N(materials(of) + ": " + inFull(of)))
	}
	return page.Say(page.N(of.Format.Name()))
}

// sizeInFull is the format of a row where only the base and the size matter, without its
// materials where all of them say the same.
func sizeInFull(of work.Alike) page.Text {
	if !of.Whole {
		return formatInFull(of)
	}
	return page.Say(page.N(baseThing(of.Format.Material.Base) + ", " + inFull(of)))
}

func inFull(of work.Alike) string {
	if of.Format.Decl.Name != "" {
		return of.Format.Decl.Name
	}
	return lab.InSides(of.Format.ID)
}

// baseThing is a material on a base, in words.
func baseThing(base lab.Base) string {
	if base == lab.Film {
		return "film"
	}
	return string(base) + " paper"
}
