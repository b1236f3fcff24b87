package lab

import (
	"fmt"
	"slices"
	"strings"
)

// commonNames are what the trade calls the substances of the library beside their
// systematic names, with the form where the name means one. From memory.
var commonNames = map[string]string{
	"alcohol":                       "isopropanol",
	"alum":                          "potassium-alum",
	"baking soda":                   "sodium-hydrogencarbonate",
	"bicarbonate of soda":           "sodium-hydrogencarbonate",
	"bichromate":                    "potassium-dichromate",
	"blue vitriol":                  "copper-sulfate.pentahydrate",
	"bromide":                       "potassium-bromide",
	"catechol":                      "pyrocatechol",
	"caustic soda":                  "sodium-hydroxide",
	"copperas":                      "iron-ii-sulfate",
	"ferric ammonium citrate":       "ammonium-iron-citrate",
	"ferricyanide":                  "potassium-ferricyanide",
	"ferrous sulfate":               "iron-ii-sulfate",
	"formalin":                      "formaldehyde",
	"glacial acetic acid":           "acetic-acid.glacial",
	"green ferric ammonium citrate": "ammonium-iron-citrate.green",
	"green vitriol":                 "iron-ii-sulfate",
	"hypo":                          "sodium-thiosulfate.pentahydrate",
	"iodide":                        "potassium-iodide",
	"isopropyl alcohol":             "isopropanol",
	"lunar caustic":                 "silver-nitrate",
	"lye":                           "sodium-hydroxide",
	"metabisulfite":                 "sodium-metabisulfite",
	"metol":                         "methylaminophenol-sulfate",
	"oil of vitriol":                "sulfuric-acid",
	"para aminophenol":              "p-aminophenol",
	"permanganate":                  "potassium-permanganate",
	"peroxide":                      "hydrogen-peroxide",
	"potash alum":                   "potassium-alum",
	"propan 2 ol":                   "isopropanol",
	"pyro":                          "pyrogallol",
	"quinol":                        "hydroquinone",
	"red prussiate of potash":       "potassium-ferricyanide",
	"sal ammoniac":                  "ammonium-chloride",
	"soda ash":                      "sodium-carbonate.anhydrous",
	"sodium bicarbonate":            "sodium-hydrogencarbonate",
	"sodium bisulfate":              "sodium-hydrogensulfate",
	"sulfide":                       "sodium-sulfide",
	"sulfite":                       "sodium-sulfite",
	"thiocarbamide":                 "thiourea",
	"thiocyanate":                   "potassium-thiocyanate",
	"vitamin c":                     "ascorbic-acid",
	"vitriol":                       "sulfuric-acid",
	"washing soda":                  "sodium-carbonate.decahydrate",
}

// Called are the ids of the chemical that the trade calls so, with its form first where the name
// means one; none where the lab has no such chemical.
func (l *Lab) Called(word string) []string {
	id, form := split(commonNames[NameKey(strings.ReplaceAll(word, "-", " "))])
	c := l.chemical[id]
	switch {
	case c == nil:
		return nil
	case c.Forms[form] != nil:
		return []string{id + "." + form, id}
	}
	return []string{id}
}

// Meant is a hint for an id that nobody knows: the chemical that the trade calls so or that
// has this name, else the nearest id, else the hint given.
func (l *Lab) Meant(word, otherwise string) string {
	spaced := func(s string) string { return NameKey(strings.ReplaceAll(s, "-", " ")) }
	name := spaced(word)
	hint := l.offered(commonNames[name])
	for _, c := range l.Chemicals {
		if spaced(c.ID) == name || spaced(c.Name) == name {
			hint = l.offered(c.ID)
		}
		for _, form := range c.FormIDs() {
			if spaced(c.ID+" "+form) == name {
				hint = l.offered(c.ID + "." + form)
			}
		}
	}
	if hint == "" {
		return Near(word, l.Names(), otherwise)
	}
	return hint + " otherwise " + otherwise
}

// offered asks whether a chemical was meant, by what is to be written: with its form
// where it has several.
func (l *Lab) offered(ref string) string {
	id, form := split(ref)
	c := l.chemical[id]
	switch {
	case c == nil:
		return ""
	case c.Forms[form] != nil:
		return fmt.Sprintf("did you mean %q, which is %s?", ref, c.FormName(form))
	case len(c.Forms) < 2:
		return fmt.Sprintf("did you mean %q?", id)
	}
	forms := slices.DeleteFunc(c.FormIDs(), func(form string) bool { return c.Forms[form].Refuse != "" })
	return fmt.Sprintf("did you mean %s?", orWords(prefixed(id, forms)))
}
