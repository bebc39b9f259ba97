package words_test

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
)

// The path of an allergen was broken on purpose in 66 ways, one at a time, in
// allergen.go, thing.go, compound.go, list.go, choose.go, claim.go and facts.go
// of labels/declare and in list.go, beside.go, said.go, phrase.go and
// emphasis.go here: a specification or a place overlooked, a limit taken of the
// wrong mass, an exception or a relief that goes too far, an allergen lost in
// merging, joining or opening, a line, a bracket or its bold left out. The tests
// of the two packages and of samples noticed 65. The other takes away the net
// below the rules (food.nothingLost), which nothing reaches while they hold;
// that net has a test of its own.

func at[T any](v T) diag.At[T] {
	return diag.At[T]{V: v, Pos: diag.Pos{File: "test.yaml", Line: 1, Col: 1}}
}

// named is a name in every language.
func named(in func(lang string) string) shop.Words {
	var out shop.Words
	for _, code := range words.Codes() {
		out = append(out, shop.Words{{Key: at(code), V: at(in(code))}}...)
	}
	return out
}

// neutral is a name that names no allergen in any language.
func neutral(s string) shop.Words { return named(func(string) string { return "Q" + s }) }

func bought(id string, contains ...string) *shop.Ingredient {
	i := &shop.Ingredient{Pos: at("").Pos, ID: id, Name: neutral(id), Spec: &shop.Spec{Pos: at("").Pos}}
	for _, c := range contains {
		i.Contains = append(i.Contains, at(c))
	}
	return i
}

func line(use string, grams int) shop.Line {
	return shop.Line{Pos: at("").Pos, Use: at(use), Take: at(unit.Mass(grams) * unit.Gram)}
}

func pieces(use string, n int) shop.Line {
	return shop.Line{Pos: at("").Pos, Use: at(use), Pieces: at(unit.Count(n))}
}

// A scene is a shop that is put together by hand.
type scene struct{ *shop.Shop }

func newScene() scene {
	s := scene{&shop.Shop{Ingredients: map[string]*shop.Ingredient{}, Formulas: map[string]*shop.Formula{}, Products: map[string]*shop.Product{}}}
	s.Profile.Name, s.Profile.Address = at("Q"), at("Q")
	return s
}

func (s scene) buys(all ...*shop.Ingredient) {
	for _, i := range all {
		s.Ingredients[i.ID] = i
		s.IngredientIDs = append(s.IngredientIDs, i.ID)
	}
}

func (s scene) makes(id string, lines ...shop.Line) *shop.Formula {
	f := &shop.Formula{Pos: at("").Pos, ID: id, Name: neutral(id), Lines: lines}
	s.Formulas[id] = f
	return f
}

func (s scene) sells(id string, lines ...shop.Line) *shop.Product {
	p := &shop.Product{Pos: at("").Pos, ID: id, Name: neutral(id), Parts: []shop.Stage{{Pos: at("").Pos, Stage: at("bake"), Add: lines}}}
	p.Keep.Store, p.Keep.Date, p.Keep.Life = at("ambient"), at("best-before"), at(unit.Life{Days: 20})
	p.Packs = []shop.Pack{{Pos: at("").Pos, Pieces: at(unit.Count(1)), Net: at(100 * unit.Gram), Nutrition: at("exempt-small-maker")}}
	s.Products[id] = p
	return p
}

// tell declares a product and says it in a language.
func (s scene) tell(t interface{ Fatalf(string, ...any) }, p *shop.Product, in, lang string) (*words.Label, *diag.List) {
	m, ok := market.Get(in)
	l, known := words.Get(lang)
	if !ok || !known {
		t.Fatalf("no market %q or language %q", in, lang)
	}
	var found diag.List
	f := declare.Of(s.Shop, p, &p.Packs[0], m, unit.Date{Year: 2026, Month: 3, Day: 17}, &found)
	return words.Tell(f, s.Shop, l, &found), &found
}

// languagesOf lists the languages in which a market's labels can be said.
func languagesOf(in string) []string {
	switch in {
	case "us", "au":
		return []string{"en"}
	case "ca":
		return []string{"en", "fr"}
	}
	return words.Codes()
}

// places lists where an allergen may be hidden.
var places = []string{"line", "make-up", "sub-formula", "inner", "inner-of-inner", "medium", "component", "nested-assortment"}

