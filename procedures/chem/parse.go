package chem

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Limits of what Parse takes for a formula of something in a jar.
const (
	maxCount = 10000 // atoms of one element in a unit, and any number written
	maxRunes = 200
)

// Error says what is wrong with a written formula or CAS number.
type Error struct {
	Offset int    // runes before the fault
	What   string // what is wrong
	Hint   string // how to mend it
}

func (e *Error) Error() string {
	return fmt.Sprintf("at character %d: %s; %s", e.Offset+1, e.What, e.Hint)
}

// Parse reads a formula as written on a pack: Na2S2O3·5H2O, (NH4)2S2O3,
// K4[Fe(CN)6]·3H2O, (C7H9NO)2.H2SO4. The dot may be raised, a full stop or an
// asterisk, with spaces around it; subscript digits count as digits. A number
// after a dot multiplies that part. Round and square brackets may nest.
//
// Counts are whole numbers from 1 to 10000, written and summed for each
// element; a formula has at most 200 characters. Charges, oxidation numbers,
// fractions of a water and elements without an atomic weight in the table are
// refused. An error is always an *Error.
func Parse(s string) (Formula, error) {
	p := parser{in: []rune(s), lastEnd: -1}
	if len(p.in) > maxRunes {
		return Formula{}, &Error{maxRunes, fmt.Sprintf("more than %d characters", maxRunes),
			"write the formula alone, without the name"}
	}
	f, err := p.formula()
	if err != nil {
		return Formula{}, err
	}
	return f, nil
}

type parser struct {
	in       []rune
	pos      int
	lastElem string // the element read last
	lastEnd  int    // where its symbol ended
}

// group is an open bracket, or at the bottom of the stack a whole part.
type group struct {
	open   rune
	at     int
	counts []Count
	text   strings.Builder
}

func (p *parser) formula() (Formula, *Error) {
	var f Formula
	p.spaces()
	if p.peek() == end {
		return f, p.fault(p.pos, "no formula is written", `write one, for example "Na2SO3"`)
	}
	for first := true; ; first = false {
		n, err := p.factor(first)
		if err != nil {
			return f, err
		}
		counts, text, err := p.part()
		if err != nil {
			return f, err
		}
		if w := waterUnits(counts); w > 0 && !first {
			f.waters += n * w
		} else {
			f.salt = add(f.salt, counts, n)
			if !first {
				f.text += "·"
			}
			f.text += numeral(n) + text
		}
		if err := p.few(f.Elements()); err != nil {
			return f, err
		}
		gap := p.pos
		p.spaces()
		switch {
		case p.peek() == end:
			hill(f.salt)
			return f, nil
		case !dot(p.peek()):
			p.pos = gap
			return f, p.stray()
		}
		p.pos++
		p.spaces()
	}
}

// factor reads the number in front of a part.
func (p *parser) factor(first bool) (int, *Error) {
	if !digit(p.peek()) {
		return 1, nil
	}
	if first {
		return 0, p.fault(p.pos, "a number stands before the first part", `write one unit of the salt, for example "Na2CO3·10H2O"`)
	}
	n, err := p.number()
	if err == nil && (p.peek() == end || dot(p.peek())) {
		return 0, p.fault(p.pos, "nothing follows the number", `waters are counted whole: write for example "·5H2O"`)
	}
	p.spaces()
	return n, err
}

