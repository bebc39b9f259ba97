package read

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"reflect"
	"regexp"
	"strings"
)

// Shaped is what a type with UnmarshalText can add for editors: the regular
// expression of what it accepts (of the kind that JSON Schema uses, anchored)
// and one example.
type Shaped interface {
	Pattern() string
	Example() string
}

// A List is the words that may be written at the keys that are tagged with its
// name. An open one may be added to by the shop: an editor offers its words, and
// takes others.
type List struct {
	Words []string
	Open  bool
}

// Schema gives the JSON Schema (draft 2020-12) of the files that are read into
// the type of root: one definition per struct type, made from the same tags
// that the reader uses. id is the schema's URI, title its name, lists the words
// of the tag list. The bytes are the same at each call. A type that cannot be
// read is an error, and so is a list that was not given.
func Schema(id, title string, root any, lists map[string]List) ([]byte, error) {
	if err := Check(root); err != nil {
		return nil, err
	}
	m := &schemaMaker{defs: map[string]reflect.Type{}, lists: lists}
	top := m.of(reflect.TypeOf(root), field{})
	doc := object{{"$schema", "https://json-schema.org/draft/2020-12/schema"}, {"$id", id}, {"title", title}}
	doc = append(doc, top...)
	defs := object{}
	for i := 0; i < len(m.order); i++ { // grows while definitions are written
		defs = append(defs, member{m.order[i], m.mapping(m.defs[m.order[i]])})
	}
	if m.err != nil {
		return nil, m.err
	}
	doc = append(doc, member{"$defs", defs})
	raw, err := marshalPlain(doc)
	if err != nil {
		return nil, fmt.Errorf("write schema %s: %w", title, err)
	}
	var out bytes.Buffer
	if err := json.Indent(&out, raw, "", "  "); err != nil {
		return nil, fmt.Errorf("indent schema %s: %w", title, err)
	}
	out.WriteByte('\n')
	return out.Bytes(), nil
}

// A schemaMaker collects the struct types that a schema refers to.
type schemaMaker struct {
	defs  map[string]reflect.Type
	order []string
	lists map[string]List
	err   error
}

// of describes a type at a key.
func (m *schemaMaker) of(t reflect.Type, f field) object {
	switch shapeOf(t) {
	case scalar:
		return m.scalar(t.Field(0).Type, f)
	case optional:
		return m.of(t.Elem(), f)
	case list:
		return object{{"type", "array"}, {"items", m.of(t.Elem(), f)}}
	case dict:
		return m.dict(t, f)
	}
	whole := object{{"$ref", "#/$defs/" + m.define(t)}}
	if a := planOf(t).alone; a != nil {
		return object{{"anyOf", []object{m.of(a.typ, *a), whole}}}
	}
	return whole
}

// dict describes a mapping whose keys are free, or the words of a list.
func (m *schemaMaker) dict(t reflect.Type, f field) object {
	words := m.list(f)
	f.list = ""
	entry := m.of(entryType(t), f)
	if words.Words == nil {
		return object{{"type", "object"}, {"additionalProperties", entry}}
	}
	props := object{}
	for _, w := range words.Words {
		props = append(props, member{w, entry})
	}
	o := object{{"type", "object"}, {"properties", props}}
	if words.Open {
		return append(o, member{"additionalProperties", entry})
	}
	return append(o, member{"additionalProperties", false})
}

// list gives the words of the list that a key names.
func (m *schemaMaker) list(f field) List {
	l, ok := m.lists[f.list]
	if f.list != "" && !ok {
		m.err = fmt.Errorf("read: the key %q is from a list %q that was not given", f.name, f.list)
	}
	return l
}

// define notes a struct type and gives its name in the schema.
func (m *schemaMaker) define(t reflect.Type) string {
	name := kebab(t.Name())
	other, ok := m.defs[name]
	switch {
	case name == "":
		m.err = fmt.Errorf("read: a struct without a name cannot stand in a schema: %s", t)
	case ok && other != t:
		m.err = fmt.Errorf("read: %s and %s would have the same name in a schema", other, t)
	case !ok:
		m.defs[name] = t
		m.order = append(m.order, name)
	}
	return name
}

