package samples_test

import (
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

// demo loads the demo shop; a finding of any kind fails the test.
func demo(t testing.TB) *shop.Shop {
	t.Helper()
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	for _, d := range found.All() {
		t.Errorf("%s", d)
	}
	if t.Failed() {
		t.FailNow()
	}
	return sh
}

// table reads a file of testdata, line by line without comments, cut at the
// first colon: the words before it, and the list behind it.
func table(t testing.TB, name string, row func(head []string, list [][]string)) {
	t.Helper()
	b, err := os.ReadFile("testdata/" + name)
	if err != nil {
		t.Fatal(err)
	}
	rows := 0
	for line := range strings.Lines(string(b)) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		head, rest, _ := strings.Cut(line, ":")
		var list [][]string
		for _, item := range strings.Split(rest, ",") {
			list = append(list, strings.Fields(item))
		}
		rows++
		row(strings.Fields(head), list)
	}
	if rows == 0 {
		t.Fatalf("%s has no rows", name)
	}
}

// grams reads a mass as the tables write it.
func grams(t testing.TB, s string) unit.Mass {
	t.Helper()
	if strings.Contains(s, ".") {
		s += "000" // so that three digits behind the point are no thousands
	}
	m, err := unit.ParseMass(s + " g")
	if err != nil {
		t.Fatal(err)
	}
	return m
}

// near reports whether m, rounded to as many decimals as want has, is want.
func near(t testing.TB, m unit.Mass, want string) bool {
	t.Helper()
	step := unit.Gram
	if _, decimals, ok := strings.Cut(want, "."); ok {
		for range decimals {
			step /= 10
		}
	}
	return m.Round(step) == grams(t, want)
}

func Example() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	fmt.Println(sh.Profile.Name.V, "with", found.Len(), "findings")
	name, _ := shop.In(sh.Products["pistachio-choux"].Name, "fr")
	fmt.Println(name.V)
	// Output:
	// Quoin & Crumb Pastry with 0 findings
	// Chou à la pistache
}

func TestFolder(t *testing.T) {
	for folder, want := range map[string]int{"ingredients": 38, "formulas": 12, "products": 7, "plans": 2, "customers": 1} {
		files, err := fs.Glob(samples.Demo(), folder+"/*.yaml")
		if err != nil || len(files) != want {
			t.Errorf("%s has %d files (%v), want %d", folder, len(files), err, want)
		}
	}
	if _, err := fs.Stat(samples.Demo(), "shop.yaml"); err != nil {
		t.Error(err)
	}
}

// All that is on a plan can be read in each language of the label and card.
func TestWords(t *testing.T) {
	sh := demo(t)
	speaks := func(what string, w shop.Words, langs []shop.Text) {
		for _, lang := range langs {
			if s, ok := shop.In(w, lang.V); !ok || s.V == "" {
				t.Errorf("%s is not said in %s", what, lang.V)
			}
		}
	}
	label, card := sh.Profile.LabelLanguages, sh.Profile.CardLanguages
	if len(label) != 3 || len(card) != 2 {
		t.Fatalf("%d languages on labels and %d on cards, want 3 and 2", len(label), len(card))
	}
	for _, id := range sh.IngredientIDs {
		speaks(id, sh.Ingredients[id].Name, label)
		for i, in := range sh.Ingredients[id].MadeOf {
			speaks(fmt.Sprintf("%s, part %d", id, i+1), in.Name, label)
		}
	}
	steps := func(id string, all []shop.Step) {
		for _, s := range all {
			speaks(id+" step "+s.ID.V, s.Do, card)
		}
	}
	for _, id := range sh.FormulaIDs {
		speaks(id, sh.Formulas[id].Name, label)
		steps(id, sh.Formulas[id].Steps)
	}
	for _, id := range sh.ProductIDs {
		speaks(id, sh.Products[id].Name, label)
		steps(id, sh.Products[id].Steps)
	}
}

func TestFormulas(t *testing.T) {
	sh, rows := demo(t), 0
	table(t, "formulas.txt", func(head []string, list [][]string) {
		rows++
		f := sh.Formulas[head[0]]
		if f == nil {
			t.Fatalf("no formula %s", head[0])
		}
		if head[1] != "-" && f.Out() != grams(t, head[1]) {
			t.Errorf("%s gives %s, want %s g", f.ID, f.Out(), head[1])
		}
		if len(f.Lines) != len(list) {
			t.Fatalf("%s has %d lines, want %d", f.ID, len(f.Lines), len(list))
		}
		for i, want := range list {
			if l := f.Lines[i]; l.Use.V != want[0] || l.Take.V != grams(t, want[1]) {
				t.Errorf("%s: %s of %s, want %s g of %s", f.ID, l.Take.V, l.Use.V, want[1], want[0])
			}
		}
	})
	if rows != len(sh.FormulaIDs) {
		t.Errorf("%d formulas in the table, %d in the shop", rows, len(sh.FormulaIDs))
	}
}
