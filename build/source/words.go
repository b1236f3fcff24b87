package source

import (
	"strconv"
	"strings"
)

// describe says what a value is, in words that fit after "found".
func (n *node) describe() string {
	switch n.kind {
	case isTable:
		return "a table"
	case isList:
		if n.made == rows {
			return "a list of tables"
		}
		return "a list"
	case isText:
		return "the text " + strconv.Quote(short(n.text))
	case isBool:
		return n.text
	case isTime:
		if strings.Contains(n.text, ":") {
			return "the time " + n.text
		}
		return "the date " + n.text
	}
	return "the number " + short(n.text)
}

// short cuts a text that would make a sentence unreadable.
func short(s string) string {
	const most = 40
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

// source returns the text of a stretch.
func (t *Tree) source(s stretch) string { return t.text[s.from:s.to] }

// assigned is a key with a value as it is to be written.
func assigned(key, value string) string {
	if key == "" {
		return value
	}
	return bareOrQuoted(key) + " = " + value
}

func bareOrQuoted(key string) string {
	for _, r := range key {
		if (r < 'a' || r > 'z') && (r < 'A' || r > 'Z') && (r < '0' || r > '9') && r != '-' && r != '_' {
			return strconv.Quote(key)
		}
	}
	if key == "" {
		return `""`
	}
	return key
}

// quoteHint says to put a plain value in quotes.
func quoteHint(n *node, key string) string {
	if n.kind == isTable || n.kind == isList {
		return ""
	}
	return "write it in quotes: " + assigned(key, `"`+short(n.text)+`"`)
}

// bareHint says to take a text out of its quotes, if it is one of the words.
func bareHint(n *node, key string, words ...string) string {
	for _, w := range words {
		if n.kind == isText && n.text == w {
			return "write it without quotes: " + assigned(key, w)
		}
	}
	return ""
}

// tableHint says how to write a table in place of another value.
func (c *checker) tableHint(n *node, keys []string, name string) string {
	if n.kind == isList {
		if n.made == rows {
			return "write [" + name + "], once"
		}
		return ""
	}
	if len(keys) == 0 {
		return "write it as " + assigned(name, "{ … }")
	}
	return "its keys are " + listed(keys)
}

// listed joins words for a sentence, and stops before it gets long.
func listed(words []string) string {
	const most = 40
	if len(words) > most {
		return strings.Join(words[:most], ", ") + " …"
	}
	return strings.Join(words, ", ")
}
