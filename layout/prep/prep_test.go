package prep

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

// demo is the lists of the demo shop for a day in March 2026: the 17th has a
// plan of its own, on other days the tartlets are made twice.
func demo(lang string, d int) (Sheet, error) {
	var found diag.List
	date := unit.Date{Year: 2026, Month: 3, Day: d}
	sh := shop.Load(samples.Demo(), &found)
	l, _ := words.Get(lang)
	a4, _ := stock.Get("card-a4")
	s := Sheet{Shop: sh, Lang: l, Date: date, Stock: a4, Dots: unit.Dots{N: 600, Per: unit.Inch}}
	plan, ok := sh.PlanFor(date)
	if !ok {
		return s, fmt.Errorf("no plan for %s", date)
	}
	var err error
	s.Day, err = scale.PlanDay(sh, plan)
	return s, err
}

func must(t testing.TB, lang string, d int) Sheet {
	t.Helper()
	s, err := demo(lang, d)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func pagesOf(t testing.TB, s Sheet) []*page.Page {
	t.Helper()
	var found diag.List
	pages := Compose(s, layouttest.Faces(t), &found)
	for _, d := range found.All() {
		t.Fatal(d)
	}
	return pages
}

// said is all words of the pages without white space.
func said(pages []*page.Page) string { return layouttest.Read(layouttest.Marks(pages)) }

func Example() {
	f, err := text.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	s, err := demo("en", 17)
	if err != nil {
		fmt.Println(err)
		return
	}
	s.Opens, s.Ready = 4*unit.Hour+30*unit.Minute, 9*unit.Hour
	var found diag.List
	pages := Compose(s, f, &found)
	fmt.Println(len(pages), found.Len())
	for _, it := range layouttest.Marks(pages) {
		if it.Role == role.Date {
			fmt.Println(it.Run.Text)
		}
	}
	// Output:
	// 3 0
	// 05:33
	// 05:50
	// 05:50
	// 06:15
	// 07:45
	// 04:30
}

func TestGolden(t *testing.T) {
	s := must(t, "en", 18)
	s.Opens, s.Ready = 4*unit.Hour+30*unit.Minute, 9*unit.Hour
	for i, pg := range pagesOf(t, s) {
		layouttest.Golden(t, fmt.Sprintf("day-%d.dump", i+1), pg.Dump())
	}
}

// passes checks pages: nothing touches, nothing leaves the paper, and capitals
// are at least a two-hundredth of 0.5 m high (the rule of the FAA).
func passes(t layouttest.TB, s Sheet, pages []*page.Page) {
	t.Helper()
	layouttest.Passes(t, preflight.Sheet{What: "the list", Safe: pages[0].Area().Inset(s.Stock.Safe.V), Heights: Heights()}, pages...)
	layouttest.Capitals(t, 2500*unit.UM, layouttest.Marks(pages))
}

func TestPreflight(t *testing.T) {
	for _, lang := range []string{"en", "fr", "de"} {
		for _, id := range []string{"card-a4", "card-letter", "card-a3", "card-a4-landscape"} {
			for _, d := range []int{17, 18} {
				s := must(t, lang, d)
				s.Stock, _ = stock.Get(id)
				pages := pagesOf(t, s)
				if n := len(pages); n < 1 || n > 4 {
					t.Errorf("%s on %s: %d pages", lang, id, n)
				}
				passes(t, s, pages)
			}
		}
	}
}

// grams is how the lists show a computed mass.
func grams(l *words.Lang, g float64) string {
	return layouttest.Bare(l.MassIn(unit.Mass(math.Round(g))*unit.Gram, "g", 0))
}

// What two runs share is made once. By hand: 72 tartlets with 28 g of pastry,
// 30 g of frangipane and 35 g of pear each, 3 % lost in handling; pears are
// bought by dividing by their edible share (W. Gisslen, Professional Baking,
// yield and trim). The parts of the pastry are 1385.6 g and 692.8 g of 2078.4 g;
// so that 2078 g add up, the one with the smaller remainder is shown as 1385 g.
func TestSharedFormulasAreMadeOnce(t *testing.T) {
	s := must(t, "en", 18)
	all := said(pagesOf(t, s))
	for what, g := range map[string]float64{
		"pastry for both": 72 * 28 / 0.97, "pastry for 48": 1385, "pastry for 24": 24 * 28 / 0.97,
		"frangipane for both": 72 * 30 / 0.97, "butter for both": 72 * 28 / 0.97 * 600 / 2308, "pears, peeled and cored": 72 * 35 / 0.97,
	} {
		if !strings.Contains(all, grams(s.Lang, g)) {
			t.Errorf("%s: %s is not on the lists", what, grams(s.Lang, g))
		}
	}
	for _, name := range []string{"almond sweet pastry", "hazelnut frangipane"} {
		if n := strings.Count(all, layouttest.Bare(name)); n != 1 {
			t.Errorf("%s is on the list %d times", name, n)
		}
	}
	for _, w := range []string{"Pear and hazelnut tartlet, 48 pieces", "Pear and hazelnut tartlet, 24 pieces", "poached pear, drained – to cook in"} {
		if !strings.Contains(all, layouttest.Bare(w)) {
			t.Errorf("%q is missing in %s", w, all)
		}
	}
}

// A thing is made on the day if it can be begun after the kitchen opens,
// else as few days before as let it.
func TestDays(t *testing.T) {
	for _, c := range []struct {
		ready, opens, lead unit.Span
		days               int
		begin              string
	}{
		{9 * unit.Hour, 4 * unit.Hour, 5 * unit.Hour, 0, "04:00"},
		{9 * unit.Hour, 4 * unit.Hour, 5*unit.Hour + unit.Minute, 1, ""},
		{9 * unit.Hour, 4 * unit.Hour, 29 * unit.Hour, 1, ""},
		{9 * unit.Hour, 4 * unit.Hour, 29*unit.Hour + unit.Minute, 2, ""},
		{9*unit.Hour + 5*unit.Minute, 0, 2 * unit.Hour, 0, "07:05"},
		{0, 4 * unit.Hour, 90 * unit.Minute, 0, "1 h 30 min before"},
		{0, 4 * unit.Hour, 0, 0, ""},
	} {
		l, _ := words.Get("en")
		k := teller{compose.Tell("prep list", diag.Pos{}, &diag.List{}, l), Sheet{Ready: c.ready, Opens: c.opens, Lang: l}}
		p := scale.Prep{Lead: c.lead}
		n := k.daysBefore(p)
		if begin := k.begin(p, n); n != c.days || layouttest.Bare(begin) != layouttest.Bare(c.begin) {
			t.Errorf("%v: %d days before, begin %q", c, n, begin)
		}
	}
}

// What is made so early that it does not keep is a caution.
func TestDoesNotKeep(t *testing.T) {
	s := must(t, "en", 17)
	s.Opens, s.Ready = 9*unit.Hour, 9*unit.Hour+unit.Minute
	var found diag.List
	if pages := Compose(s, layouttest.Faces(t), &found); pages == nil || found.Len() != 0 {
		t.Fatal(found.All()) // a day before is soon enough for all
	}
	s.Shop.Formulas["marshmallow"].Keep.Life.V = unit.Life{}
	pages := Compose(s, layouttest.Faces(t), &found)
	if pages == nil || found.Errors() > 0 || found.Len() != 1 || found.All()[0].Rule != "keep" {
		t.Errorf("%d pages, %v", len(pages), found.All())
	}
}

// Bowls and lives are said; parts of a life too.
func TestAbout(t *testing.T) {
	s := must(t, "en", 18)
	f := s.Shop.Formulas["sweet-pastry"]
	f.Bowl = &shop.Bowl{}
	f.Bowl.Most.V = 700 * unit.Gram
	f.Keep.Life.V = unit.Life{Months: 1, Days: 3}
	all := said(pagesOf(t, s))
	if w := "keeps 1 month 3 days, ≤ 5 °C (41 °F); in 3 bowls, 693 g in each"; !strings.Contains(all, layouttest.Bare(w)) {
		t.Errorf("%q is missing in %s", w, all)
	}
}

// What assortments take of other products is said, and what is short.
func TestPicks(t *testing.T) {
	s := must(t, "en", 17)
	for i := range s.Day.Picks {
		s.Day.Picks[i].Makes = s.Day.Picks[i].Taken - 7
	}
	layouttest.Has(t, said(pagesOf(t, s)), "7 short: take them from another day", "60 pieces")
}

// A day of any length with any names: every line is on the lists with its box.
func TestNothingIsDropped(t *testing.T) {
	f, base := layouttest.Faces(t), must(t, "en", 17)
	rapid.Check(t, func(rt *rapid.T) {
		word := rapid.StringMatching(`[A-Za-zäßéœÅ0-9 -]{1,40}`)
		name := func(kind string, i int) shop.Words {
			return shop.Words{{Key: shop.Text{V: "en"}, V: shop.Text{V: fmt.Sprintf("%s%d%s", kind, i, word.Draw(rt, kind))}}}
		}
		s, names, boxes := base, []string{}, 0
		s.Day = &scale.Day{Plan: base.Day.Plan, Runs: base.Day.Runs}
		s.Opens, s.Ready = unit.Span(rapid.IntRange(0, 9).Draw(rt, "opens"))*unit.Hour, unit.Span(rapid.IntRange(0, 12).Draw(rt, "ready"))*unit.Hour
		for i := range rapid.IntRange(0, 40).Draw(rt, "formulas") {
			form := &shop.Formula{ID: fmt.Sprint(i), Name: name("F", i)}
			p := scale.Prep{Make: scale.Make{Formula: form}, Lead: unit.Span(rapid.IntRange(0, 3000).Draw(rt, "lead")) * unit.Minute}
			for range rapid.IntRange(1, 6).Draw(rt, "uses") {
				m := unit.Mass(rapid.Int64Range(0, 40_000_000_000_000).Draw(rt, "mass"))
				p.For = append(p.For, scale.Use{Product: base.Day.Runs[0].Product, Mass: m})
				p.Out += m
				boxes++
			}
			s.Day.Prep, names, boxes = append(s.Day.Prep, p), append(names, form.Name[0].V.V), boxes+1
		}
		var found diag.List
		pages := Compose(s, f, &found)
		if found.Len() > 0 {
			rt.Fatalf("%v", found.All())
		}
		if len(pages) > 0 { // a day on which nothing is made has none
			passes(rt, s, pages)
		}
		all := said(pages)
		for _, n := range names {
			if !strings.Contains(all, layouttest.Bare(n)) {
				rt.Fatalf("%q is missing in %s", n, all)
			}
		}
		for _, pg := range pages {
			for _, it := range pg.Items {
				if it.Shape != nil && it.Shape.Kind == page.Outlined {
					boxes--
				}
			}
		}
		if boxes != 0 {
			rt.Fatalf("%d boxes are missing", boxes)
		}
	})
}

func TestRefused(t *testing.T) {
	for name, c := range map[string]struct {
		change func(*Sheet)
		rule   string
	}{
		"a language without the words": {func(s *Sheet) { s.Lang, _ = words.Get("et") }, "words"},
		"no translation":               {func(s *Sheet) { s.Shop.Formulas["craquelin"].Name = nil }, "translation"},
		"a letter that no face has":    {func(s *Sheet) { s.Shop.Formulas["craquelin"].Name[0].V.V = "卵" }, "glyph"},
		"paper for a tub":              {func(s *Sheet) { s.Stock, _ = stock.Get("roll-40x30") }, "too-wide"},
	} {
		var found diag.List
		s := must(t, "en", 17)
		c.change(&s)
		pages := Compose(s, layouttest.Faces(t), &found)
		if len(pages) != 0 || found.Errors() != 1 || found.All()[0].Rule != c.rule || found.All()[0].Hint == "" {
			t.Errorf("%s: %d pages, %v", name, len(pages), found.All())
		}
	}
	// A day without anything has no lists.
	s := must(t, "en", 17)
	s.Day = &scale.Day{}
	if pages := pagesOf(t, s); pages != nil {
		t.Errorf("%d pages for an empty day", len(pages))
	}
}

// several is the list of three days of the demo shop from 17 March on, all ready
// at 9:00, in a kitchen that is open from 4:30 to 18:00; the fourth day is looked
// at for what is made ahead.
func several(t *testing.T) Sheet {
	t.Helper()
	s := must(t, "en", 17)
	s.Opens, s.Closes, s.Ready, s.Days = 4*unit.Hour+30*unit.Minute, 18*unit.Hour, 9*unit.Hour, 3
	for n := 1; n <= 3; n++ {
		plan, _ := s.Shop.PlanFor(s.Date.AddDays(n))
		d, err := scale.PlanDay(s.Shop, plan)
		if err != nil {
			t.Fatal(err)
		}
		s.Then = append(s.Then, Then{Date: s.Date.AddDays(n), Day: d, Ready: 9 * unit.Hour})
	}
	return s
}

// Over several days it goes by the day of making. By hand: in 4 h 30 from opening
// to 9:00 there is no time for the marshmallow (16 h), the caramel (6 h 20), the
// pastry (5 h 47), syrup and pears (5 h 27) and the rye dough (4 h 34); they are
// made the day before, and of the fourth day just these six are on the list of
// three. Each formula of each day stands once, and the days follow each other.
func TestSeveralDays(t *testing.T) {
	s := several(t)
	want := 7
	for _, d := range (teller{Sheet: s}).days()[:3] {
		want += len(d.Day.Prep)
	}
	all := (teller{Sheet: s}).order()
	var fourth []string
	for k, i := range all {
		if k > 0 && i.made().Before(all[k-1].made()) {
			t.Errorf("%s stands behind %s", i.Formula.ID, all[k-1].Formula.ID)
		}
		if i.Date == s.Date.AddDays(3) {
			fourth = append(fourth, i.Formula.ID)
		}
	}
	if slices.Sort(fourth); len(all) != want || !slices.Equal(fourth, []string{"craquelin", "marshmallow", "passion-caramel", "pear-syrup", "poached-pear", "rye-shortbread", "sweet-pastry"}) {
		t.Errorf("%d formulas, want %d; of the fourth day %v", len(all), want, fourth)
	}
	layouttest.Has(t, said(pagesOf(t, s)), "16 March 2026", "for 17 March 2026", "for 20 March 2026")
	s.Shop.Formulas["sweet-pastry"].Day.V = -3
	for _, i := range (teller{Sheet: s}).order() {
		if f := i.Formula.ID; f == "sweet-pastry" && i.made() != i.Date.AddDays(-3) || f == "marshmallow" && i.made() != i.Date.AddDays(-1) {
			t.Errorf("%s for %s is made on %s", f, i.Date, i.made())
		}
	}
	passes(t, s, pagesOf(t, s))
}

// What is bought frozen comes out in time. By hand: the caramel of the 17th is
// made on the 16th from 4:30 on; 24 h before is 4:30 of the 15th, 12 h before is
// 16:30 of the 15th, 8 h before would be 20:30, when nobody is there: 18:00.
func TestThaw(t *testing.T) {
	s := must(t, "en", 17)
	s.Opens, s.Closes, s.Ready = 4*unit.Hour+30*unit.Minute, 18*unit.Hour, 9*unit.Hour
	for _, c := range []struct {
		long unit.Span
		day  int
		at   string
	}{{24 * unit.Hour, 15, "04:30"}, {12 * unit.Hour, 15, "16:30"}, {8 * unit.Hour, 15, "18:00"}, {unit.Hour, 15, "18:00"}} {
		s.Shop.Ingredients["passion-puree"].Thaw.V = c.long
		got := (teller{Sheet: s}).thawed()
		if len(got) != 1 || got[0].on.Day != c.day || clock(got[0].at) != c.at {
			t.Errorf("%v: %+v", c.long, got)
		}
	}
	s.Opens, s.Closes, s.Ready = 0, 0, 0
	if got := (teller{Sheet: s}).thawed(); got[0].at != 0 {
		t.Errorf("a time of day without hours of the kitchen: %+v", got)
	}
	layouttest.Has(t, said(pagesOf(t, s)), "To thaw", "16 March 2026", "304 g")
}

// Two runs give the same file.
func TestDrawnTwice(t *testing.T) {
	if !bytes.Equal(layouttest.PDF(t, pagesOf(t, must(t, "fr", 18))...), layouttest.PDF(t, pagesOf(t, must(t, "fr", 18))...)) {
		t.Error("the same day gives two files")
	}
}
