// Package paper decides what stands on which piece of paper: it reckons how high a card will
// be before it is printed, chooses the largest type that keeps it on one sheet, cuts what no
// sheet holds, and lays out the sheets of the bound binder. Lengths are in mm; a browser test
// holds them against what is printed.
package paper

import (
	"fmt"
	"strings"

	"wetside/build/render/draw"
	"wetside/build/render/view"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// Papers is the paper of one binder: how it is finished, and what stands on which.
type Papers struct {
	binder *view.Binder
	Faces  []theme.Face // as the lab finishes its paper
}

// Of is the paper of a binder.
func Of(b *view.Binder) *Papers { return &Papers{b, finished(b.Theme.Faces, b.Paper)} }

// Face is a face as the lab finishes its paper.
func (s *Papers) Face(name string) (theme.Face, bool) {
	for _, f := range s.Faces {
		if f.Name == name {
			return f, true
		}
	}
	return theme.Face{}, false
}

// How cards are finished, in mm.
const (
	holesSide = 20.0 // free at the left for the holes of a binder
	sealed    = 3.0  // from the trim to the outline of a laminated card
	sealedOff = 6.5  // least margin inside which a laminated card is set
)

// finished are the faces as the lab finishes its paper: flowed cards for the wall
// have a free side for holes, or room for an outline.
func finished(faces []theme.Face, p page.Paper) []theme.Face {
	out := make([]theme.Face, len(faces))
	for i, f := range faces {
		out[i] = f
		if !f.OnWall() {
			continue
		}
		m := [4]float64(f.Margin)
		if p.Laminate {
			for k := range m {
				m[k] = max(m[k], sealedOff)
			}
		}
		if p.Punch {
			m[3] = max(m[3], holesSide)
		}
		// A small card has room for the holes or for wide tables, not for both.
		if side := m[1] + m[3]; side > f.Margin[1]+f.Margin[3] && f.Room.Cell > 0 {
			out[i].Room.Cell *= (f.Size[0] - side) / f.Size[0]
		}
		out[i].Margin = m[:]
	}
	return out
}

// Rules are what the stylesheet needs besides for paper that is finished in a way of the lab.
func (s *Papers) Rules() string {
	p := s.binder.Paper
	if !p.Laminate && !p.Punch {
		return ""
	}
	var wall []theme.Face
	for _, f := range s.Faces {
		if f.OnWall() {
			wall = append(wall, f)
		}
	}
	var b strings.Builder
	b.WriteString(theme.FaceRules(wall))
	if p.Laminate {
		// What stands in the margin of a page is cut off: the sheet takes the whole
		// paper, and its padding is the margin.
		for _, f := range wall {
			m := f.Margin
			w, h := f.Size[0]-.2, f.Size[1]-.4
			fmt.Fprintf(&b, "@page %s{size:%smm %smm;margin:0}\n", f.Name, draw.MM(f.Size[0]), draw.MM(f.Size[1]))
			fmt.Fprintf(&b,
				".sheet.face-%s{box-sizing:border-box;width:%smm;min-height:%smm;padding:%smm %smm %smm %smm}\n",
				f.Name, draw.MM(w), draw.MM(h), draw.MM(m[0]), draw.MM(m[1]-.2), draw.MM(m[2]), draw.MM(m[3]))
			fmt.Fprintf(&b,
				".sheet.face-%s>.trim{position:absolute;inset:%smm %smm %smm %smm;border:.3mm solid #000;border-radius:2mm}\n",
				f.Name, draw.MM(sealed), draw.MM(sealed-.2), draw.MM(sealed-.4), draw.MM(sealed))
		}
	}
	return b.String()
}
