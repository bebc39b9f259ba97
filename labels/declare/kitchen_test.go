package declare_test

import (
	"fmt"
	"strings"
	"testing"
	"testing/fstest"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/market"
	"chablon/labels/shop"
	"chablon/labels/unit"
)

// The acts, as the tests name them.
const (
	fic   = "Regulation (EU) No 1169/2011"
	cfr   = "21 CFR"
	codex = "CXS 1-1985"
	fsc   = "Food Standards Code"
	fdr   = "C.R.C., c. 870"
)

// A kitchen is a shop in the making: the bodies of its files by path.
type kitchen map[string]string

// pantry is a kitchen with what the examples of the law are made of.
func pantry() kitchen {
	k := kitchen{"shop.yaml": "name: A\naddress: B\nmarkets: [eu]\nlabel-languages: [en]\ncard-languages: [en]\nbatch-code: L{yy}{day}\n"}
	for _, line := range strings.Split(strings.TrimSpace(ingredients), "\n") {
		id, body, _ := strings.Cut(line, ":")
		k.ingredient(strings.TrimSpace(id), body)
	}
	return k
}

// What is bought, one a line: id, then keys in one line.
const ingredients = `
flour: contains: [wheat]
rye: contains: [rye]
water: added-water: yes
butter: contains: [milk]
milk: contains: [milk]
salt:
yeast:
sugar:
cane: name: {en: cane sugar}
eggs: contains: [eggs]
pork:
fruit:
almonds: contains: [almonds]
ground-hazelnuts: name: {en: hazelnuts}; contains: [hazelnuts]
whole-hazelnuts: name: {en: hazelnuts}; contains: [hazelnuts]
oiled-hazelnuts: name: {en: hazelnuts}; contains: [hazelnuts, peanuts]
aged-hazelnuts: name: {en: hazelnuts}; contains: [hazelnuts, almonds]
praline: contains: [hazelnuts, milk]; made-of: [{name: {en: sugar}, share: 50 %}, {name: {en: filling}, share: 50 %, contains: [hazelnuts, milk], made-of: [{name: {en: hazelnuts}, share: 60 %, contains: [hazelnuts]}, {name: {en: fat}, share: 40 %, contains: [milk]}]}]
fondant: contains: []; made-of: [{name: {en: sugar}, share: 80 %}, {name: {en: glucose syrup}, share: 20 %, contains: [wheat], exception: wheat-glucose-syrup}]
crunch: contains: [wheat]; made-of: [{name: {en: glucose syrup}, share: 60 %, contains: [wheat], exception: wheat-glucose-syrup}, {name: {en: crumbs}, share: 40 %, contains: [wheat]}]
deep-crunch: contains: [wheat]; made-of: [{name: {en: filling}, share: 100 %, made-of: [{name: {en: glucose syrup}, share: 60 %, contains: [wheat], exception: wheat-glucose-syrup}, {name: {en: crumbs}, share: 40 %, contains: [wheat]}]}]
drops: contains: [rye]; made-of: [{name: {en: glucose syrup}, share: 60 %, contains: [wheat], exception: wheat-glucose-syrup}, {name: {en: crumbs}, share: 40 %, contains: [rye]}]
rum: evaporates: yes; alcohol: 40 % vol
cinnamon:
ginger:
sesame: contains: [sesame]
palm: plant: {en: palm}
rapeseed: plant: {en: rapeseed}; hydrogenated: partly
chips: name: {en: chocolate}; contains: [soybeans]; defined-in-law: yes; made-of: [{name: {en: cocoa mass}, share: 50 %}, {name: {en: sugar}, share: 40 %}, {name: {en: cocoa butter}, share: 9 %}, {name: {en: soya lecithins}, share: 1 %, class: emulsifier, contains: [soybeans]}]
undefined: contains: []; made-of: [{name: {en: apple}, share: 70 %}, {name: {en: pear}, share: 30 %}]
spice-mix: contains: [celery]; mixture: spices; made-of: [{name: {en: pepper}, share: 60 %}, {name: {en: celery seed}, share: 40 %, contains: [celery]}]
icing: name: {en: icing sugar}; made-of: [{name: {en: sugar}, share: 97 %}, {name: {en: starch}, share: 3 %}]
apricots: contains: [sulphites]; sulphites: 800 mg/kg
apricots-low: contains: [sulphites]; sulphites: 60 mg/kg
apricots-edge: contains: [sulphites]; sulphites: 100 mg/kg
apricots-over: contains: [sulphites]; sulphites: 100.01 mg/kg
juice: contains: []; made-of: [{name: {en: lemon juice}, share: 99.9 %}, {name: {en: ascorbic acid}, share: 0.1 %, class: antioxidant, carried-over: yes}]
sauce: contains: []; made-of: [{name: {en: lemon juice}, share: 99.8 %}, {name: {en: ascorbic acid}, share: 0.1 %, class: antioxidant, carried-over: yes}, {name: {en: ascorbic acid}, share: 0.1 %, class: antioxidant}]
egg-wash: contains: [eggs]; made-of: [{name: {en: water}, share: 89 %}, {name: {en: lysozyme}, share: 11 %, class: preservative, carried-over: yes, contains: [eggs]}]
syrup: name: {en: glucose syrup}; contains: [wheat]; exception: wheat-glucose-syrup
brandy: contains: [wheat]; exception: distillate
wax-oil: name: {en: soya oil}; contains: [soybeans]
rape-oil: name: {en: rapeseed oil}
mustardy: name: {en: rapeseed oil}; may-contain: [mustard]
sun-oil: name: {en: sunflower oil}
powder: name: {en: skimmed milk}; contains: [milk]; fresh: 1 kg
sweet: name: {en: sucralose}; class: sweetener; e-number: E 955
lecithin: name: {en: lecithins}; class: emulsifier; e-number: E322; contains: [soybeans]
nutty: name: {en: nut paste}; contains: []; may-contain: [almonds, rye]
nutty-too: name: {en: seed paste}; contains: []; may-contain: [almonds, rye]
polyol: name: {en: maltitol}; flags: [polyol]
root: name: {en: liquorice}; glycyrrhizinic-acid: 2000 mg/kg
strong-root: name: {en: liquorice}; glycyrrhizinic-acid: 9 %
boost: name: {en: caffeine}; caffeine: 100 %
honey: origin: {en: Morvania}
`

