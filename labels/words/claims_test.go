package words_test

import (
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"

	"chablon/labels/diag"
	"chablon/labels/shop"
	"chablon/labels/words"
	"chablon/samples"
)

// claimed lists what a text promises, each once, in order of name.
func claimed(l *words.Lang, text string) string {
	var out []string
	for _, f := range l.ClaimsIn(text) {
		if a := strings.ReplaceAll(f.About, " ", "-"); !slices.Contains(out, a) {
			out = append(out, a)
		}
	}
	slices.Sort(out)
	return strings.Join(out, " ")
}

// Texts as they stand on packs, and texts that only look like them. Gluten-free
// and very low gluten are words of Reg. (EU) No 828/2014, sugar-free and no
// added sugar of Reg. (EC) No 1924/2006; all else is from memory.
func TestClaims(t *testing.T) {
	for _, s := range lines(t, "testdata/claims.tsv") {
		f := strings.Split(s, "\t")
		if got, want := claimed(get(t, f[0]), f[1]), strings.Trim(f[2], "-"); got != want {
			t.Errorf("%s %q promises %q, want %q", f[0], f[1], got, want)
		}
	}
}

// Every phrase that was gathered is recognised. What stands for vegan here may
// be a lesser promise, and words of wheat are no promise of gluten.
func TestClaimWords(t *testing.T) {
	rows := lines(t, "testdata/claim-words.tsv")
	if len(rows) < 500 {
		t.Fatalf("only %d rows", len(rows))
	}
	for _, s := range rows {
		f := strings.Split(s, "\t")
		got := claimed(get(t, f[0]), f[1])
		want := map[string]string{"any": "everything", "vegan": "vegan vegetarian plant lenten lean", "gluten": "gluten wheat flourless"}[f[2]]
		if want == "" {
			want = f[2]
		}
		if !slices.ContainsFunc(strings.Fields(want), func(w string) bool { return slices.Contains(strings.Fields(got), w) }) {
			t.Errorf("%s %q promises %q, want %q", f[0], f[1], got, want)
		}
	}
}

var loaded = sync.OnceValue(func() *shop.Shop { return shop.Load(samples.Demo(), new(diag.List)) })

// shopOf is the demo shop, to be changed down to the fields of what it knows.
func shopOf(t *testing.T) *shop.Shop {
	t.Helper()
	sh := *loaded()
	if len(sh.Products) == 0 {
		t.Fatal("the demo shop is empty")
	}
	sh.Ingredients, sh.Formulas, sh.Products = copies(sh.Ingredients), copies(sh.Formulas), copies(sh.Products)
	first := *sh.Plans[0]
	sh.Plans = []*shop.Plan{&first}
	return &sh
}

func copies[T any](in map[string]*T) map[string]*T {
	out := map[string]*T{}
	for id, v := range in {
		c := *v
		out[id] = &c
	}
	return out
}

const tartlet = "pear-hazelnut-tartlet"

// named is one text in English.
func planted(text string) shop.Words {
	pos := diag.Pos{File: "planted.yaml", Line: 1, Col: 1}
	return shop.Words{{Key: shop.Text{V: "en", Pos: pos}, V: shop.Text{V: text, Pos: pos}}}
}

func list(ids ...string) (out []shop.Text) {
	for _, id := range ids {
		out = append(out, shop.Text{V: id, Pos: diag.Pos{File: "planted.yaml", Line: 1, Col: 1}})
	}
	return out
}

// judged runs the check and tells what it says of the planted text.
func judged(sh *shop.Shop) string {
	var found diag.List
	words.Claims(sh, &found)
	for _, f := range found.All() {
		if f.Pos.File == "planted.yaml" {
			if !f.Warning {
				return "refused: " + f.Msg
			}
			return "caution: " + f.Msg
		}
	}
	return ""
}

