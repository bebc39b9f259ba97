package print

import (
	"bytes"
	"encoding/json"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/santhosh-tekuri/jsonschema/v6"

	"chablon/cmd/internal/usage"
	"chablon/labels/declare"
	"chablon/labels/explain"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// What the answer must say, held against figures worked by hand from the lines
// of the demo shop. Limits: Regulation (EU) No 1169/2011, Annex II 12
// (sulphites, more than 10 mg/kg), Annex VII A 1 (added water, up to 5 %),
// Annex VIII 4 (percentages over the finished mass).
func TestWhy(t *testing.T) {
	for _, c := range []struct {
		product, word string
		want          []string
	}{
		// (38.9 g × 150 + 194.5 × 18 + 486.3 × 2 + 58.4 × 5 + 29.2 × 8 + 29.2 × 2) mg ÷ 1010.5 g × … = 10.8
		{"lemon-thyme-marshmallow", "sulphites", []string{"contained, declared", "10.8 mg/kg of the finished food, limit more than 10 mg/kg: declared", "5.8 mg/kg from lemon-juice: 3.85 g in 100 g, at 150 mg/kg", "ingredients/lemon-juice.yaml:"}},
		{"lemon-thyme-marshmallow", "Sulfite", []string{"10.8 mg/kg"}},
		{"pear-hazelnut-tartlet", "sulphites", []string{"not declared", "0.7 mg/kg of the finished food, limit more than 10 mg/kg: not declared", "taken up from what it is cooked in"}},
		{"rye-shortbread-tin", "sulphites", []string{"149.2 mg/kg", "145 mg/kg from dried-apricot: 9.67 g in 100 g, at 1500 mg/kg"}},
		{"lemon-thyme-marshmallow", "water", []string{"listed: 12.9 % of the finished food, limit 5 %", "12 g less 10.5 g is 1.55 g"}},
		{"pear-hazelnut-tartlet", "water", []string{"not listed: 0 % of the finished food, limit 5 %", "85.5 g less 98 g is 0 g"}},
		{"pear-hazelnut-tartlet", "eau", []string{"not listed: 0 %"}},
		{"passion-caramel-bar", "water", []string{"no water is added as such"}},
		{"rye-shortbread-tin", "celery", []string{"celery: contained, declared", "the list shows it at celery seed", "bread-spice contains it", "as bread-spice, 0.121 g a piece, 0.806 g in 100 g"}},
		{"rye-shortbread-tin", "Sellerie", []string{"celery: contained"}},
		{"pear-hazelnut-tartlet", "pistachio nuts", []string{"not contained; may be in it, declared", "ground-almond may contain it, says its supplier", "by the assessment RA-2026-01"}},
		{"pear-hazelnut-tartlet", "hazelnuts", []string{`in the list as "hazelnuts 12 %", place 4 of 14`, "declared as one with chopped-hazelnut", "7.26 g a piece, 8.5 g in 100 g", "through hazelnut-frangipane, 30 g a piece, 35.1 g in 100 g", "formulas/hazelnut-frangipane.yaml:14:5", "its name is in the name of the food"}},
		{"pear-hazelnut-tartlet", "12 %", []string{"hazelnuts 12 %: a declared quantity", "10264 g used for 1000 pieces, over 85500 g (the finished mass, as water is lost)"}},
		{"pear-hazelnut-tartlet", "40,9", []string{"pear 41 %: a declared quantity"}}, // 35 ÷ 85.5, before rounding
		{"pear-hazelnut-tartlet", "13.7 %", []string{"no percentage of the list is 13.7 %", "the list declares pear 41 %, hazelnuts 12 %"}},
		{"pear-hazelnut-tartlet", "apricot jam", []string{"1.75 % of the finished food, less than 2 %", "the law sets its composition"}},
		{"lemon-thyme-marshmallow", "thyme", []string{"its quantity is not declared: it is there for its flavour"}},
		{"pear-hazelnut-tartlet", "metabisulphite", []string{"carried over, without a function"}},
		{"pear-hazelnut-tartlet", "gelatine", []string{"the ingredient gelatine: not in this product", "it goes into bench-tin, lemon-thyme-marshmallow, pistachio-choux"}},
		{"pear-hazelnut-tartlet", "milk", []string{"milk: contained, declared", "butter contains it", "the ingredient milk: not in this product"}},
		{"pear-hazelnut-tartlet", "gluten", []string{"wheat: contained", "rye: not declared; nobody says"}},
		{"pear-hazelnut-tartlet", "fat", []string{"fat: 23 g in 100 g declared", "14.1 g from butter, by CIQUAL 2020, 16400"}},
		{"pear-hazelnut-tartlet", "energy", []string{"kJ for a gram: carbohydrate 17", "never one from the other"}}, // Annex XIV
		{"pistachio-choux", "pistachio-pastry-cream", []string{"version 4: a formula", "37.3 g a piece, 53.2 g in 100 g"}},
		{"pistachio-choux", "sweet-pastry", []string{"the formula sweet-pastry: not in this product", "it goes into pear-hazelnut-tartlet"}},
		{"bench-tin", "date", []string{"best before, 2026-04-14", "its component lemon-thyme-marshmallow keeps 28 days"}},
		{"bench-tin", "rye-flour", []string{"with the component rye-shortbread-tin"}},
	} {
		p := demoPress(t)
		got, err := answered(p, c.product, c.word)
		if err != nil {
			t.Errorf("%s, %s: %v", c.product, c.word, err)
			continue
		}
		flat := strings.Join(strings.FieldsFunc(got, func(r rune) bool { return r == ' ' || r == '\n' }), " ")
		for _, w := range c.want {
			if !strings.Contains(flat, strings.ReplaceAll(w, "\u00a0", " ")) && !strings.Contains(strings.ReplaceAll(flat, "\u00a0", " "), w) {
				t.Errorf("%s, %s: no %q in\n%s", c.product, c.word, w, got)
			}
		}
	}
}

// answered is the answer as text.
func answered(p *Press, id, word string) (string, error) {
	w, err := p.Why(WhyRequest{ID: id, Word: word})
	if w == nil {
		return "", err
	}
	return w.Text(), err
}

// namesOf are the names of parts, and of what is in them, in all languages.
func namesOf(parts []declare.Part) []string {
	var out []string
	for _, p := range parts {
		out = append(append(out, texts(p.Name)...), namesOf(p.Inner)...)
	}
	return out
}

// Whatever stands on a label can be asked for: each ingredient, inner
// ingredient and allergen of each product, in each language, and each answer
// names a place in a file.
func TestWhyFindsAll(t *testing.T) {
	place := regexp.MustCompile(`(ingredients|formulas|products)/[a-z0-9-]+\.yaml:[0-9]+:[0-9]+`)
	count := 0
	for _, id := range demoPress(t).Shop.ProductIDs {
		p := demoPress(t)
		d, err := p.Declare(DeclareRequest{ID: id})
		if err != nil {
			t.Fatal(err)
		}
		var all []string
		for _, l := range d.Facts.Lists {
			all = append(all, namesOf(l.Parts)...)
		}
		all = slices.Concat(all, d.Facts.Contains, d.Facts.May)
		slices.Sort(all)
		for _, word := range slices.Compact(all) {
			count++
			if got, err := answered(p, id, word); err != nil || !place.MatchString(got) {
				t.Errorf("%s, %s: %v\n%s", id, word, err, got)
			}
		}
	}
	if count < 100 {
		t.Errorf("only %d words", count)
	}
}

func TestWhyUnknown(t *testing.T) {
	for word, hint := range map[string]string{"walnts": "did you mean walnuts?", "puffin": "ask for the name", "": "ask for", "%": "ask for"} {
		_, err := demoPress(t).Why(WhyRequest{ID: "pear-hazelnut-tartlet", Word: word})
		if unknown, ok := err.(*usage.Error); !ok || !strings.Contains(unknown.Hint, hint) {
			t.Errorf("%q: %v", word, err)
		}
	}
}

// About three figures of each mass are told.
func TestShort(t *testing.T) {
	for _, c := range []struct {
		m    unit.Mass
		want string
	}{
		{726 * unit.Milligram, "0.726 g"}, {7264 * unit.Milligram, "7.26 g"}, {41_249 * unit.Milligram, "41.2 g"}, {0, "0 g"},
	} {
		if got := short(c.m); got != c.want {
			t.Errorf("%s, want %s", got, c.want)
		}
	}
}

func FuzzWhy(f *testing.F) {
	for _, s := range []string{"water", "12 %", "0,5", "999.999999 %", "sulphites", "ß", "\x00", strings.Repeat("a", 300), "E 330", "  milk "} {
		f.Add(s)
	}
	p := demoPress(f)
	f.Fuzz(func(t *testing.T, word string) {
		got, err := answered(p, "bench-tin", word)
		if _, unknown := err.(*usage.Error); err != nil && !unknown || err == nil && got == "" {
			t.Errorf("%q: %v", word, err)
		}
	})
}

// Ground hazelnuts in place of almonds: 11.72 g in a piece of 85.5 g, 13.7 %
// before rounding; the pistachios came with the almonds alone.
func TestWhyAfterChange(t *testing.T) {
	const pastry = "formulas/sweet-pastry.yaml"
	for word, want := range map[string]string{
		"13.7 %":         "hazelnuts 14 %: a declared quantity",
		"almonds":        "almonds: not contained; may be in it, declared",
		"pistachio nuts": "pistachio nuts: not declared; nobody says that it is in there or may get in",
	} {
		p := newShop(t, pastry, "use: ground-almond", "use: ground-hazelnut", pastry, "egg, ground-almond, wheat-flour]", "egg, ground-hazelnut, wheat-flour]")
		got, err := answered(p, "pear-hazelnut-tartlet", word)
		if err != nil || !strings.Contains(flat(got), want) {
			t.Errorf("%s: %v\n%s", word, err, got)
		}
	}
}

// Every key of a reason has words, and its words name no value that it does
// not have.
func TestReasonsHaveWords(t *testing.T) {
	slot := regexp.MustCompile(`\{([a-z0-9-]+)\}`)
	said := reasonWords()
	for key, values := range explain.Keys() {
		if said[key] == "" {
			t.Errorf("no words for %s", key)
		}
		for _, m := range slot.FindAllStringSubmatch(said[key], -1) {
			if !slices.Contains(values, m[1]) {
				t.Errorf("the words for %s name {%s}, but its values are %v", key, m[1], values)
			}
		}
	}
	for key := range said {
		if _, ok := explain.Keys()[key]; !ok {
			t.Errorf("words for %s, which is no key", key)
		}
	}
}

// No slot is left open in any answer, and the JSON says the same as the text,
// reason by reason, with a place wherever the text has one.
func TestWhyJSON(t *testing.T) {
	for product, all := range map[string][]string{"bench-tin": {"sulphites", "date", "sugar", "rye-flour", "9.7"}, "pear-hazelnut-tartlet": {"fat", "energy", "hazelnuts", "water", "rum"}} {
		for _, word := range all {
			p := demoPress(t)
			w, err := p.Why(WhyRequest{ID: product, Word: word})
			if err != nil {
				t.Fatal(word, err)
			}
			data, err := w.JSON()
			var out webWhy
			if err != nil || json.Unmarshal(data, &out) != nil {
				t.Fatalf("%s: %v", word, err)
			}
			var walk func(all []webReason)
			text, n := flat(w.Text()), 0
			walk = func(all []webReason) {
				for _, r := range all {
					n++
					if strings.ContainsAny(r.Says, "{}") || r.Says == "" || !strings.Contains(text, flat(r.Says)) {
						t.Errorf("%s: %q is not in the text", word, r.Says)
					}
					if r.At != nil && !strings.Contains(text, fmt.Sprintf("%s:%d:%d", r.At.File, r.At.Line, r.At.Column)) {
						t.Errorf("%s: the place of %q is not in the text", word, r.Says)
					}
					walk(r.Under)
				}
			}
			walk(out.Reasons)
			if n < 3 {
				t.Errorf("%s: %d reasons", word, n)
			}
		}
	}
}

// texts are words in all their languages.
func texts(w shop.Words) []string {
	var out []string
	for _, e := range w {
		out = append(out, e.V.V)
	}
	return out
}

// What the label says changes where one figure leaves its range. Fat of the
// tartlets: (see TestOvenByHand of labels/margin for the loss and the pears) 23 g
// from 22.5 to 23.5 g in 100 g; 19.77 g of it are in a piece, so the piece weighs
// 84.1 to 87.8 g, and the oven takes 11.0 to 13.9 % of 96 g.
func TestWhyMargins(t *testing.T) {
	for _, c := range []struct {
		product, word string
		want          []string
	}{
		{"pear-hazelnut-tartlet", "fat", []string{"this of the label changes (fat 23 g)", "water lost at bake of pear-hazelnut-tartlet: 11 % to 13.9 %, written 12.5 %; below, fat 23 g becomes fat 22 g; above, fat 23 g becomes fat 24 g; weighed 1 time"}},
		{"pear-hazelnut-tartlet", "12 %", []string{"11.6 % to 13.7 %", "pear 41 % becomes pear 40 %"}},
		{"lemon-thyme-marshmallow", "sulphites", []string{"sulphites goes", "assumed: nobody weighed it"}},
		{"pistachio-choux", "milk", []string{"no single figure of the formulas changes this of the label: the allergens"}},
	} {
		w, err := demoPress(t).Why(WhyRequest{ID: c.product, Word: c.word})
		if err != nil {
			t.Fatal(err)
		}
		w.FindMargins()
		got := flat(w.Text())
		for _, want := range c.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s, %s: no %q in\n%s", c.product, c.word, want, got)
			}
		}
	}
}

