package source

import "bytes"

const (
	maxSize  = 1 << 20 // bytes; a definition is a few kilobytes
	maxDepth = 64      // tables, lists and dotted names inside each other
	maxNames = 1024    // bytes of all names from the top down to one key
)

// chunk is one expression at the top of a file: a header, a key with its
// value, or a comment.
type chunk struct {
	from, to int
	kind     byte // '[' header, '=' key and value, '#' comment
	open     int  // the bracket that is never closed, or -1
	quote    int  // the quote that is never closed, or -1
}

// outline cuts a file into chunks without judging it, and returns the first
// place nested too deeply for the parsers, or -1. It must cope with anything:
// it runs before the parsers do, and again on files they refuse.
func outline(src []byte) (chunks []chunk, deep int) {
	deep = -1
	tableDepth, tableBytes := 0, 0
	for i := 0; i < len(src); {
		if isBlank(src[i]) || src[i] == '\n' {
			i++
			continue
		}
		c, l := nextChunk(src, i, tableDepth, tableBytes)
		if l.deep >= 0 && deep < 0 {
			deep = l.deep
		}
		if c.kind == '[' {
			tableDepth, tableBytes = l.dots+1, c.to-c.from
		}
		chunks = append(chunks, c)
		i = c.to
	}
	return chunks, deep
}

// level follows how deep a chunk goes while it is read.
type level struct {
	stack    []frame
	depth    int // of the open frames and the table around them
	bytes    int // of the names of the open frames and the table
	dots     int // in the name being read
	nameFrom int // where the name being read begins
	key      int // parts of the key whose value is being read
	keyBytes int
	deep     int
}

type frame struct{ at, depth, bytes int }

func nextChunk(src []byte, from, tableDepth, tableBytes int) (chunk, level) {
	c := chunk{from: from, kind: '=', open: -1, quote: -1}
	l := level{depth: tableDepth, bytes: tableBytes, nameFrom: from, deep: -1}
	switch src[from] {
	case '#':
		c.kind, c.to = '#', lineEnd(src, from)
		return c, l
	case '[':
		c.kind = '['
		l.depth, l.bytes = 0, 0
	}
	i := from
scan:
	for i < len(src) {
		switch b := src[i]; b {
		case '"', '\'':
			end, closed := skipString(src, i)
			if !closed && c.quote < 0 {
				c.quote = i
			}
			i = end
			continue
		case '#':
			i = lineEnd(src, i)
			continue
		case '\n':
			if len(l.stack) == 0 || c.kind == '[' {
				break scan
			}
			l.dots, l.nameFrom = 0, i+1
		case '.':
			l.dots++
		case '=':
			if c.kind == '=' {
				l.key, l.keyBytes = l.dots+1, i-l.nameFrom
				l.check(i)
			}
			l.dots, l.nameFrom = 0, i+1
		case ',':
			l.dots, l.nameFrom = 0, i+1
			l.key, l.keyBytes = 0, 0
		case '[', '{':
			if c.kind == '[' {
				l.stack = append(l.stack, frame{at: i})
				break
			}
			l.stack = append(l.stack, frame{i, max(l.key, 1), l.keyBytes})
			l.depth += max(l.key, 1)
			l.bytes += l.keyBytes
			l.key, l.keyBytes = 0, 0
			l.dots, l.nameFrom = 0, i+1
			l.check(i)
		case ']', '}':
			if n := len(l.stack); n > 0 {
				l.depth -= l.stack[n-1].depth
				l.bytes -= l.stack[n-1].bytes
				l.stack = l.stack[:n-1]
			}
			l.key, l.keyBytes = 0, 0
		}
		i++
	}
	c.to = i
	for c.to > from+1 && isBlank(src[c.to-1]) {
		c.to--
	}
	if len(l.stack) > 0 {
		c.open = l.stack[0].at
	}
	if c.kind == '[' && (l.dots >= maxDepth || c.to-from > maxNames) {
		l.deep = from
	}
	return c, l
}

func (l *level) check(at int) {
	if l.deep < 0 && (l.depth+l.key > maxDepth || l.bytes+l.keyBytes > maxNames) {
		l.deep = at
	}
}

// skipString returns the offset after the string that begins at i, and whether
// it is closed. A string of one line ends with the line at the latest.
func skipString(src []byte, i int) (end int, closed bool) {
	quote := src[i]
	if triple := bytes.Repeat([]byte{quote}, 3); bytes.HasPrefix(src[i:], triple) {
		for i += 3; i < len(src); i++ {
			switch {
			case quote == '"' && src[i] == '\\':
				i++
			case bytes.HasPrefix(src[i:], triple):
				end = i + 3
				for extra := 0; extra < 2 && end < len(src) && src[end] == quote; extra++ {
					end++
				}
				return end, true
			}
		}
		return len(src), false
	}
	for i++; i < len(src) && src[i] != '\n'; i++ {
		switch {
		case quote == '"' && src[i] == '\\' && i+1 < len(src) && src[i+1] != '\n':
			i++
		case src[i] == quote:
			return i + 1, true
		}
	}
	return i, false
}

// innermost returns the bracket that is open at offset at, or -1, for a chunk
// that begins at from.
func innermost(src []byte, from, at int) int {
	var stack []int
	for i := from; i < at; {
		switch src[i] {
		case '"', '\'':
			i, _ = skipString(src, i)
			continue
		case '#':
			i = lineEnd(src, i)
			continue
		case '[', '{':
			stack = append(stack, i)
		case ']', '}':
			if len(stack) > 0 {
				stack = stack[:len(stack)-1]
			}
		}
		i++
	}
	if len(stack) == 0 {
		return -1
	}
	return stack[len(stack)-1]
}

func isBlank(b byte) bool { return b == ' ' || b == '\t' || b == '\r' }

func lineEnd(src []byte, i int) int {
	if n := bytes.IndexByte(src[i:], '\n'); n >= 0 {
		return i + n
	}
	return len(src)
}

func lineStart(src []byte, i int) int { return bytes.LastIndexByte(src[:i], '\n') + 1 }

// skipFiller returns the offset of the next byte at or after i that is not a
// blank, a line end, a comma or a comment.
func skipFiller(src []byte, i int) int {
	for i < len(src) {
		switch {
		case isBlank(src[i]), src[i] == '\n', src[i] == ',':
			i++
		case src[i] == '#':
			i = lineEnd(src, i)
		default:
			return i
		}
	}
	return i
}
