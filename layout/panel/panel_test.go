package panel_test

import (
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/compose"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/panel"
	"chablon/layout/preflight"
)

const mm = unit.MM

// saysOf is what the panel of the demo's marshmallows says in a market.
func saysOf(t *testing.T, in, surface string, langs ...string) panel.Says {
	sh := layouttest.Shop(t)
	p := sh.Products["lemon-thyme-marshmallow"]
	k, ok := p.Pack("bag-of-10-portions")
	if !ok {
		t.Fatal("the demo has no pack with portions")
	}
	if surface != "" {
		a, err := unit.ParseArea(surface)
		if err != nil {
			t.Fatal(err)
		}
		k.Surface.V = a
	}
	var found diag.List
	f := declare.Of(sh, p, k, layouttest.Market(t, in), layouttest.Day(), &found)
	s := panel.Says{Facts: f, Paper: compose.On(layouttest.Paper(t, "a4-2"), layouttest.Office(), layouttest.Faces(t))}
	for _, l := range layouttest.Langs(t, langs...) {
		s.Told = append(s.Told, words.Tell(f, sh, l, &found).Table)
	}
	if found.Errors() > 0 {
		t.Fatal(found.All())
	}
	return s
}

// set draws the panel in the form of that key.
func set(t *testing.T, s panel.Says, key string) *panel.Block {
	t.Helper()
	f, ok := s.Facts.Market.Nutrition.Panel.Find(key)
	if !ok {
		t.Fatalf("there is no form %q", key)
	}
	b, err := panel.Set(s, f, page.Rect{W: 300 * mm, H: 300 * mm})
	if err != nil {
		t.Fatalf("%s: %v", key, err)
	}
	return b
}

// parts are the marks of a part and row of a panel; row "" is any.
func parts(b *panel.Block, part, row string) (out []page.Item) {
	for _, it := range b.Items {
		if it.Panel != nil && it.Panel.Part == part && (row == "" || it.Panel.Row == row) {
			out = append(out, it)
		}
	}
	return out
}

// sheet is what a label with the panel is held to.
func sheet(s panel.Says) preflight.Sheet {
	return preflight.Sheet{What: "the panel", Safe: page.Rect{W: 300 * mm, H: 300 * mm}, Dots: layouttest.Office(), Market: s.Facts.Market,
		Pack: market.Pack{Sale: market.Prepacked, Face: s.Facts.Pack.Face.V, Surface: s.Facts.Pack.Surface.V, Net: market.Quantity{Mass: s.Facts.Pack.Net.V}}}
}

// about are the findings of preflight about the panel.
func about(s preflight.Sheet, items []page.Item) (out []string) {
	var found diag.List
	preflight.Label(s, items, &found)
	for _, d := range found.All() {
		if d.Rule == "panel" {
			out = append(out, d.Msg)
		}
	}
	return out
}

// sizes are the sizes of type of a display in millimetres. 1 point is 1/72 inch,
// 0.3528 mm.
type sizes map[string]float64

// The sizes of 21 CFR 101.9(d): heading 16 points, servings and serving size 10,
// Calories 16 with a figure of 22, nutrients, percentages and vitamins 8, the
// rest not below 6; of (d)(11)(iii) and (j)(13)(ii)(A) as in panels of the act.
// The figures of (d)(1)(iii) and (d)(3) were seen as quotations; the others are
// from memory.
func TestSizesUnitedStates(t *testing.T) {
	tabular := sizes{role.Heading: 3.53, role.Servings: 3.53, role.Serving: 3.175, role.AmountPer: 2.12, role.Energy: 3.53, role.EnergyIs: 7.76,
		role.DailyValue: 2.12, role.Nutrient: 2.82, role.Share: 2.82, role.Mineral: 2.82, role.Footnote: 2.12}
	small := sizes{role.Heading: 3.53, role.Servings: 3.175, role.Serving: 3.175, role.AmountPer: 2.12, role.Energy: 3.53, role.EnergyIs: 4.94,
		role.DailyValue: 2.12, role.Nutrient: 2.82, role.Share: 2.82, role.Mineral: 2.82, role.Footnote: 2.12}
	vertical := sizes{role.Heading: 5.64, role.Servings: 3.53, role.Serving: 3.53, role.AmountPer: 2.12, role.Energy: 5.64, role.EnergyIs: 7.76,
		role.DailyValue: 2.12, role.Nutrient: 2.82, role.Share: 2.82, role.Mineral: 2.82, role.Footnote: 2.12}
	for _, c := range []struct {
		form, surface string
		want          sizes
	}{{"vertical", "", vertical}, {"side-by-side", "", vertical}, {"tabular", "", tabular}, {"small-tabular", "258 cm²", small}, {"linear", "258 cm²", small}} {
		s := saysOf(t, "us", c.surface, "en")
		b := set(t, s, c.form)
		for part, want := range c.want {
			marks := parts(b, part, "")
			if len(marks) == 0 && !(c.form == "linear" && part == role.DailyValue) {
				t.Errorf("%s has no %s", c.form, part)
			}
			for _, it := range marks {
				if it.Run == nil {
					continue
				}
				if got := it.Run.Size.MM(); got < want-0.005 || got > want+0.01 && part != role.Heading {
					t.Errorf("%s: %q (%s) is %.3f mm, the act has %.2f mm", c.form, it.Run.Text, part, got, want)
				}
			}
		}
		if all := about(sheet(s), b.Items); len(all) > 0 {
			t.Errorf("%s: %v", c.form, all)
		}
	}
}

