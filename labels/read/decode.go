package read

import (
	"fmt"
	"reflect"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"chablon/labels/diag"
	"chablon/labels/unit"
)

// A decoder reads one file.
type decoder struct {
	file  string
	found diag.List
	plans map[reflect.Type]*plan
	most  limits
}

// A slot is the place that a value is read for: what messages call it, and
// the key it stands under, if any.
type slot struct {
	what string // `"net"`, `entry 3 of "lines"`
	field
}

func (d *decoder) at(line, col int, rule, hint, format string, args ...any) {
	d.found.Errorf(diag.Pos{File: d.file, Line: line, Col: col}, rule, hint, format, args...)
}

func (d *decoder) wrong(n *yaml.Node, rule, hint, format string, args ...any) {
	d.found.Errorf(d.pos(n), rule, hint, format, args...)
}

func (d *decoder) pos(n *yaml.Node) diag.Pos {
	return diag.Pos{File: d.file, Line: n.Line, Col: n.Column}
}

func (d *decoder) plan(t reflect.Type) *plan {
	p := d.plans[t]
	if p == nil {
		p = planOf(t)
		d.plans[t] = p
	}
	return p
}

// value reads n into v and reports whether v now holds something.
func (d *decoder) value(n *yaml.Node, v reflect.Value, s slot) bool {
	shape := shapeOf(v.Type())
	switch {
	case n.Kind == yaml.AliasNode:
		return false // reported before
	case isNull(n):
		hint := "write a value, or take the key out"
		if shape == list && s.must {
			hint = fmt.Sprintf("write what belongs there; where there is none, write %s: []", s.name)
		}
		d.wrong(n, "empty", hint, "%s has no value", s.what)
		return false
	}
	switch shape {
	case scalar:
		return d.scalar(n, v, s)
	case mapping:
		return d.mapping(n, v, s)
	case optional:
		at := reflect.New(v.Type().Elem())
		ok := d.mapping(n, at.Elem(), s)
		v.Set(at)
		return ok
	case list:
		return d.list(n, v, s)
	case dict:
		return d.dict(n, v, s)
	}
	panic(fmt.Sprintf("read: a %s cannot be read", v.Type()))
}

func (d *decoder) list(n *yaml.Node, v reflect.Value, s slot) bool {
	if n.Kind != yaml.SequenceNode {
		d.wrong(n, "kind", listHint(n, s), "%s must be a list, but is %s", s.what, kindName(n))
		return false
	}
	v.Set(reflect.MakeSlice(v.Type(), 0, len(n.Content)))
	for i, c := range n.Content {
		entry := slot{what: fmt.Sprintf("entry %d of %s", i+1, s.what), field: s.field}
		e := reflect.New(v.Type().Elem()).Elem()
		if d.value(c, e, entry) || c.Kind == yaml.MappingNode && e.Kind() == reflect.Struct && !isAt(e.Type()) {
			v.Set(reflect.Append(v, e))
		}
	}
	return true
}

func listHint(n *yaml.Node, s slot) string {
	if slices.Contains([]string{"none", "no", "nothing", "-", "0"}, strings.ToLower(n.Value)) {
		return fmt.Sprintf("where there is none, write %s: []", s.name)
	}
	if n.Kind == yaml.ScalarNode && isAt(s.typ.Elem()) {
		return fmt.Sprintf("put it in brackets: %s: [%s]", s.name, clip(n.Value))
	}
	return `write it as a list: each entry on a line of its own that begins with "- "`
}

func (d *decoder) dict(n *yaml.Node, v reflect.Value, s slot) bool {
	if n.Kind != yaml.MappingNode {
		d.wrong(n, "kind", "write below it, indented: a name, a colon, a space, the value",
			"%s must be keys with values, but is %s", s.what, kindName(n))
		return false
	}
	v.Set(reflect.MakeSlice(v.Type(), 0, len(n.Content)/2))
	for _, p := range d.pairs(n, nil) {
		e := reflect.New(v.Type().Elem()).Elem()
		e.Field(0).Set(reflect.ValueOf(diag.At[string]{V: p.name, Pos: d.pos(p.key)}))
		entry := slot{what: fmt.Sprintf("%q of %s", clip(p.name), s.what), field: s.field}
		if d.value(p.value, e.Field(1), entry) {
			v.Set(reflect.Append(v, e))
		}
	}
	if len(n.Content) == 0 && s.must {
		d.wrong(n, "empty", "write at least one", "%s has no entries", s.what)
	}
	return v.Len() > 0
}

