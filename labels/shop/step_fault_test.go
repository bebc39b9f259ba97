package shop_test

import (
	"fmt"
	"io/fs"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/shop"
	"chablon/samples"
)

// workshop gives a copy of the sample workshop that may be changed.
func workshop(t *testing.T) fstest.MapFS {
	t.Helper()
	out := fstest.MapFS{}
	err := fs.WalkDir(samples.Workshop(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(samples.Workshop(), name)
		out[name] = &fstest.MapFile{Data: b}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

const (
	ganache  = "formulas/dark-ganache.yaml"
	shell    = "formulas/dark-shell.yaml"
	layers   = "formulas/laminated-dough.yaml"
	custard  = "formulas/vanilla-custard.yaml"
	meringue = "formulas/syrup-meringue.yaml"
)

// stepFaults are planted one at a time into the workshop; each must be found,
// by its rule, in its file. What is said, with its hint, is in the golden file.
var stepFaults = []struct{ name, rule, file, old, new string }{
	{"a share too much", "uses", meringue, "share: 10 %", "share: 20 %"},
	{"a share too little", "uses", meringue, "share: 10 %", "share: 5 %"},
	{"a share of more than all", "range", meringue, "share: 10 %", "share: 110 %"},
	{"a line twice without shares", "uses", meringue, "{line: caster-sugar, share: 10 %}", "caster-sugar"},
	{"a line and a step at once", "uses", meringue, "{step: M2}", "{step: M2, line: water}"},
	{"a step written as a line", "uses", meringue, "{step: M2}", "M2"},
	{"the product of no step", "step", meringue, "{step: M2}", "{step: M9}"},
	{"the product of itself", "circle", meringue, "{step: M2}", "{step: M3}"},
	{"starts with no step", "step", meringue, "with: M1", "with: M7"},
	{"starts with itself", "circle", meringue, "with: M1", "with: M2"},
	{"starts with a step and after it", "starts", meringue, "    starts:", "    needs: [M1]\n    starts:"},
	{"starts where the other never comes", "starts", meringue, "at: 114 °C", "at: 141 °C"},
	{"starts in a circle", "circle", meringue, "    kind: boil\n", "    kind: boil\n    needs: [M2]\n"},
	{"five hands", "one-of", meringue, `hand: "2"`, `hand: "5"`},
	{"less in work than goes in", "in-work", shell, "in-work: 3 kg\n    in:", "in-work: 1 kg\n    in:"},
	{"nothing in work", "range", shell, "in-work: 3 kg\n    in:", "in-work: 0 g\n    in:"},
	{"a place that is none", "one-of", shell, "in: water-bath", "in: bath"},
	{"a cold room that is warm", "place", shell, "at: 12 to 14 °C", "at: 18 to 20 °C"},
	{"a proofer in the wrong unit", "place", layers, "at: 25 to 27 °C", "at: 25 to 27 °F"},
	{"a humidity without its sign", "unit", layers, "humidity: 75 to 80 %", "humidity: 75 to 80"},
	{"a humidity that falls", "unit", layers, "humidity: 75 to 80 %", "humidity: 80 to 75 %"},
	{"a mixer of speed nought", "range", layers, "speed: 1, for: 4 min, with", "speed: 0, for: 4 min, with"},
	{"a mixer that runs on", "mixer", layers, "speed: 2, for: 6 min", "speed: 2, for: 60 min"},
	{"a tool in the mixer that is none", "one-of", layers, "with: hook", "with: spoon"},
	{"a thickness of nothing", "range", layers, "thickness: 8 mm", "thickness: 0 mm"},
	{"a size in one direction", "size", layers, "cut: 90 × 250 mm", "cut: 90 mm"},
	{"a turn that is none", "one-of", layers, "turns: [double]", "turns: [book]"},
	{"turns of something else", "!size", layers, "    of: laminated-dough\n    uses: [{step: A2}", "    of: butter\n    uses: [{step: A2}"},
	{"phases of a pan", "phases", layers, "kind: bake", "kind: cook"},
	{"an oven set twice", "phases", layers, "    phases:", "    set: [180 °C]\n    phases:"},
	{"phases longer than the step", "phases", layers, "    phases:", "    waiting: 5 min\n    phases:"},
	{"steam longer than its phase", "phases", layers, "steam: 3 s", "steam: 10 min"},
	{"a door that is neither", "one-of", layers, "door: shut", "door: open"},
	{"a fan that is none", "one-of", layers, "fan: low", "fan: medium"},
	{"a vent that is neither", "one-of", layers, "vent: open", "vent: ajar"},
	{"an oven in the wrong unit", "temperature", layers, "set: 170 °C", "set: 170 °F"},
	{"waiting that falls", "range", layers, "waiting: 30 to 45 min", "waiting: 45 to 30 min"},
	{"waiting without a unit", "unit", layers, "waiting: 30 to 45 min", "waiting: 30 to 45"},
	{"a second temperature without a name", "unnamed", shell, "\n        of: {en: cooled, fr: refroidie}", ""},
	{"a name in one language", "translation", shell, "of: {en: cooled, fr: refroidie}", "of: {en: cooled}"},
	{"held at a temperature of no unit", "unit", shell, "hold: {at: 31 to 32 °C}", "hold: {at: 31 to 32}"},
	{"a never-line in one language", "translation", shell, "      fr: Pas une goutte d’eau dedans.\n", ""},
	{"another way in one language", "translation", ganache, "      fr: au mixeur plongeant, tête immergée\n", ""},
	{"a limit that counts from somewhere and says no time", "limit", custard, "      within: 2 h\n", ""},
	{"a record that is neither yes nor no", "one-of", custard, "record: yes\n      measure: {en: probe in the middle of the pan", "record: daily\n      measure: {en: probe in the middle of the pan"},
	{"the amount of no line", "take", meringue, "Boil {take:water} water", "Boil {take:wate} water"},
	{"an amount in one language only", "take", meringue, "Cuire {take:water} d’eau", "Cuire l’eau"},
	{"a brace that stands for nothing", "take", meringue, "Boil {take:water} water", "Boil {water}"},
	{"an amount that no batch can change", "!typed-amount", meringue, "Whisk the whites with", "Whisk 160 g of whites with"},
	{"a picture in another folder", "picture", layers, "file: pictures/fold.png", "file: ../fold.png"},
	{"a picture that is not there", "picture", layers, "file: pictures/fold.png", "file: pictures/Fold.png"},
	{"a picture that is none", "picture", layers, "file: pictures/fold.png", "file: pictures/none.png"},
	{"a picture without words", "missing-key", layers, "\n      shows:\n        en: a double turn, both ends folded to the middle, then in half\n        fr: un tour double, deux bouts rabattus au milieu, puis pliés", ""},
	{"a picture told in one language", "translation", layers, "        fr: un tour double, deux bouts rabattus au milieu, puis pliés\n", ""},
}

func TestStepFaults(t *testing.T) {
	var clean diag.List
	shop.Load(workshop(t), &clean)
	for _, d := range clean.All() {
		t.Errorf("the workshop as it is: %s", d)
	}
	var out strings.Builder
	for _, f := range stepFaults {
		in := workshop(t)
		in["pictures/none.png"] = &fstest.MapFile{Data: []byte("\x89PNG\r\n\x1a\nand nothing else")}
		edit{f.file, f.old, f.new}.apply(t, in)
		var found diag.List
		shop.Load(in, &found)
		rule, caution := strings.CutPrefix(f.rule, "!")
		hit := false
		fmt.Fprintf(&out, "# %s\n", f.name)
		for _, d := range found.All() {
			if d.Pos.File != f.file || d.Hint == "" && d.Rule != "missing-key" {
				t.Errorf("%s: %s", f.name, d)
			}
			hit = hit || d.Rule == rule && d.Warning == caution
			fmt.Fprintln(&out, d)
		}
		if !hit {
			t.Errorf("%s: no [%s] among %v", f.name, f.rule, found.All())
		}
	}
	golden(t, "testdata/step-faults.out", out.String())
}

// A word that no key of a step knows is answered with all that it knows. The
// test finds the keys by their tags, so that a new one is in it.
func TestClosedWordsAreListed(t *testing.T) {
	n := 0
	for _, root := range []any{shop.Step{}, shop.Climate{}, shop.Phase{}, shop.Mixer{}, shop.Size{}} {
		typ := reflect.TypeOf(root)
		for i := range typ.NumField() {
			key, one := typ.Field(i).Tag.Get("key"), typ.Field(i).Tag.Get("one")
			if one == "" {
				continue
			}
			n++
			value := "zzz"
			if typ.Field(i).Type.Kind() == reflect.Slice {
				value = "[zzz]"
			}
			var found diag.List
			read.Bytes("x.yaml", []byte(key+": "+value+"\n"), reflect.New(typ).Interface(), &found)
			told := false
			for _, d := range found.All() {
				all := d.Rule == "one-of"
				for _, w := range strings.Split(one, "|") {
					all = all && strings.Contains(d.Hint, w)
				}
				told = told || all
			}
			if !told {
				t.Errorf("%s.%s: %v", typ.Name(), key, found.All())
			}
		}
	}
	if n < 9 {
		t.Errorf("only %d keys with closed words", n)
	}
}
