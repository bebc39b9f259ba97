package words_test

import (
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/words"
)

// Names of Annex II of Reg. (EU) 1169/2011; those of the United States as in
// 21 U.S.C. 321(qq), those of Australia from memory (Schedule 9 of the Code).
func TestContains(t *testing.T) {
	for _, c := range []struct{ market, lang, ids, want string }{
		{"eu", "en", "wheat,milk,soybeans", "Contains wheat, soybeans, milk."},
		{"eu", "de", "soybeans,milk,wheat", "Enthält Weizen, Sojabohnen, Milch."},
		{"us", "en", "wheat,soybeans", "Contains wheat, soy."},
		{"au", "en", "wheat,almonds", "Contains wheat, gluten, almond."},
		{"eu", "en", "", ""},
	} {
		m, ok := market.Get(c.market)
		if !ok {
			t.Fatal(c.market)
		}
		f := &declare.Facts{Product: &shop.Product{Pos: diag.Pos{File: "p.yaml"}}, Market: m}
		if c.ids != "" {
			f.Contains = strings.Split(c.ids, ",")
		}
		var found diag.List
		got := words.Contains(f, get(t, c.lang), &found)
		if got.Text != c.want || found.Len() > 0 {
			t.Errorf("%s %s %s: %q, want %q; %v", c.market, c.lang, c.ids, got.Text, c.want, found.All())
		}
		var strong int
		for _, r := range got.Strong {
			strong += r[1] - r[0]
			if s := got.Text[r[0]:r[1]]; strings.ContainsAny(s, ",.") || s == "" {
				t.Errorf("%q is emphasised", s)
			}
		}
		if c.want != "" && strong == 0 {
			t.Errorf("%q names nothing in bold", got.Text)
		}
	}
}
