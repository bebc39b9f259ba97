package carton

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"chablon/labels/declare"
	"chablon/labels/diag"
	"chablon/labels/gs1"
	"chablon/labels/market"
	"chablon/labels/role"
	"chablon/labels/shop"
	"chablon/labels/unit"
	"chablon/labels/words"
	"chablon/layout/layouttest"
	"chablon/layout/page"
	"chablon/layout/preflight"
	"chablon/layout/stock"
	"chablon/layout/text"
	"chablon/samples"
)

// of is a run of two cartons of a demo product, numbered from serial 1, on
// the carton's own stock.
func of(t testing.TB, sh *shop.Shop, id string) Carton {
	t.Helper()
	var found diag.List
	p := sh.Products[id]
	k, ok := p.Pack(p.Carton.Pack.V)
	if !ok {
		t.Fatalf("%s: no pack", id)
	}
	c := Carton{Facts: declare.Of(sh, p, k, layouttest.Market(t, "eu"), layouttest.Day(), &found), Batch: "L26076A", Of: 2}
	for _, code := range sh.LanguagesOf(k) {
		l, _ := words.Get(code.V)
		c.Langs = append(c.Langs, l)
		c.Told = append(c.Told, words.Tell(c.Facts, sh, l, &found))
	}
	var err error
	if c.SSCCs, err = Numbers("9520001", 1, 2); err != nil {
		t.Fatal(err)
	}
	if found.Errors() > 0 {
		t.Fatal(found.All()[0])
	}
	return on(t, c, p.Carton.Paper.V)
}

// on is c on another stock, with the printer that has it in the demo shop.
func on(t testing.TB, c Carton, id string) Carton {
	t.Helper()
	c.Stock, c.Dots = layouttest.Paper(t, id), layouttest.Coarse()
	if c.Stock.Kind.V == "sheet" {
		c.Dots = layouttest.Office()
	}
	return c
}

// composed sets c and fails on any error found.
func composed(t testing.TB, c Carton) *Set {
	t.Helper()
	var found diag.List
	s := Compose(c, layouttest.Faces(t), &found)
	if s == nil || found.Errors() > 0 {
		t.Fatalf("%s on %s: %v", c.Facts.Product.ID, c.Stock.ID, found.All())
	}
	return s
}

// sheet is label n on a page of its own.
func sheet(s *Set, n int) *page.Page {
	return &page.Page{W: s.Art.W, H: s.Art.H, Placed: []page.Placed{{Art: s.Art}}, Items: s.Own(n)}
}

// marks are all marks of label n.
func marks(s *Set, n int) []page.Item { return sheet(s, n).All() }

// said is the text of a role on label n, fragments joined by spaces.
func saidBy(s *Set, n int, role role.Role) string {
	var out []string
	for _, it := range marks(s, n) {
		if it.Run != nil && it.Role == role {
			out = append(out, it.Run.Text)
		}
	}
	return strings.Join(strings.Fields(strings.Join(out, " ")), " ")
}

func TestGolden(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, id := range sh.ProductIDs {
		t.Run(id, func(t *testing.T) {
			s := composed(t, of(t, sh, id))
			layouttest.Golden(t, id+".dump", sheet(s, 1).Dump())
		})
	}
}

func TestSameInputSamePage(t *testing.T) {
	sh := layouttest.Shop(t)
	c := of(t, sh, "rye-shortbread-tin")
	layouttest.Same(t, []*page.Page{sheet(composed(t, c), 2)}, []*page.Page{sheet(composed(t, c), 2)})
}

