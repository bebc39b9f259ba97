package print

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// flat is an answer without its line breaks.
func flat(s string) string {
	return strings.ReplaceAll(strings.Join(strings.Fields(s), " "), "\u00a0", " ")
}

func difference(t *testing.T, old, new *Press) string {
	t.Helper()
	got, err := Diff(old, new)
	if err != nil || old.Found.Errors()+new.Found.Errors() > 0 {
		t.Fatal(err, old.Found.All(), new.Found.All())
	}
	return got
}

// The events of the demo shop. Ground hazelnuts in place of almonds make 11.72
// g of hazelnuts in a piece of 85.5 g: 1.456 + 7.264 + 3 g, 13.7 %.
func TestDiffEvents(t *testing.T) {
	const pastry, dark = "formulas/sweet-pastry.yaml", "ingredients/dark-64.yaml"
	for _, c := range []struct {
		what      string
		edits     []string
		want, not []string
	}{
		{"nothing", nil, nil, []string{"was"}},
		{"a comment", []string{"ingredients/salt.yaml", "bought-as:", "# by the pallet\nbought-as:"}, nil, []string{"was"}},
		{"wafer flakes may hold hazelnuts, as the couverture already may",
			[]string{"ingredients/wafer-flakes.yaml", "may-contain: []", "may-contain: [hazelnuts]"},
			[]string{"ingredients/wafer-flakes.yaml 15 was may-contain: [] 15 now may-contain: [hazelnuts] goes into passion-caramel-bar"},
			[]string{"product passion-caramel-bar", "approval"}},
		{"hazelnuts for almonds",
			[]string{pastry, "use: ground-almond", "use: ground-hazelnut", pastry, "egg, ground-almond, wheat-flour]", "egg, ground-hazelnut, wheat-flour]"},
			[]string{"no longer contains almonds", "now may contain almonds", "no longer may contain pistachio nuts", "‹*hazelnuts* 14 %,›", "box-of-2 EU", "single EU",
				"touched card (check word", "formula sweet-pastry touched card", "its version is still 4: count it up", "carton labels", "2 approvals fall"},
			[]string{"now contains"}},
		{"sunflower lecithins for soya", []string{dark, "contains: [soybeans]\nmay", "contains: []\nmay", dark, "    contains: [soybeans]\n", "",
			dark, "en: soya lecithins", "en: sunflower lecithins", dark, "fr: lécithines de soja", "fr: lécithines de tournesol", dark, "de: Sojalecithine", "de: Sonnenblumenlecithine"},
			[]string{"allergens as before", "‹*soya*›", "‹sunflower›", "touched labels, tickets", "1 approval falls"},
			[]string{"no longer contains", "carton labels"}},
		{"a hotter oven", []string{"products/pear-hazelnut-tartlet.yaml", "set: [165 °C]", "set: [170 °C]", "products/pear-hazelnut-tartlet.yaml", "version: 4", "version: 5"},
			[]string{"version 5, was 4", "touched card (check word"}, []string{"labels", "approval", "count it up"}},
		{"a day more", []string{"products/pistachio-choux.yaml", "life: 1 day", "life: 2 days\n  because: tried for two days"},
			[]string{"en date was Use by ‹18.03.2026› now Use by ‹19.03.2026›", "carton labels", "1 approval falls"}, nil},
		{"a dearer box", []string{"products/pistachio-choux.yaml", "price: ", "price: 1"}, []string{"touched labels, tickets"}, []string{"carton", "approval"}},
		{"a comment in every place", []string{"formulas/sweet-pastry.yaml", "lines:", "# a\n# b\nlines:", "shop.yaml", "name:", "# c\nname:", "plans/2026-03-17.yaml", "runs:", "# d\nruns:"}, nil, []string{"was"}},
		{"another paper", []string{"products/pear-hazelnut-tartlet.yaml", "paper: roll-100x60", "paper: roll-100x100"},
			[]string{"product pear-hazelnut-tartlet touched labels (box-of-2 EU)", "plan 2026-03-17 touched run sheets"}, []string{"card", "approval", "tickets"}},
		{"another rule for the batch", []string{"shop.yaml", "batch-code: L", "batch-code: B"},
			[]string{"product bench-tin touched labels, carton labels, part-carton labels, tickets", "formula craquelin touched tub labels", "plan every-day touched run sheets"}, []string{"card (check", "approval"}},
		{"more of a run", []string{"plans/2026-03-17.yaml", "pieces: 120", "pieces: 132"},
			[]string{"plan 2026-03-17 touched prep lists, day boards, shopping lists, orders by allergens, run sheets"}, []string{"product", "formula"}},
		{"the address", []string{"shop.yaml", "7 Weighhouse Lane", "9 Weighhouse Lane"}, []string{"product bench-tin", "en operator", "‹9›"}, []string{"approval"}},
	} {
		got := flat(difference(t, newShop(t), newShop(t, c.edits...)))
		for _, w := range c.want {
			if !strings.Contains(got, w) {
				t.Errorf("%s: no %q in\n%s", c.what, w, got)
			}
		}
		for _, w := range c.not {
			if strings.Contains(got, w) {
				t.Errorf("%s: %q in\n%s", c.what, w, got)
			}
		}
		if (got == "") != (c.want == nil) {
			t.Errorf("%s: %s", c.what, got)
		}
	}
}

