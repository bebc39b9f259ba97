package card

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/diag"
	"chablon/labels/read"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/layouttest"
)

// TestRandomCards: a card of any formula of 1 to 60 steps and 1 to 80 lines,
// of a minute to 30 days, with long words, in one or two languages, on any
// paper, overlaps nothing, can be drawn,
// leaves no step and no amount out, and prints nothing below the size that its
// distance asks; or it is refused because a step or a word is larger than the
// paper.
func TestRandomCards(t *testing.T) {
	set := 0
	rapid.Check(t, func(r *rapid.T) {
		c := randomCard(t, r)
		var found diag.List
		pages := Compose(c, layouttest.Faces(t), &found)
		if len(pages) == 0 {
			if !layouttest.Only(&found, "overflow", "too-wide") {
				r.Fatalf("refused: %v", found.All())
			}
			return
		}
		set++
		checkPages(c, pages, &found)
		if found.Len() > 0 {
			r.Fatalf("%v", found.All())
		}
		layouttest.PDF(r, pages...)
		all := readAll(pages)
		for i, s := range c.Formula.Steps {
			for _, l := range c.Langs {
				if do, _ := s.Do.Get(l.Code()); !strings.Contains(all, layouttest.Bare(do.V)) {
					r.Fatalf("step %d is missing", i)
				}
			}
		}
		if a := missing(c, pages); a != nil {
			r.Fatalf("%v of %s is missing", a.Shown, a.Line.Ref())
		}
	})
	if set < 20 {
		t.Errorf("only %d cards were set", set)
	}
}

type generator struct {
	*rapid.T
	line int
}

func (g *generator) pos() diag.Pos {
	g.line++
	return diag.Pos{File: "formulas/random.yaml", Line: g.line, Col: 1}
}

func at[T any](g *generator, v T) diag.At[T] { return diag.At[T]{V: v, Pos: g.pos()} }

func (g *generator) says(what string, most, letters int) shop.Words {
	var w shop.Words
	for _, code := range []string{"en", "fr", "de"} {
		n := rapid.IntRange(1, most).Draw(g.T, what)
		var parts []string
		for range n {
			parts = append(parts, rapid.StringOfN(rapid.RuneFrom([]rune("abcdefghijklmnopqrstuvwxyzéèüœßÅÖ")), 1, letters, -1).Draw(g.T, "word"))
		}
		w = append(w, read.Entry[shop.Text]{Key: at(g, code), V: at(g, code+" "+strings.Join(parts, " "))})
	}
	return w
}

func (g *generator) chance(percent int, what string) bool {
	return rapid.IntRange(1, 100).Draw(g.T, what) <= percent
}

// span is from least minutes to 30 days: short steps stand beside long rests.
func (g *generator) span(least int) unit.Span {
	per := rapid.SampledFrom([]unit.Span{unit.Minute, unit.Minute, unit.Minute, unit.Hour, 24 * unit.Hour}).Draw(g.T, "per")
	most := map[unit.Span]int{unit.Minute: 90, unit.Hour: 48, 24 * unit.Hour: 30}[per]
	return unit.Span(rapid.IntRange(least, most).Draw(g.T, "span")) * per
}

func (g *generator) target() unit.Target {
	lo := unit.Celsius(int64(rapid.IntRange(-18, 180).Draw(g.T, "°C")))
	kind := unit.TargetKind(rapid.IntRange(0, 4).Draw(g.T, "kind"))
	t := unit.Target{Kind: kind, Lo: lo, Hi: lo}
	switch kind {
	case unit.Within:
		t.Tol = 2 * unit.DegC
		t.Lo, t.Hi = lo-unit.Temp(t.Tol), lo+unit.Temp(t.Tol)
	case unit.Between:
		t.Hi = lo + unit.Temp(5*unit.DegC)
	}
	return t
}

