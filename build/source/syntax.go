package source

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// stumble words the judge's error at offset at of the text as a fault of our
// own, at the place where the mending is to be done.
func (t *Tree) stumble(text []byte, chunks []chunk, at int, err error) Fault {
	var parse toml.ParseError
	if !errors.As(err, &parse) {
		return t.fault(stretch{}, CodeSyntax, err.Error(), "")
	}
	s := stumbled{text: text, at: at, message: parse.Message}
	s.width = max(parse.Position.Len, 1)
	if i, ok := chunkAt(chunks, at); ok {
		s.chunk = chunks[i]
	} else {
		s.chunk = chunk{from: lineStart(text, at), to: lineEnd(text, at), open: -1, quote: -1}
	}
	if s.ended() {
		open := s.chunk.open
		return t.fault(stretch{open, open + 1}, CodeSyntax, "the list or table that begins here is never closed",
			"close it with ] or }")
	}
	for _, w := range wordings {
		if groups := w.when.FindStringSubmatch(s.message); groups != nil {
			s.groups = groups
			f := w.say(&s)
			if open := s.chunk.open; open >= 0 && t.pos(open).Line < t.pos(f.at.from).Line {
				f.hint = fmt.Sprintf("the list or table that begins at %s is not closed before this", t.where(open))
			}
			return t.fault(f.at, f.code, f.what, f.hint)
		}
	}
	return t.fault(s.place(), CodeSyntax, lowerFirst(s.message), "")
}

// said is a fault in our own words.
type said struct {
	at               stretch
	code, what, hint string
}

// stumbled is a place the judge could not read, and what it said.
type stumbled struct {
	text    []byte
	chunk   chunk
	at      int
	width   int
	message string
	groups  []string
}

// place is where the judge stumbled, without the blanks before it and never
// reaching into the next line.
func (s *stumbled) place() stretch {
	from, to := s.at, min(s.at+s.width, len(s.text))
	for from < to-1 && (isBlank(s.text[from]) || s.text[from] == '\n') {
		from++
	}
	for from > 0 && from < len(s.text) && !utf8.RuneStart(s.text[from]) {
		from--
	}
	return stretch{from, max(min(to, lineEnd(s.text, from)), from)}
}

// quote is the quote that is never closed, or the place itself.
func (s *stumbled) quote() stretch {
	if q := s.chunk.quote; q >= 0 {
		return stretch{q, lineEnd(s.text, q)}
	}
	return s.place()
}

// bare returns the value around the place if it is text that lacks its quotes,
// and what to write instead.
func (s *stumbled) bare() (place stretch, value, write string, ok bool) {
	at := min(max(s.place().from, s.chunk.from), len(s.text))
	open := innermost(s.text, s.chunk.from, at)
	from, to := s.chunk.from, at
	if open >= 0 {
		from = open + 1
	}
	from = max(from, lineStart(s.text, at))
	before := string(s.text[from:at])
	key := ""
	separators := "="
	if open >= 0 {
		separators = "=,"
	}
	if i := strings.LastIndexAny(before, separators); i >= 0 {
		if before[i] == '=' {
			name := before[:i]
			if open >= 0 {
				name = name[strings.LastIndexByte(name, ',')+1:]
			}
			key = strings.TrimSpace(name) + " = "
		}
		from += i + 1
	} else if open < 0 || s.text[open] != '[' {
		return stretch{}, "", "", false
	}
	ends := "#\n"
	if open >= 0 {
		ends = ",]}#\n"
	}
	for to < len(s.text) && !strings.ContainsRune(ends, rune(s.text[to])) {
		to++
	}
	for from < to && isBlank(s.text[from]) {
		from++
	}
	for to > from && isBlank(s.text[to-1]) {
		to--
	}
	value = string(s.text[from:to])
	if value == "" || at < from || at > to || strings.ContainsAny(value, "\"'[]{}=\\") {
		return stretch{}, "", "", false
	}
	return stretch{from, to}, value, key + `"` + value + `"`, true
}

// unquoted is the fault of a value without quotes; what is empty if the value
// is something else.
func (s *stumbled) unquoted() said {
	place, value, write, ok := s.bare()
	if !ok {
		return said{}
	}
	switch strings.ToLower(value) {
	case "true", "false", "yes", "no", "on", "off":
		return said{place, CodeSyntax, fmt.Sprintf("%q is not a value", value), "write true or false, in small letters"}
	}
	key := strings.TrimSuffix(write, `"`+value+`"`)
	if inside := strings.Trim(value, otherQuotes); inside != value {
		return said{place, CodeSyntax, fmt.Sprintf("%s does not stand in quotes that TOML knows", value), "write " + key + `"` + inside + `", with the straight quotes of the keyboard`}
	}
	if day := otherDate.FindStringSubmatch(value); day != nil {
		return said{place, CodeSyntax, fmt.Sprintf("%q is not a date", value), dateHint(key, day)}
	}
	if decimalComma.MatchString(value) {
		return said{place, CodeSyntax, fmt.Sprintf("%q is not a number", value), "write a decimal point, and a quantity with its unit in quotes: " + key + `"` + strings.Replace(value, ",", ".", 1) + ` mL"`}
	}
	return said{place, CodeSyntax, fmt.Sprintf("the value %q lacks its quotes", value), "write " + write}
}

