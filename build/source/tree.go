package source

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"

	"wetside/procedures/near"
)

// Tree is one parsed file: what stands in it and where. Decode may not be
// called from two goroutines at once; everything else may.
type Tree struct {
	name  string
	text  string // without the byte order mark
	mark  int    // bytes of the byte order mark
	lines []int  // offset in text of each line
	root  *node
	// firstHeader is the first table header, such as "[control]".
	firstHeader string

	meta    toml.MetaData
	whole   toml.Primitive
	values  map[string]any // what the decoder made of the file
	decodes bool           // no fault stands in the way of decoding
}

type kind uint8

const (
	isTable kind = iota
	isList
	isText
	isInteger
	isFloat
	isBool
	isTime
)

// making says how a table came to be, which decides who may add to it.
type making uint8

const (
	closed  making = iota // an inline table or a plain list: nobody may
	implied               // named on the way to another table
	headed                // [table]
	dotted                // a.b = 1
	rows                  // [[table]]
)

// stretch is a span before it is worked out into lines and columns.
type stretch struct{ from, to int }

type node struct {
	kind     kind
	made     making
	section  int // of a dotted table: the header it stands under
	text     string
	key, val stretch
	names    []string // of a table, in order
	fields   map[string]*node
	items    []*node
	again    []*node // the same key given once more
}

func newTable(key stretch, made making) *node {
	return &node{kind: isTable, made: made, key: key, val: key, fields: map[string]*node{}}
}

func (n *node) add(name string, child *node) {
	n.names = append(n.names, name)
	n.fields[name] = child
}

// pos works out the line and column of an offset in the text.
func (t *Tree) pos(off int) Pos {
	line := sort.SearchInts(t.lines, off+1) - 1
	return Pos{line + 1, utf8.RuneCountInString(t.text[t.lines[line]:off]) + 1, off + t.mark}
}

func (t *Tree) span(s stretch) Span { return Span{t.name, t.pos(s.from), t.pos(s.to)} }

func (t *Tree) line(off int) string {
	line := sort.SearchInts(t.lines, off+1) - 1
	text, _, _ := strings.Cut(t.text[t.lines[line]:], "\n")
	return strings.TrimRight(text, "\r")
}

// fault makes a fault at a stretch of the text.
func (t *Tree) fault(s stretch, code, what, hint string) Fault {
	return Fault{Span: t.span(s), Code: code, What: what, Hint: hint, Line: t.line(s.from)}
}

// where words an offset for use inside a sentence.
func (t *Tree) where(off int) string {
	p := t.pos(off)
	return fmt.Sprintf("line %d, column %d", p.Line, p.Column)
}

// Find returns the span of the value at a path such as `step[2].amount` or
// `form."x y".cas`; "" is the whole file. If nothing stands there, it is the
// key of the nearest table or list around it that does.
func (t *Tree) Find(path string) Span {
	n, rest := t.root.find(path)
	switch {
	case n == t.root:
		return t.span(stretch{})
	case rest != "":
		return t.span(n.key)
	}
	return t.span(n.val)
}

// Has reports whether the file gives something at the path.
func (t *Tree) Has(path string) bool {
	_, rest := t.root.find(path)
	return rest == ""
}

// Near proposes a path that the file does give something at, for one that it does
// not: it is empty where nothing comes near.
func (t *Tree) Near(path string) string {
	n, rest := t.root.find(path)
	name, _, ok := cutName(strings.TrimPrefix(rest, "."))
	if !ok {
		return ""
	}
	meant := near.Word(name, n.names)
	if meant == "" {
		return ""
	}
	return path[:len(path)-len(rest)] + strings.Replace(rest, name, meant, 1)
}

// FaultAt makes an error at the value of a path, found as Find does.
func (t *Tree) FaultAt(path, code, what, hint string) Fault {
	n, rest := t.root.find(path)
	if rest != "" {
		return t.fault(t.keyOf(n), code, what, hint)
	}
	return t.fault(n.val, code, what, hint)
}

// FaultAtKey makes an error at the key of a path rather than at its value.
func (t *Tree) FaultAtKey(path, code, what, hint string) Fault {
	n, _ := t.root.find(path)
	return t.fault(t.keyOf(n), code, what, hint)
}

func (t *Tree) keyOf(n *node) stretch {
	if n == t.root {
		return stretch{}
	}
	return n.key
}

// find follows a path as far as it leads and returns what could not be
// followed.
func (n *node) find(path string) (*node, string) {
	for path != "" {
		if strings.HasPrefix(path, "[") {
			digits, rest, ok := strings.Cut(path[1:], "]")
			i, err := strconv.Atoi(digits)
			if !ok || err != nil || i < 0 || i >= len(n.items) {
				return n, path
			}
			n, path = n.items[i], rest
			continue
		}
		name, rest, ok := cutName(strings.TrimPrefix(path, "."))
		child := n.fields[name]
		if !ok || child == nil {
			return n, path
		}
		n, path = child, rest
	}
	return n, ""
}

// cutName takes the first name off a path.
func cutName(path string) (name, rest string, ok bool) {
	if strings.HasPrefix(path, `"`) {
		quoted, err := strconv.QuotedPrefix(path)
		if err != nil {
			return "", path, false
		}
		name, err = strconv.Unquote(quoted)
		return name, path[len(quoted):], err == nil
	}
	end := strings.IndexAny(path, ".[")
	if end < 0 {
		end = len(path)
	}
	return path[:end], path[end:], end > 0
}

// newTree prepares a tree without content, so that places can be worked out.
func newTree(name, src string) *Tree {
	t := &Tree{name: name, root: newTable(stretch{}, headed), lines: []int{0}}
	t.text = strings.TrimPrefix(src, "\ufeff")
	t.mark = len(src) - len(t.text)
	for i := range len(t.text) {
		if t.text[i] == '\n' {
			t.lines = append(t.lines, i+1)
		}
	}
	return t
}