// hide puts the ingredient holder somewhere into a product of a scene.
func hide(s scene, place string, holder *shop.Ingredient, grams int, tune func(*shop.Line)) *shop.Product {
	other := bought("plain")
	s.buys(other, holder)
	l := line(holder.ID, grams)
	tune(&l)
	base := s.makes("base", line("plain", 1000))
	switch place {
	case "make-up":
		return s.sells("food", line("base", 50), l)
	case "sub-formula":
		s.makes("a", l, line("plain", 300))
		s.makes("b", line("a", 20), line("plain", 200))
		base.Lines = append(base.Lines, line("b", 30))
	case "medium":
		s.makes("bath", l, line("plain", 800))
		base.CookedIn = &shop.CookedIn{Pos: at("").Pos, Use: at("bath"), SoakedUp: at(20 * unit.Gram)}
	default:
		base.Lines = append(base.Lines, l)
	}
	food := s.sells("food", line("base", 50))
	switch place {
	case "component":
		s.sells("other", line("plain", 20))
		return s.sells("tin", pieces("other", 3), pieces("food", 2))
	case "nested-assortment":
		s.sells("box", pieces("food", 2))
		s.sells("other", line("plain", 20))
		return s.sells("tin", pieces("other", 3), pieces("box", 1))
	}
	return food
}

// inside moves the allergens of an ingredient to an inner ingredient, or to
// one inside that.
func inside(i *shop.Ingredient, deep bool, tune func(*shop.Inner)) {
	holder := shop.Inner{Pos: i.Pos, Name: neutral("held"), Share: at(unit.Percent / 10), Contains: i.Contains}
	tune(&holder)
	if deep {
		holder = shop.Inner{Pos: i.Pos, Name: neutral("mid"), Share: at(5 * unit.Percent), Contains: i.Contains,
			MadeOf: []shop.Inner{{Pos: i.Pos, Name: neutral("much"), Share: at(99 * unit.Percent)}, holder}}
	}
	i.MadeOf = []shop.Inner{{Pos: i.Pos, Name: neutral("bulk"), Share: at(90 * unit.Percent)}, holder}
}

// printed reports whether something bold in the texts names the allergen.
func printed(t interface{ Fatalf(string, ...any) }, in, lang, id string, texts ...words.Said) bool {
	l, _ := words.Get(lang)
	l, err := l.For(in)
	if err != nil {
		t.Fatalf("%v", err)
	}
	name, stems, err := l.Allergen(id)
	if err != nil {
		t.Fatalf("%v", err)
	}
	for _, s := range texts {
		for _, r := range s.Strong {
			bold := strings.ToLower(s.Text[r[0]:r[1]])
			if strings.Contains(bold, strings.ToLower(name)) || slices.ContainsFunc(stems, func(st string) bool { return strings.Contains(bold, st) }) {
				return true
			}
		}
	}
	return false
}

func lists(l *words.Label) []words.Said {
	return slices.DeleteFunc(slices.Clone(l.Lists), func(s words.Said) bool { return s.Role != role.List })
}

