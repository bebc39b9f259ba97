package sale

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/look"
	"chablon/layout/page"
	"chablon/layout/preflight"
)

// dressed is a label in the look of the demo shop, with the price on it.
func dressed(t testing.TB, sh *shop.Shop, l Label) Label {
	var found diag.List
	k := look.Read(sh.Brand, &found)
	if k == nil {
		t.Fatal(found.All())
	}
	l.Look = &Look{Look: k, Price: true}
	return l
}

// xOf is how high an x of the list is.
func xOf(s *Set) string {
	for _, it := range s.Art.Items {
		if it.Role == role.List && it.Run != nil {
			return fmt.Sprintf("%.2f", it.Run.XHeight.MM())
		}
	}
	return "none"
}

// TestLooks sets every pack of the demo on its own paper and on two others, in
// one to three languages, for 8 and 12 dots and 600 to the inch, plain and in the
// shop's look. All pass preflight; the table says how high an x of the list is
// and what gave way, and was read.
func TestLooks(t *testing.T) {
	sh := layouttest.Shop(t)
	var table []string
	for _, id := range sh.ProductIDs {
		for _, k := range sh.Products[id].PackIDs() {
			pk, _ := sh.Products[id].Pack(k)
			var langs []string
			for _, c := range sh.LanguagesOf(pk) {
				langs = append(langs, c.V)
			}
			papers := []string{pk.Paper.V, "roll-100x60", "a4-8"}
			for i, on := range papers {
				if i > 0 && (on == pk.Paper.V || testing.Short()) {
					continue
				}
				for _, dots := range []unit.Dots{{N: 8, Per: unit.MM}, {N: 12, Per: unit.MM}, {N: 600, Per: unit.Inch}} {
					for n := 1; n <= len(langs); n++ {
						if i > 0 && n > 1 {
							continue
						}
						l := labelOf(t, sh, id, k, on, dots, langs[:n]...)
						row := fmt.Sprintf("%s %s %s %s %s:", id, k, on, dots, strings.Join(langs[:n], ","))
						table = append(table, row+outcome(t, l)+" | look"+outcome(t, dressed(t, sh, l)))
					}
				}
			}
		}
	}
	if !testing.Short() {
		layouttest.Golden(t, "looks.txt", strings.Join(table, "\n")+"\n")
	}
}

// outcome sets a label, holds it to preflight, and says in a few words what came
// of it.
func outcome(t testing.TB, l Label) string {
	var found diag.List
	s := Compose(l, layouttest.Faces(t), &found)
	if s == nil {
		return " does not fit"
	}
	layouttest.Passes(t, rules(l, s), first(s))
	out := " x " + xOf(s)
	if s.Gave != "" {
		out += ", " + s.Gave
	}
	return out
}

// TestTheLawWins: whatever the list, the paper, the printer and the look, the
// label in the look is printed where the plain one is, bears every word that the
// plain one bears, in letters no lower than the law asks, and no mark lies on
// another.
func TestTheLawWins(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	type trial struct {
		l   Label
		own Look
	}
	trials := rapid.Custom(func(r *rapid.T) trial {
		id := rapid.SampledFrom(sh.ProductIDs).Draw(r, "product")
		on := rapid.SampledFrom([]string{"roll-100x60", "roll-100x100", "roll-100x150", "roll-40x30", "a4-8", "a4-6", "a4-4"}).Draw(r, "paper")
		dots := rapid.SampledFrom([]unit.Dots{{N: 8, Per: unit.MM}, {N: 12, Per: unit.MM}, {N: 300, Per: unit.Inch}, {N: 600, Per: unit.Inch}}).Draw(r, "dots")
		list := rapid.SliceOfN(rapid.StringMatching(`[a-z]{2,14}( [a-z]{3,9})?`), 1, 50).Draw(r, "list")
		l := labelOf(t, sh, id, "", on, dots)
		for i, told := range l.Told {
			c := *told
			c.Lists = slices.Clone(c.Lists)
			c.Lists[0] = words.Said{Role: role.List, Src: c.Lists[0].Src, Text: "Ingredients: " + strings.Join(list, ", ") + "."}
			l.Told[i] = &c
		}
		return trial{l, Look{Arrange: rapid.SampledFrom([]string{"", "beside", "above", "across"}).Draw(r, "arrange"),
			Price: rapid.Bool().Draw(r, "price"), Larger: rapid.Bool().Draw(r, "larger")}}
	})
	n, set := 24, 0
	if testing.Short() {
		n = 6
	}
	for seed := range n {
		x := trials.Example(seed)
		own := dressed(t, sh, x.l)
		x.own.Look = own.Look.Look
		own.Look = &x.own
		what := fmt.Sprintf("seed %d: %s on %s at %s, %s", seed, own.Facts.Product.ID, own.Stock.ID, own.Dots, x.own.Arrange)
		var found, plainly diag.List
		s, plain := Compose(own, f, &found), Compose(x.l, f, &plainly)
		if (s == nil) != (plain == nil) {
			t.Fatalf("%s: in the look %v, plain %v", what, found.All(), plainly.All())
		}
		if s == nil {
			continue
		}
		set++
		if preflight.Label(rules(own, s), first(s).All(), &found); found.Errors() > 0 {
			t.Errorf("%s, %s: %s", what, s.Gave, found.All())
		}
		if !says(all(s), all(plain)) {
			t.Errorf("%s, %s: a word is missing", what, s.Gave)
		}
	}
	if set < n/4 {
		t.Errorf("only %d of %d labels were set", set, n)
	}
}

func all(s *Set) []page.Item { return first(s).All() }

// A shop without a look prints the same label as before, mark by mark: the
// golden files of TestDemoLabels are older than the look. The demo's own look
// changes none of its words.
func TestPlainStaysPlain(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	l := labelOf(t, sh, "pear-hazelnut-tartlet", "box-of-2", "", layouttest.Desk())
	var found diag.List
	a, b := Compose(l, f, &found), Compose(dressed(t, sh, l), f, &found)
	if a == nil || b == nil || a.Gave != "" || b.Gave != "" {
		t.Fatalf("%v, %v: %v", a, b, found.All())
	}
	if slices.ContainsFunc(a.Art.Items, func(it page.Item) bool { return it.Role == role.Emblem }) {
		t.Error("the plain label has an emblem")
	}
	if !slices.ContainsFunc(b.Art.Items, func(it page.Item) bool { return it.Role == role.Emblem }) {
		t.Error("the label in the look has none")
	}
}
