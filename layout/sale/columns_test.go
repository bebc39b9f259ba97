package sale

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
)

// The panels of the markets with a column for a portion: every head and every
// figure stands on the label, the label passes preflight, and a table is taken
// where there is room for one (Reg. (EU) 1169/2011 Art. 34(2)).
func TestPanels(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	p := sh.Products["lemon-thyme-marshmallow"]
	k, _ := p.Pack("bag-of-10-portions")
	for _, c := range []struct{ in, langs, on, says string }{
		{"eu", "en", "a4-4", "Nutrition declaration 5 portions per 100 g per portion (24 g) %* energy"},
		{"eu", "en fr de", "a4-2", "Nutrition declaration / Déclaration nutritionnelle"},
		{"us", "en", "a4-4", "Nutrition Facts 5 servings per container Serving size 2 pieces (24 g) Amount per serving Calories 70 % Daily Value* Total Fat"},
		{"ca", "en fr", "a4-2", "Nutrition Facts Valeur nutritive Per 2 pieces (24 g) pour 2 pièces (24 g) Calories 70"},
		{"au", "en", "a4-4", "NUTRITION INFORMATION Servings per package: 5 Serving size: 24 g"},
	} {
		m, _ := market.Get(c.in)
		var found diag.List
		l := Label{Facts: declare.Of(sh, p, k, m, layouttest.Day(), &found), Pack: k, Batch: "L26076A", Batched: p.Pos, Dots: layouttest.Office()}
		for _, code := range strings.Fields(c.langs) {
			lang, _ := words.Get(code)
			l.Langs, l.Told = append(l.Langs, lang), append(l.Told, words.Tell(l.Facts, sh, lang, &found))
		}
		l.Stock, _ = stock.Get(c.on)
		s := Compose(l, f, &found)
		if s == nil || found.Errors() > 0 {
			t.Errorf("%s: %v", c.in, found.All())
			continue
		}
		all := layouttest.Read(s.Art.Items)
		if !strings.Contains(all, layouttest.Bare(c.says)) {
			t.Errorf("%s: %q is not on the label:\n%s", c.in, c.says, all)
		}
		for _, told := range l.Told {
			for _, said := range append([]string{told.Table.Heading, told.Table.Portions, told.Table.ReferenceOf}, told.Table.Heads...) {
				if optional := c.in == "ca" && said == told.Table.Portions; !optional && !strings.Contains(all, layouttest.Bare(said)) { // B.01.401: servings per package are optional
					t.Errorf("%s: %q is not on the label", c.in, said)
				}
			}
		}
		for _, r := range l.Told[0].Table.Rows {
			for _, v := range r.Cells {
				if v = strings.ReplaceAll(layouttest.Bare(v), "/", ""); !strings.Contains(strings.ReplaceAll(all, "/", ""), v) && !strings.Contains(v, "kJ") {
					t.Errorf("%s: the figure %q of %s is not on the label", c.in, v, r.Name)
				}
			}
		}
		preflight.Label(preflight.Sheet{What: c.in, Src: p.Pos, Safe: s.Safe, Market: m, Use: gs1.Retail, Today: layouttest.Day(), Date: l.Facts.Date.End, Dots: l.Dots,
			Pack: market.Pack{Sale: market.Prepacked, Face: k.Face.V, Net: market.Quantity{Mass: k.Net.V}, DayMonth: true}}, s.Art.Items, &found)
		if found.Errors() > 0 {
			t.Errorf("%s: %v", c.in, found.All())
		}
	}
}

// Where a market wants a panel, running words do not stand in its place: what
// does not fit is refused.
func TestPanelOrNothing(t *testing.T) {
	sh, f := layouttest.Shop(t), layouttest.Faces(t)
	p := sh.Products["lemon-thyme-marshmallow"]
	k, _ := p.Pack("bag-of-10-portions")
	en, _ := words.Get("en")
	for in, want := range map[string]bool{"eu": true, "us": false} {
		m, _ := market.Get(in)
		var found diag.List
		l := Label{Facts: declare.Of(sh, p, k, m, layouttest.Day(), &found), Pack: k, Batch: "L26076A", Batched: p.Pos, Dots: layouttest.Desk(), Langs: []*words.Lang{en}}
		l.Told = []*words.Label{words.Tell(l.Facts, sh, en, &found)}
		l.Stock, _ = stock.Get("roll-100x60")
		s := Compose(l, f, &found)
		if (s != nil) != want {
			t.Errorf("%s on 100 × 60 mm: set %v, %v", in, s != nil, found.All())
		}
		if s == nil && !slices.ContainsFunc(found.All(), func(d diag.Diag) bool { return d.Rule == "does-not-fit" }) {
			t.Errorf("%s: refused without saying why: %v", in, found.All())
		}
	}
}

// A table with one column keeps its head in the heading, one with several has
// a row of heads.
func TestLinear(t *testing.T) {
	for _, c := range []struct {
		table words.Table
		want  string
	}{
		{words.Table{Heading: "Nutrition", Heads: []string{"per 100 g"}, Rows: []words.Row{{Name: "fat", Cells: []string{"1 g"}}, {Name: "salt", Cells: []string{"0 g"}}}},
			"Nutrition per 100 g: fat 1 g; salt 0 g."},
		{words.Table{Heading: "Nutrition", Heads: []string{"per 100 g", "per portion", "%*"}, Portions: "2 portions", ReferenceOf: "* of a day.",
			Rows: []words.Row{{Name: "energy", Cells: []string{"8 kJ / 2 kcal", "4 kJ / 1 kcal", ""}}, {Name: "fat", Cells: []string{"1 g", "0.5 g", "1 %"}}}},
			"Nutrition per 100 g (per portion, %*): energy 8 kJ / 2 kcal (4 kJ / 1 kcal); fat 1 g (0.5 g, 1 %). 2 portions. * of a day."},
	} {
		s := linear(&c.table)
		if got := strings.ReplaceAll(s.Text, "\u00a0", " "); got != c.want || s.Role != role.Nutrition {
			t.Errorf("%s (%s)\nwant %s", got, s.Role, c.want)
		}
	}
}

// Where a label speaks several languages, no line of the table's heading ends
// within the words of one of them.
func TestHeadingByLanguage(t *testing.T) {
	sh, seen := layouttest.Shop(t), 0
	for _, id := range sh.ProductIDs {
		l := labelOf(t, sh, id, "", "", layouttest.Desk())
		if len(l.Told) < 2 || l.Told[0].Table == nil || len(l.Told[0].Table.Heads) > 1 {
			continue
		}
		var found diag.List
		s := Compose(l, layouttest.Faces(t), &found)
		if s == nil {
			t.Fatal(found.All())
		}
		for _, told := range l.Told {
			want := layouttest.Bare(told.Table.Heading + told.Table.Per)
			whole := func(it page.Item) bool {
				return it.Role == role.Nutrition && it.Run != nil && strings.Contains(layouttest.Bare(it.Run.Text), want)
			}
			if seen++; !slices.ContainsFunc(s.Art.Items, whole) {
				t.Errorf("%s: the heading in %s is broken", id, told.Lang)
			}
		}
	}
	if seen < 6 {
		t.Errorf("only %d headings", seen)
	}
}
