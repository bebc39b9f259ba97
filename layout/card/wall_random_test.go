package card

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
	"chablon/layout/page"
)

// TestRandomWalls: a wall form of any product of 1 to 5 formulas, together 1 to
// 60 steps and 1 to 80 lines, of a minute to 30 days, with long words, in one or
// two of three languages, on any paper, is one sheet, or two that share its
// sub-formulas; on it nothing overlaps or runs out of the paper, no step, amount
// or limit is left out, and nothing is smaller than its distance asks. Or it is
// refused, and said why.
func TestRandomWalls(t *testing.T) {
	sheets, refused := map[int]int{}, 0
	rapid.Check(t, func(r *rapid.T) {
		c := randomWall(t, r)
		var found diag.List
		pages := Compose(c, layouttest.Faces(t), &found)
		if len(pages) == 0 {
			refused++
			if !layouttest.Only(&found, "overflow") {
				r.Fatalf("refused: %v", found.All())
			}
			return
		}
		if sheets[len(pages)]++; len(pages) > 2 {
			r.Fatalf("%d sheets", len(pages))
		}
		checkPages(c, pages, &found)
		if found.Len() > 0 {
			r.Fatalf("%v", found.All())
		}
		if fault := lostOnWall(c, pages); fault != "" {
			r.Fatal(fault)
		}
	})
	if sheets[1] < 10 || sheets[2] < 1 || refused < 1 {
		t.Errorf("sheets %v, refused %d: that tries too little", sheets, refused)
	}
}

// lostOnWall says what of the content cannot be read on the sheets.
func lostOnWall(c Card, pages []*page.Page) string {
	var found diag.List
	said, all := tell(c, &found), readAll(pages)
	lacks := func(s string) bool { return !strings.Contains(all, layouttest.Bare(s)) }
	for _, r := range said.byClock() {
		for _, s := range r.Step.Short.In {
			if lacks(s) {
				return fmt.Sprintf("step %d is not on the wall: %q", r.Step.No, s)
			}
		}
		for _, h := range r.Step.Heats {
			if lacks(h.Lead) || lacks(h.Other) {
				return fmt.Sprintf("step %d lost %s (%s)", r.Step.No, h.Lead, h.Other)
			}
		}
		if l := r.Step.Limit; l != nil {
			for i := range l.Measure.In {
				if lacks(l.Measure.In[i]) || lacks(l.IfNot.In[i]) {
					return fmt.Sprintf("the limit of step %d is not whole", r.Step.No)
				}
			}
		}
	}
	have := map[string]int{}
	runs(pages, func(it page.Item) {
		if it.Role == role.Amount {
			have[layouttest.Bare(it.Run.Text)]++
		}
	})
	for _, l := range said.Lanes {
		for _, p := range l.puts {
			if s := layouttest.Bare(strings.TrimSuffix(p.Amount, "\u00a0g")); p.formula == nil {
				if have[s]--; have[s] < 0 {
					return fmt.Sprintf("%s of %s is not on the wall", p.Amount, p.Name.first())
				}
			}
		}
	}
	return ""
}

// randomWall is a product of formulas that share the steps and the lines out.
func randomWall(t *testing.T, r *rapid.T) Card {
	g := &generator{T: r}
	sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{}, Formulas: map[string]*shop.Formula{}, Products: map[string]*shop.Product{}}
	most := rapid.SampledFrom([]int{6, 12, 24, 60}).Draw(r, "most steps")
	parts := rapid.IntRange(1, 5).Draw(r, "formulas")
	p := &shop.Product{Pos: g.pos(), ID: "random", Name: g.says("name", 6, 14), Version: at(g, 3), Approved: at(g, "Mara B."), Issued: at(g, unit.Date{Year: 2026, Month: 3, Day: 2}),
		Keep: shop.Keep{Pos: g.pos(), Store: at(g, "ambient"), Life: at(g, unit.Life{Days: 2})}}
	stage := shop.Stage{Pos: g.pos(), Stage: at(g, "assemble")}
	for i := range parts {
		f := g.formula(sh, fmt.Sprintf("f%d", i), max(1, most/parts))
		stage.Add = append(stage.Add, shop.Line{Pos: g.pos(), Use: at(g, f.ID), Take: at(g, 20*unit.Gram)})
	}
	p.Parts = []shop.Stage{stage}
	p.Steps = []shop.Step{g.short(0)}
	sh.Products[p.ID] = p
	b, err := scale.Pieces(sh, p, unit.Count(rapid.IntRange(1, 480).Draw(r, "pieces")))
	if err != nil {
		r.Fatal(err)
	}
	langs := rapid.SampledFrom([]string{"en", "fr", "de", "en+fr", "de+en", "fr+de"}).Draw(r, "languages")
	on := rapid.SampledFrom(cardStocks(t)).Draw(r, "paper")
	return Card{Shop: sh, Product: p, Batch: b, Langs: tongues(t, langs), Stock: layouttest.Paper(t, on), Dots: layouttest.Office(), Copy: 1, Copies: 1, Code: on != "card-a6",
		Ready: unit.Span(rapid.IntRange(0, 48).Draw(r, "ready")) * 30 * unit.Minute}
}