func TestClaimsAreKept(t *testing.T) {
	for _, c := range []struct {
		name   string
		change func(*shop.Shop, *shop.Product)
		want   string
	}{
		{"nothing promised", func(*shop.Shop, *shop.Product) {}, ""},
		{"a label with wheat flour", func(_ *shop.Shop, p *shop.Product) { p.Name = planted("Gluten-free almond cake") }, "refused: \"Gluten-free\" in \"Gluten-free almond cake\": pear-hazelnut-tartlet contains wheat"},
		{"a ticket for milk", func(_ *shop.Shop, p *shop.Product) { p.About = planted("Vegan and nut-free treat") }, "refused: \"Vegan\""},
		{"not stated", func(_ *shop.Shop, p *shop.Product) { p.About = planted("free from lupin") }, "refused: \"free from lupin\" in \"free from lupin\": pear-hazelnut-tartlet does not state it"},
		{"not stated, by hand", func(_ *shop.Shop, p *shop.Product) { p.About = planted("Without any soya") }, "refused: \"Without any soya\""},
		{"stated", func(_ *shop.Shop, p *shop.Product) { p.About, p.FreeFrom = planted("free from lupin"), list("lupin") }, ""},
		{"the supplier fears it", func(sh *shop.Shop, p *shop.Product) {
			p.About, p.FreeFrom = planted("free from lupin"), list("lupin")
			sh.Ingredients["wheat-flour"].MayContain = list("lupin")
		}, "refused: \"free from lupin\" in \"free from lupin\": pear-hazelnut-tartlet may contain lupin (wheat-flour)"},
		{"the kitchen fears it", func(sh *shop.Shop, p *shop.Product) {
			p.About, p.FreeFrom = planted("free from lupin"), list("lupin")
			sh.Profile.CrossContact = list("lupin")
		}, "refused: \"free from lupin\" in \"free from lupin\": pear-hazelnut-tartlet may contain lupin (the kitchen)"},
		{"ruled out", func(sh *shop.Shop, p *shop.Product) {
			p.About, p.FreeFrom = planted("free from lupin"), list("lupin")
			p.RuledOut = []shop.RuledOut{{Allergen: list("lupin")[0], From: list("site")}}
			sh.Profile.CrossContact = list("lupin")
		}, ""},
		{"ruled out for another source", func(sh *shop.Shop, p *shop.Product) {
			p.About, p.FreeFrom = planted("free from lupin"), list("lupin")
			p.RuledOut = []shop.RuledOut{{Allergen: list("lupin")[0], From: list("site")}}
			sh.Ingredients["wheat-flour"].MayContain = list("lupin")
		}, "refused: \"free from lupin\" in \"free from lupin\": pear-hazelnut-tartlet may contain lupin (wheat-flour)"},
		{"sugar", func(_ *shop.Shop, p *shop.Product) { p.About = planted("no added sugar") }, "caution: \"no added sugar\""},
		{"alcohol", func(_ *shop.Shop, p *shop.Product) { p.About = planted("alcohol-free") }, "caution: \"alcohol-free\""},
		{"from everything", func(_ *shop.Shop, p *shop.Product) { p.About = planted("allergen-free") }, "refused: \"allergen-free\""},
		{"an ingredient with milk", func(sh *shop.Shop, _ *shop.Product) {
			i := sh.Ingredients["butter"]
			i.Name = planted("Milk-free margarine")
		}, "refused: \"Milk-free\" in \"Milk-free margarine\": butter contains milk"},
		{"an ingredient without", func(sh *shop.Shop, _ *shop.Product) {
			i := sh.Ingredients["caster-sugar"]
			i.Name = planted("Milk-free margarine")
		}, ""},
		{"oats of a kind", func(sh *shop.Shop, _ *shop.Product) {
			i := sh.Ingredients["caster-sugar"]
			i.Name, i.Contains = planted("gluten-free oats"), list("oats")
		}, "caution: \"gluten-free\""},
		{"milk without lactose", func(sh *shop.Shop, _ *shop.Product) {
			i := sh.Ingredients["butter"]
			i.Name = planted("lactose-free butter")
		}, ""},
		{"a formula", func(sh *shop.Shop, _ *shop.Product) {
			f := sh.Formulas["sweet-pastry"]
			f.Name = planted("Gluten-free pastry")
		}, "refused: \"Gluten-free\" in \"Gluten-free pastry\": sweet-pastry contains wheat"},
		{"a step", func(sh *shop.Shop, _ *shop.Product) {
			f := sh.Formulas["sweet-pastry"]
			f.Steps = slices.Clone(f.Steps)
			f.Steps[0].Do = planted("Mix without eggs first")
		}, "caution: \"without eggs\""},
		{"the house", func(sh *shop.Shop, _ *shop.Product) {
			sh.Profile.Name = shop.Text{V: "The Vegan Oven", Pos: diag.Pos{File: "planted.yaml", Line: 1, Col: 1}}
		}, "refused: \"Vegan\" in \"The Vegan Oven\": bench-tin contains milk"},
	} {
		sh := shopOf(t)
		c.change(sh, sh.Products[tartlet])
		if got := judged(sh); !strings.HasPrefix(got, c.want) || c.want == "" && got != "" {
			t.Errorf("%s: %s\nwant %s", c.name, got, c.want)
		}
	}
}

