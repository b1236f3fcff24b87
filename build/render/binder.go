package render

import (
	"bytes"
	"html/template"
	"regexp"
	"strconv"

	"wetside/build/theme"
	"wetside/procedures/page"
)

// cardPlace stands in the document of the whole binder where a card goes.
var cardPlace = regexp.MustCompile(`<article data-place="([0-9]+)"></article>`)

// wholeBinder renders all cards into one document. That is so long that no copy of it
// is ever held in one piece: the document is made with a place for each card, and its
// pieces and the cards follow each other.
func (s *site) wholeBinder(face theme.Face, path string) ([][]byte, error) {
	first := s.binder.View(page.Page{ID: "binder", Title: s.binder.Lab}, face, -1)
	first.Bound = true
	var cards [][]byte
	var leaves []template.HTML
	for i, l := range s.bound.Leaves {
		var places template.HTML
		for _, piece := range l.Pieces {
			v := *piece
			v.Symbols = first.Symbols
			body, err := s.pages.Body(&v, path, "", nil)
			if err != nil {
				return nil, err
			}
			short, err := s.shrink("text/html", []byte(body))
			if err != nil {
				return nil, err
			}
			first.Symbols = v.Symbols
			places += template.HTML(`<article data-place="` + strconv.Itoa(len(cards)) + `"></article>`)
			cards = append(cards, short)
		}
		s.bound.Leaves[i].Pieces = nil // nothing else shows them
		leaves = append(leaves, places)
	}
	body, err := s.pages.Bound(first, path, s.bound.Contents, leaves)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := s.pages.Document(&b, first, path, s.binder.Lab+" · binder", []string{s.heads}, body); err != nil {
		return nil, err
	}
	document, err := s.shrink("text/html", b.Bytes())
	if err != nil {
		return nil, err
	}
	var pieces [][]byte
	at := 0
	for _, m := range cardPlace.FindAllSubmatchIndex(document, -1) {
		i, err := strconv.Atoi(string(document[m[2]:m[3]]))
		if err != nil || i >= len(cards) {
			continue // nothing of ours
		}
		pieces = append(pieces, document[at:m[0]], cards[i])
		at = m[1]
	}
	return append(pieces, document[at:]), nil
}
