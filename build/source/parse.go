package source

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

const (
	maxRounds = 20  // readings of a file after faults in its syntax
	maxFaults = 200 // of one kind in one file; nobody reads further
)

// Parse reads one file and reports every fault in its syntax that can be told
// apart from the ones before it. The tree is never nil: after faults it holds
// what could be read, and Decode checks that much without decoding.
func Parse(name string, src []byte) (*Tree, Faults) {
	if len(src) > maxSize {
		t := newTree(name, "")
		return t, Faults{t.fault(stretch{}, CodeSize, fmt.Sprintf("the file has %d bytes; at most %d are read",
			len(src), maxSize),
			"a definition is a few kilobytes: is this the right file?")}
	}
	t := newTree(name, string(src))
	if off := firstInvalid(t.text); off >= 0 {
		return t, Faults{t.fault(stretch{off, off + 1}, CodeEncoding,
			fmt.Sprintf("the byte 0x%02x is not UTF-8", t.text[off]), hintUTF8)}
	}
	if _, deep := outline([]byte(t.text)); deep >= 0 {
		return t, Faults{t.fault(stretch{deep, deep + 1}, CodeDepth,
			fmt.Sprintf("tables and lists are nested more than %d levels or %d letters of names deep", maxDepth,
				maxNames), "")}
	}
	faults := t.read()
	t.decodes = !faults.HasErrors()
	faults.Sort()
	return t, faults
}

const hintUTF8 = "save the file as UTF-8"

func firstInvalid(s string) int {
	for i := 0; i < len(s); {
		r, size := utf8.DecodeRuneInString(s[i:])
		if r == utf8.RuneError && size == 1 {
			return i
		}
		i += size
	}
	return -1
}

// read has the text judged until no new fault in the syntax turns up, each
// time with the faulty expression blanked out, then builds the tree of
// positions from what is left.
func (t *Tree) read() Faults {
	var faults, repeats Faults
	judged := []byte(t.text)  // blanked where the judge stumbled
	located := []byte(t.text) // the same, but repeated keys stay in
	for range maxRounds {
		err := t.judge(judged)
		if err == nil {
			break
		}
		at := 0
		var parse toml.ParseError
		if errors.As(err, &parse) {
			at = min(max(parse.Position.Start, 0), max(len(t.text)-1, 0))
		}
		chunks, _ := outline(judged)
		skip := skipFrom(judged, chunks, at)
		fault := t.stumble(judged, chunks, at, err)
		if fault.Code == CodeRepeated {
			repeats = append(repeats, fault)
		} else {
			faults = append(faults, fault)
			blank(located, skip)
		}
		if !blank(judged, skip) || fault.Code == CodeEncoding {
			break
		}
	}
	for range maxRounds {
		b := builder{t: t, src: located}
		off, message := b.build()
		if message == "" {
			if len(b.faults) > 0 { // they know both places, the judge's only one
				repeats = b.faults
			}
			break
		}
		if len(faults) == 0 {
			faults = append(faults, t.fault(stretch{off, off}, CodeSyntax, message, ""))
		}
		chunks, _ := outline(located)
		if !blank(located, skipFrom(located, chunks, off)) {
			break
		}
	}
	return append(faults, repeats...)
}

// judge lets the decoder read the text and keeps what it made of it.
func (t *Tree) judge(text []byte) error {
	t.values = nil
	return guarded(func() error {
		var err error
		if t.meta, err = toml.Decode(string(text), &t.whole); err != nil {
			return err
		}
		return t.meta.PrimitiveDecode(t.whole, &t.values)
	})
}

// guarded turns a panic of a parser on some input we did not foresee into an
// error.
func guarded(f func() error) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("the parser gave up: %v", r)
		}
	}()
	return f()
}

// blank overwrites a stretch with spaces, keeping line ends, and reports
// whether that changed anything.
func blank(text []byte, s stretch) bool {
	changed := false
	for i := s.from; i < s.to; i++ {
		switch {
		case text[i] == ' ', text[i] == '\t', text[i] == '\n':
		case text[i] == '\r' && i+1 < len(text) && text[i+1] == '\n':
		default:
			text[i], changed = ' ', true
		}
	}
	return changed
}

// chunkAt returns the chunk an offset belongs to: the last that begins at or
// before it.
func chunkAt(chunks []chunk, off int) (int, bool) {
	for i := len(chunks) - 1; i >= 0; i-- {
		if chunks[i].from <= off {
			return i, true
		}
	}
	return 0, false
}

// skipFrom returns what to leave out after a fault at off: the expression, and
// after a header everything under it, since nobody knows whose it is.
func skipFrom(text []byte, chunks []chunk, off int) stretch {
	i, ok := chunkAt(chunks, off)
	if !ok {
		return stretch{lineStart(text, off), lineEnd(text, off)}
	}
	c := chunks[i]
	skip := stretch{c.from, c.to}
	switch {
	case c.kind == '[':
		skip.to = len(text)
		for _, next := range chunks[i+1:] {
			if next.kind == '[' {
				skip.to = next.from
				break
			}
		}
	case c.open >= 0 || c.quote >= 0:
		skip.to = nextHeader(text, c.from, off, c.to)
	}
	return skip
}

// nextHeader returns the start of the first line at or after the one of off
// that looks like a table header, or end: where a list that begins at from and
// was never closed may be taken to stop.
func nextHeader(text []byte, from, off, end int) int {
	i := lineStart(text, off)
	if i <= from {
		i = lineEnd(text, from) + 1
	}
	for ; i < end; i = lineEnd(text, i) + 1 {
		line := strings.TrimSpace(string(text[i:lineEnd(text, i)]))
		if strings.HasPrefix(line, "[") && strings.HasSuffix(line, "]") && !strings.ContainsAny(line, ",={") {
			return i
		}
	}
	return end
}
