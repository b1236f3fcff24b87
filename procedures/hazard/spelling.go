package hazard

import (
	"regexp"
	"slices"
	"strings"

	"wetside/procedures/lab"
)

// near returns the class word that is meant by a slip of the keyboard or by
// a spelling common on safety data sheets, or nothing. What is written of the
// category, in brackets and as a code always stands: a hint never leads to a
// milder category, to another route or to another class.
func (s *spelling) near(word string) string {
	meant, ok := takeApart(word)
	if !ok {
		return ""
	}
	name := s.nearestName(meant)
	var found []string
	for i, c := range s.classes {
		w := s.taken[i]
		switch {
		case name == "" || !slices.Contains(w.names, name) || w.category != meant.category:
		case w.bracket != meant.bracket && (meant.bracket != "" || len(meant.codes) == 0):
		case len(meant.codes) > 0 && !slices.Contains(meant.codes, c.Code):
		default:
			found = append(found, c.Word)
		}
	}
	if len(found) != 1 {
		return ""
	}
	return found[0]
}

// spelled is a class word taken apart: the words of its class in small letters,
// its category, what stands in brackets, statement codes, and the spellings of the class:
// its abbreviation and its names in full.
type spelled struct {
	class             []string
	category, bracket string
	codes             []string
	names             []string
}

// spelling finds what a misspelt class word means among those of a vocabulary.
type spelling struct {
	classes []lab.Class
	taken   []spelled
	// names are all spellings of all classes, in their order.
	names []string
}

func spellingOf(v *lab.Vocabulary) *spelling {
	s := &spelling{classes: v.Classes()}
	for _, c := range s.classes {
		w, _ := takeApart(c.Word)
		short := strings.Join(w.class, " ")
		w.names = append([]string{short}, v.InFull(short)...)
		s.taken = append(s.taken, w)
		for _, name := range w.names {
			if !slices.Contains(s.names, name) {
				s.names = append(s.names, name)
			}
		}
	}
	return s
}

// nearestName is the spelling that is nearest to what is written; nothing where none is
// near or two are equally so.
func (s *spelling) nearestName(meant spelled) string {
	best, at := "", meant.slipsAllowed()+1
	for _, name := range s.names {
		switch n := between(meant.class, strings.Fields(name)); {
		case n < at:
			best, at = name, n
		case n == at:
			best = ""
		}
	}
	return best
}

var (
	inBrackets = regexp.MustCompile(`\([^()]*\)`)
	pieces     = regexp.MustCompile(`(?i)\b(?:EUH|H)[0-9]{3}[a-z]*\b|[0-9]\.[0-9]|[0-9]+|\pL+`)
	aCode      = regexp.MustCompile(`(?i)^(EUH|H)([0-9]{3}[a-z]*)$`)
)

// notSaid are words of a safety data sheet that stand before a category.
var notSaid = []string{"category", "cat", "subcategory", "sub", "division", "type"}

// effects of reproductive toxicity: capital and small letters differ.
var effects = []string{"F", "D", "FD", "Fd", "Df", "f", "d", "fd"}

// brackets lists what else stands in brackets, with other spellings of it.
var brackets = map[string][]string{
	"oral":         nil,
	"dermal":       nil,
	"inhalation":   {"inhal", "inh"},
	"respiratory":  {"respiratoryirritation", "respiratorytractirritation"},
	"narcotic":     {"narcoticeffects"},
	"compressed":   {"comp", "compressedgas"},
	"liquefied":    {"liq", "liquefiedgas"},
	"refrigerated": {"refliq", "refrigeratedliquefiedgas"},
	"dissolved":    {"diss", "dissolvedgas"},
}

// takeApart reads a class word. It fails where two categories or two brackets
// are written, or an empty one.
func takeApart(word string) (spelled, bool) {
	var s spelled
	well := true
	bracket := func(text string) {
		well = well && s.bracket == "" && text != ""
		s.bracket = text
	}
	outside := inBrackets.ReplaceAllStringFunc(word, func(b string) string {
		b = b[1 : len(b)-1]
		if strings.ContainsAny(b, "0123456789") {
			return " " + b + " " // a category or a code
		}
		bracket(bracketMeant(b))
		return " "
	})
	for _, p := range pieces.FindAllString(outside, -1) {
		small := strings.ToLower(p)
		_, route := brackets[small]
		letter := strings.ToUpper(p)
		switch m := aCode.FindStringSubmatch(p); {
		case m != nil:
			s.codes = append(s.codes, strings.ToUpper(m[1])+m[2])
		case p[0] >= '0' && p[0] <= '9':
			well = well && s.category == ""
			s.category = p
		case len(s.category) == 1 && s.category < "A" && len(p) == 1 && letter >= "A" && letter <= "C":
			s.category += letter
		case s.category == "" && len(s.class) > 1 && len(p) == 1 && letter >= "A" && letter <= "G":
			s.category = letter
		case slices.Contains(notSaid, small):
		case route && (s.category != "" || len(s.class) > 1 && small != "respiratory"):
			bracket(small)
		case s.category != "" && slices.Contains(effects, p):
			bracket(p)
		default:
			s.class = append(s.class, small)
		}
	}
	return s, well
}

// bracketMeant is the known word for what stands in brackets, allowing for a slip;
// else what stands there.
func bracketMeant(text string) string {
	text = strings.TrimSpace(text)
	small := strings.Join(pieces.FindAllString(strings.ToLower(text), -1), "")
	best, at := text, 2
	for known, others := range brackets {
		if small == known || slices.Contains(others, small) {
			return known
		}
		if n := slips(small, known); n < at {
			best, at = known, n
		}
	}
	return best
}

// slipsAllowed is how many slips a word of this length may hold; none where
// nothing but a short class is written.
func (s spelled) slipsAllowed() int {
	switch n := len(strings.Join(s.class, "")); {
	case n < 5 && s.category == "":
		return 0
	case n < 6:
		return 1
	case n < 14:
		return 2
	default:
		return 3
	}
}

const tooMany = 99

// between counts the slips between two spellings, word by word; words of two
// letters must be right.
func between(written, name []string) int {
	if strings.Join(written, "") == strings.Join(name, "") {
		return 0
	}
	if len(written) != len(name) {
		return tooMany
	}
	n := 0
	for i, w := range written {
		if len(name[i]) <= 2 && w != name[i] {
			return tooMany
		}
		n += slips(w, name[i])
	}
	return n
}

// slips counts letters left out, put in, replaced or swapped with their
// neighbour between two words.
func slips(a, b string) int {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		d[i][0] = i
	}
	for j := range d[0] {
		d[0][j] = j
	}
	for i := 1; i <= len(a); i++ {
		for j := 1; j <= len(b); j++ {
			replaced := d[i-1][j-1]
			if a[i-1] != b[j-1] {
				replaced++
			}
			d[i][j] = min(replaced, d[i-1][j]+1, d[i][j-1]+1)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}