// Adding an allergen anywhere always reaches the list, emphasised, in every
// market and every language, however little it is: Regulation (EU) No
// 1169/2011 Art. 21, and its counterparts.
func TestAllergenReachesTheLabel(t *testing.T) {
	markets := market.Codes()
	rapid.Check(t, func(t *rapid.T) {
		in := rapid.SampledFrom(markets).Draw(t, "market")
		m, _ := market.Get(in)
		ids := []string{}
		for _, a := range m.Allergens.Table {
			if a.ID != "sulphites" && (a.ID != "pine nuts" || in == "us" || in == "ca" || in == "au") {
				ids = append(ids, a.ID)
			}
		}
		id := rapid.SampledFrom(ids).Draw(t, "allergen")
		place := rapid.SampledFrom(places).Draw(t, "place")
		flag := func(name string) bool { return rapid.Bool().Draw(t, name) }

		holder := bought("holder", id)
		own := flag("own-name")
		if own {
			holder.Name = named(func(lang string) string {
				l, _ := words.Get(lang)
				name, _, err := l.Allergen(id)
				if err != nil {
					return "Qholder"
				}
				return name
			})
		}
		if flag("defined") {
			holder.Defined = at(true)
		}
		if flag("spices") {
			holder.Mixture = at("spices")
		}
		if place == "inner" || place == "inner-of-inner" {
			carried, class, silent := flag("carried"), flag("class"), flag("silent")
			inside(holder, place == "inner-of-inner", func(i *shop.Inner) {
				if carried {
					i.CarryOver = at(true)
				}
				if class {
					i.Class, i.Number = at("emulsifier"), at("E 322")
				}
			})
			if silent {
				holder.Contains = nil // only the innermost ingredient says so
				if place == "inner-of-inner" {
					holder.MadeOf[1].Contains = nil
				}
			}
		} else if flag("additive") {
			holder.Class, holder.Number = at("preservative"), at("E 200")
		}
		s := newScene()
		grams := rapid.SampledFrom([]int{0, 1, 5, 30, 500}).Draw(t, "grams")
		food := hide(s, place, holder, grams, use(holder, flag))
		if flag("direct") && (in == "eu" || in == "gb") {
			food.Packs[0].Sale = at("direct")
		}
		for _, id := range slices.Sorted(maps.Keys(s.Products)) {
			choose(s.Products[id], flag)
		}
		if flag("join") && food.List.V == "" && place == "line" && m.List.Mixture.Set() && few(s, m) && !holder.Class.Set() && !holder.AddedWater.V {
			food.Join = []shop.Join{{Pos: food.Pos, As: at("spices"), Of: []shop.Text{at("holder")}, Name: neutral("spices")}}
		}
		if strings.HasPrefix(place, "inner") && flag("open") {
			food.Open = []shop.Text{at("holder")}
		}
		lang := rapid.SampledFrom(languagesOf(in)).Draw(t, "language")
		label, found := s.tell(t, food, in, lang)
		if found.Errors() > 0 {
			t.Fatalf("%v", found.All())
		}
		if !printed(t, in, lang, id, lists(label)...) {
			t.Fatalf("%s in a %s of %d g does not show in %s for %s: %s", id, place, grams, lang, in, text(label.Lists))
		}
		a, _ := m.Allergens.Find(id)
		line := label.Lists[len(label.Lists)-1]
		if m.Allergens.LineComplete && (line.Role != role.Allergens || a.Label == "" && !printed(t, in, lang, id, line)) {
			t.Fatalf("%s wants a line beside the list: %s", in, text(label.Lists))
		}
	})
}

// use draws how an ingredient is used: as a processing aid, as what evaporates
// to nothing, as water, as dried food that is brought back.
func use(i *shop.Ingredient, flag func(string) bool) func(*shop.Line) {
	aid, gone, water, dried := flag("aid"), flag("volatile"), flag("water"), flag("dried")
	i.Evaporates, i.AddedWater, i.Fresh = at(gone), at(water), at(800*unit.Gram)
	return func(l *shop.Line) {
		l.Aid, l.Reconstituted = at(aid), at(dried)
		if gone {
			l.Left = at(shop.Portion{})
		}
	}
}

// few reports whether the last line of the formula is little enough to be
// joined under the name of a category (Annex VII B: no more than 2 %): of what
// was dried, the mass that it had before counts.
func few(s scene, m *market.Market) bool {
	lines := s.Formulas["base"].Lines
	last := lines[len(lines)-1]
	mass, whole := last.Take.V, unit.Mass(0)
	for _, l := range lines {
		whole += l.Take.V
	}
	if last.Reconstituted.V {
		mass = mass.Mul(s.Ingredients[last.Use.V].Fresh.V, 100*unit.Gram)
	}
	return m.List.Mixture.Holds(mass, whole)
}

// choose makes some of the kitchen's choices about a list.
func choose(p *shop.Product, flag func(string) bool) {
	if flag("by-part") {
		p.List = at("by-part")
	}
	if flag("same-name") {
		p.SameLine = at("same-name")
	}
	if flag("numbers") {
		p.Additives = at("numbers")
	}
}

func text(all []words.Said) string {
	var out []string
	for _, s := range all {
		out = append(out, marks(s))
	}
	return strings.Join(out, "\n")
}

// marks writes what is bold between stars.
func marks(s words.Said) string {
	out, at := "", 0
	for _, r := range s.Strong {
		out += s.Text[at:r[0]] + "*" + s.Text[r[0]:r[1]] + "*"
		at = r[1]
	}
	return out + s.Text[at:]
}

