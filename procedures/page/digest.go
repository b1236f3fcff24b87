package page

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"hash"
	"reflect"
	"slices"
	"strconv"

	"wetside/procedures/figure"
)

// Digest is a card's fingerprint: eight hexadecimal digits over its parts and
// the shown values of its figures. A field that is empty does not count, so a
// new field leaves old fingerprints as they are; nor does the fingerprint itself,
// nor what hangs on the day, nor how a screen offers the choices.
func Digest(p Page) string {
	p = Lasting(p)
	p.Foot.Fingerprint = ""
	p.Rows, p.Choices = nil, slices.Clone(p.Choices)
	for i := range p.Choices {
		p.Choices[i].Picks = nil
	}
	d := digester{hash: sha256.New()}
	d.write(reflect.ValueOf(p))
	return hex.EncodeToString(d.hash.Sum(nil)[:4])
}

type digester struct{ hash hash.Hash }

// figure writes what a card shows of a figure.
func (d *digester) figure(r *figure.Record) {
	for _, s := range []string{r.ID, r.Shown, r.Rounded, r.Unit, r.Why, r.Origin.String()} {
		d.text(s)
	}
}

func (d *digester) text(s string) { fmt.Fprintf(d.hash, "%d:%s", len(s), s) }

func (d *digester) write(v reflect.Value) {
	switch v.Kind() {
	case reflect.String:
		d.text(v.String())
	case reflect.Bool:
		d.text(strconv.FormatBool(v.Bool()))
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		d.text(strconv.FormatInt(v.Int(), 10))
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		d.text(strconv.FormatUint(v.Uint(), 10))
	case reflect.Pointer:
		if r, ok := v.Interface().(*figure.Record); ok && r != nil {
			d.figure(r)
		}
	case reflect.Interface:
		if v.IsNil() {
			return
		}
		d.text(v.Elem().Type().Name())
		d.write(v.Elem())
	case reflect.Slice:
		d.text("[" + strconv.Itoa(v.Len()))
		for i := range v.Len() {
			d.write(v.Index(i))
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if f := v.Field(i); !f.IsZero() {
				d.text(v.Type().Field(i).Name)
				d.write(f)
			}
		}
		d.text("}")
	default:
		panic("page: a page holds a " + v.Kind().String())
	}
}
