// Package shoptest answers: what if this shop spoke another language?
//
// It is for tests only.
package shoptest

import (
	"reflect"

	"chablon/labels/shop"
)

// Translate gives every text that the shop has in English in another language
// too, in the same words.
func Translate(sh *shop.Shop, code string) { translate(reflect.ValueOf(sh), code) }

func translate(v reflect.Value, code string) {
	if w, ok := v.Interface().(shop.Words); ok {
		if en, ok := shop.In(w, "en"); ok {
			if _, have := shop.In(w, code); !have {
				key := w[0].Key
				key.V = code
				entry := w[0]
				entry.Key, entry.V = key, en
				v.Set(reflect.ValueOf(append(w[:len(w):len(w)], entry)))
			}
		}
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() && v.Field(i).CanSet() {
				translate(v.Field(i), code)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			translate(v.Index(i), code)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			translate(v.MapIndex(k), code)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			translate(v.Elem(), code)
		}
	}
}
