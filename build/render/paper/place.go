package paper

import (
	"cmp"
	"fmt"
	"math"
	"path"
	"slices"
	"strings"

	"wetside/build/render/parallel"
	"wetside/build/theme"
	"wetside/procedures/page"
)

// Fitted says how a print came to its paper, where it did not simply fit.
type Fitted struct {
	Page, Variant string
	// Paper is the paper that was asked for, To the larger one it went to instead,
	// or empty.
	Paper, To string
	// Over is by how many mm the card is too high for one sheet, at the smallest
	// type of the face.
	Over float64
	// Sheets is how many cards it became.
	Sheets int
	// Refused is how many cards it would have been on its paper, which is too small for that;
	// To is the paper it is on instead, though the lab names none that is larger.
	Refused int
	// Broken: one piece alone is higher than a sheet; the printer breaks it.
	Broken bool
}

// Print is one print on one paper, as it will be made.
type Print struct {
	Page   page.Page
	Face   theme.Face
	Choice int
	Path   string
	Scale  int         // which step of type of the face
	Close  bool        // its head is small, so that one sheet holds it
	Tight  bool        // what parts its rows is halved too
	Sheets []page.Page // more than one: cut
	Steps  []int       // steps that stand before each sheet
}

// Word is what a print is on, in a word.
func Word(f theme.Face) string { return strings.TrimPrefix(f.Folder, "wall/") }

// holds tells whether a paper is larger than another, turned as it may be.
func holds(large, small theme.Face) bool {
	a, b := slices.Sorted(slices.Values(large.Size)), slices.Sorted(slices.Values(small.Size))
	return a[0] >= b[0] && a[1] >= b[1] && (a[0] > b[0] || a[1] > b[1])
}

// place decides on what paper, in what type and on how many cards a print is
// made: the largest type that keeps it on one sheet; else the next larger of the
// papers it is printed on; else it is cut between steps. It returns nothing where
// a larger paper has it anyway.
func (s *Papers) place(p page.Page, pr page.Print, name string) (out *Print, note *Fitted) {
	face, _ := s.Face(name)
	out = &Print{
		Page: p, Face: face, Choice: pr.Choice, Path: path.Join(face.Folder, pr.Variant) + ".html",
		Sheets: []page.Page{p}, Steps: []int{0},
	}
	if face.Medium != theme.Paper || len(face.Scale) == 0 {
		return out, nil
	}
	v := flow{s.binder.View(p, face, pr.Choice)}
	step, over := v.fits()
	if over <= 0 {
		out.Scale = step
		return out, nil
	}
	v.Close = true // the head gives way before the work is cut
	if step, still := v.fits(); still <= 0 {
		out.Scale, out.Close = step, true
		return out, nil
	}
	v.Tight = true // and then the room between its rows
	if step, still := v.fits(); still <= 0 {
		out.Scale, out.Close, out.Tight = step, true, true
		return out, nil
	}
	v.Close, v.Tight = false, false
	note = &Fitted{Page: p.ID, Variant: pr.Variant, Paper: Word(face), Over: over, Sheets: 1}
	var larger []theme.Face
	for _, other := range pr.Faces {
		if f, _ := s.Face(other); f.Medium == theme.Paper && holds(f, face) {
			larger = append(larger, f)
		}
	}
	slices.SortStableFunc(larger, smaller)
	for i, f := range larger {
		// The last one takes it in any case, cut if need be.
		if _, over := (flow{s.binder.View(p, f, pr.Choice)}).fits(); over <= 0 || i == len(larger)-1 {
			note.To = Word(f)
			return nil, note
		}
	}
	fewest, clean := math.MaxInt, false
	for i, scale := range face.Scales(p.ID) {
		sheets, steps, whole, broken := v.cut(scale)
		// First aid: rather smaller type than help on another card.
		more := len(out.Sheets) > 0 && stepsOn(sheets[0]) > stepsOn(out.Sheets[0])
		if len(sheets) < fewest || len(sheets) == fewest && (whole && !clean || v.cases() && more) {
			fewest, clean = len(sheets), whole
			out.Scale, out.Sheets, out.Steps, note.Broken = i, sheets, steps, broken
		}
	}
	note.Sheets = fewest
	if fewest <= mostOn(face) {
		return out, note
	}
	for _, f := range s.roomier(face) {
		pr.Faces = []string{f.Name}
		on, _ := s.place(p, pr, f.Name)
		if len(on.Sheets) <= mostOn(f) {
			note.Refused, note.To, note.Sheets, note.Broken = fewest, Word(f), len(on.Sheets), false
			return on, note
		}
	}
	return out, note
}