// Every label that is set passes preflight, as outer packaging between
// businesses and with its bars scanned in warehouses, on every printer.
func TestPreflight(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, dots := range []unit.Dots{layouttest.Coarse(), {N: 12, Per: unit.MM}, {N: 24, Per: unit.MM}, {N: 203, Per: unit.Inch}, {N: 300, Per: unit.Inch}, layouttest.Office()} {
		for _, id := range sh.ProductIDs {
			c := of(t, sh, id)
			c.Dots = dots
			s := composed(t, c)
			for n := 1; n <= len(s.own); n++ {
				rules := preflight.Sheet{What: fmt.Sprintf("the carton of %s at %s", id, dots), Safe: s.Safe, Market: c.Facts.Market, Pack: c.Pack(),
					Use: gs1.Trade, Today: layouttest.Day(), Date: c.Facts.Date.End}
				layouttest.Passes(t, rules, sheet(s, n))
			}
		}
	}
}

// Regulation (EU) No 1169/2011 Art. 8(7), last subparagraph: name (a), date
// (f), storage (g) and operator (h) also stand on the outer packaging, in
// words (Art. 9(2)), here in every language of the pack.
func TestParticularsOfOuterPackaging(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, id := range sh.ProductIDs {
		c := of(t, sh, id)
		s := composed(t, c)
		for _, l := range c.Told {
			for what, want := range map[role.Role]string{role.Name: l.Name.Text, role.Date: l.Date.Text, role.Keep: l.Keep.Text, role.Operator: l.Operator.Text, role.May: l.May.Text} {
				if want == "" && what != role.May {
					t.Errorf("%s, %s: nothing is told for %s", id, l.Lang, what)
				}
				if got := saidBy(s, 1, what); !strings.Contains(layouttest.Bare(got), layouttest.Bare(want)) {
					t.Errorf("%s: %s says %q, not %q", id, what, got, want)
				}
			}
		}
	}
}

// Annex II: what is in the packs is named on the carton in every language,
// and emphasised as in a list (Art. 21(1)).
func TestAllergensAreNamedInEveryLanguage(t *testing.T) {
	sh := layouttest.Shop(t)
	for _, id := range sh.ProductIDs {
		c := of(t, sh, id)
		s := composed(t, c)
		var strong strings.Builder
		for _, it := range marks(s, 1) {
			if it.Role == role.Allergens && it.Run.Face == "bold" {
				strong.WriteString(layouttest.Bare(it.Run.Text))
			}
		}
		if len(c.Facts.Contains) == 0 {
			t.Errorf("%s contains nothing; the test shows nothing", id)
		}
		for _, l := range c.Langs {
			for _, a := range c.Facts.Contains {
				name, _, err := l.Allergen(a)
				if err != nil || !strings.Contains(strong.String(), layouttest.Bare(name)) {
					t.Errorf("%s, %s: %q is not emphasised in %q (%v)", id, l.Code(), name, strong.String(), err)
				}
			}
		}
	}
}

// Values of the demo shop. Check digits by mod 10 (GGS 7.9).
func TestNumbersOfTheDemoShop(t *testing.T) {
	got, err := Numbers("9520001", 1, 3)
	want := []string{"095200010000000010", "095200010000000027", "095200010000000034"}
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("SSCCs %v (%v), want %v", got, err, want)
	}
	for _, s := range want {
		if err := gs1.ValidAs(gs1.KindSSCC, s); err != nil {
			t.Error(err)
		}
	}
	// GGS figure 6.6.5-2 has extension digit 3: all but that and the check
	// digit must agree.
	if got, err := Numbers("9501101", 530000001, 1); err != nil || got[0][1:17] != "395011015300000011"[1:17] {
		t.Errorf("got %v (%v)", got, err)
	}
	if got, err := Numbers("9520001", 999_999_999, 2); err == nil {
		t.Errorf("a serial of ten digits fits: %v", got)
	}
	if got, err := Numbers("9520001", 1, -1); err != nil || got != nil {
		t.Errorf("minus one carton has %v (%v)", got, err)
	}
}

