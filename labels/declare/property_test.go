package declare_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/scale"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// A draw is a product of random ingredients, some of them in a formula of
// their own, some of them compounds.
type draw struct {
	shop    *shop.Shop
	product *shop.Product
	lost    bool
}

func val[T any](v T) diag.At[T] {
	return diag.At[T]{V: v, Pos: diag.Pos{File: "test.yaml", Line: 1, Col: 1}}
}

func called(s string) shop.Words { return shop.Words{{Key: val("en"), V: val(s)}} }

func drawn(t *rapid.T) draw {
	sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{}, Formulas: map[string]*shop.Formula{}, Products: map[string]*shop.Product{}}
	pos := val("").Pos
	n := rapid.IntRange(1, 7).Draw(t, "ingredients")
	var lines [2][]shop.Line
	p := &shop.Product{Pos: pos, ID: "p", Name: called("p")}
	for i := range n {
		id := fmt.Sprint("i", i)
		ing := &shop.Ingredient{Pos: pos, ID: id, Name: called(id), Spec: &shop.Spec{Pos: pos}}
		if rapid.Bool().Draw(t, id+"-compound") {
			share := unit.Share(rapid.IntRange(1, 99).Draw(t, id+"-share")) * unit.Percent
			ing.MadeOf = []shop.Inner{{Pos: pos, Name: called(id + "a"), Share: val(share)}, {Pos: pos, Name: called(id + "b"), Share: val(unit.Whole - share)}}
		}
		sh.Ingredients[id] = ing
		sh.IngredientIDs = append(sh.IngredientIDs, id)
		k := rapid.IntRange(0, 1).Draw(t, id+"-where")
		lines[k] = append(lines[k], shop.Line{Pos: pos, Use: val(id), Take: val(unit.Mass(rapid.IntRange(1, 900).Draw(t, id+"-mass")) * unit.Gram)})
		p.Percent = append(p.Percent, shop.Percent{Pos: pos, Of: val(id), Because: val("in-name")})
	}
	add := lines[0]
	lost := rapid.Bool().Draw(t, "lost")
	if len(lines[1]) > 0 {
		f := &shop.Formula{Pos: pos, ID: "f", Name: called("f"), Lines: lines[1]}
		if lost {
			f.Losses = []shop.Loss{{Pos: pos, Stage: val("bake"), WaterLost: val(shop.Portion{Share: unit.Share(rapid.IntRange(1, 60).Draw(t, "off")) * unit.Percent})}}
		}
		sh.Formulas["f"] = f
		add = append(add, shop.Line{Pos: pos, Use: val("f"), Take: val(unit.Mass(rapid.IntRange(1, 400).Draw(t, "take")) * unit.Gram)})
	}
	p.Parts = []shop.Stage{{Pos: pos, Stage: val("bake"), Add: add}}
	p.Keep.Life, p.Keep.Date = val(unit.Life{Days: 9}), val("best-before")
	p.Packs = []shop.Pack{{Pos: pos, Nutrition: val("exempt-small-maker")}}
	sh.Products["p"] = p
	return draw{sh, p, lost && len(lines[1]) > 0}
}

// The masses of a list add up to all that goes in, those of inner ingredients
// to their compound, percentages without loss to 100 %; the order falls; with
// loss, percentages pass 100 % together and become grams.
func TestMassesAddUp(t *testing.T) {
	eu, _ := market.Get("eu")
	rapid.Check(t, func(t *rapid.T) {
		d := drawn(t)
		f, found := facts(d.shop, d.product, eu)
		if found.Errors() > 0 {
			t.Fatalf("%v", found.All())
		}
		parts := f.Lists[0].Parts
		var mass unit.Mass
		var share unit.Share
		for i, p := range parts {
			mass += p.Mass
			share += p.Quid.Share()
			if i > 0 && p.Mass > parts[i-1].Mass {
				t.Fatalf("%s with %s stands behind %s with %s", p.Ref, p.Mass, parts[i-1].Ref, parts[i-1].Mass)
			}
			var inner unit.Mass
			for _, in := range p.Inner {
				inner += in.Mass
			}
			if len(p.Inner) > 0 && (inner-p.Mass > 2 || p.Mass-inner > 2) {
				t.Fatalf("inner ingredients of %s weigh %s, it weighs %s", p.Ref, inner, p.Mass)
			}
			if p.Quid.PerHundred != (f.AtUse > f.Finished) {
				t.Fatalf("%s at use, %s finished, all declared: grams = %v", f.AtUse, f.Finished, p.Quid.PerHundred)
			}
		}
		if mass != f.AtUse {
			t.Fatalf("parts weigh %s, all that goes in %s", mass, f.AtUse)
		}
		if !d.lost && (share < unit.Whole-100 || share > unit.Whole+100) {
			t.Fatalf("percentages come to %s", share)
		}
	})
}

