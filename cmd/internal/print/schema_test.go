package print

import (
	"bytes"
	"encoding/json"
	"slices"
	"testing"
)

// property is what a schema says of one key.
type property struct {
	Description string              `json:"description"`
	Ref         string              `json:"$ref"`
	Enum        []any               `json:"enum"`
	Pattern     string              `json:"pattern"`
	Error       string              `json:"patternErrorMessage"`
	Items       *property           `json:"items"`
	AnyOf       []property          `json:"anyOf"`
	Properties  map[string]property `json:"properties"`
}

// schemas reads the schema of each kind of file.
func schemas(t *testing.T) map[string]map[string]property {
	t.Helper()
	files, err := Schemas()
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]map[string]property{}
	for _, f := range files {
		var b bytes.Buffer
		if err := f.Write(&b); err != nil {
			t.Fatal(err)
		}
		var s struct {
			Defs map[string]property `json:"$defs"`
		}
		if err := json.Unmarshal(b.Bytes(), &s); err != nil {
			t.Fatalf("%s: %v", f.Name, err)
		}
		out[f.Name] = s.Defs
	}
	return out
}

// TestEveryKeyIsExplained: an editor shows words for each key that may stand in
// a file, and for each pattern words instead of a regular expression.
func TestEveryKeyIsExplained(t *testing.T) {
	n := 0
	for file, defs := range schemas(t) {
		if file == "declaration.schema.json" || file == "why.schema.json" {
			continue // what the program writes
		}
		for def, d := range defs {
			for key, p := range d.Properties {
				n++
				if p.Description == "" {
					t.Errorf("%s: %s of %s has no help", file, key, def)
				}
				if p.Pattern != "" && p.Pattern != `\S` && p.Error == "" {
					t.Errorf("%s: %s of %s would show a regular expression", file, key, def)
				}
			}
		}
	}
	if n < 200 {
		t.Errorf("only %d keys were looked at", n)
	}
}

// TestClosedListsAreEnums: what can only be one of some words is offered by an
// editor, and refused where it is none of them; what a shop may add to is
// offered alone.
func TestClosedListsAreEnums(t *testing.T) {
	all := schemas(t)
	for _, c := range []struct {
		file, def, key, word string
		open                 bool
	}{
		{"ingredient", "ingredient", "contains", "pistachio nuts", false},
		{"ingredient", "inner", "class", "emulsifier", false},
		{"shop", "profile", "markets", "EU", false},
		{"shop", "profile", "label-languages", "nb", false},
		{"product", "pack", "languages", "uk", false},
		{"product", "pack", "paper", "roll-100x60", true},
		{"formula", "step", "cautions", "hot-sugar", false},
		{"product", "product", "free-from", "gluten", false},
	} {
		p := all[c.file+".schema.json"][c.def].Properties[c.key]
		if p.Items != nil {
			p = *p.Items
		}
		enum := p.Enum
		if c.open && len(p.AnyOf) == 2 {
			enum = p.AnyOf[0].Enum
		}
		if !slices.Contains(enum, any(c.word)) || c.open != (len(p.AnyOf) > 0) {
			t.Errorf("%s of %s: %v (open: %v), want %q among them", c.key, c.def, enum, len(p.AnyOf) > 0, c.word)
		}
	}
	if keys := all["ingredient.schema.json"]["ingredient"].Properties["truly-free"].Properties; keys["sesame"].Enum != nil || len(keys) < 20 {
		t.Errorf("truly-free offers %d allergens as keys", len(keys))
	}
}
