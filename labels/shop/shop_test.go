package shop_test

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
	"testing"
	"testing/fstest"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/samples"
)

func load(t testing.TB, fsys fs.FS) *shop.Shop {
	t.Helper()
	var found diag.List
	s := shop.Load(fsys, &found)
	for _, d := range found.All() {
		t.Errorf("%s", d)
	}
	return s
}

func day(t testing.TB, s string) unit.Date {
	t.Helper()
	d, err := unit.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

func Example() {
	var found diag.List
	s := shop.Load(samples.Demo(), &found)
	f := s.Formulas["passion-caramel"]
	fmt.Println(f.In(), "in,", f.Out(), "out;", found.Len(), "findings")
	// Output: 1013 g in, 760 g out; 0 findings
}

func ExampleLoad() {
	folder := fstest.MapFS{
		"shop.yaml": {Data: []byte("name: Test Kitchen\nadress: 1 Test Lane\n")},
	}
	var found diag.List
	shop.Load(folder, &found)
	fmt.Println(found.All()[0].Pos, found.All()[0].Rule)
	// Output: shop.yaml:1:1 missing-key
}

// The reader takes every struct as it is tagged.
func TestTags(t *testing.T) {
	for _, v := range []any{shop.Profile{}, shop.Ingredient{}, shop.Formula{}, shop.Product{}, shop.Plan{}} {
		if err := read.Check(v); err != nil {
			t.Errorf("%T: %v", v, err)
		}
	}
}

func TestDemo(t *testing.T) {
	s := load(t, samples.Demo())
	if len(s.IngredientIDs) != 38 || len(s.FormulaIDs) != 12 || len(s.ProductIDs) != 7 || len(s.Plans) != 2 {
		t.Errorf("%d ingredients, %d formulas, %d products, %d plans", len(s.IngredientIDs), len(s.FormulaIDs), len(s.ProductIDs), len(s.Plans))
	}
}

// Masses after the losses, added up by hand from the lines of the demo shop.
// The caramel is the worked example of an end weight: 1013 g less 253 g.
func TestFormulaMass(t *testing.T) {
	s := load(t, samples.Demo())
	for _, c := range []struct {
		id      string
		in, out unit.Mass
	}{
		{"sweet-pastry", 2308, 2308},
		{"hazelnut-frangipane", 826, 826},
		{"pear-syrup", 1143, 1143},
		{"poached-pear", 1050, 1000},
		{"passion-caramel", 1013, 760},
		{"white-crisp", 251, 251},
		{"rye-shortbread", 1364, 1364},
		{"choux-paste", 1495, 1435},
		{"craquelin", 350, 350},
		{"pistachio-pastry-cream", 1636, 1554},
		{"pistachio-diplomat", 1260, 1260},
		{"marshmallow", 1123, 979},
	} {
		f := s.Formulas[c.id]
		if f.In() != c.in*unit.Gram || f.Out() != c.out*unit.Gram {
			t.Errorf("%s: %s in, %s out, want %d and %d g", c.id, f.In(), f.Out(), c.in, c.out)
		}
	}
}

// Chained losses, never added (W. Gisslen, Professional Baking, on yield):
// 10 % and then 10 % of 1000 g leave 810 g.
func TestLossesAreChained(t *testing.T) {
	in := small(t)
	edit{apples, "    water-lost: 60 g", "    water-lost: 10 %"}.apply(t, in)
	edit{apples, "    left-behind: 5 %", "    left-behind: 10 %"}.apply(t, in)
	if out := load(t, in).Formulas["cooked-apple"].Out(); out != 810*unit.Gram {
		t.Errorf("%s are left", out)
	}
}

// Bake losses as published by a baking school: 84 g of dough give 75 g of
// bread, 10.7 % less; 2514 g at 15.5 % give 2124.3 g.
func TestPortion(t *testing.T) {
	for _, c := range []struct {
		portion string
		of      unit.Mass
		left    string
	}{
		{"9 g", 84 * unit.Gram, "75 g"},
		{"15.5 %", 2514 * unit.Gram, "2124.33 g"},
		{"12.5 %", 96 * unit.Gram, "84 g"},
		{"0 %", unit.Gram, "1 g"},
		{"200 g", 100 * unit.Gram, "0 g"}, // more than there is
	} {
		var l shop.Loss
		if err := l.WaterLost.V.UnmarshalText([]byte(c.portion)); err != nil {
			t.Fatal(err)
		}
		if left := c.of - l.Of(c.of); left.String() != c.left {
			t.Errorf("%s off %s leave %s, want %s", c.portion, c.of, left, c.left)
		}
	}
	for _, bad := range []string{"", "12", "12,5 %", "-3 %", "-3 g", "3 l", "%"} {
		var p shop.Portion
		if err := p.UnmarshalText([]byte(bad)); err == nil {
			t.Errorf("%q was read", bad)
		}
	}
}

func TestPlanDay(t *testing.T) {
	for _, c := range []struct {
		text string
		want shop.PlanDay
		ok   bool
	}{
		{"every day", shop.PlanDay{Every: true}, true},
		{"2026-03-17", shop.PlanDay{Date: unit.Date{Year: 2026, Month: 3, Day: 17}}, true},
		{"2026-02-29", shop.PlanDay{}, false},
		{"Every day", shop.PlanDay{}, false},
		{"tuesday", shop.PlanDay{}, false},
	} {
		var d shop.PlanDay
		if err := d.UnmarshalText([]byte(c.text)); d != c.want || (err == nil) != c.ok {
			t.Errorf("%q: %v, %v", c.text, d, err)
		}
	}
}

func TestPlanFor(t *testing.T) {
	s := load(t, small(t))
	for _, c := range []struct{ day, want string }{
		{"2026-03-17", "17-march"}, // a dated plan wins
		{"2026-03-18", "every-day"},
	} {
		if p, ok := s.PlanFor(day(t, c.day)); !ok || p.ID != c.want {
			t.Errorf("%s: %v, want %s", c.day, p, c.want)
		}
	}
	s.Plans = nil
	if p, ok := s.PlanFor(day(t, "2026-03-17")); ok {
		t.Errorf("a plan from nowhere: %v", p)
	}
}

// Days of the year as ISO 8601 counts them: 2026-03-17 is 2026-076, and 2028
// is a leap year.
func TestBatchCode(t *testing.T) {
	s := load(t, small(t))
	text := func(v string) shop.Text { return shop.Text{V: v, Pos: diag.Pos{File: "x"}} }
	for _, c := range []struct {
		run  shop.Run
		day  string
		want string
	}{
		{shop.Run{}, "2026-03-17", "L26076A"},
		{shop.Run{Letter: text("B")}, "2026-03-18", "L26077B"},
		{shop.Run{Batch: text("X-1")}, "2026-03-17", "X-1"},
		{shop.Run{}, "2026-01-01", "L26001A"},
		{shop.Run{}, "2028-12-31", "L28366A"},
		{shop.Run{}, "2005-12-31", "L05365A"},
	} {
		if got := s.BatchCode(c.run, day(t, c.day)); got != c.want {
			t.Errorf("%s: %s, want %s", c.day, got, c.want)
		}
	}
	if got := s.SSCCFrom(shop.Run{SSCCFrom: text("{yy}{day}01")}, day(t, "2026-03-17")); got != "2607601" {
		t.Errorf("serial %q", got)
	}
}

func TestPackAndLanguages(t *testing.T) {
	s := load(t, samples.Demo())
	p := s.Products["pear-hazelnut-tartlet"]
	first, _ := p.Pack("")
	single, ok := p.Pack("single")
	if first.ID.V != "box-of-2" || !ok || single.ID.V != "single" {
		t.Errorf("packs %s and %v", first.ID.V, single)
	}
	if k, ok := p.Pack("tin"); ok {
		t.Errorf("a pack from nowhere: %v", k)
	}
	if got := s.LanguagesOf(&shop.Pack{}); len(got) != 3 || got[0].V != "en" {
		t.Errorf("the shop's languages: %v", got)
	}
	if got := s.LanguagesOf(single); len(got) != 1 {
		t.Errorf("the pack's languages: %v", got)
	}
}

func TestIn(t *testing.T) {
	w := load(t, small(t)).Ingredients["egg"].Name
	if v, ok := shop.In(w, "fr"); !ok || v.V != "œuf" || v.Pos.File != egg {
		t.Errorf("fr: %v", v)
	}
	if v, ok := shop.In(w, "de"); ok {
		t.Errorf("no text in German, but %v", v)
	}
}

// Finished masses per piece, added up by hand: 96 g less 12.5 % and 1.5 g of
// jam; 34 g less 38 % and 49 g of filling; and so on.
func TestFinished(t *testing.T) {
	s := load(t, samples.Demo())
	for id, want := range map[string]string{
		"pear-hazelnut-tartlet":   "85.5 g",
		"passion-caramel-bar":     "45 g",
		"rye-shortbread-tin":      "15.015 g",
		"pistachio-choux":         "70.08 g",
		"lemon-thyme-marshmallow": "12 g",
		"bench-tin":               "162.09 g",
	} {
		if got := s.Finished(s.Products[id]).String(); got != want {
			t.Errorf("%s: %s, want %s", id, got, want)
		}
	}
	if got := s.Made(s.Products["lemon-thyme-marshmallow"]).String(); got != "1039 g" {
		t.Errorf("the slab: %s", got)
	}
}

func TestOverdue(t *testing.T) {
	in := small(t)
	edit{flour, "review-by: 2031-01-05", "review-by: 2026-06-30"}.apply(t, in)
	in["ingredients/salt.yaml"] = &fstest.MapFile{Data: []byte(strings.NewReplacer("[wheat]", "[]", "en: wheat flour", "en: salt", "fr: farine de blé", "fr: sel").Replace(string(in[flour].Data)))}
	s := load(t, in)
	for _, c := range []struct {
		today string
		want  []string
	}{
		{"2026-06-30", nil}, // on the day itself it still holds
		{"2026-07-01", []string{
			"ingredients/flour.yaml:6:14: caution: the specification of flour was to be reviewed by 2026-06-30 [overdue]",
			"ingredients/salt.yaml:6:14: caution: the specification of salt was to be reviewed by 2026-06-30 [overdue]",
		}},
		{"2026-01-31", []string{
			"products/apple-tart.yaml:3:9: error: 2026-02-01 is still to come on 2026-01-31 [date]",
			"products/tart-tin.yaml:3:9: error: 2026-02-01 is still to come on 2026-01-31 [date]",
		}},
	} {
		var found diag.List
		s.Overdue(day(t, c.today), &found)
		var got []string
		for _, d := range found.All() {
			line, _, _ := strings.Cut(d.String(), "\n")
			got = append(got, line)
		}
		if strings.Join(got, "\n") != strings.Join(c.want, "\n") {
			t.Errorf("%s:\n%s\nwant\n%s", c.today, strings.Join(got, "\n"), strings.Join(c.want, "\n"))
		}
	}
}

// TestLapsed: what rests on a specification past its review is not sold, once
// the days have gone by that the shop lets it lie.
func TestLapsed(t *testing.T) {
	for _, c := range []struct {
		grace, today string
		want         int
	}{{"", "2026-06-30", 0}, {"", "2026-07-01", 1}, {"14 days", "2026-07-14", 0}, {"14 days", "2026-07-15", 1}, {"1 month", "2026-07-30", 0}, {"1 month", "2026-07-31", 1}} {
		in := small(t)
		edit{flour, "review-by: 2031-01-05", "review-by: 2026-06-30"}.apply(t, in)
		if c.grace != "" {
			edit{profile, "gs1-prefix", "review-grace: " + c.grace + "\ngs1-prefix"}.apply(t, in)
		}
		s := load(t, in)
		for id, want := range map[string]int{"apple-tart": c.want, "tart-tin": c.want, "syrup": 0} {
			if got := s.Lapsed(id, day(t, c.today)); len(got) != want || want > 0 && (got[0].Warning || got[0].Rule != "overdue") {
				t.Errorf("%s on %s, grace %q: %v", id, c.today, c.grace, got)
			}
		}
	}
}

func TestTooManyFiles(t *testing.T) {
	in := small(t)
	for i := range 5010 {
		in[fmt.Sprintf("plans/p%d.yaml", i)] = &fstest.MapFile{Data: []byte("x")}
	}
	var found diag.List
	shop.Load(in, &found)
	n := 0
	for _, d := range found.All() {
		if d.Rule == "too-large" {
			n++
		}
	}
	if n != 1 {
		t.Errorf("said %d times that there are too many files", n)
	}
}

// A few files that unfold to billions of lines are refused at once.
func TestUnfolding(t *testing.T) {
	in := small(t)
	for i := range 40 {
		in[fmt.Sprintf("formulas/f%d.yaml", i)] = &fstest.MapFile{Data: fmt.Appendf(nil,
			"name: {en: f, fr: f}\nversion: 1\nissued: 2026-01-10\nlines:\n  - {use: f%d, take: 1 g}\n  - {use: f%d, as: again, take: 1 g}\n", i+1, i+1)}
	}
	in["formulas/f40.yaml"] = in[syrup]
	var found diag.List
	shop.Load(in, &found)
	if found.Errors() == 0 {
		t.Fatal("nothing found")
	}
	for _, d := range found.All() {
		if d.Rule != "too-large" {
			t.Errorf("%s", d)
		}
	}
}

// A folder that cannot be read is a finding, not a crash.
func TestUnreadable(t *testing.T) {
	for _, c := range []struct {
		fsys fs.FS
		want string
	}{
		{broken{}, "shop.yaml: error: the shop folder cannot be read [file]"},
		{fstest.MapFS{"shop.yaml/a": {}}, "shop.yaml: error: this is not a file [file]"},
		{fstest.MapFS{"plans": {Data: []byte("x")}}, "plans: error: this folder cannot be read [file]"},
	} {
		var found diag.List
		shop.Load(c.fsys, &found)
		var all strings.Builder
		for _, d := range found.All() {
			fmt.Fprintln(&all, d)
		}
		if !strings.Contains(all.String(), c.want) {
			t.Errorf("want %q in:\n%s", c.want, all.String())
		}
	}
}

// broken is a file system that fails.
type broken struct{}

func (broken) Open(string) (fs.File, error) { return nil, errors.New("broken") }

// Whatever stands in the files: findings with a place, no panic, no hang.
func FuzzLoad(f *testing.F) {
	for _, c := range faults {
		for _, e := range c.edits {
			f.Add(uint8(len(e.new)), e.old, e.new)
		}
	}
	files := []string{profile, flour, egg, dark, dough, syrup, apples, tart, tin, march}
	base := small(f)
	f.Fuzz(func(t *testing.T, which uint8, old, new string) {
		in := fstest.MapFS{}
		for k, v := range base {
			in[k] = v
		}
		name := files[int(which)%len(files)]
		text := string(in[name].Data)
		if old == "" {
			text = new
		} else {
			text = strings.Replace(text, old, new, 1)
		}
		in[name] = &fstest.MapFile{Data: []byte(text)}
		var found diag.List
		s := shop.Load(in, &found)
		s.Overdue(unit.Date{Year: 2026, Month: 3, Day: 17}, &found)
		for _, d := range found.All() {
			if !d.Pos.Known() || d.Msg == "" || d.Rule == "" {
				t.Errorf("no place, no words or no rule: %+v", d)
			}
		}
	})
}

// TestKeepOf: what is made of several products keeps as long as the one of
// them that keeps the shortest.
func TestKeepOf(t *testing.T) {
	for _, c := range []struct{ life, want string }{{"1 day", "1 day"}, {"2 days", "2 days"}, {"70 days", "2 days"}, {"6 months", "2 days"}} {
		in := small(t)
		edit{tin, "2 days", c.life}.apply(t, in)
		var found diag.List
		s := shop.Load(in, &found)
		if found.Errors() > 0 {
			t.Fatal(found.All())
		}
		want, err := unit.ParseLife(c.want)
		if got := s.KeepOf(s.Products["tart-tin"]); err != nil || got.Life.V != want || !got.Temp.Set() {
			t.Errorf("a tin that keeps %s: %v, want %s", c.life, got.Life.V, c.want)
		}
	}
}
