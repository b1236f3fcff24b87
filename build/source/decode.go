package source

import (
	"encoding"
	"errors"
	"fmt"
	"math"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"

	"github.com/BurntSushi/toml"
)

// carrier is a type that carries more beside a value, such as its place: what a
// file holds is checked against the value inside, to which Inside points.
type carrier interface{ Inside() any }

// tomlUnmarshaler is how a type reads a TOML value of more than one shape.
type tomlUnmarshaler interface{ UnmarshalTOML(any) error }

var (
	carrierType = reflect.TypeFor[carrier]()
	tomlType    = reflect.TypeFor[tomlUnmarshaler]()
	textType    = reflect.TypeFor[encoding.TextUnmarshaler]()
	timeType    = reflect.TypeFor[time.Time]()
)

// Decode checks the whole tree against the value into points to, by its toml
// tags, and reports every unknown key, wrong shape and refused value at its
// own place. Only if nothing is wrong, here or in Parse, or nothing but unknown
// keys, is into filled: then what the known ones say can be checked as well.
//
// An error of UnmarshalText or UnmarshalTOML may say more by the methods
// FaultCode, FaultHint and FaultKey, each returning a string; the key is a
// path relative to the value. Joined errors become one fault each. Both
// methods may be called more than once for one value, on fresh receivers.
func (t *Tree) Decode(into any) Faults {
	target := reflect.TypeOf(into)
	c := checker{t: t, top: target}
	c.value(t.root, whole(t.values), target, "")
	if t.decodes && !slices.ContainsFunc(c.faults, func(f Fault) bool {
		return f.Severity != Warning &&
			f.Code != CodeKey
	}) {
		if err := guarded(func() error { return t.meta.PrimitiveDecode(t.whole, into) }); err != nil {
			c.faults = append(c.faults, t.leftOver(err))
		}
	}
	c.faults.Sort()
	return c.faults
}

// Decoded lets go of what only Decode needs, which is more than all the places: it may not be called
// afterwards.
func (t *Tree) Decoded() {
	t.meta, t.whole, t.values, t.decodes = toml.MetaData{}, toml.Primitive{}, nil, false
}

var lineInError = regexp.MustCompile(`^toml: line (\d+)`)

// leftOver makes a fault of what the decoder still refuses after the check, at
// the best place its error gives.
func (t *Tree) leftOver(err error) Fault {
	var parse toml.ParseError
	if errors.As(err, &parse) {
		return t.FaultAt(parse.LastKey, CodeSyntax, parse.Message, "")
	}
	at := 0
	if m := lineInError.FindStringSubmatch(err.Error()); m != nil {
		if line, convErr := strconv.Atoi(m[1]); convErr == nil && line >= 1 && line <= len(t.lines) {
			at = t.lines[line-1]
		}
	}
	return t.fault(stretch{at, at + len(t.line(at))}, CodeSyntax, strings.TrimPrefix(err.Error(), "toml: "), "")
}

type checker struct {
	t      *Tree
	top    reflect.Type
	faults Faults
}

// judged is what the decoder made of a value. It knows nothing of a value that
// stood in an expression with a fault in its syntax, or was a repetition.
type judged struct {
	value any
	known bool
}

func whole(values map[string]any) judged {
	if values == nil {
		return judged{}
	}
	return judged{values, true}
}

func (j judged) field(name string) judged {
	if table, ok := j.value.(map[string]any); ok {
		v, ok := table[name]
		return judged{v, ok}
	}
	return judged{}
}

func (j judged) item(i int) judged {
	switch list := j.value.(type) {
	case []any:
		if i < len(list) {
			return judged{list[i], true}
		}
	case []map[string]any:
		if i < len(list) {
			return judged{list[i], true}
		}
	}
	return judged{}
}

func (c *checker) add(at stretch, code, what, hint string) {
	c.faults = append(c.faults, c.t.fault(at, code, what, hint))
}