// C.R.C., c. 870, B.01.454 to .459: in the figures 3.3(B) and 4.1(B) the serving,
// the energy and the nutrients stand in 7 points, in 3.4(B) and 4.2(B) in 6. The
// heading of 13 points, heads of 6, and lines of half a point and 2 points are
// those of the figures before 2016, by a government page; today's are pictures
// and were not read.
func TestSizesCanada(t *testing.T) {
	for key, nutrients := range map[string]float64{"3.3(B)": 2.469, "3.4(B)": 2.117, "4.1(B)": 2.469, "4.2(B)": 2.117} {
		s := saysOf(t, "ca", "", "en", "fr")
		b := set(t, s, key)
		for part, want := range (sizes{role.Heading: 4.586, role.Serving: nutrients, role.Energy: nutrients, role.EnergyIs: nutrients, role.DailyValue: 2.117,
			role.Nutrient: nutrients, role.Share: nutrients, role.Footnote: 2.117}) {
			for _, it := range parts(b, part, "") {
				if got := it.Run.Size.MM(); got < want-0.002 || got > want+0.005 {
					t.Errorf("%s: %q (%s) is %.3f mm, not %.3f mm", key, it.Run.Text, part, got, want)
				}
			}
		}
		for part, want := range (sizes{role.Hairline: 0.176, role.ThinBar: 0.706}) {
			for _, it := range parts(b, part, "") {
				if got := it.Box.H.MM(); got < want-0.022 || got > want+0.022 {
					t.Errorf("%s: a %s is %.3f mm thick, not %.3f mm", key, part, got, want)
				}
			}
		}
		if all := about(sheet(s), b.Items); len(all) > 0 {
			t.Errorf("%s: %v", key, all)
		}
		// one percentage for both, between their lines (B.01.401, items 3 to 5 of the table)
		sat, trans, share := parts(b, role.Nutrient, "saturates")[0].Run.Baseline, parts(b, role.Nutrient, "trans")[0].Run.Baseline, parts(b, role.Share, "trans")[0].Run.Baseline
		if len(parts(b, role.Share, "saturates")) > 0 || share <= sat || share >= trans {
			t.Errorf("%s: the percentage of saturated and trans fat stands at %s, their lines at %s and %s", key, share, sat, trans)
		}
		if bar := parts(b, role.ThinBar, "")[0].Box; bar.Right() > parts(b, role.EnergyIs, "")[0].Box.Right()+mm {
			t.Errorf("%s: the line under the energy is longer than the energy", key)
		}
	}
}