// Products and formulas that come and go are named.
func TestDiffComesAndGoes(t *testing.T) {
	small := newShop(t)
	if err := os.Remove(filepath.Join(small.Name, "products", "bench-tin.yaml")); err != nil {
		t.Fatal(err)
	}
	for _, plan := range []string{"2026-03-17.yaml", "every-day.yaml"} {
		if err := os.Remove(filepath.Join(small.Name, "plans", plan)); err != nil {
			t.Fatal(err)
		}
	}
	if got := flat(difference(t, newShop(t), demoPressIn(t, small.Name))); !strings.Contains(got, "product bench-tin: taken out") || !strings.Contains(got, "plans/every-day.yaml: taken out") {
		t.Error(got)
	}
	if got := flat(difference(t, demoPressIn(t, small.Name), newShop(t))); !strings.Contains(got, "product bench-tin: new") {
		t.Error(got)
	}
}

// What is wrong in either shop is found; nothing is compared then.
func TestDiffFindings(t *testing.T) {
	bad := newShop(t, "ingredients/salt.yaml", "contains: []", "contains: [pepper]")
	if got, err := Diff(newShop(t), bad); got != "" || err != nil || bad.Found.Errors() == 0 {
		t.Errorf("%q, %v", got, err)
	}
}

// What is left of both texts when the marked words are taken out is the same,
// and the marked texts are the texts.
func TestMarked(t *testing.T) {
	word := rapid.SampledFrom([]string{"a", "b", "c", "milk,", "egg"})
	rapid.Check(t, func(rt *rapid.T) {
		was := strings.Join(rapid.SliceOfN(word, 0, 12).Draw(rt, "was"), " ")
		now := strings.Join(rapid.SliceOfN(word, 0, 12).Draw(rt, "now"), " ")
		a, b := marked(was, now)
		plain := strings.NewReplacer("‹", "", "›", "")
		if plain.Replace(a) != was || plain.Replace(b) != now {
			rt.Fatalf("%q %q", a, b)
		}
		if !slices.Equal(unmarked(a), unmarked(b)) {
			rt.Fatalf("%q and %q leave different words", a, b)
		}
		if (was == now) != !strings.Contains(a+b, "‹") {
			rt.Fatalf("%q and %q", a, b)
		}
	})
}

func unmarked(s string) []string {
	var out []string
	in := false
	for _, w := range strings.Split(s, " ") {
		in = in || strings.HasPrefix(w, "‹")
		if !in && w != "" {
			out = append(out, w)
		}
		if strings.HasSuffix(w, "›") {
			in = false
		}
	}
	return out
}

// The length of the common part, worked by hand (R. A. Wagner, M. J. Fischer,
// 1974: insertions and deletions only).
func TestCommon(t *testing.T) {
	for _, c := range []struct {
		a, b string
		n    int
	}{{"", "", 0}, {"a b c", "a b c", 3}, {"a b c a b b a", "c b a b a c", 4}, {"a", "b", 0}} {
		inA, inB := common(strings.Fields(c.a), strings.Fields(c.b))
		n, m := 0, 0
		for _, x := range inA {
			n += map[bool]int{true: 1}[x]
		}
		for _, x := range inB {
			m += map[bool]int{true: 1}[x]
		}
		if n != c.n || m != c.n {
			t.Errorf("%q, %q: %d and %d, want %d", c.a, c.b, n, m, c.n)
		}
	}
}