// part reads up to a dot, a space or the end.
func (p *parser) part() ([]Count, string, *Error) {
	stack := []*group{{at: p.pos}}
	start := p.pos
	for {
		top := stack[len(stack)-1]
		r := p.peek()
		switch {
		case r >= 'A' && r <= 'Z':
			symbol, err := p.symbol()
			if err != nil {
				return nil, "", err
			}
			if err := p.close(top, []Count{{symbol, 1}}, symbol); err != nil {
				return nil, "", err
			}
		case r == '(' || r == '[':
			if err := p.oxidation(); err != nil {
				return nil, "", err
			}
			stack = append(stack, &group{open: r, at: p.pos})
			p.pos++
		case r == ')' || r == ']':
			if len(stack) == 1 {
				return nil, "", p.fault(p.pos, fmt.Sprintf("%c closes nothing", r),
					"take it out, or open the bracket before it")
			}
			want := closing(top.open)
			if r != want {
				return nil, "", p.fault(p.pos, fmt.Sprintf("%c closes a %c", r, top.open),
					fmt.Sprintf("write %c", want))
			}
			if len(top.counts) == 0 {
				return nil, "", p.fault(top.at, "nothing stands in the brackets", "take them out")
			}
			p.pos++
			stack = stack[:len(stack)-1]
			inside := top.text.String()
			ones := strings.Trim(inside, "I") == ""
			if ones && (len(inside) > 1 || !digit(p.peek())) {
				return nil, "", p.roman(top.at)
			}
			outer := stack[len(stack)-1]
			if err := p.close(outer, top.counts, string(top.open)+inside+string(want)); err != nil {
				return nil, "", err
			}
			if ones && strings.HasSuffix(outer.text.String(), string(want)) {
				return nil, "", p.roman(top.at)
			}
		case len(stack) > 1 && (r == end || dot(r)):
			return nil, "", p.fault(top.at, fmt.Sprintf("%c is never closed", top.open),
				fmt.Sprintf("write %c where its group ends", closing(top.open)))
		case p.pos > start && (r == end || dot(r) || unicode.IsSpace(r)) && len(stack) == 1:
			return top.counts, top.text.String(), nil
		default:
			return nil, "", p.stray()
		}
	}
}

// close reads the count after an element or a bracket and adds both to g.
func (p *parser) close(g *group, counts []Count, text string) *Error {
	n := 1
	if digit(p.peek()) {
		var err *Error
		if n, err = p.number(); err != nil {
			return err
		}
	}
	g.counts = add(g.counts, counts, n)
	g.text.WriteString(text)
	if n > 1 {
		g.text.WriteString(strconv.Itoa(n))
	}
	return p.few(g.counts)
}

func (p *parser) few(counts []Count) *Error {
	for _, c := range counts {
		if c.N > maxCount {
			return p.fault(p.pos-1, fmt.Sprintf("%s adds up to more than %d", c.Symbol, maxCount),
				"check the counts against the pack")
		}
	}
	return nil
}

// number reads digits.
func (p *parser) number() (int, *Error) {
	start, n := p.pos, 0
	for ; digit(p.peek()); p.pos++ {
		if n = 10*n + value(p.peek()); n > maxCount {
			return 0, p.fault(start, fmt.Sprintf("a count above %d", maxCount), "check it against the pack")
		}
	}
	switch {
	case value(p.in[start]) != 0:
		return n, nil
	case n == 0:
		return 0, p.fault(start, "a count of zero", "leave out what is not there")
	}
	return 0, p.fault(start, "a count with a zero in front", fmt.Sprintf("write %d", n))
}

// symbol reads an element: a capital and the small letters after it.
func (p *parser) symbol() (string, *Error) {
	start := p.pos
	p.pos++
	for small(p.peek()) {
		p.pos++
	}
	s := string(p.in[start:p.pos])
	if !known(s) {
		return "", p.unknown(s, start)
	}
	p.lastElem, p.lastEnd = s, p.pos
	return s, nil
}

// unknown explains a symbol that is not in the table: a capital too many (NA),
// one too few (Nao), an element left out, or none at all.
func (p *parser) unknown(s string, start int) *Error {
	const meant = "did you mean %s?"
	if len(s) == 1 {
		if p.lastEnd == start && known(p.lastElem+strings.ToLower(s)) {
			s = p.lastElem + s
			return p.fault(start-len(p.lastElem), fmt.Sprintf("%q is not an element", s),
				fmt.Sprintf(meant, p.lastElem+strings.ToLower(s[1:])))
		}
		if r := p.peek(); r >= 'A' && r <= 'Z' && known(s+string(unicode.ToLower(r))) {
			return p.fault(start, fmt.Sprintf("%q is not an element", s+string(r)),
				fmt.Sprintf(meant, s+string(unicode.ToLower(r))))
		}
	}
	split := ""
	for cut := min(2, len(s)-1); cut > 0 && split == ""; cut-- {
		rest := strings.ToUpper(s[cut:cut+1]) + s[cut+1:]
		if known(s[:cut]) && known(rest) {
			split = s[:cut] + rest
		}
	}
	switch {
	case strings.Contains(others, " "+s+" "):
		hint := fmt.Sprintf("a molar mass can be worked out only from the %d elements in the table", len(weights))
		if split != "" {
			hint = fmt.Sprintf(meant, split)
		}
		return p.fault(start, fmt.Sprintf("the atomic weight of %s is not in the table", s), hint)
	case split != "":
		return p.fault(start, fmt.Sprintf("%q is not an element", s), fmt.Sprintf(meant, split))
	case len(s) > 3:
		return p.fault(start, fmt.Sprintf("%q is not an element", s), "write symbols, not names")
	}
	return p.fault(start, fmt.Sprintf("%q is not an element", s), "check the letters and capitals against the pack")
}