func (m *schemaMaker) mapping(t reflect.Type) object {
	props, required := object{}, []string{}
	for _, f := range planOf(t).fields {
		o := m.of(f.typ, f)
		if f.help != "" {
			o = append(object{{"description", f.help}}, o...)
		}
		if f.must {
			required = append(required, f.name)
			if shapeOf(f.typ) == dict {
				o = append(o, member{"minProperties", 1})
			}
		}
		props = append(props, member{f.name, o})
	}
	o := object{{"type", "object"}, {"properties", props}}
	if len(required) > 0 {
		o = append(o, member{"required", required})
	}
	return append(o, member{"additionalProperties", false})
}

// scalar describes one value. An editor sees 24 as a number and yes as text or
// as a truth value, so types are as wide as the reader is. Beside a pattern
// stand the words that an editor shows where it does not fit, and beside an
// open list what else may stand there.
func (m *schemaMaker) scalar(t reflect.Type, f field) object {
	s, shaped := shapedOf(t)
	words := m.list(f)
	switch {
	case f.one != nil:
		return object{{"enum", f.one}}
	case words.Open:
		return object{{"anyOf", []object{{{"enum", words.Words}}, plainText()}}}
	case words.Words != nil:
		return object{{"enum", words.Words}}
	case shaped:
		like := cmp.Or(f.like, s.Example())
		return object{{"type", looks(s.Pattern())}, {"pattern", s.Pattern()}, {"examples", []string{like}},
			{"patternErrorMessage", fmt.Sprintf("write it like %q", like)}}
	case reflect.PointerTo(t).Implements(textType):
		return object{{"type", []string{"string", "number"}}}
	case t.Kind() == reflect.Bool:
		return object{{"enum", []any{"yes", "no", true, false}}}
	case t.Kind() == reflect.String && f.like != "":
		return append(plainText(), member{"examples", []string{f.like}})
	case t.Kind() == reflect.String:
		return plainText()
	}
	return object{{"type", "integer"}}
}

func plainText() object {
	return object{{"type", []string{"string", "number", "boolean"}}, {"pattern", `\S`}}
}

// looks gives the JSON types that a value of this pattern can seem to have.
func looks(pattern string) []string {
	out := []string{"string"}
	re, err := regexp.Compile(pattern)
	if err == nil && (re.MatchString("1") || re.MatchString("9520001000010") || re.MatchString("19520001000017")) {
		out = append(out, "integer")
	}
	return out
}

func shapedOf(t reflect.Type) (Shaped, bool) {
	s, ok := reflect.New(t).Interface().(Shaped)
	return s, ok
}

// exampleOf gives an example of what is written at a key, or "".
func exampleOf(f field) string {
	t := f.typ
	for t != nil && (shapeOf(t) == list || shapeOf(t) == optional) {
		t = t.Elem()
	}
	switch {
	case t == nil || shapeOf(t) != scalar:
		return ""
	case f.like != "":
		return f.like
	case f.one != nil:
		return f.one[0]
	case shapeOf(f.typ) == list:
		return ""
	}
	if s, ok := shapedOf(t.Field(0).Type); ok {
		return s.Example()
	}
	return ""
}

// kebab turns SaleUnit into sale-unit.
func kebab(s string) string {
	var b strings.Builder
	for i, r := range s {
		if i > 0 && r >= 'A' && r <= 'Z' && s[i-1] >= 'a' && s[i-1] <= 'z' {
			b.WriteByte('-')
		}
		b.WriteRune(r)
	}
	return strings.ToLower(b.String())
}

// An object is a JSON object that keeps the order of its members.
type object []member

type member struct {
	name  string
	value any
}

// MarshalJSON writes the members in order.
func (o object) MarshalJSON() ([]byte, error) {
	var b bytes.Buffer
	b.WriteByte('{')
	for i, m := range o {
		if i > 0 {
			b.WriteByte(',')
		}
		name, err := json.Marshal(m.name)
		if err != nil {
			return nil, err
		}
		value, err := marshalPlain(m.value)
		if err != nil {
			return nil, err
		}
		b.Write(name)
		b.WriteByte(':')
		b.Write(value)
	}
	b.WriteByte('}')
	return b.Bytes(), nil
}

// marshalPlain writes JSON in which <, > and & stay as they are.
func marshalPlain(v any) ([]byte, error) {
	var b bytes.Buffer
	enc := json.NewEncoder(&b)
	enc.SetEscapeHTML(false)
	err := enc.Encode(v)
	return bytes.TrimRight(b.Bytes(), "\n"), err
}