// The art is shared; only "carton n of m" and the SSCC are a carton's own.
func TestOwnMarks(t *testing.T) {
	c := of(t, layouttest.Shop(t), "pear-hazelnut-tartlet")
	s := composed(t, c)
	if len(s.own) != 2 {
		t.Fatalf("%d labels", len(s.own))
	}
	for n := 1; n <= 2; n++ {
		if got, want := saidBy(s, n, role.Serial), fmt.Sprintf("carton %d of 2", n); got != want {
			t.Errorf("label %d says %q", n, got)
		}
		own := s.Own(n)
		if len(own) != 5 || own[1].Symbol.Data != "00"+c.SSCCs[n-1] || own[2].Run.Text != "(00)"+c.SSCCs[n-1] || own[3].Run.Text != c.SSCCs[n-1] ||
			!strings.Contains(own[4].Symbol.Data, "00"+c.SSCCs[n-1]) {
			t.Errorf("label %d has %d own marks", n, len(own))
		}
	}
	for _, it := range s.Art.Items {
		if it.Role == role.Serial || it.Symbol != nil && strings.HasPrefix(it.Symbol.Data, "00") {
			t.Errorf("%+v stands still", it)
		}
	}
	if s.Own(0) != nil || s.Own(3) != nil {
		t.Error("there are marks of a carton that is not there")
	}
}

// A frame is drawn once, as wide as its longest text.
func TestManyCartons(t *testing.T) {
	c := of(t, layouttest.Shop(t), "pear-hazelnut-tartlet")
	c.Of = 1200
	var err error
	if c.SSCCs, err = Numbers("9520001", 1, c.Of); err != nil {
		t.Fatal(err)
	}
	s := composed(t, c)
	for _, n := range []int{1, 999, 1200} {
		var found diag.List
		preflight.Own(preflight.Sheet{Safe: s.Safe, Use: gs1.Trade}, s.Art.Items, s.Own(n), &found)
		if found.Len() > 0 || saidBy(s, n, role.Serial) != fmt.Sprintf("carton %d of 1200", n) {
			t.Errorf("carton %d: %q, %v", n, saidBy(s, n, role.Serial), found.All())
		}
	}
}

func write(t testing.TB, s *Set) []byte {
	t.Helper()
	var pages []*page.Page
	for n := 1; n <= len(s.own); n++ {
		pages = append(pages, sheet(s, n))
	}
	return layouttest.PDF(t, pages...)
}

func Example() {
	var found diag.List
	sh := shop.Load(samples.Demo(), &found)
	p := sh.Products["pear-hazelnut-tartlet"]
	k, _ := p.Pack(p.Carton.Pack.V)
	eu, _ := market.Get("eu")
	en, _ := words.Get("en")
	a5, _ := stock.Get("roll-a5")
	f, err := text.Load()
	if err != nil {
		fmt.Println(err)
		return
	}
	c := Carton{Facts: declare.Of(sh, p, k, eu, layouttest.Day(), &found), Langs: []*words.Lang{en}, Batch: "L26076A", Of: 2, Stock: a5, Dots: layouttest.Coarse()}
	c.Told = []*words.Label{words.Tell(c.Facts, sh, en, &found)}
	c.SSCCs, err = Numbers(sh.Profile.GS1Prefix.V, 1, c.Of)
	if err != nil {
		fmt.Println(err)
		return
	}
	s := Compose(c, f, &found)
	for _, it := range append(s.Art.Items, s.Own(2)...) {
		if it.Symbol != nil || it.Role == role.Serial {
			b := it.Box
			fmt.Printf("%3.0f × %2.0f mm at %3.0f, %3.0f: %s\n", b.W.MM(), b.H.MM(), b.X.MM(), b.Y.MM(), what(it))
		}
	}
	fmt.Println(found.Len(), "findings")
	// Output:
	//  99 × 32 mm at  24, 129: GS1-128 011952000100001717260319
	//  55 ×  8 mm at  86,   7: carton 2 of 2
	//  88 × 32 mm at  30, 168: GS1-128 00095200010000000027
	//  18 × 18 mm at 126, 105: GS1 DataMatrix 0119520001000017000952000100000000271726031910L26076A
	// 0 findings
}

func what(it page.Item) string {
	if it.Symbol != nil {
		return it.Symbol.Kind + " " + it.Symbol.Data
	}
	return it.Run.Text
}
