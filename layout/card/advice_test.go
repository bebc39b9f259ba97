package card

import (
	"slices"
	"strings"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/role"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/layout/compose"
	"chablon/layout/layouttest"
	"chablon/layout/page"
)

// TestHours: the tartlets of the demo scenario take 347 minutes on the critical
// path (critical path method; Kelley and Walker, 1959), so for 09:00 the pastry
// begins at 03:13 and the boxes are closed from 08:40. The pears can wait 20
// minutes: into the cold at 04:18, and 2 h later at 06:18 they must be cold.
func TestHours(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en")
	word := CheckWord(c)
	c.Ready = 9 * unit.Hour
	var found diag.List
	said := tell(c, &found)
	latest := map[int]string{}
	for _, r := range said.Rows {
		if r.Step != nil {
			latest[r.Step.No] = r.Step.Latest
			if l := r.Step.Limit; l != nil && l.Hours != "04:18\u00a0–\u00a006:18" {
				t.Errorf("the pears are cooled %s", l.Hours)
			}
		}
	}
	if latest[1] != "03:13" || latest[17] != "08:40" || latest[6] != "04:18" {
		t.Errorf("latest starts %v", latest)
	}
	all := readAll(composed(t, c))
	for _, s := range []string{"ready 09:00", "start no later than 03:13", "time 04:18 – 06:18", "start at", "done by",
		"04:00 05:00 06:00 07:00 08:00"} { // above the work against time
		layouttest.Has(t, all, s)
	}
	if CheckWord(c) != word {
		t.Error("the check word tells the time")
	}
}

// TestDayBefore: 16 hours before 09:00 is 17:00 of the day before.
func TestDayBefore(t *testing.T) {
	for _, tc := range []struct {
		at          unit.Span
		long, short string
	}{
		{9*unit.Hour - 16*unit.Hour, "17:00 (−1\u00a0day)", "17:00 (−1)"},
		{-24 * unit.Hour, "00:00 (−1\u00a0day)", "00:00 (−1)"},
		{-25 * unit.Hour, "23:00 (−2\u00a0days)", "23:00 (−2)"},
		{0, "00:00", "00:00"},
		{24*unit.Hour - unit.Minute, "23:59", "23:59"},
		{26 * unit.Hour, "02:00 (+1\u00a0day)", "02:00 (+1)"},
	} {
		tl := &teller{compose.Tell("card", diag.Pos{}, &diag.List{}, tongues(t, "en")...), Card{}}
		if a, b := tl.timeOfDay(tc.at, false), tl.timeOfDay(tc.at, true); a != tc.long || b != tc.short {
			t.Errorf("%v: %q and %q, want %q and %q", tc.at, a, b, tc.long, tc.short)
		}
	}
}

// TestPremix: 0.9 g of salt, wanted exact, on a scale of 0.1 g may be more than
// 5 % off. Six times as much with five times that of sugar (50 steps of the
// scale; NIST Handbook 44, G-UR.1.1, made for other trades), 5.4 g of which hold
// 0.9 g of salt and 4.5 g of sugar: 5 g on the scale that the sugar is weighed
// on.
func TestPremix(t *testing.T) {
	sh := layouttest.Shop(t)
	if all := readAll(composed(t, cardOf(t, sh, "pear-hazelnut-tartlet", "card-a4", "en+fr"))); strings.Contains(all, layouttest.Bare("salt: mix")) {
		t.Error("a premix for salt that nobody wants exact")
	}
	salt := &sh.Formulas["hazelnut-frangipane"].Lines[6]
	salt.Exact.V, salt.Take.V = true, salt.Take.V/2
	c := cardOf(t, sh, "pear-hazelnut-tartlet", "card-a4", "en+fr")
	all := readAll(composed(t, c))
	layouttest.Has(t, all, "salt: mix 5.4 g well with 27.0 g sugar; use 5.4 g of it and 5 g less sugar")
	layouttest.Has(t, all, "sel : mêler 5.4 g à 27.0 g de sucre")
	finer := shop.Scale{}
	finer.UpTo.V, finer.Step.V = 20*unit.Gram, 10*unit.Milligram
	c.Shop.Profile.Scales = append(c.Shop.Profile.Scales, finer)
	b, err := scale.Pieces(c.Shop, c.Product, 48)
	if err != nil {
		t.Fatal(err)
	}
	c.Batch = b
	if all := readAll(composed(t, c)); strings.Contains(all, "mix5.4g") {
		t.Error("a finer scale of the bench is not seen")
	}
}