// ingredient writes the file of an ingredient; keys are separated by "; ".
func (k kitchen) ingredient(id, body string) {
	full := "bought-as: " + id + "\n"
	for _, key := range strings.Split(body, "; ") {
		full += strings.TrimSpace(key) + "\n"
	}
	for key, usual := range map[string]string{"name": "{en: " + id + "}", "contains": "[]", "may-contain": "[]", "sulphites": "0 mg/kg",
		"spec": "{version: '1', dated: 2026-01-05, review-by: 2031-01-05}"} {
		if !strings.Contains("\n"+full, "\n"+key+":") {
			full += key + ": " + usual + "\n"
		}
	}
	k["ingredients/"+id+".yaml"] = full
}

// lines writes "flour 500, water 320" as lines of a formula. Keys of a line
// follow the mass in braces: "rum 20 {left: 6 g}".
func lines(indent, what string) string {
	var b strings.Builder
	for _, l := range strings.Split(what, ", ") {
		f := strings.SplitN(l, " ", 3)
		extra := ""
		f = append(f, "1")[:max(2, len(f))]
		if len(f) == 3 {
			extra = ", " + strings.Trim(f[2], "{}")
		}
		fmt.Fprintf(&b, "%s- {use: %s, take: %s g%s}\n", indent, f[0], f[1], extra)
	}
	return b.String()
}

// formula writes a formula that loses water until it weighs finished grams;
// 0 means that it loses none.
func (k kitchen) formula(id, what, off string) {
	body := "name: {en: " + id + "}\nversion: 1\nissued: 2026-01-01\nlines:\n" + lines("  ", what)
	if off != "" {
		body += "losses:\n  - {stage: bake, water-lost: " + off + "}\n"
	}
	k["formulas/"+id+".yaml"] = body
}

// product writes a product with parts and further keys, one a line.
func (k kitchen) product(id, what, off string, keys ...string) {
	body := "name: {en: " + id + "}\nversion: 1\nissued: 2026-01-01\nparts:\n  - stage: bake\n    add:\n" + lines("      ", what)
	if off != "" {
		body += "    water-lost: " + off + "\n"
	}
	full := body + strings.Join(keys, "\n") + "\n"
	if !strings.Contains(full, "\nkeep:") {
		full += "keep: {store: ambient, life: 21 days, date: best-before}\n"
	}
	if !strings.Contains(full, "\npacks:") {
		full += "packs: [{id: pack, pieces: 1, net: 1 g, paper: roll-100x60, largest-face: 100 cm², nutrition: exempt-small-maker}]\n"
	}
	k["products/"+id+".yaml"] = full
}

