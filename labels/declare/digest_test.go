package declare_test

import (
	"fmt"
	"io/fs"
	"path"
	"regexp"
	"strings"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

func demoFacts(t testing.TB, sh *shop.Shop, id string, made unit.Date) *declare.Facts {
	t.Helper()
	var found diag.List
	m, _ := market.Get("eu")
	p := sh.Products[id]
	f := declare.Of(sh, p, &p.Packs[0], m, made, &found)
	for _, d := range found.All() {
		t.Fatalf("%s", d)
	}
	return f
}

func demoShop(t testing.TB, fsys fs.FS) *shop.Shop {
	t.Helper()
	var found diag.List
	sh := shop.Load(fsys, &found)
	for _, d := range found.All() {
		if !d.Warning {
			t.Fatalf("%s", d)
		}
	}
	return sh
}

func tuesday() unit.Date { return unit.Date{Year: 2026, Month: 3, Day: 17} }

// The form of RFC 4648: its Base32 alphabet has no 0, 1, 8 and 9.
func TestDigestForm(t *testing.T) {
	form := regexp.MustCompile(`^F2-([A-Z2-7]{4}-){3}[A-Z2-7]{4}$`)
	sh := demoShop(t, samples.Demo())
	seen := map[string]string{}
	for _, id := range sh.ProductIDs {
		d := demoFacts(t, sh, id, tuesday()).Digest()
		if !form.MatchString(d) || seen[d] != "" {
			t.Errorf("%s has the digest %q, as %q", id, d, seen[d])
		}
		seen[d] = id
	}
}

// The day of making changes the date on the label, but nothing that is
// approved: every day of four years, a leap year among them.
func TestDigestAnyDay(t *testing.T) {
	sh := demoShop(t, samples.Demo())
	for _, id := range sh.ProductIDs {
		want := demoFacts(t, sh, id, tuesday()).Digest()
		for n := 0; n < 4*365+1; n += 13 {
			if day := tuesday().AddDays(n); demoFacts(t, sh, id, day).Digest() != want {
				t.Fatalf("%s made on %s has another digest", id, day)
			}
		}
	}
}

// edited is the demo shop with one file changed.
func edited(t testing.TB, file string, change func(string) string) fs.FS {
	t.Helper()
	out := fstest.MapFS{}
	err := fs.WalkDir(samples.Demo(), ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(samples.Demo(), name)
		if name == file {
			text := change(string(data))
			if text == string(data) {
				t.Fatalf("%s was not changed", name)
			}
			data = []byte(text)
		}
		out[path.Clean(name)] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestDigestChanges(t *testing.T) {
	was := demoFacts(t, demoShop(t, samples.Demo()), "pear-hazelnut-tartlet", tuesday()).Digest()
	for _, c := range []struct {
		what, file, old, new string
		same                 bool
	}{
		{"an allergen more in one ingredient", "ingredients/salt.yaml", "contains: []", "contains: [celery]", false},
		{"a trace more", "ingredients/salt.yaml", "may-contain: []", "may-contain: [sesame]", false},
		{"the English name of an ingredient", "ingredients/butter.yaml", "en: butter", "en: unsalted butter", false},
		{"a name in a language not printed", "ingredients/butter.yaml", "fr: beurre", "fr: beurre doux", false},
		{"one day more", "products/pear-hazelnut-tartlet.yaml", "life: 2 days", "life: 3 days", false},
		{"net quantity", "products/pear-hazelnut-tartlet.yaml", "net: 170 g", "net: 165 g", false},
		{"fat in the butter", "ingredients/butter.yaml", "  saturates: 5", "  saturates: 4", false},
		{"a step", "products/pear-hazelnut-tartlet.yaml", "Chill the lined rings.", "Chill the lined rings well.", true},
		{"the batch", "shop.yaml", "L{yy}{day}{letter}", "L{yy}-{day}{letter}", true},
		{"the paper", "products/pear-hazelnut-tartlet.yaml", "paper: roll-100x60", "paper: roll-100x100", true},
		{"the version alone", "products/pear-hazelnut-tartlet.yaml", "version: 4", "version: 5", true},
		{"another product's ingredient", "ingredients/cocoa-butter.yaml", "may-contain: []", "may-contain: [mustard]", true},
	} {
		sh := demoShop(t, edited(t, c.file, func(s string) string { return strings.Replace(s, c.old, c.new, 1) }))
		if now := demoFacts(t, sh, "pear-hazelnut-tartlet", tuesday()).Digest(); (now == was) != c.same {
			t.Errorf("%s: digest %s, was %s", c.what, now, was)
		}
	}
}

// Lines may stand in any order, in the make-up and in the formulas.
func TestDigestPermuted(t *testing.T) {
	want := map[string]string{}
	first := demoShop(t, samples.Demo())
	for _, id := range first.ProductIDs {
		want[id] = demoFacts(t, first, id, tuesday()).Digest()
	}
	rapid.Check(t, func(rt *rapid.T) {
		sh := demoShop(t, samples.Demo())
		for _, id := range sh.FormulaIDs {
			f := sh.Formulas[id]
			f.Lines = rapid.Permutation(f.Lines).Draw(rt, id)
		}
		id := rapid.SampledFrom(sh.ProductIDs).Draw(rt, "product")
		p := sh.Products[id]
		for i := range p.Parts {
			if sh.Products[p.Parts[i].Add[0].Use.V] == nil { // the lists of an assortment keep their order
				p.Parts[i].Add = rapid.Permutation(p.Parts[i].Add).Draw(rt, "stage")
			}
		}
		if got := demoFacts(t, sh, id, tuesday()).Digest(); got != want[id] {
			rt.Fatalf("%s: %s, want %s", id, got, want[id])
		}
	})
}

func ExampleFacts_Digest() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	m, _ := market.Get("eu")
	p := sh.Products["pistachio-choux"]
	on := func(day int) string {
		return declare.Of(sh, p, &p.Packs[0], m, unit.Date{Year: 2026, Month: 3, Day: day}, &found).Digest()
	}
	fmt.Println(on(17) == on(18), len(on(17)))
	// Output: true 22
}