// TestBaker: shares of a base are those of W. Gisslen, Professional Baking: all
// flours together are 100 %. The sweet pastry has 1000 g of flour to 600 g of
// butter and 380 g of sugar, the shortbread two flours of 340 and 260 g.
func TestBaker(t *testing.T) {
	for id, want := range map[string][]string{
		"sweet-pastry":   {"wheat flour 100 %", "butter 60 %", "icing sugar 38 %", "salt 0.8 %", "100 % = wheat flour"},
		"rye-shortbread": {"wheat flour 56.7 %", "rye flour 43.3 %", "butter 60 %", "100 % = wheat flour + rye flour"},
	} {
		c := cardOf(t, layouttest.Shop(t), id, "card-a4", "en")
		without := readAll(composed(t, c))
		c.Baker = true
		with := readAll(composed(t, c))
		for _, s := range want {
			layouttest.Has(t, with, s)
			if strings.Contains(without, layouttest.Bare(s)) {
				t.Errorf("%s: %q was not asked for", id, s)
			}
		}
	}
	c := cardOf(t, layouttest.Shop(t), "craquelin", "card-a4", "en")
	c.Baker, c.Formula.Base = true, nil
	var found diag.List
	if pages := Compose(c, layouttest.Faces(t), &found); len(pages) == 0 || found.Errors() > 0 || !layouttest.Only(&found, "base") {
		t.Errorf("without a base: %d pages, %v", len(pages), found.All())
	}
}

// TestBalance: the caramel of the demo scenario goes from 1013 g with 363.5 g of
// water to 760 g, which leaves 14.5 % of water.
func TestBalance(t *testing.T) {
	layouttest.Has(t, readAll(composed(t, cardOf(t, layouttest.Shop(t), "passion-caramel", "card-a4", "en"))), "balance: water 14.5 %")
	layouttest.Has(t, readAll(composed(t, cardOf(t, layouttest.Shop(t), "white-crisp", "card-a4", "en"))), "milk fat ≥")
}

// TestWarmth: white couverture melted to 42 °C with flakes at 20 °C meets
// between the two; a mix that cannot come up to what the step asks is warned of.
func TestWarmth(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "white-crisp", "card-a4", "en")
	layouttest.Has(t, readAll(composed(t, c)), "the mix comes to about 3")
	f := c.Formula
	last := &f.Steps[len(f.Steps)-1]
	last.Reach[0].To.V = unit.Target{Kind: unit.AtLeast, Lo: unit.Celsius(40), Hi: unit.Celsius(40)}
	if all := readAll(composed(t, c)); !strings.Contains(all, layouttest.Bare("only about")) || !strings.Contains(all, layouttest.Bare("warm it")) {
		t.Error("nothing warns of a mix that is too cold")
	}
}

// TestBloom: 6 g of gelatine of 200 Bloom are 5.7 g of 220 by the root, 5.5 g
// by the linear rule (both are in use; the card shows which). That is what is
// weighed, and what the column adds up with.
func TestBloom(t *testing.T) {
	for rule, want := range map[string]string{"root": "5.7 g of 220 Bloom, not 6.0 g of 200 (× (200 ÷ 220) ^ ½)",
		"linear": "5.5 g of 220 Bloom, not 6.0 g of 200 (× 200 ÷ 220)"} {
		sh := layouttest.Shop(t)
		for _, l := range sh.Formulas["pistachio-pastry-cream"].Lines {
			if l.WeighedFor != nil {
				l.WeighedFor.Bloom.V, l.WeighedFor.Rule.V = 200, rule
			}
		}
		c := cardOf(t, sh, "pistachio-pastry-cream", "card-a4", "en")
		all := readAll(composed(t, c))
		layouttest.Has(t, all, want)
		m := c.Batch.Makes[0]
		layouttest.Has(t, all, c.Langs[0].MassIn(m.Shown, "g", 0))
		if exact := m.In - unit.Gram/2; m.Shown > exact+unit.Gram/2 || m.Shown < exact-unit.Gram/2 {
			t.Errorf("%s: %s shown of %s as written", rule, m.Shown, m.In)
		}
	}
}

// TestClash: two steps that want the one mixer at the same time are told of;
// who goes first is for the kitchen to say.
func TestClash(t *testing.T) {
	c := cardOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en+fr")
	calm := readAll(composed(t, c))
	peeler := &c.Shop.Formulas["poached-pear"].Steps[0]
	peeler.Tools = append(peeler.Tools, shop.Text{V: "mixer"})
	all := readAll(composed(t, c))
	for _, s := range []string{"mixer: steps 1, 3 want it at the same time", "batteur : les étapes 1, 3"} {
		layouttest.Has(t, all, s)
		if strings.Contains(calm, layouttest.Bare(s)) {
			t.Errorf("%q although nothing clashes", s)
		}
	}
}

