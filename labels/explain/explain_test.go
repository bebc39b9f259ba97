package explain_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/explain"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/samples"
)

func demo(t testing.TB) *shop.Shop {
	t.Helper()
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	if found.Errors() > 0 {
		t.Fatal(found.All())
	}
	return sh
}

func question(t testing.TB, sh *shop.Shop, product, in, word string) explain.Question {
	t.Helper()
	var found diag.List
	p, m := sh.Products[product], mustMarket(t, in)
	f := declare.Of(sh, p, &p.Packs[0], m, unit.Date{Year: 2026, Month: 3, Day: 17}, &found)
	en, ok := words.Get("en")
	if !ok {
		t.Fatal("no English")
	}
	return explain.Question{Shop: sh, Facts: f, Lang: en, Word: word}
}

func mustMarket(t testing.TB, code string) *market.Market {
	m, ok := market.Get(code)
	if !ok {
		t.Fatal(code)
	}
	return m
}

// find gives the first reason with a key, however deep.
func find(all []*explain.Reason, key string) *explain.Reason {
	for _, r := range all {
		if r.Key == key {
			return r
		}
		if in := find(r.Under, key); in != nil {
			return in
		}
	}
	return nil
}

// The values are those of the law's arithmetic, not texts: sulphur dioxide over
// the finished food (Regulation (EU) No 1169/2011 Annex II 12), added water by
// subtraction (Annex VII A 1), percentages over the finished mass where
// moisture is lost (Annex VIII 4). Each is worked by hand from the lines of the
// demo shop.
func TestValues(t *testing.T) {
	sh := demo(t)
	for _, c := range []struct {
		product, word, key, value string
		want                      func(declare.Value) bool
	}{
		// lemon juice 38.9 g, glucose syrup 194.5 g, sugar 486.3 g, … with 150, 18, 2 … mg/kg, over 1010.5 g
		{"lemon-thyme-marshmallow", "sulphites", "sulphites-over", "got", near(10.8, 0.05, unit.MgPerKg)},
		{"pear-hazelnut-tartlet", "sulphites", "sulphites-under", "got", near(0.7, 0.05, unit.MgPerKg)},
		{"lemon-thyme-marshmallow", "water", "water-listed", "left", near(12.9, 0.05, unit.Percent)}, // 12 g less 10.45 g
		{"pear-hazelnut-tartlet", "40.9", "quantity-of-finished", "share", near(100*35/85.5, 0.001, unit.Percent)},
		{"pear-hazelnut-tartlet", "apricot jam", "inner-list-relieved", "got", near(100*1.5/85.5, 0.001, unit.Percent)},
	} {
		answer, _ := explain.Ask(question(t, sh, c.product, "eu", c.word))
		r := find(answer, c.key)
		if r == nil {
			t.Errorf("%s, %s: no reason %s", c.product, c.word, c.key)
			continue
		}
		if !c.want(r.Values[c.value]) {
			t.Errorf("%s, %s: %s of %s is %v", c.product, c.word, c.value, c.key, r.Values[c.value])
		}
	}
}

func near(want, within float64, of unit.Share) func(declare.Value) bool {
	return func(v declare.Value) bool {
		got := 0.0
		switch v := v.(type) {
		case declare.Percent:
			got = float64(v)
		case declare.MgPerKg:
			got = float64(v)
		}
		got /= float64(of)
		return got > want-within && got < want+within
	}
}

// Every reason of every answer has a key that is listed, with the values that
// are listed and no other, in every market; and every key that the demo shop
// can reach was reached.
func TestKeys(t *testing.T) {
	sh, keys, met := demo(t), explain.Keys(), map[string]bool{}
	var walk func(t *testing.T, all []*explain.Reason)
	walk = func(t *testing.T, all []*explain.Reason) {
		for _, r := range all {
			met[r.Key] = true
			want, ok := keys[r.Key]
			for name := range r.Values {
				ok = ok && slices.Contains(want, name)
			}
			if rule := slices.Contains(declare.Rules(), declare.Rule(r.Key)); !ok || !rule && len(r.Values) != len(want) {
				t.Errorf("%s has the values %v, listed are %v", r.Key, slices.Sorted(maps.Keys(r.Values)), want)
			}
			walk(t, r.Under)
		}
	}
	for _, in := range []string{"eu", "us"} {
		for _, id := range sh.ProductIDs {
			for _, word := range vocabulary(sh) {
				answer, _ := explain.Ask(question(t, sh, id, in, word))
				walk(t, answer)
			}
		}
	}
	if len(met) < 50 {
		t.Errorf("only %d of %d keys were met", len(met), len(keys))
	}
}

// vocabulary is a word for each thing that can be asked for.
func vocabulary(sh *shop.Shop) []string {
	out := slices.Concat([]string{"water", "date", "fat", "energy", "12 %", "99", "sulphites", "gluten", "nuts", "milk", "metabisulphite", "potassium"}, sh.FormulaIDs)
	return append(out, sh.IngredientIDs[:len(sh.IngredientIDs)/2]...)
}

// A word that nothing answers to has no answer, and the name most like it.
func TestUnheard(t *testing.T) {
	answer, near := explain.Ask(question(t, demo(t), "pear-hazelnut-tartlet", "eu", "walnts"))
	if answer != nil || near != "walnuts" {
		t.Errorf("%v, %q", answer, near)
	}
}

func ExampleAsk() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	eu, _ := market.Get("eu")
	en, _ := words.Get("en")
	p := sh.Products["pear-hazelnut-tartlet"]
	f := declare.Of(sh, p, &p.Packs[0], eu, unit.Date{Year: 2026, Month: 3, Day: 17}, &found)
	answer, _ := explain.Ask(explain.Question{Shop: sh, Facts: f, Lang: en, Word: "water"})
	fmt.Println(answer[0].Key, answer[0].Values["left"], "of the finished food, up to", answer[0].Values["limit"])
	// Output: water-unlisted 0 % of the finished food, up to 5 %
}
