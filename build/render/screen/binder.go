package screen

import (
	"html/template"

	"wetside/build/render/paper"
	"wetside/build/render/view"
)

// boundLeaf is a sheet of the binder as its template sees it.
type boundLeaf struct {
	Nth  int
	Body template.HTML
}

// leftOut is what the first sheet says of what is not bound in.
const leftOut = "Not bound in, because each is printed from its own page: labels, signs for shelves, trays and drums, " +
	"mixing records, what stands on the shelf today, and how each figure was worked out. " +
	"A short card may stand before its turn where a sheet has room: its number is in this list."

// LeftOutWords say what is not bound in.
func (v *shown) LeftOutWords() string { return leftOut }

// Bound writes the document of the whole binder: what its list of contents says, by sheet and
// column, then its sheets.
func (s *Pages) Bound(
	v *view.View, path string, contents [][][]paper.Entry, leaves []template.HTML,
) (template.HTML, error) {
	all := s.on(v, path)
	all.Contents = contents
	for i, body := range leaves {
		all.Leaves = append(all.Leaves, boundLeaf{i, body})
	}
	return all.execute("faces/binder.html", all)
}
