package cards

import (
	"slices"
)

// faces are the faces for the papers that the lab prints on, or for the usual
// paper of this kind of card where the lab names none.
func (c *Context) faces(usual string) []string {
	papers := c.W.Place.Print.Papers
	if len(papers) == 0 {
		papers = []string{usual}
	}
	var out []string
	for _, name := range papers {
		out = append(out, paperFaces[name])
	}
	return out
}

// wideFaces are those for what holds much, a board of tables or all cases of a
// spill: an index card is too small for it, and the usual paper takes its place.
func (c *Context) wideFaces(usual string) []string { return c.facesBut(usual, "index") }

// helpFaces are those for first aid and spills: nobody looks for help on a second small card,
// so that the usual paper takes the place of the smallest two.
func (c *Context) helpFaces(usual string) []string { return c.facesBut(usual, "index", "a6") }

// facesBut are the faces without those of some papers, for which the usual paper stands.
func (c *Context) facesBut(usual string, small ...string) []string {
	var out []string
	for _, face := range c.faces(usual) {
		if slices.ContainsFunc(small, func(paper string) bool { return paperFaces[paper] == face }) {
			face = paperFaces[usual]
		}
		if !slices.Contains(out, face) {
			out = append(out, face)
		}
	}
	return out
}

var paperFaces = map[string]string{"a4": "wall-a4", "a5": "wall-a5", "a6": "wall-a6", "letter": "wall-letter",
	"half-letter": "wall-half", "index": "index"}