// value checks one value, named by its key, against a type.
func (c *checker) value(n *node, v judged, t reflect.Type, name string) {
	if len(c.faults) >= maxFaults {
		return
	}
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	pointer := reflect.PointerTo(t)
	switch {
	case pointer.Implements(carrierType):
		inside := reflect.New(t).Interface().(carrier).Inside()
		c.value(n, v, reflect.TypeOf(inside).Elem(), name)
		return
	case pointer.Implements(tomlType):
		if v.known {
			c.refused(n, reflect.New(t).Interface().(tomlUnmarshaler).UnmarshalTOML(v.value))
		}
		return
	case t == timeType:
		if n.kind != isTime {
			c.shape(n, "a date or time", "write it without quotes, for example 2026-03-14")
		}
		return
	case pointer.Implements(textType):
		c.quantity(n, t, name)
		return
	}
	switch t.Kind() {
	case reflect.Interface: // takes anything
	case reflect.Struct:
		if n.kind == isTable {
			c.table(n, v, t)
		} else {
			c.shape(n, "a table", c.tableHint(n, fieldsOf(t).names, name))
		}
	case reflect.Map:
		if n.kind != isTable {
			c.shape(n, "a table", c.tableHint(n, nil, name))
			return
		}
		for _, key := range n.names {
			c.field(n, v, key, t.Elem())
		}
	case reflect.Slice, reflect.Array:
		c.list(n, v, t, name)
	case reflect.String:
		if n.kind != isText {
			c.shape(n, "text", quoteHint(n, name))
		} else if s, ok := v.value.(string); ok && strings.ContainsFunc(s, hidden) {
			c.add(n.val, CodeShape,
				"there is an invisible character in this text: it would change what a screen or a printer does",
				"type the text again")
		}
	case reflect.Bool:
		if n.kind != isBool {
			c.shape(n, "true or false", bareHint(n, name, "true", "false"))
		}
	case reflect.Float32, reflect.Float64:
		c.float(n, v, t, name)
	default:
		if k := t.Kind(); k >= reflect.Int && k <= reflect.Uint64 {
			c.integer(n, v, t, name)
		} // the decoder refuses the other kinds
	}
}

// table checks the keys of a table against the fields of a struct.
func (c *checker) table(n *node, v judged, t reflect.Type) {
	fields := fieldsOf(t)
	for _, key := range n.names {
		if field, ok := fields.types[key]; ok {
			c.field(n, v, key, field)
			continue
		}
		if len(c.faults) >= maxFaults {
			return
		}
		c.add(n.fields[key].key, CodeKey, fmt.Sprintf("unknown key %q", key), c.t.keyHint(key, t, c.top))
	}
}

func (c *checker) field(n *node, v judged, key string, t reflect.Type) {
	c.value(n.fields[key], v.field(key), t, key)
	for _, again := range n.fields[key].again {
		c.value(again, judged{}, t, key)
	}
}

func (c *checker) list(n *node, v judged, t reflect.Type, name string) {
	if n.kind != isList {
		want, hint := "a list", ""
		switch element := elem(t); {
		case n.kind == isTable && (element.Kind() == reflect.Struct || element.Kind() == reflect.Map):
			want, hint = "a list of tables", "write [["+name+"]]"
		case element.Kind() == reflect.Struct && !reflect.PointerTo(element).Implements(textType):
			want, hint = "a list of tables", "write [["+name+"]] on a line of its own, and its keys below it"
		case n.kind != isTable:
			hint = "write it in brackets: " + assigned(name, "["+short(c.t.source(n.val))+"]")
		}
		c.shape(n, want, hint)
		return
	}
	if t.Kind() == reflect.Array && len(n.items) != t.Len() {
		c.add(n.val, CodeShape, fmt.Sprintf("found %d values where %d are expected", len(n.items), t.Len()), "")
		return
	}
	for i, item := range n.items {
		c.value(item, v.item(i), t.Elem(), name)
	}
}

func elem(t reflect.Type) reflect.Type {
	t = t.Elem()
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	return t
}

