package market

import (
	"reflect"
	"slices"
)

// Unread gives the places in the law that this market's labels rely on and
// that were written from memory, each once, in the order of the tables.
// Temperatures and times of the kitchen stand on cards, and are left out; so
// are the bounds behind names, each of which says what it rests on where it is
// held against a food.
func (m *Market) Unread() []Cite {
	labels := *m
	labels.Kitchen, labels.Names, labels.Promises = nil, nil, nil
	var out []Cite
	cites(reflect.ValueOf(labels), func(c Cite) {
		if c.Memory && !slices.Contains(out, c) {
			out = append(out, c)
		}
	})
	return out
}

// cites hands every citation below v to do.
func cites(v reflect.Value, do func(Cite)) {
	switch v.Kind() {
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			cites(v.Elem(), do)
		}
	case reflect.Slice:
		for i := range v.Len() {
			cites(v.Index(i), do)
		}
	case reflect.Struct:
		if c, ok := v.Interface().(Cite); ok {
			do(c)
			return
		}
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				cites(v.Field(i), do)
			}
		}
	}
}
