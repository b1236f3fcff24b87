package lab

import (
	"fmt"
	"strings"

	"wetside/procedures/figure"
	"wetside/procedures/unit"
)

// stockSizes are the sizes of paper of a label sheet, in mm.
var stockSizes = map[string][2]float64{"a4": {210, 297}, "letter": {215.9, 279.4}}

// mostAddress is how long an address may be, so that the code of a card's own
// address stays coarse enough for a label.
const mostAddress = 120

// AddressProblem says what is wrong with the address a binder will stand at, or
// nothing.
func AddressProblem(s string) (what, hint string) {
	const example = "write an address such as https://darkroom.example/binder"
	rest, ok := strings.CutPrefix(s, "https://")
	if !ok {
		rest, ok = strings.CutPrefix(s, "http://")
	}
	host, _, _ := strings.Cut(rest, "/")
	switch {
	case !ok:
		return fmt.Sprintf("%q is not an http or https address", shorten(s)), example
	case strings.Trim(host, ".:-") == "" || strings.HasPrefix(host, ":"):
		return fmt.Sprintf("%q names no host", shorten(s)), example
	case strings.ContainsAny(rest, "?#"):
		return fmt.Sprintf("%q has a question mark or a hash in it", shorten(s)),
			"write the folder that the binder will stand in, nothing behind it"
	case strings.ContainsFunc(rest, func(r rune) bool { return r <= ' ' || r >= 0x7f || strings.ContainsRune("\"<>\\^`{|}@", r) }):
		return fmt.Sprintf("%q holds a character that no address may have unescaped", shorten(s)), example
	case len(s) > mostAddress:
		return fmt.Sprintf("an address of %d characters: a code of it would be too fine to read from a label", len(s)), fmt.Sprintf("give the binder an address of at most %d characters", mostAddress)
	}
	return "", ""
}

func shorten(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:60]) + "…"
	}
	return s
}

func (c *checker) printing(p Place) {
	if a := p.Print.Address; a != "" {
		if what, hint := AddressProblem(a); what != "" {
			c.add(p.At("print.address"), "address", what, hint)
		}
	}
	s := p.Print.Sheet
	if s == nil {
		return
	}
	at := func(key string) figure.Where { return p.At("print.sheet." + key) }
	paper, ok := stockSizes[s.Paper]
	if !ok {
		if s.Paper == "" {
			c.add(p.At("print.sheet"), "missing", "the label sheet does not say on which paper", `write paper = "a4" or paper = "letter"`)
		} else {
			c.oneOf(s.Paper, sortedKeys(stockSizes), at("paper"), "a paper for labels")
		}
	}
	whole := ok
	count := func(n int, key string) {
		if n < 1 || n > 100 {
			whole = false
			c.add(at(key), "range", fmt.Sprintf("a label sheet cannot have %d %s", n, key), "count the labels on the sheet, for example rows = 4 and columns = 3")
		}
	}
	count(s.Rows, "rows")
	count(s.Columns, "columns")
	size := func(q Said[unit.Length], key string) {
		switch {
		case !q.Given():
			whole = false
			c.add(p.At("print.sheet"), "missing", "the label sheet does not say the "+key+" of a label", `write `+key+` = "52 mm", measured on the sheet`)
		case !q.Positive():
			whole = false
			c.add(q.Where(), "range", fmt.Sprintf("%q: a label has a size above zero", q.Text()), "measure one label on the sheet")
		}
	}
	size(s.Width, "width")
	size(s.Height, "height")
	for _, edge := range []Said[unit.Length]{s.Left, s.Top} {
		if edge.Negative() {
			whole = false
			c.add(edge.Where(), "range", fmt.Sprintf("%q: a margin cannot be below zero", edge.Text()), "measure from the edge of the paper to the first label")
		}
	}
	if !whole {
		return
	}
	pitch := func(q, size Said[unit.Length]) {
		if q.Given() && q.Exact().Cmp(size.Exact()) < 0 {
			whole = false
			c.add(q.Where(), "range", fmt.Sprintf("%q is less than a label (%s): labels would overlap", q.Text(), size.Text()), "measure from the edge of one label to the same edge of the next")
		}
	}
	pitch(s.PitchX, s.Width)
	pitch(s.PitchY, s.Height)
	if s.Start < 0 || s.Start > s.Rows*s.Columns {
		c.add(at("start"), "range", fmt.Sprintf("there is no label %d: the sheet has %d", s.Start, s.Rows*s.Columns), "count from the top left, row by row, from one")
	}
	if !whole {
		return
	}
	fits := func(left, size, step Said[unit.Length], n int, most float64, key, across string) {
		if !step.Given() {
			step = size
		}
		if need := float64(left.Value()) + float64(step.Value())*float64(n-1) + float64(size.Value()); need > most+1e-6 {
			c.add(at(key), "range", fmt.Sprintf("%d %s take %.1f mm, and %s paper is %.1f mm %s", n, key, need, s.Paper, most, across), "correct the numbers of the label sheet, or its paper")
		}
	}
	fits(s.Left, s.Width, s.PitchX, s.Columns, paper[0], "columns", "wide")
	fits(s.Top, s.Height, s.PitchY, s.Rows, paper[1], "rows", "high")
}

// papers checks what the cards are to be printed on.
func (c *checker) papers(p Place) {
	if p.Print.Papers != nil && len(p.Print.Papers) == 0 {
		c.add(p.At("print.papers"), "missing", "no paper is named", "name one of "+list(Papers)+", or leave papers out: then processes and boards are on A4, mixing cards on A5")
	}
	first := map[string]int{}
	for i, name := range p.Print.Papers {
		at := p.At(fmt.Sprintf("print.papers[%d]", i))
		if !contains(Papers, name) {
			c.add(at, "word", fmt.Sprintf("%q is not a paper", name), Near(name, Papers, "the papers are "+list(Papers)+"; a size of its own is a face of the style"))
			continue
		}
		if n, twice := first[name]; twice {
			c.add(at, "id", fmt.Sprintf("the paper %q stands here already (number %d)", name, n+1), "name each paper once")
			continue
		}
		first[name] = i
	}
}
