package read

import (
	"reflect"
	"strings"
)

// A Key is one key of a file, for people: Depth counts how far it is indented,
// from 0; Form says what is written there where the help does not, Of where the
// keys below it are listed when that is elsewhere.
type Key struct {
	Name  string
	Depth int
	Must  bool
	Form  string
	Help  string
	Of    string // the key under which the same keys are listed, or ""
}

// Describe lists the keys of the files that are read into the type of root, in
// the order of the table, each group of keys once.
func Describe(root any) []Key {
	d := &describer{seen: map[reflect.Type]string{}}
	d.mapping(reflect.TypeOf(root), 0, "")
	return d.keys
}

// A describer remembers under which key each group of keys was listed.
type describer struct {
	keys []Key
	seen map[reflect.Type]string
}

func (d *describer) mapping(t reflect.Type, depth int, under string) {
	d.seen[t] = under
	for _, f := range planOf(t).fields {
		k := Key{Name: f.name, Depth: depth, Must: f.must, Form: formOf(f.typ, f), Help: f.help}
		below := mappingIn(f.typ)
		of, listed := d.seen[below]
		if below != nil && listed {
			k.Of = of
		}
		d.keys = append(d.keys, k)
		if below != nil && !listed {
			d.mapping(below, depth+1, f.name)
		}
	}
}

// mappingIn gives the struct type whose keys stand below a key, or nil.
func mappingIn(t reflect.Type) reflect.Type {
	for {
		switch shapeOf(t) {
		case mapping:
			return t
		case optional, list:
			t = t.Elem()
		case dict:
			t = entryType(t)
		default:
			return nil
		}
	}
}

// formOf says what is written at a key.
func formOf(t reflect.Type, f field) string {
	switch shapeOf(t) {
	case list:
		return strings.TrimSuffix("a list: "+formOf(t.Elem(), f), ": ")
	case dict:
		return strings.TrimSuffix("lines of NAME: VALUE, "+formOf(entryType(t), f), ", ")
	case mapping, optional:
		return ""
	}
	if f.one != nil {
		return "one of " + strings.Join(f.one, ", ")
	}
	if x := exampleOf(field{typ: t, like: f.like}); x != "" && !strings.Contains(f.help, "such as") {
		return "such as " + x
	}
	switch v := t.Field(0).Type; {
	case v.Kind() == reflect.Bool:
		return "yes or no"
	case v.Kind() == reflect.Int && !reflect.PointerTo(v).Implements(textType):
		return "a whole number"
	}
	return ""
}
