package source

import (
	"fmt"
	"reflect"
	"strings"
	"sync"

	"wetside/procedures/near"
)

// fields are the keys a struct knows, embedded structs included.
type fields struct {
	names []string
	types map[string]reflect.Type
}

var fieldCache sync.Map // reflect.Type to *fields

func fieldsOf(t reflect.Type) *fields {
	if f, ok := fieldCache.Load(t); ok {
		return f.(*fields)
	}
	f := &fields{types: map[string]reflect.Type{}}
	f.collect(t, map[reflect.Type]bool{})
	fieldCache.Store(t, f)
	return f
}

// collect adds the fields of a struct, then those of the structs embedded in
// it, so that the outer name wins.
func (f *fields) collect(t reflect.Type, seen map[reflect.Type]bool) {
	if seen[t] {
		return
	}
	seen[t] = true
	var embedded []reflect.Type
	for i := range t.NumField() {
		field := t.Field(i)
		name, _, _ := strings.Cut(field.Tag.Get("toml"), ",")
		inner := field.Type
		if inner.Kind() == reflect.Pointer {
			inner = inner.Elem()
		}
		switch {
		case name == "-":
		case name == "" && field.Anonymous && inner.Kind() == reflect.Struct:
			embedded = append(embedded, inner)
		case name == "" || !field.IsExported():
		case f.types[name] == nil:
			f.names = append(f.names, name)
			f.types[name] = field.Type
		}
	}
	for _, e := range embedded {
		f.collect(e, seen)
	}
}

// home is a table of a file type, as a header: "" is the top, "strength.NAME"
// any strength.
type home struct {
	path string
	list bool
	typ  reflect.Type
}

func (h home) String() string {
	if h.list {
		return "[[" + h.path + "]]"
	}
	return "[" + h.path + "]"
}

// homes finds, for every key a file type knows anywhere, the tables that know
// it, nearest to the top first.
type homes struct {
	of    map[string][]home
	names []string
}

const (
	maxHomeDepth = 6   // tables inside each other
	maxHomes     = 500 // tables of one file type
)

var homeCache sync.Map // reflect.Type to *homes

func homesOf(top reflect.Type) *homes {
	if h, ok := homeCache.Load(top); ok {
		return h.(*homes)
	}
	h := &homes{of: map[string][]home{}}
	queue := []home{}
	if t, _ := inside(top); t != nil {
		queue = append(queue, home{typ: t})
	}
	for i := 0; i < len(queue) && i < maxHomes; i++ {
		at := queue[i]
		if at.typ.Kind() == reflect.Map {
			queue = appendHome(queue, at.path, "NAME", at.typ.Elem())
			continue
		}
		known := fieldsOf(at.typ)
		for _, name := range known.names {
			if h.of[name] == nil {
				h.names = append(h.names, name)
			}
			h.of[name] = append(h.of[name], at)
			queue = appendHome(queue, at.path, bareOrQuoted(name), known.types[name])
		}
	}
	homeCache.Store(top, h)
	return h
}

func appendHome(queue []home, path, name string, t reflect.Type) []home {
	inner, list := inside(t)
	if path != "" {
		name = path + "." + name
	}
	if inner == nil || strings.Count(name, ".") >= maxHomeDepth {
		return queue
	}
	return append(queue, home{name, list, inner})
}

// inside returns the struct or map a type holds, through pointers and lists; a
// type that reads itself keeps its keys to itself.
func inside(t reflect.Type) (inner reflect.Type, list bool) {
	for {
		if p := reflect.PointerTo(t); p.Implements(tomlType) || p.Implements(textType) {
			return nil, false
		}
		switch t.Kind() {
		case reflect.Pointer:
		case reflect.Slice, reflect.Array:
			list = true
		case reflect.Struct, reflect.Map:
			return t, list
		default:
			return nil, false
		}
		t = t.Elem()
	}
}

// keyHint says what to do about a key that a struct does not know: it belongs
// elsewhere in the file, or it is misspelt.
func (t *Tree) keyHint(key string, in, top reflect.Type) string {
	here := fieldsOf(in)
	if small := strings.ToLower(key); small != key && here.types[small] != nil {
		return fmt.Sprintf("keys are written small: %q", small)
	}
	all := homesOf(top)
	if places := all.of[key]; len(places) > 0 {
		return t.belongs(key, places)
	}
	if meant := near.Word(key, here.names); meant != "" {
		return fmt.Sprintf("did you mean %q?", meant)
	}
	if meant := near.Same(key, all.names); meant != "" {
		return fmt.Sprintf("did you mean %q? ", meant) + t.belongs(meant, all.of[meant])
	}
	if len(here.names) == 0 {
		return ""
	}
	return "the keys here are " + listed(here.names)
}

// belongs says where a key that is known elsewhere is to be written.
func (t *Tree) belongs(key string, places []home) string {
	if places[0].path == "" {
		if t.firstHeader == "" {
			return fmt.Sprintf("%q belongs to the top of the file", key)
		}
		return fmt.Sprintf("%q belongs to the top of the file: move it above %s", key, t.firstHeader)
	}
	const most = 3
	var words []string
	for i, place := range places {
		if i == most {
			words[most-1] += " and others"
			break
		}
		words = append(words, place.String())
	}
	return fmt.Sprintf("%q belongs in %s", key, strings.Join(words, " or "))
}
