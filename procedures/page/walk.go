package page

import (
	"reflect"

	"wetside/procedures/figure"
)

// Figures lists the figures that a page shows, in order, with repeats: a refused cell
// counts as showing the figure that it refuses.
func Figures(p Page) []*figure.Record { return FiguresOf(p, -1) }

// FiguresOf lists the figures that a page shows in one of its choices; -1: in all.
func FiguresOf(p Page, choice int) []*figure.Record {
	var out []*figure.Record
	pick := func(list []*figure.Record) {
		if choice >= 0 && len(list) > 1 {
			list = list[min(choice, len(list)-1):][:1]
		}
		out = append(out, list...)
	}
	walk(reflect.ValueOf(p), func(v any) {
		switch v := v.(type) {
		case Inline:
			pick(v.Figures)
		case Cell:
			if v.Refused != nil {
				out = append(out, v.Refused)
			}
		case Ticks:
			out = append(out, v.Count)
		case Container:
			if v.Holds != nil {
				out = append(out, v.Holds)
			}
		case ChartPoint:
			out = append(out, v.X, v.Y)
		case ChartLimit:
			out = append(out, v.At)
		case Temp:
			pick(v.Time)
		case Ruler:
			for _, list := range [][]*figure.Record{v.Length, v.First, v.Marks, v.Lasts, v.Drain} {
				pick(list)
			}
		}
	})
	return out
}

// Inlines visits every inline piece of a page.
func Inlines(p Page, visit func(Inline)) {
	walk(reflect.ValueOf(p), func(v any) {
		if i, ok := v.(Inline); ok {
			visit(i)
		}
	})
}

var recordType = reflect.TypeFor[*figure.Record]()

// walk visits every struct below v, outermost first.
func walk(v reflect.Value, visit func(any)) {
	switch v.Kind() {
	case reflect.Interface, reflect.Pointer:
		if !v.IsNil() && v.Type() != recordType {
			walk(v.Elem(), visit)
		}
	case reflect.Slice:
		if v.Type().Elem() == recordType {
			return
		}
		for i := range v.Len() {
			walk(v.Index(i), visit)
		}
	case reflect.Struct:
		visit(v.Interface())
		for i := range v.NumField() {
			walk(v.Field(i), visit)
		}
	}
}