// oxidation refuses a bracket that holds a Roman number above three, as in
// Sn(IV)Cl4. Those up to three, all ones, are refused where the bracket closes:
// read as iodine they would add to the mass.
func (p *parser) oxidation() *Error {
	i := p.pos + 1
	for i < len(p.in) && strings.ContainsRune("IVX", p.in[i]) {
		i++
	}
	if i == len(p.in) || p.in[i] != closing(p.in[p.pos]) || !strings.ContainsAny(string(p.in[p.pos:i]), "VX") {
		return nil
	}
	at := p.pos
	p.pos = i + 1
	return p.roman(at)
}

// roman is the fault of an oxidation number from at to here.
func (p *parser) roman(at int) *Error {
	return p.fault(at, fmt.Sprintf("%s is an oxidation number", string(p.in[at:p.pos])),
		"leave it out: a formula needs only the atoms")
}

// stray explains a character that can not stand where it does.
func (p *parser) stray() *Error {
	r := p.peek()
	switch {
	case r == end || dot(r):
		return p.fault(p.pos, "nothing stands where a part should", `write what belongs there, for example "·5H2O", or take the dot out`)
	case unicode.IsSpace(r):
		return p.fault(p.pos, "a space inside the formula", `close the gap, or write a dot: "Na2CO3·10H2O"`)
	case (r == 'x' || r == 'n') && p.pos > 0:
		return p.fault(p.pos, fmt.Sprintf("%c is not a number of waters", r),
			"write the number that the pack says; without one the composition is not known")
	case small(r):
		hint := "the pack shows which"
		up := string(unicode.ToUpper(r))
		if p.pos+1 < len(p.in) && small(p.in[p.pos+1]) && known(up+string(p.in[p.pos+1])) {
			hint = fmt.Sprintf("did you mean %s?", up+string(p.in[p.pos+1]))
		} else if known(up) {
			hint = fmt.Sprintf("did you mean %s?", up)
		}
		return p.fault(p.pos, "an element begins with a capital letter", hint)
	case digit(r):
		return p.fault(p.pos, "a number with nothing before it", "a count follows its element or bracket")
	case strings.ContainsRune("+-−^⁺⁻", r):
		return p.fault(p.pos, "a charge", "write the whole salt, which has none")
	}
	return p.fault(p.pos, fmt.Sprintf("%q does not belong in a formula", r),
		"write elements, counts, brackets and a dot before the water")
}

func (p *parser) fault(offset int, what, hint string) *Error {
	return &Error{Offset: offset, What: what, Hint: hint}
}

// end stands for the character after the last.
const end rune = -1

func (p *parser) peek() rune {
	if p.pos < len(p.in) {
		return p.in[p.pos]
	}
	return end
}

func (p *parser) spaces() {
	for unicode.IsSpace(p.peek()) {
		p.pos++
	}
}

func small(r rune) bool { return r >= 'a' && r <= 'z' }

func dot(r rune) bool { return slices.Contains([]rune("·.*•∙⋅"), r) }

func digit(r rune) bool { return r >= '0' && r <= '9' || r >= '₀' && r <= '₉' }

func value(r rune) int {
	if r >= '₀' {
		return int(r - '₀')
	}
	return int(r - '0')
}

func closing(open rune) rune {
	if open == '(' {
		return ')'
	}
	return ']'
}

// numeral writes a factor, which is left out where it is one.
func numeral(n int) string {
	if n == 1 {
		return ""
	}
	return strconv.Itoa(n)
}