// Every language, every allergen, every place, once: the property above draws
// only some.
func TestAllergenReachesEveryLanguage(t *testing.T) {
	each(t, func(t *testing.T, l *words.Lang) {
		eu, _ := market.Get("eu")
		for _, a := range eu.Allergens.Table {
			for _, place := range places {
				holder := bought("holder", a.ID)
				if a.ID == "sulphites" {
					holder.SO2 = at(unit.Whole / 10) // enough of it to be declared
				}
				if strings.HasPrefix(place, "inner") {
					inside(holder, place == "inner-of-inner", func(*shop.Inner) {})
				}
				s := newScene()
				food := hide(s, place, holder, 30, func(*shop.Line) {})
				label, found := s.tell(t, food, "eu", l.Code())
				if found.Errors() > 0 || !printed(t, "eu", l.Code(), a.ID, lists(label)...) {
					t.Errorf("%s in a %s: %s %v", a.ID, place, text(label.Lists), found.All())
				}
			}
		}
	})
}

// What cannot be kept out reaches the precautionary line, in every language.
func TestMayContainReachesEveryLanguage(t *testing.T) {
	each(t, func(t *testing.T, l *words.Lang) {
		eu, _ := market.Get("eu")
		for _, a := range eu.Allergens.Table {
			for _, from := range []string{"supplier", "alternative", "kitchen"} {
				s := newScene()
				i, alt := bought("i"), bought("alt")
				s.buys(i, alt, bought("plain"))
				few := line("i", 1)
				switch from {
				case "supplier":
					i.MayContain = []shop.Text{at(a.ID)}
				case "alternative":
					alt.MayContain, few.Or = []shop.Text{at(a.ID)}, at("alt")
				case "kitchen":
					s.Profile.CrossContact = []shop.Text{at(a.ID)}
				}
				p := s.sells("food", few, line("plain", 99))
				if _, found := s.tell(t, p, "eu", l.Code()); found.Errors() == 0 {
					t.Errorf("%s may be in it, but no assessment is asked for", a.ID)
				}
				p.Assessment = at("RA-1")
				label, found := s.tell(t, p, "eu", l.Code())
				if found.Errors() > 0 || !printed(t, "eu", l.Code(), a.ID, label.May) {
					t.Errorf("%s from the %s: %q %v", a.ID, from, marks(label.May), found.All())
				}
			}
		}
	})
}

// A food without a list says "contains", unless its name tells: Regulation
// (EU) No 1169/2011 Art. 21(1).
func TestContainsLineWithoutAList(t *testing.T) {
	for _, c := range []struct{ in, name, contains, want string }{
		{"eu", "Roast nibbles", "almonds", "Contains *almonds*."},
		{"eu", "Roast almonds", "almonds", ""},
		{"eu", "Roast almonds", "almonds milk", "Contains *milk*, *almonds*."},
		{"codex", "Roast nibbles", "almonds", "Contains *almonds*."},
		{"us", "Roast almonds", "almonds", "Contains *almonds*."},
		{"au", "Roast almonds", "almonds", "*Contains almond.*"},
	} {
		s := newScene()
		i := bought("almonds", strings.Fields(c.contains)...)
		i.Name = named(func(string) string { return c.name })
		s.buys(i)
		p := s.sells("food", line("almonds", 100))
		p.Name, p.List, p.NoList = i.Name, at("none"), at("single-ingredient")
		label, found := s.tell(t, p, c.in, "en")
		if got := text(label.Lists); got != c.want || found.Errors() > 0 {
			t.Errorf("%s %s: %q, want %q; %v", c.in, c.name, got, c.want, found.All())
		}
	}
}

// An inner ingredient that names what its compound contains is emphasised,
// whichever of the two the specification writes it at.
func TestEmphasisInsideACompound(t *testing.T) {
	s := newScene()
	i := bought("flakes", "wheat")
	i.MadeOf = []shop.Inner{{Pos: i.Pos, Name: named(func(string) string { return "wheat flour" }), Share: at(90 * unit.Percent)},
		{Pos: i.Pos, Name: neutral("salt"), Share: at(10 * unit.Percent)}}
	s.buys(i)
	label, found := s.tell(t, s.sells("food", line("flakes", 100)), "eu", "en")
	if got, want := text(label.Lists), "Ingredients: Qflakes (*wheat*, *wheat* flour, Qsalt)."; got != want || found.Errors() > 0 {
		t.Errorf("got %s, want %s; %v", got, want, found.All())
	}
}

