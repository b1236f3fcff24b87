package render

import (
	"bytes"
	"html/template"
	"regexp"
	"strconv"

	"wetside/build/theme"
	"wetside/procedures/page"
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

// cardPlace stands in the document of the whole binder where a card goes.
var cardPlace = regexp.MustCompile(`<article data-place="([0-9]+)"></article>`)

// wholeBinder renders all cards into one document. That is so long that no copy of it
// is ever held in one piece: the document is made with a place for each card, and its
// pieces and the cards follow each other.
func (s *site) wholeBinder(face theme.Face, path string) ([][]byte, error) {
	first := s.on(s.binder.View(page.Page{ID: "binder", Title: s.binder.Lab}, face, -1), path)
	first.Bound, first.Contents = true, s.contents
	var cards [][]byte
	for i, l := range s.leaves {
		bd := boundLeaf{Nth: i}
		for _, piece := range l.Pieces {
			v := *piece
			v.Symbols = first.Symbols
			card := s.on(&v, path)
			body, err := card.execute(face.Template, card)
			if err != nil {
				return nil, err
			}
			short, err := s.shrink("text/html", []byte(body))
			if err != nil {
				return nil, err
			}
			first.Symbols = v.Symbols
			bd.Body += template.HTML(`<article data-place="` + strconv.Itoa(len(cards)) + `"></article>`)
			cards = append(cards, short)
		}
		first.Leaves = append(first.Leaves, bd)
	}
	body, err := first.execute("faces/binder.html", first)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	if err := s.finish(&b, first, s.binder.Lab+" · binder", []string{s.heads}, body); err != nil {
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