// By part or whole, the same ingredients go in.
func TestByPartWeighsTheSame(t *testing.T) {
	eu, _ := market.Get("eu")
	rapid.Check(t, func(t *rapid.T) {
		d := drawn(t)
		d.product.Percent = nil
		whole, _ := facts(d.shop, d.product, eu)
		d.product.List = val("by-part")
		parts, found := facts(d.shop, d.product, eu)
		if found.Errors() > 0 {
			t.Fatalf("%v", found.All())
		}
		var made unit.Mass
		for _, p := range parts.Lists[0].Parts {
			made += p.Mass
		}
		if want := scale.FinishedMass(d.shop, d.product); made != want || whole.AtUse != parts.AtUse {
			t.Fatalf("parts weigh %s, the food %s; at use %s and %s", made, want, whole.AtUse, parts.AtUse)
		}
		if a, b := leaves(whole.Lists[0].Parts), leaves(parts.Lists[0].Parts); len(a) != len(b) {
			t.Fatalf("whole %v, by part %v", a, b)
		}
	})
}

// leaves are the names of simple ingredients, each once.
func leaves(parts []declare.Part) map[string]bool {
	out := map[string]bool{}
	for _, p := range parts {
		if len(p.Inner) == 0 {
			out[english(p.Name)] = true
		}
		for name := range leaves(p.Inner) {
			out[name] = true
		}
	}
	return out
}

// An inner ingredient speaks even where its compound is silent: for the list,
// for the line of what is contained, and against a claim.
func TestInnerSpeaksForItself(t *testing.T) {
	pos := val("").Pos
	deep := shop.Inner{Pos: pos, Name: called("deep"), Share: val(unit.Percent), Contains: []shop.Text{val("eggs")}}
	i := &shop.Ingredient{Pos: pos, ID: "i", Name: called("i"), Spec: &shop.Spec{Pos: pos}, Defined: val(true),
		MadeOf: []shop.Inner{{Pos: pos, Name: called("mid"), Share: val(unit.Whole), MadeOf: []shop.Inner{deep}}}}
	p := &shop.Product{Pos: pos, ID: "p", Name: called("p"), Parts: []shop.Stage{{Pos: pos, Add: []shop.Line{
		{Pos: pos, Use: val("i"), Take: val(unit.Gram)}, {Pos: pos, Use: val("j"), Take: val(unit.Kilogram)}}}}}
	p.Packs, p.Keep.Life = []shop.Pack{{Nutrition: val("exempt-small-maker")}}, val(unit.Life{Days: 2})
	p.FreeFrom, p.Assessment = []shop.Text{val("eggs")}, val("RA-1")
	sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{"i": i, "j": {Pos: pos, ID: "j", Name: called("j"), Spec: &shop.Spec{Pos: pos}}}, Products: map[string]*shop.Product{"p": p}}
	eu, _ := market.Get("eu")
	f, found := facts(sh, p, eu)
	if got, want := show(f), "j, i (mid (deep [eggs]))"; got != want || strings.Join(f.Contains, " ") != "eggs" {
		t.Errorf("got %s, contains %v; want %s, eggs", got, f.Contains, want)
	}
	if rules(found) != "free-from" {
		t.Errorf("found %q, want free-from", rules(found))
	}
}

// Whatever a kitchen writes, there is a list or a finding, never a crash.
func FuzzOf(f *testing.F) {
	f.Add("flour 500, water 320, butter 100", "120 g", "open: [chips]", "eu")
	f.Add("powder 60 {reconstituted: yes}, water 540", "", "list: by-part", "us")
	f.Add("rum 20 {left: 6 g}, sugar 1 {or: cane}", "99 %", "list: none\nno-list: vinegar", "ca")
	f.Add("palm 1, rapeseed 0", "0 g", "join: [{as: vegetable-fats, of: [palm, rapeseed]}]", "au")
	f.Fuzz(func(t *testing.T, what, off, keys, in string) {
		m, ok := market.Get(in)
		if !ok || len(what) > 200 || strings.ContainsAny(what, "\n") {
			return
		}
		k := pantry()
		k.product("food", what, off, keys)
		sh := k.unsound()
		p := sh.Products["food"]
		if p == nil || len(p.Packs) == 0 {
			return
		}
		got, found := facts(sh, p, m)
		if len(got.Lists) == 0 && p.List.V != "none" && found.Errors() == 0 {
			t.Errorf("neither a list nor a finding")
		}
	})
}