func (d *decoder) mapping(n *yaml.Node, v reflect.Value, s slot) bool {
	p := d.plan(v.Type())
	if p.alone != nil && n.Kind == yaml.ScalarNode {
		return d.alone(n, v, p, s)
	}
	if n.Kind != yaml.MappingNode {
		d.wrong(n, "kind", mappingHint(n, p), "%s must be keys with values, but is %s", s.what, kindName(n))
		return false
	}
	if p.pos != nil {
		v.FieldByIndex(p.pos).Set(reflect.ValueOf(d.pos(n)))
	}
	pairs := d.pairs(n, p)
	given := map[string]bool{}
	for _, pair := range pairs {
		given[pair.name] = true
	}
	for _, pair := range pairs {
		i, ok := p.byName[pair.name]
		if !ok {
			i, ok = d.unknown(pair, p, given)
		}
		if ok {
			f := p.fields[i]
			d.value(pair.value, v.FieldByIndex(f.index), slot{fmt.Sprintf("%q", f.name), f})
		}
	}
	for _, f := range p.fields {
		if f.must && !given[f.name] {
			d.wrong(n, "missing-key", addHint(f), "%q is missing here", f.name)
		}
	}
	return true
}

// alone reads a single value that stands for a mapping of which it is the one
// key that was written.
func (d *decoder) alone(n *yaml.Node, v reflect.Value, p *plan, s slot) bool {
	f := *p.alone
	if !d.value(n, v.FieldByIndex(f.index), slot{s.what, f}) {
		return false
	}
	if p.pos != nil {
		v.FieldByIndex(p.pos).Set(reflect.ValueOf(d.pos(n)))
	}
	return true
}

// unknown reports a key that is not in the table. Where another key was
// probably meant, and is not written as well, the value is read for that one:
// its own mistakes come to light at once, and the key is not called missing.
func (d *decoder) unknown(p pair, t *plan, given map[string]bool) (i int, ok bool) {
	free := slices.DeleteFunc(t.names(), func(s string) bool { return given[s] })
	meant := diag.Nearest(p.name, free)
	hint := "keys that may stand here: " + strings.Join(t.names(), ", ")
	if meant != "" {
		hint = fmt.Sprintf("did you mean %q? %s", meant, hint)
		given[meant] = true
	}
	d.wrong(p.key, "unknown-key", hint, "unknown key %q", clip(p.name))
	i, ok = t.byName[meant]
	return i, ok
}

func addHint(f field) string {
	hint := fmt.Sprintf("add %q", f.name+":")
	if x := exampleOf(f); x != "" {
		hint = fmt.Sprintf("add a line like %q", f.name+": "+x)
	}
	if f.help != "" {
		hint += ": " + f.help
	}
	return strings.TrimSuffix(hint, ".")
}

func mappingHint(n *yaml.Node, p *plan) string {
	keys := "keys that may stand here: " + strings.Join(p.names(), ", ")
	if n.Kind == yaml.ScalarNode && strings.Contains(n.Value, ":") {
		return "put a space after the colon; " + keys
	}
	return keys
}

func kindName(n *yaml.Node) string {
	switch n.Kind {
	case yaml.MappingNode:
		return "keys with values"
	case yaml.SequenceNode:
		return "a list"
	}
	return fmt.Sprintf("the text %q", clip(n.Value))
}

func isNull(n *yaml.Node) bool {
	return n.Kind == yaml.ScalarNode && n.Style == 0 && n.ShortTag() == "!!null"
}

// clip makes s fit to be quoted in a message: short, and without characters
// that would meddle with a terminal.
func clip(s string) string {
	r := []rune(s)
	cut := ""
	if len(r) > 40 {
		r, cut = r[:39], "…"
	}
	for i, c := range r {
		if !unit.Printable(string(c)) {
			r[i] = '?'
		}
	}
	return string(r) + cut
}