// No law defines vegan and vegetarian (Reg. (EU) No 1169/2011 Art. 36(3)(b)):
// what they rule out is common usage.
func TestSuits(t *testing.T) {
	for _, c := range []struct {
		name, suits, text string
		change            func(*shop.Ingredient)
		want              string
	}{
		{"stated and true", "vegan", "Vegan bar", func(*shop.Ingredient) {}, ""},
		{"a lesser word", "vegan", "Vegetarian bar", func(*shop.Ingredient) {}, ""},
		{"a greater word", "vegetarian", "Vegan bar", func(*shop.Ingredient) {}, "refused: \"Vegan\" in \"Vegan bar\": bar does not state it under suits"},
		{"milk", "vegan", "Bar", func(i *shop.Ingredient) { i.Contains = list("milk") }, "refused: \"vegan\" in \"suits\": bar contains milk, from oil"},
		{"milk for vegetarians", "vegetarian", "Bar", func(i *shop.Ingredient) { i.Contains = list("milk") }, ""},
		{"milk feared", "vegan", "Bar", func(i *shop.Ingredient) { i.MayContain = list("milk") }, "caution: \"vegan\" in \"suits\": bar may contain milk"},
		{"gelatine", "vegetarian", "Bar", func(i *shop.Ingredient) { i.Name = planted("bovine gelatine") }, "refused: \"vegetarian\" in \"suits\": \"bovine gelatine\" (oil) is of an animal"},
		{"honey", "vegan", "Bar", func(i *shop.Ingredient) { i.Name = planted("heather honey") }, "refused: \"vegan\" in \"suits\": \"heather honey\" (oil)"},
		{"honey for vegetarians", "vegetarian", "Bar", func(i *shop.Ingredient) { i.Name = planted("heather honey") }, ""},
		{"carmine by number", "vegetarian", "Bar", func(i *shop.Ingredient) { i.Number = shop.Text{V: "E 120"} }, "refused: \"vegetarian\" in \"suits\": E120 (oil)"},
		{"shellac by number", "vegetarian", "Bar", func(i *shop.Ingredient) { i.Number = shop.Text{V: "E 904"} }, ""},
		{"shellac for vegans", "vegan", "Bar", func(i *shop.Ingredient) { i.Number = shop.Text{V: "E 904"} }, "refused: \"vegan\" in \"suits\": E904 (oil)"},
		{"carmine inside", "vegan", "Bar", func(i *shop.Ingredient) { i.MadeOf = []shop.Inner{{Number: shop.Text{V: "E120"}}} }, "refused: \"vegan\" in \"suits\": E120 (oil)"},
	} {
		oil := &shop.Ingredient{ID: "oil", Name: planted("sunflower oil")}
		c.change(oil)
		bar := &shop.Product{ID: "bar", Name: planted(c.text)}
		bar.Suits = list(c.suits)
		bar.Parts = []shop.Stage{{Add: []shop.Line{{Use: shop.Text{V: "oil"}}}}}
		sh := &shop.Shop{Ingredients: map[string]*shop.Ingredient{"oil": oil}, IngredientIDs: []string{"oil"},
			Products: map[string]*shop.Product{"bar": bar}, ProductIDs: []string{"bar"}}
		if got := judged(sh); !strings.HasPrefix(got, c.want) || c.want == "" && got != "" {
			t.Errorf("%s: %s\nwant %s", c.name, got, c.want)
		}
	}
}