// quantity checks a value that its type reads from text.
func (c *checker) quantity(n *node, t reflect.Type, name string) {
	read := func(text string) error {
		return reflect.New(t).Interface().(encoding.TextUnmarshaler).UnmarshalText([]byte(text))
	}
	switch n.kind {
	case isText:
		c.refused(n, read(n.text))
	case isInteger, isFloat, isTime:
		err := read(n.text)
		if n.kind == isInteger && err == nil {
			return // a count, which has no unit to write
		}
		hint := "write it in quotes with a unit, for example " + assigned(name, `"5 g"`)
		var hinted interface{ FaultHint() string }
		switch {
		case err == nil:
			hint = quoteHint(n, name)
		case errors.As(err, &hinted) && strings.HasPrefix(hinted.FaultHint(), "write "):
			hint = "put it in quotes and " + hinted.FaultHint()
		}
		c.add(n.val, CodeQuantity, fmt.Sprintf("found %s where a quantity with its unit is expected", n.describe()),
			hint)
	default:
		c.shape(n, "text", quoteHint(n, name))
	}
}

func (c *checker) integer(n *node, v judged, t reflect.Type, name string) {
	if n.kind != isInteger {
		hint := ""
		if _, err := strconv.ParseInt(n.text, 10, 64); err == nil && n.kind == isText {
			hint = bareHint(n, name, n.text)
		}
		c.shape(n, "a whole number", hint)
		return
	}
	number, ok := v.value.(int64)
	if !ok {
		return
	}
	zero := reflect.New(t).Elem()
	switch {
	case zero.CanInt() && !zero.OverflowInt(number):
	case zero.CanUint() && number >= 0 && !zero.OverflowUint(uint64(number)):
	case zero.CanUint() && number < 0:
		c.add(n.val, CodeValue, fmt.Sprintf("%d is negative", number), "")
	default:
		c.add(n.val, CodeValue, fmt.Sprintf("%d is too large", number), "")
	}
}

func (c *checker) float(n *node, v judged, t reflect.Type, name string) {
	if n.kind != isFloat && n.kind != isInteger {
		hint := ""
		if _, err := strconv.ParseFloat(n.text, 64); err == nil && n.kind == isText {
			hint = bareHint(n, name, n.text)
		}
		c.shape(n, "a number", hint)
		return
	}
	exact := int64(1) << 53
	if t.Kind() == reflect.Float32 {
		exact = 1 << 24
	}
	tooLarge := false
	switch number := v.value.(type) {
	case int64:
		tooLarge = number >= exact || number <= -exact
	case float64:
		tooLarge = !math.IsInf(number, 0) && reflect.New(t).Elem().OverflowFloat(number)
	}
	if tooLarge {
		c.add(n.val, CodeValue, n.text+" is too large", "")
	}
}

// shape reports a value of the wrong shape.
func (c *checker) shape(n *node, want, hint string) {
	c.add(n.val, CodeShape, fmt.Sprintf("found %s where %s is expected", n.describe(), want), hint)
}

// refused turns the error of a value's own type into faults.
func (c *checker) refused(n *node, err error) {
	if err == nil {
		return
	}
	if joined, ok := err.(interface{ Unwrap() []error }); ok {
		for _, one := range joined.Unwrap() {
			c.refused(n, one)
		}
		return
	}
	code, hint, at := CodeValue, "", n.val
	var coded interface{ FaultCode() string }
	if errors.As(err, &coded) && coded.FaultCode() != "" {
		code = coded.FaultCode()
	}
	var hinted interface{ FaultHint() string }
	if errors.As(err, &hinted) {
		hint = hinted.FaultHint()
	}
	var keyed interface{ FaultKey() string }
	if errors.As(err, &keyed) {
		found, rest := n.find(keyed.FaultKey())
		switch {
		case rest == "" && code != CodeKey:
			at = found.val
		case found != n || rest == "":
			at = found.key
		}
	}
	c.add(at, code, err.Error(), hint)
}

// hidden reports a character that acts without being seen: an escape, or one that
// turns the direction of writing. Line ends and tabs are seen.
func hidden(r rune) bool {
	return unicode.IsControl(r) && r != '\n' && r != '\t' && r != '\r' || r >= '\u202a' && r <= '\u202e' ||
		r >= '\u2066' && r <= '\u2069'
}
