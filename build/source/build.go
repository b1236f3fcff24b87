package source

import (
	"bytes"
	"errors"
	"fmt"
	"strconv"

	"github.com/pelletier/go-toml/v2/unstable"
)

// builder makes the tree of positions. It follows TOML's own rules on who may
// add to a table, which the decoder does not enforce everywhere, so that no
// key is lost in silence.
type builder struct {
	t       *Tree
	src     []byte
	section int
	faults  Faults
}

type part struct {
	name string
	at   stretch
}

// build parses the text into the tree. If the parser refuses it, build returns
// where and why, and the tree is not to be used.
func (b *builder) build() (off int, message string) {
	b.t.root, b.t.firstHeader = newTable(stretch{}, headed), ""
	var p unstable.Parser
	err := guarded(func() error {
		p.Reset(b.src)
		current := b.t.root
		for p.NextExpression() {
			e := p.Expression()
			switch e.Kind {
			case unstable.KeyValue:
				b.put(current, e)
			case unstable.Table, unstable.ArrayTable:
				b.section++
				current = b.header(b.parts(e.Key()), e.Kind == unstable.ArrayTable)
			}
		}
		return p.Error()
	})
	if err == nil {
		return 0, ""
	}
	var refused *unstable.ParserError
	if errors.As(err, &refused) {
		_ = guarded(func() error {
			off = int(p.Range(refused.Highlight).Offset)
			return nil
		})
	}
	return off, err.Error()
}

func (b *builder) parts(it unstable.Iterator) []part {
	var parts []part
	for it.Next() {
		key := it.Node()
		parts = append(parts, part{string(key.Data), stretchOf(key.Raw)})
	}
	return parts
}

func stretchOf(r unstable.Range) stretch {
	return stretch{int(r.Offset), int(r.Offset) + int(r.Length)}
}

// header opens the table of a [header] or a row of a [[header]].
func (b *builder) header(parts []part, row bool) *node {
	last := parts[len(parts)-1]
	label := "[" + string(b.src[parts[0].at.from:last.at.to]) + "]"
	if row {
		label = "[" + label + "]"
	}
	if b.t.firstHeader == "" {
		b.t.firstHeader = label
	}
	t := b.t.root
	for _, p := range parts[:len(parts)-1] {
		t = b.descend(t, p, implied)
	}
	if row {
		return b.row(t, last, label)
	}
	table := newTable(last.at, headed)
	old := t.fields[last.name]
	switch {
	case old == nil:
		t.add(last.name, table)
	case old.kind == isTable && old.made == implied:
		old.made, old.key, old.val = headed, last.at, last.at
		return old
	case old.kind == isList && old.made == rows:
		b.repeated(label, last, old, "write every row as ["+label+"]")
		old.again = append(old.again, &node{kind: isList, made: rows, key: last.at, val: last.at,
			items: []*node{table}})
	default:
		b.repeated(label, last, old, hintTable)
		old.again = append(old.again, table)
	}
	return table
}

// row opens one more row of a list of tables.
func (b *builder) row(t *node, last part, label string) *node {
	table := newTable(last.at, headed)
	list := t.fields[last.name]
	if list != nil && (list.kind != isList || list.made != rows) {
		first := list
		list = nil
		if n := len(first.again); n > 0 && first.again[n-1].made == rows {
			list = first.again[n-1]
		} else {
			b.repeated(label, last, first, "write every row as "+label+", or all of them in one list")
			list = &node{kind: isList, made: rows, key: last.at, val: last.at}
			first.again = append(first.again, list)
		}
	}
	if list == nil {
		list = &node{kind: isList, made: rows, key: last.at, val: last.at}
		t.add(last.name, list)
	}
	list.items = append(list.items, table)
	return table
}

// descend returns the table a name leads to on the way to another key, and
// makes it if need be.
func (b *builder) descend(t *node, p part, made making) *node {
	child := t.fields[p.name]
	switch {
	case child == nil:
		child = newTable(p.at, made)
		child.section = b.section
		t.add(p.name, child)
		return child
	case made == implied && child.kind == isList && child.made == rows:
		return child.items[len(child.items)-1]
	case made == implied && child.kind == isTable && child.made != closed,
		made == dotted && child.kind == isTable && (child.made == implied || child.made == dotted &&
			child.section == b.section):
		return child
	}
	aside := newTable(p.at, made)
	if child.kind == isTable {
		b.repeated(strconv.Quote(p.name), p, child, hintTable)
		child.again = append(child.again, aside)
	} else {
		b.repeated(strconv.Quote(p.name), p, child, "it has a value there, so it cannot have keys of its own")
	}
	return aside
}

const (
	hintRepeated = "keep one of the two"
	hintTable    = "gather its keys in one place"
)

func (b *builder) repeated(label string, p part, first *node, hint string) {
	if len(b.faults) < maxFaults {
		b.faults = append(b.faults, b.t.fault(p.at, CodeRepeated,
			fmt.Sprintf("%s is given again; it was first given at %s", label, b.t.where(first.key.from)), hint))
	}
}

// put adds a key with its value to a table and returns where the value ends.
func (b *builder) put(t *node, kv *unstable.Node) int {
	parts := b.parts(kv.Key())
	for _, p := range parts[:len(parts)-1] {
		t = b.descend(t, p, dotted)
	}
	last := parts[len(parts)-1]
	from := last.at.to
	if eq := bytes.IndexByte(b.src[from:], '='); eq >= 0 {
		from = skipFiller(b.src, from+eq+1)
	}
	n := b.value(kv.Value(), last.at, from)
	if old := t.fields[last.name]; old != nil {
		b.repeated(strconv.Quote(last.name), last, old, hintRepeated)
		old.again = append(old.again, n)
	} else {
		t.add(last.name, n)
	}
	return n.val.to
}

// value builds the node of a value that begins at from. The parser gives the
// place of a scalar, but not of a list and only the brace of a table.
func (b *builder) value(v *unstable.Node, key stretch, from int) *node {
	n := &node{key: key}
	switch v.Kind {
	case unstable.Array:
		n.kind = isList
		end := from + 1
		it := v.Children()
		for it.Next() {
			item := b.value(it.Node(), stretch{}, skipFiller(b.src, end))
			item.key = item.val
			n.items = append(n.items, item)
			end = item.val.to
		}
		n.val = b.bracketed(from, end)
		return n
	case unstable.InlineTable:
		n.kind, n.fields = isTable, map[string]*node{}
		end := from + 1
		it := v.Children()
		for it.Next() {
			end = b.put(n, it.Node())
		}
		n.val = b.bracketed(from, end)
		return n
	case unstable.String:
		n.kind = isText
	case unstable.Integer:
		n.kind = isInteger
	case unstable.Float:
		n.kind = isFloat
	case unstable.Bool:
		n.kind = isBool
	default:
		n.kind = isTime
	}
	n.val = stretchOf(v.Raw)
	n.text = string(v.Data)
	return n
}

// bracketed returns the span of a list or table whose last content ends at
// end.
func (b *builder) bracketed(from, end int) stretch {
	return stretch{from, min(skipFiller(b.src, end)+1, len(b.src))}
}