// C.R.C., c. 870, B.01.454(3): the table goes on at most 15 % of the surface; of
// a pack with 216 cm² of it (100 × 60 × 30 mm) on 32.4 cm². Smaller figures come
// next, and only then any of them on more.
func TestShareOfSurface(t *testing.T) {
	for _, c := range []struct{ surface, first string }{{"400 cm²", "3.3(B)"}, {"190 cm²", "3.4(B)"}, {"150 cm²", "3.3(B) over 15 %"}} {
		s := saysOf(t, "ca", c.surface, "en", "fr")
		for _, f := range panel.Forms(s.Facts) {
			if b, err := panel.Set(s, f, page.Rect{W: 200 * mm, H: 200 * mm}); err == nil {
				if b.Form.Key != c.first {
					t.Errorf("%s: the first that fits is %s (%s × %s)", c.surface, b.Form.Key, b.W, b.H)
				}
				break
			}
		}
	}
	s := saysOf(t, "ca", "150 cm²", "en", "fr")
	f, _ := s.Facts.Market.Nutrition.Panel.Find("3.3(B)")
	b := set(t, saysOf(t, "ca", "", "en", "fr"), "3.3(B)")
	if all := strings.Join(about(sheet(s), b.Items), "\n"); !strings.Contains(all, "in this form may take 22.5 cm²") {
		t.Errorf("a panel of %s on %s: %s", unit.AreaOf(b.W, b.H), f.Most(150*unit.CM2), all)
	}
}

// Food Standards Code, Schedule 12, S12-2 (read): the heading, servings per
// package and serving size, then names with figures for a serving and for 100 g.
func TestColumnsAustralia(t *testing.T) {
	s := saysOf(t, "au", "", "en")
	b := set(t, s, "columns")
	var said []string
	for _, it := range b.Items {
		if it.Run != nil {
			said = append(said, it.Run.Text)
		}
	}
	all := strings.ReplaceAll(strings.Join(said, "|"), "\u00a0", " ")
	for _, want := range []string{"NUTRITION INFORMATION", "Servings per package: 5", "Serving size: 24 g", "Quantity", "per 100 g", "Energy|1300 kJ|312 kJ", "Protein", "Fat, total", "– saturated", "Carbohydrate", "– sugars", "Sodium"} {
		if !strings.Contains(all, want) {
			t.Errorf("%q is not in %s", want, all)
		}
	}
	if got := about(sheet(s), b.Items); len(got) > 0 {
		t.Error(got)
	}
	for i, it := range b.Items { // a figure that is lost is found
		if it.Run != nil && it.Run.Text == "312\u00a0kJ" {
			lost := append(append([]page.Item(nil), b.Items[:i]...), b.Items[i+1:]...)
			if got := strings.Join(about(sheet(s), lost), ""); !strings.Contains(got, "lacks a figure of energy-kj") {
				t.Errorf("found %q", got)
			}
		}
	}
}

// 21 CFR 101.9(d)(1)(ii)(C), from memory: at least four points, 1.41 mm, of white
// between the lines of nutrients, so that their baselines are 12 points apart;
// (d)(1)(i): a box around all of it; the thickness of lines is that of the
// illustration in appendix B.
func TestVerticalInMillimetres(t *testing.T) {
	b := set(t, saysOf(t, "us", "", "en"), "vertical")
	rows := []string{"fat", "saturates", "trans", "cholesterol", "sodium", "carbohydrate", "fibre", "sugars", "added-sugars", "protein"}
	last := unit.Length(0)
	for _, row := range rows {
		at := parts(b, role.Nutrient, row)[0].Run.Baseline
		if apart := (at - last).MM(); last > 0 && (apart < 4.233 || apart > 4.5) {
			t.Errorf("%s stands %.3f mm below the row before it, not 12 points (4.233 mm)", row, apart)
		}
		last = at
	}
	for part, want := range map[string]float64{role.Bar: 2.469, role.ThinBar: 1.058, role.Hairline: 0.088} {
		for _, it := range parts(b, part, "") {
			if got := it.Box.H.MM(); got < want-0.022 || got > want+0.022 { // half a dot of 600 to the inch
				t.Errorf("a %s is %.3f mm thick, not %.3f mm", part, got, want)
			}
		}
	}
	left := func(row string) float64 { return parts(b, role.Nutrient, row)[0].Box.X.MM() }
	for row, levels := range map[string]float64{"fat": 0, "saturates": 1, "trans": 1, "fibre": 1, "sugars": 1, "added-sugars": 2, "protein": 0} {
		if in := left(row) - left("fat"); in < 2.469*levels-0.01 || in > 2.469*levels+0.01 { // seven points a level: house rule
			t.Errorf("%s is moved in by %.2f mm", row, in)
		}
	}
	box := parts(b, role.Box, "")[0].Box
	if dot := layouttest.Office().At(1); box.W < b.W-dot || box.H < b.H-dot || b.W > 55*mm || b.H < 90*mm || b.H > 120*mm {
		t.Errorf("the panel is %s × %s", b.W, b.H)
	}
	if s, n := parts(b, role.Servings, "")[0].Run, parts(b, role.Serving, "")[0].Run; s.Baseline >= n.Baseline { // (d)(3)(i), (ii)
		t.Error("servings per container stand below the serving size")
	}
}

