// Package read answers: what did the user write, and where?
//
// It fills Go structs from YAML. The tagged struct types are the table of
// keys: the reader, its messages and the JSON Schema for editors are all made
// from them. A field is read when it has a key tag:
//
//	Net diag.At[unit.Mass] `key:"net" must:"yes" help:"Net quantity of one pack."`
//
// Tags: key names it (lower case, hyphens); must:"yes" makes it required;
// one:"a|b|c" lists the words allowed; help is one sentence for editors;
// list:"NAME" names a list of words that [Schema] is given, for editors;
// example shows what is written there, in hints and to editors; alone:"yes"
// lets the value stand for the whole mapping, where nothing else is
// to be said: 175 °C for {to: 175 °C}. A
// field Pos of type diag.Pos gets the place of its mapping. Types of fields:
//
//	diag.At[T]    one value; *T has UnmarshalText, or T is a string, bool or int
//	struct, *T    a mapping with known keys; nil when it was not written
//	[]T           a list
//	Dict[T]       a mapping with free keys, in the order written
//
// A value that could not be read stays zero, so that its absence is not
// reported twice. Only plain YAML is taken: one document, no anchors, aliases,
// merge keys or tags. Numbers are read from their letters, never by YAML's
// rules, so 0401234500123 keeps its zero. Texts are composed to Unicode NFC.
package read

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"reflect"

	"gopkg.in/yaml.v3"

	"chablon/labels/diag"
)

// limits bound one file.
type limits struct{ bytes, lines, nodes int }

// Limits of a file that people write, far above what a kitchen writes and far
// below what hurts; and of one that the program writes, with rows by the ten
// thousand.
func byHand() limits { return limits{1 << 20, 20_000, 20_000} }
func rows() limits   { return limits{64 << 20, 2_000_000, 4_000_000} }

// Limits of every file.
const (
	maxDepth = 32
	maxText  = 4_000 // characters in one value
	maxFound = 100   // findings shown of one file
)

// Entry is one key of a Dict with its value.
type Entry[T any] struct {
	Key diag.At[string]
	V   T
}

// Dict is a mapping with free keys, in the order in which they were written.
type Dict[T any] []Entry[T]

// Get gives the value of a key.
func (d Dict[T]) Get(key string) (v T, ok bool) {
	for _, e := range d {
		if e.Key.V == key {
			return e.V, true
		}
	}
	return v, false
}

func (Dict[T]) isDict() {}

// File reads the file name (slash-separated, inside fsys) into the struct,
// Dict or slice that into points to, adds its findings to found, and reports
// whether there was no error among them. Findings name the file as name does.
// It panics when the type of into cannot be read; Check finds that in a test.
func File(fsys fs.FS, name string, into any, found *diag.List) (ok bool) {
	return FileAs(fsys, name, name, into, found)
}

// Rows is File for a file that the program itself has written, with a row for
// each of very many things.
func Rows(fsys fs.FS, name string, into any, found *diag.List) (ok bool) {
	data, d := load(fsys, name, name, rows())
	if d != nil {
		found.Add(*d)
		return false
	}
	return RowsOf(name, data, into, found)
}

// RowsOf reads data as Rows does; findings call it name.
func RowsOf(name string, data []byte, into any, found *diag.List) (ok bool) {
	return decodeAll(name, data, rows(), into, found)
}

// FileAs is File for findings that call the file by another name, such as its
// path as the user typed it.
func FileAs(fsys fs.FS, name, shown string, into any, found *diag.List) (ok bool) {
	data, d := load(fsys, name, shown, byHand())
	if d != nil {
		found.Add(*d)
		return false
	}
	return Bytes(shown, data, into, found)
}

// Bytes reads data as File does; findings call it name.
func Bytes(name string, data []byte, into any, found *diag.List) (ok bool) {
	return decodeAll(name, data, byHand(), into, found)
}

func decodeAll(name string, data []byte, most limits, into any, found *diag.List) (ok bool) {
	d := &decoder{file: name, plans: map[reflect.Type]*plan{}, most: most}
	if d.plainBytes(data) {
		if root := d.parse(data); root != nil && d.plainTree(root) {
			d.value(root, reflect.ValueOf(into).Elem(), slot{what: "the file"})
		}
	}
	d.handOver(found)
	return d.found.Errors() == 0
}

// handOver adds the findings of the file to found; of a great many only the
// first, with a count of the others.
func (d *decoder) handOver(found *diag.List) {
	all := d.found.All()
	for i, f := range all {
		if i == maxFound && len(all) > maxFound+1 {
			found.Errorf(f.Pos, "too-many", "mend those above first", "%d more findings in this file", len(all)-i)
			return
		}
		found.Add(f)
	}
}

// load reads a regular file of bounded size; anything else is a finding.
func load(fsys fs.FS, name, shown string, most limits) ([]byte, *diag.Diag) {
	refuse := func(rule, hint, msg string) ([]byte, *diag.Diag) {
		return nil, &diag.Diag{Pos: diag.Pos{File: shown}, Rule: rule, Msg: msg, Hint: hint}
	}
	info, err := fs.Lstat(fsys, name)
	switch {
	case err != nil:
		return refuse("file", "see that the file is there and may be read", "the file cannot be read: "+reason(err))
	case info.Mode()&fs.ModeSymlink != 0:
		return refuse("file", "put the file itself here", "this is a link to another file")
	case !info.Mode().IsRegular():
		return refuse("file", "put a YAML file here", "this is not a file")
	}
	data, err := readAtMost(fsys, name, int64(most.bytes)+1)
	switch {
	case err != nil:
		return refuse("file", "see that the file is there and may be read", "the file cannot be read: "+reason(err))
	case len(data) > most.bytes:
		return refuse("too-large", "one formula, ingredient or product has a file of its own", fmt.Sprintf("the file is larger than %d MB", most.bytes>>20))
	}
	return data, nil
}

func readAtMost(fsys fs.FS, name string, n int64) ([]byte, error) {
	f, err := fsys.Open(name)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	return io.ReadAll(io.LimitReader(f, n))
}

// parse gives the top node of the only document, or nil after a finding.
func (d *decoder) parse(data []byte) *yaml.Node {
	dec := yaml.NewDecoder(bytes.NewReader(data))
	var doc, second yaml.Node
	switch err := decode(dec, &doc); {
	case err == io.EOF || err == nil && (len(doc.Content) == 0 || isNull(doc.Content[0])):
		d.at(1, 1, "empty", "write its keys, or take the file away", "the file is empty")
		return nil
	case err != nil:
		d.syntax(err)
		return nil
	}
	switch err := decode(dec, &second); {
	case err == nil:
		d.at(second.Line, max(second.Column, 1), "second-document", `take out the line with "---", or write a second file`,
			"a second document begins here; only the first would count")
	case err != io.EOF:
		d.syntax(err)
	}
	return doc.Content[0]
}

// decode guards against a panic in the YAML library.
func decode(dec *yaml.Decoder, into *yaml.Node) (err error) {
	defer func() {
		if r := recover(); r != nil {
			err = errUnreadable
		}
	}()
	return dec.Decode(into)
}
