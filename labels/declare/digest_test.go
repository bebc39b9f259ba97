package declare_test

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"path"
	"reflect"
	"regexp"
	"slices"
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

var update = flag.Bool("update", false, "write the canonical text anew: every approval falls")

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

// The canonical form must not change by chance: all approvals would fall.
func TestCanon(t *testing.T) {
	const golden = "testdata/canon.golden"
	got := demoFacts(t, demoShop(t, samples.Demo()), "lemon-thyme-marshmallow", tuesday()).Canon()
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("the canonical text has changed, so every approval falls:\n%s", got)
	}
}

// The form of RFC 4648: its Base32 alphabet has no 0, 1, 8 and 9.
func TestDigestForm(t *testing.T) {
	form := regexp.MustCompile(`^([A-Z2-7]{4}-){3}[A-Z2-7]{4}$`)
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

// Whatever is changed in the facts changes the digest, but for what is listed
// here, which no label says.
func TestDigestCountsEverything(t *testing.T) {
	sh := demoShop(t, samples.Demo())
	silent := map[string]bool{}
	for _, id := range []string{"passion-caramel-bar", "bench-tin", "pear-hazelnut-tartlet"} {
		f := demoFacts(t, sh, id, tuesday())
		f.Statements = append(f.Statements, declare.Statement{Key: "cocoa", Share: unit.Percent})
		before := f.Digest()
		each(reflect.ValueOf(f).Elem(), "", 0, func(name string) {
			if f.Digest() == before {
				silent[name] = true
			}
		})
		if f.Digest() != before {
			t.Fatalf("%s was not put back", id)
		}
	}
	var got []string
	for name := range silent {
		got = append(got, name)
	}
	slices.Sort(got)
	want := []string{"AtUse", "Date.End", "Date.Limit", "Date.Shown", "Finished", "Lists.Parts.Inner.Ref", "Lists.Parts.Ref",
		"Made", "Nutrition.Rows.Exact", "Pack.Around", "Pack.Face", "Pack.Languages", "Pack.Price", "Pack.Stock",
		"Product.Approved", "Product.CutTo", "Product.Handling", "Product.Issued", "Product.Assessment", "Product.Merge",
		"Product.Keep.Temp.InF", "Product.Keep.Temp.Lo", "Product.Keep.Temp.Tol", // of "≤ 5 °C", whichever scale it was written in
		"Product.Additives", "Product.List", "Product.NoList", "Product.Version", "SO2", "Statements.Law"}
	slices.Sort(want)
	if !slices.Equal(got, want) {
		t.Errorf("no label says\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// each changes one leaf after the other, calls seen with its path, and puts it
// back. Lists that a label does not come from, and places, are passed over.
func each(v reflect.Value, name string, depth int, seen func(string)) {
	if depth > 14 {
		return
	}
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() && v.Type() != reflect.TypeFor[*market.Market]() {
			each(v.Elem(), name, depth+1, seen)
		}
	case reflect.Slice:
		for i := range v.Len() {
			each(v.Index(i), name, depth+1, seen)
		}
	case reflect.Struct:
		fields(v, name, depth, seen)
	default:
		old := reflect.New(v.Type()).Elem()
		old.Set(v)
		other(v)
		seen(name)
		v.Set(old)
	}
}

func fields(v reflect.Value, name string, depth int, seen func(string)) {
	for i := range v.NumField() {
		f := v.Type().Field(i)
		path := strings.Trim(name+"."+f.Name, ".")
		switch {
		case f.Type == reflect.TypeFor[diag.Pos](),
			slices.Contains([]string{"Decisions", "Product.ID", "Product.MakeUp", "Product.Quid", "Product.Steps", "Product.Tray", "Product.Packs", "Product.Carton"}, path):
			continue
		case f.Name == "V", f.Anonymous, v.Type() == reflect.TypeFor[unit.Date](), v.Type() == reflect.TypeFor[market.Printed](),
			v.Type() == reflect.TypeFor[unit.Money]():
			path = name
		}
		each(v.Field(i), path, depth+1, seen)
	}
}

// other gives v a value that it did not have.
func other(v reflect.Value) {
	switch v.Kind() {
	case reflect.Bool:
		v.SetBool(!v.Bool())
	case reflect.String:
		v.SetString(v.String() + "x")
	case reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64, reflect.Uint:
		v.SetUint(v.Uint() + 1)
	default:
		v.SetInt(v.Int() + int64(unit.Gram)) // more than any rounding
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
		{"the paper", "products/pear-hazelnut-tartlet.yaml", "stock: roll-100x60", "stock: roll-100x100", true},
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
		for i := range p.MakeUp {
			if sh.Products[p.MakeUp[i].Add[0].Use.V] == nil { // the lists of an assortment keep their order
				p.MakeUp[i].Add = rapid.Permutation(p.MakeUp[i].Add).Draw(rt, "stage")
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
	// Output: true 19
}