// TestReview: what does not grow in proportion is flagged on a large batch.
func TestReview(t *testing.T) {
	sh := layouttest.Shop(t)
	f := sh.Formulas["sweet-pastry"]
	for i := range f.Lines {
		if f.Lines[i].Use.V == "salt" {
			f.Lines[i].Review = diag.At[shop.Ratio]{V: 3 * shop.One, Pos: f.Lines[i].Pos}
		}
	}
	for _, tc := range []struct {
		times unit.Mass
		want  bool
	}{{1, false}, {5, true}} {
		c := cardOf(t, sh, "sweet-pastry", "card-a4", "en")
		b, err := scale.Mass(sh, f, f.Out()*tc.times)
		if err != nil {
			t.Fatal(err)
		}
		c.Batch = b
		if got := strings.Contains(readAll(composed(t, c)), layouttest.Bare("check at this batch size")); got != tc.want {
			t.Errorf("%d times the formula: flagged %v", tc.times, got)
		}
	}
}

// TestMakesWhatIsWeighed: what a formula makes is what is weighed of it where it
// is used, whatever the rounding.
func TestMakesWhatIsWeighed(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, id := range sh.ProductIDs {
		for _, n := range []unit.Count{7, 24, 48, 49, 96, 101} {
			c := cardOf(t, sh, id, "card-a4", "en")
			b, err := scale.Pieces(sh, c.Product, n)
			if err != nil {
				t.Fatal(err)
			}
			c.Batch = b
			var found diag.List
			said := tell(c, &found)
			for _, l := range said.Lanes {
				for _, p := range said.Lanes[len(said.Lanes)-1].puts {
					if p.Letter == l.Letter && p.Letter != "" && l.Makes.first() != "makes "+p.Amount {
						t.Errorf("%s, %d pieces: %q makes %q, and %q is weighed", id, n, l.Name.first(), l.Makes.first(), p.Amount)
					}
				}
			}
		}
	}
}

// TestNotesUnderARule: what fills a page under its steps stands
// below a thick rule, so that a caution is not read as part of a step.
func TestNotesUnderARule(t *testing.T) {
	for i, pg := range composed(t, cardOf(t, layouttest.Shop(t), "pistachio-choux", "card-a4", "en")) {
		var note, step, rule unit.Length
		for _, it := range pg.All() {
			switch {
			case it.Run != nil && strings.HasPrefix(it.Run.Text, "Hot oven: dry"):
				note = it.Box.Y
			case it.Role == role.Step && it.Box.X > 15*unit.MM:
				step = max(step, it.Box.Y)
			}
		}
		if note == 0 {
			continue
		}
		for _, it := range pg.All() {
			if s := it.Shape; s != nil && s.Kind == page.Filled && it.Box.W > 150*unit.MM && it.Box.H > unit.MM/2 && it.Box.H < unit.MM && it.Box.Y < note {
				rule = max(rule, it.Box.Y)
			}
		}
		if step > note || rule < step || rule == 0 {
			t.Errorf("page %d: last step at %v, rule at %v, note at %v", i+1, step, rule, note)
		}
	}
}

// TestEggSize: eggs of another size change how many are about as much, never
// the grams: 120 g are about 2½ of 50 g and 2 of 60 g.
func TestEggSize(t *testing.T) {
	amounts := func(pages []*page.Page) (all []string) {
		runs(pages, func(it page.Item) {
			if it.Role == role.Amount {
				all = append(all, it.Run.Text)
			}
		})
		return all
	}
	c := cardOf(t, layouttest.Shop(t), "pear-hazelnut-tartlet", "card-a4", "en")
	middling := composed(t, c)
	layouttest.Has(t, readAll(middling), "≈ 2½")
	sh := layouttest.Shop(t)
	sh.Ingredients["egg"].Piece.Mass.V = 60 * unit.Gram
	large := composed(t, cardOf(t, sh, "pear-hazelnut-tartlet", "card-a4", "en"))
	layouttest.Has(t, readAll(large), "≈ 2 ")
	if a, b := amounts(middling), amounts(large); !slices.Equal(a, b) {
		t.Errorf("%q, with larger eggs %q", a, b)
	}
}