// Whatever text per language is added to a struct of the shop is looked at: the
// test finds the fields by their type, plants a false promise in each, and
// wants it refused, or cautioned against where only the kitchen reads it.
func TestEveryTextIsJudged(t *testing.T) {
	n := 0
	for _, root := range []reflect.Type{reflect.TypeFor[shop.Profile](), reflect.TypeFor[shop.Ingredient](),
		reflect.TypeFor[shop.Formula](), reflect.TypeFor[shop.Product](), reflect.TypeFor[shop.Plan]()} {
		for _, path := range paths(root, nil) {
			sh := shopOf(t)
			plant(owner(sh, root), path)
			got := judged(sh)
			if n++; got == "" {
				t.Errorf("%s: a text at %v of it is not looked at", root, names(root, path))
			}
			if first := names(root, path)[0]; (first == "Name" || first == "About") && !strings.HasPrefix(got, "refused") {
				t.Errorf("%s.%s: %s", root, first, got)
			}
		}
	}
	if n < 25 {
		t.Errorf("only %d fields were found", n)
	}
}

// owner is something of the demo shop that wheat is in, as a value to change.
func owner(sh *shop.Shop, root reflect.Type) reflect.Value {
	switch root {
	case reflect.TypeFor[shop.Profile]():
		return reflect.ValueOf(&sh.Profile).Elem()
	case reflect.TypeFor[shop.Ingredient]():
		return reflect.ValueOf(sh.Ingredients["wheat-flour"]).Elem()
	case reflect.TypeFor[shop.Formula]():
		return reflect.ValueOf(sh.Formulas["sweet-pastry"]).Elem()
	case reflect.TypeFor[shop.Product]():
		return reflect.ValueOf(sh.Products[tartlet]).Elem()
	}
	return reflect.ValueOf(sh.Plans[0]).Elem()
}

// paths are the ways to every text per language below a type, field by field;
// -1 goes into a list or behind a pointer.
func paths(t reflect.Type, above []reflect.Type) (out [][]int) {
	if t == reflect.TypeFor[shop.Words]() {
		return [][]int{nil}
	}
	if slices.Contains(above, t) {
		return nil
	}
	above = append(above[:len(above):len(above)], t)
	switch t.Kind() {
	case reflect.Slice, reflect.Pointer:
		for _, p := range paths(t.Elem(), above) {
			out = append(out, append([]int{-1}, p...))
		}
	case reflect.Struct:
		for i := range t.NumField() {
			if t.Field(i).IsExported() {
				for _, p := range paths(t.Field(i).Type, above) {
					out = append(out, append([]int{i}, p...))
				}
			}
		}
	}
	return out
}

func plant(v reflect.Value, path []int) {
	switch {
	case len(path) == 0:
		v.Set(reflect.ValueOf(planted("A gluten-free one")))
	case path[0] >= 0:
		plant(v.Field(path[0]), path[1:])
	case v.Kind() == reflect.Pointer:
		v.Set(reflect.New(v.Type().Elem()))
		plant(v.Elem(), path[1:])
	default:
		v.Set(reflect.Append(v, reflect.Zero(v.Type().Elem())))
		plant(v.Index(v.Len()-1), path[1:])
	}
}

func names(t reflect.Type, path []int) (out []string) {
	for _, i := range path {
		if i < 0 {
			t = t.Elem()
			continue
		}
		out, t = append(out, t.Field(i).Name), t.Field(i).Type
	}
	return out
}

// What a name says is absent is not emphasised as if it were there.
func TestAbsentIsNotEmphasised(t *testing.T) {
	for _, c := range []struct{ lang, allergens, text, want string }{
		{"en", "milk", "Milk-free margarine", "Milk-free margarine | milk"},
		{"en", "milk wheat", "milk-free spread with wheat", "milk-free spread with [wheat] | milk"},
		{"de", "milk", "milchfreie Margarine", "milchfreie Margarine | milk"},
		{"fr", "milk", "margarine sans lait", "margarine sans lait | milk"},
		{"pl", "milk", "margaryna bez mleka, mleko", "margaryna bez mleka, [mleko]"},
	} {
		if got := marked(get(t, c.lang), c.text, strings.Fields(c.allergens)); got != c.want {
			t.Errorf("%s: got %s, want %s", c.lang, got, c.want)
		}
	}
}

// BenchmarkClaims looks through the whole demo shop, as every command does.
func BenchmarkClaims(b *testing.B) {
	sh := loaded()
	for b.Loop() {
		words.Claims(sh, new(diag.List))
	}
}
