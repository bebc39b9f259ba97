package read

import (
	"encoding"
	"fmt"
	"reflect"
	"regexp"
	"strings"

	"chablon/labels/diag"
)

// A shape is how a Go type is written in YAML.
type shape int

const (
	unreadable shape = iota
	scalar           // diag.At[T]
	mapping          // struct
	optional         // *struct
	list             // []T
	dict             // Dict[T]
)

var (
	textType = reflect.TypeFor[encoding.TextUnmarshaler]()
	dictType = reflect.TypeFor[interface{ isDict() }]()
	posType  = reflect.TypeFor[diag.Pos]()
)

func shapeOf(t reflect.Type) shape {
	switch {
	case isAt(t):
		if holdsText(t.Field(0).Type) {
			return scalar
		}
		return unreadable
	case t.Implements(dictType):
		return dict
	case t.Kind() == reflect.Slice:
		return list
	case t.Kind() == reflect.Struct:
		return mapping
	case t.Kind() == reflect.Pointer && shapeOf(t.Elem()) == mapping:
		return optional
	}
	return unreadable
}

// isAt reports whether t is a diag.At.
func isAt(t reflect.Type) bool {
	return t.Kind() == reflect.Struct && t.PkgPath() == posType.PkgPath() && strings.HasPrefix(t.Name(), "At[")
}

// holdsText reports whether a value of type t can be read from a text.
func holdsText(t reflect.Type) bool {
	return reflect.PointerTo(t).Implements(textType) || t.Kind() == reflect.String || t.Kind() == reflect.Bool || reflect.Zero(t).CanInt()
}

// A field is one key of a mapping.
type field struct {
	name  string
	must  bool
	help  string
	one   []string
	list  string // the name of the list that its words, or its keys, are from
	like  string // an example
	index []int
	typ   reflect.Type
}

// A plan is the table of keys of one struct type.
type plan struct {
	fields []field
	byName map[string]int
	pos    []int  // index of the field Pos, or nil
	alone  *field // the key whose value may stand for the whole mapping, or nil
}

func (p *plan) names() []string {
	out := make([]string, len(p.fields))
	for i, f := range p.fields {
		out[i] = f.name
	}
	return out
}

// planOf reads the tags of a struct type; fields of embedded structs count as
// its own.
func planOf(t reflect.Type) *plan {
	p := &plan{byName: map[string]int{}}
	for _, sf := range reflect.VisibleFields(t) {
		if sf.Name == "Pos" && sf.Type == posType && len(sf.Index) == 1 {
			p.pos = sf.Index
		}
		name, ok := sf.Tag.Lookup("key")
		if !ok || !sf.IsExported() {
			continue
		}
		f := field{name: name, must: sf.Tag.Get("must") == "yes", help: sf.Tag.Get("help"), list: sf.Tag.Get("list"), like: sf.Tag.Get("example"), index: sf.Index, typ: sf.Type}
		if one := sf.Tag.Get("one"); one != "" {
			f.one = strings.Split(one, "|")
		}
		p.byName[name] = len(p.fields)
		p.fields = append(p.fields, f)
		if sf.Tag.Get("alone") == "yes" {
			p.alone = &f
		}
	}
	return p
}

// Check reports what is wrong with the table of keys that starts at the type
// of root: a type that cannot be read, a key twice or not in lower case with
// hyphens, a wrong must tag. It is for tests.
func Check(root any) error {
	t := reflect.TypeOf(root)
	if t == nil {
		return fmt.Errorf("read: nil has no table of keys")
	}
	return checkType(t, map[reflect.Type]bool{}, t.String())
}

func checkType(t reflect.Type, seen map[reflect.Type]bool, path string) error {
	if seen[t] {
		return nil
	}
	seen[t] = true
	switch shapeOf(t) {
	case scalar:
		return nil
	case optional, list:
		return checkType(t.Elem(), seen, path)
	case dict:
		return checkType(entryType(t), seen, path)
	case mapping:
		return checkStruct(t, seen, path)
	}
	return fmt.Errorf("read: %s: a %s cannot be read", path, t)
}

func checkStruct(t reflect.Type, seen map[reflect.Type]bool, path string) error {
	names, alone := map[string]bool{}, ""
	for _, sf := range reflect.VisibleFields(t) {
		name, ok := sf.Tag.Lookup("key")
		must, hasMust := sf.Tag.Lookup("must")
		_, stands := sf.Tag.Lookup("alone")
		at := path + "." + sf.Name
		switch {
		case !ok:
			continue
		case !goodKey(name):
			return fmt.Errorf("read: %s: key %q is not lower case with hyphens", at, name)
		case names[name]:
			return fmt.Errorf("read: %s: key %q stands twice", at, name)
		case !sf.IsExported():
			return fmt.Errorf("read: %s: key %q is on a field that is not exported", at, name)
		case hasMust && must != "yes":
			return fmt.Errorf("read: %s: must is %q, not yes", at, must)
		case stands && (sf.Tag.Get("alone") != "yes" || alone != "" || shapeOf(sf.Type) != scalar):
			return fmt.Errorf("read: %s: one single value of a mapping may be alone: yes", at)
		case stands:
			alone = name
		}
		names[name] = true
		if err := checkType(sf.Type, seen, at); err != nil {
			return err
		}
	}
	if len(names) == 0 {
		return fmt.Errorf("read: %s: %s has no keys", path, t)
	}
	return nil
}

func goodKey(s string) bool {
	return regexp.MustCompile(`^[a-z][a-z0-9]*(-[a-z0-9]+)*$`).MatchString(s)
}

// entryType is T of a Dict[T].
func entryType(t reflect.Type) reflect.Type { return t.Elem().Field(1).Type }
