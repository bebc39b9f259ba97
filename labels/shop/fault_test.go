package shop_test

import (
	"flag"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"
	"testing/fstest"

	"chablon/labels/diag"
	"chablon/labels/shop"
)

var update = flag.Bool("update", false, "rewrite golden files")

// small gives a copy of testdata/small that may be changed.
func small(t testing.TB) fstest.MapFS {
	t.Helper()
	dir := os.DirFS("testdata/small")
	out := fstest.MapFS{}
	err := fs.WalkDir(dir, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		b, err := fs.ReadFile(dir, name)
		out[name] = &fstest.MapFile{Data: b}
		return err
	})
	if err != nil || len(out) < 15 {
		t.Fatalf("testdata/small: %d files, %v", len(out), err)
	}
	return out
}

// An edit plants a fault: old is replaced by new, once. Without old, new is a
// file of its own; without both, the file is taken away.
type edit struct{ file, old, new string }

func (e edit) apply(t *testing.T, in fstest.MapFS) {
	t.Helper()
	if e.old == "" && e.new == "" {
		delete(in, e.file)
		return
	}
	if e.old == "" {
		in[e.file] = &fstest.MapFile{Data: []byte(e.new)}
		return
	}
	f := in[e.file]
	if f == nil || strings.Count(string(f.Data), e.old) < 1 {
		t.Fatalf("%s: no %q to replace", e.file, e.old)
	}
	in[e.file] = &fstest.MapFile{Data: []byte(strings.Replace(string(f.Data), e.old, e.new, 1))}
}

const (
	profile = "shop.yaml"
	flour   = "ingredients/flour.yaml"
	egg     = "ingredients/egg.yaml"
	butter  = "ingredients/butter.yaml"
	dark    = "ingredients/dark.yaml"
	dough   = "formulas/dough.yaml"
	syrup   = "formulas/syrup.yaml"
	apples  = "formulas/cooked-apple.yaml"
	tart    = "products/apple-tart.yaml"
	tin     = "products/tart-tin.yaml"
	every   = "plans/every-day.yaml"
	march   = "plans/17-march.yaml"
	quay    = "name: Quay Stores\naddress: 2 Quay, Port Ossel\n"
)

