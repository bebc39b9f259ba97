package print

import (
	"fmt"
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"chablon/labels/diag"
	"chablon/samples"
)

// slip is what somebody new writes by mistake into the demo shop: in the file,
// old becomes new; a file without old is written as it stands.
type slip struct{ file, old, new string }

const (
	butter  = "ingredients/butter.yaml"
	pastry  = "formulas/sweet-pastry.yaml"
	boxed   = "products/pear-hazelnut-tartlet.yaml"
	profile = "shop.yaml"
	daily   = "plans/every-day.yaml"
)

func slips() []slip {
	return []slip{
		{butter, "sulphites: 0 mg/kg", "sulphites: 0"},
		{butter, "sulphites: 0 mg/kg\n", ""},
		{butter, "sulphites: 0 mg/kg", "sulphites: none"},
		{butter, "sulphites: 0 mg/kg", "sulfites: 0 mg/kg"},
		{butter, "contains: [milk]", "contains: [lait]"},
		{butter, "contains: [milk]", "contains: [Milch]"},
		{butter, "contains: [milk]", "contains: [lactose]"},
		{butter, "contains: [milk]", "contains: milk"},
		{butter, "contains: [milk]", "contains: none"},
		{butter, "contains: [milk]", "contains: [milk, gluten]"},
		{butter, "contains: [milk]", "contains: [nuts]"},
		{butter, "contains: [milk]", "contains: []"},
		{butter, "contains: [milk]", "contains:"},
		{butter, "may-contain: []", "may-contain: [traces of nuts]"},
		{butter, "may-contain: []\n", ""},
		{butter, "water: 16 %", "water: 16"},
		{butter, "water: 16 %", "water: 16,5 %"},
		{butter, "water: 16 %", "water: 160 %"},
		{butter, "order-pack: 10 kg", "order-pack: 2 lb"},
		{butter, "order-pack: 10 kg", "order-pack: 20 ml"},
		{butter, "order-pack: 10 kg", "order-pack: 2 cups"},
		{butter, "order-pack: 10 kg", "order-pack: 1.000 g"},
		{butter, "order-pack: 10 kg", "order-pack: 10KG"},
		{butter, "order-pack: 10 kg", "order-pack: ten kilos"},
		{butter, "price: 74.00 EUR", "price: 74"},
		{butter, "price: 74.00 EUR", "price: €74"},
		{butter, "dated: 2026-01-08", "dated: 08.01.2026"},
		{butter, "dated: 2026-01-08", "dated: 2027-01-08"},
		{butter, "name:\n  en: butter\n  fr: beurre\n  de: Butter", "name: butter"},
		{butter, "  fr: beurre\n", ""},
		{butter, "fat: 82.9 g", "fat: 829 g"},
		{butter, "bought-as:", "bought as:"},
		{butter, "supplier: Halewyn Dairy", "supplier: Halewyn: Dairy"},
		{butter, "per-100-g:", "nutrition:"},
		{butter, "water: 16 %", "\twater: 16 %"},
		{"ingredients/Butter salted.yaml", "", "bought-as: x\n"},
		{"ingredients/salted-butter.yml", "", "bought-as: x\n"},
		{"ingredients/salted-butter.yaml", "", ""},
		{"recipes/cake.yaml", "", "name: cake\n"},
		{profile, "label-languages: [", "label-languages: [xx, "},
		{profile, "label-languages: [", "label-languages: [English, "},
		{profile, "card-languages: [", "card-languages: [sv, "},
		{profile, "markets: [", "markets: [FR, "},
		{profile, "markets: [", "markets: [UK, "},
		{pastry, "use: butter", "use: buter"},
		{pastry, "use: butter", "use: Butter"},
		{pastry, "use: butter\n", "ingredient: butter\n"},
		{pastry, "kind: mix", "kind: knead"},
		{pastry, "issued: ", "issued: yesterday #"},
		{boxed, "paper: roll-100x60", "paper: roll-100-60"},
		{boxed, "paper: roll-100x60", "paper: a4"},
		{boxed, "store: chilled", "store: fridge"},
		{boxed, "date: use-by", "date: best before"},
		{boxed, "life: ", "life: two days #"},
		{boxed, "temp: ≤ 5 °C", "temp: 5"},
		{boxed, "version: ", "version: v"},
		{boxed, "nutrition: declared", "nutrition: yes"},
		{daily, "pieces: 48", "pieces: 4 dozen"},
		{daily, "product: pear-hazelnut-tartlet", "product: pear tartlet"},
		{daily, "day: every day", "day: daily"},
	}
}

// TestSlips keeps what is answered to the slips of somebody new, word for word:
// each answer was read aloud, and says what is wrong, where, and what to do. A
// slip that nothing is said of fails.
func TestSlips(t *testing.T) {
	before := said(t, nil)
	var out strings.Builder
	for _, s := range slips() {
		fmt.Fprintf(&out, "# %s: %s\n", s.file, strings.ReplaceAll(s.old+" → "+s.new, "\n", "⏎"))
		n := 0
		for _, d := range said(t, &s) {
			if !slices.Contains(before, d) {
				n++
				fmt.Fprintln(&out, d)
			}
		}
		if n == 0 {
			t.Errorf("nothing is said of %q in %s", s.new, s.file)
		}
	}
	sameAs(t, "testdata/slips.txt", out.String())
}

// sameAs compares with a golden file.
func sameAs(t *testing.T, file, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(file)
	if err != nil || string(want) != got {
		t.Errorf("%s differs (%v); read the change, then run with -update; got:\n%s", file, err, got)
	}
}

// said gives what is found on opening the demo shop with a slip in it, at most
// three findings.
func said(t *testing.T, s *slip) (out []string) {
	t.Helper()
	p, err := open("", slipped(t, s), theDay(), time.Time{})
	if err != nil {
		t.Fatal(err)
	}
	all := p.Found.All()
	slices.SortStableFunc(all, func(a, b diag.Diag) int { return later(a) - later(b) })
	for _, d := range all {
		if len(out) < 3 || s == nil {
			out = append(out, d.String())
		}
	}
	return out
}

// later puts errors first, as the command line does.
func later(d diag.Diag) int {
	if d.Warning {
		return 1
	}
	return 0
}

// slipped is the demo shop with a slip in it.
func slipped(t *testing.T, s *slip) fs.FS {
	t.Helper()
	files := fstest.MapFS{}
	demo := samples.Demo()
	err := fs.WalkDir(demo, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		data, err := fs.ReadFile(demo, name)
		files[name] = &fstest.MapFile{Data: data}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	switch {
	case s == nil:
	case s.old == "":
		files[s.file] = &fstest.MapFile{Data: []byte(s.new)}
	default:
		was := string(files[s.file].Data)
		if !strings.Contains(was, s.old) {
			t.Fatalf("%s holds no %q", s.file, s.old)
		}
		files[s.file].Data = []byte(strings.Replace(was, s.old, s.new, 1))
	}
	return files
}
