package shop

import (
	"reflect"
	"slices"

	"chablon/labels/diag"
)

// Written is one text in one language, as it stands in the files.
type Written struct {
	Lang string
	Text string
	Pos  diag.Pos
	// Kitchen tells that only the kitchen reads it: a step, a tool, a measure.
	// Everything else may come before a buyer.
	Kitchen bool
}

// kitchen are the structs whose texts stay in the kitchen.
var kitchen = []reflect.Type{reflect.TypeFor[Step](), reflect.TypeFor[Limit](), reflect.TypeFor[Tray](),
	reflect.TypeFor[Tool](), reflect.TypeFor[Bowl](), reflect.TypeFor[Piece]()}

// EachWritten goes through every text per language below v, which is a struct of
// this package or a pointer to one, in the order of its fields. It finds them by their
// type, so that a text which is added to a struct is found without a word here.
func EachWritten(v any, do func(Written)) { eachText(reflect.ValueOf(v), false, do) }

func eachText(v reflect.Value, inside bool, do func(Written)) {
	if w, ok := v.Interface().(Words); ok {
		for _, e := range w {
			do(Written{e.Key.V, e.V.V, e.V.Pos, inside})
		}
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		inside = inside || slices.Contains(kitchen, v.Type())
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() {
				eachText(v.Field(i), inside, do)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			eachText(v.Index(i), inside, do)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			eachText(v.Elem(), inside, do)
		}
	}
}

// Into lists the ingredients that a formula or product is made with, at any
// depth, each once.
func (s *Shop) Into(id string) []*Ingredient {
	var out []*Ingredient
	(&checker{Shop: s}).reach(id, func(_ *Formula, i *Ingredient) {
		if i != nil {
			out = append(out, i)
		}
	})
	return out
}

// Holds is all that an ingredient contains, at any depth.
func (i *Ingredient) Holds() []Text {
	all := slices.Clone(i.Contains)
	inners(i.MadeOf, func(in Inner) { all = append(all, in.Contains...) })
	return all
}