// faults are planted one at a time; each must be found by its rule, in its
// file, once, and with nothing else. Rules followed by + may be found several
// times.
var faults = []struct {
	name  string
	rule  string // with a ! in front: a caution
	file  string
	edits []edit
}{
	{"market unknown", "market", profile, []edit{{profile, "[eu]", "[ue]"}}},
	{"no market", "market", profile, []edit{{profile, "[eu]", "[]"}}},
	{"prefix with a letter", "gs1-prefix", profile, []edit{{profile, `"9520001"`, `"952O001"`}}},
	{"prefix too short", "gs1-prefix", profile, []edit{{profile, `"9520001"`, `"952"`}}},
	{"language code", "language", profile, []edit{{profile, "[en]", "[English]"}}},
	{"language that nobody knows", "language", profile, []edit{{profile, "[en]", "[xx]"}}},
	{"language twice", "language", profile, []edit{{profile, "[en]", "[en, en]"}}},
	{"three card languages", "language", profile, []edit{{profile, "[en, fr]", "[en, fr, de]"}}},
	{"no card language", "language", profile, []edit{{profile, "[en, fr]", "[]"}}},
	{"scale step nothing", "range", profile, []edit{{profile, "0.1 g", "0 g"}}},
	{"scale order", "order", profile, []edit{{profile, "5 kg", "400 g"}}},
	{"scale bears less than its step", "range", profile, []edit{{profile, "500 g", "0.05 g"}}},
	{"batch place unknown", "batch", profile, []edit{{profile, "{letter}", "{month}"}}},
	{"batch brace", "batch", profile, []edit{{profile, "{letter}", "{letter"}}},
	{"batch code too long", "batch", profile, []edit{{profile, "L{yy}", "LOT-NUMBER-12345-{yy}"}}},
	{"batch code with a space", "batch", profile, []edit{{profile, "L{yy}", "L {yy}"}}},
	{"batch code without year", "!batch", profile, []edit{{profile, "{yy}", ""}}},
	{"batch code without day", "!batch", profile, []edit{{profile, "{day}", ""}}},

	{"stray file", "!file", "notes.txt", []edit{{"notes.txt", "", "x"}}},
	{"stray file in a folder", "!file", "formulas/notes.txt", []edit{{"formulas/notes.txt", "", "x"}}},
	{"folder misspelt", "!file", "formula", []edit{{"formula/a.yaml", "", "x"}}},
	{"id with a capital", "id", "ingredients/Flour.yaml", []edit{{"ingredients/Flour.yaml", "", "x"}}},
	{"id too long", "id", "plans/" + strings.Repeat("a", 65) + ".yaml", []edit{{"plans/" + strings.Repeat("a", 65) + ".yaml", "", "x"}}},
	{"id with dots", "id", "plans/a..b.yaml", []edit{{"plans/a..b.yaml", "", "x"}}},
	{"id of a device", "id", "plans/con.yaml", []edit{{"plans/con.yaml", "", "x"}}},
	{"id means two things", "id", "formulas/sugar.yaml", []edit{{"formulas/sugar.yaml", "", "name: {en: s, fr: s}\nversion: 1\nissued: 2026-01-10\nlines: [{use: water, take: 1 g}]\n"}}},

	{"customer with a wrong number", "gln", "customers/quay.yaml", []edit{{"customers/quay.yaml", "", quay + "gln: \"9520002000003\"\n"}}},
	{"two customers in one place", "customer", "customers/quay.yaml", []edit{{"customers/ossel.yaml", "", "name: Ossel Larder\naddress: Ropewalk\ngln: \"9520002000002\"\n"}, {"customers/quay.yaml", "", quay + "gln: \"9520002000002\"\n"}}},
	{"two customers of one name", "customer", "customers/quay.yaml", []edit{{"customers/ossel.yaml", "", "name: quay stores\naddress: Ropewalk\n"}, {"customers/quay.yaml", "", quay}}},
	{"customer in no country", "country", "customers/quay.yaml", []edit{{"customers/quay.yaml", "", quay + "post-code: 4020\ncountry: fr\n"}}},
	{"country without a post code", "post-code", "customers/quay.yaml", []edit{{"customers/quay.yaml", "", quay + "country: FR\n"}}},
	{"post code that bars cannot carry", "post-code", "customers/quay.yaml", []edit{{"customers/quay.yaml", "", quay + "post-code: QZ#2040\n"}}},
	{"post code too long for its country", "post-code", "customers/quay.yaml", []edit{{"customers/quay.yaml", "", quay + "post-code: \"1234567890\"\ncountry: FR\n"}}},
	{"language of a customer", "language", "customers/quay.yaml", []edit{{"customers/quay.yaml", "", quay + "languages: [Dutch]\n"}}},
	{"wish unknown", "one-of", "customers/quay.yaml", []edit{{"customers/quay.yaml", "", quay + "wants: [discount]\n"}}},
	{"run for a stranger", "customer", march, []edit{{"customers/quay.yaml", "", quay}, {march, "pieces: 24", "pieces: 24\n    for: quai"}}},
	{"run for somebody, without customers", "customer", march, []edit{{march, "pieces: 24", "pieces: 24\n    for: quay"}}},
	{"order of nobody", "order", march, []edit{{march, "pieces: 24", "pieces: 24\n    order: A-1"}}},
	{"order number with a space", "order", march, []edit{{"customers/quay.yaml", "", quay}, {march, "pieces: 24", "pieces: 24\n    for: quay\n    order: A 1"}}},
	{"order number that the customer wants", "order", march, []edit{{"customers/quay.yaml", "", quay + "wants: [order-number]\n"}, {march, "pieces: 24", "pieces: 24\n    for: quay"}}},

	{"counter number of no form", "counter-number", profile, []edit{{profile, "batch-code:", "counter-number: \"28{item:5}{weight:4}\"\nbatch-code:"}}},
	{"item without a form", "counter-number", tart, []edit{{tart, "    gtin: \"9520001000010\"\n", "    sold-by: weight\n    price-per-kg: 38.00 EUR\n    item-number: \"0031\"\n"}, {tart, `"19520001000017"`, `"99520001000013"`}}},
	{"item of too few digits", "counter-number", tart, []edit{{profile, "batch-code:", "counter-number: \"28{item:5}{weight:5}\"\nbatch-code:"}, {tart, "    gtin: \"9520001000010\"\n", "    sold-by: weight\n    price-per-kg: 38.00 EUR\n    item-number: \"0031\"\n"}, {tart, `"19520001000017"`, `"99520001000013"`}}},
	{"item without a price", "sold-by", tart, []edit{{profile, "batch-code:", "counter-number: \"28{item:4}{weight:6}\"\nbatch-code:"}, {tart, "    gtin: \"9520001000010\"\n", "    sold-by: weight\n    item-number: \"0031\"\n"}, {tart, `"19520001000017"`, `"99520001000013"`}}},
	{"price of a pack that is weighed", "sold-by", tart, []edit{{tart, "    gtin: \"9520001000010\"\n", "    sold-by: weight\n    price: 4.20 EUR\n"}, {tart, `"19520001000017"`, `"99520001000013"`}}},
	{"price of a kilogram of a piece", "sold-by", tart, []edit{{tart, "    gtin:", "    price-per-kg: 38.00 EUR\n    gtin:"}}},
	{"number for packs that weigh the same", "gtin", tart, []edit{{tart, "    gtin:", "    sold-by: weight\n    gtin:"}, {tart, `"19520001000017"`, `"99520001000013"`}}},

	{"use unknown", "use", dough, []edit{{dough, "use: flour", "use: floor\n    as: flour"}}},
	{"use of a product in a formula", "use", syrup, []edit{{syrup, "use: sugar", "use: tart-tin"}}},
	{"medium unknown", "use", apples, []edit{{apples, "use: syrup", "use: sirup"}, {apples, "[apple, syrup]", "[apple, sirup]"}}},
	{"line twice", "use", syrup, []edit{{syrup, "use: sugar", "use: water"}}},
	{"no lines", "empty", syrup, []edit{{syrup, "lines:\n  - use: water\n    take: 700 g\n  - use: sugar\n    take: 300 g", "lines: []"}}},
	{"formulas in a circle", "circle", syrup, []edit{{syrup, "use: sugar", "use: cooked-apple"}}},
	{"assortments in a circle", "circle", tin, []edit{{tart, "      - use: dark\n        take: 5 g", "      - use: tart-tin\n        pieces: 1"}, {tart, "[dark]", "[tart-tin]"}}},
	{"formula made of itself", "circle", syrup, []edit{{syrup, "use: sugar", "use: syrup"}}},

	{"no amount", "take", syrup, []edit{{syrup, "    take: 300 g\n", ""}}},
	{"pieces in a formula", "take", syrup, []edit{{syrup, "take: 300 g", "take: 300 g\n    pieces: 3"}}},
	{"product weighed", "take", tin, []edit{{tin, "pieces: 4", "take: 380 g\n        pieces: 4"}}},
	{"negative amount", "number", syrup, []edit{{syrup, "300 g", "-300 g"}}},
	{"amount of nothing", "mass", syrup, []edit{{syrup, "300 g", "0 g"}}},
	{"amount of tons", "mass", syrup, []edit{{syrup, "300 g", "3000 kg"}}},
	{"more is left than goes in", "left", syrup, []edit{{syrup, "take: 300 g", "take: 300 g\n    left: 301 g"}}},
	{"more than all is left", "left", syrup, []edit{{syrup, "take: 300 g", "take: 300 g\n    left: 100.1 %"}}},
	{"negative uptake", "number", apples, []edit{{apples, "soaked-up: 100 g", "soaked-up: -1 g"}}},
	{"no pieces", "count", tin, []edit{{tin, "pieces: 4", "pieces: 0"}}},
	{"loss of both kinds", "loss", apples, []edit{{apples, "water-lost: 60 g", "water-lost: 60 g\n    left-behind: 1 g"}}},
	{"loss of neither kind", "loss", apples, []edit{{apples, "    water-lost: 60 g\n", ""}}},
	{"loss of 100 %", "loss", apples, []edit{{apples, "5 %", "100 %"}}},
	{"loss of all there is", "loss", apples, []edit{{apples, "60 g", "1000 g"}}},
	{"loss negative", "number", apples, []edit{{apples, "60 g", "-60 g"}}},
	{"loss of a negative share", "number", apples, []edit{{apples, "5 %", "-5 %"}}},
	{"oven takes all", "loss", tart, []edit{{tart, "water-lost: 10 %", "water-lost: 100 %"}}},
	{"handling takes all", "loss", tart, []edit{{tart, "4 %", "100 %"}}},
	{"more water off than there is", "!water", apples, []edit{{apples, "60 g", "900 g"}}},
	{"net above the pieces", "net", tart, []edit{{tart, "net: 190 g", "net: 191 g"}}},
	{"net far under the pieces", "!net", tart, []edit{{tart, "net: 190 g", "net: 161 g"}}},
	{"cut larger than the slab", "mass", tart, []edit{{tart, "lost-in-handling:", "cut-to: 96 g\nlost-in-handling:"}}},
	{"version", "version", tart, []edit{{tart, "version: 3", "version: 0"}}},

	{"allergen misspelt", "allergen", flour, []edit{{flour, "[wheat]", "[weat]"}}},
	{"allergen by its group", "allergen", flour, []edit{{flour, "[wheat]", "[gluten]"}}},
	{"allergen twice", "!allergen", flour, []edit{{flour, "[wheat]", "[wheat, wheat]"}}},
	{"contained and feared", "!allergen", flour, []edit{{flour, "may-contain: []", "may-contain: [wheat]"}}},
	{"inner allergen not contained", "allergen", dark, []edit{{dark, "share: 60 %", "share: 60 %\n    contains: [milk]"}}},
	{"contained but in no inner", "allergen", dark, []edit{{dark, "[soybeans]", "[soybeans, milk]"}}},
	{"contained but only in an excepted part", "allergen", dark, []edit{{dark, "[soybeans]", "[soybeans, wheat]"}, {dark, "share: 60 %", "share: 60 %\n    contains: [wheat]\n    exception: wheat-glucose-syrup"}}},
	{"no such exception", "exception", flour, []edit{{flour, "may-contain", "exception: wheat-glucose\nmay-contain"}}},
	{"exception of a compound", "exception", dark, []edit{{dark, "may-contain", "exception: soya-tocopherols\nmay-contain"}}},
	{"exception of an inner compound", "exception", dark, []edit{{dark, "share: 60 %", "share: 60 %\n    exception: soya-tocopherols\n    made-of: [{name: {en: cocoa, fr: cacao}, share: 100 %}]"}}},
	{"exception of nothing", "!exception", dark, []edit{{dark, "share: 60 %", "share: 60 %\n    exception: soya-tocopherols"}}},
	{"ruled out for nobody that there is", "use", tart, []edit{{tart, "lost-in-handling:", "cross-contact-ruled-out: [{allergen: sesame, from: [sgar]}]\nlost-in-handling:"}}},
	{"ruled out what is no allergen", "allergen", tart, []edit{{tart, "lost-in-handling:", "cross-contact-ruled-out: [{allergen: sesam, from: [site]}]\nlost-in-handling:"}}},
	{"butter without milk", "trade-word", butter, []edit{{butter, "[milk]", "[]"}}},
	{"butter that contains something else", "trade-word", butter, []edit{{butter, "[milk]", "[wheat]"}}},
	{"butter in which milk is only feared", "trade-word", butter, []edit{{butter, "contains: [milk]\nmay-contain: []", "contains: []\nmay-contain: [milk]"}}},
	{"butter inside without milk", "trade-word", dark, []edit{{dark, "cocoa mass", "butter"}}},
	{"nut paste without a nut", "trade-word", butter, []edit{{butter, "en: butter\n  fr: beurre", "en: praline\n  fr: praliné"}}},
	{"flour of nobody knows what", "!trade-word", flour, []edit{{flour, "[wheat]", "[]"}}},
	{"gelatine of nobody knows what inside", "!trade-word", dark, []edit{{dark, "cocoa mass", "gelatine"}}},
	{"raisins without a word on sulphites", "!trade-word", flour, []edit{{flour, "en: wheat flour", "en: raisins"}}},
	{"glucose syrup where the law has no exception", "!trade-word+", flour, []edit{{profile, "[eu]", "[eu, us]"}, {flour, "en: wheat flour\n  fr: farine de blé", "en: glucose syrup\n  fr: sirop"}, {flour, "[wheat]", "[]"}}},
	{"truly free of what is contained", "truly-free", flour, []edit{{flour, "contains: [wheat]", "contains: [wheat]\ntruly-free: {wheat: letter}"}}},
	{"truly free of what is feared", "truly-free", flour, []edit{{flour, "contains: [wheat]\nmay-contain: []", "contains: [wheat]\nmay-contain: [rye]\ntruly-free: {rye: letter}"}}},
	{"truly free of what is inside", "truly-free", dark, []edit{{dark, "made-of:", "truly-free: {soybeans: letter}\nmade-of:"}}},
	{"truly free of what a nut is", "truly-free", flour, []edit{{flour, "contains: [wheat]", "contains: [wheat, almonds]\ntruly-free: {nuts: letter}"}}},
	{"truly free of what is no allergen", "truly-free", flour, []edit{{flour, "contains: [wheat]", "contains: [wheat]\ntruly-free: {gluten: letter}"}}},
	{"truly free of what nothing speaks of", "!truly-free", flour, []edit{{flour, "[wheat]", "[wheat]\ntruly-free: {milk: letter}"}}},
	{"sulphites without an amount", "allergen", flour, []edit{{flour, "[wheat]", "[wheat, sulphites]"}}},
	{"made-of over 100 %", "made-of", dark, []edit{{dark, "60 %", "61 %"}}},
	{"made-of under 99 %", "!made-of", dark, []edit{{dark, "60 %", "58.9 %"}}},
	{"made-of not falling", "!order", dark, []edit{{dark, "60 %", "39 %"}, {dark, "share: 39 %\n  - name: {en: soya", "share: 60 %\n  - name: {en: soya"}}},
	{"a day of weighing, and no portion", "nutrition-portion", "products/apple-tart.yaml", []edit{{"products/apple-tart.yaml", "    nutrition: exempt-small-maker", "    portion-weighed: 2026-01-05\n    nutrition: exempt-small-maker"}}},
	{"no specification", "!spec", flour, []edit{{flour, "spec:\n  version: \"1\"\n  dated: 2026-01-05\n  review-by: 2031-01-05\n", ""}}},
	{"specification dates backwards", "spec", flour, []edit{{flour, "review-by: 2031", "review-by: 2025"}}},
	{"water over 100 %", "range", flour, []edit{{flour, "14 %", "114 %"}}},
	{"edible share of nothing", "range", "ingredients/apple.yaml", []edit{{"ingredients/apple.yaml", "80 %", "0 %"}}},
	{"piece of nothing", "range", egg, []edit{{egg, "mass: 50 g", "mass: 0 g"}}},
	{"saturates over fat", "composition", dark, []edit{{dark, "saturates: 24 g", "saturates: 41 g"}}},
	{"composition over 100 g", "!composition", dark, []edit{{dark, "protein: 6 g", "protein: 16 g"}}},
	{"composition value", "composition", dark, []edit{{dark, "protein: 6 g", "protein: 106 g"}}},

	{"step twice", "step", dough, []edit{{dough, "id: rest", "id: mix"}, {dough, "needs: [mix]\n    ", ""}}},
	{"step needs an unknown one", "step", dough, []edit{{dough, "[mix]", "[mx]"}}},
	{"step needs itself", "circle", dough, []edit{{dough, "[mix]", "[rest]"}}},
	{"steps wait for each other", "circle", tart, []edit{{tart, "kind: fill", "kind: fill\n    needs: [finish]"}}},
	{"step uses no line", "uses", tart, []edit{{tart, "uses: [dark]", "uses: [dark, butter]"}}},
	{"line used by no step", "uses", dough, []edit{{dough, "[flour, butter, egg]", "[flour, butter]"}}},
	{"medium used by no step", "uses", apples, []edit{{apples, "[apple, syrup]", "[apple]"}}},
	{"line used twice", "uses", tart, []edit{{tart, "needs: [bake]", "needs: [bake]"}, {tart, "uses: [dark]", "uses: [dark, dough]"}}},
	{"amount in a sentence that is no take", "!typed-amount", tart, []edit{{tart, "Line and fill.", "Line with 38 g and fill with 60 g."}}},
	{"amount in a sentence, with a decimal comma", "!typed-amount", tart, []edit{{tart, "Foncer et garnir.", "'Foncer, garnir de 60,5 g.'"}}},
	{"volume in a sentence", "!typed-amount", dough, []edit{{dough, "en: Mix.", "en: Mix with 20 ml."}}},
	{"end weight without a loss", "end-weight", syrup, []edit{{syrup, "take: 300 g", "take: 300 g\nsteps:\n  - {id: boil, kind: boil, do: {en: Boil., fr: Bouillir.}, uses: [water, sugar], hands-on: 5 min, end-weight: yes}"}}},
	{"end weight of a loss of another stage", "end-weight", syrup, []edit{{syrup, "take: 300 g", "take: 300 g\nlosses: [{stage: cool, water-lost: 5 g}]\nsteps:\n  - {id: boil, kind: boil, do: {en: Boil., fr: Bouillir.}, uses: [water, sugar], hands-on: 5 min, end-weight: yes}"}}},
	{"end weight in a medium", "end-weight", apples, []edit{{apples, "waiting: 15 min", "waiting: 15 min\n    end-weight: yes"}}},
	{"end weight of pieces", "end-weight", tart, []edit{{tart, "waiting: 30 min", "waiting: 30 min\n    end-weight: yes"}}},
	{"caution unknown", "caution", apples, []edit{{apples, "[hot-sugar]", "[hot-suger]"}}},
	{"limit without a limit", "limit", apples, []edit{{apples, "      reach: ≤ 5 °C\n      within: 2 h\n", ""}}},
	{"limit within no time", "range", apples, []edit{{apples, "within: 2 h", "within: 0 h"}}},
	{"negative time", "number", dough, []edit{{dough, "waiting: 1 h", "waiting: -1 h"}}},

	{"ingredient without a card language", "translation", flour, []edit{{flour, "  fr: farine de blé\n", ""}}},
	{"ingredient without a label language", "translation+", flour, []edit{{flour, "  en: wheat flour\n", ""}}},
	{"inner ingredient without a label language", "translation", dark, []edit{{dark, "{en: sugar, fr: sucre}", "{fr: sucre}"}}},
	{"piece without a card language", "translation", egg, []edit{{egg, "    fr: œuf\n", ""}}},
	{"product without a card language", "translation", tart, []edit{{tart, ", fr: Tarte aux pommes", ""}}},
	{"formula without a card language", "translation", dough, []edit{{dough, ", fr: pâte", ""}}},
	{"step without a card language", "translation", dough, []edit{{dough, ", fr: Reposer.", ""}}},
	{"if-not without a card language", "translation", apples, []edit{{apples, ", fr: jeter", ""}}},

	{"chilled without a temperature", "keep", tart, []edit{{tart, "  temp: ≤ 5 °C\n", ""}}},
	{"use by without a temperature", "keep", tart, []edit{{tart, "chilled\n  temp: ≤ 5 °C", "cool"}}},
	{"no date", "keep", tart, []edit{{tart, "  date: use-by\n", ""}}},
	{"no life", "keep", tart, []edit{{tart, "2 days", "0 days"}}},
	{"chilled at 9 °C", "!keep", tart, []edit{{tart, "≤ 5 °C", "≤ 9 °C"}}},
	{"chilled from 2 °C upwards", "keep", tart, []edit{{tart, "≤ 5 °C", "≥ 2 °C"}}},
	{"frozen at −12 °C", "!keep", tart, []edit{{tart, "keep:\n  store: chilled\n  temp: ≤ 5 °C", "before-eating: nothing\nkeep:\n  store: frozen\n  temp: ≤ -12 °C"}, {tin, "keep:\n  store: chilled\n  temp: ≤ 5 °C", "before-eating: nothing\nkeep:\n  store: frozen\n  temp: ≤ -18 °C"}}},
	{"tin warmer than the tarts in it", "keep", tin, []edit{{tin, "store: chilled\n  temp: ≤ 5 °C", "store: ambient"}, {tin, "use-by", "best-before"}}},
	{"tin at more degrees than the tarts in it", "keep", tin, []edit{{tin, "≤ 5 °C", "≤ 7 °C"}}},
	{"tin of cold tarts without a temperature", "keep", tin, []edit{{tin, "store: chilled\n  temp: ≤ 5 °C", "store: cool"}, {tin, "use-by", "best-before"},
		{tart, "chilled", "cool"}}},
	{"tin chilled with a frozen tart", "keep", tin, []edit{{tart, "keep:\n  store: chilled\n  temp: ≤ 5 °C", "before-eating: nothing\nkeep:\n  store: frozen\n  temp: ≤ -18 °C"}}},
	// Reg. (EU) 1169/2011 Art. 9(1)(j), 27: instructions; Art. 25(2): once opened.
	{"frozen without a word of what to do", "instructions", tin, []edit{{tart, "keep:\n  store: chilled\n  temp: ≤ 5 °C", "before-eating: nothing\nkeep:\n  store: frozen\n  temp: ≤ -18 °C"},
		{tin, "chilled\n  temp: ≤ 5 °C", "frozen\n  temp: ≤ -18 °C"}}},
	{"baked by the buyer, but not how", "instructions", tart, []edit{{tart, "keep:\n", "before-eating: bake\nkeep:\n"}}},
	{"where once opened, but not how long", "keep", tart, []edit{{tart, "life: 2 days", "life: 2 days\n  after-opening-store: chilled"}}},
	{"gas, and nothing about once opened", "!keep", tart, []edit{{tart, "exempt-small-maker", "exempt-small-maker\n    protective-atmosphere: yes"}}},
	{"a reason does not warm a tin", "keep", tin, []edit{{tin, "≤ 5 °C", "≤ 7 °C\n  because: it is sold at once"}}},
	{"warmer than what goes in unbaked", "keep", tart, []edit{{tart, "use: dark", "use: dough"}, {tart, "use: dough\n        take: 40 g", "use: dark\n        take: 40 g"},
		{tart, "[dough, cooked-apple]", "[dark, cooked-apple]"}, {tart, "uses: [dark]", "uses: [dough]"}, {dough, "≤ 5 °C", "≤ 3 °C"}}},
	{"longer than what goes in unbaked", "keep", tart, []edit{{tart, "use: dark", "use: dough"}, {tart, "use: dough\n        take: 40 g", "use: dark\n        take: 40 g"},
		{tart, "[dough, cooked-apple]", "[dark, cooked-apple]"}, {tart, "uses: [dark]", "uses: [dough]"}, {dough, "3 days", "1 day"}}},
	{"longer than what goes in unbaked, deep down", "keep", tart, []edit{{tart, "use: dark", "use: cream"}, {tart, "[dark]", "[cream]"}, {dough, "3 days", "1 day"},
		{"formulas/cream.yaml", "", "name: {en: c, fr: c}\nversion: 1\nissued: 2026-01-10\nlines: [{use: dough, take: 5 g}]\n"}}},
	{"a reason for nothing", "!keep", tart, []edit{{tart, "life: 2 days", "life: 2 days\n  because: it is safe"}}},
	{"a reason in a formula", "!keep", dough, []edit{{dough, "life: 3 days", "life: 3 days\n  because: it is safe"}}},
	{"chilled with best before", "!keep", tart, []edit{{tart, "use-by", "best-before"}}},
	{"use by after months", "!keep", tart, []edit{{tart, "2 days", "3 months"}}},
	{"pack id", "id", tart, []edit{{tart, "id: box-of-2", "id: Box of 2"}, {tart, "pack: box-of-2", "pack: Box of 2"}}},
	{"pack that leaves the folder", "id", tart, []edit{{tart, "id: box-of-2", "id: ../box"}, {tart, "pack: box-of-2", "pack: ../box"}}},
	{"name too long", "name", tart, []edit{{tart, "Apple tart", strings.Repeat("Apple tart ", 19) + "long"}}},
	{"pack twice", "pack", tart, []edit{{tart, "packs:\n", "packs:\n  - {id: box-of-2, pieces: 1, net: 95 g, paper: s, largest-face: 50 cm², nutrition: exempt-small-maker}\n"}}},
	{"carton of an unknown pack", "pack", tart, []edit{{tart, "pack: box-of-2", "pack: box-of-3"}}},
	{"gtin check digit", "gtin", tart, []edit{{tart, `"9520001000010"`, `"9520001000011"`}}},
	{"gtin length", "gtin", tart, []edit{{tart, `"9520001000010"`, `"952000100001"`}}},
	{"gtin of 11 digits", "gtin", tart, []edit{{tart, `"9520001000010"`, `"95200010000"`}}},
	{"gtin with a letter", "gtin", tart, []edit{{tart, `"9520001000010"`, `"95200010000IO"`}}},
	{"gtin twice", "gtin", tin, []edit{{tin, `"9520001000027"`, `"9520001000010"`}}},
	{"gtin of another firm", "!gtin", tart, []edit{{tart, `"9520001000010"`, `"9521141111116"`}}},
	{"carton number on a pack", "gtin", tin, []edit{{tin, `"9520001000027"`, `"19520001000024"`}}},
	{"pack number on its carton", "gtin", tart, []edit{{tart, `"19520001000017"`, `"9520001000010"`}}},
	{"carton number of eight digits", "gtin", tart, []edit{{tart, `"19520001000017"`, `"95200019"`}}},
	{"carton number of variable mass", "gtin", tart, []edit{{tart, `"19520001000017"`, `"99520001000013"`}}},
	{"carton label on five sides", "carton", tart, []edit{{tart, "  holds: 12\n", "  holds: 12\n  sides: 5\n"}}},
	{"quantity of what is not in it", "percent", tart, []edit{{tart, "of: apple", "of: aple"}}},
	{"quantity decided twice", "percent", tart, []edit{{tart, "because: in-name", "because: in-name\n  - of: apple\n    exempt: flavouring"}}},
	{"quantity decided both ways", "percent", tart, []edit{{tart, "because: in-name", "because: in-name\n    exempt: flavouring"}}},

	{"two plans for a day", "plan", "plans/every-day.yaml", []edit{{"plans/every-day.yaml", "every day", "2026-03-17"}}},
	{"plan with an unknown product", "plan", march, []edit{{march, "product: apple-tart", "product: apple-tarts"}}},
	{"plan with an unknown pack", "plan", march, []edit{{march, "pieces: 48", "pieces: 48\n    pack: box"}}},
	{"plan with half a pack", "!plan", march, []edit{{march, "pieces: 48", "pieces: 47"}}},
	{"pieces promised twice", "promised", every, []edit{{every, "    labels: 12\n", ""}}},
	{"one pack too many", "promised", every, []edit{{every, "labels: 12", "labels: 13"}}},
	{"a tin too many", "promised", every, []edit{{every, "pieces: 6", "pieces: 7"}}},
	{"plan of nothing", "count", march, []edit{{march, "pieces: 48", "pieces: 0"}}},
	{"plan with four sizes", "plan", march, []edit{{march, "pieces: 48", "pieces: 48\n    card-sizes: [1, 2, 3, 4]"}}},
	{"cartons of a product without", "plan", "plans/every-day.yaml", []edit{{"plans/every-day.yaml", "pieces: 6", "pieces: 6\n    cartons: 1"}}},
	{"batch code twice", "batch", march, []edit{{march, "letter: B", "letter: A"}}},
	{"batch code by hand too long", "batch", march, []edit{{march, "letter: B", "batch: ABCDEFGHIJKLMNOPQRSTU"}}},
	{"carton number twice", "sscc", march, []edit{{march, `"3"`, `"2"`}}},
	{"carton number with a letter", "sscc", march, []edit{{march, `"3"`, `"3a"`}}},
	{"carton number too long", "sscc", march, []edit{{march, `"3"`, `"9999999999"`}}},
	{"carton number without a prefix", "sscc+", march, []edit{{profile, "gs1-prefix: \"9520001\"\n", ""}, {"plans/every-day.yaml", "    sscc-from: \"{yy}{day}01\"\n", ""}}},

	// Nothing is said twice: one mistake, one finding.
	{"malformed amount", "unit", syrup, []edit{{syrup, "300 g", "300"}}},
	{"malformed key", "unknown-key", tart, []edit{{tart, "    net:", "    nett:"}}},
	{"missing key", "missing-key", tart, []edit{{tart, "    net: 190 g\n", ""}}},
	{"no ingredients at all", "empty", "ingredients", []edit{{"ingredients/apple.yaml", "", ""}, {"ingredients/butter.yaml", "", ""}, {"ingredients/sugar.yaml", "", ""},
		{"ingredients/water.yaml", "", ""}, {dark, "", ""}, {egg, "", ""}, {flour, "", ""}}},
	{"ingredient taken away", "use", dough, []edit{{"ingredients/butter.yaml", "", ""}}},
	{"ingredient of a declared quantity taken away", "use", apples, []edit{{"ingredients/apple.yaml", "", ""}}},
	{"misspelt in a line, right in a step", "use", dough, []edit{{dough, "use: flour", "use: floor"}}},
	{"right in a line, misspelt in a step", "uses", dough, []edit{{dough, "[flour, butter, egg]", "[floor, butter, egg]"}}},
	{"medium misspelt, right in a step", "use", apples, []edit{{apples, "use: syrup", "use: sirup"}}},
	{"step twice, and needed", "step", tart, []edit{{tart, "id: bake", "id: fill"}}},
	{"misspelt allergen of an inner ingredient", "allergen", dark, []edit{{dark, "contains: [soybeans]", "contains: [soya]"}}},
	{"handling negative", "loss", tart, []edit{{tart, "4 %", "-4 %"}}},
	{"prefix of another firm", "!gtin", profile, []edit{{profile, `"9520001"`, `"9520002"`}}},
	{"pieces without end", "count", march, []edit{{march, "pieces: 48", "pieces: 999999999"}}},
	{"malformed name of a file", "id", "ingredients/Dark.yaml", []edit{{dark, "", ""}, {"ingredients/Dark.yaml", "", "x"}}},
}