func (g *generator) formula(sh *shop.Shop, id string, most int) *shop.Formula {
	f := &shop.Formula{Pos: g.pos(), ID: id, Name: g.says("name", 4, 14), Version: at(g, 1), Issued: at(g, unit.Date{Year: 2026, Month: 3, Day: 2})}
	for i := range rapid.IntRange(1, 16).Draw(g.T, "lines") {
		in := fmt.Sprintf("%s-i%d", id, i)
		sh.Ingredients[in] = &shop.Ingredient{Pos: g.pos(), ID: in, Name: g.says("ingredient", 3, 16)}
		f.Lines = append(f.Lines, shop.Line{Pos: g.pos(), Use: at(g, in), Take: at(g, unit.Mass(rapid.Int64Range(100, 4_000_000).Draw(g.T, "mg"))*unit.Milligram)})
	}
	for i := range rapid.IntRange(1, most).Draw(g.T, "steps") {
		f.Steps = append(f.Steps, g.short(i))
	}
	sh.Formulas[id] = f
	return f
}

// short is a step with a sentence for the wall in each language.
func (g *generator) short(i int) shop.Step {
	s := g.step(i)
	for _, code := range []string{"en", "fr", "de"} {
		words := rapid.StringOfN(rapid.RuneFrom([]rune("abc deé fghijk lmnopqrstu vwxyzß ÅÖ")), 1, 60-len(code)-1, -1).Draw(g.T, "short")
		s.Short = append(s.Short, read.Entry[shop.Text]{Key: at(g, code), V: at(g, code+" "+strings.Join(strings.Fields(words), " "))})
	}
	return s
}

// TestWallLegible measures the wall form of the demo shop: figures at the
// distance of the paper, words at an arm's length, each at least 16 minutes of
// arc (NUREG-0700, 1.3.1-4; ISO 9241-3), and in one language the sentences too at
// the distance of the paper.
func TestWallLegible(t *testing.T) {
	sh := layouttest.Shop(t)
	arm := map[string]unit.Length{"card-a3": 700 * unit.MM, "card-a4": 500 * unit.MM, "card-letter": 500 * unit.MM}
	for on, near := range arm {
		for _, langs := range []string{"en", "en+fr"} {
			c := hung(t, sh, "lemon-thyme-marshmallow", on, langs)
			runs(composed(t, c), func(it page.Item) {
				from := near
				switch it.Role {
				case role.Amount, role.Heat, role.Limit, role.Figure, role.Name, role.Batch, role.Allergens:
					from = c.Stock.ReadAt.V
				}
				if arc := arcOf(it, from); arc < 16 {
					t.Errorf("%s in %s: %s %q spans %.1f minutes of arc", on, langs, it.Role, it.Run.Text, arc)
				}
				if langs == "en" && strings.HasPrefix(it.Run.Text, "Boil sugars") && arcOf(it, c.Stock.ReadAt.V) < 16 {
					t.Errorf("%s: a sentence is not read from the wall's distance", on)
				}
			})
		}
	}
}

// arcOf is the angle of capitals of a run from a distance, in minutes of arc.
func arcOf(it page.Item, from unit.Length) float64 {
	return 2 * math.Atan(it.Run.CapHeight.MM()/2/from.MM()) * 180 / math.Pi * 60
}
