package print

import (
	"reflect"
	"strings"
	"testing"

	"chablon/labels/shop"
	"chablon/labels/words"
)

// The languages of kitchens: each has the words of cards and sheets.
const kitchenLanguages = "de en es fr it nl pl pt ro tr uk"

// TestKitchenLanguages: card, tub, prep list, ticket and the run sheet of the
// day are printed in each of them once the shop's own texts are there, and
// without these only the missing texts are what refuses.
func TestKitchenLanguages(t *testing.T) {
	for _, code := range strings.Fields(kitchenLanguages) {
		t.Run(code, func(t *testing.T) {
			t.Parallel()
			p := demoPress(t)
			if found := asked(t, p, "card", benchProduct, Request{Languages: []string{code}}).Found; !shopSpeaks(p.Shop, code) {
				if found.Errors() == 0 {
					t.Error("a card is printed without the texts of the shop")
				}
				for _, d := range found.All() {
					if !d.Warning && d.Rule != "translation" {
						t.Error(d)
					}
				}
			}
			translate(reflect.ValueOf(p.Shop), code)
			p.Shop.Profile.CardLanguages = []shop.Text{{V: code}}
			p.Shop.Plans[0].Runs = p.Shop.Plans[0].Runs[:1]
			for kind, id := range map[string]string{"card": benchProduct, "tub": "sweet-pastry", "prep": "", "ticket": benchProduct} {
				b := asked(t, p, kind, id, Request{Languages: []string{code}, Draft: true})
				if b.Found.Errors() > 0 || len(b.Papers) == 0 {
					t.Errorf("%s: %d papers, %v", kind, len(b.Papers), b.Found.All())
				}
			}
			b, err := p.Day(DayOptions{})
			if err != nil || len(b.Papers) == 0 || !strings.Contains(b.Papers[len(b.Papers)-1].Name, "run-sheet") {
				t.Fatalf("day: %d papers, %v, %v", len(b.Papers), err, b.Found.All())
			}
			for _, d := range b.Found.All() {
				if !d.Warning && d.Rule != "not-approved" { // nobody has signed the added texts
					t.Error(d)
				}
			}
		})
	}
	if l, _ := words.Get("et"); l.Has("card") {
		t.Error("Estonian has cards: add it to the list")
	}
}

// shopSpeaks reports whether the shop has texts in a language of its own.
func shopSpeaks(s *shop.Shop, code string) bool {
	_, ok := shop.In(s.Products[benchProduct].Name, code)
	return ok
}

// translate gives every text that the shop has in English in another language
// too, in the same words.
func translate(v reflect.Value, code string) {
	if w, ok := v.Interface().(shop.Words); ok {
		if en, ok := shop.In(w, "en"); ok {
			if _, have := shop.In(w, code); !have {
				key := w[0].Key
				key.V = code
				entry := w[0]
				entry.Key, entry.V = key, en
				v.Set(reflect.ValueOf(append(w[:len(w):len(w)], entry)))
			}
		}
		return
	}
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			if v.Type().Field(i).IsExported() && v.Field(i).CanSet() {
				translate(v.Field(i), code)
			}
		}
	case reflect.Slice:
		for i := range v.Len() {
			translate(v.Index(i), code)
		}
	case reflect.Map:
		for _, k := range v.MapKeys() {
			translate(v.MapIndex(k), code)
		}
	case reflect.Pointer:
		if !v.IsNil() {
			translate(v.Elem(), code)
		}
	}
}
