package composition_test

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/composition"
	"chablon/labels/unit"
)

func TestTable(t *testing.T) {
	seen := map[string]bool{}
	for _, f := range composition.Foods() {
		if seen[f.Code] || f.Code == "" || slices.Contains(f.Names[:], "") || f.Group == "" {
			t.Errorf("%v: a code twice, or a name is missing", f)
		}
		seen[f.Code] = true
		for _, key := range composition.Keys() {
			text, v := f.Text(key), f.Value(key)
			if v.Known == (text == "" || text == "traces") {
				t.Errorf("%s %s: %q is known: %v", f.Code, key, text, v.Known)
			}
			if v.Below != strings.HasPrefix(text, "<") || v.Mass < 0 || v.Mass > 100*unit.Gram {
				t.Errorf("%s %s: %q reads as %v", f.Code, key, text, v)
			}
		}
		parts := f.Value("saturates").Mass <= f.Value("fat").Mass && f.Value("sugars").Mass <= f.Value("carbohydrate").Mass
		if f.Value("fat").Known && f.Value("carbohydrate").Known && !parts {
			t.Errorf("%s: a part is more than the whole", f.Code)
		}
	}
	if len(seen) != 455 {
		t.Errorf("%d foods", len(seen))
	}
}

// Printed values of the table: hazelnut, and unsalted butter of 82 % fat.
func TestValue(t *testing.T) {
	hazelnut, ok := composition.Get("15004")
	if v := hazelnut.Value("fat"); !ok || v != (composition.Value{Mass: 56_900 * unit.Milligram, Known: true}) {
		t.Errorf("hazelnut: fat %v", v)
	}
	if v := hazelnut.Value("salt"); !v.Below || v.Mass != 13*unit.Milligram {
		t.Errorf("hazelnut: salt %v", v)
	}
	if v := hazelnut.Value("polyols"); v.Known {
		t.Error("hazelnut: polyols are not in the table")
	}
	if v := hazelnut.Value("calcium"); v.Known {
		t.Error("a key that the table lacks is known")
	}
	if _, ok := composition.Get("1"); ok {
		t.Error("food 1 is there")
	}
}

func TestSearch(t *testing.T) {
	for words, want := range map[string]string{
		"hazelnut": "15004", "noisette": "15004", "Haselnuss": "15004", "NOISETTE": "15004",
		"hazelnuts": "15004", "noisettes": "15004", "Haselnüsse": "15004",
		"butter unsalted 82": "16400", "zitronensaft rein": "2028", "creme brulee": "39213", "œuf": "22000", "egg raw": "22000",
		"farine de ble t55": "9436",
	} {
		if got := composition.Search(words); len(got) == 0 || got[0].Code != want {
			t.Errorf("%q finds %v, want %s first", words, got[:min(len(got), 2)], want)
		}
	}
	for _, words := range []string{"", "  ", "xyzzy", "hazelnut xyzzy"} {
		if got := composition.Search(words); len(got) > 0 {
			t.Errorf("%q finds %v", words, got)
		}
	}
}
