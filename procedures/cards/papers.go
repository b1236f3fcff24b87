package cards

// faces are the faces for the papers that the lab prints on, or for the usual
// paper of this kind of card where the lab names none.
func (c *Context) faces(usual string) []string {
	papers := c.Lab.Place.Print.Papers
	if len(papers) == 0 {
		papers = []string{usual}
	}
	var out []string
	for _, name := range papers {
		out = append(out, paperFaces[name])
	}
	return out
}

var paperFaces = map[string]string{"a4": "wall-a4", "a5": "wall-a5", "a6": "wall-a6", "letter": "wall-letter", "half-letter": "wall-half", "index": "index"}
