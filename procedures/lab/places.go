package lab

import (
	"fmt"
	"reflect"
	"strings"

	"wetside/procedures/figure"
)

// said is a value that carries its place.
type said interface {
	Given() bool
	place(where figure.Where, by figure.Origin)
}

// places tells every declared value of the lab where it stands and who vouches for
// it. It comes before processes take over steps from each other: what is taken over
// brings its place along.
func (l *Lab) places() {
	placeIn(l, l.Place.Def, &l.Place)
	placeIn(l, l.Local.Def, &l.Local)
	placeIn(l, l.Store.Def, &l.Store)
	placeIn(l, l.Formats.Def, &l.Formats)
	placeAll(l, l.Chemicals, func(d *Chemical) Def { return d.Def })
	placeAll(l, l.Products, func(d *Product) Def { return d.Def })
	placeAll(l, l.Solutions, func(d *Solution) Def { return d.Def })
	placeAll(l, l.Materials, func(d *Material) Def { return d.Def })
	placeAll(l, l.Processes, func(d *Process) Def { return d.Def })
	placeAll(l, l.Wastes, func(d *Waste) Def { return d.Def })
	placeAll(l, l.Batches, func(d *Batch) Def { return d.Def })
	placeAll(l, l.Species, func(d *SpeciesBook) Def { return d.Def })
	placeAll(l, l.Rules, func(d *RuleBook) Def { return d.Def })
}

func placeAll[T any](l *Lab, list []*T, def func(*T) Def) {
	for _, d := range list {
		placeIn(l, def(d), d)
	}
}

func placeIn(l *Lab, d Def, into any) {
	eachSaid(reflect.ValueOf(into).Elem(), "", "", func(key, own string, s said) {
		by, _ := l.OriginOf(d, key)
		if own != "" {
			by, _ = l.originNamed(own)
		}
		s.place(d.At(key), by)
	})
}

// eachSaid calls do for every value below v that was written and carries its place,
// with its key and the word for its origin that a table around it brings itself, as a
// format does; own is that of what v is in. The keys are those of the toml tags, of maps
// and of lists; a field without a tag stands at the key of what it is in, as the kinds of
// a limit do, and so does all of what is written alone (alone), without the table or the
// list that might be there.
func eachSaid(v reflect.Value, key, own string, do func(key, own string, s said)) {
	if v.CanAddr() {
		if table, ok := v.Addr().Interface().(interface{ ownOrigin() string }); ok {
			own = table.ownOrigin()
		}
		if s, ok := v.Addr().Interface().(said); ok && s.Given() {
			do(key, own, s)
		}
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() {
			eachSaid(v.Elem(), key, own, do)
		}
	case reflect.Struct:
		brief := false
		if one, ok := v.Addr().Interface().(interface{ alone() bool }); ok {
			brief = one.alone()
		}
		for i := range v.NumField() {
			field := v.Type().Field(i)
			name, _, _ := strings.Cut(field.Tag.Get("toml"), ",")
			if brief {
				name = ""
			}
			if field.IsExported() && name != "-" {
				eachSaid(v.Field(i), keyBelow(key, name), own, do)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			at := fmt.Sprintf("%s[%d]", key, i)
			if one, ok := v.Index(i).Addr().Interface().(interface{ alone() bool }); ok && one.alone() {
				at = key
			}
			eachSaid(v.Index(i), at, own, do)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			// An element of a map has no address: a copy is told and put back.
			element := reflect.New(v.Type().Elem()).Elem()
			element.Set(v.MapIndex(k))
			eachSaid(element, keyBelow(key, keyName(k.String())), own, do)
			v.SetMapIndex(k, element)
		}
	}
}

func keyBelow(key, name string) string {
	if key == "" || name == "" {
		return key + name
	}
	return key + "." + name
}