const otherQuotes = "“”„‟‘’‚«»‹›`"

var (
	otherDate    = regexp.MustCompile(`^(\d{1,2})([./])(\d{1,2})[./](\d{4})$`)
	monthAlone   = regexp.MustCompile(`^\d{4}-\d{2}$`)
	decimalComma = regexp.MustCompile(`^\d+,\d+$`)
)

// dateHint says how a date is written that was given in another order. Which is the
// day and which the month is only said where it can be known.
func dateHint(key string, parts []string) string {
	first, _ := strconv.Atoi(parts[1])
	second, _ := strconv.Atoi(parts[3])
	day, month := first, second
	switch {
	case first > 12 && second > 12, parts[2] == "/" && first <= 12 && second <= 12:
		return "a date is written year-month-day, for example 2026-03-14, without quotes"
	case second > 12:
		day, month = second, first
	}
	return fmt.Sprintf("write %s%s-%02d-%02d: year-month-day, without quotes", key, parts[4], month, day)
}

// inQuotes says how to write a value that was left without quotes.
func (s *stumbled) inQuotes() string {
	if _, _, write, ok := s.bare(); ok {
		return "write " + write
	}
	return ""
}

// ended reports whether the file ended inside a list or table.
func (s *stumbled) ended() bool {
	return s.chunk.open >= 0 && s.chunk.quote < 0 && endOfFile.MatchString(s.message) &&
		strings.TrimSpace(string(s.text[s.place().to:])) == ""
}

var endOfFile = regexp.MustCompile(`EOF|end of file|key name appears blank`)

// key is where a key that cannot be read stands.
func (s *stumbled) key() stretch {
	if innermost(s.text, s.chunk.from, s.at) >= 0 {
		return s.place()
	}
	return stretch{s.chunk.from, max(min(s.chunk.to, lineEnd(s.text, s.chunk.from)), s.chunk.from)}
}

var escape = regexp.MustCompile(`^\\(?:[btnfre"\\\s]|x[0-9a-fA-F]{2}|u[0-9a-fA-F]{4}|U[0-9a-fA-F]{8})`)

// escape is the first backslash that begins nothing.
func (s *stumbled) escape() stretch {
	for i := s.at; i < s.chunk.to; {
		if s.text[i] != '\\' {
			i++
			continue
		}
		known := escape.Find(s.text[i:s.chunk.to])
		code := uint64(0)
		if len(known) > 2 {
			code, _ = strconv.ParseUint(string(known[2:]), 16, 32)
		}
		if known == nil || !utf8.ValidRune(rune(code)) {
			return stretch{i, min(i+max(len(known), 2), s.chunk.to)}
		}
		i += len(known)
	}
	return s.place()
}

// after is the fault of something that follows a value.
func (s *stumbled) after(missing string) said {
	if f := s.unquoted(); f.what != "" {
		return f
	}
	place := s.place()
	if at := place.from; at < len(s.text) {
		before := strings.TrimRight(string(s.text[lineStart(s.text, at):at]), " \t")
		if header := strings.TrimLeft(before, " \t"); strings.HasPrefix(header, "[") && strings.HasSuffix(header, "]") && !strings.Contains(header, "=") {
			return said{place, CodeSyntax, "something follows after the header of a table", "write " + header + " alone on its line, and its keys below it"}
		}
		if strings.HasSuffix(before, `"`) {
			if r, _ := utf8.DecodeRune(s.text[at:]); unicode.IsLetter(r) || unicode.IsDigit(r) {
				return said{place, CodeSyntax, "something follows after the closing quote",
					`a quote inside a text is written \", or the text stands between single quotes`}
			}
		}
	}
	return said{place, CodeSyntax, missing, ""}
}