// Each fault that is planted on a panel is found: 21 CFR 101.9(d).
func TestFaultsFound(t *testing.T) {
	s := saysOf(t, "us", "", "en")
	each := func(items []page.Item, part string, do func(*page.Item)) []page.Item {
		for i := range items {
			if items[i].Panel != nil && items[i].Panel.Part == part {
				do(&items[i])
			}
		}
		return items
	}
	without := func(items []page.Item, part, row string) (out []page.Item) {
		for _, it := range items {
			if it.Panel == nil || it.Panel.Part != part || row != "" && it.Panel.Row != row {
				out = append(out, it)
			}
		}
		return out
	}
	for _, c := range []struct {
		plant func([]page.Item) []page.Item
		want  string
	}{
		{func(a []page.Item) []page.Item {
			return each(a, role.EnergyIs, func(it *page.Item) { it.Run.Size = unit.Pts(21.9) })
		}, "must be in 22.0"},
		{func(a []page.Item) []page.Item {
			return each(a, role.Footnote, func(it *page.Item) { it.Run.Size = unit.Pts(5.5) })
		}, "must be in 6.0"},
		{func(a []page.Item) []page.Item {
			return each(a, role.Share, func(it *page.Item) { it.Run.Face = "regular" })
		}, "wrong weight"},
		{func(a []page.Item) []page.Item {
			return each(a, role.Servings, func(it *page.Item) { it.Run.Face = "bold" })
		}, "wrong weight"},
		{func(a []page.Item) []page.Item {
			return each(a, role.Bar, func(it *page.Item) { it.Box.H = unit.Pts(5) })
		}, "must be 2.47 mm"},
		{func(a []page.Item) []page.Item {
			return each(a, role.Box, func(it *page.Item) { it.Shape.Stroke = unit.Pts(0.2) })
		}, "must be 0.18 mm"},
		{func(a []page.Item) []page.Item {
			return each(a, role.Mineral, func(it *page.Item) { it.Run.Baseline /= 2 })
		}, "apart"},
		{func(a []page.Item) []page.Item { return without(a, role.Nutrient, "added-sugars") }, "lacks added-sugars"},
		{func(a []page.Item) []page.Item { return without(a, role.Share, "fat") }, "lacks the percentage of fat"},
		{func(a []page.Item) []page.Item { return without(a, role.Mineral, "potassium") }, "lacks potassium"},
		{func(a []page.Item) []page.Item { return without(a, role.Footnote, "") }, "lacks its footnote"},
		{func(a []page.Item) []page.Item { return without(a, role.Hairline, "") }, "lacks its hairline"},
		{func(a []page.Item) []page.Item { return without(a, role.Box, "") }, "no box"},
		{func(a []page.Item) []page.Item {
			return each(a, role.Share, func(it *page.Item) { it.Panel = nil })
		}, "is not part of the panel"},
		{func(a []page.Item) []page.Item {
			return each(a, role.Box, func(it *page.Item) { it.Panel.Form = "linear" })
		}, "may not bear its nutrition panel in the form linear"},
		{func(a []page.Item) []page.Item {
			return each(a, role.Box, func(it *page.Item) { it.Box.W /= 2 })
		}, "outside its box"},
		{func(a []page.Item) []page.Item {
			it := parts(&panel.Block{Items: a}, role.Servings, "")[0]
			run := *it.Run
			it.Run, it.Role, it.Panel = &run, role.List, nil
			return append(a, it)
		}, "stands in the box"},
	} {
		b := set(t, s, "vertical") // a fresh one for each fault
		if all := strings.Join(about(sheet(s), c.plant(b.Items)), "\n"); !strings.Contains(all, c.want) {
			t.Errorf("want %q, found %s", c.want, all)
		}
	}
}