// mostOn is over how many sheets of a face a card is cut at most: a wall has no place for more
// than two small ones, a box of cards holds a few more, and a whole sheet takes what is left.
func mostOn(f theme.Face) int {
	switch {
	case full(f):
		return math.MaxInt
	case f.Name == "index":
		return mostBoxed
	}
	return mostSmall
}

const mostSmall, mostBoxed = 2, 6

// roomier are the papers of the theme that are larger than a face, of its own series, the
// smallest first.
func (s *Papers) roomier(face theme.Face) (out []theme.Face) {
	for _, f := range s.Faces {
		if f.Medium == theme.Paper && f.Folder != "" && holds(f, face) && letters(f) == letters(face) {
			out = append(out, f)
		}
	}
	slices.SortStableFunc(out, smaller)
	return out
}

// smaller puts the paper of less area first.
func smaller(a, b theme.Face) int { return cmp.Compare(a.Size[0]*a.Size[1], b.Size[0]*b.Size[1]) }

// full tells a whole sheet of a printer's paper from the smaller ones.
func full(f theme.Face) bool { return f.Size[0] >= 200 }

// letters tells papers of the letter sizes from those of the A series.
func letters(f theme.Face) bool { return f.Name == "wall-letter" || f.Name == "wall-half" }

// stepsOn counts the steps on a sheet.
func stepsOn(p page.Page) (n int) {
	for _, b := range p.Do {
		if s, ok := b.(page.Steps); ok {
			n += s.Len()
		}
	}
	return n
}

// fits is the largest step of type at which the card takes one sheet, and where it
// takes more even at the smallest, by how many mm it is too high.
func (v flow) fits() (step int, over float64) {
	for i, scale := range v.Face.Scales(v.Page.ID) {
		step, over = i, v.height(scale)-v.room()
		if over <= 0 {
			break
		}
	}
	return step, over
}

// Place decides on every print, in the order of the binder. An error is a mistake of the
// program: a print of a page, a choice or a face that is not there.
func (s *Papers) Place() (prints []Print, fitted []Fitted, err error) {
	type task struct {
		page page.Page
		pr   page.Print
		face string
	}
	var tasks []task
	for _, pr := range s.binder.Prints {
		p, ok := s.binder.Find(pr.Page)
		if !ok {
			return nil, nil, fmt.Errorf("the print %s is of a page that is not in the binder: %s", pr.Variant, pr.Page)
		}
		if pr.Choice >= len(p.Choices) {
			return nil, nil, fmt.Errorf("the print %s is of a choice that page %s does not have", pr.Variant, pr.Page)
		}
		for _, name := range pr.Faces {
			if name == "binder" {
				continue
			}
			if face, ok := s.Face(name); !ok || face.Folder == "" {
				return nil, nil, fmt.Errorf("the print %s wants a face that the theme has not: %s", pr.Variant, name)
			}
			tasks = append(tasks, task{p, pr, name})
		}
	}
	made := make([]*Print, len(tasks))
	notes := make([]*Fitted, len(tasks))
	parallel.Each(len(tasks), func(i int) { made[i], notes[i] = s.place(tasks[i].page, tasks[i].pr, tasks[i].face) })
	seen := map[string]bool{} // a card that two papers are too small for is made once
	for i := range tasks {
		if made[i] != nil && !seen[made[i].Path] {
			seen[made[i].Path] = true
			prints = append(prints, *made[i])
		}
		if notes[i] != nil {
			fitted = append(fitted, *notes[i])
		}
	}
	return prints, fitted, nil
}