func (k kitchen) load(t testing.TB) *shop.Shop {
	t.Helper()
	files := fstest.MapFS{}
	for name, body := range k {
		files[name] = &fstest.MapFile{Data: []byte(body)}
	}
	var found diag.List
	sh := shop.Load(files, &found)
	for _, d := range found.All() {
		if !d.Warning {
			t.Fatalf("the kitchen of the test is not sound: %v", d)
		}
	}
	return sh
}

// of declares a product of the kitchen for a market.
func of(t testing.TB, k kitchen, id, in string) (*declare.Facts, *diag.List) {
	t.Helper()
	sh := k.load(t)
	p := sh.Products[id]
	m, ok := market.Get(in)
	if p == nil || !ok {
		t.Fatalf("no product %q or no market %q", id, in)
	}
	var found diag.List
	return declare.Of(sh, p, &p.Packs[0], m, day(t, "2026-03-10"), &found), &found
}

func day(t testing.TB, s string) unit.Date {
	t.Helper()
	d, err := unit.ParseDate(s)
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// show writes lists as text: "class: name 12.3 % [allergens not shown inside]
// {all allergens} (inner)".
func show(f *declare.Facts) string {
	var all []string
	for _, l := range f.Lists {
		s := ""
		for i, p := range l.Parts {
			if i > 0 {
				s += ", "
			}
			if i == l.Late {
				s += "| ≤ " + l.LateShare.String() + ": "
			}
			s += showPart(p)
		}
		all = append(all, s)
	}
	return strings.Join(all, " / ")
}

func showPart(p declare.Part) string {
	s := ""
	if p.Class != "" {
		s = p.Class + ": "
	}
	switch {
	case p.Number != "":
		s += p.Number
	case p.Group != "":
		s += p.Group
	default:
		s += english(p.Name)
	}
	if p.Alt != nil {
		s += " and/or " + english(p.Alt)
	}
	if p.Hydrogenated != "" {
		s += " " + p.Hydrogenated + "-hydrogenated"
	}
	if p.Varying {
		s += " varying"
	}
	if q := p.Quid; q != nil && q.PerHundred {
		s += fmt.Sprintf(" %s/100 g", (100*unit.Gram).Mul(q.Used, q.Of).Round(unit.Gram/10))
	} else if q != nil {
		f, _ := market.RoundQuid(q.Used, q.Of)
		s += fmt.Sprintf(" %d.%d %%", f.N/pow(f.Decimals), f.N%pow(f.Decimals))
	}
	if len(p.Show) > 0 {
		s += " [" + strings.Join(p.Show, " ") + "]"
	}
	var inner []string
	for _, i := range p.Inner {
		inner = append(inner, showPart(i))
	}
	if len(inner) > 0 {
		s += " (" + strings.Join(inner, ", ") + ")"
	}
	return s
}

func pow(n int) int64 {
	if n == 1 {
		return 10
	}
	return 1
}

func english(w shop.Words) string {
	v, ok := shop.In(w, "en")
	if !ok {
		return "?"
	}
	return v.V
}

// rules are the rules of what was found, errors plain, warnings with a "?".
func rules(found *diag.List) string {
	var out []string
	for _, d := range found.All() {
		r := d.Rule
		if d.Warning {
			r += "?"
		}
		out = append(out, r)
	}
	return strings.Join(out, " ")
}

// facts declares a product of a shop, made on 10 March 2026.
func facts(sh *shop.Shop, p *shop.Product, m *market.Market) (*declare.Facts, *diag.List) {
	var found diag.List
	made, _ := unit.ParseDate("2026-03-10")
	return declare.Of(sh, p, &p.Packs[0], m, made, &found), &found
}

// unsound is the shop of a kitchen whatever is wrong with it.
func (k kitchen) unsound() *shop.Shop {
	files := fstest.MapFS{}
	for name, body := range k {
		files[name] = &fstest.MapFile{Data: []byte(body)}
	}
	return shop.Load(files, new(diag.List))
}