func randomCard(t *testing.T, r *rapid.T) Card {
	g := &generator{T: r}
	sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{}, Formulas: map[string]*shop.Formula{}, Products: map[string]*shop.Product{}}
	f := &shop.Formula{Pos: g.pos(), ID: "random", Name: g.says("name", 6, 14), Version: at(g, 3), Approved: at(g, "Mara B."),
		Issued: at(g, unit.Date{Year: 2026, Month: 3, Day: 2})}
	for i := range rapid.IntRange(1, 80).Draw(r, "lines") {
		id := fmt.Sprintf("i%d", i)
		sh.Ingredients[id] = &shop.Ingredient{Pos: g.pos(), ID: id, Name: g.says("ingredient", 4, 16)}
		grams := rapid.Int64Range(1, 4_000_000).Draw(r, "mg")
		f.Lines = append(f.Lines, shop.Line{Pos: g.pos(), Use: at(g, id), Take: at(g, unit.Mass(grams)*unit.Milligram)})
	}
	steps := rapid.IntRange(1, 60).Draw(r, "steps")
	for i := range steps {
		f.Steps = append(f.Steps, g.step(i))
	}
	for i := range f.Lines {
		if s := rapid.IntRange(-1, steps-1).Draw(r, "used at"); s >= 0 { // −1: no step names it
			f.Steps[s].Uses = append(f.Steps[s].Uses, shop.Use{Line: f.Lines[i].Use})
		}
	}
	sh.Formulas[f.ID] = f
	b, err := scale.Mass(sh, f, f.Out())
	if err != nil {
		r.Fatal(err)
	}
	langs := rapid.SampledFrom([]string{"en", "fr", "en+fr"}).Draw(r, "languages")
	paperID := rapid.SampledFrom(cardStocks(t)).Draw(r, "paper")
	return Card{Form: Full, Shop: sh, Formula: f, Batch: b, Langs: tongues(t, langs), Stock: layouttest.Paper(t, paperID),
		Dots: layouttest.Office(), Copy: 1, Copies: 1, Code: true,
		Ready: unit.Span(rapid.IntRange(0, 48).Draw(r, "ready")) * 30 * unit.Minute}
}

func (g *generator) step(i int) shop.Step {
	kinds := strings.Split("mix|rest|shape|chill|freeze|toast|poach|boil|cook|bake|cool|temper|melt|set|fill|finish|pack", "|")
	s := shop.Step{Pos: g.pos(), ID: at(g, fmt.Sprintf("S%d", i)), Do: g.says("do", 20, 12),
		Kind: at(g, rapid.SampledFrom(kinds).Draw(g.T, "kind")), HandsOn: at(g, g.span(0))}
	if i > 0 && g.chance(60, "needs") {
		s.Needs = append(s.Needs, at(g, fmt.Sprintf("S%d", rapid.IntRange(0, i-1).Draw(g.T, "need"))))
	}
	if g.chance(60, "tool") {
		s.Tool = g.says("tool", 6, 14)
	}
	if g.chance(30, "look") {
		s.Look = g.says("look", 5, 10)
	}
	if g.chance(30, "wait") {
		s.Waiting = at(g, unit.Waits(g.span(1)))
	}
	if g.chance(20, "set") {
		for range rapid.IntRange(1, 3).Draw(g.T, "heats") {
			s.Set = append(s.Set, at(g, g.target()))
		}
	}
	for range rapid.IntRange(0, 2).Draw(g.T, "reach") {
		s.Reach = append(s.Reach, shop.Reach{To: at(g, g.target())})
	}
	if g.chance(20, "limit") {
		s.Limit = &shop.Limit{Pos: g.pos(), Reach: at(g, g.target()), Measure: g.says("measure", 8, 12), IfNot: g.says("if not", 8, 12)}
		if g.chance(50, "within") {
			s.Limit.Within = at(g, 2*unit.Hour)
		} else {
			s.Limit.Hold = at(g, 2*unit.Minute)
		}
	}
	if g.chance(20, "caution") {
		s.Cautions = []shop.Text{at(g, "hot-sugar"), at(g, "raw-egg")}
	}
	return s
}
