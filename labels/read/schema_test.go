package read_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"
	"gopkg.in/yaml.v3"

	"chablon/labels/diag"
	"chablon/labels/read"
)

const schemaID = "https://example.org/formula.schema.json"

// compiled checks the schema of a formula against the meta-schema of JSON
// Schema 2020-12 (json-schema.org), by a library of others.
func compiled(t *testing.T) *jsonschema.Schema {
	t.Helper()
	raw, err := read.Schema(schemaID, "formula", formula{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(raw))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource(schemaID, doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile(schemaID)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// faults gives "/place keyword" of each fault that the schema finds.
func faults(t *testing.T, s *jsonschema.Schema, in string) []string {
	t.Helper()
	var doc yaml.Node
	if err := yaml.Unmarshal([]byte(in), &doc); err != nil {
		t.Fatal(err)
	}
	err := s.Validate(asEditor(doc.Content[0]))
	var v *jsonschema.ValidationError
	if err == nil {
		return nil
	} else if !errors.As(err, &v) {
		t.Fatal(err)
	}
	var out []string
	var walk func(*jsonschema.ValidationError)
	walk = func(v *jsonschema.ValidationError) {
		for _, c := range v.Causes {
			walk(c)
		}
		if path := v.ErrorKind.KeywordPath(); len(v.Causes) == 0 {
			out = append(out, "/"+strings.Join(v.InstanceLocation, "/")+" "+path[len(path)-1])
		}
	}
	walk(v)
	slices.Sort(out)
	return out
}

// asEditor gives a YAML tree the types of YAML's core schema (YAML 1.2.2,
// 10.3), as editors do.
func asEditor(n *yaml.Node) any {
	switch n.Kind {
	case yaml.SequenceNode:
		out := []any{}
		for _, c := range n.Content {
			out = append(out, asEditor(c))
		}
		return out
	case yaml.MappingNode:
		out := map[string]any{}
		for i := 0; i < len(n.Content); i += 2 {
			out[n.Content[i].Value] = asEditor(n.Content[i+1])
		}
		return out
	}
	switch n.ShortTag() {
	case "!!null":
		return nil
	case "!!bool":
		return n.Value == "true"
	case "!!int", "!!float":
		return json.Number(strings.TrimLeft(n.Value, "0"))
	}
	return n.Value
}

func TestSchemaPassesWhatIsRead(t *testing.T) {
	good, err := os.ReadFile("testdata/good.yaml")
	if err != nil {
		t.Fatal(err)
	}
	if got := faults(t, compiled(t), string(good)); got != nil {
		t.Errorf("faults in the good file: %v", got)
	}
}

// Each fault is planted alone; the reader must refuse it at the same key.
func TestSchemaFindsPlantedFaults(t *testing.T) {
	s := compiled(t)
	good := "name: {en: Tart}\nversion: 1\nissued: 2026-03-17\nkind: bake\nlines:\n  - {use: butter, take: 200 g}\n"
	if got := faults(t, s, good); got != nil {
		t.Fatalf("faults in the sound file: %v", got)
	}
	for _, c := range []struct{ what, old, new, want string }{
		{"unknown key", "version: 1", "version: 1\ncolour: brown", "/ additionalProperties"},
		{"missing key", "kind: bake\n", "", "/ required"},
		{"missing key below", ", take: 200 g", "", "/lines/0 required"},
		{"key of an embedded struct missing", "use: butter, ", "", "/lines/0 required"},
		{"no unit", "200 g", "200", "/lines/0/take type"},
		{"wrong unit", "200 g", "200 ml", "/lines/0/take pattern"},
		{"comma", "200 g", "'1,5 g'", "/lines/0/take pattern"},
		{"naked point", "200 g", ".5 g", "/lines/0/take pattern"},
		{"below nothing", "200 g", "-5 g", "/lines/0/take pattern"},
		{"wrong word", "bake", "fry", "/kind enum"},
		{"version in words", "version: 1", "version: one", "/version type"},
		{"date the other way", "2026-03-17", "17.03.2026", "/issued pattern"},
		{"text for a list", "lines:\n  - {use: butter, take: 200 g}", "lines: butter", "/lines type"},
		{"text for a group", "version: 1", "version: 1\nkeep: cold", "/keep type"},
		{"text for languages", "{en: Tart}", "Tart", "/name type"},
		{"no language", "{en: Tart}", "{}", "/name minProperties"},
		{"list for a text", "{en: Tart}", "{en: [Tart]}", "/name/en type"},
		{"blank text", "{en: Tart}", "{en: ' '}", "/name/en pattern"},
		{"neither yes nor no", "version: 1", "version: 1\nripe: perhaps", "/ripe enum"},
		{"wrong word in a group", "version: 1", "version: 1\nkeep: {store: warm, life: 2 days}", "/keep/store enum"},
		{"shelf life", "version: 1", "version: 1\nkeep: {store: chilled, life: 2 fortnights}", "/keep/life pattern"},
		{"target", "version: 1", "version: 1\noven: 88 ± 3", "/oven pattern"},
		{"letters in a code", "version: 1", "version: 1\ncode: 12a", "/code pattern"},
		{"half a piece", "version: 1", "version: 1\ntools: {a: {sizes: [2.5]}}", "/tools/a/sizes/0 type"},
		{"key without a value", "{en: Tart}", "", "/name type"},
	} {
		in := strings.Replace(good, c.old, c.new, 1)
		if in == good {
			t.Fatalf("%s: nothing was planted", c.what)
		}
		if got := faults(t, s, in); !slices.Equal(got, []string{c.want}) {
			t.Errorf("%s: %v, want %s", c.what, got, c.want)
		}
		var f formula
		var found diag.List
		if read.Bytes("x", []byte(in), &f, &found) || found.Errors() != 1 {
			t.Errorf("%s: the reader finds\n%s", c.what, lines(&found))
		}
	}
}

func TestSchemaForms(t *testing.T) {
	raw, err := read.Schema(schemaID, "formula", formula{}, nil)
	again, _ := read.Schema(schemaID, "formula", formula{}, nil)
	if err != nil || !bytes.Equal(raw, again) {
		t.Fatalf("two calls differ (%v)", err)
	}
	const golden = "testdata/formula.schema.json"
	if *update {
		if err := os.WriteFile(golden, raw, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want, err := os.ReadFile(golden); err != nil || !bytes.Equal(raw, want) {
		t.Errorf("the schema differs from %s (%v):\n%s", golden, err, raw)
	}
	if list, err := read.Schema("x", "lines", []line{}, nil); err != nil || !strings.Contains(string(list), `"$ref": "#/$defs/line"`) {
		t.Errorf("a list at the top: %v\n%s", err, list)
	}
	type nameless struct {
		A struct {
			B text `key:"b"`
		} `key:"a"`
	}
	for _, root := range []any{nameless{}, 3, nil} {
		if _, err := read.Schema("x", "x", root, nil); err == nil {
			t.Errorf("%T has a schema", root)
		}
	}
}

func ExampleSchema() {
	raw, err := read.Schema("https://example.org/keep.schema.json", "keep", keep{}, nil)
	fmt.Println(err, bytes.Contains(raw, []byte(`"enum": [`)), bytes.Contains(raw, []byte(`"6 months"`)))
	// Output: <nil> true true
}