func TestSmallIsFine(t *testing.T) {
	var found diag.List
	shop.Load(small(t), &found)
	for _, d := range found.All() {
		t.Errorf("%s", d)
	}
}

func TestFaults(t *testing.T) {
	var out strings.Builder
	names := map[string]bool{}
	for _, f := range faults {
		t.Run(f.name, func(t *testing.T) {
			if names[f.name] {
				t.Fatal("two faults of this name")
			}
			names[f.name] = true
			in := small(t)
			for _, e := range f.edits {
				e.apply(t, in)
			}
			var found diag.List
			shop.Load(in, &found)
			fmt.Fprintf(&out, "# %s\n", f.name)
			rule, several := strings.CutSuffix(f.rule, "+")
			rule, caution := strings.CutPrefix(rule, "!")
			for _, d := range found.All() {
				fmt.Fprintln(&out, ours(d))
				if d.Rule != rule || d.Warning != caution || d.Pos.File != f.file {
					t.Errorf("want only [%s] (caution: %v) in %s, found:\n%s", rule, caution, f.file, d)
				}
				if d.Hint == "" || strings.HasSuffix(d.Msg, ".") {
					t.Errorf("no hint, or a full stop: %s", d)
				}
			}
			if n := found.Len(); n == 0 || n > 1 && !several {
				t.Errorf("%d findings", n)
			}
		})
	}
	golden(t, "testdata/faults.out", out.String())
}

// ours leaves out the words of findings that the reader made.
func ours(d diag.Diag) string {
	switch d.Rule {
	case "number", "unit", "unknown-key", "missing-key":
		return fmt.Sprintf("%s: [%s]", d.Pos, d.Rule)
	}
	return d.String()
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	if *update {
		if err := os.WriteFile(name, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s differs; look at the change, then run with -update\ngot:\n%s", name, got)
	}
}