// The chain goes down to the supplier's sheet and its day, over what is lost and
// how it is rounded. Tolerance: guidance of December 2012, fat of 10 to 40 g, a
// fifth.
func TestWhyChain(t *testing.T) {
	got, err := answered(demoPress(t), "pear-hazelnut-tartlet", "fat")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"rounded by Commission guidance on tolerances, December 2012", "by 4.6 g either way", "lost at bake of pear-hazelnut-tartlet: 12.5 %; weighed 1 ×, last on 2026-03-12",
		"lost at boil of poached-pear: 50 g; assumed", "17 g of it in 100 g, of which 100 g hold 82.9 g", "specification 2 of 2026-01-08 by Halewyn Dairy ingredients/butter.yaml:4:3"} {
		if !strings.Contains(flat(got), want) {
			t.Errorf("no %q in\n%s", want, flat(got))
		}
	}
}

// The answer for another program keeps to its schema, and its ends lie around
// the figure.
func TestWhySchema(t *testing.T) {
	schema := compiled(t, whySchema)
	for product, word := range map[string]string{"pear-hazelnut-tartlet": "fat", "lemon-thyme-marshmallow": "water", "bench-tin": "date", "rye-shortbread-tin": "celery"} {
		w, err := demoPress(t).Why(WhyRequest{ID: product, Word: word})
		if err != nil {
			t.Fatal(err)
		}
		w.FindMargins()
		data, err := w.JSON()
		if err != nil {
			t.Fatal(err)
		}
		doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(data))
		if err != nil {
			t.Fatal(err)
		}
		if err := schema.Validate(doc); err != nil {
			t.Errorf("%s, %s: %v", product, word, err)
		}
		var out webWhy
		if err := json.Unmarshal(data, &out); err != nil {
			t.Fatal(err)
		}
		if word == "fat" && len(out.Margins) < 10 {
			t.Errorf("only %d margins", len(out.Margins))
		}
		for _, m := range out.Margins {
			at, _ := m.Value.Float64()
			if m.Lowest != nil {
				if low, _ := m.Lowest.Same.Float64(); low > at {
					t.Errorf("%s %s: down to %v, but %v is written", m.Kind, m.What, low, at)
				}
			}
			if m.Lowest == nil && m.Most == nil {
				t.Errorf("%s %s has no end", m.Kind, m.What)
			}
		}
	}
}
