package page

import "reflect"

// Figures lists the ids of the figures that a page shows, in order, with
// repeats: a refused cell counts as showing the figure that it refuses.
func Figures(p Page) []string { return FiguresOf(p, -1) }

// FiguresOf lists the figures that a page refers to in one of its choices; -1: in all.
func FiguresOf(p Page, choice int) []string {
	var ids []string
	pick := func(list []string) {
		if choice >= 0 && len(list) > 1 {
			list = list[min(choice, len(list)-1):][:1]
		}
		ids = append(ids, list...)
	}
	walk(reflect.ValueOf(p), func(v any) {
		switch v := v.(type) {
		case Inline:
			if v.Kind == Fig || v.Kind == BareFig {
				pick(v.IDs)
			}
		case Cell:
			if v.No && v.ID != "" {
				ids = append(ids, v.ID)
			}
		case Ticks:
			ids = append(ids, v.Count)
		case ChartPoint:
			ids = append(ids, v.X, v.Y)
		case ChartLimit:
			ids = append(ids, v.At)
		case Temp:
			pick(v.Time)
		case Ruler:
			for _, list := range [][]string{v.Length, v.First, v.Marks, v.Lasts, v.Drain} {
				pick(list)
			}
		}
	})
	return ids
}

// Inlines visits every inline piece of a page.
func Inlines(p Page, visit func(Inline)) {
	walk(reflect.ValueOf(p), func(v any) {
		if i, ok := v.(Inline); ok {
			visit(i)
		}
	})
}

// walk visits every struct below v, outermost first.
func walk(v reflect.Value, visit func(any)) {
	switch v.Kind() {
	case reflect.Interface, reflect.Pointer:
		if !v.IsNil() {
			walk(v.Elem(), visit)
		}
	case reflect.Slice:
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