// wordings turns what the judge says into what we say. The first that matches
// wins.
var wordings = []struct {
	when *regexp.Regexp
	say  func(s *stumbled) said
}{
	{regexp.MustCompile(`has already been defined|was already created|is not a table`), func(s *stumbled) said {
		return said{s.place(), CodeRepeated, "the same key or table is given again", hintRepeated}
	}},
	{regexp.MustCompile(`cannot contain NULL bytes`), func(s *stumbled) said {
		return said{stretch{}, CodeEncoding, "the file holds zero bytes, as UTF-16 does", hintUTF8}
	}},
	{regexp.MustCompile(`control characters`), func(s *stumbled) said {
		at := s.at
		for i := s.at; i < len(s.text); i++ {
			b := s.text[i]
			if b < ' ' && b != '\t' && b != '\n' && (b != '\r' || i+1 == len(s.text) || s.text[i+1] != '\n') || b == 0x7f {
				at = i
				break
			}
		}
		return said{stretch{at, at + 1}, CodeSyntax, fmt.Sprintf("the control character %U is not allowed in TOML", s.text[at]), "delete it"}
	}},
	{regexp.MustCompile(`strings cannot contain newlines|unexpected EOF; expected ['"]`), func(s *stumbled) said {
		place := s.quote()
		hint := `close it on the same line; a text of several lines stands between """ and """`
		if begin := string(s.text[place.from:place.to]); strings.HasPrefix(begin, `"""`) || strings.HasPrefix(begin, `'''`) {
			hint = "close it with the three quotes that open it"
		}
		return said{place, CodeSyntax, "the text that begins here has no closing quote", hint}
	}},
	{regexp.MustCompile(`expected a top-level item to end`), func(s *stumbled) said {
		return s.after("something follows after the end of the value")
	}},
	{regexp.MustCompile(`array terminator`), func(s *stumbled) said {
		return s.after("a comma or the closing ] is missing before this")
	}},
	{regexp.MustCompile(`inline table terminator`), func(s *stumbled) said {
		return s.after("a comma or the closing } is missing before this")
	}},
	{regexp.MustCompile(`expected value but found '\\[nr]'|unexpected EOF; expected value`), func(s *stumbled) said {
		return said{s.place(), CodeSyntax, "no value follows", "write one, or delete the line"}
	}},
	{regexp.MustCompile(`expected value but found`), func(s *stumbled) said {
		if f := s.unquoted(); f.what != "" {
			return f
		}
		return said{s.place(), CodeSyntax, "this is not a value", "text stands in quotes"}
	}},
	{regexp.MustCompile(`invalid datetime: "(.*)"`), func(s *stumbled) said {
		hint := "a date is written year-month-day, for example 2026-03-14"
		if monthAlone.MatchString(s.groups[1]) {
			hint += "; where a label gives a month alone, take the last day of it for what is best before it, else the first"
		}
		if !strings.Contains(s.groups[1], "-") {
			hint = s.inQuotes()
		}
		return said{s.place(), CodeSyntax, fmt.Sprintf("%q is not a date", s.groups[1]), hint}
	}},
	{regexp.MustCompile(`^(\S+) is out of range`), func(s *stumbled) said {
		return said{s.place(), CodeSyntax, "the number " + s.groups[1] + " is too large to hold", ""}
	}},
	{regexp.MustCompile(`cannot have leading zeroes`), func(s *stumbled) said {
		if _, value, _, ok := s.bare(); ok && otherDate.MatchString(value) {
			return s.unquoted()
		}
		return said{s.place(), CodeSyntax, "a number does not begin with a zero", s.inQuotes()}
	}},
	{regexp.MustCompile(`underscores must be surrounded`), func(s *stumbled) said {
		return said{s.place(), CodeSyntax, "an underscore in a number stands between two digits", ""}
	}},
	{regexp.MustCompile(`floats must start with a digit|followed by one or more digits`), func(s *stumbled) said {
		return said{s.place(), CodeSyntax, "a decimal point stands between two digits", "write 0.5, not .5; and 5.0 or 5, not 5."}
	}},
	{regexp.MustCompile(`(?i)invalid float|not a binary number|not an octal number|not a hexadecimal number|expected a digit|cannot use sign`), func(s *stumbled) said {
		if f := s.unquoted(); f.what != "" {
			return f
		}
		return said{s.place(), CodeSyntax, "this is not a number", ""}
	}},
	{regexp.MustCompile(`invalid escape|hexadecimal digits after|Escaped character`), func(s *stumbled) said {
		return said{s.escape(), CodeSyntax, `a backslash here begins nothing that TOML knows`,
			`write \\ for a backslash, or put the text between single quotes`}
	}},
	{regexp.MustCompile(`table name|table array name|table separator`), func(s *stumbled) said {
		return said{s.place(), CodeSyntax, "the name of the table is not complete", "a table is written [name] or [name.name], a row of a list [[name]]"}
	}},
	{regexp.MustCompile(`expected '\.' or '='|expected key separator|key name appears blank|keys cannot start|unexpected '[=.]'`), func(s *stumbled) said {
		return said{s.key(), CodeSyntax, "this is not a key with a value",
			`write name = value; a name of other letters than a-z, 0-9, - and _ stands in quotes`}
	}},
	{regexp.MustCompile(`unexpected comma`), func(s *stumbled) said {
		return said{s.place(), CodeSyntax, "one comma too many", "delete it"}
	}},
}

func lowerFirst(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToLower(r)) + s[size:]
}