// The last net: facts whose list was lost, whatever lost it, do not pass.
func TestFactsWithoutTheirList(t *testing.T) {
	s := newScene()
	s.buys(bought("i", "milk"), bought("j"))
	p := s.sells("food", line("i", 1), line("j", 9))
	eu, _ := market.Get("eu")
	each(t, func(t *testing.T, l *words.Lang) {
		for _, lose := range []func(*declare.Facts){
			func(f *declare.Facts) { f.Lists[0].Parts = f.Lists[0].Parts[:1] },
			func(f *declare.Facts) { f.Lists[0].Parts[1].Show = nil },
			func(f *declare.Facts) { f.Contains = append(f.Contains, "celery") },
		} {
			var found diag.List
			f := declare.Of(s.Shop, p, &p.Packs[0], eu, unit.Date{Year: 2026, Month: 3, Day: 17}, &found)
			lose(f)
			words.Tell(f, s.Shop, l, &found)
			if found.Errors() != 1 || found.All()[0].Rule != "allergen-lost" {
				t.Errorf("found %v", found.All())
			}
		}
	})
}

// A name that names what the specification does not is refused; so that
// "hazelnut paste" with an empty contains never becomes a label.
func TestNameWithoutAllergen(t *testing.T) {
	for _, c := range []struct {
		lang, name string
		refused    bool
	}{
		{"en", "hazelnut paste", true}, {"en", "butter", false}, {"en", "coconut milk", false}, {"en", "milk powder", true},
		{"de", "Weizenstärke", true}, {"de", "Buchweizenmehl", false}, {"de", "Eis", false}, {"fr", "farine de blé", true},
		{"fi", "vehnäjauho", true}, {"pl", "mleko w proszku", true}, {"en", "potassium metabisulphite", true},
	} {
		s := newScene()
		i := bought("i")
		i.Name = named(func(string) string { return c.name })
		s.buys(i)
		_, found := s.tell(t, s.sells("food", line("i", 100)), "eu", c.lang)
		if got := found.Errors() > 0; got != c.refused {
			t.Errorf("%s %q: refused %v, want %v; %v", c.lang, c.name, got, c.refused, found.All())
		}
	}
	s := newScene()
	s.buys(bought("i"))
	p := s.sells("food", line("i", 100))
	p.Name = named(func(string) string { return "almond cake" })
	if _, found := s.tell(t, p, "eu", "en"); found.Len() != 1 || found.All()[0].Rule != "name-allergen" {
		t.Errorf("almond cake without almonds: %v", found.All())
	}
}

// Neither the size of a batch, nor the order of lines, nor that of files
// changes what is said.
func TestScaleAndOrderChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 6).Draw(t, "ingredients")
		var masses []int
		for i := range n {
			masses = append(masses, rapid.IntRange(1, 400).Draw(t, fmt.Sprint("mass", i)))
		}
		times := rapid.IntRange(1, 40).Draw(t, "times")
		order := rapid.Permutation(numbers(n)).Draw(t, "order")
		off := unit.Share(rapid.IntRange(0, 30).Draw(t, "off")) * unit.Percent
		build := func(times int, order []int) string {
			s := newScene()
			var lines []shop.Line
			for _, i := range order {
				ing := bought(fmt.Sprint("i", i), []string{"milk", "wheat", "eggs", "almonds", "soybeans", "celery"}[i])
				ing.AddedWater = at(i == 5)
				s.buys(ing)
				lines = append(lines, line(ing.ID, masses[i]*times))
			}
			slices.Sort(s.IngredientIDs)
			f := s.makes("f", lines...)
			f.Losses = []shop.Loss{{Pos: at("").Pos, Stage: at("bake"), WaterLost: at(shop.Portion{Share: off})}}
			p := s.sells("food", line("f", 50))
			p.Percent = []shop.Percent{{Pos: at("").Pos, Of: at("i0"), Because: at("in-name")}, {Pos: at("").Pos, Of: at("i1"), Because: at("in-name")}}
			label, found := s.tell(t, p, "eu", "en")
			if found.Errors() > 0 {
				t.Fatalf("%v", found.All())
			}
			return text(label.Lists)
		}
		if a, b := build(1, numbers(n)), build(times, order); a != b {
			t.Fatalf("once: %s\n%d times, lines %v: %s", a, times, order, b)
		}
	})
}

func numbers(n int) []int {
	var out []int
	for i := range n {
		out = append(out, i)
	}
	return out
}
